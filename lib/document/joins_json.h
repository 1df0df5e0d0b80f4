/*
 * What holds the parts together, as JSON.
 */
#ifndef TRIVET_DOCUMENT_JOINS_JSON_H
#define TRIVET_DOCUMENT_JOINS_JSON_H

#include "document/json.h"
#include "trivet/frame_joins.h"

/* Puts "bolts", "welds", "decks" and "cycles" into root. */
void trivet__json_put_joins(trivet__json *json, const trivet_frame *frame, json_t *root);

#endif
