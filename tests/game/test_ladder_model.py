"""The ladder without a window: the row, playing it, searching it, and what is said of it."""

from dataclasses import replace
from math import degrees, isclose, radians, sin, tan

import pytest

from game.commands.options import level_course
from game.ladder_model import (
    FRESH,
    STROKES,
    Best,
    Ladder,
    Played,
    asked,
    closing,
    compared,
    measure,
    play_rung,
    row,
    search,
    swing_to_hole,
)
from physics.address import Motion, Setup
from physics.shot import play
from physics.spread import PLAYERS

CLUB = PLAYERS["club"]
SMALL = ((radians(0), radians(8)), (1.0, 1.6), (0.5,))


@pytest.fixture(scope="module")
def ladder() -> Ladder:
    return row(level_course("fairway", 8.0), Setup(), Motion())


@pytest.fixture(scope="module")
def played(ladder: Ladder) -> dict[int, Played]:
    return {i: play_rung(ladder, i, CLUB) for i in range(7)}


@pytest.fixture(scope="module")
def found(ladder: Ladder) -> Best:
    last = [*search(ladder, 6, CLUB, coarse=SMALL)][-1]
    assert last.best
    return last.best


@pytest.mark.parametrize("count", [7, 9])
def test_the_row_is_even_and_the_middle_ball_is_the_standard(count: int) -> None:
    made = row(level_course("fairway", 8.0), Setup(), Motion(), count)
    balls = [r.ball for r in made.rungs]
    assert len(balls) == count
    assert balls[made.middle] == 0.0
    assert all(isclose(a, -b, abs_tol=1e-12) for a, b in zip(balls, reversed(balls), strict=True))
    assert balls == sorted(balls)
    assert made.rungs[made.middle].shaft_lean == Setup().shaft_lean


@pytest.mark.parametrize("count", [1, 6, 8, 11])
def test_other_rows_are_refused(count: int) -> None:
    with pytest.raises(ValueError, match="7 or 9"):
        row(level_course("fairway", 8.0), Setup(), Motion(), count)


def test_the_hands_stay_where_the_middle_ball_has_them(ladder: Ladder) -> None:
    """Ball place plus lean over the grip's height is one point, within the difference of tangents."""
    club = ladder.setup.club
    tall = club.length * sin(club.lie)
    hands = [r.ball + tall * tan(r.shaft_lean) for r in ladder.rungs]
    assert max(hands) - min(hands) < 0.003
    assert ladder.levelled().rungs[0].shaft_lean == ladder.rungs[3].shaft_lean
    assert ladder.levelled().hands_kept() == ladder


def test_only_the_balls_own_things_differ(ladder: Ladder) -> None:
    changed = ladder.changed(0, release=1.7, lean_change=radians(4))
    setup, motion = asked(changed, changed.rungs[0])
    assert (motion.release, motion.lean_change) == (1.7, radians(4))
    assert replace(setup, ball_position=Setup().ball_position, shaft_lean=Setup().shaft_lean) == Setup()
    assert changed.rungs[1:] == ladder.rungs[1:]


def test_a_ball_is_played_as_physics_plays_it(ladder: Ladder, played: dict[int, Played]) -> None:
    setup, motion = asked(ladder, ladder.rungs[1])
    assert played[1].shot == play(ladder.course, setup, motion)
    assert degrees(played[0].shot.strike.lean) > degrees(played[6].shot.strike.lean) + 10


def test_flights_fan_out_from_back_to_front(played: dict[int, Played]) -> None:
    angles = [played[i].shot.launch.angle for i in range(7)]  # type: ignore[union-attr]
    assert angles == sorted(angles)
    assert degrees(angles[-1] - angles[0]) > 5


@pytest.mark.parametrize("at", [0, 3, 6])
def test_the_swing_is_made_to_reach_the_hole(ladder: Ladder, at: int) -> None:
    rung = swing_to_hole(ladder, ladder.rungs[at])
    bare = replace(ladder.course, hole=None)
    assert abs(play(bare, *asked(ladder, rung)).run.rest - 8.0) < 0.15
    assert replace(rung, swing_length=ladder.rungs[at].swing_length) == ladder.rungs[at]


def test_a_hole_out_of_reach_gets_the_longest_swing(ladder: Ladder) -> None:
    far = replace(ladder, course=level_course("fairway", 100.0))
    assert degrees(swing_to_hole(far, ladder.rungs[3]).swing_length) == pytest.approx(110)
    bare = replace(ladder, course=replace(ladder.course, hole=None))
    assert swing_to_hole(bare, ladder.rungs[3]) == ladder.rungs[3]


def test_a_search_counts_up_to_its_total_and_ends_with_a_trio(ladder: Ladder) -> None:
    steps = [*search(ladder, 6, CLUB, coarse=SMALL)]
    assert [s.done for s in steps[:-1]] == list(range(1, steps[0].total + 1))
    assert all(s.best is None for s in steps[:-1])
    assert steps[-1].best
    assert steps[-1].best.rung.ball == ladder.rungs[6].ball


def test_the_found_trio_beats_the_players_own_on_the_strokes_it_was_chosen_by(
    ladder: Ladder, found: Best
) -> None:
    """The player's own trio, with the swing to the hole, is one of the candidates."""
    own = swing_to_hole(ladder, ladder.rungs[6])
    strokes = [measure(ladder, r, CLUB, 0, STROKES).mean_strokes for r in (own, found.rung)]
    assert strokes[1] <= strokes[0]
    assert found.cloud.mean_strokes == measure(ladder, found.rung, CLUB, FRESH).mean_strokes


def test_same_search_same_trio(ladder: Ladder, found: Best) -> None:
    again = [*search(ladder, 6, CLUB, coarse=SMALL)][-1].best
    assert again
    assert again.rung == found.rung


def test_the_closing_reads_its_numbers_from_what_was_played(
    ladder: Ladder, played: dict[int, Played], found: Best
) -> None:
    said = " ".join(closing(ladder, played, {6: found}))
    share = [p.cloud.playable_share for p in played.values()]
    assert f"{100 * max(share):.0f} %" in said
    assert f"{100 * min(share):.0f} %" in said
    assert f"{degrees(played[6].shot.launch.angle):.0f} degrees" in said  # type: ignore[union-attr]
    assert "nan" not in said
    assert " yd " in " ".join(closing(ladder, played, {}, yards=True))
    assert closing(ladder, {3: played[3]}, {}) == closing(ladder, {}, {})


def test_juniors_read_short_sentences_without_measures(
    ladder: Ladder, played: dict[int, Played], found: Best
) -> None:
    said = (*closing(ladder, played, {0: replace(found, rung=ladder.rungs[0]), 6: found}, junior=True),
            *compared(played[6], found, junior=True))  # fmt: skip
    assert len(said) >= 3
    for sentence in said:
        assert len(sentence.split()) <= 12
        assert "%" not in sentence
        assert "\N{DEGREE SIGN}" not in sentence


def test_own_and_found_stand_beside_each_other(played: dict[int, Played], found: Best) -> None:
    own, best = compared(played[6], found)
    assert own.startswith("Yours: lean")
    assert best.startswith("Found: lean")
    assert f"{100 * played[6].cloud.playable_share:.0f} % playable" in own
    assert compared(None, None) == ()
