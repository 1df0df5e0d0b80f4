/*
 * The working of a check: tables of lines that are the same for all checks of a kind, beside the
 * numbers of each.
 */
#include "base/memory.h"
#include "checks/check_record.h"

#include <assert.h>
#include <string.h>

/* Room for count more numbers. */
static int make_values(trivet__making *making, int32_t count)
{
    trivet_checks *const checks = making->checks;
    const size_t needed = (size_t)checks->value_count + (size_t)count;
    int has_room = needed <= INT32_MAX;
    while (has_room && checks->value_capacity < needed) {
        void *list = checks->values;
        has_room = trivet__make_room(&list, checks->value_capacity, &checks->value_capacity,
                                     sizeof *checks->values);
        checks->values = list;
    }
    making->status = has_room ? making->status : TRIVET_NO_MEMORY;
    return has_room;
}

void trivet__record_table(trivet__making *making, trivet__record *record,
                          const trivet__table *table, const double *values)
{
    trivet_checks *const checks = making->checks;
    if (record == &making->spare || !make_values(making, table->count)) {
        return;
    }
    assert(record->table_count < TRIVET__TABLES_MAX);
    if (record->table_count == 0) {
        record->first_value = checks->value_count;
    }
    assert(record->first_value + record->check.step_count == checks->value_count);
    record->tables[record->table_count++] = table;
    record->check.step_count += table->count;
    memcpy(checks->values + checks->value_count, values, (size_t)table->count * sizeof *values);
    checks->value_count += table->count;
}

static const trivet__line *find_line(const trivet__record *record, int32_t step)
{
    int32_t left = step;
    for (int32_t i = 0; i < record->table_count; i++) {
        if (left < record->tables[i]->count) {
            return &record->tables[i]->lines[left];
        }
        left -= record->tables[i]->count;
    }
    return NULL;
}

trivet_status trivet_checks_step(const trivet_checks *checks, int32_t index, int32_t step,
                                 trivet_step *step_out)
{
    if (!checks || !step_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    trivet_step filled;
    if (trivet_step_defaults(&filled, step_out->size) != TRIVET_OK) {
        return TRIVET_BAD_SIZE;
    }
    if (index < 0 || index >= checks->count) {
        return TRIVET_BAD_INDEX;
    }
    const trivet__record *const record = trivet__checks_record(checks, index);
    if (step < 0 || step >= record->check.step_count) {
        return TRIVET_BAD_INDEX;
    }
    const trivet__line *const line = find_line(record, step);
    assert(line);
    if (!line) {
        return TRIVET_INTERNAL;
    }
    filled.symbol = line->symbol;
    filled.meaning = line->meaning;
    filled.formula = line->formula;
    filled.source = line->source ? line->source : record->material_source;
    filled.value = checks->values[record->first_value + step];
    filled.dimension = line->dimension;
    memcpy(step_out, &filled, filled.size);
    return TRIVET_OK;
}
