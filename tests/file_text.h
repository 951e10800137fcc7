#ifndef BW_TEST_FILE_TEXT_H
#define BW_TEST_FILE_TEXT_H

/* A file of the tree as text, to be freed. */

#include <check.h>
#include <stdio.h>
#include <stdlib.h>

static inline char *file_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s", path);
    ck_assert_int_eq(fseek(file, 0, SEEK_END), 0);
    long length = ftell(file);
    char *text = calloc((size_t)length + 1, 1);
    rewind(file);
    ck_assert_uint_eq(fread(text, 1, (size_t)length, file), (size_t)length);
    fclose(file);
    return text;
}

#endif
