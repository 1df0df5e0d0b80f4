/*
 * The six ways in which a thing can move, as files and messages spell them.
 */
#ifndef TRIVET_BASE_DIRECTIONS_H
#define TRIVET_BASE_DIRECTIONS_H

enum { TRIVET__DIRECTIONS = 6 };

/* [TRIVET__DIRECTIONS]: x y z rx ry rz, in the order of the bits of TRIVET_ALL. */
const char *const *trivet__direction_words(void);

#endif
