/*
 * Parallel projection of the frame onto paper, and round numbers for scales.
 */
#ifndef TRIVET_REPORT_PROJECTION_H
#define TRIVET_REPORT_PROJECTION_H

#include <stddef.h>

/* The corner that one looks from: degrees from straight behind towards the left, and above. Our own
 * choice: unequal, so that edges of boxes do not fall onto each other. */
enum { TRIVET__TURN = 33, TRIVET__TILT = 26 };

/* From where one looks. */
typedef enum trivet__look {
    TRIVET__LOOK_LEFT = 0, /* from the left side: forward is to the left, up is up */
    TRIVET__LOOK_BEHIND,   /* from behind: left is left, up is up */
    TRIVET__LOOK_ABOVE,    /* from above: forward is to the left, the left side below */
    TRIVET__LOOK_CORNER    /* from behind, the left and above */
} trivet__look;

/* mm on paper, y down. Axes are of length one, in world axes. */
typedef struct trivet__view {
    double right[3];
    double up[3];
    double toward[3]; /* to the eye */
    double scale;     /* mm on paper for each m */
    double x;         /* where the world's origin lies */
    double y;
} trivet__view;

/* Upright rectangle on paper, mm. Empty: left > right. */
typedef struct trivet__box {
    double left;
    double top;
    double right;
    double bottom;
} trivet__box;

/* The axes of a look; scale and place are left at 0. */
void trivet__view_look(trivet__view *view, trivet__look look);

/* Where a point in m, world axes, lies on paper. */
void trivet__view_point(const trivet__view *view, const double point[3], double paper_out[2]);

/* How far along the line of sight a point lies, m, larger is nearer to the eye. */
double trivet__view_nearness(const trivet__view *view, const double point[3]);

/* A box that holds nothing, and one grown to hold a point. */
trivet__box trivet__box_empty(void);
void trivet__box_hold(trivet__box *box, double x, double y);
int trivet__boxes_meet(const trivet__box *one, const trivet__box *other);

/* The largest of 1, 2, 5, 10, 20 ... (and their parts) that is at most value; 0 unless above 0. */
double trivet__round_down(double value);

/*
 * The largest scale of drawings, mm for each m, that is at most most: reductions 1 : 1, 1.5, 2,
 * 2.5, 3, 4, 5, 6, 8 times powers of ten and enlargements 2, 5, 10 ... : 1; in words "1 : 5".
 */
double trivet__scale_choose(double most, char *words_out, size_t size);

#endif
