#ifndef BW_TESTS_TRANSIENT_CASE_H
#define BW_TESTS_TRANSIENT_CASE_H

/* A brick-clad timber wall with fibre insulation and a year of invented,
 * deterministic weather, for the tests and the benchmark of the hourly
 * method. Material figures are of the size of the shipped library's; none is
 * under test here. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/transient.h"

#define CASE_PI 3.14159265358979323846

enum { CASE_LAYERS = 16, CASE_HOURS = 8760 };

typedef struct transient_case {
    bw_material material[CASE_LAYERS];
    double sorption[CASE_LAYERS][2][8];
    bw_layer layer[CASE_LAYERS];
    bw_slab slab[CASE_LAYERS];
    bw_section section;
    bw_assembly assembly;
    bw_climate climate;
    bw_climate_hour hour[CASE_HOURS];
    double curve[2][6];
    bw_curve sd;
} transient_case;

static inline bw_property case_value(double value)
{
    return (bw_property){.known = true, .value = value, .source = "test"};
}

/* A material with up to eight sorption points. */
static inline bw_material *case_material(transient_case *c, size_t i,
                                         const char *name, double rho,
                                         double lambda, double cp,
                                         double mu_dry, double mu_wet)
{
    bw_material *m = &c->material[i];
    *m = (bw_material){.id = name,
                       .name = name,
                       .group = "test",
                       .remark = "",
                       .file = "test",
                       .mould_class = BW_MOULD_SENSITIVE};
    m->density = case_value(rho);
    m->thermal_conductivity = case_value(lambda);
    m->specific_heat = case_value(cp);
    m->mu_dry = case_value(mu_dry);
    m->mu_wet = case_value(mu_wet);
    return m;
}

static inline void case_sorption(transient_case *c, size_t i, size_t count,
                                 const double *phi, const double *u)
{
    memcpy(c->sorption[i][0], phi, count * sizeof *phi);
    memcpy(c->sorption[i][1], u, count * sizeof *u);
    c->material[i].sorption = (bw_curve){.count = count,
                                         .x = c->sorption[i][0],
                                         .y = c->sorption[i][1],
                                         .basis = BW_BASIS_ESTIMATE,
                                         .source = "test",
                                         .note = ""};
    c->material[i].hygroscopic = true;
}

static inline void case_slab(transient_case *c, bw_layer_kind kind,
                             double thickness)
{
    const size_t i = c->section.slab_count++;
    bw_material *m = &c->material[i];
    c->layer[i] = (bw_layer){.id = m->name,
                             .name = m->name,
                             .kind = kind,
                             .material = m,
                             .thickness = thickness};
    c->slab[i] = (bw_slab){
        .label = m->name,
        .layer = i,
        .material = m,
        .kind = kind,
        .thickness = thickness,
        .resistance = kind == BW_LAYER_SOLID
                          ? thickness / m->thermal_conductivity.value
                          : 0,
        .sd_dry = m->mu_dry.value * thickness,
        .sd_wet = m->mu_wet.value * thickness,
    };
    c->assembly.layer_count = c->section.slab_count;
}

/* Weather of a mild, wet place: a yearly and a daily wave, spells of some
 * days, sun by an idealised sky, rain in spells from the south-west. */
static inline void case_weather(transient_case *c)
{
    unsigned long seed = 12345;
    double spell = 0, cloud = 0.6, wet = 0;
    for (int k = 0; k < CASE_HOURS; k++) {
        bw_climate_hour *h = &c->hour[k];
        const double day = k / 24.0, clock = k % 24 + 0.5;
        seed = (seed * 1103515245UL + 12345UL) & 0x7fffffffUL;
        const double noise = (double)seed / 0x7fffffff - 0.5;
        spell = 0.985 * spell + 0.9 * noise;
        cloud = fmin(fmax(0.97 * cloud + 0.018 + 0.16 * noise, 0), 1);
        wet = cloud > 0.8 && seed % 4 == 0 ? 9 * (cloud - 0.8) : 0;
        const double season = -cos(2 * CASE_PI * (day - 15) / 365);
        const double wave = cos(2 * CASE_PI * (clock - 14.5) / 24);
        h->temperature = 9 + 6 * season + spell + (3.5 - 2.5 * cloud) * wave;
        const double phi = fmin(0.86 + 0.12 * cloud - 0.04 * wave -
                                    0.06 * season * (1 - cloud),
                                0.99);
        h->vapour_pressure = phi * bw_saturation_pressure(h->temperature);
        const double height = sin(CASE_PI / 180 * (37 + 23 * season)) *
                              fmax(0, cos(2 * CASE_PI * (clock - 12) / 24));
        h->direct_normal = height > 0.02 ? 850 * (1 - cloud) : 0;
        h->diffuse_horizontal = height * (90 + 220 * cloud);
        h->longwave_down = 5.67e-8 * pow(h->temperature + 273.15, 4) *
                           (0.72 + 0.24 * cloud);
        h->wind = 3 + 4 * cloud + 2 * noise;
        h->wind_from = 225 + 120 * noise;
        h->rain = wet;
        h->pressure = 101325;
    }
    c->climate = (bw_climate){
        .file = "invented",
        .place = "nowhere",
        .source = "test",
        .licence = "",
        .remark = "invented",
        .kind = BW_CLIMATE_HOURLY,
        .has_position = true,
        .latitude = 53,
        .longitude = 0,
        .time_offset = 0.5,
        .columns = {true, true, true, true, true, true},
        .hour_count = CASE_HOURS,
        .hour = c->hour,
    };
}

static inline void case_layers(transient_case *c)
{
    static const double three[] = {0.5, 0.8, 0.95}, two[] = {0.5, 0.8};
    static const double wood_phi[] = {0.33, 0.5, 0.65, 0.8, 0.9, 0.93, 0.97};
    static const double wood_u[] = {0.068, 0.095, 0.123, 0.164,
                                    0.209, 0.228, 0.26};
    case_material(c, 0, "brick", 1700, 0.77, 1000, 16, 10);
    case_sorption(c, 0, 2, two, (double[]){0.0041, 0.0071});
    c->material[0].free_saturation = case_value(250);
    c->material[0].water_absorption = case_value(0.1);
    case_slab(c, BW_LAYER_SOLID, 0.102);
    case_material(c, 1, "cavity", 1.2, 0.28, 1000, 0.2, 0.2);
    case_slab(c, BW_LAYER_CAVITY, 0.05);
    c->slab[1].resistance = 0.18;
    c->slab[1].sd_dry = c->slab[1].sd_wet = 0.01;
    c->layer[1].ventilation = BW_VENT_WELL;
    case_material(c, 2, "softboard", 270, 0.058, 1500, 10, 6);
    case_sorption(c, 2, 7, wood_phi, wood_u);
    c->material[2].wood_kind = BW_WOOD_PANEL;
    case_slab(c, BW_LAYER_SOLID, 0.012);
    case_material(c, 3, "fibre", 50, 0.04, 2000, 2, 2);
    case_sorption(c, 3, 7, wood_phi, wood_u);
    case_slab(c, BW_LAYER_SOLID, 0.14);
    case_material(c, 4, "membrane", 500, 0.2, 1000, 0, 0);
    c->sd = (bw_curve){6,      c->curve[0], c->curve[1], BW_BASIS_ESTIMATE,
                       "test", ""};
    memcpy(c->curve[0], (double[]){0, 0.4, 0.5, 0.6, 0.8, 1},
           sizeof c->curve[0]);
    memcpy(c->curve[1], (double[]){15, 10, 7, 3.5, 0.5, 0.25},
           sizeof c->curve[1]);
    case_slab(c, BW_LAYER_MEMBRANE, 0);
    c->slab[4].sd_curve = &c->sd;
    case_material(c, 5, "plasterboard", 700, 0.21, 1000, 10, 4);
    case_sorption(c, 5, 3, three, (double[]){0.004, 0.009, 0.018});
    c->material[5].free_saturation = case_value(400);
    case_slab(c, BW_LAYER_SOLID, 0.0125);
}

static inline void case_assembly(transient_case *c)
{
    c->section.name = "whole";
    c->section.fraction = 1;
    c->section.slab = c->slab;
    c->section.outer_resistance = 0.04;
    c->section.inner_resistance = 0.25;
    c->assembly.file = c->assembly.id = c->assembly.title = "case";
    c->assembly.remark = "";
    c->assembly.layer = c->layer;
    c->assembly.outdoors = (bw_outdoors){.climate_path = "",
                                         .has_facing = true,
                                         .azimuth = 225,
                                         .tilt = 90,
                                         .has_solar_absorptance = true,
                                         .solar_absorptance = 0.6,
                                         .emissivity = 0.9,
                                         .driving_rain = BW_RAIN_MODERATE};
    c->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_EN15026};
}

/* A new case; free() it. */
static inline transient_case *case_new(void)
{
    transient_case *c = calloc(1, sizeof *c);
    if (c == NULL)
        abort();
    case_layers(c);
    case_assembly(c);
    case_weather(c);
    return c;
}

/* ---- small walls between climates that stand still ---- */

enum { BOARD_POINTS = 4 };
static const double board_phi[BOARD_POINTS] = {0.3, 0.5, 0.8, 0.95};
static const double board_u[BOARD_POINTS] = {0.03, 0.05, 0.1, 0.18};

/* A hygroscopic board of 600 kg/m3; slab i of the wall. */
static inline void add_board(transient_case *c, double thickness, double mu)
{
    const size_t i = c->section.slab_count;
    case_material(c, i, "board", 600, 0.2, 1500, mu, mu);
    case_sorption(c, i, BOARD_POINTS, board_phi, board_u);
    case_slab(c, BW_LAYER_SOLID, thickness);
}

static inline void add_foil(transient_case *c, double sd)
{
    const size_t i = c->section.slab_count;
    case_material(c, i, "foil", 500, 0.2, 1000, 0, 0);
    case_slab(c, BW_LAYER_MEMBRANE, 0);
    c->slab[i].sd_dry = c->slab[i].sd_wet = sd;
}

/* An empty wall between two climates that stand still. */
static inline transient_case *steady_new(double theta_e, double phi_e,
                                         double theta_i, double phi_i)
{
    transient_case *c = case_new();
    memset(c->material, 0, sizeof c->material);
    memset(c->slab, 0, sizeof c->slab);
    memset(c->layer, 0, sizeof c->layer);
    c->section.slab_count = c->assembly.layer_count = 0;
    for (int k = 0; k < CASE_HOURS; k++)
        c->hour[k] = (bw_climate_hour){
            .temperature = theta_e,
            .vapour_pressure = phi_e * bw_saturation_pressure(theta_e),
            .pressure = 101325};
    c->climate.columns = (bw_hourly_columns){.pressure = true};
    c->assembly.outdoors = (bw_outdoors){.climate_path = "",
                                         .has_surface_resistance = true,
                                         .surface_resistance = 0.04};
    c->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_RH,
                                       .temperature = theta_i,
                                       .relative_humidity = phi_i,
                                       .has_surface_resistance = true,
                                       .surface_resistance = 0.13};
    return c;
}

#endif
