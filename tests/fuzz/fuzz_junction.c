/* A junction file from a stranger, in a folder beside the demo walls: refused
 * well, or solved soundly, coarsely. A file of a size that 32 divides is
 * assessed as users have it, by months, and of a size that 64 divides by the
 * hours of a year on few cells, too, and reported in every form. */

#include <dirent.h>
#include <limits.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bothways/assessment.h"
#include "bothways/junction.h"
#include "bothways/report.h"
#include "common.h"
#include "fuzz.h"
#include "outputs.h"

/* ---- where it lies ------------------------------------------------------ */

static char here[64], within[96], laid[128];

static void remove_here(void)
{
    static const char *const name[] = {"floors", "wall.xml"};
    char path[PATH_MAX];
    unlink(laid);
    for (size_t i = 0; i < sizeof name / sizeof *name; i++) {
        snprintf(path, sizeof path, "%s/%s", within, name[i]);
        unlink(path);
    }
    rmdir(within);
    DIR *folder = opendir(here);
    for (const struct dirent *e;
         folder != NULL && (e = readdir(folder)) != NULL;) {
        snprintf(path, sizeof path, "%s/%s", here, e->d_name);
        unlink(path);
    }
    if (folder != NULL)
        closedir(folder);
    rmdir(here);
}

static void link_as(const char *target, const char *folder, const char *name)
{
    char path[PATH_MAX];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FUZZ_REQUIRE(symlink(target, path) == 0);
}

static void make_folders(void)
{
    char target[PATH_MAX];
    snprintf(here, sizeof here, "/tmp/bothways-fuzz-XXXXXX");
    FUZZ_REQUIRE(mkdtemp(here) != NULL);
    atexit(remove_here);
    snprintf(within, sizeof within, "%s/within", here);
    snprintf(laid, sizeof laid, "%s/junction.xml", within);
    FUZZ_REQUIRE(mkdir(within, 0777) == 0);
    DIR *folder = opendir(BW_SOURCE_DIR "/assemblies");
    FUZZ_REQUIRE(folder != NULL);
    for (const struct dirent *e; (e = readdir(folder)) != NULL;) {
        snprintf(target, sizeof target, BW_SOURCE_DIR "/assemblies/%s",
                 e->d_name);
        if (e->d_name[0] != '.')
            link_as(target, here, e->d_name);
    }
    closedir(folder);
    link_as(BW_SOURCE_DIR "/assemblies/junctions/floors", within, "floors");
    link_as(BW_SOURCE_DIR "/assemblies/upland-masonry-inside.xml", within,
            "wall.xml");
}

static const char *lay(const void *data, size_t size)
{
    if (here[0] == '\0')
        make_folders();
    FILE *out = fopen(laid, "wb");
    FUZZ_REQUIRE(out != NULL && fwrite(data, 1, size, out) == size);
    FUZZ_REQUIRE(fclose(out) == 0);
    return laid;
}

/* ---- what is checked ---------------------------------------------------- */

static void check_heat(const bw_junction_heat *h)
{
    FUZZ_REQUIRE(isfinite(h->l2d.value) && h->l2d.value > 0.0);
    FUZZ_REQUIRE(isfinite(h->l2d.error) && h->l2d.error >= 0.0);
    FUZZ_REQUIRE(h->balance < 1e-6);
    for (size_t e = 0; e < h->environment_count; e++)
        for (size_t c = 0; c < h->raster.nx * h->raster.ny; c++)
            FUZZ_REQUIRE(h->weight[e][c] >= -1e-6 &&
                         h->weight[e][c] <= 1.0 + 1e-6);
}

/* Coarse, so that many are tried. */
static void solve(const bw_junction *junction)
{
    static const bw_junction_options coarse = {
        .smallest = 0.05, .most_cells = 20000, .l2d_error = 1, .frsi_error = 1};
    bw_junction_heat *heat = NULL;
    bw_error err = {0};
    const bw_status status = bw_junction_heat_make(&heat, junction, &coarse,
                                                   &err);
    FUZZ_REQUIRE((status == BW_OK) == (heat != NULL));
    if (status == BW_OK)
        check_heat(heat);
    else
        fuzz_check_refusal(status, &err);
    bw_junction_heat_free(heat);
}

static void report(const bw_junction_assessment *a)
{
    const bw_results results = {.junction = a};
    for (size_t k = 0; k < a->criterion_count; k++)
        FUZZ_REQUIRE(a->criterion[k].reason != NULL);
    for (size_t i = 0; i < a->spot_count; i++)
        for (int m = 0; m < BW_MONTHS; m++)
            FUZZ_REQUIRE(isfinite(a->spot[i].theta[m]) ||
                         a->spot[i].material == NULL);
    fuzz_check_forms(&results, BW_DOCUMENT_JUNCTION);
}

static void assess(const bw_junction *junction, size_t size)
{
    const bw_hour_options hours = {
        .most_years = 1, .smallest = 0.05, .most_cells = 60};
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    const bool by_hours = size % 64 == 0;
    const bw_status status = bw_junction_assess_hours(
        &a, junction, fuzz_climate(), NULL, by_hours ? &hours : NULL, &err);
    FUZZ_REQUIRE((status == BW_OK) == (a != NULL));
    if (status != BW_OK) {
        fuzz_check_machine(status, &err);
        return;
    }
    FUZZ_REQUIRE(by_hours || a->verdict != BW_HOLDS);
    report(a);
    bw_junction_assessment_free(a);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_junction *junction = NULL;
    bw_error err = {0};
    const bw_status status = bw_junction_read(&junction, lay(data, size),
                                              fuzz_library(), &err);
    FUZZ_REQUIRE((status == BW_OK) == (junction != NULL));
    if (status == BW_OK) {
        solve(junction);
        if (size % 32 == 0)
            assess(junction, size);
    } else {
        fuzz_check_refusal(status, &err);
    }
    bw_junction_free(junction);
    return 0;
}
