#include "made_wall.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "common.h"

/* 0..below-1; 0 when the bytes have run out. */
unsigned fuzz_choose(choices *c, unsigned below)
{
    return c->at < c->size ? c->data[c->at++] % below : 0;
}

double fuzz_between(choices *c, double low, double high)
{
    unsigned coarse = fuzz_choose(c, 256), fine = fuzz_choose(c, 256);
    return low + (high - low) * (coarse * 256 + fine) / 65535.0;
}

void fuzz_add(text *t, const char *format, ...)
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
    size_t count = bw_library_count(library), at = fuzz_choose(c, 256) % count;
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
    fuzz_add(t, "<layer id=\"l%zu\" material=\"%s\" thickness=\"%.1f mm\"", i,
             pick(c, false)->id, fuzz_between(c, 2, 400));
    if (fuzz_choose(c, 8) == 0)
        fuzz_add(t, " mu=\"%.4f\"", pow(10, fuzz_between(c, 0.01, 5)));
    if (fuzz_choose(c, 8) == 0)
        fuzz_add(t, " lambda=\"%.4f W/(m.K)\"",
                 pow(10, fuzz_between(c, -1.6, 0.5)));
    if (fuzz_choose(c, 8) == 0)
        fuzz_add(t, " initial-relative-humidity=\"%u %%\"",
                 30 + fuzz_choose(c, 69));
    fuzz_add(t, ">");
    if (fuzz_choose(c, 6) == 0)
        fuzz_add(t,
                 "<framing material=\"softwood\" width=\"45 mm\" "
                 "spacing=\"%u mm\"/>",
                 300 + fuzz_choose(c, 10) * 50);
    if (fuzz_choose(c, 8) == 0)
        fuzz_add(t, "<uncertain property=\"mu\" low=\"%u\" high=\"%u\"/>",
                 1 + fuzz_choose(c, 20), 30 + fuzz_choose(c, 200));
    if (fuzz_choose(c, 12) == 0)
        fuzz_add(t, "<alternative material=\"softwood\" thickness=\"9 mm\"/>");
    fuzz_add(t, "</layer>");
}

static void add_membrane(text *t, choices *c, size_t i)
{
    if (fuzz_choose(c, 3) > 0)
        fuzz_add(t, "<membrane id=\"l%zu\" material=\"%s\"/>", i,
                 pick(c, true)->id);
    else
        fuzz_add(t, "<membrane id=\"l%zu\" name=\"foil\" sd=\"%.6f m\"/>", i,
                 pow(10, fuzz_between(c, -2, 3)));
}

/* One text a layer, outside to inside; the innermost is solid, so that
 * something is left behind a ventilated cavity. */
size_t fuzz_make_layers(text layer[FUZZ_LAYERS], choices *c, size_t most)
{
    size_t count = 1 + fuzz_choose(c, (unsigned)most - 1);
    bool cavity_above = true; /* none at the very outside */
    for (size_t i = 0; i < count; i++) {
        unsigned kind = i + 1 == count ? 7 : fuzz_choose(c, 8);
        layer[i].used = 0;
        if (kind == 0 && !cavity_above) {
            static const char *const how[] = {"none", "slight", "well"};
            fuzz_add(
                &layer[i],
                "<cavity id=\"l%zu\" thickness=\"%u mm\" ventilation=\"%s\"/>",
                i, 10 + fuzz_choose(c, 100), how[fuzz_choose(c, 3)]);
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
    double theta = fuzz_between(c, 10, 28);
    switch (fuzz_choose(c, 5)) {
    case 0:
        fuzz_add(t,
                 "<indoors temperature=\"%.2f degC\" humidity-class=\"%u\"/>\n",
                 theta, 1 + fuzz_choose(c, 5));
        break;
    case 1:
        fuzz_add(
            t,
            "<indoors temperature=\"%.2f degC\" relative-humidity=\"%.2f %%\""
            " margin=\"no\"/>\n",
            theta, fuzz_between(c, 20, 95));
        break;
    case 2:
        fuzz_add(t, "<indoors conditions=\"en15026-normal\"/>\n");
        break;
    case 3:
        fuzz_add(t, "<indoors conditions=\"en15026-high\"/>\n");
        break;
    default:
        fuzz_add(t, "<indoors>\n");
        for (int m = 1; m <= 12; m++)
            fuzz_add(t,
                     "<month number=\"%d\" temperature=\"%.2f degC\" "
                     "relative-humidity=\"%.2f %%\"/>\n",
                     m, fuzz_between(c, 5, 30), fuzz_between(c, 20, 95));
        fuzz_add(t, "</indoors>\n");
    }
}

void fuzz_add_around(text *t, choices *c)
{
    static const char *const faces[] = {"N", "NE", "E", "SE",
                                        "S", "SW", "W", "NW"};
    static const char *const rain[] = {"none", "sheltered", "moderate",
                                       "severe"};
    static const char *const element[] = {"wall", "roof", "floor"};
    static const char *const soil[] = {"clay", "sand", "rock"};
    const unsigned kind = fuzz_choose(c, 3), falls = fuzz_choose(c, 4);
    const bool buried = kind != 1 && fuzz_choose(c, 4) == 3;
    fuzz_add(t,
             "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"made\" "
             "element=\"%s\">\n<outdoors climate=\"climate.csv\"",
             element[kind]);
    if (!buried)
        fuzz_add(t, " driving-rain=\"%s\"", rain[falls]);
    if (!buried && fuzz_choose(c, 2) == 0)
        fuzz_add(t, " faces=\"%s\" tilt=\"90 deg\" solar-absorptance=\"%.2f\"",
                 faces[fuzz_choose(c, 8)], fuzz_between(c, 0, 1));
    fuzz_add(t, "/>\n");
    if (buried)
        fuzz_add(t, "<ground depth=\"%.2f m\" soil=\"%s\"/>\n",
                 fuzz_between(c, 0, 6), soil[fuzz_choose(c, 3)]);
    add_room(t, c);
}

void fuzz_add_leaks(text *t, choices *c)
{
    if (fuzz_choose(c, 2) == 0)
        fuzz_add(t,
                 "<air-leakage q50=\"%.3f m3/(m2.h)\" connected-height=\"%.1f "
                 "m\"/>\n",
                 fuzz_between(c, 0, 12), fuzz_between(c, 1, 12));
    if (fuzz_choose(c, 2) == 0)
        fuzz_add(t,
                 "<drying-test wetting=\"%.3f kg/m2\" start-month=\"%u\"/>\n",
                 fuzz_between(c, 0.05, 3), 1 + fuzz_choose(c, 12));
}

void fuzz_add_closing_up(text *t, choices *c, size_t layers)
{
    static const char *const stage[] = {"membrane-exposed", "finished"};
    /* members that are layers are what a simulation may start from */
    const char member = fuzz_choose(c, 4) == 0 ? 'l' : 'm';
    fuzz_add(t, "<closing-up>\n");
    for (unsigned i = fuzz_choose(c, 3); i > 0; i--)
        fuzz_add(t,
                 "<air-test date=\"2031-0%u-1%u\" stage=\"%s\" q50=\"%.2f "
                 "m3/(m2.h)\" uncertainty=\"%u %%\" leak-search=\"%s\" "
                 "by=\"A\" ref=\"p%u\"/>\n",
                 1 + fuzz_choose(c, 9), fuzz_choose(c, 10),
                 stage[fuzz_choose(c, 2)], fuzz_between(c, 0.05, 9),
                 fuzz_choose(c, 30), fuzz_choose(c, 2) == 0 ? "yes" : "no", i);
    const unsigned limits = fuzz_choose(c, 4);
    for (unsigned i = 0; i < limits; i++)
        fuzz_add(t,
                 "<moisture-limit member=\"%c%u\" part=\"l%u\" "
                 "allowed=\"%u %%\" critical=\"%u %%\"/>\n",
                 member, i, fuzz_choose(c, (unsigned)layers),
                 10 + fuzz_choose(c, 10), 21 + fuzz_choose(c, 9));
    for (unsigned i = fuzz_choose(c, 6); i > 0; i--)
        fuzz_add(t,
                 "<reading date=\"2031-0%u-2%u\" member=\"%c%u\" "
                 "place=\"p%u\" moisture=\"%.1f %%\" depth=\"%u mm\" "
                 "by=\"B\"%s/>\n",
                 1 + fuzz_choose(c, 9), fuzz_choose(c, 9), member,
                 fuzz_choose(c, 4), fuzz_choose(c, 3), fuzz_between(c, 7, 60),
                 1 + fuzz_choose(c, 40),
                 fuzz_choose(c, 2) == 0 ? " meter=\"pins\" species=\"spruce\" "
                                          "wood-temperature=\"12 degC\""
                                        : "");
    for (unsigned i = fuzz_choose(c, 3); i > 0; i--)
        fuzz_add(t,
                 "<evidence kind=\"photograph\" of=\"joints\" part=\"l%u\" "
                 "date=\"2031-03-01\" ref=\"r%u\"/>\n",
                 fuzz_choose(c, (unsigned)layers), i);
    if (fuzz_choose(c, 3) == 0)
        fuzz_add(t, "<wet-spell from=\"2031-02-01\" to=\"2031-02-1%u\"/>\n",
                 fuzz_choose(c, 10));
    fuzz_add(t, "</closing-up>\n");
}

/* Of the innermost layer, which is solid: some thicknesses of a material or
 * two, as drawn among them. */
void fuzz_add_choices(text *t, choices *c, size_t layers)
{
    const bool priced = fuzz_choose(c, 2) == 0;
    const char *price = priced ? " price-by-volume=\"90 /m3\" "
                                 "price-source=\"made\""
                               : "";
    fuzz_add(t, "<choices%s>\n<choice layer=\"l%zu\">\n",
             priced ? " currency=\"EUR\"" : "", layers - 1);
    for (unsigned i = 1 + fuzz_choose(c, 2); i > 0; i--)
        fuzz_add(t,
                 "<option name=\"o%u\"%s><layer material=\"%s\" "
                 "thickness=\"%.1f mm\"/></option>\n",
                 i, price, pick(c, false)->id, fuzz_between(c, 5, 200));
    fuzz_add(t, "<option%s/>\n</choice>\n", price);
    if (fuzz_choose(c, 4) == 0)
        fuzz_add(t, "<limits u=\"%.2f W/(m2.K)\"/>\n", fuzz_between(c, 0.1, 3));
    if (fuzz_choose(c, 3) == 0)
        fuzz_add(t, "<weights failing=\"%u\" u=\"1\" thickness=\"2\"/>\n",
                 1 + fuzz_choose(c, 9));
    fuzz_add(t, "</choices>\n");
}

void fuzz_add_list(text *out, const text layer[FUZZ_LAYERS], size_t count,
                   bool outwards)
{
    fuzz_add(out, "<layers listed=\"%s\">\n",
             outwards ? "inside-to-outside" : "outside-to-inside");
    for (size_t i = 0; i < count; i++)
        fuzz_add(out, "%s\n", layer[outwards ? count - 1 - i : i].at);
    fuzz_add(out, "</layers>\n");
}

static const double SLICE = 0.5235987755982988; /* a month in radians */

bw_climate *fuzz_make_climate(choices *c)
{
    text t = {.used = 0};
    double mean = fuzz_between(c, -12, 28), swing = fuzz_between(c, 0, 18);
    const bool sides = fuzz_choose(c, 2) == 0;
    fuzz_add(&t,
             "%smonth,temperature_C,relative_humidity_pct,"
             "global_horizontal_W_m2,%s\n",
             sides ? ""
                   : "# latitude: 50\n# longitude: 10\n# altitude: 100 m\n",
             sides ? "vertical_N_W_m2,vertical_S_W_m2" : "wind_m_s,rain_mm");
    for (int m = 0; m < BW_MONTHS; m++)
        fuzz_add(&t, "%d,%.3f,%.2f,%.0f,%u,%u\n", m + 1,
                 mean - swing * cos(m * SLICE) + fuzz_between(c, -3, 3),
                 fuzz_between(c, 30, 100),
                 (1.2 - cos(m * SLICE)) * fuzz_between(c, 10, 110),
                 fuzz_choose(c, sides ? 80 : 13), fuzz_choose(c, 200));
    bw_climate *climate = NULL;
    bw_error err = {0};
    bw_status status = bw_climate_read(&climate, fuzz_file(t.at, t.used), &err);
    if (status != BW_OK)
        fprintf(stderr, "%ld: %s\n%s", err.line, err.message, t.at);
    FUZZ_REQUIRE(status == BW_OK);
    return climate;
}
