/**
 * @file
 * A cut list in words: the tables that the command prints and the report shows, cell by cell.
 */
#ifndef TRIVET_SHOP_TABLES_H
#define TRIVET_SHOP_TABLES_H

#include "trivet/base.h"
#include "trivet/shop.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What a table is about. Numbers never change. */
typedef enum trivet_cut_subject {
    TRIVET_CUT_STOCKS = 0, /**< bars to buy */
    TRIVET_CUT_BARS = 1,   /**< which piece from which bar */
    TRIVET_CUT_PIECES = 2,
    TRIVET_CUT_ENDS = 3,   /**< how the saw is set for each end */
    TRIVET_CUT_DEPTHS = 4, /**< how deep one saddle is cut round the tube; a table each */
    TRIVET_CUT_BENDS = 5,
    TRIVET_CUT_HOLES = 6,
    TRIVET_CUT_PARTS = 7,
    TRIVET_CUT_SUMS = 8,
    TRIVET_CUT_RULES = 9, /**< lines alone: how ends are cut */
    TRIVET_CUT_NOTES = 10 /**< lines alone: what to look at by hand, what was left out */
} trivet_cut_subject;

/** Tables of a cut list. */
typedef struct trivet_cut_tables trivet_cut_tables;

/** One of them. Texts are static but for title, which is owned by the tables. */
typedef struct trivet_cut_table {
    size_t size;
    int32_t subject;      /**< a trivet_cut_subject */
    int32_t row_count;    /**< below the headings */
    int32_t column_count; /**< 0 if there are lines alone */
    int32_t piece;        /**< of a saddle; -1 */
    int32_t end;          /**< of a saddle, 0 or 1; -1 */
    const char *kinds;    /**< a letter a column: n number, o somebody's own name, s sentence, t our
                               own words */
    const char *heading;  /**< of the subject, such as "Saw settings" */
    const char *title; /**< of a saddle: "6 left brace at LT, template 06b-left-brace-LT.svg"; "" */
} trivet_cut_table;

/** Fills it with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_cut_table_defaults(trivet_cut_table *table, size_t size);

/**
 * Puts a cut list into words.
 *
 * @param cuts       may be freed afterwards
 * @param units      of the numbers; NULL for the defaults
 * @param tables_out NULL on failure; free with trivet_cut_tables_free
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_NO_MEMORY
 *
 * The tables stand in the order of work: buy, cut, mark, drill. Those without a row are left out.
 */
TRIVET_API trivet_status trivet_cut_tables_new(const trivet_cuts *cuts, const trivet_units *units,
                                               trivet_cut_tables **tables_out,
                                               trivet_message *message);
/** Frees tables. NULL is ignored. */
TRIVET_API void trivet_cut_tables_free(trivet_cut_tables *tables);
/** The number of tables; 0 if tables is NULL. */
TRIVET_API int32_t trivet_cut_tables_count(const trivet_cut_tables *tables);
/** Table number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cut_tables_at(const trivet_cut_tables *tables, int32_t index,
                                              trivet_cut_table *table_out);
/** A cell, row -1 for the headings; owned by tables; NULL if there is none. */
TRIVET_API const char *trivet_cut_tables_cell(const trivet_cut_tables *tables, int32_t index,
                                              int32_t row, int32_t column);
/** Line number line below a table, a sentence or some; owned by tables; NULL past the last. */
TRIVET_API const char *trivet_cut_tables_line(const trivet_cut_tables *tables, int32_t index,
                                              int32_t line);

#ifdef __cplusplus
}
#endif

#endif
