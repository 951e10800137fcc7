/* A junction judged: the surface of each room at its coldest place, and the
 * water that stands within, by the criteria and months that walls are judged
 * by.
 *
 *   theta_si(month) = least over the faces of a room of sum_e w_e
 * theta_e(month) f = (theta_si - theta_e)/(theta_i - theta_e) - what the grids
 * leave open
 *
 * Asked for, a simulation by the hour judges what is within instead of months.
 *
 * With rooms at one temperature f is the junction's f_Rsi in every month.
 * Invariant: heat and vapour by months alone never let a junction hold. */

#include <math.h>
#include <stdlib.h>

#include "bothways/assessment.h"
#include "fail.h"
#include "hours.h"
#include "judge.h"
#include "junction_spots.h"
#include "room.h"
#include "verdict.h"
#include "water.h"

typedef struct judging {
    bw_junction_assessment out; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_rows rows;
    bw_junction_room *room;
    const bw_profile *profile;
    const bw_hour_options *hours; /* NULL: not asked for */
} judging;

static const char *const where[BW_SURFACES_FLOW] = {"open-wall", "corner",
                                                    "behind-cupboard"};

/* The lowest temperature of a room's surface in a month [degC]. */
static double coldest(const bw_junction_assessment *a, size_t room,
                      size_t which, int month)
{
    const bw_junction_heat *h = a->heat;
    const size_t faces = h->raster.face_count, m = h->environment_count;
    double lowest = HUGE_VAL;
    for (size_t f = 0; f < faces; f++) {
        if (h->raster.face[f].environment != room)
            continue;
        double t = 0.0;
        for (size_t e = 0; e < m; e++)
            t += h->face_weight[(which * m + e) * faces + f] *
                 a->theta[e * BW_MONTHS + (size_t)month];
        lowest = fmin(lowest, t);
    }
    return lowest;
}

/* The outside of a drawing; where there is none, what else is no room. */
static size_t outside_of(const bw_junction *j)
{
    size_t found = 0;
    for (size_t e = 0; e < j->environment_count; e++)
        if (j->environment[e].kind != BW_ENVIRONMENT_ROOM) {
            found = e;
            if (j->environment[e].kind == BW_ENVIRONMENT_OUTSIDE)
                break;
        }
    return found;
}

static void find_surface(judging *g, bw_junction_room *room, size_t r,
                         size_t which)
{
    const bw_junction_assessment *a = &g->out;
    const bw_coldest *c = &a->heat->coldest[r * BW_SURFACES_FLOW + which];
    const size_t e = room->environment, out = outside_of(a->junction);
    const bool two = a->heat->environment_count == 2;
    static const double rsi[] = {0.25, 0.35, 1.0};
    const bw_environment *at = &a->junction->environment[e];
    double resistance = rsi[which]; /* as bw_surface_of */
    if (at->has_surface_resistance)
        resistance = which == BW_SURFACES_MOISTURE
                         ? at->surface_resistance
                         : fmax(at->surface_resistance, resistance);
    double frsi[BW_MONTHS];
    bw_boundary boundary[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++) {
        const size_t i = (size_t)m;
        bw_boundary *b = &boundary[m];
        *b = (bw_boundary){
            a->theta[out * BW_MONTHS + i], a->p[out * BW_MONTHS + i],
            a->theta[e * BW_MONTHS + i], a->p[e * BW_MONTHS + i]};
        const double difference = b->theta_i - b->theta_e;
        frsi[m] = c->frsi.value;
        /* of a cooled room the coldest is not where the factor is lowest */
        if ((!two || difference < 0.0) && fabs(difference) > 1e-6)
            frsi[m] = (coldest(a, e, which, m) - b->theta_e) / difference;
        frsi[m] -= copysign(c->frsi.error, difference); /* the colder end */
    }
    bw_surface_of_factors(&room->surface[which], where[which], frsi, resistance,
                          bw_say(&g->rows, "coldest at x %.1f mm, y %.1f mm",
                                 1e3 * c->x, 1e3 * c->y),
                          0.8, boundary);
}

static void judge_room(judging *g, bw_junction_room *room)
{
    bw_rows *rows = &g->rows;
    rows->section = g->out.junction->environment[room->environment].id;
    if (room->room_reason != NULL) {
        bw_rows_none(rows, BW_C_INDOOR_AIR, room->room_reason);
        return;
    }
    bw_judge_factor(rows, BW_C_SURFACE_MOULD,
                    &room->surface[BW_SURFACES_MOISTURE]);
    bw_judge_factor(rows, BW_C_CUPBOARD_MOULD,
                    &room->surface[BW_SURFACES_CUPBOARD]);
    bw_judge_condensation(rows, &room->surface[BW_SURFACES_MOISTURE]);
}

/* More vapour than the air of a room holds. */
static const char *impossible(judging *g, size_t environment)
{
    const bw_junction_assessment *a = &g->out;
    for (int m = 0; m < BW_MONTHS; m++) {
        const size_t i = environment * BW_MONTHS + (size_t)m;
        const double rh = bw_room_humidity(a->theta[i], a->p[i]);
        char text[400];
        if (!bw_room_impossible(rh))
            continue;
        bw_room_reason(text, sizeof text,
                       &a->junction->environment[environment].indoors, rh,
                       bw_month_name(m));
        return bw_say(&g->rows, "%s", text);
    }
    return NULL;
}

static bw_status find_rooms(judging *g, bw_error *err)
{
    bw_junction_assessment *a = &g->out;
    const bw_junction *j = a->junction;
    const size_t m = j->environment_count;
    a->room_count = a->heat->coldest_count;
    a->theta = BW_NEW(&g->arena, double, m *BW_MONTHS);
    a->p = BW_NEW(&g->arena, double, m *BW_MONTHS);
    g->room = BW_NEW(&g->arena, bw_junction_room, a->room_count);
    BW_TRY_MEMORY(!g->arena.failed, err);
    a->room = g->room;
    bw_junction_months(a->theta, a->p, j, a->climate);
    for (size_t r = 0; r < a->room_count; r++) {
        bw_junction_room *room = &g->room[r];
        room->environment = a->heat->coldest[r * BW_SURFACES_FLOW].environment;
        room->room_reason = impossible(g, room->environment);
        for (size_t w = 0; w < BW_SURFACES_FLOW; w++)
            find_surface(g, room, r, w);
        judge_room(g, room);
    }
    return BW_OK;
}

static bw_status find_hours(judging *g, bw_error *err)
{
    bw_junction_assessment *a = &g->out;
    a->hours.reason = "";
    if (g->hours == NULL)
        return BW_OK;
    for (size_t r = 0; r < a->room_count; r++)
        if (a->room[r].room_reason != NULL) {
            a->hours.asked = true;
            a->hours.reason = a->room[r].room_reason;
            return BW_OK;
        }
    return bw_junction_hours_find(&a->hours, &g->arena, a->junction, a->climate,
                                  g->hours, err);
}

static bool two_cups(const bw_junction *j)
{
    for (size_t k = 0; k < j->material_count; k++)
        if (fabs(j->material[k].mu_dry - j->material[k].mu_wet) > 1e-12)
            return true;
    for (size_t k = 0; k < j->film_count; k++)
        if (j->film[k].sd_curve == NULL &&
            fabs(j->film[k].sd_dry - j->film[k].sd_wet) > 1e-12)
            return true;
    return false;
}

static bw_status find_water(judging *g, bw_error *err)
{
    bw_junction_assessment *a = &g->out;
    a->water.reason = a->water_bound.reason = "";
    for (size_t r = 0; r < a->room_count; r++)
        if (a->room[r].room_reason != NULL) {
            a->water.reason = a->room[r].room_reason;
            return BW_OK;
        }
    BW_TRY(bw_junction_water_find(&a->water, &g->arena, a->junction, a->theta,
                                  a->p, BW_MU_LOCAL, true, err));
    if (!a->water.ran || !two_cups(a->junction))
        return BW_OK;
    return bw_junction_water_find(&a->water_bound, &g->arena, a->junction,
                                  a->theta, a->p, BW_MU_OPPOSITE, false, err);
}

/* What months do not say of what is within; or why they say nothing. */
static const char *not_computed(judging *g)
{
    static const char unseen[] =
        "rain, storage and capillary flow, leaking air and the hours, with "
        "them "
        "the moisture of wood (joist ends, plates, studs), are not computed";
    if (g->out.water.ran)
        return bw_say(&g->rows, "vapour by months alone was computed: %s",
                      unseen);
    return bw_say(&g->rows, "no vapour was computed (%s); %s",
                  g->out.water.reason, unseen);
}

static const char *stands(judging *g)
{
    const bw_junction_water *water = &g->out.water;
    if (!water->ran)
        return "what is within the junction is not assessed";
    if (water->place_count == 0)
        return "by months no water stands within, which is no proof that it "
               "stays dry";
    return bw_say(&g->rows,
                  "within, water stands at %zu place%s, which months alone "
                  "neither fail nor prove harmless",
                  water->place_count, water->place_count == 1 ? "" : "s");
}

/* Of surfaces that do not fail: the one closest to its limit, or marginal. */
static const char *sentence(judging *g, const bw_criterion *named)
{
    bw_rows *rows = &g->rows;
    if (named == NULL)
        return "No surface was assessed, nor what is within the junction.";
    return bw_say(rows, "The surface %s; %s%s. Closest to its limit: %s: %s.",
                  g->out.surface_verdict == BW_HOLDS ? "holds" : "is marginal",
                  stands(g),
                  bw_junction_leaks(g->out.junction)
                      ? "; of the rain that is stated to leak in months know "
                        "nothing"
                      : "",
                  named->title, named->reason);
}

/* With a simulation: what decides; of a junction that is not assessed what is
 * missing, and what was found. */
static const char *reason_by_hours(judging *g)
{
    bw_rows *rows = &g->rows;
    const bw_row *inside = bw_rows_find(rows, "junction", BW_C_JUNCTION_INSIDE);
    if (g->out.verdict != BW_NOT_ASSESSED || inside == NULL)
        return bw_verdict_reason(rows, NULL, 0);
    bool marginal = false;
    for (size_t i = 0; i < rows->count; i++)
        marginal = marginal || (rows->row[i].row.decides &&
                                rows->row[i].row.verdict == BW_MARGINAL);
    return bw_say(rows, "Hour by hour nothing fails%s; but %s.",
                  marginal ? ", though it is not all within its limits" : "",
                  inside->row.reason);
}

/* The surfaces first; then what is within, which may fail and never holds. */
static void judge_all(judging *g)
{
    bw_junction_assessment *a = &g->out;
    bw_rows *rows = &g->rows;
    bw_verdict_settle(rows);
    a->surface_verdict = bw_verdict_overall(rows);
    const bool fails = a->surface_verdict == BW_FAILS;
    const bool tell = fails || a->surface_verdict == BW_NOT_ASSESSED;
    const size_t surfaces = rows->count;
    const bw_row *row = bw_verdict_row(rows);
    a->verdict_reason = tell ? bw_verdict_reason(rows, NULL, 0)
                             : sentence(g, row != NULL ? &row->row : NULL);
    rows->section = "junction";
    bw_judge_water(rows, &a->water, &a->water_bound, a->hours.ran);
    if (a->hours.asked)
        bw_judge_within(rows, &a->hours, &a->water);
    if (!a->hours.ran)
        bw_rows_none(rows, BW_C_JUNCTION_INSIDE, not_computed(g));
    bw_verdict_settle(rows);
    a->verdict = bw_verdict_overall(rows);
    if (a->hours.ran) {
        a->verdict_reason = reason_by_hours(g);
        return;
    }
    if (a->verdict == BW_FAILS && !fails)
        a->verdict_reason = bw_verdict_reason(rows, NULL, 0);
    for (size_t i = surfaces; fails && i < rows->count; i++)
        if (rows->row[i].row.verdict == BW_FAILS) {
            a->verdict_reason = bw_say(rows,
                                       "%s Within, water by months fails, too.",
                                       a->verdict_reason);
            break;
        }
}

static bw_status settle(judging *g, bw_error *err)
{
    bw_junction_assessment *a = &g->out;
    bw_rows *rows = &g->rows;
    judge_all(g);
    a->profile = bw_say(
        rows, "%s",
        (g->profile != NULL ? g->profile : bw_profile_default())->name);
    bw_criterion *criterion = BW_NEW(&g->arena, bw_criterion, rows->count);
    BW_TRY_MEMORY(!g->arena.failed, err);
    for (size_t i = 0; i < rows->count; i++)
        criterion[i] = rows->row[i].row;
    a->criterion = criterion;
    a->criterion_count = rows->count;
    return BW_OK;
}

static bw_status assess(judging *g, bw_error *err)
{
    bw_junction_assessment *a = &g->out;
    if (g->profile != NULL)
        BW_TRY(bw_profile_check(g->profile, err));
    BW_TRY(bw_junction_heat_make(&a->heat, a->junction, NULL, err));
    BW_TRY(find_rooms(g, err));
    BW_TRY(find_water(g, err));
    BW_TRY(find_hours(g, err));
    BW_TRY_MEMORY(bw_junction_spots_find(a, &g->arena), err);
    return settle(g, err);
}

bw_status bw_junction_assess(bw_junction_assessment **out,
                             const bw_junction *junction,
                             const bw_climate *climate,
                             const bw_profile *profile, bw_error *err)
{
    return bw_junction_assess_hours(out, junction, climate, profile, NULL, err);
}

bw_status bw_junction_assess_hours(bw_junction_assessment **out,
                                   const bw_junction *junction,
                                   const bw_climate *climate,
                                   const bw_profile *profile,
                                   const bw_hour_options *options,
                                   bw_error *err)
{
    judging *g = calloc(1, sizeof *g);
    BW_TRY_MEMORY(g != NULL, err);
    g->out.junction = junction;
    g->out.climate = climate;
    g->profile = profile;
    g->hours = options;
    g->rows = (bw_rows){.arena = &g->arena, .profile = profile, .section = ""};
    const bw_status status = assess(g, err);
    if (status != BW_OK)
        bw_junction_assessment_free(&g->out);
    else
        *out = &g->out;
    return status;
}

void bw_junction_assessment_free(bw_junction_assessment *assessment)
{
    if (assessment == NULL)
        return;
    judging *g = (judging *)assessment;
    bw_junction_heat_free(g->out.heat);
    bw_arena_release(&g->arena);
    free(g);
}
