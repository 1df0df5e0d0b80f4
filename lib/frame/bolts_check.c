/*
 * What bolts must be to be reckoned with: names that are known, sizes above 0, a place for each,
 * and something that the thread is in.
 */
#include "frame/bolts.h"

#include "frame/border.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const char *const kind = "bolts of";

int trivet__is_hollow(const trivet_profile *profile)
{
    return profile->shape == TRIVET_SHAPE_SQUARE_TUBE ||
           profile->shape == TRIVET_SHAPE_RECTANGULAR_TUBE ||
           profile->shape == TRIVET_SHAPE_ROUND_TUBE;
}

/* Sizes that are above 0 or not said. */
typedef struct bolt_size {
    size_t offset;
    const char *what;
    trivet_dimension dimension;
} bolt_size;

static const bolt_size sizes[] = {
    {offsetof(trivet_bolts, engagement), "engagement of the thread", TRIVET_LENGTH},
    {offsetof(trivet_bolts, torque), "tightening torque", TRIVET_MOMENT},
    {offsetof(trivet_bolts, rated_pull), "rated pull", TRIVET_FORCE},
    {offsetof(trivet_bolts, rated_shear), "rated shear", TRIVET_FORCE},
    {offsetof(trivet_bolts, rated_torque), "rated torque", TRIVET_MOMENT},
    {offsetof(trivet_bolts, plate), "thickness of the plate", TRIVET_LENGTH},
    {offsetof(trivet_bolts, plate_yield), "yield strength of the plate", TRIVET_STRESS},
    {offsetof(trivet_bolts, plate_tensile), "tensile strength of the plate", TRIVET_STRESS},
    {offsetof(trivet_bolts, edge), "distance to the edge", TRIVET_LENGTH},
    {offsetof(trivet_bolts, side), "distance to the side", TRIVET_LENGTH},
    {offsetof(trivet_bolts, hole), "diameter of the hole", TRIVET_LENGTH},
    {offsetof(trivet_bolts, spacer_height), "height of the spacer", TRIVET_LENGTH},
    {offsetof(trivet_bolts, spacer_diameter), "diameter of the spacer", TRIVET_LENGTH},
    {offsetof(trivet_bolts, sleeve_diameter), "diameter of the sleeve", TRIVET_LENGTH},
    {offsetof(trivet_bolts, sleeve_wall), "wall of the sleeve", TRIVET_LENGTH},
    {offsetof(trivet_bolts, sleeve_yield), "yield strength of the sleeve", TRIVET_STRESS},
    {offsetof(trivet_bolts, fixing_diameter), "diameter of the fixing welds", TRIVET_LENGTH},
};

static double size_at(const trivet_bolts *bolts, size_t offset)
{
    double value = 0.0;
    memcpy(&value, (const char *)bolts + offset, sizeof value);
    return value;
}

static trivet_status check_sizes(const trivet_bolts *bolts, const char *name,
                                 trivet_message *message)
{
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        const trivet__number_of of = {kind, name, sizes[i].what, sizes[i].dimension};
        const double value = size_at(bolts, sizes[i].offset);
        const trivet_status status =
            isnan(value) ? TRIVET_OK : trivet__positive_check(value, of, message);
        if (status != TRIVET_OK) {
            return status;
        }
    }
    trivet__number_of of = {kind, name, "nut factor", TRIVET_NUMBER};
    trivet_status status = trivet__positive_check(bolts->nut_factor, of, message);
    of.what = "friction";
    if (status == TRIVET_OK) {
        status = trivet__positive_check(bolts->friction, of, message);
    }
    of.what = "scatter of the preload";
    if (status == TRIVET_OK) {
        status = trivet__not_negative_check(bolts->scatter, of, message);
    }
    if (status == TRIVET_OK && !(bolts->scatter < 1.0)) {
        status = trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                      "the scatter of the preload leaves nothing of it",
                                      "give a share below 1, such as 25 %");
    }
    return status;
}

/* Numbers that mean one of a few things, 0 to most. */
static trivet_status check_choices(const trivet_bolts *bolts, const char *name,
                                   trivet_message *message)
{
    const struct {
        int32_t value;
        int32_t most;
        const char *what;
        const char *remedy;
    } choices[] = {
        {bolts->head, TRIVET_HEAD_COUNTERSUNK, "head", "take hexagon, socket or countersunk"},
        {bolts->into, TRIVET_INTO_RATED, "way the thread is held",
         "take a nut, tapped, the wall, or rated"},
        {bolts->clamped, TRIVET_CLAMPED_INSERT, "way the tube is clamped",
         "take solid, hollow, sleeve or insert"},
        {bolts->spacer, TRIVET_SPACER_PLASTIC, "spacer", "take none, metal or plastic"},
        {bolts->is_thread_clear, 1, "mark for a thread clear of the shear", "take 0 or 1"},
        {bolts->fixing_count, INT32_MAX, "number of fixing welds", "give 0 or more"},
    };
    for (size_t i = 0; i < sizeof choices / sizeof choices[0]; i++) {
        if (choices[i].value < 0 || choices[i].value > choices[i].most) {
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "", choices[i].remedy);
            trivet__message_problem(message, "the %s is %d, which is none", choices[i].what,
                                    (int)choices[i].value);
            return TRIVET_BAD_VALUE;
        }
    }
    return TRIVET_OK;
}

/* The thread and the grade by their names; *thread_out is what is known of the thread. */
static trivet_status check_names(const trivet_bolts *bolts, const char *name,
                                 trivet_thread *thread_out, trivet_message *message)
{
    if (!trivet__is_text(bolts->thread, sizeof bolts->thread) ||
        !trivet__is_text(bolts->grade, sizeof bolts->grade)) {
        return trivet__refuse_thing(message, TRIVET_BAD_NAME, kind, name,
                                    "the name of their thread or grade is not UTF-8 text",
                                    "write it in UTF-8 and close it with zero");
    }
    trivet_grade grade;
    trivet_status status = trivet_thread_defaults(thread_out, sizeof *thread_out);
    if (status == TRIVET_OK) {
        status = trivet_grade_defaults(&grade, sizeof grade);
    }
    if (status == TRIVET_OK) {
        status = trivet_thread_find(bolts->thread, thread_out, message);
    }
    if (status == TRIVET_OK) {
        status = trivet_grade_find(bolts->grade, &grade, message);
    }
    if (status != TRIVET_OK) {
        trivet__message_within(message, "%s %s", kind, name);
    }
    return status;
}

static trivet_status check_distance(const trivet_bolts *bolts, int32_t one, int32_t other,
                                    double diameter, const char *name, trivet_message *message)
{
    const double apart = hypot(bolts->pattern[one][0] - bolts->pattern[other][0],
                               bolts->pattern[one][1] - bolts->pattern[other][1]);
    if (apart >= diameter) {
        return TRIVET_OK;
    }
    char apart_text[TRIVET__VALUE_TEXT_MAX];
    char diameter_text[TRIVET__VALUE_TEXT_MAX];
    trivet_units_text(NULL, TRIVET_LENGTH, apart, 4, apart_text, sizeof apart_text);
    trivet_units_text(NULL, TRIVET_LENGTH, diameter, 4, diameter_text, sizeof diameter_text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "",
                         "say where they sit with pattern");
    trivet__message_problem(message,
                            "two bolts stand at one place: %d and %d are %s apart, their thread "
                            "is %s thick",
                            (int)one + 1, (int)other + 1, apart_text, diameter_text);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_pattern(const trivet_bolts *bolts, const char *name, double diameter,
                                   trivet_message *message)
{
    if (bolts->count < 1 || bolts->count > TRIVET_BOLTS_MAX) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "", "");
        trivet__message_problem(message, "there are %d of them", (int)bolts->count);
        trivet__message_remedy(message, "give 1 to %d bolts at one place", (int)TRIVET_BOLTS_MAX);
        return TRIVET_BAD_VALUE;
    }
    const trivet__number_of of = {kind, name, "place of a bolt", TRIVET_LENGTH};
    for (int32_t i = 0; i < bolts->count; i++) {
        trivet_status status = trivet__numbers_check(bolts->pattern[i], 2, of, message);
        for (int32_t k = 0; status == TRIVET_OK && k < i; k++) {
            status = check_distance(bolts, k, i, diameter, name, message);
        }
        if (status != TRIVET_OK) {
            return status;
        }
    }
    return TRIVET_OK;
}

static trivet_status check_axes(const trivet_bolts *bolts, const char *name,
                                trivet_message *message)
{
    for (int i = 0; i < 9; i++) {
        if (bolts->axes[i] != 0.0) {
            return trivet__axes_check(bolts->axes, kind, name, message);
        }
    }
    return TRIVET_OK;
}

/* Stock by its number, -1 being none. */
static trivet_status check_stock(const trivet_frame *frame, int32_t stock, const char *name,
                                 trivet_message *message)
{
    const trivet_status status =
        stock == -1 ? TRIVET_OK : trivet__index_check(frame, TRIVET_KIND_STOCK, stock, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "%s %s", kind, name);
    }
    return status;
}

static int is_tube(const trivet_frame *frame, int32_t stock)
{
    return stock >= 0 && trivet__is_hollow(&frame->stocks[stock].profile);
}

/* What the thread is in. */
static trivet_status check_into(const trivet_frame *frame, const trivet_bolts *bolts,
                                const char *name, trivet_message *message)
{
    const trivet_status status = check_stock(frame, bolts->into_stock, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (bolts->into == TRIVET_INTO_TAPPED && bolts->into_stock < 0) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                    "the thread is tapped into nothing",
                                    "name the stock that it is tapped into");
    }
    if (bolts->into == TRIVET_INTO_TAPPED && isnan(bolts->engagement)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                    "it is not said how much of the thread is in",
                                    "give the engagement, the length over which threads meet");
    }
    if (bolts->into == TRIVET_INTO_WALL && !is_tube(frame, bolts->into_stock)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                    "the thread is cut into a wall, but into no tube's",
                                    "name the stock of the tube whose wall it is cut into");
    }
    return TRIVET_OK;
}

static trivet_status check_sleeve(const trivet_bolts *bolts, const char *name,
                                  trivet_message *message)
{
    if (isnan(bolts->sleeve_diameter) || isnan(bolts->sleeve_wall)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                    "the size of the sleeve is not said",
                                    "give its outside diameter and its wall");
    }
    if (!(bolts->sleeve_wall <= 0.5 * bolts->sleeve_diameter)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                    "the wall of the sleeve does not fit its diameter",
                                    "give a wall of at most half the diameter");
    }
    return TRIVET_OK;
}

/* What is clamped, and over what. */
static trivet_status check_clamped(const trivet_frame *frame, const trivet_bolts *bolts,
                                   const char *name, trivet_message *message)
{
    trivet_status status = check_stock(frame, bolts->clamped_stock, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (bolts->clamped != TRIVET_CLAMPED_SOLID && !is_tube(frame, bolts->clamped_stock)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                    "they clamp a hollow tube, but no tube is named",
                                    "name the stock of the tube that is clamped");
    }
    if (bolts->clamped == TRIVET_CLAMPED_SLEEVE) {
        status = check_sleeve(bolts, name, message);
    }
    if (status == TRIVET_OK && bolts->spacer != TRIVET_SPACER_NONE && isnan(bolts->spacer_height)) {
        status = trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                      "the height of the spacer is not said",
                                      "give its height, or leave the spacer out");
    }
    return status;
}

trivet_status trivet__bolts_check(const trivet_frame *frame, const trivet_bolts *bolts,
                                  const char *name, trivet_message *message)
{
    trivet_thread thread = {0};
    trivet_status status = check_names(bolts, name, &thread, message);
    if (status == TRIVET_OK) {
        status = check_choices(bolts, name, message);
    }
    if (status == TRIVET_OK) {
        status = check_sizes(bolts, name, message);
    }
    if (status == TRIVET_OK) {
        status = check_pattern(bolts, name, thread.diameter, message);
    }
    if (status == TRIVET_OK) {
        status = check_axes(bolts, name, message);
    }
    if (status == TRIVET_OK) {
        status = check_into(frame, bolts, name, message);
    }
    return status == TRIVET_OK ? check_clamped(frame, bolts, name, message) : status;
}
