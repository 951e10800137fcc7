/* A replay: what was measured beside what is computed, what is doubtful of the
 * record, which input explains the difference.
 *
 * Invariant: a difference is computed less measured, and a figure that was not
 * had reads "not assessed". */

#include <math.h>

#include "bothways/replay.h"
#include "day.h"
#include "grid.h"
#include "names.h"
#include "part.h"

static const char *day_of(bw_page *page, double time)
{
    char text[BW_DAY_TEXT];
    return bw_phrase(page, "%s",
                     bw_day_text(text, (long)floor(time / 86400.0)));
}

BW_PART(replay_title, NULL)
{
    const bw_replay *r = of->replay;
    bw_lead(page, "Measured beside computed: %s", bw_wall_name(r->assembly));
    bw_plain(page, "%s in %s; log: %s", r->assembly->id, r->assembly->file,
             r->log->file);
    bw_plain(page, "%s to %s, %zu hours, %zu of them compared",
             day_of(page, r->start),
             day_of(page, r->start + 3600.0 * (double)(r->hour_count - 1)),
             r->hour_count, r->compared);
    bw_say_changes(page, r->assembly);
}

/* ---- the answer ----------------------------------------------------------
 */

/* "0.5 K colder"; "as warm". */
static const char *apart(bw_page *page, double bias, int decimals,
                         const char *unit, const char *more, const char *less,
                         const char *same)
{
    if (fabs(bias) < 0.5 * pow(10.0, -decimals))
        return same;
    return bw_phrase(page, "%s %s %s", bw_fixed(page, fabs(bias), decimals),
                     unit, bias > 0 ? more : less);
}

static void say_place(bw_page *page, const bw_replay_place *place)
{
    const bw_replay_figures *f = &place->all;
    const char *theta = isnan(f->theta_bias)
                            ? "temperature not assessed"
                            : bw_phrase(page, "%s than measured (rms %.1f K)",
                                        apart(page, f->theta_bias, 1, "K",
                                              "warmer", "colder",
                                              "not 0.1 K other"),
                                        f->theta_rms);
    const char *rh = isnan(f->rh_bias)
                         ? "humidity not assessed"
                         : bw_phrase(page, "%s (rms %.1f %%)",
                                     apart(page, 100.0 * f->rh_bias, 1, "% RH",
                                           "damper", "drier", "as damp"),
                                     100.0 * f->rh_rms);
    bw_item(page, "%s: computed %s, %s", bw_capital(page, place->words), theta,
            rh);
}

BW_PART(replay_answer, NULL)
{
    const bw_replay *r = of->replay;
    if (r->not_assessed[0] != '\0') {
        bw_lead(page, "Not assessed: %s", r->not_assessed);
        return;
    }
    if (r->misfit <= 1.0)
        bw_lead(page, "They agree within what such loggers tell: misfit %.2f",
                r->misfit);
    else
        bw_lead(page, "They differ by %.2f times what such loggers tell",
                r->misfit);
    bw_text(page, "Misfit: rms of the differences over 0.5 K and 3 %% RH, the "
                  "accuracy taken for such loggers; all places and both "
                  "quantities count alike.");
    for (size_t p = 0; p < r->place_count; p++)
        say_place(page, &r->place[p]);
    if (r->suggestion[0] != '\0')
        bw_text(page, "%s: %s.",
                r->suggests ? "A suggestion, no proof" : "Inputs moved",
                r->suggestion);
}

/* ---- doubts ---------------------------------------------------------------
 */

BW_PART(replay_doubts, "What is doubtful of the record")
{
    const bw_replay *r = of->replay;
    for (size_t i = 0; i < r->doubt_count; i++)
        bw_item(page, "Warning: %s (%s:%ld)", r->doubt[i].message, r->log->file,
                r->doubt[i].line);
}

/* ---- figures --------------------------------------------------------------
 */

static void put_figures(bw_grid *grid, const bw_replay_figures *f)
{
    bw_number(grid, "T bias K", "%.2f", f->theta_bias);
    bw_number(grid, "T rms K", "%.2f", f->theta_rms);
    bw_number(grid, "RH bias %", "%.1f", 100.0 * f->rh_bias);
    bw_number(grid, "RH rms %", "%.1f", 100.0 * f->rh_rms);
    bw_number(grid, "T share meas.", "%.3f", f->theta_share_measured);
    bw_number(grid, "T share comp.", "%.3f", f->theta_share_computed);
    bw_number(grid, "p share meas.", "%.3f", f->pressure_share_measured);
    bw_number(grid, "p share comp.", "%.3f", f->pressure_share_computed);
}

static void say_drops(bw_page *page, const bw_replay *r)
{
    const bw_replay_figures *f = &r->place[0].all;
    bw_text(
        page,
        "Shares: of the mean drop from the room to the %s (%.1f K, %.0f Pa) "
        "the part reached at the place; \"-\": not assessed, the drop is "
        "below 5 K or 200 Pa, or less than 24 hours were measured.",
        r->cavity ? "cavity's air" : "outdoor air", f->theta_drop,
        f->pressure_drop);
}

BW_PART(replay_figures, "Figures, computed less measured")
{
    const bw_replay *r = of->replay;
    bw_grid grid = {.page = page};
    for (size_t p = 0; p < r->place_count && r->assessed; p++) {
        bw_grid_row_start(&grid);
        bw_words(&grid, "Place", r->place[p].channel->name);
        put_figures(&grid, &r->place[p].all);
    }
    bw_grid_print(&grid);
    if (r->place_count > 0 && r->assessed)
        say_drops(page, r);
}

BW_PART(replay_months, "By month")
{
    const bw_replay *r = of->replay;
    for (size_t p = 0; p < r->place_count && r->assessed; p++) {
        const bw_replay_place *place = &r->place[p];
        bw_subheading(page, "%s", place->channel->name);
        bw_grid grid = {.page = page};
        for (size_t m = 0; m < place->month_count; m++) {
            const bw_replay_figures *f = &place->month[m];
            bw_grid_row_start(&grid);
            bw_name(&grid, "Month",
                    bw_phrase(page, "%s %d", bw_month_name(f->month), f->year));
            bw_number(&grid, "Hours", "%.0f",
                      (double)(f->theta_hours > f->rh_hours ? f->theta_hours
                                                            : f->rh_hours));
            put_figures(&grid, f);
        }
        bw_grid_print(&grid);
    }
}

/* ---- inputs ---------------------------------------------------------------
 */

enum { FEW = 5 }; /* on a screen */

static void put_trials(bw_page *page, const bw_replay *r, size_t from,
                       size_t most)
{
    bw_grid grid = {.page = page};
    for (size_t i = from; i < r->trial_count && i < most; i++) {
        const bw_replay_trial *t = &r->trial[i];
        bw_grid_row_start(&grid);
        bw_words(&grid, "Input moved, at its best", t->words);
        bw_name(&grid, "As drawn", t->drawn);
        bw_name(&grid, "Range",
                isnan(t->low)
                    ? "a switch"
                    : bw_phrase(page, "%.3g to %s%s", t->low,
                                bw_with_unit(page, t->high, 3, t->unit),
                                t->at_end ? ", at its end" : ""));
        bw_number(&grid, "Misfit", "%.2f", t->misfit);
    }
    bw_grid_print(&grid);
}

BW_PART(replay_input, "Which one input would explain it")
{
    const bw_replay *r = of->replay;
    if (!r->tried)
        return;
    bw_text(page, "%s.", bw_capital(page, r->suggestion));
    put_trials(page, r, 0, FEW);
    bw_text(page,
            "Each moved alone within the range that the file or the library "
            "gives. A record cannot tell apart what fits alike: look at the "
            "wall before the input is believed.");
}

BW_PART(replay_inputs, "Further inputs moved")
{
    const bw_replay *r = of->replay;
    if (!r->tried)
        return;
    put_trials(page, r, FEW, r->trial_count);
    bw_text(page, "%zu more change next to nothing at these places.",
            r->unmoved);
}

/* ---- what was assumed ------------------------------------------------------
 */

BW_PART(replay_notes, "What was assumed")
{
    const bw_replay *r = of->replay;
    for (size_t i = 0; i < r->note_count; i++)
        bw_item(page, "%s.", bw_capital(page, r->note[i]));
    for (size_t i = 0; i < r->log->note_count; i++)
        bw_item(page, "%s (%s:%ld)", bw_capital(page, r->log->note[i].message),
                r->log->note[i].file, r->log->note[i].line);
    for (size_t i = 0; i < r->assembly->note_count; i++)
        if (r->assembly->note[i].kind == BW_NOTE_WARNING)
            bw_item(page, "Warning: %s (%s)", r->assembly->note[i].message,
                    r->assembly->note[i].line > 0
                        ? bw_phrase(page, "%s:%ld", r->assembly->note[i].file,
                                    r->assembly->note[i].line)
                        : r->assembly->note[i].file);
    if (r->log->source[0] != '\0')
        bw_item(page, "Source of the log: %s", r->log->source);
    if (r->log->licence[0] != '\0')
        bw_item(page, "Its licence: %s", r->log->licence);
    if (r->log->remark[0] != '\0')
        bw_item(page, "Remark in it: %s", r->log->remark);
    if (r->assembly->remark[0] != '\0')
        bw_item(page, "Remark in the wall's file: %s", r->assembly->remark);
}

BW_PART(replay_wall, "Layers, from outside")
{
    const bw_replay *r = of->replay;
    bw_grid grid = {.page = page};
    for (size_t i = 0; i < r->assembly->layer_count; i++) {
        const bw_layer *l = &r->assembly->layer[i];
        bw_grid_row_start(&grid);
        bw_name(&grid, "Id", l->id);
        bw_words(&grid, "Layer", l->name);
        bw_number(&grid, "mm", "%.3g", 1e3 * l->thickness);
        bw_name(&grid, "Simulated",
                i + 1 == r->left_out ? "its air was measured"
                : i < r->left_out    ? "no"
                                     : "yes");
    }
    bw_grid_print(&grid);
}
