/*
 * Drawing into markup that is there already: the report holds several drawings.
 */
#ifndef TRIVET_REPORT_DRAWING_H
#define TRIVET_REPORT_DRAWING_H

#include "trivet/report.h"

#include "report/markup.h"

/* The size, case, tube and sheet of a drawing are right. Statuses of trivet_drawing_svg. */
trivet_status trivet__drawing_check(const trivet_frame *frame, const trivet_result *result,
                                    const trivet_drawing *drawing, trivet_message *message);

/* Draws one that was checked. mark: begins its identifiers. TRIVET_OK or TRIVET_NO_MEMORY. */
trivet_status trivet__drawing_write(const trivet_frame *frame, const trivet_result *result,
                                    const trivet_checks *checks, const trivet_drawing *drawing,
                                    const char *mark, trivet__markup *to);

#endif
