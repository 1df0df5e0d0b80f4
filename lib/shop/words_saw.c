/*
 * What stands at the saw and the drill, in words: pieces, ends, saddles, bends, holes.
 */
#include "shop/cut_tables.h"

#include "trivet/checks.h"

#include <math.h>
#include <string.h>

enum { SIDE_MAX = 64, ANGLE_DIGITS = 4, SMALL_DIGITS = 4, DEPTH_ROWS = 9, DEPTH_COLUMNS = 4 };

/* m: finer than that nobody marks a tube; our own choice. */
#define DEPTH_STEP 1e-5

static const double PI = 3.14159265358979323846;

static const char *name_of(const trivet_cut_tables *tables, int32_t kind, int32_t index)
{
    const char *const name = trivet_frame_name(tables->cuts->frame, kind, index);
    return name ? name : "-";
}

static void add_angle(trivet_cut_tables *tables, double angle)
{
    trivet__cut_cell_value(tables, TRIVET_ANGLE, angle, ANGLE_DIGITS);
}

static void add_length(trivet_cut_tables *tables, double length)
{
    trivet__cut_cell_value(tables, TRIVET_LENGTH, length, TRIVET__CELL_DIGITS);
}

/* "top", "left", or "37.5 deg from the top". */
static void add_side(trivet_cut_tables *tables, double round)
{
    static const char *const WORDS[] = {"top", "right", "bottom", "left"};
    const double quarters = round / (0.5 * PI);
    const double nearest = nearbyint(quarters);
    if (isnan(round)) {
        trivet__cut_cell(tables, "-");
    } else if (fabs(quarters - nearest) < 5e-4) {
        trivet__cut_cell(tables, "%s", WORDS[((int)nearest % 4 + 4) % 4]);
    } else {
        char angle[SIDE_MAX];
        trivet_units_text(tables->units, TRIVET_ANGLE, round, ANGLE_DIGITS, angle, sizeof angle);
        trivet__cut_cell(tables, "%s from the top", angle);
    }
}

void trivet__write_pieces(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"no",           "piece",          "stock",
                                           "long to long", "short to short", "on the centre line"};
    trivet__cut_table_begin(tables, TRIVET_CUT_PIECES,
                            "Pieces, long point to long point and short point to short point",
                            "noonnn", HEADINGS);
    for (int32_t i = 0; i < tables->cuts->piece_count; i++) {
        const trivet_cut_piece *const piece = &tables->cuts->pieces[i].cut;
        char name[TRIVET__CELL_MAX];
        trivet_cuts_piece_text(tables->cuts, i, name, sizeof name);
        trivet__cut_cell(tables, "%d", (int)i + 1);
        trivet__cut_cell(tables, "%s", name);
        trivet__cut_cell(tables, "%s", name_of(tables, TRIVET_KIND_STOCK, piece->stock));
        add_length(tables, piece->longest);
        add_length(tables, piece->shortest);
        add_length(tables, piece->length);
    }
    trivet__cut_table_end(tables);
}

/* One end of a piece; what it is: "miter with back", "saddle on left rail". */
static void add_end(trivet_cut_tables *tables, const trivet_cut_piece *piece, int32_t number,
                    int32_t end)
{
    static const char *const JOINERS[] = {"", "", "", " against ", " with ", " on ", " into "};
    const trivet_cut_end *const of = &piece->ends[end];
    const char *const other = trivet_frame_name(tables->cuts->frame, TRIVET_KIND_TUBE, of->onto);
    trivet__cut_cell(tables, "%d", (int)number + 1);
    trivet__cut_cell(tables, "%s", name_of(tables, TRIVET_KIND_JOINT, of->joint));
    add_angle(tables, of->angle);
    add_side(tables, of->towards);
    if (end == 0) {
        trivet__cut_cell(tables, "%s", "");
    } else {
        add_angle(tables, piece->turn);
    }
    trivet__cut_cell(tables, "%s%s%s", trivet_cut_text(of->cut), other ? JOINERS[of->cut] : "",
                     other ? other : "");
}

void trivet__write_ends(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"no", "at", "off square", "long point", "turn", "cut"};
    trivet__cut_table_begin(tables, TRIVET_CUT_ENDS, "Saw settings", "nontns", HEADINGS);
    for (int32_t i = 0; i < tables->cuts->piece_count; i++) {
        const trivet_cut_piece *const piece = &tables->cuts->pieces[i].cut;
        if (piece->insert < 0) {
            add_end(tables, piece, i, 0);
            add_end(tables, piece, i, 1);
        }
    }
    trivet__cut_line(
        tables, "Off square is what the saw is set to: 0 is square, 45 deg half of a square "
                "corner. Long point: the side of the tube on which it is longest, or for a saddle "
                "that to which the other tube leans; angles run from its top, right-handed about "
                "the way from its first joint to its last. Turn: by how much the tube is turned "
                "about itself, likewise, between the first and the second cut.");
    trivet__cut_table_end(tables);
}

static void write_depths_of(trivet_cut_tables *tables, int32_t number, int32_t end)
{
    static const char *const HEADINGS[] = {"round", "deep", "round", "deep",
                                           "round", "deep", "round", "deep"};
    const trivet_cut_end *const of = &tables->cuts->pieces[number].cut.ends[end];
    char name[TRIVET__CELL_MAX / 2];
    char file[TRIVET__CELL_MAX / 2];
    char title[2 * TRIVET__CELL_MAX];
    trivet_cuts_piece_text(tables->cuts, number, name, sizeof name);
    trivet_cuts_template_name(tables->cuts, number, end, file, sizeof file);
    trivet__text_print(title, sizeof title, "%d %s at %s, template %s", (int)number + 1, name,
                       name_of(tables, TRIVET_KIND_JOINT, of->joint), file);
    trivet__cut_table_begin(
        tables, TRIVET_CUT_DEPTHS,
        "Saddles: how deep to cut, from the long point, round the tube from its top", "nnnnnnnn",
        HEADINGS);
    trivet__cut_table_title(tables, number, end, title);
    for (int i = 0; i < DEPTH_ROWS; i++) {
        for (int k = 0; k < DEPTH_COLUMNS; k++) {
            const double round = 2.0 * PI * (i + DEPTH_ROWS * k) / (DEPTH_ROWS * DEPTH_COLUMNS);
            const double deep =
                DEPTH_STEP *
                nearbyint(trivet_cuts_saddle_depth(tables->cuts, number, end, round) / DEPTH_STEP);
            add_angle(tables, round);
            trivet__cut_cell_value(tables, TRIVET_LENGTH, deep, SMALL_DIGITS);
        }
    }
}

void trivet__write_depths(trivet_cut_tables *tables)
{
    int is_first = 1;
    for (int32_t i = 0; i < tables->cuts->piece_count; i++) {
        for (int32_t end = 0; end < 2; end++) {
            if (!tables->cuts->pieces[i].cut.ends[end].has_template) {
                continue;
            }
            if (!is_first) {
                trivet__cut_table_end(tables);
            }
            is_first = 0;
            write_depths_of(tables, i, end);
        }
    }
    if (!is_first) {
        trivet__cut_line(
            tables,
            "Depth at an angle f round the tube: (r cos f cos a + sqrt(R^2 - (r sin f - e)^2)) / "
            "sin a, less its least; r the tube, R what it sits on, a the angle between them, e how "
            "far their axes pass apart, f from where the other leans. A line put into the equation "
            "of a cylinder: any text on descriptive geometry. Depths are rounded to 0.01 mm.");
        trivet__cut_table_end(tables);
    }
}

void trivet__write_bends(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"no", "bend at", "by", "turn", "from", "to"};
    const trivet_cuts *const cuts = tables->cuts;
    if (cuts->bend_count == 0) {
        return;
    }
    trivet__cut_table_begin(tables, TRIVET_CUT_BENDS,
                            "Bends, marked on the straight bar from its first cut on the centre "
                            "line",
                            "nonnnn", HEADINGS);
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        for (int32_t k = 0; k < cuts->pieces[i].cut.bend_count; k++) {
            const trivet_cut_bend *const bend = &cuts->bends[cuts->pieces[i].first_bend + k];
            trivet__cut_cell(tables, "%d", (int)i + 1);
            trivet__cut_cell(tables, "%s", name_of(tables, TRIVET_KIND_JOINT, bend->joint));
            add_angle(tables, bend->angle);
            add_angle(tables, bend->turn);
            add_length(tables, bend->from);
            add_length(tables, bend->to);
        }
    }
    trivet__cut_line(tables,
                     "The length of a bent piece is that on the line which neither stretches nor "
                     "shrinks. Turn: of the piece about itself since the bend before it.");
    trivet__cut_table_end(tables);
}

static void add_hole_text(trivet_cut_tables *tables, const trivet_cut_hole *hole)
{
    static const char *const IN[] = {"", "one wall", "both walls", "into the end", "plate"};
    char bolts[TRIVET__CELL_MAX / 2];
    trivet_bolts_place_text(tables->cuts->frame, hole->bolts, bolts, sizeof bolts);
    trivet__cut_cell(tables, "%s%s, for the bolts of %s", IN[hole->in],
                     hole->is_tapped ? ", tapped" : "", bolts);
    if (!isnan(hole->countersink)) {
        char sunk[SIDE_MAX];
        char angle[SIDE_MAX];
        trivet_units_text(tables->units, TRIVET_LENGTH, hole->countersink, SMALL_DIGITS, sunk,
                          sizeof sunk);
        trivet_units_text(tables->units, TRIVET_ANGLE, hole->countersink_angle, ANGLE_DIGITS, angle,
                          sizeof angle);
        trivet__cut_cell_more(tables, ", countersunk to %s at %s", sunk, angle);
    }
}

static void add_hole(trivet_cut_tables *tables, const trivet_cut_hole *hole)
{
    if (hole->piece < 0) {
        trivet__cut_cell(tables, "-");
    } else {
        trivet__cut_cell(tables, "%d", (int)hole->piece + 1);
    }
    trivet__cut_cell(tables, "%s", name_of(tables, TRIVET_KIND_JOINT, hole->from));
    if (hole->piece < 0) {
        trivet__cut_cell(tables, "-");
        trivet__cut_cell(tables, "-");
        trivet__cut_cell(tables, "-");
    } else {
        add_length(tables, hole->at);
        add_length(tables, hole->at_longest);
        trivet__cut_cell_value(tables, TRIVET_LENGTH, hole->side, SMALL_DIGITS);
    }
    add_side(tables, hole->towards);
    if (isnan(hole->diameter)) {
        trivet__cut_cell(tables, "see maker");
    } else {
        trivet__cut_cell_value(tables, TRIVET_LENGTH, hole->diameter, SMALL_DIGITS);
    }
    add_hole_text(tables, hole);
}

void trivet__write_holes(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"no",     "from", "centre line", "long point",
                                           "beside", "side", "drill",       "hole"};
    trivet__cut_table_begin(
        tables, TRIVET_CUT_HOLES,
        "Holes, from the cut at a joint: on the centre line, and from the long point", "nonnntns",
        HEADINGS);
    for (int32_t i = 0; i < tables->cuts->hole_count; i++) {
        add_hole(tables, &tables->cuts->holes[i]);
    }
    trivet__cut_line(tables,
                     "Through holes: ISO 273 medium; before tapping: the usual drill. Beside: off "
                     "the centre line, looking at the side that is drilled with the tube's first "
                     "joint to the left, upwards above 0.");
    trivet__cut_table_end(tables);
}
