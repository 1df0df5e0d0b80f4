"""No public function is missing: from the generated module, and from what the rest makes of it."""
import ast
import os
import subprocess
import sys
from pathlib import Path

import trivet
from trivet import _calls
from trivet._native import ffi, lib

SOURCE = Path(os.environ["TRIVET_SOURCE"])
sys.path.insert(0, str(SOURCE / "tests" / "house"))
from declarations import read_headers  # noqa: E402 - the other reader of the headers

# Called for every struct or handle, or inside the generated functions.
ALWAYS = ("_free", "_defaults")
# trivet.errors clears a message once it was told.
INSIDE = {"message_clear"}


def public_functions():
    names = {name for header in read_headers(str(SOURCE)) for name, _, _ in header.functions()}
    assert len(names) > 200
    return {name[len("trivet_"):] for name in names}


def test_every_public_function_can_be_called():
    missing = [name for name in public_functions() if not hasattr(lib, f"trivet_{name}")]
    assert not missing
    missing = [name for name in public_functions()
               if not hasattr(_calls, name) and not name.endswith(ALWAYS) and name not in INSIDE]
    assert not missing


def test_every_public_function_is_used_by_the_package():
    used = set()
    for path in Path(trivet.__file__).parent.glob("*.py"):
        if path.name == "_calls.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                if node.value.id in ("calls", "_calls"):
                    used.add(node.attr)
                if node.value.id == "lib" and node.attr.startswith("trivet_"):
                    used.add(node.attr[len("trivet_"):])
    missing = sorted(name for name in public_functions()
                     if name not in used and not name.endswith(ALWAYS))
    assert not missing, (
        "these public functions have no place in the package yet; give each a method, a property "
        f"or a function that calls calls.NAME: {', '.join(missing)}")


def test_only_the_one_module_talks_to_c():
    for path in Path(trivet.__file__).parent.glob("*.py"):
        text = path.read_text(encoding="utf-8")
        assert ("_native" in text) == (path.name in ("_c.py", "_calls.py")), path.name


def test_every_status_is_an_exception_of_its_group():
    groups = {1: trivet.CallError, 2: trivet.InputError, 3: trivet.NotComputable,
              4: trivet.MachineError, 9: trivet.MistakeInside}
    known = ffi.typeof("trivet_status").elements
    assert set(trivet.errors.BY_STATUS) == {number for number in known if number != 0}
    for number, kind in trivet.errors.BY_STATUS.items():
        assert kind.status == number
        assert issubclass(kind, groups[number // 10]) and issubclass(kind, trivet.TrivetError)
        assert kind.__name__.upper() == known[number][len("TRIVET_"):].replace("_", "")
        assert trivet.status_text(number) in kind.__doc__
        want = 2 if groups[number // 10] is trivet.InputError else 3
        assert trivet.exit_status(number) == want


def test_records_have_the_members_of_the_structs():
    kinds = {name: ffi.typeof(f"trivet_{name}") for name in trivet._c.STRUCTS}
    assert len(kinds) > 25
    for name, ctype in kinds.items():
        record = getattr(trivet.records, "".join(part.capitalize() for part in name.split("_")))
        members = {field for field, _ in ctype.fields}
        ours = {field.rstrip("_") for field in record.__dataclass_fields__}
        assert ours <= members
        assert all(field == "size" or field.endswith("_count") for field in members - ours)


def test_declarations_are_those_that_the_compiler_saw():
    code = ("import sys; sys.path.insert(0, sys.argv[1]); import headers, pathlib;"
            "print(len(headers.read_headers(pathlib.Path(sys.argv[2])).functions))")
    done = subprocess.run([sys.executable, "-B", "-c", code, str(SOURCE / "bindings" / "python"),
                           str(SOURCE / "include")], capture_output=True, text=True, check=True)
    assert int(done.stdout) == len(public_functions())


def test_a_scheme_that_is_not_understood_is_refused(tmp_path):
    folder = tmp_path / "trivet"
    folder.mkdir()
    for path in (SOURCE / "include" / "trivet").glob("*.h"):
        (folder / path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    for line, complaint in (
            ("TRIVET_API trivet_status trivet_frame_set_wind(trivet_frame *frame, "
             "const double *wind, trivet_message *message);", "say in LENGTHS how many"),
            ("TRIVET_API float trivet_frame_wind(const trivet_frame *frame);", "gives a float"),
            ("TRIVET_API void trivet_frame_each(trivet_frame *frame, void (*f)(int));",
             "not understood")):
        (folder / "wind.h").write_text(f"/** Wind. */\n{line}\n", encoding="utf-8")
        code = ("import sys; sys.path.insert(0, sys.argv[1]); import generate, headers, pathlib;"
                "generate.write_calls(headers.read_headers(pathlib.Path(sys.argv[2])))")
        done = subprocess.run(
            [sys.executable, "-B", "-c", code, str(SOURCE / "bindings" / "python"),
             str(tmp_path)], capture_output=True, text=True, check=False)
        assert done.returncode != 0 and complaint in done.stderr, done.stderr
