"""Trivet tells a home fabricator whether a tube frame will hold.

Read a file, or build a frame in code; solve it, check it, rate it:

>>> import trivet
>>> frame = trivet.read_text(trivet.starter_text())
>>> result = frame.solve()
>>> result.moves.shape == (len(frame.columns), len(frame.joints), 6)
True
>>> checks = result.check()
>>> checks.verdict
'holds'

All numbers are SI (m, kg, s, N, Pa, rad, K); wherever a number goes in, text with a unit may stand
in its place: "1 1/4 in", "14 ga BWG", "900 N*m/rad". World axes: x forward, y left, z up.

What goes wrong is an exception: trivet.InputError (the input, with line and column),
trivet.Unstable (the frame moves freely, with joint and direction), trivet.TrivetError (any).

A verdict speaks of what was checked, and of nothing else: see Checks.omissions and cautions().
"""
from . import _calls, errors, records
from ._c import Quantity
from ._frame_read import usages
from .checks import Checks, Losses, Rates, cautions, check_names, used_text
from .errors import *  # noqa: F401,F403 - the list is made from the library's statuses
from .frame import Frame, gives, read, read_text
from .export import csv_tables, cut_csv_tables
from .pick import Pick
from .result import Droop, Plan, Result, verdict_words
from .shop import Cuts, Cutting, WrittenTable, cut_rules, cut_words
from .stock import (dimensions, error_json, error_text, exit_status, filler, fillers, fit, fit_text,
                    fits, gauge, gauge_range, grade, grades, material, materials, quantity, radii,
                    read_quantity, section, shapes, show, status_text, stock_json, thread, threads,
                    unit, weakest_texts)
from .store import Store, merge
from .sweeps import Stream, Sweep, sweep
from .variants import Input, Variant, Variants

__version__ = _calls.version() or ""
if _calls.abi() != _calls.ABI:
    raise ImportError(f"the library's binary interface is number {_calls.abi()}, the package was "
                      f"built for number {_calls.ABI}: install the two anew, together")


def starter_text() -> str:
    """A commented starter file, ready to be changed."""
    return _calls.starter_text() or ""


__all__ = errors.__all__ + ["Checks", "Cuts", "Cutting", "Droop", "Frame", "Input", "Losses",
    "Pick", "Plan", "Quantity", "Rates", "Result", "Store", "Stream", "Sweep", "Variant",
    "Variants", "WrittenTable", "cautions", "check_names", "csv_tables", "cut_csv_tables", "cut_rules", "cut_words", "dimensions",
    "error_json", "error_text", "errors", "exit_status", "filler", "fillers", "fit", "fit_text",
    "fits", "gauge", "gauge_range", "gives", "grade", "grades", "material", "materials", "merge",
    "quantity", "radii", "read", "read_quantity", "read_text", "records", "section", "shapes",
    "show", "starter_text", "status_text", "stock_json", "sweep", "thread", "threads", "unit",
    "usages", "used_text", "verdict_words", "weakest_texts"]
