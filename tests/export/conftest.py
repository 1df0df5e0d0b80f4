"""Handing frames over. TRIVET_COMMAND says with which command, GLTF_PACKAGES where the judge of
glTF files is."""

import json
import os
import subprocess
from pathlib import Path

import pytest

COMMAND = os.environ["TRIVET_COMMAND"]
HERE = Path(__file__).parent

# Names that mean something to XML, JSON, DXF or a spreadsheet, run from right to left, lie beyond
# U+FFFF, or are as long as a name may be (127 bytes).
MARKUP = "a<b>&\"c\"'d' ]]> -->"
RIGHT_TO_LEFT = "ذراع خلفية אחורי"
LONG = "längs " + 40 * "ß" + " und so weiter bis zum Ende des Namens"
FORMULA = '=HYPERLINK("x";"y"), +1'
DRAWING = r"%%d \U+0041 ^J {\C1;x} 🛠"
LONG_OF_DECKS = "deck " + 100 * "x"

# One tube of each shape, each clamped at its own place: sizes in mm, beams 400 mm apart.
STOCK = {
    MARKUP: {"shape": "square tube", "width": 20, "wall": 2},
    RIGHT_TO_LEFT: {"shape": "rectangular tube", "height": 40, "width": 20, "wall": 2},
    LONG: {"shape": "round tube", "diameter": 25, "wall": 2},
    FORMULA: {"shape": "square bar", "width": 12},
    DRAWING: {"shape": "flat bar", "height": 30, "width": 6},
    "-round bar": {"shape": "round bar", "diameter": 14},
    "@angle": {"shape": "angle", "legs": [30, 20], "wall": 3},
    "+channel": {"shape": "channel", "height": 60, "width": 30, "wall": 4, "flange": 6},
    "'sharp": {"shape": "square tube", "width": 20, "wall": 2, "corner": "sharp"},
    "values": {
        "shape": "values",
        "area": "144 mm^2",
        "second moments": ["1728 mm^4", "1728 mm^4"],
        "torsion constant": "2900 mm^4",
    },
}
ROLLS = {RIGHT_TO_LEFT: 30.0, DRAWING: -20.0, "@angle": 90.0}
OFFSET = [5.0, -7.0, 11.0]  # mm, of the tube of DRAWING at both ends
PLUG = {"shape": "square bar", "width": 15}


def rack():
    """The frame above as what stands in its file; tubes bear the names of their stock."""
    file = {"trivet": 1, "name": MARKUP, "stock": {}, "joints": {}, "tubes": {}, "mounts": {}}
    for number, (name, stock) in enumerate(STOCK.items()):
        file["stock"][name] = {**stock, "material": "S235"}
        first, last = f"A{number}", name
        file["joints"][first] = [0, 400 * number, 50]
        file["joints"][last] = [250 + 10 * number, 400 * number, 50 + 20 * (number % 3)]
        file["tubes"][name] = {
            "through": [first, last],
            "stock": name,
            "roll": f"{ROLLS.get(name, 0)} deg",
        }
        file["mounts"][first] = {"hold": "all"}
    file["tubes"][DRAWING]["offset"] = {"A4": OFFSET, DRAWING: OFFSET}
    file["stock"]["plug"] = {**PLUG, "material": "S235"}
    file["tubes"][MARKUP]["inserts"] = [{"at": "A0", "length": 40, "stock": "plug"}]
    file["cases"] = {
        MARKUP: {"gravity": [0, 0, -1]},
        RIGHT_TO_LEFT: {"gravity": [0, 0.5, -3]},
        FORMULA: {"forces": [{"on": LONG, "force": [10, -20, -30]}]},
        LONG: {"gravity": [1, 0, -1]},
    }
    return file


class Call:
    def __init__(self, done):
        self.status = done.returncode
        self.out = done.stdout.decode("utf-8")
        self.err = done.stderr.decode("utf-8")


def run(*words, **others):
    done = subprocess.run(
        [COMMAND, *map(str, words)],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        timeout=120,
        check=False,
        **others,
    )
    return Call(done)


@pytest.fixture
def write(tmp_path):
    """Writes a file: text, or what is to stand in it."""

    def write_file(content, name="rack.yaml"):
        text = content if isinstance(content, str) else json.dumps(content, ensure_ascii=False)
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write_file


@pytest.fixture
def hand_over(tmp_path, write):
    """Writes a frame, hands it over under a name, and gives the path of what was written."""

    def export(content, name):
        path = write(content)
        call = run("export", path, "-o", f"{tmp_path}/{name}")
        assert (call.status, call.err) == (0, "")
        return tmp_path / name

    return export


@pytest.fixture
def results(tmp_path, write):
    """The same frame's results as trivet check --json has them."""

    def solve(content):
        call = run("check", write(content), "--json")
        assert call.err == ""
        return json.loads(call.out)

    return solve
