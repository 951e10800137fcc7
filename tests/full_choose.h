#ifndef BW_TESTS_FULL_CHOOSE_H
#define BW_TESTS_FULL_CHOOSE_H

/* A choice in which everything that can be told is there; its numbers are made
 * up. Two designs, the second alone on the front. */

#include "bothways/choose.h"

typedef struct full_choose {
    bw_choices choices;
    bw_finding finding[1];
    bw_found_alone found[1];
    size_t front[1];
    bw_design design[2];
    bw_chosen chosen;
} full_choose;

static full_choose choice;

static inline bw_design full_design(const bw_found_alone *found)
{
    bw_design d = {.name = "foil",
                   .standing = BW_BREAKS,
                   .dropped = "",
                   .beaten_by = -1,
                   .assumed_layers = "",
                   .drawn = 32,
                   .found = found,
                   .breaks = "a leak",
                   .worst = "the worst",
                   .decides = "a leak",
                   .tie = 3,
                   .central = "",
                   .bound = 0.09,
                   .score = 0.4};
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        d.goal[g] = 1.5 + g;
        d.drawn_goal[g] = 20.5 + g;
    }
    return d;
}

static inline void full_choose_make(full_choose *f,
                                    const bw_assessment *assessment)
{
    *f = (full_choose){
        .choices = {.currency = "EUR"},
        .finding = {{.name = "a leak", .low = "", .high = "a leak"}},
        .found = {{.applies = true,
                   .computed = true,
                   .setting = "a leak",
                   .figure = {.criterion = "mould-index-hidden",
                              .value = 3.5,
                              .limit = 3.0,
                              .unit = "-"}}},
        .front = {1}};
    f->design[0] = f->design[1] = full_design(f->found);
    f->design[0].standing = BW_OUT;
    f->design[0].dropped = "beaten";
    f->design[1].on_front = true;
    f->chosen = (bw_chosen){.assembly = assessment->assembly,
                            .climate = assessment->climate,
                            .assessment = assessment,
                            .choices = &f->choices,
                            .design_count = 2,
                            .design = f->design,
                            .front_count = 1,
                            .front = f->front,
                            .finding_count = 1,
                            .finding = f->finding,
                            .seed = 1,
                            .joint_bound = 0.2};
}

#endif
