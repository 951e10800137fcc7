/* How far the hourly method as set is from its own limit: six walls, a year
 * each, as set beside cells halved thrice and tolerances a tenth. The figures
 * of docs/methods.md, which are regression values: our own code measures its
 * own code.
 *
 *     cmake --build build --target bench_converge && build/tests/bench_converge
 */

#include <stdio.h>

#include "suite.h"
#include "transient_case.h"

static void slab_of(transient_case *c, const char *name, double rho,
                    double lambda, double cp, double mu, double thickness)
{
    const size_t i = c->section.slab_count;
    case_material(c, i, name, rho, lambda, cp, mu, mu);
    case_slab(c, BW_LAYER_SOLID, thickness);
}

static const double PHI[] = {0.33, 0.5, 0.65, 0.8, 0.9, 0.93, 0.97};
static const double WOOD[] = {0.068, 0.095, 0.123, 0.164, 0.209, 0.228, 0.26};
static const double STONE[] = {0.002, 0.004, 0.006, 0.009, 0.013, 0.015, 0.019};

static void draws(transient_case *c, const double *u, double free_saturation,
                  double absorption)
{
    const size_t i = c->section.slab_count - 1;
    case_sorption(c, i, 7, PHI, u);
    c->material[i].free_saturation = case_value(free_saturation);
    if (absorption > 0)
        c->material[i].water_absorption = case_value(absorption);
}

static void wood(transient_case *c, double thickness)
{
    slab_of(c, "softwood", 450, 0.12, 1600, 50, thickness);
    draws(c, WOOD, 600, 0.003);
}

static void fibre(transient_case *c, double thickness)
{
    slab_of(c, "fibre", 50, 0.04, 2000, 2, thickness);
    draws(c, WOOD, 400, 0);
}

static void masonry(transient_case *c, double thickness)
{
    slab_of(c, "brick", 1700, 0.77, 1000, 12, thickness);
    draws(c, STONE, 250, 0.1);
}

static void render(transient_case *c, double absorption)
{
    slab_of(c, "render", 1800, 0.8, 1000, 15, 0.02);
    draws(c, STONE, 210, absorption);
}

static void plaster(transient_case *c)
{
    slab_of(c, "plaster", 900, 0.25, 1000, 8, 0.0125);
    draws(c, STONE, 350, 0);
}

/* Softwood cladding straight on fibre. */
static void softwood_clad(transient_case *c)
{
    wood(c, 0.024);
    fibre(c, 0.16);
    plaster(c);
}

static void bare_masonry(transient_case *c)
{
    masonry(c, 0.33);
    plaster(c);
}

static void rendered_masonry(transient_case *c)
{
    render(c, 0.03);
    masonry(c, 0.33);
    plaster(c);
}

static void timber_frame(transient_case *c)
{
    wood(c, 0.018);
    slab_of(c, "wool", 20, 0.035, 1000, 1, 0.16);
    add_foil(c, 2);
    plaster(c);
}

static void fibre_wall(transient_case *c)
{
    render(c, 0.001);
    fibre(c, 0.3);
    plaster(c);
}

static void roof(transient_case *c)
{
    add_foil(c, 50);
    wood(c, 0.022);
    fibre(c, 0.2);
    add_foil(c, 5);
    plaster(c);
}

static bw_transient_result run(const transient_case *c, double refinement,
                               double tolerance)
{
    const bw_transient_options o = {.max_years = 1,
                                    .keep_hours = true,
                                    .grid_refinement = refinement,
                                    .temperature_tolerance = 0.01 * tolerance,
                                    .humidity_tolerance = 0.0005 * tolerance};
    bw_transient_result r;
    bw_error err;
    if (bw_transient(&r, &c->assembly, &c->section, &c->climate, &o, &err)) {
        fprintf(stderr, "%s\n", err.message);
        exit(1);
    }
    return r;
}

/* Largest differences at any hour from the second day on and any interface
 * or the room face. */
static void print_row(const char *name, const bw_transient_result *a,
                      const bw_transient_result *b)
{
    const size_t n = a->monitor_count;
    double theta = 0, phi = 0;
    for (size_t i = 24 * n; i < a->hour_count * n; i++) {
        if (i % n == 0)
            continue;
        theta = fmax(theta, fabs(a->hour[i].theta - b->hour[i].theta));
        phi = fmax(phi, fabs(a->hour[i].phi - b->hour[i].phi));
    }
    printf("| %s | %zu | %.2f | %.4f | %.2f / %.2f | %.2f / %.2f |\n", name,
           a->cells, theta, phi, a->rain_absorbed, b->rain_absorbed,
           a->year_end_water[0], b->year_end_water[0]);
    fflush(stdout);
}

int main(int argc, char **argv)
{
    static const struct {
        const char *name;
        void (*build)(transient_case *c);
        bw_exposure rain;
        double tilt;
    } wall[] = {
        {"softwood-clad, rain", softwood_clad, BW_RAIN_SEVERE, 90},
        {"bare masonry, rain", bare_masonry, BW_RAIN_SEVERE, 90},
        {"rendered masonry, rain", rendered_masonry, BW_RAIN_SEVERE, 90},
        {"timber frame, membrane", timber_frame, BW_RAIN_NONE, 90},
        {"fibre wall", fibre_wall, BW_RAIN_NONE, 90},
        {"roof", roof, BW_RAIN_NONE, 30},
    };
    const double most = argc > 1 ? atof(argv[1]) : 8;
    printf("| wall | cells | theta, K | RH | rain taken up, kg/m2 | water at "
           "the year's end, kg/m2 |\n|---|---|---|---|---|---|\n");
    for (size_t i = 0; i < COUNT(wall); i++) {
        transient_case *c = steady_new(0, 0.5, 0, 0.5);
        case_weather(c);
        wall[i].build(c);
        c->assembly.outdoors = (bw_outdoors){.climate_path = "",
                                             .has_facing = true,
                                             .azimuth = 225,
                                             .tilt = wall[i].tilt,
                                             .has_solar_absorptance = true,
                                             .solar_absorptance = 0.6,
                                             .emissivity = 0.9,
                                             .driving_rain = wall[i].rain};
        c->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_EN15026};
        bw_transient_result set = run(c, 1, 1), fine = run(c, most, 0.1);
        print_row(wall[i].name, &set, &fine);
        bw_transient_free(&set);
        bw_transient_free(&fine);
        free(c);
    }
    return 0;
}
