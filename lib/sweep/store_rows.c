/*
 * Rows on their way out of the store, in order; and the number that stands for all of them.
 */
#include "sweep/store_inside.h"

#include "base/message.h"
#include "frame/fnv.h"
#include "trivet/checks.h"

#include <math.h>
#include <string.h>

enum { TEXT_COLUMNS = 4 }; /* reason, governing check, where, case: behind the inputs */

int trivet__rows_prepare(trivet__store *store, sqlite3_stmt **statement_out)
{
    return trivet__sql_prepare(store->db,
                               "SELECT v.*, r.text, c.text, w.text, k.text FROM variants v"
                               " LEFT JOIN texts r ON r.id = v.reason"
                               " LEFT JOIN texts c ON c.id = v.governs_check"
                               " LEFT JOIN texts w ON w.id = v.governs_where"
                               " LEFT JOIN texts k ON k.id = v.governs_case ORDER BY v.number",
                               statement_out);
}

int trivet__checks_prepare(trivet__store *store, sqlite3_stmt **statement_out)
{
    return trivet__sql_prepare(store->db,
                               "SELECT c.variant, c.used, k.text, w.text, i.text FROM checks c"
                               " LEFT JOIN texts k ON k.id = c.kind"
                               " LEFT JOIN texts w ON w.id = c.location"
                               " LEFT JOIN texts i ON i.id = c.in_case"
                               " ORDER BY c.variant, c.place",
                               statement_out);
}

static double read_number(sqlite3_stmt *statement, int column)
{
    return sqlite3_column_type(statement, column) == SQLITE_NULL
               ? (double)NAN
               : sqlite3_column_double(statement, column);
}

int trivet__row_take(trivet__store *store, sqlite3_stmt *statement, trivet__variant_row *row_out)
{
    const int inputs = (int)store->head.input_count;
    const int texts = TRIVET__COLUMN_INPUTS + inputs;
    if (sqlite3_column_count(statement) != texts + TEXT_COLUMNS) {
        return SQLITE_CORRUPT;
    }
    int has_failed = 0;
    for (int i = 0; i < inputs; i++) {
        store->inputs[i] = read_number(statement, TRIVET__COLUMN_INPUTS + i);
    }
    *row_out =
        (trivet__variant_row){.number = sqlite3_column_int64(statement, TRIVET__COLUMN_NUMBER),
                              .inputs = store->inputs,
                              .outcome = sqlite3_column_int(statement, TRIVET__COLUMN_OUTCOME),
                              .reason = trivet__sql_text(statement, texts, &has_failed),
                              .governs_check = trivet__sql_text(statement, texts + 1, &has_failed),
                              .governs_where = trivet__sql_text(statement, texts + 2, &has_failed),
                              .governs_case = trivet__sql_text(statement, texts + 3, &has_failed),
                              .droop = read_number(statement, TRIVET__COLUMN_DROOP),
                              .mass = read_number(statement, TRIVET__COLUMN_MASS),
                              .price = read_number(statement, TRIVET__COLUMN_PRICE),
                              .mount_force = read_number(statement, TRIVET__COLUMN_MOUNT_FORCE)};
    for (int i = 0; i < TRIVET_LINE_COUNT; i++) {
        row_out->verdicts[i] = sqlite3_column_int(statement, TRIVET__COLUMN_VERDICTS + i);
        row_out->used[i] = read_number(statement, TRIVET__COLUMN_USED + i);
    }
    return has_failed ? SQLITE_NOMEM : SQLITE_OK;
}

int trivet__check_take(sqlite3_stmt *statement, trivet__check_row *row_out)
{
    int has_failed = 0;
    *row_out = (trivet__check_row){.number = sqlite3_column_int64(statement, 0),
                                   .check = trivet__sql_text(statement, 2, &has_failed),
                                   .where = trivet__sql_text(statement, 3, &has_failed),
                                   .in_case = trivet__sql_text(statement, 4, &has_failed),
                                   .used = read_number(statement, 1)};
    return has_failed ? SQLITE_NOMEM : SQLITE_OK;
}

trivet_status trivet__store_rows(trivet__store *store, trivet__row_visit *visit, void *user,
                                 trivet_message *message)
{
    if (!store || !visit) {
        return trivet__missing(message, !store ? "store" : "visit");
    }
    sqlite3_stmt *all = NULL;
    trivet_status status = TRIVET_OK;
    int result = trivet__rows_prepare(store, &all);
    while (!status && result == SQLITE_OK && (result = sqlite3_step(all)) == SQLITE_ROW) {
        trivet__variant_row row;
        result = trivet__row_take(store, all, &row);
        if (result == SQLITE_OK) {
            status = visit(user, &row, message);
        }
    }
    result = trivet__sql_finish(all, result);
    return status ? status : trivet__sql_status(store, result, message);
}

trivet_status trivet__store_checks(trivet__store *store, trivet__check_visit *visit, void *user,
                                   trivet_message *message)
{
    if (!store || !visit) {
        return trivet__missing(message, !store ? "store" : "visit");
    }
    sqlite3_stmt *all = NULL;
    trivet_status status = TRIVET_OK;
    int result = trivet__checks_prepare(store, &all);
    while (!status && result == SQLITE_OK && (result = sqlite3_step(all)) == SQLITE_ROW) {
        trivet__check_row row;
        result = trivet__check_take(all, &row);
        if (result == SQLITE_OK) {
            status = visit(user, &row, message);
        }
    }
    result = trivet__sql_finish(all, result);
    return status ? status : trivet__sql_status(store, result, message);
}

/* ---- The hash of all ---- */

/* Bytes with their count before them, so that no two lists of texts run together alike. */
static uint64_t mix_bytes(uint64_t hash, const char *text, size_t length)
{
    uint64_t mixed = hash;
    for (unsigned shift = 0; shift < 64; shift += 8) {
        mixed = trivet__fnv_byte(mixed, (unsigned char)(((uint64_t)length >> shift) & 0xFFU));
    }
    for (size_t i = 0; i < length; i++) {
        mixed = trivet__fnv_byte(mixed, (unsigned char)text[i]);
    }
    return mixed;
}

static uint64_t mix_text(uint64_t hash, const char *text)
{
    return mix_bytes(hash, text, strlen(text));
}

static uint64_t mix_whole(uint64_t hash, int64_t number)
{
    uint64_t mixed = hash;
    for (unsigned shift = 0; shift < 64; shift += 8) {
        mixed = trivet__fnv_byte(mixed, (unsigned char)(((uint64_t)number >> shift) & 0xFFU));
    }
    return mixed;
}

static uint64_t mix_number(uint64_t hash, double number)
{
    int64_t bits = -1; /* for every NaN */
    if (!isnan(number)) {
        memcpy(&bits, &number, sizeof bits);
    }
    return mix_whole(hash, bits);
}

static uint64_t mix_head(uint64_t hash, const trivet__run_head *head)
{
    uint64_t mixed = mix_bytes(hash, head->file_text, head->file_length);
    mixed = mix_text(mix_text(mixed, head->settings), head->version);
    mixed = mix_whole(mix_whole(mixed, head->first), head->end);
    mixed = mix_whole(mix_whole(mixed, head->variant_count), head->input_count);
    for (int32_t i = 0; i < head->input_count; i++) {
        mixed = mix_text(mixed, head->input_names[i]);
        mixed = mix_whole(mix_whole(mixed, head->input_kinds[i]), head->input_dimensions[i]);
        mixed = mix_whole(mixed, head->choice_counts[i]);
        for (int32_t k = 0; k < head->choice_counts[i]; k++) {
            mixed = mix_text(mixed, head->choices[i][k]);
        }
    }
    return mixed;
}

typedef struct hashing {
    uint64_t hash;
    int32_t input_count;
} hashing;

static trivet_status mix_row(void *user, const trivet__variant_row *row, trivet_message *message)
{
    (void)message;
    hashing *const h = user;
    h->hash = mix_whole(mix_whole(h->hash, row->number), row->outcome);
    for (int32_t i = 0; i < h->input_count; i++) {
        h->hash = mix_number(h->hash, row->inputs[i]);
    }
    for (int i = 0; i < TRIVET_LINE_COUNT; i++) {
        h->hash = mix_number(mix_whole(h->hash, row->verdicts[i]), row->used[i]);
    }
    h->hash = mix_text(mix_text(h->hash, row->reason), row->governs_check);
    h->hash = mix_text(mix_text(h->hash, row->governs_where), row->governs_case);
    h->hash = mix_number(mix_number(h->hash, row->droop), row->mass);
    h->hash = mix_number(mix_number(h->hash, row->price), row->mount_force);
    return TRIVET_OK;
}

static trivet_status mix_check(void *user, const trivet__check_row *row, trivet_message *message)
{
    (void)message;
    hashing *const h = user;
    h->hash = mix_text(mix_text(mix_whole(h->hash, row->number), row->check), row->where);
    h->hash = mix_number(mix_text(h->hash, row->in_case), row->used);
    return TRIVET_OK;
}

trivet_status trivet__store_hash(trivet__store *store, uint64_t *hash_out, trivet_message *message)
{
    if (!store || !hash_out) {
        return trivet__missing(message, !store ? "store" : "hash_out");
    }
    *hash_out = 0;
    hashing h = {mix_head(TRIVET__FNV_START, &store->head), store->head.input_count};
    h.hash = mix_whole(h.hash, store->is_finished);
    trivet_status status = trivet__store_rows(store, mix_row, &h, message);
    if (!status) {
        status = trivet__store_checks(store, mix_check, &h, message);
    }
    if (!status) {
        *hash_out = h.hash;
    }
    return status;
}
