"""The clipboard of the system; without one (no display), a clipboard of our own."""

import pygame

__all__ = ["copy", "paste"]

_own = [""]  # what the system did not take


def copy(text: str) -> None:
    """Put the text there."""
    try:
        pygame.scrap.put_text(text)
        _own[0] = "" if pygame.scrap.get_text() == text else text
    except pygame.error:
        _own[0] = text


def paste() -> str:
    """The text that lies there, with plain newlines."""
    text = _own[0]
    if not text:
        try:
            text = pygame.scrap.get_text()
        except pygame.error:
            return ""
    return text.replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "")
