/*
 * The head of the file: its format, its name, what bare numbers mean; and its limits.
 */
#include "document/reading.h"

#include "base/text.h"

#include <string.h>

static trivet_status read_format(const trivet__reading *reading)
{
    const trivet__node *const node = trivet__member(reading, reading->root, "trivet");
    const trivet__thing thing = {.word = "trivet"};
    const trivet_status status = trivet__need_scalar(reading, node, &thing);
    if (status || strcmp(trivet__tree_text(reading->tree, node), "1") == 0) {
        return status;
    }
    char shown[TRIVET__SHOWN_MAX];
    trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "format \"%s\" is not known",
                            trivet__shown(reading, node, shown));
    trivet__message_remedy(reading->message, "write trivet: 1");
    return TRIVET_BAD_VALUE;
}

static trivet_status read_title(const trivet__reading *reading)
{
    const trivet__node *const node = trivet__member(reading, reading->root, "name");
    if (node && !trivet__tree_is_nothing(reading->tree, node)) {
        const trivet__thing thing = {.word = "name"};
        const trivet_status status = trivet__need_scalar(reading, node, &thing);
        if (status) {
            return status;
        }
    }
    const char *const title =
        trivet__tree_is_nothing(reading->tree, node) ? "" : trivet__tree_text(reading->tree, node);
    reading->document->name = trivet__keep(reading->document, title);
    return reading->document->name ? TRIVET_OK : trivet__no_memory(reading->message);
}

static const char *const length_units[] = {"m", "mm", "cm", "in", "ft"};
static const char *const mass_units[] = {"kg", "g", "lb"};
static const char *const force_units[] = {"N", "kN", "lbf", "kgf"};

/* One unit of the file; SI value of 1 of it comes out. */
static trivet_status read_unit(const trivet__reading *reading, const trivet__node *map,
                               const char *key, const char *const *words, int32_t count, char *unit,
                               size_t size, double *factor)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    if (!node) {
        return TRIVET_OK;
    }
    const trivet__thing within = {.word = "units"};
    trivet__thing thing;
    trivet__thing_key(&thing, &within, key);
    int32_t choice = 0;
    const trivet_status status = trivet__read_choice(reading, node, &thing, words, count, &choice);
    if (status) {
        return status;
    }
    char one[16];
    trivet_quantity quantity;
    trivet__text_print(one, sizeof one, "1 %s", words[choice]);
    trivet__text_copy(unit, size, words[choice]);
    const trivet_status read = trivet_quantity_read(one, &quantity, reading->message);
    if (!read) {
        *factor = quantity.value;
    }
    return read;
}

trivet_status trivet__read_units(trivet__reading *reading)
{
    trivet_units *const units = &reading->document->units;
    trivet_status status = trivet_units_defaults(units, sizeof *units);
    reading->length = 1e-3; /* mm, kg, N */
    reading->mass = 1.0;
    reading->force = 1.0;
    const trivet__node *const map = trivet__member(reading, reading->root, "units");
    if (status || !map) {
        return status;
    }
    const trivet__thing thing = {.word = "units"};
    status = trivet__check_keys(reading, map, NULL, &thing, TRIVET__KEYS_UNITS);
    if (!status) {
        status = read_unit(reading, map, "length", length_units,
                           (int32_t)(sizeof length_units / sizeof length_units[0]), units->length,
                           sizeof units->length, &reading->length);
    }
    if (!status) {
        status = read_unit(reading, map, "mass", mass_units,
                           (int32_t)(sizeof mass_units / sizeof mass_units[0]), units->mass,
                           sizeof units->mass, &reading->mass);
    }
    if (!status) {
        status = read_unit(reading, map, "force", force_units,
                           (int32_t)(sizeof force_units / sizeof force_units[0]), units->force,
                           sizeof units->force, &reading->force);
    }
    return status;
}

/* What is varied is read by a sweep; its keys are looked at by all. */
static trivet_status check_vary(const trivet__reading *reading)
{
    const trivet__node *const vary = trivet__member(reading, reading->root, "vary");
    const trivet__thing thing = {.word = "vary"};
    return !vary || trivet__tree_is_nothing(reading->tree, vary)
               ? TRIVET_OK
               : trivet__check_keys(reading, vary, NULL, &thing, TRIVET__KEYS_VARY);
}

trivet_status trivet__read_head(trivet__reading *reading)
{
    const trivet__thing nowhere = {.word = ""};
    trivet_status status =
        trivet__check_keys(reading, reading->root, NULL, &nowhere, TRIVET__KEYS_TOP);
    if (!status) {
        status = read_format(reading);
    }
    if (!status) {
        status = read_title(reading);
    }
    if (!status) {
        status = check_vary(reading);
    }
    return status ? status : trivet__read_units(reading);
}

/* A factor that makes a limit stricter: 1 or more. */
typedef struct factor_rule {
    const char *key;
    const char *harm; /* what less than 1 would do */
    const char *usual;
} factor_rule;

static trivet_status read_factor(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *within, const factor_rule *rule,
                                 double *factor)
{
    const trivet__node *const node = trivet__member(reading, map, rule->key);
    trivet__thing thing;
    char shown[TRIVET__SHOWN_MAX];
    trivet__thing_key(&thing, within, rule->key);
    const trivet_status status =
        trivet__read_key(reading, map, within, rule->key, TRIVET_NUMBER, TRIVET__POSITIVE, factor);
    if (status || *factor >= 1.0) {
        return status;
    }
    trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" would %s",
                            trivet__shown(reading, node, shown), rule->harm);
    trivet__message_remedy(reading->message, "give 1 or more; %s is usual", rule->usual);
    return TRIVET_BAD_VALUE;
}

/* The three factors. */
static trivet_status read_factors(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *thing, trivet_limits *limits)
{
    static const factor_rule YIELD = {"yield", "let the stress go beyond what the material bears",
                                      "1.5"};
    static const factor_rule LOADS = {"loads", "make loads smaller than they are", "1.5"};
    static const factor_rule CRACK = {"crack", "make stress smaller than it is", "1.35"};
    trivet_status status = read_factor(reading, map, thing, &YIELD, &limits->yield);
    if (!status) {
        status = read_factor(reading, map, thing, &LOADS, &limits->loads);
    }
    return status ? status : read_factor(reading, map, thing, &CRACK, &limits->crack);
}

/* How bolts and welds are judged, and what the maker allows. */
static trivet_status read_rules(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, trivet_limits *limits)
{
    static const char *const BOLTS[] = {"EN", "AISC"};
    static const char *const WELDS[] = {"directional", "simplified", "AISC"};
    trivet_status status =
        trivet__read_choice_key(reading, map, thing, "bolt rule", BOLTS, 2, &limits->bolt_rule);
    if (!status) {
        status =
            trivet__read_choice_key(reading, map, thing, "weld rule", WELDS, 3, &limits->weld_rule);
    }
    return status ? status
                  : trivet__read_key(reading, map, thing, "rack rating", TRIVET_MASS,
                                     TRIVET__POSITIVE, &limits->rack_rating);
}

/* One pair of `droop at: {JOINT: 2 mm}`; the limits belong to nothing with a number. */
static trivet_status read_joint_limit(const trivet__reading *reading, const trivet__node *name,
                                      const trivet__node *value, const trivet__thing *within,
                                      int32_t owner)
{
    (void)owner;
    trivet__thing thing;
    int32_t joint = -1;
    double limit = 0.0;
    trivet__thing_pair(&thing, within, name);
    trivet_status status = trivet__read_thing(reading, name, within, TRIVET_KIND_JOINT, &joint);
    if (!status) {
        status =
            trivet__read_value(reading, value, &thing, TRIVET_LENGTH, TRIVET__POSITIVE, &limit);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_set_droop_limit(reading->frame, joint, limit, reading->message);
        trivet__locate(reading, value, status);
    }
    return status;
}

trivet_status trivet__read_limits(trivet__reading *reading)
{
    trivet_limits *const limits = &reading->document->limits;
    trivet_status status = trivet_limits_defaults(limits, sizeof *limits);
    const trivet__node *const map = trivet__member(reading, reading->root, "limits");
    if (status || !map) {
        return status;
    }
    const trivet__thing thing = {.word = "limits"};
    double frequency = 0.0; /* looked at here, checked by a later version */
    status = trivet__check_keys(reading, map, NULL, &thing, TRIVET__KEYS_LIMITS);
    if (!status) {
        status = read_factors(reading, map, &thing, limits);
    }
    if (!status) {
        status = trivet__read_key(reading, map, &thing, "droop", TRIVET_LENGTH, TRIVET__POSITIVE,
                                  &limits->droop);
    }
    if (!status) {
        status = trivet__read_key(reading, map, &thing, "droop ratio", TRIVET_NUMBER,
                                  TRIVET__POSITIVE, &limits->droop_ratio);
    }
    if (!status) {
        status = trivet__each_owned_pair(reading, map, &thing, "droop at", -1, read_joint_limit);
    }
    if (!status) {
        status = read_rules(reading, map, &thing, limits);
    }
    if (!status) {
        status = trivet__read_key(reading, map, &thing, "lowest frequency", TRIVET_FREQUENCY,
                                  TRIVET__POSITIVE, &frequency);
    }
    return status;
}
