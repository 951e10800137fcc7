/* What people call materials: searched, proposed, found in descriptions. */

#include <string.h>

#include "called.h"
#include "suite.h"

static bw_library *library;

static void read_library(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/materials"};
    bw_error err;
    ck_assert_msg(bw_library_read(&library, path, 1, &err) == BW_OK,
                  "%s:%ld %s", err.file, err.line, err.message);
}

static void free_library(void)
{
    bw_library_free(library);
}

static const struct {
    const char *words, *id;
    bool found;
} searches[] = {
    {"timber", "softwood", true},
    {"Mineral wool", "glass-wool-batt", true},
    {"mineral-wool", "stone-wool-batt", true},
    {"wool mineral", "stone-wool-batt", true},
    {"chipboard", "particleboard", true},
    {"woodfibre", "wood-fibre-batt", true},
    {"wood fibre", "wood-fibre-batt", true},
    {"wood-fibre", "wood-fibre-batt", true},
    {"WoodFibre board", "wood-fibre-board-180", true},
    {"PIR", "polyurethane-board", true},
    {"pur", "polyurethane-board", true},
    {"plasterboard", "gypsum-plasterboard", true},
    {"drywall", "gypsum-plasterboard", true},
    {"osb", "osb-sheathing", true},
    {"fibreboard", "softboard", true},
    {"vapour barrier", "pe-foil-0-20mm", true},
    {"vapour retarder", "variable-membrane-broad", true},
    {"breather", "breather-membrane", true},
    {"stucco", "cement-render", true},
    {"render", "lime-render", true},
    /* words of different things */
    {"vapour barrier", "breather-membrane", false},
    {"timber", "eps", false},
    {"-", "eps", false},
    {" ", "eps", false},
};

START_TEST(a_search_knows_other_names_and_spellings)
{
    const bw_material *m = bw_library_find(library, searches[_i].id);
    ck_assert_ptr_nonnull(m);
    ck_assert_msg(bw_material_mentions(m, searches[_i].words) ==
                      searches[_i].found,
                  "%s: %s", searches[_i].words, m->id);
}
END_TEST

static bool among(const char *id, const bw_material *const *few, size_t count)
{
    bool any = false;
    for (size_t i = 0; i < count; i++)
        any = any || strcmp(few[i]->id, id) == 0;
    return any;
}

static const struct {
    const char *word, *id;
} meant[] = {
    {"timber", "softwood"},
    {"mineral-wool", "glass-wool-batt"},
    {"mineral wool", "stone-wool-batt"},
    {"PIR", "polyurethane-board"},
    {"woodfibre-batt", "wood-fibre-batt"},
    {"hmep-batt", "hemp-batt"},
    {"Hemp batt", "hemp-batt"},
};

START_TEST(an_unknown_id_is_answered_with_what_it_may_mean)
{
    const bw_material *few[8];
    size_t count = bw_library_alike(library, meant[_i].word, few, 8);
    ck_assert_msg(among(meant[_i].id, few, count), "%s", meant[_i].word);
}
END_TEST

/* What begins an id before what others are called; then the same words in
 * another order; three at most. */
static const struct {
    const char *word, *text;
} asked[] = {
    {"wood-fibre-board", "wood-fibre-board-interior, wood-fibre-board-outer or "
                         "wood-fibre-board-140"},
    {"Wood fibre board", "wood-fibre-board-interior, wood-fibre-board-outer or "
                         "wood-fibre-board-140"},
    {"membrane-variable",
     "variable-membrane-responsive, variable-membrane-broad or "
     "variable-membrane-medium"},
    {"board-cork", "cork-board"},
    {"cork-boar", "cork-board"},
    {"mineral-wool", "mineral-wool-blown, glass-wool-batt or stone-wool-batt"},
    {"tiles", "tiles-ceramic"},
    {"lime", "lime-mortar, lime-cement-render or lime-render"},
    {"brick", "brick-masonry-historic, brick-hollow-light or brick-facing"},
};

START_TEST(ids_that_begin_so_come_first_and_words_in_any_order)
{
    char text[BW_ALIKE_TEXT];
    ck_assert(
        bw_library_alike_text(text, sizeof text, library, asked[_i].word));
    ck_assert_str_eq(text, asked[_i].text);
}
END_TEST

START_TEST(what_means_nothing_is_answered_with_nothing)
{
    const bw_material *few[2];
    char text[BW_ALIKE_TEXT];
    ck_assert_uint_eq(bw_library_alike(library, "qqqqqqqqqqqqqq", few, 2), 0);
    ck_assert_uint_eq(bw_library_alike(library, "", few, 2), 0);
    ck_assert(!bw_library_alike_text(text, sizeof text, library, "qqqqqqqqqq"));
    ck_assert_str_eq(text, "");
}
END_TEST

START_TEST(more_than_there_is_room_for_is_left_out)
{
    const bw_material *few[2];
    ck_assert_uint_eq(bw_library_alike(library, "timber", few, 2), 2);
}
END_TEST

static const struct {
    const char *text, *id;
} spoken[] = {
    {"Mineral Wool 140mm", "stone-wool-batt"},
    {"12.5 Plasterboard", "gypsum-plasterboard"},
    {"OSB 3, 18 mm", "osb-sheathing"},
    {"Timber stud", "softwood"},
    {"External brickwork, 102 mm", "brick-masonry-historic"},
    {"Rigid board of wood fibre", "wood-fibre-board-180"},
};

START_TEST(a_description_is_heard_for_the_longest_name_in_it)
{
    const bw_material *few[16];
    size_t count = bw_library_spoken_of(library, spoken[_i].text, few, 16);
    ck_assert_msg(among(spoken[_i].id, few, count), "%s: %zu", spoken[_i].text,
                  count);
}
END_TEST

START_TEST(a_description_of_nothing_known_names_nothing)
{
    const bw_material *few[4];
    ck_assert_uint_eq(bw_library_spoken_of(library, "MAT-0031", few, 4), 0);
    ck_assert_uint_eq(bw_library_spoken_of(library, "", few, 4), 0);
}
END_TEST

SUITE_AROUND(
    "called", read_library, free_library,
    EACH(a_search_knows_other_names_and_spellings, COUNT(searches)),
    EACH(an_unknown_id_is_answered_with_what_it_may_mean, COUNT(meant)),
    EACH(ids_that_begin_so_come_first_and_words_in_any_order, COUNT(asked)),
    FACT(what_means_nothing_is_answered_with_nothing),
    FACT(more_than_there_is_room_for_is_left_out),
    EACH(a_description_is_heard_for_the_longest_name_in_it, COUNT(spoken)),
    FACT(a_description_of_nothing_known_names_nothing))
