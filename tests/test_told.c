/* Sentences and rows that a document has only for some results: each is there
 * where it is so, with the figures of that result, and is not where it is not.
 * Of a margin what was simulated, of a wall what people ask and its junctions,
 * of a junction its water, of a replay its answer. */

#include <math.h>
#include <stdio.h>

#include "flat_text.h"
#include "full_junction.h"
#include "full_replay.h"
#include "full_result.h"

enum { CASES = 7 };

static bw_simulated simulated[CASES];

/* ---- what a margin simulated -----------------------------------------------
 */

static const struct case_row {
    const char *setting;
    bool simulated;
    bw_verdict verdict;
    double margin;
} case_rows[CASES] = {
    {"as drawn", true, BW_HOLDS, 0.5},
    {"case one", true, BW_HOLDS, 0.25},
    {"case two", true, BW_MARGINAL, 0.03125},
    {"case three", false, BW_FAILS, 0.75},
    {"case four", true, BW_FAILS, -0.25},
    {"case five", true, BW_FAILS, -0.5},
    {"case six", true, BW_HOLDS, 0.125},
};

/* The worst first: fails, not assessed, marginal, holds; of those the one with
 * the least margin. */
static const size_t worst_first[CASES - 1] = {5, 4, 3, 2, 6, 1};

/* Turned by so many places, so that no order is that of the array. */
static void make_cases(size_t turned)
{
    full_setup();
    for (size_t i = 0; i < CASES; i++) {
        const size_t from = i == 0 ? 0 : 1 + (i - 1 + turned) % (CASES - 1);
        const struct case_row *row = &case_rows[from];
        simulated[i] = (bw_simulated){.setting = row->setting,
                                      .unknown = i == 0 ? "" : "an unknown",
                                      .simulated = row->simulated,
                                      .verdict = row->verdict,
                                      .figure = {.criterion = "whole: some-row",
                                                 .value = 0.75,
                                                 .limit = 0.375,
                                                 .margin = row->margin,
                                                 .unit = "-"},
                                      .margin_as_drawn = 0.0625};
    }
    full_margin.simulated = simulated;
    full_margin.simulated_count = CASES;
    full_margin.as_drawn = BW_HOLDS;
    full_margin.transient = false;
}

static void print_margin(bw_extent extent)
{
    print_flat(&wall.results, BW_DOCUMENT_MARGIN, extent);
}

START_TEST(cases_are_told_the_worst_first)
{
    make_cases((size_t)_i);
    print_margin(BW_EXTENT_SCREEN);
    const char *last = strstr(flat.text, "the worst first");
    ck_assert_ptr_nonnull(last);
    const char *const then[] = {"fails", "holds", "marginal"};
    for (size_t i = 0; i < CASES - 1; i++) {
        const struct case_row *row = &case_rows[worst_first[i]];
        char text[128];
        snprintf(text, sizeof text, "%s %s", row->setting,
                 !row->simulated            ? "not assessed not simulated"
                 : row->verdict == BW_FAILS ? then[0]
                 : row->verdict == BW_HOLDS ? then[1]
                                            : then[2]);
        const char *at = strstr(last, text);
        ck_assert_msg(at != NULL, "'%s' not behind '%.60s' in: %.2000s", text,
                      last, flat.text);
        last = at;
    }
}
END_TEST

START_TEST(all_together_has_its_own_words)
{
    make_cases(0);
    says_if(false, "all that is worse than drawn, together");
    simulated[3].unknown = "";
    print_margin(BW_EXTENT_SCREEN);
    says_if(true, "all that is worse than drawn, together");
    says_if(false, "case three");
}
END_TEST

/* Those that turn what is good to what is not, or back; the first is named. */
START_TEST(cases_that_turn_the_verdict_are_counted)
{
    make_cases(0);
    simulated[3].simulated = true;
    simulated[3].verdict = BW_NOT_ASSESSED;
    print_margin(BW_EXTENT_FULL);
    says_if(true, "Of 6 cases simulated 3 turn that verdict, the first: case "
                  "three: not assessed (whole: some-row 0.75 (limit 0.375)).");
    simulated[3].simulated = false;
    simulated[5].unknown = "";
    print_margin(BW_EXTENT_FULL);
    says_if(true, "Of 6 cases simulated 1 turns that verdict, the first: case "
                  "four: fails (");
    full_margin.as_drawn = BW_FAILS;
    print_margin(BW_EXTENT_FULL);
    says_if(true, "Of 6 cases simulated 3 turn that verdict, the first: case "
                  "one: holds (");
    full_margin.as_drawn = BW_MARGINAL;
    full_margin.simulated_count = 2;
    print_margin(BW_EXTENT_FULL);
    says_if(true, "Of 1 case simulated none turns that verdict.");
}
END_TEST

/* The table of all: what gave no result has no numbers. */
START_TEST(a_case_without_a_result_has_no_numbers)
{
    make_cases(0);
    print_margin(BW_EXTENT_FULL);
    says_if(true, "case one holds whole: some-row 0.75 0.375 - 25 6");
    says_if(true, "case three not simulated - ");
    simulated[1].figure.criterion = "";
    simulated[2].figure.never = true;
    simulated[2].figure.unit = "months";
    print_margin(BW_EXTENT_FULL);
    says_if(true, "case one holds - 0.75 0.375 - 25 6");
    says_if(true, "case two marginal whole: some-row >0.75 0.375 months 3 6");
    says_if(true, "case three not simulated - ");
    says_if(false, "case three not simulated - 0.75");
}
END_TEST

/* Without a simulation what is told is each unknown that moves. */
START_TEST(without_a_simulation_unknowns_are_told)
{
    make_cases(0);
    full_margin.simulated_count = 0;
    full_unknown[0].verdict_low = BW_FAILS;
    full_unknown[0].verdict_high = BW_HOLDS;
    full_unknown[1].swing = 0.0;
    print_margin(BW_EXTENT_SCREEN);
    says_if(false, "the worst first");
    says_if(true, "mu of board 5 5 to 60 - would fail would hold");
    says_if(false, "mu of batt 5 5 to 60");
    full_margin.transient = true;
    print_margin(BW_EXTENT_SCREEN);
    says_if(true, "mu of board 5 5 to 60 - fails holds");
    full_unknown[1].swing = 1.0;
    print_margin(BW_EXTENT_SCREEN);
    says_if(true, "mu of batt 5 5 to 60 - ");
}
END_TEST

/* What decides at both ends is said of what is seen and moves. */
START_TEST(what_decides_at_the_ends_is_said_of_what_moves)
{
    static const char says[] = "Decides low or off: whole: annual-balance";
    full_setup();
    full_unknown[1].swing = 0.0;
    full_unknown[0].seen = _i != 1;
    full_unknown[0].swing = _i == 2 ? 0.0 : 1.0;
    if (_i == 3)
        full_unknown[0].figure_low.criterion = NULL;
    print_margin(BW_EXTENT_FULL);
    says_if(_i == 0, says);
    full_unknown[0].monotone = true;
    full_unknown[1].seen = false;
    print_margin(BW_EXTENT_FULL);
    says_if(false, "Not monotone:");
    full_unknown[0].monotone = false;
    print_margin(BW_EXTENT_FULL);
    says_if(_i != 1, "Not monotone:");
}
END_TEST

/* Where the verdict flips first, and of further places each that is not that
 * one; where it flips for all of them that one, too. */
START_TEST(further_flips_are_told_with_their_side)
{
    static bw_flip flip[3];
    full_setup();
    bw_unknown *u = &full_unknown[0];
    u->flips = u->continuous = true;
    u->flip_value = 0.25;
    for (size_t i = 0; i < COUNT(flip); i++)
        flip[i] = (bw_flip){.value = 0.25 * (double)(i + 1),
                            .criterion = "annual-balance",
                            .section = "whole",
                            .fails_above = i != 2};
    u->flip = flip;
    static const char *const says[] = {
        "Flips also at 0.25: annual-balance (whole) fails above it.",
        "Flips also at 0.5: annual-balance (whole) fails above it.",
        "Flips also at 0.75: annual-balance (whole) fails below it."};
    for (u->flip_count = 0; u->flip_count <= COUNT(flip); u->flip_count++)
        for (int all = 0; all < 2; all++) {
            u->flips_all = all == 1;
            print_margin(BW_EXTENT_FULL);
            for (size_t i = 0; i < COUNT(flip); i++)
                says_if(i < u->flip_count && (i > 0 || all == 1), says[i]);
        }
    u->flip_count = COUNT(flip);
    u->flips = false;
    print_margin(BW_EXTENT_FULL);
    says_if(false, "Flips also at");
}
END_TEST

static const struct damp_row {
    int holds, beyond;
    bool by_class, simulated, replaced;
    const char *says;
} damp_rows[] = {
    {60, 61, false, true, false,
     "Dampest room: 60 % RH at 21 degC (marginal); at 61 % RH at 21 degC: "
     "fails "
     "(whole: some-row 0.75)."},
    {60, 61, false, true, true,
     "Dampest room (in place of the room of the file): 60 % RH"},
    {60, 61, false, false, false,
     "Dampest room, screened by months: 60 % RH at 21 degC (would hold, "
     "marginally); at 61 % RH at 21 degC: would fail"},
    {3, 4, true, true, false,
     "Dampest room: humidity class 3 (marginal); at humidity class 4: fails"},
    {99, 100, false, true, false,
     "Dampest room: 99 % RH at 21 degC (marginal), the most that was tried."},
    {98, 99, false, true, false,
     "Dampest room: 98 % RH at 21 degC (marginal); at 99 % RH"},
    {0, 1, false, true, false,
     "Indoor humidity: not even at 1 % RH at 21 degC (fails: whole: some-row "
     "0.75)."},
    {1, 2, false, true, false, "Dampest room: 1 % RH at 21 degC (marginal)"},
};

START_TEST(the_dampest_room_is_told_with_what_lies_beyond)
{
    const struct damp_row *row = &damp_rows[_i];
    full_setup();
    full_margin.damp = (bw_damp_limit){
        .by_class = row->by_class,
        .simulated = row->simulated,
        .temperature = 21.0,
        .replaced = row->replaced,
        .least = 1,
        .most = 99,
        .holds = row->holds,
        .beyond = row->beyond,
        .verdict = BW_MARGINAL,
        .verdict_beyond = BW_FAILS,
        .figure = {.criterion = "whole: some-row",
                   .value = 0.75,
                   .limit = (double)NAN,
                   .unit = "-"}};
    print_margin(BW_EXTENT_SCREEN);
    says_if(true, row->says);
    full_margin.damp.most = full_margin.damp.least;
    print_margin(BW_EXTENT_SCREEN);
    says_if(false, "Dampest room");
    says_if(false, "Indoor humidity");
}
END_TEST

/* Of more than fifteen those that move nothing, or are not seen, by name. */
START_TEST(of_a_long_list_what_moves_nothing_is_named_only)
{
    static bw_unknown many[17];
    static const char *const names[] = {"a", "b", "c", "d", "e", "f",
                                        "g", "h", "i", "j", "k", "l",
                                        "m", "n", "o", "p", "q"};
    full_setup();
    for (size_t i = 0; i < COUNT(many); i++) {
        many[i] = full_unknown[0];
        many[i].name = names[i];
        if (i >= 10) {
            many[i].swing = 0.0;
            many[i].flips = i == 10;
            many[i].seen = i % 2 == 0;
        }
    }
    full_margin.unknown = many;
    full_margin.unknown_count = 15;
    print_margin(BW_EXTENT_FULL);
    says_if(false, "Moves nothing:");
    full_margin.unknown_count = 16;
    print_margin(BW_EXTENT_FULL);
    says_if(true, "Moves nothing: m; o.");
    says_if(true, "Not seen by the steady methods: l; n; p.");
    full_margin.unknown_count = 17;
    print_margin(BW_EXTENT_FULL);
    says_if(true, "Moves nothing: m; o; q.");
}
END_TEST

/* ---- what people ask of a wall ---------------------------------------------
 */

static void print_check(void)
{
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_SCREEN);
}

START_TEST(water_let_in_is_what_the_file_states)
{
    full_setup();
    wall.checked.transient.rain_absorbed = 0.0625;
    wall.checked.transient.leak_rain = 0.375;
    wall.checked.transient.leak_convective = 0.75;
    wall.assembly.rain_leak.given = (_i & 1) != 0;
    wall.assembly.rain_leak.fraction = 0.0375;
    wall.assembly.air_leakage.given = (_i & 2) != 0;
    print_check();
    char text[160];
    snprintf(text, sizeof text,
             "rain 62 g/m2, rain leak %s, leaking room air "
             "%s",
             _i & 1 ? "375 g/m2 (3.75 %)" : "none stated",
             _i & 2 ? "750 g/m2" : "none stated");
    says_if(true, text);
}
END_TEST

static const struct leak_row {
    size_t before, after;
    const char *says;
} leak_rows[] = {
    {2, 0, "0 fail instead of 2, 3 marginal instead of 4: it is the cause"},
    {2, 1, "1 fails instead of 2, 3 marginal instead of 4 "},
    {0, 0, "0 fail instead of 0, 3 marginal instead of 4 "},
};

START_TEST(without_the_leak_says_whether_it_is_the_cause)
{
    const struct leak_row *row = &leak_rows[_i];
    full_setup();
    print_check();
    says_if(false, "Without the rain leak");
    wall.advice[0].rain_leak = true;
    wall.advice[0].fails_before = row->before;
    wall.advice[0].fails_after = row->after;
    wall.advice[0].marginal_before = 4;
    wall.advice[0].marginal_after = 3;
    print_check();
    says_if(true, "Without the rain leak");
    says_if(true, row->says);
}
END_TEST

START_TEST(wood_closed_while_wet_says_how_wet)
{
    full_setup();
    bw_layer *layer = &wall.layer[wall.slab[0].layer];
    print_check();
    says_if(false, "Closed while wet");
    layer->has_initial_moisture = true;
    layer->initial_moisture = 0.28125;
    layer->framing.initial_moisture = 0.4375;
    print_check();
    says_if(true, " at 28.1 %: ");
    layer->initial_is_rh = true;
    print_check();
    says_if(true, " at 28.1 % RH: ");
    wall.slab[0].is_framing = true;
    print_check();
    says_if(false, "Closed while wet");
    layer->framing.has_initial_moisture = true;
    print_check();
    says_if(true, " at 43.8 %: ");
    layer->framing.initial_is_rh = true;
    print_check();
    says_if(true, " at 43.8 % RH: ");
    wall.moisture[0].is_wood = false;
    print_check();
    says_if(false, "Closed while wet");
}
END_TEST

/* Only what is asked for in full says where the water was put, and only a wall
 * of several sections which is which. */
START_TEST(what_is_said_in_full_is_not_on_the_screen)
{
    full_setup();
    print_check();
    says_if(false, "The water was put");
    says_if(true, "--full");
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    says_if(true, "The water was put");
    says_if(false, "--full");
    says_if(false, "Section whole, ");
    static bw_section_assessment two[2];
    two[0] = two[1] = wall.checked;
    wall.assessment.section = two;
    wall.assessment.section_count = 2;
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    says_if(true, "Section whole, 100.0 % of the area");
}
END_TEST

/* As many notes of a simulation as it has. */
START_TEST(a_simulation_tells_its_notes_and_no_more)
{
    full_setup();
    bw_transient_result *run = &wall.checked.transient;
    strcpy(run->note[0], "first note of it");
    strcpy(run->note[1], "second note of it");
    for (run->note_count = 0; run->note_count <= 2; run->note_count++) {
        print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
        says_if(run->note_count > 0, "first note of it");
        says_if(run->note_count > 1, "second note of it");
    }
}
END_TEST

/* Of the row that decides on a screen what, where and when, the first two
 * clauses; where nothing else fits the first; in full all. */
START_TEST(a_reason_is_told_as_far_as_there_is_room)
{
    static const struct {
        const char *reason, *two, *one;
    } rows[] = {
        {"it is wet; in March; for long; so it is", "it is wet; in March",
         "it is wet"},
        {"it is wet; in March", "it is wet; in March", "it is wet"},
        {"it is wet", "it is wet", "it is wet"},
    };
    static char tall[8192];
    full_setup();
    for (size_t i = 0; i < COUNT(rows); i++) {
        wall.criterion[0].reason = rows[i].reason;
        wall.assessment.deciding = &wall.criterion[0];
        wall.assessment.verdict_reason = "short";
        print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
        says_if(true, rows[i].reason);
        memset(tall, 0, sizeof tall);
        for (size_t k = 0; k < 2; k++) {
            print_check();
            char text[96];
            const char *is = k == 0 ? rows[i].two : rows[i].one;
            snprintf(text, sizeof text, "%s", is);
            says_if(true, text);
            const char *at = strstr(flat.text, text) + strlen(text);
            ck_assert_msg(*at != ';', "more than '%s': %.60s", text, at);
            for (size_t n = 0; n < 4000; n += 8)
                memcpy(tall + n, "so long ", 9);
            wall.advice[0].change = tall;
        }
    }
}
END_TEST

/* What insulates is the slab of most resistance; outside of it leaking room air
 * is stopped. */
START_TEST(what_was_taken_to_be_what_is_told)
{
    static const char *const stopped[] = {
        "outer surface", "between softboard and hemp batt",
        "between hemp batt and variable film"};
    full_setup();
    for (size_t i = 0; i < WALL_SLABS; i++) {
        char text[200];
        for (size_t k = 0; k < WALL_SLABS; k++) {
            wall.slab[k].kind = BW_LAYER_SOLID;
            wall.slab[k].thickness = 0.1;
            wall.slab[k].resistance = k == i ? 3.0 : 0.125;
        }
        for (size_t dropped = 0; dropped < 2; dropped++) {
            wall.section.dropped_layers = dropped;
            print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
            snprintf(text, sizeof text,
                     "Taken as the main insulation: %s; weather line: %s; "
                     "leaking room air is stopped: %s.",
                     wall.slab[i].label,
                     dropped > 0 ? "the well-ventilated cavity"
                                 : "the outer surface",
                     i == 0 && dropped > 0
                         ? "face towards the ventilated cavity"
                         : stopped[i]);
            says_if(true, text);
        }
    }
}
END_TEST

/* A change without a figure says how many rows fail. */
START_TEST(a_change_says_what_it_does)
{
    full_setup();
    bw_advice *a = &wall.advice[0];
    a->change = "Line it.";
    a->marginal_before = a->marginal_after = 0;
    a->criterion = "Drying reserve";
    print_check();
    says_if(true, "1. Line it: Drying reserve from ");
    a->criterion = NULL;
    print_check();
    says_if(true, "1. Line it: failing 0 instead of 1.");
    a->fails_before = 0;
    a->marginal_before = 2;
    print_check();
    says_if(true, "1. Line it: marginal 0 instead of 2.");
}
END_TEST

/* From the outside, as in the file. */
START_TEST(layers_are_numbered_as_in_the_file)
{
    full_setup();
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    says_if(true, " 1 softboard 12 ");
    says_if(true, " 2 hemp batt 90 ");
    says_if(true, " 3 variable film - ");
}
END_TEST

/* How far away the flip is, as a share of the range that is seen to a percent
 * where it lies within it. */
START_TEST(a_flip_says_how_far_away_it_is)
{
    full_setup();
    full_margin.simulated_count = 0;
    bw_unknown *u = &full_unknown[0];
    u->continuous = u->flips = true;
    u->flip_share = 0.875;
    print_margin(BW_EXTENT_FULL);
    says_if(true, ", 88 % of its range away");
    u->flip_share = 0.96875;
    print_margin(BW_EXTENT_FULL);
    says_if(true, ", 97 % of its range away");
    u->flip_share = 1.0;
    print_margin(BW_EXTENT_FULL);
    says_if(false, "of its range away");
}
END_TEST

/* A lead is a heading of the page. */
START_TEST(a_lead_is_a_heading_of_the_page)
{
    static paper page;
    const bw_report_options all = {.extent = BW_EXTENT_FULL};
    full_setup();
    paper_clear(&page);
    ck_assert_int_eq(bw_report(&wall.results, BW_DOCUMENT_CHECK, BW_FORM_PAGE,
                               &all, paper_take, &page, NULL),
                     BW_OK);
    HAS(page.text, ">Often asked</h");
    HAS_NOT(page.text, "Often asked</p>");
    HAS_NOT(page.text, "class=\"strong\">Often");
}
END_TEST

/* ---- its junctions ---------------------------------------------------------
 */

static const bw_junction_assessment *met[1];

static void make_junction(void)
{
    full_setup();
    dice own = {.state = 1181783497276652981u};
    full_junction_make(&meeting, &own);
    met[0] = &meeting.assessment;
}

START_TEST(a_junction_of_a_wall_tells_its_coldest_surface)
{
    make_junction();
    print_check();
    says_if(false, "The wall is no better than the worst of them.");
    wall.assessment.junction = met;
    wall.assessment.junction_count = 1;
    meeting.assessment.verdict = BW_NOT_ASSESSED;
    meeting.assessment.verdict_reason = "months alone";
    meeting.assessment.surface_verdict = BW_MARGINAL;
    for (size_t r = 0; r < FULL_ROOMS; r++) {
        bw_surface_result *s = &meeting.room[r].surface[BW_SURFACES_MOISTURE];
        s->frsi = (size_t)_i == r ? 0.5625 : 0.6875;
        s->month[s->critical_month].theta_si = 7.25 + (double)r;
    }
    print_check();
    says_if(true, "The wall is no better than the worst of them.");
    says_if(true, _i == 0 ? "Where walls meet not assessed marginal 0.562 7.2 "
                            "4004"
                          : "Where walls meet not assessed marginal 0.562 8.2 "
                            "4004");
    says_if(true, "months alone (meeting.xml)");
    meeting.room[_i].room_reason = "its room is not known";
    print_check();
    says_if(true,
            _i == 0 ? " marginal 0.688 8.2 4004" : " marginal 0.688 7.2 4004");
    meeting.room[1 - _i].room_reason = "nor is this";
    print_check();
    says_if(false, " 0.688");
    says_if(true, " 4004");
}
END_TEST

static void print_junction(void)
{
    const bw_results of = {.junction = &meeting.assessment};
    print_flat(&of, BW_DOCUMENT_JUNCTION, BW_EXTENT_FULL);
}

START_TEST(a_junction_says_where_water_stands)
{
    static bw_water_place place[6];
    make_junction();
    bw_junction_water *water = &meeting.assessment.water;
    for (size_t i = 0; i < COUNT(place); i++)
        place[i] = (bw_water_place){.beside = {"brick", i > 0 ? "fibre" : NULL},
                                    .x = 0.125 + 0.01 * (double)i,
                                    .y = -0.0625,
                                    .month = 1,
                                    .most = 0.03125,
                                    .most_by_area = 0.375,
                                    .left_by_area = 0.0625};
    *water = (bw_junction_water){.reason = "no climate"};
    print_junction();
    says_if(true, "Not computed: no climate.");
    *water = (bw_junction_water){.ran = true};
    print_junction();
    says_if(true, "Nowhere within, which is no proof");
    says_if(false, "Not computed");
    water->place = place;
    for (water->place_count = 1; water->place_count <= COUNT(place);
         water->place_count++) {
        char text[32];
        print_junction();
        says_if(false, "Nowhere within");
        says_if(false, "It grows year by year.");
        says_if(true, "brick at x 125 mm, y -62 mm: most in Feb, 0.375 "
                      "kg/m2 (0.031 kg/m in all); 0.062 kg/m2 left after a");
        says_if(water->place_count > 3, "brick and fibre at x 155 mm");
        says_if(false, "brick and fibre at x 165 mm");
        snprintf(text, sizeof text, "%zu more, with less",
                 water->place_count - 4);
        says_if(water->place_count > 4, text);
        says_if(water->place_count > 4, "more, with less");
    }
    water->place_count = 1;
    water->accumulates = true;
    print_junction();
    says_if(true, "It grows year by year.");
}
END_TEST

static const struct sense_row {
    bw_verdict verdict, surface;
    bool by_hours, leaks;
    const char *says;
} sense_rows[] = {
    {BW_FAILS, BW_FAILS, false, false,
     "What to do: insulate over the coldest place"},
    {BW_FAILS, BW_HOLDS, false, true, "What to do: keep the room's vapour out"},
    {BW_FAILS, BW_HOLDS, true, true, "What to do: stop the rain that leaks in"},
    {BW_NOT_ASSESSED, BW_HOLDS, false, false,
     "Months alone may fail a junction and never hold one: nothing speaks"},
    {BW_NOT_ASSESSED, BW_HOLDS, false, true,
     "Months know no rain: what the leak does"},
    {BW_NOT_ASSESSED, BW_HOLDS, true, true, NULL},
    {BW_HOLDS, BW_HOLDS, false, false, NULL},
};

START_TEST(a_junction_says_what_to_do)
{
    static const bw_drawn_leak leak = {.fraction = 0.01};
    const struct sense_row *row = &sense_rows[_i];
    make_junction();
    meeting.assessment.verdict = row->verdict;
    meeting.assessment.surface_verdict = row->surface;
    meeting.assessment.hours.ran = row->by_hours;
    meeting.junction.leak = &leak;
    meeting.junction.leak_count = row->leaks ? 1 : 0;
    print_junction();
    for (size_t i = 0; i < COUNT(sense_rows); i++)
        if (sense_rows[i].says != NULL)
            says_if(i == (size_t)_i, sense_rows[i].says);
    says_if(row->verdict == BW_NOT_ASSESSED && (row->by_hours || !row->leaks),
            "What is left to you: seal");
    says_if(true, "Steady heat and vapour by monthly means");
}
END_TEST

START_TEST(a_room_without_air_says_why_it_has_no_figures)
{
    make_junction();
    print_junction();
    says_if(true, "kitchen open");
    says_if(true, "loft open");
    meeting.room[1].room_reason = "Its air is not known.";
    print_junction();
    says_if(true, "kitchen open");
    says_if(false, "loft open");
    says_if(true, "Its air is not known.");
    meeting.room[0].surface[0].frsi_required = 0.0;
    meeting.room[0].surface[0].month[10].rh_si = 1.0625;
    print_junction();
    says_if(true, " none ");
    says_if(true, " wet ");
}
END_TEST

/* ---- a replay --------------------------------------------------------------
 */

static void print_replay(void)
{
    const bw_results of = {.replay = &logged.replay};
    print_flat(&of, BW_DOCUMENT_REPLAY, BW_EXTENT_FULL);
}

static const struct misfit_row {
    double misfit;
    const char *says;
} misfit_rows[] = {
    {0.625, "They agree within what such loggers tell: misfit 0.62"},
    {1.0, "They agree within what such loggers tell: misfit 1.00"},
    {1.0625, "They differ by 1.06 times what such loggers tell"},
};

START_TEST(a_replay_agrees_up_to_what_loggers_tell)
{
    full_replay_make(&logged);
    logged.replay.misfit = misfit_rows[_i].misfit;
    print_replay();
    for (size_t i = 0; i < COUNT(misfit_rows); i++)
        says_if(i == (size_t)_i, misfit_rows[i].says);
    logged.replay.not_assessed = "no hour was compared.";
    print_replay();
    says_if(true, "Not assessed: no hour was compared.");
    says_if(false, "what such loggers tell:");
    says_if(false, "They differ");
}
END_TEST

/* Less than half of the last digit is no difference. */
static const struct bias_row {
    double theta, rh;
    const char *says;
} bias_rows[] = {
    {0.75, 0.0625,
     "computed 0.8 K warmer than measured (rms 0.4 K), 6.2 % RH "
     "damper (rms 2.1 %)"},
    {-0.75, -0.0625,
     "computed 0.8 K colder than measured (rms 0.4 K), 6.2 % "
     "RH drier (rms 2.1 %)"},
    {0.049, 0.00049,
     "computed not 0.1 K other than measured (rms 0.4 K), as "
     "damp (rms 2.1 %)"},
    {-0.051, -0.00051,
     "computed 0.1 K colder than measured (rms 0.4 K), 0.1 "
     "% RH drier (rms 2.1 %)"},
    {NAN, NAN, "computed temperature not assessed, humidity not assessed"},
};

START_TEST(a_place_says_how_far_it_is_off)
{
    full_replay_make(&logged);
    logged.place[0].all.theta_bias = bias_rows[_i].theta;
    logged.place[0].all.rh_bias = bias_rows[_i].rh;
    print_replay();
    says_if(true, bias_rows[_i].says);
}
END_TEST

START_TEST(what_was_moved_is_a_suggestion_or_not)
{
    full_replay_make(&logged);
    logged.replay.suggestion = "it may be the film";
    logged.replay.suggests = _i == 1;
    logged.replay.suggestion = _i == 2 ? "" : logged.replay.suggestion;
    print_replay();
    says_if(_i == 0, "Inputs moved: it may be the film.");
    says_if(_i == 1, "A suggestion, no proof: it may be the film.");
    says_if(true, "lambda of a 0.05 0.04 0.03 to 0.06 W/(m.K) 0.70");
    logged.trial[0].at_end = true;
    print_replay();
    says_if(true, "0.03 to 0.06 W/(m.K), at its end 0.70");
    logged.trial[0].low = (double)NAN;
    print_replay();
    says_if(true, "lambda of a 0.05 0.04 a switch 0.70");
    logged.replay.tried = false;
    print_replay();
    says_if(false, "lambda of a 0.05");
}
END_TEST

START_TEST(figures_of_a_replay_stand_in_their_columns)
{
    full_replay_make(&logged);
    print_replay();
    says_if(true, "place:a|b -0.31 0.41 1.1 2.1 0.610 0.670 0.930 0.970");
    says_if(true, "May 2031 32 -0.31 0.41 1.1 2.1 0.610 0.670 0.930 0.970");
    says_if(true, "to the outdoor air (17.0 K, 420 Pa)");
    logged.month[0].theta_hours = 33;
    logged.replay.cavity = true;
    print_replay();
    says_if(true, "May 2031 33 -0.31");
    says_if(true, "to the cavity's air (17.0 K, 420 Pa)");
    logged.replay.assessed = false;
    print_replay();
    says_if(false, "0.610");
    says_if(false, "cavity's air");
}
END_TEST

START_TEST(a_record_is_said_with_its_doubts_and_notes)
{
    static bw_note note[2] = {
        {.kind = BW_NOTE_WARNING,
         .message = "it leaks",
         .file = "w.xml",
         .line = 7},
        {.kind = BW_NOTE_INFO, .message = "it is warm", .file = "w.xml"}};
    full_replay_make(&logged);
    print_replay();
    says_if(true, "Warning: it jumps (log.csv:17)");
    says_if(false, "Source of the log");
    says_if(false, "Its licence");
    says_if(false, "Remark in it");
    says_if(false, "Remark in the wall's file");
    logged.log.source = "a logger";
    logged.log.licence = "free";
    logged.log.remark = "read at noon";
    logged.assembly.remark = "drawn twice";
    logged.assembly.note = note;
    logged.assembly.note_count = 2;
    logged.log.note = note + 1;
    logged.log.note_count = 1;
    note[1].line = 9;
    print_replay();
    says_if(true, "Source of the log: a logger");
    says_if(true, "Its licence: free");
    says_if(true, "Remark in it: read at noon");
    says_if(true, "Remark in the wall's file: drawn twice");
    says_if(true, "Warning: it leaks (w.xml:7)");
    says_if(true, "It is warm (w.xml:9)");
    says_if(false, "Warning: it is warm");
    note[0].line = 0;
    logged.replay.doubt_count = 0;
    print_replay();
    says_if(true, "Warning: it leaks (w.xml)");
    says_if(false, "it jumps");
}
END_TEST

/* ---- month by month --------------------------------------------------------
 */

static size_t times(const char *text, const char *words)
{
    size_t count = 0;
    for (; (text = strstr(text, words)) != NULL; text += strlen(words))
        count++;
    return count;
}

/* Every plane that holds water in some month has its table; without any, that
 * of least reserve, if there is a reserve. One run, of four planes. */
static const struct month_row {
    int wet[WALL_PLANES]; /* in a month, from 1; 0: never */
    bool has_reserve;
    size_t tables;
    const char *named, *not_named;
} month_rows[] = {
    {{0, 2, 0, 0}, true, 1, "softboard", "most at risk"},
    {{0, 2, 12, 0}, true, 2, "hemp batt", "most at risk"},
    {{1, 2, 12, 6}, false, 4, "hemp batt", "most at risk"},
    {{0, 0, 0, 0},
     true,
     1,
     "(no water; the place most at risk)",
     "stay from year to year"},
    {{0, 0, 0, 0}, false, 0, "No water stands anywhere.", "most at risk"},
};

START_TEST(planes_with_water_are_told_month_by_month)
{
    const struct month_row *row = &month_rows[_i];
    full_setup();
    for (int k = 1; k < BW_RUN_COUNT; k++)
        wall.checked.run[k].ran = false;
    bw_monthly_result *run = &wall.checked.run[BW_RUN_DESIGN].result;
    run->has_reserve = row->has_reserve;
    run->critical_plane = 2;
    for (size_t i = 0; i < WALL_PLANES; i++)
        for (int m = 0; m < BW_MONTHS; m++) {
            bw_plane_month *at = &wall.plane[i].month[m];
            at->condensation = 0.0;
            at->accumulated = row->wet[i] == m + 1 ? 0.125 : 0.0;
        }
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    const char *months = strstr(flat.text, "Month by month (ISO 13788)");
    char *end = strstr(flat.text, "Balance, drying");
    ck_assert_ptr_nonnull(months);
    ck_assert_ptr_nonnull(end);
    *end = '\0';
    ck_assert_uint_eq(times(months, "condenses stands"), row->tables);
    ck_assert_uint_eq(times(months, " 125"),
                      row->tables - (strstr(row->named, "risk") != NULL));
    HAS(months, row->named);
    HAS_NOT(months, row->not_named);
}
END_TEST

/* The wet outer layer in the sun is told where it was run and water forms. */
START_TEST(a_wet_outer_layer_is_told_where_water_forms_of_it)
{
    full_setup();
    bw_monthly_run *inward = &wall.checked.run[BW_RUN_INWARD];
    inward->result = wall.checked.run[BW_RUN_DESIGN].result;
    inward->ran = _i / 2 == 1;
    inward->result.condenses = _i % 2 == 1;
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    says_if(_i == 3, "whole, wet outer layer in the sun: first year from Oct.");
}
END_TEST

/* Of a variable membrane its sd in the coldest month and in the warmest. */
START_TEST(a_membrane_is_told_in_winter_and_in_summer)
{
    char says[96];
    const int cold = (_i * 5 + 1) % BW_MONTHS, warm = (_i * 5 + 7) % BW_MONTHS;
    full_setup();
    wall.checked.has_transient = false;
    for (int m = 0; m < BW_MONTHS; m++) {
        wall.checked.boundary[m].theta_e = m == cold   ? -5.0
                                           : m == warm ? 17.0
                                                       : 6.0;
        wall.layer_sd[2][m] = m == cold ? 7.5 : m == warm ? 0.25 : 2.0;
    }
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    snprintf(says, sizeof says,
             "sd 7.5 m in winter (%s), 0.25 m in summer (%s)",
             bw_month_name(cold), bw_month_name(warm));
    says_if(true, says);
}
END_TEST

/* ---- how a wetting dries ---------------------------------------------------
 */

/* Months both ways, outwards and inwards alone; -1: not while it was followed,
 * 0: it was never out. A tenth of a month less is not told as sooner. */
static const struct dry_row {
    double both, out, in;
    bool one_way, sooner;
    const char *says;
} dry_rows[] = {
    {2.0, 3.0, 4.0, true, false, "outwards and inwards, it dries both ways"},
    {2.0, 1.875, 4.0, true, true, "outwards and inwards, it dries both ways"},
    {2.0, 4.0, 1.875, true, true, "outwards and inwards, it dries both ways"},
    {2.0, 1.9375, 4.0, true, false, "outwards and inwards, it dries both ways"},
    {0.0, 0.5, 0.5, true, false, "outwards and inwards, it dries both ways"},
    {0.0, 0.0, 0.0, true, false, "outwards and inwards, it dries both ways"},
    {-1.0, 3.0, -1.0, true, true, "outwards, not inwards"},
    {3.0, -1.0, 4.0, true, false, "inwards, not outwards"},
    {3.0, -1.0, -1.0, true, false, "only with both ways open"},
    {-1.0, -1.0, -1.0, true, false, "neither way, it does not dry"},
    {2.0, 1.0, 1.0, false, false, "it dries"},
    {0.0, 1.0, 1.0, false, false, "it dries"},
    {-1.0, 1.0, 1.0, false, false, "it does not dry"},
};

START_TEST(which_way_a_wetting_dries_is_told)
{
    const struct dry_row *row = &dry_rows[_i];
    const double months[] = {row->both, row->out, row->in};
    char says[96];
    full_setup();
    bw_section_wetting *test = &wall.checked.wetting_test;
    bw_wetting_result *const way[] = {&test->both, &test->outwards,
                                      &test->inwards};
    test->one_way = row->one_way;
    for (size_t i = 0; i < COUNT(way); i++)
        way[i]->months = way[i]->place_months = months[i];
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_FULL);
    snprintf(says, sizeof says, "How it dries: %s (simulated hour by hour",
             row->says);
    says_if(true, says);
    says_if(row->sooner, "One way is sooner than both");
}
END_TEST

SUITE("told", EACH(cases_are_told_the_worst_first, 6),
      FACT(all_together_has_its_own_words),
      FACT(cases_that_turn_the_verdict_are_counted),
      FACT(a_case_without_a_result_has_no_numbers),
      FACT(without_a_simulation_unknowns_are_told),
      EACH(what_decides_at_the_ends_is_said_of_what_moves, 4),
      EACH(the_dampest_room_is_told_with_what_lies_beyond, COUNT(damp_rows)),
      FACT(of_a_long_list_what_moves_nothing_is_named_only),
      EACH(water_let_in_is_what_the_file_states, 4),
      EACH(without_the_leak_says_whether_it_is_the_cause, COUNT(leak_rows)),
      FACT(wood_closed_while_wet_says_how_wet),
      FACT(what_is_said_in_full_is_not_on_the_screen),
      FACT(a_reason_is_told_as_far_as_there_is_room),
      FACT(further_flips_are_told_with_their_side),
      FACT(what_was_taken_to_be_what_is_told), FACT(a_change_says_what_it_does),
      FACT(layers_are_numbered_as_in_the_file),
      FACT(a_flip_says_how_far_away_it_is),
      FACT(a_simulation_tells_its_notes_and_no_more),
      FACT(a_lead_is_a_heading_of_the_page),
      EACH(a_junction_of_a_wall_tells_its_coldest_surface, 2),
      FACT(a_junction_says_where_water_stands),
      EACH(a_junction_says_what_to_do, COUNT(sense_rows)),
      FACT(a_room_without_air_says_why_it_has_no_figures),
      EACH(a_replay_agrees_up_to_what_loggers_tell, COUNT(misfit_rows)),
      EACH(a_place_says_how_far_it_is_off, COUNT(bias_rows)),
      EACH(what_was_moved_is_a_suggestion_or_not, 3),
      FACT(figures_of_a_replay_stand_in_their_columns),
      FACT(a_record_is_said_with_its_doubts_and_notes),
      EACH(planes_with_water_are_told_month_by_month, COUNT(month_rows)),
      EACH(a_wet_outer_layer_is_told_where_water_forms_of_it, 4),
      EACH(a_membrane_is_told_in_winter_and_in_summer, 3),
      EACH(which_way_a_wetting_dries_is_told, COUNT(dry_rows)))
