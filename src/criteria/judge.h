#ifndef BW_CRITERIA_JUDGE_H
#define BW_CRITERIA_JUDGE_H

/* Results + limits -> rows. Pure: nothing is computed here that a method
 * computes, and hand-made results judge as real ones do. */

#include "bothways/geography.h"
#include "rows.h"

/* Water at a plane, whatever method found it. */
typedef struct bw_wet_plane {
    bw_plane_at at;
    double amount; /* kg/m2, its highest */
    int month;     /* 0..11 of it; -1: of a period */
} bw_wet_plane;

/* Is there solid wood / a panel anywhere in the assembly, framing too? */
bool bw_assembly_has_wood(const bw_assembly *assembly, bw_wood_kind kind);

/* The limit of the drying reserve for an element; 0 where the rule does not
 * ask for one (no timber anywhere). */
double bw_reserve_limit(const bw_profile *profile, const bw_assembly *assembly);

/* A drying reserve [kg/(m2 a)] against it, or shown where there is none. */
void bw_judge_reserve(bw_rows *rows, bw_criterion_id id,
                      const bw_assembly *assembly, double reserve,
                      const char *reason);

/* Does a slab take up condensate? */
bool bw_slab_absorbs(const bw_slab *slab);

/* Does a plane have a face that takes up no water? */
bool bw_plane_sheds(const bw_section *section, bw_plane_at at);

/* The three criteria on amounts, and which ids they have. */
typedef struct bw_amount_ids {
    bw_criterion_id non_absorbing, wood_rise, panel_rise;
} bw_amount_ids;
void bw_judge_amounts(bw_rows *rows, const bw_amount_ids *ids,
                      const bw_section *section, const bw_wet_plane *wet,
                      size_t count);

/* Water below this is none [kg/m2]: the monthly method's own tolerance. */
#define BW_NO_WATER 1e-6

/* Does condensate grow over the years, `cycles` of them computed? */
void bw_judge_accumulation(bw_rows *rows, bool accumulates, bool periodic,
                           double growth, int cycles);

/* The design run (or the bound run, in rows of its own). */
void bw_judge_design(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section *section,
                     const bw_monthly_result *design);

/* With the convective source. */
void bw_judge_leakage(bw_rows *rows, const bw_section *section,
                      const bw_monthly_run *run);

/* What the inward run left: water that came from the saturated layer. A run of
 * the hours in the sun belongs to a `part`, whose share of the month those are
 * and whose design run tells of the others; NULL: it is of the whole month. */
typedef struct bw_inward_water {
    double peak;     /* kg/m2, highest at one plane inside the wet layer */
    double residual; /* kg/m2 there at the end of the year */
    double inflow;   /* kg/(m2 a) condensed there in the inward months */
    int peak_month;
    bool daily; /* the peak is what the sun brings in a mean day, as the
                   other hours dry it again */
    bw_plane_at at;
} bw_inward_water;
bw_inward_water bw_inward_water_of(const bw_section *section,
                                   size_t saturated_slab,
                                   const bw_boundary boundary[BW_MONTHS],
                                   const bw_section_assessment *part,
                                   const bw_monthly_result *inward);
/* Without an inward run it decides only where rain can wet an absorbing outer
 * layer. */
void bw_judge_inward(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section_assessment *part);

/* The words for a wall that dries both ways, one way only, or no way: what it
 * does with both open, outwards alone, inwards alone. */
const char *bw_ways_words(bool both, bool out, bool in);

/* The time of one way alone, shown; negative: it does not dry. */
void bw_judge_one_way(bw_rows *rows, bw_criterion_id id, double months,
                      const char *way, const char *time);

/* The wetting test by months, both ways and each alone: `put`, what was put
 * where and when; `meanwhile`, "" or what happens elsewhere. */
void bw_judge_ways(bw_rows *rows, const bw_water_drying *both,
                   const bw_water_drying *out, const bw_water_drying *in,
                   const char *put, const char *meanwhile);

/* The three wetted runs. */
void bw_judge_drying(bw_rows *rows, const bw_section_assessment *part);

void bw_judge_surfaces(bw_rows *rows, const bw_section_assessment *part);
/* One of them: the factor against mould, and the highest humidity. */
void bw_judge_factor(bw_rows *rows, bw_criterion_id id,
                     const bw_surface_result *surface);
void bw_judge_condensation(bw_rows *rows, const bw_surface_result *open);

void bw_judge_period(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section *section, const bw_period_result *period);

/* Months without a simulation, within their limits: a row where they cannot say
 * that it holds. */
void bw_judge_alone(bw_rows *rows, const bw_assembly *assembly,
                    const bw_section_assessment *part);

/* A floor of which nobody has said what lies below. */
void bw_judge_below(bw_rows *rows, const bw_assembly *assembly);

/* Of a leak: whether the air outside would condense in the wall. */
void bw_judge_outdoor_air(bw_rows *rows, const bw_assembly *assembly,
                          const bw_section_assessment *part);

/* Of a room far more humid than those that the leak's model was met in. */
void bw_judge_humid_room(bw_rows *rows, const bw_assembly *assembly,
                         const bw_section_assessment *part);

/* `part->has_transient` false: one row, transient_reason. */
void bw_judge_transient(bw_rows *rows, const bw_assembly *assembly,
                        const bw_section_assessment *part);

/* The water over the years of a simulation, of which `years` tells; `excuse`:
 * why what rises asks for an inspection only, or NULL. Returns its row. */
bw_row *bw_judge_years(bw_rows *rows, bool rising, bool periodic, bool drying,
                       double change, const char *excuse, const char *years);

/* A section as its places are judged. */
typedef struct bw_wall_judged {
    const bw_section *section;
    bw_geography geography;
    bool brings_water;  /* the file: leaking rain, a wet start */
    bool perishes;      /* something from the weather line on */
    const char *colder; /* what lies beyond is taken so, in words; or NULL */
} bw_wall_judged;

/* The parts of it: water that stands and hours near saturation at places at
 * risk; mould to its end; wood inside the weather line; the wetting test. */
void bw_judge_standing(bw_rows *rows, const bw_assembly *assembly,
                       const bw_section_assessment *part,
                       const bw_wall_judged *of);
void bw_judge_mould(bw_rows *rows, const bw_section_assessment *part,
                    const bw_wall_judged *of);
void bw_judge_wood(bw_rows *rows, const bw_section_assessment *part,
                   const bw_geography *geography);
void bw_judge_wetting(bw_rows *rows, const bw_assembly *assembly,
                      const bw_section_assessment *part);
/* What informs and never decides: mould dose, fixings, frost. */
void bw_judge_damage(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section_assessment *part,
                     const bw_wall_judged *of);
/* Condensate by months where the simulation stays near saturation. */
void bw_judge_both(bw_rows *rows, const bw_section_assessment *part,
                   const bw_geography *geography);
/* What lies under a tight covering, or a wooden floor, at the room face. */
void bw_judge_covering(bw_rows *rows, const bw_assembly *assembly,
                       const bw_section_assessment *part,
                       const bw_geography *geography);

/* The months at the inner face of a slab of the transient section: the most
 * condensate of all planes nearest to it [kg/m2], 0 without a design run; and
 * by how much [RH] the room's vapour, with leaking air where given, makes it
 * more humid than the outdoor air, in the worst month; HUGE_VAL where they do
 * not tell. */
double bw_months_condensate(const bw_section_assessment *part, size_t slab);
double bw_months_room_adds(const bw_section_assessment *part, size_t slab);

/* The rules of rows->profile, if it has any. */
void bw_judge_profile(bw_rows *rows, const bw_assembly *assembly,
                      const bw_section_assessment *part);

/* Water within a junction by months; `bound` where it ran. All that is judged
 * here is screening, which decides nothing where hours were simulated. */
void bw_judge_water(bw_rows *rows, const bw_junction_water *water,
                    const bw_junction_water *bound, bool simulated);

/* What is within a junction hour by hour; after bw_judge_water. */
void bw_judge_within(bw_rows *rows, const bw_junction_hours *hours,
                     const bw_junction_water *water);

#endif
