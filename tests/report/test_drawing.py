"""Drawings measured: what is where, against projections worked out here with NumPy."""

import itertools
import re

import numpy as np
import pytest
from conftest import (DESIGNS, EXAMPLES, NASTY, PRINTED, SHELF, SVG, answer, draw, each, points, run,
                      views, words_of)

FILES = [*EXAMPLES, *DESIGNS, NASTY, SHELF]
IDS = [path.stem for path in FILES]
# What the words under each view say: to the right and up on paper, x forward, y left, z up.
FLAT = {
    "left": ([-1, 0, 0], [0, 0, 1]),  # forward is to the left, up is up
    "behind": ([0, -1, 0], [0, 0, 1]),  # left is to the left, up is up
    "above": ([-1, 0, 0], [0, -1, 0]),  # forward is to the left, left is down
}
NAMES = {"left": "From the left side", "behind": "From behind", "above": "From above"}


def corner_axes(svg):
    """Right and up of the picture, from the angles that it states."""
    said = re.search(r"from (\d+) degrees to the left of that and (\d+) degrees above", words_of(svg))
    turn, tilt = np.radians([float(said.group(1)), float(said.group(2))])
    eye = np.array([-np.cos(turn) * np.cos(tilt), np.sin(turn) * np.cos(tilt), np.sin(tilt)])
    right = np.cross([0, 0, 1], eye)
    right /= np.linalg.norm(right)
    return right, np.cross(eye, right)


def axes_of(svg, view):
    return corner_axes(svg) if view == "corner" else tuple(map(np.array, FLAT[view]))


def stated_scale(svg, view):
    """mm on paper for each m, from the words on the drawing."""
    pattern = r"([\d.]+) : ([\d.]+) across the line" if view == "corner" else r"Scale ([\d.]+) : ([\d.]+) when"
    one, other = re.search(pattern, words_of(svg)).groups()
    return 1000 * float(one) / float(other)


def stated_factor(svg):
    return float(re.search(r"movements drawn (\d+) times as large", words_of(svg)).group(1))


def stated_case(svg):
    return re.search(r'shape under load in "(.*?)"', words_of(svg)).group(1)


def circles(view, kind):
    return {one.get("data-joint"): np.array([float(one.get("cx")), float(one.get("cy"))])
            for one in each(view, "circle", kind)}


def on_paper(vector, axes, scale):
    return scale * np.array([vector @ axes[0], -(vector @ axes[1])])


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_joints_stand_where_the_projection_puts_them(path):
    svg = draw(path)
    joints = {name: np.array(at) for name, at in answer("show", path)["joints"].items()}
    found = views(svg)
    assert sorted(found) == ["above", "behind", "corner", "left"]
    for name, view in found.items():
        drawn = circles(view, "joint")
        assert sorted(drawn) == sorted(joints)
        axes, scale = axes_of(svg, name), stated_scale(svg, name)
        first = next(iter(joints))
        for joint, at in joints.items():
            wanted = on_paper(at - joints[first], axes, scale)
            assert np.abs(drawn[joint] - drawn[first] - wanted).max() <= PRINTED


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_views_stand_over_and_beside_each_other(path):
    found = {name: circles(view, "joint") for name, view in views(draw(path)).items()}
    for joint in found["left"]:
        assert abs(found["left"][joint][0] - found["above"][joint][0]) <= PRINTED
        assert abs(found["left"][joint][1] - found["behind"][joint][1]) <= PRINTED


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_the_drooped_shape_is_the_movement_times_the_factor(path):
    svg = draw(path)
    moves = answer("check", path)["cases"][stated_case(svg)]["joints"]
    factor = stated_factor(svg)
    for name in ("corner", "left", "behind"):
        view = views(svg)[name]
        still, moved = circles(view, "joint"), circles(view, "moved")
        axes, scale = axes_of(svg, name), stated_scale(svg, name)
        for joint, at in still.items():
            wanted = factor * on_paper(np.array(moves[joint]["move"]), axes, scale)
            assert np.abs(moved[joint] - at - wanted).max() <= PRINTED


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_every_drooped_tube_begins_and_ends_at_drooped_joints(path):
    svg = draw(path)
    through = {name: tube["through"] for name, tube in answer("show", path)["tubes"].items()}
    for name in ("corner", "left", "behind"):
        view = views(svg)[name]
        moved = circles(view, "moved")
        for tube, joints in through.items():
            lines = [points(one) for one in each(view, "polyline", "droop")
                     if one.get("data-tube") == tube]
            for line, later in itertools.pairwise(lines):
                assert line[-1] == later[0]
            assert np.abs(np.array(lines[0][0]) - moved[joints[0]]).max() <= PRINTED
            assert np.abs(np.array(lines[-1][-1]) - moved[joints[-1]]).max() <= PRINTED


def test_a_bent_tube_follows_the_curve_of_a_cantilever():
    """w(x) = P x^2 (3 L - x) / (6 E I) + P x / (G As): beam theory, from any handbook."""
    path = next(path for path in EXAMPLES if path.stem == "wall-bracket")
    svg = draw(path)
    understood = answer("show", path)
    stock = understood["stock"]["arm"]
    E, G = stock["material"]["E"], stock["material"]["G"]
    I, shear = stock["section"]["second moments"][0], stock["section"]["shear areas"][1]
    P, L = 20 * 9.80665, 0.3
    line = np.array(points(each(views(svg)["left"], "polyline", "droop")[0]))
    scale, factor = stated_scale(svg, "left"), stated_factor(svg)
    x = np.linspace(0, L, len(line))
    w = P * x**2 * (3 * L - x) / (6 * E * I) + P * x / (G * shear)
    assert len(line) >= 9
    assert np.abs(line[:, 0] - line[0, 0] + scale * x).max() <= PRINTED  # forward is to the left
    assert np.abs(line[:, 1] - line[0, 1] - scale * factor * w).max() <= PRINTED


def test_the_case_can_be_chosen():
    path = next(path for path in EXAMPLES if path.stem == "cool-box-carrier")
    worst = draw(path)
    cases = answer("check", path)["cases"]
    lowest = {name: min(joint["move"][2] for joint in case["joints"].values())
              for name, case in cases.items()}
    assert stated_case(worst) == min(lowest, key=lowest.get)
    assert stated_case(draw(path, "--case", "parked")) == "parked"


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_the_use_of_each_tube_is_its_worst_check(path):
    """Overload and cracking; those of the service line are droop, mounts, limits."""
    service = {"droop", "droop ratio", "mount pull", "mount push", "mount shear", "mount moment", "bolt slip",
               "bolt gap"}
    worst = {}
    for check in answer("check", path)["checks"]:
        if check["check"] not in service:
            worst[check["where"]] = max(worst.get(check["where"], 0), check["utilisation"])
    picture = views(draw(path))["corner"]
    tubes = answer("show", path)["tubes"]
    shown = {}
    for one in each(picture, "g", "tube-name"):
        text = "".join(one.find(SVG + "text").itertext())
        shown[one.get("data-name")] = re.search(r"([\d.]+) %$", text)
    assert shown and set(shown) <= set(tubes)
    for tube, percent in shown.items():
        # The name of a place may be longer than that of its tube ("back at TL").
        mine = max(used for where, used in worst.items()
                   if where == tube or where.startswith(f"{tube} at "))
        digits = len(percent.group(1).partition(".")[2])
        assert abs(float(percent.group(1)) - 100 * mine) <= 0.5 * 10.0**-digits + 1e-9


def boxes(view):
    return [(one.get("data-name") or "".join(one.itertext()), tuple(map(float, one.get("data-box").split())))
            for one in each(view, "g", "label")]


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_labels_stand_on_no_other_label_and_on_the_paper(path):
    svg = draw(path)
    width, height = map(float, svg.get("viewBox").split()[2:])
    seen = []
    for view in views(svg).values():
        seen += boxes(view)
    assert len(seen) >= 4
    for name, (left, top, right, bottom) in seen:
        assert 0 <= left < right <= width and 0 <= top < bottom <= height, name
    for (name, one), (other_name, other) in itertools.combinations(seen, 2):
        apart = (one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1])
        assert apart, (name, other_name)


@pytest.mark.parametrize("path", [*EXAMPLES, *DESIGNS], ids=[path.stem for path in [*EXAMPLES, *DESIGNS]])
def test_every_joint_tube_and_cargo_of_an_example_is_named(path):
    svg = draw(path)
    understood = answer("show", path)
    assert "no room here" not in words_of(svg)
    for name, view in views(svg).items():
        labels = [part for label, _ in boxes(view) for part in label.split("\n")]
        wanted = [*understood["joints"], *understood["cargo"]]
        if name == "corner":
            wanted += understood["tubes"]
        assert set(wanted) <= set(labels)


def coordinates(svg):
    for one in svg.iter():
        for x, y in (("x", "y"), ("cx", "cy"), ("x1", "y1"), ("x2", "y2")):
            if one.get(x) and one.get(y) and not one.tag.endswith("pattern"):
                yield float(one.get(x)), float(one.get(y))
        if one.get("points"):
            yield from points(one)


@pytest.mark.parametrize("path", FILES, ids=IDS)
@pytest.mark.parametrize("forces", [False, True])
def test_all_of_it_is_on_the_paper(path, forces):
    tube = next(iter(answer("show", path)["tubes"]))
    svg = draw(path, *(["--tube", tube] if forces else []))
    width, height = map(float, svg.get("viewBox").split()[2:])
    assert svg.get("width") == f"{width:g}mm" and svg.get("height") == f"{height:g}mm"
    assert width <= 186 and height <= 255  # between the margins of A4 and of Letter
    places = list(coordinates(svg))
    assert len(places) > 20
    for x, y in places:
        assert 0 <= x <= width and 0 <= y <= height


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.stem for path in EXAMPLES])
def test_dimensions_are_as_long_as_they_say(path):
    svg = draw(path)
    unit = {"mm": 0.001, "in": 0.0254}[answer("show", path)["units"]["length"]]
    scale = stated_scale(svg, "left")
    numbers = each(svg, "g", "number")
    assert len(numbers) >= 1
    for number in numbers:
        text = "".join(number.itertext())
        # Four digits at most are printed.
        rounding = 0.5 * 10.0 ** (np.floor(np.log10(float(text))) - 3) * unit
        assert abs(float(number.get("data-length")) - scale * unit * float(text)) <= PRINTED + scale * rounding


def test_overall_dimensions_are_there():
    path = next(path for path in EXAMPLES if path.stem == "cool-box-carrier")
    written = ["".join(one.itertext()) for one in each(draw(path), "g", "number")]
    for size in ("420", "120", "180", "320", "210"):
        assert size in written


# Forces along a tube.


def rows(svg):
    return {one.get("data-force"): one for one in each(svg, "g", "row")}


def per_mm(row):
    """SI for a mm of paper, from the words beside the row."""
    value, unit = re.search(r"1 mm is ([\d.e+-]+) (\S+)", words_of(row)).groups()
    return float(value) * {"N": 1, "N*m": 1, "lbf": 4.4482216152605, "lbf*in": 4.4482216152605 * 0.0254}[unit]


TUBES = [(path, tube) for path in [*EXAMPLES, *DESIGNS] for tube in answer("show", path)["tubes"]]


@pytest.mark.parametrize("path, tube", TUBES, ids=[f"{path.stem}-{tube}" for path, tube in TUBES])
def test_force_curves_go_through_the_ends_of_spans(path, tube):
    svg = draw(path, "--tube", tube)
    case = each(svg, "g", "forces")[0].get("data-case")
    spans = answer("check", path)["cases"][case]["tubes"][tube]
    one, other = re.search(r"Along the tube ([\d.]+) : ([\d.]+) when", words_of(svg)).groups()
    along = 1000 * float(one) / float(other)
    for force, row in rows(svg).items():
        curves = each(row, "polyline", "curve")
        base, per = float(row.get("data-base")), per_mm(row)
        if not curves:
            assert "none" in words_of(row)
            # No more than a rounding would show: the height of a row is 9 mm.
            assert all(abs(end[force]) <= 1e-6 * 9 * per for span in spans
                       for end in (span["start"], span["end"]))
            continue
        curve = np.array(points(curves[0]))
        start = curve[0, 0]
        for span in spans:
            for end, at in (("start", span["at"]), ("end", span["at"] + span["length"])):
                wanted = np.array([start + along * at, base - span[end][force] / per])
                assert np.abs(curve - wanted).max(axis=1).min() <= PRINTED, (force, end)


@pytest.mark.parametrize("path, tube", TUBES, ids=[f"{path.stem}-{tube}" for path, tube in TUBES])
def test_marked_extremes_are_those_of_the_curve(path, tube):
    svg = draw(path, "--tube", tube)
    marks = 0
    for row in rows(svg).values():
        base = float(row.get("data-base"))
        curves = each(row, "polyline", "curve")
        dots = each(row, "circle", "extreme")
        if not curves:
            assert not dots
            continue
        heights = base - np.array(points(curves[0])[1:-1])[:, 1]  # without the feet on the base line
        marked = [base - float(dot.get("cy")) for dot in dots]
        marks += len(marked)
        # Extremes are exact, the curve goes straight from place to place: it reaches them from below.
        high, low = max(marked), min(marked)
        assert -PRINTED <= high - heights.max() <= 0.05 or heights.max() <= PRINTED
        assert -PRINTED <= heights.min() - low <= 0.05 or abs(heights.min()) <= PRINTED or len(marked) == 1
    assert marks >= 1


def test_extremes_of_the_bracket_are_those_by_hand():
    path = next(path for path in EXAMPLES if path.stem == "wall-bracket")
    svg = draw(path, "--tube", "arm")
    said = {name: words_of(row) for name, row in rows(svg).items()}
    weight = 20 * 9.80665
    assert f"-{weight:.1f} N at 0 mm" in said["Vz"]
    assert f"{weight * 0.3:.2f} N*m at 0 mm" in said["My"]
    assert "none" in said["N"] and "none" in said["T"] and "none" in said["Mz"]


def test_a_point_load_in_a_span_is_a_step():
    """200 lbf in the middle of the tail bar."""
    path = next(path for path in EXAMPLES if path.stem == "tank-rack")
    svg = draw(path, "--tube", "tail bar", "--case", "leaning on the tail")
    row = rows(svg)["Vz"]
    curve = np.array(points(each(row, "polyline", "curve")[0]))
    steps = np.abs(np.diff(curve[1:-1], axis=0))
    upright = steps[steps[:, 0] <= PRINTED]
    assert abs(upright[:, 1].max() - 200 * 4.4482216152605 / per_mm(row)) <= 0.01


# Asking for it.


@pytest.mark.parametrize("command, name", [("draw", "x.svg"), ("report", "x.html")])
def test_written_whole_whether_or_not_it_holds(command, name, tmp_path, write):
    text = next(path for path in EXAMPLES if path.stem == "wall-bracket").read_text(encoding="utf-8")
    path = write(text.replace("-20 kg", "-900 kg"))
    assert run("check", path)[0] == 1
    status, out, err = run(command, path, "-o", tmp_path / name)
    assert (status, out, err) == (0, f"{tmp_path / name} is written.\n", "")
    assert sorted(one.name for one in tmp_path.iterdir()) == sorted(["rack.yaml", name])
    first = (tmp_path / name).read_text(encoding="utf-8")
    assert "FAILS" in first
    assert run(command, path, f"-o={tmp_path / name}")[0] == 0
    assert (tmp_path / name).read_text(encoding="utf-8") == first


@pytest.mark.parametrize("command", ["draw", "report"])
def test_what_is_wrong_is_said_and_nothing_written(command, tmp_path, write):
    good = next(path for path in EXAMPLES if path.stem == "wall-bracket")
    there = tmp_path / "there.svg"
    there.write_text("old", encoding="utf-8")
    calls = [
        ((command, good), 2, "needs a file to write"),
        ((command, good, "-o"), 2, "option -o"),
        ((command, good, "-o", there, "--case", "hangin"), 2, "did you mean hanging?"),
        ((command, good, "-o", there, "--tube", "arn"), 2, "arm"),
        ((command, write("trivet: 1\n"), "-o", there), 2, "is missing"),
        ((command, tmp_path / "none.yaml", "-o", there), 2, "none.yaml"),
        ((command, good, "-o", tmp_path / "no" / "x.svg"), 3, "No such file"),
        ((command, good, "-o", tmp_path), 3, "directory"),
        (("check", good, "-o", there), 2, "is none of trivet check"),
    ]
    for words, wanted, said in calls:
        status, _, err = run(*words)
        assert status == wanted, words
        assert said in err, words
    assert there.read_text(encoding="utf-8") == "old"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["rack.yaml", "there.svg"]


def test_json_says_where(tmp_path):
    status, out, _ = run("draw", EXAMPLES[0], "-o", tmp_path / "x.svg", "--json")
    assert (status, out) == (0, f'{{"written": "{tmp_path / "x.svg"}"}}\n')


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.stem for path in EXAMPLES])
def test_the_same_file_gives_the_same_drawing(path):
    assert run("draw", path, "-o", "-") == run("draw", path, "-o", "-")


def test_pictures_say_what_they_show():
    for path in FILES:
        svg = draw(path)
        assert svg.get("role") == "img"
        title, desc = svg.find(SVG + "title"), svg.find(SVG + "desc")
        assert svg.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
        assert "shape under load" in "".join(title.itertext())
        assert "used most" in "".join(desc.itertext())


def test_nasty_names_stay_text():
    for words in ([], ["--tube", "arm' onload='alert(2)"]):
        svg = draw(NASTY, *words)  # that it can be read at all is the first half of the test
        assert not [one for one in svg.iter() if one.tag in (SVG + "script", SVG + "image", SVG + "foreignObject")]
        for one in svg.iter():
            assert not [name for name in one.attrib if name.startswith("on")]
        assert "<script>alert(1)</script> & \"quoted\" 'single'" in words_of(svg)


def test_directions_of_text_stay_apart():
    """Every right-to-left run in the lettering stands between U+2068 and U+2069."""
    import unicodedata
    svg = draw(NASTY)
    seen = 0
    for text in svg.iter(SVG + "text"):
        depth = 0
        for letter in "".join(text.itertext()):
            depth += (letter == "\u2068") - (letter == "\u2069")
            if unicodedata.bidirectional(letter) in ("R", "AL"):
                seen += 1
                assert depth == 1
        assert depth == 0
    assert seen > 10
