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
