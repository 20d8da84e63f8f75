"""How hard a task is set for one player: one step at a time, so that it comes off often but not always.

Success is held between 65 and 90 % over fifteen shots: fewer could not tell those apart (binomial, standard
deviation 0.10 at 0.8). The idea is Guadagnoli and Lee's (2004), the numbers are design, assumed.
"""

from collections.abc import Iterable, Sequence

from levels.scenario import Scenario

__all__ = ["EASIEST", "HARDEST", "WINDOW", "at_step", "step_after"]

WINDOW = 15
EASY_ABOVE, HARD_BELOW = 0.90, 0.65
EASIEST, HARDEST = -2, 2
SIZES = {-2: 1.5, -1: 1.25, 0: 1.0, 1: 0.75, 2: 0.5}  # of what the goal allows, by step


def step_after(results: Iterable[bool], start: int = 0) -> int:
    """The step after these results, oldest first. After a move the next fifteen count afresh.

    >>> step_after([True] * 15), step_after([True] * 14), step_after([True] * 12 + [False] * 3)
    (1, 0, 0)
    """
    step, recent = start, list[bool]()
    for good in results:
        recent = [*recent, good][-WINDOW:]
        if (move := _move(recent)) and EASIEST <= step + move <= HARDEST:
            step, recent = step + move, []
    return step


def _move(recent: Sequence[bool]) -> int:
    if len(recent) < WINDOW:
        return 0
    share = sum(recent) / WINDOW
    return 1 if share > EASY_ABOVE else -1 if share < HARD_BELOW else 0


def at_step(scenario: Scenario, step: int) -> Scenario:
    """The scenario with what its goal allows made narrower or wider: the leave, the stretch to land on.

    A goal that allows nothing of the kind stays as it is. ValueError for no step.
    """
    if step not in SIZES:
        raise ValueError(f"there is no step {step}; allowed: {EASIEST} to {HARDEST}")
    goal, size = scenario.goal, SIZES[step]
    changes: dict[str, object] = {}
    if goal.leave_m is not None:
        changes["leave_m"] = min(max(round(goal.leave_m * size, 2), 0.05), 20.0)
    if goal.land_between_m is not None:
        near, far = goal.land_between_m
        middle, half = 0.5 * (near + far), 0.5 * (far - near) * size
        changes["land_between_m"] = (round(max(middle - half, 0.0), 2), round(min(middle + half, 100.0), 2))
    if not changes or step == 0:
        return scenario
    return scenario.model_copy(update={"goal": goal.model_copy(update=changes), "proof": None})
