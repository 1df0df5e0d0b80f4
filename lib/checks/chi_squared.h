/*
 * The law of chi squared: how large a sum of squares becomes by chance.
 */
#ifndef TRIVET_CHECKS_CHI_SQUARED_H
#define TRIVET_CHECKS_CHI_SQUARED_H

#include <stdint.h>

/*
 * The value that chi squared with freedom degrees of freedom (at least 1) exceeds with probability
 * beyond, above 0 and below 1: 10.828 for 1 and 0.001.
 */
double trivet__chi_squared_quantile(int32_t freedom, double beyond);

#endif
