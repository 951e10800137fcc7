#include "emit_many.h"

#include "emit.h"
#include "fail.h"

/* Invariant: the same bytes as of all walls at once. A file appears whole or
 * not at all; what must stand before what is known last is kept in files
 * without a name, so that memory does not grow with the number of walls. */

enum { EACH_WALL = BW_TABLE_COUNT }; /* the last part */

static const char *beside(const settings *given)
{
    return emit_is_beside(given->output) ? given->output : NULL;
}

static bool goes_out_at_once(const emit_many *out)
{
    return !out->result.nameless && out->result.beside == NULL;
}

bw_status emit_many_open(emit_many *out, const settings *given, size_t walls,
                         const bw_library *library, bw_error *err)
{
    *out = (emit_many){.given = given, .walls = walls, .verdict = BW_HOLDS};
    out->options = emit_options(given, library);
    out->result.fd = out->held.fd = -1;
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        out->table[i].fd = out->part[i].fd = -1;
    out->part[EACH_WALL].fd = -1;
    if (given->tables != NULL)
        BW_TRY(emit_make_folder(given->tables, err));
    BW_TRY(emit_open(&out->result, given, err));
    if (given->tables != NULL && goes_out_at_once(out))
        BW_TRY(bw_output_spool(&out->held, NULL, err));
    if (given->format == FORMAT_TEXT)
        BW_TRY(bw_output_spool(&out->part[EACH_WALL], beside(given), err));
    return BW_OK;
}

static bw_output *result_of(emit_many *out)
{
    return out->held.fd >= 0 ? &out->held : &out->result;
}

/* ---- walls --------------------------------------------------------------- */

static bw_status take_table(emit_many *out, bw_results *walls, bw_table table,
                            bw_error *err)
{
    bw_output *to = &out->table[table];
    walls->goes_on = to->fd >= 0;
    if (!walls->goes_on)
        BW_TRY(emit_open_in(to, out->given->tables, bw_table_file(table), err));
    return emit_explain(
        to, bw_report_table(walls, table, bw_output_write, to, err), err);
}

static bw_status take_tables(emit_many *out, bw_results walls, bw_error *err)
{
    if (out->given->tables == NULL)
        return BW_OK;
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        if (bw_results_have(&walls, (bw_table)i))
            BW_TRY(take_table(out, &walls, (bw_table)i, err));
    return BW_OK;
}

static bw_status take_part(emit_many *out, bw_results *walls, bw_table part,
                           bw_error *err)
{
    bw_output *to = &out->part[part];
    walls->goes_on = to->fd >= 0;
    if (!walls->goes_on)
        BW_TRY(bw_output_spool(to, beside(out->given), err));
    return emit_explain(
        to, bw_report_json_part(walls, part, bw_output_write, to, err), err);
}

static bw_status take_json(emit_many *out, bw_results walls, bw_error *err)
{
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        if (bw_report_json_has(&walls, (bw_table)i))
            BW_TRY(take_part(out, &walls, (bw_table)i, err));
    return take_part(out, &walls, (bw_table)EACH_WALL, err);
}

/* One wall after the other; and what is said last, of all in a line each. */
static bw_status take_text(emit_many *out, const bw_results *walls,
                           bw_error *err)
{
    bw_output *to = result_of(out), *list = &out->part[EACH_WALL];
    for (size_t i = 0; i < walls->wall_count; i++) {
        bw_results one = *walls;
        one.wall += i;
        BW_TRY(emit_explain(to,
                            bw_report(&one, BW_DOCUMENT_CHECK, BW_FORM_TEXT,
                                      &out->options, bw_output_write, to, err),
                            err));
        bw_output_write(to, "\n\n", 2);
    }
    return emit_explain(list,
                        bw_report(walls, BW_DOCUMENT_WALLS, BW_FORM_TEXT,
                                  &out->options, bw_output_write, list, err),
                        err);
}

static bw_status take_result(emit_many *out, const bw_results *walls,
                             bw_error *err)
{
    bw_output *to = result_of(out);
    switch (out->given->format) {
    case FORMAT_TEXT:
        return take_text(out, walls, err);
    case FORMAT_JSON:
        return take_json(out, *walls, err);
    default:
        return emit_explain(
            to,
            bw_report_table(walls, BW_TABLE_VERDICT, bw_output_write, to, err),
            err);
    }
}

bw_status emit_many_take(emit_many *out, const bw_assessment *const *made,
                         size_t count, bw_error *err)
{
    const bw_results walls = {.wall_count = count,
                              .wall = made,
                              .of_walls = out->walls,
                              .goes_on = out->begun,
                              .step = (size_t)out->given->step};
    out->verdict = bw_verdict_worse(out->verdict, bw_results_verdict(&walls));
    BW_TRY(take_tables(out, walls, err));
    BW_TRY(take_result(out, &walls, err));
    out->begun = true;
    return BW_OK;
}

/* ---- the end ------------------------------------------------------------- */

static bw_status copy_part(void *payload, bw_table part, bw_sink *sink,
                           void *to, bw_error *err)
{
    emit_many *out = payload;
    return bw_output_copy(&out->part[part], sink, to, err);
}

static bw_status end_result(emit_many *out, bw_error *err)
{
    bw_output *to = result_of(out);
    bool have[BW_TABLE_COUNT];
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        have[i] = out->part[i].fd >= 0;
    if (out->given->format == FORMAT_TEXT)
        return emit_explain(
            to, copy_part(out, (bw_table)EACH_WALL, bw_output_write, to, err),
            err);
    if (out->given->format == FORMAT_JSON)
        return emit_explain(to,
                            bw_report_json_parts(out->verdict, have, copy_part,
                                                 out, bw_output_write, to, err),
                            err);
    return BW_OK;
}

/* What is shown comes last. */
static bw_status put_in_place(emit_many *out, bw_error *err)
{
    const bool shown = out->held.fd >= 0;
    bw_output *all[BW_TABLE_COUNT + 1];
    BW_TRY(end_result(out, err));
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        all[i] = &out->table[i];
    all[BW_TABLE_COUNT] = &out->result;
    BW_TRY(bw_output_commit_all(all, BW_TABLE_COUNT + (shown ? 0 : 1), err));
    if (!shown)
        return BW_OK;
    BW_TRY(bw_output_copy(&out->held, bw_output_write, &out->result, err));
    return bw_output_commit(&out->result, err);
}

bw_status emit_many_close(emit_many *out, bw_status status, bw_error *err)
{
    if (status == BW_OK)
        status = put_in_place(out, err);
    status = emit_explain(&out->result, status, err);
    for (int i = 0; i < BW_TABLE_COUNT; i++) {
        bw_output_discard(&out->table[i]);
        bw_output_discard(&out->part[i]);
    }
    bw_output_discard(&out->part[EACH_WALL]);
    bw_output_discard(&out->held);
    bw_output_discard(&out->result);
    return status;
}
