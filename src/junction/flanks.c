/* Linear thermal transmittance, ISO 10211 [from memory, high]:
 *
 *   psi = L2D - sum U_k l_k
 *
 * over the plane walls that leave the drawing at its cuts: U from the layers at
 * the cut, l along the straight face that ends there, on the room's side for
 * inner dimensions and outside for outer ones. Where the face runs on to the
 * cut on the other side, each of the two walls has half.
 *
 * Invariant: a plane wall drawn in two dimensions has psi 0. */

#include "flanks.h"

typedef struct cut {
    const bw_junction_heat *heat;
    const double *surface;
    bw_cell_side side;
} cut;

/* Along a cut: cell number k of a line of `cells` across the wall. */
static size_t cells_along(const cut *c)
{
    const bool upright = c->side == BW_EDGE_LEFT || c->side == BW_EDGE_RIGHT;
    return upright ? c->heat->raster.ny : c->heat->raster.nx;
}

static size_t cell_at(const cut *c, size_t k)
{
    const bw_raster *r = &c->heat->raster;
    switch (c->side) {
    case BW_EDGE_LEFT:
        return k * r->nx;
    case BW_EDGE_RIGHT:
        return k * r->nx + r->nx - 1;
    case BW_EDGE_BELOW:
        return k;
    case BW_EDGE_ABOVE:
    case BW_EDGES:
        break;
    }
    return (r->ny - 1) * r->nx + k;
}

static const bw_raster_face *face_of_cell(const bw_raster *r, size_t cell,
                                          bw_cell_side side)
{
    for (size_t f = 0; f < r->face_count; f++)
        if (r->face[f].cell == cell && r->face[f].side == side)
            return &r->face[f];
    return NULL;
}

/* How far the straight face that a face at the cut belongs to goes on. */
static double run_of(const cut *c, const bw_raster_face *start)
{
    const bw_raster *r = &c->heat->raster;
    const bool upright = c->side == BW_EDGE_LEFT || c->side == BW_EDGE_RIGHT;
    const bool back = c->side == BW_EDGE_RIGHT || c->side == BW_EDGE_ABOVE;
    const size_t step = upright ? 1 : r->nx;
    const size_t most = upright ? r->nx : r->ny;
    double length = 0.0;
    const bw_raster_face *face = start;
    for (size_t k = 0; k < most; k++) {
        length += face->length;
        if (k + 1 == most) /* the other cut */
            return 0.5 * length;
        const size_t next = back ? face->cell - step : face->cell + step;
        const bw_raster_face *beside = face_of_cell(r, next, start->side);
        if (beside == NULL || beside->environment != start->environment)
            return length;
        face = beside;
    }
    return length;
}

/* A wall from cell k0 to k1 (not included) of the cut. */
static void add_flank(bw_junction_heat *h, const cut *c, size_t k0, size_t k1)
{
    const bw_raster *r = &c->heat->raster;
    const bool upright = c->side == BW_EDGE_LEFT || c->side == BW_EDGE_RIGHT;
    const bw_raster_face *a = face_of_cell(
        r, cell_at(c, k0), upright ? BW_EDGE_BELOW : BW_EDGE_LEFT);
    const bw_raster_face *b = face_of_cell(
        r, cell_at(c, k1 - 1), upright ? BW_EDGE_ABOVE : BW_EDGE_RIGHT);
    if (a == NULL || b == NULL || a->environment == b->environment ||
        h->flank_count == BW_MOST_FLANKS)
        return;
    const bw_environment *e = h->junction->environment;
    const bool a_in = e[a->environment].kind == BW_ENVIRONMENT_ROOM;
    const bool b_in = e[b->environment].kind == BW_ENVIRONMENT_ROOM;
    if (a_in == b_in)
        return;
    double resistance = c->surface[a->environment] + c->surface[b->environment];
    const double *line = upright ? r->y : r->x;
    for (size_t k = k0; k < k1; k++)
        resistance +=
            (line[k + 1] - line[k]) /
            h->junction->material[r->material[cell_at(c, k)]].conductivity;
    h->flank[h->flank_count++] = (bw_flank){.side = c->side,
                                            .transmittance = 1.0 / resistance,
                                            .inner = run_of(c, a_in ? a : b),
                                            .outer = run_of(c, a_in ? b : a)};
}

void bw_flanks_find(bw_junction_heat *h, const double *surface)
{
    for (int side = 0; side < BW_EDGES; side++) {
        const cut c = {h, surface, (bw_cell_side)side};
        size_t from = 0;
        if (!h->junction->symmetry[side])
            continue;
        for (size_t k = 0; k <= cells_along(&c); k++) {
            if (k < cells_along(&c) &&
                h->raster.material[cell_at(&c, k)] != BW_NOT_THERE)
                continue;
            if (k > from)
                add_flank(h, &c, from, k);
            from = k + 1;
        }
    }
    h->has_psi = h->flank_count > 0;
    for (size_t e = 0; e < h->environment_count; e++)
        if (h->junction->environment[e].kind == BW_ENVIRONMENT_GROUND)
            h->has_psi = false;
    h->psi_inner = h->psi_outer = h->l2d.value;
    for (size_t k = 0; k < h->flank_count; k++) {
        h->psi_inner -= h->flank[k].transmittance * h->flank[k].inner;
        h->psi_outer -= h->flank[k].transmittance * h->flank[k].outer;
    }
}
