/* Rain and room air that a junction is judged with, said alike wherever they
 * are told.
 *
 * Invariant: with each of a junction's stands its source. */

#include "gets_in.h"

bool bw_leak_is_told(const bw_junction *j, size_t k)
{
    for (size_t i = 0; i < k; i++)
        if (j->leak[k].wall >= 0 && j->leak[i].wall == j->leak[k].wall)
            return true;
    return false;
}

const char *bw_leak_said(bw_page *page, const bw_drawn_leak *leak)
{
    if (leak->wall >= 0)
        return bw_phrase(page,
                         "Of the wall \"%s\": %.3g %% of the driving rain, all "
                         "along the face at which its file has it",
                         leak->name, 100.0 * leak->fraction);
    return bw_phrase(page,
                     "At \"%s\": %.3g %% of the driving rain on %.3g m of "
                     "outer face, over %.0f mm; source: %s",
                     leak->name, 100.0 * leak->fraction, leak->face,
                     1e3 * (leak->at.x1 - leak->at.x0), leak->source);
}

const char *bw_air_said(bw_page *page, const bw_junction *j,
                        const bw_drawn_air *air)
{
    return bw_phrase(page,
                     "Air of \"%s\" to \"%s\": %.3g m3 an hour and metre, all "
                     "year, over %.0f mm; %s; source: %s",
                     j->environment[air->environment].id, air->name,
                     3600.0 * air->flow, 1e3 * (air->at.x1 - air->at.x0),
                     air->all ? "its warmth and what it dries count, too"
                              : "only the water that it brings counts",
                     air->source);
}
