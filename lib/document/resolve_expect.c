/*
 * Expectations: what was worked out by hand, where, in which case, and how near it must come.
 */
#include "document/reading.h"

#include "base/memory.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

#define WITHIN_DEFAULT 0.01 /* a share of the value */

typedef struct what_row {
    const char *word;
    int32_t kind; /* a trivet__expect_kind */
    int32_t component;
    trivet_dimension dimension;
} what_row;

static const what_row what_rows[] = {
    {"droop", TRIVET__EXPECT_DROOP, 2, TRIVET_LENGTH},
    {"move x", TRIVET__EXPECT_MOVE, 0, TRIVET_LENGTH},
    {"move y", TRIVET__EXPECT_MOVE, 1, TRIVET_LENGTH},
    {"move z", TRIVET__EXPECT_MOVE, 2, TRIVET_LENGTH},
    {"turn x", TRIVET__EXPECT_MOVE, 3, TRIVET_ANGLE},
    {"turn y", TRIVET__EXPECT_MOVE, 4, TRIVET_ANGLE},
    {"turn z", TRIVET__EXPECT_MOVE, 5, TRIVET_ANGLE},
    {"reaction x", TRIVET__EXPECT_REACTION, 0, TRIVET_FORCE},
    {"reaction y", TRIVET__EXPECT_REACTION, 1, TRIVET_FORCE},
    {"reaction z", TRIVET__EXPECT_REACTION, 2, TRIVET_FORCE},
    {"reaction mx", TRIVET__EXPECT_REACTION, 3, TRIVET_MOMENT},
    {"reaction my", TRIVET__EXPECT_REACTION, 4, TRIVET_MOMENT},
    {"reaction mz", TRIVET__EXPECT_REACTION, 5, TRIVET_MOMENT},
    {"N", TRIVET__EXPECT_INSIDE, 0, TRIVET_FORCE},
    {"Vy", TRIVET__EXPECT_INSIDE, 1, TRIVET_FORCE},
    {"Vz", TRIVET__EXPECT_INSIDE, 2, TRIVET_FORCE},
    {"T", TRIVET__EXPECT_INSIDE, 3, TRIVET_MOMENT},
    {"My", TRIVET__EXPECT_INSIDE, 4, TRIVET_MOMENT},
    {"Mz", TRIVET__EXPECT_INSIDE, 5, TRIVET_MOMENT},
    {"stress", TRIVET__EXPECT_STRESS, 0, TRIVET_STRESS},
    {"utilisation", TRIVET__EXPECT_UTILISATION, 0, TRIVET_NUMBER},
    {"mass", TRIVET__EXPECT_MASS, 0, TRIVET_MASS},
};

enum { WHAT_COUNT = sizeof what_rows / sizeof what_rows[0] };

static const char *const check_words[] = {"yield",      "droop",       "droop ratio", "mount pull",
                                          "mount push", "mount shear", "mount moment"};

enum { CHECK_COUNT = sizeof check_words / sizeof check_words[0], FIRST_MOUNT_CHECK = 3 };

/* An expectation that is being read. */
typedef struct expect_reading {
    const trivet__reading *reading;
    const trivet__node *map;
    const trivet__thing *thing;
    trivet__expect expect;
} expect_reading;

static trivet_status refuse(const expect_reading *r, const trivet__node *node, const char *key,
                            trivet_status status, const char *problem, const char *remedy)
{
    trivet__thing thing = *r->thing;
    if (key) {
        trivet__thing_key(&thing, r->thing, key);
    }
    return trivet__refuse_node(r->reading, node, &thing, status, problem, remedy);
}

static const trivet__node *member(const expect_reading *r, const char *key)
{
    return trivet__member(r->reading, r->map, key);
}

static trivet_status read_what(expect_reading *r)
{
    const char *words[WHAT_COUNT];
    for (int32_t i = 0; i < WHAT_COUNT; i++) {
        words[i] = what_rows[i].word;
    }
    trivet__thing thing;
    int32_t row = 0;
    trivet__thing_key(&thing, r->thing, "what");
    const trivet_status status =
        trivet__read_choice(r->reading, member(r, "what"), &thing, words, WHAT_COUNT, &row);
    r->expect.kind = what_rows[row].kind;
    r->expect.component = what_rows[row].component;
    r->expect.dimension = (int32_t)what_rows[row].dimension;
    return status;
}

/* The check for stress and utilisation; where it is made decides what `at` names. */
static trivet_status read_check(expect_reading *r, const char **check_out)
{
    const trivet__node *const node = member(r, "check");
    *check_out = "yield";
    if (!node) {
        return TRIVET_OK;
    }
    if (r->expect.kind != TRIVET__EXPECT_UTILISATION) {
        return refuse(r, node, "check", TRIVET_BAD_KEY, "only a utilisation has a check",
                      "leave it out");
    }
    trivet__thing thing;
    int32_t choice = 0;
    trivet__thing_key(&thing, r->thing, "check");
    const trivet_status status =
        trivet__read_choice(r->reading, node, &thing, check_words, CHECK_COUNT, &choice);
    *check_out = check_words[choice];
    if (choice >= FIRST_MOUNT_CHECK) {
        r->expect.where_kind = TRIVET_KIND_MOUNT;
    }
    return status;
}

/* What `at` may name for each thing that is expected. */
static void list_kinds(const expect_reading *r, int32_t *first, int32_t *second)
{
    *second = 0;
    switch (r->expect.kind) {
    case TRIVET__EXPECT_DROOP:
    case TRIVET__EXPECT_MOVE:
        *first = TRIVET_KIND_JOINT;
        *second = TRIVET_KIND_TUBE;
        break;
    case TRIVET__EXPECT_REACTION:
        *first = TRIVET_KIND_MOUNT;
        break;
    case TRIVET__EXPECT_UTILISATION:
        *first = r->expect.where_kind == TRIVET_KIND_MOUNT ? TRIVET_KIND_MOUNT : TRIVET_KIND_TUBE;
        break;
    default:
        *first = TRIVET_KIND_TUBE;
        break;
    }
}

static int names_thing(const expect_reading *r, int32_t kind, const char *name, int32_t *index)
{
    return kind != 0 && trivet_frame_find(r->reading->frame, kind, name, index, NULL) == TRIVET_OK;
}

static trivet_status read_at(expect_reading *r)
{
    const trivet__node *const node = member(r, "at");
    if (r->expect.kind == TRIVET__EXPECT_MASS) {
        r->expect.where_kind = 0;
        return node ? refuse(r, node, "at", TRIVET_BAD_KEY,
                             "the mass is that of the whole frame without cargo", "leave it out")
                    : TRIVET_OK;
    }
    if (!node) {
        return refuse(r, r->map, NULL, TRIVET_INCOMPLETE, "does not say where",
                      "add \"at\" with the name of a joint, tube or mount");
    }
    trivet__thing thing;
    const char *name = NULL;
    int32_t kinds[2] = {0, 0};
    int32_t index[2] = {-1, -1};
    trivet__thing_key(&thing, r->thing, "at");
    list_kinds(r, &kinds[0], &kinds[1]);
    const trivet_status status = trivet__read_name(r->reading, node, &thing, &name);
    if (status) {
        return status;
    }
    const int is_first = names_thing(r, kinds[0], name, &index[0]);
    const int is_second = names_thing(r, kinds[1], name, &index[1]);
    if (is_first && is_second && !member(r, "from")) {
        return refuse(r, node, "at", TRIVET_BAD_NAME, "this is the name of a joint and of a tube",
                      "rename one of them");
    }
    const int use_second = is_second && (!is_first || member(r, "from"));
    r->expect.where_kind = kinds[use_second ? 1 : 0];
    r->expect.where_index = index[use_second ? 1 : 0];
    return is_first || is_second
               ? TRIVET_OK
               : trivet__read_thing(r->reading, node, &thing, kinds[0], &r->expect.where_index);
}

/* `from` says where along the tube; without it droop and forces are the largest along it. */
static trivet_status read_from(expect_reading *r)
{
    const trivet__node *const node = member(r, "from");
    const int32_t kind = r->expect.kind;
    const int may_have = r->expect.where_kind == TRIVET_KIND_TUBE &&
                         (kind == TRIVET__EXPECT_DROOP || kind == TRIVET__EXPECT_MOVE ||
                          kind == TRIVET__EXPECT_INSIDE);
    r->expect.from = (double)NAN;
    if (!node) {
        const int needs = kind == TRIVET__EXPECT_MOVE && r->expect.where_kind == TRIVET_KIND_TUBE;
        return needs
                   ? refuse(r, r->map, NULL, TRIVET_INCOMPLETE, "does not say where along the tube",
                            "add \"from\", such as from: 50 %")
                   : TRIVET_OK;
    }
    if (!may_have) {
        return refuse(r, node, "from", TRIVET_BAD_KEY,
                      "only droop, movement and forces along a tube have a place on it",
                      "leave it out");
    }
    return trivet__read_along(r->reading, r->map, r->thing, "from", r->expect.where_index,
                              &r->expect.from);
}

static trivet_status read_case(expect_reading *r)
{
    const trivet__node *const node = member(r, "case");
    const trivet_frame *const frame = r->reading->frame;
    r->expect.result_column = -1;
    if (r->expect.kind == TRIVET__EXPECT_MASS) {
        return TRIVET_OK;
    }
    if (!node) {
        return refuse(r, r->map, NULL, TRIVET_INCOMPLETE, "does not say in which case",
                      "add \"case\" with the name of a case or combination");
    }
    trivet__thing thing;
    const char *name = NULL;
    int32_t index = -1;
    trivet__thing_key(&thing, r->thing, "case");
    const trivet_status status = trivet__read_name(r->reading, node, &thing, &name);
    if (status) {
        return status;
    }
    if (names_thing(r, TRIVET_KIND_COMBINATION, name, &index)) {
        r->expect.result_column = trivet_frame_count(frame, TRIVET_KIND_CASE) + index;
        return TRIVET_OK;
    }
    return trivet__read_thing(r->reading, node, &thing, TRIVET_KIND_CASE, &r->expect.result_column);
}

static trivet_status read_within(expect_reading *r)
{
    const trivet__node *const node = member(r, "within");
    const trivet_dimension dimension = (trivet_dimension)r->expect.dimension;
    const double value = r->expect.value;
    r->expect.within = WITHIN_DEFAULT;
    trivet__thing thing;
    trivet__thing_key(&thing, r->thing, "within");
    if (!node) {
        return value != 0.0 ? TRIVET_OK
                            : refuse(r, r->map, NULL, TRIVET_INCOMPLETE,
                                     "expects nothing, and a share of nothing is nothing",
                                     "add \"within\" with a unit, such as within: 0.1 mm");
    }
    trivet_quantity quantity;
    double within = 0.0;
    trivet_status status = trivet__read_quantity(r->reading, node, &thing, &quantity);
    if (status) {
        return status;
    }
    const int is_share = trivet_quantity_fits(&quantity, TRIVET_NUMBER);
    if (is_share && value == 0.0 && dimension != TRIVET_NUMBER && dimension != TRIVET_ANGLE) {
        return refuse(r, node, "within", TRIVET_BAD_UNIT, "a share of nothing is nothing",
                      "write it with a unit, such as within: 0.1 mm");
    }
    status = trivet__fit_quantity(r->reading, node, &thing, &quantity,
                                  is_share ? TRIVET_NUMBER : dimension, &within);
    if (!status && !(within > 0.0)) {
        return refuse(r, node, "within", TRIVET_BAD_VALUE, "leaves no room at all",
                      "give more than 0, such as 1 %");
    }
    r->expect.within = is_share || value == 0.0 ? within : within / fabs(value);
    return status;
}

static trivet_status read_value(expect_reading *r)
{
    trivet_status status =
        trivet__read_key(r->reading, r->map, r->thing, "value",
                         (trivet_dimension)r->expect.dimension, TRIVET__ANY, &r->expect.value);
    const int is_largest = r->expect.kind == TRIVET__EXPECT_INSIDE && isnan(r->expect.from);
    if (!status && is_largest && r->expect.value < 0.0) {
        return refuse(r, member(r, "value"), "value", TRIVET_BAD_VALUE,
                      "the largest size along a tube is never below 0",
                      "leave out the minus, or say where with \"from\"");
    }
    return status ? status : read_within(r);
}

static trivet_status keep_texts(expect_reading *r, const char *check)
{
    const trivet__tree *const tree = r->reading->tree;
    const char *const what = trivet__tree_text(tree, member(r, "what"));
    const trivet__node *const by_node = member(r, "by");
    const char *const by = trivet__tree_text(tree, by_node);
    r->expect.what = trivet__text_keep(what, strlen(what));
    r->expect.check = trivet__text_keep(check, strlen(check));
    r->expect.by = trivet__text_keep(by, strlen(by));
    if (r->expect.what && r->expect.check && r->expect.by &&
        trivet__note(&r->reading->document->expects, &r->expect, sizeof r->expect)) {
        return TRIVET_OK;
    }
    trivet__give_back(r->expect.what);
    trivet__give_back(r->expect.check);
    trivet__give_back(r->expect.by);
    return trivet__no_memory(r->reading->message);
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *map,
                              const trivet__thing *thing)
{
    expect_reading r = {.reading = reading, .map = map, .thing = thing};
    const char *check = "yield";
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_EXPECT);
    trivet_status (*const steps[])(expect_reading *) = {read_at, read_from, read_case, read_value};
    if (!status) {
        status = read_what(&r);
    }
    if (!status) {
        status = read_check(&r, &check);
    }
    for (size_t i = 0; i < sizeof steps / sizeof steps[0] && !status; i++) {
        status = steps[i](&r);
    }
    return status ? status : keep_texts(&r, check);
}

trivet_status trivet__read_expect(trivet__reading *reading)
{
    const trivet__thing nowhere = {""};
    const trivet__node *list = NULL;
    trivet__thing within;
    trivet_status status = trivet__read_list_key(
        reading, reading->root, &nowhere, "expect",
        "[{what: droop, at: A, case: parked, value: 1.9 mm}]", &within, &list);
    const trivet__node *item = status ? NULL : trivet__tree_first(reading->tree, list);
    for (int32_t i = 1; item && !status; i++) {
        trivet__thing thing;
        trivet__thing_item(&thing, &nowhere, "expect", i);
        status = read_one(reading, item, &thing);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}
