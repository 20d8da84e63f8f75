"""A strike told in sentences: each phrase can be pointed at or focused, and names its place to light."""

from collections.abc import Sequence

import pygame

from game.draw.camera import Rect
from game.text.story import Phrase
from game.ui import Theme, Widget, paint

__all__ = ["PhraseWidget", "SentenceView"]

UNITS = ("%", "mm", "cm", "m", "yd")
Piece = tuple[str, float, float, float]  # words, x, y, width, from the corner of the view


class PhraseWidget(Widget):
    """One phrase, over as many lines as it takes. Those without a place are only read."""

    def __init__(self, phrase: Phrase) -> None:
        super().__init__(phrase.text, group="phrases")
        self.place_name, self.focusable = phrase.place, bool(phrase.place)
        self.pieces: tuple[Piece, ...] = ()
        self.corner = (0.0, 0.0)
        self.line, self.role = 1.0, "body"

    @property
    def boxes(self) -> tuple[Rect, ...]:
        """Where its words stand."""
        x0, y0 = self.corner
        return tuple(Rect(x0 + x, y0 + y, w, self.line) for _, x, y, w in self.pieces)

    def hit(self, at: tuple[float, float]) -> bool:
        inside = super().hit(at)
        return inside and any(b.x <= at[0] < b.right and b.y <= at[1] < b.bottom for b in self.boxes)

    def handle(self, event: pygame.event.Event) -> bool:
        return event.type == pygame.MOUSEBUTTONDOWN

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        lit = self.hovered or self.focused
        for (words, _, _, _), box in zip(self.pieces, self.boxes, strict=True):
            if lit:
                paint.box(surface, Rect(box.x - 2, box.y, box.w + 4, box.h), theme.hover, None, theme.radius)
            if self.place_name:
                foot = Rect(box.x, box.bottom - 2 * theme.line, box.w, (2 if lit else 1) * theme.line)
                paint.box(surface, foot, theme.palette.landing if lit else theme.edge)
            paint.text(surface, theme, words, self.role, box.x, box.y)


class SentenceView(Widget):
    """Sentences as flowing text. `lit` is the place of the phrase pointed at, else of the focused one."""

    focusable = False

    def __init__(self) -> None:
        super().__init__("What happened")
        self.role = "body"
        self._told: tuple[tuple[Phrase, ...], ...] = ()
        self.sentences: tuple[tuple[PhraseWidget, ...], ...] = ()

    def tell(self, sentences: Sequence[Sequence[Phrase]]) -> None:
        """Say these from now on; the same ones stay where they stand."""
        told = tuple(tuple(sentence) for sentence in sentences)
        if told == self._told:
            return
        self._told = told
        self.sentences = tuple(tuple(PhraseWidget(p) for p in sentence) for sentence in told)

    @property
    def parts(self) -> tuple[Widget, ...]:
        return tuple(p for sentence in self.sentences for p in sentence)

    @property
    def lit(self) -> str:
        phrases = [p for s in self.sentences for p in s]
        shown = [p for p in phrases if p.hovered] or [p for p in phrases if p.focused]
        return shown[0].place_name if shown else ""

    @property
    def text(self) -> str:
        """All of it as plain text."""
        return " ".join("".join(p.label for p in s) for s in self.sentences)

    def _flow(self, theme: Theme, width: float) -> tuple[list[list[Piece]], float]:
        """Pieces of every phrase, and the height."""
        type_, role, line = theme.type, self.role, theme.type.line(self.role)
        out: list[list[Piece]] = []
        y = 0.0
        for sentence in self.sentences:
            x, glued = 0.0, False
            for phrase in sentence:
                pieces: list[Piece] = []
                run, start = "", x
                for word in _words(phrase.label):
                    longer = run + word
                    fits = start + type_.width(longer.rstrip(), role) <= width
                    if x > 0 and not fits and not (glued and not word.startswith(" ")):
                        if run.strip():
                            pieces.append((run.rstrip(), start, y, type_.width(run.rstrip(), role)))
                        y, start, run, x = y + line, 0.0, word.lstrip(), 0.0
                    else:
                        run = longer
                    x, glued = start + type_.width(run, role), not run.endswith(" ")
                if run.strip():
                    pieces.append((run.rstrip(), start, y, type_.width(run.rstrip(), role)))
                out.append(pieces)
            y += line + 0.35 * line
        return out, max(y - 0.35 * line, 0.0)

    def height(self, theme: Theme, width: float) -> float:
        return self._flow(theme, width)[1]

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        pieces, _ = self._flow(theme, rect.w)
        phrases = [p for s in self.sentences for p in s]
        for phrase, own in zip(phrases, pieces, strict=True):
            phrase.pieces, phrase.corner = tuple(own), (rect.x, rect.y)
            phrase.line, phrase.role = theme.type.line(self.role), self.role
            phrase.clip, phrase.within = self.clip, self.within
            boxes = phrase.boxes
            if boxes:
                left, top = min(b.x for b in boxes), min(b.y for b in boxes)
                phrase.rect = Rect(
                    left, top, max(b.right for b in boxes) - left, max(b.bottom for b in boxes) - top
                )

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        for phrase in self.parts:
            phrase.draw(surface, theme)


def _words(text: str) -> list[str]:
    """Words with the blank before each kept; a phrase may begin with one. A unit stays by its number: this
    only says where a line may break, nothing is read out of the words."""
    out: list[str] = []
    for k, word in enumerate(text.split(" ")):
        if out and word.rstrip(".,") in UNITS:
            out[-1] += " " + word
        else:
            out.append(word if k == 0 else " " + word)
    return [w for w in out if w]
