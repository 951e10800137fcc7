#ifndef BW_COMMAND_SETTINGS_H
#define BW_COMMAND_SETTINGS_H

/* The command line as data: verbs, options, what was given. */

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "bothways/error.h"
#include "bothways/record.h"
#include "bothways/report.h"

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

/* What may be given more than once. */
typedef struct word_list {
    size_t count;
    const char *text[CHANGES];
} word_list;

/* A file that is there and would be replaced. */
typedef struct target {
    dev_t device;
    ino_t number;
} target;

/* The kinds of options, and the type of the field of each; one that was not
 * given is 0, NULL, empty. */
#define KINDS(KIND)                                                            \
    KIND(FLAG, bool)                                                           \
    KIND(TEXT, const char *)       /* given once */                            \
    KIND(RULES, const char *)      /* the same, or "list": list_profiles */    \
    KIND(WORD, const char *)       /* the same, one of those it may be */      \
    KIND(FORMAT, output_format)    /* the place of a word among those */       \
    KIND(COUNT, int)               /* a whole number of a range */             \
    KIND(LIST, word_list)          /* as often as there is room */             \
    KIND(KELVIN, double)           /* "0.01 K" */                              \
    KIND(PLACE, bw_record_options) /* its position */                          \
    KIND(CLOCK, bw_record_options) /* its offset from UTC */

#define KIND(kind, type) typedef type kind##_field;
KINDS(KIND)
#undef KIND

typedef struct settings {
#define OPTION(kind, field, ...) kind##_field field;
#define INTO(...)
#include "every_option.h"
#undef OPTION
#undef INTO
    bool listed;                       /* a list of digests stands beside it */
    const char *house;                 /* audit: its name; NULL: one wall */
    bool list_profiles;                /* --profile list */
    bw_record_options hours;           /* climate: what a file leaves open */
    const char *command_line;          /* as typed, quoted for a shell */
    target target[5 + BW_TABLE_COUNT]; /* see targets.h */
    size_t target_count;
    size_t operand_count;
    const char *const *operand; /* points into the arguments */
} settings;

/* Every verb, in the order of the help, and its set in every_option.h. */
#define VERBS(VERB)                                                            \
    VERB(CHECK, check)                                                         \
    VERB(COMPARE, compare)                                                     \
    VERB(MARGIN, margin)                                                       \
    VERB(CHOOSE, choose)                                                       \
    VERB(AUDIT, audit)                                                         \
    VERB(JUNCTION, junction)                                                   \
    VERB(REPLAY, replay)                                                       \
    VERB(IMPORT, import)                                                       \
    VERB(CLIMATE, climate)                                                     \
    VERB(MATERIALS, materials)

#define VERB(SET, verb) SET##_PLACE,
enum { VERBS(VERB) VERB_COUNT };
#undef VERB
#define VERB(SET, verb) SET = 1 << SET##_PLACE,
enum {
    VERBS(VERB) EVERY_VERB = (1 << VERB_COUNT) - 1,
    SIMULATED = CHECK | COMPARE | MARGIN | CHOOSE,
    WALLS = SIMULATED | AUDIT,
};
#undef VERB

/* A verb: one cmd_VERB.c each. */
typedef struct verb {
    int set; /* of itself alone */
    const char *name;
    const char *operands; /* for the usage line */
    const char *summary;
    const char *details; /* for --help; ends with a line feed */
    /* *code is EXIT_HOLDS before; where it fails nothing is printed yet. */
    bw_status (*run)(int *code, const settings *given, bw_error *err);
} verb;

/* Reads options and operands in any order. Operands are moved to the front
 * of arguments. */
bw_status settings_read(settings *out, const verb *for_verb,
                        const char **arguments, size_t count, bw_error *err);

/* The whole command line as a shell would take it; free() it. NULL when out of
 * memory. */
char *settings_command_line(int argc, char *const *argv);

/* Prints the options a verb takes, one a line. */
void settings_print_options(const verb *for_verb);

#define VERB(SET, word) extern const verb verb_##word;
VERBS(VERB)
#undef VERB

#endif
