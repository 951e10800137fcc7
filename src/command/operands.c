#include "operands.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "fail.h"
#include "folder.h"
#include "targets.h"

/* Invariant: a file of the list stands where "-" stood, the others where they
 * were. */

typedef struct list {
    const char **at;
    size_t count, room;
} list;

static bool keep(list *files, bw_arena *arena, const char *file)
{
    const char **all = bw_arena_more(arena, files->at, files->count,
                                     &files->room, sizeof *all);
    if (all == NULL)
        return false;
    files->at = all;
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

static bool is_folder(const char *path)
{
    struct stat found;
    return path != NULL && stat(path, &found) == 0 && S_ISDIR(found.st_mode);
}

static bool is_given(const settings *given, const char *folder)
{
    struct stat one, other;
    for (size_t i = 0; i < given->operand_count; i++)
        if (stat(folder, &one) == 0 && stat(given->operand[i], &other) == 0 &&
            one.st_dev == other.st_dev && one.st_ino == other.st_ino)
            return true;
    return false;
}

static bw_status keep_folder(list *files, bw_arena *arena, const char *folder,
                             bw_error *err)
{
    bw_folder_files found;
    BW_TRY(bw_folder_list(&found, arena, folder, true, "walls", err));
    for (size_t i = 0; i < found.count; i++)
        BW_TRY_MEMORY(keep(files, arena, found.path[i]), err);
    return BW_OK;
}

/* A folder below that holds data is no part of the house, and is not passed
 * over: it may hold a wall. */
static bw_status refuse_below(const settings *given, bw_arena *arena,
                              const char *folder, int depth, bw_error *err)
{
    enum { DEEPEST = 8 };
    struct dirent **entry = NULL;
    int count = depth < DEEPEST ? scandir(folder, &entry, NULL, alphasort) : 0;
    bw_status status = BW_OK;
    for (int i = 0; i < count; i++) {
        const char *name = entry[i]->d_name;
        char *path = bw_arena_printf(arena, "%s/%s", folder, name);
        if (status == BW_OK && path == NULL)
            status = bw_fail_memory(err);
        if (status == BW_OK && strcmp(name, ".") != 0 &&
            strcmp(name, "..") != 0 && is_folder(path) &&
            !is_given(given, path)) {
            bw_folder_files files;
            bw_error none;
            status = bw_folder_list(&files, arena, path, true, "walls",
                                    &none) == BW_OK
                         ? bw_fail(err, BW_ERR_INPUT, files.path[0], 0,
                                   "this stands below the folder of the "
                                   "house, of which only the *.xml in it are "
                                   "read: name its folder, too, or move it")
                         : refuse_below(given, arena, path, depth + 1, err);
        }
        free(entry[i]);
    }
    free(entry);
    return status;
}

/* A wall by two names would be counted twice. */
static bw_status refuse_same(const list *files, bw_error *err)
{
    struct stat one, other;
    for (size_t i = 0; i < files->count; i++)
        for (size_t k = 0; k < i; k++)
            if (stat(files->at[i], &one) == 0 &&
                stat(files->at[k], &other) == 0 && one.st_dev == other.st_dev &&
                one.st_ino == other.st_ino)
                return bw_fail(err, BW_ERR_USAGE, files->at[i], 0,
                               "this is the same file as %s; a house has each "
                               "wall once",
                               files->at[k]);
    return BW_OK;
}

bw_status operands_walls(settings *given, const char **house, bw_arena *arena,
                         bw_error *err)
{
    list files = {NULL, 0, 0};
    if (given->operand_count == 0)
        return bw_fail_usage(err, "audit needs an assembly file, or the folder "
                                  "of a house: bothways audit WALL.xml");
    *house = given->operand_count > 1 ? "walls named one by one" : NULL;
    for (size_t i = 0; i < given->operand_count; i++) {
        const char *path = given->operand[i];
        const bool folder = is_folder(path);
        if (folder && given->operand_count == 1)
            *house = path;
        if (folder) {
            BW_TRY(keep_folder(&files, arena, path, err));
            BW_TRY(refuse_below(given, arena, path, 0, err));
        } else if (!keep(&files, arena, path))
            return bw_fail_memory(err);
    }
    BW_TRY(refuse_same(&files, err));
    given->operand = files.at;
    given->operand_count = files.count;
    return BW_OK;
}

bw_status operands_read(settings *given, bw_arena *arena, bw_error *err)
{
    list files = {NULL, 0, 0};
    bool listed = false;
    for (size_t i = 0; i < given->operand_count; i++) {
        const char *file = given->operand[i];
        if (strcmp(file, "-") != 0) {
            BW_TRY_MEMORY(keep(&files, arena, file), err);
            continue;
        }
        if (listed)
            return bw_fail_usage(
                err, "'-', the list on standard input, can be read once only");
        listed = true;
        BW_TRY(targets_spare(given, "/dev/stdin", err));
        BW_TRY(read_list(&files, arena, err));
    }
    given->operand = files.at;
    given->operand_count = files.count;
    return BW_OK;
}
