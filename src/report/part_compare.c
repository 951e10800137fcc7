/* A comparison: of which walls, what is held equal, then one table with a
 * column a wall, then the sentences. */

#include <string.h>

#include "compared.h"
#include "grid.h"
#include "names.h"
#include "part.h"

/* ---- whose it is ------------------------------------------------------ */

/* Title, or what else tells it from others. */
static const char *known_as(bw_page *page, const bw_compared *wall)
{
    const char *file = wall->assessment->assembly->file;
    const bool all = page->options->extent == BW_EXTENT_FULL;
    return bw_phrase(page, "%s%s",
                     wall->title[0] != '\0' ? wall->title
                     : all                  ? "without title"
                                            : file,
                     all ? bw_phrase(page, " (%s)", file) : "");
}

/* Of many walls the table has the ids, unless they are too long for it. */
BW_PART(compare_title, NULL)
{
    const bw_comparison *c = of->comparison;
    const bool many = bw_walls_are_many(page, c);
    bw_lead(page, "%zu walls side by side", c->wall_count);
    for (size_t i = 0; i < c->wall_count; i++) {
        const char *name = bw_compared_name(page, c, i);
        const char *label = c->wall[i].label;
        if (strcmp(name, label) != 0)
            bw_hang(page, "%s: %s%s%s", name, label, many ? "" : ": ",
                    many ? "" : known_as(page, &c->wall[i]));
        else if (!many)
            bw_hang(page, "%s: %s", name, known_as(page, &c->wall[i]));
    }
    for (size_t i = 0; i < c->wall_count; i++)
        bw_say_changes(page, c->wall[i].assessment->assembly);
}

/* ---- what is held equal ------------------------------------------------ */

static const char *framing_text(bw_page *page, const bw_compared *wall)
{
    if (wall->rescaled_framing)
        return ", its framing as deep as itself";
    return wall->framing_depth > 0.0
               ? bw_phrase(page,
                           ", its framing still %.0f mm deep and the rest "
                           "across it",
                           1e3 * wall->framing_depth)
               : "";
}

static const char *buy_text(bw_page *page, const bw_compared *wall)
{
    if (wall->thickness_to_buy > 0.0)
        return bw_phrase(page,
                         " To buy: %.4g mm%s, with it U is %.3f W/(m2.K).",
                         1e3 * wall->thickness_to_buy,
                         wall->thickest_sold > 0.0 ? " (as sold)" : "",
                         wall->transmittance_to_buy);
    return wall->thickest_sold > 0.0
               ? bw_phrase(page,
                           " To buy: none of those sold is thick enough (at "
                           "most %.4g mm).",
                           1e3 * wall->thickest_sold)
               : "";
}

static void say_rescaled(bw_page *page, const bw_comparison *c, size_t i)
{
    const bw_compared *wall = &c->wall[i];
    const char *name = bw_compared_name(page, c, i);
    bw_hang(page, "%s: %s (%s) made %.1f mm instead of %.1f mm thick%s.%s",
            name, wall->rescaled_id, wall->rescaled_layer,
            1e3 * wall->thickness_after, 1e3 * wall->thickness_before,
            framing_text(page, wall), buy_text(page, wall));
}

/* Of many walls in one line: "Made to fit: B: stud-bay 82.5 mm (to buy 90)". */
static void list_rescaled(bw_page *page, const bw_comparison *c)
{
    const char *text = "";
    for (size_t i = 0; i < c->wall_count; i++) {
        const bw_compared *w = &c->wall[i];
        if (!w->rescaled)
            continue;
        text = bw_phrase(page, "%s%s%s: %s %.1f mm", text,
                         text[0] != '\0' ? "; " : "",
                         bw_compared_name(page, c, i), w->rescaled_id,
                         1e3 * w->thickness_after);
        if (w->thickness_to_buy > 0.0)
            text = bw_phrase(page, "%s (to buy %.4g)", text,
                             1e3 * w->thickness_to_buy);
        else if (w->thickest_sold > 0.0)
            text = bw_phrase(page, "%s (none as thick is sold)", text);
    }
    if (text[0] != '\0')
        bw_plain(page, "Made to fit: %s.", text);
}

static const char *equal_text(bw_page *page, const bw_comparison *c)
{
    const bw_compared *first = &c->wall[0];
    const char *first_name = bw_compared_name(page, c, 0);
    switch (c->equal) {
    case BW_EQUAL_U:
        return bw_phrase(page,
                         "Held equal: the U-value of %s, %.3f W/(m2.K), by the "
                         "thickness of one layer of each other wall.",
                         first_name, first->transmittance);
    case BW_EQUAL_THICKNESS:
        return bw_phrase(page,
                         "Held equal: the total thickness of %s, %.1f mm, by "
                         "the thickness of one layer of each other wall.",
                         first_name, 1e3 * first->total_thickness);
    case BW_EQUAL_AS_DRAWN:
        break;
    }
    return "Held equal: nothing in the build-ups; the walls are as drawn.";
}

static const char *why_not(const bw_comparison *c)
{
    const bw_assessment *first = c->wall[0].assessment;
    const char *reason = first->section_count > 0
                             ? first->section[0].transient_reason
                             : NULL;
    return reason != NULL && reason[0] != '\0' ? reason : "none was asked for";
}

static const char *method_text(bw_page *page, const bw_comparison *c)
{
    if (c->simulated)
        return bw_phrase(page,
                         "Judged by one method: every wall was simulated hour "
                         "by hour (EN 15026), %zu with the stressed ones.",
                         c->simulation_count);
    if (c->by_months_reason != NULL)
        return bw_phrase(page,
                         "%s. So that one method judges all, none is: they are "
                         "compared by months (ISO 13788), a screening by which "
                         "a wall may fail and none holds.",
                         c->by_months_reason);
    return bw_phrase(page,
                     "Compared by months alone (ISO 13788); no wall was "
                     "simulated (%s: %s).",
                     bw_compared_name(page, c, 0), why_not(c));
}

static const char *same_text(bw_page *page, const bw_comparison *c)
{
    const bw_climate *climate = c->wall[0].assessment->climate;
    return bw_phrase(page, "%s%s",
                     c->climates_differ
                         ? ""
                         : bw_phrase(page, " The same climate for all: %s.",
                                     bw_climate_name(climate)),
                     c->indoors_differ ? "" : " The same room for all.");
}

/* What a sentence on a difference is of, in a word. */
static const char *difference_of(const char *sentence)
{
    static const struct {
        const char *start, *of;
    } known[] = {
        {"The outdoor", "climates"}, {"The rooms", "rooms"},
        {"They face", "facing"},     {"Driving rain", "driving rain"},
        {"Sun", "sun and sky"},      {"What lies", "what lies outside"},
        {"They are", "element"},     {"The wetting", "wetting"}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (strncmp(sentence, known[i].start, strlen(known[i].start)) == 0)
            return known[i].of;
    return sentence;
}

/* Beside the answer, since it may come of that: in other weather, too. */
BW_PART(compare_unlike, NULL)
{
    const bw_comparison *c = of->comparison;
    const char *text = "", *none = "";
    bool some = false;
    for (size_t i = 0; i < c->difference_count; i++)
        text = bw_phrase(page, "%s %s%s", text, difference_of(c->difference[i]),
                         i + 1 < c->difference_count ? "," : ".");
    for (size_t k = 0; k < c->wall_count; k++)
        if (c->wall[k].assessment->assembly->air_leakage.given)
            some = true;
        else
            none = bw_phrase(page, "%s%s%s", none, none[0] != '\0' ? ", " : "",
                             bw_compared_name(page, c, k));
    if (some && none[0] != '\0')
        text = bw_phrase(page, "%s No leaking air is counted in %s.", text,
                         none);
    if (text[0] != '\0')
        bw_text(page, "Not like with like:%s", text);
}

/* On a screen they stand beside the answer. */
static void say_differences(bw_page *page, const bw_comparison *c)
{
    if (c->difference_count == 0 || page->options->extent == BW_EXTENT_SCREEN)
        return;
    bw_plain(page, "Not the same for all:");
    for (size_t i = 0; i < c->difference_count; i++)
        bw_hang(page, "%s", c->difference[i]);
}

/* Of what year the verdicts are; each once. */
static void say_year(bw_page *page, const bw_comparison *c)
{
    for (size_t i = 0; i < c->wall_count; i++) {
        const char *year = bw_year_caution(c->wall[i].assessment);
        bool said = year == NULL;
        for (size_t k = 0; k < i && !said; k++) {
            const char *before = bw_year_caution(c->wall[k].assessment);
            said = before != NULL && strcmp(before, year) == 0;
        }
        if (!said)
            bw_plain(page, "%s", year);
    }
}

BW_PART(compare_equal, NULL)
{
    const bw_comparison *c = of->comparison;
    bw_blank(page);
    bw_plain(page, "%s%s %s", equal_text(page, c), same_text(page, c),
             method_text(page, c));
    if (bw_walls_are_many(page, c))
        list_rescaled(page, c);
    else
        for (size_t i = 0; i < c->wall_count; i++)
            if (c->wall[i].rescaled)
                say_rescaled(page, c, i);
    say_year(page, c);
    say_differences(page, c);
}

/* ---- the table --------------------------------------------------------- */

/* Which section each figure is from, where a wall has more than one. */
static bool has_sections(const bw_comparison *c)
{
    for (size_t i = 0; i < c->wall_count; i++)
        if (c->wall[i].assessment->section_count > 1)
            return true;
    return false;
}

static void start_row(bw_page *page, bw_grid *grid, const bw_comparison *c,
                      const bw_compare_row *row)
{
    bw_grid_row_start(grid);
    bw_words(grid, "What",
             row != NULL ? bw_row_title(page, row, c->wall_count)
                         : "Verdict of all that decides");
    bw_name(grid, "Unit", row != NULL ? bw_row_unit(row->unit) : "");
    bw_number(grid, "Limit", "%s",
              row != NULL ? bw_row_limit_text(page, row, c->wall_count) : "");
}

static void add_rows(bw_page *page, bw_grid *grid, const bw_walls_shown *shown,
                     bool by_months, bool criteria)
{
    const bw_comparison *c = shown->of;
    for (size_t k = 0; k < c->row_count; k++) {
        const bw_compare_row *row = &c->row[k];
        if (row->is_criterion != criteria || row->by_months != by_months)
            continue;
        start_row(page, grid, c, row);
        for (size_t i = shown->from; i < shown->to; i++)
            bw_words(grid, bw_compared_name(page, c, i),
                     bw_row_cell(page, c, row, i));
    }
}

static void fill_table(bw_page *page, bw_grid *grid,
                       const bw_walls_shown *shown)
{
    const bool *by_months = shown->what;
    if (!*by_months) {
        start_row(page, grid, shown->of, NULL);
        for (size_t i = shown->from; i < shown->to; i++)
            bw_words(grid, bw_compared_name(page, shown->of, i),
                     bw_compared_verdict(page, &shown->of->wall[i]));
    }
    add_rows(page, grid, shown, *by_months, false);
    add_rows(page, grid, shown, *by_months, true);
}

static bool has_own_limits(bw_page *page, const bw_comparison *c)
{
    for (size_t k = 0; k < c->row_count; k++)
        if (strcmp(bw_row_limit_text(page, &c->row[k], c->wall_count), "*") ==
            0)
            return true;
    return false;
}

BW_PART(compare_table, "Key numbers and criteria")
{
    const bw_comparison *c = of->comparison;
    bw_walls_side_by_side(page, c, fill_table, &(bool){false});
    bw_subheading(page, "By months (Glaser, ISO 13788)%s",
                  c->simulated ? ": cross-check" : "");
    bw_walls_side_by_side(page, c, fill_table, &(bool){true});
    bw_blank(page);
    if (has_own_limits(page, c))
        bw_text(page, "*: each wall has a limit of its own.");
    if (has_sections(c))
        bw_text(page,
                "Each figure is that of the wall's worst section (between "
                "the studs or through one).");
    bw_text(page, "screening: the monthly method is beyond its limits for this "
                  "wall, or stands for a simulation. cross-check: within them, "
                  "beside a simulation. shown only: it does not decide.");
}

/* ---- the sentences ------------------------------------------------------ */

BW_PART(sentences, "What the numbers show")
{
    for (size_t i = 0; i < of->comparison->sentence_count; i++)
        bw_text(page, "%s", of->comparison->sentence[i]);
}
