"""trivet start: whole or not at all, and never over something that is there."""

import os
import resource
import signal
import subprocess

from conftest import COMMAND, run


def test_start_then_check(tmp_path):
    call = run("start", "rack.yaml", cwd=tmp_path)
    assert (call.status, call.err) == (0, "")
    assert call.out == "rack.yaml is written. Change it, then: trivet check rack.yaml\n"
    assert os.listdir(tmp_path) == ["rack.yaml"]
    assert run("check", "rack.yaml", cwd=tmp_path).status == 0
    assert run("show", "rack.yaml", cwd=tmp_path).status == 0


def test_dash_writes_to_standard_output(tmp_path):
    call = run("start", "-")
    assert call.status == 0
    run("start", tmp_path / "a.yaml")
    assert (tmp_path / "a.yaml").read_text(encoding="utf-8") == call.out


def test_json(tmp_path):
    call = run("start", 'a "b" \\ c.yaml', "--json", cwd=tmp_path)
    assert call.status == 0
    assert call.json == {"written": 'a "b" \\ c.yaml'}
    assert run("start", "-", "--json").status == 2


def test_nothing_is_written_over(tmp_path):
    path = tmp_path / "rack.yaml"
    path.write_text("mine")
    call = run("start", path)
    assert (call.status, call.out) == (2, "")
    assert call.err == (
        f"trivet: {path}: is there already; give a new name; trivet start writes over nothing\n"
    )
    assert path.read_text() == "mine"
    assert os.listdir(tmp_path) == ["rack.yaml"]


def test_a_link_to_nowhere_is_not_followed(tmp_path):
    (tmp_path / "rack.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    assert run("start", tmp_path / "rack.yaml").status == 2
    assert not (tmp_path / "elsewhere.yaml").exists()


def test_a_folder_that_is_not_there(tmp_path):
    call = run("start", tmp_path / "no" / "rack.yaml")
    assert (call.status, call.out) == (3, "")
    assert "No such file or directory" in call.err


def test_a_disk_that_is_full_leaves_nothing(tmp_path):
    def small_disk():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))

    call = run("start", "rack.yaml", cwd=tmp_path, preexec_fn=small_disk)
    assert (call.status, call.out) == (3, "")
    assert os.listdir(tmp_path) == []


def test_permissions_are_those_of_any_new_file(tmp_path):
    before = os.umask(0o027)
    try:
        run("start", tmp_path / "rack.yaml")
    finally:
        os.umask(before)
    assert (tmp_path / "rack.yaml").stat().st_mode & 0o777 == 0o640


def test_of_many_at_once_one_wins(tmp_path):
    calls = [
        subprocess.Popen(
            [COMMAND, "start", "rack.yaml"],
            cwd=tmp_path,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for _ in range(6)
    ]
    assert sorted(call.wait(timeout=120) for call in calls) == [0, 2, 2, 2, 2, 2]
    assert os.listdir(tmp_path) == ["rack.yaml"]
