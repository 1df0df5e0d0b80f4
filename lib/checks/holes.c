/*
 * Holes for bolts, by rules of the trade (common practice). A countersunk head may sink in by three
 * quarters of the thickness at most: below, the screw would hold by a knife edge, and its cone
 * spreads the hole. The middle of a hole stands two diameters from the edge at least.
 */
#include "checks/holes.h"

#include "checks/demand.h"
#include "checks/wall_strength.h"

#include <assert.h>
#include <math.h>

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define HEAD "ISO 10642: 90 degrees; inch: ASME B18.3, 82 degrees (from memory)"
#define DEPTH_RULE "at most three quarters of the thickness (common practice)"
#define EDGE_RULE "at least two diameters (common practice)"

static const trivet__check_kind COUNTERSINK = {
    .check = "countersink",
    .verb = "sinks in by",
    .advice = "a thicker plate, or a screw whose head lies on top, helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_MOUNT,
    .subject = "screw head of"};
static const trivet__check_kind HOLE_EDGE = {
    .check = "hole edge",
    .verb = "needs a distance to the edge of",
    .advice = "a hole farther from the edge or a thinner screw helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_MOUNT,
    .subject = "hole of"};

#define DEPTH_LINES(what, from)                                                                    \
    {"d_k", "diameter of the head, its edge taken as sharp", "", HEAD, TRIVET_LENGTH},             \
        {"d", "diameter of the thread", "", "sizes of the thread", TRIVET_LENGTH},                 \
        {"c", "tangent of half the angle of the cone", "", HEAD, TRIVET_NUMBER},                   \
        {"depth", "the head sinks in", "(d_k - d) / (2 * c)", "cone", TRIVET_LENGTH},              \
        {"t", what, "", from, TRIVET_LENGTH},                                                      \
        {"limit", "depth allowed", "0.75 * t", DEPTH_RULE, TRIVET_LENGTH},                         \
    {                                                                                              \
        "used", "utilisation", "depth / limit", "demand over limit", TRIVET_NUMBER                 \
    }

static const trivet__line PLATE_LINES[] = {
    DEPTH_LINES("thickness of the plate", "as the user gives it")};
TABLE(PLATE);
static const trivet__line WALL_LINES[] = {
    DEPTH_LINES("wall of the stock that it sinks into", "stock that is clamped")};
TABLE(WALL);

static const trivet__line EDGE_LINES[] = {
    {"d", "diameter of the thread", "", "sizes of the thread", TRIVET_LENGTH},
    {"least", "distance needed", "2 * d", EDGE_RULE, TRIVET_LENGTH},
    {"limit", "from the hole's middle to the nearest edge", "", "as the user gives it",
     TRIVET_LENGTH},
    {"used", "utilisation", "least / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(EDGE);

double trivet__countersink_depth(const trivet_thread *thread)
{
    return (thread->countersunk_head - thread->diameter) / 2.0 /
           tan(thread->countersunk_angle / 2.0);
}

/* How thick the wall of stock is where a head sinks in; NaN if that cannot be told. */
static double thickness_of(const trivet_profile *profile)
{
    if (!profile) {
        return (double)NAN;
    }
    switch ((trivet_shape)profile->shape) {
    case TRIVET_SHAPE_SQUARE_TUBE:
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
    case TRIVET_SHAPE_ROUND_TUBE:
    case TRIVET_SHAPE_ANGLE:
        return profile->wall;
    case TRIVET_SHAPE_CHANNEL:
        return fmin(profile->wall, profile->flange);
    case TRIVET_SHAPE_SQUARE_BAR:
        return profile->width;
    case TRIVET_SHAPE_FLAT_BAR:
        return fmin(profile->height, profile->width);
    case TRIVET_SHAPE_ROUND_BAR:
        return profile->diameter;
    case TRIVET_SHAPE_GIVEN_VALUES:
        break;
    }
    return (double)NAN;
}

static trivet_status check_countersink(trivet__making *making, int32_t index,
                                       const trivet_thread *thread)
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    const int has_plate = !isnan(bolts->plate);
    const trivet_profile *const clamped = trivet_frame_profile(making->frame, bolts->clamped_stock);
    const double thickness = has_plate ? bolts->plate : thickness_of(clamped);
    if (bolts->head != TRIVET_HEAD_COUNTERSUNK ||
        (!has_plate && bolts->clamped == TRIVET_CLAMPED_INSERT)) {
        return TRIVET_OK;
    }
    if (!(thickness > 0.0)) {
        return trivet__bolts_omit(making, index, "countersink of",
                                  "the thickness of the plate or wall is not given");
    }
    const double depth = trivet__countersink_depth(thread);
    const double limit = 0.75 * thickness;
    const double values[] = {thread->countersunk_head,
                             thread->diameter,
                             tan(thread->countersunk_angle / 2.0),
                             depth,
                             thickness,
                             limit,
                             depth / limit};
    assert((int32_t)(sizeof values / sizeof values[0]) == PLATE.count);
    trivet__record *const record = trivet__bolts_record(making, &COUNTERSINK, index, -1);
    record->check.source = DEPTH_RULE;
    trivet__record_table(making, record, has_plate ? &PLATE : &WALL, values);
    trivet__record_judge(making, record, TRIVET_LENGTH, depth, limit);
    return TRIVET_OK;
}

static trivet_status check_edge(trivet__making *making, int32_t index, const trivet_thread *thread)
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    /* fmin passes over what is not said. */
    const double nearest = fmin(bolts->edge, bolts->side);
    if (isnan(nearest)) {
        const int has_plate = !isnan(bolts->plate) || bolts->where_kind == TRIVET_KIND_DECK;
        return has_plate ? trivet__bolts_omit(making, index, "hole edge of",
                                              "the distance from hole to edge is not given")
                         : TRIVET_OK;
    }
    const double needed = 2.0 * thread->diameter;
    const double values[] = {thread->diameter, needed, nearest, needed / nearest};
    assert((int32_t)(sizeof values / sizeof values[0]) == EDGE.count);
    trivet__record *const record = trivet__bolts_record(making, &HOLE_EDGE, index, -1);
    record->check.source = EDGE_RULE;
    trivet__record_table(making, record, &EDGE, values);
    trivet__record_judge(making, record, TRIVET_LENGTH, needed, nearest);
    return TRIVET_OK;
}

trivet_status trivet__check_holes(trivet__making *making, int32_t bolts)
{
    trivet_thread thread;
    trivet_grade grade;
    trivet__bolt_kind(&making->frame->bolts[bolts], &thread, &grade);
    const trivet_status status = check_countersink(making, bolts, &thread);
    return status == TRIVET_OK ? check_edge(making, bolts, &thread) : status;
}
