"""Where the parts of the Bench stand: pure boxes, so that a test can ask whether any two overlap."""

from dataclasses import dataclass

from game.draw.camera import Rect
from game.ui import layout

__all__ = ["NARROW", "WORD_LINES", "BenchPlaces", "Sizes", "bench_is_tight", "tight", "wide"]

NARROW, LOW = 95.0, 58.0  # steps of the rhythm below which one part shows at a time
BOTH = 40.0  # steps of height that hold course and words together
UPPER, TURF = 0.50, 0.60  # shares: course of the pictures' height, turf of the lower row's width
WORDS, WORD_LINES = 0.20, (3.0, 6.5)  # share of the height for words, held to so many lines
BOTH_WORDS, BOTH_LINES = 0.355, 12.0  # the same where two set-ups are told beside each other
LOW_WORDS, LOW_BOX = 0.42, 96.0  # their share in a box lower than so many steps of the rhythm


@dataclass(frozen=True)
class Sizes:
    """Heights and widths (px) the parts ask for."""

    gap: float
    play: float  # height of the button to play
    ribbon: float
    line: float  # of the sentences
    side: float = 0.0  # width of the tabs
    under: float = 0.0  # height left under the box that tabs may use
    pair: bool = False  # two set-ups are told, each in half the width
    least: float = WORD_LINES[0]  # lines of words that always have room


@dataclass(frozen=True)
class BenchPlaces:
    """Boxes of everything. `second` holds course and turf of B where two set-ups stand side by side."""

    course: Rect
    turf: Rect
    golfer: Rect
    words: Rect
    controls: Rect
    play: Rect
    ribbon: Rect
    second: tuple[Rect, Rect] | None = None
    both: bool = True  # course and words show together


def bench_is_tight(box: Rect, gap: float) -> bool:
    """Whether only one part has room at a time."""
    return box.w < NARROW * gap or box.h < LOW * gap


def wide(box: Rect, s: Sizes, beside: bool = False) -> BenchPlaces:
    """Course above, turf and golfer below it, words between; controls in a column on the right. Two
    set-ups `beside` each other halve the course and share the lower row."""
    gap = s.gap
    side = min(max(0.235 * box.w, 31 * gap), 46 * gap)
    left = Rect(box.x + gap, box.y, box.w - side - 3 * gap, box.h)
    right = Rect(left.right + gap, box.y + gap, side + gap, box.h - gap)
    play = Rect(right.x + gap, right.y, right.w - 2 * gap, s.play)
    controls = Rect(right.x, play.bottom + gap, right.w, right.h - s.play - gap)
    both = LOW_WORDS if box.h < LOW_BOX * gap else BOTH_WORDS
    share, most = (both, BOTH_LINES) if s.pair else (WORDS, WORD_LINES[1])
    said = min(max(share * box.h, s.least * s.line), most * s.line)  # any words: pictures must not jump
    room = left.h - s.ribbon - said - 2 * gap
    course = Rect(left.x, left.y, left.w, round(UPPER * room))
    words = Rect(left.x, course.bottom, left.w, said)
    lower = Rect(left.x, words.bottom, left.w, room - course.h)
    turf = Rect(lower.x, lower.y, TURF * lower.w, lower.h)
    golfer = Rect(turf.right + gap, lower.y, lower.right - turf.right - gap, lower.h)
    ribbon = Rect(left.x, lower.bottom + gap, left.w, s.ribbon)
    second = None
    if beside:
        course, course_b = layout.split(course, (1.0, 1.0), gap)
        turf, turf_b = layout.split(lower, (1.0, 1.0), gap)
        second = course_b, turf_b
    return BenchPlaces(course, turf, golfer, words, controls, play, ribbon, second)


def tight(box: Rect, s: Sizes, shows_course: bool, beside: bool = False) -> BenchPlaces:
    """One part at a time beside the tabs; play and time stay. Words stand under the course where both have
    room."""
    side = Rect(box.x, box.y, s.side, box.h + s.under)
    body = Rect(side.right, box.y, box.w - s.side, box.h - s.ribbon - s.gap)
    ribbon = Rect(body.x, body.bottom + s.gap / 2, body.w - s.gap, s.ribbon)
    course, words, both = body, body, body.h > BOTH * s.gap
    if both:
        course, lower = layout.split(body, (0.62, 0.38), down=True)
        words = lower if shows_course else body
    turf, second = body, None
    if beside:
        course, course_b = layout.split(course, (1.0, 1.0), s.gap, down=True)
        turf, turf_b = layout.split(body, (1.0, 1.0), s.gap)
        second = course_b, turf_b
    return BenchPlaces(course, turf, body, words, body, side, ribbon, second, both)
