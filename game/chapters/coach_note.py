"""What the coach says and plans, and which files cannot be used: beside the path, or on a page of its own."""

from datetime import date

import pygame

from game.chapters.contents import OWN, ShelfChapter
from game.draw.camera import Rect
from game.text.cautions import cautions
from game.ui import Button, Column, Heading, Pair, TextBlock, Theme, Widget, layout
from game.ui.screen import Host, Screen
from levels.plan import PracticePlan

__all__ = ["Note", "NotePage", "day_words", "note_name"]


def note_name(chapter: ShelfChapter) -> str:
    """What the note of a chapter is about; "" when there is nothing to say."""
    if chapter.plan:
        return "Plan"
    return "Text" if chapter.words else "Bad files" if chapter.notes else ""


class Note:
    """The note in a box: it scrolls when it must, but what to take care of is always in sight below it."""

    def __init__(self, chapter: ShelfChapter, today: date) -> None:
        self._column = Column(_items(chapter, today), 1.0)
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
    keys = (("Enter, Esc", "back to the path"), ("arrows, PageUp, PageDown", "scroll"))

    def __init__(self, app: Host, chapter: ShelfChapter, today: date) -> None:
        super().__init__(app)
        care = [Pair("Take care", _care(chapter.plan))] if chapter.plan else []
        self._column = Column([*_items(chapter, today), *care], 1.0)
        self._back = Button("Back", self._leave, kind="main", hint="Enter")

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return self._back, self._column

    def _leave(self) -> None:
        self.app.pop()

    def handle(self, event: pygame.event.Event) -> bool:
        return event.type == pygame.KEYDOWN and self._column.handle(event)

    def layout(self, box: Rect, theme: Theme) -> None:
        gap, wide = theme.gap, self._back.width(theme)
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 1.5 * gap)
        words, side = layout.split(inner, (inner.w - wide - gap, wide), gap)
        self._column.place(words, theme)
        self._back.place(Rect(side.x, side.y, wide, self._back.height(theme, wide)), theme)


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
