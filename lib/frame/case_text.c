/*
 * A case in plain words, so that one can see what was understood before any result depends on it.
 */
#include "base/text.h"
#include "base/vec3.h"
#include "frame/frame.h"

#include <math.h>

/* Text that grows at its end and remembers how long it would be. */
typedef struct writing {
    char *text;
    size_t size;
    size_t used;
} writing;

static void append(writing *to, const char *between, const char *part)
{
    const size_t at = to->used < to->size ? to->used : to->size;
    to->used += trivet__text_print(to->text ? to->text + at : NULL, to->size - at, "%s%s",
                                   to->used > 0 ? between : "", part);
}

/* Words for the six ways along the axes; x forward, y left, z up. */
static const char *const WAYS[3][2] = {
    {"forward", "backward"}, {"to the left", "to the right"}, {"up", "down"}};

/* "2 g down, 0.7 g to the left": the components of a vector that are not zero. */
static void append_ways(writing *to, const double v[3], trivet_dimension dimension,
                        const char *unit, const trivet_units *units)
{
    int first = 1;
    for (int i = 2; i >= 0; i--) {
        if (v[i] != 0.0) {
            char amount[64];
            char part[128];
            trivet_units_text(units, dimension, fabs(v[i]), 3, amount, sizeof amount);
            trivet__text_print(part, sizeof part, "%s%s %s", amount, unit,
                               WAYS[i][v[i] > 0.0 ? 0 : 1]);
            append(to, first ? "; " : ", ", part);
            first = 0;
        }
    }
}

/* "250 N backward on cool box" */
static void append_force(writing *to, const double force[3], const double moment[3],
                         trivet_dimension dimension, const char *on, const trivet_units *units)
{
    char part[TRIVET_NAME_MAX + 32];
    const size_t before = to->used;
    append_ways(to, force, dimension, "", units);
    if (moment && trivet__length3(moment) > 0.0) {
        char amount[64];
        trivet_units_text(units, TRIVET_MOMENT, trivet__length3(moment), 3, amount, sizeof amount);
        trivet__text_print(part, sizeof part, "a moment of %s", amount);
        append(to, to->used > before ? " and " : "; ", part);
    }
    if (to->used > before) {
        trivet__text_print(part, sizeof part, " on %s", on);
        append(to, "", part);
    }
}

static void append_tube_loads(writing *to, const trivet_frame *frame, const trivet__case *of,
                              const trivet_units *units)
{
    for (int32_t i = 0; i < of->tube_force_count; i++) {
        const trivet__tube_force *const load = &of->tube_forces[i];
        append_force(to, load->force, load->moment, TRIVET_FORCE,
                     trivet_frame_name(frame, TRIVET_KIND_TUBE, load->tube), units);
        append(to, "", load->axes == TRIVET_TUBE_AXES ? " (the tube's axes)" : "");
    }
    for (int32_t i = 0; i < of->tube_line_count; i++) {
        const trivet__tube_line *const load = &of->tube_lines[i];
        double mean[3];
        for (int k = 0; k < 3; k++) {
            mean[k] = 0.5 * (load->first[k] + load->last[k]);
        }
        append_force(to, mean, NULL, TRIVET_LINE_LOAD,
                     trivet_frame_name(frame, TRIVET_KIND_TUBE, load->tube), units);
        append(to, "", load->axes == TRIVET_TUBE_AXES ? " (the tube's axes)" : "");
    }
}

static void append_others(writing *to, const trivet_frame *frame, const trivet__case *of,
                          const trivet_units *units)
{
    char part[TRIVET_NAME_MAX + 64];
    char amount[64];
    for (int32_t i = 0; i < frame->mount_count; i++) {
        const double *const move = of->mount_moves ? of->mount_moves + 6 * (size_t)i : NULL;
        int moves = 0;
        for (int k = 0; move && k < 6; k++) {
            moves = moves || move[k] != 0.0;
        }
        if (moves) {
            trivet__text_print(part, sizeof part, "mount %s is moved",
                               trivet_frame_name(frame, TRIVET_KIND_MOUNT, i));
            append(to, "; ", part);
        }
    }
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        const double factor = of->cargo_factors ? of->cargo_factors[i] : 1.0;
        const char *const name = trivet_frame_name(frame, TRIVET_KIND_CARGO, i);
        if (factor == 0.0) {
            trivet__text_print(part, sizeof part, "without %s", name);
            append(to, "; ", part);
        } else if (factor != 1.0) {
            trivet_units_text(units, TRIVET_NUMBER, factor, 3, amount, sizeof amount);
            trivet__text_print(part, sizeof part, "%s times %s", amount, name);
            append(to, "; ", part);
        }
    }
    if (of->warm != 0.0) {
        trivet_units_text(units, TRIVET_TEMPERATURE, fabs(of->warm), 3, amount, sizeof amount);
        trivet__text_print(part, sizeof part, "%s %s", amount,
                           of->warm > 0.0 ? "warmer" : "colder");
        append(to, "; ", part);
    }
}

static void write_case(writing *to, const trivet_frame *frame, const trivet__case *of,
                       const trivet_units *units)
{
    append_ways(to, of->gravity, TRIVET_NUMBER, " g", units);
    for (int32_t i = 0; i < of->joint_force_count; i++) {
        const trivet__joint_force *const load = &of->joint_forces[i];
        append_force(to, load->force, load->moment, TRIVET_FORCE,
                     trivet_frame_name(frame, TRIVET_KIND_JOINT, load->joint), units);
    }
    for (int32_t i = 0; i < of->cargo_force_count; i++) {
        const trivet__cargo_force *const load = &of->cargo_forces[i];
        append_force(to, load->force, load->moment, TRIVET_FORCE,
                     trivet_frame_name(frame, TRIVET_KIND_CARGO, load->cargo), units);
    }
    append_tube_loads(to, frame, of, units);
    append_others(to, frame, of, units);
}

static void write_combination(writing *to, const trivet_frame *frame, const trivet__combination *of,
                              const trivet_units *units)
{
    for (int32_t i = 0; i < of->case_count; i++) {
        char amount[64];
        char part[TRIVET_NAME_MAX + 80];
        trivet_units_text(units, TRIVET_NUMBER, of->factors[i], 3, amount, sizeof amount);
        trivet__text_print(part, sizeof part, "%s times %s", amount,
                           trivet_frame_name(frame, TRIVET_KIND_CASE, of->cases[i]));
        append(to, " + ", part);
    }
}

size_t trivet_case_text(const trivet_frame *frame, int32_t column, const trivet_units *units,
                        char *text, size_t size)
{
    writing to = {.text = size > 0 ? text : NULL, .size = text ? size : 0, .used = 0};
    trivet__text_print(to.text, to.size, "%s", "");
    if (frame && column >= 0 && column < frame->case_count) {
        write_case(&to, frame, &frame->cases[column], units);
    } else if (frame && column >= 0 && column - frame->case_count < frame->combination_count) {
        write_combination(&to, frame, &frame->combinations[column - frame->case_count], units);
    }
    return to.used;
}

const char *trivet_frame_column_name(const trivet_frame *frame, int32_t column)
{
    const int32_t cases = trivet_frame_count(frame, TRIVET_KIND_CASE);
    return column < cases ? trivet_frame_name(frame, TRIVET_KIND_CASE, column)
                          : trivet_frame_name(frame, TRIVET_KIND_COMBINATION, column - cases);
}
