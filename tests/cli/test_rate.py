"""trivet rate: at the printed mass check holds, a thousandth above it fails."""

import re

import pytest
from conftest import HERE, run

EXAMPLES = HERE.parent.parent / "examples"

# An arm of 300 mm with two boxes at its tip; welds and cracking are left out.
ARM = """\
trivet: 1
name: Arm
units: {length: mm, mass: %(unit)s}
stock: {rail: {shape: square bar, width: 20, material: {E: 210 GPa, G: 81 GPa, density: 1e-6 kg/m^3, yield: 235 MPa}}}
joints: {A: [0, 0, 0], B: [300, 0, 0]}
tubes: {arm: {through: [A, B], stock: rail, weld: none}}
mounts: {A: {hold: all%(limit)s}}
cargo:
%(cargo)s
cases: {parked: {gravity: [0, 0, -1]}%(cases)s}
limits: {yield: 1.5%(limits)s}
"""
ONCE = "cycles: {once: {to: parked, count: 1}}\n"
BOX = "  %s: {mass: %s, centre: [300, 0, 0], on: [B]}\n"


def arm(cargo, limit="", limits="", cases="", unit="kg"):
    given = {"cargo": cargo, "limit": limit, "limits": limits, "cases": cases, "unit": unit}
    return ARM % given


def rates(path):
    call = run("rate", path, "--json")
    assert call.err == ""
    return call, {rate["cargo"]: rate for rate in call.json["rates"]}


def fails(path):
    """Whether any check of the file fails, without its hand calculations."""
    return any(
        check["utilisation"] is None or check["utilisation"] > 1
        for check in run("check", path, "--json").json["checks"]
    )


def printed(out, cargo, unit):
    found = re.search(rf"^  {re.escape(cargo)} +([0-9.]+) {unit} ", out, re.M)
    assert found, out
    return float(found[1])


def rewritten(text, find, mass):
    """The file with another mass in place of what find matches."""
    changed, count = re.subn(find, mass, text)
    assert count == 1
    return changed


EXAMPLE_CARGO = {
    "cool-box-carrier.yaml": ("cool box", "kg", r"items: \{box: 4.1 kg[^}]*\}"),
    "tank-rack.yaml": ("tank", "lb", r"items: \{tank: 9 lb[^}]*\}"),
}


@pytest.mark.parametrize("name", sorted(EXAMPLE_CARGO))
def test_the_printed_mass_is_the_most(write, name):
    cargo, unit, find = EXAMPLE_CARGO[name]
    text = (EXAMPLES / name).read_text(encoding="utf-8")
    call = run("rate", EXAMPLES / name)
    assert (call.status, call.err) == (0, "")
    mass = printed(call.out, cargo, unit)
    assert not fails(write(rewritten(text, find, f"mass: {mass!r} {unit}")))
    assert fails(write(rewritten(text, find, f"mass: {1.001 * mass!r} {unit}")))


def test_by_hand(write):
    # M = m g 300 mm, W = 20^3/6, 235/1.5 N/mm^2: m = 156.667 * 1333.33 / (300 * 9.80665) = 71.00 kg.
    # Shear is nothing at the top of a bar. Once only, so that it cannot crack first.
    path = write(arm(BOX % ("box", "10 kg")) + ONCE)
    most = 235 / 1.5 * 20**3 / 6 / (300 * 9.80665)
    call, found = rates(path)
    assert call.status == 0
    assert found["box"]["stops"][0]["check"] == "yield"
    assert found["box"]["mass"] == pytest.approx(most, rel=1e-4)
    assert found["box"]["given"] == 10
    assert found["box"]["factor"] == pytest.approx(found["box"]["mass"] / 10, rel=1e-12)


def test_the_mount_stops_it(write):
    # The mount takes 200 N of push: 200 / 9.80665 = 20.394 kg, and bending is far from its end.
    path = write(arm(BOX % ("box", "10 kg"), limit=", limit: {push: 200 N, moment: 70 N*m}"))
    call, found = rates(path)
    box = found["box"]
    assert box["holds"] is True and box["open"] is False
    assert box["mass"] == pytest.approx(200 / 9.80665, rel=2e-5)
    assert box["mass"] <= 200 / 9.80665
    assert [stop["check"] for stop in box["stops"]][:2] == ["mount push", "mount moment"]
    assert box["stops"][0]["utilisation"] == pytest.approx(1, abs=1e-4)
    assert box["stops"][1]["utilisation"] == pytest.approx(60 / 70, rel=1e-4)
    assert len(box["stops"]) == 3
    page = " ".join(run("rate", path).out.split())
    assert "box 20.39 kg 10 kg within it" in page
    assert "box at 20.39 kg stops it mount A is pushed with 200 of 200 N in parked" in page


def test_more_than_allowed_is_said(write):
    path = write(arm(BOX % ("box", "30 kg"), limit=", limit: {push: 200 N}"))
    call = run("rate", path)
    assert call.status == 1
    assert printed(call.out, "box", "kg") == 20.39
    assert "TOO MUCH" in call.out


def test_two_cargoes_and_both_together(write):
    # 10 and 5 kg share 200 N = 20.394 kg: 15.394 and 10.394 alone, 20.394 together.
    cargo = BOX % ("box", "10 kg") + BOX % ("bag", "5 kg")
    path = write(arm(cargo, limit=", limit: {push: 200 N}"))
    call, found = rates(path)
    most = 200 / 9.80665
    assert call.status == 0
    assert set(found) == {"box", "bag", None}
    assert found["box"]["mass"] == pytest.approx(most - 5, rel=2e-5)
    assert found["bag"]["mass"] == pytest.approx(most - 10, rel=2e-5)
    assert found[None]["mass"] == pytest.approx(most, rel=2e-5)
    assert found[None]["given"] == 15
    assert printed(run("rate", path).out, "all cargo together", "kg") == 20.39


def test_cargo_that_a_case_leaves_out_is_not_stopped(write):
    cargo = BOX % ("box", "10 kg") + BOX % ("bag", "5 kg")
    text = arm(cargo, limit=", limit: {push: 200 N}").replace(
        "gravity: [0, 0, -1]}", "gravity: [0, 0, -1], cargo: {bag: 0}}"
    )
    path = write(text + ONCE)
    call, found = rates(path)
    assert call.status == 0
    assert found["bag"]["open"] is True
    out = run("rate", path).out
    assert re.search(r"bag +endless +5 kg +nothing stops it", out)
    assert re.search(r"bag at [0-9.]+ kg, where the search ends\n  highest ", out)


def test_what_fails_whatever_it_weighs(write):
    case = ", pull: {forces: [{on: B, force: [0, 0, -300 N]}]}"
    path = write(arm(BOX % ("box", "10 kg"), limit=", limit: {push: 200 N}", cases=case))
    call, found = rates(path)
    assert call.status == 1
    box = found["box"]
    assert box["holds"] is False and box["mass"] == 0
    assert box["stops"][0]["check"] == "mount push" and box["stops"][0]["case"] == "pull"
    out = run("rate", path).out
    assert re.search(r"box +- +10 kg +fails whatever it weighs", out)
    assert "box at 10 kg, as in the file\n  fails " in out
    assert "is pushed with 300 of 200 N in pull" in " ".join(out.split())


def test_the_plate_of_a_deck_weighs_what_it_weighs(write):
    # 200 N = 20.394 kg, of which the plate has 4.
    text = arm(BOX % ("box", "10 kg"), limit=", limit: {push: 200 N}")
    text = text.replace("cargo:\n", "decks: {lid: {on: [B], mass: 4 kg}}\ncargo:\n")
    call, found = rates(write(text))
    assert call.status == 0
    assert set(found) == {"box"}
    assert found["box"]["mass"] == pytest.approx(200 / 9.80665 - 4, rel=2e-5)


def test_ballast_can_be_needed(write):
    # 300 N up with a mount that takes 150 N of pull and 200 N of push: from 15.3 kg to 51 kg.
    text = arm(
        BOX % ("box", "1 kg"), limit=", limit: {pull: 150 N, push: 200 N}"
    ).replace("gravity: [0, 0, -1]}", "gravity: [0, 0, -1], forces: [{on: B, force: [0, 0, 300 N]}]}")
    call, found = rates(write(text))
    assert call.status == 0  # it fails with 1 kg, but not because that is too much
    assert found["box"]["holds"] is True
    assert found["box"]["mass"] == pytest.approx(500 / 9.80665, rel=2e-5)


def test_pounds(write):
    path = write(arm(BOX % ("box", "20 lb"), limit=", limit: {push: 200 N}", unit="lb"))
    mass = printed(run("rate", path).out, "box", "lb")
    assert mass == pytest.approx(200 / 9.80665 / 0.45359237, abs=0.01)
    assert mass <= 200 / 9.80665 / 0.45359237


def test_a_file_without_cargo(write):
    text = arm("").replace("cargo:\n\n", "").replace(
        "gravity: [0, 0, -1]}", "forces: [{on: B, force: [0, 0, -100 N]}]}"
    )
    call = run("rate", write(text))
    assert call.status == 2
    assert "carries no cargo with mass; add cargo" in call.err


def test_the_factors_and_what_was_not_checked_are_said(write):
    out = " ".join(run("rate", write(arm(BOX % ("box", "10 kg")))).out.split())
    assert "yield strength over 1.5" in out
    assert "Not checked, so not in the number" in out and "Before you trust it" in out
    assert "safe" not in out.lower()


def test_the_page_fits_80_columns():
    for path in sorted(EXAMPLES.glob("*.yaml")):
        for line in run("rate", path).out.splitlines():
            assert len(line) <= 80, line
