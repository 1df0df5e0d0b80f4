/*
 * Frames to measure: racks like ladders, two rails, a rung at every station, the first station
 * clamped, every fifth one on springs. Twelve equations a station behind the first, reach 17.
 * Variants differ in sizes and loads, not in topology.
 */
#ifndef TRIVET_BENCHMARKS_LADDER_H
#define TRIVET_BENCHMARKS_LADDER_H

#include <trivet/trivet.h>

enum { SPRUNG_EVERY = 5 };

/* N/m, of each sprung mount, up and down. */
#define LADDER_SPRING 1e6

/* Cases in turn: weight, a push on every third joint, a line load on every second rung. */
enum { WEIGHT = 0, PUSH = 1, LINE = 2, KINDS = 3, PUSHED_EVERY = 3, LOADED_EVERY = 2 };

/* Weights: parts of gravity. Pushes: N. Lines: N/m, world axes, over the whole rung. */
void ladder_load(int32_t in_case, double load[3]);

/*
 * The frame of a variant: joints by pairs along the rails, two rails from end to end, a rung at
 * each station. Fillets at all ends, strengths and limits of mounts, so that it can be checked.
 */
trivet_frame *ladder_frame(int stations, int32_t cases, int variant);

/* Ends the program with a message unless all is well; memory that must be there, zeroed. */
void stop_unless(trivet_status status, const trivet_message *message);
void *take(size_t count, size_t size);

#endif
