"""Errors carry where and what."""
import json
import os
import pickle
import subprocess

import pytest

import trivet


def test_input_errors_carry_line_and_column(tmp_path):
    text = trivet.starter_text().replace("FL: [0, half, 0]", "FL: [0, half, 5 kg]")
    lines = text.split("\n")
    line = next(number for number, line in enumerate(lines) if "5 kg" in line)
    with pytest.raises(trivet.InputError) as caught:
        trivet.read_text(text)
    error = caught.value
    assert (error.line, error.column) == (line + 1, lines[line].index("5 kg") + 1)
    assert error.status == 21
    assert isinstance(error, trivet.BadUnit) and isinstance(error, ValueError)
    path = tmp_path / "bad.yaml"
    path.write_text(text, encoding="utf-8")
    done = subprocess.run([os.environ["TRIVET_COMMAND"], "check", str(path), "--json"],
                          capture_output=True, text=True, check=False)
    assert json.loads(done.stdout) == json.loads(trivet.error_json(error))
    assert done.returncode == trivet.exit_status(error.status) == 2
    assert trivet.error_text(error) == str(error)


def test_unreadable_files(tmp_path):
    for path in (tmp_path / "none.yaml", tmp_path, str(tmp_path / "none.yaml")):
        with pytest.raises(trivet.Unreadable) as caught:
            trivet.read(path)
        assert caught.value.problem
    with pytest.raises(TypeError):
        trivet.read(5)


def moving(hold):
    frame = trivet.Frame()
    for name, x, y in (("A", 0, 0), ("B", 0, 1), ("C", 1, 0.5)):
        frame.add_joint(name, x, y, 0)
    frame.add_stock("tube", "round tube", diameter=0.03, wall=0.002)
    for name, through in (("one", "AC"), ("other", "BC"), ("back", "AB")):
        frame.add_tube(name, list(through), "tube")
    frame.add_mount("A", hold)
    frame.add_mount("B", hold)
    frame.add_case("parked", (0, 0, -1))
    return frame


def test_unstable_carries_joint_and_direction():
    with pytest.raises(trivet.Unstable) as caught:
        moving("position").solve()
    error = caught.value
    assert error.joint is None and error.joints == []
    assert error.direction == "the line through A and B" and error.status == 30
    frame = moving("all")
    for tube in ("one", "other"):
        frame.set_free_end(tube, "C", ["ry", "rz", "rx"])
    with pytest.raises(trivet.Unstable) as caught:
        frame.solve()
    assert caught.value.joint == "C" and caught.value.direction
    assert isinstance(caught.value, trivet.NotComputable)
    assert isinstance(caught.value, ArithmeticError)


def test_unstable_names_the_direction_of_a_slide():
    frame = moving(["y", "z", "rx", "ry", "rz"])
    with pytest.raises(trivet.Unstable) as caught:
        frame.solve()
    assert caught.value.direction.startswith("x")


def test_errors_travel_between_processes():
    for error in (trivet.BadUnit("is odd", thing="wall", remedy="mend it", line=3, column=4),
                  trivet.Unstable("is free to slide along x", thing="joint A"),
                  trivet.NoMemory("is short"), trivet.Closed("is closed")):
        again = pickle.loads(pickle.dumps(error))
        assert type(again) is type(error) and str(again) == str(error)
        assert vars(again) == vars(error)


def test_an_old_message_is_not_told_again(arm):
    with pytest.raises(trivet.BadName):
        arm.add_joint("tip", 0, 0, 0)
    with pytest.raises(trivet.BadIndex) as caught:
        arm.torque(3)
    assert "tip" not in str(caught.value)


def test_only_a_frame_from_a_file_can_be_asked_of_its_file(arm):
    for ask in (arm.understood_json, arm.let, arm.unused, arm.fitted, arm.check().json,
                arm.check().expect, arm.check().working_json, lambda: arm.place("joint", "tip")):
        with pytest.raises(trivet.BadOrder):
            ask()
    assert not arm.is_from_file


def test_the_file_of_a_frame(carrier):
    assert carrier.is_from_file and carrier.place("tube", "left rail")[0] > 20
    assert carrier.let()["reach"] == 0.18 and carrier.unused() == []
    assert carrier.units.length == "mm" and carrier.limits.yield_ == 1.5
    with pytest.raises(trivet.BadOrder):
        carrier.fitted()
    copy = carrier.copy()
    carrier.set_position("TL", -0.5, 0.16, 0)
    assert not carrier.is_from_file and copy.position("TL")[0] == -0.42
