/* Files of rule sets: sound ones read value by value, faulty ones refused with
 * line and reason, and the schema for editors beside the reader. */

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "profile/terms.h"
#include "profile_case.h"
#include "suite.h"

#define BAD BW_SOURCE_DIR "/tests/bad/"

static const char file_name[] = "./profile-files-test.xml";

/* A sound file; the tests change one thing in it. */
static const char sound[] =
    /*  1 */
    "<profile xmlns=\"urn:bothways:profile:1\" id=\"own\"\n"
    /*  2 */ "  country=\"Nowhere\" scope=\"halls\">\n"
    /*  3 */ "<rule criterion=\"inner-sd\" least=\"18 m\" decides=\"yes\"\n"
    /*  4 */ "  source=\"Code, 5.6\" edition=\"2031\" mark=\"S\">tight &amp;\n"
    /*  5 */ "  inside</rule>\n"
    /*  6 */ "<rule criterion=\"closing-moisture\" most=\"18.5 %\"\n"
    /*  7 */ "  applies-to=\"roofs\" decides=\"no\" source=\"Practice\"\n"
    /*  8 */ "  edition=\"none\" mark=\"W\">dry</rule>\n"
    /*  9 */ "<method name=\"period\" source=\"Code\" edition=\"2030\"\n"
    /* 10 */ "  mark=\"S\">by blocks</method>\n"
    /* 11 */ "<rule criterion=\"wood-moisture\" below=\"18 %\"\n"
    /* 12 */ "  decides=\"yes\" source=\"Code\" edition=\"2030\"\n"
    /* 13 */ "  mark=\"S\">drier</rule>\n"
    /* 14 */ "<rule source=\"Rumour\" edition=\"not stated\"\n"
    /* 15 */ "  mark=\"K\">heard of</rule>\n"
    /* 16 */ "</profile>\n";

static void put(const char *text)
{
    FILE *file = fopen(file_name, "w");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_ge(fputs(text, file), 0);
    ck_assert_int_eq(fclose(file), 0);
}

/* The sound file with the first `from` made `to`. */
static void put_changed(const char *from, const char *to)
{
    char text[4096];
    const char *at = strstr(sound, from);
    ck_assert_msg(at != NULL, "'%s' is not in the sound file", from);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(at - sound), sound, to,
             at + strlen(from));
    put(text);
}

static bw_profiles *read_file(const char *path)
{
    bw_profiles *set = NULL;
    bw_error err = {0};
    bw_status status = bw_profiles_read_file(&set, path, &err);
    ck_assert_msg(status == BW_OK, "%s:%ld %s", err.file, err.line,
                  err.message);
    return set;
}

static void is_rule(const bw_profile_rule *rule, const bw_profile_rule *want)
{
    ck_assert_str_eq(rule->criterion, want->criterion);
    ck_assert_int_eq(rule->demands, want->demands);
    ck_assert_int_eq(rule->applies, want->applies);
    ck_assert_double_eq(rule->limit, want->limit);
    ck_assert_str_eq(rule->unit, want->unit);
    ck_assert_int_eq(rule->strict, want->strict);
    ck_assert_int_eq(rule->decides, want->decides);
    ck_assert_str_eq(rule->text, want->text);
    ck_assert_str_eq(rule->source, want->source);
    ck_assert_str_eq(rule->edition, want->edition);
    ck_assert_str_eq(rule->mark, want->mark);
}

START_TEST(a_rule_set_in_memory_reads_as_its_file)
{
    bw_profiles *memory = NULL;
    bw_error err = {0};
    put(sound);
    bw_profiles *file = read_file(file_name);
    unlink(file_name);
    ck_assert_int_eq(bw_profiles_read_text(&memory, sound, "typed", NULL),
                     BW_OK);
    const bw_profile *a = bw_profiles_at(file, 1);
    const bw_profile *b = bw_profiles_at(memory, 1);
    ck_assert_str_eq(b->file, "typed");
    ck_assert_uint_eq(a->rule_count, b->rule_count);
    for (size_t i = 0; i < a->rule_count; i++)
        is_rule(&a->rule[i], &b->rule[i]);
    bw_profiles_free(file);
    bw_profiles_free(memory);
    memory = NULL;
    ck_assert_int_eq(bw_profiles_read_text(&memory, "<rule/>", "typed", &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(memory);
    ck_assert_str_eq(err.file, "typed");
}
END_TEST

START_TEST(a_file_reaches_the_model_value_by_value)
{
    static const bw_profile_rule want[] = {
        {.criterion = "inner-sd",
         .limit = 18.0,
         .unit = "m",
         .decides = true,
         .text = "tight & inside",
         .source = "Code, 5.6 (edition 2031)",
         .edition = "2031",
         .mark = "[S]",
         .line = 4},
        {.criterion = "closing-moisture",
         .applies = BW_FOR_ROOFS,
         .limit = 18.5,
         .unit = "%",
         .text = "dry",
         .source = "Practice",
         .edition = "",
         .mark = "[W]",
         .line = 8},
        {.criterion = "",
         .demands = BW_DEMANDS_PERIOD,
         .unit = "-",
         .decides = true,
         .text = "by blocks",
         .source = "Code (edition 2030)",
         .edition = "2030",
         .mark = "[S]",
         .line = 10},
        {.criterion = "wood-moisture",
         .limit = 18.0,
         .unit = "%",
         .strict = true,
         .decides = true,
         .text = "drier",
         .source = "Code (edition 2030)",
         .edition = "2030",
         .mark = "[S]",
         .line = 13},
        {.criterion = "",
         .unit = "-",
         .text = "heard of",
         .source = "Rumour (edition not stated)",
         .edition = "not stated",
         .mark = "[K]",
         .line = 15},
    };
    put(sound);
    bw_profiles *set = read_file(file_name);
    ck_assert_uint_eq(bw_profiles_count(set), 2);
    ck_assert_ptr_eq(bw_profiles_at(set, 0), bw_profile_default());
    const bw_profile *p = bw_profiles_at(set, 1);
    ck_assert_str_eq(p->name, "own");
    ck_assert_str_eq(p->title, "Nowhere, halls");
    ck_assert_str_eq(p->file, file_name);
    ck_assert_uint_eq(p->rule_count, COUNT(want));
    for (size_t i = 0; i < COUNT(want); i++) {
        is_rule(&p->rule[i], &want[i]);
        ck_assert_int_eq(p->rule[i].line, want[i].line);
    }
    bw_profiles_free(set);
}
END_TEST

START_TEST(a_steady_check_has_its_climates)
{
    put_changed("inner-sd\" least=\"18 m\"",
                "steady-design-check\" below=\"95 %\" "
                "indoor-temperature=\"293.15 K\" indoor-humidity=\"55 %\" "
                "outdoor-temperature=\"-5 degC\"");
    bw_profiles *set = read_file(file_name);
    const bw_profile_steady *at = &bw_profiles_at(set, 1)->rule[0].steady;
    ck_assert_double_eq_tol(at->theta_i, 20.0, 1e-9);
    ck_assert_double_eq_tol(at->phi_i, 0.55, 1e-12);
    ck_assert_double_eq_tol(at->theta_e, -5.0, 1e-9);
    ck_assert_double_eq(at->phi_e, 0.0);
    bw_profiles_free(set);
    put_changed("inner-sd\" least=\"18 m\"",
                "steady-design-check\" below=\"95 %\" "
                "indoor-temperature=\"20 degC\" indoor-humidity=\"55 %\" "
                "outdoor-temperature=\"-5 degC\" outdoor-humidity=\"80 %\"");
    set = read_file(file_name);
    ck_assert_double_eq_tol(bw_profiles_at(set, 1)->rule[0].steady.phi_e, 0.8,
                            1e-12);
    bw_profiles_free(set);
    /* the ends of what is possible */
    put_changed("inner-sd\" least=\"18 m\"",
                "steady-design-check\" below=\"95 %\" "
                "indoor-temperature=\"50 degC\" indoor-humidity=\"100 %\" "
                "outdoor-temperature=\"-60 degC\" "
                "outdoor-humidity=\"100 %\"");
    bw_profiles_free(read_file(file_name));
    put_changed("inner-sd\" least=\"18 m\"",
                "steady-design-check\" below=\"95 %\" "
                "indoor-temperature=\"-60 degC\" indoor-humidity=\"1 %\" "
                "outdoor-temperature=\"50 degC\" outdoor-humidity=\"1 %\"");
    bw_profiles_free(read_file(file_name));
}
END_TEST

START_TEST(what_is_not_given_has_its_plain_value)
{
    put_changed(" scope=\"halls\"", "");
    bw_profiles *set = read_file(file_name);
    ck_assert_str_eq(bw_profiles_at(set, 1)->title, "Nowhere");
    bw_profiles_free(set);
    put_changed("most=\"18.5 %\"", "below=\"18.5%\"");
    set = read_file(file_name);
    ck_assert(bw_profiles_at(set, 1)->rule[1].strict);
    ck_assert_double_eq(bw_profiles_at(set, 1)->rule[1].limit, 18.5);
    bw_profiles_free(set);
}
END_TEST

/* ---- refusals ----------------------------------------------------------- */

static const struct refusal {
    const char *from, *to;
    long line;
    const char *says;
} refusals[] = {
    /* names */
    {"id=\"own\"", "", 2, "<profile> has no id="},
    {"id=\"own\"", "id=\"Own\"", 2, "lower-case words joined by '-'"},
    {"id=\"own\"", "id=\"list\"", 2, "is what lists all of them"},
    {"id=\"own\"", "id=\"default\"", 2, "is the name of the built-in rule set"},
    {"country=\"Nowhere\"", "country=\" \"", 2, "is empty"},
    {"country=\"Nowhere\"", "countri=\"Nowhere\"", 2, "did you mean country?"},
    {"</profile>", "<metod/></profile>", 16, "did you mean method?"},
    {"inside</rule>", "<b>inside</b></rule>", 5, "which holds only text"},
    {"inside</rule>", "inside</rule> loose", 2, "holds loose text \"loose"},
    {">dry<", "> <", 8, "holds no text"},
    /* origin */
    {"mark=\"S\"", "", 4, "has no mark=, which it needs; write one of: S, W"},
    {"mark=\"S\"", "mark=\"X\"", 4, "write one of: S, W, K"},
    {"edition=\"2031\"", "", 4, "has no edition=, which it needs"},
    {"source=\"Code, 5.6\"", "source=\"\"", 4, "is empty"},
    {"source=\"Code, 5.6\"", "origin=\"Code\"", 4,
     "<rule> origin=\"Code\" is not an attribute of <rule>; allowed: "
     "criterion,"},
    /* what decides */
    {"decides=\"yes\"", "", 4, "has no decides="},
    {"decides=\"yes\"", "decides=\"maybe\"", 4, "write one of: no, yes"},
    {"mark=\"S\"", "mark=\"W\"", 4, "decides=\"yes\" needs mark=\"S\""},
    {"  mark=\"S\">by", "  mark=\"K\">by", 10, "makes no method decide"},
    /* criteria */
    {"inner-sd", "inner-ds", 4, "did you mean inner-sd?"},
    {"inner-sd", "annual-balance", 4,
     "is none that a rule can limit; write one of: condensate-absorbing,"},
    {"inner-sd", "", 4, "criterion=\"\" is none that a rule can limit"},
    {"criterion=\"inner-sd\"", "", 4,
     "least=\"18 m\" needs a criterion=; a rule without one is listed"},
    {"<rule source=\"Rumour\"", "<rule source=\"Rumour\" decides=\"no\"", 15,
     "needs a criterion="},
    {"applies-to=\"roofs\"", "applies-to=\"roof\"", 8, "did you mean roofs?"},
    /* limits */
    {"least=\"18 m\"", "", 4,
     "has no limit; write for example least=\"0.01 m\""},
    {"least=\"18 m\"", "below=\"18 m\"", 4,
     "is not how inner-sd is limited; write least="},
    {"most=\"18.5 %\"", "least=\"18.5 %\"", 8, "write below= or most="},
    {"least=\"18 m\"", "least=\"18 m\" most=\"20 m\"", 4,
     "has both least= and most="},
    {"least=\"18 m\"", "least=\"18\"", 4, "is not in m, the unit of inner-sd"},
    {"least=\"18 m\"", "least=\"18 mm\"", 4, "is not in m"},
    {"least=\"18 m\"", "least=\"18  m\"", 4, "is not in m"},
    {"least=\"18 m\"", "least=\"1,8 m\"", 4, "decimal comma"},
    {"least=\"18 m\"", "least=\"nan m\"", 4, "does not start with a number"},
    {"least=\"18 m\"", "least=\"1e999 m\"", 4, "does not start with a number"},
    {"least=\"18 m\"", "least=\"0 m\"", 4,
     "is outside what is possible here, from least=\"0.01 m\" to "
     "least=\"10000 m\""},
    {"inner-sd\" least=\"18 m\"", "sd-ratio\" least=\"18 m\"", 4,
     "is a pure number for sd-ratio, no unit belongs here"},
    /* the steady check */
    {"inner-sd\" least=\"18 m\"", "steady-design-check\" below=\"100 %\"", 4,
     "has no indoor-temperature="},
    {"inner-sd\" least=\"18 m\"",
     "inner-sd\" least=\"18 m\" outdoor-humidity=\"90 %\"", 4,
     "belongs to a rule on steady-design-check"},
    {"inner-sd\" least=\"18 m\"",
     "steady-design-check\" below=\"100 %\" indoor-temperature=\"21 degC\" "
     "indoor-humidity=\"0.6\"",
     4, "0.55 without a sign may mean 55 % or 0.55 %"},
    {"inner-sd\" least=\"18 m\"",
     "steady-design-check\" below=\"100 %\" indoor-temperature=\"21 degC\" "
     "indoor-humidity=\"60 %\" outdoor-temperature=\"-70 degC\"",
     4, "outside what is possible here, -60 degC to 50 degC"},
    {"<rule source=\"Rumour\"",
     "<rule source=\"Rumour\" indoor-humidity=\"60 %\"", 15,
     "belongs to a rule on steady-design-check"},
    /* a default criterion: tightened for all, or left alone */
    {"below=\"18 %\"", "below=\"20.1 %\"", 13,
     "is looser than the default limit, below=\"20 %\"; a rule set tightens or "
     "adds, it never loosens"},
    {"below=\"18 %\"", "most=\"18 %\"", 13, "write below="},
    {"below=\"18 %\"", "below=\"18 %\" applies-to=\"walls\"", 13,
     "tightened for all walls"},
    {"decides=\"yes\" source=\"Code\" edition=\"2030\"",
     "decides=\"no\" source=\"Code\" edition=\"2030\"", 13,
     "is a default criterion, which decides"},
    /* methods */
    {"name=\"period\"", "name=\"periods\"", 10, "did you mean period?"},
    {"name=\"period\"", "", 10, "has no name="},
    {"name=\"period\"", "name=\"steady\"", 10, "steady-design-check"},
    {"name=\"period\"", "name=\"period\" decides=\"no\"", 10,
     "is not an attribute of <method>"},
};

START_TEST(a_faulty_file_is_refused_where_and_why)
{
    const struct refusal *t = &refusals[_i];
    bw_profiles *set = NULL;
    bw_error err = {0};
    put_changed(t->from, t->to);
    ck_assert_int_eq(bw_profiles_read_file(&set, file_name, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(set);
    ck_assert_str_eq(err.file, file_name);
    ck_assert_msg(strstr(err.message, t->says) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, t->line);
}
END_TEST

START_TEST(a_profile_without_rules_is_refused)
{
    bw_profiles *set = NULL;
    bw_error err = {0};
    put("<profile xmlns=\"urn:bothways:profile:1\" id=\"a\" country=\"b\"/>");
    ck_assert_int_eq(bw_profiles_read_file(&set, file_name, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "holds no <rule>"));
}
END_TEST

/* The files of tests/bad, each of which no reader takes. */
static const char *const bad[] = {
    "broken",          "doctype",         "entity-bomb", "external-entity",
    "foreign-element", "no-namespace",    "not-xml",     "other-namespace",
    "other-root",      "undefined-entity"};

START_TEST(what_no_reader_takes_this_one_refuses_too)
{
    char path[256];
    bw_profiles *set = NULL;
    bw_error err = {0};
    snprintf(path, sizeof path, BAD "%s.xml", bad[_i]);
    ck_assert_int_eq(bw_profiles_read_file(&set, path, &err), BW_ERR_INPUT);
    ck_assert_ptr_null(set);
    ck_assert_uint_gt(strlen(err.message), 10);
}
END_TEST

START_TEST(another_version_is_named)
{
    bw_profiles *set = NULL;
    bw_error err = {0};
    put_changed("profile:1", "profile:2");
    ck_assert_int_eq(bw_profiles_read_file(&set, file_name, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "is version 2 of the rule set"));
}
END_TEST

START_TEST(a_file_that_is_none_is_refused)
{
    bw_profiles *set = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_profiles_read_file(&set, "./nowhere.xml", &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot open"));
    ck_assert_int_eq(bw_profiles_read_file(&set, ".", &err), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "directory"));
}
END_TEST

/* ---- folders ------------------------------------------------------------ */

static void put_in(const char *folder, const char *name, const char *id)
{
    char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fprintf(file,
            "<profile xmlns=\"urn:bothways:profile:1\" id=\"%s\" "
            "country=\"x\">\n<rule source=\"s\" edition=\"none\" mark=\"K\">t"
            "</rule></profile>\n",
            id);
    ck_assert_int_eq(fclose(file), 0);
}

START_TEST(a_folder_is_read_in_name_order_and_no_name_twice)
{
    static const char *const passed_over[] = {".draft.xml", "c.XML", ".xml"};
    char folder[] = "test-profiles-XXXXXX", path[128];
    bw_profiles *set = NULL;
    bw_error err = {0};
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(bw_profiles_read(&set, folder, &err), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "rule sets holds no *.xml"));
    put_in(folder, "b.xml", "first");
    put_in(folder, "a.xml", "second");
    for (size_t i = 0; i < COUNT(passed_over); i++)
        put_in(folder, passed_over[i], "third");
    ck_assert_int_eq(bw_profiles_read(&set, folder, &err), BW_OK);
    for (size_t i = 0; i < COUNT(passed_over); i++) {
        snprintf(path, sizeof path, "%s/%s", folder, passed_over[i]);
        unlink(path);
    }
    ck_assert_uint_eq(bw_profiles_count(set), 3);
    ck_assert_str_eq(bw_profiles_at(set, 1)->name, "second");
    ck_assert_str_eq(bw_profiles_at(set, 2)->name, "first");
    bw_profiles_free(set);
    set = NULL;
    put_in(folder, "b.xml", "second");
    ck_assert_int_eq(bw_profiles_read(&set, folder, &err), BW_ERR_INPUT);
    ck_assert_ptr_null(set);
    ck_assert_ptr_nonnull(strstr(err.message, "already taken by"));
    ck_assert_ptr_nonnull(strstr(err.file, "b.xml"));
    for (const char *name = "a"; name != NULL;
         name = *name == 'a' ? "b" : NULL) {
        snprintf(path, sizeof path, "%s/%s.xml", folder, name);
        unlink(path);
    }
    rmdir(folder);
    ck_assert_int_eq(bw_profiles_read(&set, folder, &err), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "directory of rule sets"));
}
END_TEST

/* With the default as many as a set has room for when it grew once. */
START_TEST(many_profiles_are_kept_in_order)
{
    enum { MANY = 31 };
    char folder[] = "test-profiles-XXXXXX", name[32], path[128];
    bw_profiles *set = NULL;
    bw_error err = {0};
    ck_assert_ptr_nonnull(mkdtemp(folder));
    for (int i = 0; i < MANY; i++) {
        snprintf(name, sizeof name, "p%02d.xml", i);
        snprintf(path, sizeof path, "p%02d", i);
        put_in(folder, name, path);
    }
    ck_assert_int_eq(bw_profiles_read(&set, folder, &err), BW_OK);
    ck_assert_uint_eq(bw_profiles_count(set), MANY + 1);
    ck_assert_ptr_null(bw_profiles_at(set, MANY + 1));
    for (int i = 0; i < MANY; i++) {
        snprintf(name, sizeof name, "p%02d", i);
        ck_assert_str_eq(bw_profiles_at(set, (size_t)i + 1)->name, name);
        snprintf(path, sizeof path, "%s/%s.xml", folder, name);
        unlink(path);
    }
    bw_profiles_free(set);
    rmdir(folder);
}
END_TEST

/* ---- the schema --------------------------------------------------------- */

static bool have_xmllint(void)
{
    if (system("command -v xmllint >/dev/null 2>&1") == 0)
        return true;
    printf("skipped: xmllint is not installed, profile.xsd unchecked\n");
    return false;
}

static bool follows_schema(const char *files)
{
    char command[1024];
    snprintf(command, sizeof command,
             "xmllint --nonet --noout --schema '" BW_SOURCE_DIR
             "/docs/profile.xsd' %s 2>/dev/null",
             files);
    return system(command) == 0;
}

START_TEST(shipped_and_sound_files_follow_the_schema_for_editors)
{
    if (!have_xmllint())
        return;
    ck_assert(follows_schema("'" SHIPPED_PROFILES "'/*.xml"));
    put(sound);
    ck_assert(follows_schema(file_name));
    put_changed("least=\"18 m\"", "least=\"18 kg\"");
    ck_assert(!follows_schema(file_name));
    put_changed("mark=\"S\"", "mark=\"X\"");
    ck_assert(!follows_schema(file_name));
}
END_TEST

/* The unit of a row as a file spells it; "" for none. */
static void put_unit(char unit[32], const bw_criterion_facts *term)
{
    snprintf(unit, 32, "%s", term->unit[0] == '-' ? "" : term->unit);
    if (strchr(unit, ' ') != NULL)
        *strchr(unit, ' ') = '.';
}

/* Every limit at either end of what the reader takes is one of the schema,
 * too, and the reader takes no further. */
static void put_limit(const bw_criterion_facts *term, double limit)
{
    static const char climates[] = "indoor-temperature=\"20 degC\" "
                                   "indoor-humidity=\"50 %\" "
                                   "outdoor-temperature=\"-5 degC\"";
    char text[1024], unit[32];
    put_unit(unit, term);
    snprintf(text, sizeof text,
             "<profile xmlns=\"urn:bothways:profile:1\" id=\"own\" "
             "country=\"x\"><rule criterion=\"%s\" %s %s=\"%.10g%s%s\" "
             "decides=\"yes\" source=\"s\" edition=\"1\" mark=\"S\">t</rule>"
             "</profile>",
             term->name,
             strcmp(term->name, BW_STEADY_CRITERION) == 0 ? climates : "",
             bw_profile_bound(term), limit, unit[0] != '\0' ? " " : "", unit);
    put(text);
}

START_TEST(the_ranges_of_the_reader_are_within_the_schema)
{
    const bool linted = have_xmllint();
    for (size_t i = 0; i < bw_criteria_count(); i++) {
        const bw_criterion_facts *term = bw_criteria_at(i);
        const double *ends = term->may_be;
        if (bw_profile_term(term->name) == NULL)
            continue;
        for (size_t k = 0; k < 2; k++) {
            put_limit(term, ends[k]);
            bw_profiles *set = read_file(file_name);
            ck_assert_double_eq(bw_profiles_at(set, 1)->rule[0].limit, ends[k]);
            bw_profiles_free(set);
            if (linted)
                ck_assert_msg(follows_schema(file_name), "%s", term->name);
            set = NULL;
            put_limit(term, k == 0 ? ends[0] - 0.001 * (ends[1] - ends[0])
                                   : ends[1] + 0.001 * (ends[1] - ends[0]));
            ck_assert_int_eq(bw_profiles_read_file(&set, file_name, NULL),
                             BW_ERR_INPUT);
        }
    }
}
END_TEST

static char *document(const char *path)
{
    static char text[65536];
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    size_t length = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    ck_assert_uint_lt(length, sizeof text - 1);
    text[length] = '\0';
    return text;
}

/* The criteria of the schema are those of the reader, no more and no less. */
START_TEST(the_schema_lists_what_a_rule_may_limit)
{
    char *text = document(BW_SOURCE_DIR "/docs/profile.xsd");
    char *at = strstr(text, "name=\"criterion\"");
    ck_assert_ptr_nonnull(at);
    char *end = strstr(at, "</xs:simpleType>");
    ck_assert_ptr_nonnull(end);
    *end = '\0';
    size_t listed = 0;
    while ((at = strstr(at, "enumeration value=\"")) != NULL) {
        char name[64];
        at += strlen("enumeration value=\"");
        snprintf(name, sizeof name, "%.*s", (int)strcspn(at, "\""), at);
        ck_assert_msg(bw_profile_term(name) != NULL, "%s", name);
        listed++;
    }
    const char *names[BW_C_COUNT];
    ck_assert_uint_eq(listed, bw_profile_term_names(names));
}
END_TEST

static void teardown(void)
{
    unlink(file_name);
}

SUITE_AROUND("profile files", NULL, teardown,
             FACT(a_file_reaches_the_model_value_by_value),
             FACT(a_steady_check_has_its_climates),
             FACT(what_is_not_given_has_its_plain_value),
             EACH(a_faulty_file_is_refused_where_and_why, COUNT(refusals)),
             FACT(a_profile_without_rules_is_refused),
             EACH(what_no_reader_takes_this_one_refuses_too, COUNT(bad)),
             FACT(another_version_is_named),
             FACT(a_file_that_is_none_is_refused),
             FACT(a_folder_is_read_in_name_order_and_no_name_twice),
             FACT(many_profiles_are_kept_in_order),
             FACT(shipped_and_sound_files_follow_the_schema_for_editors),
             FACT(a_rule_set_in_memory_reads_as_its_file),
             FACT(the_ranges_of_the_reader_are_within_the_schema),
             FACT(the_schema_lists_what_a_rule_may_limit))
