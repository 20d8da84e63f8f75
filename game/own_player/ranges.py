"""A fitted player's spread as bars: where each part may lie, against the four illustrative presets."""

from dataclasses import dataclass

import pygame

from game.draw.camera import Rect
from game.draw.palette import mix
from game.text.fit import PART_NAMES, SPREAD_KEYS, range_words
from game.ui import Theme, Widget, paint
from levels.player_file import PlayerFile, preset_table
from physics.spread import PLAYERS

__all__ = ["RangeBars"]

ROOM = 1.08  # of the largest value, to the right end of a bar
LETTERS = {name: spread.label[:1].upper() for name, spread in PLAYERS.items()}


@dataclass(frozen=True)
class _Part:
    """One bar: values from, middle, to, and the presets', in the unit of the words."""

    name: str
    words: str
    low: float
    middle: float
    high: float
    presets: tuple[tuple[str, float], ...]


class RangeBars(Widget):
    """Each part of the spread: the range eight times in ten, its middle, and letters for the presets."""

    focusable = False

    def __init__(self, player: PlayerFile) -> None:
        super().__init__("Spread")
        self.bars = tuple(_part(player, key) for key in SPREAD_KEYS)

    @property
    def caption(self) -> str:
        return " ".join(f"{bar.name}: {bar.words}." for bar in self.bars)

    @staticmethod
    def legend() -> str:
        """What the letters say."""
        named = ", ".join(f"{LETTERS[name]} {spread.label}" for name, spread in PLAYERS.items())
        return f"Dark line: the middle. Bar: where it lies, 8 times in 10. Letters: {named}; illustrative."

    def _one(self, theme: Theme, width: float) -> float:
        lines = 1 if self._beside(theme, width) else 2
        return lines * theme.type.line("label") + theme.type.line("small") + 2.7 * theme.gap

    def _beside(self, theme: Theme, width: float) -> bool:
        """Whether name and range have room in one line."""
        type_ = theme.type
        return all(
            type_.width(b.name, "label") + type_.width(b.words, "strong") + 2 * theme.gap <= width
            for b in self.bars
        )

    def height(self, theme: Theme, width: float) -> float:
        return len(self.bars) * self._one(theme, width)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, tall = self.rect, self._one(theme, self.rect.w)
        beside = self._beside(theme, r.w)
        for k, bar in enumerate(self.bars):
            y, line = r.y + k * tall, theme.type.line("label")
            paint.text(surface, theme, bar.name, "label", r.x, y)
            if beside:
                paint.text(surface, theme, bar.words, "strong", r.right, y, "ink", 1.0)
            else:
                paint.text(surface, theme, bar.words, "strong", r.x, y + line)
                y += line
            self._bar(surface, theme, Rect(r.x, y + line, r.w, theme.type.line("small") + theme.gap), bar)

    @staticmethod
    def _bar(surface: pygame.Surface, theme: Theme, box: Rect, bar: _Part) -> None:
        gap, p = theme.gap, theme.palette
        last = ROOM * max(bar.high, *(v for _, v in bar.presets), 1e-9)

        def x(value: float) -> float:
            return box.x + gap + value / last * (box.w - 2 * gap)

        rail = box.y + 1.1 * gap
        paint.box(surface, Rect(box.x, rail - theme.line / 2, box.w, theme.line), p.rule)
        wide = max(x(bar.high) - x(bar.low), 2 * theme.line)
        likely = Rect(x(bar.low), rail - gap / 2, wide, gap)
        paint.box(surface, likely, mix(p.paper, theme.accent, 0.55), None, gap / 2)
        paint.box(surface, Rect(x(bar.middle) - 1.5 * theme.line, rail - gap, 3 * theme.line, 2 * gap), p.ink)
        taken = box.x - 1e9
        for letter, value in sorted(bar.presets, key=lambda pair: pair[1]):
            at = x(value)
            paint.box(surface, Rect(at - theme.line / 2, rail - gap / 2, theme.line, 1.5 * gap), p.muted)
            if at - taken >= theme.type.width(letter, "small") + 2:
                paint.text(surface, theme, letter, "small", at, rail + 0.9 * gap, "muted", 0.5)
                taken = at


def _part(player: PlayerFile, key: str) -> _Part:
    field = SPREAD_KEYS[key][0]
    own = float(getattr(player.spread, field))
    low, high = (own if t is None else float(getattr(t, field)) for t in (player.low, player.high))
    presets = tuple((LETTERS[name], float(getattr(preset_table(name), field))) for name in PLAYERS)
    name = PART_NAMES[key]
    return _Part(name[:1].upper() + name[1:], range_words(player, key), low, own, high, presets)
