"""Reads Trivet's public headers: statuses, enums, structs, functions, and what stands beside them.

A small parser is enough, because the headers keep to one scheme: every function begins with
TRIVET_API, every plain struct is written `typedef struct trivet_x { ... } trivet_x;`, every opaque
one `typedef struct trivet_x trivet_x;`. What it does not understand it refuses.
"""
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Dict, List, Optional, Tuple


@dataclass
class Parameter:
    type: str  # such as "const double *"
    name: str


@dataclass
class Function:
    name: str  # without trivet_
    returns: str
    parameters: List[Parameter]
    comment: str
    header: str


@dataclass
class Member:
    type: str
    name: str
    shape: Tuple[str, ...]  # numbers or names of constants
    comment: str


@dataclass
class Struct:
    name: str  # without trivet_
    comment: str
    members: List[Member]


@dataclass
class Headers:
    """Everything that the public headers declare; names without trivet_."""

    declarations: str = ""  # as cffi takes it
    version: str = ""
    abi: int = 0
    statuses: List[Tuple[str, int, str]] = field(default_factory=list)
    enums: Dict[str, Dict[str, int]] = field(default_factory=dict)
    constants: Dict[str, int] = field(default_factory=dict)
    structs: Dict[str, Struct] = field(default_factory=dict)
    handles: List[str] = field(default_factory=list)
    functions: Dict[str, Function] = field(default_factory=dict)
    callbacks: Dict[str, Function] = field(default_factory=dict)  # what the library calls back


def find_headers(include: Path) -> List[Path]:
    """The public headers in an order in which each comes behind those that it includes."""
    names = {path.stem: path for path in (include / "trivet").glob("*.h") if path.stem != "trivet"}
    order: List[str] = []

    def add(name: str) -> None:
        text = names[name].read_text(encoding="utf-8")
        for needed in re.findall(r'#include "trivet/(\w+)\.h"', text):
            if needed not in order:
                add(needed)
        if name not in order:
            order.append(name)

    for name in sorted(names):
        add(name)
    return [names[name] for name in order]


def read_headers(include: Path) -> Headers:
    """Reads all headers in the folder that holds trivet/trivet.h."""
    found = Headers()
    paths = find_headers(include)
    if not paths:
        raise SystemExit(f"{include}: holds no trivet/base.h; name the folder of the headers")
    for path in paths:
        _read_header(found, path.stem, path.read_text(encoding="utf-8"))
    if not found.statuses or not found.version or len(found.functions) < 20:
        raise SystemExit(f"{include}: statuses, version or functions were not found")
    return found


def plain(comment: str) -> str:
    """The text of a comment without its stars."""
    text = re.sub(r"^/\*\*?<?|\*/$", "", comment.strip())
    lines = [re.sub(r"^\s*\* ?", "", line).rstrip() for line in text.split("\n")]
    return "\n".join(lines).strip()


def _read_statuses(found: Headers, text: str) -> str:
    """Takes the list of statuses out of the text, and puts the enum there that it makes."""
    rows = re.findall(r'ROW\((TRIVET_\w+), (\d+), "([^"]+)"\)', text)
    if not rows:
        return text
    found.statuses = [(name[7:], int(number), line) for name, number, line in rows]
    found.version = re.findall(r'#define TRIVET_VERSION "([^"]+)"', text)[0]
    found.abi = int(re.findall(r"#define TRIVET_ABI (\d+)", text)[0])
    enum = ", ".join(f"{name} = {number}" for name, number, _ in rows)
    return re.sub(r"typedef enum trivet_status \{[^}]*\} trivet_status;",
                  f"typedef enum trivet_status {{ {enum} }} trivet_status;", text)


def _read_header(found: Headers, name: str, text: str) -> None:
    text = _read_statuses(found, text)
    text = re.sub(r"#(ifdef __cplusplus|if defined).*?#endif\n", "", text, flags=re.DOTALL)
    text = re.sub(r"^#(?:[^\n]*\\\n)*[^\n]*", "", text, flags=re.MULTILINE)
    bare = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
    found.declarations += re.sub(r"\n\s*\n+", "\n", bare.replace("TRIVET_API ", "")) + "\n"
    _read_enums(found, text)
    found.handles += re.findall(r"typedef struct trivet_(\w+) trivet_\1;", bare)
    for comment, struct, body in re.findall(
            r"((?:/\*\*(?:[^*]|\*(?!/))*\*/)?)\s*typedef struct trivet_(\w+)\s*\{([^}]*)\}", text):
        found.structs[struct] = Struct(struct, plain(comment), _read_members(body))
    for head in re.findall(r"typedef ((?:const )?\w+ \**trivet_\w+\([^;{]*\));", bare):
        callback = _read_function(head, "", name)
        found.callbacks[callback.name] = callback
    comment = ""
    for match in re.finditer(r"(/\*\*(?:[^*]|\*(?!/))*\*/)|TRIVET_API ([^;]*);", text):
        if match[1]:
            comment = plain(match[1])
        else:
            function = _read_function(match[2], comment, name)
            found.functions[function.name] = function


def _read_enums(found: Headers, text: str) -> None:
    text = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
    for name, body in re.findall(r"enum (trivet_\w+)?\s*\{([^}]*)\}", text):
        rows = [(word, int(value)) for word, value in re.findall(r"TRIVET_(\w+)\s*=\s*(\d+)", body)]
        if len(rows) != len([part for part in body.split(",") if part.strip()]):
            raise SystemExit(f"an enum whose values are not all written out: {body.strip()}")
        found.constants.update(rows)
        if name and name != "trivet_status":
            words = [word.split("_") for word, _ in rows]
            cut = 0
            while len({tuple(parts[:cut + 1]) for parts in words}) == 1 and all(
                    len(parts) > cut + 1 for parts in words):
                cut += 1
            found.enums[name[7:]] = {" ".join(parts[cut:]).lower(): value
                                     for parts, (_, value) in zip(words, rows)}


def _read_members(body: str) -> List[Member]:
    members = []
    body = " ".join(body.split())
    for match in re.finditer(
            r"(const \w+ \*|\w+ \*|\w+ )(\w+)((?:\[\w+\])*);\s*(/\*\*<(?:[^*]|\*(?!/))*\*/)?",
            body):
        shape = tuple(re.findall(r"\[(\w+)\]", match[3]))
        members.append(Member(match[1].strip(), match[2], shape,
                              " ".join(plain(match[4] or "").split())))
    if len(members) != re.sub(r"/\*.*?\*/", "", body, flags=re.DOTALL).count(";"):
        raise SystemExit(f"members that were not understood: {body}")
    return members


def _read_function(text: str, comment: str, header: str) -> Function:
    head = re.fullmatch(r"((?:const )?\w+ \**)trivet_(\w+)\((.*)\)", " ".join(text.split()))
    if not head:
        raise SystemExit(f"a declaration that was not understood: {text}")
    parameters = []
    for part in head[3].split(", "):
        if part == "void":
            continue
        match = re.fullmatch(r"((?:const )?\w+ (?:\*|const )*)(\w+)", part)
        if not match:
            raise SystemExit(f"trivet_{head[2]}: an argument that was not understood: {part}")
        parameters.append(Parameter(match[1].strip(), match[2]))
    return Function(head[2], head[1].strip(), parameters, comment, header)


DIMENSIONS: List[Tuple[str, str]] = [
    (r"N m/rad", "turn spring"), (r"N m", "moment"), (r"N/m", "line load"), (r"kg/m\^3", "density"),
    (r"kg/m", "mass per length"), (r"m\^2", "area"), (r"m\^3", "volume"),
    (r"m\^4", "second moment"), (r"1/K", "expansion"), (r"1/m\^2", "per area"),
    (r"1/m\^3", "per volume"), (r"m/s\^2", "acceleration"), (r"m/s", "speed"), (r"Hz", "frequency"),
    (r"kg", "mass"), (r"Pa", "stress"), (r"rad", "angle"), (r"m", "length"), (r"N", "force"),
    (r"K", "temperature"), (r"s", "time")]


def dimension_of(member: Member) -> Optional[str]:
    """The dimension that a member's comment begins with: "m, outside" is a length."""
    for unit, name in DIMENSIONS:
        # "K in T = K F d" and other formulas begin with a letter that is no unit.
        if re.match(rf"{unit}(?=$|[,;:]| (?!in T))", member.comment):
            return name
    return None


def enum_of(member: Member, enums: Dict[str, Dict[str, int]]) -> Optional[str]:
    """The enum that a member's comment names: "a trivet_head"."""
    match = re.match(r"an? trivet_(\w+)", member.comment)
    return match[1] if match and match[1] in enums else None
