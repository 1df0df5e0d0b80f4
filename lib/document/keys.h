/*
 * Which keys may stand where. One table a place; the JSON Schema beside it says the same, and a
 * test holds the two together.
 */
#ifndef TRIVET_DOCUMENT_KEYS_H
#define TRIVET_DOCUMENT_KEYS_H

#include <stdint.h>

typedef enum trivet__key_use {
    TRIVET__MAY = 0,
    TRIVET__NEEDED = 1,
    TRIVET__LATER = 2 /* read past by this version, and said so */
} trivet__key_use;

typedef struct trivet__key {
    const char *name;
    int32_t use;        /* a trivet__key_use */
    const char *sample; /* of a needed key: what a value looks like */
} trivet__key;

typedef enum trivet__key_place {
    TRIVET__KEYS_TOP = 0,
    TRIVET__KEYS_UNITS,
    TRIVET__KEYS_SQUARE_TUBE,
    TRIVET__KEYS_RECTANGULAR_TUBE,
    TRIVET__KEYS_ROUND_TUBE,
    TRIVET__KEYS_SQUARE_BAR,
    TRIVET__KEYS_FLAT_BAR,
    TRIVET__KEYS_ROUND_BAR,
    TRIVET__KEYS_ANGLE,
    TRIVET__KEYS_CHANNEL,
    TRIVET__KEYS_VALUES,
    TRIVET__KEYS_MATERIAL,
    TRIVET__KEYS_TUBE,
    TRIVET__KEYS_END,
    TRIVET__KEYS_INSERT,
    TRIVET__KEYS_MOUNT,
    TRIVET__KEYS_DIRECTIONS,
    TRIVET__KEYS_AXES,
    TRIVET__KEYS_LIMIT,
    TRIVET__KEYS_CARGO,
    TRIVET__KEYS_CASE,
    TRIVET__KEYS_FORCE,
    TRIVET__KEYS_TUBE_FORCE,
    TRIVET__KEYS_LIMITS,
    TRIVET__KEYS_EXPECT,
    TRIVET__KEYS_VEHICLE,
    TRIVET__KEYS_USAGE,
    TRIVET__KEYS_READING,
    TRIVET__KEYS_MEASURED,
    TRIVET__KEYS_ITEM,
    TRIVET__KEYS_BOLTS,
    TRIVET__KEYS_PLATE,
    TRIVET__KEYS_SPACER,
    TRIVET__KEYS_SLEEVE,
    TRIVET__KEYS_RATED,
    TRIVET__KEYS_FIXING,
    TRIVET__KEYS_WELD,
    TRIVET__KEYS_DECK,
    TRIVET__KEYS_CYCLES,
    TRIVET__KEYS_VARY,
    TRIVET__KEYS_RANGE,
    TRIVET__KEYS_VARY_STOCK,
    TRIVET__KEYS_TUPLES,
    TRIVET__KEYS_SAMPLE,
    TRIVET__KEYS_CATALOGUE,
    TRIVET__KEYS_SHOP,
    TRIVET__KEYS_BAR,
    TRIVET__KEYS_BENT,
    TRIVET__KEYS_SLOT
} trivet__key_place;

/* The table of a place; *count_out is its length. */
const trivet__key *trivet__keys_of(trivet__key_place place, int32_t *count_out);

/* The row of a table with that name, or NULL. */
const trivet__key *trivet__key_find(const trivet__key *keys, int32_t count, const char *name);

#endif
