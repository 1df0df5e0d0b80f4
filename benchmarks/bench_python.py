"""The carrier of bench_carrier.c in Python and in C, by turns, as JSON: times and their ratios.

Usage: bench_python.py BENCH_CARRIER [RUNS]     (with a Python that has the trivet package)
"""
import json
import os
import statistics
import subprocess
import sys
import time

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import trivet  # noqa: E402 - after the number of BLAS threads is set

TURNS, CASES = 400, 10


def carrier():
    frame = trivet.Frame("carrier")
    frame.add_stock("rail", "square tube", width=0.02, wall=0.002, material="E235")
    frame.add_stock("cross", "round tube", diameter=0.01905, wall=0.00165, material="E235")
    frame.add_stock("plug", "square bar", width=0.014, material="S235")
    for side, y in (("L", 0.16), ("R", -0.16)):
        for name, x in (("F", 0.0), ("M", -0.12), ("R", -0.24), ("T", -0.42)):
            frame.add_joint(name + side, x, y, 0.0)
    frame.add_tube("left rail", ["FL", "ML", "RL", "TL"], "rail")
    frame.add_tube("right rail", ["FR", "MR", "RR", "TR"], "rail")
    for name, through in (("middle", ("ML", "MR")), ("rear", ("RL", "RR")), ("back", ("TL", "TR"))):
        frame.add_tube(name, through, "cross")
    frame.add_insert("left rail", "FL", 0.04, "plug")
    frame.add_insert("right rail", "FR", 0.04, "plug")
    for joint in ("FL", "ML", "RL", "FR", "MR", "RR"):
        frame.add_mount(joint, "position", limit_pull=2500.0, limit_shear=1500.0)
    frame.add_cargo("cool box", (-0.31, 0.0, 0.21), ["RL", "RR", "TL", "TR"], mass=14.0,
                    grip="soft")
    for c in range(CASES):
        name = f"case {c}"
        frame.add_case(name, (0.1 * c, 0.05 * c, -1.0 - 0.25 * c))
        frame.add_force(name, "cool box", (-250.0, 0.0, 0.0))
    return frame


def timed(work):
    """Median time of so many turns, in us."""
    times = []
    for _ in range(TURNS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1e6 * statistics.median(times)


def spread(values):
    return {"median": round(statistics.median(values), 3), "least": round(min(values), 3),
            "most": round(max(values), 3)}


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__.strip())
    runs = int(sys.argv[2]) if len(sys.argv) > 2 else 11
    kept = carrier()
    plan = kept.plan()
    works = {"solve_us": lambda: kept.solve().moves.sum(), "planned_us": lambda: plan.solve(kept),
             "build_and_solve_us": lambda: carrier().solve()}
    found = {name: ([], [], []) for name in works}
    for _ in range(runs):
        theirs = json.loads(subprocess.run([sys.argv[1], str(TURNS)], check=True,
                                           capture_output=True, text=True).stdout)
        for name, work in works.items():
            ours = timed(work)
            for values, value in zip(found[name], (ours, theirs[name], ours / theirs[name])):
                values.append(value)
    total = 0.0
    for value in kept.solve().moves.ravel():
        total += value
    print(json.dumps({
        "benchmark": "python", "cases": CASES, "runs": runs, "turns": TURNS, "blas_threads": 1,
        "same_bits": bool(total == theirs["sum_of_moves"]),
        **{name[:-3]: {"python_us": spread(ours), "c_us": spread(theirs), "ratio": spread(ratio)}
           for name, (ours, theirs, ratio) in found.items()}}, indent=1))


if __name__ == "__main__":
    main()
