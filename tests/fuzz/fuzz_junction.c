/* A junction file from a stranger: refused well, or solved soundly. */

#include <math.h>

#include "bothways/assessment.h"
#include "bothways/junction.h"
#include "bothways/report.h"
#include "common.h"
#include "fuzz.h"

static bool count_bytes(void *payload, const char *bytes, size_t length)
{
    (void)bytes;
    *(size_t *)payload += length;
    return true;
}

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

/* As fine as users have it, which takes long in a harness: of one material. */
static void report(const bw_junction *junction)
{
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    size_t bytes = 0;
    if (junction->filling_count > 1 ||
        bw_junction_assess(&a, junction, fuzz_climate(), NULL, &err) != BW_OK)
        return;
    const bw_results results = {.junction = a};
    FUZZ_REQUIRE(bw_report(&results, BW_DOCUMENT_JUNCTION, BW_FORM_TEXT, NULL,
                           count_bytes, &bytes, &err) == BW_OK);
    FUZZ_REQUIRE(bw_report(&results, BW_DOCUMENT_JUNCTION, BW_FORM_PAGE, NULL,
                           count_bytes, &bytes, &err) == BW_OK);
    FUZZ_REQUIRE(bytes > 0 && a->verdict != BW_HOLDS);
    bw_junction_assessment_free(a);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_junction *junction = NULL;
    bw_error err = {0};
    const bw_status status = bw_junction_read(&junction, fuzz_file(data, size),
                                              fuzz_library(), &err);
    FUZZ_REQUIRE((status == BW_OK) == (junction != NULL));
    if (status == BW_OK) {
        solve(junction);
        report(junction);
    } else {
        fuzz_check_refusal(status, &err);
    }
    bw_junction_free(junction);
    return 0;
}
