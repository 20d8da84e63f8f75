"""Type: Inter in two weights, five roles, digits that keep their columns, and words placed in boxes."""

import os
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pygame

from game.view.camera import Rect
from game.view.palette import Colour

__all__ = ["ROLES", "Type", "Word", "rail"]

# role: (size in px at scale 1, weight)
ROLES: dict[str, tuple[float, int]] = {
    "title": (30.0, 600), "lead": (23.0, 600), "body": (19.0, 400), "label": (16.0, 400), "strong": (16.0, 600),
    "small": (14.0, 400),
}  # fmt: skip
LEADING = 1.38  # line height over size, common practice for text of this length


@cache
def _font_file(weight: int) -> str | None:
    """Static cut of Inter at `weight`, made once into the user's cache; None: use pygame's own font."""
    try:
        import fontpkg_inter
        from fontTools import subset
        from fontTools.ttLib import TTFont
        from fontTools.varLib import instancer
        from platformdirs import user_cache_path

        made = user_cache_path("fringework") / f"inter-{weight}.ttf"
        if made.exists():
            return str(made)
        source = next((Path(fontpkg_inter.__file__).parent / "files").glob("Inter[[]*.ttf"))
        font = TTFont(source)
        cut = subset.Subsetter()
        cut.populate(unicodes=[*range(0x20, 0x250), *range(0x2010, 0x2040), 0x2190, 0x2192, 0x2212, 0x2032, 0x2033])
        cut.subset(font)
        font = instancer.instantiateVariableFont(font, {"wght": weight, "opsz": 18})
        made.parent.mkdir(parents=True, exist_ok=True)
        handle, part = tempfile.mkstemp(dir=made.parent, suffix=".part")
        os.close(handle)
        font.save(part)
        os.replace(part, made)  # whole or not at all: two processes may start together
        return str(made)
    except Exception:  # a missing or odd font must never cost the picture
        return None


@cache
def _font(size: int, weight: int) -> pygame.font.Font:
    pygame.font.init()
    file = _font_file(weight)
    font = pygame.font.Font(file, size)
    if file is None:
        font.set_bold(weight >= 600)
    return font


@dataclass(frozen=True)
class Type:
    """All sizes times `scale`."""

    scale: float = 1.0

    def _font(self, role: str) -> pygame.font.Font:
        size, weight = ROLES[role]
        return _font(max(round(size * self.scale), 6), weight)

    def line(self, role: str) -> float:
        """Height of a line (px)."""
        return round(ROLES[role][0] * self.scale * LEADING)

    def runs(self, text: str, role: str) -> list[tuple[str, float]]:
        """Pieces of a line and where each starts (px); every digit takes the width of the widest."""
        font = self._font(role)
        digit = max(font.size(d)[0] for d in "0123456789")
        out: list[tuple[str, float]] = []
        x, run = 0.0, ""
        for c in text:
            if not c.isdigit():
                run += c
                continue
            if run:
                out.append((run, x))
                x, run = x + font.size(run)[0], ""
            out.append((c, x + (digit - font.size(c)[0]) / 2))
            x += digit
        out.append((run, x))
        return out

    def width(self, text: str, role: str) -> float:
        """Width of a line (px)."""
        last, x = self.runs(text, role)[-1]
        return x + self._font(role).size(last)[0]

    def wrap(self, text: str, role: str, width: float) -> tuple[str, ...]:
        """Lines no wider than `width` px; a longer single word stands alone."""
        lines: list[str] = []
        for word in text.split():
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer, role) <= width:
                lines[-1] = longer
            else:
                lines.append(word)
        return tuple(lines)

    def word(self, text: str, role: str, x: float, y: float, tone: str = "ink", align: float = 0.0) -> "Word":
        """A placed line: top at y; x is its left (align 0), middle (0.5) or right (1)."""
        w = self.width(text, role)
        return Word(text, role, tone, Rect(x - w * align, y, w, self.line(role)))

    def draw(self, surface: pygame.Surface, word: "Word", colour: Colour) -> None:
        """Draw a placed line."""
        font = self._font(word.role)
        lift = (word.box.h - font.get_linesize()) / 2
        for text, x in self.runs(word.text, word.role):
            if text:
                surface.blit(font.render(text, True, colour), (round(word.box.x + x), round(word.box.y + lift)))


@dataclass(frozen=True)
class Word:
    """One line of text in its place; `tone` names a colour of the palette."""

    text: str
    role: str
    tone: str
    box: Rect


def rail(type_: Type, items: tuple[tuple[str, float, str], ...], box: Rect, role: str) -> tuple[Word, ...]:
    """Labels (text, wanted middle x, tone) in rows from the top of the box, none on another.

    Each goes in the first row where it fits at its wanted place, moved no further than its own
    width; else the next row down.
    """
    gap = type_.line(role) * 0.7
    rows: list[list[Word]] = []
    for text, x, tone in sorted(items, key=lambda item: item[1]):
        w = type_.width(text, role)
        wanted = min(max(x - w / 2, box.x), max(box.right - w, box.x))
        for n, row in enumerate([*rows, []]):
            left = max(wanted, row[-1].box.right + gap) if row else wanted
            fresh = n == len(rows)
            if fresh or (left - wanted <= 0.6 * w and left + w <= box.right):
                if fresh:
                    rows.append([])
                rows[n].append(type_.word(text, role, left, box.y + n * type_.line(role), tone))
                break
    return tuple(word for row in rows for word in row)
