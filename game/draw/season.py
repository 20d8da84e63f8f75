"""The season's map on one page: a strip of ground for each lie, a flag at each distance, what to play.

A disc says seek, a ring play, a triangle be careful; the word stands beside it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import pygame

from game.draw.camera import Rect
from game.draw.course import top_colour
from game.draw.palette import DARK, LIGHT, Palette
from game.draw.pen import Pen
from game.draw.type import Type, Word
from game.text.choice import ADVICE_WORDS, HOPEFUL, NO_SKILL, cell_odds, cell_words, season_notes, strip_words
from game.text.units import METRIC, UnitSystem
from levels.season import SeasonCell, SeasonMap

__all__ = ["SeasonPlan", "draw_season", "plan_season", "season_columns", "season_page", "season_rows"]

ZOOM = 3
FLAG, STRIP = 26.0, 7.0  # px of a flag and of the ground, at scale 1


@dataclass(frozen=True, eq=False)
class SeasonPlan:
    """A map laid out at a width (px): its words, the ground of each row, and the box of each place."""

    width: int
    height: int
    scale: float
    words: tuple[Word, ...]
    strips: tuple[tuple[tuple[SeasonCell, ...], Rect], ...]
    places: tuple[tuple[SeasonCell, Rect], ...]


def season_page(
    made: SeasonMap, width: int = 1280, dark: bool = False, scale: float = 1.0, units: UnitSystem = METRIC
) -> pygame.Surface:
    """A map on a page of its own, as high as it needs."""
    return draw_season(plan_season(made, width, scale, units), DARK if dark else LIGHT)


def plan_season(
    made: SeasonMap, width: int, scale: float = 1.0, units: UnitSystem = METRIC, bare: bool = False
) -> SeasonPlan:
    """Where everything of a map stands; `bare`: without its title and notes."""
    type_ = Type(scale, scale)
    margin = 12.0 * scale if bare else 36.0 * scale
    inner, words = width - 2 * margin, list[Word]()
    y = 0.7 * margin
    if not bare:
        y = _told(type_, words, f"Which shots to seek: {made.label}", "title", margin, y, inner)
        for note in season_notes():
            y = _told(type_, words, note, "label", margin, y + 2 * scale, inner)
    strips: list[tuple[tuple[SeasonCell, ...], Rect]] = []
    places: list[tuple[SeasonCell, Rect]] = []
    for k, cells in enumerate(season_rows(made)):
        over = 0.0 if bare and k == 0 else 14 * scale
        y = _told(type_, words, strip_words(cells[0]), "strong", margin, y + over, inner)
        top = y + 2 * scale
        ground = Rect(margin, y + (FLAG + 4) * scale, inner, STRIP * scale)
        strips.append((tuple(cells), ground))
        boxes = season_columns(cells, margin, inner, ground.bottom, 12.0 * scale)
        lows = [_cell(type_, words, c, box, units) for c, box in zip(cells, boxes, strict=True)]
        y = max([ground.bottom, *lows])
        places += [
            (c, Rect(box.x - 4 * scale, top, box.w + 4 * scale, y - top + 2 * scale))
            for c, box in zip(cells, boxes, strict=True)
        ]
    if not bare:
        y += 0.5 * margin
        for note in (HOPEFUL, NO_SKILL):
            y = _told(type_, words, note, "small", margin, y, inner, "muted")
    height = ceil(y + 0.6 * margin)
    return SeasonPlan(width, height, scale, tuple(words), tuple(strips), tuple(places))


def draw_season(plan: SeasonPlan, palette: Palette) -> pygame.Surface:
    """The planned map."""
    type_ = Type(plan.scale, plan.scale)
    page = pygame.Surface((plan.width, plan.height), 0, 32)
    page.fill(palette.paper)
    for cells, ground in plan.strips:
        _strip(page, cells, ground, palette, plan.scale)
    for word in plan.words:
        type_.draw(page, word, getattr(palette, word.tone))
    return page


def season_rows(made: SeasonMap) -> list[list[SeasonCell]]:
    """Cells of one lie and room together, nearest first."""
    rows: dict[tuple[str, str], list[SeasonCell]] = {}
    for cell in made.cells:
        rows.setdefault((cell.lie, cell.room), []).append(cell)
    return [sorted(cells, key=lambda c: c.distance) for cells in rows.values()]


def season_columns(
    cells: Sequence[SeasonCell], x: float, width: float, y: float, gap: float
) -> list[Rect]:  # fmt: skip
    """A place for each cell's words, its flag over its left end."""
    each = width / len(cells)
    return [Rect(x + i * each, y, each - gap, 0.0) for i in range(len(cells))]


def _told(
    type_: Type, words: list[Word], text: str, role: str, x: float, y: float, w: float, tone: str = "ink"
) -> float:
    for line in type_.wrap(text, role, w):
        words.append(type_.word(line, role, x, y, tone))
        y += type_.line(role)
    return y


def _cell(type_: Type, words: list[Word], cell: SeasonCell, box: Rect, units: UnitSystem) -> float:
    """Distance and advice beside the flag, then the shot and its odds under the ground."""
    high = type_.line("label")
    lead = f"{units.far(cell.distance)}: {ADVICE_WORDS[cell.advice]}"
    x, y = box.x + 2.3 * high, box.y + 2
    if x + type_.width(lead, "label") <= box.right:
        words.append(type_.word(lead, "label", x, box.y - high - (STRIP + 4) * type_.scale))
    else:  # large words in a narrow place
        y = _told(type_, words, lead, "strong", box.x, y, box.w)
    y = _told(type_, words, cell_words(cell).capitalize(), "label", box.x, y, box.w)
    return _told(type_, words, cell_odds(cell), "small", box.x, y, box.w, "muted")


def _strip(
    page: pygame.Surface, cells: Sequence[SeasonCell], box: Rect, palette: Palette, scale: float
) -> None:  # fmt: skip
    """The ground with its flags, and the sign of each advice."""
    high = ceil((FLAG + 4) * scale + box.h)
    pen = Pen(pygame.Surface((ceil(box.w) * ZOOM, high * ZOOM), 0, 32), ZOOM)
    pen.surface.fill(palette.paper)
    top = high - box.h
    pen.fill(
        [(0.0, top), (box.w, top), (box.w, float(high)), (0.0, float(high))],
        top_colour(palette, cells[0].lie),
    )
    for cell, place in zip(cells, season_columns(cells, 0.0, box.w, 0.0, 12.0), strict=True):
        _flag(pen, place.x + 4 * scale, top, palette, scale)
        _sign(pen, cell.advice, (place.x + 22 * scale, top - 14 * scale), palette, scale)
    page.blit(pen.shrink(), (round(box.x), round(box.y - top)))


def _flag(pen: Pen, x: float, foot: float, palette: Palette, scale: float) -> None:
    top = foot - FLAG * scale
    pen.line([(x, foot), (x, top)], 1.4 * scale, palette.ink)
    pen.fill([(x, top), (x + 9 * scale, top + 4 * scale), (x, top + 8 * scale)], palette.flag)


def _sign(pen: Pen, advice: str, at: tuple[float, float], palette: Palette, scale: float) -> None:
    x, y = at
    r = 5.5 * scale
    if advice == "careful":
        corners = [(x, y - r), (x + r, y + 0.8 * r), (x - r, y + 0.8 * r)]
        pen.line([*corners, corners[0]], 1.8 * scale, palette.landing)
        return
    pen.disc(at, r, palette.path)
    if advice == "play":
        pen.disc(at, r - 1.8 * scale, palette.paper)
