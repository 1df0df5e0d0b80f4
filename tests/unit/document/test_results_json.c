/*
 * Results, stock and messages as JSON: the keys, and numbers that read back to the same double.
 */
#include "read_text.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>

static json_t *parse(char *text)
{
    json_error_t error;
    json_t *const root = json_loads(text, 0, &error);
    ck_assert_msg(root != NULL, "line %d: %s", error.line, error.text);
    trivet_text_free(text);
    return root;
}

/* Follows keys from root; the last may be NULL. */
static json_t *at(json_t *root, const char *one, const char *two, const char *three)
{
    json_t *found = json_object_get(root, one);
    found = two ? json_object_get(found, two) : found;
    found = three ? json_object_get(found, three) : found;
    ck_assert_msg(found != NULL, "no %s %s %s", one, two ? two : "", three ? three : "");
    return found;
}

static double number_at(json_t *list, size_t index)
{
    json_t *const number = json_array_get(list, index);
    ck_assert(json_is_number(number));
    return json_number_value(number);
}

static const char FILE_TEXT[] =
    "trivet: 1\nname: Ärm\n"
    "stock:\n"
    "  rail: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235}\n"
    "  plug: {shape: square bar, width: 15 mm, material: S235}\n"
    "joints: {A: [0, 0, 0], M: [0.1 m, 0.01 m, 0.02 m], B: [300 mm, 30 mm, 60 mm]}\n"
    "tubes: {arm: {through: [A, M, B], stock: rail, inserts: "
    "[{at: A, length: 40 mm, stock: plug}]}}\n"
    "mounts: {A: {hold: all}}\n"
    "cases: {parked: {gravity: [0, 0, -1]}, push: {forces: [{on: B, force: [1, 7, -3]}]}}\n"
    "combine: {both: {parked: 1.35, push: 1.5}}\n"
    "limits: {droop: 5 mm}\n"
    "rides: {hump: {height: 60 mm}}\n"
    "expect: [{what: mass, value: 0.3 kg, by: weighed}]\n";

typedef struct made {
    answered of;
    json_t *root;
} made;

static made make_results(void)
{
    made it = {answer_good(FILE_TEXT), NULL};
    char *text = NULL;
    ck_assert_int_eq(
        trivet_document_results_json(it.of.document, it.of.result, it.of.checks, &text, NULL),
        TRIVET_OK);
    it.root = parse(text);
    return it;
}

static void release(made *it)
{
    json_decref(it->root);
    free_answered(&it->of);
}

START_TEST(movements_and_reactions_read_back_to_the_bit)
{
    made it = make_results();
    int32_t joints = 0;
    const double *const moves = trivet_result_moves(it.of.result, NULL, &joints);
    const double *const reactions = trivet_result_reactions(it.of.result, NULL, NULL);
    static const char *const cases[] = {"parked", "push", "both"};
    static const char *const names[] = {"A", "M", "B"};
    for (int c = 0; c < 3; c++) {
        for (int j = 0; j < joints; j++) {
            json_t *const joint =
                at(at(it.root, "cases", cases[c], "joints"), names[j], NULL, NULL);
            for (size_t i = 0; i < 3; i++) {
                const double *const row = moves + 6 * (c * joints + j);
                ck_assert(number_at(at(joint, "move", NULL, NULL), i) == row[i]);
                ck_assert(number_at(at(joint, "turn", NULL, NULL), i) == row[3 + i]);
            }
        }
        json_t *const mount = at(at(it.root, "cases", cases[c], "mounts"), "A", NULL, NULL);
        for (size_t i = 0; i < 3; i++) {
            ck_assert(number_at(at(mount, "force", NULL, NULL), i) == reactions[6 * c + (int)i]);
            ck_assert(number_at(at(mount, "moment", NULL, NULL), i) ==
                      reactions[6 * c + 3 + (int)i]);
        }
    }
    release(&it);
}
END_TEST

START_TEST(spans_carry_ends_and_envelope)
{
    made it = make_results();
    json_t *const spans = at(at(it.root, "cases", "push", "tubes"), "arm", NULL, NULL);
    json_t *const envelope = at(it.root, "envelope", "tubes", "arm");
    int32_t count = 0;
    const double *const ends = trivet_result_span_ends(it.of.result, NULL, &count);
    ck_assert_int_eq(count, 3); /* A to the insert's end, to M, to B */
    ck_assert_uint_eq(json_array_size(spans), 3);
    ck_assert_uint_eq(json_array_size(envelope), 3);
    ck_assert_str_eq(json_string_value(at(json_array_get(spans, 0), "from", NULL, NULL)), "A");
    ck_assert(json_is_null(at(json_array_get(spans, 0), "to", NULL, NULL)));
    ck_assert_str_eq(json_string_value(at(json_array_get(spans, 2), "from", NULL, NULL)), "M");
    ck_assert_str_eq(json_string_value(at(json_array_get(spans, 2), "to", NULL, NULL)), "B");
    const double *const first = ends + 12 * count; /* of case number 1 */
    json_t *const start = at(json_array_get(spans, 0), "start", NULL, NULL);
    ck_assert(json_number_value(at(start, "N", NULL, NULL)) == first[0]);
    ck_assert(json_number_value(at(start, "Mz", NULL, NULL)) == first[5]);
    for (size_t s = 0; s < 3; s++) {
        json_t *const My = at(json_array_get(envelope, s), "My", NULL, NULL);
        double least = (double)INFINITY;
        double most = -(double)INFINITY;
        for (int32_t c = 0; c < 3; c++) {
            trivet_extreme extremes[6];
            ck_assert_int_eq(trivet_result_extremes(it.of.result, c, (int32_t)s, extremes),
                             TRIVET_OK);
            least = fmin(least, extremes[4].least);
            most = fmax(most, extremes[4].most);
        }
        ck_assert(json_number_value(at(My, "least", NULL, NULL)) == least);
        ck_assert(json_number_value(at(My, "most", NULL, NULL)) == most);
        ck_assert(json_is_string(at(My, "most_case", NULL, NULL)));
    }
    release(&it);
}
END_TEST

START_TEST(the_whole_has_its_keys_in_order)
{
    static const char *const keys[] = {"trivet", "name",    "verdict",     "lines",
                                       "mass",   "quality", "cases",       "envelope",
                                       "checks", "expect",  "stories",     "off the front wheel",
                                       "give",   "losses",  "not_checked", "cautions"};
    made it = make_results();
    size_t i = 0;
    const char *key = NULL;
    json_t *value = NULL;
    json_object_foreach(it.root, key, value)
    {
        ck_assert_uint_lt(i, sizeof keys / sizeof keys[0]);
        ck_assert_str_eq(key, keys[i]);
        i++;
    }
    ck_assert_uint_eq(i, sizeof keys / sizeof keys[0]);
    ck_assert_str_eq(json_string_value(at(it.root, "name", NULL, NULL)), "Ärm");
    ck_assert_str_eq(json_string_value(at(it.root, "verdict", NULL, NULL)), "holds");
    ck_assert_str_eq(json_string_value(at(it.root, "lines", "cracking", "verdict")), "holds");
    ck_assert(json_number_value(at(it.root, "quality", "residual", NULL)) < 1e-9);
    ck_assert(json_number_value(at(it.root, "cases", "both", "residual")) < 1e-9);
    json_t *const check = json_array_get(at(it.root, "checks", NULL, NULL), 0);
    static const char *const parts[] = {"check", "where",   "case",        "at",    "demand",
                                        "limit", "verdict", "utilisation", "source"};
    for (size_t p = 0; p < sizeof parts / sizeof parts[0]; p++) {
        at(check, parts[p], NULL, NULL);
    }
    json_t *const expect = json_array_get(at(it.root, "expect", NULL, NULL), 0);
    ck_assert_str_eq(json_string_value(at(expect, "by", NULL, NULL)), "weighed");
    near_relative(json_number_value(at(expect, "by_hand", NULL, NULL)), 0.3, 1e-15);
    int has_rides = 0;
    size_t number = 0;
    json_array_foreach(at(it.root, "not_checked", NULL, NULL), number, value)
    {
        has_rides |= strcmp(json_string_value(at(value, "what", NULL, NULL)), "rides") == 0;
    }
    ck_assert_int_eq(has_rides, 1);
    release(&it);
}
END_TEST

START_TEST(what_was_understood_has_every_part)
{
    trivet_document *const document = read_good(FILE_TEXT);
    char *text = NULL;
    ck_assert_int_eq(trivet_document_understood_json(document, &text, NULL), TRIVET_OK);
    json_t *const root = parse(text);
    static const char *const keys[] = {"units", "let",   "stock",   "joints", "tubes",   "mounts",
                                       "cargo", "cases", "combine", "limits", "not used"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        at(root, keys[i], NULL, NULL);
    }
    near_relative(number_at(at(root, "joints", "B", NULL), 0), 0.3, 1e-15);
    ck_assert_str_eq(json_string_value(at(root, "stock", "rail", "text")),
                     "square tube 20 x 20 x 2 mm");
    ck_assert(json_is_null(at(root, "limits", "droop ratio", NULL)));
    near_relative(json_number_value(at(root, "combine", "both", "push")), 1.5, 1e-15);
    json_decref(root);
    trivet_document_free(document);
}
END_TEST

START_TEST(stock_can_be_asked_for)
{
    char *text = NULL;
    ck_assert_int_eq(trivet_stock_json(NULL, &text, NULL), TRIVET_OK);
    json_t *root = parse(text);
    /* 16 BWG is 0.065 in, 16 MSG 0.0598 in: handbook tables */
    near_relative(json_number_value(at(root, "gauges", "BWG", "16")), 0.065 * 0.0254, 1e-12);
    near_relative(json_number_value(at(root, "gauges", "MSG", "16")), 0.0598 * 0.0254, 1e-12);
    ck_assert_uint_eq(json_array_size(at(root, "materials", NULL, NULL)),
                      (size_t)trivet_material_count());
    json_decref(root);
    ck_assert_int_eq(trivet_stock_json("E235", &text, NULL), TRIVET_OK);
    root = parse(text);
    ck_assert_uint_eq(json_array_size(at(root, "materials", NULL, NULL)), 1);
    ck_assert_uint_eq(json_object_size(at(root, "gauges", NULL, NULL)), 0);
    json_decref(root);
    ck_assert_int_eq(trivet_stock_json("BWG", &text, NULL), TRIVET_OK);
    root = parse(text);
    ck_assert_uint_eq(json_object_size(at(root, "gauges", NULL, NULL)), 1);
    json_decref(root);
    ck_assert_int_eq(trivet_stock_json("cheese", &text, NULL), TRIVET_BAD_NAME);
    ck_assert_ptr_null(text);
}
END_TEST

START_TEST(a_message_can_be_json)
{
    trivet_message message;
    trivet_document *document = NULL;
    char *text = NULL;
    ck_assert_int_eq(trivet_document_read_text("a: \"\n", 5, &document, &message),
                     TRIVET_BAD_SYNTAX);
    ck_assert_int_eq(trivet_message_json(&message, &text), TRIVET_OK);
    json_t *const root = parse(text);
    ck_assert_int_eq(json_integer_value(at(root, "error", "status", NULL)), TRIVET_BAD_SYNTAX);
    ck_assert_int_eq(json_integer_value(at(root, "error", "line", NULL)), 1);
    ck_assert_int_eq(json_integer_value(at(root, "error", "column", NULL)), 4);
    ck_assert_str_eq(json_string_value(at(root, "error", "problem", NULL)),
                     "a text in quotes is not closed");
    json_decref(root);
    ck_assert_int_eq(trivet_message_json(NULL, &text), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_message_json(&message, NULL), TRIVET_MISSING_ARGUMENT);
}
END_TEST

START_TEST(results_before_solving_are_refused)
{
    trivet_document *const document = read_good(FILE_TEXT);
    trivet_plan *plan = NULL;
    trivet_result *result = NULL;
    made it = make_results();
    char *text = NULL;
    ck_assert_int_eq(trivet_plan_new(trivet_document_frame(document), &plan, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_result_new(plan, &result, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_document_results_json(document, result, it.of.checks, &text, NULL),
                     TRIVET_BAD_ORDER);
    ck_assert_ptr_null(text);
    ck_assert_int_eq(trivet_document_results_json(NULL, result, it.of.checks, &text, NULL),
                     TRIVET_MISSING_ARGUMENT);
    trivet_result_free(result);
    trivet_plan_free(plan);
    trivet_document_free(document);
    release(&it);
}
END_TEST

int main(void)
{
    return run_tests("results as JSON",
                     TESTS(movements_and_reactions_read_back_to_the_bit,
                           spans_carry_ends_and_envelope, the_whole_has_its_keys_in_order,
                           what_was_understood_has_every_part, stock_can_be_asked_for,
                           a_message_can_be_json, results_before_solving_are_refused));
}
