#include "carry.h"

#include <math.h>
#include <string.h>

/* kg/m2 per slab, or the share below of it */
static const double PERIODIC_WATER = 0.005;
static const double PERIODIC_SHARE = 0.002;
/* What may be wrong by carrying on, in allowances of the whole wall, estimate:
 * tests show what becomes of it. */
static const double TRUST = 2.0;
/* A cell keeps some of its water however far it is carried; and it is not
 * filled beyond free saturation by reckoning. */
static const double LEAST = 0.25;
/* Years that follow each other, to go two years on at most, or further. */
enum { FEWEST = 3, FEWEST_FAR = 4, NEAR = 2 };

double bw_repeat_allowance(double water)
{
    return fmax(PERIODIC_WATER, PERIODIC_SHARE * water);
}

bool bw_carry_init(bw_carry *c, bw_model *model)
{
    const size_t n = model->wall.n;
    double *room = BW_NEW(&model->arena, double, 5 * n);
    memset(c, 0, sizeof *c);
    c->ratio = BW_NEW(&model->arena, double, model->section->slab_count);
    if (room == NULL || c->ratio == NULL)
        return false;
    for (size_t k = 0; k < 3; k++)
        c->water[k] = room + k * n;
    c->state = room + 3 * n;
    return true;
}

static void keep(bw_carry *c, const bw_wall *wall, const double *v)
{
    double *oldest = c->water[0];
    c->water[0] = c->water[1];
    c->water[1] = c->water[2];
    c->water[2] = oldest;
    for (size_t i = 0; i < wall->n; i++)
        oldest[i] = bw_hygro_water(wall->hygro[i], v[2 * i + 1]);
    c->years++;
}

/* What the last year did to a slab. */
typedef struct slab_change {
    double water, change; /* kg/m2 */
    double ratio;         /* to the change of the year before, 0 to 1 */
    double left;          /* kg/m2, of it that the ratio does not explain */
} slab_change;

static slab_change change_of(const bw_carry *c, const bw_model *model,
                             size_t slab)
{
    const bw_range r = model->range[slab];
    const double *dx = model->wall.dx;
    slab_change s = {0};
    double both = 0, before = 0;
    for (size_t i = r.first; i < r.first + r.count; i++) {
        const double d = c->water[2][i] - c->water[1][i];
        const double d0 = c->water[1][i] - c->water[0][i];
        s.water += dx[i] * c->water[2][i];
        s.change += dx[i] * d;
        both += dx[i] * d * d0;
        before += dx[i] * d0 * d0;
    }
    s.ratio = before > 0 ? fmin(fmax(both / before, 0), 1) : 0;
    for (size_t i = r.first; i < r.first + r.count; i++)
        s.left += dx[i] * fabs(c->water[2][i] - c->water[1][i] -
                               s.ratio * (c->water[1][i] - c->water[0][i]));
    return s;
}

/* ratio + ... + ratio^m */
static double sum_of_powers(double ratio, int m)
{
    double sum = 0, power = 1;
    for (int k = 0; k < m; k++) {
        power *= ratio;
        sum += power;
    }
    return sum;
}

/* How many years on the one after them is to repeat, most at most. */
static int years_on(const bw_carry *c, const bw_model *model, int most)
{
    int m = 0;
    for (size_t k = 0; k < model->section->slab_count; k++) {
        const slab_change s = change_of(c, model, k);
        double next = s.ratio * fabs(s.change);
        int years = 0;
        for (; years < most && next > bw_repeat_allowance(s.water); years++)
            next *= s.ratio;
        m = years > m ? years : m;
    }
    return m;
}

static bool is_regular(const bw_carry *c, const bw_model *model, int m)
{
    double left = 0, water = 0;
    for (size_t k = 0; k < model->section->slab_count; k++) {
        const slab_change s = change_of(c, model, k);
        left += sum_of_powers(s.ratio, m) * s.left;
        water += s.water;
    }
    return left <= TRUST * bw_repeat_allowance(water);
}

/* The course of the total: expected of the next year, and by the years that
 * are carried forward. */
static void foretell(bw_carry *c, const bw_model *model, int m)
{
    double sum[BW_MOST_YEARS + 1] = {0};
    for (size_t k = 0; k < model->section->slab_count; k++) {
        const slab_change s = change_of(c, model, k);
        c->ratio[k] = s.ratio;
        for (int n = 0; n <= m; n++)
            sum[n] += sum_of_powers(s.ratio, n + 1) * s.change;
    }
    for (int n = 0; n < m; n++)
        c->share[n] = fabs(sum[m - 1]) > 0 ? sum[n] / sum[m - 1] : 1;
    c->expected = sum[m] - sum[m - 1];
    c->waits = true;
}

static void set_water(const bw_carry *c, const bw_model *model, int m,
                      double *v)
{
    const bw_wall *wall = &model->wall;
    for (size_t k = 0; k < model->section->slab_count; k++) {
        const bw_range r = model->range[k];
        const double sum = sum_of_powers(c->ratio[k], m);
        for (size_t i = r.first; i < r.first + r.count; i++) {
            const double now = c->water[2][i];
            const double most = fmax(now, wall->hygro[i]->scale);
            const double then = now + sum * (now - c->water[1][i]);
            v[2 * i + 1] = bw_hygro_z_of_water(
                wall->hygro[i], fmin(fmax(then, LEAST * now), most));
        }
    }
}

int bw_carry_forward(bw_carry *c, const bw_model *model, bw_solver *solver,
                     bw_watch *watch, int most)
{
    keep(c, &model->wall, solver->v);
    if (c->years < FEWEST || most < 1)
        return 0;
    const int m = years_on(c, model, most);
    if (m < 1 || (m > NEAR && c->years < FEWEST_FAR) ||
        !is_regular(c, model, m))
        return 0;
    foretell(c, model, m);
    memcpy(c->state, solver->v, 2 * model->wall.n * sizeof *c->state);
    set_water(c, model, m, c->state);
    c->years = 0; /* what follows is compared with what follows */
    keep(c, &model->wall, c->state);
    bw_solver_start(solver, c->state,
                    solver->t + 3600.0 * BW_TRANSIENT_HOURS * m);
    bw_watch_carry(watch, m);
    return m;
}

bool bw_carry_confirmed(bw_carry *c, double change, double allowed)
{
    const bool waits = c->waits;
    c->waits = false;
    return waits && fabs(change - c->expected) <= allowed;
}
