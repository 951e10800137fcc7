/* Leaking air that the methods do not compute, or not for such a room: none of
 * it lets a wall hold.
 *
 *   V (v_i - v_sat)   what the leak that is computed brings, spread evenly
 *
 * Its V is the share of all leakage that grows cold on its way, met in ordinary
 * rooms [from memory, low confidence]. All of it leaves by single joints, and
 * what is deposited there grows with v_i. Invariant: nothing is read here of
 * what a method found, so no result excuses a room. */

#include "judge.h"

#include <math.h>

#include "bothways/air.h"

/* Whether outdoor air may leak in: what nobody has stated may, but for soil,
 * and where nothing perishes. */
static bool may_leak_in(const bw_assembly *assembly, const bw_section *section)
{
    const bw_air_leakage *air = &assembly->air_leakage;
    if (air->given || assembly->beyond.kind != NULL)
        return air->given && air->q50 > 0.0;
    bw_geography geography;
    bw_geography_find(&geography, assembly, section);
    return bw_anything_perishes(&geography, assembly, section);
}

/* A cooled room draws no water out of itself: what leaks in from outside does
 * the harm, and nothing computes it. */
void bw_judge_outdoor_air(bw_rows *rows, const bw_assembly *assembly,
                          const bw_section_assessment *part)
{
    static const double CLEARLY = 1.0; /* K */
    double most = CLEARLY;
    int when = -1;
    if (!may_leak_in(assembly, part->section))
        return;
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &part->boundary[m];
        const double above = bw_dew_point(b->p_e) - b->theta_i;
        if (above > most) {
            most = above;
            when = m;
        }
    }
    if (when >= 0)
        bw_rows_none(rows, BW_C_OUTDOOR_AIR,
                     bw_say(rows,
                            "in %s the dew point outside lies %.1f K above the "
                            "room: outdoor air that leaks in condenses in the "
                            "%s, and is not computed%s",
                            bw_month_name(when), most,
                            bw_element_text(assembly->element),
                            assembly->air_leakage.given
                                ? ""
                                : "; air-leakage is not given"));
}

/* The month in which the room's air has most vapour above that outside [Pa]. */
static double most_excess(const bw_section_assessment *part, int *when)
{
    double most = -HUGE_VAL;
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &part->boundary[m];
        if (b->p_i - b->p_e > most) {
            most = b->p_i - b->p_e;
            *when = m;
        }
    }
    return most;
}

/* As tight as the leakage model's least step. */
static const double TIGHT = 1.0 / 3600.0; /* m3/(m2 s) at 50 Pa */

void bw_judge_humid_room(bw_rows *rows, const bw_assembly *assembly,
                         const bw_section_assessment *part)
{
    const bw_air_leakage *air = &assembly->air_leakage;
    int when = 0;
    const double excess = most_excess(part, &when);
    if (!(excess > bw_limit_under(rows->profile, BW_C_HUMID_ROOM, 0)) ||
        (air->given && air->tested && air->q50 <= TIGHT))
        return;
    bw_geography geography;
    bw_geography_find(&geography, assembly, part->section);
    if (!bw_water_reaches_what_perishes(assembly, part->section,
                                        geography.leak))
        return;
    const char *room = bw_say(rows,
                              "%.0f Pa more vapour in the room than outdoors "
                              "in %s",
                              excess, bw_month_name(when));
    if (!air->given) {
        bw_rows_none(rows, BW_C_HUMID_ROOM,
                     bw_say(rows, "%s, and air-leakage is not given", room));
        return;
    }
    const char *how = air->q50 <= TIGHT ? "no air test has shown its q50"
                                        : "its q50 is above 1 m3/(m2 h)";
    bw_rows_judge(rows, BW_C_HUMID_ROOM, excess,
                  bw_say(rows,
                         "%s, and %s: more leaves by one joint than is spread "
                         "here over the face",
                         room, how));
}
