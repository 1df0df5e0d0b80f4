/*
 * The give of the mounts out of readings: a mass hung at a joint, the drop read there. The search
 * stands in give_search.c; the bounds in give_bounds.c;
 * here are the readings' cases and what is refused.
 *
 * Readings contradict each other where the sum of squares lies beyond the 99.9 % quantile of chi
 * squared with as many degrees of freedom as there are more readings than unknowns; without any
 * more, that of one degree: the fit goes through all readings unless no give explains them.
 */
#include "checks/give_fit.h"
#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "checks/chi_squared.h"
#include "frame/frame.h"
#include "numerics/numerics.h"

#include <math.h>
#include <string.h>

enum { UNKNOWNS_MAX = TRIVET__UNKNOWNS_MAX, LENGTH_TEXT = 64, WAYS_TEXT = 48 };

#define USUAL_WITHIN 2e-4 /* m: a steel rule, read twice; our own choice */
#define BEYOND 1e-3       /* 99.9 %: what chance alone makes of a thousand sets in one */
#define ROUGHLY_READ 3.0  /* times within: what is left to the reading */
#define FELT 1e-9         /* share of a drop that must change with a spring */
#define TOLD_APART 1e-6   /* least angle between what two springs do to the readings */
#define LARGEST 1e6       /* kg, m: more than anybody hangs or reads */

trivet_status trivet_reading_defaults(trivet_reading *reading, size_t size)
{
    const trivet_status status = trivet__defaults(reading, size, sizeof *reading);
    if (status == TRIVET_OK) {
        reading->joint = -1;
        reading->within = USUAL_WITHIN;
    }
    return status;
}

trivet_status trivet_fitted_defaults(trivet_fitted *fitted, size_t size)
{
    return trivet__defaults(fitted, size, sizeof *fitted);
}

/* ---- what is asked ---- */

static trivet_status refuse_number(const trivet_frame *frame, const trivet_reading *reading,
                                   int32_t index, const char *problem, const char *remedy,
                                   trivet_message *message)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, "", problem, remedy);
    trivet__message_thing(message, "reading %d, at joint %s", (int)index + 1,
                          trivet_frame_name(frame, TRIVET_KIND_JOINT, reading->joint));
    return TRIVET_BAD_VALUE;
}

static trivet_status check_reading(const trivet_frame *frame, const trivet_reading *of,
                                   int32_t index, trivet_message *message)
{
    const trivet_status status = trivet__size_check(
        of->size, sizeof *of, "reading", "fill it with trivet_reading_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (of->joint < 0 || of->joint >= trivet_frame_count(frame, TRIVET_KIND_JOINT)) {
        trivet__refuse(message, TRIVET_BAD_INDEX, "", "it is at no joint of the frame",
                       "say at which joint the mass hung");
        trivet__message_thing(message, "reading %d", (int)index + 1);
        return TRIVET_BAD_INDEX;
    }
    if (!(of->mass > 0.0 && of->mass < LARGEST)) {
        return refuse_number(frame, of, index, "its mass is not above 0",
                             "say how many kilograms hung there", message);
    }
    if (!(of->drop >= 0.0 && of->drop < LARGEST)) {
        return refuse_number(frame, of, index, "its drop is below 0 or no length",
                             "say how far the joint came down: a mass pulls its joint down, never "
                             "up",
                             message);
    }
    if (!(of->within > 0.0 && of->within < LARGEST)) {
        return refuse_number(frame, of, index, "how well it was read is not above 0",
                             "say within how much you trust it, such as 0.2 mm", message);
    }
    return TRIVET_OK;
}

static trivet_status check_call(const trivet_frame *frame, const trivet_reading *readings,
                                int32_t count, const trivet__fitting *of,
                                const trivet_fitted *fitted, trivet_message *message)
{
    if (!frame || !readings || !fitted) {
        return trivet__missing(message, !frame ? "frame" : !readings ? "readings" : "fitted_out");
    }
    trivet_status status = trivet__size_check(fitted->size, sizeof *fitted, "fitted_out",
                                              "fill it with trivet_fitted_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (of->unknown_count == 0 || of->directions > (uint32_t)TRIVET_ALL) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "give of the mounts",
                              "no direction is named in which they give", "name one, such as ry");
    }
    if (count < of->unknown_count) {
        trivet__refuse(message, TRIVET_BAD_VALUE, "give of the mounts", "",
                       "hang the mass at another joint too, or fit fewer directions");
        trivet__message_problem(message, "%d reading%s cannot tell %d unknown springs", (int)count,
                                count == 1 ? "" : "s", (int)of->unknown_count);
        return TRIVET_BAD_VALUE;
    }
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        status = check_reading(frame, &readings[i], i, message);
    }
    return status;
}

/* ---- the frame with its readings ---- */

/* A case for each reading: the mass alone, without weight, since the drop is what it adds. */
static trivet_status add_cases(trivet__fitting *of)
{
    trivet_status status = TRIVET_OK;
    of->first_case = trivet_frame_count(of->frame, TRIVET_KIND_CASE);
    for (int32_t i = 0; i < of->count && status == TRIVET_OK; i++) {
        const double force[3] = {0.0, 0.0, -of->readings[i].mass * TRIVET__GRAVITY};
        char name[64];
        int32_t made = -1;
        trivet__text_print(name, sizeof name, "mass hung for reading %d of the give", (int)i + 1);
        status = trivet_frame_add_case(of->frame, name, NULL, &made, of->message);
        if (status == TRIVET_OK) {
            status = trivet_frame_add_joint_force(of->frame, made, of->readings[i].joint, force,
                                                  NULL, of->message);
        }
    }
    return status;
}

/* A drop smaller than rigid mounts leave it is beyond any give. */
static trivet_status check_rigid(const trivet__fitting *of)
{
    trivet_result *result = NULL;
    trivet_status status = trivet__fitting_set(of->frame, of, NULL);
    if (status == TRIVET_OK) {
        status = trivet_frame_solve(of->frame, &result, of->message);
    }
    if (status == TRIVET_OK) {
        trivet__fitting_read(of, result, of->drops);
    }
    for (int32_t i = 0; i < of->count && status == TRIVET_OK; i++) {
        const trivet_reading *const at = &of->readings[i];
        if (!(at->drop < of->drops[i] - ROUGHLY_READ * at->within)) {
            continue;
        }
        char alone[LENGTH_TEXT];
        char read[LENGTH_TEXT];
        trivet_units_text(NULL, TRIVET_LENGTH, of->drops[i], 3, alone, sizeof alone);
        trivet_units_text(NULL, TRIVET_LENGTH, at->drop, 3, read, sizeof read);
        status =
            refuse_number(of->frame, at, i, "",
                          "look at the reading, or at the stiffness of the tubes", of->message);
        trivet__message_problem(of->message,
                                "the frame alone comes down %s there, and %s was read: no give "
                                "explains that",
                                alone, read);
    }
    trivet_result_free(result);
    return status;
}

/* "z and ry" */
static void write_ways(const trivet__fitting *of, char text[WAYS_TEXT])
{
    static const char *const WAYS[UNKNOWNS_MAX] = {"x", "y", "z", "rx", "ry", "rz"};
    text[0] = '\0';
    for (int32_t k = 0; k < of->unknown_count; k++) {
        const char *const joiner = k == 0 ? "" : k + 1 == of->unknown_count ? " and " : ", ";
        char grown[WAYS_TEXT];
        trivet__text_print(grown, sizeof grown, "%s%s%s", text, joiner, WAYS[of->unknowns[k]]);
        trivet__text_copy(text, WAYS_TEXT, grown);
    }
}

/* Whether a reading changes if that spring, among soft ones, becomes a hundred times stiffer. */
static trivet_status find_felt(const trivet__fitting *of, int32_t unknown, int *is_felt_out)
{
    double springs[UNKNOWNS_MAX];
    double logs[UNKNOWNS_MAX] = {0.0};
    trivet_status status = trivet_give_springs(TRIVET_GIVE_RUBBER, springs);
    for (int32_t k = 0; k < of->unknown_count; k++) {
        logs[k] = log(springs[of->unknowns[k]]);
    }
    *is_felt_out = 0;
    if (status == TRIVET_OK) {
        status = trivet__fitting_predict(of, logs, of->drops);
    }
    logs[unknown] += log(100.0);
    if (status == TRIVET_OK) {
        status = trivet__fitting_predict(of, logs, of->trial);
    }
    for (int32_t i = 0; i < of->count && status == TRIVET_OK; i++) {
        *is_felt_out |= fabs(of->trial[i] - of->drops[i]) > FELT * fabs(of->drops[i]);
    }
    return status;
}

static trivet_status check_felt(trivet__fitting *of)
{
    trivet_status status = TRIVET_OK;
    for (int32_t k = 0; k < of->unknown_count && status == TRIVET_OK; k++) {
        int is_felt = 0;
        status = find_felt(of, k, &is_felt);
        if (status == TRIVET_OK && !is_felt) {
            char way[WAYS_TEXT];
            const trivet__fitting alone = {.unknown_count = 1, .unknowns = {of->unknowns[k]}};
            write_ways(&alone, way);
            status = trivet__refuse(of->message, TRIVET_BAD_VALUE, "give of the mounts", "", "");
            trivet__message_problem(of->message, "no reading feels how the mounts give in %s", way);
            trivet__message_remedy(of->message,
                                   "leave %s out, or hang the mass where it makes the mounts give "
                                   "that way",
                                   way);
        }
    }
    return status;
}

static int take_room(trivet__fitting *of)
{
    const int32_t rows = of->count + of->unknown_count;
    const size_t entries = (size_t)rows * (size_t)of->unknown_count;
    of->drops = trivet__take((size_t)of->count, sizeof(double));
    of->trial = trivet__take((size_t)of->count, sizeof(double));
    of->other = trivet__take((size_t)of->count, sizeof(double));
    of->slopes = trivet__take(entries, sizeof(double));
    of->inverse = trivet__take(entries, sizeof(double));
    of->scratch = trivet__take(trivet__inverse_scratch(rows, of->unknown_count), sizeof(double));
    return of->drops && of->trial && of->other && of->slopes && of->inverse && of->scratch;
}

static void give_back_room(trivet__fitting *of)
{
    trivet_result_free(of->result);
    trivet_workspace_free(of->workspace);
    trivet_plan_free(of->plan);
    trivet_frame_free(of->frame);
    trivet__give_back(of->drops);
    trivet__give_back(of->trial);
    trivet__give_back(of->other);
    trivet__give_back(of->slopes);
    trivet__give_back(of->inverse);
    trivet__give_back(of->scratch);
}

/* The frame with the readings' cases and springs, its plan and what solving needs. */
static trivet_status prepare(trivet__fitting *of, const trivet_frame *frame)
{
    const double any[UNKNOWNS_MAX] = {10.0, 10.0, 10.0, 10.0, 10.0, 10.0};
    trivet_status status = take_room(of) ? trivet_frame_copy(frame, &of->frame, of->message)
                                         : trivet__no_memory(of->message);
    if (status == TRIVET_OK) {
        status = add_cases(of);
    }
    if (status == TRIVET_OK) {
        status = check_rigid(of);
    }
    if (status == TRIVET_OK) {
        status = trivet__fitting_set(of->frame, of, any);
    }
    if (status == TRIVET_OK) {
        status = trivet_plan_new(of->frame, &of->plan, of->message);
    }
    if (status == TRIVET_OK) {
        status = trivet_workspace_new(of->plan, &of->workspace, of->message);
    }
    if (status == TRIVET_OK) {
        status = trivet_result_new(of->plan, &of->result, of->message);
    }
    return status == TRIVET_OK ? check_felt(of) : status;
}

/* ---- what came out ---- */

static trivet_status check_misfit(const trivet__fitting *of, double misfit)
{
    const int32_t more = of->count - of->unknown_count;
    if (misfit <= trivet__chi_squared_quantile(more > 0 ? more : 1, BEYOND)) {
        return TRIVET_OK;
    }
    int32_t worst = 0;
    double most = -1.0;
    for (int32_t i = 0; i < of->count; i++) {
        const double off = fabs(of->drops[i] - of->readings[i].drop) / of->readings[i].within;
        if (!(off <= most)) {
            worst = i;
            most = off;
        }
    }
    const trivet_reading *const at = &of->readings[worst];
    char drop[LENGTH_TEXT];
    char read[LENGTH_TEXT];
    trivet_units_text(NULL, TRIVET_LENGTH, of->drops[worst], 3, drop, sizeof drop);
    trivet_units_text(NULL, TRIVET_LENGTH, at->drop, 3, read, sizeof read);
    refuse_number(of->frame, at, worst, "",
                  "read it again, or say how well it was read: within: 0.5 mm", of->message);
    trivet__message_problem(of->message,
                            "the readings contradict each other: with the give that explains them "
                            "best, %s would come down %s, and %s was read",
                            trivet_frame_name(of->frame, TRIVET_KIND_JOINT, at->joint), drop, read);
    return TRIVET_BAD_VALUE;
}

/* Divides each unknown's slopes by their size, which is written to sizes. */
static void scale_slopes(const trivet__fitting *of, double sizes[UNKNOWNS_MAX])
{
    for (int32_t k = 0; k < of->unknown_count; k++) {
        double square = 0.0;
        for (int32_t i = 0; i < of->count; i++) {
            const double slope = of->slopes[(ptrdiff_t)i * of->unknown_count + k];
            square += slope * slope;
        }
        sizes[k] = sqrt(square);
        for (int32_t i = 0; i < of->count && sizes[k] > 0.0; i++) {
            of->slopes[(ptrdiff_t)i * of->unknown_count + k] /= sizes[k];
        }
    }
}

/* Springs; refuses those that the readings cannot tell apart. */
static trivet_status fill_springs(const trivet__fitting *of, const double *logs,
                                  trivet_fitted *fitted)
{
    double sizes[UNKNOWNS_MAX] = {0.0};
    const trivet_status status = trivet__fitting_slopes(of, logs);
    if (status != TRIVET_OK) {
        return status;
    }
    scale_slopes(of, sizes);
    int is_lost = trivet__pseudo_inverse(of->count, of->unknown_count, of->slopes, of->inverse,
                                         of->scratch) < of->unknown_count;
    fitted->directions = of->directions;
    for (int32_t k = 0; k < of->unknown_count; k++) {
        double square = 0.0; /* a row of the pseudo-inverse times itself: (J'J)^-1 at k, k */
        for (int32_t i = 0; i < of->count; i++) {
            const double entry = of->inverse[(ptrdiff_t)k * of->count + i];
            square += entry * entry;
        }
        is_lost |= !(sqrt(square) < 1.0 / TOLD_APART);
        fitted->spring[of->unknowns[k]] = exp(logs[k]);
    }
    if (is_lost) {
        char ways[WAYS_TEXT];
        write_ways(of, ways);
        trivet__refuse(of->message, TRIVET_BAD_VALUE, "give of the mounts", "",
                       "fit fewer directions, or hang the mass at another joint too");
        trivet__message_problem(of->message, "the readings cannot tell its springs in %s apart",
                                ways);
        return TRIVET_BAD_VALUE;
    }
    return TRIVET_OK;
}

/* A copy of the frame as it was given, on the springs that were found. */
static trivet_status make_copy(const trivet__fitting *of, const trivet_frame *frame,
                               const double *logs, trivet_frame **copy_out)
{
    trivet_status status = trivet_frame_copy(frame, copy_out, of->message);
    if (status == TRIVET_OK) {
        status = trivet__fitting_set(*copy_out, of, logs);
    }
    if (status != TRIVET_OK) {
        trivet_frame_free(*copy_out);
        *copy_out = NULL;
    }
    return status;
}

static trivet_status fit(trivet__fitting *of, const trivet_frame *frame, trivet_fitted *fitted,
                         trivet_frame **copy_out)
{
    double logs[UNKNOWNS_MAX] = {0.0};
    double misfit = HUGE_VAL;
    trivet_status status = prepare(of, frame);
    if (status == TRIVET_OK) {
        status = trivet__fitting_search(of, logs, &misfit);
    }
    if (status == TRIVET_OK) {
        status = check_misfit(of, misfit);
    }
    if (status == TRIVET_OK) {
        fitted->misfit = misfit;
        status = fill_springs(of, logs, fitted);
    }
    if (status == TRIVET_OK) {
        status = trivet__fitting_bounds(of, logs, misfit, fitted);
    }
    return status == TRIVET_OK && copy_out ? make_copy(of, frame, logs, copy_out) : status;
}

trivet_status trivet_give_fit(const trivet_frame *frame, const trivet_reading *readings,
                              int32_t reading_count, uint32_t directions, trivet_fitted *fitted_out,
                              trivet_frame **copy_out, trivet_message *message)
{
    trivet_message said; /* places that the search gave up leave texts in it */
    trivet_fitted fitted = {.size = sizeof fitted};
    trivet__fitting of = {.readings = readings,
                          .count = reading_count,
                          .directions = directions,
                          .held = -1,
                          .message = &said};
    trivet_message_clear(&said);
    if (copy_out) {
        *copy_out = NULL;
    }
    for (int32_t d = 0; d < UNKNOWNS_MAX; d++) {
        if (directions & (1U << (uint32_t)d)) {
            of.unknowns[of.unknown_count++] = d;
        }
    }
    trivet_status status = check_call(frame, readings, reading_count, &of, fitted_out, &said);
    if (status == TRIVET_OK) {
        status = fit(&of, frame, &fitted, copy_out);
        give_back_room(&of);
    }
    if (status == TRIVET_OK) {
        *fitted_out = fitted;
    } else if (message) {
        *message = said;
    }
    return status;
}
