/*
 * Expectations: what was worked out by hand, where, in which case, and how near it must come.
 */
#include "document/reading.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

#define WITHIN_DEFAULT 0.01 /* a share of the value */

enum { OF_THE_CHECK = -1, UTILISATION = 0, DEMAND = 1, LIMIT = 2 };

typedef struct what_row {
    const char *word;
    int32_t kind; /* a trivet__expect_kind */
    int32_t component;
    int32_t dimension; /* a trivet_dimension; OF_THE_CHECK: known once that is made */
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
    {"stress", TRIVET__EXPECT_CHECK, DEMAND, TRIVET_STRESS},
    {"utilisation", TRIVET__EXPECT_CHECK, UTILISATION, TRIVET_NUMBER},
    {"demand", TRIVET__EXPECT_CHECK, DEMAND, OF_THE_CHECK},
    {"limit", TRIVET__EXPECT_CHECK, LIMIT, OF_THE_CHECK},
    {"section area", TRIVET__EXPECT_SECTION, 0, TRIVET_AREA},
    {"shear area y", TRIVET__EXPECT_SECTION, 1, TRIVET_AREA},
    {"shear area z", TRIVET__EXPECT_SECTION, 2, TRIVET_AREA},
    {"second moment y", TRIVET__EXPECT_SECTION, 3, TRIVET_SECOND_MOMENT},
    {"second moment z", TRIVET__EXPECT_SECTION, 4, TRIVET_SECOND_MOMENT},
    {"section modulus y", TRIVET__EXPECT_SECTION, 5, TRIVET_VOLUME},
    {"section modulus z", TRIVET__EXPECT_SECTION, 6, TRIVET_VOLUME},
    {"plastic modulus y", TRIVET__EXPECT_SECTION, 7, TRIVET_VOLUME},
    {"plastic modulus z", TRIVET__EXPECT_SECTION, 8, TRIVET_VOLUME},
    {"torsion constant", TRIVET__EXPECT_SECTION, 9, TRIVET_SECOND_MOMENT},
    {"torsion modulus", TRIVET__EXPECT_SECTION, 10, TRIVET_VOLUME},
    {"radius of gyration y", TRIVET__EXPECT_SECTION, 11, TRIVET_LENGTH},
    {"radius of gyration z", TRIVET__EXPECT_SECTION, 12, TRIVET_LENGTH},
    {"mass per length", TRIVET__EXPECT_SECTION, 13, TRIVET_MASS_PER_LENGTH},
    {"torque allowed", TRIVET__EXPECT_SCREW, 0, TRIVET_MOMENT},
    {"torque table", TRIVET__EXPECT_SCREW, 1, TRIVET_MOMENT},
    {"preload", TRIVET__EXPECT_SCREW, 2, TRIVET_FORCE},
    {"least preload", TRIVET__EXPECT_SCREW, 3, TRIVET_FORCE},
    {"most preload", TRIVET__EXPECT_SCREW, 4, TRIVET_FORCE},
    {"mass", TRIVET__EXPECT_MASS, 0, TRIVET_MASS},
};

enum { WHAT_COUNT = sizeof what_rows / sizeof what_rows[0], CHECKS_MAX = 64 };

/* An expectation that is being read. */
typedef struct expect_reading {
    const trivet__reading *reading;
    const trivet__node *map;
    const trivet__thing *thing;
    const char *check; /* static */
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

static const char *text_of(const expect_reading *r, const char *key)
{
    return trivet__tree_text(r->reading->tree, member(r, key));
}

/* There are too many words to list them all. */
static trivet_status refuse_what(const expect_reading *r, const trivet__node *node)
{
    char shown[TRIVET__SHOWN_MAX];
    trivet__thing thing;
    trivet__nearest search = {text_of(r, "what"), NULL, 0};
    for (int32_t i = 0; i < WHAT_COUNT; i++) {
        trivet__nearest_offer(&search, what_rows[i].word);
    }
    trivet__thing_key(&thing, r->thing, "what");
    const trivet_status status = trivet__complain(r->reading, node, &thing, TRIVET_BAD_NAME);
    trivet__message_problem(r->reading->message, "\"%s\" is not known here",
                            trivet__shown(r->reading, node, shown));
    if (trivet__meant(&search)) {
        trivet__message_remedy(r->reading->message, "did you mean \"%s\"?", search.nearest);
    } else {
        trivet__message_remedy(
            r->reading->message,
            "write droop, move x, turn y, reaction z, N, Vy, Vz, T, My, Mz, stress, utilisation, "
            "demand, limit, mass, torque allowed, torque table, preload, or a section value such "
            "as section area, second moment y, section modulus y, torsion constant");
    }
    return status;
}

static trivet_status read_what(expect_reading *r)
{
    const trivet__node *const node = member(r, "what");
    trivet__thing thing;
    trivet__thing_key(&thing, r->thing, "what");
    const trivet_status status = trivet__need_scalar(r->reading, node, &thing);
    if (status) {
        return status;
    }
    const char *const word = text_of(r, "what");
    if (strstr(word, "frequency")) {
        return refuse(r, node, "what", TRIVET_BAD_NAME,
                      "frequencies are not worked out by this version",
                      "take this one out, or turn it into a comment");
    }
    for (int32_t row = 0; row < WHAT_COUNT; row++) {
        if (strcmp(word, what_rows[row].word) == 0) {
            r->expect.kind = what_rows[row].kind;
            r->expect.component = what_rows[row].component;
            r->expect.dimension = what_rows[row].dimension;
            return TRIVET_OK;
        }
    }
    return refuse_what(r, node);
}

/* Which check a utilisation, demand or limit is of; a stress is the demand of yield. */
static trivet_status read_check(expect_reading *r)
{
    const trivet__node *const node = member(r, "check");
    const char *names[CHECKS_MAX];
    int32_t count = 0;
    int32_t choice = 0;
    r->check = "yield";
    if (!node) {
        return TRIVET_OK;
    }
    if (r->expect.kind != TRIVET__EXPECT_CHECK || r->expect.dimension == TRIVET_STRESS) {
        return refuse(r, node, "check", TRIVET_BAD_KEY,
                      "only a utilisation, demand or limit has a check", "leave it out");
    }
    for (; count < CHECKS_MAX && trivet_check_name(count); count++) {
        names[count] = trivet_check_name(count);
    }
    trivet__thing thing;
    trivet__thing_key(&thing, r->thing, "check");
    const trivet_status status =
        trivet__read_choice(r->reading, node, &thing, names, count, &choice);
    r->check = names[choice];
    return status;
}

/* Whether a check is made of the whole. */
static int is_of_all(const expect_reading *r)
{
    return r->expect.kind == TRIVET__EXPECT_MASS ||
           (r->expect.kind == TRIVET__EXPECT_CHECK && strcmp(r->check, "rack rating") == 0);
}

enum { KINDS_MAX = 4 };

/*
 * What `at` may name, the likeliest first; 0 ends the list. A check may be of any of them: whether
 * it is made there shows later.
 */
static void list_kinds(const expect_reading *r, int32_t kinds[KINDS_MAX])
{
    static const int32_t OF_CHECK[KINDS_MAX] = {TRIVET_KIND_TUBE, TRIVET_KIND_MOUNT,
                                                TRIVET_KIND_DECK, TRIVET_KIND_JOINT};
    static const int32_t OF_SCREW[KINDS_MAX] = {TRIVET_KIND_MOUNT, TRIVET_KIND_TUBE,
                                                TRIVET_KIND_DECK};
    static const int32_t OF_MOVE[KINDS_MAX] = {TRIVET_KIND_JOINT, TRIVET_KIND_TUBE};
    static const int32_t OF_MOUNT[KINDS_MAX] = {TRIVET_KIND_MOUNT};
    static const int32_t OF_SECTION[KINDS_MAX] = {TRIVET_KIND_STOCK};
    static const int32_t OF_TUBE[KINDS_MAX] = {TRIVET_KIND_TUBE};
    const int32_t *found = OF_TUBE;
    switch (r->expect.kind) {
    case TRIVET__EXPECT_DROOP:
    case TRIVET__EXPECT_MOVE:
        found = OF_MOVE;
        break;
    case TRIVET__EXPECT_REACTION:
        found = OF_MOUNT;
        break;
    case TRIVET__EXPECT_SECTION:
        found = OF_SECTION;
        break;
    case TRIVET__EXPECT_SCREW:
        found = OF_SCREW;
        break;
    case TRIVET__EXPECT_CHECK:
        found = strncmp(r->check, "mount", 5) == 0 ? OF_MOUNT : OF_CHECK;
        break;
    default:
        break;
    }
    memcpy(kinds, found, KINDS_MAX * sizeof *kinds);
}

static int names_thing(const expect_reading *r, int32_t kind, const char *name, int32_t *index)
{
    return kind != 0 && trivet_frame_find(r->reading->frame, kind, name, index, NULL) == TRIVET_OK;
}

/* The first of the kinds that has a thing of that name; a movement along a tube is of the tube. */
static trivet_status find_place(expect_reading *r, const trivet__node *node,
                                const trivet__thing *thing, const char *name)
{
    int32_t kinds[KINDS_MAX];
    int32_t found = 0;
    list_kinds(r, kinds);
    for (int i = 0; i < KINDS_MAX; i++) {
        int32_t index = -1;
        if (!names_thing(r, kinds[i], name, &index)) {
            continue;
        }
        const int is_along = kinds[i] == TRIVET_KIND_TUBE && member(r, "from");
        if (found == 0 || is_along) {
            r->expect.where_kind = kinds[i];
            r->expect.where_index = index;
        } else if (kinds[0] == TRIVET_KIND_JOINT && !is_along) {
            return refuse(r, node, "at", TRIVET_BAD_NAME,
                          "this is the name of a joint and of a tube", "rename one of them");
        }
        found++;
    }
    return found > 0
               ? TRIVET_OK
               : trivet__read_thing(r->reading, node, thing, kinds[0], &r->expect.where_index);
}

static trivet_status read_at(expect_reading *r)
{
    const trivet__node *const node = member(r, "at");
    r->expect.place = "";
    if (is_of_all(r)) {
        return node ? refuse(r, node, "at", TRIVET_BAD_KEY,
                             r->expect.kind == TRIVET__EXPECT_MASS
                                 ? "the mass is that of the whole frame without cargo"
                                 : "the rack's rating is for all of it together",
                             "leave it out")
                    : TRIVET_OK;
    }
    if (!node) {
        return refuse(r, r->map, NULL, TRIVET_INCOMPLETE, "does not say where",
                      r->expect.kind == TRIVET__EXPECT_SECTION
                          ? "add \"at\" with the name of a stock"
                          : "add \"at\" with the name of a joint, tube or mount");
    }
    trivet__thing thing;
    const char *name = NULL;
    trivet__thing_key(&thing, r->thing, "at");
    trivet_status status = trivet__read_name(r->reading, node, &thing, &name);
    if (!status) {
        status = find_place(r, node, &thing, name);
    }
    if (!status) {
        r->expect.place =
            trivet_frame_name(r->reading->frame, r->expect.where_kind, r->expect.where_index);
    }
    return status;
}

/* `joint` tells the two ends of a tube or the corners of a deck apart. */
static trivet_status read_joint(expect_reading *r)
{
    const trivet__node *const node = member(r, "joint");
    r->expect.joint = -1;
    if (!node) {
        return TRIVET_OK;
    }
    if (r->expect.kind != TRIVET__EXPECT_CHECK && r->expect.kind != TRIVET__EXPECT_SCREW) {
        return refuse(r, node, "joint", TRIVET_BAD_KEY,
                      "only checks and screws are at a joint of something",
                      "leave it out, or name the joint behind \"at\"");
    }
    trivet__thing thing;
    trivet__thing_key(&thing, r->thing, "joint");
    return trivet__read_thing(r->reading, node, &thing, TRIVET_KIND_JOINT, &r->expect.joint);
}

/* The set of screws that a torque or preload is of. */
static trivet_status find_screws(expect_reading *r)
{
    int32_t found = 0;
    if (r->expect.kind != TRIVET__EXPECT_SCREW) {
        return TRIVET_OK;
    }
    for (int32_t i = 0; i < trivet_frame_bolts_count(r->reading->frame); i++) {
        trivet_bolts bolts = {.size = sizeof bolts};
        const trivet__expect *const expect = &r->expect;
        if (trivet_frame_bolts(r->reading->frame, i, &bolts) == TRIVET_OK &&
            bolts.where_kind == expect->where_kind && bolts.where_index == expect->where_index &&
            (expect->joint < 0 || expect->joint == bolts.joint)) {
            r->expect.bolts = i;
            found++;
        }
    }
    if (found == 1) {
        return TRIVET_OK;
    }
    return refuse(r, member(r, "at"), "at", TRIVET_INCOMPLETE,
                  found > 1 ? "has screws at more than one joint" : "has no screws",
                  found > 1 ? "add \"joint\" with the name of the one that is meant"
                            : "give it \"bolts\" or \"screws\", or name a place that has them");
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

/* A check may be asked for without a case: then the worst of all is meant. */
static int needs_case(const expect_reading *r)
{
    switch (r->expect.kind) {
    case TRIVET__EXPECT_MASS:
    case TRIVET__EXPECT_SECTION:
    case TRIVET__EXPECT_SCREW:
    case TRIVET__EXPECT_CHECK:
        return 0;
    default:
        return 1;
    }
}

/* The number of a case, combination or, of checks, cycles that is named. */
static trivet_status find_case(expect_reading *r, const trivet__node *node,
                               const trivet__thing *thing, const char *name)
{
    const trivet_frame *const frame = r->reading->frame;
    const int is_check = r->expect.kind == TRIVET__EXPECT_CHECK;
    int32_t index = -1;
    if (names_thing(r, TRIVET_KIND_COMBINATION, name, &index)) {
        r->expect.result_column = trivet_frame_count(frame, TRIVET_KIND_CASE) + index;
        r->expect.in_case = trivet_frame_column_name(frame, r->expect.result_column);
        return TRIVET_OK;
    }
    if (is_check && !names_thing(r, TRIVET_KIND_CASE, name, &index) &&
        names_thing(r, TRIVET_KIND_CYCLES, name, &index)) {
        r->expect.in_case = trivet_frame_name(frame, TRIVET_KIND_CYCLES, index);
        return TRIVET_OK;
    }
    const trivet_status status =
        trivet__read_thing(r->reading, node, thing, TRIVET_KIND_CASE, &r->expect.result_column);
    if (!status) {
        r->expect.in_case = trivet_frame_column_name(frame, r->expect.result_column);
    }
    return status;
}

static trivet_status read_case(expect_reading *r)
{
    const trivet__node *const node = member(r, "case");
    r->expect.result_column = -1;
    r->expect.in_case = "";
    if (!node) {
        return needs_case(r)
                   ? refuse(r, r->map, NULL, TRIVET_INCOMPLETE, "does not say in which case",
                            "add \"case\" with the name of a case or combination")
                   : TRIVET_OK;
    }
    if (!needs_case(r) && r->expect.kind != TRIVET__EXPECT_CHECK) {
        return refuse(r, node, "case", TRIVET_BAD_KEY, "this is the same in every case",
                      "leave it out");
    }
    trivet__thing thing;
    const char *name = NULL;
    trivet__thing_key(&thing, r->thing, "case");
    const trivet_status status = trivet__read_name(r->reading, node, &thing, &name);
    return status ? status : find_case(r, node, &thing, name);
}

/* How near, where the dimension is known. */
static trivet_status fit_within(expect_reading *r, const trivet__node *node,
                                const trivet__thing *thing)
{
    const trivet_dimension dimension = (trivet_dimension)r->expect.dimension;
    const double value = r->expect.value;
    double within = 0.0;
    const int is_share = trivet_quantity_fits(&r->expect.within_read, TRIVET_NUMBER);
    if (is_share && value == 0.0 && dimension != TRIVET_NUMBER && dimension != TRIVET_ANGLE) {
        return refuse(r, node, "within", TRIVET_BAD_UNIT, "a share of nothing is nothing",
                      "write it with a unit, such as within: 0.1 mm");
    }
    const trivet_status status =
        trivet__fit_quantity(r->reading, node, thing, &r->expect.within_read,
                             is_share ? TRIVET_NUMBER : dimension, &within);
    r->expect.within = is_share || value == 0.0 ? within : within / fabs(value);
    return status;
}

static trivet_status read_within(expect_reading *r)
{
    const trivet__node *const node = member(r, "within");
    r->expect.within = WITHIN_DEFAULT;
    r->expect.within_read.value = WITHIN_DEFAULT;
    trivet__thing thing;
    trivet__thing_key(&thing, r->thing, "within");
    if (!node) {
        return r->expect.value_read.value != 0.0
                   ? TRIVET_OK
                   : refuse(r, r->map, NULL, TRIVET_INCOMPLETE,
                            "expects nothing, and a share of nothing is nothing",
                            "add \"within\" with a unit, such as within: 0.1 mm");
    }
    trivet_status status = trivet__read_quantity(r->reading, node, &thing, &r->expect.within_read);
    if (!status && r->expect.dimension >= 0) {
        status = fit_within(r, node, &thing);
    }
    if (!status && !(r->expect.within_read.value > 0.0)) {
        return refuse(r, node, "within", TRIVET_BAD_VALUE, "leaves no room at all",
                      "give more than 0, such as 1 %");
    }
    return status;
}

static trivet_status read_value(expect_reading *r)
{
    const trivet__node *const node = member(r, "value");
    trivet__thing thing;
    trivet__thing_key(&thing, r->thing, "value");
    r->expect.value = (double)NAN;
    r->expect.of_value.line = node->line;
    r->expect.of_value.column = node->column;
    trivet_status status = trivet__read_quantity(r->reading, node, &thing, &r->expect.value_read);
    if (!status && r->expect.dimension >= 0) {
        status = trivet__fit_quantity(r->reading, node, &thing, &r->expect.value_read,
                                      (trivet_dimension)r->expect.dimension, &r->expect.value);
    }
    const int is_largest = r->expect.kind == TRIVET__EXPECT_INSIDE && isnan(r->expect.from);
    if (!status && is_largest && r->expect.value < 0.0) {
        return refuse(r, node, "value", TRIVET_BAD_VALUE,
                      "the largest size along a tube is never below 0",
                      "leave out the minus, or say where with \"from\"");
    }
    return status ? status : read_within(r);
}

/* "back at TL" */
static char *keep_where(const expect_reading *r)
{
    char where[2 * TRIVET_NAME_MAX + 8];
    const char *const joint =
        trivet_frame_name(r->reading->frame, TRIVET_KIND_JOINT, r->expect.joint);
    trivet__text_print(where, sizeof where, "%s%s%s", r->expect.place, joint ? " at " : "",
                       joint ? joint : "");
    return trivet__keep(r->reading->document, where);
}

static trivet_status keep_texts(expect_reading *r)
{
    const char *const what = text_of(r, "what");
    const char *const by = text_of(r, "by");
    trivet_document *const document = r->reading->document;
    r->expect.what = trivet__keep(document, what);
    r->expect.where = keep_where(r);
    r->expect.check = trivet__keep(document, r->check);
    r->expect.by = trivet__keep(document, by);
    if (r->expect.what && r->expect.where && r->expect.check && r->expect.by &&
        trivet__note(document, &document->expects, &r->expect, sizeof r->expect)) {
        return TRIVET_OK;
    }
    return trivet__no_memory(r->reading->message);
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *map,
                              const trivet__thing *thing, int32_t number)
{
    expect_reading r = {.reading = reading, .map = map, .thing = thing};
    trivet_status (*const steps[])(expect_reading *) = {
        read_what, read_check, read_at, read_joint, find_screws, read_from, read_case, read_value};
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_EXPECT);
    r.expect.number = number;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0] && !status; i++) {
        status = steps[i](&r);
    }
    return status ? status : keep_texts(&r);
}

trivet_status trivet__read_expect(trivet__reading *reading)
{
    const trivet__thing nowhere = {.word = ""};
    const trivet__node *list = NULL;
    trivet__thing within;
    trivet_status status = trivet__read_list_key(
        reading, reading->root, &nowhere, "expect",
        "[{what: droop, at: A, case: parked, value: 1.9 mm}]", &within, &list);
    const trivet__node *item = status ? NULL : trivet__tree_first(reading->tree, list);
    for (int32_t i = 1; item && !status; i++) {
        trivet__thing thing;
        trivet__thing_item(&thing, &nowhere, "expect", i);
        status = read_one(reading, item, &thing, i);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}
