/* Every criterion, in the order of the report: what it is called, its method
 * and unit, its limit and by which rule of a rule set that is tightened, when
 * it is marginal, and whose rule it is. Included twice, for the ids and for the
 * table; docs/criteria.md is written from here. Marks as in docs/methods.md:
 * [S] seen, [M-hi] / [M-med] / [M-lo] from memory with that confidence, [D]
 * derived. Where no source was found the rule says so in the report, too.
 *
 * CRITERION(id, name, title, method, unit, what else there is). A number that a
 * rule says or another row shares is defined above its row. */

/* clang-format off */
#define DIN "DIN 4108-3:2018, annex A"
#define ISO "ISO 13788:2012"
#define TIMBER "DIN 68800-2:2012"
#define EN "EN 15026:2007"
#define NO_SOURCE "common practice, no source"
#define NATIONAL "rule of a national profile, with its mark [S]"
#define MONTHS " (in the climate given, monthly)"
#define BLOCKS " (block climate)"

CRITERION(BW_C_INDOOR_AIR, /* a row only where the room cannot be */
    "indoor-air", "Indoor air as given", "rule", "-", NO_LIMIT,
    .rule = "a room holds at most saturated air [D]")
CRITERION(BW_C_ALONE, /* a row only without a simulation */
    "months-alone", "What months alone do not see", "rule", "-", NO_LIMIT,
    .rule = "without a simulation they may fail a wall and not hold it there, "
            NO_SOURCE)

/* ---- by months ----------------------------------------------------------- */

CRITERION(BW_C_ANNUAL_BALANCE, "annual-balance", "Condensate left after a year",
    "monthly", "kg/m2", .role = BW_BY_MONTHS, LIMIT(BW_AT_MOST, 0.0, ""),
    .rule = ISO ": condensate must evaporate within the year [M-hi]")
CRITERION(BW_C_ACCUMULATION, "accumulation",
    "Growth of stored condensate over the years", "monthly", "kg/(m2 a)",
    .role = BW_BY_MONTHS, LIMIT(BW_AT_MOST, 0.0, ""),
    .rule = ISO ", repeated until periodic [M-hi]")

#define CONDENSATE 1.0
CRITERION(BW_C_CONDENSATE, "condensate-absorbing",
    "Most condensate at one time, all planes", "monthly", "kg/m2",
    .role = BW_BY_MONTHS, LIMIT(BW_AT_MOST, CONDENSATE, "condensate-absorbing"),
    .may_be = {1e-3, CONDENSATE},
    .rule = DIN ": at most " SAY(CONDENSATE) " kg/m2 [S]" MONTHS)

#define NON_ABSORBING 0.5
CRITERION(BW_C_CONDENSATE_NON_ABSORBING, "condensate-non-absorbing",
    "Most condensate at a face that does not absorb", "monthly", "kg/m2",
    .role = BW_BY_MONTHS,
    LIMIT(BW_AT_MOST, NON_ABSORBING, "condensate-non-absorbing"),
    .may_be = {1e-3, NON_ABSORBING},
    .rule = DIN ": at most " SAY(NON_ABSORBING) " kg/m2 [S]" MONTHS)

#define RUN_OFF 0.2
CRITERION(BW_C_RUN_OFF, "run-off", "Condensate that may run off", "monthly",
    "kg/m2", .role = BW_BY_MONTHS, .informative = true,
    LIMIT(BW_AT_MOST, RUN_OFF, ""),
    .rule = ISO ": guide of " SAY(RUN_OFF) " kg/m2 on non-absorbing faces "
            "[M-med]")

#define RESERVE_WALL 0.100
#define RESERVE_ROOF 0.250
#define RESERVE LIMITS(BW_AT_LEAST, RESERVE_WALL, "walls and floors",          \
                       "drying-reserve", RESERVE_ROOF, "roofs",                \
                       "drying-reserve")
#define RESERVE_RULE TIMBER ": Drying reserve of timber constructions "        \
                     "[M-hi], walls and floors " SAY(RESERVE_WALL)             \
                     ", roofs " SAY(RESERVE_ROOF)
CRITERION(BW_C_RESERVE, "drying-reserve", "Drying reserve", "monthly",
    "kg/(m2 a)", .role = BW_BY_MONTHS, RESERVE, .may_be = {RESERVE_WALL, 10.0},
    .rule = RESERVE_RULE MONTHS)
CRITERION(BW_C_RESERVE_LEAKY, "reserve-with-leakage",
    "Drying reserve less leaking room air", "monthly", "kg/(m2 a)",
    .role = BW_BY_MONTHS, LIMIT(BW_ABOVE, 0.0, ""), MARGINAL_BY(0.010),
    .rule = "reserve must stay above zero, " NO_SOURCE "; air flow k_CL "
            "[M-lo], see " DIN " and WTA 6-2")

#define RISE ", limit on the rise in moisture by mass [S]"
#define WOOD_RISE 5
#define WOOD_RULE DIN ": solid wood " SAY(WOOD_RISE) " %" RISE
CRITERION(BW_C_WOOD_RISE, "wood-moisture-rise",
    "Moisture rise of solid wood by condensate", "monthly", "%",
    .role = BW_BY_MONTHS, LIMIT(BW_AT_MOST, WOOD_RISE, "wood-moisture-rise"),
    .may_be = {0.1, WOOD_RISE}, .rule = WOOD_RULE MONTHS)

#define PANEL_RISE 3
#define PANEL_RULE DIN ": wood-based panels " SAY(PANEL_RISE) " %" RISE
CRITERION(BW_C_PANEL_RISE, "panel-moisture-rise",
    "Moisture rise of wood-based panels by condensate", "monthly", "%",
    .role = BW_BY_MONTHS, LIMIT(BW_AT_MOST, PANEL_RISE, "panel-moisture-rise"),
    .may_be = {0.1, PANEL_RISE}, .rule = PANEL_RULE MONTHS)
CRITERION(BW_C_INWARD, "inward-condensation",
    "Condensate from a wet, sun-warmed outer layer", "monthly", "kg/m2",
    .role = BW_BY_MONTHS, LIMIT(BW_AT_MOST, RUN_OFF, "inward-condensation"),
    .may_be = {1e-3, RUN_OFF},
    .rule = NO_SOURCE "; " SAY(RUN_OFF) " kg/m2 is the run-off guide of " ISO
            " [M-med]")

#define DRY 12 /* months */
#define DRY_RULE "within " SAY(DRY) " months, " NO_SOURCE "; " ISO " calls a " \
                 "wetting not dry in 10 years a failure [M-med]"
CRITERION(BW_C_DRYING, "drying-test", "Time to dry after a wetting, both ways",
    "monthly", "months", .role = BW_BY_MONTHS,
    LIMIT(BW_AT_MOST, DRY, "drying-test"), .may_be = {1.0, DRY},
    .rule = DRY_RULE)
CRITERION(BW_C_DRYING_OUTWARDS, "drying-outwards",
    "Time to dry after a wetting, outwards only", "monthly", "months",
    .role = BW_BY_MONTHS, .informative = true, NO_LIMIT,
    .rule = ISO ", drying of a wetted layer [M-med]")
CRITERION(BW_C_DRYING_INWARDS, "drying-inwards",
    "Time to dry after a wetting, inwards only", "monthly", "months",
    .role = BW_BY_MONTHS, .informative = true, NO_LIMIT,
    .rule = ISO ", drying of a wetted layer [M-med]")

/* ---- the surface --------------------------------------------------------- */

#define FACTOR FROM(BW_AT_LEAST, "the factor at which the surface is at "      \
                    SAY(BW_SURFACE_RH) " % RH in the worst month"),            \
               MARGINAL_BY(0.02)
#define SURFACE_RULE ISO ": surface RH at most " SAY(BW_SURFACE_RH) " %"
CRITERION(BW_C_SURFACE_MOULD, "surface-mould",
    "Surface temperature factor against mould", "surface", "-", FACTOR,
    .rule = SURFACE_RULE " in any month [M-hi]")
CRITERION(BW_C_CORNER_MOULD, "surface-mould-corner", "The same in a corner",
    "surface", "-", .informative = true, FACTOR,
    .rule = SURFACE_RULE " [M-hi]; a raised Rsi stands for the corner, which "
            "two dimensions find colder: shown, decides nothing")
CRITERION(BW_C_CUPBOARD_MOULD, "surface-mould-cupboard",
    "The same behind a fitted cupboard", "surface", "-", .informative = true,
    FACTOR, .rule = SURFACE_RULE " [M-hi]; Rsi raised for a fitted cupboard")
CRITERION(BW_C_SURFACE_CONDENSATION, "surface-condensation",
    "Highest monthly surface humidity", "surface", "%",
    LIMIT(BW_BELOW, 100.0, ""),
    .rule = ISO ": no condensation on the surface [M-hi] (monthly means; "
            "colder days are not seen)")

CRITERION(BW_C_JUNCTION_INSIDE, /* a row of junctions only */
    "junction-inside", "Wood and water within the junction", "steady", "-",
    NO_LIMIT,
    .rule = "heat and vapour by months say nothing of rain, storage, leaking "
            "air and hours, nor of the moisture of wood [D]")

CRITERION(BW_C_JUNCTION, /* a row for each junction that a wall names */
    "junction", "Junction", "steady", "-", NO_LIMIT,
    .rule = "a wall is no better than the worst of the junctions it names, "
            "each by its own criteria [D]")

/* ---- the German block climate -------------------------------------------- */

CRITERION(BW_C_PERIOD_BALANCE, "period-balance",
    "Condensate against what can evaporate", "period", "kg/m2",
    .role = BW_BY_BLOCKS, FROM(BW_AT_MOST, "what can evaporate"),
    .rule = DIN ": M_c at most M_ev [S]" BLOCKS)
CRITERION(BW_C_PERIOD_CONDENSATE, "period-condensate",
    "Condensate of the period", "period", "kg/m2", .role = BW_BY_BLOCKS,
    LIMIT(BW_AT_MOST, CONDENSATE, "condensate-absorbing"),
    .rule = DIN ": at most " SAY(CONDENSATE) " kg/m2 [S]" BLOCKS)
CRITERION(BW_C_PERIOD_NON_ABSORBING, "period-non-absorbing",
    "Condensate of the period at a face that does not absorb", "period",
    "kg/m2", .role = BW_BY_BLOCKS,
    LIMIT(BW_AT_MOST, NON_ABSORBING, "condensate-non-absorbing"),
    .rule = DIN ": at most " SAY(NON_ABSORBING) " kg/m2 [S]" BLOCKS)
CRITERION(BW_C_PERIOD_RESERVE, "period-reserve", "Drying reserve of the period",
    "period", "kg/(m2 a)", .role = BW_BY_BLOCKS, RESERVE,
    .rule = RESERVE_RULE BLOCKS)
CRITERION(BW_C_PERIOD_WOOD_RISE, "period-wood-rise",
    "Moisture rise of solid wood in the period", "period", "%",
    .role = BW_BY_BLOCKS, LIMIT(BW_AT_MOST, WOOD_RISE, "wood-moisture-rise"),
    .rule = WOOD_RULE BLOCKS)
CRITERION(BW_C_PERIOD_PANEL_RISE, "period-panel-rise",
    "Moisture rise of wood-based panels in the period", "period", "%",
    .role = BW_BY_BLOCKS, LIMIT(BW_AT_MOST, PANEL_RISE, "panel-moisture-rise"),
    .rule = PANEL_RULE BLOCKS)

/* ---- rules of national rule sets alone ----------------------------------- */

#define ITS_OWN "what the rule set asks"
CRITERION(BW_C_STEADY_CHECK, "steady-design-check",
    "Highest humidity at an interface, steady check", "steady", "%",
    FROM(BW_BELOW, ITS_OWN), MARGINAL_BY(2.0), .may_be = {50.0, 100.0},
    .rule = NATIONAL)
CRITERION(BW_C_INNER_SD, "inner-sd", "sd of the tightest layer inside", "rule",
    "m", FROM(BW_AT_LEAST, ITS_OWN), .may_be = {0.01, 1e4}, .rule = NATIONAL)
CRITERION(BW_C_SD_RATIO, "sd-ratio", "Inner sd over outer sd", "rule", "-",
    FROM(BW_AT_LEAST, ITS_OWN), .may_be = {0.1, 1e3}, .rule = NATIONAL)
CRITERION(BW_C_BREATHER_SD, "breather-sd", "sd of the breather membrane",
    "rule", "m", FROM(BW_BELOW, ITS_OWN), .may_be = {1e-3, 100.0},
    .rule = NATIONAL)
CRITERION(BW_C_CAVITY_WIDTH, /* a drawn dimension: none is marginal */
    "cavity-width", "Width of the ventilated cavity", "rule", "mm",
    FROM(BW_AT_LEAST, ITS_OWN), MARGINAL_BY(0.0), .may_be = {1.0, 1e3},
    .rule = NATIONAL)
CRITERION(BW_C_FRSI_LEAST, "frsi-least", "Least surface temperature factor",
    "surface", "-", FROM(BW_AT_LEAST, ITS_OWN), MARGINAL_BY(0.02),
    .may_be = {0.1, 0.99}, .rule = NATIONAL)

/* ---- the simulation ------------------------------------------------------ */

CRITERION(BW_C_TRANSIENT, /* a row only where there is none */
    "transient-simulation", "Simulation hour by hour", "transient", "-",
    NO_LIMIT,
    .rule = EN ": asked for where the monthly method is outside its limits "
            "[S]")
CRITERION(BW_C_UNJUDGED, "outside-weather-line",
    "Layers that the weather line leaves out", "transient", "-", NO_LIMIT,
    .rule = "insulation, or wood under a tight cover, outside a "
            "well-ventilated cavity: room air in that cavity is not "
            "simulated, " NO_SOURCE)
CRITERION(BW_C_SOIL, /* a row only where it is not kept out */
    "soil-water", "Water from the soil", "rule", "-", NO_LIMIT,
    .rule = "liquid water of soil, at rest or under pressure, is kept out by "
            "waterproofing or not computed, nor is its frost below a freezing "
            "room, " NO_SOURCE)
CRITERION(BW_C_OUTDOOR_AIR, /* a row only where it would condense */
    "outdoor-air-leak", "Outdoor air that leaks in", "rule", "-", NO_LIMIT,
    .rule = "the leak that is computed is of room air outwards; in a room colder "
            "than the dew point outside the other way is what wets, " NO_SOURCE)
#define HUMID_ROOM 1188 /* Pa: class 4 of ISO 13788, 1080, with its margin */
CRITERION(BW_C_HUMID_ROOM, /* a row only where it is beyond */
    "humid-room-air", "Vapour of the room above the outdoor air, with leaks",
    "rule", "Pa", LIMIT(BW_AT_MOST, HUMID_ROOM, ""), INSPECT,
    .rule = SAY(HUMID_ROOM) " Pa, class 4 of " ISO " (1080 Pa) with its margin "
            "[M-hi]; beyond it leaking air is to be stated, and inspected unless "
            "a test shows q50 of at most 1 m3/(m2 h): the leak is spread over "
            "the face as met in dwellings [M-lo], " NO_SOURCE)
CRITERION(BW_C_BELOW, /* a row only where it is not stated */
    "floor-underside", "The air below the floor", "rule", "-", NO_LIMIT,
    .rule = "a crawl space is colder and damper in summer than the outdoor "
            "air, " NO_SOURCE)
CRITERION(BW_C_PERIODIC_WATER, "periodic-water",
    "Change of total water over the last year", "transient", "kg/(m2 a)",
    LIMIT(BW_AT_MOST, 0.0, ""),
    .rule = EN ": the simulation must end periodic or drying; " NO_SOURCE)
CRITERION(BW_C_STANDING_WATER, "standing-water",
    "Most water that stands at a face or in a layer that does not absorb",
    "transient", "kg/m2", LIMIT(BW_AT_MOST, RUN_OFF, "standing-water"),
    .may_be = {1e-3, RUN_OFF},
    .rule = ISO ": guide of " SAY(RUN_OFF) " kg/m2 on non-absorbing faces, "
            "beyond which it runs off [M-med], here hour by hour")

#define MONTH 720 /* h/a: thirty days */
CRITERION(BW_C_BOTH_WET, "condensate-confirmed",
    "Condensate by months where the simulation stays near saturation",
    "transient", "kg/m2",
    LIMITS(BW_AT_MOST, CONDENSATE, "", "condensate-absorbing", NON_ABSORBING,
           "faces that do not absorb", "condensate-non-absorbing"),
    .rule = DIN ": at most " SAY(CONDENSATE) " kg/m2, " SAY(NON_ABSORBING)
            " between faces that do not absorb [S]; decides where the "
            "simulation has the same face above 95 % RH for more than "
            SAY(MONTH) " h, " NO_SOURCE)
CRITERION(BW_C_HUMID_HOURS, "hours-above-95",
    "Hours a year above 95 % RH at wood, board, insulation or condensate",
    "transient", "h/a", LIMIT(BW_AT_MOST, MONTH, "hours-above-95"), INSPECT,
    .may_be = {1.0, MONTH},
    .rule = "inspect beyond " SAY(MONTH) " h, thirty days of the year, "
            NO_SOURCE "; 95 % is where WTA 6-4 stops trusting a hidden face "
            "[M-med]")
CRITERION(BW_C_COVERING, "covering-humidity",
    "Hours a year above 90 % RH under a covering at the room face",
    "transient", "h/a", LIMIT(BW_AT_MOST, MONTH, "covering-humidity"),
    .may_be = {1.0, MONTH},
    .rule = SAY(MONTH) " h, thirty days, " NO_SOURCE "; BS 8203 covers a base "
            "at 75 % RH, BS 8201 with wood [M-hi], Nordic practice with plastic "
            "at 85 % [M-med]; beyond 80 % for as long, inspect")

#define WOOD_MOISTURE 20
#define PANEL_MOISTURE 18
#define BY_DOSE "; beyond it inspect, what decides is the decay dose"
CRITERION(BW_C_WOOD_MOISTURE, "wood-moisture",
    "Highest moisture of solid wood, 24 h mean", "transient", "%",
    LIMIT(BW_BELOW, WOOD_MOISTURE, "wood-moisture"), INSPECT,
    .may_be = {5.0, WOOD_MOISTURE},
    .rule = TIMBER ": solid wood below " SAY(WOOD_MOISTURE) " % by mass [M-hi]"
            BY_DOSE)
CRITERION(BW_C_PANEL_MOISTURE, "panel-moisture",
    "Highest moisture of wood-based panels, 24 h mean", "transient", "%",
    LIMIT(BW_BELOW, PANEL_MOISTURE, "panel-moisture"), INSPECT,
    .may_be = {5.0, PANEL_MOISTURE},
    .rule = "wood-based panels below " SAY(PANEL_MOISTURE) " % by mass [M-hi], "
            "after " TIMBER BY_DOSE)
CRITERION(BW_C_TIMBER_LINE, "timber-line",
    "Days a year above the line of embedded timber", "transient", "d/a",
    LIMIT(BW_AT_MOST, 0.0, ""), INSPECT,
    .rule = "WTA 6-8: pores of the wettest 10 mm at most 95 % RH at 0 degC, "
            "86 % at 30 degC [M-hi]" BY_DOSE)

#define DECAY 325 /* d: BW_DECAY_DOSE_CRITICAL, test_criterion */
CRITERION(BW_C_DECAY, "decay-dose",
    "Decay dose of hidden wood in " SAY(BW_SERVICE_YEARS) " years", "transient",
    "d", LIMIT(BW_BELOW, DECAY, "decay-dose"), .may_be = {1.0, DECAY},
    .rule = "first decay at a dose of " SAY(DECAY) " d, Isaksson, Brischke & "
            "Thelandersson 2013 [M-hi]; " SAY(BW_SERVICE_YEARS) " years as EN "
            "1990 for buildings [M-hi]")

#define FIRST_YEAR 13 /* weeks */
CRITERION(BW_C_FIRST_YEAR, "first-year-drying",
    "Weeks until wood stays below its limit", "transient", "weeks",
    LIMIT(BW_AT_MOST, FIRST_YEAR, "first-year-drying"), INSPECT,
    .may_be = {1.0, FIRST_YEAR},
    .rule = "wood built in above " SAY(WOOD_MOISTURE) " % (panels "
            SAY(PANEL_MOISTURE) " %) is below it within " SAY(FIRST_YEAR)
            " weeks, after DIN 68800-2, three months [M-med]; beyond it "
            "inspect")

#define MOULD_HIDDEN 3
CRITERION(BW_C_MOULD_HIDDEN, "mould-index-hidden",
    "Highest mould index at hidden faces", "transient", "-",
    LIMIT(BW_BELOW, MOULD_HIDDEN, "mould-index-hidden"),
    .may_be = {0.1, MOULD_HIDDEN},
    .rule = "index below " SAY(MOULD_HIDDEN) ", the last year repeated to the "
            "end, decline by class (Hukka & Viitanen; Ojanen et al. 2010 "
            "[M-med]); marginal where it exceeds with the decline of 0.1 of "
            "ASHRAE 160-2016 [M-med]")

#define MOULD_ROOM 1
CRITERION(BW_C_MOULD_ROOM, "mould-index-room",
    "Highest mould index at the room face", "transient", "-",
    LIMIT(BW_BELOW, MOULD_ROOM, "mould-index-room"),
    .may_be = {0.1, MOULD_ROOM},
    .rule = "index below " SAY(MOULD_ROOM) ", no growth at all, " NO_SOURCE
            "; model of Hukka & Viitanen")
CRITERION(BW_C_WETTING, "wetting-test",
    "Simulated time to dry after a wetting, both ways", "transient", "months",
    LIMIT(BW_BELOW, DRY, "wetting-test"), .may_be = {1.0, DRY},
    .rule = DRY_RULE "; inspect where no place is damp of it well before and "
            "the drying reserve of " TIMBER " holds [M-hi]")
CRITERION(BW_C_WETTING_OUTWARDS, "wetting-outwards",
    "Simulated time to dry, outwards only", "transient", "months",
    .informative = true, NO_LIMIT,
    .rule = "shown beside the wetting test, " NO_SOURCE)
CRITERION(BW_C_WETTING_INWARDS, "wetting-inwards",
    "Simulated time to dry, inwards only", "transient", "months",
    .informative = true, NO_LIMIT,
    .rule = "shown beside the wetting test, " NO_SOURCE)

/* ---- what informs beside them; never decides ----------------------------- */

CRITERION(BW_C_MOULD_DOSE, "mould-dose",
    "Mould dose at hidden faces, beside the index", "transient", "d",
    .informative = true, NO_LIMIT,
    .rule = "second opinion, Thelandersson & Isaksson 2013 [M-med]; sawn spruce "
            "shows growth at about 17 d, planed at 38 d [M-lo]; no class of "
            "other materials")
CRITERION(BW_C_FIXINGS, "fixings-wetness",
    "Wet hours a year of fixings at timber", "transient", "h/a",
    .informative = true, NO_LIMIT,
    .rule = "ISO 9223, time of wetness: above 0 degC and 80 % RH [M-med]; no "
            "rate of corrosion follows from it")
#define FROST "; no count of frost is agreed, compare with the bare wall alone"
CRITERION(BW_C_FROST_CROSSINGS, /* the three: masonry at the weather alone */
    "frost-crossings", "Frost in masonry at the weather: falls to 0 degC",
    "transient", "1/a", .informative = true, NO_LIMIT,
    .rule = "counted at 5 to 50 mm, " NO_SOURCE FROST)
CRITERION(BW_C_FROST_CYCLES, "frost-wet-cycles",
    "Frost in masonry at the weather: falls with over 30 % of free saturation",
    "transient", "1/a", .informative = true, NO_LIMIT,
    .rule = "screening of insulated brick after WTA 6-5 [M-med]" FROST)
CRITERION(BW_C_ICE_INDEX, "ice-index",
    "Frost in masonry at the weather: ice index", "transient", "1/a",
    .informative = true, NO_LIMIT,
    .rule = "Zhou, Derome & Carmeliet 2017 [M-med]" FROST)

/* ---- the audit ----------------------------------------------------------- */

CRITERION(BW_C_CLOSING, /* no row of a check: readings before closing up */
    "closing-moisture", "Moisture readings before closing up", "audit", "%",
    FROM(BW_BELOW_OR_AT_MOST, ITS_OWN), .may_be = {5.0, 60.0}, .rule = NATIONAL)
/* clang-format on */
