"""The guide in the window: every key of a scenario and a pack, with a table of contents and a search."""

from collections.abc import Callable, Sequence
from functools import partial

import pygame

from game.builder.ui.boxes import ListLine, quiet_line
from game.draw.camera import Rect
from game.ui import Button, Column, Heading, TextBlock, Theme, Widget, layout, paint
from game.ui.screen import Host, Keys, Screen
from game.ui.textfield import TextField
from levels.annotate import GuideLine, GuidePart
from levels.guide import guide

__all__ = ["GuidePage"]

NARROW = 110.0  # steps of the rhythm below which the contents give way, as in the Builder
SEARCH = 40.0  # steps that the search takes
CONTENTS, ASIDE = 0.28, 0.5  # shares of the width: of the contents, of the words beside a key


class _KeyLine(Widget):
    """A key as the file has it, with what the reader knows of it beside or under it."""

    focusable = False

    def __init__(self, line: GuideLine) -> None:
        super().__init__(f"{line.code}: {line.told}" if line.told else line.code)
        self.line = line

    def _code(self, theme: Theme, width: float) -> list[tuple[float, str]]:
        """Lines of the code, each with its indentation (px)."""
        out = []
        for text in self.line.code.splitlines():
            left = 0.6 * theme.gap * (len(text) - len(text.lstrip()))
            out += [(left, row) for row in theme.type.wrap(text.strip(), "strong", width - left)]
        return out

    def _boxes(self, theme: Theme, width: float) -> tuple[float, float]:
        """Width of the code, and of the words; they are the same where the words stand under it."""
        wide = width >= NARROW * ASIDE * theme.gap
        return ((1.0 - ASIDE) * width - theme.gap, ASIDE * width) if wide else (width, width)

    def _told(self, theme: Theme, width: float) -> list[str]:
        return [
            row for words in self.line.told.splitlines() for row in theme.type.wrap(words, "label", width)
        ]

    def height(self, theme: Theme, width: float) -> float:
        code, told = self._boxes(theme, width)
        left = len(self._code(theme, code)) * theme.type.line("strong")
        right = len(self._told(theme, told)) * theme.type.line("label")
        return left + right if code == told else max(left, right)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        code, told = self._boxes(theme, self.rect.w)
        x, y = self.rect.x, self.rect.y
        for left, row in self._code(theme, code):
            paint.text(surface, theme, row, "strong", x + left, y)
            y += theme.type.line("strong")
        if code != told:
            x, y = self.rect.right - told, self.rect.y
        paint.lines(surface, theme, tuple(self._told(theme, told)), "label", x, y, "muted")


class GuidePage(Screen):
    """Over the Builder; Esc goes back to it. `keys_help` shows the keys and the words of the trade."""

    title = "Guide"
    keys: Keys = (
        ("Ctrl+F", "search"),
        ("Up, Down, Page keys", "scroll, also the wheel"),
        ("Esc", "clear the search, or go back"),
    )

    def __init__(self, app: Host, keys_help: Callable[[], None]) -> None:
        super().__init__(app)
        self._back = Button("Back", app.pop, hint="Esc", kind="main")
        self._help = Button("Keys and words", keys_help, hint="?")
        self.search = TextField("", "", self._seek, empty="Search for a key or a word")
        self.body, self.contents = Column([], 1.0), Column([], 0.0)
        self._heads: dict[str, Widget] = {}
        self._narrow = False
        self._box = Rect(0, 0, 1, 1)
        self._fill("")

    @property
    def widgets(self) -> Sequence[Widget]:
        contents = () if self._narrow else (self.contents,)
        return (self._back, self._help, self.search, *contents, self.body)

    # ---- what is shown

    def _seek(self, words: str) -> None:
        self._fill(words)
        self.layout(self._box, self.app.theme)

    def _fill(self, words: str) -> None:
        """Only what holds these words; all of it without any."""
        wanted = words.casefold().split()
        rows: list[Widget] = []
        listed: list[Widget] = []
        self._heads = {}
        for chapter in guide():
            parts = [(part, lines) for part in chapter.parts if (lines := _found(part, wanted))]
            said = not wanted or _holds(f"{chapter.title} {chapter.words}", wanted)
            if not parts and not said:
                continue
            rows += [quiet_line(""), Heading(chapter.title)] if rows else [Heading(chapter.title)]
            self._heads[chapter.title] = rows[-1]
            listed.append(ListLine(chapter.title, partial(self.show, chapter.title), group="contents"))
            if said:
                rows += [TextBlock(line) for line in chapter.words.splitlines()]
            for part, lines in parts:
                name = f"{chapter.title}: {part.title}"
                rows += [
                    quiet_line(""),
                    TextBlock(part.title, "lead"),
                    *([TextBlock(part.words)] if part.words else []),
                ]
                self._heads[name] = rows[-2] if part.words else rows[-1]
                listed.append(ListLine(part.title, partial(self.show, name), group="contents", indent=2.0))
                rows += [_KeyLine(line) for line in lines]
        self.body = Column(rows or [quiet_line("Nothing in the guide holds these words.")], 1.0)
        self.contents = Column(listed, 0.0)

    def show(self, name: str) -> None:
        """Scroll to a part."""
        self.body.scroll(self._heads[name].rect.y - self.body.rect.y - self.app.theme.gap)

    # ---- placing

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, self._narrow = box, box.w < NARROW * theme.gap
        gap = theme.gap
        inner = box.inset(gap)
        wide = self._back.width(theme), self._help.width(theme)
        beside = inner.w - sum(wide) - 2 * gap >= SEARCH * gap
        tall = self.search.height(theme, inner.w)
        head, body, _ = layout.take(inner, top=theme.target + (0.0 if beside else tall + gap), gap=gap)
        x = head.x
        for button, w in zip((self._back, self._help), wide, strict=True):
            button.place(Rect(x, head.y, w, theme.target), theme)
            x += w + gap
        field = Rect(x, head.y, SEARCH * gap, tall) if beside else (
            Rect(head.x, head.y + theme.target + gap, head.w, tall))  # fmt: skip
        self.search.place(field, theme)
        if self._narrow:
            self.body.place(body, theme)
            return
        left, right = layout.split(body, [CONTENTS, 1.0 - CONTENTS], 2 * gap)
        self.contents.place(left, theme)
        self.body.place(right, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type == pygame.MOUSEWHEEL:
            return self.body.handle(event)
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_f and event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META):
            self.app.focus.set(self.search)
        elif event.key == pygame.K_ESCAPE and self.search.text:
            self.search.written.show("")
            self._seek("")
        elif event.key == pygame.K_F1:
            self.app.pop()
        else:
            return self.body.handle(event)
        return True


def _holds(text: str, wanted: Sequence[str]) -> bool:
    return all(word in text.casefold() for word in wanted)


def _found(part: GuidePart, wanted: Sequence[str]) -> tuple[GuideLine, ...]:
    """The lines of a part that hold the words; all of them where its title does."""
    if _holds(f"{part.title} {part.words}", wanted):
        return part.lines
    return tuple(line for line in part.lines if _holds(f"{line.code} {line.told}", wanted))
