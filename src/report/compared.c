#include "compared.h"

#include <string.h>

#include "names.h"
#include "part.h"

/* The rows of a comparison, and its walls in columns. */

bw_common bw_row_limit(const bw_compare_row *row, size_t walls, double *limit)
{
    bw_common found = BW_COMMON_NONE;
    for (size_t i = 0; row->is_criterion && i < walls; i++) {
        const bw_criterion *c = row->criterion[i];
        if (c == NULL || !c->has_limit)
            continue;
        if (found == BW_COMMON_ONE && fabs(*limit - c->limit) > 0.0)
            return BW_COMMON_OWN;
        *limit = c->limit;
        found = BW_COMMON_ONE;
    }
    return found;
}

const char *bw_row_unit(const char *unit)
{
    if (strcmp(unit, "m") == 0)
        return "mm";
    return strcmp(unit, "-") == 0 ? "" : bw_shown_unit(unit);
}

const char *bw_row_value(bw_page *page, const char *unit, double value)
{
    if (strcmp(unit, "m") == 0)
        return bw_fixed(page, 1e3 * value, 1);
    if (strcmp(unit, "months") == 0)
        return bw_fixed(page, value, 1);
    return bw_shown_value(page, value, unit);
}

/* ---- amounts ----------------------------------------------------------- */

const char *bw_row_amount(bw_page *page, double value, const char *unit)
{
    const char *shown = bw_row_unit(unit);
    return bw_phrase(page, "%s%s%s", bw_row_value(page, unit, value),
                     shown[0] != '\0' ? " " : "", shown);
}

const char *bw_stressed_figure(bw_page *page, const bw_stressed *s)
{
    const bw_figure *f = &s->figure;
    if (f->criterion == NULL || f->criterion[0] == '\0' || !isfinite(f->value))
        return "";
    const char *name = bw_phrase(page, "%.*s", (int)strcspn(f->criterion, " ("),
                                 f->criterion);
    const char *limit = !isfinite(f->limit) || bw_is_good(s->verdict) ? ""
                        : f->never ? bw_row_amount(page, f->limit, f->unit)
                                   : bw_row_value(page, f->unit, f->limit);
    return bw_phrase(
        page, "%s %s%s", bw_plain_id(page, name),
        f->never ? bw_arena_not_within(&page->arena, f->value, f->unit)
                 : bw_row_amount(page, f->value, f->unit),
        limit[0] != '\0' ? bw_phrase(page, " (limit %s)", limit) : "");
}

/* ---- cells ------------------------------------------------------------- */

/* Does it decide for any of the walls? */
static bool decides(const bw_compare_row *row, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (row->criterion[i] != NULL && row->criterion[i]->decides)
            return true;
    return false;
}

const char *bw_row_title(bw_page *page, const bw_compare_row *row, size_t count)
{
    if (!row->is_criterion || decides(row, count))
        return row->title;
    return bw_phrase(page, "%s (shown only)", row->title);
}

const char *bw_row_cell(bw_page *page, const bw_comparison *all,
                        const bw_compare_row *row, size_t wall)
{
    const size_t count = all->wall_count;
    const char *value = row->has_value[wall]
                            ? bw_row_value(page, row->unit, row->value[wall])
                            : row->instead[wall];
    if (!row->is_criterion)
        return value;
    const bw_criterion *c = row->criterion[wall];
    if (c == NULL)
        return value;
    const char *word = bw_criterion_verdict(page, c);
    if (all->by_months_reason != NULL && row->by_months && !c->screening)
        word = bw_phrase(page, "%s (screening)", word);
    if (!c->decides && decides(row, count))
        word = bw_phrase(page, "%s, shown only", word);
    return value[0] != '\0' ? bw_phrase(page, "%s: %s", word, value) : word;
}

const char *bw_row_limit_text(bw_page *page, const bw_compare_row *row,
                              size_t count)
{
    double limit = 0.0;
    const bw_common common = bw_row_limit(row, count, &limit);
    return common == BW_COMMON_OWN   ? "*"
           : common == BW_COMMON_ONE ? bw_shown_value(page, limit, row->unit)
                                     : "";
}

const char *bw_compared_verdict(bw_page *page, const bw_compared *wall)
{
    const bw_verdict alone = wall->assessment->verdict;
    return wall->verdict == alone
               ? bw_verdict_text(alone)
               : bw_phrase(page, "%s (screening: %s by months)",
                           bw_verdict_text(wall->verdict),
                           bw_verdict_text(alone));
}

/* ---- walls side by side ------------------------------------------------ */

void bw_walls_side_by_side(bw_page *page, const bw_comparison *c,
                           bw_walls_fill *fill, const void *what)
{
    bw_walls_shown shown = {.of = c, .what = what};
    for (shown.from = 0; shown.from < c->wall_count; shown.from = shown.to) {
        bw_grid grid;
        shown.to = c->wall_count + 1;
        do {
            shown.to--;
            grid = (bw_grid){.page = page};
            fill(page, &grid, &shown);
        } while (shown.to > shown.from + 1 && !bw_grid_fits(&grid));
        if (shown.from > 0)
            bw_blank(page);
        bw_grid_print(&grid);
    }
}

bool bw_walls_are_many(const bw_page *page, const bw_comparison *c)
{
    enum { BESIDE = 3 };
    return page->options->extent == BW_EXTENT_SCREEN &&
           (c->wall_count > BESIDE || bw_is_tight(page));
}

const char *bw_compared_name(bw_page *page, const bw_comparison *c, size_t wall)
{
    enum { LONG = 28 };
    bool any = false;
    for (size_t i = 0; i < c->wall_count; i++)
        any = any ||
              bw_columns(c->wall[i].label, strlen(c->wall[i].label)) > LONG;
    return any && page->options->extent == BW_EXTENT_SCREEN
               ? bw_phrase(page, "%c", 'A' + (int)wall)
               : c->wall[wall].label;
}
