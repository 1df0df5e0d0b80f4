/*
 * Bolts, welds and cycles as people say them.
 */
#include "base/text.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

enum { NUMBER_MAX = 64, WHOLE_MAX = 512 };

static const char *name_of(const trivet_frame *frame, int32_t stock)
{
    const char *const name = trivet_frame_name(frame, TRIVET_KIND_STOCK, stock);
    return name ? name : "?";
}

static void write_length(const trivet_units *units, double length, char number[NUMBER_MAX])
{
    trivet_units_text(units, TRIVET_LENGTH, length, 4, number, NUMBER_MAX);
}

/* "tapped 15 mm into plug" */
static void write_into(const trivet_frame *frame, const trivet_bolts *bolts,
                       const trivet_units *units, char text[WHOLE_MAX])
{
    char number[NUMBER_MAX];
    write_length(units, bolts->engagement, number);
    switch (bolts->into) {
    case TRIVET_INTO_TAPPED:
        trivet__text_print(text, WHOLE_MAX, "tapped %s into %s", number,
                           name_of(frame, bolts->into_stock));
        break;
    case TRIVET_INTO_WALL:
        trivet__text_print(text, WHOLE_MAX, "cut into the wall of %s",
                           name_of(frame, bolts->into_stock));
        break;
    case TRIVET_INTO_RATED:
        trivet__text_copy(text, WHOLE_MAX, "into a rivet nut or weld nut");
        break;
    case TRIVET_INTO_NUT:
    default:
        trivet__text_copy(text, WHOLE_MAX, "with a nut");
        break;
    }
}

/* What else the bolt goes through. */
static void write_between(const trivet_bolts *bolts, const trivet_units *units,
                          char text[WHOLE_MAX])
{
    static const char *const CLAMPED[] = {"", ", across a hollow tube", ", through a crush sleeve",
                                          ", through a solid insert"};
    char number[NUMBER_MAX];
    trivet__text_copy(text, WHOLE_MAX, CLAMPED[bolts->clamped]);
    if (bolts->spacer != TRIVET_SPACER_NONE) {
        const size_t length = strlen(text);
        write_length(units, bolts->spacer_height, number);
        trivet__text_print(text + length, WHOLE_MAX - length, ", on %s spacers of %s",
                           bolts->spacer == TRIVET_SPACER_METAL ? "metal" : "plastic", number);
    }
    if (!isnan(bolts->plate)) {
        const size_t length = strlen(text);
        write_length(units, bolts->plate, number);
        trivet__text_print(text + length, WHOLE_MAX - length, ", plate %s", number);
    }
}

size_t trivet_bolts_text(const trivet_frame *frame, int32_t bolts, const trivet_units *units,
                         char *text, size_t size)
{
    static const char *const HEADS[] = {"hexagon", "socket", "countersunk"};
    char into[WHOLE_MAX];
    char between[WHOLE_MAX];
    char torque[NUMBER_MAX] = "";
    if (!frame || bolts < 0 || bolts >= frame->bolts_count) {
        return trivet__text_print(text, size, "%s", "");
    }
    const trivet_bolts *const set = &frame->bolts[bolts];
    write_into(frame, set, units, into);
    write_between(set, units, between);
    if (!isnan(set->torque)) {
        trivet_units_text(units, TRIVET_MOMENT, set->torque, 4, torque, sizeof torque);
    }
    return trivet__text_print(text, size, "%d x %s %s %s, %s%s%s%s", (int)set->count, set->thread,
                              set->grade, HEADS[set->head], into, between, torque[0] ? ", " : "",
                              torque);
}

/* "top, bottom" */
static void write_sides(uint32_t sides, char text[WHOLE_MAX])
{
    static const char *const WORDS[] = {"top", "bottom", "left", "right"};
    text[0] = '\0';
    for (uint32_t i = 0; i < 4; i++) {
        if (sides & (1U << i)) {
            const size_t length = strlen(text);
            trivet__text_print(text + length, WHOLE_MAX - length, "%s%s", length > 0 ? ", " : "",
                               WORDS[i]);
        }
    }
}

size_t trivet_weld_text(const trivet_weld *weld, const trivet_units *units, char *text, size_t size)
{
    char number[NUMBER_MAX];
    char sides[WHOLE_MAX];
    char run[NUMBER_MAX] = "";
    if (!weld || weld->kind == TRIVET_WELD_NOT_SAID) {
        return trivet__text_print(text, size, "not said");
    }
    if (weld->kind == TRIVET_WELD_NONE) {
        return trivet__text_print(text, size, "not welded");
    }
    if (weld->kind == TRIVET_WELD_SPOTS) {
        write_length(units, weld->spot_diameter, number);
        return trivet__text_print(text, size, "%d spots of %s", (int)weld->spot_count, number);
    }
    write_sides(weld->sides, sides);
    write_length(units, weld->throat, number);
    if (weld->run < 1.0) {
        trivet__text_print(run, sizeof run, ", %.0f %% of its length", 100.0 * weld->run);
    }
    return trivet__text_print(text, size, "fillet %s%s, throat %s",
                              weld->sides == (uint32_t)TRIVET_SIDES_ALL ? "all round" : sides, run,
                              weld->throat > 0.0 ? number : "0.7 of the wall");
}

/* "parked", "2 x parked", "nothing" */
static void write_state(const trivet_frame *frame, int32_t column, double factor,
                        char text[WHOLE_MAX])
{
    const char *const name = trivet_frame_column_name(frame, column);
    if (column < 0 || !name) {
        trivet__text_copy(text, WHOLE_MAX, "unloaded");
    } else if (factor == 1.0) {
        trivet__text_copy(text, WHOLE_MAX, name);
    } else {
        trivet__text_print(text, WHOLE_MAX, "%.4g x %s", factor, name);
    }
}

size_t trivet_cycles_text(const trivet_frame *frame, int32_t cycles, char *text, size_t size)
{
    char from[WHOLE_MAX];
    char to[WHOLE_MAX];
    if (!frame || cycles < 0 || cycles >= frame->cycles_count) {
        return trivet__text_print(text, size, "%s", "");
    }
    const trivet_cycles *const of = &frame->cycles[cycles].cycles;
    write_state(frame, of->from, of->from_factor, from);
    write_state(frame, of->to, of->to_factor, to);
    return trivet__text_print(text, size, "from %s to %s, %.4g times", from, to, of->count);
}
