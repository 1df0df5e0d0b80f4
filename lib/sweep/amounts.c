/*
 * How much of which stock a variant takes, what that costs, and whether the shop has it. Lengths
 * are those along the centre line, before cutting.
 */
#include "sweep/sweep.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

/* m of a stock in tubes and inserts. */
static double length_of(const trivet_document *document, int32_t stock)
{
    double length = 0.0;
    const trivet_frame *const frame = document->frame;
    for (int32_t t = 0; t < trivet_frame_count(frame, TRIVET_KIND_TUBE); t++) {
        length +=
            trivet_frame_tube_stock(frame, t) == stock ? trivet_frame_tube_length(frame, t) : 0.0;
    }
    for (size_t i = 0; i < document->inserts.count; i++) {
        const trivet__insert_note *const insert =
            TRIVET__AT(document->inserts, trivet__insert_note, i);
        length += insert->stock == stock ? insert->length : 0.0;
    }
    return length;
}

double trivet__price_of(const trivet_document *document)
{
    double price = 0.0;
    for (int32_t s = 0; s < trivet_frame_count(document->frame, TRIVET_KIND_STOCK); s++) {
        const double length = length_of(document, s);
        if (length > 0.0) {
            price += length * trivet__stock_note_at(document, s)->price;
        }
    }
    return price;
}

/* m of everything that a choice stands for. */
static double length_of_choice(const trivet_document *document, const trivet__overrides *overrides,
                               const trivet__stock_choice *choice)
{
    double length = 0.0;
    for (int32_t i = 0; i < overrides->stock_count; i++) {
        int32_t stock = -1;
        if (strcmp(overrides->stocks[i].choice->name, choice->name) == 0 &&
            trivet_frame_find(document->frame, TRIVET_KIND_STOCK, overrides->stocks[i].name, &stock,
                              NULL) == TRIVET_OK) {
            length += length_of(document, stock);
        }
    }
    return length;
}

int trivet__shop_lacks(const trivet_document *document, const trivet__overrides *overrides,
                       char *reason, size_t size)
{
    for (int32_t i = 0; i < overrides->stock_count; i++) {
        const trivet__stock_choice *const choice = overrides->stocks[i].choice;
        const double needed = length_of_choice(document, overrides, choice);
        if (needed > choice->note.have) {
            char has[64];
            char needs[64];
            trivet_units_text(&document->units, TRIVET_LENGTH, choice->note.have, 4, has,
                              sizeof has);
            trivet_units_text(&document->units, TRIVET_LENGTH, needed, 4, needs, sizeof needs);
            trivet__text_print(reason, size, "the shop has %s of %s, and %s are needed", has,
                               choice->name, needs);
            return 1;
        }
    }
    return 0;
}
