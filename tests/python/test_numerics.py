"""The seam to linear algebra beside NumPy's and SciPy's general-purpose routines.

The functions are private, so the part is compiled by itself into a shared object. Tolerances are
multiples of rounding times the condition of the matrix at hand.
"""

import os
import pathlib
import subprocess

import cffi
import numpy
import pytest
import scipy.linalg
import scipy.sparse
import scipy.sparse.csgraph

ROUNDING = numpy.finfo(float).eps

DECLARATIONS = """
void trivet__order_nodes(int32_t, const int32_t *, const int32_t *, int32_t *, int32_t *);
int32_t trivet__band_factor(int32_t, int32_t, double *);
void trivet__band_solve(int32_t, int32_t, const double *, int32_t, double *);
double trivet__band_norm(int32_t, int32_t, const double *, double *);
double trivet__band_condition(int32_t, int32_t, const double *, double, double *, int32_t *);
void trivet__band_times(int32_t, int32_t, const double *, const double *, double *);
typedef struct trivet__tiles {
    int32_t count;
    int32_t *firsts;
    int32_t *starts;
} trivet__tiles;
int32_t trivet__tile_shape(int32_t, const int32_t *, trivet__tiles *);
void trivet__tile_places(int32_t, const trivet__tiles *, int32_t *, int32_t *);
void trivet__tiles_clear(int32_t, const trivet__tiles *, double *);
int32_t trivet__tiles_factor(const trivet__tiles *, double *, double *);
void trivet__tiles_solve(const trivet__tiles *, const double *, const double *, int32_t, double *);
size_t trivet__null_scratch(int32_t, int32_t, int32_t);
int32_t trivet__null_vectors(int32_t, int32_t, double *, int32_t, double *, double *, double *);
int32_t trivet__polynomial_roots(const double *, int32_t, double, double, double *);
size_t trivet__inverse_scratch(int32_t, int32_t);
int32_t trivet__pseudo_inverse(int32_t, int32_t, const double *, double *, double *);
"""

ffi = cffi.FFI()
ffi.cdef(DECLARATIONS)


def source_root():
    """The root of the sources: given by the build, or found from here."""
    beside = pathlib.Path(__file__).resolve().parents[2]
    return pathlib.Path(os.environ.get("TRIVET_SOURCE", beside))


@pytest.fixture(scope="module")
def numerics(tmp_path_factory):
    """The part as a shared object of its own."""
    lib = source_root() / "lib"
    shared = tmp_path_factory.mktemp("numerics") / "numerics.so"
    flags = subprocess.run(
        ["pkg-config", "--cflags", "--libs", "lapacke", "openblas"],
        check=True, capture_output=True, text=True,
    ).stdout.split()
    subprocess.run(
        [os.environ.get("TRIVET_COMPILER", "cc"), "-std=c11", "-O2", "-ffp-contract=off", "-fPIC", "-shared",
         f"-I{lib}", f"-I{lib.parent / 'include'}",
         *map(str, sorted((lib / "numerics").glob("*.c"))), "-o", str(shared), *flags, "-lm"],
        check=True,
    )
    return ffi.dlopen(str(shared))


def doubles(array):
    assert array.dtype == numpy.float64 and array.flags["C_CONTIGUOUS"]
    return ffi.from_buffer("double[]", array)  # keeps the array alive as long as the call


def wholes(array):
    assert array.dtype == numpy.int32 and array.flags["C_CONTIGUOUS"]
    return ffi.from_buffer("int32_t[]", array)


def random_band(random, size, reach):
    """Lower band [size][reach + 1] of a positive definite matrix, and the matrix itself."""
    factor = numpy.tril(numpy.triu(random.normal(size=(size, size)), -reach))
    full = factor @ factor.T + 0.1 * numpy.eye(size)
    return lower_band(full, reach), full


def lower_band(full, reach):
    size = len(full)
    band = numpy.full((size, reach + 1), numpy.nan)  # the unused corner must not matter
    for column in range(size):
        below = full[column:column + reach + 1, column]
        band[column, :len(below)] = below
    return band


def for_scipy(band):
    """SciPy's lower form is our array turned round; it wants numbers in the corner."""
    return numpy.nan_to_num(band.T)


SHAPES = [(1, 0), (2, 1), (7, 0), (12, 5), (60, 11), (120, 17), (90, 64), (150, 100), (360, 23)]


@pytest.mark.parametrize("size, reach", SHAPES)
def test_factor_is_that_of_scipy(numerics, size, reach):
    band, full = random_band(numpy.random.default_rng(size), size, reach)
    want = scipy.linalg.cholesky_banded(for_scipy(band), lower=True)
    got = band.copy()
    assert numerics.trivet__band_factor(size, reach, doubles(got)) == 0
    within = ~numpy.isnan(band)
    off = numpy.abs(got - want.T)[within].max()
    assert off <= 16 * size * ROUNDING * numpy.linalg.cond(full) * numpy.abs(want).max()


@pytest.mark.parametrize("size, reach", SHAPES)
@pytest.mark.parametrize("columns", [1, 2, 10])
def test_solution_is_that_of_scipy(numerics, size, reach, columns):
    random = numpy.random.default_rng(size + columns)
    band, full = random_band(random, size, reach)
    loads = random.normal(size=(columns, size))
    want = scipy.linalg.solveh_banded(for_scipy(band), loads.T, lower=True).T
    factor = band.copy()
    assert numerics.trivet__band_factor(size, reach, doubles(factor)) == 0
    got = loads.copy()
    numerics.trivet__band_solve(size, reach, doubles(factor), columns, doubles(got))
    off = numpy.abs(got - want).max()
    assert off <= 16 * ROUNDING * numpy.linalg.cond(full) * numpy.abs(want).max()


def aligned(count):
    """Zeros at a multiple of 32 bytes."""
    taken = numpy.zeros(count + 4)
    first = -taken.ctypes.data // 8 % 4
    return taken[first:first + count]


@pytest.mark.parametrize("size, reach", SHAPES)
@pytest.mark.parametrize("columns", [4, 12, 20])
def test_solution_in_tiles_is_that_of_scipy(numerics, size, reach, columns):
    random = numpy.random.default_rng(size + columns)
    band, full = random_band(random, size, reach)
    loads = random.normal(size=(size, columns))
    want = scipy.linalg.solveh_banded(for_scipy(band), loads, lower=True)
    tiles = -(-size // 4)
    firsts, starts = ffi.new("int32_t[]", tiles), ffi.new("int32_t[]", tiles + 1)
    shape = ffi.new("trivet__tiles *", {"firsts": firsts, "starts": starts})
    lowest = ffi.new("int32_t[]", [max(i - reach, 0) for i in range(size)])
    rows, places = ffi.new("int32_t[]", size), ffi.new("int32_t[]", size)
    assert numerics.trivet__tile_shape(size, lowest, shape) == 0
    numerics.trivet__tile_places(size, shape, rows, places)
    entries, inverses = aligned(16 * starts[tiles]), aligned(4 * tiles)
    numerics.trivet__tiles_clear(size, shape, doubles(entries))
    for i in range(size):
        for j in range(lowest[i], i + 1):
            entries[rows[i] + places[j]] = full[i, j]
    got = aligned(4 * tiles * columns).reshape(-1, columns)
    got[:size] = loads
    assert numerics.trivet__tiles_factor(shape, doubles(entries), doubles(inverses)) == 0
    numerics.trivet__tiles_solve(shape, doubles(entries), doubles(inverses), columns, doubles(got))
    off = numpy.abs(got[:size] - want).max()
    assert off <= 16 * ROUNDING * numpy.linalg.cond(full) * numpy.abs(want).max()


@pytest.mark.parametrize("size, reach", SHAPES)
def test_product_and_norm_are_those_of_numpy(numerics, size, reach):
    random = numpy.random.default_rng(size)
    band, full = random_band(random, size, reach)
    x = random.normal(size=size)
    y = numpy.empty(size)
    numerics.trivet__band_times(size, reach, doubles(band), doubles(x), doubles(y))
    scale = numpy.abs(full) @ numpy.abs(x)
    assert (numpy.abs(y - full @ x) <= 4 * (reach + 2) * ROUNDING * scale).all()
    norm = numerics.trivet__band_norm(size, reach, doubles(band), doubles(numpy.empty(size)))
    want = numpy.linalg.norm(full, 1)
    assert abs(norm - want) <= 4 * (reach + 2) * ROUNDING * want


@pytest.mark.parametrize("size, reach", SHAPES)
def test_condition_is_a_lower_bound_within_three(numerics, size, reach):
    """The estimator never overstates, and is "almost always" within a factor of 3.

    N. J. Higham, Accuracy and Stability of Numerical Algorithms, 2nd edition, section 15.3.
    """
    band, full = random_band(numpy.random.default_rng(size), size, reach)
    norm = numpy.linalg.norm(full, 1)
    assert numerics.trivet__band_factor(size, reach, doubles(band)) == 0
    got = numerics.trivet__band_condition(
        size, reach, doubles(band), norm, doubles(numpy.empty(3 * size)),
        wholes(numpy.empty(size, dtype=numpy.int32)))
    want = numpy.linalg.cond(full, 1)
    assert want / 3 <= got <= want * (1 + 16 * size * ROUNDING * want)


def test_first_bad_minor_is_that_of_the_leading_blocks(numerics):
    random = numpy.random.default_rng(5)
    for size, reach in [(6, 2), (40, 7), (130, 70)]:
        for bad in random.integers(0, size, 10):
            band, full = random_band(random, size, reach)
            full[bad, bad] = band[bad, 0] = 0.05 * full[bad, bad] - 1.0
            definite = [numpy.linalg.eigvalsh(full[:k, :k])[0] > 0 for k in range(1, size + 1)]
            want = definite.index(False) + 1
            assert numerics.trivet__band_factor(size, reach, doubles(band)) == want


def null_vectors(numerics, full, reach, most):
    size = len(full)
    vectors = numpy.empty((most, size))
    values = numpy.empty(most)
    scratch = numpy.empty(numerics.trivet__null_scratch(size, reach, most))
    assert numerics.trivet__null_vectors(
        size, reach, doubles(lower_band(full, reach)), most, doubles(vectors), doubles(values),
        doubles(scratch)) == 0
    return vectors, values


@pytest.mark.parametrize("free", [0, 1, 2, 3, 6, 8])
@pytest.mark.parametrize("size, reach", [(24, 9), (90, 17), (200, 30)])
def test_null_vectors_span_what_scipy_finds(numerics, size, reach, free):
    """Springs between near neighbours, then `free` directions taken out of every spring."""
    random = numpy.random.default_rng(100 * size + free)
    kept = random.normal(size=(free, size))
    full = numpy.zeros((size, size))
    window = reach + 1
    for first in range(size - reach):
        rows = slice(first, first + window)
        springs = random.normal(size=(window, window))
        if free:
            held = scipy.linalg.null_space(kept[:, rows])
            springs = held @ (held.T @ springs)
        full[rows, rows] += springs @ springs.T
    scale = 1 / numpy.sqrt(numpy.diag(full))
    full = scale[:, None] * full * scale
    full = (full + full.T) / 2
    numpy.fill_diagonal(full, 1.0)
    want, basis = scipy.linalg.eigh(full)
    assert want[free] > 1e-7, "the matrix made here is not what this test is about"

    vectors, values = null_vectors(numerics, full, reach, 8)
    assert (numpy.abs(values[:free]) <= 1e-13).all()
    # Ritz values come from above (Courant and Fischer). Each round shrinks what they are off by the
    # square of their ratio to the first value that is not carried along, the thirteenth.
    assert (values >= want[:8] - 1e-13).all()
    settled = want[:8] < 0.5 * want[12]
    assert settled[:free].all()
    assert (numpy.abs(values - want[:8])[settled] <= 1e-8 * want[:8][settled] + 1e-13).all()
    assert numpy.abs(vectors @ vectors.T - numpy.eye(8)).max() <= 1e-14 * 8
    # Rounding turns a subspace by about rounding over the gap to the next eigenvalue.
    turned = basis[:, :free] - vectors[:free].T @ (vectors[:free] @ basis[:, :free])
    assert numpy.abs(turned).max(initial=0) <= 64 * ROUNDING * want[-1] / want[free]


def real_roots(numerics, coefficients, low, high):
    c = numpy.ascontiguousarray(coefficients, dtype=float)
    roots = numpy.empty(len(c))
    count = numerics.trivet__polynomial_roots(doubles(c), len(c) - 1, low, high, doubles(roots))
    return roots[:count]


@pytest.mark.parametrize("degree", range(1, 13))
def test_roots_are_those_of_numpy(numerics, degree):
    random = numpy.random.default_rng(degree)
    compared = 0
    for _ in range(100):
        c = random.normal(size=degree + 1) * 10.0 ** random.integers(-3, 4, degree + 1)
        every = numpy.roots(c[::-1])
        low, high = -1.5, 2.0
        # Real roots are recognised by their imaginary part; leave out what is nearly a pair.
        if ((every.imag != 0) & (numpy.abs(every.imag) < 1e-5)).any():
            continue
        real = every[every.imag == 0].real
        want = numpy.sort(real[(real >= low) & (real <= high)])
        got = real_roots(numerics, c, low, high)
        assert len(got) == len(want)
        powers = numpy.arange(degree + 1)
        for root, beside in zip(got, want):
            size = (numpy.abs(c) * numpy.abs(root) ** powers).sum()
            slope = numpy.polyval(numpy.polyder(c[::-1]), root)
            assert abs(numpy.polyval(c[::-1], root)) <= 4 * (degree + 1) * ROUNDING * size
            assert abs(root - beside) <= 1e-9 * max(abs(root), abs(size / slope))
            compared += 1
    assert compared >= 30


def pseudo_inverse(numerics, matrix):
    rows, columns = matrix.shape
    inverse = numpy.empty((columns, rows))
    scratch = numpy.empty(numerics.trivet__inverse_scratch(rows, columns))
    rank = numerics.trivet__pseudo_inverse(
        rows, columns, doubles(matrix), doubles(inverse), doubles(scratch))
    return rank, inverse


@pytest.mark.parametrize("rows, columns", [(1, 1), (1, 9), (6, 12), (12, 6), (6, 48), (48, 6),
                                           (20, 20), (7, 100)])
@pytest.mark.parametrize("missing", [0, 1, 3])
def test_pseudo_inverse_is_that_of_numpy(numerics, rows, columns, missing):
    random = numpy.random.default_rng(rows + columns)
    rank = max(min(rows, columns) - missing, 0)
    matrix = random.normal(size=(rows, rank)) @ random.normal(size=(rank, columns))
    got_rank, got = pseudo_inverse(numerics, matrix)
    assert got_rank == rank
    want = numpy.linalg.pinv(matrix, rcond=1e-10)
    values = numpy.linalg.svd(matrix, compute_uv=False)
    condition = values[0] / values[rank - 1] if rank else 1.0
    assert numpy.abs(got - want).max() <= 64 * ROUNDING * condition * numpy.abs(want).max()


def bandwidth(graph, order):
    place = numpy.empty(len(order), dtype=int)
    place[order] = numpy.arange(len(order))
    one, other = graph.nonzero()
    return numpy.abs(place[one] - place[other]).max(initial=0)


def random_graph(random):
    """Frames, roughly: points in a box joined to near neighbours; some with strays and islands."""
    count = int(random.integers(5, 150))
    points = random.uniform(size=(count, 3)) * [random.uniform(1, 6), 1, random.uniform(0, 1)]
    apart = numpy.linalg.norm(points[:, None] - points[None], axis=2)
    touches = apart < numpy.sort(apart, axis=None)[min(count * 5, count * count - 1)]
    if random.uniform() < 0.3:
        touches |= random.uniform(size=touches.shape) < 0.5 / count
    touches |= touches.T
    numpy.fill_diagonal(touches, False)
    return scipy.sparse.csr_matrix(touches)


def test_order_is_as_narrow_as_that_of_scipy(numerics):
    random = numpy.random.default_rng(79)
    for _ in range(50):
        graph = random_graph(random)
        count = graph.shape[0]
        order = numpy.empty(count, dtype=numpy.int32)
        numerics.trivet__order_nodes(
            count, wholes(graph.indptr.astype(numpy.int32)),
            wholes(graph.indices.astype(numpy.int32)), wholes(order),
            wholes(numpy.empty(4 * count, dtype=numpy.int32)))
        assert sorted(order) == list(range(count))
        theirs = scipy.sparse.csgraph.reverse_cuthill_mckee(graph, symmetric_mode=True)
        assert bandwidth(graph, order) <= 1.2 * bandwidth(graph, theirs)
