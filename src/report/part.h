#ifndef BW_REPORT_PART_H
#define BW_REPORT_PART_H

/* A part of a report: one file defines it, one line of every_document.h says
 * which document holds it, where, and how soon a reader needs it. */

#include "bothways/report.h"
#include "page.h"

typedef struct bw_part {
    const char *id;
    const char *title; /* NULL: no heading, it follows what stands before it */
    void (*build)(bw_page *page, const bw_results *of);
    bool drawn; /* figures, which a page alone can hold */
} bw_part;

/* BW_PART(scope, "What the method cannot see") { ... }: the body puts down on
 * `page` what there is to say `of` the results. Nothing put down: no heading.
 * In a check, an audit and a margin of->wall[0] is the wall; in an audit
 * of->margin is its sensitivity, or NULL. BW_DRAWN: the same of figures. */
#define BW_PART(name, title) BW_PART_AS(name, title, false)
#define BW_DRAWN(name, title) BW_PART_AS(name, title, true)
#define BW_PART_AS(name, title, drawn)                                         \
    static void build_##name(bw_page *page, const bw_results *of);             \
    const bw_part bw_part_##name = {#name, (title), build_##name, (drawn)};    \
    static void build_##name(bw_page *page, const bw_results *of)

/* What a part stands in, the shortest; the longer ones have it, too. */
typedef enum bw_level {
    BW_LEAST,
    BW_SCREEN,
    BW_FULL,
} bw_level;

/* Of the items of a page that fill the last lines of a screen; and how many
 * stand on one that has to do without `page->cut` of them: of the warnings and
 * assumptions at least one, of the changes at least one, these cut last. Where
 * that is not enough, words go that say more than the line needs. */
enum { BW_ITEMS = 12, BW_CHANGES = 3, BW_CUT_MOST = BW_ITEMS + BW_CHANGES - 1 };

static inline bool bw_is_tight(const bw_page *page)
{
    return page->cut == BW_CUT_MOST;
}

/* A line of a document's list; the last has no part. */
typedef struct bw_listed {
    const bw_part *part;
    bw_level level;
} bw_listed;

const bw_listed *bw_document_parts(bw_document document);

/* One part with its heading. */
void bw_part_put(bw_page *page, const bw_part *part, const bw_results *of);

/* Of a sheet: its day or a line for it, and by what it was made. */
#define BW_BLANK "________________________________"
void bw_put_made(bw_page *page, const char *date, const char *command_line,
                 const bw_profile *profile);

/* Lines to be signed. */
void bw_put_signers(bw_page *page);

#endif
