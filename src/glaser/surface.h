#ifndef BW_GLASER_SURFACE_H
#define BW_GLASER_SURFACE_H

/* Internal surface resistances [m2 K/W] for the surface check, with where
 * they come from. The corner's stands for less convection and radiation there;
 * it does not stand for the two-dimensional heat flow of a corner. */

#define BW_RSI_OPEN_WALL 0.25
#define BW_RSI_OPEN_WALL_SOURCE                                                \
    "ISO 13788:2012, opaque surfaces (from memory, high confidence)"

#define BW_RSI_CORNER 0.35
#define BW_RSI_CORNER_SOURCE                                                   \
    "the value remembered for the lower half of a room, EN ISO 13788:2001 "    \
    "(from memory, medium confidence), taken for a corner (estimate)"

#define BW_RSI_BEHIND_CUPBOARD 1.0
#define BW_RSI_BEHIND_CUPBOARD_SOURCE                                          \
    "DIN 4108-8:2010, fitted cupboards; 0.5 behind free-standing furniture "   \
    "(from memory, medium confidence)"

#endif
