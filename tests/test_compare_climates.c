/* Two climates are one where every figure is, whatever they are called: of each
 * figure of a month, of each hour, that it counts, and that what is not there
 * does not. */

#include <stddef.h>
#include <string.h>

#include "compare/comparing.h"
#include "compare_case.h"
#include "has_words.h"
#include "suite.h"

static compare_case walls;
static bw_compare_core core;
static bw_climate first, other;
static bw_climate_hour hours[2][24];

static void start(void)
{
    case_start(&walls);
    case_add(&walls, (case_wall){"a", NULL, NULL,
                                 CASE_WOOL("100", "0.040") CASE_LINING});
    first = *walls.climate[0];
    for (int m = 0; m < BW_MONTHS; m++) {
        bw_climate_month *month = &first.month[m];
        month->has_global = month->has_wind = month->has_rain =
            month->has_rain_wind = month->has_wettest_day = month->has_ground =
                month->has_rain_rose = true;
        for (int f = 0; f < BW_FACINGS; f++)
            month->has_vertical[f] = true;
    }
    other = first;
}

static void forget(void)
{
    bw_arena_release(&core.arena);
    core = (bw_compare_core){.count = 2};
}

static void end(void)
{
    forget();
    for (size_t i = 0; i < walls.count; i++) {
        bw_assembly_free(walls.assembly[i]);
        bw_climate_free(walls.climate[i]);
    }
    bw_library_free(walls.library);
    char command[128];
    snprintf(command, sizeof command, "%s/wall-0.xml", walls.folder);
    remove(command);
    snprintf(command, sizeof command, "%s/climate.csv", walls.folder);
    remove(command);
    rmdir(walls.folder);
}

static bool differ(void)
{
    bw_error err = {0};
    forget();
    core.options.conditions_may_differ = true;
    for (size_t i = 0; i < 2; i++) {
        core.given[i] = walls.assembly[0];
        core.climate[i] = i == 0 ? &first : &other;
    }
    ck_assert_msg(bw_compare_conditions(&core, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_uint_eq(core.comparison.difference_count,
                      core.comparison.climates_differ);
    return core.comparison.climates_differ;
}

/* A figure, and whether it is there. */
static const struct figure_row {
    const char *name;
    size_t at, known; /* of bw_climate_month; known SIZE_MAX: always */
} figures[] = {
#define ALWAYS(field)                                                          \
    {                                                                          \
#field, offsetof(bw_climate_month, field), SIZE_MAX                    \
    }
#define KNOWN(field, has)                                                      \
    {                                                                          \
#field, offsetof(bw_climate_month, field),                             \
            offsetof(bw_climate_month, has)                                    \
    }
    ALWAYS(temperature),
    ALWAYS(vapour_pressure),
    KNOWN(global_horizontal, has_global),
    KNOWN(vertical[0], has_vertical[0]),
    KNOWN(vertical[3], has_vertical[3]),
    KNOWN(vertical[7], has_vertical[7]),
    KNOWN(wind, has_wind),
    KNOWN(rain, has_rain),
    KNOWN(rain_wind, has_rain_wind),
    KNOWN(wettest_day, has_wettest_day),
    KNOWN(ground_temperature, has_ground),
    KNOWN(rain_rose[0], has_rain_rose),
    KNOWN(rain_rose[5], has_rain_rose),
    KNOWN(rain_rose[7], has_rain_rose),
};

START_TEST(every_figure_of_every_month_counts)
{
    const struct figure_row *row = &figures[_i];
    ck_assert(!differ());
    for (int m = 0; m < BW_MONTHS; m++) {
        char *const own = (char *)&first.month[m];
        char *const its = (char *)&other.month[m];
        double *value = (double *)(void *)(its + row->at);
        const double was = *value;
        *value += 1e-9 + 1e-9 * was;
        ck_assert_msg(differ(), "%s of month %d", row->name, m + 1);
        if (row->known != SIZE_MAX) {
            /* of neither: what stands there is none */
            *(bool *)(own + row->known) = *(bool *)(its + row->known) = false;
            ck_assert_msg(!differ(), "%s of month %d", row->name, m + 1);
            /* of one alone */
            *(bool *)(own + row->known) = true;
            *value = was;
            ck_assert_msg(differ(), "%s of month %d", row->name, m + 1);
            *(bool *)(its + row->known) = true;
        }
        *value = was;
        ck_assert(!differ());
    }
}
END_TEST

START_TEST(every_hour_counts_and_so_does_their_kind)
{
    for (int h = 0; h < 24; h++)
        hours[0][h] = hours[1][h] = (bw_climate_hour){.temperature = h};
    first.hour = hours[0];
    other.hour = hours[1];
    first.hour_count = other.hour_count = 24;
    ck_assert(!differ());
    for (int h = 0; h < 24; h++) {
        hours[1][h].rain = 0.1;
        ck_assert_msg(differ(), "hour %d", h);
        hours[1][h].rain = 0.0;
    }
    other.hour_count = 23;
    ck_assert(differ());
    other.hour_count = first.hour_count = 0;
    hours[1][0].temperature = 5.0; /* that are none */
    ck_assert(!differ());
    other.kind = BW_CLIMATE_HOURLY;
    first.kind = BW_CLIMATE_MONTHLY;
    ck_assert(differ());
}
END_TEST

/* By its place; with its file where another has that place, or without one. */
START_TEST(a_climate_is_called_so_that_it_can_be_told_apart)
{
    static const struct {
        const char *place, *file, *says;
    } rows[] = {{"Moor", "moor.csv", "Moor"},
                {"Hill", "hill.csv", "Hill (hill.csv)"},
                {"", "some.csv", "some.csv"}};
    first.place = "Hill";
    first.file = "first.csv";
    other.month[4].wind += 1.0;
    for (size_t i = 0; i < COUNT(rows); i++) {
        other.place = rows[i].place;
        other.file = rows[i].file;
        ck_assert(differ());
        const char *text = core.comparison.difference[0];
        char words[64];
        snprintf(words, sizeof words, ": %s.", rows[i].says);
        NAMES(text, "outdoor climates differ", words);
        has(text, i == 1 ? "Hill (first.csv)" : ": Hill;");
    }
}
END_TEST

SUITE_AROUND("compare_climates", start, end,
             EACH(every_figure_of_every_month_counts, COUNT(figures)),
             FACT(every_hour_counts_and_so_does_their_kind),
             FACT(a_climate_is_called_so_that_it_can_be_told_apart))
