#include "bothways/choose.h"

#include <math.h>
#include <stdlib.h>

#include "choosing.h"
#include "fail.h"

/* bw_choose_make: what is asked, the steps in order, and the memory. */

enum { RACE = 256, DRAWN = 32, DRAWN_BY_MONTHS = 256 };

static bw_status check(const bw_assembly *assembly,
                       const bw_choose_options *options, bw_error *err)
{
    if (assembly->choices.choice_count == 0)
        return bw_fail(err, BW_ERR_DOMAIN, assembly->file, 0,
                       "this assembly says nothing of what may be chosen; "
                       "write <choices> in it");
    if (options->race_cases % BW_RACE_SETS != 0 ||
        options->drawn_cases % BW_RACE_SETS != 0 ||
        options->race_cases > BW_RACE_MOST ||
        options->drawn_cases > BW_RACE_MOST)
        return bw_fail_usage(err,
                             "%zu and %zu cases are asked for; give a multiple "
                             "of %d, at most %d, as 32, 64, 128",
                             options->race_cases, options->drawn_cases,
                             BW_RACE_SETS, BW_RACE_MOST);
    if (options->parts > 0 &&
        (options->part < 1 || options->part > options->parts))
        return bw_fail_usage(err, "part %zu of %zu: there is none",
                             options->part, options->parts);
    return BW_OK;
}

static void set_options(bw_choosing *c, const bw_choose_options *options)
{
    bw_assessment_options *how = &c->options.assessment;
    c->options = *options;
    how->no_advice = true;
    how->no_one_way = how->no_frost = true;
    how->converge = false;
    how->transient.keep_hours = false;
    how->transient.progress = bw_meter_alive;
    how->transient.payload = &c->tally.meter;
    c->chosen.simulated = !how->no_transient;
    c->slots.race = options->race_cases > 0 ? options->race_cases : RACE;
    c->slots.drawn = options->drawn_cases > 0 ? options->drawn_cases
                     : how->no_transient      ? DRAWN_BY_MONTHS
                                              : DRAWN;
    c->chosen.seed = options->seed;
    c->chosen.race_cases = c->slots.race;
    c->chosen.drawn_cases = c->slots.drawn;
    c->chosen.part = options->part;
    c->chosen.parts = options->parts;
    c->chosen.partial = options->parts > 0;
    c->chosen.joint_bound = (double)NAN;
}

/* The wall as drawn, for the head of the report. */
static bw_status assess_base(bw_choosing *c, bw_error *err)
{
    bw_assessment_options how = c->options.assessment;
    how.no_transient = true;
    BW_TRY(bw_assess_on(&c->pool, &c->base, c->chosen.assembly,
                        c->chosen.climate, &how, err));
    c->chosen.assessment = c->base;
    return BW_OK;
}

static bw_status make_room(bw_choosing *c, bw_error *err)
{
    c->judged = BW_NEW(&c->arena, bw_judged,
                       2 * c->count * bw_slot_count(&c->slots));
    return c->judged != NULL ? BW_OK : bw_fail_memory(err);
}

static bw_status make_parts(bw_choosing *c, bw_error *err)
{
    BW_TRY(assess_base(c, err));
    BW_TRY(bw_designs_make(c, err));
    BW_TRY(bw_findings_find(c, err));
    BW_TRY(make_room(c, err));
    BW_TRY(bw_known_take(c, err));
    BW_TRY(bw_stages_run(c, err));
    BW_TRY(bw_cases_keep(c, true, err));
    return c->chosen.partial ? BW_OK : bw_choice_tell(c, err);
}

/* Steady assessments that there will be, about. */
static double total(const bw_choosing *c)
{
    double designs = 1.0;
    for (size_t k = 0; k < c->chosen.choices->choice_count; k++)
        designs *= (double)c->chosen.choices->choice[k].option_count;
    enum { ALONE = 20, SURVIVE = 4 };
    const double each = c->chosen.simulated ? BW_TICKS_SIMULATED : 1;
    return designs * (double)c->slots.race / 2.0 +
           designs / SURVIVE * each * (double)(c->slots.drawn + ALONE);
}

static bw_status make(bw_choosing *c, bw_error *err)
{
    bw_pool_open(&c->pool, c->options.assessment.threads);
    bw_meter_start(&c->tally.meter, c->options.progress, c->options.payload,
                   total(c));
    const bw_status status = make_parts(c, err);
    c->chosen.steady_count = c->tally.steady;
    c->chosen.simulation_count = c->tally.simulated;
    bw_meter_end(&c->tally.meter);
    bw_pool_close(&c->pool);
    return status;
}

bw_status bw_choose_make(bw_chosen **out, const bw_assembly *assembly,
                         const bw_climate *climate,
                         const bw_choose_options *options, bw_error *err)
{
    static const bw_choose_options months = {
        .assessment = {.no_transient = true}, .seed = 1};
    if (options == NULL)
        options = &months;
    BW_TRY(check(assembly, options, err));
    bw_choosing *c = calloc(1, sizeof *c);
    BW_TRY_MEMORY(c != NULL, err);
    c->chosen.assembly = assembly;
    c->chosen.climate = climate;
    c->chosen.choices = &assembly->choices;
    set_options(c, options);
    const bw_status status = make(c, err);
    if (status != BW_OK) {
        bw_chosen_free(&c->chosen);
        return status;
    }
    *out = &c->chosen;
    return BW_OK;
}

void bw_chosen_free(bw_chosen *chosen)
{
    if (chosen == NULL)
        return;
    bw_choosing *c = (bw_choosing *)chosen;
    bw_assessment_free(c->base);
    bw_arena_release(&c->arena);
    free(c);
}
