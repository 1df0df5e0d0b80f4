/*
 * Every row of frames.csv, to the row's own tolerance. The frames stand in book_frames.c; a row's
 * quantity and symbol say what is asked: "u2" movement along X of joint 2, "Fx_a" or "Fx node 5"
 * what a mount does, "sigma_1" pull over area of the first bar, and the forces on the ends of a
 * member in its own axes.
 *
 * Books turn Y up: (X, Y, Z) there is (x, z, -y) here, for places, forces, moments and turns alike.
 */
#include "book_frames.h"
#include "value_frame.h"

#include "support/near.h"
#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROW_COUNT = 177 };

static table *rows;

typedef struct solved {
    const book_frame *book;
    trivet_frame *frame;
    trivet_result *result;
    int32_t mounts[BOOK_MOST]; /* of each joint, or -1 */
} solved;

/* ours[3] = (X, -Z, Y). */
static void to_ours(const double book[3], double ours[3])
{
    ours[0] = book[0];
    ours[1] = -book[2];
    ours[2] = book[1];
}

static void to_book(const double ours[3], double book[3])
{
    book[0] = ours[0];
    book[1] = ours[2];
    book[2] = -ours[1];
}

/* Holds in our axes: Y and Z change places, their turns as well. */
static uint32_t holds_to_ours(unsigned held)
{
    uint32_t ours = held & (BOOK_X | BOOK_RX);
    ours |= (held & BOOK_Y) != 0 ? (uint32_t)TRIVET_Z : 0U;
    ours |= (held & BOOK_Z) != 0 ? (uint32_t)TRIVET_Y : 0U;
    ours |= (held & BOOK_RY) != 0 ? (uint32_t)TRIVET_RZ : 0U;
    ours |= (held & BOOK_RZ) != 0 ? (uint32_t)TRIVET_RY : 0U;
    return ours;
}

/* The number of a joint by its label, or -1. */
static int32_t joint_number(const book_frame *book, const char *label)
{
    for (int32_t i = 0; i < BOOK_MOST && book->joints[i].label; i++) {
        if (strcmp(book->joints[i].label, label) == 0) {
            return i;
        }
    }
    return -1;
}

static void add_joints(const book_frame *book, solved *out)
{
    for (int32_t i = 0; i < BOOK_MOST && book->joints[i].label; i++) {
        const book_joint *joint = &book->joints[i];
        double place[3];
        double force[3];
        double moment[3];
        to_ours(joint->place, place);
        to_ours(joint->load, force);
        to_ours(joint->load + 3, moment);
        value_add_joint(out->frame, place[0], place[1], place[2]);
        const unsigned plane = book->is_plane ? BOOK_Z | BOOK_RX | BOOK_RY : 0U;
        const uint32_t held = holds_to_ours(joint->held | plane);
        out->mounts[i] = held ? must_add_mount(out->frame, i, held) : -1;
        value_add_force(out->frame, i, force[0], force[1], force[2]);
        value_add_moment(out->frame, i, moment[0], moment[1], moment[2]);
    }
}

static void add_members(const book_frame *book, trivet_frame *frame)
{
    for (int i = 0; i < BOOK_MOST && book->members[i].from; i++) {
        const book_member *member = &book->members[i];
        const int32_t first = joint_number(book, member->from);
        const int32_t last = joint_number(book, member->to);
        const int32_t tube = value_add_tube(frame, first, last, member->stock);
        double middle[3];
        double line[3];
        to_ours(member->middle, middle);
        to_ours(member->line, line);
        const double half = 0.5 * trivet_frame_tube_length(frame, tube);
        ck_assert_int_eq(trivet_frame_add_tube_force(frame, 0, tube, half, middle, NULL,
                                                     TRIVET_WORLD_AXES, NULL),
                         TRIVET_OK);
        ck_assert_int_eq(trivet_frame_add_tube_line(frame, 0, tube, 0.0, (double)NAN, line, line,
                                                    TRIVET_WORLD_AXES, NULL),
                         TRIVET_OK);
        if (book->is_truss) {
            ck_assert_int_eq(trivet_frame_set_free_end(frame, tube, first, TRIVET_PINNED, NULL),
                             TRIVET_OK);
            ck_assert_int_eq(trivet_frame_set_free_end(frame, tube, last, TRIVET_PINNED, NULL),
                             TRIVET_OK);
        }
    }
}

static solved solve_book(const book_frame *book)
{
    solved out = {.book = book, .frame = value_frame_new()};
    for (int i = 0; i < 3 && book->stocks[i].E > 0.0; i++) {
        const book_stock *from = &book->stocks[i];
        const value_stock stock = {from->E,     from->G,          from->area, from->bending,
                                   from->twist, from->shear_area, 0.0};
        value_add_stock(out.frame, &stock);
    }
    add_joints(book, &out);
    add_members(book, out.frame);
    out.result = must_solve(out.frame);
    return out;
}

static void free_solved(solved *done)
{
    trivet_result_free(done->result);
    trivet_frame_free(done->frame);
}

static int ends_with(const char *text, const char *end)
{
    const size_t length = strlen(text);
    return length >= strlen(end) && strcmp(text + length - strlen(end), end) == 0;
}

static const book_frame *find_book(int row)
{
    for (const book_frame *book = book_frames; book->name; book++) {
        if (strncmp(table_text(rows, row, "case"), book->name, strlen(book->name)) == 0 &&
            ends_with(table_text(rows, row, "symbol"), book->beam)) {
            return book;
        }
    }
    return NULL;
}

/* SI value of one of the row's unit. */
static double unit_size(const char *unit)
{
    const double inch = 0.0254;
    const double pound = 0.45359237 * 9.80665;
    const struct {
        const char *unit;
        double size;
    } units[] = {
        {"in", inch},
        {"mm", 1e-3},
        {"m", 1.0},
        {"rad", 1.0},
        {"N", 1.0},
        {"kN", 1e3},
        {"lb", pound},
        {"kip", 1e3 * pound},
        {"kN mm", 1.0},
        {"kN m", 1e3},
        {"lb in", pound * inch},
        {"kip in", 1e3 * pound * inch},
        {"psi", pound / (inch * inch)},
    };
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strcmp(units[i].unit, unit) == 0) {
            return units[i].size;
        }
    }
    return (double)NAN;
}

/* The direction, 0 to 5, whose name a symbol begins with; *rest_out is what follows. */
static int read_direction(const char *symbol, const char *const names[6], const char **rest_out)
{
    for (int i = 0; i < 6; i++) {
        const size_t length = strlen(names[i]);
        if (strncmp(symbol, names[i], length) == 0) {
            *rest_out = symbol + length + (symbol[length] == '_');
            return i;
        }
    }
    return -1;
}

/* The first word of a text. */
static void first_word(const char *text, char word[16])
{
    size_t length = strcspn(text, " ");
    length = length < 15 ? length : 15;
    memcpy(word, text, length);
    word[length] = '\0';
}

static double pick_of_six(const double ours[6], int direction)
{
    double book[3];
    to_book(direction < 3 ? ours : ours + 3, book);
    return book[direction % 3];
}

/* "u2", "rz_A", "v4 Euler-Bernoulli". */
static double ask_movement(const solved *done, const char *symbol)
{
    static const char *const names[6] = {"u", "v", "w", "rx", "ry", "rz"};
    const char *rest = "";
    char label[16];
    const int direction = read_direction(symbol, names, &rest);
    first_word(rest, label);
    const int32_t joint = joint_number(done->book, label);
    ck_assert_msg(direction >= 0 && joint >= 0, "no such movement: %s", symbol);
    return pick_of_six(value_move(done->result, joint), direction);
}

/* "Fx1", "Mz_a", "Fx node 5 Euler-Bernoulli"; or "Fx" with the node in the row's quantity. */
static double ask_reaction(const solved *done, const char *quantity, const char *symbol)
{
    static const char *const names[6] = {"Fx", "Fy", "Fz", "Mx", "My", "Mz"};
    const char *rest = "";
    char label[16];
    const int direction = read_direction(symbol, names, &rest);
    const char *node = strstr(symbol, " node ");
    if (!node) {
        node = strstr(quantity, " node ");
    }
    first_word(node ? node + strlen(" node ") : rest, label);
    const int32_t joint = joint_number(done->book, label);
    ck_assert_msg(direction >= 0 && joint >= 0 && done->mounts[joint] >= 0,
                  "no such reaction: %s, %s", quantity, symbol);
    return pick_of_six(value_reaction(done->result, done->mounts[joint]), direction);
}

static double ask_stress(const solved *done, const char *symbol)
{
    int bar = 0;
    ck_assert_int_eq(sscanf(symbol, "sigma_%d", &bar), 1);
    double forces[6];
    value_at(done->result, bar - 1, 0.0, forces, NULL);
    return forces[0] / done->book->stocks[done->book->members[bar - 1].stock].area;
}

/*
 * What acts on an end of a member of a plane frame, in its own axes (x along it, y a quarter turn
 * anticlockwise from x): axial, shear, moment. Section forces act on the face with normal +x, so
 * those on the first end change sign.
 */
static void act_on_end(const solved *done, int32_t tube, int at_last, double action[3])
{
    trivet_span span;
    ck_assert_int_eq(trivet_span_defaults(&span, sizeof span), TRIVET_OK);
    ck_assert_int_eq(
        trivet_result_span(done->result, trivet_result_tube_spans(done->result, tube, NULL), &span),
        TRIVET_OK);
    double forces[6];
    value_at(done->result, tube, at_last ? span.length : 0.0, forces, NULL);
    double ours[6] = {0.0};
    for (int k = 0; k < 3; k++) {
        for (int i = 0; i < 3; i++) {
            ours[i] += forces[k] * span.axes[3 * k + i];
            ours[3 + i] += forces[3 + k] * span.axes[3 * k + i];
        }
    }
    double force[3];
    double moment[3];
    double along[3];
    to_book(ours, force);
    to_book(ours + 3, moment);
    to_book(span.axes, along);
    const double side = at_last ? 1.0 : -1.0;
    action[0] = side * (force[0] * along[0] + force[1] * along[1]);
    action[1] = side * (force[1] * along[0] - force[0] * along[1]);
    action[2] = side * moment[2];
}

/* "f1x local member 1", "m2 member 1"; "shear at A" of "member BA end action". */
static double ask_end(const solved *done, const char *quantity, const char *symbol)
{
    static const struct {
        const char *quantity;
        const char *symbol;
        int tube;
        int at_last;
        int which;
    } asked[] = {
        {"member end force", "f1x local member 1", 0, 0, 0},
        {"member end force", "f1y local member 1", 0, 0, 1},
        {"member end force", "m1 member 1", 0, 0, 2},
        {"member end force", "m2 member 1", 0, 1, 2},
        {"member BA end action", "axial at B", 0, 0, 0},
        {"member BA end action", "shear at B", 0, 0, 1},
        {"member BA end action", "moment at B", 0, 0, 2},
        {"member BA end action", "shear at A", 0, 1, 1},
        {"member BA end action", "moment at A", 0, 1, 2},
        {"member AC end action", "axial at A", 1, 0, 0},
        {"member AC end action", "shear at A", 1, 0, 1},
        {"member AC end action", "moment at A", 1, 0, 2},
        {"member AC end action", "axial at C", 1, 1, 0},
        {"member AC end action", "shear at C", 1, 1, 1},
        {"member AC end action", "moment at C", 1, 1, 2},
    };
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        if (strcmp(asked[i].quantity, quantity) == 0 && strcmp(asked[i].symbol, symbol) == 0) {
            double action[3];
            act_on_end(done, asked[i].tube, asked[i].at_last, action);
            return action[asked[i].which];
        }
    }
    ck_abort_msg("no such end action: %s, %s", quantity, symbol);
    return (double)NAN;
}

static double ask(const solved *done, int row)
{
    const char *quantity = table_text(rows, row, "quantity");
    const char *symbol = table_text(rows, row, "symbol");
    if (strncmp(quantity, "displacement", strlen("displacement")) == 0) {
        return ask_movement(done, symbol);
    }
    if (strncmp(quantity, "reaction", strlen("reaction")) == 0) {
        return ask_reaction(done, quantity, symbol);
    }
    if (strncmp(quantity, "bar stress", strlen("bar stress")) == 0) {
        return ask_stress(done, symbol);
    }
    return ask_end(done, quantity, symbol);
}

START_TEST(row_agrees)
{
    const book_frame *book = find_book(_i);
    ck_assert_msg(book != NULL, "%s: no frame for it", table_text(rows, _i, "id"));
    solved done = solve_book(book);
    const double got = ask(&done, _i) / unit_size(table_text(rows, _i, "unit"));
    free_solved(&done);
    const double want = table_number(rows, _i, "expected");
    const double tolerance = table_number(rows, _i, "tol_abs");
    ck_assert_msg(fabs(got - want) <= tolerance,
                  "%s (%s, %s, %s): %.9g, wanted %.9g %s, off by %.3g, allowed %.3g",
                  table_text(rows, _i, "id"), table_text(rows, _i, "case"),
                  table_text(rows, _i, "quantity"), table_text(rows, _i, "symbol"), got, want,
                  table_text(rows, _i, "unit"), got - want, tolerance);
}
END_TEST

START_TEST(no_row_is_added_or_lost_unseen)
{
    ck_assert_int_eq(table_rows(rows), ROW_COUNT);
}
END_TEST

int main(void)
{
    rows = table_read(TEST_DATA "/frames.csv");
    TCase *const tests = TESTS(no_row_is_added_or_lost_unseen);
    tcase_add_loop_test(tests, row_agrees, 0, table_rows(rows));
    const int status = run_tests("frames", tests);
    table_free(rows);
    return status;
}
