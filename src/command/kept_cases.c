#include "kept_cases.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "fail.h"
#include "file.h"
#include "number.h"
#include "output.h"
#include "targets.h"

/* Lines of text: what it is, of which digest, a case each, and at the end the
 * digest of all lines above. Numbers have 17 digits, so that they come back as
 * they were.
 *
 * Invariant: the file is as it was or whole; what is not all ours is refused,
 * and never replaced. */

static const char HEAD[] = "bothways choose, cases judged, 1\n";
static const char OF[] = "of ", END[] = "end ";

enum { EXACT = 17, EVERY = 10 /* s between two writings */ };

/* ---- reading ------------------------------------------------------------- */

typedef struct cursor {
    const char *at;
    bool good;
} cursor;

static void next(cursor *c, char after)
{
    c->good = c->good && *c->at == after;
    c->at += c->good;
}

static double number(cursor *c)
{
    double value = (double)NAN;
    if (c->good && *c->at == '-' && (c->at[1] == ' ' || c->at[1] == '\n'))
        c->at++;
    else
        c->good = c->good && bw_number_read(c->at, &value, &c->at);
    return value;
}

/* A whole number of a range. */
static long whole(cursor *c, long low, long high)
{
    const double value = number(c);
    if (!(value >= (double)low && value <= (double)high) ||
        value > floor(value)) {
        c->good = false;
        return low;
    }
    return (long)value;
}

static bw_judged_at read_case(cursor *c)
{
    bw_judged_at is = {.judged = {.done = true}};
    bw_judged *j = &is.judged;
    is.design = (size_t)whole(c, 0, BW_DESIGNS_MOST);
    next(c, ' ');
    is.slot = (size_t)whole(c, 0, 1L << 24);
    next(c, ' ');
    j->simulated = whole(c, 0, 1) == 1;
    next(c, ' ');
    j->said = (bw_verdict)whole(c, BW_HOLDS, BW_NOT_ASSESSED);
    next(c, ' ');
    j->numbers = (bw_verdict)whole(c, BW_HOLDS, BW_NOT_ASSESSED);
    next(c, ' ');
    j->deciding = (int)whole(c, -1, 1L << 20);
    next(c, ' ');
    j->never = whole(c, 0, 1) == 1;
    double *const to[] = {&j->margin, &j->value, &j->limit};
    for (size_t i = 0; i < sizeof to / sizeof *to; i++) {
        next(c, ' ');
        *to[i] = number(c);
    }
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        next(c, ' ');
        j->goal[g] = number(c);
    }
    next(c, '\n');
    return is;
}

static bw_status fail_damaged(const char *path, bw_error *err)
{
    return bw_fail(err, BW_ERR_INPUT, path, 0,
                   "this file of cases kept is damaged: its last line does not "
                   "fit what stands above; remove it, or name another with "
                   "--resume");
}

/* The last line is the digest of those above; ends the text there. */
static bw_status check_end(char *text, const char *path, bw_error *err)
{
    char digest[BW_SHA256_TEXT];
    const size_t length = strlen(text);
    const size_t tail = strlen(END) + BW_SHA256_TEXT; /* and a line end */
    bw_sha256 hash;
    if (length < tail)
        return fail_damaged(path, err);
    char *end = text + length - tail;
    bw_sha256_start(&hash);
    bw_sha256_add(&hash, text, length - tail);
    bw_sha256_finish(&hash, digest);
    if (strncmp(end, END, strlen(END)) != 0 ||
        strncmp(end + strlen(END), digest, BW_SHA256_TEXT - 1) != 0 ||
        text[length - 1] != '\n')
        return fail_damaged(path, err);
    *end = '\0';
    return BW_OK;
}

static bw_status read_text(kept_cases *kept, char *text, const char *path,
                           bw_error *err)
{
    const char *at = text + strlen(HEAD);
    if (strncmp(text, HEAD, strlen(HEAD)) != 0)
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this is no file of cases that choose has kept, and it "
                       "stays as it is; name another with --resume");
    BW_TRY(check_end(text, path, err));
    const size_t digits = BW_SHA256_TEXT - 1;
    if (strncmp(at, OF, strlen(OF)) != 0 ||
        strncmp(at + strlen(OF), kept->digest, digits) != 0)
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "these cases are of another wall, climate, material, "
                       "option or version; name another file with --resume");
    cursor c = {at + strlen(OF) + digits, true};
    next(&c, '\n');
    while (c.good && *c.at != '\0') {
        const bw_judged_at is = read_case(&c);
        bw_judged_at *all = bw_arena_more(
            &kept->arena, kept->known, kept->count, &kept->room, sizeof *all);
        BW_TRY_MEMORY(all != NULL, err);
        kept->known = all;
        kept->known[kept->count++] = is;
    }
    return c.good ? BW_OK : fail_damaged(path, err);
}

static bw_status read_file(kept_cases *kept, const char *path, bw_error *err)
{
    char *text;
    size_t length;
    BW_TRY(bw_file_read(&text, &length, path, "case", err));
    const bw_status status = read_text(kept, text, path, err);
    free(text);
    return status;
}

bw_status kept_read(kept_cases *kept, const walls *all, const settings *given,
                    bw_error *err)
{
    const word_list *files = &given->resume;
    struct stat there;
    *kept = (kept_cases){.path = NULL};
    if (files->count == 0)
        return BW_OK;
    kept->path = files->text[0];
    BW_TRY(kept_digest(kept->digest, all, given, err));
    for (size_t i = 0; i < files->count; i++) {
        if (i == 0 && stat(files->text[i], &there) != 0)
            continue;
        if (i > 0)
            BW_TRY(targets_spare(given, files->text[i], err));
        BW_TRY(read_file(kept, files->text[i], err));
    }
    return BW_OK;
}

/* ---- writing ------------------------------------------------------------- */

static void put_whole(bw_writer *out, long value)
{
    char text[32];
    snprintf(text, sizeof text, "%ld ", value);
    bw_write_text(out, text);
}

static void put_number(bw_writer *out, double value, const char *after)
{
    if (isfinite(value))
        bw_write_number(out, value, EXACT);
    else
        bw_write_text(out, "-");
    bw_write_text(out, after);
}

static void put_case(bw_writer *out, const bw_judged_at *is)
{
    const bw_judged *j = &is->judged;
    put_whole(out, (long)is->design);
    put_whole(out, (long)is->slot);
    put_whole(out, j->simulated);
    put_whole(out, j->said);
    put_whole(out, j->numbers);
    put_whole(out, j->deciding);
    put_whole(out, j->never);
    put_number(out, j->margin, " ");
    put_number(out, j->value, " ");
    put_number(out, j->limit, " ");
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        put_number(out, j->goal[g], g + 1 < BW_GOAL_COUNT ? " " : "\n");
}

static bool put_all(bw_output *to, const kept_cases *kept,
                    const bw_judged_at *all, size_t count)
{
    char digest[BW_SHA256_TEXT];
    bw_sha256_tee tee;
    bw_writer out;
    bw_sha256_tee_start(&tee, bw_output_write, to);
    bw_writer_start(&out, bw_sha256_pass, &tee);
    bw_write_text(&out, HEAD);
    bw_write_text(&out, OF);
    bw_write_text(&out, kept->digest);
    bw_write_text(&out, "\n");
    for (size_t i = 0; i < count; i++)
        put_case(&out, &all[i]);
    if (!bw_writer_finish(&out))
        return false;
    bw_sha256_finish(&tee.hash, digest);
    return bw_output_write(to, END, strlen(END)) &&
           bw_output_write(to, digest, strlen(digest)) &&
           bw_output_write(to, "\n", 1);
}

bw_status kept_write(void *keeper, const bw_judged_at *all, size_t count,
                     bool last, bw_error *err)
{
    kept_cases *kept = keeper;
    const time_t now = time(NULL);
    if (!last && kept->written != 0 && now - kept->written < EVERY)
        return BW_OK;
    bw_output output;
    BW_TRY(bw_output_open(&output, kept->path, err));
    bw_status status = put_all(&output, kept, all, count)
                           ? bw_output_commit(&output, err)
                           : bw_fail(err, BW_ERR_IO, kept->path, 0,
                                     "cannot write this: %s",
                                     strerror(output.fault));
    bw_output_discard(&output);
    kept->written = now;
    return status;
}

void kept_free(kept_cases *kept)
{
    bw_arena_release(&kept->arena);
}
