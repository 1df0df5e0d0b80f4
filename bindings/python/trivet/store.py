"""The store of a sweep: an SQLite file with a row for every variant."""
import os
import sqlite3
from contextlib import closing
from pathlib import Path as PathOf
from typing import TYPE_CHECKING, Any, Dict, List, Mapping, Optional, Sequence, Tuple, Union

import numpy as np

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, bytes_at
from .export import write_whole
from .stock import _units
from .variants import NUMBERS, Input, Variants

if TYPE_CHECKING:
    from .sweeps import Path


class Store:
    """A store that is there, also while a sweep still writes into it.

    Nothing is kept open between calls. len(store) is the number of rows.
    """

    def __init__(self, path: "Path") -> None:
        self.path = os.fspath(path)
        calls.sweep_summarise(self.path)

    # ---- what it holds ----

    @property
    def summary(self) -> records.SweepSummary:
        """How many variants are there, hold, failed; the lightest, cheapest, stiffest that hold."""
        return calls.sweep_summarise(self.path)

    def __len__(self) -> int:
        return self.summary.stored

    @property
    def is_finished(self) -> bool:
        """Whether every variant of the sweep, or of the part, is there."""
        return self.summary.is_finished

    def _ask(self, question: str) -> List[Tuple[Any, ...]]:
        place = PathOf(self.path).absolute().as_uri() + "?mode=ro"
        try:
            with closing(sqlite3.connect(place, uri=True)) as base:
                return base.execute(question).fetchall()
        except sqlite3.Error as wrong:
            raise errors.Unreadable(str(wrong), thing=self.path,
                                    remedy="sweep into a new store") from None

    @property
    def inputs(self) -> Tuple[Input, ...]:
        """What varies."""
        words = {value: name for name, value in ENUMS["dimension"].items()}
        choices: Dict[int, List[str]] = {}
        for position, text in self._ask("SELECT input, text FROM choices ORDER BY input, choice"):
            choices.setdefault(position, []).append(text)
        return tuple(
            Input(name, "choice" if kind else words[dimension], tuple(choices.get(position, ())))
            for position, name, kind, dimension in self._ask(
                "SELECT position, name, kind, dimension FROM inputs ORDER BY position"))

    def variants(self) -> Variants:
        """All rows, as arrays."""
        inputs = self.inputs
        places = "".join(f", v.input_{index + 1}" for index in range(len(inputs)))
        rows = self._ask(
            "SELECT v.number, v.outcome, v.overload, v.cracking, v.service, v.overload_used,"
            " v.cracking_used, v.service_used, v.droop, v.mass, v.price, v.mount_force,"
            " ifnull(c.text, ''), ifnull(w.text, ''), ifnull(k.text, ''), ifnull(r.text, ''),"
            f" v.number IN (SELECT number FROM holding){places} FROM variants v"
            " LEFT JOIN texts c ON c.id = v.governs_check"
            " LEFT JOIN texts w ON w.id = v.governs_where"
            " LEFT JOIN texts k ON k.id = v.governs_case"
            " LEFT JOIN texts r ON r.id = v.reason ORDER BY v.number")
        columns = list(zip(*rows)) if rows else [()] * (17 + len(inputs))

        def numbers(first: int, count: int) -> Any:
            made = np.array(columns[first:first + count], dtype=np.float64).T  # NULL becomes NaN
            return np.ascontiguousarray(made).reshape(len(rows), count)

        arrays: Dict[str, Any] = {
            "numbers": np.array(columns[0], dtype=np.int64),
            "outcomes": np.array(columns[1], dtype=np.int32),
            "verdicts": np.array(columns[2:5], dtype=np.int32).T.reshape(-1, 3).copy(),
            "used": numbers(5, 3), "holding": np.array(columns[16], dtype=np.bool_),
            "values": numbers(17, len(inputs))}
        arrays.update({name: numbers(8 + index, 1).reshape(-1)
                       for index, name in enumerate(NUMBERS)})
        for index, name in enumerate(("check", "where", "in_case", "reason")):
            arrays[name] = np.empty(len(rows), dtype=object)
            arrays[name][:] = columns[12 + index]
        return Variants(inputs, arrays)

    def checks(self, number: int) -> List[Tuple[str, str, str, float]]:
        """The worst of each kind of check of a variant, if they were kept: what, where, case,
        utilisation."""
        return [(kind, where, in_case, float("nan") if used is None else used)
                for kind, where, in_case, used in self._ask(
                    "SELECT kind, location, in_case, used FROM checks_named"
                    f" WHERE variant = {int(number)} ORDER BY place")]

    # ---- tables ----

    def table(self) -> Any:
        """All rows as a pandas data frame; SI units."""
        return self.variants().table()

    def csv(self, path: Optional["Path"] = None, *,
            units: Optional[Mapping[str, str]] = None) -> str:
        """All rows as CSV that a spreadsheet opens right.

        Args:
            path: where it is written, whole or not at all; None: it is only given back
            units: {"length": "in"}; None: mm, kg, N
        """
        pieces: List[bytes] = []
        calls.sweep_csv(self.path, _units(units),
                        lambda text, length: pieces.append(bytes_at(text, length)))
        made = b"".join(pieces)
        if path is not None:
            write_whole(path, made)
        return made.decode()

    def __repr__(self) -> str:
        summary = self.summary
        return (f"<Store {self.path!r}: {summary.stored} of {summary.end - summary.first} "
                f"variants, {summary.hold} of them hold>")


def merge(path: "Path", parts: Sequence[Union["Path", Store]]) -> Store:
    """Merges the finished stores of all parts of one sweep into one.

    >>> import os, tempfile, trivet
    >>> text = trivet.starter_text() + "vary: {cases: {parked: {from: 1, to: 4, steps: 7}}}"
    >>> sweep = trivet.Sweep(trivet.read_text(text))
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     place = lambda name: os.path.join(folder, name)
    ...     parts = [sweep.store(place(f"{k}.sqlite"), part=(k, 3)) for k in (1, 2, 3)]
    ...     whole = trivet.merge(place("whole.sqlite"), parts)
    ...     whole.variants().equals(sweep.run())
    True
    """
    if isinstance(parts, (str, bytes, Store)):
        parts = [parts]
    calls.sweep_merge(os.fspath(path), [part.path if isinstance(part, Store) else os.fspath(part)
                                        for part in parts])
    return Store(path)


__all__ = ["Store", "merge"]
