"""A whole frame as one sparse set of equations that keeps forces and movements both unknown.

Unknowns: of every span the six forces p at its last end, of every freed end direction its slip, of
every joint and stiff cargo six movements, of every mount six actions, of every joint under stiff
cargo the three forces of its tie. Equations: the span's stretch is F p plus what loads and warmth
give; forces balance at joints and bodies; mounts hold or spring; tied joints follow their body.

F and the stretch by loads are integrals of the flexibility along a span that is held at its start,
F = int B' C B dx, by Gauss points (exact for these polynomials), with B the forces inside by unit
forces at the last end and C the compliance of the Timoshenko equations.
"""
import numpy as np
from scipy.sparse import coo_matrix, diags
from scipy.sparse.linalg import splu

from places import shift, six
from span_equations import bits

GAUSS, WEIGHTS = np.polynomial.legendre.leggauss(6)


class SpanParts:
    """Flexibility, free stretch and loads of a span; loads as (at, force, moment) and
    (from, to, first, last), all in its axes and from its start."""

    def __init__(self, piece, length, points, lines):
        self.L, self.points, self.lines = length, points, lines
        C = np.zeros((6, 6))
        C[0, 0], C[3, 3] = 1 / piece.EA, 1 / piece.GJ
        C[1, 1], C[2, 2] = piece.shear
        C[4:, 4:] = np.linalg.inv(piece.bend)
        self.F, self.stretch = np.zeros((6, 6)), np.zeros(6)
        self.stretch[0] = piece.grow * length
        places = sorted({0.0, length, *(p[0] for p in points), *(x for q in lines for x in q[:2])})
        for start, end in zip(places, places[1:]):
            for node, weight in zip(GAUSS, WEIGHTS):
                x = start + (end - start) * (1 + node) / 2
                B = self.carry(length - x)
                share = weight * (end - start) / 2
                self.F += share * B.T @ C @ B
                self.stretch += share * B.T @ C @ self.beyond(x)

    @staticmethod
    def carry(arm):
        """Forces on a face by forces on one that lies arm farther along."""
        B = np.eye(6)
        B[4, 2], B[5, 1] = -arm, arm
        return B

    def beyond(self, x):
        """Forces inside at x by the loads beyond it."""
        total = np.zeros(6)
        for at, force, moment in self.points:
            if at > x or at == x == 0.0:
                total += self.carry(at - x) @ np.concatenate([force, moment])
        for start, end, first, last in self.lines:
            low = max(start, x)
            for node, weight in zip(GAUSS, WEIGHTS) if low < end else ():
                s = low + (end - low) * (1 + node) / 2
                share = (s - start) / (end - start)
                force = ((1 - share) * first + share * last) * weight * (end - low) / 2
                total += self.carry(s - x) @ np.concatenate([force, np.zeros(3)])
        return total


class Equations:
    """Sums of blocks, solved after scaling rows and columns, with two steps of refinement."""

    def __init__(self):
        self.size, self.rows, self.triplets, self.right = 0, 0, [], []

    def unknowns(self, count):
        self.size += count
        return np.arange(self.size - count, self.size)

    def open(self, right):
        """New rows with their right side; returns their numbers."""
        self.right += list(right)
        self.rows += len(right)
        return np.arange(self.rows - len(right), self.rows)

    def put(self, rows, columns, block):
        for i, j in np.argwhere(block != 0.0):
            self.triplets.append((rows[i], columns[j], block[i, j]))

    def solve(self):
        assert self.rows == self.size
        i, j, values = map(np.array, zip(*self.triplets))
        A = coo_matrix((values, (i, j)), shape=(self.size, self.size)).tocsc()
        b = np.array(self.right)
        left, right = np.ones(self.size), np.ones(self.size)
        for _ in range(8):  # rows and columns towards a largest entry of 1 (Ruiz)
            S = abs(diags(left) @ A @ diags(right))
            left /= np.sqrt(S.max(axis=1).toarray().ravel())
            right /= np.sqrt(S.max(axis=0).toarray().ravel())
        scaled = (diags(left) @ A @ diags(right)).tocsc()
        factor = splu(scaled)
        x = factor.solve(left * b)
        for _ in range(2):
            x += factor.solve(left * b - scaled @ x)
        return right * x


class WholeFrame:
    """Holds what a frame is, adds up its equations, solves one case.

    spans: dicts with joints (i, j), offsets [2, 3], axes [3, 3], parts, free (first, last)
    mounts: (joint, Hold); bodies: (centre [3], joints, load [6] at the centre)
    """

    def __init__(self, places, spans, mounts, bodies, joint_loads):
        self.places, self.spans, self.mounts = places, spans, mounts
        e = Equations()
        self.U = [e.unknowns(6) for _ in places]
        balance = [e.open(-load) for load in joint_loads]
        self.p = [self._add_span(e, span, balance) for span in spans]
        self.r = [self._add_mount(e, joint, hold, balance) for joint, hold in mounts]
        for centre, joints, load in bodies:
            self._add_body(e, centre, joints, load, balance)
        x = e.solve()
        self.moves = np.array([x[u] for u in self.U])
        self.reactions = np.array([six(hold.axes).T @ x[r]
                                   for r, (_, hold) in zip(self.r, mounts)])
        self.ends = np.array([self._ends(span["parts"], x[p])
                              for span, p in zip(spans, self.p)])

    @staticmethod
    def _ends(parts, p):
        return [parts.carry(parts.L) @ p + parts.beyond(0.0), p]

    def _add_span(self, e, span, balance):
        parts, R6 = span["parts"], six(span["axes"])
        p = e.unknowns(6)
        stretch = e.open(-parts.stretch)  # F p - (end - rigidly carried start) = -stretch
        e.put(stretch, p, parts.F)
        carried = parts.carry(parts.L).T  # movement of the start -> of the last end
        sides = ((carried, parts.carry(parts.L), parts.beyond(0.0), 1.0),
                 (-np.eye(6), np.eye(6), np.zeros(6), -1.0))
        for k, (moves, forces, constant, sign) in enumerate(sides):
            S = R6 @ shift(span["offsets"][k])
            joint = span["joints"][k]
            e.put(stretch, self.U[joint], moves @ S)
            e.put(balance[joint], p, sign * S.T @ forces)
            for row, value in zip(balance[joint], sign * S.T @ constant):
                e.right[row] -= value
            for d, is_free in enumerate(bits(span["free"][k])):
                if is_free:
                    slip = e.unknowns(1)
                    e.put(stretch, slip, moves[:, d:d + 1])
                    e.put(e.open([-constant[d]]), p, forces[d:d + 1])
        return p

    def _add_mount(self, e, joint, hold, balance):
        r = e.unknowns(6)
        Q = six(hold.axes)
        e.put(balance[joint], r, Q.T)
        held = np.array(bits(hold.held))
        stiff = np.where(held, 1.0, hold.spring)
        rows = e.open(stiff * hold.move)
        e.put(rows, self.U[joint], stiff[:, None] * Q)
        e.put(rows, r, np.diag(np.where(held, 0.0, 1.0)))
        return r

    def _add_body(self, e, centre, joints, load, balance):
        body = e.unknowns(6)
        whole = e.open(-load)
        for joint in joints:
            S = shift(self.places[joint] - centre)[:3]
            tie = e.unknowns(3)  # what the joint does to the body
            rows = e.open(np.zeros(3))
            e.put(rows, self.U[joint][:3], np.eye(3))
            e.put(rows, body, -S)
            e.put(whole, tie, S.T)
            e.put(balance[joint][:3], tie, -np.eye(3))
