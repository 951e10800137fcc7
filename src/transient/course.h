#ifndef BW_TRANSIENT_COURSE_H
#define BW_TRANSIENT_COURSE_H

/* What a picture of the year is drawn of: humidity in every cell and what
 * drives vapour inwards in means of five days, and the mould index at the end
 * of each five days of every year. */

#include "model.h"
#include "solver.h"

typedef struct bw_course {
    bw_transient_result *result;
    double *pressure; /* per monitor, Pa, of the hour */
    size_t hour;      /* of the running year */
} bw_course;

/* Lays out what the result carries; monitors and slabs are there. False: out
 * of memory. */
bool bw_course_init(bw_course *course, bw_model *model,
                    bw_transient_result *result);

void bw_course_year(bw_course *course);

/* An hour ends; its vapour pressures stand in `pressure`, mould is that of the
 * monitors. */
void bw_course_hour(bw_course *course, const bw_cells *cells, bool sun,
                    const bw_mould_state *mould);

void bw_course_end_year(bw_course *course);

/* The index of a monitor at the end of an hour of year `year` (0..), kept if a
 * span ends with it. */
void bw_course_mould(bw_course *course, int year, size_t hour, size_t monitor,
                     double index);

/* Of a monitor: year `year` goes as the one before it did. */
void bw_course_repeat(bw_course *course, int year, size_t monitor);

#endif
