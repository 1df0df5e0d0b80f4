/*
 * Welds at the ends of tubes: which part a tube is welded to, at what angle, how strong the weaker
 * of the two is, and where the weld is used most.
 *
 * A tube that ends at a joint stands on the tube that runs on through it; where none does, on the
 * one that ends there as well; else on a mount, square. It is cut to lie flat on the other's side:
 * at a corner that is less weld than a miter has. Tubes that go on in line are welded end to end,
 * square. The forces are those at the joint, in the middle of the other tube: between there and its
 * face the moment mostly falls, which is on the side of caution.
 */
#include "checks/check_weld.h"

#include "base/vec3.h"
#include "checks/bounds.h"
#include "checks/demand.h"
#include "checks/joint_shape.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* Sine of 10 degrees: tubes nearer to each other's direction count as in line. */
#define IN_LINE 0.17364817766693

/* What is smaller than this is square but for rounding. */
#define SQUARE 1e-9

static trivet_status omit(trivet__making *making, int32_t tube, int32_t joint, const char *why)
{
    const char *const parts[TRIVET__OMISSION_PARTS] = {"weld of ", making->frame->tubes[tube].name,
                                                       " at ", making->frame->joints[joint].name};
    return trivet__omit_parts(making->checks, TRIVET_LINE_OVERLOAD, parts, why);
}

/* The tube that tube is welded to at a joint where it ends; -1: none. */
static int32_t other_tube(const trivet__meeting *meeting, int32_t tube)
{
    if (meeting->through >= 0) {
        return meeting->through;
    }
    for (int32_t i = 0; i < meeting->end_count && i < 2; i++) {
        if (meeting->ends[i] != tube) {
            return meeting->ends[i];
        }
    }
    return -1;
}

static const trivet__stock *stock_of(const trivet_frame *frame, int32_t tube)
{
    return &frame->stocks[frame->tubes[tube].stock];
}

static const trivet_weld *weld_of(const trivet__tube *tube, int32_t joint)
{
    return tube->joints[0] == joint ? &tube->weld_first : &tube->weld_last;
}

/* Where two tubes end, one weld joins them, and it may stand with either. */
static int is_said_by_the_other(const trivet_frame *frame, const trivet__meeting *meeting,
                                int32_t tube, int32_t joint)
{
    const int32_t other = other_tube(meeting, tube);
    return meeting->through < 0 && meeting->end_count == 2 && other >= 0 &&
           weld_of(&frame->tubes[other], joint)->kind != TRIVET_WELD_NOT_SAID;
}

/* Whether the mount at a joint has bolts, which then hold a tube that meets no other. */
static int is_bolted_to_mount(const trivet_frame *frame, int32_t mount)
{
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        if (frame->bolts[i].where_kind == TRIVET_KIND_MOUNT &&
            frame->bolts[i].where_index == mount) {
            return 1;
        }
    }
    return 0;
}

/* Whether there is anything at a joint that a tube's end could be welded to. */
static int meets_something(const trivet__making *making, int32_t joint)
{
    return making->meets[joint] >= 2 || making->around->mounts[joint] >= 0;
}

/* Whether there must be a weld that nobody speaks of. */
static int lacks_weld(const trivet__making *making, const trivet__meeting *meeting, int32_t tube,
                      int32_t joint)
{
    const trivet__tube *const of = &making->frame->tubes[tube];
    const uint32_t is_free = of->joints[0] == joint ? of->free_first : of->free_last;
    const int32_t mount = making->around->mounts[joint];
    if (is_free || is_said_by_the_other(making->frame, meeting, tube, joint)) {
        return 0;
    }
    return making->meets[joint] >= 2 || !is_bolted_to_mount(making->frame, mount);
}

/* How the tube leans on the other: turns the cut. */
static void find_cut(const trivet__making *making, int32_t tube, int32_t other,
                     trivet__weld_key *key, double *angle_out)
{
    double axes[9];
    double onto[9];
    double towards[3];
    *angle_out = acos(0.0);
    key->lean[0] = 1.0;
    if (other < 0) {
        return;
    }
    trivet__axes_of_tube(making, tube, axes);
    trivet__axes_of_tube(making, other, onto);
    trivet__into_axes3(axes, onto, towards);
    const double cosine = fabs(towards[0]);
    const double sine = hypot(towards[1], towards[2]);
    if (cosine <= SQUARE || !(sine >= IN_LINE)) {
        return;
    }
    const double sign = towards[0] > 0.0 ? 1.0 : -1.0;
    key->cosine = cosine;
    key->lean[0] = sign * towards[1] / sine;
    key->lean[1] = sign * towards[2] / sine;
    *angle_out = atan2(sine, cosine);
}

/* Thickness of a wall, or of a bar; *is_wall_out 0 for a bar. */
static double thickness_of(const trivet_profile *of, int32_t *is_wall_out)
{
    *is_wall_out = 0;
    switch ((trivet_shape)of->shape) {
    case TRIVET_SHAPE_SQUARE_BAR:
        return of->width;
    case TRIVET_SHAPE_FLAT_BAR:
        return fmin(of->width, of->height);
    case TRIVET_SHAPE_ROUND_BAR:
        return of->diameter;
    case TRIVET_SHAPE_CHANNEL:
        *is_wall_out = 1;
        return fmin(of->wall, of->flange);
    case TRIVET_SHAPE_GIVEN_VALUES:
        return HUGE_VAL;
    case TRIVET_SHAPE_SQUARE_TUBE:
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
    case TRIVET_SHAPE_ROUND_TUBE:
    case TRIVET_SHAPE_ANGLE:
    default:
        *is_wall_out = 1;
        return of->wall;
    }
}

/* Walls and throat. 0: no throat is given and there is no wall to take it from. */
static int find_throat(const trivet_weld *weld, const trivet__stock *own,
                       const trivet__stock *other, trivet__weld_end *end)
{
    int32_t has_wall = 0;
    int32_t has_other_wall = 0;
    double wall = thickness_of(&own->profile, &has_wall);
    end->own_wall = wall;
    if (other) {
        wall = fmin(wall, thickness_of(&other->profile, &has_other_wall));
    }
    if (!has_wall) {
        end->own_wall = wall;
    }
    end->is_said = weld->throat > 0.0;
    end->throat = end->is_said ? weld->throat : TRIVET__THROAT_PER_WALL * end->own_wall;
    end->strength.wall = wall;
    end->strength.throat = fmin(end->throat, wall);
    return end->is_said || has_wall || has_other_wall;
}

/* The weaker of the two materials. */
static void find_material(const trivet__stock *own, const trivet__stock *other,
                          trivet__weld_end *end)
{
    const trivet_material *weaker = &own->material;
    double tensile = trivet__welded_tensile(weaker);
    /* One that is not known is as good as none, whichever it is. */
    if (other && !isnan(tensile) && !(trivet__welded_tensile(&other->material) >= tensile)) {
        weaker = &other->material;
        tensile = trivet__welded_tensile(weaker);
    }
    end->strength.parent = tensile;
    end->strength.beta = trivet__weld_beta(weaker);
    end->source = weaker->source[0] ? weaker->source : "material of the stock";
}

static int is_box(const trivet_profile *of)
{
    return of->shape == TRIVET_SHAPE_SQUARE_TUBE || of->shape == TRIVET_SHAPE_RECTANGULAR_TUBE;
}

static void find_words(const trivet_weld *weld, trivet__weld_end *end)
{
    const double length = end->line.amount;
    const double throat = end->strength.throat;
    if (end->strength.is_spots) {
        end->words.is_overfull = end->line.spot_count < weld->spot_count;
        return;
    }
    end->words.is_partial = weld->sides != (uint32_t)TRIVET_SIDES_ALL || weld->run < 1.0;
    end->words.is_capped = end->throat > end->strength.wall;
    end->words.is_full = end->throat >= end->strength.wall;
    if (end->strength.rule != TRIVET_WELDS_AISC) {
        end->words.is_thin = throat < TRIVET__THROAT_LEAST;
        end->words.is_short =
            length < TRIVET__WELD_LENGTH_LEAST || length < TRIVET__WELD_THROATS_LEAST * throat;
    }
}

/* Everything that is the same in all cases. NULL, or why the weld cannot be checked. */
static const char *find_end(const trivet__making *making, const trivet_weld *weld, int32_t other,
                            trivet__weld_kept *kept)
{
    const trivet_frame *const frame = making->frame;
    trivet__weld_end *const end = &kept->end;
    const trivet__stock *const own = stock_of(frame, end->tube);
    const trivet__stock *const onto = other >= 0 ? stock_of(frame, other) : NULL;
    trivet__weld_strength *const strength = &end->strength;
    trivet__weld_key key;
    memset(&key, 0, sizeof key);
    const int has_throat = find_throat(weld, own, onto, end);
    find_material(own, onto, end);
    find_cut(making, end->tube, other, &key, &end->angle);
    strength->rule = making->limits.weld_rule;
    strength->is_spots = weld->kind == TRIVET_WELD_SPOTS;
    strength->has_direction = !is_box(&own->profile);
    strength->loads = strength->rule == TRIVET_WELDS_AISC ? 1.0 : making->limits.loads;
    strength->filler = weld->filler;
    strength->spot = weld->spot_diameter;
    key.stock_version = making->checks->stocks[frame->tubes[end->tube].stock].version;
    key.sides = weld->sides;
    key.run = weld->run;
    key.spot_count = strength->is_spots ? weld->spot_count : 0;
    key.thickness = strength->is_spots ? strength->spot : strength->throat;
    if (!trivet__weld_line_find(making, &key, kept)) {
        return "the outline of its stock is not known";
    }
    if (!has_throat) {
        return "its throat is not given, and there is no wall to take it from";
    }
    if (!(strength->parent > 0.0)) {
        return "the tensile strength of a material beside the weld is not known";
    }
    find_words(weld, end);
    return NULL;
}

/* What the weld carries by forces of the tube. */
static void turn_load(const trivet__weld_end *end, const double forces[6], trivet__weld_load *load)
{
    double turned[6];
    if (end->line.cosine != 0.0) {
        trivet__weld_turn(&end->line, forces, turned);
        trivet__weld_load_find(&end->line, turned, load);
    } else {
        trivet__weld_load_find(&end->line, forces, load);
    }
}

/* The same in a result column; forces: of the tube. */
static void find_load(const trivet__making *making, const trivet__weld_end *end, int32_t in_case,
                      double forces[6], trivet__weld_load *load)
{
    trivet__end_forces(making, in_case, end->tube, end->joint, forces);
    turn_load(end, forces, load);
}

/* Everything of an end that is the same in all cases, or why it is not looked at. */
static void prepare_end(trivet__making *making, int32_t tube, int is_last)
{
    const trivet__tube *const of = &making->frame->tubes[tube];
    const int32_t joint = of->joints[is_last ? of->joint_count - 1 : 0];
    const trivet_weld *const weld = is_last ? &of->weld_last : &of->weld_first;
    const trivet__meeting *const meeting = &making->around->meetings[joint];
    trivet__weld_kept *const kept = &making->checks->welds[2 * tube + is_last];
    kept->is_checked = 0;
    kept->why = NULL;
    kept->end.tube = tube;
    kept->end.joint = joint;
    if (!meets_something(making, joint) || !trivet__end_is_welded(making->frame, tube, joint)) {
        return;
    }
    if (weld->kind == TRIVET_WELD_NOT_SAID) {
        kept->why = lacks_weld(making, meeting, tube, joint) ? "no weld is given" : NULL;
        return;
    }
    kept->end.at = is_last ? trivet__tube_distance(making->frame, tube, of->joint_count - 1) : 0.0;
    memset(&kept->end.words, 0, sizeof kept->end.words);
    kept->why = find_end(making, weld, other_tube(meeting, tube), kept);
    kept->is_checked = kept->why == NULL;
}

int trivet__welds_prepare(trivet__making *making)
{
    if (!trivet__welds_make_room(making)) {
        return 0;
    }
    for (int32_t i = 0; i < 2 * making->frame->tube_count; i++) {
        prepare_end(making, i / 2, i % 2);
    }
    return 1;
}

/* How much an end uses at most in any case. Where the cut leans, that is told case by case. */
static double most_used_ever(const trivet__making *making, const trivet__weld_kept *kept)
{
    const trivet__weld_line *const line = &kept->end.line;
    if (!kept->is_checked || line->cosine != 0.0) {
        return kept->is_checked ? HUGE_VAL : -1.0;
    }
    const double *const sizes =
        making->end_sizes +
        (trivet__end_row(making, kept->end.tube, kept->end.joint) - making->span_ends);
    const double y = fabs(line->centre[0]);
    const double z = fabs(line->centre[1]);
    trivet__weld_load load;
    memcpy(load.forces, sizes, sizeof load.forces);
    load.T = sizes[3] + z * sizes[1] + y * sizes[2];
    load.My = sizes[4] + z * sizes[0];
    load.Mz = sizes[5] + y * sizes[0];
    return trivet__weld_bound_at(&kept->bound, &load);
}

/* The case in which an end can use most of its limit; *most_out: how much. */
static int32_t worst_case(const trivet__making *making, const trivet__weld_kept *kept,
                          double *most_out)
{
    int32_t worst = 0;
    *most_out = -1.0;
    for (int32_t c = 0; c < making->columns; c++) {
        double forces[6];
        trivet__weld_load load;
        find_load(making, &kept->end, c, forces, &load);
        const double bound = trivet__weld_bound_at(&kept->bound, &load);
        if (bound > *most_out) {
            worst = c;
            *most_out = bound;
        }
    }
    return worst;
}

/* What the end that may use most uses somewhere in its worst case. */
void trivet__weld_bounds(trivet__making *making)
{
    const int32_t ends = 2 * making->frame->tube_count;
    for (int32_t i = 0; i < ends; i++) {
        trivet__weld_kept *const kept = &making->checks->welds[i];
        if (kept->is_checked) {
            trivet__weld_bound_find(&kept->end, kept->reach, &kept->bound);
        }
        making->weld_bounds[i] = most_used_ever(making, kept);
    }
    const int32_t most = trivet__bounds_most(making->weld_bounds, ends);
    double bound = -1.0;
    if (most >= 0 && making->weld_bounds[most] >= 0.0 &&
        trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, making->weld_bounds[most])) {
        trivet__weld_kept *const kept = &making->checks->welds[most];
        double forces[6];
        trivet__weld_load load;
        const int32_t worst = worst_case(making, kept, &bound);
        find_load(making, &kept->end, worst, forces, &load);
        if (trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, bound)) {
            trivet__floor_raise(making, TRIVET_LINE_OVERLOAD, trivet__weld_some_use(kept, &load));
        }
    }
}

static void check_column(trivet__making *making, trivet__weld_kept *kept, int32_t in_case)
{
    double forces[6];
    trivet__weld_load load;
    trivet__weld_force force;
    find_load(making, &kept->end, in_case, forces, &load);
    if (making->is_worst_only &&
        !trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD,
                              trivet__weld_bound_at(&kept->bound, &load))) {
        return;
    }
    const double least = trivet__least_of_interest(making, TRIVET_LINE_OVERLOAD);
    if (trivet__weld_most_used(kept, &load, least, &force)) {
        trivet__record_weld(making, &kept->end, in_case, forces, &load, &force);
    }
}

trivet_status trivet__check_welds(trivet__making *making)
{
    const int32_t ends = 2 * making->frame->tube_count;
    for (int32_t i = 0; i < ends; i++) {
        trivet__weld_kept *const kept = &making->checks->welds[i];
        if (kept->why && omit(making, kept->end.tube, kept->end.joint, kept->why) != TRIVET_OK) {
            return TRIVET_NO_MEMORY;
        }
        const int is_of_interest =
            kept->is_checked &&
            (!making->is_worst_only ||
             trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, making->weld_bounds[i]));
        for (int32_t c = 0; is_of_interest && c < making->columns; c++) {
            check_column(making, kept, c);
        }
    }
    return TRIVET_OK;
}
