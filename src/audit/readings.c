#include <math.h>
#include <string.h>

#include "auditing.h"
#include "fail.h"
#include "properties.h"
#include "readings.h"
#include "text.h"

/* Moisture readings before closing up.
 *
 * Decision in three states, from Swedish practice for timber building
 * (Svenskt Trae 10.3.2 [S]): at or below the allowed moisture: accept; above
 * it, up to the critical one: dry and read again; above that: look for damage,
 * remedy, read again. Beside it the statistical rule of AS 2589 [S], 90 % of
 * the readings within the limit and the rest within 2 points: shown, but a
 * member is accepted by the three states alone (cautious).
 *
 * A member read again counts with its latest reading at each place. A later
 * but shallower reading does not replace a deeper one: the core dries last.
 *
 * Of wood, and of what is no part of the wall, a file's limit may be tighter
 * than the project's and never looser. */

static const double STATISTICAL_SHARE = 0.90, STATISTICAL_EXCESS = 0.02;

const char *bw_reading_decision_text(bw_reading_decision decision)
{
    static const char *const words[] = {
        [BW_READING_ACCEPT] = "accept",
        [BW_READING_DRY_AND_READ] = "dry and read again",
        [BW_READING_INSPECT] = "inspect for damage, remedy, read again"};
    return BW_WORD(words, decision, "not evidenced");
}

static const bw_moisture_limit *limit_of(const bw_closing_up *up,
                                         const char *member)
{
    for (size_t i = 0; i < up->limit_count; i++)
        if (strcmp(up->limit[i].member, member) == 0)
            return &up->limit[i];
    return NULL;
}

/* What a part is made of; NULL: it is none. */
static const bw_material *material_of(const bw_assembly *a, bw_wall_part part)
{
    if (part.layer < 0)
        return NULL;
    const bw_layer *layer = &a->layer[part.layer];
    return part.framing ? layer->framing.material : layer->material;
}

/* A species is of wood, whatever the member is called. */
static bool has_species(const bw_closing_up *up, const char *member)
{
    for (size_t i = 0; i < up->reading_count; i++)
        if (strcmp(up->reading[i].member, member) == 0 &&
            up->reading[i].species[0] != '\0')
            return true;
    return false;
}

bool bw_audit_is_wood(const bw_audit_core *core, const char *member)
{
    const bw_wall_part part = bw_part_of_member(core->assembly, member);
    const bw_material *m = material_of(core->assembly, part);
    return m == NULL || bw_is_timber(m) ||
           bw_audit_is_between(core->assembly, part) ||
           has_species(&core->assembly->closing_up, member);
}

bool bw_audit_is_between(const bw_assembly *assembly, bw_wall_part part)
{
    return part.layer >= 0 && !part.framing &&
           assembly->layer[part.layer].framing.present &&
           !bw_is_timber(assembly->layer[part.layer].material);
}

/* The member with the limits that decide. */
static bw_member_decision limited(const bw_audit_core *core, const char *member)
{
    const bw_assembly *a = core->assembly;
    const bw_moisture_limit *limit = limit_of(&a->closing_up, member);
    bw_member_decision d = {.member = member,
                            .part = bw_part_of_member(a, member),
                            .has_limit = limit != NULL};
    if (limit == NULL)
        return d;
    d.allowed = d.file_allowed = limit->allowed;
    d.critical = d.file_critical = limit->critical;
    if (!bw_audit_is_wood(core, member))
        return d;
    d.limit_looser = d.allowed > BW_WOOD_ALLOWED + BW_MOISTURE_SAME ||
                     d.critical > BW_WOOD_CRITICAL + BW_MOISTURE_SAME;
    d.allowed = fmin(d.allowed, BW_WOOD_ALLOWED);
    d.critical = fmin(d.critical, BW_WOOD_CRITICAL);
    return d;
}

static bw_reading_decision decide(const bw_member_decision *limit,
                                  double moisture)
{
    if (!limit->has_limit)
        return BW_READING_NOT_EVIDENCED;
    if (moisture <= limit->allowed + BW_MOISTURE_SAME)
        return BW_READING_ACCEPT;
    return moisture <= limit->critical + BW_MOISTURE_SAME
               ? BW_READING_DRY_AND_READ
               : BW_READING_INSPECT;
}

static bw_reading_when when(const bw_air_test *test, const char *date)
{
    if (test == NULL)
        return BW_READ_NO_TEST;
    int order = strcmp(date, test->date);
    if (order == 0)
        return BW_READ_SAME_DAY;
    return order < 0 ? BW_READ_BEFORE_TEST : BW_READ_AFTER_TEST;
}

/* One after the other, each can only make it worse. */
static bw_reading_decision worse(bw_reading_decision a, bw_reading_decision b)
{
    return a > b ? a : b;
}

static bw_member_decision decide_member(const bw_audit_core *core,
                                        const char *member)
{
    const bw_audit *audit = &core->audit;
    bw_member_decision d = limited(core, member);
    size_t within = 0;
    bool rest_close = true;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *entry = &audit->reading[i];
        if (strcmp(entry->reading->member, member) != 0)
            continue;
        if (!entry->counts) {
            d.earlier_count++;
            continue;
        }
        double moisture = entry->reading->moisture;
        d.reading_count++;
        d.highest = fmax(d.highest, moisture);
        d.decision = worse(d.decision, entry->decision);
        within += entry->decision == BW_READING_ACCEPT;
        rest_close = rest_close && moisture <= d.allowed + STATISTICAL_EXCESS +
                                                   BW_MOISTURE_SAME;
    }
    if (d.reading_count == 0 || !d.has_limit) {
        d.decision = BW_READING_NOT_EVIDENCED;
        return d;
    }
    d.share_within = (double)within / (double)d.reading_count;
    d.statistical_rule = rest_close &&
                         d.share_within >= STATISTICAL_SHARE - BW_MOISTURE_SAME;
    return d;
}

/* A limit out of order or no number would let anything pass. */
static bw_status check_limits(const bw_audit_core *core, bw_error *err)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    for (size_t i = 0; i < up->limit_count; i++)
        if (!(up->limit[i].critical >= up->limit[i].allowed))
            return bw_fail(err, BW_ERR_INPUT, core->assembly->file,
                           up->limit[i].line,
                           "the critical moisture of '%s' is below its "
                           "allowed moisture",
                           up->limit[i].member);
    return BW_OK;
}

static bool has(const bw_member_decision *member, size_t count,
                const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(member[i].member, name) == 0)
            return true;
    return false;
}

/* ---- depth ----------------------------------------------------------------
 */

/* Pins go in from one of the faces that lie open: across a stud, or along the
 * layer it stands in. */
static double across(const bw_layer *layer, bw_wall_part part)
{
    const double along = layer->framing.depth > 0.0 ? layer->framing.depth
                                                    : layer->thickness;
    if (!part.framing)
        return layer->thickness;
    return layer->framing.width > 0.0 ? fmin(layer->framing.width, along)
                                      : along;
}

/* Nobody's pins reach further [m] (common practice, no source). */
static const double LONGEST_PIN = 0.1;

/* To be read to a third of its thickness (EN 13183-2, 0.3 of it, from memory,
 * medium): the skin dries first. Of boards the pins go through. */
static const double TELLS = 0.3, THIN = 0.025, DEEP_ENOUGH = 0.04;

bool bw_audit_depth_is_there(const bw_audit_core *core, const bw_reading *r)
{
    const bw_wall_part part = bw_part_of_member(core->assembly, r->member);
    if (part.layer < 0)
        return r->depth <= LONGEST_PIN;
    const bw_layer *layer = &core->assembly->layer[part.layer];
    return r->depth <=
           fmin(LONGEST_PIN, across(layer, part)) + BW_MOISTURE_SAME;
}

double bw_audit_depth_asked(const bw_audit_core *core, bw_wall_part part)
{
    const double most = across(&core->assembly->layer[part.layer], part);
    return most <= THIN ? 0.0 : fmin(TELLS * most, DEEP_ENOUGH);
}

/* ---- the log --------------------------------------------------------------
 */

bw_status bw_audit_readings(bw_audit_core *core, bw_error *err)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    bw_audit *audit = &core->audit;
    BW_TRY(check_limits(core, err));
    bw_reading_entry *entry = BW_NEW(&core->arena, bw_reading_entry,
                                     up->reading_count + 1);
    bw_member_decision *member = BW_NEW(&core->arena, bw_member_decision,
                                        up->limit_count + up->reading_count +
                                            1);
    BW_TRY_MEMORY(entry != NULL && member != NULL, err);
    for (size_t i = 0; i < up->reading_count; i++) {
        const bw_reading *reading = &up->reading[i];
        const bw_member_decision limit = limited(core, reading->member);
        entry[i] = (bw_reading_entry){
            .reading = reading,
            .counts = bw_reading_counts(up, i),
            .when = when(audit->air_test, reading->date),
            .decision = decide(&limit, reading->moisture)};
    }
    audit->reading = entry;
    audit->reading_count = up->reading_count;
    size_t count = 0;
    for (size_t i = 0; i < up->limit_count; i++, count++)
        member[count] = decide_member(core, up->limit[i].member);
    for (size_t i = 0; i < up->reading_count; i++)
        if (!has(member, count, up->reading[i].member))
            member[count++] = decide_member(core, up->reading[i].member);
    audit->member = member;
    audit->member_count = count;
    return BW_OK;
}
