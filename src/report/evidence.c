#include "evidence.h"

#include <math.h>
#include <string.h>

#include "as_read.h"
#include "readings.h"

/* Facts are joined by "; " in the order of the header; what the file does not
 * say is not spoken of. */

static const char *joined(bw_page *page, const char *so_far, const char *fact)
{
    if (fact[0] == '\0')
        return so_far;
    return bw_phrase(page, "%s%s%s", so_far, so_far[0] != '\0' ? "; " : "",
                     fact);
}

/* " word text", where there is a text. */
static const char *named(bw_page *page, const char *so_far, const char *word,
                         const char *text)
{
    if (text == NULL || text[0] == '\0')
        return so_far;
    return joined(page, so_far, bw_phrase(page, "%s%s", word, text));
}

static const char *correction(bw_page *page, const bw_reading *r)
{
    const double shown = 100.0 * r->shown;
    if (!r->as_read)
        return "";
    if (!bw_reading_is_correctable(r))
        return bw_phrase(
            page, "%.3g %% as the meter showed it, NOT corrected: %s", shown,
            r->has_wood_temperature ? "the formula is for wood of 0 to 50 degC"
                                    : "the wood's temperature is not given");
    const double put_right = 100.0 * bw_moisture_at_temperature(
                                         r->shown, r->wood_temperature);
    return bw_phrase(
        page,
        put_right > shown
            ? "the meter showed %.3g %%; %.3g %% for the wood's temperature "
              "(Pfaff and Garrahan 1986, from memory)"
            : "the meter showed %.3g %%, which counts, though the wood's "
              "temperature makes it %.3g %% (Pfaff and Garrahan 1986, from "
              "memory)",
        shown, put_right);
}

const char *bw_reading_facts(bw_page *page, const bw_reading *r)
{
    const char *facts = correction(page, r);
    if (r->as_read)
        facts = joined(page, facts, "species not taken into account");
    facts = named(page, facts, "meter: ", r->meter);
    if (r->has_wood_temperature)
        facts = joined(
            page, facts,
            bw_phrase(page, "wood at %.3g degC", r->wood_temperature));
    facts = named(page, facts, "species: ", r->species);
    facts = named(page, facts, "read by ", r->by);
    facts = named(page, facts, "photograph ", r->photograph);
    facts = named(page, facts, "note: ", r->note);
    return named(page, facts, "source: ", r->source);
}

const char *bw_air_test_facts(bw_page *page, const bw_air_test *test)
{
    const char *facts = "";
    if (test->has_uncertainty)
        facts = bw_phrase(page, "q50 +- %.3g %%", 100.0 * test->uncertainty);
    facts = named(page, facts, "tested by ", test->by);
    facts = named(page, facts, "protocol ", test->ref);
    return named(page, facts, "source: ", test->source);
}

const char *bw_photographs_of(bw_page *page, const bw_assembly *a,
                              const char *member)
{
    const bw_closing_up *up = &a->closing_up;
    const bw_wall_part part = bw_part_of_member(a, member);
    const char *list = "";
    for (size_t i = 0; i < up->reading_count; i++)
        if (strcmp(up->reading[i].member, member) == 0)
            list = named(page, list, "", up->reading[i].photograph);
    for (size_t i = 0; part.layer >= 0 && i < up->evidence_count; i++)
        if (up->evidence[i].part.layer == part.layer &&
            up->evidence[i].part.framing == part.framing)
            list = named(page, list, "", up->evidence[i].ref);
    return list;
}

static double in_a_year(double days)
{
    return days >= 0.0 ? days : (double)INFINITY;
}

bw_drying_range bw_drying_range_of(const bw_drying_forecast *f, bw_site_way way)
{
    const double *d = f->days[way];
    const double ends[2] = {in_a_year(d[0]), in_a_year(d[2])};
    const double mid = in_a_year(d[1]);
    return (bw_drying_range){mid, fmin(mid, fmin(ends[0], ends[1])),
                             fmax(mid, fmax(ends[0], ends[1]))};
}
