/*
 * A sheet of paper while it is being drawn: what is drawn on it, and the strokes that all drawings
 * share. Lengths on paper in mm, x to the right, y down.
 */
#ifndef TRIVET_REPORT_SHEET_H
#define TRIVET_REPORT_SHEET_H

#include "trivet/report.h"

#include "report/labels.h"
#include "report/lettering.h"
#include "report/markup.h"
#include "report/projection.h"

/* Paper between the margins of A4 and of Letter, upright, mm. */
#define TRIVET__SHEET_WIDTH 184.0

/* How much a tube is used, in classes that are told apart by pattern as well as by colour. */
typedef enum trivet__use_class {
    TRIVET__USE_UNKNOWN = 0,
    TRIVET__USE_LITTLE, /* up to half */
    TRIVET__USE_MUCH,
    TRIVET__USE_TIGHT, /* TIGHT in the verdict's words */
    TRIVET__USE_OVER,  /* fails or may crack */
    TRIVET__USE_COUNT
} trivet__use_class;

typedef struct trivet__use {
    double used;   /* largest utilisation; NaN if nothing was checked */
    int32_t check; /* number of that check, -1 */
    int32_t class_of;
} trivet__use;

typedef struct trivet__sheet {
    trivet__markup *out;
    const trivet_frame *frame;
    const trivet_result *result;
    const trivet_checks *checks;
    const trivet_units *units;
    const char *title;
    int32_t in_case;
    int32_t tube;
    double height;
    double magnified;  /* factor on movements */
    trivet__use *uses; /* [tube] */
    trivet__labels labels;
    int left_out;     /* names that found no room */
    const char *mark; /* begins the identifiers on this sheet, so that several may share a page */
} trivet__sheet;

/* How much each tube is used by the checks of overload and cracking: to be given back; or NULL. */
trivet__use *trivet__uses_find(const trivet_frame *frame, const trivet_checks *checks);
/* The tube that is used most; 0 if nothing was checked. */
int32_t trivet__tube_used_most(const trivet_frame *frame, const trivet__use *uses);
/* The case with the worst droop; 0 if nothing moves down. */
int32_t trivet__case_of_worst_droop(const trivet_frame *frame, const trivet_result *result);

/* Opens and closes the SVG. about: what the picture shows, for those who cannot see it. */
void trivet__sheet_open(trivet__sheet *sheet, const char *heading, const char *about);
void trivet__sheet_close(trivet__sheet *sheet);

/* One line of text; anchor "start", "middle" or "end"; y is the base line. */
void trivet__sheet_text(trivet__sheet *sheet, const char *kind, const char *anchor, double x,
                        double y, double size, const char *text);
/* Free text wrapped into a width; returns the y of the next line. */
double trivet__sheet_wrapped(trivet__sheet *sheet, double x, double y, double width, double size,
                             const char *text);
void trivet__sheet_line(trivet__sheet *sheet, const char *kind, const double from[2],
                        const double to[2]);
/* A closed outline of points. kind: its class. */
void trivet__sheet_polygon(trivet__sheet *sheet, const char *kind, double (*points)[2], int count);

/*
 * Names something at one of its anchors: name, cut where it is long (several with line ends between
 * them are written with slashes), and more behind it. Draws a
 * thin leader where the label stands off. kind and whole name go into the picture as data. Returns
 * 0 and counts it as left out if there is no room.
 */
int trivet__sheet_label(trivet__sheet *sheet, const char *kind, double (*anchors)[2], int count,
                        const char *name, const char *more);

/*
 * A dimension after ISO 129: a line between two arrowheads beside the points from and to, a number
 * on it. Upright if is_upright, at a distance off from the axis x = 0 or y = 0. Returns 0 and draws
 * nothing if the number has no room between them.
 */
int trivet__sheet_dimension(trivet__sheet *sheet, int is_upright, double from, double to, double at,
                            double from_edge, double length);

#endif
