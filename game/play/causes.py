"""Three plain causes to choose from after a shot, one of them the one the shot itself shows.

A scenario may bring its own question. Where it has none, the causes are weighed here: each reads one
departure from the intended stroke, in units of a departure worth a word. The heaviest is the cause,
the two lightest stand beside it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import degrees, isnan

from levels.teaching import Question
from physics.cause import CLOSE
from physics.results import Contact, Shot

__all__ = ["CAUSES", "Cause", "ask_why", "weights"]

LOW = 3.0e-3  # m the head is low or high before it is worth a word, assumed
SPEED = 0.08  # share of the head speed worth a word, assumed: a club player's standard deviation
ASK = "Why did the ball end up there?"


@dataclass(frozen=True)
class Cause:
    """One cause in plain words, and how heavily a shot shows it (1 is worth a word)."""

    words: str
    weigh: Callable[[Shot], float]


def _lean_off(shot: Shot) -> float:
    """Degrees the shaft came back forward of where it was set; 0 when the ball was missed."""
    lean = shot.strike.lean
    return 0.0 if isnan(lean) else degrees(lean - shot.setup.shaft_lean) / CLOSE


def _high(shot: Shot) -> float:
    caught = shot.strike.contact in (Contact.THIN, Contact.TOPPED, Contact.MISSED)
    return max(-shot.strike.low / LOW, 2.0 if caught and shot.strike.low <= 0.0 else 0.0)


def _low(shot: Shot) -> float:
    fat = shot.strike.contact is Contact.FAT
    return max(shot.strike.low / LOW, 2.0 if fat and shot.strike.low > 0.0 else 0.0)


def _twice(shot: Shot) -> float:
    """A second touch outweighs what else went on."""
    return 9.0 if shot.strike.contact is Contact.TWICE else 0.0


CAUSES: tuple[Cause, ...] = (
    Cause("The handle came back too far forward.", _lean_off),
    Cause("The club passed your hands too soon.", lambda shot: -_lean_off(shot)),
    Cause("The club came in too low, into the ground.", _low),
    Cause("The club came in too high.", _high),
    Cause("The swing was faster than you meant.", lambda shot: (shot.stray.speed - 1.0) / SPEED),
    Cause("The swing was slower than you meant.", lambda shot: (1.0 - shot.stray.speed) / SPEED),
    Cause("The club caught up with the ball and hit it again.", _twice),
    Cause("The strike went to plan. The set-up made this shot.", lambda shot: 1.0),
)


def weights(shot: Shot) -> tuple[float, ...]:
    """How heavily the shot shows each of CAUSES."""
    return tuple(cause.weigh(shot) for cause in CAUSES)


def ask_why(shot: Shot) -> Question:
    """The question about this shot, its three causes in an order that the shot's seed mixes."""
    heavy = weights(shot)
    order = sorted(range(len(CAUSES)), key=lambda i: -heavy[i])
    right = order[0]
    chosen = [right, *order[-2:]]
    turn = shot.seed % 3
    chosen = [*chosen[turn:], *chosen[:turn]]
    return Question(ask=ASK, choices=tuple(CAUSES[i].words for i in chosen), right=chosen.index(right) + 1)
