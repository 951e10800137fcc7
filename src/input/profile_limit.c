#include "profile_reader.h"

#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "number.h"

/* The limit of a rule: a number in the unit of its criterion's row, spelt with
 * a point where the row has a blank. No other unit is taken, so that the limit
 * judged by is to the last digit the one that stands in the file. The word in
 * which it is given says what it is: at least, at most, below. */

enum { UNIT = 24, EXAMPLE = 64 };

static const char *const bounds[] = {"least", "most", "below"};
enum { BOUNDS = sizeof bounds / sizeof bounds[0] };

/* "kg/(m2 a)" of a row is "kg/(m2.a)" in a file; "" if it has no unit. */
static const char *file_unit(char text[UNIT], const bw_criterion_facts *term)
{
    snprintf(text, UNIT, "%s", strcmp(term->unit, "-") == 0 ? "" : term->unit);
    for (char *c = text; *c != '\0'; c++)
        if (*c == ' ')
            *c = '.';
    return text;
}

/* least="10 m" */
static const char *example(char text[EXAMPLE], const bw_criterion_facts *term,
                           double limit)
{
    char number[32], unit[UNIT];
    bw_number_g(number, sizeof number, limit, 6);
    file_unit(unit, term);
    snprintf(text, EXAMPLE, "%s=\"%s%s%s\"", bw_profile_bound(term), number,
             unit[0] != '\0' ? " " : "", unit);
    return text;
}

static bw_status find_bound(const char **bound, const bw_profile_reader *r,
                            const xmlNode *node, const bw_criterion_facts *term)
{
    const bool either = term->bound == BW_BELOW_OR_AT_MOST;
    char form[EXAMPLE];
    size_t given = 0;
    *bound = bounds[0];
    for (size_t i = 0; i < BOUNDS; i++) {
        if (bw_xml_value(node, bounds[i]) == NULL)
            continue;
        if (given++ > 0)
            return bw_refuse(r, node,
                             "has both %s= and %s=; a rule has one limit",
                             *bound, bounds[i]);
        *bound = bounds[i];
    }
    if (given == 0)
        return bw_refuse(r, node, "has no limit; write for example %s",
                         example(form, term, bw_criterion_loosest(term)));
    if (strcmp(*bound, bw_profile_bound(term)) == 0 ||
        (either && strcmp(*bound, "most") == 0))
        return BW_OK;
    return bw_refuse_at(r, node, *bound,
                        "is not how %s is limited; write %s=%s", term->name,
                        bw_profile_bound(term), either ? " or most=" : "");
}

static bw_status check_unit(const bw_profile_reader *r, const xmlNode *node,
                            const char *bound, const bw_criterion_facts *term,
                            const char *found)
{
    char unit[UNIT], form[EXAMPLE];
    file_unit(unit, term);
    if (found[0] == ' ')
        found++;
    if (strcmp(found, unit) == 0)
        return BW_OK;
    if (found[0] == ',')
        return bw_refuse_at(r, node, bound, "has a decimal comma; use a point");
    if (unit[0] == '\0')
        return bw_refuse_at(r, node, bound,
                            "is a pure number for %s, no unit belongs here",
                            term->name);
    return bw_refuse_at(
        r, node, bound, "is not in %s, the unit of %s; write for example %s",
        unit, term->name, example(form, term, bw_criterion_loosest(term)));
}

static bw_status check_range(const bw_profile_reader *r, const xmlNode *node,
                             const char *bound, const bw_criterion_facts *term,
                             double limit)
{
    char low[EXAMPLE], high[EXAMPLE];
    if (limit >= term->may_be[0] && limit <= term->may_be[1])
        return BW_OK;
    if (bw_profile_loosens(term, limit))
        return bw_refuse_at(r, node, bound,
                            "is looser than the default limit, %s; a rule set "
                            "tightens or adds, it never loosens",
                            example(low, term, bw_criterion_loosest(term)));
    return bw_refuse_at(r, node, bound,
                        "is outside what is possible here, from %s to %s",
                        example(low, term, term->may_be[0]),
                        example(high, term, term->may_be[1]));
}

bw_status bw_profile_limit(bw_profile_rule *rule, const bw_profile_reader *r,
                           const xmlNode *node, const bw_criterion_facts *term)
{
    const char *bound;
    char form[EXAMPLE];
    BW_TRY(find_bound(&bound, r, node, term));
    const char *text = bw_xml_value(node, bound), *end = text;
    double limit = 0.0;
    if (!bw_number_read(text, &limit, &end))
        return bw_refuse_at(
            r, node, bound,
            "does not start with a number; write for example %s",
            example(form, term, bw_criterion_loosest(term)));
    BW_TRY(check_unit(r, node, bound, term, end));
    BW_TRY(check_range(r, node, bound, term, limit));
    rule->limit = limit;
    rule->unit = term->unit;
    rule->strict = strcmp(bound, "below") == 0;
    return BW_OK;
}
