#ifndef BOTHWAYS_SINK_H
#define BOTHWAYS_SINK_H

/** @file Where text goes that the library writes. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/export.h"

BW_BEGIN_C

/** Receives bytes; return false to stop (disk full). */
typedef bool bw_sink(void *payload, const char *bytes, size_t length);

BW_END_C

#endif
