"""DXF read by ezdxf (Debian's python3-ezdxf), against sizes that the tests work out themselves.
Clearance holes: ISO 273 medium, M5 5.5, M6 6.6, M8 9 mm."""

import json
import math

import ezdxf
import pytest
from ezdxf.lldxf.encoding import decode_dxf_unicode
from conftest import DRAWING, FORMULA, LONG, LONG_OF_DECKS, MARKUP, OFFSET, RIGHT_TO_LEFT, rack, run

NEAR = 1e-9  # mm: lengths are written with 15 digits


def read(path):
    data = path.read_bytes()
    assert data.isascii()
    drawing = ezdxf.readfile(path)
    audit = drawing.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert drawing.dxfversion == "AC1009"
    return drawing


def of_kind(drawing, kind, layer=None):
    return [e for e in drawing.modelspace().query(kind) if layer is None or e.dxf.layer == layer]


def text_of(entity):
    """The reader's own way to read what is not ASCII; it leaves the two halves of what lies beyond
    U+FFFF apart."""
    return decode_dxf_unicode(entity.dxf.text).encode("utf-16", "surrogatepass").decode("utf-16")


def near(a, b):
    return math.dist(tuple(a), tuple(b)) < NEAR


def plate(deck, joints=None):
    """A small frame with one deck."""
    joints = joints or {"A": [0, 0, 5], "B": [300, 0, 5], "C": [300, 200, 5], "D": [0, 200, 5]}
    names = list(joints)
    return {
        "trivet": 1,
        "stock": {"bar": {"shape": "square bar", "width": 10, "material": "S235"}},
        "joints": {**joints, "end": [-100, 0, 5]},
        "tubes": {f"t{n}": {"through": ["end", n], "stock": "bar"} for n in names},
        "mounts": {"end": {"hold": "all"}},
        "cases": {"parked": {"gravity": [0, 0, -1]}},
        "decks": {"lid": {"on": names, **deck}},
    }


def screws(thread="M6", **more):
    return {"screws": {"thread": thread, "grade": "A2-70", **more}}


def outline_of(drawing, layer="PLATE_LID"):
    (line,) = of_kind(drawing, "POLYLINE", layer)
    assert line.is_closed
    return [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in line.vertices]


def area_and_length(corners):
    """Green's theorem over straight sides, and the segment between chord and arc: an arc of angle t
    has tan(t/4) as bulge, radius c/(2 sin(t/2)), segment r^2 (t - sin t)/2."""
    area = length = 0.0
    for (x, y, bulge), (u, v, _) in zip(corners, corners[1:] + corners[:1]):
        area += (x * v - u * y) / 2
        chord = math.hypot(u - x, v - y)
        turn = 4 * math.atan(bulge)
        if turn:
            radius = chord / (2 * math.sin(turn / 2))
            area += radius**2 * (turn - math.sin(turn)) / 2
            length += radius * turn
        else:
            length += chord
    return area, length


def test_centre_lines_on_a_layer_per_stock(hand_over):
    file = rack()
    drawing = read(hand_over(file, "rack.dxf"))
    layers = [layer.dxf.name for layer in drawing.layers]
    lines = of_kind(drawing, "LINE")
    assert len(lines) == len(file["tubes"])
    for line, (name, tube) in zip(lines, file["tubes"].items()):
        shift = OFFSET if name == DRAWING else (0, 0, 0)
        for end, joint in zip((line.dxf.start, line.dxf.end), tube["through"]):
            assert near(end, [a + b for a, b in zip(file["joints"][joint], shift)])
    assert len({line.dxf.layer for line in lines}) == len(lines)
    assert {line.dxf.layer for line in lines} <= set(layers)
    for name in layers:
        assert len(name) <= 31 and not set(name) - set("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789$-_") or name == "Defpoints"
    assert "TUBE_VALUES" in layers and "TUBE__ANGLE" in layers


def test_layers_that_would_be_the_same_are_told_apart(hand_over):
    file = rack()
    stock = {"shape": "square bar", "width": 12, "material": "S235"}
    same = ["Rail", "rail", "RAIL", "räil", "r.il", 60 * "y" + "a", 60 * "y" + "b"]
    for number, name in enumerate(same):
        file["stock"][name] = stock
        file["joints"][f"end {number}"] = [-100, 0, 50 * number]
        file["tubes"][f"extra {number}"] = {"through": ["A0", f"end {number}"], "stock": name}
    drawing = read(hand_over(file, "rack.dxf"))
    lines = of_kind(drawing, "LINE")[-len(same) :]
    names = [line.dxf.layer for line in lines]
    assert names == [
        "TUBE_RAIL", "TUBE_RAIL_2", "TUBE_RAIL_3", "TUBE_R_IL", "TUBE_R_IL_2",
        "TUBE_" + 26 * "Y", "TUBE_" + 24 * "Y" + "_2",
    ]


def test_joints_are_points_with_names(hand_over):
    file = rack()
    drawing = read(hand_over(file, "rack.dxf"))
    points = of_kind(drawing, "POINT", "JOINTS")
    texts = iter(of_kind(drawing, "TEXT", "JOINT_NAMES"))
    lines_of_long = 0
    for point, (name, place) in zip(points, file["joints"].items(), strict=True):
        text = next(texts)
        assert near(point.dxf.location, place) and near(text.dxf.insert, place)
        said = text_of(text)
        while len(said) < len(name):  # goes on below
            text = next(texts)
            x, y, z = text.dxf.insert
            assert (x, z) == (place[0], place[2]) and y < place[1]
            said += text_of(text)
            lines_of_long += 1
        assert said == name
    assert lines_of_long == 1 and next(texts, None) is None
    for name in (MARKUP, RIGHT_TO_LEFT, LONG, FORMULA, DRAWING):
        assert name in file["joints"]


def test_names_make_no_codes_of_their_own(hand_over):
    path = hand_over(rack(), "rack.dxf")
    lines = path.read_bytes().decode("ascii").split("\r\n")
    assert lines[-1] == "" and len(lines) % 2 == 1
    codes = lines[0:-1:2]
    assert all(code.strip().isdigit() for code in codes)
    values = lines[1::2]
    assert not any("%%" in value or "^" in value for value in values)
    assert max(map(len, values)) <= 255
    assert r"\U+0025%d \U+005CU+0041 \U+005EJ {\U+005CC1;x} \U+D83D\U+DEE0" in values
    # The comments say which layer stands for what.
    assert "TUBE_VALUES: values" in [v for c, v in zip(codes, values) if c == "999"]


@pytest.mark.parametrize("thread, diameter", [("M5", 5.5), ("M6", 6.6), ("M8", 9.0)])
def test_plate_reaches_two_hole_diameters_beyond_its_joints(hand_over, thread, diameter):
    drawing = read(hand_over(plate(screws(thread)), "plate.dxf"))
    e = 2 * diameter
    area, length = area_and_length(outline_of(drawing))
    assert area == pytest.approx(300 * 200 + 2 * e * 500 + math.pi * e * e, rel=1e-12)
    assert length == pytest.approx(2 * 500 + 2 * math.pi * e, rel=1e-12)
    corners = outline_of(drawing)
    assert min(c[0] for c in corners) == pytest.approx(-e, abs=NEAR)
    assert max(c[1] for c in corners) == pytest.approx(200 + e, abs=NEAR)
    holes = of_kind(drawing, "CIRCLE", "HOLES_LID")
    assert sorted(tuple(map(round, h.dxf.center)) for h in holes) == [
        (0, 0, 0), (0, 200, 0), (300, 0, 0), (300, 200, 0),
    ]
    assert all(2 * hole.dxf.radius == pytest.approx(diameter, rel=1e-12) for hole in holes)


def test_edge_as_said_as_checked_and_by_screws(hand_over):
    for deck, e in [
        ({"edge": 25, **screws()}, 25),
        ({"edge": "1 in"}, 25.4),
        (screws(plate={"thickness": 3, "edge": 15}), 15),
        (screws(plate={"thickness": 3, "edge": 15, "side": 18}), 18),
        (screws(plate={"thickness": 3, "hole": 9}), 18),
    ]:
        drawing = read(hand_over(plate(deck), "plate.dxf"))
        area, _ = area_and_length(outline_of(drawing))
        assert area == pytest.approx(300 * 200 + 2 * e * 500 + math.pi * e * e, rel=1e-12)


def test_plates_on_one_joint_two_and_a_row(hand_over):
    one = {"A": [10, 20, 0]}
    two = {"A": [0, 0, 0], "B": [30, 40, 0]}
    row = {"A": [0, 0, 0], "B": [15, 20, 0], "C": [30, 40, 0]}
    for joints, area in [
        (one, math.pi * 15**2),
        (two, 50 * 30 + math.pi * 15**2),
        (row, 50 * 30 + math.pi * 15**2),
    ]:
        drawing = read(hand_over(plate({"edge": 15}, joints), "plate.dxf"))
        assert area_and_length(outline_of(drawing))[0] == pytest.approx(area, rel=1e-12)


def test_joints_inside_make_no_corner(hand_over):
    joints = {"A": [0, 0, 0], "E": [100, 100, 0], "B": [300, 0, 0], "F": [150, 0, 0], "C": [0, 400, 0]}
    drawing = read(hand_over(plate({"edge": 10, **screws()}, joints), "plate.dxf"))
    corners = outline_of(drawing)
    assert len(corners) == 6 and len(of_kind(drawing, "CIRCLE")) == 5
    assert sum(4 * math.atan(c[2]) for c in corners) == pytest.approx(2 * math.pi, rel=1e-12)
    # Triangle 300, 400, 500 with a right angle.
    assert area_and_length(corners)[0] == pytest.approx(60000 + 10 * 1200 + math.pi * 100, rel=1e-12)


def test_given_outline_either_way_round(hand_over):
    corners = [[-30, -30], [330, -30], [330, 240], [150, 210], [-30, 240]]
    for given in (corners, corners[::-1]):
        drawing = read(hand_over(plate({"outline": given, **screws()}), "plate.dxf"))
        found = outline_of(drawing)
        assert all(bulge == 0 for _, _, bulge in found)
        places = [(round(x, 9), round(y, 9)) for x, y, _ in found]
        start = places.index((-30, -30))
        assert places[start:] + places[:start] == [tuple(corner) for corner in corners]
        # 360 x 270 less the notch.
        assert area_and_length(found)[0] == pytest.approx(360 * 270 - 360 * 30 / 2, rel=1e-12)


def test_a_pattern_of_screws_at_each_joint(hand_over):
    deck = {"edge": 14, **screws("M5", pattern=[[-10, 0], [10, 4]])}
    drawing = read(hand_over(plate(deck), "plate.dxf"))
    holes = {(round(h.dxf.center.x, 6), round(h.dxf.center.y, 6)) for h in of_kind(drawing, "CIRCLE")}
    joints = [(0, 0), (300, 0), (300, 200), (0, 200)]
    assert holes == {(x + u, y + v) for x, y in joints for u, v in ((-10, 0), (10, 4))}
    # The plate reaches 14 mm beyond the holes, not the joints.
    assert min(c[0] for c in outline_of(drawing)) == pytest.approx(-24, abs=NEAR)


@pytest.mark.parametrize("to", [[110, 60], [60, 110], [20, 20], [95, 95]])
def test_slots_are_two_lines_and_two_arcs_that_meet(hand_over, to):
    slots = [{"from": [60, 60], "to": to, "width": 8}]
    drawing = read(hand_over(plate({**screws(), "slots": slots}), "plate.dxf"))
    lines, arcs = of_kind(drawing, "LINE", "SLOTS_LID"), of_kind(drawing, "ARC", "SLOTS_LID")
    assert len(lines) == len(arcs) == 2
    ends = [tuple(p) for line in lines for p in (line.dxf.start, line.dxf.end)]
    tips = [tuple(p) for arc in arcs for p in (arc.start_point, arc.end_point)]
    for tip in tips:
        assert sum(math.dist(tip, end) < 1e-9 for end in ends) == 1
    for arc, middle in zip(arcs, ([60, 60], to)):
        assert near(arc.dxf.center, [*middle, 0]) and arc.dxf.radius == pytest.approx(4, rel=1e-12)
        assert (arc.dxf.end_angle - arc.dxf.start_angle) % 360 == pytest.approx(180, abs=1e-9)
        # The round end bulges away from the other one.
        turn = math.radians(arc.dxf.start_angle + 90)
        other = to if middle == [60, 60] else [60, 60]
        away = [a - b for a, b in zip(middle, other)]
        assert math.cos(turn) * away[0] + math.sin(turn) * away[1] > 0.99 * math.hypot(*away)


def test_plates_lie_flat_beside_the_frame_in_space(hand_over):
    drawing = read(hand_over(plate(screws()), "plate.dxf"))
    (line,) = of_kind(drawing, "POLYLINE")
    assert all(v.dxf.location.z == 0 for v in line.vertices)
    assert {round(line.dxf.start.z, 9) for line in of_kind(drawing, "LINE", "TUBE_BAR")} == {5.0}


def test_decks_that_cannot_be_cut_are_named(write, tmp_path):
    file = plate(screws(), {"A": [0, 0, 0], "B": [300, 0, 30]})
    file["decks"][LONG_OF_DECKS] = {"on": ["A"]}
    file["decks"][RIGHT_TO_LEFT] = {"on": ["B"], **screws()}
    call = run("export", write(file), "-o", tmp_path / "x.dxf")
    assert (call.status, call.err) == (0, "")
    assert call.out.startswith(f"{tmp_path}/x.dxf is written.\n")
    said = " ".join(call.out.split())
    assert (
        "No plate is drawn: deck lid: it is not level: B stands 30 mm above A; put its joints at one "
        "height; a plate is laid out flat, seen from above." in said
    )
    assert f"{LONG_OF_DECKS}: nothing tells how far its plate reaches beyond its joints" in said
    call = run("export", write(file), "-o", tmp_path / "x.dxf", "--json")
    answer = json.loads(call.out)
    assert answer["written"] == f"{tmp_path}/x.dxf"
    assert [text.split(":")[0] for text in answer["left out"]] == ["deck lid", f"deck {LONG_OF_DECKS}"]
    drawing = read(tmp_path / "x.dxf")
    assert len(of_kind(drawing, "POLYLINE")) == 1
    assert [text_of(text) for text in of_kind(drawing, "TEXT", "PLATE_NAMES")] == [RIGHT_TO_LEFT]
    text = (tmp_path / "x.dxf").read_text(encoding="ascii")
    assert "No plate is drawn for deck lid: it is not level: B stands 30 mm above A" in text


def test_a_frame_that_swings_is_drawn_all_the_same(hand_over, write, tmp_path):
    file = plate({"edge": 10})
    file["mounts"]["end"] = {"hold": "position"}
    assert len(of_kind(read(hand_over(file, "swings.dxf")), "LINE")) == 4
    call = run("export", write(file), "-o", tmp_path / "swings.vtu")
    assert call.status == 3 and "free" in call.err
    assert not (tmp_path / "swings.vtu").exists()
