"""trivet explain: every printed line, worked out again by a calculator of the test's own."""

import json
import math
import re

import pytest
from conftest import HERE, run

EXAMPLES = sorted((HERE.parent.parent / "examples").glob("*.yaml"))
SCHEMA = json.loads(
    (HERE.parent.parent / "lib/document/trivet.schema.json").read_text(encoding="utf-8")
)
KINDS = SCHEMA["$defs"]["expect"]["properties"]["check"]["enum"]

# A trolley with one of everything that is checked. Invented: no real one has these sizes.
TROLLEY = """\
trivet: 1
name: Workshop trolley
units: {length: %(length)s, mass: %(mass)s, force: %(force)s}
stock:
  rail: {shape: square tube, width: 40 mm, wall: 3 mm, material: S235}
  cross: {shape: square tube, width: 25 mm, wall: 2 mm, material: S235}
  round: {shape: round tube, diameter: 25 mm, wall: 2 mm, material: S235}
  plug: {shape: square bar, width: 34 mm, material: S235}
joints:
  FL: [0, 200 mm, 0]
  ML: [-300 mm, 200 mm, 0]
  TL: [-600 mm, 200 mm, 0]
  FR: [0, -200 mm, 0]
  MR: [-300 mm, -200 mm, 0]
  TR: [-600 mm, -200 mm, 0]
  UL: [-600 mm, 200 mm, 300 mm]
  UR: [-600 mm, -200 mm, 300 mm]
  HL: [-300 mm, 200 mm, 260 mm]
tubes:
  left rail: {through: [FL, ML, TL], stock: rail, inserts: [{at: FL, length: 40 mm, stock: plug}]}
  right rail: {through: [FR, MR, TR], stock: rail}
  middle: {through: [ML, MR], stock: cross, weld: {throat: 2 mm, run: 60 %%}}
  back: {through: [TL, TR], stock: cross, weld: {spots: 4, spot diameter: 6 mm}}
  left post: {through: [TL, UL], stock: round, ends: {TL: {weld: {throat: 2 mm, sides: [top, bottom]}}}}
  right post:
    {through: [TR, UR], stock: cross,
     ends: {TR: {weld: none, bolts: {thread: M8, grade: 8.8, clamps: hollow, torque: 10 N*m}}}}
  top: {through: [UL, UR], stock: cross}
  handle: {through: [ML, HL], stock: round}
weld: all round
mounts:
  FL: {hold: all, limit: {pull: 2500 N, push: 2500 N, shear: 1500 N, moment: 900 N*m},
       bolts: {thread: M8, grade: 8.8, into: plug, engagement: 12 mm, torque: 15 N*m, clamps: insert,
               fixing: {spots: 3, diameter: 6 mm},
               plate: {thickness: 5 mm, material: S235, edge: 15 mm}}}
  ML: {hold: position, bolts: {thread: M6, grade: 8.8, into: wall, head: countersunk, torque: 5 N*m}}
  FR: {hold: position, bolts: {thread: M8, grade: A2-70, head: socket, clamps: sleeve,
       sleeve: {diameter: 14 mm, wall: 2 mm}, pattern: [[-20 mm, 0], [20 mm, 0]], torque: 12 N*m,
       plate: {thickness: 6 mm, material: S235, edge: 14 mm, side: 20 mm}}}
  MR: {hold: position, bolts: {thread: M6, grade: 8.8, into: rivet nut, torque: 6 N*m,
       rated: {pull: 4000 N, shear: 2000 N, torque: 7 N*m}}}
decks:
  lid: {on: [UL, UR], mass: 3 kg,
        screws: {thread: M5, grade: 8.8, head: countersunk, into: wall, torque: 3 N*m,
                 spacer: {of: metal, height: 20 mm, diameter: 12 mm},
                 plate: {thickness: 6 mm, material: S235, edge: 12 mm}}}
  tray: {on: [TL, TR], mass: 2 kg,
         screws: {thread: M6, grade: 8.8, spacer: {of: plastic, height: 15 mm}, clamps: hollow,
                  plate: {thickness: 3 mm, edge: 15 mm}}}
cargo:
  box: {mass: 20 kg, centre: [-600 mm, 0 mm, 400 mm], on: [UL, UR], grip: soft}
  bag: {mass: 15 kg, centre: [-600 mm, 0 mm, 100 mm], on: [TL, TR], grip: soft}
cases:
  parked: {gravity: [0, 0, -1]}
  bump: {gravity: [0, 0, -4], forces: [{on: HL, force: [80 N, -30 N, 20 N]}]}
  rebound: {gravity: [0, 0, 1]}
  corner: {gravity: [0, 0.6, -1]}
  brake: {gravity: [0.8, 0, -1]}
cycles: {bumps: {from: rebound, to: bump, count: 500000}}
limits: {droop: 10 mm, droop ratio: 1/100, rack rating: 60 kg, droop at: {TL: 8 mm}%(rules)s}
"""
METRIC = {"length": "mm", "mass": "kg", "force": "N", "rules": ""}
INCH = {"length": "in", "mass": "lb", "force": "lbf", "rules": ""}
AISC = {**METRIC, "rules": ", bolt rule: AISC, weld rule: AISC"}
SIMPLIFIED = {**METRIC, "rules": ", weld rule: simplified"}
TROLLEYS = {"metric": METRIC, "inch": INCH, "aisc": AISC, "simplified": SIMPLIFIED}


class Amount:
    """A number with the powers of its units: one calculator for N, mm and for lbf, in. size is what
    it would be if nothing in it cancelled."""

    def __init__(self, value, powers=(), size=None):
        self.value = value
        self.size = abs(value) if size is None else size
        self.powers = {unit: power for unit, power in dict(powers).items() if abs(power) > 1e-9}

    def same(self, other):
        # Bare 0 has any unit.
        assert self.powers == other.powers or 0 in (self.value, other.value), (
            f"{self.powers} beside {other.powers}"
        )
        return self.powers or other.powers

    def times(self, other, sign=1):
        powers = dict(self.powers)
        for unit, power in other.powers.items():
            powers[unit] = powers.get(unit, 0) + sign * power
        if sign > 0:
            return Amount(self.value * other.value, powers, self.size * other.size)
        return Amount(self.value / other.value, powers, self.size / abs(other.value))

    def to_the(self, power):
        assert not power.powers
        powers = {unit: power.value * old for unit, old in self.powers.items()}
        return Amount(self.value**power.value, powers, self.size**power.value)


UNIT = re.compile(r"(?:deg|mm|in|lbf|lb|kg|N)(?:\^\d+)?|/(?:mm|in)(?:\^\d+)?")
TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+(?:\.\d+)?(?:e[-+]?\d+)?)"
    r"(?P<unit> (?:[A-Za-z]+|/(?=[a-z]))[A-Za-z0-9^*/]*)?|(?P<name>[A-Za-z_]\w*)|(?P<sign>[-+*/^(),]))"
)


def read_unit(text):
    """"N*mm", "N/mm^2", "/mm^3" as powers; an angle as what its number is multiplied with."""
    powers = {}
    factor = 1.0
    for part in re.findall(r"[*/]?[A-Za-z]+(?:\^\d+)?", text):
        sign = -1 if part[0] == "/" else 1
        unit, _, power = part.lstrip("*/").partition("^")
        assert UNIT.fullmatch(unit), f"unit {unit} in {text}"
        if unit == "deg":
            factor = math.radians(1.0)
        else:
            powers[unit] = powers.get(unit, 0) + sign * int(power or 1)
    assert len({"mm", "in"} & powers.keys()) < 2 and len({"N", "lbf"} & powers.keys()) < 2
    return factor, powers


class Calculator:
    """Works out one side of an equation; symbols are those of the lines before."""

    def __init__(self, text, symbols):
        self.tokens = []
        self.symbols = symbols
        at = 0
        while at < len(text.rstrip()):
            found = TOKEN.match(text, at)
            assert found, f"cannot read {text[at:]!r} of {text!r}"
            self.tokens.append(found)
            at = found.end()
        self.at = 0

    def take(self, sign):
        if self.at < len(self.tokens) and self.tokens[self.at]["sign"] == sign:
            self.at += 1
            return True
        return False

    def whole(self):
        value = self.sum()
        assert self.at == len(self.tokens)
        return value

    def sum(self):
        value = self.product()
        while True:
            if self.take("+"):
                other = self.product()
                value = Amount(value.value + other.value, value.same(other), value.size + other.size)
            elif self.take("-"):
                other = self.product()
                value = Amount(value.value - other.value, value.same(other), value.size + other.size)
            else:
                return value

    def product(self):
        value = self.signed()
        while True:
            if self.take("*"):
                value = value.times(self.signed())
            elif self.take("/"):
                value = value.times(self.signed(), -1)
            else:
                return value

    def signed(self):
        if self.take("-"):
            value = self.signed()
            return Amount(-value.value, value.powers, value.size)
        value = self.atom()
        return value.to_the(self.signed()) if self.take("^") else value

    def atom(self):
        if self.take("("):
            value = self.sum()
            assert self.take(")")
            return value
        token = self.tokens[self.at]
        self.at += 1
        if token["number"]:
            factor, powers = read_unit((token["unit"] or "").strip())
            return Amount(float(token["number"]) * factor, powers)
        name = token["name"]
        assert name, f"unexpected {token[0]!r}"
        if self.take("("):
            return self.function(name)
        return Amount(math.pi) if name == "pi" else self.symbols[name]

    def function(self, name):
        values = [self.sum()]
        while self.take(","):
            values.append(self.sum())
        assert self.take(")")
        first = values[0]
        if name == "sqrt":
            return first.to_the(Amount(0.5))
        if name == "abs":
            return Amount(abs(first.value), first.powers, first.size)
        if name in ("max", "min"):
            powers = {}
            for value in values:
                powers = first.same(value)
            best = {"max": max, "min": min}[name](v.value for v in values)
            return Amount(best, powers, max(v.size for v in values))
        assert not first.powers, f"{name} of something with a unit"
        return Amount({"sin": math.sin, "cos": math.cos}[name](first.value))


# Numbers have six digits: half a unit of the last is at most so much of them.
DIGITS = 5e-6


def same_to_three_digits(got, printed, largest):
    """Half a unit of the third digit at the least. Printed as 0 is what cancels to the last digit
    printed, or is a billionth of its like in the same working."""
    assert got.powers == printed.powers or 0 in (got.value, printed.value)
    allowed = 5e-4 * abs(printed.value)
    if printed.value == 0:
        allowed = 1e-9 * largest + DIGITS * got.size
    assert abs(got.value - printed.value) <= allowed


def follow(check):
    """Every line of a working; returns the symbols with their printed numbers."""
    symbols = {}
    largest = {}
    lines = [step["written"] for step in check["working"]]
    results = [Calculator(line.split(" = ")[-1], {}).whole() for line in lines]
    for printed in results:
        kind = tuple(sorted(printed.powers.items()))
        largest[kind] = max(largest.get(kind, 0.0), abs(printed.value))
    for step, line, printed in zip(check["working"], lines, results):
        symbol, *sides = line.split(" = ")
        kind = tuple(sorted(printed.powers.items()))
        assert symbol == step["symbol"] and step["meaning"] and step["source"], line
        assert len(sides) == 1 + bool(step["formula"]) or len(sides) == 3, line
        if step["formula"]:
            assert sides[0] == step["formula"]
        for side in sides[:-1]:
            try:
                got = Calculator(side, symbols).whole()
                same_to_three_digits(got, printed, largest[kind])
            except AssertionError as error:
                raise AssertionError(f"{check['check']} of {check['where']}: {line}: {error}") from error
        if len(sides) == 3:
            assert not re.search(r"[A-Za-z]_", sides[1]), f"a symbol is left in {line}"
        assert symbol not in symbols, f"{symbol} twice"
        symbols[symbol] = printed
    return symbols


def plain(text):
    return " ".join(text.split())


def places(path):
    """Everything that trivet check names: tubes, mounts, decks, kinds of check."""
    checks = run("check", path, "--json").json["checks"]
    return sorted({c["where"] for c in checks} | {c["check"] for c in checks})


def explain_everything(path):
    """Follows all there is to explain in a file; returns the kinds of check that were met."""
    met = set()
    names = places(path)
    assert names
    for words in [(path,), *((path, name) for name in names)]:
        call = run("explain", *words, "--json")
        assert (call.status, call.err) == (0, "")
        assert call.json["checks"]
        for check in call.json["checks"]:
            symbols = follow(check)
            met.add(check["check"])
            if check["utilisation"] is not None and "used" in symbols:
                assert symbols["used"].value == pytest.approx(check["utilisation"], rel=5e-4)
    return met


MET = {}


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.name for path in EXAMPLES])
def test_examples_can_be_followed(path):
    MET[path.name] = explain_everything(path)
    assert MET[path.name]


@pytest.mark.parametrize("name", sorted(TROLLEYS))
def test_everything_can_be_followed(write, name):
    MET[name] = explain_everything(write(TROLLEY % TROLLEYS[name]))


def test_every_kind_of_check_was_met():
    met = set().union(*MET.values())
    assert len(MET) == len(TROLLEYS) + len(EXAMPLES)
    assert met - set(KINDS) == set(), "kinds that nobody can ask for"
    assert set(KINDS) - met == set(), "kinds that no file here has"


@pytest.mark.parametrize("name", ["metric", "inch"])
def test_the_page_has_the_same_lines_as_json(write, name):
    path = write(TROLLEY % TROLLEYS[name])
    for place in ["left rail", "FL", "FR", "lid", "weld", "chord wall"]:
        page = run("explain", path, place)
        assert (page.status, page.err) == (0, "")
        text = plain(page.out)
        for check in run("explain", path, place, "--json").json["checks"]:
            at = text.index(plain(check["sentence"]))
            for step in check["working"]:
                at = text.index(step["written"], at)
                assert plain(f"{step['meaning']}; {step['source']}") in text[at:]
            assert text.index(plain("Rule: " + check["source"]), at) > at


def test_the_page_fits_80_columns(write):
    for path in [*EXAMPLES, write(TROLLEY % METRIC), write(TROLLEY % INCH, "inch.yaml")]:
        for place in places(path):
            for line in run("explain", path, place).out.splitlines():
                assert len(line) <= 80, line


def test_a_long_name_is_wrapped(write):
    path = write((TROLLEY % METRIC).replace("Workshop trolley", "A trolley " * 12))
    assert all(len(line) <= 80 for line in run("explain", path).out.splitlines())


def test_no_line_is_cut(write):
    for settings in TROLLEYS.values():
        path = write(TROLLEY % settings)
        for place in places(path):
            for check in run("explain", path, place, "--json").json["checks"]:
                assert all(len(step["written"].encode()) < 1000 for step in check["working"])


def test_without_a_place_the_governing_check_is_explained(write):
    path = write(TROLLEY % METRIC)
    checks = run("check", path, "--json").json["checks"]
    worst = max(checks, key=lambda check: math.inf if check["utilisation"] is None else check["utilisation"])
    (explained,) = run("explain", path, "--json").json["checks"]
    assert {key: explained[key] for key in worst} == worst


def test_rounding_left_over_is_not_shown(write):
    # A straight pull in one plane: what the sums leave of the other forces is no number to copy.
    text = run("explain", EXAMPLES[0], "left rail").out
    assert not re.search(r"e-(1[2-9]|2\d)", text)


def test_numbers_beside_numbers(write):
    # 20 mm square bar of 300 mm with 100 N at its tip, by hand: I = 20^4/12, W = 20^3/6.
    path = write(
        "trivet: 1\n"
        "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
        "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
        "tubes: {arm: {through: [A, B], stock: rail}}\n"
        "mounts: {A: {hold: all}}\n"
        "cases: {tip: {forces: [{on: B, force: [0, 0, -100 N]}]}}\n"
    )
    out = plain(run("explain", path, "yield").out)
    assert "sigma_My = My * z / Iyy = 30000 N*mm * 10 mm / 13333.3 mm^4 = 22.5 N/mm^2" in out
    assert "limit = f_y / n = 235 N/mm^2 / 1.5 = 156.667 N/mm^2" in out


def test_an_unknown_place(write):
    path = write(TROLLEY % METRIC)
    call = run("explain", path, "left rial")
    assert (call.status, call.out) == (2, "")
    assert call.err == (
        f'trivet: {path}: left rial: nothing of that name was checked; did you mean "left rail"?\n'
    )
    as_json = run("explain", path, "nowhere at all", "--json")
    assert as_json.status == 2
    assert "trivet check lists" in as_json.json["error"]["remedy"]


def test_nothing_to_explain(write):
    path = write(
        "trivet: 1\n"
        "stock: {rail: {shape: square bar, width: 20 mm, material: {E: 210 GPa, G: 81 GPa, density: 7850 kg/m^3}}}\n"
        "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
        "tubes: {arm: {through: [A, B], stock: rail, weld: none}}\n"
        "mounts: {A: {hold: all}}\n"
        "cases: {tip: {forces: [{on: B, force: [0, 0, -100 N]}]}}\n"
    )
    call = run("explain", path)
    if run("check", path, "--json").json["checks"] == []:
        assert call.status == 2
        assert "nothing could be checked" in call.err
    else:
        assert call.status == 0
