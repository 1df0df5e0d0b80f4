/*
 * What stands at joints: the drooped shape that runs through them, mounts, cargo.
 */
#include "report/body.h"
#include "report/picture.h"

#include "base/vec3.h"

#include <math.h>

enum { PIECES = 12 }; /* straight pieces that draw a bent span */

/* The largest movement is drawn as about this share of the frame's size. */
#define SHOWN 0.085
/* Below this nothing moves, m. */
#define STILL 1e-12

/* Size of the symbols, half of it, mm. */
#define SYMBOL 1.25
#define DOT 0.55

static double frame_size(const trivet_frame *frame)
{
    double low[3] = {HUGE_VAL, HUGE_VAL, HUGE_VAL};
    double high[3] = {-HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
    double size[3];
    for (int32_t i = 0; i < trivet_frame_count(frame, TRIVET_KIND_JOINT); i++) {
        const double *const at = trivet_frame_position(frame, i);
        for (int k = 0; k < 3; k++) {
            low[k] = fmin(low[k], at[k]);
            high[k] = fmax(high[k], at[k]);
        }
    }
    trivet__minus3(high, low, size);
    return trivet__length3(size);
}

double trivet__magnify(const trivet_frame *frame, const trivet_result *result, int32_t in_case)
{
    double most = 0.0;
    for (int32_t s = 0; s < trivet_result_span_count(result); s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(result, s, &span) != TRIVET_OK) {
            continue;
        }
        for (int i = 0; i <= PIECES; i++) {
            double move[6];
            if (trivet_result_at(result, in_case, s, span.length * i / PIECES, NULL, move) ==
                TRIVET_OK) {
                most = fmax(most, trivet__length3(move));
            }
        }
    }
    const double factor = most > STILL ? trivet__round_down(SHOWN * frame_size(frame) / most) : 1.0;
    return factor > 1e6 ? 1.0 : fmax(factor, 1.0);
}

/* Where a place on a span is drawn in the drooped shape. */
static void moved_point(const trivet__sheet *sheet, const trivet__body *body, int32_t span,
                        double share, double out[3])
{
    double move[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (int k = 0; k < 3; k++) {
        out[k] = body->from[k] + share * (body->to[k] - body->from[k]);
    }
    if (trivet_result_at(sheet->result, sheet->in_case, span, share * body->span.length, NULL,
                         move) == TRIVET_OK) {
        trivet__add3(out, sheet->magnified, move);
    }
}

static void draw_bent_span(trivet__sheet *sheet, const trivet__view *view, int32_t span)
{
    trivet__body body;
    double before[2] = {0.0, 0.0};
    if (!trivet__body_find(sheet->frame, sheet->result, span, &body)) {
        return;
    }
    trivet__write(sheet->out, "<polyline class='droop' data-tube='%e' points='",
                  trivet_frame_name(sheet->frame, TRIVET_KIND_TUBE, body.span.tube));
    for (int i = 0; i <= PIECES; i++) {
        double point[3];
        double paper[2];
        moved_point(sheet, &body, span, (double)i / PIECES, point);
        trivet__view_point(view, point, paper);
        trivet__write(sheet->out, i == 0 ? "%n,%n" : " %n,%n", paper[0], paper[1]);
        if (i > 0 && i % 3 == 0) {
            trivet__labels_avoid(&sheet->labels, before, paper, 0.5);
        }
        if (i % 3 == 0) {
            before[0] = paper[0];
            before[1] = paper[1];
        }
    }
    trivet__write(sheet->out, "'/>");
}

void trivet__draw_droop(trivet__sheet *sheet, const trivet__view *view)
{
    int32_t joint_count = 0;
    const double *const moves = trivet_result_moves(sheet->result, NULL, &joint_count);
    for (int32_t s = 0; s < trivet_result_span_count(sheet->result); s++) {
        draw_bent_span(sheet, view, s);
    }
    for (int32_t j = 0; j < joint_count; j++) {
        const double *const at = trivet_frame_position(sheet->frame, j);
        double point[3] = {at[0], at[1], at[2]};
        double paper[2];
        trivet__add3(point, sheet->magnified,
                     moves + 6 * ((size_t)sheet->in_case * (size_t)joint_count + (size_t)j));
        trivet__view_point(view, point, paper);
        trivet__write(sheet->out, "<circle class='moved' data-joint='%e' cx='%n' cy='%n' r='%n'/>",
                      trivet_frame_name(sheet->frame, TRIVET_KIND_JOINT, j), paper[0], paper[1],
                      0.55);
    }
}

/* A square where nothing can turn, a triangle where it can; open where it gives. */
static void draw_mount(trivet__sheet *sheet, const trivet_mount *mount, const double at[2])
{
    const double a = SYMBOL;
    double square[4][2] = {{at[0] - a, at[1] - a},
                           {at[0] + a, at[1] - a},
                           {at[0] + a, at[1] + a},
                           {at[0] - a, at[1] + a}};
    double triangle[3][2] = {
        {at[0], at[1] - 1.1 * a}, {at[0] + 1.2 * a, at[1] + a}, {at[0] - 1.2 * a, at[1] + a}};
    int gives = 0;
    for (int d = 0; d < 6; d++) {
        gives = gives || mount->spring[d] > 0.0;
    }
    const int is_clamped =
        (mount->held & (TRIVET_RX | TRIVET_RY | TRIVET_RZ)) == (TRIVET_RX | TRIVET_RY | TRIVET_RZ);
    const char *const kind = gives ? "mount-open" : "mount";
    if (is_clamped) {
        trivet__sheet_polygon(sheet, kind, square, 4);
    } else {
        trivet__sheet_polygon(sheet, kind, triangle, 3);
    }
}

void trivet__draw_joints(trivet__sheet *sheet, const trivet__view *view)
{
    for (int32_t m = 0; m < trivet_frame_count(sheet->frame, TRIVET_KIND_MOUNT); m++) {
        trivet_mount mount = {.size = sizeof mount};
        double paper[2];
        if (trivet_frame_mount(sheet->frame, m, &mount) == TRIVET_OK) {
            trivet__view_point(view, trivet_frame_position(sheet->frame, mount.joint), paper);
            draw_mount(sheet, &mount, paper);
            const trivet__box taken = {paper[0] - SYMBOL, paper[1] - SYMBOL, paper[0] + SYMBOL,
                                       paper[1] + SYMBOL};
            trivet__labels_take(&sheet->labels, &taken);
        }
    }
    for (int32_t j = 0; j < trivet_frame_count(sheet->frame, TRIVET_KIND_JOINT); j++) {
        double paper[2];
        trivet__view_point(view, trivet_frame_position(sheet->frame, j), paper);
        trivet__write(sheet->out, "<circle class='joint' data-joint='%e' cx='%n' cy='%n' r='%n'/>",
                      trivet_frame_name(sheet->frame, TRIVET_KIND_JOINT, j), paper[0], paper[1],
                      DOT);
    }
}

/* The sign of a centre of gravity: a disc in four quarters, two of them dark. */
static void draw_centre(trivet__sheet *sheet, const char *name, const double at[2])
{
    const double r = 1.7;
    trivet__write(sheet->out,
                  "<g class='centre' data-cargo='%e'><circle class='mount-open' cx='%n' cy='%n' "
                  "r='%n'/><path class='dark' d='M%n %nv%na%n %n 0 0 1 %n %nzM%n %nv%na%n %n 0 0 1 "
                  "%n %nz'/></g>",
                  name, at[0], at[1], r, at[0], at[1], -r, r, r, r, r, at[0], at[1], r, r, r, -r,
                  -r);
    const trivet__box taken = {at[0] - r, at[1] - r, at[0] + r, at[1] + r};
    trivet__labels_take(&sheet->labels, &taken);
}

void trivet__draw_cargo(trivet__sheet *sheet, const trivet__view *view)
{
    for (int32_t c = 0; c < trivet_frame_count(sheet->frame, TRIVET_KIND_CARGO); c++) {
        trivet_cargo cargo = {.size = sizeof cargo};
        double centre[2];
        if (trivet_frame_cargo(sheet->frame, c, &cargo) != TRIVET_OK) {
            continue;
        }
        trivet__view_point(view, cargo.centre, centre);
        for (int32_t k = 0; k < cargo.joint_count; k++) {
            double paper[2];
            trivet__view_point(view, trivet_frame_position(sheet->frame, cargo.joints[k]), paper);
            trivet__sheet_line(sheet, "rests", centre, paper);
            trivet__labels_avoid(&sheet->labels, centre, paper, 0.3);
        }
        draw_centre(sheet, trivet_frame_name(sheet->frame, TRIVET_KIND_CARGO, c), centre);
    }
}

static void hold_point(const trivet__view *view, const double point[3], trivet__box *box)
{
    double paper[2];
    trivet__view_point(view, point, paper);
    trivet__box_hold(box, paper[0], paper[1]);
}

void trivet__hold_frame(const trivet__sheet *sheet, const trivet__view *view, int with_droop,
                        trivet__box *box)
{
    for (int32_t j = 0; j < trivet_frame_count(sheet->frame, TRIVET_KIND_JOINT); j++) {
        hold_point(view, trivet_frame_position(sheet->frame, j), box);
    }
    for (int32_t s = 0; s < trivet_result_span_count(sheet->result); s++) {
        trivet__body body;
        if (!trivet__body_find(sheet->frame, sheet->result, s, &body)) {
            continue;
        }
        const double half = hypot(body.half_width, body.half_height);
        for (int i = 0; i <= PIECES; i++) {
            double point[3];
            moved_point(sheet, &body, s, (double)i / PIECES, point);
            if (with_droop) {
                hold_point(view, point, box);
            }
        }
        for (int corner = 0; corner < 4; corner++) {
            double paper[2];
            trivet__view_point(view, corner < 2 ? body.from : body.to, paper);
            const double off = (corner % 2 == 0 ? half : -half) * view->scale;
            trivet__box_hold(box, paper[0] + off, paper[1] + off);
        }
    }
    for (int32_t c = 0; c < trivet_frame_count(sheet->frame, TRIVET_KIND_CARGO); c++) {
        trivet_cargo cargo = {.size = sizeof cargo};
        if (trivet_frame_cargo(sheet->frame, c, &cargo) == TRIVET_OK) {
            hold_point(view, cargo.centre, box);
        }
    }
}
