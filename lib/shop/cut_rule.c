/*
 * The rule by which ends are cut, and what it makes of wishes. It looks at nothing but who meets at
 * a joint; where the planes lie is worked out in cut_end.c.
 */
#include "shop/cut_plan.h"

#include "base/message.h"

#include <math.h>
#include <string.h>

static const char *const RULES[] = {
    "A tube whose joint is not its end runs through; whatever ends there butts against it.",
    "Two tubes that end at a joint alone with each other are mitered on the plane that halves the "
    "corner, if their outsides fit on it.",
    "Otherwise the heaviest tube that ends there runs through (of equal ones that with the larger "
    "outline, then the first in the file), to the far side of what sits on it; the others butt.",
    "An end that butts against a flat side is cut flat on that side; on a round tube it is "
    "hollowed "
    "out to a saddle.",
    "A tube that ends alone is cut square at its joint.",
    "Gaps are left square to the faces: all of it at a butt or saddle, half on each side of a "
    "miter.",
    "\"cut\" under a tube says otherwise for one of its ends.",
};

const char *trivet_shop_rule(int32_t index)
{
    return index >= 0 && (size_t)index < sizeof RULES / sizeof RULES[0] ? RULES[index] : NULL;
}

const char *trivet_cut_text(int32_t cut)
{
    static const char *const WORDS[] = {"as ruled", "free",   "through", "butt",
                                        "miter",    "saddle", "bend"};
    return cut >= 0 && (size_t)cut < sizeof WORDS / sizeof WORDS[0] ? WORDS[cut] : "cut";
}

int trivet__runs_through(const trivet_frame *frame, int32_t tube, int32_t joint)
{
    const trivet__tube *const of = &frame->tubes[tube];
    for (int32_t i = 1; i < of->joint_count - 1; i++) {
        if (of->joints[i] == joint) {
            return 1;
        }
    }
    return 0;
}

trivet__end *trivet__plan_end(const trivet__cut_plan *plan, int32_t tube, int32_t joint)
{
    trivet__end *const ends = &plan->ends[2 * (size_t)tube];
    return ends[0].joint == joint ? &ends[0] : ends[1].joint == joint ? &ends[1] : NULL;
}

/* What the rule asks of a joint. */
typedef struct meeting {
    int32_t runners;   /* tubes that run on, bent pieces counted as one */
    int32_t end_count; /* ends that are cut */
    int32_t throughs;  /* of these, with that wish */
    int32_t miters;
    int32_t butts;        /* butt or saddle */
    trivet__end *ends[2]; /* the first two */
    trivet__end *mitered[2];
    trivet__end *through; /* the one with that wish */
} meeting;

static void count_end(meeting *at, trivet__end *end)
{
    if (at->end_count < 2) {
        at->ends[at->end_count] = end;
    }
    at->end_count++;
    if (end->wish == TRIVET_CUT_THROUGH) {
        at->through = at->through ? at->through : end;
        at->throughs++;
    } else if (end->wish == TRIVET_CUT_MITER) {
        if (at->miters < 2) {
            at->mitered[at->miters] = end;
        }
        at->miters++;
    } else if (end->wish != TRIVET_CUT_AS_RULED) {
        at->butts++;
    }
}

static void meet(const trivet__cut_plan *plan, int32_t joint, meeting *at)
{
    memset(at, 0, sizeof *at);
    for (int32_t t = 0; t < plan->frame->tube_count; t++) {
        trivet__end *const end = trivet__plan_end(plan, t, joint);
        const int runs_on =
            end ? end->cut == TRIVET_CUT_BEND : trivet__runs_through(plan->frame, t, joint);
        at->runners += runs_on;
        if (end && !runs_on) {
            count_end(at, end);
        }
    }
}

/* The next end at a joint that is cut, from tube number *tube on; NULL behind the last. */
static trivet__end *next_end(const trivet__cut_plan *plan, int32_t joint, int32_t *tube)
{
    while (*tube < plan->frame->tube_count) {
        trivet__end *const end = trivet__plan_end(plan, *tube, joint);
        ++*tube;
        if (end && end->cut != TRIVET_CUT_BEND) {
            return end;
        }
    }
    return NULL;
}

/* All ends butt but those that are decided already; a wish says whether it must be a saddle. */
static void butt_others(trivet__cut_plan *plan, int32_t joint)
{
    int32_t tube = 0;
    trivet__end *end = next_end(plan, joint, &tube);
    while (end) {
        if (end->cut == TRIVET_CUT_AS_RULED) {
            end->cut = TRIVET_CUT_BUTT;
        }
        end = next_end(plan, joint, &tube);
    }
}

/* A wish that a joint at which tubes run on cannot grant. */
static trivet_status refuse_beside_runner(const trivet__cut_plan *plan, const meeting *at,
                                          trivet_message *message)
{
    if (at->through) {
        return trivet__refuse_end(plan, at->through, message,
                                  "another tube runs on through that joint, so this one cannot",
                                  "say butt, or end the other tube there");
    }
    if (at->miters > 0) {
        return trivet__refuse_end(plan, at->mitered[0], message,
                                  "another tube runs on through that joint: there is no corner to "
                                  "miter",
                                  "say butt, or end the other tube there");
    }
    return TRIVET_OK;
}

static trivet_status miter_pair(trivet__cut_plan *plan, trivet__end *one, trivet__end *other,
                                trivet_message *message)
{
    if (!trivet__ends_match(plan, one, other)) {
        return trivet__refuse_end(plan, one, message,
                                  "the outsides of the two tubes do not fit together on the plane "
                                  "that halves their corner",
                                  "say butt for one of them");
    }
    one->cut = other->cut = TRIVET_CUT_MITER;
    one->onto = other->tube;
    other->onto = one->tube;
    return TRIVET_OK;
}

/* Miters are wished for. */
static trivet_status grant_miter(trivet__cut_plan *plan, const meeting *at, trivet_message *message)
{
    trivet__end *one = at->mitered[0];
    trivet__end *other = at->mitered[1];
    if (at->throughs > 0) {
        return trivet__refuse_end(plan, at->through, message,
                                  "a tube is mitered there, so this one cannot run through",
                                  "say one or the other");
    }
    if (at->miters > 2) {
        return trivet__refuse_end(plan, one, message, "three tubes or more are to be mitered there",
                                  "miter two of them and let the others butt");
    }
    if (at->miters == 1 && at->end_count > 2) {
        return trivet__refuse_end(plan, one, message,
                                  "several tubes end there: with which it is mitered is not said",
                                  "say miter for that one, too");
    }
    if (at->miters == 1) {
        one = at->ends[0];
        other = at->ends[1];
        if (at->butts > 0) {
            return trivet__refuse_end(plan, at->mitered[0], message,
                                      "it is to be mitered and the other tube there is not",
                                      "say miter for both or for none");
        }
    }
    return miter_pair(plan, one, other, message);
}

static int is_heavier(const trivet__cut_plan *plan, const trivet__end *one,
                      const trivet__end *other)
{
    const trivet__stock *const stocks = plan->frame->stocks;
    const trivet__stock *const a = &stocks[plan->frame->tubes[one->tube].stock];
    const trivet__stock *const b = &stocks[plan->frame->tubes[other->tube].stock];
    const double mass[2] = {trivet__stock_mass_per_length(a), trivet__stock_mass_per_length(b)};
    if (mass[0] > mass[1] || mass[0] < mass[1]) {
        return mass[0] > mass[1];
    }
    return a->section.perimeter > b->section.perimeter;
}

/* The end that runs through where nothing else does; NULL if every end is to butt. */
static trivet__end *choose_through(const trivet__cut_plan *plan, int32_t joint)
{
    int32_t tube = 0;
    trivet__end *best = NULL;
    trivet__end *end = next_end(plan, joint, &tube);
    while (end) {
        const int may = end->wish == TRIVET_CUT_AS_RULED || end->wish == TRIVET_CUT_THROUGH;
        if (may && (!best || is_heavier(plan, end, best))) {
            best = end;
        }
        end = next_end(plan, joint, &tube);
    }
    return best;
}

/* Several ends and nothing that runs on. */
static trivet_status decide_corner(trivet__cut_plan *plan, int32_t joint, const meeting *at,
                                   trivet_message *message)
{
    const int is_pair = at->end_count == 2;
    if (at->throughs > 1) {
        return trivet__refuse_end(plan, at->through, message,
                                  "it and another tube are both to run through there",
                                  "let one of them butt");
    }
    if (at->miters > 0) {
        return grant_miter(plan, at, message);
    }
    if (at->throughs == 0 && at->butts == 0 && is_pair &&
        trivet__ends_match(plan, at->ends[0], at->ends[1])) {
        return miter_pair(plan, at->ends[0], at->ends[1], message);
    }
    trivet__end *const through = at->through ? at->through : choose_through(plan, joint);
    if (!through) {
        return trivet__refuse_end(plan, at->ends[0], message,
                                  "every tube that ends there is to butt, and none runs through",
                                  "leave one of them without a wish, or say through");
    }
    through->cut = TRIVET_CUT_THROUGH;
    return TRIVET_OK;
}

trivet_status trivet__cut_rule(trivet__cut_plan *plan, int32_t joint, trivet_message *message)
{
    meeting at;
    trivet_status status = TRIVET_OK;
    meet(plan, joint, &at);
    if (at.end_count == 0) {
        return TRIVET_OK;
    }
    if (at.runners > 0) {
        status = refuse_beside_runner(plan, &at, message);
    } else if (at.end_count == 1) {
        if (at.ends[0]->wish != TRIVET_CUT_AS_RULED) {
            return trivet__refuse_end(plan, at.ends[0], message, "no other tube is there to meet",
                                      "leave it out: a free end is cut square");
        }
        at.ends[0]->cut = TRIVET_CUT_FREE;
    } else {
        status = decide_corner(plan, joint, &at, message);
    }
    if (status == TRIVET_OK) {
        butt_others(plan, joint);
    }
    return status;
}
