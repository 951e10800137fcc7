#include <string.h>

#include "comparing.h"
#include "fail.h"

/* Plain sentences under the table: verdicts, drying, reserve. They state what
 * the rows show and recommend nothing. Two values that print alike are equal
 * here. */

enum { SENTENCES_MOST = 4 };

static const bw_compare_row *find(const bw_compare_core *core, const char *name)
{
    for (size_t i = 0; i < core->comparison.row_count; i++)
        if (strcmp(core->comparison.row[i].name, name) == 0)
            return &core->comparison.row[i];
    return NULL;
}

/* ---- verdicts ---------------------------------------------------------- */

typedef struct tally {
    size_t fails, unknown, all;
} tally;

static tally tally_of(const bw_compare_core *core, size_t wall)
{
    tally t = {0, 0, 0};
    for (size_t i = 0; i < core->comparison.row_count; i++) {
        const bw_compare_row *row = &core->comparison.row[i];
        const bw_criterion *c = row->is_criterion ? row->criterion[wall] : NULL;
        if (c == NULL || !c->decides)
            continue;
        t.all++;
        t.fails += c->verdict == BW_FAILS;
        t.unknown += c->verdict == BW_NOT_ASSESSED;
    }
    return t;
}

static const char *say_verdicts(bw_compare_core *core)
{
    const char *item[BW_COMPARE_MOST] = {NULL};
    for (size_t i = 0; i < core->count; i++) {
        tally t = tally_of(core, i);
        const char *fails = t.fails > 0 ? bw_compare_say(core, "%zu", t.fails)
                                        : "none";
        const char *unknown =
            t.unknown > 0
                ? bw_compare_say(core, ", with %zu not assessed", t.unknown)
                : "";
        item[i] = bw_compare_say(core, "%s fails %s of %zu%s",
                                 core->wall[i].label, fails, t.all, unknown);
    }
    const char *text = item[0];
    for (size_t i = 1; i < core->count; i++)
        text = bw_compare_say(core, "%s; %s", text, item[i]);
    return bw_compare_say(core, "Of the criteria that decide, %s.", text);
}

/* ---- drying ------------------------------------------------------------ */

/* "1.00 kg/m2", or words where the walls are wetted differently. */
static const char *wetting_text(bw_compare_core *core)
{
    double first = core->given[0]->drying_test.wetting;
    for (size_t i = 1; i < core->count; i++)
        if (core->given[i]->drying_test.wetting != first)
            return "as each file says";
    return bw_compare_say(core, "with %s g/m2", bw_compare_grams(core, first));
}

/* The drying test of a method: its row, the criterion with its limit, and what
 * is said of a wall that does not dry. */
typedef struct drying_method {
    const char *row, *criterion, *never;
} drying_method;

static const drying_method by_months = {"months-to-dry", "drying-test",
                                        "in 10 years"};
static const drying_method simulated = {"simulated-months-to-dry",
                                        "wetting-test", "while followed"};

static bool is_unknown(const bw_compare_row *row, size_t wall)
{
    return !row->has_value[wall] &&
           strcmp(row->instead[wall], "not assessed") == 0;
}

static bool is_needless(const bw_compare_row *row, size_t wall)
{
    return !row->has_value[wall] &&
           strcmp(row->instead[wall], "nothing at risk") == 0;
}

static const char *one_time(bw_compare_core *core, const drying_method *method,
                            const bw_compare_row *row, size_t wall)
{
    const char *label = core->wall[wall].label;
    if (row->has_value[wall])
        return bw_compare_say(core, "%s dries in %s months", label,
                              bw_compare_number(core, row->value[wall], 1));
    if (is_unknown(row, wall))
        return bw_compare_say(core, "for %s this was not assessed", label);
    if (is_needless(row, wall))
        return bw_compare_say(core, "in %s water would harm nothing", label);
    return bw_compare_say(core, "%s does not dry %s", label, method->never);
}

/* The limit of the drying criterion where all share it; 0 if not. */
static double shared_limit(const bw_compare_core *core,
                           const drying_method *method)
{
    const bw_compare_row *row = find(core, method->criterion);
    double limit = 0.0;
    for (size_t i = 0; row != NULL && i < core->count; i++) {
        const bw_criterion *c = row->criterion[i];
        if (c == NULL || !c->has_limit || (i > 0 && c->limit != limit))
            return 0.0;
        limit = c->limit;
    }
    return limit;
}

static const char *all_within(bw_compare_core *core, const bw_compare_row *row,
                              double limit)
{
    const char *item[BW_COMPARE_MOST] = {NULL};
    const char *first = bw_compare_number(core, row->value[0], 1);
    bool alike = true;
    for (size_t i = 0; i < core->count; i++) {
        const char *time = bw_compare_number(core, row->value[i], 1);
        alike = alike && strcmp(time, first) == 0;
        item[i] = bw_compare_say(core, "%s in %s%s", core->wall[i].label, time,
                                 i == 0 ? " months" : "");
    }
    const char *who = core->count == 2 ? "Both" : "All";
    const char *times = alike ? bw_compare_say(core, "each in %s months", first)
                              : bw_compare_list(core, item, core->count);
    return bw_compare_say(core, "%s dry within %s months if wetted %s: %s", who,
                          bw_compare_number(core, limit, 0), wetting_text(core),
                          times);
}

/* " (a screening for a and b)" where the monthly method is beyond its
 * limits, or stands for a simulation. */
static const char *method_text(bw_compare_core *core)
{
    const char *item[BW_COMPARE_MOST] = {NULL};
    size_t beyond = 0;
    if (core->comparison.simulated)
        return " (simulated, each at its place most at risk)";
    for (size_t i = 0; i < core->count; i++) {
        bool is = core->assessment[i]->scope_count > 0;
        item[i] = is ? core->wall[i].label : NULL;
        beyond += is;
    }
    if (beyond == core->count || core->comparison.by_months_reason != NULL)
        return " (monthly method, a screening here)";
    if (beyond == 0)
        return "";
    return bw_compare_say(core, " (monthly method, a screening for %s)",
                          bw_compare_list(core, item, core->count));
}

static const char *say_drying(bw_compare_core *core,
                              const drying_method *method)
{
    const bw_compare_row *row = find(core, method->row);
    double limit = shared_limit(core, method);
    size_t within = 0, never = 0, unknown = 0;
    for (size_t i = 0; i < core->count; i++) {
        within += row->has_value[i] && row->value[i] <= limit;
        unknown += is_unknown(row, i);
        never += !row->has_value[i] && !is_unknown(row, i) &&
                 !is_needless(row, i);
    }
    const char *how = method_text(core);
    if (unknown == core->count)
        return "For none of the walls could a time to dry be computed.";
    if (within == core->count)
        return bw_compare_say(core, "%s%s.", all_within(core, row, limit), how);
    if (never == core->count)
        return bw_compare_say(core, "%s dries %s if wetted %s%s.",
                              core->count == 2 ? "Neither" : "None",
                              method->never, wetting_text(core), how);
    const char *item[BW_COMPARE_MOST] = {NULL};
    for (size_t i = 0; i < core->count; i++)
        item[i] = one_time(core, method, row, i);
    return bw_compare_say(core, "If wetted %s, %s%s.", wetting_text(core),
                          bw_compare_list(core, item, core->count), how);
}

/* ---- mould ------------------------------------------------------------- */

static const char *say_mould(bw_compare_core *core)
{
    const bw_compare_row *row = find(core, "mould-index");
    const char *item[BW_COMPARE_MOST] = {NULL};
    for (size_t i = 0; i < core->count; i++)
        item[i] =
            row != NULL && row->has_value[i]
                ? bw_compare_say(core, "%s in %s",
                                 bw_compare_number(core, row->value[i], 1),
                                 core->wall[i].label)
                : bw_compare_say(core, "not known of %s", core->wall[i].label);
    return bw_compare_say(core, "The highest mould index is %s (simulated).",
                          bw_compare_list(core, item, core->count));
}

/* ---- reserve ----------------------------------------------------------- */

static const char *say_reserve(bw_compare_core *core)
{
    const bw_compare_row *row = find(core, "reserve");
    const char *missing[BW_COMPARE_MOST];
    size_t most = core->count, least = core->count, known = 0;
    for (size_t i = 0; i < core->count; i++) {
        missing[i] = row->has_value[i] ? NULL : core->wall[i].label;
        if (!row->has_value[i])
            continue;
        known++;
        if (most == core->count || row->value[i] > row->value[most])
            most = i;
        if (least == core->count || row->value[i] < row->value[least])
            least = i;
    }
    if (known == 0)
        return "For none of the walls could a drying reserve be computed.";
    const char *high = bw_compare_grams(core, row->value[most]);
    const char *low = bw_compare_grams(core, row->value[least]);
    const char *rest = known == core->count
                           ? ""
                           : bw_compare_say(
                                 core, "; for %s none could be computed",
                                 bw_compare_list(core, missing, core->count));
    const char *a = core->wall[most].label, *b = core->wall[least].label;
    if (known == 1)
        return bw_compare_say(core, "%s has a drying reserve of %s g/(m2 a)%s.",
                              a, high, rest);
    if (strcmp(high, low) == 0)
        return bw_compare_say(
            core, "The drying reserves are equal: %s g/(m2 a)%s.", high, rest);
    if (known == 2)
        return bw_compare_say(core,
                              "The drying reserve of %s is larger than that of "
                              "%s: %s against %s g/(m2 a)%s.",
                              a, b, high, low, rest);
    return bw_compare_say(core,
                          "The drying reserve is largest in %s (%s g/(m2 a)) "
                          "and smallest in %s (%s)%s.",
                          a, high, b, low, rest);
}

bw_status bw_compare_sentences(bw_compare_core *core, bw_error *err)
{
    const bool hours = core->comparison.simulated;
    const char **sentence = BW_NEW(&core->arena, const char *, SENTENCES_MOST);
    BW_TRY_MEMORY(sentence != NULL, err);
    size_t count = 0;
    sentence[count++] = say_verdicts(core);
    sentence[count++] = say_drying(core, hours ? &simulated : &by_months);
    if (hours)
        sentence[count++] = say_mould(core);
    sentence[count++] = hours ? bw_compare_say(core,
                                               "By months, a cross-check. %s",
                                               say_reserve(core))
                              : say_reserve(core);
    core->comparison.sentence = sentence;
    core->comparison.sentence_count = count;
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}
