"""CSV read by Python's csv module, against trivet check --json and hand calculations."""

import csv
import io
import json

import pytest
from conftest import DRAWING, FORMULA, LONG, MARKUP, RIGHT_TO_LEFT, STOCK, rack, run

TABLES = ["joints", "tubes", "sections", "cases", "reactions", "movements", "forces", "checks", "bolts",
          "droop", "mounts", "inserts", "cargo", "plates", "not-checked"]
CUT_TABLES = ["pieces", "ends", "saddles", "bends", "holes", "bars", "layout", "buy", "parts", "sums",
              "by-hand"]


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
    assert sorted(path.name for path in folder.iterdir()) == sorted(f"{t}.csv" for t in TABLES + CUT_TABLES)
    return {table: rows_of(folder / f"{table}.csv") for table in TABLES + CUT_TABLES}


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


def test_droop_mounts_cargo_inserts_and_what_was_not_checked(tables, results):
    """The most of each, from the movements, reactions and list of trivet check."""
    answer = results(rack())
    for row, (name, case) in zip(tables["droop"], answer["cases"].items(), strict=True):
        assert row["case"] == guarded(name)
        # At least what the lowest joint moves; between joints it may be more.
        lowest = max(0.0, *(-joint["move"][2] for joint in case["joints"].values()))
        assert float(row["droop (m)"]) >= lowest * (1.0 - 1e-12)
    names = list(answer["cases"])
    for row, mount in zip(tables["mounts"], rack()["mounts"], strict=True):
        forces = [answer["cases"][name]["mounts"][mount]["force"] for name in names]
        moments = [answer["cases"][name]["mounts"][mount]["moment"] for name in names]
        for kind, values in (("pull", [-f[2] for f in forces]), ("push", [f[2] for f in forces]),
                             ("shear", [(f[0] ** 2 + f[1] ** 2) ** 0.5 for f in forces])):
            assert float(row[f"{kind} (N)"]) == pytest.approx(max(0.0, *values), rel=1e-12, abs=1e-12)
            if max(values) > 0.0:
                assert row[f"{kind} in"] == guarded(names[values.index(max(values))])
        assert float(row["moment (N m)"]) == pytest.approx(
            max(sum(m * m for m in moment) ** 0.5 for moment in moments), rel=1e-12)
    assert tables["inserts"] == [{"tube": MARKUP, "joint": "A0", "stock": "plug", "length (m)": "0.040000000000000001"}]
    assert [(row["what"], row["why"]) for row in tables["not-checked"]] == [
        (one["what"], one["why"]) for one in answer["not_checked"]]


def cart():
    """Nasty names with what a workshop knows: a hoop bent out of one tube, a saddle, a miter, a deck."""
    file = {"trivet": 1, "name": FORMULA, "stock": {
        MARKUP: {"shape": "round tube", "diameter": 30, "wall": 2, "material": "S235"},
        "=1+1": {"shape": "round tube", "diameter": 20, "wall": 2, "material": "S235"},
        "base": {"shape": "square tube", "width": 30, "wall": 2, "material": "S235"}}}
    file["joints"] = {"A": [0, 250, 0], "B": [0, -250, 0], "C": [-800, -250, 0], "D": [-800, 250, 0],
                      "AT": [0, 250, 400], "BT": [0, -250, 400], RIGHT_TO_LEFT: [0, 250, 200],
                      "BM": [0, -250, 200]}
    file["tubes"] = {"left": {"through": ["A", "D"], "stock": "base"},
                     "right": {"through": ["B", "C"], "stock": "base"},
                     "rear": {"through": ["D", "C"], "stock": "base"},
                     "front": {"through": ["A", "B"], "stock": "base"},
                     "up": {"through": ["A", RIGHT_TO_LEFT, "AT"], "stock": MARKUP},
                     "over": {"through": ["AT", "BT"], "stock": MARKUP},
                     "down": {"through": ["BT", "BM", "B"], "stock": MARKUP},
                     "-cross": {"through": [RIGHT_TO_LEFT, "BM"], "stock": "=1+1"}}
    file["mounts"] = {name: {"hold": "all"} for name in "ABCD"}
    file["decks"] = {"board": {"on": ["A", "B", "C", "D"], "mass": "3 kg", "screws": {
        "thread": "M6", "grade": "8.8", "plate": {"thickness": 6, "material": "6061-T6", "edge": 15}}}}
    file["cargo"] = {"sack": {"mass": "20 kg", "centre": [-400, 0, 100], "on": "board", "grip": "soft"},
                     "box": {"items": {"@lid": "1 kg", "rest": "2 kg"}, "centre": [-400, 0, 100],
                             "on": "board", "grip": "soft"}}
    file["cases"] = {"parked": {"gravity": [0, 0, -1]}}
    file["shop"] = {"bars": [{"length": "6 m", "price": 20}, {"length": "3 m", "price": 11}],
                    "bent": {"'hoop": {"tubes": ["up", "over", "down"], "radius": "90 mm"}}}
    return file


@pytest.fixture
def workshop(hand_over, tmp_path):
    folder = hand_over(cart(), "tables/")
    tables = {table: rows_of(folder / f"{table}.csv") for table in TABLES + CUT_TABLES}
    call = run("cut", tmp_path / "rack.yaml", "--json")
    assert call.status == 0
    return tables, json.loads(call.out)


def numbers(row, *headings):
    return [float(row[heading]) if row[heading] else None for heading in headings]


def test_pieces_ends_saddles_and_bends_are_those_of_cut(workshop):
    tables, cut = workshop
    pieces = iter(tables["pieces"])
    ends, saddles, bends = iter(tables["ends"]), iter(tables["saddles"]), iter(tables["bends"])
    for piece in cut["pieces"]:
        row = next(pieces)
        assert [row["number"], row["piece"], row["kind"], row["stock"]] == [
            str(piece["number"]), guarded(piece["name"]), piece["kind"], guarded(piece["stock"])]
        assert numbers(row, "long to long (m)", "short to short (m)", "centre line (m)", "turn (rad)",
                       "mass (kg)") == [piece[key] for key in ("long", "short", "centre", "turn", "mass")]
        for end in piece["ends"] if piece["kind"] != "insert" else []:
            row = next(ends)
            assert [row["piece"], row["joint"], row["cut"], row["onto"]] == [
                str(piece["number"]), guarded(end["joint"]), end["cut"],
                guarded(end["onto"]) if end["onto"] else ""]
            assert numbers(row, "off square (rad)", "long point (rad)", "beyond the model (m)",
                           "long point beyond (m)", "short point beyond (m)") == [
                end[key] for key in ("angle", "towards", "beyond", "long beyond", "short beyond")]
            for round_, depth in zip(*(end["saddle"][key] for key in ("round", "depth"))
                                     if "saddle" in end else ((), ())):
                assert numbers(next(saddles), "round (rad)", "deep (m)") == [round_, depth]
        for bend in piece["bends"]:
            row = next(bends)
            assert (row["piece"], row["joint"]) == (str(piece["number"]), guarded(bend["joint"]))
            assert numbers(row, "by (rad)", "turn (rad)", "from (m)", "to (m)") == [
                bend[key] for key in ("angle", "turn", "from", "to")]
    assert len(tables["saddles"]) == 72 and len(tables["bends"]) == 2
    assert all(next(rows, None) is None for rows in (pieces, ends, saddles, bends))


def test_holes_bars_parts_and_sums_are_those_of_cut(workshop):
    tables, cut = workshop
    for row, hole in zip(tables["holes"], cut["holes"], strict=True):
        assert row["piece"] == (str(hole["piece"]) if hole["piece"] else "")
        assert (row["bolts of"], row["bolt"], row["in"]) == (
            hole["bolts of"], str(hole["bolt"]), hole["in"])
        assert row["tapped"] == ("yes" if hole["tapped"] else "no")
        assert numbers(row, "at (m)", "at from long point (m)", "side (rad)", "drill (m)") == [
            hole[key] for key in ("at", "at from long point", "towards", "diameter")]
    for row, bar in zip(tables["bars"], cut["bars"], strict=True):
        assert (row["bar"], row["stock"]) == (str(bar["number"]), guarded(bar["stock"]))
        assert row["to buy"] == ("yes" if bar["bought"] else "no")
        assert numbers(row, "length (m)", "price", "rest (m)") == [
            bar[key] for key in ("length", "price", "rest")]
    layout = [(str(bar["number"]), str(place), str(piece)) for bar in cut["bars"]
              for place, piece in enumerate(bar["pieces"], 1)]
    assert [(row["bar"], row["place"], row["piece"]) for row in tables["layout"]] == layout
    for row, stock in zip(tables["buy"], cut["stocks"], strict=True):
        assert [row["stock"], row["to buy"]] == [guarded(stock["stock"]), str(stock["bought"])]
        assert numbers(row, "length (m)", "mass (kg)", "price", "rest (m)") == [
            stock[key] for key in ("bought length", "bought mass", "price", "rest")]
    assert [(row["number"], row["small part"]) for row in tables["parts"]] == [
        (str(part["count"]), part["part"]) for part in cut["parts"]]
    (row,) = tables["sums"]
    assert numbers(row, *row) == list(cut["totals"].values())
    assert [row["note"] for row in tables["by-hand"]] == [guarded(note) for note in cut["notes"]]


def test_plates_and_cargo_by_hand(workshop):
    """Holes at the joints, 6.6 mm after ISO 273 medium; items of a cargo as in the file."""
    tables, _ = workshop
    assert [(row["deck"], row["what"], row["number"]) for row in tables["plates"]] == [
        ("board", "hole", str(i)) for i in range(1, 5)]
    for row, place in zip(tables["plates"], ((0, 0.25), (0, -0.25), (-0.8, -0.25), (-0.8, 0.25))):
        assert numbers(row, "x (m)", "y (m)") == pytest.approx(place, abs=1e-15)
        assert float(row["wide (m)"]) == pytest.approx(0.0066, rel=1e-14)
    found = [(row["cargo"], row["item"], float(row["mass (kg)"])) for row in tables["cargo"]]
    assert ("box", "'@lid", 1.0) in found and ("box", "rest", 2.0) in found
    assert sum(mass for name, _, mass in found if name == "sack") == 20.0


def test_a_frame_that_cannot_be_cut_has_its_other_tables(write, tmp_path):
    file = cart()
    file["shop"] = {"bars": ["0.3 m"]}
    path = write(file)
    call = run("export", path, "-o", f"{tmp_path}/tables/")
    assert (call.status, call.err) == (0, "")
    assert "None are of a cut list: " in call.out
    names = sorted(one.name for one in (tmp_path / "tables").iterdir())
    assert names == sorted(f"{t}.csv" for t in TABLES)
    call = run("export", path, "-o", tmp_path / "pieces.csv")
    assert call.status == 2 and "the longest bar" in call.err
    assert not (tmp_path / "pieces.csv").exists()


def test_a_cut_list_needs_no_solution(write, tmp_path):
    """A frame that swings on its mounts has no result, but pieces."""
    file = cart()
    file["mounts"] = {"A": {"hold": "position"}}
    path = write(file)
    assert run("export", path, "-o", tmp_path / "checks.csv").status == 3
    assert run("export", path, "-o", tmp_path / "pieces.csv").status == 0


def test_one_table_is_the_same_as_among_all(hand_over):
    folder = hand_over(rack(), "tables/")
    for table in TABLES + CUT_TABLES:
        assert hand_over(rack(), f"{table}.csv").read_bytes() == (folder / f"{table}.csv").read_bytes()

