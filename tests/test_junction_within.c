/* The hours of a junction made of files: a plane wall drawn as a junction
 * against the wall's own simulation in one dimension; what a junction is not
 * said to hold for; no hours, no verdict. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/assessment.h"
#include "junction/hours.h"
#include "suite.h"

static bw_library *library;
static bw_climate *months, *hours;

static void start(void)
{
    const char *paths[] = {BW_SOURCE_DIR "/materials"};
    bw_error err;
    ck_assert(bw_library_read(&library, paths, 1, &err) == BW_OK);
    ck_assert(bw_climate_read(&months,
                              BW_SOURCE_DIR "/assemblies/climates/upland.csv",
                              &err) == BW_OK);
    ck_assert(bw_climate_generate(&hours, months, &err) == BW_OK);
}

static void end(void)
{
    bw_library_free(library);
    bw_climate_free(months);
    bw_climate_free(hours);
}

static void write_file(const char *path, const char *text)
{
    FILE *out = fopen(path, "w");
    ck_assert_ptr_nonnull(out);
    fputs(text, out);
    ck_assert_int_eq(fclose(out), 0);
}

#define TIMBER                                                                 \
    "<layer id=\"boarding\" material=\"softwood\" thickness=\"22 mm\"/>"       \
    "<cavity id=\"cavity\" thickness=\"38 mm\" ventilation=\"well\" "          \
    "air-change=\"100 1/h\"/>"                                                 \
    "<membrane id=\"breather\" material=\"breather-membrane\"/>"               \
    "<layer id=\"panel\" material=\"plywood-softwood\" thickness=\"18 "        \
    "mm\"/><layer id=\"wool\" material=\"stone-wool-batt\" thickness=\"160 "   \
    "mm\"/><membrane id=\"retarder\" material=\"membrane-sd-5m\"/>"            \
    "<layer id=\"lining\" material=\"gypsum-plasterboard\" thickness=\"12.5 "  \
    "mm\"/>"
#define BRICK                                                                  \
    "<layer id=\"brick\" material=\"brick-old-soft\" thickness=\"250 mm\"/>"   \
    "<layer id=\"bedding\" material=\"lime-render\" thickness=\"12 mm\"/>"     \
    "<layer id=\"board\" material=\"wood-fibre-board-180\" thickness=\"60 "    \
    "mm\"/><layer id=\"finish\" material=\"lime-render\" thickness=\"10 "      \
    "mm\"/>"

/* Timber behind a ventilated cladding; brick in the rain, insulated inside;
 * first with a leak of rain within, then without. */
static const struct {
    const char *layers, *leak;
    bool timber;
} walls[] = {
    {TIMBER, "<rain-leak fraction=\"1 %\" after-layer=\"breather\"/>", true},
    {BRICK, "<rain-leak fraction=\"1 %\" after-layer=\"bedding\"/>", false},
    {TIMBER, "", true},
    {BRICK, "", false},
};

static bw_assembly *make_leaking(const char *path, const char *layers,
                                 const char *leak)
{
    char text[4096];
    bw_assembly *wall = NULL;
    bw_error err = {0};
    snprintf(text, sizeof text,
             "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"wall\" "
             "title=\"Wall\"><outdoors climate=\"%s\" faces=\"W\" "
             "solar-absorptance=\"0.6\" driving-rain=\"moderate\"/>"
             "<indoors temperature=\"20 degC\" humidity-class=\"2\"/>"
             "<layers listed=\"outside-to-inside\">%s</layers>%s</assembly>",
             BW_SOURCE_DIR "/assemblies/climates/upland.csv", layers, leak);
    write_file(path, text);
    ck_assert_msg(bw_assembly_read(&wall, path, library, &err) == BW_OK, "%s",
                  err.message);
    return wall;
}

static bw_assembly *make_wall(const char *path)
{
    return make_leaking(path, BRICK, "");
}

static bw_junction *read_plane(const char *wall)
{
    static const char file[] = "./junction-within-test.xml";
    char text[1024];
    bw_junction *j = NULL;
    bw_error err = {0};
    snprintf(text, sizeof text,
             "<junction xmlns=\"urn:bothways:junction:1\" id=\"plane\" "
             "kind=\"filled-opening\"><wall file=\"%s\"/><wall file=\"%s\"/>"
             "</junction>",
             wall, wall);
    write_file(file, text);
    ck_assert_msg(bw_junction_read(&j, file, library, &err) == BW_OK, "%s",
                  err.message);
    return j;
}

static bw_junction_assessment *simulate(const bw_junction *j,
                                        const bw_climate *climate)
{
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    const bw_hour_options one = {.most_years = 1, .most_cells = 700};
    ck_assert_msg(bw_junction_assess_hours(&a, j, climate, NULL, &one, &err) ==
                      BW_OK,
                  "%s", err.message);
    ck_assert_msg(a->hours.ran, "%s", a->hours.reason);
    return a;
}

static const bw_criterion *row(const bw_junction_assessment *a,
                               const char *name)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].criterion, name) == 0)
            return &a->criterion[i];
    return NULL;
}

/* A face of the drawing by what touches there and how far in it lies. */
static const bw_hour_place *place_at(const bw_junction_hours *h, double depth)
{
    for (size_t k = 0; k < h->place_count; k++)
        if (!h->place[k].room && fabs(h->place[k].y - depth) < 1e-6 &&
            fabs(h->place[k].x) > 0.3)
            return &h->place[k];
    return NULL;
}

/* The same year in one dimension: other cells at the faces, other steps. */
START_TEST(plane_wall_drawn_as_a_junction_has_the_hours_of_the_wall)
{
    USUAL_BUILD_ALONE(); /* the joist end goes the same way */
    static const char file[] = "./junction-within-wall.xml";
    const bw_section_options all = {.keep_all_layers = true};
    const bw_transient_options year = {.max_years = 1};
    bw_assembly *wall = make_leaking(file, walls[_i].layers, walls[_i].leak);
    bw_junction *j = read_plane(file);
    bw_junction_assessment *a = simulate(j, hours);
    bw_sections *sections = NULL;
    bw_transient_result one;
    bw_error err = {0};
    ck_assert(bw_sections_make(&sections, wall, &all, &err) == BW_OK);
    const bw_section *s = &sections->section[0];
    ck_assert_msg(bw_transient(&one, wall, s, hours, &year, &err) == BW_OK,
                  "%s", err.message);
    double depth = 0;
    size_t compared = 0;
    for (size_t k = walls[_i].timber ? 2 : 0; k + 1 < s->slab_count; k++) {
        depth += s->slab[k].thickness;
        const bw_hour_place *p = place_at(&a->hours, depth);
        if (p == NULL || s->slab[k].kind == BW_LAYER_MEMBRANE ||
            s->slab[k + 1].kind == BW_LAYER_MEMBRANE)
            continue;
        compared++;
        const bw_monitor *m = &one.monitor[k + 1];
        ck_assert_int_eq(p->mould_class, m->mould_class);
        for (int month = 0; month < BW_MONTHS; month++)
            ck_assert_double_eq_tol(p->month_rh[month], m->month_rh[month],
                                    0.015);
        ck_assert_double_eq_tol(p->above_80, m->hours_above_80,
                                24 + 0.03 * m->hours_above_80);
        ck_assert_double_eq_tol(p->above_95, m->hours_above_95,
                                48 + 0.05 * m->hours_above_95);
    }
    ck_assert_uint_ge(compared, walls[_i].timber ? 1 : 3);
    for (size_t k = 0; k < s->slab_count; k++)
        for (size_t w = 0; w < a->hours.wood_count; w++)
            if (strcmp(a->hours.wood[w].material->id,
                       s->slab[k].material->id) == 0 &&
                k > 0) {
                ck_assert_double_eq_tol(a->hours.wood[w].highest,
                                        one.slab[k].highest_wood_moisture,
                                        0.004);
                compared++;
            }
    ck_assert_uint_ge(compared, walls[_i].timber ? 2 : 3);
    const double width = a->heat->raster.x[a->heat->raster.nx] -
                         a->heat->raster.x[0];
    if (walls[_i].leak[0] != '\0')
        ck_assert_double_gt(one.leak_rain, 0.5);
    ck_assert_double_eq_tol(a->hours.leaked / width, one.leak_rain,
                            1e-9 + 1e-3 * one.leak_rain);
    bw_transient_free(&one);
    bw_sections_free(sections);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
    bw_assembly_free(wall);
    remove(file);
}
END_TEST

/* What a junction simulated once is, and is not. */
START_TEST(joist_end_in_wet_brick_rots_by_the_dose_of_walls)
{
    bw_junction *j = NULL;
    bw_error err = {0};
    ck_assert(bw_junction_read(&j,
                               BW_SOURCE_DIR
                               "/assemblies/junctions/upland-joist-end.xml",
                               library, &err) == BW_OK);
    const bw_hour_options coarse = {
        .most_years = 1, .smallest = 0.005, .most_cells = 700};
    bw_junction_assessment *a = NULL;
    ck_assert_msg(
        bw_junction_assess_hours(&a, j, months, NULL, &coarse, &err) == BW_OK,
        "%s", err.message);
    ck_assert(a->hours.ran && a->hours.synthetic);
    ck_assert_uint_le(a->hours.cells, 700);
    ck_assert_int_eq(a->verdict, BW_FAILS);
    const bw_criterion *dose = row(a, "decay-dose");
    ck_assert_ptr_nonnull(dose);
    ck_assert(dose->decides && dose->verdict == BW_FAILS);
    /* of what months say nothing decides any more */
    const bw_criterion *screen = row(a, "condensate-absorbing");
    ck_assert_ptr_nonnull(screen);
    ck_assert(!screen->decides);
    /* air past its end is not in the drawing */
    const bw_criterion *inside = row(a, "junction-inside");
    ck_assert_ptr_nonnull(inside);
    ck_assert_int_eq(inside->verdict, BW_NOT_ASSESSED);
    ck_assert(inside->decides);
    /* the joist is one piece, wettest in the brick */
    ck_assert_uint_ge(a->hours.wood_count, 1);
    bool found = false;
    for (size_t k = 0; k < a->hours.wood_count; k++)
        if (a->hours.wood[k].material->wood_kind == BW_SOLID_WOOD) {
            found = true;
            ck_assert_double_lt(a->hours.wood[k].x, 0.33);
            ck_assert_double_gt(a->hours.wood[k].highest, 0.2);
        }
    ck_assert(found);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
}
END_TEST

/* The face of another grid at the same line whose middle is nearest. */
static const bw_hour_place *nearest(const bw_junction_hours *h,
                                    const bw_hour_place *to)
{
    const bw_hour_place *best = NULL;
    for (size_t k = 0; k < h->place_count; k++) {
        const bw_hour_place *p = &h->place[k];
        if (p->room == to->room && fabs(p->y - to->y) < 1e-6 &&
            (best == NULL || fabs(p->x - to->x) < fabs(best->x - to->x)))
            best = p;
    }
    return best;
}

/* Cells halved once more against what is told of the grid before: what moved
 * covers it, or both are nothing. */
START_TEST(what_moved_between_two_grids_covers_what_finer_cells_move)
{
    USUAL_BUILD_ALONE(); /* every simulation compares two grids */
    static const char file[] = "./junction-within-wall.xml";
    bw_assembly *wall = make_leaking(file, walls[_i].layers, "");
    bw_junction *j = read_plane(file);
    bw_error err = {0};
    bw_arena arena = {0};
    bw_junction_hours told, finer;
    size_t compared = 0;
    const bw_hour_options coarse = {.most_years = 1, .smallest = 0.006};
    const bw_hour_options fine = {.most_years = 1, .smallest = 0.002};
    ck_assert(bw_junction_hours_find(&told, &arena, j, hours, &coarse, &err) ==
              BW_OK);
    ck_assert(bw_junction_hours_find(&finer, &arena, j, hours, &fine, &err) ==
              BW_OK);
    ck_assert(told.ran && told.compared && finer.ran && finer.compared);
    ck_assert_uint_gt(2 * finer.cells, 3 * told.cells);
    /* a quarter, and what is left over of odd numbers */
    ck_assert_uint_ge(4 * told.coarse_cells, told.cells);
    ck_assert_uint_le(5 * told.coarse_cells, 2 * told.cells);
    ck_assert_uint_gt(told.coarse_steps, 8760);
    for (size_t k = 0; k < told.place_count; k++) {
        const bw_hour_place *p = &told.place[k];
        const bw_hour_place *q = nearest(&finer, p);
        if (q == NULL || fabs(p->x) < 0.3)
            continue; /* where the two drawings of the wall meet */
        compared++;
        ck_assert_double_le(
            fabs(p->month_rh[p->dampest] - q->month_rh[p->dampest]),
            p->moved.rh + 0.002);
        /* a count of hours is not smooth: a tenth of its limit more */
        ck_assert_double_le(fabs(p->above_95 - q->above_95),
                            p->moved.above_95 + 72);
        ck_assert_double_le(fabs(p->mould - q->mould), p->moved.mould + 0.05);
    }
    ck_assert_uint_ge(compared, 4);
    ck_assert_uint_eq(told.wood_count, finer.wood_count);
    for (size_t k = 0; k < told.wood_count; k++)
        ck_assert_double_le(fabs(told.wood[k].highest - finer.wood[k].highest),
                            told.wood[k].moved.highest + 0.001);
    bw_arena_release(&arena);
    bw_junction_free(j);
    bw_assembly_free(wall);
    remove(file);
}
END_TEST

START_TEST(without_hours_that_were_declined_nothing_is_simulated)
{
    static const char file[] = "./junction-within-wall.xml";
    bw_assembly *wall = make_wall(file);
    bw_junction *j = read_plane(file);
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    const bw_hour_options none = {.no_synthetic = true};
    ck_assert(bw_junction_assess_hours(&a, j, months, NULL, &none, &err) ==
              BW_OK);
    ck_assert(a->hours.asked && !a->hours.ran);
    ck_assert_ptr_nonnull(strstr(a->hours.reason, "no hours"));
    const bw_criterion *none_ran = row(a, "transient-simulation");
    ck_assert_ptr_nonnull(none_ran);
    ck_assert_int_eq(none_ran->verdict, BW_NOT_ASSESSED);
    ck_assert_ptr_nonnull(row(a, "junction-inside"));
    ck_assert_int_ne(a->verdict, BW_HOLDS);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
    bw_assembly_free(wall);
    remove(file);
}
END_TEST

static bool stop(void *payload, double done)
{
    (void)done;
    return ++*(int *)payload < 3;
}

START_TEST(simulation_that_is_stopped_leaves_nothing)
{
    static const char file[] = "./junction-within-wall.xml";
    bw_assembly *wall = make_wall(file);
    bw_junction *j = read_plane(file);
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    int asked = 0;
    const bw_hour_options o = {.progress = stop, .payload = &asked};
    ck_assert_int_eq(bw_junction_assess_hours(&a, j, hours, NULL, &o, &err),
                     BW_ERR_CANCELLED);
    ck_assert_ptr_null(a);
    ck_assert_int_eq(asked, 3);
    bw_junction_free(j);
    bw_assembly_free(wall);
    remove(file);
}
END_TEST

SUITE_AROUND("junction_within", start, end,
             EACH(plane_wall_drawn_as_a_junction_has_the_hours_of_the_wall,
                  COUNT(walls)),
             FACT(joist_end_in_wet_brick_rots_by_the_dose_of_walls),
             EACH(what_moved_between_two_grids_covers_what_finer_cells_move, 2),
             FACT(without_hours_that_were_declined_nothing_is_simulated),
             FACT(simulation_that_is_stopped_leaves_nothing))
