/*
 * Binary glTF 2.0 (ISO/IEC 12113): twelve bytes, a chunk of JSON, a chunk of numbers.
 */
#include "report/export_glb_mesh.h"
#include "report/export_used.h"
#include "trivet/report_export.h"

#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "base/vec3.h"

#include <assert.h>
#include <string.h>

enum {
    FLOAT = 5126,
    SHORT = 5123,
    VERTICES = 34962,
    INDICES = 34963
}; /* numbers of the standard */

enum { NODE_NAME_MAX = 2 * TRIVET_NAME_MAX + 16 };

/* How tubes are told apart: by name, and by colour (red, green, blue, linear). */
typedef struct look {
    const char *name;
    const char *colour;
} look;

static const look LOOKS[] = {
    {"not checked", "0.4,0.4,0.4"}, {"holds, used up to half", "0.05,0.3,0.45"},
    {"holds", "0.1,0.45,0.25"},     {"tight", "0.8,0.45,0.02"},
    {"may crack", "0.55,0.1,0.5"},  {"fails", "0.7,0.03,0.03"},
    {"insert", "0.15,0.15,0.15"},
};

enum { LOOK_COUNT = (int)(sizeof LOOKS / sizeof LOOKS[0]), LOOK_INSERT = LOOK_COUNT - 1 };

typedef struct node {
    trivet__mesh mesh;
    int32_t tube;
    int32_t insert_stock; /* -1: the tube itself */
    int32_t look;
} node;

typedef struct glb_writing {
    const trivet__handed *of;
    trivet__mesh_data data;
    node *nodes; /* room for a tube and each span's insert */
    int32_t node_count;
    int32_t materials[LOOK_COUNT]; /* number in the file, -1: not used */
    trivet__solid solid;
    trivet_status status;
} glb_writing;

static int32_t look_of(const trivet_checks *checks, int32_t tube)
{
    int32_t verdict = TRIVET_NOT_CHECKED;
    const double used = trivet__tube_used(checks, tube, &verdict);
    switch (verdict) {
    case TRIVET_HOLDS:
        return used <= 0.5 ? 1 : 2;
    case TRIVET_TIGHT:
        return 3;
    case TRIVET_MAY_CRACK:
        return 4;
    case TRIVET_FAILS:
        return 5;
    default:
        return 0;
    }
}

static void end_point(glb_writing *w, int32_t tube, int32_t joint, double out[3])
{
    const double *const at = trivet_frame_position(w->of->frame, joint);
    w->status |= trivet_frame_offset(w->of->frame, tube, joint, out);
    trivet__add3(out, 1.0, at);
}

/* A tube's own line and axes: x from its first to its last joint, z as its first span has it. */
static void place_tube(glb_writing *w, int32_t tube, trivet__piece *piece)
{
    int32_t count = 0;
    const int32_t *const joints = trivet_frame_tube_joints(w->of->frame, tube, &count);
    trivet_span span = {.size = sizeof span};
    double last[3];
    w->status |= trivet_result_span(w->of->result,
                                    trivet_result_tube_spans(w->of->result, tube, NULL), &span);
    end_point(w, tube, joints[0], piece->start);
    end_point(w, tube, joints[count - 1], last);
    trivet__minus3(last, piece->start, piece->axes);
    piece->length = trivet__length3(piece->axes);
    double *const x = piece->axes;
    double *const z = piece->axes + 6;
    memcpy(z, span.axes + 6, 3 * sizeof *z);
    for (int i = 0; i < 3; i++) {
        x[i] /= piece->length;
    }
    trivet__add3(z, -trivet__dot3(z, x), x);
    const double height = trivet__length3(z);
    for (int i = 0; i < 3; i++) {
        z[i] /= height;
    }
    trivet__cross3(z, x, piece->axes + 3);
}

static void add_node(glb_writing *w, const trivet__piece *piece, int32_t stock, node about)
{
    trivet__solid_of(trivet_frame_profile(w->of->frame, stock),
                     trivet_frame_section(w->of->frame, stock), &w->solid);
    about.mesh = trivet__mesh_add(&w->data, piece);
    w->materials[about.look] = 0;
    w->nodes[w->node_count++] = about;
}

static void add_inserts(glb_writing *w, int32_t tube, const trivet__piece *whole)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(w->of->result, tube, &count);
    for (int32_t s = first; s < first + count; s++) {
        trivet_span span = {.size = sizeof span};
        w->status |= trivet_result_span(w->of->result, s, &span);
        if (w->status == TRIVET_OK && span.insert_stock >= 0) {
            trivet__piece piece = *whole;
            trivet__add3(piece.start, span.start, piece.axes);
            piece.length = span.length;
            add_node(w, &piece, span.insert_stock,
                     (node){.tube = tube, .insert_stock = span.insert_stock, .look = LOOK_INSERT});
        }
    }
}

static void add_tubes(glb_writing *w)
{
    const int32_t count = trivet_frame_count(w->of->frame, TRIVET_KIND_TUBE);
    for (int32_t tube = 0; tube < count && w->status == TRIVET_OK; tube++) {
        trivet__piece piece = {.solid = &w->solid};
        place_tube(w, tube, &piece);
        add_node(w, &piece, trivet_frame_tube_stock(w->of->frame, tube),
                 (node){.tube = tube, .insert_stock = -1, .look = look_of(w->of->checks, tube)});
        add_inserts(w, tube, &piece);
    }
}

/* A key with a whole number: "key":7 with a comma before it unless it is the first. */
static void put_whole(trivet__bytes *json, const char *key, int64_t value)
{
    trivet__bytes_text(json, key);
    trivet__bytes_whole(json, value);
}

static void put_materials(glb_writing *w, trivet__bytes *json)
{
    int32_t used = 0;
    trivet__bytes_text(json, ",\"materials\":[");
    for (int i = 0; i < LOOK_COUNT; i++) {
        if (w->materials[i] < 0) {
            continue;
        }
        trivet__bytes_text(json, used > 0 ? ",{\"name\":" : "{\"name\":");
        trivet__bytes_json(json, LOOKS[i].name);
        trivet__bytes_text(json, ",\"pbrMetallicRoughness\":{\"baseColorFactor\":[");
        trivet__bytes_text(json, LOOKS[i].colour);
        trivet__bytes_text(json, ",1],\"metallicFactor\":0,\"roughnessFactor\":0.7}}");
        w->materials[i] = used++;
    }
    trivet__bytes_text(json, "]");
}

static void put_nodes(const glb_writing *w, trivet__bytes *json)
{
    trivet__bytes_text(json, "\"scene\":0,\"scenes\":[{\"nodes\":[");
    for (int32_t i = 0; i < w->node_count; i++) {
        put_whole(json, i > 0 ? "," : "", i);
    }
    trivet__bytes_text(json, "]}],\"nodes\":[");
    for (int32_t i = 0; i < w->node_count; i++) {
        const node *const of = &w->nodes[i];
        const char *const tube = trivet_frame_name(w->of->frame, TRIVET_KIND_TUBE, of->tube);
        char name[NODE_NAME_MAX];
        trivet__text_print(name, sizeof name, "%s%s%s", tube,
                           of->insert_stock < 0 ? "" : ", insert ",
                           of->insert_stock < 0 ? ""
                                                : trivet_frame_name(w->of->frame, TRIVET_KIND_STOCK,
                                                                    of->insert_stock));
        trivet__bytes_text(json, i > 0 ? ",{\"name\":" : "{\"name\":");
        trivet__bytes_json(json, name);
        put_whole(json, ",\"mesh\":", i);
        trivet__bytes_text(json, "}");
    }
    trivet__bytes_text(json, "]");
}

/* Three accessors a mesh: positions, normals, indices. */
static void put_meshes(const glb_writing *w, trivet__bytes *json)
{
    trivet__bytes_text(json, ",\"meshes\":[");
    for (int32_t i = 0; i < w->node_count; i++) {
        trivet__bytes_text(json, i > 0 ? ",{" : "{");
        trivet__bytes_text(json, "\"primitives\":[{\"attributes\":{");
        put_whole(json, "\"POSITION\":", 3 * (int64_t)i);
        put_whole(json, ",\"NORMAL\":", 3 * (int64_t)i + 1);
        put_whole(json, "},\"indices\":", 3 * (int64_t)i + 2);
        put_whole(json, ",\"material\":", w->materials[w->nodes[i].look]);
        trivet__bytes_text(json, "}]}");
    }
    trivet__bytes_text(json, "]");
}

static void put_box(trivet__bytes *json, const char *key, const float box[3])
{
    trivet__bytes_text(json, key);
    for (int i = 0; i < 3; i++) {
        trivet__bytes_text(json, i > 0 ? "," : "[");
        trivet__bytes_number(json, (double)box[i]);
    }
    trivet__bytes_text(json, "]");
}

static void put_accessor(trivet__bytes *json, int view, int64_t offset, int type, int32_t count)
{
    put_whole(json, "{\"bufferView\":", view);
    put_whole(json, ",\"byteOffset\":", offset);
    put_whole(json, ",\"componentType\":", type);
    put_whole(json, ",\"count\":", count);
    trivet__bytes_text(json, type == FLOAT ? ",\"type\":\"VEC3\"" : ",\"type\":\"SCALAR\"");
}

static void put_accessors(const glb_writing *w, trivet__bytes *json)
{
    trivet__bytes_text(json, ",\"accessors\":[");
    for (int32_t i = 0; i < w->node_count; i++) {
        const trivet__mesh *const mesh = &w->nodes[i].mesh;
        trivet__bytes_text(json, i > 0 ? "," : "");
        put_accessor(json, 0, mesh->vertex_offset, FLOAT, mesh->vertex_count);
        put_box(json, ",\"min\":", mesh->least);
        put_box(json, ",\"max\":", mesh->most);
        trivet__bytes_text(json, "},");
        put_accessor(json, 1, mesh->vertex_offset, FLOAT, mesh->vertex_count);
        trivet__bytes_text(json, "},");
        put_accessor(json, 2, mesh->index_offset, SHORT, mesh->index_count);
        trivet__bytes_text(json, "}");
    }
    trivet__bytes_text(json, "]");
}

static void put_view(trivet__bytes *json, int64_t offset, size_t length, int target)
{
    put_whole(json, "{\"buffer\":0,\"byteOffset\":", offset);
    put_whole(json, ",\"byteLength\":", (int64_t)length);
    put_whole(json, ",\"target\":", target);
    trivet__bytes_text(json, target == VERTICES ? ",\"byteStride\":12}" : "}");
}

static void put_buffers(const glb_writing *w, trivet__bytes *json)
{
    const size_t vertices = w->data.positions.length;
    const size_t indices = w->data.indices.length;
    trivet__bytes_text(json, ",\"bufferViews\":[");
    put_view(json, 0, vertices, VERTICES);
    trivet__bytes_text(json, ",");
    put_view(json, (int64_t)vertices, vertices, VERTICES);
    trivet__bytes_text(json, ",");
    put_view(json, 2 * (int64_t)vertices, indices, INDICES);
    put_whole(json, "],\"buffers\":[{\"byteLength\":", (int64_t)(2 * vertices + indices));
    trivet__bytes_text(json, "}]}");
}

static void put_json(glb_writing *w, trivet__bytes *json)
{
    trivet__bytes_text(json, "{\"asset\":{\"version\":\"2.0\",\"generator\":\"trivet ");
    trivet__bytes_text(json, trivet_version());
    trivet__bytes_text(json, "\"},");
    put_nodes(w, json);
    put_materials(w, json);
    put_meshes(w, json);
    put_accessors(w, json);
    put_buffers(w, json);
}

/* A chunk is filled up to a multiple of four bytes. */
static uint32_t padding(size_t length)
{
    return (uint32_t)((4 - length % 4) % 4);
}

static trivet_status put_file(const glb_writing *w, const trivet__bytes *json, trivet__bytes *file,
                              trivet_message *message)
{
    const size_t numbers = 2 * w->data.positions.length + w->data.indices.length;
    const size_t json_room = json->length + padding(json->length);
    const size_t numbers_room = numbers + padding(numbers);
    const size_t whole = 28 + json_room + numbers_room;
    if (json->is_spoilt || w->data.positions.is_spoilt || w->data.normals.is_spoilt ||
        w->data.indices.is_spoilt) {
        return trivet__no_memory(message);
    }
    if (whole > UINT32_MAX) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "frame", "is too large for one glTF file",
                              "hand over a part of it");
    }
    trivet__bytes_text(file, "glTF");
    trivet__bytes_little(file, 2);
    trivet__bytes_little(file, (uint32_t)whole);
    trivet__bytes_little(file, (uint32_t)json_room);
    trivet__bytes_text(file, "JSON");
    trivet__bytes_add(file, json->at, json->length);
    trivet__bytes_add(file, "   ", padding(json->length));
    trivet__bytes_little(file, (uint32_t)numbers_room);
    trivet__bytes_add(file, "BIN", 4);
    trivet__bytes_add(file, w->data.positions.at, w->data.positions.length);
    trivet__bytes_add(file, w->data.normals.at, w->data.normals.length);
    trivet__bytes_add(file, w->data.indices.at, w->data.indices.length);
    trivet__bytes_add(file, "\0\0", padding(numbers));
    assert(file->is_spoilt || file->length == whole);
    return TRIVET_OK;
}

static trivet_status write_all(glb_writing *w, trivet__bytes *json, trivet__bytes *file,
                               trivet_message *message)
{
    const size_t room =
        (size_t)trivet_frame_count(w->of->frame, TRIVET_KIND_TUBE) + (size_t)w->of->span_count;
    w->nodes = trivet__take(room, sizeof *w->nodes);
    if (!w->nodes) {
        return trivet__no_memory(message);
    }
    memset(w->materials, -1, sizeof w->materials);
    add_tubes(w);
    if (w->status != TRIVET_OK) {
        return TRIVET_INTERNAL;
    }
    put_json(w, json);
    return put_file(w, json, file, message);
}

trivet_status trivet_export_glb(const trivet_frame *frame, const trivet_result *result,
                                const trivet_checks *checks, char **bytes_out, size_t *length_out,
                                trivet_message *message)
{
    trivet__handed handed;
    trivet__bytes json = {0};
    trivet__bytes file = {0};
    trivet_status status =
        trivet__handed_check(frame, result, checks, bytes_out, length_out, &handed, message);
    if (status != TRIVET_OK) {
        return status;
    }
    glb_writing *const w = trivet__take(1, sizeof *w);
    if (!w) {
        return trivet__no_memory(message);
    }
    w->of = &handed;
    status = write_all(w, &json, &file, message);
    if (status == TRIVET_OK) {
        status = trivet__bytes_hand_out(&file, bytes_out, length_out, message);
    }
    trivet__bytes_free(&w->data.positions);
    trivet__bytes_free(&w->data.normals);
    trivet__bytes_free(&w->data.indices);
    trivet__give_back(w->nodes);
    trivet__give_back(w);
    trivet__bytes_free(&json);
    trivet__bytes_free(&file);
    return status;
}
