"""The first minute in words: your turn, what came of it, and what to try next."""

from math import exp

from game.text.quantity import percent, shown_control
from levels.opening import HIDES, LEAN, NextMove, NextThing, dug_in
from physics.address import CONTROLS
from physics.cause import ground_of
from physics.results import Contact, Shot
from physics.surfaces import SURFACES

__all__ = ["GUIDE_END", "GUIDE_LESSON", "GUIDE_WAITS", "came_words", "ready_words", "thing_words"]

NAME = CONTROLS[LEAN].label[:1].upper() + CONTROLS[LEAN].label[1:]
GUIDE_LESSON = "Watch first. Space goes on, Esc skips the guide."
GUIDE_WAITS = "Your next stroke is being worked out."
GUIDE_END = "You have seen both. L shows the lesson again; F3 has shots to solve."


def thing_words(thing: NextThing, lie: str, numbers: bool = True) -> str:
    """What to try next and what will come of it; `lie`: where the ball lies now."""
    match thing.asked:
        case NextMove.ADD:
            where = f"to {_lean(thing.value)} or more" if numbers else "far right"
            return f"Your turn: move {NAME} {where}. Your next stroke will dig."
        case NextMove.LIE:
            return f"{_hidden(thing, lie, numbers)} Choose {SURFACES[thing.lie].label} in Ball lies on."
        case NextMove.MEND if thing.value == 0.0:
            to = f"back to {_lean(0.0)}" if numbers else "back to as set"
            return f"Now move {NAME} {to}. Your next stroke comes off."
        case NextMove.MEND:
            to = f"to {_lean(thing.value)}" if numbers else "left, until I say stop"
            here = f"From {SURFACES[lie].label} some lean helps."
            return f"{here} Now move {NAME} {to}. Your next stroke comes off."
        case _:
            to = f"back to {_lean(0.0)}" if numbers else "back to as set"
            return f"Now move {NAME} {to}. {_fewer(thing, numbers)}"


def ready_words(thing: NextThing, numbers: bool = True) -> str:
    """Once it is set: what to press, and what will come."""
    match thing.asked:
        case NextMove.ADD:
            return "Now press Space. This stroke will dig."
        case NextMove.MEND:
            return "Now press Space. This stroke comes off."
        case _:
            return f"Now press Space. {_fewer(thing, numbers)}"


def came_words(shot: Shot, numbers: bool = True) -> str:
    """What the pupil's own stroke was, read from the shot."""
    strike, ground = shot.strike, ground_of(shot.course)
    soil = "ground" if ground == "turf" else ground
    if strike.contact is Contact.MISSED:
        return "The club missed the ball."
    kept = f" The ball kept {percent(exp(strike.struck_gap))} of its distance." if numbers else ""
    if dug_in(shot):
        return f"That was a dig: the edge went into the {soil}.{kept}"
    if strike.solid:
        return "That one came off: a good strike."
    if strike.contact in (Contact.THIN, Contact.TOPPED):
        return "That was thin: the edge came into the ball."
    return f"That one was spoilt by the {soil}.{kept}"


def _lean(value: float) -> str:
    return shown_control(LEAN, value)


def _hidden(thing: NextThing, lie: str, numbers: bool) -> str:
    """Why another lie: here no lean digs this stroke."""
    here = SURFACES[lie].label
    if not numbers or thing.now is None or thing.then is None:
        return f"From {here}, lean does not dig this time."
    return (
        f"From {here} no lean makes your next stroke dig: {thing.now.of_100} of 100 are solid with none "
        f"added, {thing.then.of_100} with {_lean(HIDES)}."
    )


def _fewer(thing: NextThing, numbers: bool) -> str:
    """What is promised where the one stroke fails either way."""
    if thing.now is None or thing.then is None:
        return ""
    if not numbers:
        more = thing.then.value > thing.now.value
        return "This lie is hard: more come off." if more else "This lie is hard either way."
    return f"One may still fail: {thing.then.of_100} of 100 are solid then, {thing.now.of_100} now."
