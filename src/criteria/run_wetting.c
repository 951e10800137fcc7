/* The wetting test in the simulation: the stated water at the place where it
 * would stay longest, and how the section dries of it. */

#include <math.h>
#include <stdlib.h>

#include "bothways/geography.h"
#include "fail.h"
#include "run.h"

/* The error of a difference of two runs is smaller than that of either. */
#define TOLERANCE_SHARE 4.0
/* October, as the simulation starts: the wall keeps the water all winter. */
enum { WETTING_MONTH = 9 };

static double yearly_mean(const bw_monitor *monitor)
{
    double sum = 0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += monitor->month_rh[m];
    return sum / BW_MONTHS;
}

/* The plane of the file, else of all at risk the one that is dampest through
 * the year: the least is left there to take water away. False: none. */
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
    const size_t count = bw_places_at_risk(room, &geography, section);
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

static bw_status run_ways(bw_section_wetting *w, const bw_assembly *assembly,
                          const bw_section_assessment *part,
                          const bw_climate *climate, bw_wetting_options *how,
                          bw_error *err)
{
    const bw_section *section = part->transient_section;
    how->closed = BW_CLOSED_NOWHERE;
    BW_TRY(bw_wetting(&w->both, assembly, section, climate, &part->transient,
                      how, err));
    if (!w->one_way)
        return BW_OK;
    how->closed = BW_CLOSED_INSIDE;
    bw_status status = bw_wetting(&w->outwards, assembly, section, climate,
                                  &part->transient, how, err);
    how->closed = BW_CLOSED_OUTSIDE;
    if (status == BW_OK)
        status = bw_wetting(&w->inwards, assembly, section, climate,
                            &part->transient, how, err);
    /* shown only: where they cannot be had, what decides is known */
    w->one_way = status == BW_OK;
    return status == BW_ERR_DOMAIN || status == BW_ERR_NUMERIC ? BW_OK : status;
}

static double coarser(double tolerance, double usual)
{
    return TOLERANCE_SHARE * (tolerance > 0 ? tolerance : usual);
}

bw_status bw_run_wetting(bw_section_assessment *part,
                         const bw_assembly *assembly, const bw_climate *climate,
                         const bw_transient_options *options, bool one_way,
                         bw_error *err)
{
    bw_section_wetting *w = &part->wetting_test;
    bw_plane_at *room = calloc(part->transient_section->slab_count,
                               sizeof *room);
    if (room == NULL)
        return bw_fail_memory(err);
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
    w->one_way = one_way;
    w->water = test->wetting > 0.0 ? test->wetting : 1.0;
    w->month = test->start_month >= 0 ? test->start_month : WETTING_MONTH;
    bw_wetting_options how = {
        .run = *options,
        .put = put_at(part->transient_section, w->place, w->water),
        .month = w->month,
    };
    how.run.keep_hours = false;
    how.run.temperature_tolerance = coarser(options->temperature_tolerance,
                                            0.01);
    how.run.humidity_tolerance = coarser(options->humidity_tolerance, 0.0005);
    const bw_status status = run_ways(w, assembly, part, climate, &how, err);
    w->ran = status == BW_OK;
    return status;
}
