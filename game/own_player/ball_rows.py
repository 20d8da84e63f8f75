"""One ball to be typed in: where it landed and stopped, how the strike felt; what is wrong beside it."""

from collections.abc import Callable, Sequence
from functools import partial

import pygame

from game.draw.camera import Rect
from game.library.ball_draft import TypedBall
from game.text.quantity import NONE
from game.ui import Choice, Theme, Widget, layout, paint
from game.ui.choice import NOT_CHOSEN
from game.ui.clipboard import pasted_path
from game.ui.textfield import TextField, draw_problem, problem_lines
from levels.reading import legible
from physics.equipment import BAG
from physics.measured_balls import FELT
from physics.surfaces import SURFACES

__all__ = ["BallRow", "HeadRow", "ball_problems"]

NUMBER, CLUB, CELL, BESIDE = 3.5, 13.0, 11.0, 18.0  # steps: number, club, field, room for words beside them
NAMES = {
    "carry_m": "landed",
    "stop_m": "stopped",
    "felt": "felt",
    "target_m": "mark",
    "lie": "lie",
    "club": "club",
}
CLUBS = tuple(BAG)
LETTERS = {pygame.K_s: 0, pygame.K_f: 1, pygame.K_t: 2}
TABLE = ".csv"
COMMANDS = pygame.KMOD_CTRL | pygame.KMOD_META
ENTER = (pygame.K_RETURN, pygame.K_KP_ENTER)
Go = Callable[[int], None]


def ball_problems(ball: TypedBall) -> str:
    """What is wrong with a ball, a sentence a field; "" when all is well."""
    _, wrong = ball.read()
    return " ".join(f"{NAMES[column].capitalize()} {fault}." for column, fault in wrong.items())


class LengthCell(TextField):
    """A length in metres. Enter goes on, Up and Down to the ball before and after; Backspace in an empty
    one goes back, C to the club."""

    def __init__(
        self, label: str, text: str, on_change: Callable[[str], None], on_done: Callable[[], None],
        rows: Go, back: Callable[[], None], club: Callable[[], None],
    ) -> None:  # fmt: skip
        super().__init__(label, text, on_change, unit="m", most=12, on_done=on_done,
                         on_step=lambda by, _: rows(-by))  # fmt: skip
        self.before, self.club, self.wrong = back, club, False

    def _label_lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        return ()

    def _top(self, theme: Theme, width: float) -> float:
        return 0.0

    def _wait(self) -> None:
        self.written.select(0, len(self.text))

    def handle(self, event: pygame.event.Event) -> bool:
        pastes = event.type == pygame.KEYDOWN and event.key == pygame.K_v and event.mod & COMMANDS
        if pastes and pasted_path().lower().endswith(TABLE):
            return False  # the name of a table is the page's, not a length
        if event.type == pygame.KEYDOWN and event.key == pygame.K_BACKSPACE and not self.text:
            self.before()
            return True
        if asks_club(event):
            self.club()
            return True
        return super().handle(event)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        super().draw(surface, theme)
        if self.wrong:
            paint.box(surface, self.field, None, theme.palette.landing, theme.radius, 2 * theme.line)


def asks_club(event: pygame.event.Event) -> bool:
    """Whether this is the key that leads to a ball's club; no length is written with it."""
    return (
        event.type == pygame.KEYDOWN
        and event.key == pygame.K_c
        and not event.mod & (COMMANDS | pygame.KMOD_ALT)
    )


class SmallChoice(Choice):
    """A choice without a label, a dash while nothing is chosen."""

    def _label(self, theme: Theme, width: float) -> tuple[str, ...]:
        return ()

    def _one(self, theme: Theme, width: float, option: str) -> tuple[str, ...]:
        return (NONE,) if self.index == NOT_CHOSEN else super()._one(theme, width, option)


class ClubCell(SmallChoice):
    """The club of one ball, by its short name: Left and Right or its arrows; Enter goes to the lengths."""

    def __init__(
        self, label: str, club: str, on_change: Callable[[str], None], on_done: Callable[[], None], rows: Go
    ) -> None:
        super().__init__(label, [BAG[name].short for name in CLUBS], NOT_CHOSEN,
                         lambda i: on_change(CLUBS[i]), tooltip="The club of this ball.")  # fmt: skip
        self.on_done, self.rows = on_done, rows
        self.show(club)

    def show(self, club: str) -> None:
        """That club, from elsewhere."""
        self.index = CLUBS.index(club) if club in CLUBS else NOT_CHOSEN

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return super().handle(event)
        if event.key in ENTER or event.key == pygame.K_BACKSPACE:
            self.on_done()
        elif event.key in (pygame.K_UP, pygame.K_DOWN):
            self.rows(-1 if event.key == pygame.K_UP else 1)
        else:
            return super().handle(event)
        return True


class FeltCell(SmallChoice):
    """Solid, fat or thin: their letters or the arrows; Enter goes on to the next ball, C to the club."""

    def __init__(
        self, label: str, felt: str, on_change: Callable[[str], None], on_done: Callable[[], None],
        rows: Go, back: Callable[[], None], club: Callable[[], None],
    ) -> None:  # fmt: skip
        now = FELT.index(felt) if felt in FELT else NOT_CHOSEN
        super().__init__(label, [f.capitalize() for f in FELT], now, lambda i: on_change(FELT[i]),
                         tooltip="How the strike felt: S, F or T; Enter goes on.")  # fmt: skip
        self.on_felt, self.on_done, self.rows, self.before, self.club = on_change, on_done, rows, back, club

    def handle(self, event: pygame.event.Event) -> bool:
        if event.type != pygame.KEYDOWN or event.mod & (pygame.KMOD_CTRL | pygame.KMOD_ALT):
            return super().handle(event)
        if asks_club(event):
            self.club()
        elif event.key in LETTERS:
            self.set(LETTERS[event.key])
        elif event.key in ENTER:
            self.on_done()
        elif event.key in (pygame.K_UP, pygame.K_DOWN):
            self.rows(-1 if event.key == pygame.K_UP else 1)
        elif event.key in (pygame.K_BACKSPACE, pygame.K_DELETE):
            if self.index == NOT_CHOSEN:
                self.before()
            else:
                self.index = NOT_CHOSEN
                self.on_felt("")
        else:
            return super().handle(event)
        return True


class HeadRow(Widget):
    """What stands in the columns."""

    focusable = False

    def __init__(self) -> None:
        super().__init__("Club, landed, stopped, felt")

    def height(self, theme: Theme, width: float) -> float:
        return theme.type.line("small")

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        x = self.rect.x + NUMBER * theme.gap
        for words, wide in (("Club", CLUB), ("Landed", CELL), ("Stopped", CELL), ("Felt", 0.0)):
            paint.text(surface, theme, words, "small", x, self.rect.y, "muted")
            x += (wide + 1) * theme.gap


class BallRow(Widget):
    """The fields of one ball. `change` hears a field and its text, `clubbed` another club; `go` moves by so
    many rows."""

    focusable = False

    def __init__(
        self, number: int, ball: TypedBall, change: Callable[[str, str], None],
        clubbed: Callable[[str], None], focus: Callable[[Widget], None], go: Go,
    ) -> None:  # fmt: skip
        super().__init__(f"Ball {number}")
        self.number, self.ball = number, ball
        name = f"Ball {number}"
        self.club = ClubCell(f"{name}, club", ball.club, clubbed, lambda: focus(self.carry), go)
        to_club = partial(focus, self.club)
        self.carry = LengthCell(f"{name}, landed", ball.carry, partial(change, "carry"),
                                lambda: focus(self.stop), go, lambda: go(-1), to_club)  # fmt: skip
        self.stop = LengthCell(f"{name}, stopped", ball.stop, partial(change, "stop"),
                               lambda: focus(self.felt), go, lambda: focus(self.carry), to_club)  # fmt: skip
        self.felt = FeltCell(f"{name}, felt", ball.felt, partial(change, "felt"), lambda: go(1), go,
                             lambda: focus(self.stop), to_club)  # fmt: skip

    def show(self, ball: TypedBall) -> None:
        """The ball as it is now."""
        self.ball = ball
        self.club.show(ball.club)

    @property
    def parts(self) -> tuple[Widget, ...]:
        return (self.club, self.carry, self.stop, self.felt)

    @property
    def cells(self) -> Sequence[Widget]:
        """The same."""
        return self.parts

    @property
    def words(self) -> str:
        """What else was meant with a ball that is there."""
        b = self.ball
        if b.empty:
            return ""
        lie = SURFACES[b.lie].label if b.lie in SURFACES else legible(b.lie)
        return f"{lie}, {legible(b.target)} m"

    @property
    def problem(self) -> str:
        """What is wrong, once the ball is not being typed any more."""
        typing = any(w.focused for w in self.parts)
        return "" if typing or self.ball.empty else ball_problems(self.ball)

    @property
    def caption(self) -> str:
        return f"{self.label} {self.problem or self.words}".strip()

    def _taken(self, theme: Theme) -> float:
        """Width (px) of number and fields."""
        return (NUMBER + CLUB + 1 + 2 * (CELL + 1)) * theme.gap + self.felt.width(theme) + theme.gap

    def _beside(self, theme: Theme, width: float) -> bool:
        return width - self._taken(theme) >= BESIDE * theme.gap

    def _lines(self, theme: Theme, width: float) -> tuple[str, ...]:
        text = self.problem or self.words
        room = width - self._taken(theme) if self._beside(theme, width) else width - NUMBER * theme.gap
        return problem_lines(theme, text, room) if text else ()

    def height(self, theme: Theme, width: float) -> float:
        tall = len(self._lines(theme, width)) * theme.type.line("small")
        if self._beside(theme, width):
            return max(theme.target, tall)
        return theme.target + (tall + theme.gap / 4 if tall else 0.0)

    def place(self, rect: Rect, theme: Theme) -> None:
        super().place(rect, theme)
        gap = theme.gap
        wide = (
            CLUB * gap,
            CELL * gap,
            CELL * gap,
            min(self.felt.width(theme), rect.w - self._taken(theme) + self.felt.width(theme)),
        )
        row = Rect(rect.x + NUMBER * gap, rect.y, rect.w, theme.target)
        for cell, box in zip(self.parts, layout.in_row(row, wide, gap), strict=True):
            cell.place(box, theme)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, gap = self.rect, theme.gap
        top = r.y + (theme.target - theme.type.line("strong")) / 2
        paint.text(surface, theme, str(self.number), "strong", r.x + 2.5 * gap, top, "muted", 1.0)
        _, wrong = ({}, {}) if self.ball.empty or not self.problem else self.ball.read()
        self.carry.wrong, self.stop.wrong = "carry_m" in wrong, "stop_m" in wrong
        for cell in self.parts:
            cell.draw(surface, theme)
        lines = self._lines(theme, r.w)
        if not lines:
            return
        line = theme.type.line("small")
        if self._beside(theme, r.w):
            at = Rect(r.x + self._taken(theme), r.y + max(theme.target - len(lines) * line, 0) / 2,
                      r.w - self._taken(theme), r.h)  # fmt: skip
        else:
            at = Rect(r.x + NUMBER * gap, r.y + theme.target + gap / 4, r.w - NUMBER * gap, r.h)
        if self.problem:
            draw_problem(surface, theme, self.problem, at)
        else:
            paint.lines(surface, theme, lines, "small", at.x, at.y, "muted")
