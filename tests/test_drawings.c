/* Every drawing of results made by hand is laid out as it was
 * (kept_drawings.h). */

#include <stdio.h>

#include "full_audit.h"
#include "full_choose.h"
#include "full_junction.h"
#include "full_replay.h"
#include "kept_drawings.h"

static paper page_of;

/* ---- the results ----------------------------------------------------------
 */

static bw_member_decision member[2];
static bw_reading reading[4];
static bw_reading_entry entry[4];
static bw_air_test test;

static void make_audit(void)
{
    static const char *const days[] = {"2031-04-02", "2031-04-09", "2031-04-20",
                                       "2031-05-01"};
    full_audit();
    for (size_t i = 0; i < 4; i++) {
        reading[i] = (bw_reading){.date = days[i],
                                  .member = i == 3 ? "plate" : "stud",
                                  .place = "left",
                                  .moisture = 0.23 - 0.02 * (double)i,
                                  .shown = 0.2,
                                  .meter = "",
                                  .species = "",
                                  .by = "",
                                  .photograph = "",
                                  .note = "",
                                  .source = ""};
        entry[i] = (bw_reading_entry){.reading = &reading[i], .counts = i > 0};
    }
    for (size_t i = 0; i < 2; i++)
        member[i] = (bw_member_decision){.member = i == 0 ? "stud" : "plate",
                                         .part = {"", -1, false},
                                         .reading_count = i == 0 ? 2 : 1,
                                         .earlier_count = i == 0 ? 1 : 0,
                                         .highest = 0.21,
                                         .has_limit = i == 0,
                                         .allowed = 0.18,
                                         .critical = 0.2};
    test = (bw_air_test){.date = "2031-04-15",
                         .stage = "membrane-exposed",
                         .by = "",
                         .ref = "",
                         .source = ""};
    audit.reading_count = 4;
    audit.reading = entry;
    audit.member_count = 2;
    audit.member = member;
    audit.air_test = &test;
    audit.air_test_text = "of 15 April";
}

/* A year as a wall may have: numbers that spread. */
static void make_year(void)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        const double wave = cos(0.5236 * m);
        wall.checked.boundary[m] = (bw_boundary){.theta_e = 8.0 - 9.0 * wave,
                                                 .p_e = 900.0 - 400.0 * wave,
                                                 .theta_i = 20.0,
                                                 .p_i = 1250.0 - 80.0 * wave};
        for (size_t i = 0; i < WALL_PLANES; i++) {
            bw_plane_month *p = &wall.plane[i].month[m];
            const double share = (double)i / (WALL_PLANES - 1);
            p->theta = 8.0 - 9.0 * wave + share * (12.0 + 9.0 * wave);
            p->saturation_pressure = 1500.0 - 600.0 * wave + 700.0 * share;
            p->vapour_pressure = 800.0 - 300.0 * wave + 350.0 * share;
            p->relative_humidity = p->vapour_pressure / p->saturation_pressure;
            p->sd_from_outside = 1.7 * (double)i;
            p->condensation = i == 2 ? 0.05 * wave : 0.0;
            p->accumulated = i == 2 ? 0.1 * (1.0 + wave) : 0.0;
        }
    }
}

static const struct document_of {
    const char *name;
    bw_document which;
} documents[] = {
    {"check", BW_DOCUMENT_CHECK},       {"compare", BW_DOCUMENT_COMPARE},
    {"margin", BW_DOCUMENT_MARGIN},     {"choose", BW_DOCUMENT_CHOOSE},
    {"junction", BW_DOCUMENT_JUNCTION}, {"replay", BW_DOCUMENT_REPLAY},
    {"audit", BW_DOCUMENT_AUDIT},
};

static void print(const struct document_of *of)
{
    const bw_report_options all = {.extent = BW_EXTENT_FULL};
    full_setup();
    make_year();
    full_junction_make(&meeting, &full_die);
    full_replay_make(&logged);
    full_choose_make(&choice, &wall.assessment);
    wall.results.junction = &meeting.assessment;
    wall.results.replay = &logged.replay;
    wall.results.chosen = &choice.chosen;
    if (of->which == BW_DOCUMENT_AUDIT)
        make_audit();
    paper_clear(&page_of);
    ck_assert_int_eq(bw_report(&wall.results, of->which, BW_FORM_PAGE, &all,
                               paper_take, &page_of, NULL),
                     BW_OK);
}

START_TEST(drawings_are_laid_out_as_they_were)
{
    for (size_t i = 0; i < COUNT(documents); i++) {
        print(&documents[i]);
        take_all(documents[i].name, page_of.text);
    }
    are_as_kept(BW_SOURCE_DIR "/tests/data/drawings.txt");
}
END_TEST

SUITE("drawings", FACT(drawings_are_laid_out_as_they_were))
