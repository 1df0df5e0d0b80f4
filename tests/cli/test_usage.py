"""Ready-made cases, the vehicle, mounts that give, lost bolts: as a person sees them."""

import math
import re

import pytest
from conftest import run

G = 9.80665

# Two rails of 20 x 20 mm, 450 mm long, on mount pairs 250 mm apart, joined at the end.
RACK = """\
trivet: 1
name: Rack
stock:
  bar: {shape: square bar, width: 20 mm, material: S235}
joints:
  A: [0, 100, 0]
  B: [-250, 100, 0]
  C: [-450, 100, 0]
  D: [0, -100, 0]
  E: [-250, -100, 0]
  F: [-450, -100, 0]
tubes:
  left: {through: [A, B, C], stock: bar}
  right: {through: [D, E, F], stock: bar}
  tail: {through: [C, F], stock: bar}
mounts:
  A: {hold: %(hold)s}
  B: {hold: %(hold)s}
  D: {hold: %(hold)s}
  E: {hold: %(hold)s}
cargo:
  box: {mass: 10 kg, centre: [-400, 0, 120], on: [B, C, E, F]}
cases:
  parked: {gravity: [0, 0, -1]}
%(more)s
"""


def rack(hold="position", more=""):
    return RACK % {"hold": hold, "more": more}


def plain(text):
    return " ".join(text.split())


def test_every_sentence_about_loads_stands_before_the_verdict(write):
    call = run("check", write(rack(more="usage: [road, {two-up: {height: 350 mm}}]")))
    assert call.status == 0
    before, after = call.out.split("Verdict:")
    text = plain(before)
    for words in (
        "road, bump: a pothole",
        "3 times as much as standing still (common practice)",
        "road, leaning in a corner: leaned over",
        "with 1.41 times the weight",
        "two-up, leaning back: the passenger leans back against the load and pushes it backward "
        "with 400 N",
    ):
        assert words in text
    assert "common practice" not in after.split("NOT CHECKED")[0].split("Cases")[0]


def test_a_number_of_a_usage_can_be_changed(write):
    as_json = run("check", write(rack(more="usage: {road: {down: 3.5}}")), "--json")
    stories = {row["case"]: row["story"] for row in as_json.json["stories"]}
    assert "3.5 times as much" in stories["road, bump"]
    mounts = as_json.json["cases"]["road, bump"]["mounts"]
    parked = as_json.json["cases"]["parked"]["mounts"]
    for name, row in mounts.items():
        assert row["force"][2] == pytest.approx(3.5 * parked[name]["force"][2], rel=1e-9)


@pytest.mark.parametrize(
    "usage, add",
    [
        ("two-up", "say how high above the mounts the passenger's back leans: two-up: {height: 350 mm}"),
        ("grab", "say which tube a passenger holds on to: grab: {rail: NAME}"),
        ("lifted", "say what the vehicle weighs: vehicle: {front load: 90 kg, rear load: 95 kg}"),
        ("fall", "say what the vehicle weighs: vehicle: {front load: 90 kg, rear load: 95 kg}"),
    ],
)
def test_what_is_missing_is_said_and_not_guessed(write, usage, add):
    out = run("check", write(rack(more=f"usage: [{usage}]"))).out
    assert f"usage {usage}: {add}" in plain(out.split("Verdict:")[0])
    assert f"usage {usage}: {add}" in plain(out[out.index("NOT CHECKED\n") :])


def test_usage_alone_is_enough(write):
    text = re.sub(r"cases:\n.*\n", "", rack(more="usage: road"))
    assert "cases" not in text
    assert run("check", write(text)).status == 0


def test_rigid_and_giving_mounts_stand_side_by_side(write):
    out = run("check", write(rack(hold="all"))).out
    rigid, giving = re.search(r"parked +([0-9.]+) mm +([0-9.]+) mm", out).groups()
    assert float(giving) > float(rigid)
    assert "bolted tube loop" in out and "measured" in out
    sprung = run("check", write(rack(hold="all, give: bolted tube loop"))).out
    most, beside = re.search(r"parked +([0-9.]+) mm +([0-9.]+) mm", sprung).groups()
    assert (most, beside) == (giving, rigid)


def test_readings_replace_the_guess(write):
    """What rubber mounts give with 10 kg at each end is read back, and they are found again."""
    hung = (
        "  hung left: {forces: [{on: C, force: [0, 0, -10 kg * 9.80665 m/s^2]}]}\n"
        "  hung right: {forces: [{on: F, force: [0, 0, -10 kg * 9.80665 m/s^2]}]}\n"
    )
    truth = run("check", write(rack("[x, y, z, rx, rz], spring: {ry: 500 N*m/rad}", hung)), "--json")
    drops = [-truth.json["cases"][f"hung {side}"]["joints"][j]["move"][2]
             for side, j in (("left", "C"), ("right", "F"))]
    more = "measured: {readings: [%s]}" % ", ".join(
        f"{{at: {joint}, mass: 10 kg, drop: {1e3 * drop!r} mm, within: 0.00005 mm}}" for joint, drop in zip("CF", drops)
    )
    call = run("check", write(rack("all", more)), "--json")
    assert call.json["give"]["spring"][4] == pytest.approx(500, rel=1e-6)
    assert call.json["give"]["least"][4] < 500 < call.json["give"]["most"][4]
    assert call.json["cases"]["parked"]["joints"]["C"]["move"][2] == pytest.approx(
        truth.json["cases"]["parked"]["joints"]["C"]["move"][2], rel=1e-6
    )
    text = plain(run("check", write(rack("all", more))).out)
    assert "turning about y: 500 N*m/rad at every mount" in text


def test_readings_that_contradict_each_other(write):
    more = (
        "measured: {readings: [{at: C, mass: 10 kg, drop: 0.1 mm, within: 0.002 mm},"
        " {at: C, mass: 10 kg, drop: 0.12 mm, within: 0.002 mm}]}"
    )
    call = run("check", write(rack("all", more)))
    assert call.status == 2
    assert "the readings contradict each other" in call.err and "joint C" in call.err


VEHICLE = (
    "vehicle: {wheelbase: 1450 mm, rear axle: -50, ground: -750, front load: 80 kg,"
    " rear load: 90 kg, front least: 50 kg, front most: 110 kg, rear most: 180 kg,"
    " total most: 300 kg, overhang: 500 mm, width: 300 mm, wheel radius: 300 mm}"
)


def test_the_front_wheel(write):
    """m (rear axle - centre) / wheelbase: the box 350 mm behind the axle, bars by their middles."""
    call = run("check", write(rack(more=VEHICLE)), "--json")
    bar = 0.02**2 * 7850  # kg/m
    rails, tail = 2 * 0.45 * bar, 0.2 * bar
    moment = 10 * 0.35 + rails * (0.225 - 0.05) + tail * (0.45 - 0.05)
    assert call.json["off the front wheel"]["parked"] == pytest.approx(moment / 1.45, rel=1e-9)
    kinds = {check["check"] for check in call.json["checks"]}
    assert {"front wheel", "front axle", "rear axle", "vehicle total", "overhang", "width"} <= kinds
    assert "take off the front wheel" in plain(run("check", write(rack(more=VEHICLE))).out)


def test_a_lost_mount(write):
    held = plain(run("check", write(rack(more="usage: [lost bolt]"))).out)
    assert "mount A lost: still held" in held
    # On two mounts in a line and one behind, the loss of that one lets the frame fall.
    three = rack(more="usage: [lost bolt]\n" + VEHICLE).replace("  D: {hold: position}\n", "").replace(
        "  A: {hold: position}\n", ""
    )
    three = three.replace("mounts:\n", "mounts:\n  C: {hold: position}\n")
    falls = plain(run("check", write(three)).out)
    assert re.search(r"mount C lost: free to swing about the line through B and E, down", falls), falls


def test_items_with_centres_are_added_up(write):
    items = "items: {can: {mass: 6 kg, centre: [-400, 0, 100]}, tools: {mass: 2 kg, centre: [-300, 40, 60]}}"
    text = rack().replace("mass: 10 kg, centre: [-400, 0, 120]", items)
    cargo = run("show", write(text), "--json").json["cargo"]["box"]
    assert cargo["centre"] == pytest.approx([-0.375, 0.01, 0.09], rel=1e-12)
    assert math.isclose(cargo["mass"], 8.0)
