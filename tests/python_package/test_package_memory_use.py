"""Creating, solving and closing does not grow; nothing stays behind."""
import gc
import os

import pytest

import trivet
from conftest import arm_of
from varied import bracket
from trivet import _c

PAGE = os.sysconf("SC_PAGE_SIZE")
CYCLES = 2000
MOST = 1 << 20  # bytes: half a kilobyte a cycle, less than the smallest thing that could be lost


def resident():
    with open("/proc/self/statm", encoding="ascii") as file:
        return int(file.read().split()[1]) * PAGE


def once():
    with arm_of() as frame, frame.solve() as result:
        _ = result.moves.sum(), frame.position("tip")
        with pytest.raises(trivet.InputError):
            frame.add_joint("tip", 0, 0, 0)


def whole():
    frame = arm_of()
    result = frame.solve()
    checks = result.check()
    _ = checks[0], checks.sentence(), checks.explain(), frame.losses().text(0)
    frame.set_position("tip", 0.6, 0, 0)  # the result keeps the old one: a copy
    _ = frame.plan().solve(frame).moves


def swept():
    sweep = trivet.Sweep.of_text(bracket(40))
    _ = sweep.run(workers=2), sweep.pick(runners_up=1).best, sweep.describe(3), sweep.text(4)
    with pytest.raises(ZeroDivisionError):
        sweep.run(progress=lambda done, count: 1 / 0)


def shopped():
    frame = trivet.read_text(trivet.starter_text())
    checks = frame.check()
    _ = frame.cut(kerf="3 mm", bars=[{"length": "6 m"}]).json(), checks.glb(), checks.drawing()
    checks.again(frame.solve(), only_worst=True)


@pytest.mark.parametrize("work, cycles", [(once, CYCLES), (whole, CYCLES // 4),
                                          (swept, CYCLES // 20), (shopped, CYCLES // 20)])
def test_no_growth(work, cycles):
    for _ in range(cycles // 4):
        work()
    gc.collect()
    before, living = resident(), len(_c._living)
    for _ in range(cycles):
        work()
    gc.collect()
    assert resident() - before < MOST
    assert len(_c._living) == living


def test_read_and_json_do_not_grow():
    text = trivet.starter_text()
    for _ in range(20):
        trivet.read_text(text).check().json()
    gc.collect()
    before = resident()
    for _ in range(100):
        trivet.read_text(text).check().json()
        with pytest.raises(trivet.InputError):
            trivet.read_text(text + "\nmunts: {}")
    gc.collect()
    assert resident() - before < MOST
