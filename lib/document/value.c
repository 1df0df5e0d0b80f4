/*
 * Numbers: an expression becomes a quantity, a quantity a number of the dimension that is needed.
 */
#include "document/reading.h"

#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The expression of a node; its program is run, or made, or neither. */
static trivet_status evaluate(const trivet__reading *reading, const trivet__node *node,
                              trivet_quantity *quantity_out)
{
    const ptrdiff_t number = node - reading->tree->nodes;
    const trivet__program *const program =
        reading->compiled ? &reading->compiled->programs[number] : NULL;
    if (program && program->count > 0) {
        return trivet__expression_run(reading, program, quantity_out);
    }
    trivet_message_clear(reading->message);
    return trivet__expression_read(
        reading, trivet__tree_text(reading->tree, node), node->length,
        reading->compiling ? &reading->compiling->pool : NULL,
        reading->compiling ? &reading->compiling->programs[number] : NULL, quantity_out);
}

trivet_status trivet__read_quantity(const trivet__reading *reading, const trivet__node *node,
                                    const trivet__thing *thing, trivet_quantity *quantity_out)
{
    trivet_status status = trivet__need_scalar(reading, node, thing);
    if (!status) {
        status = trivet__expression_check(reading, node, thing);
    }
    if (status) {
        return status;
    }
    trivet_message *const message = reading->message;
    status = evaluate(reading, node, quantity_out);
    if (status && status != TRIVET_NO_MEMORY) {
        const int32_t inside = node->is_straight && message->column > 1 ? message->column - 1 : 0;
        message->line = node->line;
        message->column = node->column + inside;
        trivet__tell_thing(reading, thing);
    }
    return status;
}

static const char *article(const char *noun)
{
    return strchr("aeiou", noun[0]) ? "an" : "a";
}

/* Appends "m^2*kg/s" for the powers of a quantity that has no plain name. */
static void print_powers(const trivet_quantity *quantity, char *text, size_t size)
{
    const char *const names[] = {"m", "kg", "s", "K"};
    const int32_t powers[] = {quantity->length, quantity->mass, quantity->time,
                              quantity->temperature};
    size_t length = 0;
    text[0] = '\0';
    for (size_t i = 0; i < 4 && length < size; i++) {
        if (powers[i] == 1) {
            length += trivet__text_print(text + length, size - length, "%s%s",
                                         length > 0 ? "*" : "", names[i]);
        } else if (powers[i] != 0) {
            length += trivet__text_print(text + length, size - length, "%s%s^%d",
                                         length > 0 ? "*" : "", names[i], (int)powers[i]);
        }
    }
}

/* "is a mass, not a length", or by its units where there is no such word. */
static void describe_misfit(const trivet__reading *reading, const char *shown,
                            const trivet_quantity *quantity, trivet_dimension dimension)
{
    const char *const needed = trivet_dimension_text(dimension);
    for (int32_t other = TRIVET_NUMBER; other <= TRIVET_SPEED; other++) {
        if (trivet_quantity_fits(quantity, (trivet_dimension)other)) {
            const char *const is = trivet_dimension_text((trivet_dimension)other);
            trivet__message_problem(reading->message, "\"%s\" is %s %s, not %s %s", shown,
                                    article(is), is, article(needed), needed);
            return;
        }
    }
    char powers[64];
    print_powers(quantity, powers, sizeof powers);
    trivet__message_problem(reading->message, "\"%s\" is in %s, not %s %s", shown, powers,
                            article(needed), needed);
}

/* What a bare number is multiplied with; 0 if it means nothing. */
static double bare_factor(const trivet__reading *reading, trivet_dimension dimension)
{
    if (dimension == TRIVET_LENGTH) {
        return reading->length;
    }
    if (dimension == TRIVET_MASS) {
        return reading->mass;
    }
    if (dimension == TRIVET_FORCE) {
        return reading->force;
    }
    return dimension == TRIVET_NUMBER ? 1.0 : 0.0;
}

/* Why a quantity is none of the dimension that is needed. */
static trivet_status refuse_quantity(const trivet__reading *reading, const trivet__node *node,
                                     const trivet__thing *thing, const trivet_quantity *quantity,
                                     trivet_dimension dimension)
{
    char shown[TRIVET__SHOWN_MAX];
    const char *const unit = trivet_units_for(&reading->document->units, dimension, NULL);
    trivet__shown(reading, node, shown);
    if (quantity->has_unit) {
        const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_UNIT);
        describe_misfit(reading, shown, quantity, dimension);
        if (unit[0]) {
            trivet__message_remedy(reading->message, "give it in %s", unit);
        } else {
            trivet__message_remedy(reading->message, "leave out the unit");
        }
        return status;
    }
    if (!(bare_factor(reading, dimension) > 0.0)) {
        const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_UNIT);
        trivet__message_problem(reading->message, "\"%s\" has no unit", shown);
        trivet__message_remedy(reading->message, "write one behind it, such as %s", unit);
        return status;
    }
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" is too large", shown);
    trivet__message_remedy(reading->message, "give a number that a frame can have");
    return status;
}

trivet_status trivet__fit_quantity(const trivet__reading *reading, const trivet__node *node,
                                   const trivet__thing *thing, const trivet_quantity *quantity,
                                   trivet_dimension dimension, double *value_out)
{
    if (quantity->has_unit && trivet_quantity_fits(quantity, dimension)) {
        *value_out = quantity->value;
        return TRIVET_OK;
    }
    const double factor = bare_factor(reading, dimension);
    const double value = quantity->value * factor;
    if (!quantity->has_unit && (factor > 0.0 || quantity->value == 0.0) && isfinite(value)) {
        *value_out = value;
        return TRIVET_OK;
    }
    return refuse_quantity(reading, node, thing, quantity, dimension);
}

static trivet_status check_range(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, trivet__range range, double value)
{
    const int is_fine =
        range == TRIVET__ANY || value > 0.0 || (range == TRIVET__NOT_NEGATIVE && value == 0.0);
    if (is_fine) {
        return TRIVET_OK;
    }
    char shown[TRIVET__SHOWN_MAX];
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" is %s", trivet__shown(reading, node, shown),
                            value < 0.0 ? "less than nothing" : "nothing");
    trivet__message_remedy(reading->message, "%s",
                           range == TRIVET__POSITIVE ? "give more than 0" : "give 0 or more");
    return status;
}

trivet_status trivet__read_value(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, trivet_dimension dimension,
                                 trivet__range range, double *value_out)
{
    trivet_quantity quantity;
    double value = 0.0;
    trivet_status status = trivet__read_quantity(reading, node, thing, &quantity);
    if (!status) {
        status = trivet__fit_quantity(reading, node, thing, &quantity, dimension, &value);
    }
    if (!status) {
        status = check_range(reading, node, thing, range, value);
    }
    if (!status) {
        *value_out = value;
    }
    return status;
}

trivet_status trivet__read_key(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *thing, const char *key,
                               trivet_dimension dimension, trivet__range range, double *value_out)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing place;
    trivet__thing_key(&place, thing, key);
    return trivet__read_value(reading, node, &place, dimension, range, value_out);
}

static trivet_status refuse_count(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, int32_t count)
{
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "has %d number%s, where %d are needed",
                            (int)node->count, node->count == 1 ? "" : "s", (int)count);
    trivet__message_remedy(reading->message, "write %s", count == 3 ? "[x, y, z]" : "[a, b]");
    return status;
}

trivet_status trivet__read_row(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing, trivet_dimension dimension,
                               trivet__range range, int32_t count, double *values_out)
{
    trivet_status status =
        trivet__need_list(reading, node, thing, count == 3 ? "[x, y, z]" : "[a, b]");
    if (!status && node->count != count) {
        status = refuse_count(reading, node, thing, count);
    }
    const trivet__node *item = status ? NULL : trivet__tree_first(reading->tree, node);
    for (int32_t i = 0; i < count && item && !status; i++) {
        status = trivet__read_value(reading, item, thing, dimension, range, &values_out[i]);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}

trivet_status trivet__read_row_key(const trivet__reading *reading, const trivet__node *map,
                                   const trivet__thing *thing, const char *key,
                                   trivet_dimension dimension, trivet__range range, int32_t count,
                                   double *values_out)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing place;
    trivet__thing_key(&place, thing, key);
    return trivet__read_row(reading, node, &place, dimension, range, count, values_out);
}

static trivet_status check_along(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, double along, double length)
{
    /* A share such as 100 % may come out a rounding too long. */
    const double rounding = 1e-9 * length;
    if (along >= 0.0 && along <= length + rounding) {
        return TRIVET_OK;
    }
    char shown[TRIVET__SHOWN_MAX];
    char whole[64];
    trivet_units_text(&reading->document->units, TRIVET_LENGTH, length, 6, whole, sizeof whole);
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" is not on the tube, which is %s long",
                            trivet__shown(reading, node, shown), whole);
    trivet__message_remedy(reading->message, "measure along the tube from its first joint");
    return status;
}

trivet_status trivet__read_along(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *thing, const char *key, int32_t tube,
                                 double *along_out)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing place;
    trivet_quantity quantity;
    double along = 0.0;
    trivet__thing_key(&place, thing, key);
    trivet_status status = trivet__read_quantity(reading, node, &place, &quantity);
    if (status) {
        return status;
    }
    const double length = trivet_frame_tube_length(reading->frame, tube);
    if (quantity.has_unit && trivet_quantity_fits(&quantity, TRIVET_NUMBER)) {
        along = quantity.value * length;
    } else {
        status = trivet__fit_quantity(reading, node, &place, &quantity, TRIVET_LENGTH, &along);
    }
    if (!status) {
        status = check_along(reading, node, &place, along, length);
    }
    if (!status) {
        *along_out = along < length ? along : length;
    }
    return status;
}
