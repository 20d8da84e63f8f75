"""A printed page as a PDF with selectable text and embedded type, and as a picture of the same page."""

from datetime import UTC, date, datetime
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

import pygame

from game.draw.camera import Rect
from game.draw.pen import Pen
from game.draw.printed import Clipped, Disc, Fill, Ink, PrintedPage, Ruled, Words
from game.draw.type import face, font_file

if TYPE_CHECKING:
    from fpdf import FPDF

__all__ = ["PIXELS_A_POINT", "missing_letters", "page_pdf", "page_picture", "page_png"]

PIXELS_A_POINT = 3  # of the picture: 216 dots an inch
FINE = 2  # drawn so many times larger, then shrunk
FAMILY = "Inter"


def page_pdf(page: PrintedPage, day: date) -> bytes:
    """The page as PDF. Same page and day, same bytes."""
    from fpdf import FPDF  # here: a third of a second that no start of the window needs

    pdf = FPDF(unit="pt", format=page.size)
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    for style, weight in (("", 400), ("B", 600)):
        pdf.add_font(FAMILY, style, font_file(weight) or _own_font())
    pdf.set_title(page.title)
    pdf.set_lang("en")
    pdf.set_creation_date(datetime(day.year, day.month, day.day, tzinfo=UTC))
    pdf.set_line_width(1.0)
    pdf.add_page()
    for ink in page.inks:
        _print(pdf, ink)
    return bytes(pdf.output())


def _own_font() -> str:
    """The type that pygame brings, where Inter could not be cut."""
    return str(Path(pygame.__file__).parent / pygame.font.get_default_font())


def _print(pdf: "FPDF", ink: Ink) -> None:
    if isinstance(ink, Words):
        pdf.set_text_color(*ink.colour)
        pdf.set_font(FAMILY, "B" if ink.bold else "", ink.size)
        pdf.text(ink.left, ink.y, ink.text)
    elif isinstance(ink, Clipped):
        with pdf.rect_clip(ink.box.x, ink.box.y, ink.box.w, ink.box.h):
            for inner in ink.inks:
                _print(pdf, inner)
    elif isinstance(ink, Disc):
        pdf.set_fill_color(*ink.colour)
        pdf.circle(*ink.at, ink.radius, style="F")
    elif isinstance(ink, Fill):
        pdf.set_fill_color(*ink.colour)
        pdf.polygon(list(ink.points), style="F")
    else:
        _print_line(pdf, ink)


def _print_line(pdf: "FPDF", ink: Ruled) -> None:
    with pdf.new_path() as path:
        path.style.auto_close = False
        path.style.paint_rule = "stroke"
        path.style.stroke_color = "#{:02x}{:02x}{:02x}".format(*ink.colour)
        path.style.stroke_width = ink.width
        path.style.stroke_cap_style = "butt" if ink.dash else "round"
        path.style.stroke_join_style = "round"
        if ink.dash:
            path.style.stroke_dash_pattern = ink.dash
        path.move_to(*ink.points[0])
        for point in ink.points[1:]:
            path.line_to(*point)


# ---- picture


def page_picture(page: PrintedPage) -> pygame.Surface:
    """The same page, PIXELS_A_POINT pixels a point; needs no display."""
    zoom = PIXELS_A_POINT * FINE
    w, h = (round(v * PIXELS_A_POINT) for v in page.size)
    fine = pygame.Surface((w * FINE, h * FINE), 0, 32)
    fine.fill((255, 255, 255))
    pen = Pen(fine, zoom)
    for ink in page.inks:
        _draw(pen, ink)
    return pygame.transform.smoothscale(fine, (w, h))


def page_png(page: PrintedPage) -> bytes:
    """The picture as PNG bytes."""
    out = BytesIO()
    pygame.image.save(page_picture(page), out, "page.png")
    return out.getvalue()


def _draw(pen: Pen, ink: Ink) -> None:
    if isinstance(ink, Words):
        letters = face(round(ink.size * pen.zoom), 600 if ink.bold else 400)
        drawn = letters.render(ink.text, True, ink.colour)
        left = ink.x * pen.zoom - ink.align * drawn.get_width()
        pen.surface.blit(drawn, (round(left), round(ink.y * pen.zoom) - letters.get_ascent()))
    elif isinstance(ink, Clipped):
        with pen.inside(Rect(ink.box.x, ink.box.y, ink.box.w, ink.box.h)):
            for inner in ink.inks:
                _draw(pen, inner)
    elif isinstance(ink, Disc):
        pen.disc(ink.at, ink.radius, ink.colour)
    elif isinstance(ink, Fill):
        pen.fill(ink.points, ink.colour)
    elif ink.dash:
        pen.dashes(ink.points, ink.width, ink.colour, ink.dash[0], ink.dash[1])
    else:
        pen.line(ink.points, ink.width, ink.colour)


def missing_letters(text: str) -> str:
    """Letters that the page's type does not have, each once."""
    from fontTools.ttLib import TTFont

    with TTFont(font_file(400) or _own_font(), lazy=True) as font:
        known = font.getBestCmap()
    return "".join(letter for letter in dict.fromkeys(text) if ord(letter) not in known)
