/*
 * Tubes as bodies, painted from the farthest to the nearest (the painter's algorithm), span by
 * span. Where tubes meet at an end, the drawn body is cut back to the other's face or, of two that
 * end in a corner, the first runs to the other's far face: for the eye alone.
 */
#include "report/body.h"
#include "report/picture.h"

#include "base/memory.h"
#include "base/text.h"
#include "base/vec3.h"

#include <math.h>
#include <string.h>

enum { RIM_POINTS = 20 };

/* No tube is drawn thinner than this, mm. */
#define THINNEST 0.7

typedef struct painted {
    int32_t span;
    double nearness;
} painted;

/* Shell's sort (1959), nearest last; equal ones stay in order of their numbers. */
static void sort_by_nearness(painted *list, int32_t count)
{
    for (int32_t gap = count / 2; gap > 0; gap /= 2) {
        for (int32_t i = gap; i < count; i++) {
            const painted one = list[i];
            int32_t k = i;
            while (k >= gap &&
                   (list[k - gap].nearness > one.nearness ||
                    (list[k - gap].nearness == one.nearness && list[k - gap].span > one.span))) {
                list[k] = list[k - gap];
                k -= gap;
            }
            list[k] = one;
        }
    }
}

/* Whether a tube goes through a joint, and whether it runs on there. */
static int meets(const trivet_frame *frame, int32_t tube, int32_t joint, int *runs_on)
{
    int32_t count = 0;
    const int32_t *const joints = trivet_frame_tube_joints(frame, tube, &count);
    for (int32_t i = 0; i < count; i++) {
        if (joints[i] == joint) {
            *runs_on = i > 0 && i < count - 1;
            return 1;
        }
    }
    return 0;
}

/* How far the drawn body goes beyond its end at a joint, m; below 0 it is cut back. */
static double reach_beyond(const trivet__sheet *sheet, const trivet__body *body, int32_t joint)
{
    for (int32_t other = 0; other < trivet_frame_count(sheet->frame, TRIVET_KIND_TUBE); other++) {
        int runs_on = 0;
        trivet__body there;
        if (other == body->span.tube || !meets(sheet->frame, other, joint, &runs_on) ||
            !trivet__body_find(sheet->frame, sheet->result,
                               trivet_result_tube_spans(sheet->result, other, NULL), &there)) {
            continue;
        }
        if (fabs(trivet__dot3(there.span.axes, body->span.axes)) < 0.95) {
            const double half = trivet__body_half(&there, body->span.axes);
            return runs_on || other < body->span.tube ? -half : half;
        }
    }
    return 0.0;
}

static void trim(const trivet__sheet *sheet, trivet__body *body)
{
    const double most = 0.45 * body->span.length;
    if (body->begins) {
        const double beyond = reach_beyond(sheet, body, body->span.first_joint);
        trivet__add3(body->from, -fmax(beyond, -most), body->span.axes);
    }
    if (body->ends) {
        const double beyond = reach_beyond(sheet, body, body->span.last_joint);
        trivet__add3(body->to, fmax(beyond, -most), body->span.axes);
    }
}

/* A point of the outline at one end, on paper. */
static void outline_point(const trivet__view *view, const trivet__body *body, const double end[3],
                          double y, double z, double out[2])
{
    double point[3] = {end[0], end[1], end[2]};
    trivet__add3(point, y * body->half_width, body->span.axes + 3);
    trivet__add3(point, z * body->half_height, body->span.axes + 6);
    trivet__view_point(view, point, out);
}

/* A face; those that do not look up are shaded, over a pattern with a second, sheer one. */
static void fill(trivet__sheet *sheet, const char *paint, double (*points)[2], int count,
                 int is_shaded)
{
    const int is_pattern = paint[0] != '\0';
    const char *const first = is_pattern ? paint : is_shaded ? "#e4e4e4" : "#fbfbfb";
    for (int layer = 0; layer < (is_pattern && is_shaded ? 2 : 1); layer++) {
        trivet__write(sheet->out, "<polygon class='%r' fill='%r' points='",
                      layer > 0 ? "under shade" : "under", layer > 0 ? "#000" : first);
        for (int i = 0; i < count; i++) {
            trivet__write(sheet->out, i > 0 ? " %n,%n" : "%n,%n", points[i][0], points[i][1]);
        }
        trivet__write(sheet->out, "'/>");
    }
}

static void draw_cap(trivet__sheet *sheet, const trivet__view *view, const trivet__body *body,
                     int is_last, const char *paint)
{
    static const double CORNERS[4][2] = {{1, 1}, {1, -1}, {-1, -1}, {-1, 1}};
    double points[RIM_POINTS][2];
    const int count = body->is_round ? RIM_POINTS : 4;
    for (int i = 0; i < count; i++) {
        const double turn = 2.0 * 3.14159265358979323846 * i / RIM_POINTS;
        outline_point(view, body, is_last ? body->to : body->from,
                      body->is_round ? cos(turn) : CORNERS[i][0],
                      body->is_round ? sin(turn) : CORNERS[i][1], points[i]);
    }
    fill(sheet, paint, points, count, 1);
    if (is_last ? body->ends : body->begins) {
        trivet__sheet_polygon(sheet, "outline", points, count);
    }
}

/* The two long edges of a face. */
static void draw_edges(trivet__sheet *sheet, double face[4][2])
{
    trivet__sheet_line(sheet, "axis", face[0], face[1]);
    trivet__sheet_line(sheet, "axis", face[3], face[2]);
}

static void draw_flat_sides(trivet__sheet *sheet, const trivet__view *view,
                            const trivet__body *body, const char *paint)
{
    for (int side = 0; side < 4; side++) {
        const int is_z = side >= 2;
        const double way = side % 2 == 0 ? 1.0 : -1.0;
        const double *const normal = body->span.axes + (is_z ? 6 : 3);
        double face[4][2];
        if (way * trivet__dot3(normal, view->toward) < 1e-6) {
            continue;
        }
        for (int i = 0; i < 4; i++) {
            const double across = i < 2 ? -1.0 : 1.0;
            outline_point(view, body, i == 0 || i == 3 ? body->from : body->to, is_z ? across : way,
                          is_z ? way : across, face[i]);
        }
        fill(sheet, paint, face, 4, way * normal[2] < 0.5);
        draw_edges(sheet, face);
    }
}

static void draw_round_side(trivet__sheet *sheet, const trivet__view *view,
                            const trivet__body *body, const char *paint)
{
    double ends[2][2];
    double face[4][2];
    trivet__view_point(view, body->from, ends[0]);
    trivet__view_point(view, body->to, ends[1]);
    const double length = hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]);
    if (length < 1e-6) {
        return;
    }
    const double half = body->half_width * view->scale / length;
    const double across[2] = {-(ends[1][1] - ends[0][1]) * half, (ends[1][0] - ends[0][0]) * half};
    for (int k = 0; k < 2; k++) {
        face[0][k] = ends[0][k] - across[k];
        face[1][k] = ends[1][k] - across[k];
        face[2][k] = ends[1][k] + across[k];
        face[3][k] = ends[0][k] + across[k];
    }
    fill(sheet, paint, face, 4, 0);
    draw_edges(sheet, face);
}

static void draw_body(trivet__sheet *sheet, const trivet__view *view, trivet__body *body,
                      int shows_use)
{
    char paint[40] = "";
    char used[64] = "not checked";
    const trivet__use *const use = &sheet->uses[body->span.tube];
    const int last_is_near = trivet__dot3(body->span.axes, view->toward) > 0.0;
    const double least = 0.5 * THINNEST / view->scale;
    body->half_width = fmax(body->half_width, least);
    body->half_height = fmax(body->half_height, least);
    if (shows_use) {
        trivet__text_print(paint, sizeof paint, "url(#%s-u%d)", sheet->mark, (int)use->class_of);
    }
    if (use->check >= 0) {
        trivet_used_text(use->used, used, sizeof used);
    }
    const char *const tube = trivet_frame_name(sheet->frame, TRIVET_KIND_TUBE, body->span.tube);
    trivet__write(sheet->out, "<g class='tube' data-name='%e'>", tube);
    if (shows_use) {
        trivet__write(sheet->out, "<title>%b, used: %e</title>", tube, used);
    }
    draw_cap(sheet, view, body, !last_is_near, paint);
    if (body->is_round) {
        draw_round_side(sheet, view, body, paint);
    } else {
        draw_flat_sides(sheet, view, body, paint);
    }
    draw_cap(sheet, view, body, last_is_near, paint);
    trivet__write(sheet->out, "</g>");
}

/* Labels had better not stand on a tube, least of all across its edges. */
static void keep_labels_off(trivet__sheet *sheet, const trivet__view *view,
                            const trivet__body *body)
{
    double ends[2][2];
    double across[3];
    trivet__view_point(view, body->from, ends[0]);
    trivet__view_point(view, body->to, ends[1]);
    const double length = hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]);
    if (length < 1e-6) {
        return;
    }
    for (int k = 0; k < 3; k++) {
        across[k] =
            (view->right[k] * (ends[1][1] - ends[0][1]) + view->up[k] * (ends[1][0] - ends[0][0])) /
            length;
    }
    const double half = view->scale * trivet__body_half(body, across) / length;
    for (int side = -1; side <= 1; side++) {
        const double dx = -side * half * (ends[1][1] - ends[0][1]);
        const double dy = side * half * (ends[1][0] - ends[0][0]);
        const double from[2] = {ends[0][0] + dx, ends[0][1] + dy};
        const double to[2] = {ends[1][0] + dx, ends[1][1] + dy};
        trivet__labels_avoid(&sheet->labels, from, to, side == 0 ? 0.8 : 1.5);
    }
}

trivet_status trivet__draw_tubes(trivet__sheet *sheet, const trivet__view *view, int shows_use)
{
    const int32_t count = trivet_result_span_count(sheet->result);
    painted *const order = trivet__take((size_t)count, sizeof *order);
    trivet__body body;
    if (!order) {
        return TRIVET_NO_MEMORY;
    }
    for (int32_t i = 0; i < count; i++) {
        order[i].span = i;
        if (trivet__body_find(sheet->frame, sheet->result, i, &body)) {
            order[i].nearness = 0.5 * (trivet__view_nearness(view, body.from) +
                                       trivet__view_nearness(view, body.to));
        }
    }
    sort_by_nearness(order, count);
    for (int32_t i = 0; i < count; i++) {
        if (trivet__body_find(sheet->frame, sheet->result, order[i].span, &body)) {
            keep_labels_off(sheet, view, &body);
            trim(sheet, &body);
            draw_body(sheet, view, &body, shows_use);
        }
    }
    trivet__give_back(order);
    return TRIVET_OK;
}
