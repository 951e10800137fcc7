/* The result tables of the contract, and each as CSV. Invariant: header, keys
 * and description of a table come from the calls that print its rows. */

#include "table.h"

#include "fail.h"

enum { HOURS_A_YEAR = 8760 };

#define LISTED(id, name, held) [BW_TABLE_##id] = &bw_table_##name,
static const bw_table_facts *const tables[BW_TABLE_COUNT] = {
    BW_EVERY_TABLE(LISTED)};

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
    return bw_fail_domain(err, "a step of %zu h is not within 1 to %d h",
                          results->step, HOURS_A_YEAR);
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
#define HELD(id, name, held) [BW_TABLE_##id] = (held),
    const bool have[BW_TABLE_COUNT] = {BW_EVERY_TABLE(HELD)};
    return (size_t)table < BW_TABLE_COUNT && have[table];
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
        return bw_fail_domain(err, "there is no table %d", (int)table);
    BW_TRY(bw_check_step(results, err));
    bw_cells c;
    bw_cells_start(&c, results, false, sink, payload);
    if (!results->goes_on)
        put_header(&c, table);
    bw_cells_rows(&c, table);
    return bw_page_finish(&c.page, tables[table]->file, err);
}
