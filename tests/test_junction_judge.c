/* Junctions judged: as walls are where they are plane, and never held to hold.
 */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/assessment.h"
#include "suite.h"

static bw_library *library;
static bw_climate *climate;

static void start(void)
{
    const char *paths[] = {BW_SOURCE_DIR "/materials"};
    bw_error err;
    ck_assert(bw_library_read(&library, paths, 1, &err) == BW_OK);
    ck_assert(bw_climate_read(&climate,
                              BW_SOURCE_DIR "/assemblies/climates/upland.csv",
                              &err) == BW_OK);
}

static void end(void)
{
    bw_library_free(library);
    bw_climate_free(climate);
}

static bw_junction *read_junction(const char *path)
{
    bw_junction *j = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_junction_read(&j, path, library, &err) == BW_OK, "%s",
                  err.message);
    return j;
}

static bw_junction_assessment *assess(const bw_junction *j)
{
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_junction_assess(&a, j, climate, NULL, &err) == BW_OK, "%s",
                  err.message);
    return a;
}

static const bw_criterion *row(const bw_junction_assessment *a,
                               const char *place, const char *name)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].section, place) == 0 &&
            strcmp(a->criterion[i].criterion, name) == 0)
            return &a->criterion[i];
    return NULL;
}

/* The wall's own surface check, in one dimension (ISO 13788), is the figure
 * from outside this method. */
START_TEST(a_plane_wall_as_a_junction_has_the_surface_of_the_wall)
{
    static const char wall_file[] = BW_SOURCE_DIR
        "/assemblies/upland-masonry-inside.xml";
    static const char file[] = "./junction-judge-test.xml";
    FILE *out = fopen(file, "w");
    ck_assert_ptr_nonnull(out);
    fprintf(out,
            "<junction xmlns=\"urn:bothways:junction:1\" id=\"plane\" "
            "kind=\"filled-opening\"><wall file=\"%s\"/><wall file=\"%s\"/>"
            "</junction>",
            wall_file, wall_file);
    ck_assert_int_eq(fclose(out), 0);
    bw_junction *j = read_junction(file);
    bw_junction_assessment *a = assess(j);
    bw_assembly *wall = NULL;
    bw_assessment *plane = NULL;
    bw_error err = {0};
    const bw_assessment_options months = {.no_transient = true,
                                          .no_advice = true};
    ck_assert(bw_assembly_read(&wall, wall_file, library, &err) == BW_OK);
    ck_assert(bw_assess(&plane, wall, climate, &months, &err) == BW_OK);
    for (size_t w = 0; w < BW_SURFACES_FLOW; w++) {
        const bw_surface_result *two = &a->room[0].surface[w];
        const bw_surface_result *one = &plane->section[0].surface[w];
        ck_assert_double_eq_tol(two->rsi, one->rsi, 1e-12);
        ck_assert_double_eq_tol(two->frsi, one->frsi, 1e-7);
        ck_assert_double_eq_tol(two->frsi_required, one->frsi_required, 1e-12);
        ck_assert_double_eq_tol(two->highest_rh, one->highest_rh, 1e-7);
        ck_assert_int_eq(two->critical_month, one->critical_month);
    }
    ck_assert_double_eq_tol(a->heat->flank[0].transmittance,
                            plane->thermal.transmittance, 1e-9);
    bw_assessment_free(plane);
    bw_assembly_free(wall);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
    remove(file);
}
END_TEST

static const struct {
    const char *file;
    bw_verdict surface, all;
} demos[] = {
    {"upland-corner", BW_HOLDS, BW_FAILS},
    {"upland-stud", BW_HOLDS, BW_NOT_ASSESSED},
    {"upland-reveal-bare", BW_FAILS, BW_FAILS},
    {"upland-joist-end", BW_HOLDS, BW_FAILS},
    {"upland-step-drawn", BW_FAILS, BW_FAILS},
};

START_TEST(months_may_fail_a_junction_and_never_hold_it)
{
    char path[512];
    snprintf(path, sizeof path, "%s/assemblies/junctions/%s.xml", BW_SOURCE_DIR,
             demos[_i].file);
    bw_junction *j = read_junction(path);
    bw_junction_assessment *a = assess(j);
    ck_assert_int_eq(a->surface_verdict, demos[_i].surface);
    ck_assert_int_eq(a->verdict, demos[_i].all);
    const bw_criterion *inside = row(a, "junction", "junction-inside");
    ck_assert_ptr_nonnull(inside);
    ck_assert(inside->decides && inside->verdict == BW_NOT_ASSESSED);
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].section, "junction") == 0)
            ck_assert_int_ne(a->criterion[i].verdict, BW_HOLDS);
    const bw_criterion *mould = row(a, "room", "surface-mould");
    ck_assert(mould->decides && mould->has_limit);
    const bw_coldest *c = &a->heat->coldest[0];
    if (j->environment_count == 2) /* the cautious end of what was found */
        ck_assert_double_eq_tol(mould->value, c->frsi.value - c->frsi.error,
                                1e-12);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
}
END_TEST

/* The coldest place of each month is looked for anew where the soil and the
 * outdoor air change differently: no month's surface is colder than the highest
 * humidity says. */
START_TEST(every_room_is_judged_by_its_own_months)
{
    bw_junction *j = read_junction(
        BW_SOURCE_DIR "/assemblies/junctions/upland-step-drawn.xml");
    bw_junction_assessment *a = assess(j);
    ck_assert_uint_eq(a->room_count, 2);
    ck_assert_ptr_nonnull(row(a, "room", "surface-mould"));
    ck_assert_ptr_nonnull(row(a, "cellar", "surface-mould"));
    const size_t faces = a->heat->raster.face_count;
    for (size_t r = 0; r < 2; r++)
        for (int m = 0; m < BW_MONTHS; m++) {
            double lowest = HUGE_VAL;
            for (size_t f = 0; f < faces; f++) {
                double t = 0.0;
                for (size_t e = 0; e < 4; e++)
                    t += a->heat->face_weight[e * faces + f] *
                         a->theta[e * BW_MONTHS + (size_t)m];
                if (a->heat->raster.face[f].environment ==
                    a->room[r].environment)
                    lowest = fmin(lowest, t);
            }
            const bw_surface_month *month = &a->room[r].surface[0].month[m];
            ck_assert_double_le(month->theta_si, lowest + 1e-9);
            ck_assert_double_ge(month->theta_si, lowest - 0.1);
        }
    bw_junction_assessment_free(a);
    bw_junction_free(j);
}
END_TEST

/* ---- water within -------------------------------------------------------- */

static void fill(const char *file, const char *wall)
{
    FILE *out = fopen(file, "w");
    ck_assert_ptr_nonnull(out);
    fprintf(out,
            "<junction xmlns=\"urn:bothways:junction:1\" id=\"plane\" "
            "kind=\"filled-opening\"><wall file=\"%s\"/><wall file=\"%s\"/>"
            "</junction>",
            wall, wall);
    ck_assert_int_eq(fclose(out), 0);
}

static const bw_criterion *of_wall(const bw_assessment *a, const char *name)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].criterion, name) == 0)
            return &a->criterion[i];
    return NULL;
}

static const struct {
    const char *wall;
    bool stands, grows;
    bool same_face; /* is the wetted face, of all those inside the weather line,
                       the slowest of all, too? */
} planes[] = {
    {"upland-masonry-inside", true, false, true},
    {"upland-open-outside", false, false, true},
    {"upland-tight-outside", true, true, false},
};

static void rows_agree(const bw_junction_assessment *a,
                       const bw_assessment *plane, bool same_face)
{
    static const char *const names[] = {
        "annual-balance",       "accumulation",
        "condensate-absorbing", "condensate-non-absorbing",
        "drying-test",          "drying-outwards",
        "drying-inwards"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const bw_criterion *two = row(a, "junction", names[i]);
        const bw_criterion *one = of_wall(plane, names[i]);
        ck_assert_msg(two != NULL && one != NULL, "%s", names[i]);
        ck_assert_int_eq(two->verdict, one->verdict);
        ck_assert_int_eq(two->outcome, one->outcome);
        ck_assert_int_eq(two->screening, one->screening);
        ck_assert_int_eq(two->decides, one->decides);
        if (i >= 5 && !same_face)
            continue;
        ck_assert_int_eq(two->has_value, one->has_value);
        ck_assert_double_eq_tol(two->value, one->value, 1e-6);
        ck_assert_double_eq_tol(two->limit, one->limit, 1e-12);
    }
}

/* The wall's own monthly method, in one dimension (ISO 13788), is the figure
 * from outside this method; these walls are beyond its limits, so that their
 * rows are screening, too. */
START_TEST(a_plane_wall_as_a_junction_has_the_water_of_the_wall)
{
    static const char file[] = "./junction-water-test.xml";
    char wall_file[512];
    snprintf(wall_file, sizeof wall_file, "%s/assemblies/%s.xml", BW_SOURCE_DIR,
             planes[_i].wall);
    fill(file, wall_file);
    bw_junction *j = read_junction(file);
    bw_junction_assessment *a = assess(j);
    bw_assembly *wall = NULL;
    bw_assessment *plane = NULL;
    bw_error err;
    const bw_assessment_options months = {.no_transient = true,
                                          .no_advice = true};
    ck_assert(bw_assembly_read(&wall, wall_file, library, &err) == BW_OK);
    ck_assert(bw_assess(&plane, wall, climate, &months, &err) == BW_OK);
    ck_assert(a->water.ran && a->water.wetting.ran);
    ck_assert_int_eq(a->water.place_count > 0, planes[_i].stands);
    ck_assert_int_eq(a->water.accumulates, planes[_i].grows);
    rows_agree(a, plane, planes[_i].same_face);
    if (planes[_i].grows)
        ck_assert_int_eq(a->verdict, BW_FAILS);
    bw_assessment_free(plane);
    bw_assembly_free(wall);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
    remove(file);
}
END_TEST

/* 5 degC with the vapour of a laundry is more than the air holds. */
START_TEST(a_junction_without_vapour_is_not_assessed_and_says_why)
{
    static const char file[] = "./junction-room-test.xml";
    FILE *out = fopen(file, "w");
    ck_assert_ptr_nonnull(out);
    fprintf(out, "<junction xmlns=\"urn:bothways:junction:1\" id=\"wet\">"
                 "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"
                 "<indoors temperature=\"5 degC\" humidity-class=\"5\"/>"
                 "<drawing><rectangle material=\"brick-old-soft\" x=\"0 mm\" "
                 "y=\"0 mm\" width=\"240 mm\" height=\"500 mm\"/>"
                 "<space of=\"outside\" x=\"-100 mm\" y=\"0 mm\" "
                 "width=\"100 mm\" height=\"500 mm\"/>"
                 "<space of=\"room\" x=\"240 mm\" y=\"0 mm\" width=\"100 mm\" "
                 "height=\"500 mm\"/><symmetry side=\"below\"/>"
                 "<symmetry side=\"above\"/></drawing></junction>");
    ck_assert_int_eq(fclose(out), 0);
    bw_junction *j = read_junction(file);
    bw_junction_assessment *a = assess(j);
    ck_assert(!a->water.ran && a->water.reason[0] != '\0');
    ck_assert_uint_eq(a->water.place_count, 0);
    const bw_criterion *months = row(a, "junction", "annual-balance");
    const bw_criterion *inside = row(a, "junction", "junction-inside");
    ck_assert(months->decides && months->verdict == BW_NOT_ASSESSED);
    ck_assert_str_eq(months->reason, a->water.reason);
    ck_assert_ptr_nonnull(strstr(inside->reason, a->water.reason));
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
    remove(file);
}
END_TEST

SUITE_AROUND("junction_judge", start, end,
             FACT(a_plane_wall_as_a_junction_has_the_surface_of_the_wall),
             EACH(months_may_fail_a_junction_and_never_hold_it, COUNT(demos)),
             FACT(every_room_is_judged_by_its_own_months),
             EACH(a_plane_wall_as_a_junction_has_the_water_of_the_wall,
                  COUNT(planes)),
             FACT(a_junction_without_vapour_is_not_assessed_and_says_why))
