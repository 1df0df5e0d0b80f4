/*
 * The few things that the store does with SQLite all the time, and what SQLite's results mean to
 * whoever started the sweep.
 */
#include "sweep/store_inside.h"

#include "base/memory.h"
#include "base/message.h"

#include <stdio.h>
#include <string.h>

/* Puts text at uri + at; where it ends. */
static size_t append(char *uri, size_t at, const char *text)
{
    size_t end = at;
    for (; *text; text++) {
        uri[end++] = *text;
    }
    uri[end] = '\0';
    return end;
}

/* Writes path as the path of a URI: all but letters, digits and - . _ / as %XX. */
static void write_uri(const char *path, int is_untouched, char *uri)
{
    static const char plain[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._/";
    /* A relative path gets "./", so that none of SQLite's own names (":memory:") is met. */
    size_t at = append(uri, 0, path[0] == '/' ? "file://" : "file:./");
    for (const char *c = path; *c; c++) {
        char letter[4] = {*c, '\0'};
        if (!strchr(plain, *c)) {
            snprintf(letter, sizeof letter, "%%%02X", (unsigned)(unsigned char)*c);
        }
        at = append(uri, at, letter);
    }
    append(uri, at, is_untouched ? "?immutable=1" : "");
}

int trivet__sql_open(const char *path, int flags, int is_untouched, sqlite3 **db_out)
{
    enum { ROUND_IT = 32, WAIT_MS = 100 };
    *db_out = NULL;
    char *const uri = trivet__take(3 * strlen(path) + ROUND_IT, 1);
    if (!uri) {
        return SQLITE_NOMEM;
    }
    write_uri(path, is_untouched, uri);
    int result = sqlite3_open_v2(uri, db_out, flags | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX, NULL);
    trivet__give_back(uri);
    if (result == SQLITE_OK) {
        result = sqlite3_extended_result_codes(*db_out, 1);
    }
    if (result == SQLITE_OK) {
        result = sqlite3_busy_timeout(*db_out, WAIT_MS);
    }
    /* Sorting stays in memory: nothing is written beside the store. */
    return result == SQLITE_OK ? trivet__sql_run(*db_out, "PRAGMA temp_store = MEMORY") : result;
}

int trivet__sql_run(sqlite3 *db, const char *sql)
{
    return sqlite3_exec(db, sql, NULL, NULL, NULL);
}

int trivet__sql_prepare(sqlite3 *db, const char *sql, sqlite3_stmt **statement_out)
{
    return sqlite3_prepare_v3(db, sql, -1, SQLITE_PREPARE_PERSISTENT, statement_out, NULL);
}

int trivet__sql_finish(sqlite3_stmt *statement, int result)
{
    const int ended = sqlite3_finalize(statement);
    if (result == SQLITE_DONE || result == SQLITE_ROW || result == SQLITE_OK) {
        return ended;
    }
    return result;
}

int trivet__sql_number(sqlite3 *db, const char *sql, int64_t *number_out)
{
    sqlite3_stmt *statement = NULL;
    int result = trivet__sql_prepare(db, sql, &statement);
    if (result == SQLITE_OK) {
        result = sqlite3_step(statement);
        if (result == SQLITE_ROW) {
            *number_out = sqlite3_column_int64(statement, 0);
        } else if (result == SQLITE_DONE) {
            result = SQLITE_CORRUPT;
        }
    }
    return trivet__sql_finish(statement, result);
}

int trivet__sql_bind_text(sqlite3_stmt *statement, int at, const char *text)
{
    if (!text || !text[0]) {
        return sqlite3_bind_null(statement, at);
    }
    return sqlite3_bind_text(statement, at, text, -1, SQLITE_STATIC);
}

const char *trivet__sql_text(sqlite3_stmt *statement, int column, int *failed_out)
{
    if (sqlite3_column_type(statement, column) == SQLITE_NULL) {
        return "";
    }
    const unsigned char *const text = sqlite3_column_text(statement, column);
    if (!text) {
        *failed_out = 1;
        return "";
    }
    return (const char *)text;
}

static trivet_status refuse_writing(const char *path, int result, trivet_message *message)
{
    switch (result & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return trivet__refuse(message, TRIVET_UNWRITABLE, path,
                              "another sweep is writing into this store",
                              "wait until it is done, or give this one a store of its own");
    case SQLITE_FULL:
        return trivet__refuse(message, TRIVET_UNWRITABLE, path, "the disk is full",
                              "make room and start again: the sweep goes on where it was");
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
        return trivet__refuse(message, TRIVET_UNWRITABLE, path, "this file cannot be written",
                              "choose a folder that is there and in which you may write");
    default:
        return trivet__refuse(message, TRIVET_UNWRITABLE, path, "the disk refuses to be written",
                              "look for room and for what is wrong with the disk, then start "
                              "again: the sweep goes on where it was");
    }
}

static trivet_status refuse_reading(const char *path, int result, trivet_message *message)
{
    switch (result & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return trivet__refuse(message, TRIVET_UNREADABLE, path, "another program has locked it",
                              "close that program or wait for it");
    case SQLITE_IOERR:
        return trivet__refuse(message, TRIVET_UNREADABLE, path, "the disk refuses to be read",
                              "look for what is wrong with the disk");
    default:
        return trivet__refuse(message, TRIVET_UNREADABLE, path, "this file cannot be opened",
                              "give the name of a store that a sweep has made");
    }
}

trivet_status trivet__sql_refuse(const char *path, sqlite3 *db, int result, int is_writing,
                                 trivet_message *message)
{
    switch (result & 0xFF) {
    case SQLITE_NOMEM:
        return trivet__no_memory(message);
    case SQLITE_IOERR:
        if (result == SQLITE_IOERR_NOMEM) {
            return trivet__no_memory(message);
        }
        break;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_FULL:
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
        break;
    case SQLITE_NOTADB:
        return trivet__refuse(message, TRIVET_UNREADABLE, path, "this is no store of a sweep",
                              "give another name; the file was left as it is");
    default:
        trivet__refuse(message, TRIVET_UNREADABLE, path, "", "delete it and sweep again");
        trivet__message_problem(message, "the store is damaged: %s",
                                db ? sqlite3_errmsg(db) : sqlite3_errstr(result));
        return TRIVET_UNREADABLE;
    }
    return is_writing ? refuse_writing(path, result, message)
                      : refuse_reading(path, result, message);
}

trivet_status trivet__sql_status(const trivet__store *store, int result, trivet_message *message)
{
    if (result == SQLITE_OK) {
        return TRIVET_OK;
    }
    return trivet__sql_refuse(store->path, store->db, result, store->is_writing, message);
}
