/*
 * Names as people write them.
 */
#ifndef TRIVET_STOCK_SPELLING_H
#define TRIVET_STOCK_SPELLING_H

/* Whether two names are equal but for capitals and blanks. */
int trivet__same_name(const char *one, const char *other);

#endif
