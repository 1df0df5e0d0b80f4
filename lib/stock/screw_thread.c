/*
 * Screw threads M4 to M16 and #10 to 5/8 in. What follows from the form of the thread is worked
 * out: with the height H = sqrt(3)/2 P of the sharp triangle, d2 = d - 3/4 H, D1 = d - 5/4 H; the
 * root of the screw that its stress area is made from is d3 = D1 - H/6 (ISO 898-1), for inches D -
 * 3/2 H (ASME B1.1, its 0.7854 (D - 0.9743/n)^2); As = pi/4 ((d2 + d3)/2)^2.
 *
 * Limits: metric 6g and 6H from the tolerances of ISO 965-1 as its tables round them, from memory;
 * inch classes 2A and 2B by the formulas of ASME B1.1, from memory. Drills: common practice.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"
#include "stock/spelling.h"
#include "trivet/stock.h"

#include <math.h>

static const double PI = 3.14159265358979323846;

/* What a diameter brings along whatever the pitch, in mm or in. */
typedef struct size_row {
    double diameter;
    double clearance;
    double hexagon;
    double socket;
    double countersunk;
} size_row;

/* Holes ISO 273 medium, heads ISO 4017, ISO 4762, ISO 10642 (theoretical, largest), from memory. */
enum { M4, M5, M6, M8, M10, M12, M14, M16 };

static const size_row metric_sizes[] = {
    [M4] = {4.0, 4.5, 7.0, 7.0, 8.96},      [M5] = {5.0, 5.5, 8.0, 8.5, 11.2},
    [M6] = {6.0, 6.6, 10.0, 10.0, 13.44},   [M8] = {8.0, 9.0, 13.0, 13.0, 17.92},
    [M10] = {10.0, 11.0, 16.0, 16.0, 22.4}, [M12] = {12.0, 13.5, 18.0, 18.0, 26.88},
    [M14] = {14.0, 15.5, 21.0, 21.0, 30.8}, [M16] = {16.0, 17.5, 24.0, 24.0, 33.6},
};

/*
 * Holes of normal fit, heads ASME B18.2.1 and B18.3, from memory. #10 has the hexagon of a machine
 * screw (B18.6.3). 9/16 is not in B18.3: its cylinder head is 3/2 D as for the sizes beside it, its
 * flat head that of the slotted cap screw (B18.6.2).
 */
enum { NO_10, IN_1_4, IN_5_16, IN_3_8, IN_7_16, IN_1_2, IN_9_16, IN_5_8 };

static const size_row inch_sizes[] = {
    [NO_10] = {0.19, 0.221, 0.3125, 0.312, 0.411},
    [IN_1_4] = {0.25, 0.28125, 0.4375, 0.375, 0.531},
    [IN_5_16] = {0.3125, 0.34375, 0.5, 0.469, 0.656},
    [IN_3_8] = {0.375, 0.40625, 0.5625, 0.562, 0.781},
    [IN_7_16] = {0.4375, 0.46875, 0.625, 0.656, 0.844},
    [IN_1_2] = {0.5, 0.5625, 0.75, 0.75, 0.938},
    [IN_9_16] = {0.5625, 0.625, 0.8125, 0.844, 1.0},
    [IN_5_8] = {0.625, 0.6875, 0.9375, 0.938, 1.188},
};

/* ISO 965-1 by pitch, mm and um: deviation g of the screw, Td grade 6, TD1 grade 6. */
enum { P0_7, P0_75, P0_8, P1, P1_25, P1_5, P1_75, P2 };

static const struct pitch_row {
    double pitch;
    double deviation;
    double screw_major;
    double hole_minor;
} pitches[] = {
    [P0_7] = {0.7, 22.0, 140.0, 180.0},   [P0_75] = {0.75, 22.0, 140.0, 190.0},
    [P0_8] = {0.8, 24.0, 150.0, 200.0},   [P1] = {1.0, 26.0, 180.0, 236.0},
    [P1_25] = {1.25, 28.0, 212.0, 265.0}, [P1_5] = {1.5, 32.0, 236.0, 300.0},
    [P1_75] = {1.75, 34.0, 265.0, 335.0}, [P2] = {2.0, 38.0, 280.0, 375.0},
};

enum { SPELLING_COUNT = 5 };

/* Names: the first is ours, the others are accepted. */
typedef struct metric_row {
    const char *names[SPELLING_COUNT];
    int32_t size;
    int32_t pitch;
    double screw_pitch; /* Td2 grade 6, um */
    double hole_pitch;  /* TD2 grade 6, um */
    double drill;       /* mm */
} metric_row;

static const metric_row metric_rows[] = {
    {{"M4", "M4x0.7"}, M4, P0_7, 90.0, 118.0, 3.3},
    {{"M5", "M5x0.8"}, M5, P0_8, 95.0, 125.0, 4.2},
    {{"M6", "M6x1", "M6x1.0"}, M6, P1, 112.0, 150.0, 5.0},
    {{"M8", "M8x1.25"}, M8, P1_25, 118.0, 160.0, 6.8},
    {{"M10", "M10x1.5"}, M10, P1_5, 132.0, 180.0, 8.5},
    {{"M12", "M12x1.75"}, M12, P1_75, 150.0, 200.0, 10.2},
    {{"M14", "M14x2", "M14x2.0"}, M14, P2, 160.0, 212.0, 12.0},
    {{"M16", "M16x2", "M16x2.0"}, M16, P2, 160.0, 212.0, 14.0},
    {{"M6x0.75"}, M6, P0_75, 100.0, 132.0, 5.2},
    {{"M8x1", "M8x1.0"}, M8, P1, 112.0, 150.0, 7.0},
    {{"M10x1", "M10x1.0"}, M10, P1, 112.0, 150.0, 9.0},
    {{"M10x1.25"}, M10, P1_25, 118.0, 160.0, 8.8},
    {{"M12x1", "M12x1.0"}, M12, P1, 118.0, 160.0, 11.0},
    {{"M12x1.25"}, M12, P1_25, 132.0, 180.0, 10.8},
    {{"M12x1.5"}, M12, P1_5, 140.0, 190.0, 10.5},
    {{"M14x1.5"}, M14, P1_5, 140.0, 190.0, 12.5},
    {{"M16x1.5"}, M16, P1_5, 140.0, 190.0, 14.5},
};

typedef struct inch_row {
    const char *names[SPELLING_COUNT];
    int32_t size;
    double turns; /* an inch */
    double drill; /* in */
} inch_row;

static const inch_row inch_rows[] = {
    {{"#10-24 UNC", "#10-24", "#10 UNC", "10-24 UNC", "10-24"}, NO_10, 24.0, 0.1495},
    {{"1/4-20 UNC", "1/4-20", "1/4 UNC"}, IN_1_4, 20.0, 0.201},
    {{"5/16-18 UNC", "5/16-18", "5/16 UNC"}, IN_5_16, 18.0, 0.257},
    {{"3/8-16 UNC", "3/8-16", "3/8 UNC"}, IN_3_8, 16.0, 0.3125},
    {{"7/16-14 UNC", "7/16-14", "7/16 UNC"}, IN_7_16, 14.0, 0.368},
    {{"1/2-13 UNC", "1/2-13", "1/2 UNC"}, IN_1_2, 13.0, 0.421875},
    {{"9/16-12 UNC", "9/16-12", "9/16 UNC"}, IN_9_16, 12.0, 0.484375},
    {{"5/8-11 UNC", "5/8-11", "5/8 UNC"}, IN_5_8, 11.0, 0.53125},
    {{"#10-32 UNF", "#10-32", "#10 UNF", "10-32 UNF", "10-32"}, NO_10, 32.0, 0.159},
    {{"1/4-28 UNF", "1/4-28", "1/4 UNF"}, IN_1_4, 28.0, 0.213},
    {{"5/16-24 UNF", "5/16-24", "5/16 UNF"}, IN_5_16, 24.0, 0.272},
    {{"3/8-24 UNF", "3/8-24", "3/8 UNF"}, IN_3_8, 24.0, 0.332},
    {{"7/16-20 UNF", "7/16-20", "7/16 UNF"}, IN_7_16, 20.0, 0.390625},
    {{"1/2-20 UNF", "1/2-20", "1/2 UNF"}, IN_1_2, 20.0, 0.453125},
    {{"9/16-18 UNF", "9/16-18", "9/16 UNF"}, IN_9_16, 18.0, 0.515625},
    {{"5/8-18 UNF", "5/8-18", "5/8 UNF"}, IN_5_8, 18.0, 0.578125},
};

enum {
    METRIC_COUNT = sizeof metric_rows / sizeof metric_rows[0],
    INCH_COUNT = sizeof inch_rows / sizeof inch_rows[0],
    THREAD_COUNT = METRIC_COUNT + INCH_COUNT
};

trivet_status trivet_thread_defaults(trivet_thread *thread, size_t size)
{
    return trivet__defaults(thread, size, sizeof *thread);
}

int32_t trivet_thread_count(void)
{
    return THREAD_COUNT;
}

static const char *const *names_of(int32_t index)
{
    return index < METRIC_COUNT ? metric_rows[index].names : inch_rows[index - METRIC_COUNT].names;
}

/* Basic sizes from diameter and pitch, all in one unit of length. */
static void form_thread(double d, double P, trivet_thread *thread)
{
    const double H = 0.5 * sqrt(3.0) * P;
    thread->diameter = d;
    thread->pitch = P;
    thread->pitch_diameter = d - 0.75 * H;
    thread->minor_diameter = d - 1.25 * H;
    thread->root_diameter = thread->is_inch ? d - 1.5 * H : thread->minor_diameter - H / 6.0;
    const double middle = 0.5 * (thread->pitch_diameter + thread->root_diameter);
    thread->stress_area = 0.25 * PI * middle * middle;
}

static void take_size(const size_row *size, double drill, trivet_thread *thread)
{
    thread->tapping_drill = drill;
    thread->clearance_hole = size->clearance;
    thread->hexagon_width = size->hexagon;
    thread->socket_head = size->socket;
    thread->countersunk_head = size->countersunk;
}

static void fill_metric(const metric_row *row, trivet_thread *thread)
{
    const size_row *const size = &metric_sizes[row->size];
    const struct pitch_row *const pitch = &pitches[row->pitch];
    const double um = 1e-3; /* in mm */
    form_thread(size->diameter, pitch->pitch, thread);
    take_size(size, row->drill, thread);
    const double g = pitch->deviation * um;
    thread->screw_major_least = thread->diameter - g - pitch->screw_major * um;
    thread->screw_pitch_least = thread->pitch_diameter - g - row->screw_pitch * um;
    thread->hole_minor_most = thread->minor_diameter + pitch->hole_minor * um;
    thread->hole_pitch_most = thread->pitch_diameter + row->hole_pitch * um;
    thread->countersunk_angle = 0.5 * PI;
}

/* ASME B1.1, D and P in inches; the length of engagement of UNC and UNF counts as D. */
static void fill_inch(const inch_row *row, trivet_thread *thread)
{
    const size_row *const size = &inch_sizes[row->size];
    const double D = size->diameter;
    const double P = 1.0 / row->turns;
    thread->is_inch = 1;
    form_thread(D, P, thread);
    take_size(size, row->drill, thread);
    const double P23 = pow(P, 2.0 / 3.0);
    const double Td2 = 0.0015 * cbrt(D) + 0.0015 * sqrt(D) + 0.015 * P23;
    const double allowance = 0.3 * Td2;
    const double least_TD1 = 0.25 * P - 0.4 * P * P;
    const double TD1 = D < 0.25 ? fmax(0.05 * P23 + 0.03 * P / D - 0.002, least_TD1) : least_TD1;
    thread->screw_major_least = D - allowance - 0.06 * P23;
    thread->screw_pitch_least = thread->pitch_diameter - allowance - Td2;
    thread->hole_minor_most = thread->minor_diameter + TD1;
    thread->hole_pitch_most = thread->pitch_diameter + 1.3 * Td2;
    thread->countersunk_angle = 82.0 * PI / 180.0;
}

/* From mm or inches to m: mm is 1 or 25.4. */
static void scale_thread(double mm, trivet_thread *thread)
{
    double *const lengths[] = {
        &thread->diameter,          &thread->pitch,
        &thread->pitch_diameter,    &thread->minor_diameter,
        &thread->root_diameter,     &thread->screw_major_least,
        &thread->screw_pitch_least, &thread->hole_minor_most,
        &thread->hole_pitch_most,   &thread->tapping_drill,
        &thread->clearance_hole,    &thread->hexagon_width,
        &thread->socket_head,       &thread->countersunk_head,
    };
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        *lengths[i] = *lengths[i] * mm / 1000.0;
    }
    thread->stress_area = thread->stress_area * mm * mm / 1e6;
}

static void fill_thread(int32_t index, trivet_thread *thread)
{
    if (index < METRIC_COUNT) {
        fill_metric(&metric_rows[index], thread);
        scale_thread(1.0, thread);
    } else {
        fill_inch(&inch_rows[index - METRIC_COUNT], thread);
        scale_thread(25.4, thread);
    }
    trivet__text_copy(thread->name, sizeof thread->name, names_of(index)[0]);
}

trivet_status trivet_thread_at(int32_t index, trivet_thread *thread_out)
{
    if (!thread_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (thread_out->size != sizeof *thread_out) {
        return TRIVET_BAD_SIZE;
    }
    trivet_thread_defaults(thread_out, sizeof *thread_out);
    if (index < 0 || index >= THREAD_COUNT) {
        return TRIVET_BAD_INDEX;
    }
    fill_thread(index, thread_out);
    return TRIVET_OK;
}

static int32_t find_thread(const char *name)
{
    for (int32_t i = 0; i < THREAD_COUNT; i++) {
        const char *const *const names = names_of(i);
        for (int32_t j = 0; j < SPELLING_COUNT && names[j]; j++) {
            if (trivet__same_name(name, names[j])) {
                return i;
            }
        }
    }
    return -1;
}

/* The number in "M7" or "m 20x2"; 0 if the name is not of that kind. At most three digits. */
static int32_t metric_number(const char *name)
{
    int32_t number = 0;
    if (*name != 'M' && *name != 'm') {
        return 0;
    }
    name++;
    while (*name == ' ') {
        name++;
    }
    for (int32_t i = 0; i < 3 && name[i] >= '0' && name[i] <= '9'; i++) {
        number = 10 * number + (name[i] - '0');
    }
    return number;
}

/* A metric thread that is not there is wanted for its diameter: the coarse one that comes nearest.
 */
static const char *nearest_size(int32_t number)
{
    int32_t nearest = M4;
    for (int32_t i = M5; i <= M16; i++) {
        if (fabs(metric_sizes[i].diameter - number) <
            fabs(metric_sizes[nearest].diameter - number)) {
            nearest = i;
        }
    }
    return metric_rows[nearest].names[0];
}

/* The name of ours whose spelling comes nearest; NULL if none is near enough to be meant. */
static const char *nearest_spelling(const char *name)
{
    trivet__nearest search = {name, NULL, 0.0};
    const char *nearest = NULL;
    for (int32_t i = 0; i < THREAD_COUNT; i++) {
        const char *const *const names = names_of(i);
        for (int32_t j = 0; j < SPELLING_COUNT && names[j]; j++) {
            trivet__nearest_offer(&search, names[j]);
            nearest = search.nearest == names[j] ? names[0] : nearest;
        }
    }
    return nearest;
}

static trivet_status refuse_name(const char *name, trivet_message *message)
{
    const int32_t number = metric_number(name);
    int is_our_size = 0;
    for (int32_t i = M4; i <= M16; i++) {
        is_our_size |= metric_sizes[i].diameter == number;
    }
    const char *const nearest =
        number > 0 && !is_our_size ? nearest_size(number) : nearest_spelling(name);
    trivet__refuse(message, TRIVET_BAD_NAME, name, "no built-in thread has this name",
                   "list them with trivet stock: M4 to M16, M8x1, 1/4-20 UNC and others");
    if (nearest) {
        trivet__message_remedy(message, "did you mean \"%s\"?", nearest);
    }
    return TRIVET_BAD_NAME;
}

trivet_status trivet_thread_find(const char *name, trivet_thread *thread_out,
                                 trivet_message *message)
{
    trivet_message_clear(message);
    if (!name || !thread_out) {
        return trivet__missing(message, name ? "thread_out" : "name");
    }
    const trivet_status status =
        trivet__size_check(thread_out->size, sizeof *thread_out, "thread",
                           "fill it with trivet_thread_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet_thread_defaults(thread_out, sizeof *thread_out);
    const int32_t index = find_thread(name);
    if (index < 0) {
        return refuse_name(name, message);
    }
    fill_thread(index, thread_out);
    return TRIVET_OK;
}
