/* Moments, places and facts as forms write them. */

#include <ctype.h>
#include <math.h>
#include <string.h>
#include <strings.h>

#include "fail.h"
#include "record_form.h"
#include "record_make.h"

int bw_moment_number(const char *text)
{
    size_t length = strlen(text);
    return length > 0 && length < 9 ? bw_number_digits(text, length) : -1;
}

/* "2017-01-31T05:00Z", "2017-01-31 05:00:00". */
bool bw_moment_iso(bw_moment *out, const char *text)
{
    if (strlen(text) < 16 || text[4] != '-' || text[7] != '-' ||
        (text[10] != 'T' && text[10] != ' ') || text[13] != ':')
        return false;
    *out = (bw_moment){.year = bw_number_digits(text, 4),
                       .month = bw_number_digits(text + 5, 2),
                       .day = bw_number_digits(text + 8, 2),
                       .hour = bw_number_digits(text + 11, 2),
                       .minute = bw_number_digits(text + 14, 2)};
    const char *end = text + 16;
    if (*end == ':' && bw_number_digits(end + 1, 2) >= 0)
        end += 3;
    if (*end == 'Z')
        end++;
    return *end == '\0' && out->year >= 0;
}

bool bw_form_fact(double *out, const char *line, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = line; *at != '\0'; at++) {
        if (strncasecmp(at, word, length) != 0)
            continue;
        const char *end = at + length;
        while (*end != '\0' && *end != '-' && !isdigit((unsigned char)*end))
            end++;
        return bw_number_read(end, out, &end);
    }
    return false;
}

bw_status bw_form_place(bw_record_reader *reader, double latitude,
                        double longitude)
{
    if (!(fabs(latitude) <= 90.0 && fabs(longitude) <= 180.0))
        return BW_REFUSE(reader, reader->csv.line,
                         "latitude %s, longitude %s: -90 to 90 and -180 to 180 "
                         "degrees are allowed",
                         BW_G(latitude), BW_G(longitude));
    reader->record->has_position = true;
    reader->record->latitude = latitude;
    reader->record->longitude = longitude;
    return BW_OK;
}

bw_status bw_record_origin(bw_record_reader *reader, const bw_climate *climate)
{
    const char *const told[][2] = {{"its place", climate->place},
                                   {"its source", climate->source},
                                   {"its licence", climate->licence},
                                   {"its remark", climate->remark}};
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
        if (told[i][1][0] != '\0')
            BW_TRY(bw_record_note(reader->record, reader->err, "%s: %s",
                                  told[i][0], told[i][1]));
    return BW_OK;
}

bw_status bw_form_zone(bw_record_reader *reader, double hours)
{
    if (!(fabs(hours) <= 14.0 && 4.0 * hours == floor(4.0 * hours)))
        return BW_REFUSE(reader, reader->csv.line,
                         "an offset from UTC of %s h: quarters of an hour from "
                         "-14 to 14 are allowed",
                         BW_G(hours));
    reader->has_zone = true;
    reader->zone = hours;
    return BW_OK;
}

bool bw_moment_plain(bw_moment *out, char *const key[BW_KEYS])
{
    *out = (bw_moment){.month = bw_moment_number(key[0]),
                       .day = bw_moment_number(key[1]),
                       .hour = bw_moment_number(key[2])};
    return true;
}
