"""The shared library by its public headers: preprocessed, handed to cffi, opened as it is.

TRIVET_LIBRARY names the library, TRIVET_INCLUDE the folder with trivet/trivet.h, TRIVET_COMPILER
the C compiler that preprocesses (default cc).
"""
import os
import re
import subprocess

import cffi
import numpy as np


def declarations(include, compiler):
    """The text of our own headers after preprocessing, as cffi understands it."""
    done = subprocess.run(
        [compiler, "-E", "-std=c99", "-DTRIVET_PYTHON", "-I", include, "-x", "c", "-"],
        input="#include <trivet/trivet.h>\n", text=True, capture_output=True, check=True)
    ours, is_ours = [], False
    for line in done.stdout.splitlines():
        marker = re.match(r'#\s*\d+\s+"([^"]*)"', line)
        if marker:
            is_ours = "/trivet/" in marker.group(1)
        elif is_ours:
            ours.append(line)
    text = "\n".join(ours)
    return re.sub(r"__attribute__\s*\(\(visibility\(\"default\"\)\)\)", "", text)


ffi = cffi.FFI()
ffi.cdef(declarations(os.environ["TRIVET_INCLUDE"], os.environ.get("TRIVET_COMPILER", "cc")))
lib = ffi.dlopen(os.environ["TRIVET_LIBRARY"])


class Refused(Exception):
    """A call that did not return TRIVET_OK."""

    def __init__(self, status, message):
        parts = [ffi.string(getattr(message, part)).decode()
                 for part in ("thing", "problem", "remedy")]
        super().__init__(f"status {status}: " + "; ".join(parts))
        self.status = status


def call(function, *arguments):
    """Calls a function that takes a message last; raises Refused unless it returns TRIVET_OK."""
    message = ffi.new("trivet_message *")
    status = function(*arguments, message)
    if status != lib.TRIVET_OK:
        raise Refused(status, message)


def numbers(values):
    """A C array of doubles, or NULL for None."""
    if values is None:
        return ffi.NULL
    return ffi.new("double[]", [float(value) for value in np.ravel(values)])


def struct(name, **members):
    """A plain struct with its defaults, then the members given."""
    made = ffi.new(f"trivet_{name} *")
    status = getattr(lib, f"trivet_{name}_defaults")(made, ffi.sizeof(f"trivet_{name}"))
    assert status == lib.TRIVET_OK
    for key, value in members.items():
        setattr(made, key, value)
    return made


class Frame:
    """A frame: each add gives the number of what was added."""

    def __init__(self):
        out = ffi.new("trivet_frame **")
        call(lib.trivet_frame_new, out)
        self.c = ffi.gc(out[0], lib.trivet_frame_free)
        self.count = 0

    def _name(self, letter):
        self.count += 1
        return f"{letter}{self.count}".encode()

    def _add(self, function, letter, *arguments):
        out = ffi.new("int32_t *")
        call(function, self.c, self._name(letter), *arguments, out)
        return out[0]

    def joint(self, place):
        return self._add(lib.trivet_frame_add_joint, "j", numbers(place))

    def stock(self, profile, E, G, density=7850.0, expansion=1.2e-5):
        material = struct("material", E=E, G=G, density=density, expansion=expansion)
        return self._add(lib.trivet_frame_add_stock, "s", profile, material)

    def section(self, stock):
        return lib.trivet_frame_section(self.c, stock)

    def tube(self, joints, stock, roll=0.0):
        return self._add(lib.trivet_frame_add_tube, "t", ffi.new("int32_t[]", list(joints)),
                         len(joints), stock, float(roll))

    def free_end(self, tube, joint, directions):
        call(lib.trivet_frame_set_free_end, self.c, tube, joint, directions)

    def offset(self, tube, joint, offset):
        call(lib.trivet_frame_set_offset, self.c, tube, joint, numbers(offset))

    def insert(self, tube, joint, length, stock, bond):
        call(lib.trivet_frame_add_insert, self.c, tube, joint, float(length), stock, bond)

    def mount(self, joint, held, spring=(0.0,) * 6, axes=None):
        mount = struct("mount", joint=joint, held=held, spring=list(map(float, spring)))
        if axes is not None:
            mount.axes = list(map(float, np.ravel(axes)))
        out = ffi.new("int32_t *")
        call(lib.trivet_frame_add_mount, self.c, mount, out)
        return out[0]

    def cargo(self, centre, joints, grip, mass):
        cargo = self._add(lib.trivet_frame_add_cargo, "c", numbers(centre),
                          ffi.new("int32_t[]", list(joints)), len(joints), grip)
        call(lib.trivet_frame_add_item, self.c, cargo, b"all of it", float(mass))
        return cargo

    def case(self, gravity=None):
        return self._add(lib.trivet_frame_add_case, "load ", numbers(gravity))

    def joint_force(self, case, joint, force=None, moment=None):
        call(lib.trivet_frame_add_joint_force, self.c, case, joint, numbers(force),
             numbers(moment))

    def cargo_force(self, case, cargo, force=None, moment=None, at=None):
        call(lib.trivet_frame_add_cargo_force, self.c, case, cargo, numbers(force),
             numbers(moment), numbers(at))

    def tube_force(self, case, tube, at, force=None, moment=None, axes=0):
        call(lib.trivet_frame_add_tube_force, self.c, case, tube, float(at), numbers(force),
             numbers(moment), axes)

    def tube_line(self, case, tube, start, end, first, last, axes=0):
        call(lib.trivet_frame_add_tube_line, self.c, case, tube, float(start), float(end),
             numbers(first), numbers(last), axes)

    def mount_move(self, case, mount, move):
        call(lib.trivet_frame_set_mount_move, self.c, case, mount, numbers(move))

    def warm(self, case, kelvin):
        call(lib.trivet_frame_set_warm, self.c, case, float(kelvin))

    def solve(self):
        return Result(self)


class Result:
    """A solved frame; arrays are copies."""

    def __init__(self, frame):
        out = ffi.new("trivet_result **")
        call(lib.trivet_frame_solve, frame.c, out)
        self.c = ffi.gc(out[0], lib.trivet_result_free)

    def _array(self, function, *inner):
        cases, things = ffi.new("int32_t *"), ffi.new("int32_t *")
        values = function(self.c, cases, things)
        shape = (cases[0], things[0], *inner)
        size = int(np.prod(shape)) * ffi.sizeof("double")
        return np.frombuffer(ffi.buffer(values, size)).reshape(shape).copy()

    def moves(self):
        return self._array(lib.trivet_result_moves, 6)

    def reactions(self):
        return self._array(lib.trivet_result_reactions, 6)

    def span_ends(self):
        return self._array(lib.trivet_result_span_ends, 2, 6)

    def spans(self):
        made = []
        for index in range(lib.trivet_result_span_count(self.c)):
            span = struct("span")
            assert lib.trivet_result_span(self.c, index, span) == lib.TRIVET_OK
            made.append(span)
        return made

    def at(self, case, span, place):
        """Forces inside [6] in the tube's axes and movement [6] in world axes."""
        forces, move = ffi.new("double[6]"), ffi.new("double[6]")
        status = lib.trivet_result_at(self.c, case, span, float(place), forces, move)
        assert status == lib.TRIVET_OK
        return np.array(list(forces)), np.array(list(move))
