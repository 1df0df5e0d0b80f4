/*
 * Programs against reading: the same bits and the same complaints, for other values of the names.
 */
#include "base/program.h"

#include "support/dice.h"
#include "support/run.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

enum { NAMES = 4, TEXT_MAX = 400, ROUNDS = 20000 };

static const char *const NAMES_OF[NAMES] = {"reach", "half", "load", "ratio"};

static trivet_quantity values[NAMES];

static int32_t find(const char *name, size_t length)
{
    for (int32_t i = 0; i < NAMES; i++) {
        if (strlen(NAMES_OF[i]) == length && memcmp(NAMES_OF[i], name, length) == 0) {
            return i;
        }
    }
    return -1;
}

static trivet_status give_name(void *user, const char *name, size_t length, trivet_quantity *out,
                               trivet_message *message)
{
    const int32_t number = find(name, length);
    (void)user;
    (void)message;
    if (number < 0) {
        return TRIVET_BAD_NAME;
    }
    *out = values[number];
    return TRIVET_OK;
}

static int32_t give_number(void *user, const char *name, size_t length)
{
    (void)user;
    return find(name, length);
}

static const trivet_quantity *give_value(const void *user, int32_t number)
{
    (void)user;
    return &values[number];
}

static const trivet__quantity_hooks HOOKS = {.name = give_name, .number = give_number};

static void roll_values(dice *d)
{
    values[0] = (trivet_quantity){.value = dice_between(d, 0.1, 0.4), .length = 1, .has_unit = 1};
    values[1] = (trivet_quantity){.value = dice_between(d, -0.2, 0.2), .length = 1, .has_unit = 1};
    values[2] = (trivet_quantity){
        .value = dice_between(d, -90.0, 90.0), .length = 1, .mass = 1, .time = -2, .has_unit = 1};
    /* Often whole, at times 0: what divides by it is refused then, and only then. */
    values[3] = (trivet_quantity){.value = (double)(int)dice_between(d, -3.0, 4.0)};
}

static const char *any(dice *d, const char *const *words, int count)
{
    return words[dice_below(d, count)];
}

/* Grows text at random; most of it has a meaning, some mixes lengths with forces. */
static void grow(dice *d, int depth, char text[TEXT_MAX])
{
    static const char *const atoms[] = {"reach",  "half",     "load",  "ratio",  "2",
                                        "30 mm",  "1-1/4 in", "3.5",   "10 N",   "reach",
                                        "1/4 in", "2 N/mm",   "ratio", "1 s^-1", "50 %"};
    static const char *const signs[] = {" + ", " - ", " * ", " / ", "*", " + -", " - ", " * "};
    static const char *const behind[] = {"", "", "", "^2", " mm", " N/mm", "^-1", "^ratio"};
    char one[TEXT_MAX];
    char other[TEXT_MAX];
    if (depth == 0) {
        snprintf(text, TEXT_MAX, "%s%s", dice_below(d, 5) == 0 ? "-" : "",
                 any(d, atoms, (int)(sizeof atoms / sizeof atoms[0])));
        return;
    }
    grow(d, depth - 1, one);
    grow(d, depth - 1 - dice_below(d, depth), other);
    snprintf(text, TEXT_MAX, dice_below(d, 2) == 0 ? "(%.150s%s%.150s)%s" : "%.150s%s%.150s%s", one,
             any(d, signs, 8), other, any(d, behind, 8));
}

static int is_same(const trivet_quantity *one, const trivet_quantity *other)
{
    return memcmp(&one->value, &other->value, sizeof one->value) == 0 &&
           one->length == other->length && one->mass == other->mass && one->time == other->time &&
           one->temperature == other->temperature && one->has_unit == other->has_unit;
}

/* 1: it could be compared, with other values than it was made with. */
static int compare(dice *d, const char *text, int *refused)
{
    trivet__pool pool = {0};
    trivet__program program;
    trivet_quantity got;
    trivet_message message;
    roll_values(d);
    const trivet_status made =
        trivet__program_make(text, strlen(text), &HOOKS, &pool, &program, &got, &message);
    int is_compared = 0;
    if (made == TRIVET_OK && program.count > 0) {
        trivet_quantity read;
        trivet_message said;
        roll_values(d);
        const trivet_status status =
            trivet__quantity_parse(text, strlen(text), &HOOKS, &read, &said);
        trivet_message_clear(&message);
        ck_assert_int_eq(trivet__program_run(&program, give_value, NULL, &got, &message), status);
        if (status == TRIVET_OK) {
            ck_assert_msg(is_same(&got, &read), "%s", text);
        } else {
            ck_assert_str_eq(message.problem, said.problem);
            ck_assert_str_eq(message.remedy, said.remedy);
            ck_assert_str_eq(message.thing, said.thing);
            ck_assert_int_eq(message.column, said.column);
            (*refused)++;
        }
        is_compared = 1;
    }
    trivet__pool_clear(&pool);
    return is_compared;
}

START_TEST(programs_are_readings)
{
    dice d = dice_new(20261130);
    int compared = 0;
    int refused = 0;
    for (int i = 0; i < ROUNDS; i++) {
        char text[TEXT_MAX];
        grow(&d, 1 + dice_below(&d, 4), text);
        compared += compare(&d, text, &refused);
    }
    ck_assert_int_gt(compared, ROUNDS / 20);
    ck_assert_int_gt(refused, 20);
}
END_TEST

START_TEST(what_uses_no_name_is_one_step)
{
    trivet__pool pool = {0};
    trivet__program program;
    trivet_quantity got;
    const char *const text = "(2 + 1/4) in * 3";
    ck_assert_int_eq(trivet__program_make(text, strlen(text), &HOOKS, &pool, &program, &got, NULL),
                     TRIVET_OK);
    ck_assert_uint_eq(program.count, 1);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(units_behind_brackets_are_taken_on)
{
    trivet__pool pool = {0};
    trivet__program program;
    trivet_quantity got;
    const char *const text = "(ratio + 2) mm";
    values[3] = (trivet_quantity){.value = 1.0};
    ck_assert_int_eq(trivet__program_make(text, strlen(text), &HOOKS, &pool, &program, &got, NULL),
                     TRIVET_OK);
    values[3].value = 5.0;
    ck_assert_int_eq(trivet__program_run(&program, give_value, NULL, &got, NULL), TRIVET_OK);
    ck_assert(got.value == 7.0 * 1.0 / 1000.0 && got.length == 1 && got.has_unit);
    trivet__pool_clear(&pool);
}
END_TEST

int main(void)
{
    return run_tests("program", TESTS(programs_are_readings, what_uses_no_name_is_one_step,
                                      units_behind_brackets_are_taken_on));
}
