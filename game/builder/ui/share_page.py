"""Sharing: which scenarios, in which order, with which plan; then the file that players are given."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any, Protocol

import pygame

from game.builder.model.sharing import Offer, PlanForm, Sharing
from game.builder.ui.boxes import ListLine, ProblemNote, quiet_line, short_title
from game.builder.ui.fields import read_number, value_text
from game.draw.camera import Rect
from game.ui import Button, Choice, Column, Heading, Row, TextBlock, Theme, Toggle, Widget, layout, paint
from game.ui.screen import Host, Keys, Screen
from game.ui.textarea import TextArea
from game.ui.textfield import TextField
from game.ui.widget import walk

__all__ = ["SharePage", "TickLine"]

PARTS = ("Scenarios", "Order", "Pack and plan")
POINT = "A point to think of."
ANSWER = "The player can send you a file of what was played; drop it on this window to read it."
NARROW = 110.0  # steps of the rhythm below which one part shows at a time, as in the Builder
PLACE = {"chosen": 1, "title": 2}  # the part that shows what is wrong; of the plan the last one

Change = Callable[[Sharing], Sharing]


class ShareHost(Protocol):
    """What the page of sharing asks of the files: to keep what was filled in, to add a file, to write."""

    sharing: Sharing

    def write_shared(self) -> None:
        """Warn, ask where, and write."""

    def add_shared(self) -> None:
        """Choose one more file."""


class TickLine(ListLine):
    """A line of a list with a box that is ticked or not."""

    @property
    def caption(self) -> str:
        return f"{self.label}, {'chosen' if self.current else 'not chosen'}"

    def _words_left(self, theme: Theme) -> float:
        return 2.5 * theme.gap

    def height(self, theme: Theme, width: float) -> float:
        return super().height(theme, width - self._words_left(theme))

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap, line = self.rect, theme.gap, theme.type.line("label")
        if self.hovered:
            paint.box(surface, r, theme.hover, None, theme.radius)
        left = self._words_left(theme)
        lines = theme.type.wrap(self.label, "label", r.w - 2 * gap - left)
        top = r.y + (r.h - len(lines) * line) / 2
        side = 1.9 * gap
        box = Rect(r.x + gap, top + (line - side) / 2, side, side)
        fill = theme.accent if self.current else theme.palette.paper
        edge = theme.accent if self.current else theme.edge
        paint.box(surface, box, fill, edge, theme.radius / 2, theme.line)
        if self.current:
            tick = [(0.22, 0.52), (0.42, 0.72), (0.78, 0.28)]
            points = [(box.x + x * side, box.y + y * side) for x, y in tick]
            pygame.draw.lines(surface, theme.palette.paper, False, points, max(round(2 * theme.line), 2))
        paint.lines(surface, theme, lines, "label", r.x + gap + left, top)
        self.draw_focus(surface, theme)


class SharePage(Screen):
    """Three parts beside each other, or one at a time where there is no room."""

    title = "Share scenarios"
    keys: Keys = (
        ("Arrows, Space", "through the scenarios; in and out"),
        ("Tab", "to the order, to the words and to the plan"),
        ("PageUp, PageDown", "scroll the part in focus; with Ctrl to the next part"),
        ("Ctrl+S", "warn, ask where, and write"),
        ("Esc", "back; what you filled in is kept until the program ends"),
    )

    def __init__(
        self, app: Host, host: ShareHost, own: Sequence[Offer], builtin: Sequence[Offer],
        note: str = "",
    ) -> None:  # fmt: skip
        super().__init__(app)
        self.host, self.own, self.builtin, self.note = host, list(own), tuple(builtin), note
        self.tried, self.tight, self.part = False, False, 0
        self._box, self._theme = Rect(0, 0, 1, 1), Theme()
        self._parts = Choice("", PARTS, 0, self._show_part, tooltip="What to look at.")
        self._write = Button("Write the pack", self.write, kind="main", hint="Ctrl+S")
        self._acts = Row([
            self._write, Button("Back", app.pop, hint="Esc"), Button("Add a file", host.add_shared)
        ])  # fmt: skip
        self._columns = [Column([], 0.25), Column([]), Column([])]
        self._ticks: dict[str, TickLine] = {}
        self._fields: dict[str, TextField] = {}
        self._fill_scenarios()
        self._fill_order()
        self._fill_plan()

    @property
    def widgets(self) -> Sequence[Widget]:
        if self.tight:
            return (self._parts, self._columns[self.part], self._acts)
        return (*self._columns, self._acts)

    @property
    def sharing(self) -> Sharing:
        """What is filled in so far."""
        return self.host.sharing

    # ---- filling

    def _fill_scenarios(self) -> None:
        """The tick list: one's own, then the built-in ones by chapter."""
        self._ticks = {}
        rows: list[Widget] = [Heading("Which scenarios?"), *self._ticked(self.own)]
        if not self.own:
            rows.append(quiet_line("You have saved no scenario yet."))
        if self.note:
            rows.append(quiet_line(self.note))
        group = ""
        for offer in self.builtin:
            if offer.group != group:
                rows.append(TextBlock(f"Built in: {offer.group}", "small", "muted"))
                group = offer.group
            rows += self._ticked([offer])
        self._columns[0] = Column(rows, 0.25)

    def _ticked(self, offers: Sequence[Offer]) -> list[TickLine]:
        made = []
        for offer in offers:
            label = short_title(offer.title) if offer.group else offer.title
            line = TickLine(label, partial(self.turn, offer), group="offers",
                            tooltip=str(offer.source) if isinstance(offer.source, Path) else "")  # fmt: skip
            line.current = self.sharing.has(offer)
            self._ticks[offer.key] = line
            made.append(line)
        return made

    def _fill_order(self) -> None:
        """The chosen ones in playing order, each with what its coach should look at."""
        rows: list[Widget] = [Heading("In which order?")]
        chosen = self.sharing.chosen
        if problem := self._told().get("chosen"):
            rows.append(ProblemNote(problem))
        elif not chosen:
            rows.append(quiet_line("Choose scenarios; they stand here in the order they are played in."))
        for i, offer in enumerate(chosen):
            rows.append(TextBlock(f"{i + 1}. {offer.title}", "strong"))
            rows += [ProblemNote(told) for told in offer.cautions]
            rows.append(self._movers(i, offer))
        self._columns[1] = Column(rows, 0.75)

    def _movers(self, i: int, offer: Offer) -> Row:
        group = f"order {i}"
        earlier = Button("Earlier", partial(self.move, i, -1), group=group)
        later = Button("Later", partial(self.move, i, 1), group=group)
        earlier.enabled, later.enabled = i > 0, i + 1 < len(self.sharing.chosen)
        return Row([earlier, later, Button("Remove", partial(self.turn, offer), group=group)])

    def _fill_plan(self) -> None:
        """Title and words of the pack, and the plan where one goes with it."""
        now, self._fields = self.sharing, {}
        rows: list[Widget] = [
            Heading("The pack"),
            self._line("title", "Title", now.title, lambda t: lambda s: replace(s, title=t), most=80),
            TextArea("Your words to the player", now.words,
                     lambda t: self._set(lambda s: replace(s, words=t)), rows=2, most=4000),
            Toggle("With a practice plan", now.planned, self._turn_plan),
        ]  # fmt: skip
        if now.planned:
            rows += self._plan_fields(now.plan)
        if now.may_ask:
            rows.append(Toggle("Ask for an answer", now.asks, self._turn_answer, tooltip=ANSWER))
        self._columns[2] = Column(rows, 1.0)

    def _plan_fields(self, plan: PlanForm) -> list[Widget]:
        def words(key: str, label: str, text: str, **more: Any) -> TextField:
            return self._line(key, label, text, lambda t: _planned(**{key: t}), **more)

        def number(key: str, label: str, value: Any, tip: str) -> TextField:
            return self._line(
                key, label, value_text(value), lambda t: _planned(**{key: read_number(t, True)}),
                aside=True, most=6, on_step=lambda by, size: step(key, by * size), tooltip=tip,
            )  # fmt: skip

        def step(key: str, by: int) -> None:
            value = getattr(self.sharing.plan, key)
            self._set(_planned(**{key: max((value if isinstance(value, int) else 0) + by, 1)}))
            self._fields[key].show(value_text(getattr(self.sharing.plan, key)))

        def later(by: int, size: int) -> None:
            self._set(lambda s: s.with_plan(lambda p: p.stepped(by * size, date.today())))
            self._fields["retest"].show(self.sharing.plan.retest)

        return [
            self._keep("focus", TextField("Focus 1", plan.focus[0], self._focus(0), tooltip=POINT)),
            TextField("Focus 2, if any", plan.focus[1], self._focus(1), tooltip=POINT),
            words("drill", "Drill", plan.drill, tooltip="The one drill until the retest."),
            number("shots", "Shots", plan.shots, "How many shots the drill has."),
            number("successes", "Pass mark", plan.successes, "How many of the shots have to come off."),
            words("retest", "Retest", plan.retest, aside=True, on_step=later, most=12, empty="2025-11-30",
                  tooltip="Day of the test, within 14 days; Up and Down step it."),
            words("caution", "Take care of, if anything", plan.caution),
        ]  # fmt: skip

    def _focus(self, at: int) -> Callable[[str], None]:
        def change(text: str) -> None:
            first, second = self.sharing.plan.focus
            self._set(_planned(focus=(text, second) if at == 0 else (first, text)))

        return change

    def _line(
        self, key: str, label: str, text: str, change: Callable[[str], Change], **more: Any
    ) -> TextField:
        return self._keep(key, TextField(label, text, lambda t: self._set(change(t)), **more))

    def _keep(self, key: str, field: TextField) -> TextField:
        self._fields[key] = field
        field.problem = self._told().get(key, "")
        return field

    def _told(self) -> dict[str, str]:
        """What is wrong, once writing was tried."""
        return self.sharing.problems(date.today()) if self.tried else {}

    # ---- acts

    def _set(self, change: Change) -> None:
        self.host.sharing = change(self.sharing)
        if self.tried:
            self._tell()

    def _tell(self) -> None:
        """What is wrong now, under its field."""
        told = self._told()
        for key, field in self._fields.items():
            field.problem = told.get(key, "")
        self._place()

    def turn(self, offer: Offer) -> None:
        """A scenario in or out."""
        self.host.sharing = self.sharing.turned(offer)
        if (line := self._ticks.get(offer.key)) is not None:
            line.current = self.sharing.has(offer)
        self._reorder(None)

    def move(self, at: int, by: int) -> None:
        """A chosen scenario earlier or later; the focus goes with it."""
        self.host.sharing = self.sharing.moved(at, by)
        self._reorder((at + by, "Earlier" if by < 0 else "Later"))

    def _reorder(self, to: tuple[int, str] | None) -> None:
        """The order anew. `to`: the row and the button that get the focus."""
        focused, offset = self.app.focus.widget, self._columns[1].offset
        inside = focused in list(walk([self._columns[1]]))
        self._fill_order()
        self._columns[1].offset = offset
        self._place()
        if to is not None:
            row = [w for w in walk([self._columns[1]]) if w.group == f"order {to[0]}" and w.enabled]
            self.app.focus.set(next((w for w in row if w.label == to[1]), row[0]))
        elif inside:
            stops = [w for w in walk([self._columns[1]]) if w.focusable and w.enabled]
            self.app.focus.set(stops[0] if stops else None)

    def added(self, offer: Offer) -> None:
        """One more file in the list, chosen."""
        if all(o.key != offer.key for o in self.own):
            self.own.append(offer)
        if not self.sharing.has(offer):
            self.host.sharing = self.sharing.turned(offer)
        self._fill_scenarios()
        self._fill_order()
        self.app.arrange()
        self.app.focus.set(self._ticks[offer.key])

    def _turn_plan(self, on: bool) -> None:
        toggle = self._plan_toggle()
        self.host.sharing = replace(self.sharing, planned=on)
        if on and not self.sharing.plan.retest:
            self.host.sharing = self.sharing.with_plan(lambda p: p.stepped(0, date.today()))
        offset = self._columns[2].offset
        self._fill_plan()
        self._columns[2].offset = offset
        self._place()
        if toggle.focused:
            self.app.focus.set(self._plan_toggle())

    def _turn_answer(self, on: bool) -> None:
        self._set(lambda s: replace(s, asks=on))

    def _plan_toggle(self) -> Toggle:
        return next(w for w in self._columns[2].items if isinstance(w, Toggle))

    def write(self) -> None:
        """Show the first thing that is wrong, or go on to the warnings and the file."""
        self.tried = True
        told = self._told()
        self._fill_order()
        self._tell()
        if not told:
            self.app.toast.hide()
            self.host.write_shared()
            return
        key, sentence = next(iter(told.items()))
        if self.tight:
            self._show_part(PLACE.get(key, 2))
        field = self._fields.get(key) or next(iter(self._ticks.values()), None)
        if field in list(walk(self.widgets)):
            self.app.focus.set(field)
        self.app.say(sentence if key in PLACE else f"To fix: {self._fields[key].label}.")

    # ---- placing and keys

    def _show_part(self, index: int) -> None:
        self.part = self._parts.index = index
        self.app.arrange()

    def _next_part(self, by: int) -> None:
        focused = self.app.focus.widget
        at = self.part if self.tight else next(
            (i for i, c in enumerate(self._columns) if focused in list(walk([c]))), 0)  # fmt: skip
        to = (at + by) % len(PARTS)
        if self.tight:
            self._show_part(to)
        self.app.focus.first([self._columns[to]])

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, self._theme = box, theme
        self.tight = box.w < NARROW * theme.gap
        self._place()

    def _place(self) -> None:
        box, theme, gap = self._box, self._theme, self._theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 2 * gap)
        tall = self._parts.height(theme, inner.w) if self.tight else 0.0
        head, body, low = layout.take(inner, top=tall, bottom=self._acts.height(theme, inner.w), gap=gap)
        self._acts.place(low, theme)
        if self.tight:
            self._parts.place(head, theme)
            self._columns[self.part].place(body, theme)
            return
        for column, room in zip(self._columns, layout.split(body, [1.0] * 3, 2 * gap), strict=True):
            column.place(room, theme)

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        ctrl = event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META)
        if event.key == pygame.K_ESCAPE:
            self.app.pop()
        elif ctrl and event.key == pygame.K_s:
            self.write()
        elif ctrl and event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            self._next_part(-1 if event.key == pygame.K_PAGEUP else 1)
        else:
            return self.scrolls(event)
        return True


def _planned(**fields: Any) -> Change:
    """A change of the plan's fields."""
    return lambda s: s.with_plan(lambda p: replace(p, **fields))
