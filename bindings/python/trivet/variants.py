"""Rows of a sweep: single ones as records, many as arrays."""
from dataclasses import dataclass, fields
from typing import Any, Dict, Iterator, List, Optional, Sequence, Tuple, Union

import numpy as np
from numpy.typing import NDArray

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Integers, Numbers, Structs, struct, word

LINES = tuple(ENUMS["line"])
NUMBERS = ("droop", "mass", "price", "mount_force")
TEXTS = ("check", "where", "in_case", "reason")
# Names of these columns in tables, in their order: those of the store's own view.
TABLE = ("outcome", "reason", *LINES, *(f"{line}_used" for line in LINES), "governs_check",
         "governs_where", "governs_case", *NUMBERS)


@dataclass(frozen=True)
class Input:
    """Something that varies.

    Attributes:
        name: a name of `let`, a group of stock, "cargo NAME", "case NAME"
        dimension: such as "length"; "choice" of stock; "" for a number whose units have no name
        choices: names of the choices of stock
    """

    name: str
    dimension: str
    choices: Tuple[str, ...] = ()

    def value(self, number: float) -> Union[float, str]:
        """A value as people have it: of a choice its name, else the number in SI units."""
        return self.choices[int(number)] if self.dimension == "choice" else float(number)


@dataclass(frozen=True)
class Variant(records.Variant):
    """What became of a variant, and what it was made of.

    Attributes:
        inputs: by name: in SI units, factors, or names of stock
        holds: whether it holds in every line that was checked, the overload line among them
    """

    inputs: Dict[str, Union[float, str]]
    holds: bool


def variant_of(record: records.Variant, values: Sequence[float], inputs: Sequence[Input],
               holds: Optional[bool] = None) -> Variant:
    """A record of the library with its inputs by name."""
    if holds is None:
        holds = calls.variant_holds(struct("variant", dict(vars(record))))
    return Variant(**vars(record), holds=holds, inputs={
        one.name: one.value(value) for one, value in zip(inputs, values)})


def _decoded(column: Any) -> NDArray[Any]:
    """Fixed memory as text; each different one is made once."""
    known: Dict[bytes, str] = {}
    made = np.empty(len(column), dtype=object)
    for index, raw in enumerate(column):
        text = known.get(raw)
        if text is None:
            text = known[raw] = raw.split(b"\0", 1)[0].decode("utf-8", "replace")
        made[index] = text
    return made


class Variants:
    """Variants as arrays, in order of their numbers; arrays are read-only and in SI units.

    len(variants), variants[0] and iteration give trivet.Variant.

    Attributes:
        numbers: [row] number of each variant in its sweep
        values: [row][input] SI units, factors, or numbers of choices
        outcomes: [row] 0 checked, 1 skipped, 2 failed
        holding: [row] whether it holds in every line that was checked
        verdicts: [row][line] 0 not checked, 1 holds, 2 tight, 3 may crack, 4 fails; lines are
            overload, cracking, service
        used: [row][line] worst utilisation; NaN: nothing was checked
        droop: [row] m, the most in any case
        mass: [row] kg, of the frame without cargo
        price: [row] of tubes and inserts; NaN: not all have a price
        mount_force: [row] N, the largest resultant force on a mount
        check, where, in_case: [row] the check that governs, its place and case, as text
        reason: [row] why it was skipped or failed, as text
    """

    numbers: NDArray[np.int64]
    values: Numbers
    outcomes: Integers
    holding: NDArray[np.bool_]
    verdicts: Integers
    used: Numbers
    droop: Numbers
    mass: Numbers
    price: Numbers
    mount_force: Numbers
    check: NDArray[Any]
    where: NDArray[Any]
    in_case: NDArray[Any]
    reason: NDArray[Any]

    ARRAYS = ("numbers", "values", "outcomes", "holding", "verdicts", "used", *NUMBERS, *TEXTS)

    def __init__(self, inputs: Sequence[Input], arrays: Dict[str, Any]) -> None:
        self.inputs = tuple(inputs)
        for name in self.ARRAYS:
            array = arrays[name]
            array.flags.writeable = False
            setattr(self, name, array)

    @classmethod
    def _taken(cls, inputs: Sequence[Input], taken: Structs) -> "Variants":
        """A copy of what the library handed on."""
        rows, values = taken.arrays()
        arrays = {name: _decoded(rows[name]) for name in TEXTS}
        arrays.update({name: rows[name].copy() for name in (*NUMBERS, "verdicts", "used")})
        arrays["numbers"], arrays["outcomes"] = rows["number"].copy(), rows["outcome"].copy()
        arrays["values"] = values.copy()
        arrays["holding"] = np.array([calls.variant_holds(taken.pointer(index))
                                      for index in range(len(rows))], dtype=np.bool_)
        return cls(inputs, arrays)

    @classmethod
    def join(cls, inputs: Sequence[Input], parts: Sequence["Variants"]) -> "Variants":
        """Rows one behind the other."""
        if not parts:
            parts = [cls._taken(inputs, Structs("variant", 1, len(inputs)))]
        return cls(inputs, {name: np.concatenate([getattr(part, name) for part in parts])
                            for name in cls.ARRAYS})

    def since(self, row: int) -> "Variants":
        """The rows from one on."""
        return Variants(self.inputs, {name: getattr(self, name)[row:] for name in self.ARRAYS})

    def __len__(self) -> int:
        return len(self.numbers)

    def __getitem__(self, index: int) -> Variant:
        if isinstance(index, bool) or not isinstance(index, (int, np.integer)):
            raise errors.WrongArgument(f"is {type(index).__name__}", thing="row",
                                       remedy="give its number from 0, or use the arrays")
        if not -len(self) <= index < len(self):
            raise IndexError(f"row {index} is not there: there are {len(self)}")
        values: Dict[str, Any] = {
            "number": int(self.numbers[index]),
            "outcome": word("outcome", int(self.outcomes[index])),
            "verdicts": tuple(word("verdict", int(one)) for one in self.verdicts[index]),
            "used": tuple(float(one) for one in self.used[index])}
        values.update({name: float(getattr(self, name)[index]) for name in NUMBERS})
        values.update({name: getattr(self, name)[index] for name in TEXTS})
        record = records.Variant(**{field.name: values[field.name]
                                    for field in fields(records.Variant)})
        return variant_of(record, self.values[index], self.inputs, bool(self.holding[index]))

    def __iter__(self) -> Iterator[Variant]:
        for index in range(len(self)):
            yield self[index]

    def column(self, name: str) -> NDArray[Any]:
        """An input by its name: numbers in SI units, or names of stock."""
        for index, one in enumerate(self.inputs):
            if one.name == name:
                values = self.values[:, index]
                if one.dimension != "choice":
                    return values
                return np.array([one.value(value) for value in values], dtype=object)
        raise errors.BadName(f"is {name!r}", thing="column", remedy="choose from: " + ", ".join(
            one.name for one in self.inputs))

    def equals(self, other: "Variants") -> bool:
        """Whether both are the same, bit for bit."""
        if not isinstance(other, Variants) or self.inputs != other.inputs:
            return False
        pairs: List[Tuple[Any, Any]] = [(getattr(self, name), getattr(other, name))
                                        for name in self.ARRAYS]
        return all(one.shape == two.shape and one.dtype == two.dtype and (
            one.tolist() == two.tolist() if one.dtype == object else one.tobytes() == two.tobytes())
            for one, two in pairs)

    def table(self) -> Any:
        """A pandas data frame: one row a variant, named by its number; SI units."""
        from .tables import variants_table
        return variants_table(self)

    def __repr__(self) -> str:
        return f"<Variants: {len(self)}, {int(self.holding.sum())} of them hold>"


__all__ = ["Input", "Variant", "Variants"]
