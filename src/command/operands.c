#include "operands.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"

typedef struct list {
    const char **at;
    size_t count, room;
} list;

static bool keep(list *files, bw_arena *arena, const char *file)
{
    if (files->count == files->room) {
        size_t room = 2 * files->room + 64;
        const char **bigger = BW_NEW(arena, const char *, room);
        if (bigger == NULL)
            return false;
        if (files->count > 0)
            memcpy(bigger, files->at, files->count * sizeof *bigger);
        files->at = bigger;
        files->room = room;
    }
    files->at[files->count++] = file;
    return true;
}

/* One line without its end. */
static bool keep_line(list *files, bw_arena *arena, char *line, size_t length)
{
    while (length > 0 && strchr("\r\n", line[length - 1]) != NULL)
        line[--length] = '\0';
    if (length == 0 || line[0] == '#')
        return true;
    const char *copy = bw_arena_copy(arena, line);
    return copy != NULL && keep(files, arena, copy);
}

static bw_status read_list(list *files, bw_arena *arena, bw_error *err)
{
    char *line = NULL;
    size_t room = 0, before = files->count;
    bool kept = true;
    ssize_t length = 0;
    errno = 0;
    while (kept && (length = getline(&line, &room, stdin)) >= 0)
        kept = keep_line(files, arena, line, (size_t)length);
    int fault = errno;
    bool broken = ferror(stdin) != 0;
    free(line);
    if (!kept || fault == ENOMEM)
        return bw_fail_memory(err);
    if (broken)
        return bw_fail(err, BW_ERR_IO, "standard input", 0,
                       "reading the list broke off: %s", strerror(fault));
    if (files->count == before)
        return bw_fail(err, BW_ERR_USAGE, "standard input", 0,
                       "no file is named there, one a line");
    return BW_OK;
}

bw_status operands_read(settings *given, bw_arena *arena, bw_error *err)
{
    list files = {NULL, 0, 0};
    bool listed = false;
    for (size_t i = 0; i < given->operand_count; i++) {
        const char *file = given->operand[i];
        if (strcmp(file, "-") != 0) {
            if (!keep(&files, arena, file))
                return bw_fail_memory(err);
            continue;
        }
        if (listed)
            return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                           "'-', the list on standard input, can be read once "
                           "only");
        listed = true;
        BW_TRY(read_list(&files, arena, err));
    }
    given->operand = files.at;
    given->operand_count = files.count;
    return BW_OK;
}
