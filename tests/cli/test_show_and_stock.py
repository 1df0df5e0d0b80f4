"""trivet show and trivet stock: what was understood, what is built in."""

import pytest
from conftest import bracket, run


def test_show_resolves_sizes_and_weights(write):
    call = run("show", write(bracket(more="let:\n  arm length: 2 * 400 mm\n").replace("arm length", "reach")))
    assert (call.status, call.err) == (0, "")
    words = call.out.split()
    for number in ("400", "13333", "800", "2.512"):  # A = 20^2, I = 20^4/12, L, 0.8 m of 3.14 kg/m
        assert number in words, number
    assert "reach" in words
    for heading in ("Stock", "Section values", "Materials", "Joints", "Tubes", "Spans", "Mounts", "Cases", "Limits"):
        assert heading in call.out
    assert "100 N down on B" in call.out


def test_show_as_json(starter):
    call = run("show", starter, "--json")
    assert call.status == 0
    assert call.json["name"] == "My rack"
    assert call.json["mass"] == pytest.approx(1.265, rel=1e-3)


def test_a_frame_that_cannot_be_worked_out_is_still_shown(write):
    call = run("show", write(bracket(hold="position")))
    assert call.status == 0
    assert "It cannot be worked out as it stands" in call.out
    assert "Joints" in call.out and "Spans" not in call.out


def test_stock_lists_gauges_and_materials():
    call = run("stock")
    assert (call.status, call.err) == (0, "")
    # 16 BWG is 0.065 in, 16 MSG 0.0598 in (any table of gauges).
    row = next(line for line in call.out.splitlines() if line.split()[:1] == ["16"])
    assert "1.651 mm" in row and "0.065" in row and "0.0598" in row
    assert "E235" in call.out and "6061-T6" in call.out


@pytest.mark.parametrize("name", ["E235", "e235", "6061-T6", "6061-t6"])
def test_stock_shows_one_material_with_its_source(name):
    call = run("stock", name)
    assert (call.status, call.err) == (0, "")
    assert "yield" in call.out and "source:" in call.out


def test_stock_tells_a_gauge():
    assert run("stock", "16 ga BWG").out == "16 ga BWG is 1.651 mm\n"
    call = run("stock", "16 ga")
    assert (call.status, call.out) == (2, "")
    assert "BWG" in call.err and "MSG" in call.err


def test_stock_offers_the_nearest_name():
    call = run("stock", "E23")
    assert (call.status, call.out) == (2, "")
    assert 'did you mean "E235"' in call.err


def test_stock_lists_threads_and_grades():
    call = run("stock")
    assert (call.status, call.err) == (0, "")
    rows = {line.split()[0]: line.split() for line in call.out.splitlines() if line.split()}
    # A workshop's table: pitch, tapping drill, clearance hole, across the flats; mm^2 of ISO 898-1.
    assert [float(cell) for cell in rows["M6"][1:5]] == [1.0, 5.0, 6.6, 10.0]
    assert float(rows["M8"][5]) == pytest.approx(36.6, abs=0.05)
    # ISO 898-1: proof, yield, tensile strength of 10.9.
    assert [float(cell) for cell in rows["10.9"][1:4]] == [830.0, 940.0, 1040.0]
    for name in ("1/4-20 UNC", "M8x1", "A2-70", "grade 5"):
        assert name in call.out, name


def values(out):
    """The lines "  what    1.5   mm  0.06 in" by what: "1.5 mm 0.06 in"."""
    lines = [line.strip().partition("  ") for line in out.splitlines() if line.startswith("  ")]
    return {what: " ".join(rest.split()) for what, _, rest in lines if rest}


@pytest.mark.parametrize("name", ["M6", "m6", "M6 x 1"])
def test_stock_shows_one_thread(name):
    call = run("stock", name)
    assert (call.status, call.err) == (0, "")
    rows = values(call.out)
    assert rows["pitch, one turn"] == "1 mm"
    assert rows["drill before tapping"] == "5 mm"
    assert rows["clearance hole"] == "6.6 mm"
    assert rows["stress area"] == "20.12 mm^2"
    # ISO 898-1: proof load of M6 in 8.8 is 11600 N, rounded; breaking load 16100 N.
    proof, _, breaks, _ = rows["8.8"].split()
    assert float(proof) == pytest.approx(11600, rel=0.01)
    assert float(breaks) == pytest.approx(16100, rel=0.01)
    assert "grade 5" not in rows and "source:" in call.out


def test_stock_shows_an_inch_thread_in_both_units():
    rows = values(run("stock", "1/4-20").out)
    assert rows["outside diameter"] == "6.35 mm 0.25 in"
    # SAE J429: grade 5 of 85 ksi on 0.0318 in^2.
    assert float(rows["grade 5"].split()[2]) == pytest.approx(85000 * 0.0318, rel=0.002)
    assert "8.8" not in rows


@pytest.mark.parametrize("name, strength", [
    ("8.8", "800 N/mm^2"),
    ("a2-70", "700 N/mm^2"),
    ("Grade 5", "827.4 N/mm^2"),
])
def test_stock_shows_one_grade_with_its_source(name, strength):
    call = run("stock", name)
    assert (call.status, call.err) == (0, "")
    assert values(call.out)["tensile strength"] == strength
    assert "source:" in call.out


@pytest.mark.parametrize("name, nearest", [
    ("M7", "M6"),
    ("1/4-24", "1/4-20 UNC"),
    ("8.9", "8.8"),
    ("grade 6", "grade 2"),
])
def test_stock_offers_the_nearest_thread_or_grade(name, nearest):
    call = run("stock", name)
    assert (call.status, call.out) == (2, "")
    assert f'did you mean "{nearest}"' in call.err
    assert run("stock", name, "--json").status == 2


def test_a_name_that_is_near_nothing_points_at_the_list():
    call = run("stock", "chewing gum")
    assert (call.status, call.out) == (2, "")
    assert "nothing built in has this name" in call.err and "trivet stock" in call.err


def test_threads_and_grades_as_json():
    every = run("stock", "--json").json
    m6 = next(thread for thread in every["threads"] if thread["name"] == "M6")
    assert m6["pitch"] == 0.001
    assert m6["stress_area"] == pytest.approx(20.1e-6, abs=0.05e-6)
    one = run("stock", "8.8", "--json").json
    assert (one["materials"], one["threads"], len(one["grades"])) == ([], [], 1)
    assert one["grades"][0]["tensile"] == 800e6
    assert run("stock", "M8 x 1", "--json").json["threads"][0]["name"] == "M8x1"


def test_stock_as_json():
    call = run("stock", "--json")
    assert call.status == 0
    assert call.json["gauges"]["BWG"]["16"] == pytest.approx(0.065 * 0.0254, rel=1e-12)
    one = run("stock", "E235", "--json")
    assert one.status == 0
    assert "235000000" in one.out
    bad = run("stock", "E23", "--json")
    assert bad.status == 2 and "error" in bad.json


INSERT = """\
trivet: 1
stock:
  rail: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235}
  plug: {shape: square bar, width: %s, material: S235}
joints: {A: [0, 0, 0], B: [400, 0, 0]}
tubes: {arm: {through: [A, B], stock: rail, inserts: [{at: A, length: 40 mm, stock: plug}]}}
mounts: {A: {hold: all}}
cases: {parked: {gravity: [0, 0, -1]}}
"""


@pytest.mark.parametrize("width, words, in_check", [
    ("14 mm", "slides in with 2 mm to spare", False),
    ("17 mm", "does not slide in", True),
])
def test_inserts_are_shown_and_those_that_do_not_fit_are_told(tmp_path, width, words, in_check):
    """The tube leaves 20 - 2 x 2 = 16 mm, its inside corners are round by 2 mm."""
    file = tmp_path / "insert.yaml"
    file.write_text(INSERT % width, encoding="utf-8")
    assert words in run("show", file).out
    assert (words in run("check", file).out) == in_check


def test_stock_lists_fillers():
    call = run("stock")
    assert (call.status, call.err) == (0, "")
    heading = call.out.index("Fillers")
    rows = {line.split()[0]: line.split() for line in call.out[heading:].splitlines() if line.split()}
    # AWS A5.18: ER70S-6 has at least 400 and 480 MPa; E70: 70 ksi of 6.894757 MPa.
    assert [float(cell) for cell in rows["ER70S-6"][1:3]] == [400.0, 480.0]
    assert float(rows["E70"][2]) == pytest.approx(70 * 6.894757, abs=0.05)
    assert rows["ER308L"][1] == "-"  # its yield is not known


@pytest.mark.parametrize("name", ["ER70S-6", "er70s-6"])
def test_stock_shows_one_filler_with_its_source(name):
    call = run("stock", name)
    assert (call.status, call.err) == (0, "")
    assert values(call.out) == {"yield": "400 N/mm^2", "tensile strength": "480 N/mm^2"}
    assert "source: AWS A5.18" in call.out


def test_fillers_as_json():
    one = run("stock", "ER70S-6", "--json").json
    assert (one["materials"], one["threads"], one["grades"]) == ([], [], [])
    assert [(filler["name"], filler["tensile"]) for filler in one["fillers"]] == [("ER70S-6", 480e6)]
    every = run("stock", "--json").json["fillers"]
    assert len(every) == 11
    assert next(filler for filler in every if filler["name"] == "ER308L")["yield"] is None
    bad = run("stock", "ER70S-7")
    assert (bad.status, bad.out) == (2, "") and 'did you mean "ER70S-' in bad.err


JOINS = """\
trivet: 1
stock:
  rail: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235}
  plug: {shape: square bar, width: 15 mm, material: S235}
joints: {A: [0, 0, 0], M: [150, 0, 0], B: [300, 0, 0], C: [300, 200, 0]}
tubes:
  arm: {through: [A, M, B], stock: rail, ends: {A: {weld: none}}}
  cross: {through: [B, C], stock: rail, weld: {spots: 4, spot diameter: 6 mm},
          ends: {B: {bolts: {thread: M5, grade: A2-70}}}}
weld: {throat: 1.5 mm, run: 60 %, sides: [top, bottom]}
mounts:
  A: {hold: all, bolts: {thread: M6, grade: 8.8, pattern: [[-20, 0], [20, 0]], into: plug,
      engagement: 12 mm, torque: 9 N*m, plate: {thickness: 4 mm, edge: 15 mm}}}
decks:
  lid: {on: [B, C], mass: 2 kg, screws: {thread: M5, grade: 8.8, head: countersunk, into: wall,
        spacer: {of: plastic, height: 20 mm}}}
cases: {parked: {gravity: [0, 0, -1]}, pothole: {gravity: [0, 0, -3]}}
combine: {worst: {pothole: 1.2}}
cycles: {road: {from: parked, to: worst, to factor: 2, count: 5000}, jolts: {to: pothole}}
limits: {loads: 1.35, bolt rule: AISC, weld rule: simplified, crack: 1.15, rack rating: 12 kg}
"""


def test_show_tells_what_holds_the_parts_together(write):
    call = run("show", write(JOINS))
    assert (call.status, call.err) == (0, "")
    text = " ".join(call.out.split())  # long lines are folded
    for words in (
        "cross at B 1 x M5 A2-70 hexagon, with a nut",
        "mount A 2 x M6 8.8 hexagon, tapped 12 mm into plug, plate 4 mm, 9 N*m",
        "lid at B 1 x M5 8.8 countersunk, cut into the wall of rail, on plastic spacers of 20 mm",
        "lid at C 1 x M5",
        "arm A not welded B fillet top, bottom, 60 % of its length, throat 1.5 mm",
        "cross B 4 spots of 6 mm C 4 spots of 6 mm",
        "lid B, C",
        "lid 2 kg 300 mm 100 mm 0 mm",  # the deck's own weight, in the middle of B and C
        "road from parked to 2 x worst, 5000 times",
        "jolts from unloaded to pothole",
        "factor on loads, for bolts, threads, welds and walls: 1.35",
        "factor on stress that comes and goes: 1.15",
        "bolts after AISC 360, welds after EN 1993-1-8, simplified",
        "rating of the vehicle's rack: 12 kg",
    ):
        assert words in text, words
    for heading in ("Bolts and screws", "Welds", "Decks", "Loads that come and go"):
        assert heading in call.out


def test_show_leaves_out_what_a_file_has_none_of(write):
    out = run("show", write(bracket())).out
    for heading in ("Bolts and screws", "Decks", "Loads that come and go"):
        assert heading not in out
    assert "Welds" in out and out.count("not said") >= 2  # what is not said of a weld matters


def test_what_holds_the_parts_together_as_json(write):
    shown = run("show", write(JOINS), "--json").json
    cross, mount, at_b, at_c = shown["bolts"]
    assert (cross["tube"], cross["joint"], cross["thread"]) == ("cross", "B", "M5")
    assert (mount["mount"], mount["grade"], mount["count"]) == ("A", "8.8", 2)
    assert [mount[key] for key in ("engagement", "torque", "plate", "edge")] == [
        pytest.approx(number, rel=1e-12) for number in (0.012, 9.0, 0.004, 0.015)
    ]
    assert (mount["nut factor"], mount["scatter"], mount["friction"]) == (0.2, 0.25, 0.2)
    assert mount["hole"] is None
    assert [(screw["deck"], screw["joint"]) for screw in (at_b, at_c)] == [("lid", "B"), ("lid", "C")]
    assert at_b["spacer height"] == pytest.approx(0.02, rel=1e-12)
    assert at_b["engagement"] == pytest.approx(0.002, rel=1e-12)  # the wall of the rail
    welds = {(weld["tube"], weld["joint"]): weld for weld in shown["welds"]}
    assert welds["arm", "A"]["text"] == "not welded"
    assert welds["arm", "B"]["throat"] == pytest.approx(0.0015, rel=1e-12)
    assert welds["arm", "B"]["run"] == pytest.approx(0.6, rel=1e-12)
    assert welds["cross", "C"]["text"] == "4 spots of 6 mm"
    assert shown["decks"] == {"lid": ["B", "C"]}
    road = {"from": "parked", "to": "worst", "from factor": 1.0, "to factor": 2.0, "count": 5000.0}
    assert shown["cycles"]["road"] == road
    assert shown["cycles"]["jolts"]["from"] is None
    limits = shown["limits"]
    assert (limits["loads"], limits["crack"], limits["rack rating"]) == (1.35, 1.15, 12.0)


PLATES = """
decks:
  lid: {on: [A, B], outline: [[-20, -20], [820, -20], [820, 30]],
        slots: [{from: [700, 0], to: [740, 0], width: 6}]}
  tray: {on: [A, B], edge: 3/4 in}
  plain: {on: [B]}
"""


def test_show_says_how_plates_are_cut(write):
    path = write(bracket() + PLATES)
    words = " ".join(run("show", path).out.split())
    assert (
        "Plates plate of outline slots lid 3 corners 1 tray 19.05 mm beyond joints and holes 0 Cases"
        in words
    )
    shown = run("show", path, "--json").json["plates"]
    lid = shown["lid"]
    assert lid["edge"] is None
    numbers = [x for corner in lid["outline"] for x in corner]
    assert numbers == pytest.approx([-0.02, -0.02, 0.82, -0.02, 0.82, 0.03], rel=1e-14)
    (slot,) = lid["slots"]
    numbers = [*slot["from"], *slot["to"], slot["width"]]
    assert numbers == pytest.approx([0.7, 0.0, 0.74, 0.0, 0.006], rel=1e-14)
    assert shown["tray"]["edge"] == pytest.approx(0.01905, rel=1e-14)
    assert shown["plain"] == {"outline": [], "edge": None, "slots": []}
