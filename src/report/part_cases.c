/* What a margin simulated: the wall as drawn and the cases that tell most, each
 * with the figure that decides. */

#include "grid.h"
#include "part.h"
#include "unknown.h"

static void add_case(bw_grid *g, const bw_simulated *s)
{
    const bw_figure *f = &s->figure;
    const bool ran = s->simulated;
    bw_grid_row_start(g);
    bw_words(g, "Case", s->setting);
    bw_words(g, "Wall", ran ? bw_verdict_text(s->verdict) : "not simulated");
    bw_words(g, "Decides", ran && f->criterion[0] != '\0' ? f->criterion : "-");
    bw_number(g, "Value", "%s%.3g", ran && f->never ? ">" : "",
              bw_if(ran, f->value));
    bw_number(g, "Limit", "%.3g", bw_if(ran, f->limit));
    bw_name(g, "Unit", ran ? f->unit : "");
    bw_number(g, "Margin %", "%.0f", bw_if(ran, 100.0 * f->margin));
    bw_number(g, "First %", "%.0f", bw_if(ran, 100.0 * s->margin_as_drawn));
}

BW_PART(cases, "The wall as drawn and the most telling cases: simulated")
{
    const bw_margin *m = of->margin;
    bw_grid grid = {.page = page};
    if (m->simulated_count == 0)
        return;
    for (size_t i = 0; i < m->simulated_count; i++)
        add_case(&grid, &m->simulated[i]);
    bw_grid_print(&grid);
    bw_text(page,
            "Decides: of the criteria that give the case its verdict the one "
            "with the least margin, as a share of its limit. First %%: the "
            "margin of the criterion that decides as drawn. Chosen: in turn "
            "what moves the steady methods most and what they cannot see; %zu "
            "more unknowns were not simulated.",
            m->not_simulated);
    bw_text(page,
            "Not varied: the climate and its year, the indoor temperature, "
            "dimensions that the file is sure of, mould classes, air that "
            "washes through insulation, joints and corners.");
}

/* ---- on one screen ------------------------------------------------------- */

/* Worst first; as drawn is said already. */
static int rank(const bw_simulated *s)
{
    static const int ranks[] = {[BW_FAILS] = 0,
                                [BW_NOT_ASSESSED] = 1,
                                [BW_MARGINAL] = 2,
                                [BW_HOLDS] = 3};
    return s->simulated ? ranks[s->verdict] : 1;
}

static bool worse(const bw_simulated *a, const bw_simulated *b)
{
    return rank(a) != rank(b) ? rank(a) < rank(b)
                              : a->figure.margin < b->figure.margin;
}

/* Index of the case that is worst after so many others. */
static size_t nth(const bw_margin *m, size_t n)
{
    for (size_t i = 1; i < m->simulated_count; i++) {
        size_t before = 0;
        for (size_t k = 1; k < m->simulated_count; k++)
            before += worse(&m->simulated[k], &m->simulated[i]) ||
                      (k < i && !worse(&m->simulated[i], &m->simulated[k]));
        if (before == n)
            return i;
    }
    return 0;
}

static void tell_case(bw_page *page, bw_grid *g, const bw_simulated *s)
{
    bw_grid_row_start(g);
    bw_words(g, "What may be otherwise, the worst first",
             s->unknown[0] != '\0' ? s->setting
                                   : "all that is worse than drawn, together");
    bw_words(g, "The wall then",
             s->simulated ? bw_verdict_text(s->verdict) : "not assessed");
    bw_words(g, "Decides",
             s->simulated ? bw_figure_words(page, &s->figure)
                          : "not simulated");
}

static void tell_unknown(bw_page *page, bw_grid *g, const bw_margin *m,
                         const bw_unknown *u)
{
    bw_grid_row_start(g);
    bw_words(g, "What may be otherwise, the most telling first", u->name);
    bw_range_cells(page, g, u);
    bw_words(g, "Wall low, off", bw_would(m->transient, u->verdict_low));
    bw_words(g, "Wall high, on", bw_would(m->transient, u->verdict_high));
}

BW_PART(telling, NULL)
{
    const bw_margin *m = of->margin;
    const size_t room = page->cut + 3 < BW_ITEMS ? BW_ITEMS - page->cut : 3;
    bw_grid grid = {.page = page};
    if (page->options->extent == BW_EXTENT_FULL)
        return;
    for (size_t n = 0; n < room && n + 1 < m->simulated_count; n++)
        tell_case(page, &grid, &m->simulated[nth(m, n)]);
    for (size_t n = 0; m->simulated_count == 0 && n < room &&
                       n < m->unknown_count && m->unknown[n].swing > 0.0;
         n++)
        tell_unknown(page, &grid, m, &m->unknown[n]);
    bw_blank(page);
    bw_grid_print(&grid);
}
