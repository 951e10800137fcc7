#ifndef BW_COMMAND_SETTINGS_H
#define BW_COMMAND_SETTINGS_H

/* The command line as data: verbs, options, what was given. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"
#include "bothways/transient.h"

/* Exit statuses of the contract. */
enum {
    EXIT_HOLDS = 0,        /* every assessed criterion holds */
    EXIT_FAILS = 1,        /* at least one fails */
    EXIT_REFUSED = 2,      /* bad usage or input */
    EXIT_MACHINE = 3,      /* disk, memory */
    EXIT_NOT_ASSESSED = 4, /* a deciding criterion could not be assessed */
};

typedef enum output_format {
    FORMAT_TEXT,
    FORMAT_CSV,
    FORMAT_JSON,
    FORMAT_HTML,
} output_format;

enum { MATERIAL_DIRS = 8, CHANGES = 64 };

typedef struct settings {
    const char *command_line; /* as typed, quoted for a shell */
    const char *climate;      /* NULL: as the assembly says */
    output_format format;
    const char *output; /* NULL: standard output */
    const char *tables; /* NULL: none */
    const char *profile;
    const char *materials[MATERIAL_DIRS];
    size_t materials_count;
    const char *change[CHANGES]; /* "membrane.sd=2 m", as typed */
    size_t change_count;
    bool quiet, no_colour, help, version;
    bool list_profiles; /* --profile list */
    bool monthly_only, no_synthetic_hours, no_advice;
    bool from_readings;
    const char *equal; /* compare: "u", "thickness" or "drawn"; NULL: drawn */
    const char *scale_layer;
    bool as_drawn;
    const char *construction; /* import */
    const char *permeance_unit;
    size_t ensemble; /* margin: number of cases */
    int threads;     /* 0: one a core */
    size_t step;     /* of hourly.csv, h; 0: not given */
    bool transient;
    int cells, years; /* of the simulation; 0: its own */
    double tolerance; /* K; 0: its own */
    int start_month;  /* 1..12; 0: its own */
    bool converge;
    size_t operand_count;
    const char *const *operand; /* points into the arguments */
} settings;

struct option;

/* A verb: one cmd_VERB.c each. */
typedef struct verb {
    const char *name;
    const char *operands; /* for the usage line */
    const char *summary;
    const char *details; /* for --help; ends with a line feed */
    const char *options; /* letters of the options it takes, see options.c */
    int (*run)(const settings *given);
} verb;

/* Reads options and operands in any order. Operands are moved to the front
 * of arguments. */
bw_status settings_read(settings *out, const verb *for_verb,
                        const char **arguments, size_t count, bw_error *err);

/* The options of the simulation that were given. */
bw_transient_options settings_transient(const settings *given);

/* The whole command line as a shell would take it; free() it. NULL when out of
 * memory. */
char *settings_command_line(int argc, char *const *argv);

/* Prints every rule set with its rules and their sources. */
void settings_print_profiles(void);

/* Prints the options a verb takes, one a line. */
void settings_print_options(const verb *for_verb);

extern const verb verb_audit;
extern const verb verb_check;
extern const verb verb_compare;
extern const verb verb_import;
extern const verb verb_margin;
extern const verb verb_materials;

#endif
