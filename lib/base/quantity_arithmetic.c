/*
 * Arithmetic of the reader of quantities: powers of units are kept beside the value.
 */
#include "base/message.h"
#include "base/quantity_reader.h"
#include "base/units.h"

#include <math.h>

trivet_status trivet__reader_add(const trivet__reader *r, trivet_quantity *to,
                                 const trivet_quantity *term, char sign, size_t at)
{
    if (to->length != term->length || to->mass != term->mass || to->time != term->time ||
        to->temperature != term->temperature) {
        char one[96];
        char other[96];
        trivet__quantity_describe(to, one, sizeof one);
        trivet__quantity_describe(term, other, sizeof other);
        const int has_bare = !to->has_unit || !term->has_unit;
        trivet__reader_refuse(r, TRIVET_BAD_UNIT, at, "",
                              has_bare ? "write the unit behind the plain number too"
                                       : "use quantities of the same kind on both sides");
        trivet__message_problem(r->message,
                                sign == '+' ? "%s and %s cannot be added"
                                            : "%s and %s cannot be subtracted",
                                one, other);
        return TRIVET_BAD_UNIT;
    }
    to->value += sign == '+' ? term->value : -term->value;
    to->has_unit |= term->has_unit;
    return trivet__reader_check(r, to, at);
}

trivet_status trivet__reader_multiply(const trivet__reader *r, trivet_quantity *to,
                                      const trivet_quantity *factor, char sign, size_t at)
{
    if (sign == '/' && factor->value == 0.0) {
        return trivet__reader_refuse(r, TRIVET_BAD_VALUE, at, "this divides by zero",
                                     "give a number other than 0 behind the /");
    }
    const int32_t turn = sign == '*' ? 1 : -1;
    to->value = sign == '*' ? to->value * factor->value : to->value / factor->value;
    to->length += turn * factor->length;
    to->mass += turn * factor->mass;
    to->time += turn * factor->time;
    to->temperature += turn * factor->temperature;
    to->has_unit |= factor->has_unit;
    return trivet__reader_check(r, to, at);
}

trivet_status trivet__reader_raise(const trivet__reader *r, trivet_quantity *base,
                                   const trivet_quantity *exponent, size_t at)
{
    if (!trivet_quantity_fits(exponent, TRIVET_NUMBER)) {
        return trivet__reader_refuse(
            r, TRIVET_BAD_UNIT, at, "the exponent has a unit",
            "give a plain number behind the ^, in brackets if a unit follows");
    }
    const double power = exponent->value;
    if (!trivet_quantity_fits(base, TRIVET_NUMBER)) {
        if (power != floor(power) || !(fabs(power) <= TRIVET__POWER_MAX)) {
            return trivet__reader_refuse(
                r, TRIVET_BAD_UNIT, at,
                "a quantity with a unit can only be raised to a whole power",
                "give a whole number from -64 to 64 behind the ^");
        }
        const int32_t whole = (int32_t)power;
        base->length *= whole;
        base->mass *= whole;
        base->time *= whole;
        base->temperature *= whole;
    }
    if (base->value == 0.0 && power < 0.0) {
        return trivet__reader_refuse(r, TRIVET_BAD_VALUE, at, "this divides by zero",
                                     "give a number other than 0 before the ^");
    }
    base->value = pow(base->value, power);
    return trivet__reader_check(r, base, at);
}

trivet_status trivet__reader_scale(const trivet__reader *r, trivet_quantity *value,
                                   const trivet_quantity *powers, double times, double over,
                                   size_t at)
{
    value->length += powers->length;
    value->mass += powers->mass;
    value->time += powers->time;
    value->temperature += powers->temperature;
    value->has_unit |= powers->has_unit;
    value->value = value->value * times / over;
    return trivet__reader_check(r, value, at);
}
