/*
 * Greedy placement: every label tries eight sides of its anchors in rings that grow, takes none
 * that would stand on another label, and among the others the one with the least cost: length of
 * lines underneath, and distance. Who comes first has the first choice.
 */
#include "report/labels.h"

#include "base/memory.h"

#include <math.h>

/* How far labels may go from what they name, in steps, mm. */
static const double RINGS[] = {0.0, 1.5, 3.5, 6.0, 9.0, 13.0, 18.0};
enum { RING_COUNT = (int)(sizeof RINGS / sizeof RINGS[0]), SIDE_COUNT = 8 };

/* A mm away from its anchor costs as much as standing on this much of a line of weight 1, mm. */
#define COST_OF_DISTANCE 0.9
/* Kept free between two labels, mm. */
#define BETWEEN 0.35

void trivet__labels_take(trivet__labels *labels, const trivet__box *box)
{
    void *list = labels->boxes;
    if (trivet__make_room(&list, labels->box_count, &labels->box_room, sizeof *labels->boxes)) {
        labels->boxes = list;
        labels->boxes[labels->box_count++] = *box;
    } else {
        labels->is_broken = 1;
    }
}

void trivet__labels_avoid(trivet__labels *labels, const double from[2], const double to[2],
                          double weight)
{
    void *list = labels->segments;
    if (trivet__make_room(&list, labels->segment_count, &labels->segment_room,
                          sizeof *labels->segments)) {
        labels->segments = list;
        labels->segments[labels->segment_count++] =
            (trivet__segment){{from[0], from[1]}, {to[0], to[1]}, weight};
    } else {
        labels->is_broken = 1;
    }
}

/* Narrows [*first, *last] to where start + t * step lies between low and high. */
static void clip(double start, double step, double low, double high, double *first, double *last)
{
    if (fabs(step) < 1e-12) {
        if (start < low || start > high) {
            *last = -1.0;
        }
        return;
    }
    const double a = (low - start) / step;
    const double b = (high - start) / step;
    *first = fmax(*first, fmin(a, b));
    *last = fmin(*last, fmax(a, b));
}

/* Length of a segment inside a box, mm (Liang and Barsky 1984). */
static double length_inside(const trivet__segment *segment, const trivet__box *box)
{
    double first = 0.0;
    double last = 1.0;
    const double dx = segment->to[0] - segment->from[0];
    const double dy = segment->to[1] - segment->from[1];
    clip(segment->from[0], dx, box->left, box->right, &first, &last);
    clip(segment->from[1], dy, box->top, box->bottom, &first, &last);
    return last > first ? (last - first) * hypot(dx, dy) : 0.0;
}

/* What it costs to put a label there; infinite where it must not stand. */
static double cost_of(const trivet__labels *labels, const trivet__box *box, double away)
{
    const trivet__box *const within = &labels->within;
    double cost = COST_OF_DISTANCE * away;
    if (!(box->left >= within->left && box->right <= within->right && box->top >= within->top &&
          box->bottom <= within->bottom)) {
        return HUGE_VAL;
    }
    const trivet__box wide = {box->left - BETWEEN, box->top - BETWEEN, box->right + BETWEEN,
                              box->bottom + BETWEEN};
    for (size_t i = 0; i < labels->box_count; i++) {
        if (trivet__boxes_meet(&wide, &labels->boxes[i])) {
            return HUGE_VAL;
        }
    }
    for (size_t i = 0; i < labels->segment_count; i++) {
        cost += labels->segments[i].weight * length_inside(&labels->segments[i], box);
    }
    return cost;
}

/* The box on one side of an anchor: above, below, right, left, then the four corners. */
static trivet__box box_beside(const double anchor[2], int side, double width, double height,
                              double away)
{
    static const double SIDES[SIDE_COUNT][2] = {{0.0, -1.0}, {0.0, 1.0}, {1.0, 0.0},   {-1.0, 0.0},
                                                {1.0, -1.0}, {1.0, 1.0}, {-1.0, -1.0}, {-1.0, 1.0}};
    const double slant = side < 4 ? 1.0 : 0.7071;
    const double x = anchor[0] + SIDES[side][0] * (0.5 * width + away * slant);
    const double y = anchor[1] + SIDES[side][1] * (0.5 * height + away * slant);
    return (trivet__box){x - 0.5 * width, y - 0.5 * height, x + 0.5 * width, y + 0.5 * height};
}

int trivet__labels_place(trivet__labels *labels, double (*anchors)[2], int count, double width,
                         double height, double gap, trivet__box *box_out)
{
    double least = HUGE_VAL;
    int best = -1;
    for (int a = 0; a < count; a++) {
        for (int ring = 0; ring < RING_COUNT; ring++) {
            /* The first anchors are the better ones. */
            const double away = gap + RINGS[ring];
            const double base = RINGS[ring] + 0.4 * a;
            if (COST_OF_DISTANCE * base >= least) {
                break;
            }
            for (int side = 0; side < SIDE_COUNT; side++) {
                const trivet__box box = box_beside(anchors[a], side, width, height, away);
                const double cost = cost_of(labels, &box, base + 0.05 * side);
                if (cost < least) {
                    least = cost;
                    best = a;
                    *box_out = box;
                }
            }
        }
    }
    if (best >= 0) {
        trivet__labels_take(labels, box_out);
    }
    return labels->is_broken ? -1 : best;
}

void trivet__labels_clear(trivet__labels *labels)
{
    trivet__give_back(labels->boxes);
    trivet__give_back(labels->segments);
    *labels = (trivet__labels){.within = labels->within};
}
