"""Says what is missing before any test runs; a frame with a little of everything."""
import os
import sys
from pathlib import Path

import pytest


def pytest_sessionstart(session):
    missing = [name for name in ("TRIVET_SOURCE", "TRIVET_COMMAND") if name not in os.environ]
    if missing:
        pytest.exit("set " + " and ".join(missing) + " (ctest does): the folder of the sources, "
                    "and the command", returncode=2)
    import trivet
    if not trivet.__file__.startswith(sys.prefix):
        pytest.exit(f"{trivet.__file__} is not the installed package", returncode=2)


@pytest.fixture
def examples():
    return sorted(Path(os.environ["TRIVET_SOURCE"], "examples").glob("*.yaml"))


@pytest.fixture
def carrier():
    import trivet
    return trivet.read(Path(os.environ["TRIVET_SOURCE"], "examples", "cool-box-carrier.yaml"))


@pytest.fixture
def arm():
    return arm_of()


def arm_of(length=0.5):
    """A tube clamped at one end, 200 N on the other."""
    import trivet
    frame = trivet.Frame("arm")
    frame.add_joint("wall", 0.0, 0.0, 0.0)
    frame.add_joint("tip", length, 0.0, 0.0)
    frame.add_stock("tube", "round tube", diameter="30 mm", wall="2 mm", material="E235")
    frame.add_tube("arm", ["wall", "tip"], "tube")
    frame.add_mount("wall", "all")
    frame.add_case("pulled")
    frame.add_force("pulled", "tip", (0.0, 0.0, -200.0))
    return frame
