"""What a scenario asks for, one plain sentence a goal."""

from game.text.quantity import plural, significant, times
from game.text.units import METRIC, UnitSystem
from levels.facts import goals_asked
from levels.teaching import Goal

__all__ = ["task_sentences"]

_STRIKES = {
    "solid": "Strike it solid.",
    "clean": "Meet the ball first, or nearly first.",
    "brush": "Brush the grass and leave hardly a mark.",
    "splash": "Splash it out: let the sand carry the ball.",
}
_SIMPLE = {
    "leave_m": "Stop the ball near the hole.",
    "land_between_m": "Land the ball on the right stretch.",
    "must_clear": "Fly the ball over the trouble.",
    "ceiling_m": "Keep the ball low.",
    "match_deg": "Bring the handle back where you set it.",
}
_SIMPLE_STRIKES = {
    "solid": "Meet the ball with the face.",
    "clean": "Meet the ball before the ground.",
    "brush": "Brush the grass and leave no mark.",
    "splash": "Let the sand carry the ball out.",
}


def task_sentences(goal: Goal, units: UnitSystem = METRIC, numbers: bool = True) -> tuple[str, ...]:
    """What has to be done, and last how often; without numbers in a child's words."""
    if not numbers:
        return _simple(goal)
    told = [_task(kind, goal, units) for kind in goals_asked(goal)]
    if goal.shots > 1:
        row = " in a row" if goal.in_a_row and goal.successes > 1 else ""
        told.append(f"Do it {times(goal.successes)}{row} in {goal.shots} shots.")
    return tuple(told)


def _simple(goal: Goal) -> tuple[str, ...]:
    told = [_SIMPLE.get(kind) or _SIMPLE_STRIKES[goal.strike or "solid"] for kind in goals_asked(goal)]
    return (*told, "Do it more than once.") if goal.successes > 1 else tuple(told)


def _task(kind: str, goal: Goal, units: UnitSystem) -> str:
    match kind:
        case "leave_m":
            return f"Stop within {units.far(goal.leave_m or 0.0)} of the hole."
        case "land_between_m":
            near, far = goal.land_between_m or (0.0, 0.0)
            return f"Land between {units.far(near)} and {units.far(far)}."
        case "must_clear":
            clear = goal.must_clear
            assert clear is not None
            return f"Fly at least {units.near(clear.height_m)} high, {units.far(clear.x_m)} away."
        case "ceiling_m":
            return f"Keep the ball below {units.near(goal.ceiling_m or 0.0)}."
        case "match_deg":
            off = plural(significant(goal.match_deg or 0.0, 6), "degree")
            return f"Bring the handle back within {off} of where you set it."
        case _:
            return _STRIKES[goal.strike or "solid"]
