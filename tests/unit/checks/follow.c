#include "follow.h"

#include "formula.h"

#include "support/near.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

enum { SYMBOLS_MAX = 64 };

static int32_t index_of(const beam *of, const char *check, const char *where, const char *in_case)
{
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check at = {.size = sizeof at};
        ck_assert_int_eq(trivet_checks_at(of->checks, i, &at), TRIVET_OK);
        if (strcmp(at.check, check) == 0 && strcmp(at.where, where) == 0 &&
            strcmp(at.in_case, in_case) == 0) {
            return i;
        }
    }
    ck_abort_msg("no check of %s at %s in %s", check, where, in_case);
    return -1;
}

static trivet_step step_of(const beam *of, int32_t index, int32_t number)
{
    trivet_step step = {.size = sizeof step};
    ck_assert_int_eq(trivet_checks_step(of->checks, index, number, &step), TRIVET_OK);
    return step;
}

void follow_working(const beam *of, const char *check, const char *where, const char *in_case)
{
    const int32_t index = index_of(of, check, where, in_case);
    const trivet_check found = beam_find(of, check, where, in_case);
    formula_symbol symbols[SYMBOLS_MAX];
    int32_t formulas = 0;
    ck_assert_int_gt(found.step_count, 2);
    ck_assert_int_lt(found.step_count, SYMBOLS_MAX);
    for (int32_t i = 0; i < found.step_count; i++) {
        const trivet_step step = step_of(of, index, i);
        ck_assert_msg(step.source && step.source[0], "%s: no source", step.symbol);
        ck_assert_msg(step.meaning && step.meaning[0], "%s: no meaning", step.symbol);
        if (step.formula[0]) {
            /* A dozen roundings at most in one line. */
            near_relative(step.value, formula_value(step.formula, symbols, i), 1e-13);
            formulas++;
        }
        for (int32_t k = 0; k < i; k++) {
            ck_assert_msg(strcmp(symbols[k].name, step.symbol) != 0, "%s twice", step.symbol);
        }
        snprintf(symbols[i].name, sizeof symbols[i].name, "%s", step.symbol);
        symbols[i].value = step.value;
    }
    ck_assert_int_gt(formulas, 0);
    ck_assert_str_eq(symbols[found.step_count - 2].name, "limit");
    ck_assert_str_eq(symbols[found.step_count - 1].name, "used");
    ck_assert(symbols[found.step_count - 2].value == found.limit);
    ck_assert(symbols[found.step_count - 1].value == found.utilisation);
}

double working_value(const beam *of, const char *check, const char *where, const char *in_case,
                     const char *symbol)
{
    const int32_t index = index_of(of, check, where, in_case);
    const trivet_check found = beam_find(of, check, where, in_case);
    for (int32_t i = 0; i < found.step_count; i++) {
        const trivet_step step = step_of(of, index, i);
        if (strcmp(step.symbol, symbol) == 0) {
            return step.value;
        }
    }
    ck_abort_msg("no line %s", symbol);
    return (double)NAN;
}

void working_sentence(const beam *of, const char *check, const char *where, const char *in_case,
                      char text[512])
{
    trivet_checks_sentence_of(of->checks, index_of(of, check, where, in_case), NULL, text, 512);
}
