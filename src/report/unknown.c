#include "unknown.h"

#include "names.h"

/* How far an unknown may go, in words and numbers of a margin. */

const char *bw_would(bool simulated, bw_verdict verdict)
{
    if (simulated)
        return bw_verdict_text(verdict);
    return verdict == BW_MARGINAL ? "would hold, marginally"
                                  : bw_would_be(verdict);
}

const char *bw_does(const bw_margin *m, bw_verdict verdict)
{
    if (verdict == BW_NOT_ASSESSED)
        return "is not assessed";
    if (verdict == BW_MARGINAL && m->transient)
        return "holds, marginally";
    return bw_would(m->transient, verdict);
}

const char *bw_fail_count(bw_page *page, size_t count)
{
    return bw_phrase(page, "%zu criteri%s", count,
                     count == 1 ? "on fails" : "a fail");
}

const char *bw_figure_words(bw_page *page, const bw_figure *f)
{
    if (f->criterion == NULL || f->criterion[0] == '\0')
        return "nothing";
    if (isnan(f->value))
        return f->criterion;
    const bool time = f->never && !isnan(f->limit); /* in another unit */
    return bw_phrase(
        page, "%s %s%s", f->criterion,
        f->never ? bw_arena_not_within(&page->arena, f->value, f->unit)
                 : bw_with_unit(page, f->value, 3, f->unit),
        time ? bw_phrase(page, " (limit %.3g %s)", f->limit, f->unit)
        : isnan(f->limit) ? ""
                          : bw_phrase(page, " (limit %.3g)", f->limit));
}

const char *bw_worst_words(bw_page *page, const bw_margin *m)
{
    const char *why = m->worst_combination_reason;
    return bw_phrase(page, "the wall %s, %s; %s %s",
                     bw_does(m, m->worst_combination),
                     bw_fail_count(page, m->worst_combination_fails),
                     m->worst_combination_fails > 0 ? "worst is" : "closest is",
                     why[0] != '\0' ? why : "none with a number");
}

void bw_range_cells(bw_page *page, bw_grid *grid, const bw_unknown *u)
{
    const bool number = u->unit[0] != '\0';
    if (number && !isnan(u->as_drawn))
        bw_number(grid, "As drawn", "%.4g", u->as_drawn);
    else
        bw_number(grid, "As drawn", "%s", number ? "varies" : "");
    bw_name(grid, "From to",
            number         ? bw_phrase(page, "%.4g to %.4g", u->low, u->high)
            : u->two_ended ? "low / high"
                           : "off / on");
    bw_name(grid, "Unit", u->unit);
}

bool bw_cell_lacks(const bw_margin *m, const bw_sd_cell *cell)
{
    return cell->reserve < m->map_limit || cell->reserve < 0.0;
}

static const char *own_sd(bw_page *page, double sd)
{
    return sd > 0.0 ? bw_phrase(page, "sd %.3g m", sd) : "no such layer";
}

const char *bw_own_cell_text(bw_page *page, const bw_margin *m)
{
    return bw_phrase(page, "inside %s, outside %s (dry)",
                     own_sd(page, m->own_inner_sd),
                     own_sd(page, m->own_outer_sd));
}
