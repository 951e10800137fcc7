#ifndef BW_TESTS_FENCED_RESULTS_H
#define BW_TESTS_FENCED_RESULTS_H

/* Results whose every array ends at a fence (fence.h), and so what is printed
 * of them: bw_report, bw_report_table and bw_report_json of a suite that
 * includes this print a copy of that kind. */

#include "bothways/bothways.h"
#include "fence.h"
#include "suite.h"

/* ---- the wall ------------------------------------------------------------ */

static inline const bw_curve *fence_curve(const bw_curve *given)
{
    bw_curve *c = fenced(given, 1, sizeof *given);
    if (c == NULL)
        return NULL;
    FENCE(c->x, c->count);
    FENCE(c->y, c->count);
    return c;
}

static inline const bw_section *fence_section(const bw_section *given)
{
    bw_section *s = fenced(given, 1, sizeof *given);
    if (s == NULL)
        return NULL;
    bw_slab *slab = fenced(s->slab, s->slab_count, sizeof *slab);
    for (size_t i = 0; i < s->slab_count; i++) {
        slab[i].sd_curve = fence_curve(slab[i].sd_curve);
        slab[i].mu_curve = fence_curve(slab[i].mu_curve);
    }
    s->slab = slab;
    return s;
}

static inline void fence_closing(bw_closing_up *up)
{
    FENCE(up->air_test, up->air_test_count);
    FENCE(up->limit, up->limit_count);
    FENCE(up->reading, up->reading_count);
    FENCE(up->evidence, up->evidence_count);
    FENCE(up->wet_spell, up->wet_spell_count);
}

static inline const bw_assembly *fence_assembly(const bw_assembly *given)
{
    bw_assembly *a = fenced(given, 1, sizeof *given);
    if (a == NULL)
        return NULL;
    bw_layer *layer = fenced(a->layer, a->layer_count, sizeof *layer);
    for (size_t i = 0; i < a->layer_count; i++) {
        FENCE(layer[i].sold, layer[i].sold_count);
        FENCE(layer[i].uncertain, layer[i].uncertain_count);
        FENCE(layer[i].alternative, layer[i].alternative_count);
    }
    a->layer = layer;
    fence_closing(&a->closing_up);
    FENCE(a->junction, a->junction_count);
    FENCE(a->note, a->note_count);
    FENCE(a->choices.choice, a->choices.choice_count);
    return a;
}

/* ---- an assessment ------------------------------------------------------- */

static inline void fence_monthly(bw_monthly_result *r)
{
    FENCE(r->plane, r->plane_count);
    FENCE(r->layer_sd, r->slab_count);
    FENCE(r->used_wet, r->slab_count);
}

static inline void fence_transient(bw_transient_result *t)
{
    FENCE(t->monitor, t->monitor_count);
    FENCE(t->slab, t->slab_count);
    for (size_t i = 0; t->slab != NULL && i < t->slab_count; i++) {
        FENCE(t->slab[i].first_days, BW_TRANSIENT_DAYS);
        FENCE(t->slab[i].last_days, BW_TRANSIENT_DAYS);
    }
    FENCE(t->last_hours, BW_TRANSIENT_HOURS * t->monitor_count);
    FENCE(t->cell, t->cells);
    FENCE(t->mould_course, (size_t)t->years * BW_SPANS * t->monitor_count);
    FENCE(t->hour, t->hour_count * t->monitor_count);
    FENCE(t->hour_total_water, t->hour_count);
}

/* Of arrays within a struct what lies behind their last is no memory to be kept
 * from: it is made such that reading it shows, as a place far away or as the
 * words and numbers that has_no_slips (flat_text.h) looks for. */
static const size_t nowhere = (size_t)1 << 40;
static const char *const no_words = "beyond the last";

static inline void spoil_behind(bw_section_assessment *s)
{
    for (size_t i = s->frost.count; i < BW_DEPTHS_MOST; i++)
        s->frost.at[i] = (bw_frost_at){.slab = nowhere,
                                       .as_built = {.crossings_0 = (size_t)-1}};
    for (size_t i = s->period.plane_count; i < COUNT(s->period.plane); i++)
        s->period.plane[i] = (bw_period_plane){.at = {.slab = nowhere}};
    for (size_t i = s->surface_count; i < COUNT(s->surface); i++) {
        strcpy(s->surface[i].where, no_words);
        s->surface[i].rsi_source = no_words;
    }
    for (size_t i = s->transient.note_count; i < COUNT(s->transient.note); i++)
        strcpy(s->transient.note[i], no_words);
}

static inline void fence_part(bw_section_assessment *s)
{
    spoil_behind(s);
    const bool same = s->section == s->transient_section;
    s->section = fence_section(s->section);
    s->transient_section = same ? s->section
                                : fence_section(s->transient_section);
    for (int k = 0; k < BW_RUN_COUNT; k++)
        fence_monthly(&s->run[k].result);
    fence_transient(&s->transient);
    FENCE(s->mould, s->transient.monitor_count);
    FENCE(s->wood, s->transient.slab_count);
    FENCE(s->wetting_test.both.excess, s->wetting_test.both.day_count);
    FENCE(s->wetting_test.outwards.excess, s->wetting_test.outwards.day_count);
    FENCE(s->wetting_test.inwards.excess, s->wetting_test.inwards.day_count);
}

static inline const bw_junction_assessment *
fence_junction(const bw_junction_assessment *given);

static inline const bw_assessment *fence_assessment(const bw_assessment *given)
{
    bw_assessment *a = fenced(given, 1, sizeof *given);
    if (a == NULL)
        return NULL;
    const bw_criterion *rows = a->criterion;
    a->assembly = fence_assembly(a->assembly);
    FENCE(a->section, a->section_count);
    for (size_t i = 0; i < a->section_count; i++)
        fence_part(&a->section[i]);
    FENCE(a->scope, a->scope_count);
    FENCE(a->criterion, a->criterion_count);
    if (a->deciding != NULL && a->deciding >= rows &&
        a->deciding < rows + a->criterion_count)
        a->deciding = a->criterion + (a->deciding - rows);
    FENCE(a->advice, a->advice_count);
    const bw_junction_assessment **met = fenced(a->junction, a->junction_count,
                                                sizeof *met);
    for (size_t i = 0; i < a->junction_count; i++)
        met[i] = fence_junction(met[i]);
    a->junction = met;
    return a;
}

/* ---- a junction ---------------------------------------------------------- */

static inline const bw_junction *fence_drawn(const bw_junction *given)
{
    bw_junction *j = fenced(given, 1, sizeof *given);
    FENCE(j->environment, j->environment_count);
    FENCE(j->material, j->material_count);
    FENCE(j->film, j->film_count);
    FENCE(j->filling, j->filling_count);
    FENCE(j->space, j->space_count);
    FENCE(j->film_line, j->film_line_count);
    FENCE(j->leak, j->leak_count);
    FENCE(j->air, j->air_count);
    FENCE(j->wall, j->wall_count);
    FENCE(j->note, j->note_count);
    return j;
}

static inline const bw_junction_heat *fence_heat(const bw_junction_heat *given,
                                                 const bw_junction *drawn)
{
    bw_junction_heat *h = fenced(given, 1, sizeof *given);
    if (h == NULL)
        return NULL;
    bw_raster *g = &h->raster;
    const size_t e = h->environment_count;
    h->junction = g->junction = drawn;
    FENCE(g->x, g->nx + 1);
    FENCE(g->y, g->ny + 1);
    FENCE(g->material, g->nx * g->ny);
    FENCE(g->face, g->face_count);
    double **weight = fenced(h->weight, e, sizeof *weight);
    for (size_t i = 0; weight != NULL && i < e; i++)
        FENCE(weight[i], g->nx * g->ny);
    h->weight = weight;
    FENCE(h->coupling, e * e);
    FENCE(h->coldest, h->coldest_count * BW_SURFACES_FLOW);
    return h;
}

static inline const bw_junction_assessment *
fence_junction(const bw_junction_assessment *given)
{
    bw_junction_assessment *a = fenced(given, 1, sizeof *given);
    if (a == NULL)
        return NULL;
    a->junction = fence_drawn(a->junction);
    a->heat = (bw_junction_heat *)fence_heat(a->heat, a->junction);
    FENCE(a->theta, a->junction->environment_count * BW_MONTHS);
    FENCE(a->p, a->junction->environment_count * BW_MONTHS);
    FENCE(a->room, a->room_count);
    FENCE(a->water.place, a->water.place_count);
    FENCE(a->water_bound.place, a->water_bound.place_count);
    FENCE(a->hours.place, a->hours.place_count);
    FENCE(a->hours.wood, a->hours.wood_count);
    FENCE(a->hours.spot, a->hours.spot_count);
    FENCE(a->hours.unseen, a->hours.unseen_count);
    FENCE(a->spot, a->spot_count);
    FENCE(a->criterion, a->criterion_count);
    return a;
}

/* ---- studies ------------------------------------------------------------- */

static inline const bw_margin *fence_margin(const bw_margin *given,
                                            const bw_assessment *was,
                                            const bw_assessment *is)
{
    bw_margin *m = fenced(given, 1, sizeof *given);
    if (m == NULL)
        return NULL;
    bw_unknown *u = fenced(m->unknown, m->unknown_count, sizeof *u);
    for (size_t i = 0; i < m->unknown_count; i++) {
        FENCE(u[i].flip, u[i].flip_count);
        FENCE(u[i].sample, u[i].sample_count);
        FENCE(u[i].sample_verdict, u[i].sample_count);
        FENCE(u[i].sample_margin, u[i].sample_count);
    }
    m->unknown = u;
    m->assessment = m->assessment == was ? is : fence_assessment(m->assessment);
    FENCE(m->simulated, m->simulated_count);
    FENCE(m->inner_sd, m->inner_count);
    FENCE(m->outer_sd, m->outer_count);
    FENCE(m->map, m->inner_count * m->outer_count);
    return m;
}

static inline const bw_comparison *fence_comparison(const bw_comparison *given)
{
    bw_comparison *c = fenced(given, 1, sizeof *given);
    if (c == NULL)
        return NULL;
    const bw_compare_row *rows = c->row;
    const bw_stress *stresses = c->stress;
    bw_compared *wall = fenced(c->wall, c->wall_count, sizeof *wall);
    bw_compare_row *row = fenced(c->row, c->row_count, sizeof *row);
    bw_stress *stress = fenced(c->stress, c->stress_count, sizeof *stress);
    bw_trait *trait = fenced(c->trait, c->trait_count, sizeof *trait);
    for (size_t i = 0; i < c->wall_count; i++)
        wall[i].assessment = fence_assessment(wall[i].assessment);
    for (size_t k = 0; k < c->row_count; k++) {
        FENCE(row[k].has_value, c->wall_count);
        FENCE(row[k].value, c->wall_count);
        FENCE(row[k].verdict, c->wall_count);
        FENCE(row[k].section, c->wall_count);
        FENCE(row[k].criterion, c->wall_count);
        FENCE(row[k].instead, c->wall_count);
    }
    for (size_t k = 0; k < c->stress_count; k++)
        FENCE(stress[k].wall, c->wall_count);
    for (size_t k = 0; k < c->trait_count; k++) {
        bw_trait *t = &trait[k];
        if (t->row >= rows && t->row < rows + c->row_count)
            t->row = row + (t->row - rows);
        if (t->stress >= stresses && t->stress < stresses + c->stress_count)
            t->stress = stress + (t->stress - stresses);
    }
    c->wall = wall;
    c->row = row;
    c->stress = stress;
    c->trait = trait;
    FENCE(c->order, c->wall_count);
    FENCE(c->difference, c->difference_count);
    FENCE(c->sentence, c->sentence_count);
    return c;
}

static inline const bw_chosen *fence_chosen(const bw_chosen *given)
{
    bw_chosen *c = fenced(given, 1, sizeof *given);
    if (c == NULL)
        return NULL;
    bw_choices *choices = fenced(c->choices, 1, sizeof *choices);
    bw_choice *choice = fenced(choices->choice, choices->choice_count,
                               sizeof *choice);
    for (size_t i = 0; i < choices->choice_count; i++)
        FENCE(choice[i].option, choice[i].option_count);
    choices->choice = choice;
    c->choices = choices;
    bw_design *design = fenced(c->design, c->design_count, sizeof *design);
    for (size_t i = 0; i < c->design_count; i++) {
        FENCE(design[i].option, choices->choice_count);
        FENCE(design[i].found, c->finding_count);
    }
    c->design = design;
    for (size_t i = c->round_count; i < BW_ROUNDS_MOST; i++)
        c->round[i] = (bw_round){.cases = (size_t)-1,
                                 .designs_before = (size_t)-1,
                                 .designs_after = (size_t)-1};
    FENCE(c->front, c->front_count);
    FENCE(c->finding, c->finding_count);
    FENCE(c->fixed, c->fixed_count);
    return c;
}

static inline const bw_replay *fence_replay(const bw_replay *given)
{
    bw_replay *r = fenced(given, 1, sizeof *given);
    if (r == NULL)
        return NULL;
    bw_replay_place *place = fenced(r->place, r->place_count, sizeof *place);
    for (size_t i = 0; i < r->place_count; i++) {
        FENCE(place[i].hour, r->hour_count);
        FENCE(place[i].month, place[i].month_count);
    }
    r->place = place;
    FENCE(r->boundary, r->hour_count);
    FENCE(r->trial, r->trial_count);
    FENCE(r->doubt, r->doubt_count);
    FENCE(r->note, r->note_count);
    return r;
}

/* ---- an audit ------------------------------------------------------------ */

static inline const bw_audit *fence_audit(const bw_audit *given,
                                          const bw_assessment *was,
                                          const bw_assessment *is,
                                          const bw_margin *margin)
{
    bw_audit *a = fenced(given, 1, sizeof *given);
    if (a == NULL)
        return NULL;
    a->assessment = a->assessment == was ? is : fence_assessment(a->assessment);
    a->margin = a->margin != NULL ? margin : NULL;
    const bw_closing_up *up = &given->assessment->assembly->closing_up;
    if (a->air_test != NULL && up->air_test_count > 0 &&
        a->air_test >= up->air_test &&
        a->air_test < up->air_test + up->air_test_count)
        a->air_test = a->assessment->assembly->closing_up.air_test +
                      (a->air_test - up->air_test);
    FENCE(a->file, a->file_count);
    FENCE(a->member, a->member_count);
    FENCE(a->reading, a->reading_count);
    FENCE(a->unknown, a->unknown_count);
    FENCE(a->as_built.change, a->as_built.change_count);
    FENCE(a->as_built.row, a->as_built.row_count);
    FENCE(a->forecast, a->forecast_count);
    FENCE(a->need, a->need_count);
    FENCE(a->open, a->open_count);
    return a;
}

static inline const bw_house *fence_house(const bw_house *given)
{
    bw_house *h = fenced(given, 1, sizeof *given);
    if (h == NULL)
        return NULL;
    bw_house_wall *wall = fenced(h->wall, h->wall_count, sizeof *wall);
    for (size_t i = 0; i < h->wall_count; i++) {
        FENCE(wall[i].open, wall[i].open_count);
        FENCE(wall[i].file, wall[i].file_count);
    }
    h->wall = wall;
    FENCE(h->file, h->file_count);
    return h;
}

/* ---- all ----------------------------------------------------------------- */

static inline bw_results fence_results(const bw_results *given)
{
    bw_results of = *given;
    fence_open();
    const bw_assessment **wall = fenced(of.wall, of.wall_count, sizeof *wall);
    for (size_t i = 0; i < of.wall_count; i++)
        wall[i] = fence_assessment(wall[i]);
    of.wall = wall;
    const bw_assessment *was = given->wall_count > 0 ? given->wall[0] : NULL;
    const bw_assessment *is = given->wall_count > 0 ? wall[0] : NULL;
    of.margin = fence_margin(of.margin, was, is);
    of.comparison = fence_comparison(of.comparison);
    of.chosen = fence_chosen(of.chosen);
    of.audit = fence_audit(of.audit, was, is, of.margin);
    of.house = fence_house(of.house);
    FENCE(of.material, of.material_count);
    of.junction = fence_junction(of.junction);
    of.replay = fence_replay(of.replay);
    return of;
}

static inline bw_status fenced_report(const bw_results *given,
                                      bw_document document, bw_form form,
                                      const bw_report_options *options,
                                      bw_sink *sink, void *to, bw_error *err)
{
    const bw_results of = fence_results(given);
    bw_report_options own = {0};
    if (options != NULL) {
        own = *options;
        FENCE(own.note, own.note_count);
        FENCE(own.digest, own.digest_count);
    }
    const bw_status status = bw_report(
        &of, document, form, options != NULL ? &own : NULL, sink, to, err);
    fence_close();
    return status;
}

static inline bw_status fenced_table(const bw_results *given, bw_table table,
                                     bw_sink *sink, void *to, bw_error *err)
{
    const bw_results of = fence_results(given);
    const bw_status status = bw_report_table(&of, table, sink, to, err);
    fence_close();
    return status;
}

static inline bw_status fenced_json(const bw_results *given, bw_sink *sink,
                                    void *to, bw_error *err)
{
    const bw_results of = fence_results(given);
    const bw_status status = bw_report_json(&of, sink, to, err);
    fence_close();
    return status;
}

/* A suite that prints a thousand times and more asks for it to be left out. */
#ifndef BW_NO_FENCE
#define bw_report fenced_report
#define bw_report_table fenced_table
#define bw_report_json fenced_json
#endif

#endif
