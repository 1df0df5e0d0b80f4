"""VTU read by meshio (Debian's python3-meshio), against trivet check --json and against the curve
of a cantilever, P x^2 (3 L - x)/(6 E I) + P x/(G As) (Timoshenko; any handbook)."""

import xml.etree.ElementTree

import meshio
import numpy
from conftest import DRAWING, FORMULA, MARKUP, OFFSET, RIGHT_TO_LEFT, rack

PLACES = 17
FORCES = ["N", "Vy", "Vz", "T", "My", "Mz"]
SERVICE = {"droop", "droop ratio"}


def spans_of(case):
    return [(tube, span) for tube, spans in case["tubes"].items() for span in spans]


def values(mesh, case, name):
    return mesh.point_data[f"{case}: {name}"]


def test_forces_at_ends_of_spans_are_those_of_check(hand_over, results):
    mesh = meshio.read(hand_over(rack(), "rack.vtu"))
    answer = results(rack())
    for name, case in answer["cases"].items():
        for number, (_, span) in enumerate(spans_of(case)):
            for force in FORCES:
                along = values(mesh, name, force).ravel()
                assert along[PLACES * number] == span["start"][force]
                assert along[PLACES * number + PLACES - 1] == span["end"][force]
    count = len(spans_of(answer["cases"][MARKUP]))
    assert mesh.points.shape == (PLACES * count, 3)
    assert len(mesh.cells_dict["line"]) == (PLACES - 1) * count


def test_movements_of_joints_are_those_of_check(hand_over, results):
    mesh = meshio.read(hand_over(rack(), "rack.vtu"))
    seen = 0
    for name, case in results(rack())["cases"].items():
        moves, turns = values(mesh, name, "move"), values(mesh, name, "turn")
        for number, (tube, span) in enumerate(spans_of(case)):
            if tube == DRAWING or span["to"] is None:
                continue
            joint, at = case["joints"][span["to"]], PLACES * number + PLACES - 1
            # Both come from the same numbers by another order of additions: rounding alone.
            scale = numpy.abs(joint["move"]).max() + numpy.abs(joint["turn"]).max()
            assert numpy.abs(moves[at] - joint["move"]).max() <= 1e-13 * scale
            assert numpy.abs(turns[at] - joint["turn"]).max() <= 1e-13 * scale
            seen += 1
    assert seen >= 4 * 9


def test_points_lie_on_the_unloaded_tubes(hand_over):
    file = rack()
    mesh = meshio.read(hand_over(file, "rack.vtu"))
    tubes = mesh.cell_data["tube"][0].ravel()
    lines = mesh.cells_dict["line"]
    for number, (name, tube) in enumerate(file["tubes"].items()):
        mine = lines[tubes == number]
        offset = numpy.array(OFFSET if name == DRAWING else [0, 0, 0])
        for point, joint in [(mine[0][0], 0), (mine[-1][1], 1)]:
            place = (numpy.array(file["joints"][tube["through"][joint]]) + offset) / 1000
            assert numpy.abs(mesh.points[point] - place).max() < 1e-14
        # Each line begins where the one before it ended.
        assert numpy.abs(mesh.points[mine[1:, 0]] - mesh.points[mine[:-1, 1]]).max() < 1e-14


def test_utilisation_is_the_worst_of_the_tube(hand_over, results):
    file = rack()
    mesh = meshio.read(hand_over(file, "rack.vtu"))
    checks = results(file)["checks"]
    used = mesh.cell_data["utilisation"][0].ravel()
    tubes = mesh.cell_data["tube"][0].ravel()
    for number, name in enumerate(file["tubes"]):
        mine = [c["utilisation"] for c in checks if c["where"] == name and c["check"] not in SERVICE]
        assert set(used[tubes == number]) == {max(mine, default=-1.0)}
    assert -1.0 in used and max(used) > 0.01


def test_names_stand_in_arrays_as_they_are(hand_over):
    path = hand_over(rack(), "rack.vtu")
    names = {a.get("Name") for a in xml.etree.ElementTree.parse(path).iter("DataArray")}
    for case in rack()["cases"]:
        assert {f"{case}: {what}" for what in ["move", "turn", *FORCES]} <= names
    # The whole file is made of the elements that it should be made of.
    kinds = {e.tag for e in xml.etree.ElementTree.parse(path).iter()}
    assert kinds == {
        "VTKFile", "UnstructuredGrid", "Piece", "Points", "Cells", "PointData", "CellData",
        "DataArray",
    }
    assert FORMULA in rack()["cases"] and RIGHT_TO_LEFT in rack()["cases"]


def test_characters_that_xml_cannot_hold_are_replaced(hand_over):
    file = rack()
    file["cases"]["no character: \ufffe"] = {"gravity": [0, 0, -1]}
    mesh = meshio.read(hand_over(file, "rack.vtu"))
    assert "no character: \ufffd: N" in mesh.point_data


def test_a_cantilever_bends_as_in_the_handbook(hand_over):
    length, load, side, E, G = 0.8, 100.0, 0.02, 210e9, 81e9
    file = {
        "trivet": 1,
        "stock": {"bar": {"shape": "square bar", "width": 20,
                          "material": {"E": "210 GPa", "G": "81 GPa", "density": "7850 kg/m^3"}}},
        "joints": {"A": [0, 0, 0], "B": [800, 0, 0]},
        "tubes": {"arm": {"through": ["A", "B"], "stock": "bar"}},
        "mounts": {"A": {"hold": "all"}},
        "cases": {"push": {"forces": [{"on": "B", "force": [0, 0, "-100 N"]}]}},
    }
    mesh = meshio.read(hand_over(file, "rack.vtu"))
    x = mesh.points[:, 0]
    assert numpy.abs(x - numpy.linspace(0, length, PLACES)).max() < 1e-15
    shear_area = side**2 / ((12 + 11 * 0.3) / (10 * (1 + 0.3)))  # Cowper (1966), nu = 0.3
    inertia = side**4 / 12
    curve = load * x**2 * (3 * length - x) / (6 * E * inertia) + load * x / (G * shear_area)
    assert numpy.abs(values(mesh, "push", "move")[:, 2] + curve).max() < 1e-12 * curve.max()
    # What lies beyond x acts on the face there: (L - x) ex cross (-P ez) = (L - x) P ey.
    moment = values(mesh, "push", "My").ravel()
    assert numpy.abs(moment - load * (length - x)).max() < 1e-12 * load * length
    assert numpy.abs(values(mesh, "push", "Vz").ravel() + load).max() < 1e-12 * load
