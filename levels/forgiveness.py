"""How forgiving a set-up is: how far each control may be off, and a chart over the two that matter most."""

from collections.abc import Generator
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from levels.effort import Effort
from levels.parts import file_value
from levels.proof import Chart, Slack
from levels.search import Candidate, Space, Trials, evenly
from physics.address import CONTROLS

__all__ = ["HALF", "NEAR", "Reach", "chart_of", "near_share", "reaches", "slack_of"]

NEAR = 0.10  # of each control's width here, either way, that counts as near the best, assumed
HALF = 0.5  # share of the best's chance at which a control is too far off
FIRST = 1.0 / 48.0  # of a control's width: the first step off, doubled until the chance has halved
HALVINGS = 2
VIEW = 2.5  # how many times the reach a chart looks
LEAST_VIEW = 1.0 / 16.0  # of a control's width that a chart shows at least, each way


@dataclass(frozen=True)
class Reach:
    """How far (SI) one control may be off, one way; `ends` is false where the limit comes first."""

    control: str
    way: int  # -1 below, 1 above
    far: float
    ends: bool


@dataclass
class _Feeler:
    """One control moved one way: the farthest that still holds, the nearest that does not."""

    control: str
    way: int
    room: float  # to the limit
    step: float
    holds: float = 0.0
    fails: float | None = None
    halvings: int = HALVINGS

    @property
    def next(self) -> float | None:
        """The next distance to ask; None when enough is known."""
        if self.fails is not None:
            return 0.5 * (self.holds + self.fails) if self.halvings else None
        return min(self.holds * 2.0 or self.step, self.room) if self.holds < self.room else None

    def hear(self, asked: float, held: bool) -> None:
        if self.fails is not None:
            self.halvings -= 1
        if held:
            self.holds = asked
        else:
            self.fails = asked

    @property
    def reach(self) -> Reach:
        if self.fails is None:
            return Reach(self.control, self.way, self.room, False)
        return Reach(self.control, self.way, 0.5 * (self.holds + self.fails), True)


def reaches(
    trials: Trials, best: Candidate, seed: int, count: int
) -> Generator[int, None, tuple[Reach, ...]]:  # fmt: skip
    """How far each control may be off, both ways, one alone and all with the same strokes."""
    space = trials.space
    feelers = [
        _Feeler(name, way, room, FIRST * (high - low))
        for i, (name, low, high) in enumerate(zip(space.controls, space.low, space.high, strict=True))
        for way, room in ((-1, best.values[i] - low), (1, high - best.values[i]))
    ]
    (base,) = yield from trials.many([best], [seed], count)
    while asking := [(f, way) for f in feelers if (way := f.next) is not None]:
        moved = [_moved(space, best, f.control, f.way * far) for f, far in asking]
        found = yield from trials.many(moved, [seed] * len(moved), count)
        for (f, far), one in zip(asking, found, strict=True):
            f.hear(far, one.share >= HALF * base.share)
    return tuple(f.reach for f in feelers)


def _moved(space: Space, best: Candidate, control: str, by: float) -> Candidate:
    i = space.controls.index(control)
    values = (*best.values[:i], best.values[i] + by, *best.values[i + 1 :])
    return replace(best, values=space.held(values))


def slack_of(found: tuple[Reach, ...]) -> tuple[Slack, ...]:
    """The reaches as a scenario file keeps them, in the controls' units."""
    out: dict[str, dict[str, float]] = {}
    for r in found:
        side = out.setdefault(r.control, {})
        if r.ends:
            side["less" if r.way < 0 else "more"] = round(file_value(CONTROLS[r.control], r.far), 2)
    return tuple(Slack(control=name, **side) for name, side in out.items())


def near_share(
    trials: Trials, best: Candidate, seed: int, effort: Effort
) -> Generator[int, None, float]:  # fmt: skip
    """Share of set-ups within NEAR of the best that meet the goals at least half the time."""
    space = trials.space
    width = np.array(space.high) - np.array(space.low)
    off = NEAR * (2.0 * evenly(effort.near, len(width) + 1, seed)[:, :-1] - 1.0)
    points = [replace(best, values=space.held((np.array(best.values) + o * width).tolist())) for o in off]
    found = yield from trials.many(points, [seed] * len(points), effort.near_strokes)
    return float(np.mean([f.share >= 0.5 for f in found]))


# ---- the chart


def chart_of(
    trials: Trials,
    best: Candidate,
    found: tuple[Reach, ...],
    also: tuple[Candidate, ...],
    seed: int,
    effort: Effort,
) -> Generator[int, None, Chart | None]:
    """Chances over the two controls that matter most: those that may be off least, measured.

    The view goes as far as the chance is lost, and to the points in `also` where they are not far.
    None with fewer than two controls open.
    """
    space = trials.space
    if len(space.controls) < 2:
        return None
    width = {n: b - a for n, a, b in zip(space.controls, space.low, space.high, strict=True)}
    room = {n: sum(r.far for r in found if r.control == n) / width[n] for n in space.controls}
    across, up = sorted(space.controls, key=lambda n: room[n])[:2]
    here = dict(zip(space.controls, best.values, strict=True))
    xs, ys = (_view(space, best, name, found, also, effort.side) for name in (across, up))
    points = [
        _moved(space, _moved(space, best, across, x - here[across]), up, y - here[up]) for y in ys for x in xs
    ]
    cells = yield from trials.many(points, [seed] * len(points), effort.cell)
    percent = [f"{100.0 * cell.share:.0f}" for cell in cells]
    rows = (percent[i : i + len(xs)] for i in range(0, len(percent), len(xs)))
    return Chart(
        club=best.club, across=across, across_limits=_ends(across, xs), up=up, up_limits=_ends(up, ys),
        percent=tuple(" ".join(row) for row in rows),
    )  # fmt: skip


def _ends(control: str, values: list[float]) -> tuple[float, float]:
    first, last = (round(file_value(CONTROLS[control], v), 2) for v in (values[0], values[-1]))
    return first, last


def _view(
    space: Space,
    best: Candidate,
    control: str,
    found: tuple[Reach, ...],
    also: tuple[Candidate, ...],
    cells: int,
) -> list[float]:
    """Values of one control that a chart shows."""
    i = space.controls.index(control)
    low, high, here = space.low[i], space.high[i], best.values[i]
    least = LEAST_VIEW * (high - low)
    far = {r.way: max(VIEW * r.far, least) for r in found if r.control == control}
    a, b = here - far[-1], here + far[1]
    for point in also:
        if here - sqrt(VIEW) * far[-1] < point.values[i] < here + sqrt(VIEW) * far[1]:
            margin = 0.05 * (b - a)
            a, b = min(a, point.values[i] - margin), max(b, point.values[i] + margin)
    return [float(v) for v in np.linspace(max(a, low), min(b, high), cells)]
