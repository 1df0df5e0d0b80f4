/*
 * The report page while it is being written: what it is about, tables, and its sections in order.
 */
#ifndef TRIVET_REPORT_PAGE_H
#define TRIVET_REPORT_PAGE_H

#include "trivet/report.h"
#include "trivet/shop_tables.h"

#include "report/markup.h"
#include "report/sheet.h"

enum { TRIVET__PAGE_TEXT = 1024, TRIVET__PAGE_DIGITS = 3 };

typedef struct trivet__page {
    trivet__markup *out;
    const trivet_document *document;
    const trivet_frame *frame;
    const trivet_result *result;
    const trivet_checks *checks;
    trivet_units units;
    trivet_limits limits;
    const char *name;      /* of the frame, or of its file */
    const char *file_name; /* "" if it has none */
    int32_t in_case;       /* as in trivet_report */
    int32_t tube;
    trivet_cuts *cuts;         /* NULL if there is no cut list */
    trivet_cut_tables *tables; /* likewise */
    trivet_message uncut;      /* then why */
    double kerf;
    const char *kinds; /* of the columns of the table that is open: o own words, s sentence, n
                          number, t our words */
    int column;        /* of the next cell */
} trivet__page;

/*
 * A table from rows: open it with a caption ("" for none) and a heading a column, add cells from
 * left to right and top to bottom, close it. The first cell of a row is its heading. kinds: a
 * letter a column as above.
 */
void trivet__table_open(trivet__page *page, const char *caption, const char *kinds,
                        const char *const *headings);
void trivet__cell(trivet__page *page, const char *text);
/* A value with its unit; "-" if it is not-a-number. */
void trivet__cell_value(trivet__page *page, int32_t dimension, double value);
/* A value and below it, smaller, the case in which it comes; "-" unless above 0. */
void trivet__cell_in_case(trivet__page *page, int32_t dimension, double value, const char *in_case);
void trivet__table_close(trivet__page *page);

/* A section with its heading; id is where links lead. */
void trivet__section_open(trivet__page *page, const char *id, const char *heading);
void trivet__section_close(trivet__page *page);

/* The text of a value with its unit. */
void trivet__value_text(const trivet__page *page, int32_t dimension, double value, char *text,
                        size_t size);

/* Style and script of the page, the script in parts, NULL past the last. Static. */
const char *trivet__page_style(void);
const char *trivet__page_script(int part);

/* Sections. Those that solve or allocate return TRIVET_OK or TRIVET_NO_MEMORY. */
void trivet__page_verdict(trivet__page *page);
void trivet__page_stories(trivet__page *page);
trivet_status trivet__page_picture(trivet__page *page);
/* For the script that turns the view, mm: where the spans go in a case, movements enlarged as in
 * its picture; joints, and spans with their thickness, one of each tube with its name. */
void trivet__page_moved(trivet__page *page, int32_t in_case);
void trivet__page_turning(trivet__page *page, const trivet__use *uses);
trivet_status trivet__page_views(trivet__page *page);
trivet_status trivet__page_forces(trivet__page *page);
trivet_status trivet__page_droop(trivet__page *page);
void trivet__page_mounts(trivet__page *page);
trivet_status trivet__page_losses(trivet__page *page);
void trivet__page_vehicle(trivet__page *page);
void trivet__page_weight(trivet__page *page);
void trivet__page_checks(trivet__page *page);
void trivet__page_torques(trivet__page *page);
void trivet__page_inserts(trivet__page *page);
/* The cut list: made before the page is written, so that its contents are known; its links; its
 * sections; given back. */
trivet_status trivet__page_shop_open(trivet__page *page);
void trivet__page_shop_contents(trivet__page *page);
trivet_status trivet__page_shop(trivet__page *page);
void trivet__page_shop_close(trivet__page *page);
trivet_status trivet__page_plates(trivet__page *page);
void trivet__page_cases(trivet__page *page);
trivet_status trivet__page_expectations(trivet__page *page);
void trivet__page_quality(trivet__page *page);
void trivet__page_omissions(trivet__page *page);
void trivet__page_cautions(trivet__page *page);
void trivet__page_file(trivet__page *page);

#endif
