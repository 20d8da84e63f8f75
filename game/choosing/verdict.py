"""What came of the pick, and how the odds lean: beside each other where there is room, else under."""

import pygame

from game.draw.camera import Rect
from game.ui import TextBlock, Theme, Widget, layout

__all__ = ["PickVerdict"]

BESIDE = 100.0  # steps of width that hold the two beside each other


class PickVerdict(Widget):
    """`told` leads, `named` says which option is which, `lean` how the odds lean."""

    focusable = False

    def __init__(self, told: str, named: str, lean: str) -> None:
        super().__init__("")
        self.told, self.named, self.lean = told, named, lean

    @property
    def caption(self) -> str:
        return " ".join((self.told, self.named, self.lean))

    def _columns(self, theme: Theme, width: float) -> tuple[tuple[TextBlock, ...], ...]:
        """The texts of each column."""
        lean = TextBlock(self.lean, "small", "muted")
        if width < BESIDE * theme.gap:
            return ((TextBlock(self.told, "label"), lean, TextBlock(self.named, "small", "muted")),)
        return ((TextBlock(self.told, "body"), TextBlock(self.named, "label", "muted")), (lean,))

    def _boxes(self, theme: Theme, box: Rect) -> list[tuple[TextBlock, Rect]]:
        columns, out = self._columns(theme, box.w), list[tuple[TextBlock, Rect]]()
        shares = (0.6, 0.4)[: len(columns)]
        for items, at in zip(columns, layout.split(box, shares, 3 * theme.gap), strict=True):
            heights = [item.height(theme, at.w) for item in items]
            out += zip(items, layout.column(at, heights, theme.gap / 2), strict=True)
        return out

    def height(self, theme: Theme, width: float) -> float:
        return max(at.bottom for _, at in self._boxes(theme, Rect(0, 0, width, 0)))

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for item, at in self._boxes(theme, self.rect):
            item.place(at, theme)
            item.draw(surface, theme)
