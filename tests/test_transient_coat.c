/* What a simulation tells of rain at its outer face: each note where there is
 * reason for it, and none where there is not. What a coat lets in is tested in
 * test_transient_cells.c. The sentences are our own (regression values). */

#include "suite.h"
#include "transient/run.h"
#include "transient_run.h"

enum { BRICK = 0, MEMBRANE = 4 };

static const char *const all[] = {
    "a coat of unknown water absorption lets rain in",
    "a sheet of unknown water absorption is taken to keep all rain out",
    "but how fast (A_w) is not known",
    "rain runs off: the outermost layer",
};
enum { COAT = 1, SHEET = 2, HOW_FAST = 4, RUNS_OFF = 8 };

static const struct row {
    const char *group; /* of the film on the brick; NULL: none */
    double sd;
    double film_draws, brick_draws; /* A_w, kg/(m2 s0.5); below 0: unknown */
    bool absorbs, no_rain;
    int told;
} rows[] = {
    {NULL, 0, 0, 0.1, true, false, 0},
    {NULL, 0, 0, 0.1, true, true, 0},
    {NULL, 0, 0, -1, true, false, HOW_FAST},
    {NULL, 0, 0, -1, false, false, RUNS_OFF},
    {NULL, 0, 0, -1, false, true, 0},
    {"coating", 5, -1, 0.1, true, false, COAT},
    {"coating", 5, -1, 0.1, true, true, 0},
    {"coating", 5, 0.001, 0.1, true, false, 0},
    {"coating", 0.1, 0, 0.1, true, false, RUNS_OFF},
    {"membrane", 2, -1, 0.1, true, false, SHEET},
    {"membrane", 2, -1, 0.1, true, true, 0},
    {"membrane", 1.9, -1, 0.1, true, false, COAT},
    {"membrane", 5, 0.002, 0.1, true, false, 0},
    {"membrane", 2, -1, -1, true, false, SHEET | HOW_FAST},
    {"membrane", 2, -1, -1, false, false, SHEET},
};

START_TEST(what_keeps_rain_out_or_lets_it_in_is_told)
{
    const struct row *row = &rows[_i];
    transient_case *c = case_new();
    bw_slab slab[2] = {c->slab[MEMBRANE], c->slab[BRICK]};
    const bool film = row->group != NULL;
    for (size_t k = 0; k < 2; k++)
        c->slab[k] = slab[film ? k : 1];
    c->section.slab_count = film ? 2 : 1;
    c->slab[0].sd_dry = film ? row->sd : c->slab[0].sd_dry;
    c->material[MEMBRANE].group = film ? row->group : "";
    c->material[MEMBRANE].water_absorption = case_value(row->film_draws);
    c->material[MEMBRANE].water_absorption.known = row->film_draws >= 0;
    c->material[BRICK].water_absorption = case_value(row->brick_draws);
    c->material[BRICK].water_absorption.known = row->brick_draws >= 0;
    c->material[BRICK].absorbs_condensate = row->absorbs;
    if (row->no_rain)
        c->assembly.outdoors.driving_rain = BW_RAIN_NONE;
    const bw_transient_options options = {.max_years = 1};
    bw_run run = {0};
    bw_transient_result result = {0};
    bw_error err = {0};
    const bw_status status = bw_run_open(&run, &result, &c->assembly,
                                         &c->section, &c->climate, &options,
                                         NULL, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    for (size_t n = 0; n < COUNT(all); n++) {
        bool told = false;
        for (size_t i = 0; i < result.note_count; i++)
            told = told || strstr(result.note[i], all[n]) != NULL;
        ck_assert_msg(told == ((row->told >> n & 1) != 0), "%s", all[n]);
    }
    bw_run_close(&run);
    bw_transient_free(&result);
    free(c);
}
END_TEST

SUITE("transient_coat",
      EACH(what_keeps_rain_out_or_lets_it_in_is_told, COUNT(rows)))
