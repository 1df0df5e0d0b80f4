/*
 * Tables of the result and its checks: reactions, movements, forces at the ends of spans, checks,
 * droop, mounts, what was not checked.
 */
#include "report/export_csv.h"

/* What joints or mounts have six numbers of, case by case. */
static void write_sixes(const trivet__handed *of, trivet__csv *csv, int32_t kind,
                        const double *values, int32_t count)
{
    for (int32_t column = 0; column < of->case_count; column++) {
        for (int32_t i = 0; i < count; i++) {
            trivet__csv_text(csv, trivet_frame_column_name(of->frame, column));
            trivet__csv_text(csv, trivet_frame_name(of->frame, kind, i));
            trivet__csv_numbers(csv, values, 6);
            trivet__csv_end_row(csv);
            values += 6;
        }
    }
}

trivet_status trivet__csv_reactions(const trivet__handed *of, trivet__csv *csv)
{
    write_sixes(of, csv, TRIVET_KIND_MOUNT, of->reactions, of->mount_count);
    return TRIVET_OK;
}

trivet_status trivet__csv_movements(const trivet__handed *of, trivet__csv *csv)
{
    write_sixes(of, csv, TRIVET_KIND_JOINT, of->moves, of->joint_count);
    return TRIVET_OK;
}

static void write_end(const trivet__handed *of, trivet__csv *csv, int32_t column,
                      const trivet_span *span, int32_t number, int is_last)
{
    const double *const ends =
        of->span_ends + 12 * ((size_t)column * (size_t)of->span_count + (size_t)number);
    const int32_t joint = is_last ? span->last_joint : span->first_joint;
    trivet__csv_text(csv, trivet_frame_column_name(of->frame, column));
    trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_TUBE, span->tube));
    trivet__csv_whole(csv, number);
    trivet__csv_text(csv, is_last ? "end" : "start");
    trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_JOINT, joint));
    trivet__csv_number(csv, span->start + (is_last ? span->length : 0.0));
    trivet__csv_numbers(csv, ends + (is_last ? 6 : 0), 6);
    trivet__csv_end_row(csv);
}

trivet_status trivet__csv_forces(const trivet__handed *of, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t column = 0; column < of->case_count; column++) {
        for (int32_t number = 0; number < of->span_count && status == TRIVET_OK; number++) {
            trivet_span span = {.size = sizeof span};
            status = trivet_result_span(of->result, number, &span);
            write_end(of, csv, column, &span, number, 0);
            write_end(of, csv, column, &span, number, 1);
        }
    }
    return status;
}

/* The SI unit of what is checked. */
static const char *unit_of(int32_t dimension)
{
    static const char *const UNITS[] = {
        [TRIVET_NUMBER] = "1",
        [TRIVET_LENGTH] = "m",
        [TRIVET_MASS] = "kg",
        [TRIVET_FORCE] = "N",
        [TRIVET_MOMENT] = "N m",
        [TRIVET_STRESS] = "Pa",
        [TRIVET_ANGLE] = "rad",
        [TRIVET_TEMPERATURE] = "K",
        [TRIVET_TIME] = "s",
        [TRIVET_FREQUENCY] = "Hz",
        [TRIVET_AREA] = "m^2",
        [TRIVET_VOLUME] = "m^3",
        [TRIVET_SECOND_MOMENT] = "m^4",
        [TRIVET_DENSITY] = "kg/m^3",
        [TRIVET_MASS_PER_LENGTH] = "kg/m",
        [TRIVET_LINE_LOAD] = "N/m",
        [TRIVET_TURN_SPRING] = "N m/rad",
        [TRIVET_EXPANSION] = "1/K",
        [TRIVET_ACCELERATION] = "m/s^2",
        [TRIVET_SPEED] = "m/s",
        [TRIVET_PER_AREA] = "1/m^2",
        [TRIVET_PER_VOLUME] = "1/m^3",
    };
    const int32_t count = (int32_t)(sizeof UNITS / sizeof UNITS[0]);
    return dimension >= 0 && dimension < count ? UNITS[dimension] : "";
}

trivet_status trivet__csv_checks(const trivet__handed *of, trivet__csv *csv)
{
    static const char *const LINES[TRIVET_LINE_COUNT] = {"overload", "cracking", "service"};
    const int32_t count = trivet_checks_count(of->checks);
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        trivet_check check = {.size = sizeof check};
        status = trivet_checks_at(of->checks, i, &check);
        if (status != TRIVET_OK) {
            return status;
        }
        trivet__csv_text(csv, check.check);
        trivet__csv_text(csv, check.subject);
        trivet__csv_text(csv, check.where);
        trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_JOINT, check.joint));
        trivet__csv_text(csv, check.in_case);
        trivet__csv_number(csv, check.at);
        trivet__csv_number(csv, check.demand);
        trivet__csv_number(csv, check.limit);
        trivet__csv_text(csv, unit_of(check.dimension));
        trivet__csv_number(csv, check.utilisation);
        trivet__csv_text(csv, trivet_verdict_text(check.verdict));
        trivet__csv_text(csv, LINES[check.line]);
        trivet__csv_text(csv, check.source);
        trivet__csv_text(csv, check.note);
        trivet__csv_end_row(csv);
    }
    return status;
}

trivet_status trivet__csv_droop(const trivet__handed *of, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t column = 0; column < of->case_count && status == TRIVET_OK; column++) {
        int32_t tube = -1;
        double at = 0.0;
        double droop = 0.0;
        status = trivet_droop_worst(of->frame, of->result, column, &tube, &at, &droop);
        trivet__csv_text(csv, trivet_frame_column_name(of->frame, column));
        trivet__csv_number(csv, droop);
        trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_TUBE, tube));
        trivet__csv_number(csv, at);
        trivet__csv_end_row(csv);
    }
    return status;
}

trivet_status trivet__csv_mounts(const trivet__handed *of, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t m = 0; m < of->mount_count && status == TRIVET_OK; m++) {
        double carried[TRIVET_CARRY_COUNT] = {0.0, 0.0, 0.0, 0.0};
        int32_t cases[TRIVET_CARRY_COUNT] = {0, 0, 0, 0};
        status = trivet_mount_carries_most(of->frame, of->result, m, carried, cases);
        trivet__csv_text(csv, trivet_frame_name(of->frame, TRIVET_KIND_MOUNT, m));
        for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
            trivet__csv_number(csv, carried[i]);
            trivet__csv_text(csv, carried[i] > 0.0 ? trivet_frame_column_name(of->frame, cases[i])
                                                   : NULL);
        }
        trivet__csv_end_row(csv);
    }
    return status;
}

trivet_status trivet__csv_omissions(const trivet__handed *of, trivet__csv *csv)
{
    const int32_t count = trivet_checks_omission_count(of->checks);
    for (int32_t i = 0; i < count; i++) {
        const char *why = NULL;
        trivet__csv_text(csv, trivet_checks_omission(of->checks, i, NULL, &why));
        trivet__csv_text(csv, why);
        trivet__csv_end_row(csv);
    }
    return TRIVET_OK;
}
