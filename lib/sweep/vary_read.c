/*
 * Reading `vary`: single values over lists and ranges, stock over choices.
 */
#include "sweep/vary_reading.h"

#include "base/memory.h"
#include "base/text.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- axes and columns ---- */

/* An axis with one column more than it has; both are in the vary as soon as they are begun. */
trivet_status trivet__vary_add_column(const trivet__varying *v, const trivet__node *node,
                                      trivet__axis *axis, int32_t kind, const char *prefix,
                                      const char *name, trivet__column **column_out)
{
    assert(axis);
    trivet__vary *const vary = v->vary;
    char whole[TRIVET_NAME_MAX + 16];
    const trivet__thing thing = {.word = "vary"};
    trivet__text_print(whole, sizeof whole, "%s%s", prefix, name);
    for (int32_t i = 0; i < vary->column_count; i++) {
        if (strcmp(vary->columns[i].name, whole) == 0) {
            trivet__complain(v->reading, node, &thing, TRIVET_BAD_NAME);
            trivet__message_problem(v->reading->message, "\"%s\" is varied twice", whole);
            trivet__message_remedy(v->reading->message, "keep one of them");
            return TRIVET_BAD_NAME;
        }
    }
    if (vary->column_count == TRIVET__COLUMNS_MAX) {
        return trivet__refuse_node(v->reading, node, &thing, TRIVET_BAD_VALUE,
                                   "varies more than 40 things",
                                   "let one name of \"let\" stand for several of them");
    }
    trivet__column *const column = &vary->columns[vary->column_count];
    *column = (trivet__column){.kind = kind};
    column->name = trivet__text_keep(whole, strlen(whole));
    column->target = trivet__text_keep(name, strlen(name));
    vary->column_count++;
    axis->column_count++;
    *column_out = column;
    return column->name && column->target ? TRIVET_OK : trivet__no_memory(v->reading->message);
}

trivet_status trivet__vary_add_axis(const trivet__varying *v, const trivet__node *node,
                                    trivet__axis **axis_out)
{
    const trivet__thing thing = {.word = "vary"};
    if (v->vary->axis_count == TRIVET__AXES_MAX) {
        return trivet__refuse_node(v->reading, node, &thing, TRIVET_BAD_VALUE,
                                   "has more than 20 axes", "take some of them together as tuples");
    }
    *axis_out = &v->vary->axes[v->vary->axis_count++];
    **axis_out = (trivet__axis){.first_column = v->vary->column_count};
    return TRIVET_OK;
}

trivet_status trivet__vary_take_values(const trivet__varying *v, trivet__column *column,
                                       int64_t count)
{
    column->values = trivet__take((size_t)count, sizeof *column->values);
    return column->values ? TRIVET_OK : trivet__no_memory(v->reading->message);
}

/* ---- values ---- */

/* A value of a let: it must be of the same kind as what `let` says. */
trivet_status trivet__vary_read_let(const trivet__varying *v, const trivet__node *node,
                                    const trivet__thing *thing, const trivet__column *column,
                                    double *value_out)
{
    trivet_quantity read;
    const trivet_quantity *const unit = &column->unit;
    const trivet_status status = trivet__read_quantity(v->reading, node, thing, &read);
    if (status) {
        return status;
    }
    if (read.length != unit->length || read.mass != unit->mass || read.time != unit->time ||
        read.temperature != unit->temperature || read.has_unit != unit->has_unit) {
        trivet__complain(v->reading, node, thing, TRIVET_BAD_UNIT);
        trivet__message_problem(v->reading->message, "is of another kind than \"%s\" in \"let\"",
                                column->target);
        trivet__message_remedy(v->reading->message, "write it with the same kind of unit");
        return TRIVET_BAD_UNIT;
    }
    *value_out = read.value;
    return TRIVET_OK;
}

static trivet_status read_value_of(const trivet__varying *v, const trivet__node *node,
                                   const trivet__thing *thing, trivet__column *column,
                                   double *value_out)
{
    if (column->kind == TRIVET__COLUMN_LET) {
        return trivet__vary_read_let(v, node, thing, column, value_out);
    }
    return trivet__read_value(v->reading, node, thing, TRIVET_NUMBER, TRIVET__NOT_NEGATIVE,
                              value_out);
}

trivet_status trivet__vary_refuse_count(const trivet__varying *v, const trivet__node *node,
                                        const trivet__thing *thing, const char *problem)
{
    return trivet__refuse_node(v->reading, node, thing, TRIVET_BAD_VALUE, problem,
                               "give a whole number from 2 to 100000");
}

/* How many values a range has. A sample takes any in between. */
static trivet_status read_steps(const trivet__varying *v, const trivet__node *map,
                                const trivet__thing *thing, int64_t *steps_out)
{
    double steps = 0.0;
    const trivet__node *const node = trivet__member(v->reading, map, "steps");
    *steps_out = 2;
    if (!node && v->is_sampled) {
        return TRIVET_OK;
    }
    if (!node) {
        return trivet__refuse_node(v->reading, map, thing, TRIVET_INCOMPLETE,
                                   "\"steps\" is missing",
                                   "add it, such as steps: 11, or draw a sample");
    }
    const trivet_status status =
        trivet__read_value(v->reading, node, thing, TRIVET_NUMBER, TRIVET__POSITIVE, &steps);
    if (status) {
        return status;
    }
    if (steps != floor(steps) || steps < 2.0 || steps > TRIVET__AXIS_VALUES_MAX) {
        return trivet__vary_refuse_count(v, node, thing,
                                         "\"steps\" is not a whole number of 2 or more");
    }
    *steps_out = (int64_t)steps;
    return TRIVET_OK;
}

/* {from: 150 mm, to: 250 mm, steps: 11}: steps values, both ends among them. */
static trivet_status read_range(const trivet__varying *v, const trivet__node *map,
                                const trivet__thing *thing, trivet__axis *axis,
                                trivet__column *column)
{
    trivet_status status = trivet__check_keys(v->reading, map, NULL, thing, TRIVET__KEYS_RANGE);
    if (!status) {
        status =
            read_value_of(v, trivet__member(v->reading, map, "from"), thing, column, &axis->from);
    }
    if (!status) {
        status = read_value_of(v, trivet__member(v->reading, map, "to"), thing, column, &axis->to);
    }
    if (!status) {
        status = read_steps(v, map, thing, &axis->count);
    }
    if (status) {
        return status;
    }
    const double steps = (double)axis->count;
    axis->is_range = 1;
    status = trivet__vary_take_values(v, column, axis->count);
    for (int64_t i = 0; i < axis->count && !status; i++) {
        column->values[i] = i + 1 == axis->count
                                ? axis->to
                                : axis->from + (axis->to - axis->from) * (double)i / (steps - 1.0);
    }
    return status;
}

static trivet_status read_list(const trivet__varying *v, const trivet__node *list,
                               const trivet__thing *thing, trivet__axis *axis,
                               trivet__column *column)
{
    trivet_status status =
        trivet__need_list(v->reading, list, thing, "[150 mm, 200 mm], or {from, to, steps}");
    if (status) {
        return status;
    }
    if (list->count < 1 || list->count > TRIVET__AXIS_VALUES_MAX) {
        return trivet__vary_refuse_count(v, list, thing, "has no value, or more than 100000");
    }
    axis->count = list->count;
    status = trivet__vary_take_values(v, column, axis->count);
    const trivet__node *item = trivet__tree_first(v->reading->tree, list);
    for (int32_t i = 0; item && !status; i++, item = trivet__tree_next(v->reading->tree, item)) {
        trivet__thing one;
        trivet__thing_item(&one, thing, "value", i + 1);
        status = read_value_of(v, item, &one, column, &column->values[i]);
    }
    return status;
}

/* The let that a name means. */
trivet_status trivet__vary_find_let(const trivet__varying *v, const trivet__node *name,
                                    const trivet__thing *within, trivet_quantity *unit_out)
{
    const char *const text = trivet__tree_text(v->reading->tree, name);
    const trivet__let *const let = trivet__find_let(v->reading->document, text, strlen(text));
    if (let) {
        *unit_out = let->quantity;
        return TRIVET_OK;
    }
    trivet__nearest search = {text, NULL, 0};
    for (int32_t i = 0; i < trivet_document_let_count(v->reading->document); i++) {
        trivet__nearest_offer(&search, trivet_document_let(v->reading->document, i, NULL));
    }
    trivet__complain(v->reading, name, within, TRIVET_BAD_NAME);
    trivet__message_problem(v->reading->message, "\"%s\" is no name in \"let\"", text);
    if (trivet__meant(&search)) {
        trivet__message_remedy(v->reading->message, "did you mean \"%s\"?", search.nearest);
    } else {
        trivet__message_remedy(v->reading->message, "define it in \"let\" and use it below");
    }
    return TRIVET_BAD_NAME;
}

static trivet_status find_target(const trivet__varying *v, const trivet__node *name,
                                 const trivet__thing *within, int32_t kind,
                                 trivet_quantity *unit_out)
{
    int32_t index = -1;
    if (kind == TRIVET__COLUMN_LET) {
        return trivet__vary_find_let(v, name, within, unit_out);
    }
    return trivet__read_thing(v->reading, name, within,
                              kind == TRIVET__COLUMN_CARGO ? TRIVET_KIND_CARGO : TRIVET_KIND_CASE,
                              &index);
}

/* ---- parts of `vary` ---- */

/* A let, or a factor of a cargo or case, over a list or range. */
static trivet_status read_number(const trivet__varying *v, const trivet__pair *pair,
                                 const trivet__thing *within, int32_t kind, const char *prefix)
{
    trivet__thing thing;
    trivet__axis *axis = NULL;
    trivet__column *column = NULL;
    trivet_quantity unit = {0};
    trivet__thing_pair(&thing, within, pair->name);
    trivet_status status = find_target(v, pair->name, within, kind, &unit);
    if (!status) {
        status = trivet__vary_add_axis(v, pair->name, &axis);
    }
    if (!status) {
        status = trivet__vary_add_column(v, pair->name, axis, kind, prefix,
                                         trivet__tree_text(v->reading->tree, pair->name), &column);
    }
    if (status) {
        return status;
    }
    assert(axis && column);
    column->unit = unit;
    return pair->value->kind == TRIVET__MAP ? read_range(v, pair->value, &thing, axis, column)
                                            : read_list(v, pair->value, &thing, axis, column);
}

static trivet_status read_stock(const trivet__varying *v, const trivet__pair *pair)
{
    trivet__axis *axis = NULL;
    trivet__column *column = NULL;
    trivet_status status = trivet__vary_add_axis(v, pair->name, &axis);
    if (!status) {
        status = trivet__vary_add_column(v, pair->name, axis, TRIVET__COLUMN_STOCK, "",
                                         trivet__tree_text(v->reading->tree, pair->name), &column);
    }
    if (!status) {
        status = trivet__vary_read_stock(v->reading, v->shelf, pair->name, pair->value, column);
    }
    if (status) {
        return status;
    }
    assert(axis && column);
    axis->count = column->choice_count;
    status = trivet__vary_take_values(v, column, axis->count);
    for (int64_t i = 0; i < axis->count && !status; i++) {
        column->values[i] = (double)i;
    }
    return status;
}

static trivet_status read_part(const trivet__varying *v, const trivet__node *vary, int32_t kind,
                               const char *key, const char *prefix)
{
    const trivet__thing within = {.word = "vary"};
    trivet__thing thing;
    const trivet__node *map = NULL;
    trivet_status status = trivet__read_map_key(v->reading, vary, &within, key, &thing, &map);
    trivet__pair pair = {NULL, NULL};
    if (!status && map) {
        pair = trivet__tree_first_pair(v->reading->tree, map);
    }
    for (; pair.name && !status; pair = trivet__tree_next_pair(v->reading->tree, pair)) {
        status = kind == TRIVET__COLUMN_STOCK ? read_stock(v, &pair)
                                              : read_number(v, &pair, &thing, kind, prefix);
    }
    return status;
}

/* ---- the whole of `vary` ---- */

static trivet_status refuse_nothing(const trivet__varying *v, const trivet__node *vary)
{
    const trivet__thing thing = {.word = "vary"};
    return trivet__refuse_node(v->reading, vary ? vary : v->reading->root, &thing,
                               TRIVET_INCOMPLETE, "nothing is varied",
                               "add it, such as vary: {let: {reach: [150 mm, 200 mm]}}");
}

static trivet_status read_all(const trivet__varying *v)
{
    const trivet__thing thing = {.word = "vary"};
    const trivet__node *const vary = trivet__member(v->reading, v->reading->root, "vary");
    if (!vary || trivet__tree_is_nothing(v->reading->tree, vary)) {
        return refuse_nothing(v, vary);
    }
    trivet_status status = trivet__check_keys(v->reading, vary, NULL, &thing, TRIVET__KEYS_VARY);
    if (!status) {
        status = read_part(v, vary, TRIVET__COLUMN_LET, "let", "");
    }
    if (!status) {
        status = read_part(v, vary, TRIVET__COLUMN_STOCK, "stock", "");
    }
    if (!status) {
        status = read_part(v, vary, TRIVET__COLUMN_CARGO, "cargo", "cargo ");
    }
    if (!status) {
        status = read_part(v, vary, TRIVET__COLUMN_CASE, "cases", "case ");
    }
    if (!status) {
        status = trivet__vary_read_tuples(v, vary);
    }
    if (!status && v->vary->axis_count == 0) {
        return refuse_nothing(v, vary);
    }
    return status ? status : trivet__vary_read_drawing(v, vary);
}

trivet_status trivet__vary_read(const trivet__reading *reading, const trivet__shelf *shelf,
                                trivet__vary *vary_out)
{
    const trivet__node *const vary = trivet__member(reading, reading->root, "vary");
    const int is_sampled = trivet__member(reading, vary, "sample") != NULL;
    const trivet__varying v = {reading, shelf, vary_out, is_sampled};
    *vary_out = (trivet__vary){0};
    const trivet_status status = read_all(&v);
    if (status) {
        trivet__vary_clear(vary_out);
    }
    return status;
}
