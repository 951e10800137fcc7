/* Numbers and quantities. The first byte chooses the dimension. Numbers are
 * held against the C library's own reading in the "C" locale. */

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/units.h"
#include "fuzz.h"

static void check_number(const char *text)
{
    double value = 42.0;
    const char *end = NULL;
    if (!bw_number_read(text, &value, &end)) {
        FUZZ_REQUIRE(value == 42.0);
        return;
    }
    FUZZ_REQUIRE(isfinite(value) && end > text);
    char *copy = strndup(text, (size_t)(end - text));
    FUZZ_REQUIRE(copy != NULL);
    char *other_end = NULL;
    double other = strtod(copy, &other_end);
    FUZZ_REQUIRE(*other_end == '\0' && other == value);
    free(copy);
    char written[64];
    double back = 0.0;
    bw_number_g(written, sizeof written, value, 17);
    FUZZ_REQUIRE(bw_number_read(written, &back, NULL) && back == value);
}

static void check_quantity(bw_dimension dimension, const char *text)
{
    static const double low[] = {-1e12, 0.0, 1e-6}, high[] = {1e12, 1.0, 1e3};
    for (size_t i = 0; i < 3; i++) {
        double value = 42.0;
        char why[200];
        memset(why, '#', sizeof why);
        if (bw_quantity_read(&value, dimension, low[i], high[i], text, why,
                             sizeof why)) {
            FUZZ_REQUIRE(value >= low[i] && value <= high[i]);
        } else {
            FUZZ_REQUIRE(memchr(why, '\0', sizeof why) != NULL);
            FUZZ_REQUIRE(why[0] != '\0');
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 1)
        return 0;
    char *text = malloc(size);
    FUZZ_REQUIRE(text != NULL);
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    check_number(text);
    check_quantity((bw_dimension)(data[0] % BW_DIM_COUNT), text);
    free(text);
    return 0;
}
