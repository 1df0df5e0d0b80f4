/*
 * Outlines seen along the tube: how far they reach, where their points lie.
 */
#include "shop/silhouette.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"

static const double PI = 3.14159265358979323846;

static trivet__silhouette silhouette_of(const trivet_profile *profile)
{
    trivet_section section;
    trivet__silhouette made;
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    ck_assert_int_eq(trivet_section_solve(profile, &section, NULL), TRIVET_OK);
    trivet__silhouette_find(profile, &section, &made);
    return made;
}

/* Of a square with rounded corners: half the width along y; along the diagonal to the corner's arc,
 * (w/2 - r) sqrt(2) + r. EN 10219-2: outer radius twice the wall up to 6 mm. */
START_TEST(square_tube_reaches_to_sides_and_corners)
{
    const trivet_profile profile = square_tube(0.020, 0.002);
    const trivet__silhouette of = silhouette_of(&profile);
    const double side[2] = {-1.0, 0.0};
    const double diagonal[2] = {sqrt(0.5), -sqrt(0.5)};
    near_scaled(trivet__silhouette_reach(&of, side), 0.010, 1e-15, 1.0);
    near_scaled(trivet__silhouette_reach(&of, diagonal), 0.006 * sqrt(2.0) + 0.004, 1e-15, 1.0);
}
END_TEST

/* Way round, from the points: straight sides and quarter circles. */
START_TEST(points_go_all_round)
{
    enum { PLACES = 100000 };
    const trivet_profile profiles[] = {square_tube(0.020, 0.002), round_tube(0.025, 0.002),
                                       square_bar(0.015)};
    const double rounds[] = {4.0 * 0.012 + 2.0 * PI * 0.004, PI * 0.025, 0.060};
    for (size_t p = 0; p < 3; p++) {
        const trivet__silhouette of = silhouette_of(&profiles[p]);
        double before[2];
        double round = 0.0;
        double farthest = 0.0;
        const double d[2] = {0.6, 0.8};
        trivet__silhouette_point(&of, 0.0, before);
        for (int i = 1; i <= PLACES; i++) {
            double here[2];
            trivet__silhouette_point(&of, (double)i / PLACES, here);
            round += hypot(here[0] - before[0], here[1] - before[1]);
            farthest = fmax(farthest, here[0] * d[0] + here[1] * d[1]);
            before[0] = here[0];
            before[1] = here[1];
        }
        /* Chords are shorter than arcs by the square of the step; a step may cut a corner. */
        near_scaled(round, rounds[p], 2.0 / PLACES, rounds[p]);
        near_scaled(farthest, trivet__silhouette_reach(&of, d), 1e-6, 0.01);
    }
}
END_TEST

static double slanted(const void *user, const double point[2])
{
    const double *const d = user;
    return point[0] * d[0] + point[1] * d[1];
}

/* The extreme of a plane over the outline is its reach. */
START_TEST(extremes_are_found)
{
    const trivet_profile profiles[] = {square_tube(0.020, 0.002), round_bar(0.025),
                                       angle_bar(0.030, 0.020, 0.003)};
    for (size_t p = 0; p < 3; p++) {
        const trivet__silhouette of = silhouette_of(&profiles[p]);
        for (int i = 0; i < 12; i++) {
            const double d[2] = {cos(0.1 + 0.5 * i), sin(0.1 + 0.5 * i)};
            const double back[2] = {-d[0], -d[1]};
            near_scaled(trivet__silhouette_extreme(&of, 1, slanted, d),
                        trivet__silhouette_reach(&of, d), 1e-12, 1.0);
            near_scaled(trivet__silhouette_extreme(&of, -1, slanted, d),
                        -trivet__silhouette_reach(&of, back), 1e-12, 1.0);
        }
    }
}
END_TEST

int main(void)
{
    return run_tests("silhouette", TESTS(square_tube_reaches_to_sides_and_corners,
                                         points_go_all_round, extremes_are_found));
}
