/* Rows and sentences of a replay, each there where it is so: the inputs that
 * were moved, five on a screen, what was assumed, the layers of the wall and
 * which of them was simulated. */

#include <math.h>
#include <stdio.h>

#include "flat_text.h"
#include "full_replay.h"

enum { TRIALS = 8, FEW = 5, LAYERS = 4 };

static bw_replay *r;

static void print_replay(bw_extent extent)
{
    const bw_results of = {.replay = &logged.replay};
    print_flat(&of, BW_DOCUMENT_REPLAY, extent);
}

static void replay_setup(void)
{
    full_replay_make(&logged);
    r = &logged.replay;
}

/* The first five stand in the part that a screen has, the others below. */
START_TEST(inputs_moved_stand_in_their_order)
{
    static bw_replay_trial trial[TRIALS];
    static char words[TRIALS][32];
    replay_setup();
    for (size_t i = 0; i < TRIALS; i++) {
        trial[i] = logged.trial[0];
        snprintf(words[i], sizeof words[i], "input %zu", i);
        trial[i].words = words[i];
        trial[i].misfit = 0.125 * (double)(i + 1);
    }
    r->trial = trial;
    r->unmoved = 17;
    for (r->trial_count = 0; r->trial_count <= TRIALS; r->trial_count++)
        for (int full = 0; full < 2; full++) {
            const char *last = flat.text;
            print_replay(full ? BW_EXTENT_FULL : BW_EXTENT_SCREEN);
            const size_t most = full ? TRIALS : FEW;
            for (size_t i = 0; i < TRIALS; i++) {
                char text[96];
                snprintf(text, sizeof text,
                         "input %zu 0.04 0.03 to 0.06 W/(m.K) %.2f", i,
                         trial[i].misfit);
                const char *at = strstr(last, text);
                ck_assert_msg((at != NULL) == (i < r->trial_count && i < most),
                              "%s '%s'", at != NULL ? "yet" : "no", text);
                last = at != NULL ? at : last;
            }
            says_if(full == 1, "17 more change next to nothing at these");
            says_if(full == 1, "Further inputs moved");
        }
    r->trial_count = TRIALS;
    r->tried = false;
    print_replay(BW_EXTENT_FULL);
    says_if(false, "input 0");
    says_if(false, "change next to nothing");
    says_if(false, "Each moved alone within the range");
}
END_TEST

/* Notes of the replay, of the log, and of the wall its warnings. */
START_TEST(what_was_assumed_is_told_with_its_place)
{
    static const char *const notes[] = {"the rain is not known",
                                        "no wind was given"};
    static const bw_note of_log[] = {
        {BW_NOTE_INFO, 12, "log.csv", "an hour is missing"},
        {BW_NOTE_WARNING, 15, "log.csv", "a clock was turned"}};
    static const bw_note of_wall[] = {
        {BW_NOTE_WARNING, 7, "w.xml", "looks reversed"},
        {BW_NOTE_INFO, 8, "w.xml", "nothing of note"},
        {BW_NOTE_WARNING, 0, "w.xml", "of all of it"}};
    static const char *const says[] = {
        "- The rain is not known.",
        "- No wind was given.",
        "- An hour is missing (log.csv:12)",
        "- A clock was turned (log.csv:15)",
        "- Warning: looks reversed (w.xml:7)",
        "- Warning: of all of it (w.xml)",
        "- Source of the log: own measurement",
        "- Its licence: free",
        "- Remark in it: behind the board",
        "- Remark in the wall's file: built twice"};
    replay_setup();
    for (int all = 0; all < 2; all++) {
        r->note = notes;
        r->note_count = all ? 2 : 0;
        logged.log.note = (bw_note *)of_log;
        logged.log.note_count = all ? 2 : 0;
        logged.assembly.note = (bw_note *)of_wall;
        logged.assembly.note_count = all ? 3 : 0;
        logged.log.source = all ? "own measurement" : "";
        logged.log.licence = all ? "free" : "";
        logged.log.remark = all ? "behind the board" : "";
        logged.assembly.remark = all ? "built twice" : "";
        print_replay(BW_EXTENT_FULL);
        for (size_t i = 0; i < COUNT(says); i++)
            says_if(all == 1, says[i]);
        says_if(false, "nothing of note");
    }
}
END_TEST

/* Those outside of a cavity whose air was measured are left out. */
START_TEST(layers_say_which_of_them_was_simulated)
{
    static bw_layer layer[LAYERS];
    static const char *const ids[] = {"render", "gap", "board", "lining"};
    replay_setup();
    for (size_t i = 0; i < LAYERS; i++)
        layer[i] = (bw_layer){.id = ids[i],
                              .name = ids[i],
                              .source = "",
                              .thickness = 0.0125 * (double)(i + 1)};
    logged.assembly.layer = layer;
    logged.assembly.layer_count = LAYERS;
    for (r->left_out = 0; r->left_out <= LAYERS; r->left_out++) {
        print_replay(BW_EXTENT_FULL);
        for (size_t i = 0; i < LAYERS; i++) {
            char text[96];
            snprintf(text, sizeof text, "%s %s %.3g %s", ids[i], ids[i],
                     12.5 * (double)(i + 1),
                     i + 1 == r->left_out  ? "its air was measured"
                     : i + 1 < r->left_out ? "no"
                                           : "yes");
            says_if(true, text);
        }
    }
}
END_TEST

/* Large enough that a hundredth more would be seen. */
static void figures_of(bw_replay_figures *f, double at)
{
    f->theta_bias = -(at + 1.25);
    f->theta_rms = at + 13.375;
    f->rh_bias = at / 8.0 + 0.375;
    f->rh_rms = at / 8.0 + 0.625;
    f->theta_share_measured = at + 0.125;
    f->theta_share_computed = at + 0.25;
    f->pressure_share_measured = at + 0.375;
    f->pressure_share_computed = at + 0.4375;
}

static void row_says(const char *name, const bw_replay_figures *f)
{
    char text[192];
    snprintf(text, sizeof text, "%s %.2f %.2f %.1f %.1f %.3f %.3f %.3f %.3f",
             name, f->theta_bias, f->theta_rms, 100.0 * f->rh_bias,
             100.0 * f->rh_rms, f->theta_share_measured,
             f->theta_share_computed, f->pressure_share_measured,
             f->pressure_share_computed);
    says_if(r->assessed, text);
}

/* Of each place and month a row, of the place a sentence. */
START_TEST(figures_are_those_of_their_place_and_month)
{
    static bw_replay_figures month[2];
    replay_setup();
    for (int assessed = 0; assessed < 2; assessed++)
        for (int cavity = 0; cavity < 2; cavity++) {
            bw_replay_place *p = &logged.place[0];
            r->assessed = assessed == 1;
            r->cavity = cavity == 1;
            figures_of(&p->all, 0.5);
            for (size_t m = 0; m < 2; m++) {
                month[m] = logged.month[0];
                month[m].month = 3 + (int)m;
                month[m].theta_hours = m == 0 ? 40 : 20;
                month[m].rh_hours = m == 0 ? 30 : 50;
                figures_of(&month[m], 0.0625 * (double)(m + 1));
            }
            p->month = month;
            p->month_count = 2;
            p->all.theta_drop = 17.5;
            p->all.pressure_drop = 432.0;
            print_replay(BW_EXTENT_FULL);
            row_says("place:a|b", &p->all);
            row_says("Apr 2031 40", &month[0]);
            row_says("May 2031 50", &month[1]);
            says_if(r->assessed && cavity == 1,
                    "to the cavity's air (17.5 K, 432 Pa) the part");
            says_if(r->assessed && cavity == 0,
                    "to the outdoor air (17.5 K, 432 Pa) the part");
            says_if(true, "Between a and b: computed 1.8 K colder than "
                          "measured (rms 13.9 K), 43.8 % RH damper (rms 68.8 "
                          "%)");
        }
}
END_TEST

START_TEST(the_head_tells_the_record)
{
    replay_setup();
    r->start = 22329.25 * 86400.0; /* 19 February 2031, 6 o'clock */
    static bw_replay_hour hours[43];
    logged.place[0].hour = hours;
    r->hour_count = 42;
    r->compared = 31;
    r->place_count = 0;
    print_replay(BW_EXTENT_FULL);
    says_if(true, "Measured beside computed: w");
    says_if(true, "w in w.xml; log: log.csv");
    says_if(true, "2031-02-19 to 2031-02-20, 42 hours, 31 of them compared");
    r->hour_count = 43; /* the last begins at midnight */
    print_replay(BW_EXTENT_FULL);
    says_if(true, "2031-02-19 to 2031-02-21, 43 hours");
    says_if(true, "Warning: it jumps (log.csv:17)");
    r->doubt_count = 0;
    print_replay(BW_EXTENT_FULL);
    says_if(false, "it jumps");
    says_if(false, "What is doubtful of the record");
}
END_TEST

SUITE("told_replay", FACT(inputs_moved_stand_in_their_order),
      FACT(what_was_assumed_is_told_with_its_place),
      FACT(layers_say_which_of_them_was_simulated),
      FACT(figures_are_those_of_their_place_and_month),
      FACT(the_head_tells_the_record))
