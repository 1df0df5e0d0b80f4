"""What README prints is what the command prints, word for word; examples hold."""

import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
import yaml
from conftest import COMMAND

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
CALLS = re.findall(r"```console\n\$ trivet ([^\n]*)\n(.*?)\n```", README, re.S)
# A program that links libraries with sanitizers in them needs the same sanitizers.
SANITIZE = [f"-fsanitize={words}"] if (words := os.environ.get("TRIVET_SANITIZE")) else []
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))


def call(*words):
    done = subprocess.run(
        [COMMAND, *words], cwd=ROOT, capture_output=True, text=True, timeout=60, check=False
    )
    return done.returncode, done.stdout + done.stderr


def merged(into, more):
    """A map with another laid over it, map by map."""
    for key, value in more.items():
        if isinstance(value, dict) and isinstance(into.get(key), dict):
            merged(into[key], value)
        else:
            into[key] = value
    return into


def test_the_block_on_bolts_and_welds_is_understood(tmp_path):
    block = re.findall(r"```yaml\n(.*?)\n```", README, re.S)[1]
    path = ROOT / "examples/cool-box-carrier.yaml"
    carrier = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)  # on is a word
    whole = tmp_path / "rack.yaml"
    whole.write_text(json.dumps(merged(carrier, yaml.load(block, Loader=yaml.BaseLoader))), encoding="utf-8")
    status, out = call("check", str(whole))
    assert status in (0, 1) and "mount FL" in out


def test_the_block_on_the_workshop_is_understood(tmp_path):
    """A hoop of three tubes of 300, 500 and 300 mm, bent twice."""
    block = yaml.safe_load(next(b for b in re.findall(r"```yaml\n(.*?)\n```", README, re.S) if "shop:" in b))
    ends = {"left post": ["A", "B"], "top": ["B", "C"], "right post": ["C", "D"]}
    frame = {
        "trivet": 1,
        "stock": {"s": {"shape": "round tube", "diameter": "25 mm", "wall": "2 mm", "material": "S235"}},
        "joints": {"A": [0, 0, 0], "B": [0, 0, 300], "C": [0, 500, 300], "D": [0, 500, 0]},
        "tubes": {name: {"through": joints, "stock": "s"} for name, joints in ends.items()},
        "mounts": {"A": {"hold": "all"}, "D": {"hold": "all"}},
        "cases": {"parked": {"gravity": [0, 0, -1]}},
    }
    path = tmp_path / "hoop.yaml"
    path.write_text(json.dumps(frame | block), encoding="utf-8")
    status, out = call("cut", str(path))
    assert status == 0 and "hoop (bent)" in out and "14.00" in out


def test_there_are_calls_and_examples():
    assert len(CALLS) >= 2
    assert len(EXAMPLES) >= 3


@pytest.mark.parametrize("words, printed", CALLS)
def test_printed_output_is_real(words, printed):
    assert call(*words.split())[1].rstrip("\n") == printed


def test_the_file_shown_is_the_example():
    shown = re.search(r"```yaml\n(.*?)\n```", README, re.S).group(1)
    assert shown in (ROOT / "examples/wall-bracket.yaml").read_text(encoding="utf-8")


def test_the_program_shown_runs(tmp_path):
    """Built against the libraries beside the command, it says what the command says."""
    program = re.search(r"```c\n(.*?)\n```", README, re.S).group(1)
    source = tmp_path / "shown.c"
    source.write_text(program, encoding="utf-8")
    libraries = Path(COMMAND).resolve().parents[2] / "lib"
    subprocess.run(
        [shutil.which("cc"), "-std=c11", "-Wall", "-Wextra", "-Werror", f"-I{ROOT / 'include'}",
         str(source), "-o", str(tmp_path / "shown"), f"-L{libraries}", "-ltrivet-document",
         "-ltrivet", f"-Wl,-rpath,{libraries}", *SANITIZE],
        check=True,
    )
    shutil.copy(ROOT / "examples/wall-bracket.yaml", tmp_path / "rack.yaml")
    done = subprocess.run(
        [str(tmp_path / "shown")], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    answer = json.loads(call("check", "--json", "examples/wall-bracket.yaml")[1])
    up = answer["cases"]["hanging"]["joints"]["B"]["move"][2]
    assert done.stdout == f"the last joint moves {1e3 * up:g} mm up in the first case\n"


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_examples_hold_and_agree_with_their_hand_calculations(example):
    status, printed = call("check", str(example))
    assert status == 0, printed
    assert "Verdict: HOLDS" in printed
    for words in (["show"], ["check", "--json"], ["show", "--json"]):
        status, printed = call(*words, str(example))
        assert status == 0, printed


def test_the_variants_shown_are_the_example_and_one_is_best(tmp_path):
    path = ROOT / "examples/sweeps/boat-arm.yaml"
    whole = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    blocks = re.findall(r"```yaml\n(.*?)\n```", README, re.S)
    shown = [yaml.load(block, Loader=yaml.BaseLoader) for block in blocks if "vary:" in block]
    assert shown == [{"vary": whole["vary"]}]
    assert call("check", str(path))[0] == 0
    status, out = call("pick", str(path), "--least", "price")
    assert status == 0 and "Proven: every cheaper one was solved and does not hold." in out
    status, out = call("sweep", str(path), "-o", str(tmp_path / "arm.sqlite"))
    # 5 heights, 2 reaches, 7 arms, 3 braces; 400 mm is more than 0.6 of 600 mm.
    assert status == 0 and "210 of them" in out and "21 were skipped" in out


def test_the_picture_shown_is_the_one_that_is_drawn():
    """Its words and numbers; coordinates may differ in their last digit between compilers."""
    words, place = re.search(r"`trivet (draw [^`]*) -o ([^`]*)` makes this picture", README).groups()
    status, drawn = call(*words.split(), "-o", "-")
    shown = (ROOT / place).read_text(encoding="utf-8")
    texts = [re.findall(r">([^<>]*[^<>\s][^<>]*)<", svg) for svg in (shown, drawn)]
    assert status == 0 and len(texts[0]) > 40 and texts[0] == texts[1]
    assert f"]({place})" in README
