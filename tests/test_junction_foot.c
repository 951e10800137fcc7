/* The foot of a wall: a plinth, a sole plate, and the floor beside it. */

#include <math.h>
#include <stdint.h>

#include "junction/raster.h"
#define MADE "junction-foot"
#include "junction_made.h"
#include "raster_value.h"
#include "suite.h"

/* ---- the foot of a wall -----------------------------------------------------
 */

#define FLOOR(outside, layers)                                                 \
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"f\" "                    \
    "element=\"floor\">" outside                                               \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"                  \
    "<layers listed=\"outside-to-inside\">" layers "</layers></assembly>"
#define IN_AIR "<outdoors climate=\"c.csv\" below=\"open-air\"/>"
#define ON_GROUND                                                              \
    "<outdoors climate=\"c.csv\"/><ground depth=\"0.5 m\" soil=\"clay\"/>"
#define FOOT(plinth, parts)                                                    \
    JUNCTION("wall-foot", "<wall file=\"" MADE "-floor.xml\"/>" parts          \
                          "<plinth material=\"brick-old-soft\" " plinth "/>")

static bw_junction *read_foot(const char *wall, const char *floor,
                              const char *text)
{
    write_file(WALL_NAME, wall);
    write_file(FLOOR_NAME, floor);
    return read_text(text);
}

/* A wall and a floor of one brick on a plinth of it are a corner: of the
 * details, "corner, brick 330 (0.77), bare". */
START_TEST(a_foot_of_one_brick_is_the_corner_of_brick)
{
    bw_junction *j = read_foot(
        WALL(BRICK), FLOOR(IN_AIR, BRICK),
        FOOT("width=\"330 mm\" height=\"330 mm\" above-ground=\"300 mm\" "
             "level-with=\"brick\"",
             ""));
    set_conductivities(j);
    bw_junction_heat *h = heat_of(j);
    ck_assert_double_eq_tol(h->coldest[0].frsi.value, 0.4995, 0.003);
    ck_assert_double_eq_tol(h->psi_inner, 0.233, 0.003);
    ck_assert_double_eq_tol(h->psi_outer, -0.869, 0.003);
    bw_junction_heat_free(h);
    bw_junction_free(j);
}
END_TEST

/* Where the plinth conducts next to nothing, wall and floor are as if each were
 * alone: psi by inner dimensions is that of the insulated corner between them,
 * far below that of a plinth that conducts. */
START_TEST(a_plinth_that_insulates_costs_less_than_one_of_brick)
{
    static const double lambda[] = {0.05, 0.77, 2.3};
    double psi[3], at_plate[3];
    for (int k = 0; k < 3; k++) {
        bw_junction *j = read_foot(
            WALL(FRAMED), FLOOR(IN_AIR, FRAMED),
            FOOT("width=\"160 mm\" height=\"400 mm\" above-ground=\"300 mm\"",
                 "<plate material=\"softwood\" height=\"45 mm\" "
                 "in=\"bay\"/>"));
        for (size_t m = 0; m < j->material_count; m++)
            if (strcmp(j->material[m].material->id, "brick-old-soft") == 0)
                ((bw_drawn_material *)&j->material[m])->conductivity =
                    lambda[k];
        bw_junction_heat *h = heat_of(j);
        psi[k] = h->psi_inner;
        ck_assert_uint_eq(h->flank_count, 2);
        const double weight = value_at(&h->raster, h->weight[1], j->spot[1].x,
                                       j->spot[1].y);
        at_plate[k] = weight;
        bw_junction_heat_free(h);
        bw_junction_free(j);
    }
    ck_assert_double_lt(psi[0], psi[1]);
    ck_assert_double_lt(psi[1], psi[2]);
    ck_assert_double_gt(at_plate[0], at_plate[1]);
    ck_assert_double_gt(at_plate[1], at_plate[2]);
}
END_TEST

/* Which place lies beside the plinth at a height: 0 outside, 2 what is below
 * the floor. */
static size_t beside_plinth(const bw_junction *j, double y)
{
    size_t found = SIZE_MAX;
    for (size_t k = 0; k < j->space_count; k++) {
        const bw_rectangle *r = &j->space[k].at;
        if (r->x0 < -0.05 && r->x1 > -0.05 && y > r->y0 && y < r->y1)
            found = j->space[k].environment;
    }
    return found;
}

START_TEST(the_soil_outside_reaches_up_to_the_ground)
{
    static const char *const foot[] = {
        FOOT("width=\"330 mm\" height=\"600 mm\" above-ground=\"200 mm\" "
             "level-with=\"brick\"",
             ""),
        FOOT("width=\"330 mm\" height=\"600 mm\" above-ground=\"-100 mm\" "
             "level-with=\"brick\"",
             "")};
    static const double surface[] = {-0.2, 0.1};
    for (int k = 0; k < 2; k++) {
        bw_junction *j = read_foot(WALL(BRICK), FLOOR(ON_GROUND, BRICK),
                                   foot[k]);
        ck_assert(j->environment[2].kind == BW_ENVIRONMENT_GROUND);
        ck_assert_uint_eq(beside_plinth(j, surface[k] - 0.01), 2);
        ck_assert_uint_eq(beside_plinth(j, surface[k] + 0.01), 0);
        ck_assert_uint_eq(beside_plinth(j, -0.59), 2);
        bw_junction_heat *h = heat_of(j);
        ck_assert(!h->has_psi);
        bw_junction_heat_free(h);
        bw_junction_free(j);
    }
}
END_TEST

START_TEST(a_floor_is_level_with_the_plinth_where_it_says)
{
    bw_junction *j = read_foot(
        WALL(FRAMED), FLOOR(IN_AIR, FRAMED),
        FOOT("width=\"160 mm\" height=\"400 mm\" above-ground=\"0 mm\" "
             "level-with=\"bay\"",
             "<plate material=\"softwood\" height=\"45 mm\" in=\"bay\"/>"));
    /* osb 9 and bay 140 mm lie below the wall's foot, the board above */
    const bw_rectangle *r = &j->filling[0].at;
    ck_assert_double_eq_tol(r->y0, -0.149, 1e-12);
    ck_assert_double_eq_tol(r->x0, 0.0, 1e-12);
    r = &j->filling[2].at;
    ck_assert_double_eq_tol(r->y0, 0.0, 1e-12);
    ck_assert_double_eq_tol(r->y1, 0.0125, 1e-12);
    ck_assert_double_eq_tol(r->x0, 0.1615, 1e-12);
    /* and a low foot is told of */
    bool low = false;
    for (size_t k = 0; k < j->note_count; k++)
        low |= strstr(j->note[k].message, "0 mm above the ground") != NULL;
    ck_assert(low);
    bw_junction_free(j);
}
END_TEST

/* Of the layer that is named the upper face lies at the foot of the wall; of
 * none the floor stands beside the wall, its outer face at the foot
 * (docs/input.md). The floor is 330 mm of brick, 80 and 12.5 mm. */
START_TEST(a_plinth_needs_no_layer_to_be_level_with)
{
    static const struct {
        const char *foot;
        double under; /* mm */
    } rows[] = {
#define LEVEL(with)                                                            \
    FOOT("width=\"330 mm\" height=\"600 mm\" above-ground=\"200 mm\" " with, "")
        {LEVEL(""), 0.0},
        {LEVEL("level-with=\"brick\""), -330.0},
        {LEVEL("level-with=\"ins\""), -410.0},
        {LEVEL("level-with=\"board\""), -422.5},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_junction *j = read_foot(WALL(BRICK INSIDE),
                                   FLOOR(IN_AIR, BRICK INSIDE), rows[i].foot);
        double low = HUGE_VAL;
        for (size_t k = 0; k < j->filling_count; k++)
            if (j->filling[k].at.x1 > 1.0) /* the floor's, not the plinth */
                low = fmin(low, j->filling[k].at.y0);
        ck_assert_double_eq_tol(1e3 * low, rows[i].under, 1e-6);
        bw_junction_free(j);
    }
}
END_TEST

START_TEST(a_foot_that_cannot_be_is_refused)
{
    static const struct {
        const char *floor, *text, *says;
    } wrong[] = {
        {WALL(BRICK),
         FOOT("width=\"300 mm\" height=\"1 m\" above-ground=\"0 m\"", ""),
         "element=\"floor\""},
        {FLOOR(IN_AIR, BRICK),
         FOOT("width=\"300 mm\" height=\"100 mm\" above-ground=\"0 m\" "
              "level-with=\"brick\"",
              ""),
         "above the underside of the floor"},
        {FLOOR(IN_AIR, BRICK),
         FOOT("width=\"300 mm\" height=\"1 m\" above-ground=\"0 m\" "
              "level-with=\"brik\"",
              ""),
         "\"brik\" is no layer of the wall \"f\""},
        {FLOOR(IN_AIR, BRICK),
         FOOT("width=\"300 mm\" height=\"1 m\" above-ground=\"0 m\"",
              "<plate material=\"softwood\" height=\"4 cm\" in=\"bay\"/>"),
         "\"bay\" is no layer of the wall \"w\""},
        {FLOOR(IN_AIR, BRICK), FOOT("width=\"300 mm\" height=\"1 m\"", ""),
         "above-ground"},
    };
    write_file(WALL_NAME, WALL(BRICK));
    for (size_t k = 0; k < COUNT(wrong); k++) {
        bw_junction *j = NULL;
        bw_error err = {0};
        write_file(FLOOR_NAME, wrong[k].floor);
        write_file(FILE_NAME, wrong[k].text);
        ck_assert(bw_junction_read(&j, FILE_NAME, library, &err) ==
                  BW_ERR_INPUT);
        ck_assert_msg(strstr(err.message, wrong[k].says) != NULL, "%s",
                      err.message);
    }
}
END_TEST

/* ---- what is told of a drawing ----------------------------------------------
 */

#define DRAWN(between, more)                                                   \
    "<junction xmlns=\"urn:bothways:junction:1\" id=\"t\">"                    \
    "<outdoors climate=\"c.csv\"/>"                                            \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/><drawing>"         \
    "<rectangle material=\"softwood\" lambda=\"0.13 W/(m.K)\" x=\"0 mm\" "     \
    "y=\"0 mm\" width=\"" between "\" height=\"200 mm\"/>"                     \
    "<rectangle material=\"hemp-batt\" lambda=\"0.04 W/(m.K)\" x=\"0 mm\" "    \
    "y=\"200 mm\" width=\"" between "\" height=\"100 mm\"/>"                   \
    "<space of=\"outside\" x=\"0 mm\" y=\"-50 mm\" width=\"" between "\" "     \
    "height=\"50 mm\"/>"                                                       \
    "<space of=\"room\" x=\"0 mm\" y=\"300 mm\" width=\"" between "\" "        \
    "height=\"50 mm\"/>"                                                       \
    "<symmetry side=\"left\"/><symmetry side=\"right\"/>" more                 \
    "</drawing></junction>"

/* In a plane wall the temperature runs straight, and a place is told of by the
 * degree that is there, wherever the cells are. */
START_TEST(a_place_in_a_plane_wall_has_the_temperature_of_its_depth)
{
    static const double theta[] = {-10.0, 20.0}; /* outside, room */
    static const double at[] = {0.0, 0.003, 0.1234, 0.2, 0.2677, 0.3};
    const double all = 0.04 + 0.2 / 0.13 + 0.1 / 0.04 + 0.25;
    bw_junction *j = read_text(DRAWN("600 mm", ""));
    bw_junction_heat *h = heat_of(j);
    for (size_t k = 0; k < COUNT(at); k++) {
        const double r = 0.04 + fmin(at[k], 0.2) / 0.13 +
                         fmax(at[k] - 0.2, 0.0) / 0.04;
        ck_assert_double_eq_tol(bw_junction_theta_at(h, theta, 0.2345, at[k]),
                                -10.0 + 30.0 * r / all, 1e-7);
    }
    ck_assert(isnan(bw_junction_theta_at(h, theta, 0.3, 0.31)));
    ck_assert_str_eq(bw_junction_material_at(&h->raster, 0.3, 0.2)->id,
                     "softwood"); /* before the wool it touches */
    ck_assert_str_eq(bw_junction_material_at(&h->raster, 0.3, 0.25)->id,
                     "hemp-batt");
    bw_junction_heat_free(h);
    bw_junction_free(j);
}
END_TEST

static bool told(const bw_junction *j, const char *words)
{
    bool found = false;
    for (size_t k = 0; k < j->note_count; k++)
        found |= strstr(j->note[k].message, words) != NULL;
    return found;
}

/* 1 m is more than three times 300 mm. */
START_TEST(a_side_cut_near_a_change_is_warned_of)
{
#define POST(x)                                                                \
    "<rectangle material=\"softwood\" x=\"" x "\" y=\"200 mm\" "               \
    "width=\"100 mm\" height=\"100 mm\" over=\"yes\"/>"
    static const struct {
        const char *text;
        bool left, right;
    } cases[] = {
        {DRAWN("600 mm", ""), false, false},
        {DRAWN("2100 mm", POST("1000 mm")), false, false},
        {DRAWN("2100 mm", POST("990 mm")), true, false},
        {DRAWN("2100 mm", POST("1010 mm")), false, true},
        {DRAWN("600 mm", POST("0 mm")), true, true},
    };
    for (size_t k = 0; k < COUNT(cases); k++) {
        bw_junction *j = read_text(cases[k].text);
        ck_assert_int_eq(told(j, "the side left is cut"), cases[k].left);
        ck_assert_int_eq(told(j, "the side right is cut"), cases[k].right);
        bw_junction_free(j);
    }
}
END_TEST

/* What the drawing cuts away of a kind is not told of. */
START_TEST(a_niche_through_a_place_of_the_kind_leaves_the_others)
{
    write_file(WALL_NAME, WALL(BRICK));
    bw_junction *j = read_text(JUNCTION(
        "joist-end", "<joist material=\"softwood\" height=\"200 mm\" "
                     "bearing=\"120 mm\" in=\"brick\"/><drawing>"
                     "<space of=\"outside\" x=\"0 mm\" y=\"-150 mm\" "
                     "width=\"250 mm\" height=\"300 mm\"/></drawing>"));
    ck_assert_uint_eq(j->spot_count, 1);
    ck_assert_str_eq(j->spot[0].name, "surface beside it");
    bw_junction_free(j);
}
END_TEST

/* Strips of metal in insulation: parts that hardly touch. Across them heat
 * flows as through plates in parallel, within what the surfaces take; what is
 * looked at is that it is found, and that flows sum to zero. */
START_TEST(stripes_that_hardly_touch_are_solved)
{
    enum { STRIPES = 61, ROOM = 32 * 1024 };
    static char text[ROOM];
    size_t n = (size_t)snprintf(
        text, ROOM,
        "<junction xmlns=\"urn:bothways:junction:1\" id=\"t\">"
        "<outdoors climate=\"c.csv\"/><indoors temperature=\"20 degC\" "
        "humidity-class=\"3\"/><drawing>");
    for (int k = 0; k < STRIPES; k++)
        n += (size_t)snprintf(
            text + n, ROOM - n,
            "<rectangle material=\"softwood\" lambda=\"%s W/(m.K)\" "
            "x=\"%d mm\" y=\"0 mm\" width=\"10 mm\" height=\"300 mm\"/>",
            k % 2 != 0 ? "0.04" : "40", 10 * k);
    snprintf(text + n, ROOM - n,
             "<space of=\"outside\" x=\"0 mm\" y=\"-50 mm\" "
             "width=\"610 mm\" height=\"50 mm\"/><space of=\"room\" "
             "x=\"0 mm\" y=\"300 mm\" width=\"610 mm\" height=\"50 mm\"/>"
             "<symmetry side=\"left\"/><symmetry side=\"right\"/></drawing>"
             "</junction>");
    bw_junction *j = read_text(text);
    bw_junction_heat *h = heat_of(j);
    /* each strip alone is the least; with surfaces all at one temperature
     * across, the most */
    const double metal = 0.31, wool = 0.30; /* m of the width */
    const double alone = metal / (0.17 + 0.3 / 40.0) +
                         wool / (0.17 + 0.3 / 0.04);
    const double together =
        1.0 / (0.17 / 0.61 + 1.0 / (metal * 40.0 / 0.3 + wool * 0.04 / 0.3));
    ck_assert_double_gt(h->l2d.value, alone);
    ck_assert_double_lt(h->l2d.value, together);
    ck_assert_double_lt(h->balance, 1e-8);
    bw_junction_heat_free(h);
    bw_junction_free(j);
}
END_TEST

SUITE_AROUND("junction_foot", start, end,
             FACT(a_foot_of_one_brick_is_the_corner_of_brick),
             FACT(a_plinth_that_insulates_costs_less_than_one_of_brick),
             FACT(the_soil_outside_reaches_up_to_the_ground),
             FACT(a_floor_is_level_with_the_plinth_where_it_says),
             FACT(a_plinth_needs_no_layer_to_be_level_with),
             FACT(a_foot_that_cannot_be_is_refused),
             FACT(a_place_in_a_plane_wall_has_the_temperature_of_its_depth),
             FACT(a_side_cut_near_a_change_is_warned_of),
             FACT(a_niche_through_a_place_of_the_kind_leaves_the_others),
             FACT(stripes_that_hardly_touch_are_solved))
