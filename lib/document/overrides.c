/*
 * Looking up what a variant says instead of the file. The lists are short.
 */
#include "document/overrides.h"

#include <string.h>

const trivet_quantity *trivet__override_let(const trivet__overrides *overrides, const char *name)
{
    for (int32_t i = 0; overrides && i < overrides->let_count; i++) {
        if (strcmp(overrides->lets[i].name, name) == 0) {
            return &overrides->lets[i].quantity;
        }
    }
    return NULL;
}

const trivet__stock_choice *trivet__override_stock(const trivet__overrides *overrides,
                                                   const char *name)
{
    for (int32_t i = 0; overrides && i < overrides->stock_count; i++) {
        if (strcmp(overrides->stocks[i].name, name) == 0) {
            return overrides->stocks[i].choice;
        }
    }
    return NULL;
}

static double find_factor(const trivet__factor_override *list, int32_t count, const char *name)
{
    for (int32_t i = 0; i < count; i++) {
        if (strcmp(list[i].name, name) == 0) {
            return list[i].factor;
        }
    }
    return 1.0;
}

double trivet__override_cargo(const trivet__overrides *overrides, const char *name)
{
    return overrides ? find_factor(overrides->cargos, overrides->cargo_count, name) : 1.0;
}

double trivet__override_case(const trivet__overrides *overrides, const char *name)
{
    return overrides ? find_factor(overrides->cases, overrides->case_count, name) : 1.0;
}
