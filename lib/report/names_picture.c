/*
 * Names on a picture: cargo first, then joints, mounts before the others, then tubes. On a large
 * frame only what matters most gets a name, so that what is written can be read.
 */
#include "report/body.h"
#include "report/picture.h"

#include "base/memory.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum {
    JOINTS_MOST = 60, /* a frame with more joints has names at mounts alone */
    TUBES_MOST = 40,  /* of more tubes the most used get names */
    ANCHORS = 8,
    TEXT_MAX = 400
};

/* Points that fall together on paper, mm. */
#define TOGETHER 0.8

static int is_mount(const trivet__sheet *sheet, int32_t joint)
{
    for (int32_t m = 0; m < trivet_frame_count(sheet->frame, TRIVET_KIND_MOUNT); m++) {
        trivet_mount mount = {.size = sizeof mount};
        if (trivet_frame_mount(sheet->frame, m, &mount) == TRIVET_OK && mount.joint == joint) {
            return 1;
        }
    }
    return 0;
}

static void name_cargo(trivet__sheet *sheet, const trivet__view *view)
{
    for (int32_t c = 0; c < trivet_frame_count(sheet->frame, TRIVET_KIND_CARGO); c++) {
        trivet_cargo cargo = {.size = sizeof cargo};
        char amount[64];
        char more[80];
        double at[1][2];
        if (trivet_frame_cargo(sheet->frame, c, &cargo) == TRIVET_OK) {
            trivet__view_point(view, cargo.centre, at[0]);
            trivet_units_text(sheet->units, TRIVET_MASS, cargo.mass, 3, amount, sizeof amount);
            trivet__text_print(more, sizeof more, " %s", amount);
            trivet__sheet_label(sheet, "cargo-name", at, 1,
                                trivet_frame_name(sheet->frame, TRIVET_KIND_CARGO, c), more);
        }
    }
}

static int fall_together(const double one[2], const double other[2])
{
    return hypot(one[0] - other[0], one[1] - other[1]) < TOGETHER;
}

/* One label for a joint and all others at the same place, those nearer to the eye first. */
static void name_place(trivet__sheet *sheet, const trivet__view *view, int32_t joint,
                       unsigned char *is_named)
{
    const int32_t count = trivet_frame_count(sheet->frame, TRIVET_KIND_JOINT);
    char names[TEXT_MAX] = "";
    double at[1][2];
    int has_mount = 0;
    trivet__view_point(view, trivet_frame_position(sheet->frame, joint), at[0]);
    for (;;) {
        int32_t next = -1;
        double nearest = -HUGE_VAL;
        for (int32_t j = 0; j < count; j++) {
            double there[2];
            const double *const position = trivet_frame_position(sheet->frame, j);
            trivet__view_point(view, position, there);
            const double nearness = trivet__view_nearness(view, position);
            if (!is_named[j] && fall_together(at[0], there) && nearness > nearest) {
                next = j;
                nearest = nearness;
            }
        }
        if (next < 0) {
            break;
        }
        is_named[next] = 1;
        has_mount = has_mount || is_mount(sheet, next);
        const size_t used = strlen(names);
        trivet__text_print(names + used, sizeof names - used, "%s%s", used ? "\n" : "",
                           trivet_frame_name(sheet->frame, TRIVET_KIND_JOINT, next));
    }
    trivet__sheet_label(sheet, has_mount ? "joint-name at-mount" : "joint-name", at, 1, names, "");
}

static void name_joints(trivet__sheet *sheet, const trivet__view *view)
{
    const int32_t count = trivet_frame_count(sheet->frame, TRIVET_KIND_JOINT);
    unsigned char *const is_named = trivet__take((size_t)count, 1);
    if (!is_named) {
        sheet->out->is_broken = 1;
        return;
    }
    for (int pass = 0; pass < 2; pass++) {
        for (int32_t j = 0; j < count; j++) {
            if (is_named[j] || (pass == 0 && !is_mount(sheet, j))) {
                continue;
            }
            if (pass == 1 && count > JOINTS_MOST) {
                sheet->left_out++;
            } else {
                name_place(sheet, view, j, is_named);
            }
        }
    }
    trivet__give_back(is_named);
}

/* Places along a tube where its name may hang, the middles of its spans first. */
static int tube_anchors(const trivet__sheet *sheet, const trivet__view *view, int32_t tube,
                        double anchors[ANCHORS][2])
{
    static const double SHARES[] = {0.5, 0.3, 0.7};
    int32_t span_count = 0;
    int count = 0;
    const int32_t first = trivet_result_tube_spans(sheet->result, tube, &span_count);
    for (int i = 0; i < 3; i++) {
        for (int32_t s = span_count - 1; s >= 0 && count < ANCHORS; s--) {
            trivet__body body;
            double point[3];
            if (!trivet__body_find(sheet->frame, sheet->result, first + s, &body)) {
                continue;
            }
            for (int k = 0; k < 3; k++) {
                point[k] = body.from[k] + SHARES[i] * (body.to[k] - body.from[k]);
            }
            trivet__view_point(view, point, anchors[count++]);
        }
    }
    return count;
}

static void name_tube(trivet__sheet *sheet, const trivet__view *view, int32_t tube)
{
    double anchors[ANCHORS][2];
    char used[64] = "";
    char more[80] = "";
    if (sheet->uses[tube].check >= 0) {
        trivet_used_text(sheet->uses[tube].used, used, sizeof used);
        trivet__text_print(more, sizeof more, " %s", used);
    }
    const int count = tube_anchors(sheet, view, tube, anchors);
    if (count > 0) {
        trivet__sheet_label(sheet, "tube-name", anchors, count,
                            trivet_frame_name(sheet->frame, TRIVET_KIND_TUBE, tube), more);
    }
}

/* How many tubes are used more than this one. */
static int32_t rank_of(const trivet__sheet *sheet, int32_t count, int32_t tube)
{
    int32_t rank = 0;
    for (int32_t i = 0; i < count; i++) {
        rank += sheet->uses[i].used > sheet->uses[tube].used ||
                (sheet->uses[i].used == sheet->uses[tube].used && i < tube);
    }
    return rank;
}

static void name_tubes(trivet__sheet *sheet, const trivet__view *view)
{
    const int32_t count = trivet_frame_count(sheet->frame, TRIVET_KIND_TUBE);
    for (int32_t i = 0; i < count; i++) {
        if (count > TUBES_MOST && rank_of(sheet, count, i) >= TUBES_MOST) {
            sheet->left_out++;
        } else {
            name_tube(sheet, view, i);
        }
    }
}

void trivet__draw_names(trivet__sheet *sheet, const trivet__view *view, int shows)
{
    name_cargo(sheet, view);
    name_joints(sheet, view);
    if (shows & TRIVET__SHOW_TUBE_NAMES) {
        name_tubes(sheet, view);
    }
}
