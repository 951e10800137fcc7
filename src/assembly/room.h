#ifndef BW_ASSEMBLY_ROOM_H
#define BW_ASSEMBLY_ROOM_H

/* Rooms that cannot be: more vapour than air of that temperature holds. */

#include "bothways/assembly.h"

/* RH of the room [-]; above 1 only where a humidity class adds the vapour of
 * its people to outdoor air too warm or too humid for it, or where a program
 * says so. */
double bw_room_humidity(double temperature, double vapour_pressure);

/* Whether rh is more than saturation, beyond what rounding explains. */
bool bw_room_impossible(double rh);

/* Why, and what to write instead. when: "July", "312 hours of the year". */
void bw_room_reason(char *text, size_t size, const bw_indoors *indoors,
                    double rh, const char *when);

/* Is the air of two rooms stated alike? */
bool bw_room_same_air(const bw_indoors *a, const bw_indoors *b);

/* Indoor humidity one step up or down: a class; 10 points of RH; the other EN
 * 15026 curve; for monthly rows 10 points of RH (up only). False: there is no
 * such step. */
bool bw_indoors_step(bw_indoors *indoors, bool up);

#endif
