"""What is wrong with a scenario, in one plain sentence each: where, what, and what is allowed."""

import re
import reprlib
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel, ValidationError

from levels import parts, proof, teaching
from levels.rules import Faults, Loc
from levels.scenario import Scenario

__all__ = ["key_text", "problems_of"]

_TABLES: dict[str, type[BaseModel]] = {
    "ground": parts.PointTable, "lie": parts.LieTable, "hole": parts.HoleTable,
    "default_setup": parts.SetupTable, "default_motion": parts.MotionTable,
    "goal": teaching.Goal, "must_clear": teaching.Clear, "lesson": teaching.Lesson,
    "limits": teaching.Limits, "question": teaching.Question, "reference": teaching.Reference,
    "proof": proof.Proof, "families": proof.FamilyProof, "best": teaching.Reference,
    "slack": proof.Slack, "chart": proof.Chart,
    "water": parts.WaterTable, "wall": parts.WallTable, "lip": parts.LipTable, "tree": parts.TreeTable,
    "out_of_bounds": parts.OutOfBoundsTable,
}  # fmt: skip
_KINDS = "water, wall, lip, tree, out_of_bounds"

_SENTENCES = {
    "missing": "is missing",
    "float_type": "{value} is not a number",
    "finite_number": "{value} is not a finite number",
    "greater_than_equal": "{value} is too small",
    "less_than_equal": "{value} is too large",
    "bool_type": "{value} is neither true nor false",
    "int_type": "{value} is not a whole number",
    "int_from_float": "{value} is not a whole number",
    "string_type": "{value} is not text",
    "string_too_long": "is too long",
    "too_long": "is too long",  # a text whose newlines were made plain first
    "string_pattern_mismatch": "{value} has signs that do not belong here",
    "tuple_type": "{value} is not a list",
    "model_type": "{value} is not a table",
    "model_attributes_type": "{value} is not a table",
    "literal_error": "{value} is not known here",
}


def problems_of(
    error: ValidationError, root: type[BaseModel] = Scenario, tables: Mapping[str, type[BaseModel]] = _TABLES
) -> Faults:
    """Every problem as (path of the key, sentence without its subject), in the order of the file's keys.

    `root` is the model of the whole file, `tables` those of its tables by the keys they stand at.
    """
    found: Faults = []
    for one in error.errors(include_url=False):
        loc: Loc = one["loc"]
        rules: Faults = one.get("ctx", {}).get("found") or []
        if rules:
            found += [((*_plain(loc), *inner), text) for inner, text in rules]
        elif one["type"].startswith("union_tag"):
            tag = one.get("ctx", {}).get("tag")
            told = f"{reprlib.repr(tag)} is no hazard" if tag else "is missing"
            found.append(((*loc, "kind"), f"{told}; allowed: {_KINDS}"))
        else:
            found.append((_plain(loc), _sentence(one, loc, _table_of(loc, root, tables))))
    return found


def key_text(loc: Loc) -> str:
    """A path as people write it: ground[3].x_m."""
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{_name(part)}" for part in loc)
    return text.removeprefix(".")


def _name(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]{1,40}", key) else reprlib.repr(key)


def _plain(loc: Loc) -> Loc:
    """Path in the file: without the kind which validation puts behind the number of a hazard."""
    return loc[:2] + loc[3:] if loc[0] == "hazards" and len(loc) > 2 else loc


def _table_of(loc: Loc, root: type[BaseModel], tables: Mapping[str, type[BaseModel]]) -> type[BaseModel]:
    return next((tables[p] for p in reversed(loc[:-1]) if isinstance(p, str) and p in tables), root)


def _sentence(one: Any, loc: Loc, table: type[BaseModel]) -> str:
    fields = {field.alias or name: field for name, field in table.model_fields.items()}
    if one["type"] == "extra_forbidden":
        return f"is no key of this table; allowed: {', '.join(fields)}"
    if one["type"] == "unknown_name":
        return str(one["msg"])
    told = _SENTENCES.get(one["type"], one["msg"]).format(value=_value(one["input"]))
    name = next(part for part in reversed(loc) if isinstance(part, str))
    field = fields.get(name)
    return f"{told}; allowed: {field.description if field else 'a table of its keys'}"


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return reprlib.repr(value) if isinstance(value, (str, int, float)) else "this"
