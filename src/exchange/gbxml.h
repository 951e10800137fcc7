#ifndef BW_EXCHANGE_GBXML_H
#define BW_EXCHANGE_GBXML_H

/* gbXML 6.01 as it lies in the file. Order of layers: outside to inside. */

#include "arena.h"
#include "bothways/exchange.h"
#include "xml.h"

#define BW_GBXML_NAME_SPACE "http://www.gbxml.org/schema"

typedef struct bw_gbxml_owner {
    bw_gbxml file; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_xml xml;
} bw_gbxml_owner;

/* The first child of that name, and the next sibling; NULL if none. */
xmlNode *bw_gbxml_first(const xmlNode *node, const char *name);
xmlNode *bw_gbxml_next(const xmlNode *node, const char *name);

/* The text in an element, outer and repeated blanks taken out, in the arena;
 * "" if there is none. NULL when out of memory. */
const char *bw_gbxml_text(bw_arena *arena, const xmlNode *node);

/* The text of the first child of that name; "" if there is none. */
const char *bw_gbxml_child_text(bw_arena *arena, const xmlNode *node,
                                const char *name);

/* ---- quantities: gbxml_units.c ----------------------------------------- */

typedef enum bw_gbxml_kind {
    BW_GBXML_THICKNESS,     /* m */
    BW_GBXML_CONDUCTIVITY,  /* W/(m K) */
    BW_GBXML_RESISTANCE,    /* m2 K/W */
    BW_GBXML_DENSITY,       /* kg/m3 */
    BW_GBXML_SPECIFIC_HEAT, /* J/(kg K) */
    BW_GBXML_PERMEANCE,     /* as written: the unit says what */
    BW_GBXML_KINDS
} bw_gbxml_kind;

/* The element that holds it, "R-value". */
const char *bw_gbxml_element(bw_gbxml_kind kind);

typedef struct bw_gbxml_quantity {
    bool given;
    double value;     /* SI, but for a permeance */
    const char *unit; /* of a permeance: "PermSI" or "PermIP" */
    bool repeated;    /* the element stands more than once: the first counts */
    long line;
} bw_gbxml_quantity;

/* Reads one quantity of a <Material>; absent: not given. A thickness without
 * unit takes the root's lengthUnit. */
bw_status bw_gbxml_read_quantity(bw_gbxml_quantity *out,
                                 const bw_gbxml_owner *owner,
                                 const xmlNode *material, bw_gbxml_kind kind,
                                 bw_error *err);

/* ---- layers: gbxml_layers.c -------------------------------------------- */

enum { BW_GBXML_LAYERS_MOST = 64, BW_GBXML_PARTS_MOST = 8 };

/* What a part of a layer is made of. */
typedef struct bw_gbxml_material {
    const char *id, *name, *description;
    double percent; /* of the layer; 0: not said */
    bw_gbxml_quantity quantity[BW_GBXML_KINDS];
} bw_gbxml_material;

/* One layer of the wall; part[0] is the largest. */
typedef struct bw_gbxml_layer {
    const char *id, *name;
    size_t part_count;
    bw_gbxml_material part[BW_GBXML_PARTS_MOST];
} bw_gbxml_layer;

typedef struct bw_gbxml_build_up {
    size_t count;
    bw_gbxml_layer layer[BW_GBXML_LAYERS_MOST];
    size_t stacked; /* <Layer> elements that list materials one behind the
                       other */
} bw_gbxml_build_up;

/* Resolves a construction. Strings are in `arena`. */
bw_status bw_gbxml_build_up_read(bw_gbxml_build_up *out, bw_arena *arena,
                                 const bw_gbxml_owner *owner,
                                 const xmlNode *construction, bw_error *err);

/* The <Construction> of that id, NULL if there is none. */
const xmlNode *bw_gbxml_construction(const bw_gbxml_owner *owner,
                                     const char *id);

/* What surfaces use a construction for. */
typedef struct bw_gbxml_use {
    size_t surfaces, roofs, floors, inside, ground;
} bw_gbxml_use;

bw_gbxml_use bw_gbxml_use_of(const bw_gbxml_owner *owner,
                             const char *construction);

#endif
