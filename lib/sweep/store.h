/*
 * The store of a sweep: one SQLite file that holds one run, the rows of its variants and, where
 * they were asked for, their checks. Tables, columns, units and views: "The store of a sweep" in
 * DEVELOPERS.md.
 *
 * Rows come in the order of their numbers and go in by batches, each a transaction. A program that
 * is killed loses the batch that it had not handed over; opened again with the same head, the store
 * says where to go on. A power cut may take the last batches as well, never the consistency.
 *
 * One thread uses a store at a time. Others may read the file while a sweep writes into it.
 */
#ifndef TRIVET_SWEEP_STORE_H
#define TRIVET_SWEEP_STORE_H

#include "base/message.h"

#include <stddef.h>
#include <stdint.h>

enum {
    TRIVET__INPUTS_MAX = 200,     /* inputs of a run */
    TRIVET__STORE_FORMAT = 1,     /* PRAGMA user_version */
    TRIVET__STORE_ID = 1416787572 /* PRAGMA application_id: "Trvt" */
};

/* Kinds of input. */
enum {
    TRIVET__INPUT_NUMBER = 0, /* a number in SI with a trivet_dimension */
    TRIVET__INPUT_CHOICE = 1  /* the number of a choice, from 0, each with a text */
};

/* What became of a variant. */
enum {
    TRIVET__SOLVED = 0,  /* solved and checked */
    TRIVET__SKIPPED = 1, /* left out by a condition */
    TRIVET__UNSOLVED = 2 /* could not be resolved or solved: see its reason */
};

/* What identifies a run. Stores of different heads are never mixed. */
typedef struct trivet__run_head {
    const char *file_text; /* the whole input, UTF-8 */
    size_t file_length;    /* bytes of it */
    const char *settings;  /* all that decides the rows beside the file, but for the part */
    const char *version;   /* TRIVET_VERSION of the library that makes the rows */
    int64_t variant_count; /* of the whole sweep, at least 1 */
    int64_t first, end;    /* the part in this store: first <= number < end */
    int32_t input_count;
    const char *const *input_names;    /* [input_count] */
    const int32_t *input_kinds;        /* [input_count] TRIVET__INPUT_... */
    const int32_t *input_dimensions;   /* [input_count] trivet_dimension; of numbers */
    const int32_t *choice_counts;      /* [input_count] 0 for a number */
    const char *const *const *choices; /* [input_count][choice_counts]; NULL for a number */
} trivet__run_head;

typedef struct trivet__variant_row {
    int64_t number;            /* of the variant, from 0 */
    const double *inputs;      /* [input_count] SI, or the number of the choice */
    const char *reason;        /* why it failed; "" otherwise, NULL counts as "" */
    int32_t outcome;           /* TRIVET__SOLVED, ... */
    int32_t verdicts[3];       /* trivet_verdict by trivet_line */
    double used[3];            /* worst utilisation by trivet_line; NaN if there is none */
    const char *governs_check; /* the worst check of all: its name, place and case; "" if none */
    const char *governs_where;
    const char *governs_case;
    double droop;       /* m, NaN if unknown, like all below */
    double mass;        /* kg */
    double price;       /* in whatever money the file speaks */
    double mount_force; /* N, the largest of any mount in any case */
} trivet__variant_row;

/* One check of one variant; in the order of variants. */
typedef struct trivet__check_row {
    int64_t number; /* of the variant */
    const char *check, *where, *in_case;
    double used; /* utilisation; NaN if unknown */
} trivet__check_row;

typedef struct trivet__store trivet__store;

/*
 * Opens the store of a run for writing: makes it, or goes on with it. Only one can write at a time.
 *
 * TRIVET_BAD_VALUE: it holds another run (the message says what differs), or the head makes no
 * sense. TRIVET_UNREADABLE: the file is no store, or damaged; it is left untouched.
 * TRIVET_UNWRITABLE: the place cannot be written, the disk is full, or another sweep is writing.
 * TRIVET_NO_MEMORY, TRIVET_MISSING_ARGUMENT.
 */
trivet_status trivet__store_open(const char *path, const trivet__run_head *head,
                                 trivet__store **store_out, trivet_message *message);

/* Opens a store for reading alone, finished or not. Statuses: as above. */
trivet_status trivet__store_read(const char *path, trivet__store **store_out,
                                 trivet_message *message);

/* Closes it; what was put is kept. NULL is ignored. */
void trivet__store_free(trivet__store *store);

/* The head as it stands in the store; owned by it. */
const trivet__run_head *trivet__store_head(const trivet__store *store);

/* The number of the variant that comes next; the head's end if all are there. */
int64_t trivet__store_next(const trivet__store *store);

int trivet__store_is_finished(const trivet__store *store);

/*
 * Puts a batch, whole or not at all: rows whose numbers go on from trivet__store_next, and checks
 * of these variants, if any are kept. After TRIVET_UNWRITABLE (the disk is full) the store stands
 * as before and the same batch may be put again. TRIVET_BAD_ORDER, TRIVET_BAD_INDEX: the rows do
 * not fit the store. TRIVET_NO_MEMORY.
 */
trivet_status trivet__store_put(trivet__store *store, const trivet__variant_row *rows,
                                int32_t row_count, const trivet__check_row *checks,
                                int32_t check_count, trivet_message *message);

/*
 * Says that all variants of the part are there, and makes the store one plain file unless somebody
 * is reading it. TRIVET_BAD_ORDER if some are missing; otherwise as trivet__store_put.
 */
trivet_status trivet__store_finish(trivet__store *store, trivet_message *message);

/* Takes one row, valid during the call; anything but TRIVET_OK ends the reading and is passed on.
 */
typedef trivet_status trivet__row_visit(void *user, const trivet__variant_row *row,
                                        trivet_message *message);
typedef trivet_status trivet__check_visit(void *user, const trivet__check_row *row,
                                          trivet_message *message);

/* All rows in order of number; the texts of a row are never NULL. */
trivet_status trivet__store_rows(trivet__store *store, trivet__row_visit *visit, void *user,
                                 trivet_message *message);

/* All checks in order of variant, then as they were put. */
trivet_status trivet__store_checks(trivet__store *store, trivet__check_visit *visit, void *user,
                                   trivet_message *message);

/* A number that depends on all that the store holds, texts, bits and order, not on its bytes. */
trivet_status trivet__store_hash(trivet__store *store, uint64_t *hash_out, trivet_message *message);

/* Takes the next length bytes of a text; anything but TRIVET_OK ends the writing and is passed on.
 */
typedef trivet_status trivet__csv_take(void *user, const char *text, size_t length,
                                       trivet_message *message);

/*
 * The rows as CSV (RFC 4180: commas, CRLF), in UTF-8: a line of names with units, then a line a
 * variant. units NULL: mm, kg, N. Numbers have 15 digits, as many as a spreadsheet keeps; what is
 * unknown is empty. Text that a spreadsheet would take for a formula begins with an apostrophe. If
 * the file has any letters beyond ASCII it begins with a byte order mark, without which
 * spreadsheets take them for something else.
 */
trivet_status trivet__store_csv(trivet__store *store, const trivet_units *units,
                                trivet__csv_take *take, void *user, trivet_message *message);

/*
 * Merges the finished stores of all parts of one run, in any order, into a store at path, which
 * then holds what one sweep over all variants would have left. Stopped on the way and called again
 * it goes on. TRIVET_BAD_VALUE: parts of different runs, parts that overlap, parts that are missing
 * or not finished; nothing is written then. Otherwise as trivet__store_open.
 */
trivet_status trivet__store_merge(const char *path, const char *const *parts, int32_t part_count,
                                  trivet_message *message);

#endif
