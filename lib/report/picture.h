/*
 * The parts of a picture of the frame: tubes as bodies, the drooped shape, mounts, cargo, names.
 */
#ifndef TRIVET_REPORT_PICTURE_H
#define TRIVET_REPORT_PICTURE_H

#include "report/sheet.h"

/* What a picture shows beside tubes, joints and mounts. */
enum { TRIVET__SHOW_DROOP = 1, TRIVET__SHOW_USE = 2, TRIVET__SHOW_TUBE_NAMES = 4 };

/* Tubes with their true thickness, those in front over those behind; patterned by use if asked. */
trivet_status trivet__draw_tubes(trivet__sheet *sheet, const trivet__view *view, int shows_use);
/* The drooped shape of a case, movements magnified; joints where they go as small rings. */
void trivet__draw_droop(trivet__sheet *sheet, const trivet__view *view);
/* Mounts at their joints, and dots on all joints. */
void trivet__draw_joints(trivet__sheet *sheet, const trivet__view *view);
/* Centres of cargo with thin lines to the joints that it rests on. */
void trivet__draw_cargo(trivet__sheet *sheet, const trivet__view *view);
/* Names of cargo, joints (those that fall together in one label) and, if asked, of tubes. */
void trivet__draw_names(trivet__sheet *sheet, const trivet__view *view, int shows);

/* The factor by which movements are drawn larger: the round number that shows them as a twelfth of
 * the frame; 1 if nothing moves. */
double trivet__magnify(const trivet_frame *frame, const trivet_result *result, int32_t in_case);
/* Grows a box (view with scale 1, at 0) by the frame, its tubes' thickness, cargo and, if asked,
 * the drooped shape. */
void trivet__hold_frame(const trivet__sheet *sheet, const trivet__view *view, int with_droop,
                        trivet__box *box);

#endif
