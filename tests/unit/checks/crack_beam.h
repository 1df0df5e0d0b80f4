/*
 * Beams that crack, and what to ask of their checks. A square bar of 20 mm has A = 400 mm^2 and
 * W = 20^3 / 6 = 4000/3 mm^3: 10 N m bend it with 7.5 MPa. A million times a category C is stood as
 * C 2^(1/3); the factor is 1.35 unless said.
 */
#ifndef TRIVET_TESTS_CRACK_BEAM_H
#define TRIVET_TESTS_CRACK_BEAM_H

#include "beam.h"

#define DO(call) ck_assert_int_eq((call), TRIVET_OK)

/* Rounding of a solve and of the few operations after it. */
#define ROUNDING 1e-9

/* What category, MPa, allows a million times, Pa. */
double million(double category);

void add_cycles(beam *of, const char *name, int32_t from, int32_t to, double count);
/* Bolts M8 8.8 at the first mount. */
void add_bolts(beam *of, int32_t clamped, int32_t stock, int32_t into);
/* A weld of a trivet_weld_kind, else the defaults. */
trivet_weld weld_of(int32_t kind);
void set_weld(beam *of, int32_t tube, int32_t joint, trivet_weld weld);

/*
 * How many checks of cracking of a subject (NULL: any) there are at a joint of a tube, and the
 * worst of them.
 */
int count_cracks(const beam *of, const char *subject, const char *tube, const char *joint,
                 trivet_check *worst_out);
int cracks_at(const beam *of, const char *tube, const char *joint, trivet_check *worst_out);
/* The only one of a subject at A of the rail; the only one of all at a joint of a tube. */
trivet_check crack_of(const beam *of, const char *subject);
trivet_check crack_at(const beam *of, const char *tube, const char *joint);

/* A cantilever of 0.5 m, welded at A as said, bent by down N at its tip a million times. */
beam bent(trivet_profile profile, double down, const trivet_weld *weld);

/* The nominal stress range of a tube in bending, 20 N at 0.5 m, Pa. */
double nominal_of_tube(trivet_profile profile);

#endif
