"""The story of a shot in a child's words: at most twelve short words a sentence, no numbers."""

from math import degrees, isnan

from game.text.phrase import Phrase
from game.text.run_story import in_sand, knocks_told
from game.text.strike_facts import after_ball, came_early, lean_change, return_of, sole_bore
from physics.cause import ground_of
from physics.explosion import CARRIED
from physics.results import Contact, Meeting, Outcome, Shot, TurfAction

__all__ = ["junior_story"]

NEAR = 0.5  # m from the hole that a child is told is close, assumed
_MET = {
    "wall": "hit the wall", "lip": "caught the bank", "trunk": "hit the tree", "branch": "hit the tree",
    "leaves": "went through the leaves", "stick": "hit the flagstick",
}  # fmt: skip


def junior_story(shot: Shot) -> tuple[tuple[Phrase, ...], ...]:
    """Hands, where they were off; the strike; the ball's end."""
    hands, end = _hands(shot), _end(shot)
    told = [hands, _strike(shot, bool(hands)), end]
    return tuple((p,) for p in told if p)


def _hands(shot: Shot) -> Phrase | None:
    """The handle, where the stroke brought it back elsewhere than it was set."""
    if isnan(shot.strike.lean):
        return None
    swing, change = shot.swing, lean_change(shot)
    brought = swing.lean_added
    if return_of(change) != "off" or return_of(brought) != "off" or brought * change < 0.0:
        return None  # as set, or the ground turned it
    mostly = (swing.by_motion - swing.promised) / brought > 0.5
    if degrees(change) > 0.0:
        way = "Your swing brings the handle" if mostly else "The handle came back"
        return Phrase(f"{way} too far forward.", "hands")
    way = "Your swing lets the club pass your hands" if mostly else "The club passed your hands"
    return Phrase(f"{way} too soon.", "hands")


def _strike(shot: Shot, leant: bool) -> Phrase:
    """The strike; `leant`: the handle came back elsewhere than it was set."""
    k, ground = shot.strike, ground_of(shot.course)
    soil = "ground" if ground == "turf" else ground
    dug = k.turf is TurfAction.DIG
    match k.contact:
        case Contact.MISSED:
            return _missed(shot, soil)
        case Contact.TWICE:
            return Phrase("The club touched the ball twice.", "ball")
        case Contact.SPLASHED:
            return Phrase("The sand carried the ball. Good splash.", "ball")
        case Contact.FAT if ground == "sand":
            return Phrase("The club took too much sand first.", "turf")
        case Contact.FAT if dug and not after_ball(k):
            return Phrase(f"The front edge dug into the {soil} first.", "edge")
        case Contact.FAT if k.turf is TurfAction.NONE:
            return Phrase("The grass slowed the club too much.", "turf")
        case Contact.FAT:
            return Phrase(f"The club met the {soil} too soon.", "turf")
        case Contact.THIN | Contact.TOPPED:
            return _thin(shot, ground)
    return _solid(shot, leant, ground, soil)


def _missed(shot: Shot, soil: str) -> Phrase:
    k = shot.strike
    if shot.run.outcome is Outcome.STUCK and k.turf is not TurfAction.DIG:
        return Phrase(f"The club stuck in the {soil}.", "turf")
    if k.turf is TurfAction.DIG:
        return Phrase(f"The front edge dug into the {soil}. It missed the ball.", "edge")
    return Phrase("The club missed the ball.", "ball")


def _thin(shot: Shot, ground: str) -> Phrase:
    k = shot.strike
    if k.met is not Meeting.FACE:
        return Phrase("The edge hit the ball, not the face.", "ball")
    if k.struck_gap < 0.0:
        return Phrase("The ball came off the face too slow.", "ball")
    if ground == "sand":
        if k.cushion > CARRIED:
            return Phrase("The sand sent the ball too far.", "ball")
        return Phrase("The club took too little sand.", "ball")
    return Phrase("The ball came off the face too fast.", "ball")


def _solid(shot: Shot, leant: bool, ground: str, soil: str) -> Phrase:
    k = shot.strike
    if k.turf is TurfAction.DIG:
        if after_ball(k):
            return Phrase(f"Ball first, then the front edge dug into the {soil}.", "edge")
        return Phrase("The front edge dug in, but the ball came off well.", "edge")
    if k.met is not Meeting.FACE:
        return Phrase("The edge met the ball, but it came off well.", "edge")
    if leant:
        return Phrase("The face still met the ball. That was lucky.", "face")
    if ground == "sand":
        return Phrase("The ball came out well. Good strike.", "ball")
    if k.turf is TurfAction.NONE:
        return Phrase("The face met the ball first. Good strike.", "face")
    if came_early(k):
        return Phrase(f"The club met the {soil} early, but the ball came off well.", "turf")
    if not sole_bore(k):
        return Phrase(f"The club scraped the {soil}, but the ball came off well.", "edge")
    verb = "brushed" if k.turf is TurfAction.BRUSH else "slid over"
    return Phrase(f"The sole {verb} the {'mat' if ground == 'mat' else 'grass'}. Good strike.", "sole")


def _end(shot: Shot) -> Phrase | None:
    """What the ball met last, and where it ended."""
    if shot.launch is None:
        return None
    met = [_MET[what] for what, _ in knocks_told(shot)]
    end = _ended(shot)
    if met and end:
        return Phrase(f"The ball {met[-1]} and {end}", "hole")
    return Phrase(f"The ball {met[-1]}." if met else f"The ball {end}", "hole") if met or end else None


def _ended(shot: Shot) -> str:
    """As a clause with its stop; empty where there is nothing to say."""
    hole = shot.course.hole
    match shot.run.outcome:
        case Outcome.HOLED:
            return "went into the hole!"
        case Outcome.WATER:
            return "went into the water."
        case Outcome.OUT:
            return "went out of bounds."
        case Outcome.LOST:
            return "never stopped."
    if in_sand(shot.course, shot.run.rest):
        return "stopped in the sand."
    if hole is None:
        return ""
    past = shot.run.rest - hole.x
    if abs(past) > NEAR:
        return "went past the hole." if past > 0.0 else "stopped short of the hole."
    return "stopped close to the hole." if abs(shot.lateral) <= NEAR else "stopped beside the hole."
