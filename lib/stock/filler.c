/*
 * Weld metal: the least strengths of rod electrodes and wires. Strengths of E70xx after Shigley
 * (table 9-3, after AWS A5.1 and A5.5); all others from memory.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"
#include "stock/spelling.h"
#include "trivet/stock.h"

#include <math.h>

/* 1 ksi: 1000 lbf/in^2, both exact by definition. */
#define KSI (4448.2216152605 / (0.0254 * 0.0254))
#define MPA 1e6

#define ROD "Shigley table 9-3, after AWS A5.1 and A5.5 (from memory)"
#define WIRE "AWS A5.18, A5.28; EN ISO 14341 (from memory)"

typedef struct filler_row {
    const char *name;
    double yield; /* in unit; NaN: not known */
    double tensile;
    double unit; /* Pa */
    const char *source;
} filler_row;

static const filler_row rows[] = {
    {"E60", 50.0, 62.0, KSI, ROD},
    {"E70", 57.0, 70.0, KSI, "Shigley table 9-3, after AWS A5.1 and A5.5"},
    {"E80", 67.0, 80.0, KSI, ROD},
    {"E90", 77.0, 90.0, KSI, ROD},
    {"E100", 87.0, 100.0, KSI, ROD},
    {"E120", 107.0, 120.0, KSI, ROD},
    {"ER70S-3", 400.0, 480.0, MPA, WIRE},
    {"ER70S-6", 400.0, 480.0, MPA, WIRE},
    {"ER80S-D2", 470.0, 550.0, MPA, WIRE},
    {"ER308L", (double)NAN, 520.0, MPA, "AWS A5.9 (from memory)"},
    {"G42", 420.0, 500.0, MPA, "EN ISO 14341 (from memory)"},
};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

trivet_status trivet_filler_defaults(trivet_filler *filler, size_t size)
{
    return trivet__defaults(filler, size, sizeof *filler);
}

int32_t trivet_filler_count(void)
{
    return ROW_COUNT;
}

static void fill(int32_t index, trivet_filler *filler)
{
    const filler_row *const row = &rows[index];
    trivet__text_copy(filler->name, sizeof filler->name, row->name);
    trivet__text_copy(filler->source, sizeof filler->source, row->source);
    filler->yield = row->yield * row->unit;
    filler->tensile = row->tensile * row->unit;
}

trivet_status trivet_filler_at(int32_t index, trivet_filler *filler_out)
{
    if (!filler_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (filler_out->size != sizeof *filler_out) {
        return TRIVET_BAD_SIZE;
    }
    if (index < 0 || index >= ROW_COUNT) {
        return TRIVET_BAD_INDEX;
    }
    fill(index, filler_out);
    return TRIVET_OK;
}

static trivet_status refuse_name(const char *name, trivet_message *message)
{
    trivet__nearest search = {name, NULL, 0.0};
    for (int32_t i = 0; i < ROW_COUNT; i++) {
        trivet__nearest_offer(&search, rows[i].name);
    }
    trivet__refuse(message, TRIVET_BAD_NAME, name, "no built-in filler has this name",
                   "give its tensile strength instead");
    if (search.nearest) {
        trivet__message_remedy(message, "did you mean \"%s\"?", search.nearest);
    }
    return TRIVET_BAD_NAME;
}

trivet_status trivet_filler_find(const char *name, trivet_filler *filler_out,
                                 trivet_message *message)
{
    trivet_message_clear(message);
    if (!name || !filler_out) {
        return trivet__missing(message, name ? "filler_out" : "name");
    }
    const trivet_status status =
        trivet__size_check(filler_out->size, sizeof *filler_out, "filler",
                           "fill it with trivet_filler_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    for (int32_t i = 0; i < ROW_COUNT; i++) {
        if (trivet__same_name(name, rows[i].name)) {
            fill(i, filler_out);
            return TRIVET_OK;
        }
    }
    return refuse_name(name, message);
}
