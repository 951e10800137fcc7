/* The tables of a replay: figures by place and month, inputs moved, what is
 * doubtful, every hour.
 *
 * Invariant: RH is over liquid water, and a difference is computed less
 * measured. */

#include <stdio.h>

#include "bothways/replay.h"
#include "day.h"
#include "table.h"

static const bw_replay *replay_of(const bw_cells *c)
{
    return c->results->replay;
}

/* ---- figures --------------------------------------------------------------
 */

typedef struct figure_row {
    const bw_replay_place *place;
    const bw_replay_figures *f;
    const char *span;
} figure_row;

static void figure_columns(bw_cells *c, const void *row)
{
    const figure_row *r = row;
    BW_TEXT(c, "wall", "id of the wall", replay_of(c)->assembly->id);
    BW_TEXT(c, "place", "its name in the log", r->place->channel->name);
    BW_TEXT(c, "section", "`between-studs`, `through-stud`, `whole`",
            r->place->section);
    BW_TEXT(c, "span", "`all`, or a month as `2021-01` (UTC)", r->span);
    BW_NUMBER(c, "temperature_h", "h", "hours compared",
              (double)r->f->theta_hours);
    BW_NUMBER(c, "humidity_h", "h", "hours compared", (double)r->f->rh_hours);
    BW_NUMBER_IF(c, "temperature_bias_K", "K",
                 "mean of computed less measured; none of less than 24 hours",
                 true, r->f->theta_bias);
    BW_NUMBER_IF(c, "temperature_rms_K", "K", "root of the mean square of it",
                 true, r->f->theta_rms);
    BW_NUMBER_IF(c, "humidity_bias_pct", "%", "the same of RH", true,
                 100.0 * r->f->rh_bias);
    BW_NUMBER_IF(c, "humidity_rms_pct", "%", "likewise", true,
                 100.0 * r->f->rh_rms);
    BW_NUMBER_IF(c, "vapour_pressure_bias_Pa", "Pa", "likewise", true,
                 r->f->pressure_bias);
    BW_NUMBER_IF(c, "temperature_drop_K", "K",
                 "room less outer air, mean of the hours compared", true,
                 r->f->theta_drop);
    BW_NUMBER_IF(c, "temperature_share_measured", "-",
                 "part of that drop reached at the place; none of a drop below "
                 "5 K",
                 true, r->f->theta_share_measured);
    BW_NUMBER_IF(c, "temperature_share_computed", "-", "likewise", true,
                 r->f->theta_share_computed);
    BW_NUMBER_IF(c, "vapour_pressure_drop_Pa", "Pa", "as of temperature", true,
                 r->f->pressure_drop);
    BW_NUMBER_IF(c, "vapour_pressure_share_measured", "-",
                 "as of temperature; none of a drop below 200 Pa", true,
                 r->f->pressure_share_measured);
    BW_NUMBER_IF(c, "vapour_pressure_share_computed", "-", "likewise", true,
                 r->f->pressure_share_computed);
}

static void figure_rows(bw_cells *c)
{
    const bw_replay *r = replay_of(c);
    for (size_t p = 0; p < r->place_count; p++) {
        const bw_replay_place *place = &r->place[p];
        const figure_row all = {place, &place->all, "all"};
        bw_row(c, &all);
        for (size_t m = 0; m < place->month_count; m++) {
            const bw_replay_figures *f = &place->month[m];
            const figure_row row = {place, f,
                                    bw_phrase(&c->page, "%d-%s%d", f->year,
                                              f->month < 9 ? "0" : "",
                                              f->month + 1)};
            bw_row(c, &row);
        }
    }
}

const bw_table_facts bw_table_replay = {
    "replay.csv",
    "A place that was measured, over all hours or those of a month (`replay`).",
    figure_columns, figure_rows, BW_BY_RESULTS};

/* ---- inputs ---------------------------------------------------------------
 */

static void input_columns(bw_cells *c, const void *row)
{
    const bw_replay_trial *t = row;
    BW_TEXT(c, "wall", "id of the wall", replay_of(c)->assembly->id);
    BW_TEXT(c, "input", "what is moved, alone", t->name);
    BW_TEXT_IF(c, "layer", "its id, if it is of one", true, t->layer);
    BW_TEXT(c, "best", "in words, where the misfit is least", t->words);
    BW_NUMBER_IF(c, "value", "as unit", "there; none of a switch", true,
                 t->value);
    BW_NUMBER_IF(c, "low", "as unit", "of its range", true, t->low);
    BW_NUMBER_IF(c, "high", "as unit", "likewise", true, t->high);
    BW_TEXT_IF(c, "unit", "of the three", true, t->unit);
    BW_NUMBER(c, "misfit", "-",
              "rms of the differences over 0.5 K and 3 % RH, all places and "
              "quantities alike",
              t->misfit);
    BW_NUMBER(c, "misfit_as_drawn", "-", "likewise", replay_of(c)->misfit);
    BW_TEXT(c, "at_end", "`yes`: the best is an end of the range",
            bw_yes_no(t->at_end));
}

static void input_rows(bw_cells *c)
{
    const bw_replay *r = replay_of(c);
    for (size_t i = 0; i < r->trial_count; i++)
        bw_row(c, &r->trial[i]);
}

const bw_table_facts bw_table_replay_inputs = {
    "replay-inputs.csv",
    "An input moved within its range under a record, the best first "
    "(`replay`).",
    input_columns, input_rows, BW_BY_RESULTS};

/* ---- doubts ---------------------------------------------------------------
 */

static void doubt_columns(bw_cells *c, const void *row)
{
    const bw_doubt *d = row;
    BW_TEXT(c, "log", "the file", replay_of(c)->log->file);
    BW_TEXT(c, "doubt",
            "`swapped-columns`, `swapped-sides`, `clock`, `saturated`, "
            "`stuck`, `over-ice`, `jump`, `gap`, `not-between`, "
            "`copy`",
            bw_doubt_text(d->kind));
    BW_TEXT_IF(c, "channel", "whose, if it is of one", d->channel != NULL,
               d->channel->name);
    BW_NUMBER(c, "line", "-", "of the file, where it begins", (double)d->line);
    BW_TEXT(c, "message", "in words", d->message);
}

static void doubt_rows(bw_cells *c)
{
    const bw_replay *r = replay_of(c);
    for (size_t i = 0; i < r->doubt_count; i++)
        bw_row(c, &r->doubt[i]);
}

const bw_table_facts bw_table_replay_doubts = {
    "replay-doubts.csv", "What is doubtful of a record (`replay`).",
    doubt_columns, doubt_rows, BW_BY_RESULTS};

/* ---- hours ----------------------------------------------------------------
 */

typedef struct hour_row {
    const bw_replay_place *place;
    const bw_replay_hour *hour;
    const char *time;
} hour_row;

static void hour_columns(bw_cells *c, const void *row)
{
    const hour_row *r = row;
    BW_TEXT(c, "time_utc", "the full hour", r->time);
    BW_TEXT(c, "place", "its name in the log", r->place->channel->name);
    BW_NUMBER_IF(c, "temperature_measured_degC", "degC", "of the log", true,
                 r->hour->theta);
    BW_NUMBER(c, "temperature_computed_degC", "degC", "simulated",
              r->hour->theta_computed);
    BW_NUMBER_IF(c, "humidity_measured_pct", "%", "RH over liquid water", true,
                 100.0 * r->hour->rh);
    BW_NUMBER(c, "humidity_computed_pct", "%", "likewise, simulated",
              100.0 * r->hour->rh_computed);
    BW_TEXT(c, "compared", "`no`: in the run-in or a gap",
            bw_yes_no(r->hour->compared));
}

static void hour_rows(bw_cells *c)
{
    const bw_replay *r = replay_of(c);
    for (size_t p = 0; p < r->place_count; p++)
        for (size_t h = 0; h < r->hour_count; h++) {
            char text[2 * BW_DAY_TEXT], day[BW_DAY_TEXT];
            const double at = r->start + 3600.0 * (double)h;
            const double days = floor(at / 86400.0);
            const int hour = (int)((at - 86400.0 * days) / 3600.0 + 0.5);
            snprintf(text, sizeof text, "%sT%02d:00Z",
                     bw_day_text(day, (long)days), hour);
            const hour_row row = {&r->place[p], &r->place[p].hour[h], text};
            bw_row(c, &row);
        }
}

const bw_table_facts bw_table_replay_hours = {
    "replay-hours.csv", "An hour at a place that was measured (`replay`).",
    hour_columns, hour_rows, BW_BY_RESULTS};
