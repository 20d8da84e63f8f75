"""The recap on one side of paper: where every word, head and line of the table goes."""

from dataclasses import dataclass, field

from game.draw.camera import Rect
from game.draw.palette import Colour
from game.draw.printed import PAPERS, Fill, Ink, PrintedPage, Ruled, Words, print_lines, printed_width
from game.draw.recap_heads import PRINT, printed_head
from game.text.cautions import MODEL_NOTE, NOTE, PRESET_NOTE, cautions
from game.text.recap import (
    Recap,
    date_words,
    recap_cause,
    recap_counted,
    recap_drill,
    recap_focus,
    recap_plan,
    recap_retest,
    recap_rows,
    recap_title,
    side_did,
    side_names,
)
from physics.spread import EXACT

__all__ = ["PrintSizes", "recap_page", "recap_sizes"]

MARGIN = 42.0  # pt, about 15 mm: inside what home printers reach
LEAST_HEADS = 195.0  # pt, height of the pictures that always stays
HEADS_SHAPE = 0.95  # tallest picture, over its width
LEADING = 1.32
SMALLEST = 0.7  # of its size, to which type may shrink so that all fits one side
BLANK_NAME = "_" * 22


@dataclass(frozen=True)
class PrintSizes:
    """Sizes of type (pt)."""

    title: float = 23.0
    lead: float = 14.5
    head: float = 13.5
    body: float = 12.0
    small: float = 9.4

    def times(self, by: float) -> "PrintSizes":
        return PrintSizes(*(v * by for v in (self.title, self.lead, self.head, self.body, self.small)))


ADULT, JUNIOR = PrintSizes(), PrintSizes(26.0, 18.0, 16.5, 15.0, 11.5)


@dataclass
class _Column:
    """Words set one under the other from the top of a box."""

    x: float
    y: float
    wide: float
    inks: list[Ink] = field(default_factory=list)

    def say(self, text: str, size: float, colour: Colour = PRINT.ink, bold: bool = False) -> None:
        for line in print_lines(text, size, self.wide, bold):
            self.y += LEADING * size
            self.inks.append(Words(line, self.x, self.y - 0.3 * size, size, colour, bold))

    def named(self, name: str, text: str, size: float, indent: float) -> None:
        """A bold name in the margin and its text beside it."""
        top = self.y
        beside = _Column(self.x + indent, top, self.wide - indent)
        beside.say(text, size)
        self.inks.append(Words(name, self.x, top + 1.02 * size, size, PRINT.ink, True))
        self.inks += beside.inks
        self.y = beside.y


def recap_sizes(recap: Recap) -> PrintSizes:
    """Sizes before anything has to shrink."""
    return JUNIOR if recap.junior else ADULT


def recap_page(recap: Recap, paper: str = "A4") -> PrintedPage:
    """The page. Words that would leave the heads too little room are set smaller, a twentieth at a time.
    KeyError for a paper that is none of PAPERS."""
    size = PAPERS[paper]
    made, fits = _page(recap, size, recap_sizes(recap))
    twentieths = 19
    while not fits and twentieths / 20 >= SMALLEST:
        made, fits = _page(recap, size, recap_sizes(recap).times(twentieths / 20))
        twentieths -= 1
    return made


def _page(recap: Recap, size: tuple[float, float], s: PrintSizes) -> tuple[PrintedPage, bool]:
    w, h = size
    inner = Rect(MARGIN, MARGIN, w - 2 * MARGIN, h - 2 * MARGIN)
    top = _top(recap, inner, s)
    foot = _foot(recap, inner, s)
    foot_tall = foot.y - inner.y
    gap = s.body
    half = (inner.w - 1.5 * gap) / 2
    unders = [_under(recap, k, half, s) for k in (0, 1)]
    under_tall = max(c.y for c in unders)
    room = inner.bottom - foot_tall - top.y - under_tall - 3.0 * gap - LEADING * s.head
    tall = min(max(room, LEAST_HEADS), HEADS_SHAPE * half)
    slack = max(room - tall, 0.0)
    inks = list(top.inks)
    y = top.y + gap + 0.4 * slack
    for k, (side, name) in enumerate(zip(recap.sides, side_names(recap), strict=True)):
        x = inner.x + k * (half + 1.5 * gap)
        inks.append(Words(name, x, y + 0.95 * s.head, s.head, PRINT.ink, True))
        box = Rect(x, y + LEADING * s.head, half, tall)
        inks += printed_head(box, side.shot, s.body)
        inks += _moved(unders[k].inks, x, box.bottom + 0.2 * gap)
    low = max(inner.bottom - foot_tall, y + LEADING * s.head + tall + under_tall + gap)
    inks += _moved(foot.inks, 0.0, low - inner.y)
    return PrintedPage(size, recap_title(recap), tuple(inks)), room >= LEAST_HEADS


def _top(recap: Recap, inner: Rect, s: PrintSizes) -> _Column:
    """Title, day, pupil, and the one sentence of cause."""
    day = date_words(recap.day)
    column = _Column(inner.x, inner.y, inner.w)
    column.say(recap_title(recap), s.title, bold=True)
    column.y += 0.25 * s.body
    column.say(f"For {recap.pupil or BLANK_NAME}", s.body)
    last = column.inks[-1]
    assert isinstance(last, Words)
    if last.box.right + 2 * s.body + printed_width(day, s.body) > inner.right:
        column.say(day, s.body)
    else:
        column.inks.append(Words(day, inner.right, last.y, s.body, PRINT.ink, align=1.0))
    column.y += 0.4 * s.body
    column.inks.append(Ruled(((inner.x, column.y), (inner.right, column.y)), 0.8, PRINT.rule))
    column.y += 0.3 * s.body
    column.say(recap_cause(recap), s.lead, bold=True)
    return column


def _under(recap: Recap, which: int, wide: float, s: PrintSizes) -> _Column:
    """What came of a stroke, under its head; placed at the origin."""
    column = _Column(0.0, 0.0, wide)
    column.say(side_did(recap, recap.sides[which]), s.body)
    return column


def _foot(recap: Recap, inner: Rect, s: PrintSizes) -> _Column:
    """Table, focus, drill, plan, retest, safety and what the page is not; placed at the top of `inner`."""
    column = _Column(inner.x, inner.y, inner.w)
    _table(column, recap, s)
    column.y += 0.7 * s.body
    names = ("Focus", "Drill", "Plan", "Retest")
    indent = max(printed_width(name, s.body, True) for name in names) + s.body
    words = (recap_focus(recap), recap_drill(recap), recap_plan(recap), recap_retest(recap))
    for name, text in zip(names, words, strict=True):
        column.named(name, text, s.body, indent)
        column.y += 0.3 * s.body
    column.y += 0.4 * s.body
    top, pad = column.y, 0.6 * s.small
    safety = _Column(inner.x + pad, top + 0.6 * pad, inner.w - 2 * pad)
    safety.say(f"Safety. {cautions()}", s.small, bold=True)
    low = safety.y + pad
    corners = ((inner.x, top), (inner.right, top), (inner.right, low), (inner.x, low))
    column.inks += [Fill(corners, PRINT.shade), Ruled((*corners, corners[0]), 0.8, PRINT.rule), *safety.inks]
    column.y = low + 0.4 * s.small
    notes = [MODEL_NOTE, NOTE]
    if recap.first.shot.spread != EXACT or recap.first.solid:
        notes.append(PRESET_NOTE)
    if counted := recap_counted(recap):
        notes.append(counted)
    column.say(" ".join(notes), s.small, PRINT.muted)
    return column


def _table(column: _Column, recap: Recap, s: PrintSizes) -> None:
    """Five lines under two heads."""
    first, second = side_names(recap)
    right, middle = column.x + column.wide, column.x + 0.78 * column.wide
    tall = 1.55 * s.body
    for k, (label, a, b) in enumerate((("", first, second), *recap_rows(recap))):
        y = column.y + (k + 1) * tall - 0.45 * s.body
        if label:
            column.inks.append(Words(label, column.x, y, s.body, PRINT.ink))
        for text, x in ((a, middle), (b, right)):
            column.inks.append(Words(text, x, y, s.body, PRINT.ink, True, 1.0))
        line = column.y + (k + 1) * tall
        ends = ((column.x, line), (right, line))
        column.inks.append(Ruled(ends, 0.9 if k == 0 else 0.5, PRINT.ink if k == 0 else PRINT.rule))
    column.y += 6 * tall


def _moved(inks: list[Ink], dx: float, dy: float) -> list[Ink]:
    """Words and shapes elsewhere."""
    out: list[Ink] = []
    for ink in inks:
        if isinstance(ink, Words):
            out.append(Words(ink.text, ink.x + dx, ink.y + dy, ink.size, ink.colour, ink.bold, ink.align))
        elif isinstance(ink, Fill):
            out.append(Fill(tuple((x + dx, y + dy) for x, y in ink.points), ink.colour))
        elif isinstance(ink, Ruled):
            points = tuple((x + dx, y + dy) for x, y in ink.points)
            out.append(Ruled(points, ink.width, ink.colour, ink.dash))
    return out
