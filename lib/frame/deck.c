/*
 * Decks: plates that lie on joints and are screwed down there.
 */
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

static trivet_status check_deck(trivet_frame *frame, const char *name, const int32_t *joints,
                                int32_t joint_count, trivet_message *message)
{
    const trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_DECK, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (joint_count < 1) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "deck", name, "it lies on nothing",
                                    "name the joints that it lies on");
    }
    return trivet__list_check(frame, TRIVET_KIND_JOINT, joints, joint_count, "deck", name, message);
}

static trivet_status commit_deck(trivet_frame *frame, const char *name, const trivet__deck *made,
                                 trivet_message *message)
{
    const int32_t count = frame->deck_count;
    trivet__deck *const decks =
        trivet__grown(&frame->pool, frame->decks, count, &frame->deck_capacity, sizeof *decks);
    if (!decks) {
        return trivet__no_memory(message);
    }
    frame->decks = decks;
    const char *const kept = trivet__names_add(&frame->deck_names, &frame->pool, name, count);
    if (!kept) {
        return trivet__no_memory(message);
    }
    decks[count] = *made;
    decks[count].name = kept;
    frame->deck_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_add_deck(trivet_frame *frame, const char *name, const int32_t *joints,
                                    int32_t joint_count, int32_t *deck_out, trivet_message *message)
{
    if (deck_out) {
        *deck_out = -1;
    }
    if (!frame || !joints) {
        return trivet__missing(message, frame ? "joints" : "frame");
    }
    trivet_status status = check_deck(frame, name, joints, joint_count, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__deck made = {.joint_count = joint_count, .edge = (double)NAN};
    made.joints = trivet__pool_take(&frame->pool, (size_t)joint_count, sizeof *made.joints);
    if (!made.joints) {
        return trivet__no_memory(message);
    }
    memcpy(made.joints, joints, (size_t)joint_count * sizeof *joints);
    status = commit_deck(frame, name, &made, message);
    if (status == TRIVET_OK && deck_out) {
        *deck_out = frame->deck_count - 1;
    }
    return status;
}

const int32_t *trivet_frame_deck_joints(const trivet_frame *frame, int32_t deck,
                                        int32_t *joint_count_out)
{
    const int is_there = frame && deck >= 0 && deck < frame->deck_count;
    if (joint_count_out) {
        *joint_count_out = is_there ? frame->decks[deck].joint_count : 0;
    }
    return is_there ? frame->decks[deck].joints : NULL;
}
