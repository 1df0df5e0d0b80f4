/*
 * What identifies a run: checked before it is stored, read back, compared.
 */
#include "sweep/store_inside.h"

#include "base/block.h"
#include "base/message.h"

#include <assert.h>
#include <string.h>

static trivet_status refuse_head(trivet_message *message, const char *problem)
{
    return trivet__refuse(message, TRIVET_BAD_VALUE, "the sweep", problem,
                          "vary less, or split the sweep into parts that fit");
}

static int inputs_make_sense(const trivet__run_head *head)
{
    for (int32_t i = 0; i < head->input_count; i++) {
        const int32_t kind = head->input_kinds[i];
        const int is_choice = kind == TRIVET__INPUT_CHOICE;
        if (!head->input_names[i] || (kind != TRIVET__INPUT_NUMBER && !is_choice) ||
            (is_choice ? head->choice_counts[i] < 1 || !head->choices[i]
                       : head->choice_counts[i] != 0)) {
            return 0;
        }
    }
    return 1;
}

trivet_status trivet__run_head_check(const trivet__run_head *head, trivet_message *message)
{
    if (!head->file_text || !head->settings || !head->version) {
        return trivet__missing(message, "head");
    }
    if (head->input_count < 0 || head->input_count > TRIVET__INPUTS_MAX) {
        refuse_head(message, "");
        trivet__message_problem(message, "it varies %d inputs, at most %d can be stored",
                                (int)head->input_count, (int)TRIVET__INPUTS_MAX);
        return TRIVET_BAD_VALUE;
    }
    if (head->input_count > 0 &&
        (!head->input_names || !head->input_kinds || !head->input_dimensions ||
         !head->choice_counts || !head->choices || !inputs_make_sense(head))) {
        return trivet__missing(message, "head's inputs");
    }
    if (head->variant_count < 1) {
        return refuse_head(message, "it has no variants");
    }
    if (head->first < 0 || head->end < head->first || head->end > head->variant_count) {
        refuse_head(message, "");
        trivet__message_problem(
            message, "the part from variant %lld up to %lld is none of 0 to %lld",
            (long long)head->first, (long long)head->end, (long long)head->variant_count);
        return TRIVET_BAD_VALUE;
    }
    return TRIVET_OK;
}

/* ---- Reading ---- */

/* Bytes and pieces of a head, counted before memory for it is taken. */
typedef struct head_sizes {
    size_t version, settings, file; /* bytes without a closing zero */
    size_t inputs, names;           /* inputs; bytes of their names, each with a closing zero */
    size_t choices, texts;          /* the same of choices */
} head_sizes;

/* The same pieces, to be filled. */
typedef struct head_pieces {
    char *version, *settings, *file, *names, *texts;
    const char **input_names;
    int32_t *kinds, *dimensions, *choice_counts;
    const char *const **choices;
    const char **choice_texts;
    double *row;
} head_pieces;

static void carve(trivet__carver *c, const head_sizes *z, head_pieces *p)
{
    p->version = trivet__carve(c, z->version + 1, 1);
    p->settings = trivet__carve(c, z->settings + 1, 1);
    p->file = trivet__carve(c, z->file + 1, 1);
    p->names = trivet__carve(c, z->names, 1);
    p->texts = trivet__carve(c, z->texts, 1);
    p->input_names = trivet__carve(c, z->inputs, sizeof *p->input_names);
    p->kinds = trivet__carve(c, z->inputs, sizeof *p->kinds);
    p->dimensions = trivet__carve(c, z->inputs, sizeof *p->dimensions);
    p->choice_counts = trivet__carve(c, z->inputs, sizeof *p->choice_counts);
    p->choices = trivet__carve(c, z->inputs, sizeof *p->choices);
    p->choice_texts = trivet__carve(c, z->choices, sizeof *p->choice_texts);
    p->row = trivet__carve(c, z->inputs, sizeof *p->row);
}

static int read_size(sqlite3 *db, const char *sql, size_t *size_out)
{
    int64_t number = 0;
    const int result = trivet__sql_number(db, sql, &number);
    if (result == SQLITE_OK && number < 0) {
        return SQLITE_CORRUPT;
    }
    *size_out = (size_t)number;
    return result;
}

static int read_sizes(sqlite3 *db, head_sizes *z)
{
    const struct {
        const char *sql;
        size_t *size;
    } rows[] = {
        {"SELECT length(CAST(version AS BLOB)) FROM runs", &z->version},
        {"SELECT length(CAST(settings AS BLOB)) FROM runs", &z->settings},
        {"SELECT length(CAST(file AS BLOB)) FROM runs", &z->file},
        {"SELECT count(*) FROM inputs", &z->inputs},
        {"SELECT ifnull(sum(length(CAST(name AS BLOB)) + 1), 0) FROM inputs", &z->names},
        {"SELECT count(*) FROM choices", &z->choices},
        {"SELECT ifnull(sum(length(CAST(text AS BLOB)) + 1), 0) FROM choices", &z->texts},
    };
    int result = SQLITE_OK;
    for (size_t i = 0; result == SQLITE_OK && i < sizeof rows / sizeof rows[0]; i++) {
        result = read_size(db, rows[i].sql, rows[i].size);
    }
    if (result == SQLITE_OK && z->inputs > TRIVET__INPUTS_MAX) {
        result = SQLITE_CORRUPT;
    }
    return result;
}

/* Copies column as text of exactly length bytes into place. */
static int copy_text(sqlite3_stmt *statement, int column, char *into, size_t length)
{
    const unsigned char *const text = sqlite3_column_text(statement, column);
    if (!text) {
        return sqlite3_column_type(statement, column) == SQLITE_NULL ? SQLITE_CORRUPT
                                                                     : SQLITE_NOMEM;
    }
    if ((size_t)sqlite3_column_bytes(statement, column) != length) {
        return SQLITE_CORRUPT;
    }
    memcpy(into, text, length);
    into[length] = '\0';
    return SQLITE_OK;
}

/* Copies column behind what stands in a pool of *left bytes at *at. */
static int pool_text(sqlite3_stmt *statement, int column, char **at, size_t *left)
{
    if (!sqlite3_column_text(statement, column)) {
        return sqlite3_column_type(statement, column) == SQLITE_NULL ? SQLITE_CORRUPT
                                                                     : SQLITE_NOMEM;
    }
    const size_t length = (size_t)sqlite3_column_bytes(statement, column);
    if (length >= *left) {
        return SQLITE_CORRUPT;
    }
    const int result = copy_text(statement, column, *at, length);
    *at += length + 1;
    *left -= length + 1;
    return result;
}

static int read_run(trivet__store *store, const head_sizes *z, const head_pieces *p)
{
    sqlite3_stmt *all = NULL;
    int result = trivet__sql_prepare(
        store->db, "SELECT version, settings, file, variant_count, first, end FROM runs", &all);
    if (result == SQLITE_OK) {
        result = sqlite3_step(all);
        result = result == SQLITE_ROW ? copy_text(all, 0, p->version, z->version) : result;
        result = result == SQLITE_OK ? copy_text(all, 1, p->settings, z->settings) : result;
        result = result == SQLITE_OK ? copy_text(all, 2, p->file, z->file) : result;
        if (result == SQLITE_OK) {
            store->head.variant_count = sqlite3_column_int64(all, 3);
            store->head.first = sqlite3_column_int64(all, 4);
            store->head.end = sqlite3_column_int64(all, 5);
        }
    }
    return trivet__sql_finish(all, result);
}

static int read_inputs(sqlite3 *db, const head_sizes *z, const head_pieces *p)
{
    sqlite3_stmt *all = NULL;
    char *at = p->names;
    size_t left = z->names;
    size_t count = 0;
    int result =
        trivet__sql_prepare(db, "SELECT name, kind, dimension FROM inputs ORDER BY position", &all);
    while (result == SQLITE_OK && (result = sqlite3_step(all)) == SQLITE_ROW) {
        if (count == z->inputs) {
            result = SQLITE_CORRUPT;
            break;
        }
        p->input_names[count] = at;
        p->kinds[count] = sqlite3_column_int(all, 1);
        p->dimensions[count] = sqlite3_column_int(all, 2);
        result = pool_text(all, 0, &at, &left);
        count++;
    }
    return trivet__sql_finish(all, result);
}

static int read_choices(sqlite3 *db, const head_sizes *z, const head_pieces *p)
{
    sqlite3_stmt *all = NULL;
    char *at = p->texts;
    size_t left = z->texts;
    size_t count = 0;
    int result =
        trivet__sql_prepare(db, "SELECT text, input FROM choices ORDER BY input, choice", &all);
    while (result == SQLITE_OK && (result = sqlite3_step(all)) == SQLITE_ROW) {
        const int64_t input = sqlite3_column_int64(all, 1) - 1;
        if (count == z->choices || input < 0 || input >= (int64_t)z->inputs) {
            result = SQLITE_CORRUPT;
            break;
        }
        p->choice_texts[count] = at;
        if (p->choice_counts[input]++ == 0) {
            p->choices[input] = &p->choice_texts[count];
        }
        result = pool_text(all, 0, &at, &left);
        count++;
    }
    return trivet__sql_finish(all, result);
}

static int read_progress(trivet__store *store)
{
    int64_t finished = 0;
    int result = trivet__sql_number(store->db, "SELECT finished FROM runs", &finished);
    if (result == SQLITE_OK) {
        /* The key of the last row: found without a walk through the table. */
        result = trivet__sql_number(
            store->db,
            "SELECT ifnull((SELECT max(number) + 1 FROM variants), (SELECT first FROM runs))",
            &store->next);
    }
    store->is_finished = finished != 0;
    return result;
}

static int head_is_sound(const trivet__store *store)
{
    const trivet__run_head *const head = &store->head;
    return trivet__run_head_check(head, NULL) == TRIVET_OK && store->next >= head->first &&
           store->next <= head->end && (!store->is_finished || store->next == head->end);
}

trivet_status trivet__run_head_load(trivet__store *store, trivet_message *message)
{
    head_sizes sizes = {0};
    head_pieces pieces = {0};
    int result = read_sizes(store->db, &sizes);
    if (result != SQLITE_OK) {
        return trivet__sql_status(store, result, message);
    }
    trivet__carver counted = {0};
    carve(&counted, &sizes, &pieces);
    void *const block = trivet__take_block(&counted);
    if (!block) {
        return trivet__no_memory(message);
    }
    trivet__give_back_block(store->head_block);
    store->head_block = block;
    trivet__carver handing = {block, 0, 0};
    carve(&handing, &sizes, &pieces);
    store->head = (trivet__run_head){.file_text = pieces.file,
                                     .file_length = sizes.file,
                                     .settings = pieces.settings,
                                     .version = pieces.version,
                                     .input_count = (int32_t)sizes.inputs,
                                     .input_names = pieces.input_names,
                                     .input_kinds = pieces.kinds,
                                     .input_dimensions = pieces.dimensions,
                                     .choice_counts = pieces.choice_counts,
                                     .choices = pieces.choices};
    store->inputs = pieces.row;
    result = read_run(store, &sizes, &pieces);
    result = result == SQLITE_OK ? read_inputs(store->db, &sizes, &pieces) : result;
    result = result == SQLITE_OK ? read_choices(store->db, &sizes, &pieces) : result;
    result = result == SQLITE_OK ? read_progress(store) : result;
    if (result == SQLITE_OK && !head_is_sound(store)) {
        return trivet__refuse(message, TRIVET_UNREADABLE, store->path,
                              "the store is damaged: its numbers of variants do not fit together",
                              "delete it and sweep again");
    }
    return trivet__sql_status(store, result, message);
}

/* ---- Comparing ---- */

static int same_choices(const trivet__run_head *one, const trivet__run_head *other, int32_t input)
{
    for (int32_t k = 0; k < one->choice_counts[input]; k++) {
        if (strcmp(one->choices[input][k], other->choices[input][k]) != 0) {
            return 0;
        }
    }
    return 1;
}

static int same_inputs(const trivet__run_head *one, const trivet__run_head *other)
{
    if (one->input_count != other->input_count) {
        return 0;
    }
    for (int32_t i = 0; i < one->input_count; i++) {
        if (strcmp(one->input_names[i], other->input_names[i]) != 0 ||
            one->input_kinds[i] != other->input_kinds[i] ||
            one->input_dimensions[i] != other->input_dimensions[i] ||
            one->choice_counts[i] != other->choice_counts[i] || !same_choices(one, other, i)) {
            return 0;
        }
    }
    return 1;
}

trivet__run_head_difference trivet__run_head_compare(const trivet__run_head *one,
                                                     const trivet__run_head *other)
{
    if (strcmp(one->version, other->version) != 0) {
        return TRIVET__OTHER_VERSION;
    }
    if (one->file_length != other->file_length ||
        memcmp(one->file_text, other->file_text, one->file_length) != 0) {
        return TRIVET__OTHER_FILE;
    }
    if (strcmp(one->settings, other->settings) != 0) {
        return TRIVET__OTHER_SETTINGS;
    }
    if (one->variant_count != other->variant_count || !same_inputs(one, other)) {
        return TRIVET__OTHER_INPUTS;
    }
    return one->first == other->first && one->end == other->end ? TRIVET__SAME_HEAD
                                                                : TRIVET__OTHER_PART;
}

trivet_status trivet__run_head_refuse_other(const trivet__store *store,
                                            const trivet__run_head *wanted, trivet_message *message)
{
    const trivet__run_head *const held = &store->head;
    const trivet__run_head_difference difference = trivet__run_head_compare(held, wanted);
    if (difference == TRIVET__SAME_HEAD) {
        return TRIVET_OK;
    }
    trivet__refuse(message, TRIVET_BAD_VALUE, store->path, "",
                   "give another name for the store, or delete this one to sweep anew");
    switch (difference) {
    case TRIVET__OTHER_VERSION:
        trivet__message_problem(message, "this store was made by version %s, this is version %s",
                                held->version, wanted->version);
        break;
    case TRIVET__OTHER_FILE:
        trivet__message_problem(
            message, "this store was made from another input file, or the file has been changed");
        break;
    case TRIVET__OTHER_SETTINGS:
        trivet__message_problem(message, "this store was made with other settings: %s; wanted: %s",
                                held->settings, wanted->settings);
        break;
    case TRIVET__OTHER_INPUTS:
        trivet__message_problem(message,
                                "this store is of another sweep: %d inputs, %lld variants; "
                                "wanted: %d inputs, %lld variants",
                                (int)held->input_count, (long long)held->variant_count,
                                (int)wanted->input_count, (long long)wanted->variant_count);
        break;
    case TRIVET__OTHER_PART:
        trivet__message_problem(message,
                                "this store is of the part from variant %lld up to %lld; wanted "
                                "is %lld up to %lld",
                                (long long)held->first, (long long)held->end,
                                (long long)wanted->first, (long long)wanted->end);
        break;
    case TRIVET__SAME_HEAD:
    default:
        assert(0);
        return TRIVET_INTERNAL;
    }
    return TRIVET_BAD_VALUE;
}
