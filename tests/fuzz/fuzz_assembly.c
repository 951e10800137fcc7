/* An assembly file from a stranger: refused well, or assessed soundly. */

#include "common.h"
#include "fuzz.h"
#include "invariants.h"

static void assess(const bw_assembly *assembly)
{
    bw_assessment_options options = {.no_transient = true, .no_advice = true};
    bw_assessment *assessment = NULL;
    bw_error err = {0};
    bw_status status = bw_assess(&assessment, assembly, fuzz_climate(),
                                 &options, &err);
    FUZZ_REQUIRE(status == BW_OK);
    fuzz_check_assessment(assessment);
    fuzz_check_reports(assessment);
    bw_assessment_free(assessment);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_assembly *assembly = NULL;
    bw_error err = {0};
    bw_status status = bw_assembly_read(&assembly, fuzz_file(data, size),
                                        fuzz_library(), &err);
    if (status == BW_OK) {
        assess(assembly);
    } else {
        FUZZ_REQUIRE(assembly == NULL);
        fuzz_check_refusal(status, &err);
    }
    bw_assembly_free(assembly);
    return 0;
}
