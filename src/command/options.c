#include "settings.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "number.h"
#include "text.h"

/* What is made of a value, and the type of its field: settings.h. */
typedef enum kind {
#define KIND(kind, type) kind,
    KINDS(KIND)
#undef KIND
} kind;

struct option {
    kind kind;
    size_t to;                     /* offset in settings */
    int verbs;                     /* the set of them */
    const char *name, *other_name; /* "--format"; "-q" or another spelling */
    const char *argument;          /* NULL: a flag */
    const char *help;
    int least, most; /* of a number; of a list: how many */
};

static const struct option options[] = {
#define INTO(kind_of, field, of_verbs, its_name, value, ...)                   \
    {.kind = kind_of,                                                          \
     .to = offsetof(settings, field),                                          \
     .verbs = of_verbs,                                                        \
     .name = its_name,                                                         \
     .argument = value,                                                        \
     .help = __VA_ARGS__},
#define OPTION INTO
#include "every_option.h"
};

static bw_status store_once(const char **where, const struct option *o,
                            const char *value, bw_error *err)
{
    if (*where != NULL)
        return bw_fail_usage(err,
                             "%s is given twice ('%s' and '%s'); give it once",
                             o->name, *where, value);
    *where = value;
    return BW_OK;
}

/* ---- words: "text|csv|json" ---------------------------------------------- */

enum { WORDS_MOST = 8, WORDS_LENGTH = 48 };

typedef struct words {
    char text[WORDS_LENGTH]; /* of `argument`, a zero after each */
    const char *word[WORDS_MOST];
    size_t count;
} words;

static void split(words *out, const char *argument)
{
    snprintf(out->text, sizeof out->text, "%s", argument);
    for (char *at = out->text; at != NULL && out->count < WORDS_MOST;) {
        out->word[out->count++] = at;
        at = strchr(at, '|');
        if (at != NULL)
            *at++ = '\0';
    }
}

static bw_status fail_word(const words *known, const struct option *o,
                           const char *value, bw_error *err)
{
    char use[2 * WORDS_LENGTH] = "";
    for (size_t i = 0, used = 0; i < known->count; i++)
        used += (size_t)snprintf(use + used, sizeof use - used, "%s%s",
                                 i == 0                  ? ""
                                 : i + 1 == known->count ? " or "
                                                         : ", ",
                                 known->word[i]);
    return bw_fail_usage(
        err, "%s '%s' is not known; use %s%s", o->name, value, use,
        bw_text_meant((char[BW_MEANT]){0}, value, known->word, known->count));
}

static bw_status find_word(size_t *out, const struct option *o,
                           const char *value, bw_error *err)
{
    words known = {.count = 0};
    split(&known, o->argument);
    for (size_t i = 0; i < known.count; i++)
        if (strcmp(value, known.word[i]) == 0) {
            *out = i;
            return BW_OK;
        }
    return fail_word(&known, o, value, err);
}

/* ---- the other kinds ------------------------------------------------------
 */

static bw_status store_count(int *out, const struct option *o,
                             const char *value, bw_error *err)
{
    int number = 0;
    const size_t digits = strspn(value, "0123456789");
    bool good = digits > 0 && digits <= 9 && value[digits] == '\0';
    for (size_t i = 0; good && i < digits; i++)
        number = 10 * number + (value[i] - '0');
    if (!good || number < o->least || number > o->most)
        return bw_fail_usage(err, "%s '%s' is no whole number from %d to %d",
                             o->name, value, o->least, o->most);
    *out = number;
    return BW_OK;
}

static bw_status store_listed(word_list *out, const struct option *o,
                              const char *value, bw_error *err)
{
    if (out->count == (size_t)o->most)
        return bw_fail_usage(err, "%s is given more than %d times", o->name,
                             o->most);
    out->text[out->count++] = value;
    return BW_OK;
}

static bw_status store_kelvin(double *out, const struct option *o,
                              const char *value, bw_error *err)
{
    double kelvin = 0.0;
    const char *end = value;
    bool good = bw_number_read(value, &kelvin, &end);
    if (good && *end == ' ')
        end++;
    if (!good || strcmp(end, "K") != 0 || kelvin < 1e-4 || kelvin > 1.0)
        return bw_fail_usage(err,
                             "%s '%s' is no difference of temperature from "
                             "0.0001 K to 1 K, written as \"0.01 K\"",
                             o->name, value);
    *out = kelvin;
    return BW_OK;
}

static bw_status store_place(bw_record_options *out, const struct option *o,
                             const char *value, bw_error *err)
{
    const char *end = value;
    bool good = bw_number_read(value, &out->latitude, &end) && *end == ',' &&
                bw_number_read(end + 1, &out->longitude, &end) &&
                *end == '\0' && out->latitude >= -90.0 &&
                out->latitude <= 90.0 && out->longitude >= -180.0 &&
                out->longitude <= 180.0;
    if (!good)
        return bw_fail_usage(err,
                             "%s '%s' is no LATITUDE,LONGITUDE in degrees, "
                             "north and east positive, as in 52.1,5.18",
                             o->name, value);
    out->has_position = true;
    return BW_OK;
}

static bw_status store_clock(bw_record_options *out, const struct option *o,
                             const char *value, bw_error *err)
{
    const char *end = value;
    double hours = 0.0;
    bool good = bw_number_read(value, &hours, &end) && *end == '\0' &&
                hours >= -14.0 && hours <= 14.0 &&
                (double)(long)(4.0 * hours) == 4.0 * hours;
    if (!good)
        return bw_fail_usage(
            err, "%s '%s' is no number of hours from -14 to 14, in quarters",
            o->name, value);
    out->has_utc_offset = true;
    out->utc_offset = hours;
    return BW_OK;
}

static bw_status store(settings *out, const struct option *o, const char *value,
                       bw_error *err)
{
    void *to = (char *)out + o->to;
    size_t word = 0;
    switch (o->kind) {
    case FLAG:
        *(bool *)to = true;
        return BW_OK;
    case FORMAT:
        BW_TRY(find_word(&word, o, value, err));
        *(output_format *)to = (output_format)word;
        return BW_OK;
    case WORD:
        BW_TRY(find_word(&word, o, value, err));
        return store_once(to, o, value, err);
    case RULES:
        if (strcmp(value, "list") != 0)
            break;
        out->list_profiles = true;
        return BW_OK;
    case COUNT:
        return store_count(to, o, value, err);
    case LIST:
        return store_listed(to, o, value, err);
    case KELVIN:
        return store_kelvin(to, o, value, err);
    case PLACE:
        return store_place(to, o, value, err);
    case CLOCK:
        return store_clock(to, o, value, err);
    case TEXT:
        break;
    }
    return store_once(to, o, value, err);
}

enum { OPTION_COUNT = sizeof options / sizeof options[0] };

static bool takes(const verb *v, const struct option *option)
{
    return (option->verbs & v->set) != 0;
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
        return bw_fail_usage(err,
                             "unknown option '%s' for %s; did you mean %s?",
                             word, v->name, near);
    return bw_fail_usage(err,
                         "unknown option '%s' for %s; see bothways %s --help",
                         word, v->name, v->name);
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
        return bw_fail_usage(err, "%s takes no value", option->name);
    if (option->argument != NULL && value == NULL) {
        if (*at + 1 >= count)
            return bw_fail_usage(err, "%s needs a value: %s %s", option->name,
                                 option->name, option->argument);
        value = arguments[++*at];
    }
    if (value != NULL && value[0] == '\0')
        return bw_fail_usage(err, "%s is empty", option->name);
    return store(out, option, value, err);
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
            return bw_fail_usage(err, "an empty word; %s takes %s",
                                 for_verb->name, for_verb->operands);
        else if (!only_operands && text[0] == '-' && text[1] != '\0')
            BW_TRY(read_option(out, for_verb, arguments, count, &at, err));
        else
            arguments[out->operand_count++] = text;
    }
    if (out->quiet && out->full)
        return bw_fail_usage(err, "--quiet prints the least and --full all "
                                  "there is; give one of them");
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
