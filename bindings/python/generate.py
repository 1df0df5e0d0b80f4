"""Writes the Python text that follows from the public headers.

errors.py   one exception a status
records.py  one frozen dataclass a plain struct
_calls.py   one Python function a C function, and how structs are read and filled

Nothing here knows a single part of Trivet: a new header that keeps to the scheme of the others
(subject, inputs, outputs named _out, message; an array followed by its count) needs no change but
the length of an array that has no count, in LENGTHS.
"""
import keyword
import re
from typing import Dict, List, Tuple

from headers import Function, Headers, Member, Parameter, dimension_of, enum_of

# Arrays without a count beside them: how many numbers they have, by the name of the argument.
LENGTHS = {"position": 3, "offset": 3, "centre": 3, "gravity": 3, "force": 3, "moment": 3, "at": 3,
           "first": 3, "last": 3, "direction": 3, "move": 6,
           "springs_out": 6, "relief_out": 3, "carried_out": 4, "cases_out": 4, "forces_out": 6,
           "move_out": 6, "extremes_out": 6, "least_cases_out": 6, "most_cases_out": 6,
           "offset_out": 3}
# Arrays that come out, as many numbers as the caller of the Python function says.
ASKED = {"values_out", "inputs_out"}
# Members whose comment does not say which enum they hold.
ENUM_MEMBERS = {("check", "verdict"): "verdict", ("bolts", "where_kind"): "kind"}
GROUPS = {1: "CallError", 2: "InputError", 3: "NotComputable", 4: "MachineError", 9: "MistakeInside"}
BASES = {"NO_MEMORY": "MachineError, MemoryError", "MOVES_FREELY": "Freedom"}
NUMBERS = {"double": "float", "int32_t": "int", "uint32_t": "int", "bool": "bool", "size_t": "int",
           "int64_t": "int"}
# Handles that never change once they are made: many threads use one at a time, without its lock.
UNCHANGING = {"plan", "sweep"}
# What Python does without, and why.
LEFT_OUT = {"message_clear": "_c.py calls it once it has said what the message says"}

NOTE = "# Made from the public headers when the package is built. Changes here are lost.\n"


def camel(name: str) -> str:
    return "".join(part.capitalize() for part in name.lower().split("_"))


def python_name(name: str) -> str:
    """The name as Python may have it: from and yield become from_ and yield_."""
    return name + "_" if keyword.iskeyword(name) else name


# ---- errors ----


def write_errors(headers: Headers) -> str:
    lines = ['"""What can go wrong: one exception a status of the library, in five groups."""', NOTE,
             "from typing import Dict, Type", "",
             "from ._error_groups import (CallError, Closed, Forked, Freedom, InputError,",
             "                            MachineError, MistakeInside, NotComputable, TrivetError,",
             "                            WrongArgument)", ""]
    rows = [row for row in headers.statuses if row[1] != 0]
    for name, number, text in rows:
        lines += ["", f"class {camel(name)}({BASES.get(name, GROUPS[number // 10])}):",
                  f'    """Status {number}: {text}."""', "", f"    status = {number}", ""]
    lines += ["", "Unstable = MovesFreely", "",
              "BY_STATUS: Dict[int, Type[TrivetError]] = {"]
    lines += [f"    {number}: {camel(name)}," for name, number, _ in rows]
    names = [camel(name) for name, _, _ in rows] + [
        "CallError", "Closed", "Forked", "Freedom", "InputError", "MachineError", "MistakeInside",
        "NotComputable", "TrivetError", "Unstable", "WrongArgument"]
    lines += ["}", "", f"__all__ = {sorted(names)!r}", ""]
    return "\n".join(lines)


# ---- records ----


def enum_word(struct: str, member: Member, headers: Headers) -> str:
    return ENUM_MEMBERS.get((struct, member.name)) or enum_of(member, headers.enums) or ""


def is_flag(member: Member) -> bool:
    return member.type == "int32_t" and (
        member.name.startswith("is_") or member.comment.startswith(("1:", "1 if", "1 for")))


def is_array(member: Member) -> bool:
    """Whether a pointer looks at several things, whose count is a member."""
    return member.type.endswith("*") and "[" in member.comment


def record_members(struct: str, headers: Headers) -> List[Member]:
    """Without the size, and without counts of arrays that know their length in Python."""
    members = headers.structs[struct].members
    arrays = {member.name for member in members if member.shape or is_array(member)}
    counted = {f"{name[:-1]}_count" for name in arrays}
    return [member for member in members if member.name != "size" and member.name not in counted]


def member_type(struct: str, member: Member, headers: Headers) -> str:
    if enum_word(struct, member, headers):
        return "Tuple[str, ...]" if member.shape else "str"
    if member.type in ("const char *", "char"):
        return "str"
    if is_flag(member):
        return "bool"
    inner = member.type.replace("const ", "").replace(" *", "")
    kind = NUMBERS.get(inner) or camel(inner.replace("trivet_", ""))
    if member.type.endswith("*") and not is_array(member):
        return f"Optional[{kind}]"
    for _ in re.findall(r"\[\w+\]", member.comment) if is_array(member) else member.shape:
        kind = f"Tuple[{kind}, ...]"
    return kind


def write_records(headers: Headers) -> str:
    lines = ['"""What the library answers with: plain records, all numbers in SI units."""', NOTE,
             "from dataclasses import dataclass", "from typing import Optional, Tuple", ""]
    for name, struct in headers.structs.items():
        lines += ["", "@dataclass(frozen=True)", f"class {camel(name)}:",
                  f'    """{struct.comment or camel(name) + "."}', "", "    Attributes:"]
        members = record_members(name, headers)
        for member in members:
            lines.append(f"        {python_name(member.name)}: {member.comment or 'see its name'}")
        lines += ['    """', ""]
        lines += [f"    {python_name(member.name)}: {member_type(name, member, headers)}"
                  for member in members]
        lines.append("")
    names = sorted(camel(name) for name in headers.structs)
    return "\n".join(lines + ["", f"__all__ = {names!r}", ""]).replace("\\", "\\\\")


def member_value(struct: str, member: Member, headers: Headers) -> str:
    value = f'c.{member.name}' if python_name(member.name) == member.name else (
        f'getattr(c, "{member.name}")')
    word = enum_word(struct, member, headers)
    if word and member.shape:
        return f'tuple(word("{word}", one) for one in {value})'
    if word:
        return f'word("{word}", {value})'
    if member.type in ("const char *", "char"):
        return f"string({value})"
    if is_flag(member):
        return f"bool({value})"
    count = f"{member.name[:-1]}_count"
    is_counted = any(count == other.name for other in headers.structs[struct].members)
    many = f"c.{count}" if is_counted else member.shape[0] if member.shape else ""
    inner = member.type.replace("const ", "").replace(" *", "").replace("trivet_", "")
    if inner in headers.structs:
        return (f"tuple(read_{inner}({value}[i]) for i in range({many}))" if many else
                f"read_{inner}({value}) if {value} else None")
    if is_array(member):
        wide = re.findall(r"\[(\d+)\]", member.comment)
        return (f"tuple(tuple({value}[{wide[0]} * i + j] for j in range({wide[0]})) "
                f"for i in range({many}))" if wide else
                f"tuple({value}[i] for i in range({many}))")
    if len(member.shape) == 2:
        return f"tuple(tuple(row) for row in {value})"
    return f"tuple({value})" if member.shape else value


# ---- calls ----


class Call:
    """The Python function of one C function, gathered argument by argument."""

    def __init__(self, function: Function, headers: Headers, types: Dict[str, str]) -> None:
        self.function = function
        self.types = types
        self.headers = headers
        self.signature: List[str] = []
        self.before: List[str] = []
        self.arguments: List[str] = []
        self.outputs: List[Tuple[str, str]] = []  # type, value
        self.handles: List[str] = []
        self.locked: List[str] = []
        self.counts: List[str] = []
        self.ending = ""  # text, json, list
        self.has_message = False
        self.settles: List[str] = []  # what was raised inside of what the library called back
        self.cell = ""

    def refuse(self, why: str) -> SystemExit:
        return SystemExit(f"trivet_{self.function.name}: {why}")

    def ctype(self, text: str) -> str:
        """The name under which a C type is kept, parsed once."""
        name = "_" + re.sub(r"\W+", "_", text.replace("**", "2").replace("*", "1")).upper().strip("_")
        self.types[name] = text
        return name

    def take(self, name: str, kind: str) -> str:
        name = python_name(name)
        self.signature.append(f"{name}: {kind}")
        return name

    def add_handle(self, parameter: Parameter, kind: str) -> None:
        name = self.take(parameter.name, "Handle")
        self.handles.append(name)
        if kind not in UNCHANGING:
            self.locked.append(name)
        self.arguments.append(f"{name}.pointer")

    def add_new_handle(self, parameter: Parameter, kind: str) -> None:
        name = parameter.name
        self.before.append(f"{name} = new({self.ctype(f'trivet_{kind} **')})")
        self.arguments.append(name)
        keeps = "()" if kind in ("frame", "document") else "(" + "".join(
            f"{handle}.lease(), " for handle in self.handles).strip() + ")"
        self.outputs.append(("Handle", f"own({name}[0], lib.trivet_{kind}_free, {keeps})"))

    def add_struct(self, parameter: Parameter, kind: str) -> None:
        name = parameter.name
        if not parameter.type.startswith("const"):
            size = LENGTHS.get(name)
            if size:
                self.before.append(f"{name} = new({self.ctype(f'trivet_{kind}[{size}]')})")
                self.outputs.append((f"Tuple[records.{camel(kind)}, ...]",
                                     f"tuple(read_{kind}({name}[i]) for i in range({size}))"))
            else:
                self.before.append(f'{name} = new_struct("{kind}")')
                self.outputs.append((f"records.{camel(kind)}", f"read_{kind}({name})"))
            self.arguments.append(name)
            return
        self.arguments.append(f"NULL if {self.take(name, 'Any')} is None else {python_name(name)}")

    def add_numbers(self, parameter: Parameter, following: List[Parameter]) -> None:
        """An array that goes in: with its count behind it, or of a length by its name."""
        name = parameter.name
        kind = "float" if "double" in parameter.type else "int"
        maker = "numbers" if kind == "float" else "integers"
        count = None if name in LENGTHS else next(
            (other.name for other in following[:2] if other.name.endswith("_count")), None)
        taken = self.take(name, f"Optional[Sequence[{kind}]]")
        if count is None and name not in LENGTHS:
            raise self.refuse(f"say in LENGTHS how many numbers {name} has")
        length = "None" if count else str(LENGTHS[name])
        if count in self.counts:
            length = count or ""
        if count is None and kind == "float":  # likewise a tuple of the right length
            self.before.append(f'{name}_ = (new({self.ctype("double[]")}, {taken}) if type({taken}) '
                               f'is tuple and len({taken}) == {length} else NULL if {taken} is None else '
                               f'{maker}({taken}, {length}, "{name}")[0])')
        else:
            self.before.append(f'{name}_, {count or "_"} = {maker}({taken}, {length}, "{name}")')
        if count and count not in self.counts:
            self.counts.append(count)
        self.arguments.append(f"{name}_")

    def add_callback(self, parameter: Parameter, kind: str) -> None:
        """What the library calls back, and behind it what it is handed: ours, in a box."""
        name = self.take(parameter.name, "Optional[Callable[..., Any]]")
        self.before.append(f"{name}_ = Called({name})")
        self.arguments += [f"NULL if {name} is None else lib.trivet_python_{kind}",
                           f"{name}_.handle"]
        self.settles.append(f"{name}_.settle()")

    def add_texts(self, parameter: Parameter) -> None:
        name = self.take(parameter.name, "Sequence[str]")
        self.before.append(f'{name}_ = texts({name}, "{name}")')
        self.arguments += [f"{name}_[0]", f"len({name}_[1])"]

    def add_bytes_out(self, name: str, length: str) -> None:
        self.before += [f"{name} = new({self.ctype('char **')})",
                        f"{length} = new({self.ctype('size_t *')})"]
        self.outputs.append(("bytes", f"take_bytes({name}, {length})"))
        self.arguments += [name, length]

    def add_out(self, parameter: Parameter) -> None:
        name, kind = parameter.name, parameter.type.replace(" *", "")
        if kind == "const char*" or parameter.type == "const char **":
            self.before.append(f"{name} = new({self.ctype('const char **')})")
            self.outputs.append(("str", f"string({name}[0])"))
        elif parameter.type == "char **":
            self.before.append(f"{name} = new({self.ctype('char **')})")
            self.outputs.append(("str", f"take_text({name})"))
        elif name in ASKED:
            asked = self.take(f"{name[:-4]}_count", "int")
            self.before.append(f"{name} = new({self.ctype(f'{kind}[]')}, {asked})")
            self.outputs.append((f"Tuple[{NUMBERS[kind]}, ...]", f"tuple({name})"))
        elif name in LENGTHS:
            self.before.append(f"{name} = new({self.ctype(f'{kind}[{LENGTHS[name]}]')})")
            self.outputs.append((f"Tuple[{NUMBERS[kind]}, ...]", f"tuple({name})"))
        else:
            self.before.append(f"{name} = new({self.ctype(f'{kind} *')})")
            self.outputs.append((NUMBERS[kind], f"{name}[0]"))
        self.arguments.append(name)

    def add(self, index: int) -> int:
        """Takes argument number index; gives the number of the next one."""
        parameters = self.function.parameters
        parameter, rest = parameters[index], parameters[index + 1:]
        kind = parameter.type.replace("const ", "").replace(" *", "").replace("trivet_", "")
        kind = kind.replace("*", "").strip()
        if parameter.type == "trivet_message *":
            self.has_message = True
            self.arguments.append("message")
        elif kind in self.headers.callbacks:
            self.add_callback(parameter, kind)
            return index + 2
        elif parameter.type == "const char *const *":
            self.add_texts(parameter)
            return index + 2
        elif parameter.type == "char **" and rest and rest[0].name == "length_out":
            self.add_bytes_out(parameter.name, rest[0].name)
            return index + 2
        elif kind in self.headers.handles and "**" in parameter.type:
            self.add_new_handle(parameter, kind)
        elif kind in self.headers.handles:
            self.add_handle(parameter, kind)
        elif kind in self.headers.structs and rest and rest[0].name == "size":
            self.before.append(f'{parameter.name} = new_struct("{kind}")')
            self.arguments += [parameter.name, f'sizeof("trivet_{kind}")']
            self.outputs.append(("Any", parameter.name))
            return index + 2
        elif kind in self.headers.structs and rest and rest[0].name.endswith("_count"):
            name = self.take(parameter.name, "Sequence[Any]")
            self.before.append(f'{name}_ = structs("{kind}", {name})')
            self.arguments += [f"{name}_", f"len({name})"]
            return index + 2
        elif kind in self.headers.structs:
            self.add_struct(parameter, kind)
        elif parameter.type == "char *" and rest and rest[0].name == "size":
            self.ending = "text"
            return index + 2
        elif parameter.type == "const char *" and rest and rest[0].name == "length":
            name = self.take(parameter.name, "bytes")
            self.arguments += [name, f"len({name})"]
            return index + 2
        elif parameter.type == "const char *":
            name = self.take(parameter.name, "Optional[str]")
            # Plain text, as names are, is told from the rest without a call.
            self.before.append(f'{name}_ = ({name}.encode() if type({name}) is str and '
                               f'{name}.isascii() and "\\0" not in {name} else '
                               f'text_in({name}, "{name}"))')
            self.arguments.append(f"{name}_")
        elif rest and rest[0].name == "capacity":
            self.ending = "list"
            return index + 2
        elif parameter.name.endswith("_out"):
            self.add_out(parameter)
        elif parameter.type in ("const double *", "const int32_t *"):
            self.add_numbers(parameter, rest)
        elif parameter.name in self.counts:
            self.arguments.append(parameter.name)
        elif parameter.type in NUMBERS:
            self.arguments.append(self.take(parameter.name, NUMBERS[parameter.type]))
        elif kind in self.headers.enums or kind == "dimension":
            self.arguments.append(self.take(parameter.name, "int"))
        else:
            raise self.refuse(f"{parameter.name} is of a type that is not understood")
        return index + 1

    def use_cell(self) -> None:
        """A single number that comes out needs no memory of its own: the handle has some."""
        places = [i for i, line in enumerate(self.before) if line.endswith("= new(_INT32_T_1)")]
        if len(places) == 1 and self.locked:
            name = self.before.pop(places[0]).split()[0]
            self.cell = f"{name} = {self.locked[0]}.cell"

    def result(self) -> Tuple[str, str, List[str]]:
        """Python type, value and the lines that look at the C value."""
        returns = self.function.returns
        kind = returns.replace("const ", "").replace(" *", "").replace("trivet_", "")
        if returns == "trivet_status":
            message = "message" if self.has_message else "None"
            return "", "", ["if status:", f"    refuse(status, {message})"]
        if returns == "void":
            return "", "", []
        if self.ending in ("text", "list"):
            return ("str" if self.ending == "text" else "List[int]"), "gives", []
        if returns == "const char *":
            return "Optional[str]", "optional_string(gives)", []
        if returns in ("const double *", "const int32_t *"):
            return self.array_result(kind)
        if kind in self.headers.structs and self.outputs:
            counts = [value for _, value in self.outputs]
            self.outputs = []
            return (f"Tuple[records.{camel(kind)}, ...]",
                    f"tuple(read_{kind}(gives[i]) for i in range({counts[0]}))", [])
        if kind in self.headers.structs:
            return (f"Optional[records.{camel(kind)}]",
                    f"read_{kind}(gives) if gives else None", [])
        if kind in self.headers.handles:
            return "Optional[Handle]", f"borrow(gives, {self.handles[0]})", []
        if returns not in NUMBERS:
            raise self.refuse(f"gives a {returns}, which is not understood")
        return NUMBERS[returns], "bool(gives)" if returns == "bool" else "gives", []

    def array_result(self, kind: str) -> Tuple[str, str, List[str]]:
        """An array that stays in the library, its shape as the comment says: [case][joint][6]."""
        said = re.search(r"((?:\[[\w*]+\])+)", self.function.comment)
        if not said:
            raise self.refuse("its comment does not say the shape, such as [case][joint][6]")
        shape, counts = [], [value for _, value in self.outputs]
        for part in re.findall(r"\[([\w*]+)\]", said[1]):
            shape.append(part if part.isdigit() else counts.pop(0))
        if counts:
            raise self.refuse("its comment says fewer sizes than it gives counts")
        self.outputs = []
        shaped = "(" + ", ".join(shape) + ("," if len(shape) == 1 else "") + ")"
        code = "f8" if kind == "double" else "i4"
        array = "Numbers" if kind == "double" else "Integers"
        return (f"Optional[{array}]",
                f'view_{code}(gives, {shaped}, {self.handles[0]})', [])

    def text(self) -> str:
        index = 0
        while index < len(self.function.parameters):
            index = self.add(index)
        self.use_cell()
        kind, value, looks = self.result()
        types = ([kind] if kind else []) + [out for out, _ in self.outputs]
        values = ([value] if value else []) + [value for _, value in self.outputs]
        whole = "None" if not types else types[0] if len(types) == 1 else (
            f"Tuple[{', '.join(types)}]")
        body = list(self.before)
        called = f"lib.trivet_{self.function.name}"
        if self.ending:
            arguments = "".join(", " + argument for argument in self.arguments)
            called = f"written_{self.ending}({called}{arguments})"
        else:
            called = f"{called}({', '.join(self.arguments)})"
        name = "status" if self.function.returns == "trivet_status" else (
            "gives: " + kind if value == "gives" else "gives")
        made = "message = " + (f"{self.locked[0]}.message" if self.locked else (
            f"new({self.ctype('trivet_message *')})"))
        inner = [self.cell] if self.cell else []
        inner += [made] if self.has_message else []
        inner += [called if self.function.returns == "void" else f"{name} = {called}"]
        inner += self.settles + looks
        if len(values) == 1 and values[0].endswith("[0]"):
            inner.append(f"answer: {types[0]} = {values[0]}")
            values = ["answer"]
        if values:
            inner.append("return " + (values[0] if len(values) == 1 else ", ".join(values)))
        if self.locked:  # texts of a handle are read while it is still ours
            held = ", ".join(handle + ".lock" for handle in self.locked)
            inner = [f"with {held}:"] + ["    " + line for line in inner]
        body += inner
        comment = self.function.comment.replace("\\", "\\\\").replace("\n", "\n    ")
        lines = [f"def {self.function.name}({', '.join(self.signature)}) -> {whole}:",
                 f'    """{comment}', '    """'.rstrip()]
        return "\n".join(lines + ["    " + line for line in body])


def write_calls(headers: Headers) -> str:
    lines = ['"""Every public function of the library, and its plain structs in and out."""', NOTE,
             "from typing import Any, Callable, Dict, List, Optional, Sequence, Tuple", "",
             "from . import records",
             "from ._c import (ENUMS, NULL, STRUCTS, Called, Handle, Integers, Numbers, borrow,",
             "                 call_back, integers, new, new_struct, numbers, optional_string,",
             "                 own, refuse, sizeof, string, structs, take_bytes, take_text, text_in,",
             "                 texts, typeof, view_f8, view_i4, word, written_list, written_text)",
             "from ._native import lib", "",
             f"VERSION = {headers.version!r}", f"ABI = {headers.abi}", ""]
    lines += [f"ENUMS.update({headers.enums!r})", ""]
    table: Dict[str, Dict[str, Tuple[str, int, str, str]]] = {}
    for name, struct in headers.structs.items():
        table[name] = {
            member.name: (member.type, len(member.shape),
                          dimension_of(member) or "number", enum_word(name, member, headers))
            for member in struct.members if member.name != "size"}
    lines.append("STRUCTS.update({")
    for name, members in table.items():
        sized = headers.structs[name].members[0].name == "size"
        lines.append(f"    {name!r}: ({sized}, {{")
        lines += [f"        {member!r}: {row!r}," for member, row in members.items()]
        lines.append("    }),")
    lines += ["})", ""]
    for name in headers.structs:
        values = ", ".join(member_value(name, member, headers)
                           for member in record_members(name, headers))
        lines += ["", f"def read_{name}(c: Any) -> records.{camel(name)}:",
                  f"    return records.{camel(name)}({values})", ""]
    types: Dict[str, str] = {}
    functions: List[str] = []
    for name, function in headers.functions.items():
        if name in LEFT_OUT or name.endswith(("_free", "_defaults")):
            continue
        functions += ["", Call(function, headers, types).text(), ""]
    lines += [f"{name} = typeof({text!r})" for name, text in types.items()]
    lines += ["", f"call_back({sorted(headers.callbacks)!r})", ""]
    return "\n".join(lines + functions)
