/*
 * The stores of all parts of a run, made into one. First every part is looked at, and nothing is
 * written unless together they are the whole run; then they are copied in order, in batches, so
 * that a merge that was stopped goes on where it was.
 */
#include "sweep/store_inside.h"

#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"

#include <assert.h>

enum { BATCH = 4096 };

/* Where a part begins and ends, in order of its first variant. */
typedef struct part {
    const char *path;
    int64_t first, end;
} part;

/* Puts the newest of count + 1 parts into its place among those before it. */
static void sort_in(part *parts, int32_t count)
{
    for (int32_t i = count;
         i > 0 && (parts[i].first < parts[i - 1].first ||
                   (parts[i].first == parts[i - 1].first && parts[i].end < parts[i - 1].end));
         i--) {
        const part kept = parts[i];
        parts[i] = parts[i - 1];
        parts[i - 1] = kept;
    }
}

static trivet_status refuse_unfinished(const trivet__store *store, trivet_message *message)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, store->path, "", "sweep this part to its end first");
    trivet__message_problem(message, "this part is not finished: %lld of %lld variants are there",
                            (long long)(store->next - store->head.first),
                            (long long)(store->head.end - store->head.first));
    return TRIVET_BAD_VALUE;
}

/* Whether a part belongs to the run of the first; only the part may differ. */
static trivet_status check_same_run(const trivet__store *store, const trivet__store *first,
                                    trivet_message *message)
{
    trivet__run_head wanted = first->head;
    wanted.first = store->head.first;
    wanted.end = store->head.end;
    const trivet_status status = trivet__run_head_refuse_other(store, &wanted, message);
    if (status && message) {
        char problem[TRIVET_PROBLEM_MAX];
        trivet__text_copy(problem, sizeof problem, message->problem);
        trivet__refuse(message, status, store->path, "", "merge the parts of one sweep");
        trivet__message_problem(message, "does not belong to %s: %s", first->path, problem);
    }
    return status;
}

static trivet_status look_at_part(const char *path, const trivet__store *first, part *part_out,
                                  trivet_message *message)
{
    trivet__store *store = NULL;
    trivet_status status = trivet__store_read(path, &store, message);
    if (!status) {
        status = check_same_run(store, first, message);
    }
    if (!status && !store->is_finished) {
        status = refuse_unfinished(store, message);
    }
    if (!status) {
        *part_out = (part){path, store->head.first, store->head.end};
    }
    trivet__store_free(store);
    return status;
}

static trivet_status refuse_gap(int64_t from, int64_t to, trivet_message *message)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, "the parts", "", "give the stores of all parts");
    trivet__message_problem(message, "variants %lld to %lld are in none of them", (long long)from,
                            (long long)to - 1);
    return TRIVET_BAD_VALUE;
}

static trivet_status refuse_overlap(const part *one, const part *other, trivet_message *message)
{
    const int64_t end = one->end < other->end ? one->end : other->end;
    trivet__refuse(message, TRIVET_BAD_VALUE, "the parts", "", "give each part once");
    trivet__message_problem(message, "variants %lld to %lld are in %s and in %s",
                            (long long)other->first, (long long)end - 1, one->path, other->path);
    return TRIVET_BAD_VALUE;
}

/* Whether parts, in order, are the whole of a run without gap or overlap. */
static trivet_status check_whole(const part *parts, int32_t count, int64_t variant_count,
                                 trivet_message *message)
{
    int64_t end = 0;
    int32_t last = -1; /* the part that ends there */
    for (int32_t i = 0; i < count; i++) {
        if (parts[i].first == parts[i].end) {
            continue;
        }
        if (parts[i].first > end) {
            return refuse_gap(end, parts[i].first, message);
        }
        if (parts[i].first < end) {
            return refuse_overlap(&parts[last], &parts[i], message);
        }
        end = parts[i].end;
        last = i;
    }
    return end < variant_count ? refuse_gap(end, variant_count, message) : TRIVET_OK;
}

/* ---- Copying ---- */

typedef struct copying {
    trivet__store *from, *to;
    sqlite3_stmt *rows, *checks;
    trivet__check_row check; /* the next that is not copied */
    int has_check;
    int64_t next; /* variant of the target that comes next */
} copying;

static int next_check(copying *c)
{
    const int result = sqlite3_step(c->checks);
    c->has_check = result == SQLITE_ROW;
    if (result == SQLITE_ROW) {
        return trivet__check_take(c->checks, &c->check);
    }
    return result == SQLITE_DONE ? SQLITE_OK : result;
}

static trivet_status copy_checks(copying *c, int64_t number, int is_wanted, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    for (int64_t place = 0; !status && c->has_check && c->check.number <= number; place++) {
        if (is_wanted) {
            status = trivet__batch_check(c->to, &c->check, place, message);
        }
        if (!status) {
            status = trivet__sql_status(c->from, next_check(c), message);
        }
    }
    return status;
}

/* One variant with its checks, unless an earlier merge has copied it. */
static trivet_status copy_row(copying *c, trivet_message *message)
{
    trivet__variant_row row;
    trivet_status status =
        trivet__sql_status(c->from, trivet__row_take(c->from, c->rows, &row), message);
    if (status) {
        return status;
    }
    const int is_wanted = row.number >= c->to->next;
    if (is_wanted) {
        status = trivet__batch_row(c->to, &row, c->next, message);
        c->next++;
    }
    if (!status) {
        status = copy_checks(c, row.number, is_wanted, message);
    }
    if (!status && c->next - c->to->next >= BATCH) {
        status = trivet__batch_keep(c->to, c->next, message);
        if (!status) {
            status = trivet__store_hold(c->to, message);
        }
    }
    return status;
}

static trivet_status copy_rows(copying *c, trivet_message *message)
{
    int result = trivet__rows_prepare(c->from, &c->rows);
    if (result == SQLITE_OK) {
        result = trivet__checks_prepare(c->from, &c->checks);
    }
    if (result == SQLITE_OK) {
        result = next_check(c);
    }
    trivet_status status = TRIVET_OK;
    while (!status && result == SQLITE_OK && (result = sqlite3_step(c->rows)) == SQLITE_ROW) {
        status = copy_row(c, message);
        result = SQLITE_OK;
    }
    if (!status && result != SQLITE_DONE) {
        status = trivet__sql_status(c->from, result, message);
    }
    sqlite3_finalize(c->rows);
    sqlite3_finalize(c->checks);
    return status;
}

static trivet_status copy_part(trivet__store *to, const part *p, trivet_message *message)
{
    if (p->end <= to->next) {
        return TRIVET_OK;
    }
    trivet__store *from = NULL;
    trivet_status status = trivet__store_read(p->path, &from, message);
    if (!status) {
        status = trivet__store_hold(to, message);
    }
    if (!status) {
        copying c = {.from = from, .to = to, .next = to->next};
        status = copy_rows(&c, message);
        if (!status && c.next != p->end) {
            status = trivet__refuse(message, TRIVET_UNREADABLE, p->path,
                                    "the store is damaged: variants are missing",
                                    "delete it and sweep this part again");
        }
        if (!status) {
            status = trivet__batch_keep(to, c.next, message);
        }
        if (status) {
            trivet__batch_drop(to);
        }
    }
    trivet__store_free(from);
    return status;
}

static trivet_status look_at_parts(const char *const *paths, int32_t count,
                                   const trivet__store *first, part *parts, trivet_message *message)
{
    for (int32_t i = 0; i < count; i++) {
        const trivet_status status = look_at_part(paths[i], first, &parts[i], message);
        if (status) {
            return status;
        }
        sort_in(parts, i);
    }
    return check_whole(parts, count, first->head.variant_count, message);
}

static trivet_status copy_parts(const char *path, const trivet__store *first, const part *parts,
                                int32_t count, trivet_message *message)
{
    trivet__run_head whole = first->head;
    whole.first = 0;
    whole.end = whole.variant_count;
    trivet__store *to = NULL;
    trivet_status status = trivet__store_open(path, &whole, &to, message);
    for (int32_t i = 0; !status && !trivet__store_is_finished(to) && i < count; i++) {
        status = copy_part(to, &parts[i], message);
    }
    if (!status) {
        status = trivet__store_finish(to, message);
    }
    trivet__store_free(to);
    return status;
}

trivet_status trivet__store_merge(const char *path, const char *const *parts, int32_t part_count,
                                  trivet_message *message)
{
    if (!path || !parts) {
        return trivet__missing(message, !path ? "path" : "parts");
    }
    if (part_count < 1) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "the parts", "there are none",
                              "give the stores of all parts");
    }
    part *const sorted = trivet__take((size_t)part_count, sizeof *sorted);
    if (!sorted) {
        return trivet__no_memory(message);
    }
    trivet__store *first = NULL;
    trivet_status status = trivet__store_read(parts[0], &first, message);
    if (!status) {
        status = look_at_parts(parts, part_count, first, sorted, message);
    }
    if (!status) {
        status = copy_parts(path, first, sorted, part_count, message);
    }
    trivet__store_free(first);
    trivet__give_back(sorted);
    return status;
}
