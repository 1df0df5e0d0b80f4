/*
 * The forces of a case: on joints, on cargo, on tubes.
 */
#include "document/reading.h"

#include <math.h>
#include <string.h>

typedef trivet_status read_item(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, int32_t in_case);

static trivet_status read_list(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *within, const char *key, const char *sample,
                               int32_t in_case, read_item *read)
{
    trivet__thing thing;
    const trivet__node *list = NULL;
    trivet_status status = trivet__read_list_key(reading, map, within, key, sample, &thing, &list);
    const trivet__node *item = status ? NULL : trivet__tree_first(reading->tree, list);
    for (int32_t i = 1; item && !status; i++) {
        /* "forces" and "tube forces" without their last letter */
        char one[16];
        memcpy(one, key, strlen(key) - 1);
        one[strlen(key) - 1] = '\0';
        trivet__thing_item(&thing, within, one, i);
        status = read(reading, item, &thing, in_case);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}

/* What a force acts on: a joint or a cargo. */
static trivet_status read_on(const trivet__reading *reading, const trivet__node *node,
                             const trivet__thing *within, int32_t *kind_out, int32_t *index_out)
{
    trivet__thing thing;
    const char *name = NULL;
    int32_t joint = -1;
    int32_t cargo = -1;
    trivet__thing_key(&thing, within, "on");
    trivet_status status = trivet__read_name(reading, node, &thing, &name);
    if (status) {
        return status;
    }
    const int is_joint =
        trivet_frame_find(reading->frame, TRIVET_KIND_JOINT, name, &joint, NULL) == TRIVET_OK;
    const int is_cargo =
        trivet_frame_find(reading->frame, TRIVET_KIND_CARGO, name, &cargo, NULL) == TRIVET_OK;
    if (is_joint && is_cargo) {
        return trivet__refuse_node(reading, node, &thing, TRIVET_BAD_NAME,
                                   "this is the name of a joint and of a cargo",
                                   "rename one of them");
    }
    *kind_out = is_cargo ? TRIVET_KIND_CARGO : TRIVET_KIND_JOINT;
    *index_out = is_cargo ? cargo : joint;
    if (is_joint || is_cargo) {
        return TRIVET_OK;
    }
    if (trivet__member(reading, trivet__member(reading, reading->root, "decks"), name)) {
        return trivet__refuse_node(reading, node, &thing, TRIVET_BAD_NAME,
                                   "this is a deck, and this version reads past decks",
                                   "name a joint or a cargo");
    }
    status = trivet__read_thing(reading, node, &thing, TRIVET_KIND_JOINT, index_out);
    if (!strstr(reading->message->remedy, "did you mean")) {
        status = trivet__read_thing(reading, node, &thing, TRIVET_KIND_CARGO, index_out);
    }
    if (status) {
        char shown[TRIVET__SHOWN_MAX];
        trivet__message_problem(reading->message, "there is no joint or cargo \"%s\"",
                                trivet__shown(reading, node, shown));
        if (!strstr(reading->message->remedy, "did you mean")) {
            trivet__message_remedy(reading->message, "name one that stands in the file");
        }
    }
    return status;
}

static trivet_status read_force_and_moment(const trivet__reading *reading, const trivet__node *map,
                                           const trivet__thing *thing, trivet__load_note *load)
{
    trivet_status status = trivet__read_row_key(reading, map, thing, "force", TRIVET_FORCE,
                                                TRIVET__ANY, 3, load->first);
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "moment", TRIVET_MOMENT, TRIVET__ANY, 3,
                                      load->last);
    }
    trivet__scale_case(reading, load->in_case, load->first, 3);
    trivet__scale_case(reading, load->in_case, load->last, 3);
    return status;
}

static trivet_status read_force(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, int32_t in_case)
{
    trivet__load_note load = {.in_case = in_case, .place = {(double)NAN, (double)NAN, (double)NAN}};
    int32_t kind = TRIVET_KIND_JOINT;
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_FORCE);
    if (!status) {
        status = read_on(reading, trivet__member(reading, map, "on"), thing, &kind, &load.index);
    }
    if (!status) {
        status = read_force_and_moment(reading, map, thing, &load);
    }
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "at", TRIVET_LENGTH, TRIVET__ANY, 3,
                                      load.place);
    }
    if (status) {
        return status;
    }
    const trivet__node *const at = trivet__member(reading, map, "at");
    if (!trivet__member(reading, map, "force") && !trivet__member(reading, map, "moment")) {
        return trivet__refuse_node(reading, map, thing, TRIVET_INCOMPLETE,
                                   "has neither \"force\" nor \"moment\"",
                                   "add one, such as force: [0, 0, -100 N]");
    }
    if (kind == TRIVET_KIND_JOINT && at) {
        return trivet__refuse_node(reading, at, thing, TRIVET_BAD_KEY,
                                   "a force on a joint acts at the joint, not elsewhere",
                                   "leave out \"at\", or use a tube force");
    }
    load.kind = kind == TRIVET_KIND_JOINT ? TRIVET__LOAD_JOINT : TRIVET__LOAD_CARGO;
    trivet_message_clear(reading->message);
    status =
        kind == TRIVET_KIND_JOINT
            ? trivet_frame_add_joint_force(reading->frame, in_case, load.index, load.first,
                                           load.last, reading->message)
            : trivet_frame_add_cargo_force(reading->frame, in_case, load.index, load.first,
                                           load.last, at ? load.place : NULL, reading->message);
    trivet__locate(reading, map, status);
    return status ? status : trivet__add_load(reading, &load);
}

trivet_status trivet__read_forces(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *within, int32_t in_case)
{
    return read_list(reading, map, within, "forces", "[{on: A, force: [0, 0, -100 N]}]", in_case,
                     read_force);
}

static trivet_status read_axes(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *within, int32_t *axes_out)
{
    const char *const words[] = {"world", "tube"}; /* as trivet_axes counts */
    *axes_out = TRIVET_WORLD_AXES;
    return trivet__read_choice_key(reading, map, within, "axes", words, 2, axes_out);
}

/* A force or moment at a place, or a line load along a length: the keys do not mix. */
static trivet_status check_mixture(const trivet__reading *reading, const trivet__node *map,
                                   const trivet__thing *thing, int *is_line_out)
{
    const trivet__node *const line = trivet__member(reading, map, "line");
    const trivet__node *const to_line = trivet__member(reading, map, "to line");
    const trivet__node *const at = trivet__member(reading, map, "at");
    const trivet__node *const from = trivet__member(reading, map, "from");
    const trivet__node *const to = trivet__member(reading, map, "to");
    const int has_point =
        trivet__member(reading, map, "force") || trivet__member(reading, map, "moment");
    *is_line_out = line != NULL;
    if (!line && !to_line && !has_point) {
        return trivet__refuse_node(reading, map, thing, TRIVET_INCOMPLETE,
                                   "has neither \"force\", \"moment\" nor \"line\"",
                                   "add one, such as at: 40 %, force: [0, 0, -100 N]");
    }
    if (has_point && (line || to_line)) {
        return trivet__refuse_node(reading, line ? line : to_line, thing, TRIVET_BAD_KEY,
                                   "has a force at a place and a line load at once",
                                   "write two tube forces");
    }
    if (to_line && !line) {
        return trivet__refuse_node(reading, to_line, thing, TRIVET_INCOMPLETE,
                                   "has \"to line\" and no \"line\" to begin with", "add \"line\"");
    }
    if (line && at) {
        return trivet__refuse_node(reading, at, thing, TRIVET_BAD_KEY, "a line load has no \"at\"",
                                   "say where it begins and ends with \"from\" and \"to\"");
    }
    if (has_point && (from || to)) {
        return trivet__refuse_node(reading, from ? from : to, thing, TRIVET_BAD_KEY,
                                   "a force at a place has no \"from\" and \"to\"",
                                   "say where with \"at\"");
    }
    if (has_point && !at) {
        return trivet__refuse_node(reading, map, thing, TRIVET_INCOMPLETE,
                                   "does not say where on the tube",
                                   "add \"at\", such as at: 40 %");
    }
    return TRIVET_OK;
}

static trivet_status read_point(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, trivet__load_note *load)
{
    load->kind = TRIVET__LOAD_POINT;
    trivet_status status = trivet__read_along(reading, map, thing, "at", load->index, &load->from);
    if (!status) {
        status = read_force_and_moment(reading, map, thing, load);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_tube_force(reading->frame, load->in_case, load->index, load->from,
                                             load->first, load->last, load->axes, reading->message);
        trivet__locate(reading, map, status);
    }
    return status;
}

static trivet_status read_line(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *thing, trivet__load_note *load)
{
    load->kind = TRIVET__LOAD_LINE;
    load->to = (double)NAN; /* to the end of the tube */
    trivet_status status =
        trivet__read_along(reading, map, thing, "from", load->index, &load->from);
    if (!status) {
        status = trivet__read_along(reading, map, thing, "to", load->index, &load->to);
    }
    if (!status && load->to <= load->from) {
        const trivet__node *const to = trivet__member(reading, map, "to");
        return trivet__refuse_node(reading, to, thing, TRIVET_BAD_VALUE,
                                   "\"to\" is not behind \"from\"",
                                   "measure both along the tube from its first joint");
    }
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "line", TRIVET_LINE_LOAD, TRIVET__ANY, 3,
                                      load->first);
    }
    memcpy(load->last, load->first, sizeof load->last);
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "to line", TRIVET_LINE_LOAD, TRIVET__ANY,
                                      3, load->last);
    }
    if (!status) {
        trivet__scale_case(reading, load->in_case, load->first, 3);
        trivet__scale_case(reading, load->in_case, load->last, 3);
        trivet_message_clear(reading->message);
        status = trivet_frame_add_tube_line(reading->frame, load->in_case, load->index, load->from,
                                            load->to, load->first, load->last, load->axes,
                                            reading->message);
        trivet__locate(reading, map, status);
    }
    return status;
}

static trivet_status read_tube_force(const trivet__reading *reading, const trivet__node *map,
                                     const trivet__thing *thing, int32_t in_case)
{
    trivet__load_note load = {.in_case = in_case};
    int is_line = 0;
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_TUBE_FORCE);
    if (!status) {
        status = trivet__read_thing_key(reading, map, thing, "tube", TRIVET_KIND_TUBE, &load.index);
    }
    if (!status) {
        status = check_mixture(reading, map, thing, &is_line);
    }
    if (!status) {
        status = read_axes(reading, map, thing, &load.axes);
    }
    if (!status) {
        status = is_line ? read_line(reading, map, thing, &load)
                         : read_point(reading, map, thing, &load);
    }
    return status ? status : trivet__add_load(reading, &load);
}

trivet_status trivet__read_tube_forces(const trivet__reading *reading, const trivet__node *map,
                                       const trivet__thing *within, int32_t in_case)
{
    return read_list(reading, map, within, "tube forces",
                     "[{tube: arm, at: 40 %, force: [0, 0, -100 N]}]", in_case, read_tube_force);
}
