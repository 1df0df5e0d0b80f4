"""The best variant that holds, the next best, and how sure that is."""
from typing import TYPE_CHECKING, List, NoReturn, Optional

from . import _calls as calls
from . import errors, records
from ._c import Handle
from .stock import show
from .variants import Variant, variant_of

if TYPE_CHECKING:
    from .sweeps import Sweep

LESS = {"mass": "lighter", "price": "cheaper", "droop": "stiffer"}


class Pick:
    """What Sweep.pick() found.

    >>> import trivet
    >>> text = trivet.starter_text() + "vary: {cases: {parked: [1, 2, 300]}}"
    >>> pick = trivet.Sweep(trivet.read_text(text)).pick("droop")
    >>> pick.best.inputs, pick.outcome.is_proven, [row.number for row in pick.runners_up]
    ({'case parked': 1.0}, True, [1])
    """

    def __init__(self, handle: Handle, of: "Sweep", least: str) -> None:
        self._handle: Optional[Handle] = handle
        self._inputs = of.inputs
        self._units = vars(of.frame.units)
        self._least = least

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("is closed", thing="pick", remedy="pick again")
        return self._handle

    @property
    def outcome(self) -> records.Picked:
        """How many were solved, how many of them hold, whether the best is proven."""
        return calls.pick_outcome(self._use())

    def _rows(self) -> List[Variant]:
        found = []
        for index in range(calls.pick_count(self._use())):
            record, values = calls.pick_at(self._use(), index, len(self._inputs))
            found.append(variant_of(record, values, self._inputs))
        return found

    @property
    def best(self) -> Optional[Variant]:
        """The best that holds; None if none does."""
        held = [row for row in self._rows() if row.holds]
        return held[0] if held else None

    @property
    def runners_up(self) -> List[Variant]:
        """The next best that hold."""
        return [row for row in self._rows() if row.holds][1:]

    @property
    def losers(self) -> List[Variant]:
        """Those that would have been better and do not hold, the nearest first."""
        return [row for row in self._rows() if not row.holds]

    @property
    def proof(self) -> str:
        """How sure the pick is, in words."""
        how = self.outcome
        lines = [f"{how.count - how.ruled_out} of {how.count} variants can be made and are not "
                 f"skipped; {how.solved} were solved, and {how.held} of them hold."]
        if how.is_found and how.is_proven:
            lines.append(f"Proven: every {LESS[self._least]} one was solved and does not hold.")
        elif how.is_proven:
            lines.append("All were solved, and none holds.")
        else:
            lines.append("Not proven: the search stopped at the most that it was allowed to solve.")
            if how.bound >= 0.0:
                dimension = "mass" if self._least == "mass" else "number"
                lines.append("What was not solved has at least "
                             f"{show(how.bound, dimension, 4, self._units)}.")
        return " ".join(lines)

    def json(self) -> str:
        """The pick as JSON: what `trivet pick --json` prints."""
        return calls.pick_json(self._use())

    def close(self) -> None:
        """Lets go of the pick."""
        self._handle = None

    def __reduce__(self) -> NoReturn:
        raise TypeError("a Pick cannot be pickled: take its records or the JSON")

    def __repr__(self) -> str:
        if self._handle is None:
            return "<Pick, closed>"
        best = self.best
        return "<Pick: none holds>" if best is None else f"<Pick: number {best.number} is best>"


__all__ = ["Pick"]
