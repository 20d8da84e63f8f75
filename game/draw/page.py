"""The layout of one page for one Shot: pure, so that a test can ask whether anything overlaps."""

from dataclasses import dataclass
from math import isfinite

import numpy as np

from game.draw import caption, course, golfer, path, turf
from game.draw.camera import Camera, Rect
from game.draw.caption import Facts
from game.draw.type import Type, Word, rail
from game.text.cautions import NOTE, PRESET_NOTE
from physics.course import Tree, Wall
from physics.equipment import FLAGSTICK
from physics.results import Outcome, Shot
from physics.spread import EXACT
from physics.surfaces import SURFACES

__all__ = ["Asked", "Mark", "Plan", "course_marks", "plan"]

LARGE = 1.35  # text scale above which the figure makes room for words

Mark = tuple[str, float, float]  # label, x and height of its place (m)


@dataclass(frozen=True)
class Asked:
    """What is to be on the page."""

    shot: Shot
    sentences: tuple[str, ...] = ()
    facts: Facts = ()
    ghost: Shot | None = None
    stops: tuple[float, ...] = ()


@dataclass(frozen=True)
class Plan:
    """Where everything goes. `golfer` is None where large text takes its place."""

    size: tuple[int, int]
    unit: float  # px of a line of weight 1
    type: Type
    course: Rect  # the scene, to the foot of its earth
    camera: Camera
    turf: Rect
    golfer: Rect | None
    titles: tuple[Word, ...]
    marks: tuple[Word, ...]  # along the foot of the course
    labels: tuple[Word, ...]  # inside the turf window
    said: tuple[Word, ...]  # sentences and facts
    rest: tuple[Word, ...]  # headings, address, notes
    whole: bool  # every sentence found room

    @property
    def words(self) -> tuple[Word, ...]:
        return self.titles + self.marks + self.labels + self.said + self.rest


def plan(asked: Asked, size: tuple[int, int] = (1600, 1000), text_scale: float = 1.0) -> Plan:
    """Lay the page out at that text scale (1 to 2).

    Pictures give way to words. Only when the sentences would not fit at all does the text step down,
    a tenth at a time.
    """
    tenths = round(10 * min(max(text_scale, 1.0), 2.0))
    made = _at(asked, size, tenths / 10)
    while not made.whole and tenths > 10:
        tenths -= 1
        made = _at(asked, size, tenths / 10)
    return made


def _at(asked: Asked, size: tuple[int, int], text_scale: float) -> Plan:
    w, h = size
    unit = min(w / 1600, h / 1000)
    type_ = Type(max(unit, 0.8) * text_scale, text_scale)
    large = text_scale > LARGE
    margin, gap = 44 * unit, 40 * unit
    notes = _notes(type_, asked.shot, w, h, margin)
    titles = _titles(type_, asked.shot, margin, large)
    box, camera = _course(asked, size, unit, titles[-1].box.bottom + 14 * unit, large)
    strip = Rect(margin, box.bottom - 14 * unit, w - 2 * margin, 1e6)
    items = tuple((text, camera.at(x, 0)[0], "ink") for text, x, _ in course_marks(asked))
    marks = rail(type_, items, strip, "label")
    top = max((m.box.bottom for m in marks), default=box.bottom) + (0.4 if large else 0.7) * gap
    low = Rect(margin, top, w - 2 * margin, notes[0].box.y - 0.4 * gap - top)
    lower = _lower_large if large else _lower
    window, figure, said, rest, whole = lower(asked, type_, low, unit, gap)
    labels = turf.legend(type_, window) + turf.labels(type_, window, asked.shot)
    return Plan(
        size, unit, type_, box, camera, window, figure, titles, marks, labels, said, (*rest, *notes), whole
    )


def _titles(type_: Type, shot: Shot, margin: float, large: bool) -> tuple[Word, ...]:
    name = shot.course.name
    title = type_.word(name[:1].upper() + name[1:], "title", margin, (0.4 if large else 0.7) * margin, "ink")
    lie = shot.course.lie.surface or course.surface_at(shot.course, 0.0)
    wind = shot.course.wind
    air = f", wind {abs(wind):.0f} m/s {'helping' if wind > 0 else 'against'}" if abs(wind) >= 0.5 else ""
    under = f"{shot.setup.club.label}, from {SURFACES[lie].label}{air}"
    return title, type_.word(under, "label", margin, title.box.bottom, "muted")


def _notes(type_: Type, shot: Shot, w: float, h: float, margin: float) -> tuple[Word, ...]:
    text = NOTE if shot.spread == EXACT else f"{NOTE} {PRESET_NOTE}"
    lines = type_.wrap(text, "small", w - 2 * margin)
    high = type_.line("small")
    top = h - 0.55 * margin - len(lines) * high
    return tuple(type_.word(t, "small", margin, top + i * high, "muted") for i, t in enumerate(lines))


def _scene(asked: Asked) -> Rect:
    """World box (m) the course view must hold: x left, y highest; w wide, h down to the lowest ground."""
    shot = asked.shot
    runs = [shot.run] + ([asked.ghost.run] if asked.ghost else [])
    xs = [0.0, *asked.stops, *(x for run in runs for x in run.x)]
    tops = [1.75, *(y for run in runs for y in run.y)]
    if shot.course.hole:
        xs.append(shot.course.hole.x)
        tops.append(course.ground_at(shot.course, shot.course.hole.x) + FLAGSTICK.height)
    pad = max(0.07 * (max(xs) - min(xs)), 0.9)
    left, right = min(xs) - pad - 0.4, max(xs) + pad
    for h in shot.course.hazards:
        if isinstance(h, Tree | Wall) and left <= h.x <= right:
            tall = h.trunk + h.radius if isinstance(h, Tree) else h.height
            tops.append(course.ground_at(shot.course, h.x) + tall)
    inside = [
        y for x, y in zip(shot.course.ground.x, shot.course.ground.y, strict=True) if left <= x <= right
    ]
    low = min([*inside, course.ground_at(shot.course, left), course.ground_at(shot.course, right)])
    return Rect(left, max(tops), right - left, max(tops) - low)


def _course(asked: Asked, size: tuple[int, int], unit: float, air: float, large: bool) -> tuple[Rect, Camera]:
    """The strip and its camera at true scale: full width, or full height when the flight is steep.

    `air` px above the scene are the title's.
    """
    w, h = size
    scene = _scene(asked)
    earth = (60 if large else 86) * unit
    natural = scene.h * w / scene.w + earth + air
    tall = round(min(max(natural, 0.36 * h), (0.43 if large else 0.54) * h))
    scale = min(w / scene.w, (tall - earth - air) / scene.h)
    x0 = w / 2 - (scene.x + scene.w / 2) * scale
    return Rect(0, 0, w, tall), Camera(scale, x0, tall - earth + (scene.y - scene.h) * scale)


def course_marks(asked: Asked) -> tuple[Mark, ...]:
    """What is named along the foot of the course, the most telling first."""
    shot, out = asked.shot, []
    run = shot.run
    if run.outcome in (Outcome.REST, Outcome.HOLED):
        word = "stopped" if run.outcome is Outcome.REST else "holed"
        out.append((f"{word} {caption.metres(run.rest)}", run.rest))
    elif run.outcome is not Outcome.MISSED:
        out.append((run.outcome.value, run.x[-1]))
    at = path.landing_at(run)
    if at is not None and isfinite(run.carry):
        out.append((f"landed {caption.metres(run.carry)}", run.x[at]))
    if shot.course.hole and run.outcome is not Outcome.HOLED:
        out.append((f"hole {caption.metres(shot.course.hole.x)}", shot.course.hole.x))
    if len(asked.stops) > 1:
        out.append(("likely stops", float(np.quantile(asked.stops, 0.1))))
    return tuple((text, x, course.ground_at(shot.course, x)) for text, x in out)


Lower = tuple[Rect, Rect | None, tuple[Word, ...], tuple[Word, ...], bool]


def _window(asked: Asked, type_: Type, box: Rect, unit: float) -> tuple[Rect, tuple[Word, ...]]:
    """Turf window under its heading, with the angles beside it where there is room."""
    head = type_.word("Turf at the ball", "strong", box.x, box.y, "ink")
    angles = turf.summary(asked.shot)
    words = [head]
    if angles and type_.width(angles, "small") < box.w - head.box.w - 20 * unit:
        drop = head.box.h - type_.line("small")
        words.append(type_.word(angles, "small", box.right, box.y + drop * 0.6, "muted", 1.0))
    top = head.box.bottom + 6 * unit
    return Rect(box.x, top, box.w, max(box.bottom - top, 1)), tuple(words)


def _lower(asked: Asked, type_: Type, box: Rect, unit: float, gap: float) -> Lower:
    """Three columns: turf, words, golfer."""
    inner = box.w - 2 * gap
    window, heads = _window(asked, type_, Rect(box.x, box.y, 0.40 * inner, box.h), unit)
    text = Rect(window.right + gap, box.y, 0.29 * inner, box.h)
    said, whole = caption.words(type_, text, asked.sentences, asked.facts)
    x = text.right + gap
    head = type_.word("Address", "strong", x, box.y, "ink")
    address = golfer.words(type_, Rect(x, 0, box.right - x, 0), asked.shot.setup)
    foot = box.bottom - sum(a.box.h for a in address)
    figure = Rect(x, head.box.bottom, box.right - x, max(foot - head.box.bottom - 16 * unit, 1))
    return window, figure, said, (*heads, head, *(a.moved(0, foot) for a in address)), whole


def _lower_large(asked: Asked, type_: Type, box: Rect, unit: float, gap: float) -> Lower:
    """Two columns: words, turf. The golfer still stands in the course view."""
    text = Rect(box.x, box.y, 0.60 * box.w - gap, box.h)
    said, whole = caption.words(type_, text, asked.sentences, asked.facts)
    if not whole:  # the facts also stand along the course
        said, whole = caption.words(type_, text, asked.sentences, ())
    window, heads = _window(asked, type_, Rect(text.right + gap, box.y, 0.40 * box.w, box.h), unit)
    return window, None, said, heads, whole
