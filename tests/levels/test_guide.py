"""The guide: every key of the schemas with its limits, and examples that the reader itself takes."""

import json
import re
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from pydantic import Field

from levels.annotate import annotated, toml_of
from levels.files import parse_scenario
from levels.guide import guide, guide_text, new_pack_text, new_scenario_text
from levels.packs import parse_pack
from levels.parts import Part
from levels.scenario import Scenario
from levels.search import Trials, space_of

KEPT = (files("levels") / "guide.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"```toml\n(.*?)```", re.DOTALL)


def _schema(name: str) -> dict[str, Any]:
    schema: dict[str, Any] = json.loads((files("levels") / name).read_text(encoding="utf-8"))
    return schema


def _toml(chapter: str) -> str:
    """All TOML of a chapter of the kept guide, as a reader would copy it."""
    page = KEPT.split(f"## {chapter}\n")[1].split("\n## ")[0]
    return "\n".join(BLOCK.findall(page))


def _keys(schema: dict[str, Any]) -> list[tuple[str, str, str]]:
    """Table, key and what the schema says of it, for every key of every table."""
    tables = {schema["title"]: schema, **schema["$defs"]}
    return [
        (name, key, field.get("description", ""))
        for name, table in tables.items()
        for key, field in table.get("properties", {}).items()
    ]


def _explained(toml: str) -> set[tuple[str, str]]:
    """Every key of the text with the words over it, joined to one line."""
    found, words = set(), ""
    for line in toml.splitlines():
        said = line.removeprefix("# ")
        key = re.match(r"#? ?\[*(?:[a-z_]+\.)?([a-z_]+)(?: =|\]|$)", line)
        if key:
            found |= {(key[1], words)} | set(re.findall(r"- ([a-z_]+): (.*?)(?= - [a-z_]+: |$)", words))
            words = ""
        elif line.startswith("# "):
            words = f"{words} {said}".strip()
        else:
            words = ""
    return found


def test_the_kept_guide_is_that_of_the_models() -> None:
    assert guide_text() == KEPT, "write it anew: python -m levels.guide"


@pytest.mark.parametrize(("name", "chapter"), [("schema.json", "A scenario"), ("pack_schema.json", "A pack")])
def test_every_key_of_the_schema_stands_there_with_its_limits(name: str, chapter: str) -> None:
    told = _explained(_toml(chapter))
    missing = [
        f"{table}.{key}: {description}"
        for table, key, description in _keys(_schema(name))
        if not any(key == k and words.startswith(description) for k, words in told)
    ]
    assert missing == []


def test_each_kind_of_hazard_stands_there() -> None:
    kinds = set(_schema("schema.json")["properties"]["hazards"]["items"]["discriminator"]["mapping"])
    assert {hazard.kind for hazard in parse_scenario(_toml("A scenario")).hazards} == kinds


def test_the_reader_takes_the_examples_as_they_stand_on_the_page() -> None:
    made = parse_scenario(_toml("A scenario"))
    left_out = {"green_speed_ft", "proof"}
    assert {name for name in Scenario.model_fields if name not in made.model_fields_set} == left_out
    pack = parse_pack(_toml("A pack"))
    assert not pack.problems
    assert pack.plan is not None


def test_the_example_can_be_done_as_its_reference_says() -> None:
    made = parse_scenario(_toml("A scenario"))
    shot = made.reference_shot()
    assert shot is not None
    space = space_of(made)
    trials = Trials(made, space)
    assert trials.met(space.point_of(*shot), 0, 200).share > 0.5
    assert trials.met(space.point_of(made.setup(), made.motion()), 0, 200).share < 0.1


def test_what_a_model_gains_stands_there_by_itself() -> None:
    class Wider(Part):
        old: int = Field(default=1, description="old, 0 to 9")
        added: int = Field(default=2, description="added, 0 to 5")

    (part,) = annotated("# Title\nold = 3\n", Wider)
    assert part.title == "Title"
    assert toml_of(part) == "# old, 0 to 9 (left out: 1)\nold = 3\n# added, 0 to 5 (left out: 2)\n# added\n"


def test_a_new_file_is_sound_and_explains_each_of_its_keys() -> None:
    text = new_scenario_text("mine.toml")
    made = parse_scenario(text)
    keys = {key for key, words in _explained(text) if words}
    assert made.model_fields_set - keys <= {"hole", "goal", "lesson", "default_setup", "default_motion"}
    assert max(map(len, text.splitlines())) <= 100
    pack = parse_pack(new_pack_text("mine.pack.toml", date(2026, 2, 27)))
    assert not pack.problems
    assert pack.plan is not None
    assert (pack.plan.made, pack.plan.retest) == (date(2026, 2, 27), date(2026, 3, 6))


def test_the_window_shows_what_the_page_shows() -> None:
    shown = {line.code for chapter in guide() for part in chapter.parts for line in part.lines}
    page = Path(str(files("levels") / "guide.md")).read_text(encoding="utf-8")
    assert shown
    assert [code for code in shown if code not in page] == []
