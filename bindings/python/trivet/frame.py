"""Frames: read from a file or text, or built in code; worked out, rated, changed."""
import os
from collections import defaultdict
from typing import TYPE_CHECKING, Any, Dict, Iterable, List, NoReturn, Optional, Tuple, Union

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Handle, Quantity, code, fill, new_struct, struct
from ._frame_build import Building
from ._frame_core import KINDS, Name, directions
from ._frame_read import Reading
from .checks import Checks, Losses, Rates
from .result import Plan, Result, limits_of

if TYPE_CHECKING:
    from .shop import Cuts

# In which units answers may be written.
UNITS = {"length": ("m", "mm", "cm", "in", "ft"), "mass": ("kg", "g", "lb"),
         "force": ("N", "kN", "lbf", "kgf")}


class Frame(Building, Reading):
    """A frame of tubes.

    Args:
        name: shown above answers
        units: how answers are written: {"length": "in", "mass": "lb", "force": "lbf"}

    >>> import trivet
    >>> frame = trivet.Frame("shelf bracket")
    >>> for name, x in (("wall", 0.0), ("tip", 0.3)):
    ...     _ = frame.add_joint(name, x, 0, 0)
    >>> _ = frame.add_stock("arm", "square tube", width="20 mm", wall="2 mm", material="E235")
    >>> _ = frame.add_tube("arm", ["wall", "tip"], "arm")
    >>> _ = frame.add_mount("wall", "all")
    >>> _ = frame.add_case("loaded", (0, 0, -1))
    >>> frame.add_force("loaded", "tip", (0, 0, "-150 N"))
    >>> result = frame.solve()
    >>> by_hand = 150 * 0.3 ** 3 / (3 * 210e9 * frame.section("arm").second_moment[0])
    >>> 1.0 < result.droop("loaded").droop / by_hand < 1.03   # weight and shear come on top
    True
    >>> result.check().verdict
    'holds'

    A frame that was solved may be changed: the result keeps the frame as it was.
    """

    def __init__(self, name: str = "", *, units: Optional[Dict[str, str]] = None) -> None:
        super().__init__(calls.frame_new())
        self._numbers = defaultdict(dict)  # an empty frame has no names to look up
        self._name = name
        if units is not None:
            self.set_units(**units)

    @classmethod
    def _of(cls, handle: Handle, document: Optional[Handle] = None, like: Any = None) -> "Frame":
        made = cls.__new__(cls)
        Building.__init__(made, handle, document)
        if like is not None:
            made._name, made._units, made._limits = like._name, like._units, like._limits
            made._path = like._path
        return made

    # ---- settings ----

    @property
    def name(self) -> str:
        """What the frame is called."""
        return self._name

    @property
    def units(self) -> records.Units:
        """The units in which answers are written."""
        return calls.read_units(new_struct("units") if self._units is None else self._units)

    def set_units(self, **units: str) -> None:
        """Sets the units in which answers are written: length, mass, force."""
        for key, unit in units.items():
            if key in UNITS and not (isinstance(unit, str) and unit in UNITS[key]):
                raise errors.BadUnit(f"is {unit!r}", thing=f"units: {key}",
                                     remedy="choose from: " + ", ".join(UNITS[key]))
        self._units = fill(new_struct("units"), "units", units)

    @property
    def limits(self) -> records.Limits:
        """What is asked of the frame."""
        return calls.read_limits(limits_of(self._limits, {}))

    def set_limits(self, **limits: Any) -> None:
        """Sets what is asked of the frame; members of trivet.records.Limits.

        >>> import trivet
        >>> frame = trivet.Frame()
        >>> frame.set_limits(yield_=2, droop="4 mm")
        >>> frame.limits.yield_, frame.limits.droop
        (2.0, 0.004)
        """
        self._limits = limits_of(self._limits, limits)

    # ---- answers ----

    def solve(self) -> Result:
        """Works out all cases and combinations. Other threads run meanwhile.

        Raises:
            trivet.Unstable: it can move freely; joint and direction say what, where to
            trivet.IllConditioned: parts too unlike in stiffness
        """
        handle = self._use()
        with handle.lock:
            return Result(calls.frame_solve(handle), handle, self)

    def check(self, **limits: Any) -> Checks:
        """Solves and checks: short for solve().check()."""
        return self.solve().check(**limits)

    def plan(self) -> Plan:
        """Plans the solution, for solving many frames of the same topology."""
        return Plan(self)

    def rate(self, **limits: Any) -> Rates:
        """The largest cargo that still holds; limits as in set_limits, for this once."""
        handle = self._use()
        with handle.lock:
            made = calls.rates_new(handle, limits_of(self._limits, limits))
            return Rates(made, self._snapshot())

    def losses(self, **limits: Any) -> Losses:
        """What happens if a bolt or a mount is lost; limits as in rate."""
        handle = self._use()
        with handle.lock:
            made = calls.losses_new(handle, limits_of(self._limits, limits))
            return Losses(made, self._snapshot())

    def shop(self) -> records.Shop:
        """How the workshop works, as the file says it: kerf, gap, bars on offer, bent pieces."""
        return calls.document_shop(self._file())

    def cut(self, **settings: Any) -> "Cuts":
        """What to cut, drill and buy; see trivet.Cuts.

        Args:
            settings: kerf, gap, aim, bars, bends, ends, ... in place of those of the file: see
                trivet.shop.shop_of
        """
        from .shop import cuts_of
        return cuts_of(self, settings)

    def drawing(self, **options: Any) -> str:
        """The frame, solved and checked, as SVG; see trivet.Checks.drawing."""
        return self.check().drawing(**options)

    def dxf(self, path: Any = None) -> bytes:
        """Centre lines, joints and plates as DXF R12, in mm and real size; nothing is solved.

        Args:
            path: where it is written, whole or not at all; None: it is only given back
        """
        from .export import handed
        return handed(calls.export_dxf(self._use()), path)

    # ---- other frames ----

    def copy(self) -> "Frame":
        """A frame of its own, alike."""
        return Frame._of(calls.frame_copy(self._use()), like=self)

    __copy__ = copy

    def __deepcopy__(self, memo: Any) -> "Frame":
        return self.copy()

    def with_give(self, give: str) -> "Frame":
        """A copy whose mounts give: "rigid", "cast lug", "tube loop", "rubber"."""
        return Frame._of(calls.frame_with_give(self._use(), code("give", give, "give")), like=self)

    def fit_give(self, readings: Iterable[Tuple[Any, ...]], springs: Any
                 ) -> Tuple[records.Fitted, "Frame"]:
        """Finds the give of the mounts that explains readings, and a frame that has it.

        Args:
            readings: (joint, mass in kg, drop in m) or (joint, mass, drop, within in m) each
            springs: directions to fit, the same on every mount, such as ["ry"]
        """
        made = []
        handle = self._use()
        with handle.lock:
            for reading in readings:
                if not isinstance(reading, (tuple, list)) or len(reading) not in (3, 4):
                    raise errors.WrongArgument(f"is {reading!r}", thing="reading",
                                               remedy="give joint, mass, drop and perhaps within")
                one = struct("reading", dict(zip(("mass", "drop", "within"), reading[1:])))
                one.joint = self._number("joint", reading[0])
                made.append(one)
            fitted, copy = calls.give_fit(handle, made, directions(springs, "springs"))
        return fitted, Frame._of(copy, like=self)

    def _snapshot(self) -> "Frame":
        """This frame as it is now, whatever becomes of it."""
        made = Frame._of(self._use(), self._document, like=self)
        made._lease = self._use().lease()
        return made

    # ---- the file ----

    def _file(self) -> Handle:
        self._use()
        if self._document is None:
            raise errors.BadOrder("does not stand in a file as it is", thing="frame",
                                  remedy="ask this of a frame that was read and not changed since")
        return self._document

    @property
    def is_from_file(self) -> bool:
        """Whether the frame was read and not changed since."""
        return self._document is not None

    def text(self) -> str:
        """The file itself, as it was read."""
        return calls.document_text(self._file()) or ""

    def understood_json(self) -> str:
        """What was understood of the file, as JSON."""
        return calls.document_understood_json(self._file())

    def let(self) -> Dict[str, float]:
        """Named quantities of the file, in SI units."""
        found: Dict[str, float] = {}
        for index in range(calls.document_let_count(self._file())):
            name, quantity = calls.document_let(self._file(), index)
            found[name or ""] = quantity.value
        return found

    def unused(self) -> List[str]:
        """Parts of the file that this version reads past."""
        found: List[str] = []
        while True:
            name = calls.document_unused(self._file(), len(found))
            if name is None:
                return found
            found.append(name)

    def fitted(self) -> records.Fitted:
        """The give that was fitted to the readings in the file."""
        return calls.document_fitted(self._file())

    def place(self, kind: str, name: Name) -> Tuple[int, int]:
        """Line and column where a thing stands in the file: place("tube", "left rail")."""
        which = code("kind", kind, "kind")
        word = {value: key for key, value in KINDS.items()}.get(which, "")
        if not word:
            raise errors.BadName(f"is {kind!r}", thing="kind")
        return calls.document_place(self._file(), which, self._number(word, name))

    # ---- Python ----

    def close(self) -> None:
        """Lets go of the frame; what was solved stays."""
        self._handle = self._document = self._lease = None

    def __enter__(self) -> "Frame":
        return self

    def __exit__(self, *_: Any) -> None:
        self.close()

    def __reduce__(self) -> NoReturn:
        raise TypeError("a Frame cannot be pickled: hand on the file's path or text and read it "
                        "there; frame.copy() makes a copy in this process")

    def __repr__(self) -> str:
        if self._handle is None:
            return "<Frame, closed>"
        return (f"<Frame {self._name!r}: {len(self.joints)} joints, {len(self.tubes)} tubes, "
                f"{len(self.columns)} cases>")

    def _repr_html_(self) -> str:
        from .html import frame_html
        return frame_html(self)

    def plot(self, **options: Any) -> Any:
        """Draws the shape with matplotlib; see trivet.plotting.plot_frame."""
        from .plotting import plot_frame
        return plot_frame(self, **options)


def _from_document(document: Handle) -> Frame:
    handle = calls.document_frame(document)
    assert handle is not None
    frame = Frame._of(handle, document)
    frame._name = calls.document_name(document) or ""
    frame._units = fill(new_struct("units"), "units", vars(calls.document_units(document)))
    frame._limits = struct("limits", dict(vars(calls.document_limits(document))))
    return frame


def read(path: Union[str, "os.PathLike[str]"]) -> Frame:
    """Reads a file.

    Raises:
        trivet.InputError: line and column say where, remedy what would be right
        trivet.Unreadable: there is no such file
    """
    frame = _from_document(calls.document_read_file(os.fspath(path)))
    frame._path = os.path.abspath(os.fspath(path))
    return frame


def read_text(text: Union[str, bytes]) -> Frame:
    """Reads the text of a file.

    >>> import trivet
    >>> frame = trivet.read_text(trivet.starter_text())
    >>> frame.solve().check().verdict
    'holds'
    >>> try:
    ...     trivet.read_text("trivet: 1\\nmunts: {}")
    ... except trivet.InputError as wrong:
    ...     print(wrong.line, wrong.column, wrong.problem)
    2 1 the key "munts" is not known here
    """
    if isinstance(text, str):
        try:
            text = text.encode()
        except UnicodeEncodeError:
            raise errors.WrongArgument("holds half a character", thing="text") from None
    if not isinstance(text, bytes):
        raise errors.WrongArgument(f"is {type(text).__name__}", thing="text", remedy="give text")
    return _from_document(calls.document_read_text(text))


def gives() -> Dict[str, Tuple[float, ...]]:
    """Springs of a mount by how it gives: [6], N/m and N m/rad; infinite where it is rigid."""
    return {calls.give_text(give) or "": calls.give_springs(give)
            for give in ENUMS["give"].values()}


__all__ = ["Frame", "Quantity", "gives", "read", "read_text"]
