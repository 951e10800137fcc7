/* A gbXML file: refused well, or each construction gives a skeleton that is
 * well-formed XML (no text of the stranger's breaks out of its quotes). */

#include <string.h>

#include "bothways/exchange.h"
#include "fuzz.h"
#include "input/xml.h"

static void check_skeleton(const bw_skeleton *skeleton)
{
    bw_xml xml;
    bw_error err = {0};
    const char *path = fuzz_second_file(skeleton->xml, strlen(skeleton->xml));
    FUZZ_REQUIRE(bw_xml_open_foreign(&xml, path, "skeleton", &err) == BW_OK);
    FUZZ_REQUIRE(strcmp(bw_xml_name(xml.root), "assembly") == 0);
    bw_xml_close(&xml);
    for (size_t i = 0; i < skeleton->missing_count; i++)
        FUZZ_REQUIRE(skeleton->missing[i][0] != '\0');
    for (size_t i = 0; i < skeleton->note_count; i++)
        FUZZ_REQUIRE(skeleton->note[i][0] != '\0');
}

static void make_skeleton(const bw_gbxml *file, const char *id,
                          const char *unit)
{
    bw_skeleton_options options = {.construction = id, .permeance_unit = unit};
    bw_skeleton *skeleton = NULL;
    bw_error err = {0};
    bw_status status = bw_gbxml_skeleton(&skeleton, file, &options, &err);
    if (status == BW_OK) {
        check_skeleton(skeleton);
    } else {
        FUZZ_REQUIRE(skeleton == NULL);
        fuzz_check_refusal(status, &err);
    }
    bw_skeleton_free(skeleton);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_gbxml *file = NULL;
    bw_error err = {0};
    bw_status status = bw_gbxml_read(&file, fuzz_file(data, size), &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(file == NULL);
        fuzz_check_refusal(status, &err);
        return 0;
    }
    FUZZ_REQUIRE(file->construction_count >= 1);
    for (size_t i = 0; i < file->construction_count && i < 8; i++) {
        make_skeleton(file, file->construction[i].id, NULL);
        make_skeleton(file, file->construction[i].id, "ng/(Pa.s.m2)");
    }
    make_skeleton(file, NULL, NULL);
    bw_gbxml_free(file);
    return 0;
}
