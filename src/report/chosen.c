#include "chosen.h"

/* Invariant: the word of a cell is that of its verdict; what was not judged
 * says so. */

const char *bw_share_words(bw_page *page, double share)
{
    return bw_phrase(page, "%s %%",
                     share < 0.01 ? bw_fixed(page, 100.0 * share, 2)
                                  : bw_fixed(page, 100.0 * share, 1));
}

const char *bw_standing_words(const bw_design *design)
{
    if (design->marginally)
        return "holds, marginally";
    if (design->standing == BW_UNDECIDED && design->breaks[0] != '\0')
        return "not assessed, would break";
    return bw_standing_text(design->standing);
}

size_t bw_front_shown(const bw_page *page, const bw_chosen *c)
{
    enum { SHOWN = 12 };
    return page->options->extent == BW_EXTENT_FULL || c->front_count <= SHOWN
               ? c->front_count
               : SHOWN;
}

const char *bw_drawn_words(bw_page *page, const bw_chosen *c,
                           const bw_design *design)
{
    return design->drawn == 0 ? "-"
                              : bw_phrase(page, "%zu/%zu",
                                          c->simulated ? design->failed
                                                       : design->failed_numbers,
                                          design->drawn);
}

const char *bw_finding_letter(bw_page *page, size_t finding)
{
    enum { LETTERS = 26 };
    const char letter = (char)('A' + finding % LETTERS);
    return finding < LETTERS
               ? bw_phrase(page, "%c", letter)
               : bw_phrase(page, "%c%zu", letter, finding / LETTERS);
}

const char *bw_found_word(const bw_found_alone *found)
{
    if (!found->applies)
        return "-";
    if (!found->computed)
        return "?";
    switch (found->verdict) {
    case BW_HOLDS:
        return "holds";
    case BW_MARGINAL:
        return "just";
    case BW_FAILS:
        return "FAILS";
    case BW_NOT_ASSESSED:
        break;
    }
    return found->numbers == BW_FAILS ? "?fails" : "?";
}

const char *bw_finding_words(bw_page *page, const bw_finding *finding)
{
    if (finding->of_choice)
        return bw_phrase(page, "%s, least and most of each", finding->name);
    if (finding->low[0] == '\0')
        return finding->high[0] != '\0' ? finding->high : finding->name;
    return bw_phrase(page, "%s, or %s", finding->low, finding->high);
}
