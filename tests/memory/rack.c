/*
 * Sizes are invented: two rails of 25 mm square tube through three joints each, three cross tubes
 * of 20 mm round tube, mounts at the four front joints; bolts at one of them and under a deck, one
 * weld of spots among fillets, cycles between two cases.
 */
#include "rack.h"

#include <math.h>
#include <string.h>

typedef struct builder {
    trivet_frame *frame;
    trivet_message *message;
    rack_again *again;
    void *user;
    double reach;
    trivet_status status;
} builder;

/* Makes a call unless an earlier one failed, and again as long as the builder's owner wants. */
#define CALL(build, call)                                                                          \
    do {                                                                                           \
        if ((build)->status == TRIVET_OK) {                                                        \
            do {                                                                                   \
                (build)->status = (call);                                                          \
            } while ((build)->status != TRIVET_OK && (build)->again &&                             \
                     (build)->again((build)->user, (build)->status));                              \
        }                                                                                          \
    } while (0)

enum { FL, FR, ML, MR, RL, RR, JOINTS };

static void add_joints(builder *build)
{
    static const char *const names[JOINTS] = {"FL", "FR", "ML", "MR", "RL", "RR"};
    for (int i = 0; i < JOINTS; i++) {
        const double x = i < ML ? 0.0 : i < RL ? -0.24 : -0.24 - build->reach;
        const double position[3] = {x, i % 2 == 0 ? 0.16 : -0.16, 0.0};
        CALL(build, trivet_frame_add_joint(build->frame, names[i], position, NULL, build->message));
    }
}

static void add_stock(builder *build)
{
    trivet_material steel;
    trivet_profile rail;
    trivet_profile cross;
    trivet_profile plug;
    CALL(build, trivet_material_defaults(&steel, sizeof steel));
    CALL(build, trivet_profile_defaults(&rail, sizeof rail));
    CALL(build, trivet_profile_defaults(&cross, sizeof cross));
    CALL(build, trivet_profile_defaults(&plug, sizeof plug));
    if (build->status != TRIVET_OK) {
        return;
    }
    steel.E = 210e9;
    steel.G = 81e9;
    steel.density = 7850.0;
    steel.yield = 235e6;
    steel.expansion = 12e-6;
    rail.shape = TRIVET_SHAPE_SQUARE_TUBE;
    rail.width = 0.025;
    rail.wall = 0.002;
    cross.shape = TRIVET_SHAPE_ROUND_TUBE;
    cross.diameter = 0.020;
    cross.wall = 0.002;
    plug.shape = TRIVET_SHAPE_SQUARE_BAR;
    plug.width = 0.020;
    trivet_frame *const frame = build->frame;
    CALL(build, trivet_frame_add_stock(frame, "rail", &rail, &steel, NULL, build->message));
    CALL(build, trivet_frame_add_stock(frame, "cross", &cross, &steel, NULL, build->message));
    CALL(build, trivet_frame_add_stock(frame, "plug", &plug, &steel, NULL, build->message));
}

static void add_tubes(builder *build)
{
    static const int32_t left[3] = {FL, ML, RL};
    static const int32_t right[3] = {FR, MR, RR};
    static const int32_t front[2] = {FL, FR};
    static const int32_t middle[2] = {ML, MR};
    static const int32_t back[2] = {RL, RR};
    static const double offset[3] = {0.0, 0.0, 0.01};
    trivet_frame *const frame = build->frame;
    trivet_message *const message = build->message;
    CALL(build, trivet_frame_add_tube(frame, "left", left, 3, 0, 0.0, NULL, message));
    CALL(build, trivet_frame_add_tube(frame, "right", right, 3, 0, 0.0, NULL, message));
    CALL(build, trivet_frame_add_tube(frame, "front", front, 2, 1, 0.0, NULL, message));
    CALL(build, trivet_frame_add_tube(frame, "middle", middle, 2, 1, 0.1, NULL, message));
    CALL(build, trivet_frame_add_tube(frame, "back", back, 2, 1, 0.0, NULL, message));
    CALL(build, trivet_frame_set_free_end(frame, 3, ML, TRIVET_PINNED, message));
    CALL(build, trivet_frame_set_offset(frame, 2, FL, offset, message));
    CALL(build, trivet_frame_set_offset(frame, 2, FR, offset, message));
    CALL(build, trivet_frame_add_insert(frame, 0, FL, 0.04, 2, TRIVET_TOGETHER, message));
}

static void add_mounts(builder *build)
{
    for (int32_t joint = FL; joint <= MR; joint++) {
        trivet_mount mount;
        CALL(build, trivet_mount_defaults(&mount, sizeof mount));
        if (build->status != TRIVET_OK) {
            return;
        }
        mount.joint = joint;
        mount.held = joint < ML ? TRIVET_ALL : TRIVET_Y | TRIVET_Z;
        if (joint >= ML) {
            mount.spring[0] = 2e6;
            mount.spring[4] = 900.0;
        }
        mount.limit_pull = 900.0;
        mount.limit_shear = 1500.0;
        CALL(build, trivet_frame_add_mount(build->frame, &mount, NULL, build->message));
    }
}

static void add_cargo(builder *build)
{
    static const int32_t under_box[4] = {ML, MR, RL, RR};
    static const int32_t under_bag[2] = {FL, FR};
    static const double box_centre[3] = {-0.30, 0.0, 0.21};
    static const double bag_centre[3] = {-0.01, 0.02, 0.10};
    trivet_frame *const frame = build->frame;
    trivet_message *const message = build->message;
    CALL(build, trivet_frame_add_cargo(frame, "box", box_centre, under_box, 4, TRIVET_GRIP_STIFF,
                                       NULL, message));
    CALL(build, trivet_frame_add_cargo(frame, "bag", bag_centre, under_bag, 2, TRIVET_GRIP_SOFT,
                                       NULL, message));
    CALL(build, trivet_frame_add_item(frame, 0, "shell", 4.1, message));
    CALL(build, trivet_frame_add_item(frame, 0, "contents", 9.9, message));
    CALL(build, trivet_frame_add_item(frame, 1, "tools", 3.0, message));
}

static void add_cases(builder *build)
{
    static const double down[3] = {0.0, 0.0, -1.0};
    static const double leaning[3] = {0.0, 0.7, -1.0};
    static const double push[3] = {-250.0, 0.0, 0.0};
    static const double twist[3] = {0.0, 5.0, 0.0};
    static const double high[3] = {-0.15, 0.0, 0.35};
    static const double line[3] = {0.0, 0.0, -500.0};
    static const double line_end[3] = {0.0, 100.0, -200.0};
    static const double move[6] = {0.0, 0.0, 0.001, 0.0, 0.0, 0.0};
    static const int32_t both[2] = {0, 1};
    static const double factors[2] = {1.35, 1.5};
    trivet_frame *const frame = build->frame;
    trivet_message *const message = build->message;
    CALL(build, trivet_frame_add_case(frame, "parked", down, NULL, message));
    CALL(build, trivet_frame_add_case(frame, "cornering", leaning, NULL, message));
    CALL(build, trivet_frame_add_case(frame, "pushed", NULL, NULL, message));
    CALL(build, trivet_frame_set_cargo_factor(frame, 1, 0, 1.2, message));
    CALL(build, trivet_frame_add_joint_force(frame, 1, RL, push, twist, message));
    CALL(build, trivet_frame_add_cargo_force(frame, 2, 0, push, NULL, high, message));
    CALL(build, trivet_frame_add_cargo_force(frame, 2, 1, push, twist, NULL, message));
    CALL(build,
         trivet_frame_add_tube_force(frame, 2, 4, 0.1, push, twist, TRIVET_WORLD_AXES, message));
    CALL(build, trivet_frame_add_tube_line(frame, 2, 0, 0.05, 0.2, line, line_end, TRIVET_TUBE_AXES,
                                           message));
    CALL(build, trivet_frame_set_mount_move(frame, 2, 1, move, message));
    CALL(build, trivet_frame_set_warm(frame, 2, 30.0, message));
    CALL(build, trivet_frame_add_combination(frame, "both", both, factors, 2, NULL, message));
}

static void add_bolts(builder *build)
{
    static const int32_t under_deck[2] = {RL, RR};
    trivet_bolts bolts;
    CALL(build, trivet_frame_add_deck(build->frame, "lid", under_deck, 2, NULL, build->message));
    CALL(build, trivet_bolts_defaults(&bolts, sizeof bolts));
    if (build->status != TRIVET_OK) {
        return;
    }
    memcpy(bolts.thread, "M6", sizeof "M6");
    memcpy(bolts.grade, "8.8", sizeof "8.8");
    bolts.torque = 9.0;
    for (int32_t i = 0; i < 2; i++) {
        bolts.where_kind = TRIVET_KIND_DECK;
        bolts.where_index = 0;
        bolts.joint = under_deck[i];
        bolts.clamped = TRIVET_CLAMPED_HOLLOW;
        bolts.clamped_stock = 0;
        CALL(build, trivet_frame_add_bolts(build->frame, &bolts, NULL, build->message));
    }
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 1;
    bolts.joint = -1;
    bolts.count = 2;
    bolts.pattern[1][0] = 0.02;
    bolts.into = TRIVET_INTO_TAPPED;
    bolts.into_stock = 2;
    bolts.engagement = 0.012;
    bolts.clamped = TRIVET_CLAMPED_INSERT;
    CALL(build, trivet_frame_add_bolts(build->frame, &bolts, NULL, build->message));
}

static void add_welds_and_cycles(builder *build)
{
    trivet_weld weld;
    trivet_cycles cycles;
    CALL(build, trivet_weld_defaults(&weld, sizeof weld));
    CALL(build, trivet_cycles_defaults(&cycles, sizeof cycles));
    if (build->status != TRIVET_OK) {
        return;
    }
    weld.throat = 0.0015;
    for (int32_t tube = 2; tube <= 4; tube++) {
        CALL(build, trivet_frame_set_weld(build->frame, tube, -1, &weld, build->message));
    }
    weld.kind = TRIVET_WELD_SPOTS;
    weld.spot_count = 4;
    weld.spot_diameter = 0.006;
    CALL(build, trivet_frame_set_weld(build->frame, 4, RR, &weld, build->message));
    cycles.from = 0;
    cycles.to = 1;
    CALL(build, trivet_frame_add_cycles(build->frame, "bends", &cycles, NULL, build->message));
}

trivet_status rack_fill(trivet_frame *frame, double reach, rack_again *again, void *user,
                        trivet_message *message)
{
    builder build = {frame, message, again, user, reach, TRIVET_OK};
    add_joints(&build);
    add_stock(&build);
    add_tubes(&build);
    add_mounts(&build);
    add_cargo(&build);
    add_cases(&build);
    add_bolts(&build);
    add_welds_and_cycles(&build);
    return build.status;
}

trivet_status rack_build(double reach, rack_again *again, void *user, trivet_frame **rack_out,
                         trivet_message *message)
{
    builder build = {NULL, message, again, user, reach, TRIVET_OK};
    *rack_out = NULL;
    CALL(&build, trivet_frame_new(&build.frame, message));
    if (build.status == TRIVET_OK) {
        build.status = rack_fill(build.frame, reach, again, user, message);
    }
    if (build.status != TRIVET_OK) {
        trivet_frame_free(build.frame);
        return build.status;
    }
    *rack_out = build.frame;
    return TRIVET_OK;
}

/* FNV-1a over the bytes of an array of doubles. */
static uint64_t mix(uint64_t print, const double *values, size_t count)
{
    const unsigned char *const bytes = (const unsigned char *)values;
    for (size_t i = 0; values && i < count * sizeof *values; i++) {
        print = (print ^ bytes[i]) * 1099511628211U;
    }
    return print;
}

uint64_t rack_print_of(const trivet_result *result)
{
    int32_t cases = 0;
    int32_t things = 0;
    uint64_t print = 14695981039346656037U;
    const double *values = trivet_result_moves(result, &cases, &things);
    print = mix(print, values, 6 * (size_t)cases * (size_t)things);
    values = trivet_result_reactions(result, &cases, &things);
    print = mix(print, values, 6 * (size_t)cases * (size_t)things);
    values = trivet_result_span_ends(result, &cases, &things);
    return mix(print, values, 12 * (size_t)cases * (size_t)things);
}
