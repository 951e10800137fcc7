#include "rows.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "text.h"

/* A judge finds the value, where and when; here the row of its criterion
 * decides whether it holds.
 *
 * Invariants: limit = the stricter of the default's and the rule's, so that no
 * profile, whatever it holds, loosens one; the verdicts are ordered, holds <
 * marginal < fails < not assessed. */

const char *bw_verdict_text(bw_verdict verdict)
{
    static const char *const words[] = {
        [BW_HOLDS] = "holds",
        [BW_MARGINAL] = "marginal",
        [BW_FAILS] = "fails",
        [BW_NOT_ASSESSED] = "not assessed",
    };
    return BW_WORD(words, verdict, "not assessed");
}

const char *bw_say_plane(bw_rows *rows, const bw_section *section,
                         bw_plane_at at)
{
    char label[256];
    assert(at.slab < section->slab_count);
    bw_plane_label(label, sizeof label, section, at);
    bool inside = strncmp(label, "between ", 8) == 0 ||
                  strncmp(label, "in ", 3) == 0;
    return bw_say(rows, "%s%s", inside ? "" : "at the ", label);
}

const char *bw_say_face(bw_rows *rows, const bw_section *section,
                        const bw_monitor *monitor)
{
    const double depth = section->slab[monitor->slab].thickness;
    return bw_say_plane(rows, section,
                        (bw_plane_at){monitor->slab, depth, true});
}

static bw_row *add(bw_rows *rows, bw_criterion_id id, const char *reason)
{
    bw_row *row = bw_arena_more(rows->arena, rows->row, rows->count,
                                &rows->room, sizeof *row);
    if (row == NULL)
        return &rows->nowhere;
    rows->row = row;
    const bw_criterion_facts *facts = bw_criterion_facts_of(id);
    row += rows->count++;
    *row = (bw_row){
        .id = id,
        .informative = facts->informative,
        .row = {.section = rows->section,
                .criterion = facts->name,
                .title = facts->title,
                .method = facts->method,
                .unit = facts->unit,
                .rule = facts->rule,
                .decides = !facts->informative,
                .outcome = BW_NOT_ASSESSED,
                .verdict = BW_NOT_ASSESSED,
                .reason = reason},
    };
    return row;
}

/* ---- the limit ----------------------------------------------------------- */

static bool sets(const bw_profile_rule *rule, const bw_criterion_limit *limit)
{
    return limit->set_by[0] != '\0' &&
           strcmp(rule->criterion, limit->set_by) == 0;
}

double bw_limit_under(const bw_profile *profile, bw_criterion_id id, size_t k)
{
    const bw_criterion_facts *facts = bw_criterion_facts_of(id);
    assert(k < facts->limit_count);
    double limit = facts->limit[k].value;
    for (size_t i = 0; profile != NULL && i < profile->rule_count; i++)
        if (sets(&profile->rule[i], &facts->limit[k]))
            limit = bw_bound_least(facts->bound)
                        ? fmax(limit, profile->rule[i].limit)
                        : fmin(limit, profile->rule[i].limit);
    return limit;
}

bool bw_demanded(const bw_profile *profile, bw_profile_demand demand)
{
    for (size_t i = 0; profile != NULL && i < profile->rule_count; i++)
        if (profile->rule[i].demands == demand)
            return true;
    return false;
}

/* Names the rule of the profile whose limit it is. A roof's reserve may be
 * asked for by the default more than by the rule. */
static void cite(bw_rows *rows, bw_row *row, const bw_criterion_facts *facts)
{
    const bw_profile *profile = rows->profile;
    for (size_t i = 0; profile != NULL && i < profile->rule_count; i++) {
        const bw_profile_rule *rule = &profile->rule[i];
        bool its = false;
        for (size_t k = 0; k < facts->limit_count; k++)
            its = its || sets(rule, &facts->limit[k]);
        if (its && !(row->row.limit < rule->limit) &&
            !(row->row.limit > rule->limit))
            row->row.rule = bw_say(
                rows, "%s: %s %s, in place of the default: %s", rule->source,
                rule->text, rule->mark, row->row.rule);
    }
}

/* ---- holds, marginal, fails ---------------------------------------------- */

/* How much is asked for beyond the limit before it plainly holds. */
static double needed_margin(const bw_rows *rows,
                            const bw_criterion_facts *facts, double limit)
{
    if (facts->marginal == BW_MARGINAL_BY_SHARE)
        return fabs(limit) *
               (rows->assumed ? BW_MARGINAL_SHARE_ASSUMED : BW_MARGINAL_SHARE);
    return facts->marginal_by;
}

static const char *say_marginal(bw_rows *rows, const bw_criterion_facts *facts,
                                double needed, const char *reason)
{
    const bool bare = strcmp(facts->unit, "-") == 0;
    const bool assumed = rows->assumed &&
                         facts->marginal == BW_MARGINAL_BY_SHARE;
    return bw_say(rows, "holds by less than %.3f%s%s%s; %s", needed,
                  bare ? "" : " ", bare ? "" : facts->unit,
                  assumed ? " (a layer is only assumed)" : "", reason);
}

static void set(bw_row *row, bw_verdict verdict)
{
    row->row.outcome = row->row.verdict = verdict;
}

bw_row *bw_rows_against(bw_rows *rows, bw_criterion_id id, double value,
                        double limit, const char *reason)
{
    const bw_criterion_facts *facts = bw_criterion_facts_of(id);
    bw_row *row = add(rows, id, reason);
    if (!isfinite(value) || !isfinite(limit)) {
        row->row.reason = bw_say(rows, "no number came of it: %s", reason);
        return row;
    }
    const double margin = bw_bound_least(facts->bound) ? value - limit
                                                       : limit - value;
    const double needed = needed_margin(rows, facts, limit);
    row->row.has_value = row->row.has_limit = true;
    row->row.value = value;
    row->row.limit = limit;
    row->row.margin = margin;
    cite(rows, row, facts);
    const bool beyond = bw_bound_strict(facts->bound) ? margin <= 0.0
                                                      : margin < 0.0;
    if (beyond && facts->marginal == BW_MARGINAL_BEYOND) {
        set(row, BW_MARGINAL);
        row->row.reason = bw_say(rows, "exceeds, inspect: %s", reason);
    } else if (beyond) {
        set(row, BW_FAILS);
    } else if (margin < needed) {
        set(row, BW_MARGINAL);
        row->row.reason = say_marginal(rows, facts, needed, reason);
    } else {
        set(row, BW_HOLDS);
    }
    return row;
}

bw_row *bw_rows_judge(bw_rows *rows, bw_criterion_id id, double value,
                      const char *reason)
{
    return bw_rows_against(rows, id, value,
                           bw_limit_under(rows->profile, id, 0), reason);
}

void bw_row_at_best(bw_row *row, bw_verdict verdict)
{
    if (row->row.outcome < verdict)
        set(row, verdict);
}

void bw_row_at_worst(bw_row *row, bw_verdict verdict)
{
    if (row->row.outcome > verdict && row->row.outcome != BW_NOT_ASSESSED)
        set(row, verdict);
}

bw_row *bw_rows_value(bw_rows *rows, bw_criterion_id id, double value,
                      const char *reason)
{
    bw_row *row = add(rows, id, reason);
    row->row.has_value = isfinite(value);
    row->row.value = row->row.has_value ? value : 0.0;
    return row;
}

bw_row *bw_rows_none(bw_rows *rows, bw_criterion_id id, const char *reason)
{
    return add(rows, id, reason);
}

bw_row *bw_rows_find(const bw_rows *rows, const char *section,
                     bw_criterion_id id)
{
    for (size_t i = 0; i < rows->count; i++)
        if (rows->row[i].id == id &&
            strcmp(rows->row[i].row.section, section) == 0)
            return &rows->row[i];
    return NULL;
}

double bw_row_relative_margin(const bw_row *row)
{
    double limit = fabs(row->row.limit);
    return row->row.margin / (limit > 0.0 ? limit : 0.1);
}
