/* What a simulation tells of its materials: each note where there is reason for
 * it, and none where there is not. */

#include "suite.h"
#include "transient_run.h"

static const char long_name[] =
    "a board of which the name goes on for so long that no line holds two";
static const char longer_name[] =
    "a board of which the name goes on and on, and then on again, for so long "
    "that no line of notes holds as much as one of them";

/* A board of four points, of known free saturation and start, that draws no
 * water in: nothing is told of it. */
static void plain(transient_case *c)
{
    (void)c;
}

static void two_points(transient_case *c)
{
    case_sorption(c, 0, 2, board_phi + 1, board_u + 1);
}

static void both_of_two_points(transient_case *c)
{
    two_points(c);
    case_sorption(c, 1, 2, board_phi + 1, board_u + 1);
}

static void no_saturation(transient_case *c)
{
    c->material[1].free_saturation.known = false;
}

static void no_start(transient_case *c)
{
    c->layer[1].has_initial_moisture = false;
}

static void draws(transient_case *c)
{
    c->material[1].water_absorption = case_value(0.02);
}

static void absorbs(transient_case *c)
{
    c->material[1].absorbs_condensate = true;
    c->slab[1].label = "lining";
}

static void may_absorb(transient_case *c)
{
    c->material[1].flags_assumed = true;
    c->slab[1].label = "lining";
}

static void absorbs_and_draws(transient_case *c)
{
    absorbs(c);
    draws(c);
}

static void both_absorb(transient_case *c)
{
    absorbs(c);
    c->material[0].absorbs_condensate = true;
    c->slab[0].label = "sheathing";
}

static void long_names(transient_case *c)
{
    both_absorb(c);
    c->slab[0].label = c->slab[1].label = long_name;
}

static void longer_names(transient_case *c)
{
    absorbs(c);
    c->slab[1].label = longer_name;
}

static const char *const all[] = {
    "storage from two points", "free saturation estimated", "start: 80 %",
    "draws no liquid",         "slower diffusivity",        "of suction at all",
    "no sorption points",
};

static const struct told {
    void (*make)(transient_case *c);
    bw_redistribution redistribution;
    const char *note, *words; /* the only one of them, and what it says */
} notes[] = {
    {plain, BW_REDISTRIBUTION_RULE, NULL, NULL},
    {two_points, BW_REDISTRIBUTION_RULE, "storage from two points",
     "1 layer, e.g. board"},
    {both_of_two_points, BW_REDISTRIBUTION_RULE, "storage from two points",
     "2 layers, e.g. board"},
    {no_saturation, BW_REDISTRIBUTION_RULE, "free saturation estimated",
     "1 layer, e.g. board"},
    {no_start, BW_REDISTRIBUTION_RULE, "start: 80 %", "WTA 6-2"},
    {draws, BW_REDISTRIBUTION_RULE, "slower diffusivity", "a tenth"},
    {draws, BW_REDISTRIBUTION_SUCTION, "of suction at all", "as set"},
    {absorbs, BW_REDISTRIBUTION_RULE, "draws no liquid", ": lining"},
    {may_absorb, BW_REDISTRIBUTION_RULE, "draws no liquid", ": lining"},
    {absorbs_and_draws, BW_REDISTRIBUTION_RULE, "slower diffusivity", ""},
    {both_absorb, BW_REDISTRIBUTION_RULE, "draws no liquid",
     ": sheathing, lining"},
    {long_names, BW_REDISTRIBUTION_RULE, "draws no liquid",
     "holds two and 1 more"},
    {longer_names, BW_REDISTRIBUTION_RULE, "draws no liquid",
     "layers of long names"},
};

START_TEST(each_note_is_told_where_there_is_reason_for_it)
{
    const struct told *row = &notes[_i];
    transient_case *c = steady_new(10, 0.8, 10, 0.8);
    for (size_t k = 0; k < 2; k++) {
        add_board(c, 0.01, 10);
        c->material[k].free_saturation = case_value(400);
        c->layer[k].has_initial_moisture = c->layer[k].initial_is_rh = true;
        c->layer[k].initial_moisture = 0.8;
    }
    row->make(c);
    const bw_transient_options o = {.max_years = 1,
                                    .redistribution = row->redistribution};
    bw_transient_result r = run(c, &o);
    for (size_t n = 0; n < COUNT(all); n++) {
        const char *note = NULL;
        for (size_t i = 0; i < r.note_count; i++)
            if (strstr(r.note[i], all[n]) != NULL)
                note = r.note[i];
        const bool wanted = row->note != NULL && strcmp(row->note, all[n]) == 0;
        ck_assert_msg((note != NULL) == wanted, "%s", all[n]);
        if (wanted)
            ck_assert_msg(strstr(note, row->words) != NULL, "%s", note);
    }
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Of the wind at the face what nobody gave, terrain or height or both. */
START_TEST(the_wind_at_the_face_is_told_unless_all_of_it_is_given)
{
    for (int given = 0; given < 4; given++) {
        transient_case *c = steady_new(10, 0.8, 10, 0.8);
        add_board(c, 0.01, 10);
        c->climate.columns.wind = true;
        bw_outdoors *out = &c->assembly.outdoors;
        out->has_terrain = given & 1;
        out->has_height = given & 2;
        out->height = 8;
        const bw_transient_options one = {.max_years = 1};
        bw_transient_result r = run(c, &one);
        const char *note = NULL;
        for (size_t i = 0; i < r.note_count; i++)
            if (strncmp(r.note[i], "wind at the face", 16) == 0)
                note = r.note[i];
        ck_assert_int_eq(note != NULL, given != 3);
        if (note != NULL) {
            ck_assert_int_eq(strstr(note, "terrain (none given)") != NULL,
                             !(given & 1));
            ck_assert_int_eq(strstr(note, "ground (none given)") != NULL,
                             !(given & 2));
        }
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

SUITE("transient_told",
      FACT(the_wind_at_the_face_is_told_unless_all_of_it_is_given),
      EACH(each_note_is_told_where_there_is_reason_for_it, COUNT(notes)))
