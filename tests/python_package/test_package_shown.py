"""Tables, pictures and what a notebook shows."""
import base64
import html.parser
import subprocess
import sys
import xml.etree.ElementTree as xml

import numpy as np
import pytest

import trivet
from conftest import arm_of
from trivet import html as shown

pandas = pytest.importorskip("pandas")
matplotlib = pytest.importorskip("matplotlib")


def test_tables_hold_the_arrays(carrier):
    result = carrier.solve()
    for what, array in (("moves", result.moves), ("reactions", result.reactions),
                        ("span ends", result.span_ends)):
        table = result.table(what)
        assert table.shape == (array.size // 6, 6)
        assert np.array_equal(table.to_numpy(), array.reshape(-1, 6))
    moves = result.table("moves")
    assert moves.loc[("parked", "TL"), "z"] == result.move("TL", "parked")[2]
    assert result.table("span ends").index.names == ["case", "span", "tube", "end"]
    moves.loc[:, "z"] = 0.0  # a copy: the result stays
    assert result.moves[..., 2].any()
    checks = result.check()
    table = checks.table()
    assert list(table["used"]) == [check.utilisation for check in checks]
    assert list(carrier.rate().table()["cargo"]) == list(carrier.rate().names)
    with pytest.raises(trivet.BadName):
        result.table("colours")


def lines_of(axes):
    return {line.get_label(): np.array(line.get_data_3d()).T for line in axes.get_lines()
            if not line.get_label().startswith("_")}


def test_the_shape_is_drawn_to_scale(carrier):
    axes = carrier.plot()
    for limits, box in zip((axes.get_xlim(), axes.get_ylim(), axes.get_zlim()), axes._box_aspect):
        # Equal scale: as much box for each metre of each direction.
        assert (limits[1] - limits[0]) / box == pytest.approx(
            (axes.get_xlim()[1] - axes.get_xlim()[0]) / axes._box_aspect[0])
    labels = [text.get_text() for text in axes.get_legend().get_texts()]
    assert any(label.startswith("rail: square tube") for label in labels)
    assert {"mount", "joint", "cargo, its centre"} <= set(labels)
    assert {text.get_text().strip() for text in axes.texts} >= set(carrier.joints)


def test_droop_is_drawn_so_many_times(carrier):
    result = carrier.solve()
    axes = result.plot("pothole", magnify=50)
    drawn = [line for line in axes.get_lines() if line.get_linestyle() == "-"]
    assert len(drawn) == len(carrier.tubes)
    tube = carrier.tubes.index("back")
    points = np.array(drawn[tube].get_data_3d()).T
    want = carrier.position("TL") + 50 * result.move("TL", "pothole")[:3]
    assert np.allclose(points[0], want, rtol=0, atol=1e-12)
    assert "loaded, movement x 50" in lines_of(axes)
    droop = trivet.show(result.droop("pothole").droop, "length")
    assert droop in axes.get_title(loc="left")
    worst = max(result.cases, key=lambda case: result.droop(case).droop)
    assert worst in result.plot().get_title(loc="left")


def test_use_reads_in_black_and_white(carrier):
    axes = carrier.check().plot()
    styles = {}
    for line in axes.get_lines():
        styles.setdefault(line.get_color(), set()).add((line.get_linewidth(),
                                                        str(line.get_linestyle())))
    assert all(len(kinds) == 1 for kinds in styles.values())
    looks = [kind for kinds in styles.values() for kind in kinds]
    assert len(set(looks)) == len(looks)  # each colour has a width and dash of its own
    texts = " ".join(text.get_text() for text in axes.texts)
    for tube in carrier.tubes:
        assert f"{tube}: " in texts and "%" in texts


def test_nothing_to_draw_is_said():
    with pytest.raises(trivet.Incomplete):
        trivet.Frame().plot()
    figure = matplotlib.figure.Figure()
    with pytest.raises(trivet.WrongArgument):
        trivet.read_text(trivet.starter_text()).plot(axes=figure.add_subplot())


class Reader(html.parser.HTMLParser):
    """Reads cells; refuses tags that are not closed in order."""

    def __init__(self):
        super().__init__()
        self.open, self.cells = [], []

    def handle_starttag(self, tag, attrs):
        self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] == "td":
            self.cells.append(data)


def read_html(text):
    reader = Reader()
    reader.feed(text)
    reader.close()
    assert reader.open == []
    return reader.cells


def test_notebooks_show_tables(carrier):
    result = carrier.solve()
    checks = result.check()
    assert {"left rail", "420 mm"} <= set(read_html(carrier._repr_html_()))
    assert {"pothole", "rebound"} <= set(read_html(result._repr_html_()))
    cells = read_html(checks._repr_html_())
    assert {"HOLDS", "overload"} <= set(cells) and checks.sentence() in cells
    for caution in trivet.cautions():
        assert caution.split(",")[0].split("'")[0] in checks._repr_html_()
    assert "Not checked: " in checks._repr_html_() and "as far as" in checks._repr_html_()


def test_names_cannot_break_out_of_a_table(arm):
    arm.add_case("<script>alert(1)</script>", (0, 0, -1))
    text = arm.solve()._repr_html_()
    assert "<script>" not in text and "&lt;script&gt;" in text


def picture_in(text):
    """The SVG of the one image in a page."""
    start = "src='data:image/svg+xml;base64,"
    assert text.count(start) == 1 and read_html(text) is not None
    found = text[text.index(start) + len(start):]
    return base64.b64decode(found[:found.index("'")]).decode()


def test_notebooks_show_the_drawing(carrier, arm):
    result = carrier.solve()
    checks = result.check()
    for thing in (carrier, result, checks):
        assert picture_in(thing._repr_html_()) == checks.drawing(sheet="picture")
    assert xml.fromstring(picture_in(arm._repr_html_())).tag.endswith("svg")
    arm.add_joint("loose", 1, 1, 1)  # cannot be solved: no picture, nothing wrong said
    assert "<img" not in arm._repr_html_() and "30 x 2 mm" in arm._repr_html_()
    assert "<img" not in carrier.rate().checks(0)._repr_html_()
    many = arm_of()
    for case in range(2000):
        many.add_case(f"case {case}", (0, 0, -1))
    assert "<img" not in many._repr_html_()


def test_the_drawing_has_one_place(carrier, monkeypatch):
    monkeypatch.setattr(shown, "drawing_html", lambda frame: "<svg></svg>")
    result = carrier.solve()
    for thing in (carrier, result, result.check()):
        assert thing._repr_html_().count("<svg></svg>") == 1


def test_pandas_and_matplotlib_are_not_needed():
    code = ("import sys; sys.modules.update(pandas=None, matplotlib=None)\n"
            "import trivet\n"
            "result = trivet.read_text(trivet.starter_text()).solve()\n"
            "print(result.check().verdict)\n"
            "for ask in (result.table, result.plot):\n"
            "    try:\n        ask()\n"
            "    except ImportError as error:\n        print(error)\n")
    done = subprocess.run([sys.executable, "-B", "-c", code], capture_output=True, text=True,
                          check=True)
    lines = done.stdout.splitlines()
    assert lines[0] == "holds" and "need pandas" in lines[1] and "need matplotlib" in lines[2]
