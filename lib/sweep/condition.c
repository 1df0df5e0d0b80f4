/*
 * Conditions on the values of `let`: comparisons joined by "and", those by "or".
 */
#include "sweep/vary.h"

#include <string.h>

typedef enum comparison { LESS, LESS_OR_SAME, MORE, MORE_OR_SAME, NONE } comparison;

/* A piece of the condition's text. */
typedef struct piece {
    const char *text;
    size_t length;
} piece;

static trivet_status refuse(const trivet__reading *reading, const trivet__node *node,
                            trivet_status status, const char *problem)
{
    const trivet__thing thing = {.word = "vary, skip when"};
    return trivet__refuse_node(reading, node, &thing, status, problem,
                               "write it as reach > 2 * half and half < 150 mm");
}

/* Where a word between blanks begins, or the end. */
static size_t find_word(piece of, const char *word)
{
    const size_t length = strlen(word);
    for (size_t i = 0; i + length <= of.length; i++) {
        if (memcmp(of.text + i, word, length) == 0) {
            return i;
        }
    }
    return of.length;
}

static comparison find_sign(piece of, size_t *at_out, size_t *length_out)
{
    for (size_t i = 0; i < of.length; i++) {
        const char c = of.text[i];
        if (c == '<' || c == '>') {
            const int has_equal = i + 1 < of.length && of.text[i + 1] == '=';
            *at_out = i;
            *length_out = has_equal ? 2 : 1;
            return c == '<' ? (has_equal ? LESS_OR_SAME : LESS) : (has_equal ? MORE_OR_SAME : MORE);
        }
    }
    return NONE;
}

static trivet_status read_side(const trivet__reading *reading, const trivet__node *node, piece of,
                               trivet_quantity *out)
{
    trivet_message_clear(reading->message);
    const trivet_status status = trivet__expression_read(reading, of.text, of.length, out);
    if (status && status != TRIVET_NO_MEMORY) {
        reading->message->line = node->line;
        reading->message->column = node->column;
        trivet__text_copy(reading->message->thing, sizeof reading->message->thing,
                          "vary, skip when");
    }
    return status;
}

static int is_alike(const trivet_quantity *one, const trivet_quantity *other)
{
    return one->length == other->length && one->mass == other->mass && one->time == other->time &&
           one->temperature == other->temperature;
}

static trivet_status compare(const trivet__reading *reading, const trivet__node *node, piece of,
                             int *holds_out)
{
    size_t at = 0;
    size_t length = 0;
    trivet_quantity left;
    trivet_quantity right;
    const comparison sign = find_sign(of, &at, &length);
    if (sign == NONE) {
        return refuse(reading, node, TRIVET_BAD_SYNTAX, "compares nothing");
    }
    trivet_status status = read_side(reading, node, (piece){of.text, at}, &left);
    if (!status) {
        status = read_side(reading, node, (piece){of.text + at + length, of.length - at - length},
                           &right);
    }
    if (status) {
        return status;
    }
    if (!is_alike(&left, &right)) {
        return refuse(reading, node, TRIVET_BAD_UNIT, "compares quantities of different kinds");
    }
    *holds_out = sign == LESS           ? left.value < right.value
                 : sign == LESS_OR_SAME ? left.value <= right.value
                 : sign == MORE         ? left.value > right.value
                                        : left.value >= right.value;
    return TRIVET_OK;
}

/* Comparisons that must all hold. All are read, so that a mistake shows whatever the values. */
static trivet_status test_all(const trivet__reading *reading, const trivet__node *node, piece of,
                              int *holds_out)
{
    trivet_status status = TRIVET_OK;
    *holds_out = 1;
    for (piece rest = of; !status;) {
        int holds = 0;
        const size_t end = find_word(rest, " and ");
        status = compare(reading, node, (piece){rest.text, end}, &holds);
        *holds_out &= holds;
        if (end == rest.length) {
            break;
        }
        rest = (piece){rest.text + end + 5, rest.length - end - 5};
    }
    return status;
}

trivet_status trivet__condition_test(const trivet__reading *reading, const trivet__node *node,
                                     int *holds_out)
{
    trivet_status status = TRIVET_OK;
    *holds_out = 0;
    for (piece rest = {trivet__tree_text(reading->tree, node), node->length}; !status;) {
        int holds = 0;
        const size_t end = find_word(rest, " or ");
        status = test_all(reading, node, (piece){rest.text, end}, &holds);
        *holds_out |= holds;
        if (end == rest.length) {
            break;
        }
        rest = (piece){rest.text + end + 4, rest.length - end - 4};
    }
    return status;
}
