/* Every drawing of the wall made by hand in random months, water and hours is
 * laid out as it was (kept_drawings.h). */

#include "kept_drawings.h"
#include "marks_simulation.h"

enum { SEEDS = 4 };

static bw_place_mould mould[PLACES];
static bw_wood_damage wood[2]; /* one a slab */

static void print(int seed)
{
    start(seed);
    report_wall_make(&wall);
    random_months();
    water_at(1 + (size_t)seed % 3);
    for (int m = 0; m < BW_MONTHS; m++)
        wall.layer_sd[2][m] = decades(&die, -0.3, 0.8);
    if (seed > 0)
        random_simulation();
    for (size_t i = 0; i < YEARS * BW_SPANS * PLACES; i++)
        course[i] = between(&die, 0.0, 4.0);
    for (size_t i = 0; i < PLACES; i++)
        mould[i].highest = between(&die, 0.0, 4.0);
    for (size_t d = 0; d < DAYS; d++) {
        first_day[d].moisture = between(&die, 0.1, 0.3);
        last_day[d].moisture = between(&die, 0.1, 0.3);
    }
    moisture[1].is_wood = true;
    moisture[1].first_days = first_day;
    moisture[1].last_days = last_day;
    wall.checked.mould = mould;
    wall.checked.wood = wood;
    wall.criterion[0].section = wall.section.name;
    wall.criterion[0].criterion = seed == 3 ? "mould-index-room"
                                            : "mould-index-hidden";
    wall.criterion[0].has_value = wall.criterion[0].has_limit = true;
    wall.criterion[0].value = mould[seed == 3 ? 2 : 1].highest;
    wall.criterion[0].limit = 3.0;
    wall.criterion[0].decides = true;
    wall.criterion[0].verdict = wall.criterion[0].outcome = BW_FAILS;
    wall.criterion[0].unit = "-";
    print_page();
}

START_TEST(drawings_of_a_wall_are_laid_out_as_they_were)
{
    for (int seed = 0; seed < SEEDS; seed++) {
        char name[16];
        print(seed);
        snprintf(name, sizeof name, "wall-%d", seed);
        take_all(name, page.text);
        page_teardown();
        doc = NULL;
    }
    are_as_kept(BW_SOURCE_DIR "/tests/data/drawings_wall.txt");
}
END_TEST

SUITE("drawings_wall", FACT(drawings_of_a_wall_are_laid_out_as_they_were))
