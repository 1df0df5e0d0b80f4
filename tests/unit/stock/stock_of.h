/*
 * Profiles in a line, sizes in mm, for the tests of stock.
 */
#ifndef TRIVET_TESTS_STOCK_OF_H
#define TRIVET_TESTS_STOCK_OF_H

#include "support/frames.h"
#include "trivet/stock.h"

#include <check.h>

static inline trivet_profile profile_of(int32_t shape, double height, double width, double wall)
{
    trivet_profile profile;
    ck_assert_int_eq(trivet_profile_defaults(&profile, sizeof profile), TRIVET_OK);
    profile.shape = shape;
    profile.height = height / 1e3;
    profile.width = width / 1e3;
    profile.wall = wall / 1e3;
    return profile;
}

static inline trivet_profile round_of(int32_t shape, double diameter, double wall)
{
    trivet_profile profile = profile_of(shape, 0.0, 0.0, wall);
    profile.diameter = diameter / 1e3;
    return profile;
}

static inline trivet_profile sharp_tube(double height, double width, double wall)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_RECTANGULAR_TUBE, height, width, wall);
    profile.corner = TRIVET_CORNER_SHARP;
    return profile;
}

static inline trivet_profile channel_of(double height, double width, double web, double flange)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_CHANNEL, height, width, web);
    profile.flange = flange / 1e3;
    return profile;
}

static inline trivet_section solve(trivet_profile profile)
{
    trivet_section section;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    must(trivet_section_solve(&profile, &section, &message), &message);
    return section;
}

#endif
