/* What the library says of its criteria: docs/criteria.md, or with "terms" the
 * names that docs/profile.xsd lists. tests/tables.sh compares and updates both.
 *   usage: describe_criteria [terms] */

#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"

static const char head[] =
    "# Criteria\n"
    "\n"
    "<!-- Written by tests/tables.sh from src/criterion/every_criterion.h; "
    "change it\n"
    "there. -->\n"
    "\n"
    "What a wall is judged by, in the order of the reports. A limit is in the "
    "unit of\n"
    "the value. How the rows make a verdict, what each of them looks at and "
    "what the\n"
    "marks mean: [Criteria and verdict](methods.md#criteria-and-verdict). "
    "`bothways\n"
    "check --profile list` prints them, too, and the rules of the national "
    "rule sets\n"
    "after them; the library has them in `criterion.h`.\n"
    "\n"
    "*Marginal*: a value that holds by less than that (a share is of the "
    "limit, and twice\n"
    "as much where a layer of the section is only assumed), or *inspect*: one "
    "beyond the\n"
    "limit, which never fails. *Decides*: `always` where it is assessed; "
    "`months`, as a\n"
    "cross-check of the simulation, alone where there is none; `demanded`, "
    "only by a\n"
    "rule set that asks for it; `shown`, never.\n"
    "\n"
    "| criterion | what it is | method | unit | limit | marginal | decides | "
    "rule |\n"
    "|---|---|---|---|---|---|---|---|\n";

static const char terms_head[] =
    "\n"
    "## What a rule set may limit\n"
    "\n"
    "A [rule set](input.md#rule-sets) limits these, each with the word and the "
    "unit of\n"
    "its limit. What has a default limit is *tightened*, for every wall, and "
    "decides;\n"
    "the last column names what else has the limit.\n"
    "\n"
    "| criterion | limit | | and |\n"
    "|---|---|---|---|\n";

static bool is_term(const bw_criterion_facts *facts)
{
    return facts->may_be[1] > 0.0;
}

static void put_marginal(const bw_criterion_facts *f)
{
    const bool zero = f->limit_count > 0 && !(f->limit[0].value > 0.0) &&
                      f->marginal == BW_MARGINAL_BY_SHARE;
    if (f->bound == BW_NO_LIMIT || strcmp(f->method, "audit") == 0 || zero)
        return;
    if (f->marginal == BW_MARGINAL_BEYOND)
        printf("inspect");
    else if (f->marginal == BW_MARGINAL_BY_AMOUNT)
        printf("%.10g", f->marginal_by);
    else
        printf("%.10g %%", 100.0 * BW_MARGINAL_SHARE);
}

static const char *decides(const bw_criterion_facts *f)
{
    if (f->informative)
        return "shown";
    return f->role == BW_BY_MONTHS   ? "months"
           : f->role == BW_BY_BLOCKS ? "demanded"
                                     : "always";
}

static void put_criterion(const bw_criterion_facts *f)
{
    char limit[BW_LIMIT_TEXT];
    printf("| `%s` | %s | %s | %s | %s | ", f->name, f->title, f->method,
           f->unit, bw_criterion_limit_text(limit, sizeof limit, f));
    put_marginal(f);
    printf(" | %s | %s |\n", decides(f), f->rule);
}

/* The word of a limit in a file. */
static const char *word(bw_criterion_bound bound)
{
    switch (bound) {
    case BW_AT_LEAST:
    case BW_ABOVE:
        return "`least`";
    case BW_BELOW:
        return "`below`";
    case BW_BELOW_OR_AT_MOST:
        return "`below` or `most`";
    default:
        return "`most`";
    }
}

/* "kg/(m2 a)" of a row is "kg/(m2.a)" in a file. */
static void put_unit(const char *unit)
{
    if (strcmp(unit, "-") == 0)
        return;
    putchar(' ');
    for (; *unit != '\0'; unit++)
        putchar(*unit == ' ' ? '.' : *unit);
}

static bool sets(const bw_criterion_facts *term, const bw_criterion_facts *f)
{
    for (size_t k = 0; k < f->limit_count; k++)
        if (term != f && strcmp(f->limit[k].set_by, term->name) == 0)
            return true;
    return false;
}

static void put_term(const bw_criterion_facts *term)
{
    printf("| `%s` | %s %.10g to %.10g", term->name, word(term->bound),
           term->may_be[0], term->may_be[1]);
    put_unit(term->unit);
    printf(" | %s | ", term->limit_count > 0 ? "tightened" : "");
    const char *before = "";
    for (size_t i = 0; i < bw_criteria_count(); i++)
        if (sets(term, bw_criteria_at(i))) {
            printf("%s`%s`", before, bw_criteria_at(i)->name);
            before = ", ";
        }
    printf(" |\n");
}

static void put_all(bool (*which)(const bw_criterion_facts *),
                    void (*put)(const bw_criterion_facts *))
{
    for (size_t i = 0; i < bw_criteria_count(); i++)
        if (which == NULL || which(bw_criteria_at(i)))
            put(bw_criteria_at(i));
}

static void put_name(const bw_criterion_facts *term)
{
    printf("              <xs:enumeration value=\"%s\"/>\n", term->name);
}

int main(int count, char **argument)
{
    if (count > 1 && strcmp(argument[1], "terms") == 0) {
        put_all(is_term, put_name);
    } else {
        printf("%s", head);
        put_all(NULL, put_criterion);
        printf("%s", terms_head);
        put_all(is_term, put_term);
    }
    return fflush(stdout) == 0 ? 0 : 1;
}
