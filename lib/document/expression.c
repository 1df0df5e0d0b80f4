/*
 * Expressions and `let`. Names may be used before they are defined, so the values are worked out
 * in the order of their dependence: a walk in depth with a list of its own instead of the stack,
 * on which the names stand that are being worked out; one that is met again closes a circle.
 */
#include "document/reading.h"

#include "base/quantity.h"
#include "base/text.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

enum {
    LETS_MAX = 1000, /* with the length of an expression it bounds the work of looking names up */
    EXPRESSION_MAX = 500 /* bytes */
};

trivet__let *trivet__find_let(const trivet_document *document, const char *name, size_t length)
{
    for (size_t i = 0; i < document->lets.count; i++) {
        trivet__let *const let = TRIVET__AT(document->lets, trivet__let, i);
        if (strlen(let->name) == length && memcmp(let->name, name, length) == 0) {
            return let;
        }
    }
    return NULL;
}

/* The name that a misspelled one may mean. */
static trivet_status refuse_name(const trivet_document *document, const char *name, size_t length,
                                 trivet_message *message)
{
    char wish[TRIVET__SHOWN_MAX];
    const int shown = (int)(length < sizeof wish ? length : sizeof wish - 1);
    trivet__text_print(wish, sizeof wish, "%.*s", shown, name);
    trivet__nearest search = {wish, NULL, 0};
    for (size_t i = 0; i < document->lets.count; i++) {
        trivet__nearest_offer(&search, TRIVET__AT(document->lets, trivet__let, i)->name);
    }
    trivet__refuse(message, TRIVET_BAD_NAME, wish, "", "");
    trivet__message_problem(message, "\"%s\" is neither a unit nor a name in \"let\"", wish);
    if (trivet__meant(&search)) {
        trivet__message_remedy(message, "did you mean \"%s\"?", search.nearest);
    } else {
        trivet__message_remedy(message, "look at the spelling, or add it to \"let\"");
    }
    return TRIVET_BAD_NAME;
}

static trivet_status give_name(void *user, const char *name, size_t length, trivet_quantity *out,
                               trivet_message *message)
{
    const trivet_document *const document = user;
    const trivet__let *const let = trivet__find_let(document, name, length);
    if (!let) {
        return refuse_name(document, name, length, message);
    }
    if (let->state != 2) {
        return trivet__refuse(message, TRIVET_BAD_NAME, let->name, "its value is not known yet",
                              "work it out without itself");
    }
    *out = let->quantity;
    return TRIVET_OK;
}

/* stock/ reads gauges; asking it with the text that it knows keeps its explanations in one place.
 */
static trivet_status give_gauge(void *user, double number, const char *system, size_t length,
                                double *out, trivet_message *message)
{
    (void)user;
    char text[64];
    trivet_quantity thickness;
    const int shown = (int)(length < 32 ? length : 32);
    snprintf(text, sizeof text, "%.17g ga %.*s", number, shown, length > 0 ? system : "");
    if (length == 0) {
        snprintf(text, sizeof text, "%.17g ga", number);
    }
    const trivet_status status = trivet_stock_quantity_read(text, &thickness, message);
    if (!status) {
        *out = thickness.value;
    } else if (status == TRIVET_BAD_VALUE) {
        /* the place in the file will stand where the gauge was named */
        char problem[TRIVET_PROBLEM_MAX];
        trivet__text_copy(problem, sizeof problem, message ? message->problem : "");
        trivet__message_problem(message, "gauge %.9g %s", number, problem);
    }
    return status;
}

trivet_status trivet__expression_check(const trivet__reading *reading, const trivet__node *node,
                                       const trivet__thing *thing)
{
    if (node->length <= EXPRESSION_MAX) {
        return TRIVET_OK;
    }
    trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "the text is %zu bytes long, more than %d",
                            node->length, (int)EXPRESSION_MAX);
    trivet__message_remedy(reading->message, "give parts of it names in \"let\"");
    return TRIVET_BAD_VALUE;
}

static int32_t give_number(void *user, const char *name, size_t length)
{
    const trivet_document *const document = user;
    const trivet__let *const lets = document->lets.list;
    return (int32_t)(trivet__find_let(document, name, length) - lets);
}

trivet_status trivet__expression_read(const trivet__reading *reading, const char *text,
                                      size_t length, trivet__pool *pool,
                                      trivet__program *program_out, trivet_quantity *quantity_out)
{
    const trivet__quantity_hooks hooks = {
        .name = give_name, .gauge = give_gauge, .user = reading->document, .number = give_number};
    return program_out
               ? trivet__program_make(text, length, &hooks, pool, program_out, quantity_out,
                                      reading->message)
               : trivet__quantity_parse(text, length, &hooks, quantity_out, reading->message);
}

static const trivet_quantity *value_of(const void *user, int32_t number)
{
    const trivet_document *const document = user;
    return &TRIVET__AT(document->lets, trivet__let, number)->quantity;
}

trivet_status trivet__expression_run(const trivet__reading *reading, const trivet__program *program,
                                     trivet_quantity *quantity_out)
{
    return trivet__program_run(program, value_of, reading->document, quantity_out,
                               reading->message);
}

/* Letters of any alphabet: whatever stands beyond ASCII is taken for one. */
static int is_letter(char sign)
{
    return (sign >= 'a' && sign <= 'z') || (sign >= 'A' && sign <= 'Z') || sign == '_' ||
           (unsigned char)sign >= 0x80U;
}

static int is_digit(char sign)
{
    return sign >= '0' && sign <= '9';
}

static trivet_status refuse_let_name(const trivet__reading *reading, const trivet__node *node,
                                     const trivet__thing *thing, const char *problem,
                                     const char *remedy)
{
    return trivet__refuse_node(reading, node, thing, TRIVET_BAD_NAME, problem, remedy);
}

static trivet_status check_let_name(const trivet__reading *reading, const trivet__node *node,
                                    const trivet__thing *thing)
{
    const char *name = NULL;
    trivet_status status = trivet__read_name(reading, node, thing, &name);
    if (status) {
        return status;
    }
    int is_word = is_letter(name[0]);
    for (const char *at = name; *at; at++) {
        is_word = is_word && (is_letter(*at) || is_digit(*at));
    }
    if (!is_word) {
        return refuse_let_name(reading, node, thing, "the name is not one plain word",
                               "use letters, digits and _, a letter first");
    }
    trivet_quantity unit;
    char one[TRIVET_NAME_MAX + 2];
    snprintf(one, sizeof one, "1 %s", name);
    if (trivet_quantity_read(one, &unit, NULL) == TRIVET_OK) {
        return refuse_let_name(reading, node, thing, "the name is that of a unit",
                               "choose another name");
    }
    return strcmp(name, "ga") == 0
               ? refuse_let_name(reading, node, thing, "the name stands for a gauge",
                                 "choose another name")
               : TRIVET_OK;
}

static trivet_status add_let(const trivet__reading *reading, const trivet__node *name,
                             const trivet__node *value)
{
    trivet__thing thing;
    trivet__thing_named(&thing, "let", name);
    trivet_status status = check_let_name(reading, name, &thing);
    if (!status) {
        status = trivet__need_scalar(reading, value, &thing);
    }
    if (!status) {
        status = trivet__expression_check(reading, value, &thing);
    }
    if (status) {
        return status;
    }
    trivet__let let = {.node = (int32_t)(value - reading->tree->nodes)};
    let.name = trivet__keep(reading->document, trivet__tree_text(reading->tree, name));
    if (!let.name || !trivet__note(reading->document, &reading->document->lets, &let, sizeof let)) {
        return trivet__no_memory(reading->message);
    }
    return TRIVET_OK;
}

/* The next name of `let` that an expression uses, from *at on; NULL if there is none. */
static trivet__let *next_name(const trivet__reading *reading, const trivet__let *let, size_t *at)
{
    const char *const text = trivet__tree_text(reading->tree, &reading->tree->nodes[let->node]);
    while (text[*at]) {
        if (!is_letter(text[*at])) {
            (*at)++;
            continue;
        }
        const size_t start = *at;
        while (is_letter(text[*at]) || is_digit(text[*at])) {
            (*at)++;
        }
        trivet__let *const used = trivet__find_let(reading->document, text + start, *at - start);
        if (used) {
            return used;
        }
    }
    return NULL;
}

/* One name that is being worked out, and how far its text has been looked through. */
typedef struct let_step {
    trivet__let *let;
    size_t at;
} let_step;

static trivet_status refuse_circle(const trivet__reading *reading, const let_step *steps,
                                   size_t depth, const trivet__let *again)
{
    size_t start = depth;
    while (start > 0 && steps[start - 1].let != again) {
        start--;
    }
    assert(start > 0);
    char chain[TRIVET_PROBLEM_MAX] = "";
    size_t length = 0;
    for (size_t i = start - 1; i < depth && length < sizeof chain; i++) {
        length +=
            trivet__text_print(chain + length, sizeof chain - length, "%s -> ", steps[i].let->name);
    }
    trivet__thing thing;
    trivet__thing_set(&thing, "let", again->name);
    const trivet_status status =
        trivet__complain(reading, &reading->tree->nodes[again->node], &thing, TRIVET_BAD_NAME);
    trivet__message_problem(reading->message, "goes in a circle, %s%s", chain, again->name);
    trivet__message_remedy(reading->message, "give one of them a value of its own");
    return status;
}

/* For readings with other values: whatever let needs has been noted before it. */
static void note_order(const trivet__reading *reading, const trivet__let *let)
{
    trivet__compiled *const compiled = reading->compiling;
    if (compiled) {
        const trivet__let *const lets = reading->document->lets.list;
        compiled->order[compiled->let_count++] = (int32_t)(let - lets);
    }
}

static trivet_status evaluate(const trivet__reading *reading, trivet__let *let)
{
    trivet__thing thing;
    const trivet_quantity *const instead = trivet__override_let(reading->overrides, let->name);
    if (instead) {
        let->quantity = *instead;
        let->state = 2;
        return TRIVET_OK;
    }
    trivet__thing_set(&thing, "let", let->name);
    const trivet_status status =
        trivet__read_quantity(reading, &reading->tree->nodes[let->node], &thing, &let->quantity);
    if (!status) {
        let->state = 2;
        note_order(reading, let);
    }
    return status;
}

/* Works out one name and all that it needs. steps: room for every name. */
static trivet_status work_out(const trivet__reading *reading, trivet__let *first, let_step *steps)
{
    size_t depth = 0;
    steps[depth++] = (let_step){first, 0};
    first->state = 1;
    trivet_status status = TRIVET_OK;
    while (depth > 0 && !status) {
        let_step *const step = &steps[depth - 1];
        trivet__let *const used = next_name(reading, step->let, &step->at);
        if (!used) {
            status = evaluate(reading, step->let);
            depth--;
        } else if (used->state == 1) {
            status = refuse_circle(reading, steps, depth, used);
        } else if (used->state == 0) {
            used->state = 1;
            steps[depth++] = (let_step){used, 0};
        }
    }
    return status;
}

static trivet_status work_out_all(const trivet__reading *reading)
{
    const trivet__notes *const lets = &reading->document->lets;
    let_step *const steps = trivet__room(reading->document, lets->count, sizeof *steps);
    if (!steps) {
        return trivet__no_memory(reading->message);
    }
    if (reading->compiling) {
        reading->compiling->order = trivet__pool_take(&reading->compiling->pool, lets->count,
                                                      sizeof *reading->compiling->order);
        if (!reading->compiling->order) {
            return trivet__no_memory(reading->message);
        }
    }
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < lets->count && !status; i++) {
        trivet__let *const let = TRIVET__AT(*lets, trivet__let, i);
        if (let->state == 0) {
            status = work_out(reading, let, steps);
        }
    }
    return status;
}

/* The same names, worked out in the same order with other values. */
static trivet_status read_again(const trivet__reading *reading)
{
    const trivet__compiled *const of = reading->compiled;
    trivet__notes *const lets = &reading->document->lets;
    const size_t count = (size_t)of->let_count;
    lets->list = trivet__room(reading->document, count, sizeof *of->lets);
    if (!lets->list) {
        return trivet__no_memory(reading->message);
    }
    if (count > 0) {
        memcpy(lets->list, of->lets, count * sizeof *of->lets);
    }
    lets->count = lets->capacity = count;
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < count && !status; i++) {
        status = evaluate(reading, TRIVET__AT(*lets, trivet__let, of->order[i]));
    }
    return status;
}

trivet_status trivet__read_let(trivet__reading *reading)
{
    if (reading->compiled) {
        return read_again(reading);
    }
    const trivet__node *node = NULL;
    trivet_status status = trivet__read_section(reading, "let", &node);
    if (!status && node && node->count > LETS_MAX) {
        const trivet__thing thing = {.word = "let"};
        status = trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
        trivet__message_problem(reading->message, "has %d names, more than %d", (int)node->count,
                                (int)LETS_MAX);
        trivet__message_remedy(reading->message, "write some of the values where they are used");
    }
    if (!status) {
        status = trivet__each_pair(reading, node, add_let);
    }
    return status || !node ? status : work_out_all(reading);
}
