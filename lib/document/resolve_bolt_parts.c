/*
 * What bolts go through or into besides the tube: a plate, a spacer, a sleeve, the welds that keep
 * a tapped piece, a rated nut.
 */
#include "document/bolts_reading.h"

#include <math.h>

enum { SPOTS_MOST = 1000 };

/* A group of numbers under a key, none of it if the key is not there. */
static trivet_status read_group(const trivet__bolts_reading *at, const char *key,
                                trivet__key_place keys, const trivet__number_row *rows,
                                size_t count, const trivet__node **map_out)
{
    trivet__thing thing;
    *map_out = trivet__member(at->reading, at->map, key);
    if (!*map_out) {
        return TRIVET_OK;
    }
    trivet__thing_key(&thing, at->thing, key);
    const trivet_status status = trivet__bolts_keys(at, *map_out, NULL, &thing, keys);
    return status ? status : trivet__bolts_numbers(at, *map_out, &thing, rows, count);
}

/* A hole that the screw does not pass. */
static trivet_status check_hole(const trivet__bolts_reading *at, const trivet__node *plate)
{
    const trivet__node *const node = trivet__member(at->reading, plate, "hole");
    char shown[TRIVET__SHOWN_MAX];
    char usual[TRIVET__LENGTH_TEXT_MAX];
    if (!node || at->bolts->hole >= at->thread.diameter) {
        return TRIVET_OK;
    }
    trivet__bolts_complain(at, node, "plate, hole", TRIVET_BAD_VALUE);
    trivet__message_problem(at->reading->message, "\"%s\" is too narrow for %s",
                            trivet__shown(at->reading, node, shown), at->bolts->thread);
    trivet__message_remedy(at->reading->message, "leave it out for the usual hole of %s",
                           trivet__bolts_length(at, at->thread.clearance_hole, usual));
    return TRIVET_BAD_VALUE;
}

static trivet_status read_plate(const trivet__bolts_reading *at)
{
    trivet_bolts *const bolts = at->bolts;
    const trivet__node *map = NULL;
    trivet_material material;
    trivet__thing thing;
    const trivet__number_row rows[] = {
        {"thickness", TRIVET_LENGTH, TRIVET__POSITIVE, &bolts->plate},
        {"edge", TRIVET_LENGTH, TRIVET__POSITIVE, &bolts->edge},
        {"side", TRIVET_LENGTH, TRIVET__POSITIVE, &bolts->side},
        {"hole", TRIVET_LENGTH, TRIVET__POSITIVE, &bolts->hole},
    };
    trivet_status status =
        read_group(at, "plate", TRIVET__KEYS_PLATE, rows, sizeof rows / sizeof rows[0], &map);
    if (!status) {
        status = check_hole(at, map);
    }
    if (status || !trivet__member(at->reading, map, "material")) {
        return status;
    }
    trivet__thing_key(&thing, at->thing, "plate");
    status = trivet__read_material(at->reading, map, &thing, &material);
    if (!status) {
        bolts->plate_yield = material.yield > 0.0 ? material.yield : (double)NAN;
        bolts->plate_tensile = material.tensile;
    }
    return status;
}

static trivet_status read_spacer(const trivet__bolts_reading *at)
{
    static const char *const WORDS[] = {"metal", "plastic"};
    const trivet__node *map = NULL;
    trivet__thing thing;
    int32_t choice = 0;
    const trivet__number_row rows[] = {
        {"height", TRIVET_LENGTH, TRIVET__POSITIVE, &at->bolts->spacer_height},
        {"diameter", TRIVET_LENGTH, TRIVET__POSITIVE, &at->bolts->spacer_diameter},
    };
    trivet_status status =
        read_group(at, "spacer", TRIVET__KEYS_SPACER, rows, sizeof rows / sizeof rows[0], &map);
    if (status || !map) {
        return status;
    }
    trivet__thing_key(&thing, at->thing, "spacer");
    status = trivet__read_choice_key(at->reading, map, &thing, "of", WORDS, 2, &choice);
    at->bolts->spacer = choice == 0 ? TRIVET_SPACER_METAL : TRIVET_SPACER_PLASTIC;
    if (!status && at->bolts->spacer_diameter <= at->thread.diameter) {
        const trivet__node *const node = trivet__member(at->reading, map, "diameter");
        char shown[TRIVET__SHOWN_MAX];
        status = trivet__bolts_complain(at, node, "spacer, diameter", TRIVET_BAD_VALUE);
        trivet__message_problem(at->reading->message, "\"%s\" is no wider than %s itself",
                                trivet__shown(at->reading, node, shown), at->bolts->thread);
        trivet__message_remedy(at->reading->message, "give the outside diameter");
    }
    return status;
}

/* The sizes of a sleeve: a wall that fits its diameter, a hole that the screw passes. */
static trivet_status check_sleeve(const trivet__bolts_reading *at, const trivet__node *map)
{
    const trivet_bolts *const bolts = at->bolts;
    const double rounding = 1e-9 * bolts->sleeve_diameter;
    const double hole = bolts->sleeve_diameter - 2.0 * bolts->sleeve_wall;
    trivet_message *const message = at->reading->message;
    char shown[TRIVET__SHOWN_MAX];
    char text[TRIVET__LENGTH_TEXT_MAX];
    if (hole < -rounding) {
        const trivet__node *const wall = trivet__member(at->reading, map, "wall");
        trivet__bolts_complain(at, wall, "sleeve, wall", TRIVET_BAD_VALUE);
        trivet__message_problem(message, "\"%s\" is more than half the diameter of %s",
                                trivet__shown(at->reading, wall, shown),
                                trivet__bolts_length(at, bolts->sleeve_diameter, text));
        trivet__message_remedy(message, "measure the wall again, and the outside diameter");
        return TRIVET_BAD_VALUE;
    }
    if (hole < at->thread.diameter - rounding) {
        trivet__bolts_complain(at, map, "sleeve", TRIVET_BAD_VALUE);
        trivet__message_problem(message, "leaves a hole of %s, too narrow for %s",
                                trivet__bolts_length(at, hole > rounding ? hole : 0.0, text),
                                bolts->thread);
        trivet__message_remedy(message, "give the outside diameter and the wall of a wider one");
        return TRIVET_BAD_VALUE;
    }
    return TRIVET_OK;
}

/* What is clamped, beside what the tube here is. */
static trivet_status check_clamps(const trivet__bolts_reading *at, const trivet__node *sleeve)
{
    const trivet__node *const clamps = trivet__member(at->reading, at->map, "clamps");
    const int is_sleeve = at->bolts->clamped == TRIVET_CLAMPED_SLEEVE;
    char shown[TRIVET__SHOWN_MAX];
    if (clamps && sleeve && !is_sleeve) {
        trivet__bolts_refuse(at, clamps, "clamps", TRIVET_BAD_VALUE, "",
                             "write sleeve, or leave the sleeve out");
        trivet__message_problem(at->reading->message, "\"%s\" is said, and there is a sleeve",
                                trivet__shown(at->reading, clamps, shown));
        return TRIVET_BAD_VALUE;
    }
    const int is_through = sleeve || at->bolts->clamped != TRIVET_CLAMPED_SOLID;
    if (is_through && !trivet__bolts_meet_hollow(at)) {
        return trivet__bolts_refuse(at, clamps ? clamps : sleeve, clamps ? "clamps" : "sleeve",
                                    TRIVET_BAD_VALUE, "no hollow tube meets the bolts here",
                                    clamps ? "write solid, or leave it out"
                                           : "leave the sleeve out");
    }
    if (is_sleeve && !sleeve) {
        return trivet__bolts_refuse(at, clamps, "clamps", TRIVET_INCOMPLETE,
                                    "the size of the sleeve is not said",
                                    "add it, such as sleeve: {diameter: 12 mm, wall: 2 mm}");
    }
    return sleeve ? check_sleeve(at, sleeve) : TRIVET_OK;
}

static trivet_status read_sleeve(const trivet__bolts_reading *at)
{
    const trivet__node *map = NULL;
    const trivet__number_row rows[] = {
        {"diameter", TRIVET_LENGTH, TRIVET__POSITIVE, &at->bolts->sleeve_diameter},
        {"wall", TRIVET_LENGTH, TRIVET__POSITIVE, &at->bolts->sleeve_wall},
        {"yield", TRIVET_STRESS, TRIVET__POSITIVE, &at->bolts->sleeve_yield},
    };
    trivet_status status =
        read_group(at, "sleeve", TRIVET__KEYS_SLEEVE, rows, sizeof rows / sizeof rows[0], &map);
    if (!status) {
        status = check_clamps(at, map);
    }
    if (!status && map) {
        at->bolts->clamped = TRIVET_CLAMPED_SLEEVE;
    }
    return status;
}

static trivet_status read_fixing(const trivet__bolts_reading *at)
{
    const trivet__node *map = NULL;
    double spots = 0.0;
    const trivet__number_row rows[] = {
        {"spots", TRIVET_NUMBER, TRIVET__POSITIVE, &spots},
        {"diameter", TRIVET_LENGTH, TRIVET__POSITIVE, &at->bolts->fixing_diameter},
    };
    const trivet_status status =
        read_group(at, "fixing", TRIVET__KEYS_FIXING, rows, sizeof rows / sizeof rows[0], &map);
    if (status || !map) {
        return status;
    }
    if (spots != floor(spots) || spots > SPOTS_MOST) {
        return trivet__bolts_refuse_whole(at, trivet__member(at->reading, map, "spots"),
                                          "fixing, spots", SPOTS_MOST, "count the spots");
    }
    if (at->bolts->into != TRIVET_INTO_TAPPED) {
        return trivet__bolts_refuse(
            at, map, "fixing", TRIVET_BAD_KEY,
            "belongs to a piece with a thread cut into it, and \"into\" names none",
            "name that piece there, or leave the fixing out");
    }
    at->bolts->fixing_count = (int32_t)spots;
    return TRIVET_OK;
}

static trivet_status read_rated(const trivet__bolts_reading *at)
{
    trivet_bolts *const bolts = at->bolts;
    const trivet__node *map = NULL;
    const trivet__number_row rows[] = {
        {"pull", TRIVET_FORCE, TRIVET__POSITIVE, &bolts->rated_pull},
        {"shear", TRIVET_FORCE, TRIVET__POSITIVE, &bolts->rated_shear},
        {"torque", TRIVET_MOMENT, TRIVET__POSITIVE, &bolts->rated_torque},
    };
    const trivet_status status =
        read_group(at, "rated", TRIVET__KEYS_RATED, rows, sizeof rows / sizeof rows[0], &map);
    if (!status && map && bolts->into != TRIVET_INTO_RATED) {
        return trivet__bolts_refuse(at, map, "rated", TRIVET_BAD_KEY,
                                    "belongs to a rivet nut or weld nut",
                                    "add into: rivet nut, or leave it out");
    }
    return status;
}

trivet_status trivet__read_bolt_parts(const trivet__bolts_reading *at)
{
    trivet_status (*const parts[])(const trivet__bolts_reading *) = {
        read_plate, read_spacer, read_sleeve, read_fixing, read_rated};
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0] && !status; i++) {
        status = parts[i](at);
    }
    return status;
}
