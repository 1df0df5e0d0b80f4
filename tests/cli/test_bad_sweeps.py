"""What may be wrong under `vary` and in a catalogue: what, where, and what would be right."""

import pytest
from conftest import bracket, run

LET = "let: {a: 1, b: 2 mm}\n"

# The text under "vary: ", then what is said, with the line left out where it is 1 of the map's.
BAD = [
    ("~", "vary: nothing is varied; add it, such as"),
    ("{}", "vary: nothing is varied"),
    ("[a]", "vary: is a list, where a group of keys is needed"),
    ("{lets: {a: [1]}}", 'the key "lets" is not known here; did you mean "let"?'),
    ("{let: [a]}", "vary, let: is a list, where a group of keys is needed"),
    ("{let: {c: [1, 2]}}", 'vary, let: "c" is no name in "let"'),
    ("{let: {a: 1}}", "vary, let, a: is a single value, where a list is needed"),
    ("{let: {a: []}}", "vary, let, a: has no value"),
    ("{let: {b: [1, 2]}}", 'value 1: is of another kind than "b" in "let"'),
    ("{let: {b: [1 mm, 2 kg]}}", 'value 2: is of another kind than "b" in "let"'),
    ("{let: {b: [1 mm, x mm]}}", "vary, let, b, value 2: "),
    ("{let: {a: {from: 1, to: 2}}}", '"steps" is missing'),
    ("{let: {a: {from: 1, to: 2, steps: 1}}}", '"steps" is not a whole number of 2 or more'),
    ("{let: {a: {from: 1, to: 2, steps: 2.5}}}", '"steps" is not a whole number of 2 or more'),
    ("{let: {a: {from: 1, to: 2, steps: 3, by: 1}}}", 'the key "by" is not known here'),
    ("{stock: {rail: [bar]}}", 'there is no stock "rail"'),
    ("{stock: {bar: [rail]}}", 'there is no stock "rail"'),
    ("{stock: {bar: []}}", "names no stock"),
    ("{stock: {bar: bar}}", "is a single value, where a list is needed"),
    ("{stock: {bar: {}}}", 'says neither "catalogue" nor "among"'),
    ("{stock: {bar: {catalogue: none.yaml}}}", "none.yaml: "),
    ("{stock: {x: {of: [bar, bolt], among: [bar]}}}", 'there is no stock "bolt"'),
    ("{stock: {bar: {catalogue: empty.yaml}}}", "empty.yaml: "),
    ("{stock: {bar: {catalogue: wrong.yaml}}}", "wrong.yaml, line 3: stock thin, wall"),
    ("{stock: {bar: {catalogue: shop.yaml, among: [thick, fat]}}}", '"fat" is not in the catalogue'),
    ("{cargo: {box: [1]}}", 'there is no cargo "box"'),
    ("{cases: {pull: [1]}}", 'there is no case "pull"'),
    ("{cases: {push: [1 mm]}}", "vary, cases, push, value 1: "),
    ("{cases: {push: [-1]}}", "vary, cases, push, value 1: "),
    ("{tuples: {of: [a], rows: []}}", "names nothing, or has no row"),
    ("{tuples: {of: [a, b], rows: [[1]]}}", "row 1: has 1 values for 2 names"),
    ("{tuples: {of: [a, c], rows: [[1, 2]]}}", '"c" is no name in "let"'),
    ("{tuples: {of: [a, a], rows: [[1, 2]]}}", '"a" is varied twice'),
    ("{let: {a: [1]}, tuples: {of: [a], rows: [[1]]}}", '"a" is varied twice'),
    ("{let: {a: [1]}, sample: {by: dice, count: 3}}", '"dice" is not known here'),
    ("{let: {a: [1]}, sample: {by: sobol}}", '"count" is missing'),
    ("{let: {a: [1]}, sample: {by: sobol, count: 0}}", '"count" is 0'),
    ("{let: {a: [1]}, sample: {by: sobol, count: 1.5}}", '"count" is not a whole number'),
    ("{let: {a: [1]}, skip when: a}", "compares nothing"),
    ("{let: {a: [1]}, skip when: a > b}", "compares quantities of different kinds"),
    ("{let: {a: [1]}, skip when: a > c}", '"c" is neither a unit nor a name in "let"'),
    ("{let: {a: [1]}, skip when: a > 1 and}", "vary, skip when: "),
    (
        "{let: {a: {from: 0, to: 1, steps: 99999}, b: {from: 1 mm, to: 2 mm, steps: 99999}},"
        " cases: {push: {from: 1, to: 2, steps: 99999}},"
        " stock: {bar: {catalogue: shop.yaml}}}",
        "makes more variants than can be counted",
    ),
]


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "empty.yaml").write_text("")
    (tmp_path / "wrong.yaml").write_text(
        "catalogue: 1\nstock:\n  thin: {shape: round tube, diameter: 20, wall: x, material: S235}\n"
    )
    bars = ", ".join(
        f"s{i}: {{shape: round bar, diameter: {i} mm, material: S235}}" for i in range(1, 30)
    )
    (tmp_path / "shop.yaml").write_text(
        f"catalogue: 1\nstock: {{thick: {{shape: round bar, diameter: 40, material: S235}}, {bars}}}\n"
    )
    return tmp_path


@pytest.mark.parametrize("vary, said", BAD, ids=[str(i) for i in range(len(BAD))])
def test_complaint(vary, said, folder):
    path = folder / "f.yaml"
    path.write_text(bracket(more=f"{LET}vary: {vary}\n"))
    call = run("sweep", "f.yaml", "-o", "s.sqlite", cwd=folder)
    assert call.status == 2, call.err
    assert said in call.err
    assert "f.yaml" in call.err and "line " in call.err
    assert not (folder / "s.sqlite").exists()
