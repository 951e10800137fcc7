#ifndef BW_COMMAND_DATED_H
#define BW_COMMAND_DATED_H

#include "settings.h"

/* The date of what is written, held in `text` unless it is the one given; ""
 * when the machine has no calendar. BW_ERR_USAGE: no day, or after today. */
bw_status dated_find(const char **date, char text[32], const settings *given,
                     bw_error *err);

#endif
