/* The wetting test in the simulation: the stated water at the place where it
 * would stay longest, and how the section dries of it. */

#include <stdlib.h>

#include "bothways/geography.h"
#include "fail.h"
#include "run.h"
#include "when.h"

/* The error of a difference of two runs is smaller than that of either. */
static const double TOLERANCE_SHARE = 16.0;
/* One way alone decides nothing: whether it dries within the limit is told. */
enum { WAYS = 3, ONE_WAY_YEARS = 1 };

static double yearly_mean(const bw_monitor *monitor)
{
    double sum = 0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += monitor->month_rh[m];
    return sum / BW_MONTHS;
}

/* Of the places at risk those that are not inside of the main insulation,
 * unless there is no other: what gets wet next to the room dries there at once,
 * and says nothing of the sheathing. Returns how many, the first of *room. */
static size_t farther_out(bw_plane_at *room, size_t count,
                          const bw_geography *geography)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (room[i].slab <= geography->insulation)
            room[kept++] = room[i];
    return kept > 0 ? kept : count;
}

/* The plane of the file, else of those the one that is dampest through the
 * year: the least is left there to take water away. False: none. */
static bool find_place(bw_plane_at *out, const bw_assembly *assembly,
                       const bw_section_assessment *part, bw_plane_at *room)
{
    const bw_section *section = part->transient_section;
    const long after = assembly->drying_test.after_layer;
    for (size_t k = 0; after >= 0 && k < section->slab_count; k++)
        if (section->slab[k].layer == (size_t)after) {
            *out = (bw_plane_at){k, section->slab[k].thickness, true};
            return true;
        }
    bw_geography geography;
    bw_geography_find(&geography, assembly, section);
    const size_t count = farther_out(
        room, bw_places_at_risk(room, &geography, section), &geography);
    double most = -1;
    for (size_t i = 0; i < count; i++) {
        const double rh = yearly_mean(
            &part->transient.monitor[room[i].slab + 1]);
        if (rh > most) {
            most = rh;
            *out = room[i];
        }
    }
    return count > 0;
}

/* Into wood where wood is, else into what is outside the face. */
static bw_water_put put_at(const bw_section *section, bw_plane_at at,
                           double water)
{
    const size_t k = at.slab;
    const bool inner_wood = k + 1 < section->slab_count &&
                            section->slab[k + 1].material->wood_kind !=
                                BW_NOT_WOOD &&
                            section->slab[k].material->wood_kind == BW_NOT_WOOD;
    return (bw_water_put){.water = water,
                          .slab = inner_wood ? k + 1 : k,
                          .outer_side = inner_wood};
}

/* One way of drying. Each writes only its own result. */
typedef struct way {
    bw_wetting_result *out;
    const bw_assembly *assembly;
    const bw_section_assessment *part;
    const bw_climate *climate;
    bw_wetting_options how;
    bw_status status;
    bw_error fault;
} way;

static bw_status run_way(void *payload, size_t index, bw_error *err)
{
    way *w = (way *)payload + index;
    (void)err; /* its own: not every fault of a way is one of the whole */
    w->status = bw_wetting(w->out, w->assembly, w->part->transient_section,
                           w->climate, &w->part->transient, &w->how, &w->fault);
    return BW_OK;
}

/* Both ways and, if they are asked for, the one-way runs beside it. */
static bw_status run_ways(bw_pool *pool, bw_section_wetting *w, way both,
                          bw_error *err)
{
    way ways[WAYS] = {both, both, both};
    const size_t count = w->one_way ? WAYS : 1;
    ways[0].out = &w->both;
    ways[1].out = &w->outwards;
    ways[1].how.closed = BW_CLOSED_INSIDE;
    ways[2].out = &w->inwards;
    ways[2].how.closed = BW_CLOSED_OUTSIDE;
    ways[1].how.years = ways[2].how.years = ONE_WAY_YEARS;
    BW_TRY(bw_pool_run(pool, count, run_way, ways, err));
    for (size_t i = 0; i < count; i++) {
        const bw_status status = ways[i].status;
        if (status == BW_OK)
            continue;
        if (i > 0 && (status == BW_ERR_DOMAIN || status == BW_ERR_NUMERIC)) {
            /* shown only: where they cannot be had, what decides is known */
            w->one_way = false;
            continue;
        }
        if (err != NULL)
            *err = ways[i].fault;
        return status;
    }
    return BW_OK;
}

static double coarser(double tolerance, double usual)
{
    return TOLERANCE_SHARE * (tolerance > 0 ? tolerance : usual);
}

bw_status bw_run_wetting(bw_pool *pool, bw_section_assessment *part,
                         const bw_assembly *assembly, const bw_climate *climate,
                         const bw_transient_options *options, bool one_way,
                         bw_error *err)
{
    bw_section_wetting *w = &part->wetting_test;
    bw_plane_at *room = calloc(part->transient_section->slab_count,
                               sizeof *room);
    BW_TRY_MEMORY(room != NULL, err);
    const bool found = find_place(&w->place, assembly, part, room);
    free(room);
    w->nothing_at_risk = !found;
    if (!found) {
        w->reason = "no face of wood, board or insulation that water would "
                    "harm";
        return BW_OK;
    }
    const bw_drying_test *test = &assembly->drying_test;
    w->place_alone = part->transient_section->through_stud;
    /* through a stud either way alone is no question of one dimension: it
     * dries sideways, too */
    w->one_way = one_way && !w->place_alone;
    w->water = test->wetting > 0.0 ? test->wetting : 1.0;
    w->month = test->start_month >= 0 ? test->start_month
                                      : bw_start_month(climate);
    way both = {
        .assembly = assembly,
        .part = part,
        .climate = climate,
        .how = {.run = *options,
                .put = put_at(part->transient_section, w->place, w->water),
                .month = w->month},
    };
    bw_transient_options *run = &both.how.run;
    run->keep_hours = false;
    run->temperature_tolerance = coarser(options->temperature_tolerance, 0.01);
    run->humidity_tolerance = coarser(options->humidity_tolerance, 0.0005);
    const bw_status status = run_ways(pool, w, both, err);
    w->ran = status == BW_OK;
    return status;
}
