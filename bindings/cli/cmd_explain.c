/*
 * trivet explain FILE [WHERE]: the working of checks, as one would write it by hand.
 */
#include "command.h"
#include "options.h"
#include "print.h"
#include "solved.h"

#include <trivet/trivet.h>

#include <stdio.h>
#include <string.h>

enum { TEXT_MAX = 2048, CHECKS_MAX = 64 };

static int explain_json(const options *given, const solved *all)
{
    trivet_message message;
    char *json = NULL;
    trivet_message_clear(&message);
    const trivet_status status =
        trivet_document_working_json(all->document, all->checks, given->second, &json, &message);
    return print_json(given, given->operand, status, json, &message);
}

/* Where a formula may go on in the next line: before + - * /, behind a comma. */
static int can_break(const char *blank)
{
    const int is_operator = strchr("+-*/", blank[1]) && blank[2] == ' ';
    return is_operator || blank[-1] == ',';
}

/*
 * Bytes of a formula to put into so many columns: up to the last place to break in as few brackets
 * as possible; if there is none that fits, up to the first one.
 */
static size_t fitting_length(const char *text, int columns)
{
    size_t fits = 0;
    int depth = 0;
    int least = 0;
    size_t i = 0;
    for (; text[i] && ((int)i <= columns || fits == 0); i++) {
        depth += (text[i] == '(') - (text[i] == ')');
        const int is_place = i > 0 && text[i] == ' ' && can_break(text + i);
        if (is_place && (fits == 0 || depth <= least)) {
            fits = i;
            least = depth;
        }
    }
    return text[i] || (int)i > columns ? (fits > 0 ? fits : strlen(text)) : i;
}

/* A side of an equation from column at, in as many lines as it takes. */
static void print_side(int at, const char *text, size_t length)
{
    char side[TEXT_MAX];
    snprintf(side, sizeof side, "%.*s", (int)length, text);
    for (const char *rest = side;;) {
        const size_t part = fitting_length(rest, print_width() - at);
        printf("%.*s\n", (int)part, rest);
        rest += part;
        rest += strspn(rest, " ");
        if (!rest[0]) {
            return;
        }
        printf("%*s", at, "");
    }
}

/*
 * "sigma_N = N / A = 250 N / 140 mm^2 = 1.79 N/mm^2": on one line, or if it is too long each side
 * on its own, one below the other.
 */
static void print_equation(int indent, const char *text)
{
    const char *const first = strstr(text, " = ");
    const int at = indent + (int)(first ? first - text : 0) + 3;
    if (!first || indent + text_width(text) <= print_width()) {
        printf("%*s", indent, "");
        print_side(indent, text, strlen(text));
        return;
    }
    printf("%*s%.*s = ", indent, "", (int)(first - text), text);
    for (const char *side = first + 3;;) {
        const char *const next = strstr(side, " = ");
        print_side(at, side, next ? (size_t)(next - side) : strlen(side));
        if (!next) {
            return;
        }
        printf("%*s= ", at - 2, "");
        side = next + 3;
    }
}

/* The line, and below it what it is and where it comes from. */
static void print_step(const solved *all, int32_t index, int32_t number)
{
    trivet_step step = {.size = sizeof step};
    char text[TEXT_MAX];
    if (trivet_checks_step(all->checks, index, number, &step) != TRIVET_OK) {
        return;
    }
    trivet_checks_step_text(all->checks, index, number, &all->units, text, sizeof text);
    print_equation(2, text);
    print_line(6, "%s; %s", step.meaning, step.source);
}

static void print_working(const solved *all, int32_t index)
{
    trivet_check check = {.size = sizeof check};
    char text[TEXT_MAX];
    if (trivet_checks_at(all->checks, index, &check) != TRIVET_OK) {
        return;
    }
    snprintf(text, sizeof text, "Check of %s", check.check);
    print_heading(text);
    trivet_checks_sentence_of(all->checks, index, &all->units, text, sizeof text);
    print_line(2, "%s", text);
    putchar('\n');
    for (int32_t i = 0; i < check.step_count; i++) {
        print_step(all, index, i);
    }
    print_line(2, "Rule: %s", check.source);
}

static int explain_text(const options *given, const solved *all)
{
    int32_t indices[CHECKS_MAX];
    const int32_t count =
        trivet_checks_select(all->checks, given->second, indices, (int32_t)CHECKS_MAX);
    const char *const name = trivet_document_name(all->document);
    print_line(0, "%s: %s", name[0] ? name : given->operand,
               given->second ? "the worst check of each kind there" : "the check that governs");
    for (int32_t i = 0; i < count && i < CHECKS_MAX; i++) {
        print_working(all, indices[i]);
    }
    print_heading("How to read it");
    print_line(2, "All numbers stand in units that belong together: put them into a calculator as "
                  "they are. Lengths in one unit, forces in one unit, stress is force over "
                  "length squared.");
    if (count > CHECKS_MAX) {
        print_line(2, "%d more are not shown.", (int)(count - CHECKS_MAX));
    }
    return EXIT_HOLDS;
}

/* What was checked and has a name like that; NULL if nothing has. */
static const char *nearest_place(const solved *all, const char *wish)
{
    enum { MOST = 128 };
    const char *names[2 * MOST + 1] = {NULL};
    int count = 0;
    for (int32_t i = 0; i < trivet_checks_count(all->checks) && i < MOST; i++) {
        trivet_check check = {.size = sizeof check};
        if (trivet_checks_at(all->checks, i, &check) == TRIVET_OK) {
            names[count++] = check.where;
            names[count++] = check.check;
        }
    }
    return nearest_word(wish, names);
}

static int refuse_place(const options *given, const solved *all)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_BAD_NAME;
    const char *const nearest = given->second ? nearest_place(all, given->second) : NULL;
    if (given->second) {
        snprintf(message.thing, sizeof message.thing, "%.120s", given->second);
        snprintf(message.problem, sizeof message.problem, "nothing of that name was checked");
        if (nearest) {
            snprintf(message.remedy, sizeof message.remedy, "did you mean \"%.120s\"?", nearest);
        } else {
            snprintf(message.remedy, sizeof message.remedy,
                     "name a tube, joint, mount, deck or kind of check that trivet check lists");
        }
        return fail(given, given->operand, &message);
    }
    message.status = TRIVET_INCOMPLETE;
    snprintf(message.problem, sizeof message.problem, "nothing could be checked");
    snprintf(message.remedy, sizeof message.remedy, "see what trivet check says of it");
    return fail(given, given->operand, &message);
}

int cmd_explain(const options *given)
{
    solved all;
    trivet_message message;
    memset(&all, 0, sizeof all);
    trivet_message_clear(&message);
    const trivet_status status = solved_make(given->operand, &all, &message);
    int exit_status = EXIT_HOLDS;
    if (status != TRIVET_OK) {
        exit_status = solved_fail(given, status, &message);
    } else if (trivet_checks_select(all.checks, given->second, NULL, 0) == 0) {
        exit_status = refuse_place(given, &all);
    } else {
        exit_status = given->is_json ? explain_json(given, &all) : explain_text(given, &all);
    }
    solved_free(&all);
    return exit_status;
}
