#include <math.h>
#include <string.h>

#include "core.h"
#include "fail.h"
#include "readings.h"

/* The hold point before closing up: every reason it stays closed. Released is
 * what has no reason left; nothing else releases it. */

typedef struct hold {
    bw_audit_core *core;
    bw_open_item *item;
    size_t count, capacity;
    bool no_memory;
} hold;

static void keep_closed(hold *h, const char *text)
{
    if (text == NULL || h->count == h->capacity)
        h->no_memory = true; /* the capacity is counted beforehand */
    else
        h->item[h->count++].text = text;
}

static void look_at_verdict(hold *h)
{
    const bw_assessment *a = h->core->audit.assessment;
    if (a->verdict == BW_FAILS || a->verdict == BW_NOT_ASSESSED)
        keep_closed(h, BW_AUDIT_SAY(h->core, "the verdict is \"%s\": %s",
                                    bw_verdict_text(a->verdict),
                                    a->verdict_reason));
}

/* What is signed is the file. */
static void look_at_changes(hold *h)
{
    const bw_assembly *wall = h->core->audit.assessment->assembly;
    if (wall->edit_count > 0)
        keep_closed(h, "the wall was changed from outside the file while it "
                       "was read: what is on file is not what was judged");
}

static void look_at_air_test(hold *h)
{
    const bw_audit *audit = &h->core->audit;
    if (!audit->air_test_evidenced)
        keep_closed(h, BW_AUDIT_SAY(h->core, "air tightness: %s",
                                    audit->air_test_text));
}

static void look_at_member(hold *h, const bw_member_decision *d)
{
    if (d->decision == BW_READING_ACCEPT)
        return;
    if (d->decision == BW_READING_NOT_EVIDENCED) {
        keep_closed(
            h, BW_AUDIT_SAY(h->core, "moisture of %s: not evidenced, %s",
                            d->member,
                            d->has_limit ? "no reading" : "no limit was set"));
        return;
    }
    keep_closed(
        h, BW_AUDIT_SAY(h->core,
                        "moisture of %s: %s (highest reading %s %%, allowed "
                        "%s %%, critical %s %%)",
                        d->member, bw_reading_decision_text(d->decision),
                        bw_audit_number(100.0 * d->highest, 3).text,
                        bw_audit_number(100.0 * d->allowed, 3).text,
                        bw_audit_number(100.0 * d->critical, 3).text));
}

static bool meets(const bw_profile_rule *rule, const bw_member_decision *d)
{
    double over = d->highest - rule->limit / 100.0;
    return rule->strict ? over < -BW_MOISTURE_SAME : over <= BW_MOISTURE_SAME;
}

/* A national limit on moisture at closing up holds beside the file's own. */
static void look_at_profile(hold *h, const bw_member_decision *d)
{
    const bw_profile *profile = h->core->audit.profile;
    for (size_t i = 0; i < profile->rule_count; i++) {
        const bw_profile_rule *rule = &profile->rule[i];
        if (!rule->decides || d->reading_count == 0 ||
            strcmp(rule->criterion, "closing-moisture") != 0 || meets(rule, d))
            continue;
        keep_closed(h, BW_AUDIT_SAY(h->core,
                                    "moisture of %s: %s %% is not %s %s %%, as "
                                    "profile %s asks (%s: %s)",
                                    d->member,
                                    bw_audit_number(100.0 * d->highest, 3).text,
                                    rule->strict ? "below" : "at most",
                                    bw_audit_number(rule->limit, 3).text,
                                    profile->name, rule->source, rule->text));
    }
}

static void look_at_readings(hold *h)
{
    const bw_audit *audit = &h->core->audit;
    if (audit->member_count == 0)
        keep_closed(h, "moisture: not evidenced, no limit and no reading");
    for (size_t i = 0; i < audit->member_count; i++) {
        look_at_member(h, &audit->member[i]);
        look_at_profile(h, &audit->member[i]);
    }
}

static const char *where_it_flips(hold *h, const bw_unknown *u)
{
    if (!u->continuous)
        return "";
    if (u->flips_all)
        return " at any value of its range";
    bool bare = strcmp(u->unit, "-") == 0;
    const char *word = !isnan(u->as_drawn) ? "at"
                       : u->flip_above     ? "above"
                                           : "below";
    return BW_AUDIT_SAY(h->core, " %s %s%s%s", word,
                        bw_audit_number(u->flip_value, 4).text, bare ? "" : " ",
                        bare ? "" : u->unit);
}

/* Nobody has looked, and what may be there makes the wall fail. */
static void look_at_assumed(hold *h)
{
    const bw_audit *audit = &h->core->audit;
    if (audit->margin == NULL) {
        if (audit->assessment->assumed_count > 0)
            keep_closed(h, "layers are only assumed, and the sensitivity that "
                           "could show it does not matter was not computed");
        return;
    }
    for (size_t i = 0; i < audit->unknown_count; i++) {
        const bw_audit_unknown *u = &audit->unknown[i];
        if (!u->assumed || !u->decides ||
            u->unknown->kind == BW_UNKNOWN_STANDARD)
            continue;
        keep_closed(
            h, BW_AUDIT_SAY(
                   h->core,
                   "layer %s is only assumed, and the verdict rests "
                   "on it: %s%s, %s fails%s; look at it or measure it",
                   u->unknown->layer, u->unknown->name,
                   where_it_flips(h, u->unknown), u->unknown->flip_criterion,
                   audit->margin->screening ? " (by the screening)" : ""));
    }
}

bw_status bw_audit_hold_point(bw_audit_core *core, bw_error *err)
{
    bw_audit *audit = &core->audit;
    hold h = {.core = core,
              .capacity = 5 + audit->unknown_count +
                          audit->member_count *
                              (1 + audit->profile->rule_count)};
    h.item = BW_NEW(&core->arena, bw_open_item, h.capacity);
    if (h.item == NULL)
        return bw_fail_memory(err);
    look_at_verdict(&h);
    look_at_changes(&h);
    look_at_air_test(&h);
    look_at_readings(&h);
    look_at_assumed(&h);
    if (h.no_memory)
        return bw_fail_memory(err);
    audit->open = h.item;
    audit->open_count = h.count;
    audit->released = h.count == 0;
    return BW_OK;
}
