"""Three ways to solve batches of variants, by turns: trivet_plan_solve, the bare loop over LAPACK,
a NumPy and SciPy script; and two threads beside one. Medians and ratios as JSON.

Usage: bench_variants.py BENCH_VARIANTS [ROUNDS]
"""
import json
import math
import os
import statistics
import subprocess
import sys
import time

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import numpy  # noqa: E402 (reads the environment)

import ladder_script  # noqa: E402

STATIONS = 5, 10, 15, 20, 28, 30  # 60 to 360 equations
CASES = 5, 10, 20
AGREE = 1e-7  # of the largest movement; condition numbers reach 1e8 here


class Server:
    """bench_variants serve: solves when asked, and says how long that took."""

    def __init__(self, program, stations, cases):
        self.process = subprocess.Popen([program, "serve", str(stations), str(cases)], text=True,
                                        stdin=subprocess.PIPE, stdout=subprocess.PIPE)

    def ask(self, word):
        self.process.stdin.write(word + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline()
        if not answer:
            sys.exit("bench_variants ended too early")
        return json.loads(answer)

    def close(self):
        self.process.stdin.close()
        if self.process.wait() != 0:
            sys.exit("bench_variants failed")


def require_agreement(ladder, description):
    """The script must solve what the others solve; also the first time, which warms up."""
    moves, _ = ladder_script.solve_chunk(ladder)
    for got, variant in zip(moves, description["variants"]):
        want = numpy.array(variant["moves"]).reshape(-1, ladder.size).T
        if not numpy.abs(got - want).max() <= AGREE * numpy.abs(want).max():
            sys.exit("the script's movements differ")


def time_script(ladder):
    start = time.perf_counter()
    ladder_script.solve_chunk(ladder)
    return 1e6 * (time.perf_counter() - start) / len(ladder.places)


def spread(values):
    return {"median": round(statistics.median(values), 3), "least": round(min(values), 3),
            "most": round(max(values), 3)}


def measure(program, stations, cases, rounds):
    server = Server(program, stations, cases)
    description = server.ask("describe")
    ladder = ladder_script.Ladder(description)
    require_agreement(ladder, description)
    times = {"ours": [], "checked": [], "bare": [], "script": [], "one": [], "two": []}
    for _ in range(rounds):
        for word, kept in times.items():
            kept.append(time_script(ladder) if word == "script" else server.ask(word))
    server.close()
    return {
        "equations": ladder.size, "cases": cases,
        **{f"{word}_us": spread(times[word]) for word in ("ours", "checked", "bare", "script")},
        "bare_over_ours": spread([a / b for a, b in zip(times["bare"], times["ours"])]),
        "bare_over_checked": spread([a / b for a, b in zip(times["bare"], times["checked"])]),
        "script_over_ours": spread([a / b for a, b in zip(times["script"], times["ours"])]),
        "script_over_bare": spread([a / b for a, b in zip(times["script"], times["bare"])]),
        "two_threads": spread([a / b for a, b in zip(times["one"], times["two"])]),
    }


def geometric_mean(frames, name):
    return round(math.exp(statistics.mean(math.log(f[name]["median"]) for f in frames)), 3)


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__.strip())
    rounds = max(int(sys.argv[2]) if len(sys.argv) > 2 else 15, 10)
    frames = [measure(sys.argv[1], stations, cases, rounds)
              for stations in STATIONS for cases in CASES]
    ratios = "bare_over_ours", "bare_over_checked", "script_over_ours", "script_over_bare", "two_threads"
    print(json.dumps({"benchmark": "variants", "rounds": rounds, "blas_threads": 1,
                      "frames": frames,
                      "geometric_means": {name: geometric_mean(frames, name) for name in ratios}},
                     indent=1))


if __name__ == "__main__":
    main()
