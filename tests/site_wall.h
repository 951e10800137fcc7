#ifndef BW_TESTS_SITE_WALL_H
#define BW_TESTS_SITE_WALL_H

/* A wall with a record of closing up, read from text with the shipped library,
 * in constant weather of 20 degC and 50 % RH without sun, wind or rain. */

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "audit/auditing.h"
#include "bothways/bothways.h"
#include "suite.h"

/* Magnus over water; 20 degC, half of 2339 Pa. */
#define SITE_VAPOUR 1169.5 /* Pa */

#define OUTDOORS "<outdoors climate=\"none.csv\" driving-rain=\"none\"/>"
#define LAYERS(text) "<layers listed=\"outside-to-inside\">" text "</layers>"

/* Boards outside of a cavity, 140 mm of wool between studs of 45 mm, a
 * retarder; what is inside of it follows. */
#define BOARDS_TO_RETARDER                                                     \
    "<layer id=\"boarding\" material=\"softwood\" thickness=\"22 mm\"/>"       \
    "<cavity id=\"cavity\" thickness=\"38 mm\" ventilation=\"well\"/>"         \
    "<layer id=\"bay\" material=\"stone-wool-batt\" thickness=\"140 mm\">"     \
    "<framing material=\"softwood\" width=\"45 mm\" spacing=\"600 mm\"/>"      \
    "</layer><membrane id=\"retarder\" material=\"membrane-sd-5m\"/>"
#define CLOSING(text) "<closing-up>" text "</closing-up>"
#define LIMIT(member, part, allowed)                                           \
    "<moisture-limit member=\"" member "\" part=\"" part                       \
    "\" allowed=\"" allowed " %\" critical=\"30 %\"/>"
#define READ(day, member, moisture)                                            \
    "<reading date=\"2031-" day "\" member=\"" member                          \
    "\" place=\"bay 1\" moisture=\"" moisture " %\" depth=\"10 mm\"/>"

static bw_library *library;
static bw_climate climate;
static bw_climate_hour hours[BW_TRANSIENT_HOURS];
static bw_assembly *wall;
static bw_assessment drawn;
static bw_audit_core core;
static bw_pool pool; /* of one thread */

static inline void site_open(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/materials"};
    ck_assert_int_eq(bw_library_read(&library, path, 1, NULL), BW_OK);
    bw_pool_open(&pool, 1);
    climate = (bw_climate){
        .file = "none.csv",
        .place = "",
        .source = "",
        .remark = "",
        .licence = "",
        .kind = BW_CLIMATE_HOURLY,
        .columns = {.solar = true, .wind = true, .rain = true},
        .hour_count = BW_TRANSIENT_HOURS,
        .hour = hours};
    for (size_t h = 0; h < BW_TRANSIENT_HOURS; h++)
        hours[h] = (bw_climate_hour){.temperature = 20.0,
                                     .vapour_pressure = SITE_VAPOUR,
                                     .pressure = 101325.0};
    for (int m = 0; m < BW_MONTHS; m++)
        climate.month[m] = (bw_climate_month){.temperature = 20.0,
                                              .vapour_pressure = SITE_VAPOUR};
}

static inline void site_close(void)
{
    bw_pool_close(&pool);
    bw_assessment_free(core.as_built_deciding);
    bw_assessment_free(core.as_built);
    bw_arena_release(&core.built);
    bw_arena_release(&core.arena);
    bw_assembly_free(wall);
    bw_library_free(library);
    core = (bw_audit_core){0}; /* of the next test, in the same process */
    wall = NULL;
    library = NULL;
}

/* The record weighed, nothing run. */
static inline void site_read(const char *file, const char *body)
{
    bw_error err = {0};
    FILE *to = fopen(file, "w");
    ck_assert_ptr_nonnull(to);
    fprintf(to,
            "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"test\">" OUTDOORS
            "<indoors temperature=\"20 degC\" relative-humidity=\"50 %%\" "
            "margin=\"no\"/>%s</assembly>",
            body);
    fclose(to);
    const bw_status status = bw_assembly_read(&wall, file, library, &err);
    unlink(file);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    drawn = (bw_assessment){.assembly = wall, .climate = &climate};
    core.pool = &pool;
    core.assembly = wall;
    core.climate = &climate;
    core.assessment = &drawn;
    core.audit.assessment = &drawn;
    core.audit.date = "2031-05-10";
    core.audit.profile = bw_profile_default();
    ck_assert_int_eq(bw_audit_air_test(&core, &err), BW_OK);
    ck_assert_int_eq(bw_audit_readings(&core, &err), BW_OK);
}

#endif
