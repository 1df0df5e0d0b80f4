/*
 * Workers. Variants are handed out in chunks of consecutive numbers; finished chunks wait in a ring
 * until the calling thread takes them in order. So neither order nor bits depend on how many work,
 * and the ring bounds what is in memory.
 */
#include "sweep/sweep.h"

#include "base/memory.h"
#include "base/message.h"

#include <pthread.h>
#include <string.h>

enum { CHUNK = 32, WORKERS_MAX = 256 };

typedef struct chunk {
    int32_t is_done;
    trivet_variant rows[CHUNK];
    double inputs[CHUNK][TRIVET__COLUMNS_MAX];
    int32_t kind_counts[CHUNK];
    trivet__kind_row (*kinds)[TRIVET__KINDS_MAX]; /* [CHUNK], or NULL */
} chunk;

typedef struct crew {
    const trivet_sweep *sweep;
    const trivet__order *order;
    int64_t chunk_count;
    chunk *ring;
    int32_t ring_size;
    trivet__bench *benches; /* [workers] */
    int32_t benches_taken;
    pthread_mutex_t lock;
    pthread_cond_t changed;
    int64_t next;         /* chunk to hand out */
    int64_t taken;        /* chunks that the calling thread is done with */
    trivet_status status; /* of the machine or the taker; stops all */
    trivet_message message;
    trivet__answer_taker *taker;
    void *user;
} crew;

static int32_t chunk_length(const crew *of, int64_t number)
{
    const int64_t left = of->order->count - number * CHUNK;
    return left < CHUNK ? (int32_t)left : CHUNK;
}

static trivet_status fill_chunk(const crew *of, trivet__bench *bench, int64_t number, chunk *to)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < chunk_length(of, number) && status == TRIVET_OK; i++) {
        const int64_t at = of->order->first + number * CHUNK + i;
        const int64_t variant = of->order->numbers ? of->order->numbers[at] : at;
        status = of->order->is_weighed_only ? trivet__bench_weigh(bench, variant, &to->rows[i])
                                            : trivet__bench_make(bench, variant, &to->rows[i]);
        memcpy(to->inputs[i], bench->inputs, sizeof to->inputs[i]);
        const int has_kinds = to->kinds && to->rows[i].outcome == TRIVET_OUTCOME_CHECKED;
        to->kind_counts[i] = has_kinds ? trivet__bench_kinds(bench, to->kinds[i]) : 0;
    }
    return status;
}

/* The next chunk and its place in the ring, once that is free; -1: there is no more to do. */
static int64_t take_chunk(crew *of)
{
    int64_t number = -1;
    pthread_mutex_lock(&of->lock);
    while (of->status == TRIVET_OK && of->next < of->chunk_count &&
           of->next >= of->taken + of->ring_size) {
        pthread_cond_wait(&of->changed, &of->lock);
    }
    if (of->status == TRIVET_OK && of->next < of->chunk_count) {
        number = of->next++;
    }
    pthread_mutex_unlock(&of->lock);
    return number;
}

static void finish_chunk(crew *of, chunk *done, trivet_status status, const trivet_message *message)
{
    pthread_mutex_lock(&of->lock);
    done->is_done = 1;
    if (status != TRIVET_OK && of->status == TRIVET_OK) {
        of->status = status;
        of->message = *message;
    }
    pthread_cond_broadcast(&of->changed);
    pthread_mutex_unlock(&of->lock);
}

static trivet__bench *take_bench(crew *of)
{
    pthread_mutex_lock(&of->lock);
    trivet__bench *const bench = &of->benches[of->benches_taken++];
    pthread_mutex_unlock(&of->lock);
    return bench;
}

static void *work(void *user)
{
    crew *const of = user;
    trivet__bench *const bench = take_bench(of);
    for (int64_t number = take_chunk(of); number >= 0; number = take_chunk(of)) {
        chunk *const to = &of->ring[number % of->ring_size];
        const trivet_status status = fill_chunk(of, bench, number, to);
        finish_chunk(of, to, status, &bench->message);
    }
    return NULL;
}

static trivet_status hand_on(crew *of, int64_t number, const chunk *from)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < chunk_length(of, number) && status == TRIVET_OK; i++) {
        const trivet__answer answer = {&from->rows[i], from->inputs[i],
                                       from->kinds ? from->kinds[i] : NULL, from->kind_counts[i]};
        status = of->taker(of->user, &answer, &of->message);
    }
    return status;
}

/* Takes chunks in order until the last, a failure, or the taker's wish. */
static void take_all(crew *of)
{
    for (int64_t number = 0; number < of->chunk_count; number++) {
        chunk *const from = &of->ring[number % of->ring_size];
        pthread_mutex_lock(&of->lock);
        while (of->status == TRIVET_OK && !from->is_done) {
            pthread_cond_wait(&of->changed, &of->lock);
        }
        const trivet_status status = of->status;
        pthread_mutex_unlock(&of->lock);
        if (status != TRIVET_OK) {
            return;
        }
        const trivet_status wish = hand_on(of, number, from);
        pthread_mutex_lock(&of->lock);
        from->is_done = 0;
        of->taken++;
        of->status = wish != TRIVET_OK ? wish : of->status;
        pthread_cond_broadcast(&of->changed);
        pthread_mutex_unlock(&of->lock);
    }
}

/* As many as can be had; without any the calling thread works and takes by turns. */
static int32_t start_workers(crew *of, pthread_t *threads, int32_t wanted)
{
    int32_t count = 0;
    while (count < wanted && pthread_create(&threads[count], NULL, work, of) == 0) {
        count++;
    }
    return count;
}

static trivet_status run_alone(crew *of)
{
    for (int64_t number = 0; number < of->chunk_count && of->status == TRIVET_OK; number++) {
        of->status = fill_chunk(of, &of->benches[0], number, &of->ring[0]);
        if (of->status != TRIVET_OK) {
            of->message = of->benches[0].message;
        } else {
            of->status = hand_on(of, number, &of->ring[0]);
        }
    }
    return of->status;
}

static trivet_status run_crew(crew *of, int32_t workers)
{
    pthread_t threads[WORKERS_MAX];
    if (pthread_mutex_init(&of->lock, NULL) != 0 || pthread_cond_init(&of->changed, NULL) != 0) {
        return TRIVET_NO_MEMORY;
    }
    const int32_t started = start_workers(of, threads, workers);
    if (started > 0) {
        take_all(of);
    }
    for (int32_t i = 0; i < started; i++) {
        pthread_join(threads[i], NULL);
    }
    pthread_cond_destroy(&of->changed);
    pthread_mutex_destroy(&of->lock);
    return started > 0 ? of->status : run_alone(of);
}

/* ---- from outside ---- */

static trivet_status check_order(const trivet_sweep *sweep, const trivet__order *order,
                                 trivet_message *message)
{
    const int64_t most = sweep->vary.count;
    if (order->first < 0 || order->count < 0 || order->first > most ||
        order->count > most - order->first) {
        return trivet__refuse(message, TRIVET_BAD_INDEX, "variants", "are not in the sweep",
                              "count them from 0");
    }
    if (order->workers < 1 || order->workers > WORKERS_MAX) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "workers", "are fewer than 1 or too many",
                              "give 1 to 256");
    }
    return TRIVET_OK;
}

static int take_room(crew *of)
{
    const int32_t workers = of->order->workers;
    of->ring = trivet__take((size_t)of->ring_size, sizeof *of->ring);
    of->benches = trivet__take((size_t)workers, sizeof *of->benches);
    int is_complete = of->ring && of->benches;
    for (int32_t i = 0; is_complete && of->order->wants_kinds && i < of->ring_size; i++) {
        of->ring[i].kinds = trivet__take(CHUNK, sizeof *of->ring[i].kinds);
        is_complete = of->ring[i].kinds != NULL;
    }
    for (int32_t i = 0; is_complete && i < workers; i++) {
        of->benches[i].sweep = of->sweep;
        of->benches[i].wants_kinds = of->order->wants_kinds;
    }
    return is_complete;
}

static void give_back_room(crew *of)
{
    for (int32_t i = 0; of->benches && i < of->order->workers; i++) {
        trivet__bench_clear(&of->benches[i]);
    }
    for (int32_t i = 0; of->ring && i < of->ring_size; i++) {
        trivet__give_back(of->ring[i].kinds);
    }
    trivet__give_back(of->benches);
    trivet__give_back(of->ring);
}

trivet_status trivet__crew_run(const trivet_sweep *sweep, const trivet__order *order,
                               trivet__answer_taker *taker, void *user, trivet_message *message)
{
    crew of = {.sweep = sweep,
               .order = order,
               .chunk_count = (order->count + CHUNK - 1) / CHUNK,
               .ring_size = order->workers > 1 ? 3 * order->workers : 1,
               .taker = taker,
               .user = user};
    trivet_status status = check_order(sweep, order, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = !take_room(&of)      ? TRIVET_NO_MEMORY
             : order->workers > 1 ? run_crew(&of, order->workers)
                                  : run_alone(&of);
    give_back_room(&of);
    if (status == TRIVET_NO_MEMORY) {
        return trivet__no_memory(message);
    }
    if (status != TRIVET_OK) {
        *message = of.message;
    }
    return status;
}

typedef struct public_taker {
    trivet_sweep_taker *taker;
    void *user;
} public_taker;

static trivet_status hand_to_public(void *user, const trivet__answer *answer,
                                    trivet_message *message)
{
    const public_taker *const to = user;
    return to->taker(to->user, answer->variant, answer->inputs) == 0
               ? TRIVET_OK
               : trivet__refuse(message, TRIVET_INTERRUPTED, "sweep", "was stopped before its end",
                                "start it again to go on");
}

trivet_status trivet_sweep_run(const trivet_sweep *sweep, int64_t first, int64_t count,
                               int32_t workers, trivet_sweep_taker *taker, void *user,
                               trivet_message *message)
{
    trivet_message said;
    public_taker to = {taker, user};
    if (!sweep || !taker) {
        return trivet__missing(message, sweep ? "taker" : "sweep");
    }
    const trivet__order order = {.first = first, .count = count, .workers = workers};
    trivet_message_clear(&said);
    const trivet_status status = trivet__crew_run(sweep, &order, hand_to_public, &to, &said);
    if (message) {
        *message = said;
    }
    return status;
}
