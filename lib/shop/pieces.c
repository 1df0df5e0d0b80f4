/*
 * The pieces: tubes, bent pieces, inserts; their lengths from the cuts at their ends.
 */
#include "shop/cuts_record.h"

#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "base/vec3.h"
#include "shop/bent.h"

#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

static trivet__piece *add_piece(trivet_cuts *cuts)
{
    void *list = cuts->pieces;
    const int has_room = trivet__make_room(&list, (size_t)cuts->piece_count, &cuts->piece_capacity,
                                           sizeof *cuts->pieces);
    cuts->pieces = list;
    if (!has_room) {
        return NULL;
    }
    trivet__piece *const piece = &cuts->pieces[cuts->piece_count++];
    memset(piece, 0, sizeof *piece);
    trivet_cut_piece_defaults(&piece->cut, sizeof piece->cut);
    piece->cut.tube = piece->cut.bend = piece->cut.insert = -1;
    piece->cut.turn = (double)NAN;
    for (int i = 0; i < 2; i++) {
        trivet_cut_end_defaults(&piece->cut.ends[i], sizeof piece->cut.ends[i]);
        piece->cut.ends[i].cut = TRIVET_CUT_FREE;
        piece->cut.ends[i].joint = piece->cut.ends[i].onto = -1;
        piece->cut.ends[i].towards = (double)NAN;
    }
    return piece;
}

static void fill_cut(const trivet__cut_plan *plan, const trivet__end *end, trivet_cut_end *out)
{
    out->cut = end->cut;
    out->joint = end->joint;
    out->onto = end->onto;
    out->angle = end->angle;
    out->towards = end->towards;
    out->beyond = end->beyond;
    out->longest = end->longest;
    out->shortest = end->shortest;
    out->has_template =
        end->cut == TRIVET_CUT_SADDLE && trivet__tube_silhouette(plan, end->tube)->is_round;
}

/* Adds the ends to a piece that is `length` long between the ends of the model. */
static trivet_status add_ends(const trivet_cuts *cuts, trivet__piece *piece, double length,
                              double middle, trivet_message *message)
{
    const trivet_frame *const frame = cuts->frame;
    trivet_cut_piece *const cut = &piece->cut;
    double mean = middle;
    cut->length = cut->longest = cut->shortest = length;
    for (int i = 0; i < 2; i++) {
        const trivet__end *const end = piece->ends[i];
        fill_cut(&cuts->plan, end, &cut->ends[i]);
        cut->length += end->beyond;
        cut->longest += end->longest;
        cut->shortest += end->shortest;
        mean += end->mean;
    }
    cut->mass = mean * trivet__stock_mass_per_length(&frame->stocks[cut->stock]);
    if (cut->shortest > 0.0) {
        return TRIVET_OK;
    }
    trivet__refuse(message, TRIVET_BAD_VALUE, "",
                   "its two cuts run into each other: nothing is left of it on one side",
                   "make it longer, or have it cut otherwise");
    trivet__message_thing(message, "tube %s", frame->tubes[cut->tube].name);
    return TRIVET_BAD_VALUE;
}

static trivet_status add_tube(trivet_cuts *cuts, int32_t tube, trivet_message *message)
{
    trivet__piece *const piece = add_piece(cuts);
    if (!piece) {
        return trivet__no_memory(message);
    }
    double along[3];
    piece->cut.kind = TRIVET_KIND_TUBE;
    piece->cut.tube = tube;
    piece->cut.stock = cuts->frame->tubes[tube].stock;
    for (int i = 0; i < 2; i++) {
        piece->ends[i] = &cuts->plan.ends[2 * tube + i];
    }
    trivet__minus3(piece->ends[1]->point, piece->ends[0]->point, along);
    const double length = trivet__length3(along);
    /* Between -pi and pi; not a number if an end is square. */
    piece->cut.turn = remainder(piece->ends[1]->towards - piece->ends[0]->towards, 2.0 * PI);
    return add_ends(cuts, piece, length, length, message);
}

static trivet_status add_bend(trivet_cuts *cuts, const trivet__bent_step *step, double start)
{
    void *list = cuts->bends;
    const int has_room = trivet__make_room(&list, (size_t)cuts->bend_count, &cuts->bend_capacity,
                                           sizeof *cuts->bends);
    cuts->bends = list;
    if (!has_room) {
        return TRIVET_NO_MEMORY;
    }
    trivet_cut_bend *const bend = &cuts->bends[cuts->bend_count++];
    trivet_cut_bend_defaults(bend, sizeof *bend);
    bend->joint = step->exit->joint;
    bend->angle = step->angle;
    bend->from = start + step->base + step->length - step->setback;
    bend->to = bend->from + step->arc;
    bend->turn = step->turn;
    return TRIVET_OK;
}

/* A bent piece whole, from the first of its tubes. */
static trivet_status add_bent(trivet_cuts *cuts, int32_t bend, trivet_message *message)
{
    trivet__bent_step step;
    trivet__piece *const piece = add_piece(cuts);
    int is_there = 1;
    if (!piece) {
        return trivet__no_memory(message);
    }
    trivet__bent_first(&cuts->plan, bend, &step);
    piece->ends[0] = step.entry;
    piece->first_bend = cuts->bend_count;
    while (is_there) {
        piece->ends[1] = step.exit;
        if (step.angle > 0.0) {
            if (add_bend(cuts, &step, piece->ends[0]->beyond) != TRIVET_OK) {
                return trivet__no_memory(message);
            }
            piece->cut.bend_count++;
        }
        is_there = trivet__bent_next(&cuts->plan, bend, &step);
    }
    piece->cut.kind = 0;
    piece->cut.tube = cuts->shop.bends[bend].tubes[0];
    piece->cut.bend = bend;
    piece->cut.stock = cuts->frame->tubes[piece->cut.tube].stock;
    return add_ends(cuts, piece, step.base + step.length, step.middle + step.length, message);
}

static trivet_status add_insert(trivet_cuts *cuts, int32_t tube, int32_t index,
                                trivet_message *message)
{
    const trivet__insert *const insert = &cuts->frame->tubes[tube].inserts[index];
    trivet__piece *const piece = add_piece(cuts);
    if (!piece) {
        return trivet__no_memory(message);
    }
    piece->cut.kind = TRIVET_KIND_STOCK;
    piece->cut.tube = tube;
    piece->cut.insert = index;
    piece->cut.stock = insert->stock;
    piece->cut.length = piece->cut.longest = piece->cut.shortest = insert->length;
    piece->cut.mass =
        insert->length * trivet__stock_mass_per_length(&cuts->frame->stocks[insert->stock]);
    return TRIVET_OK;
}

static int has_bent(const trivet_cuts *cuts, int32_t bend)
{
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        if (cuts->pieces[i].cut.bend == bend) {
            return 1;
        }
    }
    return 0;
}

trivet_status trivet__cuts_pieces(trivet_cuts *cuts, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    for (int32_t t = 0; t < cuts->frame->tube_count && status == TRIVET_OK; t++) {
        const int32_t bend = cuts->plan.bend_of[t];
        if (bend < 0) {
            status = add_tube(cuts, t, message);
        } else if (!has_bent(cuts, bend)) {
            status = add_bent(cuts, bend, message);
        }
    }
    for (int32_t t = 0; t < cuts->frame->tube_count; t++) {
        for (int32_t i = 0; i < cuts->frame->tubes[t].insert_count && status == TRIVET_OK; i++) {
            status = add_insert(cuts, t, i, message);
        }
    }
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        const trivet_cut_piece *const cut = &cuts->pieces[i].cut;
        const double round = cuts->frame->stocks[cut->stock].section.perimeter;
        cuts->totals.mass += cut->mass;
        if (cut->insert < 0 && round > 0.0) {
            cuts->totals.paint_area += round * cut->length;
        }
    }
    return status;
}

const trivet__piece *trivet__piece_of(const trivet_cuts *cuts, int32_t tube, int32_t *index_out)
{
    const int32_t bend = cuts->plan.bend_of[tube];
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        const trivet_cut_piece *const cut = &cuts->pieces[i].cut;
        if (cut->insert < 0 &&
            (bend < 0 ? cut->tube == tube && cut->bend < 0 : cut->bend == bend)) {
            *index_out = i;
            return &cuts->pieces[i];
        }
    }
    *index_out = -1;
    return NULL;
}

double trivet__place_on_piece(const trivet_cuts *cuts, int32_t tube, double along)
{
    const int32_t bend = cuts->plan.bend_of[tube];
    trivet__bent_step step;
    if (bend < 0) {
        return along;
    }
    trivet__bent_first(&cuts->plan, bend, &step);
    while (step.exit->tube != tube && trivet__bent_next(&cuts->plan, bend, &step)) {
    }
    return step.base + (step.exit->is_last ? along : step.length - along);
}

static const char *joint_name(const trivet_cuts *cuts, int32_t tube, int32_t position)
{
    return cuts->frame->joints[cuts->frame->tubes[tube].joints[position]].name;
}

size_t trivet_cuts_piece_text(const trivet_cuts *cuts, int32_t index, char *text, size_t size)
{
    if (!cuts || index < 0 || index >= cuts->piece_count) {
        return trivet__text_print(text, size, "%s", "");
    }
    const trivet_cut_piece *const cut = &cuts->pieces[index].cut;
    const trivet__tube *const tube = &cuts->frame->tubes[cut->tube];
    if (cut->bend >= 0) {
        return trivet__text_print(text, size, "%s (bent)", cuts->shop.bends[cut->bend].name);
    }
    if (cut->insert >= 0) {
        return trivet__text_print(text, size, "%s in %s at %s",
                                  cuts->frame->stocks[cut->stock].name, tube->name,
                                  joint_name(cuts, cut->tube, tube->inserts[cut->insert].position));
    }
    return trivet__text_print(text, size, "%s", tube->name);
}
