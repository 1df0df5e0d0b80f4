"""Threads: the interpreter runs on while the library solves; one handle, many threads."""
import ctypes
import sys
import threading
import time
from pathlib import Path

import numpy as np

import trivet
from conftest import arm_of
from test_package_handles import run
from trivet._native import ffi


def ladder(stations):
    """Two rails and a rung at every station, the first ones clamped; ten cases."""
    frame = trivet.Frame("ladder")
    frame.add_stock("tube", "square tube", width=0.025, wall=0.002)
    for station in range(stations):
        for side, y in (("L", 0.2), ("R", -0.2)):
            frame.add_joint(f"{side}{station}", -0.2 * station, y, 0.0)
    for side in "LR":
        frame.add_mount(f"{side}0", "all")
    for station in range(stations):
        frame.add_tube(f"rung {station}", [f"L{station}", f"R{station}"], "tube")
        if station % 5 == 0 and station:
            frame.add_mount(f"L{station}", "position")
        for side in "LR":
            if station:
                frame.add_tube(f"{side} {station}", [f"{side}{station - 1}", f"{side}{station}"],
                               "tube")
    for case in range(10):
        frame.add_case(f"case {case}", (0.1 * case, 0.0, -1.0))
    return frame


def ticks_inside(frame):
    """How often this thread got a turn in the middle third of one call that solves the frame."""
    times = {}

    def solve():
        times["start"] = time.perf_counter()
        frame.solve()
        times["end"] = time.perf_counter()

    thread = threading.Thread(target=solve)
    ticks = []
    thread.start()
    while thread.is_alive():
        ticks.append(time.perf_counter())
        time.sleep(0.0005)
    thread.join()
    third = (times["end"] - times["start"]) / 3.0
    assert third > sys.getswitchinterval(), "the frame is too small to tell"
    return sum(times["start"] + third < tick < times["end"] - third for tick in ticks)


def test_the_interpreter_runs_while_the_library_solves():
    """With the interpreter's lock kept over the call, no turn could fall inside of it, ever; on a
    busy machine a turn may fail to come, so there are several tries."""
    frame = ladder(1500)
    assert any(ticks_inside(frame) > 0 for _ in range(10))


class KeepsTheLock:
    """The same call through ctypes.PyDLL, which keeps the interpreter's lock."""

    def __init__(self, frame):
        self.frame = frame
        self.library = ctypes.PyDLL(str(Path(trivet.__file__).parent / "libtrivet.so.1"))

    def solve(self):
        result = ctypes.c_void_p()
        frame = ctypes.c_void_p(int(ffi.cast("uintptr_t", self.frame._handle.pointer)))
        assert self.library.trivet_frame_solve(frame, ctypes.byref(result), None) == 0
        self.library.trivet_result_free(result)


def test_the_test_before_could_fail():
    assert ticks_inside(KeepsTheLock(ladder(1500))) == 0


def test_two_threads_solve_two_frames():
    frames = [ladder(40), ladder(50)]
    alone = [frame.solve().moves.copy() for frame in frames]
    found = [[], []]

    def solve(which):
        for _ in range(20):
            found[which].append(frames[which].solve().moves)

    threads = [threading.Thread(target=solve, args=(which,)) for which in (0, 1)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for which in (0, 1):
        assert len(found[which]) == 20
        assert all(np.array_equal(moves, alone[which]) for moves in found[which])


def test_one_plan_serves_several_threads():
    frames = [arm_of(length) for length in (0.4, 0.5, 0.6, 0.7)]
    plan = frames[0].plan()
    found = {}

    def solve(which):
        for _ in range(50):
            found[which] = plan.solve(frames[which]).moves

    threads = [threading.Thread(target=solve, args=(which,)) for which in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for which, frame in enumerate(frames):
        assert np.array_equal(found[which], frame.solve().moves)


def test_a_plan_in_use_keeps_nobody_waiting(arm):
    plan, done = arm.plan(), threading.Event()

    def solve():
        plan.solve(arm)
        done.set()

    with plan._handle.lock:
        thread = threading.Thread(target=solve, daemon=True)
        thread.start()
        assert done.wait(60.0)
    thread.join()


def test_many_threads_on_one_frame_never_crash():
    run("""
        import random, threading
        import trivet
        from conftest import arm_of
        frame = arm_of()
        shared = {"result": frame.solve()}
        wrong = []
        def work(seed):
            dice = random.Random(seed)
            for turn in range(150):
                try:
                    pick = dice.randrange(8)
                    if pick == 0:
                        frame.add_joint(f"j{seed} {turn}", dice.random(), 0, 0)
                    elif pick == 1:
                        frame.set_position("tip", 0.3 + dice.random(), 0, 0)
                    elif pick == 2:
                        frame.add_case(f"c{seed} {turn}", (0, 0, -1))
                    elif pick == 3:
                        shared["result"] = frame.copy().solve()
                    elif pick == 4:
                        shared["result"].moves.sum()
                    elif pick == 5:
                        shared["result"].check().sentence()
                    elif pick == 6:
                        shared["result"].close()
                    else:
                        frame.solve().frame.position("tip").sum(), frame.joints
                except trivet.TrivetError:
                    pass
                except Exception as error:
                    wrong.append(repr(error))
        threads = [threading.Thread(target=work, args=(seed,)) for seed in range(4)]
        for thread in threads: thread.start()
        for thread in threads: thread.join()
        assert not wrong, wrong
    """)
