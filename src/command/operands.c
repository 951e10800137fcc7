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

/* Whether every line could be kept; *zero: the line with a zero byte, at which
 * a list parted by them would end unseen; 0: none. */
static bool read_lines(list *files, bw_arena *arena, long *zero)
{
    char *line = NULL;
    size_t room = 0;
    bool kept = true;
    ssize_t length = 0;
    for (long number = 1; kept && *zero == 0; number++) {
        length = getline(&line, &room, stdin);
        if (length < 0)
            break;
        if (memchr(line, '\0', (size_t)length) != NULL)
            *zero = number;
        else
            kept = keep_line(files, arena, line, (size_t)length);
    }
    int fault = errno;
    free(line);
    errno = fault;
    return kept;
}

static bw_status read_list(list *files, bw_arena *arena, bw_error *err)
{
    static const char name[] = "standard input";
    size_t before = files->count;
    long zero = 0;
    errno = 0;
    bool kept = read_lines(files, arena, &zero);
    int fault = errno;
    if (!kept || fault == ENOMEM)
        return bw_fail_memory(err);
    if (zero > 0)
        return bw_fail(err, BW_ERR_USAGE, name, zero,
                       "a zero byte; the list names one file a line");
    if (ferror(stdin) != 0)
        return bw_fail(err, fault == EISDIR ? BW_ERR_USAGE : BW_ERR_IO, name, 0,
                       "reading the list broke off: %s", strerror(fault));
    if (files->count == before)
        return bw_fail(err, BW_ERR_USAGE, name, 0,
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
