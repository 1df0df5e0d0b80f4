#include "sweep_rows.h"

#include "trivet/checks.h"

#include "support/dice.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

static const char file_text[] = "trivet: 1\nname: Shelf over a trailer drawbar\n"
                                "let: {reach: 180 mm, \"t\xC3\xBCr\": 2 mm}\n";

static const char *const names[MADE_INPUTS] = {"reach",  "half", "rail wall",
                                               "=brace", "rail", "mass"};
static const int32_t kinds[MADE_INPUTS] = {0, 0, 0, 0, 1, 1};
static const int32_t dimensions[MADE_INPUTS] = {
    TRIVET_LENGTH, TRIVET_LENGTH, TRIVET_LENGTH, TRIVET_ANGLE, 0, 0};
static const char *const rails[] = {"square tube 20 x 2", "square tube 25 x 2",
                                    "round tube 3/4\" x 2", "flat bar, 30 x 8"};
static const char *const loads[] = {"empty", "half full", "@full"};
static const char *const *const choices[MADE_INPUTS] = {NULL, NULL, NULL, NULL, rails, loads};
static const int32_t choice_counts[MADE_INPUTS] = {0, 0, 0, 0, COUNT(rails), COUNT(loads)};

static const char *const checks[] = {"yield", "weld",     "bolt",       "thread",
                                     "droop", "cracking", "mount pull", "wall crush"};
static const char *const places[] = {"left rail", "right rail", "front cross", "rear cross",
                                     "brace",     "FL",         "FR",          "ML",
                                     "MR",        "t\xC3\xBCr"};
static const char *const cases[] = {
    "parked", "two-up", "road, bump up", "road, braking", "rough track, bump up", "any case"};

trivet__run_head made_head(int64_t count, int64_t first, int64_t end)
{
    return (trivet__run_head){.file_text = file_text,
                              .file_length = sizeof file_text - 1,
                              .settings = "all combinations; every case",
                              .version = TRIVET_VERSION,
                              .variant_count = count,
                              .first = first,
                              .end = end,
                              .input_count = MADE_INPUTS,
                              .input_names = names,
                              .input_kinds = kinds,
                              .input_dimensions = dimensions,
                              .choice_counts = choice_counts,
                              .choices = choices};
}

static int32_t verdict_of(double used, int32_t bad)
{
    return used > 1.0 ? bad : used > 0.85 ? TRIVET_TIGHT : TRIVET_HOLDS;
}

static void fill_solved(trivet__variant_row *row, dice *d)
{
    for (int i = 0; i < 3; i++) {
        row->used[i] = dice_between(d, 0.1, 1.3);
        row->verdicts[i] = verdict_of(row->used[i], i == 1 ? TRIVET_MAY_CRACK : TRIVET_FAILS);
    }
    row->governs_check = checks[dice_below(d, COUNT(checks))];
    row->governs_where = places[dice_below(d, COUNT(places))];
    row->governs_case = cases[dice_below(d, COUNT(cases))];
    row->droop = dice_between(d, 0.0005, 0.006);
    row->mass = dice_between(d, 2.0, 6.0);
    row->price = dice_between(d, 20.0, 60.0);
    row->mount_force = dice_between(d, 200.0, 900.0);
}

/* Numbers that are easily lost on the way. */
static void make_awkward(trivet__variant_row *row, int which)
{
    switch (which) {
    case 0:
        row->droop = -0.0;
        row->price = DBL_MAX;
        break;
    case 1:
        row->used[2] = (double)NAN;
        row->verdicts[2] = TRIVET_NOT_CHECKED;
        row->price = (double)NAN;
        break;
    case 2:
        row->used[0] = (double)INFINITY;
        row->verdicts[0] = TRIVET_FAILS;
        row->droop = DBL_TRUE_MIN;
        break;
    case 3:
        row->mass = 3.0;
        row->droop = 0.001;
        break;
    default:
        break;
    }
}

void make_row(int64_t number, made_row *made)
{
    enum { AWKWARD_EVERY = 23, REASONS = 40 };
    dice d = dice_new((uint64_t)number);
    made->inputs[0] = dice_between(&d, 0.15, 0.30);
    made->inputs[1] = 0.15 + 0.005 * dice_below(&d, 8);
    made->inputs[2] = 0.001 * (1 + dice_below(&d, 4));
    made->inputs[3] = dice_between(&d, -0.5, 0.5);
    made->inputs[4] = dice_below(&d, COUNT(rails));
    made->inputs[5] = dice_below(&d, COUNT(loads));
    made->reason[0] = '\0';
    made->row = (trivet__variant_row){.number = number,
                                      .inputs = made->inputs,
                                      .reason = made->reason,
                                      .used = {(double)NAN, (double)NAN, (double)NAN},
                                      .governs_check = "",
                                      .governs_where = "",
                                      .governs_case = "",
                                      .droop = (double)NAN,
                                      .mass = (double)NAN,
                                      .price = (double)NAN,
                                      .mount_force = (double)NAN};
    if (dice_chance(&d, 0.05)) {
        made->row.outcome = TRIVET__SKIPPED;
    } else if (dice_chance(&d, 0.05)) {
        made->row.outcome = TRIVET__UNSOLVED;
        snprintf(made->reason, sizeof made->reason, "rail: the wall of %d mm does not fit",
                 dice_below(&d, REASONS));
    } else {
        fill_solved(&made->row, &d);
        make_awkward(&made->row, (int)(number % AWKWARD_EVERY));
    }
}

int32_t make_checks(int64_t number, trivet__check_row rows[MADE_CHECKS_MOST])
{
    dice d = dice_new(~(uint64_t)number);
    const int32_t count = dice_below(&d, MADE_CHECKS_MOST + 1);
    for (int32_t i = 0; i < count; i++) {
        rows[i] = (trivet__check_row){.number = number,
                                      .check = checks[dice_below(&d, COUNT(checks))],
                                      .where = places[dice_below(&d, COUNT(places))],
                                      .in_case = cases[dice_below(&d, COUNT(cases))],
                                      .used = dice_between(&d, 0.0, 2.0)};
    }
    return count;
}

trivet_status feed_rows(trivet__store *store, int64_t end, int32_t batch, int has_checks,
                        trivet_message *message)
{
    const size_t room = (size_t)batch;
    made_row *const made = calloc(room, sizeof *made);
    trivet__variant_row *const rows = calloc(room, sizeof *rows);
    trivet__check_row *const kept = calloc(room * MADE_CHECKS_MOST, sizeof *kept);
    trivet_status status = made && rows && kept ? TRIVET_OK : TRIVET_NO_MEMORY;
    while (!status && trivet__store_next(store) < end) {
        const int64_t next = trivet__store_next(store);
        int32_t count = 0;
        int32_t check_count = 0;
        for (; count < batch && next + count < end; count++) {
            make_row(next + count, &made[count]);
            rows[count] = made[count].row;
            if (has_checks) {
                check_count += make_checks(next + count, &kept[check_count]);
            }
        }
        status = trivet__store_put(store, rows, count, kept, check_count, message);
    }
    free(made);
    free(rows);
    free(kept);
    return status;
}
