#ifndef BW_ASSEMBLY_CHANGE_SIDES_H
#define BW_ASSEMBLY_CHANGE_SIDES_H

/* Changes of what a wall stands in; `to` is the copy that change.c makes. */

#include "change.h"

void bw_make_step_humidity(bw_assembly *to, const bw_change *c);
void bw_make_class(bw_assembly *to, const bw_change *c);
void bw_make_room(bw_assembly *to, const bw_change *c);
void bw_make_air_leakage(bw_assembly *to, const bw_change *c);
void bw_make_leak_rain(bw_assembly *to, const bw_change *c);
void bw_make_driving_rain(bw_assembly *to, const bw_change *c);
void bw_make_wind(bw_assembly *to, const bw_change *c);
void bw_make_sun(bw_assembly *to, const bw_change *c);

#endif
