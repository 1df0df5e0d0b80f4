"""A frame's place in the library: who owns it, when it is copied, how its things are found."""
from typing import Any, Callable, Dict, List, Optional, Sequence, Tuple, TypeVar, Union

from . import _calls as calls
from . import errors
from ._c import ENUMS, Handle, Lease, Quantity, fill, new_struct, number

Name = Union[str, int]
Place = Sequence[Quantity]
Made = TypeVar("Made")

KINDS = ENUMS["kind"]
DIRECTIONS = {"x": 1, "y": 2, "z": 4, "rx": 8, "ry": 16, "rz": 32}
SEVERAL = {**DIRECTIONS, "position": 7, "all": 63, "pinned": 48}
SIDES = {"top": 1, "bottom": 2, "left": 4, "right": 8}


def bits(words: Any, names: Dict[str, int], name: str) -> int:
    """Directions or sides as bits: a word, a list of words, or the bits themselves."""
    if isinstance(words, str):
        if words in names:
            return names[words]
        words = (words,)
    elif isinstance(words, int) and not isinstance(words, bool):
        return words
    found = 0
    try:
        for word in words:
            found |= names[word]
    except (KeyError, TypeError):
        shown = words[0] if isinstance(words, tuple) and len(words) == 1 else words
        raise errors.BadName(f"is {shown!r}", thing=name,
                             remedy="choose from: " + ", ".join(names)) from None
    return found


def directions(words: Any, name: str) -> int:
    """Directions as bits: "all", "position", "pinned", ["x", "ry"]."""
    return bits(words, SEVERAL, name)


class FrameCore:
    """What building and reading share. A change never reaches what was solved before it."""

    def __init__(self, handle: Handle, document: Optional[Handle] = None,
                 lease: Optional[Lease] = None) -> None:
        self._handle: Optional[Handle] = handle
        self._document = document
        self._lease = lease
        self._numbers: Dict[str, Dict[str, int]] = {}
        self._units: Any = None
        self._limits: Any = None
        self._name = ""
        self._path: Optional[str] = None  # of the file that it was read from

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("is closed", thing="frame", remedy="read or build it again")
        return self._handle

    def _change(self) -> Handle:
        """The frame to change; its lock is held. A copy if anybody depends on it as it is."""
        handle = self._handle
        if handle is None:
            return self._use()
        if self._document is not None or (handle._lease is not None and handle.is_leased()):
            copy = calls.frame_copy(handle)
            copy.lock = handle.lock
            self._handle, self._document, self._lease = copy, None, None
            return copy
        return handle

    def _all_or_nothing(self, work: Callable[[Handle], Made]) -> Made:
        """Several changes of which all happen or none."""
        handle = self._use()
        with handle.lock:
            copy = calls.frame_copy(handle)
            copy.lock = handle.lock
            made = work(copy)
            self._handle, self._document, self._lease = copy, None, None
            return made

    def _names(self, kind: str) -> Dict[str, int]:
        handle = self._use()
        try:
            return self._numbers[kind]
        except KeyError:
            code = KINDS[kind]
            count = calls.frame_count(handle, code)
            table = {calls.frame_name(handle, code, i) or "": i for i in range(count)}
            self._numbers[kind] = table
            return table

    def _forget(self, kind: str) -> None:
        """Names of a kind are looked up anew."""
        self._numbers = {known: table for known, table in self._numbers.items() if known != kind}

    def _remember(self, kind: str, name: str, index: int) -> int:
        try:
            self._numbers[kind][name] = index
        except KeyError:
            pass  # looked up when they are wanted
        return index

    def _number(self, kind: str, name: Name) -> int:
        """The number of a thing by its name, or by its number."""
        try:
            return self._numbers[kind][name]  # type: ignore[index]
        except (KeyError, TypeError):
            return self._find(kind, name)

    def _find(self, kind: str, name: Name) -> int:
        if isinstance(name, str):
            found = self._names(kind).get(name)
            return calls.frame_find(self._use(), KINDS[kind], name) if found is None else found
        if isinstance(name, int) and not isinstance(name, bool):
            if not 0 <= name < calls.frame_count(self._use(), KINDS[kind]):
                raise errors.BadIndex(f"number {name} is not there", thing=kind,
                                      remedy=f"give the name of a {kind}")
            return name
        raise errors.WrongArgument(f"is {type(name).__name__}", thing=kind,
                                   remedy=f"give the name of a {kind}")

    def _several(self, kind: str, names: Any) -> List[int]:
        if type(names) is list or type(names) is tuple:
            try:
                table = self._numbers[kind]
                return [table[name] for name in names]
            except (KeyError, TypeError):
                pass  # some are numbers, or unknown
        if isinstance(names, (str, int)):
            names = [names]
        try:
            return [self._number(kind, name) for name in names]
        except TypeError as wrong:
            if isinstance(wrong, errors.TrivetError):
                raise
            raise errors.WrongArgument(f"is {type(names).__name__}", thing=f"{kind}s",
                                       remedy="give a list of names") from None

    def _column(self, name: Name) -> int:
        """The number of a result column: of a case, then of a combination."""
        cases = calls.frame_count(self._use(), KINDS["case"])
        if isinstance(name, str):
            if name in self._names("combination"):
                return cases + self._names("combination")[name]
            return self._number("case", name)
        if isinstance(name, int) and cases <= name < len(self.columns):
            return name
        return self._number("case", name)

    @property
    def columns(self) -> Tuple[str, ...]:
        """Names of the result columns: cases in order, then combinations."""
        return tuple(self._names("case")) + tuple(self._names("combination"))

    def _struct_of(self, name: str, values: Dict[str, Any], start: Any = None) -> Any:
        return fill(new_struct(name) if start is None else start, name, values)


def six(values: Any, name: str) -> List[Quantity]:
    """Three lengths or forces, then three turns: as a list of six, or by direction."""
    if isinstance(values, dict):
        unknown = [key for key in values if key not in DIRECTIONS]
        if unknown:
            raise errors.BadName(f"is {unknown[0]!r}", thing=name,
                                 remedy="choose from: " + ", ".join(DIRECTIONS))
        values = [values.get(key, 0.0) for key in DIRECTIONS]
    try:
        given: List[Quantity] = list(values)
    except TypeError:
        raise errors.WrongArgument(f"is {type(values).__name__}", thing=name,
                                   remedy="give six numbers") from None
    if len(given) != 6:
        raise errors.WrongArgument(f"has {len(given)} numbers", thing=name, remedy="give six")
    return given


def six_of(values: Any, dimensions: Tuple[str, str], name: str) -> List[float]:
    """Six quantities, the first three of one dimension, the last three of another."""
    given = six(values, name)
    return [number(value, dimensions[index // 3], f"{name}: {direction}")
            for index, (direction, value) in enumerate(zip(DIRECTIONS, given))]
