"""The ladder without a window: the row, playing it, searching it, and what is said of it."""

from dataclasses import replace
from math import degrees, isclose, radians, sin, tan

import pytest

from game.ladder.model import (
    FRESH,
    NOTED,
    STROKES,
    TAUGHT,
    TRIO,
    Best,
    Ladder,
    Played,
    asked,
    ladder_of,
    measure,
    play_rung,
    search,
    swing_to_hole,
)
from game.ladder.words import closing, compared, place_words, struck, suits, taught_words, trio_words
from physics.address import Motion, Setup
from physics.course import Lie, level_course
from physics.results import Contact
from physics.shot import play
from physics.spread import PLAYERS

CLUB = PLAYERS["club"]
SMALL = ((radians(0), radians(8)), (1.0, 1.6), (0.5,))


@pytest.fixture(scope="module")
def ladder() -> Ladder:
    return ladder_of(level_course("fairway", 8.0), Setup(), Motion())


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
    made = ladder_of(level_course("fairway", 8.0), Setup(), Motion(), count)
    balls = [r.ball for r in made.rungs]
    assert len(balls) == count
    assert balls[made.middle] == 0.0
    assert all(isclose(a, -b, abs_tol=1e-12) for a, b in zip(balls, reversed(balls), strict=True))
    assert balls == sorted(balls)
    assert made.rungs[made.middle].shaft_lean == Setup().shaft_lean


@pytest.mark.parametrize("count", [1, 6, 8, 11])
def test_other_rows_are_refused(count: int) -> None:
    with pytest.raises(ValueError, match="7 or 9"):
        ladder_of(level_course("fairway", 8.0), Setup(), Motion(), count)


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
    leans = [degrees(played[i].shot.strike.lean) for i in range(7)]
    assert leans == sorted(leans, reverse=True)  # a ball further back is met with more lean
    assert leans[0] > leans[6] + 6


def test_flights_fan_out_from_back_to_front(played: dict[int, Played]) -> None:
    """Ball 1 aside, where the edge digs and turf has its say."""
    angles = [played[i].shot.launch.angle for i in range(1, 7)]  # type: ignore[union-attr]
    assert angles == sorted(angles)
    assert degrees(angles[-1] - angles[0]) > 5
    assert played[0].shot.launch.angle < angles[-1]  # type: ignore[union-attr]


@pytest.mark.parametrize("at", [0, 3, 6])
def test_the_swing_is_made_to_reach_the_hole(ladder: Ladder, at: int) -> None:
    rung = swing_to_hole(ladder, ladder.rungs[at])
    bare = replace(ladder.course, hole=None)
    assert abs(play(bare, *asked(ladder, rung)).run.rest - 8.0) < 0.15
    assert replace(rung, swing_length=ladder.rungs[at].swing_length) == ladder.rungs[at]


def test_a_hole_out_of_reach_gets_the_longest_swing(ladder: Ladder) -> None:
    far = replace(ladder, course=level_course("fairway", 100.0))
    assert degrees(swing_to_hole(far, ladder.rungs[3]).swing_length) == pytest.approx(130)
    bare = replace(ladder, course=replace(ladder.course, hole=None))
    assert swing_to_hole(bare, ladder.rungs[3]) == ladder.rungs[3]


def test_a_search_counts_up_to_its_total_and_ends_with_a_trio(ladder: Ladder) -> None:
    steps = [*search(ladder, 6, CLUB, coarse=SMALL)]
    assert [s.done for s in steps[:-1]] == list(range(1, steps[0].total + 1))
    assert all(s.best is None for s in steps[:-1])
    assert steps[-1].best
    assert steps[-1].best.rung.ball == ladder.rungs[6].ball


def test_the_found_trio_does_as_well_as_the_players_own_on_the_strokes_it_was_chosen_by(
    ladder: Ladder, found: Best
) -> None:
    """The player's own trio, with the swing to the hole, is one of the candidates; among equals the
    nearest to it is taken, so that it never costs more than what can be told apart."""
    own = swing_to_hole(ladder, ladder.rungs[6])
    strokes = [measure(ladder, r, CLUB, 0, STROKES).mean_strokes for r in (own, found.rung)]
    assert strokes[1] <= strokes[0]
    assert found.cloud.mean_strokes == measure(ladder, found.rung, CLUB, FRESH).mean_strokes
    assert 1 <= found.alike <= found.tried


def test_among_equals_the_nearest_to_the_players_own_is_taken(ladder: Ladder) -> None:
    """Ball 4: many trios do as well, some a little better than one's own by chance; one's own stays."""
    best = [*search(ladder, 3, CLUB, coarse=SMALL)][-1].best
    assert best
    assert best.alike > 1
    own = ladder.rungs[3]
    assert [getattr(best.rung, n) for n in TRIO] == [getattr(own, n) for n in TRIO]
    others = [replace(own, shaft_lean=lean, release=free) for lean in SMALL[0] for free in SMALL[1]]
    costs = [measure(ladder, swing_to_hole(ladder, r), CLUB, 0, STROKES).mean_strokes for r in (own, *others)]
    assert costs[0] <= min(costs) + NOTED


def test_the_search_stays_within_what_is_taught(ladder: Ladder) -> None:
    """From a ball set at the very edge, steps lead along it and never beyond."""
    edge = ladder.changed(0, release=TAUGHT[1][1], follow_through=0.0, shaft_lean=TAUGHT[0][1])
    best = [*search(edge, 0, CLUB, coarse=((TAUGHT[0][1],), (TAUGHT[1][1],), (0.0,)))][-1].best
    assert best
    for name, (low, high) in zip(TRIO, TAUGHT, strict=True):
        assert low <= getattr(best.rung, name) <= high
    assert "0.6 to 1.4" in taught_words()
    assert "common practice" in taught_words()


def test_same_search_same_trio(ladder: Ladder, found: Best) -> None:
    again = [*search(ladder, 6, CLUB, coarse=SMALL)][-1].best
    assert again
    assert again.rung == found.rung


def test_the_closing_reads_its_numbers_from_what_was_played(
    ladder: Ladder, played: dict[int, Played], found: Best
) -> None:
    said = " ".join(closing(ladder, played, {6: found}))
    share = [p.cloud.solid_share for p in played.values()]
    assert f"{100 * max(share):.0f} %" in said
    assert f"{100 * min(share):.0f} %" in said
    assert f"{degrees(played[6].shot.launch.angle):.0f} degrees" in said  # type: ignore[union-attr]
    assert "nan" not in said
    assert " yd " in " ".join(closing(ladder, played, {}, yards=True))
    assert "middle ball first" in closing(ladder, {0: played[0], 1: played[1]}, {})[0]
    assert "others" in closing(ladder, {3: played[3]}, {})[0]


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
    own, best, alike = compared(played[6], found)
    assert f"{found.alike} of the {found.tried} settings" in alike or found.alike == 1
    assert own.startswith("Yours: lean")
    assert best.startswith("Found: lean")
    assert f"{100 * played[6].cloud.solid_share:.0f} % solid" in own
    assert compared(None, None) == ()


@pytest.mark.parametrize("count", [7, 9])
def test_every_place_has_its_trio_in_the_table(found: Best, count: int) -> None:
    made = ladder_of(level_course("fairway", 8.0), Setup(), Motion(), count)
    assert suits(made, {}) == ()
    table = suits(made, {0: found})
    assert len(table) == count
    assert table[0] == ("1, 9 cm back", trio_words(found.rung))
    assert table[0][1].startswith(f"lean {degrees(found.rung.shaft_lean):.0f}")
    assert all(words == "not looked for yet" for _, words in table[1:])
    assert table[made.middle][0] == f"{made.middle + 1}, the standard"
    middle = made.rungs[made.middle]
    leaning = replace(found, rung=replace(middle, shaft_lean=middle.shaft_lean + 0.1, release=0.8))
    young = suits(made, {0: leaning}, junior=True)
    assert young[0] == ("Ball 1", "more lean, less release, same swing")
    assert place_words(0.03) == "3 cm forward"


def test_the_strike_is_told_in_one_sentence(played: dict[int, Played]) -> None:
    for one in played.values():
        said = struck(one.shot)
        assert said.endswith(".")
        assert one.shot.strike.contact.value in said
    for contact in Contact:
        for lie in ("fairway", "sand", "mat"):
            shot = replace(one.shot, course=replace(one.shot.course, lie=Lie(lie)))
            said = struck(replace(shot, strike=replace(shot.strike, contact=contact)))
            assert contact.value in said.lower()
            assert lie != "sand" or not any(word in said for word in ("turf", "grass"))
