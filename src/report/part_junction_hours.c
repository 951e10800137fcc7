/* The hours of a junction in words: what was simulated, the places with a name,
 * the faces where mould would be first, the wood. */

#include <math.h>

#include "bothways/assessment.h"
#include "grid.h"
#include "names.h"
#include "part.h"

enum { SHOWN = 4 };
static const double APART = 0.1; /* m: another place than the last */

static void put_run(bw_page *page, const bw_junction_hours *h)
{
    bw_text(page,
            "%zu cells, %d year%s from October on%s; %s. All but %.1g of the "
            "water is accounted for.",
            h->cells, h->years, h->years == 1 ? "" : "s",
            h->synthetic ? ", hours made of the months" : "",
            h->periodic ? "the last year ended as it began"
                        : bw_phrase(page,
                                    "the last year moved some place by %.1f %% "
                                    "RH",
                                    100.0 * h->state_change),
            fmax(h->balance, 1e-12));
    if (h->compared)
        bw_text(page,
                "Moved: from the same years on %zu cells, every two joined in "
                "one both ways, to these; taken as the error of a figure. It "
                "cost %.0f %% more cells times steps.",
                h->coarse_cells,
                100.0 * (double)h->coarse_cells * (double)h->coarse_steps /
                    ((double)h->cells * (double)h->steps));
    else
        bw_text(page, "How far the figures hang on the cells is not known: %s.",
                h->not_compared);
}

static void put_place(bw_grid *grid, const char *name, const bw_hour_place *p,
                      bool compared)
{
    bw_grid_row_start(grid);
    bw_words(grid, "Place", name);
    bw_number(grid, "x mm", "%.0f", 1e3 * p->x);
    bw_number(grid, "y mm", "%.0f", 1e3 * p->y);
    bw_name(grid, "Dampest", bw_month_name(p->dampest));
    bw_number(grid, "mean RH %", "%.0f", 100.0 * p->month_rh[p->dampest]);
    if (compared)
        bw_number(grid, "moved", "%.1f", 100.0 * p->moved.rh);
    bw_number(grid, "hours over 80 %", "%.0f", p->above_80);
    bw_number(grid, "over 95 %", "%.0f", p->above_95);
    bw_number(grid, "mould index", "%.2f", p->mould);
    if (compared)
        bw_number(grid, "moved", "%.2f", p->moved.mould);
    bw_number(grid, "slow decline", "%.2f", p->mould_slow);
}

static double most_of(const double *value)
{
    double most = value[0];
    for (size_t i = 1; i < BW_SPANS; i++)
        most = fmax(most, value[i]);
    return most;
}

static void put_spots(bw_page *page, const bw_junction_hours *h)
{
    bw_grid grid = {.page = page};
    for (size_t k = 0; k < h->spot_count; k++) {
        const bw_hour_spot *s = &h->spot[k];
        put_place(&grid, bw_capital(page, s->name), &h->place[s->place],
                  h->compared);
        if (s->wood >= 0)
            bw_remark(&grid,
                      "Wood there: five days' mean at most %.1f %% by "
                      "mass%s",
                      100.0 * most_of(s->moisture),
                      h->compared ? bw_phrase(page, ", moved by %.1f %%",
                                              100.0 * s->moved_moisture)
                                  : "");
    }
    bw_grid_print(&grid);
}

/* The mouldiest face that lies apart from those already shown. */
static const bw_hour_place *next_place(const bw_junction_hours *h,
                                       const bw_hour_place *const *shown,
                                       size_t count)
{
    const bw_hour_place *worst = NULL;
    for (size_t k = 0; k < h->place_count; k++) {
        const bw_hour_place *p = &h->place[k];
        bool apart = true;
        for (size_t i = 0; i < count; i++)
            apart = apart &&
                    hypot(p->x - shown[i]->x, p->y - shown[i]->y) > APART;
        if (apart &&
            (worst == NULL || p->mould > worst->mould ||
             (!(p->mould < worst->mould) && p->above_80 > worst->above_80)))
            worst = p;
    }
    return worst;
}

static void put_worst(bw_page *page, const bw_junction_hours *h)
{
    const bw_hour_place *shown[SHOWN];
    bw_grid grid = {.page = page};
    for (size_t k = 0; k < SHOWN; k++) {
        const bw_hour_place *p = next_place(h, shown, k);
        if (p == NULL)
            break;
        shown[k] = p;
        put_place(&grid,
                  p->room ? bw_phrase(page, "%s to \"%s\"", p->beside[0],
                                      p->beside[1])
                          : bw_phrase(page, "between %s and %s", p->beside[0],
                                      p->beside[1]),
                  p, h->compared);
    }
    bw_grid_print(&grid);
}

static void put_wood(bw_page *page, const bw_junction_hours *h)
{
    for (size_t k = 0; k < h->wood_count; k++) {
        const bw_hour_wood *w = &h->wood[k];
        const bool moved = h->compared && isfinite(w->moved.highest);
        bw_item(
            page,
            "%s: wettest 10 mm %.1f %% by mass%s in %s (x %.0f mm, y %.0f "
            "mm), %.0f h above %.0f %%; decay dose of that year %.1f d%s%s",
            w->name, 100.0 * w->highest,
            moved ? bw_phrase(page, ", moved by %.1f %%,",
                              100.0 * w->moved.highest)
                  : "",
            bw_month_name(w->month), 1e3 * w->x, 1e3 * w->y, w->hours_above,
            100.0 * w->limit, w->dose,
            moved ? bw_phrase(page, ", moved by %.1f d", w->moved.dose) : "",
            w->exposed ? "; it shows a face to the outside, not judged" : "");
    }
}

BW_PART(junction_hours, "Within, hour by hour")
{
    const bw_junction_hours *h = &of->junction->hours;
    if (!h->asked)
        return;
    if (!h->ran) {
        bw_text(page, "Not simulated: %s.", h->reason);
        return;
    }
    put_run(page, h);
    put_spots(page, h);
    bw_text(page, "Where mould would be first, of all faces:");
    put_worst(page, h);
    put_wood(page, h);
}
