/* Below the answer of a comparison: what decides each wall and how each dries;
 * each under the same stresses. Of many walls a line each.
 *
 * Invariant: walls stand in the columns as given, in lines the best first. */

#include <string.h>

#include "compared.h"
#include "names.h"
#include "part.h"
#include "unknown.h"

/* ---- what decides, and how each dries ------------------------------------ */

static bool decides_somewhere(const bw_comparison *c, const char *name)
{
    for (size_t i = 0; i < c->wall_count; i++) {
        const bw_criterion *d = c->wall[i].assessment->deciding;
        if (d != NULL && strcmp(d->criterion, name) == 0)
            return true;
    }
    return false;
}

/* What it is called here; NULL: it is not here. */
static const char *brief_title(bw_page *page, const bw_comparison *c,
                               const bw_compare_row *row)
{
    static const struct {
        const char *name, *title;
    } brief[] = {
        {"simulated-months-to-dry", "To dry, both ways"},
        {"simulated-months-to-dry-outwards", "To dry, outwards only"},
        {"simulated-months-to-dry-inwards", "To dry, inwards only"},
        {"months-to-dry", "To dry, both ways"},
        {"months-to-dry-outwards", "To dry, outwards only"},
        {"months-to-dry-inwards", "To dry, inwards only"},
        {"u-value", "U-value"},
        {"total-thickness", "Total thickness"},
    };
    if (row->is_criterion)
        return decides_somewhere(c, row->name)
                   ? bw_capital(page, bw_plain_id(page, row->name))
                   : NULL;
    for (size_t i = 0; i < sizeof brief / sizeof *brief; i++)
        if (strcmp(brief[i].name, row->name) == 0)
            return row->by_months && c->simulated ? NULL : brief[i].title;
    return NULL;
}

/* "not in 12 months": how much is left stands further down. */
static const char *brief_cell(bw_page *page, const bw_comparison *c,
                              const bw_compare_row *row, size_t wall)
{
    return row->is_criterion || row->has_value[wall]
               ? bw_row_cell(page, c, row, wall)
               : bw_phrase(page, "%.*s", (int)strcspn(row->instead[wall], ":"),
                           row->instead[wall]);
}

static void fill_brief(bw_page *page, bw_grid *grid,
                       const bw_walls_shown *shown)
{
    const bw_comparison *c = shown->of;
    bw_grid_row_start(grid);
    bw_words(grid, "As drawn", "Verdict");
    bw_name(grid, "Unit", "");
    bw_number(grid, "Limit", "%s", "");
    for (size_t i = shown->from; i < shown->to; i++)
        bw_words(grid, bw_compared_name(page, c, i),
                 bw_compared_verdict(page, &c->wall[i]));
    for (size_t k = 0; k < 2 * c->row_count; k++) { /* what decides first */
        const bw_compare_row *row =
            &c->row[k < c->row_count ? k : k - c->row_count];
        const char *title = row->is_criterion == (k < c->row_count)
                                ? brief_title(page, c, row)
                                : NULL;
        if (title == NULL)
            continue;
        bw_grid_row_start(grid);
        bw_words(grid, "As drawn", title);
        bw_name(grid, "Unit", bw_row_unit(row->unit));
        bw_number(grid, "Limit", "%s",
                  bw_row_limit_text(page, row, c->wall_count));
        for (size_t i = shown->from; i < shown->to; i++)
            bw_words(grid, bw_compared_name(page, c, i),
                     brief_cell(page, c, row, i));
    }
}

/* ---- the same stresses --------------------------------------------------- */

static const char *stressed_text(bw_page *page, const bw_stressed *s)
{
    if (!s->applies)
        return s->reason;
    if (s->reason[0] != '\0')
        return bw_phrase(page, "not assessed: %s", s->reason);
    if (s->verdict == BW_NOT_ASSESSED && s->outcome != BW_NOT_ASSESSED)
        return bw_phrase(page, "not assessed (%s)",
                         bw_would(false, s->outcome));
    const char *figure = bw_stressed_figure(page, s);
    return bw_phrase(page, "%s%s%s", bw_verdict_text(s->verdict),
                     figure[0] != '\0' ? ": " : "", figure);
}

/* With the setting where it reads the same for all. */
static const char *stress_text(bw_page *page, const bw_comparison *c,
                               const bw_stress *stress)
{
    const char *setting = "";
    for (size_t i = 0; i < c->wall_count; i++) {
        const bw_stressed *s = &stress->wall[i];
        if (s->applies && setting[0] != '\0' &&
            strcmp(s->setting, setting) != 0)
            return stress->title;
        if (s->applies)
            setting = s->setting;
    }
    return bw_capital(page, setting);
}

static void fill_stresses(bw_page *page, bw_grid *grid,
                          const bw_walls_shown *shown)
{
    static const char title[] = "Under the same stress";
    const bw_comparison *c = shown->of;
    for (size_t k = 0; k < c->stress_count; k++) {
        bw_grid_row_start(grid);
        bw_words(grid, title, stress_text(page, c, &c->stress[k]));
        for (size_t i = shown->from; i < shown->to; i++)
            bw_words(grid, bw_compared_name(page, c, i),
                     stressed_text(page, &c->stress[k].wall[i]));
    }
    bw_grid_row_start(grid);
    bw_words(grid, title, "Held");
    for (size_t i = shown->from; i < shown->to; i++)
        bw_words(grid, bw_compared_name(page, c, i),
                 bw_phrase(page, "%zu of %zu",
                           c->wall[i].stresses - c->wall[i].not_held,
                           c->wall[i].stresses));
}

/* ---- both, or of many walls a line each ---------------------------------- */

static const char *lost_text(bw_page *page, const bw_comparison *c, size_t wall)
{
    const char *text = "";
    for (size_t k = 0; k < c->stress_count; k++) {
        const bw_stressed *s = &c->stress[k].wall[wall];
        if (s->applies && !bw_is_good(s->verdict))
            text = bw_phrase(page, "%s%s%s", text, text[0] == '\0' ? "" : ", ",
                             bw_plain_id(page, c->stress[k].name));
    }
    return text[0] != '\0' ? text : "none";
}

/* "0.8 / 0.8 / never": both ways, outwards, inwards. */
static const char *dry_text(bw_page *page, const bw_comparison *c, size_t wall)
{
    static const char *const names[] = {
        "months-to-dry", "months-to-dry-outwards", "months-to-dry-inwards"};
    const char *text = "";
    for (size_t i = 0; i < 3; i++)
        for (size_t k = 0; k < c->row_count; k++) {
            const bw_compare_row *row = &c->row[k];
            const char *name = strstr(row->name, names[0]);
            if (name == NULL || strcmp(name, names[i]) != 0 ||
                row->by_months == c->simulated)
                continue;
            const bool never = strncmp(row->instead[wall], "not in", 6) == 0;
            text = bw_phrase(
                page, "%s%s%s", text, i > 0 ? " / " : "",
                row->has_value[wall]
                    ? bw_row_value(page, row->unit, row->value[wall])
                : never ? "never"
                        : "-");
        }
    return text;
}

static void put_lines(bw_page *page, const bw_comparison *c)
{
    enum { BESIDE = 3 }; /* room is left */
    bw_grid grid = {.page = page};
    for (size_t n = 0; n < c->wall_count; n++) {
        const size_t i = c->order[n];
        const bw_compared *w = &c->wall[i];
        const bw_criterion *d = w->assessment->deciding;
        bw_grid_row_start(&grid);
        bw_words(&grid, "Wall, the best first", bw_compared_name(page, c, i));
        bw_words(&grid, "Verdict", bw_verdict_text(w->verdict));
        bw_words(&grid, "Decides",
                 d != NULL && d->has_value
                     ? bw_phrase(page, "%s %s", bw_plain_id(page, d->criterion),
                                 d->never
                                     ? bw_not_within(page, d)
                                     : bw_row_amount(page, d->value, d->unit))
                     : "-");
        bw_number(&grid, "U W/(m2.K)", "%.3f", w->transmittance);
        bw_words(&grid, "Dries both ways / out / in, months",
                 dry_text(page, c, i));
        bw_words(&grid, "Stresses held",
                 bw_phrase(page, "%zu of %zu", w->stresses - w->not_held,
                           w->stresses));
        if (page->cut < BW_ITEMS || c->wall_count <= BESIDE)
            bw_words(&grid, "Not held", lost_text(page, c, i));
    }
    bw_grid_print(&grid);
}

BW_PART(compare_brief, NULL)
{
    bw_blank(page);
    if (bw_walls_are_many(page, of->comparison))
        put_lines(page, of->comparison);
    else
        bw_walls_side_by_side(page, of->comparison, fill_brief, NULL);
}

BW_PART(stresses, NULL)
{
    const bw_comparison *c = of->comparison;
    if (c->stress_count == 0 || bw_walls_are_many(page, c))
        return;
    bw_blank(page);
    bw_walls_side_by_side(page, c, fill_stresses, NULL);
}
