"""What is worked out for a choice, beside the picture: the options, their flights, and what changes them."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from game.choosing.question import ChoosingQuestion
from levels.choose import ShotChoice, choose
from levels.strokes import ManyStrokes
from levels.what_if import Changed, changes, what_ifs
from levels.worthwhile import shown_strokes
from physics.results import Run
from physics.shot import play
from physics.spread import EXACT

__all__ = ["ChoiceAnswer", "ChoicesSeen", "Worked", "change_parts", "choice_parts"]


@dataclass(eq=False)
class ChoiceAnswer:
    """A finished choice: each option's faultless flight and its strokes as dots. `picked` once somebody
    has, `changed` as far as it was asked what would change the order."""

    question: ChoosingQuestion
    choice: ShotChoice
    flights: tuple[Run, ...]
    strokes: tuple[ManyStrokes, ...]
    picked: int | None = None
    changed: tuple[Changed, ...] = ()

    @property
    def all_changed(self) -> bool:
        """Whether every change was asked for."""
        return len(self.changed) == len(what_ifs(self.question.situation.course))


@dataclass(frozen=True)
class Worked:
    """How far a choice is; the last part carries the answer."""

    share: float
    answer: ChoiceAnswer | None = None


@dataclass
class ChoicesSeen:
    """The answers of this window by digest of what was asked: asked again, they are there at once."""

    answers: dict[str, ChoiceAnswer] = field(default_factory=dict)


def choice_parts(question: ChoosingQuestion) -> Iterator[Worked]:
    """Work the choice out in parts; whoever stops asking has cancelled it."""
    course = question.situation.course
    for part in choose(question.situation, question.chooser.player, question.effort):
        if part.choice is None:
            yield Worked(part.share)
            continue
        options = part.choice.options
        flights = tuple(play(course, o.setup, o.motion, EXACT).run for o in options)
        strokes = tuple(shown_strokes(o.made) for o in options)
        yield Worked(1.0, ChoiceAnswer(question, part.choice, flights, strokes))


def change_parts(answer: ChoiceAnswer) -> Iterator[Changed]:
    """What another spread, green or lie does to it, one after the other."""
    q = answer.question
    yield from changes(q.situation, answer.choice, q.chooser.player)
