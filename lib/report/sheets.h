/*
 * Panels of a sheet: each draws itself from a height downward and tells the height it takes.
 */
#ifndef TRIVET_REPORT_SHEETS_H
#define TRIVET_REPORT_SHEETS_H

#include "report/sheet.h"

/* The frame as one sees it, its tubes patterned by use, with the drooped shape; legend below. */
double trivet__picture_height(void);
trivet_status trivet__picture_panel(trivet__sheet *sheet, double top);

/* Three views with dimensions; layout is worked out first. */
typedef struct trivet__views_layout {
    double scale;      /* mm on paper for each m */
    double columns[2]; /* widths, mm */
    double rows[2];    /* heights, mm */
    double height;     /* of all, mm */
    char words[32];    /* "1 : 5" */
} trivet__views_layout;

void trivet__views_plan(const trivet__sheet *sheet, double most, trivet__views_layout *layout);
trivet_status trivet__views_panel(trivet__sheet *sheet, const trivet__views_layout *layout,
                                  double top);

/* The forces inside a tube along it. */
double trivet__forces_height(void);
trivet_status trivet__forces_panel(trivet__sheet *sheet, double top);

#endif
