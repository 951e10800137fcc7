/* One climate file of three kinds, told apart by its header row:
 * "month,...", "time,..." or the public TMY file's "time(UTC),...".
 *
 * Invariant: a climate that is handed out is complete; on any failure nothing
 * is. */

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "climate_reader.h"
#include "fail.h"
#include "file.h"

static const char FORMS[] =
    "a monthly file begins 'month,temperature_C,relative_humidity_pct', an "
    "hourly file 'time,temperature_C,relative_humidity_pct', each with more "
    "columns if it has them; the public TMY file is read as it is";

static bool has_public_header(const char *text)
{
    static const char header[] = "time(UTC),";
    for (const char *at = text; (at = strstr(at, header)) != NULL; at++)
        if (at == text || at[-1] == '\n')
            return true;
    return false;
}

static bw_status not_a_header(bw_climate_reader *reader)
{
    const char *first = reader->csv.field[0];
    if (reader->csv.count == 1 && strpbrk(first, ";\t") != NULL)
        return BW_REFUSE(reader, reader->csv.line,
                         "columns are to be separated by commas, decimals "
                         "marked by points; here stands '%.80s'",
                         first);
    if ((first[0] >= '0' && first[0] <= '9') || first[0] == '-')
        return BW_REFUSE(reader, reader->csv.line,
                         "no header row above the values: %s", FORMS);
    return BW_REFUSE(reader, reader->csv.line,
                     "this is not the header row of a climate file "
                     "('%.80s'): %s",
                     first, FORMS);
}

static bool heads(const bw_csv *csv, const char *name)
{
    for (size_t i = 0; i < csv->count; i++)
        if (strcasecmp(csv->field[i], name) == 0)
            return true;
    return false;
}

static bw_status read_own(bw_climate_reader *reader)
{
    bw_csv *csv = &reader->csv;
    while (bw_csv_next(csv)) {
        if (csv->text[0] == '\0')
            continue;
        if (csv->text[0] == '#') {
            if (csv->line > BW_HEADER_LINES)
                return BW_REFUSE(reader, csv->line,
                                 "no header row in the first %d lines: %s",
                                 BW_HEADER_LINES, FORMS);
            BW_TRY(bw_climate_comment(reader, csv->text + 1));
            continue;
        }
        BW_TRY(bw_climate_finish_header(reader));
        if (!bw_csv_split(csv))
            return BW_REFUSE(reader, csv->line,
                             "more than %d columns: this is no climate file",
                             BW_CSV_FIELDS);
        if (heads(csv, "month"))
            return bw_climate_monthly(reader);
        if (heads(csv, "time"))
            return bw_climate_hourly(reader);
        return not_a_header(reader);
    }
    return BW_REFUSE(reader, csv->line, "no header row in this file: %s",
                     FORMS);
}

static bw_status read_public(bw_climate_reader *reader)
{
    bw_csv *csv = &reader->csv;
    reader->public_tmy = true;
    while (bw_csv_next(csv)) {
        if (strncmp(csv->text, "time(UTC),", 10) != 0) {
            BW_TRY(bw_climate_preamble(reader));
            continue;
        }
        BW_TRY(bw_climate_finish_header(reader));
        if (!bw_csv_split(csv))
            return BW_REFUSE(reader, csv->line, "more than %d columns",
                             BW_CSV_FIELDS);
        return bw_climate_hourly(reader);
    }
    return BW_REFUSE(reader, csv->line, "no header row in this file");
}

static bw_status read_text(bw_climate **out, char *text, const char *name,
                           bw_error *err)
{
    bw_climate_reader reader = {.path = name, .err = err};
    reader.climate = bw_climate_new(name);
    BW_TRY_MEMORY(reader.climate != NULL, err);
    bool public_tmy = has_public_header(text);
    bw_csv_start(&reader.csv, text);
    bw_status status = public_tmy ? read_public(&reader) : read_own(&reader);
    if (status != BW_OK) {
        bw_climate_free(reader.climate);
        return status;
    }
    *out = reader.climate;
    return BW_OK;
}

bw_status bw_climate_read_text(bw_climate **out, const char *text,
                               const char *name, bw_error *err)
{
    size_t size = strlen(text) + 1;
    if (size > BW_FILE_LIMIT)
        return bw_fail(err, BW_ERR_INPUT, name, 0,
                       "this climate is longer than the %zu MiB that are read",
                       BW_FILE_LIMIT / ((size_t)1024 * 1024));
    char *copy = malloc(size); /* reading takes it to pieces */
    BW_TRY_MEMORY(copy != NULL, err);
    memcpy(copy, text, size);
    bw_status status = read_text(out, copy, name, err);
    free(copy);
    return status;
}
