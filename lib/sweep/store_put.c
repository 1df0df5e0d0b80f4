/*
 * Rows on their way into the store. Texts go in as numbers: the last that were used are kept in a
 * table of fixed size, the others are looked up in the store itself, so that memory does not grow
 * with the sweep.
 */
#include "sweep/store_inside.h"

#include "base/message.h"
#include "base/text.h"
#include "frame/fnv.h"
#include "trivet/checks.h"

#include <assert.h>
#include <string.h>

enum { LOG_PAGES_MAX = 4000 }; /* 16 MB of log before it goes into the store */

/* Makes a statement ready for its next values after a step that gives no row. */
static int step_once(sqlite3_stmt *statement)
{
    const int result = sqlite3_step(statement);
    const int ended = sqlite3_reset(statement);
    return result == SQLITE_DONE ? SQLITE_OK : ended;
}

/* ---- Texts ---- */

static int find_text(trivet__store *store, const char *text, int64_t *id_out)
{
    sqlite3_stmt *const find = store->find_text;
    int result = sqlite3_bind_text(find, 1, text, -1, SQLITE_STATIC);
    if (result != SQLITE_OK) {
        return result;
    }
    *id_out = 0;
    result = sqlite3_step(find);
    if (result == SQLITE_ROW) {
        *id_out = sqlite3_column_int64(find, 0);
    }
    const int ended = sqlite3_reset(find);
    return result == SQLITE_ROW || result == SQLITE_DONE ? SQLITE_OK : ended;
}

static int add_text(trivet__store *store, const char *text, int64_t *id_out)
{
    int result = sqlite3_bind_text(store->add_text, 1, text, -1, SQLITE_STATIC);
    if (result == SQLITE_OK) {
        result = step_once(store->add_text);
    }
    *id_out = sqlite3_last_insert_rowid(store->db);
    return result;
}

/* Binds the number of a text, which is added if the store has not met it; nothing for "". */
static int bind_text(trivet__store *store, sqlite3_stmt *statement, int at, const char *text)
{
    if (!text || !text[0]) {
        return sqlite3_bind_null(statement, at);
    }
    trivet__kept_text *const kept =
        &store->kept[trivet__fnv_text(TRIVET__FNV_START, text) % TRIVET__KEPT_TEXTS];
    if (kept->id != 0 && strcmp(kept->text, text) == 0) {
        return sqlite3_bind_int64(statement, at, kept->id);
    }
    int64_t id = 0;
    int result = find_text(store, text, &id);
    if (result == SQLITE_OK && id == 0) {
        result = add_text(store, text, &id);
    }
    if (result != SQLITE_OK) {
        return result;
    }
    if (strlen(text) < sizeof kept->text) {
        kept->id = id;
        trivet__text_copy(kept->text, sizeof kept->text, text);
    }
    return sqlite3_bind_int64(statement, at, id);
}

/* ---- One row ---- */

static trivet_status refuse_row(const trivet__store *store, trivet_status status, int64_t number,
                                const char *problem, trivet_message *message)
{
    trivet__refuse(message, status, store->path, "", "put the variants of the part one by one");
    trivet__message_problem(message, "variant %lld: %s", (long long)number, problem);
    return status;
}

static trivet_status check_inputs(const trivet__store *store, const trivet__variant_row *row,
                                  trivet_message *message)
{
    const trivet__run_head *const head = &store->head;
    for (int32_t i = 0; i < head->input_count; i++) {
        const double value = row->inputs[i];
        if (head->input_kinds[i] == TRIVET__INPUT_CHOICE &&
            !(value >= 0.0 && value < (double)head->choice_counts[i])) {
            return refuse_row(store, TRIVET_BAD_INDEX, row->number, "there is no such choice",
                              message);
        }
    }
    return TRIVET_OK;
}

static trivet_status check_row(const trivet__store *store, const trivet__variant_row *row,
                               int64_t number, trivet_message *message)
{
    if (row->number != number || number >= store->head.end) {
        return refuse_row(store, TRIVET_BAD_ORDER, row->number, "it is not the one that comes next",
                          message);
    }
    if (!row->inputs && store->head.input_count > 0) {
        return trivet__missing(message, "inputs");
    }
    int makes_sense = row->outcome >= TRIVET__SOLVED && row->outcome <= TRIVET__UNSOLVED;
    for (int i = 0; i < TRIVET_LINE_COUNT; i++) {
        makes_sense = makes_sense && row->verdicts[i] >= TRIVET_NOT_CHECKED &&
                      row->verdicts[i] <= TRIVET_FAILS;
    }
    if (!makes_sense) {
        return refuse_row(store, TRIVET_BAD_INDEX, row->number,
                          "there is no such outcome or verdict", message);
    }
    return check_inputs(store, row, message);
}

/* SQLite writes NaN as NULL, all other doubles as they are. */
static void bind_numbers(const trivet__store *store, const trivet__variant_row *row)
{
    sqlite3_stmt *const add = store->add_variant;
    sqlite3_bind_int64(add, TRIVET__COLUMN_NUMBER + 1, row->number);
    sqlite3_bind_int(add, TRIVET__COLUMN_OUTCOME + 1, row->outcome);
    for (int i = 0; i < TRIVET_LINE_COUNT; i++) {
        sqlite3_bind_int(add, TRIVET__COLUMN_VERDICTS + i + 1, row->verdicts[i]);
        sqlite3_bind_double(add, TRIVET__COLUMN_USED + i + 1, row->used[i]);
    }
    sqlite3_bind_double(add, TRIVET__COLUMN_DROOP + 1, row->droop);
    sqlite3_bind_double(add, TRIVET__COLUMN_MASS + 1, row->mass);
    sqlite3_bind_double(add, TRIVET__COLUMN_PRICE + 1, row->price);
    sqlite3_bind_double(add, TRIVET__COLUMN_MOUNT_FORCE + 1, row->mount_force);
    for (int i = 0; i < (int)store->head.input_count; i++) {
        const int at = TRIVET__COLUMN_INPUTS + i + 1;
        if (store->head.input_kinds[i] == TRIVET__INPUT_CHOICE) {
            sqlite3_bind_int(add, at, (int)row->inputs[i]);
        } else {
            sqlite3_bind_double(add, at, row->inputs[i]);
        }
    }
}

trivet_status trivet__batch_row(trivet__store *store, const trivet__variant_row *row,
                                int64_t number, trivet_message *message)
{
    const trivet_status status = check_row(store, row, number, message);
    if (status) {
        return status;
    }
    const char *const governs[] = {row->governs_check, row->governs_where, row->governs_case};
    int result = bind_text(store, store->add_variant, TRIVET__COLUMN_REASON + 1, row->reason);
    for (int i = 0; result == SQLITE_OK && i < 3; i++) {
        result = bind_text(store, store->add_variant, TRIVET__COLUMN_GOVERNS + i + 1, governs[i]);
    }
    if (result == SQLITE_OK) {
        bind_numbers(store, row);
        result = step_once(store->add_variant);
    }
    return trivet__sql_status(store, result, message);
}

trivet_status trivet__batch_check(trivet__store *store, const trivet__check_row *row, int64_t place,
                                  trivet_message *message)
{
    sqlite3_stmt *const add = store->add_check;
    int result = bind_text(store, add, 3, row->check);
    if (result == SQLITE_OK) {
        result = bind_text(store, add, 4, row->where);
    }
    if (result == SQLITE_OK) {
        result = bind_text(store, add, 5, row->in_case);
    }
    if (result == SQLITE_OK) {
        sqlite3_bind_int64(add, 1, row->number);
        sqlite3_bind_int64(add, 2, place);
        sqlite3_bind_double(add, 6, row->used);
        result = step_once(add);
    }
    return trivet__sql_status(store, result, message);
}

/* ---- Batches ---- */

void trivet__batch_drop(trivet__store *store)
{
    /* After some failures SQLite has rolled back by itself; then this one has nothing to do. */
    sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL);
    store->is_held = 0;
    /* Texts that came with the batch are gone. */
    memset(store->kept, 0, sizeof store->kept);
}

trivet_status trivet__batch_keep(trivet__store *store, int64_t next, trivet_message *message)
{
    const int result = trivet__sql_run(store->db, "COMMIT");
    if (result != SQLITE_OK) {
        return trivet__sql_status(store, result, message);
    }
    store->next = next;
    store->is_held = 0;
    if (store->log_pages >= LOG_PAGES_MAX) {
        /* A failure only leaves the log as it is, for the next time or for the end. */
        sqlite3_wal_checkpoint_v2(store->db, NULL, SQLITE_CHECKPOINT_PASSIVE, NULL, NULL);
        store->log_pages = 0;
    }
    /* The batch is in; whatever keeps us from holding on is said when the next one comes. */
    (void)trivet__store_hold(store, NULL);
    return TRIVET_OK;
}

static trivet_status put_checks(trivet__store *store, const trivet__check_row *checks,
                                int32_t count, int64_t end, trivet_message *message)
{
    int64_t place = 0;
    for (int32_t i = 0; i < count; i++) {
        const int64_t before = i > 0 ? checks[i - 1].number : store->next;
        if (checks[i].number < before || checks[i].number >= end) {
            return refuse_row(store, TRIVET_BAD_ORDER, checks[i].number,
                              "its checks do not come with it and in order", message);
        }
        place = i > 0 && checks[i].number == before ? place + 1 : 0;
        const trivet_status status = trivet__batch_check(store, &checks[i], place, message);
        if (status) {
            return status;
        }
    }
    return TRIVET_OK;
}

trivet_status trivet__store_put(trivet__store *store, const trivet__variant_row *rows,
                                int32_t row_count, const trivet__check_row *checks,
                                int32_t check_count, trivet_message *message)
{
    if (!store || (!rows && row_count > 0) || (!checks && check_count > 0)) {
        return trivet__missing(message, !store ? "store" : !rows ? "rows" : "checks");
    }
    if (!store->is_writing || store->is_finished || row_count < 0 || check_count < 0) {
        return refuse_row(store, TRIVET_BAD_ORDER, store->next,
                          "the store is finished or only being read", message);
    }
    trivet_status status = trivet__store_hold(store, message);
    for (int32_t i = 0; !status && i < row_count; i++) {
        status = trivet__batch_row(store, &rows[i], store->next + i, message);
    }
    if (!status) {
        status = put_checks(store, checks, check_count, store->next + row_count, message);
    }
    if (!status) {
        status = trivet__batch_keep(store, store->next + row_count, message);
    }
    if (status) {
        trivet__batch_drop(store);
        /* Keep others out again; if that fails, the next batch says why. */
        (void)trivet__store_hold(store, NULL);
    }
    return status;
}
