"""The examples with something that varies, and a catalogue beside them; the command's answers."""
import json
import os
import sqlite3
import subprocess
from contextlib import closing
from pathlib import Path

FOLDER = Path(os.environ["TRIVET_SOURCE"], "examples")

VARY = {
    "cool-box-carrier": """
vary:
  let: {reach: {from: 140 mm, to: 260 mm, steps: 3}, half: [150 mm, 160 mm]}
  stock: {cross: {catalogue: shop.yaml}}
  cargo: {cool box: [0, 1, 9]}
""",
    "tank-rack": """
vary:
  let: {long: {from: 10 in, to: 20 in, steps: 3}}
  stock: {both: {of: [tube, brace], catalogue: shop.yaml, among: [round 1, square]}}
  cargo: {tank: {from: 0.1, to: 1.5, steps: 4}}
  skip when: [long > 19 in]
""",
    "wall-bracket": """
vary:
  stock: {arm: {catalogue: shop.yaml}}
  cases: {hanging: {from: 0.5, to: 3, steps: 20}}
""",
}

SHOP = """\
catalogue: 1
stock:
  round 1: {shape: round tube, diameter: 22 mm, wall: 16 ga BWG, material: E235, price: 4.1}
  round 2: {shape: round tube, diameter: 25 mm, wall: 2 mm, material: E355, price: 5}
  square: {shape: square tube, width: 18 mm, wall: 1.5 mm, corner: 3 mm, material: E235, price: 3}
"""


def write_varied(folder):
    """Paths of the examples, each with `vary`."""
    (folder / "shop.yaml").write_text(SHOP, encoding="utf-8")
    made = []
    for path in sorted(FOLDER.glob("*.yaml")):
        text = path.read_text(encoding="utf-8")
        assert "\nvary:" not in text and path.stem in VARY, "say how this example varies"
        place = folder / path.name
        place.write_text(text + VARY[path.stem], encoding="utf-8")
        made.append(place)
    return made


def bracket(cases=400):
    """Text of a small file with so many variants; half of them hold."""
    return (FOLDER / "wall-bracket.yaml").read_text(encoding="utf-8") + (
        f"\nvary: {{cases: {{hanging: {{from: 0.5, to: 3, steps: {cases}}}}}}}\n")


def command(*words):
    """What the command prints, asked for JSON."""
    done = subprocess.run([os.environ["TRIVET_COMMAND"], *map(str, words), "--json"],
                          capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1, 2), done.stderr
    return done.stdout


def told(*words):
    return json.loads(command(*words))


def content(path):
    """All that a store says, texts written out, so that numbers of texts do not matter."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as base:
        return [list(base.execute(question)) for question in (
            "SELECT * FROM variants_named ORDER BY number",
            "SELECT * FROM checks_named ORDER BY variant, place",
            "SELECT version, settings, file, variant_count, first, end, finished FROM runs")]
