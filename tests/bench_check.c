/* Figures for docs/quality.md; not a test, nothing here can fail on a slow
 * machine. usage: bench_check PROGRAM WALL.xml CLIMATE.csv */

#define _XOPEN_SOURCE 700

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "bothways/bothways.h"

enum { PROCESS_RUNS = 41, SLABS = 6 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static int compare(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double run_process(char **argv)
{
    double start = seconds();
    pid_t child = fork();
    if (child == 0) {
        int null = open("/dev/null", O_WRONLY);
        dup2(null, STDOUT_FILENO);
        execv(argv[1], (char *[]){argv[1], "check", argv[2], "--climate",
                                  argv[3], "--monthly-only", NULL});
        _exit(127);
    }
    int status = 0;
    if (child < 0 || waitpid(child, &status, 0) != child ||
        !WIFEXITED(status) || WEXITSTATUS(status) == 2 ||
        WEXITSTATUS(status) == 3 || WEXITSTATUS(status) == 127) {
        fputs("bench_check: the command did not run\n", stderr);
        exit(1);
    }
    return seconds() - start;
}

static void time_process(char **argv)
{
    double time[PROCESS_RUNS];
    for (int i = 0; i < PROCESS_RUNS; i++)
        time[i] = run_process(argv);
    qsort(time, PROCESS_RUNS, sizeof time[0], compare);
    struct rusage usage;
    getrusage(RUSAGE_CHILDREN, &usage);
    printf("check, monthly method, whole process: median %.1f ms, least "
           "%.1f ms (%d runs)\n",
           time[PROCESS_RUNS / 2] * 1e3, time[0] * 1e3, PROCESS_RUNS);
    double cpu = (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
                 1e-6 *
                     (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec);
    printf("processor time of the same, mean: %.1f ms\n",
           cpu / PROCESS_RUNS * 1e3);
    printf("peak memory of the process: %.1f MB\n",
           (double)usage.ru_maxrss / 1024.0);
}

/* Brick, still air, board, insulation, foil, lining: no variable layer. */
static void make_section(bw_section *section, bw_slab slab[SLABS],
                         bw_material *material, double foil_sd)
{
    static const double resistance[SLABS] = {0.13, 0.18, 0.1, 2.25, 0.0, 0.06};
    const double sd[SLABS] = {1.0, 0.01, 0.5, 0.1, foil_sd, 0.1};
    *material = (bw_material){
        .id = "m", .name = "m", .group = "board", .remark = "", .file = ""};
    for (size_t i = 0; i < SLABS; i++)
        slab[i] = (bw_slab){.label = "m",
                            .layer = i,
                            .material = material,
                            .thickness = 0.05,
                            .resistance = resistance[i],
                            .sd_dry = sd[i],
                            .sd_wet = sd[i]};
    *section = (bw_section){.name = "whole",
                            .fraction = 1.0,
                            .slab_count = SLABS,
                            .slab = slab,
                            .outer_resistance = 0.04,
                            .inner_resistance = 0.25};
}

static void make_year(bw_boundary year[BW_MONTHS])
{
    static const double theta[BW_MONTHS] = {-4, -3, 1,  5, 10, 13,
                                            15, 15, 11, 7, 1,  -3};
    for (int m = 0; m < BW_MONTHS; m++)
        year[m] = (bw_boundary){
            .theta_e = theta[m],
            .p_e = bw_vapour_pressure(theta[m], 0.8, BW_OVER_WATER),
            .theta_i = 20.0,
            .p_i = 1300.0};
}

static void time_monthly(const char *what, double foil_sd)
{
    bw_material material;
    bw_slab slab[SLABS];
    bw_section section;
    bw_boundary year[BW_MONTHS];
    make_section(&section, slab, &material, foil_sd);
    make_year(year);
    bw_monthly_options options = {
        .run = "design", .mu = BW_MU_DRY, .start_month = -1};
    long runs = 0;
    int cycles = 0;
    double peak = 0.0, start = seconds(), spent = 0.0;
    while (spent < 1.0) {
        for (int i = 0; i < 100; i++) {
            bw_monthly_result result;
            if (bw_monthly(&result, &section, year, &options, NULL) != BW_OK)
                exit(1);
            peak = result.peak;
            cycles = result.cycles;
            bw_monthly_free(&result);
            runs++;
        }
        spent = seconds() - start;
    }
    printf("monthly, 12 months, 6 layers, one section, %s: %.0f a second on "
           "one core (peak %.0f g/m2, %d years each)\n",
           what, (double)runs / spent, peak * 1e3, cycles);
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fputs("usage: bench_check PROGRAM WALL.xml CLIMATE.csv\n", stderr);
        return 2;
    }
    time_process(argv);
    time_monthly("tight foil, no condensate", 100.0);
    time_monthly("no foil, condensate", 0.1);
    return 0;
}
