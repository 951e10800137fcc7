#include "units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/constants.h"
#include "number.h"
#include "text.h"

/* Every unit is a line of one table: value = number * factor + offset, or
 * factor / number for a permeance, which is the reciprocal of a resistance.
 * Vapour quantities become sd or mu by delta_0 = 2.0e-10 kg/(m s Pa)
 * (ISO 13788), so 1 MN.s/g = 0.20 m.
 *
 * A unit is read with its points and brackets or without: W/(m.K), W/(mK),
 * W/mK.
 *
 * Invariant: the first unit of a dimension is the one its example uses. */

/* US perm: grain/(h ft2 inHg), mercury at 0 degC (ASTM's 5.721 35e-11).
 * Metric perm: g/(24 h m2 mmHg), mercury at 0 degC. [kg/(m2 s Pa)] */
#define US_PERM 5.72135e-11
#define METRIC_PERM (1e-3 / (86400.0 * 133.322387415))

typedef struct unit {
    bw_dimension dimension;
    const char *text;
    double factor, offset;
    bool reciprocal;
    bool hidden; /* another spelling, not listed among the allowed */
} unit;

static const unit units[] = {
    {BW_DIM_LENGTH, "mm", 1e-3, 0, false, false},
    {BW_DIM_LENGTH, "cm", 1e-2, 0, false, false},
    {BW_DIM_LENGTH, "m", 1.0, 0, false, false},
    {BW_DIM_LENGTH, "um", 1e-6, 0, false, false},
    {BW_DIM_SD, "m", 1.0, 0, false, false},
    {BW_DIM_SD, "cm", 1e-2, 0, false, false},
    {BW_DIM_SD, "mm", 1e-3, 0, false, false},
    {BW_DIM_VAPOUR_RESISTANCE, "MN.s/g", 1e9 * BW_DELTA_0, 0, false, false},
    {BW_DIM_VAPOUR_RESISTANCE, "GN.s/kg", 1e9 * BW_DELTA_0, 0, false, false},
    {BW_DIM_VAPOUR_RESISTANCE, "GPa.s.m2/kg", 1e9 * BW_DELTA_0, 0, false,
     false},
    {BW_DIM_VAPOUR_RESISTANCE, "GPa.m2.s/kg", 1e9 * BW_DELTA_0, 0, false, true},
    {BW_DIM_VAPOUR_RESISTANCE, "m2.s.Pa/kg", BW_DELTA_0, 0, false, false},
    {BW_DIM_VAPOUR_RESISTIVITY, "MN.s/(g.m)", 1e9 * BW_DELTA_0, 0, false,
     false},
    {BW_DIM_VAPOUR_RESISTIVITY, "GN.s/(kg.m)", 1e9 * BW_DELTA_0, 0, false,
     false},
    {BW_DIM_PERMEANCE, "usperm", BW_DELTA_0 / US_PERM, 0, true, false},
    {BW_DIM_PERMEANCE, "metricperm", BW_DELTA_0 / METRIC_PERM, 0, true, false},
    {BW_DIM_PERMEANCE, "ng/(Pa.s.m2)", BW_DELTA_0 / 1e-12, 0, true, false},
    {BW_DIM_PERMEANCE, "ng/(s.m2.Pa)", BW_DELTA_0 / 1e-12, 0, true, true},
    {BW_DIM_PERMEANCE, "kg/(m2.s.Pa)", BW_DELTA_0, 0, true, false},
    {BW_DIM_TEMPERATURE, "degC", 1, 0, false, false},
    {BW_DIM_TEMPERATURE, "K", 1, -BW_KELVIN, false, false},
    {BW_DIM_TEMPERATURE, "degF", 5.0 / 9.0, -160.0 / 9.0, false, false},
    {BW_DIM_FRACTION, "%", 1e-2, 0, false, false},
    {BW_DIM_FRACTION, "%.RH", 1e-2, 0, false, true},
    {BW_DIM_RATIO, "%", 1e-2, 0, false, false},
    {BW_DIM_RATIO, "kg/kg", 1, 0, false, false},
    {BW_DIM_POROSITY, "m3/m3", 1, 0, false, false},
    {BW_DIM_POROSITY, "%", 1e-2, 0, false, false},
    {BW_DIM_CONDUCTIVITY, "W/(m.K)", 1, 0, false, false},
    {BW_DIM_CONDUCTIVITY, "mW/(m.K)", 1e-3, 0, false, false},
    {BW_DIM_CONDUCTIVITY, "W/(K.m)", 1, 0, false, true},
    {BW_DIM_CONDUCTIVITY, "W.m-1.K-1", 1, 0, false, true},
    {BW_DIM_THERMAL_RESISTANCE, "m2.K/W", 1, 0, false, false},
    {BW_DIM_THERMAL_RESISTANCE, "K.m2/W", 1, 0, false, true},
    {BW_DIM_THERMAL_RESISTANCE, "W/(m2.K)", 1, 0, true, true},
    {BW_DIM_DENSITY, "kg/m3", 1, 0, false, false},
    {BW_DIM_SPECIFIC_HEAT, "J/(kg.K)", 1, 0, false, false},
    {BW_DIM_SPECIFIC_HEAT, "kJ/(kg.K)", 1e3, 0, false, false},
    {BW_DIM_AREAL_MASS, "kg/m2", 1, 0, false, false},
    {BW_DIM_AREAL_MASS, "g/m2", 1e-3, 0, false, false},
    {BW_DIM_WATER_ABSORPTION, "kg/(m2.s0.5)", 1, 0, false, false},
    {BW_DIM_WATER_ABSORPTION, "kg/(m2.h0.5)", 1.0 / 60.0, 0, false, false},
    {BW_DIM_WATER_ABSORPTION, "kg/(m2.s1/2)", 1, 0, false, true},
    {BW_DIM_WATER_ABSORPTION, "kg/(m2.h1/2)", 1.0 / 60.0, 0, false, true},
    {BW_DIM_PRESSURE, "Pa", 1, 0, false, false},
    {BW_DIM_PRESSURE, "hPa", 1e2, 0, false, false},
    {BW_DIM_PRESSURE, "kPa", 1e3, 0, false, false},
    {BW_DIM_RATE, "1/h", 1.0 / 3600.0, 0, false, false},
    {BW_DIM_RATE, "h-1", 1.0 / 3600.0, 0, false, false},
    {BW_DIM_RATE, "1/s", 1, 0, false, false},
    {BW_DIM_RATE, "s-1", 1, 0, false, true},
    {BW_DIM_RATE, "/h", 1.0 / 3600.0, 0, false, true},
    {BW_DIM_AIR_PERMEABILITY, "m3/(m2.h)", 1.0 / 3600.0, 0, false, false},
    {BW_DIM_AIR_PERMEABILITY, "m3/(h.m2)", 1.0 / 3600.0, 0, false, true},
    {BW_DIM_AIR_PERMEABILITY, "m3/(m2.s)", 1, 0, false, false},
    {BW_DIM_AIR_PERMEABILITY, "l/(m2.s)", 1e-3, 0, false, false},
    {BW_DIM_AIR_PERMEABILITY, "l/(s.m2)", 1e-3, 0, false, true},
    {BW_DIM_AIR_FLOW, "m3/(m.h)", 1.0 / 3600.0, 0, false, false},
    {BW_DIM_AIR_FLOW, "m3/(h.m)", 1.0 / 3600.0, 0, false, true},
    {BW_DIM_AIR_FLOW, "m3/(m.s)", 1, 0, false, false},
    {BW_DIM_AIR_FLOW, "l/(m.s)", 1e-3, 0, false, false},
    {BW_DIM_AIR_FLOW, "l/(s.m)", 1e-3, 0, false, true},
    {BW_DIM_OPENING, "mm2/m", 1e-6, 0, false, false},
    {BW_DIM_OPENING, "cm2/m", 1e-4, 0, false, false},
    {BW_DIM_OPENING, "m2/m", 1, 0, false, false},
    {BW_DIM_ANGLE, "deg", 1, 0, false, false},
    {BW_DIM_TRANSMITTANCE, "W/(m2.K)", 1, 0, false, false},
    {BW_DIM_TRANSMITTANCE, "W/(K.m2)", 1, 0, false, true},
    {BW_DIM_PER_AREA, "/m2", 1, 0, false, false},
    {BW_DIM_PER_AREA, "1/m2", 1, 0, false, true},
    {BW_DIM_PER_VOLUME, "/m3", 1, 0, false, false},
    {BW_DIM_PER_VOLUME, "1/m3", 1, 0, false, true},
};
enum { UNIT_COUNT = sizeof units / sizeof units[0], LONGEST_UNIT = 48 };

/* Told what they are in a unit that is read (inch and foot are exact by the
 * agreement of 1959). */
static const struct {
    bw_dimension dimension;
    const char *text;
    double factor;
    const char *in;
} foreign[] = {
    {BW_DIM_LENGTH, "in", 25.4, "mm"},     {BW_DIM_LENGTH, "inch", 25.4, "mm"},
    {BW_DIM_LENGTH, "inches", 25.4, "mm"}, {BW_DIM_LENGTH, "\"", 25.4, "mm"},
    {BW_DIM_LENGTH, "ft", 304.8, "mm"},    {BW_DIM_LENGTH, "feet", 304.8, "mm"},
    {BW_DIM_LENGTH, "mil", 0.0254, "mm"},
};

static const struct {
    const char *name, *example, *hint;
} dimensions[BW_DIM_COUNT] = {
    [BW_DIM_NUMBER] = {"a pure number", "0.6", ""},
    [BW_DIM_MU] = {"a vapour resistance factor", "50",
                   " (a length belongs in sd=, a resistance such as "
                   "\"5 MN.s/g\" in vapour-resistance=)"},
    [BW_DIM_LENGTH] = {"a length", "12 mm", ""},
    [BW_DIM_SD] = {"an sd-value", "0.2 m",
                   " (a resistance factor without unit belongs in mu=, a "
                   "resistance such as \"5 MN.s/g\" in vapour-resistance=)"},
    [BW_DIM_VAPOUR_RESISTANCE] = {"a vapour resistance", "5 MN.s/g",
                                  " (an sd-value in m belongs in sd=)"},
    [BW_DIM_VAPOUR_RESISTIVITY] = {"a vapour resistivity", "50 MN.s/(g.m)",
                                   " (a resistance factor belongs in mu=)"},
    [BW_DIM_PERMEANCE] = {"a vapour permeance", "10 usperm", ""},
    [BW_DIM_TEMPERATURE] = {"a temperature", "20 degC", ""},
    [BW_DIM_FRACTION] = {"a percentage", "55 %",
                         " (0.55 without a sign may mean 55 % or 0.55 %)"},
    [BW_DIM_RATIO] = {"a moisture content", "18 %",
                      " (by mass: a content in m3/m3 is divided by the density "
                      "and multiplied by 1000 kg/m3)"},
    [BW_DIM_POROSITY] = {"a porosity", "0.7 m3/m3", ""},
    [BW_DIM_CONDUCTIVITY] = {"a conductivity", "0.035 W/(m.K)", ""},
    [BW_DIM_THERMAL_RESISTANCE] = {"a thermal resistance", "0.05 m2.K/W", ""},
    [BW_DIM_DENSITY] = {"a density", "800 kg/m3", ""},
    [BW_DIM_SPECIFIC_HEAT] = {"a specific heat", "1600 J/(kg.K)", ""},
    [BW_DIM_AREAL_MASS] = {"an amount per area", "1.0 kg/m2", ""},
    [BW_DIM_WATER_ABSORPTION] = {"a water absorption coefficient",
                                 "0.1 kg/(m2.s0.5)", ""},
    [BW_DIM_PRESSURE] = {"a pressure", "1200 Pa", ""},
    [BW_DIM_RATE] = {"an air change rate", "10 1/h", ""},
    [BW_DIM_AIR_PERMEABILITY] = {"an air permeability", "3 m3/(m2.h)", ""},
    [BW_DIM_AIR_FLOW] = {"an air flow per length", "0.1 m3/(m.h)", ""},
    [BW_DIM_OPENING] = {"an opening per length", "1000 mm2/m", ""},
    [BW_DIM_ANGLE] = {"an angle", "225 deg", ""},
    [BW_DIM_TRANSMITTANCE] = {"a transmittance", "0.2 W/(m2.K)", ""},
    [BW_DIM_PER_AREA] = {"a price per area", "12.50 /m2",
                         " (the currency is named by <choices> currency=)"},
    [BW_DIM_PER_VOLUME] = {"a price per volume", "180 /m3",
                           " (the currency is named by <choices> currency=)"},
};

/* Collects a sentence; cuts what does not fit. */
typedef struct sentence {
    char *at;
    size_t room;
} sentence;

static void say(sentence *out, const char *text)
{
    for (; *text != '\0' && out->room > 1; out->room--)
        *out->at++ = *text++;
    if (out->room > 0)
        *out->at = '\0';
}

/* Brings a unit to the table's spelling. False: too long. */
static bool spell(char out[LONGEST_UNIT], const char *text)
{
    static const struct {
        const char *from, *to;
    } swap[] = {
        {"\xc2\xb2", "2"},
        {"\xc2\xb3", "3"},
        {"\xc2\xb7", "."},
        {"\xc2\xb0", "deg"},
        {"\xc2\xb5", "u"},
        {"\xce\xbc", "u"},
        {"*", "."},
        {"^", ""},
        {"\xe2\x8b\x85", "."},
        {"\xc2\xb9", "1"},
        {"\xe2\x81\xbb", "-"},
        {"\xe2\x84\x83", "degC"},
    };
    enum { SWAPS = sizeof swap / sizeof swap[0] };
    size_t n = 0, length = strlen(text);
    while (length > 0 && bw_text_blank(text[length - 1]))
        length--;
    for (size_t i = 0; i < length;) {
        const char *to = NULL;
        size_t taken = 1;
        /* plain letters stay; the rest starts beyond ASCII or is a sign */
        bool plain = (unsigned char)text[i] < 0x80 && text[i] != '*' &&
                     text[i] != '^';
        for (size_t k = 0; k < SWAPS && to == NULL && !plain; k++) {
            if (strncmp(text + i, swap[k].from, strlen(swap[k].from)) != 0)
                continue;
            to = swap[k].to;
            taken = strlen(swap[k].from);
        }
        char one[2] = {bw_text_blank(text[i]) ? '.' : text[i], '\0'};
        if (to == NULL)
            to = one;
        if (n + strlen(to) >= LONGEST_UNIT)
            return false;
        memcpy(out + n, to, strlen(to));
        n += strlen(to);
        i += taken;
    }
    out[n] = '\0';
    return true;
}

/* The unit as the table has it, or without points, without brackets. A point
 * that the table has not is another unit: "m m" is not mm. */
static bool is_spelt(const char *text, const char *full)
{
    const bool bare = strpbrk(text, "()") == NULL;
    for (; *full != '\0'; full++) {
        bool bracket = *full == '(' || *full == ')';
        if (*text == *full)
            text++;
        else if (*full != '.' && !(bracket && bare))
            return false;
    }
    return *text == '\0';
}

static const unit *find(bw_dimension dimension, const char *text)
{
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (units[i].dimension == dimension && is_spelt(text, units[i].text))
            return &units[i];
    return NULL;
}

static void say_allowed(sentence *out, bw_dimension dimension)
{
    say(out, "; write ");
    say(out, dimensions[dimension].name);
    say(out, " such as \"");
    say(out, dimensions[dimension].example);
    say(out, "\"");
    bool first = true;
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (units[i].dimension != dimension || units[i].hidden)
            continue;
        say(out, first ? " (units: " : ", ");
        say(out, units[i].text);
        first = false;
    }
    say(out, first ? "" : ")");
    say(out, dimensions[dimension].hint);
}

static void say_near_miss(sentence *out, bw_dimension dimension,
                          const char *text)
{
    const char *near[UNIT_COUNT];
    size_t count = 0;
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (units[i].dimension == dimension && !units[i].hidden)
            near[count++] = units[i].text;
    const char *best = bw_text_nearest(text, near, count);
    if (best == NULL || strlen(text) < 2)
        return;
    say(out, " (did you mean ");
    say(out, best);
    say(out, "?)");
}

/* "5.5 in is 139.7 mm"; false: it is no unit that is known. */
static bool say_foreign(sentence *out, bw_dimension dimension, double number,
                        const char *text)
{
    for (size_t i = 0; i < sizeof foreign / sizeof foreign[0]; i++) {
        if (foreign[i].dimension != dimension ||
            strcmp(foreign[i].text, text) != 0)
            continue;
        say(out, "is in a unit that is not read; it is ");
        say(out, BW_NUMBER_G(number * foreign[i].factor, 6));
        say(out, " ");
        say(out, foreign[i].in);
        say_allowed(out, dimension);
        return true;
    }
    return false;
}

static void refuse_unit(sentence *out, bw_dimension dimension, const char *text)
{
    if (strcmp(text, "perm") == 0 || strcmp(text, "perms") == 0 ||
        strncmp(text, "perm-in", 7) == 0 || strncmp(text, "perm.in", 7) == 0) {
        say(out, "\"perm\" alone means three things: write usperm for "
                 "grain/(h.ft2.inHg) (1 usperm = 57.2 ng/(Pa.s.m2)) or "
                 "metricperm for g/(24h.m2.mmHg) (1 metricperm = 86.8 "
                 "ng/(Pa.s.m2)), as permeance=; a perm-inch is a "
                 "permeability: divide it by the thickness in inches to get "
                 "usperm");
        return;
    }
    const unit *other = NULL;
    for (size_t i = 0; i < UNIT_COUNT && other == NULL; i++)
        if (!units[i].hidden && is_spelt(text, units[i].text))
            other = &units[i];
    bool none = dimension == BW_DIM_NUMBER || dimension == BW_DIM_MU;
    say(out, "\"");
    say(out, text);
    if (other != NULL && !none) {
        say(out, "\" is the unit of ");
        say(out, dimensions[other->dimension].name);
        say(out, ", not of ");
        say(out, dimensions[dimension].name);
    } else {
        say(out, none ? "\" cannot stand there: no unit belongs here"
                      : "\" is not a unit known here");
        say_near_miss(out, dimension, text);
    }
    say_allowed(out, dimension);
}

static void refuse_number(sentence *out, bw_dimension dimension,
                          const char *text)
{
    const char *start = text + (*text == '-' || *text == '+');
    const char *first = start + (*start == '.');
    if (*text == '\0')
        say(out, "is empty");
    else if (*first >= '0' && *first <= '9')
        say(out, "is too large a number");
    else
        say(out, "does not start with a number");
    say_allowed(out, dimension);
}

static double convert(const unit *u, double number)
{
    return u->reciprocal ? u->factor / number : number * u->factor + u->offset;
}

static void say_in_unit(sentence *out, const unit *u, double value)
{
    double number = u->reciprocal ? u->factor / value
                                  : (value - u->offset) / u->factor;
    say(out, BW_NUMBER_G(number, 6));
    say(out, *u->text != '\0' ? " " : "");
    say(out, u->text);
}

static bool check_range(sentence *out, bw_dimension dimension, const unit *u,
                        double value, double low, double high)
{
    /* "0.05 mm" must meet a bound of 5e-5 m whatever the last bit. */
    const double slack = 1e-12;
    if (value >= low - slack * fabs(low) && value <= high + slack * fabs(high))
        return true;
    double first = u->reciprocal ? high : low;
    double last = u->reciprocal ? low : high;
    say(out, "lies outside what is possible here, ");
    say_in_unit(out, u, first);
    say(out, " to ");
    if (u->reciprocal && last <= 0.0)
        say(out, "any");
    else
        say_in_unit(out, u, last);
    /* A factor below one is most often a length in metres. */
    if (dimension == BW_DIM_MU)
        say(out, dimensions[dimension].hint);
    return false;
}

bool bw_quantity_read(double *value, bw_dimension dimension, double low,
                      double high, const char *text, char *why, size_t why_size)
{
    static const unit pure = {BW_DIM_NUMBER, "", 1, 0, false, false};
    sentence out = {why, why_size};
    say(&out, "");
    while (bw_text_blank(*text))
        text++;
    double number;
    const char *rest;
    if (!bw_number_read(text, &number, &rest)) {
        refuse_number(&out, dimension, text);
        return false;
    }
    if (*rest == ',' || *rest == 'x' || *rest == 'X') {
        say(&out, *rest == ',' ? "has a comma in the number: use a point as "
                                 "the decimal mark and no other separator"
                               : "is not a decimal number");
        say_allowed(&out, dimension);
        return false;
    }
    while (bw_text_blank(*rest))
        rest++;
    char spelt[LONGEST_UNIT];
    if (!spell(spelt, rest))
        snprintf(spelt, sizeof spelt, "%.20s...", rest);
    bool none = dimension == BW_DIM_NUMBER || dimension == BW_DIM_MU;
    const unit *u = none && *spelt == '\0' ? &pure : find(dimension, spelt);
    if (u == NULL && *spelt == '\0') {
        say(&out, "has no unit");
        say_allowed(&out, dimension);
        return false;
    }
    if (u == NULL) {
        if (!say_foreign(&out, dimension, number, spelt))
            refuse_unit(&out, dimension, spelt);
        return false;
    }
    double result = convert(u, number);
    if (!isfinite(result) || (u->reciprocal && number <= 0.0)) {
        say(&out, "is not possible: the number must be above zero and not "
                  "beyond all measure");
        return false;
    }
    if (!check_range(&out, dimension, u, result, low, high))
        return false;
    *value = result;
    return true;
}
