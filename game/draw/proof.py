"""A proof as a picture: three kinds of shot in rows, and the chance over the two controls that matter most.

`proof_view` plays the shots that are drawn and belongs beside the picture's thread; laying out and
drawing compute no shot.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

import pygame

from game.draw import chart, golfer, path
from game.draw.camera import Camera, Rect
from game.draw.course import draw_hazards, draw_standing, ground_at, top_colour
from game.draw.palette import DARK, LIGHT, Palette, mix
from game.draw.pen import Pen
from game.draw.type import Type, Word
from game.text import proof as words
from game.text.cautions import NOTE, PRESET_NOTE
from levels.proof import FamilyProof, Proof
from levels.scenario import Scenario
from physics.course import Course, Tree, Water
from physics.equipment import FLAGSTICK
from physics.results import Shot

__all__ = ["ProofPlan", "ProofView", "draw_proof", "plan_proof", "proof_page", "proof_view"]

ZOOM = 3
PICTURE = (230.0, 96.0)  # px of a row's picture at text scale 1
CHART_SHARE = 0.46  # of the width that the chart takes beside the rows
BESIDE = 900.0  # px of width at text scale 1 from which the chart stands beside the rows
MOST_BEHIND, MOST_BEYOND = 4.0, 14.0  # m of scenery behind the ball and beyond all balls that are shown
AIR = 1.9  # m kept over the ground in a row's picture, the height of a player


@dataclass(frozen=True)
class ProofView:
    """What is drawn: the proof, the exact shot of each kind's best set-up, the marks on the chart."""

    title: str
    proof: Proof
    shots: tuple[Shot | None, ...]
    marks: tuple[chart.ChartMark, ...]
    stale: bool = False


def proof_view(scenario: Scenario, proof: Proof, shots: tuple[Shot | None, ...]) -> ProofView:
    """The proof with the shots of its kinds (`levels.proof_shots.best_shots`), ready to be drawn."""
    marks = chart.chart_marks(scenario, proof) if proof.chart else ()
    return ProofView(scenario.title, proof, shots, marks, proof.digest != scenario.digest)


@dataclass(frozen=True)
class ProofPlan:
    """Where everything goes."""

    type: Type
    words: tuple[Word, ...]
    rows: tuple[Rect, ...]  # pictures of the three kinds
    chart: chart.ChartPlan | None
    signs: tuple[Rect, ...]  # beside each warning
    height: float


def plan_proof(view: ProofView, box: Rect, scale: float = 1.0) -> ProofPlan:
    """Lay out from the top of the box; the height may go beyond it where the text is large."""
    type_, gap = Type(scale, scale), 16.0 * scale
    beside = view.proof.chart is not None and box.w >= BESIDE * scale
    left = Rect(box.x, box.y, box.w * (1.0 - CHART_SHARE) - gap if beside else box.w, box.h)
    lead, y = _lines(type_, words.lead(view.proof), "lead", left.x, left.y, left.w)
    if view.stale:
        stale, y = _lines(type_, words.stale_words(), "body", left.x, y + 0.3 * gap, left.w)
        lead += stale
    rows: list[Rect] = []
    placed = list(lead)
    for family in view.proof.families:
        picture, told, y = _row(type_, family, left, y + gap, scale)
        rows.append(picture)
        placed += told
    drawn = None
    if view.proof.chart is not None:
        corner = (left.right + 2.0 * gap, box.y) if beside else (box.x, y + gap)
        drawn = chart.plan_chart(view.proof.chart, view.marks, corner, box.right - corner[0], type_)
        placed += drawn.words
        y = y if beside else drawn.bottom
    said, signs, y = _said(type_, view.proof, left, y + gap)
    foot = max(y, drawn.bottom if drawn else y)
    return ProofPlan(type_, (*placed, *said), tuple(rows), drawn, signs, foot - box.y)


def _lines(
    type_: Type, text: str, role: str, x: float, y: float, width: float, tone: str = "ink"
) -> tuple[list[Word], float]:
    high = type_.line(role)
    lines = type_.wrap(text, role, width)
    return [type_.word(t, role, x, y + i * high, tone) for i, t in enumerate(lines)], y + len(lines) * high


def _row(
    type_: Type, family: FamilyProof, box: Rect, y: float, scale: float
) -> tuple[Rect, list[Word], float]:
    """Picture and words of one kind; the words stand beside the picture, or under it where it is narrow."""
    wide = min(PICTURE[0] * scale, 0.42 * box.w)
    picture = Rect(box.x, y, wide, wide * PICTURE[1] / PICTURE[0])
    x = picture.right + 16.0 * scale
    role = "body" if family.solvable else "label"
    told, end = _lines(type_, words.family_words(family), role, x, y, box.right - x)
    how, end = _lines(type_, words.setup_words(family), "small", x, end + 2.0 * scale, box.right - x, "muted")
    return picture, told + how, max(picture.bottom, end)


def _said(
    type_: Type, proof: Proof, box: Rect, y: float
) -> tuple[list[Word], tuple[Rect, ...], float]:  # fmt: skip
    """Warnings first, then what else there is to say."""
    placed: list[Word] = []
    signs: list[Rect] = []
    indent, space = 1.5 * type_.line("body"), 0.35 * type_.line("body")
    for warning in proof.warnings:
        told, end = _lines(type_, warning, "body", box.x + indent, y, box.w - indent)
        signs.append(Rect(box.x, y, 0.9 * type_.line("body"), type_.line("body")))
        placed, y = placed + told, end + space
    for sentence in (*words.forgiveness_words(proof), words.default_words(proof), words.match_words(proof)):
        told, end = _lines(type_, sentence, "label", box.x, y, box.w)
        placed, y = placed + told, end + space
    return placed, tuple(signs), y


# ---- drawing


def draw_proof(
    surface: pygame.Surface, box: Rect, view: ProofView, palette: Palette, scale: float = 1.0,
    left_handed: bool = False,
) -> float:  # fmt: skip
    """Draw the proof from the top of the box on a page of the palette's paper; returns its height (px)."""
    plan = plan_proof(view, box, scale)
    camera = _camera(view, plan.rows[0], left_handed)
    for picture, family, shot in zip(plan.rows, view.proof.families, view.shots, strict=True):
        _picture(surface, picture, family, shot, camera, palette, scale)
    if plan.chart:
        chart.draw_chart(surface, plan.chart, palette, plan.type)
    for sign in plan.signs:
        _sign(surface, sign, palette)
    for word in plan.words:
        plan.type.draw(surface, word, getattr(palette, word.tone))
    return plan.height


def _camera(view: ProofView, box: Rect, left_handed: bool) -> Camera | None:
    """One scale for the three pictures, so that their heights can be compared; origin in the box."""
    shots = [s for s in view.shots if s]
    if not shots:
        return None
    course = shots[0].course
    far = max([course.hole.x if course.hole else 1.0, *(max(s.run.x) for s in shots)]) + 0.8
    near = min([-1.1, *(min(s.run.x) for s in shots)])
    for left, right in _scenery(course):  # what can be seen of it is part of the task
        near, far = min(near, max(left, -MOST_BEHIND)), max(far, min(right, far + MOST_BEYOND))
    tops = [max(s.run.y) for s in shots]
    tops += [
        ground_at(course, t.x) + t.trunk + t.radius
        for t in course.hazards
        if isinstance(t, Tree) and near < t.x < far
    ]
    grounds = [ground_at(course, near + (far - near) * k / 60) for k in range(61)]
    grounds += [h.level - 0.3 for h in course.hazards if isinstance(h, Water) and near < h.left < far]
    low, top = min(grounds), max([AIR, *tops]) + 0.15
    scale = min(box.w / (far - near), 0.86 * box.h / (top - low))
    middle = 0.5 * (near + far)
    side = -1.0 if left_handed else 1.0
    return Camera(scale, 0.5 * box.w - side * middle * scale, 0.94 * box.h + low * scale - 3.0, left_handed)


def _scenery(course: Course) -> list[tuple[float, float]]:
    """From and to (m) of every tree and every water."""
    out = [(t.x - t.radius, t.x + t.radius) for t in course.hazards if isinstance(t, Tree)]
    return sorted(out + [(h.left, h.right) for h in course.hazards if isinstance(h, Water)])


def _picture(
    surface: pygame.Surface, box: Rect, family: FamilyProof, shot: Shot | None, camera: Camera | None,
    palette: Palette, scale: float,
) -> None:  # fmt: skip
    """Ground, player, flight and roll of one kind; empty ground where it cannot be set up."""
    w, h = ceil(box.w), ceil(box.h)
    pen = Pen(pygame.Surface((w * ZOOM, h * ZOOM), 0, 32), ZOOM)
    pen.surface.fill(mix(palette.paper, palette.sky_high, 0.55))
    if camera is None or shot is None:
        line = [(0.0, 0.86 * h), (float(w), 0.86 * h)]
        pen.fill([*line, (float(w), float(h)), (0.0, float(h))], mix(palette.paper, palette.rule, 0.6))
        pen.dashes(line, 1.2 * scale, palette.muted, 5, 5)
    else:
        draw_standing(pen, shot.course, camera, palette, 0.55 * scale)
        _earth(pen, shot, camera, palette, w, h)
        draw_hazards(pen, shot.course, camera, palette, 0.55 * scale, float(h))
        _flag(pen, shot, camera, palette, scale)
        golfer.golfer_figure(pen, camera, palette, shot.setup, shot.swing, 0.5 * scale)
        path.path(pen, camera, palette, shot.run, 0.55 * scale)
        path.landing_diamond(pen, camera, palette, shot.run, 0.6 * scale)
    surface.blit(pen.shrink(), (round(box.x), round(box.y)))
    edge = palette.path if family.solvable else palette.rule
    wide = max(round((2.0 if family.solvable else 1.0) * scale), 1)
    pygame.draw.rect(surface, edge, (round(box.x), round(box.y), w, h), wide)


def _earth(pen: Pen, shot: Shot, camera: Camera, palette: Palette, w: int, h: int) -> None:
    """The profile, each stretch in the colour of what grows there."""
    g = shot.course.ground
    ends = sorted(camera.world(px, 0)[0] for px in (0, w))
    knots = [ends[0], *(x for x in g.x if ends[0] < x < ends[1]), ends[1]]
    line = [camera.at(x, ground_at(shot.course, x)) for x in knots]
    pen.fill([*line, (line[-1][0], h), (line[0][0], h)], palette.soil)
    for a, b in pairwise(knots):
        middle = 0.5 * (a + b)
        i = max(k for k, x in enumerate((-1e9, *g.x[1:-1])) if x <= middle)
        top = [camera.at(x, ground_at(shot.course, x)) for x in (a, b)]
        pen.line(top, max(3.0, 0.05 * camera.scale), top_colour(palette, g.surfaces[i]))


def _flag(pen: Pen, shot: Shot, camera: Camera, palette: Palette, scale: float) -> None:
    hole = shot.course.hole
    if hole is None:
        return
    ground = ground_at(shot.course, hole.x)
    foot, top = camera.at(hole.x, ground), camera.at(hole.x, ground + 0.8 * FLAGSTICK.height)
    pen.line([foot, top], 1.1 * scale, palette.outline if palette is LIGHT else palette.steel_lit)
    cloth = [top, (top[0] + 8 * scale, top[1] + 3 * scale), (top[0], top[1] + 6 * scale)]
    pen.fill(cloth, palette.flag)


def _sign(surface: pygame.Surface, box: Rect, palette: Palette) -> None:
    """A hollow triangle with a stroke in it: look at this."""
    size = 0.72 * box.h
    pen = Pen(pygame.Surface((ceil(size) * ZOOM, ceil(size) * ZOOM), 0, 32), ZOOM)
    pen.surface.fill(palette.paper)
    corners = [(0.5 * size, 0.08 * size), (0.94 * size, 0.88 * size), (0.06 * size, 0.88 * size)]
    pen.line([*corners, corners[0]], 0.09 * size, palette.landing)
    pen.line([(0.5 * size, 0.38 * size), (0.5 * size, 0.6 * size)], 0.09 * size, palette.landing)
    pen.disc((0.5 * size, 0.75 * size), 0.05 * size, palette.landing)
    surface.blit(pen.shrink(), (round(box.x), round(box.y + 0.14 * box.h)))


def proof_page(
    view: ProofView, width: int = 1280, dark: bool = False, scale: float = 1.0
) -> pygame.Surface:  # fmt: skip
    """A proof on a page of its own, as high as it needs."""
    palette = DARK if dark else LIGHT
    type_, margin = Type(scale, scale), 36.0 * scale
    title, top = _lines(type_, view.title, "title", margin, 0.7 * margin, width - 2 * margin)
    box = Rect(margin, top + 0.4 * margin, width - 2 * margin, 1e5)
    plan = plan_proof(view, box, scale)
    notes, foot = _lines(
        type_, f"{NOTE} {PRESET_NOTE}", "small", margin, box.y + plan.height + 0.5 * margin, box.w, "muted"
    )
    page = pygame.Surface((width, ceil(foot + 0.6 * margin)), 0, 32)
    page.fill(palette.paper)
    for word in (*title, *notes):
        type_.draw(page, word, getattr(palette, word.tone))
    draw_proof(page, box, view, palette, scale)
    return page
