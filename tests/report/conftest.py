"""Calling the command for drawings and pages, and reading SVG. TRIVET_COMMAND says which."""

import json
import os
import re
import subprocess
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

COMMAND = os.environ["TRIVET_COMMAND"]
HERE = Path(__file__).parent
ROOT = HERE.parents[1]
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))
DESIGNS = sorted((ROOT / "tests" / "cli" / "designs").glob("*.yaml"))
NASTY = HERE / "nasty-names.yaml"
WORKSHOP = HERE / "workshop.yaml"
SHELF = HERE / "shelf.yaml"
SVG = "{http://www.w3.org/2000/svg}"
# Numbers on a drawing have three digits behind the point; a difference of two is off by this at most.
PRINTED = 0.001 + 1e-9


def run(*words, **others):
    done = subprocess.run(
        [COMMAND, *map(str, words)], stdin=subprocess.DEVNULL, capture_output=True, timeout=120,
        check=False, **others
    )
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def answer(command, path):
    status, out, err = run(command, path, "--json")
    assert status in (0, 1), err
    return json.loads(out)


def draw(path, *words):
    """The SVG of a file as an element."""
    status, out, err = run("draw", path, "-o", "-", *words)
    assert (status, err) == (0, "")
    return ElementTree.fromstring(out)


def page(path, *words):
    status, out, err = run("report", path, "-o", "-", *words)
    assert (status, err) == (0, "")
    return out


def words_of(element):
    """All text in an element, the marks that set names apart taken away."""
    return re.sub("[\u2068\u2069]", "", " ".join("".join(text.itertext())
                  for text in element.iter(SVG + "text")))


def each(element, tag, kind):
    """Elements of a tag that have a class."""
    return [one for one in element.iter(SVG + tag) if kind in one.get("class", "").split()]


def views(svg):
    return {one.get("data-view"): one for one in each(svg, "g", "view")}


def points(element):
    return [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]


@pytest.fixture
def write(tmp_path):
    def write_file(text, name="rack.yaml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write_file
