/* An assembly file from a stranger: refused well, or assessed soundly; its size
 * decides whether with advice, margin and audit, too. */

#include "bothways/edit.h"
#include "common.h"
#include "fuzz.h"
#include "invariants.h"
#include "outputs.h"

/* By the months; a simulation of what a stranger writes may take long. */
static bw_assessment_options options_of(size_t size)
{
    return (bw_assessment_options){
        .no_transient = true, .no_advice = size % 3 > 0, .threads = 1};
}

static void assess(const bw_assembly *assembly, size_t size)
{
    const bw_assessment_options options = options_of(size);
    bw_assessment *assessment = NULL;
    bw_error err = {0};
    bw_status status = bw_assess(&assessment, assembly, fuzz_climate(),
                                 &options, &err);
    FUZZ_REQUIRE(status == BW_OK);
    const bw_assessment *one = assessment;
    const bw_results of = {.wall_count = 1, .wall = &one};
    fuzz_check_assessment(assessment);
    fuzz_check_forms(&of, BW_DOCUMENT_CHECK);
    bw_assessment_free(assessment);
}

static void vary(const bw_assembly *assembly, size_t size)
{
    const bw_margin_options options = {.assessment = options_of(size),
                                       .wide = size % 7 == 0};
    bw_margin *margin = NULL;
    bw_error err = {0};
    const bw_status status = bw_margin_make(&margin, assembly, fuzz_climate(),
                                            &options, &err);
    if (status != BW_OK) {
        fuzz_check_machine(status, &err);
        return;
    }
    const bw_results of = {
        .wall_count = 1, .wall = &margin->assessment, .margin = margin};
    fuzz_check_forms(&of, BW_DOCUMENT_MARGIN);
    bw_margin_free(margin);
}

static void audit(const bw_assembly *assembly, size_t size)
{
    static const char *const file[] = {BW_SOURCE_DIR "/LICENSE"};
    const bw_audit_options options = {.assessment = options_of(size),
                                      .date = "2024-05-12",
                                      .file_count = 1,
                                      .file = file,
                                      .no_margin = true,
                                      .plan = size % 5 == 0};
    bw_audit *made = NULL;
    bw_error err = {0};
    const bw_status status = bw_audit_make(&made, assembly, fuzz_climate(),
                                           &options, &err);
    if (status != BW_OK) {
        fuzz_check_machine(status, &err);
        return;
    }
    const bw_results of = {
        .wall_count = 1, .wall = &made->assessment, .audit = made};
    FUZZ_REQUIRE(!made->released || made->open_count == 0);
    fuzz_check_forms(&of, options.plan ? BW_DOCUMENT_PLAN : BW_DOCUMENT_AUDIT);
    bw_audit_free(made);
}

/* The same file with all its faults. */
static void tell_all(const char *path, bw_status refused)
{
    bw_assembly *assembly = NULL;
    bw_error err = {0};
    bw_faults faults;
    bw_status status = bw_assembly_read_faults(&assembly, path, fuzz_library(),
                                               NULL, 0, &faults, &err);
    FUZZ_REQUIRE(status == refused && assembly == NULL);
    FUZZ_REQUIRE(faults.count > 0 && faults.count <= BW_MOST_FAULTS);
    for (size_t i = 0; i < faults.count; i++)
        fuzz_check_refusal(status, &faults.fault[i]);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_assembly *assembly = NULL;
    bw_error err = {0};
    bw_status status = bw_assembly_read(&assembly, fuzz_file(data, size),
                                        fuzz_library(), &err);
    if (status == BW_OK) {
        assess(assembly, size);
        if (size % 16 == 0)
            vary(assembly, size);
        if (size % 4 == 1)
            audit(assembly, size);
    } else {
        FUZZ_REQUIRE(assembly == NULL);
        fuzz_check_refusal(status, &err);
        tell_all(fuzz_file(data, size), status);
    }
    bw_assembly_free(assembly);
    return 0;
}
