#ifndef BW_EXCHANGE_SKELETON_LAYER_H
#define BW_EXCHANGE_SKELETON_LAYER_H

#include "gbxml.h"
#include "skeleton.h"

/* One skeleton being made. */
typedef struct bw_skeleton_maker {
    bw_skeleton_owner *to;
    const bw_gbxml_owner *from;
    const char *permeance_unit; /* of PermSI; NULL: not said */
    bool used_permeance_unit;
    const bw_library *library; /* what is proposed from; NULL: nothing */
    bw_error *err;
    const char *ids[BW_GBXML_LAYERS_MOST];
    size_t count;
} bw_skeleton_maker;

/* Writes one layer, and lists what it lacks. */
bw_status bw_skeleton_put_layer(bw_skeleton_maker *m,
                                const bw_gbxml_layer *layer);

#endif
