/*
 * What holding a hand calculation against a result and looking for its slip have in common.
 */
#ifndef TRIVET_DOCUMENT_EXPECT_H
#define TRIVET_DOCUMENT_EXPECT_H

#include "document/record.h"

/* The movement that a droop or movement asks for; NaN if it cannot be told. */
double trivet__expect_movement(const trivet_result *result, const trivet__expect *expect);

/*
 * Fills the hint of an expectation that does not agree; "" if the numbers show no cause.
 * TRIVET_OK or TRIVET_NO_MEMORY.
 */
trivet_status trivet__expect_hint(const trivet_document *document, const trivet__expect *expect,
                                  trivet_expectation *about, trivet_message *message);

#endif
