#include "assembly_reader.h"
#include "fail.h"
#include "number.h"

/* The moisture that a material is built in with. */

static bw_status check_room(bw_reader *r, const bw_material *m, double moisture,
                            const xmlNode *node)
{
    if (!m->density.known || moisture <= bw_material_most_moisture(m))
        return BW_OK;
    return bw_refuse_at(
        r, node, "initial-moisture",
        "is more than %s holds: with %s %% of it pores%s it takes at most %s "
        "%% by mass",
        m->name, BW_NUMBER_G(100 * bw_material_pores(m), 3),
        m->porosity.known ? "" : ", estimated from its density,",
        BW_NUMBER_G(100 * bw_material_most_moisture(m), 3));
}

bw_status bw_read_initial(bw_reader *r, bw_initial *out, const bw_material *m,
                          const xmlNode *node)
{
    bool moisture, humidity;
    BW_TRY(bw_read_quantity(r, &out->value, &moisture, node, "initial-moisture",
                            BW_DIM_RATIO, 0.0, 10.0));
    BW_TRY(bw_read_quantity(r, &out->value, &humidity, node,
                            "initial-relative-humidity", BW_DIM_FRACTION, 0.0,
                            1.0));
    if (moisture && humidity)
        return bw_refuse_at(r, node, "initial-moisture",
                            "and initial-relative-humidity= say the same thing "
                            "twice; give one");
    out->given = moisture || humidity;
    out->is_rh = humidity;
    return moisture ? check_room(r, m, out->value, node) : BW_OK;
}
