"""Random arguments give an exception or a result and nothing else: no crash, no hang."""
import os
import subprocess
import sys

EXAMPLES = 150  # each of five targets; the same ones every time


def test_random_arguments_never_crash(tmp_path):
    script = os.path.join(os.path.dirname(__file__), "fuzz_package.py")
    done = subprocess.run([sys.executable, "-B", "-X", "faulthandler", script, str(EXAMPLES)],
                          capture_output=True, text=True, check=False, timeout=250, cwd=tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr[-4000:]
    lines = done.stdout.splitlines()
    assert [line.split()[0] for line in lines[:5]] == [
        f"fuzz_{target}" for target in ("frames", "results", "sweeps", "module", "text")]
    assert int(lines[5].split()[0]) > 90, lines[5]
