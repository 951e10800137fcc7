/* Junction files: what is refused and where, and that junctions made of walls
 * are the drawings they are meant to be. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MADE "junction-read"
#include "junction_made.h"
#include "suite.h"

/* ---- refusals ---------------------------------------------------------------
 */

static const char sound[] = TWO_LAYERS_DRAWN "</drawing>\n"
                                             "</junction>\n";

static const struct {
    const char *from, *to;
    long line;
    const char *says;
} refusals[] = {
    {"height=\"100 mm\"/>\n<rectangle", "height=\"90 mm\"/>\n<rectangle", 5,
     "edge to nothing at x 0 to 600 mm, y 90 mm: a gap"},
    {"y=\"100 mm\" width", "y=\"90 mm\" width", 6, "overlaps \"Softwood"},
    {"y=\"100 mm\" width", "y=\"90 mm\" width", 6,
     "at x 0 to 600 mm, y 90 to 100 mm"},
    {"y=\"200 mm\" width", "y=\"150 mm\" width", 6, "a room inside a wall"},
    {"side=\"right\"", "side=\"left\"", 10,
     "<symmetry> side=\"left\" stands twice; once is enough"},
    {"<symmetry side=\"right\"/>", "", 5,
     "the side of the drawing called right"},
    {"<space of=\"room\"", "<space of=\"outside\"", 0,
     "\"room\" touches no material"},
    {"of=\"room\"", "of=\"rom\"", 8, "did you mean room?"},
    {"material=\"hemp-batt\"", "material=\"hemp-bat\"", 6,
     "did you mean hemp-batt"},
    {"side=\"right\"", "side=\"rigth\"", 10, "did you mean right?"},
    {"x=\"300 mm\"", "x=\"300\"", 11, "has no unit"},
    {"x=\"300 mm\"", "x=\"700 mm\"", 11, "lies in no material"},
    {"width=\"600 mm\" height=\"100 mm\"/>\n<rectangle",
     "width=\"0 mm\" height=\"100 mm\"/>\n<rectangle", 5,
     "outside what is possible"},
    {"height=\"100 mm\"/>\n<rectangle", "height=\"1e308 mm\"/>\n<rectangle", 5,
     "outside what is possible"},
    {"<drawing>", "<drawing colour=\"red\">", 4, "colour"},
    {"id=\"test\"", "id=\"test\" kind=\"inner-corer\"", 1,
     "did you mean inner-corner?"},
    {"id=\"test\"", "id=\"test\" kind=\"stud\"", 2,
     "<outdoors> is not an element of <junction>"},
    {"<space of=\"room\"",
     "<rectangle material=\"softwood\" x=\"0 mm\" y=\"0 mm\" width=\"600 mm\" "
     "height=\"200 mm\" over=\"yes\"/><space of=\"room\"",
     5, "lies wholly below others"},
    {"<space of=\"room\"",
     "<space of=\"outside\" x=\"0 mm\" y=\"200 mm\" width=\"60 mm\" "
     "height=\"50 mm\"/><space of=\"room\"",
     8, "a place has one air"},
    {"urn:bothways:junction:1", "urn:bothways:junction:9", 1, "junction"},
    /* a hole through the wall, drawn as the room's air */
    {"<symmetry side=\"left\"/>",
     "<space of=\"room\" x=\"300 mm\" y=\"-50 mm\" width=\"100 mm\" "
     "height=\"250 mm\" over=\"yes\"/><symmetry side=\"left\"/>",
     9, "lie open to each other at x 300 mm, y -50 to 0 mm"},
    {"width=\"600 mm\" height=\"50 mm\"/>\n<space of=\"room\"",
     "width=\"600 mm\" height=\"50 mm\"/>\n<space of=\"room\" x=\"300 mm\" "
     "y=\"-50 mm\" width=\"300 mm\" height=\"50 mm\" over=\"yes\"/>\n"
     "<space of=\"room\"",
     8, "lie open to each other at x 300 mm, y -50 to 0 mm"},
    {"<symmetry side=\"left\"/>",
     "<film material=\"pe-foil-0-15mm\" x=\"0 mm\" y=\"220 mm\" "
     "width=\"600 mm\"/><symmetry side=\"left\"/>",
     9, "x 0 to 600 mm, y 220 mm lies on no material"},
};

START_TEST(a_wrong_drawing_is_refused_with_line_and_place)
{
    char text[4096];
    replaced(text, sizeof text, sound, "", refusals[_i].from, refusals[_i].to);
    must_refuse(text, refusals[_i].line, refusals[_i].says);
}
END_TEST

START_TEST(a_sound_drawing_is_read_as_it_stands)
{
    bw_junction *j = read_text(sound);
    ck_assert_uint_eq(j->filling_count, 2);
    ck_assert_double_eq_tol(j->filling[1].at.y0, 0.1, 1e-12);
    ck_assert_double_eq_tol(j->filling[1].at.x1, 0.6, 1e-12);
    ck_assert_str_eq(j->environment[j->space[1].environment].id, "room");
    ck_assert(j->symmetry[BW_EDGE_LEFT] && j->symmetry[BW_EDGE_RIGHT]);
    ck_assert(!j->symmetry[BW_EDGE_ABOVE]);
    ck_assert_str_eq(j->spot[0].name, "joint");
    bw_junction_free(j);
}
END_TEST

/* ---- made of walls: beside ../shared/reference/junctions.md, section 7
 * --------- */

/* f_Rsi at Rsi 0.25, psi by inner dimensions [W/(m K)] of another program; NAN:
 * its flow is over other lengths, or not given. */
static const struct {
    const char *wall, *junction;
    double frsi, psi_inner, psi_outer;
} made[] = {
    {WALL(BRICK), JUNCTION("outer-corner", ""), 0.4995, 0.233, -0.869},
    {WALL(BRICK INSIDE),
     JUNCTION("window-jamb",
              "<frame material=\"softwood\" width=\"70 mm\" depth=\"70 mm\" "
              "setback=\"100 mm\"/>"),
     /* its 0.487 leaves the frame's own flow in: 0.070 m of
      * 1/(0.17 + 0.07/0.13) W/(m2 K) */
     0.4139, 0.487 - 0.07 / (0.17 + 0.07 / 0.13), NAN},
    /* its walls reach 1.2 m, outside on through the partition */
    {WALL(BRICK INSIDE),
     JUNCTION("partition", "<partition material=\"brick-old-soft\" "
                           "thickness=\"110 mm\" up-to=\"brick\"/>"),
     0.7427, NAN, 0.216},
    {WALL(FRAMED), JUNCTION("stud", ""), 0.8848, 0.024, 0.024},
    {WALL(BRICK),
     JUNCTION("joist-end", "<joist material=\"softwood\" height=\"225 mm\" "
                           "bearing=\"120 mm\" in=\"brick\"/>"),
     0.6346, NAN, NAN},
};

START_TEST(a_junction_made_of_walls_is_the_detail_meant)
{
    write_file(WALL_NAME, made[_i].wall);
    bw_junction *j = read_text(made[_i].junction);
    set_conductivities(j);
    bw_junction_heat *h = heat_of(j);
    ck_assert_double_eq_tol(h->coldest[0].frsi.value, made[_i].frsi, 0.003);
    if (!isnan(made[_i].psi_inner))
        ck_assert_double_eq_tol(h->psi_inner, made[_i].psi_inner, 0.003);
    if (!isnan(made[_i].psi_outer))
        ck_assert_double_eq_tol(h->psi_outer, made[_i].psi_outer, 0.003);
    bw_junction_heat_free(h);
    bw_junction_free(j);
}
END_TEST

/* The room of a junction made of walls is one: a damper one beside it would be
 * left out unseen. */
START_TEST(a_second_wall_of_another_room_is_refused)
{
    static const char other[] =
        "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"bath\">"
        "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"
        "<indoors temperature=\"20 degC\" relative-humidity=\"85 %\"/>"
        "<layers listed=\"outside-to-inside\">" BRICK "</layers></assembly>";
    static const char other_name[] = "./junction-read-other.xml";
    bw_junction *j = NULL;
    bw_error err = {0};
    write_file(WALL_NAME, WALL(BRICK));
    write_file(other_name, other);
    write_file(
        FILE_NAME,
        JUNCTION("outer-corner", "\n<wall file=\"junction-read-other.xml\"/>"));
    ck_assert(bw_junction_read(&j, FILE_NAME, library, &err) == BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 2);
    ck_assert_msg(strstr(err.message, "has other <indoors> than \"w\"") != NULL,
                  "%s", err.message);
    bw_junction_free(j);
    remove(other_name);
}
END_TEST

/* A niche for a pipe, drawn over a wall that exists: the wall is thinner there,
 * and colder than where it is whole. */
START_TEST(a_niche_drawn_over_a_wall_is_cut_out_of_it)
{
    static const char *const text[] = {
        JUNCTION("filled-opening", "<wall file=\"junction-read-wall.xml\"/>"),
        JUNCTION("filled-opening",
                 "<wall file=\"junction-read-wall.xml\"/>\n<drawing>\n"
                 "<space of=\"room\" x=\"200 mm\" y=\"110 mm\" "
                 "width=\"200 mm\" height=\"220 mm\"/></drawing>")};
    double frsi[2];
    write_file(WALL_NAME, WALL(BRICK));
    for (int k = 0; k < 2; k++) {
        bw_junction *j = read_text(text[k]);
        bw_junction_heat *h = heat_of(j);
        frsi[k] = h->coldest[0].frsi.value;
        if (k == 1)
            ck_assert_double_lt(h->coldest[0].y, 0.12);
        bw_junction_heat_free(h);
        bw_junction_free(j);
    }
    /* of one dimension: (0.04 + 0.33/0.77)/(0.29 + 0.33/0.77) */
    ck_assert_double_eq_tol(frsi[0],
                            (0.04 + 0.33 / 0.77) / (0.29 + 0.33 / 0.77), 1e-6);
    ck_assert_double_lt(frsi[1], frsi[0] - 0.1);
}
END_TEST

/* What stands before a surface only adds to the resistance stated of it. */
START_TEST(a_stated_surface_resistance_is_not_that_of_a_cupboard)
{
    write_file(WALL_NAME, WALL(BRICK));
    bw_junction *j = read_text(JUNCTION("outer-corner", ""));
    double frsi[BW_SURFACES_FLOW][2];
    for (int stated = 0; stated < 2; stated++) {
        bw_environment *at = (bw_environment *)&j->environment[1];
        at->has_surface_resistance = stated != 0;
        at->surface_resistance = 0.1;
        bw_junction_heat *h = heat_of(j);
        for (int k = 0; k < BW_SURFACES_FLOW; k++)
            frsi[k][stated] = h->coldest[k].frsi.value;
        bw_junction_heat_free(h);
    }
    ck_assert_double_gt(frsi[0][1], frsi[0][0] + 0.1);
    ck_assert_double_eq_tol(frsi[1][1], frsi[1][0], 1e-12);
    ck_assert_double_eq_tol(frsi[2][1], frsi[2][0], 1e-12);
    bw_junction_free(j);
}
END_TEST

/* Seen from the other side a corner is the other corner: of one material, with
 * the surface resistances changed round, as much heat flows. */
START_TEST(an_inner_corner_is_the_outer_one_seen_from_outside)
{
    double l2d[2];
    static const char *const text[] = {JUNCTION("outer-corner", ""),
                                       JUNCTION("inner-corner", "")};
    write_file(WALL_NAME, WALL(BRICK));
    for (int k = 0; k < 2; k++) {
        bw_junction *j = read_text(text[k]);
        for (size_t e = 0; e < 2; e++) {
            bw_environment *at = (bw_environment *)&j->environment[e];
            at->has_surface_resistance = true;
            at->surface_resistance =
                (at->kind == BW_ENVIRONMENT_ROOM) == (k == 0) ? 0.13 : 0.04;
        }
        bw_junction_heat *h = heat_of(j);
        l2d[k] = h->l2d.value;
        bw_junction_heat_free(h);
        bw_junction_free(j);
    }
    ck_assert_double_eq_tol(l2d[1], l2d[0], 1e-8);
}
END_TEST

/* Head and sill are the jamb, turned. */
START_TEST(head_and_sill_conduct_as_the_jamb)
{
    static const char *const text[] = {
        JUNCTION("window-jamb", "<frame material=\"softwood\" width=\"70 mm\" "
                                "depth=\"70 mm\" setback=\"100 mm\"/>"
                                "<lining material=\"hemp-batt\" "
                                "thickness=\"20 mm\"/>"),
        JUNCTION("window-head", "<frame material=\"softwood\" width=\"70 mm\" "
                                "depth=\"70 mm\" setback=\"100 mm\"/>"
                                "<lining material=\"hemp-batt\" "
                                "thickness=\"20 mm\"/>"),
        JUNCTION("window-sill", "<frame material=\"softwood\" width=\"70 mm\" "
                                "depth=\"70 mm\" setback=\"100 mm\"/>"
                                "<lining material=\"hemp-batt\" "
                                "thickness=\"20 mm\"/>")};
    double l2d[3];
    write_file(WALL_NAME, WALL(BRICK INSIDE));
    for (int k = 0; k < 3; k++) {
        bw_junction *j = read_text(text[k]);
        bw_junction_heat *h = heat_of(j);
        l2d[k] = h->l2d.value;
        /* outside lies left of head and sill */
        if (k > 0)
            ck_assert_double_gt(h->coldest[0].x, 0.1);
        /* the wall above a head, below a sill; the lining is 20 mm */
        if (k > 0)
            ck_assert_double_eq_tol(h->coldest[0].y, k == 1 ? -0.02 : 0.02,
                                    0.001);
        bw_junction_heat_free(h);
        bw_junction_free(j);
    }
    ck_assert_double_eq_tol(l2d[1], l2d[0], 1e-4);
    ck_assert_double_eq_tol(l2d[2], l2d[0], 1e-4);
}
END_TEST

START_TEST(an_opening_filled_with_the_same_wall_is_no_junction)
{
    write_file(WALL_NAME, WALL(BRICK INSIDE));
    bw_junction *j = read_text(
        JUNCTION("filled-opening", "<wall file=\"junction-read-wall.xml\"/>"));
    bw_junction_heat *h = heat_of(j);
    ck_assert_double_eq_tol(h->psi_inner, 0.0, 1e-7);
    ck_assert_uint_eq(h->flank_count, 2);
    bw_junction_heat_free(h);
    bw_junction_free(j);
}
END_TEST

/* A slab as thick as it likes of the wall's own material: what it loses is that
 * of a fin. Without resistance along it, psi is between nothing and that of its
 * whole surface at the room's temperature. */
START_TEST(a_balcony_loses_more_than_the_wall_and_less_than_a_heated_fin)
{
    write_file(WALL_NAME, WALL(BRICK INSIDE));
    bw_junction *j = read_text(
        JUNCTION("balcony", "<slab material=\"dense-block\" "
                            "thickness=\"200 mm\" reach=\"1200 mm\"/>"));
    bw_junction_heat *h = heat_of(j);
    ck_assert_double_gt(h->psi_outer, 0.1);
    ck_assert_double_lt(h->psi_outer, (2 * 1.2 + 0.2) / 0.04);
    ck_assert_double_lt(h->balance, 1e-8);
    bw_junction_heat_free(h);
    bw_junction_free(j);
}
END_TEST

START_TEST(what_a_kind_needs_is_asked_for)
{
    static const struct {
        const char *junction, *says;
    } wrong[] = {
        {JUNCTION("partition", ""), "partition"},
        {JUNCTION("stud", ""), "has no framing"},
        {JUNCTION("window-jamb",
                  "<frame material=\"softwood\" width=\"70 mm\" depth=\"70 "
                  "mm\" setback=\"900 mm\"/>"),
         "stands out of the wall"},
        {JUNCTION("joist-end", "<joist material=\"softwood\" height=\"2 dm\" "
                               "bearing=\"120 mm\" in=\"brick\"/>"),
         "height=\"2 dm\""},
        {JUNCTION("joist-end", "<joist material=\"softwood\" height=\"200 mm\" "
                               "bearing=\"400 mm\" in=\"brick\"/>"),
         "runs through its layer"},
        {JUNCTION("joist-end", "<joist material=\"softwood\" height=\"200 mm\" "
                               "bearing=\"100 mm\" in=\"bric\"/>"),
         "is no layer of the wall"},
        {JUNCTION("outer-corner", "<frame/>"), "frame"},
        {JUNCTION("filled-opening", ""), "takes two"},
        {JUNCTION("joist-end", "<joist material=\"softwood\" height=\"200 mm\" "
                               "bearing=\"100 mm\"/>"),
         "in="},
        {JUNCTION("partition",
                  "<partition material=\"softwood\" thickness=\"100 mm\"/>"),
         "up-to="},
    };
    write_file(WALL_NAME, WALL(BRICK INSIDE));
    for (size_t k = 0; k < COUNT(wrong); k++) {
        bw_junction *j = NULL;
        bw_error err = {0};
        write_file(FILE_NAME, wrong[k].junction);
        ck_assert(bw_junction_read(&j, FILE_NAME, library, &err) ==
                  BW_ERR_INPUT);
        ck_assert_msg(strstr(err.message, wrong[k].says) != NULL, "%s",
                      err.message);
    }
}
END_TEST

/* ISO 10211 (from memory, medium): a cut lies 1 m or three thicknesses
 * from where the wall changes, whichever is more. A post of 100 mm in a wall
 * that lies flat, or stands: so far from its near side, so far from its far
 * one. */
static const struct cut_row {
    int near, far, thick; /* mm */
    bool warns_near, warns_far;
} cut_rows[] = {
    {1000, 1000, 200, false, false}, {999, 1000, 200, true, false},
    {1000, 999, 200, false, true},   {500, 600, 200, true, true},
    {1000, 1200, 400, true, false},  {1200, 1000, 400, false, true},
    {1200, 1200, 400, false, false}, {1199, 1199, 400, true, true},
};

static bool warned(const bw_junction *j, const char *words)
{
    for (size_t i = 0; i < j->note_count; i++)
        if (strstr(j->note[i].message, words) != NULL)
            return true;
    return false;
}

static void check_cuts(const struct cut_row *row, bool stands)
{
    const char *const x = stands ? "y" : "x", *const y = stands ? "x" : "y";
    const char *const width = stands ? "height" : "width";
    const char *const height = stands ? "width" : "height";
    const char *const near = stands ? "below" : "left";
    const char *const far = stands ? "above" : "right";
    const int all = row->near + 100 + row->far;
    char text[3072], says[96];
    /* of two pieces of one material, which is no change */
    const int piece = row->near + 100 + row->far / 2;
    snprintf(text, sizeof text,
             "<junction xmlns=\"urn:bothways:junction:1\" id=\"t\">"
             "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"
             "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"
             "<drawing>"
             "<rectangle material=\"hemp-batt\" %s=\"0 mm\" %s=\"0 mm\" "
             "%s=\"%d mm\" %s=\"%d mm\"/>"
             "<rectangle material=\"hemp-batt\" %s=\"%d mm\" %s=\"0 mm\" "
             "%s=\"%d mm\" %s=\"%d mm\"/>"
             "<rectangle material=\"softwood\" %s=\"%d mm\" %s=\"0 mm\" "
             "%s=\"100 mm\" %s=\"%d mm\" over=\"yes\"/>"
             "<space of=\"outside\" %s=\"0 mm\" %s=\"-50 mm\" "
             "%s=\"%d mm\" %s=\"50 mm\"/>"
             "<space of=\"room\" %s=\"0 mm\" %s=\"%d mm\" "
             "%s=\"%d mm\" %s=\"50 mm\"/>"
             "<symmetry side=\"%s\"/><symmetry side=\"%s\"/>"
             "</drawing></junction>",
             x, y, width, piece, height, row->thick, x, piece, y, width,
             all - piece, height, row->thick, x, row->near, y, width, height,
             row->thick, x, y, width, all, height, x, y, row->thick, width, all,
             height, near, far);
    bw_junction *j = read_text(text);
    snprintf(says, sizeof says, "the side %s is cut %d mm from where", near,
             row->near);
    ck_assert_int_eq(warned(j, says), row->warns_near);
    snprintf(says, sizeof says, "the side %s is cut %d mm from where", far,
             row->far);
    ck_assert_int_eq(warned(j, says), row->warns_far);
    snprintf(says, sizeof says, "draw the wall on for %d mm",
             row->thick == 400 ? 1200 : 1000);
    ck_assert_int_eq(warned(j, says), row->warns_near || row->warns_far);
    bw_junction_free(j);
}

START_TEST(a_cut_too_near_to_a_change_is_said)
{
    check_cuts(&cut_rows[_i], false);
    check_cuts(&cut_rows[_i], true);
}
END_TEST

/* Both ends of every length of a kind's part: the end itself is no fault of
 * that length, what is just beyond it is. docs/input.md; another rule may
 * refuse the end, and says so in other words. */
#define SECOND "<wall file=\"" MADE "-wall.xml\"/>"
#define PLINTH                                                                 \
    "<plinth material=\"softwood\" width=\"200 mm\" height=\"200 mm\" "        \
    "above-ground=\""
#define DRAWN "<drawing><rectangle material=\"softwood\" "

static const struct length_row {
    const char *before, *after; /* of the number, in mm, within the part */
    const char *kind;
    double least, most; /* mm, mW/(m K) */
} length_rows[] = {
    {"<frame material=\"softwood\" width=\"",
     "mm\" depth=\"70 mm\" "
     "setback=\"50 mm\"/>",
     "window-jamb", 10, 1000},
    {"<frame material=\"softwood\" width=\"70 mm\" depth=\"",
     "mm\" setback=\"50 mm\"/>", "window-jamb", 10, 1000},
    {"<frame material=\"softwood\" width=\"70 mm\" depth=\"70 mm\" "
     "setback=\"",
     "mm\"/>", "window-jamb", 0, 1000},
    {"<partition material=\"softwood\" up-to=\"brick\" thickness=\"", "mm\"/>",
     "partition", 5, 2000},
    {"<joist material=\"softwood\" in=\"brick\" bearing=\"100 mm\" "
     "height=\"",
     "mm\"/>", "joist-end", 10, 1000},
    {"<joist material=\"softwood\" in=\"brick\" height=\"200 mm\" "
     "bearing=\"",
     "mm\"/>", "joist-end", 5, 1000},
    {"<slab material=\"softwood\" reach=\"1 m\" thickness=\"", "mm\"/>",
     "balcony", 10, 1000},
    {"<slab material=\"softwood\" thickness=\"200 mm\" reach=\"", "mm\"/>",
     "balcony", 50, 5000},
    {"<frame material=\"softwood\" width=\"70 mm\" depth=\"70 mm\" "
     "setback=\"0 mm\"/><lining material=\"softwood\" thickness=\"",
     "mm\"/>", "window-jamb", 1, 500},
    {SECOND "<plinth material=\"softwood\" height=\"200 mm\" "
            "above-ground=\"150 mm\" width=\"",
     "mm\"/>", "wall-foot", 20, 2000},
    {SECOND "<plinth material=\"softwood\" width=\"200 mm\" "
            "above-ground=\"150 mm\" height=\"",
     "mm\"/>", "wall-foot", 20, 5000},
    {SECOND PLINTH, "mm\"/>", "wall-foot", -1000, 5000},
    {SECOND PLINTH "150 mm\"/><plate material=\"softwood\" in=\"brick\" "
                   "height=\"",
     "mm\"/>", "wall-foot", 5, 1000},
    {"<wall file=\"" MADE "-wall.xml\" offset=\"", "mm\"/>", "filled-opening",
     -1000, 1000},
    {DRAWN "y=\"0 mm\" width=\"1 m\" height=\"1 m\" x=\"", "mm\"/></drawing>",
     "outer-corner", -1e5, 1e5},
    {DRAWN "x=\"0 mm\" width=\"1 m\" height=\"1 m\" y=\"", "mm\"/></drawing>",
     "outer-corner", -1e5, 1e5},
    {DRAWN "x=\"0 mm\" y=\"0 mm\" height=\"1 m\" width=\"", "mm\"/></drawing>",
     "outer-corner", 0.1, 1e5},
    {DRAWN "x=\"0 mm\" y=\"0 mm\" width=\"1 m\" height=\"", "mm\"/></drawing>",
     "outer-corner", 0.1, 1e5},
    {DRAWN "x=\"0 mm\" y=\"0 mm\" width=\"1 m\" height=\"1 m\" lambda=\"",
     "mW/(m.K)\"/></drawing>", "outer-corner", 1, 5e5},
};

static bool out_of_range(const struct length_row *row, double number)
{
    char text[2048];
    bw_junction *j = NULL;
    bw_error err = {0};
    snprintf(text, sizeof text,
             "<junction xmlns=\"urn:bothways:junction:1\" id=\"t\" "
             "kind=\"%s\">" SECOND "%s%.9g "
             "%s</junction>",
             row->kind, row->before, number, row->after);
    write_file(WALL_NAME, WALL(BRICK INSIDE));
    write_file(FILE_NAME, text);
    if (bw_junction_read(&j, FILE_NAME, library, &err) == BW_OK)
        bw_junction_free(j);
    return strstr(err.message, "outside what is possible here") != NULL;
}

START_TEST(each_length_of_a_part_ends_where_it_is_said_to)
{
    for (size_t i = 0; i < COUNT(length_rows); i++) {
        const struct length_row *row = &length_rows[i];
        ck_assert_msg(!out_of_range(row, row->least), "%s", row->before);
        ck_assert_msg(!out_of_range(row, row->most), "%s", row->before);
        ck_assert_msg(out_of_range(row, row->least - 0.001), "%s", row->before);
        ck_assert_msg(out_of_range(row, row->most + 0.001), "%s", row->before);
    }
}
END_TEST

SUITE_AROUND(
    "junction_read", start, end,
    EACH(a_wrong_drawing_is_refused_with_line_and_place, COUNT(refusals)),
    FACT(a_sound_drawing_is_read_as_it_stands),
    EACH(a_junction_made_of_walls_is_the_detail_meant, COUNT(made)),
    FACT(a_second_wall_of_another_room_is_refused),
    FACT(a_niche_drawn_over_a_wall_is_cut_out_of_it),
    FACT(a_stated_surface_resistance_is_not_that_of_a_cupboard),
    FACT(an_inner_corner_is_the_outer_one_seen_from_outside),
    FACT(head_and_sill_conduct_as_the_jamb),
    FACT(an_opening_filled_with_the_same_wall_is_no_junction),
    FACT(a_balcony_loses_more_than_the_wall_and_less_than_a_heated_fin),
    EACH(a_cut_too_near_to_a_change_is_said, COUNT(cut_rows)),
    FACT(each_length_of_a_part_ends_where_it_is_said_to),
    FACT(what_a_kind_needs_is_asked_for))
