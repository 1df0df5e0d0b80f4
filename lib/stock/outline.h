/*
 * Areas and moments of a flat shape from its outline of straight lines and quarter circles.
 */
#ifndef TRIVET_STOCK_OUTLINE_H
#define TRIVET_STOCK_OUTLINE_H

enum { TRIVET__EDGES_MAX = 24 };

/* A straight line from start by step, or (radius > 0) a quarter circle. */
typedef struct trivet__edge {
    double start[2]; /* m, y and z; of a quarter circle: its centre */
    double step[2];  /* m */
    double radius;   /* m */
    double angle;    /* rad, where the quarter circle begins, from y to z */
    double sweep;    /* rad, pi/2 or -pi/2 */
    double weight;   /* 1, or -1 if the outline bounds a hole */
} trivet__edge;

typedef struct trivet__outline {
    int count;
    trivet__edge edges[TRIVET__EDGES_MAX];
} trivet__outline;

/* A corner of an outline with right angles everywhere: y, z and the radius of its rounding, m. */
typedef struct trivet__corner {
    double y;
    double z;
    double radius;
} trivet__corner;

/* About the centroid, SI. Perimeter: without that of holes. */
typedef struct trivet__outline_values {
    double area;
    double centroid[2];
    double second_moment[2]; /* integral of z^2, of y^2 */
    double product_moment;
    double perimeter;
    double low[2]; /* the box around it: y and z */
    double high[2];
} trivet__outline_values;

/* Adds the outline that runs counter-clockwise (y to the right, z up) through corners[count]. */
void trivet__outline_add(trivet__outline *outline, const trivet__corner *corners, int count,
                         int is_hole);

void trivet__outline_solve(const trivet__outline *outline, trivet__outline_values *values_out);

/*
 * Plastic section modulus, m^3: the integral of the distance from the line that halves the area.
 * axis 0: about y, 1: about z. low and high enclose the shape along the other axis.
 */
double trivet__outline_plastic(const trivet__outline *outline, int axis, double low, double high);

#endif
