"""One span by its differential equations, integrated by SciPy.

    N' = -nx   Vy' = -ny   Vz' = -nz   T' = 0   My' = Vz   Mz' = -Vy
    u' = N/EA + alpha dT       tx' = T/GJ
    v' =  tz + Vy/(G Ay)       My = E (Iyy ty' - Iyz tz')
    w' = -ty + Vz/(G Az)       Mz = E (Izz tz' - Iyz ty')

Forces act on the face whose outward normal is +x, so that stress is N/A + My z/Iyy - Mz y/Izz
where Iyz = 0. The state is (N, Vy, Vz, T, My, Mz, u, v, w, tx, ty, tz) in the tube's axes. As the
equations are linear, one integration of twelve unit states and of the loads alone gives every
solution; the states at the ends and the joints' movements then follow from 36 linear equations.
"""
from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

from places import shift, six, tube_axes


@dataclass
class Piece:
    """Stiffness of a part of the tube; lengths from its start, weight in N/m per unit gravity."""
    end: float
    EA: float
    GJ: float
    bend: np.ndarray  # [2, 2]: (My, Mz) = bend (ty', tz')
    shear: np.ndarray  # [2]: 1/(G Ay), 1/(G Az)
    grow: float  # alpha dT
    weight: float = 0.0


@dataclass
class Hold:
    """How an end's joint is held: bits, springs, ground movement, in axes of its own."""
    held: int
    spring: np.ndarray
    move: np.ndarray
    axes: np.ndarray


@dataclass
class Problem:
    joints: np.ndarray  # [2, 3]
    offsets: np.ndarray  # [2, 3]
    roll: float
    pieces: list
    holds: list
    free: tuple = (0, 0)
    gravity: np.ndarray = field(default_factory=lambda: np.zeros(3))
    joint_loads: np.ndarray = field(default_factory=lambda: np.zeros((2, 6)))
    points: list = field(default_factory=list)  # (at, force, moment, axes)
    lines: list = field(default_factory=list)  # (from, to, first, last, axes)

    def ends(self):
        return self.joints + self.offsets

    def axes(self):
        return tube_axes(*self.ends(), self.roll)

    def length(self):
        return np.linalg.norm(self.ends()[1] - self.ends()[0])


def bits(number):
    return [bool(number >> d & 1) for d in range(6)]


class Solution:
    """Forces [6] and world movement [6] at any place of a Problem."""

    def __init__(self, problem):
        self.problem = problem
        self.R = problem.axes()
        self.L = problem.length()
        bend = problem.pieces[0].bend[0, 0]
        turn = self.L**2 / bend  # of 1 N; 1 N, 1 N L, and what they do, are of size 1 below
        self.units = np.array([1.0] * 3 + [self.L] * 3 + [turn * self.L] * 3 + [turn] * 3)
        self._integrate()
        self._close()

    def _local(self, vector, axes):
        return np.asarray(vector, float) if axes == 1 else self.R @ np.asarray(vector, float)

    def _line(self, x):
        """N/m in the tube's axes at x."""
        total = self._weight * (self.R @ self.problem.gravity)
        for start, end, first, last, axes in self._active:
            share = (x - start) / (end - start)
            total = total + self._local((1 - share) * np.asarray(first) +
                                        share * np.asarray(last), axes)
        return total

    def _matrix(self, piece):
        A = np.zeros((12, 12))
        A[4, 2], A[5, 1] = 1.0, -1.0
        A[6, 0], A[9, 3] = 1 / piece.EA, 1 / piece.GJ
        A[7, 11], A[7, 1] = 1.0, piece.shear[0]
        A[8, 10], A[8, 2] = -1.0, piece.shear[1]
        A[10:, 4:6] = np.linalg.inv(piece.bend)
        return A / self.units[:, None] * self.units[None, :] * self.L

    def _integrate(self):
        p = self.problem
        breaks = {0.0, self.L, *(piece.end for piece in p.pieces), *(q[0] for q in p.points)}
        breaks |= {place for line in p.lines for place in line[:2]}
        places = sorted(place for place in breaks if 0 <= place <= self.L)
        state = np.hstack([np.eye(12), np.zeros((12, 1))])
        self.parts = []
        for start, end in zip(places, places[1:]):
            state = state + self._jump(start)
            if end - start < 1e-12 * self.L:
                continue
            middle = (start + end) / 2
            piece = next(piece for piece in p.pieces if middle < piece.end)
            self._weight = piece.weight
            self._active = [line for line in p.lines if line[0] < middle < line[1]]
            dense = self._run(piece, start, end, state)
            self.parts.append((start, end, dense))
            state = dense(end / self.L).reshape(12, 13)
        self.last = state + self._jump(self.L)

    def _jump(self, place):
        jump = np.zeros((12, 13))
        for at, force, moment, axes in self.problem.points:
            if at == place:
                jump[:3, 12] -= self._local(force, axes) / self.units[:3]
                jump[3:6, 12] -= self._local(moment, axes) / self.units[3:6]
        return jump

    def _run(self, piece, start, end, state):
        A = self._matrix(piece)

        def slope(xi, flat):
            rates = A @ flat.reshape(12, 13)
            rates[:3, 12] -= self._line(xi * self.L) * self.L / self.units[:3]
            rates[6, 12] += piece.grow * self.L / self.units[6]
            return rates.ravel()

        done = solve_ivp(slope, (start / self.L, end / self.L), state.ravel(), method="DOP853",
                         rtol=1e-12, atol=1e-13, dense_output=True)
        assert done.success
        return lambda xi: done.y[:, -1] if xi == done.t[-1] else done.sol(xi)

    def _close(self):
        """Unknowns: state at the start (scaled), movement of both joints, what both mounts do."""
        rows, right = [], []

        def equation(row, value):
            scale = np.abs(row).max()
            rows.append(row / scale)
            right.append(value / scale)

        R6 = six(self.R)
        states = [np.hstack([np.eye(12), np.zeros((12, 1))]), self.last]
        for k, (hold, state) in enumerate(zip(self.problem.holds, states)):
            joint, mount = slice(12 + 6 * k, 18 + 6 * k), slice(24 + 6 * k, 30 + 6 * k)
            Q = six(hold.axes)
            S = shift(self.problem.offsets[k])
            real = state * self.units[:, None]
            for d, is_held in enumerate(bits(hold.held)):
                row = np.zeros(36)
                row[joint] = Q[d] * (1.0 if is_held else hold.spring[d])
                row[24 + 6 * k + d] = 0.0 if is_held else 1.0
                equation(row, hold.move[d] * (1.0 if is_held else hold.spring[d]))
            on_joint = (1 if k == 0 else -1) * S.T @ R6.T @ real[:6]
            for d in range(6):
                row = np.zeros(36)
                row[:12] = on_joint[d, :12]
                row[mount] = Q.T[d]
                equation(row, -self.problem.joint_loads[k, d] - on_joint[d, 12])
            follows = R6 @ S
            for d, is_free in enumerate(bits(self.problem.free[k])):
                row = np.zeros(36)
                row[:12] = state[d if is_free else 6 + d, :12]
                if not is_free:
                    row[joint] = -follows[d] / self.units[6 + d]
                equation(row, -state[d if is_free else 6 + d, 12])
        self._solve(np.array(rows), np.array(right))

    def _solve(self, A, b):
        """Columns scaled to 1 as well; one step of refinement."""
        scale = 1 / np.abs(A).max(axis=0)
        x = np.linalg.solve(A * scale, b)
        x += np.linalg.solve(A * scale, b - (A * scale) @ x)
        x *= scale
        self.start = np.append(x[:12], 1.0)
        self.joint_moves = x[12:24].reshape(2, 6)
        self.mount_actions = np.array([six(hold.axes).T @ x[24 + 6 * k:30 + 6 * k]
                                       for k, hold in enumerate(self.problem.holds)])

    def at(self, x):
        dense = next(dense for start, end, dense in self.parts if start <= x <= end)
        state = (dense(x / self.L).reshape(12, 13) @ self.start) * self.units
        return state[:6], six(self.R).T @ state[6:]
