"""Wrong arguments are exceptions that say what would be right; text with units is read."""
import numpy as np
import pytest

import trivet

BAD_PLACES = [(), (1.0, 2.0), (1.0, 2.0, 3.0, 4.0), "abc", 5, None, (None, 0, 0), ((1, 2), 3, 4),
              (float("nan"), 0, 0), (float("inf"), 0, 0), ("1 kg", 0, 0), ("12", 0, 0),
              ("16 ga", 0, 0), ("\0", 0, 0), np.zeros((3, 1)), {1: 2}, b"123", (10 ** 400, 0, 0),
              ("\ud800", 0, 0), (1j, 0, 0)]


@pytest.mark.parametrize("place", BAD_PLACES, ids=repr)
def test_a_bad_place_is_refused(arm, place):
    before = arm.position("tip").copy()
    for call in (lambda: arm.set_offset("arm", "tip", place),
                 lambda: arm.add_cargo("box", place, ["tip"], mass=1.0),
                 lambda: arm.add_joint("more", *([place] if isinstance(place, bytes) else place))):
        with pytest.raises((trivet.TrivetError, TypeError)):
            call()
    assert np.array_equal(arm.position("tip"), before) and arm.cargoes == ()
    assert arm.joints == ("wall", "tip")


def test_numbers_may_be_of_any_kind(arm):
    for number in (1, 1.0, np.float32(1.0), np.int64(1), np.float64(1.0), "1 m", "1000 mm",
                   "2 * 50 cm", True):
        arm.set_position("tip", number, 0, 0)
        assert arm.position("tip")[0] == 1.0
    arm.add_case("array", np.array([0.0, 0.0, -1.0]))
    assert arm.gravity("array").tolist() == [0.0, 0.0, -1.0]


def test_units_are_read_and_checked():
    assert trivet.quantity("1 1/4 in", "length") == 0.03175  # 1.25 x 25.4 mm, exact
    assert trivet.quantity("1-1/4 in") == 0.03175
    assert trivet.quantity("900 N*m/rad", "turn spring") == 900.0
    # 14 gauge is 0.083 in as BWG and 0.0747 in as MSG: Machinery's Handbook, from memory.
    assert trivet.quantity("14 ga BWG", "length") == pytest.approx(0.083 * 0.0254, rel=1e-12)
    assert trivet.quantity("14 ga MSG", "length") == pytest.approx(0.0747 * 0.0254, rel=1e-12)
    assert trivet.quantity("0", "length") == 0.0 and trivet.quantity("60 %", "number") == 0.6
    for text, dimension in (("12", "length"), ("3 kg", "length"), ("3 m", "number"),
                            ("3 furlongs", "length")):
        with pytest.raises(trivet.BadUnit) as caught:
            trivet.quantity(text, dimension)
        assert caught.value.problem and caught.value.remedy
    assert trivet.fits("3 kN", "force") and not trivet.fits("3 kN", "stress")
    assert trivet.read_quantity("2 m^2", gauges=False).length == 2
    with pytest.raises(trivet.TrivetError):
        trivet.read_quantity("16 ga BWG", gauges=False)


def test_wrong_names_offer_the_nearest(arm):
    with pytest.raises(trivet.BadName) as caught:
        arm.position("tipp")
    assert "tip" in caught.value.remedy
    with pytest.raises(trivet.BadIndex):
        arm.position(7)
    for name in (None, 1.5, True, ["tip"], b"tip"):
        with pytest.raises(trivet.TrivetError):
            arm.position(name)
    with pytest.raises(trivet.BadKey) as caught:
        arm.set_limits(yeild=1.5)
    assert "yield" in caught.value.remedy
    with pytest.raises(trivet.BadName):
        arm.add_stock("odd", "hexagon tube", width=0.02)
    with pytest.raises(trivet.BadName):
        arm.add_mount("tip", ["w"])
    with pytest.raises(trivet.BadKey):
        arm.add_mount("tip", limit_twist=1.0)
    with pytest.raises(trivet.BadUnit):
        arm.set_units(length="furlong")
    assert arm.mounts == ("wall",)


def test_wrong_types_name_the_argument(arm):
    for call, word in (
            (lambda: arm.add_joint(5, 0, 0, 0), "name"),
            (lambda: arm.add_joint("a\0b", 0, 0, 0), "name"),
            (lambda: arm.add_tube("more", 5.5, "tube"), "joint"),
            (lambda: arm.add_combination("sum", ["pulled"]), "cases"),
            (lambda: arm.add_combination("sum", {"pulled": "much"}), "pulled"),
            (lambda: arm.add_mount("tip", spring=[1, 2]), "spring"),
            (lambda: arm.add_mount("tip", axes=[[1, 0], [0, 1]]), "axes"),
            (lambda: arm.set_mount_move("pulled", "wall", {"up": 1}), "move"),
            (lambda: arm.add_bolts(mount="wall", thread="M" * 50), "thread"),
            (lambda: arm.add_bolts(mount="wall", count="two"), "count"),
            (lambda: arm.add_bolts(mount="wall", count=2 ** 40), "count"),
            (lambda: arm.add_bolts(mount="wall", pattern=[[0, 0]] * 17), "pattern"),
            (lambda: arm.fit_give([("tip", 1.0)], ["ry"]), "reading"),
            (lambda: trivet.read_text(5), "text"),
            (lambda: trivet.fit({}, {}), "shape")):
        with pytest.raises(trivet.TrivetError) as caught:
            call()
        assert word in str(caught.value), str(caught.value)


def test_a_place_of_its_own_needs_a_cargo(arm):
    with pytest.raises(trivet.BadValue):
        arm.add_force("pulled", "tip", (0, 0, 1), at=(0, 0, 0))
    with pytest.raises(trivet.Incomplete):
        arm.add_cargo("box", (0, 0, 0), ["tip"])
    with pytest.raises(trivet.Incomplete):
        arm.add_bolts(thread="M6")


def test_stock_tables():
    assert {material.name for material in trivet.materials()} >= {"S235"}
    assert trivet.thread("M6").pitch == 0.001  # ISO 261
    assert trivet.grade("8.8").tensile == 800e6  # ISO 898-1 up to M16: nominal 800 MPa
    assert trivet.filler("E70").tensile > 400e6
    assert len(trivet.threads()) > 10 and len(trivet.grades()) > 3 and len(trivet.fillers()) > 2
    first, last = trivet.gauge_range()
    assert trivet.gauge(first) > trivet.gauge(last)
    with pytest.raises(trivet.BadValue):
        trivet.gauge(last + 1)
    assert "square tube" in trivet.shapes() and "length" in trivet.dimensions()
    assert "slides in" in trivet.fit_text(trivet.fit(
        {"shape": "square tube", "width": "20 mm", "wall": "2 mm"},
        {"shape": "square bar", "width": "14 mm"}))
    assert "the thread in the hole" in trivet.weakest_texts()
    assert len(trivet.cautions()) > 1 and "weld" in trivet.check_names()
    assert "trivet" in trivet.starter_text()
