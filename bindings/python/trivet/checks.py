"""Checks: demands beside limits, the verdict, and the working of each check; ratings; losses."""
import os
from typing import TYPE_CHECKING, Any, Dict, Iterator, List, NoReturn, Optional, Tuple, Union, overload

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Handle, code, number, struct, word

if TYPE_CHECKING:
    from .frame import Frame
    from .result import Result


def _listed(function: Any, *arguments: Any) -> List[str]:
    """Texts that a function gives one a call, until there is none."""
    found: List[str] = []
    while True:
        text = function(*arguments, len(found))
        if text is None:
            return found
        found.append(text)


def cautions() -> List[str]:
    """The usual cautions: read them before you trust a verdict."""
    return _listed(calls.caution)


def check_names() -> List[str]:
    """The kinds of check."""
    return _listed(calls.check_name)


def used_text(utilisation: float) -> str:
    """A utilisation as people read it.

    >>> import trivet
    >>> trivet.used_text(0.57), trivet.used_text(1.23)
    ('57 %', '123 %')
    """
    return calls.used_text(number(utilisation, "number", "utilisation"))


def limits_for(frame: "Frame", changes: Dict[str, Any]) -> Any:
    """A frame's limits with changes."""
    from .result import limits_of
    return limits_of(frame._limits, changes)


class Checks:
    """The checks of a solved frame, by line of the verdict, then worst first.

    len(checks), checks[0] and iteration give trivet.records.Check.
    """

    def __init__(self, handle: Handle, frame: "Frame", result: Optional["Result"]) -> None:
        self._handle: Optional[Handle] = handle
        self._frame = frame
        self._result = result

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("are closed", thing="checks", remedy="check the result again")
        return self._handle

    def __len__(self) -> int:
        return calls.checks_count(self._use())

    @overload
    def __getitem__(self, index: int) -> records.Check: ...

    @overload
    def __getitem__(self, index: slice) -> List[records.Check]: ...

    def __getitem__(self, index: Union[int, slice]) -> Union[records.Check, List[records.Check]]:
        if isinstance(index, slice):
            return [self[i] for i in range(*index.indices(len(self)))]
        count = len(self)
        if not isinstance(index, int):
            raise errors.WrongArgument(f"is {type(index).__name__}", thing="check",
                                       remedy="give its number")
        if not -count <= index < count:
            raise IndexError(f"check {index} is not there: there are {count}")
        return calls.checks_at(self._use(), index % count)

    def __iter__(self) -> Iterator[records.Check]:
        for index in range(len(self)):
            yield self[index]

    @property
    def verdict(self) -> str:
        """The worst verdict of what was checked: "holds", "tight", "may crack", "fails"."""
        return calls.verdict_text(calls.checks_overall(self._use())) or ""

    @property
    def verdicts(self) -> Dict[str, str]:
        """The verdict of each line: overload, cracking, service."""
        return {line: word("verdict", calls.checks_verdict(self._use(), value)[0])
                for line, value in ENUMS["line"].items()}

    def groups(self) -> List[records.CheckGroup]:
        """The kinds of check, that which is used most first: the worst, how many, how many fail."""
        found: List[records.CheckGroup] = []
        while True:
            try:
                found.append(calls.checks_group(self._use(), len(found)))
            except errors.BadIndex:
                return found

    def worst(self, line: str = "overload") -> Optional[records.Check]:
        """The worst check of a line; None if it has none."""
        try:
            return calls.checks_worst(self._use(), code("line", line, "line"))
        except errors.BadIndex:
            return None

    def again(self, result: "Result", *, only_worst: bool = False, **limits: Any) -> None:
        """Makes all checks again, of another result, in place of these; little memory is asked for.

        Args:
            result: of this or another frame
            only_worst: keeps of each line only the worst, which takes a fraction of the time
            limits: as in Frame.set_limits, for this once
        """
        handle = self._use()
        if self._result is None:
            raise errors.BadOrder("belong to it", thing="checks of a rating",
                                  remedy="make checks of a result, and these again")
        frame, solved = result.frame, result._use()
        held = frame._use()
        work = calls.checks_worst_again if only_worst else calls.checks_again
        with held.lock, solved.lock, handle.lock:  # in the order in which others take them
            keeps = (held.lease(), solved.lease())
            try:
                work(handle, held, solved, limits_for(frame, limits))
            except errors.NoMemory:
                handle.keeps = keeps
                raise
            handle.keeps = keeps
            self._frame, self._result = frame, result

    def sentence(self, of: Union[int, str] = "overload") -> str:
        """A check by its number, or the worst of a line, as one plain sentence."""
        if isinstance(of, str):
            return calls.checks_sentence(self._use(), code("line", of, "line"), self._frame._units)
        return calls.checks_sentence_of(self._use(), of, self._frame._units)

    def place(self, index: int) -> str:
        """Where check number index has its worst place."""
        return calls.checks_place_text(self._use(), index, self._frame._units)

    def working(self, index: int) -> List[records.Step]:
        """The steps of a check's working."""
        handle = self._use()
        return [calls.checks_step(handle, index, step)
                for step in range(calls.checks_at(handle, index).step_count)]

    def select(self, where: Optional[str] = None) -> List[int]:
        """Numbers of the checks that answer a question: the governing one, or those at a name."""
        return calls.checks_select(self._use(), where)

    def explain(self, where: Optional[str] = None) -> str:
        """The working of a check as one would write it by hand.

        Args:
            where: a tube, joint, mount, deck or kind of check; None: the check that governs
        """
        indices = self.select(where)
        if not indices:
            raise errors.BadName("was not checked", thing=str(where),
                                 remedy="choose from: " + ", ".join(sorted(
                                     {check.where for check in self})))
        lines: List[str] = []
        for index in indices:
            lines += [f"{self[index].check}: {self.sentence(index)}"]
            for number_of_step, step in enumerate(self.working(index)):
                lines += ["  " + calls.checks_step_text(self._use(), index, number_of_step,
                                                        self._frame._units),
                          f"      {step.meaning}; {step.source}"]
        return "\n".join(lines)

    @property
    def omissions(self) -> List[Tuple[str, str, str]]:
        """What was not checked: what, the line of the verdict, why."""
        handle = self._use()
        found = []
        for index in range(calls.checks_omission_count(handle)):
            what, line, why = calls.checks_omission(handle, index)
            found.append((what or "", word("line", line), why))
        return found

    # ---- what needs the file ----

    def _solved(self) -> Handle:
        if self._result is None:
            raise errors.BadOrder("have no result of their own", thing="checks of a rating",
                                  remedy="ask the checks of a solved frame")
        return self._result._use()

    def expect(self) -> List[records.Expectation]:
        """The hand calculations in the file, held against the result."""
        document, solved = self._frame._file(), self._solved()
        return [calls.document_expect(document, solved, self._use(), index)
                for index in range(calls.document_expectation_count(document))]

    def json(self) -> str:
        """Results as JSON in SI units: what `trivet check --json` prints."""
        return calls.document_results_json(self._frame._file(), self._solved(), self._use())

    def working_json(self, where: Optional[str] = None) -> str:
        """Working as JSON: what `trivet explain --json` prints."""
        return calls.document_working_json(self._frame._file(), self._use(), where)

    # ---- drawings, the report, hand-overs ----

    def _drawn(self) -> Tuple[Handle, Handle, Handle]:
        return self._frame._use(), self._solved(), self._use()

    def _pictured(self, case: Any, tube: Any) -> Dict[str, int]:
        frame = self._frame
        return {"in_case": -1 if case is None else frame._column(case),
                "tube": -1 if tube is None else frame._number("tube", tube)}

    def drawing(self, *, sheet: Optional[str] = None, case: Any = None, tube: Any = None,
                title: Optional[str] = None, path: Any = None) -> str:
        """The frame as SVG, 1 mm on paper its unit: what `trivet draw` writes.

        Args:
            sheet: "whole", "picture", "views" or "forces"; None: forces if a tube is named, else
                the whole
            case: of the drooped shape and of the forces; None: the worst
            tube: whose forces are drawn; None: that which is used most
            title: None: the name of the frame
            path: where it is written, whole or not at all; None: it is only given back
        """
        from .export import handed
        drawing = struct("drawing", {
            **self._pictured(case, tube),
            "sheet": sheet or ("whole" if tube is None else "forces"),
            "title": self._frame.name if title is None else title, "units": self._frame._units})
        made = calls.drawing_svg(*self._drawn(), drawing)
        handed(made.encode(), path)
        return made

    def report(self, *, case: Any = None, tube: Any = None, file_name: Optional[str] = None,
               path: Any = None) -> str:
        """One page of HTML with everything, which needs nothing else: what `trivet report` writes.

        Args:
            case, tube: as in drawing
            file_name: how the page names the file; None: as it was read
            path: where it is written, whole or not at all; None: it is only given back
        """
        from .export import handed
        read = self._frame._path
        named = file_name if file_name is not None else read and os.path.basename(read)
        page = struct("report", {**self._pictured(case, tube), "file_name": named or None})
        made = calls.report_html(self._frame._file(), self._solved(), self._use(), page)
        handed(made.encode(), path)
        return made

    def vtu(self, path: Any = None) -> bytes:
        """Movements and forces along every tube as VTU (VTK's XML); path as in drawing."""
        from .export import handed
        return handed(calls.export_vtu(*self._drawn()), path)

    def glb(self, path: Any = None) -> bytes:
        """The tubes as solids, as binary glTF 2.0; path as in drawing."""
        from .export import handed
        return handed(calls.export_glb(*self._drawn()), path)

    def csv(self, table: str, path: Any = None) -> bytes:
        """A table as CSV; table is one of trivet.csv_tables(); path as in drawing."""
        from .export import csv_tables, handed, table_number
        return handed(calls.export_csv(*self._drawn(), table_number(table, csv_tables())), path)

    # ---- Python ----

    def table(self) -> Any:
        """All checks as a pandas data frame."""
        from .tables import checks_table
        return checks_table(self)

    def plot(self, **options: Any) -> Any:
        """Draws the frame with each tube by how far it is used; see trivet.plotting."""
        from .plotting import plot_checks
        return plot_checks(self, **options)

    def _repr_html_(self) -> str:
        from .html import checks_html
        return checks_html(self)

    def close(self) -> None:
        """Lets go of the checks."""
        self._handle = None

    def __reduce__(self) -> NoReturn:
        raise TypeError("Checks cannot be pickled: take the records (list(checks)) or the JSON")

    def __repr__(self) -> str:
        if self._handle is None:
            return "<Checks, closed>"
        return f"<Checks: {self.verdict}, as far as {len(self)} checks go>"


class Rates:
    """The largest cargo: len(rates), rates[0] and iteration give trivet.records.Rate."""

    def __init__(self, handle: Handle, frame: "Frame") -> None:
        self._handle: Optional[Handle] = handle
        self._frame = frame

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("are closed", thing="rates", remedy="rate the frame again")
        return self._handle

    def __len__(self) -> int:
        return calls.rates_count(self._use())

    def __getitem__(self, index: int) -> records.Rate:
        count = len(self)
        if not -count <= index < count:
            raise IndexError(f"rate {index} is not there: there are {count}")
        return calls.rates_at(self._use(), index % count)

    def __iter__(self) -> Iterator[records.Rate]:
        for index in range(len(self)):
            yield self[index]

    @property
    def names(self) -> Tuple[str, ...]:
        """Which cargo each rate is of; "" for all together."""
        cargoes = self._frame.cargoes
        return tuple(cargoes[rate.cargo] if rate.cargo >= 0 else "" for rate in self)

    def checks(self, index: int) -> Checks:
        """The checks at that mass."""
        found = calls.rates_checks(self._use(), index)
        if found is None:
            raise errors.BadIndex(f"number {index} is not there", thing="rates")
        return Checks(found, self._frame, None)

    def stops(self, index: int) -> List[str]:
        """What stops a rate, and what would be next, as sentences."""
        checks = self.checks(index)
        numbers = [calls.rates_stop(self._use(), index, place) for place in range(3)]
        return [checks.sentence(stop) for stop in numbers if stop >= 0]

    def json(self) -> str:
        """Rates as JSON: what `trivet rate --json` prints."""
        return calls.document_rates_json(self._frame._file(), self._use())

    def table(self) -> Any:
        """All rates as a pandas data frame."""
        from .tables import rates_table
        return rates_table(self)

    def close(self) -> None:
        """Lets go of the rates."""
        self._handle = None

    def __reduce__(self) -> NoReturn:
        raise TypeError("Rates cannot be pickled: take the records (list(rates)) or the JSON")


class Losses:
    """What if a bolt or mount is lost: len, index and iteration give trivet.records.Loss."""

    def __init__(self, handle: Handle, frame: "Frame") -> None:
        self._handle: Optional[Handle] = handle
        self._frame = frame

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("are closed", thing="losses", remedy="ask the frame again")
        return self._handle

    def __len__(self) -> int:
        return calls.losses_count(self._use())

    def __getitem__(self, index: int) -> records.Loss:
        count = len(self)
        if not -count <= index < count:
            raise IndexError(f"loss {index} is not there: there are {count}")
        return calls.losses_at(self._use(), index % count)

    def __iter__(self) -> Iterator[records.Loss]:
        for index in range(len(self)):
            yield self[index]

    def text(self, index: int) -> str:
        """A loss in words."""
        return calls.losses_text(self._use(), index, self._frame._units)

    def close(self) -> None:
        """Lets go of the losses."""
        self._handle = None

    def __reduce__(self) -> NoReturn:
        raise TypeError("Losses cannot be pickled: take the records (list(losses))")
