"""Why, on the Bench: what in the set-up costs most, looked for beside the picture and told as it goes."""

from collections.abc import Callable

from game.bench.model import State
from game.text.advice import repair_words
from game.ui.work import Answer, Worker
from physics.address import CONTROLS, Intention
from physics.repair import Repair, Trying, search_repairs

__all__ = ["Why", "trying_words"]

CHANNEL = "repair"
NAMED = 2  # parts of the set-up named while several are left
LOOKING = "Looking for what to change \N{HORIZONTAL ELLIPSIS}"


def trying_words(trying: Trying, junior: bool = False) -> str:
    """How far the search is; without numbers for a junior."""
    if junior or not trying.step:
        return LOOKING
    if not trying.left:
        return f"Trying {trying.label}, {trying.step} of {trying.of} \N{HORIZONTAL ELLIPSIS}"
    if len(trying.left) == 1:
        return f"Making sure of {trying.left[0]} \N{HORIZONTAL ELLIPSIS}"
    named, more = trying.left[:NAMED], len(trying.left) - NAMED
    rest = f" and {more} more" if more > 0 else ""
    return f"Between {(', ' if rest else ' and ').join(named)}{rest} \N{HORIZONTAL ELLIPSIS}"


class Why:
    """One search at a time; any change of the set-up forgets it. `on_news` hears whenever `words` change."""

    def __init__(self, on_news: Callable[[], None]) -> None:
        self.on_news, self.words = on_news, ""
        self.repair: Repair | None = None
        self._junior = self._played = False
        self._stroke = Intention()

    def ask(self, worker: Worker, state: State, names: tuple[str, ...], junior: bool) -> None:
        """Look among the named controls; only what the player can move is worth naming."""
        self.repair, self.words = None, LOOKING
        self._junior, self._played = junior, state.shot is not None and not state.changed
        course, now, spread = state.course, state.now, state.spread
        self._stroke = now
        worker.ask(
            CHANNEL, lambda: search_repairs(course, now.setup, now.motion, spread, 0, names), self._hear
        )
        self.on_news()

    def forget(self, worker: Worker) -> None:
        """Nothing of it holds any more."""
        worker.forget(CHANNEL)
        if self.words or self.repair:
            self.words, self.repair = "", None
            self.on_news()

    def _hear(self, answer: Answer) -> None:
        if not answer.fresh or (answer.last and not answer.problem):
            return
        if answer.problem:
            self.words = ""
        elif answer.value.done:
            self.repair = next(iter(answer.value.found), None)
            off = CONTROLS[self.repair.off].label if self.repair and self.repair.off else ""
            self.words = repair_words(self.repair, self._stroke, self._junior, self._played, off)
        else:
            self.words = trying_words(answer.value, self._junior)
        self.on_news()
