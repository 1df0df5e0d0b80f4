/*
 * A sweep into its store.
 */
#include "sweep/store.h"
#include "sweep/sweep.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "base/text.h"

#include <string.h>

enum { BATCH = 512 };

/* Texts and lists that a head points to. */
typedef struct heading {
    trivet__run_head head;
    char *text;
    const char *names[TRIVET__COLUMNS_MAX];
    int32_t kinds[TRIVET__COLUMNS_MAX];
    int32_t dimensions[TRIVET__COLUMNS_MAX];
    int32_t choice_counts[TRIVET__COLUMNS_MAX];
    const char **choices[TRIVET__COLUMNS_MAX];
    const char *const *choice_lists[TRIVET__COLUMNS_MAX];
} heading;

/* Rows that wait for their batch. */
typedef struct storing {
    trivet__store *store;
    int32_t count;
    int32_t check_count;
    int32_t column_count;
    trivet_variant *variants;  /* [BATCH] */
    double *inputs;            /* [BATCH][column_count] */
    trivet__variant_row *rows; /* [BATCH] */
    trivet__kind_row *kinds;   /* [BATCH][TRIVET__KINDS_MAX], or NULL */
    trivet__check_row *checks; /* [BATCH * TRIVET__KINDS_MAX], or NULL */
    trivet_sweep_progress *progress;
    void *user;
    int64_t done;
    int64_t total;
} storing;

trivet_status trivet_sweep_settings_defaults(trivet_sweep_settings *settings, size_t size)
{
    const trivet_status status = trivet__defaults(settings, size, sizeof *settings);
    if (status == TRIVET_OK) {
        settings->part = 1;
        settings->parts = 1;
        settings->workers = 1;
    }
    return status;
}

/* ---- the head ---- */

/* The file and its catalogues one after the other: all that decides the variants. */
static int join_texts(const trivet_sweep *sweep, heading *h)
{
    size_t length = sweep->length;
    for (int32_t c = 0; c < sweep->vary.column_count; c++) {
        length += sweep->vary.columns[c].catalogue_length;
    }
    h->text = trivet__take(length + 1, 1);
    if (!h->text) {
        return 0;
    }
    memcpy(h->text, sweep->text, sweep->length);
    size_t at = sweep->length;
    for (int32_t c = 0; c < sweep->vary.column_count; c++) {
        const trivet__column *const column = &sweep->vary.columns[c];
        if (column->catalogue) {
            memcpy(h->text + at, column->catalogue, column->catalogue_length);
        }
        at += column->catalogue_length;
    }
    h->head.file_text = h->text;
    h->head.file_length = length;
    return 1;
}

static int fill_column(const trivet_sweep *sweep, int32_t c, heading *h)
{
    const trivet__column *const column = &sweep->vary.columns[c];
    const int is_choice = column->kind == TRIVET__COLUMN_STOCK;
    h->names[c] = trivet_sweep_input(sweep, c, &h->dimensions[c]);
    h->kinds[c] = is_choice ? TRIVET__INPUT_CHOICE : TRIVET__INPUT_NUMBER;
    h->dimensions[c] = h->dimensions[c] < 0 ? TRIVET_NUMBER : h->dimensions[c];
    if (!is_choice) {
        return 1;
    }
    h->choices[c] = trivet__take((size_t)column->choice_count, sizeof *h->choices[c]);
    for (int32_t i = 0; h->choices[c] && i < column->choice_count; i++) {
        h->choices[c][i] = column->choices[i].name;
    }
    h->choice_counts[c] = column->choice_count;
    h->choice_lists[c] = h->choices[c];
    return h->choices[c] != NULL;
}

static int fill_head(const trivet_sweep *sweep, const trivet_sweep_settings *settings, heading *h)
{
    const int64_t count = sweep->vary.count;
    const int64_t share = count / settings->parts;
    const int64_t more = count % settings->parts; /* parts that have one more */
    const int64_t before = settings->part - 1;
    h->head = (trivet__run_head){
        .settings = settings->checks ? "with checks" : "",
        .version = TRIVET_VERSION,
        .variant_count = count,
        .first = before * share + (before < more ? before : more),
        .input_count = sweep->vary.column_count,
        .input_names = h->names,
        .input_kinds = h->kinds,
        .input_dimensions = h->dimensions,
        .choice_counts = h->choice_counts,
        .choices = h->choice_lists,
    };
    h->head.end = h->head.first + share + (before < more);
    int is_complete = join_texts(sweep, h);
    for (int32_t c = 0; c < sweep->vary.column_count && is_complete; c++) {
        is_complete = fill_column(sweep, c, h);
    }
    return is_complete;
}

static void clear_head(heading *h)
{
    for (int32_t c = 0; c < TRIVET__COLUMNS_MAX; c++) {
        trivet__give_back(h->choices[c]);
    }
    trivet__give_back(h->text);
    trivet__give_back(h);
}

/* ---- rows ---- */

static int take_room(storing *s, int32_t columns, int wants_checks)
{
    s->column_count = columns;
    s->variants = trivet__take(BATCH, sizeof *s->variants);
    s->inputs = trivet__take((size_t)BATCH * (size_t)columns, sizeof *s->inputs);
    s->rows = trivet__take(BATCH, sizeof *s->rows);
    if (wants_checks) {
        s->kinds = trivet__take((size_t)BATCH * TRIVET__KINDS_MAX, sizeof *s->kinds);
        s->checks = trivet__take((size_t)BATCH * TRIVET__KINDS_MAX, sizeof *s->checks);
    }
    return s->variants && s->inputs && s->rows && (!wants_checks || (s->kinds && s->checks));
}

static void give_back_room(storing *s)
{
    trivet__give_back(s->variants);
    trivet__give_back(s->inputs);
    trivet__give_back(s->rows);
    trivet__give_back(s->kinds);
    trivet__give_back(s->checks);
    trivet__store_free(s->store);
}

static trivet_status flush(storing *s, trivet_message *message)
{
    const trivet_status status =
        trivet__store_put(s->store, s->rows, s->count, s->checks, s->check_count, message);
    s->count = 0;
    s->check_count = 0;
    return status;
}

static void keep_kinds(storing *s, const trivet__answer *answer)
{
    for (int32_t i = 0; s->kinds && i < answer->kind_count; i++) {
        trivet__kind_row *const kind = &s->kinds[s->check_count];
        *kind = answer->kinds[i];
        s->checks[s->check_count++] = (trivet__check_row){answer->variant->number, kind->check,
                                                          kind->where, kind->in_case, kind->used};
    }
}

static void keep_row(storing *s, const trivet__answer *answer)
{
    trivet_variant *const variant = &s->variants[s->count];
    double *const inputs = s->inputs + (ptrdiff_t)s->count * s->column_count;
    trivet__variant_row *const row = &s->rows[s->count++];
    *variant = *answer->variant;
    memcpy(inputs, answer->inputs, (size_t)s->column_count * sizeof *inputs);
    *row = (trivet__variant_row){.number = variant->number,
                                 .inputs = inputs,
                                 .outcome = variant->outcome,
                                 .reason = variant->reason,
                                 .governs_check = variant->check,
                                 .governs_where = variant->where,
                                 .governs_case = variant->in_case,
                                 .droop = variant->droop,
                                 .mass = variant->mass,
                                 .price = variant->price,
                                 .mount_force = variant->mount_force};
    memcpy(row->verdicts, variant->verdicts, sizeof row->verdicts);
    memcpy(row->used, variant->used, sizeof row->used);
    keep_kinds(s, answer);
}

static trivet_status store_answer(void *user, const trivet__answer *answer, trivet_message *message)
{
    storing *const s = user;
    keep_row(s, answer);
    trivet_status status = s->count == BATCH ? flush(s, message) : TRIVET_OK;
    s->done++;
    if (status == TRIVET_OK && s->progress && s->progress(s->user, s->done, s->total) != 0) {
        status = flush(s, message);
        return status != TRIVET_OK ? status
                                   : trivet__refuse(message, TRIVET_INTERRUPTED, "sweep",
                                                    "was stopped before its end",
                                                    "start it again with the same store to go on");
    }
    return status;
}

static trivet_status run_into(storing *s, const trivet_sweep *sweep,
                              const trivet_sweep_settings *settings, trivet_message *message)
{
    const trivet__run_head *const head = trivet__store_head(s->store);
    const int64_t next = trivet__store_next(s->store);
    s->total = head->end - head->first;
    s->done = next - head->first;
    if (trivet__store_is_finished(s->store)) {
        return TRIVET_OK;
    }
    if (!take_room(s, sweep->vary.column_count, settings->checks)) {
        return trivet__no_memory(message);
    }
    const trivet__order order = {.first = next,
                                 .count = head->end - next,
                                 .workers = settings->workers,
                                 .wants_kinds = settings->checks};
    trivet_status status = trivet__crew_run(sweep, &order, store_answer, s, message);
    if (status == TRIVET_OK && s->count > 0) {
        status = flush(s, message);
    }
    return status == TRIVET_OK ? trivet__store_finish(s->store, message) : status;
}

static trivet_status check_settings(const trivet_sweep *sweep,
                                    const trivet_sweep_settings *settings, const char *path,
                                    trivet_message *message)
{
    if (!sweep || !settings || !path) {
        return trivet__missing(message, !sweep ? "sweep" : !settings ? "settings" : "path");
    }
    const trivet_status status =
        trivet__size_check(settings->size, sizeof *settings, "settings",
                           "fill them with trivet_sweep_settings_defaults first", message);
    if (status == TRIVET_OK &&
        (settings->parts < 1 || settings->part < 1 || settings->part > settings->parts ||
         settings->parts > sweep->vary.count)) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "part",
                              "is not one of the parts, or there are more parts than variants",
                              "give it as 3/8: the third of eight");
    }
    return status;
}

trivet_status trivet_sweep_store(const trivet_sweep *sweep, const trivet_sweep_settings *settings,
                                 const char *path, trivet_sweep_progress *progress, void *user,
                                 trivet_message *message)
{
    trivet_message said;
    storing s = {.progress = progress, .user = user};
    trivet_message_clear(&said);
    trivet_status status = check_settings(sweep, settings, path, &said);
    heading *const h = status == TRIVET_OK ? trivet__take(1, sizeof *h) : NULL;
    if (status == TRIVET_OK) {
        status = h && fill_head(sweep, settings, h)
                     ? trivet__store_open(path, &h->head, &s.store, &said)
                     : trivet__no_memory(&said);
    }
    if (status == TRIVET_OK) {
        status = run_into(&s, sweep, settings, &said);
    }
    give_back_room(&s);
    if (h) {
        clear_head(h);
    }
    if (message) {
        *message = said;
    }
    return status;
}

trivet_status trivet_sweep_merge(const char *path, const char *const *parts, int32_t count,
                                 trivet_message *message)
{
    trivet_message said;
    if (!path || !parts) {
        return trivet__missing(message, path ? "parts" : "path");
    }
    trivet_message_clear(&said);
    const trivet_status status = trivet__store_merge(path, parts, count, &said);
    if (message) {
        *message = said;
    }
    return status;
}

/* ---- CSV ---- */

typedef struct handing {
    trivet_text_taker *taker;
    void *user;
} handing;

static trivet_status hand_piece(void *user, const char *text, size_t length,
                                trivet_message *message)
{
    const handing *const to = user;
    return to->taker(to->user, text, length) == 0
               ? TRIVET_OK
               : trivet__refuse(message, TRIVET_UNWRITABLE, "CSV file", "could not be written",
                                "look whether the disk is full");
}

trivet_status trivet_sweep_csv(const char *store_path, const trivet_units *units,
                               trivet_text_taker *taker, void *user, trivet_message *message)
{
    trivet_message said;
    trivet__store *store = NULL;
    handing to = {taker, user};
    if (!store_path || !taker) {
        return trivet__missing(message, store_path ? "taker" : "store_path");
    }
    trivet_message_clear(&said);
    trivet_status status = trivet__store_read(store_path, &store, &said);
    if (status == TRIVET_OK) {
        status = trivet__store_csv(store, units, hand_piece, &to, &said);
    }
    trivet__store_free(store);
    if (message) {
        *message = said;
    }
    return status;
}
