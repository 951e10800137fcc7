#include "walls.h"

#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "dated.h"
#include "emit.h"
#include "fail.h"
#include "library.h"
#include "profiles.h"
#include "targets.h"

/* Climates that are kept while walls come and go: most walls share a few, and
 * what is read again for each wall beyond these takes time, not memory. */
enum { KEPT = 32 };

static bw_status start(walls *all, size_t count, bool passing, bw_error *err)
{
    const size_t room = passing ? 0 : count;
    *all = (walls){.count = count,
                   .passing = passing,
                   .spare_climate = all->spare_climate};
    all->assembly = calloc(room + 1, sizeof(bw_assembly *));
    all->climate = calloc(room + 1, sizeof(bw_climate *));
    all->kept = calloc(passing ? KEPT : count + 1, sizeof(bw_climate *));
    BW_TRY_MEMORY(all->assembly != NULL && all->climate != NULL &&
                      all->kept != NULL,
                  err);
    return BW_OK;
}

/* "membrane.sd=2 m" of the command line, split; the copies are all->changed. */
static bw_status split_changes(walls *all, const settings *given, bw_error *err)
{
    size_t size = 1;
    const word_list *changes = &given->change;
    for (size_t i = 0; i < changes->count; i++)
        size += strlen(changes->text[i]) + 1;
    char *room = all->changed = malloc(size);
    BW_TRY_MEMORY(room != NULL, err);
    for (size_t i = 0; i < changes->count; i++) {
        const char *text = changes->text[i];
        const size_t length = strlen(text) + 1;
        memcpy(room, text, length);
        char *value = strchr(room, '=');
        if (value == NULL || value == room)
            return bw_fail_usage(
                err,
                "--set '%s' is no change of a wall; write "
                "PLACE.ATTRIBUTE=VALUE, for example --set membrane.sd=\"2 m\"",
                text);
        *value++ = '\0';
        if (given->climate != NULL && strcmp(room, "outdoors.climate") == 0)
            return bw_fail_usage(err, "--climate and --set outdoors.climate "
                                      "name the same thing; leave one out");
        all->edit[i] = (bw_edit){.what = room, .value = value};
        room += length;
    }
    return BW_OK;
}

/* What is read before any wall. */
static bw_status begin(walls *all, const settings *given, bw_error *err)
{
    BW_TRY(start(all, given->operand_count, all->passing, err));
    BW_TRY(profiles_read(&all->profiles, &all->profile, given, err));
    return split_changes(all, given, err);
}

/* faults NULL: the first is enough. */
static bw_status read_assembly(bw_assembly **out, const walls *all,
                               const char *path, const settings *given,
                               bw_faults *faults, bw_error *err)
{
    const size_t changes = given->change.count;
    BW_TRY(faults == NULL
               ? bw_assembly_read_edited(out, path, all->library, all->edit,
                                         changes, err)
               : bw_assembly_read_faults(out, path, all->library, all->edit,
                                         changes, faults, err));
    return given->from_readings ? bw_assembly_start_from_readings(*out, err)
                                : BW_OK;
}

static bool is_kept(const walls *all, const bw_climate *climate)
{
    bool found = climate == all->shared;
    for (size_t i = 0; i < all->kept_count && !found; i++)
        found = all->kept[i] == climate;
    return found;
}

/* One that is kept, or read: what walls share is read once. */
static bw_status find_climate(bw_climate **out, const walls *all,
                              const bw_assembly *assembly, const char *wall,
                              const settings *given, bw_error *err)
{
    const char *path = assembly->outdoors.climate_path;
    *out = all->shared;
    if (*out != NULL)
        return BW_OK;
    if (path[0] == '\0' && all->spare_climate)
        return BW_OK;
    if (path[0] == '\0')
        return bw_fail(err, BW_ERR_INPUT, wall, 0,
                       "this assembly names no climate; give one with "
                       "--climate FILE");
    for (size_t i = 0; i < all->kept_count; i++)
        if (strcmp(all->kept[i]->file, path) == 0) {
            *out = all->kept[i];
            return BW_OK;
        }
    BW_TRY(targets_spare(given, path, err));
    return bw_climate_read(out, path, err);
}

static bw_status read_one(const walls *all, size_t i, const settings *given,
                          bw_assembly **assembly, bw_climate **climate,
                          bw_faults *faults, bw_error *err)
{
    const char *path = given->operand[i];
    BW_TRY(targets_spare(given, path, err));
    bw_status status = read_assembly(assembly, all, path, given, faults, err);
    if (status == BW_OK)
        status = find_climate(climate, all, *assembly, path, given, err);
    if (status != BW_OK) {
        bw_assembly_free(*assembly);
        *assembly = NULL;
    }
    return status;
}

bw_status walls_read_again(const walls *all, size_t i, const settings *given,
                           bw_assembly **assembly, bw_climate **climate,
                           bw_error *err)
{
    *assembly = NULL;
    return read_one(all, i, given, assembly, climate, NULL, err);
}

void walls_leave(const walls *all, bw_assembly *assembly, bw_climate *climate)
{
    if (!is_kept(all, climate))
        bw_climate_free(climate);
    bw_assembly_free(assembly);
}

static bw_status read_wall(walls *all, size_t i, const settings *given,
                           bw_error *err)
{
    bw_assembly *assembly = NULL;
    bw_climate *climate = NULL;
    BW_TRY(read_one(all, i, given, &assembly, &climate,
                    all->whole ? &all->faults : NULL, err));
    if (!is_kept(all, climate) && (!all->passing || all->kept_count < KEPT))
        all->kept[all->kept_count++] = climate;
    if (all->passing) {
        walls_leave(all, assembly, climate);
        return BW_OK;
    }
    all->assembly[i] = assembly;
    all->climate[i] = climate;
    return BW_OK;
}

static bw_status read_shared(walls *out, const settings *given, bw_error *err)
{
    if (given->climate == NULL)
        return BW_OK;
    BW_TRY(targets_spare(given, given->climate, err));
    return bw_climate_read(&out->shared, given->climate, err);
}

/* With as much of the library as the walls seem to name; *all false: not what
 * they need. */
static bw_status read_picked(walls *out, const settings *given, bool *all,
                             bw_error *err)
{
    bw_status status = library_pick(&out->library, given, err);
    *all = status == BW_OK && out->library != NULL;
    if (*all)
        status = read_shared(out, given, err);
    for (size_t i = 0; i < out->count && *all && status == BW_OK; i++)
        status = read_wall(out, i, given, err);
    return status;
}

/* Prints all faults of a file but the last, which is left in err. */
static void tell_faults(const bw_faults *faults, const char *path,
                        bw_error *err)
{
    for (size_t i = 0; i + 1 < faults->count; i++)
        print_error(&faults->fault[i]);
    if (faults->count > 0)
        *err = faults->fault[faults->count - 1];
    if (faults->more == 0)
        return;
    print_error(err);
    bw_fail(err, err->status, path, 0, "and %zu more", faults->more);
}

static bw_status read_whole(walls *out, const settings *given, bw_error *err)
{
    out->whole = true;
    BW_TRY(library_read(&out->library, given, err));
    BW_TRY(read_shared(out, given, err));
    bw_status worst = BW_OK;
    for (size_t i = 0; i < out->count; i++) {
        bw_error fault;
        out->faults.count = out->faults.more = 0;
        bw_status status = read_wall(out, i, given, &fault);
        if (status == BW_OK)
            continue;
        if (worst != BW_OK)
            print_error(err);
        if (exit_status(status) > exit_status(worst))
            worst = status;
        *err = fault;
        tell_faults(&out->faults, given->operand[i], err);
    }
    return worst;
}

static void free_all(walls *all)
{
    for (size_t i = 0; i < all->kept_count; i++)
        bw_climate_free(all->kept[i]);
    for (size_t i = 0; all->assembly != NULL && !all->passing && i < all->count;
         i++)
        bw_assembly_free(all->assembly[i]);
    free(all->changed);
    free(all->climate);
    free(all->kept);
    free(all->assembly);
    bw_climate_free(all->shared);
    bw_library_free(all->library);
    bw_profiles_free(all->profiles);
}

/* The faults of every file are printed but the last, which is returned in err,
 * so that one run shows all. To be freed whatever is returned. */
static bw_status read_all(walls *out, const settings *given, bw_error *err)
{
    BW_TRY(begin(out, given, err));
    bool all;
    bw_status status = read_picked(out, given, &all, err);
    if ((status == BW_OK && all) || status == BW_ERR_MEMORY)
        return status;
    free_all(out); /* the whole library tells what is wrong */
    BW_TRY(begin(out, given, err));
    return read_whole(out, given, err);
}

/* An option of a simulation beside none would be left out unsaid. */
static bw_status check_simulated(const settings *given, bw_error *err)
{
    const char *option = given->cells > 0         ? "--cells"
                         : given->tolerance > 0   ? "--tolerance"
                         : given->years > 0       ? "--years"
                         : given->start_month > 0 ? "--start-month"
                         : given->converge        ? "--converge"
                                                  : NULL;
    if (!given->monthly_only || option == NULL)
        return BW_OK;
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "%s is of a simulation, of which there is none with "
                   "--monthly-only",
                   option);
}

bw_status walls_run(int *code, const settings *given, walls_how how,
                    walls_check *check, walls_work *work, bw_error *err)
{
    walls all = {.passing = how == WALLS_PASSING,
                 .spare_climate = how == WALLS_ANYWHERE};
    char day[32];
    const char *date; /* a bad one is told before anything is computed */
    bw_status status = check(given, err);
    if (status == BW_OK)
        status = check_simulated(given, err);
    if (status == BW_OK)
        status = dated_find(&date, day, given, err);
    if (status == BW_OK)
        status = read_all(&all, given, err);
    if (status == BW_OK)
        status = work(code, &all, given, err);
    free_all(&all);
    return status;
}

bw_status walls_one(const settings *given, const char *name, bw_error *err)
{
    if (given->operand_count == 1)
        return BW_OK;
    return bw_fail_usage(
        err, "%s takes one assembly file, %zu given: bothways %s WALL.xml",
        name, given->operand_count, name);
}

/* The tolerance of humidity keeps its ratio to that of temperature
 * (transient.h). */
static bw_transient_options run_options(const settings *given)
{
    static const double humidity = 0.0005 / 0.01; /* 1/K */
    return (bw_transient_options){
        .max_years = given->years,
        .start_month = given->start_month > 0 ? given->start_month - 1 : 0,
        .start_month_given = given->start_month > 0,
        .temperature_tolerance = given->tolerance,
        .humidity_tolerance = humidity * given->tolerance,
        .grid_refinement = given->cells,
        .keep_hours = emit_keeps_hours(given),
    };
}

bw_assessment_options walls_options(const walls *all, const settings *given,
                                    progress_bar *bar)
{
    bw_assessment_options options = {
        .no_transient = given->monthly_only,
        .no_advice = given->no_advice,
        .synthetic_hours = !given->no_synthetic_hours,
        .converge = given->converge,
        .threads = given->threads,
        .profile = all->profile,
        .transient = run_options(given),
    };
    options.transient.progress = bar != NULL ? progress_show : NULL;
    options.transient.payload = bar;
    return options;
}
