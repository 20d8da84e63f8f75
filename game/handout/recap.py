"""The recap written to files: PDF, picture or both, from two Shots and the clouds that count their strokes.

Takes no window and no clock; half a second a file, so that a screen asks the worker for it.
"""

from datetime import date
from pathlib import Path
from typing import Any

from game.draw.printed_files import missing_letters, page_pdf, page_png
from game.draw.recap_page import recap_page
from game.handout.whole import LetterError, hold, put
from game.text.recap import Recap, RecapSide
from levels.lessons import Share
from physics.cloud import Cloud
from physics.results import Shot

__all__ = ["ENDINGS", "check_letters", "recap_of", "write_page", "write_recap"]

ENDINGS = (".pdf", ".png")


def recap_of(a: Shot, b: Shot, clouds: tuple[Cloud, Cloud] | None, day: date, **told: Any) -> Recap:
    """All that the page tells; `told` are the other fields of Recap: pupil, title, when, junior and so on."""
    counted = clouds or (None, None)
    sides = [
        RecapSide(shot, Share(cloud.solid_share, len(cloud.solid)) if cloud is not None else None)
        for shot, cloud in zip((a, b), counted, strict=True)
    ]
    return Recap(sides[0], sides[1], day, **told)


def write_recap(
    a: Shot, b: Shot, clouds: tuple[Cloud, Cloud] | None, file: Path, day: date, paper: str = "A4",
    **told: Any,
) -> tuple[Path, ...]:  # fmt: skip
    """Write the recap of `a` (matched) and `b` (tried); the files written. HandoutError in one sentence."""
    return write_page(recap_of(a, b, clouds, day, **told), file, paper)


def write_page(recap: Recap, file: Path, paper: str = "A4") -> tuple[Path, ...]:
    """Write the page: a name that ends in .pdf or .png is that one file, any other name gets both endings.
    The files written. HandoutError in one sentence."""
    files = files_of(file)
    for path in files:
        hold(path)
    check_letters(recap.pupil, recap.when, recap.title)
    page = recap_page(recap, paper)
    made = [page_pdf(page, recap.day) if path.suffix.lower() == ".pdf" else page_png(page) for path in files]
    for path, data in zip(files, made, strict=True):  # all are made before the first is written
        put(path, data)
    return files


def check_letters(*words: str) -> None:
    """LetterError when the page cannot show one of the words."""
    if unknown := missing_letters("".join(words)):
        raise LetterError(f"The page cannot be written: its type has no letter '{unknown[0]}'.")


def files_of(file: Path) -> tuple[Path, ...]:
    """The files that name stands for."""
    if file.suffix.lower() in ENDINGS:
        return (file,)
    return tuple(file.with_name(file.name + ending) for ending in ENDINGS)
