/* The program itself, called in this process: arguments and files from bytes.
 * One argument a line down to the first empty line, then files, each after a
 * line "=== NAME" ("-": standard input), in a folder of its own. Whatever
 * comes: an exit status of the contract; a refusal says why in lines of ours,
 * prints no result and leaves every file as it was, with none beside; a result
 * has no word on the error stream that is no warning. Nothing is written
 * outside that folder: an argument keeps no '/' but one behind a name. */

#define _GNU_SOURCE /* memfd_create, memmem */

#include <ctype.h>
#include <dirent.h>
#include <fcntl.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fuzz.h"
#include "inside.h"

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#include <sanitizer/common_interface_defs.h>
#define REPORT_TO(fd) __sanitizer_set_report_fd((void *)(intptr_t)(fd))
#endif
#endif
#ifndef REPORT_TO
#define REPORT_TO(fd) (void)(fd)
#endif

#undef main

enum { ARGUMENTS = 24, FILES = 12, BYTES = 1 << 16, NAME = 40 };

typedef struct laid_file {
    char name[NAME];
    const char *data;
    size_t size;
} laid_file;

typedef struct job {
    char text[BYTES + 1];
    char *argument[ARGUMENTS + 4];
    int count;
    laid_file file[FILES];
    size_t files;
} job;

/* ---- what is asked ------------------------------------------------------ */

static void tame(char *argument)
{
    const bool up = strstr(argument, "..") != NULL;
    for (char *c = argument; *c != '\0'; c++)
        if (*c == '/' &&
            (up || c == argument || !isalnum((unsigned char)c[-1])))
            *c = '_';
}

static bool is_name(const char *name)
{
    const char *slash = strchr(name, '/');
    for (const char *c = name; *c != '\0'; c++)
        if (!isalnum((unsigned char)*c) && *c != '-' && *c != '.' &&
            (*c != '/' || c != slash))
            return false;
    return name[0] != '\0' && strstr(name, "..") == NULL && slash != name &&
           (slash == NULL || slash[1] != '\0') && strcmp(name, ".") != 0;
}

/* Hours of work are no fault. */
static bool takes_hours(const char *argument)
{
    return strstr(argument, "ensemble") != NULL ||
           strncmp(argument, "--race", 6) == 0 ||
           strncmp(argument, "--drawn", 7) == 0 ||
           strcmp(argument, "--simulate") == 0 ||
           strcmp(argument, "--transient") == 0;
}

/* The words end with a blank each. */
static bool is_one_of(const char *word, const char *words)
{
    const size_t length = strlen(word);
    for (const char *at = words; length > 0 && *at != '\0';
         at = strchr(at, ' ') + 1)
        if (strncmp(at, word, length) == 0 && at[length] == ' ')
            return true;
    return false;
}

static void take_arguments(job *j, char *at, const char *end)
{
    j->argument[j->count++] = "bothways";
    while (at < end && j->count < ARGUMENTS) {
        char *line_end = memchr(at, '\n', (size_t)(end - at));
        char *next = line_end != NULL ? line_end + 1 : (char *)end;
        if (line_end != NULL)
            *line_end = '\0';
        tame(at);
        if (!takes_hours(at))
            j->argument[j->count++] = at;
        at = next;
    }
    const char *verb = j->count > 2 ? j->argument[1] : "";
    if (is_one_of(verb, "check compare margin audit choose "))
        j->argument[j->count++] = "--monthly-only";
    if (strcmp(verb, "choose") == 0) {
        j->argument[j->count++] = "--race=8";
        j->argument[j->count++] = "--drawn=8";
    }
    j->argument[j->count] = NULL;
}

static void take_files(job *j, char *at, char *end)
{
    static const char mark[] = "\n=== ";
    const size_t length = sizeof mark - 1;
    for (at = memmem(at, (size_t)(end - at), mark, length);
         at != NULL && j->files < FILES;) {
        char *name = at + length;
        char *line = memchr(name, '\n', (size_t)(end - name));
        if (line == NULL)
            return;
        *line = '\0';
        char *next = memmem(line + 1, (size_t)(end - line - 1), mark, length);
        laid_file *f = &j->file[j->files];
        snprintf(f->name, NAME, "%s", name);
        f->data = line + 1;
        f->size = (size_t)((next != NULL ? next + 1 : end) - (line + 1));
        j->files += is_name(f->name);
        at = next;
    }
}

static void read_job(job *j, const uint8_t *data, size_t size)
{
    j->count = 0;
    j->files = 0;
    if (size > BYTES)
        size = BYTES;
    memcpy(j->text, data, size);
    j->text[size] = '\0';
    char *end = j->text + size;
    char *files = memmem(j->text, size, "\n\n", 2);
    take_files(j, files != NULL ? files + 1 : end, end);
    take_arguments(j, j->text, files != NULL ? files + 1 : end);
}

/* ---- a folder of its own ------------------------------------------------ */

static void join(char *out, size_t size, const char *path, const char *name)
{
    const int length = snprintf(out, size, "%s/%s", path, name);
    FUZZ_REQUIRE(length > 0 && (size_t)length < size);
}

static void empty_folder(const char *path, int depth)
{
    DIR *folder = opendir(path);
    FUZZ_REQUIRE(folder != NULL);
    for (const struct dirent *e; (e = readdir(folder)) != NULL;) {
        char inside[2048];
        struct stat status;
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        join(inside, sizeof inside, path, e->d_name);
        FUZZ_REQUIRE(lstat(inside, &status) == 0);
        if (S_ISDIR(status.st_mode) && depth < 4)
            empty_folder(inside, depth + 1);
        FUZZ_REQUIRE(remove(inside) == 0);
    }
    closedir(folder);
}

static int count_files(const char *path, int depth)
{
    int count = 0;
    DIR *folder = opendir(path);
    FUZZ_REQUIRE(folder != NULL);
    for (const struct dirent *e; (e = readdir(folder)) != NULL;) {
        char inside[2048];
        struct stat status;
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        join(inside, sizeof inside, path, e->d_name);
        count++;
        if (lstat(inside, &status) == 0 && S_ISDIR(status.st_mode) && depth < 4)
            count += count_files(inside, depth + 1);
    }
    closedir(folder);
    return count;
}

static char here[64];

static void remove_here(void)
{
    empty_folder(here, 0);
    rmdir(here);
}

static void enter_folder(void)
{
    if (here[0] != '\0')
        return;
    snprintf(here, sizeof here, "/tmp/bothways-fuzz-XXXXXX");
    FUZZ_REQUIRE(mkdtemp(here) != NULL && chdir(here) == 0);
    atexit(remove_here);
    setenv("BOTHWAYS_DATA", BW_SOURCE_DIR, 1);
}

static void lay(const laid_file *f)
{
    char folder[NAME];
    snprintf(folder, sizeof folder, "%s", f->name);
    char *slash = strchr(folder, '/');
    if (slash != NULL) {
        *slash = '\0';
        mkdir(folder, 0777);
    }
    const char *path = strcmp(f->name, "-") == 0 ? "stdin" : f->name;
    FILE *out = fopen(path, "wb"); /* a folder of that name: not laid */
    if (out == NULL)
        return;
    FUZZ_REQUIRE(fwrite(f->data, 1, f->size, out) == f->size);
    FUZZ_REQUIRE(fclose(out) == 0);
}

static bool as_laid(const job *j, size_t i)
{
    const laid_file *f = &j->file[i];
    for (size_t k = i + 1; k < j->files; k++)
        if (strcmp(j->file[k].name, f->name) == 0)
            return true; /* laid over */
    const char *path = strcmp(f->name, "-") == 0 ? "stdin" : f->name;
    static char found[BYTES + 1];
    FILE *in = fopen(path, "rb");
    if (in == NULL)
        return false;
    const size_t got = fread(found, 1, sizeof found, in);
    fclose(in);
    return got == f->size && memcmp(found, f->data, got) == 0;
}

/* ---- a run -------------------------------------------------------------- */

typedef struct heard {
    char text[1 << 20];
    size_t size;
} heard;

static int open_ear(void)
{
    const int fd = memfd_create("heard", MFD_CLOEXEC);
    FUZZ_REQUIRE(fd >= 0);
    return fd;
}

static void hear(heard *to, int fd)
{
    const ssize_t got = pread(fd, to->text, sizeof to->text - 1, 0);
    FUZZ_REQUIRE(got >= 0);
    to->size = (size_t)got;
    to->text[got] = '\0';
    FUZZ_REQUIRE(ftruncate(fd, 0) == 0 && lseek(fd, 0, SEEK_SET) == 0);
}

static int run(job *j, heard *out, heard *err)
{
    static int ears[2] = {-1, -1}, own[2];
    for (int i = 0; i < 2 && ears[i] < 0; i++) {
        ears[i] = open_ear();
        own[i] = fcntl(i + 1, F_DUPFD_CLOEXEC, 10);
        FUZZ_REQUIRE(own[i] >= 0);
    }
    fflush(NULL);
    FUZZ_REQUIRE(freopen(access("stdin", R_OK) == 0 ? "stdin" : "/dev/null",
                         "rb", stdin) != NULL);
    REPORT_TO(own[1]);
    for (int i = 0; i < 2; i++)
        FUZZ_REQUIRE(dup2(ears[i], i + 1) >= 0);
    const int status = bothways_main(j->count, j->argument);
    fflush(NULL);
    for (int i = 0; i < 2; i++)
        FUZZ_REQUIRE(dup2(own[i], i + 1) >= 0);
    clearerr(stdout);
    clearerr(stderr);
    hear(out, ears[0]);
    hear(err, ears[1]);
    return status;
}

static void check_said(const heard *err)
{
    bool begins = true;
    for (size_t i = 0; i < err->size; i++) {
        const unsigned char c = (unsigned char)err->text[i];
        FUZZ_REQUIRE(c == '\n' || (c >= ' ' && c != 0x7f));
        if (begins)
            FUZZ_REQUIRE(strncmp(err->text + i, "bothways: ", 10) == 0);
        begins = c == '\n';
    }
    FUZZ_REQUIRE(begins);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static job j;
    static heard out, err;
    enter_folder();
    read_job(&j, data, size);
    for (size_t i = 0; i < j.files; i++)
        lay(&j.file[i]);
    const int before = count_files(here, 0);
    const int status = run(&j, &out, &err);
    if (getenv("FUZZ_SHOW") != NULL)
        fprintf(stderr, "exit %d, %zu bytes: %s\n", status, out.size, err.text);
    FUZZ_REQUIRE(status >= 0 && status <= 4);
    if (status == 2 || status == 3) {
        if (j.count > 1) {
            FUZZ_REQUIRE(err.size > 0);
            check_said(&err);
        }
        FUZZ_REQUIRE(out.size == 0);
        FUZZ_REQUIRE(count_files(here, 0) == before);
        for (size_t i = 0; i < j.files; i++)
            FUZZ_REQUIRE(as_laid(&j, i));
    }
    for (size_t i = 0; i < out.size; i++)
        FUZZ_REQUIRE(out.text[i] == '\n' || (unsigned char)out.text[i] >= ' ');
    FUZZ_REQUIRE(strstr(out.text, "(null)") == NULL ||
                 memmem(data, size, "(null)", 6) != NULL);
    empty_folder(here, 0);
    return 0;
}
