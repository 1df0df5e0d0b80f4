"""Closing, copying, pickling, forking; arrays that outlive everything."""
import copy
import gc
import multiprocessing
import os
import pickle
import subprocess
import sys
import textwrap

import numpy as np
import pytest

import trivet
from varied import bracket


def test_nothing_works_once_closed(carrier):
    result = carrier.solve()
    checks, rates, losses, plan = result.check(), carrier.rate(), carrier.losses(), carrier.plan()
    for thing in (checks, rates, losses, plan, result, carrier):
        thing.close()
        thing.close()
    for ask in (lambda: carrier.joints, lambda: carrier.mass, carrier.solve, carrier.copy,
                lambda: carrier.add_joint("a", 0, 0, 0), carrier.let, carrier.rate,
                lambda: result.moves, lambda: result.cases, result.check, lambda: result.spans,
                lambda: result.droop("parked"), lambda: len(checks), lambda: checks[0],
                lambda: checks.verdict, checks.json, checks.expect, lambda: rates[0], rates.json,
                lambda: losses[0], lambda: losses.text(0), lambda: plan.size,
                lambda: plan.solve(carrier)):
        with pytest.raises(trivet.Closed):
            ask()
    for thing in (checks, result, carrier):
        assert "closed" in repr(thing) and "closed" in thing._repr_html_()


def test_nothing_of_the_shop_and_of_sweeps_works_once_closed(carrier, tmp_path):
    sweep = trivet.Sweep.of_text(bracket(20))
    store = sweep.store(tmp_path / "runs.sqlite")
    pick, cuts, cutting = sweep.pick(), carrier.cut(), carrier.cutting("board")
    rows, waiting, outline = sweep.run(), trivet.sweep(sweep), cutting.outline
    holes, kept = cutting.holes, outline.copy()
    carrier.close()
    for thing in (pick, cuts, cutting, sweep):
        thing.close()
        thing.close()
        assert "closed" in repr(thing)
    for ask in (lambda: sweep.count, lambda: sweep.inputs, lambda: sweep.values(0), sweep.run,
                lambda: sweep.store(tmp_path / "other.sqlite"), sweep.pick, lambda: sweep.frame,
                lambda: sweep.text(0), lambda: next(iter(sweep)), lambda: pickle.dumps(sweep),
                lambda: pick.best, pick.json, lambda: pick.outcome, lambda: len(cuts),
                lambda: cuts[0], cuts.json, lambda: cuts.holes, lambda: cuts.template(0, 0),
                lambda: cutting.outline, lambda: cutting.slots, lambda: next(waiting)):
        with pytest.raises(trivet.Closed):
            ask()
    assert np.array_equal(outline, kept) and holes.shape == (4, 3)
    assert store.variants().equals(rows) and len(rows) == 20  # these are nobody's


def test_closing_while_it_runs_does_no_harm():
    run("""
        import gc, trivet
        from varied import bracket
        sweep = trivet.Sweep.of_text(bracket(300))
        def close(done, count):
            sweep.close(); gc.collect()
        print(len(sweep.run(progress=close)))
        class Stop(BaseException): pass
        def stop(done, count):
            raise Stop
        for work in (lambda s: s.run(progress=stop), lambda s: s.pick(progress=stop),
                     lambda s: s.run(workers=4, progress=stop)):
            try:
                work(trivet.Sweep.of_text(bracket(300)))
            except Stop:
                continue
            raise AssertionError("was not stopped")
    """)


def test_sweeps_are_pickled_as_their_texts():
    sweep = trivet.Sweep.of_text(bracket(50))
    again = pickle.loads(pickle.dumps(sweep))
    twin = pickle.loads(pickle.dumps(sweep))
    again.close()
    assert twin.run().equals(sweep.run())
    with multiprocessing.get_context("spawn").Pool(2) as pool:
        parts = pool.starmap(trivet.Sweep.run, [(sweep, first, 10) for first in range(0, 50, 10)])
    assert trivet.Variants.join(sweep.inputs, parts).equals(sweep.run())


def test_sweeps_work_after_a_fork():
    run("""
        import os
        import threading
        import trivet
        from varied import bracket
        sweep = trivet.Sweep.of_text(bracket(200))
        want = sweep.run(workers=2)
        stop = threading.Event()
        def busy():
            while not stop.is_set():
                sweep.run(workers=2)
        thread = threading.Thread(target=busy)
        thread.start()
        for _ in range(5):
            child = os.fork()
            if child == 0:
                os._exit(0 if sweep.run(workers=2).equals(want) else 1)
            assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
        stop.set()
        thread.join()
    """)


def test_with_closes(arm):
    with arm as frame:
        with frame.solve() as result:
            assert result.moves.shape == (1, 2, 6)
    with pytest.raises(trivet.Closed):
        _ = result.moves
    with pytest.raises(trivet.Closed):
        _ = frame.joints


def test_arrays_outlive_their_owners(arm):
    result = arm.solve()
    moves, place, twin = result.moves, arm.position("tip"), result.moves
    kept = moves.copy()
    assert moves.__array_interface__["data"][0] == twin.__array_interface__["data"][0]
    result.close()
    arm.close()
    del result, arm, twin
    gc.collect()
    filler = [np.ones(1000) for _ in range(500)]
    assert np.array_equal(moves, kept) and place.tolist() == [0.5, 0.0, 0.0] and filler


def test_arrays_are_read_only_views(arm):
    result = arm.solve()
    for array in (result.moves, result.reactions, result.span_ends, arm.position("tip"),
                  arm.gravity("pulled"), result.move("tip", "pulled")):
        assert not array.flags.owndata and not array.flags.writeable
        with pytest.raises(ValueError):
            array[...] = 0.0
        with pytest.raises(ValueError):
            array.flags.writeable = True
    assert result.moves.flags.c_contiguous and result.moves.dtype == np.float64


def test_results_outlive_their_frame(carrier):
    checks = carrier.solve().check()
    rates = carrier.rate()
    stopped = rates.checks(0)
    carrier.close()
    del carrier, rates
    gc.collect()
    assert checks.json() and checks.sentence() and checks.place(0)
    assert len(stopped) > 0 and stopped.sentence(0)


def test_copies_are_their_own(arm):
    for other in (arm.copy(), copy.copy(arm), copy.deepcopy(arm)):
        other.set_position("tip", 0.7, 0, 0)
        assert arm.position("tip")[0] == 0.5 and other.position("tip")[0] == 0.7
        other.close()
    assert arm.solve().moves.shape == (1, 2, 6)


def test_pickling_says_what_to_do_instead(carrier):
    result = carrier.solve()
    for thing in (carrier, result, result.check(), carrier.rate(), carrier.losses(),
                  carrier.plan(), carrier.cut(), carrier.cutting("board"),
                  trivet.Sweep.of_text(bracket(3)).pick()):
        with pytest.raises(TypeError, match="cannot be pickled: "):
            pickle.dumps(thing)
    again = pickle.loads(pickle.dumps(result.moves))
    assert np.array_equal(again, result.moves)
    records = pickle.loads(pickle.dumps(list(result.check())))
    assert repr(records) == repr(list(result.check()))  # not by ==, for NaN is not itself


def droop_of(text):
    return trivet.read_text(text).solve().droop(0).droop


def test_other_processes_read_the_text():
    text = trivet.starter_text()
    with multiprocessing.get_context("fork").Pool(2) as pool:
        assert pool.map(droop_of, [text] * 4) == [droop_of(text)] * 4


def run(code):
    """Runs code in a process of its own; a crash there is a failure here."""
    here = os.path.dirname(__file__)
    done = subprocess.run([sys.executable, "-B", "-X", "faulthandler", "-c",
                           f"import sys; sys.path.insert(0, {here!r})\n" + textwrap.dedent(code)],
                          capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_a_frame_works_after_a_fork():
    run("""
        import os
        from conftest import arm_of
        frame = arm_of()
        result = frame.solve()
        child = os.fork()
        if child == 0:
            good = (frame.solve().moves == result.moves).all()
            frame.close(); result.close()
            os._exit(0 if good else 1)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
        assert frame.solve().moves.shape == (1, 2, 6)
    """)


def test_a_frame_in_use_by_another_thread_says_so_after_a_fork():
    run("""
        import os, threading, time
        import trivet
        from conftest import arm_of
        frame = arm_of()
        inside, out = threading.Event(), threading.Event()
        def use():
            with frame._handle.lock:
                inside.set()
                out.wait()
        thread = threading.Thread(target=use)
        thread.start()
        inside.wait()
        child = os.fork()
        if child == 0:
            try:
                frame.solve()
            except trivet.Forked as error:
                os._exit(0 if "forked" in str(error) else 1)
            os._exit(2)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
        out.set()
        thread.join()
        assert frame.solve().moves.shape == (1, 2, 6)
    """)


def test_an_interpreter_may_end_with_everything_open():
    run("""
        from conftest import arm_of
        frame = arm_of()
        result = frame.solve(); checks = result.check(); losses = frame.losses()
        moves = result.moves
        ring = [frame, result, checks]; ring.append(ring)
    """)
