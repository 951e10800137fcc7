/* <ground>: soil against the outer face. The temperature of undisturbed soil in
 * a depth z:
 *
 *   theta(z, t) = theta_m + e^(-z/delta) [a cos(w t - z/delta)
 *                                         + b sin(w t - z/delta)]
 *   delta = sqrt(3.15e7 lambda/(pi rho c))
 *
 * with the outdoor air's yearly mean theta_m and first harmonic a, b, from its
 * months: periodic conduction in a half-space (Carslaw and Jaeger, Conduction
 * of Heat in Solids, 2nd ed., section 2.6), delta and the three soils of ISO
 * 13370 [from memory, high confidence]. The warmth of a building in the soil
 * is not counted: real soil at a heated wall is warmer (docs/methods.md).
 *
 * Invariants: at z = 0 the mean and the first harmonic are the air's; a layer
 * said to keep water out is one that can. */

#include <math.h>

#include "beyond.h"
#include "bothways/air.h"
#include "number.h"

enum { DEPTH, SOIL, HUMIDITY, WATERPROOFING };

static const double YEAR = 3.15e7; /* s */

/* ---- the year ----------------------------------------------------------- */

/* The course of the temperature at the face. */
typedef struct course {
    bool by_column;
    double mean, cosine, sine; /* degC, K, K: of the first yearly harmonic */
    double month[BW_MONTHS];   /* degC, of the climate's column */
} course;

/* delta [m]: how deep the yearly swing falls to 1/e; clay, sand, rock. */
static double depth_of_swing(int soil)
{
    static const struct {
        double conductivity, heat_capacity; /* W/(m K), J/(m3 K) */
    } soils[] = {{1.5, 3.0e6}, {2.0, 2.0e6}, {3.5, 2.0e6}};
    return sqrt(YEAR * soils[soil].conductivity /
                (BW_PI * soils[soil].heat_capacity));
}

static course course_of(const bw_beyond *beyond, const bw_climate *climate)
{
    course y = {.by_column = true};
    double a = 0.0, b = 0.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *month = &climate->month[m];
        const double at = 2.0 * BW_PI * (m + 0.5) / BW_MONTHS;
        y.mean += month->temperature / BW_MONTHS;
        a += 2.0 * month->temperature * cos(at) / BW_MONTHS;
        b += 2.0 * month->temperature * sin(at) / BW_MONTHS;
        y.month[m] = month->ground_temperature;
        y.by_column = y.by_column && month->has_ground;
    }
    const double late = beyond->value[DEPTH] /
                        depth_of_swing((int)beyond->value[SOIL]);
    y.cosine = exp(-late) * (a * cos(late) - b * sin(late));
    y.sine = exp(-late) * (a * sin(late) + b * cos(late));
    return y;
}

/* The column's months, straight from the middle of one to that of the next. */
static double between_months(const double *month, double part)
{
    const double at = part * BW_MONTHS - 0.5 + BW_MONTHS;
    const double f = at - floor(at);
    const int m = (int)floor(at) % BW_MONTHS;
    return (1.0 - f) * month[m] + f * month[(m + 1) % BW_MONTHS];
}

static void moments(const bw_moments *of, const bw_beyond *beyond,
                    const bw_climate *climate)
{
    const course y = course_of(beyond, climate);
    for (int i = 0; i < of->count; i++) {
        const double part = bw_moment(of, i), w = 2.0 * BW_PI * part;
        bw_boundary *b = &of->at[i];
        b->theta_e = y.by_column ? between_months(y.month, part)
                                 : y.mean + y.cosine * cos(w) + y.sine * sin(w);
        b->p_e = beyond->value[HUMIDITY] * bw_saturation_pressure(b->theta_e);
    }
}

/* ---- in words ----------------------------------------------------------- */

/* As exact as it is given. */
static const char *number(bw_arena *arena, double value)
{
    return bw_arena_say(arena, "%s", BW_NUMBER_G(value, 12));
}

static const char *words(bw_arena *arena, const bw_assembly *a)
{
    static const char *const soils[] = {"clay or silt", "sand or gravel",
                                        "rock"};
    const double *value = a->beyond.value;
    const long sheet = (long)value[WATERPROOFING];
    const bool tight = sheet >= 0 && (size_t)sheet < a->layer_count;
    return bw_arena_say(
        arena,
        "soil (%s), %s m below its surface, its air at %s %% relative "
        "humidity, %s%s",
        soils[(int)value[SOIL]], number(arena, value[DEPTH]),
        number(arena, 100.0 * value[HUMIDITY]),
        tight ? "its water kept out by "
              : "nothing stated to keep its water out",
        tight ? a->layer[sheet].id : "");
}

/* ---- what a file may say ------------------------------------------------ */

/* Why it does not keep liquid water out; NULL: it does. A sheet or a coat of sd
 * 20 m or more (estimate: what such sheets have) that neither draws water nor
 * rots does; paint, paper, foam, wool and masonry do not, be they ever so dry.
 */
static const char *leaks(const bw_layer *layer)
{
    static const double TIGHT = 20.0; /* m */
    const bw_material *m = layer->material;
    const bool draws = m->water_absorption.known
                           ? m->water_absorption.value > 0.0
                           : m->absorbs_condensate;
    const double sd = m->sd.known ? m->sd.value
                                  : m->mu_dry.value * layer->thickness;
    if (layer->kind == BW_LAYER_CAVITY)
        return "it is air";
    if (draws)
        return "it takes it up";
    if (layer->kind != BW_LAYER_MEMBRANE)
        return "it is no sheet and no coat, and has joints";
    if (m->hygroscopic || m->mould_class < BW_MOULD_MEDIUM_RESISTANT)
        return "it is of paper or felt";
    return !(m->sd.known || m->mu_dry.known) || sd < TIGHT
               ? "its sd is below 20 m"
               : NULL;
}

static void review(bw_beyond_review *out, bw_arena *arena, const bw_assembly *a)
{
    const long sheet = (long)a->beyond.value[WATERPROOFING];
    const char *why = sheet >= 0 ? leaks(&a->layer[sheet]) : NULL;
    if (a->element == BW_ELEMENT_ROOF) {
        out->refusal = "is for walls and floors; a roof under soil is not "
                       "computed";
    } else if (why != NULL) {
        out->at = "waterproofing";
        out->refusal = bw_arena_say(arena,
                                    "is %s, which does not keep water out: "
                                    "%s; name a sheet or a coat that does",
                                    a->layer[sheet].name, why);
    }
    if (sheet < 0)
        out->warning[out->warning_count++] = bw_arena_say(
            arena,
            "waterproofing= is not given: nothing is said to keep the "
            "soil's water out, and its way in is not computed, so the "
            "%s is not said to hold; name the layer that is tight",
            bw_element_text(a->element));
    out->warning[out->warning_count++] =
        "against soil: no rain, sun, wind or sky; water that rises "
        "from below or enters at edges and joints of the waterproofing "
        "is not computed";
}

/* ---- what nobody computes ----------------------------------------------- */

/* Liquid water from the soil, its air in cavities: the element must not hold
 * unless they are kept out. */
/* The coldest that the room is said to be [degC]. */
static double coldest(const bw_indoors *room)
{
    double least = room->temperature;
    if (room->kind == BW_INDOOR_EN15026)
        return 20.0; /* never below */
    for (int m = 0; room->kind == BW_INDOOR_MONTHS && m < BW_MONTHS; m++)
        least = m == 0 ? room->month_temperature[m]
                       : fmin(least, room->month_temperature[m]);
    return least;
}

static const char *why_unjudged(bw_arena *arena, const bw_assembly *a, size_t n)
{
    if (coldest(&a->indoors) < 0.0 && n-- == 0)
        return bw_arena_say(arena,
                            "a room at %s degC freezes the soil in time: "
                            "whether it heaves is not computed",
                            number(arena, coldest(&a->indoors)));
    if (a->beyond.value[WATERPROOFING] < 0.0)
        return n == 0 ? "nothing is stated to keep the soil's water out "
                        "(waterproofing=), and its way in is not computed"
                      : NULL;
    for (size_t i = 0; i < a->layer_count; i++)
        if (a->layer[i].ventilation != BW_VENT_NONE && n-- == 0)
            return bw_arena_say(arena,
                                "%s is ventilated: with what air, in the "
                                "soil, is not known",
                                a->layer[i].name);
    return NULL;
}

/* The contact of a face with soil is as good as none: ISO 6946 and ISO 13370
 * count no outer surface resistance there [from memory, high confidence]; the
 * hourly equations want one above 0. */
const bw_beyond_kind bw_beyond_ground = {
    .element = "ground",
    .against = "soil",
    .attribute = {[DEPTH] = {.name = "depth",
                             .required = true,
                             .dimension = BW_DIM_LENGTH,
                             .high = 50.0},
                  [SOIL] = {.name = "soil",
                            .sort = BW_BEYOND_WORD,
                            .required = true,
                            .words = {"clay", "sand", "rock"},
                            .example = "sand"},
                  [HUMIDITY] = {.name = "relative-humidity",
                                .otherwise = 1.0,
                                .dimension = BW_DIM_FRACTION,
                                .low = 0.5,
                                .high = 1.0},
                  [WATERPROOFING] = {.name = "waterproofing",
                                     .sort = BW_BEYOND_TIGHT_LAYER}},
    .resistance = 0.0,
    .contact = 1e-4,
    .contact_sd = 1e-4,
    .colder = ", in soil taken as undisturbed, which is warmer at a heated "
              "building",
    .moments = moments,
    .words = words,
    .review = review,
    .unjudged = "soil-water",
    .why_unjudged = why_unjudged};
