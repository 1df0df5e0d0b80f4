/*
 * Bolts that are being read, and the questions that their parts ask as well.
 */
#ifndef TRIVET_DOCUMENT_BOLTS_READING_H
#define TRIVET_DOCUMENT_BOLTS_READING_H

#include "document/reading.h"

typedef struct trivet__bolts_reading {
    const trivet__reading *reading;
    const trivet__node *map;
    const trivet__thing *thing;
    trivet_bolts *bolts;
    trivet_thread thread; /* what is known of theirs */
} trivet__bolts_reading;

/* A number under a key; *value is left alone if the key is not there. */
typedef struct trivet__number_row {
    const char *key;
    trivet_dimension dimension;
    trivet__range range;
    double *value;
} trivet__number_row;

enum { TRIVET__LENGTH_TEXT_MAX = 64 };

/* Begins a complaint about a key of the bolts; the caller says what is wrong and what to do. */
trivet_status trivet__bolts_complain(const trivet__bolts_reading *at, const trivet__node *node,
                                     const char *key, trivet_status status);

/* The same with problem and remedy as plain texts. */
trivet_status trivet__bolts_refuse(const trivet__bolts_reading *at, const trivet__node *node,
                                   const char *key, trivet_status status, const char *problem,
                                   const char *remedy);

/* Refuses what is not a whole number from 1 to most. */
trivet_status trivet__bolts_refuse_whole(const trivet__bolts_reading *at, const trivet__node *node,
                                         const char *key, int most, const char *remedy);

/* A length in the units of the file. Returns text. */
const char *trivet__bolts_length(const trivet__bolts_reading *at, double length,
                                 char text[TRIVET__LENGTH_TEXT_MAX]);

/* trivet__check_keys, which also knows a comma in a number: "8,8" is the value 8 and a key 8. */
trivet_status trivet__bolts_keys(const trivet__bolts_reading *at, const trivet__node *map,
                                 const trivet__node *name, const trivet__thing *thing,
                                 trivet__key_place keys);

trivet_status trivet__bolts_numbers(const trivet__bolts_reading *at, const trivet__node *map,
                                    const trivet__thing *thing, const trivet__number_row *rows,
                                    size_t count);

/* Whether the bolts meet a hollow tube: a wall to cut into, something to press together. */
int trivet__bolts_meet_hollow(const trivet__bolts_reading *at);

/* Plate, spacer, sleeve, fixing welds, rated nut: what else the bolts go through or into. */
trivet_status trivet__read_bolt_parts(const trivet__bolts_reading *at);

#endif
