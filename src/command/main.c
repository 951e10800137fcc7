#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "profiles.h"
#include "settings.h"
#include "targets.h"
#include "terminal.h"
#include "text.h"

/* Invariant: whatever was asked, the exit status is one of the contract. */

#define VERB(SET, verb) &verb_##verb,
static const verb *const verbs[] = {VERBS(VERB)};
#undef VERB

static void print_verbs(FILE *to)
{
    fputs("Moisture risk of walls, in both vapour directions.\n\n"
          "usage: bothways VERB [options] ...\n\n",
          to);
    for (size_t i = 0; i < VERB_COUNT; i++)
        fprintf(to, "  %-10s %s\n", verbs[i]->name, verbs[i]->summary);
    fputs("\nbothways VERB --help says more; bothways --version names the "
          "version.\n"
          "Exit status: 0 every assessed criterion holds, 1 one fails, 2 bad "
          "usage or\ninput, 3 the machine failed, 4 nothing fails but one "
          "that decides could not\nbe assessed.\n",
          to);
}

/* Standard output may be a full disk: a report that is not there is no
 * success. */
static int finished(int status)
{
    if (fflush(stdout) == 0 && ferror(stdout) == 0)
        return status;
    bw_error err;
    bw_fail(&err, BW_ERR_IO, NULL, 0, "standard output could not be written");
    print_error(&err);
    return EXIT_MACHINE;
}

static void print_help(const verb *v)
{
    printf("%s\n\nusage: bothways %s [options] %s\n\n%s\nOptions:\n",
           v->summary, v->name, v->operands, v->details);
    settings_print_options(v);
}

static int run_given(const verb *v, settings *given)
{
    if (given->help) {
        print_help(v);
        return finished(EXIT_HOLDS);
    }
    if (given->version) {
        printf("bothways %s\n", bw_version());
        return finished(EXIT_HOLDS);
    }
    bw_error err = {0};
    given->listed = v == &verb_audit && given->output != NULL &&
                    given->verify == NULL && !given->quiet && !given->plan;
    bw_status status = emit_probe(given, &err);
    int code = EXIT_HOLDS;
    if (status == BW_OK)
        status = targets_find(given, &err);
    const bool begun = status == BW_OK;
    if (begun)
        status = given->list_profiles ? profiles_list(given, &err)
                                      : v->run(&code, given, &err);
    if (status != BW_OK) {
        print_error(&err);
        code = exit_status(status);
    }
    return begun ? finished(code) : code;
}

/* argv: "bothways", the verb, its options and operands. */
static int run_verb(const verb *v, int argc, char **argv)
{
    const char **arguments = (const char **)(argv + 2);
    size_t count = (size_t)argc - 2;
    char *line = settings_command_line(argc, argv); /* before it is sorted */
    settings given;
    bw_error err;
    if (line == NULL) {
        bw_fail_memory(&err);
        print_error(&err);
        return EXIT_MACHINE;
    }
    int status = EXIT_REFUSED;
    if (settings_read(&given, v, arguments, count, &err) == BW_OK) {
        given.command_line = line;
        status = run_given(v, &given);
    } else {
        print_error(&err);
    }
    free(line);
    return status;
}

static int refuse_verb(const char *word)
{
    const char *names[VERB_COUNT];
    bw_error err;
    for (size_t i = 0; i < VERB_COUNT; i++)
        names[i] = verbs[i]->name;
    const char *near = bw_text_nearest(word, names, VERB_COUNT);
    size_t length = strlen(word);
    if (length > 4 && strcmp(word + length - 4, ".xml") == 0)
        bw_fail_usage(&err, "a verb comes first: bothways check %s", word);
    else if (near != NULL)
        bw_fail_usage(&err, "unknown verb '%s'; did you mean %s?", word, near);
    else
        bw_fail_usage(&err, "unknown verb '%s'; see bothways --help", word);
    print_error(&err);
    return EXIT_REFUSED;
}

int main(int argc, char **argv)
{
    /* A reader who leaves early is an error to report, not to die of. */
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN); /* nor is a file that may not grow */
    if (argc < 2) {
        print_verbs(stderr);
        return EXIT_REFUSED;
    }
    const char *word = argv[1];
    if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
        print_verbs(stdout);
        return finished(EXIT_HOLDS);
    }
    if (strcmp(word, "--version") == 0) {
        printf("bothways %s\n", bw_version());
        return finished(EXIT_HOLDS);
    }
    for (size_t i = 0; i < VERB_COUNT; i++)
        if (strcmp(word, verbs[i]->name) == 0)
            return run_verb(verbs[i], argc, argv);
    return refuse_verb(word);
}
