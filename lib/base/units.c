/*
 * Units: their factors, what a dimension is called, and in which unit a person sees it.
 *
 * Factors are exact by definition: inch 0.0254 m, pound 0.45359237 kg (international yard and pound
 * agreement, 1959), standard gravity 9.80665 m/s^2 (3rd general conference on weights and measures,
 * 1901), pound-force and kilogram-force from these; psi = lbf/in^2. pi to the nearest double.
 */
#include "base/units.h"

#include "base/decimal.h"
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define PI 3.14159265358979323846
#define LBF_TIMES 44482216152605.0 /* 0.45359237 * 9.80665 = 4.4482216152605, over 1e13 */
#define LBF_OVER 1e13
#define LB_TIMES 45359237.0
#define LB_OVER 1e8
#define PSI_OVER 6451600000.0 /* 1e13 * 0.0254^2 */

static const trivet__unit units_known[] = {
    {"m", 1.0, 1.0, 1, 0, 0, 0},
    {"mm", 1.0, 1e3, 1, 0, 0, 0},
    {"cm", 1.0, 1e2, 1, 0, 0, 0},
    {"km", 1e3, 1.0, 1, 0, 0, 0},
    {"in", 254.0, 1e4, 1, 0, 0, 0},
    {"ft", 3048.0, 1e4, 1, 0, 0, 0},
    {"kg", 1.0, 1.0, 0, 1, 0, 0},
    {"g", 1.0, 1e3, 0, 1, 0, 0},
    {"lb", LB_TIMES, LB_OVER, 0, 1, 0, 0},
    {"N", 1.0, 1.0, 1, 1, -2, 0},
    {"kN", 1e3, 1.0, 1, 1, -2, 0},
    {"lbf", LBF_TIMES, LBF_OVER, 1, 1, -2, 0},
    {"kgf", 980665.0, 1e5, 1, 1, -2, 0},
    {"Pa", 1.0, 1.0, -1, 1, -2, 0},
    {"kPa", 1e3, 1.0, -1, 1, -2, 0},
    {"MPa", 1e6, 1.0, -1, 1, -2, 0},
    {"GPa", 1e9, 1.0, -1, 1, -2, 0},
    {"psi", LBF_TIMES, PSI_OVER, -1, 1, -2, 0},
    {"ksi", LBF_TIMES * 1e3, PSI_OVER, -1, 1, -2, 0},
    {"s", 1.0, 1.0, 0, 0, 1, 0},
    {"ms", 1.0, 1e3, 0, 0, 1, 0},
    {"min", 60.0, 1.0, 0, 0, 1, 0},
    {"h", 3600.0, 1.0, 0, 0, 1, 0},
    {"Hz", 1.0, 1.0, 0, 0, -1, 0},
    {"K", 1.0, 1.0, 0, 0, 0, 1},
    {"rad", 1.0, 1.0, 0, 0, 0, 0},
    {"deg", PI, 180.0, 0, 0, 0, 0},
    {"%", 1.0, 1e2, 0, 0, 0, 0},
};

enum { UNIT_COUNT = sizeof units_known / sizeof units_known[0] };

const trivet__unit *trivet__unit_find(const char *text, size_t length)
{
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (strlen(units_known[i].text) == length &&
            memcmp(units_known[i].text, text, length) == 0) {
            return &units_known[i];
        }
    }
    return NULL;
}

const char *trivet__unit_nearest(const char *wish)
{
    trivet__nearest search = {wish, NULL, 0.0};
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        trivet__nearest_offer(&search, units_known[i].text);
    }
    return search.nearest;
}

/* Names and powers of m, kg, s and K, in the order of trivet_dimension. */
typedef struct dimension_row {
    const char *text;
    int32_t length;
    int32_t mass;
    int32_t time;
    int32_t temperature;
} dimension_row;

static const dimension_row dimensions[] = {
    [TRIVET_NUMBER] = {"plain number", 0, 0, 0, 0},
    [TRIVET_LENGTH] = {"length", 1, 0, 0, 0},
    [TRIVET_MASS] = {"mass", 0, 1, 0, 0},
    [TRIVET_FORCE] = {"force", 1, 1, -2, 0},
    [TRIVET_MOMENT] = {"moment", 2, 1, -2, 0},
    [TRIVET_STRESS] = {"stress", -1, 1, -2, 0},
    [TRIVET_ANGLE] = {"angle", 0, 0, 0, 0},
    [TRIVET_TEMPERATURE] = {"temperature", 0, 0, 0, 1},
    [TRIVET_TIME] = {"time", 0, 0, 1, 0},
    [TRIVET_FREQUENCY] = {"frequency", 0, 0, -1, 0},
    [TRIVET_AREA] = {"area", 2, 0, 0, 0},
    [TRIVET_VOLUME] = {"volume", 3, 0, 0, 0},
    [TRIVET_SECOND_MOMENT] = {"second moment of area", 4, 0, 0, 0},
    [TRIVET_DENSITY] = {"density", -3, 1, 0, 0},
    [TRIVET_MASS_PER_LENGTH] = {"mass per length", -1, 1, 0, 0},
    [TRIVET_LINE_LOAD] = {"line load", 0, 1, -2, 0},
    [TRIVET_TURN_SPRING] = {"turning spring", 2, 1, -2, 0},
    [TRIVET_EXPANSION] = {"thermal expansion", 0, 0, 0, -1},
    [TRIVET_ACCELERATION] = {"acceleration", 1, 0, -2, 0},
    [TRIVET_SPEED] = {"speed", 1, 0, -1, 0},
    [TRIVET_PER_AREA] = {"number per area", -2, 0, 0, 0},
    [TRIVET_PER_VOLUME] = {"number per volume", -3, 0, 0, 0},
};

enum { DIMENSION_COUNT = sizeof dimensions / sizeof dimensions[0] };

static const dimension_row *dimension_of(trivet_dimension number)
{
    return (int)number >= 0 && (int)number < DIMENSION_COUNT ? &dimensions[number] : NULL;
}

static bool has_powers(const trivet_quantity *quantity, const dimension_row *of)
{
    return quantity->length == of->length && quantity->mass == of->mass &&
           quantity->time == of->time && quantity->temperature == of->temperature;
}

bool trivet_quantity_fits(const trivet_quantity *quantity, trivet_dimension dimension)
{
    const dimension_row *const of = dimension_of(dimension);
    return quantity && of && has_powers(quantity, of);
}

const char *trivet_dimension_text(trivet_dimension dimension)
{
    const dimension_row *const of = dimension_of(dimension);
    return of ? of->text : "unknown";
}

void trivet__quantity_describe(const trivet_quantity *quantity, char *text, size_t size)
{
    for (size_t i = 0; i < DIMENSION_COUNT; i++) {
        if (has_powers(quantity, &dimensions[i])) {
            trivet__text_copy(text, size, dimensions[i].text);
            return;
        }
    }
    static const char *const bases[] = {"m", "kg", "s", "K"};
    const int32_t powers[] = {quantity->length, quantity->mass, quantity->time,
                              quantity->temperature};
    char whole[96] = "quantity in";
    for (int i = 0; i < 4; i++) {
        const size_t end = strlen(whole);
        if (powers[i] == 1) {
            snprintf(whole + end, sizeof whole - end, " %s", bases[i]);
        } else if (powers[i] != 0) {
            snprintf(whole + end, sizeof whole - end, " %s^%d", bases[i], (int)powers[i]);
        }
    }
    trivet__text_copy(text, size, whole);
}

trivet_status trivet_units_defaults(trivet_units *units, size_t size)
{
    const trivet_status status = trivet__defaults(units, size, sizeof *units);
    if (status == TRIVET_OK) {
        *units = (trivet_units){.size = size, .length = "mm", .mass = "kg", .force = "N"};
    }
    return status;
}

/* A unit in which results are shown: SI = shown * times / over. */
typedef struct shown_unit {
    const char *text;
    double times;
    double over;
} shown_unit;

/* Which column of the table below the wish for lengths leads to. */
typedef enum length_wish { WISH_MM, WISH_CM, WISH_M, WISH_IN, WISH_FT } length_wish;

static length_wish wish_for_length(const trivet_units *units)
{
    static const char *const texts[] = {"mm", "cm", "m", "in", "ft"};
    for (int i = 0; units && units->size == sizeof *units && i < 5; i++) {
        if (strncmp(units->length, texts[i], sizeof units->length) == 0) {
            return (length_wish)i;
        }
    }
    return WISH_MM;
}

/*
 * Metric and inch-pound ways of showing, feet where they differ from inches. Section values stay in
 * mm or inches even if lengths are shown in m or feet.
 */
typedef struct shown_row {
    shown_unit metric;
    shown_unit inch;
    shown_unit foot;
} shown_row;

#define SAME(text, times, over)                                                                    \
    {                                                                                              \
        {text, times, over}, {text, times, over},                                                  \
        {                                                                                          \
            text, times, over                                                                      \
        }                                                                                          \
    }

static const shown_row shown[] = {
    [TRIVET_NUMBER] = SAME("", 1.0, 1.0),
    [TRIVET_LENGTH] = {{"mm", 1.0, 1e3}, {"in", 254.0, 1e4}, {"ft", 3048.0, 1e4}},
    [TRIVET_MASS] = SAME("kg", 1.0, 1.0),
    [TRIVET_FORCE] = SAME("N", 1.0, 1.0),
    [TRIVET_MOMENT] = {{"N*m", 1.0, 1.0},
                       {"lbf*in", LBF_TIMES * 254.0, LBF_OVER * 1e4},
                       {"lbf*ft", LBF_TIMES * 3048.0, LBF_OVER * 1e4}},
    [TRIVET_STRESS] = {{"N/mm^2", 1e6, 1.0},
                       {"psi", LBF_TIMES, PSI_OVER},
                       {"psi", LBF_TIMES, PSI_OVER}},
    [TRIVET_ANGLE] = SAME("deg", PI, 180.0),
    [TRIVET_TEMPERATURE] = SAME("K", 1.0, 1.0),
    [TRIVET_TIME] = SAME("s", 1.0, 1.0),
    [TRIVET_FREQUENCY] = SAME("Hz", 1.0, 1.0),
    [TRIVET_AREA] = {{"mm^2", 1.0, 1e6}, {"in^2", 64516.0, 1e8}, {"in^2", 64516.0, 1e8}},
    [TRIVET_VOLUME] = {{"mm^3", 1.0, 1e9}, {"in^3", 16387064.0, 1e12}, {"in^3", 16387064.0, 1e12}},
    [TRIVET_SECOND_MOMENT] = {{"mm^4", 1.0, 1e12},
                              {"in^4", 4162314256.0, 1e16},
                              {"in^4", 4162314256.0, 1e16}},
    [TRIVET_DENSITY] = {{"kg/m^3", 1.0, 1.0},
                        {"lb/in^3", LB_TIMES * 1e4, 16387064.0},
                        {"lb/in^3", LB_TIMES * 1e4, 16387064.0}},
    [TRIVET_MASS_PER_LENGTH] = {{"kg/m", 1.0, 1.0},
                                {"lb/ft", LB_TIMES, 30480000.0},
                                {"lb/ft", LB_TIMES, 30480000.0}},
    [TRIVET_LINE_LOAD] = {{"N/mm", 1e3, 1.0},
                          {"lbf/in", LBF_TIMES, 254e9},
                          {"lbf/ft", LBF_TIMES, 3048e9}},
    [TRIVET_TURN_SPRING] = {{"N*m/rad", 1.0, 1.0},
                            {"lbf*in/rad", LBF_TIMES * 254.0, LBF_OVER * 1e4},
                            {"lbf*ft/rad", LBF_TIMES * 3048.0, LBF_OVER * 1e4}},
    [TRIVET_EXPANSION] = SAME("/K", 1.0, 1.0),
    [TRIVET_ACCELERATION] = {{"m/s^2", 1.0, 1.0}, {"in/s^2", 254.0, 1e4}, {"ft/s^2", 3048.0, 1e4}},
    [TRIVET_SPEED] = {{"m/s", 1.0, 1.0}, {"in/s", 254.0, 1e4}, {"ft/s", 3048.0, 1e4}},
    [TRIVET_PER_AREA] = {{"/mm^2", 1e6, 1.0}, {"/in^2", 1e8, 64516.0}, {"/in^2", 1e8, 64516.0}},
    [TRIVET_PER_VOLUME] = {{"/mm^3", 1e9, 1.0},
                           {"/in^3", 1e12, 16387064.0},
                           {"/in^3", 1e12, 16387064.0}},
};

/* The columns for cm and m where they differ from that for mm. */
static const shown_unit length_in_cm = {"cm", 1.0, 1e2};
static const shown_unit length_in_m = {"m", 1.0, 1.0};
static const shown_unit section_in_cm[] = {
    {"cm^2", 1.0, 1e4}, {"cm^3", 1.0, 1e6}, {"cm^4", 1.0, 1e8}};

/* The wish for a mass or a force, if it is one; fallback otherwise. */
static shown_unit wished_or(const char *wish, size_t size, trivet_dimension dimension,
                            shown_unit fallback)
{
    const char *const end = memchr(wish, '\0', size);
    const trivet__unit *const unit = end ? trivet__unit_find(wish, (size_t)(end - wish)) : NULL;
    if (!unit || unit->length != dimensions[dimension].length ||
        unit->mass != dimensions[dimension].mass || unit->time != dimensions[dimension].time) {
        return fallback;
    }
    return (shown_unit){unit->text, unit->times, unit->over};
}

static shown_unit shown_for(const trivet_units *units, trivet_dimension dimension)
{
    if (!dimension_of(dimension)) {
        return shown[TRIVET_NUMBER].metric;
    }
    const shown_row *const row = &shown[dimension];
    if (units && units->size == sizeof *units && dimension == TRIVET_MASS) {
        return wished_or(units->mass, sizeof units->mass, dimension, row->metric);
    }
    if (units && units->size == sizeof *units && dimension == TRIVET_FORCE) {
        return wished_or(units->force, sizeof units->force, dimension, row->metric);
    }
    switch (wish_for_length(units)) {
    case WISH_IN:
        return row->inch;
    case WISH_FT:
        return row->foot;
    case WISH_M:
        return dimension == TRIVET_LENGTH ? length_in_m : row->metric;
    case WISH_CM:
        if (dimension >= TRIVET_AREA && dimension <= TRIVET_SECOND_MOMENT) {
            return section_in_cm[dimension - TRIVET_AREA];
        }
        return dimension == TRIVET_LENGTH ? length_in_cm : row->metric;
    case WISH_MM:
    default:
        return row->metric;
    }
}

const char *trivet_units_for(const trivet_units *units, trivet_dimension dimension,
                             double *factor_out)
{
    const shown_unit unit = shown_for(units, dimension);
    if (factor_out) {
        *factor_out = unit.times / unit.over;
    }
    return unit.text;
}

size_t trivet_units_text(const trivet_units *units, trivet_dimension dimension, double value,
                         int32_t digits, char *text, size_t size)
{
    if (isnan(value)) {
        return trivet__text_print(text, size, "%s", "not known");
    }
    const shown_unit unit = shown_for(units, dimension);
    const double number = value * unit.over / unit.times;
    if (isinf(number)) {
        return trivet__text_print(text, size, "%s", number > 0.0 ? "infinite" : "minus infinite");
    }
    char figures[64];
    trivet__decimal_write(number, digits, figures, sizeof figures);
    return trivet__text_print(text, size, "%s%s%s", figures, unit.text[0] ? " " : "", unit.text);
}
