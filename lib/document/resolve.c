/*
 * Section after section is read, each of which may use what earlier ones defined, whatever their
 * order in the file; then the frame as a whole is looked at.
 */
#include "document/resolve.h"

#include <string.h>

/* How many bytes of thing are "kind name", closed by its end or a comma; 0 if it is not that. */
static size_t match_thing(const char *thing, const char *kind, const char *name)
{
    const size_t kind_length = strlen(kind);
    const size_t length = kind_length + 1 + strlen(name);
    const int is_it = strncmp(thing, kind, kind_length) == 0 && thing[kind_length] == ' ' &&
                      strncmp(thing + kind_length + 1, name, strlen(name)) == 0 &&
                      (thing[length] == '\0' || thing[length] == ',');
    return is_it ? length : 0;
}

/* The place of the thing that a complaint about the whole frame names. */
static void locate_thing(const trivet__reading *reading)
{
    size_t longest = 0;
    trivet_message *const message = reading->message;
    for (int32_t kind = TRIVET_KIND_JOINT; kind <= TRIVET_KIND_CYCLES; kind++) {
        const int32_t count = trivet_frame_count(reading->frame, kind);
        for (int32_t i = 0; i < count; i++) {
            const char *const name = trivet_frame_name(reading->frame, kind, i);
            const size_t length = match_thing(message->thing, trivet_kind_text(kind), name);
            if (length > longest) {
                longest = length;
                message->line = trivet_document_place(reading->document, kind, i, &message->column);
            }
        }
    }
    if (longest == 0) {
        message->line = reading->root->line;
        message->column = reading->root->column;
    }
}

static trivet_status check_frame(const trivet__reading *reading)
{
    trivet_message_clear(reading->message);
    const trivet_status status = trivet_frame_validate(reading->frame, reading->message);
    if (status && status != TRIVET_NO_MEMORY) {
        locate_thing(reading);
    }
    return status;
}

static trivet_status read_sections(trivet__reading *reading, const trivet__asked *after_let)
{
    trivet_status (*const sections[])(trivet__reading *) = {
        trivet__read_stock,  trivet__read_joint_section, trivet__read_tubes,
        trivet__read_welds,  trivet__read_mounts,        trivet__read_decks,
        trivet__read_cargo,  trivet__read_vehicle,       trivet__read_cases,
        trivet__read_usage,  trivet__read_combinations,  trivet__read_cycles,
        trivet__read_limits,
    };
    trivet_status status = trivet__read_head(reading);
    if (!status) {
        status = trivet__read_let(reading);
    }
    if (!status && after_let->ask) {
        status = after_let->ask(reading, after_let->user);
    }
    for (size_t i = 0; i < sizeof sections / sizeof sections[0] && !status; i++) {
        status = sections[i](reading);
    }
    if (!status) {
        status = check_frame(reading);
    }
    if (!status) {
        status = trivet__read_measured(reading);
    }
    if (!status) {
        status = trivet__read_shop(reading);
    }
    return status || reading->overrides ? status : trivet__read_expect(reading);
}

static trivet_status refuse_root(const trivet__reading *reading)
{
    const trivet__thing file = {.word = "the file"};
    if (!reading->root || trivet__tree_is_nothing(reading->tree, reading->root)) {
        trivet__complain(reading, reading->root, &file, TRIVET_INCOMPLETE);
        reading->message->line = 1;
        reading->message->column = 1;
        trivet__message_problem(reading->message, "says nothing");
        trivet__message_remedy(reading->message, "\"trivet start FILE\" writes one to begin with");
        return TRIVET_INCOMPLETE;
    }
    return trivet__refuse_node(reading, reading->root, &file, TRIVET_BAD_SYNTAX,
                               "does not begin with a key and a colon", "begin it with trivet: 1");
}

trivet_status trivet__resolve(trivet__reading *reading, const trivet__asked *after_let)
{
    const int is_map = reading->root && reading->root->kind == TRIVET__MAP;
    return is_map ? read_sections(reading, after_let) : refuse_root(reading);
}
