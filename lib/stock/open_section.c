/*
 * Angle and channel. Area and moments come from the outline with its roundings. Torsion is the sum
 * of b t^3/3 over the middle lines (Timoshenko, Strength of Materials), with T/Wt, Wt = It/t_max,
 * on the face of the thickest wall; fillets would add to It and are left out. Shear areas: 5/6 of
 * the walls that lie along the shear, which is common practice.
 *
 * Shear stress: flow in the middle lines as thin walls, from the free edge on (Timoshenko, Strength
 * of Materials, unsymmetrical bending; Q are first moments of the wall walked so far):
 *
 *     q = -((Vy Iyy - Vz Iyz) Qz + (Vz Izz - Vy Iyz) Qy) / (Iyy Izz - Iyz^2)
 *
 * The walk runs down the web or upright leg and outward along the foot, counter-clockwise.
 */
#include "stock/sections.h"

#include <math.h>

enum { WALLS_MAX = 3 };

/* The middle line: nodes joined by walls, from free edge to free edge, in the middle of the box. */
typedef struct middle_line {
    int walls;
    double node[WALLS_MAX + 1][2];
    double wall[WALLS_MAX];
} middle_line;

typedef struct flow_values {
    double centroid[2];
    double Iyy;
    double Izz;
    double Iyz;
} flow_values;

static double wall_length(const middle_line *line, int i)
{
    return hypot(line->node[i + 1][0] - line->node[i][0], line->node[i + 1][1] - line->node[i][1]);
}

static void solve_line(const middle_line *line, flow_values *out)
{
    double area = 0.0;
    double first[2] = {0.0, 0.0};
    double square[3] = {0.0, 0.0, 0.0}; /* yy, zz, yz about the middle of the box */
    for (int i = 0; i < line->walls; i++) {
        const double piece = line->wall[i] * wall_length(line, i);
        const double *const p = line->node[i];
        const double *const q = line->node[i + 1];
        area += piece;
        for (int k = 0; k < 2; k++) {
            first[k] += 0.5 * piece * (p[k] + q[k]);
            square[k] += piece / 3.0 * (p[k] * p[k] + p[k] * q[k] + q[k] * q[k]);
        }
        square[2] += piece / 6.0 * (2.0 * (p[0] * p[1] + q[0] * q[1]) + p[0] * q[1] + q[0] * p[1]);
    }
    const double y = first[0] / area;
    const double z = first[1] / area;
    *out = (flow_values){.centroid = {y, z},
                         .Iyy = square[1] - area * z * z,
                         .Izz = square[0] - area * y * y,
                         .Iyz = square[2] - area * y * z};
}

/* Flow per Vy and Vz where share (0 to 1) of wall number i has been walked, 1/m. */
static void flow_at(const middle_line *line, const flow_values *values, int i, double share,
                    double flow[2])
{
    double Q[2] = {0.0, 0.0}; /* Qz (of y) and Qy (of z) */
    for (int j = 0; j <= i; j++) {
        const double part = j < i ? 1.0 : share;
        const double piece = part * line->wall[j] * wall_length(line, j);
        for (int k = 0; k < 2; k++) {
            const double from = line->node[j][k];
            const double middle = from + 0.5 * part * (line->node[j + 1][k] - from);
            Q[k] += piece * (middle - values->centroid[k]);
        }
    }
    const double whole = values->Iyy * values->Izz - values->Iyz * values->Iyz;
    flow[0] = -(values->Iyy * Q[0] - values->Iyz * Q[1]) / whole;
    flow[1] = -(values->Izz * Q[1] - values->Iyz * Q[0]) / whole;
}

/* A point given from the middle of the box, with the flow there spread over a wall. */
static void add_point(trivet_section *section, double y, double z, const double flow[2],
                      double wall)
{
    trivet__add_stress_point(section,
                             (trivet_stress_point){.y = y - section->centroid[0],
                                                   .z = z - section->centroid[1],
                                                   .per_Vy = flow[0] / wall,
                                                   .per_Vz = flow[1] / wall,
                                                   .per_T = 1.0 / section->torsion_modulus});
}

/* Both faces of a wall at a share of its length. */
static void add_faces(trivet_section *section, const middle_line *line, const flow_values *values,
                      int i, double share)
{
    const double *const p = line->node[i];
    const double *const q = line->node[i + 1];
    const double length = wall_length(line, i);
    double flow[2];
    flow_at(line, values, i, share, flow);
    for (int face = 0; face < 2; face++) {
        const double off = (face == 0 ? 0.5 : -0.5) * line->wall[i] / length;
        add_point(section, p[0] + share * (q[0] - p[0]) - off * (q[1] - p[1]),
                  p[1] + share * (q[1] - p[1]) + off * (q[0] - p[0]), flow, line->wall[i]);
    }
}

/* Free edges, bends on the outside (at the corner of the box), and both faces of every wall. */
static void add_points(trivet_section *section, const middle_line *line)
{
    flow_values values;
    solve_line(line, &values);
    add_faces(section, line, &values, 0, 0.0);
    add_faces(section, line, &values, line->walls - 1, 1.0);
    for (int i = 1; i < line->walls; i++) {
        double flow[2];
        flow_at(line, &values, i - 1, 1.0, flow);
        const double *const bend = line->node[i];
        add_point(section, -0.5 * section->width, copysign(0.5 * section->height, bend[1]), flow,
                  fmin(line->wall[i - 1], line->wall[i]));
    }
    for (int i = 0; i < line->walls; i++) {
        const int is_flange = line->walls == WALLS_MAX && i != 1;
        for (int quarter = is_flange ? 2 : 1; quarter <= (is_flange ? 2 : 3); quarter++) {
            add_faces(section, line, &values, i, 0.25 * quarter);
        }
    }
}

static void solve_torsion(trivet_section *section, const middle_line *line)
{
    double thickest = 0.0;
    for (int i = 0; i < line->walls; i++) {
        const double t = line->wall[i];
        /* Legs and flanges reach to the middle line of the wall they meet. */
        section->torsion_constant += wall_length(line, i) * t * t * t / 3.0;
        thickest = fmax(thickest, t);
    }
    section->torsion_modulus = section->torsion_constant / thickest;
    section->is_open = 1;
}

void trivet__angle_section(const trivet_profile *profile, trivet_section *section)
{
    const double t = profile->wall;
    const double y = 0.5 * profile->width;
    const double z = 0.5 * profile->height;
    const double toe = profile->toe_radius;
    const trivet__corner corners[6] = {{-y, -z, 0.0},    {y, -z, 0.0},
                                       {y, -z + t, toe}, {-y + t, -z + t, profile->root_radius},
                                       {-y + t, z, toe}, {-y, z, 0.0}};
    trivet__outline outline = {0};
    trivet__outline_add(&outline, corners, 6, 0);
    trivet__section_from_outline(&outline, section);
    section->shear_area[0] = 5.0 / 6.0 * t * profile->width;
    section->shear_area[1] = 5.0 / 6.0 * t * profile->height;

    const double heel[2] = {-y + 0.5 * t, -z + 0.5 * t};
    const middle_line line = {
        .walls = 2, .node = {{heel[0], z}, {heel[0], heel[1]}, {y, heel[1]}}, .wall = {t, t}};
    solve_torsion(section, &line);
    add_points(section, &line);
}

void trivet__channel_section(const trivet_profile *profile, trivet_section *section)
{
    const double web = profile->wall;
    const double flange = profile->flange;
    const double y = 0.5 * profile->width;
    const double z = 0.5 * profile->height;
    const double root = profile->root_radius;
    const trivet__corner corners[8] = {{-y, -z, 0.0},
                                       {y, -z, 0.0},
                                       {y, -z + flange, 0.0},
                                       {-y + web, -z + flange, root},
                                       {-y + web, z - flange, root},
                                       {y, z - flange, 0.0},
                                       {y, z, 0.0},
                                       {-y, z, 0.0}};
    trivet__outline outline = {0};
    trivet__outline_add(&outline, corners, 8, 0);
    trivet__section_from_outline(&outline, section);
    section->shear_area[0] = 5.0 / 6.0 * 2.0 * flange * profile->width;
    section->shear_area[1] = 5.0 / 6.0 * web * profile->height;

    const double bend[2] = {-y + 0.5 * web, z - 0.5 * flange};
    const middle_line line = {
        .walls = 3,
        .node = {{y, bend[1]}, {bend[0], bend[1]}, {bend[0], -bend[1]}, {y, -bend[1]}},
        .wall = {flange, web, flange}};
    solve_torsion(section, &line);
    add_points(section, &line);
}
