/*
 * Names that point at things: joints, stock, tubes, and directions.
 */
#include "document/reading.h"

#include "base/directions.h"
#include "base/text.h"

#include <string.h>

enum { OFFERS_MOST = 2000 }; /* names looked at for a likeness: each costs thousands of steps */

static const char *const kind_sections[TRIVET__KIND_COUNT] = {
    [TRIVET_KIND_JOINT] = "joints",        [TRIVET_KIND_STOCK] = "stock",
    [TRIVET_KIND_TUBE] = "tubes",          [TRIVET_KIND_MOUNT] = "mounts",
    [TRIVET_KIND_CARGO] = "cargo",         [TRIVET_KIND_CASE] = "cases",
    [TRIVET_KIND_COMBINATION] = "combine",
};

trivet_status trivet__read_thing(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, int32_t kind, int32_t *index_out)
{
    const char *name = NULL;
    const trivet_status status = trivet__read_name(reading, node, thing, &name);
    if (status) {
        return status;
    }
    if (trivet_frame_find(reading->frame, kind, name, index_out, NULL) == TRIVET_OK) {
        return TRIVET_OK;
    }
    trivet__nearest search = {name, NULL, 0};
    const int32_t count = trivet_frame_count(reading->frame, kind);
    for (int32_t i = 0; i < count && i < OFFERS_MOST; i++) {
        trivet__nearest_offer(&search, trivet_frame_name(reading->frame, kind, i));
    }
    char shown[TRIVET__SHOWN_MAX];
    trivet__complain(reading, node, thing, TRIVET_BAD_NAME);
    trivet__message_problem(reading->message, "there is no %s \"%s\"", trivet_kind_text(kind),
                            trivet__shown(reading, node, shown));
    if (trivet__meant(&search)) {
        trivet__message_remedy(reading->message, "did you mean \"%s\"?", search.nearest);
    } else {
        trivet__message_remedy(reading->message, "add it to \"%s\", or name one that stands there",
                               kind_sections[kind]);
    }
    return TRIVET_BAD_NAME;
}

trivet_status trivet__read_thing_key(const trivet__reading *reading, const trivet__node *map,
                                     const trivet__thing *within, const char *key, int32_t kind,
                                     int32_t *index_out)
{
    trivet__thing thing;
    trivet__thing_key(&thing, within, key);
    return trivet__read_thing(reading, trivet__member(reading, map, key), &thing, kind, index_out);
}

static trivet_status refuse_twice(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing)
{
    char shown[TRIVET__SHOWN_MAX];
    trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "joint %s is named twice",
                            trivet__shown(reading, node, shown));
    trivet__message_remedy(reading->message, "name each joint once");
    return TRIVET_BAD_VALUE;
}

/* The list is short as a rule; seen keeps a long one from costing its square. */
static trivet_status fill_joints(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, unsigned char *seen, int32_t *joints)
{
    const trivet__node *item = trivet__tree_first(reading->tree, node);
    for (int32_t i = 0; item; i++) {
        const trivet_status status =
            trivet__read_thing(reading, item, thing, TRIVET_KIND_JOINT, &joints[i]);
        if (status) {
            return status;
        }
        if (seen[joints[i]]) {
            return refuse_twice(reading, item, thing);
        }
        seen[joints[i]] = 1;
        item = trivet__tree_next(reading->tree, item);
    }
    return TRIVET_OK;
}

trivet_status trivet__read_joints(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, int32_t **joints_out,
                                  int32_t *count_out)
{
    *joints_out = NULL;
    *count_out = 0;
    trivet_status status = trivet__need_list(reading, node, thing, "[A, B]");
    if (status) {
        return status;
    }
    const size_t joint_count = (size_t)trivet_frame_count(reading->frame, TRIVET_KIND_JOINT);
    unsigned char *const seen = trivet__room(reading->document, joint_count, 1);
    int32_t *const joints = trivet__room(reading->document, (size_t)node->count, sizeof *joints);
    status = seen && joints ? fill_joints(reading, node, thing, seen, joints)
                            : trivet__no_memory(reading->message);
    if (status) {
        return status;
    }
    *joints_out = joints;
    *count_out = node->count;
    return TRIVET_OK;
}

trivet_status trivet__read_directions(const trivet__reading *reading, const trivet__node *node,
                                      const trivet__thing *thing, uint32_t *bits_out)
{
    const char *const *const words = trivet__direction_words();
    *bits_out = 0;
    if (node->kind == TRIVET__SCALAR) {
        int32_t one = 0;
        const trivet_status status =
            trivet__read_choice(reading, node, thing, words, TRIVET__DIRECTIONS, &one);
        *bits_out = 1U << (uint32_t)one;
        return status;
    }
    trivet_status status = trivet__need_list(reading, node, thing, "[x, y, z]");
    const trivet__node *item = status ? NULL : trivet__tree_first(reading->tree, node);
    while (item && !status) {
        int32_t one = 0;
        status = trivet__read_choice(reading, item, thing, words, TRIVET__DIRECTIONS, &one);
        *bits_out |= 1U << (uint32_t)one;
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}
