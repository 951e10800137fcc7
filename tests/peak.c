/* Runs a command and says the most memory that it held at once:
 *   peak COMMAND ...   prints "KILOBYTES" on standard output, exits as it did
 */

#define _DEFAULT_SOURCE /* wait4 */

#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

int main(int argc, char **argv)
{
    struct rusage used;
    int status;
    if (argc < 2)
        return 2;
    const pid_t child = fork();
    if (child == 0) {
        execvp(argv[1], argv + 1);
        _exit(127);
    }
    if (child < 0 || wait4(child, &status, 0, &used) != child)
        return 3;
    printf("%ld\n", used.ru_maxrss);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 3;
}
