"""TOML text for changed data that keeps what a person wrote: comments, order, spacing, spelling of numbers.

The original is taken apart (`levels.pieces`) and revised (`levels.revise`): only values that changed are
written anew, entries that went are taken out with the comments on them, and what came in is put where its
like stands.
"""

import re
import tomllib
from typing import Any

import tomli_w

from levels.fresh import section
from levels.pieces import TomlSection, items_of, toml_sections
from levels.revise import Revision, same

__all__ = ["same", "text_with"]

_COMMENT = re.compile(r"^[ \t]*#[^\n]*", re.MULTILINE)


def text_with(original: str, data: dict[str, Any]) -> str:
    """The text of `data` after the manner of `original`, a TOML text or "".

    tomllib reads exactly `data` from it. Should an unusual original not let that happen, the text is
    written anew below the comments the original had.
    """
    original = original.removeprefix("\ufeff")
    try:
        text = _kept(original, data)
        if same(tomllib.loads(text), data):
            return text
    except (ValueError, LookupError, TypeError, RecursionError):
        pass  # whatever was unusual, `_anew` needs nothing of it
    return _anew(original, data)


def _kept(original: str, data: dict[str, Any]) -> str:
    old = tomllib.loads(original)
    if same(old, data):
        return original
    if not old:
        return original + section((), data).removeprefix("[]\n")
    return Revision(original, old, data).revised()


def _anew(original: str, data: dict[str, Any]) -> str:
    """Plain text below all comments of the original."""
    try:
        sections, end = toml_sections(original)
        apart = "\n".join(part for s in sections for part in _around(s)) + "\n" + end
    except (ValueError, LookupError, RecursionError):
        apart = original
    comments = "".join(f"{comment.strip()}\n" for comment in _COMMENT.findall(apart))
    plain = tomli_w.dumps(data, multiline_strings=not any("\r" in text for text in _texts(data)))
    return (comments + "\n" if comments else "") + plain


def _around(s: TomlSection) -> list[str]:
    """What stands around the header and the values of a section."""
    return [s.lead, s.rest, *(part for x in s.lines for part in (x.lead, _beside(x.value), x.rest))]


def _beside(value: str) -> str:
    """What stands beside the items of a list or inline table given as text."""
    if value[:1] not in ("[", "{"):
        return ""
    parts = items_of(value)
    beside = (f"{one.lead}\n{one.mid}\n{one.remark}\n{_beside(one.value)}" for one in parts.items)
    return "".join(beside) + parts.close


def _texts(value: Any) -> list[str]:
    if isinstance(value, dict | list):
        inner = value.values() if isinstance(value, dict) else value
        return [text for one in inner for text in _texts(one)]
    return [value] if isinstance(value, str) else []
