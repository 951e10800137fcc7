/* What a reader must know of a wall first and last: the verdict, the figure it
 * rests on, what else is beyond its limit.
 *
 * Invariant: the figure is a criterion's own, by bw_assessment.deciding. */

#include <string.h>

#include "names.h"
#include "part.h"

BW_PART(title, NULL)
{
    const bw_assembly *assembly = of->wall[0]->assembly;
    const char *rules = of->wall[0]->profile;
    const bool own = rules != NULL && strcmp(rules, "default") != 0;
    bw_lead(page, "%s", bw_wall_name(assembly));
    bw_plain(page, "%s; climate: %s%s%s", assembly->file,
             bw_climate_name(of->wall[0]->climate), own ? "; rule set: " : "",
             own ? rules : "");
}

/* ---- the figure that decides -------------------------------------------- */

static bool has_figure(const bw_criterion *c)
{
    return c != NULL && c->has_value && c->has_limit;
}

/* It is for another reason that a row fails within its limit. */
static bool is_within(const bw_criterion *c)
{
    return c->verdict == BW_FAILS && c->margin > 0.0;
}

/* "5.3, limit: at most 3" */
static const char *figure_and_limit(bw_page *page, const bw_criterion *c)
{
    const bool least = c->margin > 0.0 ? c->value > c->limit
                                       : c->value < c->limit;
    const char *never = bw_not_within(page, c);
    return bw_phrase(
        page, "%s, limit: at %s %s",
        never != NULL ? never : bw_with_unit(page, c->value, 3, c->unit),
        least ? "least" : "most", bw_with_unit(page, c->limit, 3, c->unit));
}

static void say_figure(bw_page *page, const bw_assessment *assessment,
                       const bw_criterion *c)
{
    const char *where = assessment->section_count > 1
                            ? bw_phrase(page, " (%s)",
                                        bw_plain_id(page, c->section))
                            : "";
    if (assessment->verdict == BW_HOLDS)
        bw_text(page, "Every criterion that decides holds. Closest to its "
                      "limit:");
    if (is_within(c))
        bw_strong(page, "%s%s", c->title, where);
    else
        bw_strong(page, "%s%s: %s", c->title, where, figure_and_limit(page, c));
    /* on a screen the first clauses: what, where, when */
    size_t length = strcspn(c->reason, ";");
    if (c->reason[length] == ';' && !bw_is_tight(page))
        length += 1 + strcspn(c->reason + length + 1, ";");
    if (page->options->extent == BW_EXTENT_FULL)
        length = strlen(c->reason);
    bw_under(page, "%s", bw_phrase(page, "%.*s", (int)length, c->reason));
}

/* Of rows with one verdict, the deciding one left out, the names: each once
 * with how often, since sections say much the same. */
typedef struct others {
    size_t count;
    const char *names;
} others;

/* By the sentences on what was not simulated. */
static bool is_said_otherwise(const bw_criterion *c)
{
    return c->screening || strcmp(c->criterion, "transient-simulation") == 0;
}

static bool counts(const bw_assessment *assessment, size_t i,
                   bw_verdict verdict)
{
    const bw_criterion *c = &assessment->criterion[i];
    return c != assessment->deciding && c->decides && c->verdict == verdict &&
           !(verdict == BW_NOT_ASSESSED && is_said_otherwise(c));
}

/* How often row i's criterion is among the first `end` rows that count. */
static size_t times(const bw_assessment *assessment, size_t end,
                    bw_verdict verdict, size_t i)
{
    const char *name = assessment->criterion[i].criterion;
    size_t found = 0;
    for (size_t k = 0; k < end; k++)
        found += counts(assessment, k, verdict) &&
                 strcmp(assessment->criterion[k].criterion, name) == 0;
    return found;
}

static others find_others(bw_page *page, const bw_assessment *assessment,
                          bw_verdict verdict)
{
    others found = {0, ""};
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const size_t before = times(assessment, i, verdict, i);
        const size_t all = times(assessment, assessment->criterion_count,
                                 verdict, i);
        if (!counts(assessment, i, verdict))
            continue;
        if (before == 0)
            found.names = bw_phrase(
                page, "%s%s%s%s", found.names, found.count > 0 ? ", " : "",
                bw_plain_id(page, assessment->criterion[i].criterion),
                all > 1 ? bw_phrase(page, " (%zu)", all) : "");
        found.count++;
    }
    return found;
}

static void say_others(bw_page *page, const bw_assessment *assessment,
                       bw_verdict verdict, const char *one, const char *many)
{
    const others more = find_others(page, assessment, verdict);
    if (more.count > 0)
        bw_text(page, "%zu %s%s: %s.", more.count,
                verdict == assessment->verdict ? "more " : "",
                more.count == 1 ? one : many, more.names);
}

/* ---- not simulated ------------------------------------------------------ */

static void say_reasons(bw_page *page, const bw_assessment *assessment,
                        bool some, const char *said)
{
    const char *last = "";
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        const char *reason = part->transient_reason;
        if (part->has_transient || reason == NULL || reason[0] == '\0' ||
            strcmp(reason, last) == 0 || strstr(said, reason) != NULL)
            continue; /* said already */
        last = reason;
        bw_text(page, "Not simulated%s: %s.",
                some ? bw_in_section(page, assessment, part) : "", reason);
    }
}

static void say_not_simulated(bw_page *page, const bw_assessment *assessment,
                              const char *said)
{
    const bool some = bw_is_simulated(assessment);
    if (assessment->room_reason != NULL || assessment->section_count == 0)
        return;
    say_reasons(page, assessment, some, said);
    if (!some)
        bw_text(page,
                "Without a simulation the monthly method decides alone. It "
                "knows no rain, no liquid water moving in the layers, no "
                "storage of vapour, no hours.");
}

BW_PART(verdict, NULL)
{
    const bw_assessment *assessment = of->wall[0];
    const char *said = "", *year = bw_year_caution(assessment);
    bw_lead(page, "Verdict: %s", bw_verdict_text(assessment->verdict));
    if (assessment->verdict != BW_NOT_ASSESSED &&
        has_figure(assessment->deciding))
        say_figure(page, assessment, assessment->deciding);
    else
        bw_text(page, "%s", said = assessment->verdict_reason);
    say_others(page, assessment, BW_FAILS, "fails", "fail");
    say_others(page, assessment, BW_NOT_ASSESSED, "is not assessed",
               "are not assessed");
    say_others(page, assessment, BW_MARGINAL, "is marginal", "are marginal");
    say_not_simulated(page, assessment, said);
    if (year != NULL)
        bw_text(page, "%s", year);
}

/* ---- the last lines ----------------------------------------------------- */

BW_PART(where, NULL)
{
    (void)of;
    if (page->options->extent == BW_EXTENT_FULL)
        return;
    bw_blank(page);
    bw_plain(page, "Every figure, layer, source and assumption: --full. A page "
                   "with charts: --format html --output FILE.");
}

BW_PART(caution, NULL)
{
    (void)of;
    if (page->options->extent == BW_EXTENT_FULL)
        return;
    if (page->options->extent == BW_EXTENT_LEAST)
        bw_blank(page);
    bw_plain(page, "Local codes and licensed professionals decide; wood that "
                   "was wet has to be opened and looked at.");
}

BW_PART(verdict_again, NULL)
{
    bw_lead(page, "Verdict: %s (%s)", bw_verdict_text(of->wall[0]->verdict),
            of->wall[0]->assembly->id);
}

/* ---- several walls ------------------------------------------------------ */

BW_PART(each_wall, NULL)
{
    if (!of->goes_on)
        bw_lead(page, "%zu walls",
                of->of_walls > 0 ? of->of_walls : of->wall_count);
    for (size_t i = 0; i < of->wall_count; i++) {
        const bw_assessment *wall = of->wall[i];
        const bw_criterion *c = wall->deciding;
        bw_hang(page, "%s: %s%s", wall->assembly->id,
                bw_verdict_text(wall->verdict),
                has_figure(c)
                    ? bw_phrase(
                          page, "; %s %s", bw_plain_id(page, c->criterion),
                          is_within(c) ? c->reason : figure_and_limit(page, c))
                    : "");
    }
}
