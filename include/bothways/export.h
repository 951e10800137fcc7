#ifndef BOTHWAYS_EXPORT_H
#define BOTHWAYS_EXPORT_H

/** @file
 * Marks what the shared library exports.
 *
 * Words used in every header of this folder:
 *  - "out-parameter": written only on success, except `bw_error *err`, which
 *    is written only on failure and may always be NULL;
 *  - `**out` is the caller's to free with the function named beside it;
 *    a plain returned pointer is borrowed from the object it came from;
 *  - temperatures named theta or temperature are in degrees Celsius, those
 *    named T in kelvin; every other quantity is in SI units without prefix.
 * No function here prints, aborts, keeps global state or follows the locale.
 */

#if defined(__GNUC__)
#define BW_API __attribute__((visibility("default")))
#define BW_PRINTF(fmt, args) __attribute__((format(printf, fmt, args)))
#else
#define BW_API
#define BW_PRINTF(fmt, args)
#endif

/* Around declarations, so that C++ links them as C. */
#ifdef __cplusplus
#define BW_BEGIN_C extern "C" {
#define BW_END_C }
#else
#define BW_BEGIN_C
#define BW_END_C
#endif

#endif
