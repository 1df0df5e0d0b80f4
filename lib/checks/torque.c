/*
 * The torque card: how tight a screw may be made.
 *
 * T = K F d, the short form of the torque equation (any text on machine elements). The table value
 * takes F as three quarters of the proof load. Every other part - threads, wall, plate, sleeve,
 * the spots that keep an insert - may be loaded to what it stands over 1.25, and must stand that
 * even where K is low and the preload comes out at the upper end of its scatter: T = K F d / (1 +
 * s). The screw itself is not asked for that: its quarter to the proof load is meant for it.
 *
 * A countersunk screw has 0.8 of the strength of its grade, because of the recess (ISO 10642). What
 * the user says of a rivet nut or weld nut is taken as it is; without a torque, its pull is.
 */
#include "checks/torque.h"

#include "base/defaults.h"
#include "checks/bolt_strength.h"
#include "checks/demand.h"
#include "checks/thread_strength.h"

#include <math.h>
#include <string.h>

trivet_status trivet_torque_defaults(trivet_torque *torque, size_t size)
{
    return trivet__defaults(torque, size, sizeof *torque);
}

const char *trivet_weakest_text(int32_t weakest)
{
    static const char *const TEXTS[] = {
        [TRIVET_WEAKEST_SCREW] = "the screw",
        [TRIVET_WEAKEST_SCREW_THREAD] = "the thread of the screw",
        [TRIVET_WEAKEST_HOLE_THREAD] = "the thread in the hole",
        [TRIVET_WEAKEST_WALL] = "the wall of the tube",
        [TRIVET_WEAKEST_PLATE] = "the plate under the head",
        [TRIVET_WEAKEST_RATED] = "the rivet nut or weld nut",
        [TRIVET_WEAKEST_SLEEVE] = "the crush sleeve",
        [TRIVET_WEAKEST_FIXING] = "the welds that keep the insert",
    };
    return weakest >= TRIVET_WEAKEST_SCREW && weakest <= TRIVET_WEAKEST_FIXING ? TEXTS[weakest]
                                                                               : "not known";
}

/* Takes a part as the weakest if it allows less; NaN: not known, infinite: it is not there. */
static void offer(trivet__torque_card *of, int32_t weakest, double part, double torque)
{
    if (isnan(torque)) {
        of->is_partial = 1;
    } else if (torque < of->torque.allowed) {
        of->torque.weakest = weakest;
        of->torque.allowed = torque;
        of->part = part;
        of->is_rated = 0;
    }
}

/* A part that stands so much force. */
static void offer_part(trivet__torque_card *of, const trivet_bolts *bolts, int32_t weakest,
                       double stands)
{
    const double force = stands / TRIVET__GAMMA_M2;
    offer(of, weakest, stands,
          trivet__torque_of_preload(force, bolts->nut_factor, of->thread.diameter) /
              (1.0 + bolts->scatter));
}

static void offer_rated(trivet__torque_card *of, const trivet_bolts *bolts)
{
    if (isnan(bolts->rated_torque)) {
        offer_part(of, bolts, TRIVET_WEAKEST_RATED, bolts->rated_pull);
        return;
    }
    offer(of, TRIVET_WEAKEST_RATED, (double)NAN, bolts->rated_torque);
    of->is_rated = of->torque.weakest == TRIVET_WEAKEST_RATED;
}

static void find_preload(const trivet_bolts *bolts, trivet__torque_card *of)
{
    trivet_torque *const torque = &of->torque;
    const double least = torque->table < torque->allowed ? torque->table : torque->allowed;
    const double tightened = isnan(torque->said) ? least : torque->said;
    torque->preload = trivet__preload_of_torque(tightened, bolts->nut_factor, of->thread.diameter);
    torque->most = (1.0 + bolts->scatter) * torque->preload;
    torque->least =
        bolts->spacer == TRIVET_SPACER_PLASTIC ? 0.0 : (1.0 - bolts->scatter) * torque->preload;
}

void trivet__torque_card_find(const trivet_frame *frame, const trivet_bolts *bolts,
                              trivet__torque_card *out)
{
    memset(out, 0, sizeof *out);
    trivet__bolt_kind(bolts, &out->thread, &out->grade);
    trivet_torque *const torque = &out->torque;
    torque->size = sizeof *torque;
    torque->said = bolts->torque;
    const double full = trivet__usual_preload(out->grade.proof, out->thread.stress_area);
    out->head = trivet__head_share(bolts->head);
    out->part = out->head * full;
    torque->weakest = TRIVET_WEAKEST_SCREW;
    torque->table = trivet__torque_of_preload(full, bolts->nut_factor, out->thread.diameter);
    torque->allowed = trivet__torque_of_preload(out->part, bolts->nut_factor, out->thread.diameter);
    offer_part(out, bolts, TRIVET_WEAKEST_SCREW_THREAD, trivet__screw_thread_stands(frame, bolts));
    offer_part(out, bolts, TRIVET_WEAKEST_HOLE_THREAD, trivet__hole_thread_stands(frame, bolts));
    offer_part(out, bolts, TRIVET_WEAKEST_WALL, trivet__wall_stands(frame, bolts));
    offer_part(out, bolts, TRIVET_WEAKEST_PLATE, trivet__plate_stands(frame, bolts));
    if (bolts->into == TRIVET_INTO_RATED) {
        offer_rated(out, bolts);
    }
    offer_part(out, bolts, TRIVET_WEAKEST_SLEEVE, trivet__sleeve_stands(frame, bolts));
    offer_part(out, bolts, TRIVET_WEAKEST_FIXING, trivet__fixing_stands(frame, bolts));
    find_preload(bolts, out);
}

trivet_status trivet_frame_torque(const trivet_frame *frame, int32_t bolts,
                                  trivet_torque *torque_out)
{
    trivet__torque_card card;
    const trivet_status status = trivet__out_check(frame, torque_out, sizeof *torque_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (bolts < 0 || bolts >= frame->bolts_count) {
        return TRIVET_BAD_INDEX;
    }
    trivet__torque_card_find(frame, &frame->bolts[bolts], &card);
    const size_t size = torque_out->size;
    memcpy(torque_out, &card.torque, size);
    torque_out->size = size;
    return TRIVET_OK;
}

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define INPUT "as the file says"
#define TORQUE_LINE                                                                                \
    {                                                                                              \
        "T", "torque", "", "as the file says, else that of the table for its grade", TRIVET_MOMENT \
    }
#define SHORT_FORM "T = K F d; any text on machine elements"
#define SAID_LINES                                                                                 \
    TORQUE_LINE,                                                                                   \
        {"K", "nut factor", "", "as the file says, else 0.2: dry zinc-plated steel",               \
         TRIVET_NUMBER},                                                                           \
    {                                                                                              \
        "d", "nominal diameter of the thread", "", "ISO 261 or ASME B1.1", TRIVET_LENGTH           \
    }
#define SCATTER_LINE                                                                               \
    {                                                                                              \
        "s", "scatter of the preload", "",                                                         \
            "as the file says, else a quarter either way: common practice", TRIVET_NUMBER          \
    }
#define USED_LINE                                                                                  \
    {                                                                                              \
        "used", "utilisation", "T / limit", "torque over torque allowed", TRIVET_NUMBER            \
    }

static const trivet__line PRELOAD_LINES[] = {
    SAID_LINES,
    SCATTER_LINE,
    {"F_t", "preload at the upper end of the scatter", "(1 + s) * T / (K * d)", SHORT_FORM,
     TRIVET_FORCE},
};
TABLE(PRELOAD);

static double torque_taken(const trivet_bolts *bolts, const trivet__torque_card *card)
{
    return isnan(bolts->torque) ? card->torque.table : bolts->torque;
}

double trivet__most_preload(const trivet_bolts *bolts, const trivet__torque_card *card)
{
    return (1.0 + bolts->scatter) * torque_taken(bolts, card) /
           (bolts->nut_factor * card->thread.diameter);
}

void trivet__record_preload(trivet__making *making, trivet__record *record,
                            const trivet_bolts *bolts, const trivet__torque_card *card)
{
    const double values[] = {torque_taken(bolts, card), bolts->nut_factor, card->thread.diameter,
                             bolts->scatter, trivet__most_preload(bolts, card)};
    trivet__record_table(making, record, &PRELOAD, values);
}

static const trivet__line SCREW_LINES[] = {
    SAID_LINES,
    {"S_p", "stress of proof of the grade", "", "ISO 898-1, ISO 3506-1 or SAE J429", TRIVET_STRESS},
    {"A_t", "stress area", "", "ISO 898-1 or ASME B1.1", TRIVET_AREA},
    {"k", "share that the head leaves", "", "0.8 countersunk: ISO 10642 (from memory); else 1",
     TRIVET_NUMBER},
    {"F_a", "preload allowed", "0.75 * k * S_p * A_t", "three quarters of proof: common practice",
     TRIVET_FORCE},
    {"limit", "torque allowed", "K * F_a * d", SHORT_FORM, TRIVET_MOMENT},
    USED_LINE,
};
TABLE(SCREW);

static const trivet__line PART_LINES[] = {
    SAID_LINES,
    SCATTER_LINE,
    {"F_p", "the weakest part stands", "", "worked out in the check of that part", TRIVET_FORCE},
    {"F_a", "preload allowed", "F_p / 1.25", "1.25 as gamma_M2 of EN 1993-1-8: a common choice",
     TRIVET_FORCE},
    {"limit", "torque allowed, at the upper end of the scatter", "K * F_a * d / (1 + s)",
     SHORT_FORM, TRIVET_MOMENT},
    USED_LINE,
};
TABLE(PART);

static const trivet__line RATED_LINES[] = {
    {"T", "torque", "", INPUT, TRIVET_MOMENT},
    {"limit", "torque allowed", "", "of the rivet nut or weld nut, as the file says",
     TRIVET_MOMENT},
    USED_LINE,
};
TABLE(RATED);

#define KIND(part, remedy)                                                                         \
    {                                                                                              \
        .check = "torque", .subject = "screw of", .verb = "is tightened with",                     \
        .advice = part " gives first: tighten it less" remedy, .line = TRIVET_LINE_OVERLOAD,       \
        .where_kind = TRIVET_KIND_MOUNT                                                            \
    }
static const trivet__check_kind TORQUES[] = {
    [TRIVET_WEAKEST_SCREW] = KIND("the screw itself", ", or use a higher grade"),
    [TRIVET_WEAKEST_SCREW_THREAD] = KIND("the thread of the screw", ", or make the thread longer"),
    [TRIVET_WEAKEST_HOLE_THREAD] =
        KIND("the thread in the hole", ", or make the thread longer or use a nut"),
    [TRIVET_WEAKEST_WALL] =
        KIND("the wall of the tube", ", or put a crush sleeve or a solid insert into it"),
    [TRIVET_WEAKEST_PLATE] =
        KIND("the plate under the head", ", or use a thicker plate or a large washer"),
    [TRIVET_WEAKEST_RATED] = KIND("the rivet nut or weld nut", ", or use a larger nut"),
    [TRIVET_WEAKEST_SLEEVE] = KIND("the crush sleeve", ", or use a thicker sleeve"),
    [TRIVET_WEAKEST_FIXING] =
        KIND("the welds that keep the insert", ", or keep it with more or larger ones"),
};

static void hang_working(trivet__making *making, trivet__record *record, const trivet_bolts *set,
                         const trivet__torque_card *of)
{
    const trivet_torque *const torque = &of->torque;
    const double K = set->nut_factor;
    const double d = of->thread.diameter;
    const double used = torque->said / torque->allowed;
    const double force = of->part / TRIVET__GAMMA_M2;
    if (of->is_rated) {
        const double values[] = {torque->said, torque->allowed, used};
        trivet__record_table(making, record, &RATED, values);
    } else if (torque->weakest == TRIVET_WEAKEST_SCREW) {
        const double values[] = {
            torque->said,    K,   d, of->grade.proof, of->thread.stress_area, of->head, of->part,
            torque->allowed, used};
        trivet__record_table(making, record, &SCREW, values);
    } else {
        const double values[] = {torque->said,    K,   d, set->scatter, of->part, force,
                                 torque->allowed, used};
        trivet__record_table(making, record, &PART, values);
    }
}

trivet_status trivet__check_torque(trivet__making *making, int32_t bolts)
{
    const trivet_bolts *const set = &making->frame->bolts[bolts];
    trivet__torque_card card;
    if (isnan(set->torque)) {
        return trivet__bolts_omit(making, bolts, "torque of",
                                  "it is not given; the torque card says how much is allowed");
    }
    trivet__torque_card_find(making->frame, set, &card);
    trivet__record *const record =
        trivet__bolts_record(making, &TORQUES[card.torque.weakest], bolts, -1);
    record->check.in_case = "tightening";
    record->check.source = SHORT_FORM;
    if (card.is_partial) {
        record->check.note = "parts whose strength is not known are left out";
    }
    hang_working(making, record, set, &card);
    trivet__record_judge(making, record, TRIVET_MOMENT, card.torque.said, card.torque.allowed);
    return TRIVET_OK;
}
