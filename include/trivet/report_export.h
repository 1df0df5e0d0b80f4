/**
 * @file
 * Hand-overs to other programs in open formats: VTU (VTK's XML unstructured grid), glTF 2.0, DXF
 * R12, CSV. Link target trivet-document.
 *
 * Each call makes a whole file in memory; writing it is left to the caller. Names are the user's:
 * each format's own rules for text are kept, so that no name can be taken for anything else.
 * The same frame gives the same bytes.
 */
#ifndef TRIVET_REPORT_EXPORT_H
#define TRIVET_REPORT_EXPORT_H

#include "trivet/base.h"
#include "trivet/checks.h"
#include "trivet/frame.h"
#include "trivet/frame_joins.h"
#include "trivet/shop.h"
#include "trivet/statics.h"

#ifdef __cplusplus
extern "C" {
#endif

/**
 * The frame with its movements and the forces inside, as VTU (VTK XML, UnstructuredGrid, version
 * 0.1, ASCII).
 *
 * Each span is cut into 16 lines of equal length; its 17 points are its own, so that forces may
 * jump where spans meet. Points lie where the unloaded frame has them, m, world axes.
 *
 * Arrays on points:
 *
 * - "CASE: move": ux uy uz, m; warp by it to see the drooped shape
 * - "CASE: turn": rx ry rz, rad
 * - "CASE: N", Vy, Vz (N), T, My, Mz (N m): tube axes, as trivet_result_at gives them; at the ends
 *   of spans as trivet_result_span_ends
 * - "at": m along the tube from its first joint
 *
 * Arrays on lines:
 *
 * - "tube", "span": their numbers, from 0, in the order of the file
 * - "utilisation": largest of the tube's checks of overload and cracking; -1: there are none; at
 *   most 1e300
 *
 * @param frame      the frame that was solved and checked, unchanged since
 * @param bytes_out  [*length_out] and a closing zero; free with trivet_text_free; NULL on failure
 * @param length_out bytes; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_ORDER (not solved), TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_export_vtu(const trivet_frame *frame, const trivet_result *result,
                                           const trivet_checks *checks, char **bytes_out,
                                           size_t *length_out, trivet_message *message);

/**
 * The tubes as solids, as binary glTF 2.0. Arguments and statuses as trivet_export_vtu.
 *
 * glTF's axes are right-handed, y up, z forward: its x is our y (left), its y our z (up), its z our
 * x (forward). Metres. One node and mesh a tube, named after it, and one an insert ("TUBE, insert
 * STOCK"). Tubes are cut square at their first and last joint, not mitred, and run through each
 * other where they meet; hollow ones are hollow and closed by a ring at each end, so that the
 * volume of a mesh is that of the metal. Round corners have 6 facets each, round tubes 48;
 * roundings of angles and channels are left out. Stock given by its values has no shape and is
 * shown as a square bar of the same area.
 *
 * Materials are named after the worst verdict of the tube's checks of overload and cracking
 * ("holds, used up to half", "holds", "tight", "may crack", "fails", "not checked") and "insert".
 */
TRIVET_API trivet_status trivet_export_glb(const trivet_frame *frame, const trivet_result *result,
                                           const trivet_checks *checks, char **bytes_out,
                                           size_t *length_out, trivet_message *message);

/**
 * Centre lines, joints and plates as DXF R12 (AC1009, ASCII), in mm and real size, world axes.
 *
 * | layer             | what                                                                     |
 * | TUBE_STOCK        | a LINE from each joint of a tube to the next, offsets counted in         |
 * | JOINTS            | a POINT each                                                             |
 * | JOINT_NAMES       | their names as TEXT                                                      |
 * | PLATE_DECK        | outline: one closed POLYLINE, arcs as bulges                             |
 * | HOLES_DECK        | a CIRCLE a screw hole                                                    |
 * | SLOTS_DECK        | a slot: two LINEs and two ARCs                                           |
 * | PLATE_NAMES       | names of decks as TEXT, not to be cut                                    |
 *
 * Plates lie at z = 0, seen from above, as trivet_cutting_new lays them out. A deck that cannot be
 * laid out is left out; a comment in the file names it and says why, and so does
 * trivet_cutting_new. Countersinks are not drawn.
 *
 * R12 knows capitals, digits, $ - _ in names of layers, 31 at most: other characters become _, and
 * a number tells apart what would be the same. The comments (group 999) at the beginning say which
 * layer stands for what. R12's text is not Unicode: what is not plain ASCII, and \ ^ and %% that
 * readers would take for something else, is written as \U+XXXX (UTF-16, four hexadecimal digits).
 * R12's values have at most 255 characters: a longer text goes on in a second TEXT or comment
 * below.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_export_dxf(const trivet_frame *frame, char **bytes_out,
                                           size_t *length_out, trivet_message *message);

/** Name of table number index: "joints", "tubes", ...; NULL past the last. Static. */
TRIVET_API const char *trivet_export_table(int32_t index);

/**
 * A table as CSV (RFC 4180: commas, CR LF, quotes where needed; UTF-8 without a mark at the
 * beginning). The first line names the columns with their SI units. Numbers have a decimal point
 * and enough digits to read back to the same double; what is not known is left empty.
 *
 * A text that begins with = + - @ or ' gets an apostrophe before it, so that a spreadsheet shows it
 * and does not take it for a formula (common practice).
 *
 * @param table its number, see trivet_export_table
 * @return as trivet_export_vtu; also TRIVET_BAD_INDEX
 */
TRIVET_API trivet_status trivet_export_csv(const trivet_frame *frame, const trivet_result *result,
                                           const trivet_checks *checks, int32_t table,
                                           char **bytes_out, size_t *length_out,
                                           trivet_message *message);

/** Name of table number index of a cut list: "pieces", "ends", ...; NULL past the last. Static. */
TRIVET_API const char *trivet_export_cut_table(int32_t index);

/**
 * A table of a cut list as CSV, written as trivet_export_csv does; numbers of pieces and bars count
 * from 1.
 *
 * @param frame     of which the cut list is
 * @param table     its number, see trivet_export_cut_table
 * @param bytes_out as in trivet_export_vtu
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_export_cuts_csv(const trivet_frame *frame, const trivet_cuts *cuts,
                                                int32_t table, char **bytes_out, size_t *length_out,
                                                trivet_message *message);

#ifdef __cplusplus
}
#endif

#endif
