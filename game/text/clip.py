"""What is burnt into a clip: captions for swing, strike and end, and what the clip is not."""

from dataclasses import dataclass

from game.text.cautions import MODEL_NOTE, NOTE
from game.text.lesson import angle_name
from game.text.notebook import lie_words
from game.text.recap import Recap, RecapSide, recap_cause, recap_focus, recap_title, side_did, side_names
from game.text.story import explain
from game.text.units import METRIC, UnitSystem
from physics.cause import lie_surface
from physics.results import Contact, Shot

__all__ = ["ClipWords", "Film", "OneShot", "clip_words"]

ALONE = "One shot, seen from the side: slow at the strike."


@dataclass(frozen=True)
class OneShot:
    """A shot that is clipped alone."""

    shot: Shot
    junior: bool = False
    units: UnitSystem = METRIC

    @property
    def sides(self) -> tuple[RecapSide]:
        return (RecapSide(self.shot),)


Film = Recap | OneShot


@dataclass(frozen=True)
class ClipWords:
    """Words of one clip; of what stands a window, one each."""

    title: str
    names: tuple[str, ...]  # over the pictures
    at_ball: tuple[str, ...]  # bounce and lean as the ball is met
    did: tuple[str, ...]  # what came of each
    cause: str
    focus: str  # stands last
    note: str


def clip_words(film: Film) -> ClipWords:
    """From the same values and sentences as the recap page, or as the Bench tells a shot."""
    at_ball = tuple(_at_ball(side) for side in film.sides)
    did = tuple(side_did(film, side) for side in film.sides)
    note = f"{MODEL_NOTE} {NOTE}"
    if isinstance(film, OneShot):
        shot = film.shot
        name = f"{shot.setup.club.label} from {lie_words(lie_surface(shot.course).name)}"
        told = explain(shot, film.units != METRIC, film.junior)
        return ClipWords(ALONE, (name[:1].upper() + name[1:],), at_ball, did, told[0], told[-1], note)
    one, two = side_names(film)
    return ClipWords(
        recap_title(film), (f"A: {one}", f"B: {two}"), at_ball, did, recap_cause(film),
        f"Focus: {recap_focus(film)}", note,
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
