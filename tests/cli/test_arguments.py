"""Arguments: help, version, what is not known, exit statuses."""

import re
from pathlib import Path

import pytest
from conftest import run

COMMANDS = ["check", "draw", "report", "start", "show", "stock"]
BASE_HEADER = Path(__file__).parents[2] / "include" / "trivet" / "base.h"


def version():
    return re.search(r'TRIVET_VERSION "([^"]+)"', BASE_HEADER.read_text()).group(1)


def test_version():
    call = run("--version")
    assert (call.status, call.out, call.err) == (0, f"trivet {version()}\n", "")


def test_version_as_json():
    call = run("--version", "--json")
    assert call.status == 0
    assert call.json == {"trivet": version()}


@pytest.mark.parametrize("word", ["--help", "-h"])
def test_help_names_every_command(word):
    call = run(word)
    assert (call.status, call.err) == (0, "")
    for name in COMMANDS:
        assert f"trivet {name}" in call.out
    for option in ("--json", "--help", "--version"):
        assert option in call.out


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("order", [0, 1])
def test_help_of_a_command_has_an_example(name, order):
    call = run(*[(name, "--help"), ("--help", name)][order])
    assert (call.status, call.err) == (0, "")
    assert re.search(rf"^  trivet {name}( .*)?$", call.out, re.M)
    assert "--json" in call.out


@pytest.mark.parametrize("name", COMMANDS)
def test_help_fits_the_line(name):
    for line in (run("--help").out + run(name, "--help").out).splitlines():
        assert len(line) <= 90


def test_alone_it_shows_its_help_and_does_nothing():
    call = run()
    assert (call.status, call.out) == (2, "")
    assert "trivet check FILE" in call.err


@pytest.mark.parametrize(
    "words, message",
    [
        (["chek"], "trivet: command chek: is not known; did you mean check?\n"),
        (["shwo", "x"], "trivet: command shwo: is not known; did you mean show?\n"),
        (["stok"], "trivet: command stok: is not known; did you mean stock?\n"),
        (["frobnicate"], "trivet: command frobnicate: is not known; see trivet --help\n"),
        (["check", "--jsn", "x"], "trivet: option --jsn: is not known; did you mean --json?\n"),
        (["check", "x", "--hepl"], "trivet: option --hepl: is not known; did you mean --help?\n"),
        (["--verion"], "trivet: option --verion: is not known; did you mean --version?\n"),
        (
            ["check", "-q", "x"],
            "trivet: option -q: is not known; did you mean -h?\n",
        ),
        (
            ["check", "--quickly", "x"],
            "trivet: option --quickly: is not known; use --json, --help or --version\n",
        ),
        (["check"], "trivet: trivet check: needs a file; give its name: trivet check rack.yaml\n"),
        (["show"], "trivet: trivet show: needs a file; give its name: trivet show rack.yaml\n"),
        (["start"], "trivet: trivet start: needs a file; give its name: trivet start rack.yaml\n"),
        (["check", "a", "b"], "trivet: b: is one too many after a; give one at a time\n"),
    ],
)
def test_what_is_wrong_is_said_on_standard_error(words, message):
    call = run(*words)
    assert (call.status, call.out, call.err) == (2, "", message)


@pytest.mark.parametrize(
    "words", [["chek", "--json"], ["check", "--json"], ["--json"], ["--json", "check", "--nope"]]
)
def test_json_was_asked_for_and_json_comes_also_on_failure(words):
    call = run(*words)
    assert call.status == 2
    assert call.err.startswith("trivet: ")
    assert isinstance(call.json, dict)


def test_after_two_dashes_a_dash_is_no_option(tmp_path):
    call = run("start", "--", "-rack.yaml", cwd=tmp_path)
    assert call.status == 0
    assert (tmp_path / "-rack.yaml").exists()
    assert run("check", "--", "-rack.yaml", cwd=tmp_path).status == 0


def test_an_empty_name_is_a_file_that_is_not_there():
    call = run("check", "")
    assert call.status == 2
    assert call.out == ""


def test_very_many_words_are_too_many():
    assert run("check", *["x"] * 5000).status == 2
