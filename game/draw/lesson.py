"""The picture of a lesson: every case's head at impact with bounce and lean drawn on it, how far its ball
goes, how often the player's strokes come off, and the same on every lie."""

from dataclasses import dataclass, replace
from math import cos, hypot, isfinite, pi, sin

import numpy as np
import pygame

from game.draw import turf
from game.draw.camera import Camera, Rect
from game.draw.clubhead import HOSEL, Pose, draw_club, shaft, turned
from game.draw.palette import DARK, LIGHT, Colour, Palette
from game.draw.pen import Pen, gradient, sheet
from game.draw.slope import Tilted, on_slope
from game.draw.type import Type, Word
from game.text.cautions import NOTE, PRESET_NOTE
from game.text.lesson import (
    TITLES,
    angle_name,
    case_name,
    did_words,
    measure_word,
    shown_words,
    stop_words,
)
from levels.lessons import LessonCase, PlayedLesson
from physics.cause import lie_surface
from physics.equipment import BALL
from physics.results import Shot
from physics.surfaces import SURFACES

__all__ = [
    "IMPACT_WIDE", "ImpactAngle", "LessonLayout", "ball_at_impact", "cut_so_far", "draw_impact",
    "draw_lesson", "impact_angles", "impact_camera", "impact_words", "lesson_layout", "pose_at_impact",
]  # fmt: skip

SIZE = (1600, 900)
ZOOM = 3
IMPACT_WIDE, IMPACT_TALL = 0.140, 0.112  # m of the close-up that always shows
CARRIED = 0.010  # m beyond its place at which the picture follows the ball
MIDDLE = -0.022  # m, of the close-up: between ball and shaft
UNDER = 0.030  # m of ground that always shows
RAY, SHORT_RAY = 0.050, 0.040  # m, arms of bounce and of lean
ARC_BOUNCE, ARC_LEAN = 0.040, 0.032  # m, radii of their arcs
AXLE = 0.032  # m up the shaft line from the edge where the lean is drawn

Point = tuple[float, float]


# ---- one head at impact


def pose_at_impact(shot: Shot) -> Pose | None:
    """The head as it meets the ball; at its deepest where it misses; None where nothing was recorded."""
    sole = shot.strike.sole
    if not sole.t:
        return None
    at = (
        int(np.argmin(np.abs(np.asarray(sole.t) - shot.strike.time)))
        if isfinite(shot.strike.time)
        else int(np.argmin(sole.edge[1]))
    )
    return Pose("ball", at, sole.edge[0][at], sole.edge[1][at], sole.lean[at])


def impact_camera(box: Rect, shot: Shot | None = None) -> Camera:
    """True scale, ball right of the middle, ground low. With a `shot` whose ball sand has carried on, it goes
    with them to where club and ball meet."""
    scale = min(box.w / IMPACT_WIDE, box.h / IMPACT_TALL)
    floor = box.bottom - max(UNDER * scale, 0.26 * box.h)
    pose = pose_at_impact(shot) if shot else None
    along = pose.x if pose and pose.x > CARRIED else 0.0
    return Camera(scale, box.x + 0.5 * box.w - (MIDDLE + along) * scale, floor)


def ball_at_impact(camera: Tilted, shot: Shot) -> tuple[Point, Point]:
    """Middle of the ball (px) at rest, and as the club meets it: sand may have carried it on."""
    rest = camera.at(0.0, lie_surface(shot.course).ball_raise + shot.course.lie.lift + BALL.radius)
    if not shot.launch:
        return rest, rest
    side = -1.0 if camera.mirrored else 1.0  # the flight is of the world, which no slope has turned
    return rest, (
        camera.x0 + side * shot.run.x[0] * camera.scale, camera.y0 - shot.run.y[0] * camera.scale,
    )  # fmt: skip


@dataclass(frozen=True)
class ImpactAngle:
    """An angle to be drawn: where its arms meet, their directions (rad, y up) and its name."""

    at: Point
    first: float
    second: float
    long: float  # m, of the arms
    radius: float  # m, of the arc
    name: str
    left: bool  # its name stands to the left of the arc


def impact_angles(shot: Shot, pose: Pose, numbers: bool) -> tuple[ImpactAngle, ImpactAngle]:
    """Bounce between the level and the sole, lean between the plumb line and the shaft."""
    bounce = shot.strike.bounce
    if not isfinite(bounce):
        bounce = shot.setup.club.bounce - pose.lean
    foot = turned([HOSEL[0]], pose)[0]
    up = pi / 2 - pose.lean
    axle = (foot[0] + AXLE * cos(up), foot[1] + AXLE * sin(up))
    return (
        ImpactAngle(
            (pose.x, pose.y), pi, pi + bounce, RAY, ARC_BOUNCE, angle_name("bounce", bounce, numbers), True
        ),
        ImpactAngle(
            axle, pi / 2, up, SHORT_RAY, ARC_LEAN, angle_name("lean", pose.lean, numbers), pose.lean >= 0.0
        ),
    )


def impact_words(type_: Type, box: Rect, shot: Shot, numbers: bool, role: str = "strong") -> tuple[Word, ...]:
    """Names of the two angles beside their arcs, kept inside the box and off each other."""
    pose = pose_at_impact(shot)
    if pose is None:
        return ()
    camera, pad = impact_camera(box, shot), 0.45 * type_.line("small")
    bounce, lean = impact_angles(shot, pose, numbers)
    fit = [r for r in (role, "small") if type_.width(bounce.name, r) < 0.5 * box.w] or ["small"]
    role = fit[0]
    tall = type_.line(role)
    x, _ = camera.at(bounce.at[0] - RAY, 0.0)
    lowest = max(
        camera.at(0.0, bounce.at[1] + bounce.radius * sin(bounce.second))[1], camera.at(*bounce.at)[1]
    )
    words = [type_.word(bounce.name, role, x, lowest + pad, "ink")]
    ax, ay = camera.at(lean.at[0], lean.at[1] + 0.5 * lean.radius)
    side = 1.0 if lean.left else 0.0
    words.append(type_.word(lean.name, role, ax + (pad if not lean.left else -pad), ay, "ink", side))
    out = []
    for word in words:
        b = word.box
        left = min(max(b.x, box.x + pad), box.right - b.w - pad)
        top = min(max(b.y, box.y + 0.5 * pad), box.bottom - tall - 0.5 * pad)
        out.append(word.moved(left - b.x, top - b.y))
    return tuple(out)


def draw_impact(
    pen: Pen, box: Rect, shot: Shot, palette: Palette, unit: float, words: tuple[Word, ...],
    numbers: bool = True,
) -> None:  # fmt: skip
    """Ground, ball and head at impact, large, with the two angles; `words` are theirs, drawn by the
    caller on the plates made here."""
    camera = impact_camera(box, shot)
    pose = pose_at_impact(shot)
    with pen.inside(box):
        gradient(pen, box, [(0.0, palette.sky_high), (0.8, palette.sky_low), (1.0, palette.sky_low)])
        so_far = cut_so_far(shot, pose.x if pose else -1.0)
        turf.soil(pen, box, so_far, camera, palette, unit)
        slope = on_slope(camera, shot.course)
        if pose:
            shaft(pen, slope, palette, pose, unit)
        _ball(pen, slope, shot, palette, unit)
        if pose:
            draw_club(pen, slope, palette, shot, pose, True, unit)
        turf.blades(pen, box, so_far, camera, palette, unit)
        if pose:
            for angle in impact_angles(shot, pose, numbers):
                _draw_angle(pen, slope, angle, palette, unit)
        for word in words:
            _plate(pen, word.box, palette, unit)


def cut_so_far(shot: Shot, edge: float) -> Shot:
    """The shot with the ground cut only as far (m) as the edge has come."""
    xs, ys = shot.strike.divot
    n = sum(x <= edge for x in xs)
    return replace(shot, strike=replace(shot.strike, divot=(xs[:n], ys[:n])))


def _ball(pen: Pen, camera: Tilted, shot: Shot, palette: Palette, unit: float) -> None:
    """The ball where the club meets it; where it lay is dashed, when sand has carried it on."""
    (rest, at), r = ball_at_impact(camera, shot), BALL.radius * camera.scale
    if hypot(at[0] - rest[0], at[1] - rest[1]) > 0.25 * r:
        turns = np.linspace(0.0, 2.0 * pi, 49).tolist()
        lay = [(rest[0] + r * cos(t), rest[1] + r * sin(t)) for t in turns]
        pen.dashes(lay, 1.6 * unit, palette.outline, 5 * unit, 4 * unit)
    pen.disc(at, r, palette.outline)
    pen.disc(at, r - 1.8 * unit, palette.ball)
    pen.disc((at[0] + 0.16 * r, at[1] + 0.18 * r), 0.70 * r, palette.steel_lit, 40)


def _draw_angle(pen: Pen, camera: Tilted, angle: ImpactAngle, palette: Palette, unit: float) -> None:
    """Both arms, the reference one dashed, and the arc between them, on a light rim."""

    def ray(turn: float, long: float) -> Point:
        return camera.at(angle.at[0] + long * cos(turn), angle.at[1] + long * sin(turn))

    turns = np.linspace(angle.first, angle.second, 24)
    arc = [ray(float(a), angle.radius) for a in turns]
    start = camera.at(*angle.at)
    first, second = [start, ray(angle.first, angle.long)], [start, ray(angle.second, angle.long)]
    for line, wide in ((first, 4.6), (second, 5.0), (arc, 5.0)):
        pen.line(line, wide * unit, palette.halo, 170)
    pen.dashes(first, 1.8 * unit, palette.ink, 6 * unit, 4 * unit)
    pen.line(second, 2.2 * unit, palette.landing)
    pen.line(arc, 2.4 * unit, palette.landing)


def _plate(pen: Pen, box: Rect, palette: Palette, unit: float) -> None:
    """Paper behind a word that stands on the picture."""
    pad = 3.0 * unit
    corners = [(box.x - pad, box.y), (box.right + pad, box.y),
               (box.right + pad, box.bottom), (box.x - pad, box.bottom)]  # fmt: skip
    pen.fill(corners, palette.paper, 225)


# ---- the page


@dataclass(frozen=True)
class _Bar:
    """A bar with its share filled."""

    box: Rect
    share: float
    tone: str


@dataclass(frozen=True)
class _Track:
    """Where a ball ends on a line from the club to the hole or beyond."""

    box: Rect
    ball: float  # share of the line
    hole: float | None


@dataclass(frozen=True)
class _Row:
    """One lie of the table: shares of the first and second case on a scale of 100."""

    box: Rect
    shares: tuple[float, ...]


@dataclass(frozen=True)
class LessonLayout:
    """Where everything goes."""

    unit: float
    type: Type
    windows: tuple[Rect, ...]
    angles: tuple[tuple[Word, ...], ...]  # inside each window
    tracks: tuple[_Track, ...]
    bars: tuple[_Bar, ...]
    rows: tuple[_Row, ...]
    words: tuple[Word, ...]

    @property
    def boxes(self) -> list[Rect]:
        """Everything that must stand apart."""
        marks = [t.box for t in self.tracks] + [b.box for b in self.bars] + [r.box for r in self.rows]
        return [*self.windows, *marks, *(w.box for w in self.words)]


def draw_lesson(made: PlayedLesson, size: tuple[int, int] = SIZE, dark: bool = False) -> pygame.Surface:
    """The picture of `size` px; needs no display. The lesson must be whole."""
    palette = DARK if dark else LIGHT
    p = lesson_layout(made, size)
    page = pygame.Surface(size, 0, 32)
    page.fill(palette.paper)
    for case, box, names in zip(made.cases, p.windows, p.angles, strict=True):
        pen = sheet(box.w, box.h, ZOOM)
        inner = tuple(word.moved(-box.x, -box.y) for word in names)
        draw_impact(pen, Rect(0, 0, box.w, box.h), case.shot, palette, p.unit, inner)
        page.blit(pen.shrink(), (round(box.x), round(box.y)))
    whole = Pen(pygame.transform.scale_by(page, ZOOM), ZOOM)
    for bar in p.bars:
        _draw_bar(whole, bar, palette, p.unit)
    for track in p.tracks:
        _draw_track(whole, track, palette, p.unit)
    for row in p.rows:
        _draw_row(whole, row, palette, p.unit)
    page = whole.shrink()
    for word in (*p.words, *(w for names in p.angles for w in names)):
        p.type.draw(page, word, getattr(palette, word.tone))
    return page


def _quad(box: Rect) -> list[Point]:
    return [(box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom)]


def _draw_bar(pen: Pen, bar: _Bar, palette: Palette, unit: float) -> None:
    box = bar.box
    pen.fill(_quad(box), palette.rule)
    colour: Colour = getattr(palette, bar.tone)
    if bar.share > 0.0:
        pen.fill(_quad(Rect(box.x, box.y, box.w * bar.share, box.h)), colour)
    pen.line([*_quad(box), (box.x, box.y)], 1.0 * unit, palette.ink)


def _draw_track(pen: Pen, track: _Track, palette: Palette, unit: float) -> None:
    """The ground as a line, the hole's flag, the ball where it ends."""
    box, r = track.box, 0.28 * track.box.h
    y = box.bottom - 2 * unit
    pen.line([(box.x, y), (box.right, y)], 1.6 * unit, palette.fairway)
    if track.hole is not None:
        x = box.x + track.hole * box.w
        pen.line([(x, y), (x, box.y)], 1.6 * unit, palette.ink)
        tip = (x - 0.55 * box.h, box.y + 0.22 * box.h)
        pen.fill([(x, box.y), tip, (x, box.y + 0.44 * box.h)], palette.flag)
    x = min(max(box.x + track.ball * box.w, box.x + r), box.right - r)
    pen.disc((x, y - r), r, palette.outline)
    pen.disc((x, y - r), r - 1.4 * unit, palette.ball)


def _draw_row(pen: Pen, row: _Row, palette: Palette, unit: float) -> None:
    """First case as a full disc, second as a ring, and what lies between them."""
    box, r = row.box, 0.30 * row.box.h
    y = box.y + 0.5 * box.h
    pen.line([(box.x, y), (box.right, y)], 1.0 * unit, palette.rule)
    ends = [box.x + r + share * (box.w - 2 * r) for share in row.shares[:2]]
    pen.line([(ends[0], y), (ends[1], y)], 2.6 * unit, palette.landing if ends[1] < ends[0] else palette.path)
    pen.disc((ends[1], y), r, palette.landing)
    pen.disc((ends[1], y), 0.55 * r, palette.paper)
    pen.disc((ends[0], y), r, palette.path)


# ---- layout


def lesson_layout(made: PlayedLesson, size: tuple[int, int]) -> LessonLayout:
    """Cases side by side under the caption, the table of lies to their right, notes at the foot."""
    w, h = size
    unit = min(w / SIZE[0], h / SIZE[1])
    type_ = Type(max(unit, 0.72))
    margin, gap = 40 * unit, 28 * unit
    words: list[Word] = list(_rows(type_, TITLES[made.name], "title", "ink", margin, 0.6 * margin, w))
    said = _said(made)
    words += _rows(type_, said, "body", "ink", margin, words[-1].box.bottom, w - 2 * margin)
    notes = _rows(type_, _notes(made), "small", "muted", margin, 0.0, w - 2 * margin)
    foot = h - 0.5 * margin - notes[-1].box.bottom
    notes = tuple(word.moved(0.0, foot) for word in notes)
    top, bottom = words[-1].box.bottom + 0.4 * gap, notes[0].box.y - 0.4 * gap
    words += notes
    n = len(made.cases)
    side = 0.25 * (w - 2 * margin)
    wide = (w - 2 * margin - side - gap * n) / n
    under = max(_under(made, case, type_, Rect(0.0, 0.0, wide, 0.0))[3] for case in made.cases)
    title = max(len(type_.wrap(case_name(made, c), "lead", wide)) for c in made.cases) * type_.line("lead")
    tall = max(bottom - top - title - under - 0.3 * gap, 1.0)
    windows, tracks, bars = [], [], []
    for i, case in enumerate(made.cases):
        x = margin + i * (wide + gap)
        words += _rows(type_, case_name(made, case), "lead", "ink", x, top, wide)
        windows.append(Rect(round(x), round(top + title), round(wide), round(tall)))
        below = Rect(x, top + title + tall + 0.3 * gap, wide, 0.0)
        more, track, two, _ = _under(made, case, type_, below)
        words += more
        tracks.append(track)
        bars += two
    right = Rect(w - margin - side, top, side, bottom - top)
    rows, more = _lies(made, type_, right)
    angles = tuple(
        impact_words(type_, box, case.shot, True, "strong")
        for box, case in zip(windows, made.cases, strict=True)
    )
    return LessonLayout(
        unit, type_, tuple(windows), angles, tuple(tracks), tuple(bars), rows, (*words, *more)
    )  # fmt: skip


def _rows(type_: Type, text: str, role: str, tone: str, x: float, y: float, width: float) -> tuple[Word, ...]:
    lines = type_.wrap(text, role, width)
    return tuple(type_.word(row, role, x, y + i * type_.line(role), tone) for i, row in enumerate(lines))


def _said(made: PlayedLesson) -> str:
    """The mistake, and what the table shows."""
    stands = "" if made.forgiven else f" Even {case_name(made, made.cases[0])} cannot stand it."
    mistake = f"The same small mistake each time: the sole arrives {made.low * 1e3:.0f} mm too low.{stands}"
    return " ".join((mistake, *shown_words(made)))


def _notes(made: PlayedLesson) -> str:
    lie, player = SURFACES[made.lie].label, made.spread.label
    return (
        f"From {lie}, {made.strokes} strokes of a player called {player}, the same strays in each case. "
        "Solid: within a quarter of the distance of the same stroke with nothing in the way. As set: solid, "
        f"and within a quarter of what the address promised. {PRESET_NOTE} {NOTE}"
    )


def _furthest(made: PlayedLesson) -> float:
    hole = made.course.hole
    ends = [abs(case.shot.run.rest) for case in made.cases]
    return 1.05 * max(*ends, hole.x if hole else 0.0, 1.0)


def _under(
    made: PlayedLesson, case: LessonCase, type_: Type, box: Rect
) -> tuple[list[Word], _Track, list[_Bar], float]:
    """What stands under a window: what happened, the ball's way, two bars; and the height of it all."""
    line = type_.line("label")
    did = did_words(case)
    words = list(_rows(type_, did[:1].upper() + did[1:], "label", "ink", box.x, box.y, box.w))
    spare = 2 - len(words)  # keep the rows of all cases level
    y = box.y + (len(words) + max(spare, 0)) * line
    hole, far = made.course.hole, _furthest(made)
    track = _Track(
        Rect(box.x, y + 0.2 * line, box.w, 1.3 * line), max(case.shot.run.rest, 0.0) / far,
        hole.x / far if hole else None,
    )  # fmt: skip
    y = track.box.bottom + 0.1 * line
    stop = stop_words(case.shot)
    words += _rows(type_, stop[:1].upper() + stop[1:], "label", "ink", box.x, y, box.w)
    y += 1.25 * line
    bars = []
    for share, name, tone in ((case.solid, "solid", "path"), (case.as_set, "as set", "stops")):
        assert share is not None
        word = type_.word(f"{share.of_100} of 100 {name}", "strong", box.x, y, "ink")
        words.append(word)
        y += line
        bars.append(_Bar(Rect(box.x, y + 0.05 * line, box.w, 0.42 * line), share.value, tone))
        y += 0.65 * line
    return words, track, bars, y - box.y


def _lies(made: PlayedLesson, type_: Type, box: Rect) -> tuple[tuple[_Row, ...], list[Word]]:
    """The table of lies as pairs of marks on a scale of 100."""
    heading = f"{measure_word(made).capitalize()} of 100, by lie"
    words = list(_rows(type_, heading, "lead", "ink", box.x, box.y, box.w))
    line, y = type_.line("label"), words[-1].box.bottom
    legend = " to ".join(_lower(case_name(made, case)) for case in made.cases[:2])
    words += _rows(type_, legend[:1].upper() + legend[1:], "small", "muted", box.x, y, box.w)
    y = words[-1].box.bottom + 0.4 * line
    step = min((box.bottom - y) / max(len(made.table), 1), 3.4 * line)
    rows = []
    for row in made.table:
        first, second = row.measured(made.by_promise)[:2]
        role = "strong" if row.lie == made.lie else "label"
        words.append(type_.word(SURFACES[row.lie].label, role, box.x, y, "ink"))
        told = f"{first.of_100} to {second.of_100}"
        words.append(type_.word(told, "label", box.right, y, "ink", 1.0))
        under = Rect(box.x, y + line, box.w, min(0.8 * line, step - 1.05 * line))
        rows.append(_Row(under, (first.value, second.value)))
        y += step
    return tuple(rows), words


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
