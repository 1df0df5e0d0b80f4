/*
 * Why a hand calculation may be off: only what its ratio to the computed value itself shows.
 *
 * A ratio within half a percent of a factor counts as that factor: wide enough for a hand
 * calculation of three digits, narrow beside the distance from one factor to the next. The width
 * is our own choice.
 */
#include "base/text.h"
#include "document/expect.h"

#include <math.h>
#include <string.h>

#define WIDTH 0.005
#define PI 3.14159265358979323846

enum { EVERY = -1 };

/* A factor between right and wrong, either way round. */
typedef struct slip {
    double factor;
    int32_t dimension; /* a trivet_dimension; EVERY: of any */
    const char *cause;
    const char *inverse; /* where the value by hand is too large by it; NULL: the same words */
} slip;

#define MASS_FOR_FORCE "mass was taken for force"
#define G_TWICE "g was put in once too often"
#define INCHES "inches and millimetres were mixed up"
#define THOUSANDS "a unit was mixed up with one a thousand times as large, such as mm and m"
#define MILLIONS "units were mixed up, such as N/mm^2 and N/m^2, or mm^2 and m^2"
#define DEGREES "degrees and radians were mixed up"
#define TWICE "one of two was left out or counted twice, or diameter was taken for radius"
#define HALVED "diameter was taken for radius, or a length for half of it, "

static const slip SLIPS[] = {
    {9.80665, TRIVET_MASS, G_TWICE, "force was taken for mass"},
    {9.80665, EVERY, MASS_FOR_FORCE, G_TWICE},
    {25.4, EVERY, INCHES, NULL},
    {25.4 * 25.4, EVERY, INCHES ", squared", NULL},
    {25.4 * 25.4 * 25.4, EVERY, INCHES ", to the third power", NULL},
    {25.4 * 25.4 * 25.4 * 25.4, EVERY, INCHES ", to the fourth power", NULL},
    {1e3, EVERY, THOUSANDS, NULL},
    {1e6, EVERY, MILLIONS, NULL},
    {1e9, EVERY, THOUSANDS ", to the third power", NULL},
    {1e12, EVERY, THOUSANDS ", to the fourth power", NULL},
    {180.0 / PI, EVERY, DEGREES, NULL},
    {2.0, EVERY, TWICE, NULL},
    {4.0, EVERY, HALVED "in a square", NULL},
    {8.0, EVERY, HALVED "in a cube", NULL},
    {16.0, EVERY, HALVED "in a fourth power", NULL},
};

enum { SLIP_COUNT = (int)(sizeof SLIPS / sizeof SLIPS[0]) };

static int is_near(double ratio, double factor)
{
    return fabs(ratio / factor - 1.0) <= WIDTH;
}

/*
 * A section value knows no force, and its diameter enters with the power of its dimension; of a
 * result, with any.
 */
static int fits_section(const trivet__expect *expect, double factor)
{
    static const struct {
        int32_t dimension;
        double factor;
    } POWERS[] = {
        {TRIVET_MASS_PER_LENGTH, 9.80665}, {TRIVET_AREA, 4.0},   {TRIVET_MASS_PER_LENGTH, 4.0},
        {TRIVET_SECOND_MOMENT, 16.0},      {TRIVET_VOLUME, 8.0},
    };
    if (expect->kind != TRIVET__EXPECT_SECTION || factor <= 2.0 || factor > 16.0) {
        return 1;
    }
    for (size_t i = 0; i < sizeof POWERS / sizeof POWERS[0]; i++) {
        if (POWERS[i].dimension == expect->dimension && is_near(factor, POWERS[i].factor)) {
            return 1;
        }
    }
    return 0;
}

/* The slip that a ratio shows, of the computed value to that by hand; 0 if it shows none. */
static int find_slip(const trivet__expect *expect, int32_t dimension, double ratio,
                     trivet_expectation *about)
{
    const double size = fabs(ratio);
    const char *const sign = ratio < 0.0 ? ", and the sign is turned" : "";
    for (int i = 0; i < SLIP_COUNT; i++) {
        const slip *const of = &SLIPS[i];
        const int is_inverse = is_near(size, 1.0 / of->factor);
        const int applies = (of->dimension == EVERY || of->dimension == dimension) &&
                            fits_section(expect, of->factor);
        if (applies && (is_inverse || is_near(size, of->factor))) {
            trivet__text_print(about->hint, sizeof about->hint, "looks like %s (a factor %s%.4g)%s",
                               is_inverse && of->inverse ? of->inverse : of->cause,
                               is_inverse ? "1/" : "", of->factor, sign);
            return 1;
        }
    }
    if (ratio < 0.0 && is_near(size, 1.0)) {
        trivet__text_print(about->hint, sizeof about->hint,
                           "the same size with the sign turned: x is forward, y left, z up; "
                           "reactions are what the mount does to the frame");
        return 1;
    }
    return 0;
}

/*
 * Stock by its values, without shear give; NULL for one that cannot be given so. A section whose
 * principal axes are slanted would lose its product moment.
 */
static int make_without_shear(const trivet_section *section, double density,
                              trivet_profile *profile)
{
    const double largest = fmax(section->second_moment[0], section->second_moment[1]);
    if (!(fabs(section->product_moment) <= 1e-9 * largest) ||
        trivet_profile_defaults(profile, sizeof *profile) != TRIVET_OK) {
        return 0;
    }
    profile->shape = TRIVET_SHAPE_GIVEN_VALUES;
    profile->given_area = section->area;
    profile->given_torsion_constant = section->torsion_constant;
    profile->given_mass_per_length =
        section->mass_per_length > 0.0 ? section->mass_per_length : section->area * density;
    for (int i = 0; i < 2; i++) {
        profile->given_second_moment[i] = section->second_moment[i];
    }
    return 1;
}

/* The frame with every stock but without shear give. */
static trivet_status drop_shear(trivet_frame *frame)
{
    for (int32_t i = 0; i < trivet_frame_count(frame, TRIVET_KIND_STOCK); i++) {
        const trivet_material material = *trivet_frame_material(frame, i);
        trivet_profile profile;
        if (!make_without_shear(trivet_frame_section(frame, i), material.density, &profile)) {
            return TRIVET_BAD_VALUE;
        }
        const trivet_status status = trivet_frame_set_stock(frame, i, &profile, &material, NULL);
        if (status != TRIVET_OK) {
            return status;
        }
    }
    return TRIVET_OK;
}

/* The movement that would be there without shear; NaN if that cannot be worked out. */
static trivet_status find_without_shear(const trivet_document *document,
                                        const trivet__expect *expect, double *value_out)
{
    trivet_frame *copy = NULL;
    trivet_result *result = NULL;
    *value_out = (double)NAN;
    trivet_status status = trivet_frame_copy(document->frame, &copy, NULL);
    if (status == TRIVET_OK) {
        status = drop_shear(copy);
    }
    if (status == TRIVET_OK) {
        status = trivet_frame_solve(copy, &result, NULL);
    }
    if (status == TRIVET_OK) {
        *value_out = trivet__expect_movement(result, expect);
    }
    trivet_result_free(result);
    trivet_frame_free(copy);
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

static trivet_status look_for_shear(const trivet_document *document, const trivet__expect *expect,
                                    trivet_expectation *about, trivet_message *message)
{
    double without = 0.0;
    char text[64];
    const trivet_status status = find_without_shear(document, expect, &without);
    if (status != TRIVET_OK) {
        return trivet__no_memory(message);
    }
    if (fabs(without / about->by_hand - 1.0) <= about->within) {
        trivet_units_text(&document->units, (trivet_dimension)about->dimension, without, 4, text,
                          sizeof text);
        trivet__text_print(about->hint, sizeof about->hint,
                           "the hand formula leaves out shear: without it the computed value is %s",
                           text);
    }
    return TRIVET_OK;
}

trivet_status trivet__expect_hint(const trivet_document *document, const trivet__expect *expect,
                                  trivet_expectation *about, trivet_message *message)
{
    const double ratio = about->computed / about->by_hand;
    const int is_movement =
        expect->kind == TRIVET__EXPECT_DROOP || expect->kind == TRIVET__EXPECT_MOVE;
    about->hint[0] = '\0';
    if (!isfinite(ratio) || ratio == 0.0 || find_slip(expect, about->dimension, ratio, about) ||
        !is_movement) {
        return TRIVET_OK;
    }
    return look_for_shear(document, expect, about, message);
}
