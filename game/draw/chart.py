"""The chart of a proof: the field, its axes in the controls' units, and the marks on it with their names."""

from dataclasses import dataclass
from itertools import pairwise
from math import floor, log10

import numpy as np
import pygame

from game.draw.camera import Rect
from game.draw.contour import field_colour, paint_field
from game.draw.palette import Palette
from game.draw.pen import Pen, Points
from game.draw.type import Type, Word
from game.text.quantity import figure_of_control
from levels.parts import FILE_KEYS, file_value
from levels.proof import Chart, Proof
from levels.scenario import Scenario
from physics.address import CONTROLS, Intention, Motion, Setup
from physics.equipment import BAG

__all__ = ["ChartMark", "ChartPlan", "chart_marks", "draw_chart", "plan_chart", "ticks"]

ZOOM = 3
TALL = 0.78  # height of the field over its width
SIZE = 8.0  # px from the middle of a mark to its corners at text scale 1


@dataclass(frozen=True)
class ChartMark:
    """One set-up on the chart: what it is called and where (in the units shown)."""

    name: str
    shape: str  # star, diamond or square
    across: float
    up: float


def chart_marks(scenario: Scenario, proof: Proof) -> tuple[ChartMark, ...]:
    """Best, reference and default; one mark where two of them are the same place."""
    chart, best = proof.chart, proof.best
    if chart is None or best is None or best.best is None:
        return ()
    keys = [FILE_KEYS[chart.across], FILE_KEYS[chart.up]]
    marks = [ChartMark("best found", "star", *(float(getattr(best.best, key)) for key in keys))]
    for name, shape, shot in (
        ("coach's set-up", "diamond", scenario.reference_shot()),
        ("default", "square", (scenario.setup(), scenario.motion())),
    ):
        if shot is None:
            continue
        at = [_value(shot, control) for control in (chart.across, chart.up)]
        other = "" if shot[0].club.name == chart.club else f", {shot[0].club.name}"
        if not other and at == [marks[0].across, marks[0].up]:
            marks[0] = ChartMark(f"{marks[0].name}: the {name}", "star", *at)
        else:
            marks.append(ChartMark(f"{name}{other}", shape, *at))
    return tuple(marks)


def _value(shot: tuple[Setup, Motion], control: str) -> float:
    return file_value(CONTROLS[control], Intention(*shot).value(control))


def ticks(low: float, high: float, most: int = 5) -> list[float]:
    """Round values between low and high, at most `most`."""
    raw = (high - low) / most
    size = 10.0 ** floor(log10(raw))
    step = next(m * size for m in (1.0, 2.0, 2.5, 5.0, 10.0) if m * size >= raw * 0.999)
    first = np.ceil(low / step - 1e-9) * step
    return [float(v) + 0.0 for v in np.round(np.arange(first, high + 1e-9 * step, step), 10)]


@dataclass(frozen=True)
class Spot:
    """A mark in its place (px); `way` is the side it lies beyond, "" inside."""

    shape: str
    x: float
    y: float
    way: str
    name: Word


@dataclass(frozen=True)
class ChartPlan:
    """Where the chart's parts go."""

    chart: Chart
    field: Rect
    spots: tuple[Spot, ...]
    words: tuple[Word, ...]  # axes and caption; the names of the spots are their own
    scale_bar: Rect
    ticks_across: tuple[float, ...]  # px
    ticks_up: tuple[float, ...]
    bottom: float


def plan_chart(
    chart: Chart, marks: tuple[ChartMark, ...], corner: tuple[float, float], width: float, type_: Type
) -> ChartPlan:
    """Lay the chart out in that width from its upper left corner."""
    x, y = corner
    small, gap = type_.line("small"), 0.5 * type_.line("small")
    words = [type_.word(_axis(chart.up), "label", x, y, "ink")]
    ups = [(v, figure_of_control(chart.up, v)) for v in ticks(*chart.up_limits)]
    room = max(type_.width(text, "small") for _, text in ups) + gap
    top = y + type_.line("label") + 0.6 * small  # the uppermost value stands clear
    field = Rect(x + room, top, width - room - gap, min((width - room) * TALL, 30.0 * small))
    rising = [(_place(v, chart.up_limits, field.bottom, field.y), text) for v, text in ups]
    words += [type_.word(text, "small", field.x - gap, py - 0.5 * small, "muted", 1.0) for py, text in rising]
    along, shown_ticks = _across(chart, field, type_, gap)
    words += shown_ticks
    low = field.bottom + gap + small
    words.append(type_.word(_axis(chart.across), "label", field.right, low, "ink", 1.0))
    bar, more, bottom = _caption(chart, Rect(x, low + 1.2 * type_.line("label"), width, 0), type_)
    return ChartPlan(
        chart, field, _spots(chart, marks, field, type_), (*words, *more), bar, tuple(along),
        tuple(py for py, _ in rising), bottom,
    )  # fmt: skip


def _axis(control: str) -> str:
    label = CONTROLS[control].label
    return label[:1].upper() + label[1:]


def _place(value: float, limits: tuple[float, float], at_low: float, at_high: float) -> float:
    return at_low + (value - limits[0]) / (limits[1] - limits[0]) * (at_high - at_low)


def _across(chart: Chart, field: Rect, type_: Type, gap: float) -> tuple[list[float], list[Word]]:
    """Ticks under the field: as many as have room for their values."""
    for most in (6, 5, 4, 3, 2):
        values = ticks(*chart.across_limits, most)
        along = [_place(v, chart.across_limits, field.x, field.right) for v in values]
        words = [
            type_.word(figure_of_control(chart.across, v), "small", px, field.bottom + gap, "muted", 0.5)
            for v, px in zip(values, along, strict=True)
        ]
        if all(a.box.right + gap < b.box.x for a, b in pairwise(words)):
            break
    return along, words


def _caption(chart: Chart, box: Rect, type_: Type) -> tuple[Rect, list[Word], float]:
    """The scale of colours with its ends named, and what is held still."""
    small = type_.line("small")
    first = type_.word("never", "small", box.x, box.y, "muted")
    bar = Rect(first.box.right + 0.5 * small, box.y + 0.25 * small, 5.0 * small, 0.5 * small)
    last = type_.word("always meets the goals; heavy line: half the time", "small", bar.right + 0.5 * small,
                      box.y, "muted")  # fmt: skip
    words, y = [first], box.y
    if last.box.right <= box.right:
        words.append(last)
        y += small
    else:
        words.append(type_.word("always", "small", last.box.x, box.y, "muted"))
        y += small
    club = BAG[chart.club].label
    rest = type_.wrap(f"{club[:1].upper()}{club[1:]}, everything else as in the best set-up.", "small", box.w)
    words += [type_.word(line, "small", box.x, y + i * small, "muted") for i, line in enumerate(rest)]
    return bar, words, y + len(rest) * small


def _spots(chart: Chart, marks: tuple[ChartMark, ...], field: Rect, type_: Type) -> tuple[Spot, ...]:
    """Marks in the field, or at its edge with an arrow; each name where it covers nothing."""
    size = SIZE * type_.scale
    inner = field.inset(2.6 * size)
    ends = [
        (_place(m.across, chart.across_limits, field.x, field.right),
         _place(m.up, chart.up_limits, field.bottom, field.y)) for m in marks
    ]  # fmt: skip
    held = [(min(max(x, inner.x), inner.right), min(max(y, inner.y), inner.bottom)) for x, y in ends]
    taken = [Rect(x - size, y - size, 2 * size, 2 * size) for x, y in held]
    spots: list[Spot] = []
    for mark, (x, y), (px, py) in zip(marks, ends, held, strict=True):
        way = ("left" if x < field.x else "right" if x > field.right else "") + (
            "up" if y < field.y else "down" if y > field.bottom else ""
        )  # fmt: skip
        px, py = (px, py) if way else (min(max(x, field.x), field.right), min(max(y, field.y), field.bottom))
        name = _name(mark.name + (" (further off)" if way else ""), px, py, size, field, taken, type_)
        taken.append(name.box)
        spots.append(Spot(mark.shape, px, py, way, name))
    return tuple(spots)


def _name(text: str, x: float, y: float, size: float, field: Rect, taken: list[Rect], type_: Type) -> Word:
    """The name beside, over or under its mark: the first place inside the field that is free."""
    high, off = type_.line("small"), 1.5 * size
    w = type_.width(text, "small")
    places = [
        (x + off, y - 0.5 * high), (x - off - w, y - 0.5 * high), (x - 0.5 * w, y - off - high),
        (x - 0.5 * w, y + off), (x + off, y - off - high), (x + off, y + off), (x - off - w, y + off),
        (x - off - w, y - off - high),
    ]  # fmt: skip
    words = [type_.word(text, "small", px, py, "ink") for px, py in places]
    free = [word for word in words if not any(word.box.overlaps(other) for other in taken)]
    return next((word for word in free if field.holds(word.box)), (free or words)[0])


# ---- drawing


def draw_chart(surface: pygame.Surface, plan: ChartPlan, palette: Palette, type_: Type) -> None:
    """Field, ticks, marks and their names; the other words are drawn by whoever laid the page out."""
    line = max(type_.scale, 1.0)
    paint_field(surface, plan.field, plan.chart.cells, palette, line)
    f = plan.field
    pygame.draw.rect(surface, palette.muted, (round(f.x), round(f.y), round(f.w), round(f.h)), round(line))
    for x in plan.ticks_across:
        pygame.draw.line(surface, palette.muted, (x, f.bottom), (x, f.bottom + 5 * line), round(line))
    for y in plan.ticks_up:
        pygame.draw.line(surface, palette.muted, (f.x - 5 * line, y), (f.x, y), round(line))
    _bar(surface, plan.scale_bar, palette)
    around = pygame.Rect(int(f.x) - 20, int(f.y) - 20, int(f.w) + 40, int(f.h) + 40).clip(surface.get_rect())
    enlarged = pygame.transform.scale(surface.subsurface(around), (around.w * ZOOM, around.h * ZOOM))
    pen = Pen(enlarged, ZOOM)
    for spot in plan.spots:
        _plate(pen, spot, palette, around)
    for spot in plan.spots:
        _spot(pen, spot, palette, (spot.x - around.x, spot.y - around.y), SIZE * type_.scale)
    surface.blit(pen.shrink(), around.topleft)
    for spot in plan.spots:
        type_.draw(surface, spot.name, palette.ink)


def _bar(surface: pygame.Surface, box: Rect, palette: Palette) -> None:
    edge = pygame.Rect(round(box.x), round(box.y), round(box.w), round(box.h))
    for i in range(edge.w):
        surface.fill(field_colour(palette, i / edge.w), (edge.x + i, edge.y, 1, edge.h))
    pygame.draw.rect(surface, palette.muted, edge, 1)


def _plate(pen: Pen, spot: Spot, palette: Palette, around: pygame.Rect) -> None:
    """Paper behind a name, so that it reads on every part of the field."""
    b = spot.name.box
    x, y, pad = b.x - around.x, b.y - around.y, 0.18 * b.h
    corners = [(x - pad, y), (x + b.w + pad, y), (x + b.w + pad, y + b.h), (x - pad, y + b.h)]
    pen.fill(corners, palette.paper, 205)


_RING = {
    "star": [(0.0, -1.15), (0.28, -0.38), (1.09, -0.36), (0.46, 0.15), (0.68, 0.93), (0.0, 0.48),
             (-0.68, 0.93), (-0.46, 0.15), (-1.09, -0.36), (-0.28, -0.38)],
    "diamond": [(0.0, -1.0), (0.85, 0.0), (0.0, 1.0), (-0.85, 0.0)],
    "square": [(-0.75, -0.75), (0.75, -0.75), (0.75, 0.75), (-0.75, 0.75)],
}  # fmt: skip
_WAY = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}


def _spot(pen: Pen, spot: Spot, palette: Palette, at: tuple[float, float], size: float) -> None:
    """The mark's shape on a light rim; one that lies beyond the field has an arrow that way."""
    x, y = at
    for side, (dx, dy) in _WAY.items():
        if side in spot.way:
            start = (x + dx * 1.0 * size, y + dy * 1.0 * size)
            pen.arrow(start, (x + dx * 2.2 * size, y + dy * 2.2 * size), 0.22 * size, palette.ink)
    tone = {"star": palette.landing, "diamond": palette.ink, "square": palette.ink}[spot.shape]
    ring: Points = _RING[spot.shape]
    for grown, colour in ((1.45, palette.halo), (1.05, tone)):
        pen.fill([(x + grown * size * a, y + grown * size * b) for a, b in ring], colour)
    if spot.shape == "square":  # hollow: nothing was chosen yet
        pen.fill([(x + 0.55 * size * a, y + 0.55 * size * b) for a, b in ring], palette.halo)
