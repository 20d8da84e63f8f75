"""What to play from here: one picks an option by its name and flight, then sees what each is worth."""

from collections.abc import Callable, Sequence
from datetime import datetime
from functools import partial

import pygame

from game.choosing.answer import ChoiceAnswer, ChoicesSeen, Worked, change_parts, choice_parts
from game.choosing.card_words import cards_of, notes_of, verdict_of
from game.choosing.cards import CardRow, OptionCard
from game.choosing.changes import ChangeRow, as_it_is_line, changed_line
from game.choosing.picture import ChoicePane, ChoicePicture
from game.choosing.question import ChoosingQuestion, ChoosingWay
from game.choosing.verdict import PickVerdict
from game.draw.camera import Rect
from game.library.notebook.picks import Pick, log_pick, pick_tally
from game.text.choice import HOPEFUL, WHAT_IF, leads_words, option_name, tally_words
from game.text.units import UNIT_SYSTEMS
from game.ui import Button, Column, Row, TextBlock, Theme, Widget, layout, paint
from game.ui.progress import ProgressBar
from game.ui.screen import Host, Screen
from game.ui.window_keeps import kept_while_open
from game.ui.work import Answer
from levels.what_if import Changed, what_ifs

__all__ = ["Choosing"]

CHOICE, WHAT_IF_CHANNEL = "choice", "what if"  # channels of the worker
SHOWN_AFTER = 0.5  # s of waiting before its progress shows
ROOMY, BOTH = 90.0, 60.0  # steps of height that hold picture and cards, and picture and what if
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
LEAST, MOST = 0.42, 0.62  # shares of the height for the picture; with less it stands among the words
ASK = "Which would you play? Pick one, then see the odds."
ASK_JUNIOR = "Which would you play? Pick one."


class Choosing(Screen):
    """Over the Bench or Play. The pick comes before the answer, so that it is a prediction."""

    title = "What to play from here"
    keys = (
        ("1 to 4", "pick that option; later: bring it to the front"),
        ("arrows", "from one option to the next"),
        ("Enter", "pick the option in focus; after the pick, take it along"),
        ("W", "what if: another spread, green or lie; again: the options"),
        ("N", "numbers on and off, for juniors"),
        ("Esc", "stop the working out, or go back: from what if to the options"),
    )

    def __init__(self, app: Host, question: ChoosingQuestion, ways: Sequence[ChoosingWay]) -> None:
        super().__init__(app)
        self.question, self.ways = question, tuple(ways)
        self.seen = kept_while_open(app, ChoicesSeen, ChoicesSeen)
        self.answer: ChoiceAnswer | None = self.seen.answers.get(question.digest)
        self.at = 0 if self.answer is None else self.answer.picked or 0
        self.waited, self._asked, self._changing = 0.0, False, False
        self.bar_of_choice = ProgressBar("The options are being played out")
        self.with_numbers, self.what_if_shown = True, False
        self.picture = ChoicePicture()
        self.cards: tuple[OptionCard, ...] = ()
        self._column, self._foot = Column([]), Row([])
        self._head = self._sight = self._box = Rect(0, 0, 1, 1)

    @property
    def working(self) -> bool:
        """Whether the options are still being played out."""
        return self.answer is None

    @property
    def _to_pick(self) -> bool:
        """Whether the options are there and none is picked yet."""
        return not self.working and self.picked is None

    @property
    def picked(self) -> int | None:
        """The option that was picked, from 0."""
        return None if self.answer is None else self.answer.picked

    # ---- the frame's calls

    @property
    def widgets(self) -> tuple[Widget, ...]:
        early = self.working and self.waited < SHOWN_AFTER
        return (self._foot,) if early else (self._column, self._foot)

    @property
    def moving(self) -> bool:
        return self.working and self.waited < SHOWN_AFTER  # later each sign of progress brings a frame

    def enter(self) -> None:
        if not self._asked:
            self.with_numbers = self.app.settings.detail != "junior"
            self._asked = True
            if self.answer is None:
                self.app.worker.ask(CHOICE, partial(choice_parts, self.question), self._hear)
        self._build()

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, gap = box, theme.gap
        inner = Rect(box.x + 2 * gap, box.y + gap, box.w - 4 * gap, box.h - 1.5 * gap)
        title = theme.type.wrap(self._title, "strong", inner.w)
        foot = self._foot.height(theme, inner.w) if self._foot.items else 0.0
        tall = len(title) * theme.type.line("strong")
        self._head, body, at = layout.take(inner, top=tall, bottom=foot, gap=gap)
        self._foot.place(at, theme)
        items = [w for w in self._column.items if not isinstance(w, ChoicePane)]
        offset, self._column = self._column.offset, Column(items, 1.0)
        room = body.h - self._needed(items, theme, body.w + 2 * gap) - gap
        picture = min(max(room, LEAST * body.h), MOST * body.h)
        if self.what_if_shown:  # the rows are still coming: the picture stays as it is
            picture = LEAST * body.h if body.h >= BOTH * gap else 0.0
        elif room < LEAST * body.h and body.h < ROOMY * gap:
            picture = 0.0
            rows = len(self.cards) if self.picked is not None else 0
            pane, first = ChoicePane(body.h, rows, self._draw_picture), 0 if self._to_pick else 1
            self._column = Column([*items[:first], pane, *items[first:]], 1.0)
        self._sight = Rect(box.x, body.y, box.w, picture)
        top = body.y + picture + (gap / 2 if picture else 0.0)
        self._column.offset = offset
        self._column.place(Rect(body.x - gap, top, body.w + 2 * gap, body.bottom - top), theme)

    @staticmethod
    def _needed(items: Sequence[Widget], theme: Theme, width: float) -> float:
        """Height (px) of the words that should be in sight at once: down to the cards, if any."""
        last = next((i for i, w in enumerate(items) if isinstance(w, CardRow)), len(items) - 1)
        return Column(items[: last + 1], 1.0).height(theme, width)

    def update(self, dt: float) -> None:
        if self.working:
            self.waited += dt
        focused = self.app.focus.hovered or self.app.focus.widget
        if isinstance(focused, OptionCard) and focused in self.cards:
            self._bring(self.cards.index(focused))

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_ESCAPE:
            self.back()
            return True
        if event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT | pygame.KMOD_META):
            return False
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            return self._column.handle(event)
        if event.key in ENTER and self.picked is not None and self.ways and not self.what_if_shown:
            self.take(0)
            return True
        number = event.key - pygame.K_1
        if 0 <= number < len(self.cards):
            self.press(number)
            return True
        acts: dict[int, Callable[[], None]] = {pygame.K_w: self.what_if, pygame.K_n: self.numbers}
        if event.key not in acts or self.working:
            return False
        acts[event.key]()
        return True

    # ---- what can be done

    def back(self) -> None:
        """From what if to the options, else off the screen; what is still being worked out is dropped."""
        if self.what_if_shown:
            self.options()
            return
        if self.working:
            self.app.worker.forget(CHOICE)
            self.app.say("Stopped: nothing was chosen.")
        if self._changing:
            self.app.worker.forget(WHAT_IF_CHANNEL)
        self.app.pop()

    def press(self, index: int) -> None:
        """Pick an option; once one is picked, bring it to the front."""
        if self.answer is None:
            return
        if self.answer.picked is None:
            self.pick(index)
            return
        self._bring(index)
        self.app.focus.set(self.cards[index])

    def enter_card(self, index: int) -> None:
        """Pick an option; once one is picked, take it along."""
        if self.picked is None or not self.ways:
            self.press(index)
        else:
            self._bring(index)
            self.take(0)

    def pick(self, index: int) -> None:
        """This one, before anything is known of it; it is kept in the notebook."""
        answer = self.answer
        if answer is None or answer.picked is not None:
            return
        answer.picked = self.at = index
        options, q = answer.choice.options, self.question
        log_pick(self.app.book, Pick(
            self.app.player, datetime.now().astimezone(), q.digest, q.title, q.chooser.player.spread.label,
            option_name(options[index]), option_name(options[0]), options[index].value.strokes,
            options[0].value.strokes, index == 0 or options[index].much_the_same,
        ))  # fmt: skip
        if problem := self.app.book.new_problem():
            self.app.say(problem)
        self._build()
        self.app.focus.set(self.cards[index])
        self._column.scroll(-self._column.offset)  # what came of the pick stands first

    def take(self, way: int) -> None:
        """Take the option in front along."""
        if self.answer is None or self.picked is None:
            return
        option = self.answer.choice.options[self.at]
        if refused := self.ways[way].refused(option):
            self.app.say(refused)
            return
        self.app.pop()
        self.ways[way].act(option)

    def what_if(self) -> None:
        """How the order changes with spread, green and lie, row by row; pressed again, the options."""
        answer = self.answer
        if answer is None or answer.picked is None:
            self.app.say("Pick one first.")
            return
        if self.what_if_shown:
            self.options()
            return
        if not answer.all_changed and not self._changing:
            self._changing, answer.changed = True, ()
            self.app.worker.ask(
                WHAT_IF_CHANNEL, partial(change_parts, answer), partial(self._hear_change, answer)
            )
        self.what_if_shown = True
        self._column.offset = 0.0
        self._build()

    def options(self) -> None:
        """The options again; what is still being played out goes on."""
        self.what_if_shown = False
        self._column.offset = 0.0
        self._build()
        self.app.focus.set(self.cards[self.at])

    def numbers(self) -> None:
        """Numbers on and off for a junior."""
        if self.app.settings.detail == "junior":
            self.with_numbers = not self.with_numbers
            self._build()

    def _bring(self, index: int) -> None:
        """This option before the others."""
        if index != self.at or not any(card.before_others for card in self.cards):
            self.at = index
            for i, card in enumerate(self.cards):
                card.before_others = i == index
            for way, button in zip(self.ways, self._foot.items, strict=False):
                if isinstance(button, Button) and self.picked is not None:
                    button.label = self._way_label(way)

    # ---- what comes back from beside the picture

    def _hear(self, answer: Answer) -> None:
        if not answer.fresh:
            return
        if answer.problem:
            self.app.pop()
            self.app.say(answer.problem)
            return
        if isinstance(answer.value, Worked):
            self.bar_of_choice.share = answer.value.share
            if answer.value.answer:
                self.answer = self.seen.answers[self.question.digest] = answer.value.answer
                self._build()

    def _hear_change(self, of: ChoiceAnswer, answer: Answer) -> None:
        if not answer.fresh:
            return
        if isinstance(answer.value, Changed):
            of.changed = (*of.changed, answer.value)
        if answer.last:
            self._changing = False
        self._build()

    # ---- building

    @property
    def _title(self) -> str:
        return f"{self.title}: {self.question.title}"

    def _way_label(self, way: ChoosingWay) -> str:
        return f"{self.at + 1} {way.label}"

    def _build(self) -> None:
        """The words and buttons of now; the focus stays on the card it was on."""
        focused = self.app.focus.widget
        at = self.cards.index(focused) if isinstance(focused, OptionCard) and focused in self.cards else None
        self._fill()
        if self.app.screen is not self:
            return
        self.app.arrange()
        if at is not None and at < len(self.cards) and not self.what_if_shown:
            self.app.focus.set(self.cards[at])
        elif self.cards and self.app.focus.widget not in self.app.focus.order():
            self.app.focus.set(self._foot.items[0] if self.what_if_shown else self.cards[self.at])

    def _fill(self) -> None:
        back = Button("Back", self.back, hint="Esc", group="ways")
        if self.answer is None:
            whose = TextBlock(self.question.chooser.words, "small", "muted")
            self._column, self._foot = Column([self.bar_of_choice, whose], 1.0), Row([back])
            return
        answer, junior = self.answer, self.app.settings.detail == "junior"
        coach, offset = self.app.settings.detail == "coach", self._column.offset
        words = cards_of(answer, self.with_numbers, coach, UNIT_SYSTEMS[self.app.settings.units])
        self.cards = tuple(
            OptionCard(i + 1, w, partial(self.press, i), partial(self.enter_card, i))
            for i, w in enumerate(words)
        )
        self.cards[self.at].before_others = True
        row = CardRow(self.cards)
        notes = [TextBlock(note, "small", "muted") for note in notes_of(answer)]
        if answer.picked is None:
            ask = TextBlock(ASK_JUNIOR if junior else ASK)
            self._column, self._foot = Column([ask, row, notes[0]], 1.0), Row([back])
            return
        self._column = Column(self._what_if_rows(answer) if self.what_if_shown else
                              [self._verdict(answer), row, *notes], 1.0)  # fmt: skip
        self._column.offset = offset
        ways = [
            Button(self._way_label(way), partial(self.take, i), kind="plain" if i else "main",
                   hint="" if i else "Enter", group="ways")
            for i, way in enumerate(self.ways)
        ]  # fmt: skip
        if self.what_if_shown:
            self._foot = Row([Button("The options", self.options, kind="main", hint="Esc", group="ways")])
            return
        other = Button("What if?", self.what_if, hint="W", group="ways",
                       tooltip="The same with another spread, another green, another lie.")  # fmt: skip
        self._foot = Row([*ways, other, back])

    def _verdict(self, answer: ChoiceAnswer) -> Widget:
        """What came of the pick, which is robust and which bold, and how the odds lean."""
        tally, named = pick_tally(self.app.book, self.app.player), leads_words(answer.choice)[-1]
        so_far = tally_words(tally.good, tally.picks) if tally.picks and self.with_numbers else ""
        return PickVerdict(verdict_of(answer, self.with_numbers), f"{named} {so_far}".strip(), HOPEFUL)

    def _what_if_rows(self, answer: ChoiceAnswer) -> list[Widget]:
        """The choice as it is, then each thing otherwise, as far as it is played out."""
        course = self.question.situation.course
        green = None if self.with_numbers else course.green_speed
        lines = [as_it_is_line(answer.choice, self.with_numbers)]
        lines += [changed_line(c, answer.choice, green) for c in answer.changed]
        share = len(answer.changed) / len(what_ifs(course))
        going = [ProgressBar("Being played out", share)] if self._changing else []
        return [TextBlock(WHAT_IF), *(ChangeRow(line) for line in lines), *going,
                TextBlock(HOPEFUL, "small", "muted")]  # fmt: skip

    # ---- drawing

    def draw(self, surface: pygame.Surface) -> None:
        theme = self.app.theme
        words = theme.type.wrap(self._title, "strong", self._head.w)
        paint.lines(surface, theme, words, "strong", self._head.x, self._head.y)
        if self._sight.h:
            self._draw_picture(surface, self._sight)
        super().draw(surface)

    def _draw_picture(self, surface: pygame.Surface, rect: Rect) -> None:
        course = self.question.situation.course
        self.picture.draw(surface, self.app.theme, rect, course, self.answer, self.at)
