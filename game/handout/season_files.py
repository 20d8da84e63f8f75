"""The season's map written to files: PDF with selectable words, and picture."""

from datetime import date
from pathlib import Path

from game.draw.printed_files import page_pdf, page_png
from game.draw.season_print import season_printed
from game.handout.places import free_name, pictures_folder
from game.handout.recap import check_letters
from game.handout.whole import put
from game.text.units import METRIC, UnitSystem
from levels.season import SeasonMap

__all__ = ["season_pdf", "write_season"]

ENDINGS = (".pdf", ".png")


def season_pdf(made: SeasonMap, day: date, units: UnitSystem = METRIC, paper: str = "A4") -> bytes:
    """The map as PDF. LetterError when the page cannot show the player's name."""
    check_letters(made.label)
    return page_pdf(season_printed(made, units, paper), day)


def write_season(made: SeasonMap, units: UnitSystem, day: date) -> tuple[Path, ...]:
    """PDF and picture in the folder of pictures; the files. HandoutError in one sentence."""
    data = season_pdf(made, day, units), page_png(season_printed(made, units))
    name = free_name(pictures_folder(), f"fringework-season-{day}", ENDINGS)
    files = tuple(name.with_name(name.name + ending) for ending in ENDINGS)
    for file, written in zip(files, data, strict=True):
        put(file, written)
    return files
