"""Pictures with matplotlib, which is asked for only here: shape, droop, use by tube.

They are made to be read in black and white: tubes are told apart by width and dash, mounts and
cargo by their marks, and use by weight of line with its number beside it.
"""
import math
from typing import TYPE_CHECKING, Any, Dict, List, Optional, Tuple

import numpy as np

from . import errors
from ._frame_core import Name
from .stock import show, unit

if TYPE_CHECKING:
    from .checks import Checks
    from .frame import Frame
    from .result import Result

INK, PALE, MARK = "#1f2a30", "#9aa5a8", "#b3471d"
# Up to which use a line is drawn how: label, width, dash, colour.
BANDS: List[Tuple[float, str, float, Any, str]] = [
    (0.5, "up to 50 % used", 1.4, (0, (1, 1.2)), "#5f7f6b"),
    (0.85, "up to 85 % used", 2.4, (0, (5, 1.5)), "#3d6e86"),
    (1.0, "up to its limit", 3.6, "solid", "#8a6a1f"),
    (math.inf, "beyond its limit", 5.5, "solid", "#a3271b")]


def _axes(axes: Any) -> Any:
    if axes is not None:
        if getattr(axes, "name", "") != "3d":
            raise errors.WrongArgument("are not of three dimensions", thing="axes",
                                       remedy='make them with projection="3d"')
        return axes
    try:
        from matplotlib import pyplot
    except ImportError:
        raise ImportError("pictures need matplotlib: install it") from None
    figure = pyplot.figure(figsize=(9.0, 6.5))
    return figure.add_subplot(projection="3d")


def _centres(frame: "Frame") -> Any:
    return [frame.cargo(cargo).centre for cargo in frame.cargoes]


def _write(axes: Any, frame: "Frame", place: Any, text: str, align: str = "left") -> None:
    """Text a little above a place, so that it hides no line."""
    points = np.array([frame.position(joint) for joint in frame.joints])
    above = 0.025 * float(np.ptp(points, axis=0).max())
    axes.text(place[0], place[1], place[2] + above, text, fontsize=8, color=INK, zorder=20,
              horizontalalignment=align)


def _tick(axes: Any, frame: "Frame") -> None:
    """Few round numbers along each axis, in the unit in which the frame's lengths are shown."""
    from matplotlib.ticker import MaxNLocator
    name, factor = unit("length", vars(frame.units))
    for letter, along in (("x", "forward"), ("y", "left"), ("z", "up")):
        least, most = getattr(axes, f"get_{letter}lim")()
        shown = MaxNLocator(4).tick_values(least / factor, most / factor)
        shown = [value for value in shown if least <= value * factor <= most]
        getattr(axes, f"set_{letter}ticks")([value * factor for value in shown],
                                            [f"{value:g}" for value in shown])
        getattr(axes, f"set_{letter}label")(f"{letter} {along}, {name}", labelpad=12)


def _equal_scale(axes: Any, frame: "Frame", points: Any, title: str) -> None:
    """The same scale along x, y and z, and no box around more than there is."""
    least, most = points.min(axis=0), points.max(axis=0)
    room = np.maximum(most - least, 0.3 * max(float((most - least).max()), 1e-9))
    middle = 0.5 * (least + most)
    for set_limits, centre, size in zip((axes.set_xlim, axes.set_ylim, axes.set_zlim), middle,
                                        room):
        set_limits(centre - 0.55 * size, centre + 0.55 * size)
    axes.set_box_aspect(tuple(room))
    _tick(axes, frame)
    axes.set_title(title, loc="left", fontsize=11)
    axes.view_init(elev=24, azim=-128)
    for axis in (axes.xaxis, axes.yaxis, axes.zaxis):
        axis.set_pane_color((1.0, 1.0, 1.0, 0.0))
    axes.grid(False)


def _ends(frame: "Frame", tube: str) -> Any:
    return np.array([frame.position(joint) for joint in frame.tube_joints(tube)])


def _draw_marks(axes: Any, frame: "Frame", names: bool) -> None:
    places = {joint: frame.position(joint) for joint in frame.joints}
    for label, joints, mark, size in (("mount", frame.mounts, "^", 70),
                                      ("joint", frame.joints, "o", 12)):
        shown = np.array([places[joint] for joint in joints])
        if len(shown):
            axes.scatter(*shown.T, marker=mark, s=size, color=INK, label=label, depthshade=False)
    centres = np.array(_centres(frame))
    if len(centres):
        axes.scatter(*centres.T, marker="s", s=60, facecolors="none", edgecolors=MARK,
                     linewidths=1.6, label="cargo, its centre", depthshade=False)
    if names:
        for joint, place in places.items():
            _write(axes, frame, place, joint)


def _finish(axes: Any, frame: "Frame", title: str, more: Any = ()) -> Any:
    points = np.array([frame.position(joint) for joint in frame.joints])
    for extra in (np.array(_centres(frame)), np.array(more)):
        if len(extra):
            points = np.vstack([points, extra])
    _equal_scale(axes, frame, points, title)
    handles, labels = axes.get_legend_handles_labels()
    bands = [band[1] for band in BANDS]
    order = sorted(range(len(labels)), key=lambda i: bands.index(labels[i])
                   if labels[i] in bands else len(bands) + i)
    axes.legend([handles[i] for i in order], [labels[i] for i in order], loc="upper left",
                bbox_to_anchor=(1.02, 0.95), fontsize=8, frameon=False, handlelength=4.0)
    axes.figure.subplots_adjust(left=0.08, right=0.74, bottom=0.05, top=0.9)
    return axes


def _some_joints(frame: "Frame") -> None:
    if not frame.joints or not frame.tubes:
        raise errors.Incomplete("has nothing to draw", thing="frame", remedy="add joints and tubes")


def plot_frame(frame: "Frame", *, axes: Any = None, names: bool = True) -> Any:
    """Draws a frame: tubes by their stock, mounts, cargo. Gives the axes.

    Args:
        axes: axes of three dimensions to draw into; None makes some
        names: whether to write the names of the joints
    """
    _some_joints(frame)
    axes = _axes(axes)
    dashes: List[Any] = ["solid", (0, (6, 1.5)), (0, (2, 1)), (0, (6, 1.5, 1, 1.5))]
    seen: Dict[str, int] = {}
    for tube in frame.tubes:
        stock = frame.tube_stock(tube)
        label = None if stock in seen else f"{stock}: {frame.profile_text(stock)}"
        kind = seen.setdefault(stock, len(seen))
        axes.plot(*_ends(frame, tube).T, color=INK, linestyle=dashes[kind % 4],
                  linewidth=2.6 - 0.4 * (kind % 4), label=label, solid_capstyle="round")
    _draw_marks(axes, frame, names)
    return _finish(axes, frame, frame.name or "frame")


def _magnified(result: "Result", case: Name, magnify: Optional[float]) -> float:
    """So many times that the largest movement is a sixth of the frame, in a round number."""
    if magnify is not None:
        return float(magnify)
    frame = result.frame
    points = np.array([frame.position(joint) for joint in frame.joints])
    size = float(np.ptp(points, axis=0).max())
    most = max(float(np.abs(result.line(tube, case)[1]).max()) for tube in frame.tubes)
    if not most > 0.0:
        return 1.0
    times = size / 6.0 / most
    digit = 10.0 ** math.floor(math.log10(times))
    return max(math.floor(times / digit) * digit, 1.0)


def plot_result(result: "Result", case: Optional[Name] = None, *, axes: Any = None,
                magnify: Optional[float] = None, names: bool = True) -> Any:
    """Draws the shape under a case over the unloaded one, the movement magnified. Gives the axes.

    Args:
        case: a case or combination; None: the one with the most droop
        magnify: how many times the movement is drawn; None: so that it can be seen
    """
    frame = result.frame
    _some_joints(frame)
    if case is None:
        case = max(result.cases, key=lambda name: result.droop(name).droop)
    frame._column(case)
    axes = _axes(axes)
    times = _magnified(result, case, magnify)
    bent = []
    for index, tube in enumerate(frame.tubes):
        axes.plot(*_ends(frame, tube).T, color=PALE, linestyle=(0, (2, 2)), linewidth=1.2,
                  label=None if index else "unloaded")
        places, moves = result.line(tube, case)
        bent.append(places + times * moves)
        axes.plot(*bent[-1].T, color=INK, linewidth=2.6,
                  label=None if index else f"loaded, movement x {times:g}")
    _draw_marks(axes, frame, names)
    droop = result.droop(case)
    name = case if isinstance(case, str) else result.cases[case]
    shown = show(droop.droop, "length", 3, vars(frame.units))
    title = (f"{frame.name or 'frame'}, {name}\ndroops most by {shown}: "
             f"{result.place_text(droop.tube, droop.at)}")
    return _finish(axes, frame, title, np.vstack(bent))


def _uses(checks: "Checks") -> Dict[str, float]:
    """The largest utilisation of each tube in the overload and cracking lines."""
    found: Dict[str, float] = {}
    for check in checks:
        if check.where_kind == "tube" and check.line != "service":
            found[check.where] = max(found.get(check.where, 0.0), check.utilisation)
    return found


def plot_checks(checks: "Checks", *, axes: Any = None, names: bool = False) -> Any:
    """Draws each tube by how far it is used, with the number beside it. Gives the axes."""
    from .checks import used_text
    frame = checks._frame
    checks._use()
    _some_joints(frame)
    axes = _axes(axes)
    uses, labelled = _uses(checks), set()
    for tube in frame.tubes:
        line = _ends(frame, tube)
        if tube not in uses:
            axes.plot(*line.T, color=PALE, linewidth=1.0,
                      label=None if "none" in labelled else "not checked")
            labelled.add("none")
            continue
        _, label, width, dash, colour = next(band for band in BANDS if uses[tube] <= band[0])
        axes.plot(*line.T, color=colour, linewidth=width, linestyle=dash,
                  label=None if label in labelled else label)
        labelled.add(label)
        # Beside the line, as seen: tubes along x rise to the right, tubes along y to the left.
        run = np.abs(line[-1] - line[0])
        _write(axes, frame, line[[0, -1]].mean(axis=0), f"{tube}: {used_text(uses[tube])}",
               "right" if run[0] >= run[1] else "left")
    _draw_marks(axes, frame, names)
    return _finish(axes, frame, f"{frame.name or 'frame'}\nuse of each tube, worst case")
