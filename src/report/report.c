/* Writes a document: its parts (every_document.h) in their order, as text or as
 * a page, no more of them than the reader asks for. */

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "digests.h"
#include "every_document.h"
#include "fail.h"
#include "html.h"
#include "names.h"
#include "part.h"
#include "sha256.h"

#define DECLARE(name) extern const bw_part bw_part_##name;
#define DECLARED(parts, ...) parts(DECLARE, DECLARE, DECLARE)
EVERY_DOCUMENT(DECLARED)

#define LEAST(name) {&bw_part_##name, BW_LEAST},
#define SCREEN(name) {&bw_part_##name, BW_SCREEN},
#define FULL(name) {&bw_part_##name, BW_FULL},
#define LISTED(parts, what, kind, sealed, ...)                                 \
    [BW_DOCUMENT_##parts] = {                                                  \
        (const bw_listed[]){parts(LEAST, SCREEN, FULL){NULL, BW_FULL}},        \
        (what),                                                                \
        (kind),                                                                \
        (sealed),                                                              \
    },

static const struct document {
    const bw_listed *parts;
    const char *what, *kind;
    bool sealed;
} documents[BW_DOCUMENT_COUNT] = {EVERY_DOCUMENT(LISTED)};

const bw_listed *bw_document_parts(bw_document document)
{
    return documents[document].parts;
}

void bw_part_put(bw_page *page, const bw_part *part, const bw_results *of)
{
    bw_page_open(page, part->title);
    part->build(page, of);
}

static void put_parts(bw_page *page, const bw_listed *listed, bool drawn,
                      const bw_results *of)
{
    static const bw_level most[] = {[BW_EXTENT_FULL] = BW_FULL,
                                    [BW_EXTENT_SCREEN] = BW_SCREEN,
                                    [BW_EXTENT_LEAST] = BW_LEAST};
    for (; listed->part != NULL; listed++)
        if ((drawn || !listed->part->drawn) &&
            listed->level <= most[page->options->extent])
            bw_part_put(page, listed->part, of);
}

/* ---- what fits a screen ------------------------------------------------- */

enum { SCREEN_LINES = 45, WIDE = 100 };

static bool count_lines(void *payload, const char *bytes, size_t length)
{
    size_t *lines = payload;
    for (size_t i = 0; i < length; i++)
        *lines += bytes[i] == '\n';
    return true;
}

static size_t lines_of(const bw_listed *listed, const bw_results *of,
                       const bw_report_options *options, size_t cut)
{
    size_t lines = 0;
    bw_page page;
    bw_text_start(&page, options->width, false, count_lines, &lines);
    page.options = options;
    page.cut = cut;
    put_parts(&page, listed, false, of);
    return bw_page_finish(&page, "", NULL) == BW_OK ? lines : 0;
}

/* How many items a check has to do without to fit, on a narrow page as much as
 * on a wide one. Such a text is short, so that it is tried. */
static size_t find_cut(const bw_listed *listed, const bw_results *of,
                       const bw_report_options *options)
{
    const size_t width = options->width > 0 ? (size_t)options->width : WIDE;
    const size_t most = width < WIDE ? (size_t)SCREEN_LINES * WIDE / width
                                     : SCREEN_LINES;
    size_t cut = 0;
    while (cut < BW_CUT_MOST && lines_of(listed, of, options, cut) > most)
        cut++;
    return cut;
}

/* Whether the results hold what the document is of. */
static bool are_of(const bw_results *of, bw_document document)
{
#define HELD(parts, what, kind, sealed, held) [BW_DOCUMENT_##parts] = (held),
    const bool wall = of->wall_count > 0;
    const bool hold[BW_DOCUMENT_COUNT] = {EVERY_DOCUMENT(HELD)};
    return (size_t)document < BW_DOCUMENT_COUNT && hold[document];
}

static bool ignore(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    (void)bytes;
    (void)length;
    return true;
}

/* The day that the document is of; "": none. */
static const char *date_of(const bw_report_options *options,
                           const bw_results *of)
{
    return of->audit != NULL       ? of->audit->date
           : of->house != NULL     ? of->house->date
           : options->date != NULL ? options->date
                                   : "";
}

/* ", SHA-256 1a2b..." of the file of one wall; of several the first digits
 * each.
 */
static const char *digests_of(bw_page *page, const bw_report_options *options,
                              const bw_results *of)
{
    enum { ONE = 16, EACH = 8 };
    const char *text = "";
    if (of->audit != NULL)
        return of->audit->file_count > 0
                   ? bw_phrase(page, ", SHA-256 %.*s...", ONE,
                               of->audit->file[0].sha256)
                   : "";
    for (size_t i = 0; i < options->digest_count; i++)
        if (options->digest[i] != NULL)
            text = bw_phrase(page, "%s%s%.*s...", text,
                             text[0] == '\0' ? ", SHA-256 " : ", ",
                             options->digest_count > 1 ? EACH : ONE,
                             options->digest[i]);
    return text;
}

/* What stands below each sheet: the walls, the day and the digests of their
 * files where they are known, and by what it was made. */
static const char *foot_of(bw_page *page, const char *title,
                           const bw_report_options *options,
                           const bw_results *of)
{
    const bw_comparison *c = of->comparison;
    enum { NAMED = 3 };
    const bool named = c != NULL && c->wall_count <= NAMED;
    const char *foot = named ? "" : title, *date = date_of(options, of);
    for (size_t i = 0; named && i < c->wall_count; i++)
        foot = bw_phrase(page, "%s%s%s", foot, i > 0 ? ", " : "",
                         c->wall[i].label);
    return bw_phrase(page, "%s%s%s%s, bothways %s", foot,
                     date[0] != '\0' ? ", " : "", date,
                     digests_of(page, options, of), bw_version());
}

/* Written twice: what stands on it is known when all of it was. */
static bw_status put_page(const struct document *d, const char *title,
                          const bw_report_options *options,
                          const bw_results *of, bw_sink *sink, void *payload,
                          bw_error *err)
{
    bw_page words = {.width = 0};
    bw_html draft, html;
    const char *foot = foot_of(&words, title, options, of);
    bw_html_start(&draft, ignore, NULL, title, d->kind, foot);
    bw_html_start(&html, sink, payload, title, d->kind, foot);
    draft.page.options = html.page.options = options;
    put_parts(&draft.page, d->parts, true, of);
    html.contents = draft.heading;
    html.contents_count = (size_t)draft.page.headings;
    if (html.contents_count > BW_HTML_HEADINGS)
        html.contents_count = BW_HTML_HEADINGS;
    html.page.arena.failed = html.page.arena.failed || words.arena.failed ||
                             draft.page.arena.failed || draft.out.no_memory;
    put_parts(&html.page, d->parts, true, of);
    const bw_status status = html.page.form->finish(&html.page, d->what, err);
    draft.page.form->finish(&draft.page, d->what, NULL);
    bw_arena_release(&words.arena);
    return status;
}

/* The text, and where it is sealed the digest of what was sent. */
static bw_status put_text(const struct document *d, size_t cut,
                          const bw_report_options *options,
                          const bw_results *of, bw_sink *sink, void *payload,
                          bw_error *err)
{
    static const char above[] = BW_DIGESTS_ABOVE;
    char digest[BW_SHA256_TEXT];
    bw_sha256_tee tee;
    bw_page page;
    bw_sha256_tee_start(&tee, sink, payload);
    bw_text_start(&page, options->width, options->colour, bw_sha256_pass, &tee);
    page.options = options;
    page.cut = cut;
    put_parts(&page, d->parts, false, of);
    BW_TRY(page.form->finish(&page, d->what, err));
    if (!d->sealed || options->extent == BW_EXTENT_LEAST)
        return BW_OK;
    bw_sha256_finish(&tee.hash, digest);
    if (sink(payload, above, sizeof above - 1) &&
        sink(payload, digest, sizeof digest - 1) && sink(payload, "\n", 1))
        return BW_OK;
    return bw_fail(err, BW_ERR_IO, NULL, 0, "%s could not be written", d->what);
}

bw_status bw_report(const bw_results *results, bw_document document,
                    bw_form form, const bw_report_options *options,
                    bw_sink *sink, void *payload, bw_error *err)
{
    static const bw_report_options plain = {0};
    if (!are_of(results, document))
        return bw_fail_domain(err, "these results hold no document %d",
                              (int)document);
    const struct document *d = &documents[document];
    if (options == NULL)
        options = &plain;
    if (form == BW_FORM_PAGE)
        return put_page(d,
                        document == BW_DOCUMENT_COMPARE ? "Walls side by side"
                        : document == BW_DOCUMENT_HOUSE ? results->house->name
                        : document == BW_DOCUMENT_JUNCTION
                            ? results->junction->junction->title
                        : document == BW_DOCUMENT_REPLAY
                            ? bw_wall_name(results->replay->assembly)
                            : bw_wall_name(results->wall[0]->assembly),
                        options, results, sink, payload, err);
    const bool fits = options->extent == BW_EXTENT_SCREEN &&
                      (document == BW_DOCUMENT_CHECK ||
                       document == BW_DOCUMENT_COMPARE ||
                       document == BW_DOCUMENT_MARGIN);
    return put_text(d, fits ? find_cut(d->parts, results, options) : 0, options,
                    results, sink, payload, err);
}
