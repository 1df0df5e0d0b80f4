/*
 * One check as JSON.
 */
#ifndef TRIVET_DOCUMENT_CHECK_JSON_H
#define TRIVET_DOCUMENT_CHECK_JSON_H

#include "document/json.h"
#include "trivet/checks.h"

/* Check number index without its working; NULL, and the writing spoilt, without memory. */
json_t *trivet__json_check(trivet__json *json, const trivet_checks *checks, int32_t index);

#endif
