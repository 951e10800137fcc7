#ifndef BW_REPORT_LAYERS_H
#define BW_REPORT_LAYERS_H

/* What a slab of the calculation is made of, for both reports. */

#include "bothways/assessment.h"
#include "page.h"

/* The values the design run used; has_* false: none that applies. */
typedef struct bw_slab_values {
    const bw_layer *layer;
    bool has_lambda, has_mu;
    double lambda;         /* W/(m K) */
    double resistance;     /* m2 K/W */
    double mu;             /* - */
    double sd;             /* m */
    const bw_curve *curve; /* by which sd follows humidity; `sd` is then the
                              dry value; NULL: it does not */
    const bw_property *lambda_from, *vapour_from; /* NULL: the layer's own */
} bw_slab_values;

bw_slab_values bw_slab_look(const bw_assembly *assembly,
                            const bw_section_assessment *section, size_t slab);

/* "lambda: ISO 10456:2007 table 3 (from memory); mu: ..."; with `cite` the
 * numbers of the sources in the page's list stand for their texts. */
const char *bw_slab_sources(bw_page *page, const bw_slab_values *values,
                            bool cite);

/* An estimate decides this value. */
bool bw_is_estimate(const bw_property *property);

#endif
