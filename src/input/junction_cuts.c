/* Where a drawing is cut. Walls are to go on for 1 m, or three times their
 * thickness where that is more, unless the cut is a plane of symmetry: ISO
 * 10211's cut-off planes [from memory, medium].
 *
 * Invariant: nobody can tell a plane of symmetry from a wall cut short, so that
 * it is a warning, and says both. */

#include <math.h>

#include "junction_reader.h"
#include "patches.h"

static const double least = 1.0, thicknesses = 3.0; /* m, - */

/* Patches seen from a side: line k away from it, place i along it. */
typedef struct view {
    const bw_patches *p;
    bw_cell_side side;
} view;

static bool upright(const view *v)
{
    return v->side == BW_EDGE_LEFT || v->side == BW_EDGE_RIGHT;
}

static size_t depth_of(const view *v)
{
    return upright(v) ? v->p->nx : v->p->ny;
}

static size_t length_of(const view *v)
{
    return upright(v) ? v->p->ny : v->p->nx;
}

static size_t patch_at(const view *v, size_t k, size_t i)
{
    const bool far = v->side == BW_EDGE_RIGHT || v->side == BW_EDGE_ABOVE;
    const size_t at = far ? depth_of(v) - 1 - k : k;
    return upright(v) ? i * v->p->nx + at : at * v->p->nx + i;
}

static int what(const view *v, const bw_junction *j, size_t k, size_t i)
{
    const int filling = v->p->filling[patch_at(v, k, i)];
    return filling == BW_NOT_THERE ? BW_NOT_THERE
                                   : (int)j->filling[filling].material;
}

/* Every rectangle has its own entry, of whatever material. */
static bool same(const bw_junction *j, int a, int b)
{
    if (a == b || a == BW_NOT_THERE || b == BW_NOT_THERE)
        return a == b;
    const bw_drawn_material *one = &j->material[a], *other = &j->material[b];
    return one->material == other->material &&
           fabs(one->conductivity - other->conductivity) <= 0.0;
}

static bool alike(const view *v, const bw_junction *j, size_t k)
{
    for (size_t i = 0; i < length_of(v); i++)
        if (!same(j, what(v, j, k, i), what(v, j, 0, i)))
            return false;
    return true;
}

/* m from the side to the first change; HUGE_VAL: none. */
static double clear_of(const view *v, const bw_junction *j)
{
    const double *line = upright(v) ? v->p->x : v->p->y;
    const size_t n = depth_of(v);
    const bool far = v->side == BW_EDGE_RIGHT || v->side == BW_EDGE_ABOVE;
    for (size_t k = 1; k < n; k++)
        if (!alike(v, j, k))
            return far ? line[n] - line[n - k] : line[k] - line[0];
    return HUGE_VAL;
}

/* m, of the thickest wall at the side. */
static double thickest(const view *v)
{
    const double *line = upright(v) ? v->p->y : v->p->x;
    double most = 0.0, here = 0.0;
    for (size_t i = 0; i < length_of(v); i++) {
        here = v->p->filling[patch_at(v, 0, i)] == BW_NOT_THERE
                   ? 0.0
                   : here + line[i + 1] - line[i];
        most = fmax(most, here);
    }
    return most;
}

void bw_note_cuts(bw_junction_reader *j, const bw_patches *patches)
{
    static const char *const name[BW_EDGES] = {"left", "right", "below",
                                               "above"};
    const bw_junction *d = &j->d->junction;
    for (int side = 0; !j->walls && side < BW_EDGES; side++) {
        const view v = {patches, (bw_cell_side)side};
        if (!d->symmetry[side])
            continue;
        const double clear = clear_of(&v, d);
        const double wanted = fmax(least, thicknesses * thickest(&v));
        if (clear < wanted - 1e-6)
            bw_add_note(
                &j->r, BW_NOTE_WARNING, NULL,
                "the side %s is cut %.0f mm from where the drawing changes; if "
                "that is no plane of symmetry (the middle of a bay), draw the "
                "wall on for %.0f mm: 1 m or three thicknesses (ISO 10211)",
                name[side], 1e3 * clear, 1e3 * wanted);
    }
}
