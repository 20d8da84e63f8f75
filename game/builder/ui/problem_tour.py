"""Going from one broken rule to the next, round and round."""

from collections.abc import Sequence

from game.builder.ui.editing import problem_sentence
from levels.draft import Problem

__all__ = ["ProblemTour"]


class ProblemTour:
    """Remembers which problem came last."""

    def __init__(self) -> None:
        self._last = -1

    def next(self, problems: Sequence[Problem]) -> tuple[Problem, str]:
        """The problem after the one that came last and the sentence that tells of it; of at least one."""
        self._last = (self._last + 1) % len(problems)
        problem = problems[self._last]
        where = f"{problem.key_text}: " if problem.key_text else ""
        return problem, f"{self._last + 1} of {len(problems)}. {where}{problem_sentence(problem)}"
