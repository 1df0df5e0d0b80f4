"""Picking the best that holds. The referee is brute force over all rows of a sweep."""

import os
import random
import sqlite3

import pytest
from conftest import run

SANITIZED = bool(os.environ.get("TRIVET_SANITIZE"))

# A propped bracket: loads find their way through arm and prop by stiffness.
FRAME = """\
trivet: 1
name: Propped bracket
let: {reach: 500 mm}
stock:
  arm: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235, price: 3}
  prop: {shape: round bar, diameter: 10 mm, material: S235, price: 2}
joints: {A: [0, 0, 0], B: [reach * 0.6, 0, 0], C: [reach, 0, 0], D: [0, 0, -300 mm]}
tubes:
  arm: {through: [A, B, C], stock: arm, weld: none}
  prop: {through: [D, B], stock: prop, weld: none}
mounts: {A: {hold: all}, D: {hold: all}}
cases: {load: {forces: [{on: C, force: [0, 100 N, %d N]}]}, side: {gravity: [0, 2, -1]}}
limits: {droop: %.1f mm}
vary:
  let: {reach: [450 mm, 500 mm]}
  stock: {arm: {catalogue: shop.yaml}, prop: {catalogue: shop.yaml}}
"""


def write_case(folder, dice):
    lines = ["catalogue: 1", "stock:"]
    for i in range(dice.randint(2, 6)):
        size = dice.randint(8, 30)
        price = round(dice.uniform(1, 6), 2)
        shape = (
            f"square tube, width: {size} mm, wall: {dice.choice([1, 1.5, 2])} mm"
            if dice.random() < 0.6
            else f"round bar, diameter: {size} mm"
        )
        have = f", have: {dice.randint(300, 1200)} mm" if dice.random() < 0.3 else ""
        lines.append(
            f"  s{i}: {{shape: {shape}, material: {dice.choice(['S235', 'E355'])},"
            f" price: {price}{have}}}"
        )
    (folder / "shop.yaml").write_text("\n".join(lines) + "\n")
    path = folder / "frame.yaml"
    path.write_text(FRAME % (-dice.randint(50, 1500), dice.uniform(0.5, 6)))
    return path


def all_rows(path, store):
    call = run("sweep", str(path), "-o", str(store))
    assert call.status == 0, call.err
    with sqlite3.connect(store) as db:
        db.row_factory = sqlite3.Row
        return list(db.execute("SELECT * FROM variants ORDER BY number"))


def holds(row):
    lines = [row[line] for line in ("overload", "cracking", "service")]
    return row["outcome"] == 0 and lines[0] in (1, 2) and all(v <= 2 for v in lines)


@pytest.mark.parametrize("seed", range(4 if SANITIZED else 100))
def test_pick_is_brute_force(seed, tmp_path):
    dice = random.Random(seed)
    path = write_case(tmp_path, dice)
    rows = all_rows(path, tmp_path / "runs.sqlite")
    aim = ("mass", "price", "droop")[seed % 3]
    ordered = sorted((row[aim], row["number"]) for row in rows if holds(row))
    call = run("pick", str(path), "--json", "--least", aim, "--more", "2", "--workers", "2")
    assert call.status == (0 if ordered else 1), call.err
    answer = call.json
    assert answer["proven"] is True
    assert answer["found"] is bool(ordered)
    assert [(row[aim], row["number"]) for row in answer["best"]] == ordered[:3]
    assert answer["ruled out"] == sum(row["outcome"] == 1 for row in rows)
    if aim != "droop" and ordered:
        better = [row for row in rows if row["outcome"] != 1 and row[aim] < ordered[0][0]]
        lost = answer["would be better but fail"]
        assert [row["number"] for row in lost] == [
            number for _, number in sorted((r[aim], r["number"]) for r in better)[::-1][:10]
        ]
        assert all(not row["holds"] for row in lost)


def test_both_outcomes_were_met(tmp_path):
    """The random cases above hold something and, in others, nothing."""
    found = set()
    for seed in range(40):
        path = write_case(tmp_path, random.Random(seed))
        found.add(run("pick", str(path)).status)
        if found == {0, 1}:
            return
    assert found == {0, 1}


def test_the_page_says_what_and_why(tmp_path):
    for seed in range(40):
        path = write_case(tmp_path, random.Random(seed))
        call = run("pick", str(path))
        if call.status == 0 and "why they lost" in call.out:
            break
    text = " ".join(call.out.split())
    assert "The lightest that holds, then the next" in text
    assert "Lighter, and why they lost: the nearest first" in text
    assert "does not hold: " in text
    assert "Proven: every lighter one was solved and does not hold." in text
    assert "Before you trust it" in text


def test_an_early_stop_says_the_gap(tmp_path):
    path = write_case(tmp_path, random.Random(1))
    (tmp_path / "shop.yaml").write_text(
        "catalogue: 1\nstock:\n"
        "  thin: {shape: round bar, diameter: 4 mm, material: S235, price: 1}\n"
        "  thick: {shape: round bar, diameter: 40 mm, material: S235, price: 9}\n"
    )
    masses = sorted(row["mass"] for row in all_rows(path, tmp_path / "runs.sqlite"))
    call = run("pick", str(path), "--json", "--most", "2")
    assert call.status == 1
    assert call.json["proven"] is False
    assert call.json["bound"] == masses[2]
    page = run("pick", str(path), "--most", "2")
    assert "Not proven: the search stopped where --most says." in " ".join(page.out.split())


def test_price_is_needed_to_pick_by_it(tmp_path):
    path = write_case(tmp_path, random.Random(1))
    (tmp_path / "shop.yaml").write_text(
        "catalogue: 1\nstock: {a: {shape: round bar, diameter: 20 mm, material: S235}}\n"
    )
    call = run("pick", str(path), "--least", "price")
    assert call.status == 2
    assert "give all of it a price for a metre" in call.err


def test_wrong_aim(tmp_path):
    path = write_case(tmp_path, random.Random(1))
    call = run("pick", str(path), "--least", "beauty")
    assert call.status == 2
    assert "write mass, price or droop" in call.err


def test_nothing_to_vary():
    call = run("pick", str(os.path.join(os.path.dirname(__file__), "../../examples/tank-rack.yaml")))
    assert call.status == 2
    assert "nothing is varied" in call.err
