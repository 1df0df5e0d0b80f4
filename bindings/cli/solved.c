/*
 * A file read, solved and checked.
 */
#include "solved.h"

#include "pages.h"
#include "print.h"

trivet_status solved_read(const char *path, solved *all, trivet_message *message)
{
    trivet_status status = trivet_document_read_file(path, &all->document, message);
    if (status == TRIVET_OK) {
        status = read_settings(all->document, &all->units, &all->limits);
    }
    all->frame = trivet_document_frame(all->document);
    return status;
}

trivet_status solved_make(const char *path, solved *all, trivet_message *message)
{
    trivet_status status = solved_read(path, all, message);
    if (status == TRIVET_OK) {
        status = trivet_frame_solve(all->frame, &all->result, message);
    }
    if (status == TRIVET_OK) {
        status = trivet_checks_new(all->frame, all->result, &all->limits, &all->checks, message);
    }
    return status;
}

void solved_free(solved *all)
{
    trivet_checks_free(all->checks);
    trivet_result_free(all->result);
    trivet_document_free(all->document);
}

int solved_fail(const options *given, trivet_status status, const trivet_message *message)
{
    return message->status == TRIVET_OK ? fail_status(given, given->operand, status)
                                        : fail(given, given->operand, message);
}
