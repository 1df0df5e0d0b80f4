"""Sweeps over many machines, with a scheduler of Dask. distributed is asked for only here.

Variants go to the workers in chunks of consecutive numbers, each with all that decides them: the
texts of the file and of its catalogues. A chunk depends on nothing else and leaves nothing behind,
so that it may be done again anywhere; it comes back in order.
"""
import hashlib
import os
import shutil
import tempfile
from collections import deque
from typing import (TYPE_CHECKING, Any, Callable, Deque, Iterator, List, Optional, Sequence, Tuple,
                    TypeVar)

from . import _calls as calls
from . import errors

from .export import write_whole
from .store import Store, merge
from .sweeps import Progress, Sweep
from .variants import Variants

if TYPE_CHECKING:
    from .sweeps import Path

TRIES = 10  # of a chunk whose workers are lost
CHUNKS_EACH = 8  # for each thread of the workers, so that a slow or lost one costs little
LEAST, MOST = 32, 4096  # variants of a chunk, unless the caller says how many
Answer = TypeVar("Answer")


# ---- what workers do ----


def _same_version(version: str) -> None:
    ours = calls.version() or ""
    if ours != version:
        raise errors.BadOrder(f"has version {ours} of the package, the caller has {version}",
                              thing="a worker", remedy="install the same version everywhere")


def run_chunk(version: str, sweep: Sweep, first: int, count: int, workers: int) -> Variants:
    """Works out some variants."""
    _same_version(version)
    return sweep.run(first, count, workers=workers)


def run_part(version: str, sweep: Sweep, part: Tuple[int, int], workers: int,
             checks: bool) -> bytes:
    """Works out a part into a store; gives the store's bytes."""
    _same_version(version)
    with tempfile.TemporaryDirectory(prefix="trivet-part-") as folder:
        path = os.path.join(folder, "part.sqlite")
        sweep.store(path, part=part, workers=workers, checks=checks)
        with open(path, "rb") as file:
            return file.read()


# ---- what the caller does ----


def _threads(client: Any) -> int:
    """Threads of all workers; refuses what is no client."""
    if not hasattr(client, "submit") or not hasattr(client, "nthreads"):
        raise errors.WrongArgument(f"is {type(client).__name__}", thing="client",
                                   remedy="give a distributed.Client")
    if getattr(client, "asynchronous", False):
        raise errors.WrongArgument("is asynchronous", thing="client",
                                   remedy="make it without asynchronous=True")
    return max(int(sum(client.nthreads().values())), 1)


def _size(count: int, threads: int, chunk: Optional[int]) -> int:
    if chunk is None:
        return min(max(-(-count // (CHUNKS_EACH * threads)), LEAST), MOST)
    if isinstance(chunk, bool) or not isinstance(chunk, int) or chunk < 1:
        raise errors.BadValue(f"is {chunk!r}", thing="chunk", remedy="give 1 or more")
    return chunk


def _in_order(client: Any, function: Callable[..., Answer], calls_of: Sequence[Tuple[Any, ...]],
              threads: int) -> Iterator[Answer]:
    """The answers in the order of the calls; some more than there are threads are under way."""
    waiting: Deque[Tuple[Tuple[Any, ...], Any]] = deque()
    rest = iter(calls_of)
    try:
        while True:
            while len(waiting) < 2 * threads + 2:
                arguments = next(rest, None)
                if arguments is None:
                    break
                waiting.append((arguments, client.submit(function, *arguments, pure=False)))
            if not waiting:
                return
            arguments, future = waiting[0]
            answer = _answer(client, function, arguments, future)
            waiting.popleft()
            yield answer
    finally:
        if waiting:
            client.cancel([future for _, future in waiting])


def _answer(client: Any, function: Callable[..., Answer], arguments: Tuple[Any, ...],
            future: Any) -> Answer:
    """The answer of a call. The scheduler does again what was on a lost worker, until it takes the
    call for the reason; then it is handed in anew."""
    from concurrent.futures import CancelledError

    from distributed import KilledWorker
    for _ in range(TRIES):
        try:
            answer: Answer = future.result()
            return answer
        except (KilledWorker, CancelledError, EOFError, ConnectionError):
            future = client.submit(function, *arguments, pure=False)
    raise errors.Interrupted(f"was given up after {TRIES} workers were lost over it",
                             thing="a chunk of the sweep",
                             remedy="look into the logs of the workers: memory may be short")


def blocks(sweep: Sweep, client: Any, *, workers: int, progress: Optional[Progress],
           chunk: Optional[int]) -> Iterator[Variants]:
    """All variants in order."""
    threads = _threads(client)
    count = sweep.count
    size = _size(count, threads, chunk)
    version = calls.version() or ""
    asked = [(version, sweep, first, min(size, count - first), workers)
             for first in range(0, count, size)]

    def handed() -> Iterator[Variants]:
        done = 0
        for block in _in_order(client, run_chunk, asked, threads):
            done += len(block)
            if progress is not None:
                progress(done, count)
            yield block

    return handed()


def _part_folder(sweep: Sweep, store: str, parts: int, checks: bool) -> str:
    """Where parts wait to be merged: of another run they lie elsewhere."""
    print_of = hashlib.sha256(repr((sweep._texts(), parts, checks, calls.version())).encode())
    return f"{store}.{print_of.hexdigest()[:16]}.parts"


class _Enough(Exception):
    """The store is there and of this sweep."""


def _begin(sweep: Sweep, path: str, checks: bool) -> bool:
    """Makes the store, or sees that it is of this sweep, before much work is done; whether it is
    finished."""
    def stop(done: int, count: int) -> None:
        raise _Enough

    try:
        sweep.store(path, checks=checks, progress=stop)
    except _Enough:
        return False
    return True


def _is_there(path: str) -> bool:
    try:
        return Store(path).is_finished
    except errors.TrivetError:
        return False


def into_store(sweep: Sweep, client: Any, store: "Path", *, workers: int, checks: bool,
               progress: Optional[Progress], chunk: Optional[int]) -> Store:
    """All variants into a store with the content of a sweep on one machine.

    Each worker makes the stores of some parts; they are kept beside the store until all are there,
    so that a run that was stopped goes on, and then merged into it.
    """
    threads = _threads(client)
    count, path = sweep.count, os.fspath(store)
    if _begin(sweep, path, checks):
        return Store(path)
    parts = -(-count // _size(count, threads, chunk))
    folder = _part_folder(sweep, path, parts, checks)
    os.makedirs(folder, exist_ok=True)
    files = [os.path.join(folder, f"{part}.sqlite") for part in range(1, parts + 1)]
    missing = [part for part, file in enumerate(files, 1) if not _is_there(file)]
    version = calls.version() or ""
    asked = [(version, sweep, (part, parts), workers, checks) for part in missing]
    done = parts - len(missing)
    for part, made in zip(missing, _in_order(client, run_part, asked, threads)):
        write_whole(files[part - 1], made)
        done += 1
        if progress is not None:
            progress(count * done // parts, count)
    merged = merge(path, files)
    shutil.rmtree(folder, ignore_errors=True)
    return merged


__all__: List[str] = []
