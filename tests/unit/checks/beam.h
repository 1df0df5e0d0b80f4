/*
 * Beams along world x, so small that their answers stand in any handbook.
 */
#ifndef TRIVET_TESTS_BEAM_H
#define TRIVET_TESTS_BEAM_H

#include "support/frames.h"
#include "trivet/checks.h"

/* A frame on its way from parts to checks; any call that fails ends the test. */
typedef struct beam {
    trivet_frame *frame;
    trivet_result *result;
    trivet_checks *checks;
    trivet_limits limits; /* the defaults, to be changed before beam_check */
} beam;

beam beam_new(void);
void beam_free(beam *of);

/* E = 210 GPa, G = 81 GPa, no weight worth speaking of. Pa. */
trivet_material beam_material(double yield, double welded_yield);

int32_t beam_stock(beam *of, const char *name, trivet_profile profile, trivet_material material);
int32_t beam_tube(beam *of, const char *name, int32_t stock, int32_t first, int32_t last);
int32_t beam_tube_of_three(beam *of, const char *name, int32_t stock, int32_t first, int32_t middle,
                           int32_t last);
/* A case without gravity. */
int32_t beam_case(beam *of, const char *name);
void beam_force(beam *of, int32_t in_case, int32_t joint, double x, double y, double z);
void beam_moment(beam *of, int32_t in_case, int32_t joint, double x, double y, double z);
/* Downward line load on a whole tube, N/m. */
void beam_line(beam *of, int32_t in_case, int32_t tube, double down);

/* Solves and checks. */
void beam_check(beam *of);

/* The only check of a kind at a place in a case; ends the test if there is none. */
trivet_check beam_find(const beam *of, const char *check, const char *where, const char *in_case);
/* Why something was not checked; NULL if it is not listed. */
const char *beam_omission(const beam *of, const char *what);

/*
 * A cantilever along x from A, clamped, to B, with a tube "rail" and a case "push" with a force of
 * down N at B. length in m.
 */
beam beam_cantilever(trivet_profile profile, double yield, double length, double down);

/* A beam along x from A to B, free to turn at both, with a tube "rail", number 0, and no case. */
beam beam_on_two_mounts(trivet_profile profile, double yield, double length);

#endif
