"""The examples run as they stand, and show what they say they show."""
import os
import re
import runpy
import shutil
from pathlib import Path

import numpy as np

FOLDER = Path(os.environ["TRIVET_SOURCE"], "examples")


def run(name):
    return runpy.run_path(str(FOLDER / f"{name}.py"))


def test_overhang_against_wall(capsys):
    done = run("overhang_against_wall")
    said = capsys.readouterr().out
    uses, droops = done["uses"], done["droops"]
    assert uses.shape == droops.shape == (4, 5)
    # More reach is worse, more wall is better.
    assert (np.diff(uses, axis=1) > 0).all() and (np.diff(uses, axis=0) < 0).all()
    assert (np.diff(droops, axis=1) > 0).all() and (np.diff(droops, axis=0) < 0).all()
    assert "Not checked: " in said and "as far as it was checked" in said
    # The lightest has the thinnest wall and the least reach.
    assert "lightest that holds: wall 1.5 mm, reach 120 mm." in said and "Proven: " in said


def test_hold_a_hand_calculation(capsys):
    done = run("hold_a_hand_calculation")
    said = capsys.readouterr().out
    # The script holds the formulas against the result; here the numbers of the formulas alone:
    # 90 kg, 0.6 m of 1.8 m: two thirds of 882.6 N at the near post.
    assert round(done["left"], 1) == 588.4 and round(done["bending"], 2) == 353.04
    assert "sigma_v = sqrt(" in said and "588.4 N" in said


def test_what_readme_shows_runs(capsys, tmp_path, monkeypatch):
    readme = (FOLDER.parent / "README.md").read_text(encoding="utf-8")
    (shown,) = re.findall(r"```python\n(.*?)\n```", readme, re.S)
    shutil.copy(FOLDER / "wall-bracket.yaml", tmp_path / "rack.yaml")
    monkeypatch.chdir(tmp_path)
    exec(compile(shown, "README.md", "exec"), {})
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("holds as far as it was checked: arm at A carries 49.7")
    # The file itself: droop 0.576 of 1 mm; twice the load droops twice that.
    assert [" ".join(line.split()[:-1]) for line in lines[1:]] == [
        "case hanging 1 holds", "case hanging 2 does not hold", "case hanging 3 does not hold"]
    assert "<svg" in Path("rack.html").read_text(encoding="utf-8")
    assert sorted(os.listdir()) == ["rack.html", "rack.yaml", "runs.sqlite"]


def test_batch_of_cases(capsys):
    done = run("batch_of_cases")
    said = capsys.readouterr().out
    result = done["result"]
    assert result.moves.shape[0] == 300 and "300 cases" in said
    # By hand, from balance alone: a push F at height h against a foot at radius r, the other two
    # alike: R0 + 2 R1 = W and R0 r - R1 r = -F h, so that R0 = W / 3 - F h / (1.5 r).
    height, radius, weight = 1.6, 0.5, (4 + done["stand"].mass) * 9.80665
    by_hand = 400 * height / (1.5 * radius) - weight / 3
    found = -result.reactions[:, :, 2].min()
    assert abs(found / by_hand - 1) < 1e-9  # as the equilibrium of a well-conditioned solve
    assert all(path.name in {"overhang_against_wall.py", "hold_a_hand_calculation.py",
                             "batch_of_cases.py"} for path in FOLDER.glob("*.py"))
