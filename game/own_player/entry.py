"""Ten balls: what to do outside, and where they landed and stopped, typed in one after the other."""

from collections.abc import Sequence
from functools import partial

import pygame

from game.draw.camera import Rect
from game.library.ball_draft import BallDraft, TypedBall, keep_draft, kept_draft
from game.own_player.ball_marks import BallMarks
from game.own_player.ball_rows import BallRow, HeadRow
from game.own_player.fitting import Fitting
from game.text.fit import ASKED_PUTT, PROTOCOL, assumed_words, putt_words
from game.text.units import METRIC
from game.ui import Button, Choice, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.clipboard import given_path
from game.ui.number import Bounds
from game.ui.progress import ProgressBar
from game.ui.screen import Host, Screen
from game.ui.textfield import TextField
from levels.ball_log import FEWEST, read_balls
from levels.player_file import ASSUMED_PUTTER
from levels.reading import ScenarioError
from physics.equipment import BAG
from physics.measured_balls import MeasuredBall, PracticeGround
from physics.putting import PUTTERS
from physics.surfaces import SURFACES

__all__ = ["BallEntry"]

WANTED, ROOM = 10, 40  # balls of a test, and rows at most on the page
SAVED_AFTER = 0.4  # s without a key until what is typed is on the disk
NARROW = 112.0  # steps of width that hold the two columns
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
LIES, CLUBS = tuple(name for name in SURFACES if name != "green"), tuple(BAG)
GREEN = Bounds("The green speed", 1.2, 4.9, "m", 2)  # as everywhere else
PUTTER_NAMES = ("", *reversed(PUTTERS))
PUTTS = ("not known", *(putt_words(name) for name in PUTTER_NAMES[1:]))
METRES = "All lengths in metres from where the ball lay. Landed and felt may stay empty."
FILE_WORDS = "Or a table of balls (.csv): drop it here, or paste its name"


class BallEntry(Screen):
    """Lie, club, mark, green and putting once, then ball by ball; everything typed is kept at once."""

    title = "Ten balls"
    keys = (
        ("Enter", "what is asked once, then field by field; after the felt strike, the next ball"),
        ("S, F, T", "in Felt: solid, fat, thin"),
        ("C", "in a ball: its club; arrows choose another, Enter goes back to the lengths"),
        ("Up, Down", "the ball before and after"),
        ("Backspace", "in an empty field: back to the one before"),
        ("Ctrl+Enter", "fit the player to these balls"),
        ("Ctrl+V", "take a table of balls whose name was copied"),
        ("Esc", "stop the fit, or go back; what is typed stays"),
    )

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self.draft, self._problem = kept_draft(app.home, app.player)
        self.name = app.player
        self._saved, self._quiet = self.draft, 0.0
        self.fitting = Fitting(app, self._heard, self._fitted)
        self.rows: tuple[BallRow, ...] = ()
        self._left, self._right, self._foot = Column([]), Column([]), Row([])
        self._told = ""  # problems as last placed
        self._fresh = False  # just come to the front: the focus is still to be set
        self._box = Rect(0, 0, 1, 1)
        self._asks: tuple[Widget, ...] = ()  # lie, club, mark, green, putting
        self.bar_of_fit = ProgressBar("The player is being fitted")

    @property
    def widgets(self) -> tuple[Widget, ...]:
        columns = (self._right, self._left) if self._right.items else (self._left,)
        return (*columns, *([self.bar_of_fit] if self.fitting.going else []), self._foot)

    @property
    def moving(self) -> bool:
        return self.draft != self._saved

    def enter(self) -> None:
        if self._problem:
            self.app.say(self._problem)
            self._problem = ""
        self._build()
        self._fresh = True

    def leave(self) -> None:
        self._save()

    # ---- the draft

    def _save(self) -> None:
        if self.draft != self._saved:
            self._saved = self.draft
            if problem := keep_draft(self.app.home, self.name, self.draft):
                self.app.say(problem)

    def _set(self, **fields: str) -> None:
        """What is meant from now on; balls that are there stay as they were meant."""
        self.draft, self._quiet = self.draft.model_copy(update=fields), 0.0
        if not any(not ball.empty for ball in self.draft.balls):
            self.draft = self.draft.model_copy(update={"balls": ()})
        for row in self.rows:
            if row.ball.empty:
                row.show(self._meant_now)

    @property
    def _meant_now(self) -> TypedBall:
        """A ball of which nothing is known but what is meant."""
        d = self.draft
        return TypedBall(lie=d.lie, club=d.club, target=d.target)

    def _clubbed(self, index: int, club: str) -> None:
        """Another club: of a ball that is there its own, else that of all from here on."""
        balls = self.draft.balls
        if index < len(balls) and not balls[index].empty:
            new = balls[index].model_copy(update={"club": club})
            self.draft = self.draft.model_copy(update={"balls": (*balls[:index], new, *balls[index + 1 :])})
            self.rows[index].show(new)
            self._quiet = 0.0
            return
        self._set(club=club)
        asked = self._asks[1]
        if isinstance(asked, Choice):
            asked.index = CLUBS.index(club)

    def _typed(self, index: int, field: str, text: str) -> None:
        d, new = self.draft, self._meant_now
        balls = [*d.balls, *([new] * (index + 1 - len(d.balls)))]
        if not balls[index].carry and not balls[index].stop:  # it begins now, or anew: as it is meant now
            balls[index] = new.model_copy(update={"felt": balls[index].felt})
        balls[index] = balls[index].model_copy(update={field: text})
        self.draft, self._quiet = d.model_copy(update={"balls": tuple(balls)}), 0.0
        self.rows[index].show(balls[index])

    @property
    def count(self) -> int:
        """Balls that hold something."""
        return sum(not ball.empty for ball in self.draft.balls)

    # ---- what can be done

    def _go(self, index: int, by: int) -> None:
        """To the first field of a ball; past the last one a new row."""
        to = index + by
        if to < 0:
            return
        if by > 0 and to == self.count == WANTED:
            self.app.say("Ten balls: Ctrl+Enter fits your player, or go on with more.")
        if to >= len(self.rows):
            if to >= ROOM:
                self.app.say(f"There is room for {ROOM} balls; a longer list comes from a table.")
                return
            self._build(to + 1)
        self.app.focus.set(self.rows[to].carry)
        self.app.arrange()

    def _focus(self, widget: Widget) -> None:
        self.app.focus.set(widget)

    def fit(self) -> None:
        """Fit the player, unless something is still to be put right."""
        self._save()
        balls = [(i, ball.read()[0]) for i, ball in enumerate(self.draft.balls) if not ball.empty]
        bad = next((i for i, ball in balls if ball is None), None)
        if bad is not None:
            self.app.say(f"Ball {bad + 1} cannot be read yet; see beside it.")
            if bad < len(self.rows):
                self.app.focus.set(self.rows[bad].felt)
            return
        if len(balls) < FEWEST:
            more = FEWEST - len(balls)
            self.app.say(f"{more} more ball{'' if more == 1 else 's'} are needed; ten tell much more.")
            return
        if isinstance(speed := self._green_speed, str):
            self.app.say(speed)
            self.app.focus.set(self._asks[3])
            return
        ground = PracticeGround() if speed is None else PracticeGround(speed)
        putter = self.draft.putter or ASSUMED_PUTTER
        self.fitting.start(tuple(ball for _, ball in balls if ball), ground, putter)
        self._build()

    @property
    def _green_speed(self) -> float | str | None:
        """The green's speed (m), None where it is not known, or a sentence why it cannot be taken."""
        return GREEN.read(self.draft.green) if self.draft.green.strip() else None

    def anew(self) -> None:
        """An empty list; the fitted player stays."""
        self.fitting.stop()
        self.draft = self.draft.model_copy(update={"balls": ()})
        self._save()
        self._build()
        self.app.say("The list is empty; the fitted player is as before.")

    def back(self) -> None:
        """Stop the fit, or go back."""
        if self.fitting.going:
            self.fitting.stop()
            self._build()
        else:
            self.app.pop()

    def take(self, path: str) -> None:
        """The balls of a table, in the place of an empty list, else behind it."""
        if not path:
            self.app.say("Nothing is copied. Copy the name of a table of balls, then press Ctrl+V.")
            return
        try:
            log = read_balls(path)
        except ScenarioError as error:
            self.app.say(str(error).splitlines()[0])
            return
        new = [
            TypedBall(
                lie=b.shot.lie, club=b.shot.club, target=f"{b.shot.target:g}",
                carry="" if b.carry != b.carry else f"{b.carry:g}", stop=f"{b.stop:g}", felt=b.felt,
            )
            for b in log.balls
        ]  # fmt: skip
        own = [ball for ball in self.draft.balls if not ball.empty]
        try:
            self.draft = BallDraft.model_validate({**self.draft.model_dump(), "balls": [*own, *new]})
        except ValueError:
            self.app.say(f"With these there would be {len(own) + len(new)} balls; start anew first.")
            return
        self._save()
        self._build()
        self.app.say(f"{len(new)} balls taken from the table.")

    def _heard(self) -> None:
        self.bar_of_fit.share = self.fitting.share
        if not self.fitting.going:
            self._build()

    def _fitted(self) -> None:
        if self.app.screen is self:
            self.app.pop()

    # ---- building

    def _build(self, least: int = 0) -> None:
        focused = self.app.focus.widget.label if self.app.focus.widget else ""
        d = self.draft
        shown = min(max(WANTED, len(d.balls) + 1, least), max(ROOM, len(d.balls)))
        self.rows = tuple(
            BallRow(i + 1, d.balls[i] if i < len(d.balls) else self._meant_now, partial(self._typed, i),
                    partial(self._clubbed, i), self._focus, partial(self._go, i))
            for i in range(shown)
        )  # fmt: skip
        if self.app.screen is not self:
            return
        self.app.arrange()
        everything = [w for row in self.rows for w in row.cells]
        self.app.focus.set(next((w for w in everything if w.label == focused), self._first()))

    def _first(self) -> Widget:
        """Where one begins: what is meant, where there is no ball yet, else the next ball."""
        if not self.count:
            return self._asks[0]
        return next((row.carry for row in self.rows if row.ball.empty), self.rows[0].carry)

    def _next_asked(self) -> None:
        """From one thing that is asked once to the next, then to the first ball."""
        at = self._asks.index(self.app.focus.widget) if self.app.focus.widget in self._asks else -1
        if at >= 0:
            self.app.focus.set(self._asks[at + 1] if at + 1 < len(self._asks) else self.rows[0].carry)

    def _meant(self) -> list[Widget]:
        d = self.draft
        return [
            Choice("Ball lies on", [SURFACES[n].label for n in LIES],
                   LIES.index(d.lie) if d.lie in LIES else 0, lambda i: self._set(lie=LIES[i]),
                   tooltip="What these balls lie on."),
            Choice("Club", [BAG[n].label for n in CLUBS], CLUBS.index(d.club) if d.club in CLUBS else 0,
                   lambda i: self._set(club=CLUBS[i]), tooltip="The club all these are hit with."),
            TextField("Mark to stop at", d.target, lambda text: self._set(target=text[:40]), unit="m",
                      aside=True, most=12, on_done=self._next_asked,
                      tooltip="How far from the ball the mark lies."),
            TextField("Green speed, if you know it", d.green, self._greened, unit="m", aside=True, most=12,
                      empty=f"{GREEN.held(PracticeGround().green_speed):g}?", on_done=self._next_asked,
                      tooltip="Its reading on the Stimpmeter; 10 ft can be typed too. Empty: assumed."),
            Choice(f"You hole, from {METRIC.near(ASKED_PUTT)}", PUTTS,
                   PUTTER_NAMES.index(d.putter), self._putts,
                   tooltip="Of ten putts; it counts where a shot is chosen."),
        ]  # fmt: skip

    def _greened(self, text: str) -> None:
        self._set(green=text[:40])
        field = self._asks[3]
        if isinstance(field, TextField):
            told = self._green_speed
            field.problem = told if isinstance(told, str) else ""
        self.app.arrange()  # what is assumed has changed

    def _putts(self, index: int) -> None:
        self._set(putter=PUTTER_NAMES[index])
        self.app.arrange()

    def _seen(self) -> tuple[tuple[MeasuredBall, ...], float, str]:
        """The balls with the mark and the lie of the last of them."""
        balls = self.draft.measured
        return balls, balls[-1].shot.target if balls else 0.0, balls[-1].shot.lie if balls else ""

    def _file(self) -> TextField:
        field = TextField(FILE_WORDS, "", lambda _: None, most=1000, tooltip="Enter reads it.")
        field.on_done = lambda: self.take(field.text)
        return field

    def layout(self, box: Rect, theme: Theme) -> None:
        self._box, gap = box, theme.gap
        inner = Rect(box.x + gap, box.y, box.w - 2 * gap, box.h - gap / 2)
        self._arrange(box.w >= NARROW * gap)
        tall = self._foot.height(theme, inner.w - 2 * gap)
        _, body, foot = layout.take(inner, bottom=tall, gap=gap)
        self._foot.place(Rect(foot.x + gap, foot.y, foot.w - 2 * gap, foot.h), theme)
        if self.fitting.going:  # over the buttons, so that no list of balls scrolls it away
            tall = self.bar_of_fit.height(theme, foot.w - 2 * gap)
            _, body, bar = layout.take(body, bottom=tall, gap=gap / 2)
            self.bar_of_fit.place(Rect(bar.x + gap, bar.y, bar.w - 2 * gap, bar.h), theme)
        if self._right.items:
            left, right = layout.split(body, (0.36, 0.64), 2 * gap)
            self._left.place(left, theme)
            self._right.place(right, theme)
        else:
            self._left.place(body, theme)

    def _arrange(self, wide: bool) -> None:
        """The columns of now; the fields the focus may be in stay the same."""
        old = {w.label: w for w in self._left.items if isinstance(w, Choice | TextField)}
        meant = [old.get(w.label, w) for w in (*self._meant(), self._file())]
        self._asks = tuple(meant[:5])
        steps: list[Widget] = [TextBlock(f"{i}. {words}") for i, words in enumerate(PROTOCOL, 1)]
        head: list[Widget] = [Heading(f"Ten balls of {self.name}"), *steps]
        assumed = assumed_words(None if not self.draft.green.strip() else 0.0, self.draft.putter)
        notes: list[Widget] = [TextBlock(words, "small", "muted") for words in (METRES, assumed) if words]
        table: list[Widget] = [HeadRow(), *self.rows, BallMarks(self._seen)]
        offsets = self._left.offset, self._right.offset
        if wide:
            self._left = Column([*head, *self._asks, *notes, meant[5]], 1.0)
            self._right = Column(table, 0.5)
        else:
            self._left = Column([*head, *self._asks, *notes, *table, meant[5]], 1.0)
            self._right = Column([])
        self._left.offset, self._right.offset = offsets
        stop = "Stop the fit" if self.fitting.going else "Back"
        self._foot = Row([
            Button("Fit my player", self.fit, kind="main", hint="Ctrl+Enter", group="ways",
                   tooltip="What these balls tell of your strokes."),
            Button("Start anew", self.anew, group="ways", tooltip="Empty the list; the fitted player stays."),
            Button(stop, self.back, hint="Esc", group="ways"),
        ])  # fmt: skip

    # ---- the frame's calls

    def update(self, dt: float) -> None:
        self._quiet += dt
        if self._fresh:
            self._fresh = False
            self.app.focus.set(self._first())
        if self._quiet >= SAVED_AFTER:
            self._save()
        told = "|".join(row.caption for row in self.rows)
        if told != self._told:
            self._told = told
            self._place_rows()

    def _place_rows(self) -> None:
        """Words beside a ball have come or gone: the column is placed anew, the focus stays in sight."""
        column = self._right if self._right.items else self._left
        column.place(column.rect, self.app.theme)
        focused = self.app.focus.widget
        if focused and focused.within is column:
            column.reveal(focused)

    def handle(self, event: pygame.event.Event) -> bool:
        if (path := given_path(event)) is not None:
            self.take(path)
            return True
        if event.type != pygame.KEYDOWN:
            return False
        if event.key == pygame.K_ESCAPE:
            self.back()
            return True
        ctrl = event.mod & (pygame.KMOD_CTRL | pygame.KMOD_META)
        if ctrl and event.key in ENTER:
            self.fit()
            return True
        if event.key in ENTER:
            self._next_asked()
            return True
        if event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            columns: Sequence[Column] = (self._right, self._left)
            return any([column.handle(event) for column in columns if column.items])
        return False
