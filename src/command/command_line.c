#include <stdlib.h>
#include <string.h>

#include "settings.h"

/* Words a shell takes as they are. */
static bool plain(const char *word)
{
    static const char safe[] = "abcdefghijklmnopqrstuvwxyz"
                               "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                               "0123456789_./=:,+@%-";
    return word[0] != '\0' && word[strspn(word, safe)] == '\0';
}

static char *append(char *to, const char *word)
{
    bool quoted = !plain(word);
    if (quoted)
        *to++ = '\'';
    for (; *word != '\0'; word++) {
        /* A quote ends the quoted text, stands alone, and starts it anew. */
        static const char quote[] = {'\'', '\\', '\'', '\''};
        bool single = *word == '\'';
        memcpy(to, single ? quote : word, single ? sizeof quote : 1);
        to += single ? sizeof quote : 1;
    }
    if (quoted)
        *to++ = '\'';
    return to;
}

char *settings_command_line(int argc, char *const *argv)
{
    size_t size = 1;
    for (int i = 0; i < argc; i++)
        size += 4 * strlen(argv[i]) + 3;
    char *line = malloc(size), *to = line;
    for (int i = 0; line != NULL && i < argc; i++) {
        if (i > 0)
            *to++ = ' ';
        to = append(to, argv[i]);
    }
    if (line != NULL)
        *to = '\0';
    return line;
}
