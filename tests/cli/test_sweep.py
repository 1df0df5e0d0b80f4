"""Sweeps as a user runs them. The referee of a row is a check of the same values written as a file;
that of a sample is SciPy."""

import math
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest
from conftest import COMMAND, bracket, run
from scipy.stats import qmc

ROOT = Path(__file__).parents[2]
SANITIZED = bool(os.environ.get("TRIVET_SANITIZE"))

VARY = {
    "cool-box-carrier": """
  let: {reach: {from: 140 mm, to: 260 mm, steps: 2}, half: {from: 130 mm, to: 180 mm, steps: 2}}
  stock: {rail: [rail, rail b, rail c], cross: {catalogue: shop.yaml}}
  cargo: {cool box: {from: 0, to: 2, steps: 2}}
  cases: {rider leans back: {from: 0.5, to: 2, steps: 2}, pothole: [1, 1.25]}
""",
    "tank-rack": """
  let: {long: {from: 10 in, to: 20 in, steps: 2}, overhang: {from: 0 in, to: 9 in, steps: 2}}
  stock: {both: {of: [tube, brace], catalogue: shop.yaml, among: [round 1, round 2]}}
  cargo: {tank: {from: 0.1, to: 1.5, steps: 2}}
  tuples: {of: [side, strap], rows: [[8 in, strap], [9.5 in, thick strap]]}
""",
    "wall-bracket": """
  let: {long: {from: 100 mm, to: 600 mm, steps: 2}, wall: {from: 0.8 mm, to: 14 mm, steps: 2}}
  cases: {hanging: {from: 0.5, to: 3, steps: 2}}
""",
}

# What the examples gain so that there is something to vary.
MORE = {
    "cool-box-carrier": [
        (
            "stock:\n",
            "stock:\n"
            "  rail b: {shape: square tube, width: 25 mm, wall: 2 mm, material: E235}\n"
            "  rail c: {shape: square tube, width: half / 8, wall: 1.5 mm, material: E355}\n",
        )
    ],
    "tank-rack": [
        (
            "stock:\n",
            "stock:\n"
            "  thick strap: {shape: flat bar, height: 3/8 in, width: 1-1/2 in, material: A36}\n",
        )
    ],
    "wall-bracket": [
        ("stock:\n", "let: {long: 300 mm, wall: 2 mm}\n\nstock:\n"),
        ("wall: 2 mm, material: S235", "wall: wall, material: S235"),
        ("B: [300, 0, 0]", "B: [long, 0, 0]"),
    ],
}

SHOP = """\
catalogue: 1
units: {length: in}
stock:
  round 1: {shape: round tube, diameter: 7/8, wall: 16 ga BWG, material: A513 1020, price: 4.1}
  round 2: {shape: round tube, diameter: 1, wall: 0.083, material: {E: 205 GPa, G: 80 GPa,
            density: 7850 kg/m^3, yield: 300 MPa, tensile: 400 MPa, expansion: 1.2e-5 / (1 K)}}
  square: {shape: square tube, width: 18 mm, wall: 1.5 mm, corner: 3 mm, material: E235}
"""


def write_example(folder, name, vary, count=None):
    """An example of the project with something varied, and a catalogue beside it."""
    text = (ROOT / "examples" / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in MORE.get(name, []):
        assert old in text
        text = text.replace(old, new, 1)
    text += f"\nvary:{vary}"
    if count:
        text += f"  sample: {{by: latin hypercube, count: {count}, seed: 11}}\n"
    (folder / "shop.yaml").write_text(SHOP, encoding="utf-8")
    (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder / f"{name}.yaml"


def sweep(path, store, *words):
    call = run("sweep", str(path), "-o", str(store), *words)
    assert call.status == 0, call.err
    return call


def rows(store, table="variants"):
    with sqlite3.connect(f"file:{store}?mode=ro", uri=True) as db:
        db.row_factory = sqlite3.Row
        order = "number" if table == "variants" else "variant, place"
        return [dict(row) for row in db.execute(f"SELECT * FROM {table} ORDER BY {order}")]


def content(store):
    """All that a store says, texts written out, so that numbers of texts do not matter."""
    with sqlite3.connect(f"file:{store}?mode=ro", uri=True) as db:
        named = list(db.execute("SELECT * FROM variants_named ORDER BY number"))
        checks = list(db.execute("SELECT * FROM checks_named ORDER BY variant, place"))
        return named, checks, list(db.execute("SELECT first, end, finished FROM runs"))


def worst_mount_force(answer):
    return max(
        math.sqrt(x * x + y * y + z * z)
        for case in answer["cases"].values()
        for x, y, z in (mount["force"] for mount in case["mounts"].values())
    )


LINES = ("overload", "cracking", "service")
VERDICTS = {"not checked": 0, "holds": 1, "tight": 2, "may crack": 3, "fails": 4}


def compare_with_check(row, path, number, folder):
    """One row against a check of the variant written as a file: the same bits."""
    one = run("sweep", str(path), "--variant", str(number))
    if row["outcome"] == 1:
        assert one.status == 2 and "is skipped" in one.err
        return
    file = folder / "one.yaml"
    file.write_text(one.out, encoding="utf-8")
    fresh = run("check", str(file), "--json")
    if row["outcome"] == 2:
        assert fresh.status in (2, 3), number
        return
    assert fresh.status in (0, 1), fresh.err
    answer = fresh.json
    assert row["mass"] == answer["mass"]
    assert row["mount_force"] == worst_mount_force(answer)
    for line in LINES:
        assert row[line] == VERDICTS[answer["lines"][line]["verdict"]], (number, line)
        used = [c["utilisation"] for c in answer["checks"] if c.get("line") == line]
        if used:
            assert row[f"{line}_used"] in used
    utilisations = {row[f"{line}_used"] for line in LINES} - {None}
    governing = [c for c in answer["checks"] if c["utilisation"] in utilisations]
    assert (row["governs_check"], row["governs_where"], row["governs_case"]) in [
        (c["check"], c["where"], c["case"]) for c in governing
    ]


def named_rows(store):
    with sqlite3.connect(f"file:{store}?mode=ro", uri=True) as db:
        db.row_factory = sqlite3.Row
        raw = {row["number"]: row for row in db.execute("SELECT * FROM variants")}
        for row in db.execute("SELECT * FROM variants_named ORDER BY number"):
            yield {**dict(row), **{k: raw[row["number"]][k] for k in ("outcome", *LINES)}}


@pytest.mark.parametrize("name", sorted(VARY))
def test_rows_are_what_check_says_of_the_same_file(name, tmp_path):
    count = 10 if SANITIZED else 167  # 501 of three examples
    path = write_example(tmp_path, name, VARY[name], count)
    sweep(path, tmp_path / "runs.sqlite")
    seen = list(named_rows(tmp_path / "runs.sqlite"))
    assert len(seen) == count
    for row in seen:
        compare_with_check(row, path, row["number"], tmp_path)
    outcomes = {row["outcome"] for row in seen}
    assert 0 in outcomes
    if name == "wall-bracket" and not SANITIZED:
        assert 2 in outcomes  # a wall thicker than half the width


def test_workers_and_parts_change_nothing(tmp_path):
    path = write_example(tmp_path, "tank-rack", VARY["tank-rack"], 8 if SANITIZED else 150)
    whole = tmp_path / "1.sqlite"
    sweep(path, whole, "--checks")
    for workers in ("2", "4"):
        other = tmp_path / f"{workers}.sqlite"
        sweep(path, other, "--checks", "--workers", workers)
        assert content(other) == content(whole)
    parts = [tmp_path / f"part{k}.sqlite" for k in range(1, 9)]
    for k, part in enumerate(parts, 1):
        sweep(path, part, "--checks", "--part", f"{k}/8", "--workers", "2")
    random.Random(3).shuffle(parts)
    merged = tmp_path / "merged.sqlite"
    call = run("sweep", "--merge", *map(str, parts), "-o", str(merged))
    assert call.status == 0, call.err
    assert content(merged) == content(whole)


def test_grid_takes_every_combination_last_fastest(tmp_path):
    path = tmp_path / "grid.yaml"
    path.write_text(
        bracket(
            more="let: {a: 1, b: 2 mm}\n"
            "vary: {let: {a: [3, 4, 5], b: {from: 1 mm, to: 2 mm, steps: 5}},"
            " cases: {push: [1, 2]}}\n"
        )
    )
    sweep(path, tmp_path / "grid.sqlite")
    got = [(r["input_1"], r["input_2"], r["input_3"]) for r in rows(tmp_path / "grid.sqlite")]
    steps = [0.001 + (0.002 - 0.001) * i / 4 for i in range(4)] + [0.002]
    assert got == [(a, b, c) for a in (3, 4, 5) for b in steps for c in (1, 2)]


def sampled(tmp_path, way, count, axes, seed=1):
    names = [f"x{i}" for i in range(axes)]
    lets = ", ".join(f"{n}: 1 m" for n in names)
    spans = ", ".join(f"{n}: {{from: 0 m, to: 1 m, steps: 2}}" for n in names)
    path = tmp_path / f"{way.split()[0]}{seed}.yaml"
    path.write_text(
        bracket(
            more=f"let: {{{lets}}}\nvary: {{let: {{{spans}}},"
            f" sample: {{by: {way}, count: {count}, seed: {seed}}}}}\n"
        )
    )
    store = path.with_suffix(".sqlite")
    sweep(path, store)
    return [[r[f"input_{i + 1}"] for i in range(axes)] for r in rows(store)]


def test_sobol_points_are_scipys(tmp_path):
    wanted = qmc.Sobol(d=20, scramble=False).random(256)
    assert sampled(tmp_path, "sobol", 256, 20) == wanted.tolist()


def test_latin_hypercube_meets_every_stratum_once(tmp_path):
    count = 100
    points = sampled(tmp_path, "latin hypercube", count, 5)
    others = sampled(tmp_path, "latin hypercube", count, 5, seed=2)
    for axis in range(5):
        column = [point[axis] for point in points]
        assert sorted(int(x * count) for x in column) == list(range(count))
        assert column != sorted(column)
        assert column != [point[axis] for point in others]
    # Shuffles of different axes are unrelated: |r| of 100 pairs stays below 4 / sqrt(100).
    for a in range(5):
        for b in range(a):
            mean = [sum(p[k] for p in points) / count for k in (a, b)]
            both = sum((p[a] - mean[0]) * (p[b] - mean[1]) for p in points)
            own = [sum((p[k] - mean[i]) ** 2 for p in points) for i, k in enumerate((a, b))]
            assert abs(both / math.sqrt(own[0] * own[1])) < 0.4


def test_conditions_skip(tmp_path):
    path = tmp_path / "skip.yaml"
    path.write_text(
        bracket(
            more="let: {a: 1 mm, b: 2 mm}\n"
            "vary:\n"
            "  let: {a: [1 mm, 2 mm, 3 mm], b: [1 mm, 2 mm]}\n"
            "  skip when: [a > b and b >= 2 * 1 mm, a < 0.15 cm or a + b <= 3 mm]\n"
        )
    )
    sweep(path, tmp_path / "skip.sqlite")
    for row in rows(tmp_path / "skip.sqlite"):
        a, b = round(row["input_1"] * 1e3, 9), round(row["input_2"] * 1e3, 9)
        skipped = (a > b and b >= 2) or (a < 1.5 or a + b <= 3)
        assert (row["outcome"] == 1) == skipped, (a, b)


def test_what_cannot_be_solved_is_a_row_with_its_reason(tmp_path):
    path = tmp_path / "bad.yaml"
    text = bracket(
        more="let: {long: 1 m, w: 20 mm}\n"
        "vary: {let: {long: [0 mm, 500 mm], w: [20 mm, -20 mm]}}\n"
    )
    text = text.replace("B: [800 mm, 0, 0]", "B: [long, 0, 0]").replace("width: 20 mm", "width: w")
    path.write_text(text)
    call = sweep(path, tmp_path / "bad.sqlite")
    assert "1 hold, 0 do not, 0 were skipped, 3 could" in " ".join(call.out.split())
    with sqlite3.connect(tmp_path / "bad.sqlite") as db:
        reasons = dict(db.execute("SELECT number, reason FROM variants_named WHERE outcome <> 0"))
    outcomes = [row["outcome"] for row in rows(tmp_path / "bad.sqlite")]
    assert outcomes == [2, 2, 0, 2]
    assert "width" in reasons[3]
    assert all(reasons[number] for number in (0, 1) if number in reasons)


def test_the_shop_rules_out_what_it_has_not_enough_of(tmp_path):
    (tmp_path / "shop.yaml").write_text(
        "catalogue: 1\nstock:\n"
        "  a: {shape: square bar, width: 20 mm, material: S235, price: 2.5, have: 799 mm}\n"
        "  b: {shape: square bar, width: 21 mm, material: S235, price: 3, have: 0.8 m}\n"
        "  c: {shape: square bar, width: 22 mm, material: S235}\n"
    )
    path = tmp_path / "frame.yaml"
    path.write_text(bracket(more="vary: {stock: {bar: {catalogue: shop.yaml}}}\n"))
    sweep(path, tmp_path / "s.sqlite", "--csv", str(tmp_path / "s.csv"))
    got = rows(tmp_path / "s.sqlite")
    assert [row["outcome"] for row in got] == [1, 0, 0]
    assert [row["price"] for row in got][1:] == [0.8 * 3, None]
    table = (tmp_path / "s.csv").read_bytes().decode("utf-8-sig").split("\r\n")
    assert "the shop has 799 mm of a, and 800 mm are needed" in table[1]
    assert len(table) == 5 and table[4] == ""


def test_going_on_after_kills_ends_with_the_same_content(tmp_path):
    count = 60 if SANITIZED else 20000
    text = bracket(more="let: {w: 20 mm}\nvary: {let: {w: {from: 15 mm, to: 30 mm, steps: %d}}}\n" % count)
    path = tmp_path / "long.yaml"
    path.write_text(text.replace("width: 20 mm", "width: w"))
    sweep(path, tmp_path / "whole.sqlite")
    store = tmp_path / "killed.sqlite"
    dice = random.Random(5)
    kills = 0
    for _ in range(12):
        task = subprocess.Popen(
            [COMMAND, "sweep", str(path), "-o", str(store), "--workers", "2"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        time.sleep(dice.uniform(0.0, 0.12))
        task.send_signal(signal.SIGKILL)
        kills += task.wait() == -signal.SIGKILL
    assert kills > 0
    sweep(path, store)
    assert content(store) == content(tmp_path / "whole.sqlite")


def test_a_wish_to_stop_keeps_what_is_there(tmp_path):
    path = tmp_path / "long.yaml"
    path.write_text(
        bracket(more="let: {w: 1 mm}\nvary: {let: {w: {from: 1 mm, to: 9 mm, steps: 100000}}}\n")
    )
    store = tmp_path / "s.sqlite"
    task = subprocess.Popen(
        [COMMAND, "sweep", str(path), "-o", str(store)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    task.stdout.readline()  # how many there are is said before the run
    time.sleep(1.0 if not SANITIZED else 3.0)
    task.send_signal(signal.SIGINT)
    out, err = task.communicate()
    assert task.returncode == 3
    assert "start it again with the same store to go on" in err.decode()
    with sqlite3.connect(store) as db:
        (stored,) = db.execute("SELECT count(*) FROM variants").fetchone()
    assert 0 < stored < 100000


def test_another_file_is_refused_and_nothing_mixed(tmp_path):
    path = tmp_path / "a.yaml"
    path.write_text(bracket(more="let: {a: 1}\nvary: {let: {a: [1, 2]}}\n"))
    store = tmp_path / "s.sqlite"
    sweep(path, store)
    before = content(store)
    path.write_text(bracket(more="let: {a: 1}\nvary: {let: {a: [1, 3]}}\n"))
    call = run("sweep", str(path), "-o", str(store))
    assert call.status == 2
    assert content(store) == before


def test_memory_does_not_grow_with_variants(tmp_path):
    def peak(count):
        path = tmp_path / f"{count}.yaml"
        path.write_text(
            bracket(more="let: {w: 1 mm}\nvary: {let: {w: [1 mm, 2 mm]}, cases: {push: "
                    "{from: 1, to: 2}}, sample: {by: sobol, count: %d}}\n" % count)
        )
        code = (
            "import resource, subprocess, sys\n"
            "subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL)\n"
            "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)\n"
        )
        words = [COMMAND, "sweep", str(path), "-o", str(tmp_path / f"{count}.sqlite")]
        done = subprocess.run(
            [sys.executable, "-c", code, *words], check=True, capture_output=True
        )
        return int(done.stdout)

    if SANITIZED:
        pytest.skip("the sanitizer keeps what was given back")
    few, many = peak(2000), peak(20000)
    # SQLite's own cache, 2 MiB unless told otherwise, fills up in the longer run.
    assert many - few < 4096


def test_json_and_counts(tmp_path):
    path = tmp_path / "a.yaml"
    path.write_text(
        bracket(more="limits: {droop: 7 mm}\nlet: {a: 1}\nvary: {let: {a: [1, 2]}, cases: {push: [1, 9]}}\n")
    )
    call = sweep(path, tmp_path / "s.sqlite", "--json")
    assert call.json == {
        "trivet": call.json["trivet"],
        "variants": 4,
        "stored": 4,
        "checked": 4,
        "skipped": 0,
        "failed": 0,
        "hold": 2,
        "lightest": 0,
        "cheapest": None,
        "stiffest": 0,
        "finished": True,
    }


@pytest.mark.parametrize(
    "words, status, said",
    [
        (["x.yaml"], 2, "option -o: is missing"),
        (["x.yaml", "-o"], 2, "option -o: has no value"),
        (["x.yaml", "-o", "s", "-o", "t"], 2, "option -o: stands twice"),
        (["x.yaml", "-o", "s", "--part", "3"], 2, "option --part"),
        (["x.yaml", "-o", "s", "--part", "9/8"], 2, "option --part"),
        (["x.yaml", "-o", "s", "--part", "1/9"], 2, "more parts than variants"),
        (["x.yaml", "-o", "s", "--workers", "0"], 2, "whole number from 1 to 256"),
        (["x.yaml", "--variant", "2"], 2, "whole number from 0 to 1"),
        (["x.yaml", "-o", "s", "--parts"], 2, "did you mean --part?"),
        (["x.yaml", "y.yaml", "-o", "s"], 2, "one file too many"),
        (["x.yaml", "-o", "no/such/folder/s"], 3, ""),
        (["no.yaml", "-o", "s"], 2, "no.yaml"),
    ],
)
def test_wrong_calls(words, status, said, tmp_path):
    (tmp_path / "x.yaml").write_text(bracket(more="let: {a: 1}\nvary: {let: {a: [1, 2]}}\n"))
    call = run("sweep", *words, cwd=tmp_path)
    assert call.status == status, call.err
    assert said in call.err
