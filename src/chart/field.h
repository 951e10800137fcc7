#ifndef BW_CHART_FIELD_H
#define BW_CHART_FIELD_H

/* A quantity over a plane, as regions above a level and as isolines. Between
 * its points it runs straight along the sides of each mesh. */

#include "chart.h"

/* Both axes rise; where two columns have the same x the quantity steps. */
typedef struct bw_field {
    const double *x, *y;
    size_t columns, rows;
    const double *z; /* [rows][columns] */
} bw_field;

/* All of the plane where the quantity is at least `level`, as one path. */
void bw_chart_region(bw_chart *chart, const char *class_name,
                     const bw_field *field, double level);

void bw_chart_isoline(bw_chart *chart, const char *class_name,
                      const bw_field *field, double level);

/* Places on the paper to keep away from. */
enum { BW_TAKEN = 32 };
typedef struct bw_taken {
    double x[BW_TAKEN], y[BW_TAKEN];
    size_t count;
    double upright[BW_TAKEN]; /* lines up and down at these x */
    size_t uprights;
} bw_taken;

/* Writes on the isoline, where it is farthest from the edges of the box, from
 * what is taken and from the next isoline, `step` away in value, and takes that
 * place; nothing where there is no isoline. */
void bw_chart_isoline_label(bw_chart *chart, const bw_field *field,
                            double level, double step, bw_taken *taken,
                            const char *text);

#endif
