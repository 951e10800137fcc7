#ifndef BOTHWAYS_ASSEMBLY_H
#define BOTHWAYS_ASSEMBLY_H

/** @file
 * The resolved model: what one assembly file says, in SI, with materials and
 * climate found, layers ordered from OUTSIDE to INSIDE whatever the file's
 * order was. Immutable once read; methods take it const.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/choices.h"
#include "bothways/climate.h"
#include "bothways/error.h"
#include "bothways/export.h"
#include "bothways/material.h"

BW_BEGIN_C

/** What kind of element, for limits and surface resistances. */
typedef enum bw_element {
    BW_ELEMENT_WALL,
    BW_ELEMENT_ROOF,  /**< heat flows upwards in winter */
    BW_ELEMENT_FLOOR, /**< heat flows downwards in winter */
} bw_element;

/** Direction of heat flow, for surface and air-layer resistances. */
typedef enum bw_heat_flow { BW_FLOW_HORIZONTAL, BW_FLOW_UP, BW_FLOW_DOWN }
    bw_heat_flow;

typedef enum bw_exposure {
    BW_RAIN_NONE, BW_RAIN_SHELTERED, BW_RAIN_MODERATE, BW_RAIN_SEVERE,
} bw_exposure;

/** What the ground around is like, for the wind at a face. */
typedef enum bw_terrain {
    BW_TERRAIN_OPEN,     /**< water, flat land without any shelter */
    BW_TERRAIN_RURAL,    /**< fields with low hedges, airfields */
    BW_TERRAIN_SUBURBAN, /**< houses, suburbs, woods */
    BW_TERRAIN_URBAN,    /**< the middle of a town */
} bw_terrain;

/** What lies below a floor. */
typedef enum bw_below {
    BW_BELOW_NOT_STATED,
    BW_BELOW_OPEN_AIR, /**< a passage, a floor on stilts */
    BW_BELOW_SPACE,    /**< a crawl space or cellar, whose own air the climate
                            is */
} bw_below;

typedef struct bw_outdoors {
    const char *climate_path;  /**< as resolved from the file; never NULL */
    bool has_facing;
    double azimuth;            /**< degrees from north, clockwise */
    double tilt;               /**< degrees; 90 a wall */
    bool has_solar_absorptance;
    double solar_absorptance;  /**< - */
    double emissivity;         /**< -, longwave */
    bw_exposure driving_rain;
    bool has_driving_rain;     /**< the file says so; else moderate */
    bool has_rain_share;
    double rain_share;         /**< 0..1 of the rain on the face that stays */
    bool has_terrain;
    bw_terrain terrain;
    bool has_height;
    double height;             /**< m, of the face above ground */
    bool open_sky;             /**< a light roof under open sky: 2 K colder;
                                    a roof's unless the file says no */
    bool has_surface_resistance;
    double surface_resistance; /**< m2 K/W */
    bw_below below;            /**< of a floor */
} bw_outdoors;

/** Most values of what lies beyond a face. */
enum { BW_BEYOND_MOST = 8 };

/** What lies against the outer face in the place of outdoor air: soil
 *  (docs/input.md lists the kinds). No rain, sun, wind or sky. Its values are SI
 *  and in the order of the attributes there: of a word its place among those
 *  allowed, of a layer its index, -1 if none is named. */
typedef struct bw_beyond {
    const struct bw_beyond_kind *kind; /**< NULL: outdoor air */
    double value[BW_BEYOND_MOST];
} bw_beyond;

/** How indoor humidity is given. */
typedef enum bw_indoor_kind {
    BW_INDOOR_CLASS,      /**< ISO 13788 annex A class, 10 % margin */
    BW_INDOOR_RH,         /**< constant RH; +5 points margin if `margin` */
    BW_INDOOR_EN15026,    /**< temperature and RH from outdoor temperature */
    BW_INDOOR_MONTHS,     /**< twelve rows */
} bw_indoor_kind;

typedef struct bw_indoors {
    bw_indoor_kind kind;
    double temperature;         /**< degC (class, RH) */
    int humidity_class;         /**< 1..5 */
    double relative_humidity;   /**< 0..1 */
    bool margin;                /**< apply the standard's safety margin */
    bool en15026_high;          /**< high occupancy curve */
    double month_temperature[BW_MONTHS];     /**< degC */
    double month_vapour_pressure[BW_MONTHS]; /**< Pa */
    bool has_surface_resistance;
    double surface_resistance;  /**< m2 K/W */
} bw_indoors;

typedef enum bw_layer_kind { BW_LAYER_SOLID, BW_LAYER_MEMBRANE,
                             BW_LAYER_CAVITY } bw_layer_kind;

typedef enum bw_ventilation { BW_VENT_NONE, BW_VENT_SLIGHT, BW_VENT_WELL }
    bw_ventilation;

/** Framing that interrupts a layer. */
typedef struct bw_framing {
    bool present;
    const char *id;    /**< the member of its moisture readings; NULL: none */
    const bw_material *material;
    double fraction;   /**< area fraction 0..1 of the framing */
    double width;      /**< m, 0 if given as a fraction */
    double spacing;    /**< m, 0 if given as a fraction */
    double depth;      /**< m; 0: the full layer */
    bool has_initial_moisture;
    double initial_moisture; /**< kg/kg, transient */
    bool initial_is_rh;      /**< initial_moisture is a RH [0..1] instead */
} bw_framing;

/** A range the user is unsure within (used by `margin`). SI values. */
typedef struct bw_uncertain {
    const char *property; /**< "mu", "sd", "lambda", "thickness", ... */
    double low, high;
} bw_uncertain;

/** Another layer that may really be there (used by `margin`). */
typedef struct bw_alternative {
    const bw_material *material;
    double thickness; /**< m */
} bw_alternative;

/** Thicknesses that a layer's material is sold in: at most so many, and where
 *  none are given multiples of so much [m], common practice, no source. */
#define BW_SOLD_MOST 32
#define BW_SOLD_STEP 0.01

typedef struct bw_layer {
    const char *id;       /**< never NULL; made from position if not given */
    const char *name;     /**< for reports; never NULL */
    bw_layer_kind kind;
    long line;
    /** The library material with the inline overrides applied: for each
     *  overridden property basis is BW_BASIS_GIVEN. Never NULL; for a
     *  cavity a still-air material. */
    const bw_material *material;
    double thickness;     /**< m; 0 for a membrane */
    size_t sold_count;
    const double *sold;   /**< m, ascending: what it is sold in; none: not said
                               (BW_SOLD_STEP) */
    bw_property resistance; /**< m2 K/W, known if given inline */
    bw_evidence evidence; /**< of the layer being what is said */
    const char *source;   /**< "" if none given */
    bw_ventilation ventilation; /**< cavities */
    double vent_openings; /**< m2 per m (slight); 0.001 if not given */
    double emissivity;    /**< -, of a cavity's shinier face, the other 0.9;
                               0: both 0.9 */
    double air_change;    /**< 1/s, cavity, transient; 0: not given */
    const bw_material *blocked_with; /**< what bridges a part of a cavity; NULL:
                               nothing. A cavity filled all over is read as a
                               solid layer of its filling */
    double blocked;       /**< share of the cavity's area 0..1 so bridged */
    bw_framing framing;
    bool has_initial_moisture;
    double initial_moisture; /**< kg/kg, transient; of the layer's own material,
                                  not of its framing */
    bool initial_is_rh;      /**< initial_moisture is a RH [0..1] instead */
    size_t uncertain_count;
    const bw_uncertain *uncertain;
    size_t alternative_count;
    const bw_alternative *alternative;
} bw_layer;

typedef struct bw_air_leakage {
    bool given;
    double q50;              /**< m3/(m2 s) at 50 Pa */
    double connected_height; /**< m */
    bool tested;             /**< evidence measured */
} bw_air_leakage;

/** A stated wetting for the drying test. */
typedef struct bw_drying_test {
    double wetting;     /**< kg/m2; 1.0 unless given */
    long after_layer;   /**< index of the layer whose inner face is wetted;
                             -1: the critical plane is found */
    int start_month;    /**< 0..11; -1: chosen (docs/methods.md) */
} bw_drying_test;

/** Rain that gets past the face, a fraction of driving rain (transient). */
typedef struct bw_rain_leak {
    bool given;
    double fraction;    /**< 0..1 */
    long after_layer;   /**< index of the layer at whose inner face */
} bw_rain_leak;

/** A member of the wall that a limit or an item of evidence is of: a layer, or
 *  the framing in it. */
typedef struct bw_wall_part {
    const char *text; /**< as the file says, "stud-bay.framing"; "" if it does
                           not */
    long layer;       /**< index; -1: not said */
    bool framing;     /**< the framing of that layer */
} bw_wall_part;

/* Texts of the closing-up record are never NULL, "" where the file has none;
 * dates are days, year-month-day. */

typedef struct bw_air_test {
    const char *date, *stage; /**< ISO date; "membrane-exposed", "finished" */
    double q50;               /**< m3/(m2 s) */
    bool has_uncertainty;
    double uncertainty;       /**< of q50, relative, 0..1 */
    bool leak_search;
    const char *by;           /**< who tested */
    const char *ref;          /**< of the protocol */
    const char *source;
    long line;
} bw_air_test;

typedef struct bw_moisture_limit {
    const char *member;
    bw_wall_part part;             /**< what of the wall the member is */
    double allowed, critical; /**< kg/kg */
    const char *source;
    long line;
} bw_moisture_limit;

typedef struct bw_reading {
    const char *date, *member, *place;
    double moisture;          /**< kg/kg, what counts: as_read, corrected for
                                   the temperature of the wood, never lower than
                                   shown */
    double shown;             /**< kg/kg, as the file has it */
    double depth;             /**< m; 0 if not given */
    const char *meter;        /**< which, and how set */
    bool has_wood_temperature;
    double wood_temperature;  /**< degC */
    const char *species;
    const char *by;           /**< who read it */
    bool as_read;             /**< what the meter showed, neither temperature
                                   nor species taken into account */
    const char *photograph;   /**< its reference */
    const char *note;         /**< what explains it, where it is far from an
                                   earlier one */
    const char *source;
    long line;
} bw_reading;

typedef struct bw_evidence_item {
    const char *kind, *of, *ref;
    bw_wall_part part;     /**< what it shows */
    const char *date; /**< "" if not given */
    long line;
} bw_evidence_item;

/** Days on which the wall got wet while it was open. */
typedef struct bw_wet_spell {
    const char *from, *to; /**< first and last day */
    const char *note;
    long line;
} bw_wet_spell;

typedef struct bw_closing_up {
    bool given;
    size_t air_test_count;
    const bw_air_test *air_test;
    size_t limit_count;
    const bw_moisture_limit *limit;
    size_t reading_count;
    const bw_reading *reading;
    size_t evidence_count;
    const bw_evidence_item *evidence;
    size_t wet_spell_count;
    const bw_wet_spell *wet_spell;
} bw_closing_up;

/** A junction that the wall names (`junctions`), read with it; NULL where the
 *  wall was itself read for a junction, or changed since. */
typedef struct bw_named_junction {
    const char *file;
    long line; /**< of the wall's file */
    const struct bw_junction *junction; /**< junction.h; the assembly's own */
} bw_named_junction;

/** One assembly. Plain data to read; made by bw_assembly_read only. */
typedef struct bw_assembly {
    const char *file;    /**< never NULL */
    const char *id;      /**< never NULL */
    const char *title;   /**< never NULL */
    const char *remark;  /**< never NULL */
    bw_element element;
    bool listed_outside_to_inside; /**< the order of the file */
    bw_outdoors outdoors;
    bw_beyond beyond;
    bw_indoors indoors;
    size_t layer_count;
    const bw_layer *layer;  /**< outside to inside */
    bw_air_leakage air_leakage;
    bw_drying_test drying_test;
    bw_rain_leak rain_leak;
    bw_closing_up closing_up;
    size_t junction_count;
    const bw_named_junction *junction;
    bw_choices choices;
    size_t edit_count;      /**< changes made while reading (edit.h); 0: the
                                 wall is as its file says */
    size_t edit_note_count; /**< the first notes, which say what was changed */
    size_t note_count;      /**< warnings and what was understood */
    const bw_note *note;
} bw_assembly;

/**
 * Read and check one assembly file.
 *
 * @param[out] out      free with bw_assembly_free; borrows materials from
 *                      `library`, which must outlive it
 * @param[in]  path     the file
 * @param[in]  library  materials
 * @param[out] err      the first fault: file, line, element, attribute, value,
 *                      what is allowed, a near miss
 * @return BW_OK, BW_ERR_INPUT, BW_ERR_MEMORY
 */
BW_API bw_status bw_assembly_read(bw_assembly **out, const char *path,
                                  const bw_library *library, bw_error *err);

/**
 * Let the simulation start from the moisture readings of <closing-up>: each
 * layer and framing whose id is a member that was read starts with the highest
 * of its readings that count, the newest at each place; a later but shallower
 * one does not replace a deeper one. Adds a note for each member, one that is in no
 * layer or framing a warning. To be called before the assembly is used.
 *
 * @return BW_OK; BW_ERR_INPUT: no readings, none of a layer or framing, or one
 *         that is more than the pores hold; BW_ERR_MEMORY. Unless BW_OK the
 *         assembly is as before.
 */
BW_API bw_status bw_assembly_start_from_readings(bw_assembly *assembly,
                                                 bw_error *err);

/** The layer of that id, outside to inside from 0; -1 if there is none. */
BW_API long bw_assembly_layer(const bw_assembly *assembly, const char *id);

/** The element of the file that says what lies against the outer face,
 *  "ground"; NULL: outdoor air. */
BW_API const char *bw_beyond_element(const bw_beyond *beyond);

/** One of its values by its attribute, "depth"; false: it has none of that
 *  name. */
BW_API bool bw_beyond_value(double *value, const bw_beyond *beyond,
                            const char *name);

/** Frees an assembly; NULL is allowed. */
BW_API void bw_assembly_free(bw_assembly *assembly);

/** Fixed words for the enums above; never NULL. */
BW_API const char *bw_element_text(bw_element element);
BW_API const char *bw_exposure_text(bw_exposure exposure);
/** What the word for an exposure means. */
BW_API const char *bw_exposure_meaning(bw_exposure exposure);
/** What kind of building a humidity class of ISO 13788 is of; 1..5. */
BW_API const char *bw_humidity_class_meaning(int humidity_class);
BW_API const char *bw_terrain_text(bw_terrain terrain);
BW_API const char *bw_ventilation_text(bw_ventilation ventilation);

/* ---- sections: what one straight path through the wall meets ---------- */

/** Which value of its material says how vapour passes a slab. */
typedef enum bw_vapour_rule {
    BW_VAPOUR_MU,       /**< mu and the thickness drawn; two cups, or a curve */
    BW_VAPOUR_SD,       /**< one sd, whatever the thickness */
    BW_VAPOUR_SD_CURVE, /**< sd by the mean RH of both faces: variable layer */
    BW_VAPOUR_AIR,      /**< an air layer's sd, ISO 13788 */
} bw_vapour_rule;

/** A layer as the one-dimensional methods see it. */
typedef struct bw_slab {
    const char *label;           /**< for reports */
    size_t layer;                /**< index into assembly->layer */
    const bw_material *material; /**< the framing's where framing is crossed */
    bw_layer_kind kind;
    double thickness;            /**< m */
    double resistance;           /**< m2 K/W */
    bw_vapour_rule vapour;       /**< what the next six are from */
    double sd_dry;               /**< m, with mu_dry (or the one known) */
    double sd_wet;               /**< m, with mu_wet (or the one known) */
    const bw_property *dry_from; /**< of the material, whence sd_dry is; NULL:
                                      of a curve or an air layer */
    const bw_property *wet_from; /**< the same of sd_wet */
    const bw_curve *sd_curve;    /**< NULL, or sd by mean RH: variable layer */
    const bw_curve *mu_curve;    /**< NULL, or mu by local RH (simulation) */
    bool is_framing;
} bw_slab;

/** Most sections an assembly has. */
enum { BW_MOST_SECTIONS = 3 };

/** One path: between studs, through a stud, or between studs where cavities
 *  are blocked. Slabs outside to inside, those beyond a well-ventilated cavity
 *  already left out. */
typedef struct bw_section {
    const char *name;       /**< "whole", "between-studs", "open-cavity",
                                 "through-stud", "blocked-cavity" */
    bool through_stud;
    bool cavity_blocked;
    double fraction;        /**< of the area, 0..1 */
    size_t slab_count;
    const bw_slab *slab;
    double outer_resistance; /**< m2 K/W: Rse, or Rsi-like behind a
                                  well-ventilated cavity */
    double inner_resistance; /**< m2 K/W: Rsi of the moisture check */
    size_t dropped_layers;   /**< outer layers left out, the cavity too; fewer
                                  where the cavity is blocked */
} bw_section;

/** The sections of an assembly, one to BW_MOST_SECTIONS, their fractions
 *  together 1, the open path between studs first. Opaque owner of plain
 *  data. */
typedef struct bw_sections {
    size_t count;
    const bw_section *section;
} bw_sections;

/** What may be held differently from the file when sections are made. */
typedef struct bw_section_options {
    bool cavities_blocked;  /**< take every ventilated cavity as still air */
    bool keep_all_layers;   /**< for the transient method: nothing dropped */
    bool layers_apart;      /**< a slab for each layer. Else neighbours of one
                                 material, without a membrane between them, are
                                 one slab: a panel drawn as two of half its
                                 thickness is one member. Its layer is the
                                 inner one */
} bw_section_options;

/**
 * Make the one-dimensional sections of an assembly.
 * @param options  NULL for as drawn
 * @return BW_OK or BW_ERR_MEMORY; *out free with bw_sections_free
 */
BW_API bw_status bw_sections_make(bw_sections **out,
                                  const bw_assembly *assembly,
                                  const bw_section_options *options,
                                  bw_error *err);

/** Frees sections; NULL is allowed. */
BW_API void bw_sections_free(bw_sections *sections);

/** Steady conditions on both sides for a month or a period. */
typedef struct bw_boundary {
    double theta_e; /**< degC, outside (sol-air where the sun is counted) */
    double p_e;     /**< Pa */
    double theta_i; /**< degC */
    double p_i;     /**< Pa */
} bw_boundary;

/** Indoor state for given outdoor means. All temperatures degC, pressures
 *  Pa. `month` 0..11 selects the row of BW_INDOOR_MONTHS. */
BW_API void bw_indoor_state(const bw_indoors *indoors, int month,
                            double outdoor_temperature,
                            double outdoor_vapour_pressure,
                            double *temperature, double *vapour_pressure);

BW_END_C

#endif
