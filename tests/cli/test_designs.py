"""Designs that hold, and the same with one thing wrong: the fault is found, and named as what lets
go first, in plain words. The words are the command's own; whether a design holds follows from the
rules that the other tests check one by one."""

import pathlib

import pytest

from conftest import run

DESIGNS = pathlib.Path(__file__).parent / "designs"

# Kind of fault: design, (what stands in it, what is made of it) ..., kind of check, its sentence.
FAULTS = {
    "thread in bare wall": (
        "sprayer-rack",
        [
            (
                "into: plug, engagement: 16 mm, clamps: insert, torque: 18 N*m,\n"
                "            fixing: {spots: 2, diameter: 10 mm}",
                "into: wall, torque: 8 N*m",
            )
        ],
        "thread turns",
        "thread in mount FL needs 3 of 2.4 turns",
    ),
    "spots too few": (
        "sprayer-rack",
        [("weld: {throat: 2 mm}}", "weld: {spots: 2, spot diameter: 6 mm}}")],
        "weld",
        "weld of back at TR carries",
    ),
    "no sleeve": (
        "sprayer-rack",
        [
            (
                "clamps: sleeve, torque: 18 N*m,\n"
                "            sleeve: {diameter: 14 mm, wall: 2.5 mm, yield: 235 N/mm^2},",
                "clamps: hollow, torque: 18 N*m,",
            ),
            ("width: 30 mm, wall: 3 mm", "width: 30 mm, wall: 2 mm"),
        ],
        "wall crush",
        "wall under the bolt of mount ML is pressed with",
    ),
    "countersink deeper than the wall": (
        "sprayer-rack",
        [
            (
                "{thread: M8, grade: 8.8, clamps: sleeve, torque: 18 N*m,\n"
                "            sleeve: {diameter: 14 mm, wall: 2.5 mm, yield: 235 N/mm^2},\n"
                "            plate: {thickness: 5 mm, material: S235, edge: 20 mm}}",
                "{thread: M8, grade: 8.8, head: countersunk, clamps: sleeve, torque: 18 N*m,\n"
                "            sleeve: {diameter: 14 mm, wall: 2.5 mm, yield: 235 N/mm^2}}",
            )
        ],
        "countersink",
        "screw head of mount ML sinks in by 4.96 of 2.25 mm",
    ),
    "one bolt of a pair carries all": (
        "hoist-lug",
        [("pattern: [[-30, 0], [30, 0]]", "pattern: [[0, 0], [60, 0]]")],
        "bolt",
        "bolt of mount A is pulled with",
    ),
    "chord face too thin": (
        "backrest",
        [("width: 30 mm, wall: 2.5 mm", "width: 30 mm, wall: 1.5 mm")],
        "chord wall",
        "wall of cross at M is",
    ),
    "countersink through the plate": (
        "sprayer-rack",
        [("plate: {thickness: 6 mm", "plate: {thickness: 3 mm")],
        "countersink",
        "screw head of lid at ML sinks in by 3.72 of 2.25 mm",
    ),
    "plastic spacer under a screw in side load": (
        "sprayer-rack",
        [("of: metal", "of: plastic")],
        "screw bending",
        "screw of lid at TR is bent with",
    ),
    "mount over its limit": (
        "sprayer-rack",
        [("limit: {pull: 1500 N", "limit: {pull: 50 N")],
        "mount pull",
        "mount FL is pulled with",
    ),
    "rack over its rating": (
        "sprayer-rack",
        [("rack rating: 25 kg", "rack rating: 10 kg")],
        "rack rating",
        "the rack with its cargo weighs 15.6 of 10 kg",
    ),
}


@pytest.mark.parametrize("name", ["sprayer-rack", "backrest", "hoist-lug"])
def test_the_design_holds(name):
    call = run("check", DESIGNS / f"{name}.yaml", "--json")
    assert call.status == 0, call.json["lines"]["overload"]
    assert call.json["lines"]["overload"]["verdict"] in ("holds", "tight")


def spoilt(design, changes):
    text = (DESIGNS / f"{design}.yaml").read_text(encoding="utf-8")
    for there, instead in changes:
        assert there in text
        text = text.replace(there, instead)
    return text


@pytest.mark.parametrize("fault", FAULTS)
def test_the_fault_lets_go_first(fault, tmp_path):
    design, changes, check, sentence = FAULTS[fault]
    path = tmp_path / "spoilt.yaml"
    path.write_text(spoilt(design, changes), encoding="utf-8")
    call = run("check", path, "--json")
    assert call.status == 1
    first = call.json["lines"]["overload"]
    assert first["verdict"] == "fails"
    assert call.json["checks"][first["worst"]]["check"] == check
    assert first["sentence"].startswith(sentence)
    text = " ".join(run("check", path).out.split())
    assert "Verdict: FAILS" in text and sentence in text


@pytest.mark.parametrize("fault", FAULTS)
def test_its_working_can_be_shown(fault, tmp_path):
    design, changes, check, sentence = FAULTS[fault]
    path = tmp_path / "spoilt.yaml"
    path.write_text(spoilt(design, changes), encoding="utf-8")
    out = " ".join(run("explain", path).out.split())
    assert f"Check of {check}" in out and sentence in out
