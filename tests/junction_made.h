#ifndef BW_TESTS_JUNCTION_MADE_H
#define BW_TESTS_JUNCTION_MADE_H

/* Junctions made of walls written for a test. */

#include <check.h>
#include <stdio.h>
#include <string.h>

#include "bothways/junction.h"

/* MADE: how the files of a suite begin. */

static const char FILE_NAME[] = "./" MADE "-test.xml";
static const char FLOOR_NAME[] = "./" MADE "-floor.xml";
static const char WALL_NAME[] = "./" MADE "-wall.xml";

static bw_library *library;

static inline void write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    ck_assert_int_eq(fclose(file), 0);
}

static inline void start(void)
{
    const char *paths[] = {BW_SOURCE_DIR "/materials"};
    bw_error err;
    ck_assert(bw_library_read(&library, paths, 1, &err) == BW_OK);
}

static inline void end(void)
{
    bw_library_free(library);
    remove(FILE_NAME);
    remove(WALL_NAME);
    remove(FLOOR_NAME);
}

/* A drawing of two materials between outside and room, its lines numbered; what
 * ends it is the suite's. */
#define TWO_LAYERS_DRAWN                                                       \
    "<junction xmlns=\"urn:bothways:junction:1\" id=\"test\">\n" /* 1 */       \
    "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>\n"      /* 2 */       \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>\n"  /* 3 */       \
    "<drawing>\n"                                                /* 4 */       \
    "<rectangle material=\"softwood\" x=\"0 mm\" y=\"0 mm\" "    /* 5 */       \
    "width=\"600 mm\" height=\"100 mm\"/>\n"                                   \
    "<rectangle material=\"hemp-batt\" x=\"0 mm\" y=\"100 mm\" " /* 6 */       \
    "width=\"600 mm\" height=\"100 mm\"/>\n"                                   \
    "<space of=\"outside\" x=\"0 mm\" y=\"-50 mm\" width=\"600 mm\" " /* 7 */  \
    "height=\"50 mm\"/>\n"                                                     \
    "<space of=\"room\" x=\"0 mm\" y=\"200 mm\" width=\"600 mm\" " /* 8 */     \
    "height=\"50 mm\"/>\n"                                                     \
    "<symmetry side=\"left\"/>\n"                        /* 9 */               \
    "<symmetry side=\"right\"/>\n"                       /* 10 */              \
    "<spot name=\"joint\" x=\"300 mm\" y=\"100 mm\"/>\n" /* 11 */

#define WALL(layers)                                                           \
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"w\">"                    \
    "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"                      \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"                  \
    "<layers listed=\"outside-to-inside\">" layers "</layers></assembly>"
#define BRICK                                                                  \
    "<layer id=\"brick\" thickness=\"330 mm\" lambda=\"0.77 W/(m.K)\" "        \
    "mu=\"10\" kind=\"mineral\"/>"
#define INSIDE                                                                 \
    "<layer id=\"ins\" thickness=\"80 mm\" lambda=\"0.04 W/(m.K)\" mu=\"1\" "  \
    "kind=\"mineral\"/>"                                                       \
    "<layer id=\"board\" thickness=\"12.5 mm\" lambda=\"0.25 W/(m.K)\" "       \
    "mu=\"8\" kind=\"mineral\"/>"
#define FRAMED                                                                 \
    "<layer id=\"osb\" thickness=\"9 mm\" lambda=\"0.13 W/(m.K)\" mu=\"50\" "  \
    "kind=\"mineral\"/>"                                                       \
    "<layer id=\"bay\" thickness=\"140 mm\" lambda=\"0.035 W/(m.K)\" "         \
    "mu=\"1\" "                                                                \
    "kind=\"mineral\"><framing material=\"softwood\" width=\"45 mm\" "         \
    "spacing=\"600 mm\"/></layer>"                                             \
    "<layer id=\"board\" thickness=\"12.5 mm\" lambda=\"0.25 W/(m.K)\" "       \
    "mu=\"8\" kind=\"mineral\"/>"
#define JUNCTION(kind, parts)                                                  \
    "<junction xmlns=\"urn:bothways:junction:1\" id=\"t\" kind=\"" kind "\">"  \
    "<wall file=\"" MADE "-wall.xml\"/>" parts "</junction>"

static inline bw_junction *read_text(const char *text)
{
    bw_junction *j = NULL;
    bw_error err = {0};
    write_file(FILE_NAME, text);
    ck_assert_msg(bw_junction_read(&j, FILE_NAME, library, &err) == BW_OK,
                  "%ld: %s", err.line, err.message);
    return j;
}

/* `sound` with the first `from` in or behind `behind` replaced. */
static inline void replaced(char *out, size_t size, const char *sound,
                            const char *behind, const char *from,
                            const char *to)
{
    const char *at = strstr(strstr(sound, behind), from);
    ck_assert_msg(at != NULL, "no %s", from);
    snprintf(out, size, "%.*s%s%s", (int)(at - sound), sound, to,
             at + strlen(from));
}

static inline void must_refuse(const char *text, long line, const char *says)
{
    bw_junction *j = NULL;
    bw_error err = {0};
    write_file(FILE_NAME, text);
    ck_assert(bw_junction_read(&j, FILE_NAME, library, &err) == BW_ERR_INPUT);
    ck_assert_ptr_null(j);
    ck_assert_msg(strstr(err.message, says) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, line);
}

/* The details have softwood of 0.13 and brick of 0.77 W/(m K). */
static inline void set_conductivities(bw_junction *j)
{
    for (size_t k = 0; k < j->material_count; k++) {
        bw_drawn_material *m = (bw_drawn_material *)&j->material[k];
        if (strcmp(m->material->id, "softwood") == 0)
            m->conductivity = 0.13;
        if (strcmp(m->material->id, "brick-old-soft") == 0)
            m->conductivity = 0.77;
    }
}

static inline bw_junction_heat *heat_of(const bw_junction *j)
{
    bw_junction_heat *h = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_junction_heat_make(&h, j, NULL, &err) == BW_OK, "%s",
                  err.message);
    return h;
}

#endif
