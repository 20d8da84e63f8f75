"""One page for one finished Shot: course above, turf window, words and golfer below."""

from pathlib import Path
from typing import Any

import pygame

from game.draw import caption, course, golfer, path, turf
from game.draw.camera import Rect
from game.draw.caption import FactRows
from game.draw.page import PageContents, PageLayout, page_layout, page_marks
from game.draw.palette import DARK, LIGHT, Palette
from game.draw.pen import Pen
from physics.results import Outcome, Shot

__all__ = ["draw_shot", "save_png"]

ZOOM = 3  # shapes are drawn this many times larger, then shrunk


def draw_shot(
    shot: Shot, sentences: tuple[str, ...] = (), size: tuple[int, int] = (1600, 1000), dark: bool = False,
    ghost: Shot | None = None, text_scale: float = 1.0, *, facts: FactRows | None = None,
    stops: tuple[float, ...] = (), left_handed: bool = False,
) -> pygame.Surface:  # fmt: skip
    """The page as a surface of `size` px; needs no display.

    `sentences` are said as they come; `facts` (label, value) default to carry, roll and what is left;
    `stops` are x (m) where the same shot would likely end.
    """
    palette = DARK if dark else LIGHT
    contents = PageContents(
        shot, tuple(sentences), caption.facts_of(shot) if facts is None else facts, ghost, tuple(stops)
    )
    p = page_layout(contents, size, text_scale)
    page = pygame.Surface(size, 0, 32)
    page.fill(palette.paper)
    _draw_course(page, p, contents, palette, left_handed)
    _draw_turf(page, p, shot, palette)
    if p.golfer:
        pen, corner = _cut(page, p.golfer)
        box = Rect(p.golfer.x - corner[0], p.golfer.y - corner[1], p.golfer.w, p.golfer.h)
        golfer.draw_golfer(pen, box, shot, palette, p.unit, left_handed)
        page.blit(pen.shrink(), corner)
    for word in p.words:
        p.type.draw(page, word, getattr(palette, word.tone))
    return page


def save_png(file: str | Path, *args: Any, **kwargs: Any) -> Path:
    """Draw as `draw_shot` does and write a PNG. FileNotFoundError when its directory is not there."""
    target = Path(file)
    if not target.parent.is_dir():
        raise FileNotFoundError(f"no directory '{target.parent}' to save the picture in")
    pygame.image.save(draw_shot(*args, **kwargs), str(target))
    return target


def _cut(page: pygame.Surface, box: Rect) -> tuple[Pen, tuple[int, int]]:
    """An enlarged copy of the page around a box, with room for marks just outside it."""
    around = pygame.Rect(int(box.x) - 2, int(box.y) - 2, int(box.w) + 5, int(box.h) + 18)
    around = around.clip(page.get_rect())
    enlarged = pygame.transform.scale(page.subsurface(around), (around.w * ZOOM, around.h * ZOOM))
    return Pen(enlarged, ZOOM), around.topleft


def _draw_turf(page: pygame.Surface, p: PageLayout, shot: Shot, palette: Palette) -> None:
    pen, (x, y) = _cut(page, p.turf)
    legend, labels = (tuple(word.moved(-x, -y) for word in words) for words in (p.legend, p.labels))
    box = Rect(p.turf.x - x, p.turf.y - y, p.turf.w, p.turf.h)
    turf.draw_turf(pen, box, shot, palette, legend, labels, p.unit)
    page.blit(pen.shrink(), (x, y))


def _draw_course(
    page: pygame.Surface, p: PageLayout, contents: PageContents, palette: Palette, left_handed: bool
) -> None:  # fmt: skip
    shot, camera, unit = contents.shot, p.camera, p.unit
    still = course.layer(shot.course, camera, palette, int(p.course.w), int(p.course.h), unit, ZOOM)
    pen = Pen(still.copy(), ZOOM)
    path.stops(pen, camera, palette, shot.course, contents.stops, unit)
    golfer.golfer_figure(pen, camera, palette, shot.setup, shot.swing, unit, left_handed)
    if contents.ghost:
        path.ghost(pen, camera, palette, contents.ghost.run, shot.course, unit)
    path.path(pen, camera, palette, shot.run, unit)
    path.landing_diamond(pen, camera, palette, shot.run, unit)
    _leaders(pen, p, contents, palette)
    if shot.run.outcome in (Outcome.REST, Outcome.MISSED):
        path.draw_ball(
            pen, camera, palette, shot.run.rest, course.ground_at(shot.course, shot.run.rest), unit
        )
    page.blit(pen.shrink(), (0, 0))


def _leaders(pen: Pen, p: PageLayout, contents: PageContents, palette: Palette) -> None:
    """A hair line from each label under the course up to its place on the ground."""
    marks = page_marks(contents)
    for word in p.marks:
        place = marks[word.item].x
        x, ground = p.camera.at(place, course.ground_at(contents.shot.course, place))
        under = min(max(x, word.box.x + 6 * p.unit), word.box.right - 6 * p.unit)
        line = [
            (x, ground + 15 * p.unit),
            (x, max(word.box.y - 16 * p.unit, ground + 15 * p.unit)),
            (under, word.box.y),
        ]
        pen.line(line, 1.1 * p.unit, palette.ink, 190)
