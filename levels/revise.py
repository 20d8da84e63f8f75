"""A TOML text brought up to other data, piece by piece; `levels.retain` checks what comes out."""

from typing import Any

from levels.fresh import inline, key_of, section, written
from levels.pairing import partners_of
from levels.pieces import Item, Items, KeyLine, TomlSection, items_of, toml_sections
from levels.rules import Loc

__all__ = ["Revision", "same"]

_GONE = object()


def same(a: Any, b: Any) -> bool:
    """Whether two pieces of TOML data agree in type, sign and value everywhere (nan agrees with nan)."""
    if type(a) is not type(b):
        return False
    if isinstance(a, dict):
        return a.keys() == b.keys() and all(same(value, b[key]) for key, value in a.items())
    if isinstance(a, list):
        return len(a) == len(b) and all(map(same, a, b))
    return bool(a == b) if isinstance(a, str | int) else repr(a) == repr(b)


class Revision:
    """The pieces of `text`, whose data are `old`, on their way to the data `new`."""

    def __init__(self, text: str, old: dict[str, Any], new: dict[str, Any]) -> None:
        self.sections, self.end = toml_sections(text)
        self.new = new
        self.newline = "\r\n" if "\r\n" in text else "\n"
        self._was = {id(s): _at(old, s.loc) for s in self.sections}
        self._was |= {id(line): _at(old, line.loc) for s in self.sections for line in s.lines}
        self._whole: set[Loc] = set()  # tables written anew, with everything in them

    def revised(self) -> str:
        """The text for the new data."""
        self._regroup()
        self._change()
        self._add((), self.new, self._known())
        text = ""
        for piece in (
            *(p for s in self.sections for p in (s.lead + s.head + s.rest, *map(str, s.lines))),
            self.end,
        ):
            text += self.newline if piece and text and not text.endswith("\n") else ""
            text += piece
        return text

    # arrays of tables

    def _regroup(self) -> None:
        """Bring the tables of every array of tables into the new order, outer arrays first."""
        depth = 0
        while depth := min((len(s.loc) for s in self.sections if s.many and len(s.loc) > depth), default=0):
            for array in dict.fromkeys(s.loc[:-1] for s in self.sections if s.many and len(s.loc) == depth):
                self._reorder(array)

    def _reorder(self, array: Loc) -> None:
        n = len(array) + 1
        groups: dict[Any, list[TomlSection]] = {}
        for s in self.sections:
            if len(s.loc) >= n and s.loc[: n - 1] == array:
                groups.setdefault(s.loc[n - 1], []).append(s)
        new = _at(self.new, array)
        tables = new if isinstance(new, list) and all(isinstance(one, dict) for one in new) else []
        partners = partners_of([self._was[id(group[0])] for group in groups.values()], tables)
        members = [s for group in groups.values() for s in group]
        first = next(i for i, s in enumerate(self.sections) if s is members[0])
        ordered: list[TomlSection] = []
        for j, i in enumerate(partners):
            loc = (*array, j)
            if i is None:
                self._whole.add(loc)
                fresh = self._text(section(loc, tables[j], many=True))
                ordered.append(TomlSection(self.newline, fresh, loc, many=True))
            else:
                ordered += [_moved(s, loc) for s in groups[i]]
        gone = [s for i in groups if i not in partners for s in groups[i]]
        ids = {id(s) for s in members}
        rest = [s for s in self.sections[first:] if id(s) not in ids]
        self.sections[first:] = [*ordered, *rest]
        kept = "".join(_detached(s.lead) for s in gone)
        after = first + len(ordered)
        if after < len(self.sections):
            self.sections[after].lead = self._below(kept, self.sections[after].lead)
        else:
            self.end = kept + self.end

    # values

    def _change(self) -> None:
        """Write changed values anew and take out what is no more."""
        carry, kept = "", list[TomlSection]()
        for s in self.sections:
            if s.loc in self._whole:
                s.lead, carry = self._below(carry, s.lead), ""
                kept.append(s)
                continue
            if s.loc and not isinstance(_at(self.new, s.loc), dict):
                carry += _detached(s.lead)
                s.lead = s.head = s.rest = ""
            elif s.head:
                s.lead, carry = self._below(carry, s.lead), ""
            lines, s.lines = s.lines, []
            for line in lines:
                value = _at(self.new, line.loc)
                if value is _GONE:
                    carry += _detached(line.lead)
                else:
                    line.lead, carry = self._below(carry, line.lead), ""
                    line.value = self._value(line.value, self._was[id(line)], value, written)
                    s.lines.append(line)
            if s.head or not s.loc or s.lines:
                kept.append(s)
        self.sections, self.end = kept, carry + self.end

    def _value(self, text: str, old: Any, new: Any, write: Any) -> str:
        if same(old, new):
            return text
        if isinstance(old, list) and isinstance(new, list):
            parts = items_of(text)
            if parts.items:
                return self._list(parts, old, new)
            if "#" in parts.close:
                lead = f"{parts.close.rstrip()}{self.newline}    "
                parts.items = [Item(lead, "", (), inline(new[0]))]
                parts.comma, parts.close = True, self.newline
                return self._list(parts, new[:1], new)
        if isinstance(old, dict) and isinstance(new, dict):
            parts = items_of(text)
            if parts.items and all(len(item.name) == 1 for item in parts.items):
                return self._table(parts, old, new)
        return self._text(write(new))

    def _list(self, parts: Items, old: list[Any], new: list[Any]) -> str:
        items, partners = parts.items, partners_of(old, new)
        stay = set(partners)
        for gone in (k for k in range(len(items)) if k not in stay):
            kept = _detached(items[gone].lead)
            after = next((items[k] for k in range(gone + 1, len(items)) if k in stay), None)
            if after:
                after.lead = kept + after.lead
            else:
                parts.close = kept + parts.close
        indents = [item.lead[item.lead.rindex("\n") :] for item in items if "\n" in item.lead]
        fresh = self._text(indents[0]) if indents else _space(items)
        written_items = []
        for j, i in enumerate(partners):
            if i is None:
                written_items.append(Item(fresh, "", (), inline(new[j])))
            else:
                items[i].value = self._value(items[i].value, old[i], new[j], inline)
                written_items.append(items[i])
        return self._joined("[", written_items, parts, bool(indents)) + "]"

    def _table(self, parts: Items, old: dict[str, Any], new: dict[str, Any]) -> str:
        kept = [item for item in parts.items if item.name[0] in new]
        for item in kept:
            item.value = self._value(item.value, old[item.name[0]], new[item.name[0]], inline)
        kept += [
            Item(_space(parts.items), f"{key_of((key,))} = ", (key,), inline(value))
            for key, value in new.items()
            if key not in old
        ]
        return self._joined("{", kept, parts, multi=False) + "}"

    def _joined(self, opening: str, items: list[Item], parts: Items, multi: bool) -> str:
        """The items between brackets, with commas between and no comment running on into an item."""
        if not items:
            return opening + (parts.close if "#" in parts.close else "")
        head, space, text = parts.items[0].lead if parts.items else "", _space(parts.items), opening
        for n, item in enumerate(items):
            lead = item.lead if multi or item.lead.strip(" \t") else head if n == 0 else space
            last = n == len(items) - 1
            open_remark = n > 0 and items[n - 1].remark and "\n" not in lead
            text += (self.newline if open_remark else "") + lead + item.key + item.value
            text += item.remark if last and not parts.comma else f"{item.mid},{item.remark}"
        return text + (self.newline if items[-1].remark and "\n" not in parts.close else "") + parts.close

    # what came in

    def _known(self) -> tuple[set[Loc], set[Loc]]:
        """Paths written as a value, and paths that are tables or arrays of tables in this text."""
        lines = {line.loc for s in self.sections for line in s.lines}
        places = lines | {s.loc for s in self.sections}
        return lines | self._whole, {loc[:n] for loc in places for n in range(len(loc))} | {
            s.loc for s in self.sections
        }

    def _add(self, loc: Loc, table: dict[str, Any], known: tuple[set[Loc], set[Loc]]) -> None:
        values, tables = known
        for key, value in table.items():
            here = (*loc, key)
            if here in values:
                continue
            if here not in tables:
                self._insert(loc, key, value)
            elif isinstance(value, dict):
                self._add(here, value, known)
            else:
                for j, one in enumerate(value):
                    if (*here, j) not in values:
                        self._add((*here, j), one, known)

    def _insert(self, loc: Loc, key: str, value: Any) -> None:
        n = len(loc)
        if isinstance(value, dict) and value:
            within = [i for i, s in enumerate(self.sections) if s.loc[:n] == loc]
            at = within[-1] + 1 if within and loc else len(self.sections)
            head = self._text(section((*loc, key), value))
            self.sections.insert(at, TomlSection(self.newline, head, (*loc, key)))
            return
        host = next((s for s in self.sections if s.loc == loc and s.loc not in self._whole), None)
        if host is None and (dotted := self._dotted_host(loc)):
            host = dotted
        elif host is None:
            at = next(i for i, s in enumerate(self.sections) if s.loc[:n] == loc)
            host = TomlSection(self.newline, self._text(f"[{_header(loc)}]\n"), loc)
            self.sections.insert(at, host)
        name = key_of((*loc, key)[len(host.loc) :])
        lead = host.lines[-1].lead if host.lines else ""
        indent = lead[len(lead.rstrip(" \t")) :]
        host.lines.append(
            KeyLine(indent, f"{name} = ", (*loc, key), self._text(written(value)), self.newline)
        )

    def _dotted_host(self, loc: Loc) -> TomlSection | None:
        """The section in which keys with dots make the table at the path."""
        n = len(loc)
        return next(
            (s for s in self.sections if len(s.loc) < n and any(x.loc[:n] == loc for x in s.lines)), None
        )

    def _below(self, kept: str, lead: str) -> str:
        """Comments that were kept, parted from what follows them as they were before."""
        return kept + (self.newline if kept and lead.strip(" \t\r")[:1] != "\n" else "") + lead

    def _text(self, text: str) -> str:
        return text.replace("\n", self.newline) if self.newline != "\n" else text


def _at(data: Any, loc: Loc) -> Any:
    for step in loc:
        listed = isinstance(data, list) and isinstance(step, int) and step < len(data)
        if not listed and not (isinstance(data, dict) and step in data):
            return _GONE
        data = data[step]
    return data


def _moved(s: TomlSection, loc: Loc) -> TomlSection:
    """The section with its path, and those of its lines, led over another place in an array."""
    n = len(loc)
    s.loc = (*loc, *s.loc[n:])
    for line in s.lines:
        line.loc = (*loc, *line.loc[n:])
    return s


def _detached(lead: str) -> str:
    """The comments above an entry that a blank line parts from it: they are not about it alone."""
    lines = lead.split("\n")
    blank = max((i for i, line in enumerate(lines[:-1]) if not line.strip() and i), default=0)
    kept = "".join(f"{line}\n" for line in lines[:blank])
    return kept if "#" in kept else ""


def _header(loc: Loc) -> str:
    return key_of(tuple(step for step in loc if isinstance(step, str)))


def _space(items: list[Item]) -> str:
    """What stands before an item that is not the first, on one line."""
    return next((item.lead for item in items[1:] if not item.lead.strip(" \t")), " ")
