#ifndef BW_REPORT_YEAR_H
#define BW_REPORT_YEAR_H

/* The picture of the year, in parts: its field, its marks. */

#include "field.h"
#include "plot.h"

enum { BW_YEAR_COLUMNS = 512 };

/* What is marked, if anything is. */
typedef struct bw_year_mark {
    const char *words; /* NULL: nothing */
    double depth;      /* m from the outer face */
    bool bad[BW_SPANS];
} bw_year_mark;

typedef struct bw_year_picture {
    bw_page *page;
    const bw_assembly *assembly;
    const bw_section_assessment *part;
    const bw_section *section; /* whose slabs are drawn */
    bw_chart chart;
    bool simulated, cyclic; /* the year goes on as it began */
    double before;          /* m, outside of what the months look at */
    double total;           /* m */
    double span;            /* m across the picture, no less */
    double drive;           /* Pa across the strip beside it, no less */
    int first;              /* month of the first span */
    size_t spans;           /* of the year: of five days, or months */
    bw_year_mark mark;
    const char *says; /* of the mark */
    double x[BW_YEAR_COLUMNS], y[BW_SPANS + 2];
    bw_field field;
} bw_year_picture;

/* Where span `at` begins, in months down. */
double bw_year_row(const bw_year_picture *p, double at);

/* Metres from the outer face of the wall to a plane of the months. */
double bw_year_depth(const bw_year_picture *p, bw_plane_at at);

/* False: nothing to draw. */
bool bw_year_lay(bw_year_picture *p);

/* The place, from `top` down, and the season in it. */
void bw_year_mark_place(bw_year_picture *p, double top);

/* "; black bar: above 80 % RH, Oct to Mar, Jun": of the months that have a bad
 * span; "" where there is none. */
const char *bw_year_season(const bw_year_picture *p, const char *what);

/* Beside the year, what drives vapour inwards through the main insulation; and
 * the same in words. */
void bw_year_inward(bw_year_picture *p, double left, double right);
const char *bw_year_inward_text(const bw_year_picture *p);

#endif
