/*
 * The best variant that holds.
 *
 * All variants are weighed (mass, price) without solving any; sorted by what is aimed at they are
 * solved from the least upward. The first that holds is best: whatever is less was solved and does
 * not hold. That more stock makes a frame stronger is assumed nowhere.
 */
#include "sweep/sweep.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "document/json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { RUNNERS_MAX = 100, LOSERS_MAX = 10, WEIGHED_MAX = 1000000 };

typedef struct weighed {
    double value;
    int64_t number;
} weighed;

/* A variant that is kept to be shown. */
typedef struct kept_row {
    trivet_variant variant;
    double inputs[TRIVET__COLUMNS_MAX];
} kept_row;

struct trivet_pick {
    const trivet_sweep *sweep;
    trivet_pick_settings settings;
    trivet_picked outcome;
    weighed *list; /* [listed] sorted by value, then number; without what is ruled out */
    int64_t listed;
    int64_t *numbers; /* [listed] likewise */
    kept_row *best;   /* [best_count], room for 1 + runners_up */
    int32_t best_count;
    kept_row *losers; /* [loser_count], the latest first, room for LOSERS_MAX */
    int32_t loser_count;
    trivet_sweep_progress *progress;
    void *user;
};

trivet_status trivet_pick_settings_defaults(trivet_pick_settings *settings, size_t size)
{
    const trivet_status status = trivet__defaults(settings, size, sizeof *settings);
    if (status == TRIVET_OK) {
        settings->runners_up = 3;
        settings->workers = 1;
        settings->most = 100000;
    }
    return status;
}

trivet_status trivet_picked_defaults(trivet_picked *picked, size_t size)
{
    return trivet__defaults(picked, size, sizeof *picked);
}

bool trivet_variant_holds(const trivet_variant *variant)
{
    if (!variant || variant->outcome != TRIVET_OUTCOME_CHECKED ||
        variant->verdicts[TRIVET_LINE_OVERLOAD] == TRIVET_NOT_CHECKED) {
        return false;
    }
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        if (variant->verdicts[line] > TRIVET_TIGHT) {
            return false;
        }
    }
    return true;
}

/* ---- weighing ---- */

static double value_of(const trivet_pick *pick, const trivet_variant *variant)
{
    switch (pick->settings.aim) {
    case TRIVET_PICK_PRICE:
        return variant->price;
    case TRIVET_PICK_DROOP:
        return variant->droop;
    case TRIVET_PICK_MASS:
    default:
        return variant->mass;
    }
}

static trivet_status take_weight(void *user, const trivet__answer *answer, trivet_message *message)
{
    trivet_pick *const pick = user;
    const trivet_variant *const variant = answer->variant;
    if (variant->outcome != TRIVET_OUTCOME_CHECKED) {
        pick->outcome.ruled_out++;
        return TRIVET_OK;
    }
    if (pick->settings.aim == TRIVET_PICK_PRICE && isnan(variant->price)) {
        return trivet__refuse(message, TRIVET_INCOMPLETE, "price",
                              "some stock that tubes or inserts are made of has none",
                              "give all of it a price for a metre, or pick by mass");
    }
    const double value = pick->settings.aim == TRIVET_PICK_DROOP ? 0.0 : value_of(pick, variant);
    pick->list[pick->listed++] = (weighed){value, variant->number};
    return TRIVET_OK;
}

static int compare_weighed(const void *one, const void *other)
{
    const weighed *const a = one;
    const weighed *const b = other;
    if (a->value != b->value) {
        return a->value < b->value ? -1 : 1;
    }
    return a->number < b->number ? -1 : a->number > b->number;
}

static trivet_status weigh_all(trivet_pick *pick, trivet_message *message)
{
    const trivet__order order = {
        .count = pick->sweep->vary.count, .workers = pick->settings.workers, .is_weighed_only = 1};
    const trivet_status status = trivet__crew_run(pick->sweep, &order, take_weight, pick, message);
    if (status == TRIVET_OK) {
        qsort(pick->list, (size_t)pick->listed, sizeof *pick->list, compare_weighed);
        for (int64_t i = 0; i < pick->listed; i++) {
            pick->numbers[i] = pick->list[i].number;
        }
    }
    return status;
}

/* ---- solving from the least upward ---- */

static void fill_row(const trivet_pick *pick, const trivet__answer *answer, kept_row *row)
{
    row->variant = *answer->variant;
    memcpy(row->inputs, answer->inputs,
           (size_t)pick->sweep->vary.column_count * sizeof *row->inputs);
}

/* Keeps a row that holds among the best, in order of value and number, if it is among them. */
static void keep_best(trivet_pick *pick, const trivet__answer *answer)
{
    const int32_t room = 1 + pick->settings.runners_up;
    const double value = value_of(pick, answer->variant);
    int32_t at = pick->best_count;
    while (at > 0 && value < value_of(pick, &pick->best[at - 1].variant)) {
        at--;
    }
    if (at >= room) {
        return;
    }
    const int32_t moved = (pick->best_count < room ? pick->best_count : room - 1) - at;
    memmove(&pick->best[at + 1], &pick->best[at], (size_t)moved * sizeof *pick->best);
    fill_row(pick, answer, &pick->best[at]);
    pick->best_count += pick->best_count < room;
}

/* Keeps the latest losers, the newest first. */
static void keep_loser(trivet_pick *pick, const trivet__answer *answer)
{
    const int32_t kept = pick->loser_count < LOSERS_MAX ? pick->loser_count : LOSERS_MAX - 1;
    memmove(&pick->losers[1], &pick->losers[0], (size_t)kept * sizeof *pick->losers);
    fill_row(pick, answer, &pick->losers[0]);
    pick->loser_count = kept + 1;
}

static trivet_status take_solved(void *user, const trivet__answer *answer, trivet_message *message)
{
    trivet_pick *const pick = user;
    const int is_exhaustive = pick->settings.aim == TRIVET_PICK_DROOP;
    pick->outcome.solved++;
    if (trivet_variant_holds(answer->variant)) {
        pick->outcome.held++;
        keep_best(pick, answer);
    } else if (pick->best_count == 0 && !is_exhaustive) {
        keep_loser(pick, answer);
    }
    if (pick->progress &&
        pick->progress(pick->user, pick->outcome.solved,
                       pick->listed < pick->settings.most ? pick->listed : pick->settings.most) !=
            0) {
        return trivet__refuse(message, TRIVET_INTERRUPTED, "pick", "was stopped before its end",
                              "start it again");
    }
    const int is_enough = !is_exhaustive && pick->best_count == 1 + pick->settings.runners_up;
    return is_enough ? TRIVET_BAD_ORDER : TRIVET_OK; /* its own sign that no more are wanted */
}

static trivet_status solve_upward(trivet_pick *pick, trivet_message *message)
{
    const int64_t most = pick->settings.most;
    const trivet__order order = {.numbers = pick->numbers,
                                 .count = pick->listed < most ? pick->listed : most,
                                 .workers = pick->settings.workers};
    const trivet_status status = trivet__crew_run(pick->sweep, &order, take_solved, pick, message);
    trivet_picked *const outcome = &pick->outcome;
    if (status != TRIVET_OK && status != TRIVET_BAD_ORDER) {
        return status;
    }
    trivet_message_clear(message);
    const int is_all = outcome->solved == pick->listed;
    outcome->is_found = pick->best_count > 0;
    outcome->is_proven = is_all || (outcome->is_found && pick->settings.aim != TRIVET_PICK_DROOP);
    outcome->bound = is_all || pick->settings.aim == TRIVET_PICK_DROOP
                         ? (double)NAN
                         : pick->list[outcome->solved].value;
    return TRIVET_OK;
}

/* ---- from outside ---- */

static trivet_status check_settings(const trivet_sweep *sweep, const trivet_pick_settings *settings,
                                    trivet_message *message)
{
    const trivet_status status =
        trivet__size_check(settings->size, sizeof *settings, "settings",
                           "fill them with trivet_pick_settings_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (settings->aim < TRIVET_PICK_MASS || settings->aim > TRIVET_PICK_DROOP ||
        settings->runners_up < 0 || settings->runners_up > RUNNERS_MAX || settings->most < 1) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "settings", "are out of range",
                              "aim at mass, price or droop, with 0 to 100 runners-up");
    }
    if (sweep->vary.count > WEIGHED_MAX) {
        return trivet__refuse(
            message, TRIVET_BAD_VALUE, "vary", "makes more than 1000000 variants to pick from",
            "narrow the catalogue with \"among\", or run a sweep and ask its store");
    }
    return TRIVET_OK;
}

static trivet_status fill_pick(trivet_pick *pick, trivet_message *message)
{
    const size_t count = (size_t)pick->sweep->vary.count;
    pick->outcome = (trivet_picked){.size = sizeof pick->outcome, .count = (int64_t)count};
    pick->list = trivet__take(count, sizeof *pick->list);
    pick->numbers = trivet__take(count, sizeof *pick->numbers);
    pick->best = trivet__take((size_t)pick->settings.runners_up + 1, sizeof *pick->best);
    pick->losers = trivet__take(LOSERS_MAX, sizeof *pick->losers);
    if (!pick->list || !pick->numbers || !pick->best || !pick->losers) {
        return trivet__no_memory(message);
    }
    const trivet_status status = weigh_all(pick, message);
    return status == TRIVET_OK ? solve_upward(pick, message) : status;
}

trivet_status trivet_pick_new(const trivet_sweep *sweep, const trivet_pick_settings *settings,
                              trivet_sweep_progress *progress, void *user, trivet_pick **pick_out,
                              trivet_message *message)
{
    trivet_message said;
    if (pick_out) {
        *pick_out = NULL;
    }
    if (!sweep || !settings || !pick_out) {
        return trivet__missing(message, !sweep ? "sweep" : !settings ? "settings" : "pick_out");
    }
    trivet_message_clear(&said);
    trivet_status status = check_settings(sweep, settings, &said);
    trivet_pick *pick = status == TRIVET_OK ? trivet__take(1, sizeof *pick) : NULL;
    if (pick) {
        pick->sweep = sweep;
        pick->settings = *settings;
        pick->progress = progress;
        pick->user = user;
        status = fill_pick(pick, &said);
    } else if (status == TRIVET_OK) {
        status = trivet__no_memory(&said);
    }
    if (status != TRIVET_OK) {
        trivet_pick_free(pick);
        pick = NULL;
    }
    *pick_out = pick;
    if (message) {
        *message = said;
    }
    return status;
}

void trivet_pick_free(trivet_pick *pick)
{
    if (pick) {
        trivet__give_back(pick->list);
        trivet__give_back(pick->numbers);
        trivet__give_back(pick->best);
        trivet__give_back(pick->losers);
        trivet__give_back(pick);
    }
}

trivet_status trivet_pick_outcome(const trivet_pick *pick, trivet_picked *picked_out)
{
    const trivet_status status = trivet__out_check(pick, picked_out, sizeof *picked_out);
    if (status == TRIVET_OK) {
        *picked_out = pick->outcome;
    }
    return status;
}

int32_t trivet_pick_count(const trivet_pick *pick)
{
    return pick ? pick->best_count + pick->loser_count : 0;
}

trivet_status trivet_pick_at(const trivet_pick *pick, int32_t index, trivet_variant *variant_out,
                             double *inputs_out)
{
    const trivet_status status = trivet__out_check(pick, variant_out, sizeof *variant_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (index < 0 || index >= trivet_pick_count(pick)) {
        return TRIVET_BAD_INDEX;
    }
    const kept_row *const row =
        index < pick->best_count ? &pick->best[index] : &pick->losers[index - pick->best_count];
    *variant_out = row->variant;
    if (inputs_out) {
        memcpy(inputs_out, row->inputs,
               (size_t)pick->sweep->vary.column_count * sizeof *inputs_out);
    }
    return TRIVET_OK;
}

/* ---- JSON ---- */

static json_t *inputs_json(trivet__json *json, const trivet_pick *pick, const double *inputs)
{
    json_t *const object = trivet__json_object(json);
    for (int32_t c = 0; c < pick->sweep->vary.column_count; c++) {
        const trivet__column *const column = &pick->sweep->vary.columns[c];
        if (column->kind == TRIVET__COLUMN_STOCK) {
            trivet__json_put_text(json, object, column->name,
                                  column->choices[(int32_t)inputs[c]].name);
        } else {
            trivet__json_put_number(json, object, column->name, inputs[c]);
        }
    }
    return object;
}

static json_t *row_json(trivet__json *json, const trivet_pick *pick, const kept_row *row)
{
    static const char *const LINES[TRIVET_LINE_COUNT] = {"overload", "cracking", "service"};
    json_t *const object = trivet__json_object(json);
    json_t *const verdicts = trivet__json_object(json);
    const trivet_variant *const of = &row->variant;
    trivet__json_put_whole(json, object, "number", of->number);
    trivet__json_put(json, object, "inputs", inputs_json(json, pick, row->inputs));
    trivet__json_put_truth(json, object, "holds", trivet_variant_holds(of));
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        trivet__json_put_text(json, verdicts, LINES[line], trivet_verdict_text(of->verdicts[line]));
    }
    trivet__json_put(json, object, "verdicts", verdicts);
    trivet__json_put_row(json, object, "used", of->used, TRIVET_LINE_COUNT);
    trivet__json_put_number(json, object, "mass", of->mass);
    trivet__json_put_number(json, object, "price", of->price);
    trivet__json_put_number(json, object, "droop", of->droop);
    trivet__json_put_number(json, object, "mount force", of->mount_force);
    trivet__json_put_text(json, object, "check", of->check);
    trivet__json_put_text(json, object, "where", of->where);
    trivet__json_put_text(json, object, "case", of->in_case);
    trivet__json_put_text(json, object, "reason", of->reason);
    return object;
}

trivet_status trivet_pick_json(const trivet_pick *pick, char **text_out, trivet_message *message)
{
    static const char *const AIMS[] = {"mass", "price", "droop"};
    trivet__json json = {0};
    if (text_out) {
        *text_out = NULL;
    }
    if (!pick || !text_out) {
        return trivet__missing(message, pick ? "text_out" : "pick");
    }
    json_t *const root = trivet__json_object(&json);
    json_t *const best = trivet__json_list(&json);
    json_t *const losers = trivet__json_list(&json);
    trivet__json_put_text(&json, root, "trivet", TRIVET_VERSION);
    trivet__json_put_text(&json, root, "aim", AIMS[pick->settings.aim]);
    trivet__json_put_truth(&json, root, "found", pick->outcome.is_found);
    trivet__json_put_truth(&json, root, "proven", pick->outcome.is_proven);
    trivet__json_put_whole(&json, root, "variants", pick->outcome.count);
    trivet__json_put_whole(&json, root, "ruled out", pick->outcome.ruled_out);
    trivet__json_put_whole(&json, root, "solved", pick->outcome.solved);
    trivet__json_put_whole(&json, root, "held", pick->outcome.held);
    trivet__json_put_number(&json, root, "bound", pick->outcome.bound);
    for (int32_t i = 0; i < pick->best_count; i++) {
        trivet__json_push(&json, best, row_json(&json, pick, &pick->best[i]));
    }
    for (int32_t i = 0; i < pick->loser_count; i++) {
        trivet__json_push(&json, losers, row_json(&json, pick, &pick->losers[i]));
    }
    trivet__json_put(&json, root, "best", best);
    trivet__json_put(&json, root, "would be better but fail", losers);
    return trivet__json_text(&json, root, text_out, message);
}
