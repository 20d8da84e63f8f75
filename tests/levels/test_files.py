"""Files: exact round trips, every problem told with its line, hostile bytes, whole-or-nothing writing."""

import os
import random
import tomllib
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hostile import LEAST, places_in
from hypothesis import given, settings
from hypothesis import strategies as st
from legal_scenarios import scenarios

from levels import files
from levels.files import (
    ScenarioError,
    library,
    load_library,
    parse_scenario,
    read_scenario,
    scenario_text,
    write_scenario,
)
from levels.locate import line_of, lines_of
from levels.reading import LARGEST_SCENARIO
from levels.scenario import Scenario
from tests.work_done import counted

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))
SIGNS = [b'"', b"[", b"]", b"{", b"}", b"=", b".", b"\n", b"#", b"'''", b"-", b"9e999"]


def told_of(path: Path) -> list[str]:
    """The problems of a file, none for a sound one."""
    try:
        read_scenario(path)
    except ScenarioError as error:
        return str(error).split("\n")
    return []


def problems(text: str) -> tuple[str, ...]:
    with pytest.raises(ScenarioError) as caught:
        parse_scenario(text, "f.toml")
    return caught.value.problems


@settings(max_examples=100, deadline=None)
@given(scenarios())
def test_file_to_model_to_file_is_exact(made: Scenario) -> None:
    text = scenario_text(made)
    again = parse_scenario(text)
    assert again == made
    assert scenario_text(again) == text


def test_written_file_reads_back(tmp_path: Path) -> None:
    for name in library():
        made = load_library(name)
        write_scenario(tmp_path / "a.toml", made)
        assert read_scenario(tmp_path / "a.toml") == made


def test_the_library_is_that_of_harrow_fen() -> None:
    known = {"harrow-fen-over-the-bunker", "harrow-fen-plain-chip", "harrow-fen-quick-and-down"}
    assert known < set(library())
    assert all(name.startswith("harrow-fen-") for name in library())
    kinds = {name: {h.kind for h in load_library(name).hazards} for name in library()}
    assert "lip" in kinds["harrow-fen-over-the-bunker"]
    assert "water" in kinds["harrow-fen-quick-and-down"]
    bunker = load_library("harrow-fen-over-the-bunker").ground
    assert min(p.y_m for p in bunker if p.surface == "sand") < -0.5
    with pytest.raises(ScenarioError, match="harrow-fen-plain-chip"):
        load_library("../schema")


@pytest.mark.parametrize("path", CASES, ids=lambda p: p.stem)
def test_every_problem_is_told_in_one_sentence(path: Path) -> None:
    """Beside each case lies what must be told of it: one line a problem, nothing for a sound file."""
    expected = path.with_suffix(".txt").read_text(encoding="utf-8").splitlines()
    told = told_of(path)
    assert told == expected
    assert all(t.startswith(path.name) and t.endswith(".") for t in told)
    assert all("allowed: " in t or "is not TOML: " in t for t in told)


def test_there_are_cases() -> None:
    assert len(CASES) >= 35


def test_windows_newlines_and_byte_order_mark(tmp_path: Path) -> None:
    made = load_library("harrow-fen-plain-chip")
    raw = scenario_text(made).replace("\n", "\r\n").encode("utf-8-sig")
    (tmp_path / "w.toml").write_bytes(raw)
    assert read_scenario(tmp_path / "w.toml") == made


def test_not_utf_8(tmp_path: Path) -> None:
    (tmp_path / "l.toml").write_bytes(b"format = 1\ntitle = 'caf\xe9'\n")
    with pytest.raises(ScenarioError, match=r"^l\.toml, line 2: is not UTF-8 text; allowed: UTF-8 only\.$"):
        read_scenario(tmp_path / "l.toml")


def test_too_large(tmp_path: Path) -> None:
    path = tmp_path / "big.toml"
    path.write_text(LEAST + "#" * (LARGEST_SCENARIO - len(LEAST)), encoding="utf-8")
    assert read_scenario(path).title == "Least"
    path.write_text(LEAST + "#" * (LARGEST_SCENARIO - len(LEAST) + 1), encoding="utf-8")
    with pytest.raises(ScenarioError, match="too large"):
        read_scenario(path)
    assert problems(LEAST + "#" * LARGEST_SCENARIO)[0].startswith("f.toml: is too large")


def test_missing_file_and_folder(tmp_path: Path) -> None:
    for path in (tmp_path / "none.toml", tmp_path):
        with pytest.raises(ScenarioError, match=r"cannot be read: .+\.$"):
            read_scenario(path)


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 50_000,
        "a = " + "{a=" * 50_000,
        "a." * 100_000 + "a = 1",
        "[" + "'a' . " * 100_000 + "a]",
        "a = " + "9" * 5_000,
        LEAST + "a = " + "[1," * 150 + "1" + "]" * 150,
        LEAST + "wind_m_per_s = " + "9" * 4_000,
        "format = " + "9" * 4_000,
        LEAST + "hazards = [" + "0," * 200_000 + "]",
        LEAST + "".join(f"k{i} = 1\n" for i in range(20_000)),
        LEAST + '"' + "a\\n" * 100_000 + '" = 1',
        LEAST + "clubs = [" + "{}," * 50_000 + "]",
        "x = \"\"\"" + "\\\n" * 200_000,
        "\x00",
    ],
    ids=range(14),
)  # fmt: skip
def test_hostile_texts_are_refused_with_bounded_work(text: str) -> None:
    with counted() as calls:
        told = problems(text)
    assert calls[0] < 10_000_000  # half a second's worth where this was written
    assert all(len(t) < 600 for t in told)


def _bytes_changed(raw: bytes, chance: random.Random) -> bytes:
    work = bytearray(raw)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(work))
        match chance.randrange(5):
            case 0:
                work[at] = chance.randrange(256)
            case 1:
                del work[at : at + chance.randint(1, 40)]
            case 2:
                work[at:at] = chance.choice(SIGNS)
            case 3:
                other = chance.randrange(len(work))
                work[at:at] = work[other : other + chance.randint(1, 60)]
            case _:
                work[at : at + 1] = bytes([work[at] ^ (1 << chance.randrange(8))])
    return bytes(work)


ODD: list[Any] = [
    True, -1, 0, 10**30, 1e308, -0.0, float("nan"), float("inf"), "", "green", "SW", "\u202e\u0000", [], {},
    [[]], [{}], {"kind": "water"}, [1.0] * 600, {"x_m": 3}, "x" * 5000,
]  # fmt: skip


def _structure_changed(data: Any, chance: random.Random) -> Any:
    """One value somewhere in the tree replaced, dropped, repeated or renamed."""
    places = list(places_in(data))
    node, key = chance.choice(places)
    action = chance.randrange(4)
    if action == 1:
        del node[key]
    elif action == 2 and isinstance(node, dict):
        node[chance.choice(["x_m", "kind", "new.key", "surface", ""])] = node.pop(key)
    elif action == 3 and isinstance(node, list):
        node.insert(key, node[chance.randrange(len(node))])
    else:
        node[key] = deepcopy(chance.choice(ODD))
    return data


@pytest.mark.parametrize("seed", range(10))
def test_two_thousand_mutated_files_open_or_are_refused(seed: int, tmp_path: Path) -> None:
    """200 a seed: changed bytes and changed structure. A file that opens must also round-trip."""
    chance = random.Random(seed)
    path, most, opened = tmp_path / "m.toml", 0, 0
    for i in range(200):
        raw = scenario_text(load_library(chance.choice(library()))).encode()
        if i % 2:
            data = tomllib.loads(raw.decode())
            for _ in range(chance.randint(1, 3)):
                data = _structure_changed(data, chance)
            raw = tomli_w.dumps(data).encode("utf-8", "surrogatepass")
        else:
            raw = _bytes_changed(raw, chance)
        path.write_bytes(raw)
        with counted() as calls:
            told = told_of(path)
        most = max(most, calls[0])
        assert all(t.startswith("m.toml") and t.endswith(".") for t in told)
        if not told:
            opened += 1
            made = read_scenario(path)
            assert parse_scenario(scenario_text(made)) == made
    assert most < 200_000  # calls
    assert 0 < opened < 200, "mutations should neither all break nor all pass"


class DiskError(OSError):
    """The disk refuses."""


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failed_write_leaves_the_old_file(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.toml"
    old, new = load_library("harrow-fen-plain-chip"), load_library("harrow-fen-over-the-bunker")
    write_scenario(path, old)

    def refuse(*_: object) -> None:
        raise DiskError

    monkeypatch.setattr(files.os, step, refuse)
    with pytest.raises(DiskError):
        write_scenario(path, new)
    assert read_scenario(path) == old
    assert os.listdir(tmp_path) == ["a.toml"]


def test_a_scenario_that_could_not_be_read_is_not_written(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    made = load_library("harrow-fen-plain-chip")
    write_scenario(path, made)
    with pytest.raises(ScenarioError, match="firmness"):
        write_scenario(path, made.model_copy(update={"firmness": 9.0}))
    assert read_scenario(path) == made


def test_rights_and_links_survive(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    made = load_library("harrow-fen-plain-chip")
    write_scenario(real, made)
    real.chmod(0o640)
    link.symlink_to(real)
    write_scenario(link, made)
    assert link.is_symlink()
    assert real.stat().st_mode & 0o777 == 0o640


@settings(max_examples=60, deadline=None)
@given(scenarios())
def test_every_key_of_a_written_file_is_found_on_its_line(made: Scenario) -> None:
    text = scenario_text(made)
    rows, found = text.split("\n"), lines_of(text)

    def walk(node: Any, loc: Any) -> None:
        if loc:
            row = rows[found[loc] - 1]
            assert loc[-1] in row if isinstance(loc[-1], str) else row.strip()
        for key in node if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ():
            walk(node[key], (*loc, key))

    walk(tomllib.loads(text), ())


names = st.from_regex(r"[a-z0-9_-]{1,6}", fullmatch=True) | st.text(st.characters(codec="utf-8"), max_size=5)
leaves = st.integers(-9, 9) | st.booleans() | st.floats() | st.text(st.characters(codec="utf-8"), max_size=9)
trees = st.recursive(
    leaves, lambda t: st.lists(t, max_size=3) | st.dictionaries(names, t, max_size=3), max_leaves=12
)


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(names, trees, max_size=4), st.booleans())
def test_the_locator_knows_every_path_of_any_toml(data: dict[str, Any], multiline: bool) -> None:
    text = tomli_w.dumps(data, multiline_strings=multiline)
    read, found = tomllib.loads(text), lines_of(text)
    seen = []

    def walk(node: Any, loc: Any) -> None:
        seen.append(loc)
        for key in node if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ():
            walk(node[key], (*loc, key))

    walk(read, ())
    assert set(found) == set(seen[1:])


def test_the_locator_on_every_way_to_write_a_key() -> None:
    text = (
        "# a = 1\n"  # 1
        "a.b = 1 # c = 2\n"  # 2
        '"q \\"x" = [ # [\n'  # 3
        '  "]", # ]\n'  # 4
        "  { k = '}', l = [\n1, 2 ] },\n"  # 5, 6
        "]\n"  # 7
        'm = """\n'  # 8
        'n = 1""""\n'  # 9
        "o = 1979-05-27 07:32:00\n"  # 10
        "[[t]]\n"  # 11
        "p = 1\n"  # 12
        "[t.u]\n"  # 13
        "v = 1\n"  # 14
        "[[ t ]]\n"  # 15
        "p . w = 1\n"  # 16
        "  [[t.x]]\n"  # 17
        "y = '''it''s'''\n"  # 18
        "z = 1"  # 19
    )
    tomllib.loads(text)
    found = lines_of(text)
    assert found == {
        ("a",): 2, ("a", "b"): 2, ('q "x',): 3, ('q "x', 0): 4, ('q "x', 1): 5, ('q "x', 1, "k"): 5,
        ('q "x', 1, "l"): 5, ('q "x', 1, "l", 0): 6, ('q "x', 1, "l", 1): 6, ("m",): 8, ("o",): 10,
        ("t",): 11, ("t", 0): 11, ("t", 0, "p"): 12, ("t", 0, "u"): 13, ("t", 0, "u", "v"): 14,
        ("t", 1): 15, ("t", 1, "p"): 16, ("t", 1, "p", "w"): 16, ("t", 1, "x"): 17, ("t", 1, "x", 0): 17,
        ("t", 1, "x", 0, "y"): 18, ("t", 1, "x", 0, "z"): 19,
    }  # fmt: skip
    assert line_of(found, ("t", 1, "missing")) == 15
    assert line_of(found, ("missing",)) is None
