/* Frost of masonry that stands at the weather: which walls it is counted of,
 * the same wall bare, and the counts of both beside each other.
 *
 * The bare wall is what stands there without what was put inside the masonry:
 * of its layers the mineral ones from the weather to the innermost masonry, the
 * plaster on that, and the air between two leaves. It has the same climate,
 * room and rain, and no leaks. Choices of this project: a leaf of at least 90
 * mm at the weather; none outside a well-ventilated cavity, which hangs in
 * outdoor air on both sides; no facing of a timber frame, as less masonry than
 * 180 mm stands by something else and was never bare; walls alone.
 *
 * Invariant: no count of the wall as it is without that of the bare one. */

#include <stdlib.h>
#include <string.h>

#include "bothways/geography.h"
#include "fail.h"
#include "run.h"

static const double DEPTHS[BW_DEPTHS_MOST] = {0.005, 0.010, 0.020,
                                              0.050}; /* m */
static const double LEAF = 0.090;                     /* m */
static const double STANDS = 0.180;                   /* m, all of it */
static const double MASONRY = 0.050; /* m, inside: thinner is a facing */

static bool is_of(const bw_slab *slab, const char *group)
{
    return slab->kind == BW_LAYER_SOLID &&
           strcmp(slab->material->group, group) == 0;
}

static bool is_mineral(const bw_slab *slab)
{
    return is_of(slab, "masonry") || is_of(slab, "plaster");
}

/* A coat or a sheet on the outer face. */
static bool is_film(const bw_slab *slab)
{
    return slab->kind == BW_LAYER_MEMBRANE || is_of(slab, "coating");
}

/* How thick the leaf at the weather is, m; 0: no masonry stands there. */
static double masonry_at_weather(const bw_assembly *assembly,
                                 const bw_section *section)
{
    if (assembly->element != BW_ELEMENT_WALL || assembly->beyond.kind != NULL)
        return 0.0;
    bw_geography geography;
    bw_geography_find(&geography, assembly, section);
    if (geography.first > 0)
        return 0.0;
    size_t k = 0;
    while (k < section->slab_count && is_film(&section->slab[k]))
        k++;
    double leaf = 0.0;
    bool masonry = false;
    for (; k < section->slab_count && is_mineral(&section->slab[k]); k++) {
        leaf += section->slab[k].thickness;
        masonry = masonry || is_of(&section->slab[k], "masonry");
    }
    return masonry ? leaf : 0.0;
}

void bw_frost_watch(bw_transient_options *options, const bw_assembly *assembly,
                    const bw_section *section)
{
    options->depth_count = 0;
    if (masonry_at_weather(assembly, section) < LEAF)
        return;
    options->depth_count = BW_DEPTHS_MOST;
    memcpy(options->depth, DEPTHS, sizeof DEPTHS);
}

/* ---- the wall bare ------------------------------------------------------- */

/* One past the last slab of the bare wall. */
static size_t bare_end(const bw_section *section)
{
    size_t end = section->slab_count;
    while (end > 0 && !(is_of(&section->slab[end - 1], "masonry") &&
                        section->slab[end - 1].thickness >= MASONRY))
        end--;
    while (end > 0 && end < section->slab_count &&
           is_of(&section->slab[end], "plaster"))
        end++;
    return end;
}

/* The slabs of the bare wall; how many. *thickness: of its solid ones. */
static size_t bare_slabs(bw_slab *slab, double *thickness,
                         const bw_section *section)
{
    const size_t end = bare_end(section);
    size_t count = 0;
    bool leaf = false;
    *thickness = 0.0;
    for (size_t k = 0; k < end; k++) {
        const bw_slab *s = &section->slab[k];
        const bool air = s->kind == BW_LAYER_CAVITY && leaf &&
                         slab[count - 1].kind != BW_LAYER_CAVITY;
        if (!is_mineral(s) && !air && (leaf || !is_film(s)))
            continue;
        leaf = leaf || is_mineral(s);
        *thickness += is_mineral(s) ? s->thickness : 0.0;
        slab[count++] = *s;
    }
    return count;
}

/* Do two sections have the same layers but for films? */
static bool is_bare_already(const bw_section *section, const bw_section *bare)
{
    size_t thick = 0, kept = 0;
    for (size_t k = 0; k < section->slab_count; k++)
        thick += !is_film(&section->slab[k]);
    for (size_t k = 0; k < bare->slab_count; k++)
        kept += !is_film(&bare->slab[k]);
    return thick == kept;
}

/* ---- both counted -------------------------------------------------------- */

typedef struct year {
    double theta[BW_TRANSIENT_HOURS], water[BW_TRANSIENT_HOURS],
        ice[BW_TRANSIENT_HOURS];
} year;

static bw_frost_counts count_at(year *y, const bw_transient_result *result,
                                size_t place)
{
    for (size_t h = 0; h < BW_TRANSIENT_HOURS; h++) {
        const bw_depth_hour *row =
            &result->depth_hours[h * result->depth_count + place];
        y->theta[h] = (double)row->theta;
        y->water[h] = (double)row->water;
        y->ice[h] = (double)row->ice;
    }
    const bw_frost_hours hours = {
        .theta = y->theta,
        .water = y->water,
        .ice = y->ice,
        .hours = BW_TRANSIENT_HOURS,
        .free_water = result->depth[place].free_water,
        .full_water = result->depth[place].full_water};
    return bw_frost_year(&hours);
}

static bw_status count(bw_section_frost *out, const bw_transient_result *built,
                       const bw_transient_result *bare, bw_error *err)
{
    year *y = malloc(sizeof *y);
    BW_TRY_MEMORY(y != NULL, err);
    for (size_t k = 0; k < built->depth_count; k++) {
        bw_frost_at *at = &out->at[k];
        at->depth = built->depth[k].depth;
        at->slab = built->depth[k].slab;
        at->as_built = count_at(y, built, k);
        at->bare = built == bare ? at->as_built : count_at(y, bare, k);
    }
    free(y);
    out->count = built->depth_count;
    out->ran = true;
    return BW_OK;
}

bw_status bw_run_frost(bw_section_assessment *part, const bw_assembly *assembly,
                       const bw_climate *climate,
                       const bw_transient_options *options, bw_error *err)
{
    const bw_section *section = part->transient_section;
    bw_section_frost *out = &part->frost;
    if (part->transient.depth_count == 0) {
        if (masonry_at_weather(assembly, section) > 0.0)
            out->reason =
                "the masonry at the weather is less than half a brick "
                "thick: a facing, whose frost is not counted";
        return BW_OK;
    }
    bw_slab *slab = calloc(section->slab_count, sizeof *slab);
    BW_TRY_MEMORY(slab != NULL, err);
    bw_section bare = *section;
    bare.name = "bare";
    bare.slab = slab;
    bare.slab_count = bare_slabs(slab, &out->bare_thickness, section);
    out->is_bare = is_bare_already(section, &bare);
    bw_status status = BW_OK;
    if (out->bare_thickness < STANDS) {
        out->reason = "the masonry at the weather does not stand alone: there "
                      "is no bare wall to lay beside it";
    } else if (out->is_bare) {
        status = count(out, &part->transient, &part->transient, err);
    } else {
        bw_assembly tight = *assembly;
        tight.air_leakage.given = tight.rain_leak.given = false;
        bw_transient_result result;
        status = bw_transient(&result, &tight, &bare, climate, options, err);
        if (status == BW_OK) {
            status = count(out, &part->transient, &result, err);
            bw_transient_free(&result);
        }
    }
    free(slab);
    return status;
}
