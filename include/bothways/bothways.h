#ifndef BOTHWAYS_BOTHWAYS_H
#define BOTHWAYS_BOTHWAYS_H

/** @file Everything the library offers. docs/library.md has an example. */

#include "bothways/air.h"
#include "bothways/assembly.h"
#include "bothways/assessment.h"
#include "bothways/audit.h"
#include "bothways/choose.h"
#include "bothways/choices.h"
#include "bothways/climate.h"
#include "bothways/compare.h"
#include "bothways/constants.h"
#include "bothways/criterion.h"
#include "bothways/decay.h"
#include "bothways/edit.h"
#include "bothways/error.h"
#include "bothways/exchange.h"
#include "bothways/export.h"
#include "bothways/geography.h"
#include "bothways/glaser.h"
#include "bothways/junction.h"
#include "bothways/log.h"
#include "bothways/margin.h"
#include "bothways/material.h"
#include "bothways/mould.h"
#include "bothways/profile.h"
#include "bothways/record.h"
#include "bothways/replay.h"
#include "bothways/report.h"
#include "bothways/sink.h"
#include "bothways/thermal.h"
#include "bothways/transient.h"

BW_BEGIN_C

/** "0.1.0"; never NULL. */
BW_API const char *bw_version(void);

BW_END_C

#endif
