/* A material file: refused well, or every value finite, in range, sourced. */

#include <math.h>
#include <string.h>

#include "fuzz.h"
#include "input/material_xml.h"
#include "material/library.h"

static void check_property(const bw_property *p)
{
    if (!p->known)
        return;
    FUZZ_REQUIRE(isfinite(p->value) && p->source != NULL && p->note != NULL);
    FUZZ_REQUIRE(!p->has_range || (p->low <= p->value && p->value <= p->high));
}

static void check_curve(const bw_curve *curve, bool positive)
{
    FUZZ_REQUIRE(curve->count != 1);
    if (curve->count == 0)
        return;
    FUZZ_REQUIRE(curve->source != NULL && curve->note != NULL);
    for (size_t i = 0; i < curve->count; i++) {
        FUZZ_REQUIRE(curve->x[i] >= 0 && curve->x[i] <= 1);
        FUZZ_REQUIRE(i == 0 || curve->x[i] > curve->x[i - 1]);
        FUZZ_REQUIRE(isfinite(curve->y[i]) && curve->y[i] >= 0);
        FUZZ_REQUIRE(!positive || curve->y[i] > 0);
    }
    for (double x = -0.5; x <= 1.5; x += 0.125) {
        FUZZ_REQUIRE(isfinite(bw_curve_linear(curve, x)));
        FUZZ_REQUIRE(!positive || isfinite(bw_curve_log(curve, x)));
    }
}

static void check_material(const bw_material *m)
{
    FUZZ_REQUIRE(m->id != NULL && m->id[0] != '\0' && m->name != NULL);
    FUZZ_REQUIRE(m->group != NULL && m->remark != NULL && m->line > 0);
    const bw_property *all[] = {&m->density,
                                &m->thermal_conductivity,
                                &m->specific_heat,
                                &m->mu_dry,
                                &m->mu_wet,
                                &m->sd,
                                &m->thickness,
                                &m->free_saturation,
                                &m->water_absorption,
                                &m->porosity,
                                &m->conductivity_factor};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        check_property(all[i]);
    check_curve(&m->sorption, false);
    check_curve(&m->sd_curve, true);
    check_curve(&m->mu_curve, true);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_error err = {0};
    bw_library *library = bw_library_new();
    FUZZ_REQUIRE(library != NULL);
    bw_status status = bw_material_file_read(library, fuzz_file(data, size),
                                             NULL, 0, &err);
    if (status == BW_OK)
        status = bw_library_seal(library, &err);
    if (status != BW_OK)
        fuzz_check_refusal(status, &err);
    for (size_t i = 0; status == BW_OK && i < bw_library_count(library); i++) {
        const bw_material *material = bw_library_at(library, i);
        check_material(material);
        FUZZ_REQUIRE(bw_library_find(library, material->id) == material);
    }
    bw_library_free(library);
    return 0;
}
