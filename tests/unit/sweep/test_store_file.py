"""A store as another program finds it: Python's sqlite3 reads what the library wrote.

The views are held against the same questions answered in plain Python, the tables against the
section "The store of a sweep" of DEVELOPERS.md. One test kills the writing program over and over.
"""
import collections
import csv
import io
import math
import os
import pathlib
import random
import re
import signal
import sqlite3
import subprocess
import time

import pytest

FEED = os.environ["FEED_STORE"]
ROOT = pathlib.Path(os.environ["SOURCE_ROOT"])
UNREADABLE, UNWRITABLE = 26, 41
HOLDS, TIGHT, MAY_CRACK, FAILS = 1, 2, 3, 4
ROWS = 3000


def command(path, count, first=0, end=None, batch=100, checks=1):
    return [FEED, "feed", str(path), str(count), str(first), str(count if end is None else end),
            str(batch), str(checks)]


def run(words):
    done = subprocess.run(words, capture_output=True, text=True, check=False, timeout=60)
    return done.returncode, done.stdout.strip(), done.stderr.strip()


def feed(path, count, **more):
    status, digest, complaint = run(command(path, count, **more))
    assert status == 0, complaint
    return digest.splitlines()[-1]


def rows_of(path, sql):
    connection = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    try:
        return connection.execute(sql).fetchall()
    finally:
        connection.close()


def content(path):
    """All that a store says, texts in the place of their numbers, in order."""
    return [rows_of(path, sql) for sql in (
        "SELECT * FROM runs", "SELECT * FROM inputs ORDER BY position",
        "SELECT * FROM choices ORDER BY input, choice",
        "SELECT * FROM variants_named ORDER BY number",
        "SELECT * FROM checks_named ORDER BY variant, place",
        "SELECT text FROM texts ORDER BY text")]


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    path = tmp_path_factory.mktemp("store") / "runs.sqlite"
    feed(path, ROWS)
    return path


@pytest.fixture(scope="module")
def variants(store):
    connection = sqlite3.connect(store)
    connection.row_factory = sqlite3.Row
    found = connection.execute("SELECT * FROM variants ORDER BY number").fetchall()
    connection.close()
    return found


def holds(v):
    return (v["outcome"] == 0 and v["overload"] in (HOLDS, TIGHT)
            and v["cracking"] <= TIGHT and v["service"] <= TIGHT)


def fails(v):
    return v["outcome"] == 0 and max(v["overload"], v["cracking"], v["service"]) >= MAY_CRACK


def worst_used(v):
    known = [v[line + "_used"] for line in ("overload", "cracking", "service")
             if v[line + "_used"] is not None]
    return max(known) if known else None


def numbers(store, view):
    return [row[0] for row in rows_of(store, f"SELECT number FROM {view}")]


# ---- The file ----

def test_file_says_what_it_is(store):
    assert rows_of(store, "PRAGMA application_id") == [(int.from_bytes(b"Trvt", "big"),)]
    assert rows_of(store, "PRAGMA user_version") == [(1,)]
    assert rows_of(store, "PRAGMA integrity_check") == [("ok",)]
    assert rows_of(store, "PRAGMA journal_mode") == [("delete",)]


def test_no_gap_and_no_twin(variants):
    assert [v["number"] for v in variants] == list(range(ROWS))


def test_variants_need_no_index(store):
    indices = rows_of(store, "SELECT tbl_name FROM sqlite_master WHERE type = 'index'")
    assert set(indices) <= {("texts",), ("choices",), ("checks",)}
    pages = dict(rows_of(store, "SELECT name, rootpage FROM sqlite_master WHERE tbl_name = 'variants'"))
    assert list(pages) == ["variants"]


def test_doubles_are_whole_doubles(variants):
    kinds = collections.Counter(type(v["droop"]) for v in variants)
    assert set(kinds) == {float, type(None)}
    assert math.copysign(1.0, variants[0]["droop"]) == -1.0 and variants[0]["droop"] == 0.0
    assert variants[2]["overload_used"] == math.inf
    assert variants[2]["droop"] == 5e-324
    assert variants[1]["price"] is None


def test_sqlite_shell_reads_it(store):
    said = subprocess.run(["sqlite3", str(store), "SELECT count(*) FROM best_by_mass"],
                          capture_output=True, text=True, check=True).stdout
    assert int(said) > 0


# ---- Views ----

def test_best_by_mass(store, variants):
    held = [v for v in variants if holds(v)]
    assert len(held) > 100
    assert sorted(numbers(store, "holding")) == [v["number"] for v in held]
    held.sort(key=lambda v: (v["mass"], v["number"]))
    assert numbers(store, "best_by_mass") == [v["number"] for v in held]


def test_trade_off(store, variants):
    held = [v for v in variants if holds(v)]
    front = [v for v in held if not any(
        o["mass"] <= v["mass"] and o["droop"] <= v["droop"]
        and (o["mass"] < v["mass"] or o["droop"] < v["droop"]) for o in held)]
    front.sort(key=lambda v: (v["mass"], v["number"]))
    assert numbers(store, "trade_off") == [v["number"] for v in front]


def test_trade_off_keeps_twins_and_drops_the_dominated(store, tmp_path):
    path = tmp_path / "twins.sqlite"
    path.write_bytes(store.read_bytes())
    connection = sqlite3.connect(path)
    connection.execute("UPDATE variants SET outcome = 1")
    for number, mass, droop in [(1, 2.0, 5.0), (2, 2.0, 5.0), (3, 2.0, 6.0), (4, 3.0, 5.0),
                                (5, 3.0, 4.0), (6, 4.0, 4.5), (7, 5.0, 1.0), (8, 1.0, None)]:
        connection.execute("UPDATE variants SET outcome = 0, overload = 1, cracking = 0,"
                           " service = 2, mass = ?, droop = ? WHERE number = ?",
                           (mass, droop, number))
    connection.commit()
    assert [row[0] for row in connection.execute("SELECT number FROM trade_off")] == [1, 2, 5, 7]
    connection.close()


def test_worst_and_first_failing(store, variants):
    failing = [v for v in variants if fails(v)]
    assert numbers(store, "first_failing") == [failing[0]["number"]]
    assert sorted(numbers(store, "failing")) == [v["number"] for v in failing]
    failing.sort(key=lambda v: (-worst_used(v), v["number"]))
    assert numbers(store, "worst_first") == [v["number"] for v in failing]


def test_counts(store, variants):
    words = dict(rows_of(store, "SELECT number, text FROM verdicts"))
    assert words == {0: "not checked", 1: "holds", 2: "tight", 3: "may crack", 4: "fails"}
    solved = [v for v in variants if v["outcome"] == 0]
    counted = collections.Counter((line, words[v[line]]) for v in solved
                                  for line in ("overload", "cracking", "service"))
    assert {(line, word): n for line, word, n in
            rows_of(store, "SELECT * FROM count_by_verdict")} == counted
    outcomes = collections.Counter(v["outcome"] for v in variants)
    assert rows_of(store, "SELECT * FROM count_by_outcome") == [
        ("solved", outcomes[0]), ("skipped", outcomes[1]), ("failed", outcomes[2])]
    texts = dict(rows_of(store, "SELECT id, text FROM texts"))
    governing = collections.Counter(texts[v["governs_check"]] for v in solved)
    failing = collections.Counter(texts[v["governs_check"]] for v in solved if fails(v))
    assert sorted(rows_of(store, "SELECT * FROM count_by_governing")) == sorted(
        (name, count, failing[name]) for name, count in governing.items())


def test_named_view_uses_the_users_names(store, variants):
    connection = sqlite3.connect(store)
    connection.row_factory = sqlite3.Row
    texts = dict(connection.execute("SELECT id, text FROM texts").fetchall())
    rails = [row[0] for row in connection.execute(
        "SELECT text FROM choices WHERE input = 5 ORDER BY choice")]
    for named, plain in zip(connection.execute("SELECT * FROM variants_named ORDER BY number"),
                            variants):
        assert named["reach"] == plain["input_1"]
        assert named["=brace"] == plain["input_4"]
        assert named["rail"] == rails[plain["input_5"]]
        assert named["mass (input 6)"] in ("empty", "half full", "@full")
        assert named["mass"] == plain["mass"]
        assert named["reason"] == texts.get(plain["reason"])
        assert named["governs_where"] == texts.get(plain["governs_where"])
        assert named["worst_used"] == worst_used(plain)
        assert named["lines_not_checked"] == [
            plain[line] for line in ("overload", "cracking", "service")].count(0)
    connection.close()


def test_csv_is_what_the_table_says(store, variants):
    status, _, complaint = run([FEED, "csv", str(store)])
    assert status == 0, complaint
    text = subprocess.run([FEED, "csv", str(store)], capture_output=True, check=True).stdout
    lines = list(csv.reader(io.StringIO(text.decode("utf-8-sig"), newline="")))
    assert text.count(b"\r\n") == ROWS + 1 and text.count(b"\n") == ROWS + 1
    head = lines[0]
    assert len(lines) == ROWS + 1 and all(len(line) == len(head) for line in lines)
    for line, v in zip(lines[1:], variants):
        cells = dict(zip(head, line))
        assert int(cells["variant"]) == v["number"]
        # Fifteen digits: half a unit of the last.
        assert float(cells["reach (mm)"]) == pytest.approx(1000 * v["input_1"], rel=5e-15)
        if v["mass"] is None:
            assert cells["mass (kg)"] == ""
        else:
            assert float(cells["mass (kg)"]) == pytest.approx(v["mass"], rel=5e-15)


# ---- What DEVELOPERS.md says of it ----

def documented():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = re.search(r"^## The store of a sweep\n(.*?)^## ", text, re.M | re.S).group(1)
    tables = {}
    for line in section.splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if line.startswith("| `") and len(cells) >= 3:
            for table in re.findall(r"`(\w+)`", cells[0]):
                for column in re.findall(r"`(\w+)`", cells[1]):
                    tables.setdefault(table, []).append(column)
    views = {name for line in section.splitlines() if line.startswith("- `")
             for name in re.findall(r"`(\w+)`", line.split(":")[0])}
    return tables, views


def test_every_table_column_and_view_is_documented(store):
    tables, views = documented()
    found = {}
    for (name,) in rows_of(store, "SELECT name FROM sqlite_master WHERE type = 'table'"):
        found[name] = [re.sub(r"^input_\d+$", "input_N", row[1]) for row in
                       rows_of(store, f"PRAGMA table_info({name})")]
        found[name] = list(dict.fromkeys(found[name]))
    assert tables == found
    assert views == {name for (name,) in
                     rows_of(store, "SELECT name FROM sqlite_master WHERE type = 'view'")}


# ---- Files that are not ours, or not of our time ----

def test_other_database_is_left_untouched(tmp_path):
    for mode in ("DELETE", "WAL"):
        path = tmp_path / f"ledger-{mode}.sqlite"
        connection = sqlite3.connect(path)
        connection.execute(f"PRAGMA journal_mode = {mode}")
        connection.execute("CREATE TABLE runs(number INTEGER PRIMARY KEY)")
        connection.commit()
        before = {entry.name: entry.read_bytes() for entry in tmp_path.iterdir()
                  if not entry.name.endswith("-shm")}
        status, _, complaint = run(command(path, 10))
        assert status == UNREADABLE
        assert complaint == (f"{path}: this is no store of a sweep; give another name; the file was "
                             "left as it is")
        assert before == {entry.name: entry.read_bytes() for entry in tmp_path.iterdir()
                          if not entry.name.endswith("-shm")}
        connection.close()


def test_store_of_a_later_format_is_left_untouched(store, tmp_path):
    path = tmp_path / "later.sqlite"
    path.write_bytes(store.read_bytes())
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA user_version = 2")
    connection.commit()
    connection.close()
    before = path.read_bytes()
    status, _, complaint = run(command(path, ROWS))
    assert (status, complaint) == (
        UNREADABLE, f"{path}: this store has format 2, this version knows 1; read it with the "
        "version that made it")
    assert path.read_bytes() == before


def test_missing_tables_are_damage(store, tmp_path):
    for table in ("runs", "variants", "texts"):
        path = tmp_path / f"{table}.sqlite"
        path.write_bytes(store.read_bytes())
        connection = sqlite3.connect(path)
        connection.execute(f"DROP TABLE {table}")
        connection.commit()
        connection.close()
        status, _, complaint = run([FEED, "csv", str(path)])
        assert status == UNREADABLE
        assert f"the store is damaged: no such table: {table}" in complaint.replace("main.", "")


def test_store_that_somebody_has_changed(store, tmp_path):
    for change in ("DELETE FROM variants WHERE number = 2999", "DELETE FROM runs",
                   "UPDATE runs SET end = -5", "INSERT INTO choices VALUES(77, 0, 'x')",
                   "UPDATE inputs SET kind = 9", "UPDATE runs SET file = NULL || 'x' WHERE 0"):
        path = tmp_path / "changed.sqlite"
        path.write_bytes(store.read_bytes())
        connection = sqlite3.connect(path)
        connection.execute(change)
        connection.commit()
        connection.close()
        status, _, complaint = run([FEED, "csv", str(path)])
        if change.endswith("WHERE 0"):
            assert status == 0
        else:
            assert status == UNREADABLE and "damaged" in complaint, change


def test_disk_that_is_full(tmp_path):
    """A small file system, where one can be mounted; test_store_refusals limits files anywhere."""
    place = tmp_path / "small"
    place.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=400k", "trivet-test", str(place)],
                             capture_output=True, check=False).returncode == 0
    if not mounted:
        pytest.skip("no file system can be mounted here")
    try:
        path = place / "runs.sqlite"
        status, _, complaint = run(command(path, 20000))
        assert (status, complaint) == (
            UNWRITABLE, f"{path}: the disk is full; make room and start again: the sweep goes on "
            "where it was")
        put = rows_of(path, "SELECT count(*), max(number) + 1 FROM variants")[0]
        assert put[0] == put[1] > 0 and put[0] % 100 == 0
        subprocess.run(["mount", "-o", "remount,size=20m", str(place)], check=True)
        assert feed(path, 20000) == feed(tmp_path / "other.sqlite", 20000)
        subprocess.run(["mount", "-o", "remount,ro", str(place)], check=True)
        status, _, complaint = run(command(place / "new.sqlite", 20000))
        assert status == UNWRITABLE and "this file cannot be written" in complaint
        assert run([FEED, "csv", str(path)])[0] == 0
    finally:
        subprocess.run(["umount", str(place)], check=True)


# ---- Killed at any moment ----

def kill_after(words, seconds, waits_for_start=False):
    """Whether the program was killed before it was done."""
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as program:
        if waits_for_start:
            program.stdout.readline()
        time.sleep(seconds)
        program.send_signal(signal.SIGKILL)
        complaint = program.communicate()[1]
        assert program.returncode in (0, -signal.SIGKILL), complaint
        return program.returncode != 0


def test_killed_at_fifty_moments_it_goes_on_where_it_was(tmp_path):
    kills_wanted, count = 50, 30000
    seed = random.randrange(1 << 30)
    print("seed", seed)
    dice = random.Random(seed)
    straight = tmp_path / "straight.sqlite"
    began = time.monotonic()
    digest = feed(straight, count, batch=20)
    whole = time.monotonic() - began
    wanted = content(straight)
    kills, number, ends = 0, 0, set()
    path = tmp_path / "0.sqlite"
    while kills < kills_wanted:
        # One in five at any moment from before the file is there, the others among the batches.
        is_blind = kills % 5 == 0
        seconds = dice.random() * whole * (0.2 if is_blind else 0.04)
        if kill_after(command(path, count, batch=20), seconds, not is_blind):
            kills += 1
            if path.exists() and path.stat().st_size > 0:
                try:
                    ends.add(rows_of(path, "SELECT count(*) FROM variants")[0][0])
                except sqlite3.OperationalError as error:
                    # Killed while the tables were made: a reader may not mend the file.
                    assert "variants" in str(error) or "readonly" in str(error), error
        else:
            assert feed(path, count, batch=20) == digest and content(path) == wanted
            number += 1
            assert number < 20, "hardly any run is met before its end"
            path = tmp_path / f"{number}.sqlite"
    assert feed(path, count, batch=20) == digest
    assert content(path) == wanted
    print(f"{kills} kills, {number + 1} stores, {len(ends)} different ends")
    assert len(ends) >= 20 and all(end % 20 == 0 for end in ends)


def test_killed_merge_goes_on_where_it_was(tmp_path):
    count, cuts = 60000, [0, 20000, 20500, 60000]
    parts = [tmp_path / f"part-{i}.sqlite" for i in range(3)]
    for path, first, end in zip(parts, cuts, cuts[1:]):
        feed(path, count, first=first, end=end, batch=2000, checks=0)
    digest = feed(tmp_path / "straight.sqlite", count, batch=2000, checks=0)
    words = [FEED, "merge", str(tmp_path / "all.sqlite"), *map(str, reversed(parts))]
    kills = sum(kill_after(words, 0.01 * i) for i in range(1, 9))
    assert kills > 0
    assert run(words) == (0, digest, "")
