"""A text being written: caret, selection, and what the keys of every text field do to it."""

import pygame

from game.ui import clipboard

__all__ = ["Written"]

BY_WORD = pygame.KMOD_CTRL | pygame.KMOD_ALT


class Written:
    """`caret` and `anchor` are places between letters; what lies between the two is selected.

    `most` letters at most; without `lines`, newlines become spaces.
    """

    def __init__(self, text: str = "", most: int = 4000, lines: bool = False) -> None:
        self.text, self.most, self.lines = text, most, lines
        self.caret = self.anchor = len(text)

    @property
    def span(self) -> tuple[int, int]:
        """First and last place of the selection."""
        return min(self.caret, self.anchor), max(self.caret, self.anchor)

    @property
    def selected(self) -> str:
        """What is selected."""
        low, high = self.span
        return self.text[low:high]

    def show(self, text: str) -> None:
        """Another text from elsewhere; the caret stays as far as it can."""
        if text != self.text:
            self.text = text
            self.caret = self.anchor = min(self.caret, len(text))

    def go(self, to: int, hold: bool = False) -> None:
        """The caret to a place; `hold` keeps the anchor, so that it selects."""
        self.caret = min(max(to, 0), len(self.text))
        if not hold:
            self.anchor = self.caret

    def select(self, low: int, high: int) -> None:
        """Select what lies between two places."""
        self.anchor, self.caret = low, high

    def put(self, words: str) -> None:
        """Write the words in the place of the selection, as many as there is room for."""
        clean = words if self.lines else " ".join(words.splitlines()) if "\n" in words else words
        clean = "".join(c for c in clean.replace("\t", " ") if c.isprintable() or (self.lines and c == "\n"))
        low, high = self.span
        clean = clean[: max(self.most - len(self.text) + high - low, 0)]
        self.text = self.text[:low] + clean + self.text[high:]
        self.caret = self.anchor = low + len(clean)

    def rub(self, by: int, word: bool = False) -> None:
        """Take the selection away, else one letter or word before (-1) or after (+1) the caret."""
        if self.caret == self.anchor:
            self.go(self.word(self.caret, by) if word else self.caret + by, hold=True)
        self.put("")

    def word(self, at: int, by: int) -> int:
        """Where the word before or after a place begins or ends."""
        step = 0 if by > 0 else -1
        while 0 <= at + step < len(self.text) and not self.text[at + step].isalnum():
            at += by
        while 0 <= at + step < len(self.text) and self.text[at + step].isalnum():
            at += by
        return at

    def word_around(self, at: int) -> None:
        """Select the word at a place."""
        low = high = at
        while low > 0 and self.text[low - 1].isalnum():
            low -= 1
        while high < len(self.text) and self.text[high].isalnum():
            high += 1
        self.select(low, high)

    def line_ends(self, at: int) -> tuple[int, int]:
        """Where the line of a place begins and ends."""
        end = self.text.find("\n", at)
        return self.text.rfind("\n", 0, at) + 1, len(self.text) if end < 0 else end

    def key(self, event: pygame.event.Event) -> bool:
        """Take a key that moves, selects, rubs out, copies or pastes; True when it was one."""
        hold, by_word = bool(event.mod & pygame.KMOD_SHIFT), bool(event.mod & BY_WORD)
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META) and self._board(event.key):
            return True
        if event.key in (pygame.K_LEFT, pygame.K_RIGHT):
            by = 1 if event.key == pygame.K_RIGHT else -1
            if self.caret != self.anchor and not hold:
                self.go(self.span[1 if by > 0 else 0])
            else:
                self.go(self.word(self.caret, by) if by_word else self.caret + by, hold)
        elif event.key in (pygame.K_HOME, pygame.K_END):
            whole = (0, len(self.text)) if by_word else self.line_ends(self.caret)
            self.go(whole[0 if event.key == pygame.K_HOME else 1], hold)
        elif event.key in (pygame.K_BACKSPACE, pygame.K_DELETE):
            self.rub(1 if event.key == pygame.K_DELETE else -1, by_word)
        else:
            return False
        return True

    def _board(self, key: int) -> bool:
        if key == pygame.K_a:
            self.select(0, len(self.text))
        elif key in (pygame.K_c, pygame.K_x):
            if self.selected:
                clipboard.copy(self.selected)
                if key == pygame.K_x:
                    self.put("")
        elif key == pygame.K_v:
            self.put(clipboard.paste())
        else:
            return False
        return True
