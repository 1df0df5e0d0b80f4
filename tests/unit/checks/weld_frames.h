/*
 * Small frames with a weld, in code; sharp tube, so that sums are easy by hand.
 */
#ifndef TRIVET_TESTS_WELD_FRAMES_H
#define TRIVET_TESTS_WELD_FRAMES_H

#include "beam.h"

/* The solver's residual leaves ten digits. */
#define SOLVED 1e-9

/* Joints of a tee. */
enum { A = 0, B = 1, C = 2, D = 3 };

trivet_profile sharp_tube(double width, double wall);

/* Pa; NaN: not known. */
trivet_material steel(double tensile);

/* All round; throat in m, 0: from the wall. */
trivet_weld fillet(double throat);

void weld_end(beam *of, int32_t tube, int32_t joint, trivet_weld weld);

/* A tube "rail" along x from A, clamped, to B; tensile strength 360 N/mm^2; a case without load. */
beam cantilever(trivet_profile profile, double length);

/*
 * A rail A-B-C, clamped at both ends, and a post between B and D, from first to last; 25 mm sharp,
 * walls 2 mm, tensile strength 360 N/mm^2.
 */
beam tee_from(double x, double z, int32_t first, int32_t last);

/* The same from B to D. */
beam tee(double x, double z);

/*
 * A rail as in tee_from, but with walls of 1.5 mm; a post up from B of other stock, welded there,
 * pulled up by 1000 N.
 */
beam pulled_post(trivet_profile post, trivet_material material, trivet_weld weld);

/* Holds every line of the working of a weld in case "push" against its formula. */
void follow_weld(const beam *of, const char *tube);

#endif
