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
