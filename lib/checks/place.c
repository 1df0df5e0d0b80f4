/*
 * Places on tubes in words: by the joints beside them, since nobody can see a number of metres
 * along a tube.
 */
#include "base/text.h"
#include "checks/check_record.h"
#include "frame/frame.h"

#include <math.h>

enum { PLACE_MAX = 512 };

void trivet__record_at(trivet__making *making, trivet__record *record, const char *of,
                       int32_t joint)
{
    record->place.tube = of;
    record->place.near = trivet_frame_name(making->frame, TRIVET_KIND_JOINT, joint);
    record->check.joint = joint;
}

void trivet__place_find(const trivet_frame *frame, const trivet_result *result, int32_t tube,
                        double at, trivet__place *place_out)
{
    int32_t span_count = 0;
    const int32_t first = trivet_result_tube_spans(result, tube, &span_count);
    int32_t before = -1;
    int32_t after = -1;
    double before_at = -HUGE_VAL;
    double after_at = HUGE_VAL;
    for (int32_t i = 0; i < span_count; i++) {
        trivet_span span;
        if (trivet_span_defaults(&span, sizeof span) != TRIVET_OK ||
            trivet_result_span(result, first + i, &span) != TRIVET_OK) {
            continue;
        }
        const double end = span.start + span.length;
        if (span.first_joint >= 0 && span.start <= at + TRIVET__SPAN_LEAST) {
            before = span.first_joint;
            before_at = span.start;
        }
        if (span.last_joint >= 0 && end <= at + TRIVET__SPAN_LEAST) {
            before = span.last_joint;
            before_at = end;
        } else if (span.last_joint >= 0 && after < 0) {
            after = span.last_joint;
            after_at = end;
        }
    }
    const int first_nearer = after < 0 || (before >= 0 && at - before_at <= after_at - at);
    const int32_t near = first_nearer ? before : after;
    const int32_t beyond = first_nearer ? after : before;
    const double distance = first_nearer ? at - before_at : after_at - at;
    place_out->tube = trivet_frame_name(frame, TRIVET_KIND_TUBE, tube);
    place_out->near = trivet_frame_name(frame, TRIVET_KIND_JOINT, near);
    place_out->beyond = trivet_frame_name(frame, TRIVET_KIND_JOINT, beyond);
    place_out->distance = distance > TRIVET__SPAN_LEAST ? distance : 0.0;
}

size_t trivet__place_write(const trivet__place *place, const char *insert,
                           const trivet_units *units, char *text, size_t size)
{
    const char *const tube = place->tube ? place->tube : "";
    const char *const near = place->near ? place->near : "";
    char of[TRIVET_NAME_MAX + 16] = "";
    char distance[64];
    if (insert) {
        trivet__text_print(of, sizeof of, ", insert %s,", insert);
    }
    if (!(place->distance > 0.0)) {
        return trivet__text_print(text, size, "%s%s at %s", tube, of, near);
    }
    trivet_units_text(units, TRIVET_LENGTH, place->distance, 3, distance, sizeof distance);
    return trivet__text_print(text, size, "%s%s %s from %s%s%s", tube, of, distance, near,
                              place->beyond ? " towards " : "", place->beyond ? place->beyond : "");
}

size_t trivet_tube_place_text(const trivet_frame *frame, const trivet_result *result, int32_t tube,
                              double at, const trivet_units *units, char *text, size_t size)
{
    if (!trivet_frame_name(frame, TRIVET_KIND_TUBE, tube)) {
        return trivet__text_print(text, size, "%s", "");
    }
    trivet__place place;
    trivet__place_find(frame, result, tube, at, &place);
    return trivet__place_write(&place, NULL, units, text, size);
}

size_t trivet_checks_place_text(const trivet_checks *checks, int32_t index,
                                const trivet_units *units, char *text, size_t size)
{
    if (!checks || index < 0 || index >= checks->count) {
        return trivet__text_print(text, size, "%s", "");
    }
    const trivet__record *const record = trivet__checks_record(checks, index);
    const char *const subject = record->check.subject;
    char place[PLACE_MAX];
    if (record->place.tube) {
        trivet__place_write(&record->place, record->insert, units, place, sizeof place);
    } else if (record->check.where_kind == 0) {
        trivet__text_copy(place, sizeof place, record->check.where);
    } else {
        trivet__text_print(place, sizeof place, "%s %s", trivet_kind_text(record->check.where_kind),
                           record->check.where);
    }
    return trivet__text_print(text, size, "%s%s%s", subject, subject[0] ? " " : "", place);
}
