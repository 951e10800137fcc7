/* The junctions that a wall names, for the site and the reviewer: what each was
 * judged with, to be looked at there. The hold point reads no evidence of them,
 * and says so.
 *
 * Invariant: a junction that was judged is on the sheet. */

#include <math.h>

#include "bothways/audit.h"
#include "gets_in.h"
#include "names.h"
#include "part.h"

/* Where the drawing goes on beyond its edge no length is told. */
static bool is_cut(const bw_junction *j, bool along_x)
{
    return along_x ? j->symmetry[BW_EDGE_LEFT] || j->symmetry[BW_EDGE_RIGHT]
                   : j->symmetry[BW_EDGE_BELOW] || j->symmetry[BW_EDGE_ABOVE];
}

static bw_rectangle extent_of(const bw_junction *j)
{
    bw_rectangle all = j->filling[0].at;
    for (size_t k = 1; k < j->filling_count; k++) {
        const bw_rectangle *r = &j->filling[k].at;
        all = (bw_rectangle){fmin(all.x0, r->x0), fmax(all.x1, r->x1),
                             fmin(all.y0, r->y0), fmax(all.y1, r->y1)};
    }
    return all;
}

static const char *size_of(bw_page *page, const bw_junction *j,
                           const bw_rectangle *r)
{
    static const double SAME = 1e-6; /* m */
    const bw_rectangle all = extent_of(j);
    const bool wide = is_cut(j, true) &&
                      (r->x0 < all.x0 + SAME || r->x1 > all.x1 - SAME);
    const bool high = is_cut(j, false) &&
                      (r->y0 < all.y0 + SAME || r->y1 > all.y1 - SAME);
    const double x = 1e3 * (r->x1 - r->x0), y = 1e3 * (r->y1 - r->y0);
    if (wide && !high)
        return bw_phrase(page, "%.1f mm, going on sideways", y);
    if (high && !wide)
        return bw_phrase(page, "%.1f mm, going on upwards", x);
    return bw_phrase(page, "%.1f mm by %.1f mm", x, y);
}

static void put_drawn(bw_page *page, const bw_junction *j)
{
    for (size_t k = 0; k < j->filling_count; k++) {
        const bw_filling *f = &j->filling[k];
        bw_hang(page, "[ ] %s: %s (x %.0f mm, y %.0f mm)",
                bw_capital(page, j->material[f->material].name),
                size_of(page, j, &f->at), 1e3 * f->at.x0, 1e3 * f->at.y0);
    }
    for (size_t k = 0; k < j->film_line_count; k++) {
        const bw_film_line *l = &j->film_line[k];
        bw_hang(page,
                "[ ] %s, without a gap from x %.0f mm, y %.0f mm to x %.0f mm, "
                "y %.0f mm",
                bw_capital(page, j->film[l->film].name), 1e3 * l->x0,
                1e3 * l->y0, 1e3 * l->x1, 1e3 * l->y1);
    }
    for (size_t k = 0; k < j->spot_count; k++)
        bw_hang(page, "[ ] Photograph: %s (x %.0f mm, y %.0f mm)",
                j->spot[k].name, 1e3 * j->spot[k].x, 1e3 * j->spot[k].y);
}

/* A leak that is stated is what it was judged with, no leave to build it. */
static void put_gets_in(bw_page *page, const bw_junction *j)
{
    for (size_t k = 0; k < j->leak_count; k++)
        if (!bw_leak_is_told(j, k))
            bw_hang(page,
                    "[ ] Rain gets in no more than it was judged with. %s",
                    bw_leak_said(page, &j->leak[k]));
    for (size_t k = 0; k < j->air_count; k++)
        bw_hang(page,
                "[ ] Room air gets in no more than it was judged with. %s",
                bw_air_said(page, j, &j->air[k]));
}

BW_PART(plan_junctions, "Junctions, as they were judged")
{
    const bw_assembly *wall = of->wall[0]->assembly;
    if (wall->junction_count == 0)
        return;
    bw_text(page, "Each is to be built as it is drawn: look, measure and "
                  "photograph before it is covered. The wall's file has no "
                  "place for this evidence and the hold point does not ask "
                  "for it: keep it with this sheet. x and y are those of the "
                  "drawing (bothways junction FILE).");
    for (size_t i = 0; i < wall->junction_count; i++) {
        const bw_junction *j = wall->junction[i].junction;
        bw_strong(page, "%s (%s, %s)", j->title, bw_plain_id(page, j->kind),
                  j->file);
        put_drawn(page, j);
        put_gets_in(page, j);
        bw_deep(page, "reference ____________________  date  __________");
    }
}

BW_PART(audit_junctions, "Junctions of this wall")
{
    const bw_assessment *a = of->wall[0];
    if (a->assembly->junction_count == 0)
        return;
    for (size_t i = 0; i < a->junction_count; i++)
        bw_item(page, "%s (%s): %s", a->junction[i]->junction->title,
                a->junction[i]->junction->file,
                bw_verdict_text(a->junction[i]->verdict));
    bw_text(page, "Not evidenced: no evidence of a junction can stand in the "
                  "wall's file, and the hold point asks for none. It stays "
                  "closed while one of them fails or is not assessed. What "
                  "each was judged with, dimensions and materials, is on the "
                  "sheet of bothways audit --plan, for those who sign.");
}
