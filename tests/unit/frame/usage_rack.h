/*
 * A small rack on which usages are tried, and what they made of it.
 */
#ifndef TRIVET_TESTS_USAGE_RACK_H
#define TRIVET_TESTS_USAGE_RACK_H

#include "frame/frame.h"

/* Joints of the rack by number: front, middle, rear; left, right. F and M have mounts. */
enum { FL, FR, ML, MR, RL, RR };

/* Tubes of the rack by number. */
enum { LEFT_RAIL, RIGHT_RAIL, BACK };

/*
 * Two rails of 500 mm, 320 mm apart, 800 mm above the ground, on four mounts that hold x, y and z,
 * joined at the rear; a box of 10 kg, number 0, with its centre at x = -400, z = 1000 mm, on ML MR
 * RL RR. No case, no vehicle.
 */
trivet_frame *usage_rack(void);

/* 80 kg on the front wheel and 100 kg on the rear. */
void must_set_loads(trivet_frame *frame);

/* The numbers that a kind comes with. */
trivet_usage must_usage(int32_t kind);

/* Adds a usage, which must succeed; how many cases it added. */
int32_t must_add_usage(trivet_frame *frame, const trivet_usage *usage);

/* The case of a name, which must be there. */
const trivet__case *case_of(const trivet_frame *frame, const char *name);

/* Fails unless the gaps of a frame are just one, of this usage and why. */
void has_one_gap(const trivet_frame *frame, const char *what, const char *why);

/* Fails unless a case's story has the words in it. */
void story_has(const trivet_frame *frame, const char *name, const char *words);

#endif
