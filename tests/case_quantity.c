/* The names, kinds of unit and origins of all values that a case may expect. */

#include "case_quantity.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static const case_unit units[] = {
    {"-", "-", 1, 0},
    {"%", "-", 0.01, 0},
    {"degC", "degC", 1, 0},
    {"degF", "degC", 1 / 1.8, 32},
    {"Pa", "Pa", 1, 0},
    {"inHg", "Pa", 3386.389, 0},
    {"kg/m2", "kg/m2", 1, 0},
    {"g/m2", "kg/m2", 1e-3, 0},
    {"grain/ft2", "kg/m2", 6.479891e-5 / (0.3048 * 0.3048), 0},
    {"m", "m", 1, 0},
    {"m2.K/W", "m2.K/W", 1, 0},
    {"W/(m2.K)", "W/(m2.K)", 1, 0},
    {"MJ/m2", "J/m2", 1e6, 0},
    {"kWh/m2", "J/m2", 3.6e6, 0},
    {"kg/kg", "kg/kg", 1, 0},
    {"% by mass", "kg/kg", 0.01, 0},
    {"months", "months", 1, 0},
    {"h", "h", 1, 0},
    {"K", "K", 1, 0},
    {"g/m3", "kg/m3", 1e-3, 0},
    {"kg/m3", "kg/m3", 1, 0},
    {"kg/(m.s.Pa)", "kg/(m.s.Pa)", 1, 0},
};

static const case_unit *find_unit(const char *name)
{
    for (size_t i = 0; i < COUNT(units); i++)
        if (strcmp(units[i].name, name) == 0)
            return &units[i];
    return NULL;
}

bool case_number(double *out, const case_unit **unit, const char *text,
                 const char *kind)
{
    char *end;
    *out = strtod(text, &end);
    *unit = *end == ' ' ? find_unit(end + 1) : NULL;
    return end > text && isfinite(*out) && *unit != NULL &&
           strcmp((*unit)->kind, kind) == 0;
}

#define AT(type, member) offsetof(bw_##type, member)

static const case_quantity quantities[] = {
    {"transmittance", "W/(m2.K)", OF_ELEMENT, NUMBER,
     AT(thermal_result, transmittance)},
    {"resistance", "m2.K/W", OF_ELEMENT, NUMBER,
     AT(thermal_result, resistance)},
    {"upper-limit", "m2.K/W", OF_ELEMENT, NUMBER,
     AT(thermal_result, upper_limit)},
    {"lower-limit", "m2.K/W", OF_ELEMENT, NUMBER,
     AT(thermal_result, lower_limit)},
    {"uncertainty", "-", OF_ELEMENT, NUMBER, AT(thermal_result, error)},
    {"combined-method-applies", "", OF_ELEMENT, YES_NO,
     AT(thermal_result, applicable)},
    {"paths", "", OF_ELEMENT, COUNTED, AT(thermal_result, section_count)},
    {"path-resistance", "m2.K/W", OF_PATH, NUMBER,
     AT(thermal_result, section_resistance)},
    {"path-fraction", "-", OF_PATH, NUMBER,
     AT(thermal_result, section_fraction)},

    {"condenses", "", OF_WALL, YES_NO, AT(monthly_result, condenses)},
    {"accumulates", "", OF_WALL, YES_NO, AT(monthly_result, accumulates)},
    {"repeats", "", OF_WALL, YES_NO, AT(monthly_result, periodic)},
    {"start-month", "", OF_WALL, MONTH, AT(monthly_result, start_month)},
    {"condensed", "kg/m2", OF_WALL, NUMBER, AT(monthly_result, condensed)},
    {"evaporated", "kg/m2", OF_WALL, NUMBER, AT(monthly_result, evaporated)},
    {"residual", "kg/m2", OF_WALL, NUMBER, AT(monthly_result, residual_first)},
    {"growth", "kg/m2", OF_WALL, NUMBER, AT(monthly_result, growth)},
    {"most-condensate", "kg/m2", OF_WALL, NUMBER, AT(monthly_result, peak)},
    {"reserve", "kg/m2", OF_WALL, NUMBER, AT(monthly_result, reserve)},
    {"has-reserve", "", OF_WALL, YES_NO, AT(monthly_result, has_reserve)},
    {"years-computed", "", OF_WALL, WHOLE, AT(monthly_result, cycles)},
    {"most-is-here", "", OF_CHOICE, YES_NO, AT(monthly_result, peak_plane)},
    {"critical-is-here", "", OF_CHOICE, YES_NO,
     AT(monthly_result, critical_plane)},
    {"peak", "kg/m2", OF_FACE, NUMBER, AT(plane, peak)},
    {"peak-month", "", OF_FACE, MONTH, AT(plane, peak_month)},
    {"temperature", "degC", OF_MONTH, NUMBER, AT(plane_month, theta)},
    {"saturation-pressure", "Pa", OF_MONTH, NUMBER,
     AT(plane_month, saturation_pressure)},
    {"vapour-pressure", "Pa", OF_MONTH, NUMBER,
     AT(plane_month, vapour_pressure)},
    {"relative-humidity", "-", OF_MONTH, NUMBER,
     AT(plane_month, relative_humidity)},
    {"condensation", "kg/m2", OF_MONTH, NUMBER, AT(plane_month, condensation)},
    {"accumulated", "kg/m2", OF_MONTH, NUMBER, AT(plane_month, accumulated)},
    {"sd-from-outside", "m", OF_MONTH, NUMBER,
     AT(plane_month, sd_from_outside)},
    {"layer-sd", "m", OF_LAYER, NUMBER, 0},
    {"layer-resistance", "m2.K/W", OF_SLAB, NUMBER, AT(slab, resistance)},

    {"dries", "", OF_DRYING, YES_NO, AT(monthly_result, dried)},
    {"months-to-dry", "months", OF_DRYING, NUMBER,
     AT(monthly_result, months_to_dry)},
    {"place-dries", "", OF_DRYING, YES_NO, AT(monthly_result, wet_plane_dried)},
    {"place-months-to-dry", "months", OF_DRYING, NUMBER,
     AT(monthly_result, wet_plane_months)},
    {"left", "kg/m2", OF_DRYING, NUMBER, AT(monthly_result, left)},
    {"condenses-elsewhere", "", OF_DRYING, YES_NO,
     AT(monthly_result, condensed_elsewhere)},
    {"drying-years", "", OF_DRYING, WHOLE, AT(monthly_result, cycles)},
    {"drying-start", "", OF_DRYING, MONTH, AT(monthly_result, start_month)},

    {"period-case", "", OF_PERIOD, WORD, AT(period_result, which)},
    {"period-assessed", "", OF_PERIOD, YES_NO, AT(period_result, assessed)},
    {"period-condensed", "kg/m2", OF_PERIOD, NUMBER,
     AT(period_result, condensed)},
    {"period-evaporable", "kg/m2", OF_PERIOD, NUMBER,
     AT(period_result, evaporable)},
    {"period-reserve", "kg/m2", OF_PERIOD, NUMBER, AT(period_result, reserve)},
    {"period-planes", "", OF_PERIOD, COUNTED, AT(period_result, plane_count)},
    {"plane-condensed", "kg/m2", OF_EDGE, NUMBER, AT(period_plane, condensed)},
    {"plane-evaporable", "kg/m2", OF_EDGE, NUMBER,
     AT(period_plane, evaporable)},
    {"plane-sd-from-outside", "m", OF_EDGE, NUMBER,
     AT(period_plane, sd_from_outside)},

    {"temperature-factor", "-", OF_SURFACE, NUMBER, AT(surface_result, frsi)},
    {"required-factor", "-", OF_SURFACE, NUMBER,
     AT(surface_result, frsi_required)},
    {"critical-month", "", OF_SURFACE, MONTH,
     AT(surface_result, critical_month)},
    {"required-factor-of-month", "-", OF_SURFACE_MONTH, NUMBER,
     AT(surface_month, frsi_required)},
    {"factor-meaningful", "", OF_SURFACE_MONTH, YES_NO,
     AT(surface_month, meaningful)},
    {"surface-temperature", "degC", OF_SURFACE_MONTH, NUMBER,
     AT(surface_month, theta_si)},
    {"surface-humidity", "-", OF_SURFACE_MONTH, NUMBER,
     AT(surface_month, rh_si)},

    {"heat-loss", "J/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, heat_loss)},
    {"left-outwards", "kg/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, left_outwards)},
    {"left-inwards", "kg/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, left_inwards)},
    {"rain-absorbed", "kg/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, rain_absorbed)},
    {"rain-leaked", "kg/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, leak_rain)},
    {"air-leaked", "kg/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, leak_convective)},
    {"initial-water", "kg/m2", OF_SIMULATION, NUMBER,
     AT(transient_result, initial_water)},
    {"hours-above-80", "h", OF_MONITOR, NUMBER, AT(monitor, hours_above_80)},
    {"hours-above-95", "h", OF_MONITOR, NUMBER, AT(monitor, hours_above_95)},
    {"highest-humidity", "-", OF_MONITOR, NUMBER, AT(monitor, highest_rh)},
    {"mould-index", "-", OF_MONITOR, NUMBER, AT(monitor, highest_mould)},
    {"mean-temperature", "degC", OF_MONITOR_MONTH, NUMBER,
     AT(monitor, month_theta)},
    {"mean-humidity", "-", OF_MONITOR_MONTH, NUMBER, AT(monitor, month_rh)},
    {"wood-moisture", "kg/kg", OF_STORE, NUMBER,
     AT(slab_moisture, highest_wood_moisture)},
    {"layer-water", "kg/m2", OF_STORE_MONTH, NUMBER,
     AT(slab_moisture, month_mean)},
    {"water", "kg/m2", OF_HOUR, NUMBER, 0},

    {"air-saturation-pressure", "Pa", OF_AIR, NUMBER, 0},
    {"air-saturation-pressure-over-water", "Pa", OF_AIR, NUMBER, 1},
    {"air-dew-point", "degC", OF_AIR, NUMBER, 2},
};

const char *case_quantity_name(size_t i)
{
    return i < COUNT(quantities) ? quantities[i].name : NULL;
}

const case_quantity *case_find_quantity(case_run *run, const case_row *row)
{
    const char *names[COUNT(quantities)];
    char near[80];
    for (size_t i = 0; i < COUNT(quantities); i++) {
        names[i] = quantities[i].name;
        if (strcmp(names[i], row->quantity) == 0)
            return &quantities[i];
    }
    case_fault(
        run->report, run->file->name, row->line, "unknown quantity '%s'%s",
        row->quantity,
        case_near(near, sizeof near, row->quantity, names, COUNT(quantities)));
    return NULL;
}
