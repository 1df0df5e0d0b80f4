/*
 * Stock in a frame: a profile of a material, its section solved once.
 */
#include "base/defaults.h"
#include "base/memory.h"
#include "frame/bolts.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* A strength that may be unknown: NaN. */
static trivet_status check_if_known(double value, trivet__number_of of, trivet_message *message)
{
    return isnan(value) ? TRIVET_OK : trivet__not_negative_check(value, of, message);
}

static trivet_status check_numbers(const char *name, const trivet_material *material,
                                   trivet_message *message)
{
    trivet__number_of of = {"stock", name, "modulus of elasticity E", TRIVET_STRESS};
    trivet_status status = trivet__positive_check(material->E, of, message);
    if (status == TRIVET_OK) {
        of.what = "shear modulus G";
        status = trivet__positive_check(material->G, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "yield strength";
        status = trivet__not_negative_check(material->yield, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "yield strength beside welds";
        status = trivet__not_negative_check(material->welded_yield, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "tensile strength";
        status = check_if_known(material->tensile, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "tensile strength beside welds";
        status = check_if_known(material->welded_tensile, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "density";
        of.dimension = TRIVET_DENSITY;
        status = trivet__positive_check(material->density, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "thermal expansion";
        of.dimension = TRIVET_EXPANSION;
        status = trivet__numbers_check(&material->expansion, 1, of, message);
    }
    return status;
}

static trivet_status check_material(const char *name, const trivet_material *material,
                                    trivet_message *message)
{
    const trivet_status status = trivet__size_check(material->size, sizeof *material, "material",
                                                    "fill it with its defaults first", message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "stock %s", name);
        return status;
    }
    if (!trivet__is_text(material->name, sizeof material->name) ||
        !trivet__is_text(material->source, sizeof material->source)) {
        return trivet__refuse_thing(message, TRIVET_BAD_NAME, "stock", name,
                                    "the material's name or source is not UTF-8 text",
                                    "write it in UTF-8 and close it with zero");
    }
    return check_numbers(name, material, message);
}

/* Sizes may be fine one by one and still give a section that cannot be reckoned with. */
static trivet_status check_section(const char *name, const trivet_section *section,
                                   trivet_message *message)
{
    const double needed[] = {section->area, section->second_moment[0], section->second_moment[1],
                             section->torsion_constant};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (!(needed[i] > 0.0) || !(needed[i] <= TRIVET__NUMBER_MOST)) {
            return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "stock", name,
                                        "its sizes give a section of no or of endless stiffness",
                                        "check the sizes and their units");
        }
    }
    return TRIVET_OK;
}

/* Room for the sections of all stock and one more. A copy of a frame has none at first. */
static int make_known_room(trivet_frame *frame)
{
    const size_t needed = (size_t)frame->stock_count + 1;
    if (needed <= frame->known_capacity) {
        return 1;
    }
    void *const wider = trivet__retake(frame->known, 2 * needed, sizeof *frame->known);
    if (!wider) {
        return 0;
    }
    frame->known = wider;
    frame->known_capacity = 2 * needed;
    return 1;
}

void trivet__keep_sections(trivet_frame *frame)
{
    const size_t room = frame->known_capacity; /* of a copy: none */
    frame->known_count = (size_t)frame->stock_count <= room ? frame->stock_count : 0;
    for (int32_t i = 0; i < frame->known_count; i++) {
        memcpy(&frame->known[i].profile, &frame->stocks[i].profile, sizeof frame->known[i].profile);
        frame->known[i].section = frame->stocks[i].section;
    }
}

static trivet_status solve_section(const trivet_frame *frame, int32_t index,
                                   const trivet_profile *profile, trivet_section *section,
                                   trivet_message *message)
{
    const trivet__known_section *const known =
        index < frame->known_count ? &frame->known[index] : NULL;
    if (known && trivet__are_same(&known->profile, profile, sizeof *profile)) {
        *section = known->section;
        return TRIVET_OK;
    }
    const trivet_status status = trivet_section_defaults(section, sizeof *section);
    return status == TRIVET_OK ? trivet_section_solve(profile, section, message) : status;
}

/* Fills *made from what a caller gives for stock number index, or refuses. */
static trivet_status make_stock(const trivet_frame *frame, int32_t index,
                                const trivet_profile *profile, const trivet_material *material,
                                trivet__stock *made, const char *name, trivet_message *message)
{
    trivet_status status = check_material(name, material, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = solve_section(frame, index, profile, &made->section, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "stock %s", name);
        return status;
    }
    memcpy(&made->profile, profile, sizeof made->profile); /* with what lies between members */
    made->material = *material;
    return check_section(name, &made->section, message);
}

trivet_status trivet_frame_add_stock(trivet_frame *frame, const char *name,
                                     const trivet_profile *profile, const trivet_material *material,
                                     int32_t *stock_out, trivet_message *message)
{
    if (stock_out) {
        *stock_out = -1;
    }
    if (!frame || !profile || !material) {
        return trivet__missing(message, !frame ? "frame" : !profile ? "profile" : "material");
    }
    trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_STOCK, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__stock made;
    memset(&made, 0, sizeof made);
    status = make_stock(frame, frame->stock_count, profile, material, &made, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!make_known_room(frame)) {
        return trivet__no_memory(message);
    }
    trivet__stock *const stocks = trivet__grown(&frame->pool, frame->stocks, frame->stock_count,
                                                &frame->stock_capacity, sizeof *stocks);
    if (!stocks) {
        return trivet__no_memory(message);
    }
    frame->stocks = stocks;
    made.name = trivet__names_add(&frame->stock_names, &frame->pool, name, frame->stock_count);
    if (!made.name) {
        return trivet__no_memory(message);
    }
    stocks[frame->stock_count] = made;
    if (stock_out) {
        *stock_out = frame->stock_count;
    }
    frame->stock_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_set_stock(trivet_frame *frame, int32_t stock,
                                     const trivet_profile *profile, const trivet_material *material,
                                     trivet_message *message)
{
    if (!frame || !profile || !material) {
        return trivet__missing(message, !frame ? "frame" : !profile ? "profile" : "material");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_STOCK, stock, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__stock made;
    memset(&made, 0, sizeof made);
    made.name = frame->stocks[stock].name;
    status = make_stock(frame, stock, profile, material, &made, made.name, message);
    if (status == TRIVET_OK) {
        status = trivet__bolts_stock_check(frame, stock, &made.profile, message);
    }
    if (status == TRIVET_OK) {
        frame->stocks[stock] = made;
        trivet__bolts_follow_stock(frame, stock);
    }
    return status;
}

static const trivet__stock *find_stock(const trivet_frame *frame, int32_t stock)
{
    return frame && stock >= 0 && stock < frame->stock_count ? &frame->stocks[stock] : NULL;
}

const trivet_section *trivet_frame_section(const trivet_frame *frame, int32_t stock)
{
    const trivet__stock *const found = find_stock(frame, stock);
    return found ? &found->section : NULL;
}

const trivet_profile *trivet_frame_profile(const trivet_frame *frame, int32_t stock)
{
    const trivet__stock *const found = find_stock(frame, stock);
    return found ? &found->profile : NULL;
}

const trivet_material *trivet_frame_material(const trivet_frame *frame, int32_t stock)
{
    const trivet__stock *const found = find_stock(frame, stock);
    return found ? &found->material : NULL;
}

double trivet__stock_mass_per_length(const trivet__stock *stock)
{
    const double given = stock->section.mass_per_length;
    return given > 0.0 ? given : stock->section.area * stock->material.density;
}
