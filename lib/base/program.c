/*
 * Expressions as programs: written down by the reader while it works, run on a small stack with the
 * reader's own arithmetic.
 */
#include "base/program.h"

#include "base/message.h"
#include "base/quantity_reader.h"
#include "base/recorder.h"

#include <assert.h>

enum { STACK_MAX = 32 };

/* How much higher the stack is behind a step. */
static int32_t rise_of(int32_t kind)
{
    if (kind == TRIVET__STEP_PUSH || kind == TRIVET__STEP_NAME) {
        return 1;
    }
    return kind == TRIVET__STEP_UNITS || kind == TRIVET__STEP_TURN ? 0 : -1;
}

void trivet__record_step(trivet__recorder *recorder, trivet__step step)
{
    if (!recorder || recorder->is_lost) {
        return;
    }
    trivet__program *const program = recorder->program;
    void *list = program->steps;
    recorder->depth += rise_of(step.kind);
    if (recorder->depth > STACK_MAX) {
        recorder->is_lost = 1;
        return;
    }
    if (!trivet__pool_make_room(recorder->pool, &list, program->count, &program->capacity,
                                sizeof *program->steps)) {
        recorder->is_lost = recorder->lacks_memory = 1;
        return;
    }
    program->steps = list;
    program->steps[program->count++] = step;
}

/* One step is enough where no name is used. */
static void fold(trivet__program *program, const trivet_quantity *value)
{
    for (size_t i = 0; i < program->count; i++) {
        if (program->steps[i].kind == TRIVET__STEP_NAME) {
            return;
        }
    }
    if (program->count > 0) {
        program->steps[0] = (trivet__step){.kind = TRIVET__STEP_PUSH, .quantity = *value};
        program->count = 1;
    }
}

trivet_status trivet__program_make(const char *text, size_t length,
                                   const trivet__quantity_hooks *hooks, trivet__pool *pool,
                                   trivet__program *program_out, trivet_quantity *quantity_out,
                                   trivet_message *message)
{
    *program_out = (trivet__program){.text = text, .length = length};
    trivet__recorder recorder = {.program = program_out, .pool = pool};
    const trivet_status status =
        trivet__quantity_record(text, length, hooks, &recorder, quantity_out, message);
    if (status == TRIVET_OK && recorder.lacks_memory) {
        program_out->count = 0;
        return trivet__no_memory(message);
    }
    if (status != TRIVET_OK || recorder.is_lost) {
        program_out->count = 0;
    }
    fold(program_out, quantity_out);
    return status;
}

static trivet_status run_step(const trivet__reader *r, const trivet__step *step,
                              trivet_quantity *top)
{
    trivet_quantity *const below = top - 1;
    switch (step->kind) {
    case TRIVET__STEP_UNITS:
        return trivet__reader_scale(r, top, &step->quantity, step->times, step->over, step->at);
    case TRIVET__STEP_ADD:
        return trivet__reader_add(r, below, top, '+', step->at);
    case TRIVET__STEP_SUBTRACT:
        return trivet__reader_add(r, below, top, '-', step->at);
    case TRIVET__STEP_MULTIPLY:
        return trivet__reader_multiply(r, below, top, '*', step->at);
    case TRIVET__STEP_DIVIDE:
        return trivet__reader_multiply(r, below, top, '/', step->at);
    case TRIVET__STEP_RAISE:
        return trivet__reader_raise(r, below, top, step->at);
    default:
        top->value *= -1.0;
        return TRIVET_OK;
    }
}

trivet_status trivet__program_run(const trivet__program *program, trivet__value_of *value_of,
                                  const void *user, trivet_quantity *quantity_out,
                                  trivet_message *message)
{
    const trivet__reader r = {.text = program->text, .length = program->length, .message = message};
    trivet_quantity stack[STACK_MAX + 1]; /* the first is never used */
    int32_t depth = 0;
    assert(program->count > 0);
    for (size_t i = 0; i < program->count; i++) {
        const trivet__step *const step = &program->steps[i];
        depth += step->kind == TRIVET__STEP_PUSH || step->kind == TRIVET__STEP_NAME;
        if (step->kind == TRIVET__STEP_PUSH) {
            stack[depth] = step->quantity;
        } else if (step->kind == TRIVET__STEP_NAME) {
            stack[depth] = *value_of(user, step->number);
        } else {
            assert(depth > 0);
            const trivet_status status = run_step(&r, step, &stack[depth]);
            if (status != TRIVET_OK) {
                return status;
            }
            depth += rise_of(step->kind);
        }
    }
    *quantity_out = stack[depth];
    return TRIVET_OK;
}
