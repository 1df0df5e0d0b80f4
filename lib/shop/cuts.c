/*
 * The cut list as a whole: made step by step, then asked.
 */
#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "shop/cuts_record.h"

#include <string.h>

#define DEFAULTS(name)                                                                             \
    trivet_status trivet_cut_##name##_defaults(trivet_cut_##name *name, size_t size)               \
    {                                                                                              \
        return trivet__defaults(name, size, sizeof *name);                                         \
    }

DEFAULTS(end)
DEFAULTS(piece)
DEFAULTS(bend)
DEFAULTS(hole)
DEFAULTS(bar)
DEFAULTS(stock)
DEFAULTS(part)
DEFAULTS(totals)

/* Copies what the list goes on needing of the settings: numbers and bent pieces. */
static trivet_status copy_shop(trivet_cuts *cuts, const trivet_shop *shop)
{
    const size_t count = (size_t)(shop->bend_count > 0 ? shop->bend_count : 0);
    cuts->shop = *shop;
    cuts->shop.bars = NULL;
    cuts->shop.ends = NULL;
    cuts->shop.bar_count = cuts->shop.end_count = cuts->shop.bend_count = 0;
    size_t tubes = 0;
    size_t letters = 0;
    for (size_t i = 0; i < count; i++) {
        tubes += (size_t)shop->bends[i].tube_count;
        letters += strlen(shop->bends[i].name) + 1;
    }
    cuts->bends_wanted = trivet__take(count, sizeof *cuts->bends_wanted);
    cuts->bend_tubes = trivet__take(tubes, sizeof *cuts->bend_tubes);
    cuts->bend_names = trivet__take(letters, 1);
    if (!cuts->bends_wanted || !cuts->bend_tubes || !cuts->bend_names) {
        return TRIVET_NO_MEMORY;
    }
    tubes = letters = 0;
    for (size_t i = 0; i < count; i++) {
        const trivet_shop_bend *const from = &shop->bends[i];
        const size_t length = strlen(from->name) + 1;
        memcpy(cuts->bend_tubes + tubes, from->tubes,
               (size_t)from->tube_count * sizeof *from->tubes);
        memcpy(cuts->bend_names + letters, from->name, length);
        cuts->bends_wanted[i] = *from;
        cuts->bends_wanted[i].tubes = cuts->bend_tubes + tubes;
        cuts->bends_wanted[i].name = cuts->bend_names + letters;
        tubes += (size_t)from->tube_count;
        letters += length;
    }
    cuts->shop.bends = cuts->bends_wanted;
    cuts->shop.bend_count = (int32_t)count;
    return TRIVET_OK;
}

void trivet_cuts_free(trivet_cuts *cuts)
{
    if (!cuts) {
        return;
    }
    trivet__cut_plan_clear(&cuts->plan);
    trivet__give_back(cuts->bends_wanted);
    trivet__give_back(cuts->bend_tubes);
    trivet__give_back(cuts->bend_names);
    trivet__give_back(cuts->pieces);
    trivet__give_back(cuts->bends);
    trivet__give_back(cuts->holes);
    trivet__give_back(cuts->parts);
    trivet__give_back(cuts->bars);
    trivet__give_back(cuts->bar_first);
    trivet__give_back(cuts->bar_pieces);
    trivet__give_back(cuts->stocks);
    trivet__give_back(cuts->notes);
    trivet_frame_free(cuts->frame);
    trivet__give_back(cuts);
}

/* Everything that hangs on the pieces. */
static trivet_status fill_rest(trivet_cuts *cuts, const trivet_shop *shop, trivet_message *message)
{
    trivet_status (*const steps[])(trivet_cuts *) = {trivet__cuts_holes, trivet__cuts_parts,
                                                     trivet__cuts_welds, trivet__cuts_notes};
    trivet_status status = trivet__cuts_bars(cuts, shop, message);
    for (size_t i = 0; i < sizeof steps / sizeof steps[0] && status == TRIVET_OK; i++) {
        status = steps[i](cuts);
        if (status != TRIVET_OK) {
            return status == TRIVET_NO_MEMORY ? trivet__no_memory(message) : status;
        }
    }
    return status;
}

static trivet_status fill_cuts(trivet_cuts *cuts, const trivet_frame *frame,
                               const trivet_shop *shop, trivet_message *message)
{
    /* The wishes are judged on the caller's lists; the plan kept has none but bends. */
    trivet__cut_plan plan;
    trivet_cut_totals_defaults(&cuts->totals, sizeof cuts->totals);
    trivet_status status = trivet_frame_copy(frame, &cuts->frame, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = trivet__cut_plan_make(cuts->frame, shop, &plan, message);
    cuts->plan = plan;
    if (status == TRIVET_OK && copy_shop(cuts, shop) != TRIVET_OK) {
        status = trivet__no_memory(message);
    }
    cuts->plan.shop = &cuts->shop;
    if (status == TRIVET_OK) {
        status = trivet__cuts_pieces(cuts, message);
    }
    return status == TRIVET_OK ? fill_rest(cuts, shop, message) : status;
}

trivet_status trivet_cuts_new(const trivet_frame *frame, const trivet_shop *shop,
                              trivet_cuts **cuts_out, trivet_message *message)
{
    trivet_shop usual;
    if (cuts_out) {
        *cuts_out = NULL;
    }
    if (!frame || !cuts_out) {
        return trivet__missing(message, frame ? "cuts_out" : "frame");
    }
    trivet_shop_defaults(&usual, sizeof usual);
    trivet_cuts *const cuts = trivet__take(1, sizeof *cuts);
    if (!cuts) {
        return trivet__no_memory(message);
    }
    const trivet_status status = fill_cuts(cuts, frame, shop ? shop : &usual, message);
    if (status != TRIVET_OK) {
        trivet_cuts_free(cuts);
        return status;
    }
    *cuts_out = cuts;
    return TRIVET_OK;
}

#define COUNT_AND_AT(count_name, at_name, type, list, number)                                      \
    int32_t count_name(const trivet_cuts *cuts)                                                    \
    {                                                                                              \
        return cuts ? cuts->number : 0;                                                            \
    }                                                                                              \
    trivet_status at_name(const trivet_cuts *cuts, int32_t index, type *out)                       \
    {                                                                                              \
        const trivet_status status = trivet__out_check(cuts, out, sizeof *out);                    \
        if (status != TRIVET_OK) {                                                                 \
            return status;                                                                         \
        }                                                                                          \
        if (index < 0 || index >= cuts->number) {                                                  \
            return TRIVET_BAD_INDEX;                                                               \
        }                                                                                          \
        *out = cuts->list;                                                                         \
        return TRIVET_OK;                                                                          \
    }

COUNT_AND_AT(trivet_cuts_count, trivet_cuts_piece, trivet_cut_piece, pieces[index].cut, piece_count)
COUNT_AND_AT(trivet_cuts_hole_count, trivet_cuts_hole, trivet_cut_hole, holes[index], hole_count)
COUNT_AND_AT(trivet_cuts_bar_count, trivet_cuts_bar, trivet_cut_bar, bars[index], bar_count)
COUNT_AND_AT(trivet_cuts_stock_count, trivet_cuts_stock, trivet_cut_stock, stocks[index],
             stock_count)
COUNT_AND_AT(trivet_cuts_part_count, trivet_cuts_part, trivet_cut_part, parts[index], part_count)

trivet_status trivet_cuts_bend(const trivet_cuts *cuts, int32_t piece, int32_t index,
                               trivet_cut_bend *bend_out)
{
    const trivet_status status = trivet__out_check(cuts, bend_out, sizeof *bend_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (piece < 0 || piece >= cuts->piece_count || index < 0 ||
        index >= cuts->pieces[piece].cut.bend_count) {
        return TRIVET_BAD_INDEX;
    }
    *bend_out = cuts->bends[cuts->pieces[piece].first_bend + index];
    return TRIVET_OK;
}

const int32_t *trivet_cuts_bar_pieces(const trivet_cuts *cuts, int32_t bar, int32_t *count_out)
{
    const int is_there = cuts && bar >= 0 && bar < cuts->bar_count;
    if (count_out) {
        *count_out = is_there ? cuts->bars[bar].piece_count : 0;
    }
    return is_there ? cuts->bar_pieces + cuts->bar_first[bar] : NULL;
}

trivet_status trivet_cuts_totals(const trivet_cuts *cuts, trivet_cut_totals *totals_out)
{
    const trivet_status status = trivet__out_check(cuts, totals_out, sizeof *totals_out);
    if (status == TRIVET_OK) {
        *totals_out = cuts->totals;
    }
    return status;
}

const char *trivet_cuts_note(const trivet_cuts *cuts, int32_t index)
{
    return cuts && index >= 0 && index < cuts->note_count ? cuts->notes[index].text : NULL;
}
