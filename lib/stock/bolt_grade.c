/*
 * Grades of screws: classes of ISO 898-1 up to 16 mm, stainless of ISO 3506-1, inch of SAE J429.
 * The classes 4.8, 5.6, 6.8, the yield of 8.8 and the 0.2 % stresses of stainless are from memory.
 * EN 1993-1-8 knows 4.6 to 10.9 but not 9.8 and 12.9; for these the nominal strength of the class.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"
#include "stock/spelling.h"
#include "trivet/stock.h"

trivet_status trivet_grade_defaults(trivet_grade *grade, size_t size)
{
    return trivet__defaults(grade, size, sizeof *grade);
}

/* MPa; inch grades ksi, and no nominal strength but the least. */
typedef struct grade_row {
    const char *name;
    double proof;
    double yield;
    double tensile;
    double nominal;
    double shear_factor;
    const char *source;
} grade_row;

#define EN_TABLES "f_ub, shear: EN 1993-1-8 tables 3.1, 3.4 (from memory)"
#define OUTSIDE_EN "not in EN 1993-1-8: f_ub nominal, shear 0.5 taken (from memory)"
#define STAINLESS "ISO 3506-1, 0.2 % stress from memory; shear: 0.5 of EN 1993-1-4 (from memory)"

static const grade_row metric_rows[] = {
    {"4.6", 225.0, 240.0, 400.0, 400.0, 0.6, "ISO 898-1; " EN_TABLES},
    {"4.8", 310.0, 340.0, 420.0, 400.0, 0.5, "ISO 898-1 (from memory); " EN_TABLES},
    {"5.6", 280.0, 300.0, 500.0, 500.0, 0.6, "ISO 898-1 (from memory); " EN_TABLES},
    {"5.8", 380.0, 420.0, 520.0, 500.0, 0.5, "ISO 898-1; " EN_TABLES},
    {"6.8", 440.0, 480.0, 600.0, 600.0, 0.5, "ISO 898-1 (from memory); " EN_TABLES},
    {"8.8", 580.0, 640.0, 800.0, 800.0, 0.6, "ISO 898-1 up to 16 mm (from memory); " EN_TABLES},
    {"9.8", 650.0, 720.0, 900.0, 900.0, 0.5, "ISO 898-1; " OUTSIDE_EN},
    {"10.9", 830.0, 940.0, 1040.0, 1000.0, 0.5, "ISO 898-1; " EN_TABLES},
    {"12.9", 970.0, 1100.0, 1220.0, 1200.0, 0.5, "ISO 898-1; " OUTSIDE_EN},
    {"A2-50", 210.0, 210.0, 500.0, 500.0, 0.5, STAINLESS},
    {"A2-70", 450.0, 450.0, 700.0, 700.0, 0.5, STAINLESS},
    {"A2-80", 600.0, 600.0, 800.0, 800.0, 0.5, STAINLESS},
    {"A4-70", 450.0, 450.0, 700.0, 700.0, 0.5, STAINLESS},
    {"A4-80", 600.0, 600.0, 800.0, 800.0, 0.5, STAINLESS},
};

static const grade_row inch_rows[] = {
    {"grade 2", 55.0, 57.0, 74.0, 74.0, 0.5, "SAE J429, 1/4 to 3/4 in; shear factor 0.5 taken"},
    {"grade 5", 85.0, 92.0, 120.0, 120.0, 0.5, "SAE J429, 1/4 to 1 in; shear factor 0.5 taken"},
    {"grade 8", 120.0, 130.0, 150.0, 150.0, 0.5,
     "SAE J429, 1/4 to 1-1/2 in; shear factor 0.5 taken"},
};

enum {
    METRIC_COUNT = sizeof metric_rows / sizeof metric_rows[0],
    INCH_COUNT = sizeof inch_rows / sizeof inch_rows[0],
    GRADE_COUNT = METRIC_COUNT + INCH_COUNT
};

int32_t trivet_grade_count(void)
{
    return GRADE_COUNT;
}

static const grade_row *row_at(int32_t index)
{
    return index < METRIC_COUNT ? &metric_rows[index] : &inch_rows[index - METRIC_COUNT];
}

static void fill_grade(int32_t index, trivet_grade *grade)
{
    const grade_row *const row = row_at(index);
    /* A ksi is 1000 lbf/in^2, with the pound 0.45359237 kg, the inch 0.0254 m, g 9.80665 m/s^2. */
    const double ksi = 1000.0 * 0.45359237 * 9.80665 / (0.0254 * 0.0254);
    const double unit = index < METRIC_COUNT ? 1e6 : ksi;
    grade->proof = row->proof * unit;
    grade->yield = row->yield * unit;
    grade->tensile = row->tensile * unit;
    grade->tensile_design = row->nominal * unit;
    grade->shear_factor = row->shear_factor;
    trivet__text_copy(grade->name, sizeof grade->name, row->name);
    trivet__text_copy(grade->source, sizeof grade->source, row->source);
}

trivet_status trivet_grade_at(int32_t index, trivet_grade *grade_out)
{
    if (!grade_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (grade_out->size != sizeof *grade_out) {
        return TRIVET_BAD_SIZE;
    }
    trivet_grade_defaults(grade_out, sizeof *grade_out);
    if (index < 0 || index >= GRADE_COUNT) {
        return TRIVET_BAD_INDEX;
    }
    fill_grade(index, grade_out);
    return TRIVET_OK;
}

static trivet_status refuse_name(const char *name, trivet_message *message)
{
    trivet__nearest search = {name, NULL, 0.0};
    for (int32_t i = 0; i < GRADE_COUNT; i++) {
        trivet__nearest_offer(&search, row_at(i)->name);
    }
    trivet__refuse(message, TRIVET_BAD_NAME, name, "no built-in grade of screws has this name",
                   "list them with trivet stock: 8.8, A2-70, grade 5 and others");
    if (search.nearest) {
        trivet__message_remedy(message, "did you mean \"%s\"?", search.nearest);
    }
    return TRIVET_BAD_NAME;
}

trivet_status trivet_grade_find(const char *name, trivet_grade *grade_out, trivet_message *message)
{
    trivet_message_clear(message);
    if (!name || !grade_out) {
        return trivet__missing(message, name ? "grade_out" : "name");
    }
    const trivet_status status =
        trivet__size_check(grade_out->size, sizeof *grade_out, "grade",
                           "fill it with trivet_grade_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet_grade_defaults(grade_out, sizeof *grade_out);
    for (int32_t i = 0; i < GRADE_COUNT; i++) {
        if (trivet__same_name(name, row_at(i)->name)) {
            fill_grade(i, grade_out);
            return TRIVET_OK;
        }
    }
    return refuse_name(name, message);
}
