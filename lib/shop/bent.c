/*
 * Bent pieces. A bend by the angle a with the radius R of the centre line begins R tan(a/2) before
 * the corner of the centre lines and takes a rho of the bar, rho = R - h_i + k h: h the depth of
 * the section in the plane of the bend, h_i what of it lies inside of the centre line, k where
 * nothing stretches (bend allowance; common practice). Springback is the bender's business.
 */
#include "shop/bent.h"

#include "base/defaults.h"
#include "base/message.h"
#include "base/vec3.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* A smaller turn, rad, is none. */
#define NO_TURN 1e-6

static trivet_status refuse_bend(const trivet_shop_bend *bend, trivet_message *message,
                                 const char *problem, const char *remedy)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, "", problem, remedy);
    trivet__message_thing(message, "bent piece %s", bend->name ? bend->name : "?");
    return TRIVET_BAD_VALUE;
}

/* The other end of a tube. */
static const trivet__end *far_end(const trivet__cut_plan *plan, const trivet__end *end)
{
    return &plan->ends[2 * (size_t)end->tube + (size_t)!end->is_last];
}

/* The end of a tube that is bent into the next; of a tube joined at both, that which is given. */
static const trivet__end *joined_end(const trivet__cut_plan *plan, int32_t tube, int32_t next)
{
    const trivet__end *const ends = &plan->ends[2 * (size_t)tube];
    return trivet__plan_end(plan, next, ends[1].joint)   ? &ends[1]
           : trivet__plan_end(plan, next, ends[0].joint) ? &ends[0]
                                                         : NULL;
}

/* The bend between a tube and the next, once the step's ends are known. */
static void fill_bend(const trivet__cut_plan *plan, const trivet_shop_bend *bend,
                      trivet__bent_step *step)
{
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, step->exit->tube);
    double before[3];
    double inside[3];
    double outside[3];
    double turned[3];
    memcpy(before, step->plane, sizeof before);
    step->angle = step->setback = step->arc = step->within = 0.0;
    step->turn = (double)NAN;
    if (step->number + 1 >= bend->tube_count) {
        return;
    }
    const trivet__end *const ends = &plan->ends[2 * (size_t)bend->tubes[step->number + 1]];
    const trivet__end *const next = &ends[ends[1].joint == step->exit->joint];
    for (int i = 0; i < 3; i++) {
        inside[i] = -next->out[i]; /* the way into the next tube */
    }
    trivet__cross3(step->exit->out, inside, step->plane);
    const double sine = trivet__length3(step->plane);
    step->angle = atan2(sine, trivet__dot3(step->exit->out, inside));
    if (step->angle < NO_TURN) {
        step->angle = 0.0;
        memcpy(step->plane, before, sizeof before);
        return;
    }
    for (int i = 0; i < 3; i++) {
        step->plane[i] /= sine;
    }
    trivet__cross3(step->plane, step->exit->out, inside);
    for (int i = 0; i < 3; i++) {
        outside[i] = -inside[i];
    }
    step->within = trivet__reach_along(of, step->exit->axes, inside);
    const double depth = step->within + trivet__reach_along(of, step->exit->axes, outside);
    step->setback = bend->radius * tan(0.5 * step->angle);
    step->arc = step->angle * (bend->radius - step->within + bend->neutral * depth);
    trivet__cross3(before, step->plane, turned);
    if (trivet__length3(before) > 0.5) {
        step->turn =
            atan2(trivet__dot3(turned, step->exit->out), trivet__dot3(before, step->plane));
    }
}

static void fill_step(const trivet__cut_plan *plan, const trivet_shop_bend *bend,
                      trivet__bent_step *step)
{
    double along[3];
    trivet__minus3(step->exit->point, step->entry->point, along);
    step->length = trivet__length3(along);
    fill_bend(plan, bend, step);
}

void trivet__bent_first(const trivet__cut_plan *plan, int32_t bend, trivet__bent_step *step)
{
    const trivet_shop_bend *const of = &plan->shop->bends[bend];
    memset(step, 0, sizeof *step);
    const trivet__end *const exit = joined_end(plan, of->tubes[0], of->tubes[1]);
    assert(exit); /* the piece has been marked */
    step->exit = exit ? exit : &plan->ends[2 * (size_t)of->tubes[0]];
    step->entry = far_end(plan, step->exit);
    fill_step(plan, of, step);
}

int trivet__bent_next(const trivet__cut_plan *plan, int32_t bend, trivet__bent_step *step)
{
    const trivet_shop_bend *const of = &plan->shop->bends[bend];
    if (step->number + 1 >= of->tube_count) {
        return 0;
    }
    step->number++;
    step->base += step->length - 2.0 * step->setback + step->arc;
    step->middle += step->length - 2.0 * step->setback + step->angle * of->radius;
    const trivet__end *const ends = &plan->ends[2 * (size_t)of->tubes[step->number]];
    step->entry = &ends[ends[1].joint == step->exit->joint];
    step->exit = far_end(plan, step->entry);
    fill_step(plan, of, step);
    return 1;
}

static trivet_status check_numbers(const trivet_shop_bend *bend, trivet_message *message)
{
    const trivet_status status = trivet__size_check(
        bend->size, sizeof *bend, "bend", "fill it with trivet_shop_bend_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!bend->name || !bend->tubes) {
        return trivet__missing(message, bend->name ? "tubes of a bend" : "name of a bend");
    }
    if (bend->tube_count < 2) {
        return refuse_bend(bend, message, "is made of one tube only", "name two tubes or more");
    }
    if (!(bend->radius > 0.0) || !isfinite(bend->radius)) {
        return refuse_bend(bend, message, "has no radius to bend with",
                           "give the radius to the tube's centre line");
    }
    if (!(bend->neutral >= 0.0 && bend->neutral <= 1.0)) {
        return refuse_bend(bend, message, "has its neutral line outside the tube",
                           "give 0 (inside) to 1 (outside); the middle is 0.5");
    }
    return TRIVET_OK;
}

/* The tubes of a piece: known, of one stock, in no other piece. Marks them. */
static trivet_status mark_tubes(trivet__cut_plan *plan, int32_t index, trivet_message *message)
{
    const trivet_shop_bend *const bend = &plan->shop->bends[index];
    const trivet_frame *const frame = plan->frame;
    for (int32_t i = 0; i < bend->tube_count; i++) {
        const int32_t tube = bend->tubes[i];
        if (tube < 0 || tube >= frame->tube_count) {
            return refuse_bend(bend, message, "names a tube that is not there",
                               "give numbers of tubes");
        }
        if (plan->bend_of[tube] >= 0) {
            refuse_bend(bend, message, "", "bend each tube into one piece only");
            trivet__message_problem(message, "tube %s is bent already", frame->tubes[tube].name);
            return TRIVET_BAD_VALUE;
        }
        if (frame->tubes[tube].stock != frame->tubes[bend->tubes[0]].stock) {
            refuse_bend(bend, message, "", "bend tubes of one stock, or give them the same");
            trivet__message_problem(message, "tube %s is of other stock than tube %s",
                                    frame->tubes[tube].name, frame->tubes[bend->tubes[0]].name);
            return TRIVET_BAD_VALUE;
        }
        plan->bend_of[tube] = index;
    }
    return TRIVET_OK;
}

/* One joined pair: its two ends go on into each other. */
static trivet_status join(trivet__cut_plan *plan, const trivet_shop_bend *bend, trivet__end *exit,
                          trivet__end *entry, trivet_message *message)
{
    if (!trivet__ends_match(plan, exit, entry)) {
        refuse_bend(bend, message, "", "look at roll and offset, and whether they turn back");
        trivet__message_problem(message,
                                "the outsides of tubes %s and %s do not run on into each "
                                "other",
                                plan->frame->tubes[exit->tube].name,
                                plan->frame->tubes[entry->tube].name);
        return TRIVET_BAD_VALUE;
    }
    exit->cut = entry->cut = TRIVET_CUT_BEND;
    exit->onto = entry->tube;
    entry->onto = exit->tube;
    return TRIVET_OK;
}

static trivet_status join_tubes(trivet__cut_plan *plan, int32_t index, trivet_message *message)
{
    const trivet_shop_bend *const bend = &plan->shop->bends[index];
    const trivet__end *exit = joined_end(plan, bend->tubes[0], bend->tubes[1]);
    for (int32_t i = 0; i + 1 < bend->tube_count; i++) {
        const int32_t next = bend->tubes[i + 1];
        trivet__end *const entry = exit ? trivet__plan_end(plan, next, exit->joint) : NULL;
        if (!entry) {
            refuse_bend(bend, message, "", "name the tubes in the order in which they follow");
            trivet__message_problem(message, "tube %s does not go on into tube %s",
                                    plan->frame->tubes[bend->tubes[i]].name,
                                    plan->frame->tubes[next].name);
            return TRIVET_BAD_VALUE;
        }
        const trivet_status status =
            join(plan, bend, &plan->ends[2 * (size_t)exit->tube + (size_t)exit->is_last], entry,
                 message);
        if (status != TRIVET_OK) {
            return status;
        }
        exit = far_end(plan, entry);
    }
    return TRIVET_OK;
}

/* Whether the bends fit on their tubes. */
static trivet_status check_room(const trivet__cut_plan *plan, int32_t index,
                                trivet_message *message)
{
    const trivet_shop_bend *const bend = &plan->shop->bends[index];
    trivet__bent_step step;
    char taken[64];
    char whole[64];
    double before = 0.0;
    int is_there = 1;
    for (trivet__bent_first(plan, index, &step); is_there;
         is_there = trivet__bent_next(plan, index, &step)) {
        const char *const name = plan->frame->tubes[step.exit->tube].name;
        if (!(step.length - before - step.setback >= 0.0)) {
            refuse_bend(bend, message, "", "bend it tighter, or make the tube longer");
            trivet_units_text(NULL, TRIVET_LENGTH, before + step.setback, 4, taken, sizeof taken);
            trivet_units_text(NULL, TRIVET_LENGTH, step.length, 4, whole, sizeof whole);
            trivet__message_problem(message, "its bends take %s of tube %s, which is %s long",
                                    taken, name, whole);
            return TRIVET_BAD_VALUE;
        }
        if (step.angle > 0.0 && !(bend->radius > step.within)) {
            return refuse_bend(bend, message, "has a smaller radius than half its depth",
                               "give a larger radius; it is that of the centre line");
        }
        before = step.setback;
    }
    return TRIVET_OK;
}

trivet_status trivet__bends_mark(trivet__cut_plan *plan, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < plan->shop->bend_count && status == TRIVET_OK; i++) {
        status = check_numbers(&plan->shop->bends[i], message);
        if (status == TRIVET_OK) {
            status = mark_tubes(plan, i, message);
        }
        if (status == TRIVET_OK) {
            status = join_tubes(plan, i, message);
        }
        if (status == TRIVET_OK) {
            status = check_room(plan, i, message);
        }
    }
    return status;
}
