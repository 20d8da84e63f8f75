"""Which line of a TOML text holds which key: the reader of the standard library does not say."""

import re
import tomllib

from levels.rules import Loc

__all__ = ["BLANK", "KEY", "SCALAR", "SPACE", "STRING", "line_of", "lines_of"]

BLANK = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
SPACE = re.compile(r"[ \t]*")
KEY = re.compile(r'"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*\'|[A-Za-z0-9_-]+')
STRING = re.compile(  # possessive: going back letter by letter would cost memory for each
    r'"""(?:[^"\\]++|\\.|"(?!""))*+"""(?:"{0,2})|\'\'\'(?:[^\']++|\'(?!\'\'))*+\'\'\'(?:\'{0,2})'
    r'|"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*\'', re.DOTALL,
)  # fmt: skip
SCALAR = re.compile(r"[^,\]}#\n]+")  # numbers, booleans, dates (which may hold a space)


def lines_of(text: str) -> dict[Loc, int]:
    """Line (from 1) of every key, table and array item. `text` must be TOML that tomllib reads."""
    return _Scan(text).found


def line_of(found: dict[Loc, int], loc: Loc) -> int | None:
    """Line of `loc`, or of the nearest table or array around it; None for the whole file."""
    return next((found[loc[:n]] for n in range(len(loc), 0, -1) if loc[:n] in found), None)


class _Scan:
    """One walk over the text; `found` is its result."""

    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0
        self.found: dict[Loc, int] = {}
        self.counts: dict[Loc, int] = {}  # arrays of tables and how many of each so far
        self.line, self.counted = 1, 0  # line of the last place noted; the places follow one another
        table: Loc = ()
        self.take(BLANK)
        while self.at < len(text):
            if text[self.at] == "[":
                table = self.header()
            else:
                self.assignment(table)
            self.take(BLANK)

    def take(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self.text, self.at)
        assert match, "only TOML that tomllib reads may be scanned"
        self.at = match.end()
        return match.group()

    def note(self, loc: Loc) -> None:
        self.line += self.text.count("\n", self.counted, self.at)
        self.counted = self.at
        self.found.setdefault(loc, self.line)

    def key(self) -> tuple[str, ...]:
        names = []
        while True:
            self.take(SPACE)
            raw = self.take(KEY)
            names.append(tomllib.loads(f"k = {raw}")["k"] if raw[0] in "\"'" else raw)
            self.take(SPACE)
            if self.text[self.at] != ".":
                return tuple(names)
            self.at += 1

    def header(self) -> Loc:
        start = self.at
        many = self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        names = self.key()
        end, self.at = self.at + (2 if many else 1), start
        loc: Loc = ()
        for i, name in enumerate(names):
            loc = (*loc, name)
            self.note(loc)
            if many and i == len(names) - 1:
                self.counts[loc] = self.counts.get(loc, 0) + 1
            if loc in self.counts:
                loc = (*loc, self.counts[loc] - 1)
                self.note(loc)
        self.at = end
        return loc

    def assignment(self, table: Loc) -> None:
        start = self.at
        names = self.key()
        end, self.at = self.at + 1, start
        loc = table
        for name in names:
            loc = (*loc, name)
            self.note(loc)
        self.at = end
        self.take(SPACE)
        self.value(loc)

    def value(self, loc: Loc) -> None:
        first = self.text[self.at]
        if first == "[":
            self.items(loc)
        elif first == "{":
            self.pairs(loc)
        else:
            self.take(STRING if first in "\"'" else SCALAR)

    def items(self, loc: Loc) -> None:
        self.at += 1
        self.take(BLANK)
        index = 0
        while self.text[self.at] != "]":
            self.note((*loc, index))
            self.value((*loc, index))
            index += 1
            self.comma()
        self.at += 1

    def pairs(self, loc: Loc) -> None:
        self.at += 1
        self.take(BLANK)
        while self.text[self.at] != "}":
            self.assignment(loc)
            self.comma()
        self.at += 1

    def comma(self) -> None:
        self.take(BLANK)
        if self.text[self.at] == ",":
            self.at += 1
            self.take(BLANK)
