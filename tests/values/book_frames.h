/*
 * The frames of frames.csv as data, in SI units and the books' axes: X to the right, Y up, Z out of
 * the page. Ours are x = X, y = -Z, z = Y.
 */
#ifndef TRIVET_TESTS_BOOK_FRAMES_H
#define TRIVET_TESTS_BOOK_FRAMES_H

enum { BOOK_MOST = 8 };

/* Holds, in the book's axes. */
enum {
    BOOK_X = 1,
    BOOK_Y = 2,
    BOOK_Z = 4,
    BOOK_RX = 8,
    BOOK_RY = 16,
    BOOK_RZ = 32,
    BOOK_FIXED = 63,
    BOOK_PINNED = 7
};

typedef struct book_joint {
    const char *label; /* NULL ends the list */
    double place[3];   /* m */
    unsigned held;
    double load[6]; /* N, N m */
} book_joint;

typedef struct book_member {
    const char *from; /* NULL ends the list */
    const char *to;
    int stock;
    double middle[3]; /* N, at the middle */
    double line[3];   /* N/m, per length of the member */
} book_member;

typedef struct book_stock {
    double E, G; /* Pa */
    double area;
    double bending, twist;
    double shear_area; /* 0 for Euler-Bernoulli */
} book_stock;

typedef struct book_frame {
    const char *name; /* how the case begins */
    const char *beam; /* how the row's symbol must end; "" for any */
    int is_plane;     /* all joints are held in Z, RX, RY as well */
    int is_truss;     /* all members are pinned at both ends */
    book_joint joints[BOOK_MOST];
    book_member members[BOOK_MOST];
    book_stock stocks[3];
} book_frame;

/* Ends with a frame whose name is NULL. */
extern const book_frame book_frames[];

#endif
