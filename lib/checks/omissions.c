/*
 * What was not checked: always listed, never silent.
 */
#include "base/memory.h"
#include "base/text.h"
#include "checks/check_record.h"

#include <math.h>
#include <string.h>

trivet_status trivet__omit_parts(trivet_checks *checks, int32_t line,
                                 const char *const parts[TRIVET__OMISSION_PARTS], const char *why)
{
    void *list = checks->omissions;
    if (!trivet__make_room(&list, (size_t)checks->omission_count, &checks->omission_capacity,
                           sizeof *checks->omissions)) {
        return TRIVET_NO_MEMORY;
    }
    checks->omissions = list;
    trivet__omission *const omission = &checks->omissions[checks->omission_count++];
    memcpy(omission->parts, parts, sizeof omission->parts);
    omission->why = why;
    omission->line = line;
    omission->say = NULL;
    omission->is_written = 0;
    return TRIVET_OK;
}

trivet_status trivet__omit(trivet_checks *checks, int32_t line, const char *what, const char *name,
                           const char *why)
{
    const char *const parts[TRIVET__OMISSION_PARTS] = {what, name[0] ? " " : "", name};
    return trivet__omit_parts(checks, line, parts, why);
}

trivet_status trivet__omit_saying(trivet_checks *checks, int32_t line, const char *what,
                                  trivet__say_why *say, uint32_t missing, const char *hint)
{
    const trivet_status status = trivet__omit(checks, line, what, "", NULL);
    if (status == TRIVET_OK) {
        trivet__omission *const omission = &checks->omissions[checks->omission_count - 1];
        omission->say = say;
        omission->missing = missing;
        omission->hint = hint;
    }
    return status;
}

/* Whether a tube, or an insert in one, is an angle or a channel. */
static int has_open_section(const trivet__making *making)
{
    const int32_t count = trivet_frame_count(making->frame, TRIVET_KIND_TUBE);
    for (int32_t t = 0; t < count; t++) {
        const trivet_section *const section =
            trivet_frame_section(making->frame, trivet_frame_tube_stock(making->frame, t));
        if (section && section->is_open) {
            return 1;
        }
    }
    return 0;
}

trivet_status trivet__omit_always(trivet__making *making)
{
    static const struct {
        int32_t line;
        const char *what;
        const char *why;
    } ALWAYS[] = {
        {TRIVET_LINE_OVERLOAD, "buckling",
         "a slender tube under push can give way sideways before it yields"},
        {TRIVET_LINE_OVERLOAD, "bumps and vibration",
         "only the cases given were looked at, each as a load that stands still"},
        {TRIVET_LINE_SERVICE, "lowest frequency", "how the frame shakes is not looked at"},
    };
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; status == TRIVET_OK && i < sizeof ALWAYS / sizeof ALWAYS[0]; i++) {
        status = trivet__omit(making->checks, ALWAYS[i].line, ALWAYS[i].what, "", ALWAYS[i].why);
    }
    for (int32_t i = 0; status == TRIVET_OK && trivet_frame_gap(making->frame, i, NULL); i++) {
        const char *why = "";
        const char *const what = trivet_frame_gap(making->frame, i, &why);
        status = trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, what, "", why);
    }
    if (status == TRIVET_OK && trivet_frame_count(making->frame, TRIVET_KIND_DECK) > 0) {
        status = trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "plates of decks", "",
                              "their screws are looked at, how the plate itself bends is not");
    }
    if (status == TRIVET_OK && has_open_section(making)) {
        status =
            trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "twist of angles and channels", "",
                         "loads beside the shear centre twist them more than is counted here");
    }
    if (status == TRIVET_OK && isnan(making->limits.droop) &&
        trivet__joint_limit_count(making->frame) == 0) {
        status = trivet__omit(making->checks, TRIVET_LINE_SERVICE, "droop limit", "",
                              "none is given; the droop itself is worked out");
    }
    return status;
}

/* Puts the parts together, and the reason. */
static void write_words(trivet__omission *omission)
{
    size_t length = 0;
    omission->what[0] = '\0';
    for (int i = 0; i < TRIVET__OMISSION_PARTS && omission->parts[i]; i++) {
        if (length < sizeof omission->what) {
            length += trivet__text_print(omission->what + length, sizeof omission->what - length,
                                         "%s", omission->parts[i]);
        }
    }
    omission->reason[0] = '\0';
    if (omission->say) {
        omission->say(omission->missing, omission->hint, omission->reason, sizeof omission->reason);
    }
    omission->is_written = 1;
}

const char *trivet_checks_omission(const trivet_checks *checks, int32_t index, int32_t *line_out,
                                   const char **why_out)
{
    const int is_there = checks && index >= 0 && index < checks->omission_count;
    trivet__omission *const omission = is_there ? &checks->omissions[index] : NULL;
    if (omission && !omission->is_written) {
        write_words(omission);
    }
    if (line_out) {
        *line_out = omission ? omission->line : -1;
    }
    if (why_out) {
        *why_out = !omission ? NULL : omission->why ? omission->why : omission->reason;
    }
    return omission ? omission->what : NULL;
}
