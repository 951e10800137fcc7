/* Every column of numbers of every table is the field it is said to be, in its
 * unit, in CSV and in JSON: the field alone is changed to another random
 * number, and that column alone changes with it. The list below is a second
 * telling of docs/tables.md, by the fields of the public structs. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BW_NO_FENCE /* it prints a thousand tables */

#include "bothways/audit.h"
#include "bothways/report.h"
#include "fenced_results.h"
#include "full_choose.h"
#include "full_junction.h"
#include "full_replay.h"
#include "full_result.h"

enum { ROWS = 256, FIELDS = 40 };

typedef struct field {
    bw_table table;
    const char *column;
    void *at;
    full_kind kind;
    double factor, add; /* column = factor * field + add */
    const char *also;   /* another column that follows from it */
} field;

#define REAL(table, column, field, factor)                                     \
    {                                                                          \
        BW_TABLE_##table, column, &(field), FULL_REAL, factor, 0.0, ""         \
    }
#define WITH(table, column, field, factor, also)                               \
    {                                                                          \
        BW_TABLE_##table, column, &(field), FULL_REAL, factor, 0.0, also       \
    }
#define WHOLE(kind, table, column, field, add)                                 \
    {                                                                          \
        BW_TABLE_##table, column, &(field), FULL_##kind, 1.0, add, ""          \
    }

#define CHECKED wall.checked
#define PLANE wall.plane[2].month[4]
#define SURFACE wall.checked.surface[0].month[7]
#define WETTING wall.checked.wetting_test
#define FROST_AT CHECKED.frost.at[0]
#define CONVERGED wall.checked.convergence
#define HEAT meeting.heat

static const field fields[] = {
    REAL(VERDICT, "value", wall.criterion[0].value, 1.0),
    REAL(VERDICT, "limit", wall.criterion[0].limit, 1.0),
    REAL(VERDICT, "margin", wall.criterion[0].margin, 1.0),
    WITH(LAYERS, "thickness_m", wall.slab[1].thickness, 1.0, "mu"),
    REAL(LAYERS, "lambda_W_mK", wall.material[1].thermal_conductivity.value,
         1.0),
    REAL(LAYERS, "resistance_m2K_W", wall.slab[1].resistance, 1.0),
    WITH(LAYERS, "sd_m", wall.slab[2].sd_dry, 1.0,
         "cumulative_sd_from_outside_m"),
    REAL(MONTHLY, "sd_from_outside_m", PLANE.sd_from_outside, 1.0),
    REAL(MONTHLY, "temperature_C", PLANE.theta, 1.0),
    REAL(MONTHLY, "saturation_pressure_Pa", PLANE.saturation_pressure, 1.0),
    REAL(MONTHLY, "vapour_pressure_Pa", PLANE.vapour_pressure, 1.0),
    REAL(MONTHLY, "relative_humidity_pct", PLANE.relative_humidity, 100.0),
    REAL(MONTHLY, "condensation_kg_m2", PLANE.condensation, 1.0),
    REAL(MONTHLY, "accumulated_kg_m2", PLANE.accumulated, 1.0),
    REAL(MONTHLY, "layer_sd_m", wall.layer_sd[1][4], 1.0),
    REAL(SURFACE, "outdoor_temperature_C", SURFACE.theta_e, 1.0),
    REAL(SURFACE, "outdoor_vapour_pressure_Pa", SURFACE.p_e, 1.0),
    REAL(SURFACE, "indoor_temperature_C", SURFACE.theta_i, 1.0),
    REAL(SURFACE, "indoor_vapour_pressure_Pa", SURFACE.p_i, 1.0),
    REAL(SURFACE, "surface_temperature_C", SURFACE.theta_si, 1.0),
    REAL(SURFACE, "surface_relative_humidity_pct", SURFACE.rh_si, 100.0),
    REAL(SURFACE, "frsi_required", CHECKED.surface[0].month[0].frsi_required,
         1.0),
    REAL(SURFACE, "frsi", CHECKED.surface[0].frsi, 1.0),
    REAL(PERIOD, "sd_from_outside_m", CHECKED.period.plane[0].sd_from_outside,
         1.0),
    WITH(PERIOD, "condensed_kg_m2", CHECKED.period.plane[0].condensed, 1.0,
         "reserve_kg_m2"),
    WITH(PERIOD, "evaporable_kg_m2", CHECKED.period.plane[0].evaporable, 1.0,
         "reserve_kg_m2"),
    REAL(CONVERGENCE, "time_temperature_K", CONVERGED.theta_time, 1.0),
    REAL(CONVERGENCE, "time_relative_humidity_pct", CONVERGED.phi_time, 100.0),
    REAL(CONVERGENCE, "time_water_kg_m2", CONVERGED.water_time, 1.0),
    REAL(CONVERGENCE, "cells_temperature_K", CONVERGED.theta_grid, 1.0),
    REAL(CONVERGENCE, "cells_relative_humidity_pct", CONVERGED.phi_grid, 100.0),
    REAL(CONVERGENCE, "cells_water_kg_m2", CONVERGED.water_grid, 1.0),
    WHOLE(SIZE, CONVERGENCE, "cells", CONVERGED.cells, 0.0),
    WHOLE(SIZE, CONVERGENCE, "steps", CONVERGED.steps, 0.0),
    REAL(WETTING, "water_kg_m2", WETTING.water, 1.0),
    WHOLE(MONTH, WETTING, "month", WETTING.month, 1.0),
    REAL(WETTING, "months", WETTING.outwards.months, 1.0),
    REAL(WETTING, "place_months", WETTING.inwards.place_months, 1.0),
    REAL(WETTING, "left_kg_m2", WETTING.both.left, 1.0),
    REAL(WETTING, "mould_index", WETTING.both.highest_mould, 1.0),
    REAL(WETTING, "mould_index_dry", WETTING.both.highest_mould_dry, 1.0),
    {BW_TABLE_WETTING, "followed_months", &WETTING.both.day_count, FULL_SIZE,
     12.0 / 365.0, 0.0, ""},
    REAL(WETTING, "damp_months", WETTING.both.damp_months, 1.0),
    REAL(DAMAGE, "mould_index", full_mould[1].highest, 1.0),
    REAL(DAMAGE, "mould_index_slow_decline", full_mould[1].highest_slow, 1.0),
    REAL(DAMAGE, "mould_dose_d", full_mould[1].dose, 1.0),
    WHOLE(SIZE, DAMAGE, "wetness_hours", full_mould[1].wetness_hours, 0.0),
    REAL(DAMAGE, "hours_above_80", wall.monitor[1].hours_above_80, 1.0),
    REAL(DAMAGE, "hours_above_90", wall.monitor[1].hours_above_90, 1.0),
    REAL(DAMAGE, "hours_above_95", wall.monitor[1].hours_above_95, 1.0),
    /* then the month is that of the first year, too */
    WITH(DAMAGE, "standing_water_kg_m2", wall.monitor[1].first_free.largest,
         1.0, "standing_water_month"),
    REAL(DAMAGE, "standing_water_kg_m2", wall.monitor[0].last_free.largest,
         1.0),
    WHOLE(MONTH, DAMAGE, "standing_water_month",
          wall.monitor[1].last_free.month, 1.0),
    REAL(DAMAGE, "standing_water_hours", wall.monitor[1].last_free.hours, 1.0),
    REAL(DAMAGE, "first_year_wood_moisture_pct",
         wall.moisture[0].first_highest_wood_moisture, 100.0),
    REAL(DAMAGE, "wood_moisture_pct", wall.moisture[0].highest_wood_moisture,
         100.0),
    REAL(DAMAGE, "wood_moisture_limit_pct", wall.moisture[0].limit, 100.0),
    REAL(DAMAGE, "hours_above_wood_limit", wall.moisture[0].hours_above_limit,
         1.0),
    REAL(DAMAGE, "weeks_to_wood_limit", wall.moisture[0].weeks_to_limit, 1.0),
    WHOLE(SIZE, DAMAGE, "first_year_days_above_timber_line",
          full_wood[0].first_line.days_above, 0.0),
    WHOLE(SIZE, DAMAGE, "days_above_timber_line", full_wood[0].line.days_above,
          0.0),
    REAL(DAMAGE, "first_year_decay_dose_d", full_wood[0].first_dose, 1.0),
    REAL(DAMAGE, "decay_dose_d", full_wood[0].dose, 1.0),
    REAL(DAMAGE, "service_decay_dose_d", full_wood[0].service_dose, 1.0),
    REAL(FROST, "depth_m", FROST_AT.depth, 1.0),
    WHOLE(SIZE, FROST, "crossings_0", FROST_AT.as_built.crossings_0, 0.0),
    WHOLE(SIZE, FROST, "crossings_2", FROST_AT.bare.crossings_2, 0.0),
    WHOLE(SIZE, FROST, "cycles_above_30_of_free", FROST_AT.bare.wet_cycles[0],
          0.0),
    WHOLE(SIZE, FROST, "cycles_above_25", FROST_AT.as_built.wet_cycles[1], 0.0),
    WHOLE(SIZE, FROST, "cycles_above_50", FROST_AT.as_built.wet_cycles[2], 0.0),
    WHOLE(SIZE, FROST, "cycles_above_70", FROST_AT.as_built.wet_cycles[3], 0.0),
    WHOLE(SIZE, FROST, "cycles_above_90", FROST_AT.as_built.wet_cycles[4], 0.0),
    REAL(FROST, "wettest_pct", FROST_AT.bare.wettest, 100.0),
    REAL(FROST, "ice_index", FROST_AT.as_built.ice_index, 1.0),
    REAL(HOURLY, "temperature_C", wall.hour[2].theta, 1.0),
    REAL(HOURLY, "relative_humidity_pct", wall.hour[2].phi, 100.0),
    REAL(HOURLY, "water_content_kg_m3", wall.hour[2].water_content, 1.0),
    REAL(HOURLY, "mould_index", wall.hour[2].mould, 1.0),
    REAL(HOURLY, "total_water_kg_m2", wall.hour_total[1], 1.0),
    REAL(COMPARE, "value", full_value[0][1], 1.0),
    REAL(COMPARE, "value", full_value[1][0], 1.0),
    REAL(COMPARE, "limit", full_judged[1].limit, 1.0),
    REAL(COMPARE, "margin", full_judged[1].margin, 1.0),
    REAL(STRESSES, "value", full_stressed[1].figure.value, 1.0),
    REAL(STRESSES, "limit", full_stressed[1].figure.limit, 1.0),
    REAL(STRESSES, "relative_margin", full_stressed[1].worst_margin, 1.0),
    REAL(MARGIN, "as_drawn", full_unknown[1].as_drawn, 1.0),
    REAL(MARGIN, "low", full_unknown[1].low, 1.0),
    REAL(MARGIN, "high", full_unknown[1].high, 1.0),
    REAL(MARGIN, "flip_value", full_unknown[1].flip_value, 1.0),
    REAL(MARGIN, "flip_half_width", full_unknown[1].flip_bracket, 1.0),
    REAL(MARGIN, "flip_share", full_unknown[1].flip_share, 1.0),
    REAL(MARGIN, "swing", full_unknown[1].swing, 1.0),
    REAL(MARGIN, "worst_relative_margin", full_unknown[1].worst_margin, 1.0),
    REAL(MARGIN, "value_low", full_unknown[1].figure_low.value, 1.0),
    REAL(MARGIN, "limit_low", full_unknown[1].figure_low.limit, 1.0),
    REAL(MARGIN, "value_high", full_unknown[1].figure_high.value, 1.0),
    REAL(MARGIN, "limit_high", full_unknown[1].figure_high.limit, 1.0),
    REAL(MARGIN_SAMPLES, "value", full_sample[1], 1.0),
    REAL(MARGIN_SAMPLES, "relative_margin", full_sample_margin[1], 1.0),
    REAL(SD_MAP, "inner_sd_m", full_inner[1], 1.0),
    REAL(SD_MAP, "outer_sd_m", full_outer[1], 1.0),
    REAL(SD_MAP, "condensed_kg_m2", full_map[1].condensed, 1.0),
    REAL(SD_MAP, "evaporable_kg_m2", full_map[1].evaporable, 1.0),
    REAL(SD_MAP, "reserve_kg_m2", full_map[1].reserve, 1.0),
    WHOLE(SIZE, MARGIN_SUMMARY, "cases", full_margin.damp.cases, 0.0),
    WHOLE(INT, MARGIN_SUMMARY, "holds", full_margin.damp.holds, 0.0),
    WHOLE(INT, MARGIN_SUMMARY, "fails", full_margin.damp.beyond, 0.0),
    WHOLE(SIZE, MARGIN_SUMMARY, "fails", full_margin.worst_combination_fails,
          0.0),
    REAL(MARGIN_SUMMARY, "share", full_margin.ensemble_share, 1.0),
    WHOLE(SIZE, MARGIN_CASES, "fails", full_case[0].fails, 0.0),
    REAL(MARGIN_CASES, "value", full_case[0].figure.value, 1.0),
    REAL(MARGIN_CASES, "limit", full_case[0].figure.limit, 1.0),
    REAL(MARGIN_CASES, "relative_margin", full_case[0].figure.margin, 1.0),
    REAL(MARGIN_CASES, "relative_margin_of_first_criterion",
         full_case[0].margin_as_drawn, 1.0),
    REAL(MATERIALS, "density_kg_m3", wall.material[0].density.value, 1.0),
    REAL(MATERIALS, "lambda_W_mK", wall.material[0].thermal_conductivity.value,
         1.0),
    REAL(MATERIALS, "specific_heat_J_kgK", wall.material[0].specific_heat.value,
         1.0),
    REAL(MATERIALS, "mu_dry", wall.material[0].mu_dry.value, 1.0),
    REAL(MATERIALS, "mu_wet", wall.material[0].mu_wet.value, 1.0),
    REAL(MATERIALS, "sd_m", wall.material[0].sd.value, 1.0),
    REAL(JUNCTION, "value", meeting.criterion[1].value, 1.0),
    REAL(JUNCTION, "limit", meeting.criterion[0].limit, 1.0),
    REAL(JUNCTION, "margin", meeting.criterion[0].margin, 1.0),
    REAL(JUNCTION_HEAT, "value", HEAT.l2d.value, 1.0),
    REAL(JUNCTION_HEAT, "value", HEAT.psi_inner, 1.0),
    REAL(JUNCTION_HEAT, "value", HEAT.psi_outer, 1.0),
    REAL(JUNCTION_HEAT, "value", meeting.coldest[4].frsi.value, 1.0),
    REAL(JUNCTION_HEAT, "error", HEAT.l2d.error, 1.0),
    REAL(JUNCTION_HEAT, "error", meeting.coupling[7].error, 1.0),
    REAL(JUNCTION_HEAT, "error", meeting.coldest[0].frsi.error, 1.0),
    REAL(JUNCTION_HEAT, "finest", HEAT.l2d.finest, 1.0),
    REAL(JUNCTION_HEAT, "finest", meeting.coupling[3].finest, 1.0),
    REAL(JUNCTION_HEAT, "finest", meeting.coldest[5].frsi.finest, 1.0),
    REAL(JUNCTION_FIELD, "x0_m", meeting.x[0], 1.0),
    WITH(JUNCTION_FIELD, "x0_m", meeting.x[2], 1.0, "x1_m"),
    REAL(JUNCTION_FIELD, "x1_m", meeting.x[FULL_NX], 1.0),
    REAL(JUNCTION_FIELD, "y0_m", meeting.y[0], 1.0),
    WITH(JUNCTION_FIELD, "y1_m", meeting.y[1], 1.0, "y0_m"),
    REAL(JUNCTION_FIELD, "y1_m", meeting.y[FULL_NY], 1.0),
    REAL(JUNCTION_WATER, "x_m", meeting.water[0].x, 1.0),
    REAL(JUNCTION_WATER, "y_m", meeting.water[0].y, 1.0),
    REAL(JUNCTION_WATER, "x0_m", meeting.water[0].x0, 1.0),
    REAL(JUNCTION_WATER, "x1_m", meeting.water[0].x1, 1.0),
    REAL(JUNCTION_WATER, "y0_m", meeting.water[0].y0, 1.0),
    REAL(JUNCTION_WATER, "y1_m", meeting.water[0].y1, 1.0),
    REAL(JUNCTION_WATER, "most_kg_m", meeting.water[0].most, 1.0),
    REAL(JUNCTION_WATER, "most_kg_m2", meeting.water[0].most_by_area, 1.0),
    REAL(JUNCTION_WATER, "left_kg_m", meeting.water[0].left, 1.0),
    REAL(JUNCTION_WATER, "left_kg_m2", meeting.water[0].left_by_area, 1.0),
    REAL(JUNCTION_FACES, "x_m", meeting.face[0].x, 1.0),
    REAL(JUNCTION_FACES, "y_m", meeting.face[0].y, 1.0),
    REAL(JUNCTION_FACES, "highest_rh_pct", meeting.face[0].highest_rh, 100.0),
    REAL(JUNCTION_FACES, "hours_above_80", meeting.face[0].above_80, 1.0),
    REAL(JUNCTION_FACES, "hours_above_90", meeting.face[0].above_90, 1.0),
    REAL(JUNCTION_FACES, "hours_above_95", meeting.face[0].above_95, 1.0),
    REAL(JUNCTION_FACES, "dampest_rh_pct", meeting.face[0].month_rh[4], 100.0),
    REAL(JUNCTION_FACES, "mould_index", meeting.face[0].mould, 1.0),
    REAL(JUNCTION_FACES, "mould_index_slow", meeting.face[0].mould_slow, 1.0),
    REAL(JUNCTION_FACES, "free_water_kg_m2", meeting.face[0].free_water, 1.0),
    REAL(JUNCTION_FACES, "moved_rh_pct", meeting.face[0].moved.rh, 100.0),
    REAL(JUNCTION_FACES, "moved_hours_above_95", meeting.face[0].moved.above_95,
         1.0),
    REAL(JUNCTION_FACES, "moved_mould_index", meeting.face[0].moved.mould, 1.0),
    REAL(JUNCTION_FACES, "moved_mould_index_slow",
         meeting.face[0].moved.mould_slow, 1.0),
    REAL(JUNCTION_FACES, "moved_free_water_kg_m2",
         meeting.face[0].moved.free_water, 1.0),
    REAL(JUNCTION_YEAR, "temperature_degC", meeting.course[0].theta[7], 1.0),
    REAL(JUNCTION_YEAR, "relative_humidity_pct", meeting.course[0].phi[7],
         100.0),
    REAL(JUNCTION_YEAR, "wood_moisture_pct", meeting.course[0].moisture[72],
         100.0),
    WHOLE(INT, JUNCTION_WATER, "month", meeting.water[0].month, 1.0),
    REAL(JUNCTION_SPOTS, "x_m", meeting.spot[0].x, 1.0),
    REAL(JUNCTION_SPOTS, "y_m", meeting.spot[0].y, 1.0),
    REAL(JUNCTION_SPOTS, "temperature_degC", meeting.at_spot[0].theta[3], 1.0),
    REAL(JUNCTION_SPOTS, "relative_humidity_pct", meeting.at_spot[0].rh[7],
         100.0),
    REAL(JUNCTION_SPOTS, "wood_moisture_pct", meeting.at_spot[0].moisture[11],
         100.0),
    REAL(REPLAY, "temperature_bias_K", logged.place[0].all.theta_bias, 1.0),
    REAL(REPLAY, "temperature_rms_K", logged.month[0].theta_rms, 1.0),
    REAL(REPLAY, "humidity_bias_pct", logged.place[0].all.rh_bias, 100.0),
    REAL(REPLAY, "humidity_rms_pct", logged.month[0].rh_rms, 100.0),
    REAL(REPLAY, "vapour_pressure_bias_Pa", logged.place[0].all.pressure_bias,
         1.0),
    REAL(REPLAY, "temperature_drop_K", logged.month[0].theta_drop, 1.0),
    REAL(REPLAY, "temperature_share_measured",
         logged.place[0].all.theta_share_measured, 1.0),
    REAL(REPLAY, "temperature_share_computed",
         logged.month[0].theta_share_computed, 1.0),
    REAL(REPLAY, "vapour_pressure_drop_Pa", logged.place[0].all.pressure_drop,
         1.0),
    REAL(REPLAY, "vapour_pressure_share_measured",
         logged.month[0].pressure_share_measured, 1.0),
    REAL(REPLAY, "vapour_pressure_share_computed",
         logged.place[0].all.pressure_share_computed, 1.0),
    WHOLE(SIZE, REPLAY, "temperature_h", logged.month[0].theta_hours, 0.0),
    WHOLE(SIZE, REPLAY, "humidity_h", logged.place[0].all.rh_hours, 0.0),
    REAL(REPLAY_INPUTS, "value", logged.trial[0].value, 1.0),
    REAL(REPLAY_INPUTS, "low", logged.trial[0].low, 1.0),
    REAL(REPLAY_INPUTS, "high", logged.trial[0].high, 1.0),
    REAL(REPLAY_INPUTS, "misfit", logged.trial[0].misfit, 1.0),
    REAL(REPLAY_INPUTS, "misfit_as_drawn", logged.replay.misfit, 1.0),
    WHOLE(SIZE, REPLAY_DOUBTS, "line", logged.doubt[0].line, 0.0),
    REAL(REPLAY_HOURS, "temperature_measured_degC", logged.hour[1].theta, 1.0),
    REAL(REPLAY_HOURS, "temperature_computed_degC",
         logged.hour[1].theta_computed, 1.0),
    REAL(REPLAY_HOURS, "humidity_measured_pct", logged.hour[1].rh, 100.0),
    REAL(REPLAY_HOURS, "humidity_computed_pct", logged.hour[1].rh_computed,
         100.0),
    REAL(CHOOSE, "u_W_m2K", choice.design[0].goal[BW_GOAL_U], 1.0),
    REAL(CHOOSE, "thickness_m", choice.design[0].goal[BW_GOAL_THICKNESS], 1.0),
    REAL(CHOOSE, "price_per_m2", choice.design[0].goal[BW_GOAL_PRICE], 1.0),
    REAL(CHOOSE, "carbon_kg_m2", choice.design[0].goal[BW_GOAL_CARBON], 1.0),
    REAL(CHOOSE, "reserve_p10_kg_m2a", choice.design[1].goal[BW_GOAL_RESERVE],
         1.0),
    REAL(CHOOSE, "mould_p90", choice.design[1].goal[BW_GOAL_MOULD], 1.0),
    REAL(CHOOSE, "wood_p90_pct", choice.design[1].goal[BW_GOAL_WOOD], 1.0),
    REAL(CHOOSE, "reserve_as_drawn_kg_m2a",
         choice.design[1].drawn_goal[BW_GOAL_RESERVE], 1.0),
    REAL(CHOOSE, "mould_as_drawn", choice.design[1].drawn_goal[BW_GOAL_MOULD],
         1.0),
    REAL(CHOOSE, "wood_as_drawn_pct", choice.design[1].drawn_goal[BW_GOAL_WOOD],
         1.0),
    WHOLE(SIZE, CHOOSE, "drawn", choice.design[1].drawn, 0.0),
    WHOLE(SIZE, CHOOSE, "failed", choice.design[1].failed, 0.0),
    WHOLE(SIZE, CHOOSE, "not_assessed", choice.design[1].unassessed, 0.0),
    WHOLE(SIZE, CHOOSE, "failed_by_numbers", choice.design[1].failed_numbers,
          0.0),
    REAL(CHOOSE, "bound", choice.design[1].bound, 1.0),
    WHOLE(SIZE, CHOOSE, "tie", choice.design[1].tie, 0.0),
    REAL(CHOOSE, "score", choice.design[1].score, 1.0),
    REAL(CHOOSE_FINDINGS, "value", choice.found[0].figure.value, 1.0),
    REAL(CHOOSE_FINDINGS, "limit", choice.found[0].figure.limit, 1.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "over_limit", choice.chosen.over_limit, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "beaten", choice.chosen.beaten, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "not_good_as_drawn",
          choice.chosen.as_drawn_failing, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "holding", choice.chosen.holding, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "held_fixed", choice.chosen.fixed_count, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "race", choice.chosen.race_cases, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "drawn", choice.chosen.drawn_cases, 0.0),
    REAL(CHOOSE_SUMMARY, "joint_bound", choice.chosen.joint_bound, 1.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "assessments", choice.chosen.steady_count, 0.0),
    WHOLE(SIZE, CHOOSE_SUMMARY, "simulations", choice.chosen.simulation_count,
          0.0),
};

/* What follows from where a row stands, and is not a field; tested below. */
static const struct place {
    bw_table table;
    const char *column;
} places[] = {
    {BW_TABLE_LAYERS, "position"},
    {BW_TABLE_MONTHLY, "month"},
    {BW_TABLE_SURFACE, "month"},
    {BW_TABLE_JUNCTION_SPOTS, "month"}, /* test_junction_columns.c */
    {BW_TABLE_MARGIN, "rank"},
    {BW_TABLE_LAYERS, "mu"},
    {BW_TABLE_LAYERS, "cumulative_sd_from_outside_m"},
    {BW_TABLE_PERIOD, "reserve_kg_m2"},
    {BW_TABLE_JUNCTION_FIELD, "month"},            /* test_junction_columns.c */
    {BW_TABLE_JUNCTION_FIELD, "temperature_degC"}, /* likewise */
    {BW_TABLE_JUNCTION_YEAR, "from_day"},          /* likewise */
    {BW_TABLE_JUNCTION_FACES, "dampest_month"},    /* likewise */
    {BW_TABLE_CHOOSE, "design"},
    {BW_TABLE_CHOOSE, "front"},
    {BW_TABLE_CHOOSE_FINDINGS, "design"},
    {BW_TABLE_CHOOSE_SUMMARY, "designs"},
    {BW_TABLE_CHOOSE_SUMMARY, "front"},
    {BW_TABLE_CHOOSE_SUMMARY, "findings"},
    {BW_TABLE_CHOOSE_SUMMARY, "seed"},
};

static void columns_setup(void)
{
    full_setup();
    full_junction_make(&meeting, &full_die);
    wall.results.junction = &meeting.assessment;
    full_replay_make(&logged);
    wall.results.replay = &logged.replay;
    full_choose_make(&choice, &wall.assessment);
    wall.results.chosen = &choice.chosen;
    bw_material *m = &wall.material[0];
    m->density.known = m->thermal_conductivity.known = m->specific_heat.known =
        m->mu_dry.known = m->mu_wet.known = m->sd.known = true;
    for (size_t i = 0; i < COUNT(fields); i++)
        full_set(fields[i].at, fields[i].kind);
    wall.slab[0].thickness = 0.3; /* its own sd and mu */
    wall.slab[0].sd_dry = 1.8;
    wall.monitor[1].last_free.largest = 0.0;
    wall.monitor[1].first_free.largest = 0.0;
    wall.monitor[1].first_free.month = 0;
}

/* ---- a table, as a spreadsheet reads it (RFC 4180) ------------------------
 */

typedef struct sheet_of {
    char text[64 * 1024];
    char *cell[ROWS][FIELDS];
    size_t rows, columns;
} sheet_of;

static sheet_of before, after;

static void read_sheet(sheet_of *s, bw_table which)
{
    const char *from = table_of(which);
    char *to = s->text;
    size_t row = 0, column = 0;
    ck_assert_uint_lt(strlen(from), sizeof s->text / 2);
    s->columns = 0;
    s->cell[0][0] = to;
    for (bool quoted = false; *from != '\0'; from++) {
        if (*from == '"') {
            quoted = !quoted;
        } else if (!quoted && (*from == ',' || *from == '\n')) {
            *to++ = '\0';
            column = *from == ',' ? column + 1 : 0;
            row += *from == '\n';
            ck_assert_uint_lt(row, ROWS);
            ck_assert_uint_lt(column, FIELDS);
            s->cell[row][column] = to;
            s->columns = column >= s->columns ? column + 1 : s->columns;
        } else {
            *to++ = *from;
        }
    }
    s->rows = row;
}

static size_t column_of(const sheet_of *s, const char *name)
{
    for (size_t c = 0; c < s->columns; c++)
        if (strcmp(s->cell[0][c], name) == 0)
            return c;
    ck_abort_msg("no column %s", name);
    return 0;
}

static void equals(const char *cell, double want, const char *column)
{
    char *end;
    const double is = strtod(cell, &end);
    ck_assert_msg(*cell != '\0' && *end == '\0' &&
                      fabs(is - want) <= 1.01e-8 * fabs(want),
                  "%s: %s is not %.9g", column, cell, want);
}

/* Every cell of the document is that of the sheet, in the same order. */
static void same_in_json(const sheet_of *s, bw_table which)
{
    char name[64];
    ck_assert_int_eq(bw_report_json(&wall.results, paper_take, &sheet, NULL),
                     BW_OK);
    const char *file = bw_table_file(which);
    snprintf(name, sizeof name, "\n\"%.*s\": [\n",
             (int)(strlen(file) - strlen(".csv")), file);
    const char *at = strstr(sheet.text, name);
    ck_assert_msg(at != NULL, "no table %s", name);
    at += strlen(name);
    for (size_t r = 1; r < s->rows; r++) {
        const char *end = strchr(at, '\n');
        for (size_t c = 0; c < s->columns; c++) {
            snprintf(name, sizeof name, "\"%s\": ", s->cell[0][c]);
            at = strstr(at, name);
            ck_assert_msg(at != NULL && at < end, "row %zu has no %s", r, name);
            at += strlen(name);
            const char *cell = s->cell[r][c];
            if (cell[0] == '\0')
                ck_assert_msg(strncmp(at, "null", 4) == 0, "%s%.9s", name, at);
            else if (*at != '"')
                ck_assert_msg(strncmp(at, cell, strlen(cell)) == 0 &&
                                  strchr(",}", at[strlen(cell)]) != NULL,
                              "%s%.20s is not %s", name, at, cell);
        }
        at = end + 1;
    }
    ck_assert_msg(strncmp(at, "]", 1) == 0, "more rows than %zu: %.40s",
                  s->rows - 1, at);
    paper_clear(&sheet);
}

START_TEST(a_column_is_its_field_in_its_unit)
{
    const field *f = &fields[_i];
    columns_setup();
    read_sheet(&before, f->table);
    const double value = full_set(f->at, f->kind);
    read_sheet(&after, f->table);
    const size_t own = column_of(&after, f->column);
    size_t moved = 0;
    ck_assert_uint_eq(before.rows, after.rows);
    for (size_t r = 1; r < after.rows; r++)
        for (size_t c = 0; c < after.columns; c++) {
            if (strcmp(before.cell[r][c], after.cell[r][c]) == 0)
                continue;
            const char *name = after.cell[0][c];
            if (strcmp(name, f->also) == 0)
                continue;
            ck_assert_msg(c == own, "%s moves with %s", name, f->column);
            equals(after.cell[r][c], f->factor * value + f->add, f->column);
            moved++;
        }
    ck_assert_msg(moved > 0, "%s does not move", f->column);
    paper_clear(&sheet);
    same_in_json(&after, f->table);
}
END_TEST

/* None is left out of the list above, but for the facts of audit.csv. */
START_TEST(every_column_of_numbers_is_tested)
{
    static bw_column column[BW_COLUMNS_MOST];
    const bw_table table = (bw_table)_i;
    const size_t count = bw_table_columns(column, table);
    for (size_t c = 0; c < count && table != BW_TABLE_AUDIT; c++) {
        bool found = column[c].kind == BW_COLUMN_TEXT;
        for (size_t i = 0; i < COUNT(fields); i++)
            found = found || (fields[i].table == table &&
                              strcmp(fields[i].column, column[c].name) == 0);
        for (size_t i = 0; i < COUNT(places); i++)
            found = found || (places[i].table == table &&
                              strcmp(places[i].column, column[c].name) == 0);
        ck_assert_msg(found, "%s: %s", bw_table_file(table), column[c].name);
    }
}
END_TEST

/* In a result that has everything a column of words has words. */
static void with_all_words(void)
{
    wall.criterion[0].never = true;
    wall.assembly.edit_note_count = 1;
    full_words[0] = "whole";
    full_stressed[0].figure.never = true;
    full_stressed[1].reason = "it has none";
    full_unknown[1].note = "a guess";
    full_unknown[0].figure_low.never = full_unknown[0].figure_high.never = true;
    full_case[0].unknown = "mu of board";
    full_case[0].figure.never = true;
    choice.design[1].assumed[0] = true;
    choice.design[1].breaks_figure.criterion = "mould-index-hidden";
    choice.found[0].figure.never = true;
    logged.doubt[0].channel = &logged.channel;
}

START_TEST(every_column_of_words_has_words)
{
    static bw_column column[BW_COLUMNS_MOST];
    const bw_table table = (bw_table)_i;
    columns_setup();
    with_all_words();
    paper_clear(&sheet);
    ck_assert_int_eq(
        fenced_table(&wall.results, table, paper_take, &sheet, NULL), BW_OK);
    read_sheet(&after, table);
    const size_t count = bw_table_columns(column, table);
    if (table == BW_TABLE_AUDIT)
        return;
    ck_assert_uint_eq(count, after.columns);
    for (size_t c = 0; c < count; c++) {
        bool any = column[c].kind != BW_COLUMN_TEXT;
        ck_assert_str_eq(after.cell[0][c], column[c].name);
        for (size_t r = 1; r < after.rows; r++) {
            any = any || after.cell[r][c][0] != '\0';
            ck_assert_msg(after.cell[r][c][0] != '\0' ||
                              column[c].may_be_absent ||
                              column[c].kind == BW_COLUMN_TEXT,
                          "%s: %s", bw_table_file(table), column[c].name);
        }
        ck_assert_msg(any, "%s: %s", bw_table_file(table), column[c].name);
    }
}
END_TEST

/* Row by row what a cell of a choice says of what is counted. */
START_TEST(designs_and_places_of_a_choice_count_from_one)
{
    static const struct {
        bw_table table;
        size_t row;
        const char *column, *cell;
    } counted[] = {{BW_TABLE_CHOOSE, 1, "design", "1"},
                   {BW_TABLE_CHOOSE, 2, "design", "2"},
                   {BW_TABLE_CHOOSE, 1, "front", ""},
                   {BW_TABLE_CHOOSE, 2, "front", "1"},
                   {BW_TABLE_CHOOSE_FINDINGS, 1, "design", "2"},
                   {BW_TABLE_CHOOSE_SUMMARY, 1, "designs", "2"},
                   {BW_TABLE_CHOOSE_SUMMARY, 1, "front", "1"},
                   {BW_TABLE_CHOOSE_SUMMARY, 1, "findings", "1"},
                   {BW_TABLE_CHOOSE_SUMMARY, 1, "seed", "1"}};
    columns_setup();
    for (size_t i = 0; i < COUNT(counted); i++) {
        read_sheet(&after, counted[i].table);
        ck_assert_uint_gt(after.rows, counted[i].row);
        ck_assert_str_eq(
            after.cell[counted[i].row][column_of(&after, counted[i].column)],
            counted[i].cell);
        paper_clear(&sheet);
    }
}
END_TEST

START_TEST(numbers_of_places_count_from_one)
{
    columns_setup();
    read_sheet(&after, BW_TABLE_LAYERS);
    const size_t position = column_of(&after, "position");
    ck_assert_uint_eq(after.rows, 1 + WALL_SLABS);
    double sd = 0.0;
    for (size_t i = 0; i < WALL_SLABS; i++) {
        equals(after.cell[i + 1][position], (double)i + 1.0, "position");
        sd += wall.slab[i].sd_dry;
        equals(after.cell[i + 1]
                         [column_of(&after, "cumulative_sd_from_outside_m")],
               sd, "cumulative");
    }
    equals(after.cell[1][column_of(&after, "mu")], 6.0, "mu"); /* 1.8 / 0.3 */
    read_sheet(&after, BW_TABLE_SURFACE);
    ck_assert_uint_eq(after.rows, 1 + BW_MONTHS);
    for (size_t m = 0; m < BW_MONTHS; m++)
        equals(after.cell[m + 1][column_of(&after, "month")], (double)m + 1.0,
               "month");
    read_sheet(&after, BW_TABLE_MARGIN);
    for (size_t i = 0; i < 2; i++)
        equals(after.cell[i + 1][column_of(&after, "rank")], (double)i + 1.0,
               "rank");
    read_sheet(&after, BW_TABLE_PERIOD);
    equals(after.cell[1][column_of(&after, "reserve_kg_m2")],
           wall.checked.period.plane[0].evaporable -
               wall.checked.period.plane[0].condensed,
           "reserve");
    wall.checked.period.plane_count = 2; /* and their sum below */
    wall.checked.period.plane[1] = wall.checked.period.plane[0];
    read_sheet(&after, BW_TABLE_PERIOD);
    ck_assert_uint_eq(after.rows, 4);
    ck_assert_str_eq(after.cell[3][column_of(&after, "interface")], "total");
    equals(after.cell[3][column_of(&after, "condensed_kg_m2")],
           wall.checked.period.condensed, "condensed");
    equals(after.cell[3][column_of(&after, "evaporable_kg_m2")],
           wall.checked.period.evaporable, "evaporable");
    equals(after.cell[3][column_of(&after, "reserve_kg_m2")],
           wall.checked.period.reserve, "reserve");
}
END_TEST

/* Four runs of the monthly method, each month of each, each plane. */
START_TEST(a_row_of_the_months_is_its_run_month_and_plane)
{
    columns_setup();
    read_sheet(&after, BW_TABLE_MONTHLY);
    const size_t month = column_of(&after, "month");
    const size_t run = column_of(&after, "run");
    ck_assert_uint_eq(after.rows, 1 + 4 * BW_MONTHS * WALL_PLANES);
    size_t row = 1;
    for (int k = 0; k < BW_RUN_COUNT; k++)
        for (int m = 0; wall.checked.run[k].ran && m < BW_MONTHS; m++)
            for (size_t i = 0; i < WALL_PLANES; i++, row++) {
                ck_assert_str_eq(after.cell[row][run],
                                 wall.checked.run[k].name);
                equals(after.cell[row][month], m + 1.0, "month");
                equals(after.cell[row][column_of(&after, "temperature_C")],
                       wall.plane[i].month[m].theta, "temperature_C");
            }
}
END_TEST

/* Two places in four hours, by steps of one to four. */
START_TEST(steps_of_hours_are_means)
{
    static bw_hour_row hour[8];
    static double total[4];
    columns_setup();
    for (size_t h = 0; h < 4; h++) {
        total[h] = between(&full_die, 1.0, 9.0);
        for (size_t k = 0; k < 2; k++)
            hour[2 * h + k] = (bw_hour_row){
                between(&full_die, -5.0, 25.0), between(&full_die, 0.4, 0.99),
                between(&full_die, 1.0, 90.0), between(&full_die, 0.0, 6.0)};
    }
    wall.checked.transient.hour = hour;
    wall.checked.transient.hour_total_water = total;
    wall.checked.transient.hour_count = 4;
    const size_t step = (size_t)_i + 1;
    wall.results.step = step;
    read_sheet(&after, BW_TABLE_HOURLY);
    size_t row = 1;
    for (size_t first = 0; first < 4; first += step) {
        const size_t end = first + step < 4 ? first + step : 4;
        for (size_t k = 0; k < 2; k++, row++) {
            char time[24];
            double theta = 0.0, phi = 0.0, water = 0.0;
            for (size_t h = first; h < end; h++) {
                theta += hour[2 * h + k].theta / (double)(end - first);
                phi += hour[2 * h + k].phi / (double)(end - first);
                water += hour[2 * h + k].water_content / (double)(end - first);
            }
            snprintf(time, sizeof time, "10-01 %02zu:00", end);
            ck_assert_str_eq(after.cell[row][column_of(&after, "time")], time);
            equals(after.cell[row][column_of(&after, "temperature_C")], theta,
                   "temperature");
            equals(after.cell[row][column_of(&after, "relative_humidity_pct")],
                   100.0 * phi, "humidity");
            equals(after.cell[row][column_of(&after, "water_content_kg_m3")],
                   water, "water");
            equals(after.cell[row][column_of(&after, "mould_index")],
                   hour[2 * (end - 1) + k].mould, "mould");
            equals(after.cell[row][column_of(&after, "total_water_kg_m2")],
                   total[end - 1], "total");
        }
    }
    ck_assert_uint_eq(row, after.rows);
}
END_TEST

/* Every 36 hours of a year that begins in March: the calendar without a leap
 * day, the day of a midnight being that which begins. */
START_TEST(an_hour_has_its_day_and_its_clock)
{
    static const size_t days[BW_MONTHS] = {31, 28, 31, 30, 31, 30,
                                           31, 31, 30, 31, 30, 31};
    static bw_hour_row hour[BW_TRANSIENT_HOURS];
    static double total[BW_TRANSIENT_HOURS];
    enum { STEP = 36, MARCH = 2 };
    columns_setup();
    wall.checked.transient.first_month = MARCH;
    wall.checked.transient.monitor_count = 1;
    wall.checked.transient.hour = hour;
    wall.checked.transient.hour_total_water = total;
    wall.checked.transient.hour_count = BW_TRANSIENT_HOURS;
    wall.results.step = STEP;
    read_sheet(&after, BW_TABLE_HOURLY);
    size_t row = 1, month = MARCH, day = 0;
    for (size_t h = 1; h <= BW_TRANSIENT_HOURS; h++) {
        char time[32];
        if (h % 24 == 0 && ++day == days[month % BW_MONTHS]) {
            day = 0;
            month++;
        }
        if (h % STEP != 0 && h != BW_TRANSIENT_HOURS)
            continue;
        snprintf(time, sizeof time, "%02zu-%02zu %02zu:00",
                 month % BW_MONTHS + 1, day + 1, h % 24);
        ck_assert_str_eq(after.cell[row++][column_of(&after, "time")], time);
    }
    ck_assert_uint_eq(row, after.rows);
}
END_TEST

/* ---- what may be missing --------------------------------------------------
 */

/* A cell is there with one value of a field and empty with another, which lies
 * just beside it where the field is a number. */
typedef enum fact_kind {
    FACT_BOOL,
    FACT_REAL,
    FACT_SIZE,
    FACT_INT,
    FACT_LONG
} fact_kind;

typedef struct cell_there {
    bw_table table;
    const char *columns; /* several, blanks between */
    void *at;
    fact_kind kind;
    double with, without;
} cell_there;

#define IF(table, columns, field)                                              \
    {                                                                          \
        BW_TABLE_##table, columns, &(field), FACT_BOOL, 1.0, 0.0               \
    }
#define FROM_ZERO(table, column, field)                                        \
    {                                                                          \
        BW_TABLE_##table, column, &(field), FACT_REAL, 0.0, -1.0               \
    }

static const cell_there cells_there[] = {
    IF(VERDICT, "value margin", wall.criterion[0].has_value),
    IF(VERDICT, "limit margin", wall.criterion[0].has_limit),
    IF(VERDICT, "never", wall.criterion[0].never),
    IF(LAYERS, "lambda_W_mK", wall.material[1].thermal_conductivity.known),
    IF(SURFACE, "frsi_required", wall.checked.surface[0].month[0].meaningful),
    FROM_ZERO(WETTING, "months", WETTING.both.months),
    FROM_ZERO(WETTING, "place_months", WETTING.inwards.place_months),
    {BW_TABLE_DAMAGE, "standing_water_month", &wall.monitor[0].last_free.month,
     FACT_INT, 0.0, -1.0},
    FROM_ZERO(DAMAGE, "weeks_to_wood_limit", wall.moisture[0].weeks_to_limit),
    IF(COMPARE, "value", full_known[0]),
    IF(COMPARE, "limit margin", full_judged[1].has_limit),
    IF(COMPARE, "margin", full_judged[1].has_value),
    IF(STRESSES, "verdict", full_stressed[0].applies),
    IF(MARGIN,
       "verdict_as_drawn verdict_low verdict_high flips monotone swing "
       "worst_relative_margin method",
       full_unknown[1].seen),
    IF(MARGIN,
       "flip flip_value flip_half_width flip_share flip_changes_verdict",
       full_unknown[0].flips),
    IF(MARGIN, "flip_value flip_half_width", full_unknown[0].continuous),
    {BW_TABLE_MARGIN, "flip_value flip_half_width", &full_unknown[1].flips_all,
     FACT_BOOL, 0.0, 1.0},
    IF(MARGIN_CASES,
       "fails value limit relative_margin relative_margin_of_first_criterion",
       full_case[0].simulated),
    IF(JUNCTION, "value margin", meeting.criterion[0].has_value),
    IF(JUNCTION, "limit margin", meeting.criterion[0].has_limit),
    IF(JUNCTION_SPOTS, "relative_humidity_pct", meeting.at_spot[0].has_rh),
    IF(JUNCTION_SPOTS, "wood_moisture_pct", meeting.at_spot[0].has_moisture),
    IF(JUNCTION_FACES,
       "moved_rh_pct moved_hours_above_95 moved_mould_index "
       "moved_mould_index_slow moved_free_water_kg_m2",
       meeting.assessment.hours.compared),
    {BW_TABLE_JUNCTION_YEAR, "wood_moisture_pct", &meeting.course[0].wood,
     FACT_LONG, 0.0, -1.0},
    {BW_TABLE_CHOOSE, "tie", &choice.design[1].tie, FACT_SIZE, 1.0, 0.0},
    IF(CHOOSE, "front", choice.design[1].on_front),
    {BW_TABLE_CHOOSE, "drawn failed not_assessed failed_by_numbers bound",
     &choice.design[1].standing, FACT_INT, BW_BREAKS, BW_OUT},
    IF(CHOOSE_FINDINGS, "setting verdict by_numbers simulated value limit",
       choice.found[0].computed),
};

static void set_fact(const cell_there *f, double value)
{
    switch (f->kind) {
    case FACT_BOOL:
        *(bool *)f->at = value > 0.0;
        break;
    case FACT_INT:
        *(int *)f->at = (int)value;
        break;
    case FACT_LONG:
        *(long *)f->at = (long)value;
        break;
    case FACT_SIZE:
        *(size_t *)f->at = (size_t)value;
        break;
    case FACT_REAL:
        *(double *)f->at = value;
    }
}

static size_t filled(const sheet_of *s, size_t column)
{
    size_t count = 0;
    for (size_t r = 1; r < s->rows; r++)
        count += s->cell[r][column][0] != '\0';
    return count;
}

START_TEST(a_cell_is_there_where_there_is_something_to_say)
{
    const cell_there *f = &cells_there[_i];
    char name[64];
    int used = 0;
    columns_setup();
    set_fact(f, f->with);
    read_sheet(&before, f->table);
    set_fact(f, f->without);
    read_sheet(&after, f->table);
    ck_assert_uint_eq(before.rows, after.rows);
    for (const char *at = f->columns; sscanf(at, "%63s%n", name, &used) == 1;
         at += used) {
        const size_t column = column_of(&after, name);
        ck_assert_msg(filled(&before, column) > filled(&after, column), "%s",
                      name);
    }
}
END_TEST

/* 2031-09, 2031-10: of two digits. */
START_TEST(a_month_of_a_record_has_two_digits)
{
    static const char *const says[] = {"2031-01", "2031-09", "2031-10",
                                       "2031-12"};
    static const int month[] = {0, 8, 9, 11};
    columns_setup();
    logged.month[0].month = month[_i];
    read_sheet(&after, BW_TABLE_REPLAY);
    ck_assert_str_eq(after.cell[2][column_of(&after, "span")], says[_i]);
}
END_TEST

SUITE_AROUND("columns", full_setup, NULL,
             EACH(a_column_is_its_field_in_its_unit, COUNT(fields)),
             EACH(every_column_of_numbers_is_tested, BW_TABLE_COUNT),
             EACH(every_column_of_words_has_words, BW_TABLE_COUNT),
             FACT(designs_and_places_of_a_choice_count_from_one),
             FACT(numbers_of_places_count_from_one),
             FACT(a_row_of_the_months_is_its_run_month_and_plane),
             EACH(steps_of_hours_are_means, 4),
             EACH(a_cell_is_there_where_there_is_something_to_say,
                  COUNT(cells_there)),
             FACT(an_hour_has_its_day_and_its_clock),
             EACH(a_month_of_a_record_has_two_digits, 4))
