/*
 * Parts of a run become the store that one sweep would have left, or it is said what is wrong.
 */
#include "store_place.h"
#include "sweep/store.h"
#include "sweep_rows.h"

#include "support/refused.h"
#include "support/run.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

enum { ROWS = 11000, CUT_ONE = 3001, CUT_TWO = 9500 };

static uint64_t hash_of_one_sweep(int64_t count)
{
    enum { BATCH = 500 };
    trivet__store *const store = place_open(count);
    place_feed(store, count, BATCH);
    return place_finish(store);
}

START_TEST(merged_parts_are_what_one_sweep_leaves)
{
    trivet_message message = {0};
    const char *const parts[] = {
        place_part("c", ROWS, CUT_TWO, ROWS), place_part("a", ROWS, 0, CUT_ONE),
        place_part("b", ROWS, CUT_ONE, CUT_TWO), place_part("none", ROWS, CUT_ONE, CUT_ONE)};
    fine(trivet__store_merge(place_path("all"), parts, 4, &message), &message);
    const uint64_t merged = place_hash("all");
    ck_assert(!place_has("all-wal"));
    ck_assert_uint_eq(merged, hash_of_one_sweep(ROWS));
    /* Once more, into what is there: nothing to do. */
    fine(trivet__store_merge(place_path("all"), parts, 4, &message), &message);
    ck_assert_uint_eq(place_hash("all"), merged);
}
END_TEST

START_TEST(stopped_merge_goes_on_where_it_was)
{
    trivet_message message = {0};
    const char *const parts[] = {place_part("a", ROWS, 0, CUT_ONE),
                                 place_part("b", ROWS, CUT_ONE, ROWS)};
    /* What a merge leaves that is stopped: rows of a part or two, none finished. */
    for (int64_t stop = CUT_ONE - 1; stop <= CUT_ONE + 1; stop++) {
        const trivet__run_head head = made_head(ROWS, 0, ROWS);
        trivet__store *store = NULL;
        fine(trivet__store_open(place_path("all"), &head, &store, &message), &message);
        place_feed(store, stop, 1000);
        trivet__store_free(store);
        fine(trivet__store_merge(place_path("all"), parts, 2, &message), &message);
        ck_assert_uint_eq(place_hash("all"), hash_of_one_sweep(ROWS));
        ck_assert_int_eq(remove(place_path("all")), 0);
        ck_assert_int_eq(remove(place_path("runs.sqlite")), 0);
    }
}
END_TEST

/* Merges two parts; the refusal must end in text, and nothing may have been made. */
static void merge_refused(const char *const *parts, int32_t count, trivet_status status,
                          const char *text)
{
    trivet_message message = {0};
    char line[1024];
    ck_assert_int_eq(trivet__store_merge(place_path("all"), parts, count, &message), status);
    trivet_message_text(&message, line, sizeof line);
    ck_assert_msg(strlen(line) >= strlen(text) &&
                      strcmp(line + strlen(line) - strlen(text), text) == 0,
                  "%s", line);
    ck_assert(!place_has("all"));
}

START_TEST(gap_and_overlap_are_named)
{
    char text[1024];
    const char *const a = place_part("a", 900, 0, 300);
    const char *const b = place_part("b", 900, 300, 600);
    const char *const c = place_part("c", 900, 500, 900);
    const char *const d = place_part("d", 900, 700, 900);
    merge_refused(
        (const char *const[]){b, a}, 2, TRIVET_BAD_VALUE,
        "the parts: variants 600 to 899 are in none of them; give the stores of all parts");
    merge_refused((const char *const[]){a, b, d}, 3, TRIVET_BAD_VALUE,
                  "variants 600 to 699 are in none of them; give the stores of all parts");
    merge_refused(&b, 1, TRIVET_BAD_VALUE,
                  "variants 0 to 299 are in none of them; give the stores of all parts");
    snprintf(text, sizeof text,
             "the parts: variants 500 to 599 are in %s and in %s; give each part "
             "once",
             b, c);
    merge_refused((const char *const[]){a, c, b}, 3, TRIVET_BAD_VALUE, text);
    snprintf(text, sizeof text, "variants 0 to 299 are in %s and in %s; give each part once", a, a);
    merge_refused((const char *const[]){a, b, a, d}, 4, TRIVET_BAD_VALUE, text);
    merge_refused(&a, 0, TRIVET_BAD_VALUE,
                  "the parts: there are none; give the stores of all parts");
}
END_TEST

START_TEST(parts_of_other_runs_and_unfinished_ones_are_refused)
{
    char text[1024];
    trivet_message message = {0};
    trivet__store *store = NULL;
    const char *const a = place_part("a", 900, 0, 300);
    trivet__run_head head = made_head(900, 300, 900);
    fine(trivet__store_open(place_path("b"), &head, &store, &message), &message);
    place_feed(store, 420, 60);
    trivet__store_free(store);
    merge_refused(
        (const char *const[]){a, place_path("b")}, 2, TRIVET_BAD_VALUE,
        "this part is not finished: 120 of 600 variants are there; sweep this part to its "
        "end first");
    head.settings = "random, 900 samples, seed 7";
    fine(trivet__store_open(place_path("c"), &head, &store, &message), &message);
    trivet__store_free(store);
    snprintf(text, sizeof text,
             "does not belong to %s: this store was made with other settings: random, 900 samples, "
             "seed 7; wanted: all combinations; every case; merge the parts of one sweep",
             a);
    merge_refused((const char *const[]){a, place_path("c")}, 2, TRIVET_BAD_VALUE, text);
    merge_refused(
        (const char *const[]){a, place_path("none")}, 2, TRIVET_UNREADABLE,
        "none: this file cannot be opened; give the name of a store that a sweep has made");
}
END_TEST

START_TEST(part_is_no_target)
{
    trivet_message message = {0};
    const char *const parts[] = {place_part("a", 900, 0, 300), place_part("b", 900, 300, 900)};
    const uint64_t before = place_hash("a");
    char text[1024];
    snprintf(text, sizeof text,
             "%s: this store is of the part from variant 0 up to 300; wanted is 0 up to 900; give "
             "another name for the store, or delete this one to sweep anew",
             parts[0]);
    refused(trivet__store_merge(parts[0], parts, 2, &message), TRIVET_BAD_VALUE, &message, text);
    ck_assert_uint_eq(place_hash("a"), before);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(merged_parts_are_what_one_sweep_leaves, stopped_merge_goes_on_where_it_was,
              gap_and_overlap_are_named, parts_of_other_runs_and_unfinished_ones_are_refused,
              part_is_no_target);
    tcase_add_checked_fixture(tests, place_make, place_remove);
    return run_tests("merging stores", tests);
}
