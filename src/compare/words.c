#include <math.h>

#include "comparing.h"
#include "number.h"

/* Invariant: a text is never NULL; where memory ran out it is "" and
 * remembered by the arena. */

const char *bw_compare_number(bw_compare_core *core, double value, int decimals)
{
    return bw_compare_say(core, "%s", BW_NUMBER_F(value, decimals));
}

const char *bw_compare_exact(bw_compare_core *core, double value)
{
    return bw_compare_say(core, "%s", BW_NUMBER_G(value, 6));
}

const char *bw_compare_grams(bw_compare_core *core, double kg_per_m2)
{
    double grams = kg_per_m2 * 1000.0;
    bool small = fabs(grams) < 9.95 && fabs(grams) > 0.0;
    return bw_compare_number(core, grams, small ? 1 : 0);
}

const char *bw_compare_list(bw_compare_core *core, const char *const *item,
                            size_t count)
{
    const char *text = "";
    size_t left = 0, said = 0;
    for (size_t i = 0; i < count; i++)
        left += item[i] != NULL;
    for (size_t i = 0; i < count; i++) {
        if (item[i] == NULL)
            continue;
        left--;
        text = bw_compare_say(core, "%s%s%s", text,
                              said == 0   ? ""
                              : left == 0 ? " and "
                                          : ", ",
                              item[i]);
        said++;
    }
    return text;
}

const char *bw_compare_each(bw_compare_core *core, const char *const *text)
{
    const char *all = "";
    for (size_t i = 0; i < core->count; i++)
        all = bw_compare_say(core, "%s%s%s: %s", all, i > 0 ? "; " : "",
                             core->wall[i].label, text[i]);
    return all;
}
