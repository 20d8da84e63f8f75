"""A printed page as values: words, shapes and lines in points (1/72 inch), y down, for PDF and picture."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from game.draw.camera import Rect
from game.draw.palette import Colour
from game.draw.type import face

__all__ = [
    "PAPERS",
    "Clipped",
    "Disc",
    "Fill",
    "Ink",
    "PrintedPage",
    "Ruled",
    "Words",
    "print_lines",
    "printed_width",
]  # fmt: skip

PAPERS = {"A4": (595.28, 841.89), "Letter": (612.0, 792.0)}  # pt; ISO 216, ANSI Y14.1
MEASURED_AT = 200  # px at which widths are measured: fine enough that rounding does not show
BOLD, PLAIN = 600, 400
ORPHAN = 6  # letters of a word that does not stand in a line of its own

Point = tuple[float, float]


@dataclass(frozen=True)
class Words:
    """One line of text on its baseline at y; x is its left (align 0), middle (0.5) or right (1)."""

    text: str
    x: float
    y: float
    size: float
    colour: Colour
    bold: bool = False
    align: float = 0.0

    @property
    def width(self) -> float:
        return printed_width(self.text, self.size, self.bold)

    @property
    def left(self) -> float:
        return self.x - self.align * self.width

    @property
    def box(self) -> Rect:
        """From the top of its capitals to the foot of its tails."""
        return Rect(self.left, self.y - 0.75 * self.size, self.width, 0.97 * self.size)


@dataclass(frozen=True)
class Fill:
    """A filled polygon."""

    points: tuple[Point, ...]
    colour: Colour


@dataclass(frozen=True)
class Ruled:
    """A line through points; `dash` is dash and gap, () for none."""

    points: tuple[Point, ...]
    width: float
    colour: Colour
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Disc:
    """A filled circle."""

    at: Point
    radius: float
    colour: Colour


@dataclass(frozen=True)
class Clipped:
    """Ink that shows only inside the box."""

    box: Rect
    inks: tuple["Ink", ...]


Ink = Words | Fill | Ruled | Disc | Clipped


@dataclass(frozen=True)
class PrintedPage:
    """One side of paper. `title` names the document."""

    size: tuple[float, float]
    title: str
    inks: tuple[Ink, ...]

    @property
    def words(self) -> tuple[Words, ...]:
        """Every line of text, in the order in which it is drawn."""
        return tuple(_words(self.inks))


def _words(inks: Sequence[Ink]) -> Iterator[Words]:
    for ink in inks:
        if isinstance(ink, Words):
            yield ink
        elif isinstance(ink, Clipped):
            yield from _words(ink.inks)


def printed_width(text: str, size: float, bold: bool = False) -> float:
    """Width of a line (pt)."""
    return face(MEASURED_AT, BOLD if bold else PLAIN).size(text)[0] * size / MEASURED_AT


def print_lines(text: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width`; a longer single word is broken where it must be. A last line of one
    short word takes the word before it along."""
    lines: list[list[str]] = []
    for word in text.split():
        for piece in _pieces(word, size, width, bold):
            longer = " ".join([*lines[-1], piece]) if lines else piece
            if lines and printed_width(longer, size, bold) <= width:
                lines[-1].append(piece)
            else:
                lines.append([piece])
    if len(lines) > 1 and len(lines[-1]) == 1 and len(lines[-1][0]) <= ORPHAN and len(lines[-2]) > 2:
        lines[-1].insert(0, lines[-2].pop())
    return tuple(" ".join(line) for line in lines)


def _pieces(word: str, size: float, width: float, bold: bool) -> list[str]:
    """The word, in pieces where it is wider than the line."""
    out = [""]
    for letter in word:
        if out[-1] and printed_width(out[-1] + letter, size, bold) > width:
            out.append("")
        out[-1] += letter
    return out
