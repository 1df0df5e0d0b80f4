/*
 * Where a tube can crack at a joint: beside the weld at its end, beside what is fastened onto it,
 * at a hole for a bolt.
 *
 * Of a weld that runs along a share of the outline only, that share alone hands the stress on, so
 * the tube's stress counts 1 / share times there. A hole takes its diameter out of the wall that it
 * goes through, so the stress counts width / (width - diameter) times; that wall is taken for the
 * whole section, which asks a little too much of bending. Both are our own, from balance alone.
 */
#include "base/vec3.h"
#include "checks/bolt_parts.h"
#include "checks/check_crack.h"
#include "checks/demand.h"
#include "checks/joint_shape.h"
#include "checks/weld_strength.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* Below this, Pa, a metal is taken for aluminium: 70e9; steel has 190e9 and more. */
#define ALUMINIUM_MOST 100e9

/* The sides of an outline, as bits of trivet_weld.sides. */
#define UPRIGHT (TRIVET_SIDE_LEFT | TRIVET_SIDE_RIGHT)

static int is_hollow(const trivet_profile *profile)
{
    return profile->shape == TRIVET_SHAPE_SQUARE_TUBE ||
           profile->shape == TRIVET_SHAPE_RECTANGULAR_TUBE ||
           profile->shape == TRIVET_SHAPE_ROUND_TUBE;
}

static trivet__crack_place new_place(const trivet__making *making, int32_t kind, int32_t tube,
                                     int32_t position)
{
    const int32_t stock = making->frame->tubes[tube].stock;
    const trivet_profile *const profile = &making->frame->stocks[stock].profile;
    const trivet_section *const section = &making->frame->stocks[stock].section;
    trivet__crack_place place = {
        .kind = kind, .tube = tube, .position = position, .raise = 1.0, .is_said = 1};
    place.is_thin = is_hollow(profile) && profile->wall < TRIVET__WALL_TESTED;
    place.is_aluminium = making->frame->stocks[stock].material.E < ALUMINIUM_MOST;
    if (section->point_count == 0 && !(section->outer_radius > 0.0)) {
        place.why = "the section moduli of its stock are not given";
    }
    return place;
}

static void set_detail(trivet__crack_place *place, const trivet__detail *detail, int32_t shear)
{
    place->detail = detail;
    place->category = detail->category;
    place->shear_category = trivet__detail_at(shear)->category;
    if (place->is_aluminium) {
        place->why = "aluminium has rules of its own (EN 1999-1-3), which are not built in";
    }
}

static int mount_has_bolts(const trivet_frame *frame, int32_t mount)
{
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        if (frame->bolts[i].where_kind == TRIVET_KIND_MOUNT &&
            frame->bolts[i].where_index == mount) {
            return 1;
        }
    }
    return 0;
}

static int is_end(const trivet__tube *tube, int32_t position)
{
    return position == 0 || position == tube->joint_count - 1;
}

static const trivet_weld *own_weld(const trivet__tube *tube, int32_t position)
{
    return position == 0 ? &tube->weld_first : &tube->weld_last;
}

/* The weld of a tube's end; of two that end together, one weld joins them and stands with either.
 */
static const trivet_weld *weld_at(const trivet__making *making, int32_t tube, int32_t position)
{
    const trivet_frame *const frame = making->frame;
    const trivet_weld *const own = own_weld(&frame->tubes[tube], position);
    const int32_t joint = frame->tubes[tube].joints[position];
    trivet__meeting meeting;
    trivet__meeting_find(making, joint, &meeting);
    if (own->kind != TRIVET_WELD_NOT_SAID || meeting.through >= 0 || meeting.end_count != 2) {
        return own;
    }
    const int32_t other = meeting.ends[meeting.ends[0] == tube];
    return own_weld(&frame->tubes[other], frame->tubes[other].joints[0] == joint
                                              ? 0
                                              : frame->tubes[other].joint_count - 1);
}

/* Whether a tube's end is welded to something, or may be. A hinge is no weld unless said. */
static int has_toe(const trivet__making *making, int32_t tube, int32_t position)
{
    const trivet__tube *const of = &making->frame->tubes[tube];
    const int32_t joint = of->joints[position];
    if (!is_end(of, position) || !trivet__end_is_welded(making->frame, tube, joint)) {
        return 0;
    }
    const int32_t kind = weld_at(making, tube, position)->kind;
    const int is_hinged = (position == 0 ? of->free_first : of->free_last) != 0;
    if (kind == TRIVET_WELD_NONE || (is_hinged && kind == TRIVET_WELD_NOT_SAID)) {
        return 0;
    }
    if (making->meets[joint] >= 2) {
        return 1;
    }
    const int32_t mount = making->around->mounts[joint];
    return mount >= 0 && (kind != TRIVET_WELD_NOT_SAID || !mount_has_bolts(making->frame, mount));
}

/* The share of the outline along which a weld runs; not a number if the outline is not known. */
static double welded_share(const trivet_section *section, const trivet_weld *weld)
{
    if (weld->kind == TRIVET_WELD_NOT_SAID) {
        return 1.0;
    }
    if (weld->kind == TRIVET_WELD_SPOTS) {
        const double share = weld->spot_count * weld->spot_diameter / section->perimeter;
        return share > 1.0 ? 1.0 : share;
    }
    const double upright = section->outer_radius > 0.0 ? 1.0 : section->height;
    const double level = section->outer_radius > 0.0 ? 1.0 : section->width;
    double length = 0.0;
    if (weld->sides == TRIVET_SIDES_ALL) {
        return weld->run;
    }
    for (uint32_t side = 1; side < TRIVET_SIDES_ALL; side *= 2) {
        if (weld->sides & side) {
            length += side & UPRIGHT ? upright : level;
        }
    }
    return weld->run * length / (2.0 * (upright + level));
}

static const trivet__detail *toe_detail(int32_t shape, const trivet_weld *weld)
{
    const int is_all_round =
        weld->kind == TRIVET_WELD_FILLET && weld->sides == TRIVET_SIDES_ALL && weld->run == 1.0;
    if (is_all_round && shape == TRIVET_SHAPE_ROUND_TUBE) {
        return trivet__detail_at(TRIVET__DETAIL_ROUND_END);
    }
    const int is_box = shape == TRIVET_SHAPE_SQUARE_TUBE || shape == TRIVET_SHAPE_RECTANGULAR_TUBE;
    return trivet__detail_at(is_all_round && is_box ? TRIVET__DETAIL_BOX_END
                                                    : TRIVET__DETAIL_LOWEST);
}

/* Beside the weld. */
static void find_toe(const trivet__making *making, int32_t tube, int32_t position,
                     const trivet_weld *weld, trivet__crack_place *out)
{
    const int32_t stock = making->frame->tubes[tube].stock;
    trivet__crack_place place = new_place(making, TRIVET__CRACK_TOE, tube, position);
    place.size = welded_share(&making->frame->stocks[stock].section, weld);
    place.raise = 1.0 / place.size;
    place.is_said = weld->kind != TRIVET_WELD_NOT_SAID;
    if (weld->detail > 0.0) {
        place.category = weld->detail;
        place.shear_category = trivet__detail_at(TRIVET__DETAIL_WELD_SHEAR)->category;
    } else {
        set_detail(&place, toe_detail(making->frame->stocks[stock].profile.shape, weld),
                   TRIVET__DETAIL_WELD_SHEAR);
    }
    if (!(place.size > 0.0)) {
        place.why = "the outline of its stock is not given";
    }
    *out = place;
}

/*
 * The wall's stress goes through the throat of a fillet: wall / throat times as much. Of bars,
 * whose weld does not take its stress from a wall, and of spots nothing is told; a category that
 * the user gives speaks for the whole weld, which may have no root at all.
 */
static int find_root(const trivet__making *making, int32_t tube, int32_t position,
                     const trivet_weld *weld, trivet__crack_place *out)
{
    const trivet__stock *const stock = &making->frame->stocks[making->frame->tubes[tube].stock];
    const double wall = stock->profile.wall;
    if (!is_hollow(&stock->profile) || weld->kind == TRIVET_WELD_SPOTS || weld->detail > 0.0) {
        return 0;
    }
    const double throat = weld->throat > 0.0 ? weld->throat : TRIVET__THROAT_PER_WALL * wall;
    trivet__crack_place place = new_place(making, TRIVET__CRACK_ROOT, tube, position);
    place.size = welded_share(&stock->section, weld);
    place.width = wall;
    place.throat = fmin(throat, wall);
    place.raise = place.width / (place.throat * place.size);
    place.is_said = weld->kind != TRIVET_WELD_NOT_SAID;
    set_detail(&place, trivet__detail_at(TRIVET__DETAIL_LOWEST), TRIVET__DETAIL_WELD_SHEAR);
    *out = place;
    return 1;
}

/*
 * How long another tube's seat is along this one, m: its outline, slid along its own axis a onto
 * the face, and seen along this tube's axis c. A point q of the outline that lies in the plane of a
 * and c falls at q / sin(angle). 0 if the tube is not fastened there.
 */
static double seat_length(const trivet__making *making, int32_t tube, int32_t other,
                          int32_t position)
{
    const trivet__tube *const of = &making->frame->tubes[other];
    const trivet_section *const section = &making->frame->stocks[of->stock].section;
    double along[9];
    double axes[9];
    if (is_end(of, position) && !has_toe(making, other, position)) {
        return 0.0;
    }
    trivet__axes_of_tube(making, tube, along);
    trivet__axes_of_tube(making, other, axes);
    const double cosine = trivet__dot3(along, axes);
    const double square = fmax(1.0 - cosine * cosine, 0.0);
    if (section->outer_radius > 0.0) {
        return 2.0 * section->outer_radius / sqrt(square);
    }
    const double width = fabs(trivet__dot3(along, axes + 3)) * section->width;
    const double height = fabs(trivet__dot3(along, axes + 6)) * section->height;
    const double length = (width + height) / square;
    return length > 0.0 ? length : HUGE_VAL;
}

/* The stock that a set of bolts makes a hole in; -1: none is said. -2: it makes no hole. */
static int32_t pierced_stock(const trivet_bolts *bolts)
{
    if (bolts->clamped != TRIVET_CLAMPED_SOLID) {
        return bolts->clamped_stock;
    }
    return bolts->into == TRIVET_INTO_TAPPED || bolts->into == TRIVET_INTO_WALL ? bolts->into_stock
                                                                                : -2;
}

/*
 * Whether a set of bolts goes through a tube: the tubes of the stock that is said; if none there is
 * of it (a plug inside a tube), the tube whose end the bolts hold, or all that meet there.
 */
static int is_pierced(const trivet__making *making, int32_t tube, int32_t joint,
                      const trivet_bolts *bolts)
{
    const trivet_frame *const frame = making->frame;
    const int32_t stock = pierced_stock(bolts);
    int has_match = 0;
    if (bolts->joint != joint || stock == -2) {
        return 0;
    }
    for (int32_t t = 0; t < frame->tube_count; t++) {
        for (int32_t i = 0; frame->tubes[t].stock == stock && i < frame->tubes[t].joint_count;
             i++) {
            has_match = has_match || frame->tubes[t].joints[i] == joint;
        }
    }
    if (has_match) {
        return frame->tubes[tube].stock == stock;
    }
    return bolts->where_kind != TRIVET_KIND_TUBE || bolts->where_index == tube;
}

/* Whether bolts that hold a mount go through a tube. */
static int is_bolted_to(const trivet__making *making, int32_t tube, int32_t mount)
{
    for (int32_t i = 0; i < making->frame->bolts_count; i++) {
        const trivet_bolts *const bolts = &making->frame->bolts[i];
        if (bolts->where_kind == TRIVET_KIND_MOUNT && bolts->where_index == mount &&
            is_pierced(making, tube, bolts->joint, bolts)) {
            return 1;
        }
    }
    return 0;
}

/* Beside what is fastened on where the tube runs on. */
static int find_on(const trivet__making *making, int32_t tube, int32_t position,
                   trivet__crack_place *place_out)
{
    const trivet_frame *const frame = making->frame;
    const trivet__tube *const of = &frame->tubes[tube];
    const int32_t joint = of->joints[position];
    double longest = 0.0;
    for (int32_t r = making->around->starts[joint]; r < making->around->starts[joint + 1]; r++) {
        const trivet__run *const run = &making->around->runs[r];
        if (run->tube != tube) {
            longest = fmax(longest, seat_length(making, tube, run->tube, run->position));
        }
    }
    const int32_t mount = making->around->mounts[joint];
    const int is_held = !(longest > 0.0) && mount >= 0 && !is_end(of, position) &&
                        !is_bolted_to(making, tube, mount);
    if (!(longest > 0.0) && !is_held) {
        return 0;
    }
    trivet__crack_place place =
        new_place(making, is_held ? TRIVET__CRACK_HELD : TRIVET__CRACK_ON, tube, position);
    place.size = longest;
    place.is_said = !is_held;
    set_detail(&place,
               trivet__detail_welded_on(is_held ? HUGE_VAL : longest,
                                        is_hollow(&frame->stocks[of->stock].profile)),
               TRIVET__DETAIL_WELD_SHEAR);
    *place_out = place;
    return 1;
}

int32_t trivet__crack_at(const trivet__making *making, int32_t tube, int32_t position,
                         trivet__crack_place places_out[TRIVET__CRACKS_AT])
{
    if (!has_toe(making, tube, position)) {
        return find_on(making, tube, position, &places_out[0]);
    }
    const trivet_weld *const weld = weld_at(making, tube, position);
    find_toe(making, tube, position, weld, &places_out[0]);
    return 1 + find_root(making, tube, position, weld, &places_out[1]);
}

static double hole_diameter(const trivet_bolts *bolts)
{
    trivet_thread thread;
    trivet_grade grade;
    trivet__bolt_kind(bolts, &thread, &grade);
    if (bolts->clamped == TRIVET_CLAMPED_SOLID) {
        return thread.diameter; /* the hole has a thread in it */
    }
    return isnan(bolts->hole) ? thread.clearance_hole : bolts->hole;
}

/* Width of the wall that the bolts go through; of a round tube a quarter of its outline. */
static double wall_width(const trivet__making *making, int32_t tube, const trivet_bolts *bolts)
{
    const trivet_section *const section =
        &making->frame->stocks[making->frame->tubes[tube].stock].section;
    double axes[9];
    if (section->outer_radius > 0.0) {
        return 0.25 * section->perimeter;
    }
    trivet__axes_of_tube(making, tube, axes);
    const double upward = fabs(trivet__dot3(bolts->axes + 6, axes + 6));
    const double sideways = fabs(trivet__dot3(bolts->axes + 6, axes + 3));
    return upward >= sideways ? section->width : section->height;
}

int trivet__crack_hole(const trivet__making *making, int32_t tube, int32_t position, int32_t bolts,
                       trivet__crack_place *place_out)
{
    const trivet_bolts *const set = &making->frame->bolts[bolts];
    const trivet__tube *const of = &making->frame->tubes[tube];
    if (!is_pierced(making, tube, of->joints[position], set)) {
        return 0;
    }
    trivet__crack_place place = new_place(making, TRIVET__CRACK_HOLE, tube, position);
    place.size = hole_diameter(set);
    place.width = wall_width(making, tube, set);
    place.raise = place.width / (place.width - place.size);
    place.is_thin = 0; /* that is about welds */
    set_detail(&place, trivet__detail_at(TRIVET__DETAIL_HOLE), TRIVET__DETAIL_SHEAR);
    if (!(place.width > place.size)) {
        place.why = "a hole for a bolt leaves nothing of the wall, or its width is not given";
    }
    *place_out = place;
    return 1;
}
