/* The reviewer's sheet: fingerprints against published vectors, every state of
 * a reading, the statistical rule at its edges, what releases the hold point
 * and what keeps it closed. */

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "audit/auditing.h"
#include "bothways/bothways.h"
#include "one_document.h"
#include "profile_case.h"
#include "sha256.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* ---- SHA-256 ------------------------------------------------------------ */

static const char *digest(const char *text, size_t repeat, size_t part)
{
    static char hex[BW_SHA256_TEXT];
    bw_sha256 hash;
    bw_sha256_start(&hash);
    for (size_t i = 0; i < repeat; i++)
        for (size_t at = 0; at < strlen(text); at += part) {
            size_t left = strlen(text) - at;
            bw_sha256_add(&hash, text + at, left < part ? left : part);
        }
    bw_sha256_finish(&hash, hex);
    return hex;
}

/* The examples of FIPS 180-4 (one block, two blocks, a million 'a') and the
 * NIST example file's empty message; from memory, and as sha256sum of GNU
 * coreutils prints them. */
static const struct vector {
    const char *text;
    size_t repeat;
    const char *hex;
} vectors[] = {
    {"", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
    {"abc", 1,
     "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
    {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1,
     "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
    {"abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopj"
     "klmnopqklmnopqrlmnopqrsmnopqrstnopqrstu",
     1, "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1"},
    {"aaaaaaaaaa", 100000,
     "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
};

START_TEST(sha256_gives_the_published_digests)
{
    const struct vector *v = &vectors[_i];
    ck_assert_str_eq(digest(v->text, v->repeat, 1000), v->hex);
    ck_assert_str_eq(digest(v->text, v->repeat, 7), v->hex);
}
END_TEST

/* Around the padding's edges the digest must not depend on how the bytes
 * came; every length differs from its neighbour. */
START_TEST(sha256_does_not_depend_on_the_parts)
{
    char text[140], last[BW_SHA256_TEXT] = "";
    for (size_t n = 0; n < sizeof text - 1; n++) {
        char whole[BW_SHA256_TEXT];
        memset(text, 'x', n);
        text[n] = '\0';
        strcpy(whole, digest(text, 1, 1000));
        ck_assert_str_eq(digest(text, 1, 3), whole);
        ck_assert_str_ne(whole, last);
        strcpy(last, whole);
    }
}
END_TEST

/* ---- a wall made by hand ------------------------------------------------ */

static bw_audit_core core;
static bw_assembly assembly;
static bw_assessment assessment;
static bw_air_test tests[3];
static bw_moisture_limit limits[2];
static bw_reading readings[40];
static bw_layer layers[5];
static bw_layer *const layer = &layers[0];
static bw_material pine, board;
static bw_evidence_item shown;
static bw_margin margin;
static bw_unknown unknowns[3];

#define READ(day, of, where, percentage, deep, at)                             \
    {                                                                          \
        .date = (day), .member = (of), .place = (where),                       \
        .moisture = (percentage), .depth = (deep), .meter = "pins",            \
        .species = "pine", .by = "A. B.", .photograph = "", .note = "heated",  \
        .source = "", .line = (at)                                             \
    }

static void setup(void)
{
    memset(&core, 0, sizeof core);
    memset(&margin, 0, sizeof margin);
    memset(unknowns, 0, sizeof unknowns);
    static const char *const ids[] = {"sheathing", "stud", "sole plate", "rail",
                                      "post"};
    pine = (bw_material){.name = "pine", .wood_kind = BW_SOLID_WOOD};
    board = (bw_material){.name = "board"};
    for (size_t i = 0; i < COUNT(layers); i++)
        layers[i] = (bw_layer){.id = ids[i],
                               .name = ids[i],
                               .material = i == 0 ? &board : &pine,
                               .thickness = 0.045,
                               .evidence = BW_EVIDENCE_TABULATED,
                               .source = ""};
    layer->evidence = BW_EVIDENCE_ASSUMED;
    shown = (bw_evidence_item){.kind = "label",
                               .of = "the board",
                               .ref = "7",
                               .date = "2031-05-03",
                               .part = {"sheathing", 0, false}};
    tests[0] = (bw_air_test){.date = "2031-05-02",
                             .stage = "membrane-exposed",
                             .q50 = 0.8 / 3600.0,
                             .leak_search = true,
                             .by = "C. D.",
                             .ref = "protocol 1",
                             .source = "",
                             .line = 1};
    limits[0] = (bw_moisture_limit){
        .member = "stud", .allowed = 0.18, .critical = 0.20, .line = 2};
    readings[0] = (bw_reading)READ("2031-05-20", "stud", "bay 1", 0.16, 0.02,
                                   3);
    assembly = (bw_assembly){
        .file = "test",
        .layer_count = COUNT(layers),
        .layer = layers,
        .air_leakage = {.given = true, .q50 = 3.0 / 3600.0},
        .closing_up = {.given = true,
                       .air_test_count = 1,
                       .air_test = tests,
                       .limit_count = 1,
                       .limit = limits,
                       .reading_count = 1,
                       .reading = readings,
                       .evidence_count = 1,
                       .evidence = &shown}};
    assessment = (bw_assessment){.assembly = &assembly,
                                 .verdict = BW_HOLDS,
                                 .verdict_reason = "because"};
    core.assembly = &assembly;
    core.audit.assessment = &assessment;
    core.audit.profile = bw_profile_default();
    core.audit.date = "2031-05-30";
}

static void teardown(void)
{
    bw_arena_release(&core.arena);
}

static bw_status weigh(bw_error *err)
{
    bw_status status = bw_audit_air_test(&core, err);
    if (status == BW_OK)
        status = bw_audit_readings(&core, err);
    if (status == BW_OK)
        status = bw_audit_unknowns(&core, err);
    if (status == BW_OK)
        status = bw_audit_hold_point(&core, err);
    return status;
}

static bool released(void)
{
    ck_assert_int_eq(weigh(NULL), BW_OK);
    ck_assert(core.audit.released == (core.audit.open_count == 0));
    return core.audit.released;
}

static const char *only_reason(void)
{
    ck_assert(!released());
    ck_assert_uint_eq(core.audit.open_count, 1);
    return core.audit.open[0].text;
}

#define SAYS(text, part)                                                       \
    ck_assert_msg(strstr((text), (part)) != NULL, "'%s' not in '%s'", (part),  \
                  (text))

static const bw_member_decision *stud(void)
{
    ck_assert_int_eq(weigh(NULL), BW_OK);
    ck_assert_uint_ge(core.audit.member_count, 1);
    return &core.audit.member[0];
}

/* ---- readings ------------------------------------------------------------ */

START_TEST(a_reading_has_three_states)
{
    static const struct {
        double moisture;
        bw_reading_decision decision;
    } cases[] = {
        {0.060, BW_READING_ACCEPT},
        {0.180, BW_READING_ACCEPT}, /* at allowed */
        {0.181, BW_READING_DRY_AND_READ},
        {0.200, BW_READING_DRY_AND_READ}, /* at critical */
        {0.201, BW_READING_INSPECT},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        readings[0].moisture = cases[i].moisture;
        ck_assert_int_eq(stud()->decision, cases[i].decision);
        ck_assert_int_eq(core.audit.reading[0].decision, cases[i].decision);
        ck_assert_int_eq(core.audit.released,
                         cases[i].decision == BW_READING_ACCEPT);
    }
}
END_TEST

START_TEST(the_worst_reading_decides_for_its_member)
{
    readings[1] = (bw_reading)READ("2031-05-20", "stud", "bay 2", 0.25, 0.02,
                                   4);
    readings[2] = (bw_reading)READ("2031-05-20", "stud", "bay 3", 0.19, 0.02,
                                   5);
    assembly.closing_up.reading_count = 3;
    const bw_member_decision *d = stud();
    ck_assert_int_eq(d->decision, BW_READING_INSPECT);
    ck_assert_uint_eq(d->reading_count, 3);
    ck_assert_double_eq_tol(d->highest, 0.25, 1e-12);
    ck_assert_double_eq_tol(d->share_within, 1.0 / 3.0, 1e-12);
    SAYS(only_reason(), "inspect for damage");
}
END_TEST

START_TEST(a_member_without_readings_is_not_evidenced)
{
    limits[1] = (bw_moisture_limit){
        .member = "sole plate", .allowed = 0.18, .critical = 0.20, .line = 3};
    assembly.closing_up.limit_count = 2;
    SAYS(only_reason(), "sole plate: not evidenced");
    ck_assert_int_eq(core.audit.member[1].decision, BW_READING_NOT_EVIDENCED);
    ck_assert(!core.audit.member[1].statistical_rule);
}
END_TEST

START_TEST(a_reading_without_a_limit_is_not_evidenced)
{
    readings[1] = (bw_reading)READ("2031-05-20", "post", "corner", 0.10, 0.02,
                                   4);
    assembly.closing_up.reading_count = 2;
    SAYS(only_reason(), "no limit was set");
    ck_assert_uint_eq(core.audit.member_count, 2);
    ck_assert_int_eq(core.audit.member[1].decision, BW_READING_NOT_EVIDENCED);
}
END_TEST

START_TEST(nothing_at_all_is_not_evidenced)
{
    assembly.closing_up = (bw_closing_up){.given = false};
    ck_assert(!released());
    ck_assert_uint_eq(core.audit.open_count, 3);
    SAYS(core.audit.open[0].text, "air tightness: not evidenced");
    SAYS(core.audit.open[1].text, "moisture: not evidenced");
    SAYS(core.audit.open[2].text, "layer sheathing: nothing shows what it is");
}
END_TEST

START_TEST(limits_out_of_order_are_refused)
{
    bw_error err = {0};
    limits[0].critical = 0.17;
    ck_assert_int_eq(weigh(&err), BW_ERR_INPUT);
    ck_assert_int_eq((int)err.line, 2);
    SAYS(err.message, "stud");
    limits[0].critical = NAN;
    ck_assert_int_eq(weigh(&err), BW_ERR_INPUT);
}
END_TEST

/* The edges: exactly 90 %, exactly 2 points. */
START_TEST(the_statistical_rule_holds_at_its_edges)
{
    static const struct {
        size_t within, beyond;
        double excess;
        bool met;
    } cases[] = {
        {10, 0, 0.0, true},    {9, 1, 0.0200, true},   {9, 1, 0.0201, false},
        {8, 1, 0.0100, false}, {18, 2, 0.0200, true},  {17, 2, 0.0100, false},
        {27, 3, 0.0200, true}, {26, 3, 0.0100, false}, {0, 1, 0.0100, false},
    };
    limits[0].critical = 0.30;
    for (size_t i = 0; i < COUNT(cases); i++) {
        size_t count = cases[i].within + cases[i].beyond;
        for (size_t k = 0; k < count; k++)
            readings[k] = (bw_reading)READ(
                "2031-05-20", "stud", k < cases[i].within ? "dry" : "wet",
                k < cases[i].within ? 0.18 : 0.18 + cases[i].excess, 0.02, 3);
        assembly.closing_up.reading_count = count;
        ck_assert_msg(stud()->statistical_rule == cases[i].met, "case %zu", i);
        ck_assert_uint_eq(core.audit.member[0].reading_count, count);
    }
}
END_TEST

START_TEST(the_statistical_rule_alone_releases_nothing)
{
    for (size_t k = 0; k < 10; k++)
        readings[k] = (bw_reading)READ("2031-05-20", "stud", "bay",
                                       k < 9 ? 0.18 : 0.19, 0.02, 3);
    assembly.closing_up.reading_count = 10;
    ck_assert(stud()->statistical_rule);
    SAYS(only_reason(), "dry and read again");
}
END_TEST

START_TEST(the_latest_reading_of_a_place_counts)
{
    readings[0].moisture = 0.25;
    readings[1] = (bw_reading)READ("2031-05-26", "stud", "bay 1", 0.15, 0.02,
                                   4);
    assembly.closing_up.reading_count = 2;
    ck_assert(released());
    ck_assert(!core.audit.reading[0].counts);
    ck_assert(core.audit.reading[1].counts);
    ck_assert_int_eq(core.audit.reading[0].decision, BW_READING_INSPECT);
    ck_assert_uint_eq(core.audit.member[0].earlier_count, 1);
    ck_assert_uint_eq(core.audit.member[0].reading_count, 1);
    /* the order in the file does not matter */
    bw_reading first = readings[0];
    readings[0] = readings[1];
    readings[1] = first;
    ck_assert(released());
    /* and wet again is wet again */
    readings[1].date = "2031-05-28";
    ck_assert(!released());
}
END_TEST

START_TEST(what_does_not_replace_an_earlier_reading)
{
    static const bw_reading others[] = {
        READ("2031-05-26", "stud", "bay 2", 0.15, 0.02, 4), /* another place */
        READ("2031-05-26", "rail", "bay 1", 0.15, 0.02, 4), /* another member */
        READ("2031-05-20", "stud", "bay 1", 0.15, 0.02, 4), /* the same day */
        READ("2031-05-26", "stud", "bay 1", 0.15, 0.01, 4), /* shallower */
        READ("2031-05-26", "stud", "bay 1", 0.15, 0.00, 4), /* depth unknown */
    };
    limits[1] = (bw_moisture_limit){
        .member = "rail", .allowed = 0.18, .critical = 0.20, .line = 3};
    readings[0].moisture = 0.25;
    assembly.closing_up.reading_count = 2;
    for (size_t i = 0; i < COUNT(others); i++) {
        readings[1] = others[i];
        assembly.closing_up.limit_count = i == 1 ? 2 : 1;
        ck_assert_msg(!released(), "case %zu", i);
        ck_assert(core.audit.reading[0].counts);
    }
}
END_TEST

START_TEST(a_reading_is_dated_against_the_interim_test)
{
    static const struct {
        const char *date;
        bw_reading_when when;
    } cases[] = {{"2031-05-20", BW_READ_BEFORE_TEST},
                 {"2031-05-21", BW_READ_SAME_DAY},
                 {"2031-05-22", BW_READ_AFTER_TEST},
                 {"2031-05-16", BW_READ_BEFORE_TEST}};
    tests[0].date = "2031-05-21";
    for (size_t i = 0; i < COUNT(cases); i++) {
        readings[0].date = cases[i].date;
        ck_assert(released());
        ck_assert_int_eq(core.audit.reading[0].when, cases[i].when);
    }
    assembly.closing_up.air_test_count = 0;
    ck_assert(!released());
    ck_assert_int_eq(core.audit.reading[0].when, BW_READ_NO_TEST);
}
END_TEST

/* ---- air test ------------------------------------------------------------ */

START_TEST(an_interim_test_needs_its_stage_its_search_and_its_value)
{
    ck_assert(released());
    tests[0].leak_search = false;
    SAYS(only_reason(), "NO leak search");
    tests[0].leak_search = true;
    tests[0].stage = "finished";
    SAYS(only_reason(), "the finished building alone");
    tests[0].stage = "membrane-exposed";
    tests[0].q50 = 3.0 / 3600.0; /* as assumed */
    ck_assert(released());
    tests[0].q50 = 3.01 / 3600.0;
    SAYS(only_reason(), "leakier than assumed");
    assembly.air_leakage.given = false;
    ck_assert(released());
    SAYS(core.audit.air_test_text,
         "the file assumes no air leakage; computed with 3.46 m3");
}
END_TEST

START_TEST(of_several_interim_tests_the_latest_counts)
{
    tests[1] = tests[0];
    tests[1].ref = "another protocol";
    tests[1].date = "2031-04-01";
    tests[1].leak_search = false;
    assembly.closing_up.air_test_count = 2;
    ck_assert(released());
    tests[1].date = "2031-05-28";
    ck_assert(!released());
    ck_assert_ptr_eq(core.audit.air_test, &tests[1]);
    tests[1].stage = "finished";
    ck_assert(released());
}
END_TEST

/* ---- hold point ---------------------------------------------------------- */

/* Verdict, air test, readings: only all three release. */
START_TEST(only_all_evidence_with_a_good_verdict_releases)
{
    for (int verdict = BW_HOLDS; verdict <= BW_NOT_ASSESSED; verdict++)
        for (int air = 0; air < 2; air++)
            for (int dry = 0; dry < 2; dry++) {
                assessment.verdict = (bw_verdict)verdict;
                tests[0].leak_search = air == 1;
                readings[0].moisture = dry == 1 ? 0.16 : 0.19;
                bool good = verdict == BW_HOLDS || verdict == BW_MARGINAL;
                ck_assert_int_eq(released(), good && air == 1 && dry == 1);
                ck_assert_uint_eq(core.audit.open_count,
                                  (size_t)(!good + !air + !dry));
            }
}
END_TEST

static void vary(bw_unknown_kind kind)
{
    unknowns[0] = (bw_unknown){.kind = BW_UNKNOWN_STANDARD,
                               .name = "cavity blocked",
                               .layer = "cavity",
                               .unit = "",
                               .seen = true,
                               .note = ""};
    unknowns[1] = (bw_unknown){.kind = kind,
                               .name = "mu of the sheathing",
                               .layer = "sheathing",
                               .unit = "-",
                               .continuous = true,
                               .seen = true,
                               .note = "",
                               .flips = true,
                               .flip_value = 23.4,
                               .flip_criterion = "annual-balance (whole)",
                               .flip_fails = true,
                               .flip_changes_verdict = true};
    margin = (bw_margin){.unknown_count = 2, .unknown = unknowns};
    core.margin = &margin;
    core.audit.margin = &margin;
}

START_TEST(an_assumed_layer_that_decides_keeps_it_closed_and_comes_first)
{
    vary(BW_UNKNOWN_RANGE);
    SAYS(only_reason(), "mu of the sheathing at 23.4, annual-balance");
    ck_assert_ptr_eq(core.audit.unknown[0].unknown, &unknowns[1]);
    ck_assert(core.audit.unknown[0].assumed && core.audit.unknown[0].decides);
    layer->evidence = BW_EVIDENCE_TABULATED;
    ck_assert(released());
    layer->evidence = BW_EVIDENCE_ASSUMED;
    unknowns[1].flip_changes_verdict = false;
    ck_assert(released());
    unknowns[1].flip_changes_verdict = true;
    unknowns[1].flip_fails = false;
    ck_assert(released());
    vary(BW_UNKNOWN_STANDARD); /* a case to think of, not a gap in evidence */
    ck_assert(released());
}
END_TEST

START_TEST(what_decides_is_listed_before_what_only_flips)
{
    vary(BW_UNKNOWN_RANGE);
    unknowns[2] = unknowns[1];
    unknowns[2].layer = "";
    unknowns[0] = unknowns[1];
    unknowns[0].flip_changes_verdict = false;
    margin.unknown_count = 3;
    ck_assert(!released());
    ck_assert_ptr_eq(core.audit.unknown[0].unknown, &unknowns[1]);
    ck_assert_ptr_eq(core.audit.unknown[1].unknown, &unknowns[2]);
    ck_assert_ptr_eq(core.audit.unknown[2].unknown, &unknowns[0]);
}
END_TEST

START_TEST(assumed_layers_without_a_sensitivity_keep_it_closed)
{
    assessment.assumed_count = 1;
    SAYS(only_reason(), "sensitivity");
}
END_TEST

/* Thresholds of the sources in assemblies/profiles. */
START_TEST(a_profile_limits_the_moisture_at_closing_up)
{
    static const struct {
        const char *profile;
        double moisture;
        bool released;
    } cases[] = {
        {"uk-nhbc", 0.199, true},    {"uk-nhbc", 0.200, false},
        {"de-din4108", 0.200, true}, {"de-din4108", 0.201, false},
        {"us-irc", 0.180, true},     {"us-irc", 0.181, false},
        {"au-ncc", 0.149, true},     {"au-ncc", 0.150, false},
        {"default", 0.25, true},
    };
    pine.wood_kind = BW_NOT_WOOD; /* then the limits of the file hold */
    readings[0].species = "";     /* and nobody read it as wood */
    limits[0] = (bw_moisture_limit){
        .member = "stud", .allowed = 0.25, .critical = 0.30, .line = 2};
    for (size_t i = 0; i < COUNT(cases); i++) {
        core.audit.profile = profile_named(cases[i].profile);
        readings[0].moisture = cases[i].moisture;
        ck_assert_msg(released() == cases[i].released, "case %zu", i);
        if (!core.audit.released)
            SAYS(core.audit.open[0].text, cases[i].profile);
    }
}
END_TEST

START_TEST(decisions_are_named)
{
    ck_assert_str_eq(bw_reading_decision_text(BW_READING_ACCEPT), "accept");
    ck_assert_str_eq(bw_reading_decision_text(BW_READING_DRY_AND_READ),
                     "dry and read again");
    ck_assert_str_eq(bw_reading_decision_text((bw_reading_decision)9),
                     "not evidenced");
}
END_TEST

/* ---- the whole ----------------------------------------------------------- */

typedef struct paper {
    char text[512 * 1024];
    size_t used;
} paper;

static paper sheet;

static bool collect(void *payload, const char *bytes, size_t length)
{
    paper *p = payload;
    ck_assert_uint_lt(p->used + length, sizeof p->text);
    memcpy(p->text + p->used, bytes, length);
    p->used += length;
    p->text[p->used] = '\0';
    return true;
}

static bool refuse(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    (void)bytes;
    (void)length;
    return false;
}

typedef struct demo {
    bw_library *library;
    bw_assembly *assembly;
    bw_climate *climate;
    bw_audit *audit;
} demo;

static bw_status demo_make(demo *d, const char *file,
                           const bw_audit_options *options, bw_error *err)
{
    static const char *const folders[] = {BW_SOURCE_DIR "/materials"};
    *d = (demo){0};
    ck_assert_int_eq(bw_library_read(&d->library, folders, 1, err), BW_OK);
    ck_assert_int_eq(bw_assembly_read(&d->assembly, file, d->library, err),
                     BW_OK);
    ck_assert_int_eq(
        bw_climate_read(&d->climate, d->assembly->outdoors.climate_path, err),
        BW_OK);
    return bw_audit_make(&d->audit, d->assembly, d->climate, options, err);
}

static void demo_free(demo *d)
{
    bw_audit_free(d->audit);
    bw_assembly_free(d->assembly);
    bw_climate_free(d->climate);
    bw_library_free(d->library);
}

static const struct pair {
    const char *file, *date;
    bool released;
} pairs[] = {
    {BW_SOURCE_DIR "/assemblies/upland-closing-refused.xml", "2024-04-12",
     false},
    {BW_SOURCE_DIR "/assemblies/upland-closing-released.xml", "2024-05-10",
     true},
};

START_TEST(the_demo_pair_is_refused_and_released)
{
    demo d;
    bw_error err = {0};
    bw_audit_options options = {.assessment = {.synthetic_hours = true,
                                               .no_advice = true,
                                               .threads = 2},
                                .command_line = "bothways audit x",
                                .date = pairs[_i].date};
    ck_assert_msg(demo_make(&d, pairs[_i].file, &options, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_int_eq(d.audit->released, pairs[_i].released);
    ck_assert_int_ne(d.audit->assessment->verdict, BW_FAILS);
    sheet.used = 0;
    ck_assert_int_eq(
        audit_report(BW_FORM_TEXT, d.audit, NULL, collect, &sheet, &err),
        BW_OK);
    SAYS(sheet.text, pairs[_i].released
                         ? "Hold point before closing up: released"
                         : "Hold point before closing up: NOT released");
    SAYS(sheet.text, "bothways audit x");
    SAYS(sheet.text, pairs[_i].date);
    SAYS(sheet.text, "Every value with its evidence");
    SAYS(sheet.text, "Month by month");
    SAYS(sheet.text, "signature");
    for (size_t i = 0; i < d.audit->file_count; i++)
        SAYS(sheet.text, d.audit->file[i].sha256);
    for (size_t i = 0; i < d.audit->unknown_count; i++)
        ck_assert_ptr_nonnull(d.audit->unknown[i].unknown);
    sheet.used = 0;
    const bw_results results = {.audit = d.audit};
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_AUDIT, collect, &sheet, &err),
        BW_OK);
    ck_assert_int_eq(
        strncmp(sheet.text, "assembly,part,item,value,unit,state,detail\n", 43),
        0);
    SAYS(sheet.text, pairs[_i].released
                         ? ",hold-point,before closing up,,,released,"
                         : ",hold-point,before closing up,,,not released,");
    ck_assert_int_eq(
        audit_report(BW_FORM_TEXT, d.audit, NULL, refuse, NULL, &err),
        BW_ERR_IO);
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_AUDIT, refuse, NULL, &err),
        BW_ERR_IO);
    demo_free(&d);
}
END_TEST

START_TEST(files_are_those_that_were_read)
{
    demo d;
    bw_error err = {0};
    bw_audit_options options = {
        .assessment = {.no_transient = true, .no_advice = true},
        .no_margin = true};
    ck_assert_int_eq(demo_make(&d, pairs[1].file, &options, &err), BW_OK);
    ck_assert_ptr_null(d.audit->margin);
    ck_assert_str_eq(d.audit->file[0].path, d.assembly->file);
    ck_assert_str_eq(d.audit->file[1].path, d.climate->file);
    size_t materials = 0;
    for (size_t i = 0; i < d.audit->file_count; i++) {
        ck_assert_uint_eq(strlen(d.audit->file[i].sha256), 64);
        materials += strstr(d.audit->file[i].path, "/materials/") != NULL;
        for (size_t k = 0; k < i; k++)
            ck_assert_str_ne(d.audit->file[i].path, d.audit->file[k].path);
    }
    ck_assert_uint_ge(materials, 3);
    demo_free(&d);
}
END_TEST

START_TEST(a_file_that_is_gone_is_refused)
{
    const char *const paths[] = {BW_SOURCE_DIR "/LICENSE", "gone.csv"};
    bw_error err = {0};
    bw_audit_options options = {.file_count = 2, .file = paths};
    ck_assert_int_eq(bw_audit_files(&core, &options, &err), BW_ERR_INPUT);
    ck_assert_str_eq(err.file, "gone.csv");
    options.file_count = 1;
    ck_assert_int_eq(bw_audit_files(&core, &options, &err), BW_OK);
    ck_assert_uint_eq(core.audit.file_count, 1);
    options.file_count = 0;
    ck_assert_int_eq(bw_audit_files(&core, &options, &err), BW_OK);
    ck_assert_uint_eq(core.audit.file_count, 0);
    bw_audit_free(NULL);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("audit");
    TCase *hash = tcase_create("sha256");
    tcase_add_loop_test(hash, sha256_gives_the_published_digests, 0,
                        COUNT(vectors));
    tcase_add_test(hash, sha256_does_not_depend_on_the_parts);
    suite_add_tcase(suite, hash);
    TCase *hold = tcase_create("hold point");
    tcase_add_checked_fixture(hold, setup, teardown);
    tcase_add_test(hold, a_reading_has_three_states);
    tcase_add_test(hold, the_worst_reading_decides_for_its_member);
    tcase_add_test(hold, a_member_without_readings_is_not_evidenced);
    tcase_add_test(hold, a_reading_without_a_limit_is_not_evidenced);
    tcase_add_test(hold, nothing_at_all_is_not_evidenced);
    tcase_add_test(hold, limits_out_of_order_are_refused);
    tcase_add_test(hold, the_statistical_rule_holds_at_its_edges);
    tcase_add_test(hold, the_statistical_rule_alone_releases_nothing);
    tcase_add_test(hold, the_latest_reading_of_a_place_counts);
    tcase_add_test(hold, what_does_not_replace_an_earlier_reading);
    tcase_add_test(hold, a_reading_is_dated_against_the_interim_test);
    tcase_add_test(hold,
                   an_interim_test_needs_its_stage_its_search_and_its_value);
    tcase_add_test(hold, of_several_interim_tests_the_latest_counts);
    tcase_add_test(hold, only_all_evidence_with_a_good_verdict_releases);
    tcase_add_test(
        hold, an_assumed_layer_that_decides_keeps_it_closed_and_comes_first);
    tcase_add_test(hold, what_decides_is_listed_before_what_only_flips);
    tcase_add_test(hold, assumed_layers_without_a_sensitivity_keep_it_closed);
    tcase_add_test(hold, a_profile_limits_the_moisture_at_closing_up);
    tcase_add_test(hold, decisions_are_named);
    tcase_add_test(hold, a_file_that_is_gone_is_refused);
    suite_add_tcase(suite, hold);
    TCase *whole = tcase_create("whole");
    if (getenv("CK_DEFAULT_TIMEOUT") == NULL)
        tcase_set_timeout(whole, 120);
    tcase_add_loop_test(whole, the_demo_pair_is_refused_and_released, 0,
                        SANITIZED_FEWER(COUNT(pairs), 1));
    tcase_add_test(whole, files_are_those_that_were_read);
    suite_add_tcase(suite, whole);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
