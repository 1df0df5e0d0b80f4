"""The package gives what the command gives, character for character."""
import json
import os
import subprocess

import trivet


def command(*words):
    done = subprocess.run([os.environ["TRIVET_COMMAND"], *words, "--json"], capture_output=True,
                          text=True, check=False)
    assert done.returncode in (0, 1, 2), done.stderr
    return done.stdout.rstrip("\n")


def rates_or_error(frame):
    try:
        return frame.rate().json()
    except trivet.InputError as error:
        return trivet.error_json(error)


def test_check_is_the_same_for_every_example(examples):
    assert len(examples) >= 3
    for path in examples:
        assert trivet.read(path).check().json().rstrip("\n") == command("check", str(path)), path


def test_explain_rate_show_and_stock_are_the_same_for_every_example(examples):
    for path in examples:
        frame = trivet.read(path)
        checks = frame.check()
        tube = checks.worst().where
        assert checks.working_json().rstrip() == command("explain", str(path)), path
        assert checks.working_json(tube).rstrip() == command("explain", str(path), tube), path
        assert frame.understood_json().rstrip() == command("show", str(path)), path
        assert rates_or_error(frame).rstrip() == command("rate", str(path)), path
    assert trivet.stock_json().rstrip() == command("stock")
    assert trivet.stock_json("M6").rstrip() == command("stock", "M6")


def test_arrays_and_records_are_the_numbers_of_the_json(examples):
    for path in examples:
        result = trivet.read(path).solve()
        checks = result.check()
        said = json.loads(checks.json())
        frame = result.frame
        for case in result.cases:
            for joint, move in said["cases"][case]["joints"].items():
                assert result.move(joint, case).tolist() == move["move"] + move["turn"]
            for mount, force in said["cases"][case]["mounts"].items():
                assert result.reaction(mount, case).tolist() == force["force"] + force["moment"]
            quality = result.quality(case)
            assert said["cases"][case]["residual"] == quality.residual
        assert [check.utilisation for check in checks] == [
            row["utilisation"] for row in said["checks"]]
        assert frame.mass == said["mass"]
        assert checks.verdict == said["verdict"]


def test_expectations_are_those_of_the_json(examples):
    for path in examples:
        checks = trivet.read(path).check()
        said = json.loads(checks.json()).get("expect", [])
        found = checks.expect()
        assert [one.computed for one in found] == [row["computed"] for row in said]
        assert [one.agrees for one in found] == [row["agrees"] for row in said]


def test_what_stops_a_rating_is_that_of_the_json(carrier):
    rates = carrier.rate()
    said = json.loads(rates.json())["rates"]
    assert [rate.mass for rate in rates] == [row["mass"] for row in said]
    for index, row in enumerate(said):
        assert rates.stops(index) == [stop["sentence"] for stop in row["stops"]]
        assert len(rates.stops(index)) > 1


def test_the_version_is_that_of_the_command():
    done = subprocess.run([os.environ["TRIVET_COMMAND"], "--version"], capture_output=True,
                          text=True, check=True)
    assert done.stdout.split()[1] == trivet.__version__
    assert set(trivet.usages()) >= {"road", "two-up"}
