"""Random whole frames against an independent sparse solution with forces and movements unknown.

Every frame: tubes in all directions, some through three joints, rolled, some with rigid offsets and
freed ends; mounts clamped, sprung, moved, in turned axes; stiff and soft cargo; weight, warmth,
forces on joints, tubes and cargo. Movements, reactions and forces at all span ends to 1e-9 of the
largest.
"""
import numpy as np
import pytest

from frame_equations import SpanParts, WholeFrame
from places import random_axes, random_profile, tube_axes
from span_equations import Hold
from test_spans import G0, off, piece_of
from trivet_c import Frame, lib, struct

AGREES = 1e-9
CLAMPED = 63


class Builder:
    """Makes a random frame twice: through the library, and as data for WholeFrame."""

    def __init__(self, seed):
        self.random = np.random.default_rng(seed)
        self.frame = Frame()
        self.places, self.loads = [], []
        self.tubes, self.mounts, self.bodies = [], [], []
        self.gravity = self.random.uniform(-2, 2, 3)
        self.warm = self.random.uniform(-20, 20)
        self.case = self.frame.case(self.gravity)
        self.frame.warm(self.case, self.warm)
        self.stocks = [self._stock() for _ in range(3)]

    def _stock(self):
        E, G = self.random.uniform(0.7e11, 2.1e11), self.random.uniform(2.6e10, 8.1e10)
        profile = random_profile(self.random, struct, lib)
        return self.frame.stock(profile, E, G), E, G

    def joint(self, place):
        self.places.append(np.array(place))
        self.loads.append(np.zeros(6))
        return self.frame.joint(place)

    def tube(self, joints, free=(0, 0), has_offsets=False):
        roll, stock = self.random.uniform(-3, 3), self.stocks[self.random.integers(3)]
        number = self.frame.tube(joints, stock[0], roll)
        offsets = np.zeros((len(joints), 3))
        if has_offsets:
            offsets[[0, -1]] = self.random.uniform(-0.02, 0.02, (2, 3))
        for joint, offset in zip(joints, offsets):
            if offset.any():
                self.frame.offset(number, joint, offset)
        self.frame.free_end(number, joints[0], free[0])
        self.frame.free_end(number, joints[-1], free[1])
        self.tubes.append({"joints": joints, "offsets": offsets, "free": free, "roll": roll,
                           "stock": stock, "points": [], "lines": []})
        return number

    def length(self, tube):
        ends = [self.places[tube["joints"][k]] + tube["offsets"][k] for k in (0, -1)]
        return np.linalg.norm(ends[1] - ends[0])

    def load_tubes(self):
        for number, tube in enumerate(self.tubes):
            L = self.length(tube)
            if self.random.random() < 0.4:
                at, axes = self.random.uniform(0, L), int(self.random.integers(2))
                force, moment = self.random.uniform(-500, 500, 3), self.random.uniform(-50, 50, 3)
                self.frame.tube_force(self.case, number, at, force, moment, axes)
                tube["points"].append((at, force, moment, axes))
            if self.random.random() < 0.4:
                start, end = sorted(self.random.uniform(0, L, 2))
                axes = int(self.random.integers(2))
                first, last = self.random.uniform(-2000, 2000, (2, 3))
                self.frame.tube_line(self.case, number, start, end, first, last, axes)
                tube["lines"].append((start, end, first, last, axes))

    def load_joints(self):
        for joint in range(len(self.places)):
            if self.random.random() < 0.5:
                load = self.random.uniform(-1, 1, 6) * ([800] * 3 + [60] * 3)
                self.frame.joint_force(self.case, joint, load[:3], load[3:])
                self.loads[joint] += load

    def mount(self, joint, held):
        spring, move = np.zeros(6), np.zeros(6)
        for d in range(6):
            if not held >> d & 1 and self.random.random() < 0.5:
                spring[d] = 10 ** self.random.uniform(2, 6)
            if (held >> d & 1 or spring[d]) and self.random.random() < 0.3:
                move[d] = self.random.uniform(-1e-3, 1e-3)
        axes = random_axes(self.random) if self.random.random() < 0.5 else np.eye(3)
        number = self.frame.mount(joint, held, spring, axes)
        self.frame.mount_move(self.case, number, move)
        self.mounts.append((joint, Hold(held, spring, move, axes)))

    def cargo(self, joints, is_stiff):
        centre = np.mean([self.places[j] for j in joints], axis=0) + self.random.normal(size=3) / 5
        mass = self.random.uniform(5, 40)
        grip = lib.TRIVET_GRIP_STIFF if is_stiff else lib.TRIVET_GRIP_SOFT
        number = self.frame.cargo(centre, joints, grip, mass)
        force, moment = self.random.uniform(-300, 300, 3), self.random.uniform(-40, 40, 3)
        at = centre + self.random.normal(size=3) / 5
        self.frame.cargo_force(self.case, number, force, moment, at)
        load = np.concatenate([mass * G0 * self.gravity + force,
                               np.cross(at - centre, force) + moment])
        if is_stiff:
            self.bodies.append((centre, joints, load))
        else:
            self.share(centre, joints, load)

    def share(self, centre, joints, load):
        """Least forces that balance the load; what moment they cannot carry goes in equal parts."""
        middle = np.mean([self.places[j] for j in joints], axis=0)
        moment = load[3:] + np.cross(centre - middle, load[:3])
        arms = [self.places[j] - middle for j in joints]
        turning = np.hstack([np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]]) for x, y, z in arms])
        forces = np.linalg.pinv(turning, rcond=1e-10) @ moment
        left = moment - turning @ forces
        for k, joint in enumerate(joints):
            self.loads[joint][:3] += load[:3] / len(joints) + forces[3 * k:3 * k + 3]
            self.loads[joint][3:] += left / len(joints)

    def spans(self):
        return [span for tube in self.tubes for span in self.cut(tube)]

    def cut(self, tube):
        """The spans of a tube, each with its share of the loads in its own axes."""
        ends = [self.places[j] + offset for j, offset in zip(tube["joints"], tube["offsets"])]
        R = tube_axes(ends[0], ends[-1], tube["roll"])
        local = lambda v, axes: np.asarray(v) if axes == 1 else R @ v
        stock, E, G = tube["stock"]
        count = len(tube["joints"]) - 1
        for k in range(count):
            start, end = (np.linalg.norm(ends[i] - ends[0]) for i in (k, k + 1))
            piece = piece_of(self.frame, stock, end - start, E, G, 7850.0, 1.2e-5 * self.warm)
            weight = piece.weight * R @ self.gravity
            points = [(at - start, local(force, axes), local(moment, axes))
                      for at, force, moment, axes in tube["points"] if start <= at < end]
            lines = [(0.0, end - start, weight, weight)]
            for a, b, first, last, axes in tube["lines"]:
                low, high = max(a, start), min(b, end)
                if low < high:
                    value = [local(first + (last - first) * (x - a) / (b - a), axes)
                             for x in (low, high)]
                    lines.append((low - start, high - start, *value))
            yield {"joints": tube["joints"][k:k + 2], "offsets": tube["offsets"][k:k + 2],
                   "axes": R, "parts": SpanParts(piece, end - start, points, lines),
                   "free": (tube["free"][0] if k == 0 else 0,
                            tube["free"][1] if k == count - 1 else 0)}


# What ends may be freed of: each leaves the span held in itself.
FREE_ENDS = [(0, 0), (48, 0), (48, 48), (8, 48), (1, 16), (0, 56), (56, 48), (4, 0), (2, 32), (0, 63)]


def random_frame(seed):
    b = Builder(seed)
    count = int(b.random.integers(6, 13))
    joints = []
    for _ in range(count):
        joints.append(b.joint(b.random.uniform(-0.7, 0.7, 3)))
        if len(joints) > 1:  # a tree of rigid tubes, so that all hangs together
            mate = joints[b.random.integers(len(joints) - 1)]
            if b.random.random() < 0.3:
                ends = b.places[mate], b.places[joints[-1]]
                middle = b.joint(ends[0] + b.random.uniform(0.3, 0.7) * (ends[1] - ends[0]))
                b.tube([mate, middle, joints[-1]])
            else:
                b.tube([mate, joints[-1]], has_offsets=b.random.random() < 0.3)
    for _ in range(count):
        pair = [int(j) for j in b.random.choice(joints, 2, replace=False)]
        b.tube(pair, FREE_ENDS[b.random.integers(len(FREE_ENDS))], b.random.random() < 0.3)
    b.mount(joints[0], CLAMPED)
    for joint in joints[1:4]:
        b.mount(joint, int(b.random.integers(1, 64)))
    if count >= 9:
        b.cargo(joints[4:7], True)
        b.cargo(joints[7:9] if seed % 2 else joints[4:8], False)
    b.load_tubes()
    b.load_joints()
    return b


@pytest.mark.parametrize("seed", range(30))
def test_frame_agrees_with_forces_and_movements_solved_together(seed):
    b = random_frame(seed)
    want = WholeFrame(b.places, b.spans(), b.mounts, b.bodies, b.loads)
    result = b.frame.solve()
    worst = {"movements": off(result.moves()[0], want.moves),
             "reactions": off(result.reactions()[0], want.reactions),
             "span ends": off(result.span_ends()[0].reshape(-1, 6), want.ends.reshape(-1, 6))}
    assert max(worst.values()) <= AGREES, worst


def test_random_frames_have_what_they_are_meant_to_have():
    made = [random_frame(seed) for seed in range(30)]
    assert sum(len(b.bodies) for b in made) >= 5
    assert sum(len(tube["joints"]) == 3 for b in made for tube in b.tubes) >= 20
    assert sum(any(tube["free"]) for b in made for tube in b.tubes) >= 50
    assert sum(bool(tube["offsets"].any()) for b in made for tube in b.tubes) >= 20
