#include "crack_beam.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

double million(double category)
{
    return category * 1e6 * cbrt(2.0) / 1.35;
}

void add_cycles(beam *of, const char *name, int32_t from, int32_t to, double count)
{
    trivet_cycles cycles;
    DO(trivet_cycles_defaults(&cycles, sizeof cycles));
    cycles.from = from;
    cycles.to = to;
    cycles.count = count;
    DO(trivet_frame_add_cycles(of->frame, name, &cycles, NULL, NULL));
}

trivet_weld weld_of(int32_t kind)
{
    trivet_weld weld;
    DO(trivet_weld_defaults(&weld, sizeof weld));
    weld.kind = kind;
    return weld;
}

void set_weld(beam *of, int32_t tube, int32_t joint, trivet_weld weld)
{
    DO(trivet_frame_set_weld(of->frame, tube, joint, &weld, NULL));
}

int count_cracks(const beam *of, const char *subject, const char *tube, const char *joint,
                 trivet_check *worst_out)
{
    int count = 0;
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check at = {.size = sizeof at};
        DO(trivet_checks_at(of->checks, i, &at));
        if (strcmp(at.check, "cracking") != 0 || strcmp(at.where, tube) != 0 ||
            strcmp(trivet_frame_name(of->frame, TRIVET_KIND_JOINT, at.joint), joint) != 0 ||
            (subject && strcmp(at.subject, subject) != 0)) {
            continue;
        }
        ck_assert_int_eq(at.line, TRIVET_LINE_CRACKING);
        ck_assert_int_eq(at.case_index, -1);
        if (count++ == 0 && worst_out) {
            *worst_out = at;
        }
    }
    return count;
}

int cracks_at(const beam *of, const char *tube, const char *joint, trivet_check *worst_out)
{
    return count_cracks(of, NULL, tube, joint, worst_out);
}

trivet_check crack_of(const beam *of, const char *subject)
{
    trivet_check found = {.size = sizeof found};
    ck_assert_int_eq(count_cracks(of, subject, "rail", "A", &found), 1);
    return found;
}

trivet_check crack_at(const beam *of, const char *tube, const char *joint)
{
    trivet_check found = {.size = sizeof found};
    ck_assert_int_eq(cracks_at(of, tube, joint, &found), 1);
    return found;
}

beam bent(trivet_profile profile, double down, const trivet_weld *weld)
{
    beam of = beam_cantilever(profile, 235e6, 0.5, down);
    if (weld) {
        set_weld(&of, 0, 0, *weld);
    }
    add_cycles(&of, "bumps", -1, 0, 1e6);
    return of;
}

double nominal_of_tube(trivet_profile profile)
{
    trivet_section section;
    DO(trivet_section_defaults(&section, sizeof section));
    DO(trivet_section_solve(&profile, &section, NULL));
    return 10.0 / section.elastic_modulus[0];
}

void add_bolts(beam *of, int32_t clamped, int32_t stock, int32_t into)
{
    trivet_bolts bolts;
    DO(trivet_bolts_defaults(&bolts, sizeof bolts));
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.clamped = clamped;
    bolts.into = into;
    bolts.clamped_stock = clamped == TRIVET_CLAMPED_SOLID ? -1 : stock;
    bolts.into_stock = into == TRIVET_INTO_NUT ? -1 : stock;
    snprintf(bolts.thread, sizeof bolts.thread, "M8");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
    DO(trivet_frame_add_bolts(of->frame, &bolts, NULL, NULL));
}
