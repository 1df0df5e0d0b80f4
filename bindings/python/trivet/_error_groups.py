"""The groups of errors; errors.py, made from the library's list of statuses, fills them."""
import re
from typing import Any, List, Optional, Tuple


class TrivetError(Exception):
    """What went wrong: which thing, what is wrong with it, what to do, and where in the file.

    Attributes:
        status: the library's number; 0 where Python noticed it before the library did
        thing: which thing, by the user's name for it
        problem: what is wrong
        remedy: what to do about it
        line: in the file, from 1; 0 if the thing stands in no file
        column: in the line, from 1; 0 if unknown
    """

    status: int = 0

    def __init__(self, problem: str, *, thing: str = "", remedy: str = "", line: int = 0,
                 column: int = 0) -> None:
        super().__init__(problem)
        self.problem = str(problem)
        self.thing = str(thing)
        self.remedy = str(remedy)
        self.line = line
        self.column = column

    def __str__(self) -> str:
        place = f"line {self.line}" if self.line else ""
        if self.line and self.column:
            place += f", column {self.column}"
        elif self.column:
            place = f"column {self.column}"
        text = ": ".join(part for part in (place, self.thing, self.problem) if part)
        return f"{text}; {self.remedy}" if self.remedy else text

    def __reduce__(self) -> Tuple[Any, ...]:
        return _remake, (type(self), self.problem, {
            "thing": self.thing, "remedy": self.remedy, "line": self.line, "column": self.column})


def _remake(kind: type, problem: str, parts: Any) -> Any:
    return kind(problem, **parts)


class CallError(TrivetError):
    """The call is wrong: the program that makes it must be mended."""


class InputError(TrivetError, ValueError):
    """The input is wrong: a value, a unit, a name, a key, the text of a file."""


class NotComputable(TrivetError, ArithmeticError):
    """The frame cannot be worked out as it stands."""


class MachineError(TrivetError):
    """The machine: memory or files."""


class MistakeInside(TrivetError):
    """A mistake inside the library."""


class WrongArgument(CallError, TypeError):
    """An argument of the wrong type, or an array of the wrong shape."""


class Closed(CallError):
    """It was closed before."""


class Forked(CallError):
    """Another thread was using it when the process forked; make it anew in the new process."""


class Freedom(NotComputable):
    """What moves freely, and where to."""

    @property
    def joints(self) -> List[str]:
        """The joints that move; empty if the frame moves as a whole."""
        named = re.match(r"joints? (.*?)(?: and others)?$", self.thing)
        return named[1].split(", ") if named else []

    @property
    def joint(self) -> Optional[str]:
        """The joint that moves most; None if the frame moves as a whole."""
        named = re.search(r", joint (.*?) along ", self.problem)
        if named:
            return named[1]
        return self.joints[0] if self.joints else None

    @property
    def direction(self) -> str:
        """Where to, in words: "x (forward)", "the line through FL and FR"."""
        named = re.search(r" (?:along|about) (.*?)(?: at |: |$)", self.problem)
        return named[1] if named else ""
