"""Builds the package: the library, what follows from its headers, and the module between the two.

The library is built from the sources above this folder with CMake, unless TRIVET_PREFIX names a
place where it is installed. Shared libraries go into the package, so that the wheel stands alone
but for OpenBLAS and LAPACKE, which come with the system. Nothing is written beside the sources.
"""
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Tuple

import cffi
from setuptools import Extension, setup

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(HERE))
sys.dont_write_bytecode = True

import generate  # noqa: E402 - found beside this file
import headers  # noqa: E402

BUNDLED = ("libfyaml.so", "libjansson.so")
WORK = Path(tempfile.mkdtemp(prefix="trivet-package-"))


def is_only_asked() -> bool:
    """Whether the installer wants to know name and version, and builds nothing yet."""
    return not {"bdist_wheel", "build", "build_ext", "install"} & set(sys.argv)


def refuse_what_cannot_be() -> None:
    """Neither the C sources nor the modules made from the headers lie in this folder."""
    if {"develop", "editable_wheel"} & set(sys.argv):
        raise SystemExit("parts of the package are made when it is built: install it without -e")
    if "sdist" in sys.argv:
        raise SystemExit("the sources of the library lie above this folder: build a wheel, or take "
                         "the whole source tree")


def build_library() -> Tuple[Path, Path]:
    """The folders of the headers and of the shared libraries."""
    given = os.environ.get("TRIVET_PREFIX")
    if given:
        found = sorted(Path(given).glob("lib*/**/libtrivet.so"))
        if not found:
            raise SystemExit(f"{given}: holds no libtrivet.so; install the library there first")
        return Path(given) / "include", found[0].parent
    if not (ROOT / "CMakeLists.txt").exists():
        raise SystemExit(f"{ROOT}: holds no sources of the library; set TRIVET_PREFIX to the place "
                         "where it is installed")
    build = WORK / "library"
    options = [f"-D{name}=OFF" for name in ("TRIVET_TESTS", "TRIVET_BENCHMARKS", "TRIVET_COMMAND")]
    for command in (["cmake", "-S", str(ROOT), "-B", str(build), "-DCMAKE_BUILD_TYPE=Release",
                     "-DCMAKE_BUILD_WITH_INSTALL_RPATH=ON", *options],
                    ["cmake", "--build", str(build), "--target", "trivet-document",
                     "--parallel", str(os.cpu_count() or 1)]):
        subprocess.run(command, check=True)
    return ROOT / "include", build / "lib"


def bundle(abi: int, libraries: Path, package: Path) -> None:
    """Puts the shared libraries beside the module: ours, and those that few systems have."""
    for name in (f"libtrivet.so.{abi}", f"libtrivet-document.so.{abi}"):
        shutil.copy(libraries / name, package / name)
    listed = subprocess.run(["ldd", str(libraries / f"libtrivet-document.so.{abi}")], check=True,
                            capture_output=True, text=True).stdout
    for line in listed.splitlines():
        words = line.split()
        if len(words) > 2 and words[0].startswith(BUNDLED) and os.path.isabs(words[2]):
            shutil.copy(words[2], package / words[0])
            copying = Path("/usr/share/doc") / words[0].replace(".so.", "") / "copyright"
            if copying.exists():  # their licence travels with them
                shutil.copy(copying, package / f"{words[0].split('.')[0]}.copyright")


def write_package(found: headers.Headers, libraries: Path) -> None:
    """The whole package as it goes into the wheel, in the work folder."""
    shutil.copytree(HERE / "trivet", WORK / "trivet",
                    ignore=shutil.ignore_patterns("__pycache__"))
    for name, text in (("errors", generate.write_errors(found)),
                       ("records", generate.write_records(found)),
                       ("_calls", generate.write_calls(found))):
        (WORK / "trivet" / f"{name}.py").write_text(text, encoding="utf-8")
    bundle(found.abi, libraries, WORK / "trivet")


def native_module(found: headers.Headers, include: Path, libraries: Path) -> object:
    """The module that holds the library's functions; the compiler compares it with the headers."""
    builder = cffi.FFI()
    builder.cdef(found.declarations)
    for callback in found.callbacks.values():  # the library's calls arrive in _c.py
        arguments = ", ".join(f"{one.type} {one.name}" for one in callback.parameters)
        builder.cdef(f'extern "Python" {callback.returns} '
                     f"trivet_python_{callback.name}({arguments});")
    includes = "".join(f"#include <trivet/{path.name}>\n"
                       for path in headers.find_headers(include))
    builder.set_source("trivet._native", includes)
    builder.emit_c_code("_native.c")
    return Extension("trivet._native", ["_native.c"], py_limited_api=True,
                     include_dirs=[str(include)], library_dirs=[str(libraries)],
                     libraries=["trivet-document", "trivet"],
                     extra_link_args=["-Wl,-rpath,$ORIGIN"])


def main() -> None:
    refuse_what_cannot_be()
    shutil.copy(HERE / "pyproject.toml", WORK)
    if (ROOT / "LICENSE").exists():
        shutil.copy(ROOT / "LICENSE", WORK)
    if is_only_asked():
        prefix = os.environ.get("TRIVET_PREFIX")
        os.chdir(WORK)
        include = Path(prefix) / "include" if prefix else ROOT / "include"
        setup(version=headers.read_headers(include).version, packages=[])
        return
    include, libraries = build_library()
    found = headers.read_headers(include)
    write_package(found, libraries)
    os.chdir(WORK)
    setup(version=found.version, packages=["trivet"],
          package_data={"trivet": ["py.typed", "*.pyi", "*.so.*", "*.copyright"]},
          ext_modules=[native_module(found, include, libraries)])


before = os.getcwd()
try:
    main()
finally:
    os.chdir(before)
    shutil.rmtree(WORK, ignore_errors=True)
