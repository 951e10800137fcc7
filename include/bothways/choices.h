#ifndef BOTHWAYS_CHOICES_H
#define BOTHWAYS_CHOICES_H

/** @file
 * What is to be chosen from: the <choices> of an assembly file as read, part of
 * the assembly (assembly.h); used by `choose` (choose.h).
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/export.h"
#include "bothways/material.h"

BW_BEGIN_C

struct bw_layer; /* assembly.h */

/** What is sought: less of each but the drying reserve. */
typedef enum bw_goal {
    BW_GOAL_FAILING,   /**< share of the drawn cases in which the wall fails */
    BW_GOAL_U,         /**< W/(m2 K) */
    BW_GOAL_THICKNESS, /**< m */
    BW_GOAL_RESERVE,   /**< kg/(m2 a), drying reserve: more is better */
    BW_GOAL_MOULD,     /**< mould index at hidden faces */
    BW_GOAL_WOOD,      /**< moisture of wood and panels, percent of its limit */
    BW_GOAL_PRICE,     /**< per m2 */
    BW_GOAL_CARBON,    /**< kg/m2 of CO2 equivalent */
    BW_GOAL_COUNT,
} bw_goal;

/** One way in which a layer may be made. A list of thicknesses is read as so
 *  many options. */
typedef struct bw_option {
    const char *name;
    const struct bw_layer *layer; /**< NULL: the layer is left out. As drawn:
                                 that of the assembly */
    bool as_drawn;
    double price;           /**< per m2; NAN: none is given */
    double carbon;          /**< kg/m2; NAN: none is given */
    bw_evidence price_evidence, carbon_evidence;
    const char *price_source, *carbon_source; /**< "" if none is given */
    long line;
} bw_option;

/** Most options of a layer, most layers with some, and most designs. */
enum { BW_OPTIONS_MOST = 64, BW_CHOICES_MOST = 16, BW_DESIGNS_MOST = 4096 };

/** One layer with its options. */
typedef struct bw_choice {
    size_t layer;           /**< index */
    const char *name;       /**< of what is chosen; the id of the layer unless
                                 the file has another */
    size_t option_count;
    const bw_option *option;
    long line;
} bw_choice;

/** <choices>. */
typedef struct bw_choices {
    size_t choice_count;    /**< 0: none given */
    const bw_choice *choice; /**< in the order of the file */
    const char *currency;   /**< of the prices; "" if none is given */
    bool has_price, has_carbon; /**< every option has one, or none has */
    double most[BW_GOAL_COUNT]; /**< of U, thickness, price, carbon: at most;
                                 0: no limit */
    bool has_weights;
    double weight[BW_GOAL_COUNT]; /**< what the user finds how important; 0: not
                                 at all */
    long line;
} bw_choices;

BW_END_C

#endif
