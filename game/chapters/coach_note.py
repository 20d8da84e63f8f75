"""What the coach says and plans, and which files cannot be used: beside the path, or on a page of its own."""

from collections.abc import Callable
from datetime import date
from functools import partial

import pygame

from game.answering import answer_page
from game.chapters.contents import OWN, ShelfChapter
from game.draw.camera import Rect
from game.text.cautions import cautions
from game.ui import Button, Column, Heading, Pair, Row, TextBlock, Theme, Widget, layout
from game.ui.safety import SafetyPage
from game.ui.screen import Host, Screen
from levels.plan import PracticePlan

__all__ = ["Note", "NotePage", "answer_chapter", "day_words", "note_name"]


def note_name(chapter: ShelfChapter) -> str:
    """What the note of a chapter is about; "" when there is nothing to say."""
    if chapter.plan:
        return "Plan"
    return "Text" if chapter.words else "Bad files" if chapter.notes else ""


def answer_chapter(app: Host, chapter: ShelfChapter) -> None:
    """The page on which the player answers this assignment; nothing where the coach asks for none."""
    if chapter.assignment:
        answer_page(app, chapter.assignment, chapter.title)


class Note:
    """The note in a box: it scrolls when it must, but what to take care of is always in sight below it.

    `read` opens the drill on a page of its own, `answer` the answer to the coach.
    """

    def __init__(
        self, chapter: ShelfChapter, today: date, read: Callable[[], None], answer: Callable[[], None]
    ) -> None:
        items = _items(chapter, today)
        acts = [Button("Take it to grass", read, hint="P", group="note")] if chapter.plan else []
        acts += [Button("Answer", answer, hint="A", group="note")] if chapter.assignment else []
        self._column = Column([*items, Row(acts)] if acts else items, 1.0)
        self._care = TextBlock(_care(chapter.plan), "small", "muted") if chapter.plan else None

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._column, self._care) if self._care else (self._column,)

    def place(self, box: Rect, theme: Theme) -> None:
        """Place both parts."""
        if self._care:
            wide = box.w - 2 * theme.gap
            tall = self._care.height(theme, wide)
            _, box, foot = layout.take(box, bottom=tall + 0.5 * theme.gap, gap=theme.gap)
            self._care.place(Rect(foot.x + theme.gap, foot.y, wide, tall), theme)
        self._column.place(box, theme)


class NotePage(Screen):
    """The whole note where there is no room for it beside the path. Escape or Enter leads back."""

    title = "Play"
    keys = (
        ("Enter, Esc", "back to the path"),
        ("A", "answer your coach"),
        ("C", "what to take care of, a line each"),
        ("arrows, PageUp, PageDown", "scroll"),
    )

    def __init__(self, app: Host, chapter: ShelfChapter, today: date) -> None:
        super().__init__(app)
        self.chapter = chapter
        care = [Pair("Take care", _care(chapter.plan))] if chapter.plan else []
        self._column = Column([*_items(chapter, today), *care], 1.0)
        self._back = Button("Back", self._leave, kind="main", hint="Enter")
        answer = Button("Answer", partial(answer_chapter, app, chapter), hint="A")
        cautions = Button("Cautions", self.cautions, hint="C")
        self._buttons = (
            self._back, *((answer,) if chapter.assignment else ()), *((cautions,) if chapter.plan else ())
        )  # fmt: skip

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (*self._buttons, self._column)

    def cautions(self) -> None:
        """The page of cautions once more."""
        self.app.push(SafetyPage(self.app))

    def _leave(self) -> None:
        self.app.pop()

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_a and self.chapter.assignment:
            answer_chapter(self.app, self.chapter)
        elif event.key == pygame.K_c and self.chapter.plan:
            self.cautions()
        else:
            return self._column.handle(event)
        return True

    def layout(self, box: Rect, theme: Theme) -> None:
        gap, wide = theme.gap, max(button.width(theme) for button in self._buttons)
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 1.5 * gap)
        words, side = layout.split(inner, (inner.w - wide - gap, wide), gap)
        self._column.place(words, theme)
        y = side.y
        for button in self._buttons:
            button.place(Rect(side.x, y, wide, button.height(theme, wide)), theme)
            y = button.rect.bottom + gap


def _items(chapter: ShelfChapter, today: date) -> list[Widget]:
    items: list[Widget] = []
    if chapter.tab and chapter.tab != OWN and (chapter.words or chapter.plan):
        items.append(Heading(chapter.title))
        if chapter.words:
            items.append(TextBlock(chapter.words))
        if chapter.plan:
            items += _plan_items(chapter.plan, today)
    if chapter.notes:
        count = len(chapter.notes)
        items.append(TextBlock("Cannot be used" if count == 1 else f"{count} files cannot be used", "strong"))
        items += [TextBlock(note, "label", "muted") for note in chapter.notes]
    return items


def _plan_items(plan: PracticePlan, today: date) -> list[Widget]:
    return [
        Pair("Think of", " ".join(_stopped(point) for point in plan.focus)),
        Pair("Drill", plan.drill),
        Pair("Pass mark", f"{plan.successes} of {plan.shots} shots"),
        Pair("Retest", day_words(plan.retest, today)),
    ]


def _care(plan: PracticePlan | None) -> str:
    """The coach's caution before the usual ones."""
    return f"{_stopped(plan.caution)} {cautions()}" if plan and plan.caution else cautions()


def _stopped(words: str) -> str:
    return words if words.endswith((".", "!", "?")) else f"{words}."


def day_words(day: date, today: date) -> str:
    """A day as people say it, and how far off it is."""
    away = (day - today).days
    when = {-1: "yesterday", 0: "today", 1: "tomorrow"}.get(
        away, f"in {away} days" if away > 0 else f"{-away} days ago"
    )
    return f"{day:%A} {day.day} {day:%B %Y}, {when}"
