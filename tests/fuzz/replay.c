/* Runs a harness on files, and on every file of the folders named: the
 * regression test of what fuzzing found. With -N before them, N inputs of
 * fixed pseudo-random bytes are run as well. */

#include <dirent.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fuzz.h"

static size_t runs;
static const char *current; /* the file that is run */

static void name_it(int signal)
{
    (void)signal;
    if (current != NULL) {
        (void)!write(STDERR_FILENO, current, strlen(current));
        (void)!write(STDERR_FILENO, "\n", 1);
    }
}

static void run_file(const char *path)
{
    FILE *in = fopen(path, "rb");
    FUZZ_REQUIRE(in != NULL);
    char *data = NULL;
    size_t size = 0, room = 0, got = 1;
    while (got > 0) {
        if (size == room) {
            room = 2 * room + 4096;
            data = realloc(data, room);
            FUZZ_REQUIRE(data != NULL);
        }
        got = fread(data + size, 1, room - size, in);
        size += got;
    }
    fclose(in);
    /* an allocation of just this size: reading beyond it shows */
    uint8_t *exact = malloc(size > 0 ? size : 1);
    FUZZ_REQUIRE(exact != NULL);
    memcpy(exact, data, size);
    free(data);
    current = path;
    LLVMFuzzerTestOneInput(exact, size);
    current = NULL;
    free(exact);
    runs++;
}

static void run_path(const char *path)
{
    struct stat status;
    if (stat(path, &status) != 0)
        return; /* nothing was ever found by this harness */
    if (!S_ISDIR(status.st_mode)) {
        run_file(path);
        return;
    }
    DIR *folder = opendir(path);
    FUZZ_REQUIRE(folder != NULL);
    for (const struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        if (entry->d_name[0] == '.')
            continue;
        size_t length = strlen(path) + strlen(entry->d_name) + 2;
        char *inside = malloc(length);
        FUZZ_REQUIRE(inside != NULL);
        snprintf(inside, length, "%s/%s", path, entry->d_name);
        run_path(inside);
        free(inside);
    }
    closedir(folder);
}

static void run_random(long count)
{
    uint64_t state = 20310501;
    for (long i = 0; i < count; i++) {
        uint8_t data[256];
        for (size_t k = 0; k < sizeof data; k++) {
            state ^= state >> 12;
            state ^= state << 25;
            state ^= state >> 27;
            data[k] = (uint8_t)((state * 2685821657736338717u) >> 56);
        }
        LLVMFuzzerTestOneInput(data, sizeof data);
        runs++;
    }
}

int main(int count, char **argument)
{
    signal(SIGABRT, name_it);
    for (int i = 1; i < count; i++) {
        if (argument[i][0] == '-')
            run_random(strtol(argument[i] + 1, NULL, 10));
        else
            run_path(argument[i]);
    }
    printf("%zu inputs run\n", runs);
    return runs == 0;
}
