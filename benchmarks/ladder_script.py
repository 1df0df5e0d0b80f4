"""The ladders of bench_variants as a careful NumPy and SciPy script would solve them.

All variants of a chunk are assembled together, each is solved by scipy.linalg.solveh_banded, and
forces at the ends of all elements and variants are found together. The same equations as bare.c.
"""
import numpy
import scipy.linalg
import scipy.sparse

GRAVITY = 9.80665  # m/s^2, standard
WEIGHT, PUSH, LINE, KINDS = 0, 1, 2, 3
PUSHED_EVERY, LOADED_EVERY, SPRUNG_EVERY = 3, 2, 5
CLAMPED = 12  # directions of the first two joints


class Ladder:
    """What variants share: which entries go where, which loads act."""

    def __init__(self, description):
        self.reach = description["reach"]
        self.spring = description["spring"]
        self.loads = numpy.array(description["loads"])
        variants = description["variants"]
        elements = variants[0]["elements"]
        self.ends = numpy.array([element["joints"] for element in elements])
        self.places = numpy.array([v["places"] for v in variants]).reshape(len(variants), -1, 3)
        self.stiffs = numpy.array([[e["stiffs"] for e in v["elements"]] for v in variants])
        self.mass = numpy.array([[e["mass"] for e in v["elements"]] for v in variants])
        self.rung = self.places.shape[1] - 2  # elements of the rails stand before it
        self.size = 6 * self.places.shape[1] - CLAMPED
        self.equations = (6 * self.ends[:, :, None] + numpy.arange(6) - CLAMPED).reshape(-1, 12)
        self.gather_band = self._band_gatherer()
        self.gather_loads = self._load_gatherer()
        self.pushes = self._pushes()
        self.shares = self._shares()

    def _band_gatherer(self):
        """Sums entries of element matrices into lower band storage [reach + 1][size]."""
        rows = numpy.broadcast_to(self.equations[:, :, None], (len(self.ends), 12, 12))
        columns = numpy.broadcast_to(self.equations[:, None, :], rows.shape)
        kept = ((columns >= 0) & (rows >= columns)).ravel()
        slots = ((rows - columns) * self.size + columns).ravel()[kept]
        entries = numpy.flatnonzero(kept)
        shape = (self.reach + 1) * self.size, rows.size
        return scipy.sparse.csr_matrix((numpy.ones(len(slots)), (slots, entries)), shape)

    def _load_gatherer(self):
        kept = (self.equations >= 0).ravel()
        rows = self.equations.ravel()[kept]
        shape = self.size, self.equations.size
        return scipy.sparse.csr_matrix(
            (numpy.ones(len(rows)), (rows, numpy.flatnonzero(kept))), shape)

    def _pushes(self):
        """Forces on joints [size][cases]."""
        pushes = numpy.zeros((self.size, len(self.loads)))
        for case in range(PUSH, len(self.loads), KINDS):
            for joint in range(2, self.places.shape[1], PUSHED_EVERY):
                pushes[6 * joint - CLAMPED:6 * joint - CLAMPED + 3, case] += self.loads[case]
        return pushes

    def _shares(self):
        """How much of an element's load each case puts on it [2][elements][cases][3]."""
        shares = numpy.zeros((2, len(self.ends), len(self.loads), 3))
        for case, load in enumerate(self.loads):
            if case % KINDS == WEIGHT:
                shares[0, :, case] = GRAVITY * load
            elif case % KINDS == LINE:
                shares[1, self.rung::LOADED_EVERY, case] = load
        return shares


def element_axes(between):
    """Lengths, and axes as rows: x along, y level."""
    length = numpy.linalg.norm(between, axis=-1)
    x = between / length[..., None]
    y = numpy.zeros_like(x)
    flat = numpy.hypot(between[..., 0], between[..., 1])
    y[..., 0] = -between[..., 1] / flat
    y[..., 1] = between[..., 0] / flat
    return length, numpy.stack([x, y, numpy.cross(x, y)], axis=-2)


def local_stiffness(stiffs, length):
    EA, GJ, EIy, EIz, GAy, GAz = numpy.moveaxis(stiffs, -1, 0)
    k = numpy.zeros(length.shape + (12, 12))
    for first, stiff in (0, EA / length), (3, GJ / length):
        k[..., first, first] = k[..., first + 6, first + 6] = stiff
        k[..., first, first + 6] = k[..., first + 6, first] = -stiff
    for EI, GA, v, r, sign in (EIz, GAy, 1, 5, 1.0), (EIy, GAz, 2, 4, -1.0):
        phi = 12.0 * EI / (GA * length**2)
        f = EI / ((1.0 + phi) * length)
        push = 12.0 * f / length**2
        turn = sign * 6.0 * f / length
        k[..., v, v] = k[..., v + 6, v + 6] = push
        k[..., v, v + 6] = k[..., v + 6, v] = -push
        for i, j, entry in (v, r, turn), (v, r + 6, turn), (v + 6, r, -turn), (v + 6, r + 6, -turn):
            k[..., i, j] = k[..., j, i] = entry
        k[..., r, r] = k[..., r + 6, r + 6] = (4.0 + phi) * f
        k[..., r, r + 6] = k[..., r + 6, r] = (2.0 - phi) * f
    return k


def solve_chunk(ladder):
    """Movements [variants][size][cases] and forces at ends [variants][elements][12][cases]."""
    variants, elements = len(ladder.places), len(ladder.ends)
    cases = len(ladder.loads)
    between = ladder.places[:, ladder.ends[:, 1]] - ladder.places[:, ladder.ends[:, 0]]
    length, axes = element_axes(between)
    local = local_stiffness(ladder.stiffs, length)
    turned = numpy.swapaxes(axes, -1, -2)[:, :, None] @ local.reshape(variants, elements, 4, 3, 12)
    turned = turned.reshape(variants, elements, 12, 4, 3).swapaxes(2, 3) @ axes[:, :, None]
    turned = turned.swapaxes(2, 3)
    bands = (ladder.gather_band @ turned.reshape(variants, -1).T).T
    bands = bands.reshape(variants, ladder.reach + 1, ladder.size)
    sprung = numpy.arange(2 * SPRUNG_EVERY, ladder.places.shape[1])
    sprung = sprung[sprung // 2 % SPRUNG_EVERY == 0]
    bands[:, 0, 6 * sprung + 2 - CLAMPED] += ladder.spring

    q = ladder.mass[:, :, None, None] * ladder.shares[0] + ladder.shares[1]
    pushes = numpy.empty((variants, elements, 4, 3, cases))
    half = numpy.swapaxes(0.5 * length[:, :, None, None] * q, -1, -2)
    twist = numpy.cross(axes[:, :, None, 0], q) * (length**2 / 12.0)[:, :, None, None]
    pushes[:, :, 0] = pushes[:, :, 2] = half
    pushes[:, :, 1] = numpy.swapaxes(twist, -1, -2)
    pushes[:, :, 3] = -pushes[:, :, 1]

    moves = numpy.empty((variants, ladder.size, cases))
    for v in range(variants):
        loads = ladder.gather_loads @ pushes[v].reshape(-1, cases) + ladder.pushes
        moves[v] = scipy.linalg.solveh_banded(bands[v], loads, overwrite_ab=True, overwrite_b=True,
                                              lower=True, check_finite=False)

    whole = numpy.concatenate([numpy.zeros((variants, CLAMPED, cases)), moves], axis=1)
    at_ends = whole[:, ladder.equations + CLAMPED].reshape(variants, elements, 4, 3, cases)
    along = (axes[:, :, None] @ at_ends).reshape(variants, elements, 12, cases)
    still = (axes[:, :, None] @ pushes).reshape(variants, elements, 12, cases)
    return moves, local @ along - still
