/*
 * Mounts: which directions are held, sprung or free, in which axes, and what the vehicle takes.
 */
#include "document/reading.h"

#include "base/directions.h"
#include "base/vec3.h"

#include <math.h>
#include <string.h>

static trivet_status read_hold(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *within, trivet_mount *mount)
{
    const trivet__node *const node = trivet__member(reading, map, "hold");
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing thing;
    trivet__thing_key(&thing, within, "hold");
    if (node->kind == TRIVET__SCALAR) {
        const char *const words[] = {"all", "position"};
        int32_t choice = 0;
        const trivet_status status = trivet__read_choice(reading, node, &thing, words, 2, &choice);
        mount->held = choice == 0 ? TRIVET_ALL : TRIVET_POSITION;
        if (status == TRIVET_BAD_NAME) {
            trivet__message_remedy(reading->message,
                                   "write all, position or a list such as [x, y, z]");
        }
        return status;
    }
    return trivet__read_directions(reading, node, &thing, &mount->held);
}

static trivet_status refuse_held_spring(const trivet__reading *reading, const trivet__node *node,
                                        const trivet__thing *within, const char *direction)
{
    trivet__thing thing;
    trivet__thing_key(&thing, within, direction);
    const trivet_status status = trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "a spring in a direction that is held does nothing");
    trivet__message_remedy(reading->message, "take %s out of \"hold\" or out of \"spring\"",
                           direction);
    return status;
}

static trivet_status read_springs(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *within, trivet_mount *mount)
{
    const trivet__node *const node = trivet__member(reading, map, "spring");
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing thing;
    trivet__thing_key(&thing, within, "spring");
    trivet_status status = trivet__check_keys(reading, node, NULL, &thing, TRIVET__KEYS_DIRECTIONS);
    for (uint32_t i = 0; i < TRIVET__DIRECTIONS && !status; i++) {
        const char *const direction = trivet__direction_words()[i];
        const trivet__node *const spring = trivet__member(reading, node, direction);
        if (spring && (mount->held & (1U << i))) {
            return refuse_held_spring(reading, spring, &thing, direction);
        }
        status = trivet__read_key(reading, node, &thing, direction,
                                  i < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING, TRIVET__POSITIVE,
                                  &mount->spring[i]);
    }
    return status;
}

static trivet_status refuse_axes(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, const char *problem)
{
    return trivet__refuse_node(reading, node, thing, TRIVET_BAD_VALUE, problem,
                               "give two directions at right angles, such as x: [0, 1, 0], "
                               "y: [-1, 0, 0]");
}

/* x keeps its direction; y is made square to it if it stands within a degree of that. */
trivet_status trivet__read_axes(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *within, double rows[9])
{
    const trivet__node *const node = trivet__member(reading, map, "axes");
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing thing;
    double x[3] = {0.0, 0.0, 0.0};
    double y[3] = {0.0, 0.0, 0.0};
    trivet__thing_key(&thing, within, "axes");
    trivet_status status = trivet__check_keys(reading, node, NULL, &thing, TRIVET__KEYS_AXES);
    if (!status) {
        status = trivet__read_row_key(reading, node, &thing, "x", TRIVET_NUMBER, TRIVET__ANY, 3, x);
    }
    if (!status) {
        status = trivet__read_row_key(reading, node, &thing, "y", TRIVET_NUMBER, TRIVET__ANY, 3, y);
    }
    if (status) {
        return status;
    }
    const double x_length = trivet__length3(x);
    const double y_length = trivet__length3(y);
    if (!(x_length > 0.0) || !(y_length > 0.0) || !isfinite(x_length) || !isfinite(y_length)) {
        return refuse_axes(reading, node, &thing, "an axis has no direction");
    }
    const double most_cosine = 0.0175; /* of 89 degrees */
    const double cosine = trivet__dot3(x, y) / x_length / y_length;
    if (!(fabs(cosine) <= most_cosine)) {
        return refuse_axes(reading, node, &thing, "x and y are not at right angles");
    }
    for (int i = 0; i < 3; i++) {
        rows[i] = x[i] / x_length;
        rows[3 + i] = y[i] / y_length;
    }
    trivet__cross3(rows, rows + 3, rows + 6);
    const double z_length = trivet__length3(rows + 6);
    for (int i = 6; i < 9; i++) {
        rows[i] /= z_length;
    }
    trivet__cross3(rows + 6, rows, rows + 3);
    return TRIVET_OK;
}

static trivet_status read_limit(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *within, trivet_mount *mount)
{
    const trivet__node *const node = trivet__member(reading, map, "limit");
    if (!node) {
        return TRIVET_OK;
    }
    const struct {
        const char *key;
        trivet_dimension dimension;
        double *value;
    } rows[] = {
        {"pull", TRIVET_FORCE, &mount->limit_pull},
        {"push", TRIVET_FORCE, &mount->limit_push},
        {"shear", TRIVET_FORCE, &mount->limit_shear},
        {"moment", TRIVET_MOMENT, &mount->limit_moment},
    };
    trivet__thing thing;
    trivet__thing_key(&thing, within, "limit");
    trivet_status status = trivet__check_keys(reading, node, NULL, &thing, TRIVET__KEYS_LIMIT);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && !status; i++) {
        status = trivet__read_key(reading, node, &thing, rows[i].key, rows[i].dimension,
                                  TRIVET__NOT_NEGATIVE, rows[i].value);
    }
    return status;
}

/* The joint that the mount holds must be met by a tube, or the mount holds nothing. */
static trivet_status read_joint(const trivet__reading *reading, const trivet__node *name,
                                const trivet__thing *thing, int32_t *joint_out)
{
    const trivet_status status =
        trivet__read_thing(reading, name, thing, TRIVET_KIND_JOINT, joint_out);
    if (status || reading->met[*joint_out]) {
        return status;
    }
    return trivet__refuse_node(reading, name, thing, TRIVET_INCOMPLETE, "no tube meets this joint",
                               "let a tube run through it, or mount another joint");
}

/* give: cast lug - what is held gives like that instead. */
static trivet_status read_give(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *within, trivet_mount *mount)
{
    const char *words[] = {
        trivet_give_text(TRIVET_GIVE_RIGID), trivet_give_text(TRIVET_GIVE_CAST_LUG),
        trivet_give_text(TRIVET_GIVE_TUBE_LOOP), trivet_give_text(TRIVET_GIVE_RUBBER)};
    double springs[TRIVET__DIRECTIONS];
    int32_t give = TRIVET_GIVE_RIGID;
    trivet_status status = trivet__read_choice_key(reading, map, within, "give", words, 4, &give);
    if (!status) {
        status = trivet_give_springs(give, springs);
    }
    for (uint32_t i = 0; i < TRIVET__DIRECTIONS && !status && give != TRIVET_GIVE_RIGID; i++) {
        if (mount->held & (1U << i)) {
            mount->spring[i] = springs[i];
        }
    }
    mount->held = give == TRIVET_GIVE_RIGID ? mount->held : 0;
    return status;
}

static int has_hold(const trivet_mount *mount)
{
    int has = mount->held != 0;
    for (int i = 0; i < 6; i++) {
        has = has || mount->spring[i] > 0.0;
    }
    return has;
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *map)
{
    trivet__thing thing;
    trivet_mount mount;
    int32_t index = -1;
    const trivet__node *const bolts = trivet__member(reading, map, "bolts");
    trivet__thing_named(&thing, "mount", name);
    trivet_status status = trivet_mount_defaults(&mount, sizeof mount);
    if (!status) {
        status = read_joint(reading, name, &thing, &mount.joint);
    }
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_MOUNT);
    }
    if (!status) {
        status = read_hold(reading, map, &thing, &mount);
    }
    if (!status) {
        status = read_springs(reading, map, &thing, &mount);
    }
    if (!status) {
        status = read_give(reading, map, &thing, &mount);
    }
    if (!status && !has_hold(&mount)) {
        status = trivet__refuse_node(reading, name, &thing, TRIVET_INCOMPLETE, "holds nothing",
                                     "add hold: all, or what it holds, or a spring");
    }
    if (!status) {
        status = trivet__read_axes(reading, map, &thing, mount.axes);
    }
    if (!status) {
        status = read_limit(reading, map, &thing, &mount);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_mount(reading->frame, &mount, &index, reading->message);
        trivet__locate(reading, name, status);
    }
    if (!status && bolts) {
        const trivet__bolted where = {TRIVET_KIND_MOUNT, index, mount.joint, -1};
        trivet__thing key;
        trivet__thing_key(&key, &thing, "bolts");
        status = trivet__read_bolts(reading, NULL, bolts, &key, &where);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_MOUNT, name);
}

trivet_status trivet__read_mounts(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "mounts", read_one);
}
