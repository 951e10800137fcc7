/* A house of the walls of the demo pair: it is released when every wall is, its
 * walls stand in the order given with what their own audits say, and each file
 * it rests on is named once. */

#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "has_words.h"
#include "suite.h"

#define WALLS BW_SOURCE_DIR "/assemblies/"

static bw_library *library;
static bw_assembly *wall[2];
static bw_climate *climate[2];

static void start(void)
{
    static const char *const folders[] = {BW_SOURCE_DIR "/materials"};
    static const char *const names[] = {WALLS "upland-closing-refused.xml",
                                        WALLS "upland-closing-released.xml"};
    bw_error err = {0};
    ck_assert_int_eq(bw_library_read(&library, folders, 1, &err), BW_OK);
    for (int i = 0; i < 2; i++) {
        ck_assert_msg(bw_assembly_read(&wall[i], names[i], library, &err) ==
                          BW_OK,
                      "%s", err.message);
        ck_assert_msg(bw_climate_read(&climate[i],
                                      wall[i]->outdoors.climate_path,
                                      &err) == BW_OK,
                      "%s", err.message);
    }
}

static void end(void)
{
    for (int i = 0; i < 2; i++) {
        bw_assembly_free(wall[i]);
        bw_climate_free(climate[i]);
    }
    bw_library_free(library);
}

static bw_house *house_of(size_t from, size_t count, bool simulate)
{
    const bw_audit_options options = {
        .assessment = {.synthetic_hours = true,
                       .no_advice = true,
                       .no_transient = !simulate,
                       .threads = 1},
        .command_line = "bothways audit --house x",
        .date = "2024-05-10",
        .name = "The house"};
    bw_house *made = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_house_make(&made, (const bw_assembly *const *)wall + from,
                                (const bw_climate *const *)climate + from,
                                count, &options, &err) == BW_OK,
                  "%s", err.message);
    return made;
}

static void wall_is(const bw_house_wall *of, size_t which)
{
    const bw_audit_options options = {.assessment = {.synthetic_hours = true,
                                                     .no_advice = true,
                                                     .no_transient = true,
                                                     .threads = 1},
                                      .date = "2024-05-10"};
    bw_audit *audit = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_audit_make(&audit, wall[which], climate[which], &options,
                                &err) == BW_OK,
                  "%s", err.message);
    ck_assert_ptr_eq(of->assembly, wall[which]);
    ck_assert_int_eq(of->verdict, audit->assessment->verdict);
    ck_assert_str_eq(of->verdict_reason, audit->assessment->verdict_reason);
    ck_assert_int_eq(of->released, audit->released);
    ck_assert_uint_eq(of->open_count, audit->open_count);
    for (size_t i = 0; i < of->open_count; i++)
        ck_assert_str_eq(of->open[i].text, audit->open[i].text);
    ck_assert_uint_eq(of->file_count, audit->file_count);
    for (size_t i = 0; i < of->file_count; i++) {
        ck_assert_str_eq(of->file[i].path, audit->file[i].path);
        ck_assert_str_eq(of->file[i].sha256, audit->file[i].sha256);
    }
    bw_audit_free(audit);
}

START_TEST(a_house_is_what_the_audits_of_its_walls_are)
{
    bw_house *made = house_of(0, 2, false);
    ck_assert_str_eq(made->name, "The house");
    ck_assert_str_eq(made->date, "2024-05-10");
    ck_assert_str_eq(made->command_line, "bothways audit --house x");
    ck_assert_str_eq(made->profile->name, bw_profile_default()->name);
    ck_assert_uint_eq(made->wall_count, 2);
    for (size_t i = 0; i < 2; i++)
        wall_is(&made->wall[i], i);
    ck_assert_uint_eq(made->released_count, 0);
    ck_assert(!made->released);
    bw_house_free(made);
}
END_TEST

/* In the order of the walls; of several walls a file stands once. */
START_TEST(each_file_of_a_house_is_named_once)
{
    bw_house *made = house_of(0, 2, false);
    size_t all = 0;
    for (size_t w = 0; w < made->wall_count; w++)
        for (size_t k = 0; k < made->wall[w].file_count; k++, all++) {
            size_t found = 0;
            for (size_t i = 0; i < made->file_count; i++)
                found += strcmp(made->file[i].path,
                                made->wall[w].file[k].path) == 0;
            ck_assert_uint_eq(found, 1);
        }
    ck_assert_uint_lt(made->file_count, all);
    ck_assert_str_eq(made->file[0].path, made->wall[0].file[0].path);
    bw_house_free(made);
}
END_TEST

/* The released wall as it stands, alone; and nothing is no house. */
START_TEST(a_house_is_released_when_every_wall_is)
{
    USUAL_BUILD_ALONE();
    bw_house *made = house_of(1, 1, true);
    ck_assert(made->wall[0].released);
    ck_assert_uint_eq(made->released_count, 1);
    ck_assert(made->released);
    bw_house_free(made);
    made = house_of(0, 0, false);
    ck_assert(!made->released);
    ck_assert_uint_eq(made->file_count, 0);
    bw_house_free(made);
    bw_house_free(NULL);
}
END_TEST

SUITE_AROUND("house", start, end,
             FACT(a_house_is_what_the_audits_of_its_walls_are),
             FACT(each_file_of_a_house_is_named_once),
             FACT(a_house_is_released_when_every_wall_is))
