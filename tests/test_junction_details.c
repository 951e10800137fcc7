/* The details of ../shared/data/junctions, which another program computed
 * (finite volumes, extrapolated): drawings and figures are read from there, and
 * where they are not the suite says so and asserts nothing. */

#include <math.h>

#include "junction_case.h"
#include "measured.h"
#include "shared_data.h"
#include "suite.h"

static const char *const details[] = {
    "corner_brick330",
    "stud45x140_wool140",
    "corner_timber_frame_posts",
    "reveal_brick330_inside80_bare_reveal",
    "partition110_through_inside80",
    "beam_end_brick330_uninsulated",
};

static char text[65536];

static bool read_text(const char *name)
{
    char path[1024];
    if (!shared_file(path, sizeof path, name))
        return false;
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    const size_t size = fread(text, 1, sizeof text - 1, file);
    text[size] = '\0';
    fclose(file);
    return true;
}

/* The numbers of [[a, b, ...], ...] that follow a name. */
static size_t numbers_after(const char *from, const char *name, double *out,
                            size_t room)
{
    const char *at = strstr(from, name);
    ck_assert_ptr_nonnull(at);
    at = strchr(at, '[');
    size_t count = 0;
    for (int depth = 0; *at != '\0';) {
        char *end;
        depth += *at == '[';
        depth -= *at == ']';
        if (depth == 0)
            break;
        const double value = strtod(at, &end);
        if (end == at || *at == '[' || *at == ',') {
            at++;
            continue;
        }
        ck_assert_uint_lt(count, room);
        out[count++] = value;
        at = end;
    }
    return count;
}

/* One row of the reference: detail,Rsi,Rse,L2D,L2D extrapolated,Tsi,frsi,... */
static void reference(const char *detail, const char *rsi, double *l2d,
                      double *frsi)
{
    char key[128];
    snprintf(key, sizeof key, "\n%s,%s,", detail, rsi);
    const char *row = strstr(text, key);
    ck_assert_ptr_nonnull(row);
    double unused[2];
    ck_assert_int_eq(sscanf(row + strlen(key), "0.04,%lf,%lf,%lf,%lf",
                            &unused[0], l2d, &unused[1], frsi),
                     4);
}

static void draw_detail(drawn *d, const char *detail)
{
    char key[128];
    double v[5 * MOST_DRAWN];
    snprintf(key, sizeof key, "\"%s\"", detail);
    const char *at = strstr(text, key);
    ck_assert_ptr_nonnull(at);
    draw_start(d);
    size_t count = numbers_after(at, "\"boxes\"", v, COUNT(v));
    double box[4] = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
    ck_assert_uint_eq(count % 5, 0);
    for (size_t i = 0; i < count; i += 5) {
        const double *b = v + i;
        draw_box(d, b[0], b[1], b[2], b[3], b[4]);
        box[0] = fmin(box[0], b[1]);
        box[1] = fmax(box[1], b[2]);
        box[2] = fmin(box[2], b[3]);
        box[3] = fmax(box[3], b[4]);
    }
    double air[4] = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
    count = numbers_after(at, "\"envs\"", v, COUNT(v));
    ck_assert_uint_eq(count % 5, 0);
    for (size_t i = 0; i < count; i += 5) {
        const double *b = v + i;
        draw_space(d, (size_t)b[0], b[1], b[2], b[3], b[4]);
        air[0] = fmin(air[0], b[1]);
        air[1] = fmax(air[1], b[2]);
        air[2] = fmin(air[2], b[3]);
        air[3] = fmax(air[3], b[4]);
    }
    /* all other outer edges are adiabatic */
    draw_cut(d, box[0] <= air[0], box[1] >= air[1], box[2] <= air[2],
             box[3] >= air[3]);
}

/* Hidden boxes (a post drawn twice) are no fault of a drawing made by program:
 * the first is taken out. */
static void drop_hidden(drawn *d)
{
    bw_junction *j = &d->junction;
    for (size_t i = 0; i + 1 < j->filling_count; i++)
        if (memcmp(&d->filling[i].at, &d->filling[i + 1].at,
                   sizeof d->filling[i].at) == 0) {
            memmove(&d->filling[i], &d->filling[i + 1],
                    (j->filling_count - i - 1) * sizeof *d->filling);
            j->filling_count--;
            i--;
        }
}

START_TEST(a_reference_detail_is_within_two_thousandths_and_three_of_frsi)
{
    static drawn d;
    double l2d, frsi, unused;
    if (!read_text("junctions/details2d_reference.csv"))
        return;
    reference(details[_i], "0.13", &l2d, &unused);
    reference(details[_i], "0.25", &unused, &frsi);
    ck_assert(read_text("junctions/details2d.json"));
    draw_detail(&d, details[_i]);
    drop_hidden(&d);
    bw_junction_heat *h = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_junction_heat_make(&h, &d.junction, NULL, &err) == BW_OK,
                  "%s", err.message);
    printf("%-38s L2D %.5f +- %.5f (%.5f) fRsi %.4f +- %.4f (%.4f) at %.1f, "
           "%.1f mm; order %.2f, %.2f; %zu cells; psi_i %.3f psi_e %.3f\n",
           details[_i], h->l2d.value, h->l2d.error, l2d,
           h->coldest[0].frsi.value, h->coldest[0].frsi.error, frsi,
           1e3 * h->coldest[0].x, 1e3 * h->coldest[0].y, h->l2d.order,
           h->coldest[0].frsi.order, h->cells[h->grids - 1], h->psi_inner,
           h->psi_outer);
    measured("details-l2d", 100.0 * fabs(h->l2d.value / l2d - 1.0), 0.2, "%");
    measured("details-frsi", fabs(h->coldest[0].frsi.value - frsi), 0.003, "-");
    ck_assert_double_lt(h->balance, 1e-8);
    bw_junction_heat_free(h);
    draw_end(&d);
}
END_TEST

SUITE("junction_details",
      EACH(a_reference_detail_is_within_two_thousandths_and_three_of_frsi,
           COUNT(details)))
