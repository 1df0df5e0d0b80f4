/*
 * The plan of all ends: filled from the frame and the wishes, then joint by joint by the rule and
 * the geometry.
 */
#include "shop/cut_plan.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "base/vec3.h"
#include "statics/span.h"

#include <math.h>
#include <string.h>

trivet_status trivet_shop_defaults(trivet_shop *shop, size_t size)
{
    const trivet_status status = trivet__defaults(shop, size, sizeof *shop);
    if (status == TRIVET_OK) {
        shop->kerf = 0.0025;
        shop->aim = TRIVET_AIM_BARS;
        shop->most_steps = 2000000;
        shop->wire_factor = 1.1;
        shop->stick_factor = 1.8;
    }
    return status;
}

trivet_status trivet_shop_bar_defaults(trivet_shop_bar *bar, size_t size)
{
    const trivet_status status = trivet__defaults(bar, size, sizeof *bar);
    if (status == TRIVET_OK) {
        bar->stock = bar->have = -1;
        bar->length = 6.0;
        bar->price = (double)NAN;
    }
    return status;
}

trivet_status trivet_shop_bend_defaults(trivet_shop_bend *bend, size_t size)
{
    const trivet_status status = trivet__defaults(bend, size, sizeof *bend);
    if (status == TRIVET_OK) {
        bend->neutral = 0.5;
    }
    return status;
}

trivet_status trivet_shop_end_defaults(trivet_shop_end *end, size_t size)
{
    const trivet_status status = trivet__defaults(end, size, sizeof *end);
    if (status == TRIVET_OK) {
        end->tube = end->joint = -1;
    }
    return status;
}

static trivet_status refuse_shop(trivet_message *message, const char *problem, const char *remedy)
{
    return trivet__refuse(message, TRIVET_BAD_VALUE, "shop", problem, remedy);
}

/* Whether pieces are cut from more than one stock. */
static int has_several_stocks(const trivet_frame *frame)
{
    const int32_t first = frame->tubes[0].stock;
    for (int32_t t = 0; t < frame->tube_count; t++) {
        int is_other = frame->tubes[t].stock != first;
        for (int32_t i = 0; i < frame->tubes[t].insert_count; i++) {
            is_other |= frame->tubes[t].inserts[i].stock != first;
        }
        if (is_other) {
            return 1;
        }
    }
    return 0;
}

static trivet_status check_bar(const trivet_frame *frame, const trivet_shop_bar *bar,
                               trivet_message *message)
{
    const trivet_status status = trivet__size_check(
        bar->size, sizeof *bar, "bar", "fill it with trivet_shop_bar_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (bar->stock < -1 || bar->stock >= frame->stock_count) {
        return trivet__refuse(message, TRIVET_BAD_INDEX, "shop", "a bar is of unknown stock",
                              "give the number of a stock, or -1 for all");
    }
    if (!(bar->length > 0.0) || !(bar->length <= 1000.0)) {
        return refuse_shop(message, "a bar has no length that bars have",
                           "give more than 0 and at most 1000 m");
    }
    if (bar->have >= 0 && bar->stock < 0 && has_several_stocks(frame)) {
        return refuse_shop(message,
                           "a bar that is at hand is of one stock, and it is not said which",
                           "move it to \"bars of\": {STOCK: [{length: 2 m, have: 1}]}");
    }
    if (bar->have < -1 || !(isnan(bar->price) || (bar->price >= 0.0 && bar->price <= 1e9))) {
        return refuse_shop(message, "a bar has a price or number below nothing, or far too large",
                           "give 0 or more");
    }
    return TRIVET_OK;
}

trivet_status trivet__shop_numbers(const trivet_frame *frame, const trivet_shop *shop,
                                   trivet_message *message)
{
    trivet_status status = trivet__size_check(shop->size, sizeof *shop, "shop",
                                              "fill it with trivet_shop_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if ((shop->bar_count > 0 && !shop->bars) || (shop->bend_count > 0 && !shop->bends) ||
        (shop->end_count > 0 && !shop->ends)) {
        return trivet__missing(message, "a list of shop");
    }
    if (!(shop->kerf >= 0.0 && shop->kerf <= 0.1) || !(shop->gap >= 0.0 && shop->gap <= 0.1)) {
        return refuse_shop(message, "the kerf or the gap is below 0 or above 100 mm",
                           "give what the saw takes off and what the welds leave open");
    }
    if (!(shop->wire_factor >= 1.0 && shop->wire_factor <= 100.0) ||
        !(shop->stick_factor >= 1.0 && shop->stick_factor <= 100.0)) {
        return refuse_shop(message, "a factor for wire or electrodes is below 1 or above 100",
                           "give what is bought over what ends up in the weld");
    }
    if ((shop->aim != TRIVET_AIM_BARS && shop->aim != TRIVET_AIM_COST) || shop->most_steps < 1) {
        return refuse_shop(message, "the aim or the number of steps is out of range",
                           "begin with trivet_shop_defaults");
    }
    for (int32_t i = 0; i < shop->bar_count && status == TRIVET_OK; i++) {
        status = check_bar(frame, &shop->bars[i], message);
    }
    return status;
}

trivet_status trivet__refuse_end(const trivet__cut_plan *plan, const trivet__end *end,
                                 trivet_message *message, const char *problem, const char *remedy)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, "", problem, remedy);
    trivet__message_thing(message, "tube %s, cut at %s", plan->frame->tubes[end->tube].name,
                          plan->frame->joints[end->joint].name);
    return TRIVET_BAD_VALUE;
}

const trivet__silhouette *trivet__tube_silhouette(const trivet__cut_plan *plan, int32_t tube)
{
    return &plan->silhouettes[plan->frame->tubes[tube].stock];
}

static void fill_end(const trivet__cut_plan *plan, int32_t tube, int32_t is_last)
{
    const trivet__tube *const of = &plan->frame->tubes[tube];
    trivet__end *const end = &plan->ends[2 * tube + is_last];
    const int32_t last = of->joint_count - 1;
    double first_point[3];
    double last_point[3];
    trivet__tube_end_point(plan->frame, tube, 0, first_point);
    trivet__tube_end_point(plan->frame, tube, last, last_point);
    end->tube = tube;
    end->joint = of->joints[is_last ? last : 0];
    end->is_last = is_last;
    end->onto = -1;
    memcpy(end->point, is_last ? last_point : first_point, sizeof end->point);
    trivet__tube_axes(first_point, last_point, of->roll, end->axes);
    for (int i = 0; i < 3; i++) {
        end->out[i] = is_last ? end->axes[i] : -end->axes[i];
        end->normal[i] = end->out[i];
    }
    end->towards = (double)NAN;
}

static trivet_status take_wish(trivet__cut_plan *plan, const trivet_shop_end *wish,
                               trivet_message *message)
{
    trivet_status status = trivet__size_check(
        wish->size, sizeof *wish, "end", "fill it with trivet_shop_end_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (wish->tube < 0 || wish->tube >= plan->frame->tube_count) {
        return trivet__refuse(message, TRIVET_BAD_INDEX, "shop", "an end is of an unknown tube",
                              "give the number of a tube");
    }
    trivet__end *const end = trivet__plan_end(plan, wish->tube, wish->joint);
    if (!end || wish->joint < 0) {
        trivet__refuse(message, TRIVET_BAD_INDEX, "", "is cut at a joint that is not its end",
                       "give its first or last joint");
        trivet__message_thing(message, "tube %s", plan->frame->tubes[wish->tube].name);
        return TRIVET_BAD_INDEX;
    }
    if (wish->cut < TRIVET_CUT_THROUGH || wish->cut > TRIVET_CUT_SADDLE) {
        return trivet__refuse_end(plan, end, message, "that is no way to cut an end",
                                  "say through, butt, miter or saddle");
    }
    if (end->cut == TRIVET_CUT_BEND) {
        return trivet__refuse_end(plan, end, message,
                                  "it is bent there into the next tube, so there is nothing to cut",
                                  "take the cut or the bent piece out");
    }
    end->wish = wish->cut;
    return TRIVET_OK;
}

static trivet_status make_room(trivet__cut_plan *plan)
{
    const size_t tubes = (size_t)plan->frame->tube_count;
    plan->ends = trivet__take(2 * tubes, sizeof *plan->ends);
    plan->silhouettes = trivet__take((size_t)plan->frame->stock_count, sizeof *plan->silhouettes);
    plan->bend_of = trivet__take(tubes, sizeof *plan->bend_of);
    return plan->ends && plan->silhouettes && plan->bend_of ? TRIVET_OK : TRIVET_NO_MEMORY;
}

static void fill_plan(trivet__cut_plan *plan)
{
    const trivet_frame *const frame = plan->frame;
    for (int32_t s = 0; s < frame->stock_count; s++) {
        trivet__silhouette_find(&frame->stocks[s].profile, &frame->stocks[s].section,
                                &plan->silhouettes[s]);
    }
    for (int32_t t = 0; t < frame->tube_count; t++) {
        plan->bend_of[t] = -1;
        fill_end(plan, t, 0);
        fill_end(plan, t, 1);
    }
    plan->crossing = -1;
}

void trivet__cut_plan_clear(trivet__cut_plan *plan)
{
    trivet__give_back(plan->ends);
    trivet__give_back(plan->silhouettes);
    trivet__give_back(plan->bend_of);
    memset(plan, 0, sizeof *plan);
}

static trivet_status decide(trivet__cut_plan *plan, trivet_message *message)
{
    trivet_status status = trivet__bends_mark(plan, message);
    for (int32_t i = 0; i < plan->shop->end_count && status == TRIVET_OK; i++) {
        status = take_wish(plan, &plan->shop->ends[i], message);
    }
    for (int32_t j = 0; j < plan->frame->joint_count && status == TRIVET_OK; j++) {
        status = trivet__cut_rule(plan, j, message);
    }
    for (int32_t j = 0; j < plan->frame->joint_count && status == TRIVET_OK; j++) {
        status = trivet__cut_joint(plan, j, message);
    }
    return status;
}

trivet_status trivet__cut_plan_make(const trivet_frame *frame, const trivet_shop *shop,
                                    trivet__cut_plan *plan_out, trivet_message *message)
{
    memset(plan_out, 0, sizeof *plan_out);
    plan_out->frame = frame;
    plan_out->shop = shop;
    trivet_status status = trivet_frame_validate(frame, message);
    if (status == TRIVET_OK) {
        status = trivet__shop_numbers(frame, shop, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    status = make_room(plan_out);
    if (status != TRIVET_OK) {
        return trivet__no_memory(message);
    }
    fill_plan(plan_out);
    return decide(plan_out, message);
}

trivet_status trivet_shop_check(const trivet_frame *frame, const trivet_shop *shop,
                                trivet_message *message)
{
    trivet__cut_plan plan;
    if (!frame || !shop) {
        return trivet__missing(message, frame ? "shop" : "frame");
    }
    const trivet_status status = trivet__cut_plan_make(frame, shop, &plan, message);
    trivet__cut_plan_clear(&plan);
    return status;
}
