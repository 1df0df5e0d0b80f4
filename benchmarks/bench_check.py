"""Process time of `trivet check FILE` beside that of `trivet --version`, by turns, as JSON.

Usage: bench_check.py TRIVET FILE [RUNS]
"""
import json
import os
import statistics
import subprocess
import sys
import time


def spread(values):
    return {"median": round(statistics.median(values), 5), "least": round(min(values), 5),
            "most": round(max(values), 5)}


def timed(command):
    """Wall time in ms from starting the process to its end; check may say 1, does not hold."""
    start = time.perf_counter()
    done = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
    passed = time.perf_counter() - start
    if done.returncode not in (0, 1):
        sys.exit(f"{' '.join(command)} ended with status {done.returncode}")
    return passed * 1e3


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__.strip())
    trivet, path = sys.argv[1:3]
    runs = max(int(sys.argv[3]) if len(sys.argv) > 3 else 40, 20)
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    commands = [trivet, "check", path], [trivet, "--version"]
    for command in commands:
        timed(command)  # the first one reads files from the disk
    check, version = zip(*([timed(command) for command in commands] for _ in range(runs)))
    print(json.dumps({"benchmark": "check", "file": os.path.basename(path), "runs": runs,
                      "blas_threads": 1, "check_ms": spread(check), "version_ms": spread(version),
                      "ratio": spread([a / b for a, b in zip(check, version)])}, indent=1))


if __name__ == "__main__":
    main()
