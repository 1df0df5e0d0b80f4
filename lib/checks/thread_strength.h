/*
 * What a thread stands before it is stripped, with the numbers in between for the working.
 */
#ifndef TRIVET_CHECKS_THREAD_STRENGTH_H
#define TRIVET_CHECKS_THREAD_STRENGTH_H

#include "checks/bolt_parts.h"

/* Shear strength over tensile strength: common practice; VDI 2230 has 0.6 to 0.65 (from memory). */
#define TRIVET__THREAD_SHEAR 0.6

/* Whole turns that a thread in sheet or tube wall must have at least: common practice. */
#define TRIVET__TURNS_LEAST 3.0

/*
 * Area of the screw's thread, or of the hole's, that is sheared when it strips over engagement m;
 * m^2. From the limits of size at which they overlap least.
 */
double trivet__screw_thread_area(const trivet_thread *thread, double engagement);
double trivet__hole_thread_area(const trivet_thread *thread, double engagement);

/* Force that shears area m^2 of a material of tensile strength Pa, N. */
double trivet__strip_force(double area, double tensile);

/* m of thread that it takes for the screw to break first, in a hole as strong as the screw. */
double trivet__equal_engagement(const trivet_thread *thread);

/* The same in a hole of another tensile strength, Pa: longer if the hole's thread is weaker. */
double trivet__needed_engagement(const trivet_thread *thread, double screw_tensile,
                                 double hole_tensile);

/* A thread cut into material: lengths in m, areas in m^2, strengths in Pa, forces in N. */
typedef struct trivet__stripping {
    trivet_thread thread;
    const char *source;  /* of the hole's material; owned by the frame */
    int32_t is_softened; /* the hole's material counts as it is beside a weld */
    double engagement;
    double screw_tensile;
    double hole_tensile; /* NaN: not known */
    double screw_area;
    double hole_area;
    double screw_stands;
    double hole_stands;
    double needed; /* engagement for the screw to break first */
} trivet__stripping;

/* bolts->into must be a thread cut into stock: tapped or wall. */
void trivet__stripping_find(const trivet_frame *frame, const trivet_bolts *bolts,
                            trivet__stripping *stripping_out);

/* Whether the thread is cut into stock, not in a nut of any kind. */
int trivet__is_cut(const trivet_bolts *bolts);

/* The plug or spot welds of an insert. */
typedef struct trivet__fixing {
    int32_t is_there;   /* the screw sits in a piece that is slid or welded into a tube */
    const char *source; /* of the weaker material */
    double tensile;     /* Pa, of the weaker of insert and tube, beside the weld */
    double wall;        /* m, of the tube; NaN if not known */
    double stands;      /* N; NaN: cannot be told */
} trivet__fixing;

void trivet__fixing_find(const trivet_frame *frame, const trivet_bolts *bolts,
                         trivet__fixing *fixing_out);

#endif
