"""Cause and effect in words, and repairs that repair."""

import re
from dataclasses import replace
from math import degrees, exp, isnan, radians

import pytest

from game.text.story import explain, tell
from physics.address import Motion, Setup
from physics.cause import lean_match
from physics.course import Course, Ground, Hole, Lie, OutOfBounds, Water
from physics.results import Contact, Outcome, Shot
from physics.shot import play, replay
from physics.spread import EXACT, PLAYERS, draw_strays
from physics.surfaces import SURFACES

GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))
COURSE = Course(GROUND, hole=Hole(7.0))
PLACES = {"hands", "sole", "edge", "turf", "ball", "face", "flight", "landing", "roll", "hole", ""}


def strayed(
    course: Course = COURSE, motion: Motion | None = None, up: float = 0.0, lean_deg: float = 0.0
) -> Shot:
    stray = draw_strays(EXACT, 0, 1)[0]
    stray[2], stray[3] = up, radians(lean_deg)
    return replay(course, Setup(), motion or Motion(), EXACT, 0, stray)


BLAST = Motion(swing_length=radians(100), depth=0.018)
SAND = Course(GROUND, lie=Lie("sand"), hole=Hole(7.0))
SPLASH, HEAVY = strayed(SAND, BLAST), strayed(SAND, BLAST, up=-0.02)
BEGINNERS = [play(COURSE, Setup(), Motion(radians(35)), PLAYERS["beginner"], seed) for seed in range(60)]
WET = strayed(Course(GROUND, hole=Hole(7.0), hazards=(Water(3.0, 5.0, 0.02),)))
GONE = strayed(Course(GROUND, hazards=(OutOfBounds(4.0),)))
SHOTS = [
    *BEGINNERS,
    *(strayed(up=u) for u in (0.0, 0.018, 0.038, 0.07, -0.012)),
    WET, GONE,
    strayed(Course(GROUND, lie=Lie("soft")), Motion(lean_change=radians(12), depth=0.01)),
    strayed(up=-0.014),
    SPLASH, HEAVY,
]  # fmt: skip


def test_shots_tried_here_cover_every_contact_and_several_endings() -> None:
    assert {s.strike.contact for s in SHOTS} == set(Contact)
    assert {Outcome.REST, Outcome.WATER, Outcome.OUT, Outcome.MISSED} <= {s.run.outcome for s in SHOTS}


@pytest.mark.parametrize("yards", [False, True])
@pytest.mark.parametrize("junior", [False, True])
def test_every_shot_is_told_in_whole_sentences_about_places_of_the_picture(yards: bool, junior: bool) -> None:
    for shot in SHOTS:
        sentences = tell(shot, yards, junior)
        assert 1 <= len(sentences) <= 3
        for sentence, text in zip(sentences, explain(shot, yards, junior), strict=True):
            assert {p.place for p in sentence} <= PLACES
            assert text == "".join(p.text for p in sentence)
            assert text[0].isupper()
            assert text[-1] in ".!"
            assert not re.search(r"nan|inf|-\d|\u22120\b(?!\.)|\bdeg\b|,,|\s\s|\s[,.]|,\.|\.,", text), text


def test_junior_sentences_are_short_and_free_of_numbers() -> None:
    for shot in SHOTS:
        for sentence in explain(shot, junior=True):
            for part in re.split(r"(?<=[.!])\s", sentence):
                assert len(part.split()) <= 12
            assert not re.search(r"\d", sentence)


def test_numbers_are_those_of_the_shot() -> None:
    shot = strayed(Course(GROUND, hole=Hole(11.0)), Motion(depth=0.006), lean_deg=9.0)
    k, run, text = shot.strike, shot.run, " ".join(explain(shot))
    assert f"{degrees(k.lean - shot.setup.shaft_lean):.0f} degrees further forward" in text
    assert f"bounce fell from 5 to {degrees(k.bounce):.0f} degrees".replace("-", "\u2212") in text
    assert f"{k.low * 1e3:.0f} mm low" in text
    assert f"the turf took {100 * (1 - k.speed_at_ball / k.speed_before):.0f} % of the speed" in text
    assert f"landed {run.carry:.1f} m out" in text
    assert f"{abs(run.rest - 11.0):.1f} m {'past' if run.rest > 11.0 else 'short of'} the hole." in text


def test_yards_are_yards() -> None:
    shot = strayed()
    assert f"landed {shot.run.carry / 0.9144:.1f} yd out" in explain(shot, yards=True)[1]
    assert " m " not in explain(shot, yards=True)[1]


def test_matched_chip_is_told_without_blame() -> None:
    text = explain(strayed())[0]
    assert "came back where it was set" in text
    assert "the ball came off solid" in text
    assert "turf took" not in text


@pytest.mark.parametrize(
    ("up", "words"),
    [(0.018, "below its middle"), (0.038, "above its middle"), (0.07, "ground or the ball")],
)
def test_heights_have_their_words(up: float, words: str) -> None:
    text = explain(strayed(up=up))[0]
    assert words in text
    assert "mm high" in text


def test_sand_that_carries_the_ball_is_told_as_sand() -> None:
    assert SPLASH.strike.contact is Contact.SPLASHED
    said, young = " ".join(explain(SPLASH)), " ".join(explain(SPLASH, junior=True))
    assert "the sand carried the ball" in said
    assert f"the sand took {100 * SPLASH.strike.head_loss:.0f} % of the speed" in said
    assert "Good splash." in young
    for shot in (SPLASH, HEAVY):
        for text in (*explain(shot), *explain(shot, junior=True)):
            assert not re.search("turf|grass", text)


def test_fat_is_said_of_what_the_ball_got() -> None:
    """Not of what the head lost: a solid strike through much sand or turf is no fat one."""
    for shot in SHOTS:
        told = "hit fat" in " ".join(explain(shot))
        assert told == (shot.strike.contact is Contact.FAT)
        if told:
            share = f"about {100 * exp(shot.strike.struck_gap):.0f} % of its distance"
            assert share in " ".join(explain(shot))
    assert SPLASH.strike.head_loss > 0.3


def test_a_second_touch_is_told_once() -> None:
    twice = [s for s in SHOTS if s.strike.contact is Contact.TWICE]
    assert twice
    for shot in twice:
        assert " ".join(explain(shot)).count("twice") == 1
        assert "twice" in " ".join(explain(shot, junior=True))


def test_endings_have_their_words() -> None:
    assert explain(WET)[-1].endswith("into the water.")
    assert explain(GONE)[-1].endswith("out of bounds.")
    rest = strayed(Course(GROUND)).run.rest
    holed = strayed(Course(GROUND, hole=Hole(rest - 0.1, False)))
    assert explain(holed)[-1].endswith("into the hole.")
    assert explain(holed, junior=True)[-1] == "The ball went into the hole!"
    assert explain(strayed(Course(GROUND)))[-1].endswith("m.")


@pytest.mark.parametrize(
    ("lean_deg", "match"),
    [(0.0, "matched"), (2.0, "close"), (-2.0, "close"), (4.5, "apart"), (9.0, "fighting itself")],
)
def test_lean_match_is_the_coachs_check(lean_deg: float, match: str) -> None:
    """Common practice: within one degree matched, three close, beyond six a set-up that fights itself."""
    swing = strayed().swing
    own = degrees(swing.by_motion - swing.promised)  # what the motion brings without straying
    shot = strayed(up=0.004, lean_deg=lean_deg - own)
    assert degrees(shot.strike.lean - shot.setup.shaft_lean) == pytest.approx(lean_deg, abs=0.3)
    assert lean_match(shot) == match


def test_a_missed_ball_has_no_lean_to_match() -> None:
    shot = strayed(up=0.07)
    assert isnan(shot.strike.lean)
    assert lean_match(shot) == "not met"


# ---- the lean by the motion, and what was added


def told(setup: Setup | None = None, motion: Motion | None = None) -> str:
    return " ".join(explain(play(COURSE, setup or Setup(), motion or Motion())))


@pytest.mark.parametrize(
    ("setup", "motion"),
    [
        (Setup(), Motion(release=1.6)),
        (Setup(), Motion(release=0.7, follow_through=1.0)),
        (Setup(ball_position=0.06), Motion()),
        (Setup(shaft_lean=radians(13)), Motion()),
    ],
)
def test_a_motion_that_does_not_bring_the_lean_that_was_set_is_named(setup: Setup, motion: Motion) -> None:
    shot = play(COURSE, setup, motion)
    off = degrees(shot.swing.by_motion - shot.swing.promised)
    assert abs(off) > 3.0
    way = "forward of" if off > 0 else "behind"
    said = told(setup, motion)
    assert f"motion brought the handle {abs(off):.0f} degrees {way} where it was set (release" in said
    assert "habit" not in said


def test_what_the_player_added_is_told_apart_from_the_motion() -> None:
    motion = Motion(release=1.6, lean_change=radians(9))
    shot = play(COURSE, Setup(), motion)
    off = abs(degrees(shot.swing.by_motion - shot.swing.promised))
    said = told(motion=motion)
    assert f"motion brought the handle {off:.0f} degrees behind" in said
    assert "habit added 9 degrees forward" in said
    assert "motion brought" not in told(motion=Motion(lean_change=radians(9)))


def test_what_came_by_chance_is_told_apart_too() -> None:
    for off, much in ((-4.0, "4 degrees"), (-1.2, "1 degree")):
        text = explain(strayed(motion=Motion(release=1.6), lean_deg=off))[0]
        assert f"chance added {much} back" in text
    assert "chance" not in explain(strayed(motion=Motion(release=1.6), lean_deg=-0.9))[0]


def test_habit_that_makes_up_for_the_motion_brings_the_shaft_back_where_it_was_set() -> None:
    shot = play(COURSE, Setup(), Motion(release=1.6))
    motion = Motion(release=1.6, lean_change=shot.swing.promised - shot.swing.by_motion)
    assert "so the shaft came back where it was set" in told(motion=motion)


def test_a_junior_hears_whether_it_is_the_swing() -> None:
    swing = explain(play(COURSE, Setup(), Motion(release=0.4, follow_through=1.0)), junior=True)[0]
    added = explain(play(COURSE, Setup(), Motion(lean_change=radians(9))), junior=True)[0]
    assert swing == "Your swing brings the handle too far forward."
    assert added == "The handle came back too far forward."


# ---- sand

PLAIN = Motion(depth=SURFACES["sand"].usual_depth)


def test_fat_and_thin_from_sand_say_how_much_sand() -> None:
    fat, thin = strayed(SAND, PLAIN, up=-0.008), strayed(SAND, PLAIN, up=0.016)
    assert fat.strike.contact is Contact.FAT
    assert thin.strike.contact in (Contact.THIN, Contact.TOPPED)
    assert "mm deeper than usual in sand" in " ".join(explain(fat))
    assert "mm higher than usual in sand" in " ".join(explain(thin))
    assert "hit fat" in " ".join(explain(fat))


@pytest.mark.parametrize("lie", sorted(SURFACES))
def test_a_plain_stroke_from_any_lie_is_not_blamed_for_its_height(lie: str) -> None:
    course = Course(GROUND, hole=Hole(7.0), lie=Lie(lie))
    said = " ".join(explain(play(course, Setup(), Motion(depth=SURFACES[lie].usual_depth))))
    assert "came in" not in said


def strike_as(shot: Shot, contact: Contact) -> Shot:
    """The same shot with another name of the strike."""
    return replace(shot, strike=replace(shot.strike, contact=contact))


def test_the_name_of_a_strike_decides_its_words() -> None:
    """Much speed lost with the ball still solid is not told as fat."""
    shot = strayed(motion=Motion(depth=0.0065))
    assert shot.strike.head_loss > 0.1
    assert shot.strike.contact is Contact.SOLID
    assert "still came off solid" in " ".join(explain(shot))
    assert "hit fat" in " ".join(explain(strike_as(shot, Contact.FAT)))
    assert "met the ball twice" in " ".join(explain(strike_as(shot, Contact.TWICE)))
