/* Every option, in the order of the help: of what kind, the field of settings
 * it fills, which verbs take it, its name, the value it takes in capitals or as
 * the words to choose from, and what the help says. INTO: the field is
 * another's, or stands in settings.h. Included twice, for the fields and for
 * the table; man page and completions are written from the help. */

/* clang-format off */
OPTION(TEXT, climate, WALLS | JUNCTION | REPLAY, "--climate", "FILE",
    "use this climate instead of the one the file names")
OPTION(FORMAT, format, WALLS | JUNCTION | REPLAY, "--format", "text|csv|json|html",
    "a report to read, a table (csv), all tables (json), a page with charts "
    "(html)", .other_name = "-f")
INTO(FORMAT, format, MATERIALS, "--format", "text|csv|json",
    "a list to read, or a table (csv, json)", .other_name = "-f")
OPTION(TEXT, output, EVERY_VERB, "--output", "FILE",
    "write there instead of to standard output", .other_name = "-o")
OPTION(TEXT, tables, WALLS | JUNCTION | REPLAY, "--tables", "DIR",
    "also write every result table there as CSV")
OPTION(TEXT, verify, AUDIT, "--verify", "SHEET",
    "say what has changed since this sheet, or the list beside one, was made")
OPTION(COUNT, step, CHECK | COMPARE | AUDIT, "--step", "HOURS",
    "hourly table: one row for so many hours, 1 to 8760 (means; 1)",
    .least = 1, .most = 8760)
OPTION(RULES, profile, WALLS | JUNCTION, "--profile", "NAME|FILE",
    "national rule set, shipped or a file; \"list\" shows them and the "
    "default criteria")
OPTION(LIST, materials, WALLS | JUNCTION | REPLAY | IMPORT | MATERIALS, "--materials", "DIR",
    "materials that add to and override the shipped ones; may be repeated",
    .most = MATERIAL_DIRS)
OPTION(LIST, change, WALLS | REPLAY, "--set", "PLACE.ATTRIBUTE=VALUE",
    "change the wall as it is read, the file stays; may be repeated",
    .most = CHANGES)
OPTION(FLAG, monthly_only, WALLS, "--monthly-only", NULL,
    "no hourly simulation, the monthly method alone")
OPTION(FLAG, simulate, JUNCTION, "--simulate", NULL,
    "hour by hour, too: wood and mould within; takes a minute or so")
OPTION(FLAG, no_synthetic_hours, WALLS | JUNCTION, "--no-synthetic-hours", NULL,
    "no simulation on hours generated from a monthly climate")
OPTION(FLAG, from_readings, CHECK, "--from-readings", NULL,
    "start the simulation from the moisture readings of <closing-up>")
OPTION(FLAG, no_advice, CHECK, "--no-advice", NULL,
    "do not look for changes that would help: sooner done")
OPTION(COUNT, run_in, REPLAY, "--run-in", "HOURS",
    "hours at the start left out of every figure, 1 to 8760 (48)",
    .least = 1, .most = 8760)
OPTION(FLAG, no_inputs, REPLAY, "--no-inputs", NULL,
    "do not look for the input that explains the difference: sooner done")
OPTION(COUNT, cells, SIMULATED | REPLAY, "--cells", "N",
    "simulation: every cell in N parts, 1 to 8 (1)", .least = 1, .most = 8)
OPTION(KELVIN, tolerance, SIMULATED | REPLAY, "--tolerance", "KELVIN",
    "simulation: error in time aimed at, as in \"0.01 K\"")
OPTION(COUNT, years, SIMULATED, "--years", "N",
    "simulation: most years, 1 to 30 (10)", .least = 1, .most = 30)
OPTION(COUNT, start_month, SIMULATED, "--start-month", "MONTH",
    "simulation: month it starts in, 1 to 12 (10; south of the equator 4)", .least = 1, .most = 12)
OPTION(FLAG, converge, CHECK, "--converge", NULL,
    "also how much a simulation depends on its cells and steps (slow)")
OPTION(WORD, equal, COMPARE, "--equal", "u|thickness|drawn",
    "what is held equal, by the thickness of one layer")
OPTION(TEXT, scale_layer, COMPARE, "--scale-layer", "ID",
    "the layer to rescale; without it the main insulation")
OPTION(FLAG, scale_studs, COMPARE, "--scale-studs", NULL,
    "with the rescaled layer its studs get deeper; else they stay")
OPTION(FLAG, as_drawn, COMPARE, "--as-drawn", NULL,
    "compare walls in different climates or rooms all the same")
OPTION(TEXT, date, WALLS | JUNCTION | REPLAY, "--date", "DAY",
    "date of the sheet, or at the foot of a page, year-month-day; without it "
    "today")
OPTION(FLAG, plan, AUDIT, "--plan", NULL,
    "before work starts: what to measure and photograph, where")
OPTION(TEXT, construction, IMPORT, "--construction", "ID",
    "which construction of the file")
OPTION(TEXT, permeance_unit, IMPORT, "--permeance-unit", "UNIT",
    "unit of a PermSI, which the format leaves open")
INTO(COUNT, hours.year, CLIMATE, "--year", "YEAR",
    "which year of a file with several", .least = 1800, .most = 2200)
INTO(PLACE, hours, CLIMATE, "--position", "LATITUDE,LONGITUDE",
    "degrees, for files that do not say where they are")
INTO(CLOCK, hours, CLIMATE | REPLAY, "--utc-offset", "HOURS",
    "clock of a file that does not say it, east of UTC positive")
OPTION(COUNT, ensemble, MARGIN, "--ensemble", "N",
    "also N cases with all unknowns at once, quasi-random",
    .least = 1, .most = 1000000)
OPTION(COUNT, race, CHOOSE, "--race", "N",
    "most cases by months of each design, a multiple of 8 (256)",
    .least = 8, .most = 4096)
OPTION(COUNT, drawn, CHOOSE, "--drawn", "N",
    "cases drawn of each design left, a multiple of 8 (32; by months 256)",
    .least = 8, .most = 4096)
OPTION(COUNT, seed, CHOOSE, "--seed", "N",
    "another seed draws other cases (1)", .least = 1, .most = 999999999)
OPTION(FLAG, wide, CHOOSE, "--wide", NULL,
    "vary all that margin varies, the library's ranges, too (slow)")
OPTION(LIST, settled, CHOOSE, "--settled", "WORDS",
    "the finding with these words is settled: as drawn; may be repeated",
    .most = CHANGES)
OPTION(LIST, resume, CHOOSE, "--resume", "FILE",
    "keep the cases judged there and begin with those it has; further ones "
    "are read only", .most = CHANGES)
OPTION(TEXT, part, CHOOSE, "--part", "K/N",
    "simulate part K of N alone, kept in the file of --resume")
OPTION(COUNT, threads, WALLS | REPLAY, "--threads", "N",
    "threads to compute on; without it one a core", .least = 1, .most = 64)
OPTION(FLAG, transient, MARGIN, "--transient", NULL,
    "simulate every case hour by hour (slow)")
OPTION(FLAG, full, CHECK | COMPARE | MARGIN | CHOOSE | JUNCTION | REPLAY,
    "--full", NULL,
    "every figure, layer, source and assumption, not one screen")
OPTION(FLAG, quiet, WALLS | JUNCTION | REPLAY, "--quiet", NULL,
    "verdict, warnings and cautions alone, no progress bar", .other_name = "-q")
INTO(FLAG, quiet, IMPORT | CLIMATE | MATERIALS, "--quiet", NULL,
    "no progress bar, the result alone", .other_name = "-q")
OPTION(FLAG, no_colour, WALLS | JUNCTION | REPLAY | MATERIALS, "--no-colour", NULL,
    "no bold type on a terminal (NO_COLOR does the same)",
    .other_name = "--no-color")
OPTION(FLAG, help, EVERY_VERB, "--help", NULL,
    "show this help", .other_name = "-h")
OPTION(FLAG, version, EVERY_VERB, "--version", NULL,
    "show the version")
/* clang-format on */
