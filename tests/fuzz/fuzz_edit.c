/* Changes of a wall while it is read, "PLACE.ATTRIBUTE=VALUE" a line, on a wall
 * with everything a file may have: refused well, or every change is a note, and
 * what is read is sound; the same text reads the same, with as much of the
 * library as it names as with the whole. */

#include <string.h>

#include "bothways/edit.h"
#include "common.h"
#include "fuzz.h"

enum { EDITS = 16, BYTES = 4096 };

/* A line of the shipped walls that says the most. */
static const char *wall_text(void)
{
    static char text[16384];
    if (text[0] == '\0') {
        FILE *in = fopen(
            BW_SOURCE_DIR "/assemblies/upland-closing-released.xml", "rb");
        FUZZ_REQUIRE(in != NULL);
        text[fread(text, 1, sizeof text - 1, in)] = '\0';
        fclose(in);
    }
    return text;
}

static size_t split(bw_edit edit[EDITS], char *text)
{
    size_t count = 0;
    char *rest = NULL;
    for (char *line = strtok_r(text, "\n", &rest);
         line != NULL && count < EDITS; line = strtok_r(NULL, "\n", &rest)) {
        char *value = strchr(line, '=');
        if (value == NULL)
            continue;
        *value++ = '\0';
        edit[count++] = (bw_edit){.what = line, .value = value};
    }
    return count;
}

static void check_layers(const bw_assembly *wall)
{
    FUZZ_REQUIRE(wall->layer_count > 0);
    for (size_t i = 0; i < wall->layer_count; i++) {
        const bw_layer *layer = &wall->layer[i];
        FUZZ_REQUIRE(layer->thickness >= 0 && layer->thickness < 100);
        FUZZ_REQUIRE(layer->name != NULL && layer->id != NULL);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char text[BYTES + 1];
    bw_edit edit[EDITS];
    if (size > BYTES)
        return 0;
    memcpy(text, data, size);
    text[size] = '\0';
    const size_t count = split(edit, text);
    bw_assembly *wall = NULL, *again = NULL;
    bw_error err = {0}, other = {0};
    const bw_status status = bw_assembly_read_text(
        &wall, wall_text(), "assemblies/wall.xml", fuzz_library(), edit, count,
        &err);
    const bw_status second = bw_assembly_read_text(
        &again, wall_text(), "assemblies/wall.xml", fuzz_library(), edit, count,
        &other);
    FUZZ_REQUIRE(status == second);
    if (status == BW_OK) {
        FUZZ_REQUIRE(wall->edit_count == count);
        FUZZ_REQUIRE(wall->edit_note_count >= count);
        FUZZ_REQUIRE(wall->note_count >= wall->edit_note_count);
        FUZZ_REQUIRE(wall->layer_count == again->layer_count);
        check_layers(wall);
    } else {
        FUZZ_REQUIRE(wall == NULL && again == NULL);
        fuzz_check_refusal(status, &err);
        FUZZ_REQUIRE(strcmp(err.message, other.message) == 0);
    }
    bw_assembly_free(wall);
    bw_assembly_free(again);
    return 0;
}
