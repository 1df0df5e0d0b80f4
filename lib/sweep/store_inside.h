/*
 * The inside of a store, for the files store*.c alone.
 */
#ifndef TRIVET_SWEEP_STORE_INSIDE_H
#define TRIVET_SWEEP_STORE_INSIDE_H

#include "sweep/store.h"

#include <sqlite3.h>

enum {
    TRIVET__KEPT_TEXTS = 256, /* places for texts whose number is known */
    TRIVET__KEPT_LENGTH = 112 /* bytes of the longest, with the closing zero */
};

/* A text and its number in the table of texts; 0 if the place is empty. */
typedef struct trivet__kept_text {
    int64_t id;
    char text[TRIVET__KEPT_LENGTH];
} trivet__kept_text;

/* Columns of table variants before the inputs, in this order. */
enum {
    TRIVET__COLUMN_NUMBER = 0,
    TRIVET__COLUMN_OUTCOME = 1,
    TRIVET__COLUMN_REASON = 2,
    TRIVET__COLUMN_VERDICTS = 3,
    TRIVET__COLUMN_USED = 6,
    TRIVET__COLUMN_GOVERNS = 9,
    TRIVET__COLUMN_DROOP = 12,
    TRIVET__COLUMN_MASS = 13,
    TRIVET__COLUMN_PRICE = 14,
    TRIVET__COLUMN_MOUNT_FORCE = 15,
    TRIVET__COLUMN_INPUTS = 16
};

struct trivet__store {
    sqlite3 *db;
    sqlite3_stmt *add_variant, *add_check, *find_text, *add_text;
    trivet__run_head head; /* as the file has it; in head_block */
    void *head_block;
    double *inputs; /* [input_count] of the row that is being read; in head_block */
    int64_t next;
    int is_finished;
    int is_writing;
    int is_held;   /* a transaction for writing is open, so that nobody else can have one */
    int log_pages; /* pages in the write-ahead log after the last batch */
    char path[TRIVET_THING_MAX];
    trivet__kept_text kept[TRIVET__KEPT_TEXTS];
};

/* ---- store_sql.c: SQLite's numbers for success and failure, and what they mean to people ---- */

/* Opens path whatever letters it has; flags are SQLite's. is_untouched: reads the bytes of the file
 * as they are, takes no locks and makes no files beside it. *db_out must be closed in any case. */
int trivet__sql_open(const char *path, int flags, int is_untouched, sqlite3 **db_out);

/* All statements in sql, rows thrown away. */
int trivet__sql_run(sqlite3 *db, const char *sql);

int trivet__sql_prepare(sqlite3 *db, const char *sql, sqlite3_stmt **statement_out);

/* The only number of the first row. */
int trivet__sql_number(sqlite3 *db, const char *sql, int64_t *number_out);

/* A text, which must outlive the statement's next step; NULL and "" as NULL. */
int trivet__sql_bind_text(sqlite3_stmt *statement, int at, const char *text);

/* Column as text, never NULL; *failed_out becomes 1 if there was no memory for it. */
const char *trivet__sql_text(sqlite3_stmt *statement, int column, int *failed_out);

/* Ends a statement that was stepped until SQLITE_DONE or a failure; SQLITE_OK if it was done. */
int trivet__sql_finish(sqlite3_stmt *statement, int result);

/* The status and message for a result that is not SQLITE_OK. db may be NULL. */
trivet_status trivet__sql_refuse(const char *path, sqlite3 *db, int result, int is_writing,
                                 trivet_message *message);

/* The same of a store; TRIVET_OK if result is SQLITE_OK. */
trivet_status trivet__sql_status(const trivet__store *store, int result, trivet_message *message);

/* ---- store_schema.c ---- */

/* Tables, views and the head, in the transaction that is open. */
int trivet__schema_make(sqlite3 *db, const trivet__run_head *head);

/* ---- store_head.c ---- */

/* Whether a head makes sense. */
trivet_status trivet__run_head_check(const trivet__run_head *head, trivet_message *message);

/* Reads the head, whether the run is finished, and how far it is. */
trivet_status trivet__run_head_load(trivet__store *store, trivet_message *message);

/* What differs between the runs of two heads. */
typedef enum trivet__run_head_difference {
    TRIVET__SAME_HEAD = 0,
    TRIVET__OTHER_VERSION = 1,
    TRIVET__OTHER_FILE = 2,
    TRIVET__OTHER_SETTINGS = 3,
    TRIVET__OTHER_INPUTS = 4, /* or number of variants */
    TRIVET__OTHER_PART = 5
} trivet__run_head_difference;

trivet__run_head_difference trivet__run_head_compare(const trivet__run_head *one,
                                                     const trivet__run_head *other);

/* TRIVET_OK if the store holds the run of wanted, else a message that says what differs. */
trivet_status trivet__run_head_refuse_other(const trivet__store *store,
                                            const trivet__run_head *wanted,
                                            trivet_message *message);

/* ---- store.c ---- */

/* Begins a transaction for writing, unless one is open, and sees that nobody else has written. */
trivet_status trivet__store_hold(trivet__store *store, trivet_message *message);

/* ---- store_put.c ---- */

/* Rows of a batch one by one; then either keeps them all or drops them all. */
trivet_status trivet__batch_row(trivet__store *store, const trivet__variant_row *row,
                                int64_t number, trivet_message *message);
trivet_status trivet__batch_check(trivet__store *store, const trivet__check_row *row, int64_t place,
                                  trivet_message *message);
trivet_status trivet__batch_keep(trivet__store *store, int64_t next, trivet_message *message);
void trivet__batch_drop(trivet__store *store);

/* ---- store_rows.c ---- */

/* A statement over all rows (or checks) in order, and the row at which it stands. */
int trivet__rows_prepare(trivet__store *store, sqlite3_stmt **statement_out);
int trivet__row_take(trivet__store *store, sqlite3_stmt *statement, trivet__variant_row *row_out);
int trivet__checks_prepare(trivet__store *store, sqlite3_stmt **statement_out);
int trivet__check_take(sqlite3_stmt *statement, trivet__check_row *row_out);

#endif
