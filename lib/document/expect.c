/*
 * Hand calculations held against a result.
 */
#include "document/expect.h"
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const double down[3] = {0.0, 0.0, -1.0};

trivet_status trivet_expectation_defaults(trivet_expectation *expectation, size_t size)
{
    const trivet_status status = trivet__defaults(expectation, size, sizeof *expectation);
    if (status == TRIVET_OK) {
        expectation->what = "";
        expectation->where = "";
        expectation->in_case = "";
        expectation->by = "";
    }
    return status;
}

/* The span of a tube that holds a place, and how far into it. */
static int32_t find_span(const trivet_result *result, int32_t tube, double from, double *into)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, tube, &count);
    for (int32_t span = first; span < first + count; span++) {
        trivet_span about;
        if (trivet_span_defaults(&about, sizeof about) ||
            trivet_result_span(result, span, &about)) {
            return -1;
        }
        const int is_last = span == first + count - 1;
        if (from < about.start + about.length || is_last) {
            const double rest = from - about.start;
            *into = rest < 0.0 ? 0.0 : rest > about.length ? about.length : rest;
            return span;
        }
    }
    return -1;
}

/* Movement or force inside at a place along a tube; NaN if it cannot be told. */
static double at_place(const trivet_result *result, const trivet__expect *expect)
{
    double forces[6];
    double moves[6];
    double into = 0.0;
    const int32_t span = find_span(result, expect->where_index, expect->from, &into);
    if (span < 0 || trivet_result_at(result, expect->result_column, span, into, forces, moves)) {
        return (double)NAN;
    }
    if (expect->kind == TRIVET__EXPECT_INSIDE) {
        return forces[expect->component];
    }
    return expect->kind == TRIVET__EXPECT_DROOP ? -moves[2] : moves[expect->component];
}

/* The largest droop along a tube. */
static double most_droop(const trivet_result *result, const trivet__expect *expect)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, expect->where_index, &count);
    double most = (double)NAN;
    for (int32_t span = first; span < first + count; span++) {
        trivet_extreme extreme;
        if (trivet_result_extreme_move(result, expect->result_column, span, down, &extreme)) {
            return (double)NAN;
        }
        most = isnan(most) || extreme.most > most ? extreme.most : most;
    }
    return most;
}

/* The largest size of a force or moment along a tube. */
static double most_inside(const trivet_result *result, const trivet__expect *expect)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, expect->where_index, &count);
    double most = (double)NAN;
    for (int32_t span = first; span < first + count; span++) {
        trivet_extreme extremes[6];
        if (trivet_result_extremes(result, expect->result_column, span, extremes)) {
            return (double)NAN;
        }
        const trivet_extreme *const of = &extremes[expect->component];
        const double size = fmax(fabs(of->least), fabs(of->most));
        most = isnan(most) || size > most ? size : most;
    }
    return most;
}

/* Whether an expectation asks for that check. */
static int is_meant(const trivet__expect *expect, const trivet_check *check)
{
    return strcmp(check->check, expect->check) == 0 &&
           (!expect->place[0] || strcmp(check->where, expect->place) == 0) &&
           (!expect->in_case[0] || strcmp(check->in_case, expect->in_case) == 0) &&
           (expect->joint < 0 || check->joint == expect->joint);
}

/* The check that is asked for, the worst if there are several; 0 if there is none. */
static int find_check(const trivet_checks *checks, const trivet__expect *expect,
                      trivet_check *check_out)
{
    const int32_t count = trivet_checks_count(checks);
    int is_there = 0;
    for (int32_t i = 0; i < count; i++) {
        trivet_check check;
        if (trivet_check_defaults(&check, sizeof check) || trivet_checks_at(checks, i, &check)) {
            return 0;
        }
        if (is_meant(expect, &check) && (!is_there || check.utilisation > check_out->utilisation)) {
            *check_out = check;
            is_there = 1;
        }
    }
    return is_there;
}

/* A section value, by the number that resolve_expect.c gives it. */
static double of_section(const trivet_document *document, const trivet__expect *expect)
{
    const trivet_frame *const frame = document->frame;
    const trivet_section *const section = trivet_frame_section(frame, expect->where_index);
    const trivet_material *const material = trivet_frame_material(frame, expect->where_index);
    if (!section || !material) {
        return (double)NAN;
    }
    const double values[TRIVET__SECTION_VALUES] = {
        section->area,
        section->shear_area[0],
        section->shear_area[1],
        section->second_moment[0],
        section->second_moment[1],
        section->elastic_modulus[0],
        section->elastic_modulus[1],
        section->plastic_modulus[0],
        section->plastic_modulus[1],
        section->torsion_constant,
        section->torsion_modulus,
        section->radius_of_gyration[0],
        section->radius_of_gyration[1],
        section->mass_per_length > 0.0 ? section->mass_per_length
                                       : section->area * material->density,
    };
    return values[expect->component];
}

/* A torque or preload of a set of bolts, likewise. */
static double of_screw(const trivet_document *document, const trivet__expect *expect)
{
    trivet_torque torque;
    if (trivet_torque_defaults(&torque, sizeof torque) ||
        trivet_frame_torque(document->frame, expect->bolts, &torque)) {
        return (double)NAN;
    }
    const double values[TRIVET__SCREW_VALUES] = {torque.allowed, torque.table, torque.preload,
                                                 torque.least, torque.most};
    return values[expect->component];
}

/* One number of values [case][count][6]; NaN if they are NULL. */
static double pick(const double *values, int32_t count, const trivet__expect *expect)
{
    const size_t row = (size_t)expect->result_column * (size_t)count + (size_t)expect->where_index;
    return values ? values[6 * row + (size_t)expect->component] : (double)NAN;
}

static double of_joint(const trivet_result *result, const trivet__expect *expect)
{
    int32_t joint_count = 0;
    const double *const moves = trivet_result_moves(result, NULL, &joint_count);
    const double move = pick(moves, joint_count, expect);
    return expect->kind == TRIVET__EXPECT_DROOP ? -move : move;
}

static double of_mount(const trivet_result *result, const trivet__expect *expect)
{
    int32_t mount_count = 0;
    const double *const reactions = trivet_result_reactions(result, NULL, &mount_count);
    return pick(reactions, mount_count, expect);
}

double trivet__expect_movement(const trivet_result *result, const trivet__expect *expect)
{
    if (expect->where_kind != TRIVET_KIND_TUBE) {
        return of_joint(result, expect);
    }
    return isnan(expect->from) ? most_droop(result, expect) : at_place(result, expect);
}

/* What needs no check. */
static double compute(const trivet_document *document, const trivet_result *result,
                      const trivet__expect *expect)
{
    switch (expect->kind) {
    case TRIVET__EXPECT_DROOP:
    case TRIVET__EXPECT_MOVE:
        return trivet__expect_movement(result, expect);
    case TRIVET__EXPECT_REACTION:
        return of_mount(result, expect);
    case TRIVET__EXPECT_INSIDE:
        return isnan(expect->from) ? most_inside(result, expect) : at_place(result, expect);
    case TRIVET__EXPECT_SECTION:
        return of_section(document, expect);
    case TRIVET__EXPECT_SCREW:
        return of_screw(document, expect);
    default:
        return trivet_frame_mass(document->frame);
    }
}

static trivet_status refuse_unit(const trivet_document *document, const trivet__expect *expect,
                                 int32_t dimension, trivet_message *message)
{
    const char *const unit = trivet_units_for(&document->units, (trivet_dimension)dimension, NULL);
    trivet__refuse(message, TRIVET_BAD_UNIT, "", "", unit[0] ? "" : "leave out the unit");
    trivet__message_thing(message, "expect %d", (int)expect->number);
    trivet__message_problem(message, "the %s of the check \"%s\" there is a %s", expect->what,
                            expect->check, trivet_dimension_text((trivet_dimension)dimension));
    if (unit[0]) {
        trivet__message_remedy(message, "give \"value\" in %s, and \"within\" in %s or %%", unit,
                               unit);
    }
    if (message) {
        message->line = expect->of_value.line;
        message->column = expect->of_value.column;
    }
    return TRIVET_BAD_UNIT;
}

/* A quantity as a number of a dimension that was not known when it was read; NaN if it is none. */
static double as_number(const trivet_document *document, const trivet_quantity *quantity,
                        int32_t dimension)
{
    double factor = 1.0;
    const int means_something = dimension == TRIVET_LENGTH || dimension == TRIVET_MASS ||
                                dimension == TRIVET_FORCE || dimension == TRIVET_NUMBER;
    if (quantity->has_unit || quantity->value == 0.0) {
        const int fits =
            !quantity->has_unit || trivet_quantity_fits(quantity, (trivet_dimension)dimension);
        return fits ? quantity->value : (double)NAN;
    }
    trivet_units_for(&document->units, (trivet_dimension)dimension, &factor);
    return means_something ? quantity->value * factor : (double)NAN;
}

/* Value and nearness by hand, now that the dimension of the check is known. */
static trivet_status settle(const trivet_document *document, const trivet__expect *expect,
                            trivet_expectation *about, trivet_message *message)
{
    const double value = as_number(document, &expect->value_read, about->dimension);
    double within = expect->within_read.value;
    if (!trivet_quantity_fits(&expect->within_read, TRIVET_NUMBER)) {
        within = as_number(document, &expect->within_read, about->dimension);
        within = value != 0.0 ? within / fabs(value) : within;
    } else if (value == 0.0 && about->dimension != TRIVET_NUMBER) {
        within = (double)NAN; /* a share of nothing */
    }
    if (!isfinite(value) || !isfinite(within)) {
        return refuse_unit(document, expect, about->dimension, message);
    }
    about->by_hand = value;
    about->within = within;
    return TRIVET_OK;
}

/* What a quantity is, as far as checks compare such things. */
static int32_t likely_dimension(const trivet_quantity *quantity)
{
    static const int32_t COMPARED[] = {TRIVET_FORCE, TRIVET_MOMENT, TRIVET_STRESS, TRIVET_LENGTH,
                                       TRIVET_MASS};
    for (size_t i = 0; i < sizeof COMPARED / sizeof COMPARED[0]; i++) {
        if (quantity->has_unit && trivet_quantity_fits(quantity, (trivet_dimension)COMPARED[i])) {
            return COMPARED[i];
        }
    }
    return TRIVET_NUMBER;
}

/* What a check says, with the case in which it says it. */
static trivet_status take_check(const trivet_document *document, const trivet_checks *checks,
                                const trivet__expect *expect, trivet_expectation *about,
                                trivet_message *message)
{
    trivet_check check = {.size = sizeof check};
    if (!find_check(checks, expect, &check)) {
        about->computed = (double)NAN;
        if (expect->dimension < 0) {
            about->by_hand = expect->value_read.value;
            about->dimension = likely_dimension(&expect->value_read);
        }
        trivet__text_print(about->hint, sizeof about->hint,
                           "no such check was made there: see what was not checked");
        return TRIVET_OK;
    }
    const double values[] = {check.utilisation, check.demand, check.limit};
    about->in_case = check.in_case;
    about->computed = values[expect->component];
    if (expect->dimension >= 0) {
        return TRIVET_OK;
    }
    about->dimension = check.dimension;
    return settle(document, expect, about, message);
}

static trivet_status check_arguments(const trivet_document *document, const trivet_result *result,
                                     const trivet_checks *checks, int32_t index,
                                     const trivet_expectation *out, trivet_message *message)
{
    if (!document || !result || !checks || !out) {
        return trivet__missing(message, !document ? "document"
                                        : !result ? "result"
                                        : !checks ? "checks"
                                                  : "expectation_out");
    }
    if (out->size != sizeof *out) {
        return trivet__refuse(message, TRIVET_BAD_SIZE, "expectation",
                              "has a size this library never had",
                              "fill it with trivet_expectation_defaults");
    }
    if (!trivet__expect_at(document, index)) {
        const trivet_status status = trivet__refuse(message, TRIVET_BAD_INDEX, "", "",
                                                    "count from 0 in the order of the file");
        trivet__message_thing(message, "expectation number %d", (int)index);
        trivet__message_problem(message, "there are %d of them",
                                (int)trivet_document_expectation_count(document));
        return status;
    }
    return trivet_result_moves(result, NULL, NULL)
               ? TRIVET_OK
               : trivet__refuse(message, TRIVET_BAD_ORDER, "result", "is not solved yet",
                                "solve the frame first");
}

trivet_status trivet_document_expect(const trivet_document *document, const trivet_result *result,
                                     const trivet_checks *checks, int32_t index,
                                     trivet_expectation *expectation_out, trivet_message *message)
{
    trivet_status status =
        check_arguments(document, result, checks, index, expectation_out, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__expect *const expect = trivet__expect_at(document, index);
    trivet_expectation about = {.size = sizeof about,
                                .what = expect->what,
                                .where = expect->where,
                                .in_case = expect->in_case,
                                .by = expect->by,
                                .dimension =
                                    expect->dimension < 0 ? TRIVET_NUMBER : expect->dimension,
                                .by_hand = expect->value,
                                .within = expect->within};
    if (expect->kind == TRIVET__EXPECT_CHECK) {
        status = take_check(document, checks, expect, &about, message);
    } else {
        about.computed = compute(document, result, expect);
    }
    about.difference = about.by_hand != 0.0 ? about.computed / about.by_hand - 1.0
                                            : about.computed - about.by_hand;
    about.agrees = fabs(about.difference) <= about.within ? 1 : 0;
    if (status == TRIVET_OK && !about.agrees && !about.hint[0]) {
        status = trivet__expect_hint(document, expect, &about, message);
    }
    if (status == TRIVET_OK) {
        *expectation_out = about;
    }
    return status;
}
