#ifndef BW_COMMAND_VERIFY_H
#define BW_COMMAND_VERIFY_H

/* bothways audit --verify SHEET. */

#include "settings.h"

/* Says what has changed; *code stays as it is where nothing has. */
bw_status verify_sheet(int *code, const settings *given, bw_error *err);

#endif
