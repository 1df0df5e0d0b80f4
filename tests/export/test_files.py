"""Files are written whole or not at all; what is asked wrongly is answered."""

import os
import resource
import signal
import stat

import pytest
from conftest import rack, run

ENDINGS = ["x.vtu", "x.glb", "x.dxf", "checks.csv"]


def small_disk():
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))


@pytest.fixture
def rack_file(write):
    return write(rack())


@pytest.mark.parametrize("name", ENDINGS)
def test_written_over_what_was_there(tmp_path, rack_file, name):
    path = tmp_path / name
    path.write_text("old")
    path.chmod(0o640)
    call = run("export", rack_file, "-o", path)
    assert (call.status, call.err) == (0, "")
    assert call.out == f"{path} is written.\n"
    assert path.stat().st_size > 1000
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert sorted(os.listdir(tmp_path)) == sorted([name, "rack.yaml"])
    again = path.read_bytes()
    assert run("export", rack_file, "-o", path).status == 0
    assert path.read_bytes() == again


@pytest.mark.parametrize("name", ENDINGS)
def test_a_disk_that_fills_up_leaves_what_was_there(tmp_path, rack_file, name):
    path = tmp_path / name
    call = run("export", rack_file, "-o", path, preexec_fn=small_disk)
    assert call.status == 3 and call.out == ""
    assert call.err == (
        f"trivet: {path}: could not be written: File too large; choose a place where you may write "
        "and there is room\n"
    )
    assert os.listdir(tmp_path) == ["rack.yaml"]
    path.write_text("old")
    assert run("export", rack_file, "-o", path, preexec_fn=small_disk).status == 3
    assert path.read_text() == "old"
    assert sorted(os.listdir(tmp_path)) == sorted([name, "rack.yaml"])


@pytest.mark.parametrize("name", ENDINGS)
def test_a_full_device_is_noticed_and_kept(tmp_path, rack_file, name):
    path = tmp_path / name
    path.symlink_to("/dev/full")
    call = run("export", rack_file, "-o", path)
    assert call.status == 3 and "No space left on device" in call.err
    assert path.is_symlink() and stat.S_ISCHR(os.stat("/dev/full").st_mode)


def test_a_link_leads_to_the_file_that_is_replaced(tmp_path, rack_file):
    (tmp_path / "elsewhere").mkdir()
    target = tmp_path / "elsewhere" / "real.vtu"
    target.write_text("old")
    (tmp_path / "x.vtu").symlink_to(target)
    assert run("export", rack_file, "-o", tmp_path / "x.vtu").status == 0
    assert (tmp_path / "x.vtu").is_symlink() and target.stat().st_size > 1000


def test_a_folder_gets_all_tables_or_none(tmp_path, rack_file):
    call = run("export", rack_file, "-o", f"{tmp_path}/tables/", preexec_fn=small_disk)
    assert call.status == 3 and "File too large" in call.err
    assert os.listdir(tmp_path) == ["rack.yaml"]
    (tmp_path / "tables").mkdir()
    (tmp_path / "tables" / "joints.csv").write_text("old")
    call = run("export", rack_file, "-o", tmp_path / "tables", preexec_fn=small_disk)
    assert call.status == 3
    assert os.listdir(tmp_path / "tables") == ["joints.csv"]
    assert (tmp_path / "tables" / "joints.csv").read_text() == "old"
    call = run("export", rack_file, "-o", tmp_path / "tables")
    assert call.out == f"{tmp_path}/tables has 26 tables now.\n"
    assert len(os.listdir(tmp_path / "tables")) == 26


def test_a_table_that_cannot_be_put_in_place(tmp_path, rack_file):
    (tmp_path / "tables" / "checks.csv").mkdir(parents=True)
    call = run("export", rack_file, "-o", tmp_path / "tables")
    assert call.status == 3 and "Is a directory" in call.err
    assert os.listdir(tmp_path / "tables") == ["checks.csv"]


def test_json_says_what_was_written(tmp_path, rack_file):
    call = run("export", rack_file, "-o", "a.vtu", "--json", cwd=tmp_path)
    assert (call.status, call.out) == (0, '{"written": "a.vtu"}\n')


@pytest.mark.parametrize(
    "words, complaint",
    [
        ([], "trivet export: does not know where to write; add -o with a name that ends in .vtu, "
             ".glb, .dxf or .csv, or -o FOLDER/"),
        (["-o"], "option -o: has no value; write -o X"),
        (["-o", "a.vtu", "-o", "b.vtu"], "option -o: stands twice; write -o X"),
        (["-o", "a.step"], "-o a.step: has an ending that names no format; end it in .vtu, .glb, "
                           ".dxf or .csv, or give a folder: tables/"),
        (["-o", "rack"], "-o rack: has an ending that names no format; end it in .vtu, .glb, "
                         ".dxf or .csv, or give a folder: tables/"),
        (["-o", "rack.csv"], "-o rack.csv: is not the name of a table; take -o tables/ for all, "
                             "or one of them with .csv: joints, tubes, sections, cases, reactions, "
                             "movements, forces, checks, bolts, droop, mounts, inserts, cargo, plates, "
                             "not-checked, pieces, ends, saddles, bends, holes, bars, layout, buy, "
                             "parts, sums, by-hand"),
    ],
)
def test_what_is_asked_wrongly(tmp_path, rack_file, words, complaint):
    call = run("export", rack_file, *words, cwd=tmp_path)
    assert (call.status, call.out) == (2, "")
    assert call.err == f"trivet: {complaint}\n"
    assert os.listdir(tmp_path) == ["rack.yaml"]


@pytest.mark.parametrize("command", ["check", "show", "rate", "explain"])
def test_others_write_no_file(tmp_path, rack_file, command):
    call = run(command, rack_file, "-o", tmp_path / "x.vtu")
    assert call.status == 2
    assert call.err == (f"trivet: option -o: is none of trivet {command}; leave it out; these take "
                        "it: export, draw, report, sweep\n")


def test_a_folder_that_is_not_there(tmp_path, rack_file):
    for name in ("no/x.vtu", "no/where/"):
        call = run("export", rack_file, "-o", f"{tmp_path}/{name}")
        assert call.status == 3 and "No such file or directory" in call.err


def test_a_file_that_is_wrong_writes_nothing(tmp_path, write):
    call = run("export", write("trivet: 1\n"), "-o", tmp_path / "x.vtu")
    assert call.status == 2
    assert os.listdir(tmp_path) == ["rack.yaml"]
