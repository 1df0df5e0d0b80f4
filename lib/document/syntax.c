/*
 * Complaints of libfyaml 0.7.12 and what they mean to somebody who has never heard of flow
 * mappings. The first row whose text is found in the complaint speaks.
 */
#include "document/syntax.h"

#include "base/message.h"

#include <string.h>

typedef struct syntax_row {
    const char *part;
    const char *problem;
    const char *remedy;
    int32_t names_opening; /* %d in problem is the line where the list or group began */
    int32_t back;          /* columns that the place stands behind the sign that is meant */
} syntax_row;

static const syntax_row syntax_rows[] = {
    {"wrongly indented", "what began in brackets or quotes goes on with too little indentation",
     "close it, or indent this line more", 0, 0},
    {"tab ", "a tab indents this line", "indent with blanks", 0, 0},
    {"closing quote", "a text in quotes is not closed", "add the missing quote", 0, 1},
    {"trailing content after", "something follows the closing quote",
     "put the whole text inside the quotes", 0, 0},
    {"extra closing", "a bracket closes that was never opened",
     "take it out, or add the opening one", 0, 0},
    {"sequence without a closing", "the list that began with [ in line %d is not closed",
     "add the missing ]", 1, 0},
    {"mapping without a closing", "the group that began with { in line %d is not closed",
     "add the missing }", 1, 0},
    {"missing comma in flow mapping",
     "the group that began with { in line %d lacks a comma or its closing }",
     "add it before this place", 1, 0},
    {"missing comma in flow sequence",
     "the list that began with [ in line %d lacks a comma or its closing ]",
     "add it before this place", 1, 0},
    {"nested block mapping", "a second colon stands in this line",
     "put the text in quotes, or begin a new line", 0, 0},
    {"multiline plain key", "this line lacks a colon, or the next one is indented too far",
     "write \"key: value\", and line up the keys of a group", 0, 0},
    {"sequence on the same line", "a list with dashes cannot begin behind a colon",
     "begin it on a new line, or write it as [a, b]", 0, 0},
    {"cannot start with", "a plain text cannot begin with this sign", "put the text in quotes", 0,
     0},
    {"invalid escape", "the sign after the backslash means nothing",
     "use single quotes, in which a backslash is just that", 0, 0},
    {"expected node content", "a value is missing before this place, or a bracket does not match",
     "write the value, or mend the brackets", 0, 0},
    {"indentation", "this line is not indented like its neighbours",
     "line up the keys of a group, with blanks", 0, 0},
};

/* The first row whose text is found in a complaint; 0 if there is none. */
static int find_row(const char *complaint, int32_t opened, syntax_row *row_out)
{
    for (size_t i = 0; i < sizeof syntax_rows / sizeof syntax_rows[0]; i++) {
        if (strstr(complaint, syntax_rows[i].part) &&
            (opened > 0 || !syntax_rows[i].names_opening)) {
            *row_out = syntax_rows[i];
            return 1;
        }
    }
    return 0;
}

trivet_status trivet__syntax_refuse(trivet_message *message, const char *complaint, int32_t line,
                                    int32_t column, int32_t opened)
{
    const trivet_status status =
        trivet__refuse(message, TRIVET_BAD_SYNTAX, "the file", "",
                       "look at the signs and the indentation just before this place");
    syntax_row row;
    const int is_known = find_row(complaint, opened, &row);
    trivet__message_problem(message, "cannot be read here (%.120s)", complaint);
    if (message) {
        message->line = line;
        message->column = column;
    }
    if (!message || !is_known) {
        return status;
    }
    const char *const gap = strstr(row.problem, "%d");
    if (gap) {
        trivet__message_problem(message, "%.*s%d%s", (int)(gap - row.problem), row.problem,
                                (int)opened, gap + 2);
    } else {
        trivet__message_problem(message, "%s", row.problem);
    }
    trivet__message_remedy(message, "%s", row.remedy);
    message->column -= row.back;
    return status;
}
