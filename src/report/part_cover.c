/* The first sheet of a page, beside verdict and picture: the three figures that
 * come nearest to their limits or lie beyond them, what to beware of, and where
 * everything else is. */

#include <string.h>

#include "figure.h"
#include "html.h"
#include "names.h"
#include "part.h"
#include "spot.h"

enum { FIGURES = 3 };

static bool is_shown(const bw_criterion *row)
{
    return row->decides && row->has_value && row->has_limit;
}

/* The one the verdict names, then of all sections each criterion once, where it
 * is worst; returns how many. */
static size_t worst_rows(const bw_assessment *assessment,
                         const bw_criterion *worst[FIGURES])
{
    size_t count = 0;
    if (assessment->deciding != NULL && is_shown(assessment->deciding))
        worst[count++] = assessment->deciding;
    while (count < FIGURES) {
        const bw_criterion *next = NULL;
        for (size_t i = 0; i < assessment->criterion_count; i++) {
            const bw_criterion *row = &assessment->criterion[i];
            bool there = !is_shown(row);
            for (size_t k = 0; k < count; k++)
                there = there ||
                        strcmp(worst[k]->criterion, row->criterion) == 0;
            if (!there &&
                (next == NULL || bw_row_badness(row) > bw_row_badness(next)))
                next = row;
        }
        if (next == NULL)
            break;
        worst[count++] = next;
    }
    return count;
}

static const char *verdict_class(bw_verdict verdict)
{
    static const char *const names[] = {
        [BW_HOLDS] = "verdict holds",
        [BW_MARGINAL] = "verdict marginal",
        [BW_FAILS] = "verdict fails",
        [BW_NOT_ASSESSED] = "verdict open",
    };
    return names[verdict];
}

static void put_figure(bw_page *page, const bw_criterion *row)
{
    bw_markup *out = bw_page_markup(page);
    const char *never = bw_not_within(page, row);
    bw_tag_open(out, "li", NULL);
    bw_tag_open(out, "strong", NULL);
    bw_html_text(page, never != NULL
                           ? never
                           : bw_shown_amount(page, row->value, row->unit));
    bw_tag_close(out);
    bw_tag_text(out, " ");
    bw_tag_whole(out, "b", verdict_class(row->verdict),
                 bw_verdict_text(row->verdict));
    bw_tag_open(out, "span", NULL);
    bw_html_text(page, bw_phrase(page, "%s; limit %s", row->title,
                                 bw_shown_amount(page, row->limit, row->unit)));
    bw_tag_close(out);
    bw_tag_close(out);
}

BW_DRAWN(figures, NULL)
{
    const bw_criterion *worst[FIGURES];
    const size_t count = worst_rows(of->wall[0], worst);
    if (count == 0)
        return;
    bw_figure_begin(page);
    bw_tag_open(bw_page_markup(page), "ul", "figures");
    for (size_t i = 0; i < count; i++)
        put_figure(page, worst[i]);
    bw_tag_close(bw_page_markup(page));
}

BW_DRAWN(care, NULL)
{
    (void)of;
    bw_figure_begin(page);
    bw_tag_whole(bw_page_markup(page), "p", "care",
                 "An ideal wall, computed: no rain getting in, no plumbing "
                 "leak, no gap that is not stated. Where a limit is exceeded, "
                 "inspect; keeping it is no proof of no damage. Wet timber can "
                 "rot unseen, mould harms health. Local codes and licensed "
                 "professionals decide. All cautions stand at the end.");
}

BW_DRAWN(contents, NULL)
{
    const bw_html *html = bw_html_of(page);
    bw_markup *out = bw_page_markup(page);
    (void)of;
    bw_figure_begin(page);
    bw_tag_open(out, "nav", "contents");
    bw_tag_set(out, "aria-label", "Contents");
    bw_tag_open(out, "ol", NULL);
    for (size_t i = 0; i < html->contents_count; i++) {
        bw_tag_open(out, "li", NULL);
        bw_tag_open(out, "a", NULL);
        bw_tag_set(out, "href", bw_phrase(page, "#part-%zu", i + 1));
        bw_html_text(page, html->contents[i]);
        bw_tag_close(out);
        bw_tag_close(out);
    }
    bw_tag_close(out);
    bw_tag_close(out);
}
