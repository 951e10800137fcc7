#ifndef EXCHANGE_CASE_H
#define EXCHANGE_CASE_H

/* A gbXML file imported, the skeleton completed and read back. */

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/assembly.h"
#include "bothways/exchange.h"
#include "suite.h"

static bw_library *library;
static bw_gbxml *file;
static bw_skeleton *skeleton;
static bw_assembly *assembly;
static bw_error err;
static char path[64];

static inline void setup(void)
{
    const char *materials = BW_SOURCE_DIR "/materials";
    library = NULL;
    file = NULL;
    skeleton = NULL;
    assembly = NULL;
    path[0] = '\0';
    ck_assert_int_eq(bw_library_read(&library, &materials, 1, &err), BW_OK);
}

static inline void release(void)
{
    bw_assembly_free(assembly);
    bw_skeleton_free(skeleton);
    bw_gbxml_free(file);
    assembly = NULL;
    skeleton = NULL;
    file = NULL;
    if (path[0] != '\0')
        unlink(path);
    path[0] = '\0';
}

static inline void teardown(void)
{
    release();
    bw_library_free(library);
}

/* A file of its own with that text. */
static inline const char *write_file(const char *text)
{
    strcpy(path, "/tmp/bothways-exchange-XXXXXX");
    int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    FILE *to = fdopen(fd, "w");
    fputs(text, to);
    fclose(to);
    return path;
}

/* Text with every `from` replaced; free it. */
static inline char *replaced(const char *text, const char *from, const char *to)
{
    char *out = malloc(strlen(text) * 2 + strlen(to) * 64 + 1), *at = out;
    ck_assert_ptr_nonnull(out);
    while (*text != '\0') {
        if (strncmp(text, from, strlen(from)) == 0) {
            at += sprintf(at, "%s", to);
            text += strlen(from);
        } else {
            *at++ = *text++;
        }
    }
    *at = '\0';
    return out;
}

/* The skeleton with what it asks for. */
static inline char *completed(const char *xml)
{
    static const char *const what[][2] = {
        {"climate=\"?\"", "climate=\"place.csv\""},
        {"faces=\"?\"", "faces=\"N\""},
        {"temperature=\"?\"", "temperature=\"20 degC\""},
        {"humidity-class=\"?\"", "humidity-class=\"2\""},
        {" below=\"?\"", " below=\"open-air\""},
        {" kind=\"?\"", " kind=\"mineral\""},
        {" mu=\"?\"", " mu=\"10\""},
        {" sd=\"?\"", " sd=\"0.1 m\""},
        {" lambda=\"?\"", " lambda=\"0.1 W/(m.K)\""},
    };
    char *text = replaced(xml, "\r", "");
    for (size_t i = 0; i < COUNT(what); i++) {
        char *next = replaced(text, what[i][0], what[i][1]);
        free(text);
        text = next;
    }
    return text;
}

/* Reads an assembly from text. */
static inline bw_status read_text(const char *xml)
{
    char wall[] = "/tmp/bothways-exchange-XXXXXX";
    int fd = mkstemp(wall);
    FILE *to = fdopen(fd, "w");
    ck_assert_ptr_nonnull(to);
    fputs(xml, to);
    fclose(to);
    bw_status status = bw_assembly_read(&assembly, wall, library, &err);
    unlink(wall);
    return status;
}

static inline bw_status import(const char *from, const char *construction,
                               const char *permeance)
{
    bw_skeleton_options options = {.construction = construction,
                                   .permeance_unit = permeance,
                                   .library = library};
    bw_status status = bw_gbxml_read(&file, from, &err);
    if (status == BW_OK)
        status = bw_gbxml_skeleton(&skeleton, file, &options, &err);
    return status;
}

/* Imports, completes and reads; stops the test where one of them refuses. */
static inline void take(const char *from, const char *construction,
                        const char *permeance)
{
    ck_assert_msg(import(from, construction, permeance) == BW_OK, "%s",
                  err.message);
    char *text = completed(skeleton->xml);
    ck_assert_msg(read_text(text) == BW_OK, "line %ld: %s\n%s", err.line,
                  err.message, text);
    free(text);
}

static inline bool mentions(const char *const *list, size_t count,
                            const char *words)
{
    for (size_t i = 0; i < count; i++)
        if (strstr(list[i], words) != NULL)
            return true;
    return false;
}

#define ROOT                                                                   \
    "<gbXML xmlns='http://www.gbxml.org/schema' version='6.01' "               \
    "lengthUnit='%s'>"
#define CHAIN                                                                  \
    "<Construction id='c'><LayerId layerIdRef='l'/></Construction>"            \
    "<Layer id='l'><MaterialId materialIdRef='m'/></Layer>"

#define OPEN                                                                   \
    "<gbXML xmlns='http://www.gbxml.org/schema' version='6.01' "               \
    "lengthUnit='Meters'>"
#define MATERIAL(inside)                                                       \
    OPEN CHAIN "<Material id='m'>" inside "</Material></gbXML>"

#endif
