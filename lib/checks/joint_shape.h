/*
 * Which tube is welded onto which wall, and how they stand to each other.
 */
#ifndef TRIVET_CHECKS_JOINT_SHAPE_H
#define TRIVET_CHECKS_JOINT_SHAPE_H

#include "checks/check_record.h"
#include "checks/joint_face.h"

/* The ends and runs of tubes at a joint. */
typedef struct trivet__meeting {
    int32_t through_count; /* tubes that run on through it */
    int32_t through;       /* the first of them, or -1 */
    int32_t end_count;     /* tubes that end there */
    int32_t ends[2];       /* the first two of them */
    int32_t welded_count;  /* of those that end there, welded or not said how they are held */
    int32_t welded[2];     /* the first two of them */
    int32_t is_cross;      /* two welded on, and they point away from each other */
} trivet__meeting;

void trivet__meeting_find(const trivet__making *making, int32_t joint,
                          trivet__meeting *meeting_out);

/* Finds those of all joints; trivet__meeting_find only looks them up. 0 without memory. */
int trivet__meetings_find(trivet__making *making);

/* 1 if a tube's end at a joint is welded, or if nothing is said of how it is held. */
int trivet__end_is_welded(const trivet_frame *frame, int32_t tube, int32_t joint);

/* One tube welded onto another. */
typedef struct trivet__welded_on {
    int32_t joint;
    int32_t chord; /* the tube that is welded onto */
    int32_t brace; /* the tube that is welded on */
    int32_t has_insert;
    trivet__face face;
    double across[3];  /* world; bending in the plane of the two turns about it */
    double upright[3]; /* world; bending out of the plane, likewise */
} trivet__welded_on;

/*
 * How brace stands on chord. NULL, or in plain words why the rules cannot be used; then out is not
 * to be read. *has_wall_out 0: it is no tube that is welded onto, there is no wall.
 */
const char *trivet__welded_on_find(const trivet__making *making, const trivet__meeting *meeting,
                                   int32_t brace, int32_t joint, trivet__welded_on *out,
                                   int32_t *has_wall_out);

/* A corner: two tubes that end at a joint. */
typedef struct trivet__corner_joint {
    int32_t joint;
    int32_t tubes[2];
    int32_t has_insert;
    trivet__knee knees[2]; /* with each tube's own steel */
    double across[3];      /* world; bending in the plane of the corner turns about it */
    double plastic_out[2]; /* m^3, of each tube, bending out of the plane */
    double twist[2];       /* m^3, torsion modulus of each tube */
} trivet__corner_joint;

/* As trivet__welded_on_find; *has_wall_out 0 also for tubes that go straight on. */
const char *trivet__knee_find(const trivet__making *making, const trivet__meeting *meeting,
                              int32_t joint, trivet__corner_joint *out, int32_t *has_wall_out);

/* Starts a record about the wall of a tube at a joint. */
trivet__record *trivet__wall_record(trivet__making *making, const trivet__check_kind *kind,
                                    int32_t tube, int32_t joint, int32_t in_case);
/* What must be said beside it; wall: m, the thinner of the two. Static, "" if nothing. */
const char *trivet__wall_note(double wall, int32_t has_insert, int32_t is_cross);

/* Adds the record of one in a result column, with its working. */
void trivet__record_face(trivet__making *making, const trivet__welded_on *on, int32_t in_case);
void trivet__record_knee(trivet__making *making, const trivet__corner_joint *corner,
                         int32_t in_case);

/* Force along a tube's end and its moment about a line in the world, N and N m. */
double trivet__end_moment(const trivet__making *making, int32_t in_case, int32_t tube,
                          int32_t joint, const double line[3], double *pull_out);

/* Yield of a tube's steel, beside a weld if that softens it; Pa, 0 if it is not known. */
double trivet__yield_at_weld(const trivet_frame *frame, int32_t tube);

#endif
