#include "settings.h"

#include <stdio.h>
#include <string.h>

#include "bothways/profile.h"
#include "fail.h"
#include "number.h"
#include "text.h"

/* One table says what exists, what it takes and how it is stored. `key` is
 * the letter by which a verb lists it. */
typedef bw_status store(settings *out, const char *value, bw_error *err);

struct option {
    char key;
    const char *name, *other_name; /* "--format"; "-q" or another spelling */
    const char *argument;          /* NULL: a flag */
    const char *help;
    store *store;
};

static bw_status store_once(const char **where, const char *name,
                            const char *value, bw_error *err)
{
    if (*where != NULL)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "%s is given twice ('%s' and '%s'); give it once", name,
                       *where, value);
    *where = value;
    return BW_OK;
}

static bw_status store_climate(settings *out, const char *value, bw_error *err)
{
    return store_once(&out->climate, "--climate", value, err);
}

static bw_status store_output(settings *out, const char *value, bw_error *err)
{
    return store_once(&out->output, "--output", value, err);
}

static bw_status store_tables(settings *out, const char *value, bw_error *err)
{
    return store_once(&out->tables, "--tables", value, err);
}

static bw_status store_profile(settings *out, const char *value, bw_error *err)
{
    if (strcmp(value, "list") == 0) {
        out->list_profiles = true;
        return BW_OK;
    }
    if (bw_profile_find(value) == NULL) {
        const char *near = bw_profile_suggest(value);
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--profile '%s' is not known%s%s%s; --profile list "
                       "shows them with their sources",
                       value, near != NULL ? "; did you mean " : "",
                       near != NULL ? near : "", near != NULL ? "?" : "");
    }
    return store_once(&out->profile, "--profile", value, err);
}

/* The first `count` of the formats are to be had; `use` lists them. */
static bw_status store_one_format(settings *out, const char *value,
                                  size_t count, const char *use, bw_error *err)
{
    static const char *const names[] = {[FORMAT_TEXT] = "text",
                                        [FORMAT_CSV] = "csv",
                                        [FORMAT_JSON] = "json",
                                        [FORMAT_HTML] = "html"};
    for (size_t i = 0; i < count; i++)
        if (strcmp(value, names[i]) == 0) {
            out->format = (output_format)i;
            return BW_OK;
        }
    const char *near = bw_text_nearest(value, names, count);
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "--format '%s' is not known; use %s%s%s%s", value, use,
                   near != NULL ? " (did you mean " : "",
                   near != NULL ? near : "", near != NULL ? "?)" : "");
}

static bw_status store_format(settings *out, const char *value, bw_error *err)
{
    return store_one_format(out, value, FORMAT_HTML + 1,
                            "text, csv, json or html", err);
}

static bw_status store_list_format(settings *out, const char *value,
                                   bw_error *err)
{
    return store_one_format(out, value, FORMAT_JSON + 1, "text, csv or json",
                            err);
}

static bw_status store_materials(settings *out, const char *value,
                                 bw_error *err)
{
    if (out->materials_count == MATERIAL_DIRS)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--materials is given more than %d times",
                       MATERIAL_DIRS);
    out->materials[out->materials_count++] = value;
    return BW_OK;
}

/* What it means is the reader's to say; here only that it has two sides. */
static bw_status store_change(settings *out, const char *value, bw_error *err)
{
    const char *equals = strchr(value, '=');
    if (equals == NULL || equals == value)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--set '%s' is no change of a wall; write "
                       "PLACE.ATTRIBUTE=VALUE, for example --set "
                       "membrane.sd=\"2 m\"",
                       value);
    if (out->change_count == CHANGES)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--set is given more than %d times", CHANGES);
    out->change[out->change_count++] = value;
    return BW_OK;
}

static bw_status store_equal(settings *out, const char *value, bw_error *err)
{
    static const char *const names[] = {"u", "thickness", "drawn"};
    for (size_t i = 0; i < 3; i++)
        if (strcmp(value, names[i]) == 0)
            return store_once(&out->equal, "--equal", value, err);
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "--equal '%s' is not known; use u, thickness or drawn",
                   value);
}

static bw_status store_scale_layer(settings *out, const char *value,
                                   bw_error *err)
{
    return store_once(&out->scale_layer, "--scale-layer", value, err);
}

static bw_status store_construction(settings *out, const char *value,
                                    bw_error *err)
{
    return store_once(&out->construction, "--construction", value, err);
}

static bw_status store_permeance_unit(settings *out, const char *value,
                                      bw_error *err)
{
    return store_once(&out->permeance_unit, "--permeance-unit", value, err);
}

/* A whole number from `least` to `most`. */
static bw_status store_count(long *out, const char *name, const char *value,
                             long least, long most, bw_error *err)
{
    long number = 0;
    size_t digits = strspn(value, "0123456789");
    bool good = digits > 0 && digits <= 9 && value[digits] == '\0';
    for (size_t i = 0; good && i < digits; i++)
        number = 10 * number + (value[i] - '0');
    if (!good || number < least || number > most)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "%s '%s' is no whole number from %ld to %ld", name,
                       value, least, most);
    *out = number;
    return BW_OK;
}

static bw_status store_ensemble(settings *out, const char *value, bw_error *err)
{
    long count = 0;
    BW_TRY(store_count(&count, "--ensemble", value, 1, 1000000, err));
    out->ensemble = (size_t)count;
    return BW_OK;
}

static bw_status store_threads(settings *out, const char *value, bw_error *err)
{
    long count = 0;
    BW_TRY(store_count(&count, "--threads", value, 1, 64, err));
    out->threads = (int)count;
    return BW_OK;
}

static bw_status store_step(settings *out, const char *value, bw_error *err)
{
    long hours = 0;
    BW_TRY(store_count(&hours, "--step", value, 1, 8760, err));
    out->step = (size_t)hours;
    return BW_OK;
}

/* A whole number into an int. */
static bw_status store_int(int *out, const char *name, const char *value,
                           long most, bw_error *err)
{
    long number = 0;
    BW_TRY(store_count(&number, name, value, 1, most, err));
    *out = (int)number;
    return BW_OK;
}

static bw_status store_cells(settings *out, const char *value, bw_error *err)
{
    return store_int(&out->cells, "--cells", value, 8, err);
}

static bw_status store_years(settings *out, const char *value, bw_error *err)
{
    return store_int(&out->years, "--years", value, 30, err);
}

static bw_status store_start_month(settings *out, const char *value,
                                   bw_error *err)
{
    return store_int(&out->start_month, "--start-month", value, 12, err);
}

static bw_status store_tolerance(settings *out, const char *value,
                                 bw_error *err)
{
    double kelvin = 0.0;
    const char *end = value;
    bool good = bw_number_read(value, &kelvin, &end);
    if (good && *end == ' ')
        end++;
    if (!good || strcmp(end, "K") != 0 || kelvin < 1e-4 || kelvin > 1.0)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--tolerance '%s' is no difference of temperature from "
                       "0.0001 K to 1 K, written as \"0.01 K\"",
                       value);
    out->tolerance = kelvin;
    return BW_OK;
}

#define FLAG(field)                                                            \
    static bw_status store_##field(settings *out, const char *value,           \
                                   bw_error *err)                              \
    {                                                                          \
        (void)value;                                                           \
        (void)err;                                                             \
        out->field = true;                                                     \
        return BW_OK;                                                          \
    }
FLAG(quiet)
FLAG(no_colour)
FLAG(help)
FLAG(version)
FLAG(monthly_only)
FLAG(no_synthetic_hours)
FLAG(from_readings)
FLAG(no_advice)
FLAG(transient)
FLAG(as_drawn)
FLAG(converge)

static const struct option options[] = {
    {'c', "--climate", NULL, "FILE",
     "use this climate instead of the one the assembly names", store_climate},
    {'f', "--format", "-f", "text|csv|json|html",
     "a report to read, a table (csv), all tables (json), a page with charts "
     "(html)",
     store_format},
    {'F', "--format", "-f", "text|csv|json",
     "a list to read, or a table (csv, json)", store_list_format},
    {'o', "--output", "-o", "FILE", "write there instead of to standard output",
     store_output},
    {'t', "--tables", NULL, "DIR", "also write every result table there as CSV",
     store_tables},
    {'r', "--step", NULL, "HOURS",
     "hourly table: one row for so many hours, 1 to 8760 (means; 1)",
     store_step},
    {'p', "--profile", NULL, "NAME",
     "national rule set; \"list\" shows them with their sources",
     store_profile},
    {'m', "--materials", NULL, "DIR",
     "materials that add to and override the shipped ones; may be repeated",
     store_materials},
    {'S', "--set", NULL, "PLACE.ATTRIBUTE=VALUE",
     "change the wall as it is read, the file stays; may be repeated",
     store_change},
    {'M', "--monthly-only", NULL, NULL,
     "no hourly simulation, the monthly method alone", store_monthly_only},
    {'s', "--no-synthetic-hours", NULL, NULL,
     "no simulation on hours generated from a monthly climate",
     store_no_synthetic_hours},
    {'R', "--from-readings", NULL, NULL,
     "start the simulation from the moisture readings of <closing-up>",
     store_from_readings},
    {'N', "--no-advice", NULL, NULL,
     "do not look for changes that would help: sooner done", store_no_advice},
    {'g', "--cells", NULL, "N", "simulation: every cell in N parts, 1 to 8 (1)",
     store_cells},
    {'a', "--tolerance", NULL, "KELVIN",
     "simulation: error in time aimed at, as in \"0.01 K\"", store_tolerance},
    {'y', "--years", NULL, "N", "simulation: most years, 1 to 30 (10)",
     store_years},
    {'b', "--start-month", NULL, "MONTH",
     "simulation: month it starts in, 1 to 12 (10)", store_start_month},
    {'C', "--converge", NULL, NULL,
     "also how much a simulation depends on its cells and steps (slow)",
     store_converge},
    {'e', "--equal", NULL, "u|thickness|drawn",
     "what is held equal, by the thickness of one layer", store_equal},
    {'l', "--scale-layer", NULL, "ID",
     "the layer to rescale; without it the main insulation", store_scale_layer},
    {'d', "--as-drawn", NULL, NULL,
     "compare walls in different climates or rooms all the same",
     store_as_drawn},
    {'k', "--construction", NULL, "ID", "which construction of the file",
     store_construction},
    {'u', "--permeance-unit", NULL, "UNIT",
     "unit of a PermSI, which the format leaves open", store_permeance_unit},
    {'E', "--ensemble", NULL, "N",
     "also N cases with all unknowns at once, quasi-random", store_ensemble},
    {'J', "--threads", NULL, "N",
     "threads to compute on; without it one a core", store_threads},
    {'T', "--transient", NULL, NULL, "simulate every case hour by hour (slow)",
     store_transient},
    {'q', "--quiet", "-q", NULL, "the summary alone, no progress bar",
     store_quiet},
    {'n', "--no-colour", "--no-color", NULL,
     "no bold type on a terminal (NO_COLOR does the same)", store_no_colour},
    {'h', "--help", "-h", NULL, "show this help", store_help},
    {'v', "--version", NULL, NULL, "show the version", store_version},
};

enum { OPTION_COUNT = sizeof options / sizeof options[0] };

static bool takes(const verb *v, const struct option *option)
{
    return strchr(v->options, option->key) != NULL;
}

static bool named(const struct option *option, const char *text, size_t length)
{
    const char *names[] = {option->name, option->other_name};
    for (size_t i = 0; i < 2; i++)
        if (names[i] != NULL && strlen(names[i]) == length &&
            strncmp(names[i], text, length) == 0)
            return true;
    return false;
}

static bw_status fail_unknown(const verb *v, const char *text, size_t length,
                              bw_error *err)
{
    const char *names[OPTION_COUNT];
    size_t count = 0;
    for (size_t i = 0; i < OPTION_COUNT; i++)
        if (takes(v, &options[i]))
            names[count++] = options[i].name;
    char word[64];
    snprintf(word, sizeof word, "%.*s", (int)(length < 63 ? length : 63), text);
    const char *near = bw_text_nearest(word, names, count);
    if (near != NULL)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "unknown option '%s' for %s; did you mean %s?", word,
                       v->name, near);
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "unknown option '%s' for %s; see bothways %s --help", word,
                   v->name, v->name);
}

/* Reads the option at arguments[*at] and its value, if it takes one. */
static bw_status read_option(settings *out, const verb *v,
                             const char **arguments, size_t count, size_t *at,
                             bw_error *err)
{
    const char *text = arguments[*at];
    size_t length = strcspn(text, "=");
    const struct option *option = NULL;
    for (size_t i = 0; i < OPTION_COUNT; i++)
        if (takes(v, &options[i]) && named(&options[i], text, length))
            option = &options[i];
    if (option == NULL)
        return fail_unknown(v, text, length, err);
    const char *value = text[length] == '=' ? text + length + 1 : NULL;
    if (option->argument == NULL && value != NULL)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0, "%s takes no value",
                       option->name);
    if (option->argument != NULL && value == NULL) {
        if (*at + 1 >= count)
            return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                           "%s needs a value: %s %s", option->name,
                           option->name, option->argument);
        value = arguments[++*at];
    }
    if (value != NULL && value[0] == '\0')
        return bw_fail(err, BW_ERR_USAGE, NULL, 0, "%s is empty", option->name);
    return option->store(out, value, err);
}

bw_status settings_read(settings *out, const verb *for_verb,
                        const char **arguments, size_t count, bw_error *err)
{
    bool only_operands = false;
    *out = (settings){.operand = arguments};
    for (size_t at = 0; at < count; at++) {
        const char *text = arguments[at];
        if (!only_operands && strcmp(text, "--") == 0)
            only_operands = true;
        else if (text[0] == '\0')
            return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                           "an empty word; %s takes %s", for_verb->name,
                           for_verb->operands);
        else if (!only_operands && text[0] == '-' && text[1] != '\0')
            BW_TRY(read_option(out, for_verb, arguments, count, &at, err));
        else
            arguments[out->operand_count++] = text;
    }
    return BW_OK;
}

void settings_print_options(const verb *for_verb)
{
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        const struct option *option = &options[i];
        if (!takes(for_verb, option))
            continue;
        char name[64];
        bool letter = option->other_name != NULL &&
                      strlen(option->other_name) == 2;
        snprintf(name, sizeof name, "%s%s%s%s%s",
                 letter ? option->other_name : "", letter ? ", " : "    ",
                 option->name, option->argument != NULL ? " " : "",
                 option->argument != NULL ? option->argument : "");
        printf("  %-26s %s\n", name, option->help);
    }
}

/* The tolerance of humidity keeps its ratio to that of temperature
 * (transient.h). */
bw_transient_options settings_transient(const settings *given)
{
    static const double humidity = 0.0005 / 0.01; /* 1/K */
    return (bw_transient_options){
        .max_years = given->years,
        .start_month = given->start_month > 0 ? given->start_month - 1 : 0,
        .start_month_given = given->start_month > 0,
        .temperature_tolerance = given->tolerance,
        .humidity_tolerance = humidity * given->tolerance,
        .grid_refinement = given->cells,
    };
}
