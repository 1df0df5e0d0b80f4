/*
 * Welds: how the ends of tubes are held by weld metal.
 */
#include "base/defaults.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>

trivet_status trivet_weld_defaults(trivet_weld *weld, size_t size)
{
    const trivet_status status = trivet__defaults(weld, size, sizeof *weld);
    if (status == TRIVET_OK) {
        weld->kind = TRIVET_WELD_FILLET;
        weld->sides = TRIVET_SIDES_ALL;
        weld->run = 1.0;
        weld->filler = weld->detail = (double)NAN;
    }
    return status;
}

static trivet_status check_spots(const char *name, const trivet_weld *weld, trivet_message *message)
{
    const trivet__number_of of = {"tube", name, "diameter of a weld spot", TRIVET_LENGTH};
    if (weld->kind != TRIVET_WELD_SPOTS) {
        return trivet__not_negative_check(weld->spot_diameter, of, message);
    }
    if (weld->spot_count < 1) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", name, "",
                             "say how many spots hold it");
        trivet__message_problem(message, "it is welded by %d spots", (int)weld->spot_count);
        return TRIVET_BAD_VALUE;
    }
    return trivet__positive_check(weld->spot_diameter, of, message);
}

static trivet_status check_strengths(const char *name, const trivet_weld *weld,
                                     trivet_message *message)
{
    trivet__number_of of = {"tube", name, "strength of the weld metal", TRIVET_STRESS};
    trivet_status status =
        isnan(weld->filler) ? TRIVET_OK : trivet__positive_check(weld->filler, of, message);
    if (status == TRIVET_OK && !isnan(weld->detail)) {
        of.what = "weld's detail category";
        status = trivet__positive_check(weld->detail, of, message);
    }
    return status;
}

static trivet_status check_sizes(const char *name, const trivet_weld *weld, trivet_message *message)
{
    trivet_status status = check_spots(name, weld, message);
    trivet__number_of of = {"tube", name, "weld's throat", TRIVET_LENGTH};
    if (status == TRIVET_OK) {
        status = trivet__not_negative_check(weld->throat, of, message);
    }
    of.what = "share of the weld's run";
    of.dimension = TRIVET_NUMBER;
    if (status == TRIVET_OK) {
        status = trivet__positive_check(weld->run, of, message);
    }
    if (status == TRIVET_OK && !(weld->run <= 1.0)) {
        status = trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", name,
                                      "the weld runs along more than the whole outline",
                                      "give a share above 0 and at most 1 (100 %)");
    }
    return status == TRIVET_OK ? check_strengths(name, weld, message) : status;
}

static trivet_status check_weld(const char *name, const trivet_weld *weld, trivet_message *message)
{
    const trivet_status status = trivet__size_check(weld->size, sizeof *weld, "weld",
                                                    "fill it with its defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (weld->kind < TRIVET_WELD_NOT_SAID || weld->kind > TRIVET_WELD_NONE) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", name, "",
                             "take a fillet, spots or none");
        trivet__message_problem(message, "its weld is of kind %d, which is none", (int)weld->kind);
        return TRIVET_BAD_VALUE;
    }
    if (weld->sides < 1 || weld->sides > (uint32_t)TRIVET_SIDES_ALL) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", name,
                                    "the welded sides are not made of top, bottom, left, right",
                                    "add up the bits of the sides");
    }
    return check_sizes(name, weld, message);
}

trivet_status trivet_frame_set_weld(trivet_frame *frame, int32_t tube, int32_t joint,
                                    const trivet_weld *weld, trivet_message *message)
{
    if (!frame || !weld) {
        return trivet__missing(message, frame ? "weld" : "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_TUBE, tube, message);
    int32_t position = 0;
    if (status == TRIVET_OK && joint != -1) {
        status = trivet__end_check(frame, tube, joint, "weld its first or last joint", &position,
                                   message);
    }
    if (status == TRIVET_OK) {
        status = check_weld(frame->tubes[tube].name, weld, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__tube *const of = &frame->tubes[tube];
    if (joint == -1 || position == 0) {
        of->weld_first = *weld;
    }
    if (joint == -1 || position > 0) {
        of->weld_last = *weld;
    }
    return TRIVET_OK;
}

trivet_status trivet_frame_weld(const trivet_frame *frame, int32_t tube, int32_t joint,
                                trivet_weld *weld_out)
{
    trivet_status status = trivet__out_check(frame, weld_out, sizeof *weld_out);
    int32_t position = 0;
    if (status == TRIVET_OK) {
        status = trivet__end_check(frame, tube, joint, "", &position, NULL);
    }
    if (status == TRIVET_OK) {
        const trivet__tube *const of = &frame->tubes[tube];
        *weld_out = position > 0 ? of->weld_last : of->weld_first;
    }
    return status;
}
