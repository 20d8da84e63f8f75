"""Why the ball ended up there: three plain causes of a shot, one of them the one that replay finds.

A scenario may bring its own question. Where it has none, the stroke is played again with each part of its
stray left out and each control out of place put back (`physics.removal`). What alone recovers most is the
cause; beside it stand two that recover nothing, or that were off the other way.
"""

from functools import lru_cache

from game.text.advice import ADDED_UP, CAUSES, TO_PLAN, Cause, cause_of
from levels.teaching import Question
from physics.address import Intention, Motion, Setup
from physics.course import Course
from physics.removal import WORTH, Origin, Removal, stroke_removals, told_cause
from physics.results import Shot
from physics.spread import Spread, Stray

__all__ = ["ask_why", "could_pass", "removals_of", "told_of"]

ASK = "Why did the ball end up there?"
KEPT = 32  # shots whose causes are kept
HALF = 0.5 * WORTH  # expected strokes that a cause recovers less than, to stand as a wrong one


@lru_cache(KEPT)
def _removals(
    course: Course, setup: Setup, motion: Motion, stray: Stray, spread: Spread, seed: int
) -> tuple[Removal, ...]:
    return stroke_removals(course, Intention(setup, motion), stray, spread, seed)


def removals_of(shot: Shot) -> tuple[Removal, ...]:
    """What each part recovers of this very stroke; kept, for it plays dozens of strokes."""
    return _removals(shot.course, shot.setup, shot.motion, shot.stray, shot.spread, shot.seed)


def told_of(removals: tuple[Removal, ...]) -> Cause:
    """The cause: what alone recovers most; else all that strayed together; else nothing of the stroke."""
    *single, whole = removals
    if best := told_cause(single):
        return cause_of(best.origin, best.component, best.was - best.back)
    return ADDED_UP if whole.gain >= WORTH else TO_PLAN


def could_pass(cause: Cause, removals: tuple[Removal, ...]) -> bool:
    """Whether there is something in this cause, or in one that means much the same, by replay."""
    *single, whole = removals
    if cause is ADDED_UP:
        return whole.gain >= HALF
    if cause is TO_PLAN:
        return whole.gain < HALF
    for r in single:
        true = cause_of(r.origin, r.component, r.was - r.back)
        if r.gain >= HALF and (true is cause or (true.effect, true.sense) == (cause.effect, cause.sense)):
            return True
    return False


def ask_why(shot: Shot) -> Question:
    """The question about this shot, its three causes in an order that the shot's seed mixes: the right one,
    the opposite of it or of another, and one from elsewhere."""
    removals = removals_of(shot)
    right = told_of(removals)
    wrong = [c for c in CAUSES if not could_pass(c, removals)]
    turn = shot.seed % len(wrong)
    wrong = [*wrong[turn:], *wrong[:turn]]
    opposite = [c for c in wrong if (c.effect, c.sense) == (right.effect, -right.sense) and right.effect]
    swing = sorted((c for c in wrong if c.effect == "length"), key=lambda c: c.origin is not Origin.SET)
    first = next(iter((*opposite, *swing, *wrong)))
    second = next(c for c in (*(swing if right.effect != "length" else ()), *wrong)
                  if c.effect not in (first.effect, right.effect))  # fmt: skip
    chosen = [right, first, second]
    place = shot.seed % 3
    chosen = [*chosen[place:], *chosen[:place]]
    return Question(ask=ASK, choices=tuple(c.words for c in chosen), right=chosen.index(right) + 1)
