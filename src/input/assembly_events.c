
#include "assembly_reader.h"
#include "beyond.h"
#include "fail.h"
#include "text.h"

/* What happens to the wall (air leakage, wetting, rain) and what was seen
 * before it was closed. */

/* ---- references to layers ---------------------------------------------- */

bw_status bw_find_layer_id(bw_reader *r, long *index, const xmlNode *node,
                           const char *name)
{
    const char *words[BW_MOST_LAYERS];
    const bw_assembly *a = r->assembly;
    const char *id = bw_xml_value(node, name);
    char list[240];
    *index = bw_assembly_layer(a, id);
    if (*index < 0) {
        for (size_t i = 0; i < a->layer_count; i++)
            words[i] = a->layer[i].id;
        return bw_refuse_at(
            r, node, name, "is no layer's id%s; there are: %s",
            bw_text_meant((char[BW_MEANT]){0}, id, words, a->layer_count),
            bw_xml_list(list, sizeof list, words, a->layer_count));
    }
    return BW_OK;
}

bw_status bw_read_layer_id(bw_reader *r, long *index, const xmlNode *node,
                           const char *name)
{
    BW_TRY(bw_find_layer_id(r, index, node, name));
    if (*index == (long)r->assembly->layer_count - 1)
        return bw_refuse_at(r, node, name,
                            "is the innermost layer, whose inner face is the "
                            "room's; name a layer further out");
    return BW_OK;
}

static bw_status read_leakage(bw_reader *r, const xmlNode *node)
{
    bw_air_leakage *leak = &r->assembly->air_leakage;
    bw_evidence evidence = BW_EVIDENCE_ASSUMED;
    bool given;
    BW_TRY(bw_read_childless(r, node, "q50", "connected-height", "evidence",
                             "source"));
    BW_TRY(bw_read_quantity(r, &leak->q50, NULL, node, "q50",
                            BW_DIM_AIR_PERMEABILITY, 0.0, 100.0 / 3600.0));
    BW_TRY(bw_read_quantity(r, &leak->connected_height, NULL, node,
                            "connected-height", BW_DIM_LENGTH, 0.1, 200.0));
    BW_TRY(bw_read_evidence(r, &evidence, &given, node));
    leak->tested = evidence == BW_EVIDENCE_MEASURED;
    leak->given = true;
    return BW_OK;
}

static bw_status read_drying(bw_reader *r, const xmlNode *node)
{
    bw_drying_test *test = &r->assembly->drying_test;
    int month;
    bool given;
    BW_TRY(bw_read_childless(r, node, "wetting", "after-layer", "start-month"));
    BW_TRY(bw_read_quantity(r, &test->wetting, &given, node, "wetting",
                            BW_DIM_AREAL_MASS, 0.001, 100.0));
    BW_TRY(bw_read_whole(r, &month, &given, node, "start-month", 1, 12));
    if (given)
        test->start_month = month - 1;
    if (bw_xml_value(node, "after-layer") == NULL)
        return BW_OK;
    return bw_read_layer_id(r, &test->after_layer, node, "after-layer");
}

static bw_status read_rain_leak(bw_reader *r, const xmlNode *node)
{
    bw_rain_leak *leak = &r->assembly->rain_leak;
    const char *id;
    BW_TRY(bw_read_childless(r, node, "fraction", "after-layer"));
    BW_TRY(bw_read_quantity(r, &leak->fraction, NULL, node, "fraction",
                            BW_DIM_FRACTION, 0.0, 1.0));
    BW_TRY(bw_read_required(r, &id, node, "after-layer", "sheathing"));
    if (r->assembly->beyond.kind != NULL)
        return bw_refuse(r, node,
                         "is of rain, which falls on no face against %s "
                         "(<%s>); leave it out",
                         bw_beyond_against(r->assembly),
                         bw_beyond_element(&r->assembly->beyond));
    leak->given = true;
    return bw_read_layer_id(r, &leak->after_layer, node, "after-layer");
}

bw_status bw_read_events(bw_reader *r)
{
    bw_assembly *a = r->assembly;
    a->drying_test = (bw_drying_test){1.0, -1, -1};
    a->rain_leak.after_layer = -1;
    BW_TRY(bw_read_child(r, "air-leakage", false, read_leakage));
    BW_TRY(bw_read_child(r, "drying-test", false, read_drying));
    BW_TRY(bw_read_child(r, "rain-leak", false, read_rain_leak));
    return bw_read_child(r, "closing-up", false, bw_read_closing_up);
}
