#ifndef BW_TRANSIENT_MODEL_H
#define BW_TRANSIENT_MODEL_H

/* A section of an assembly as a wall of cells.
 *
 * Slabs with thickness become cells; slabs without (membranes, paints, foils)
 * become resistances in the face where they lie, several in one face one after
 * the other at the same mean RH. A cavity is one cell. */

#include "bothways/transient.h"
#include "storage.h"
#include "wall.h"

/* Where a slab went: cells first .. first+count-1, or face `first` if count
 * is 0. */
typedef struct bw_range {
    size_t first, count;
} bw_range;

/* What lies on the outer face without a thickness, paint or sheet: it lets
 * liquid through by the least water absorption of its parts. */
typedef struct bw_coat {
    const char *label; /* of the part that lets least through; NULL: none */
    double absorption; /* A_w, kg/(m2 s^0.5); 0: sheds all rain */
    bool assumed;      /* a paint whose A_w is not known: COAT_ABSORPTION */
    bool sheet;        /* a sheet whose A_w is not known sheds rain */
} bw_coat;

typedef struct bw_model {
    bw_arena arena;
    bw_wall wall;
    bw_humid *humid;
    const bw_section *section;
    bw_range *range;     /* per slab */
    bw_storage *storage; /* per slab; of membranes empty */
    bw_hygro *hygro;     /* per slab */
    size_t leak_slab;    /* the plane of the convective source is this slab's
                            outer face; slab_count: none */
    bool blocks_rain;    /* a coat on the outer face, or it draws no water */
    bw_coat coat;
} bw_model;

/* Builds the wall. options gives refinement, blocking of cavities, allowance
 * for missing data. model->arena is released by bw_model_free. */
bw_status bw_model_make(bw_model *model, const bw_assembly *assembly,
                        const bw_section *section, double pressure,
                        const bw_transient_options *options, bw_error *err);
void bw_model_free(bw_model *model);

#endif
