"""The workshop: what to cut, how to set the saw, where to drill, which bars to buy."""
import math
from typing import (TYPE_CHECKING, Any, Dict, Iterator, List, Mapping, NamedTuple, NoReturn,
                    Optional, Tuple)

import numpy as np

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Handle, Numbers, code, fill, new_struct, number, struct

if TYPE_CHECKING:
    from .frame import Frame

ENDS = ("free", "through", "butt", "miter", "saddle", "bend")


def cut_words() -> Tuple[str, ...]:
    """Plain words for the ways in which an end is cut."""
    return tuple(calls.cut_text(ENUMS["cut"][end]) or "" for end in ENDS)


def cut_rules() -> List[str]:
    """The rule by which ends are cut, line by line."""
    found: List[str] = []
    while True:
        line = calls.shop_rule(len(found))
        if line is None:
            return found
        found.append(line)


def _rows(given: Any, name: str) -> List[Dict[str, Any]]:
    try:
        return [dict(row if isinstance(row, Mapping) else vars(row)) for row in given]
    except TypeError:
        raise errors.WrongArgument(f"are {type(given).__name__}", thing=name,
                                   remedy="give a list of mappings") from None


def _bars(frame: "Frame", given: Any) -> List[Any]:
    made = []
    for row in _rows(given, "bars"):
        stock = row.pop("stock", None)
        bar = struct("shop_bar", row)
        if stock is not None and stock != -1:
            bar.stock = frame._number("stock", stock)
        made.append(bar)
    return made


def _bends(frame: "Frame", given: Any) -> List[Any]:
    made = []
    for row in _rows(given, "bends"):
        row["tubes"] = frame._several("tube", row.get("tubes", ()))
        made.append(struct("shop_bend", row))
    return made


def _ends(frame: "Frame", given: Any) -> List[Any]:
    made = []
    rows = [{"tube": tube, "joint": joint, "cut": cut} for (tube, joint), cut in given.items()
            ] if isinstance(given, Mapping) else _rows(given, "ends")
    for row in rows:
        end = new_struct("shop_end")
        end.tube = frame._number("tube", row.get("tube", ""))
        end.joint = frame._number("joint", row.get("joint", ""))
        end.cut = code("cut", row.get("cut", ""), "ends: cut")
        made.append(end)
    return made


def shop_of(frame: "Frame", settings: Dict[str, Any]) -> Any:
    """How the workshop works: as the file says it, or else the defaults, with changes.

    Args:
        settings: kerf, gap (m or text), aim ("bars" or "cost"), most_steps, wire_factor,
            stick_factor; bars: [{"length": "6 m", "price": 14.5, "stock": "rail", "have": 2}];
            bends: [{"name": "hoop", "tubes": ["left leg", "top"], "radius": "60 mm"}];
            ends: {("left rail", "FL"): "miter"}
    """
    made = new_struct("shop")
    if frame.is_from_file:
        fill(made, "shop", {key: [vars(row) for row in value] if isinstance(value, tuple) else value
                            for key, value in vars(frame.shop()).items()})
    changes = dict(settings)
    try:
        for key, make in (("bars", _bars), ("bends", _bends), ("ends", _ends)):
            if changes.get(key) is not None:
                changes[key] = make(frame, changes[key])
    except (TypeError, ValueError, AttributeError) as wrong:
        if isinstance(wrong, errors.TrivetError):
            raise
        raise errors.WrongArgument("cannot be understood", thing=f"shop: {key}",
                                   remedy="see trivet.shop.shop_of") from None
    return fill(made, "shop", changes)


def cuts_of(frame: "Frame", settings: Dict[str, Any]) -> "Cuts":
    """The cut list of a frame."""
    handle = frame._use()
    with handle.lock:
        shop = shop_of(frame, settings)
        calls.shop_check(handle, shop)
        return Cuts(calls.cuts_new(handle, shop), frame._snapshot())


class WrittenTable(NamedTuple):
    """A table of a cut list, cell by cell as people read it."""

    heading: str
    title: str  # of one saddle; ""
    columns: Tuple[str, ...]  # none if there are lines alone
    rows: List[Tuple[str, ...]]
    lines: List[str]  # below it


def _written(made: Handle, index: int) -> WrittenTable:
    about = calls.cut_tables_at(made, index)
    rows = [tuple(calls.cut_tables_cell(made, index, row, column) or ""
                  for column in range(about.column_count)) for row in range(-1, about.row_count)]
    lines: List[str] = []
    while (line := calls.cut_tables_line(made, index, len(lines))) is not None:
        lines.append(line)
    return WrittenTable(about.heading, about.title, rows[0], rows[1:], lines)


class Cuts:
    """A cut list: len(cuts), cuts[0] and iteration give trivet.records.CutPiece.

    Geometry alone: it says nothing of whether the frame holds. Lengths in m, angles in rad, masses
    in kg; numbers of pieces, tubes, joints, stock and bolts count from 0.

    >>> import math, trivet
    >>> frame = trivet.Frame("corner")
    >>> for name, x, y in (("A", 0.0, 0.4), ("B", 0.0, 0.0), ("C", 0.6, 0.0)):
    ...     _ = frame.add_joint(name, x, y, 0.0)
    >>> _ = frame.add_stock("bar", "square tube", width="20 mm", wall="2 mm")
    >>> _ = frame.add_tube("short", ["A", "B"], "bar")
    >>> _ = frame.add_tube("long", ["B", "C"], "bar")
    >>> _ = frame.add_mount("A")
    >>> _ = frame.add_case("parked", (0, 0, -1))
    >>> cuts = frame.cut(kerf="2 mm")
    >>> [(cuts.name(i), round(piece.longest, 6)) for i, piece in enumerate(cuts)]
    [('short', 0.41), ('long', 0.61)]
    >>> end = cuts[0].ends[1]   # half of a right angle, long point half a width beyond the joint
    >>> end.cut, round(math.degrees(end.angle), 6), round(end.longest, 6)
    ('miter', 45.0, 0.01)
    """

    def __init__(self, handle: Handle, frame: "Frame") -> None:
        self._handle: Optional[Handle] = handle
        self._frame = frame

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("are closed", thing="cuts", remedy="ask the frame again")
        return self._handle

    def __len__(self) -> int:
        return calls.cuts_count(self._use())

    def __getitem__(self, index: int) -> records.CutPiece:
        count = len(self)
        if not -count <= index < count:
            raise IndexError(f"piece {index} is not there: there are {count}")
        return calls.cuts_piece(self._use(), index % count)

    def __iter__(self) -> Iterator[records.CutPiece]:
        for index in range(len(self)):
            yield self[index]

    def name(self, piece: int) -> str:
        """What a piece is called: "left rail", "plug in left rail at FL"."""
        return calls.cuts_piece_text(self._use(), piece)

    def bends(self, piece: int) -> List[records.CutBend]:
        """The bends of a bent piece, marked on the straight bar."""
        return [calls.cuts_bend(self._use(), piece, index)
                for index in range(self[piece].bend_count)]

    # ---- saddles ----

    @property
    def templates(self) -> List[Tuple[int, int]]:
        """Piece and end (0 or 1) of every saddle that has a template."""
        return [(index, end) for index, piece in enumerate(self)
                for end, cut in enumerate(piece.ends) if cut.has_template]

    def template(self, piece: int, end: int) -> str:
        """A template to be printed at full size and wrapped round the tube, as SVG."""
        made = calls.cuts_template_svg(self._use(), piece, end)
        if not made:
            raise errors.BadIndex("has no template", thing=f"end {end} of piece {piece}",
                                  remedy="ask those in templates")
        return made

    def template_name(self, piece: int, end: int) -> str:
        """A file name for that template: "03a-left-brace-LT.svg"."""
        return calls.cuts_template_name(self._use(), piece, end)

    def saddle_depth(self, piece: int, end: int, round_: float) -> float:
        """How deep a saddle is cut: m back from its long point.

        Args:
            round_: rad from the tube's top, right-handed about its x
        """
        depth = calls.cuts_saddle_depth(self._use(), piece, end,
                                        number(round_, "angle", "round_"))
        if math.isnan(depth):
            raise errors.BadIndex("is no saddle", thing=f"end {end} of piece {piece}",
                                  remedy="ask those in templates")
        return depth

    # ---- holes, bars, parts ----

    @property
    def holes(self) -> List[records.CutHole]:
        """The holes to drill."""
        return [calls.cuts_hole(self._use(), index)
                for index in range(calls.cuts_hole_count(self._use()))]

    @property
    def bars(self) -> List[records.CutBar]:
        """The bars that are cut into, bought or not."""
        return [calls.cuts_bar(self._use(), index)
                for index in range(calls.cuts_bar_count(self._use()))]

    def bar_pieces(self, bar: int) -> Tuple[int, ...]:
        """Numbers of the pieces of a bar in the order of cutting."""
        found = calls.cuts_bar_pieces(self._use(), bar)
        if found is None:
            raise errors.BadIndex(f"number {bar} is not there", thing="bar")
        return tuple(int(piece) for piece in found)

    @property
    def stocks(self) -> List[records.CutStock]:
        """What to buy of each kind of stock, and whether less is proven impossible."""
        return [calls.cuts_stock(self._use(), index)
                for index in range(calls.cuts_stock_count(self._use()))]

    @property
    def parts(self) -> List[Tuple[int, str]]:
        """Small parts: how many, and what: "bolt M6 8.8, hexagon head"."""
        return [(calls.cuts_part(self._use(), index).count,
                 calls.cuts_part_text(self._use(), index, self._frame._units))
                for index in range(calls.cuts_part_count(self._use()))]

    @property
    def totals(self) -> records.CutTotals:
        """Sums of mass, price, paint, weld."""
        return calls.cuts_totals(self._use())

    @property
    def notes(self) -> List[str]:
        """What to look at by hand, and what was left out."""
        found: List[str] = []
        while True:
            note = calls.cuts_note(self._use(), len(found))
            if note is None:
                return found
            found.append(note)

    def json(self) -> str:
        """The cut list as JSON: what `trivet cut --json` prints."""
        return calls.document_cuts_json(self._frame._file(), self._use())

    def tables(self) -> List[WrittenTable]:
        """The cut list in words: what `trivet cut` prints and the report shows."""
        made = calls.cut_tables_new(self._use(), self._frame._units)
        return [_written(made, index) for index in range(calls.cut_tables_count(made))]

    def csv(self, table: str, path: Any = None) -> bytes:
        """A table as CSV; table is one of trivet.cut_csv_tables(); written if a path is given."""
        from .export import cut_csv_tables, handed, table_number
        number_ = table_number(table, cut_csv_tables())
        return handed(calls.export_cuts_csv(self._frame._use(), self._use(), number_), path)

    # ---- Python ----

    def close(self) -> None:
        """Lets go of the cut list."""
        self._handle = None

    def __reduce__(self) -> NoReturn:
        raise TypeError("Cuts cannot be pickled: take the records (list(cuts)) or the JSON")

    def __repr__(self) -> str:
        if self._handle is None:
            return "<Cuts, closed>"
        return f"<Cuts: {len(self)} pieces out of {len(self.bars)} bars>"


class Cutting:
    """A deck's plate, flat, seen from above: world x and y in m. Arrays are views."""

    def __init__(self, handle: Handle) -> None:
        self._handle: Optional[Handle] = handle

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("is closed", thing="cutting", remedy="ask the frame again")
        return self._handle

    @property
    def outline(self) -> Numbers:
        """Counter-clockwise: [corner][3], x, y, and how the side to the next corner bulges: the
        tangent of a quarter of its arc's angle, 0 for a straight side."""
        return _three(calls.cutting_outline(self._use()))

    @property
    def holes(self) -> Numbers:
        """Screw holes: [hole][3], x, y and diameter."""
        return _three(calls.cutting_holes(self._use()))

    @property
    def slots(self) -> Tuple[records.Slot, ...]:
        """Slots, round at both ends."""
        return calls.cutting_slots(self._use())

    def close(self) -> None:
        """Lets go of the cutting; arrays taken from it stay good."""
        self._handle = None

    def __reduce__(self) -> NoReturn:
        raise TypeError("a Cutting cannot be pickled: take its arrays")

    def __repr__(self) -> str:
        return "<Cutting, closed>" if self._handle is None else (
            f"<Cutting: {len(self.outline)} corners, {len(self.holes)} holes>")


def _three(array: Optional[Numbers]) -> Numbers:
    return np.zeros((0, 3)) if array is None else array


__all__ = ["Cuts", "Cutting", "WrittenTable", "cut_rules", "cut_words"]
