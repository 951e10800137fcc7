#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

#include "core.h"
#include "fail.h"

/* The assessments, several at a time. Each wall is independent of the others
 * and writes only its own result, so the number of threads cannot change a
 * figure; of several faults the one of the first wall is told. */

typedef struct crew {
    bw_compare_core *core;
    atomic_size_t next;
    pthread_mutex_t lock; /* of what follows */
    double done[BW_COMPARE_MOST];
    bool stopped;
} crew;

typedef struct task {
    crew *crew;
    size_t index;
    bw_status status;
    bw_error fault;
} task;

typedef struct worker {
    crew *crew;
    task *task;
} worker;

static bool report_progress(void *payload, double fraction_done)
{
    task *t = payload;
    crew *all = t->crew;
    const bw_transient_options *asked =
        &all->core->options.assessment.transient;
    pthread_mutex_lock(&all->lock);
    all->done[t->index] = fraction_done;
    double sum = 0.0;
    for (size_t i = 0; i < all->core->count; i++)
        sum += all->done[i];
    if (!all->stopped && asked->progress != NULL &&
        !asked->progress(asked->payload, sum / (double)all->core->count))
        all->stopped = true;
    bool go_on = !all->stopped;
    pthread_mutex_unlock(&all->lock);
    return go_on;
}

static void assess(task *t)
{
    bw_compare_core *core = t->crew->core;
    bw_assessment_options options = core->options.assessment;
    options.transient.progress = report_progress;
    options.transient.payload = t;
    t->status = bw_assess(&core->assessment[t->index], core->assembly[t->index],
                          core->climate[t->index], &options, &t->fault);
    report_progress(t, 1.0);
}

static void *work(void *payload)
{
    worker *w = payload;
    for (;;) {
        size_t i = atomic_fetch_add(&w->crew->next, 1);
        if (i >= w->crew->core->count)
            return NULL;
        assess(&w->task[i]);
    }
}

static size_t thread_count(const bw_compare_core *core)
{
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    long wanted = core->options.threads > 0 ? core->options.threads : cores;
    if (wanted < 1)
        return 1;
    return (size_t)wanted < core->count ? (size_t)wanted : core->count;
}

/* This thread works, too; where no other is to be had, it does all. */
static void assess_all(crew *all, task *tasks)
{
    pthread_t thread[BW_COMPARE_MOST];
    worker w = {.crew = all, .task = tasks};
    size_t others = thread_count(all->core) - 1, started = 0;
    while (started < others &&
           pthread_create(&thread[started], NULL, work, &w) == 0)
        started++;
    work(&w);
    for (size_t i = 0; i < started; i++)
        pthread_join(thread[i], NULL);
}

bw_status bw_compare_assess(bw_compare_core *core, bw_error *err)
{
    task tasks[BW_COMPARE_MOST];
    crew all = {.core = core, .lock = PTHREAD_MUTEX_INITIALIZER};
    atomic_init(&all.next, 0);
    for (size_t i = 0; i < core->count; i++)
        tasks[i] = (task){.crew = &all, .index = i};
    assess_all(&all, tasks);
    pthread_mutex_destroy(&all.lock);
    for (size_t i = 0; i < core->count; i++) {
        if (tasks[i].status == BW_OK)
            continue;
        if (err != NULL)
            *err = tasks[i].fault;
        return tasks[i].status;
    }
    return BW_OK;
}
