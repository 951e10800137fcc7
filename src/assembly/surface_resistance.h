#ifndef BW_ASSEMBLY_SURFACE_RESISTANCE_H
#define BW_ASSEMBLY_SURFACE_RESISTANCE_H

/* Surface resistances [m2 K/W], once for all folders.
 * ISO 6946:2017 table 7 (from memory, high confidence). */
#define BW_RSI_UP 0.10
#define BW_RSI_HORIZONTAL 0.13
#define BW_RSI_DOWN 0.17
#define BW_RSE_ISO_6946 0.04

/* Moisture checks: DIN 4108-3's choice (docs/methods.md, section 1). */
#define BW_RSI_MOISTURE 0.25
#define BW_RSE_MOISTURE 0.04

#endif
