/* Tasks on a few threads: what is asked of the queue, in any order of its
 * threads; and how far they have come. */

#define _XOPEN_SOURCE 700 /* nanosleep */

#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/fail.h"
#include "base/meter.h"
#include "base/pool.h"
#include "suite.h"

static const int threads[] = {1, 2, 7};
static bw_pool pool;

static void rest(void)
{
    nanosleep(&(struct timespec){.tv_nsec = 200000}, NULL);
}

/* ---- results ------------------------------------------------------------- */

enum { OUTER = 23, MIDDLE = 3, INNER = 5 };

static double leaves[OUTER][MIDDLE][INNER];

static bw_status inner(void *payload, size_t k, bw_error *err)
{
    double *row = payload;
    (void)err;
    row[k] += 1.0 / (double)(k + 1);
    return BW_OK;
}

static bw_status middle(void *payload, size_t k, bw_error *err)
{
    double(*row)[INNER] = payload;
    return bw_pool_run(&pool, INNER, inner, row[k], err);
}

static bw_status outer(void *payload, size_t k, bw_error *err)
{
    (void)payload;
    return bw_pool_run(&pool, MIDDLE, middle, leaves[k], err);
}

START_TEST(tasks_of_tasks_are_all_done_once_whatever_the_threads)
{
    memset(leaves, 0, sizeof leaves);
    bw_pool_open(&pool, threads[_i]);
    ck_assert_int_eq(bw_pool_run(&pool, OUTER, outer, NULL, NULL), BW_OK);
    bw_pool_close(&pool);
    for (size_t i = 0; i < OUTER * MIDDLE * INNER; i++)
        ck_assert_double_eq(
            leaves[i / INNER / MIDDLE][i / INNER % MIDDLE][i % INNER],
            1.0 / (double)(i % INNER + 1));
}
END_TEST

START_TEST(no_tasks_are_done_at_once)
{
    bw_pool_open(&pool, threads[_i]);
    ck_assert_int_eq(bw_pool_run(&pool, 0, outer, NULL, NULL), BW_OK);
    bw_pool_close(&pool);
}
END_TEST

/* ---- threads ------------------------------------------------------------- */

static pthread_t caller;

static bw_status is_caller(void *payload, size_t k, bw_error *err)
{
    size_t *next = payload;
    (void)err;
    ck_assert(pthread_equal(pthread_self(), caller));
    ck_assert_uint_eq(k, *next);
    ++*next;
    return BW_OK;
}

START_TEST(one_thread_is_the_callers_and_takes_the_tasks_in_order)
{
    size_t next = 0;
    caller = pthread_self();
    bw_pool_open(&pool, 1);
    ck_assert_int_eq(bw_pool_run(&pool, 100, is_caller, &next, NULL), BW_OK);
    ck_assert_int_eq(pool.count, 1);
    ck_assert_uint_eq(next, 100);
    bw_pool_close(&pool);
}
END_TEST

static atomic_int running, most;

static bw_status count_running(void *payload, size_t k, bw_error *err)
{
    (void)payload;
    (void)k;
    (void)err;
    const int now = atomic_fetch_add(&running, 1) + 1;
    int before = most;
    while (now > before && !atomic_compare_exchange_weak(&most, &before, now))
        ;
    rest();
    atomic_fetch_sub(&running, 1);
    return BW_OK;
}

static bw_status several_running(void *payload, size_t k, bw_error *err)
{
    (void)k;
    return bw_pool_run(&pool, INNER, count_running, payload, err);
}

START_TEST(no_more_run_at_once_than_there_are_threads)
{
    running = most = 0;
    bw_pool_open(&pool, threads[_i]);
    ck_assert_int_eq(bw_pool_run(&pool, OUTER, several_running, NULL, NULL),
                     BW_OK);
    bw_pool_close(&pool);
    ck_assert_int_le(most, threads[_i]);
    ck_assert_int_eq(running, 0);
}
END_TEST

static atomic_int met, begun;

/* Ends when the other one runs, too. */
static bw_status meet(void *payload, size_t k, bw_error *err)
{
    (void)payload;
    (void)k;
    (void)err;
    atomic_fetch_add(&met, 1);
    while (met < 2)
        rest();
    return BW_OK;
}

/* The first ends when the second has begun, which puts two more. */
static bw_status put_two(void *payload, size_t k, bw_error *err)
{
    if (k == 1) {
        begun = 1;
        return bw_pool_run(&pool, 2, meet, payload, err);
    }
    while (begun == 0)
        rest();
    return BW_OK;
}

START_TEST(a_thread_that_waits_helps_with_the_tasks_of_others)
{
    met = begun = 0;
    bw_pool_open(&pool, 2);
    ck_assert_int_eq(bw_pool_run(&pool, 2, put_two, NULL, NULL), BW_OK);
    ck_assert_int_eq(met, 2);
    bw_pool_close(&pool);
}
END_TEST

static _Thread_local int depth;
static atomic_int deepest;

static bw_status leaf(void *payload, size_t k, bw_error *err)
{
    (void)payload;
    (void)k;
    (void)err;
    rest();
    return BW_OK;
}

static bw_status nested(void *payload, size_t k, bw_error *err)
{
    (void)k;
    const int now = ++depth;
    int before = deepest;
    while (now > before &&
           !atomic_compare_exchange_weak(&deepest, &before, now))
        ;
    const bw_status status = bw_pool_run(&pool, 2, leaf, payload, err);
    depth--;
    return status;
}

START_TEST(a_stack_does_not_grow_with_the_number_of_tasks)
{
    enum { ASTRAY = 8 }; /* and its own */
    deepest = 0;
    bw_pool_open(&pool, 3);
    ck_assert_int_eq(bw_pool_run(&pool, 3000, nested, NULL, NULL), BW_OK);
    bw_pool_close(&pool);
    ck_assert_int_le(deepest, ASTRAY + 1);
}
END_TEST

/* ---- failures ------------------------------------------------------------ */

static atomic_int done[40];

/* Fails at 5, 9, ...; the first of them last. */
static bw_status fail_some(void *payload, size_t k, bw_error *err)
{
    (void)payload;
    for (int i = 0; k == 5 && i < 20; i++)
        rest();
    done[k] = 1;
    if (k % 4 == 1 && k >= 5)
        return bw_fail(err, BW_ERR_DOMAIN, NULL, 0, "task %zu", k);
    return BW_OK;
}

START_TEST(the_failure_of_the_lowest_index_is_told)
{
    bw_error err = {0};
    for (size_t i = 0; i < 40; i++)
        done[i] = 0;
    bw_pool_open(&pool, threads[_i]);
    ck_assert_int_eq(bw_pool_run(&pool, 40, fail_some, NULL, &err),
                     BW_ERR_DOMAIN);
    bw_pool_close(&pool);
    ck_assert_int_eq(err.status, BW_ERR_DOMAIN);
    ck_assert_str_eq(err.message, "task 5");
    for (size_t i = 0; i < 6; i++)
        ck_assert_int_eq(done[i], 1);
    ck_assert_int_eq(done[39], 0);
    if (threads[_i] == 1)
        ck_assert_int_eq(done[6], 0);
}
END_TEST

/* ---- how far ------------------------------------------------------------- */

typedef struct watch {
    double last;
    int calls, stop; /* at which call */
} watch;

static bool look(void *payload, double fraction)
{
    watch *w = payload;
    ck_assert_double_ge(fraction, w->last);
    ck_assert_double_le(fraction, 1.0);
    w->last = fraction;
    return ++w->calls != w->stop;
}

START_TEST(what_parts_tell_adds_up_and_goes_no_way_back)
{
    watch w = {0};
    bw_meter meter;
    bw_meter_start(&meter, look, &w, 4.0);
    bw_metered one = {.meter = &meter, .share = 1.0};
    bw_metered two = {.meter = &meter, .from = 0.5, .share = 0.5};
    ck_assert(bw_meter_add(&meter, 1.0));
    ck_assert_double_eq_tol(w.last, 0.25, 1e-12);
    ck_assert(bw_meter_tell(&one, 0.5));
    ck_assert_double_eq_tol(w.last, 0.375, 1e-12);
    ck_assert(bw_meter_tell(&one, 0.1)); /* done again */
    ck_assert_double_eq_tol(w.last, 0.375, 1e-12);
    ck_assert(bw_meter_tell(&two, 1.0));
    ck_assert_double_eq_tol(w.last, 0.625, 1e-12);
    ck_assert(bw_meter_alive(&meter, 0.9));
    ck_assert_double_eq_tol(w.last, 0.625, 1e-12);
    bw_meter_end(&meter);
}
END_TEST

START_TEST(who_stops_one_part_stops_all_and_is_not_asked_again)
{
    watch w = {.stop = 2};
    bw_meter meter;
    bw_meter_start(&meter, look, &w, 2.0);
    bw_metered one = {.meter = &meter, .share = 1.0}, two = one;
    ck_assert(bw_meter_tell(&one, 0.5));
    ck_assert(!bw_meter_tell(&two, 0.5));
    ck_assert(!bw_meter_tell(&one, 0.6));
    ck_assert(!bw_meter_alive(&meter, 0.0));
    ck_assert_int_eq(w.calls, 2);
    bw_meter_end(&meter);
}
END_TEST

/* ---- what tasks share ---------------------------------------------------- */

static bw_shelf_key key_of(const int *at, size_t count)
{
    return (bw_shelf_key){at, count * sizeof *at};
}

START_TEST(a_shelf_gives_back_what_lies_under_the_very_key)
{
    const int key[2] = {3, 4}, other[2] = {3, 5};
    const double put = 1.5;
    double got = 0.0, wide[2] = {0.0};
    bw_pool_open(&pool, 1);
    ck_assert(!bw_shelf_take(&pool.shelf, key_of(key, 2), &got, sizeof got));
    bw_shelf_put(&pool.shelf, key_of(key, 2), &put, sizeof put);
    ck_assert(bw_shelf_take(&pool.shelf, key_of(key, 2), &got, sizeof got));
    ck_assert_double_eq(got, put);
    ck_assert(!bw_shelf_take(&pool.shelf, key_of(other, 2), &got, sizeof got));
    ck_assert(!bw_shelf_take(&pool.shelf, key_of(key, 1), &got, sizeof got));
    ck_assert(!bw_shelf_take(&pool.shelf, key_of(key, 2), wide, sizeof wide));
    bw_shelf_put(NULL, key_of(key, 2), &put, sizeof put);
    ck_assert(!bw_shelf_take(NULL, key_of(key, 2), &got, sizeof got));
    bw_pool_close(&pool);
}
END_TEST

START_TEST(on_a_full_shelf_the_oldest_makes_room)
{
    int got;
    bw_pool_open(&pool, 1);
    for (int i = 0; i < BW_SHELF_MOST + 2; i++)
        for (int twice = 0; twice < 2; twice++)
            bw_shelf_put(&pool.shelf, key_of(&i, 1), &i, sizeof i);
    for (int i = 0; i < BW_SHELF_MOST + 2; i++) {
        const bool there = bw_shelf_take(&pool.shelf, key_of(&i, 1), &got,
                                         sizeof got);
        ck_assert_int_eq(there, i >= 2);
        ck_assert(!there || got == i);
    }
    bw_pool_close(&pool);
}
END_TEST

static bw_status share(void *payload, size_t k, bw_error *err)
{
    int *wrong = payload;
    const int key = (int)(k % 5), made = 7 * key;
    int got = made;
    (void)err;
    if (!bw_shelf_take(&pool.shelf, key_of(&key, 1), &got, sizeof got))
        bw_shelf_put(&pool.shelf, key_of(&key, 1), &made, sizeof made);
    wrong[k] = got != made;
    return BW_OK;
}

START_TEST(tasks_share_a_shelf_on_any_number_of_threads)
{
    static int wrong[400];
    bw_error err = {0};
    bw_pool_open(&pool, threads[_i]);
    ck_assert_int_eq(bw_pool_run(&pool, 400, share, wrong, &err), BW_OK);
    for (size_t k = 0; k < 400; k++)
        ck_assert_int_eq(wrong[k], 0);
    bw_pool_close(&pool);
}
END_TEST

SUITE("pool",
      EACH(tasks_of_tasks_are_all_done_once_whatever_the_threads,
           COUNT(threads)),
      EACH(no_tasks_are_done_at_once, COUNT(threads)),
      FACT(one_thread_is_the_callers_and_takes_the_tasks_in_order),
      EACH(no_more_run_at_once_than_there_are_threads, COUNT(threads)),
      FACT(a_thread_that_waits_helps_with_the_tasks_of_others),
      FACT(a_stack_does_not_grow_with_the_number_of_tasks),
      EACH(the_failure_of_the_lowest_index_is_told, COUNT(threads)),
      FACT(what_parts_tell_adds_up_and_goes_no_way_back),
      FACT(who_stops_one_part_stops_all_and_is_not_asked_again),
      FACT(a_shelf_gives_back_what_lies_under_the_very_key),
      FACT(on_a_full_shelf_the_oldest_makes_room),
      EACH(tasks_share_a_shelf_on_any_number_of_threads, COUNT(threads)))
