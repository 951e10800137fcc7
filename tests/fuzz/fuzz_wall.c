/* Valid walls by construction: the bytes choose materials, thicknesses,
 * cavities, framing, rooms and weather. Every such wall must be accepted and
 * assessed, the invariants must hold, listing it the other way round must not
 * change a bit of the months or a byte of the short tables, and the wall seen
 * from the other side must condense as much. The tables of months of every 32nd
 * are held against each other; reports are the matter of `verdict`, as one
 * takes ten times as long as all of this. */

#include <math.h>
#include <string.h>

#include "bothways/bothways.h"
#include "common.h"
#include "fuzz.h"
#include "invariants.h"
#include "made_wall.h"
#include "outputs.h"

/* ---- what is checked -------------------------------------------------------
 */

static bw_assembly *read_wall(const text *t)
{
    bw_assembly *assembly = NULL;
    bw_error err = {0};
    bw_status status = bw_assembly_read(&assembly, fuzz_file(t->at, t->used),
                                        fuzz_library(), &err);
    if (status != BW_OK)
        fprintf(stderr, "%ld: %s\n%s", err.line, err.message, t->at);
    FUZZ_REQUIRE(status == BW_OK);
    return assembly;
}

static bw_assessment *assess(const bw_assembly *assembly,
                             const bw_climate *climate)
{
    bw_assessment_options options = {.no_transient = true, .no_advice = true};
    bw_assessment *assessment = NULL;
    bw_error err = {0};
    bw_status status = bw_assess(&assessment, assembly, climate, &options,
                                 &err);
    if (status != BW_OK)
        fprintf(stderr, "%s\n", err.message);
    FUZZ_REQUIRE(status == BW_OK);
    return assessment;
}

typedef struct bytes {
    char *at;
    size_t used, room;
} bytes;

static bool take(void *payload, const char *data, size_t length)
{
    bytes *b = payload;
    if (b->room - b->used < length) {
        b->room = 2 * b->room + length;
        b->at = realloc(b->at, b->room);
        FUZZ_REQUIRE(b->at != NULL);
    }
    memcpy(b->at + b->used, data, length);
    b->used += length;
    return true;
}

static void check_same_result(const bw_monthly_result *a,
                              const bw_monthly_result *b)
{
    FUZZ_REQUIRE(a->plane_count == b->plane_count);
    FUZZ_REQUIRE(a->slab_count == b->slab_count && a->cycles == b->cycles);
    for (size_t i = 0; i < a->plane_count; i++) {
        const bw_plane *p = &a->plane[i], *q = &b->plane[i];
        FUZZ_REQUIRE(p->at.slab == q->at.slab && p->at.depth == q->at.depth);
        FUZZ_REQUIRE(memcmp(p->month, q->month, sizeof p->month) == 0);
        FUZZ_REQUIRE(p->peak == q->peak && p->residual == q->residual);
    }
    FUZZ_REQUIRE(memcmp(a->layer_sd, b->layer_sd,
                        a->slab_count * sizeof *a->layer_sd) == 0);
    FUZZ_REQUIRE(a->condensed == b->condensed && a->reserve == b->reserve);
    FUZZ_REQUIRE(a->residual_last == b->residual_last);
}

/* Every bit of what the table of months prints to four digits. */
static void check_same_months(const bw_assessment *a, const bw_assessment *b)
{
    FUZZ_REQUIRE(a->section_count == b->section_count);
    for (size_t i = 0; i < a->section_count; i++)
        for (int k = 0; k < BW_RUN_COUNT; k++) {
            const bw_monthly_run *x = &a->section[i].run[k];
            const bw_monthly_run *y = &b->section[i].run[k];
            FUZZ_REQUIRE(x->ran == y->ran);
            if (x->ran)
                check_same_result(&x->result, &y->result);
        }
}

static void check_same_tables(const bw_assessment *a, const bw_assessment *b,
                              bool months)
{
    static const bw_table tables[] = {BW_TABLE_VERDICT, BW_TABLE_LAYERS,
                                      BW_TABLE_SURFACE, BW_TABLE_PERIOD,
                                      BW_TABLE_MONTHLY};
    const size_t count = sizeof tables / sizeof tables[0];
    for (size_t i = 0; i < count - !months; i++) {
        static bytes x, y; /* kept from run to run */
        x.used = y.used = 0;
        bw_error err = {0};
        const bw_results first = {.wall_count = 1, .wall = &a};
        const bw_results other = {.wall_count = 1, .wall = &b};
        FUZZ_REQUIRE(bw_report_table(&first, tables[i], take, &x, &err) ==
                     BW_OK);
        FUZZ_REQUIRE(bw_report_table(&other, tables[i], take, &y, &err) ==
                     BW_OK);
        FUZZ_REQUIRE(x.used == y.used && memcmp(x.at, y.at, x.used) == 0);
    }
}

static void check_mirror(const bw_section_assessment *s)
{
    size_t n = s->section->slab_count;
    bw_slab slab[64];
    FUZZ_REQUIRE(n <= 64);
    bw_boundary mirrored[BW_MONTHS];
    for (size_t k = 0; k < n; k++) {
        slab[k] = s->section->slab[n - 1 - k];
        if (slab[k].sd_curve != NULL)
            return; /* solved by iteration: equal to its tolerance only */
    }
    bw_section section = *s->section;
    section.slab = slab;
    section.outer_resistance = s->section->inner_resistance;
    section.inner_resistance = s->section->outer_resistance;
    for (int m = 0; m < BW_MONTHS; m++)
        mirrored[m] = (bw_boundary){s->boundary[m].theta_i, s->boundary[m].p_i,
                                    s->boundary[m].theta_e, s->boundary[m].p_e};
    bw_monthly_options options = {
        .run = "mirror", .mu = BW_MU_DRY, .start_month = 9, .max_cycles = 3};
    bw_monthly_result seen[2];
    bw_error err = {0};
    FUZZ_REQUIRE(
        bw_monthly(&seen[0], s->section, s->boundary, &options, &err) == BW_OK);
    FUZZ_REQUIRE(bw_monthly(&seen[1], &section, mirrored, &options, &err) ==
                 BW_OK);
    double scale = 1e-9 * fmax(1.0, seen[0].condensed);
    FUZZ_REQUIRE(seen[0].plane_count == seen[1].plane_count);
    FUZZ_REQUIRE(fabs(seen[0].condensed - seen[1].condensed) <= scale);
    FUZZ_REQUIRE(fabs(seen[0].evaporated - seen[1].evaporated) <= scale);
    FUZZ_REQUIRE(fabs(seen[0].residual_last - seen[1].residual_last) <= scale);
    bw_monthly_free(&seen[0]);
    bw_monthly_free(&seen[1]);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static text layer[FUZZ_LAYERS];
    choices c = {data, size, 0};
    text inwards = {.used = 0};
    bw_climate *climate = fuzz_make_climate(&c);
    fuzz_add_around(&inwards, &c);
    text outwards = inwards, leaks = {.used = 0};
    fuzz_add_leaks(&leaks, &c);
    /* not 0, which is what follows the last byte */
    const bool months = fuzz_choose(&c, 32) == 31;
    size_t count = fuzz_make_layers(layer, &c, FUZZ_LAYERS);
    fuzz_add_list(&inwards, layer, count, false);
    fuzz_add_list(&outwards, layer, count, true);
    fuzz_add(&inwards, "%s</assembly>\n", leaks.at);
    fuzz_add(&outwards, "%s</assembly>\n", leaks.at);

    bw_assembly *wall = read_wall(&inwards), *turned = read_wall(&outwards);
    bw_assessment *first = assess(wall, climate);
    bw_assessment *second = assess(turned, climate);
    fuzz_check_assessment(first);
    check_same_months(first, second);
    check_same_tables(first, second, months);
    for (size_t i = 0; i < first->section_count; i++)
        if (first->section[i].run[BW_RUN_DESIGN].ran)
            check_mirror(&first->section[i]);
    bw_assessment_free(first);
    bw_assessment_free(second);
    bw_assembly_free(wall);
    bw_assembly_free(turned);
    bw_climate_free(climate);
    return 0;
}
