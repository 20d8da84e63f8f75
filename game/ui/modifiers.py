"""Which of Shift, Ctrl and Alt are held now; none where there is no window to hear of it."""

import pygame

__all__ = ["modifiers_held"]


def modifiers_held(mods: int) -> bool:
    """Whether one of these modifiers is held."""
    try:
        return bool(pygame.key.get_mods() & mods)
    except pygame.error:
        return False
