"""Edits of the ground: points put in, moved and taken out, surfaces painted, stretches drawn and smoothed.

Each edit takes a draft and gives another; lengths in m as in the file. An edit that cannot be done here
gives the draft back as it is.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, hypot, radians, tan

from game.builder.model.profile import (
    GroundPoint,
    Profile,
    clamp,
    fine,
    height,
    is_usable,
    mm,
    profile,
    profile_surface,
    with_profile,
)
from levels.draft import Draft
from levels.parts import RISE, X_HIGH, X_LOW
from levels.scenario import MARGIN, MOST_POINTS, STEEPEST, STEP

__all__ = ["delete_point", "draw_ground", "insert_point", "move_point", "paint", "smooth", "walkable"]

CLOSE = 1e-2  # m, assumed: a point this near is the one meant
STEEP = tan(radians(STEEPEST - 0.5))  # rise over run an edit goes up to, below the steepest allowed
DRAWN = 0.01  # m, assumed: how far the simplified stroke may be from the hand's
SMOOTHED = 0.002  # m, assumed: the same for smoothed ground, below what the eye sees of it
ROUNDS = 4  # assumed: averagings in one smoothing


def insert_point(d: Draft, x: float) -> Draft:
    """A point on the ground at x; beyond an end the ground goes on, level, to there."""
    ground, x = profile(d), mm(clamp(x, X_LOW, X_HIGH))
    if not ground or len(ground) >= MOST_POINTS or any(abs(p.x - x) < STEP for p in ground):
        return d
    return with_profile(d, _with_point(ground, x))


def move_point(d: Draft, i: int, x: float, y: float) -> Draft:
    """Point i put as near (x, y) as its neighbours, the hole and the steepest slope allow.

    Where it carries the ball, the ground is lifted or sunk whole so that it passes through (0, 0) again.
    """
    ground = profile(d)
    if not 0 <= i < len(ground):
        return d
    low = fine(ground[i - 1].x + STEP) if i else X_LOW
    high = fine(ground[i + 1].x - STEP) if i + 1 < len(ground) else X_HIGH
    if i == 0:
        high = min(high, -MARGIN)
    if i == len(ground) - 1:
        low = max(low, _far_end(d))
    if low > high:
        return d
    x = clamp(mm(x), low, high)
    beside = [*ground[max(i - 1, 0) : i], *ground[i + 1 : i + 2]]
    bottom = max(-RISE, *(p.y - STEEP * abs(p.x - x) for p in beside))
    top = min(RISE, *(p.y + STEEP * abs(p.x - x) for p in beside))
    if bottom > top:
        return d
    moved = ground[i]._replace(x=x, y=clamp(mm(y), bottom, top))
    return with_profile(d, [*ground[:i], moved, *ground[i + 1 :]])


def delete_point(d: Draft, i: int) -> Draft:
    """Without point i; the surface before it goes on. The draft as it is where ground would be missing."""
    ground = profile(d)
    if not 0 <= i < len(ground) or len(ground) <= 2:
        return d
    left = [*ground[:i], *ground[i + 1 :]]
    left[-1] = left[-1]._replace(surface=None)
    if left[0].x > -MARGIN or left[-1].x < _far_end(d):
        return d
    return with_profile(d, left)


def paint(d: Draft, left: float, right: float, surface: str) -> Draft:
    """The surface from left to right, whichever is the smaller."""
    ground = profile(d)
    if not ground:
        return d
    left, right = sorted(mm(clamp(x, ground[0].x, ground[-1].x)) for x in (left, right))
    left, right = (_taken(ground, x) for x in (left, right))
    if right - left < STEP:
        return d
    cut = _with_point(_with_point(ground, left), right)
    painted = [p._replace(surface=surface) if left <= p.x < right else p for p in cut]
    idle = {p.x for p in cut} - {p.x for p in ground if not left <= p.x <= right or not _turns(ground, p)}
    painted = _merged(painted, idle)
    return with_profile(d, painted) if len(painted) <= MOST_POINTS else d


def smooth(d: Draft, left: float, right: float) -> Draft:
    """The ground between left and right with its corners eased; both ends and all surfaces stay.

    Long spans are divided, every height drawn toward the line through its neighbours, and points that
    no longer matter are left out again.
    """
    ground = profile(d)
    if not ground:
        return d
    left, right = sorted(_taken(ground, mm(clamp(x, ground[0].x, ground[-1].x))) for x in (left, right))
    if right - left < CLOSE:
        return d
    cut = _with_point(_with_point(ground, left), right)
    first, last = (next(i for i, p in enumerate(cut) if p.x == x) for x in (left, right))
    piece = _divided(cut[first : last + 1])
    for _ in range(ROUNDS):
        piece = _averaged(piece)
    eased = _simplified(piece, SMOOTHED, {p.x for p in piece if _turns(piece, p)})
    smoothed = _merged([*cut[:first], *eased, *cut[last + 1 :]], {left, right} - {p.x for p in ground})
    return with_profile(d, smoothed) if len(smoothed) <= MOST_POINTS else d


def draw_ground(d: Draft, points: Sequence[tuple[float, float]]) -> Draft:
    """The ground as drawn by hand, in place of the profile between the ends of the stroke.

    Where the hand went back over itself its later way counts; surfaces stay at their places.
    """
    ground, stroke = profile(d), _forward(points)
    if not ground or len(stroke) < 2:
        return d
    ground[-1] = ground[-1]._replace(surface=ground[-2].surface)  # should the stroke lead on from there
    left, right = stroke[0][0], stroke[-1][0]
    before = [p for p in ground if p.x <= left - CLOSE]
    after = [p for p in ground if p.x >= right + CLOSE]
    line = [GroundPoint(x, y, profile_surface(ground, x)) for x, y in stroke]
    for p in ground:
        if left < p.x < right and _turns(ground, p) and all(abs(p.x - q.x) >= STEP for q in line):
            line = _with_point(line, p.x, p.surface)
    drawn = walkable([*before, *line, *after], len(before), len(before) + len(line))
    drawn[-1] = drawn[-1]._replace(surface=None)
    keep = {p.x for p in drawn if _turns(drawn, p) or not left <= p.x <= right}
    simple, error = _simplified(drawn, DRAWN, keep), DRAWN
    while len(simple) > MOST_POINTS and error < RISE:
        error *= 2
        simple = _simplified(drawn, error, keep)
    if len(simple) > MOST_POINTS or simple[0].x > -MARGIN or simple[-1].x < _far_end(d):
        return d
    return with_profile(d, simple)


def _far_end(d: Draft) -> float:
    """The least x (m) at which the ground may end: a margin beyond ball and hole."""
    hole = d.at(("hole", "x_m"))
    return MARGIN + max(0.0, hole if is_usable(hole) else 0.0)


def _turns(ground: Sequence[GroundPoint], point: GroundPoint) -> bool:
    """Whether the surface changes at this point of the ground."""
    i = ground.index(point)
    return i > 0 and point.surface is not None and ground[i - 1].surface != point.surface


def _taken(ground: Profile, x: float) -> float:
    """The place of a point so near that it is the one meant, else x."""
    nearest = min(ground, key=lambda p: abs(p.x - x))
    return nearest.x if abs(nearest.x - x) < CLOSE else x


def _with_point(ground: Profile, x: float, surface: str | None = None) -> Profile:
    """With a point on the ground at x, unless there is one."""
    if any(p.x == x for p in ground):
        return ground
    name = surface or profile_surface(ground, x)
    if x > ground[-1].x:
        return [*ground[:-1], ground[-1]._replace(surface=name), GroundPoint(x, ground[-1].y, None)]
    at = sum(p.x < x for p in ground)
    return [*ground[:at], GroundPoint(x, round(height(ground, x), 6), name), *ground[at:]]


def _merged(ground: Profile, idle: set[float]) -> Profile:
    """Without those of the `idle` points at which neither surface nor slope changes."""
    kept = ground[:1]
    for p, after in zip(ground[1:], [*ground[2:], None], strict=True):
        if after and p.x in idle and p.surface == kept[-1].surface:
            straight = height([kept[-1], after], p.x)
            if abs(p.y - straight) < 1e-4:
                continue
        kept.append(p)
    return kept


def _divided(piece: Profile) -> Profile:
    """Points added between, so that no span is longer than a tenth of the piece."""
    longest = max((piece[-1].x - piece[0].x) / 10, 0.05)
    divided = piece[:1]
    for b in piece[1:]:
        a = divided[-1]
        parts = ceil((b.x - a.x) / longest - 1e-9)
        between = (mm(a.x + (b.x - a.x) * k / parts) for k in range(1, parts))
        divided += [GroundPoint(x, height([a, b], x), a.surface) for x in between]
        divided.append(b)
    return divided


def _averaged(piece: Profile) -> Profile:
    """Every height but those of the ends half way to the line through its neighbours."""
    inner = (
        p._replace(y=round(0.5 * (p.y + height([a, b], p.x)), 5))
        for a, p, b in zip(piece, piece[1:], piece[2:], strict=False)
    )
    return [piece[0], *inner, piece[-1]]


def _simplified(line: Profile, error: float, keep: set[float]) -> Profile:
    """Fewest points within `error` (m) of the line by repeated halving (Ramer 1972, Douglas & Peucker
    1973), those at `keep` and both ends always among them."""
    fixed = [i for i, p in enumerate(line) if i in (0, len(line) - 1) or p.x in keep]
    wanted, spans = set(fixed), list(pairwise(fixed))
    while spans:
        i, j = spans.pop()
        if j - i < 2:
            continue
        a, b = line[i], line[j]
        k = max(range(i + 1, j), key=lambda k: _aside(line[k], a, b))
        if _aside(line[k], a, b) > error:
            wanted.add(k)
            spans += [(i, k), (k, j)]
    return [line[i] for i in sorted(wanted)]


def _aside(p: GroundPoint, a: GroundPoint, b: GroundPoint) -> float:
    """Distance (m) of p from the straight line through a and b."""
    dx, dy = b.x - a.x, b.y - a.y
    return abs(dx * (p.y - a.y) - dy * (p.x - a.x)) / hypot(dx, dy)


def _forward(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The stroke from left to right at millimetres; a later way over the same place counts."""
    way = [
        (mm(clamp(x, X_LOW, X_HIGH)), mm(clamp(y, -RISE, RISE)))
        for x, y in points
        if is_usable(x) and is_usable(y)
    ]
    if len(way) < 2:
        return []
    sign = 1 if way[-1][0] >= way[0][0] else -1
    forward: list[tuple[float, float]] = []
    for x, y in way:
        while forward and sign * (x - forward[-1][0]) < 2 * STEP:
            forward.pop()
        forward.append((x, y))
    return forward[::sign]


def walkable(ground: Profile, first: int, last: int) -> Profile:
    """No slope steeper than allowed at points first to last - 1; neighbours too near in the way are left
    out."""
    walk = ground[:first]
    for p in ground[first:last]:
        if walk:
            reach = STEEP * (p.x - walk[-1].x)
            p = p._replace(y=round(clamp(p.y, walk[-1].y - reach, walk[-1].y + reach), 6))
        walk.append(p)
    rest, edge = ground[last:], walk[-1]
    while len(rest) > 1 and abs(rest[0].y - edge.y) > STEEP * (rest[0].x - edge.x):
        rest = rest[1:]
    for end in rest[:1]:  # the last point cannot be left out
        reach = STEEP * (end.x - edge.x)
        rest[0] = end._replace(y=clamp(end.y, edge.y - reach, edge.y + reach))
    return [*walk, *rest]
