#ifndef BOTHWAYS_GLASER_H
#define BOTHWAYS_GLASER_H

/** @file
 * The steady diffusion methods: period balance (DIN 4108-3 annex A) and
 * monthly (ISO 13788), in both vapour directions, with humidity-variable
 * layers, drying tests and a convective source. Names are the standards'.
 * Pure functions of their arguments.
 */

#include "bothways/geography.h"

BW_BEGIN_C

/** Which mu a layer with both a dry-cup and a wet-cup value uses. */
typedef enum bw_mu_choice {
    BW_MU_LOCAL,    /**< by the layer's own mean RH, below / above 70 % */
    BW_MU_OPPOSITE, /**< the other one of BW_MU_LOCAL: the bound run */
    BW_MU_DRY,
    BW_MU_WET,
    /* bound runs, too; the main insulation (bw_geography_find) is inner */
    BW_MU_OUTER_DRY_INNER_WET, /**< outside it dry cup, inside wet cup */
    BW_MU_OUTER_WET_INNER_DRY,
} bw_mu_choice;

/** Which way the wetted plane may give off vapour. */
typedef enum bw_drying_ways { BW_DRY_BOTH, BW_DRY_OUTWARDS, BW_DRY_INWARDS }
    bw_drying_ways;

/** Names a plane for a reader: "outer surface" ("cavity face of A" where
 *  layers beyond a cavity were left out), "between A and B", "in A, 35 mm from
 *  its outer face", "inner surface". Cut to fit `size` bytes.
 *  @return text */
BW_API char *bw_plane_label(char *text, size_t size, const bw_section *section,
                            bw_plane_at at);

/** One plane in one month. */
typedef struct bw_plane_month {
    double theta;               /**< degC */
    double saturation_pressure; /**< Pa */
    double vapour_pressure;     /**< Pa, at the start of the month */
    double relative_humidity;   /**< - */
    double condensation;        /**< g_c over the month, kg/m2; < 0 drying */
    double accumulated;         /**< M_a at the end of the month, kg/m2 */
    double sd_from_outside;     /**< m, cumulative */
} bw_plane_month;

typedef struct bw_plane {
    bw_plane_at at;
    bw_plane_month month[BW_MONTHS]; /**< calendar order; first cycle */
    double peak;          /**< highest M_a over the first cycle, kg/m2 */
    int peak_month;       /**< 0..11 */
    double residual;      /**< M_a at the end of the first cycle, kg/m2 */
} bw_plane;

/** Options of one monthly run; zero-initialise, then set, `start_month` too.
 *  A wetted plane must lie inside the wall. Not together: `saturated` or
 *  `has_air_flow` with one-sided drying; refused with BW_ERR_DOMAIN. */
typedef struct bw_monthly_options {
    const char *run;            /**< "design", "inward", ...; not copied */
    bw_mu_choice mu;
    /* the drying test */
    double wetting;             /**< kg/m2 put at `wet_plane` at the start */
    bw_plane_at wet_plane;
    bw_drying_ways ways;
    int start_month;            /**< 0..11; -1: found by the standard's rule
                                     (drying test: three before the coldest) */
    int max_cycles;             /**< 0: 10 years */
    /* the inward run */
    bool saturated;             /**< `saturated_slab` is held at saturation at
                                     both faces: a wetted outer layer */
    size_t saturated_slab;
    /* convective moisture */
    bool has_air_flow;
    double air_flow[BW_MONTHS]; /**< m3/(m2 s) of room air to `leak_plane` */
    bw_plane_at leak_plane;
    /* where water would do harm (bw_places_at_risk); none: the reserve is that
     * of bw_critical_plane */
    size_t place_count;
    const bw_plane_at *place;   /**< layer faces inside the wall, or the middle
                                     of an only slab */
} bw_monthly_options;

/** What one monthly run gives. Free with bw_monthly_free. */
typedef struct bw_monthly_result {
    char run[32];
    size_t plane_count;
    bw_plane *plane;            /**< outside to inside: every layer face with
                                     both surfaces, and every plane inside a
                                     layer where water stood */
    size_t slab_count;
    double (*layer_sd)[BW_MONTHS];  /**< [slab][month], m, of first cycle */
    bool *used_wet;             /**< [slab] mu_wet was chosen */
    bool condenses;             /**< water formed anywhere inside */
    int start_month;            /**< 0..11; of the cycle */
    int cycles;                 /**< years computed */
    bool periodic;              /**< a year came that repeats the last */
    bool accumulates;           /**< proven to grow year on year */
    double residual_first;      /**< total left after the first year */
    double residual_last;       /**< total left after the last year computed */
    double growth;              /**< kg/(m2 a), last year's rise */
    double peak;                /**< highest total at one plane, kg/m2, in the
                                     periodic (or last) year */
    int peak_month;
    size_t peak_plane;          /**< index into plane */
    double condensed;           /**< kg/(m2 a) condensed in the first cycle */
    double evaporated;          /**< kg/(m2 a) evaporated in the first cycle */
    /** Water beyond the design condensate that the critical plane could give
     *  off in a year if it were kept wet, kg/(m2 a); may be negative. */
    bool has_reserve;
    double reserve;
    size_t critical_plane;      /**< index into plane: of the places of the
                                     options the one of least reserve, the
                                     outermost of equals; of a drying test the
                                     wetted one, with air flow the leak's */
    /* the drying test */
    bool dried;                 /**< no water anywhere any more */
    double months_to_dry;       /**< if dried */
    double left;                /**< kg/m2 left otherwise */
    bool wet_plane_dried;       /**< none at `wet_plane`; it may have gone to
                                     another plane */
    double wet_plane_months;    /**< if wet_plane_dried */
    bool condensed_elsewhere;   /**< while drying */
    bool converged;             /**< variable layers met their tolerance */
    double balance_error;       /**< kg/m2, all years: the larger of
                                     |condensed - evaporated - stored| and
                                     |entered through the ends - stored| */
} bw_monthly_result;

/** The monthly method on one section. See docs/methods.md for the steps.
 * An sd below 1e-6 m counts as 1e-6 m, above 1e9 m as 1e9 m.
 * @param boundary twelve months, January first
 * @param options  NULL: zero, with start_month -1
 * @return BW_OK, BW_ERR_DOMAIN (a value not finite or out of range, a plane
 *         that is not inside the wall), BW_ERR_MEMORY. Water at more than
 *         1e-9 kg/m2 counts as standing. */
BW_API bw_status bw_monthly(bw_monthly_result *out, const bw_section *section,
                            const bw_boundary boundary[BW_MONTHS],
                            const bw_monthly_options *options, bw_error *err);

/** Frees what a result owns (not the struct); NULL is allowed. */
BW_API void bw_monthly_free(bw_monthly_result *result);

/** Where a wetting or leak would do most harm: the plane with most condensate
 *  in `design`, else, of the faces on the outer side of the main insulation
 *  (the slab of highest resistance), the one with the highest RH in the
 *  coldest month; with none there, of all inner faces; with one slab only,
 *  the middle of it. */
BW_API bw_plane_at bw_critical_plane(const bw_section *section,
                                     const bw_monthly_result *design);

/** Case of the period balance. */
typedef enum bw_period_case {
    BW_PERIOD_NONE, BW_PERIOD_ONE_PLANE, BW_PERIOD_TWO_PLANES, BW_PERIOD_ZONE,
} bw_period_case;

/** Block climates of the period balance. */
typedef struct bw_period_climate {
    bw_boundary condensation; /**< winter block */
    double condensation_seconds;
    double evaporation_pressure;   /**< Pa, both sides */
    double evaporation_saturation; /**< Pa, at the planes */
    double evaporation_seconds;
    const char *source;
} bw_period_climate;

/** The block climate of DIN 4108-3 for an element. */
BW_API bw_period_climate bw_period_climate_din4108(bw_element element);

typedef struct bw_period_plane {
    bw_plane_at at;
    double sd_from_outside; /**< m */
    double condensed;       /**< M_c, kg/m2 */
    double evaporable;      /**< M_ev, kg/m2 */
} bw_period_plane;

typedef struct bw_period_result {
    bw_period_case which;
    size_t plane_count;     /**< 0..2 (a zone: its two edges) */
    bw_period_plane plane[2];
    double condensed;       /**< total M_c, kg/m2 */
    double evaporable;      /**< total M_ev, kg/m2; with no condensate, at the
                                 critical plane */
    double reserve;         /**< M_ev - M_c, kg/m2 */
    bool assessed;          /**< false: e.g. more than two planes */
    char reason[160];
} bw_period_result;

/** Period balance of one section; variable layers are given their sd at the
 *  mean RH of the condensation period (a screening, said in the report). */
BW_API bw_status bw_period_balance(bw_period_result *out,
                                   const bw_section *section,
                                   const bw_period_climate *climate,
                                   bw_mu_choice mu, bw_error *err);

/** The same with the reserve of given places: without condensate M_ev is the
 *  least of them, and with some the reserve is no more than that, M_ev being
 *  the reserve and M_c. It moves steadily with every sd.
 *  @param place       layer faces inside the wall; others do not count
 *  @param place_count 0: as bw_period_balance */
BW_API bw_status bw_period_balance_at(bw_period_result *out,
                                      const bw_section *section,
                                      const bw_period_climate *climate,
                                      bw_mu_choice mu, const bw_plane_at *place,
                                      size_t place_count, bw_error *err);

/** Surface humidity, month by month (ISO 13788). */
typedef struct bw_surface_month {
    double theta_e, p_e, theta_i, p_i;
    double theta_si;         /**< degC */
    double rh_si;            /**< - */
    bool meaningful;         /**< theta_i - theta_e > 1 K */
    double frsi_required;    /**< for the critical surface RH */
} bw_surface_month;

typedef struct bw_surface_result {
    char where[32];          /**< "open-wall", "corner", "behind-cupboard" */
    double rsi;              /**< m2 K/W used */
    const char *rsi_source;
    double frsi;             /**< of the element: 1 - U Rsi */
    double frsi_required;    /**< highest over the meaningful months; where frsi
                                  changes, that of critical_month */
    int critical_month;      /**< 0..11 */
    double highest_rh;       /**< highest monthly surface RH */
    bw_surface_month month[BW_MONTHS];
} bw_surface_result;

/** @param resistance  R of the section without surface resistances, m2 K/W
 *  @param critical_rh 0.80 mould, 1.00 condensation, 0.60 corrosion */
BW_API void bw_surface(bw_surface_result *out, const char *where,
                       double resistance, double rse, double rsi,
                       const char *rsi_source, double critical_rh,
                       const bw_boundary boundary[BW_MONTHS]);

/** The same where the factor is known, of a junction that of its coldest place;
 *  it may change with the month where there are more than two temperatures. Of
 *  `frsi` and `frsi_required` the result has those of the month that asks for
 *  most beyond what there is. */
BW_API void bw_surface_of_factors(bw_surface_result *out, const char *where,
                                  const double frsi[BW_MONTHS], double rsi,
                                  const char *rsi_source, double critical_rh,
                                  const bw_boundary boundary[BW_MONTHS]);

/** Air flow into a component by buoyancy [m3/(m2 s)]: k_CL * dp, see
 *  docs/methods.md (k_CL from memory, low confidence).
 *  @param q50 m3/(m2 s) at 50 Pa  @param height m, connected */
BW_API double bw_leakage_air_flow(double q50, double height, double theta_e,
                                  double theta_i);

BW_END_C

#endif
