"""CSV read by Python's csv module, against trivet check --json and hand calculations."""

import csv
import io

import pytest
from conftest import DRAWING, FORMULA, LONG, MARKUP, RIGHT_TO_LEFT, STOCK, rack

TABLES = ["joints", "tubes", "sections", "cases", "reactions", "movements", "forces", "checks", "bolts"]


def rows_of(path):
    """Each row as a map of its headings; the text must be as RFC 4180 has it."""
    text = path.read_bytes().decode("utf-8")
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert {len(row) for row in rows} == {len(rows[0])}
    return [dict(zip(rows[0], row)) for row in rows[1:]]


@pytest.fixture
def tables(hand_over):
    folder = hand_over(rack(), "tables/")
    assert sorted(path.name for path in folder.iterdir()) == sorted(f"{t}.csv" for t in TABLES)
    return {table: rows_of(folder / f"{table}.csv") for table in TABLES}


def guarded(name):
    """As a spreadsheet gets it: a first character that begins a formula, or marks a text, is marked."""
    return f"'{name}" if name[0] in "=+-@'" else name


def test_names_come_back_and_begin_no_formula(tables):
    assert [row["tube"] for row in tables["tubes"]] == [guarded(name) for name in STOCK]
    assert [row["stock"] for row in tables["sections"]][: len(STOCK)] == [guarded(n) for n in STOCK]
    assert {row["case"] for row in tables["cases"]} == {guarded(n) for n in rack()["cases"]}
    fields = [field for rows in tables.values() for row in rows for field in row.values()]
    for field in fields:
        is_number = field.replace("inf", "0").lstrip("-").replace(".", "").replace("e-", "").isdigit()
        assert is_number or field[:1] not in ("=", "+", "-", "@")
    for name in (MARKUP, RIGHT_TO_LEFT, LONG, DRAWING):
        assert name in fields


def test_joints_and_tubes(tables):
    file = rack()
    for row, (name, place) in zip(tables["joints"], file["joints"].items()):
        assert row["joint"] == guarded(name) and row["droop limit (m)"] == ""
        assert [float(row[f"{axis} (m)"]) for axis in "xyz"] == pytest.approx(
            [0.001 * x for x in place], rel=1e-15, abs=1e-18
        )
    for number, (row, tube) in enumerate(zip(tables["tubes"], file["tubes"].values())):
        assert row["number"] == str(number)
        first, last = (file["joints"][joint] for joint in tube["through"])
        length = sum((a - b) ** 2 for a, b in zip(first, last)) ** 0.5 / 1000
        assert float(row["length (m)"]) == pytest.approx(length, rel=1e-14)
        assert [row["first joint"], row["last joint"]] == [guarded(j) for j in tube["through"]]


def test_sections_by_hand(tables):
    rows = {row["stock"]: row for row in tables["sections"]}
    bar = rows[guarded(FORMULA)]  # 12 x 12 mm: h^4/12, h^3/6, h^3/4
    assert float(bar["area (m^2)"]) == pytest.approx(144e-6, rel=1e-14)
    assert float(bar["Iyy (m^4)"]) == pytest.approx(1728e-12, rel=1e-14)
    assert float(bar["elastic modulus y (m^3)"]) == pytest.approx(288e-9, rel=1e-14)
    assert float(bar["plastic modulus z (m^3)"]) == pytest.approx(432e-9, rel=1e-12)
    assert float(bar["mass per length (kg/m)"]) == pytest.approx(144e-6 * 7850, rel=1e-14)
    assert rows["values"]["plastic modulus y (m^3)"] == ""


def test_results_are_those_of_check(tables, results):
    answer = results(rack())
    for table, key, names in [
        ("movements", "joints", ["move", "turn"]),
        ("reactions", "mounts", ["force", "moment"]),
    ]:
        rows = iter(tables[table])
        for case_name, case in answer["cases"].items():
            for name, thing in case[key].items():
                row = list(next(rows).values())
                assert row[:2] == [guarded(case_name), guarded(name)]
                assert list(map(float, row[2:])) == thing[names[0]] + thing[names[1]]
        assert next(rows, None) is None


def test_forces_are_those_of_check(tables, results):
    rows = iter(tables["forces"])
    for case_name, case in results(rack())["cases"].items():
        number = 0
        for tube, spans in case["tubes"].items():
            for span in spans:
                for end, joint in [("start", "from"), ("end", "to")]:
                    row = next(rows)
                    assert (row["case"], row["tube"]) == (guarded(case_name), guarded(tube))
                    assert (row["span"], row["end"]) == (str(number), end)
                    assert row["joint"] == (guarded(span[joint]) if span[joint] else "")
                    assert [float(v) for v in list(row.values())[6:]] == list(span[end].values())
                number += 1
    assert next(rows, None) is None


def test_checks_are_those_of_check(tables, results):
    checks = results(rack())["checks"]
    assert len(checks) == len(tables["checks"]) > 10
    for row, check in zip(tables["checks"], checks):
        assert row["check"] == check["check"] and row["verdict"] == check["verdict"]
        assert (row["where"], row["case"]) == (guarded(check["where"]), guarded(check["case"]))
        for key, heading in [
            ("demand", "demand"), ("limit", "limit"), ("utilisation", "utilisation (1)"),
            ("at", "at (m)"),
        ]:
            assert (float(row[heading]) if row[heading] else None) == check[key]
        assert row["unit"] == {"yield": "Pa", "cracking": "Pa"}.get(check["check"], row["unit"])


def test_bolts_and_their_torques(hand_over):
    file = rack()
    file["mounts"]["A0"]["bolts"] = {"thread": "M6", "grade": "8.8", "torque": "8 N*m"}
    rows = rows_of(hand_over(file, "bolts.csv"))
    assert len(rows) == 1 and rows[0]["where"] == "mount A0"
    assert float(rows[0]["torque said (N m)"]) == 8.0
    # T = K F d with K = 0.2, d = 6 mm; a quarter either way.
    assert float(rows[0]["preload (N)"]) == pytest.approx(8 / (0.2 * 0.006), rel=1e-14)
    assert float(rows[0]["most preload (N)"]) == pytest.approx(1.25 * 8 / (0.2 * 0.006), rel=1e-14)


def test_one_table_is_the_same_as_among_all(hand_over):
    folder = hand_over(rack(), "tables/")
    for table in TABLES:
        assert hand_over(rack(), f"{table}.csv").read_bytes() == (folder / f"{table}.csv").read_bytes()

