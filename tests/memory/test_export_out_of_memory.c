/*
 * Every hand-over with each of its requests for memory failing in turn, and reading a file whose
 * deck has a plate.
 *
 * usage: test_export_out_of_memory FILE   (a short one, with a deck that can be cut)
 */
#include "every_request.h"
#include "failing_heap.h"

#include <trivet/document.h>
#include <trivet/report_export.h>

#include <stddef.h>

static struct {
    trivet_document *document;
    const trivet_frame *frame;
    trivet_result *result;
    trivet_checks *checks;
    trivet_cuts *cuts;
    int32_t table;
} ready;

/* FNV-1a over the bytes, which are freed. */
static uint64_t print_of(trivet_status status, char *bytes, size_t length)
{
    uint64_t print = 14695981039346656037U;
    attempt_needs((status == TRIVET_OK) == (bytes != NULL), "half-made file");
    attempt_needs(bytes || length == 0, "a length of nothing");
    for (size_t i = 0; bytes && i < length; i++) {
        print = (print ^ (unsigned char)bytes[i]) * 1099511628211U;
    }
    trivet_text_free(bytes);
    return status == TRIVET_OK ? print : 0;
}

static uint64_t export_vtu(attempt *try)
{
    char *bytes = NULL;
    size_t length = 0;
    trivet_status status = TRIVET_OK;
    ATTEMPT(
        try, status,
        trivet_export_vtu(ready.frame, ready.result, ready.checks, &bytes, &length, &try->message));
    return print_of(status, bytes, length);
}

static uint64_t export_glb(attempt *try)
{
    char *bytes = NULL;
    size_t length = 0;
    trivet_status status = TRIVET_OK;
    ATTEMPT(
        try, status,
        trivet_export_glb(ready.frame, ready.result, ready.checks, &bytes, &length, &try->message));
    return print_of(status, bytes, length);
}

static uint64_t export_dxf(attempt *try)
{
    char *bytes = NULL;
    size_t length = 0;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_export_dxf(ready.frame, &bytes, &length, &try->message));
    return print_of(status, bytes, length);
}

static uint64_t export_table(attempt *try)
{
    char *bytes = NULL;
    size_t length = 0;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status,
            trivet_export_csv(ready.frame, ready.result, ready.checks, ready.table, &bytes, &length,
                              &try->message));
    return print_of(status, bytes, length);
}

static uint64_t export_cut_table(attempt *try)
{
    char *bytes = NULL;
    size_t length = 0;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status,
            trivet_export_cuts_csv(ready.frame, ready.cuts, ready.table, &bytes, &length,
                                   &try->message));
    return print_of(status, bytes, length);
}

/* A plate that is set anew leaves the frame as it was if there is no memory. */
static uint64_t set_plate(attempt *try)
{
    static const double corners[] = {-1.0, -1.0, 2.0, -1.0, 2.0, 2.0, -1.0, 2.0};
    static const trivet_slot slot = {{0.1, 0.1}, {0.2, 0.1}, 0.01};
    trivet_frame *copy = NULL;
    trivet_plate plate;
    trivet_status status = TRIVET_OK;
    attempt_needs(trivet_plate_defaults(&plate, sizeof plate) == TRIVET_OK, "no defaults");
    plate.corners = corners;
    plate.corner_count = 4;
    plate.slots = &slot;
    plate.slot_count = 1;
    ATTEMPT(try, status, trivet_frame_copy(ready.frame, &copy, &try->message));
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_set_plate(copy, 0, &plate, &try->message));
    }
    trivet_plate said = {.size = sizeof said};
    if (status == TRIVET_OK) {
        attempt_needs(trivet_frame_plate(copy, 0, &said) == TRIVET_OK, "no plate");
    }
    const uint64_t print = (uint64_t)said.corner_count;
    trivet_frame_free(copy);
    return print;
}

int main(int count, char **arguments)
{
    trivet_message message;
    attempt_needs(count == 2, "usage: test_export_out_of_memory FILE");
    heap_start(0);
    attempt_needs(trivet_document_read_file(arguments[1], &ready.document, &message) == TRIVET_OK,
                  "the file cannot be read");
    ready.frame = trivet_document_frame(ready.document);
    attempt_needs(!trivet_frame_solve(ready.frame, &ready.result, &message) &&
                      !trivet_checks_new(ready.frame, ready.result, NULL, &ready.checks, &message),
                  "the file cannot be solved");
    attempt_every_request("VTU", export_vtu, 5);
    attempt_every_request("glTF", export_glb, 20);
    attempt_every_request("DXF", export_dxf, 8);
    for (ready.table = 0; trivet_export_table(ready.table); ready.table++) {
        attempt_every_request(trivet_export_table(ready.table), export_table, 1);
    }
    attempt_needs(trivet_cuts_new(ready.frame, NULL, &ready.cuts, &message) == TRIVET_OK,
                  "the frame cannot be cut");
    for (ready.table = 0; trivet_export_cut_table(ready.table); ready.table++) {
        attempt_every_request(trivet_export_cut_table(ready.table), export_cut_table, 1);
    }
    trivet_cuts_free(ready.cuts);
    attempt_every_request("plate", set_plate, 10);
    trivet_checks_free(ready.checks);
    trivet_result_free(ready.result);
    trivet_document_free(ready.document);
    return 0;
}
