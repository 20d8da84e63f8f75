"""Every word about a shot is held against the shot's numbers: sentences, labels, verdicts and captions.

What is told is read back from the text alone. What stands on the course is checked by playing the same
stroke without it.
"""

import os
import re
from dataclasses import replace
from math import degrees, exp, hypot, isnan, nan

import numpy as np
import pytest

from game.draw import turf
from game.shot_view.leans import lean_words
from game.sound.cues import score
from game.text.mark import TurfKind, turf_mark_words
from game.text.story import explain
from game.text.units import METRIC, YARDS
from game.text.verdict import goal_clause, stop_sentence
from levels.scoring import GoalMark, Verdict, strike_name
from physics.cause import CLOSE, MATCHED, ground_of, lean_match
from physics.course import Hole, Lip, Tree, Wall
from physics.face import open_face
from physics.head import EDGE_ELEMENTS
from physics.results import Contact, Meeting, Outcome, Shot, TurfAction
from physics.shot import play
from physics.surfaces import SAND, SURFACES
from tests.conftest import SEARCHING
from tests.game.text.any_shot import any_shot

COUNT = int(os.environ.get("FRINGEWORK_SHOTS", 10_000 if SEARCHING else 330))
BLOCK = 30  # shots held at a time: a recorded shot takes up to a megabyte
AGAIN = 6  # of a block that are played again without what stands on the course
ROUND = 0.5 + 1e-6  # of the last digit told
MINUS = "\N{MINUS SIGN}"
NUMBER = rf"({MINUS}?\d+(?:\.\d+)?)"
BAD = re.compile(  # what no sentence may hold: grammar, and numbers that are none
    rf"nan|inf\b|None|(?<![\w)])-\d|{MINUS}0(?:\.0+)?(?![.\d])|(?<![.\d])1 degrees\b|\b0\.0 |,,|\s\s|\s[,.]"
    r"|,\.|\.,|\.\.|\ba (?:thin|fat|solid)\b|\band and\b|, so .* and, "
)


def number(text: str) -> float:
    return float(text.replace(MINUS, "-"))


def told(pattern: str, text: str) -> float | None:
    """The number that the pattern's first group found; None where it is not told."""
    found = re.search(pattern, text)
    return number(found[1]) if found else None


def holds(pattern: str, text: str, value: float, scale: float, places: int) -> None:
    """The number of the pattern is told, and is the value."""
    said = told(pattern, text)
    assert said is not None, (pattern, text)
    assert said == pytest.approx(value * scale, abs=ROUND * 10.0**-places), (pattern, text)


@pytest.fixture(scope="module", params=range(max(COUNT // BLOCK, 1)))
def shots(request: pytest.FixtureRequest) -> tuple[Shot, ...]:
    """A block of the shots, every surface, played once for all tests; the same in every run."""
    return tuple(any_shot(i) for i in range(BLOCK * request.param, BLOCK * (request.param + 1)))


def test_the_shots_cover_what_can_happen() -> None:
    """These few of them, found by looking, hold every ground, contact, mark, ending and thing met."""
    few = [any_shot(i) for i in (0, 6, 11, 14, 38, 44, 62, 93, 97, 137)]
    assert {ground_of(s.course) for s in few} == {"turf", "sand", "mat"}
    assert {s.strike.contact for s in few} == set(Contact)
    assert {s.strike.turf for s in few} == set(TurfAction)
    assert {s.run.outcome for s in few} == set(Outcome) - {Outcome.LOST}
    assert {k.what for s in few for k in s.run.knocks} >= {
        "wall",
        "lip",
        "trunk",
        "branch",
        "leaves",
        "stick",
    }


# ---- the strike in sentences


def test_the_player_is_told_what_the_strike_was(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        for yards in (False, True):
            text = " ".join(explain(shot, yards))
            assert not BAD.search(text), (BAD.search(text), text)
            lean_is_told(shot, text)
            ground_is_told(shot, text, yards)
            ball_is_told(shot, text, yards)


def lean_is_told(shot: Shot, text: str) -> None:
    if isnan(shot.strike.lean):
        assert "came back" not in text.split(" It ")[0]
        return
    change = degrees(shot.strike.lean - shot.setup.shaft_lean)
    matched, near = "the shaft came back where it was set", "the shaft came back nearly where it was set"
    assert (matched in text.lower()) == (abs(change) <= MATCHED), text
    assert (near in text.lower()) == (MATCHED < abs(change) <= CLOSE), text
    ways = "further forward|less forward|further behind"
    back = re.search(rf"handle came back {NUMBER} degrees? ({ways})", text)
    if back:
        assert number(back[1]) == pytest.approx(abs(change), abs=ROUND)
        behind = "less forward" if shot.strike.lean >= 0.0 else "further behind"
        assert back[2] == ("further forward" if change > 0.0 else behind)
    brought = re.search(rf"motion brought the handle {NUMBER} degrees? (forward of|behind)", text)
    if brought:
        own = degrees(shot.swing.by_motion - shot.swing.promised)
        assert number(brought[1]) == pytest.approx(abs(own), abs=ROUND)
        assert brought[2] == ("forward of" if own > 0.0 else "behind")
    bounce_is_told(shot, text)


def bounce_is_told(shot: Shot, text: str) -> None:
    setup, k = shot.setup, shot.strike
    opened = degrees(open_face(setup.club, setup.face_open).bounce)
    said = re.search(rf"bounce (fell|rose) from {NUMBER} to {NUMBER} degree", text)
    set_bounce = opened - degrees(setup.shaft_lean)
    if said:
        assert number(said[2]) == pytest.approx(set_bounce, abs=ROUND)
        assert number(said[3]) == pytest.approx(degrees(k.bounce), abs=ROUND)
        assert (said[1] == "fell") == (degrees(k.bounce) < set_bounce)
        added = told(rf"opening the face had added {NUMBER}", text)
        if degrees(setup.face_open) > 5.0 and opened - degrees(setup.club.bounce) > 2.0:
            assert added is not None, text
        if added is not None:
            assert added == pytest.approx(opened - degrees(setup.club.bounce), abs=ROUND)
        face = re.search(rf"the face (gave|took) {NUMBER}", text)
        by_face = degrees(k.bounce + k.lean) - opened
        assert bool(face) == (abs(by_face) >= 2.0), text
        if face:
            assert number(face[2]) * (1 if face[1] == "gave" else -1) == pytest.approx(by_face, abs=ROUND)
    else:
        assert abs(degrees(k.bounce) - set_bounce) <= CLOSE


def ground_is_told(shot: Shot, text: str, yards: bool) -> None:
    k, ground = shot.strike, ground_of(shot.course)
    strike = text.split(" It ")[0]
    scale, places, unit = (39.3701, 2, "in") if yards else (1e3, 0, "mm")
    length = rf"{NUMBER} {unit}"
    wrong = {"turf": "sand|mat", "sand": "turf|grass|mat", "mat": "turf|grass|sand|ground"}[ground]
    assert not re.search(rf"\b({wrong})\b", strike), strike

    assert ("never touched" in strike) == (k.turf is TurfAction.NONE)
    assert ("dug" in strike) == (k.turf is TurfAction.DIG and k.contact is not Contact.SPLASHED)
    if "dug" in strike:
        assert k.edge_depth >= 1.5e-3
        assert ground != "mat"
        assert k.edge_depth <= -min(k.sole.edge[1]) + 5e-4  # no deeper than the edge went
        said = told(rf"dug in {length}", strike)
        assert said is not None
        coarse = places if k.edge_depth * scale < 0.995 or not yards else 1
        assert said == pytest.approx(k.edge_depth * scale, abs=ROUND * 10.0**-coarse)
    if re.search(r"[Tt]he sole (brushed|skidded|slid)", strike):
        assert k.bounce > 0.0
        assert max(max(row[EDGE_ELEMENTS:]) for row in k.sole.pressure) > 0.0
        assert ("brushed" in strike) == (k.turf is TurfAction.BRUSH)
    before = told(rf"{length} before the ball", strike)
    assert (before is not None) == (
        k.lead > 5e-3 and k.turf is not TurfAction.NONE and k.contact is not Contact.MISSED
    ), strike
    if before is not None:
        coarse = 1 if yards and k.lead * scale >= 0.995 else places
        assert before == pytest.approx(k.lead * scale, abs=ROUND * 10.0**-coarse)
    if "after the ball" in strike:
        assert k.lead == 0.0
        assert min(k.divot[1]) < -3e-4
    assert ("stuck" in strike) == (shot.run.outcome is Outcome.STUCK)
    took = told(rf"took {NUMBER} % of the speed", strike)
    if took is not None:
        assert took == pytest.approx(100 * (1 - k.speed_at_ball / k.speed_before), abs=ROUND)


def ball_is_told(shot: Shot, text: str, yards: bool) -> None:
    k, strike = shot.strike, text.split(" It ")[0]
    said = {
        "met the ball cleanly": Contact.SOLID, "came off solid": Contact.SOLID, "hit fat": Contact.FAT,
        "carried the ball": Contact.SPLASHED, "missed the ball": Contact.MISSED,
    }  # fmt: skip
    for words, contact in said.items():
        if words in strike:
            assert k.contact is contact, strike
    if "cleanly" in strike:
        assert k.lead <= 5e-3
        assert k.speed_at_ball > 0.97 * k.speed_before
        assert k.met is Meeting.FACE
        assert k.cushion < 1e-3
    kept = told(rf"about {NUMBER} % of its distance", strike)
    if kept is not None:
        assert kept == pytest.approx(100 * exp(k.struck_gap), abs=ROUND)
    if k.contact is Contact.FAT:
        assert "hit fat" in strike
    if "never touched" in strike and "of the speed" in strike:
        assert ground_of(shot.course) == "turf"
        assert "the grass took" in strike
    if "sand sent the ball too far" in strike:
        assert ground_of(shot.course) == "sand"
        assert k.struck_gap > 0.0
    if re.search("weak|hot", strike):
        assert k.met is Meeting.FACE
        assert ("weak" in strike) == (k.struck_gap < 0.0)
    if "leading edge caught" in strike:
        assert k.met in (Meeting.EDGE, Meeting.EDGE_ABOVE)
        assert ("above its middle" in strike) == (k.met is Meeting.EDGE_ABOVE)


# ---- the run in sentences


def test_the_player_is_told_where_the_ball_went(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        for yards in (False, True):
            sentences = explain(shot, yards)
            if shot.launch is None:
                assert not any(s.startswith("It ") for s in sentences)
                continue
            run_is_told(shot, sentences[-1], yards)


def run_is_told(shot: Shot, text: str, yards: bool) -> None:
    run, hole = shot.run, shot.course.hole
    scale, unit = (1 / 0.9144, "yd") if yards else (1.0, "m")
    angle = told(rf"left at {NUMBER} degree", text)
    if angle is not None:
        assert shot.launch is not None
        assert angle == pytest.approx(degrees(shot.launch.angle), abs=ROUND)
    else:
        assert "driven along the ground" in text
        assert "landed" not in text
    if f"{unit} out" in text and "landed" in text and run.carry > 0.05:
        holds(rf"landed {NUMBER} {unit} out", text, run.carry, scale, 1)
    for pattern, value in (
        (rf"rolled {NUMBER} {unit}", run.rest - run.carry),
        (rf"(?:spun|came) back {NUMBER} {unit}", run.carry - run.rest),
        (rf"stopped {NUMBER} {unit} out", run.rest), (rf"stopped {NUMBER} {unit} behind", -run.rest),
    ):  # fmt: skip
        if told(pattern, text) is not None:
            holds(pattern, text, value, scale, 1)
    if "spun back" in text:
        assert not set(k.what for k in run.knocks) - {"rim", "cup"}
        assert max(run.spin) > 0.0
    assert ("into the water" in text) == (run.outcome is Outcome.WATER)
    assert ("out of bounds" in text) == (run.outcome is Outcome.OUT)
    assert ("into the hole" in text) == (run.outcome is Outcome.HOLED)
    assert ("still moving" in text) == (run.outcome is Outcome.LOST)
    if run.outcome is Outcome.REST:
        assert ("in the sand" in text) or not sandy(shot, run.rest)
        if hole:
            past = told(rf"{NUMBER} {unit} past the hole", text)
            short = told(rf"{NUMBER} {unit} short of the hole", text)
            if abs(run.rest - hole.x) >= 0.05:
                assert (past if run.rest > hole.x else short) == pytest.approx(
                    abs(run.rest - hole.x) * scale, abs=ROUND / 10
                )
            else:
                assert "beside the hole" in text


def sandy(shot: Shot, x: float) -> bool:
    g = shot.course.ground
    i = int(np.clip(np.searchsorted(g.x, x, "right") - 1, 0, len(g.surfaces) - 1))
    return SURFACES[g.surfaces[i]].kind == SAND


WORDS = {Wall: "hit the wall", Lip: "caught the lip", Tree: "hit the trunk|hit a branch|through the leaves"}


def path(shot: Shot) -> tuple[float, ...]:
    return (shot.run.rest, shot.run.t[-1])


def turned_by_scenery(shot: Shot) -> bool:
    """Whether the ball was turned in the air, at no ground and no hole: read from its way alone."""
    run, hole = shot.run, shot.course.hole
    for i in range(1, len(run.phase)):
        if run.phase[i] != "c" or run.phase[i - 1] != "c" or (hole and abs(run.x[i] - hole.x) < 0.3):
            continue
        fallen = 9.80665 * (run.t[i] - run.t[i - 1])
        turned = hypot(run.vx[i] - run.vx[i - 1], run.vy[i] - run.vy[i - 1] + fallen)
        high = run.y[i] - float(np.interp(run.x[i], shot.course.ground.x, shot.course.ground.y))
        if turned > 0.5 and high > 0.1:
            return True
    return False


def again(shot: Shot, **changes: object) -> Shot:
    course = replace(shot.course, **changes)  # type: ignore[arg-type]
    return play(course, shot.setup, shot.motion, shot.spread, shot.seed)


def test_what_turned_the_ball_is_told_and_nothing_else(shots: tuple[Shot, ...]) -> None:
    """Told only where the way without it is another; and told wherever the ball turned in the air."""
    seen = 0
    for shot in shots:
        if shot.launch is None:
            continue
        text = explain(shot)[-1]
        for kind, words in WORDS.items():
            there = [h for h in shot.course.hazards if isinstance(h, kind)]
            if there and seen < AGAIN:
                seen += 1
                left = tuple(h for h in shot.course.hazards if not isinstance(h, kind))
                bare = path(again(shot, hazards=left))
                said = bool(re.search(words, text))
                assert not said or bare != path(shot), text
            elif not there:
                assert not re.search(words, text), text
        assert not turned_by_scenery(shot) or re.search("|".join(WORDS.values()), text), text
        hole = shot.course.hole
        if hole and hole.flagstick and "flagstick" in text:
            bare = again(shot, hole=Hole(hole.x, False))
            assert path(bare) != path(shot), text
        if not hole or not hole.flagstick:
            assert "flagstick" not in text


# ---- the junior


def test_the_junior_is_told_the_same_without_numbers(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        sentences = explain(shot, junior=True)
        text, k, run = " ".join(sentences), shot.strike, shot.run
        assert not re.search(r"\d", text)
        assert not BAD.search(text)
        for part in re.split(r"(?<=[.!])\s", text):
            assert len(part.split()) <= 12, part
        ground = ground_of(shot.course)
        assert not re.search("belly", text)
        if "dug" in text:
            assert k.turf is TurfAction.DIG
            assert ground != "mat"
        if "The sole" in text:
            assert k.bounce > 0.0
            assert ("sole brushed" in text) == (k.turf is TurfAction.BRUSH)
        if "Good strike" in text:
            assert k.contact is Contact.SOLID
            assert ground == "sand" or k.lead <= 25e-3
            assert ground == "sand" or k.lead <= 5e-3 or k.speed_at_ball > 0.97 * k.speed_before
            assert lean_match(shot) in ("matched", "close") or "handle" not in text
        if "too far forward" in text:
            assert degrees(k.lean - shot.setup.shaft_lean) > CLOSE
        if "too soon" in text and "hands" in text:
            assert degrees(k.lean - shot.setup.shaft_lean) < -CLOSE
        if "first." in text and "dug" in text:
            assert k.lead > 0.0
        if re.search("met the (ground|mat) too soon", text):
            assert k.lead > 0.0
        if "Ball first" in text:
            assert k.lead == 0.0
        strike = re.split("The ball (?:hit|caught|went|stopped|never)", text)[0]
        if ground == "mat":
            assert not re.search(r"\b(grass|turf|sand|ground)\b", strike), strike
        if ground == "sand":
            assert not re.search(r"\b(grass|turf|mat)\b", strike), strike
        assert ("water" in text) == (run.outcome is Outcome.WATER)
        assert ("out of bounds" in text) == (run.outcome is Outcome.OUT)
        assert ("into the hole" in text) == (run.outcome is Outcome.HOLED)
        if shot.launch and run.outcome is Outcome.REST and sandy(shot, run.rest):
            assert "in the sand" in text
        if "close to the hole" in text:
            assert shot.course.hole is not None
            assert hypot(run.rest - shot.course.hole.x, shot.lateral) < 0.75


# ---- labels


def test_labels_say_what_the_sentences_say(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        k, ground = shot.strike, ground_of(shot.course)
        for mark in turf.marks(shot):
            words = turf_mark_words(mark)
            assert not BAD.search(words), words
            if mark.kind is TurfKind.DIVOT:
                assert k.turf is TurfAction.DIG
                assert mark.depth == k.edge_depth
            if mark.kind in (TurfKind.DIVOT, TurfKind.BRUSH, TurfKind.SKID):
                assert ground == "turf"
            if mark.kind is TurfKind.BRUSH:
                assert k.turf is TurfAction.BRUSH
            if mark.kind is TurfKind.SKID:
                assert k.turf is TurfAction.SKID
        angles = turf.angles_at_ball(shot)
        assert bool(angles) == (k.contact is not Contact.MISSED)
        if angles:
            holds(rf"bounce {NUMBER}", angles, degrees(k.bounce), 1.0, 0)
            holds(rf"loft {NUMBER}", angles, degrees(k.loft), 1.0, 0)


def test_the_picture_of_the_leans_has_the_thresholds_of_the_sentences(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        promised, delivered = shot.swing.promised, shot.swing.delivered
        off = abs(degrees(delivered - promised))
        for numbers in (True, False):
            words = " ".join(lean_words(promised, delivered, numbers))
            assert ("matched" in words) == (off <= MATCHED)
            assert ("nearly" in words) == (MATCHED < off <= CLOSE)
            assert numbers or not re.search(r"\d", words)


# ---- verdicts


def test_verdicts_say_what_happened(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        k, run, hole = shot.strike, shot.run, shot.course.hole
        if hole is None:
            continue
        leave = hypot(run.rest - hole.x, shot.lateral)
        off = k.lean - shot.setup.shaft_lean
        for units in (METRIC, YARDS):
            verdict = verdict_of(shot, leave)
            said = [stop_sentence(verdict, units)]
            for kind, value in (("match_deg", off), ("strike", k.depth), ("leave_m", leave)):
                said.append(goal_clause(GoalMark(kind, True, value), verdict, units))
            text = " ".join(said)
            assert not BAD.search(text), text
            assert ("water" in text) == (run.outcome is Outcome.WATER)
            if "past it" in text or "short of it" in text:
                assert ("past it" in text) == (run.rest > hole.x), text
            elif run.outcome is Outcome.REST:
                assert abs(shot.lateral) > abs(run.rest - hole.x), text
            back = re.search(rf"came back {NUMBER} degrees? (forward of|behind)", text)
            if not isnan(off):
                size = abs(degrees(off))
                assert ("came back where it was set" in text) == (size <= MATCHED), text
                assert ("nearly where it was set" in text) == (MATCHED < size <= CLOSE), text
                assert bool(back) == (size > CLOSE), text
                if back:
                    assert number(back[1]) == pytest.approx(size, abs=ROUND)
                    assert (back[2] == "forward of") == (off > 0.0)


def verdict_of(shot: Shot, leave: float) -> Verdict:
    made = {name: None for name in Verdict.__dataclass_fields__}
    known = {"struck": strike_name(shot), "outcome": shot.run.outcome, "leave": leave}
    known["past"] = shot.run.rest - shot.course.hole.x if shot.course.hole else nan
    return Verdict(**{**made, **known})  # type: ignore[arg-type]


# ---- sounds


def test_captions_of_sounds_are_true(shots: tuple[Shot, ...]) -> None:
    for shot in shots:
        k, ground = shot.strike, ground_of(shot.course)
        cues = score(shot)
        kinds = {knock.what for knock in shot.run.knocks}
        for cue in cues:
            text = cue.caption
            assert not BAD.search(text), text
            if "dug" in text:
                assert k.turf is TurfAction.DIG
                assert k.edge_depth >= 1.5e-3
            if "sole" in text:
                assert k.bounce > 0.0
                assert k.turf in (TurfAction.BRUSH, TurfAction.SKID)
            if "before the ball" in text:
                assert k.lead > 0.0
            if "after the ball" in text or "ball first" in text:
                assert k.lead == 0.0
            if "mat" in text.split() or "the mat" in text:
                assert ground == "mat" or "landed" in text
            if "burst of sand" in text:
                assert ground == "sand"
            if "leading edge met" in text:
                assert k.met in (Meeting.EDGE, Meeting.EDGE_ABOVE)
            for word, needed in (
                ("the wall", {"wall"}), ("flagstick", {"stick"}), ("the tree", {"trunk", "branch"}),
                ("the lip", {"lip"}), ("leaves", {"leaves"}),
            ):  # fmt: skip
                assert word not in text or kinds & needed, text
        all_said = " ".join(c.caption for c in cues)
        assert ("in the water" in all_said) == (shot.run.outcome is Outcome.WATER)
        assert ("is in the hole" in all_said) == (shot.run.outcome is Outcome.HOLED)
