"""The picture of a proof in its tab: as wide as the tab, scrolled by keys."""

from math import ceil

import pygame

from game.draw.camera import Rect
from game.draw.proof import ProofView, draw_proof, plan_proof
from game.ui import Column, Theme, Widget
from game.ui.supersample import Cached

__all__ = ["ProofPicture"]

STEP, PAGE = 60.0, 200.0  # px a key scrolls it by at text scale 1


class ProofPicture(Widget):
    """Drawn once for a width; Up, Down and the Page keys move it through its column."""

    def __init__(self, view: ProofView, left_handed: bool) -> None:
        super().__init__("The proof", tooltip="Up, Down and the Page keys show the rest of it.")
        self.view, self.left_handed = view, left_handed
        self._drawn = Cached[pygame.Surface]()

    def height(self, theme: Theme, width: float) -> float:
        return ceil(plan_proof(self.view, Rect(0.0, 0.0, width, 1e5), theme.scale).height) + theme.gap

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN or event.mod & pygame.KMOD_CTRL:
            return event.type == pygame.MOUSEBUTTONDOWN
        by = {
            pygame.K_UP: -STEP, pygame.K_DOWN: STEP, pygame.K_PAGEUP: -PAGE, pygame.K_PAGEDOWN: PAGE,
            pygame.K_HOME: -1e5, pygame.K_END: 1e5,
        }.get(event.key)  # fmt: skip
        if by is not None and isinstance(self.within, Column):
            self.within.scroll(by)
        return by is not None

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect

        def make() -> pygame.Surface:
            page = pygame.Surface((ceil(r.w), ceil(r.h)), 0, 32)
            page.fill(theme.palette.paper)
            box = Rect(0.0, 0.0, r.w, r.h)
            draw_proof(page, box, self.view, theme.palette, theme.scale, self.left_handed)
            return page

        surface.blit(self._drawn.get((ceil(r.w), ceil(r.h), theme), make), (round(r.x), round(r.y)))
        self.draw_focus(surface, theme)
