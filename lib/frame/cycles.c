/*
 * Cycles: loads that come and go between two result columns.
 */
#include "base/defaults.h"
#include "frame/border.h"
#include "frame/frame.h"

trivet_status trivet_cycles_defaults(trivet_cycles *cycles, size_t size)
{
    const trivet_status status = trivet__defaults(cycles, size, sizeof *cycles);
    if (status == TRIVET_OK) {
        cycles->from = cycles->to = -1;
        cycles->from_factor = cycles->to_factor = 1.0;
        cycles->count = 1e6;
    }
    return status;
}

static trivet_status check_column(const trivet_frame *frame, const char *name, int32_t column,
                                  int32_t least, trivet_message *message)
{
    const int64_t count = (int64_t)frame->case_count + frame->combination_count;
    if (column >= least && column < count) {
        return TRIVET_OK;
    }
    trivet__refuse_thing(message, TRIVET_BAD_INDEX, "cycles", name, "",
                         "count the cases from 0, then the combinations");
    trivet__message_problem(message,
                            "there is no result column %d, the frame has %lld cases and "
                            "combinations",
                            (int)column, (long long)count);
    return TRIVET_BAD_INDEX;
}

static trivet_status check_cycles(const trivet_frame *frame, const char *name,
                                  const trivet_cycles *cycles, trivet_message *message)
{
    trivet_status status = trivet__size_check(cycles->size, sizeof *cycles, "cycles",
                                              "fill them with their defaults first", message);
    if (status == TRIVET_OK) {
        status = trivet__new_name_check(frame, TRIVET_KIND_CYCLES, name, message);
    }
    if (status == TRIVET_OK) {
        status = check_column(frame, name, cycles->from, -1, message);
    }
    if (status == TRIVET_OK) {
        status = check_column(frame, name, cycles->to, 0, message);
    }
    trivet__number_of of = {"cycles", name, "factor", TRIVET_NUMBER};
    if (status == TRIVET_OK) {
        status = trivet__numbers_check(&cycles->from_factor, 1, of, message);
    }
    if (status == TRIVET_OK) {
        status = trivet__numbers_check(&cycles->to_factor, 1, of, message);
    }
    if (status == TRIVET_OK) {
        of.what = "number of cycles";
        status = trivet__numbers_check(&cycles->count, 1, of, message);
    }
    if (status == TRIVET_OK && !(cycles->count >= 1.0)) {
        status =
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "cycles", name,
                                 "they happen less than once", "say how many times, 1 or more");
    }
    return status;
}

trivet_status trivet_frame_add_cycles(trivet_frame *frame, const char *name,
                                      const trivet_cycles *cycles, int32_t *cycles_out,
                                      trivet_message *message)
{
    if (cycles_out) {
        *cycles_out = -1;
    }
    if (!frame || !cycles) {
        return trivet__missing(message, frame ? "cycles" : "frame");
    }
    const trivet_status status = check_cycles(frame, name, cycles, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const int32_t count = frame->cycles_count;
    trivet__cycles_named *const list =
        trivet__grown(&frame->pool, frame->cycles, count, &frame->cycles_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    frame->cycles = list;
    const char *const kept = trivet__names_add(&frame->cycles_names, &frame->pool, name, count);
    if (!kept) {
        return trivet__no_memory(message);
    }
    list[count].name = kept;
    list[count].cycles = *cycles;
    frame->cycles_count++;
    if (cycles_out) {
        *cycles_out = count;
    }
    return TRIVET_OK;
}

trivet_status trivet_frame_cycles(const trivet_frame *frame, int32_t index,
                                  trivet_cycles *cycles_out)
{
    const trivet_status status = trivet__out_check(frame, cycles_out, sizeof *cycles_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (index < 0 || index >= frame->cycles_count) {
        return TRIVET_BAD_INDEX;
    }
    *cycles_out = frame->cycles[index].cycles;
    return TRIVET_OK;
}
