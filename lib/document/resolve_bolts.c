/*
 * Bolts and screws: of a mount, of an end of a tube, of a deck.
 */
#include "document/bolts_reading.h"

#include <math.h>
#include <string.h>

enum { STOCK_OFFERS_MOST = 2000 }; /* names looked at for a likeness */

trivet_status trivet__bolts_complain(const trivet__bolts_reading *at, const trivet__node *node,
                                     const char *key, trivet_status status)
{
    trivet__thing thing;
    trivet__thing_key(&thing, at->thing, key);
    return trivet__complain(at->reading, node, &thing, status);
}

trivet_status trivet__bolts_refuse(const trivet__bolts_reading *at, const trivet__node *node,
                                   const char *key, trivet_status status, const char *problem,
                                   const char *remedy)
{
    trivet__bolts_complain(at, node, key, status);
    trivet__message_problem(at->reading->message, "%s", problem);
    trivet__message_remedy(at->reading->message, "%s", remedy);
    return status;
}

const char *trivet__bolts_length(const trivet__bolts_reading *at, double length,
                                 char text[TRIVET__LENGTH_TEXT_MAX])
{
    trivet_units_text(&at->reading->document->units, TRIVET_LENGTH, length, 4, text,
                      TRIVET__LENGTH_TEXT_MAX);
    return text;
}

/* "8,8" within braces is the value 8 and a key 8: the complaint about the key says so. */
static void advise_point(const trivet__reading *reading, const trivet__node *map)
{
    const trivet__tree *const tree = reading->tree;
    trivet_message *const message = reading->message;
    const char *before = "";
    trivet__pair pair = trivet__tree_first_pair(tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(tree, pair)) {
        const char *const text = trivet__tree_text(tree, pair.name);
        const int is_refused =
            pair.name->line == message->line && pair.name->column == message->column;
        if (is_refused && strchr("0123456789", text[0]) && text[0] && before[0]) {
            trivet__message_remedy(message,
                                   "a comma ends the value before it: write a decimal point, "
                                   "such as %.32s.%.32s",
                                   before, text);
            return;
        }
        before = trivet__tree_text(tree, pair.value);
    }
}

trivet_status trivet__bolts_keys(const trivet__bolts_reading *at, const trivet__node *map,
                                 const trivet__node *name, const trivet__thing *thing,
                                 trivet__key_place keys)
{
    const trivet_status status = trivet__check_keys(at->reading, map, name, thing, keys);
    if (status == TRIVET_BAD_KEY) {
        advise_point(at->reading, map);
    }
    return status;
}

trivet_status trivet__bolts_numbers(const trivet__bolts_reading *at, const trivet__node *map,
                                    const trivet__thing *thing, const trivet__number_row *rows,
                                    size_t count)
{
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < count && !status; i++) {
        status = trivet__read_key(at->reading, map, thing, rows[i].key, rows[i].dimension,
                                  rows[i].range, rows[i].value);
    }
    return status;
}

/* The text under a key that is a name of something built in; *text_out is owned by the tree. */
static trivet_status read_built_in(const trivet__bolts_reading *at, const char *key,
                                   const trivet__node **node_out, const char **text_out)
{
    trivet__thing thing;
    *node_out = trivet__member(at->reading, at->map, key);
    trivet__thing_key(&thing, at->thing, key);
    return trivet__read_name(at->reading, *node_out, &thing, text_out);
}

static void say_none(const trivet__bolts_reading *at, const trivet__node *node, const char *key)
{
    char shown[TRIVET__SHOWN_MAX];
    trivet__bolts_complain(at, node, key, TRIVET_BAD_NAME);
    trivet__message_problem(at->reading->message, "there is no built-in %s \"%s\"", key,
                            trivet__shown(at->reading, node, shown));
}

static trivet_status read_thread(trivet__bolts_reading *at)
{
    static const char OFFER[] = "did you mean";
    const trivet__node *node = NULL;
    const char *text = NULL;
    trivet_message refused;
    trivet_status status = trivet_thread_defaults(&at->thread, sizeof at->thread);
    if (!status) {
        status = read_built_in(at, "thread", &node, &text);
    }
    if (status || trivet_thread_find(text, &at->thread, &refused) == TRIVET_OK) {
        trivet__text_copy(at->bolts->thread, sizeof at->bolts->thread, at->thread.name);
        return status;
    }
    say_none(at, node, "thread");
    trivet__message_remedy(at->reading->message, "%s",
                           strncmp(refused.remedy, OFFER, strlen(OFFER)) == 0
                               ? refused.remedy
                               : "take M4 to M16, such as M6 or M8x1, or inches such as 1/4-20 "
                                 "UNC: trivet stock lists them");
    return TRIVET_BAD_NAME;
}

/* The grades are few: all of them stand in the remedy, for the nearest in letters may be weaker. */
static void advise_grade(trivet_message *message)
{
    char known[TRIVET_REMEDY_MAX] = "";
    size_t length = 0;
    const int32_t count = trivet_grade_count();
    for (int32_t i = 0; i < count && length < sizeof known; i++) {
        trivet_grade grade;
        if (trivet_grade_defaults(&grade, sizeof grade) == TRIVET_OK &&
            trivet_grade_at(i, &grade) == TRIVET_OK) {
            const char *const joiner = i == 0 ? "" : i == count - 1 ? " or " : ", ";
            length += trivet__text_print(known + length, sizeof known - length, "%s%s", joiner,
                                         grade.name);
        }
    }
    trivet__message_remedy(message, "take %s", known);
}

static trivet_status read_grade(const trivet__bolts_reading *at)
{
    const trivet__node *node = NULL;
    const char *text = NULL;
    trivet_grade grade;
    trivet_status status = trivet_grade_defaults(&grade, sizeof grade);
    if (!status) {
        status = read_built_in(at, "grade", &node, &text);
    }
    if (status || trivet_grade_find(text, &grade, NULL) == TRIVET_OK) {
        trivet__text_copy(at->bolts->grade, sizeof at->bolts->grade, grade.name);
        return status;
    }
    say_none(at, node, "grade");
    advise_grade(at->reading->message);
    return TRIVET_BAD_NAME;
}

trivet_status trivet__bolts_refuse_whole(const trivet__bolts_reading *at, const trivet__node *node,
                                         const char *key, int most, const char *remedy)
{
    char shown[TRIVET__SHOWN_MAX];
    trivet__bolts_complain(at, node, key, TRIVET_BAD_VALUE);
    trivet__message_problem(at->reading->message, "\"%s\" is not a whole number from 1 to %d",
                            trivet__shown(at->reading, node, shown), most);
    trivet__message_remedy(at->reading->message, "%s", remedy);
    return TRIVET_BAD_VALUE;
}

/* How many: a whole number, as many as the pattern has places. */
static trivet_status read_count(const trivet__bolts_reading *at)
{
    double count = at->bolts->count;
    char shown[TRIVET__SHOWN_MAX];
    const trivet__node *const node = trivet__member(at->reading, at->map, "count");
    const trivet__node *const pattern = trivet__member(at->reading, at->map, "pattern");
    const trivet_status status = trivet__read_key(at->reading, at->map, at->thing, "count",
                                                  TRIVET_NUMBER, TRIVET__POSITIVE, &count);
    if (status || !node) {
        return status;
    }
    if (count != floor(count) || count > TRIVET_BOLTS_MAX) {
        return trivet__bolts_refuse_whole(at, node, "count", TRIVET_BOLTS_MAX, "count the bolts");
    }
    if (!pattern && count > 1.0) {
        return trivet__bolts_refuse(at, node, "count", TRIVET_INCOMPLETE,
                                    "it is not said where the bolts sit",
                                    "add the place of each, seen from the joint, such as pattern: "
                                    "[[-20 mm, 0], [20 mm, 0]]");
    }
    if ((int32_t)count == at->bolts->count) {
        return TRIVET_OK;
    }
    trivet__bolts_complain(at, node, "count", TRIVET_BAD_VALUE);
    trivet__message_problem(at->reading->message, "is \"%s\", and \"pattern\" has %d place%s",
                            trivet__shown(at->reading, node, shown), (int)at->bolts->count,
                            at->bolts->count == 1 ? "" : "s");
    trivet__message_remedy(at->reading->message, "make the two agree, or leave count out");
    return TRIVET_BAD_VALUE;
}

/* No two bolts stand nearer to each other than they are thick. */
static trivet_status check_place(const trivet__bolts_reading *at, const trivet__node *item,
                                 const trivet__thing *place, int32_t one)
{
    const double(*const pattern)[2] = (const double(*)[2])at->bolts->pattern;
    for (int32_t k = 0; k < one; k++) {
        const double apart =
            hypot(pattern[k][0] - pattern[one][0], pattern[k][1] - pattern[one][1]);
        if (!(apart >= at->thread.diameter)) {
            char apart_text[TRIVET__LENGTH_TEXT_MAX];
            char diameter[TRIVET__LENGTH_TEXT_MAX];
            trivet__complain(at->reading, item, place, TRIVET_BAD_VALUE);
            trivet__message_problem(at->reading->message,
                                    "is %s from bolt %d, and the thread is %s thick",
                                    trivet__bolts_length(at, apart, apart_text), (int)k + 1,
                                    trivet__bolts_length(at, at->thread.diameter, diameter));
            trivet__message_remedy(at->reading->message, "give each bolt a place of its own");
            return TRIVET_BAD_VALUE;
        }
    }
    return TRIVET_OK;
}

static trivet_status read_pattern(const trivet__bolts_reading *at)
{
    const trivet__reading *const reading = at->reading;
    const trivet__node *list = NULL;
    trivet__thing thing;
    trivet_status status = trivet__read_list_key(reading, at->map, at->thing, "pattern",
                                                 "[[-20 mm, 0], [20 mm, 0]]", &thing, &list);
    const trivet__node *item = status || !list ? NULL : trivet__tree_first(reading->tree, list);
    int32_t count = 0;
    for (; item && !status; item = trivet__tree_next(reading->tree, item)) {
        trivet__thing place;
        trivet__thing_item(&place, &thing, "bolt", count + 1);
        if (count == TRIVET_BOLTS_MAX) {
            return trivet__refuse_node(reading, item, &place, TRIVET_BAD_VALUE,
                                       "is one more than the 16 that one place can have",
                                       "share them out over two mounts");
        }
        status = trivet__read_row(reading, item, &place, TRIVET_LENGTH, TRIVET__ANY, 2,
                                  at->bolts->pattern[count]);
        if (!status) {
            status = check_place(at, item, &place, count);
        }
        count++;
    }
    if (!status && list && count == 0) {
        return trivet__bolts_refuse(
            at, list, "pattern", TRIVET_INCOMPLETE, "there is no place in it",
            "write the place of each bolt, [[-20 mm, 0], [20 mm, 0]], or leave it out "
            "for one bolt at the joint");
    }
    at->bolts->count = count > 0 ? count : 1;
    return status;
}

static int is_hollow(const trivet_frame *frame, int32_t stock)
{
    const trivet_profile *const profile = trivet_frame_profile(frame, stock);
    return profile && (profile->shape == TRIVET_SHAPE_SQUARE_TUBE ||
                       profile->shape == TRIVET_SHAPE_RECTANGULAR_TUBE ||
                       profile->shape == TRIVET_SHAPE_ROUND_TUBE);
}

int trivet__bolts_meet_hollow(const trivet__bolts_reading *at)
{
    return is_hollow(at->reading->frame, at->bolts->clamped_stock);
}

/* A nut, a wall, a rivet nut, a weld nut, or the stock that it is tapped into. */
static const struct {
    const char *word;
    int32_t into;
} INTO_WORDS[] = {{"nut", TRIVET_INTO_NUT},
                  {"wall", TRIVET_INTO_WALL},
                  {"rivet nut", TRIVET_INTO_RATED},
                  {"weld nut", TRIVET_INTO_RATED}};

enum { INTO_WORD_COUNT = sizeof INTO_WORDS / sizeof INTO_WORDS[0] };

static trivet_status refuse_into(const trivet__bolts_reading *at, const trivet__node *node)
{
    const trivet_frame *const frame = at->reading->frame;
    char shown[TRIVET__SHOWN_MAX];
    trivet__nearest search = {trivet__tree_text(at->reading->tree, node), NULL, 0};
    for (int i = 0; i < INTO_WORD_COUNT; i++) {
        trivet__nearest_offer(&search, INTO_WORDS[i].word);
    }
    const int32_t count = trivet_frame_count(frame, TRIVET_KIND_STOCK);
    for (int32_t i = 0; i < count && i < STOCK_OFFERS_MOST; i++) {
        trivet__nearest_offer(&search, trivet_frame_name(frame, TRIVET_KIND_STOCK, i));
    }
    trivet__bolts_refuse(at, node, "into", TRIVET_BAD_NAME, "",
                         "write nut, wall, rivet nut, weld nut or the name of stock");
    trivet__message_problem(at->reading->message, "there is no stock \"%s\"",
                            trivet__shown(at->reading, node, shown));
    if (trivet__meant(&search)) {
        trivet__message_remedy(at->reading->message, "did you mean \"%s\"?", search.nearest);
    }
    return TRIVET_BAD_NAME;
}

/* What the thread is in: as the file says it, before what that needs is looked at. */
static trivet_status find_into(const trivet__bolts_reading *at, const trivet__node *node)
{
    trivet_bolts *const bolts = at->bolts;
    const char *const text = trivet__tree_text(at->reading->tree, node);
    for (int i = 0; i < INTO_WORD_COUNT; i++) {
        if (strcmp(text, INTO_WORDS[i].word) == 0) {
            bolts->into = INTO_WORDS[i].into;
            bolts->into_stock = bolts->into == TRIVET_INTO_WALL ? bolts->clamped_stock : -1;
            return TRIVET_OK;
        }
    }
    bolts->into = TRIVET_INTO_TAPPED;
    return trivet_frame_find(at->reading->frame, TRIVET_KIND_STOCK, text, &bolts->into_stock, NULL)
               ? refuse_into(at, node)
               : TRIVET_OK;
}

static trivet_status read_into(const trivet__bolts_reading *at)
{
    const trivet__node *const node = trivet__member(at->reading, at->map, "into");
    const trivet_bolts *const bolts = at->bolts;
    trivet__thing thing;
    char shown[TRIVET__SHOWN_MAX];
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing_key(&thing, at->thing, "into");
    trivet_status status = trivet__need_scalar(at->reading, node, &thing);
    if (!status) {
        status = find_into(at, node);
    }
    if (status) {
        return status;
    }
    if (bolts->into == TRIVET_INTO_WALL && !trivet__bolts_meet_hollow(at)) {
        return trivet__bolts_refuse(
            at, node, "into", TRIVET_BAD_VALUE,
            "no hollow tube meets the bolts here, so there is no wall",
            "write nut, or the name of the stock that the thread is cut into");
    }
    if (bolts->into == TRIVET_INTO_TAPPED && !trivet__member(at->reading, at->map, "engagement")) {
        trivet__bolts_complain(at, node, "into", TRIVET_INCOMPLETE);
        trivet__message_problem(at->reading->message,
                                "it is not said how much of the thread is in %s",
                                trivet__shown(at->reading, node, shown));
        trivet__message_remedy(at->reading->message,
                               "add the length over which the threads meet, such as engagement: "
                               "12 mm");
        return TRIVET_INCOMPLETE;
    }
    return TRIVET_OK;
}

static trivet_status read_words(const trivet__bolts_reading *at)
{
    static const char *const HEADS[] = {"hexagon", "socket", "countersunk"};
    static const char *const CLAMPED[] = {"solid", "hollow", "sleeve", "insert"};
    static const char *const SHEARED[] = {"thread", "shank"};
    trivet_status status = trivet__read_choice_key(at->reading, at->map, at->thing, "head", HEADS,
                                                   3, &at->bolts->head);
    if (!status) {
        status = trivet__read_choice_key(at->reading, at->map, at->thing, "clamps", CLAMPED, 4,
                                         &at->bolts->clamped);
    }
    if (!status) {
        status = trivet__read_choice_key(at->reading, at->map, at->thing, "shear through", SHEARED,
                                         2, &at->bolts->is_thread_clear);
    }
    return status ? status : read_into(at);
}

static trivet_status read_rest(const trivet__bolts_reading *at)
{
    trivet_bolts *const bolts = at->bolts;
    const trivet__node *const scatter = trivet__member(at->reading, at->map, "scatter");
    char shown[TRIVET__SHOWN_MAX];
    const trivet__number_row rows[] = {
        {"engagement", TRIVET_LENGTH, TRIVET__POSITIVE, &bolts->engagement},
        {"torque", TRIVET_MOMENT, TRIVET__POSITIVE, &bolts->torque},
        {"nut factor", TRIVET_NUMBER, TRIVET__POSITIVE, &bolts->nut_factor},
        {"scatter", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &bolts->scatter},
        {"friction", TRIVET_NUMBER, TRIVET__POSITIVE, &bolts->friction},
    };
    const trivet_status status =
        trivet__bolts_numbers(at, at->map, at->thing, rows, sizeof rows / sizeof rows[0]);
    if (!status && scatter && !(bolts->scatter < 1.0)) {
        trivet__bolts_refuse(at, scatter, "scatter", TRIVET_BAD_VALUE, "",
                             "give less than 100 %; 25 % is usual");
        trivet__message_problem(at->reading->message, "\"%s\" would leave nothing of the preload",
                                trivet__shown(at->reading, scatter, shown));
        return TRIVET_BAD_VALUE;
    }
    return status ? status : trivet__read_axes(at->reading, at->map, at->thing, bolts->axes);
}

/* The stock of the first hollow tube at a joint, -1 if there is none: what a bolt there meets. */
static int32_t hollow_stock_at(const trivet_frame *frame, int32_t joint)
{
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(frame, tube, &count);
        const int32_t stock = trivet_frame_tube_stock(frame, tube);
        for (int32_t i = 0; i < count; i++) {
            if (joints[i] == joint && is_hollow(frame, stock)) {
                return stock;
            }
        }
    }
    return -1;
}

trivet_status trivet__read_bolts(const trivet__reading *reading, const trivet__node *name,
                                 const trivet__node *map, const trivet__thing *thing,
                                 const trivet__bolted *where)
{
    trivet_bolts bolts;
    trivet_status (*const parts[])(const trivet__bolts_reading *) = {
        read_grade, read_pattern, read_count, read_words, trivet__read_bolt_parts, read_rest};
    trivet_status status = trivet_bolts_defaults(&bolts, sizeof bolts);
    trivet__bolts_reading at = {.reading = reading, .map = map, .thing = thing, .bolts = &bolts};
    bolts.where_kind = where->kind;
    bolts.where_index = where->index;
    bolts.joint = where->joint;
    bolts.clamped_stock =
        where->stock >= 0 ? where->stock : hollow_stock_at(reading->frame, where->joint);
    if (!status) {
        status = trivet__bolts_keys(&at, map, name, thing, TRIVET__KEYS_BOLTS);
    }
    if (!status) {
        status = read_thread(&at);
    }
    for (size_t i = 0; i < sizeof parts / sizeof parts[0] && !status; i++) {
        status = parts[i](&at);
    }
    if (status) {
        return status;
    }
    trivet_message_clear(reading->message);
    status = trivet_frame_add_bolts(reading->frame, &bolts, NULL, reading->message);
    if (status && status != TRIVET_NO_MEMORY) {
        trivet__tell_thing(reading, thing);
    }
    return trivet__locate(reading, map, status);
}
