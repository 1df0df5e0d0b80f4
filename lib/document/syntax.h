/*
 * What a parser of YAML complains about, in a fabricator's words.
 */
#ifndef TRIVET_DOCUMENT_SYNTAX_H
#define TRIVET_DOCUMENT_SYNTAX_H

#include "trivet/base.h"

/*
 * Turns a parser's complaint at a line and column (from 1) into ours. opened: the line in which the
 * innermost list or group that is still open began; 0 if there is none.
 */
trivet_status trivet__syntax_refuse(trivet_message *message, const char *complaint, int32_t line,
                                    int32_t column, int32_t opened);

#endif
