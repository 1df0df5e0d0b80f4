"""What a notebook shows: a small table and a picture."""
import math
from base64 import b64encode
from html import escape
from typing import TYPE_CHECKING, Any, List, Sequence

from .errors import TrivetError
from .stock import show

if TYPE_CHECKING:
    from .checks import Checks
    from .frame import Frame
    from .result import Result

MOST_ROWS = 12
MOST_CHECKED = 3000  # joints times cases that are solved and checked for a picture


def drawing_html(thing: Any) -> str:
    """The picture of what was solved and checked, below the table: use of each tube, droop.

    A frame or a result is checked first, if that takes no time; what cannot be solved has no
    picture, and neither have the checks of a rating.
    """
    from .checks import Checks
    from .frame import Frame
    try:
        if isinstance(thing, Checks):
            checks = thing
        else:
            frame = thing if isinstance(thing, Frame) else thing.frame
            if len(frame.joints) * len(frame.columns) > MOST_CHECKED:
                return ""
            checks = thing.check()
        if checks._result is None:
            return ""
        picture = b64encode(checks.drawing(sheet="picture").encode()).decode()
    except TrivetError:
        return ""
    # As an image its styles and names stay its own, among other pictures on the page.
    return (f"<p><img alt='the frame with the use of each tube, and how it droops' "
            f"style='max-width:100%' src='data:image/svg+xml;base64,{picture}'/></p>")


def _table(title: str, heads: Sequence[str], rows: Sequence[Sequence[str]], left_out: int) -> str:
    cells = "".join(f"<th style='text-align:left'>{escape(head)}</th>" for head in heads)
    body = "".join("<tr>" + "".join(f"<td style='text-align:left'>{escape(cell)}</td>"
                                    for cell in row) + "</tr>" for row in rows)
    more = f"<p>and {left_out} more</p>" if left_out > 0 else ""
    return (f"<div><p><b>{escape(title)}</b></p><table><thead><tr>{cells}</tr></thead>"
            f"<tbody>{body}</tbody></table>{more}</div>")


def _shown(frame: "Frame", value: float, dimension: str) -> str:
    return show(value, dimension, 3, vars(frame.units))


def _short(rows: List[Any]) -> List[Any]:
    return rows[:MOST_ROWS]


def frame_html(frame: "Frame") -> str:
    """A frame: its tubes."""
    if frame._handle is None:
        return escape(repr(frame))
    rows = [(tube, " - ".join(frame.tube_joints(tube)),
             frame.profile_text(frame.tube_stock(tube)),
             _shown(frame, frame.tube_length(tube), "length"),
             _shown(frame, frame.tube_mass(tube), "mass")) for tube in _short(list(frame.tubes))]
    title = f"{frame.name or 'Frame'}: {_shown(frame, frame.mass, 'mass')} without cargo"
    return _table(title, ("tube", "through", "stock", "length", "mass"), rows,
                  len(frame.tubes) - len(rows)) + drawing_html(frame)


def result_html(result: "Result") -> str:
    """A result: the droop of each case, and the most that a mount carries in it."""
    if result._handle is None:
        return escape(repr(result))
    frame = result.frame
    rows = []
    for case in _short(list(result.cases)):
        droop = result.droop(case)
        carried = [result.carries(mount, case) for mount in frame.mounts]
        most = [max(of[kind] for of in carried) for kind in range(3)]
        rows.append((case, _shown(frame, droop.droop, "length"),
                     result.place_text(droop.tube, droop.at),
                     *(_shown(frame, value, "force") for value in most)))
    return _table(f"{frame.name or 'Frame'}: droop, and the most on one mount",
                  ("case", "droop", "where", "pull", "push", "shear"), rows,
                  len(result.cases) - len(rows)) + drawing_html(result)


def checks_html(checks: "Checks") -> str:
    """Checks: the verdict of each line, the worst check of each, what was not checked."""
    from .checks import cautions, used_text
    if checks._handle is None:
        return escape(repr(checks))
    rows = []
    for line, verdict in checks.verdicts.items():
        worst = checks.worst(line)
        used = "" if worst is None or math.isnan(worst.utilisation) else (
            used_text(worst.utilisation))
        sentence = "" if worst is None else checks.sentence(line)
        rows.append((line, verdict.upper(), used, sentence))
    left = "; ".join(what for what, _, _ in checks.omissions)
    notes = "".join(f"<li>{escape(text)}</li>" for text in cautions())
    return (_table(f"{checks._frame.name or 'Frame'}: as far as it was checked",
                   ("line", "verdict", "used", "worst"), rows, 0)
            + drawing_html(checks)
            + (f"<p>Not checked: {escape(left)}</p>" if left else "") + f"<ul>{notes}</ul>")
