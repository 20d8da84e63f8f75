"""Drafts: one unchanging value, right or wrong, that shares what did not change."""

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from legal_scenarios import scenarios

from levels.draft import Draft, library_text
from levels.files import ScenarioError, library, load_library, parse_scenario, scenario_text
from levels.scenario import Scenario

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))
SMALL = Draft({"a": {"b": [1, {"c": 2}], "d": 3}, "e": {"f": 4}})


def refusal(read: Callable[[str, str], object], text: str) -> tuple[str, ...]:
    """The sentences with which a text is refused, none if it is not."""
    try:
        read(text, "f")
    except ScenarioError as error:
        return error.problems
    return ()


@settings(max_examples=60, deadline=None)
@given(scenarios())
def test_a_scenario_and_its_text_make_the_same_draft(made: Scenario) -> None:
    draft = Draft.of(made)
    assert draft.problems() == ()
    assert draft.scenario() == made
    assert Draft.parse(scenario_text(made)) == draft


@pytest.mark.parametrize("name", library())
def test_every_built_in_scenario_is_a_draft_without_problems(name: str) -> None:
    assert Draft.parse(library_text(name), name).scenario() == load_library(name)


def test_an_unknown_built_in_scenario_is_refused() -> None:
    with pytest.raises(ScenarioError, match="'nowhere' is no built-in scenario"):
        library_text("nowhere")


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_draft_tells_what_the_reader_of_files_tells(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    told = refusal(parse_scenario, text)
    if refused := refusal(Draft.parse, text):
        assert refused == told
        return
    draft = Draft.parse(text, "f")
    mine = {one.told for one in draft.problems()}
    assert {
        line.split(", ", 1)[1] if ", line " not in line else line.split(", ", 2)[2] for line in told
    } == mine
    assert (draft.scenario() is None) == bool(told)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("format = ", "f.toml, line 1: is not TOML"),
        ("title = 'no format'", "f.toml, format: is missing"),
        ("format = 2", "f.toml, line 1, format: 2 is newer than this program"),
    ],
)
def test_only_what_cannot_be_read_is_refused(text: str, told: str) -> None:
    with pytest.raises(ScenarioError, match=told):
        Draft.parse(text, "f.toml")


def test_a_byte_order_mark_is_no_part_of_the_draft() -> None:
    assert Draft.parse("\ufeffformat = 1\n") == Draft({"format": 1})


def test_at_finds_or_gives_the_default() -> None:
    assert SMALL.at(("a", "b", 1, "c")) == 2
    assert SMALL.at(("a", "b", 2), "none") == "none"
    assert SMALL.at(("a", "b", -1)) is None
    assert SMALL.at(("e", "f", "g")) is None
    assert SMALL.at(()) is SMALL.data


def test_a_change_shares_all_that_is_off_its_path() -> None:
    changed = SMALL.put(("a", "b", 1, "c"), 9)
    assert changed.data == {"a": {"b": [1, {"c": 9}], "d": 3}, "e": {"f": 4}}
    assert SMALL.data == {"a": {"b": [1, {"c": 2}], "d": 3}, "e": {"f": 4}}
    assert changed.data["e"] is SMALL.data["e"]


def test_what_was_put_is_nobody_elses() -> None:
    mine: list[Any] = [{"x": 1}]
    draft = SMALL.put(("list",), mine)
    mine[0]["x"] = 2
    assert draft.at(("list", 0, "x")) == 1


def test_tables_on_the_way_are_made_and_lists_grow_by_insert_alone() -> None:
    assert SMALL.put(("g", "h", "i"), 1).at(("g", "h")) == {"i": 1}
    assert SMALL.insert(("a", "b", 0), 7).at(("a", "b")) == [7, 1, {"c": 2}]
    assert SMALL.insert(("a", "b", 2), 7).at(("a", "b")) == [1, {"c": 2}, 7]
    assert SMALL.insert(("new", 0), 7).at(("new",)) == [7]
    for loc in (("a", "b", 2), ("a", "b", 5, "c"), ("e", "f", "g")):
        with pytest.raises(LookupError):
            SMALL.put(loc, 1)
    with pytest.raises(LookupError):
        SMALL.insert(("a", "b", 3), 1)


def test_remove_takes_out_or_leaves_alone() -> None:
    assert SMALL.remove(("a", "b", 0)).at(("a", "b")) == [{"c": 2}]
    assert SMALL.remove(("e",)).data == {"a": SMALL.data["a"]}
    assert SMALL.remove(("e", "nothing")) is SMALL
    assert SMALL.remove(()) is SMALL


def test_putting_what_is_there_changes_nothing() -> None:
    assert SMALL.put(("a", "d"), 3) is SMALL
    assert SMALL.put(("a", "b"), (1, {"c": 2})) is SMALL


@pytest.mark.parametrize(("a", "b"), [(0.0, -0.0), (1, 1.0), (1, True), ("1", 1), ([], {}), ([1], [1, 1])])
def test_drafts_that_read_alike_and_are_not_are_told_apart(a: Any, b: Any) -> None:
    assert Draft({"v": a}) != Draft({"v": b})
    assert Draft({"v": a}) == Draft({"v": a})


def test_the_order_of_keys_and_nan_make_no_difference() -> None:
    assert Draft({"a": 1, "b": math.nan}) == Draft({"b": math.nan, "a": 1})
    assert Draft({}) != {}


@settings(max_examples=40, deadline=None)
@given(scenarios(), st.data())
def test_any_key_taken_out_leaves_a_draft_that_knows_what_it_lacks(
    made: Scenario, data: st.DataObject
) -> None:
    draft = Draft.of(made)
    key = data.draw(st.sampled_from(sorted(draft.data)))
    broken = draft.remove((key,))
    assert (broken.scenario() is None) == bool(broken.problems())
    if key in ("ground", "hole", "goal", "title"):
        assert [p.told for p in broken.problems() if p.loc == (key,)]
