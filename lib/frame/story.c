/*
 * What a frame says to people: why a case is there, and what was asked for and cannot be looked at.
 */
#include "frame/border.h"
#include "frame/frame.h"

#include <string.h>

/* Bytes of two texts, one behind the other. */
static size_t room_of(const char *one, const char *other)
{
    return strlen(one) + strlen(other) + 2;
}

/* Writes them and returns where the other one begins. */
static char *put_both(char *into, const char *one, const char *other)
{
    const size_t size = strlen(one) + 1;
    memcpy(into, one, size);
    memcpy(into + size, other, strlen(other) + 1);
    return into + size;
}

trivet_status trivet_frame_set_case_story(trivet_frame *frame, int32_t in_case, const char *story,
                                          const char *source, trivet_message *message)
{
    if (!frame || !story || !source) {
        return trivet__missing(message, !frame ? "frame" : !story ? "story" : "source");
    }
    const trivet_status status = trivet__index_check(frame, TRIVET_KIND_CASE, in_case, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__case *const of = &frame->cases[in_case];
    if (story[0] == '\0') {
        of->story = of->source = NULL;
        return TRIVET_OK;
    }
    char *const told = trivet__pool_replace(&frame->pool, &of->told, room_of(story, source));
    if (!told) {
        return trivet__no_memory(message);
    }
    of->source = put_both(told, story, source);
    of->story = told;
    return TRIVET_OK;
}

const char *trivet_frame_case_story(const trivet_frame *frame, int32_t in_case,
                                    const char **source_out)
{
    const int is_there = frame && in_case >= 0 && in_case < frame->case_count;
    const trivet__case *const of = is_there ? &frame->cases[in_case] : NULL;
    if (source_out) {
        *source_out = of && of->source ? of->source : "";
    }
    return of && of->story ? of->story : "";
}

trivet_status trivet_frame_add_gap(trivet_frame *frame, const char *what, const char *why,
                                   trivet_message *message)
{
    if (!frame || !what || !why) {
        return trivet__missing(message, !frame ? "frame" : !what ? "what" : "why");
    }
    trivet__gap *const gaps = trivet__grown(&frame->pool, frame->gaps, frame->gap_count,
                                            &frame->gap_capacity, sizeof *gaps);
    if (!gaps) {
        return trivet__no_memory(message);
    }
    frame->gaps = gaps;
    trivet__gap *const gap = &gaps[frame->gap_count];
    char *const text =
        trivet__pool_refit(&frame->pool, gap->text, &gap->room, room_of(what, why), 1);
    if (!text) {
        return trivet__no_memory(message);
    }
    gap->why = put_both(text, what, why);
    gap->what = gap->text = text;
    frame->gap_count++;
    return TRIVET_OK;
}

const char *trivet_frame_gap(const trivet_frame *frame, int32_t index, const char **why_out)
{
    const int is_there = frame && index >= 0 && index < frame->gap_count;
    if (why_out) {
        *why_out = is_there ? frame->gaps[index].why : NULL;
    }
    return is_there ? frame->gaps[index].what : NULL;
}
