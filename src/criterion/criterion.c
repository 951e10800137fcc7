#include "criterion.h"

#include <stdio.h>
#include <string.h>

#include "number.h"

/* Invariant: a row is written once, in every_criterion.h; its id is its place
 * there, and what a rule set may limit it to ends at its default limit
 * (test_profile). */

/* The words of the rows: a number as it is written, and its place. */
#define SAY_AS_IS(number) #number
#define SAY(number) SAY_AS_IS(number)
#define NO_LIMIT .bound = BW_NO_LIMIT, .limit_is = ""
#define FROM(side, words) .bound = (side), .limit_is = words
#define LIMIT(side, value, by)                                                 \
    .bound = (side), .limit_is = "", .limit_count = 1,                         \
    .limit = {{value, "", by}}
#define LIMITS(side, one, where_one, by_one, other, where_other, by_other)     \
    .bound = (side), .limit_is = "", .limit_count = 2,                         \
    .limit = {{one, where_one, by_one}, {other, where_other, by_other}}
#define MARGINAL_BY(amount)                                                    \
    .marginal = BW_MARGINAL_BY_AMOUNT, .marginal_by = amount
#define INSPECT .marginal = BW_MARGINAL_BEYOND

static const bw_criterion_facts every[BW_C_COUNT] = {
#define CRITERION(id, its_name, its_title, its_method, its_unit, ...)          \
    [id] = {.name = its_name,                                                  \
            .title = its_title,                                                \
            .method = its_method,                                              \
            .unit = its_unit,                                                  \
            __VA_ARGS__},
#include "every_criterion.h"
#undef CRITERION
};

const bw_criterion_facts *bw_criterion_facts_of(bw_criterion_id id)
{
    return &every[id];
}

size_t bw_criteria_count(void)
{
    return BW_C_COUNT;
}

const bw_criterion_facts *bw_criteria_at(size_t i)
{
    return i < BW_C_COUNT ? &every[i] : NULL;
}

const bw_criterion_facts *bw_criteria_find(const char *name)
{
    for (size_t i = 0; i < BW_C_COUNT; i++)
        if (strcmp(name, every[i].name) == 0)
            return &every[i];
    return NULL;
}

bw_criterion_id bw_criterion_named(const char *name)
{
    return (bw_criterion_id)(bw_criteria_find(name) - every);
}

const char *bw_bound_text(bw_criterion_bound bound)
{
    static const char *const words[] = {
        [BW_NO_LIMIT] = "",   [BW_AT_MOST] = "at most",
        [BW_BELOW] = "below", [BW_AT_LEAST] = "at least",
        [BW_ABOVE] = "above", [BW_BELOW_OR_AT_MOST] = "below or at most",
    };
    return words[bound];
}

bool bw_bound_strict(bw_criterion_bound bound)
{
    return bound == BW_BELOW || bound == BW_ABOVE ||
           bound == BW_BELOW_OR_AT_MOST;
}

bool bw_bound_least(bw_criterion_bound bound)
{
    return bound == BW_AT_LEAST || bound == BW_ABOVE;
}

double bw_criterion_loosest(const bw_criterion_facts *facts)
{
    return facts->may_be[bw_bound_least(facts->bound) ? 0 : 1];
}

char *bw_criterion_limit_text(char *text, size_t size,
                              const bw_criterion_facts *facts)
{
    const bool bare = strcmp(facts->unit, "-") == 0;
    size_t at = (size_t)snprintf(
        text, size, "%s%s%s", bw_bound_text(facts->bound),
        facts->limit_is[0] != '\0' ? " " : "", facts->limit_is);
    for (size_t k = 0; k < facts->limit_count && at < size; k++) {
        const bw_criterion_limit *limit = &facts->limit[k];
        const bool named = limit->where[0] != '\0', first = k == 0;
        at += (size_t)snprintf(
            text + at, size - at, "%s %s%s%s%s%s%s", first ? "" : ",",
            BW_NUMBER_G(limit->value, 6), first && !bare ? " " : "",
            first && !bare ? facts->unit : "", named ? " (" : "", limit->where,
            named ? ")" : "");
    }
    return text;
}
