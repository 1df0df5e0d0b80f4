"""Sweeps: every variant of a file solved and checked, in order, into arrays or a store."""
import os
from functools import lru_cache
from typing import (TYPE_CHECKING, Any, Callable, Dict, Iterator, List, Mapping, Optional, Tuple,
                    Union, overload)

from . import _calls as calls
from . import errors
from ._c import Handle, Structs, fill, new_struct, struct, word
from .frame import Frame, _from_document
from .frame import read_text as _read_frame_text
from .stock import show
from .variants import Input, Variant, Variants

if TYPE_CHECKING:
    from .pick import Pick
    from .store import Store

Path = Union[str, "os.PathLike[str]"]
Progress = Callable[[int, int], Any]
BLOCK = 4096  # rows that are in memory at once while they are streamed


class Sweep:
    """A file with `vary`: what varies, and how many variants that makes.

    Args:
        source: the path of a file; or a Frame that was read and not changed since
        catalogues: texts of the catalogues that the file names, where they do not lie beside it

    Once read it never changes: several threads may ask it at once, and it is pickled as the texts
    that it was read from.

    >>> import trivet
    >>> text = trivet.starter_text() + "vary: {case parked: [1, 2]}"
    >>> try:
    ...     trivet.Sweep(trivet.read_text(text))
    ... except trivet.InputError as wrong:
    ...     print(wrong.problem)
    the key "case parked" is not known here
    >>> text = trivet.starter_text() + "vary: {cases: {parked: [1, 2, 3]}}"
    >>> sweep = trivet.Sweep(trivet.read_text(text))
    >>> sweep.count, [one.name for one in sweep.inputs], sweep.describe(1)
    (3, ['case parked'], 'case parked 2')
    >>> rows = sweep.run()
    >>> rows.column("case parked").tolist(), rows.used.shape, rows[2].outcome
    ([1.0, 2.0, 3.0], (3, 3), 'checked')
    """

    def __init__(self, source: Union[Path, Frame], *,
                 catalogues: Optional[Mapping[str, str]] = None) -> None:
        if isinstance(source, Frame):
            self._handle: Optional[Handle] = _of_frame(source, catalogues)
        elif catalogues is not None:
            self._handle = _of_text(_bytes_of(source), catalogues)
        else:
            self._handle = calls.sweep_read_file(os.fspath(source))
        self._inputs: Optional[Tuple[Input, ...]] = None

    @classmethod
    def of_text(cls, text: Union[str, bytes],
                catalogues: Optional[Mapping[str, str]] = None) -> "Sweep":
        """Reads the text of a file; catalogues: texts by the names under which it names them."""
        return cls._around(_of_text(text, catalogues or {}))

    @classmethod
    def _around(cls, handle: Handle) -> "Sweep":
        made = cls.__new__(cls)
        made._handle, made._inputs = handle, None
        return made

    def _use(self) -> Handle:
        if self._handle is None:
            raise errors.Closed("is closed", thing="sweep", remedy="read it again")
        return self._handle

    # ---- what varies ----

    @property
    def count(self) -> int:
        """The number of variants."""
        return calls.sweep_count(self._use())

    def __len__(self) -> int:
        return self.count

    @property
    def inputs(self) -> Tuple[Input, ...]:
        """What varies, in the order of the columns of Variants.values."""
        handle = self._use()
        if self._inputs is None:
            self._inputs = tuple(self._input(index)
                                 for index in range(calls.sweep_input_count(handle)))
        return self._inputs

    def _input(self, index: int) -> Input:
        name, dimension = calls.sweep_input(self._use(), index)
        choices: List[str] = []
        while dimension == -2:
            choice = calls.sweep_choice(self._use(), index, len(choices))
            if choice is None:
                break
            choices.append(choice)
        kind = "choice" if dimension == -2 else word("dimension", dimension)  # of none: ""
        return Input(name or "", kind, tuple(choices))

    @property
    def columns(self) -> Tuple[str, ...]:
        """Names of the columns of tables: what varies, then the answers."""
        from .tables import variant_columns
        return tuple(variant_columns(self.inputs))

    def values(self, number: int) -> Dict[str, Union[float, str]]:
        """What a variant is made of, by input: SI units, factors, names of stock."""
        found = calls.sweep_inputs(self._use(), number, len(self.inputs))
        return {one.name: one.value(value) for one, value in zip(self.inputs, found)}

    def describe(self, number: int) -> str:
        """The same in words, in the file's units: "reach 180 mm, rail rail b"."""
        units = vars(self.frame.units)
        said = []
        for one, value in zip(self.inputs, self.values(number).values()):
            said.append(f"{one.name} {value}" if isinstance(value, str) else
                        f"{one.name} {show(value, one.dimension or 'number', 5, units)}")
        return ", ".join(said)

    @property
    def frame(self) -> Frame:
        """The file as it stands."""
        document = calls.sweep_document(self._use())
        assert document is not None
        return _from_document(document)

    def text(self, number: int) -> str:
        """A variant written as a file of its own: what `trivet sweep --variant` prints."""
        return calls.sweep_variant_text(self._use(), number)

    def variant(self, number: int) -> Frame:
        """A variant as a frame: solved and checked, it gives the bits of the sweep."""
        return _read_frame_text(self.text(number))

    # ---- answers ----

    def run(self, first: int = 0, count: Optional[int] = None, *, workers: int = 1,
            progress: Optional[Progress] = None) -> Variants:
        """Works out variants first .. first + count - 1; other threads run meanwhile.

        Args:
            count: None: all from first on
            workers: threads, 1 to 256; the answer does not depend on them
            progress: told how many of how many are done; what it raises stops the sweep
        """
        return Variants.join(self.inputs, list(self.blocks(first, count, workers=workers,
                                                           progress=progress)))

    def blocks(self, first: int = 0, count: Optional[int] = None, *, workers: int = 1,
               progress: Optional[Progress] = None, block: int = BLOCK) -> Iterator[Variants]:
        """The same in order, so many at a time: no more than these are in memory."""
        handle, inputs = self._use(), self.inputs
        total = max(self.count - first, 0) if count is None else count
        if block < 1:
            raise errors.BadValue(f"is {block}", thing="block", remedy="give 1 or more")
        for start in range(0, total, block) if total > 0 else (0,):
            some = min(block, total - start)
            taken = Structs("variant", max(some, 1), len(inputs))

            def take(variant: Any, values: Any, before: int = start, to: Structs = taken) -> None:
                to.take(variant, values)
                if progress is not None:
                    progress(before + to.count, total)

            calls.sweep_run(handle, first + start, some, workers, take)
            yield Variants._taken(inputs, taken)

    def __iter__(self) -> Iterator[Variant]:
        for block in self.blocks(block=256):
            yield from block

    def store(self, path: Path, *, workers: int = 1, part: Optional[Tuple[int, int]] = None,
              checks: bool = False, progress: Optional[Progress] = None) -> "Store":
        """Runs into a store: a new file, or one that goes on where it was stopped.

        Args:
            path: of an SQLite file
            workers: threads
            part: (3, 8) for the third of eight parts, to be merged later: see trivet.merge
            checks: True keeps the worst of each kind of check of every variant too
            progress: told how many of how many are stored; what it raises stops the sweep, and
                what was done stays in the store
        """
        from .store import Store
        settings = struct("sweep_settings", {"workers": workers, "checks": int(bool(checks)),
                                             **_part(part)})
        calls.sweep_store(self._use(), settings, os.fspath(path), reported(progress))
        return Store(path)

    def pick(self, least: str = "mass", *, runners_up: int = 3, workers: int = 1,
             most: int = 100000, progress: Optional[Progress] = None) -> "Pick":
        """Picks the best variant that holds, with the next best and the proof; see trivet.Pick.

        Args:
            least: "mass", "price" or "droop"
            runners_up: how many more that hold are looked for
            workers: threads
            most: variants that are solved at most
            progress: told how many are solved, of how many at most
        """
        from .pick import Pick
        settings = fill(new_struct("pick_settings"), "pick_settings", {
            "aim": least, "runners_up": runners_up, "workers": workers, "most": most})
        return Pick(calls.pick_new(self._use(), settings, reported(progress)), self, least)

    # ---- Python ----

    def _texts(self) -> Tuple[bytes, Tuple[Tuple[str, str], ...]]:
        """Everything that decides the variants."""
        found: List[Tuple[str, str]] = []
        while True:
            try:
                catalogue = calls.sweep_catalogue(self._use(), len(found))
            except errors.BadIndex:
                break
            found.append((catalogue.name, catalogue.text))
        document = calls.sweep_document(self._use())
        assert document is not None
        return (calls.document_text(document) or "").encode(), tuple(found)

    def __reduce__(self) -> Any:
        return _again, self._texts()

    def close(self) -> None:
        """Lets go of the sweep."""
        self._handle = None

    def __enter__(self) -> "Sweep":
        return self

    def __exit__(self, *_: Any) -> None:
        self.close()

    def __repr__(self) -> str:
        if self._handle is None:
            return "<Sweep, closed>"
        return f"<Sweep: {self.count} variants of {', '.join(one.name for one in self.inputs)}>"


def _bytes_of(path: Path) -> bytes:
    try:
        with open(os.fspath(path), "rb") as file:
            return file.read()
    except OSError as wrong:
        raise errors.Unreadable(f"cannot be read: {wrong.strerror}", thing=str(path),
                                remedy="look at the spelling and at the folder") from None


def _of_text(text: Union[str, bytes], catalogues: Mapping[str, str]) -> Handle:
    if isinstance(text, str):
        try:
            text = text.encode()
        except UnicodeEncodeError:
            raise errors.WrongArgument("holds half a character", thing="text") from None
    if not isinstance(text, bytes):
        raise errors.WrongArgument(f"is {type(text).__name__}", thing="text", remedy="give text")
    if not isinstance(catalogues, Mapping):
        raise errors.WrongArgument(f"are {type(catalogues).__name__}", thing="catalogues",
                                   remedy='give texts by name: {"shop.yaml": "catalogue: 1 ..."}')
    return calls.sweep_read_text(text, [struct("catalogue", {"name": name, "text": shelf})
                                        for name, shelf in catalogues.items()])


def _of_frame(frame: Frame, catalogues: Optional[Mapping[str, str]]) -> Handle:
    text = frame.text()
    if catalogues is not None or frame._path is None:
        return _of_text(text, catalogues or {})
    handle = calls.sweep_read_file(frame._path)
    document = calls.sweep_document(handle)
    assert document is not None
    if calls.document_text(document) != text:
        raise errors.BadValue("was changed since the frame was read", thing=frame._path,
                              remedy="read it again")
    return handle


@lru_cache(maxsize=4)
def _read_once(text: bytes, catalogues: Tuple[Tuple[str, str], ...]) -> Handle:
    return _of_text(text, dict(catalogues))


def _again(text: bytes, catalogues: Tuple[Tuple[str, str], ...]) -> Sweep:
    """A sweep out of a pickle; one that comes again and again is read once."""
    return Sweep._around(_read_once(text, catalogues))


def _part(part: Any) -> Dict[str, int]:
    if part is None:
        return {}
    if not isinstance(part, (tuple, list)) or len(part) != 2:
        raise errors.WrongArgument(f"is {part!r}", thing="part",
                                   remedy="give (3, 8) for the third of eight")
    return {"part": part[0], "parts": part[1]}


def reported(progress: Optional[Progress]) -> Callable[..., None]:
    """What the library tells after every variant: handed on, and a chance for Ctrl-C."""
    def report(done: int, count: int) -> None:
        if progress is not None:
            progress(done, count)
    return report


class Stream:
    """The answer of trivet.sweep() without a store: variants in order, worked out as they are
    asked for. It can be gone through once.

    >>> import trivet
    >>> text = trivet.starter_text() + "vary: {cases: {parked: [1, 2]}}"
    >>> [row.inputs["case parked"] for row in trivet.sweep(trivet.read_text(text))]
    [1.0, 2.0]
    """

    def __init__(self, inputs: Tuple[Input, ...], blocks: Iterator[Variants]) -> None:
        self.inputs = inputs
        self._blocks = blocks
        self._open: Optional[Variants] = None  # the block that rows come from
        self._at = 0

    def __iter__(self) -> Iterator[Variant]:
        return self

    def __next__(self) -> Variant:
        while self._open is None or self._at == len(self._open):
            self._open, self._at = next(self._blocks), 0
        self._at += 1
        return self._open[self._at - 1]

    def blocks(self) -> Iterator[Variants]:
        """What is left, as arrays, some thousand rows at a time."""
        if self._open is not None and self._at < len(self._open):
            rest, self._open = self._open.since(self._at), None
            yield rest
        yield from self._blocks

    def gather(self) -> Variants:
        """What is left, as arrays."""
        return Variants.join(self.inputs, list(self.blocks()))

    def table(self) -> Any:
        """What is left, as a pandas data frame."""
        return self.gather().table()

    def close(self) -> None:
        """Stops: what was not asked for is not worked out."""
        self._open = None
        stop = getattr(self._blocks, "close", None)
        if stop is not None:
            stop()


@overload
def sweep(source: Union[Path, Frame, Sweep], *, store: None = None, workers: int = 1,
          part: Optional[Tuple[int, int]] = None, checks: bool = False,
          progress: Optional[Progress] = None, client: Any = None, chunk: Optional[int] = None,
          catalogues: Optional[Mapping[str, str]] = None) -> Stream: ...


@overload
def sweep(source: Union[Path, Frame, Sweep], *, store: Path, workers: int = 1,
          part: Optional[Tuple[int, int]] = None, checks: bool = False,
          progress: Optional[Progress] = None, client: Any = None, chunk: Optional[int] = None,
          catalogues: Optional[Mapping[str, str]] = None) -> "Store": ...


def sweep(source: Union[Path, Frame, Sweep], *, store: Optional[Path] = None, workers: int = 1,
          part: Optional[Tuple[int, int]] = None, checks: bool = False,
          progress: Optional[Progress] = None, client: Any = None, chunk: Optional[int] = None,
          catalogues: Optional[Mapping[str, str]] = None) -> Union["Store", Stream]:
    """Solves and checks every variant of a file.

    Args:
        source: path of a file, a Frame that was read, or a Sweep
        store: path of a store: an SQLite file with all rows; a run that was stopped goes on. None:
            rows are handed out in order, as they are asked for
        workers: threads; with a client, threads of each task
        part: (3, 8) runs the third of eight parts into a store of its own: see trivet.merge
        checks: True keeps in the store the worst of each kind of check of every variant too
        progress: told how many of how many are done; what it raises stops the sweep
        client: a distributed.Client: variants go in chunks to its workers, where the package must
            be installed in the same version; chunks of a worker that is lost are done again
        chunk: variants of a chunk; None: some chunks for each thread of the workers
        catalogues: texts of catalogues that the file names, where they do not lie beside it

    Returns:
        trivet.Store if store is given, else trivet.Stream. Numbers are the same bits whoever works
        them out, on processors of one type.

    >>> import os, tempfile, trivet
    >>> text = trivet.starter_text() + "vary: {cases: {parked: {from: 1, to: 4, steps: 7}}}"
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     done = trivet.sweep(trivet.read_text(text), store=os.path.join(folder, "runs.sqlite"))
    ...     done.summary.count, len(done.variants())
    (7, 7)
    """
    made = source if isinstance(source, Sweep) else Sweep(source, catalogues=catalogues)
    if client is not None:
        from . import distribute
        if part is not None:
            raise errors.BadValue("cannot be chosen with a client", thing="part",
                                  remedy="the client's workers share the whole")
        if store is not None:
            return distribute.into_store(made, client, store, workers=workers, checks=checks,
                                         progress=progress, chunk=chunk)
        return Stream(made.inputs, distribute.blocks(made, client, workers=workers,
                                                     progress=progress, chunk=chunk))
    if store is not None:
        return made.store(store, workers=workers, part=part, checks=checks, progress=progress)
    first, count = _share(made.count, part)
    return Stream(made.inputs, made.blocks(first, count, workers=workers, progress=progress,
                                           block=BLOCK if chunk is None else chunk))


def _share(count: int, part: Optional[Tuple[int, int]]) -> Tuple[int, int]:
    """The first and the number of variants of a part, as stores share them out."""
    asked = _part(part)
    if not asked:
        return 0, count
    number, parts = asked["part"], asked["parts"]
    if not 1 <= number <= parts or parts > count:
        raise errors.BadValue(f"is {number} of {parts}", thing="part",
                              remedy=f"give (3, 8) for the third of eight, of {count} at most")
    share, more = divmod(count, parts)
    return (number - 1) * share + min(number - 1, more), share + (number <= more)


__all__ = ["Stream", "Sweep", "sweep"]
