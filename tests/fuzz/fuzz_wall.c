/* Valid walls by construction: the bytes choose materials, thicknesses,
 * cavities, framing, rooms and weather. Every such wall must be accepted,
 * assessed and reported, the invariants must hold, listing it the other way
 * round must not change a byte of the tables, and the wall seen from the other
 * side must condense as much. */

#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "bothways/bothways.h"
#include "common.h"
#include "fuzz.h"
#include "invariants.h"

typedef struct choices {
    const uint8_t *data;
    size_t size, at;
} choices;

/* 0..below-1; 0 when the bytes have run out. */
static unsigned choose(choices *c, unsigned below)
{
    return c->at < c->size ? c->data[c->at++] % below : 0;
}

static double between(choices *c, double low, double high)
{
    unsigned coarse = choose(c, 256), fine = choose(c, 256);
    return low + (high - low) * (coarse * 256 + fine) / 65535.0;
}

typedef struct text {
    char at[16384];
    size_t used;
} text;

static void add(text *t, const char *format, ...) BW_PRINTF(2, 3);
static void add(text *t, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    int n = vsnprintf(t->at + t->used, sizeof t->at - t->used, format, args);
    va_end(args);
    FUZZ_REQUIRE(n >= 0 && (size_t)n < sizeof t->at - t->used);
    t->used += (size_t)n;
}

/* ---- the wall --------------------------------------------------------------
 */

static bool is_membrane(const bw_material *m)
{
    return strcmp(m->group, "membrane") == 0 ||
           strcmp(m->group, "coating") == 0;
}

/* A material that can stand in a layer of any thickness, or as a membrane. */
static const bw_material *pick(choices *c, bool membrane)
{
    const bw_library *library = fuzz_library();
    size_t count = bw_library_count(library), at = choose(c, 256) % count;
    for (size_t i = 0; i < count; i++) {
        const bw_material *m = bw_library_at(library, (at + i) % count);
        bool fits = is_membrane(m)
                        ? membrane && (m->sd.known || m->sd_curve.count > 0)
                        : !membrane && m->thermal_conductivity.known &&
                              (m->mu_dry.known || m->mu_wet.known);
        if (fits)
            return m;
    }
    return NULL;
}

static void add_solid(text *t, choices *c, size_t i)
{
    add(t, "<layer id=\"l%zu\" material=\"%s\" thickness=\"%.1f mm\"", i,
        pick(c, false)->id, between(c, 2, 400));
    if (choose(c, 8) == 0)
        add(t, " mu=\"%.4f\"", pow(10, between(c, 0.01, 5)));
    if (choose(c, 8) == 0)
        add(t, " lambda=\"%.4f W/(m.K)\"", pow(10, between(c, -1.6, 0.5)));
    if (choose(c, 6) == 0)
        add(t,
            "><framing material=\"softwood\" width=\"45 mm\" spacing=\"%u "
            "mm\"/></layer>",
            300 + choose(c, 10) * 50);
    else
        add(t, "/>");
}

static void add_membrane(text *t, choices *c, size_t i)
{
    if (choose(c, 3) > 0)
        add(t, "<membrane id=\"l%zu\" material=\"%s\"/>", i, pick(c, true)->id);
    else
        add(t, "<membrane id=\"l%zu\" name=\"foil\" sd=\"%.6f m\"/>", i,
            pow(10, between(c, -2, 3)));
}

enum { MOST_LAYERS = 12 };

/* One text a layer, outside to inside; the innermost is solid, so that
 * something is left behind a ventilated cavity. */
static size_t make_layers(text layer[MOST_LAYERS], choices *c)
{
    size_t count = 1 + choose(c, MOST_LAYERS - 1);
    bool cavity_above = true; /* none at the very outside */
    for (size_t i = 0; i < count; i++) {
        unsigned kind = i + 1 == count ? 7 : choose(c, 8);
        layer[i].used = 0;
        if (kind == 0 && !cavity_above) {
            static const char *const how[] = {"none", "slight", "well"};
            add(&layer[i],
                "<cavity id=\"l%zu\" thickness=\"%u mm\" ventilation=\"%s\"/>",
                i, 10 + choose(c, 100), how[choose(c, 3)]);
            cavity_above = true;
        } else {
            cavity_above = false;
            if (kind <= 2)
                add_membrane(&layer[i], c, i);
            else
                add_solid(&layer[i], c, i);
        }
    }
    return count;
}

static void add_room(text *t, choices *c)
{
    double theta = between(c, 10, 28);
    switch (choose(c, 5)) {
    case 0:
        add(t, "<indoors temperature=\"%.2f degC\" humidity-class=\"%u\"/>\n",
            theta, 1 + choose(c, 5));
        break;
    case 1:
        add(t,
            "<indoors temperature=\"%.2f degC\" relative-humidity=\"%.2f %%\""
            " margin=\"no\"/>\n",
            theta, between(c, 20, 95));
        break;
    case 2:
        add(t, "<indoors conditions=\"en15026-normal\"/>\n");
        break;
    case 3:
        add(t, "<indoors conditions=\"en15026-high\"/>\n");
        break;
    default:
        add(t, "<indoors>\n");
        for (int m = 1; m <= 12; m++)
            add(t,
                "<month number=\"%d\" temperature=\"%.2f degC\" "
                "relative-humidity=\"%.2f %%\"/>\n",
                m, between(c, 5, 30), between(c, 20, 95));
        add(t, "</indoors>\n");
    }
}

static void add_around(text *t, choices *c)
{
    static const char *const faces[] = {"N", "NE", "E", "SE",
                                        "S", "SW", "W", "NW"};
    static const char *const rain[] = {"none", "sheltered", "moderate",
                                       "severe"};
    static const char *const element[] = {"wall", "roof", "floor"};
    add(t,
        "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"made\" "
        "element=\"%s\">\n<outdoors climate=\"climate.csv\" "
        "driving-rain=\"%s\"",
        element[choose(c, 3)], rain[choose(c, 4)]);
    if (choose(c, 2) == 0)
        add(t, " faces=\"%s\" tilt=\"90 deg\" solar-absorptance=\"%.2f\"",
            faces[choose(c, 8)], between(c, 0, 1));
    add(t, "/>\n");
    add_room(t, c);
    if (choose(c, 2) == 0)
        add(t,
            "<air-leakage q50=\"%.3f m3/(m2.h)\" connected-height=\"%.1f "
            "m\"/>\n",
            between(c, 0, 12), between(c, 1, 12));
    if (choose(c, 2) == 0)
        add(t, "<drying-test wetting=\"%.3f kg/m2\" start-month=\"%u\"/>\n",
            between(c, 0.05, 3), 1 + choose(c, 12));
}

static void add_list(text *out, const text *around,
                     const text layer[MOST_LAYERS], size_t count, bool outwards)
{
    add(out, "%s<layers listed=\"%s\">\n", around->at,
        outwards ? "inside-to-outside" : "outside-to-inside");
    for (size_t i = 0; i < count; i++)
        add(out, "%s\n", layer[outwards ? count - 1 - i : i].at);
    add(out, "</layers>\n</assembly>\n");
}

static bw_climate *make_climate(choices *c)
{
    text t = {.used = 0};
    double mean = between(c, -12, 28), swing = between(c, 0, 18);
    add(&t, "month,temperature_C,relative_humidity_pct,global_horizontal_W_m2,"
            "vertical_N_W_m2,vertical_S_W_m2\n");
    for (int m = 0; m < BW_MONTHS; m++)
        add(&t, "%d,%.3f,%.2f,%u,%u,%u\n", m + 1,
            mean - swing * cos(m * 0.5235987755982988) + between(c, -3, 3),
            between(c, 30, 100), choose(c, 250), choose(c, 80), choose(c, 200));
    bw_climate *climate = NULL;
    bw_error err = {0};
    bw_status status = bw_climate_read(&climate, fuzz_file(t.at, t.used), &err);
    if (status != BW_OK)
        fprintf(stderr, "%ld: %s\n%s", err.line, err.message, t.at);
    FUZZ_REQUIRE(status == BW_OK);
    return climate;
}

/* ---- what is checked -------------------------------------------------------
 */

static bw_assembly *read_wall(const text *t)
{
    bw_assembly *assembly = NULL;
    bw_error err = {0};
    bw_status status = bw_assembly_read(&assembly, fuzz_file(t->at, t->used),
                                        fuzz_library(), &err);
    if (status != BW_OK)
        fprintf(stderr, "%ld: %s\n%s", err.line, err.message, t->at);
    FUZZ_REQUIRE(status == BW_OK);
    return assembly;
}

static bw_assessment *assess(const bw_assembly *assembly,
                             const bw_climate *climate)
{
    bw_assessment_options options = {.no_transient = true, .no_advice = true};
    bw_assessment *assessment = NULL;
    bw_error err = {0};
    bw_status status = bw_assess(&assessment, assembly, climate, &options,
                                 &err);
    if (status != BW_OK)
        fprintf(stderr, "%s\n", err.message);
    FUZZ_REQUIRE(status == BW_OK);
    return assessment;
}

typedef struct bytes {
    char *at;
    size_t used, room;
} bytes;

static bool take(void *payload, const char *data, size_t length)
{
    bytes *b = payload;
    if (b->room - b->used < length) {
        b->room = 2 * b->room + length;
        b->at = realloc(b->at, b->room);
        FUZZ_REQUIRE(b->at != NULL);
    }
    memcpy(b->at + b->used, data, length);
    b->used += length;
    return true;
}

static void check_same_tables(const bw_assessment *a, const bw_assessment *b)
{
    static const bw_table tables[] = {BW_TABLE_VERDICT, BW_TABLE_LAYERS,
                                      BW_TABLE_MONTHLY, BW_TABLE_SURFACE,
                                      BW_TABLE_PERIOD};
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        bytes x = {NULL, 0, 0}, y = {NULL, 0, 0};
        bw_error err = {0};
        const bw_results first = {.wall_count = 1, .wall = &a};
        const bw_results other = {.wall_count = 1, .wall = &b};
        FUZZ_REQUIRE(bw_report_table(&first, tables[i], take, &x, &err) ==
                     BW_OK);
        FUZZ_REQUIRE(bw_report_table(&other, tables[i], take, &y, &err) ==
                     BW_OK);
        FUZZ_REQUIRE(x.used == y.used && memcmp(x.at, y.at, x.used) == 0);
        free(x.at);
        free(y.at);
    }
}

static void check_mirror(const bw_section_assessment *s)
{
    size_t n = s->section->slab_count;
    bw_slab slab[64];
    FUZZ_REQUIRE(n <= 64);
    bw_boundary mirrored[BW_MONTHS];
    for (size_t k = 0; k < n; k++) {
        slab[k] = s->section->slab[n - 1 - k];
        if (slab[k].sd_curve != NULL)
            return; /* solved by iteration: equal to its tolerance only */
    }
    bw_section section = *s->section;
    section.slab = slab;
    section.outer_resistance = s->section->inner_resistance;
    section.inner_resistance = s->section->outer_resistance;
    for (int m = 0; m < BW_MONTHS; m++)
        mirrored[m] = (bw_boundary){s->boundary[m].theta_i, s->boundary[m].p_i,
                                    s->boundary[m].theta_e, s->boundary[m].p_e};
    bw_monthly_options options = {
        .run = "mirror", .mu = BW_MU_DRY, .start_month = 9, .max_cycles = 3};
    bw_monthly_result seen[2];
    bw_error err = {0};
    FUZZ_REQUIRE(
        bw_monthly(&seen[0], s->section, s->boundary, &options, &err) == BW_OK);
    FUZZ_REQUIRE(bw_monthly(&seen[1], &section, mirrored, &options, &err) ==
                 BW_OK);
    double scale = 1e-9 * fmax(1.0, seen[0].condensed);
    FUZZ_REQUIRE(seen[0].plane_count == seen[1].plane_count);
    FUZZ_REQUIRE(fabs(seen[0].condensed - seen[1].condensed) <= scale);
    FUZZ_REQUIRE(fabs(seen[0].evaporated - seen[1].evaporated) <= scale);
    FUZZ_REQUIRE(fabs(seen[0].residual_last - seen[1].residual_last) <= scale);
    bw_monthly_free(&seen[0]);
    bw_monthly_free(&seen[1]);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static text layer[MOST_LAYERS];
    choices c = {data, size, 0};
    text around = {.used = 0}, inwards = {.used = 0}, outwards = {.used = 0};
    bw_climate *climate = make_climate(&c);
    add_around(&around, &c);
    size_t count = make_layers(layer, &c);
    add_list(&inwards, &around, layer, count, false);
    add_list(&outwards, &around, layer, count, true);

    bw_assembly *wall = read_wall(&inwards), *turned = read_wall(&outwards);
    bw_assessment *first = assess(wall, climate);
    bw_assessment *second = assess(turned, climate);
    fuzz_check_assessment(first);
    fuzz_check_reports(first);
    check_same_tables(first, second);
    for (size_t i = 0; i < first->section_count; i++)
        if (first->section[i].has_design)
            check_mirror(&first->section[i]);
    bw_assessment_free(first);
    bw_assessment_free(second);
    bw_assembly_free(wall);
    bw_assembly_free(turned);
    bw_climate_free(climate);
    return 0;
}
