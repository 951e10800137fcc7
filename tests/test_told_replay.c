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

SUITE("told_replay", FACT(inputs_moved_stand_in_their_order),
      FACT(what_was_assumed_is_told_with_its_place),
      FACT(layers_say_which_of_them_was_simulated))
