/*
 * What happens if a bolt or a mount is lost: each in turn is taken away, and what is left is solved
 * and checked in full. A mount that lost one of several bolts holds as before; the bolts that are
 * left carry it. About which line a frame swings is told by statics, which way by loss_way.c.
 */
#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "base/vec3.h"
#include "checks/check_record.h"
#include "checks/loss_way.h"
#include "frame/bolts.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

enum {
    HOW_MAX = (int)TRIVET_THING_MAX + (int)TRIVET_PROBLEM_MAX,
    LOST_NAME_MAX = (int)TRIVET_NAME_MAX + 40
};

typedef struct lost {
    trivet_loss loss;
    char name[LOST_NAME_MAX]; /* "mount FL", "bolt 2 of mount FL" */
    trivet_frame *frame;      /* what is left; the checks point to its texts */
    trivet_checks *checks;    /* NULL if it swings */
    int32_t worst;            /* number of the check that is used most; -1 */
    int32_t is_moment_left;   /* a moment on the bolts that are left is not counted */
    char how[HOW_MAX];        /* "free to swing about the line through FL and FR" */
    char way[TRIVET__WAY_MAX];
} lost;

struct trivet_losses {
    lost *list;
    int32_t count;
};

trivet_status trivet_loss_defaults(trivet_loss *loss, size_t size)
{
    return trivet__defaults(loss, size, sizeof *loss);
}

/* The worst check that the loss has a hand in. */
static void judge(lost *into)
{
    double most = -1.0;
    into->worst = -1;
    for (int32_t i = 0; i < into->checks->count; i++) {
        const trivet_check *const check = &trivet__checks_record(into->checks, i)->check;
        const int is_vehicle = check->where_kind == 0;
        if (!is_vehicle && !trivet__is_fixed(check) && !(check->utilisation <= most)) {
            most = check->utilisation;
            into->worst = i;
        }
    }
    into->loss.used = fmax(most, 0.0);
    into->loss.outcome = most <= 1.0 ? TRIVET_LOSS_HELD : TRIVET_LOSS_OVERLOADED;
}

/* Whether the checks say that one bolt, or a row, was left with a moment that it cannot carry. */
static int leaves_moment(const trivet_checks *checks, const trivet_frame *frame, int32_t set)
{
    char place[TRIVET__PLACE_TEXT_MAX];
    char wanted[TRIVET__PLACE_TEXT_MAX + 32];
    trivet_bolts_place_text(frame, set, place, sizeof place);
    trivet__text_print(wanted, sizeof wanted, "moment on the bolts of %s", place);
    for (int32_t i = 0; i < checks->omission_count; i++) {
        if (strcmp(trivet_checks_omission(checks, i, NULL, NULL), wanted) == 0) {
            return 1;
        }
    }
    return 0;
}

/* Whether nothing acts in a case any more. */
static int is_empty(const trivet_frame *frame, const trivet__case *of)
{
    int is_moved = 0;
    for (ptrdiff_t i = 0; i < 6 * (ptrdiff_t)frame->mount_count; i++) {
        is_moved |= of->mount_moves[i] != 0.0;
    }
    return !is_moved && of->warm == 0.0 && !(trivet__length3(of->gravity) > 0.0) &&
           of->joint_force_count + of->cargo_force_count + of->tube_force_count +
                   of->tube_line_count ==
               0;
}

/*
 * A case that only moved the lost mount has nothing left in it; a force of zero lets it stand, so
 * that columns keep their numbers. The others stay as they are: some are known by having weight
 * alone.
 */
static trivet_status fill_empty_cases(trivet_frame *frame, trivet_message *message)
{
    static const double NOTHING[3] = {0.0, 0.0, 0.0};
    trivet_status status = TRIVET_OK;
    for (int32_t c = 0; c < frame->case_count && status == TRIVET_OK; c++) {
        if (is_empty(frame, &frame->cases[c])) {
            status = trivet_frame_add_joint_force(frame, c, 0, NOTHING, NULL, message);
        }
    }
    return status;
}

static trivet_status solve_rest(const trivet_frame *frame, trivet_result **result_out,
                                trivet_message *message)
{
    if (frame->mount_count > 0) {
        return trivet_frame_solve(frame, result_out, message);
    }
    return trivet__refuse(message, TRIVET_MOVES_FREELY, "the whole frame",
                          "is free to fall: nothing holds it any more", "");
}

/* Statuses from 30 to 39: the frame as it is cannot be solved. */
static int is_not_computable(trivet_status status)
{
    return status >= TRIVET_MOVES_FREELY && status < TRIVET_MOVES_FREELY + 10;
}

/* Keeps what the solution said: "free to swing about ...", "joints A, B are free to move ...". */
static void keep_how(lost *into, const trivet_message *said)
{
    static const char IS[] = "is ";
    if (strcmp(said->thing, "the whole frame") == 0 &&
        strncmp(said->problem, IS, sizeof IS - 1) == 0) {
        trivet__text_copy(into->how, sizeof into->how, said->problem + sizeof IS - 1);
    } else {
        trivet__text_print(into->how, sizeof into->how, "%s %s", said->thing, said->problem);
    }
}

/* Solves and checks what is left in into->frame; frame is the whole one. */
static trivet_status try_rest(const trivet_frame *frame, const trivet_limits *limits, int32_t set,
                              lost *into, trivet_message *message)
{
    trivet_message said;
    trivet_result *result = NULL;
    trivet_message_clear(&said);
    trivet_status status = solve_rest(into->frame, &result, &said);
    if (is_not_computable(status)) {
        into->loss.outcome = TRIVET_LOSS_SWINGS;
        into->loss.used = (double)NAN;
        keep_how(into, &said);
        return trivet__loss_way(frame, into->loss.mount, into->loss.direction, into->way, message);
    }
    if (status == TRIVET_OK) {
        status = trivet_checks_new(into->frame, result, limits, &into->checks, &said);
    }
    trivet_result_free(result);
    if (status == TRIVET_OK) {
        judge(into);
        into->is_moment_left = set >= 0 && leaves_moment(into->checks, into->frame, set);
    } else if (message) {
        *message = said;
    }
    return status;
}

/* One loss: bolt -1 takes the whole mount away. set: of its bolts, -1 likewise. */
static trivet_status add_loss(const trivet_frame *frame, const trivet_limits *limits, int32_t mount,
                              int32_t set, int32_t bolt, trivet_losses *losses,
                              trivet_message *message)
{
    lost *const into = &losses->list[losses->count++];
    const char *const name = trivet_frame_name(frame, TRIVET_KIND_MOUNT, mount);
    into->loss = (trivet_loss){.size = sizeof into->loss, .mount = mount, .bolt = bolt};
    trivet_status status = trivet_frame_copy(frame, &into->frame, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (bolt >= 0) {
        trivet__text_print(into->name, sizeof into->name, "bolt %d of mount %s", (int)bolt + 1,
                           name);
        trivet__bolts_drop(into->frame, set, bolt);
    } else {
        trivet__text_print(into->name, sizeof into->name, "mount %s", name);
        status = trivet_frame_remove_mount(into->frame, mount, message);
    }
    if (status == TRIVET_OK) {
        status = fill_empty_cases(into->frame, message);
    }
    return status == TRIVET_OK ? try_rest(frame, limits, set, into, message) : status;
}

static trivet_status add_all(const trivet_frame *frame, const trivet_limits *limits,
                             trivet_losses *losses, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    for (int32_t s = 0; s < frame->bolts_count && status == TRIVET_OK; s++) {
        const trivet_bolts *const set = &frame->bolts[s];
        const int32_t count =
            set->where_kind == TRIVET_KIND_MOUNT && set->count > 1 ? set->count : 0;
        for (int32_t b = 0; b < count && status == TRIVET_OK; b++) {
            status = add_loss(frame, limits, set->where_index, s, b, losses, message);
        }
    }
    for (int32_t m = 0; m < frame->mount_count && status == TRIVET_OK; m++) {
        status = add_loss(frame, limits, m, -1, -1, losses, message);
    }
    return status;
}

trivet_status trivet_losses_new(const trivet_frame *frame, const trivet_limits *limits,
                                trivet_losses **losses_out, trivet_message *message)
{
    if (!losses_out) {
        return trivet__missing(message, "losses_out");
    }
    *losses_out = NULL;
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_losses *const losses = trivet__take(1, sizeof *losses);
    const size_t most = (size_t)frame->mount_count + (size_t)frame->bolts_count * TRIVET_BOLTS_MAX;
    if (losses) {
        losses->list = trivet__take(most, sizeof *losses->list);
    }
    const trivet_status status = losses && losses->list ? add_all(frame, limits, losses, message)
                                                        : trivet__no_memory(message);
    if (status != TRIVET_OK) {
        trivet_losses_free(losses);
        return status;
    }
    *losses_out = losses;
    return TRIVET_OK;
}

void trivet_losses_free(trivet_losses *losses)
{
    if (!losses) {
        return;
    }
    for (int32_t i = 0; losses->list && i < losses->count; i++) {
        trivet_checks_free(losses->list[i].checks);
        trivet_frame_free(losses->list[i].frame);
    }
    trivet__give_back(losses->list);
    trivet__give_back(losses);
}

int32_t trivet_losses_count(const trivet_losses *losses)
{
    return losses ? losses->count : 0;
}

static int is_index(const trivet_losses *losses, int32_t index)
{
    return losses && index >= 0 && index < losses->count;
}

trivet_status trivet_losses_at(const trivet_losses *losses, int32_t index, trivet_loss *loss_out)
{
    const trivet_status status = trivet__out_check(losses, loss_out, sizeof *loss_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!is_index(losses, index)) {
        return TRIVET_BAD_INDEX;
    }
    *loss_out = losses->list[index].loss;
    return TRIVET_OK;
}

/* "still held, weld of back at TL is used most (61 %)" */
static size_t write_held(const lost *of, const trivet_units *units, char *text, size_t size)
{
    char place[512];
    char used[64];
    const char *const moment =
        of->is_moment_left ? "; a moment on the bolts that are left is not counted" : "";
    if (of->worst < 0) {
        return trivet__text_print(text, size, "%s lost: still held, but nothing could be checked%s",
                                  of->name, moment);
    }
    trivet_checks_place_text(of->checks, of->worst, units, place, sizeof place);
    trivet_used_text(of->loss.used, used, sizeof used);
    return trivet__text_print(text, size, "%s lost: still held, %s is used most (%s)%s", of->name,
                              place, used, moment);
}

size_t trivet_losses_text(const trivet_losses *losses, int32_t index, const trivet_units *units,
                          char *text, size_t size)
{
    char sentence[1024];
    if (!is_index(losses, index)) {
        return trivet__text_print(text, size, "%s", "");
    }
    const lost *const of = &losses->list[index];
    if (of->loss.outcome == TRIVET_LOSS_SWINGS) {
        return trivet__text_print(text, size, "%s lost: %s%s%s", of->name, of->how,
                                  of->way[0] ? ", " : "", of->way);
    }
    if (of->loss.outcome == TRIVET_LOSS_HELD) {
        return write_held(of, units, text, size);
    }
    trivet_checks_sentence_of(of->checks, of->worst, units, sentence, sizeof sentence);
    return trivet__text_print(text, size, "%s lost: overloaded, %s", of->name, sentence);
}
