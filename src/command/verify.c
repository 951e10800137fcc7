#include "verify.h"

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "page.h"
#include "targets.h"
#include "terminal.h"

/* What bw_audit_verify found, a line each that differs, then one on the whole.
 * Invariant: exit 0 only where nothing differs. */

static bw_status check_alone(const settings *given, bw_error *err)
{
    if (given->operand_count == 0 && given->format == FORMAT_TEXT &&
        given->tables == NULL && given->climate == NULL &&
        given->profile == NULL && given->materials.count == 0 &&
        given->change.count == 0)
        return BW_OK;
    return bw_fail_usage(err,
                         "--verify reads a sheet and the files it names, and "
                         "judges nothing: bothways audit --verify SHEET");
}

static void put_sheet(bw_page *page, const bw_verification *v)
{
    if (v->is_list)
        bw_plain(page,
                 "%s: a list of digests; whether it was itself edited it "
                 "cannot tell",
                 v->sheet);
    else
        bw_plain(page, "%s: %s", v->sheet,
                 v->edited ? "EDITED since it was made" : "as it was made");
    if (v->other_program)
        bw_item(page, "made by bothways %s; this is %s", v->program,
                bw_version());
}

static void put_digest(bw_page *page, const bw_digest *digest)
{
    switch (digest->state) {
    case BW_DIGEST_SAME:
        return;
    case BW_DIGEST_CHANGED:
        bw_item(page, "%s: changed", digest->path);
        return;
    case BW_DIGEST_MISSING:
        break;
    }
    bw_item(page, "%s: not to be read: %s", digest->path, digest->why);
}

static bw_status put(const bw_verification *v, const settings *given,
                     bw_error *err)
{
    bw_output output;
    bw_page page;
    BW_TRY(emit_open(&output, given, err));
    bw_text_start(&page, terminal_width(given), terminal_colour(given),
                  bw_output_write, &output);
    put_sheet(&page, v);
    for (size_t i = 0; i < v->digest_count; i++)
        put_digest(&page, &v->digest[i]);
    if (v->changes == 0)
        bw_plain(&page, "%zu file%s: none has changed.", v->digest_count,
                 v->digest_count == 1 ? "" : "s");
    else
        bw_plain(&page, "The sheet does not stand for what is there now: audit "
                        "the wall again.");
    bw_status status = bw_page_finish(&page, "what has changed", err);
    return emit_close(&output, status, err);
}

/* What has been read is not written over by what is said of it. */
static bw_status spare(const bw_verification *v, const settings *given,
                       bw_error *err)
{
    BW_TRY(targets_spare(given, v->sheet, err));
    for (size_t i = 0; i < v->digest_count; i++)
        BW_TRY(targets_spare(given, v->digest[i].path, err));
    return BW_OK;
}

bw_status verify_sheet(int *code, const settings *given, bw_error *err)
{
    bw_verification *v = NULL;
    bw_status status = check_alone(given, err);
    if (status == BW_OK)
        status = bw_audit_verify(&v, given->verify, err);
    if (status == BW_OK)
        status = spare(v, given, err);
    if (status == BW_OK)
        status = put(v, given, err);
    if (status == BW_OK && v->changes > 0)
        *code = EXIT_NOT_ASSESSED;
    bw_verification_free(v);
    return status;
}
