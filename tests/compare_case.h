#ifndef BW_TESTS_COMPARE_CASE_H
#define BW_TESTS_COMPARE_CASE_H

/* Invented walls of the plainest kind, written to a folder of their own and
 * read back, so that a comparison can be checked by hand. */

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bothways/compare.h"

enum { CASE_WALLS = 9 };

typedef struct compare_case {
    char folder[64];
    bw_library *library;
    size_t count;
    bw_assembly *assembly[CASE_WALLS];
    bw_climate *climate[CASE_WALLS];
    bw_comparison *result;
    bw_error err;
} compare_case;

/* A wall is its two climates and its layers. */
typedef struct case_wall {
    const char *id, *outdoors, *indoors, *layers;
} case_wall;

#define CASE_BOARD                                                             \
    "<layer id='panel' material='plywood-softwood' thickness='12 mm'/>"
#define CASE_LINING                                                            \
    "<layer id='lining' material='gypsum-plasterboard' thickness='12.5 mm'/>"
#define CASE_WOOL(millimetres, lambda)                                         \
    "<layer id='wool' name='wool' thickness='" millimetres                     \
    " mm' lambda='" lambda " W/(m.K)' mu='1' kind='mineral-wool'/>"
#define CASE_OUTDOORS "faces='N' driving-rain='none'"
#define CASE_INDOORS "temperature='20 degC' humidity-class='2'"

static inline FILE *case_file(compare_case *c, const char *name, char path[128])
{
    snprintf(path, 128, "%s/%s", c->folder, name);
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    return file;
}

/* A climate of twelve invented months, colder by `shift`. */
static inline bw_climate *case_climate(compare_case *c, const char *name,
                                       double shift)
{
    static const double theta[] = {0, 1, 4, 8, 12, 15, 17, 17, 14, 10, 5, 2};
    char path[128];
    FILE *file = case_file(c, name, path);
    fprintf(file,
            "# place: %s\n# remark: invented\nmonth,temperature_C,"
            "relative_humidity_pct\n",
            name);
    for (int m = 0; m < BW_MONTHS; m++)
        fprintf(file, "%d,%.1f,80\n", m + 1, theta[m] - shift);
    fclose(file);
    bw_climate *climate = NULL;
    ck_assert_msg(bw_climate_read(&climate, path, &c->err) == BW_OK, "%s",
                  c->err.message);
    return climate;
}

static inline void case_start(compare_case *c)
{
    const char *materials = BW_SOURCE_DIR "/materials";
    memset(c, 0, sizeof *c);
    strcpy(c->folder, "/tmp/bothways-compare-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(c->folder));
    ck_assert_msg(bw_library_read(&c->library, &materials, 1, &c->err) == BW_OK,
                  "%s", c->err.message);
}

static inline void case_wall_in(compare_case *c, case_wall wall,
                                const char *climate, double shift)
{
    char path[128], name[32];
    snprintf(name, sizeof name, "wall-%zu.xml", c->count);
    FILE *file = case_file(c, name, path);
    fprintf(file,
            "<assembly xmlns='urn:bothways:assembly:1' id='%s'>\n"
            "<outdoors %s/>\n<indoors %s/>\n"
            "<layers listed='outside-to-inside'>\n%s\n</layers>\n"
            "</assembly>\n",
            wall.id, wall.outdoors != NULL ? wall.outdoors : CASE_OUTDOORS,
            wall.indoors != NULL ? wall.indoors : CASE_INDOORS, wall.layers);
    fclose(file);
    c->climate[c->count] = case_climate(c, climate, shift);
    ck_assert_msg(bw_assembly_read(&c->assembly[c->count], path, c->library,
                                   &c->err) == BW_OK,
                  "%s", c->err.message);
    c->count++;
}

static inline void case_add(compare_case *c, case_wall wall)
{
    case_wall_in(c, wall, "climate.csv", 0.0);
}

static inline bw_status case_compare(compare_case *c,
                                     const bw_compare_options *options)
{
    bw_comparison_free(c->result);
    c->result = NULL;
    return bw_compare(&c->result, (const bw_assembly *const *)c->assembly,
                      (const bw_climate *const *)c->climate, c->count, options,
                      &c->err);
}

static inline void case_must(compare_case *c, const bw_compare_options *options)
{
    ck_assert_msg(case_compare(c, options) == BW_OK, "%s", c->err.message);
}

static inline void case_end(compare_case *c)
{
    static const char *const names[] = {"climate.csv", "other.csv"};
    char path[128];
    bw_comparison_free(c->result);
    for (size_t i = 0; i < c->count; i++) {
        snprintf(path, sizeof path, "%s/wall-%zu.xml", c->folder, i);
        unlink(path);
        bw_assembly_free(c->assembly[i]);
        bw_climate_free(c->climate[i]);
    }
    for (size_t i = 0; i < 2; i++) {
        snprintf(path, sizeof path, "%s/%s", c->folder, names[i]);
        unlink(path);
    }
    rmdir(c->folder);
    bw_library_free(c->library);
}

static inline const bw_compare_row *case_row(const compare_case *c,
                                             const char *name)
{
    for (size_t i = 0; i < c->result->row_count; i++)
        if (strcmp(c->result->row[i].name, name) == 0)
            return &c->result->row[i];
    ck_abort_msg("no row %s", name);
}

#endif
