#include <math.h>

#include "assembly_options.h"
#include "fail.h"

/* <choices>: which layers are to be chosen, from what, within which limits.
 *
 * Invariant: a price, or an amount of carbon, is given of every option or of
 * none, so that no sum leaves one out. */

static bw_status read_choice(bw_reader *r, bw_choice *choice,
                             const xmlNode *node)
{
    const char *id;
    long index;
    BW_TRY(bw_read_attributes(r, node, "layer", "name", "thicknesses",
                              "thickness-from", "thickness-to",
                              "thickness-step"));
    BW_TRY(bw_read_children(r, node, "option"));
    BW_TRY(bw_read_required(r, &id, node, "layer", "membrane"));
    BW_TRY(bw_find_layer_id(r, &index, node, "layer"));
    const char *name = bw_xml_value(node, "name");
    choice->layer = (size_t)index;
    choice->line = bw_xml_line(node);
    choice->name = name != NULL && name[0] != '\0'
                       ? bw_keep(r, name)
                       : r->assembly->layer[index].id;
    BW_TRY(bw_read_options(r, choice, node));
    if (choice->option_count > 0)
        return BW_OK;
    return bw_refuse(r, node,
                     "holds no <option>; write one for each that may be built, "
                     "<option/> for the layer as drawn");
}

/* ---- limits and weights -------------------------------------------------- */

static const struct {
    const char *name;
    bw_dimension dimension; /* of a limit; BW_DIM_COUNT: has none */
    double high;
} goals[BW_GOAL_COUNT] = {
    [BW_GOAL_FAILING] = {"failing", BW_DIM_COUNT, 0.0},
    [BW_GOAL_U] = {"u", BW_DIM_TRANSMITTANCE, 20.0},
    [BW_GOAL_THICKNESS] = {"thickness", BW_DIM_LENGTH, 10.0},
    [BW_GOAL_RESERVE] = {"reserve", BW_DIM_COUNT, 0.0},
    [BW_GOAL_MOULD] = {"mould", BW_DIM_COUNT, 0.0},
    [BW_GOAL_WOOD] = {"wood", BW_DIM_COUNT, 0.0},
    [BW_GOAL_PRICE] = {"price", BW_DIM_PER_AREA, 1e9},
    [BW_GOAL_CARBON] = {"carbon", BW_DIM_AREAL_MASS, 1e9},
};

static const double LEAST = 1e-6; /* of a limit */

static bw_status read_limits(bw_reader *r, bw_choices *all, const xmlNode *node)
{
    BW_TRY(bw_read_childless(r, node, "u", "thickness", "price", "carbon"));
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        bool given;
        if (goals[g].dimension == BW_DIM_COUNT)
            continue;
        BW_TRY(bw_read_quantity(r, &all->most[g], &given, node, goals[g].name,
                                goals[g].dimension, LEAST, goals[g].high));
    }
    return BW_OK;
}

static bw_status read_weights(bw_reader *r, bw_choices *all,
                              const xmlNode *node)
{
    const char *allowed[BW_GOAL_COUNT];
    double sum = 0.0;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        allowed[g] = goals[g].name;
    BW_TRY(bw_xml_childless(&r->xml, node, allowed, BW_GOAL_COUNT, r->err));
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        bool given;
        BW_TRY(bw_read_quantity(r, &all->weight[g], &given, node, goals[g].name,
                                BW_DIM_NUMBER, 0.0, 1e6));
        sum += all->weight[g];
    }
    all->has_weights = true;
    if (sum > 0.0)
        return BW_OK;
    return bw_refuse(r, node,
                     "weighs nothing; give at least one of its attributes a "
                     "number above zero, or leave it out");
}

/* ---- all ----------------------------------------------------------------- */

/* `given` of every option or of none. */
static bw_status check_costs(bw_reader *r, bool *has, const bw_choices *all,
                             const char *name, const xmlNode *node,
                             double (*cost)(const bw_option *o))
{
    const bw_option *with = NULL, *without = NULL;
    for (size_t c = 0; c < all->choice_count; c++)
        for (size_t i = 0; i < all->choice[c].option_count; i++) {
            const bw_option *o = &all->choice[c].option[i];
            if (!isnan(cost(o)))
                with = with == NULL ? o : with;
            else if (o->layer != NULL && without == NULL)
                without = o;
        }
    *has = with != NULL;
    if (with == NULL || without == NULL)
        return BW_OK;
    return bw_refuse(r, node,
                     "has a %s= of the option \"%.60s\" (line %ld) and none of "
                     "\"%.60s\" (line %ld): a sum that leaves one out compares "
                     "unlike things. Give it for every option, \"0\" with its "
                     "unit where there is none, or for none",
                     name, with->name, with->line, without->name,
                     without->line);
}

static double price_of(const bw_option *o)
{
    return o->price;
}

static double carbon_of(const bw_option *o)
{
    return o->carbon;
}

static const bw_choice *choice_of(const bw_choices *all, size_t layer)
{
    for (size_t c = 0; c < all->choice_count; c++)
        if (all->choice[c].layer == layer)
            return &all->choice[c];
    return NULL;
}

/* From the room outwards, as far as every layer may be left out: what is met
 * may be the innermost one. */
static bw_status check_innermost(bw_reader *r, const bw_choices *all,
                                 const xmlNode *node)
{
    const bw_assembly *a = r->assembly;
    for (size_t i = a->layer_count; i-- > 0;) {
        const bw_choice *choice = choice_of(all, i);
        bool cavity = choice == NULL && a->layer[i].kind == BW_LAYER_CAVITY;
        bool none = false;
        for (size_t k = 0; choice != NULL && k < choice->option_count; k++) {
            const bw_layer *layer = choice->option[k].layer;
            none = none || layer == NULL;
            cavity = cavity ||
                     (layer != NULL && layer->kind == BW_LAYER_CAVITY);
        }
        if (cavity)
            return bw_refuse(
                r, node,
                "makes a design whose innermost layer is a cavity (\"%.60s\"): "
                "every layer between it and the room may be left out; keep one",
                a->layer[i].id);
        if (!none)
            return BW_OK;
    }
    return bw_refuse(r, node,
                     "makes a design without a layer: each of them may be left "
                     "out; keep one");
}

static bw_status check_all(bw_reader *r, bw_choices *all, const xmlNode *node)
{
    size_t designs = 1;
    for (size_t c = 0; c < all->choice_count; c++) {
        designs *= all->choice[c].option_count;
        if (designs > BW_DESIGNS_MOST)
            return bw_refuse(r, node,
                             "makes more than %d designs, the product of its "
                             "options; leave some out",
                             BW_DESIGNS_MOST);
        for (size_t k = 0; k < c; k++)
            if (all->choice[k].layer == all->choice[c].layer)
                return bw_fail(r->err, BW_ERR_INPUT, r->xml.path,
                               all->choice[c].line,
                               "<choice> layer=\"%.60s\" stands twice (also in "
                               "line %ld); one <choice> a layer",
                               r->assembly->layer[all->choice[c].layer].id,
                               all->choice[k].line);
    }
    BW_TRY(check_innermost(r, all, node));
    BW_TRY(check_costs(r, &all->has_price, all, "price", node, price_of));
    BW_TRY(check_costs(r, &all->has_carbon, all, "carbon", node, carbon_of));
    if (all->has_price && all->currency[0] == '\0')
        return bw_refuse(
            r, node,
            "has prices and no currency=; write for example currency=\"EUR\"");
    if ((all->most[BW_GOAL_PRICE] > 0.0 || all->weight[BW_GOAL_PRICE] > 0.0) &&
        !all->has_price)
        return bw_refuse(r, node,
                         "limits or weighs a price, and no option has one");
    if ((all->most[BW_GOAL_CARBON] > 0.0 ||
         all->weight[BW_GOAL_CARBON] > 0.0) &&
        !all->has_carbon)
        return bw_refuse(r, node,
                         "limits or weighs carbon, and no option has any");
    return BW_OK;
}

bw_status bw_read_choices(bw_reader *r, const xmlNode *node)
{
    bw_choices *all = &r->assembly->choices;
    bw_choice *choice = BW_NEW(r->arena, bw_choice, BW_CHOICES_MOST);
    xmlNode *limits, *weights;
    BW_TRY_MEMORY(choice != NULL, r->err);
    *all = (bw_choices){.choice = choice, .line = bw_xml_line(node)};
    BW_TRY(bw_read_attributes(r, node, "currency"));
    BW_TRY(bw_read_children(r, node, "choice", "limits", "weights"));
    all->currency = bw_keep(r, bw_xml_value(node, "currency"));
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        if (!bw_xml_is(c, "choice"))
            continue;
        if (all->choice_count == BW_CHOICES_MOST)
            return bw_refuse(r, c,
                             "is one too many: at most %d layers are chosen",
                             BW_CHOICES_MOST);
        BW_TRY(read_choice(r, &choice[all->choice_count], c));
        all->choice_count++;
    }
    if (all->choice_count == 0)
        return bw_refuse(r, node,
                         "holds no <choice>; write one for each layer that may "
                         "be made otherwise");
    BW_TRY(bw_xml_child(&limits, &r->xml, node, "limits", false, r->err));
    if (limits != NULL)
        BW_TRY(read_limits(r, all, limits));
    BW_TRY(bw_xml_child(&weights, &r->xml, node, "weights", false, r->err));
    if (weights != NULL)
        BW_TRY(read_weights(r, all, weights));
    return check_all(r, all, node);
}
