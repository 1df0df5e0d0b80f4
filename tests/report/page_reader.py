"""Reading a report page: its words by section, its tables as rows of cells."""

import re
from html.parser import HTMLParser

from conftest import page

EMPTY = {"meta", "link", "img", "br", "circle", "line", "polygon", "polyline", "rect", "path"}


class Reader(HTMLParser):
    """Text by section, tables as rows of cells, and whether every tag is closed."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.page = text
        self.open, self.sections, self.tags, self.attributes = [], {}, set(), []
        self.section, self.rows, self.text = "", {}, []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        self.attributes += attributes
        given = dict(attributes)
        if tag == "section":
            self.section = given["id"]
        if tag == "tr":
            self.rows.setdefault(self.section, []).append([])
        if tag in ("td", "th"):
            self.rows[self.section][-1].append("")
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_startendtag(self, tag, attributes):
        self.tags.add(tag)
        self.attributes += attributes

    def handle_endtag(self, tag):
        assert self.open and self.open[-1] == tag, (tag, self.open)
        self.open.pop()
        if tag in ("td", "th", "li", "p", "small", "h1", "h2", "h3", "text", "summary"):
            self.sections[self.section] = self.sections.get(self.section, "") + " "

    def handle_data(self, data):
        if "style" in self.open or "script" in self.open:
            return
        self.text.append(data)
        self.sections[self.section] = self.sections.get(self.section, "") + data
        if "td" in self.open or "th" in self.open:
            self.rows[self.section][-1][-1] += data


def plain(text):
    """Blanks as one, the marks that set names apart taken away."""
    return re.sub(r"\s+", " ", re.sub("[\u2068\u2069]", "", text)).strip()


def read(path, *words):
    return Reader(page(path, *words))


def cells(reader, section):
    return [[plain(cell) for cell in row] for row in reader.rows.get(section, [])]
