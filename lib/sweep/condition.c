/*
 * Conditions on the values of `let`: comparisons joined by "and", those by "or".
 */
#include "sweep/vary.h"

#include <string.h>

typedef enum sign { LESS, LESS_OR_SAME, MORE, MORE_OR_SAME, NONE } sign;

struct trivet__comparison {
    int32_t sign;
    int32_t begins; /* behind "or", or the first: those up to the next must all hold */
    trivet__program left;
    trivet__program right;
};

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

static sign find_sign(piece of, size_t *at_out, size_t *length_out)
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

static trivet_status locate(const trivet__reading *reading, const trivet__node *node,
                            trivet_status status)
{
    if (status && status != TRIVET_NO_MEMORY) {
        reading->message->line = node->line;
        reading->message->column = node->column;
        trivet__text_copy(reading->message->thing, sizeof reading->message->thing,
                          "vary, skip when");
    }
    return status;
}

/* One side becomes a program. A condition that none can be made of is refused. */
static trivet_status read_side(const trivet__reading *reading, const trivet__node *node, piece of,
                               trivet__pool *pool, trivet__program *program)
{
    trivet_quantity value;
    trivet_message_clear(reading->message);
    const trivet_status status =
        trivet__expression_read(reading, of.text, of.length, pool, program, &value);
    if (!status && program->count == 0) {
        return refuse(reading, node, TRIVET_BAD_SYNTAX, "is nested too deep");
    }
    return locate(reading, node, status);
}

static int is_alike(const trivet_quantity *one, const trivet_quantity *other)
{
    return one->length == other->length && one->mass == other->mass && one->time == other->time &&
           one->temperature == other->temperature;
}

static trivet_status read_comparison(const trivet__reading *reading, const trivet__node *node,
                                     piece of, trivet__pool *pool, trivet__comparison *out)
{
    size_t at = 0;
    size_t length = 0;
    out->sign = (int32_t)find_sign(of, &at, &length);
    if (out->sign == NONE) {
        return refuse(reading, node, TRIVET_BAD_SYNTAX, "compares nothing");
    }
    const piece right = {of.text + at + length, of.length - at - length};
    const trivet_status status = read_side(reading, node, (piece){of.text, at}, pool, &out->left);
    return status ? status : read_side(reading, node, right, pool, &out->right);
}

static trivet_status add_comparison(const trivet__reading *reading, piece of, int begins,
                                    trivet__pool *pool, trivet__condition *condition)
{
    trivet__comparison comparison = {.begins = begins};
    void *list = condition->list;
    const trivet_status status = read_comparison(reading, condition->node, of, pool, &comparison);
    if (status) {
        return status;
    }
    if (!trivet__pool_make_room(pool, &list, condition->count, &condition->capacity,
                                sizeof *condition->list)) {
        return trivet__no_memory(reading->message);
    }
    condition->list = list;
    condition->list[condition->count++] = comparison;
    return TRIVET_OK;
}

/* The comparisons between two "or". */
static trivet_status read_all(const trivet__reading *reading, piece of, trivet__pool *pool,
                              trivet__condition *condition)
{
    trivet_status status = TRIVET_OK;
    int begins = 1;
    for (piece rest = of; !status; begins = 0) {
        const size_t end = find_word(rest, " and ");
        status = add_comparison(reading, (piece){rest.text, end}, begins, pool, condition);
        if (end == rest.length) {
            break;
        }
        rest = (piece){rest.text + end + 5, rest.length - end - 5};
    }
    return status;
}

static trivet_status compare(const trivet__reading *reading, const trivet__node *node,
                             const trivet__comparison *of, int *holds_out)
{
    trivet_quantity left;
    trivet_quantity right;
    trivet_status status = trivet__expression_run(reading, &of->left, &left);
    if (!status) {
        status = trivet__expression_run(reading, &of->right, &right);
    }
    if (status) {
        return locate(reading, node, status);
    }
    if (!is_alike(&left, &right)) {
        return refuse(reading, node, TRIVET_BAD_UNIT, "compares quantities of different kinds");
    }
    *holds_out = of->sign == LESS           ? left.value < right.value
                 : of->sign == LESS_OR_SAME ? left.value <= right.value
                 : of->sign == MORE         ? left.value > right.value
                                            : left.value >= right.value;
    return TRIVET_OK;
}

/* All are worked out, so that a mistake shows whatever the values. */
trivet_status trivet__condition_test(const trivet__reading *reading,
                                     const trivet__condition *condition, int *holds_out)
{
    trivet_status status = TRIVET_OK;
    int all_hold = 0; /* of those between two "or" */
    *holds_out = 0;
    for (size_t i = 0; i < condition->count && !status; i++) {
        int holds = 0;
        const trivet__comparison *const of = &condition->list[i];
        status = compare(reading, condition->node, of, &holds);
        *holds_out |= of->begins ? all_hold : 0;
        all_hold = of->begins ? holds : all_hold & holds;
    }
    *holds_out |= all_hold;
    return status;
}

trivet_status trivet__condition_read(const trivet__reading *reading, const trivet__node *node,
                                     trivet__pool *pool, trivet__condition *condition_out)
{
    trivet_status status = TRIVET_OK;
    int holds = 0;
    *condition_out = (trivet__condition){.node = node};
    for (piece rest = {trivet__tree_text(reading->tree, node), node->length}; !status;) {
        const size_t end = find_word(rest, " or ");
        status = read_all(reading, (piece){rest.text, end}, pool, condition_out);
        if (end == rest.length) {
            break;
        }
        rest = (piece){rest.text + end + 4, rest.length - end - 4};
    }
    return status ? status : trivet__condition_test(reading, condition_out, &holds);
}
