/*
 * Documents from text in tests.
 */
#ifndef TRIVET_TESTS_READ_TEXT_H
#define TRIVET_TESTS_READ_TEXT_H

#include "support/frames.h"
#include "trivet/document.h"

#include <check.h>
#include <string.h>

/* Reads text that must be good. Free the document. */
static inline trivet_document *read_good(const char *text)
{
    trivet_message message;
    trivet_document *document = NULL;
    must(trivet_document_read_text(text, strlen(text), &document, &message), &message);
    ck_assert_ptr_nonnull(document);
    ck_assert_int_eq(message.status, TRIVET_OK);
    return document;
}

/* A document with all its answers, by its own limits. */
typedef struct answered {
    trivet_document *document;
    trivet_result *result;
    trivet_checks *checks;
} answered;

static inline answered answer_good(const char *text)
{
    answered it = {read_good(text), NULL, NULL};
    const trivet_frame *const frame = trivet_document_frame(it.document);
    trivet_limits limits;
    trivet_message message;
    ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
    ck_assert_int_eq(trivet_document_limits(it.document, &limits), TRIVET_OK);
    it.result = must_solve(frame);
    must(trivet_checks_new(frame, it.result, &limits, &it.checks, &message), &message);
    return it;
}

static inline void free_answered(answered *it)
{
    trivet_checks_free(it->checks);
    trivet_result_free(it->result);
    trivet_document_free(it->document);
}

static inline int32_t find_thing(const trivet_document *document, int32_t kind, const char *name)
{
    int32_t index = -1;
    ck_assert_int_eq(trivet_frame_find(trivet_document_frame(document), kind, name, &index, NULL),
                     TRIVET_OK);
    return index;
}

/* An arm of 300 mm, held at A, with its tip at B: the rest is appended. */
#define ARM                                                                                        \
    "trivet: 1\n"                                                                                  \
    "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"                           \
    "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"                                                  \
    "tubes: {arm: {through: [A, B], stock: rail}}\n"                                               \
    "mounts: {A: {hold: all}}\n"

#define PARKED "cases: {parked: {gravity: [0, 0, -1]}}\n"

#endif
