"""What is burnt into a clip: captions for swing, strike and end, and what the clip is not."""

from dataclasses import dataclass

from game.text.cautions import MODEL_NOTE, NOTE
from game.text.lesson import angle_name
from game.text.recap import Recap, RecapSide, recap_cause, recap_focus, recap_title, side_did, side_names
from physics.results import Contact

__all__ = ["ClipWords", "clip_words"]


@dataclass(frozen=True)
class ClipWords:
    """Words of one clip."""

    title: str
    names: tuple[str, str]  # over the two pictures
    at_ball: tuple[str, str]  # bounce and lean as the ball is met
    did: tuple[str, str]  # what came of each
    cause: str
    focus: str
    note: str


def clip_words(recap: Recap) -> ClipWords:
    """From the same values and sentences as the recap page."""
    first, second = recap.sides
    one, two = side_names(recap)
    return ClipWords(
        recap_title(recap), (f"A: {one}", f"B: {two}"), (_at_ball(first), _at_ball(second)),
        (side_did(recap, first), side_did(recap, second)), recap_cause(recap), f"Focus: {recap_focus(recap)}",
        f"{MODEL_NOTE} {NOTE}",
    )  # fmt: skip


def _at_ball(side: RecapSide) -> str:
    strike = side.shot.strike
    if strike.contact is Contact.MISSED:
        return "The ball is missed"
    names = (
        angle_name("lean", strike.lean),
        angle_name("loft", strike.loft),
        angle_name("bounce", strike.bounce),
    )
    return f"At the ball: {', '.join(names)}"
