/* The list of materials. */

#include "table.h"

static double known(const bw_property *property)
{
    return property->known ? property->value : (double)NAN;
}

static void material_columns(bw_cells *c, const void *row)
{
    const bw_material *r = row;
    BW_TEXT(c, "id", "id of the material", r->id);
    BW_TEXT_IF(c, "name", "its name", true, r->name);
    BW_TEXT_IF(c, "group", "group it is listed in", true, r->group);
    BW_NUMBER_IF(c, "density_kg_m3", "kg/m3", "density", true,
                 known(&r->density));
    BW_NUMBER_IF(c, "lambda_W_mK", "W/(m.K)", "thermal conductivity", true,
                 known(&r->thermal_conductivity));
    BW_NUMBER_IF(c, "specific_heat_J_kgK", "J/(kg.K)", "specific heat", true,
                 known(&r->specific_heat));
    BW_NUMBER_IF(c, "mu_dry", "-", "vapour resistance factor, dry cup", true,
                 known(&r->mu_dry));
    BW_NUMBER_IF(c, "mu_wet", "-", "vapour resistance factor, wet cup", true,
                 known(&r->mu_wet));
    BW_NUMBER_IF(c, "sd_m", "m",
                 "vapour resistance as a thickness of air, of a sheet", true,
                 known(&r->sd));
    BW_TEXT(c, "hygroscopic", "`yes`: it takes up vapour; `no`",
            bw_yes_no(r->hygroscopic));
}

static void material_rows(bw_cells *c)
{
    for (size_t i = 0; i < c->results->material_count; i++)
        bw_row(c, c->results->material[i]);
}

const bw_table_facts bw_table_materials = {
    "materials.csv", "A material of the library (`materials`).",
    material_columns, material_rows, BW_BY_RESULTS};
