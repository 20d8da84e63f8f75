"""Packs: scenarios to hand out in one readable file, in playing order, with a practice plan.

Pack format 1. A member is the scenario's own TOML as one text, comments and all; there is nothing to
unpack and no path to follow. A bad member or plan is named and left out; the rest still loads.
"""

import json
import os
import re
from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

import tomli_w
from pydantic import AfterValidator, Field, StringConstraints, ValidationError

from levels.files import parse_scenario, told
from levels.migrations import Migration, migrated
from levels.parts import Part
from levels.plan import PracticePlan
from levels.problems import problems_of
from levels.reading import LARGEST_SCENARIO, ScenarioError, file_name, read_text, structure, tables
from levels.rules import Faults, Loc, count_between, refuse_if
from levels.scenario import Scenario
from levels.teaching import Words
from levels.whole_file import replace_file

__all__ = [
    "LARGEST_PACK", "LONGEST_TITLE", "MOST_MEMBERS", "PACK_FORMAT", "PACK_MIGRATIONS", "RESERVED",
    "AssignmentId", "Head", "Member", "MemberName", "Pack", "PackError", "head_text", "pack_schema_text",
    "pack_text", "parse_head", "parse_pack", "read_pack", "write_pack",
]  # fmt: skip

PACK_FORMAT: Final = 1
PACK_MIGRATIONS: dict[int, Migration] = {}  # n: from pack format n to n + 1
LONGEST_TITLE = 80  # characters
LARGEST_PACK = 5_000_000  # bytes
MOST_MEMBERS = 60
MOST_STRUCTURE = 250_000  # characters outside texts and comments in all members: bounds the time to read
RESERVED = {"con", "prn", "aux", "nul"} | {f"{port}{n}" for port in ("com", "lpt") for n in range(10)}


class PackError(ScenarioError):
    """A pack that cannot be used. `problems` holds the sentences, one for each thing wrong."""


@dataclass(frozen=True)
class Member:
    """One scenario of a pack: its name, its file's exact text, and what that says."""

    name: str
    text: str
    scenario: Scenario


@dataclass(frozen=True)
class Pack:
    """What can be used of a pack, in playing order; `problems` name the rest, a sentence each."""

    title: str
    members: tuple[Member, ...]
    words: str = ""  # from the coach
    plan: PracticePlan | None = None
    problems: tuple[str, ...] = ()
    id: str = ""  # of an assignment: answers name it; "" for a pack that asks for none


def _free_for_files(name: str) -> str:
    if name.lower() in RESERVED:
        refuse_if([((), f"'{name}' is kept by Windows for a device; allowed: another name")])
    return name


MemberName = Annotated[
    str,
    StringConstraints(pattern=r"^[A-Za-z0-9-]+$", max_length=60),
    AfterValidator(_free_for_files),
]
AssignmentId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9-]{4,40}$")]
_NAMED = "name of the scenario: letters, digits and hyphens, 1 to 60"


class MemberTable(Part):
    """A member as the file holds it."""

    name: MemberName = Field(description=_NAMED)
    text: Annotated[str, StringConstraints(max_length=LARGEST_SCENARIO)] = Field(
        description=f"the scenario's own file, at most {LARGEST_SCENARIO} characters"
    )


class Head(Part):
    """What a pack says of itself."""

    pack: Literal[1] = Field(default=PACK_FORMAT, description="version of this file format: 1")
    title: Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]+$", max_length=LONGEST_TITLE)] = (
        Field(description=f"name of the pack, one line of 1 to {LONGEST_TITLE} characters")
    )
    id: AssignmentId | None = Field(
        default=None, description="id of an assignment, which answers name: 4 to 40 of a-z, 0-9 and hyphens"
    )
    words: Words = Field(
        default="", alias="from", description="the coach's words to the player, up to 4000 characters"
    )
    plan: PracticePlan | None = Field(default=None, description="table of the practice plan")


class PackTable(Head):
    """A pack as its file holds it."""

    member: Annotated[tuple[MemberTable, ...], *count_between(1, MOST_MEMBERS)] = Field(
        description=f"1 to {MOST_MEMBERS} scenarios in playing order"
    )


_TABLES: dict[str, type[Part]] = {"plan": PracticePlan, "member": MemberTable}


def read_pack(path: str | os.PathLike[str]) -> Pack:
    """The pack in a file. PackError when nothing of it can be used.

    >>> read_pack("nowhere.toml")
    Traceback (most recent call last):
    levels.packs.PackError: nowhere.toml: cannot be read: No such file or directory.
    """
    try:
        text = read_text(path, LARGEST_PACK)
    except ScenarioError as error:
        raise PackError(list(error.problems)) from None
    return parse_pack(text, file_name(path))


def parse_pack(text: str, name: str = "pack") -> Pack:
    """The pack in a TOML text; `name` is the file's, for messages. PackError as above."""
    text = text.removeprefix("\ufeff")
    try:
        data = migrated(tables(text, name, LARGEST_PACK), PACK_MIGRATIONS, PACK_FORMAT, key="pack")
    except ScenarioError as error:
        raise PackError(list(error.problems)) from None
    except ValueError as error:
        raise PackError(told(name, text, [(("pack",), str(error))])) from None
    table, found = _sound(data, name, text)
    members, problems = _members(table, name)
    problems = [*told(name, text, found), *problems]
    if not members:
        raise PackError(problems)
    return Pack(table.title, members, table.words, table.plan, tuple(problems), table.id or "")


def parse_head(text: str, name: str = "pack") -> Head:
    """What a pack says of itself, from a text without members. PackError tells everything wrong."""
    text = text.removeprefix("\ufeff")
    try:
        return Head.model_validate(migrated(tables(text, name), PACK_MIGRATIONS, PACK_FORMAT, key="pack"))
    except ValidationError as error:
        raise PackError(told(name, text, problems_of(error, Head, _TABLES))) from None
    except ScenarioError as error:
        raise PackError(list(error.problems)) from None
    except ValueError as error:
        raise PackError(told(name, text, [(("pack",), str(error))])) from None


def _sound(data: dict[str, Any], name: str, text: str) -> tuple[PackTable, Faults]:
    """The pack without its bad plan and bad members, and what is wrong with those."""
    try:
        return PackTable.model_validate(data), []
    except ValidationError as error:
        found = problems_of(error, PackTable, _TABLES)
    bad = {_part(loc) for loc, _ in found}
    kept = [] if None in bad else [m for i, m in enumerate(data["member"]) if ("member", i) not in bad]
    if not kept:
        raise PackError(told(name, text, found))
    rest = {key: value for key, value in data.items() if (key,) not in bad}
    return PackTable.model_validate({**rest, "member": kept}), found


def _part(loc: Loc) -> Loc | None:
    """The part of a pack that can be left out for a problem there; None when it is the pack itself."""
    if loc[0] == "plan":
        return ("plan",)
    return loc[:2] if loc[0] == "member" and len(loc) > 1 else None


def _members(table: PackTable, name: str) -> tuple[tuple[Member, ...], list[str]]:
    """Every sound member, and a sentence for each thing wrong with the others."""
    members: list[Member] = []
    problems: list[str] = []
    seen: set[str] = set()
    room = MOST_STRUCTURE
    for one in table.member:
        where = f"{name}, member {one.name}"
        if one.name.lower() in seen:
            problems.append(f"{where}: is there twice; allowed: each name once, in small or capital letters.")
            continue
        seen.add(one.name.lower())
        room -= structure(one.text) if room >= 0 else 0
        if room < 0:
            allowed = f"{MOST_STRUCTURE} characters outside texts and comments in all members"
            problems.append(f"{where}: is more than a pack may hold; allowed: {allowed}.")
            continue
        try:
            members.append(Member(one.name, one.text, parse_scenario(one.text, where)))
        except ScenarioError as error:
            problems += error.problems
    return tuple(members), problems


def pack_text(pack: Pack) -> str:
    """TOML that reads back as an equal pack, the members' texts letter for letter.

    >>> from levels.draft import library_text
    >>> from levels.files import load_library
    >>> name = "harrow-fen-after-rain"
    >>> pack = Pack("Wet days", (Member(name, library_text(name), load_library(name)),), words="Slowly.")
    >>> parse_pack(pack_text(pack)) == pack
    True
    """
    parts = [head_text(pack)]
    for one in pack.members:
        parts.append(f'\n[[member]]\nname = "{one.name}"\ntext = {_quoted(one.text)}\n')
    return "".join(parts)


def head_text(pack: Pack) -> str:
    """TOML of what a pack says of itself, without its members."""
    data: dict[str, Any] = {"pack": PACK_FORMAT, "title": pack.title}
    if pack.id:
        data["id"] = pack.id
    if pack.words:
        data["from"] = pack.words
    if pack.plan is not None:
        data["plan"] = pack.plan.model_dump(exclude_none=True)
    return tomli_w.dumps(data, multiline_strings=True)


def _quoted(text: str) -> str:
    """A TOML string of exactly this text: plain between ''' where that is possible, else with escapes."""
    if "'''" not in text and text[-1:] != "'" and not _UNPLAIN.search(text):
        return f"'''\n{text}'''"
    escaped = _UNPLAIN.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text.replace("\\", "\\\\"))
    escaped = re.sub(r'"(?="|\Z)', r"\"", escaped)
    return f'"""\n{escaped}"""'


_UNPLAIN = re.compile("[\x00-\x08\x0b-\x1f\x7f\ufeff]")  # what TOML forbids, changes or nobody sees


def write_pack(path: str | os.PathLike[str], pack: Pack) -> None:
    """Write the file whole or leave the old one.

    PackError when any part of the pack breaks a rule, OSError when the disk refuses.
    """
    name = file_name(path)
    text = pack_text(pack)
    again = parse_pack(text, name)
    if again.problems:
        raise PackError(list(again.problems))
    if [(m.name, m.text) for m in again.members] != [(m.name, m.text) for m in pack.members]:
        raise PackError([f"{name}: has a member with an odd name; allowed: letters, digits and hyphens."])
    if len(text.encode()) > LARGEST_PACK:
        raise PackError([f"{name}: is too large; allowed: {LARGEST_PACK} bytes."])
    replace_file(path, text)


def pack_schema_text() -> str:
    """JSON Schema of a pack, as kept in pack_schema.json. Rules between keys are not in it."""
    return json.dumps(PackTable.model_json_schema(), indent=2, ensure_ascii=False) + "\n"
