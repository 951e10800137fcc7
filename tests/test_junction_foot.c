/* The foot of a wall: a plinth, a sole plate, and the floor beside it. */

#include <stdint.h>

#include "junction/raster.h"
#define MADE "junction-foot"
#include "junction_made.h"
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
        const double weight = bw_raster_value_at(&h->raster, h->weight[1],
                                                 j->spot[1].x, j->spot[1].y);
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
    bool told = false;
    for (size_t k = 0; k < j->note_count; k++)
        told |= strstr(j->note[k].message, "0 mm above the ground") != NULL;
    ck_assert(told);
    bw_junction_free(j);
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

SUITE_AROUND("junction_foot", start, end,
             FACT(a_foot_of_one_brick_is_the_corner_of_brick),
             FACT(a_plinth_that_insulates_costs_less_than_one_of_brick),
             FACT(the_soil_outside_reaches_up_to_the_ground),
             FACT(a_floor_is_level_with_the_plinth_where_it_says),
             FACT(a_foot_that_cannot_be_is_refused))
