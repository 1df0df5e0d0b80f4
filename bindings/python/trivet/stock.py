"""Stock and quantities: what the library knows without a frame."""
from typing import Any, Callable, List, Mapping, Optional, Tuple

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Quantity, code, fill, new_struct, number, struct
from ._frame_build import made_profile


def _units(units: Optional[Mapping[str, str]]) -> Any:
    if units is None:
        return None
    if not isinstance(units, Mapping) and hasattr(units, "length"):
        units = vars(units)
    return fill(new_struct("units"), "units", dict(units))


def quantity(text: str, dimension: Optional[str] = None) -> float:
    """A quantity in SI units.

    Args:
        text: numbers, workshop fractions, units, gauges, + - * / ^ and brackets
        dimension: what it must be, such as "length"; None: whatever it is

    >>> import trivet
    >>> trivet.quantity("1 1/4 in"), trivet.quantity("2 * 12 kN/m", "line load")
    (0.03175, 24000.0)
    >>> trivet.quantity("16 ga")
    Traceback (most recent call last):
    ...
    trivet.errors.BadUnit: ...
    """
    if dimension is not None:
        if dimension not in ENUMS["dimension"]:
            raise errors.BadName(f"is {dimension!r}", thing="dimension",
                                 remedy="choose from: " + ", ".join(ENUMS["dimension"]))
        return number(text, dimension, dimension)
    return calls.stock_quantity_read(text).value


def read_quantity(text: str, gauges: bool = True) -> records.Quantity:
    """A quantity with the powers of its units; gauges says whether "16 ga BWG" may stand in it."""
    return calls.stock_quantity_read(text) if gauges else calls.quantity_read(text)


def fits(text: str, dimension: str) -> bool:
    """Whether a quantity is of a dimension."""
    which = code("dimension", dimension, "dimension")
    return calls.quantity_fits(struct("quantity", dict(vars(read_quantity(text)))), which)


def show(value: float, dimension: str, digits: int = 3,
         units: Optional[Mapping[str, str]] = None) -> str:
    """A value in SI units as people read it.

    >>> import trivet
    >>> trivet.show(0.00193, "length"), trivet.show(1.2e8, "stress")
    ('1.93 mm', '120 N/mm^2')
    >>> trivet.show(0.0254, "length", units={"length": "in"})
    '1 in'
    """
    which = code("dimension", dimension, "dimension")
    return calls.units_text(_units(units), which, number(value, "number", "value"), digits)


def unit(dimension: str, units: Optional[Mapping[str, str]] = None) -> Tuple[str, float]:
    """The unit in which a dimension is shown, and its size in SI units.

    >>> import trivet
    >>> trivet.unit("stress")
    ('N/mm^2', 1000000.0)
    """
    text, factor = calls.units_for(_units(units), code("dimension", dimension, "dimension"))
    return text or "", factor


def dimensions() -> Tuple[str, ...]:
    """The kinds of number that the library reads and shows."""
    return tuple(calls.dimension_text(value) or "" for value in ENUMS["dimension"].values())


def section(shape: str, **sizes: Any) -> records.Section:
    """Section values of a shape with its sizes.

    >>> import trivet
    >>> bar = trivet.section("square bar", width="12 mm")
    >>> bool(abs(bar.second_moment[0] - 0.012 ** 4 / 12) < 1e-21)
    True
    """
    return calls.section_solve(made_profile(shape, sizes))


def profile_text(profile: Any, units: Any = None) -> str:
    """A profile as people say it; units as a mapping or the library's own."""
    made = struct("profile", dict(vars(profile))) if isinstance(profile, records.Profile) else (
        profile)
    return calls.profile_text(made, units)


def radii(profile: Any) -> Tuple[float, float]:
    """How far the corners of a square or rectangular tube are rounded, outside and inside: m.

    >>> import trivet
    >>> frame = trivet.Frame()
    >>> _ = frame.add_stock("rail", "square tube", width="20 mm", wall="2 mm")
    >>> trivet.radii(frame.profile("rail"))   # EN 10219-2 annex B: twice the wall, and once
    (0.004, 0.002)
    """
    if isinstance(profile, records.Profile):
        profile = struct("profile", dict(vars(profile)))
    elif isinstance(profile, Mapping):
        given = dict(profile)
        profile = made_profile(given.pop("shape", ""), given)
    else:
        raise errors.WrongArgument(f"is {type(profile).__name__}", thing="profile",
                                   remedy='give {"shape": "square tube", "width": 0.02, ...}')
    return calls.profile_radii(profile)


def shapes() -> Tuple[str, ...]:
    """The shapes of stock."""
    return tuple(calls.shape_text(value) or "" for value in ENUMS["shape"].values())


def fit(outer: Mapping[str, Any], inner: Mapping[str, Any], seam: Quantity = 0.0) -> records.Fit:
    """Whether a bar or tube slides into a tube: shape and sizes of both.

    >>> import trivet
    >>> found = trivet.fit({"shape": "square tube", "width": "20 mm", "wall": "2 mm"},
    ...                    {"shape": "square bar", "width": "14 mm"})
    >>> found.slides
    True
    """
    try:
        made = [made_profile(given["shape"], {key: value for key, value in given.items()
                                              if key != "shape"}) for given in (outer, inner)]
    except (KeyError, TypeError, AttributeError):
        raise errors.Incomplete("has no shape", thing="outer or inner",
                                remedy='give {"shape": "square bar", "width": "14 mm"}') from None
    return calls.fit_solve(made[0], made[1], number(seam, "length", "seam"))


def fit_text(found: records.Fit, units: Optional[Mapping[str, str]] = None) -> str:
    """A fit in words: "slides in with 0.5 mm to spare"."""
    return calls.fit_text(struct("fit", dict(vars(found))), _units(units))


def gauge(number_of: int, system: str = "BWG") -> float:
    """The thickness of a gauge in m; system is "BWG" or "MSG".

    >>> import trivet
    >>> round(trivet.gauge(16, "BWG") * 1e3, 4)
    1.651
    """
    return calls.gauge_thickness(code("gauge_system", system, "system"), number_of)


def gauge_range() -> Tuple[int, int]:
    """The smallest and largest gauge number in the tables."""
    return calls.gauge_range()


def _all(count: Callable[[], int], at: Callable[[int], Any]) -> List[Any]:
    return [at(index) for index in range(count())]


def materials() -> List[records.Material]:
    """The built-in materials."""
    return _all(calls.material_count, calls.material_at)


def material(name: str) -> records.Material:
    """A built-in material by its name.

    >>> import trivet
    >>> trivet.material("e235").E / 1e9
    210.0
    """
    return calls.material_find(name)


def threads() -> List[records.Thread]:
    """The built-in threads."""
    return _all(calls.thread_count, calls.thread_at)


def thread(name: str) -> records.Thread:
    """A built-in thread by its name, such as "M6"."""
    return calls.thread_find(name)


def grades() -> List[records.Grade]:
    """The built-in grades of screws."""
    return _all(calls.grade_count, calls.grade_at)


def grade(name: str) -> records.Grade:
    """A built-in grade by its name, such as "8.8"."""
    return calls.grade_find(name)


def fillers() -> List[records.Filler]:
    """The built-in weld metals."""
    return _all(calls.filler_count, calls.filler_at)


def filler(name: str) -> records.Filler:
    """A built-in weld metal by its name, such as "ER70S-6"."""
    return calls.filler_find(name)


def stock_json(name: Optional[str] = None) -> str:
    """The built-in tables as JSON: what `trivet stock --json` prints."""
    return calls.stock_json(name)


def weakest_texts() -> Tuple[str, ...]:
    """Plain words for what gives first when a screw is tightened."""
    return tuple(calls.weakest_text(value) or "" for value in ENUMS["weakest"].values())


def error_json(error: errors.TrivetError) -> str:
    """An error as JSON, as the command prints it when it was asked for JSON and failed."""
    return calls.message_json(_message(error))


def error_text(error: errors.TrivetError) -> str:
    """An error as one line, as the command prints it."""
    return calls.message_text(_message(error))


def exit_status(status: int) -> int:
    """The exit status of the command for a status of the library."""
    return calls.status_exit(status)


def status_text(status: int) -> str:
    """One line of text for a status of the library."""
    return calls.status_text(status) or ""


def _message(error: errors.TrivetError) -> Any:
    made = new_struct("message")
    made.status, made.line, made.column = error.status, error.line, error.column
    for key in ("thing", "problem", "remedy"):
        text = getattr(error, key).encode("utf-8", "replace")
        room = len(getattr(made, key)) - 1
        setattr(made, key, text[:room].decode("utf-8", "ignore").encode())
    return made
