"""The recap in words: what set two strokes apart, five lines of a table, one focus, one drill, one date.

Every number is the Shots' own or a counted share. A junior's sentences carry none.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from math import isnan, radians
from typing import Protocol

from game.text.lesson import did_words, stop_words, turf_did
from game.text.quantity import NONE, angle_words, percent
from game.text.units import METRIC, UnitSystem
from levels.lessons import LessonCase, Share
from physics.cause import ground_of, lean_match
from physics.results import Contact, Shot
from physics.spread import EXACT

__all__ = [
    "LATEST_RETEST",
    "Apart",
    "Readers",
    "Recap",
    "RecapSide",
    "date_words",
    "recap_apart",
    "recap_cause",
    "recap_counted",
    "recap_drill",
    "recap_focus",
    "recap_plan",
    "recap_retest",
    "recap_rows",
    "recap_title",
    "side_did",
    "side_names",
]  # fmt: skip

LATEST_RETEST = 14  # days: what is told is kept longest when it is asked for within two weeks (Selic 2011)
TRIES, PASS_MARK = 10, 8  # of a line drill, common practice
TELLS = radians(2.0)  # lean or bounce that is worth a sentence, assumed
EARLY = 0.03  # m of ground more before the ball that is worth a sentence, assumed
BLANK = "_" * 24  # to be filled in by hand


class Apart(StrEnum):
    """What sets the second stroke apart from the first at the ball."""

    MISSED = "missed"
    FORWARD = "handle further forward"
    PASSED = "head past the hands"
    LESS_BOUNCE = "less bounce"
    MORE_BOUNCE = "more bounce"
    EARLIER = "ground met earlier"
    LITTLE = "little"


@dataclass(frozen=True)
class RecapSide:
    """One of the two strokes, and how many of the player's own of that set-up are solid; None: uncounted."""

    shot: Shot
    solid: Share | None = None


@dataclass(frozen=True)
class Recap:
    """All that a recap page tells. `when` completes "If ..."; empty leaves it to be filled in by hand."""

    first: RecapSide
    second: RecapSide
    day: date
    pupil: str = ""
    title: str = ""  # empty: said from what sets the strokes apart
    when: str = ""
    retest_days: int = LATEST_RETEST
    junior: bool = False
    units: UnitSystem = METRIC

    @property
    def sides(self) -> tuple[RecapSide, RecapSide]:
        return self.first, self.second

    @property
    def retest(self) -> date:
        return self.day + timedelta(days=self.retest_days)


def recap_apart(a: Shot, b: Shot) -> Apart:
    """What sets b apart from a: the lean at impact before the bounce, for lean takes its bounce with it."""
    if Contact.MISSED in (a.strike.contact, b.strike.contact):
        return Apart.MISSED
    leaned = b.strike.lean - a.strike.lean
    if abs(leaned) >= TELLS:
        return Apart.FORWARD if leaned > 0.0 else Apart.PASSED
    lost = a.strike.bounce - b.strike.bounce
    if abs(lost) >= TELLS:
        return Apart.LESS_BOUNCE if lost > 0.0 else Apart.MORE_BOUNCE
    return Apart.EARLIER if b.strike.lead - a.strike.lead >= EARLY else Apart.LITTLE


# ---- words


TITLES = {
    Apart.MISSED: "The ball was missed",
    Apart.FORWARD: "Why excess lean digs",
    Apart.PASSED: "Head past the hands too early",
    Apart.LESS_BOUNCE: "Bounce saves you",
    Apart.MORE_BOUNCE: "More bounce at impact",
    Apart.EARLIER: "The ground came first",
    Apart.LITTLE: "Two strokes side by side",
}
LEANS = "Why the handle should come back as set"  # where the extra lean did not dig
JUNIOR_DUG = "The handle came back too far forward, so the edge dug."
JUNIOR_CAUSE = {
    Apart.MISSED: "The club did not meet the ball.",
    Apart.FORWARD: "The handle came back too far forward.",
    Apart.PASSED: "The club passed your hands too soon.",
    Apart.LESS_BOUNCE: "The sole had less bounce to slide on.",
    Apart.MORE_BOUNCE: "The sole had more bounce to slide on.",
    Apart.EARLIER: "The club met the ground too soon.",
    Apart.LITTLE: "Both clubs met the ball nearly the same way.",
}
FOCUS = {  # what the player sees outside himself, not a part of the body; (player, junior)
    Apart.MISSED: ("Brush the ground where the ball lies.",) * 2,
    Apart.FORWARD: ("Bring the handle back to where you set it, no further.",
                    "Bring the handle back to where it began."),
    Apart.PASSED: ("Let the handle lead the club head past the ball.", "Let the handle go first."),
    Apart.LESS_BOUNCE: ("Take the club whose sole slides on this ground.", "Take the club that slides."),
    Apart.MORE_BOUNCE: ("Take the sole that suits this ground, then let it brush.",
                        "Let the sole brush the ground."),
    Apart.EARLIER: ("Brush the ground where the ball lies, not before it.",
                    "Brush the ground where the ball lies."),
    Apart.LITTLE: ("Set up as in the first column, each time the same.", "Set up the same each time."),
}  # fmt: skip


def recap_title(recap: Recap) -> str:
    """The page's title."""
    apart = recap_apart(recap.first.shot, recap.second.shot)
    if recap.title:
        return recap.title
    shots = recap.first.shot, recap.second.shot
    return LEANS if apart is Apart.FORWARD and not _dug_for_it(*shots) else TITLES[apart]


def recap_cause(recap: Recap) -> str:
    """One sentence: what was different at the ball, and what the sole did for it."""
    a, b = recap.first.shot, recap.second.shot
    apart, did = recap_apart(a, b), turf_did(b)
    if recap.junior:
        dug = apart is Apart.FORWARD and _dug_for_it(a, b)
        return JUNIOR_DUG if dug else JUNIOR_CAUSE[apart]
    if apart is Apart.MISSED:
        first = a.strike.contact is Contact.MISSED
        return f"The {'first' if first else 'second'} stroke missed the ball: {turf_did(a if first else b)}."
    if apart is Apart.EARLIER:
        ground, units = ground_of(b.course), recap.units
        early, late = (units.small(shot.strike.lead) for shot in (b, a))
        return f"The second stroke met the {ground} {early} before the ball, the first {late}: {did}."
    if apart is Apart.LITTLE:
        return f"At the ball lean and bounce agree within {angle_words(TELLS)}; with the second stroke {did}."
    lean, loft, bounce = (
        angle_words(abs(getattr(b.strike, what) - getattr(a.strike, what)))
        for what in ("lean", "loft", "bounce")
    )
    if apart is Apart.FORWARD:
        took = f"which took {loft} of loft and {bounce} of bounce"
        return f"The handle came back {lean} further forward, {took}: {did}."
    if apart is Apart.PASSED:
        gave = f"{loft} more loft and {bounce} more bounce"
        return f"The head passed the hands, with {lean} less lean, {gave}: {did}."
    return (
        f"The sole had {bounce} {'less' if apart is Apart.LESS_BOUNCE else 'more'} bounce at impact: {did}."
    )


def _dug_for_it(a: Shot, b: Shot) -> bool:
    """Whether the edge of the second dug and spoilt the stroke, where that of the first did not."""
    return _case(b).digs and not b.strike.solid and not _case(a).digs


def _case(shot: Shot) -> LessonCase:
    return LessonCase("", shot.setup, shot.motion, shot)


def side_names(recap: Recap) -> tuple[str, str]:
    """Heads of the two columns. The first is called matched only when its lean came back as set."""
    matched = lean_match(recap.first.shot) in ("matched", "close")
    return ("Matched" if matched else "First"), "Tried"


class Readers(Protocol):
    """For whom it is told."""

    @property
    def junior(self) -> bool: ...
    @property
    def units(self) -> UnitSystem: ...


def side_did(told: Readers, side: RecapSide) -> str:
    """What came of the stroke: turf, strike, and where the ball ends."""
    did = did_words(_case(side.shot), not told.junior)
    where = "" if side.shot.strike.contact is Contact.MISSED or told.junior else (
        f"; it {stop_words(side.shot, told.units)}"
    )  # fmt: skip
    return f"{did[:1].upper()}{did[1:]}{where}."


def recap_rows(recap: Recap) -> tuple[tuple[str, str, str], ...]:
    """Label and both values of the five lines, from the strikes themselves."""
    strikes = [side.shot.strike for side in recap.sides]
    ground = ground_of(recap.first.shot.course)
    rows = (
        ("Loft at impact", *(_angle(s.loft) for s in strikes)),
        ("Bounce at impact", *(_angle(s.bounce) for s in strikes)),
        (f"First {ground} before the ball", *(_before(recap.units, s.lead, s.loft) for s in strikes)),
        ("Head speed lost before the ball", *(percent(s.head_loss) for s in strikes)),
        ("Solid, of 100", *(str(s.solid.of_100) if s.solid else NONE for s in recap.sides)),
    )
    return tuple((label, first, second) for label, first, second in rows)


def _angle(angle: float) -> str:
    return NONE if isnan(angle) else angle_words(angle)


def _before(units: UnitSystem, lead: float, loft: float) -> str:
    """Ground touched before the ball; NONE where the ball was missed."""
    return NONE if isnan(loft) else units.small(lead)


def recap_counted(recap: Recap) -> str:
    """Whose strokes the last line counts."""
    shares = [side.solid for side in recap.sides]
    spread = recap.first.shot.spread
    if None in shares or spread == EXACT or recap.junior:
        return ""
    strokes = min(share.strokes for share in shares if share)
    error = max(100.0 * share.error for share in shares if share)
    return f"Solid: {strokes} modelled strokes of the {spread.label} each, standard error up to {error:.1f}."


def recap_focus(recap: Recap) -> str:
    """The one thing to attend to."""
    return FOCUS[recap_apart(recap.first.shot, recap.second.shot)][recap.junior]


def recap_drill(recap: Recap) -> str:
    """One drill for real swings with its pass mark (common practice)."""
    ground = ground_of(recap.first.shot.course)
    ground = "grass" if ground == "turf" and recap.junior else ground
    mark = "Lay a string across the mat" if ground == "mat" else f"Draw a line across the {ground}"
    if recap.junior:
        return f"{mark}. Brush the {ground} on the line. Pass: {PASS_MARK} of {TRIES}."
    return (
        f"{mark} and brush the {ground} at the line or just ahead of it, {TRIES} times without a ball. "
        f"Pass: {PASS_MARK} of {TRIES}."
    )


def recap_plan(recap: Recap) -> str:
    """When it is done, as an if-then line."""
    when = recap.when or BLANK
    done = "I do this drill" if recap.junior else "I do this drill and write down my count"
    return f"If {when}, then {done}: ____ of {TRIES}."


def recap_retest(recap: Recap) -> str:
    """By when it is asked again."""
    again = "" if recap.junior else ", then both strokes on the bench"
    return f"By {date_words(recap.retest)}: the drill again{again}."


def date_words(day: date) -> str:
    """`26 November 2026`."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
