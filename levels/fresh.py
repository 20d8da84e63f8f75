"""TOML text for new values, in the manner of the built-in scenarios."""

import re
from typing import Any

import tomli_w

__all__ = ["inline", "key_of", "section", "written"]

WIDE = 60  # characters up to which a list of plain values stays on one line, assumed


def key_of(names: tuple[str | int, ...]) -> str:
    """Names joined to a key, quoted where they have to be."""
    return ".".join(str(n) if re.fullmatch(r"[A-Za-z0-9_-]+", str(n)) else _scalar(str(n)) for n in names)


def inline(value: Any) -> str:
    """The value on one line."""
    if isinstance(value, dict):
        pairs = ", ".join(f"{key_of((key,))} = {inline(one)}" for key, one in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(inline, value))}]"
    return _scalar(value)


def written(value: Any) -> str:
    """The value behind a key: texts of several lines and longer lists over several lines."""
    if isinstance(value, list):
        line = inline(value)
        plain = not any(isinstance(one, dict | list) for one in value)
        if not value or (plain and len(line) <= WIDE):
            return line
        return "[\n" + "".join(f"    {inline(one)},\n" for one in value) + "]"
    if isinstance(value, str) and "\n" in value and "\r" not in value:
        return tomli_w.dumps({"k": value}, multiline_strings=True)[4:-1]
    return inline(value)


def section(loc: tuple[str | int, ...], table: dict[str, Any], many: bool = False) -> str:
    """A table under its header, tables in it under theirs."""
    name = key_of(tuple(step for step in loc if isinstance(step, str)))
    text = f"[[{name}]]\n" if many else f"[{name}]\n"
    inner = {key: one for key, one in table.items() if isinstance(one, dict)}
    text += "".join(f"{key_of((k,))} = {written(one)}\n" for k, one in table.items() if k not in inner)
    return text + "".join("\n" + section((*loc, key), one) for key, one in inner.items())


def _scalar(value: Any) -> str:
    return tomli_w.dumps({"k": value})[4:-1]
