/* The result tables as one JSON document (RFC 8259): a row of a table is an
 * object by the names of its columns. Invariant: what is written is ASCII or
 * valid UTF-8, and no text of a file can end its string. */

#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "fail.h"
#include "table.h"
#include "utf8.h"

/* U+FFFD where no character of UTF-8 begins; what steers a terminal or a line
 * by its code. */
static void put_character(bw_writer *out, const char *bytes, size_t length,
                          unsigned code)
{
    char escape[16];
    const size_t shortest = code < 0x80 ? 1 : code < 0x800 ? 2 : 3;
    const bool steers = length == shortest && bw_utf8_steers(code);
    const bool valid = bw_utf8_valid(bytes, length) > 0;
    if (steers || !valid) {
        snprintf(escape, sizeof escape, "\\u%04x", steers ? code : 0xfffdU);
        bw_write_text(out, escape);
        return;
    }
    if (code == '"' || code == '\\')
        bw_write_text(out, "\\");
    bw_write_part(out, bytes, length);
}

void bw_json_text(bw_writer *out, const char *text)
{
    const size_t length = strlen(text);
    bw_write_text(out, "\"");
    for (size_t i = 0; i < length;) {
        unsigned code;
        const size_t count = bw_utf8_next(text + i, length - i, &code);
        put_character(out, text + i, count, code);
        i += count;
    }
    bw_write_text(out, "\"");
}

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

bw_verdict bw_results_verdict(const bw_results *results)
{
    static const int rank[] = {[BW_HOLDS] = 0,
                               [BW_MARGINAL] = 1,
                               [BW_NOT_ASSESSED] = 2,
                               [BW_FAILS] = 3};
    bw_verdict worst = BW_HOLDS;
    for (size_t i = 0; i < results->wall_count; i++)
        if (rank[verdict_of(results, i)] > rank[worst])
            worst = verdict_of(results, i);
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
    put_pair(out, "verdict", bw_verdict_text(bw_results_verdict(results)));
    bw_write_text(out, ",\n\"walls\": [");
    for (size_t i = 0; i < results->wall_count; i++) {
        bw_write_text(out, i > 0 ? ",\n{" : "\n{");
        put_pair(out, "wall",
                 results->comparison != NULL
                     ? results->comparison->wall[i].label
                     : results->wall[i]->assembly->id);
        bw_write_text(out, ", ");
        put_pair(out, "verdict", bw_verdict_text(verdict_of(results, i)));
        put_changes(out, results, i);
        bw_write_text(out, "}");
    }
    bw_write_text(out, "\n],\n");
}

/* Hours are many: only those a step asks for. */
static bool in_document(const bw_results *results, bw_table table)
{
    return bw_results_have(results, table) &&
           (table != BW_TABLE_HOURLY || results->step > 0);
}

static void put_tables(bw_cells *c)
{
    bw_writer *out = &c->page.out;
    bool first = true;
    for (int i = 0; i < BW_TABLE_COUNT; i++) {
        const bw_table table = (bw_table)i;
        const char *file = bw_table_file(table);
        if (!in_document(c->results, table))
            continue;
        bw_write_text(out, first ? "\n\"" : ",\n\"");
        bw_write_part(out, file, strcspn(file, "."));
        bw_write_text(out, "\": [");
        bw_cells_rows(c, table);
        bw_write_text(out, "\n]");
        first = false;
    }
}

bw_status bw_report_json(const bw_results *results, bw_sink *sink,
                         void *payload, bw_error *err)
{
    bw_cells c;
    BW_TRY(bw_check_step(results, err));
    bw_cells_start(&c, results, true, sink, payload);
    bw_writer *out = &c.page.out;
    bw_write_text(out, "{\n");
    put_pair(out, "version", bw_version());
    bw_write_text(out, ",\n");
    if (results->wall_count > 0)
        put_walls(out, results);
    bw_write_text(out, "\"tables\": {");
    put_tables(&c);
    bw_write_text(out, "\n}\n}\n");
    return bw_page_finish(&c.page, "the document", err);
}
