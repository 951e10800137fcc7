#include <math.h>
#include <string.h>

#include "beyond.h"
#include "fail.h"
#include "steps.h"

/* Period balance of the first section (the clear field) with the sd of one
 * layer inside and one outside the main insulation replaced: the tightest
 * membrane inside, the tightest layer outside; where there is none, a film is
 * put in. The reserve is that of the outer face of the main insulation, or of
 * what condenses if that is less, so that it does not jump where another plane
 * becomes the dampest. */

enum { CELLS = 8, ALL_CELLS = CELLS * CELLS };
static const double inner_sd[CELLS] = {0.2, 0.5, 1, 2, 5, 10, 30, 100};
static const double outer_sd[CELLS] = {0.05, 0.1, 0.3, 0.5, 1, 2, 4, 10};

typedef struct plan {
    bw_slab *slab; /* room for two more */
    size_t count, inner, outer;
} plan;

static void put_film(plan *p, size_t at)
{
    memmove(p->slab + at + 1, p->slab + at, (p->count - at) * sizeof *p->slab);
    p->slab[at] = (bw_slab){.label = "film", .kind = BW_LAYER_MEMBRANE};
    p->count++;
}

/* By logarithm; without a layer the least. */
static size_t nearest(const double sd[CELLS], double own)
{
    size_t found = 0;
    for (size_t i = 1; i < CELLS && own > 0.0; i++)
        if (fabs(log(sd[i] / own)) < fabs(log(sd[found] / own)))
            found = i;
    return found;
}

static void make_plan(plan *p, bw_margin *out, const bw_assembly *assembly,
                      const bw_section *section)
{
    bw_geography g;
    bw_geography_find(&g, assembly, section);
    size_t main = g.insulation, count = section->slab_count;
    memcpy(p->slab, section->slab, count * sizeof *p->slab);
    p->count = count;
    p->inner = bw_tightest_slab(section, main + 1, count, true);
    p->outer = bw_tightest_slab(section, 0, main, false);
    bool has_inner = p->inner < count, has_outer = p->outer < main;
    out->own_inner_sd = has_inner ? section->slab[p->inner].sd_dry : 0.0;
    out->own_outer_sd = has_outer ? section->slab[p->outer].sd_dry : 0.0;
    out->own_inner = nearest(inner_sd, out->own_inner_sd);
    out->own_outer = nearest(outer_sd, out->own_outer_sd);
    out->map_inner = has_inner ? section->slab[p->inner].label
                               : "a membrane put inside the insulation";
    out->map_outer = has_outer ? section->slab[p->outer].label
                               : "a layer put outside the insulation";
    if (!has_inner) {
        p->inner = main + 1;
        put_film(p, p->inner);
    }
    if (!has_outer) {
        p->outer = main;
        put_film(p, p->outer);
        p->inner++;
    }
}

static void replace(bw_slab *slab, double sd)
{
    slab->sd_curve = NULL;
    slab->sd_dry = slab->sd_wet = sd;
}

static bw_status fill(bw_sd_cell *cell, plan *p, const bw_section *like,
                      const bw_assembly *assembly, bw_error *err)
{
    bw_section section = *like;
    bw_period_climate climate = bw_period_climate_din4108(assembly->element);
    bw_geography g;
    section.slab = p->slab;
    section.slab_count = p->count;
    bw_geography_find(&g, assembly, &section);
    size_t outside = g.insulation - 1; /* a film at least */
    bw_plane_at place = {outside, p->slab[outside].thickness, true};
    for (size_t i = 0; i < ALL_CELLS; i++) {
        bw_period_result r;
        replace(&p->slab[p->outer], outer_sd[i / CELLS]);
        replace(&p->slab[p->inner], inner_sd[i % CELLS]);
        bw_error fault = {0};
        bw_status status = bw_period_balance_at(&r, &section, &climate,
                                                BW_MU_LOCAL, &place, 1, &fault);
        if (status == BW_ERR_MEMORY)
            return bw_fail_memory(err);
        bool good = status == BW_OK && r.assessed;
        cell[i] = good ? (bw_sd_cell){r.condensed, r.evaporable, r.reserve}
                       : (bw_sd_cell){(double)NAN, (double)NAN, (double)NAN};
    }
    return BW_OK;
}

bw_status bw_map_make(bw_margin *out, const bw_study *study,
                      const bw_section *section, bw_error *err)
{
    out->map_inner = out->map_outer = "";
    out->map_section = section->name;
    if (section->slab_count == 0 || study->assembly->beyond.kind != NULL) {
        out->map_note = section->slab_count == 0
                            ? "there is no layer to compute"
                            : bw_arena_say(
                                  study->arena,
                                  "the period balance has the climate of "
                                  "outdoor air; this face lies against %s",
                                  bw_beyond_against(study->assembly));
        return BW_OK;
    }
    plan p = {.slab = BW_NEW(study->arena, bw_slab, section->slab_count + 2)};
    bw_sd_cell *cell = BW_NEW(study->arena, bw_sd_cell, ALL_CELLS);
    BW_TRY_MEMORY(p.slab != NULL && cell != NULL, err);
    make_plan(&p, out, study->assembly, section);
    BW_TRY(fill(cell, &p, section, study->assembly, err));
    out->inner_count = out->outer_count = CELLS;
    out->inner_sd = inner_sd;
    out->outer_sd = outer_sd;
    out->map = cell;
    return BW_OK;
}
