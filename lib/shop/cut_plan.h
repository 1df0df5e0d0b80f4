/*
 * How the ends of all tubes are cut: who meets whom at a joint, the rule that says who gives way,
 * and the plane or cylinder that each end is cut on.
 */
#ifndef TRIVET_SHOP_CUT_PLAN_H
#define TRIVET_SHOP_CUT_PLAN_H

#include "frame/frame.h"
#include "shop/silhouette.h"
#include "trivet/shop.h"

/* What there is to say of an end, as bits. */
enum {
    TRIVET__END_OVERHANGS = 1,  /* wider than the face it butts against */
    TRIVET__END_COPED = 2,      /* no round tube, sits on a round one: hollowed by hand */
    TRIVET__END_EARS = 4,       /* wider than the round tube it sits on */
    TRIVET__END_PASSES = 8,     /* runs past the tubes there without touching them */
    TRIVET__END_UNSIZED = 16,   /* meets stock without sizes, or is of it */
    TRIVET__END_OPEN_FACE = 32, /* butts against an angle or channel: by its outer sizes */
    TRIVET__END_FLATTENED = 64  /* cut flat against a round tube, as wished */
};

/* One end of one tube; lengths outwards along the tube from where the model's tube ends. */
typedef struct trivet__end {
    int32_t tube;
    int32_t joint;
    int32_t is_last;
    int32_t wish; /* a trivet_cut: AS_RULED if nothing was said */
    int32_t cut;  /* a trivet_cut */
    int32_t onto; /* tube; -1 */
    uint32_t notes;
    double point[3];  /* m, world: where the model's tube ends */
    double out[3];    /* unit vector along the tube, outwards */
    double axes[9];   /* of the tube */
    double normal[3]; /* of the cut's plane, outwards; of a saddle along out */
    double beyond;
    double longest;
    double shortest;
    double mean; /* over the outline */
    double angle;
    double towards;
} trivet__end;

typedef struct trivet__cut_plan {
    const trivet_frame *frame;
    const trivet_shop *shop;
    trivet__end *ends;               /* [tube_count][2] */
    trivet__silhouette *silhouettes; /* [stock_count] */
    int32_t *bend_of;                /* [tube_count] bent piece that it belongs to; -1 */
    int32_t crossings;               /* joints at which several tubes run through each other */
    int32_t crossing;                /* the first of them; -1 */
} trivet__cut_plan;

/* Makes the plan of all ends; shop is sound in its numbers. Clear it after use, also on failure. */
trivet_status trivet__cut_plan_make(const trivet_frame *frame, const trivet_shop *shop,
                                    trivet__cut_plan *plan_out, trivet_message *message);
void trivet__cut_plan_clear(trivet__cut_plan *plan);

/* Decides on the ends of one joint: their cuts, not yet their planes. */
trivet_status trivet__cut_rule(trivet__cut_plan *plan, int32_t joint, trivet_message *message);

/* The planes of the ends of one joint, once the rule has spoken. */
trivet_status trivet__cut_joint(trivet__cut_plan *plan, int32_t joint, trivet_message *message);

/* Numbers of the settings that need no frame to be judged. */
trivet_status trivet__shop_numbers(const trivet_frame *frame, const trivet_shop *shop,
                                   trivet_message *message);

/* Looks whether bent pieces can be bent, and marks their tubes and joined ends. */
trivet_status trivet__bends_mark(trivet__cut_plan *plan, trivet_message *message);

/* The end of a tube at a joint; NULL if the tube does not end there. */
trivet__end *trivet__plan_end(const trivet__cut_plan *plan, int32_t tube, int32_t joint);

/* Whether a tube runs on through a joint that is not its end. */
int trivet__runs_through(const trivet_frame *frame, int32_t tube, int32_t joint);

const trivet__silhouette *trivet__tube_silhouette(const trivet__cut_plan *plan, int32_t tube);

/* Whether two ends can be mitred: their outlines are each other's image in the plane between. */
int trivet__ends_match(const trivet__cut_plan *plan, const trivet__end *one,
                       const trivet__end *other);

/* A line of the tube's outside against a cylinder about the axis of another tube. */
typedef struct trivet__saddle {
    const trivet__end *end;
    double axis[3];  /* unit vector along the other tube, leaning outwards along this one */
    double place[3]; /* m, world, on its axis */
    double radius;   /* m, of the other with the gap */
} trivet__saddle;

/* Length of the tube at a point of its outline, outwards as above; user is a trivet__saddle. */
double trivet__saddle_length(const void *user, const double point[2]);

void trivet__saddle_find(const trivet__cut_plan *plan, const trivet__end *end,
                         trivet__saddle *saddle_out);

/* Sine of the flattest angle at which a tube can be cut to fit another. */
#define TRIVET__FLATTEST 0.02

/* How far a tube's outside reaches from its axis in a direction of the world. */
double trivet__reach_along(const trivet__silhouette *of, const double axes[9], const double v[3]);

/* Angle round the tube from its top, right-handed about x, of a direction. */
double trivet__angle_round(const double axes[9], const double v[3]);

/* Cuts an end on the plane with this normal, through its centre line at beyond; or square. */
void trivet__cut_flat(const trivet__cut_plan *plan, trivet__end *end, const double normal[3],
                      double beyond);
void trivet__cut_square(const trivet__cut_plan *plan, trivet__end *end, double beyond);
void trivet__cut_miter(const trivet__cut_plan *plan, trivet__end *end, const trivet__end *other);
/* On the round tube `onto`. */
void trivet__cut_saddle(const trivet__cut_plan *plan, trivet__end *end);

/* Where two axes come nearest: half-way between; returns how far apart they are there. */
double trivet__axes_meet(const trivet__end *one, const trivet__end *other, double out[3]);

/* Where the axis of an end enters another tube, taken as endless. */
typedef struct trivet__entry {
    int32_t tube;     /* -1: none */
    double way;       /* m beyond the end */
    double normal[3]; /* into the other tube */
    int face;         /* 1: across its y, 2: across its z; 0: round */
} trivet__entry;

/* The tube that an end meets first. */
void trivet__host_find(const trivet__cut_plan *plan, const trivet__end *end, trivet__entry *first);

/* Refuses an end: "tube NAME, cut at JOINT". */
trivet_status trivet__refuse_end(const trivet__cut_plan *plan, const trivet__end *end,
                                 trivet_message *message, const char *problem, const char *remedy);

#endif
