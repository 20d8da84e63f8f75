"""The layout of one page for one Shot: pure, so that a test can ask whether anything overlaps."""

from dataclasses import dataclass

from game.draw import caption, course, golfer, turf
from game.draw.camera import Camera, Rect
from game.draw.caption import FactRows
from game.draw.course_marks import course_marks
from game.draw.type import Type, Word, rail
from game.text.cautions import NOTE, PRESET_NOTE
from game.text.mark import Mark, mark_words
from physics.course import Tree, Wall
from physics.equipment import FLAGSTICK
from physics.results import Shot
from physics.spread import EXACT
from physics.surfaces import SURFACES

__all__ = ["PageContents", "PageLayout", "page_layout", "page_marks"]

LARGE = 1.35  # text scale above which the figure makes room for words


@dataclass(frozen=True)
class PageContents:
    """What is to be on the page."""

    shot: Shot
    sentences: tuple[str, ...] = ()
    facts: FactRows = ()
    ghost: Shot | None = None
    stops: tuple[float, ...] = ()


@dataclass(frozen=True)
class PageLayout:
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
    legend: tuple[Word, ...]  # inside the turf window: which line is which
    labels: tuple[Word, ...]  # inside the turf window: its marks
    said: tuple[Word, ...]  # sentences and facts
    rest: tuple[Word, ...]  # headings, address, notes
    whole: bool  # every sentence found room

    @property
    def words(self) -> tuple[Word, ...]:
        return self.titles + self.marks + self.legend + self.labels + self.said + self.rest


def page_layout(
    contents: PageContents, size: tuple[int, int] = (1600, 1000), text_scale: float = 1.0
) -> PageLayout:
    """Lay the page out at that text scale (1 to 2).

    Pictures give way to words. Only when the sentences would not fit at all does the text step down,
    a tenth at a time.
    """
    tenths = round(10 * min(max(text_scale, 1.0), 2.0))
    made = _at(contents, size, tenths / 10)
    while not made.whole and tenths > 10:
        tenths -= 1
        made = _at(contents, size, tenths / 10)
    return made


def _at(contents: PageContents, size: tuple[int, int], text_scale: float) -> PageLayout:
    w, h = size
    unit = min(w / 1600, h / 1000)
    type_ = Type(max(unit, 0.8) * text_scale, text_scale)
    large = text_scale > LARGE
    margin, gap = 44 * unit, 40 * unit
    notes = _notes(type_, contents.shot, w, h, margin)
    titles = _titles(type_, contents.shot, margin, large)
    box, camera = _course(contents, size, unit, titles[-1].box.bottom + 14 * unit, large)
    strip = Rect(margin, box.bottom - 14 * unit, w - 2 * margin, 1e6)
    items = tuple((mark_words(m), camera.at(m.x, 0)[0], "ink") for m in page_marks(contents))
    marks = rail(type_, items, strip, "label")
    top = max((m.box.bottom for m in marks), default=box.bottom) + (0.4 if large else 0.7) * gap
    low = Rect(margin, top, w - 2 * margin, notes[0].box.y - 0.4 * gap - top)
    lower = _lower_large if large else _lower
    window, figure, said, rest, whole = lower(contents, type_, low, unit, gap)
    legend, labels = turf.legend(type_, window), turf.labels(type_, window, contents.shot)
    return PageLayout(
        size,
        unit,
        type_,
        box,
        camera,
        window,
        figure,
        titles,
        marks,
        legend,
        labels,
        said,
        (*rest, *notes),
        whole,
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


def _scene(contents: PageContents) -> Rect:
    """World box (m) the course view must hold: x left, y highest; w wide, h down to the lowest ground."""
    shot = contents.shot
    runs = [shot.run] + ([contents.ghost.run] if contents.ghost else [])
    xs = [0.0, *contents.stops, *(x for run in runs for x in run.x)]
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


def _course(
    contents: PageContents, size: tuple[int, int], unit: float, air: float, large: bool
) -> tuple[Rect, Camera]:
    """The strip and its camera at true scale: full width, or full height when the flight is steep.

    `air` px above the scene are the title's.
    """
    w, h = size
    scene = _scene(contents)
    earth = (60 if large else 86) * unit
    natural = scene.h * w / scene.w + earth + air
    tall = round(min(max(natural, 0.36 * h), (0.43 if large else 0.54) * h))
    scale = min(w / scene.w, (tall - earth - air) / scene.h)
    x0 = w / 2 - (scene.x + scene.w / 2) * scale
    return Rect(0, 0, w, tall), Camera(scale, x0, tall - earth + (scene.y - scene.h) * scale)


def page_marks(contents: PageContents) -> tuple[Mark, ...]:
    """What is named along the foot of the course."""
    return course_marks(contents.shot.course, contents.shot, contents.stops)


Lower = tuple[Rect, Rect | None, tuple[Word, ...], tuple[Word, ...], bool]


def _window(contents: PageContents, type_: Type, box: Rect, unit: float) -> tuple[Rect, tuple[Word, ...]]:
    """Turf window under its heading, with the angles beside it where there is room."""
    head = type_.word("Turf at impact", "strong", box.x, box.y, "ink")
    angles = turf.angles_at_ball(contents.shot)
    words = [head]
    if angles and type_.width(angles, "small") < box.w - head.box.w - 20 * unit:
        drop = head.box.h - type_.line("small")
        words.append(type_.word(angles, "small", box.right, box.y + drop * 0.6, "muted", 1.0))
    top = head.box.bottom + 6 * unit
    return Rect(box.x, top, box.w, max(box.bottom - top, 1)), tuple(words)


def _lower(contents: PageContents, type_: Type, box: Rect, unit: float, gap: float) -> Lower:
    """Three columns: turf, words, golfer."""
    inner = box.w - 2 * gap
    window, heads = _window(contents, type_, Rect(box.x, box.y, 0.40 * inner, box.h), unit)
    text = Rect(window.right + gap, box.y, 0.29 * inner, box.h)
    said, whole = caption.place_caption(type_, text, contents.sentences, contents.facts)
    x = text.right + gap
    head = type_.word("Address", "strong", x, box.y, "ink")
    address = golfer.address_words(type_, Rect(x, 0, box.right - x, 0), contents.shot.setup)
    foot = box.bottom - sum(a.box.h for a in address)
    figure = Rect(x, head.box.bottom, box.right - x, max(foot - head.box.bottom - 16 * unit, 1))
    return window, figure, said, (*heads, head, *(a.moved(0, foot) for a in address)), whole


def _lower_large(contents: PageContents, type_: Type, box: Rect, unit: float, gap: float) -> Lower:
    """Two columns: words, turf. The golfer still stands in the course view."""
    text = Rect(box.x, box.y, 0.60 * box.w - gap, box.h)
    said, whole = caption.place_caption(type_, text, contents.sentences, contents.facts)
    if not whole:  # the facts also stand along the course
        said, whole = caption.place_caption(type_, text, contents.sentences, ())
    window, heads = _window(contents, type_, Rect(text.right + gap, box.y, 0.40 * box.w, box.h), unit)
    return window, None, said, heads, whole
