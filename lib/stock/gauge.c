/*
 * Gauge numbers: BWG (Birmingham wire gauge, walls of tube) and MSG (manufacturers' standard gauge,
 * uncoated steel sheet), in the printed digits. MSG is weight: 41.82 lb/ft^2 an inch.
 * The two differ for the same number, which is why a number alone is refused.
 */
#include "stock/gauge.h"

#include "base/message.h"
#include "base/quantity.h"

#include <math.h>
#include <string.h>

enum { FIRST_GAUGE = 7, LAST_GAUGE = 20 };

typedef struct gauge_row {
    double bwg; /* 0.0001 in */
    double msg; /* 0.0001 in */
} gauge_row;

static const gauge_row gauge_rows[LAST_GAUGE - FIRST_GAUGE + 1] = {
    {1800.0, 1793.0}, {1650.0, 1644.0}, {1480.0, 1495.0}, {1340.0, 1345.0}, {1200.0, 1196.0},
    {1090.0, 1046.0}, {950.0, 897.0},   {830.0, 747.0},   {720.0, 673.0},   {650.0, 598.0},
    {580.0, 538.0},   {490.0, 478.0},   {420.0, 418.0},   {350.0, 359.0},
};

void trivet_gauge_range(int32_t *first_out, int32_t *last_out)
{
    if (first_out) {
        *first_out = FIRST_GAUGE;
    }
    if (last_out) {
        *last_out = LAST_GAUGE;
    }
}

static double thickness_of(int32_t system, int32_t number)
{
    const gauge_row *const row = &gauge_rows[number - FIRST_GAUGE];
    return (system == TRIVET_BWG ? row->bwg : row->msg) * 254.0 / 1e8;
}

trivet_status trivet_gauge_thickness(int32_t system, int32_t number, double *thickness_out,
                                     trivet_message *message)
{
    trivet_message_clear(message);
    if (!thickness_out) {
        return trivet__missing(message, "thickness_out");
    }
    *thickness_out = 0.0;
    if (system != TRIVET_BWG && system != TRIVET_MSG) {
        trivet__refuse(message, TRIVET_BAD_VALUE, "gauge", "", "use TRIVET_BWG or TRIVET_MSG");
        trivet__message_problem(message, "%d is no system of gauges", (int)system);
        return TRIVET_BAD_VALUE;
    }
    if (number < FIRST_GAUGE || number > LAST_GAUGE) {
        trivet__refuse(message, TRIVET_BAD_VALUE, "", "",
                       "give the thickness as a length, such as 1.5 mm");
        trivet__message_thing(message, "gauge %d", (int)number);
        trivet__message_problem(message, "is not in the table, which goes from %d to %d",
                                FIRST_GAUGE, LAST_GAUGE);
        return TRIVET_BAD_VALUE;
    }
    *thickness_out = thickness_of(system, number);
    return TRIVET_OK;
}

static trivet_status refuse_without_system(int32_t number, trivet_message *message)
{
    char tube[32];
    char sheet[32];
    const int32_t shown = number < FIRST_GAUGE || number > LAST_GAUGE ? 16 : number;
    trivet_units_text(NULL, TRIVET_LENGTH, thickness_of(TRIVET_BWG, shown), 4, tube, sizeof tube);
    trivet_units_text(NULL, TRIVET_LENGTH, thickness_of(TRIVET_MSG, shown), 4, sheet, sizeof sheet);
    trivet__refuse(message, TRIVET_BAD_UNIT, "", "", "");
    trivet__message_thing(message, "gauge %d", (int)number);
    trivet__message_problem(message,
                            "the system is missing: %d ga is %s as BWG (wall of tube) and %s as "
                            "MSG (steel sheet)",
                            (int)shown, tube, sheet);
    trivet__message_remedy(message, "write %d ga BWG or %d ga MSG", (int)shown, (int)shown);
    return TRIVET_BAD_UNIT;
}

/* Whether a word is BWG or MSG, capitals ignored; 0 if neither. */
static int32_t system_named(const char *system, size_t length)
{
    static const char *const names[] = {"bwg", "msg"};
    for (int32_t i = 0; i < 2; i++) {
        size_t same = 0;
        while (same < length && same < 3 && (system[same] | ' ') == names[i][same]) {
            same++;
        }
        if (same == length && same == 3) {
            return TRIVET_BWG + i;
        }
    }
    return 0;
}

trivet_status trivet__gauge_read(void *user, double number, const char *system, size_t length,
                                 double *thickness_out, trivet_message *message)
{
    (void)user;
    *thickness_out = 0.0;
    if (!(number == floor(number)) || !(fabs(number) < 1000.0)) {
        trivet__refuse(message, TRIVET_BAD_VALUE, "gauge", "a gauge is a whole number",
                       "give the thickness as a length, such as 1.5 mm");
        return TRIVET_BAD_VALUE;
    }
    if (length == 0) {
        return refuse_without_system((int32_t)number, message);
    }
    const int32_t named = system_named(system, length);
    if (named != 0) {
        return trivet_gauge_thickness(named, (int32_t)number, thickness_out, message);
    }
    const int shown = length < 32 ? (int)length : 32;
    trivet__refuse(message, TRIVET_BAD_UNIT, "", "",
                   "write BWG for the wall of tube or MSG for steel sheet");
    trivet__message_thing(message, "gauge %d", (int)number);
    trivet__message_problem(message, "\"%.*s\" is no system of gauges", shown, system);
    return TRIVET_BAD_UNIT;
}

trivet_status trivet_stock_quantity_read(const char *text, trivet_quantity *quantity_out,
                                         trivet_message *message)
{
    if (quantity_out) {
        *quantity_out = (trivet_quantity){0};
    }
    if (!text || !quantity_out) {
        return trivet__missing(message, text ? "quantity_out" : "text");
    }
    const trivet__quantity_hooks hooks = {.gauge = trivet__gauge_read};
    return trivet__quantity_parse(text, strlen(text), &hooks, quantity_out, message);
}
