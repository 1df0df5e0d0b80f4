/*
 * Tables of the frame as it is: joints, tubes, sections, cases, bolts, inserts, cargo,
 * plates.
 */
#include "report/export_csv.h"

#include <math.h>

enum { TEXT_MAX = 1024 };

trivet_status trivet__csv_joints(const trivet__handed *of, trivet__csv *csv)
{
    const int32_t count = trivet_frame_count(of->frame, TRIVET_KIND_JOINT);
    for (int32_t i = 0; i < count; i++) {
        trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_JOINT, i));
        trivet__csv_numbers(csv, trivet_frame_position(of->frame, i), 3);
        trivet__csv_number(csv, trivet_frame_droop_limit(of->frame, i));
        trivet__csv_end_row(csv);
    }
    return TRIVET_OK;
}

trivet_status trivet__csv_tubes(const trivet__handed *of, trivet__csv *csv)
{
    const trivet_frame *const frame = of->frame;
    const int32_t count = trivet_frame_count(frame, TRIVET_KIND_TUBE);
    for (int32_t i = 0; i < count; i++) {
        int32_t joint_count = 0;
        int32_t verdict = TRIVET_NOT_CHECKED;
        const int32_t *const joints = trivet_frame_tube_joints(frame, i, &joint_count);
        const double used = trivet__tube_used(of->checks, i, &verdict);
        trivet__csv_text(csv, trivet_frame_name(frame, TRIVET_KIND_TUBE, i));
        trivet__csv_whole(csv, i);
        trivet__csv_text(
            csv, trivet_frame_name(frame, TRIVET_KIND_STOCK, trivet_frame_tube_stock(frame, i)));
        trivet__csv_text(csv, trivet_frame_name(frame, TRIVET_KIND_JOINT, joints[0]));
        trivet__csv_text(csv, trivet_frame_name(frame, TRIVET_KIND_JOINT, joints[joint_count - 1]));
        trivet__csv_number(csv, trivet_frame_tube_length(frame, i));
        trivet__csv_number(csv, trivet_frame_tube_mass(frame, i));
        trivet__csv_number(csv, used < 0.0 ? (double)NAN : used);
        trivet__csv_text(csv, trivet_verdict_text(verdict));
        trivet__csv_end_row(csv);
    }
    return TRIVET_OK;
}

trivet_status trivet__csv_sections(const trivet__handed *of, trivet__csv *csv)
{
    const int32_t count = trivet_frame_count(of->frame, TRIVET_KIND_STOCK);
    for (int32_t i = 0; i < count; i++) {
        const trivet_section *const section = trivet_frame_section(of->frame, i);
        const trivet_material *const material = trivet_frame_material(of->frame, i);
        const double mass = section->mass_per_length > 0.0 ? section->mass_per_length
                                                           : section->area * material->density;
        char shape[TEXT_MAX];
        trivet_profile_text(trivet_frame_profile(of->frame, i), NULL, shape, sizeof shape);
        trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_STOCK, i));
        trivet__csv_text(csv, shape);
        trivet__csv_text(csv, material->name);
        trivet__csv_number(csv, section->area);
        trivet__csv_numbers(csv, section->shear_area, 2);
        trivet__csv_numbers(csv, section->second_moment, 2);
        trivet__csv_number(csv, section->product_moment);
        trivet__csv_numbers(csv, section->elastic_modulus, 2);
        trivet__csv_numbers(csv, section->plastic_modulus, 2);
        trivet__csv_number(csv, section->torsion_constant);
        trivet__csv_number(csv, section->torsion_modulus);
        trivet__csv_numbers(csv, section->radius_of_gyration, 2);
        trivet__csv_number(csv, mass);
        trivet__csv_number(csv, material->E);
        trivet__csv_number(csv, material->G);
        trivet__csv_number(csv, material->density);
        trivet__csv_number(csv, material->yield > 0.0 ? material->yield : (double)NAN);
        trivet__csv_number(csv, material->tensile);
        trivet__csv_end_row(csv);
    }
    return TRIVET_OK;
}

trivet_status trivet__csv_cases(const trivet__handed *of, trivet__csv *csv)
{
    for (int32_t column = 0; column < of->case_count; column++) {
        char text[TEXT_MAX];
        trivet_case_text(of->frame, column, NULL, text, sizeof text);
        trivet__csv_text(csv, trivet_frame_column_name(of->frame, column));
        trivet__csv_text(csv, text);
        trivet__csv_end_row(csv);
    }
    return TRIVET_OK;
}

trivet_status trivet__csv_bolts(const trivet__handed *of, trivet__csv *csv)
{
    const int32_t count = trivet_frame_bolts_count(of->frame);
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        trivet_bolts bolts = {.size = sizeof bolts};
        trivet_torque torque = {.size = sizeof torque};
        char text[TEXT_MAX];
        status = trivet_frame_bolts(of->frame, i, &bolts);
        if (status == TRIVET_OK) {
            status = trivet_frame_torque(of->frame, i, &torque);
        }
        trivet_bolts_place_text(of->frame, i, text, sizeof text);
        trivet__csv_text(csv, text);
        trivet_bolts_text(of->frame, i, NULL, text, sizeof text);
        trivet__csv_text(csv, text);
        trivet__csv_whole(csv, bolts.count);
        trivet__csv_number(csv, torque.said);
        trivet__csv_number(csv, torque.table);
        trivet__csv_number(csv, torque.allowed);
        trivet__csv_text(csv, trivet_weakest_text(torque.weakest));
        trivet__csv_number(csv, torque.preload);
        trivet__csv_number(csv, torque.least);
        trivet__csv_number(csv, torque.most);
        trivet__csv_end_row(csv);
    }
    return status;
}

trivet_status trivet__csv_inserts(const trivet__handed *of, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t tube = 0; tube < trivet_frame_count(of->frame, TRIVET_KIND_TUBE); tube++) {
        const int32_t count = trivet_frame_insert_count(of->frame, tube);
        for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
            trivet_insert insert = {.size = sizeof insert};
            status = trivet_frame_insert(of->frame, tube, i, &insert);
            trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_TUBE, tube));
            trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_JOINT, insert.joint));
            trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_STOCK, insert.stock));
            trivet__csv_number(csv, insert.length);
            trivet__csv_end_row(csv);
        }
    }
    return status;
}

trivet_status trivet__csv_cargo(const trivet__handed *of, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    const int32_t count = trivet_frame_count(of->frame, TRIVET_KIND_CARGO);
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        trivet_cargo cargo = {.size = sizeof cargo};
        status = trivet_frame_cargo(of->frame, i, &cargo);
        const char *const name = trivet_frame_name(of->frame, TRIVET_KIND_CARGO, i);
        for (int32_t k = 0; k < cargo.item_count; k++) {
            double mass = 0.0;
            trivet__csv_text(csv, name);
            trivet__csv_text(csv, trivet_frame_item(of->frame, i, k, &mass));
            trivet__csv_number(csv, mass);
            trivet__csv_end_row(csv);
        }
        if (cargo.item_count == 0) {
            trivet__csv_text(csv, name);
            trivet__csv_text(csv, NULL);
            trivet__csv_number(csv, cargo.mass);
            trivet__csv_end_row(csv);
        }
    }
    return status;
}

/* A hole has one place, a slot the middles of its two round ends. */
static void write_plate_row(trivet__csv *csv, const char *deck, const char *what, int32_t number,
                            const double from[2], const double *to, double wide)
{
    trivet__csv_text(csv, deck);
    trivet__csv_text(csv, what);
    trivet__csv_whole(csv, number);
    trivet__csv_numbers(csv, from, 2);
    trivet__csv_number(csv, to ? to[0] : (double)NAN);
    trivet__csv_number(csv, to ? to[1] : (double)NAN);
    trivet__csv_number(csv, wide);
    trivet__csv_end_row(csv);
}

trivet_status trivet__csv_plates(const trivet__handed *of, trivet__csv *csv)
{
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_DECK); i++) {
        const char *const name = trivet_frame_name(of->frame, TRIVET_KIND_DECK, i);
        trivet_cutting *cutting = NULL;
        int32_t count = 0;
        const trivet_status status = trivet_cutting_new(of->frame, i, &cutting, NULL);
        if (status == TRIVET_NO_MEMORY) {
            return status;
        }
        if (status != TRIVET_OK) {
            continue; /* a plate that cannot be laid out has no row, as in DXF */
        }
        const double *const holes = trivet_cutting_holes(cutting, &count);
        for (int32_t k = 0; k < count; k++) {
            const double *const hole = holes + 3 * (size_t)k;
            write_plate_row(csv, name, "hole", k + 1, hole, NULL, hole[2]);
        }
        const trivet_slot *const slots = trivet_cutting_slots(cutting, &count);
        for (int32_t k = 0; k < count; k++) {
            write_plate_row(csv, name, "slot", k + 1, slots[k].from, slots[k].to, slots[k].width);
        }
        trivet_cutting_free(cutting);
    }
    return TRIVET_OK;
}
