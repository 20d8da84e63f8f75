"""Type: Inter in two weights, five roles, digits that keep their columns, and words placed in boxes."""

import os
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache, cached_property, lru_cache
from itertools import accumulate
from math import ceil
from pathlib import Path

import pygame

from game.draw.camera import Rect
from game.draw.palette import Colour
from game.library.log import logger

__all__ = ["ROLES", "Type", "Word", "face", "font_cut", "font_file", "rail"]

# role: (size in px at scale 1, weight)
ROLES: dict[str, tuple[float, int]] = {
    "title": (30.0, 600), "lead": (23.0, 600), "body": (19.0, 400),
    "label": (16.0, 400), "strong": (16.0, 600), "small": (14.0, 400),
}  # fmt: skip
HEADINGS = {"title": 1.35, "lead": 1.5}  # how far these grow with the text
FIGURES = {"strong"}  # roles whose digits keep their columns; running text keeps its own spacing
LETTERS = (  # first and last: Latin, Greek and Cyrillic, for people write their own names; signs
    (0x20, 0x24F), (0x370, 0x52F), (0x1E00, 0x1EFF), (0x2010, 0x203F), (0x2190, 0x2192), (0x2212, 0x2212),
)  # fmt: skip
FINE = 3  # letters are drawn this many times larger, then shrunk: even spacing at every size
LEAST_LETTERS = 3  # of a line in which words still break, assumed
SLACK = 1.0  # px a word may be wider than its room: boxes are made as wide as their words, and round
LEADING = 1.38  # line height over size, common practice for text of this length


def font_cut(weight: int) -> Path:
    """Where the cut of Inter at `weight` lies, once it is made."""
    from platformdirs import user_cache_path

    return user_cache_path("fringework") / f"inter-wide-{weight}.ttf"


@cache
def font_file(weight: int) -> str | None:
    """Static cut of Inter at `weight`, made once into the user's cache; None: use pygame's own font."""
    made = font_cut(weight)
    if made.exists():
        return str(made)
    try:
        import fontpkg_inter
        from fontTools import subset
        from fontTools.ttLib import TTFont
        from fontTools.varLib import instancer

        source = next((Path(fontpkg_inter.__file__).parent / "files").glob("Inter[[]*.ttf"))
        font = TTFont(source)
        cut = subset.Subsetter()
        cut.populate(unicodes=[code for first, last in LETTERS for code in range(first, last + 1)])
        cut.subset(font)
        font = instancer.instantiateVariableFont(font, {"wght": weight, "opsz": 18})
        made.parent.mkdir(parents=True, exist_ok=True)
        handle, part = tempfile.mkstemp(dir=made.parent, suffix=".part")
        os.close(handle)
        font.save(part)
        os.replace(part, made)  # whole or not at all: two processes may start together
        return str(made)
    except (ImportError, OSError, StopIteration, ValueError, KeyError) as error:
        logger.warning("Inter could not be cut; the system's own font is used.", exc_info=error)
        return None


@cache
def face(size: int, weight: int) -> pygame.font.Font:
    """The letters at `size` px."""
    pygame.font.init()
    file = font_file(weight)
    font = pygame.font.Font(file, size)
    if file is None:
        font.set_bold(weight >= 600)
    return font


@cache
def _digit(size: int, weight: int) -> float:
    """Width (px) of the widest digit."""
    return max(face(size * FINE, weight).size(d)[0] for d in "0123456789") / FINE


@lru_cache(4096)  # a layout asks for the same words again and again
def _runs(text: str, size: int, weight: int, figures: bool) -> tuple[tuple[str, float], ...]:
    if not figures:
        return ((text, 0.0),)
    font, digit = face(size * FINE, weight), _digit(size, weight)
    out: list[tuple[str, float]] = []
    x, run = 0.0, ""
    for c in text:
        if not c.isdigit():
            run += c
            continue
        if run:
            out.append((run, x))
            x, run = x + font.size(run)[0] / FINE, ""
        out.append((c, x + (digit - font.size(c)[0] / FINE) / 2))
        x += digit
    out.append((run, x))
    return tuple(out)


@lru_cache(4096)
def _width(text: str, size: int, weight: int, figures: bool) -> float:
    last, x = _runs(text, size, weight, figures)[-1]
    return x + face(size * FINE, weight).size(last)[0] / FINE


@dataclass(frozen=True)
class Type:
    """All sizes times `scale`."""

    scale: float = 1.0
    stretch: float = 1.0  # the reader's share of it, 1 to 2

    def size(self, role: str) -> int:
        """Size in px. Headings are large already and grow less than the rest, but never below it."""
        return self._sizes[role]

    @cached_property
    def _sizes(self) -> dict[str, int]:
        return {role: self._size(role) for role in ROLES}

    def _size(self, role: str) -> int:
        base = ROLES[role][0]
        if role not in HEADINGS or self.stretch <= HEADINGS[role]:
            return max(round(base * self.scale), 6)
        return round(max(base * self.scale / self.stretch * HEADINGS[role], ROLES["body"][0] * self.scale))

    def _font(self, role: str) -> pygame.font.Font:
        return face(self.size(role) * FINE, ROLES[role][1])

    def line(self, role: str) -> float:
        """Height of a line (px)."""
        return round(self.size(role) * LEADING)

    def runs(self, text: str, role: str) -> tuple[tuple[str, float], ...]:
        """Pieces of a line and where each starts (px); in FIGURES every digit is as wide as the widest."""
        return _runs(text, self.size(role), ROLES[role][1], role in FIGURES)

    def width(self, text: str, role: str) -> float:
        """Width of a line (px)."""
        return _width(text, self.size(role), ROLES[role][1], role in FIGURES)

    def wrap(self, text: str, role: str, width: float) -> tuple[str, ...]:
        """Lines no wider than `width` px; a single word that is over SLACK wider breaks between letters."""
        lines: list[str] = []
        for word in text.split():
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer, role) <= width:
                lines[-1] = longer
            else:
                lines += self._broken(word, role, width)
        return tuple(lines)

    def _broken(self, word: str, role: str, width: float) -> Iterator[str]:
        """A word in pieces no wider than `width`; whole where not even a few letters would fit."""
        least = LEAST_LETTERS * self.width("0", role)
        while (wide := self.width(word, role)) > width + SLACK and width >= least:
            count = min(max(int(len(word) * width / wide), 1), len(word) - 1)
            while count > 1 and self.width(word[:count], role) > width:
                count -= 1
            while count + 1 < len(word) and self.width(word[: count + 1], role) <= width:
                count += 1
            yield word[:count]
            word = word[count:]
        yield word

    def word(self, text: str, role: str, x: float, y: float, tone: str = "ink", align: float = 0.0) -> "Word":
        """A placed line: top at y; x is its left (align 0), middle (0.5) or right (1)."""
        w = self.width(text, role)
        return Word(text, role, tone, Rect(x - w * align, y, w, self.line(role)))

    def draw(self, surface: pygame.Surface, word: "Word", colour: Colour) -> None:
        """Draw a placed line."""
        font, box = self._font(word.role), word.box
        w, h = ceil(box.w) + 2, ceil(font.get_linesize() / FINE) + 1
        fine = pygame.Surface((w * FINE, h * FINE), pygame.SRCALPHA, 32)
        fine.fill((*colour, 0))  # letters fade into their own colour, not into black
        left, top = int(box.x), int(box.y + (box.h - h) / 2)
        for text, x in self.runs(word.text, word.role):
            if text:
                at = (round((box.x - left + x) * FINE), round((box.y + (box.h - h) / 2 - top) * FINE))
                fine.blit(font.render(text, True, colour), at)
        surface.blit(pygame.transform.smoothscale(fine, (w, h)), (left, top))


@dataclass(frozen=True)
class Word:
    """One line of text in its place; `tone` names a colour of the palette, `item` counts which of a rail's
    items it is."""

    text: str
    role: str
    tone: str
    box: Rect
    item: int = 0

    def moved(self, dx: float, dy: float) -> "Word":
        """The same line elsewhere."""
        return replace(self, box=Rect(self.box.x + dx, self.box.y + dy, self.box.w, self.box.h))


def rail(type_: Type, items: tuple[tuple[str, float, str], ...], box: Rect, role: str) -> tuple[Word, ...]:
    """Labels (text, wanted middle x, tone) in one row at the top of the box, in order of x, none on
    another. Where the row is too narrow, the last items are left out: list the important ones first.
    """
    gap = type_.line(role) * 0.8
    kept: list[tuple[int, tuple[str, float, str]]] = []
    room = box.w + gap
    for i, item in enumerate(items):
        room -= type_.width(item[0], role) + gap
        if room < 0:
            break
        kept.append((i, item))
    kept.sort(key=lambda one: one[1][1])
    wide = [type_.width(text, role) for _, (text, _, _) in kept]
    before = [0.0, *accumulate(w + gap for w in wide)]  # room the words to the left take
    starts = _rising([x - w / 2 - b for (_, (_, x, _)), w, b in zip(kept, wide, before, strict=False)])
    last = box.right - (before[-1] - gap)
    left = [min(max(v, box.x), last) + b for v, b in zip(starts, before, strict=False)]
    return tuple(
        replace(type_.word(text, role, x, box.y, tone), item=i)
        for (i, (text, _, tone)), x in zip(kept, left, strict=True)
    )


def _rising(values: list[float]) -> list[float]:
    """The nearest values (least squares) that never fall: neighbours that would are pooled at their mean
    (Ayer and others 1955)."""
    pools: list[tuple[float, int]] = []  # mean, how many
    for value in values:
        mean, count = value, 1
        while pools and pools[-1][0] > mean:
            m, n = pools.pop()
            mean, count = (m * n + mean * count) / (n + count), n + count
        pools.append((mean, count))
    return [mean for mean, count in pools for _ in range(count)]
