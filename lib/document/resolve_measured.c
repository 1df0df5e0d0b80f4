/*
 * Readings: a mass hung at a joint, the drop read there; the give of the mounts that explains them
 * takes the place of their holds.
 */
#include "document/reading.h"

/* Turning give if the mounts hold the frame's ends straight, else give up and down. */
static uint32_t usual_directions(const trivet_frame *frame)
{
    const int32_t count = trivet_frame_count(frame, TRIVET_KIND_MOUNT);
    for (int32_t m = 0; m < count; m++) {
        trivet_mount mount = {.size = sizeof mount};
        if (trivet_frame_mount(frame, m, &mount) == TRIVET_OK &&
            !(mount.held & (uint32_t)TRIVET_RY)) {
            return TRIVET_Z;
        }
    }
    return TRIVET_RY;
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *map,
                              const trivet__thing *thing, trivet_reading *out)
{
    trivet_status status = trivet_reading_defaults(out, sizeof *out);
    if (!status) {
        status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_READING);
    }
    if (!status) {
        status = trivet__read_thing_key(reading, map, thing, "at", TRIVET_KIND_JOINT, &out->joint);
    }
    if (!status) {
        status = trivet__read_key(reading, map, thing, "mass", TRIVET_MASS, TRIVET__POSITIVE,
                                  &out->mass);
    }
    if (!status) {
        status = trivet__read_key(reading, map, thing, "drop", TRIVET_LENGTH, TRIVET__POSITIVE,
                                  &out->drop);
    }
    return status ? status
                  : trivet__read_key(reading, map, thing, "within", TRIVET_LENGTH, TRIVET__POSITIVE,
                                     &out->within);
}

static trivet_status read_list(const trivet__reading *reading, const trivet__node *list,
                               const trivet__thing *within, trivet_reading *readings)
{
    trivet_status status = TRIVET_OK;
    const trivet__node *item = trivet__tree_first(reading->tree, list);
    for (int32_t i = 0; item && !status; i++) {
        trivet__thing thing;
        trivet__thing_item(&thing, within, "reading", i + 1);
        status = read_one(reading, item, &thing, &readings[i]);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}

/* Fits the give and puts the frame that gives like that in the place of the one that was read. */
static trivet_status fit(trivet__reading *reading, const trivet__node *node,
                         const trivet_reading *readings, int32_t count, uint32_t directions)
{
    trivet_frame *given = NULL;
    trivet_fitted *const fitted = &reading->document->fitted;
    trivet_status status = trivet_fitted_defaults(fitted, sizeof *fitted);
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_give_fit(reading->frame, readings, count, directions, fitted, &given,
                                 reading->message);
        trivet__locate(reading, node, status);
    }
    if (status) {
        return status;
    }
    trivet_frame_free(reading->document->frame);
    reading->document->frame = reading->frame = given;
    reading->document->has_fitted = 1;
    return TRIVET_OK;
}

trivet_status trivet__read_measured(trivet__reading *reading)
{
    const trivet__node *map = NULL;
    const trivet__node *list = NULL;
    const trivet__thing thing = {.word = "measured"};
    trivet__thing key;
    trivet_status status = trivet__read_section(reading, "measured", &map);
    if (status || !map) {
        return status;
    }
    uint32_t directions = usual_directions(reading->frame);
    status = trivet__check_keys(reading, map, NULL, &thing, TRIVET__KEYS_MEASURED);
    if (!status && trivet__member(reading, map, "fit")) {
        trivet__thing_key(&key, &thing, "fit");
        status = trivet__read_directions(reading, trivet__member(reading, map, "fit"), &key,
                                         &directions);
    }
    if (!status) {
        status = trivet__read_list_key(reading, map, &thing, "readings",
                                       "[{at: A, mass: 10 kg, drop: 3 mm}]", &key, &list);
    }
    if (status || !list) {
        return status;
    }
    trivet_reading *const readings =
        trivet__room(reading->document, (size_t)list->count, sizeof *readings);
    status =
        readings ? read_list(reading, list, &thing, readings) : trivet__no_memory(reading->message);
    if (!status) {
        status = fit(reading, map, readings, list->count, directions);
    }
    return status;
}
