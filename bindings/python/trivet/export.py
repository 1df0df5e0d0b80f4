"""Files for other programs, written whole or not at all."""
import os
import secrets
import stat
from typing import Any, Callable, List, Optional, Tuple

from . import _calls as calls
from . import errors


def _names(function: Callable[[int], Optional[str]]) -> Tuple[str, ...]:
    """Names that a function gives one a call, until there is none."""
    found: List[str] = []
    while (name := function(len(found))) is not None:
        found.append(name)
    return tuple(found)


def csv_tables() -> Tuple[str, ...]:
    """Names of the tables that Checks.csv() gives.

    >>> import trivet
    >>> trivet.csv_tables()[:2]
    ('joints', 'tubes')
    """
    return _names(calls.export_table)


def cut_csv_tables() -> Tuple[str, ...]:
    """Names of the tables that Cuts.csv() gives."""
    return _names(calls.export_cut_table)


def table_number(table: str, tables: Tuple[str, ...]) -> int:
    """The number of a table by its name."""
    if table not in tables:
        raise errors.BadName(f"is {table!r}", thing="table",
                             remedy="choose from: " + ", ".join(tables))
    return tables.index(table)


def write_whole(path: Any, made: bytes) -> None:
    """Writes beside the place first, so that half a file never bears the name."""
    try:
        place = os.path.realpath(os.fspath(path))
        there = os.stat(place).st_mode if os.path.exists(place) else None
        if there is not None and not stat.S_ISREG(there):  # a pipe or a device keeps its place
            with open(place, "wb") as straight:
                straight.write(made)
        else:
            _replace(place, made, there)
    except OSError as wrong:
        raise errors.Unwritable(f"could not be written: {wrong.strerror}", thing=str(path),
                                remedy="choose a place where you may write and there is room"
                                ) from None


def _replace(place: str, made: bytes, mode: Optional[int]) -> None:
    beside = f"{place}.{secrets.token_hex(4)}"
    with open(beside, "xb") as file:
        try:
            file.write(made)
            file.flush()
            os.fsync(file.fileno())
            if mode is not None:  # what was there keeps its permissions
                os.fchmod(file.fileno(), stat.S_IMODE(mode))
            os.replace(beside, place)
        except BaseException:
            os.unlink(beside)
            raise


def handed(made: bytes, path: Any) -> bytes:
    """What was made, and written if a path was given."""
    if path is not None:
        write_whole(path, made)
    return made


__all__ = ["csv_tables", "cut_csv_tables"]
