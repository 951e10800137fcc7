/* The result tables of the contract, and each as CSV. Invariant: header, keys
 * and description of a table come from the calls that print its rows. */

#include "table.h"

#include "fail.h"

enum { HOURS_A_YEAR = 8760 };

static const bw_table_facts *const tables[BW_TABLE_COUNT] = {
    [BW_TABLE_VERDICT] = &bw_table_verdict,
    [BW_TABLE_LAYERS] = &bw_table_layers,
    [BW_TABLE_MONTHLY] = &bw_table_monthly,
    [BW_TABLE_SURFACE] = &bw_table_surface,
    [BW_TABLE_PERIOD] = &bw_table_period,
    [BW_TABLE_CONVERGENCE] = &bw_table_convergence,
    [BW_TABLE_WETTING] = &bw_table_wetting,
    [BW_TABLE_DAMAGE] = &bw_table_damage,
    [BW_TABLE_FROST] = &bw_table_frost,
    [BW_TABLE_HOURLY] = &bw_table_hourly,
    [BW_TABLE_COMPARE] = &bw_table_compare,
    [BW_TABLE_STRESSES] = &bw_table_stresses,
    [BW_TABLE_AUDIT] = &bw_table_audit,
    [BW_TABLE_MARGIN] = &bw_table_margin,
    [BW_TABLE_MARGIN_SAMPLES] = &bw_table_margin_samples,
    [BW_TABLE_SD_MAP] = &bw_table_sd_map,
    [BW_TABLE_MARGIN_SUMMARY] = &bw_table_margin_summary,
    [BW_TABLE_MARGIN_CASES] = &bw_table_margin_cases,
    [BW_TABLE_CHOOSE] = &bw_table_choose,
    [BW_TABLE_CHOOSE_FINDINGS] = &bw_table_choose_findings,
    [BW_TABLE_CHOOSE_SUMMARY] = &bw_table_choose_summary,
    [BW_TABLE_MATERIALS] = &bw_table_materials,
    [BW_TABLE_JUNCTION] = &bw_table_junction,
    [BW_TABLE_JUNCTION_HEAT] = &bw_table_junction_heat,
    [BW_TABLE_JUNCTION_FIELD] = &bw_table_junction_field,
    [BW_TABLE_JUNCTION_WATER] = &bw_table_junction_water,
    [BW_TABLE_REPLAY] = &bw_table_replay,
    [BW_TABLE_REPLAY_INPUTS] = &bw_table_replay_inputs,
    [BW_TABLE_REPLAY_DOUBTS] = &bw_table_replay_doubts,
    [BW_TABLE_REPLAY_HOURS] = &bw_table_replay_hours,
    [BW_TABLE_JUNCTION_FACES] = &bw_table_junction_faces,
    [BW_TABLE_JUNCTION_YEAR] = &bw_table_junction_year,
    [BW_TABLE_JUNCTION_SPOTS] = &bw_table_junction_spots,
};

/* ---- rows --------------------------------------------------------------- */

void bw_cells_rows(bw_cells *c, bw_table table)
{
    const bw_results *results = c->results;
    c->table = tables[table];
    c->more = results->goes_on;
    if (!bw_results_have(results, table))
        return;
    if (c->table->of == BW_BY_RESULTS) {
        c->table->rows(c);
        return;
    }
    for (size_t i = 0; i < results->wall_count; i++) {
        c->wall = results->wall[i];
        for (size_t k = 0; k < c->wall->section_count; k++) {
            c->part = &c->wall->section[k];
            c->table->rows(c);
        }
    }
}

bw_status bw_check_step(const bw_results *results, bw_error *err)
{
    if (results->step <= HOURS_A_YEAR)
        return BW_OK;
    return bw_fail(err, BW_ERR_DOMAIN, NULL, 0,
                   "a step of %zu h is not within 1 to %d h", results->step,
                   HOURS_A_YEAR);
}

/* ---- what there is ------------------------------------------------------- */

const char *bw_table_file(bw_table table)
{
    return (size_t)table < BW_TABLE_COUNT ? tables[table]->file : "";
}

const char *bw_table_row(bw_table table)
{
    return (size_t)table < BW_TABLE_COUNT ? tables[table]->row : "";
}

size_t bw_table_columns(bw_column column[BW_COLUMNS_MOST], bw_table table)
{
    bw_cells c = {.listed = column};
    if ((size_t)table < BW_TABLE_COUNT)
        tables[table]->columns(&c, NULL);
    return c.count;
}

static bool converged(const bw_results *results)
{
    for (size_t i = 0; i < results->wall_count; i++)
        for (size_t k = 0; k < results->wall[i]->section_count; k++)
            if (results->wall[i]->section[k].has_convergence)
                return true;
    return false;
}

bool bw_results_have(const bw_results *results, bw_table table)
{
    switch (table) {
    case BW_TABLE_CONVERGENCE:
        return converged(results);
    case BW_TABLE_COMPARE:
    case BW_TABLE_STRESSES:
        return results->comparison != NULL;
    case BW_TABLE_AUDIT:
        return results->audit != NULL || results->house != NULL;
    case BW_TABLE_MATERIALS:
        return results->material != NULL;
    case BW_TABLE_CHOOSE:
    case BW_TABLE_CHOOSE_FINDINGS:
    case BW_TABLE_CHOOSE_SUMMARY:
        return results->chosen != NULL;
    case BW_TABLE_JUNCTION:
    case BW_TABLE_JUNCTION_HEAT:
    case BW_TABLE_JUNCTION_FIELD:
    case BW_TABLE_JUNCTION_WATER:
    case BW_TABLE_JUNCTION_FACES:
    case BW_TABLE_JUNCTION_YEAR:
    case BW_TABLE_JUNCTION_SPOTS:
        return results->junction != NULL;
    case BW_TABLE_REPLAY:
    case BW_TABLE_REPLAY_INPUTS:
    case BW_TABLE_REPLAY_DOUBTS:
    case BW_TABLE_REPLAY_HOURS:
        return results->replay != NULL;
    default:
        break;
    }
    return table < BW_TABLE_COMPARE ? results->wall_count > 0
                                    : results->margin != NULL;
}

/* ---- CSV --------------------------------------------------------------- */

static void put_header(bw_cells *c, bw_table table)
{
    bw_column column[BW_COLUMNS_MOST];
    const size_t count = bw_table_columns(column, table);
    for (size_t i = 0; i < count; i++) {
        bw_write_text(&c->page.out, i > 0 ? "," : "");
        bw_write_text(&c->page.out, column[i].name);
    }
    bw_write_text(&c->page.out, "\n");
}

bw_status bw_report_table(const bw_results *results, bw_table table,
                          bw_sink *sink, void *payload, bw_error *err)
{
    if ((size_t)table >= BW_TABLE_COUNT)
        return bw_fail(err, BW_ERR_DOMAIN, NULL, 0, "there is no table %d",
                       (int)table);
    BW_TRY(bw_check_step(results, err));
    bw_cells c;
    bw_cells_start(&c, results, false, sink, payload);
    if (!results->goes_on)
        put_header(&c, table);
    bw_cells_rows(&c, table);
    return bw_page_finish(&c.page, tables[table]->file, err);
}
