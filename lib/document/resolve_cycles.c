/*
 * Cycles: loads that come and go between two cases.
 */
#include "document/reading.h"

enum { OFFERS_MOST = 2000 }; /* names looked at for a likeness */

static trivet_status refuse_column(const trivet__reading *reading, const trivet__node *node,
                                   const trivet__thing *thing)
{
    static const int32_t KINDS[] = {TRIVET_KIND_CASE, TRIVET_KIND_COMBINATION};
    trivet__nearest search = {trivet__tree_text(reading->tree, node), NULL, 0};
    char shown[TRIVET__SHOWN_MAX];
    for (int k = 0; k < 2; k++) {
        const int32_t count = trivet_frame_count(reading->frame, KINDS[k]);
        for (int32_t i = 0; i < count && i < OFFERS_MOST; i++) {
            trivet__nearest_offer(&search, trivet_frame_name(reading->frame, KINDS[k], i));
        }
    }
    trivet__complain(reading, node, thing, TRIVET_BAD_NAME);
    trivet__message_problem(reading->message, "there is no case or combination \"%s\"",
                            trivet__shown(reading, node, shown));
    if (trivet__meant(&search)) {
        trivet__message_remedy(reading->message, "did you mean \"%s\"?", search.nearest);
    } else {
        trivet__message_remedy(reading->message,
                               "add it to \"cases\" or \"combine\", or name one that stands there");
    }
    return TRIVET_BAD_NAME;
}

/* A case or a combination, as a result column; left alone if the key is not there. */
static trivet_status read_column(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *within, const char *key, int32_t *column_out)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    trivet__thing thing;
    int32_t index = -1;
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing_key(&thing, within, key);
    const trivet_status status = trivet__need_scalar(reading, node, &thing);
    if (status) {
        return status;
    }
    const char *const name = trivet__tree_text(reading->tree, node);
    if (trivet_frame_find(reading->frame, TRIVET_KIND_CASE, name, &index, NULL) == TRIVET_OK) {
        *column_out = index;
        return TRIVET_OK;
    }
    if (trivet_frame_find(reading->frame, TRIVET_KIND_COMBINATION, name, &index, NULL) ==
        TRIVET_OK) {
        *column_out = trivet_frame_count(reading->frame, TRIVET_KIND_CASE) + index;
        return TRIVET_OK;
    }
    return refuse_column(reading, node, &thing);
}

/* How many times: at least once. */
static trivet_status read_count(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *within, double *count)
{
    static const char SAMPLE[] = "such as 1e6";
    const trivet__node *const node = trivet__member(reading, map, "count");
    char shown[TRIVET__SHOWN_MAX];
    trivet__thing thing;
    const trivet_status status =
        trivet__read_key(reading, map, within, "count", TRIVET_NUMBER, TRIVET__ANY, count);
    if (status == TRIVET_BAD_UNIT) {
        trivet__message_remedy(reading->message, "say how many times, %s", SAMPLE);
    }
    if (status || *count >= 1.0) {
        return status;
    }
    trivet__thing_key(&thing, within, "count");
    trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" is less than once",
                            trivet__shown(reading, node, shown));
    trivet__message_remedy(reading->message, "give 1 or more, %s", SAMPLE);
    return TRIVET_BAD_VALUE;
}

static trivet_status read_numbers(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *thing, trivet_cycles *cycles)
{
    trivet_status status = trivet__read_key(reading, map, thing, "from factor", TRIVET_NUMBER,
                                            TRIVET__ANY, &cycles->from_factor);
    if (!status) {
        status = trivet__read_key(reading, map, thing, "to factor", TRIVET_NUMBER, TRIVET__ANY,
                                  &cycles->to_factor);
    }
    return status ? status : read_count(reading, map, thing, &cycles->count);
}

/* Between a state and itself nothing cracks, whatever the state. */
static trivet_status check_states(const trivet__reading *reading, const trivet__node *name,
                                  const trivet__node *map, const trivet__thing *thing,
                                  const trivet_cycles *cycles)
{
    const trivet__node *const factor = trivet__member(reading, map, "from factor");
    const double from = cycles->from < 0 ? 0.0 : cycles->from_factor;
    const int is_nothing = from == 0.0 && cycles->to_factor == 0.0;
    const int is_same = cycles->from == cycles->to && from == cycles->to_factor;
    trivet__thing key;
    trivet__thing_key(&key, thing, "from factor");
    if (factor && cycles->from < 0) {
        return trivet__refuse_node(reading, factor, &key, TRIVET_INCOMPLETE,
                                   "\"from\" is left out, so there is nothing to multiply",
                                   "name the case that it belongs to, such as from: parked");
    }
    return is_nothing || is_same
               ? trivet__refuse_node(reading, name, thing, TRIVET_BAD_VALUE,
                                     "its two states are the same, so nothing comes and goes",
                                     "name two cases, or give one of them a factor")
               : TRIVET_OK;
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *map)
{
    trivet__thing thing;
    const char *text = NULL;
    trivet_cycles cycles;
    trivet__thing_named(&thing, "cycles", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_CYCLES);
    }
    if (!status) {
        status = trivet_cycles_defaults(&cycles, sizeof cycles);
    }
    if (!status) {
        status = read_column(reading, map, &thing, "from", &cycles.from);
    }
    if (!status) {
        status = read_column(reading, map, &thing, "to", &cycles.to);
    }
    if (!status) {
        status = read_numbers(reading, map, &thing, &cycles);
    }
    if (!status) {
        status = check_states(reading, name, map, &thing, &cycles);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_cycles(reading->frame, text, &cycles, NULL, reading->message);
        trivet__locate(reading, name, status);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_CYCLES, name);
}

trivet_status trivet__read_cycles(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "cycles", read_one);
}
