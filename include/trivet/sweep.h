/**
 * @file
 * Sweeps: every variant of a file solved and checked, stored, and the best of them picked. Link
 * target trivet-document.
 *
 * What varies stands under `vary` in the file. A variant is told by its number alone, from 0; its
 * values, and every bit of its answer, are the same whoever works it out and in which order.
 */
#ifndef TRIVET_SWEEP_H
#define TRIVET_SWEEP_H

#include "trivet/base.h"
#include "trivet/checks.h"
#include "trivet/document.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct trivet_sweep trivet_sweep;

/**
 * Reads a file, what it varies, and the catalogues that it names (beside the file).
 *
 * @param sweep_out NULL on failure; free with trivet_sweep_free
 * @return what trivet_document_read_file returns
 *
 * Once read, a sweep may be asked by several threads at once.
 */
TRIVET_API trivet_status trivet_sweep_read_file(const char *path, trivet_sweep **sweep_out,
                                                trivet_message *message);

/** A catalogue that is at hand as text. Fill with trivet_catalogue_defaults. */
typedef struct trivet_catalogue {
    size_t size;
    const char *name; /**< as `vary` names its file: "shop.yaml" */
    const char *text; /**< zero-ended UTF-8 */
} trivet_catalogue;

/** Fills a catalogue: no name, no text. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_catalogue_defaults(trivet_catalogue *catalogue, size_t size);

/**
 * The same from text [length] bytes in memory, with the catalogues that it names: no file is read.
 * All texts are copied.
 *
 * @param catalogues [catalogue_count]
 * @return as trivet_sweep_read_file; also TRIVET_BAD_SIZE, TRIVET_UNREADABLE (a catalogue is not
 *         among them)
 */
TRIVET_API trivet_status trivet_sweep_read_text(const char *text, size_t length,
                                                const trivet_catalogue *catalogues,
                                                int32_t catalogue_count, trivet_sweep **sweep_out,
                                                trivet_message *message);
/**
 * Catalogue number index that the file names, with its text as it was read; owned by the sweep.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX (past the last)
 */
TRIVET_API trivet_status trivet_sweep_catalogue(const trivet_sweep *sweep, int32_t index,
                                                trivet_catalogue *catalogue_out);
/** Frees a sweep. NULL is ignored. */
TRIVET_API void trivet_sweep_free(trivet_sweep *sweep);

/** The file as it stands, owned by the sweep; NULL for NULL. */
TRIVET_API const trivet_document *trivet_sweep_document(const trivet_sweep *sweep);
/** The number of variants; 0 for NULL. */
TRIVET_API int64_t trivet_sweep_count(const trivet_sweep *sweep);
/** The number of inputs that vary. */
TRIVET_API int32_t trivet_sweep_input_count(const trivet_sweep *sweep);
/**
 * The name of an input: a name of `let`, a group of stock, "cargo NAME", "case NAME".
 *
 * @param dimension_out a trivet_dimension; -1 for a number whose units have no name (it is in SI);
 *                      -2 for a choice of stock; may be NULL
 * @return owned by the sweep; NULL if there is none
 */
TRIVET_API const char *trivet_sweep_input(const trivet_sweep *sweep, int32_t input,
                                          int32_t *dimension_out);
/** The name of a choice of an input; NULL if there is none. Owned by the sweep. */
TRIVET_API const char *trivet_sweep_choice(const trivet_sweep *sweep, int32_t input,
                                           int32_t choice);
/**
 * The inputs of a variant.
 *
 * @param values_out [input_count] SI, factors, or numbers of choices
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX
 */
TRIVET_API trivet_status trivet_sweep_inputs(const trivet_sweep *sweep, int64_t number,
                                             double *values_out);

/** What became of a variant. */
typedef enum trivet_outcome {
    TRIVET_OUTCOME_CHECKED = 0, /**< solved and checked */
    TRIVET_OUTCOME_SKIPPED = 1, /**< a condition of the file, or the shop, rules it out */
    TRIVET_OUTCOME_FAILED = 2   /**< it cannot be made or solved: reason says why */
} trivet_outcome;

enum { TRIVET_REASON_MAX = 512 };

/** The answer for one variant. */
typedef struct trivet_variant {
    size_t size;
    int64_t number;
    int32_t outcome;                     /**< a trivet_outcome */
    int32_t verdicts[TRIVET_LINE_COUNT]; /**< a trivet_verdict for each line */
    double used[TRIVET_LINE_COUNT];      /**< worst utilisation; NaN: nothing was checked */
    double droop;                        /**< m, the most in any case */
    double mass;                         /**< kg, of the frame without cargo */
    double price;                        /**< of tubes and inserts; NaN: not all have a price */
    double mount_force;                  /**< N, the largest resultant force on a mount */
    char check[32];                      /**< the check that governs; "" if none */
    char where[TRIVET_NAME_MAX];         /**< tube, joint or mount */
    char in_case[TRIVET_NAME_MAX];
    char reason[TRIVET_REASON_MAX]; /**< "" if it was checked */
} trivet_variant;

/** Fills a variant with zeros and its size. */
TRIVET_API trivet_status trivet_variant_defaults(trivet_variant *variant, size_t size);

/** What a sweep hands on as it goes, in order of number. Return other than 0 to stop. */
typedef int trivet_sweep_taker(void *user, const trivet_variant *variant, const double *inputs);

/**
 * Works out variants first .. first + count - 1.
 *
 * @param workers  threads, 1 to 256
 * @param taker    called by the calling thread alone; what it is handed is gone once it returns
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE (workers),
 *         TRIVET_NO_MEMORY, TRIVET_INTERRUPTED (the taker wished it), TRIVET_INTERNAL
 *
 * Nothing grows with the number of variants.
 */
TRIVET_API trivet_status trivet_sweep_run(const trivet_sweep *sweep, int64_t first, int64_t count,
                                          int32_t workers, trivet_sweep_taker *taker, void *user,
                                          trivet_message *message);

/** How a sweep is stored. */
typedef struct trivet_sweep_settings {
    size_t size;
    int32_t part;    /**< 1 to parts: which share of the variants */
    int32_t parts;   /**< 1 */
    int32_t workers; /**< threads; 1 */
    int32_t checks;  /**< 1: the worst of each kind of check of every variant is kept too */
} trivet_sweep_settings;

/** Fills settings: the whole, one worker, no checks. */
TRIVET_API trivet_status trivet_sweep_settings_defaults(trivet_sweep_settings *settings,
                                                        size_t size);

/** Told after every variant how many of how many are stored. Return other than 0 to stop. */
typedef int trivet_sweep_progress(void *user, int64_t done, int64_t count);

/**
 * Runs a sweep into a store: an SQLite file, made or gone on with. Stopped or killed at any moment
 * and called again, it goes on where it was and ends with the same content.
 *
 * @param progress may be NULL
 * @return what trivet_sweep_run returns, TRIVET_UNWRITABLE (the disk is full, somebody else is
 *         writing), TRIVET_UNREADABLE (the file is no store), TRIVET_BAD_VALUE (it holds another
 *         run: the message says what differs)
 */
TRIVET_API trivet_status trivet_sweep_store(const trivet_sweep *sweep,
                                            const trivet_sweep_settings *settings, const char *path,
                                            trivet_sweep_progress *progress, void *user,
                                            trivet_message *message);

/**
 * Merges the finished stores of all parts of one sweep into one.
 *
 * @param parts [count] paths
 */
TRIVET_API trivet_status trivet_sweep_merge(const char *path, const char *const *parts,
                                            int32_t count, trivet_message *message);

/** Takes the next length bytes of a text. Return other than 0 to stop: it could not be written. */
typedef int trivet_text_taker(void *user, const char *text, size_t length);

/**
 * Hands out a store as CSV that a spreadsheet opens right (RFC 4180, UTF-8). units NULL: mm, kg, N.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_UNREADABLE, TRIVET_UNWRITABLE (the taker
 *         wished it), TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_sweep_csv(const char *store_path, const trivet_units *units,
                                          trivet_text_taker *taker, void *user,
                                          trivet_message *message);

/** What a store holds. Numbers of variants are -1 where there is none. */
typedef struct trivet_sweep_summary {
    size_t size;
    int64_t count;    /**< variants of the whole sweep */
    int64_t first;    /**< of the part that this store is for */
    int64_t end;      /**< behind its last */
    int64_t stored;   /**< rows that are there */
    int64_t checked;  /**< of them: solved and checked */
    int64_t skipped;  /**< ruled out */
    int64_t failed;   /**< could not be made or solved */
    int64_t hold;     /**< hold in every line */
    int64_t lightest; /**< number of the lightest that holds */
    int64_t cheapest;
    int64_t stiffest;  /**< the one with the least droop that holds */
    double least_mass; /**< kg; NaN if there is none, like those below */
    double least_price;
    double least_droop; /**< m */
    int32_t is_finished;
} trivet_sweep_summary;

/** Fills a summary with zeros and its size. */
TRIVET_API trivet_status trivet_sweep_summary_defaults(trivet_sweep_summary *summary, size_t size);
/** Sums a store up. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, UNREADABLE, NO_MEMORY. */
TRIVET_API trivet_status trivet_sweep_summarise(const char *store_path,
                                                trivet_sweep_summary *summary_out,
                                                trivet_message *message);

/** Whether a variant holds in every line that was checked, the overload line among them. */
TRIVET_API bool trivet_variant_holds(const trivet_variant *variant);

/** What a pick looks for. */
typedef enum trivet_pick_aim {
    TRIVET_PICK_MASS = 0,
    TRIVET_PICK_PRICE = 1,
    TRIVET_PICK_DROOP = 2
} trivet_pick_aim;

/** How to pick. */
typedef struct trivet_pick_settings {
    size_t size;
    int32_t aim;        /**< a trivet_pick_aim; mass */
    int32_t runners_up; /**< how many more that hold are looked for, 0 to 100; 3 */
    int32_t workers;    /**< threads; 1 */
    int64_t most;       /**< variants that are solved at most; 100000 */
} trivet_pick_settings;

/** Fills settings. */
TRIVET_API trivet_status trivet_pick_settings_defaults(trivet_pick_settings *settings, size_t size);

typedef struct trivet_pick trivet_pick;

/**
 * Picks the best variant of a sweep that holds in every line.
 *
 * Mass and price are worked out for all variants without solving; they are then solved from the
 * least upward until enough hold. So the first that holds is proven best: every lighter one was
 * solved and failed. Nothing is assumed of what more stock does. For droop all are solved.
 *
 * @param progress may be NULL; told how many are solved, of how many at most
 * @param pick_out NULL on failure; free with trivet_pick_free
 * @return what trivet_sweep_run returns, TRIVET_BAD_VALUE (settings; more than 1000000 variants; a
 *         price is asked for and stock has none)
 */
TRIVET_API trivet_status trivet_pick_new(const trivet_sweep *sweep,
                                         const trivet_pick_settings *settings,
                                         trivet_sweep_progress *progress, void *user,
                                         trivet_pick **pick_out, trivet_message *message);
/** Frees a pick. NULL is ignored. */
TRIVET_API void trivet_pick_free(trivet_pick *pick);

/** How a pick went. */
typedef struct trivet_picked {
    size_t size;
    int32_t is_found;  /**< 1: the first row is the best that was found */
    int32_t is_proven; /**< 1: none better holds; 0: the search stopped at settings.most */
    int64_t count;     /**< variants of the sweep */
    int64_t ruled_out; /**< of them: skipped, or impossible to make */
    int64_t solved;
    int64_t held; /**< of the solved */
    double bound; /**< whatever was not solved is at least this: kg, money; NaN: all solved */
} trivet_picked;

/** Fills it with zeros and its size. */
TRIVET_API trivet_status trivet_picked_defaults(trivet_picked *picked, size_t size);
/** How a pick went. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_pick_outcome(const trivet_pick *pick, trivet_picked *picked_out);

/**
 * The variants that are worth showing: first those that hold, best first, then those that would
 * have been better and do not hold, the nearest first.
 *
 * @return how many there are
 */
TRIVET_API int32_t trivet_pick_count(const trivet_pick *pick);
/**
 * One of them.
 *
 * @param inputs_out [input count of the sweep]; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX
 */
TRIVET_API trivet_status trivet_pick_at(const trivet_pick *pick, int32_t index,
                                        trivet_variant *variant_out, double *inputs_out);
/** A pick as JSON, SI units; free with trivet_text_free. */
TRIVET_API trivet_status trivet_pick_json(const trivet_pick *pick, char **text_out,
                                          trivet_message *message);

/**
 * A variant written as a file of its own, without `vary` and `expect`: JSON, which is YAML.
 * Reading, solving and checking it gives the same bits as the sweep.
 *
 * @param text_out free with trivet_text_free
 */
TRIVET_API trivet_status trivet_sweep_variant_text(const trivet_sweep *sweep, int64_t number,
                                                   char **text_out, trivet_message *message);

#ifdef __cplusplus
}
#endif

#endif
