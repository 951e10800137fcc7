#include <math.h>
#include <string.h>

#include "beyond.h"
#include "bothways/profile.h"
#include "judge.h"
#include "vapour.h"

/* The rules of a national profile. They ask whether a rule is met, not what
 * the wall does: the limits of the monthly method do not apply to them, and no
 * simulation overrules them.
 *
 * sd is the dry-cup value (of a variable layer: at 25 % RH), as the rules
 * mean. In the steady check, which is to be cautious, layers up to and with
 * the insulation on the room side take the lower, those outside it the higher
 * of the dry-cup and wet-cup values. */

/* Where a rule names no outdoor humidity: as in BS 5250's steady check
 * [M-med]. */
static const double STEADY_PHI_E = 0.95;

typedef struct profile_job {
    bw_rows *rows;
    const bw_assembly *assembly;
    const bw_section_assessment *part;
    size_t insulation; /* slab */
} profile_job;

typedef bw_row *judge_rule(profile_job *job, const bw_profile_rule *rule);

/* ---- the steady check -------------------------------------------------- */

static double cautious_sd(const profile_job *job, size_t slab)
{
    const bw_slab *s = &job->part->section->slab[slab];
    return slab < job->insulation ? fmax(s->sd_dry, s->sd_wet)
                                  : fmin(s->sd_dry, s->sd_wet);
}

typedef struct steady_place {
    double rh; /* % */
    bw_plane_at at;
} steady_place;

/* The dampest plane between the surfaces, layers cut into strips. */
static steady_place dampest(const profile_job *job, const bw_profile_steady *at)
{
    const bw_section *section = job->part->section;
    double r_total = section->outer_resistance + section->inner_resistance;
    double sd_total = 0.0;
    for (size_t i = 0; i < section->slab_count; i++) {
        r_total += section->slab[i].resistance;
        sd_total += cautious_sd(job, i);
    }
    double p_e = bw_vapour_pressure(
        at->theta_e, at->phi_e > 0.0 ? at->phi_e : STEADY_PHI_E, BW_OVER_ICE);
    double p_i = bw_vapour_pressure(at->theta_i, at->phi_i, BW_OVER_ICE);
    double r = section->outer_resistance, sd = 0.0;
    steady_place found = {-(double)INFINITY, {0, 0.0, true}};
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        size_t strips = bw_slab_strips(slab);
        bool last = i + 1 == section->slab_count;
        for (size_t k = 1; k <= strips - (last ? 1 : 0); k++) {
            double part = (double)k / (double)strips;
            double theta = at->theta_e + (at->theta_i - at->theta_e) *
                                             (r + part * slab->resistance) /
                                             r_total;
            double p = p_e + (p_i - p_e) * (sd + part * cautious_sd(job, i)) /
                                 sd_total;
            double rh = 100.0 * bw_relative_humidity(theta, p);
            if (rh > found.rh)
                found = (steady_place){
                    rh, {i, part * slab->thickness, k == strips}};
        }
        r += slab->resistance;
        sd += cautious_sd(job, i);
    }
    return found;
}

static bw_row *judge_steady(profile_job *job, const bw_profile_rule *rule)
{
    const bw_profile_steady *at = &rule->steady;
    steady_place found = dampest(job, at);
    if (!isfinite(found.rh))
        return bw_rows_none(job->rows, BW_C_STEADY_CHECK,
                            "there is no plane between the surfaces");
    const char *taken = at->phi_e > 0.0
                            ? ""
                            : bw_say(job->rows,
                                     "; outdoor humidity taken as %.0f %%, the "
                                     "rule names none",
                                     100.0 * STEADY_PHI_E);
    return bw_rows_against(
        job->rows, BW_C_STEADY_CHECK, found.rh, rule->limit,
        bw_say(job->rows, "%.0f %% %s%s", found.rh,
               bw_say_plane(job->rows, job->part->section, found.at), taken));
}

/* ---- rules on sd ------------------------------------------------------- */

static bw_row *judge_inner(profile_job *job, const bw_profile_rule *rule)
{
    const bw_section *section = job->part->section;
    size_t found = bw_tightest_slab(section, job->insulation + 1,
                                    section->slab_count, false);
    if (found == section->slab_count)
        return bw_rows_against(job->rows, BW_C_INNER_SD, 0.0, rule->limit,
                               "no layer lies inside the insulation");
    const bw_slab *tightest = &section->slab[found];
    return bw_rows_against(
        job->rows, BW_C_INNER_SD, tightest->sd_dry, rule->limit,
        bw_say(job->rows, "%s, by its dry-cup value", tightest->label));
}

static bw_row *judge_ratio(profile_job *job, const bw_profile_rule *rule)
{
    const bw_section *section = job->part->section;
    double inner = 0.0, outer = 0.0;
    for (size_t i = 0; i < section->slab_count; i++) {
        if (i < job->insulation)
            outer += section->slab[i].sd_dry;
        if (i > job->insulation)
            inner += section->slab[i].sd_dry;
    }
    if (!(outer > 0.0)) {
        bw_row *row = bw_rows_none(job->rows, BW_C_SD_RATIO,
                                   "no layer lies outside the insulation: "
                                   "there is no ratio");
        row->informative = true;
        return row;
    }
    return bw_rows_against(
        job->rows, BW_C_SD_RATIO, inner / outer, rule->limit,
        bw_say(job->rows, "sd %.2f m inside the insulation, %.2f m outside it",
               inner, outer));
}

static bw_row *judge_breather(profile_job *job, const bw_profile_rule *rule)
{
    const bw_section *section = job->part->section;
    size_t found = bw_tightest_slab(section, 0, job->insulation, true);
    if (found == job->insulation)
        return bw_rows_none(job->rows, BW_C_BREATHER_SD,
                            "no membrane lies outside the insulation");
    const bw_slab *worst = &section->slab[found];
    return bw_rows_against(
        job->rows, BW_C_BREATHER_SD, worst->sd_dry, rule->limit,
        bw_say(job->rows, "%s, by its dry-cup value", worst->label));
}

/* ---- other rules ------------------------------------------------------- */

static bw_row *judge_cavity(profile_job *job, const bw_profile_rule *rule)
{
    const bw_assembly *assembly = job->assembly;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        if (layer->kind == BW_LAYER_CAVITY &&
            layer->ventilation != BW_VENT_NONE)
            return bw_rows_against(
                job->rows, BW_C_CAVITY_WIDTH, 1e3 * layer->thickness,
                rule->limit,
                bw_say(job->rows, "%s, %s ventilated", layer->name,
                       bw_ventilation_text(layer->ventilation)));
    }
    return bw_rows_against(job->rows, BW_C_CAVITY_WIDTH, 0.0, rule->limit,
                           "no cavity is ventilated");
}

static bw_row *judge_frsi(profile_job *job, const bw_profile_rule *rule)
{
    return bw_rows_against(job->rows, BW_C_FRSI_LEAST, job->part->frsi,
                           rule->limit, "the open wall; corners are colder");
}

static const struct kind {
    bw_criterion_id id;
    judge_rule *judge;
    bool timber, beyond; /* of timber construction; not of outdoor air alone */
} kinds[] = {
    {BW_C_STEADY_CHECK, judge_steady, false, false},
    {BW_C_INNER_SD, judge_inner, true, false},
    {BW_C_SD_RATIO, judge_ratio, true, false},
    {BW_C_BREATHER_SD, judge_breather, true, false},
    {BW_C_CAVITY_WIDTH, judge_cavity, false, false},
    {BW_C_FRSI_LEAST, judge_frsi, false, true},
};

static const struct kind *kind_of(const bw_profile_rule *rule)
{
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(rule->criterion, bw_criterion_facts_of(kinds[i].id)->name) ==
            0)
            return &kinds[i];
    return NULL; /* listed only, or for moisture readings */
}

/* Is a rule for this wall? -1: it cannot be said. */
static int applies(const bw_profile_rule *rule, const bw_assembly *assembly)
{
    const bw_indoors *in = &assembly->indoors;
    bool masonry = assembly->layer_count > 0 &&
                   strcmp(assembly->layer[0].material->group, "masonry") == 0;
    bool humid = in->humidity_class >= 4;
    switch (rule->applies) {
    case BW_FOR_ALL:
        break;
    case BW_FOR_CLASS_1_TO_3:
        return in->kind == BW_INDOOR_CLASS ? !humid : -1;
    case BW_FOR_CLASS_4_TO_5:
        return in->kind == BW_INDOOR_CLASS ? humid : -1;
    case BW_FOR_MASONRY_FACE:
        return assembly->element == BW_ELEMENT_WALL && masonry;
    case BW_FOR_OTHER_FACE:
        return assembly->element == BW_ELEMENT_WALL && !masonry;
    case BW_FOR_WALLS:
        return assembly->element == BW_ELEMENT_WALL;
    case BW_FOR_ROOFS:
        return assembly->element == BW_ELEMENT_ROOF;
    }
    return 1;
}

static const char no_timber[] =
    "a rule of timber construction; no timber stands in this element";

/* Why a rule that is of this wall cannot be asked; NULL: it can. */
static const char *out_of_place(const profile_job *job, const struct kind *kind,
                                int applying)
{
    if (applying < 0)
        return "the rule goes by indoor humidity class, and the file gives "
               "none";
    if (job->assembly->beyond.kind != NULL && !kind->beyond)
        return bw_say(job->rows,
                      "the rule is for faces in outdoor air; this one lies "
                      "against %s",
                      bw_beyond_against(job->assembly));
    return kind->timber && !bw_assembly_has_wood(job->assembly, BW_SOLID_WOOD)
               ? no_timber
               : NULL;
}

static void judge_one(profile_job *job, const bw_profile_rule *rule)
{
    const struct kind *kind = kind_of(rule);
    int applying = applies(rule, job->assembly);
    if (kind == NULL || applying == 0)
        return;
    if (applying < 0 &&
        bw_rows_find(job->rows, job->rows->section, kind->id) != NULL)
        return; /* said once */
    const char *why = out_of_place(job, kind, applying);
    bw_row *row = why == NULL ? kind->judge(job, rule)
                              : bw_rows_none(job->rows, kind->id, why);
    row->row.rule = bw_say(job->rows, "%s: %s %s", rule->source, rule->text,
                           rule->mark);
    row->informative = row->informative || !rule->decides || why == no_timber;
}

void bw_judge_profile(bw_rows *rows, const bw_assembly *assembly,
                      const bw_section_assessment *part)
{
    const bw_profile *profile = rows->profile;
    if (profile == NULL || part->section->slab_count == 0)
        return;
    bw_geography geography;
    bw_geography_find(&geography, assembly, part->section);
    profile_job job = {.rows = rows,
                       .assembly = assembly,
                       .part = part,
                       .insulation = geography.insulation};
    for (size_t i = 0; i < profile->rule_count; i++)
        judge_one(&job, &profile->rule[i]);
}
