"""The clipboard of the system; without one (no display), a clipboard of our own."""

import pygame

from game.library.file_uri import path_of_name

__all__ = ["copy", "given_path", "paste", "pasted_path"]

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


def pasted_path() -> str:
    """The file that is copied, by name; of several the first. "" where nothing is."""
    names = [line.strip().strip("\"'") for line in paste().split("\n")]
    named = [name for name in names if name.lower().startswith("file:")]  # a file manager says "copy" before
    return path_of_name((named or [name for name in names if name] or [""])[0])


def given_path(event: pygame.event.Event) -> str | None:
    """The path of a file that an event brings, dropped or pasted with Ctrl+V ("" where nothing is copied);
    None for any other event."""
    if event.type == pygame.DROPFILE:
        return path_of_name(event.file)
    pastes = event.type == pygame.KEYDOWN and event.key == pygame.K_v
    return pasted_path() if pastes and event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META) else None
