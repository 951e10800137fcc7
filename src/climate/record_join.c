/* One record from several, each quantity from the first that has it.
 *
 * What belongs together stays together: temperature and humidity; wind and its
 * direction; rain and the wind that drives it. Hours meet by month, day and
 * hour (UTC), whatever their years. Longwave of one file beside the
 * temperature of another keeps its sky's emissivity: L = L' (T / T')^4.
 *
 * Invariant: no gap is left, and every choice is a note. Notes that begin
 * "source:" or "remark:" are keys of the file: reports show them. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/constants.h"
#include "climate_make.h"
#include "fail.h"
#include "number.h"
#include "record_make.h"

static const double EARTH_RADIUS = 6371.0; /* km, mean */
/* Beyond these two places are said to differ: estimates. */
static const double FAR = 100.0, HIGHER = 300.0; /* km, m */

struct joining {
    bw_record *out;
    const bw_record *const *part;
    size_t count;
    int from[BW_RECORD_COUNT]; /* part that gives it, -1: none */
    bw_error *err;
};

static bool offers(const bw_record *part, bw_quantity quantity)
{
    const bool sky = quantity == BW_RECORD_DIRECT ||
                     quantity == BW_RECORD_DIFFUSE ||
                     quantity == BW_RECORD_LONGWAVE;
    return part->value[quantity] != NULL && (sky || !part->generated);
}

/* The first part that has both; the same quantity twice asks for one. */
static int first_with(const struct joining *join, bw_quantity a, bw_quantity b)
{
    for (size_t i = 0; i < join->count; i++)
        if (offers(join->part[i], a) && offers(join->part[i], b))
            return (int)i;
    return -1;
}

static bw_status choose(struct joining *join)
{
    static const bw_quantity together[][2] = {
        {BW_RECORD_TEMPERATURE, BW_RECORD_HUMIDITY},
        {BW_RECORD_DIRECT, BW_RECORD_DIFFUSE},
    };
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        join->from[q] = first_with(join, (bw_quantity)q, (bw_quantity)q);
    for (size_t i = 0; i < sizeof together / sizeof together[0]; i++)
        join->from[together[i][0]] = join->from[together[i][1]] = first_with(
            join, together[i][0], together[i][1]);
    const int driven = first_with(join, BW_RECORD_RAIN, BW_RECORD_WIND);
    if (driven >= 0)
        join->from[BW_RECORD_RAIN] = join->from[BW_RECORD_WIND] = driven;
    const int wind = join->from[BW_RECORD_WIND];
    join->from[BW_RECORD_WIND_FROM] =
        wind >= 0 && offers(join->part[wind], BW_RECORD_WIND_FROM) ? wind : -1;
    if (join->from[BW_RECORD_TEMPERATURE] >= 0)
        return BW_OK;
    return bw_fail(join->err, BW_ERR_INPUT, join->part[0]->file, 0,
                   "no file has hours of both temperature and humidity%s",
                   join->part[0]->generated
                       ? "; check makes the hours of a monthly climate by "
                         "itself, here it can give its sun to a file of hours"
                       : "");
}

static const bw_record *giver(const struct joining *join, bw_quantity quantity)
{
    const int i = join->from[quantity];
    return i >= 0 ? join->part[i] : NULL;
}

static bw_status tell_source(struct joining *join)
{
    char list[512] = "";
    size_t used = 0;
    for (size_t i = 0; i < join->count && used < sizeof list; i++)
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s",
                                 i > 0 ? " and " : "",
                                 bw_record_name(join->part[i]));
    return bw_record_note(join->out, join->err,
                          "source: hours %s by bothways climate from %s",
                          join->count > 1 ? "joined" : "made", list);
}

/* The name of what a part gives, one after the other. */
static bw_status tell_parts(struct joining *join)
{
    for (size_t i = 0; i < join->count; i++) {
        const bw_record *part = join->part[i];
        char list[256] = "";
        size_t used = 0;
        for (int q = 0; q < BW_RECORD_COUNT; q++)
            if (join->from[q] == (int)i && used < sizeof list)
                used += (size_t)snprintf(list + used, sizeof list - used,
                                         "%s%s", used > 0 ? ", " : "",
                                         bw_quantity_name((bw_quantity)q));
        char year[32] = "";
        if (part->year != 0)
            snprintf(year, sizeof year, ", year %d", part->year);
        BW_TRY(bw_record_note(join->out, join->err, "File %zu: %s, SHA-256 %s",
                              i + 1, bw_record_name(part), part->sha256));
        BW_TRY(bw_record_note(join->out, join->err, "Read as: %s%s; %s",
                              part->form, year, part->times));
        for (size_t n = 0; n < part->note_count; n++)
            BW_TRY(bw_record_note(join->out, join->err, "In %s: %s",
                                  bw_record_name(part), part->note[n]));
        BW_TRY(bw_record_note(join->out, join->err, "Taken from it: %s",
                              used > 0 ? list : "nothing"));
    }
    return BW_OK;
}

/* ---- what does not belong together ------------------------------------- */

static double distance(const bw_record *a, const bw_record *b)
{
    const double north = sin(0.5 * BW_RADIANS * (b->latitude - a->latitude));
    const double east = sin(0.5 * BW_RADIANS * (b->longitude - a->longitude));
    const double h = north * north + cos(BW_RADIANS * a->latitude) *
                                         cos(BW_RADIANS * b->latitude) * east *
                                         east;
    return 2.0 * EARTH_RADIUS * asin(sqrt(fmin(h, 1.0)));
}

static bw_status tell_places(struct joining *join, const bw_record *a,
                             const bw_record *b)
{
    if (a != b && !(a->has_position && b->has_position))
        BW_TRY(
            bw_record_note(join->out, join->err,
                           "Not told where both %s and %s lie: that they are "
                           "near each other is assumed",
                           bw_record_name(a), bw_record_name(b)));
    if (a->has_position && b->has_position && distance(a, b) > FAR)
        BW_TRY(bw_record_note(
            join->out, join->err,
            "remark: Far apart: %s and %s lie %s km from each other.",
            bw_record_name(a), bw_record_name(b),
            BW_NUMBER_F(distance(a, b), 0)));
    if (a->has_altitude && b->has_altitude &&
        fabs(a->altitude - b->altitude) > HIGHER)
        BW_TRY(bw_record_note(
            join->out, join->err,
            "remark: Heights differ: %s lies at %s m, %s at %s m.",
            bw_record_name(a), BW_G(a->altitude), bw_record_name(b),
            BW_G(b->altitude)));
    return BW_OK;
}

static bw_status tell_mixture(struct joining *join)
{
    const bw_record *air = giver(join, BW_RECORD_TEMPERATURE);
    const bw_record *sun = giver(join, BW_RECORD_DIRECT);
    const bw_record *rain = giver(join, BW_RECORD_RAIN);
    const bw_record *wind = giver(join, BW_RECORD_WIND);
    for (size_t i = 0; i < join->count; i++)
        BW_TRY(tell_places(join, air, join->part[i]));
    if (sun != NULL && rain != NULL && sun != rain)
        BW_TRY(bw_record_note(
            join->out, join->err,
            "remark: Sun and rain are joined by month, day and hour and not of "
            "the same weather: it may rain in an hour with sun."));
    if (rain != NULL && wind != NULL && wind != rain)
        BW_TRY(
            bw_record_note(join->out, join->err,
                           "remark: Rain and wind are joined by month, day and "
                           "hour and not of "
                           "the same weather: driving rain is less certain."));
    return BW_OK;
}

/* ---- columns ----------------------------------------------------------- */

static bw_status keep_emissivity(struct joining *join, double *longwave)
{
    const bw_record *air = giver(join, BW_RECORD_TEMPERATURE);
    const bw_record *sky = giver(join, BW_RECORD_LONGWAVE);
    if (sky == air)
        return BW_OK;
    if (sky->value[BW_RECORD_TEMPERATURE] == NULL)
        return bw_record_note(join->out, join->err,
                              "Longwave as it stands in %s, which has no "
                              "temperature to set it to that of %s",
                              bw_record_name(sky), bw_record_name(air));
    double *own = NULL;
    BW_TRY(
        bw_record_fill(&own, join->out, sky, BW_RECORD_TEMPERATURE, join->err));
    const double *theta = join->out->value[BW_RECORD_TEMPERATURE];
    for (int h = 0; h < BW_HOURS; h++)
        longwave[h] *= pow((theta[h] + 273.15) / (own[h] + 273.15), 4.0);
    return bw_record_note(join->out, join->err,
                          "Longwave keeps the sky's emissivity of %s, at the "
                          "temperature of %s",
                          bw_record_name(sky), bw_record_name(air));
}

static bw_status fill_all(struct joining *join)
{
    for (int q = 0; q < BW_RECORD_COUNT; q++) {
        const bw_record *from = giver(join, (bw_quantity)q);
        if (from == NULL)
            continue;
        double *column = NULL;
        BW_TRY(bw_record_fill(&column, join->out, from, (bw_quantity)q,
                              join->err));
        if (q == BW_RECORD_LONGWAVE)
            BW_TRY(keep_emissivity(join, column));
        join->out->value[q] = column;
    }
    return BW_OK;
}

/* Typical if anything taken is: not a severe year. Where the sun is given its
 * place counts, else that of the air. */
static void describe(struct joining *join)
{
    bw_record *out = join->out;
    bool used[BW_YEAR_TYPICAL + 1] = {false};
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        if (join->from[q] >= 0)
            used[join->part[join->from[q]]->year_kind] = true;
    out->year_kind = used[BW_YEAR_TYPICAL]      ? BW_YEAR_TYPICAL
                     : used[BW_YEAR_NOT_STATED] ? BW_YEAR_NOT_STATED
                                                : BW_YEAR_MEASURED;
    const bw_record *air = join->part[join->from[BW_RECORD_TEMPERATURE]];
    const bw_record *sun = giver(join, BW_RECORD_DIRECT);
    const bw_record *place = sun != NULL && sun->has_position ? sun : air;
    out->has_position = place->has_position;
    out->latitude = place->latitude;
    out->longitude = place->longitude;
    out->has_altitude = air->has_altitude;
    out->altitude = air->altitude;
    out->year = air->year;
    out->sun_offset = sun != NULL ? sun->sun_offset : 0.5;
}

static bw_status join_all(struct joining *join)
{
    BW_TRY(choose(join));
    describe(join);
    BW_TRY(tell_source(join));
    BW_TRY(tell_parts(join));
    BW_TRY(fill_all(join));
    BW_TRY(tell_mixture(join));
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        if (join->out->value[q] == NULL)
            BW_TRY(bw_record_note(join->out, join->err, "Still missing: %s",
                                  bw_quantity_name((bw_quantity)q)));
    return BW_OK;
}

bw_status bw_record_join(bw_record **out, const bw_record *const *record,
                         size_t count, bw_error *err)
{
    bw_record *made = bw_record_new(record[0]->file);
    BW_TRY_MEMORY(made != NULL, err);
    struct joining join = {
        .out = made, .part = record, .count = count, .err = err};
    bw_status status = join_all(&join);
    if (status == BW_OK)
        *out = made;
    else
        bw_record_free(made);
    return status;
}
