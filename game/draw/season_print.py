"""The season's map on one side of paper, in points: the same strips, signs and words as on screen."""

from game.draw.camera import Rect
from game.draw.course import top_colour
from game.draw.palette import LIGHT
from game.draw.printed import PAPERS, Disc, Fill, Ink, PrintedPage, Ruled, Words, print_lines
from game.draw.recap_heads import PRINT
from game.draw.season import season_columns, season_rows
from game.text.choice import ADVICE_WORDS, HOPEFUL, NO_SKILL, cell_odds, cell_words, season_notes, strip_words
from game.text.units import METRIC, UnitSystem
from levels.season import SeasonCell, SeasonMap

__all__ = ["season_printed"]

MARGIN = 36.0  # pt
LEADING = 1.28
FLAG, STRIP = 15.0, 4.0  # pt of a flag and of the ground
LARGEST, SMALLEST, STEP = 9.6, 6.0, 0.2  # pt of the words; smaller until all fits one side
WHITE = (255, 255, 255)


def season_printed(made: SeasonMap, units: UnitSystem = METRIC, paper: str = "A4") -> PrintedPage:
    """The page, its words as large as fit one side. KeyError for a paper that is none of PAPERS."""
    w, h = PAPERS[paper]
    inner = Rect(MARGIN, MARGIN, w - 2 * MARGIN, h - 2 * MARGIN)
    size = LARGEST
    inks, foot = _inks(made, units, inner, size)
    while foot > inner.bottom and size > SMALLEST:
        size -= STEP
        inks, foot = _inks(made, units, inner, size)
    return PrintedPage((w, h), _title(made), tuple(inks))


def _title(made: SeasonMap) -> str:
    return f"Which shots to seek: {made.label}"


def _inks(made: SeasonMap, units: UnitSystem, inner: Rect, size: float) -> tuple[list[Ink], float]:
    """Everything at this size of words (pt), and where it ends."""
    inks: list[Ink] = []
    y = _say(inks, _title(made), inner.x, inner.y, inner.w, 1.7 * size, bold=True)
    for note in season_notes():
        y = _say(inks, note, inner.x, y, inner.w, size)
    for cells in season_rows(made):
        y = _say(inks, strip_words(cells[0]), inner.x, y + 0.7 * size, inner.w, size, bold=True)
        ground = Rect(inner.x, y + FLAG + 0.3 * size, inner.w, STRIP)
        corners = ((ground.x, ground.y), (ground.right, ground.y), (ground.right, ground.bottom),
                   (ground.x, ground.bottom))  # fmt: skip
        inks.append(Fill(corners, top_colour(LIGHT, cells[0].lie)))
        low = ground.bottom
        for cell, box in zip(cells, season_columns(cells, inner.x, inner.w, ground.bottom, 8.0), strict=True):
            low = max(low, _cell(inks, cell, box, ground.y, units, size))
        y = low
    y += 0.8 * size
    for note in (HOPEFUL, NO_SKILL):
        y = _say(inks, note, inner.x, y, inner.w, 0.85 * size, muted=True)
    return inks, y


def _cell(
    inks: list[Ink], cell: SeasonCell, box: Rect, ground: float, units: UnitSystem, size: float
) -> float:  # fmt: skip
    """Flag, sign and advice over the ground, the shot and its odds under it; where the words end."""
    x, top = box.x + 2.0, ground - FLAG
    inks += [
        Ruled(((x, ground), (x, top)), 0.9, PRINT.ink),
        Fill(((x, top), (x + 6.0, top + 2.4), (x, top + 4.8)), LIGHT.flag),
    ]
    _sign(inks, cell.advice, (box.x + 13.0, ground - 0.45 * FLAG))
    lead = f"{units.far(cell.distance)}: {ADVICE_WORDS[cell.advice]}"
    inks.append(Words(lead, box.x + 20.0, ground - 0.45 * FLAG + 0.35 * size, size, PRINT.ink, True))
    y = _say(inks, cell_words(cell).capitalize(), box.x, box.y, box.w, size)
    return _say(inks, cell_odds(cell), box.x, y, box.w, 0.88 * size, muted=True)


def _sign(inks: list[Ink], advice: str, at: tuple[float, float]) -> None:
    (x, y), r = at, 3.6
    if advice == "careful":
        corners = ((x, y - r), (x + r, y + 0.8 * r), (x - r, y + 0.8 * r))
        inks.append(Ruled((*corners, corners[0]), 1.2, LIGHT.landing))
        return
    inks.append(Disc(at, r, LIGHT.path))
    if advice == "play":
        inks.append(Disc(at, r - 1.2, WHITE))


def _say(
    inks: list[Ink], text: str, x: float, y: float, width: float, size: float, bold: bool = False,
    muted: bool = False,
) -> float:  # fmt: skip
    """Lines under each other from the top at y; where they end."""
    for line in print_lines(text, size, width, bold):
        y += LEADING * size
        inks.append(Words(line, x, y - 0.3 * size, size, PRINT.muted if muted else PRINT.ink, bold))
    return y
