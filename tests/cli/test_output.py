"""Where the words go: terminals, pipes, full disks, readers that leave."""

import fcntl
import os
import pty
import re
import struct
import subprocess
import termios

import pytest
from conftest import COMMAND, run

CALLS = [["--help"], ["--version"], ["check", "FILE"], ["show", "FILE"], ["stock"], ["start", "-"]]


def words_of(call, starter):
    return [str(starter) if word == "FILE" else word for word in call]


@pytest.mark.parametrize("call", CALLS, ids=" ".join)
@pytest.mark.parametrize("as_json", [False, True])
def test_a_full_disk_is_noticed(call, as_json, starter):
    words = words_of(call, starter) + (["--json"] if as_json else [])
    if words == ["start", "-", "--json"]:
        words = ["stock", "E235", "--json"]
    with open("/dev/full", "wb") as full:
        done = run(*words, stdout=full)
    assert done.status == 3
    assert done.err.startswith("trivet: standard output: could not be written")


@pytest.mark.parametrize("call", CALLS, ids=" ".join)
def test_a_reader_that_leaves_is_noticed(call, starter):
    reading, writing = os.pipe()
    os.close(reading)
    try:
        done = run(*words_of(call, starter), stdout=writing)
    finally:
        os.close(writing)
    assert done.status == 3
    assert "could not be written" in done.err


def test_a_closed_standard_output_is_noticed(starter):
    done = run("check", starter, preexec_fn=lambda: os.close(1))
    assert done.status == 3


@pytest.mark.parametrize("call", CALLS, ids=" ".join)
def test_no_colour_and_no_wide_signs_in_a_pipe(call, starter):
    out = run(*words_of(call, starter)).out
    assert "\x1b" not in out
    assert out.isascii()


def on_terminal(words, columns=80, env=None):
    """What the command writes to a terminal of so many columns."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    surroundings = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    surroundings.update(env or {})
    call = subprocess.Popen(
        [COMMAND, *map(str, words)], stdin=slave, stdout=slave, stderr=slave, env=surroundings
    )
    os.close(slave)
    pieces = []
    while True:
        try:
            piece = os.read(master, 65536)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        pieces.append(piece)
    os.close(master)
    status = call.wait(timeout=120)
    return status, b"".join(pieces).decode("utf-8").replace("\r\n", "\n")


def test_colour_on_a_terminal_carries_no_meaning_alone(starter):
    status, out = on_terminal(["check", starter])
    assert status == 0
    assert "\x1b[" in out
    bare = re.sub(r"\x1b\[[0-9;]*m", "", out)
    assert bare == run("check", starter).out


def test_no_color_is_obeyed(starter):
    _, out = on_terminal(["check", starter], env={"NO_COLOR": "1"})
    assert "\x1b" not in out
    _, out = on_terminal(["check", starter], env={"NO_COLOR": ""})
    assert "\x1b" in out


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_sentences_are_wrapped_at_the_width_of_the_terminal(columns, starter):
    _, out = on_terminal(["check", starter], columns, env={"NO_COLOR": "1"})
    verdict = out[: out.index("\nDroop")] + out[out.index("\nNOT CHECKED") :]
    widths = [len(line) for line in verdict.splitlines()]
    assert max(widths) <= columns
    assert max(widths) > columns - 20


def test_eighty_columns_without_a_terminal(starter):
    for line in run("check", starter).out.splitlines():
        assert len(line) <= 80, line
        assert line == line.rstrip()


def test_json_has_no_colour_on_a_terminal(starter):
    status, out = on_terminal(["check", starter, "--json"])
    assert status == 0
    assert "\x1b" not in out
