"""A shot as text and back: exact, resolid, and one clear sentence for anything else."""

import json
import random
from contextlib import suppress
from dataclasses import fields, is_dataclass, replace
from enum import StrEnum
from math import inf, nan
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levels.files import library, load_library
from levels.shotfile import SHOT_FORMAT, ShotFileError, shot_from_json, shot_to_json
from physics.course import Ground
from physics.results import Phase, Shot
from physics.shot import play
from physics.spread import PLAYERS

SAMPLES = 3  # length of every made-up trace


def made_up(draw: st.DrawFn, hint: Any, number: st.SearchStrategy[float]) -> Any:
    """Some value of the type `hint`, whatever fields it has, with numbers from `number`."""
    if isinstance(hint, UnionType):
        return made_up(draw, draw(st.sampled_from(get_args(hint))), number)
    if hint is Ground:
        return Ground((-1.5, 0.1, 9.0), (0.0, draw(st.floats(-1, 1)), 0.3), ("rough", "green"))
    if is_dataclass(hint):
        hints = get_type_hints(hint)
        values = {f.name: made_up(draw, hints[f.name], number) for f in fields(hint)}
        if "phase" in values:
            values["phase"] = "".join(draw(st.sampled_from(Phase)) for _ in range(SAMPLES))
        return hint(**values)  # type: ignore[operator]
    if get_origin(hint) is tuple:
        args = get_args(hint)
        hints = (args[0],) * SAMPLES if args[-1] is Ellipsis else args
        return tuple(made_up(draw, h, number) for h in hints)
    if hint is NoneType:
        return None
    if issubclass(hint, StrEnum):
        return draw(st.sampled_from(hint))
    simple = {float: number, int: st.integers(-9, 9), bool: st.booleans(), str: st.text(max_size=5)}
    return draw(simple[hint])


@st.composite
def shots(draw: st.DrawFn, number: st.SearchStrategy[float]) -> Shot:
    shot: Shot = made_up(draw, Shot, number)
    return shot


finite = st.floats(allow_nan=False, allow_infinity=False)


@settings(max_examples=40, deadline=None)
@given(shots(finite))
def test_any_shot_comes_back_exactly(shot: Shot) -> None:
    again = shot_from_json(shot_to_json(shot))
    assert again == shot
    assert repr(again) == repr(shot)  # tells -0.0 from 0.0, and an enum from its text
    assert again.course.name == shot.course.name  # not compared by Course


@settings(max_examples=20, deadline=None)
@given(shots(finite | st.just(nan)))
def test_nan_is_null(shot: Shot) -> None:
    text = shot_to_json(shot)
    json.loads(text, parse_constant=pytest.fail)
    again = shot_from_json(text)
    assert shot_to_json(again) == text
    assert repr(again) == repr(shot)


@pytest.fixture(scope="module", params=library())
def played(request: pytest.FixtureRequest) -> Shot:
    made = load_library(request.param)
    return play(made.course(), made.setup(), made.motion(), PLAYERS[made.player], seed=7)


def test_a_played_shot_is_stored_and_replayed(played: Shot) -> None:
    text = shot_to_json(played)
    again = shot_from_json(text)
    assert shot_to_json(again) == text
    anew = play(again.course, again.setup, again.motion, again.spread, again.seed)
    assert shot_to_json(anew) == text


@pytest.fixture(scope="module")
def text() -> str:
    """A played shot; its traces cut to keep the tests of bad input quick."""
    made = load_library("harrow-fen-plain-chip")
    shot = play(made.course(), made.setup(), made.motion())

    def cut(trace: Any) -> Any:
        hints, changes = get_type_hints(type(trace)), {}
        for name, hint in hints.items():
            value = getattr(trace, name)
            if name == "phase" or get_args(hint)[1:] == (Ellipsis,):
                changes[name] = value[:4]
            elif get_origin(hint) is tuple:  # a pair of traces
                changes[name] = tuple(row[:4] for row in value)
        return replace(trace, **changes)

    strike = replace(shot.strike, sole=cut(shot.strike.sole))
    return shot_to_json(replace(shot, swing=cut(shot.swing), run=cut(shot.run), strike=strike))


def test_a_shot_of_format_1_is_read(text: str) -> None:
    """Its cut is read from the way of the edge, and nothing was met as far as it tells."""
    data = json.loads(text)
    data["format"] = 1
    del data["shot"]["strike"]["edge_depth"], data["shot"]["run"]["knocks"]
    old = shot_from_json(json.dumps(data))
    assert old.strike.edge_depth == 0.0
    assert old.run.knocks == ()
    data["shot"]["strike"]["turf"] = "dig"
    data["shot"]["strike"]["sole"]["edge"][1] = [0.01, -0.002, -0.006, 0.0]
    assert shot_from_json(json.dumps(data)).strike.edge_depth == 0.006
    data["shot"]["strike"] = {}
    with pytest.raises(ShotFileError, match="is not what format 1 holds"):
        shot_from_json(json.dumps(data))


def changed(text: str, path: str, value: Any) -> str:
    data = json.loads(text)
    node = data
    *way, last = [int(p) if p.isdigit() else p for p in path.split(".")]
    for part in way:
        node = node[part]
    node[last] = value
    return json.dumps(data)


@pytest.mark.parametrize(
    ("path", "value", "told"),
    [
        ("format", SHOT_FORMAT + 1, f"and this program reads 1 to {SHOT_FORMAT}"),
        ("format", "1", "has format '1'"),
        ("format", True, "has format True"),
        ("other", 1, "with format and shot, and nothing else"),
        ("shot", [], "shot must be an object with exactly course, setup"),
        ("shot.seed", 1.5, "shot.seed must be of type int"),
        ("shot.seed", None, "shot.seed must be of type int"),
        ("shot.extra", 1, "shot must be an object with exactly"),
        ("shot.course.wind", "3", "shot.course.wind must be a number or null"),
        ("shot.course.wind", True, "shot.course.wind must be a number or null"),
        ("shot.course.wind", 10**400, "shot.course.wind is too large a number"),
        ("shot.course.hazards", [{"is": "Lake"}], r"shot.course.hazards\[0\].is must be one of Water, Wall"),
        ("shot.course.hazards", [3], r"shot.course.hazards\[0\].is must be one of"),
        ("shot.course.hazards", [{"is": []}], r"shot.course.hazards\[0\].is must be one of"),
        ("shot.course.ground.surfaces.0", "lava", "surfaces out of green, .*, not 'lava'"),
        ("shot.course.ground.x.1", -99, "x growing"),
        ("shot.course.ground.x.1", None, "x growing"),
        ("shot.course.ground.y", [0.0], "a surface between every two"),
        ("shot.strike.contact", "chunky", "shot.strike.contact must be one of missed, solid, fat"),
        ("shot.strike.contact", 1, "shot.strike.contact must be one of missed, solid, fat"),
        ("shot.swing.hub", [[1.0]], "shot.swing.hub must have 2 items, not 1"),
        ("shot.swing.t", [1.0], "shot.swing must have traces of one length"),
        ("shot.run.x", [], "shot.run must have traces of one length"),
        ("shot.run.x", "abc", "shot.run.x must be a list"),
        ("shot.run.phase", "zzzz", "phase written in the letters f b s r c"),
        ("shot.strike.sole.pressure.0", [1.0], "as many pressures in every row"),
        ("shot.strike.sole.lean", [1.0], "shot.strike.sole must have traces of one length"),
        ("shot.launch", 5, "shot.launch must be an object"),
    ],
)
def test_bad_values_are_told_in_one_sentence(text: str, path: str, value: Any, told: str) -> None:
    with pytest.raises(ShotFileError, match=told) as caught:
        shot_from_json(changed(text, path, value))
    assert str(caught.value).endswith(".")
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "bad",
    ["", "{", "[]", "null", "[" * 100_000, '{"format": 1, "shot": NaN}', '{"format": 1, "shot": -Infinity}',
     "1" * 5000, '{"format": ' + "1" * 4000 + ', "shot": 1}'],
    ids=range(9),
)  # fmt: skip
def test_texts_that_hold_no_shot(bad: str) -> None:
    with pytest.raises(ShotFileError) as caught:
        shot_from_json(bad)
    assert len(str(caught.value)) < 200


def test_a_shot_without_a_launch(text: str) -> None:
    missed = replace(shot_from_json(text), launch=None)
    assert shot_from_json(shot_to_json(missed)).launch is None


@pytest.mark.parametrize("number", [inf, -inf])
def test_no_infinite_number_is_written(text: str, number: float) -> None:
    shot = shot_from_json(text)
    with pytest.raises(ShotFileError, match=r"^shot\.run\.apex is infinite"):
        shot_to_json(replace(shot, run=replace(shot.run, apex=number)))


def test_cut_and_changed_texts_open_or_are_refused(text: str) -> None:
    chance = random.Random(1)
    opened = 0
    for _ in range(300):
        work = list(text)
        for _ in range(chance.randint(1, 3)):
            at = chance.randrange(len(work))
            work[at] = chance.choice('0123456789.-eE"[]{},:nul ')
        cut = len(work) if chance.random() < 0.8 else chance.randrange(len(work))
        with suppress(ShotFileError):
            shot_from_json("".join(work[:cut]))
            opened += 1
    assert 0 < opened < 300
