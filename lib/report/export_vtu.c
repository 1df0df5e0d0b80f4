/*
 * VTU: VTK's XML file of an unstructured grid, version 0.1, numbers as text with 17 digits. (The
 * format: VTK user's guide, "VTK XML formats".)
 */
#include "report/export_bytes.h"
#include "report/export_used.h"
#include "trivet/report_export.h"

#include <math.h>
#include <string.h>

enum {
    PIECES = 16,         /* lines a span */
    PLACES = PIECES + 1, /* points a span */
    VTK_LINE = 3         /* type of a cell */
};

/* The largest utilisation that is written: infinity is no number in many readers of text. */
#define USED_MOST 1e300

/* A writing in progress; the first failure is kept. */
typedef struct vtu_writing {
    const trivet__handed *of;
    trivet__bytes *bytes;
    trivet_status status;
} vtu_writing;

static void keep(vtu_writing *w, trivet_status status)
{
    w->status = w->status == TRIVET_OK ? status : w->status;
}

static trivet_span span_of(vtu_writing *w, int32_t number)
{
    trivet_span span = {.size = sizeof span};
    keep(w, trivet_result_span(w->of->result, number, &span));
    return span;
}

/* m from the span's start; the last place is the end itself, not a rounding beside it. */
static double place_along(const trivet_span *span, int32_t place)
{
    return place == PIECES ? span->length : span->length * place / PIECES;
}

static void open_array(const vtu_writing *w, const char *type, const char *in_case,
                       const char *name, int components)
{
    trivet__bytes_text(w->bytes, "<DataArray type=\"");
    trivet__bytes_text(w->bytes, type);
    trivet__bytes_text(w->bytes, "\" Name=\"");
    if (in_case) {
        trivet__bytes_xml(w->bytes, in_case);
        trivet__bytes_text(w->bytes, ": ");
    }
    trivet__bytes_text(w->bytes, name);
    trivet__bytes_text(w->bytes, "\" NumberOfComponents=\"");
    trivet__bytes_whole(w->bytes, components);
    trivet__bytes_text(w->bytes, "\" format=\"ascii\">\n");
}

static void close_array(const vtu_writing *w)
{
    trivet__bytes_text(w->bytes, "</DataArray>\n");
}

static void write_row(const vtu_writing *w, const double *values, int count)
{
    for (int i = 0; i < count; i++) {
        trivet__bytes_number(w->bytes, values[i]);
        trivet__bytes_text(w->bytes, i + 1 < count ? " " : "\n");
    }
}

/* Where the unloaded tube's own line begins: its first joint with its offset. */
static void tube_start(vtu_writing *w, int32_t tube, double start[3])
{
    const int32_t *const joints = trivet_frame_tube_joints(w->of->frame, tube, NULL);
    const double *const joint = trivet_frame_position(w->of->frame, joints[0]);
    keep(w, trivet_frame_offset(w->of->frame, tube, joints[0], start));
    for (int i = 0; i < 3; i++) {
        start[i] += joint[i];
    }
}

/* Spans of a tube follow each other: each begins where the one before it ends. */
static void write_points(vtu_writing *w)
{
    double start[3] = {0.0, 0.0, 0.0};
    int32_t tube = -1;
    trivet__bytes_text(w->bytes, "<Points>\n");
    open_array(w, "Float64", NULL, "Points", 3);
    for (int32_t s = 0; s < w->of->span_count && w->status == TRIVET_OK; s++) {
        const trivet_span span = span_of(w, s);
        if (span.tube != tube) {
            tube = span.tube;
            tube_start(w, tube, start);
        }
        for (int32_t place = 0; place < PLACES; place++) {
            double point[3];
            for (int i = 0; i < 3; i++) {
                point[i] = start[i] + place_along(&span, place) * span.axes[i];
            }
            write_row(w, point, 3);
        }
        for (int i = 0; i < 3; i++) {
            start[i] += span.length * span.axes[i];
        }
    }
    close_array(w);
    trivet__bytes_text(w->bytes, "</Points>\n");
}

static void write_wholes(const vtu_writing *w, const char *name, const char *type,
                         int64_t (*value)(int32_t cell))
{
    open_array(w, type, NULL, name, 1);
    for (int32_t cell = 0; cell < PIECES * w->of->span_count; cell++) {
        trivet__bytes_whole(w->bytes, value(cell));
        trivet__bytes_text(w->bytes, "\n");
    }
    close_array(w);
}

static int64_t end_of_cell(int32_t cell)
{
    return 2 * ((int64_t)cell + 1);
}

static int64_t type_of_cell(int32_t cell)
{
    (void)cell;
    return VTK_LINE;
}

static void write_cells(const vtu_writing *w)
{
    trivet__bytes_text(w->bytes, "<Cells>\n");
    open_array(w, "Int32", NULL, "connectivity", 1);
    for (int32_t cell = 0; cell < PIECES * w->of->span_count; cell++) {
        const int32_t first = cell / PIECES * PLACES + cell % PIECES;
        trivet__bytes_whole(w->bytes, first);
        trivet__bytes_text(w->bytes, " ");
        trivet__bytes_whole(w->bytes, first + 1);
        trivet__bytes_text(w->bytes, "\n");
    }
    close_array(w);
    write_wholes(w, "offsets", "Int32", end_of_cell);
    write_wholes(w, "types", "UInt8", type_of_cell);
    trivet__bytes_text(w->bytes, "</Cells>\n");
}

/* Forces and movement at a place; forces at the ends of a span as its joints see them. */
static void state_at(vtu_writing *w, int32_t column, int32_t s, int32_t place, double state[12])
{
    const trivet_span span = span_of(w, s);
    keep(w,
         trivet_result_at(w->of->result, column, s, place_along(&span, place), state, state + 6));
    if (place == 0 || place == PIECES) {
        const double *const ends = w->of->span_ends +
                                   12 * ((size_t)column * (size_t)w->of->span_count + (size_t)s) +
                                   (place == 0 ? 0 : 6);
        memcpy(state, ends, 6 * sizeof *state);
    }
}

/* One array of a case: so many of the twelve numbers of the state, from first on. */
static void write_state(vtu_writing *w, int32_t column, const char *name, int first, int count)
{
    open_array(w, "Float64", trivet_frame_column_name(w->of->frame, column), name, count);
    for (int32_t s = 0; s < w->of->span_count && w->status == TRIVET_OK; s++) {
        for (int32_t place = 0; place < PLACES; place++) {
            double state[12] = {0.0};
            state_at(w, column, s, place, state);
            write_row(w, state + first, count);
        }
    }
    close_array(w);
}

static void write_point_data(vtu_writing *w)
{
    static const char *const FORCES[6] = {"N", "Vy", "Vz", "T", "My", "Mz"};
    trivet__bytes_text(w->bytes, "<PointData>\n");
    open_array(w, "Float64", NULL, "at", 1);
    for (int32_t s = 0; s < w->of->span_count; s++) {
        const trivet_span span = span_of(w, s);
        for (int32_t place = 0; place < PLACES; place++) {
            const double at = span.start + place_along(&span, place);
            write_row(w, &at, 1);
        }
    }
    close_array(w);
    for (int32_t column = 0; column < w->of->case_count; column++) {
        write_state(w, column, "move", 6, 3);
        write_state(w, column, "turn", 9, 3);
        for (int i = 0; i < 6; i++) {
            write_state(w, column, FORCES[i], i, 1);
        }
    }
    trivet__bytes_text(w->bytes, "</PointData>\n");
}

/* A number for each line of a span. */
static void write_per_span(const vtu_writing *w, double value)
{
    for (int piece = 0; piece < PIECES; piece++) {
        write_row(w, &value, 1);
    }
}

static void write_cell_data(vtu_writing *w)
{
    trivet__bytes_text(w->bytes, "<CellData>\n");
    open_array(w, "Int32", NULL, "tube", 1);
    for (int32_t s = 0; s < w->of->span_count; s++) {
        write_per_span(w, span_of(w, s).tube);
    }
    close_array(w);
    open_array(w, "Int32", NULL, "span", 1);
    for (int32_t s = 0; s < w->of->span_count; s++) {
        write_per_span(w, s);
    }
    close_array(w);
    open_array(w, "Float64", NULL, "utilisation", 1);
    for (int32_t s = 0; s < w->of->span_count; s++) {
        const double used = trivet__tube_used(w->of->checks, span_of(w, s).tube, NULL);
        write_per_span(w, fmin(used, USED_MOST));
    }
    close_array(w);
    trivet__bytes_text(w->bytes, "</CellData>\n");
}

static void write_all(vtu_writing *w)
{
    trivet__bytes_text(w->bytes, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                                 "<VTKFile type=\"UnstructuredGrid\" version=\"0.1\" "
                                 "byte_order=\"LittleEndian\">\n"
                                 "<!-- SI units: m, rad, N, N m. World axes: x forward, y left, z "
                                 "up. -->\n<UnstructuredGrid>\n<Piece NumberOfPoints=\"");
    trivet__bytes_whole(w->bytes, (int64_t)PLACES * w->of->span_count);
    trivet__bytes_text(w->bytes, "\" NumberOfCells=\"");
    trivet__bytes_whole(w->bytes, (int64_t)PIECES * w->of->span_count);
    trivet__bytes_text(w->bytes, "\">\n");
    write_points(w);
    write_cells(w);
    write_point_data(w);
    write_cell_data(w);
    trivet__bytes_text(w->bytes, "</Piece>\n</UnstructuredGrid>\n</VTKFile>\n");
}

trivet_status trivet_export_vtu(const trivet_frame *frame, const trivet_result *result,
                                const trivet_checks *checks, char **bytes_out, size_t *length_out,
                                trivet_message *message)
{
    trivet__handed handed;
    trivet__bytes bytes = {0};
    trivet_status status =
        trivet__handed_check(frame, result, checks, bytes_out, length_out, &handed, message);
    if (status != TRIVET_OK) {
        return status;
    }
    vtu_writing w = {&handed, &bytes, TRIVET_OK};
    write_all(&w);
    if (w.status != TRIVET_OK) {
        trivet__bytes_free(&bytes);
        return w.status;
    }
    return trivet__bytes_hand_out(&bytes, bytes_out, length_out, message);
}
