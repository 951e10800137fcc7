/* What `check` costs on a wall, part by part, in seconds of processor time; for
 * docs/quality.md, not a test. usage: bench_parts MATERIALS WALL.xml... */

#define _XOPEN_SOURCE 700

#include <stdio.h>
#include <string.h>
#include <time.h>

#include "bothways/bothways.h"
#include "criteria/assessing.h"

typedef struct parts {
    double reading, steady, simulation, damage, wetting, advice, whole, elapsed;
} parts;

static double clock_of(clockid_t which)
{
    struct timespec now;
    clock_gettime(which, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Since the last call with the same start. */
static double lap(double *start)
{
    const double now = clock_of(CLOCK_PROCESS_CPUTIME_ID);
    const double spent = now - *start;
    *start = now;
    return spent;
}

/* The parts of the simulation, one section after the other. */
static bw_status time_sections(parts *p, bw_core *core,
                               const bw_climate *climate)
{
    bw_assessment *a = &core->assessment;
    const bw_section_options all = {.keep_all_layers = true};
    const bw_transient_options options = {.carry_years = true};
    bw_status status = bw_sections_make(&a->transient_sections, a->assembly,
                                        &all, NULL);
    for (size_t i = 0; status == BW_OK && i < a->section_count; i++) {
        bw_section_assessment *part = &core->part[i];
        double t = clock_of(CLOCK_PROCESS_CPUTIME_ID);
        part->transient_section = &a->transient_sections->section[i];
        status = bw_transient(&part->transient, a->assembly,
                              part->transient_section, climate, &options, NULL);
        if (status != BW_OK)
            return status;
        part->has_transient = true;
        p->simulation += lap(&t);
        status = bw_run_damage(part, a->assembly, NULL);
        p->damage += lap(&t);
        if (status == BW_OK) /* that it cannot be done is a result, too */
            (void)bw_run_wetting(core->pool, part, a->assembly, climate,
                                 &options, true, NULL);
        p->wetting += lap(&t);
    }
    return status;
}

static bw_status time_parts(parts *p, const bw_assembly *assembly,
                            const bw_climate *climate)
{
    bw_pool pool;
    bw_core core = {.pool = &pool};
    bw_climate *generated = NULL;
    const bw_run_effort effort = {.no_bound = false};
    double t = clock_of(CLOCK_PROCESS_CPUTIME_ID);
    bw_pool_open(&pool, 1);
    bw_status status = bw_core_steady(&core, assembly, climate, NULL, &effort,
                                      NULL);
    p->steady = lap(&t);
    if (status == BW_OK && climate->hour_count == 0)
        status = bw_climate_generate(&generated, climate, NULL);
    if (status == BW_OK)
        status = time_sections(p, &core,
                               generated != NULL ? generated : climate);
    bw_climate_free(generated);
    bw_core_release(&core);
    bw_pool_close(&pool);
    return status;
}

/* The whole, as the command does it; the advice is what it costs more. */
static bw_status time_whole(parts *p, const bw_assembly *assembly,
                            const bw_climate *climate)
{
    bw_assessment_options options = {.synthetic_hours = true};
    double t = clock_of(CLOCK_PROCESS_CPUTIME_ID);
    const double start = clock_of(CLOCK_MONOTONIC);
    bw_assessment *a = NULL;
    bw_status status = bw_assess(&a, assembly, climate, &options, NULL);
    p->elapsed = p->reading + clock_of(CLOCK_MONOTONIC) - start;
    p->whole = p->advice = lap(&t);
    bw_assessment_free(a);
    options.no_advice = true;
    if (status == BW_OK)
        status = bw_assess(&a, assembly, climate, &options, NULL);
    p->advice -= lap(&t);
    if (status == BW_OK)
        bw_assessment_free(a);
    return status;
}

static bw_status time_wall(const char *path, const bw_library *library)
{
    parts p = {0};
    bw_assembly *assembly = NULL;
    bw_climate *climate = NULL;
    double t = clock_of(CLOCK_PROCESS_CPUTIME_ID);
    bw_status status = bw_assembly_read(&assembly, path, library, NULL);
    if (status == BW_OK)
        status = bw_climate_read(&climate, assembly->outdoors.climate_path,
                                 NULL);
    p.reading = lap(&t);
    if (status == BW_OK)
        status = time_parts(&p, assembly, climate);
    if (status == BW_OK)
        status = time_whole(&p, assembly, climate);
    const char *name = strrchr(path, '/');
    if (status == BW_OK)
        printf("%-30s %7.3f %7.3f %7.2f %7.3f %7.2f %7.2f %7.2f %9.2f\n",
               name != NULL ? name + 1 : path, p.reading, p.steady,
               p.simulation, p.damage, p.wetting, p.advice, p.reading + p.whole,
               p.elapsed);
    else
        fprintf(stderr, "bench_parts: %s cannot be assessed\n", path);
    bw_climate_free(climate);
    bw_assembly_free(assembly);
    return status;
}

int main(int argc, char **argv)
{
    bw_library *library = NULL;
    if (argc < 3) {
        fputs("usage: bench_parts MATERIALS WALL.xml...\n", stderr);
        return 2;
    }
    const char *const folders[] = {argv[1]};
    bw_status status = bw_library_read(&library, folders, 1, NULL);
    printf("%-30s %7s %7s %7s %7s %7s %7s %7s %9s\n", "processor seconds",
           "reading", "steady", "simul.", "damage", "wetting", "advice",
           "whole", "by clock");
    for (int i = 2; status == BW_OK && i < argc; i++)
        status = time_wall(argv[i], library);
    bw_library_free(library);
    return status == BW_OK ? 0 : 1;
}
