/* What a choice says follows from its result: which designs hold, and how, what
 * breaks them, the figures of the front, what was dropped. Each sentence is
 * asked for where it is so, and must not be there where it is not. */

#include <math.h>
#include <stdio.h>

#include "bothways/bothways.h"
#include "flat_text.h"
#include "full_choose.h"
#include "report_wall.h"

enum { DESIGNS = 14 };

static report_wall wall;
static bw_design design[DESIGNS];
static size_t front[DESIGNS];
static bw_finding finding[3];
static const char *const fixed_names[] = {"mu of a", "lambda of b"};

static const char *const names[DESIGNS] = {"oak", "elm", "ash", "fir", "yew",
                                           "may", "box", "bay", "fig", "nut",
                                           "gum", "hop", "rue", "ivy"};

/* All designs stand on the front, in this order. */
static void choose_setup(void)
{
    report_wall_make(&wall);
    full_choose_make(&choice, &wall.assessment);
    for (size_t i = 0; i < DESIGNS; i++) {
        design[i] = choice.design[1];
        design[i].name = names[i];
        design[i].tie = 0;
        design[i].breaks = design[i].decides = "";
        design[i].breaks_figure = design[i].worst_figure = (bw_figure){
            .criterion = "some-row", .value = 7.25, .limit = 3.5, .unit = "-"};
        front[i] = i;
    }
    for (size_t f = 0; f < 3; f++)
        finding[f] = (bw_finding){.name = f == 0   ? "a leak"
                                          : f == 1 ? "damp timber"
                                                   : "a tight coat",
                                  .low = "",
                                  .high = ""};
    choice.chosen.design = design;
    choice.chosen.design_count = DESIGNS;
    choice.chosen.front = front;
    choice.chosen.front_count = 3;
    choice.chosen.finding = finding;
    choice.chosen.finding_count = 3;
    choice.chosen.simulated = true;
    choice.chosen.drawn_designs = 1;
}

static void print_choice(bw_extent extent)
{
    const bw_assessment *as_drawn = &wall.assessment;
    const bw_results of = {
        .wall_count = 1, .wall = &as_drawn, .chosen = &choice.chosen};
    print_flat(&of, BW_DOCUMENT_CHOOSE, extent);
}

static void stand(size_t count, bw_standing standing, size_t marginally)
{
    for (size_t i = 0; i < count; i++) {
        design[i].standing = standing;
        design[i].marginally = i < marginally;
    }
}

static const struct answer_row {
    size_t holding, marginally, front;
    bw_standing others; /* that do not hold */
    const char *says;
} answers[] = {
    {0, 0, 0, BW_OUT,
     "None of the 14 designs is left: 4 over a limit, 5 not good as drawn."},
    {1, 0, 3, BW_BREAKS, "1 of 14 designs holds in all that was tried: oak."},
    {2, 0, 3, BW_BREAKS,
     "2 of 14 designs hold in all that was tried: oak; elm."},
    {3, 0, 3, BW_BREAKS,
     "3 of 14 designs hold in all that was tried: oak; elm; ash."},
    {5, 0, 6, BW_BREAKS,
     "5 of 14 designs hold in all that was tried: oak; elm; ash and 2 more."},
    {2, 2, 3, BW_BREAKS,
     "2 of 14 designs hold in all that was tried, marginally: oak; elm."},
    {3, 1, 3, BW_BREAKS,
     "hold in all that was tried, 1 of them marginally: oak; elm; ash."},
    {0, 0, 3, BW_BREAKS, "None of the 14 designs holds whatever is found."},
    {0, 0, 3, BW_UNDECIDED,
     "Of no design is it known that it holds: 3 not assessed, 0 break."},
};

START_TEST(the_answer_counts_what_holds)
{
    const struct answer_row *row = &answers[_i];
    choice.chosen.over_limit = 4;
    choice.chosen.as_drawn_failing = 5;
    choice.chosen.front_count = row->front;
    choice.chosen.holding = row->holding;
    stand(row->front, row->others, 0);
    stand(row->holding, BW_STANDS, row->marginally);
    print_choice(BW_EXTENT_SCREEN);
    for (size_t i = 0; i < COUNT(answers); i++)
        says_if(i == (size_t)_i, answers[i].says);
}
END_TEST

START_TEST(one_that_is_not_assessed_does_not_break)
{
    design[1].standing = BW_UNDECIDED;
    print_choice(BW_EXTENT_SCREEN);
    says_if(true, "it holds: 1 not assessed, 2 break.");
    wall.assembly.junction_count = 2;
    print_choice(BW_EXTENT_SCREEN);
    says_if(true, "The wall names junctions (2), and of no design");
    wall.assembly.junction_count = 0;
    print_choice(BW_EXTENT_SCREEN);
    says_if(false, "The wall names junctions");
}
END_TEST

START_TEST(a_bound_says_what_it_is_of)
{
    design[0].drawn = _i == 0 ? 0 : 31;
    design[0].failed = 4;
    design[0].unassessed = _i == 2 ? 1 : 0;
    design[0].failed_numbers = 9;
    choice.chosen.drawn_designs = _i == 3 ? 2 : 1;
    choice.chosen.simulated = _i != 4;
    print_choice(BW_EXTENT_SCREEN);
    says_if(_i > 0, "oak: in 31 drawn cases 4 failed");
    says_if(_i == 2,
            "4 failed, 1 could not be assessed and count as failed in the "
            "bound (95 %");
    says_if(_i == 3, "It was picked of 2 drawn for: for all of them at once");
    says_if(_i == 4, "by their numbers 9 of 31 would fail.");
}
END_TEST

static const struct worst_row {
    bw_standing standing;
    const char *breaks, *worst, *decides;
    const char *says[2]; /* it, and not it */
} worst_rows[] = {
    {BW_BREAKS,
     "a leak",
     "a leak",
     "mu of a",
     {"oak breaks with: a leak. Then some-row 7.25 (limit 3.5). No finding "
      "alone breaks it; this case is decided by: mu of a.",
      "would break"}},
    {BW_BREAKS,
     "a leak",
     "a leak",
     "",
     {"oak breaks with: a leak. Then", "No finding alone"}},
    {BW_BREAKS,
     "a leak",
     "another",
     "mu of a",
     {"oak breaks with: a leak. Then", "No finding alone"}},
    {BW_UNDECIDED,
     "a leak",
     "another",
     "",
     {"oak would break with: a leak. Then", "oak breaks with"}},
    {BW_OUT, "a leak", "another", "", {"Which build-up", "break with"}},
    {BW_BREAKS, "", "", "mu of a", {"Which build-up", "oak breaks with"}},
};

START_TEST(what_breaks_the_first_is_said)
{
    const struct worst_row *row = &worst_rows[_i];
    design[0].standing = row->standing;
    design[0].breaks = row->breaks;
    design[0].worst = row->worst;
    design[0].decides = row->decides;
    print_choice(BW_EXTENT_SCREEN);
    says_if(true, row->says[0]);
    says_if(false, row->says[1]);
}
END_TEST

/* Of more than one design, and of all of them. */
START_TEST(what_breaks_every_design_is_to_be_settled)
{
    finding[0].asked = 2;
    finding[0].broken = 2;
    finding[1].asked = finding[1].broken = 3;
    finding[2].asked = 3;
    finding[2].broken = 2;
    print_choice(BW_EXTENT_SCREEN);
    says_if(true, "that it was tried in: a leak; damp timber. Find out");
    finding[0].asked = finding[0].broken = 1;
    print_choice(BW_EXTENT_SCREEN);
    says_if(true, "that it was tried in: damp timber. Find out");
    finding[1].broken = 1;
    print_choice(BW_EXTENT_SCREEN);
    says_if(false, "Breaks every design");
}
END_TEST

START_TEST(weights_say_whether_the_first_stays)
{
    choice.chosen.has_weights = _i > 0;
    choice.chosen.best_stays = _i == 1;
    choice.chosen.best_moves = "half of mould puts elm first";
    design[0].score = 0.4375;
    print_choice(BW_EXTENT_SCREEN);
    says_if(_i > 0,
            "First by your weights (score 0.44, 0 is best in all): oak.");
    says_if(_i == 1, "oak. Half or twice of any one weight leaves it first.");
    says_if(_i == 2, "oak. Half of mould puts elm first.");
    says_if(_i > 0, "Those that hold first, then by your weights.");
    says_if(_i == 0, "then the fewest failures; no order by taste.");
}
END_TEST

/* A goal has its column where it is known, and a star where it is assumed. */
static const struct goal_row {
    bw_goal goal;
    const char *column;
    const char *value; /* of 0.0625 */
} goal_rows[] = {
    {BW_GOAL_RESERVE, "Thick Reserve ", "62"},
    {BW_GOAL_MOULD, "Thick Mould ", "0.06"},
    {BW_GOAL_PRICE, "Thick Price ", "0.06"},
    {BW_GOAL_CARBON, "Thick Carbon ", "0.1"},
};

START_TEST(a_goal_has_its_column_and_star)
{
    const struct goal_row *row = &goal_rows[_i];
    char starred[32];
    snprintf(starred, sizeof starred, " %s* ", row->value);
    design[1].goal[row->goal] = 0.0625;
    choice.chosen.known[row->goal] = false;
    print_choice(BW_EXTENT_FULL);
    says_if(false, row->column);
    choice.chosen.known[row->goal] = true;
    print_choice(BW_EXTENT_FULL);
    says_if(true, row->column);
    says_if(false, starred);
    says_if(false, "* rests on what is assumed");
    const bool priced = row->goal == BW_GOAL_PRICE ||
                        row->goal == BW_GOAL_CARBON;
    says_if(priced, "those of the chosen layers alone");
    says_if(row->goal == BW_GOAL_CARBON, "alone; sources of carbon lie apart");
    design[1].assumed[row->goal] = true;
    print_choice(BW_EXTENT_FULL);
    says_if(true, starred);
    says_if(true, "* rests on what is assumed: price, carbon.");
    design[0].assumed_layers = "slag wool";
    print_choice(BW_EXTENT_FULL);
    says_if(true, "* rests on what is assumed: the layer slag wool; a price");
    design[1].goal[row->goal] = (double)NAN;
    print_choice(BW_EXTENT_FULL);
    says_if(false, starred);
}
END_TEST

START_TEST(a_row_of_the_front_has_its_own_figures)
{
    choice.chosen.simulated = _i == 0;
    design[1].drawn = 29;
    design[1].failed = 6;
    design[1].failed_numbers = 8;
    design[1].bound = 0.375;
    design[1].goal[BW_GOAL_U] = 0.15625;
    design[1].goal[BW_GOAL_THICKNESS] = 0.4375;
    design[1].tie = 27; /* the letters begin again */
    design[2].tie = 2;
    design[2].central = "mould";
    design[2].drawn = 0;
    print_choice(BW_EXTENT_FULL);
    says_if(true, _i == 0 ? " 2 =a elm breaks 6/29 37.5 0.156 437.5"
                          : " 2 =a elm breaks 8/29 37.5 0.156 437.5");
    says_if(true, " 3 =b ash breaks - ");
    says_if(true, "=a: no figure tells these apart");
    says_if(true, "By mould ash is the best as drawn alone");
    says_if(false, "By mould elm");
    design[1].tie = design[2].tie = 0;
    print_choice(BW_EXTENT_FULL);
    says_if(false, "=a: no figure tells these apart");
}
END_TEST

START_TEST(a_screen_shows_twelve_and_says_how_many_more)
{
    choice.chosen.front_count = 11 + (size_t)_i;
    print_choice(BW_EXTENT_SCREEN);
    says_if(_i == 2, "1 more: --full.");
    says_if(_i == 3, "2 more: --full.");
    says_if(_i > 0, "12 hop breaks 0/32 9.0 2.500 3500");
    says_if(false, "13 rue breaks 0/32 9.0 2.500 3500");
    print_choice(BW_EXTENT_FULL);
    says_if(false, "more: --full.");
    says_if(_i > 0, "hop breaks");
    says_if(_i == 3, "ivy breaks");
}
END_TEST

START_TEST(what_was_dropped_has_its_reason)
{
    bw_chosen *c = &choice.chosen;
    c->over_limit = 2;
    c->beaten = 3;
    c->as_drawn_failing = 4;
    c->broken = 5;
    c->round_count = 2;
    c->round[0] = (bw_round){false, 64, 14, 11};
    c->round[1] = (bw_round){true, 32, 10, 6};
    design[4].standing = BW_OUT;
    design[4].dropped = "thicker than allowed";
    print_choice(BW_EXTENT_FULL);
    says_if(true, "14 designs: 2 over a limit of the file, 3 beaten in "
                  "everything, 4 not good as drawn, 5 broken where one that "
                  "holds is no worse in what is fixed, 3 left.");
    says_if(true, "after 64 cases by months: 11 of 14 designs left");
    says_if(true, "after 32 cases simulated: 6 of 10 designs left");
    says_if(true, "yew thicker than allowed");
    says_if(false, "fir beaten");
    print_choice(BW_EXTENT_SCREEN);
    says_if(false, "yew thicker than allowed");
}
END_TEST

START_TEST(what_was_held_is_named)
{
    bw_chosen *c = &choice.chosen;
    c->simulation_count = 123;
    c->steady_count = 456;
    c->seed = 789;
    finding[1].settled = true;
    print_choice(BW_EXTENT_FULL);
    says_if(true, "As drawn, settled by you: damp timber.");
    says_if(false, "settled by you: a leak.");
    says_if(true, "Of what else margin varies nothing was held.");
    says_if(true, "123 walls simulated, 456 assessed by months; seed 789.");
    c->fixed_count = 2;
    c->fixed = fixed_names;
    print_choice(BW_EXTENT_FULL);
    says_if(true, "(--wide varies it here, too): mu of a; lambda of b.");
    says_if(false, "nothing was held");
    print_choice(BW_EXTENT_SCREEN);
    says_if(false, "mu of a; lambda of b");
}
END_TEST

/* The worst drawn case of each that was drawn for. */
START_TEST(the_worst_case_has_its_verdict_and_figure)
{
    choice.chosen.simulated = _i == 0;
    design[1].drawn = 9;
    design[1].worst = "rain behind";
    design[1].worst_verdict = BW_FAILS;
    design[1].worst_numbers = BW_HOLDS;
    design[1].decides = "mu of b";
    design[2].drawn = 0;
    design[2].worst = "rain within";
    print_choice(BW_EXTENT_FULL);
    says_if(true, _i == 0 ? "2 rain behind fails: some-row 7.25 (limit 3.5) mu "
                            "of b"
                          : "2 rain behind would hold: some-row 7.25 (limit "
                            "3.5) mu of b");
    says_if(true, "1 the worst");
    says_if(false, "rain within");
    says_if(true, "asked of cases that fail");
    choice.chosen.drawn_designs = 0;
    print_choice(BW_EXTENT_FULL);
    says_if(false, "asked of cases that fail");
}
END_TEST

SUITE_AROUND("choose_words", choose_setup, NULL,
             EACH(the_answer_counts_what_holds, COUNT(answers)),
             FACT(one_that_is_not_assessed_does_not_break),
             EACH(a_bound_says_what_it_is_of, 5),
             EACH(what_breaks_the_first_is_said, COUNT(worst_rows)),
             FACT(what_breaks_every_design_is_to_be_settled),
             EACH(weights_say_whether_the_first_stays, 3),
             EACH(a_goal_has_its_column_and_star, COUNT(goal_rows)),
             EACH(a_row_of_the_front_has_its_own_figures, 2),
             EACH(a_screen_shows_twelve_and_says_how_many_more, 4),
             FACT(what_was_dropped_has_its_reason),
             FACT(what_was_held_is_named),
             EACH(the_worst_case_has_its_verdict_and_figure, 2))
