#include "rows.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "number.h"

const char *bw_verdict_text(bw_verdict verdict)
{
    static const char *const words[] = {
        [BW_HOLDS] = "holds",
        [BW_MARGINAL] = "marginal",
        [BW_FAILS] = "fails",
        [BW_NOT_ASSESSED] = "not assessed",
    };
    size_t i = (size_t)verdict;
    return i < sizeof words / sizeof words[0] ? words[i] : "not assessed";
}

const char *bw_say(bw_rows *rows, const char *format, ...)
{
    char text[768];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    const char *copy = bw_arena_copy(rows->arena, text);
    if (copy == NULL)
        rows->out_of_memory = true;
    return copy != NULL ? copy : "";
}

const char *bw_say_number(bw_rows *rows, double value, int decimals)
{
    char text[64];
    return bw_say(rows, "%s", bw_number_f(text, sizeof text, value, decimals));
}

const char *bw_say_plane(bw_rows *rows, const bw_section *section,
                         bw_plane_at at)
{
    char label[256];
    assert(at.slab < section->slab_count);
    bw_plane_label(label, sizeof label, section, at);
    bool inside = strncmp(label, "between ", 8) == 0 ||
                  strncmp(label, "in ", 3) == 0;
    return bw_say(rows, "%s%s", inside ? "" : "at the ", label);
}

static bool grow(bw_rows *rows)
{
    size_t capacity = rows->capacity > 0 ? 2 * rows->capacity : 64;
    bw_row *wider = BW_NEW(rows->arena, bw_row, capacity);
    if (wider == NULL) {
        rows->out_of_memory = true;
        return false;
    }
    if (rows->count > 0)
        memcpy(wider, rows->row, rows->count * sizeof *wider);
    rows->row = wider;
    rows->capacity = capacity;
    return true;
}

static bw_row *add(bw_rows *rows, bw_criterion_id id, const char *reason)
{
    if (rows->count == rows->capacity && !grow(rows))
        return &rows->nowhere;
    const bw_criterion_facts *facts = bw_criterion_facts_of(id);
    bw_row *row = &rows->row[rows->count++];
    *row = (bw_row){
        .id = id,
        .informative = facts->informative,
        .row = {.section = rows->section,
                .criterion = facts->name,
                .title = facts->title,
                .method = facts->method,
                .unit = facts->unit,
                .rule = facts->rule,
                .decides = !facts->informative,
                .outcome = BW_NOT_ASSESSED,
                .verdict = BW_NOT_ASSESSED,
                .reason = reason},
    };
    return row;
}

/* Whether the room asked for is a share of the limit, wider where a layer is
 * only assumed; else it is an amount of its own. */
static bool by_share(bw_criterion_id id)
{
    switch ((int)id) {
    case BW_C_RESERVE_LEAKY:
    case BW_C_SURFACE_MOULD:
    case BW_C_CORNER_MOULD:
    case BW_C_CUPBOARD_MOULD:
    case BW_C_FRSI_LEAST:
    case BW_C_STEADY_CHECK:
    case BW_C_CAVITY_WIDTH:
        return false;
    default:
        return true;
    }
}

/* How much is asked for beyond the limit before it plainly holds. */
static double needed_margin(const bw_rows *rows, bw_criterion_id id,
                            double limit)
{
    const bw_limits *limits = rows->limits;
    if (id == BW_C_RESERVE_LEAKY)
        return limits->marginal_leaky;
    if (id == BW_C_STEADY_CHECK)
        return limits->marginal_steady;
    if (id == BW_C_CAVITY_WIDTH)
        return 0.0; /* a drawn dimension */
    if (!by_share(id))
        return limits->marginal_frsi;
    return fabs(limit) * (rows->assumed ? limits->marginal_share_assumed
                                        : limits->marginal_share);
}

static bw_row *judge(bw_rows *rows, bw_criterion_id id, double value,
                     double limit, double margin, const char *reason)
{
    bw_row *row = add(rows, id, reason);
    if (!isfinite(value) || !isfinite(limit)) {
        row->row.reason = bw_say(rows, "no number came of it: %s", reason);
        return row;
    }
    row->row.has_value = row->row.has_limit = true;
    row->row.value = value;
    row->row.limit = limit;
    row->row.margin = margin;
    bool strict = bw_criterion_facts_of(id)->strict;
    if (strict ? margin <= 0.0 : margin < 0.0) {
        row->row.outcome = bw_criterion_inspects(id) ? BW_MARGINAL : BW_FAILS;
    } else if (!bw_criterion_inspects(id) &&
               margin < needed_margin(rows, id, limit)) {
        row->row.outcome = BW_MARGINAL;
        row->row.reason = bw_say(
            rows, "holds by less than %s%s%s%s; %s",
            bw_say_number(rows, needed_margin(rows, id, limit), 3),
            strcmp(row->row.unit, "-") == 0 ? "" : " ",
            strcmp(row->row.unit, "-") == 0 ? "" : row->row.unit,
            rows->assumed && by_share(id) ? " (a layer is only assumed)" : "",
            reason);
    } else {
        row->row.outcome = BW_HOLDS;
    }
    row->row.verdict = row->row.outcome;
    return row;
}

bw_row *bw_rows_most(bw_rows *rows, bw_criterion_id id, double value,
                     double limit, const char *reason)
{
    return judge(rows, id, value, limit, limit - value, reason);
}

bw_row *bw_rows_least(bw_rows *rows, bw_criterion_id id, double value,
                      double limit, const char *reason)
{
    return judge(rows, id, value, limit, value - limit, reason);
}

bw_row *bw_rows_info(bw_rows *rows, bw_criterion_id id, double value,
                     const char *reason)
{
    bw_row *row = add(rows, id, reason);
    row->informative = true;
    row->row.has_value = isfinite(value);
    row->row.value = row->row.has_value ? value : 0.0;
    return row;
}

bw_row *bw_rows_none(bw_rows *rows, bw_criterion_id id, const char *reason)
{
    return add(rows, id, reason);
}

bw_row *bw_rows_find(const bw_rows *rows, const char *section,
                     bw_criterion_id id)
{
    for (size_t i = 0; i < rows->count; i++)
        if (rows->row[i].id == id &&
            strcmp(rows->row[i].row.section, section) == 0)
            return &rows->row[i];
    return NULL;
}

double bw_row_relative_margin(const bw_row *row)
{
    double limit = fabs(row->row.limit);
    return row->row.margin / (limit > 0.0 ? limit : 0.1);
}
