"""Calling the command. TRIVET_COMMAND says which."""

import json
import os
import subprocess
from pathlib import Path

import pytest

COMMAND = os.environ["TRIVET_COMMAND"]
HERE = Path(__file__).parent

# A bar of 20 x 20 mm, clamped, 800 mm long, 100 N at its tip: 6 P L/h^3 = 60 N/mm^2 of the 157
# that a yield of 235 allows at 1.5; tip P L^3/(3 E I) + P L/(G As).
BRACKET = """\
trivet: 1
name: Bracket
stock:
  bar: {shape: square bar, width: 20 mm, material: {E: 210 GPa, G: 81 GPa, density: 7850 kg/m^3%(yield_)s}}
joints:
  A: [0, 0, 0]
  B: [800 mm, 0, 0]
tubes:
  arm: {through: [A, B], stock: bar}
mounts:
  A: {hold: %(hold)s}
cases:
  push: {forces: [{on: B, force: [0, 0, %(force)s]}]}
%(more)s"""


def bracket(force="-100 N", yield_="235 MPa", hold="all", more=""):
    given = f", yield: {yield_}" if yield_ else ""
    return BRACKET % {"force": force, "yield_": given, "hold": hold, "more": more}


class Call:
    def __init__(self, done):
        self.status = done.returncode
        self.out = done.stdout.decode("utf-8")
        self.err = done.stderr.decode("utf-8")

    @property
    def json(self):
        return json.loads(self.out)


def run(*words, cwd=None, env=None, **others):
    """Runs the command with its output caught; no terminal anywhere."""
    surroundings = {**os.environ, **(env or {})}
    others.setdefault("stdout", subprocess.PIPE)
    done = subprocess.run(
        [COMMAND, *map(str, words)],
        cwd=cwd,
        env=surroundings,
        stdin=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        timeout=120,
        check=False,
        **others,
    )
    if done.stdout is None:
        done.stdout = b""
    return Call(done)


@pytest.fixture
def write(tmp_path):
    def write_file(text, name="rack.yaml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write_file


@pytest.fixture
def starter(tmp_path):
    path = tmp_path / "starter.yaml"
    assert run("start", path).status == 0
    return path
