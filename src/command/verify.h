#ifndef BW_COMMAND_VERIFY_H
#define BW_COMMAND_VERIFY_H

/* bothways audit --verify SHEET. */

#include "settings.h"

/* Says what has changed; returns the exit status: 0 nothing, 4 something. */
int verify_sheet(const settings *given);

#endif
