/* The digests of what a sheet was made from, as lines that sha256sum -c takes:
 * 64 hexadecimal digits, two blanks, the path. The line on the sheet itself
 * comes from whoever writes it: no text can hold its own digest.
 *
 * Invariant: bw_audit_verify reads what is put down here. */

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "digests.h"
#include "fail.h"
#include "part.h"

static void put_lines(bw_page *page, const bw_results *of)
{
    const bw_house *house = of->house;
    const bw_input_file *file = house != NULL ? house->file : of->audit->file;
    const size_t count = house != NULL ? house->file_count
                                       : of->audit->file_count;
    bw_line(page, BW_DIGESTS_BEGIN "%s", bw_version());
    for (size_t i = 0; i < count; i++)
        bw_line(page, "%s  %s", file[i].sha256, file[i].path);
}

BW_PART(digests, "Digests of this sheet and of what it was made from")
{
    bw_text(page,
            "SHA-256 as sha256sum writes it. Run where the sheet was made, "
            "\"bothways audit --verify SHEET\" says what has changed since; "
            "\"sha256sum -c SHEET\" reads the inputs again; and the last line "
            "of a sheet as text is of all above it: \"sed '$d' SHEET | "
            "sha256sum\". Whoever changes a sheet can give it new digests: "
            "what was signed is the one on paper.");
    put_lines(page, of);
}

bw_status bw_report_digests(const bw_results *results, const char *sheet,
                            const char *sha256, bw_sink *sink, void *payload,
                            bw_error *err)
{
    bw_page page;
    if (results->audit == NULL && results->house == NULL)
        return bw_fail_domain(err, "these results are of no audit");
    bw_text_start(&page, 0, false, sink, payload);
    put_lines(&page, results);
    bw_line(&page, "%s  %s", sha256, sheet);
    return bw_page_finish(&page, "the list of digests", err);
}
