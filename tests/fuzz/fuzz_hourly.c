/* An hourly climate file, ours or the public TMY one. A year has 8760 rows,
 * too many to mutate: with '+' as first byte, the rows below the header row
 * ("time...") are repeated with the right times until the year is full. The
 * first round keeps its times as they are. */

#include <string.h>

#include "climate_checks.h"
#include "fuzz.h"

enum { MOST_ROWS = 64, MOST_BYTES = 4096, HOURS = 8760 };

static const int FIRST_DAY[] = {0,   31,  59,  90,  120, 151, 181,
                                212, 243, 273, 304, 334, 365};

static void put_time(char *out, size_t size, int hour, bool public_form)
{
    int m = 0, day = hour / 24;
    while (day >= FIRST_DAY[m + 1])
        m++;
    snprintf(out, size,
             public_form ? "2017%02d%02d:%02d00" : "2017-%02d-%02dT%02d:00Z",
             m + 1, day - FIRST_DAY[m] + 1, hour % 24);
}

/* Splits the head (with the header row) from the rows; the number of rows. */
static int split(char *text, char *row[MOST_ROWS], size_t *head)
{
    char *header = text;
    while (header != NULL && strncmp(header, "time", 4) != 0) {
        header = strchr(header, '\n');
        if (header != NULL)
            header++;
    }
    char *end = header != NULL ? strchr(header, '\n') : NULL;
    if (end == NULL)
        return 0;
    *head = (size_t)(end + 1 - text);
    int count = 0;
    for (char *c = strtok(end + 1, "\n"); c != NULL && count < MOST_ROWS;
         c = strtok(NULL, "\n"))
        row[count++] = c;
    return count;
}

static void run_year(const uint8_t *data, size_t size)
{
    static char text[MOST_BYTES + 1];
    static char year[MOST_BYTES + HOURS * 256];
    if (size > MOST_BYTES)
        return;
    memcpy(text, data, size);
    text[size] = '\0';
    char *row[MOST_ROWS];
    size_t used = 0;
    int rows = split(text, row, &used);
    if (rows == 0)
        return;
    memcpy(year, text, used);
    bool public_form = strstr(text, "time(UTC)") != NULL;
    for (int hour = 0; hour < HOURS; hour++) {
        const char *line = row[hour % rows];
        char at[32] = "";
        if (hour >= rows) {
            put_time(at, sizeof at, hour, public_form);
            line += strcspn(line, ",");
        }
        used += (size_t)snprintf(year + used, 256, "%s%.200s\n", at, line);
    }
    fuzz_check_climate(year, used);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size > 0 && data[0] == '+')
        run_year(data + 1, size - 1);
    else
        fuzz_check_climate(data, size);
    return 0;
}
