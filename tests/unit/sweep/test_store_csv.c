/*
 * The rows as CSV, letter by letter.
 */
#include "store_place.h"
#include "sweep/store.h"
#include "sweep_rows.h"

#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct text {
    char bytes[1 << 16];
    size_t length;
    size_t most; /* after this many bytes nothing more is taken */
} text;

static trivet_status take(void *user, const char *bytes, size_t length, trivet_message *message)
{
    text *const t = user;
    if (t->length + length > t->most) {
        return trivet__refuse(message, TRIVET_UNWRITABLE, "the pipe", "is full", "empty it");
    }
    memcpy(t->bytes + t->length, bytes, length);
    t->length += length;
    t->bytes[t->length] = '\0';
    return TRIVET_OK;
}

static const char *const names[] = {"reach", "=SUM(A1)", "said \"so\", twice"};
static const char *const stock[] = {"+20 x 2", "a,b", "two\nlines", "-"};

static trivet__run_head small_head(void)
{
    static const int32_t kinds[] = {0, 0, 1};
    static const int32_t dimensions[] = {TRIVET_LENGTH, TRIVET_NUMBER, 0};
    static const int32_t counts[] = {0, 0, 4};
    static const char *const *const choices[] = {NULL, NULL, stock};
    trivet__run_head head = made_head(3, 0, 3);
    head.input_count = 3;
    head.input_names = names;
    head.input_kinds = kinds;
    head.input_dimensions = dimensions;
    head.choice_counts = counts;
    head.choices = choices;
    return head;
}

static void put_three(const char *where)
{
    static const double inputs[3][3] = {{0.18, -2.0, 0}, {0.0254, 0.1, 1}, {0.3, 1e-9, 3}};
    const double unknown = (double)NAN;
    const trivet__variant_row rows[] = {{0,
                                         inputs[0],
                                         "",
                                         TRIVET__SOLVED,
                                         {1, 0, 4},
                                         {0.57, unknown, 1.25},
                                         "droop",
                                         where,
                                         "road, braking",
                                         0.00505,
                                         3.41,
                                         unknown,
                                         812.5},
                                        {1,
                                         inputs[1],
                                         "@rail: \"too\" thin",
                                         TRIVET__UNSOLVED,
                                         {0, 0, 0},
                                         {unknown, unknown, unknown},
                                         NULL,
                                         NULL,
                                         NULL,
                                         unknown,
                                         unknown,
                                         unknown,
                                         unknown},
                                        {2,
                                         inputs[2],
                                         NULL,
                                         TRIVET__SKIPPED,
                                         {0, 0, 0},
                                         {(double)INFINITY, unknown, unknown},
                                         "",
                                         "",
                                         "",
                                         unknown,
                                         unknown,
                                         12.0,
                                         unknown}};
    const trivet__run_head head = small_head();
    trivet_message message = {0};
    trivet__store *store = NULL;
    fine(trivet__store_open(place_path("runs.sqlite"), &head, &store, &message), &message);
    fine(trivet__store_put(store, rows, 3, NULL, 0, &message), &message);
    place_finish(store);
}

static trivet_status write_all(const trivet_units *units, text *all, trivet_message *message)
{
    trivet__store *store = NULL;
    fine(trivet__store_read(place_path("runs.sqlite"), &store, message), message);
    const trivet_status status = trivet__store_csv(store, units, take, all, message);
    trivet__store_free(store);
    return status;
}

START_TEST(text_is_quoted_and_cannot_be_a_formula)
{
    static text all;
    trivet_message message = {0};
    all = (text){.most = sizeof all.bytes - 1};
    put_three("left rail");
    fine(write_all(NULL, &all, &message), &message);
    ck_assert_str_eq(
        all.bytes,
        "variant,reach (mm),'=SUM(A1),\"said \"\"so\"\", twice\",outcome,reason,overload,cracking,"
        "service,overload used (%),cracking used (%),service used (%),governing check,where,case,"
        "droop (mm),mass (kg),price,mount force (N)\r\n"
        "0,180,-2,'+20 x 2,solved,,holds,not checked,fails,57,,125,droop,left rail,"
        "\"road, braking\",5.05,3.41,,812.5\r\n"
        "1,25.4,0.1,\"a,b\",failed,\"'@rail: \"\"too\"\" thin\",,,,,,,,,,,,,\r\n"
        "2,300,1e-9,'-,skipped,,,,,infinite,,,,,,,,12,\r\n");
}
END_TEST

START_TEST(units_are_the_users)
{
    static text all;
    trivet_message message = {0};
    trivet_units units;
    all = (text){.most = sizeof all.bytes - 1};
    ck_assert_int_eq(trivet_units_defaults(&units, sizeof units), TRIVET_OK);
    strcpy(units.length, "in");
    strcpy(units.mass, "lb");
    strcpy(units.force, "lbf");
    put_three("left rail");
    fine(write_all(&units, &all, &message), &message);
    ck_assert_ptr_nonnull(strstr(all.bytes, "droop (in),mass (lb),price,mount force (lbf)\r\n"));
    /* 0.0254 m is 1 in by definition. */
    ck_assert_ptr_nonnull(strstr(all.bytes, "\r\n1,1,0.1,"));
}
END_TEST

START_TEST(byte_order_mark_only_with_letters_beyond_ascii)
{
    static text all;
    trivet_message message = {0};
    all = (text){.most = sizeof all.bytes - 1};
    put_three("T\xC3\xBCr");
    fine(write_all(NULL, &all, &message), &message);
    ck_assert_mem_eq(all.bytes, "\xEF\xBB\xBFvariant,", 11);
    ck_assert_ptr_nonnull(strstr(all.bytes, ",T\xC3\xBCr,"));
}
END_TEST

START_TEST(refusal_of_whoever_takes_it_is_passed_on)
{
    enum { MANY = 3000 };
    static text all;
    trivet_message message = {0};
    trivet__store *const store = place_open(MANY);
    place_feed(store, MANY, 1000);
    place_finish(store);
    all = (text){.most = 20000};
    ck_assert_int_eq(write_all(NULL, &all, &message), TRIVET_UNWRITABLE);
    ck_assert_str_eq(message.problem, "is full");
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(text_is_quoted_and_cannot_be_a_formula, units_are_the_users,
                               byte_order_mark_only_with_letters_beyond_ascii,
                               refusal_of_whoever_takes_it_is_passed_on);
    tcase_add_checked_fixture(tests, place_make, place_remove);
    return run_tests("a store as CSV", tests);
}
