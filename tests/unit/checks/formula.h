/*
 * Working out the formulas of a check's working, line by line, as a person with a calculator would.
 */
#ifndef TRIVET_TESTS_FORMULA_H
#define TRIVET_TESTS_FORMULA_H

typedef struct formula_symbol {
    char name[32];
    double value;
} formula_symbol;

/*
 * The value of a formula of numbers, symbols, + - * / ^ ( ), sqrt, abs, max, min, sin, cos and
 * pi; angles in rad.
 * Not-a-number if it cannot be read or names a symbol that is not among symbols[count].
 */
double formula_value(const char *formula, const formula_symbol *symbols, int count);

#endif
