/* Sentences with numbers in them, in an arena. Numbers go by number.h, so that
 * no locale changes them; one that is not finite is "-". */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "arena.h"
#include "number.h"

enum { DIGITS = 96, MOST_SENTENCES = 512 /* bytes; longer ones twice */ };

static void fixed(char text[DIGITS], double value, int decimals)
{
    if (!isfinite(value))
        snprintf(text, DIGITS, "-");
    else if (fabs(value) >= 1e9)
        bw_number_g(text, DIGITS, value, 4);
    else
        bw_number_f(text, DIGITS, value, decimals);
}

static void significant(char text[DIGITS], double value, int digits)
{
    if (!isfinite(value) || value == 0.0) {
        snprintf(text, DIGITS, "%s", isfinite(value) ? "0" : "-");
        return;
    }
    int before = (int)floor(log10(fabs(value))) + 1;
    if (before < -4 || before > 9) {
        bw_number_g(text, DIGITS, value, digits);
        return;
    }
    int decimals = digits - before;
    bw_number_f(text, DIGITS, value, decimals > 0 ? decimals : 0);
    if (strchr(text, '.') != NULL) {
        size_t end = strlen(text);
        while (text[end - 1] == '0')
            end--;
        text[text[end - 1] == '.' ? end - 1 : end] = '\0';
    }
}

/* "*" or digits. */
static int number_at(const char **format, va_list *args)
{
    int number = 0;
    if (**format == '*') {
        (*format)++;
        return va_arg(*args, int);
    }
    for (; **format >= '0' && **format <= '9'; (*format)++)
        number = 10 * number + **format - '0';
    return number;
}

/* Of a text that `most` may cut (-1: none does), and that may then be open. */
static size_t text_length(const char *text, int most)
{
    const char *end = most < 0 ? NULL : memchr(text, '\0', (size_t)most);
    if (most >= 0)
        return end != NULL ? (size_t)(end - text) : (size_t)most;
    return strlen(text);
}

/* What stands for the conversion behind a '%', and its length: its argument as
 * text, in `digits` or where it is. */
static const char *converted(char digits[DIGITS], size_t *length,
                             const char **format, va_list *args)
{
    int most = -1;
    const char *text = digits;
    if (**format == '.') {
        (*format)++;
        most = number_at(format, args);
    }
    switch (*(*format)++) {
    case 's':
        text = va_arg(*args, const char *);
        text = text != NULL ? text : "(null)";
        *length = text_length(text, most);
        return text;
    case 'f':
        fixed(digits, va_arg(*args, double), most);
        break;
    case 'g':
        significant(digits, va_arg(*args, double), most);
        break;
    case 'c':
        snprintf(digits, DIGITS, "%c", va_arg(*args, int));
        break;
    case 'd':
        snprintf(digits, DIGITS, "%d", va_arg(*args, int));
        break;
    case 'l': /* d */
        (*format)++;
        snprintf(digits, DIGITS, "%ld", va_arg(*args, long));
        break;
    case 'z': /* u */
        (*format)++;
        snprintf(digits, DIGITS, "%zu", va_arg(*args, size_t));
        break;
    default:
        text = "%";
        break;
    }
    *length = strlen(text);
    return text;
}

/* Writes what of it fits into `out`, of `room` bytes; returns the length. */
static size_t compose(char *out, size_t room, const char *format, va_list *args)
{
    size_t used = 0;
    while (*format != '\0') {
        char digits[DIGITS];
        const char *text = format;
        size_t length = strcspn(format, "%");
        format += length;
        if (length == 0) {
            format++;
            text = converted(digits, &length, &format, args);
        }
        if (used < room)
            memcpy(out + used, text,
                   length < room - used ? length : room - used);
        used += length;
    }
    return used;
}

char *bw_arena_compose(bw_arena *arena, const char *format, va_list args)
{
    char most[MOST_SENTENCES];
    va_list first, second;
    va_copy(first, args);
    va_copy(second, args);
    const size_t length = compose(most, sizeof most, format, &first);
    char *text = bw_arena_get(arena, length + 1, 1);
    if (text != NULL && length <= sizeof most)
        memcpy(text, most, length);
    else if (text != NULL)
        compose(text, length, format, &second);
    if (text != NULL)
        text[length] = '\0';
    va_end(first);
    va_end(second);
    return text;
}

char *bw_arena_printf(bw_arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = bw_arena_compose(arena, format, args);
    va_end(args);
    return text;
}

const char *bw_arena_say(bw_arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *text = bw_arena_compose(arena, format, args);
    va_end(args);
    return text != NULL ? text : "";
}

const char *bw_arena_not_within(bw_arena *arena, double time, const char *unit)
{
    const double a_year = strcmp(unit, "weeks") == 0 ? 52.0 : 12.0;
    return time >= 1.5 * a_year
               ? bw_arena_say(arena, "not in %.0f years", time / a_year)
               : bw_arena_say(arena, "not in %.0f %s", time, unit);
}
