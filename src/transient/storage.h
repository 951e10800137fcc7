#ifndef BW_TRANSIENT_STORAGE_H
#define BW_TRANSIENT_STORAGE_H

/* From what a material file says to the functions of hygro.h.
 *
 * Storage w(phi) [kg/m3]:
 *  - solid wood: the Wood Handbook equation at 20 degC, unless the user gave
 *    points of his own;
 *  - more points: monotone cubics (Fritsch & Carlson 1980, memory hi)
 *    from 0 through the points;
 *  - two points besides dry air: Henderson's 1 - phi = exp(-k u^n) through both
 * (1952, memory of form; within 0.4 points for wood), up to 95 % RH;
 *  - from the last point to 100 %: w = w_l + m B t/(B - t), t the way gone,
 *    m the rise the last slope would give, B such that w(1) = w_f. Smooth,
 *    rising, nearly all of it near saturation, of the form of Kuenzel's
 *    storage curve (1995, memory med);
 *  - not hygroscopic: 0.05 kg/m3 at 90 % RH (air and adsorbed film, estimate)
 *    and the same way to full pores, so that the equations stay regular.
 * w_f is the free saturation where known, else 0.9 of the pores; the pores
 * are the porosity where known, else 1 - rho/rho_s with rho_s 1500 kg/m3
 * (plant fibre, wood) or 2650 (mineral), an estimate.
 *
 * Liquid transport only where the absorption coefficient A_w is known:
 * D_w = 3.8 (A_w/w_f)^2 1000^(w/w_f - 1) (Kuenzel 1995, memory med), held at
 * its value at w_f above. Redistribution while no rain is on the face: the
 * same up to w_80, the water held at 80 % RH, then falling off to a tenth of it
 * at w_f, straight over w in logarithms (ibid., memory med).
 *
 * 1/mu: thickness over the sd of the local RH (vapour.h).
 *
 * lambda(w): the rule of ISO 10456 from 50 % RH on, and no more than 0.6
 * W/(m K), that of water, above the design value. */

#include "hygro.h"
#include "vapour.h"

enum { BW_STORAGE_POINTS = 64 };
#define BW_DIFFUSIVITY_FACTOR 3.8 /* D_w(w_f) (w_f/A_w)^2 */

typedef struct bw_storage {
    size_t count;
    double phi[BW_STORAGE_POINTS], water[BW_STORAGE_POINTS];
    double slope[BW_STORAGE_POINTS];
    double rise, bend; /* m, B */
    double free_water, full_water;
    double at_half; /* w at 50 % RH */
    double at_80;   /* w at 80 % RH */
    double density, heat_capacity;
    double d_saturated; /* m2/s at w_f; 0: no liquid transport */
    double conductivity;
    bw_conductivity_rule rule;
    double factor;   /* of the rule */
    bw_slab slab;    /* whose vapour resistance is read, */
    double least_sd; /* m, that of a cup no lower than this */
    /* what was done, for the notes */
    bool henderson, estimated_free, missing_sorption;
} bw_storage;

/* Reads a solid slab or a cavity. BW_ERR_DOMAIN if sorption data of a
 * hygroscopic material is missing and allow_missing is false, or if there are
 * more points than there is room for. */
bw_status bw_storage_of_slab(bw_storage *out, const bw_slab *slab,
                             bool allow_missing, bw_error *err);

/* The law over a storage, which must outlive its use. */
bw_hygro_law bw_storage_law(const bw_storage *storage);

/* Of a storage all that its law, but for the openness, is made from: equal
 * bytes, equal laws. */
bw_storage bw_storage_of_law(const bw_storage *storage);

/* w at phi, 0..1. */
double bw_storage_water(const bw_storage *storage, double phi);

#endif
