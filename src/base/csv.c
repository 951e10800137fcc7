#include "csv.h"

#include <string.h>

/* Invariant: every pointer handed out points into the text given at the
 * start; a line is never longer than the text. */

static bool blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

static char *trim(char *from, char *end)
{
    while (from < end && blank(*from))
        from++;
    while (end > from && blank(end[-1]))
        end--;
    *end = '\0';
    return from;
}

void bw_csv_start(bw_csv *csv, char *text)
{
    *csv = (bw_csv){.next = *text != '\0' ? text : NULL};
}

bool bw_csv_next(bw_csv *csv)
{
    csv->count = 0;
    if (csv->next == NULL)
        return false;
    char *start = csv->next;
    char *end = strchr(start, '\n');
    if (end == NULL) {
        end = start + strlen(start);
        csv->next = NULL;
    } else {
        csv->next = end[1] != '\0' ? end + 1 : NULL;
    }
    csv->line++;
    csv->text = trim(start, end);
    return true;
}

static char *unquote(char *field)
{
    size_t length = strlen(field);
    if (length >= 2 && field[0] == '"' && field[length - 1] == '"')
        return trim(field + 1, field + length - 1);
    return field;
}

bool bw_csv_split_at(char *line, char separator, char **field, size_t most,
                     size_t *count)
{
    *count = 0;
    char *start = line;
    for (bool more = true; more;) {
        while (separator == ' ' && blank(*start))
            start++;
        char *end = start;
        bool quoted = false;
        while (*end != '\0' && (quoted || *end != separator)) {
            if (*end == '"' && separator != ' ')
                quoted = !quoted;
            end++;
        }
        more = *end == separator;
        if (*count == most)
            return false;
        field[(*count)++] = unquote(trim(start, end));
        start = end + 1;
    }
    return true;
}

bool bw_csv_split(bw_csv *csv)
{
    return bw_csv_split_at(csv->text, ',', csv->field, BW_CSV_FIELDS,
                           &csv->count);
}

char bw_csv_separator(const char *header)
{
    return strchr(header, ';') != NULL    ? ';'
           : strchr(header, '\t') != NULL ? '\t'
                                          : ',';
}
