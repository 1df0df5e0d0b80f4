/*
 * Joints: names and positions.
 */
#include "document/reading.h"

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *value)
{
    trivet__thing thing;
    const char *text = NULL;
    double position[3] = {0.0, 0.0, 0.0};
    trivet__thing_named(&thing, "joint", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__read_row(reading, value, &thing, TRIVET_LENGTH, TRIVET__ANY, 3, position);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_joint(reading->frame, text, position, NULL, reading->message);
        trivet__locate(reading, value, status);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_JOINT, name);
}

trivet_status trivet__read_joint_section(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "joints", read_one);
}
