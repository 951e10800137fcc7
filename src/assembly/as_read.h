#ifndef BW_ASSEMBLY_AS_READ_H
#define BW_ASSEMBLY_AS_READ_H

/* What a meter shows, put right for the temperature of the wood. */

#include "bothways/assembly.h"

/* Was it noted as shown, and is the wood's temperature known and within what
 * the formula is for? */
bool bw_reading_is_correctable(const bw_reading *reading);

/* What a meter shows [kg/kg] of wood at theta [degC], put right. */
double bw_moisture_at_temperature(double shown, double theta);

/* What counts of a reading whose `shown` is set [kg/kg]: corrected where that
 * is more. */
double bw_reading_moisture(const bw_reading *reading);

#endif
