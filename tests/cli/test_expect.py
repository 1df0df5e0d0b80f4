"""Hand calculations in the file: the table, hints, exit status."""

import re

from conftest import bracket, run

# The bracket: 20 mm square bar, 800 mm, 100 N: reaction 100 N, moment 80 N m, area 400 mm^2.
EXPECT = "expect:\n"


def check(write, *lines):
    path = write(bracket(more=EXPECT + "".join(f"  - {line}\n" for line in lines)))
    return run("check", path), run("check", path, "--json")


def plain(text):
    return " ".join(text.split())


def test_everything_that_agrees(write):
    text, as_json = check(
        write,
        "{what: section area, at: bar, value: 400 mm^2, by: b h}",
        "{what: demand, at: arm, case: push, value: 60 N/mm^2, by: M / W}",
        "{what: limit, check: yield, at: arm, value: 235 / 1.5 * 1 N/mm^2}",
        "{what: utilisation, at: arm, value: 38.3 %}",
    )
    assert (text.status, text.err) == (0, "")
    assert len(re.findall(r" yes\b", text.out)) == 4
    assert all(held["agrees"] and "hint" not in held for held in as_json.json["expect"])
    assert [held["where"] for held in as_json.json["expect"]] == ["bar", "arm", "arm", "arm"]
    assert [held["case"] for held in as_json.json["expect"]] == ["", "push", "push", "push"]


def test_a_slip_is_named_where_the_numbers_show_it(write):
    text, as_json = check(
        write,
        "{what: reaction z, at: A, case: push, value: 10.2 N, by: m}",
        "{what: reaction my, at: A, case: push, value: -79 N*m}",
    )
    assert text.status == as_json.status == 1
    assert (
        "reaction z at A in push: looks like mass was taken for force (a factor 9.807)."
        in plain(text.out)
    )
    first, second = as_json.json["expect"]
    assert first["hint"] == "looks like mass was taken for force (a factor 9.807)"
    assert "hint" not in second and second["agrees"] is False


def test_a_check_that_was_not_made(write):
    text, as_json = check(write, "{what: demand, check: mount pull, at: A, value: 10 N}")
    assert text.status == 1
    assert "demand at A: no such check was made there: see what was not checked." in plain(text.out)
    assert as_json.json["expect"][0]["computed"] is None


def test_a_demand_of_another_dimension(write):
    text, as_json = check(write, "{what: demand, at: arm, value: 10 N}")
    line = bracket(more=EXPECT).count("\n") + 1
    assert (text.status, text.out) == (2, "")
    assert f"line {line}, column 36: expect 1: " in text.err
    assert 'the demand of the check "yield" there is a stress' in text.err
    assert as_json.status == 2 and as_json.json["error"]["line"] == line
