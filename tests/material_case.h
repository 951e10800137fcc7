#ifndef MATERIAL_CASE_H
#define MATERIAL_CASE_H

/* A folder with one material file, in which the tests change one thing each. */

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/material.h"

static const char *const shipped_path = BW_SOURCE_DIR "/materials";
static bw_library *shipped;

static inline void open_shipped(void)
{
    bw_error err;
    bw_status status = bw_library_read(&shipped, &shipped_path, 1, &err);
    ck_assert_msg(status == BW_OK, "%s:%ld: %s", err.file, err.line,
                  err.message);
}

static inline void close_shipped(void)
{
    bw_library_free(shipped);
}

typedef struct folder {
    char path[64], file[96];
} folder;

static inline void make_folder(folder *f, const char *text)
{
    strcpy(f->path, "test-material-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(f->path));
    snprintf(f->file, sizeof f->file, "%s/a.xml", f->path);
    if (text == NULL)
        return;
    FILE *out = fopen(f->file, "w");
    ck_assert_ptr_nonnull(out);
    ck_assert_int_ge(fputs(text, out), 0);
    ck_assert_int_eq(fclose(out), 0);
}

static inline void drop_folder(const folder *f)
{
    unlink(f->file);
    rmdir(f->path);
}

/* Line 1 the root, line 2 the source, then `body` from line 3 on. */
#define ROOT "<materials xmlns=\"urn:bothways:material:1\" group=\"board\">\n"
#define HEAD ROOT "<source key=\"sheet\">A data sheet</source>\n"
#define FLAGS                                                                  \
    "<flags hygroscopic=\"no\" absorbs-condensate=\"no\" wood=\"none\" "       \
    "mould=\"resistant\" source=\"sheet\"/>"
#define ORIGIN "basis=\"given\" source=\"sheet\"/>"
#define MU "<mu-dry value=\"5\" " ORIGIN
#define TAIL FLAGS "</material>\n</materials>\n"
/* The fragment stands in line 4. */
#define WITH(fragment)                                                         \
    HEAD "<material id=\"b\" name=\"B\">\n" fragment "\n" MU TAIL
#define BARE(fragment)                                                         \
    HEAD "<material id=\"b\" name=\"B\">\n" fragment "\n" TAIL
#define CURVE(fragment)                                                        \
    WITH("<sorption basis=\"given\" source=\"sheet\">\n" fragment "</"         \
         "sorption>")

#endif
