/*
 * The mesh of a straight piece: walls outside and inside, a face at each end, and for open sections
 * the faces at the tips of the legs. Triangles run counter-clockwise seen from outside; those whose
 * corners coincide are dropped. With x along the piece and the paths counter-clockwise about x,
 * (along the path) cross (along x) points out of the outer wall.
 */
#include "report/export_glb_mesh.h"

#include <string.h>

/* A corner of the mesh. */
typedef struct corner {
    const trivet__path_point *on;
    double along;   /* m from the start */
    int32_t number; /* of the vertex in its mesh */
} corner;

typedef struct meshing {
    trivet__mesh_data *data;
    const trivet__piece *piece;
    trivet__mesh made;
} meshing;

void trivet__bytes_little(trivet__bytes *bytes, uint32_t value)
{
    const unsigned char four[4] = {
        (unsigned char)(value & 0xFFU), (unsigned char)(value >> 8 & 0xFFU),
        (unsigned char)(value >> 16 & 0xFFU), (unsigned char)(value >> 24)};
    trivet__bytes_add(bytes, four, sizeof four);
}

static void add_float(trivet__bytes *bytes, float value)
{
    uint32_t bits = 0;
    memcpy(&bits, &value, sizeof bits);
    trivet__bytes_little(bytes, bits);
}

static void add_index(meshing *m, int32_t number)
{
    const unsigned char two[2] = {(unsigned char)(number & 0xFF), (unsigned char)(number >> 8)};
    trivet__bytes_add(&m->data->indices, two, sizeof two);
    m->made.index_count++;
}

/* From our axes (x forward, y left, z up) to glTF's (x left, y up, z forward). */
static void turn(const double ours[3], float theirs[3])
{
    theirs[0] = (float)ours[1];
    theirs[1] = (float)ours[2];
    theirs[2] = (float)ours[0];
}

static void place_of(const meshing *m, const corner *at, float out[3])
{
    const trivet__piece *const piece = m->piece;
    double place[3];
    for (int i = 0; i < 3; i++) {
        place[i] = piece->start[i] + at->along * piece->axes[i] +
                   at->on->at[0] * piece->axes[3 + i] + at->on->at[1] * piece->axes[6 + i];
    }
    turn(place, out);
}

/* Adds a vertex with a normal in the piece's axes; the corner gets its number. */
static void add_vertex(meshing *m, corner *at, const double normal[3])
{
    const trivet__piece *const piece = m->piece;
    float place[3];
    float out[3];
    double world[3];
    for (int i = 0; i < 3; i++) {
        world[i] = normal[0] * piece->axes[i] + normal[1] * piece->axes[3 + i] +
                   normal[2] * piece->axes[6 + i];
    }
    place_of(m, at, place);
    turn(world, out);
    for (int i = 0; i < 3; i++) {
        add_float(&m->data->positions, place[i]);
        add_float(&m->data->normals, out[i]);
        const int is_first = m->made.vertex_count == 0;
        m->made.least[i] = is_first || place[i] < m->made.least[i] ? place[i] : m->made.least[i];
        m->made.most[i] = is_first || place[i] > m->made.most[i] ? place[i] : m->made.most[i];
    }
    at->number = m->made.vertex_count++;
}

static int coincide(const meshing *m, const corner *a, const corner *b)
{
    float one[3];
    float other[3];
    place_of(m, a, one);
    place_of(m, b, other);
    return one[0] == other[0] && one[1] == other[1] && one[2] == other[2];
}

static void add_triangle(meshing *m, const corner *a, const corner *b, const corner *c)
{
    if (!coincide(m, a, b) && !coincide(m, b, c) && !coincide(m, c, a)) {
        add_index(m, a->number);
        add_index(m, b->number);
        add_index(m, c->number);
    }
}

/* Four corners counter-clockwise. */
static void add_quad(meshing *m, const corner quad[4])
{
    add_triangle(m, &quad[0], &quad[1], &quad[2]);
    add_triangle(m, &quad[0], &quad[2], &quad[3]);
}

/*
 * A wall along a path. Each point is a vertex at both ends of the piece: number 2 i and 2 i + 1
 * from base on.
 */
static void add_walls(meshing *m, const trivet__path_point *path, int is_inner)
{
    const trivet__solid *const solid = m->piece->solid;
    const int32_t base = m->made.vertex_count;
    for (int32_t i = 0; i < solid->count; i++) {
        const double normal[3] = {0.0, path[i].normal[0], path[i].normal[1]};
        corner at = {&path[i], 0.0, 0};
        add_vertex(m, &at, normal);
        at.along = m->piece->length;
        add_vertex(m, &at, normal);
    }
    for (int32_t i = 0; i + 1 < solid->count + solid->is_loop; i++) {
        const int32_t j = (i + 1) % solid->count;
        const double length = m->piece->length;
        const corner a = {&path[i], 0.0, base + 2 * i};
        const corner b = {&path[j], 0.0, base + 2 * j};
        const corner c = {&path[j], length, base + 2 * j + 1};
        const corner d = {&path[i], length, base + 2 * i + 1};
        const corner out[4] = {a, b, c, d};
        const corner in[4] = {a, d, c, b};
        add_quad(m, is_inner ? in : out);
    }
}

/* The face at an end: between the two paths. */
static void add_face(meshing *m, int is_last)
{
    const trivet__solid *const solid = m->piece->solid;
    const int32_t base = m->made.vertex_count;
    const double along = is_last ? m->piece->length : 0.0;
    const double normal[3] = {is_last ? 1.0 : -1.0, 0.0, 0.0};
    for (int32_t i = 0; i < solid->count; i++) {
        corner outer = {&solid->outer[i], along, 0};
        corner inner = {&solid->inner[i], along, 0};
        add_vertex(m, &outer, normal);
        add_vertex(m, &inner, normal);
    }
    for (int32_t i = 0; i + 1 < solid->count + solid->is_loop; i++) {
        const int32_t j = (i + 1) % solid->count;
        const corner a = {&solid->outer[i], along, base + 2 * i};
        const corner b = {&solid->outer[j], along, base + 2 * j};
        const corner c = {&solid->inner[j], along, base + 2 * j + 1};
        const corner d = {&solid->inner[i], along, base + 2 * i + 1};
        const corner last[4] = {a, b, c, d};
        const corner first[4] = {a, d, c, b};
        add_quad(m, is_last ? last : first);
    }
}

/* The face at the tip of a leg: its normal points along the path, away from the leg. */
static void add_tip(meshing *m, int is_last)
{
    const trivet__solid *const solid = m->piece->solid;
    const int32_t i = is_last ? solid->count - 1 : 0;
    const trivet__path_point *const outer = &solid->outer[i];
    const double sign = is_last ? 1.0 : -1.0;
    const double normal[3] = {0.0, -sign * outer->normal[1], sign * outer->normal[0]};
    corner quad[4] = {{outer, 0.0, 0},
                      {outer, m->piece->length, 0},
                      {&solid->inner[i], m->piece->length, 0},
                      {&solid->inner[i], 0.0, 0}};
    for (int k = 0; k < 4; k++) {
        add_vertex(m, &quad[k], normal);
    }
    const corner turned[4] = {quad[0], quad[3], quad[2], quad[1]};
    add_quad(m, is_last ? turned : quad);
}

trivet__mesh trivet__mesh_add(trivet__mesh_data *data, const trivet__piece *piece)
{
    meshing m = {.data = data, .piece = piece};
    m.made.vertex_offset = (int64_t)data->positions.length;
    m.made.index_offset = (int64_t)data->indices.length;
    add_walls(&m, piece->solid->outer, 0);
    add_walls(&m, piece->solid->inner, 1);
    add_face(&m, 0);
    add_face(&m, 1);
    if (!piece->solid->is_loop) {
        add_tip(&m, 0);
        add_tip(&m, 1);
    }
    return m.made;
}
