#include "rules.h"

#include <string.h>

#include "bothways/decay.h"

/* The limits and whose they are. Marks as in docs/methods.md: [S] seen,
 * [M-hi] / [M-med] / [M-lo] from memory with that confidence. Where no source
 * was found the rule says so in the report, too. */

#define DIN "DIN 4108-3:2018, annex A"
#define ISO "ISO 13788:2012"
#define WOOD "DIN 68800-2:2012"
#define EN "EN 15026:2007"
#define NO_SOURCE "common practice, no source"
#define IN_THE_MONTHS " (in the climate given, monthly)"
#define IN_BLOCKS " (block climate)"
#define NATIONAL "rule of a national profile, with its mark [S]"

#define RISE "limit on the rise in moisture by mass [S]"
#define RESERVE "Drying reserve of timber constructions [M-hi]"

static const bw_criterion_facts facts[BW_C_COUNT] = {
    [BW_C_INDOOR_AIR] = {"indoor-air", "Indoor air as given", "rule", "-",
                         "a room holds at most saturated air [D]", false, false,
                         false},
    [BW_C_ALONE] = {"months-alone", "What months alone do not see", "rule", "-",
                    "without a simulation they may fail a wall and not hold "
                    "it there, " NO_SOURCE,
                    false, false, BW_JUDGES},
    [BW_C_ANNUAL_BALANCE] =
        {"annual-balance", "Condensate left after a year", "monthly", "kg/m2",
         ISO ": condensate must evaporate within the year [M-hi]", false, false,
         BW_BY_MONTHS},
    [BW_C_ACCUMULATION] = {"accumulation",
                           "Growth of stored condensate over the years",
                           "monthly", "kg/(m2 a)",
                           ISO ", repeated until periodic [M-hi]", false, false,
                           BW_BY_MONTHS},
    [BW_C_CONDENSATE] = {"condensate-absorbing",
                         "Most condensate at one time, all planes", "monthly",
                         "kg/m2", DIN ": at most 1.0 kg/m2 [S]" IN_THE_MONTHS,
                         false, false, BW_BY_MONTHS},
    [BW_C_CONDENSATE_NON_ABSORBING] =
        {"condensate-non-absorbing",
         "Most condensate at a face that does not absorb", "monthly", "kg/m2",
         DIN ": at most 0.5 kg/m2 [S]" IN_THE_MONTHS, false, false,
         BW_BY_MONTHS},
    [BW_C_RUN_OFF] = {"run-off", "Condensate that may run off", "monthly",
                      "kg/m2",
                      ISO ": guide of 0.2 kg/m2 on non-absorbing faces [M-med]",
                      false, true, BW_BY_MONTHS},
    [BW_C_RESERVE] = {"drying-reserve", "Drying reserve", "monthly",
                      "kg/(m2 a)",
                      WOOD
                      ": " RESERVE
                      ", walls and floors 0.100, roofs 0.250" IN_THE_MONTHS,
                      false, false, BW_BY_MONTHS},
    [BW_C_RESERVE_LEAKY] = {"reserve-with-leakage",
                            "Drying reserve less leaking room air", "monthly",
                            "kg/(m2 a)",
                            "reserve must stay above zero, " NO_SOURCE
                            "; air flow k_CL [M-lo], see " DIN " and WTA 6-2",
                            true, false, BW_BY_MONTHS},
    [BW_C_WOOD_RISE] = {"wood-moisture-rise",
                        "Moisture rise of solid wood by condensate", "monthly",
                        "%", DIN ": solid wood 5 %, " RISE IN_THE_MONTHS, false,
                        false, BW_BY_MONTHS},
    [BW_C_PANEL_RISE] = {"panel-moisture-rise",
                         "Moisture rise of wood-based panels by condensate",
                         "monthly", "%",
                         DIN ": wood-based panels 3 %, " RISE IN_THE_MONTHS,
                         false, false, BW_BY_MONTHS},
    [BW_C_INWARD] = {"inward-condensation",
                     "Condensate from a wet, sun-warmed outer layer", "monthly",
                     "kg/m2",
                     NO_SOURCE "; 0.2 kg/m2 is the run-off guide of " ISO
                               " [M-med]",
                     false, false, BW_BY_MONTHS},
    [BW_C_DRYING] = {"drying-test", "Time to dry after a wetting, both ways",
                     "monthly", "months",
                     "within a year, " NO_SOURCE "; " ISO
                     " calls a wetting not dry in 10 years a failure [M-med]",
                     false, false, BW_BY_MONTHS},
    [BW_C_DRYING_OUTWARDS] = {"drying-outwards",
                              "Time to dry after a wetting, outwards only",
                              "monthly", "months",
                              ISO ", drying of a wetted layer [M-med]", false,
                              true, BW_BY_MONTHS},
    [BW_C_DRYING_INWARDS] = {"drying-inwards",
                             "Time to dry after a wetting, inwards only",
                             "monthly", "months",
                             ISO ", drying of a wetted layer [M-med]", false,
                             true, BW_BY_MONTHS},
    [BW_C_SURFACE_MOULD] = {"surface-mould",
                            "Surface temperature factor against mould",
                            "surface", "-",
                            ISO ": surface RH at most 80 % in any month [M-hi]",
                            false, false, BW_JUDGES},
    [BW_C_CORNER_MOULD] =
        {"surface-mould-corner", "The same in a corner", "surface", "-",
         ISO ": surface RH at most 80 % [M-hi]; a raised Rsi stands for the "
             "corner, which two dimensions find colder: shown, decides "
             "nothing",
         false, true, BW_JUDGES},
    [BW_C_CUPBOARD_MOULD] =
        {"surface-mould-cupboard", "The same behind a fitted cupboard",
         "surface", "-",
         ISO ": surface RH at most 80 % [M-hi]; Rsi raised for a fitted "
             "cupboard",
         false, true, BW_JUDGES},
    [BW_C_SURFACE_CONDENSATION] =
        {"surface-condensation", "Highest monthly surface humidity", "surface",
         "%",
         ISO ": no condensation on the surface [M-hi] (monthly means; colder "
             "days are not seen)",
         true, false, BW_JUDGES},
    [BW_C_PERIOD_BALANCE] = {"period-balance",
                             "Condensate against what can evaporate", "period",
                             "kg/m2", DIN ": M_c at most M_ev [S]" IN_BLOCKS,
                             false, false, BW_BY_BLOCKS},
    [BW_C_PERIOD_CONDENSATE] = {"period-condensate", "Condensate of the period",
                                "period", "kg/m2",
                                DIN ": at most 1.0 kg/m2 [S]" IN_BLOCKS, false,
                                false, BW_BY_BLOCKS},
    [BW_C_PERIOD_NON_ABSORBING] =
        {"period-non-absorbing",
         "Condensate of the period at a face that does not absorb", "period",
         "kg/m2", DIN ": at most 0.5 kg/m2 [S]" IN_BLOCKS, false, false,
         BW_BY_BLOCKS},
    [BW_C_PERIOD_RESERVE] = {"period-reserve", "Drying reserve of the period",
                             "period", "kg/(m2 a)",
                             WOOD
                             ": " RESERVE
                             ", walls and floors 0.100, roofs 0.250" IN_BLOCKS,
                             false, false, BW_BY_BLOCKS},
    [BW_C_PERIOD_WOOD_RISE] = {"period-wood-rise",
                               "Moisture rise of solid wood in the period",
                               "period", "%",
                               DIN ": solid wood 5 %, " RISE IN_BLOCKS, false,
                               false, BW_BY_BLOCKS},
    [BW_C_PERIOD_PANEL_RISE] =
        {"period-panel-rise",
         "Moisture rise of wood-based panels in the period", "period", "%",
         DIN ": wood-based panels 3 %, " RISE IN_BLOCKS, false, false,
         BW_BY_BLOCKS},
    [BW_C_STEADY_CHECK] = {"steady-design-check",
                           "Highest humidity at an interface, steady check",
                           "steady", "%", NATIONAL, true, false, BW_JUDGES},
    [BW_C_INNER_SD] = {"inner-sd", "sd of the tightest layer inside", "rule",
                       "m", NATIONAL, false, false, BW_JUDGES},
    [BW_C_SD_RATIO] = {"sd-ratio", "Inner sd over outer sd", "rule", "-",
                       NATIONAL, false, false, BW_JUDGES},
    [BW_C_BREATHER_SD] = {"breather-sd", "sd of the breather membrane", "rule",
                          "m", NATIONAL, true, false, BW_JUDGES},
    [BW_C_CAVITY_WIDTH] = {"cavity-width", "Width of the ventilated cavity",
                           "rule", "mm", NATIONAL, false, false, BW_JUDGES},
    [BW_C_FRSI_LEAST] = {"frsi-least", "Least surface temperature factor",
                         "surface", "-", NATIONAL, false, false, BW_JUDGES},
    [BW_C_TRANSIENT] =
        {"transient-simulation", "Simulation hour by hour", "transient", "-",
         EN ": asked for where the monthly method is outside its limits [S]",
         false, false, BW_JUDGES},
    [BW_C_UNJUDGED] =
        {"outside-weather-line", "Layers that the weather line leaves out",
         "transient", "-",
         "insulation, or wood under a tight cover, outside a well-ventilated "
         "cavity: room air in that cavity is not simulated, " NO_SOURCE,
         false, false, BW_JUDGES},
    [BW_C_BELOW] = {"floor-underside", "The air below the floor", "rule", "-",
                    "a crawl space is colder and damper in summer than the "
                    "outdoor air, " NO_SOURCE,
                    false, false, BW_JUDGES},
    [BW_C_PERIODIC_WATER] =
        {"periodic-water", "Change of total water over the last year",
         "transient", "kg/(m2 a)",
         EN ": the simulation must end periodic or drying; " NO_SOURCE, false,
         false, BW_JUDGES},
    [BW_C_STANDING_WATER] =
        {"standing-water",
         "Most water that stands at a face or in a layer "
         "that does not absorb",
         "transient", "kg/m2",
         ISO ": guide of 0.2 kg/m2 on non-absorbing faces, beyond which it "
             "runs off [M-med], here hour by hour",
         false, false, BW_JUDGES},
    [BW_C_BOTH_WET] =
        {"condensate-confirmed",
         "Condensate by months where the simulation stays near saturation",
         "transient", "kg/m2",
         DIN ": at most 1.0 kg/m2, 0.5 between faces that do not absorb [S]; "
             "decides where the simulation has the same face above 95 % RH for "
             "more than 720 h, " NO_SOURCE,
         false, false, BW_JUDGES},
    [BW_C_HUMID_HOURS] =
        {"hours-above-95",
         "Hours a year above 95 % RH at wood, board, insulation or "
         "condensate",
         "transient", "h/a",
         "inspect beyond 720 h, thirty days of the year, " NO_SOURCE
         "; 95 % is where WTA 6-4 stops trusting a hidden face [M-med]",
         false, false, BW_JUDGES},
    [BW_C_COVERING] =
        {"covering-humidity",
         "Hours a year above 90 % RH under a tight covering at the room face",
         "transient", "h/a",
         "720 h, thirty days, " NO_SOURCE "; BS 8203 covers a base at 75 % RH "
         "[M-hi], Nordic practice plastic on concrete at 85 % [M-med]; beyond "
         "80 % for as long, inspect",
         false, false, BW_JUDGES},
    [BW_C_WOOD_MOISTURE] =
        {"wood-moisture", "Highest moisture of solid wood, 24 h mean",
         "transient", "%",
         WOOD ": solid wood below 20 % by mass [M-hi]; beyond it inspect, "
              "what decides is the decay dose",
         true, false, BW_JUDGES},
    [BW_C_PANEL_MOISTURE] =
        {"panel-moisture", "Highest moisture of wood-based panels, 24 h mean",
         "transient", "%",
         "wood-based panels below 18 % by mass [M-hi], after " WOOD
         "; beyond it inspect, what decides is the decay dose",
         true, false, BW_JUDGES},
    [BW_C_TIMBER_LINE] =
        {"timber-line", "Days a year above the line of embedded timber",
         "transient", "d/a",
         "WTA 6-8: pores of the wettest 10 mm at most 95 % RH at 0 degC, "
         "86 % at 30 degC [M-hi]; beyond it inspect, what decides is the "
         "decay dose",
         false, false, BW_JUDGES},
    [BW_C_DECAY] =
        {"decay-dose", "Decay dose of hidden wood in 50 years", "transient",
         "d",
         "first decay at a dose of 325 d, Isaksson, Brischke & Thelandersson "
         "2013 [M-hi]; 50 years as EN 1990 for buildings [M-hi]",
         true, false, BW_JUDGES},
    [BW_C_FIRST_YEAR] =
        {"first-year-drying", "Weeks until wood stays below its limit",
         "transient", "weeks",
         "wood built in above 20 % (panels 18 %) is below it within three "
         "months, after DIN 68800-2 [M-med]; beyond it inspect",
         false, false, BW_JUDGES},
    [BW_C_MOULD_HIDDEN] =
        {"mould-index-hidden", "Highest mould index at hidden faces",
         "transient", "-",
         "index below 3, the last year repeated to the end, decline by class "
         "(Hukka & Viitanen; Ojanen et al. 2010 [M-med]); marginal where it "
         "exceeds with the decline of 0.1 of ASHRAE 160-2016 [M-med]",
         true, false, BW_JUDGES},
    [BW_C_MOULD_ROOM] = {"mould-index-room",
                         "Highest mould index at the room face", "transient",
                         "-",
                         "index below 1, no growth at all, " NO_SOURCE
                         "; model of Hukka & Viitanen",
                         true, false, BW_JUDGES},
    [BW_C_WETTING] = {"wetting-test",
                      "Simulated time to dry after a wetting, both ways",
                      "transient", "months",
                      "within a year, " NO_SOURCE "; " ISO
                      " calls a wetting not dry in 10 years a failure [M-med]",
                      true, false, BW_JUDGES},
    [BW_C_WETTING_OUTWARDS] =
        {"wetting-outwards", "Simulated time to dry, outwards only",
         "transient", "months", "shown beside the wetting test, " NO_SOURCE,
         false, true, BW_JUDGES},
    [BW_C_WETTING_INWARDS] = {"wetting-inwards",
                              "Simulated time to dry, inwards only",
                              "transient", "months",
                              "shown beside the wetting test, " NO_SOURCE,
                              false, true, BW_JUDGES},
};

bool bw_criterion_inspects(bw_criterion_id id)
{
    return id == BW_C_HUMID_HOURS || id == BW_C_WOOD_MOISTURE ||
           id == BW_C_PANEL_MOISTURE || id == BW_C_TIMBER_LINE ||
           id == BW_C_FIRST_YEAR;
}

const bw_criterion_facts *bw_criterion_facts_of(bw_criterion_id id)
{
    return &facts[id];
}

/* The same in every profile, but for the block climate: a profile adds rules
 * (profiles.c). A macro, since C17 copies no constant. */
/* clang-format off */
#define LIMITS(name, blocks)                                                   \
    {                                                                          \
        .profile = (name),                                                     \
        .block_climate_decides = (blocks),                                     \
        /* common practice, no source */                                       \
        .marginal_share = 0.10,                                                \
        .marginal_share_assumed = 0.20,                                        \
        .marginal_frsi = 0.02,                                                 \
        .marginal_leaky = 0.010,                                               \
        .marginal_steady = 2.0,                                                \
        /* DIN 4108-3 [S] */                                                   \
        .condensate = 1.0,                                                     \
        .non_absorbing = 0.5,                                                  \
        .wood_rise = 5.0,                                                      \
        .panel_rise = 3.0,                                                     \
        /* ISO 13788 [M-med] */                                                \
        .run_off = 0.2,                                                        \
        .inward = 0.2,                                                         \
        /* DIN 68800-2 [M-hi], the roof [S] */                                 \
        .reserve_wall = 0.100,                                                 \
        .reserve_roof = 0.250,                                                 \
        /* common practice, no source */                                       \
        .drying_months = 12.0,                                                 \
        /* ISO 13788 [M-hi] */                                                 \
        .mould_rh = 0.80,                                                      \
        .condensation_rh = 1.00,                                               \
        .rsi_open = 0.25,                                                      \
        .rsi_open_source = "ISO 13788, opaque surfaces (from memory, high)",   \
        .rsi_corner = 0.35,                                                    \
        .rsi_corner_source = "ISO 10211-1:1995, lower half of a room (from "   \
                             "memory, medium)",                                \
        .rsi_cupboard = 1.00,                                                  \
        .rsi_cupboard_source = "DIN technical report 4108-8, fitted cupboard " \
                               "(from memory, low)",                           \
        /* ISO 13788 [M-med]; common practice, no source */                    \
        .standing_water = 0.2,                                                 \
        .humid_hours = 720.0,                                                  \
        .covering_hours = 720.0,                                               \
        /* WTA 6-8, Isaksson et al. 2013 [M-hi], DIN 68800-2 [M-med] */        \
        .timber_line_days = 0.0,                                               \
        .decay_dose = BW_DECAY_DOSE_CRITICAL,                                  \
        .first_year_weeks = 13.0,                                              \
        /* common practice, no source */                                       \
        .wetting_months = 12.0,                                                \
        /* DIN 68800-2 [M-hi] */                                               \
        .wood_moisture = 20.0,                                                 \
        .panel_moisture = 18.0,                                                \
        /* ASHRAE 160-2016 [M-hi]; common practice, no source */               \
        .mould_hidden = 3.0,                                                   \
        .mould_room = 1.0,                                                     \
        .balance_error = 1e-3,                                                 \
    }
/* clang-format on */

static const bw_limits limits[] = {
    LIMITS("default", false), LIMITS("au-ncc", false),
    LIMITS("ca-obc", false),  LIMITS("de-din4108", true),
    LIMITS("dk", false),      LIMITS("fr-2011", false),
    LIMITS("fr-2019", false), LIMITS("no", false),
    LIMITS("se", false),      LIMITS("uk-nhbc", false),
    LIMITS("us-irc", false),
};

const bw_limits *bw_limits_of(const char *profile)
{
    const char *name = profile != NULL ? profile : "default";
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++)
        if (strcmp(name, limits[i].profile) == 0)
            return &limits[i];
    return NULL;
}
