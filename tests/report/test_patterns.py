"""Patterns of trivet__write beside what is handed to them, which no compiler compares."""

import re

import pytest
from conftest import ROOT

SOURCES = sorted((ROOT / "lib" / "report").glob("*.c"))
# What a call hands over as something else than the pattern takes would be read as rubbish.
KINDS = {"n": "a double", "i": "an int", "r": "markup", "e": "text", "b": "text", "s": "text", "h": "text"}


def split(text, start):
    """The arguments of a call whose bracket opens at start."""
    parts, depth, at, begin = [], 0, start, start + 1
    while True:
        letter = text[at]
        if letter in "\"'":
            end = at + 1
            while text[end] != letter:
                end += 2 if text[end] == "\\" else 1
            at = end
        elif letter in "([{":
            depth += 1
        elif letter in ")]}":
            depth -= 1
            if depth == 0:
                parts.append(text[begin:at].strip())
                return parts
        elif letter == "," and depth == 1:
            parts.append(text[begin:at].strip())
            begin = at + 1
        at += 1


def calls():
    for source in SOURCES:
        text = source.read_text(encoding="utf-8")
        for found in re.finditer(r"(?<!void )\btrivet__write\(", text):
            yield source.name, split(text, found.end() - 1)


def patterns(argument):
    """Every literal that may be the pattern: one, or the two of a choice."""
    whole = re.sub(r'"\s*"', "", re.sub(r"\n\s*", " ", argument))
    return re.findall(r'"((?:[^"\\]|\\.)*)"', whole)


def test_every_pattern_gets_what_it_asks_for():
    seen = 0
    for name, (_, pattern, *given) in calls():
        if pattern == "pattern":
            continue  # write_names hands its own on, with one text
        for text in patterns(pattern):
            asked = re.findall(r"%(.)", text.replace("%%", ""))
            assert set(asked) <= set(KINDS), (name, text)
            assert len(asked) == len(given), (name, text, given)
            for kind, value in zip(asked, given):
                if kind == "i":
                    assert re.match(r"\(int\)|i\b|ORDER", value) or value.isdigit(), (name, value)
                if kind == "n":
                    assert not value.startswith(("(int)", '"')) and not value.isdigit(), (name, value)
                if kind == "r":
                    assert "trivet_frame_name" not in value and "text" != value, (name, value)
            seen += 1
    assert seen > 100


@pytest.mark.parametrize("source", SOURCES, ids=[source.stem for source in SOURCES])
def test_no_markup_is_written_past_the_escaping(source):
    """write_raw is for markup.c and texts of our own."""
    text = source.read_text(encoding="utf-8")
    assert source.name == "markup.c" or "trivet__write_raw" not in text
