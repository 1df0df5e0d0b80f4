/*
 * The same frame written as a file in mm, kg, N and rad, written in in, lb, lbf and deg, and built
 * in code, gives the same answer.
 */
#include "plan_text.h"
#include "solved_plan.h"

#include <stdlib.h>
#include <string.h>
#include <trivet/document.h>

/* The line of a text, from 1, and how many bytes it has. */
static const char *find_line(const char *text, int32_t line, int *length_out)
{
    for (int32_t i = 1; i < line && strchr(text, '\n'); i++) {
        text = strchr(text, '\n') + 1;
    }
    *length_out = (int)strcspn(text, "\n");
    return text;
}

static trivet_document *read_plan(const frame_plan *plan, const text_units *units)
{
    trivet_message message = {0};
    trivet_document *document = NULL;
    char *text = plan_text(plan, units);
    const trivet_status status = trivet_document_read_text(text, strlen(text), &document, &message);
    int length = 0;
    const char *line = find_line(text, message.line, &length);
    ck_assert_msg(status == TRIVET_OK, "seed %llu: line %d: %s: %s; %s: %.*s",
                  (unsigned long long)plan->seed, (int)message.line, message.thing, message.problem,
                  message.remedy, length, line);
    free(text);
    return document;
}

static void compare_column(const solved_plan *want, const trivet_result *got, ptrdiff_t column)
{
    const uint64_t seed = want->plan->seed;
    const plan_scale scale = scale_of(want, (int32_t)column);
    const double *moves = trivet_result_moves(got, NULL, NULL);
    const double *reactions = trivet_result_reactions(got, NULL, NULL);
    const double *ends = trivet_result_span_ends(got, NULL, NULL);
    for (ptrdiff_t i = column * want->joints; i < (column + 1) * want->joints; i++) {
        agree_moves(seed, "movement", moves + 6 * i, want->moves + 6 * i, moves_allowed(scale));
    }
    for (ptrdiff_t i = column * want->mounts; i < (column + 1) * want->mounts; i++) {
        agree_forces(seed, "reaction", reactions + 6 * i, want->reactions + 6 * i,
                     forces_allowed(scale));
    }
    for (int32_t k = 0; k < 2 * want->spans; k++) {
        const ptrdiff_t i = 2 * column * want->spans + k;
        if (!has_load_at_end(want, k / 2, k % 2)) {
            agree_forces(seed, "force inside", ends + 6 * i, want->ends + 6 * i,
                         forces_allowed(scale));
        }
    }
}

static void check_file(const solved_plan *want, const text_units *units)
{
    trivet_document *document = read_plan(want->plan, units);
    trivet_result *result = NULL;
    done(want->plan->seed, trivet_frame_solve(trivet_document_frame(document), &result, NULL));
    int32_t columns = 0;
    int32_t joints = 0;
    trivet_result_moves(result, &columns, &joints);
    ck_assert_int_eq(columns, want->columns);
    ck_assert_int_eq(joints, want->joints);
    ck_assert_int_eq(trivet_result_span_count(result), want->spans);
    for (int32_t c = 0; c < columns; c++) {
        compare_column(want, result, c);
    }
    trivet_result_free(result);
    trivet_document_free(document);
}

START_TEST(inches_and_millimetres_give_same_answer)
{
    const text_units metric = metric_units();
    const text_units inch = inch_units();
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan want = solve_plan(random_plan(seed, NULL));
        find_flexibility(&want);
        check_file(&want, &metric);
        check_file(&want, &inch);
        free_solved_plan(&want);
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("units of the file", inches_and_millimetres_give_same_answer);
}
