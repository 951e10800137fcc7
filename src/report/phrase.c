/* Sentences of a page, on its arena; and numbers as they stand in them. */

#include <math.h>

#include "page.h"

const char *bw_phrase_of(bw_page *page, const char *format, va_list args)
{
    const char *text = bw_arena_compose(&page->arena, format, args);
    return text != NULL ? text : "";
}

const char *bw_fixed(bw_page *page, double value, int decimals)
{
    return bw_phrase(page, "%.*f", decimals, value);
}

const char *bw_significant(bw_page *page, double value, int digits)
{
    return bw_phrase(page, "%.*g", digits, value);
}

const char *bw_grams(bw_page *page, double kg_per_m2)
{
    double grams = kg_per_m2 * 1000.0;
    return bw_fixed(page, grams, fabs(grams) < 9.95 && grams != 0.0 ? 1 : 0);
}

const char *bw_amount(bw_page *page, double kg_per_m2)
{
    if (fabs(kg_per_m2) < 10.0)
        return bw_phrase(page, "%s g/m2", bw_grams(page, kg_per_m2));
    return bw_phrase(page, "%.3g kg/m2", kg_per_m2);
}
