/*
 * Tables as CSV: rows of fields, and what fills each table.
 */
#ifndef TRIVET_REPORT_EXPORT_CSV_H
#define TRIVET_REPORT_EXPORT_CSV_H

#include "report/export_bytes.h"
#include "report/export_used.h"

typedef struct trivet__csv {
    trivet__bytes *bytes;
    int has_field; /* the row has one already */
} trivet__csv;

/* A field each. A number that is not known (NaN) is empty, an infinite one is inf. NULL is empty.
 */
void trivet__csv_text(trivet__csv *csv, const char *text);
void trivet__csv_number(trivet__csv *csv, double value);
void trivet__csv_numbers(trivet__csv *csv, const double *values, int count);
void trivet__csv_whole(trivet__csv *csv, int64_t value);
void trivet__csv_end_row(trivet__csv *csv);

/* Fills a table below its headings. */
typedef trivet_status trivet__csv_fill(const trivet__handed *of, trivet__csv *csv);

/* Of the frame as it is. */
trivet__csv_fill trivet__csv_joints;
trivet__csv_fill trivet__csv_tubes;
trivet__csv_fill trivet__csv_sections;
trivet__csv_fill trivet__csv_cases;
trivet__csv_fill trivet__csv_bolts;
trivet__csv_fill trivet__csv_inserts;
trivet__csv_fill trivet__csv_cargo;
trivet__csv_fill trivet__csv_plates;

/* Of the result and its checks. */
trivet__csv_fill trivet__csv_reactions;
trivet__csv_fill trivet__csv_movements;
trivet__csv_fill trivet__csv_forces;
trivet__csv_fill trivet__csv_checks;
trivet__csv_fill trivet__csv_droop;
trivet__csv_fill trivet__csv_mounts;
trivet__csv_fill trivet__csv_omissions;

/* Refuses a table number of which there are only count. */
trivet_status trivet__csv_no_table(trivet_message *message, int32_t table, int32_t count);

#endif
