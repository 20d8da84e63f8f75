"""Packs: exact round trips, every limit told, the sound rest of a bad pack, whole-or-nothing writing."""

import json
import tomllib
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hostile import LEAST
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from levels import packs, schema
from levels.files import ScenarioError, library, load_library, parse_scenario, scenario_text
from levels.migrations import migrated
from levels.packs import (
    LARGEST_PACK,
    MOST_MEMBERS,
    Member,
    Pack,
    PackError,
    head_text,
    pack_text,
    parse_head,
    parse_pack,
    read_pack,
    write_pack,
)
from levels.plan import LATEST, PracticePlan
from levels.problems import problems_of

MADE = date(2025, 11, 25)
PLAN: dict[str, Any] = {
    "made": MADE, "focus": ["Brush the grass"], "drill": "Ten from the mat", "shots": 30, "successes": 20,
    "retest": MADE + timedelta(9),
}  # fmt: skip


def member(name: str, text: str = LEAST) -> Member:
    return Member(name, text, parse_scenario(text))


def pack(*members: Member, **more: Any) -> Pack:
    return Pack("Winter", members or (member("one"), member("two")), **more)


def problems(text: str) -> tuple[str, ...]:
    with pytest.raises(PackError) as caught:
        parse_pack(text, "f.toml")
    return caught.value.problems


def written(**keys: Any) -> str:
    return tomli_w.dumps({"pack": 1, "title": "t", "member": [{"name": "a", "text": LEAST}], **keys})


# ---- round trips


def test_the_whole_library_in_one_pack_and_back(tmp_path: Path) -> None:
    members = [member(name, scenario_text(load_library(name))) for name in library()]
    made = pack(*members, words="Keep it\nsimple.", plan=PracticePlan.model_validate(PLAN))
    write_pack(tmp_path / "a.pack.toml", made)
    assert read_pack(tmp_path / "a.pack.toml") == made
    kept = (tmp_path / "a.pack.toml").read_text(encoding="utf-8")
    assert "\nground = [\n" in kept, "a member stays readable as it was written"
    assert len(made.members) >= 24


@pytest.mark.parametrize(
    "tail",
    [
        "# my own\n", "# it's '' and ''' and more\n", "# ends in a quote '", '# """ and """"\n',
        "# C:\\path \\u0041 \\\n", "# é 汉 \U0001f3cc \u202e\u2028\u0085\n", "#\r\n# two\r\n", "", "#\ttab\n",
        "# ''", '# "', "# ''''''", "# \ufeff inside",
    ],
)  # fmt: skip
@pytest.mark.parametrize("head", ["", "\ufeff", "\n", "\n\n", "\r\n", "# first\r\n"])
def test_texts_come_back_letter_for_letter(head: str, tail: str, tmp_path: Path) -> None:
    made = pack(member("one", head + LEAST + tail))
    assert parse_pack(pack_text(made)) == made
    write_pack(tmp_path / "p.toml", made)
    assert read_pack(tmp_path / "p.toml").members[0].text == head + LEAST + tail


def test_windows_newlines_all_through_a_member() -> None:
    made = pack(member("one", "\ufeff" + LEAST.replace("\n", "\r\n")))
    assert parse_pack(pack_text(made)) == made


comments = st.text(st.characters(codec="utf-8", exclude_categories=["Cc"]), max_size=40)


@settings(max_examples=200, deadline=None)
@given(st.lists(comments, max_size=4), st.sampled_from(["\n", "\r\n"]), comments)
def test_any_comment_comes_back(found: list[str], end: str, title: str) -> None:
    text = LEAST.replace("\n", end) + end.join(f"# {c}" for c in found)
    made = replace(pack(member("one", text)), title=(title[:40] or "t"))
    assert parse_pack(pack_text(made)) == made


def test_a_pack_saved_with_windows_newlines_still_opens(tmp_path: Path) -> None:
    made = pack(plan=PracticePlan.model_validate(PLAN))
    (tmp_path / "w.toml").write_bytes(pack_text(made).replace("\n", "\r\n").encode("utf-8-sig"))
    assert read_pack(tmp_path / "w.toml") == made


def test_the_head_alone_comes_back() -> None:
    made = pack(words="Hello", plan=PracticePlan.model_validate(PLAN | {"caution": "Mind the wrist"}))
    head = parse_head(head_text(made))
    assert (head.title, head.words, head.plan) == (made.title, made.words, made.plan)
    with pytest.raises(PackError, match=r"^pack, line 3, tittle: is no key"):
        parse_head("pack = 1\ntitle = 'x'\ntittle = 'y'\n")


# ---- what is told


def test_a_bad_member_is_named_with_its_own_line_and_the_rest_loads() -> None:
    bad = LEAST.replace("leave_m = 1", "leave_m = 100").replace("x_m = 5", "x_m = 'far'")
    texts = {"a": LEAST, "b": bad, "c": "="}
    text = written(member=[{"name": name, "text": text} for name, text in texts.items()])
    read = parse_pack(text, "f.toml")
    assert [m.name for m in read.members] == ["a"]
    assert len(read.problems) == 3
    assert read.problems[0].startswith("f.toml, member b, line 3, hole.x_m: 'far' is not a number; allowed: ")
    assert read.problems[1].startswith("f.toml, member b, line 4, goal.leave_m: 100 is too large; allowed: ")
    assert read.problems[2].startswith("f.toml, member c, line 1: is not TOML: ")


def test_a_bad_plan_is_named_and_the_scenarios_still_load() -> None:
    read = parse_pack(written(plan=PLAN | {"shots": 0}), "f.toml")
    assert read.plan is None
    assert len(read.members) == 1
    (told,) = read.problems
    assert told.startswith("f.toml, line ")
    assert told.endswith("plan.shots: 0 is too small; allowed: how many shots the drill has, 1 to 200.")


@pytest.mark.parametrize(
    "name", ["", "a b", "../a", "a/b", "C:\\x", "é", "a.toml", "x" * 61, "a\n", "\u202ea"]
)
def test_names_are_letters_digits_and_hyphens(name: str) -> None:
    text = written(member=[{"name": name, "text": LEAST}, {"name": "ok", "text": LEAST}])
    read = parse_pack(text, "f.toml")
    assert [m.name for m in read.members] == ["ok"]
    assert "member[0].name: " in read.problems[0]
    assert "allowed: name of the scenario: letters, digits and hyphens, 1 to 60." in read.problems[0]


@pytest.mark.parametrize("name", ["con", "NUL", "Com1", "lpt9"])
def test_names_kept_by_windows_are_refused(name: str) -> None:
    assert "is kept by Windows" in problems(written(member=[{"name": name, "text": LEAST}]))[0]


def test_a_name_stands_once_whatever_its_capitals() -> None:
    both = [{"name": "Left", "text": LEAST}, {"name": "left", "text": LEAST}]
    read = parse_pack(written(member=both), "f.toml")
    assert [m.name for m in read.members] == ["Left"]
    assert read.problems[0].startswith("f.toml, member left: is there twice; allowed: ")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "f.toml, pack: is missing; allowed: 1."),
        ("pack = 2", "f.toml, line 1, pack: 2 is newer than this program; allowed: 1."),
        ("pack = true", "f.toml, line 1, pack: is not a format number; allowed: 1."),
        (written(title=""), "title: '' has signs that do not belong here; allowed: name of the pack"),
        (written(zz=1), "zz: is no key of this table; allowed: pack, title, id, from, plan, member."),
        (written(**{"from": 3}), "from: 3 is not text; allowed: the coach's words"),
        (written(member=[]), "member: has 0 entries; allowed: 1 to 60."),
        (written(member="abc"), "member: 'abc' is not a list"),
        (written(member=3), "member: 3 is not a list"),
        (written(member=[{"name": "a", "text": ""}] * (MOST_MEMBERS + 1)), "member: has 61 entries"),
    ],
)
def test_what_makes_a_pack_useless(text: str, told: str) -> None:
    assert told in " ".join(problems(text))


def test_a_pack_error_is_a_scenario_error_too() -> None:
    with pytest.raises(ScenarioError):
        parse_pack("format = 1")


def test_older_formats_would_be_brought_up() -> None:
    steps = {1: lambda data: data | {"title": data["title"].upper()}}
    assert migrated({"pack": 1, "title": "a"}, steps, 2, key="pack") == {"pack": 2, "title": "A"}


# ---- the plan


def plan_problems(**changed: Any) -> list[str]:
    data = {k: v for k, v in (PLAN | changed).items() if v is not ...}
    try:
        PracticePlan.model_validate(data)
    except ValidationError as error:
        return [f"{loc[0]}: {what}" for loc, what in problems_of(error, PracticePlan)]
    return []


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"focus": []}, "focus: has 0 entries; allowed: 1 to 2"),
        ({"focus": ["a", "b", "c"]}, "focus: has 3 entries; allowed: 1 to 2"),
        ({"focus": ["a\nb"]}, "focus: 'a\\nb' has signs that do not belong here"),
        ({"drill": ...}, "drill: is missing"),
        ({"shots": 201}, "shots: 201 is too large"),
        ({"shots": 10.0}, "shots: 10.0 is not a whole number"),
        ({"successes": 31}, "successes: 31 is more than the shots; allowed: 1 to 30"),
        ({"retest": MADE}, "retest: 2025-11-25 is not soon after 2025-11-25; allowed: 1 to 14 days"),
        ({"retest": MADE + timedelta(LATEST + 1)}, "retest: 2025-12-10 is not soon after 2025-11-25"),
        ({"retest": "soon"}, "retest: 'soon' is no day; allowed: a date like 2025-11-30"),
        ({"retest": "2025-02-30"}, "retest: '2025-02-30' is no day"),
        ({"made": date(9999, 12, 31)}, "retest: 2025-12-04 is not soon after 9999-12-31"),
        ({"caution": ""}, "caution: '' has signs"),
        ({"coach": "me"}, "coach: is no key of this table; allowed: made, focus, drill, shots"),
    ],
)  # fmt: skip
def test_every_limit_of_a_plan_is_told(changed: dict[str, Any], told: str) -> None:
    assert any(t.startswith(told) for t in plan_problems(**changed)), plan_problems(**changed)


def test_a_plan_at_its_limits_and_days_as_text() -> None:
    assert not plan_problems(retest=MADE + timedelta(LATEST), successes=30, focus=["a", "b"])
    assert not plan_problems(made="2025-11-25", retest="2025-12-09")


# ---- writing


def test_what_could_not_be_read_is_not_written(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    write_pack(path, pack())
    kept = path.read_bytes()
    bad = [
        replace(pack(), title="x\ny"),
        pack(member("one"), member("ONE")),
        pack(replace(member("one"), text="nonsense")),
        pack(replace(member("one"), name='a"\ntext = "')),
        pack(*[member(f"m{i}") for i in range(MOST_MEMBERS + 1)]),
        pack(*[member(f"m{i}", LEAST + "#" * 900_000) for i in range(6)]),
        pack(plan=PracticePlan.model_validate(PLAN).model_copy(update={"shots": 0})),
    ]
    for made in bad:
        with pytest.raises(PackError):
            write_pack(path, made)
    assert path.read_bytes() == kept
    assert [p.name for p in tmp_path.iterdir()] == ["a.toml"]


def test_the_largest_pack_opens_and_one_byte_more_does_not(tmp_path: Path) -> None:
    text = pack_text(pack())
    path = tmp_path / "p.toml"
    path.write_text(text + "#" * (LARGEST_PACK - len(text)), encoding="utf-8")
    assert len(read_pack(path).members) == 2
    path.write_text(text + "#" * (LARGEST_PACK - len(text) + 1), encoding="utf-8")
    with pytest.raises(PackError, match=r"^p\.toml: is too large; allowed: 5000000 bytes\.$"):
        read_pack(path)


# ---- the schema


def test_the_schema_is_that_of_the_model_and_knows_every_key() -> None:
    kept = Path(packs.__file__).with_name("pack_schema.json").read_text(encoding="utf-8")
    assert kept == packs.pack_schema_text(), "python -m levels.schema writes it anew"
    made = json.loads(kept)
    assert set(made["properties"]) == {"pack", "title", "id", "from", "plan", "member"}
    assert made["properties"]["member"]["maxItems"] == MOST_MEMBERS
    assert all("description" in p for p in made["$defs"]["PracticePlan"]["properties"].values())
    full = pack_text(pack(words="w", plan=PracticePlan.model_validate(PLAN), id="winter-1"))
    assert set(tomllib.loads(full)) == set(made["properties"])


def test_the_schema_command_writes_both(monkeypatch: pytest.MonkeyPatch) -> None:
    found = {}
    monkeypatch.setattr(schema, "replace_file", lambda path, text: found.update({path.name: text}))
    schema.write_schemas()
    assert set(found) == {"schema.json", "pack_schema.json"}
    assert found["pack_schema.json"] == packs.pack_schema_text()
