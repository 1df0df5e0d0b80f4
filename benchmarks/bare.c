#include "bare.h"

#include "ladder.h"

#include <lapacke.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SIX = 6, TWELVE = 12 };

#define GRAVITY 9.80665 /* m/s^2, standard */

/* An element from joint to joint; returns the place behind them. */
static bare_element *read_tube(const trivet_frame *frame, int32_t tube, bare_element *element)
{
    int32_t count = 0;
    const int32_t *joints = trivet_frame_tube_joints(frame, tube, &count);
    const int32_t stock = trivet_frame_tube_stock(frame, tube);
    const trivet_section *section = trivet_frame_section(frame, stock);
    const trivet_material *material = trivet_frame_material(frame, stock);
    for (int32_t i = 0; i + 1 < count; i++, element++) {
        memcpy(element->joints, joints + i, sizeof element->joints);
        element->stiffs[0] = material->E * section->area;
        element->stiffs[1] = material->G * section->torsion_constant;
        element->stiffs[2] = material->E * section->second_moment[0];
        element->stiffs[3] = material->E * section->second_moment[1];
        element->stiffs[4] = material->G * section->shear_area[0];
        element->stiffs[5] = material->G * section->shear_area[1];
        element->mass = material->density * section->area;
    }
    return element;
}

void bare_frame_read(const trivet_frame *frame, bare_frame *out)
{
    out->joint_count = trivet_frame_count(frame, TRIVET_KIND_JOINT);
    out->rung = out->joint_count - 2;
    out->element_count = out->rung + trivet_frame_count(frame, TRIVET_KIND_TUBE) - 2;
    out->case_count = trivet_frame_count(frame, TRIVET_KIND_CASE);
    out->places = take((size_t)out->joint_count, 3 * sizeof(double));
    out->elements = take((size_t)out->element_count, sizeof *out->elements);
    for (int32_t k = 0; k < out->joint_count; k++) {
        memcpy(out->places + 3 * k, trivet_frame_position(frame, k), 3 * sizeof(double));
    }
    bare_element *element = out->elements;
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        element = read_tube(frame, tube, element);
    }
}
void bare_frame_free(bare_frame *frame)
{
    free(frame->places);
    free(frame->elements);
}

void bare_room_make(const bare_frame *frame, bare_room *out)
{
    const size_t elements = (size_t)frame->element_count;
    const size_t cases = (size_t)frame->case_count;
    out->size = SIX * (frame->joint_count - 2);
    out->reach = 17;
    out->band = take((size_t)out->size * (size_t)(out->reach + 1), sizeof(double));
    out->values = take((size_t)out->size * cases, sizeof(double));
    out->axes = take(elements, 9 * sizeof(double));
    out->local = take(elements, sizeof(double) * TWELVE * TWELVE);
    out->fixed = take(elements * cases, TWELVE * sizeof(double));
    out->ends = take(elements * cases, TWELVE * sizeof(double));
}

void bare_room_free(bare_room *room)
{
    free(room->band);
    free(room->values);
    free(room->axes);
    free(room->local);
    free(room->fixed);
    free(room->ends);
}

/* x along the element, z up as far as may be (no element of a ladder stands upright). */
static double find_axes(const bare_frame *frame, const bare_element *element, double axes[9])
{
    const double *first = frame->places + 3 * element->joints[0];
    const double *last = frame->places + 3 * element->joints[1];
    const double d[3] = {last[0] - first[0], last[1] - first[1], last[2] - first[2]};
    const double flat = sqrt(d[0] * d[0] + d[1] * d[1]);
    const double length = sqrt(flat * flat + d[2] * d[2]);
    double *x = axes;
    double *y = axes + 3;
    double *z = axes + 6;
    for (int i = 0; i < 3; i++) {
        x[i] = d[i] / length;
    }
    y[0] = -d[1] / flat;
    y[1] = d[0] / flat;
    y[2] = 0.0;
    z[0] = -x[2] * y[1];
    z[1] = x[2] * y[0];
    z[2] = x[0] * y[1] - x[1] * y[0];
    return length;
}

/* Bending in one plane: v and r are the numbers of the directions at the first end. */
static void add_bending(double k[TWELVE][TWELVE], double EI, double GA, double L, int v, int r,
                        double sign)
{
    const double phi = 12.0 * EI / (GA * L * L);
    const double f = EI / ((1.0 + phi) * L);
    const double push = 12.0 * f / (L * L);
    const double turn = sign * 6.0 * f / L;
    k[v][v] = k[v + 6][v + 6] = push;
    k[v][v + 6] = k[v + 6][v] = -push;
    k[v][r] = k[r][v] = k[v][r + 6] = k[r + 6][v] = turn;
    k[v + 6][r] = k[r][v + 6] = k[v + 6][r + 6] = k[r + 6][v + 6] = -turn;
    k[r][r] = k[r + 6][r + 6] = (4.0 + phi) * f;
    k[r][r + 6] = k[r + 6][r] = (2.0 - phi) * f;
}

static void local_stiffness(const bare_element *element, double L, double k[TWELVE][TWELVE])
{
    const double *s = element->stiffs;
    memset(k, 0, sizeof(double) * TWELVE * TWELVE);
    k[0][0] = k[6][6] = s[0] / L;
    k[0][6] = k[6][0] = -s[0] / L;
    k[3][3] = k[9][9] = s[1] / L;
    k[3][9] = k[9][3] = -s[1] / L;
    add_bending(k, s[3], s[4], L, 1, 5, 1.0);
    add_bending(k, s[2], s[5], L, 2, 4, -1.0);
}

/* Block (a, b) of 3 x 3 of the local matrix, turned into world axes. */
static void turn_block(const double k[TWELVE][TWELVE], const double axes[9], int a, int b,
                       double out[3][3])
{
    double half[3][3];
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            half[i][j] = k[3 * a + i][3 * b] * axes[j] + k[3 * a + i][3 * b + 1] * axes[3 + j] +
                         k[3 * a + i][3 * b + 2] * axes[6 + j];
        }
    }
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            out[i][j] = axes[i] * half[0][j] + axes[3 + i] * half[1][j] + axes[6 + i] * half[2][j];
        }
    }
}

/* The first equation of three directions of an element, below 0 where they are clamped. */
static int32_t equation_of(const bare_element *element, int block)
{
    return SIX * (element->joints[block / 2] - 2) + 3 * (block % 2);
}

static void add_element(const bare_element *element, const double k[TWELVE][TWELVE],
                        const double axes[9], bare_room *room)
{
    const int32_t step = room->reach + 1;
    for (int a = 0; a < 4; a++) {
        for (int b = 0; b <= a; b++) {
            const int32_t row = equation_of(element, a);
            const int32_t column = equation_of(element, b);
            double block[3][3];
            if (row < 0 || column < 0) {
                continue;
            }
            turn_block(k, axes, a, b, block);
            for (int j = 0; j < 3; j++) {
                for (int i = row == column ? j : 0; i < 3; i++) {
                    room->band[(row + i - column - j) + (column + j) * step] += block[i][j];
                }
            }
        }
    }
}

/* Both ends held still under a load of one size all along; movements and loads on elements. */
static void load_element(const bare_frame *frame, int32_t e, double L, const double load[3],
                         double *values, bare_room *room, double *fixed)
{
    const bare_element *element = &frame->elements[e];
    const double *axes = room->axes + 9 * e;
    double q[3];
    for (int i = 0; i < 3; i++) {
        q[i] = axes[3 * i] * load[0] + axes[3 * i + 1] * load[1] + axes[3 * i + 2] * load[2];
        fixed[i] = fixed[6 + i] = -0.5 * L * q[i];
    }
    fixed[4] = q[2] * L * L / 12.0;
    fixed[10] = -fixed[4];
    fixed[5] = -q[1] * L * L / 12.0;
    fixed[11] = -fixed[5];
    for (int block = 0; block < 4; block++) {
        const int32_t row = equation_of(element, block);
        for (int i = 0; row >= 0 && i < 3; i++) {
            values[row + i] -= axes[i] * fixed[3 * block] + axes[3 + i] * fixed[3 * block + 1] +
                               axes[6 + i] * fixed[3 * block + 2];
        }
    }
}

static void load_case(const bare_frame *frame, int32_t c, const double *lengths, bare_room *room)
{
    double *values = room->values + (ptrdiff_t)c * room->size;
    double load[3];
    ladder_load(c, load);
    if (c % KINDS == PUSH) {
        for (int32_t joint = 2; joint < frame->joint_count; joint += PUSHED_EVERY) {
            for (int i = 0; i < 3; i++) {
                values[SIX * (joint - 2) + i] += load[i];
            }
        }
        return;
    }
    const int32_t first = c % KINDS == LINE ? frame->rung : 0;
    const int32_t step = c % KINDS == LINE ? LOADED_EVERY : 1;
    for (int32_t e = first; e < frame->element_count; e += step) {
        const double size = c % KINDS == LINE ? 1.0 : GRAVITY * frame->elements[e].mass;
        const double q[3] = {size * load[0], size * load[1], size * load[2]};
        load_element(frame, e, lengths[e], q, values, room,
                     room->fixed + (ptrdiff_t)TWELVE * (c * frame->element_count + e));
    }
}

static void recover_element(const bare_frame *frame, int32_t e, int32_t c, bare_room *room)
{
    const bare_element *element = &frame->elements[e];
    const double *axes = room->axes + 9 * e;
    const double *k = room->local + (ptrdiff_t)TWELVE * TWELVE * e;
    const double *values = room->values + (ptrdiff_t)c * room->size;
    const ptrdiff_t at = (ptrdiff_t)TWELVE * (c * frame->element_count + e);
    double u[TWELVE];
    for (int block = 0; block < 4; block++) {
        const int32_t row = equation_of(element, block);
        for (int i = 0; i < 3; i++) {
            const double *axis = axes + 3 * i;
            u[3 * block + i] = row < 0 ? 0.0
                                       : axis[0] * values[row] + axis[1] * values[row + 1] +
                                             axis[2] * values[row + 2];
        }
    }
    for (int i = 0; i < TWELVE; i++) {
        double sum = room->fixed[at + i];
        for (int j = 0; j < TWELVE; j++) {
            sum += k[TWELVE * i + j] * u[j];
        }
        room->ends[at + i] = sum;
    }
}

int bare_solve(const bare_frame *frame, bare_room *room)
{
    enum { MOST_ELEMENTS = 256 };
    double lengths[MOST_ELEMENTS];
    const size_t cases = (size_t)frame->case_count;
    if (frame->element_count > MOST_ELEMENTS) {
        return -1;
    }
    memset(room->band, 0, (size_t)room->size * (size_t)(room->reach + 1) * sizeof(double));
    memset(room->values, 0, (size_t)room->size * cases * sizeof(double));
    memset(room->fixed, 0, (size_t)frame->element_count * cases * TWELVE * sizeof(double));
    for (int32_t e = 0; e < frame->element_count; e++) {
        double k[TWELVE][TWELVE];
        double *axes = room->axes + 9 * e;
        lengths[e] = find_axes(frame, &frame->elements[e], axes);
        local_stiffness(&frame->elements[e], lengths[e], k);
        add_element(&frame->elements[e], (const double(*)[TWELVE])k, axes, room);
        memcpy(room->local + (ptrdiff_t)TWELVE * TWELVE * e, k, sizeof k);
    }
    for (int32_t joint = 2 * SPRUNG_EVERY; joint < frame->joint_count; joint++) {
        if (joint / 2 % SPRUNG_EVERY == 0) {
            room->band[(SIX * (joint - 2) + 2) * (room->reach + 1)] += LADDER_SPRING;
        }
    }
    for (int32_t c = 0; c < frame->case_count; c++) {
        load_case(frame, c, lengths, room);
    }
    const int factored = LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', room->size, room->reach,
                                             room->band, room->reach + 1);
    const int solved =
        LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', room->size, room->reach, frame->case_count,
                            room->band, room->reach + 1, room->values, room->size);
    for (int32_t c = 0; c < frame->case_count; c++) {
        for (int32_t e = 0; e < frame->element_count; e++) {
            recover_element(frame, e, c, room);
        }
    }
    return factored != 0 ? factored : solved;
}
