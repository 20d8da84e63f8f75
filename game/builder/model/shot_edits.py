"""Edits of hole, ball, lie, controls, clubs and single values."""

from itertools import pairwise
from typing import Any

from game.builder.model.hazard_edits import hazards, nearest_free, standing
from game.builder.model.profile import Profile, clamp, fine, height, is_usable, mm, profile, raised
from levels.draft import Draft
from levels.parts import FILE_KEYS, X_HIGH, X_LOW
from levels.rules import Loc
from levels.scenario import MARGIN
from physics.address import CONTROLS
from physics.equipment import BAG, HOLE_RADIUS

__all__ = ["move_ball", "move_hole", "set_lie", "set_value", "toggle_club", "toggle_control"]

NEAREST, FARTHEST = 0.5, 100.0  # m, where a scenario's hole may be


def move_hole(d: Draft, x: float) -> Draft:
    """The hole as near x as green, what stands there and the end of the ground allow; without any green,
    anywhere."""
    ground = profile(d)
    if not ground or not isinstance(d.at(("hole",), {}), dict):
        return d
    high = min(FARTHEST, ground[-1].x - MARGIN)
    x = clamp(x, NEAREST, max(high, NEAREST))
    spans = [(max(a, NEAREST), min(b, high)) for a, b in _greens(ground)]
    places = [nearest_free(clamp(x, a, b), standing(d), a, b) for a, b in spans if a <= b]
    place = mm(min(places, key=lambda p: abs(p - x), default=x))
    return d.put(("hole", "x_m"), place)


def move_ball(d: Draft, x: float) -> Draft:
    """The ball put on the ground at x. It is the origin, so everything else moves the other way.

    The hole keeps its least distance, the ground its margin behind, and what stands is given room; what
    else no longer fits (a landing zone behind the ball, water over it) is told by the draft.
    """
    ground = profile(d)
    if not ground:
        return d
    hole = d.at(("hole", "x_m"))
    low = max(ground[0].x + MARGIN, ground[-1].x - X_HIGH)
    high = min((hole - NEAREST) if is_usable(hole) else X_HIGH, ground[-1].x - MARGIN, ground[0].x - X_LOW)
    if low > high:
        return d
    x = nearest_free(clamp(mm(x), low, high), standing(d), low, high)
    if x == 0.0:
        return d
    return raised(_shifted(d, -x), -round(height(ground, x), 6))


def set_lie(d: Draft, surface: str | None, lift_mm: float) -> Draft:
    """How the ball sits: surface under it (None: the ground's own) and how far it is raised (mm)."""
    d = set_value(d, ("lie", "surface"), surface)
    return set_value(d, ("lie", "lift_mm"), clamp(round(lift_mm, 1) + 0.0, -30.0, 60.0))


def set_value(d: Draft, loc: Loc, value: Any) -> Draft:
    """The value at the path; None takes the key out. The draft as it is where the path leads nowhere."""
    try:
        return d.remove(loc) if value is None else d.put(loc, value)
    except LookupError:
        return d


def toggle_control(d: Draft, name: str) -> Draft:
    """Open a control to the player, or close it: then its limits and its reference value go, too."""
    names = d.at(("open_controls",), [])
    if name not in CONTROLS or not isinstance(names, list):
        return d
    if name not in names:
        return d.put(("open_controls",), _in_order([*names, name], list(CONTROLS)))
    d = d.put(("open_controls",), [n for n in names if n != name])
    return d.remove(("limits", FILE_KEYS[name])).remove(("reference", FILE_KEYS[name]))


def toggle_club(d: Draft, name: str) -> Draft:
    """Offer a club, or take it away: then default and reference change to one that is offered."""
    names = d.at(("clubs",), [])
    if name not in BAG or not isinstance(names, list):
        return d
    names = [n for n in names if n != name] if name in names else _in_order([*names, name], list(BAG))
    d = d.put(("clubs",), names)
    if names and d.at(("default_setup", "club"), "SW") not in names:
        d = set_value(d, ("default_setup", "club"), names[0])
    if d.at(("reference", "club")) not in (None, *names):
        d = d.put(("reference", "club"), names[0]) if names else d.remove(("reference", "club"))
    return d


def _in_order(names: list[Any], order: list[str]) -> list[Any]:
    """In the order of the list the names come from, unless the file has an order of its own."""
    known = [n for n in order if n in names]
    return known if names[:-1] == [n for n in known if n != names[-1]] else names


def _greens(ground: Profile) -> list[tuple[float, float]]:
    """Spans in which a whole hole is on green."""
    spans: list[tuple[float, float]] = []
    for a, b in pairwise(ground):
        if a.surface == "green":
            joined = spans and spans[-1][1] == a.x
            spans = [*spans[:-1], (spans[-1][0], b.x)] if joined else [*spans, (a.x, b.x)]
    rim = HOLE_RADIUS + 1e-3
    return [(a + rim, b - rim) for a, b in spans if b - a > 2 * rim]


_ACROSS: tuple[Loc, ...] = (("hole", "x_m"), ("goal", "must_clear", "x_m"), ("goal", "land_between_m", 0),
                            ("goal", "land_between_m", 1))  # fmt: skip


def _shifted(d: Draft, dx: float) -> Draft:
    """Every place along the ground moved by dx (m)."""
    places: list[Loc] = [("ground", i, "x_m") for i in range(len(profile(d)))]
    for i in range(len(hazards(d))):
        places += [("hazards", i, key) for key in ("x_m", "left_m", "right_m")]
    for loc in (*places, *_ACROSS):
        if is_usable(value := d.at(loc)):
            d = d.put(loc, fine(value + dx))
    return d
