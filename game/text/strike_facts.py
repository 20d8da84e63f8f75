"""What may be said of a strike: what marked the ground and when, and whether the face met the ball cleanly.

Sentences, captions and tests ask here, so that no two of them tell the same strike apart.
"""

from math import degrees

from physics.cause import CLOSE, MATCHED
from physics.results import Contact, Meeting, Shot, Strike, TurfAction

__all__ = [
    "AT_BALL", "HEARD", "after_ball", "before_ball", "came_early", "lean_change", "return_of", "sole_bore",
    "struck_cleanly",
]  # fmt: skip

HEARD = 0.03  # share of the head speed that is worth a word, assumed
AT_BALL = 5.0e-3  # m of ground before the ball that a golfer does not feel, assumed
BETWEEN = 0.5e-3  # m of earth or sand between face and ball that takes the grip, as in physics.strike
EARLY = 25.0e-3  # m of ground before the ball that a golfer calls early, assumed: over a ball's radius
AFTER = 1.0e-3  # m of mark that cannot have been made unnoticed before the ball, as TOUCH in physics.strike


def before_ball(strike: Strike) -> bool:
    """Whether the ground was met so far before the ball that it is worth a word."""
    return strike.met is not Meeting.NONE and strike.lead > AT_BALL


def came_early(strike: Strike) -> bool:
    """Whether the ground was met so far before the ball, or at such a cost, that no golfer calls it good."""
    return strike.lead > EARLY or (strike.lead > AT_BALL and strike.head_loss >= HEARD)


def after_ball(strike: Strike) -> bool:
    """Whether all of the mark lies beyond the place where the ball was met."""
    met = strike.met is not Meeting.NONE and strike.turf is not TurfAction.NONE
    return met and strike.lead == 0.0 and strike.depth > AFTER


def sole_bore(strike: Strike) -> bool:
    """Whether it was the sole that bore on the ground: it did, and it hung below the leading edge."""
    return strike.turf in (TurfAction.BRUSH, TurfAction.SKID) and strike.bounce > 0.0


def struck_cleanly(strike: Strike) -> bool:
    """Whether the face met the ball with nothing before it or between them."""
    return (
        strike.contact is Contact.SOLID
        and strike.met is Meeting.FACE
        and strike.lead <= AT_BALL
        and strike.head_loss < HEARD
        and strike.cushion <= BETWEEN
    )


def return_of(off: float) -> str:
    """A lean (rad) against the lean that was set, in a word: matched, near, or off."""
    size = abs(degrees(off))
    return "matched" if size <= MATCHED else "near" if size <= CLOSE else "off"


def lean_change(shot: Shot) -> float:
    """Lean (rad) at impact beyond the lean that was set; nan where the ball was missed."""
    return shot.strike.lean - shot.setup.shaft_lean
