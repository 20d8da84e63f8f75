"""A scenario or pack with every key explained: the words beside a key are those the reader checks by.

An example is a plain TOML text. A comment in it begins a part: its first line is the part's title, the rest
is said under it. Keys that the example leaves out follow as comments, so that none is missing.
"""

import textwrap
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from levels.parts import Part
from levels.pieces import KeyLine, TomlSection, toml_sections
from levels.rules import Loc

__all__ = ["GuideLine", "GuidePart", "annotated", "toml_of"]

WIDTH = 96  # characters of a line of comment


@dataclass(frozen=True)
class GuideLine:
    """`told` explains the key; `code` is its line of TOML, or a comment where the example leaves it out."""

    told: str
    code: str


@dataclass(frozen=True)
class GuidePart:
    """Keys that belong together; the header of a table is the first of its lines."""

    title: str
    words: str
    lines: tuple[GuideLine, ...]


def annotated(text: str, model: type[Part], whole: bool = True) -> tuple[GuidePart, ...]:
    """The parts of an example of that model; `whole` adds the keys that it leaves out."""
    walk = _Walk(tomllib.loads(text), model)
    parts = tuple(chain.from_iterable(walk.parts(section, whole) for section in toml_sections(text)[0]))
    left_out = [part for key, info in walk.missing for part in walk.left_out(key, info)] if whole else []
    return (*parts, *left_out)


def toml_of(part: GuidePart) -> str:
    """A part as TOML, its explanations as comments.

    >>> line = GuideLine("1.2 to 4.9 m", "green_speed_m = 3.0")
    >>> print(toml_of(GuidePart("Green", "", (line,))), end="")
    # 1.2 to 4.9 m
    green_speed_m = 3.0
    """
    out: list[str] = []
    for line in part.lines:
        told = [wrapped for said in line.told.splitlines() for wrapped in textwrap.wrap(said, WIDTH)]
        out += [*(f"# {words}" for words in told), line.code]
    return "\n".join(out) + "\n"


class _Walk:
    """One example of a model. `missing` are the tables that it leaves out."""

    def __init__(self, data: dict[str, Any], model: type[Part]) -> None:
        self.data, self.model = data, model
        self.seen: set[type[Part]] = set()
        self.missing: list[tuple[str, FieldInfo]] = []

    def parts(self, section: TomlSection, whole: bool) -> Iterator[GuidePart]:
        """The parts of a section: a new one wherever a comment stands."""
        model, data, info = self.at(section.loc)
        title, words = _titled(section.lead) or (section.head, "")
        told = _told(info) if info and not self.seen.intersection(_tables(info)) else ""
        lines = [GuideLine(told, section.head)] if section.head else []
        for line in section.lines:
            if started := _titled(line.lead):
                if lines:
                    yield GuidePart(title, words, tuple(lines))
                (title, words), lines = started, []
            lines.append(self.line(model, line))
        if whole and model not in self.seen:
            lines += self.rest(model, data)
        self.seen.add(model)
        if lines:
            yield GuidePart(title, words, tuple(lines))

    def line(self, model: type[Part], line: KeyLine) -> GuideLine:
        """A key with its value and what is said of it, and of the keys of tables that stand on it."""
        info = _fields(model)[str(line.loc[-1])]
        told = [_told(info)]
        for table in _tables(info):
            self.seen.add(table)
            told += [f"- {key}: {_told(inner)}" for key, inner in _fields(table).items()]
        return GuideLine("\n".join(told), f"{line.key}{line.value}")

    def rest(self, model: type[Part], data: dict[str, Any]) -> Iterator[GuideLine]:
        """Keys that the example leaves out; whole tables are kept for the end."""
        for key, info in _fields(model).items():
            if key not in data and _tables(info):
                self.missing.append((key, info))
            elif key not in data:
                yield GuideLine(_told(info), f"# {key}")

    def left_out(self, key: str, info: FieldInfo) -> Iterator[GuidePart]:
        """A table that the example leaves out, and those inside it."""
        for model in _tables(info):
            if model in self.seen:
                continue
            self.seen.add(model)
            fields = _fields(model)
            lines = [GuideLine(_told(inner), f"# {name}") for name, inner in fields.items()]
            head = GuideLine(_told(info), f"# [{key}]")
            words = (model.__doc__ or "").splitlines()[0]
            yield GuidePart(f"Not in this example: {key}", words, (head, *lines))
            for name, inner in fields.items():
                yield from self.left_out(f"{key}.{name}", inner)

    def at(self, loc: Loc) -> tuple[type[Part], dict[str, Any], FieldInfo | None]:
        """The model at a place, the data there, and the key that holds it; no key for the file itself."""
        model, info, data = self.model, None, self.data
        for step in loc:
            data = data[step]  # type: ignore[index]
            info = _fields(model)[step] if isinstance(step, str) else info
            if info and isinstance(data, dict):
                model = next(m for m in _tables(info) if _kind(m) in (None, data.get("kind")))
        return model, data, info


def _titled(lead: str) -> tuple[str, str] | None:
    """Title and words of the comment before a key or table."""
    said = [line.strip().removeprefix("#").strip() for line in lead.splitlines() if line.strip()]
    return (said[0], "\n".join(said[1:])) if said else None


def _fields(model: type[Part]) -> dict[str, FieldInfo]:
    """The keys of a model as files write them."""
    return {info.alias or name: info for name, info in model.model_fields.items()}


def _tables(info: FieldInfo) -> tuple[type[Part], ...]:
    """The models of the tables that a key may hold."""
    return tuple(m for m in _types(info.annotation) if isinstance(m, type) and issubclass(m, Part))


def _types(annotation: Any) -> Iterator[Any]:
    inner = () if get_origin(annotation) is Literal else get_args(annotation)
    yield annotation
    for one in inner:
        yield from _types(one)


def _kind(model: type[Part]) -> str | None:
    """The value of `kind` by which a table is told from others in the same list."""
    info = model.model_fields.get("kind")
    return get_args(info.annotation)[0] if info else None


def _told(info: FieldInfo) -> str:
    """What the model says of a key, and whether it is needed."""
    words = info.description or f"always {_shown(get_args(info.annotation)[0])}"
    if info.is_required():
        return f"{words} (needed)"
    plain = isinstance(info.default, bool | int | float | str) and info.default != ""
    return f"{words} (left out: {_shown(info.default)})" if plain else f"{words} (may be left out)"


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else f"{value:g}"
