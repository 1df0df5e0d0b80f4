"""Binary glTF read by the letter of the standard: header, chunks, accessors. Nothing of ours."""

import json
import struct

import numpy

TYPES = {5126: "<f4", 5123: "<u2"}
WIDTHS = {"VEC3": 3, "SCALAR": 1}


def read(path):
    """The JSON, and for each node its name, material's name, positions, normals, triangles."""
    data = path.read_bytes()
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    json_length, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    document = json.loads(data[20 : 20 + json_length])
    binary_length, kind = struct.unpack_from("<I4s", data, 20 + json_length)
    assert kind == b"BIN\0" and 28 + json_length + binary_length == length
    binary = data[28 + json_length :]

    def accessor(number):
        of = document["accessors"][number]
        view = document["bufferViews"][of["bufferView"]]
        start = view["byteOffset"] + of["byteOffset"]
        width = WIDTHS[of["type"]]
        values = numpy.frombuffer(binary, TYPES[of["componentType"]], of["count"] * width, start)
        return values.reshape(-1, width)

    nodes = []
    for node in document["nodes"]:
        (primitive,) = document["meshes"][node["mesh"]]["primitives"]
        positions = accessor(primitive["attributes"]["POSITION"]).astype(float)
        normals = accessor(primitive["attributes"]["NORMAL"]).astype(float)
        triangles = accessor(primitive["indices"]).reshape(-1, 3)
        material = document["materials"][primitive["material"]]["name"]
        nodes.append((node["name"], material, positions, normals, triangles))
    return document, nodes
