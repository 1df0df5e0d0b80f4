/*
 * What the list cannot say in numbers: where hands and eyes are needed, and what was left out.
 */
#include "shop/cuts_record.h"

#include "base/memory.h"
#include "base/text.h"
#include "trivet/checks.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static trivet_status add_note(trivet_cuts *cuts, const char *format, ...) TRIVET__FORMAT(2, 3);

static trivet_status add_note(trivet_cuts *cuts, const char *format, ...)
{
    void *list = cuts->notes;
    va_list values;
    const int has_room = trivet__make_room(&list, (size_t)cuts->note_count, &cuts->note_capacity,
                                           sizeof *cuts->notes);
    cuts->notes = list;
    if (!has_room) {
        return TRIVET_NO_MEMORY;
    }
    char whole[2 * TRIVET__NOTE_MAX];
    va_start(values, format);
    if (vsnprintf(whole, sizeof whole, format, values) < 0) {
        whole[0] = '\0';
    }
    va_end(values);
    trivet__text_copy(cuts->notes[cuts->note_count++].text, TRIVET__NOTE_MAX, whole);
    return TRIVET_OK;
}

/* Farther than many saws turn, rad: 45 degrees and what rounding adds (common practice). */
#define STEEP 0.7855

/* What a bit of an end's notes means. */
typedef struct note_row {
    uint32_t bit;
    const char *text;
} note_row;

static const note_row ROWS[] = {
    {TRIVET__END_OVERHANGS, "part of its end stands past the edge of the side it butts against"},
    {TRIVET__END_COPED, "it has flat sides and sits on a round tube: its length reaches to where "
                        "its sides touch; hollow it out by hand"},
    {TRIVET__END_EARS, "it is wider than the round tube it sits on: the saddle's ears stand past "
                       "its flanks and touch nothing"},
    {TRIVET__END_PASSES, "it passes the other tubes there and is cut square where the model ends"},
    {TRIVET__END_UNSIZED, "what it meets is given by values, without sizes: it is cut where the "
                          "model ends"},
    {TRIVET__END_OPEN_FACE, "it meets an angle or channel and is cut to the outside of that: see "
                            "on which side it stands"},
    {TRIVET__END_FLATTENED, "it is cut flat against a round tube, as wished: it touches along a "
                            "line"},
};

static trivet_status note_end(trivet_cuts *cuts, const trivet__end *end)
{
    const char *const tube = cuts->frame->tubes[end->tube].name;
    const char *const joint = cuts->frame->joints[end->joint].name;
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0] && status == TRIVET_OK; i++) {
        if (end->notes & ROWS[i].bit) {
            status = add_note(cuts, "%s at %s: %s", tube, joint, ROWS[i].text);
        }
    }
    if (status == TRIVET_OK && end->angle > STEEP && end->cut != TRIVET_CUT_SADDLE) {
        status = add_note(cuts,
                          "%s at %s: it is cut more than 45 degrees off square, farther than many "
                          "saws turn",
                          tube, joint);
    }
    return status;
}

static int has_hole(const trivet_cuts *cuts, int32_t bolts)
{
    for (int32_t i = 0; i < cuts->hole_count; i++) {
        if (cuts->holes[i].bolts == bolts) {
            return 1;
        }
    }
    return 0;
}

/* Whether a hole in a bent piece lies where it is bent. */
static int is_in_bend(const trivet_cuts *cuts, const trivet_cut_hole *hole)
{
    const trivet__piece *const piece = &cuts->pieces[hole->piece];
    const int is_from_last =
        hole->from == piece->cut.ends[1].joint && hole->from != piece->cut.ends[0].joint;
    const double at = is_from_last ? piece->cut.length - hole->at : hole->at;
    for (int32_t i = 0; i < piece->cut.bend_count; i++) {
        const trivet_cut_bend *const bend = &cuts->bends[piece->first_bend + i];
        if (at > bend->from && at < bend->to) {
            return 1;
        }
    }
    return 0;
}

/* What is wrong with where a hole lies; NULL if nothing is. */
static const char *misplaced(const trivet_cuts *cuts, const trivet_cut_hole *hole)
{
    if (hole->piece < 0 || hole->in == TRIVET_HOLE_END) {
        return NULL;
    }
    const trivet_cut_piece *const cut = &cuts->pieces[hole->piece].cut;
    const trivet_section *const section = &cuts->frame->stocks[cut->stock].section;
    if (fabs(hole->side) > 0.5 * fmax(section->height, section->width)) {
        return "lies beside it: look at the pattern";
    }
    if (is_in_bend(cuts, hole)) {
        return "lies in a bend: mark it on the bent piece";
    }
    if (hole->at < 0.0) {
        return "lies beyond its end: look at the pattern, or let the tube run on past it";
    }
    return hole->at < hole->diameter
               ? "is nearer to its end than it is wide: let the tube run on past it"
               : NULL;
}

static trivet_status note_misplaced(trivet_cuts *cuts)
{
    trivet_status status = TRIVET_OK;
    const char *before = NULL;
    int32_t set_before = -1;
    int32_t piece_before = -1;
    for (int32_t i = 0; i < cuts->hole_count && status == TRIVET_OK; i++) {
        const trivet_cut_hole *const hole = &cuts->holes[i];
        const char *const text = misplaced(cuts, hole);
        if (text && (text != before || hole->bolts != set_before || hole->piece != piece_before)) {
            char place[256];
            char piece[256];
            trivet_bolts_place_text(cuts->frame, hole->bolts, place, sizeof place);
            trivet_cuts_piece_text(cuts, hole->piece, piece, sizeof piece);
            status = add_note(cuts, "A hole in %s for the bolts of %s %s.", piece, place, text);
            before = text;
            set_before = hole->bolts;
            piece_before = hole->piece;
        }
    }
    return status;
}

/* An insert that begins at a joint before which its tube is cut. */
static trivet_status note_inserts(trivet_cuts *cuts)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < cuts->piece_count && status == TRIVET_OK; i++) {
        const trivet_cut_piece *const cut = &cuts->pieces[i].cut;
        if (cut->insert < 0) {
            continue;
        }
        const trivet__tube *const tube = &cuts->frame->tubes[cut->tube];
        const int32_t position = tube->inserts[cut->insert].position;
        const int32_t is_last = position == tube->joint_count - 1;
        if ((position == 0 || is_last) &&
            cuts->plan.ends[2 * cut->tube + is_last].shortest < -1e-6) {
            char name[256];
            trivet_cuts_piece_text(cuts, i, name, sizeof name);
            status = add_note(cuts,
                              "%s: the tube is cut short of the joint at which it begins: push "
                              "it in, or cut it shorter.",
                              name);
        }
    }
    return status;
}

static int has_template(const trivet_cuts *cuts)
{
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        const trivet_cut_end *const ends = cuts->pieces[i].cut.ends;
        if (ends[0].has_template || ends[1].has_template) {
            return 1;
        }
    }
    return 0;
}

/* Tubes that sit on the same tube at one joint. */
static int are_crowded(const trivet_cuts *cuts)
{
    const int32_t count = 2 * cuts->frame->tube_count;
    for (int32_t i = 0; i < count; i++) {
        const trivet__end *const one = &cuts->plan.ends[i];
        for (int32_t k = i + 1; k < count && one->onto >= 0; k++) {
            const trivet__end *const other = &cuts->plan.ends[k];
            const int is_miter = one->cut == TRIVET_CUT_MITER || other->cut == TRIVET_CUT_MITER;
            if (one->joint == other->joint && one->onto == other->onto && !is_miter) {
                return 1;
            }
        }
    }
    return 0;
}

static trivet_status note_whole(trivet_cuts *cuts)
{
    trivet_status status = TRIVET_OK;
    if (cuts->plan.crossings > 0) {
        status = add_note(cuts,
                          "Two tubes run through %s in each other's way%s: one must be notched or "
                          "cut in two, which is not worked out.",
                          cuts->frame->joints[cuts->plan.crossing].name,
                          cuts->plan.crossings > 1 ? ", and so elsewhere" : "");
    }
    if (status == TRIVET_OK && are_crowded(cuts)) {
        status =
            add_note(cuts, "Where several tubes sit on one tube at the same joint, whether they "
                           "get in each other's way there was not looked at.");
    }
    if (status == TRIVET_OK && has_template(cuts)) {
        status =
            add_note(cuts, "Saddles are worked out for the outside of the tube: file the inner "
                           "edge back until the outside touches.");
    }
    if (status == TRIVET_OK && cuts->shop.bend_count > 0) {
        status =
            add_note(cuts, "Bends: springback, a flattened section and the machine's own marks "
                           "are not in the numbers; bend a trial piece first.");
    }
    return status;
}

trivet_status trivet__cuts_notes(trivet_cuts *cuts)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < 2 * cuts->frame->tube_count && status == TRIVET_OK; i++) {
        status = note_end(cuts, &cuts->plan.ends[i]);
    }
    for (int32_t b = 0; b < cuts->frame->bolts_count && status == TRIVET_OK; b++) {
        if (!has_hole(cuts, b)) {
            char place[256];
            trivet_bolts_place_text(cuts->frame, b, place, sizeof place);
            status = add_note(cuts,
                              "Bolts of %s: the file does not say what they go through, so "
                              "their holes are not listed.",
                              place);
        }
    }
    if (status == TRIVET_OK) {
        status = note_misplaced(cuts);
    }
    if (status == TRIVET_OK) {
        status = note_inserts(cuts);
    }
    if (status == TRIVET_OK) {
        status = note_whole(cuts);
    }
    return status == TRIVET_OK
               ? add_note(cuts, "Not looked at: how much welds draw the frame together, the tube's "
                                "own tolerances, squaring the ends of bought bars.")
               : status;
}
