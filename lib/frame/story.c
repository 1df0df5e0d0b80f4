/*
 * What a frame says to people: why a case is there, and what was asked for and cannot be looked at.
 */
#include "base/memory.h"
#include "base/text.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <string.h>

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
    const int is_told = story[0] != '\0';
    char *const kept = is_told ? trivet__text_keep(story, strlen(story)) : NULL;
    char *const kept_source = is_told ? trivet__text_keep(source, strlen(source)) : NULL;
    if (is_told && (!kept || !kept_source)) {
        trivet__give_back(kept);
        trivet__give_back(kept_source);
        return trivet__no_memory(message);
    }
    trivet__give_back(of->story);
    trivet__give_back(of->source);
    of->story = kept;
    of->source = kept_source;
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
    trivet__gap *const gaps =
        trivet__grown(frame->gaps, frame->gap_count, &frame->gap_capacity, sizeof *gaps);
    if (!gaps) {
        return trivet__no_memory(message);
    }
    frame->gaps = gaps;
    trivet__gap *const gap = &gaps[frame->gap_count];
    gap->what = trivet__text_keep(what, strlen(what));
    gap->why = trivet__text_keep(why, strlen(why));
    if (!gap->what || !gap->why) {
        trivet__give_back(gap->what);
        trivet__give_back(gap->why);
        return trivet__no_memory(message);
    }
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
