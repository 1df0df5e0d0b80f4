/*
 * Values that change together: rows of a table, each a value for every name.
 */
#include "sweep/vary_reading.h"

#include "base/memory.h"
#include "base/text.h"

#include <string.h>

static int is_stock(const trivet__varying *v, const char *name)
{
    int32_t index = -1;
    return trivet_frame_find(v->reading->frame, TRIVET_KIND_STOCK, name, &index, NULL) == TRIVET_OK;
}

/* A column of tuples: a let, else stock of the file. */
static trivet_status add_tuple_column(const trivet__varying *v, const trivet__node *name,
                                      const trivet__thing *thing, trivet__axis *axis)
{
    const char *const text = trivet__tree_text(v->reading->tree, name);
    const int is_let =
        trivet__find_let(v->reading->document, text, strlen(text)) || !is_stock(v, text);
    trivet_quantity unit = {0};
    trivet__column *column = NULL;
    trivet_status status = is_let ? trivet__vary_find_let(v, name, thing, &unit) : TRIVET_OK;
    if (!status) {
        status = trivet__vary_add_column(
            v, name, axis, is_let ? TRIVET__COLUMN_LET : TRIVET__COLUMN_STOCK, "", text, &column);
    }
    if (!status) {
        column->unit = unit;
        status = trivet__vary_take_values(v, column, axis->count);
    }
    if (status || is_let) {
        return status;
    }
    column->of = trivet__take(1, sizeof *column->of);
    column->choices = trivet__take((size_t)axis->count, sizeof *column->choices);
    if (!column->of || !column->choices) {
        return trivet__no_memory(v->reading->message);
    }
    column->of[0] = trivet__text_keep(text, strlen(text));
    column->of_count = 1;
    return column->of[0] ? TRIVET_OK : trivet__no_memory(v->reading->message);
}

/* A stock of a tuple; the same name is the same choice. */
static trivet_status read_tuple_stock(const trivet__varying *v, const trivet__node *node,
                                      const trivet__thing *thing, trivet__column *column,
                                      double *value_out)
{
    trivet__stock_choice choice;
    const trivet_status status = trivet__vary_own_stock(v->reading, node, thing, &choice);
    if (status) {
        return status;
    }
    int32_t at = 0;
    while (at < column->choice_count && strcmp(column->choices[at].name, choice.name) != 0) {
        at++;
    }
    if (at == column->choice_count) {
        column->choices[column->choice_count++] = choice;
    }
    *value_out = at;
    return TRIVET_OK;
}

static trivet_status read_tuple(const trivet__varying *v, const trivet__node *row,
                                const trivet__thing *thing, const trivet__axis *axis, int32_t index)
{
    trivet_status status =
        trivet__need_list(v->reading, row, thing, "a list with a value for each of \"of\"");
    if (!status && row->count != axis->column_count) {
        trivet__complain(v->reading, row, thing, TRIVET_BAD_VALUE);
        trivet__message_problem(v->reading->message, "has %d values for %d names", (int)row->count,
                                (int)axis->column_count);
        trivet__message_remedy(v->reading->message, "give one for each name of \"of\"");
        return TRIVET_BAD_VALUE;
    }
    const trivet__node *item = status ? NULL : trivet__tree_first(v->reading->tree, row);
    for (int32_t c = 0; item && !status; c++, item = trivet__tree_next(v->reading->tree, item)) {
        trivet__column *const column = &v->vary->columns[axis->first_column + c];
        status = column->kind == TRIVET__COLUMN_STOCK
                     ? read_tuple_stock(v, item, thing, column, &column->values[index])
                     : trivet__vary_read_let(v, item, thing, column, &column->values[index]);
    }
    return status;
}

trivet_status trivet__vary_read_tuples(const trivet__varying *v, const trivet__node *vary)
{
    const trivet__thing within = {.word = "vary"};
    trivet__thing thing;
    const trivet__node *map = NULL;
    const trivet__node *names = NULL;
    const trivet__node *rows = NULL;
    trivet__axis *axis = NULL;
    trivet_status status = trivet__read_map_key(v->reading, vary, &within, "tuples", &thing, &map);
    if (status || !map) {
        return status;
    }
    trivet__thing part;
    status = trivet__check_keys(v->reading, map, NULL, &thing, TRIVET__KEYS_TUPLES);
    if (!status) {
        status =
            trivet__read_list_key(v->reading, map, &thing, "of", "[reach, half]", &part, &names);
    }
    if (!status) {
        status = trivet__read_list_key(v->reading, map, &thing, "rows", "[[160 mm, 140 mm]]", &part,
                                       &rows);
    }
    if (!status && (!names || !rows || names->count < 1 || rows->count < 1 ||
                    rows->count > TRIVET__AXIS_VALUES_MAX)) {
        return trivet__vary_refuse_count(v, map, &thing,
                                         "names nothing, or has no row or more than 100000");
    }
    if (!status) {
        status = trivet__vary_add_axis(v, map, &axis);
    }
    if (status) {
        return status;
    }
    axis->count = rows->count;
    const trivet__node *item = trivet__tree_first(v->reading->tree, names);
    for (; item && !status; item = trivet__tree_next(v->reading->tree, item)) {
        status = add_tuple_column(v, item, &thing, axis);
    }
    item = status ? NULL : trivet__tree_first(v->reading->tree, rows);
    for (int32_t i = 0; item && !status; i++, item = trivet__tree_next(v->reading->tree, item)) {
        trivet__thing_item(&part, &thing, "row", i + 1);
        status = read_tuple(v, item, &part, axis, i);
    }
    return status;
}
