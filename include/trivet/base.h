/**
 * @file
 * What every other part stands on: version, statuses, messages, quantities with units.
 *
 * All numbers are SI: m, kg, s, N, Pa, rad, K. World axes: x forward, y left, z up (ISO 8855).
 * A call that can fail returns a trivet_status and, if the caller hands in a message, says in it
 * which thing, what is wrong and what to do. No call prints, exits or reads the environment.
 */
#ifndef TRIVET_BASE_H
#define TRIVET_BASE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__) || defined(__clang__)
#define TRIVET_API __attribute__((visibility("default")))
#else
#define TRIVET_API
#endif

/** The version, here and nowhere else; the build reads it from this line. */
#define TRIVET_VERSION "0.1.0"

/** The number of the binary interface; the shared library's name ends in it. */
#define TRIVET_ABI 1

/**
 * All statuses: name, number (never changed), one line of text.
 * 10s: the call is wrong. 20s: the input is wrong. 30s: not computable. 40s: the machine.
 */
#define TRIVET_STATUS_LIST(ROW)                                                                    \
    ROW(TRIVET_OK, 0, "done")                                                                      \
    ROW(TRIVET_MISSING_ARGUMENT, 10, "an argument is missing")                                     \
    ROW(TRIVET_BAD_INDEX, 11, "an index is out of range")                                          \
    ROW(TRIVET_BAD_SIZE, 12, "a struct has a size this library never had")                         \
    ROW(TRIVET_BAD_ORDER, 13, "the calls came in the wrong order")                                 \
    ROW(TRIVET_BAD_VALUE, 20, "a value is out of range")                                           \
    ROW(TRIVET_BAD_UNIT, 21, "a unit is unknown or does not fit")                                  \
    ROW(TRIVET_BAD_NAME, 22, "a name is unknown or taken")                                         \
    ROW(TRIVET_BAD_KEY, 23, "a key is unknown or stands twice")                                    \
    ROW(TRIVET_BAD_SYNTAX, 24, "the text cannot be read")                                          \
    ROW(TRIVET_INCOMPLETE, 25, "something that is needed is missing")                              \
    ROW(TRIVET_UNREADABLE, 26, "a file cannot be read")                                            \
    ROW(TRIVET_MOVES_FREELY, 30, "the frame can move without resistance")                          \
    ROW(TRIVET_ILL_CONDITIONED, 31, "the equations lose too many digits")                          \
    ROW(TRIVET_NO_MEMORY, 40, "there is not enough memory")                                        \
    ROW(TRIVET_UNWRITABLE, 41, "a file cannot be written")                                         \
    ROW(TRIVET_INTERRUPTED, 42, "it was stopped before its end")                                   \
    ROW(TRIVET_INTERNAL, 90, "a mistake inside the library")

#define TRIVET_STATUS_ENUM_ROW(name, number, text) name = number,
/** What became of a call. 0 is success. */
typedef enum trivet_status { TRIVET_STATUS_LIST(TRIVET_STATUS_ENUM_ROW) } trivet_status;
#undef TRIVET_STATUS_ENUM_ROW

enum {
    TRIVET_THING_MAX = 160,   /**< bytes of trivet_message.thing, with the closing zero */
    TRIVET_PROBLEM_MAX = 320, /**< bytes of trivet_message.problem */
    TRIVET_REMEDY_MAX = 320,  /**< bytes of trivet_message.remedy */
    TRIVET_NAME_MAX = 128     /**< bytes of a user's name for a thing, with the closing zero */
};

/**
 * Which thing, what is wrong, what to do. Owned by the caller, needs no clean-up. UTF-8.
 * Texts that are too long are cut at a character.
 */
typedef struct trivet_message {
    int32_t status; /**< a trivet_status */
    int32_t line;   /**< in the file, from 1; 0 if the thing stands in no file */
    int32_t column; /**< in the line, from 1; 0 if unknown */
    char thing[TRIVET_THING_MAX];
    char problem[TRIVET_PROBLEM_MAX];
    char remedy[TRIVET_REMEDY_MAX];
} trivet_message;

/**
 * The version of the library that is running.
 *
 * @return static text such as "0.1.0"; compare with TRIVET_VERSION for the headers' version.
 */
TRIVET_API const char *trivet_version(void);

/** The number of the binary interface of the library that is running; compare with TRIVET_ABI. */
TRIVET_API int32_t trivet_abi(void);

/**
 * One line of text for a status.
 *
 * @param status any number
 * @return static text; "unknown status" for a number that is not a status.
 */
TRIVET_API const char *trivet_status_text(int32_t status);

/**
 * The exit status of the trivet command for a status: 0 done, 2 the input is wrong, 3 otherwise.
 * (1, "does not hold", is a verdict and not a status.)
 */
TRIVET_API int32_t trivet_status_exit(int32_t status);

/** Empties a message. NULL is ignored. */
TRIVET_API void trivet_message_clear(trivet_message *message);

/**
 * A message as one line: "line 4, column 7: tube left rail: the wall is 12 mm; give less".
 *
 * @param message what to write; NULL gives empty text
 * @param text    [size] filled with UTF-8 and a closing zero, cut at a character if too long
 * @param size    bytes of text; 0 writes nothing
 * @return bytes that the whole line needs without the closing zero
 */
TRIVET_API size_t trivet_message_text(const trivet_message *message, char *text, size_t size);

/** The kinds of number that Trivet reads and prints. */
typedef enum trivet_dimension {
    TRIVET_NUMBER = 0,           /**< a plain number, also a share such as 40 % */
    TRIVET_LENGTH = 1,           /**< m */
    TRIVET_MASS = 2,             /**< kg */
    TRIVET_FORCE = 3,            /**< N */
    TRIVET_MOMENT = 4,           /**< N m */
    TRIVET_STRESS = 5,           /**< Pa */
    TRIVET_ANGLE = 6,            /**< rad */
    TRIVET_TEMPERATURE = 7,      /**< K, a difference */
    TRIVET_TIME = 8,             /**< s */
    TRIVET_FREQUENCY = 9,        /**< Hz */
    TRIVET_AREA = 10,            /**< m^2 */
    TRIVET_VOLUME = 11,          /**< m^3, also a section modulus */
    TRIVET_SECOND_MOMENT = 12,   /**< m^4 */
    TRIVET_DENSITY = 13,         /**< kg/m^3 */
    TRIVET_MASS_PER_LENGTH = 14, /**< kg/m */
    TRIVET_LINE_LOAD = 15,       /**< N/m, also a spring */
    TRIVET_TURN_SPRING = 16,     /**< N m/rad */
    TRIVET_EXPANSION = 17,       /**< 1/K */
    TRIVET_ACCELERATION = 18,    /**< m/s^2 */
    TRIVET_SPEED = 19,           /**< m/s */
    TRIVET_PER_AREA = 20,        /**< 1/m^2, stress for a force of one */
    TRIVET_PER_VOLUME = 21       /**< 1/m^3, stress for a moment of one */
} trivet_dimension;

/** A number with the powers of its base units. Angles and shares are plain numbers. */
typedef struct trivet_quantity {
    double value;        /**< in SI */
    int32_t length;      /**< power of m */
    int32_t mass;        /**< power of kg */
    int32_t time;        /**< power of s */
    int32_t temperature; /**< power of K */
    int32_t has_unit;    /**< 0 if no unit was written anywhere: a bare number */
} trivet_quantity;

/**
 * Reads a quantity: arithmetic with units, such as "2 * 25 mm + 1-1/4 in" or "900 N*m/rad".
 *
 * @param text         UTF-8. Numbers, workshop fractions ("1 1/4 in", "1-1/4 in"), units, + - * /
 *                     ^ and brackets. No names. Gauges are read by trivet_length_read (stock.h).
 * @param quantity_out filled on success, zero otherwise
 * @param message      may be NULL; column is the place in text, from 1
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SYNTAX, TRIVET_BAD_UNIT (unknown unit, or
 *         sum of different dimensions), TRIVET_BAD_NAME, TRIVET_BAD_VALUE (overflow, division by 0)
 */
TRIVET_API trivet_status trivet_quantity_read(const char *text, trivet_quantity *quantity_out,
                                              trivet_message *message);

/**
 * Whether a quantity has the powers of a dimension. A plain number fits TRIVET_NUMBER and
 * TRIVET_ANGLE.
 */
TRIVET_API bool trivet_quantity_fits(const trivet_quantity *quantity, trivet_dimension dimension);

/** The plain name of a dimension, such as "length" or "stress". Static; "unknown" if it is none. */
TRIVET_API const char *trivet_dimension_text(trivet_dimension dimension);

/** The units that a person wants to see. Fill with trivet_units_defaults (mm, kg, N). */
typedef struct trivet_units {
    size_t size;     /**< sizeof(trivet_units) of the caller */
    char length[16]; /**< m, mm, cm, in or ft */
    char mass[16];   /**< kg, g or lb */
    char force[16];  /**< N, kN, lbf or kgf */
} trivet_units;

/**
 * Fills units with mm, kg, N.
 *
 * @param units what to fill
 * @param size  sizeof(trivet_units)
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE
 */
TRIVET_API trivet_status trivet_units_defaults(trivet_units *units, size_t size);

/**
 * The unit in which a dimension is shown: stress as N/mm^2 for metric lengths and psi for inches
 * and feet, moments as N*m (lbf*in for inches), angles as deg, and so on.
 *
 * @param units      the wish; NULL for the defaults
 * @param dimension  what is shown
 * @param factor_out SI value = shown value times this; may be NULL
 * @return static text such as "mm" or "lbf*in"; "" for a plain number
 */
TRIVET_API const char *trivet_units_for(const trivet_units *units, trivet_dimension dimension,
                                        double *factor_out);

/**
 * A value as people read it: "1.93 mm", "235 N/mm^2".
 *
 * @param units     NULL for the defaults
 * @param dimension what value is
 * @param value     in SI; not-a-number gives "not known"
 * @param digits    significant digits, 1 to 17; whole numbers are never cut ("1234 N" at 3 digits)
 * @param text      [size] filled and closed with zero
 * @param size      bytes of text; 0 writes nothing
 * @return bytes that the whole text needs without the closing zero
 */
TRIVET_API size_t trivet_units_text(const trivet_units *units, trivet_dimension dimension,
                                    double value, int32_t digits, char *text, size_t size);

#ifdef __cplusplus
}
#endif

#endif
