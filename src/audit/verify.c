/* A sheet, or the list beside it, read back: are the files it names, and the
 * sheet itself, what they were?
 *
 * Invariant: nothing passes that was not read and hashed just now. A sheet is
 * whatever somebody sends, so what it may name is bounded: paths without
 * control characters, each once, and regular files of the size an input may
 * have are all that is opened. */

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "arena.h"
#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "digests.h"
#include "fail.h"
#include "file.h"
#include "sha256.h"
#include "utf8.h"

enum { HEX = BW_SHA256_TEXT - 1, PATH_MOST = 4096, DIGESTS_MOST = 10000 };

typedef struct reader {
    bw_verification made; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_digest *digest;
    size_t room;
    const char *own; /* the sheet's digest of itself, or NULL */
    size_t above;    /* bytes of the text before it */
    char *text;
} reader;

static bw_status refuse(const reader *r, long line, const char *what,
                        bw_error *err)
{
    return bw_fail(err, BW_ERR_INPUT, r->made.sheet, line, "%s", what);
}

static bool is_hex(const char *text)
{
    return strspn(text, "0123456789abcdef") >= HEX;
}

/* A line "digest  path". */
static bool is_digest(const char *line)
{
    return is_hex(line) && line[HEX] == ' ' && line[HEX + 1] == ' ' &&
           line[HEX + 2] != '\0';
}

static const char *fault_of_path(const reader *r, const char *path)
{
    const size_t length = strlen(path);
    if (length > PATH_MOST)
        return "the path is longer than 4096 bytes";
    for (size_t i = 0; i < length;) {
        unsigned code;
        const size_t bytes = bw_utf8_next(path + i, length - i, &code);
        const bool broken = bw_utf8_broken(path + i, bytes);
        i += bytes;
        if (bw_utf8_steers(code) && !broken)
            return "a control character in the path, as where line ends were "
                   "converted; a sheet has none";
    }
    for (size_t i = 0; i < r->made.digest_count; i++)
        if (strcmp(r->digest[i].path, path) == 0)
            return "the same file a second time";
    return r->made.digest_count == DIGESTS_MOST ? "more than 10000 files"
                                                : NULL;
}

static bw_status keep(reader *r, const char *line, long number, bw_error *err)
{
    const char *path = line + HEX + 2, *fault = fault_of_path(r, path);
    if (fault != NULL)
        return refuse(r, number, fault, err);
    bw_digest *all = bw_arena_more(&r->arena, r->digest, r->made.digest_count,
                                   &r->room, sizeof *all);
    BW_TRY_MEMORY(all != NULL, err);
    r->digest = all;
    bw_digest *one = &all[r->made.digest_count++];
    *one = (bw_digest){.path = path, .why = ""};
    memcpy(one->sha256, line, HEX);
    return BW_OK;
}

static bool begins(const char *line, const char *with)
{
    return strncmp(line, with, strlen(with)) == 0;
}

static bw_status take_line(reader *r, const char *line, long number,
                           bw_error *err)
{
    if (is_digest(line))
        return keep(r, line, number, err);
    if (begins(line, BW_DIGESTS_BEGIN)) {
        if (r->made.program != NULL)
            return refuse(r, number, "a second list of digests begins", err);
        r->made.program = line + strlen(BW_DIGESTS_BEGIN);
        r->made.is_list = number == 1;
    } else if (begins(line, BW_DIGESTS_ABOVE)) {
        if (r->own != NULL)
            return refuse(r, number, "a second digest of the sheet", err);
        r->own = line + strlen(BW_DIGESTS_ABOVE);
        r->above = (size_t)(line - r->text);
    }
    return BW_OK;
}

/* Every line, a zero in the place of its end. */
static bw_status take_lines(reader *r, bw_error *err)
{
    char *copy = bw_arena_copy(&r->arena, r->text);
    BW_TRY_MEMORY(copy != NULL, err);
    char *text = r->text;
    r->text = copy; /* lines point into the copy, and so does `above` */
    bw_status status = BW_OK;
    long number = 1;
    for (char *line = copy; status == BW_OK && *line != '\0'; number++) {
        char *end = line + strcspn(line, "\n");
        char *next = *end == '\n' ? end + 1 : end;
        *end = '\0';
        status = take_line(r, line, number, err);
        line = next;
    }
    r->text = text;
    return status;
}

static bw_status check_form(const reader *r, bw_error *err)
{
    if (r->made.program == NULL || r->made.digest_count == 0)
        return refuse(r, 0,
                      "this is no sheet with digests: give the text of an "
                      "audit, or the list SHEET.sha256 that stands beside a "
                      "sheet, which is how a page, CSV and JSON are verified",
                      err);
    if (r->own == NULL && !r->made.is_list)
        return refuse(r, 0,
                      "the last line, the sheet's digest of itself, is "
                      "missing: it was cut short, or is no sheet",
                      err);
    return BW_OK;
}

/* What stands above the last line, byte for byte, and nothing below it. The
 * whole is hashed from the file, too: a byte order mark is no part of the text
 * that was read, and was none of the sheet. */
static bw_status look_at_sheet(reader *r, size_t length, bw_error *err)
{
    char above[BW_SHA256_TEXT], all[BW_SHA256_TEXT], file[BW_SHA256_TEXT];
    bw_sha256 hash;
    if (r->own == NULL)
        return BW_OK;
    bw_sha256_start(&hash);
    bw_sha256_add(&hash, r->text, r->above);
    bw_sha256_finish(&hash, above);
    bw_sha256_start(&hash);
    bw_sha256_add(&hash, r->text, length);
    bw_sha256_finish(&hash, all);
    BW_TRY(bw_sha256_file(file, r->made.sheet, err));
    r->made.edited = strcmp(above, r->own) != 0 || strcmp(all, file) != 0 ||
                     length != r->above + strlen(BW_DIGESTS_ABOVE) +
                                   strlen(r->own) + 1;
    return BW_OK;
}

static int digit_of(char c)
{
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
                                  : -1;
}

/* A name that is not UTF-8 stands in a sheet by the codes of its bytes; in the
 * list beside it as it is. A file of the name as written comes first. */
static bw_status find_named(bw_digest *one, bw_arena *arena, bw_error *err)
{
    struct stat found;
    if (strstr(one->path, "\\x") == NULL || stat(one->path, &found) == 0)
        return BW_OK;
    char *name = bw_arena_copy(arena, one->path), *to = name;
    BW_TRY_MEMORY(name != NULL, err);
    for (const char *c = one->path; *c != '\0'; c++) {
        const bool coded = c[0] == '\\' && c[1] == 'x' && digit_of(c[2]) >= 8 &&
                           digit_of(c[3]) >= 0;
        *to++ = coded ? (char)(16 * digit_of(c[2]) + digit_of(c[3])) : *c;
        c += coded ? 3 : 0;
    }
    *to = '\0';
    if (stat(name, &found) == 0)
        one->path = name;
    return BW_OK;
}

/* Only a file is at fault for what is said of it: not the memory, nor the
 * machine. */
static bw_status look_at_file(bw_digest *one, bw_error *err)
{
    char now[BW_SHA256_TEXT];
    struct stat found;
    bw_status status;
    one->state = BW_DIGEST_MISSING;
    if (stat(one->path, &found) != 0) {
        one->why = errno == ENOENT ? "there is no such file"
                                   : "it cannot be looked at";
    } else if (!S_ISREG(found.st_mode)) {
        one->why = "no regular file stands there";
    } else if (found.st_size < 0 || (size_t)found.st_size > BW_FILE_LIMIT) {
        one->why = "it is larger than an input may be";
    } else if ((status = bw_sha256_file(now, one->path, err)) != BW_OK) {
        if (status != BW_ERR_INPUT)
            return status;
        one->why = "it cannot be read";
    } else {
        one->state = strcmp(now, one->sha256) == 0 ? BW_DIGEST_SAME
                                                   : BW_DIGEST_CHANGED;
    }
    return BW_OK;
}

static bw_status verify(reader *r, const char *path, bw_error *err)
{
    size_t length = 0;
    r->made.sheet = bw_arena_copy(&r->arena, path);
    BW_TRY_MEMORY(r->made.sheet != NULL, err);
    BW_TRY(bw_file_read(&r->text, &length, path, "sheet", err));
    BW_TRY(take_lines(r, err));
    BW_TRY(check_form(r, err));
    BW_TRY(look_at_sheet(r, length, err));
    bw_verification *made = &r->made;
    made->digest = r->digest;
    made->other_program = strcmp(made->program, bw_version()) != 0;
    for (size_t i = 0; i < made->digest_count; i++) {
        BW_TRY(find_named(&r->digest[i], &r->arena, err));
        BW_TRY(look_at_file(&r->digest[i], err));
        made->changes += r->digest[i].state != BW_DIGEST_SAME;
    }
    made->changes += (size_t)made->edited + (size_t)made->other_program;
    return BW_OK;
}

bw_status bw_audit_verify(bw_verification **out, const char *path,
                          bw_error *err)
{
    reader *r = calloc(1, sizeof *r);
    BW_TRY_MEMORY(r != NULL, err);
    bw_status status = verify(r, path, err);
    if (status != BW_OK) {
        bw_verification_free(&r->made);
        return status;
    }
    *out = &r->made;
    return BW_OK;
}

void bw_verification_free(bw_verification *verification)
{
    if (verification == NULL)
        return;
    reader *r = (reader *)verification;
    bw_arena_release(&r->arena);
    free(r->text);
    free(r);
}
