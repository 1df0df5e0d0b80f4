"""The one module that talks to C, together with _calls.py, which is made from the headers.

Handles: every object of the library sits in a Handle with a lock of its own. Whoever depends on it
keeps a lease; the object is freed when its handle and all leases are gone, so that closing cannot
pull memory from under an array that still looks at it. A frame that is leased out is copied before
it is changed: what was solved stays as it was.
"""
import os
import threading
import weakref
from difflib import get_close_matches
from typing import (Any, Callable, Dict, List, NoReturn, Optional, Sequence, Set, Tuple,
                    Union)

import numpy as np
from numpy.typing import NDArray

from . import errors
from ._native import ffi, lib

Numbers = NDArray[np.float64]
Integers = NDArray[np.int32]
Quantity = Union[float, str]

NULL = ffi.NULL
new = ffi.new
sizeof = ffi.sizeof
typeof = ffi.typeof
# Filled by _calls.py: words of enums; whether a struct has a size, and its members.
ENUMS: Dict[str, Dict[str, int]] = {}
STRUCTS: Dict[str, Tuple[bool, Dict[str, Tuple[str, int, str, str]]]] = {}
_TEXT = 256
_DOUBLES = ffi.typeof("double[]")
_INTEGERS = ffi.typeof("int32_t[]")
_MESSAGE = ffi.typeof("trivet_message *")
_CELL = ffi.typeof("int32_t *")
_WORDS: Dict[str, Dict[int, str]] = {}
_MAKERS: Dict[str, Tuple[Any, Any, Any]] = {}
# What structs look at lives as long as they do.
_kept: "weakref.WeakKeyDictionary[Any, List[Any]]" = weakref.WeakKeyDictionary()


# ---- errors ----


def refuse(status: int, message: Any) -> NoReturn:
    """Raises what a status and a message say."""
    kind = errors.BY_STATUS.get(status, errors.MistakeInside)
    if message is None or message.status != status:
        raise kind(string(lib.trivet_status_text(status)))
    wrong = kind(string(message.problem), thing=string(message.thing),
                 remedy=string(message.remedy), line=message.line, column=message.column)
    lib.trivet_message_clear(message)
    raise wrong


# ---- handles ----


class _Broken:
    """Stands in for a lock that another thread held when the process forked."""

    def __enter__(self) -> None:
        raise errors.Forked("was in use by another thread when this process was forked",
                            remedy="make it anew in the new process")

    def __exit__(self, *_: Any) -> None:
        pass


class Lease:
    """Keeps a handle, and tells it so."""

    __slots__ = ("handle", "__weakref__")

    def __init__(self, handle: "Handle") -> None:
        self.handle = handle


class Handle:
    """An object of the library, with its lock and what must live as long as it does."""

    __slots__ = ("pointer", "lock", "keeps", "_lease", "message", "cell", "__weakref__")

    def __init__(self, pointer: Any, keeps: Tuple[Any, ...], lock: Any = None) -> None:
        self.pointer = pointer
        self.lock: Any = threading.RLock() if lock is None else lock
        self.keeps = keeps
        self._lease: Optional["weakref.ref[Lease]"] = None
        # For a call on this handle, whose lock is held: a message, and a number that comes out.
        self.message: Any = new(_MESSAGE)
        self.cell: Any = new(_CELL)
        _living.add(weakref.ref(self, _living.discard))

    def lease(self) -> Lease:
        """The lease that all who depend on this handle share."""
        with _leasing:
            lease = self._lease() if self._lease is not None else None
            if lease is None:
                lease = Lease(self)
                self._lease = weakref.ref(lease)
            return lease

    def is_leased(self) -> bool:
        """Whether anything depends on this handle staying as it is."""
        return self._lease is not None and self._lease() is not None


_leasing = threading.Lock()  # for a moment, so that two threads never make two leases
_living: Set["weakref.ref[Handle]"] = set()


def _renew_locks() -> None:
    """In a new process: locks that threads of the old one held will never be given back."""
    global _leasing
    _leasing = threading.Lock()
    for reference in list(_living):
        handle = reference()
        if handle is not None and not isinstance(handle.lock, _Broken):
            if handle.lock.acquire(blocking=False):
                handle.lock.release()
            else:
                handle.lock = _Broken()


os.register_at_fork(after_in_child=_renew_locks)


def own(pointer: Any, free: Any, keeps: Tuple[Any, ...]) -> Handle:
    """A handle that frees its object when it goes."""
    return Handle(ffi.gc(pointer, free), keeps)


def borrow(pointer: Any, owner: Handle) -> Optional[Handle]:
    """A handle of an object that belongs to another one; None for NULL."""
    return Handle(pointer, (owner.lease(),), owner.lock) if pointer else None


# ---- texts ----


def string(text: Any) -> str:
    """A text of the library; empty for NULL."""
    if not text:
        return ""
    return str(ffi.string(text).decode("utf-8", "replace"))


def optional_string(text: Any) -> Optional[str]:
    """A text of the library; None for NULL."""
    return string(text) if text else None


def text_in(text: Optional[str], name: str) -> Any:
    """A text for the library; NULL for None."""
    if text is None:
        return NULL
    if not isinstance(text, str):
        raise errors.WrongArgument(f"is {type(text).__name__}", thing=name, remedy="give text")
    if "\0" in text:
        raise errors.WrongArgument("holds a character of code 0", thing=name, remedy="leave it out")
    try:
        return text.encode()
    except UnicodeEncodeError:
        raise errors.WrongArgument("holds half a character", thing=name,
                                   remedy="give Unicode text") from None


def written_text(function: Callable[..., int], *arguments: Any) -> str:
    """The text that a function writes into memory of the caller's."""
    size = _TEXT
    while True:
        text = new("char[]", size)
        needed = function(*arguments, text, size)
        if needed < size:
            return string(text)
        size = needed + 1


def written_list(function: Callable[..., int], *arguments: Any) -> List[int]:
    """The numbers that a function writes into memory of the caller's."""
    count = function(*arguments, NULL, 0)
    values = new(_INTEGERS, max(count, 1))
    function(*arguments, values, count)
    return list(values[0:count])


def take_text(text_out: Any) -> str:
    """Text that the library made for us, and frees."""
    text = string(text_out[0])
    lib.trivet_text_free(text_out[0])
    return text


def take_bytes(bytes_out: Any, length_out: Any) -> bytes:
    """Bytes that the library made for us, and frees."""
    made = bytes(ffi.buffer(bytes_out[0], length_out[0]))
    lib.trivet_text_free(bytes_out[0])
    return made


def texts(values: Any, name: str) -> Tuple[Any, List[Any]]:
    """Several texts for the library, and what they lie in."""
    kept = [new("char[]", text_in(value, name)) if isinstance(value, str) else text_in(value, name)
            for value in _listed(values, name)]
    return new("char *[]", kept or [NULL]), kept


# ---- what the library calls back ----


class Called:
    """A Python function that the library calls; what it raises stops the work and is raised then.

    The function gets the library's own arguments, which are gone when it returns.
    """

    def __init__(self, function: Optional[Callable[..., Any]]) -> None:
        self.function = function
        self.handle = NULL if function is None else ffi.new_handle(self)
        self.wrong: Optional[BaseException] = None

    def settle(self) -> None:
        """Raises what the function raised."""
        if self.wrong is not None:
            wrong, self.wrong = self.wrong, None
            raise wrong


def call_back(kinds: Sequence[str]) -> None:
    """Takes the library's calls of these kinds."""
    def called(user: Any, *arguments: Any) -> int:
        box = ffi.from_handle(user)
        try:
            box.function(*arguments)
        except BaseException as wrong:  # of any kind, also Ctrl-C: it must not be lost
            box.wrong = wrong
            return 1
        return 0

    def lost(kind: Any, wrong: BaseException, trace: Any) -> None:
        """Ctrl-C between two lines of the function above."""
        box = ffi.from_handle(trace.tb_frame.f_locals["user"])
        box.wrong = wrong

    for kind in kinds:
        ffi.def_extern(name=f"trivet_python_{kind}", error=1, onerror=lost)(called)


def bytes_at(pointer: Any, length: int) -> bytes:
    """A copy of bytes of the library."""
    return bytes(ffi.buffer(pointer, length))


class Structs:
    """Room for structs of one kind and so many doubles with each, filled one after the other."""

    def __init__(self, name: str, room: int, width: int) -> None:
        self.count = 0
        self._dtype = struct_type(name)
        self._width = width
        self._structs = new(f"trivet_{name}[]", room)
        self._values = new(_DOUBLES, max(room * width, 1))

    def take(self, pointer: Any, values: Any) -> None:
        """Copies a struct and what belongs to it."""
        self._structs[self.count] = pointer[0]
        ffi.memmove(self._values + self.count * self._width, values, 8 * self._width)
        self.count += 1

    def pointer(self, index: int) -> Any:
        """A struct as the library takes it."""
        return self._structs + index

    def arrays(self) -> Tuple[Any, Numbers]:
        """Views: structs, and values [struct][value]."""
        made = np.frombuffer(ffi.buffer(self._structs), dtype=self._dtype, count=self.count)
        values = np.frombuffer(ffi.buffer(self._values), dtype=np.float64,
                               count=self.count * self._width)
        return made, values.reshape(self.count, self._width)


def struct_type(name: str) -> Any:
    """A struct as NumPy sees it."""
    codes = {"double": "f8", "int32_t": "i4", "int64_t": "i8", "size_t": "u8"}
    names, formats, offsets = [], [], []
    kind = typeof(f"trivet_{name}")
    for member, field in kind.fields:
        names.append(member)
        offsets.append(field.offset)
        if field.type.kind != "array":
            formats.append(codes[field.type.cname])
        elif field.type.item.cname == "char":
            formats.append(f"S{field.type.length}")
        else:
            formats.append(f"({field.type.length},){codes[field.type.item.cname]}")
    return np.dtype({"names": names, "formats": formats, "offsets": offsets,
                     "itemsize": sizeof(kind)})


# ---- numbers and arrays in ----


def number(value: Quantity, dimension: str, name: str) -> float:
    """A number in SI units: as it is, or read from text such as "1 1/4 in" or "16 ga BWG"."""
    if type(value) is float:
        return value
    if isinstance(value, str):
        return _read_quantity(value, dimension, name)
    try:
        if getattr(value, "ndim", 0) == 0 and not isinstance(value, (bytes, bytearray)):
            return float(value)
        raise TypeError
    except (TypeError, ValueError, OverflowError):
        raise errors.WrongArgument(f"is {_short(value)}", thing=name,
                                   remedy=f"give a number in SI units, or text with a unit "
                                          f"({dimension})") from None


def _short(value: Any) -> str:
    text = repr(value)
    return text if len(text) <= 40 else text[:37] + "..."


def _read_quantity(text: str, dimension: str, name: str) -> float:
    quantity = new("trivet_quantity *")
    message = new(_MESSAGE)
    status = lib.trivet_stock_quantity_read(text_in(text, name), quantity, message)
    if status:
        kind = errors.BY_STATUS[status]
        said = string(message.thing)
        raise kind(string(message.problem), thing=f"{name}: {said}" if said else name,
                   remedy=string(message.remedy), column=message.column)
    wanted = ENUMS["dimension"][dimension]
    if not lib.trivet_quantity_fits(quantity, wanted):
        _, unit = shown_unit(dimension)
        given = "has no unit" if not quantity.has_unit else f"is not a {dimension}"
        if not (quantity.value == 0.0 and not quantity.has_unit):
            raise errors.BadUnit(f'"{text}" {given}', thing=name,
                                 remedy=f'write its unit, such as "{unit}", or give a number in '
                                        f"SI units" if unit else "give a plain number")
    return float(quantity.value)


def shown_unit(dimension: str, units: Any = None) -> Tuple[float, str]:
    """By what SI values are divided to be shown, and the unit that is written behind them."""
    factor = new("double *")
    unit = lib.trivet_units_for(NULL if units is None else units, ENUMS["dimension"][dimension],
                                factor)
    return factor[0], string(unit)


def _listed(values: Any, name: str) -> Sequence[Any]:
    if type(values) is tuple or type(values) is list:
        return values
    if isinstance(values, (str, bytes, dict, set)):
        raise errors.WrongArgument(f"is {_short(values)}", thing=name, remedy="give a list")
    try:
        return list(values)
    except TypeError:
        raise errors.WrongArgument(f"is {_short(values)}", thing=name,
                                   remedy="give a list") from None


def _array(ctype: Any, values: Any, count: Optional[int], name: str) -> Tuple[Any, int]:
    if values is None:
        return NULL, 0 if count is None else count
    values = _listed(values, name)
    if count is not None and len(values) != count:
        raise errors.WrongArgument(f"has {len(values)} numbers", thing=name,
                                   remedy=f"give {count}")
    try:
        return new(ctype, values), len(values)
    except (TypeError, OverflowError, ValueError) as wrong:
        raise errors.WrongArgument(f"is {_short(values)}", thing=name,
                                   remedy=f"give plain numbers ({wrong})") from None


def numbers(values: Any, count: Optional[int], name: str) -> Tuple[Any, int]:
    """An array of doubles and its length; NULL for None."""
    return _array(_DOUBLES, values, count, name)


def integers(values: Any, count: Optional[int], name: str) -> Tuple[Any, int]:
    """An array of int32_t and its length; NULL for None."""
    if type(values) is list and count is None:
        try:
            return new(_INTEGERS, values), len(values)
        except (TypeError, OverflowError):
            pass  # told below
    return _array(_INTEGERS, values, count, name)


def vector(values: Any, dimension: str, name: str) -> Sequence[float]:
    """Three numbers in SI units, each given as in number()."""
    if type(values) is tuple and len(values) == 3:
        x, y, z = values
        if type(x) is float and type(y) is float and type(z) is float:
            return values
    return quantities(values, dimension, 3, name)


def quantities(values: Any, dimension: str, count: int, name: str) -> List[float]:
    """So many numbers in SI units, each given as in number()."""
    values = _listed(values, name)
    if len(values) != count:
        raise errors.WrongArgument(f"has {len(values)} numbers", thing=name,
                                   remedy=f"give {count}")
    return [value if type(value) is float else number(value, dimension, name) for value in values]


# ---- arrays out ----


class _Memory:
    """Memory of the library as NumPy looks at it: read-only, and its owner kept alive."""

    __slots__ = ("__array_interface__", "lease")

    def __init__(self, pointer: Any, shape: Tuple[int, ...], code: str, owner: Handle) -> None:
        address = int(ffi.cast("uintptr_t", pointer))
        self.__array_interface__ = {"shape": shape, "typestr": code, "data": (address, True),
                                    "version": 3}
        self.lease = owner.lease()


def view_f8(pointer: Any, shape: Tuple[int, ...], owner: Handle) -> Optional[Numbers]:
    """An array of doubles that stays in the library; None for NULL."""
    return np.asarray(_Memory(pointer, shape, "=f8", owner)) if pointer else None


def view_i4(pointer: Any, shape: Tuple[int, ...], owner: Handle) -> Optional[Integers]:
    """An array of int32_t that stays in the library; None for NULL."""
    return np.asarray(_Memory(pointer, shape, "=i4", owner)) if pointer else None


# ---- enums and structs ----


def word(enum: str, value: int) -> str:
    """The word for a value: the last part of its name in the headers."""
    words = _WORDS.get(enum)
    if words is None:
        words = _WORDS[enum] = {code: text for text, code in ENUMS[enum].items()}
    return words.get(value, "")


def _choice(wish: str, words: List[str]) -> str:
    near = get_close_matches(wish, words, 1)
    return (f"did you mean {near[0]}? " if near else "") + "choose from: " + ", ".join(words)


def code(enum: str, text: Union[str, int], name: str) -> int:
    """The value for a word."""
    if isinstance(text, int) and not isinstance(text, bool):
        return text
    found = ENUMS[enum].get(text.lower().replace("-", " ")) if isinstance(text, str) else None
    if found is None:
        raise errors.BadName(f"is {_short(text)}", thing=name,
                             remedy=_choice(str(text), list(ENUMS[enum])))
    return found


def new_struct(name: str) -> Any:
    """A struct with the library's defaults."""
    maker = _MAKERS.get(name)
    if maker is None:
        kind = ffi.typeof(f"trivet_{name} *")
        first = new(kind)
        if STRUCTS[name][0]:
            status = getattr(lib, f"trivet_{name}_defaults")(first, sizeof(f"trivet_{name}"))
            if status:
                refuse(status, None)
        maker = _MAKERS[name] = (kind, first[0], first)  # the last keeps the one before alive
    return new(maker[0], maker[1])


def struct(name: str, values: Dict[str, Any]) -> Any:
    """A struct with the library's defaults and these members; None leaves a default."""
    return fill(new_struct(name), name, values)


def fill(made: Any, name: str, values: Dict[str, Any]) -> Any:
    """Sets members of a struct."""
    members = STRUCTS[name][1]
    for key, value in values.items():
        if value is None:
            continue
        bare, member = key, members.get(key)
        if member is None and key[-1:] == "_":  # yield_ and from_ are Python's own words
            bare = key[:-1]
            member = members.get(bare)
        if member is None:
            raise errors.BadKey(f"{key} is not known", thing=name,
                                remedy=_choice(key, list(members)))
        if type(value) is float and member[0] == "double" and member[1] == 0:
            setattr(made, bare, value)
        else:
            _set_member(made, name, bare, member, value)
    return made


def _set_member(made: Any, name: str, key: str, member: Tuple[str, int, str, str],
                value: Any) -> None:
    kind, depth, dimension, enum = member
    if enum and type(value) is str and value in ENUMS[enum]:
        setattr(made, key, ENUMS[enum][value])
        return
    place = f"{name}: {key}"
    try:
        if enum and depth:
            setattr(made, key, [code(enum, one, place) for one in _listed(value, place)])
        elif enum:
            setattr(made, key, code(enum, value, place))
        elif kind.endswith("*"):
            _set_pointer(made, key, kind, value, place)
        elif kind == "char":
            _set_text(made, key, text_in(value, place), place)
        elif kind == "double" and depth == 0:
            setattr(made, key, number(value, dimension, place))
        elif kind == "double" and depth == 1:
            setattr(made, key, quantities(value, dimension, len(getattr(made, key)), place))
        elif kind == "double":
            _set_rows(getattr(made, key), dimension, value, place)
        else:
            setattr(made, key, value)
    except (OverflowError, TypeError, AttributeError) as wrong:
        if isinstance(wrong, errors.TrivetError):
            raise
        raise errors.WrongArgument(f"is {_short(value)}", thing=place,
                                   remedy=f"see its description ({wrong})") from None


def _set_rows(table: Any, dimension: str, value: Any, place: str) -> None:
    rows = _listed(value, place)
    if len(rows) > len(table):
        raise errors.WrongArgument(f"has {len(rows)} rows", thing=place,
                                   remedy=f"give at most {len(table)}")
    for index, row in enumerate(rows):
        table[index] = quantities(row, dimension, len(table[index]), place)


def _set_pointer(made: Any, key: str, kind: str, value: Any, place: str) -> None:
    """What a struct looks at: text, numbers, rows of numbers, structs. It lives as long."""
    inner = kind.replace("const ", "").replace(" *", "")
    count = None
    kept: Any
    if isinstance(value, ffi.CData):
        kept = value
    elif inner == "char":
        kept = new("char[]", text_in(value, place))
    elif inner.startswith("trivet_"):
        name = inner[len("trivet_"):]
        rows = [row if isinstance(row, ffi.CData) else struct(name, dict(row))
                for row in _listed(value, place)]
        kept, count = structs(name, rows), len(rows)
    elif inner == "double":  # the only rows there are: places on a plate
        rows = [quantities(row, "length", 2, place) for row in _listed(value, place)]
        kept, count = new(_DOUBLES, [number for row in rows for number in row]), len(rows)
    else:
        kept, count = integers(value, None, place)
    _kept.setdefault(made, []).append(kept)
    setattr(made, key, kept)
    if count is not None:
        setattr(made, f"{key[:-1]}_count", count)


def _set_text(made: Any, key: str, text: bytes, place: str) -> None:
    room = len(getattr(made, key))
    if len(text) >= room:
        raise errors.BadName(f"is longer than {room - 1} bytes", thing=place, remedy="shorten it")
    setattr(made, key, text)


def structs(name: str, made: Sequence[Any]) -> Any:
    """Structs one behind the other."""
    array = new(f"trivet_{name}[]", max(len(made), 1))
    _kept[array] = list(made)
    for index, one in enumerate(made):
        array[index] = one[0]
    return array
