"""Ten balls: what to do outside, and where they landed and stopped, typed in one after the other."""

from collections.abc import Sequence
from functools import partial

import pygame

from game.draw.camera import Rect
from game.library.ball_draft import BallDraft, TypedBall, keep_draft, kept_draft
from game.own_player.ball_marks import BallMarks
from game.own_player.ball_rows import BallRow, HeadRow
from game.own_player.fitting import Fitting
from game.text.fit import PROTOCOL
from game.ui import Button, Choice, Column, Heading, Row, TextBlock, Theme, Widget, layout
from game.ui.clipboard import given_path
from game.ui.progress import ProgressBar
from game.ui.screen import Host, Screen
from game.ui.textfield import TextField
from levels.ball_log import FEWEST, read_balls
from levels.reading import ScenarioError
from physics.equipment import BAG
from physics.measured_balls import MeasuredBall
from physics.surfaces import SURFACES

__all__ = ["BallEntry"]

WANTED, ROOM = 10, 40  # balls of a test, and rows at most on the page
SAVED_AFTER = 0.4  # s without a key until what is typed is on the disk
NARROW = 112.0  # steps of width that hold the two columns
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
LIES, CLUBS = tuple(name for name in SURFACES if name != "green"), tuple(BAG)
METRES = "All lengths in metres from where the ball lay. Landed and felt may stay empty."
FILE_WORDS = "Or a table of balls (.csv): drop it here, or paste its name"


class BallEntry(Screen):
    """Lie, club and mark once, then ball by ball; everything typed is kept at once."""

    title = "Ten balls"
    keys = (
        ("Enter", "lie, club, mark, then field by field; after the felt strike, the next ball"),
        ("S, F, T", "in Felt: solid, fat, thin"),
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
        self._asks: tuple[Widget, ...] = ()  # lie, club, mark
        self.bar_of_fit = ProgressBar("The player is being fitted")

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return (self._right, self._left, self._foot) if self._right.items else (self._left, self._foot)

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

    def _typed(self, index: int, field: str, text: str) -> None:
        d = self.draft
        new = TypedBall(lie=d.lie, club=d.club, target=d.target)
        balls = [*d.balls, *([new] * (index + 1 - len(d.balls)))]
        if not balls[index].carry and not balls[index].stop:  # it begins now, or anew: as it is meant now
            balls[index] = new.model_copy(update={"felt": balls[index].felt})
        balls[index] = balls[index].model_copy(update={field: text})
        self.draft, self._quiet = d.model_copy(update={"balls": tuple(balls)}), 0.0
        self.rows[index].ball = balls[index]

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
        self.fitting.start(tuple(ball for _, ball in balls if ball))
        self._build()

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
        empty = TypedBall(lie=d.lie, club=d.club, target=d.target)
        self.rows = tuple(
            BallRow(i + 1, d.balls[i] if i < len(d.balls) else empty, partial(self._typed, i), self._focus,
                    partial(self._go, i))
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
        """From lie to club to mark to the first ball."""
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
        ]  # fmt: skip

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
        self._asks = tuple(meant[:3])
        steps: list[Widget] = [TextBlock(f"{i}. {words}") for i, words in enumerate(PROTOCOL, 1)]
        head: list[Widget] = [Heading(f"Ten balls of {self.name}"), *steps]
        notes: list[Widget] = [TextBlock(METRES, "small", "muted")]
        table: list[Widget] = [HeadRow(), *self.rows, BallMarks(self._seen)]
        offsets = self._left.offset, self._right.offset
        if wide:
            self._left = Column([*head, *meant[:3], *notes, meant[3]], 1.25)
            self._right = Column(table, 0.5)
        else:
            self._left = Column([*head, *meant[:3], *notes, *table, meant[3]], 1.0)
            self._right = Column([])
        self._left.offset, self._right.offset = offsets
        fitting: list[Widget] = [self.bar_of_fit] if self.fitting.going else []
        if fitting:
            column = self._left
            self._left = Column([*fitting, *column.items], column.spacing)
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
