#include <math.h>
#include <string.h>

#include "as_read.h"
#include "auditing.h"
#include "readings.h"
#include "text.h"

/* What keeps the hold point closed in the log of readings: wet members, limits
 * that are too loose, and readings that cannot be, or that nobody stands for.
 * One reason a member and fault, with the line of the first. */

/* Drier than a meter tells in wood: the electrical method is for 7 to 30 %
 * (EN 13183-2, from memory, medium). */
static const double DRIEST = 0.06;

/* More than this in moisture, and faster a day, is no drying of timber on a
 * site but a change of meter, place or depth (common practice, no source). */
static const double JUMP = 0.02, JUMP_A_DAY = 0.005;

/* ---- members --------------------------------------------------------------
 */

static void look_at_decision(bw_audit_core *core, const bw_member_decision *d)
{
    if (d->decision == BW_READING_ACCEPT)
        return;
    if (d->decision == BW_READING_NOT_EVIDENCED) {
        bw_keep_closed(
            core, BW_OPEN_NOT_EVIDENCED,
            BW_AUDIT_SAY(core, "moisture of %s: not evidenced, %s", d->member,
                         d->has_limit ? "no reading" : "no limit was set"));
        return;
    }
    bw_keep_closed(
        core, d->decision == BW_READING_INSPECT ? BW_OPEN_INSPECT : BW_OPEN_WET,
        BW_AUDIT_SAY(core,
                     "moisture of %s: %s (highest reading %s %%, "
                     "allowed %s %%, critical %s %%)",
                     d->member, bw_reading_decision_text(d->decision),
                     BW_NUMBER_G(100.0 * d->highest, 3),
                     BW_NUMBER_G(100.0 * d->allowed, 3),
                     BW_NUMBER_G(100.0 * d->critical, 3)));
}

static void look_at_limit(bw_audit_core *core, const bw_member_decision *d)
{
    if (!d->limit_looser)
        return;
    bw_keep_closed(
        core, BW_OPEN_LIMIT_LOOSER,
        BW_AUDIT_SAY(core,
                     "limit of %s: %s %% allowed and %s %% critical are looser "
                     "than %s %% and %s %%, which decide; set these or tighter "
                     "ones",
                     d->member, BW_NUMBER_G(100.0 * d->file_allowed, 3),
                     BW_NUMBER_G(100.0 * d->file_critical, 3),
                     BW_NUMBER_G(100.0 * BW_WOOD_ALLOWED, 3),
                     BW_NUMBER_G(100.0 * BW_WOOD_CRITICAL, 3)));
}

static bool meets(const bw_profile_rule *rule, const bw_member_decision *d)
{
    double over = d->highest - rule->limit / 100.0;
    return rule->strict ? over < -BW_MOISTURE_SAME : over <= BW_MOISTURE_SAME;
}

/* A national limit on moisture at closing up holds beside the file's own. */
static void look_at_profile(bw_audit_core *core, const bw_member_decision *d)
{
    const bw_profile *profile = core->audit.profile;
    for (size_t i = 0; i < profile->rule_count; i++) {
        const bw_profile_rule *rule = &profile->rule[i];
        if (!rule->decides || d->reading_count == 0 ||
            strcmp(rule->criterion, "closing-moisture") != 0 || meets(rule, d))
            continue;
        bw_keep_closed(core, BW_OPEN_RULE_SET,
                       BW_AUDIT_SAY(core,
                                    "moisture of %s: %s %% is not %s %s %%, as "
                                    "profile %s asks (%s: %s)",
                                    d->member,
                                    BW_NUMBER_G(100.0 * d->highest, 3),
                                    rule->strict ? "below" : "at most",
                                    BW_NUMBER_G(rule->limit, 3), profile->name,
                                    rule->source, rule->text));
    }
}

static void look_at_part(bw_audit_core *core, const bw_member_decision *d)
{
    if (d->part.layer < 0)
        bw_keep_closed(core, BW_OPEN_MEMBER,
                       BW_AUDIT_SAY(core,
                                    "member %s is no layer and no framing of "
                                    "this wall; say with part= of its "
                                    "<moisture-limit> what it is",
                                    d->member));
    else if (bw_audit_is_between(core->assembly, d->part))
        bw_keep_closed(core, BW_OPEN_MEMBER,
                       BW_AUDIT_SAY(core,
                                    "member %s is called the filling between "
                                    "framing (%s); did you mean part=\"%s."
                                    "framing\"?",
                                    d->member,
                                    core->assembly->layer[d->part.layer].id,
                                    core->assembly->layer[d->part.layer].id));
}

/* ---- readings -------------------------------------------------------------
 */

static bool is_ahead(const bw_audit_core *core, const bw_reading *r)
{
    return bw_audit_is_ahead(core, r->date);
}

static bool is_impossible(const bw_audit_core *core, const bw_reading *r)
{
    return r->moisture <= 0.0 ||
           (r->moisture < DRIEST && bw_audit_is_wood(core, r->member));
}

static bool is_too_deep(const bw_audit_core *core, const bw_reading *r)
{
    return !bw_audit_depth_is_there(core, r);
}

static bool is_unattributed(const bw_audit_core *core, const bw_reading *r)
{
    (void)core;
    return !bw_text_given(r->meter) || !bw_text_given(r->by) ||
           !bw_text_given(r->place);
}

static bool is_raw(const bw_audit_core *core, const bw_reading *r)
{
    (void)core;
    return r->as_read &&
           (!bw_reading_is_correctable(r) || !bw_text_given(r->species));
}

static bool is_stale(const bw_audit_core *core, const bw_reading *r)
{
    return bw_audit_is_stale(core, r->date, BW_READING_DAYS);
}

static bool is_before_wetting(const bw_audit_core *core, const bw_reading *r)
{
    return bw_audit_is_before_wetting(core, r->date);
}

static const struct fault {
    bw_open_id id;
    bool (*has)(const bw_audit_core *core, const bw_reading *reading);
    bool all; /* of those, too, that do not count */
    const char *says;
} faults[] = {
    {BW_OPEN_AHEAD, is_ahead, true, "dated after this sheet"},
    {BW_OPEN_READING_IMPOSSIBLE, is_impossible, true,
     "0 %, or of wood below 6 %: drier than a meter tells"},
    {BW_OPEN_DEPTH, is_too_deep, true, "deeper than the member or any pins"},
    {BW_OPEN_UNATTRIBUTED, is_unattributed, false,
     "without meter=, by= or place=: nobody stands for it"},
    {BW_OPEN_RAW, is_raw, false,
     "as the meter showed it, without the species= and a wood-temperature= "
     "of 0 to 50 degC to correct it by"},
    {BW_OPEN_STALE, is_stale, false,
     "older than 14 days at the date of this sheet"},
    {BW_OPEN_BEFORE_WETTING, is_before_wetting, false,
     "from before the wall last got wet"},
};

static void look_at_fault(bw_audit_core *core, const char *member,
                          const struct fault *fault)
{
    const bw_audit *audit = &core->audit;
    const bw_reading *first = NULL;
    size_t count = 0;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        if (strcmp(e->reading->member, member) != 0 ||
            !(e->counts || fault->all) || !fault->has(core, e->reading))
            continue;
        first = first == NULL ? e->reading : first;
        count++;
    }
    if (first != NULL)
        bw_keep_closed(
            core, fault->id,
            BW_AUDIT_SAY(core, "%zu reading%s of %s (line %ld%s): %s", count,
                         count == 1 ? "" : "s", member, first->line,
                         count == 1 ? "" : " first", fault->says));
}

/* ---- one after the other --------------------------------------------------
 */

/* The reading of the same place just before this one; NULL: none. Of the same
 * day any other is. */
static const bw_reading *before(const bw_audit *audit, size_t index)
{
    const bw_reading *r = audit->reading[index].reading;
    const bw_reading *found = NULL;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading *other = audit->reading[i].reading;
        const int order = strcmp(other->date, r->date);
        if (strcmp(other->member, r->member) == 0 &&
            bw_text_same(other->place, r->place) &&
            (order < 0 || (order == 0 && i < index)) &&
            (found == NULL || strcmp(other->date, found->date) > 0))
            found = other;
    }
    return found;
}

static void look_at_jump(bw_audit_core *core, size_t index)
{
    const bw_reading *now = core->audit.reading[index].reading;
    const bw_reading *then = before(&core->audit, index);
    const double by = then == NULL ? 0.0 : fabs(now->moisture - then->moisture);
    if (then == NULL || by <= JUMP + BW_MOISTURE_SAME)
        return;
    const char *from = BW_NUMBER_G(100.0 * then->moisture, 3);
    const char *to = BW_NUMBER_G(100.0 * now->moisture, 3);
    const long days = bw_audit_days(then->date, now->date);
    if (days == 0)
        bw_keep_closed(core, BW_OPEN_CONTRADICTION,
                       BW_AUDIT_SAY(core,
                                    "%s, %s reads %s %% and %s %% on one day "
                                    "(lines %ld and %ld): the worse counts; "
                                    "which is right?",
                                    now->member, now->place, from, to,
                                    then->line, now->line));
    else if (by > JUMP_A_DAY * (double)days && !bw_text_given(now->note))
        bw_keep_closed(core, BW_OPEN_JUMP,
                       BW_AUDIT_SAY(core,
                                    "%s, %s goes from %s %% to %s %% in %ld "
                                    "day%s (line %ld), and no note= says how",
                                    now->member, now->place, from, to, days,
                                    days == 1 ? "" : "s", now->line));
}

void bw_hold_readings(bw_audit_core *core)
{
    const bw_audit *audit = &core->audit;
    if (audit->member_count == 0)
        bw_keep_closed(core, BW_OPEN_NO_MEMBER,
                       "moisture: not evidenced, no limit and no reading");
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        look_at_decision(core, d);
        look_at_limit(core, d);
        look_at_profile(core, d);
        look_at_part(core, d);
        for (size_t k = 0; k < sizeof faults / sizeof faults[0]; k++)
            look_at_fault(core, d->member, &faults[k]);
    }
    for (size_t i = 0; i < audit->reading_count; i++)
        look_at_jump(core, i);
}
