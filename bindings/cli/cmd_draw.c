/*
 * trivet draw FILE -o X.svg: pictures of the frame.
 */
#include "command.h"
#include "print.h"
#include "solved.h"
#include "written.h"

#include <trivet/report.h>

#include <string.h>

static trivet_status draw(const options *given, const solved *all, char **text_out,
                          trivet_message *message)
{
    trivet_drawing drawing;
    trivet_status status = trivet_drawing_defaults(&drawing, sizeof drawing);
    if (status == TRIVET_OK) {
        status = written_pick(given, all, &drawing.in_case, &drawing.tube, message);
    }
    if (status == TRIVET_OK) {
        drawing.sheet = option_value(given, "--tube") ? TRIVET_SHEET_FORCES : TRIVET_SHEET_WHOLE;
        drawing.title = trivet_document_name(all->document);
        drawing.units = &all->units;
        status =
            trivet_drawing_svg(all->frame, all->result, all->checks, &drawing, text_out, message);
    }
    return status;
}

int cmd_draw(const options *given)
{
    return written_run(given, "draw", "rack.svg", draw);
}
