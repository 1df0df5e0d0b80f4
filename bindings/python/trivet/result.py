"""Results: what the loads do to the frame. All arrays are read-only views of the library's memory."""
from typing import TYPE_CHECKING, Any, Dict, List, NoReturn, Optional, Tuple

import numpy as np

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Handle, Lease, Numbers, Quantity, fill, new_struct, number, quantities
from ._frame_core import Name, Place
from .checks import Checks

if TYPE_CHECKING:
    from .frame import Frame

FORCES = ("N", "Vy", "Vz", "T", "My", "Mz")
MOVES = ("x", "y", "z", "rx", "ry", "rz")


def limits_of(limits: Any, changes: Dict[str, Any]) -> Any:
    """Limits with changes; defaults where there are none."""
    made = new_struct("limits")
    if limits is not None:
        fill(made, "limits", dict(vars(calls.read_limits(limits))))
    return fill(made, "limits", changes)


class Droop:
    """The most downward movement of a case: droop in m, on tube, at m from its first joint."""

    __slots__ = ("tube", "at", "droop")

    def __init__(self, tube: str, at: float, droop: float) -> None:
        self.tube, self.at, self.droop = tube, at, droop

    def __repr__(self) -> str:
        return f"Droop(tube={self.tube!r}, at={self.at!r}, droop={self.droop!r})"


class Result:
    """A solved frame. Cases below are result columns: cases in order, then combinations."""

    def __init__(self, handle: Handle, frame: Handle, of: "Frame") -> None:
        self._handle: Optional[Handle] = handle
        self._lease: Lease = frame.lease()
        self._of: Tuple[Any, ...] = (of._document, of._name, of._units, of._limits,
                                    of._path)
        self._frame: Optional["Frame"] = None

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("is closed", thing="result", remedy="solve the frame again")
        return self._handle

    @property
    def frame(self) -> "Frame":
        """The frame as it was when it was solved."""
        self._use()
        if self._frame is None:
            from .frame import Frame
            document, name, units, limits, path = self._of
            made = Frame._of(self._lease.handle, document)
            made._lease = self._lease
            made._name, made._units, made._limits = name, units, limits
            made._path = path
            self._frame = made
        return self._frame

    @property
    def cases(self) -> Tuple[str, ...]:
        """Names of the columns."""
        return self.frame.columns

    # ---- arrays ----

    @property
    def moves(self) -> Numbers:
        """Movements of all joints: [case][joint][6], ux uy uz in m, rx ry rz in rad, world axes."""
        return _there(calls.result_moves(self._use()))

    @property
    def reactions(self) -> Numbers:
        """What mounts do to the frame: [case][mount][6], N and N m about the joint, world axes."""
        return _there(calls.result_reactions(self._use()))

    @property
    def span_ends(self) -> Numbers:
        """Forces inside all spans: [case][span][2][6], N Vy Vz T My Mz at both ends, tube axes."""
        return _there(calls.result_span_ends(self._use()))

    def move(self, joint: Name, case: Name) -> Numbers:
        """Movement of a joint: [6], m and rad, world axes."""
        frame = self.frame
        found: Numbers = self.moves[frame._column(case), frame._number("joint", joint)]
        return found

    def reaction(self, mount: Name, case: Name) -> Numbers:
        """What a mount does to the frame: [6], N and N m, world axes."""
        frame = self.frame
        found: Numbers = self.reactions[frame._column(case), frame._number("mount", mount)]
        return found

    # ---- spans and places ----

    @property
    def case_count(self) -> int:
        """How many columns there are."""
        return calls.result_case_count(self._use())

    @property
    def spans(self) -> List[records.Span]:
        """All spans, tube by tube."""
        handle = self._use()
        return [calls.result_span(handle, index)
                for index in range(calls.result_span_count(handle))]

    def tube_spans(self, tube: Name) -> range:
        """Numbers of the spans of a tube."""
        first, count = calls.result_tube_spans(self._use(), self.frame._number("tube", tube))
        return range(first, first + count)

    def _span_at(self, tube: Name, at: Quantity) -> Tuple[int, float]:
        place = number(at, "length", "at")
        spans = self.tube_spans(tube)
        for index in spans:
            span = calls.result_span(self._use(), index)
            if place <= span.start + span.length or index == spans[-1]:
                return index, place - span.start
        raise errors.BadIndex("has no spans", thing=str(tube))

    def at(self, tube: Name, at: Quantity, case: Name) -> Tuple[Tuple[float, ...],
                                                               Tuple[float, ...]]:
        """Forces inside a tube (N Vy Vz T My Mz, tube axes) and its movement (world axes) there.

        Args:
            at: m along the tube from its first joint
        """
        span, place = self._span_at(tube, at)
        return calls.result_at(self._use(), self.frame._column(case), span, place)

    def line(self, tube: Name, case: Name, points: int = 21) -> Tuple[Numbers, Numbers]:
        """A tube's own line and how it moves: two arrays [point][3] in m, world axes."""
        frame, column = self.frame, self.frame._column(case)
        joints = frame.tube_joints(tube)
        start, end = frame.position(joints[0]), frame.position(joints[-1])
        length = frame.tube_length(tube)
        shares = np.linspace(0.0, 1.0, max(int(points), 2))
        places = start + shares[:, None] * (end - start)
        moves = [calls.result_at(self._use(), column, *self._span_at(tube, share * length))[1][:3]
                 for share in shares]
        return places, np.array(moves)

    def extremes(self, span: int, case: Name) -> Dict[str, records.Extreme]:
        """Extremes of the forces inside a span in a case, by N Vy Vz T My Mz."""
        found = calls.result_extremes(self._use(), self.frame._column(case), span)
        return dict(zip(FORCES, found))

    def envelope(self, span: int) -> Dict[str, Tuple[records.Extreme, str, str]]:
        """The same over all cases, each with the case of its least and of its most."""
        found, least, most = calls.result_envelope(self._use(), span)
        names = self.cases
        return {force: (found[i], names[least[i]], names[most[i]])
                for i, force in enumerate(FORCES)}

    def extreme_move(self, span: int, case: Name, direction: Place) -> records.Extreme:
        """The extreme movement of a span along a direction: [3], a unit vector, world axes."""
        along = quantities(direction, "number", 3, "direction")
        return calls.result_extreme_move(self._use(), self.frame._column(case), span, along)

    def quality(self, case: Name) -> records.Quality:
        """How good the solution of a case is."""
        return calls.result_quality(self._use(), self.frame._column(case))

    def droop(self, case: Name) -> Droop:
        """The most downward movement of a case, against the unloaded shape."""
        frame = self.frame
        with frame._use().lock:
            tube, at, droop = calls.droop_worst(frame._use(), self._use(), frame._column(case))
        return Droop(frame.tubes[tube], at, droop)

    def carries(self, mount: Name, case: Name) -> Tuple[float, ...]:
        """What a mount carries in a case: pull, push, shear in N, moment in N m."""
        frame = self.frame
        return calls.mount_carries(frame._use(), self._use(), frame._column(case),
                                   frame._number("mount", mount))

    def carries_most(self, mount: Name) -> Tuple[Tuple[float, ...], Tuple[str, ...]]:
        """The most of each in any case, and in which."""
        frame = self.frame
        most, columns = calls.mount_carries_most(frame._use(), self._use(),
                                                 frame._number("mount", mount))
        names = self.cases
        return most, tuple(names[column] for column in columns)

    def place_text(self, tube: Name, at: Quantity) -> str:
        """A place on a tube by the joints beside it: "left rail at ML"."""
        frame = self.frame
        return calls.tube_place_text(frame._use(), self._use(), frame._number("tube", tube),
                                     number(at, "length", "at"), frame._units)

    # ---- checks ----

    def check(self, **limits: Any) -> Checks:
        """Makes all checks; limits as in Frame.set_limits, for this once."""
        frame = self.frame
        made = calls.checks_new(frame._use(), self._use(), limits_of(frame._limits, limits))
        return Checks(made, frame, self)

    # ---- pandas, matplotlib, notebooks ----

    def table(self, what: str = "moves") -> Any:
        """A pandas data frame: what is "moves", "reactions" or "span ends"."""
        from .tables import result_table
        return result_table(self, what)

    def plot(self, case: Optional[Name] = None, **options: Any) -> Any:
        """Draws shape and droop with matplotlib; see trivet.plotting.plot_result."""
        from .plotting import plot_result
        return plot_result(self, case, **options)

    def _repr_html_(self) -> str:
        from .html import result_html
        return result_html(self)

    def close(self) -> None:
        """Lets go of the result; arrays taken from it stay good."""
        self._handle = self._frame = None

    def __enter__(self) -> "Result":
        return self

    def __exit__(self, *_: Any) -> None:
        self.close()

    def __reduce__(self) -> NoReturn:
        raise TypeError("a Result cannot be pickled: take what you need as arrays (moves.copy()), "
                        "tables or JSON")

    def __repr__(self) -> str:
        if self._handle is None:
            return "<Result, closed>"
        return f"<Result of {self._of[1]!r}: {self.case_count} cases>"


def _there(array: Optional[Numbers]) -> Numbers:
    if array is None:
        raise errors.BadOrder("holds nothing", thing="result", remedy="solve the frame first")
    return array


class Plan:
    """What depends on topology alone: solves frames whose sizes, places and loads vary.

    Several threads may solve different frames with one plan at a time.

    >>> import trivet
    >>> frame = trivet.read_text(trivet.starter_text())
    >>> plan = frame.plan()
    >>> bool((plan.solve(frame).moves == frame.solve().moves).all())
    True
    """

    def __init__(self, frame: "Frame") -> None:
        self._handle: Optional[Handle] = calls.plan_new(frame._use())
        self._spare: List[Handle] = []  # a workspace is used by one thread at a time

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("is closed", thing="plan", remedy="make it anew")
        return self._handle

    @property
    def size(self) -> Tuple[int, int]:
        """The number of equations, and how far off the diagonal they reach."""
        return calls.plan_size(self._use())

    def solve(self, frame: "Frame") -> Result:
        """Solves a frame that the plan fits."""
        plan, handle = self._use(), frame._use()
        try:
            workspace = self._spare.pop()
        except IndexError:
            workspace = calls.workspace_new(plan)
        with handle.lock:
            result = calls.result_new(plan)
            calls.plan_solve(plan, handle, workspace, result)
            made = Result(result, handle, frame)
        self._spare.append(workspace)
        return made

    def close(self) -> None:
        """Lets go of the plan; results stay."""
        self._handle = None
        self._spare = []

    def __reduce__(self) -> NoReturn:
        raise TypeError("a Plan cannot be pickled: make it anew from the frame")


def verdict_words() -> Tuple[str, ...]:
    """The words of a verdict, from good to bad."""
    return tuple(calls.verdict_text(value) or "" for value in ENUMS["verdict"].values())
