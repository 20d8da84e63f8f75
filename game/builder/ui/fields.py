"""Fields bound to a place in the draft: they show what stands there, write what is typed, say what is wrong.

What is typed goes into the draft as it stands, sense or not: nothing is lost, and the sentence of the
broken rule appears under the field.
"""

from collections.abc import Callable, Sequence
from typing import Any, Protocol

from game.text.quantity import as_typed, read_typed, significant
from game.ui import Choice, Toggle
from game.ui.textarea import TextArea
from game.ui.textfield import TextField
from levels.draft import Draft
from levels.rules import Loc

__all__ = [
    "Maker", "Picked", "Turned", "choice", "number", "read_number", "shown_value", "switch", "text", "words",
]  # fmt: skip


class Maker(Protocol):
    """What a field needs of the one who makes the draft."""

    @property
    def draft(self) -> Draft: ...

    def set(self, name: str, loc: Loc, value: Any, merge: str = "") -> None:
        """Put a value (None takes the key away) as a step of that name."""

    def settle(self) -> None:
        """The step that was going on is done."""

    def problem_at(self, loc: Loc) -> str:
        """What is wrong there, or ""."""


def shown_value(value: Any) -> str:
    """A value as the field shows it."""
    if value is None:
        return ""
    if isinstance(value, float) or (isinstance(value, int) and not isinstance(value, bool)):
        return significant(value, 6) if isinstance(value, float) else as_typed(str(value))
    return str(value)


def read_number(text: str, whole: bool = False) -> Any:
    """The number in the text, None for none, else the text itself: the rules will say what is wrong."""
    plain = read_typed(text)
    if not plain:
        return None
    try:
        if whole:
            return int(plain)
        value = float(plain)
    except ValueError:
        return text.strip()
    return value


class _Bound(TextField):
    """A field at a place of the draft; see `number` and `text`."""

    loc: Loc
    maker: Maker
    whole: bool | None  # a whole number, a number, or (None) no number

    def refresh(self) -> None:
        """Show what the draft says now, unless it is what was just typed."""
        value = self.maker.draft.at(self.loc)
        mine: Any = self.text if self.whole is None else read_number(self.text, self.whole)
        if mine != (value if self.whole is not None or value is not None else ""):
            self.show(shown_value(value))
        self.problem = self.maker.problem_at(self.loc)

    def leave(self) -> None:
        super().leave()
        self.maker.settle()


class _Area(TextArea):
    """Like _Bound, in several lines."""

    loc: Loc
    maker: Maker

    def refresh(self) -> None:
        value = self.maker.draft.at(self.loc)
        self.show("" if value is None else str(value))
        self.problem = self.maker.problem_at(self.loc)

    def leave(self) -> None:
        super().leave()
        self.maker.settle()


class Picked(Choice):
    """A choice that asks `now` what is chosen."""

    def __init__(
        self, label: str, names: Sequence[str], now: Callable[[], int], take: Callable[[int], None], *,
        tooltip: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, names, now(), take, tooltip=tooltip)
        self.now = now

    def refresh(self) -> None:
        self.index = self.now()


class Turned(Toggle):
    """A switch that asks `now` whether it is on."""

    def __init__(
        self, label: str, now: Callable[[], bool], turn: Callable[[bool], None], *, tooltip: str = ""
    ) -> None:
        super().__init__(label, now(), turn, tooltip=tooltip)
        self.now = now

    def refresh(self) -> None:
        self.value = self.now()


def number(
    maker: Maker, loc: Loc, label: str, unit: str = "", *, step: float = 0.1, whole: bool = False,
    empty: str = "", tooltip: str = "", start: float = 0.0,
) -> TextField:  # fmt: skip
    """A number with its unit; Up and Down step it. An empty field takes the key out of the file."""

    def write(words: str) -> None:
        maker.set(f"change {label.lower()}", loc, read_number(words, whole), f"type {loc}")

    def by(sign: int, size: int) -> None:
        value = maker.draft.at(loc)
        now = value if isinstance(value, int | float) and not isinstance(value, bool) else start
        stepped = now + sign * size * (1 if whole else step)
        maker.set(f"change {label.lower()}", loc, int(stepped) if whole else round(stepped, 6), f"type {loc}")
        field.refresh()
        field.written.select(0, len(field.text))

    field = _Bound(label, "", write, unit=unit, aside=True, most=24, empty=empty, on_step=by, tooltip=tooltip)
    field.loc, field.maker, field.whole = loc, maker, whole
    field.refresh()
    return field


def text(maker: Maker, loc: Loc, label: str, *, empty: str = "", most: int = 300, tooltip: str = "",
         write: Callable[[str], None] | None = None) -> TextField:  # fmt: skip
    """One line of text."""

    def put(written: str) -> None:
        maker.set(f"write {label.lower()}", loc, written, f"type {loc}")

    field = _Bound(label, "", write or put, most=most, empty=empty, tooltip=tooltip)
    field.loc, field.maker, field.whole = loc, maker, None
    field.refresh()
    return field


def words(maker: Maker, loc: Loc, label: str, *, rows: int = 4, empty: str = "", tooltip: str = "",
          plain: bool = False, write: Callable[[str], None] | None = None) -> TextArea:  # fmt: skip
    """Several lines of text; `plain` wraps one line without breaks of its own."""

    def put(written: str) -> None:
        maker.set(f"write {label.lower()}", loc, written, f"type {loc}")

    field = _Area(label, "", write or put, rows=rows, empty=empty, tooltip=tooltip, most=4200)
    field.loc, field.maker, field.written.lines = loc, maker, not plain
    field.refresh()
    return field


def choice(
    maker: Maker, loc: Loc, label: str, values: Sequence[Any], names: Sequence[str], default: Any = None, *,
    tooltip: str = "",
) -> Choice:  # fmt: skip
    """One of a few values; None among them takes the key away. An unknown value shows the default."""

    def take(i: int) -> None:
        maker.set(f"choose {label.lower()}", loc, values[i])
        maker.settle()

    def now_at() -> int:
        now = maker.draft.at(loc, default)
        return list(values).index(now) if now in values else 0

    return Picked(label, names, now_at, take, tooltip=tooltip)


def switch(maker: Maker, loc: Loc, label: str, default: bool = False, *, tooltip: str = "") -> Toggle:
    """On or off."""

    def turn(on: bool) -> None:
        maker.set(f"turn {label.lower()} {'on' if on else 'off'}", loc, on)
        maker.settle()

    return Turned(label, lambda: bool(maker.draft.at(loc, default)), turn, tooltip=tooltip)
