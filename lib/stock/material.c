/*
 * Built-in materials. Strengths are what the standard promises at least. Beside a weld: for
 * aluminium the heat-affected zone; for cold-drawn and stress-relieved steel the normalised or
 * as-welded value of the same steel, because welding undoes the drawing; else the parent's own.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"
#include "stock/spelling.h"
#include "trivet/stock.h"

#include <math.h>

trivet_status trivet_material_defaults(trivet_material *material, size_t size)
{
    const trivet_status status = trivet__defaults(material, size, sizeof *material);
    if (status == TRIVET_OK) {
        material->tensile = (double)NAN;
        material->welded_tensile = (double)NAN;
    }
    return status;
}

/* As the tables print them: MPa, kg/m^3, 1/K. */
typedef struct material_row {
    const char *name;
    double E;
    double G;
    double density;
    double yield;
    double tensile;
    double expansion;
    double welded_yield;
    double welded_tensile;
    const char *source;
} material_row;

static const material_row material_rows[] = {
    {"S235", 210000.0, 81000.0, 7850.0, 235.0, 360.0, 1.2e-05, 235.0, 360.0,
     "EN 10025-2 S235JR as rolled, up to 16 mm; E, G, density: EN 1993-1-1"},
    {"S275", 210000.0, 81000.0, 7850.0, 275.0, 410.0, 1.2e-05, 275.0, 410.0,
     "EN 10025-2 S275JR as rolled, up to 16 mm; E, G, density: EN 1993-1-1"},
    {"S355", 210000.0, 81000.0, 7850.0, 355.0, 470.0, 1.2e-05, 355.0, 470.0,
     "EN 10025-2 S355JR as rolled, up to 16 mm; E, G, density: EN 1993-1-1"},
    {"S235JRH hot finished", 210000.0, 81000.0, 7850.0, 235.0, 360.0, 1.2e-05, 235.0, 360.0,
     "EN 10210-1, up to 16 mm; E, G, density: EN 1993-1-1"},
    {"S275J0H hot finished", 210000.0, 81000.0, 7850.0, 275.0, 410.0, 1.2e-05, 275.0, 410.0,
     "EN 10210-1, also S275J2H, up to 16 mm; E, G, density: EN 1993-1-1"},
    {"S355J0H hot finished", 210000.0, 81000.0, 7850.0, 355.0, 470.0, 1.2e-05, 355.0, 470.0,
     "EN 10210-1, also S355J2H, up to 16 mm; E, G, density: EN 1993-1-1"},
    {"S235JRH cold formed", 210000.0, 81000.0, 7850.0, 235.0, 360.0, 1.2e-05, 235.0, 360.0,
     "EN 10219-1, up to 16 mm, from memory; E, G, density: EN 1993-1-1"},
    {"S275J0H cold formed", 210000.0, 81000.0, 7850.0, 275.0, 410.0, 1.2e-05, 275.0, 410.0,
     "EN 10219-1, up to 16 mm, from memory; E, G, density: EN 1993-1-1"},
    {"S355J2H cold formed", 210000.0, 81000.0, 7850.0, 355.0, 470.0, 1.2e-05, 355.0, 470.0,
     "EN 10219-1, up to 16 mm, from memory; E, G, density: EN 1993-1-1"},
    {"E235", 210000.0, 81000.0, 7850.0, 235.0, 340.0, 1.2e-05, 235.0, 340.0,
     "EN 10305 E235 in the normalised condition (+N), yield 235 MPa as the name says; other "
     "conditions are stronger; E, G, density: EN 1993-1-1"},
    {"E235 +N", 210000.0, 81000.0, 7850.0, 235.0, 340.0, 1.2e-05, 235.0, 340.0,
     "EN 10305-1, normalised; E, G, density: EN 1993-1-1"},
    {"E235 +SR", 210000.0, 81000.0, 7850.0, 350.0, 420.0, 1.2e-05, 235.0, 340.0,
     "EN 10305-1, stress relieved; beside welds as normalised (E235 +N); E, G, density: EN "
     "1993-1-1"},
    {"E235 +C", 210000.0, 81000.0, 7850.0, 235.0, 480.0, 1.2e-05, 235.0, 340.0,
     "EN 10305-1, cold drawn hard, no yield promised: that of E235 +N is taken, also beside welds; "
     "E, G, density: EN 1993-1-1"},
    {"E355", 210000.0, 81000.0, 7850.0, 355.0, 490.0, 1.2e-05, 355.0, 490.0,
     "EN 10305 E355 in the normalised condition (+N), yield 355 MPa as the name says; other "
     "conditions are stronger; E, G, density: EN 1993-1-1"},
    {"E355 +N", 210000.0, 81000.0, 7850.0, 355.0, 490.0, 1.2e-05, 355.0, 490.0,
     "EN 10305-1, normalised; E, G, density: EN 1993-1-1"},
    {"E355 +SR", 210000.0, 81000.0, 7850.0, 450.0, 580.0, 1.2e-05, 355.0, 490.0,
     "EN 10305-1, stress relieved; beside welds as normalised (E355 +N); E, G, density: EN "
     "1993-1-1"},
    {"E355 +C", 210000.0, 81000.0, 7850.0, 355.0, 640.0, 1.2e-05, 355.0, 490.0,
     "EN 10305-1, cold drawn hard, no yield promised: that of E355 +N is taken, also beside welds; "
     "E, G, density: EN 1993-1-1"},
    {"E220", 210000.0, 81000.0, 7850.0, 220.0, 310.0, 1.2e-05, 220.0, 310.0,
     "EN 10305-3 and -5, welded and cold sized (+CR2), yield 220 MPa as the name says, from "
     "memory; E, G, density: EN 1993-1-1"},
    {"E220 +CR2", 210000.0, 81000.0, 7850.0, 220.0, 310.0, 1.2e-05, 220.0, 310.0,
     "EN 10305-3 and -5, welded and cold sized, from memory; E, G, density: EN 1993-1-1"},
    {"A36", 200000.0, 77200.0, 7850.0, 248.2, 399.9, 1.17e-05, 248.2, 399.9,
     "ASTM A36 plate, bar, shapes; E, G: AISC 360"},
    {"A500 B round", 200000.0, 77200.0, 7850.0, 289.6, 399.9, 1.17e-05, 289.6, 399.9,
     "ASTM A500 grade B, round (46 ksi in editions from 2021); E, G: AISC 360"},
    {"A500 C round", 200000.0, 77200.0, 7850.0, 317.2, 427.5, 1.17e-05, 317.2, 427.5,
     "ASTM A500 grade C, round (50 ksi in editions from 2021); E, G: AISC 360"},
    {"A500 B shaped", 200000.0, 77200.0, 7850.0, 317.2, 399.9, 1.17e-05, 317.2, 399.9,
     "ASTM A500 grade B, square and rectangular; E, G: AISC 360"},
    {"A500 C shaped", 200000.0, 77200.0, 7850.0, 344.7, 427.5, 1.17e-05, 344.7, 427.5,
     "ASTM A500 grade C, square and rectangular; E, G: AISC 360"},
    {"A513 1008", 200000.0, 77200.0, 7850.0, 206.8, 289.6, 1.17e-05, 206.8, 289.6,
     "ASTM A513 type 1a/1b as welded; strength is promised only if ordered; E, G: AISC 360"},
    {"A513 1010", 200000.0, 77200.0, 7850.0, 220.6, 310.3, 1.17e-05, 220.6, 310.3,
     "ASTM A513 type 1a/1b as welded; strength is promised only if ordered; E, G: AISC 360"},
    {"A513 1015", 200000.0, 77200.0, 7850.0, 241.3, 330.9, 1.17e-05, 241.3, 330.9,
     "ASTM A513 type 1a/1b as welded; strength is promised only if ordered; E, G: AISC 360"},
    {"A513 1020", 200000.0, 77200.0, 7850.0, 262.0, 358.5, 1.17e-05, 262.0, 358.5,
     "ASTM A513 type 1a/1b as welded; strength is promised only if ordered; E, G: AISC 360"},
    {"A513 1015 DOM SR", 200000.0, 77200.0, 7850.0, 344.7, 413.7, 1.17e-05, 241.3, 330.9,
     "ASTM A513 type 5, drawn over mandrel, stress relieved; beside welds as A513 1015; E, G: AISC "
     "360"},
    {"A513 1020 DOM SR", 200000.0, 77200.0, 7850.0, 379.2, 448.2, 1.17e-05, 262.0, 358.5,
     "ASTM A513 type 5, drawn over mandrel, stress relieved; beside welds as A513 1020; E, G: AISC "
     "360"},
    {"A513 1026 DOM SR", 200000.0, 77200.0, 7850.0, 448.2, 517.1, 1.17e-05, 262.0, 358.5,
     "ASTM A513 type 5, drawn over mandrel, stress relieved; beside welds as A513 1020, for want "
     "of a value; E, G: AISC 360"},
    {"A513 1020 DOM", 200000.0, 77200.0, 7850.0, 413.7, 482.6, 1.17e-05, 262.0, 358.5,
     "ASTM A513 type 5, as drawn over mandrel, from memory; beside welds as A513 1020; E, G: AISC "
     "360"},
    {"A513 1026 DOM", 200000.0, 77200.0, 7850.0, 482.6, 551.6, 1.17e-05, 262.0, 358.5,
     "ASTM A513 type 5, as drawn over mandrel, from memory; beside welds as A513 1020, for want of "
     "a value; E, G: AISC 360"},
    {"4130 N", 200000.0, 77200.0, 7850.0, 413.7, 620.5, 1.17e-05, 413.7, 620.5,
     "ASTM A519, normalised, typical and not promised, from memory; E, G: AISC 360"},
    {"4130 N aircraft", 200000.0, 77200.0, 7850.0, 517.1, 655.0, 1.17e-05, 413.7, 620.5,
     "AMS 6360, normalised, wall up to 4.75 mm, from memory; beside welds as 4130 N of ASTM A519; "
     "E, G: AISC 360"},
    {"1.4301", 200000.0, 77000.0, 7900.0, 230.0, 540.0, 1.6e-05, 230.0, 540.0,
     "EN 10088-2 and EN 1993-1-4 (304), cold rolled strip up to 8 mm, from memory"},
    {"1.4307", 200000.0, 77000.0, 7900.0, 220.0, 520.0, 1.6e-05, 220.0, 520.0,
     "EN 10088-2 and EN 1993-1-4 (304L), cold rolled strip up to 8 mm, from memory"},
    {"304", 193000.0, 74000.0, 8000.0, 206.8, 517.1, 1.73e-05, 206.8, 517.1,
     "ASTM A240, A554, A312, annealed, from memory"},
    {"304L", 193000.0, 74000.0, 8000.0, 172.4, 482.6, 1.73e-05, 172.4, 482.6,
     "ASTM A240, A312, annealed, from memory"},
    {"EN AW-6061 T6", 70000.0, 27000.0, 2700.0, 240.0, 260.0, 2.3e-05, 115.0, 175.0,
     "EN 1999-1-1, extruded or drawn, up to 20 mm; beside welds: heat-affected zone"},
    {"EN AW-6063 T5 thin", 70000.0, 27000.0, 2700.0, 130.0, 175.0, 2.3e-05, 60.0, 100.0,
     "EN 1999-1-1, extruded, up to 3 mm; beside welds: heat-affected zone"},
    {"EN AW-6063 T5", 70000.0, 27000.0, 2700.0, 110.0, 160.0, 2.3e-05, 60.0, 100.0,
     "EN 1999-1-1, extruded, 3 to 25 mm; beside welds: heat-affected zone"},
    {"EN AW-6063 T6", 70000.0, 27000.0, 2700.0, 160.0, 195.0, 2.3e-05, 65.0, 110.0,
     "EN 1999-1-1, extruded, up to 25 mm; beside welds: heat-affected zone"},
    {"EN AW-6063 T6 drawn", 70000.0, 27000.0, 2700.0, 190.0, 220.0, 2.3e-05, 65.0, 110.0,
     "EN 1999-1-1, drawn tube, up to 20 mm; beside welds: heat-affected zone"},
    {"EN AW-6060 T6", 70000.0, 27000.0, 2700.0, 140.0, 170.0, 2.3e-05, 60.0, 100.0,
     "EN 1999-1-1, extruded, up to 15 mm; beside welds: heat-affected zone"},
    {"EN AW-6005A T6 open", 70000.0, 27000.0, 2700.0, 225.0, 270.0, 2.3e-05, 115.0, 165.0,
     "EN 1999-1-1, open profile, up to 5 mm; beside welds: heat-affected zone"},
    {"EN AW-6005A T6", 70000.0, 27000.0, 2700.0, 215.0, 255.0, 2.3e-05, 115.0, 165.0,
     "EN 1999-1-1, hollow profile and tube, up to 5 mm; beside welds: heat-affected zone"},
    {"EN AW-6082 T6", 70000.0, 27000.0, 2700.0, 250.0, 290.0, 2.3e-05, 125.0, 185.0,
     "EN 1999-1-1, extruded, up to 5 mm, from memory; beside welds: heat-affected zone"},
    {"6061-T6", 69600.0, 26200.0, 2700.0, 241.3, 262.0, 2.36e-05, 103.4, 165.5,
     "Aluminum Design Manual, ASTM B221; welded values from memory"},
    {"6063-T5", 69600.0, 26200.0, 2700.0, 110.3, 151.7, 2.36e-05, 55.2, 117.2,
     "Aluminum Design Manual, ASTM B221, up to 12.7 mm; welded values from memory"},
    {"6063-T6", 69600.0, 26200.0, 2700.0, 172.4, 206.8, 2.36e-05, 55.2, 117.2,
     "Aluminum Design Manual, ASTM B221, up to 25.4 mm; welded values from memory"},
    {"5052-H32", 70300.0, 26500.0, 2680.0, 160.0, 215.0, 2.38e-05, 65.5, 172.4,
     "Aluminum Design Manual; welded values from memory"},
};

enum { MATERIAL_COUNT = sizeof material_rows / sizeof material_rows[0] };

/* Other names by which the trade asks for the same row. */
typedef struct other_name {
    const char *name;
    const char *row;
} other_name;

static const other_name other_names[] = {
    {"S235JR", "S235"}, {"S275JR", "S275"},           {"S355JR", "S355"},
    {"4130", "4130 N"}, {"6082-T6", "EN AW-6082 T6"},
};

int32_t trivet_material_count(void)
{
    return MATERIAL_COUNT;
}

static void fill_from_row(const material_row *row, trivet_material *material)
{
    const double MPa = 1e6;
    material->E = row->E * MPa;
    material->G = row->G * MPa;
    material->density = row->density;
    material->yield = row->yield * MPa;
    material->tensile = row->tensile * MPa;
    material->expansion = row->expansion;
    material->welded_yield = row->welded_yield * MPa;
    material->welded_tensile = row->welded_tensile * MPa;
    trivet__text_copy(material->name, sizeof material->name, row->name);
    trivet__text_copy(material->source, sizeof material->source, row->source);
}

trivet_status trivet_material_at(int32_t index, trivet_material *material_out)
{
    if (!material_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (material_out->size != sizeof *material_out) {
        return TRIVET_BAD_SIZE;
    }
    trivet_material_defaults(material_out, sizeof *material_out);
    if (index < 0 || index >= MATERIAL_COUNT) {
        return TRIVET_BAD_INDEX;
    }
    fill_from_row(&material_rows[index], material_out);
    return TRIVET_OK;
}

static const material_row *find_row(const char *name)
{
    const char *wish = name;
    for (size_t i = 0; i < sizeof other_names / sizeof other_names[0]; i++) {
        wish = trivet__same_name(name, other_names[i].name) ? other_names[i].row : wish;
    }
    for (int32_t i = 0; i < MATERIAL_COUNT; i++) {
        if (trivet__same_name(wish, material_rows[i].name)) {
            return &material_rows[i];
        }
    }
    return NULL;
}

static trivet_status refuse_name(const char *name, trivet_message *message)
{
    trivet__nearest search = {name, NULL, 0.0};
    for (int32_t i = 0; i < MATERIAL_COUNT; i++) {
        trivet__nearest_offer(&search, material_rows[i].name);
    }
    trivet__refuse(message, TRIVET_BAD_NAME, name, "no built-in material has this name",
                   "list them with trivet stock, or give E, G, density, yield and the rest");
    if (search.nearest) {
        trivet__message_remedy(message, "did you mean \"%s\"?", search.nearest);
    }
    return TRIVET_BAD_NAME;
}

trivet_status trivet_material_find(const char *name, trivet_material *material_out,
                                   trivet_message *message)
{
    trivet_message_clear(message);
    if (!name || !material_out) {
        return trivet__missing(message, name ? "material_out" : "name");
    }
    const trivet_status status =
        trivet__size_check(material_out->size, sizeof *material_out, "material",
                           "fill it with trivet_material_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet_material_defaults(material_out, sizeof *material_out);
    const material_row *const row = find_row(name);
    if (!row) {
        return refuse_name(name, message);
    }
    fill_from_row(row, material_out);
    return TRIVET_OK;
}
