"""Process time of `trivet report FILE` and of `trivet draw FILE` beside that of `trivet check FILE`,
by turns, and the size of what they write, as JSON.

Usage: bench_report.py TRIVET FILE [RUNS]
"""

import json
import os
import sys
import tempfile

from bench_check import spread, timed


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__.strip())
    trivet, path = sys.argv[1:3]
    runs = max(int(sys.argv[3]) if len(sys.argv) > 3 else 40, 20)
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    with tempfile.TemporaryDirectory() as folder:
        page, picture = os.path.join(folder, "x.html"), os.path.join(folder, "x.svg")
        commands = ([trivet, "report", path, "-o", page], [trivet, "draw", path, "-o", picture],
                    [trivet, "check", path])
        for command in commands:
            timed(command)  # the first one reads files from the disk
        report, draw, check = zip(*([timed(command) for command in commands] for _ in range(runs)))
        sizes = os.path.getsize(page), os.path.getsize(picture)
    print(json.dumps({"benchmark": "report", "file": os.path.basename(path), "runs": runs,
                      "blas_threads": 1, "report_ms": spread(report), "draw_ms": spread(draw),
                      "check_ms": spread(check),
                      "report_over_check": spread([a / b for a, b in zip(report, check)]),
                      "draw_over_check": spread([a / b for a, b in zip(draw, check)]),
                      "page_bytes": sizes[0], "drawing_bytes": sizes[1]}, indent=1))


if __name__ == "__main__":
    main()
