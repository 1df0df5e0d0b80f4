/**
 * @file
 * Pictures and the report page: SVG drawings of a frame, one HTML page with everything. Link target
 * trivet-document.
 *
 * A drawing is SVG whose user unit is 1 mm on paper: printed at full size its scales are true. All
 * lettering stays text. Nothing is fetched from anywhere.
 */
#ifndef TRIVET_REPORT_H
#define TRIVET_REPORT_H

#include "trivet/base.h"
#include "trivet/checks.h"
#include "trivet/document.h"
#include "trivet/frame.h"
#include "trivet/statics.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What is drawn. Numbers never change. */
typedef enum trivet_sheet {
    TRIVET_SHEET_WHOLE = 0, /**< the frame as a picture, and below it three views with dimensions */
    TRIVET_SHEET_PICTURE = 1, /**< the picture alone: use of each tube, cargo, the drooped shape */
    TRIVET_SHEET_VIEWS = 2, /**< from above, from the left side and from behind, with dimensions */
    TRIVET_SHEET_FORCES = 3 /**< the forces inside a tube, N Vy Vz T My Mz, along it */
} trivet_sheet;

/** What to draw, and how. Fill with trivet_drawing_defaults. */
typedef struct trivet_drawing {
    size_t size;
    int32_t sheet;     /**< a trivet_sheet; the whole */
    int32_t in_case;   /**< result column of the drooped shape and of the forces; -1: the case with
                            the worst droop, for forces that of the check that uses the tube most */
    int32_t tube;      /**< of the sheet of forces; -1: the tube that is used most */
    const char *title; /**< stands on top; NULL or "": none. Read during the call */
    const trivet_units
        *units; /**< of the numbers on it; NULL: the defaults. Read during the call */
} trivet_drawing;

/** Fills a drawing as above. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_drawing_defaults(trivet_drawing *drawing, size_t size);

/**
 * A drawing of a solved and checked frame as SVG.
 *
 * @param frame    the frame that was solved and checked, unchanged since
 * @param drawing  NULL for the defaults
 * @param text_out zero-ended UTF-8; free with trivet_text_free; NULL on failure
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX (no such case or
 *         tube), TRIVET_BAD_VALUE (no such sheet), TRIVET_BAD_ORDER (not solved), TRIVET_NO_MEMORY
 *
 * Parallel projection throughout. The drooped shape is the closed form along each span, its
 * movements multiplied by a factor that the drawing states. The use of a tube is the largest
 * utilisation of the checks of overload and cracking on that tube. Names that find no room are left
 * out, and the drawing says how many.
 */
TRIVET_API trivet_status trivet_drawing_svg(const trivet_frame *frame, const trivet_result *result,
                                            const trivet_checks *checks,
                                            const trivet_drawing *drawing, char **text_out,
                                            trivet_message *message);

/** What the page shows. Fill with trivet_report_defaults. */
typedef struct trivet_report {
    size_t size;
    int32_t in_case;       /**< result column of the pictures; -1: as in trivet_drawing */
    int32_t tube;          /**< whose forces are drawn; -1: the tube that is used most */
    const char *file_name; /**< as the page names the file; NULL or "": not named. Read during the
                                call */
} trivet_report;

/** Fills a report as above. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_report_defaults(trivet_report *report, size_t size);

/**
 * The report: one page of HTML that needs nothing else, with verdict, pictures, droop, mounts, all
 * checks with the working of the worst, the cut list with bars to buy and saddle templates at full
 * size, plates of decks, what was not checked, hand calculations, cautions, and the file itself.
 *
 * Its script lets the reader change the case that is drawn and turn the view; without scripts
 * nothing that one needs is missing. A frame that cannot be cut has a page that says why.
 *
 * @param document the document whose frame was solved and checked
 * @param report   NULL for the defaults
 * @param text_out zero-ended UTF-8; free with trivet_text_free; NULL on failure
 * @return as trivet_drawing_svg
 */
TRIVET_API trivet_status trivet_report_html(const trivet_document *document,
                                            const trivet_result *result,
                                            const trivet_checks *checks,
                                            const trivet_report *report, char **text_out,
                                            trivet_message *message);

#ifdef __cplusplus
}
#endif

#endif
