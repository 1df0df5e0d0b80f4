"""Says what is missing before any test runs."""
import os

import pytest


def pytest_sessionstart(session):
    missing = [name for name in ("TRIVET_LIBRARY", "TRIVET_INCLUDE") if name not in os.environ]
    if missing:
        pytest.exit("set " + " and ".join(missing) + " (ctest does): the shared library, and the "
                    "folder that holds trivet/trivet.h", returncode=2)
