#ifndef BW_CLIMATE_RECORD_MAKE_H
#define BW_CLIMATE_RECORD_MAKE_H

/* How a record comes to be: for its readers and where records are joined. */

#include "arena.h"
#include "bothways/record.h"

/* An empty record that owns an arena; NULL when out of memory. */
bw_record *bw_record_new(const char *file);

/* Where everything a record points to lives. */
bw_arena *bw_record_arena(bw_record *record);

/* Adds a sentence; control characters become '?'. BW_OK or BW_ERR_MEMORY. */
bw_status bw_record_note(bw_record *record, bw_error *err, const char *format,
                         ...) BW_PRINTF(3, 4);

/* A column of BW_HOURS gaps; NULL when out of memory. */
double *bw_record_column(bw_record *record);

/* The file's name without its folders. */
const char *bw_record_name(const bw_record *record);

/* A copy of a record's column without gaps, noted in `to`.
 * BW_ERR_INPUT: a gap is too long, or too much is missing. */
bw_status bw_record_fill(double **out, bw_record *to, const bw_record *from,
                         bw_quantity quantity, bw_error *err);

#endif
