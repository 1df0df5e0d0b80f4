"""Axes of tubes and mounts, written from the definition: x forward, y left, z up."""
import numpy as np


def tube_axes(first, last, roll):
    """Rows x, y, z: x along the tube, z in the vertical plane through it and up, then rolled."""
    x = (last - first) / np.linalg.norm(last - first)
    is_vertical = np.hypot(x[0], x[1]) < np.sin(np.radians(0.1))
    towards = np.array([1.0, 0, 0]) if is_vertical else np.array([0, 0, 1.0])
    z = towards - (towards @ x) * x
    z /= np.linalg.norm(z)
    y = np.cross(z, x)
    return np.array([x, np.cos(roll) * y + np.sin(roll) * z, np.cos(roll) * z - np.sin(roll) * y])


def random_axes(random):
    """A random right-handed set of axes as rows."""
    q, r = np.linalg.qr(random.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    return q if np.linalg.det(q) > 0 else -q


def six(axes):
    """The 6 x 6 matrix that turns a force and moment, or movement and turn, into axes."""
    both = np.zeros((6, 6))
    both[:3, :3] = both[3:, 3:] = axes
    return both


def shift(offset):
    """Movement and turn of a joint -> those of a point that is rigidly offset from it."""
    x, y, z = offset
    moved = np.eye(6)
    moved[:3, 3:] = [[0, z, -y], [-z, 0, x], [y, -x, 0]]
    return moved


def random_profile(random, struct, lib):
    """Stock of a random shape; a section of given values has no shear give half of the time."""
    kind = random.integers(4)
    if kind == 0:
        area = random.uniform(1e-4, 4e-4)
        share = random.choice([0.0, 1.0])
        return struct("profile", shape=lib.TRIVET_SHAPE_GIVEN_VALUES, given_area=area,
                      given_shear_area=list(share * area * random.uniform(0.3, 0.9, 2)),
                      given_second_moment=list(random.uniform(5e-9, 5e-8, 2)),
                      given_torsion_constant=random.uniform(5e-9, 8e-8))
    if kind == 1:
        return struct("profile", shape=lib.TRIVET_SHAPE_ROUND_TUBE,
                      diameter=random.uniform(0.02, 0.05), wall=random.uniform(0.0012, 0.003))
    if kind == 2:
        return struct("profile", shape=lib.TRIVET_SHAPE_RECTANGULAR_TUBE,
                      height=random.uniform(0.025, 0.06), width=random.uniform(0.02, 0.04),
                      wall=random.uniform(0.0012, 0.003))
    return struct("profile", shape=lib.TRIVET_SHAPE_FLAT_BAR, height=random.uniform(0.01, 0.04),
                  width=random.uniform(0.005, 0.02))
