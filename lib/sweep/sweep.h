/*
 * A sweep, and the bench at which one worker makes variants.
 */
#ifndef TRIVET_SWEEP_SWEEP_H
#define TRIVET_SWEEP_SWEEP_H

#include "document/kept.h"
#include "sweep/vary.h"
#include "trivet/sweep.h"

struct trivet_sweep {
    char *text; /* of the file */
    size_t length;
    trivet__tree tree;
    trivet_document *document; /* the file as it stands */
    trivet__compiled compiled;
    trivet__vary vary;
    trivet_plan *plan; /* of the file as it stands; NULL if it cannot be planned */
};

/* Values of one variant as overrides, with room for the most that there can be. */
typedef struct trivet__filled {
    trivet__overrides all;
    trivet__let_override lets[TRIVET__COLUMNS_MAX];
    trivet__stock_override stocks[TRIVET__OF_MAX * TRIVET__COLUMNS_MAX];
    trivet__factor_override cargos[TRIVET__COLUMNS_MAX];
    trivet__factor_override cases[TRIVET__COLUMNS_MAX];
} trivet__filled;

void trivet__fill_overrides(const trivet__vary *vary, const double *inputs, trivet__filled *to);

/* What one thread needs. Zero it, use it, clear it. */
typedef struct trivet__bench {
    const trivet_sweep *sweep;
    const trivet_plan *plan; /* that workspace and result are made for */
    trivet_plan *own_plan;   /* for variants of another topology; or NULL */
    trivet_workspace *workspace;
    trivet_result *result;
    trivet_checks *checks;
    trivet_document *documents[2]; /* filled by turns: the checks may hold texts of the last */
    int32_t turn;
    trivet_document *document; /* that of the variant at hand; NULL: it could not be made */
    int32_t wants_kinds;       /* all checks are wanted, not only the worst */
    double inputs[TRIVET__COLUMNS_MAX];
    trivet__filled values;
    trivet_message message;
} trivet__bench;

void trivet__bench_clear(trivet__bench *bench);

/*
 * Works out a variant. TRIVET_OK even if it fails: the row says so. Other statuses are those of the
 * machine. The bench keeps document, result and checks of the variant.
 */
trivet_status trivet__bench_make(trivet__bench *bench, int64_t number, trivet_variant *row_out);

/* The document of a variant with its values in place; also TRIVET_INTERRUPTED: it is skipped. */
trivet_status trivet__bench_resolve(trivet__bench *bench, int64_t number);

/* The worst check of one kind. */
typedef struct trivet__kind_row {
    char check[32];
    char where[TRIVET_NAME_MAX];
    char in_case[TRIVET_NAME_MAX];
    double used;
} trivet__kind_row;

enum { TRIVET__KINDS_MAX = 64 };

/* The worst of each kind of check of the variant at hand, [at most TRIVET__KINDS_MAX]. */
int32_t trivet__bench_kinds(const trivet__bench *bench, trivet__kind_row *rows_out);

/* What a crew hands on, in order of number. kinds is NULL unless they were asked for. */
typedef struct trivet__answer {
    const trivet_variant *variant;
    const double *inputs;
    const trivet__kind_row *kinds; /* [kind_count] */
    int32_t kind_count;
} trivet__answer;

/* Return other than TRIVET_OK to stop with that status; the message is then theirs. */
typedef trivet_status trivet__answer_taker(void *user, const trivet__answer *answer,
                                           trivet_message *message);

/* What a crew works out. */
typedef struct trivet__order {
    const int64_t *numbers; /* [count] of variants; NULL: first, first + 1, ... */
    int64_t first;
    int64_t count;
    int32_t workers;
    int32_t wants_kinds;
    int32_t is_weighed_only; /* mass and price alone: nothing is solved */
} trivet__order;

/* Hands on answers in the order of the numbers. message is never NULL. */
trivet_status trivet__crew_run(const trivet_sweep *sweep, const trivet__order *order,
                               trivet__answer_taker *taker, void *user, trivet_message *message);

/* Mass and price of a variant, or why it is ruled out; as trivet__bench_make. */
trivet_status trivet__bench_weigh(trivet__bench *bench, int64_t number, trivet_variant *row_out);

/* amounts.c: money and metres. Price of all tubes and inserts, NaN if one has none. */
double trivet__price_of(const trivet_document *document);
/* Why the shop has not enough of some stock; 0 and no text if it has. */
int trivet__shop_lacks(const trivet_document *document, const trivet__overrides *overrides,
                       char *reason, size_t size);

#endif
