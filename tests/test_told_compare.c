/* Walls that are not told apart: in what each is the better one all the same,
 * with the figures of both, and no more than two things a wall. The comparison
 * is that of full_result.h. */

#include <stdio.h>

#include "flat_text.h"
#include "full_result.h"

enum { TRAITS = 4 };

static bw_trait traits[TRAITS];

static void walls_alike(size_t count)
{
    static const char *const words[TRAITS] = {"dries faster", "stays drier",
                                              "is warmer", "is thinner"};
    full_setup();
    full_row[0].unit = "months";
    full_value[0][0] = 0.5;
    full_value[0][1] = 2.25;
    full_stressed[0].figure.value = 0.25;
    full_stressed[1].figure.value = 0.75;
    for (size_t i = 0; i < TRAITS; i++)
        traits[i] = (bw_trait){.name = "a",
                               .words = words[i],
                               .best = 0,
                               .worst = 1,
                               .row = full_row};
    full_comparison.best_count = FULL_WALLS;
    full_comparison.trait_count = count;
    full_comparison.trait = traits;
}

static void print_answer(void)
{
    print_flat(&wall.results, BW_DOCUMENT_COMPARE, BW_EXTENT_FULL);
}

START_TEST(a_trait_is_told_with_the_figures_of_both)
{
    walls_alike(1);
    print_answer();
    says_if(true, "Which wall: none holds more than another that these figures "
                  "can show; first-wall dries faster (0.5 months against 2.2 "
                  "months).");
    traits[0].best = 1;
    traits[0].worst = 0;
    print_answer();
    says_if(true, "show; second-wall dries faster (2.2 months against 0.5 "
                  "months).");
    walls_alike(0);
    print_answer();
    says_if(true, "Which wall: no difference that these figures can show.");
}
END_TEST

START_TEST(a_figure_that_is_missing_is_told_by_what_stands_for_it)
{
    static const char *instead[FULL_WALLS] = {"", "not in 10 years"};
    static bool known[FULL_WALLS] = {true, false};
    walls_alike(1);
    full_row[0].has_value = known;
    full_row[0].instead = instead;
    print_answer();
    says_if(true, "first-wall dries faster (0.5 months against not in 10 "
                  "years).");
    instead[1] = "";
    print_answer();
    says_if(true, "show; first-wall dries faster.");
}
END_TEST

START_TEST(a_trait_under_a_stress_has_its_figures)
{
    walls_alike(1);
    traits[0].row = NULL;
    traits[0].stress = full_stress;
    print_answer();
    says_if(true, "first-wall dries faster (whole: 250 g/m2 against whole: "
                  "750 g/m2).");
}
END_TEST

START_TEST(of_a_wall_two_things_are_told_and_two_walls_are_a_trade_off)
{
    walls_alike(3);
    for (size_t i = 0; i < TRAITS; i++)
        traits[i].row = i == 0 ? full_row : NULL;
    for (size_t i = 1; i < TRAITS; i++)
        traits[i].stress = full_stress;
    print_answer();
    says_if(true, "first-wall dries faster (0.5 months against 2.2 months) and "
                  "stays drier (whole: 250 g/m2 against whole: 750 g/m2).");
    says_if(false, "is warmer");
    says_if(false, "a trade-off");
    traits[2].best = 1;
    traits[2].worst = 0;
    print_answer();
    says_if(true, "a trade-off: first-wall dries faster");
    says_if(true, "750 g/m2); second-wall is warmer (whole: 750 g/m2 "
                  "against whole: 250 g/m2).");
}
END_TEST

/* More than 28 columns: on a screen every wall is called by a letter, which
 * stands once beside its name; on paper by its name. */
START_TEST(walls_of_long_names_are_called_by_letters_on_a_screen)
{
    static const char *const names[] = {"a-wall-of-twenty-eight-chars",
                                        "a-wall-of-twenty-nine-columns"};
    for (size_t i = 0; i < 2; i++)
        for (int screen = 0; screen < 2; screen++) {
            walls_alike(1);
            full_walls[1].label = names[i];
            print_flat(&wall.results, BW_DOCUMENT_COMPARE,
                       screen ? BW_EXTENT_SCREEN : BW_EXTENT_FULL);
            says_if(i == 1 && screen, " A: first-wall");
            says_if(i == 1 && screen, " B: a-wall-of-twenty-nine-columns");
            says_if(i == 0 || !screen, "first-wall dries faster");
        }
}
END_TEST

SUITE("told_compare", FACT(a_trait_is_told_with_the_figures_of_both),
      FACT(a_figure_that_is_missing_is_told_by_what_stands_for_it),
      FACT(a_trait_under_a_stress_has_its_figures),
      FACT(of_a_wall_two_things_are_told_and_two_walls_are_a_trade_off),
      FACT(walls_of_long_names_are_called_by_letters_on_a_screen))
