/* The result tables as one JSON document (RFC 8259): a row of a table is an
 * object by the names of its columns. */

#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "fail.h"
#include "table.h"

static void put_pair(bw_writer *out, const char *name, const char *text)
{
    bw_json_text(out, name);
    bw_write_text(out, ": ");
    bw_json_text(out, text);
}

/* A comparison has its own verdicts of the walls. */
static bw_verdict verdict_of(const bw_results *results, size_t i)
{
    return results->comparison != NULL ? results->comparison->wall[i].verdict
                                       : results->wall[i]->verdict;
}

bw_verdict bw_verdict_worse(bw_verdict a, bw_verdict b)
{
    static const int rank[] = {[BW_HOLDS] = 0,
                               [BW_MARGINAL] = 1,
                               [BW_NOT_ASSESSED] = 2,
                               [BW_FAILS] = 3};
    return rank[b] > rank[a] ? b : a;
}

bw_verdict bw_results_verdict(const bw_results *results)
{
    bw_verdict worst = results->junction != NULL ? results->junction->verdict
                                                 : BW_HOLDS;
    for (size_t i = 0; i < results->wall_count; i++)
        worst = bw_verdict_worse(worst, verdict_of(results, i));
    return worst;
}

/* How many changes were made while the wall was read; nothing if none. */
static void put_changes(bw_writer *out, const bw_results *results, size_t i)
{
    char text[48];
    const bw_assessment *wall = results->comparison != NULL
                                    ? results->comparison->wall[i].assessment
                                    : results->wall[i];
    if (wall->assembly->edit_count == 0)
        return;
    snprintf(text, sizeof text, ", \"changes\": %zu",
             wall->assembly->edit_count);
    bw_write_text(out, text);
}

static void put_walls(bw_writer *out, const bw_results *results)
{
    for (size_t i = 0; i < results->wall_count; i++) {
        bw_write_text(out, i > 0 || results->goes_on ? ",\n{" : "\n{");
        put_pair(out, "wall",
                 results->comparison != NULL
                     ? results->comparison->wall[i].label
                     : results->wall[i]->assembly->id);
        bw_write_text(out, ", ");
        put_pair(out, "verdict", bw_verdict_text(verdict_of(results, i)));
        put_changes(out, results, i);
        bw_write_text(out, "}");
    }
}

bool bw_report_json_has(const bw_results *results, bw_table table)
{
    return bw_results_have(results, table) &&
           ((table != BW_TABLE_HOURLY && table != BW_TABLE_REPLAY_HOURS) ||
            results->step > 0);
}

bw_status bw_report_json_part(const bw_results *results, bw_table table,
                              bw_sink *sink, void *payload, bw_error *err)
{
    bw_cells c;
    BW_TRY(bw_check_step(results, err));
    bw_cells_start(&c, results, true, sink, payload);
    if (table == BW_TABLE_COUNT)
        put_walls(&c.page.out, results);
    else
        bw_cells_rows(&c, table);
    return bw_page_finish(&c.page, "the document", err);
}

/* ---- the document -------------------------------------------------------- */

typedef struct document {
    bw_json_part *part;
    void *of;
    bw_sink *sink;
    void *payload;
    bw_writer out;
    bw_error *err;
} document;

/* A part writes past what is kept here: that goes first. */
static bw_status put_part(document *d, bw_table table)
{
    if (!bw_writer_finish(&d->out))
        return BW_OK; /* told at the end */
    return d->part(d->of, table, d->sink, d->payload, d->err);
}

static bw_status put_tables(document *d, const bool have[BW_TABLE_COUNT])
{
    bool first = true;
    for (int i = 0; i < BW_TABLE_COUNT; i++) {
        const char *file = bw_table_file((bw_table)i);
        if (!have[i])
            continue;
        bw_write_text(&d->out, first ? "\n\"" : ",\n\"");
        bw_write_part(&d->out, file, strcspn(file, "."));
        bw_write_text(&d->out, "\": [");
        BW_TRY(put_part(d, (bw_table)i));
        bw_write_text(&d->out, "\n]");
        first = false;
    }
    return BW_OK;
}

static bw_status put_document(document *d, const char *verdict,
                              const bool have[BW_TABLE_COUNT])
{
    bw_writer_start(&d->out, d->sink, d->payload);
    bw_write_text(&d->out, "{\n");
    put_pair(&d->out, "version", bw_version());
    bw_write_text(&d->out, ",\n");
    if (verdict != NULL) {
        put_pair(&d->out, "verdict", verdict);
        bw_write_text(&d->out, ",\n\"walls\": [");
        BW_TRY(put_part(d, BW_TABLE_COUNT));
        bw_write_text(&d->out, "\n],\n");
    }
    bw_write_text(&d->out, "\"tables\": {");
    BW_TRY(put_tables(d, have));
    bw_write_text(&d->out, "\n}\n}\n");
    if (bw_writer_finish(&d->out))
        return BW_OK;
    return bw_fail(d->err, BW_ERR_IO, NULL, 0,
                   "the document could not be written");
}

bw_status bw_report_json_parts(bw_verdict verdict,
                               const bool have[BW_TABLE_COUNT],
                               bw_json_part *part, void *of, bw_sink *sink,
                               void *payload, bw_error *err)
{
    document d = {
        .part = part, .of = of, .sink = sink, .payload = payload, .err = err};
    return put_document(&d, bw_verdict_text(verdict), have);
}

static bw_status part_of(void *payload, bw_table table, bw_sink *sink, void *to,
                         bw_error *err)
{
    return bw_report_json_part(payload, table, sink, to, err);
}

bw_status bw_report_json(const bw_results *results, bw_sink *sink,
                         void *payload, bw_error *err)
{
    bw_results all = *results;
    document d = {.part = part_of,
                  .of = &all,
                  .sink = sink,
                  .payload = payload,
                  .err = err};
    bool have[BW_TABLE_COUNT];
    BW_TRY(bw_check_step(results, err));
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        have[i] = bw_report_json_has(results, (bw_table)i);
    return put_document(&d,
                        results->wall_count > 0 || results->junction != NULL
                            ? bw_verdict_text(bw_results_verdict(results))
                            : NULL,
                        have);
}
