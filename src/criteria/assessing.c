#include "assessing.h"

#include "fail.h"
#include "judge.h"
#include "room.h"
#include "scope.h"
#include "side.h"
#include "verdict.h"

static void count_assumed(bw_core *core)
{
    const bw_assembly *assembly = core->assessment.assembly;
    for (size_t i = 0; i < assembly->layer_count; i++)
        core->assessment.assumed_count += assembly->layer[i].evidence ==
                                          BW_EVIDENCE_ASSUMED;
}

/* NULL, or why there can be no such room: its most humid month. */
static const char *impossible_room(bw_rows *rows, const bw_assembly *assembly,
                                   const bw_section_assessment *part)
{
    double highest = 0.0;
    int month = 0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &part->boundary[m];
        double rh = bw_room_humidity(b->theta_i, b->p_i);
        if (rh > highest) {
            highest = rh;
            month = m;
        }
    }
    if (!bw_room_impossible(highest))
        return NULL;
    char text[200];
    bw_room_reason(text, sizeof text, &assembly->indoors, highest,
                   bw_month_name(month));
    return bw_say(rows, "%s", text);
}

/* What would be computed of such a room would be of no room. */
static bw_status refuse_room(bw_section_assessment *part, const char *reason)
{
    bw_run_none(part, reason);
    part->transient_reason = reason;
    return BW_OK;
}

bw_status bw_core_steady(bw_core *core, const bw_assembly *assembly,
                         const bw_climate *climate, const bw_profile *profile,
                         const bw_run_effort *effort, bw_error *err)
{
    bw_assessment *a = &core->assessment;
    a->assembly = assembly;
    a->climate = climate;
    a->room_reason = NULL;
    core->rows = (bw_rows){.arena = &core->arena, .profile = profile};
    core->sun = effort->sun != NULL ? *effort->sun : (bw_run_sun){0};
    BW_TRY(bw_sections_make(&a->sections, assembly, NULL, err));
    BW_TRY(bw_thermal(&a->thermal, assembly, err));
    core->part = BW_NEW(&core->arena, bw_section_assessment,
                        a->sections->count);
    BW_TRY_MEMORY(core->part != NULL, err);
    a->section = core->part;
    a->section_count = a->sections->count;
    for (size_t i = 0; i < a->section_count; i++) {
        bw_section_assessment *part = &core->part[i];
        part->section = &a->sections->section[i];
        bw_run_none(part, "");
        part->transient_reason = part->wetting_test.reason = "";
        bw_side_months(part->boundary, assembly, part->section, climate);
        a->room_reason = impossible_room(&core->rows, assembly, part);
        BW_TRY(a->room_reason != NULL
                   ? refuse_room(part, a->room_reason)
                   : bw_run_steady(part, &core->rows, assembly, climate, effort,
                                   &core->sun, err));
    }
    if (a->room_reason == NULL)
        a->scope_count = bw_scope_find(core->scope, BW_SCOPE_MOST, &core->rows,
                                       assembly, core->part, a->section_count);
    a->scope = core->scope;
    count_assumed(core);
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}

static bool has_assumed(const bw_assembly *assembly, const bw_section *section)
{
    for (size_t i = 0; i < section->slab_count; i++)
        if (assembly->layer[section->slab[i].layer].evidence ==
            BW_EVIDENCE_ASSUMED)
            return true;
    return false;
}

/* The period balance is for dwellings and the like, neither humidified nor
 * cooled [S]. NULL, or why it is outside that. */
static const char *period_outside(const bw_assembly *assembly,
                                  const bw_section_assessment *part)
{
    static const double HUMIDIFIED = 0.60; /* RH, margin not counted */
    static const double COOLED = 2.0;      /* K below the outdoor mean */
    const bw_indoors *in = &assembly->indoors;
    if (assembly->beyond.kind != NULL)
        return part->period.reason;
    if ((in->kind == BW_INDOOR_CLASS && in->humidity_class >= 4) ||
        (in->kind == BW_INDOOR_RH && in->relative_humidity > HUMIDIFIED))
        return "the period balance is for dwellings: this room is more humid";
    for (int m = 0; m < BW_MONTHS; m++)
        if (part->boundary[m].theta_e - part->boundary[m].theta_i > COOLED)
            return "the period balance is for rooms that are not cooled";
    return NULL;
}

static void judge_period(bw_rows *rows, const bw_assembly *assembly,
                         const bw_section_assessment *part)
{
    const char *outside = period_outside(assembly, part);
    if (outside == NULL) {
        bw_judge_period(rows, assembly, part->section, &part->period);
        return;
    }
    bw_rows_none(rows, BW_C_PERIOD_BALANCE, outside)->informative = true;
}

/* Of the bound runs the row that is furthest from what the design says. */
static void take_further(bw_rows *kept, const bw_rows *design,
                         const bw_rows *made)
{
    for (size_t i = 0; i < made->count; i++) {
        const bw_row *row = &made->row[i];
        const bw_row *drawn = bw_rows_find(design, row->row.section, row->id);
        bw_row *now = bw_rows_find(kept, row->row.section, row->id);
        if (drawn == NULL || now == NULL || !row->row.has_value)
            continue;
        bool better = row->row.margin > now->row.margin;
        if (!now->row.has_value || better == (drawn->row.outcome == BW_FAILS))
            *now = *row;
    }
}

static void judge_bound(bw_rows *rows, const bw_assembly *assembly,
                        const bw_section_assessment *part)
{
    const bw_rows none = {.arena = rows->arena,
                          .profile = rows->profile,
                          .section = rows->section};
    bw_rows bound = none;
    bw_judge_design(&bound, assembly, part->section,
                    &part->run[BW_RUN_BOUND].result);
    for (size_t i = 0; i < part->other_bound_count; i++) {
        bw_rows other = none;
        bw_judge_design(&other, assembly, part->section, &part->other_bound[i]);
        take_further(&bound, rows, &other);
    }
    bw_verdict_bound(rows, &bound);
}

static void judge_monthly(bw_rows *rows, const bw_assembly *assembly,
                          const bw_section_assessment *part)
{
    const bw_monthly_run *design = &part->run[BW_RUN_DESIGN];
    if (!design->ran) {
        bw_rows_none(rows, BW_C_ANNUAL_BALANCE, design->reason);
        return;
    }
    bw_judge_design(rows, assembly, part->section, &design->result);
    if (part->run[BW_RUN_BOUND].ran)
        judge_bound(rows, assembly, part);
    bw_judge_leakage(rows, part->section, &part->run[BW_RUN_LEAKAGE]);
    bw_judge_inward(rows, assembly, part);
    bw_judge_drying(rows, part);
}

static bw_rows judge_section(bw_core *core, size_t index, bool simulate)
{
    const bw_assessment *a = &core->assessment;
    const bw_section_assessment *part = &core->part[index];
    bw_rows rows = {.arena = &core->arena,
                    .profile = core->rows.profile,
                    .section = part->section->name,
                    .assumed = has_assumed(a->assembly, part->section)};
    if (a->room_reason != NULL) {
        bw_rows_none(&rows, BW_C_INDOOR_AIR, a->room_reason);
        bw_verdict_settle(&rows);
        return rows;
    }
    judge_monthly(&rows, a->assembly, part);
    bw_judge_surfaces(&rows, part);
    judge_period(&rows, a->assembly, part);
    bw_judge_profile(&rows, a->assembly, part);
    bw_judge_below(&rows, a->assembly);
    bw_judge_outdoor_air(&rows, a->assembly, part);
    bw_judge_humid_room(&rows, a->assembly, part);
    if (!simulate && a->scope_count == 0)
        bw_judge_alone(&rows, a->assembly, part);
    if (simulate)
        bw_judge_transient(&rows, a->assembly, part);
    bw_verdict_screen(&rows, a->scope_count > 0, part->has_transient);
    bw_verdict_settle(&rows);
    bw_verdict_sort(&rows);
    return rows;
}

bw_status bw_core_judge(bw_core *core, bool simulate, bw_error *err)
{
    bw_rows *all = &core->rows;
    bw_rows part[BW_MOST_SECTIONS] = {0};
    size_t count = 0;
    for (size_t i = 0; i < core->assessment.section_count; i++) {
        part[i] = judge_section(core, i, simulate);
        count += part[i].count;
    }
    all->row = BW_NEW(&core->arena, bw_row, count);
    BW_TRY_MEMORY(!core->arena.failed, err);
    all->room = count;
    for (size_t i = 0; i < core->assessment.section_count; i++) {
        for (size_t k = 0; k < part[i].count; k++)
            all->row[all->count + k] = part[i].row[k];
        all->count += part[i].count;
    }
    return BW_OK;
}

void bw_core_release(bw_core *core)
{
    for (size_t i = 0; core->part != NULL && i < core->assessment.section_count;
         i++)
        bw_run_free(&core->part[i]);
    for (size_t i = 0; i < core->assessment.junction_count; i++)
        bw_junction_assessment_free(
            (bw_junction_assessment *)core->assessment.junction[i]);
    bw_sections_free(core->assessment.sections);
    bw_sections_free(core->assessment.transient_sections);
    bw_arena_release(&core->arena);
}
