#include "run.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "meter.h"

/* The simulations. Each section is independent of the others and writes only
 * its own result, so their number of threads cannot change a figure. */

enum { SECTIONS = BW_MOST_SECTIONS };

/* Of the water that went through; a run that closes worse is not used. */
static const double BALANCE_ERROR = 1e-3;

/* What no line in a file would mend. */
#define NO_REMEDY "; nothing in the files mends that: ask for other means"

typedef struct simulation {
    bw_pool *pool;
    bw_section_assessment *part;
    const bw_assembly *assembly;
    const bw_climate *climate;
    bw_run_how how;
    bw_metered metered;
    bw_status status;
    bw_error fault;
    bw_status wetted;
    bw_error wetting_fault;
    bw_status frozen;
    bw_error frost_fault;
} simulation;

/* During the wetting test and of the bare wall: they take no part in the
 * fraction, but may be stopped. */
static bool report_still(void *payload, double fraction_done)
{
    (void)fraction_done;
    const bw_transient_options *run = payload;
    return run->progress == NULL || run->progress(run->payload, 1.0);
}

static bw_transient_options still(simulation *s)
{
    bw_transient_options options = s->how.options;
    options.progress = report_still;
    options.payload = &s->how.options;
    return options;
}

static bool stops(bw_status status)
{
    return status == BW_ERR_MEMORY || status == BW_ERR_CANCELLED;
}

static void wet(simulation *s)
{
    bw_transient_options options = still(s);
    options.depth_count = 0;
    s->wetted = bw_run_wetting(s->pool, s->part, s->assembly, s->climate,
                               &options, s->how.one_way, &s->wetting_fault);
    if (stops(s->wetted)) {
        s->status = s->wetted;
        s->fault = s->wetting_fault;
    }
}

static void freeze(simulation *s)
{
    const bw_transient_options options = still(s);
    s->frozen = bw_run_frost(s->part, s->assembly, s->climate, &options,
                             &s->frost_fault);
    if (stops(s->frozen)) {
        s->status = s->frozen;
        s->fault = s->frost_fault;
    }
}

static void simulate(simulation *s)
{
    if (s->how.frost)
        bw_frost_watch(&s->how.options, s->assembly,
                       s->part->transient_section);
    s->status = bw_transient(&s->part->transient, s->assembly,
                             s->part->transient_section, s->climate,
                             &s->how.options, &s->fault);
    if (s->status != BW_OK)
        return;
    s->part->has_transient = true;
    s->status = bw_run_damage(s->part, s->assembly, &s->fault);
    if (s->status == BW_OK && !s->how.no_wetting)
        wet(s);
    if (s->status == BW_OK && s->how.frost)
        freeze(s);
    if (s->status != BW_OK || !s->how.converge)
        return;
    bw_transient_options quiet = s->how.options;
    quiet.progress = NULL;
    s->status = bw_transient_converge(&s->part->convergence, s->assembly,
                                      s->part->transient_section, s->climate,
                                      &quiet, &s->fault);
    s->part->has_convergence = s->status == BW_OK;
}

static bw_status simulate_one(void *payload, size_t index, bw_error *err)
{
    (void)err; /* its own: a section without an answer is a result */
    simulate((simulation *)payload + index);
    return BW_OK;
}

void bw_run_free_transient(bw_section_assessment *part)
{
    if (part->has_transient)
        bw_transient_free(&part->transient);
    part->has_transient = false;
    free(part->mould);
    free(part->wood);
    part->mould = NULL;
    part->wood = NULL;
    bw_wetting_free(&part->wetting_test.both);
    bw_wetting_free(&part->wetting_test.outwards);
    bw_wetting_free(&part->wetting_test.inwards);
    part->wetting_test.ran = part->frost.ran = false;
}

/* The same path with every layer: framing of dropped layers may have given it
 * another name. */
static const bw_section *matching(const bw_sections *sections,
                                  const bw_section *wanted)
{
    const bw_section *s = sections->section;
    while (s->through_stud != wanted->through_stud ||
           s->cavity_blocked != wanted->cavity_blocked) {
        s++;
        assert(s < sections->section + sections->count);
    }
    return s;
}

static const char *say_fault(bw_rows *rows, bw_status status,
                             const bw_error *fault)
{
    return bw_say(rows, "%s%s", fault->message,
                  status == BW_ERR_NUMERIC ? NO_REMEDY : "");
}

void bw_run_refuse_unclosed(bw_section_assessment *part)
{
    if (part->transient.water_balance_error <= BALANCE_ERROR)
        return;
    bw_run_free_transient(part);
    part->transient_section = NULL;
    part->transient_reason = "the simulation's water balance did not "
                             "close" NO_REMEDY;
}

/* Keeps what came out: a result, a reason, or a failure of the machine. */
static bw_status settle(bw_rows *rows, simulation *s, bw_error *err)
{
    bw_section_assessment *part = s->part;
    if (s->wetted != BW_OK)
        part->wetting_test.reason = say_fault(rows, s->wetted,
                                              &s->wetting_fault);
    if (s->frozen != BW_OK)
        part->frost.reason = say_fault(rows, s->frozen, &s->frost_fault);
    if (s->status == BW_OK) {
        part->transient_reason = "";
        bw_run_refuse_unclosed(part);
        return BW_OK;
    }
    bw_run_free_transient(part);
    part->transient_reason = say_fault(rows, s->status, &s->fault);
    part->transient_section = NULL;
    if (s->status == BW_ERR_MEMORY || s->status == BW_ERR_CANCELLED) {
        if (err != NULL)
            *err = s->fault;
        return s->status;
    }
    return BW_OK;
}

bw_status bw_run_section(bw_pool *pool, bw_section_assessment *part,
                         bw_rows *rows, const bw_assembly *assembly,
                         const bw_climate *hours, const bw_run_how *how,
                         bw_error *err)
{
    simulation s = {.pool = pool,
                    .part = part,
                    .assembly = assembly,
                    .climate = hours,
                    .how = *how};
    s.how.options.shelf = &pool->shelf;
    simulate(&s);
    return settle(rows, &s, err);
}

bw_status bw_run_transient_sections(bw_assessment *assessment,
                                    bw_section_assessment *part, bw_error *err)
{
    const bw_section_options all = {.keep_all_layers = true};
    BW_TRY(bw_sections_make(&assessment->transient_sections,
                            assessment->assembly, &all, err));
    for (size_t i = 0; i < assessment->section_count; i++)
        part[i].transient_section = matching(assessment->transient_sections,
                                             part[i].section);
    return BW_OK;
}

static bw_status run_sections(bw_pool *pool, bw_assessment *assessment,
                              bw_section_assessment *part, bw_rows *rows,
                              const bw_climate *climate,
                              const bw_assessment_options *asked, bw_error *err)
{
    size_t count = assessment->section_count;
    bw_meter meter;
    simulation s[SECTIONS] = {0};
    BW_TRY(bw_run_transient_sections(assessment, part, err));
    assert(count <= SECTIONS);
    bw_meter_start(&meter, asked->transient.progress, asked->transient.payload,
                   (double)count);
    for (size_t i = 0; i < count; i++) {
        s[i] = (simulation){.pool = pool,
                            .part = &part[i],
                            .assembly = assessment->assembly,
                            .climate = climate,
                            .how = {.options = asked->transient,
                                    .one_way = !asked->no_one_way,
                                    .converge = asked->converge,
                                    .frost = i == 0 && !asked->no_frost},
                            .metered = {.meter = &meter, .share = 1.0}};
        s[i].how.options.progress = bw_meter_tell;
        s[i].how.options.payload = &s[i].metered;
        s[i].how.options.carry_years = true;
        s[i].how.options.shelf = &pool->shelf;
    }
    bw_status worst = bw_pool_run(pool, count, simulate_one, s, err);
    bw_meter_end(&meter);
    for (size_t i = 0; i < count; i++) {
        bw_status status = settle(rows, &s[i], worst == BW_OK ? err : NULL);
        if (worst == BW_OK)
            worst = status;
    }
    return worst;
}

static void refuse(bw_assessment *assessment, bw_section_assessment *part,
                   const char *reason)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        part[i].transient_reason = reason;
}

bw_status bw_run_transient(bw_pool *pool, bw_assessment *assessment,
                           bw_section_assessment *part, bw_rows *rows,
                           const bw_assessment_options *options, bw_error *err)
{
    const bw_climate *climate = assessment->climate;
    const char *reason = NULL;
    if (assessment->room_reason != NULL)
        reason = assessment->room_reason;
    else if (options->no_transient)
        reason = "the simulation was switched off (--monthly-only); leave that "
                 "out";
    else if (climate->hour_count == 0 && !options->synthetic_hours)
        reason = "the climate has no hours, and synthetic ones were declined; "
                 "give a climate with hours, or leave --no-synthetic-hours out";
    if (reason != NULL) {
        refuse(assessment, part, reason);
        return BW_OK;
    }
    bw_climate *generated = NULL;
    if (climate->hour_count == 0) {
        bw_error fault = {0};
        bw_status status = bw_climate_generate(&generated, climate, &fault);
        if (status == BW_ERR_MEMORY)
            return bw_fail_memory(err);
        if (status != BW_OK) {
            refuse(assessment, part, bw_say(rows, "%s", fault.message));
            return BW_OK;
        }
        climate = generated;
    }
    bw_status status = run_sections(pool, assessment, part, rows, climate,
                                    options, err);
    bw_climate_free(generated);
    return status;
}
