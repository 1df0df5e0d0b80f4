"""Files that are wrong: the exact complaint, the place, nothing on standard output."""

import os

import pytest
from conftest import HERE, bracket, run

BAD = HERE / "bad"
NAMES = sorted(path.name for path in BAD.glob("*.yaml"))


def test_there_are_many_kinds_of_bad_file():
    assert len(NAMES) >= 60
    assert {name[: -len(".yaml")] for name in NAMES} == {path.stem for path in BAD.glob("*.err")}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("command", ["check", "show"])
def test_complaint(name, command):
    expected = (BAD / name).with_suffix(".err").read_text(encoding="utf-8")
    call = run(command, name, cwd=BAD)
    assert call.err == f"trivet: {name}: {expected}"
    assert call.status == 2
    assert call.out == ""


@pytest.mark.parametrize("name", NAMES)
def test_complaint_as_json(name):
    expected = (BAD / name).with_suffix(".err").read_text(encoding="utf-8")
    call = run("check", name, "--json", cwd=BAD)
    assert call.status == 2
    assert call.err == f"trivet: {name}: {expected}"
    error = call.json["error"]
    place = ""
    if error["line"]:
        place = f"line {error['line']}, column {error['column']}: "
    # What is long is cut in the text only where it is cut in the message itself.
    parts = [error["thing"], error["problem"]]
    text = place + ": ".join(part for part in parts if part)
    if error["remedy"]:
        text += "; " + error["remedy"]
    assert text + "\n" == expected


def complain(path, **others):
    call = run("check", path, **others)
    assert call.out == ""
    assert call.status == 2
    assert call.err.startswith("trivet: ") and call.err.count("\n") == 1
    return call.err


def test_missing_file(tmp_path):
    assert "nothing.yaml" in complain(tmp_path / "nothing.yaml")


def test_directory(tmp_path):
    assert str(tmp_path) in complain(tmp_path)


def test_the_name_of_the_file_stands_once(tmp_path):
    assert complain("nothing.yaml", cwd=tmp_path).count("nothing.yaml") == 1


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything")
def test_no_permission(write):
    path = write(bracket())
    path.chmod(0)
    complain(path)


def test_hundred_megabytes(tmp_path):
    path = tmp_path / "huge.yaml"
    with path.open("wb") as file:
        file.truncate(100 * 1024 * 1024)
    complain(path)


def test_device_and_pipe(tmp_path):
    complain("/dev/zero")
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    complain(pipe)


def test_binary_rubbish(tmp_path):
    path = tmp_path / "rubbish.yaml"
    path.write_bytes(bytes((37 * i * i + 11 * i) % 256 for i in range(4096)))
    complain(path)


def test_what_the_file_says_cannot_write_to_the_terminal(write):
    call = run("check", write(bracket().replace("name: Bracket", 'name: "a\\e[31mb\\u009b31mc"')))
    assert "\x1b" not in call.out + call.err
    assert "\x9b" not in call.out + call.err
