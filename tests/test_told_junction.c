/* Sentences and rows of a junction, each there where it is so and with the
 * figures of its result: with which resistances the flow was computed, what
 * flows between which sides, what leaks in, its materials, places, criteria and
 * warnings; and what the site and the reviewer have of it, to be looked at. */

#include <math.h>
#include <stdio.h>

#include "flat_text.h"
#include "full_audit.h"
#include "full_junction.h"
#include "full_result.h"

static void junction_setup(void)
{
    full_setup();
    dice own = {.state = 1181783497276652981u};
    full_junction_make(&meeting, &own);
}

static void print_junction(void)
{
    const bw_results of = {.junction = &meeting.assessment};
    print_flat(&of, BW_DOCUMENT_JUNCTION, BW_EXTENT_FULL);
}

/* In what is printed a stands before b. */
static void stand_in_order(const char *a, const char *b)
{
    const char *first = strstr(flat.text, a);
    ck_assert_msg(first != NULL, "no '%s'", a);
    ck_assert_msg(strstr(first, b) != NULL, "no '%s' behind '%s'", b, a);
}

/* ---- heat -----------------------------------------------------------------
 */

/* Those of ISO 6946 unless the drawing states others; of several rooms it is
 * not told which has which. */
static const struct resistances {
    size_t sides;
    double outside, kitchen; /* 0: not stated */
    const char *says;
} resistances[] = {
    {2, 0.0, 0.0, "(Rsi 0.13, Rse 0.04)"},
    {2, 0.0, 0.2, "(Rsi 0.20, Rse 0.04)"},
    {2, 0.1, 0.0, "(Rsi 0.13, Rse 0.10)"},
    {2, 0.1, 0.2, "(Rsi 0.20, Rse 0.10)"},
    {3, 0.0, 0.0, "(Rsi 0.13, Rse 0.04)"},
    {3, 0.0, 0.2, "(Rsi 0.13, Rse 0.04 unless stated)"},
    {3, 0.1, 0.0, "(Rsi 0.13, Rse 0.04 unless stated)"},
};

START_TEST(a_flow_says_with_which_resistances)
{
    const struct resistances *row = &resistances[_i];
    junction_setup();
    meeting.heat.environment_count = row->sides;
    meeting.assessment.room_count = row->sides - 1;
    for (size_t e = 0; e < 2; e++) {
        const double stated = e == 0 ? row->outside : row->kitchen;
        meeting.environment[e].has_surface_resistance = stated > 0.0;
        meeting.environment[e].surface_resistance = stated;
    }
    print_junction();
    says_if(true, row->says);
}
END_TEST

/* Between each two sides once, where there are more than two. */
START_TEST(what_flows_between_each_two_sides_is_told_once)
{
    static const char *const pair[] = {"outside to kitchen", "outside to loft",
                                       "kitchen to loft"};
    static const size_t at[] = {3, 6, 7};
    static const char *const none[] = {
        "kitchen to outside", "loft to outside",    "loft to kitchen",
        "outside to outside", "kitchen to kitchen", "loft to loft"};
    char text[96];
    junction_setup();
    print_junction();
    for (size_t i = 0; i < COUNT(pair); i++) {
        const bw_found *c = &meeting.coupling[at[i]];
        snprintf(text, sizeof text, "%s %.4f W/(m K), within %.4f", pair[i],
                 c->value, c->error);
        says_if(true, text);
    }
    for (size_t i = 0; i < COUNT(none); i++)
        says_if(false, none[i]);
    meeting.heat.environment_count = 2;
    meeting.assessment.room_count = 1;
    print_junction();
    for (size_t i = 0; i < COUNT(pair); i++)
        says_if(false, pair[i]);
}
END_TEST

START_TEST(psi_and_the_walls_cut_are_told_where_there_are_any)
{
    static const char *const side[] = {"left", "right", "below", "above"};
    char text[128];
    junction_setup();
    for (size_t has = 0; has < 2; has++)
        for (size_t k = 0; k < BW_EDGES; k++) {
            meeting.heat.has_psi = has == 1;
            meeting.heat.flank_count = has;
            meeting.heat.flank[0].side = (bw_cell_side)k;
            print_junction();
            snprintf(text, sizeof text,
                     "psi %.3f W/(m K) by inner dimensions, %.3f by outer",
                     meeting.heat.psi_inner, meeting.heat.psi_outer);
            says_if(has == 1, text);
            says_if(has == 1, "psi ");
            snprintf(text, sizeof text,
                     "Wall cut %s U %.3f W/(m2 K), %.3f m by inner and %.3f m "
                     "by outer dimensions",
                     side[k], meeting.heat.flank[0].transmittance,
                     meeting.heat.flank[0].inner, meeting.heat.flank[0].outer);
            says_if(has == 1, text);
            says_if(has == 1, "Wall cut");
        }
}
END_TEST

/* ---- what leaks in --------------------------------------------------------
 */

/* Of a wall's own, which may go two ways, one line; of the junction's each. */
START_TEST(each_leak_is_told_once)
{
    static bw_drawn_leak leak[4];
    junction_setup();
    meeting.assessment.hours.ran = false;
    for (size_t k = 0; k < COUNT(leak); k++)
        leak[k] = (bw_drawn_leak){.name = k < 2 ? "sill" : "south-wall",
                                  .source = k == 0 ? "a guess" : "a test",
                                  .at = {0.1, 0.1375, 0.0, 0.2},
                                  .wall = k < 2 ? -1 : 7,
                                  .fraction = 0.0125 * (double)(k + 1),
                                  .face = 1.25};
    meeting.junction.leak = leak;
    for (size_t count = 0; count <= COUNT(leak); count++) {
        meeting.junction.leak_count = count;
        print_junction();
        says_if(count > 0,
                "At \"sill\": 1.25 % of the driving rain on 1.25 m of outer "
                "face, over 38 mm; source: a guess");
        says_if(count > 1,
                "At \"sill\": 2.5 % of the driving rain on 1.25 m of outer "
                "face, over 38 mm; source: a test");
        says_if(count > 2, "Of the wall \"south-wall\": 3.75 % of the driving "
                           "rain, all along");
        says_if(false, "Of the wall \"south-wall\": 5 %");
        says_if(count > 0, "Months know no rain: with --simulate it is put");
    }
    leak[3].wall = 8; /* of another wall */
    print_junction();
    says_if(true, "Of the wall \"south-wall\": 5 %");
}
END_TEST

START_TEST(what_leaked_in_is_told_where_hours_were_run)
{
    static const bw_drawn_leak leak = {
        .name = "sill", .source = "", .wall = -1};
    static const bw_drawn_air air = {.name = "bearing",
                                     .source = "a test",
                                     .at = {0.0, 0.0625, 0.0, 0.1},
                                     .environment = 2,
                                     .flow = 0.45 / 3600.0};
    junction_setup();
    for (int k = 0; k < 8; k++) {
        bw_junction_hours *h = &meeting.assessment.hours;
        const bool stated = (k & 4) != 0;
        h->asked = (k & 1) != 0;
        h->ran = (k & 2) != 0;
        h->leaked = 1.625;
        h->ran_off = 0.375;
        h->air = 0.875;
        meeting.junction.leak = &leak;
        meeting.junction.leak_count = stated;
        meeting.junction.air = &air;
        meeting.junction.air_count = stated;
        print_junction();
        says_if(stated && h->asked && h->ran,
                "1.62 kg a year and metre of the junction, 0.375 kg of which "
                "found full pores");
        says_if(stated && !(h->asked && h->ran), "Months know no rain: with");
        says_if(
            stated,
            "Air of \"loft\" to \"bearing\": 0.45 m3 an hour and metre, all "
            "year, over 62 mm; only the water that it brings counts; "
            "source: a test");
        says_if(stated, "By months what it cannot hold there stays there");
        says_if(stated && h->asked && h->ran,
                "there; hour by hour it leaves 0.875 kg a year and metre");
        says_if(stated && !(h->asked && h->ran), "stays there.");
        says_if(stated, "capillary flow, other leaking air");
        says_if(!stated, "capillary flow, leaking air");
    }
}
END_TEST

/* ---- places, materials, criteria, warnings --------------------------------
 */

START_TEST(a_named_place_has_what_is_known_of_it)
{
    char text[128];
    junction_setup();
    bw_junction_spot *s = &meeting.at_spot[0];
    for (int k = 0; k < 8; k++) {
        s->has_rh = (k & 1) != 0;
        s->has_moisture = (k & 3) == 3;
        s->rh[FULL_DAMPEST_MONTH] = (k & 4) != 0 ? 1.0 : 0.96875;
        s->moisture[FULL_DAMPEST_MONTH] = 0.234;
        print_junction();
        snprintf(text, sizeof text, "Plate end -200 -100 %.1f %s%s%s",
                 s->theta[FULL_COLDEST_MONTH],
                 !s->has_rh     ? ""
                 : (k & 4) != 0 ? "100 Aug "
                                : "97 Aug ",
                 !s->has_moisture ? ""
                 : (k & 4) != 0   ? ">23 "
                                  : "23 ",
                 s->has_moisture ? "Wood: in balance" : "6 What is drawn");
        says_if(true, text);
        says_if(s->has_moisture, "Wood: in balance with it");
    }
    s->material = NULL; /* in the air */
    print_junction();
    snprintf(text, sizeof text, "Plate end -200 -100 %.1f ",
             s->theta[FULL_COLDEST_MONTH]);
    says_if(false, text);
    says_if(false, "Named places");
    says_if(false, "Wood: in balance with it");
}
END_TEST

START_TEST(what_is_drawn_is_told_in_the_order_it_is_painted)
{
    junction_setup();
    print_junction();
    stand_in_order("old brick 0.7 -300.0 0.0 -200.0 600.0",
                   "wood fibre 0.4 0.0 900.0 -200.0 0.0");
    meeting.junction.filling_count = 1;
    print_junction();
    says_if(true, "old brick 0.7 -300.0 0.0 -200.0 600.0");
    says_if(false, "wood fibre 0.4");
}
END_TEST

START_TEST(every_criterion_is_told_with_its_rule)
{
    junction_setup();
    meeting.criterion[1].decides = false;
    meeting.criterion[1].verdict = BW_FAILS;
    meeting.criterion[1].reason = "in the corner";
    print_junction();
    says_if(true, "Surface temperature factor (kitchen): marginal somewhere "
                  "some rule");
    says_if(true, "Surface temperature factor (loft): fails, for information "
                  "in the corner some rule");
}
END_TEST

START_TEST(warnings_stand_before_notes)
{
    static const bw_note note[] = {
        {BW_NOTE_INFO, 3, "meeting.xml", "first to be noted"},
        {BW_NOTE_WARNING, 4, "meeting.xml", "first to warn of"},
        {BW_NOTE_INFO, 5, "meeting.xml", "last to be noted"},
        {BW_NOTE_WARNING, 6, "meeting.xml", "last to warn of"}};
    junction_setup();
    meeting.junction.note = note;
    meeting.junction.note_count = COUNT(note);
    print_junction();
    stand_in_order("Warning: first to warn of", "Warning: last to warn of");
    stand_in_order("Warning: last to warn of", "first to be noted");
    stand_in_order("first to be noted", "last to be noted");
    stand_in_order("last to be noted", "Steady heat and vapour");
    says_if(false, "Warning: first to be noted");
}
END_TEST

/* ---- the sheets of the wall that names it ---------------------------------
 */

static const bw_junction_assessment *met[1];
static bw_named_junction named[1];

static void sheet_setup(void)
{
    junction_setup();
    named[0] = (bw_named_junction){.junction = &meeting.junction};
    met[0] = &meeting.assessment;
    wall.assembly.junction = named;
    wall.assembly.junction_count = 1;
    wall.assessment.junction = met;
    wall.assessment.junction_count = 1;
    full_audit();
}

static void print_sheet(bw_document document)
{
    print_flat(&wall.results, document, BW_EXTENT_FULL);
}

START_TEST(a_sheet_has_junctions_where_the_wall_names_some)
{
    static const bw_verdict of[] = {BW_HOLDS, BW_MARGINAL, BW_FAILS,
                                    BW_NOT_ASSESSED};
    char text[96];
    sheet_setup();
    for (size_t i = 0; i < COUNT(of); i++) {
        meeting.assessment.verdict = of[i];
        print_sheet(BW_DOCUMENT_AUDIT);
        says_if(true, "Junctions of this wall");
        snprintf(text, sizeof text, "Where walls meet (meeting.xml): %s",
                 bw_verdict_text(of[i]));
        says_if(true, text);
        says_if(true, "Not evidenced: no evidence of a junction can stand");
        print_sheet(BW_DOCUMENT_PLAN);
        says_if(true, "Junctions, as they were judged");
        says_if(true, "Where walls meet (drawing, meeting.xml)");
    }
    wall.assessment.junction_count = 0; /* named, not judged */
    print_sheet(BW_DOCUMENT_AUDIT);
    says_if(false, "Where walls meet (meeting.xml):");
    says_if(true, "Not evidenced: no evidence of a junction can stand");
    wall.assembly.junction_count = 0;
    print_sheet(BW_DOCUMENT_AUDIT);
    says_if(false, "Junctions of this wall");
    says_if(false, "Not evidenced: no evidence of a junction can stand");
    print_sheet(BW_DOCUMENT_PLAN);
    says_if(false, "Junctions, as they were judged");
    says_if(false, "Where walls meet");
}
END_TEST

/* An L, cut at some of its edges: what reaches a cut edge goes on there, and
 * its length there is not its own. What is cut both ways is told as drawn. */
START_TEST(the_plan_tells_what_is_drawn_and_what_goes_on)
{
    static const char *const brick[] = {
        "[ ] Old brick: 300.0 mm by 800.0 mm (x -300 mm, y -200 mm)",
        "[ ] Old brick: 800.0 mm, going on sideways (x -300 mm, y -200 mm)",
        "[ ] Old brick: 300.0 mm, going on upwards (x -300 mm, y -200 mm)"};
    static const char *const fibre[] = {
        "[ ] Wood fibre: 900.0 mm by 200.0 mm (x 0 mm, y -200 mm)",
        "[ ] Wood fibre: 200.0 mm, going on sideways (x 0 mm, y -200 mm)",
        "[ ] Wood fibre: 900.0 mm, going on upwards (x 0 mm, y -200 mm)"};
    sheet_setup();
    for (int k = 0; k < 16; k++) {
        for (int e = 0; e < BW_EDGES; e++)
            meeting.junction.symmetry[e] = (k >> e & 1) != 0;
        /* the brick has the left edge, both have the lower one, the fibre the
         * right one, the brick the upper one */
        const bool across = meeting.junction.symmetry[BW_EDGE_LEFT] ||
                            meeting.junction.symmetry[BW_EDGE_RIGHT];
        const bool upright = meeting.junction.symmetry[BW_EDGE_BELOW] ||
                             meeting.junction.symmetry[BW_EDGE_ABOVE];
        const size_t is = across == upright ? 0 : across ? 1 : 2;
        print_sheet(BW_DOCUMENT_PLAN);
        for (size_t i = 0; i < COUNT(brick); i++) {
            says_if(i == is, brick[i]);
            says_if(i == is, fibre[i]);
        }
        says_if(true, "[ ] Photograph: plate end (x -200 mm, y -100 mm)");
    }
}
END_TEST

/* What lies within the drawing has its own lengths whatever is cut. */
START_TEST(what_reaches_no_edge_has_its_lengths)
{
    sheet_setup();
    for (int e = 0; e < BW_EDGES; e++)
        meeting.junction.symmetry[e] = true;
    meeting.filling[1].at = (bw_rectangle){-0.2, -0.125, 0.1, 0.35};
    print_sheet(BW_DOCUMENT_PLAN);
    says_if(true, "[ ] Wood fibre: 75.0 mm by 250.0 mm (x -200 mm, y 100 mm)");
    for (size_t k = 0; k < 4; k++) { /* from edge to edge one way */
        static const bw_rectangle at[] = {{-0.3, -0.25, 0.1, 0.35},
                                          {-0.05, 0.0, 0.1, 0.35},
                                          {-0.2, -0.15, -0.2, 0.05},
                                          {-0.2, -0.15, 0.35, 0.6}};
        meeting.filling[1].at = at[k];
        print_sheet(BW_DOCUMENT_PLAN);
        says_if(k < 2, "[ ] Wood fibre: 250.0 mm, going on sideways");
        says_if(k >= 2, "[ ] Wood fibre: 50.0 mm, going on upwards");
    }
}
END_TEST

START_TEST(the_plan_tells_every_film)
{
    static const bw_drawn_film film[] = {{.name = "foil"}, {.name = "tape"}};
    static const bw_film_line line[] = {
        {.x0 = -0.1, .x1 = 0.25, .y0 = 0.05, .y1 = 0.075, .film = 1},
        {.x0 = 0.3, .x1 = 0.4, .y0 = 0.5, .y1 = 0.6, .film = 0}};
    static const char *const says[] = {
        "[ ] Tape, without a gap from x -100 mm, y 50 mm to x 250 mm, y 75 mm",
        "[ ] Foil, without a gap from x 300 mm, y 500 mm to x 400 mm, y 600"};
    sheet_setup();
    meeting.junction.film = film;
    meeting.junction.film_count = COUNT(film);
    meeting.junction.film_line = line;
    for (size_t count = 0; count <= COUNT(line); count++) {
        meeting.junction.film_line_count = count;
        print_sheet(BW_DOCUMENT_PLAN);
        for (size_t k = 0; k < COUNT(line); k++)
            says_if(k < count, says[k]);
    }
}
END_TEST

/* ---- surfaces --------------------------------------------------------------
 */

/* Beyond saturation a surface is wet; a month that asks for no factor has none.
 */
static const struct surface_row {
    double rh, required;
    const char *says;
} surface_rows[] = {
    {0.5, 0.625, "0.375 0.125 0.625 Nov 7.5 50 "},
    {1.0, 0.625, "0.375 0.125 0.625 Nov 7.5 100 "},
    {1.001, 0.625, "0.375 0.125 0.625 Nov 7.5 wet "},
    {0.5, 0.0, "0.375 0.125 none Nov 7.5 50 "},
    {0.5, 0.001, "0.375 0.125 0.001 Nov 7.5 50 "},
};

START_TEST(a_surface_is_told_with_its_factor_and_its_air)
{
    const struct surface_row *row = &surface_rows[_i];
    junction_setup();
    bw_surface_result *s = &meeting.room[1].surface[2];
    s->frsi = 0.375;
    s->frsi_required = row->required;
    s->month[s->critical_month].theta_si = 7.5;
    s->month[s->critical_month].rh_si = row->rh;
    meeting.coldest[1 * BW_SURFACES_FLOW + 2].frsi.error = 0.125;
    print_junction();
    says_if(true, row->says);
}
END_TEST

SUITE("told_junction",
      EACH(a_flow_says_with_which_resistances, COUNT(resistances)),
      FACT(what_flows_between_each_two_sides_is_told_once),
      FACT(psi_and_the_walls_cut_are_told_where_there_are_any),
      FACT(each_leak_is_told_once),
      EACH(a_surface_is_told_with_its_factor_and_its_air, COUNT(surface_rows)),
      FACT(what_leaked_in_is_told_where_hours_were_run),
      FACT(a_named_place_has_what_is_known_of_it),
      FACT(what_is_drawn_is_told_in_the_order_it_is_painted),
      FACT(every_criterion_is_told_with_its_rule),
      FACT(warnings_stand_before_notes),
      FACT(a_sheet_has_junctions_where_the_wall_names_some),
      FACT(the_plan_tells_what_is_drawn_and_what_goes_on),
      FACT(what_reaches_no_edge_has_its_lengths),
      FACT(the_plan_tells_every_film))
