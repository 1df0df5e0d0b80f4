"""The workshop on the page: the same numbers as trivet cut --json, saddles at full size."""

import json
import math
import re
import xml.etree.ElementTree as ElementTree

import numpy as np
import pytest
from conftest import DESIGNS, EXAMPLES, NASTY, SHELF, WORKSHOP, page, run
from page_reader import cells, plain, read

FILES = [*EXAMPLES, *DESIGNS, NASTY, WORKSHOP]
# SI of one unit; inch, pound: NIST SP 811, exact by definition.
UNITS = {"mm": 1e-3, "cm": 1e-2, "in": 0.0254, "kg": 1.0, "lb": 0.45359237, "deg": math.pi / 180.0,
         "mm^2": 1e-6, "cm^2": 1e-4, "in^2": 0.0254**2, "m^2": 1.0, "": 1.0}


@pytest.fixture(params=FILES, ids=[path.stem for path in FILES], scope="module")
def pair(request):
    """A file's page and its cut list."""
    return read(request.param), json.loads(run("cut", request.param, "--json")[1])


def same(cell, value, least=0.0):
    """A cell is the SI value, as far as its digits go; least: what it was rounded to before, SI."""
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return cell == "-"
    number, _, unit = cell.partition(" ")
    digits = len(number.partition(".")[2])
    return abs(float(number) * UNITS[unit] - value) <= (
        0.5 * 10.0**-digits * UNITS[unit] * (1.0 + 1e-9) + 0.5 * least + 1e-12)


def rows(reader, section, columns):
    return [row for row in cells(reader, section) if len(row) == columns][1:]


def test_pieces(pair):
    reader, cut = pair
    shown = rows(reader, "cut", 6)
    assert len(shown) == len(cut["pieces"])
    for row, piece in zip(shown, cut["pieces"]):
        assert row[:3] == [str(piece["number"]), plain(piece["name"]), plain(piece["stock"])]
        for cell, key in zip(row[3:], ("long", "short", "centre")):
            assert same(cell, piece[key]), (row, key)


def test_saw_settings(pair):
    reader, cut = pair
    shown = iter(rows(reader, "saw", 6))
    for piece in cut["pieces"]:
        if piece["kind"] == "insert":
            continue
        for number, end in enumerate(piece["ends"]):
            row = next(shown)
            assert row[:2] == [str(piece["number"]), plain(end["joint"])]
            assert same(row[2], end["angle"])
            side = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}.get(row[3])
            if end["towards"] is None:
                assert row[3] == "-"
            else:
                said = float(row[3].split()[0]) if side is None else side
                assert math.cos(math.radians(said) - end["towards"]) == pytest.approx(1.0, abs=1e-5)
            assert row[4] == "" if number == 0 else same(row[4], piece["turn"])
            assert row[5].startswith(end["cut"]) and row[5].endswith(plain(end["onto"] or end["cut"]))
    assert next(shown, None) is None


def test_saddle_depths(pair):
    reader, cut = pair
    saddles = [(piece, end) for piece in cut["pieces"] for end in piece["ends"] if "saddle" in end]
    shown = rows(reader, "saddles", 8)
    if not saddles:
        assert "saddles" not in reader.sections
        return
    shown = [row for row in cells(reader, "saddles") if row[0] != "round"]
    assert len(shown) == 9 * len(saddles)
    words = plain(reader.sections["saddles"])
    for number, (piece, end) in enumerate(saddles):
        assert f"{piece['number']} {plain(piece['name'])} at {plain(end['joint'])}" in words
        assert end["saddle"]["template"] in words
        for i, row in enumerate(shown[9 * number : 9 * number + 9]):
            for k in range(4):
                at = i + 9 * k
                assert same(row[2 * k], end["saddle"]["round"][at])
                assert same(row[2 * k + 1], end["saddle"]["depth"][at], 1e-5), (row, at)


def test_bends_holes_and_small_parts(pair):
    reader, cut = pair
    bends = [(piece, bend) for piece in cut["pieces"] for bend in piece["bends"]]
    shown = rows(reader, "bends", 6)
    assert len(shown) == len(bends)
    for row, (piece, bend) in zip(shown, bends):
        assert row[:2] == [str(piece["number"]), plain(bend["joint"])]
        for cell, key in zip(row[2:], ("angle", "turn", "from", "to")):
            assert same(cell, bend[key])
    shown = rows(reader, "holes", 8)
    assert len(shown) == len(cut["holes"])
    for row, hole in zip(shown, cut["holes"]):
        assert row[0] == (str(hole["piece"]) if hole["piece"] else "-")
        assert row[7].split(", for the bolts of ")[1].startswith(plain(hole["bolts of"]))
        if hole["piece"]:
            assert same(row[2], hole["at"]) and same(row[3], hole["at from long point"])
            assert same(row[4], hole["side"])
        assert row[6] == "see maker" if hole["diameter"] is None else same(row[6], hole["diameter"])
    shown = rows(reader, "parts", 2)
    assert [row[0] for row in shown] == [str(part["count"]) for part in cut["parts"]]
    for row, part in zip(shown, cut["parts"]):
        # Sizes of sleeves and spacers are in the file's unit on the page, in mm in JSON.
        assert row[1].split(" ")[0] == part["part"].split(" ")[0]


def test_bars_and_their_layout(pair):
    reader, cut = pair
    shown = rows(reader, "bars", 5)
    assert len(shown) == len(cut["bars"])
    pieces = {piece["number"]: piece for piece in cut["pieces"]}
    for row, bar in zip(shown, cut["bars"]):
        assert row[:2] == [str(bar["number"]), plain(bar["stock"])]
        assert same(row[2], bar["length"]) and same(row[3], bar["rest"])
        assert row[4].startswith("at hand: ") is not bar["bought"]
        told = re.findall(r"no (\d+) \(([^)]*)\)", row[4])
        assert [int(number) for number, _ in told] == bar["pieces"]
        assert all(same(length, pieces[int(number)]["long"]) for number, length in told)


def test_what_to_buy_and_sums(pair):
    reader, cut = pair
    shown = rows(reader, "buy", 7)
    assert len(shown) == len(cut["stocks"])
    for row, stock in zip(shown, cut["stocks"]):
        assert row[:2] == [plain(stock["stock"]), str(stock["bought"])]
        assert same(row[2], stock["bought length"]) and same(row[3], stock["bought mass"])
        assert row[4] == ("-" if stock["price"] is None else f"{stock['price']:.2f}")
        assert same(row[5], stock["rest"])
    sums = dict(rows(reader, "sums", 2))
    totals = cut["totals"]
    for name, key in (("all pieces weigh", "mass"), ("bars to buy weigh", "bought mass"),
                      ("to paint, outside, without ends", "paint area"), ("that is", "paint area"),
                      ("fillet welds", "weld length"), ("metal in them", "weld metal"),
                      ("wire to buy for them, or", "wire"),
                      ("electrodes to buy for them", "electrodes")):
        assert same(sums[name], totals[key]), (name, sums[name], totals[key])
    assert sums.get("bars to buy cost") == (
        None if totals["price"] is None else f"{totals['price']:.2f}")
    words = plain(reader.sections["cut-rules"]) + plain(reader.sections["by-hand"])
    for line in cut["rules"] + cut["notes"]:
        assert plain(line) in words


def test_bars_are_drawn_to_scale(pair):
    """184 mm of paper, less half a millimetre each side, stand for the longest bar."""
    reader, cut = pair
    scale = 183.0 / max(bar["length"] for bar in cut["bars"])
    pieces = {piece["number"]: piece for piece in cut["pieces"]}
    drawn = re.findall(r"<svg [^>]*class='bar' [^>]*aria-label='Bar .*?</svg>", reader.page)
    assert len(drawn) == min(len(cut["bars"]), 40)
    for text, bar in zip(drawn, cut["bars"]):
        svg = ElementTree.fromstring(text)
        rects = [one.attrib for one in svg.iter("{http://www.w3.org/2000/svg}rect")]
        assert float(rects[0]["width"]) == pytest.approx(scale * bar["length"], abs=2e-3)
        at = 0.5
        for rect, number in zip(rects[1:], bar["pieces"], strict=True):
            assert float(rect["x"]) == pytest.approx(at, abs=2e-3)
            assert float(rect["width"]) == pytest.approx(scale * pieces[number]["long"], abs=2e-3)
            at += scale * (pieces[number]["long"] + cut["shop"]["kerf"])


CROSSING = """\
trivet: 1
stock:
  chord: {shape: round tube, diameter: 60 mm, wall: 3 mm, material: S235}
  brace: {shape: round tube, diameter: DIAMETER mm, wall: 2 mm, material: S235}
joints: {A: [0, -400, 0], O: [0, 0, 0], B: [0, 400, 0], T: [0, ACROSS, 300]}
tubes:
  chord: {through: [A, O, B], stock: chord}
  brace: {through: [T, O], stock: brace}
mounts: {A: {hold: all}, B: {hold: all}}
cases: {parked: {gravity: [0, 0, -1]}}
"""


def reach_of_two_cylinders(diameter, across, rounds):
    """How far the outside of the brace reaches at each angle round it, mm along it from T.

    The chord is the cylinder x^2 + z^2 = R^2. A line of the brace's outside is p + t u, with u the way
    from T to O and p = T + r (cos f k - sin f j): k the brace's top, square to u (upwards; forward if
    the brace stands upright), j = k x u. Put in: a t^2 + 2 b t + c = 0 with the sums over x and z
    alone a = u.u, b = p.u, c = p.p - R^2; the brace ends at the first of the two."""
    r, big = diameter / 2.0, 30.0
    start = np.array([0.0, across, 300.0])
    u = -start / np.linalg.norm(start)
    k = np.array([1.0, 0.0, 0.0]) if across == 0 else np.array([0.0, 0.0, 1.0]) - u[2] * u
    k /= np.linalg.norm(k)
    j = np.cross(k, u)
    p = start + r * (np.cos(rounds)[:, None] * k - np.sin(rounds)[:, None] * j)
    flat = np.array([1.0, 0.0, 1.0])
    a, b, c = (u * u) @ flat, (p * u) @ flat, (p * p) @ flat - big**2
    return (-b - np.sqrt(b * b - a * c)) / a


@pytest.mark.parametrize("diameter, across", [(40, 0), (40, 250), (25, -120), (50, 0)])
def test_template_is_the_curve_of_two_cylinders(write, diameter, across):
    """Unrolled over 2 pi r; 1 user unit is 1 mm of paper. At a last end angles grow to the right."""
    text = page(write(CROSSING.replace("DIAMETER", str(diameter)).replace("ACROSS", str(across))))
    found = re.search(r"<figure class='true' style='--wide:([\d.]+)mm'>(<svg .*?</svg>)", text, re.S)
    svg = ElementTree.fromstring(found.group(2))
    wide, high = svg.get("width"), svg.get("height")
    assert svg.get("viewBox") == f"0 0 {wide[:-2]} {high[:-2]}" and wide == found.group(1) + "mm"
    paths = [one.get("d") for one in svg.iter("{http://www.w3.org/2000/svg}path")]
    curve = next(d for d in paths if d.count(" ") > 100 and "V" not in d)
    points = np.array([float(n) for n in re.findall(r"-?[\d.]+", curve)]).reshape(-1, 2)
    left, top = (float(n) for n in re.match(r"M([\d.]+) ([\d.]+)V", next(d for d in paths if re.match(
        r"M[\d.]+ [\d.]+V[\d.]+$", d))).groups())
    share = np.linspace(0.0, 1.0, len(points))
    reach = reach_of_two_cylinders(diameter, across, 2.0 * math.pi * share)
    # Dense enough that the long point is met to less than what is printed.
    longest = reach_of_two_cylinders(diameter, across, np.linspace(0.0, 2.0 * math.pi, 200001)).max()
    # Two numbers, each printed to a thousandth of a millimetre.
    assert abs(points[:, 1] - top - (longest - reach)).max() <= 0.001 + 1e-6
    assert abs(points[:, 0] - left - share * math.pi * diameter).max() <= 0.001 + 1e-6
    # The line by which the scale is checked.
    assert [d for d in paths if re.fullmatch(r"M12 [\d.]+v4m0 -2h100m0 -2v4", d)]


def test_a_template_wider_than_paper_is_told(write):
    text = CROSSING.replace("60 mm", "114 mm").replace("DIAMETER", "76").replace("ACROSS", "100")
    found = page(write(text))
    assert "class='true'" not in found
    assert "larger than A4 and Letter print at full size" in found


def test_a_frame_that_cannot_be_cut_has_its_report_all_the_same(write):
    """Bars of 0.4 m hold no piece of half a metre: the page says so, as trivet cut does."""
    text = next(path for path in EXAMPLES if path.stem == "wall-bracket").read_text(encoding="utf-8")
    path = write(text + "\nshop: {bars: [0.1 m]}\n")
    status, _, err = run("cut", path)
    assert status == 2
    reader = read(path)
    told = plain(reader.sections["cut"])
    assert "There is no cut list: " in told
    problem = plain(err).partition(": ")[2].partition(": ")[2]
    assert problem.split("; ")[0] in told, (problem, told)
    assert "buy" not in reader.sections


def test_bars_that_are_not_named_are_said(pair):
    reader, _ = pair
    has_bars = "bars:" in "".join(reader.sections["file"])
    assert ("names no bars on offer" in plain(reader.sections["buy"])) is not has_bars


def test_plates_are_those_that_are_cut():
    reader = read(WORKSHOP)
    shown = rows(reader, "plates", 5)
    assert [row[:2] for row in shown] == [[str(i), "hole"] for i in range(1, 5)] + [
        ["1", "slot, middle of its first round end"], ["1", "slot, middle of its last round end"]]
    for row, place in zip(shown, ((-800, 250), (-800, -250), (-400, 250), (-400, -250), (-500, -100),
                                  (-700, -100))):
        assert row[2:4] == [f"{place[0]} mm", f"{place[1]} mm"]
    # ISO 273 medium for M6; corners 15 mm beyond holes 400 and 500 mm apart.
    assert [row[4] for row in shown] == ["6.6 mm"] * 4 + ["20 mm"] * 2
    assert "430 mm long (x) and 530 mm wide (y)" in plain(reader.sections["plates"])


def test_a_large_frame_keeps_its_page_readable():
    """A list of many pieces stays whole."""
    reader, cut = read(SHELF), json.loads(run("cut", SHELF, "--json")[1])
    assert len(rows(reader, "cut", 6)) == len(cut["pieces"]) > 70
