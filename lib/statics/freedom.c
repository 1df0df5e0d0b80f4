/*
 * When the equations have no solution: who can move, where to, and what hold is missing.
 *
 * First the whole frame is looked at as a rigid body on its holds alone: six movements, one
 * condition for each held or sprung direction. If the holds leave it none, the near-null vectors
 * of the scaled matrix tell what moves inside the frame; they are reduced so that one of them
 * moves as few directions as it can.
 */
#include "base/message.h"
#include "base/text.h"
#include "base/vec3.h"
#include "numerics/numerics.h"
#include "statics/statics.h"

#include <assert.h>
#include <string.h>

/* Rayleigh quotients of the scaled matrix below this are rounding, not stiffness. */
#define NO_STIFFNESS 1e-11

enum { WORDS = 96, NAMES_TOLD = 4 };

/* "y (sideways)", or the direction's numbers if it is none of the axes. */
static void tell_direction(const double v[3], char *text, size_t size)
{
    static const char *const names[3] = {"x (lengthways)", "y (sideways)", "z (up and down)"};
    const double length = trivet__length3(v);
    for (int i = 0; i < 3; i++) {
        if (fabs(v[i]) > 0.999 * length) {
            trivet__text_copy(text, size, names[i]);
            return;
        }
    }
    double tidy[3];
    for (int i = 0; i < 3; i++) {
        tidy[i] = fabs(v[i]) > 1e-3 * length ? v[i] / length : 0.0;
    }
    trivet__text_print(text, size, "[%.2g, %.2g, %.2g]", tidy[0], tidy[1], tidy[2]);
}

/* Puts the vector that moves least of all in front; vectors become reduced rows. */
static void reduce_vectors(double *vectors, int32_t count, int32_t size)
{
    for (int32_t k = 0; k < count; k++) {
        int32_t row = k;
        int32_t column = 0;
        for (int32_t i = k; i < count; i++) {
            for (int32_t j = 0; j < size; j++) {
                const double here = fabs(vectors[(ptrdiff_t)i * size + j]);
                if (here > fabs(vectors[(ptrdiff_t)row * size + column])) {
                    row = i;
                    column = j;
                }
            }
        }
        const double pivot = vectors[(ptrdiff_t)row * size + column];
        for (int32_t j = 0; pivot != 0.0 && j < size; j++) {
            const double kept = vectors[(ptrdiff_t)row * size + j] / pivot;
            vectors[(ptrdiff_t)row * size + j] = vectors[(ptrdiff_t)k * size + j];
            vectors[(ptrdiff_t)k * size + j] = kept;
        }
        for (int32_t i = 0; i < count; i++) {
            const double share = vectors[(ptrdiff_t)i * size + column];
            for (int32_t j = 0; i != k && j < size; j++) {
                vectors[(ptrdiff_t)i * size + j] -= share * vectors[(ptrdiff_t)k * size + j];
            }
        }
    }
}

static int32_t fewest_moves(const double *vectors, int32_t count, int32_t size)
{
    const double still = 1e-6;
    int32_t best = 0;
    int32_t fewest = size + 1;
    for (int32_t i = 0; i < count; i++) {
        int32_t moving = 0;
        for (int32_t j = 0; j < size; j++) {
            moving += fabs(vectors[(ptrdiff_t)i * size + j]) > still;
        }
        if (moving < fewest) {
            fewest = moving;
            best = i;
        }
    }
    return best;
}

/* ---- the frame as a rigid body ---- */

/* Adds the square of one hold's condition: the movement of a joint along or about one direction. */
static void add_condition(const double joint[3], const double middle[3], double size,
                          const double axis[3], int is_turn, double *band)
{
    double row[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    double arm[3];
    if (is_turn) {
        memcpy(row + 3, axis, 3 * sizeof *row);
    } else {
        memcpy(row, axis, 3 * sizeof *row);
        trivet__minus3(joint, middle, arm);
        trivet__cross3(arm, axis, row + 3); /* (turn x arm) . axis = turn . (arm x axis) */
        for (int i = 3; i < 6; i++) {
            row[i] /= size;
        }
    }
    for (int j = 0; j < 6; j++) {
        for (int i = j; i < 6; i++) {
            band[(i - j) + 6 * j] += row[i] * row[j];
        }
    }
}

/* Movements of the whole frame that no hold resists: u and turn * size, about middle. */
static int32_t whole_freedoms(const trivet_frame *frame, const double middle[3], double size,
                              double vectors[36])
{
    enum { SCRATCH = 256 };
    double band[36] = {0.0};
    double values[6];
    double scratch[SCRATCH];
    double diagonal[6];
    for (int32_t m = 0; m < frame->mount_count; m++) {
        const trivet_mount *const mount = &frame->mounts[m];
        for (int d = 0; d < TRIVET__SIX; d++) {
            if ((mount->held >> d & 1U) != 0 || mount->spring[d] > 0.0) {
                add_condition(frame->joints[mount->joint].position, middle, size,
                              mount->axes + (ptrdiff_t)3 * (d % 3), d >= 3, band);
            }
        }
    }
    for (int j = 0; j < 6; j++) {
        diagonal[j] = band[6 * j] > 0.0 ? 1.0 / sqrt(band[6 * j]) : 1.0;
    }
    for (int j = 0; j < 6; j++) {
        for (int i = j; i < 6; i++) {
            band[(i - j) + 6 * j] *= diagonal[i] * diagonal[j];
        }
    }
    assert(trivet__null_scratch(6, 5, 6) <= SCRATCH);
    if (trivet__null_vectors(6, 5, band, 6, vectors, values, scratch) != 0) {
        return 0;
    }
    int32_t count = 0;
    while (count < 6 && values[count] < NO_STIFFNESS) {
        for (int j = 0; j < 6; j++) {
            vectors[6 * count + j] *= diagonal[j];
        }
        count++;
    }
    return count;
}

/* Names of mounts on the line through a point along a direction; says how many. */
static int mounts_on_line(const trivet_frame *frame, const double point[3], const double along[3],
                          double size, const char *names[2])
{
    int found = 0;
    for (int32_t m = 0; m < frame->mount_count && found < 2; m++) {
        const trivet__joint *const joint = &frame->joints[frame->mounts[m].joint];
        double from[3];
        double off[3];
        trivet__minus3(joint->position, point, from);
        trivet__cross3(from, along, off);
        if (trivet__length3(off) < 1e-5 * size * trivet__length3(along)) {
            names[found++] = joint->name;
        }
    }
    return found;
}

static void tell_turn(const trivet_frame *frame, const double move[3], const double turn[3],
                      const double middle[3], double size, trivet_message *message)
{
    /* The line that stays: middle + turn x move / |turn|^2. */
    double point[3];
    trivet__cross3(turn, move, point);
    const double square = trivet__dot3(turn, turn);
    for (int i = 0; i < 3; i++) {
        point[i] = middle[i] + point[i] / square;
    }
    const char *names[2] = {"", ""};
    char along[WORDS];
    tell_direction(turn, along, sizeof along);
    const int found = mounts_on_line(frame, point, turn, size, names);
    if (found == 2) {
        trivet__message_problem(message, "is free to swing about the line through %s and %s",
                                names[0], names[1]);
        trivet__message_remedy(message,
                               "add a mount off that line, or let %s or %s also hold turning "
                               "(hold: all)",
                               names[0], names[1]);
    } else if (found == 1) {
        trivet__message_problem(message, "is free to turn about %s at %s", along, names[0]);
        trivet__message_remedy(message, "let %s hold that turn too (hold: all), or add a mount",
                               names[0]);
    } else {
        trivet__message_problem(message, "is free to turn about %s", along);
        trivet__message_remedy(message, "hold more directions at the mounts, or add a mount");
    }
}

static int tell_whole(const trivet_frame *frame, trivet_message *message)
{
    double vectors[36];
    double middle[3] = {0.0, 0.0, 0.0};
    for (int32_t k = 0; k < frame->joint_count; k++) {
        trivet__add3(middle, 1.0 / frame->joint_count, frame->joints[k].position);
    }
    const double size = trivet__frame_size(frame);
    const int32_t count = whole_freedoms(frame, middle, size, vectors);
    if (count == 0) {
        return 0;
    }
    reduce_vectors(vectors, count, 6);
    const double *const chosen = vectors + (ptrdiff_t)6 * fewest_moves(vectors, count, 6);
    double turn[3];
    for (int i = 0; i < 3; i++) {
        turn[i] = chosen[3 + i] / size;
    }
    trivet__refuse(message, TRIVET_MOVES_FREELY, "the whole frame", "", "");
    if (trivet__length3(turn) * size > 1e-6 * trivet__length3(chosen)) {
        tell_turn(frame, chosen, turn, middle, size, message);
    } else {
        char along[WORDS];
        tell_direction(chosen, along, sizeof along);
        trivet__message_problem(message, "is free to slide along %s", along);
        trivet__message_remedy(message, "let a mount hold %c too", along[0]);
    }
    return 1;
}

/* ---- movement inside the frame ---- */

/* Entry (i, j), j <= i, of the assembled matrix; nothing left of the first tile of a row. */
static double entry_at(const trivet_plan *plan, const trivet_workspace *workspace, int32_t i,
                       int32_t j)
{
    const int is_there = j / TRIVET__TILE >= plan->tiles.firsts[i / TRIVET__TILE];
    return is_there ? workspace->matrix[plan->tile_rows[i] + plan->tile_columns[j]] : 0.0;
}

/* The assembled matrix as a band, scaled to a diagonal of ones; empty rows stay empty. */
static void make_scaled_band(const trivet_plan *plan, trivet_workspace *workspace)
{
    double *const scale = workspace->scratch;
    for (int32_t i = 0; i < plan->equation_count; i++) {
        scale[i] = workspace->diagonal[i] > 0.0 ? 1.0 / sqrt(workspace->diagonal[i]) : 1.0;
    }
    const ptrdiff_t stride = plan->reach + 1;
    for (int32_t j = 0; j < plan->equation_count; j++) {
        for (int32_t i = j; i < plan->equation_count && i <= j + plan->reach; i++) {
            const double entry = entry_at(plan, workspace, i, j);
            workspace->band[(i - j) + j * stride] = entry * (scale[i] * scale[j]);
        }
    }
}

/* Movements of all nodes, world axes, by a vector of the equations. */
static void spread_vector(const trivet_plan *plan, const trivet_frame *frame,
                          trivet_workspace *workspace, const double *vector)
{
    double *const moves = workspace->moves;
    memset(moves, 0, (size_t)plan->direction_count * sizeof *moves);
    for (int32_t i = 0; i < plan->direction_count; i++) {
        for (int32_t p = plan->expansion_starts[i]; p < plan->expansion_starts[i + 1]; p++) {
            moves[i] += workspace->expansion_factors[p] * vector[plan->expansion_equations[p]];
        }
    }
    for (int32_t node = 0; node < plan->node_count; node++) {
        const double *const axes = trivet__node_axes(plan, frame, node);
        double *const at = moves + (ptrdiff_t)TRIVET__SIX * node;
        if (axes) {
            trivet__from_axes3(axes, at, at);
            trivet__from_axes3(axes, at + 3, at + 3);
        }
    }
}

/* The joint that moves (part 0) or turns (part 1) most. */
static int32_t busiest_joint(const trivet_plan *plan, const double *moves, int part,
                             double *size_out)
{
    int32_t best = 0;
    *size_out = -1.0;
    for (int32_t k = 0; k < plan->joint_count; k++) {
        const double size = trivet__length3(moves + (ptrdiff_t)TRIVET__SIX * k + 3L * part);
        if (size > *size_out * (1.0 + 1e-6)) {
            *size_out = size;
            best = k;
        }
    }
    return best;
}

static void tell_spin(const trivet_frame *frame, int32_t joint, const double turn[3],
                      trivet_message *message)
{
    char about[WORDS];
    tell_direction(turn, about, sizeof about);
    trivet__message_thing(message, "joint %s", frame->joints[joint].name);
    trivet__message_problem(
        message, "is free to spin about %s: every tube end there is pinned or freed", about);
    trivet__message_remedy(message, "leave one tube's end rigid there%s",
                           trivet__joint_mount(frame, joint) < 0
                               ? ""
                               : ", or let the mount hold that turn too (hold: all)");
}

static void tell_chain(const trivet_plan *plan, const trivet_frame *frame, const double *moves,
                       int32_t busiest, double most, trivet_message *message)
{
    char names[TRIVET_THING_MAX] = "";
    char along[WORDS];
    int told = 0;
    int moving = 0;
    for (int32_t k = 0; k < plan->joint_count; k++) {
        if (trivet__length3(moves + (ptrdiff_t)TRIVET__SIX * k) > 1e-3 * most) {
            moving++;
            if (told < NAMES_TOLD) {
                char grown[TRIVET_THING_MAX];
                trivet__text_print(grown, sizeof grown, "%s%s%s", names, told > 0 ? ", " : "",
                                   frame->joints[k].name);
                trivet__text_copy(names, sizeof names, grown);
                told++;
            }
        }
    }
    tell_direction(moves + (ptrdiff_t)TRIVET__SIX * busiest, along, sizeof along);
    trivet__message_thing(message, "joint%s %s%s", moving > 1 ? "s" : "", names,
                          moving > told ? " and others" : "");
    trivet__message_problem(message,
                            "%s free to move%s, joint %s along %s: too many tube ends are pinned "
                            "or freed",
                            moving > 1 ? "are" : "is", moving > 1 ? " together" : "",
                            frame->joints[busiest].name, along);
    trivet__message_remedy(message,
                           "make an end of a tube there rigid, add a brace, or hold joint %s with "
                           "a mount",
                           frame->joints[busiest].name);
}

static int tell_inside(const trivet_plan *plan, const trivet_frame *frame,
                       trivet_workspace *workspace, trivet_message *message)
{
    const int32_t size = plan->equation_count;
    double *const vectors = workspace->null_vectors;
    make_scaled_band(plan, workspace);
    if (trivet__null_vectors(size, plan->reach, workspace->band, plan->null_most, vectors,
                             workspace->null_values, workspace->null_scratch) != 0) {
        return 0;
    }
    int32_t count = 0;
    while (count < plan->null_most && workspace->null_values[count] < NO_STIFFNESS) {
        for (int32_t j = 0; j < size; j++) {
            vectors[(ptrdiff_t)count * size + j] *= workspace->scratch[j];
        }
        count++;
    }
    if (count == 0) {
        return 0;
    }
    reduce_vectors(vectors, count, size);
    spread_vector(plan, frame, workspace,
                  vectors + (ptrdiff_t)fewest_moves(vectors, count, size) * size);
    double most_move = 0.0;
    double most_turn = 0.0;
    const int32_t moving = busiest_joint(plan, workspace->moves, 0, &most_move);
    const int32_t turning = busiest_joint(plan, workspace->moves, 1, &most_turn);
    trivet__refuse(message, TRIVET_MOVES_FREELY, "", "", "");
    if (most_move <= 1e-6 * most_turn * trivet__frame_size(frame)) {
        tell_spin(frame, turning, workspace->moves + (ptrdiff_t)TRIVET__SIX * turning + 3, message);
    } else {
        tell_chain(plan, frame, workspace->moves, moving, most_move, message);
    }
    return 1;
}

trivet_status trivet__tell_freedom(const trivet_plan *plan, const trivet_frame *frame,
                                   trivet_workspace *workspace, double condition,
                                   trivet_message *message)
{
    if (tell_whole(frame, message) || tell_inside(plan, frame, workspace, message)) {
        return TRIVET_MOVES_FREELY;
    }
    trivet__refuse(message, TRIVET_ILL_CONDITIONED, "the whole frame", "",
                   "look for a tube far stiffer or softer than its neighbours, a very short span, "
                   "or a hold that is missing");
    trivet__message_problem(message,
                            "has parts so unlike in stiffness that no digit of the answer would "
                            "be right (condition number about %.1g)",
                            condition);
    return TRIVET_ILL_CONDITIONED;
}
