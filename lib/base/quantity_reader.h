/*
 * The text of a quantity while it is being read: the place, complaints about it, words and units.
 * For the files of the quantity reader alone.
 */
#ifndef TRIVET_BASE_QUANTITY_READER_H
#define TRIVET_BASE_QUANTITY_READER_H

#include "base/quantity.h"
#include "base/recorder.h"

enum {
    TRIVET__POWER_MAX = 64, /* of a base unit */
    TRIVET__WORD_SHOWN = 40 /* bytes of a word that a message repeats, with the closing zero */
};

typedef struct trivet__reader {
    const char *text;
    size_t length;
    size_t at;
    const trivet__quantity_hooks *hooks;
    trivet_message *message;
    int depth;                  /* of brackets */
    int has_number;             /* a number or name has been read: a unit may now stand alone */
    trivet__recorder *recorder; /* NULL: nothing is written down */
} trivet__reader;

/* Refuses what stands at a place; the problem may be given a format afterwards. */
trivet_status trivet__reader_refuse(const trivet__reader *r, trivet_status status, size_t at,
                                    const char *problem, const char *remedy);

/* Hands on a complaint that came from a hook: our place, unless the hook knows one in the file. */
trivet_status trivet__reader_pass_on(const trivet__reader *r, trivet_status status, size_t at);

/* A piece of the text for a message, cut at a character. */
void trivet__reader_piece(const trivet__reader *r, size_t at, size_t length,
                          char piece[TRIVET__WORD_SHOWN]);

/* Refuses a value that is not finite, or powers of units that nobody means. */
trivet_status trivet__reader_check(const trivet__reader *r, const trivet_quantity *value,
                                   size_t at);

/* Arithmetic: to becomes to + term (sign '+') or to - term; at is the place of the sign. */
trivet_status trivet__reader_add(const trivet__reader *r, trivet_quantity *to,
                                 const trivet_quantity *term, char sign, size_t at);
/* to * factor for sign '*', to / factor for '/'. */
trivet_status trivet__reader_multiply(const trivet__reader *r, trivet_quantity *to,
                                      const trivet_quantity *factor, char sign, size_t at);
trivet_status trivet__reader_raise(const trivet__reader *r, trivet_quantity *base,
                                   const trivet_quantity *exponent, size_t at);
/* Takes units on: their powers, and value * times / over. */
trivet_status trivet__reader_scale(const trivet__reader *r, trivet_quantity *value,
                                   const trivet_quantity *powers, double times, double over,
                                   size_t at);

/* The character at a place, 0 behind the end. */
char trivet__reader_char(const trivet__reader *r, size_t at);

/* Bytes of the character at a place: at least 1, never beyond the end. */
size_t trivet__reader_character(const trivet__reader *r, size_t at);

int trivet__reader_is_digit(char c);

/* Bytes of the word at a place, 0 if none begins there. "%" is a word of its own. */
size_t trivet__reader_word(const trivet__reader *r, size_t at);

/* The first place from at on that is not blank. */
size_t trivet__reader_behind_blanks(const trivet__reader *r, size_t at);

/* The value of a name; BAD_NAME if it is none. Other failures are those of the name's own value. */
trivet_status trivet__reader_name(const trivet__reader *r, size_t at, size_t length,
                                  trivet_quantity *out, trivet_message *message);

/* Refuses a word that is not a unit, offering the nearest. */
trivet_status trivet__reader_refuse_unit(const trivet__reader *r, size_t at, size_t length);

/* As trivet__quantity_parse, with a recorder or NULL. */
trivet_status trivet__quantity_record(const char *text, size_t length,
                                      const trivet__quantity_hooks *hooks,
                                      trivet__recorder *recorder, trivet_quantity *quantity_out,
                                      trivet_message *message);

/* Multiplies value by the units that stand behind it, if any; is_bracket: it is no number. */
trivet_status trivet__reader_units(trivet__reader *r, trivet_quantity *value, int is_bracket);

/* A number at r->at with its fraction, gauge or units. sign is the sign before it, or 0. */
trivet_status trivet__reader_number(trivet__reader *r, char sign, trivet_quantity *out);

#endif
