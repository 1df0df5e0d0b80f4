"""The report's words: what check says, with every number; names that would spoil it."""

import json
import re
from html.parser import HTMLParser

import pytest
import yaml
from conftest import DESIGNS, EXAMPLES, NASTY, ROOT, WORKSHOP, answer, page, run
from page_reader import Reader, cells, plain, read

FILES = [*EXAMPLES, *DESIGNS, NASTY, WORKSHOP]
IDS = [path.stem for path in FILES]


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_it_says_the_verdict_as_check_does(path):
    reader = read(path)
    told = answer("check", path)
    assert told["verdict"].upper() in plain(reader.sections["verdict"])
    rows = {row[0].split(" ")[0].replace("does", ""): row for row in cells(reader, "verdict")[1:]}
    for line, said in told["lines"].items():
        row = next(row for name, row in rows.items() if name.startswith(line))
        assert row[1:] == [said["verdict"].upper(), plain(said["sentence"])]


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_mounts_and_droop_are_those_of_check(path):
    """Every word of the tables that check prints stands on the page, in the same section."""
    printed = run("check", path)[1]
    reader = read(path)
    for heading, section in (("Droop, against the unloaded shape", "droop"),
                             ("Mounts: the most that each has to carry", "mounts")):
        block = printed.split("\n" + heading)[1].split("\n\n")[0].split("\n", 1)[1]
        words = set(re.findall(r"[\d.]+", block))
        shown = set(re.findall(r"[\d.]+", plain(reader.sections[section])))
        assert words <= shown, (section, words - shown)


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_each_kind_of_check_stands_with_its_working(path):
    reader = read(path)
    told = answer("check", path)["checks"]
    worst = {}
    for check in told:
        if check["check"] not in worst:
            worst[check["check"]] = check
    rows = cells(reader, "checks")[1:]
    shown, workings = rows[0::2], rows[1::2]
    assert sorted(row[0] for row in shown) == sorted(worst)
    for row, (working,) in zip(shown, workings):
        check = worst[row[0]]
        assert row[5] == plain(check["case"])
        assert working.startswith(f"The working of {row[0]}")
        assert plain(check["source"]) in working
        assert f"of {sum(other['check'] == row[0] for other in told)}" in row[4]
    # Each line of the working that explain gives is there.
    for line in answer("explain", path)["checks"][0]["working"]:
        assert any(plain(line["written"]) in working for (working,) in workings), line["written"]


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_what_was_not_checked_and_the_cautions_are_all_there(path):
    reader = read(path)
    items = plain(reader.sections["not-checked"])
    left_out = answer("check", path)["not_checked"]
    assert len(left_out) > 3
    for one in left_out:
        assert plain(one["what"]) in items and plain(one["why"]) in items
    # Sentence by sentence, whatever the tags between them.
    cautions = plain(run("check", path)[1].split("Before you trust it")[1])
    for sentence in cautions.split(". "):
        assert sentence.rstrip(".") in plain(reader.sections["cautions"])


def test_stories_losses_vehicle_and_hand_calculations():
    path = next(path for path in EXAMPLES if path.stem == "cool-box-carrier")
    reader = read(path)
    printed = plain(run("check", path)[1])
    stories = cells(reader, "stories")[1:]
    assert len(stories) >= 9
    for name, story, source in stories:
        assert f"{name}: {story} ({source})" in printed
    assert plain(reader.sections["vehicle"]).removeprefix("The front wheel") in printed
    for loss in ("mount FL lost", "mount RL lost", "overloaded"):
        assert loss in reader.sections["losses"]
    assert ["mass", "", "1.69 kg", "1.68 kg", "-0.07 %", "yes",
            "2 x 0.42 x 1.05 + 3 x 0.32 x 0.709 + 0.08 x 1.539"] in cells(reader, "expect")
    assert ["cool box", "14 kg", "box 4.1 kg, base plate 0.9 kg, ice packs 3 kg, vaccine 6 kg"] in cells(
        reader, "weight")


def test_torques_and_measured_give(write):
    path = next(path for path in EXAMPLES if path.stem == "wall-bracket")
    text = path.read_text(encoding="utf-8").replace("A: {hold: all}", "A: {hold: [x, y, z, rx, rz], spring: {ry: 9 kN*m/rad}}")
    reader = read(write(text))
    assert "give as their springs say" in plain(reader.sections["droop"])
    assert "ry gives 9000 N*m/rad" in plain(reader.sections["mounts"])
    carrier = read(next(path for path in EXAMPLES if path.stem == "cool-box-carrier"))
    assert ["mount FL", "M6 8.8", "10.5 N*m", "10.5 N*m", "8 N*m", "the screw", "5000 N to 8333 N"] in cells(
        carrier, "torques")


def test_gaps_are_told(write):
    path = next(path for path in EXAMPLES if path.stem == "cool-box-carrier")
    text = path.read_text(encoding="utf-8").replace("- two-up: {height: 350 mm}", "- two-up")
    assert "two-up" in plain(read(write(text)).sections["stories"].split("Asked for, and not looked at")[1])


@pytest.mark.parametrize("path", FILES, ids=IDS)
def test_version_and_file_make_it_possible_to_do_it_again(path):
    reader = read(path)
    version = re.search(r'TRIVET_VERSION "([^"]+)"', (ROOT / "include/trivet/base.h").read_text()).group(1)
    again = reader.sections["file"]
    assert f"trivet {version}" in again and path.name in again
    assert again.removesuffix("\n").endswith(path.read_text(encoding="utf-8"))


def test_page_and_drawing_show_the_case_and_tube_asked_for():
    path = next(path for path in EXAMPLES if path.stem == "cool-box-carrier")
    reader = read(path, "--case", "pothole", "--tube", "back")
    assert 'shape under load in "pothole"' in plain(reader.sections["picture"])
    assert 'Forces inside back in "pothole"' in plain(reader.sections["forces"])


def test_units_are_those_of_the_file():
    reader = read(next(path for path in EXAMPLES if path.stem == "tank-rack"))
    for section, unit in (("droop", "in"), ("mounts", "lbf"), ("weight", "lb"), ("checks", "psi"),
                          ("torques", "lbf*in"), ("forces", "lbf*in"), ("picture", "lb")):
        text = plain(reader.sections[section])
        assert re.search(rf"\d {re.escape(unit)}(?![\w*])", text), section
        if section not in ("checks", "forces", "picture"):  # rules and paper speak of millimetres
            assert not re.search(r"\d (mm|N|kg|N\*m)(?!\w)", text), section


def drawings_of(path):
    """How many drawings stand on the page of a small file: a picture a case, views, forces; each bar,
    each template, each plate."""
    cut = json.loads(run("cut", path, "--json")[1])
    saddles = sum("saddle" in end for piece in cut["pieces"] for end in piece["ends"])
    file = yaml.safe_load(path.read_text(encoding="utf-8"))
    return len(file["cases"]) + 2 + len(cut["bars"]) + saddles + len(file.get("decks", {}))


@pytest.mark.parametrize("path", [NASTY, WORKSHOP], ids=["nasty", "workshop"])
def test_nasty_names_make_no_markup(path):
    text = page(path)
    reader = Reader(text)
    assert not reader.tags & {"img", "b", "i", "u", "iframe", "object", "embed", "base", "form"}
    assert not [name for name, _ in reader.attributes if name.startswith("on")]
    assert not [value for name, value in reader.attributes if name in ("src", "href") and value and
                not value.startswith(("#", "data:,"))]
    assert text.count("<script>") == 1 and text.count("<svg ") == drawings_of(path)


def test_nasty_names_are_text_and_nothing_else():
    reader = Reader(page(NASTY))
    whole = plain(" ".join(reader.text))
    for name in ("<script>alert(1)</script> & \"quoted\" 'single' מתלה לארגז", "post ]]> &amp;", "A<&>",
                 "arm' onload='alert(2)", "box <img src=x onerror=alert(3)>", "<i>lid", "עמוד 5",
                 "case --><svg onload=alert(4)>", "<b>by</b> & hand, ידני 3 x 2 %n %s"):
        assert name in whole, name


def test_characters_that_reorder_text_are_shown_as_unknown(write):
    """U+202E would turn the rest of the line round; U+2069 would end the isolation early."""
    path = next(path for path in EXAMPLES if path.stem == "wall-bracket")
    text = path.read_text(encoding="utf-8").replace("name: Tool box bracket", 'name: "Tool\u202e box \u2069bracket"')
    for command in ("report", "draw"):
        out = run(command, write(text), "-o", "-")[1]
        assert "\u202e" not in out
        assert out.count("\u2068") == out.count("\u2069")
        assert "Tool\ufffd box \ufffdbracket" in out


def test_names_in_tables_are_set_apart():
    text = page(NASTY)
    for name in ("שלום", "رف", "عמוד 5".replace("ع", "ע")):
        assert f"<bdi>{name}</bdi>" in text


def test_right_to_left_words_always_stand_apart():
    """In every run of text that is read: inside bdi, or between U+2068 and U+2069."""
    class Runs(HTMLParser):
        depth = 0
        bad = []
        seen = 0

        def handle_starttag(self, tag, attributes):
            self.depth += tag == "bdi"

        def handle_endtag(self, tag):
            self.depth -= tag == "bdi"

        def handle_data(self, data):
            depth = self.depth
            for letter in data:
                depth += (letter == "\u2068") - (letter == "\u2069")
                if re.match("[\u0590-\u08ff]", letter):
                    self.seen += 1
                    if depth < 1:
                        self.bad.append(data)

    for path in (NASTY, WORKSHOP):
        runs = Runs()
        runs.feed(page(path))
        assert runs.seen > 50 and runs.bad == []


def test_a_frame_without_a_name_is_called_by_its_file(write):
    path = next(path for path in EXAMPLES if path.stem == "wall-bracket")
    text = path.read_text(encoding="utf-8").replace("name: Tool box bracket\n", "")
    assert "<h1><bdi>rack.yaml</bdi></h1>" in page(write(text))


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.stem for path in EXAMPLES])
def test_the_same_file_gives_the_same_page_below_a_megabyte(path):
    first = page(path)
    assert first == page(path) and len(first.encode()) < 1_000_000
