/*
 * How many variants there are, how they are drawn, and which are skipped.
 */
#include "sweep/vary_reading.h"

#include <math.h>

static trivet_status read_whole(const trivet__varying *v, const trivet__node *map,
                                const trivet__thing *thing, const char *key, double most,
                                double *value)
{
    const trivet_status status =
        trivet__read_key(v->reading, map, thing, key, TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, value);
    if (!status && (*value != floor(*value) || *value > most)) {
        trivet__complain(v->reading, trivet__member(v->reading, map, key), thing, TRIVET_BAD_VALUE);
        trivet__message_problem(v->reading->message, "\"%s\" is not a whole number up to %.0f", key,
                                most);
        trivet__message_remedy(v->reading->message, "give a whole number");
        return TRIVET_BAD_VALUE;
    }
    return status;
}

static trivet_status read_sample(const trivet__varying *v, const trivet__node *vary)
{
    static const char *const WAYS[] = {"grid", "latin hypercube", "sobol"};
    const double most = 4294967296.0; /* points that 32 bits tell apart */
    const trivet__thing within = {.word = "vary"};
    trivet__thing thing;
    const trivet__node *map = NULL;
    double count = 0.0;
    double seed = 1.0;
    trivet_status status = trivet__read_map_key(v->reading, vary, &within, "sample", &thing, &map);
    if (status || !map) {
        return status;
    }
    status = trivet__check_keys(v->reading, map, NULL, &thing, TRIVET__KEYS_SAMPLE);
    if (!status) {
        status =
            trivet__read_choice_key(v->reading, map, &thing, "by", &WAYS[1], 2, &v->vary->sampling);
        v->vary->sampling++;
    }
    if (!status) {
        status = read_whole(v, map, &thing, "count", most, &count);
    }
    if (!status) {
        status = read_whole(v, map, &thing, "seed", most, &seed);
    }
    if (!status && count < 1.0) {
        return trivet__refuse_node(v->reading, map, &thing, TRIVET_BAD_VALUE, "\"count\" is 0",
                                   "say how many variants to draw");
    }
    v->vary->count = (int64_t)count;
    v->vary->seed = (uint64_t)seed;
    return status;
}

/* One condition, or a list of which any may hold. */
static trivet_status read_conditions(const trivet__varying *v, const trivet__node *vary)
{
    const trivet__thing thing = {.word = "vary, skip when"};
    const trivet__node *node = trivet__member(v->reading, vary, "skip when");
    if (!node) {
        return TRIVET_OK;
    }
    const int is_list = node->kind == TRIVET__LIST;
    if (is_list && node->count > TRIVET__CONDITIONS_MAX) {
        return trivet__refuse_node(v->reading, node, &thing, TRIVET_BAD_VALUE,
                                   "has more than 32 conditions", "join some with \"and\"");
    }
    if (is_list) {
        node = trivet__tree_first(v->reading->tree, node);
    }
    trivet_status status = TRIVET_OK;
    for (; node && !status; node = is_list ? trivet__tree_next(v->reading->tree, node) : NULL) {
        status = trivet__need_scalar(v->reading, node, &thing);
        if (!status) {
            status = trivet__condition_read(v->reading, node, &v->vary->pool,
                                            &v->vary->conditions[v->vary->condition_count++]);
        }
    }
    return status;
}

static trivet_status count_grid(const trivet__varying *v, const trivet__node *vary)
{
    const int64_t most = (int64_t)1 << 53; /* as a double counts and a row number may be */
    int64_t count = 1;
    for (int32_t a = 0; a < v->vary->axis_count; a++) {
        if (v->vary->axes[a].count > most / count) {
            const trivet__thing thing = {.word = "vary"};
            return trivet__refuse_node(v->reading, vary, &thing, TRIVET_BAD_VALUE,
                                       "makes more variants than can be counted",
                                       "draw a sample of them: sample: {by: sobol, count: 100000}");
        }
        count *= v->vary->axes[a].count;
    }
    v->vary->count = count;
    return TRIVET_OK;
}

trivet_status trivet__vary_read_drawing(const trivet__varying *v, const trivet__node *vary)
{
    trivet_status status = read_sample(v, vary);
    if (!status && v->vary->sampling == TRIVET__GRID) {
        status = count_grid(v, vary);
    }
    return status ? status : read_conditions(v, vary);
}
