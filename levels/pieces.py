"""A TOML text taken apart without losing a letter: sections, their lines, the items of lists and tables.

Only text that tomllib reads may be taken apart. Joining the pieces gives the text again.
"""

import re
import tomllib
from dataclasses import dataclass, field

from levels.locate import BLANK, KEY, SCALAR, SPACE, STRING
from levels.rules import Loc

__all__ = ["Item", "Items", "KeyLine", "TomlSection", "items_of", "toml_sections"]

_REST = re.compile(r"[ \t]*(?:#[^\n]*)?(?:\n|\r\n|\Z)?")  # what follows on the line, its end included
_REMARK = re.compile(r"[ \t]*#[^\r\n]*")


@dataclass
class KeyLine:
    """`lead` (blank and comment lines before), `key` up to the value, the value, the rest of its line."""

    lead: str
    key: str
    loc: Loc  # of the value in the data
    value: str
    rest: str

    def __str__(self) -> str:
        return f"{self.lead}{self.key}{self.value}{self.rest}"


@dataclass
class TomlSection:
    """A header, the rest of its line, and its lines; the first section of a text has no header.

    `many`: one of an array of tables.
    """

    lead: str
    head: str
    loc: Loc
    many: bool = False
    rest: str = ""
    lines: list[KeyLine] = field(default_factory=list)

    def __str__(self) -> str:
        return f"{self.lead}{self.head}{self.rest}{''.join(map(str, self.lines))}"


@dataclass
class Item:
    """One item of a list or inline table. `key` (tables only) reaches up to the value; `mid` stands between
    value and comma, `remark` is the comment behind the comma."""

    lead: str
    key: str
    name: tuple[str, ...]
    value: str
    mid: str = ""
    remark: str = ""


@dataclass
class Items:
    """The inside of a list or inline table: its items, whether a comma ends it, and what stands last."""

    items: list[Item]
    comma: bool
    close: str


def toml_sections(text: str) -> tuple[list[TomlSection], str]:
    """The sections of a TOML text, and the comments and blank lines at its end."""
    return _Walk(text).sections()


def items_of(value: str) -> Items:
    """The items of a list or inline table given as text."""
    return _Walk(value).items()


class _Walk:
    """One walk over a text."""

    def __init__(self, text: str) -> None:
        self.text, self.at = text, 0
        self.counts: dict[Loc, int] = {}  # arrays of tables and how many of each so far

    def take(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self.text, self.at)
        if match is None:
            raise ValueError(f"no TOML at character {self.at}")
        self.at = match.end()
        return match.group()

    def names(self) -> tuple[str, ...]:
        """The parts of a key; the place is then behind its last space."""
        found = []
        while True:
            self.take(SPACE)
            raw = self.take(KEY)
            found.append(tomllib.loads(f"k = {raw}")["k"] if raw[0] in "\"'" else raw)
            self.take(SPACE)
            if not self.text.startswith(".", self.at):
                return tuple(found)
            self.at += 1

    def sections(self) -> tuple[list[TomlSection], str]:
        found = [TomlSection("", "", ())]
        while True:
            lead = self.take(BLANK)
            if self.at >= len(self.text):
                return found, lead
            if self.text[self.at] == "[":
                found.append(self.header(lead))
            else:
                found[-1].lines.append(self.line(lead, found[-1].loc))

    def header(self, lead: str) -> TomlSection:
        start, many = self.at, self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        names = self.names()
        self.at += 2 if many else 1
        head, rest = self.text[start : self.at], self.take(_REST)
        loc: Loc = ()
        for i, name in enumerate(names):
            loc = (*loc, name)
            if many and i == len(names) - 1:
                self.counts[loc] = self.counts.get(loc, 0) + 1
                self.counts = {k: n for k, n in self.counts.items() if k == loc or k[: len(loc)] != loc}
            if loc in self.counts:
                loc = (*loc, self.counts[loc] - 1)
        return TomlSection(lead, head, loc, many, rest)

    def line(self, lead: str, table: Loc) -> KeyLine:
        key, names = self.key()
        value = self.value()
        return KeyLine(lead, key, (*table, *names), value, self.take(_REST))

    def key(self) -> tuple[str, tuple[str, ...]]:
        start = self.at
        names = self.names()
        self.at += 1
        self.take(SPACE)
        return self.text[start : self.at], names

    def value(self) -> str:
        start = self.at
        first = self.text[start]
        if first in "[{":
            self.items()
        elif first in "\"'":
            self.take(STRING)
        else:
            self.at = start + len(self.take(SCALAR).rstrip())
        return self.text[start : self.at]

    def items(self) -> Items:
        """Items of the list or inline table at this place; the walk goes on behind it."""
        table, found, comma = self.text[self.at] == "{", list[Item](), True
        end = "}" if table else "]"
        self.at += 1
        lead = self.take(BLANK)
        while self.text[self.at] != end:
            key, name = self.key() if table else ("", ())
            found.append(Item(lead, key, name, self.value()))
            between = self.take(BLANK)
            comma = self.text[self.at] == ","
            if comma:
                self.at += 1
                found[-1].mid = between
                found[-1].remark = self.remark()
                lead = self.take(BLANK)
            else:
                remark = _REMARK.match(between)
                found[-1].remark = remark.group() if remark else ""
                lead = between[len(found[-1].remark) :]
        self.at += 1
        return Items(found, comma and bool(found), lead)

    def remark(self) -> str:
        match = _REMARK.match(self.text, self.at)
        self.at = match.end() if match else self.at
        return match.group() if match else ""
