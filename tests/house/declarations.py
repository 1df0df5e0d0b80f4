"""What the public headers declare: functions, plain structs, enumerators, and their comments.

Only as much C is read as the headers are allowed to hold: no nested structs, no bit-fields, no
function pointers.
"""

import pathlib
import re


class Header:
    """One public header, taken apart."""

    def __init__(self, path):
        self.name = path.name
        text = path.read_text(encoding="utf-8")
        self.comments = {}  # place where a comment ends -> its text
        bare = []
        last = 0
        for comment in re.finditer(r"/\*.*?\*/", text, re.S):
            bare.append(text[last:comment.start()])
            bare.append(re.sub(r"[^\n]", " ", comment.group()))
            self.comments[comment.end()] = comment.group()
            last = comment.end()
        bare.append(text[last:])
        self.text = "".join(bare)

    def comment_before(self, place):
        """The comment that ends just before a place, with nothing but blanks between, or ''."""
        start = len(self.text[:place].rstrip())
        ends = [end for end in self.comments if start <= end <= place]
        return self.comments[max(ends)] if ends else ""

    def functions(self):
        """(name, parameters, place) of every exported function."""
        for found in re.finditer(r"^TRIVET_API\s+([^;{]*?)\b(trivet_\w+)\(([^;]*?)\);", self.text,
                                 re.S | re.M):
            yield found[2], " ".join(found[3].split()), found.start()

    def structs(self):
        """(name, members, place) of every plain struct."""
        for found in re.finditer(r"^typedef struct (trivet_\w+) \{(.*?)^\} \1;", self.text,
                                 re.S | re.M):
            members = []
            for line in found[2].split(";"):
                for part in line.split(","):
                    name = re.search(r"(\w+)\s*(\[[^\]]*\]\s*)*$", part.strip())
                    if name:
                        members.append(name[1])
            yield found[1], members, found.start()

    def enums(self):
        """(enumerators, place) of every enum that is not made from a list."""
        for found in re.finditer(r"^(typedef )?enum[ \w]*\{([^}]*)\}", self.text, re.S | re.M):
            names = re.findall(r"\b(TRIVET_\w+)\s*(?:=|,|$)", found[2].strip(), re.M)
            names = [name for name in names if not name.startswith("TRIVET_STATUS_")]
            yield names, found.start()

    def statuses(self):
        """Names in the list of statuses."""
        return re.findall(r"ROW\((TRIVET_\w+),", self.text)


def read_headers(root):
    """All public headers, trivet.h not among them, by name."""
    folder = pathlib.Path(root) / "include" / "trivet"
    return [Header(path) for path in sorted(folder.glob("*.h")) if path.name != "trivet.h"]
