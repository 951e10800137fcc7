/* Random walls and roofs through the hourly method: none may end without an
 * answer. Not a test of the suite: hours of it can be had.
 *
 *     cmake --build build --target answer_all
 *     build/tests/answer_all . ../shared/data 2000 1
 *
 * SOURCE has materials/ and assemblies/climates, DATA the climates of others
 * (skipped aloud where absent). Wall i of a seed is the same whatever the
 * number of walls; `answer_all SOURCE DATA 1 SEED i` runs wall i alone and
 * prints it. Exit status 1 if a wall had no answer. */

#define _XOPEN_SOURCE 700

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/bothways.h"
#include "random_wall.h"
#include "suite.h"

enum { HOURS = 8760, CLIMATES = 32, LAYERS = 9, TEXT = 8192 };

typedef struct world {
    const bw_library *library;
    bw_climate *climate[CLIMATES];
    size_t count;
    char path[64]; /* the wall under way */
} world;

typedef struct tally {
    long answers, refused, failures, years;
} tally;

static bw_climate *with_hours(bw_climate *c)
{
    bw_climate *out = NULL;
    bw_error err;
    if (c->hour_count == HOURS)
        return c;
    if (bw_climate_generate(&out, c, &err) != BW_OK) {
        fprintf(stderr, "%s\n", err.message);
        exit(2);
    }
    bw_climate_free(c);
    return out;
}

static void add_climate(world *w, const char *folder, const char *name)
{
    char path[512];
    bw_climate *c = NULL;
    bw_error err;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    if (access(path, R_OK) != 0) {
        printf("skipped, not there: %s\n", path);
    } else if (bw_climate_read(&c, path, &err) != BW_OK) {
        fprintf(stderr, "%s: %s\n", path, err.message);
        exit(2);
    } else {
        w->climate[w->count++] = with_hours(c);
    }
}

/* A station's year of temperature, humidity, rain and wind in knots, with the
 * radiation and the place of `sun`: time,temp,rhum,rain,msl,wdsp,wddir. */
static void add_station(world *w, const char *folder, const char *name,
                        const bw_climate *sun)
{
    static bw_climate_hour hour[2][HOURS];
    static bw_climate joined[2];
    static size_t used;
    char path[512], line[256];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *f = fopen(path, "r");
    if (f == NULL || sun == NULL || used == 2) {
        printf("skipped, not there: %s\n", path);
        if (f != NULL)
            fclose(f);
        return;
    }
    bw_climate_hour *h = hour[used];
    size_t n = 0;
    while (n < HOURS && fgets(line, sizeof line, f) != NULL) {
        double t, rh, rain, msl, knots, from;
        if (sscanf(line, "%*[^,],%lf,%lf,%lf,%lf,%lf,%lf", &t, &rh, &rain, &msl,
                   &knots, &from) != 6)
            continue;
        h[n] = sun->hour[n];
        h[n].temperature = t;
        h[n].vapour_pressure = bw_vapour_pressure(t, rh / 100, BW_OVER_WATER);
        h[n].rain = rain;
        h[n].wind = knots * 0.514444;
        h[n].wind_from = from;
        n++;
    }
    fclose(f);
    for (size_t i = n; i < HOURS; i++)
        h[i] = h[i - 1];
    joined[used] = *sun;
    joined[used].file = "a wet coast, joined";
    joined[used].hour = h;
    joined[used].columns.rain = joined[used].columns.wind =
        joined[used].columns.wind_from = true;
    w->climate[w->count++] = &joined[used++];
}

static void add_climates(world *w, const char *source, const char *data)
{
    static const char *const field[] = {
        "charleston", "debilt", "devens", "dublin",   "hamburg",  "helsinki",
        "koebenhavn", "london", "miami",  "muenchen", "valentia", "wien"};
    char folder[400], name[64];
    snprintf(folder, sizeof folder, "%s/assemblies/climates", source);
    add_climate(w, folder, "estuary.csv");
    add_climate(w, folder, "upland.csv");
    snprintf(folder, sizeof folder, "%s/field-walls/climates", data);
    for (size_t i = 0; i < COUNT(field); i++) {
        snprintf(name, sizeof name, "%s.csv", field[i]);
        add_climate(w, folder, name);
    }
    snprintf(folder, sizeof folder, "%s/pvgis", data);
    add_climate(w, folder, "tmy_45.000_8.000_2005_2023.csv");
    const size_t before = w->count;
    add_climate(w, folder, "tmy_56.273_9.987_2007_2016.csv");
    const bw_climate *sun = w->count > before ? w->climate[before] : NULL;
    snprintf(folder, sizeof folder, "%s/hourly_2017", data);
    add_station(w, folder, "malin_head_2017.csv", sun);
    add_station(w, folder, "valentia_observatory_2017.csv", sun);
}

/* ---- a wall ---- */

static const char *one_of(dice *d, const char *const *word, size_t count)
{
    return word[(size_t)between(d, 0, (double)count)];
}
#define ONE_OF(d, ...)                                                         \
    one_of(d, (const char *const[]){__VA_ARGS__},                              \
           sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *))

static void put_layer(FILE *f, dice *d, const world *w, size_t i)
{
    const size_t count = bw_library_count(w->library);
    if (i > 0 && uniform(d) < 0.15) {
        fprintf(f, "<cavity id='l%zu' thickness='%.0f mm' ventilation='%s'/>\n",
                i, between(d, 5, 100), ONE_OF(d, "none", "slight", "well"));
        return;
    }
    const bw_material *m = bw_library_at(w->library,
                                         (size_t)between(d, 0, (double)count));
    if (!m->thermal_conductivity.known) {
        fprintf(f, "<membrane id='l%zu' material='%s'/>\n", i, m->id);
        return;
    }
    fprintf(f, "<layer id='l%zu' material='%s' thickness='%.3f mm'", i, m->id,
            1000 * decades(d, -4, 0));
    if (uniform(d) < 0.1)
        fprintf(f, " initial-relative-humidity='%.0f %%'", between(d, 5, 100));
    fputs("/>\n", f);
}

static void put_wall(FILE *f, dice *d, const world *w, size_t number)
{
    const bool roof = uniform(d) < 0.3;
    const size_t layers = 1 + (size_t)between(d, 0, LAYERS);
    fprintf(f,
            "<assembly xmlns='urn:bothways:assembly:1' id='wall-%zu' "
            "element='%s'>\n<outdoors climate='none.csv' faces='%s' "
            "tilt='%.0f deg' solar-absorptance='%.2f' driving-rain='%s'/>\n",
            number, roof ? "roof" : "wall", ONE_OF(d, "N", "E", "S", "W", "SW"),
            roof ? between(d, 2, 60) : 90, uniform(d),
            ONE_OF(d, "none", "sheltered", "moderate", "severe"));
    fprintf(f, "<indoors %s/>\n<layers listed='outside-to-inside'>\n",
            ONE_OF(d, "conditions='en15026-normal'",
                   "conditions='en15026-high'",
                   "relative-humidity='85 %' temperature='28 degC'",
                   "relative-humidity='20 %' temperature='-10 degC'",
                   "humidity-class='5' temperature='20 degC'"));
    for (size_t i = 0; i < layers; i++)
        put_layer(f, d, w, i);
    fputs("</layers>\n", f);
    if (uniform(d) < 0.3)
        fprintf(f,
                "<air-leakage q50='%.1f m3/(m2.h)' connected-height='%.0f "
                "m'/>\n",
                between(d, 0.5, 20), between(d, 1, 10));
    if (uniform(d) < 0.3)
        fprintf(f, "<rain-leak fraction='%.1f %%' after-layer='l%zu'/>\n",
                between(d, 0.5, 30), (size_t)between(d, 0, (double)layers));
    fputs("</assembly>\n", f);
}

/* ---- its answer ---- */

/* False if data is missing that no allowance replaces. */
static bool simulate(const world *w, const bw_assembly *a, dice *d,
                     size_t number, tally *t)
{
    const bw_section_options all = {.keep_all_layers = true};
    const bw_climate *c = w->climate[(size_t)between(d, 0, (double)w->count)];
    const bw_transient_options o = {
        .max_years = uniform(d) < 0.9 ? 1 : 4,
        .start_month = (int)between(d, 0, BW_MONTHS),
        .start_month_given = true,
        .allow_missing = true,
    };
    bw_sections *sections = NULL;
    bw_transient_result r;
    bw_error err;
    if (bw_sections_make(&sections, a, &all, &err) != BW_OK)
        exit(2);
    const bw_status status = bw_transient(&r, a, &sections->section[0], c, &o,
                                          &err);
    if (status == BW_OK) {
        t->answers++;
        t->years += r.years;
        if (!(r.water_balance_error < 1e-3) || !(r.energy_balance_error < 1e-3))
            printf("wall %zu: balances open: water %.1e, heat %.1e\n", number,
                   r.water_balance_error, r.energy_balance_error);
        bw_transient_free(&r);
    } else if (status != BW_ERR_DOMAIN) {
        t->failures++;
        printf("wall %zu, %s: NO ANSWER: %s\n", number, c->file, err.message);
    }
    bw_sections_free(sections);
    return status != BW_ERR_DOMAIN;
}

/* Whether the dice made a wall that can be simulated. */
static bool try_wall(const world *w, dice *d, size_t number, bool show,
                     tally *t)
{
    FILE *f = fopen(w->path, "w");
    if (f == NULL)
        exit(2);
    if (show)
        put_wall(stdout, &(dice){d->state}, w, number);
    put_wall(f, d, w, number);
    fclose(f);
    bw_assembly *a = NULL;
    bw_error err;
    if (bw_assembly_read(&a, w->path, w->library, &err) != BW_OK) {
        if (show)
            printf("refused: %s\n", err.message);
        return false;
    }
    const bool simulated = simulate(w, a, d, number, t);
    bw_assembly_free(a);
    return simulated;
}

static void one_wall(const world *w, uint64_t seed, size_t number, bool show,
                     tally *t)
{
    dice d = {seed * 0x9e3779b97f4a7c15u + number * 0xbf58476d1ce4e5b9u + 1};
    for (int i = 0; i < 8; i++)
        uniform(&d);
    while (!try_wall(w, &d, number, show, t))
        t->refused++;
}

int main(int argc, char **argv)
{
    if (argc < 3) {
        fputs("usage: answer_all SOURCE DATA [WALLS [SEED [FIRST]]]\n", stderr);
        return 2;
    }
    const size_t walls = argc > 3 ? strtoul(argv[3], NULL, 10) : 2000;
    const size_t seed = argc > 4 ? strtoul(argv[4], NULL, 10) : 1;
    const size_t first = argc > 5 ? strtoul(argv[5], NULL, 10) : 0;
    world w = {0};
    tally t = {0};
    bw_library *library = NULL;
    bw_error err;
    char materials[400];
    snprintf(materials, sizeof materials, "%s/materials", argv[1]);
    if (bw_library_read(&library, &(const char *){materials}, 1, &err)) {
        fprintf(stderr, "%s\n", err.message);
        return 2;
    }
    w.library = library;
    add_climates(&w, argv[1], argv[2]);
    snprintf(w.path, sizeof w.path, "answer_all_%ld.xml", (long)getpid());
    for (size_t i = first; i < first + walls; i++) {
        one_wall(&w, seed, i, walls == 1, &t);
        if ((i + 1 - first) % 50 == 0)
            fprintf(stderr, "%zu walls, %ld without an answer\n", i + 1 - first,
                    t.failures);
    }
    unlink(w.path);
    printf("seed %zu, %zu walls from %zu, %zu climates: %ld answers (%ld "
           "years), %ld draws refused for data, %ld without an answer\n",
           seed, walls, first, w.count, t.answers, t.years, t.refused,
           t.failures);
    bw_library_free(library);
    return t.failures > 0;
}
