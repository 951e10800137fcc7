#ifndef BW_TESTS_MARKS_SIMULATION_H
#define BW_TESTS_MARKS_SIMULATION_H

/* The wall made by hand simulated, in random hours. */

#include <math.h>
#include <string.h>

#include "marks_case.h"

enum { HOURS = 8760, PLACES = 3, DAYS = 365, YEARS = 4 };

static bw_monitor monitor[PLACES];
static bw_monitor_hour hours[HOURS * PLACES];
static bw_slab_moisture moisture[2];
static bw_wood_day first_day[DAYS], last_day[DAYS];
static double course[YEARS * BW_SPANS * PLACES];
static bw_section simulated;
static bw_cell_year cells[4];

static inline void random_simulation(void)
{
    memset(moisture, 0, sizeof moisture);
    memset(cells, 0, sizeof cells);
    for (size_t i = 0; i < PLACES; i++) {
        monitor[i] = (bw_monitor){
            .slab = i > 0 ? i - 1 : 0,
            .label = "softboard",
            .outer_face = i == 0,
            .room_face = i == 2,
            .hours_above_80 = floor(between(&die, 1000.0, 2000.0)),
            .hours_above_95 = floor(between(&die, 100.0, 900.0))};
        for (int m = 0; m < BW_MONTHS; m++) {
            monitor[i].month_rh[m] = between(&die, 0.5, 0.99);
            monitor[i].month_theta[m] = between(&die, -5.0, 25.0);
        }
        for (size_t h = 0; h < HOURS; h++)
            hours[h * PLACES + i] = (bw_monitor_hour){
                .theta = (float)between(&die, -12.0, 28.0),
                .phi = (float)between(&die, 0.45, 0.99)};
    }
    for (size_t k = 0; k < BW_SPANS; k++) {
        moisture[1].inward[k] = between(&die, 150.0, 900.0);
        moisture[1].inward_in_sun[k] = 0.5 * moisture[1].inward[k];
    }
    for (size_t i = 0; i < 4; i++) {
        cells[i] = (bw_cell_year){.slab = i / 2,
                                  .middle = i < 2 ? 0.003 + 0.006 * (double)i
                                                  : 0.0345 +
                                                        0.045 * (double)(i - 2),
                                  .width = i < 2 ? 0.006 : 0.045};
        for (size_t k = 0; k < BW_SPANS; k++)
            cells[i].phi[k] = between(&die, 0.5, 0.99);
    }
    simulated = wall.section;
    simulated.slab_count = 2;
    wall.checked.has_transient = true;
    wall.checked.transient_section = &simulated;
    wall.checked.transient = (bw_transient_result){
        .method = "",
        .monitor_count = PLACES,
        .monitor = monitor,
        .slab_count = 2,
        .slab = moisture,
        .last_hours = hours,
        .cells = 4,
        .cell = cells,
        .mould_course = course,
        .years = YEARS,
        .periodic = true,
        .first_month = (int)(12.0 * uniform(&die))};
}

#endif
