#include <math.h>
#include <string.h>

#include "auditing.h"
#include "change.h"
#include "fail.h"
#include "meter.h"
#include "number.h"
#include "pool.h"
#include "properties.h"
#include "readings.h"
#include "text.h"

/* When a member that was read too wet will be below its limit: the section it
 * lies in is simulated for a year, begun with what was read, closed as drawn,
 * and open, without the layers on its room side. A member is dry from the first
 * day of a week on which its wettest 10 mm are at or below what is allowed in
 * the mean of each day, and a run ends with that week. The error is that of the
 * meter, 2 points either way (common practice, no source): the run is made
 * three times.
 *
 * A simulation begins with a month: the one whose start is nearest to the day
 * of the reading. In one dimension a deep stud would dry from end to end alone;
 * it dries through its broad faces. So it is laid flat: a slab as thick as the
 * stud is wide, between what lies before and behind it, which is late rather
 * than early, as one of its faces then has a membrane or boards before it. */

enum { WEEK = 7, CASES = 3, RUNS = BW_SITE_WAYS * CASES };

typedef struct site {
    bw_audit_core *core;
    const bw_assessment_options *asked;
    const bw_climate *hours;
    bw_climate *generated;
    const char *refused; /* why nothing is simulated; NULL */
    bw_meter meter;
} site;

typedef struct job {
    site *on;
    bw_drying_forecast *of;
    size_t way, at;
    bw_metered metered;
    bw_status status;
    bw_error fault;
} job;

const char *bw_site_way_text(bw_site_way way)
{
    static const char *const words[] = {[BW_SITE_CLOSED] = "closed as drawn",
                                        [BW_SITE_OPEN] = "left open, unheated"};
    return BW_WORD(words, way, "left open, heated");
}

/* ---- the wall ------------------------------------------------------------ */

static const bw_material *material_of(const bw_assembly *a, bw_wall_part part)
{
    const bw_layer *layer = &a->layer[part.layer];
    return part.framing ? layer->framing.material : layer->material;
}

static void start_at(const bw_assembly *a, bw_layer *layer, bw_wall_part part,
                     double moisture)
{
    bw_layer *at = &layer[part.layer];
    const double most = bw_material_most_moisture(material_of(a, part));
    bool *given = part.framing ? &at->framing.has_initial_moisture
                               : &at->has_initial_moisture;
    *(part.framing ? &at->framing.initial_is_rh : &at->initial_is_rh) = false;
    *(part.framing ? &at->framing.initial_moisture
                   : &at->initial_moisture) = fmin(fmax(moisture, 0.01), most);
    *given = true;
}

/* A stud as a slab as thick as it is wide. */
static void lay_flat(bw_layer *layer)
{
    layer->framing.depth = 0.0;
    if (layer->framing.width > 0.0 && layer->framing.width < layer->thickness)
        layer->thickness = layer->framing.width;
}

/* Every member that was read starts with its highest reading, this one with
 * the error on top. */
static bool start_all(bw_assembly *a, bw_arena *arena, const job *j)
{
    const bw_audit *audit = &j->on->core->audit;
    bw_layer *layer = BW_NEW(arena, bw_layer, a->layer_count);
    if (layer == NULL)
        return false;
    memcpy(layer, a->layer, a->layer_count * sizeof *layer);
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_wall_part part = bw_part_of_member(a, audit->member[i].member);
        if (part.layer >= 0 && audit->member[i].reading_count > 0 &&
            material_of(a, part)->density.known)
            start_at(a, layer, part, audit->member[i].highest);
    }
    start_at(a, layer, j->of->part,
             j->of->moisture + ((double)j->at - 1.0) * BW_METER_ERROR);
    if (j->of->part.framing)
        lay_flat(&layer[j->of->part.layer]);
    a->layer = layer;
    return true;
}

/* As the air outside, month by month: rain is kept off, nothing is heated. */
static bw_indoors unheated(const bw_assembly *a, const bw_climate *climate)
{
    bw_indoors room = a->indoors;
    room.kind = BW_INDOOR_MONTHS;
    for (int m = 0; m < BW_MONTHS; m++) {
        room.month_temperature[m] = climate->month[m].temperature;
        room.month_vapour_pressure[m] = climate->month[m].vapour_pressure;
    }
    return room;
}

static const bw_assembly *make_wall(bw_arena *arena, const job *j)
{
    const bw_assembly *drawn = j->on->core->assembly;
    const size_t inside = (size_t)j->of->part.layer + 1;
    bw_assembly *a = BW_NEW(arena, bw_assembly, 1);
    bw_change *remove = BW_NEW(arena, bw_change, drawn->layer_count);
    if (a == NULL || remove == NULL)
        return NULL;
    *a = *drawn;
    if (!start_all(a, arena, j))
        return NULL;
    if (j->way == BW_SITE_CLOSED)
        return a;
    if (j->way == BW_SITE_OPEN)
        a->indoors = unheated(a, j->on->core->climate);
    for (size_t i = 0; i < drawn->layer_count; i++)
        remove[i] = bw_change_to(BW_CHANGE_REMOVED, inside, 0.0);
    return bw_changes_apply(arena, a, remove, drawn->layer_count - inside);
}

/* ---- the run ------------------------------------------------------------- */

static bool find_slab(const bw_sections *sections, bw_wall_part part,
                      const bw_section **section, size_t *slab)
{
    for (size_t i = 0; i < sections->count; i++)
        for (size_t k = 0; k < sections->section[i].slab_count; k++) {
            const bw_slab *s = &sections->section[i].slab[k];
            if (s->layer != (size_t)part.layer || s->is_framing != part.framing)
                continue;
            *section = &sections->section[i];
            *slab = k;
            return true;
        }
    return false;
}

double bw_days_to_limit(const bw_wood_day *day, double allowed)
{
    int within = 0;
    for (int d = 0; d < BW_TRANSIENT_DAYS; d++) {
        within = day[d].moisture <= allowed + BW_MOISTURE_SAME ? within + 1 : 0;
        if (within == WEEK)
            return d + 1 - WEEK;
    }
    return -1.0;
}

int bw_nearest_month(const char *date)
{
    const int month = bw_number_digits(date + 5, 2) - 1;
    return (month + (bw_number_digits(date + 8, 2) > 15)) % BW_MONTHS;
}

static bw_status dry(job *j, const bw_assembly *wall, bw_error *err)
{
    const bw_section_options every = {.keep_all_layers = true,
                                      .layers_apart = true};
    bw_transient_options options = j->on->asked->transient;
    bw_sections *sections = NULL;
    const bw_section *section = NULL;
    bw_transient_result run = {0};
    size_t slab = 0;
    options.max_years = 1;
    options.keep_hours = false;
    options.start_month_given = true;
    options.start_month = bw_nearest_month(j->of->reading->date);
    options.no_air_leakage = j->way != BW_SITE_CLOSED;
    options.progress = bw_meter_tell;
    options.payload = &j->metered;
    options.until = (bw_until_dry){
        .days = WEEK, .moisture = j->of->allowed + BW_MOISTURE_SAME};
    BW_TRY(bw_sections_make(&sections, wall, &every, err));
    const bool found = find_slab(sections, j->of->part, &section, &slab);
    options.until.slab = slab;
    bw_status status = found ? bw_transient(&run, wall, section, j->on->hours,
                                            &options, err)
                             : bw_fail_domain(err, "no section meets it");
    if (status == BW_OK && (run.slab == NULL || !run.slab[slab].is_wood))
        status = bw_fail_domain(err, "it is no wood");
    else if (status == BW_OK)
        j->of->days[j->way][j->at] = bw_days_to_limit(run.slab[slab].first_days,
                                                      j->of->allowed);
    bw_transient_free(&run);
    bw_sections_free(sections);
    bw_meter_tell(&j->metered, 1.0);
    return status;
}

/* What cannot be simulated is a reason. */
static bw_status run_job(void *payload, size_t index, bw_error *err)
{
    job *j = (job *)payload + index;
    bw_arena arena = {0};
    const bw_assembly *wall = make_wall(&arena, j);
    j->status = wall != NULL ? dry(j, wall, &j->fault)
                             : bw_fail_memory(&j->fault);
    bw_arena_release(&arena);
    if (j->status != BW_ERR_MEMORY && j->status != BW_ERR_CANCELLED)
        return BW_OK;
    if (err != NULL)
        *err = j->fault;
    return j->status;
}

static bw_status run_all(site *on, job *list, size_t count, bw_error *err)
{
    const bw_assessment_options *asked = on->asked;
    bw_meter_start(&on->meter, asked->transient.progress,
                   asked->transient.payload, (double)count);
    const bw_status status = bw_pool_run(on->core->pool, count, run_job, list,
                                         err);
    bw_meter_end(&on->meter);
    for (size_t i = 0; status == BW_OK && i < count; i++)
        if (list[i].status != BW_OK)
            list[i].of->way_reason[list[i].way] = BW_AUDIT_SAY(
                on->core, "%s", list[i].fault.message);
    return status;
}

/* ---- what can be forecast ------------------------------------------------ */

/* The highest that counts of a member. */
static const bw_reading *highest(const bw_audit *audit, const char *member)
{
    const bw_reading *most = NULL;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        if (e->counts && strcmp(e->reading->member, member) == 0 &&
            (most == NULL || e->reading->moisture > most->moisture))
            most = e->reading;
    }
    return most;
}

static const char *why_not(const site *on, const bw_drying_forecast *f)
{
    const bw_assembly *a = on->core->assembly;
    if (f->part.layer < 0)
        return "it is no layer or framing of this wall: say with part= of its "
               "<moisture-limit> what it is";
    const bw_material *m = material_of(a, f->part);
    if (!bw_is_timber(m) || !m->density.known)
        return "it is neither solid wood nor a panel of wood of known density";
    if (f->moisture > bw_material_most_moisture(m))
        return "more was read than its pores hold";
    return on->refused;
}

static void look_at_member(site *on, const bw_member_decision *d,
                           bw_drying_forecast *f)
{
    const bw_reading *reading = highest(&on->core->audit, d->member);
    *f = (bw_drying_forecast){
        .member = d->member,
        .reading = reading,
        .part = bw_part_of_member(on->core->assembly, d->member),
        .moisture = d->highest,
        .allowed = d->allowed};
    f->dry = d->highest + BW_METER_ERROR <= d->allowed + BW_MOISTURE_SAME;
    if (!f->dry)
        f->reason = why_not(on, f);
}

/* As the assessment takes its hours. */
static bw_status find_hours(site *on, bw_error *err)
{
    on->hours = on->core->climate;
    if (on->core->assessment->room_reason != NULL)
        on->refused = on->core->assessment->room_reason;
    else if (on->asked->no_transient)
        on->refused = "the simulation was switched off (--monthly-only)";
    else if (on->hours->hour_count == 0 && !on->asked->synthetic_hours)
        on->refused = "the climate has no hours, and synthetic ones were "
                      "declined";
    if (on->refused != NULL || on->hours->hour_count > 0)
        return BW_OK;
    bw_error fault = {0};
    const bw_status status = bw_climate_generate(&on->generated, on->hours,
                                                 &fault);
    if (status == BW_ERR_MEMORY)
        return bw_fail_memory(err);
    on->hours = on->generated;
    if (status != BW_OK)
        on->refused = BW_AUDIT_SAY(on->core, "%s", fault.message);
    return BW_OK;
}

static bw_status run_those(site *on, bw_drying_forecast *list, bw_error *err)
{
    const size_t members = on->core->audit.member_count;
    job *jobs = BW_NEW(&on->core->arena, job, RUNS * members + 1);
    size_t count = 0;
    BW_TRY_MEMORY(jobs != NULL, err);
    for (size_t i = 0; i < RUNS * members; i++) {
        bw_drying_forecast *of = &list[i / RUNS];
        if (of->reading != NULL && !of->dry && of->reason == NULL)
            jobs[count++] = (job){
                .on = on,
                .of = of,
                .way = i % RUNS / CASES,
                .at = i % CASES,
                .metered = {.meter = &on->meter, .share = 1.0}};
    }
    return count > 0 ? run_all(on, jobs, count, err) : BW_OK;
}

bw_status bw_audit_forecast(bw_audit_core *core,
                            const bw_assessment_options *options, bw_error *err)
{
    bw_audit *audit = &core->audit;
    site on = {.core = core, .asked = options};
    bw_drying_forecast *list = BW_NEW(&core->arena, bw_drying_forecast,
                                      audit->member_count + 1);
    BW_TRY_MEMORY(list != NULL, err);
    bw_status status = find_hours(&on, err);
    size_t count = 0;
    for (size_t i = 0; i < audit->member_count; i++)
        if (audit->member[i].has_limit && audit->member[i].reading_count > 0)
            look_at_member(&on, &audit->member[i], &list[count++]);
    if (status == BW_OK)
        status = run_those(&on, list, err);
    audit->forecast = list;
    audit->forecast_count = count;
    bw_climate_free(on.generated);
    return status;
}
