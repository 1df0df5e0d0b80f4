/*
 * Welds: of all ends of tubes, of a tube's ends, of one end.
 */
#include "document/reading.h"

#include <math.h>
#include <string.h>

enum { SPOTS_MOST = 1000 };

static const char OFFER[] = "did you mean";

static int is_offer(const trivet_message *message)
{
    return strncmp(message->remedy, OFFER, strlen(OFFER)) == 0;
}

static trivet_status read_sides(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *within, uint32_t *sides)
{
    static const char *const WORDS[] = {"top", "bottom", "left", "right"}; /* bits as they count */
    const trivet__node *list = NULL;
    trivet__thing thing;
    trivet_status status =
        trivet__read_list_key(reading, map, within, "sides", "[top, bottom]", &thing, &list);
    const trivet__node *item = status || !list ? NULL : trivet__tree_first(reading->tree, list);
    if (!status && list && !item) {
        return trivet__refuse_node(reading, list, &thing, TRIVET_INCOMPLETE, "there is none in it",
                                   "name those that are welded: top, bottom, left, right");
    }
    if (item) {
        *sides = 0;
    }
    for (; item && !status; item = trivet__tree_next(reading->tree, item)) {
        int32_t choice = 0;
        status = trivet__read_choice(reading, item, &thing, WORDS, 4, &choice);
        *sides |= 1U << choice;
    }
    return status;
}

/* The share of the outline that is welded. */
static trivet_status read_run(const trivet__reading *reading, const trivet__node *map,
                              const trivet__thing *within, double *run)
{
    const trivet__node *const node = trivet__member(reading, map, "run");
    char shown[TRIVET__SHOWN_MAX];
    trivet__thing thing;
    const trivet_status status =
        trivet__read_key(reading, map, within, "run", TRIVET_NUMBER, TRIVET__POSITIVE, run);
    if (status == TRIVET_BAD_UNIT) {
        trivet__message_remedy(reading->message,
                               "give the share of the outline that is welded, such as 60 %%");
    }
    if (status || *run <= 1.0) {
        return status;
    }
    trivet__thing_key(&thing, within, "run");
    trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" is more than the whole outline",
                            trivet__shown(reading, node, shown));
    trivet__message_remedy(reading->message, "give the share of it that is welded, at most 100 %%");
    return TRIVET_BAD_VALUE;
}

static trivet_status refuse_half_spots(const trivet__reading *reading, const trivet__node *node,
                                       const trivet__thing *thing)
{
    char shown[TRIVET__SHOWN_MAX];
    trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "\"%s\" is not a whole number from 1 to %d",
                            trivet__shown(reading, node, shown), (int)SPOTS_MOST);
    trivet__message_remedy(reading->message, "count the spots");
    return TRIVET_BAD_VALUE;
}

/* Spots need both their number and their size. */
static trivet_status read_spots(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *within, trivet_weld *weld)
{
    const trivet__node *const node = trivet__member(reading, map, "spots");
    const trivet__node *const diameter = trivet__member(reading, map, "spot diameter");
    double spots = 0.0;
    trivet__thing thing;
    trivet_status status = trivet__read_key(reading, map, within, "spot diameter", TRIVET_LENGTH,
                                            TRIVET__POSITIVE, &weld->spot_diameter);
    if (!status) {
        status = trivet__read_key(reading, map, within, "spots", TRIVET_NUMBER, TRIVET__POSITIVE,
                                  &spots);
    }
    if (status || (!node && !diameter)) {
        return status;
    }
    trivet__thing_key(&thing, within, node ? "spots" : "spot diameter");
    if (!node) {
        return trivet__refuse_node(reading, diameter, &thing, TRIVET_INCOMPLETE,
                                   "it is not said how many spots there are",
                                   "add their number, such as spots: 4");
    }
    if (spots != floor(spots) || spots > SPOTS_MOST) {
        return refuse_half_spots(reading, node, &thing);
    }
    if (!diameter) {
        return trivet__refuse_node(reading, node, &thing, TRIVET_INCOMPLETE,
                                   "it is not said how large they are", "add spot diameter: 6 mm");
    }
    weld->kind = TRIVET_WELD_SPOTS;
    weld->spot_count = (int32_t)spots;
    return TRIVET_OK;
}

/* A stress, or the name of a filler: what is neither was meant as a name. */
static trivet_status read_filler(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *within, trivet_weld *weld)
{
    const trivet__node *const node = trivet__member(reading, map, "filler");
    char shown[TRIVET__SHOWN_MAX];
    trivet__thing thing;
    trivet_message refused;
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing_key(&thing, within, "filler");
    trivet_filler filler = {.size = sizeof filler};
    trivet_status status = trivet__need_scalar(reading, node, &thing);
    if (status) {
        return status;
    }
    if (trivet_filler_find(trivet__tree_text(reading->tree, node), &filler, &refused) ==
        TRIVET_OK) {
        weld->filler = filler.tensile;
        return TRIVET_OK;
    }
    status =
        trivet__read_value(reading, node, &thing, TRIVET_STRESS, TRIVET__POSITIVE, &weld->filler);
    if (status != TRIVET_BAD_NAME) {
        return status;
    }
    trivet__complain(reading, node, &thing, TRIVET_BAD_NAME);
    trivet__message_problem(reading->message, "there is no built-in filler \"%s\"",
                            trivet__shown(reading, node, shown));
    trivet__message_remedy(reading->message, "%s",
                           is_offer(&refused) ? refused.remedy
                                              : "name one such as ER70S-6, or give its tensile "
                                                "strength: 480 N/mm^2");
    return TRIVET_BAD_NAME;
}

static trivet_status read_map(const trivet__reading *reading, const trivet__node *map,
                              const trivet__thing *thing, trivet_weld *weld)
{
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_WELD);
    if (!status) {
        status = trivet__read_key(reading, map, thing, "throat", TRIVET_LENGTH, TRIVET__POSITIVE,
                                  &weld->throat);
    }
    if (!status) {
        status = read_run(reading, map, thing, &weld->run);
    }
    if (!status) {
        status = trivet__read_key(reading, map, thing, "detail", TRIVET_STRESS, TRIVET__POSITIVE,
                                  &weld->detail);
    }
    if (!status) {
        status = read_sides(reading, map, thing, &weld->sides);
    }
    if (!status) {
        status = read_filler(reading, map, thing, weld);
    }
    return status ? status : read_spots(reading, map, thing, weld);
}

/* none, all round, or a map. */
static trivet_status read_weld(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing, trivet_weld *weld)
{
    static const char *const WORDS[] = {"all round", "none"};
    int32_t choice = 0;
    trivet_status status = trivet_weld_defaults(weld, sizeof *weld);
    if (status || node->kind == TRIVET__MAP) {
        return status ? status : read_map(reading, node, thing, weld);
    }
    status = trivet__read_choice(reading, node, thing, WORDS, 2, &choice);
    weld->kind = choice == 0 ? TRIVET_WELD_FILLET : TRIVET_WELD_NONE;
    if (status == TRIVET_BAD_NAME && !is_offer(reading->message)) {
        trivet__message_remedy(reading->message, "write all round, none, or {throat: 2 mm, ...}");
    }
    return status;
}

trivet_status trivet__read_weld_key(const trivet__reading *reading, const trivet__node *map,
                                    const trivet__thing *within, int32_t tube, int32_t joint)
{
    const trivet__node *const node = trivet__member(reading, map, "weld");
    trivet__thing thing;
    trivet_weld weld;
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing_key(&thing, within, "weld");
    trivet_status status = read_weld(reading, node, &thing, &weld);
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_set_weld(reading->frame, tube, joint, &weld, reading->message);
        trivet__locate(reading, node, status);
    }
    return status;
}

/* The weld of every end of a tube that has none of its own. */
trivet_status trivet__read_welds(trivet__reading *reading)
{
    const trivet__node *const node = trivet__member(reading, reading->root, "weld");
    const trivet__thing thing = {.word = "weld"};
    trivet_weld weld;
    if (!node || trivet__tree_is_nothing(reading->tree, node)) {
        return TRIVET_OK;
    }
    trivet_status status = read_weld(reading, node, &thing, &weld);
    for (int32_t t = 0; t < trivet_frame_count(reading->frame, TRIVET_KIND_TUBE); t++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(reading->frame, t, &count);
        for (int32_t end = 0; end < 2 && !status; end++) {
            const int32_t joint = joints[end == 0 ? 0 : count - 1];
            trivet_weld there;
            status = trivet_weld_defaults(&there, sizeof there);
            if (!status) {
                status = trivet_frame_weld(reading->frame, t, joint, &there);
            }
            if (!status && there.kind == TRIVET_WELD_NOT_SAID) {
                trivet_message_clear(reading->message);
                status = trivet_frame_set_weld(reading->frame, t, joint, &weld, reading->message);
                trivet__locate(reading, node, status);
            }
        }
    }
    return status;
}
