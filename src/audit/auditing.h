#ifndef BW_AUDIT_AUDITING_H
#define BW_AUDIT_AUDITING_H

/* One audit being made. Its steps, each filling its part; all return BW_OK or
 * BW_ERR_MEMORY unless said. */

#include "arena.h"
#include "bothways/audit.h"
#include "number.h"
#include "pool.h"

typedef struct bw_audit_core {
    bw_audit audit; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_arena built; /* of as_built.c, which runs beside others */
    bw_pool *pool;
    const bw_assembly *assembly;
    const bw_climate *climate;
    bw_assessment *assessment;
    bw_margin *margin;
    bw_assessment *as_built, *as_built_deciding; /* NULL: not run */
    size_t open_room, need_room;
    bw_open_item *open;
    bw_need *need;
} bw_audit_core;

/* A string in the arena; NULL when out of memory. Numbers by BW_NUMBER_G
 * only. */
#define BW_AUDIT_SAY(core, ...) bw_arena_printf(&(core)->arena, __VA_ARGS__)

/* Every file with its SHA-256; `file` NULL: found from the models.
 * Also BW_ERR_INPUT. */
bw_status bw_audit_files(bw_audit_core *core, const bw_audit_options *options,
                         bw_error *err);

/* ---- time (when.c) -------------------------------------------------------
 * The sheet's date is the day that ages are counted to. */

/* BW_OK; BW_ERR_INPUT: it is no day. */
bw_status bw_audit_check_date(const char *date, bw_error *err);

/* Days from one to the other; 0 where one is none. */
long bw_audit_days(const char *from, const char *to);

/* After the sheet's date; of a sheet without one nothing is. */
bool bw_audit_is_ahead(const bw_audit_core *core, const char *date);

/* More days before it than that. */
bool bw_audit_is_stale(const bw_audit_core *core, const char *date, int days);

/* Not after the last day of the last wet spell. */
bool bw_audit_is_before_wetting(const bw_audit_core *core, const char *date);

/* Of its time: none of the three. */
bool bw_audit_is_fresh(const bw_audit_core *core, const bw_reading *reading);

/* ---- evidence ------------------------------------------------------------ */

/* Papers older than these days tell of another product. */
enum { BW_PAPER_DAYS = 3652 };

/* An item that shows that part: of its time, with a reference. With
 * `photograph` a photograph, else a label, delivery note or data sheet.
 * `since`: on that day or later; NULL: any. */
bool bw_audit_is_shown(const bw_audit_core *core, bw_wall_part part,
                       bool photograph, const char *since);

/* The day of the first such item; NULL: none. */
const char *bw_audit_first_shown(const bw_audit_core *core, bw_wall_part part,
                                 bool photograph);

/* That a layer is what is drawn. */
bool bw_audit_layer_is_shown(const bw_audit_core *core, size_t layer);

/* Decisions by member and the log; the interim test is looked up by the log.
 * Also BW_ERR_INPUT: limits out of order. */
bw_status bw_audit_readings(bw_audit_core *core, bw_error *err);

/* The filling of a layer that has framing, and itself no wood: who reads there
 * reads the framing, and has to say so. */
bool bw_audit_is_between(const bw_assembly *assembly, bw_wall_part part);

/* Is the member of wood, or of nothing that is known, or was it read as wood?
 */
bool bw_audit_is_wood(const bw_audit_core *core, const char *member);

/* Can this depth be in the member? */
bool bw_audit_depth_is_there(const bw_audit_core *core, const bw_reading *r);

/* How deep a part must be read to tell of it, m. */
double bw_audit_depth_asked(const bw_audit_core *core, bw_wall_part part);

/* The latest interim air test and whether it is evidence; what the wall is
 * computed with. */
bw_status bw_audit_air_test(bw_audit_core *core, bw_error *err);

/* What a test may mean at most, m3/(m2 s): with its uncertainty. */
double bw_audit_at_most(const bw_air_test *test);

/* Everything this wall needs shown, and what of it is. After the readings. */
bw_status bw_audit_needs(bw_audit_core *core, bw_error *err);

/* The sensitivity in the reviewer's order. */
bw_status bw_audit_unknowns(bw_audit_core *core, bw_error *err);

/* The run as built, in service, of the wall as computed, after the readings;
 * beside the assessment and the forecast. Also what bw_assess says. */
bw_status bw_audit_as_built(bw_audit_core *core, const bw_assembly *wall,
                            const bw_assessment_options *options,
                            bw_error *err);

/* Its rows beside those as drawn, after both. */
bw_status bw_audit_beside(bw_audit_core *core, bw_error *err);

/* When members dry, after the readings and the assessment. Also
 * BW_ERR_CANCELLED. */
bw_status bw_audit_forecast(bw_audit_core *core,
                            const bw_assessment_options *options,
                            bw_error *err);

/* bw_audit_make on a pool that others use, too; options not NULL, its threads
 * not looked at. */
bw_status bw_audit_make_on(bw_pool *pool, bw_audit **out,
                           const bw_assembly *assembly,
                           const bw_climate *climate,
                           const bw_audit_options *options, bw_error *err);

/* The first day of a week at or below it, of BW_TRANSIENT_DAYS; -1: none. */
double bw_days_to_limit(const bw_wood_day *day, double allowed);

/* 0..11, the month whose start is nearest to a day "2031-05-02". */
int bw_nearest_month(const char *date);
/* ---- hold point ---------------------------------------------------------- */

/* One more reason to stay closed; `text` of BW_AUDIT_SAY, NULL: no memory,
 * which the arena remembers. */
void bw_keep_closed(bw_audit_core *core, bw_open_id id, const char *text);

/* The reasons that air tests, readings, references and layers give. */
void bw_hold_air(bw_audit_core *core);
void bw_hold_readings(bw_audit_core *core);
void bw_hold_references(bw_audit_core *core);
void bw_hold_layers(bw_audit_core *core);

/* Every reason to stay closed; sets `released`. */
bw_status bw_audit_hold_point(bw_audit_core *core, bw_error *err);

#endif
