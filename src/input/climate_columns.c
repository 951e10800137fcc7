/* Columns of a climate table: which are there, and the value of one. */

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#include "climate_reader.h"
#include "fail.h"
#include "number.h"
#include "text.h"

static const char *name_of(const bw_climate_reader *reader,
                           const bw_column_kind *kind)
{
    return reader->public_tmy && kind->public_name != NULL ? kind->public_name
                                                           : kind->name;
}

static int find(const bw_columns *columns, const bw_climate_reader *reader,
                const char *name)
{
    for (int k = 0; k < columns->kinds; k++) {
        const bw_column_kind *kind = &columns->kind[k];
        if (reader->public_tmy ? kind->public_name != NULL &&
                                     strcmp(name, kind->public_name) == 0
                               : strcasecmp(name, kind->name) == 0)
            return k;
    }
    return -1;
}

static bw_status unknown(const bw_columns *columns, bw_climate_reader *reader,
                         const char *name)
{
    if (reader->public_tmy)
        return bw_climate_add_note(reader->climate, reader->err, BW_NOTE_INFO,
                                   reader->csv.line,
                                   "column '%.60s' is not used", name);
    if (name[0] == '\0')
        return BW_REFUSE(reader, reader->csv.line,
                         "a column without a name (a comma too many?)");
    const char *names[BW_MOST_KINDS];
    for (int k = 0; k < columns->kinds; k++)
        names[k] = columns->kind[k].name;
    const char *near = bw_text_nearest(name, names, (size_t)columns->kinds);
    if (near != NULL)
        return BW_REFUSE(reader, reader->csv.line,
                         "unknown column '%.60s'; did you mean '%s'?", name,
                         near);
    char list[512] = "";
    size_t used = 0;
    for (int k = 0; k < columns->kinds && used < sizeof list; k++)
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s",
                                 k > 0 ? ", " : "", names[k]);
    return BW_REFUSE(reader, reader->csv.line,
                     "unknown column '%.60s'; known are %s", name, list);
}

bw_status bw_columns_match(bw_columns *columns, bw_climate_reader *reader,
                           const char *key_name)
{
    columns->key = -1;
    columns->fields = reader->csv.count;
    columns->header_line = reader->csv.line;
    for (int k = 0; k < columns->kinds; k++)
        columns->at[k] = -1;
    for (size_t i = 0; i < columns->fields; i++) {
        const char *name = reader->csv.field[i];
        bool key = strcasecmp(name, key_name) == 0;
        int kind = key ? -1 : find(columns, reader, name);
        if (!key && kind < 0) {
            BW_TRY(unknown(columns, reader, name));
            continue;
        }
        int *at = key ? &columns->key : &columns->at[kind];
        if (*at >= 0)
            return BW_REFUSE(reader, reader->csv.line,
                             "column '%s' appears twice", name);
        *at = (int)i;
    }
    return BW_OK;
}

bool bw_columns_has(const bw_columns *columns, int kind)
{
    return columns->at[kind] >= 0;
}

bw_status bw_columns_row(const bw_columns *columns, bw_climate_reader *reader)
{
    bool fits = bw_csv_split(&reader->csv);
    if (fits && reader->csv.count == columns->fields)
        return BW_OK;
    if (!fits)
        return BW_REFUSE(reader, reader->csv.line,
                         "more than %d values in this row", BW_CSV_FIELDS);
    return BW_REFUSE(
        reader, reader->csv.line,
        "this row has %zu value%s where the header names %zu columns; was the "
        "file cut off, or is a decimal marked by a comma?",
        reader->csv.count, reader->csv.count == 1 ? "" : "s", columns->fields);
}

static const char *hint(const bw_column_kind *kind, double value)
{
    if (strcmp(kind->unit, "degC") == 0 && value > 200.0 && value < 340.0)
        return " (is it in kelvin?)";
    if (strcmp(kind->name, "pressure_Pa") == 0 && value > 500.0 &&
        value < 1100.0)
        return " (is it in hPa?)";
    return "";
}

bw_status bw_columns_value(double *out, bw_columns *columns, int kind,
                           bw_climate_reader *reader)
{
    const bw_column_kind *is = &columns->kind[kind];
    const char *text = reader->csv.field[columns->at[kind]], *end = text;
    long line = reader->csv.line;
    if (*text == '\0') {
        *out = (double)NAN;
        return BW_OK;
    }
    double value = 0.0;
    if (!bw_number_read(text, &value, &end) || *end != '\0')
        return BW_REFUSE(reader, line,
                         "%s: '%.60s' is not a number (%s to %s "
                         "%s)",
                         name_of(reader, is), text, BW_G(is->low),
                         BW_G(is->high), is->unit);
    if (!(value >= is->clamp_low && value <= is->clamp_high))
        return BW_REFUSE(reader, line, "%s: %.60s lies outside %s to %s %s%s",
                         name_of(reader, is), text, BW_G(is->low),
                         BW_G(is->high), is->unit, hint(is, value));
    *out = fmin(fmax(value, is->low), is->high) + 0.0;
    if (value < is->low || value > is->high) {
        if (columns->clamped[kind]++ == 0)
            columns->first_clamped[kind] = line;
    }
    return BW_OK;
}

bw_status bw_columns_finish(const bw_columns *columns,
                            bw_climate_reader *reader)
{
    for (int k = 0; k < columns->kinds; k++) {
        const bw_column_kind *kind = &columns->kind[k];
        if (columns->clamped[k] == 0)
            continue;
        BW_TRY(bw_climate_add_note(
            reader->climate, reader->err, BW_NOTE_INFO,
            columns->first_clamped[k],
            "%s: %zu value%s slightly outside %s to %s %s taken as the limit "
            "(the first in this line)",
            name_of(reader, kind), columns->clamped[k],
            columns->clamped[k] == 1 ? "" : "s", BW_G(kind->low),
            BW_G(kind->high), kind->unit));
    }
    return BW_OK;
}
