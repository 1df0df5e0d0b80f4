/*
 * Does this slide into that? Both are centred on each other, which is the best place for shapes
 * with two axes of symmetry. Tubes are taken without tolerance of size; the height of the weld seam
 * inside comes off the width or off the height, whichever is worse.
 *
 * At a rounded corner the outline of the inner one is a circle of radius r about its corner centre,
 * that of the hole one of radius R: it stays inside if r + distance of centres <= R.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"
#include "stock/sections.h"

#include <math.h>

trivet_status trivet_fit_defaults(trivet_fit *fit, size_t size)
{
    return trivet__defaults(fit, size, sizeof *fit);
}

/* A hole or an outside: a rounded rectangle, or a circle with height = width = diameter. */
typedef struct fit_shape {
    int is_round;
    double height; /* m */
    double width;  /* m */
    double radius; /* m, of the corners */
} fit_shape;

static fit_shape outside_of(const trivet_profile *profile)
{
    fit_shape shape = {.height = profile->height, .width = profile->width};
    double inner = 0.0;
    switch (profile->shape) {
    case TRIVET_SHAPE_ROUND_TUBE:
    case TRIVET_SHAPE_ROUND_BAR:
        return (fit_shape){.is_round = 1, .height = profile->diameter, .width = profile->diameter};
    case TRIVET_SHAPE_SQUARE_TUBE:
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
        trivet__corner_radii(profile, &shape.radius, &inner);
        break;
    default:
        break;
    }
    if (profile->shape == TRIVET_SHAPE_SQUARE_TUBE || profile->shape == TRIVET_SHAPE_SQUARE_BAR) {
        shape.height = profile->width;
    }
    return shape;
}

static fit_shape inside_of(const trivet_profile *profile)
{
    fit_shape shape = outside_of(profile);
    double outer = 0.0;
    shape.height -= 2.0 * profile->wall;
    shape.width -= 2.0 * profile->wall;
    if (!shape.is_round) {
        trivet__corner_radii(profile, &outer, &shape.radius);
    }
    return shape;
}

/* Smallest distance at the rounded corners of two rounded rectangles. */
static double corner_gap(const fit_shape *hole, const fit_shape *inner)
{
    const double y = 0.5 * (hole->width - inner->width) - hole->radius + inner->radius;
    const double z = 0.5 * (hole->height - inner->height) - hole->radius + inner->radius;
    const double apart = y < 0.0 || z < 0.0 ? -hypot(fmin(y, 0.0), fmin(z, 0.0)) : fmin(y, z);
    return apart + hole->radius - inner->radius;
}

/* The diameter of the circle round a shape. */
static double round_about(const fit_shape *shape)
{
    return shape->is_round ? shape->width
                           : 2.0 * (hypot(0.5 * shape->width - shape->radius,
                                          0.5 * shape->height - shape->radius) +
                                    shape->radius);
}

static void find_gaps(const fit_shape *hole, const fit_shape *inner, trivet_fit *fit)
{
    if (hole->is_round) {
        fit->gap_height = hole->height - round_about(inner);
        fit->gap_width = fit->gap_height;
    } else {
        fit->gap_height = hole->height - inner->height;
        fit->gap_width = hole->width - inner->width;
    }
    fit->gap_corner = hole->is_round || inner->is_round ? (double)NAN : corner_gap(hole, inner);
}

/* allowance: how far a gap may be below nothing, m. */
static int slides_with_seam(const fit_shape *hole, const fit_shape *inner, double seam,
                            double allowance)
{
    for (int along = 0; along < 2; along++) {
        fit_shape less = *hole;
        less.width -= along == 0 || hole->is_round ? seam : 0.0;
        less.height -= along == 1 || hole->is_round ? seam : 0.0;
        trivet_fit fit = {0};
        find_gaps(&less, inner, &fit);
        if (!(fit.gap_height >= -allowance) || !(fit.gap_width >= -allowance) ||
            fit.gap_corner < -allowance) {
            return 0;
        }
    }
    return 1;
}

/* What must come off height and width alike so that it slides, found by halving. */
static double find_take_off(const fit_shape *hole, const fit_shape *inner, double seam)
{
    enum { HALVINGS = 60 };
    double enough = fmin(inner->height, inner->width);
    double too_little = 0.0;
    for (int i = 0; i < HALVINGS; i++) {
        const double trial = 0.5 * (enough + too_little);
        fit_shape less = *inner;
        less.height -= trial;
        less.width -= trial;
        less.radius = fmin(less.radius, 0.5 * fmin(less.height, less.width));
        if (slides_with_seam(hole, &less, seam, 0.0)) {
            enough = trial;
        } else {
            too_little = trial;
        }
    }
    return enough;
}

static trivet_status check_shape(const trivet_profile *profile, int is_outer,
                                 trivet_message *message)
{
    const char *const which = is_outer ? "outer" : "inner";
    const trivet_status status = trivet__profile_check(profile, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "%s", which);
        return status;
    }
    const int is_tube = profile->shape == TRIVET_SHAPE_SQUARE_TUBE ||
                        profile->shape == TRIVET_SHAPE_RECTANGULAR_TUBE ||
                        profile->shape == TRIVET_SHAPE_ROUND_TUBE;
    const int is_bar = profile->shape == TRIVET_SHAPE_SQUARE_BAR ||
                       profile->shape == TRIVET_SHAPE_FLAT_BAR ||
                       profile->shape == TRIVET_SHAPE_ROUND_BAR;
    if (is_tube || (is_bar && !is_outer)) {
        return TRIVET_OK;
    }
    trivet__refuse(message, TRIVET_BAD_VALUE, "", "",
                   is_outer ? "use a square, rectangular or round tube"
                            : "use a tube or a square, flat or round bar");
    trivet__message_thing(message, "%s, %s", which, trivet_shape_text(profile->shape));
    trivet__message_problem(message, is_outer ? "nothing slides into this shape"
                                              : "this shape does not serve as an insert");
    return TRIVET_BAD_VALUE;
}

trivet_status trivet_fit_solve(const trivet_profile *outer, const trivet_profile *inner,
                               double seam, trivet_fit *fit_out, trivet_message *message)
{
    trivet_message_clear(message);
    if (!fit_out) {
        return trivet__missing(message, "fit_out");
    }
    trivet_status status = trivet__size_check(fit_out->size, sizeof *fit_out, "fit",
                                              "fill it with trivet_fit_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    *fit_out = (trivet_fit){.size = sizeof *fit_out};
    if (!outer || !inner) {
        return trivet__missing(message, outer ? "inner" : "outer");
    }
    status = check_shape(outer, 1, message);
    if (status == TRIVET_OK) {
        status = check_shape(inner, 0, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    const fit_shape hole = inside_of(outer);
    const fit_shape insert = outside_of(inner);
    if (!(seam >= 0.0) || !(seam < fmin(hole.height, hole.width))) {
        char number[64];
        trivet_units_text(NULL, TRIVET_LENGTH, seam, 6, number, sizeof number);
        trivet__refuse(message, TRIVET_BAD_VALUE, "weld seam", "",
                       "give its height inside the tube, 0 if there is none");
        trivet__message_problem(message, "a height of %s does not fit the tube", number);
        return TRIVET_BAD_VALUE;
    }
    find_gaps(&hole, &insert, fit_out);
    fit_out->seam = seam;
    /* A gap of exactly nothing may come out of the subtraction as a little less. */
    const double ROUNDING = 1e-12; /* m */
    fit_out->slides = slides_with_seam(&hole, &insert, seam, ROUNDING);
    fit_out->take_off = fit_out->slides ? 0.0 : find_take_off(&hole, &insert, seam);
    return TRIVET_OK;
}

size_t trivet_fit_text(const trivet_fit *fit, const trivet_units *units, char *text, size_t size)
{
    char amount[64];
    if (!fit) {
        return trivet__text_print(text, size, "%s", "");
    }
    if (fit->slides) {
        const double spare = fmin(fit->gap_height, fit->gap_width) - fit->seam;
        trivet_units_text(units, TRIVET_LENGTH, fmax(spare, 0.0), 2, amount, sizeof amount);
        return trivet__text_print(text, size, "slides in with %s to spare", amount);
    }
    trivet_units_text(units, TRIVET_LENGTH, fit->take_off, 2, amount, sizeof amount);
    const int only_corners =
        fit->gap_height >= fit->seam && fit->gap_width >= fit->seam && fit->gap_corner < 0.0;
    return trivet__text_print(text, size,
                              only_corners ? "does not slide in: its corners are too sharp for the "
                                             "tube's; round them, or take %s off its size"
                                           : "does not slide in: %s must come off its size",
                              amount);
}
