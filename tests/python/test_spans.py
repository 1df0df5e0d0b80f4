"""Random single spans against SciPy's integration of the Timoshenko equations.

Every span: random direction and roll, rigid offsets at both ends, mounts with held, sprung and moved
directions in turned axes, freed ends, forces on the joints, forces and moments on the tube, line
loads (whole, partial, triangular) in world and tube axes, own weight, warmth. Section forces and
movements are compared at 20 places to 1e-8 of the largest.
"""
import numpy as np
import pytest

from places import random_axes, random_profile
from span_equations import Hold, Piece, Problem, Solution, bits
from trivet_c import Frame, lib, struct

G0 = 9.80665  # m/s^2, standard gravity
PLACES = 20
AGREES = 1e-8


def piece_of(frame, stock, end, E, G, density, grow, inner=None, bond=0):
    """Stiffness of stock, with an insert (its number) inside that acts by its bond."""
    section = frame.section(stock)
    bend = E * bending(section)
    EA, GJ = E * section.area, G * section.torsion_constant
    stiff = G * np.array(list(section.shear_area))
    weight = density * section.area
    if inner is not None:
        inside = frame.section(inner)
        bend = bend + E * bending(inside)
        stiff = stiff + G * np.array(list(inside.shear_area))
        weight += density * inside.area
        if bond == lib.TRIVET_TOGETHER:
            EA, GJ = EA + E * inside.area, GJ + G * inside.torsion_constant
    return Piece(end, EA, GJ, bend, 1 / stiff, grow, weight * G0)


def bending(section):
    Iyy, Izz = section.second_moment
    Iyz = section.product_moment
    return np.array([[Iyy, -Iyz], [-Iyz, Izz]])


def random_hold(random, chances, axes):
    """chances: of a direction being held, of being sprung; else it is left alone."""
    held, spring, move = 0, np.zeros(6), np.zeros(6)
    for d in range(6):
        draw = random.random()
        if draw < chances[0]:
            held |= 1 << d
        elif draw < sum(chances):
            spring[d] = 10 ** (random.uniform(4, 7) if d < 3 else random.uniform(2, 5))
        if draw < sum(chances) and random.random() < 0.3:
            move[d] = random.uniform(-1, 1) * (1e-3 if d < 3 else 1e-2)
    return Hold(held, spring, move, axes)


def carries(free, length):
    """Whether the two ends still hold the span: no rigid movement leaves all that is fast still."""
    rows = []
    for k, number in enumerate(free):
        moved = np.eye(6)
        moved[1, 5], moved[2, 4] = k * length, -k * length
        rows += [moved[d] for d in range(6) if not bits(number)[d]]
    scaled = np.array(rows) * np.array([1, 1, 1, 1 / length, 1 / length, 1 / length])
    return len(rows) >= 6 and np.linalg.svd(scaled, compute_uv=False)[5] > 0.1


def random_free(random, length):
    while True:
        if random.random() < 0.3:
            free = (0, 0)
        else:
            share = random.uniform(0, 0.5)
            free = tuple(int(sum(1 << d for d in range(6) if random.random() < share))
                         for _ in range(2))
        if carries(free, length):
            return free


def random_loads(random, problem):
    L = problem.length()
    problem.gravity = random.uniform(-2, 2, 3)
    problem.joint_loads = random.uniform(-1, 1, (2, 6)) * ([500] * 3 + [50] * 3)
    for _ in range(random.integers(0, 3)):
        problem.points.append((random.uniform(0, L), random.uniform(-500, 500, 3),
                               random.uniform(-50, 50, 3), int(random.integers(2))))
    for _ in range(random.integers(0, 3)):
        start, end = sorted(random.uniform(0, L, 2))
        if random.random() < 0.3:
            start, end = 0.0, L
        first, last = random.uniform(-2000, 2000, (2, 3))
        kind = random.integers(4)  # triangular one way or the other, even, anything
        first, last = ((0 * first, last), (first, 0 * last), (first, first), (first, last))[kind]
        problem.lines.append((start, end, first, last, int(random.integers(2))))


def random_problem(random, has_offsets=True):
    first = random.uniform(-1, 1, 3)
    direction = random.normal(size=3)
    if random.random() < 0.2:
        direction = np.array([0, 0, random.choice([-1.0, 1.0])])
    last = first + random.uniform(0.2, 1.5) * direction / np.linalg.norm(direction)
    offsets = random.uniform(-0.03, 0.03, (2, 3)) * (has_offsets and random.random() < 0.5)
    problem = Problem(np.array([first, last]), offsets, random.uniform(-3, 3), [], [])
    problem.free = random_free(random, problem.length())
    chances = (0.4, 0.6) if any(problem.free) else (0.3, 0.3)
    problem.holds = [random_hold(random, (0.6, 0.4), np.eye(3)),
                     random_hold(random, chances, random_axes(random))]
    random_loads(random, problem)
    return problem


def into_frame(frame, problem, stock, warm):
    """Adds all of a problem but its inserts to a frame with stock; tube 0, case 0."""
    joints = [frame.joint(place) for place in problem.joints]
    tube = frame.tube(joints, stock, problem.roll)
    case = frame.case(problem.gravity)
    frame.warm(case, warm)
    for k, hold in enumerate(problem.holds):
        frame.free_end(tube, joints[k], problem.free[k])
        if problem.offsets[k].any():
            frame.offset(tube, joints[k], problem.offsets[k])
        if hold.held or hold.spring.any():
            mount = frame.mount(joints[k], hold.held, hold.spring, hold.axes)
            frame.mount_move(case, mount, hold.move)
        frame.joint_force(case, joints[k], problem.joint_loads[k, :3], problem.joint_loads[k, 3:])
    for at, force, moment, axes in problem.points:
        frame.tube_force(case, tube, at, force, moment, axes)
    for start, end, first, last, axes in problem.lines:
        frame.tube_line(case, tube, start, end, first, last, axes)
    return tube


def compare(problem, frame, random):
    result, solution = frame.solve(), Solution(problem)
    spans = result.spans()
    np.testing.assert_allclose(np.reshape(list(spans[0].axes), (3, 3)), problem.axes(), atol=1e-12)
    places = np.concatenate([[0.0, problem.length()],
                             random.uniform(0, problem.length(), PLACES - 2)])
    got, want = [], []
    for x in places:
        index = next(i for i, span in enumerate(spans)
                     if x <= span.start + span.length or i == len(spans) - 1)
        if x == 0.0 or x == problem.length():
            x = x * (1 - 1e-15)
        got.append(np.concatenate(result.at(0, index, x - spans[index].start)))
        want.append(np.concatenate(solution.at(x)))
    worst = [off(np.array(got), np.array(want))]
    worst.append(off(result.moves()[0], solution.joint_moves))
    mounts = [action for hold, action in zip(problem.holds, solution.mount_actions)
              if hold.held or hold.spring.any()]
    worst.append(off(result.reactions()[0], np.array(mounts)))
    assert max(worst) <= AGREES, f"along the span, joints, mounts: {worst}"


def off(got, want):
    """The largest difference, relative to the largest force, moment, movement or turn there is."""
    groups = range(0, got.shape[1], 3)
    return max(np.abs(got[:, g:g + 3] - want[:, g:g + 3]).max() /
               max(np.abs(want[:, g:g + 3]).max(), 1e-300) for g in groups)


def steel(random):
    return random.uniform(0.7e11, 2.1e11), random.uniform(2.6e10, 8.1e10), 7850.0


@pytest.mark.parametrize("seed", range(60))
def test_span_agrees_with_its_differential_equations(seed):
    random = np.random.default_rng(seed)
    problem = random_problem(random)
    E, G, density = steel(random)
    warm = random.uniform(-50, 50)
    frame = Frame()
    stock = frame.stock(random_profile(random, struct, lib), E, G, density)
    problem.pieces = [piece_of(frame, stock, problem.length(), E, G, density, 1.2e-5 * warm)]
    into_frame(frame, problem, stock, warm)
    compare(problem, frame, random)


@pytest.mark.parametrize("seed", range(1000, 1020))
def test_angle_bends_both_ways_at_once(seed):
    random = np.random.default_rng(seed)
    problem = random_problem(random)
    E, G, density = steel(random)
    frame = Frame()
    legs = random.uniform(0.02, 0.05, 2)
    profile = struct("profile", shape=lib.TRIVET_SHAPE_ANGLE, height=legs[0], width=legs[1],
                     wall=0.004)
    stock = frame.stock(profile, E, G, density)
    assert abs(frame.section(stock).product_moment) > 0
    problem.pieces = [piece_of(frame, stock, problem.length(), E, G, density, 0.0)]
    into_frame(frame, problem, stock, 0.0)
    compare(problem, frame, random)


@pytest.mark.parametrize("bond", ["TRIVET_SIDE_BY_SIDE", "TRIVET_TOGETHER"])
@pytest.mark.parametrize("seed", range(2000, 2010))
def test_tube_with_inserts_is_stiffer_over_their_length(seed, bond):
    """Inserts from both ends. Side by side they bend with the tube, which alone carries pull and
    twist; together all is shared. Same expansion in both, so that warmth strains neither."""
    random = np.random.default_rng(seed)
    problem = random_problem(random, has_offsets=False)
    E, G, density = steel(random)
    warm, bond = random.uniform(-50, 50), getattr(lib, bond)
    frame = Frame()
    outer = frame.stock(struct("profile", shape=lib.TRIVET_SHAPE_SQUARE_TUBE, width=0.03,
                               wall=0.002), E, G, density)
    inner = frame.stock(struct("profile", shape=lib.TRIVET_SHAPE_SQUARE_BAR, width=0.024), E, G,
                        density)
    L, grow = problem.length(), 1.2e-5 * warm
    lengths = random.uniform(0.05, 0.45, 2) * L
    problem.pieces = [
        piece_of(frame, outer, lengths[0], E, G, density, grow, inner, bond),
        piece_of(frame, outer, L - lengths[1], E, G, density, grow),
        piece_of(frame, outer, L, E, G, density, grow, inner, bond)]
    tube = into_frame(frame, problem, outer, warm)
    for joint in range(2):
        frame.insert(tube, joint, lengths[joint], inner, bond)
    compare(problem, frame, random)
