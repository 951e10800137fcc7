#ifndef BW_TESTS_ALONE_CASE_H
#define BW_TESTS_ALONE_CASE_H

/* The fixture of suites that lay a margin beside walls assessed one by one: the
 * timber wall of criteria_case.h, by the steady methods, made anew for each
 * test. */

#include <math.h>
#include <stdlib.h>

#include "bothways/margin.h"
#include "criteria_case.h"
#include "margin/case.h"
#include "profile_case.h"

static criteria_case c;
static bw_uncertain range[2];
static bw_margin *m;
static const bw_profile *profile;

static inline void setup(void)
{
    case_make(&c);
    c.assembly.indoors.humidity_class = 5; /* no step up */
    m = NULL;
    profile = NULL;
}

static inline void teardown(void)
{
    bw_margin_free(m);
    case_free(&c);
}

static inline void make(void)
{
    bw_error err = {0};
    const bw_margin_options options = {
        .assessment = {.no_transient = true, .profile = profile}};
    bw_margin_free(m);
    m = NULL;
    ck_assert_msg(bw_margin_make(&m, &c.assembly, &c.climate, &options, &err) ==
                      BW_OK,
                  "%s", err.message);
}

static inline void vary(size_t layer, const char *property, double low,
                        double high)
{
    bw_uncertain *one = &range[layer == CASE_FOIL];
    *one = (bw_uncertain){property, low, high};
    c.layer[layer].uncertain = one;
    c.layer[layer].uncertain_count = 1;
}

static inline const bw_unknown *find(const char *words)
{
    for (size_t i = 0; i < m->unknown_count; i++)
        if (strstr(m->unknown[i].name, words) != NULL)
            return &m->unknown[i];
    ck_abort_msg("no %s", words);
    return NULL;
}

static inline void set_mu(double mu)
{
    c.material[CASE_SHEATHING].mu_dry = c.material[CASE_SHEATHING].mu_wet =
        case_value(mu);
}

static inline void set_sd(double sd)
{
    c.material[CASE_FOIL].sd = case_value(sd);
}

/* The wall as it stands, without the margin's own search. */
static inline bw_case assessed(void)
{
    bw_assessment *a = NULL;
    bw_case got;
    const bw_assessment_options options = {
        .no_transient = true, .no_advice = true, .profile = profile};
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    bw_case_of(&got, a);
    bw_assessment_free(a);
    return got;
}

#endif
