#ifndef BW_CLIMATE_MAKE_H
#define BW_CLIMATE_MAKE_H

/* How a climate comes to be: for its reader and the generator. */

#include "arena.h"
#include "bothways/climate.h"

/* A number for a message, up to five digits, whatever the locale (number.h);
 * lives in the enclosing block. */
#define BW_G(value) BW_NUMBER_G(value, 6)

enum { BW_HOURS = 8760 };

/* An empty climate that owns an arena; NULL when out of memory. */
bw_climate *bw_climate_new(const char *file);

/* Where everything a climate points to lives. */
bw_arena *bw_climate_arena(bw_climate *climate);

/* Adds a note; its file is the climate's. BW_OK or BW_ERR_MEMORY. */
bw_status bw_climate_add_note(bw_climate *climate, bw_error *err,
                              bw_note_kind kind, long line, const char *format,
                              ...) BW_PRINTF(5, 6);

/* First hour of month 0..11, and 8760 for 12, in a year without leap day. */
int bw_month_first_hour(int month);

/* Month 0..11 of an hour 0..8759. */
int bw_hour_month(int hour);

/* Whether every month has something: a column is made only then. */
bool bw_months_all(const bw_climate *climate,
                   bool (*has)(const bw_climate_month *));

/* Instant at which the solar values of an hour hold, as bw_sun_position wants
 * it [days]. */
double bw_hour_sun_day(const bw_climate *climate, int hour);

/* Relative optical air mass at an elevation [degrees]; below the horizon that
 * at it. */
double bw_air_mass(double elevation);

/* ---- hours of the year, 0 to BW_HOURS - 1: a ring ------------------------ */

/* From one before the first, or beyond the last. */
int bw_ring_hour(int hour);

/* "March 1 02:00" */
const char *bw_hour_text(char buffer[32], int hour);

/* Length of the gap that begins at `hour`; 0: there is a value. */
int bw_gap_length(const double value[BW_HOURS], int hour);

#endif
