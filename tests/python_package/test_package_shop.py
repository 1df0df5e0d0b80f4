"""Cut lists, plates, drawings, the report and hand-overs: those of the command, byte for byte."""
import json
import math
import os
import subprocess
import xml.etree.ElementTree as xml

import numpy as np
import pytest

import trivet
from varied import command


def written(tmp_path, word, path, name, *words):
    """The bytes of a file that the command writes."""
    place = tmp_path / name
    done = subprocess.run([os.environ["TRIVET_COMMAND"], word, str(path), "-o", str(place), *words],
                          capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return place.read_bytes()


def test_cut_lists_are_those_of_the_command_for_every_example(examples):
    assert len(examples) >= 3
    for path in examples:
        frame = trivet.read(path)
        cuts = frame.cut()
        assert cuts.json().rstrip() == command("cut", path).rstrip()
        said = json.loads(cuts.json())
        assert [cuts.name(index) for index in range(len(cuts))] == [
            piece["name"] for piece in said["pieces"]]
        assert [piece.longest for piece in cuts] == [piece["long"] for piece in said["pieces"]]
        assert len(cuts.holes) == len(said["holes"]) and cuts.notes == said["notes"]
        assert cuts.totals.mass == said["totals"]["mass"]
        assert sorted(piece for bar in range(len(cuts.bars)) for piece in cuts.bar_pieces(bar)
                      ) == list(range(len(cuts)))


def test_templates_are_those_of_the_command(examples, tmp_path):
    found = 0
    for path in examples:
        folder = tmp_path / path.stem
        folder.mkdir()
        subprocess.run([os.environ["TRIVET_COMMAND"], "cut", str(path), "--templates", str(folder)],
                       capture_output=True, check=True)
        cuts = trivet.read(path).cut()
        assert sorted(os.listdir(folder)) == sorted(
            cuts.template_name(*place) for place in cuts.templates)
        for place in cuts.templates:
            text = (folder / cuts.template_name(*place)).read_text(encoding="utf-8")
            assert text == cuts.template(*place)
            found += 1
    assert found > 0


def square_corner():
    """Round tubes: one runs through, one ends on it at a right angle."""
    frame = trivet.Frame("tee")
    for name, place in (("A", (0, -0.4, 0)), ("B", (0, 0, 0)), ("C", (0, 0.4, 0)),
                        ("D", (-0.3, 0, 0))):
        frame.add_joint(name, *place)
    frame.add_stock("main", "round tube", diameter="40 mm", wall="2 mm")
    frame.add_stock("branch", "round tube", diameter="30 mm", wall="2 mm")
    frame.add_tube("main", ["A", "B", "C"], "main")
    frame.add_tube("branch", ["D", "B"], "branch")
    frame.add_mount("A")
    frame.add_case("parked", (0, 0, -1))
    return frame


def test_a_saddle_is_the_descriptive_geometry_by_hand():
    cuts = square_corner().cut(gap=0)
    (place,) = cuts.templates
    assert cuts.name(place[0]) == "branch" and cuts[place[0]].ends[place[1]].cut == "saddle"
    # Cylinders at a right angle: a line of the branch at angle f round it, from the side that lies
    # in the plane of both axes, meets the other sqrt(R^2 - (r sin f)^2) from its axis. The long
    # point is where that is least, the deepest cut where it is R.
    R, r = 0.020, 0.015
    side = r
    for turn in np.linspace(0, 2 * math.pi, 13):
        off = r * math.cos(turn)  # from the tube's top: across the axis of the main tube is z
        by_hand = math.sqrt(R * R - off * off) - math.sqrt(R * R - side * side)
        # The formula and this one differ by rounding of numbers of 1e-2 m.
        assert cuts.saddle_depth(*place, turn) == pytest.approx(by_hand, abs=1e-15)
    assert cuts.saddle_depth(*place, "90 deg") == cuts.saddle_depth(*place, math.pi / 2)
    root = xml.fromstring(cuts.template(*place))
    assert root.tag.endswith("svg") and root.get("width").endswith("mm")
    with pytest.raises(trivet.BadIndex):
        cuts.saddle_depth(0, 0, 0.0)
    with pytest.raises(trivet.BadIndex):
        cuts.template(5, 0)


def test_settings_of_the_workshop():
    frame = square_corner()
    plain, wide = frame.cut(), frame.cut(kerf="5 mm", bars=[
        {"length": "1 m", "price": 4.5}, {"length": "500 mm", "price": 2, "stock": "branch",
                                          "have": 1}])
    assert [bar.length for bar in plain.bars] == [6.0, 6.0]
    assert sorted(bar.length for bar in wide.bars) == [0.5, 1.0]
    of_main = [bar for bar in wide.bars if bar.stock == 0][0]
    assert of_main.rest == pytest.approx(1.0 - 0.8 - 0.005, abs=1e-12)  # by hand: a bar, one cut
    assert wide.totals.price == 4.5 and math.isnan(plain.totals.price)
    butt = frame.cut(ends={("branch", "B"): "saddle"})
    assert [end.cut for end in butt[1].ends] == ["free", "saddle"]
    assert repr(wide) == "<Cuts: 2 pieces out of 2 bars>"
    for wrong in ({"kerf": -1.0}, {"bars": [{"length": "100 mm"}]}, {"aim": "gold"},
                  {"colour": 3}, {"bars": 4}, {"bends": [{"tubes": ["nobody"]}]},
                  {"ends": {("branch", "B"): "glue"}}, {"ends": [3]}, {"kerf": "2 kg"}):
        with pytest.raises(trivet.TrivetError):
            frame.cut(**wrong)
    with pytest.raises(trivet.BadOrder):
        plain.json()
    assert len(trivet.cut_rules()) > 3 and trivet.cut_words()[3] == "miter"


def test_bent_pieces():
    frame = trivet.Frame("hoop")
    for name, place in (("A", (0, 0, 0)), ("B", (0, 0, 0.4)), ("C", (0.5, 0, 0.4))):
        frame.add_joint(name, *place)
    frame.add_stock("tube", "round tube", diameter="25 mm", wall="2 mm")
    frame.add_tube("leg", ["A", "B"], "tube")
    frame.add_tube("top", ["B", "C"], "tube")
    frame.add_mount("A")
    frame.add_case("parked", (0, 0, -1))
    cuts = frame.cut(bends=[{"name": "hoop", "tubes": ["leg", "top"], "radius": "80 mm"}])
    (piece,) = cuts
    (bend,) = cuts.bends(0)
    # By hand: two straights, each shorter by R tan(45 deg), and a quarter circle of R.
    by_hand = 0.4 + 0.5 - 2 * 0.08 + 0.08 * math.pi / 2
    assert piece.length == pytest.approx(by_hand, rel=1e-12) and cuts.name(0) == "hoop (bent)"
    assert bend.from_ == pytest.approx(0.32, rel=1e-12)
    assert bend.angle == pytest.approx(math.pi / 2, rel=1e-12)


def test_plates_of_decks():
    frame = trivet.Frame("lid")
    for name, x, y in (("A", 0.0, 0.0), ("B", 0.3, 0.0), ("C", 0.3, 0.2), ("D", 0.0, 0.2)):
        frame.add_joint(name, x, y, 0)
    frame.add_stock("bar", "square tube", width="20 mm", wall="2 mm")
    frame.add_tube("a", ["A", "B"], "bar")
    frame.add_deck("lid", ["A", "B", "C", "D"])
    with pytest.raises(trivet.Incomplete):
        frame.cutting("lid")
    frame.set_plate("lid", edge="30 mm", slots=[(("100 mm", 0.1), (0.2, 0.1), "20 mm")])
    assert frame.plate("lid").edge == 0.03
    (slot,) = frame.plate("lid").slots
    assert slot == trivet.records.Slot((0.1, 0.1), (0.2, 0.1), 0.02)
    cutting = frame.cutting("lid")
    outline = cutting.outline
    # By hand: the rectangle, 30 mm farther out, with quarter circles: bulge tan(90 deg / 4).
    assert outline.shape == (8, 3) and not outline.flags.writeable
    assert np.ptp(outline[:, 0]) == pytest.approx(0.36, abs=1e-12)
    assert np.ptp(outline[:, 1]) == pytest.approx(0.26, abs=1e-12)
    assert outline[:, 2].max() == pytest.approx(math.tan(math.pi / 8), rel=1e-12)
    assert cutting.holes.shape == (0, 3) and cutting.slots == (slot,)
    frame.set_plate("lid", corners=[(-0.05, -0.05), (0.35, -0.05), (0.35, 0.25), (-0.05, 0.25)])
    assert frame.plate("lid").corners[2] == (0.35, 0.25)
    assert frame.cutting("lid").outline.shape == (4, 3)
    before = outline.copy()
    cutting.close()
    frame.close()
    assert np.array_equal(outline, before)
    with pytest.raises(trivet.Closed):
        _ = cutting.outline


def test_plates_that_cannot_be(carrier):
    for wrong in ({"corners": [(0, 0), (1, 0)]}, {"corners": 3}, {"slots": [(1, 2)]},
                  {"slots": [((0, 0), (0, 0), 0)]}, {"edge": -1.0}, {"edge": "3 kg"}):
        with pytest.raises(trivet.TrivetError):
            carrier.set_plate("board", **wrong)
    assert carrier.cutting("board").holes.shape == (4, 3)


def test_getters_of_what_was_set(carrier, arm):
    arm.set_offset("arm", "tip", (0, "3 mm", 0))
    assert arm.offset("arm", "tip") == (0.0, 0.003, 0.0)
    # EN 10219-2 annex B: walls up to 6 mm, outer radius twice the wall.
    assert carrier.radii("rail") == pytest.approx((2 * carrier.profile("rail").wall,
                                                   carrier.profile("rail").wall))
    assert trivet.radii({"shape": "square tube", "width": "30 mm", "wall": "3 mm",
                         "corner": "sharp"}) == (0.0, 0.0)
    with pytest.raises(trivet.TrivetError):
        trivet.radii("round")
    assert carrier.text().startswith("#") and "trivet: 1" in carrier.text()
    assert carrier.shop().kerf > 0


def test_drawings_are_those_of_the_command_for_every_example(examples, tmp_path):
    for path in examples:
        frame = trivet.read(path)
        checks = frame.check()
        assert checks.drawing().encode() == written(tmp_path, "draw", path, "a.svg")
        assert frame.drawing() == checks.drawing()
        tube, case = frame.tubes[0], frame.columns[0]
        assert checks.drawing(tube=tube, case=case, path=tmp_path / "ours.svg").encode() == written(
            tmp_path, "draw", path, "b.svg", "--tube", tube, "--case", case)
        assert (tmp_path / "ours.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()
        assert checks.report().encode() == written(tmp_path, "report", path, "a.html")
    titles = [text.text for text in xml.fromstring(checks.drawing(title="<ours & theirs>")).iter()]
    assert "<ours & theirs>" in titles
    for wrong in ({"sheet": "wallpaper"}, {"case": "nobody"}, {"tube": 99}, {"title": 3}):
        with pytest.raises((trivet.TrivetError, TypeError)):
            checks.drawing(**wrong)
    with pytest.raises(trivet.Unwritable):
        checks.drawing(path=tmp_path / "no" / "folder.svg")
    assert sorted(entry.name for entry in tmp_path.iterdir()) == [
        "a.html", "a.svg", "b.svg", "ours.svg"]


def test_hand_overs_are_those_of_the_command_for_every_example(examples, tmp_path):
    for path in examples:
        frame = trivet.read(path)
        checks = frame.check()
        for ending, made in (("vtu", checks.vtu()), ("glb", checks.glb()), ("dxf", frame.dxf())):
            assert made == written(tmp_path, "export", path, f"a.{ending}"), ending
        for table in trivet.csv_tables():
            assert checks.csv(table, tmp_path / "ours.csv") == written(
                tmp_path, "export", path, f"{table}.csv"), table
        assert (tmp_path / "ours.csv").read_bytes() == checks.csv(trivet.csv_tables()[-1])
    assert b"\0" in checks.glb() and checks.glb()[:4] == b"glTF"
    with pytest.raises(trivet.BadName):
        checks.csv("colours")
    stopped = trivet.read(examples[0]).rate().checks(0)
    for ask in (stopped.drawing, stopped.glb, stopped.report, lambda: stopped.csv("joints")):
        with pytest.raises(trivet.BadOrder):
            ask()


def test_what_is_built_in_code_can_be_drawn(arm):
    root = xml.fromstring(arm.drawing(sheet="picture"))
    assert "arm" in "".join(text.text or "" for text in root.iter())
    assert len(arm.check().glb()) > 1000 and arm.dxf().count(b"LINE") >= 1
    with pytest.raises(trivet.BadOrder):
        arm.check().report()


def test_checks_are_made_again_in_place(carrier):
    light = carrier.copy()
    light.set_case_story(0, "the same", "")
    light.set_cargo_factor("parked", "cool box", 0.5)
    first, second = carrier.solve(), light.solve()
    want, other = list(second.check()), list(first.check())
    checks = first.check()
    for _ in range(3):
        checks.again(second)
        assert repr(list(checks)) == repr(want) and checks.omissions == second.check().omissions
        checks.again(first, only_worst=True)
        lines = {check.line for check in other}
        assert len(checks) == len(lines)
        assert all(repr(checks.worst(line)) == repr(first.check().worst(line)) for line in lines)
    checks.again(second, yield_=3.0)
    assert checks.worst().utilisation != want[0].utilisation
    with pytest.raises(trivet.BadValue):
        checks.again(second, yield_=0.1)
    first.close()
    light.close()
    second.close()
    assert checks.sentence() and checks.place(0)  # texts of the frame are still there
    with pytest.raises(trivet.Closed):
        checks.again(second)
    rated = carrier.rate().checks(0)
    with pytest.raises(trivet.BadOrder):
        rated.again(carrier.solve())
