"""The JSON Schema of the file format against the program: the same keys, the same words, the same
files accepted; and bad files refused by both."""

import json
import os
import pathlib
import re
import subprocess

import jsonschema
import pytest
import yaml

ROOT = pathlib.Path(os.environ["SOURCE_ROOT"])
DOCUMENT = ROOT / "lib" / "document"
SCHEMA = json.loads((DOCUMENT / "trivet.schema.json").read_text(encoding="utf-8"))


class Core(yaml.BaseLoader):
    """YAML 1.2: numbers and null, no yes, no and on. A key is a word whatever it looks like."""

    def construct_mapping(self, node, deep=False):
        return {key.value: self.construct_object(value, deep=True) for key, value in node.value}


NUMBER = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$")
NULL = re.compile(r"(~|null|)$")
Core.add_implicit_resolver("tag:yaml.org,2002:float", NUMBER, list("-+.0123456789"))
Core.add_implicit_resolver("tag:yaml.org,2002:null", NULL, ["~", "n", ""])
Core.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))
Core.add_constructor("tag:yaml.org,2002:null", lambda loader, node: None)
Core.add_constructor(
    "tag:yaml.org,2002:map", lambda loader, node: loader.construct_mapping(node, deep=True)
)


def complaints(text):
    validator = jsonschema.Draft202012Validator(SCHEMA)
    return [error.message for error in validator.iter_errors(yaml.load(text, Loader=Core))]


def source(name):
    return (DOCUMENT / name).read_text(encoding="utf-8")


def key_tables():
    tables = {}
    for name, body in re.findall(
        r"static const trivet__key (\w+)_keys\[\] = \{(.*?)\n\};", source("keys.c"), re.S
    ):
        rows = re.findall(r'\{"([^"]+)",\s*TRIVET__(\w+)', body)
        tables[name] = dict(rows)
    return tables


def words(file, pattern):
    body = re.search(pattern, source(file), re.S).group(1)
    return re.findall(r'"([^"]+)"', body)


def twin(name):
    return SCHEMA if name == "top" else SCHEMA["$defs"][name]


def test_schema_is_one():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_tables_were_found():
    assert len(key_tables()) == 49
    assert sum(len(table) for table in key_tables().values()) > 100


@pytest.mark.parametrize("name", sorted(key_tables()))
def test_keys_are_the_same(name):
    table = key_tables()[name]
    assert set(twin(name)["properties"]) == set(table)
    assert twin(name)["additionalProperties"] is False
    needed = {key for key, use in table.items() if use == "NEEDED"}
    assert set(twin(name).get("required", [])) == needed


def test_no_closed_group_of_keys_is_left_out():
    closed = {
        name
        for name, part in SCHEMA["$defs"].items()
        if part.get("additionalProperties") is False
    }
    assert closed == set(key_tables()) - {"top"}


def test_later_keys_say_so():
    for name, table in key_tables().items():
        for key, use in table.items():
            says = "Read past" in twin(name)["properties"][key].get("description", "")
            assert says == (use == "LATER"), (name, key)


def first_words(file, table):
    body = re.search(table + r"\[\] = \{(.*?)\n\};", source(file), re.S).group(1)
    return re.findall(r'\{"([^"]+)",', body)


def test_words_are_the_same():
    definitions = SCHEMA["$defs"]
    shapes = first_words("resolve_stock.c", "shape_rows")
    assert definitions["stock_item"]["properties"]["shape"]["enum"] == shapes
    assert definitions["expect"]["properties"]["what"]["enum"] == first_words(
        "resolve_expect.c", "what_rows"
    )
    assert definitions["expect"]["properties"]["check"]["enum"] == words(
        "../checks/limits.c", r"NAMES\[\] = \{(.*?)\}"
    )
    for unit in ("length", "mass", "force"):
        assert definitions["units"]["properties"][unit]["enum"] == words(
            "resolve_head.c", unit + r"_units\[\] = \{(.*?)\}"
        )
    assert definitions["tube"]["properties"]["cut"]["additionalProperties"]["enum"] == words(
        "resolve_shop.c", r"CUT_WORDS\[\] = \{(.*?)\}"
    )
    assert definitions["shop"]["properties"]["aim"]["enum"] == words(
        "resolve_shop.c", r"AIMS\[\] = \{(.*?)\}"
    )
    assert definitions["direction"]["enum"] == words(
        "../base/directions.c", r"words\[TRIVET__DIRECTIONS\] = \{(.*?)\}"
    )


def test_starter_is_accepted():
    starter = subprocess.run(
        [os.environ["WRITE_STARTER"]], capture_output=True, check=True, encoding="utf-8"
    ).stdout
    assert starter.startswith("#")
    assert complaints(starter) == []


EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.name for path in EXAMPLES])
def test_examples_are_accepted(path):
    assert complaints(path.read_text(encoding="utf-8")) == []


EVERYTHING = """
trivet: 1
name: 7
units: {length: in, mass: lb, force: lbf}
let: {half: 2, reach: 3 * half}
stock:
  a: {shape: square tube, width: 20 mm, wall: 2 mm, corner: sharp, material: E235}
  b: {shape: angle, legs: [30 mm, 20 mm], wall: 3 mm, price: 3.1, have: 6 m,
      material: {E: 210 GPa, G: 81 GPa,
      density: 7850 kg/m^3, yield: 235 MPa, tensile: 360 MPa, expansion: 1.2e-5/(1 K)}}
joints: {A: [0, 0, 0], B: [half, "2", 3/4 in], 3: [2 * half, 4, 3/2 in]}
tubes:
  t: {through: [A, B, 3], stock: a, roll: 0, ends: {A: pinned, 3: {free: [ry, rz]}},
      offset: {A: [0, 0, 0]}, inserts: [{at: A, length: 2, stock: a, bond: together}],
      weld: {throat: 2 mm, run: 60 %, sides: [top, left], filler: ER70S-6, detail: 56 MPa},
      cut: {A: through, 3: butt}}
  u: {through: [A, B], stock: a, weld: {spots: 4, spot diameter: 6},
      ends: {B: {weld: none, bolts: {thread: M6, grade: 8.8, shear through: shank}}}}
mounts:
  A: {hold: all, limit: {pull: 1, push: 2, shear: 3, moment: 4 N*m}, bolts: {thread: M6, grade: 8.8,
      count: 2, pattern: [[-10, 0], [10, 0]], head: countersunk, into: a, engagement: 12,
      clamps: hollow, torque: 9 N*m, nut factor: 0.2, scatter: 25 %, friction: 0.2,
      plate: {thickness: 4, material: S235, edge: 12, side: 10, hole: 6.6},
      fixing: {spots: 2, diameter: 6}, axes: {x: [1, 0, 0], y: [0, 1, 0]}}}
  3: {hold: position, give: cast lug}
  B: {hold: [x, y], spring: {rz: 5 N*m/rad}, axes: {x: [1, 0, 0], y: [0, 1, 0]}}
cargo:
  e: {items: {box: {mass: 1, centre: [0, 0, 0]}}, on: A}
  c: {items: {box: 1, "2": 3}, centre: [0, 0, 0], on: [A, B], grip: soft}
  d: {mass: 1, centre: [0, 0, 0], on: A}
cases:
  one: {gravity: [0, 0, -1], cargo: {c: 0}, warm: 30 K, mount moves: {A: {z: 1 mm}},
        forces: [{on: A, force: [1, 2, 3]}, {on: c, moment: [1 N*m, 0, 0], at: [0, 0, 0]}],
        tube forces: [{tube: t, at: 40 %, force: [0, 0, 1]},
                      {tube: t, from: 1, to: 50 %, line: [0, 0, 0], to line: [0, 0, 1 N/mm],
                       axes: tube}]}
combine: {sum: {one: 1.5}}
cycles: {bumps: {from: one, to: sum, from factor: -1, to factor: 2, count: 1e6}, jolts: {to: one}}
weld: all round
limits: {loads: 1.5, bolt rule: EN, weld rule: simplified, crack: 1.35, rack rating: 15, yield: 1.5, droop: 4 mm, droop ratio: 1/200, lowest frequency: 20 Hz}
expect:
  - {what: My, at: t, from: 10 %, case: one, value: 1 N*m, within: 3 %, by: "F * a"}
  - {what: utilisation, at: A, check: mount pull, case: sum, value: 0.5}
decks:
  lid: {on: [A, B], mass: 2, centre: [0, 0, 0], edge: 20, outline: [[0, 0], [9, 0], ["half", 9]],
        slots: [{from: [1, 1], to: [2, 1 in], width: 6 mm}],
        screws: {thread: 1/4-20 UNC, grade: grade 5, into: rivet nut,
                 rated: {pull: 4 kN, shear: 2 kN, torque: 8 N*m},
                 sleeve: {diameter: 12, wall: 2, yield: 235 MPa},
                 spacer: {of: plastic, height: 20, diameter: 12}}}
vehicle: {wheelbase: 1400, rear axle: -60, ground: -700, front load: 80, rear load: 90 kg,
          front most: 120, rear most: 200, total most: 320, front least: 60, grade: 7 deg,
          accelerate: 0.5, wheel radius: 310, overhang: 500, width: 400}
rides: {}
usage: [road, {two-up: {on: c, height: 350, force: 400, mass: 75, settle: 1.5}},
        grab: {rail: t}, rough track: {down: 4, up: 1, brake: 1, accelerate: 0.5, side: 0.5,
        lean: 40 deg}, misfit: {move: 1}, lost bolt]
vary: {let: {half: [1, 2], reach: {from: 1, to: 2, steps: 3}}, cargo: {c: [0, 1]},
       cases: {one: [1, 1.5]}, stock: {a: [a, b], b: {of: [b], catalogue: shop.yaml, among: [x]}},
       tuples: {of: [half, a], rows: [[1, a], ["2", b]]}, skip when: ["reach > 2 * half"],
       sample: {by: sobol, count: 16, seed: 3}}
shop: {kerf: 2, gap: 0.5 mm, aim: cost, bars: [6 m, {length: 20 ft, price: 31}],
       bars of: {a: [{length: 2.4 m, have: 1, price: 0}]}, wire factor: 1.2, electrode factor: 2,
       bent: {hoop: {tubes: [t, u], radius: 60 mm, neutral: 45 %}}}
measured: {fit: [ry], readings: [{at: B, mass: 10 kg, drop: 3 mm, within: 0.2 mm}]}
"""


def test_everything_is_accepted():
    assert complaints(EVERYTHING) == []


# Bad files whose mistake a schema can see: it lies in the shape of the file, not in sums, names of
# things, or letters. All of them stand in tests/cli/bad, where the program refuses them.
SEEN_BY_BOTH = """
    axes_of_one cargo_on_nothing cargo_without_mass case_without_load combine_nothing
    empty_section empty_value expect_nothing_at_all expect_unknown_what force_list_of_numbers
    force_of_nothing format_two free_end_word insert_of_nothing insert_unknown_bond just_words
    item_without_mass line_with_force line_without_beginning list_at_top list_for_map
    map_for_scalar mass_and_items material_without_density name_too_long no_blank_after_colon
    no_cases no_format no_material no_shape no_through one_joint same_joint_twice scalar_for_list
    size_of_other_shape stock_without_sizes three_legs tube_force_without_place two_coordinates
    unit_of_force unknown_axes unknown_direction unknown_end unknown_grip unknown_hold
    unknown_key_mount unknown_key_stock unknown_key_top unknown_key_tube unknown_length_unit
    unknown_limit unknown_shape unknown_unit_key values_incomplete empty_name
    cut_unknown_word shop_unknown_key shop_unknown_aim shop_bars_no_list shop_bar_without_length
    shop_bar_unknown_key bent_without_radius bent_of_one_tube bent_tube_named_twice
""".split()


@pytest.mark.parametrize("name", SEEN_BY_BOTH)
def test_bad_file_is_refused(name):
    path = ROOT / "tests" / "cli" / "bad" / (name + ".yaml")
    assert path.with_suffix(".err").exists()
    assert complaints(path.read_text(encoding="utf-8")) != []


def test_enough_bad_files_are_seen():
    assert len(set(SEEN_BY_BOTH)) >= 50
