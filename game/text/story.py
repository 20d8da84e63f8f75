"""The story of a shot: what hands, sole, face and ball did, in sentences.

Every number in a sentence is read from the Shot. A phrase carries the place in the picture it is
about, so that a screen can light it. What each component cost is found in `physics.repair`.
"""

from game.text.junior_story import junior_story
from game.text.phrase import Phrase, joined
from game.text.run_story import run_phrases
from game.text.strike_story import ball_phrases, height_phrases, lean_phrases, turf_phrases
from physics.results import Shot

__all__ = ["Phrase", "explain", "tell"]

LONGEST_CHAIN = 4  # phrases one sentence may hold


def explain(shot: Shot, yards: bool = False, junior: bool = False) -> tuple[str, ...]:
    """The chain of cause and effect as plain sentences.

    >>> from physics.address import Motion, Setup
    >>> from physics.course import level_course
    >>> from physics.shot import play
    >>> explain(play(level_course("fairway", 8.0), Setup(), Motion()), junior=True)[0]
    'The sole slid over the grass. Good strike.'
    """
    return tuple("".join(p.text for p in sentence) for sentence in tell(shot, yards, junior))


def tell(shot: Shot, yards: bool = False, junior: bool = False) -> tuple[tuple[Phrase, ...], ...]:
    """Two or three sentences (junior: short ones) as phrases with places: strike, then run."""
    if junior:
        return junior_story(shot)
    lean = lean_phrases(shot)
    turf = [*height_phrases(shot, yards), *turf_phrases(shot, yards), *ball_phrases(shot, yards)]
    strike = [lean, turf] if len(lean) + len(turf) > LONGEST_CHAIN else [lean + turf]
    run = run_phrases(shot, yards)
    return (*(joined(part) for part in strike if part), *((run,) if run else ()))
