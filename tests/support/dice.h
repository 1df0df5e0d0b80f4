/*
 * Random numbers that are the same everywhere for the same seed: xorshift64* (Vigna 2016, "An
 * experimental exploration of Marsaglia's xorshift generators, scrambled"; constants from memory).
 */
#ifndef TRIVET_TESTS_DICE_H
#define TRIVET_TESTS_DICE_H

#include <stdint.h>

typedef struct dice {
    uint64_t state;
} dice;

/* Any seed will do; neighbouring seeds give unrelated numbers. */
dice dice_new(uint64_t seed);

/* Uniform in [low, high). */
double dice_between(dice *d, double low, double high);

/* 0 to count - 1; count at least 1. */
int dice_below(dice *d, int count);

/* Whether something with this probability happens. */
int dice_chance(dice *d, double probability);

/* Three numbers in [-size, size). */
void dice_vector(dice *d, double size, double out[3]);

/* A rotation: rows are right-handed orthonormal. */
void dice_rotation(dice *d, double rotation[9]);

/* order[count] becomes a permutation of 0 to count - 1. */
void dice_order(dice *d, int count, int *order);

#endif
