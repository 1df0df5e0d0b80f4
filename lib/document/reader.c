/*
 * Reads YAML event by event, so that neither depth nor length of the text reaches any stack.
 * Anchors, aliases, tags, merge keys and second documents are refused: a file that a fabricator
 * changes by hand should say what it says where it says it.
 */
#include "document/reader.h"

#include "base/memory.h"
#include "base/message.h"
#include "document/input.h"
#include "document/syntax.h"
#include "document/unquote.h"

#include <assert.h>
#include <libfyaml.h>
#include <string.h>

typedef struct event_reader {
    const char *text;
    size_t length;
    trivet__tree *tree;
    trivet_message *message;
    int32_t open[TRIVET__DEPTH_MAX]; /* lists and maps not yet closed */
    int32_t depth;
    int32_t line; /* of the last event that had a place */
    int32_t column;
    int saw_end;
} event_reader;

static trivet_status refuse_here(const event_reader *reader, trivet_status status,
                                 const char *problem, const char *remedy)
{
    trivet__refuse(reader->message, status, "the file", problem, remedy);
    if (reader->message) {
        reader->message->line = reader->line;
        reader->message->column = reader->column;
    }
    return status;
}

static trivet_status refuse_depth(const event_reader *reader)
{
    return refuse_here(reader, TRIVET_BAD_SYNTAX,
                       "more than 32 lists and groups stand inside each other here",
                       "no frame needs that; look whether it is the right file");
}

/* The event's own place, or the last place known for what is not written, such as an empty value.
 */
static void take_place(event_reader *reader, const struct fy_mark *mark)
{
    if (mark && mark->line >= 0 && mark->column >= 0) {
        reader->line = mark->line + 1;
        reader->column = mark->column + 1;
    }
}

static int32_t open_node(const event_reader *reader)
{
    return reader->depth > 0 ? reader->open[reader->depth - 1] : -1;
}

/* Children of a map come in pairs; count is raised when the key comes. */
static int next_is_key(const event_reader *reader)
{
    const int32_t above = open_node(reader);
    if (above < 0 || reader->tree->nodes[above].kind != TRIVET__MAP) {
        return 0;
    }
    const trivet__node *const map = &reader->tree->nodes[above];
    return map->last < 0 || !reader->tree->nodes[map->last].is_key;
}

static trivet_status add_node(event_reader *reader, int32_t kind, int32_t *added_out)
{
    if (reader->tree->count >= TRIVET__NODES_MAX) {
        return refuse_here(reader, TRIVET_BAD_VALUE, "holds more than 2000000 values",
                           "this is hardly a frame; look whether it is the right file");
    }
    const int32_t above = open_node(reader);
    const int32_t added = trivet__tree_add(reader->tree, above, kind);
    if (added < 0) {
        return trivet__no_memory(reader->message);
    }
    reader->tree->nodes[added].line = reader->line;
    reader->tree->nodes[added].column = reader->column;
    if (above >= 0 && reader->tree->nodes[above].kind == TRIVET__LIST) {
        reader->tree->nodes[above].count++;
    }
    *added_out = added;
    return TRIVET_OK;
}

static int32_t count_characters(const char *text, size_t length)
{
    int32_t count = 0;
    for (size_t i = 0; i < length; i++) {
        count += ((unsigned char)text[i] & 0xC0U) != 0x80U;
    }
    return count;
}

static void describe_scalar(trivet__node *node, struct fy_event *event, const char *text)
{
    const enum fy_scalar_style style = fy_token_scalar_style(event->scalar.value);
    const struct fy_mark *const from = fy_event_start_mark(event);
    const struct fy_mark *const to = fy_event_end_mark(event);
    const int is_block = style == FYSS_LITERAL || style == FYSS_FOLDED;
    node->is_plain = style == FYSS_PLAIN;
    node->is_straight = from && to && !is_block && from->line == to->line &&
                        to->column - from->column == count_characters(text, node->length);
}

static trivet_status keep_scalar(event_reader *reader, struct fy_event *event, const char *text,
                                 size_t length)
{
    const int is_key = next_is_key(reader);
    if (length > 0 && memchr(text, '\0', length)) {
        return refuse_here(reader, TRIVET_BAD_SYNTAX, "holds a sign that stands in no text",
                           "take the escaped zero out");
    }
    int32_t added = -1;
    const trivet_status status = add_node(reader, TRIVET__SCALAR, &added);
    if (status) {
        return status;
    }
    if (!trivet__tree_set_text(reader->tree, added, text, length)) {
        return trivet__no_memory(reader->message);
    }
    trivet__node *const node = &reader->tree->nodes[added];
    describe_scalar(node, event, text);
    if (is_key) {
        if (node->is_plain && strcmp(trivet__tree_text(reader->tree, node), "<<") == 0) {
            return refuse_here(reader, TRIVET_BAD_SYNTAX, "a merge key << is not understood",
                               "write the keys out");
        }
        node->is_key = 1;
        reader->tree->nodes[open_node(reader)].count++;
    }
    return TRIVET_OK;
}

/*
 * The text of a scalar; *own_out is to be given back if it is not NULL. NULL: no memory. What
 * stands in the file as it is gets taken from there, so that the parser needs no memory for it.
 */
static const char *text_of(const event_reader *reader, struct fy_event *event, size_t *length_out,
                           char **own_out)
{
    const enum fy_scalar_style style = fy_token_scalar_style(event->scalar.value);
    const struct fy_mark *const from = fy_event_start_mark(event);
    const struct fy_mark *const to = fy_event_end_mark(event);
    *own_out = NULL;
    *length_out = 0;
    if (!from || !to || from->input_pos >= to->input_pos || to->input_pos > reader->length) {
        return "";
    }
    const char *const text = reader->text + from->input_pos;
    const size_t length = to->input_pos - from->input_pos;
    if (style == FYSS_PLAIN && from->line == to->line) {
        *length_out = length;
        return text;
    }
    if (style == FYSS_SINGLE_QUOTED) {
        *own_out = trivet__take(length, 1);
        *length_out = *own_out ? trivet__unquote(text, length, *own_out) : 0;
        return *own_out;
    }
    return fy_token_get_text(event->scalar.value, length_out);
}

static trivet_status take_scalar(event_reader *reader, struct fy_event *event)
{
    char *own = NULL;
    size_t length = 0;
    const char *const text = text_of(reader, event, &length, &own);
    const trivet_status status =
        text ? keep_scalar(reader, event, text, length) : trivet__no_memory(reader->message);
    trivet__give_back(own);
    return status;
}

/* A list or map begins. */
static trivet_status take_start(event_reader *reader, int32_t kind)
{
    if (next_is_key(reader)) {
        return refuse_here(reader, TRIVET_BAD_SYNTAX,
                           "a list or group stands where a key is needed",
                           "write a word, a colon, then the list or group");
    }
    if (reader->depth >= TRIVET__DEPTH_MAX) {
        return refuse_depth(reader);
    }
    int32_t added = -1;
    const trivet_status status = add_node(reader, kind, &added);
    if (!status) {
        reader->open[reader->depth] = added;
        reader->depth++;
    }
    return status;
}

static trivet_status take_end(event_reader *reader)
{
    assert(reader->depth > 0);
    reader->depth--;
    const int32_t closed = reader->open[reader->depth];
    return reader->tree->nodes[closed].kind == TRIVET__MAP
               ? trivet__tree_check_twice(reader->tree, closed, reader->message)
               : TRIVET_OK;
}

static trivet_status refuse_extras(event_reader *reader, struct fy_event *event)
{
    if (event->type == FYET_ALIAS) {
        reader->column--; /* the mark stands behind the star */
        return refuse_here(reader, TRIVET_BAD_SYNTAX, "an alias (*name) is not understood",
                           "write the value out, or give it a name in \"let\"");
    }
    struct fy_token *const anchor = fy_event_get_anchor_token(event);
    struct fy_token *const tag = fy_event_get_tag_token(event);
    if (anchor) {
        take_place(reader, fy_token_start_mark(anchor));
        reader->column--; /* the mark stands behind the sign */
        return refuse_here(reader, TRIVET_BAD_SYNTAX, "an anchor (&name) is not understood",
                           "take it out; a name in \"let\" serves for a value used twice");
    }
    if (tag) {
        take_place(reader, fy_token_start_mark(tag));
        return refuse_here(reader, TRIVET_BAD_SYNTAX, "a tag (!name) is not understood",
                           "take it out");
    }
    return TRIVET_OK;
}

static trivet_status take_event(event_reader *reader, struct fy_event *event)
{
    take_place(reader, fy_event_start_mark(event));
    trivet_status status = refuse_extras(reader, event);
    if (status) {
        return status;
    }
    switch (event->type) {
    case FYET_DOCUMENT_START:
        if (reader->tree->count > 0) {
            return refuse_here(reader, TRIVET_BAD_SYNTAX, "a second document begins here",
                               "keep one frame in one file");
        }
        return TRIVET_OK;
    case FYET_SCALAR:
        return take_scalar(reader, event);
    case FYET_MAPPING_START:
        return take_start(reader, TRIVET__MAP);
    case FYET_SEQUENCE_START:
        return take_start(reader, TRIVET__LIST);
    case FYET_MAPPING_END:
    case FYET_SEQUENCE_END:
        return take_end(reader);
    case FYET_STREAM_END:
        reader->saw_end = 1;
        return TRIVET_OK;
    case FYET_NONE:
    case FYET_STREAM_START:
    case FYET_DOCUMENT_END:
    case FYET_ALIAS:
    default:
        return TRIVET_OK;
    }
}

/* Some line of the text begins with %: a directive. */
static int has_directive(const event_reader *reader)
{
    for (size_t i = 0; i < reader->length; i++) {
        if (reader->text[i] == '%' && (i == 0 || reader->text[i - 1] == '\n')) {
            return 1;
        }
    }
    return 0;
}

/*
 * Why the parser stopped before the end. Its complaints about itself ("... failed") and its
 * silence mean that it found no memory.
 */
static trivet_status explain_stop(const event_reader *reader, struct fy_diag *diagnostics)
{
    void *at = NULL;
    const struct fy_diag_error *error = fy_diag_errors_iterate(diagnostics, &at);
    while (error && error->type != FYET_ERROR) {
        error = fy_diag_errors_iterate(diagnostics, &at);
    }
    if (error && error->msg && !strstr(error->msg, "failed")) {
        const int32_t open = open_node(reader);
        const int32_t opened = open < 0 ? 0 : reader->tree->nodes[open].line;
        return trivet__syntax_refuse(reader->message, error->msg, error->line, error->column,
                                     opened);
    }
    if (!error && has_directive(reader)) {
        return refuse_here(reader, TRIVET_BAD_SYNTAX, "a line that begins with % is not understood",
                           "take it out");
    }
    return trivet__no_memory(reader->message);
}

static trivet_status read_events(event_reader *reader, struct fy_parser *parser,
                                 struct fy_diag *diagnostics)
{
    trivet_status status = TRIVET_OK;
    struct fy_event *event = fy_parser_parse(parser);
    while (event && !status) {
        status = take_event(reader, event);
        fy_parser_event_free(parser, event);
        event = status ? NULL : fy_parser_parse(parser);
    }
    if (!status && (!reader->saw_end || fy_parser_get_stream_error(parser))) {
        status = explain_stop(reader, diagnostics);
    }
    return status;
}

/* A parser that prints nothing and keeps its complaints for us. */
static struct fy_parser *make_parser(struct fy_diag *diagnostics)
{
    const struct fy_parse_cfg wishes = {
        .search_path = "",
        .flags = FYPCF_QUIET | FYPCF_COLLECT_DIAG | FYPCF_DEFAULT_VERSION_1_2 | FYPCF_JSON_NONE |
                 FYPCF_SLOPPY_FLOW_INDENTATION,
        .userdata = NULL,
        .diag = diagnostics,
    };
    return fy_parser_create(&wishes);
}

/*
 * libfyaml 0.7.12 does not look whether the few hundred bytes were there that it asks for when it
 * is handed a text. A block taken and given back just before leaves room for them.
 */
static int has_spare_memory(void)
{
    enum { ENOUGH = 16 * 1024 };
    void *const spare = trivet__take(ENOUGH, 1);
    trivet__give_back(spare);
    return spare != NULL;
}

static struct fy_diag *make_diagnostics(void)
{
    struct fy_diag_cfg wishes;
    fy_diag_cfg_default(&wishes);
    wishes.fp = NULL;
    wishes.output_fn = NULL;
    wishes.level = FYET_ERROR;
    wishes.colorize = false;
    struct fy_diag *const made = fy_diag_create(&wishes);
    if (made) {
        fy_diag_set_collect_errors(made, true);
    }
    return made;
}

/*
 * The parser looks ahead while brackets open, and would take memory for each before the first event
 * comes. So that many are refused beforehand; brackets in quotes and remarks count too, which does
 * no harm at this number.
 */
static trivet_status check_brackets(const event_reader *reader)
{
    enum { MOST_OPEN = 1000 };
    int32_t open = 0;
    for (size_t i = 0; i < reader->length; i++) {
        const char sign = reader->text[i];
        if (sign == '[' || sign == '{') {
            open++;
        } else if ((sign == ']' || sign == '}') && open > 0) {
            open--;
        }
        if (open > MOST_OPEN) {
            event_reader here = *reader;
            trivet__input_place(reader->text, i, &here.line, &here.column);
            return refuse_depth(&here);
        }
    }
    return TRIVET_OK;
}

trivet_status trivet__reader_read(const char *text, size_t length, trivet__tree *tree_out,
                                  trivet_message *message)
{
    static const char mark[] = "\xEF\xBB\xBF"; /* some editors put it before UTF-8 */
    const size_t skipped = length >= 3 && memcmp(text, mark, 3) == 0 ? 3 : 0;
    memset(tree_out, 0, sizeof *tree_out);
    event_reader reader = {.text = text + skipped,
                           .length = length - skipped,
                           .tree = tree_out,
                           .message = message,
                           .line = 1,
                           .column = 1};
    trivet_status status = check_brackets(&reader);
    if (status) {
        return status;
    }
    struct fy_parser *parser = NULL;
    struct fy_diag *const diagnostics = make_diagnostics();
    if (!diagnostics) {
        status = trivet__no_memory(message);
        goto done;
    }
    parser = make_parser(diagnostics);
    if (!parser || !has_spare_memory() ||
        fy_parser_set_string(parser, reader.text, reader.length) != 0) {
        status = trivet__no_memory(message);
        goto done;
    }
    status = read_events(&reader, parser, diagnostics);

done:
    if (parser) {
        fy_parser_destroy(parser);
    }
    if (diagnostics) {
        fy_diag_destroy(diagnostics);
    }
    if (status) {
        trivet__tree_clear(tree_out);
    }
    return status;
}
