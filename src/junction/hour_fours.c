/* Faces of a drawing four at once: those of cells with numbers in turn, which
 * lie side by side, to cells with numbers in turn. The equations are those of
 * flux.h where nothing lies in the face and both sides draw water alike:
 *
 *   g = l (p_a - p_b)/(r_va d_a + r_vb d_b) + l (F_a - F_b)/(d_a + d_b)
 *   q = l (theta_a - theta_b)/(r_ta d_a + r_tb d_b) + h_e g_v + c_w theta g
 *
 * Invariant: every face is in one four, or alone. */

#include <stdint.h>
#include <string.h>

#include "fail.h"
#include "hour_sheet.h"

enum { WIDE = 4, VALUES = 5, FLAT = VALUES + 2 };

/* Of values[VALUES]: theta, p, half resistances of a metre, flow potential. */
enum { THETA, PRESSURE, HEAT_RESISTANCE, VAPOUR_RESISTANCE, FLOW };

static size_t room_of(const bw_sheet *sheet)
{
    return (sheet->n + (size_t)2 * WIDE + WIDE - 1) / WIDE * WIDE;
}

/* ---- which go together --------------------------------------------------- */

static bool is_plain(const bw_sheet *sheet, const bw_sheet_face *f)
{
    const bool draws = sheet->hygro[f->a]->liquid || sheet->hygro[f->b]->liquid;
    return f->face.film == NULL && !(f->face.heat_resistance > 0) &&
           (f->face.same ? f->face.liquid == draws : !draws);
}

static void put(bw_sheet_four *four, size_t k, const bw_sheet_face *f)
{
    four->half_a[k] = f->half_a;
    four->half_b[k] = f->half_b;
    four->length[k] = f->length;
    four->per[k] = f->face.liquid ? f->length * f->face.per : 0;
}

/* The face from each cell to that so far on; SIZE_MAX: none that is plain. */
static void index_of(const bw_sheet *sheet, size_t apart, size_t *face)
{
    for (size_t i = 0; i < sheet->n; ++i)
        face[i] = SIZE_MAX;
    for (size_t f = 0; f < sheet->face_count; ++f)
        if (sheet->face[f].b - sheet->face[f].a == apart &&
            is_plain(sheet, &sheet->face[f]))
            face[sheet->face[f].a] = f;
}

static void gather(bw_sheet *sheet, size_t apart, size_t *face, bool *taken)
{
    index_of(sheet, apart, face);
    for (size_t i = 0; i < sheet->n; ++i) {
        if (face[i] == SIZE_MAX)
            continue;
        bw_sheet_four *four = &sheet->four[sheet->four_count++];
        *four = (bw_sheet_four){.a = i,
                                .b = i + apart,
                                .half_a = {1, 1, 1, 1},
                                .half_b = {1, 1, 1, 1}};
        for (size_t k = 0; k < WIDE && i + k < sheet->n; ++k) {
            const size_t f = face[i + k];
            if (f == SIZE_MAX)
                continue;
            put(four, k, &sheet->face[f]);
            taken[f] = true;
        }
        i += WIDE - 1;
    }
}

static bw_status group(bw_sheet *sheet, bw_arena *arena, bw_error *err)
{
    const size_t faces = sheet->face_count;
    size_t *face = BW_NEW(arena, size_t, sheet->n + 1);
    bool *taken = BW_NEW(arena, bool, faces + 1);
    sheet->four = bw_arena_get(arena, faces + 1, sizeof *sheet->four);
    sheet->single = BW_NEW(arena, size_t, faces + 1);
    sheet->flat = BW_NEW(arena, double, FLAT *room_of(sheet));
    BW_TRY_MEMORY(!arena->failed, err);
    sheet->four_count = sheet->single_count = 0;
    for (size_t f = 0; f < faces; ++f) {
        const bw_sheet_face *of = &sheet->face[f];
        if (!taken[f] && of->a < of->b && is_plain(sheet, of))
            gather(sheet, of->b - of->a, face, taken);
        if (!taken[f])
            sheet->single[sheet->single_count++] = f;
    }
    return BW_OK;
}

bw_status bw_sheet_prepare(bw_sheet *sheet, bw_arena *arena, bw_error *err)
{
    double *one = BW_NEW(arena, double, sheet->n);
    bw_face *none = BW_NEW(arena, bw_face, sheet->n + 1);
    BW_TRY_MEMORY(one != NULL && none != NULL, err);
    for (size_t i = 0; i < sheet->n; ++i)
        one[i] = 1.0; /* resistances of one metre */
    sheet->cells = (bw_wall){.n = sheet->n,
                             .dx = sheet->area,
                             .per_half = one,
                             .hygro = sheet->hygro,
                             .face = none,
                             .leak_cell = -1,
                             .rain_cell = -1,
                             .humid = sheet->humid,
                             .latent = sheet->latent,
                             .r_v = sheet->r_v};
    return group(sheet, arena, err);
}

/* ---- what passes --------------------------------------------------------- */

BW_ALWAYS void flatten(const bw_cells *cells, double *flat, size_t room)
{
    for (size_t i = 0; i < cells->n; i += WIDE) {
        const bw_quad *q = &cells->quad[i / WIDE];
        bw_four_put(flat + THETA * room + i, q->theta);
        bw_four_put(flat + PRESSURE * room + i, q->p);
        bw_four_put(flat + HEAT_RESISTANCE * room + i, q->rt);
        bw_four_put(flat + VAPOUR_RESISTANCE * room + i, q->rv);
        bw_four_put(flat + FLOW * room + i, q->flow);
    }
}

BW_ALWAYS void add(double *x, bw_four by)
{
    bw_four_put(x, bw_four_get(x) + by);
}

BW_ALWAYS void pass(const bw_sheet_four *f, const double *flat, size_t room,
                    double latent, double *heat, double *water)
{
    const double *a = flat + f->a, *b = flat + f->b;
    bw_four v[VALUES], w[VALUES];
    for (size_t k = 0; k < VALUES; ++k) {
        v[k] = bw_four_get(a + k * room);
        w[k] = bw_four_get(b + k * room);
    }
    const bw_four vapour = f->length * (v[PRESSURE] - w[PRESSURE]) /
                           (v[VAPOUR_RESISTANCE] * f->half_a +
                            w[VAPOUR_RESISTANCE] * f->half_b);
    const bw_four g = vapour + f->per * (v[FLOW] - w[FLOW]);
    const bw_four conducted = f->length * (v[THETA] - w[THETA]) /
                              (v[HEAT_RESISTANCE] * f->half_a +
                               w[HEAT_RESISTANCE] * f->half_b);
    const bw_four q = conducted + latent * vapour +
                      0.5 * BW_WATER_HEAT * (v[THETA] + w[THETA]) * g;
    add(heat + f->a, -q);
    add(heat + f->b, q);
    add(water + f->a, -g);
    add(water + f->b, g);
}

BW_WIDE void bw_sheet_pass_fours(const bw_sheet *sheet, const bw_cells *cells,
                                 double *rate)
{
    const size_t room = room_of(sheet), n = sheet->n;
    double *flat = sheet->flat;
    double *heat = flat + VALUES * room, *water = heat + room;
    flatten(cells, flat, room);
    for (size_t k = VALUES; k-- > 0;) /* those not there: no division by 0 */
        for (size_t i = n; i < room; ++i)
            flat[k * room + i] = 1.0;
    memset(heat, 0, 2 * room * sizeof *heat);
    for (size_t k = 0; k < sheet->four_count; ++k)
        pass(&sheet->four[k], flat, room, sheet->latent, heat, water);
    for (size_t i = 0; i < n; i += WIDE)
        bw_four_in_turn(&rate[2 * i], bw_four_get(heat + i),
                        bw_four_get(water + i), n - i);
}
