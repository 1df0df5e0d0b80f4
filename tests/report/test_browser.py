"""The report in a real browser: read, printed, without script, by keyboard. See browse.js."""

import itertools
import json
import os
import re
import subprocess
import zlib
from pathlib import Path

import numpy as np
import pytest
import yaml
from conftest import DESIGNS, EXAMPLES, HERE, NASTY, WORKSHOP, run

FILES = [*EXAMPLES, *DESIGNS, NASTY, WORKSHOP]
FOUND = {}


@pytest.fixture(params=FILES, ids=[path.stem for path in FILES])
def found(request, tmp_path_factory):
    """What the browser found on the page of a file; each page is opened once."""
    path = request.param
    if path not in FOUND:
        page = tmp_path_factory.mktemp("page") / "report.html"
        assert run("report", path, "-o", page)[0] == 0
        done = subprocess.run(["node", HERE / "browse.js", page], capture_output=True, text=True,
                              timeout=240, check=False)
        assert done.returncode == 0, done.stderr
        FOUND[path] = json.loads(done.stdout) | {"path": path}
    return FOUND[path]


def test_nothing_is_fetched_and_nothing_complains(found):
    assert found["complaints"] == []
    assert [url.partition(":")[0] for url in found["requests"] if not url.startswith("data:")] == ["file"]


def test_headings_stand_in_order(found):
    levels = [level for level, _ in found["outline"]["headings"]]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(later <= level + 1 for level, later in itertools.pairwise(levels))
    assert all(text.strip() for _, text in found["outline"]["headings"])
    assert found["outline"]["title"].strip() and found["outline"]["language"] == "en"


def test_drawings_have_names_and_links_lead_somewhere(found):
    drawings = found["outline"]["drawings"]
    assert len(drawings) > 3 and drawings == [["img", True]] * len(drawings)
    assert found["outline"]["twice"] == [] and found["outline"]["broken"] == []


def test_the_file_stands_on_the_page_as_it_is(found):
    assert found["outline"]["source"] == found["path"].read_text(encoding="utf-8")


def test_names_make_no_elements(found):
    assert found["outline"]["foreign"] == 0 and found["outline"]["scripts"] == 1


def test_every_fold_opens_by_keyboard(found):
    keys = found["keyboard"]
    assert keys["folds"] >= 2
    assert keys["opened"] == keys["folds"]
    assert set(keys["outlines"]) == {"solid"}


def test_every_control_is_reached_and_labelled(found):
    controls = found["controls"]
    assert controls["reached"] == controls["all"] >= 1 and controls["labelled"]


def test_the_case_in_the_picture_can_be_changed(found):
    """By the arrow keys; one picture is shown at a time, and it speaks of the case chosen."""
    cases = found["cases"]
    file = yaml.safe_load(found["path"].read_text(encoding="utf-8"))
    assert cases["count"] >= min(len(file["cases"]), 10)
    if cases["count"] > 1:
        assert len(cases["names"]) == len(set(cases["names"])) == cases["count"] == len(cases["seen"])
        assert set(cases["names"]) >= set(file["cases"])
    for number, shown in enumerate(cases["seen"]):
        ((name, words),) = shown
        assert name == cases["names"][number] if cases["names"] else name in file["cases"]
        # The heading is cut where a name is long, as names on drawings are.
        assert name[:40] in re.sub("[\u2068\u2069]", "", words)


def test_the_view_can_be_turned_and_back(found):
    """Turned there and back it is the drawn view, but for scale and place. From straight above, what is
    drawn between two joints is as long as they lie apart in the ground plane."""
    turning = found["turning"]
    drawn, home, above = (np.array(turning[key]) for key in ("drawn", "home", "above"))
    assert turning["turned"] == [1, 0] and turning["back"] == [0, 1] and turning["droop"] > 0
    assert "from 33 degrees to the left of that and 26 degrees above" in turning["label"]
    file = json.loads(run("show", found["path"], "--json")[1])
    places = np.array(list(file["joints"].values()))
    assert len(drawn) == len(home) == len(above) == len(places)
    apart = [one - one[0] for one in (drawn, home)]
    scale = np.abs(apart[1]).max() / np.abs(apart[0]).max()
    # Drawn to a thousandth of a millimetre, places handed over to a tenth at a scale below 1 : 1.
    assert abs(apart[1] - scale * apart[0]).max() <= 0.2 * max(scale, 1.0)
    flat = np.linalg.norm((places - places[0])[:, :2], axis=1)
    paper = np.linalg.norm(above - above[0], axis=1)
    if flat.max() > 0.0:
        by = paper.max() / flat.max()
        assert abs(paper - by * flat).max() <= 0.2
    boxes = turning["letters"]
    assert len(boxes) > 3
    for name, left, top, right, bottom in boxes:
        assert left >= 0 and right <= 184 and top >= 0 and bottom <= 100, name
    for one, other in itertools.combinations(boxes, 2):
        assert (one[3] <= other[1] or other[3] <= one[1] or one[4] <= other[2] or
                other[4] <= one[2]), (one, other)


def printed_lines(path):
    """Lengths in mm of all straight horizontal lines that a PDF draws: the operators q Q cm m l of ISO
    32000-1 8.3, 8.5, out of each stream that FlateDecode packs."""
    data, lengths = path.read_bytes(), []
    for packed in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, re.S):
        try:
            text = zlib.decompress(packed)
        except zlib.error:
            continue
        if b" cm" not in text:
            continue
        now, kept, numbers, start = np.eye(3), [], [], None
        for word in text.split():
            if re.fullmatch(rb"[-+]?[\d.]+", word):
                numbers.append(float(word))
                continue
            if word == b"q":
                kept.append(now)
            elif word == b"Q" and kept:
                now = kept.pop()
            elif word == b"cm" and len(numbers) == 6:
                a, b, c, d, e, f = numbers
                now = np.array([[a, b, 0.0], [c, d, 0.0], [e, f, 1.0]]) @ now
            elif word in (b"m", b"l") and len(numbers) == 2:
                there = np.array([*numbers, 1.0]) @ now
                if word == b"l" and abs(there[1] - start[1]) < 1e-6:
                    lengths.append(abs(there[0] - start[0]) * 25.4 / 72.0)
                start = there
            numbers = []
    return np.array(lengths)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_templates_print_at_full_size(found, paper):
    """On the screen in print's layout, and as lines in the PDF: the check line of each is 100 mm."""
    templates = found[paper]["open"]["templates"]
    cut = json.loads(run("cut", found["path"], "--json")[1])
    saddles = sum("saddle" in end for piece in cut["pieces"] for end in piece["ends"])
    assert len(templates) == saddles
    for shown, said in templates:
        # Chromium lays out in 64ths of a pixel.
        assert shown == pytest.approx(said, abs=25.4 / 96 / 64)
    lines = printed_lines(Path(found[paper]["open"]["path"]))
    assert (abs(lines - 100.0) < 0.01).sum() == saddles


def test_contrast(found):
    """WCAG 2.1, 1.4.3: 4.5 to 1; no exception is made for large letters."""
    assert len(found["contrasts"]) > 100
    assert [one for one in found["contrasts"] if one["ratio"] < 4.5 or not one["opaque"]] == []


def test_it_reads_without_script(found):
    still = found["still"]
    for words in ("Does it hold?", "NOT CHECKED", "Before you trust it", "The file"):
        assert words in still["text"]
    assert still["opened"] == "" and still["buttons"] == 0 and still["cases"] == 1
    for words in ("Bars to buy", "Pieces to cut", "Saw settings", "Weight, cost, paint and weld"):
        assert words in still["text"]


def test_the_button_opens_every_fold(found):
    assert found["button"] is True


def test_nothing_sticks_out_on_the_screen(found):
    assert found["screen"] == []


def test_it_fits_a_phone(found):
    """Wide tables scroll within themselves."""
    assert found["phone"] <= 360


@pytest.mark.parametrize("paper, box", [("A4", (595, 842)), ("Letter", (612, 792))])
@pytest.mark.parametrize("folds", ["closed", "open"])
def test_it_prints_with_nothing_cut_off(found, paper, box, folds):
    printed = found[paper][folds]
    assert printed["wide"] == []
    size = [float(number) for number in printed["box"].split()][2:]
    assert all(abs(one - other) < 1 for one, other in zip(size, box))
    # Rows, list items and pictures are kept whole, which they can be only if they fit a page.
    assert printed["tallest"] <= printed["page"]
    # All of it is on the pages, and not spread over twice as many as it fills.
    fills = printed["height"] / printed["page"]
    assert fills - 1 <= printed["pages"] <= 2 * fills + 1


def test_rows_are_kept_whole(found):
    assert len(found["printRows"]) > 10 and set(found["printRows"]) == {"avoid"}


def test_lettering_stands_on_no_other_lettering(found):
    """With the typefaces that this browser takes."""
    for drawing in found["lettering"]:
        boxes = [box for box in drawing["boxes"] if box[0].strip()]
        assert boxes and (drawing["is_bar"] or len(boxes) > 5)
        for name, left, top, right, bottom in boxes:
            assert -0.1 <= left and right <= drawing["width"] + 0.1, name
            assert -0.6 <= top and bottom <= drawing["height"] + 0.6, name
        for one, other in itertools.combinations(boxes, 2):
            # A line of letters reserves more height than they fill: half a millimetre above and below.
            apart = (one[3] <= other[1] or other[3] <= one[1] or one[4] - 0.5 <= other[2] + 0.5 or
                     other[4] - 0.5 <= one[2] + 0.5)
            assert apart, (one, other)
