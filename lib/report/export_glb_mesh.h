/*
 * Meshes of straight pieces of stock, packed as glTF wants them: 32-bit floats and 16-bit indices,
 * little-endian, in glTF's axes.
 */
#ifndef TRIVET_REPORT_EXPORT_GLB_MESH_H
#define TRIVET_REPORT_EXPORT_GLB_MESH_H

#include "report/export_bytes.h"
#include "report/export_solid.h"

/* A straight piece of stock. */
typedef struct trivet__piece {
    const trivet__solid *solid;
    double start[3]; /* m, world axes: the centroid at its first end */
    double axes[9];  /* the tube's x, y, z as rows */
    double length;   /* m */
} trivet__piece;

/* Where the data of all meshes are gathered. */
typedef struct trivet__mesh_data {
    trivet__bytes positions;
    trivet__bytes normals;
    trivet__bytes indices;
} trivet__mesh_data;

/* What a mesh has of them. */
typedef struct trivet__mesh {
    int32_t vertex_count;
    int32_t index_count;
    int64_t vertex_offset; /* bytes into positions and normals */
    int64_t index_offset;  /* bytes into indices */
    float least[3];        /* box around the positions */
    float most[3];
} trivet__mesh;

trivet__mesh trivet__mesh_add(trivet__mesh_data *data, const trivet__piece *piece);

/* A whole number of four bytes, the lowest first. */
void trivet__bytes_little(trivet__bytes *bytes, uint32_t value);

#endif
