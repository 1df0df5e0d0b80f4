/*
 * A store from opening to closing. A file is looked at without touching it first: only an empty
 * one becomes a store, only a store is written.
 *
 * While a sweep runs, its store always has a transaction for writing open: that is the lock which
 * keeps a second sweep out, which readers do not feel, and which ends with the process however it
 * ends. Between two batches it is free for some microseconds; whoever takes it then is noticed,
 * because the rows no longer end where they did.
 */
#include "sweep/store_inside.h"

#include "base/block.h"
#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"

#include <assert.h>
#include <string.h>

/* ---- Looking at a file ---- */

typedef enum file_kind { NO_FILE = 0, EMPTY_FILE = 1, STORE_FILE = 2, OTHER_FILE = 3 } file_kind;

/* From the first bytes of a file; in a database the magic words and, at byte 68, whose it is. */
static int kind_from_start(sqlite3_file *file, file_kind *kind_out)
{
    enum { START = 100, ID_AT = 68 };
    static const char magic[16] = "SQLite format 3";
    unsigned char start[START] = {0};
    int result = file->pMethods->xRead(file, start, 1, 0);
    if (result == SQLITE_IOERR_SHORT_READ) {
        *kind_out = EMPTY_FILE;
        return SQLITE_OK;
    }
    if (result == SQLITE_OK) {
        result = file->pMethods->xRead(file, start, START, 0);
    }
    const uint32_t id = (uint32_t)start[ID_AT] << 24U | (uint32_t)start[ID_AT + 1] << 16U |
                        (uint32_t)start[ID_AT + 2] << 8U | (uint32_t)start[ID_AT + 3];
    if (result == SQLITE_OK && memcmp(start, magic, sizeof magic) == 0 && id == TRIVET__STORE_ID) {
        *kind_out = STORE_FILE;
    }
    return result == SQLITE_IOERR_SHORT_READ ? SQLITE_OK : result;
}

/*
 * What stands at path, from its first bytes. SQL is not asked: a store that lacks what is still in
 * its log looks damaged without it, and with it SQLite may write.
 */
static int look_at(const char *path, file_kind *kind_out)
{
    sqlite3 *db = NULL;
    sqlite3_file *file = NULL;
    *kind_out = OTHER_FILE;
    int result = trivet__sql_open(path, SQLITE_OPEN_READONLY, 1, &db);
    if (result == SQLITE_OK) {
        result = sqlite3_file_control(db, "main", SQLITE_FCNTL_FILE_POINTER, (void *)&file);
    }
    if (result == SQLITE_OK) {
        result = file && file->pMethods ? kind_from_start(file, kind_out) : SQLITE_CANTOPEN;
    } else if ((result & 0xFF) == SQLITE_CANTOPEN) {
        *kind_out = NO_FILE;
        result = SQLITE_OK;
    }
    sqlite3_close(db);
    if ((result & 0xFF) == SQLITE_IOERR && result != SQLITE_IOERR_NOMEM) {
        return SQLITE_CANTOPEN; /* a folder opens, but cannot be read */
    }
    return result;
}

static trivet_status refuse_format(const trivet__store *store, int64_t format,
                                   trivet_message *message)
{
    trivet__refuse(message, TRIVET_UNREADABLE, store->path, "",
                   "read it with the version that made it");
    trivet__message_problem(message, "this store has format %lld, this version knows %d",
                            (long long)format, (int)TRIVET__STORE_FORMAT);
    return TRIVET_UNREADABLE;
}

static trivet_status check_format(const trivet__store *store, trivet_message *message)
{
    int64_t format = 0;
    const int result = trivet__sql_number(store->db, "PRAGMA user_version", &format);
    if (result == SQLITE_OK && format != TRIVET__STORE_FORMAT) {
        return refuse_format(store, format, message);
    }
    return trivet__sql_status(store, result, message);
}

/* ---- Opening ---- */

static const char count_tables[] = "SELECT count(*) FROM sqlite_master";

/* Makes the tables, all in one transaction, unless they have been made meanwhile. */
static int make_store(trivet__store *store, const trivet__run_head *head)
{
    int64_t tables = 0;
    int result = trivet__sql_run(store->db, "PRAGMA page_size = 4096; PRAGMA auto_vacuum = NONE;"
                                            " PRAGMA encoding = 'UTF-8'; BEGIN IMMEDIATE");
    if (result == SQLITE_OK) {
        result = trivet__sql_number(store->db, count_tables, &tables);
    }
    if (result == SQLITE_OK && tables == 0) {
        result = trivet__schema_make(store->db, head);
    }
    if (result == SQLITE_OK) {
        result = trivet__sql_run(store->db, "COMMIT");
    }
    if (result != SQLITE_OK) {
        sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL);
    }
    return result;
}

/* Told by SQLite after each batch how long its log is. */
static int note_log(void *user, sqlite3 *db, const char *name, int pages)
{
    (void)db;
    (void)name;
    ((trivet__store *)user)->log_pages = pages;
    return SQLITE_OK;
}

/*
 * A log beside the file makes batches cheap. With it, NORMAL syncs the disk only when the log goes
 * into the store: a power cut may take the last batches. Where a file system cannot have it,
 * nothing less than FULL keeps the store whole.
 */
static int choose_log(trivet__store *store)
{
    sqlite3_stmt *mode = NULL;
    int is_log = 0;
    int result = trivet__sql_prepare(store->db, "PRAGMA journal_mode = WAL", &mode);
    if (result == SQLITE_OK) {
        result = sqlite3_step(mode);
        if (result == SQLITE_ROW) {
            is_log = sqlite3_stricmp((const char *)sqlite3_column_text(mode, 0), "wal") == 0;
        }
    }
    result = trivet__sql_finish(mode, result);
    if (result == SQLITE_OK) {
        sqlite3_wal_hook(store->db, note_log, store);
        result = trivet__sql_run(store->db, is_log ? "PRAGMA synchronous = NORMAL"
                                                   : "PRAGMA synchronous = FULL");
    }
    return result;
}

/* Back to one plain file, which needs the store to itself: not if somebody is reading. */
static int drop_log(trivet__store *store)
{
    const int result = trivet__sql_run(store->db, "PRAGMA journal_mode = DELETE");
    const int kind = result & 0xFF;
    return kind == SQLITE_BUSY || kind == SQLITE_LOCKED ? SQLITE_OK : result;
}

static int prepare_adding(trivet__store *store)
{
    sqlite3_str *const sql = sqlite3_str_new(store->db);
    sqlite3_str_appendall(sql, "INSERT INTO variants VALUES(?1");
    for (int i = 2; i <= TRIVET__COLUMN_INPUTS + (int)store->head.input_count; i++) {
        sqlite3_str_appendf(sql, ", ?%d", i);
    }
    sqlite3_str_appendall(sql, ")");
    int result = sqlite3_str_errcode(sql);
    char *const text = sqlite3_str_finish(sql);
    if (result == SQLITE_OK) {
        result = trivet__sql_prepare(store->db, text, &store->add_variant);
    }
    sqlite3_free(text);
    if (result == SQLITE_OK) {
        result = trivet__sql_prepare(store->db, "INSERT INTO checks VALUES(?1, ?2, ?3, ?4, ?5, ?6)",
                                     &store->add_check);
    }
    if (result == SQLITE_OK) {
        result = trivet__sql_prepare(store->db, "SELECT id FROM texts WHERE text = ?1",
                                     &store->find_text);
    }
    if (result == SQLITE_OK) {
        result =
            trivet__sql_prepare(store->db, "INSERT INTO texts(text) VALUES(?1)", &store->add_text);
    }
    return result;
}

trivet_status trivet__store_hold(trivet__store *store, trivet_message *message)
{
    if (store->is_held) {
        return TRIVET_OK;
    }
    int64_t next = 0;
    int result = trivet__sql_run(store->db, "BEGIN IMMEDIATE");
    if (result == SQLITE_OK) {
        result = trivet__sql_number(
            store->db,
            "SELECT ifnull((SELECT max(number) + 1 FROM variants), (SELECT first FROM runs))",
            &next);
        if (result == SQLITE_OK && next == store->next) {
            store->is_held = 1;
            return TRIVET_OK;
        }
        sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL);
    }
    if (result == SQLITE_OK) {
        return trivet__refuse(message, TRIVET_UNWRITABLE, store->path,
                              "another sweep has gone on with this store meanwhile",
                              "start again: the sweep goes on where that one was");
    }
    return trivet__sql_status(store, result, message);
}

/* Opens the file and makes sure that it holds the run of head. */
static trivet_status open_file(trivet__store *store, const char *path, const trivet__run_head *head,
                               file_kind kind, trivet_message *message)
{
    int result = trivet__sql_open(path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, 0, &store->db);
    if (result == SQLITE_OK && sqlite3_db_readonly(store->db, "main") == 1) {
        result = SQLITE_READONLY;
    }
    int64_t tables = 0;
    if (result == SQLITE_OK && kind == STORE_FILE) {
        /* Making it may have been stopped half-way: then it is empty once it has been mended. */
        result = trivet__sql_number(store->db, count_tables, &tables);
    }
    if (result == SQLITE_OK && tables == 0) {
        result = make_store(store, head);
    }
    trivet_status status = trivet__sql_status(store, result, message);
    if (!status) {
        status = check_format(store, message);
    }
    if (!status) {
        status = trivet__run_head_load(store, message);
    }
    return status ? status : trivet__run_head_refuse_other(store, head, message);
}

/* Ready for the first batch. */
static trivet_status begin_writing(trivet__store *store, trivet_message *message)
{
    enum { WAIT_MS = 2000 };
    if (store->is_finished) {
        return trivet__sql_status(store, drop_log(store), message);
    }
    trivet_status status = trivet__sql_status(store, choose_log(store), message);
    if (!status) {
        status = trivet__store_hold(store, message);
    }
    if (!status) {
        status = trivet__sql_status(store, prepare_adding(store), message);
    }
    if (!status) {
        status = trivet__sql_status(store, sqlite3_busy_timeout(store->db, WAIT_MS), message);
    }
    return status;
}

static trivet__store *take_store(const char *path, int is_writing)
{
    trivet__store *const store = trivet__take(1, sizeof *store);
    if (store) {
        trivet__text_copy(store->path, sizeof store->path, path);
        store->is_writing = is_writing;
    }
    return store;
}

static trivet_status look_first(trivet__store *store, const char *path, file_kind *kind_out,
                                trivet_message *message)
{
    if (!path[0]) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "the store", "its file has no name",
                              "give the name of a file");
    }
    const int result = look_at(path, kind_out);
    if (result == SQLITE_OK && *kind_out == OTHER_FILE) {
        return trivet__sql_refuse(store->path, NULL, SQLITE_NOTADB, 0, message);
    }
    return trivet__sql_status(store, result, message);
}

trivet_status trivet__store_open(const char *path, const trivet__run_head *head,
                                 trivet__store **store_out, trivet_message *message)
{
    if (!path || !head || !store_out) {
        return trivet__missing(message, !path ? "path" : !head ? "head" : "store_out");
    }
    *store_out = NULL;
    trivet_status status = trivet__run_head_check(head, message);
    if (status) {
        return status;
    }
    trivet__store *const store = take_store(path, 1);
    if (!store) {
        return trivet__no_memory(message);
    }
    file_kind kind = NO_FILE;
    status = look_first(store, path, &kind, message);
    if (!status) {
        status = open_file(store, path, head, kind, message);
    }
    if (!status) {
        status = begin_writing(store, message);
    }
    if (status) {
        trivet__store_free(store);
        return status;
    }
    *store_out = store;
    return TRIVET_OK;
}

trivet_status trivet__store_read(const char *path, trivet__store **store_out,
                                 trivet_message *message)
{
    if (!path || !store_out) {
        return trivet__missing(message, !path ? "path" : "store_out");
    }
    *store_out = NULL;
    trivet__store *const store = take_store(path, 0);
    if (!store) {
        return trivet__no_memory(message);
    }
    file_kind kind = NO_FILE;
    trivet_status status = look_first(store, path, &kind, message);
    if (!status) {
        const int result = kind == EMPTY_FILE
                               ? SQLITE_NOTADB
                               : trivet__sql_open(path, SQLITE_OPEN_READONLY, 0, &store->db);
        status = result == SQLITE_NOTADB ? trivet__sql_refuse(store->path, NULL, result, 0, message)
                                         : trivet__sql_status(store, result, message);
    }
    if (!status) {
        status = check_format(store, message);
    }
    if (!status) {
        status = trivet__run_head_load(store, message);
    }
    if (status) {
        trivet__store_free(store);
        return status;
    }
    *store_out = store;
    return TRIVET_OK;
}

/* ---- Holding and closing ---- */

trivet_status trivet__store_finish(trivet__store *store, trivet_message *message)
{
    if (!store) {
        return trivet__missing(message, "store");
    }
    if (!store->is_writing || store->next != store->head.end) {
        trivet__refuse(message, TRIVET_BAD_ORDER, store->path, "", "put the rest before finishing");
        trivet__message_problem(message, "%lld variants are still missing",
                                (long long)(store->head.end - store->next));
        return TRIVET_BAD_ORDER;
    }
    if (!store->is_finished) {
        const trivet_status status = trivet__store_hold(store, message);
        if (status) {
            return status;
        }
        int64_t count = 0;
        int result = trivet__sql_number(store->db, "SELECT count(*) FROM variants", &count);
        if (result == SQLITE_OK && count != store->head.end - store->head.first) {
            result = SQLITE_CORRUPT;
        }
        if (result == SQLITE_OK) {
            result = trivet__sql_run(store->db, "UPDATE runs SET finished = 1; COMMIT");
        }
        if (result != SQLITE_OK) {
            const trivet_status refused = trivet__sql_status(store, result, message);
            trivet__batch_drop(store);
            return refused;
        }
        store->is_held = 0;
        store->is_finished = 1;
    }
    return trivet__sql_status(store, drop_log(store), message);
}

void trivet__store_free(trivet__store *store)
{
    if (!store) {
        return;
    }
    sqlite3_finalize(store->add_variant);
    sqlite3_finalize(store->add_check);
    sqlite3_finalize(store->find_text);
    sqlite3_finalize(store->add_text);
    const int result = sqlite3_close(store->db);
    assert(result == SQLITE_OK);
    (void)result;
    trivet__give_back_block(store->head_block);
    trivet__give_back(store);
}

const trivet__run_head *trivet__store_head(const trivet__store *store)
{
    return store ? &store->head : NULL;
}

int64_t trivet__store_next(const trivet__store *store)
{
    return store ? store->next : 0;
}

int trivet__store_is_finished(const trivet__store *store)
{
    return store && store->is_finished;
}
