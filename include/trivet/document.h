/**
 * @file
 * The file: reading it, what was understood of it, results as JSON. Link target trivet-document.
 */
#ifndef TRIVET_DOCUMENT_H
#define TRIVET_DOCUMENT_H

#include "trivet/base.h"
#include "trivet/checks.h"
#include "trivet/frame.h"
#include "trivet/shop.h"
#include "trivet/statics.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct trivet_document trivet_document;

/**
 * Reads a file of format 1 (YAML 1.2 or JSON, UTF-8, at most 16 MiB).
 *
 * @param path         path of a regular file
 * @param document_out NULL on failure
 * @param message      line and column say where
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_UNREADABLE, TRIVET_BAD_SYNTAX,
 *         TRIVET_BAD_KEY, TRIVET_BAD_NAME, TRIVET_BAD_UNIT, TRIVET_BAD_VALUE, TRIVET_INCOMPLETE,
 *         TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_document_read_file(const char *path, trivet_document **document_out,
                                                   trivet_message *message);
/** The same from text [length] bytes in memory; the text is copied. */
TRIVET_API trivet_status trivet_document_read_text(const char *text, size_t length,
                                                   trivet_document **document_out,
                                                   trivet_message *message);
/** Frees a document and its frame. NULL is ignored. */
TRIVET_API void trivet_document_free(trivet_document *document);

/** The frame, owned by the document; NULL for NULL. */
TRIVET_API const trivet_frame *trivet_document_frame(const trivet_document *document);
/** The name written in the file, "" if none. Owned by the document. */
TRIVET_API const char *trivet_document_name(const trivet_document *document);
/** The file itself, as it was read: zero-ended UTF-8. Owned by the document; "" for NULL. */
TRIVET_API const char *trivet_document_text(const trivet_document *document);
/** The units in which the file wants answers. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_document_units(const trivet_document *document,
                                               trivet_units *units_out);
/** The limits that the file sets. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_document_limits(const trivet_document *document,
                                                trivet_limits *limits_out);

/**
 * How the workshop of the file works; its lists are owned by the document. Statuses: OK,
 * MISSING_ARGUMENT, BAD_SIZE.
 */
TRIVET_API trivet_status trivet_document_shop(const trivet_document *document,
                                              trivet_shop *shop_out);

/**
 * The give of the mounts that was fitted to the readings in the file; the document's frame has it.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_ORDER (no readings)
 */
TRIVET_API trivet_status trivet_document_fitted(const trivet_document *document,
                                                trivet_fitted *fitted_out);

/**
 * Where a thing stands in the file.
 *
 * @param kind a trivet_kind
 * @return the line, from 1; 0 if unknown. column_out may be NULL.
 */
TRIVET_API int32_t trivet_document_place(const trivet_document *document, int32_t kind,
                                         int32_t index, int32_t *column_out);

/** A part of the file that this version reads past, such as "rides"; NULL past the last. */
TRIVET_API const char *trivet_document_unused(const trivet_document *document, int32_t index);

/** The number of named quantities in `let`. */
TRIVET_API int32_t trivet_document_let_count(const trivet_document *document);
/** Named quantity number index and its value; NULL if there is none. Owned by the document. */
TRIVET_API const char *trivet_document_let(const trivet_document *document, int32_t index,
                                           trivet_quantity *quantity_out);

/**
 * A hand calculation held against the result. Texts are owned by the document, in_case of a check
 * by the checks.
 */
typedef struct trivet_expectation {
    size_t size;
    const char *what; /**< as in the file: "droop", "reaction z", "My", "section area", ... */
    const char *where;
    const char *in_case; /**< "" where no case matters */
    const char *by;      /**< how it was worked out by hand; "" if not said */
    int32_t dimension;   /**< a trivet_dimension */
    int32_t agrees;      /**< 1 if |difference| <= within */
    double by_hand;
    double computed;   /**< NaN: no such check was made */
    double difference; /**< computed / by_hand - 1; computed - by_hand if by_hand is 0 */
    double within;
    char hint[192]; /**< a likely cause, where it does not agree and the numbers themselves show
                         one: "looks like mass was taken for force (a factor 9.807)"; or "" */
} trivet_expectation;

/** Fills an expectation with zeros and its size. */
TRIVET_API trivet_status trivet_expectation_defaults(trivet_expectation *expectation, size_t size);
/** The number of expectations in the file. */
TRIVET_API int32_t trivet_document_expectation_count(const trivet_document *document);
/**
 * Holds expectation number index against a result.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_ORDER,
 *         TRIVET_BAD_UNIT (the demand or limit of that check is of another dimension: known only
 *         once it is made), TRIVET_NO_MEMORY
 *
 * For a droop or movement that does not agree, the frame is solved once more without the shear
 * give of its tubes, to see whether that is the reason.
 */
TRIVET_API trivet_status trivet_document_expect(const trivet_document *document,
                                                const trivet_result *result,
                                                const trivet_checks *checks, int32_t index,
                                                trivet_expectation *expectation_out,
                                                trivet_message *message);

/**
 * Results as JSON, SI units, every number with enough digits to read back to the same double.
 *
 * @param text_out zero-ended UTF-8; free with trivet_text_free; NULL on failure
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_document_results_json(const trivet_document *document,
                                                      const trivet_result *result,
                                                      const trivet_checks *checks, char **text_out,
                                                      trivet_message *message);
/** The working of the checks that trivet_checks_select picks, as JSON; likewise. */
TRIVET_API trivet_status trivet_document_working_json(const trivet_document *document,
                                                      const trivet_checks *checks,
                                                      const char *where, char **text_out,
                                                      trivet_message *message);
/** Ratings as JSON; likewise. */
TRIVET_API trivet_status trivet_document_rates_json(const trivet_document *document,
                                                    const trivet_rates *rates, char **text_out,
                                                    trivet_message *message);
/** A cut list as JSON; likewise. It is of the document's own frame. */
TRIVET_API trivet_status trivet_document_cuts_json(const trivet_document *document,
                                                   const trivet_cuts *cuts, char **text_out,
                                                   trivet_message *message);
/** What was understood of the file as JSON, SI units; likewise. */
TRIVET_API trivet_status trivet_document_understood_json(const trivet_document *document,
                                                         char **text_out, trivet_message *message);
/** The built-in gauges, materials, threads and grades as JSON; name NULL for all. Also
 * TRIVET_BAD_NAME. */
TRIVET_API trivet_status trivet_stock_json(const char *name, char **text_out,
                                           trivet_message *message);
/** A message as JSON, for a command that was asked for JSON and failed. */
TRIVET_API trivet_status trivet_message_json(const trivet_message *message, char **text_out);
/** Frees text that this part made. NULL is ignored. */
TRIVET_API void trivet_text_free(char *text);

/** A commented starter file, ready to be changed; it reads, solves and holds. Static. */
TRIVET_API const char *trivet_starter_text(void);

#ifdef __cplusplus
}
#endif

#endif
