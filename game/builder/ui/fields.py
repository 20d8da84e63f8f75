"""Fields bound to a place in the draft: they show what stands there, write what is typed, say what is wrong.

What is typed goes into the draft as it stands, sense or not: nothing is lost, and the sentence of the
broken rule appears under the field.
"""

from collections.abc import Callable, Sequence
from typing import Any, Protocol

from game.builder.ui.live import Live
from game.text.quantity import significant
from game.text.typed import UnitError, as_typed, read_quantity, read_typed
from game.ui import Choice, Toggle
from game.ui.textarea import TextArea
from game.ui.textfield import TextField
from levels.draft import Draft
from levels.rules import Loc

__all__ = [
    "LiveToggle", "area_field", "choice_field", "number_field", "read_number",
    "switch_field", "text_field", "value_text",
]  # fmt: skip


class DraftEditor(Protocol):
    """What a field needs of the session that edits the draft."""

    @property
    def draft(self) -> Draft: ...

    def set(self, name: str, loc: Loc, value: Any, merge: str = "") -> None:
        """Put a value (None takes the key away) as a step of that name."""

    def settle(self) -> None:
        """The step that was going on is done."""

    def problem_at(self, loc: Loc) -> str:
        """What is wrong there, or ""."""


def value_text(value: Any) -> str:
    """A value as the field shows it."""
    if value is None:
        return ""
    if isinstance(value, float) or (isinstance(value, int) and not isinstance(value, bool)):
        return significant(value, 6) if isinstance(value, float) else as_typed(str(value))
    return str(value)


def read_number(text: str, whole: bool = False, unit: str = "") -> Any:
    """The number in the text, in `unit`, None for none, else the text itself: it is told what is wrong."""
    plain = read_typed(text)
    if not plain:
        return None
    try:
        if whole:
            return int(plain)
        value = read_quantity(plain, unit)
    except ValueError:
        return text.strip()
    return value


def _unit_problem(text: str, whole: bool, unit: str) -> str:
    """What is wrong with the unit typed, or ""."""
    try:
        read_quantity(text, "" if whole else unit)
    except UnitError as error:
        return str(error)
    except ValueError:
        return ""
    return ""


class _DraftField(TextField, Live):
    """A field at a place of the draft; see `number_field` and `text_field`."""

    editor: DraftEditor
    whole: bool | None  # a whole number, a number, or (None) no number

    def refresh(self) -> None:
        """Show what the draft says now, unless it is what was just typed."""
        value = self.editor.draft.at(self.loc)
        mine: Any = self.text if self.whole is None else read_number(self.text, self.whole, self.unit)
        if mine != (value if self.whole is not None or value is not None else ""):
            self.show(value_text(value))
        self.problem = self.editor.problem_at(self.loc)
        if self.problem and self.whole is not None and isinstance(value, str):
            self.problem = _unit_problem(value, self.whole, self.unit) or self.problem

    def leave(self) -> None:
        value = self.editor.draft.at(self.loc)
        if self.whole is not None and not isinstance(value, str):
            self.show(value_text(value))  # a number typed in another unit, in the field's own
        super().leave()
        self.editor.settle()


class _DraftArea(TextArea, Live):
    """Like _DraftField, in several lines."""

    editor: DraftEditor

    def refresh(self) -> None:
        value = self.editor.draft.at(self.loc)
        self.show("" if value is None else str(value))
        self.problem = self.editor.problem_at(self.loc)

    def leave(self) -> None:
        super().leave()
        self.editor.settle()


class LiveChoice(Choice, Live):
    """A choice that asks `now` what is chosen."""

    def __init__(
        self, label: str, names: Sequence[str], now: Callable[[], int], take: Callable[[int], None], *,
        tooltip: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, names, now(), take, tooltip=tooltip)
        self.now = now

    def refresh(self) -> None:
        self.index = self.now()


class LiveToggle(Toggle, Live):
    """A switch that asks `now` whether it is on."""

    def __init__(
        self, label: str, now: Callable[[], bool], turn: Callable[[bool], None], *, tooltip: str = ""
    ) -> None:
        super().__init__(label, now(), turn, tooltip=tooltip)
        self.now = now

    def refresh(self) -> None:
        self.value = self.now()


def number_field(
    editor: DraftEditor, loc: Loc, label: str, unit: str = "", *, step: float = 0.1, whole: bool = False,
    empty: str = "", tooltip: str = "", start: float = 0.0,
) -> TextField:  # fmt: skip
    """A number with its unit; Up and Down step it. An empty field takes the key out of the file."""

    def write(words: str) -> None:
        editor.set(f"change {label.lower()}", loc, read_number(words, whole, unit), f"type {loc}")

    def by(sign: int, size: int) -> None:
        value = editor.draft.at(loc)
        now = value if isinstance(value, int | float) and not isinstance(value, bool) else start
        stepped = now + sign * size * (1 if whole else step)
        editor.set(
            f"change {label.lower()}", loc, int(stepped) if whole else round(stepped, 6), f"type {loc}"
        )
        field.refresh()
        field.written.select(0, len(field.text))

    field = _DraftField(
        label, "", write, unit=unit, aside=True, most=24, empty=empty, on_step=by, tooltip=tooltip
    )
    field.loc, field.editor, field.whole = loc, editor, whole
    field.refresh()
    return field


def text_field(
    editor: DraftEditor,
    loc: Loc,
    label: str,
    *,
    empty: str = "",
    most: int = 300,
    tooltip: str = "",
    write: Callable[[str], None] | None = None,
) -> TextField:
    """One line of text."""

    def put(written: str) -> None:
        editor.set(f"write {label.lower()}", loc, written, f"type {loc}")

    field = _DraftField(label, "", write or put, most=most, empty=empty, tooltip=tooltip)
    field.loc, field.editor, field.whole = loc, editor, None
    field.refresh()
    return field


def area_field(
    editor: DraftEditor,
    loc: Loc,
    label: str,
    *,
    rows: int = 4,
    empty: str = "",
    tooltip: str = "",
    plain: bool = False,
    write: Callable[[str], None] | None = None,
) -> TextArea:
    """Several lines of text; `plain` wraps one line without breaks of its own."""

    def put(written: str) -> None:
        editor.set(f"write {label.lower()}", loc, written, f"type {loc}")

    field = _DraftArea(label, "", write or put, rows=rows, empty=empty, tooltip=tooltip, most=4200)
    field.loc, field.editor, field.written.lines = loc, editor, not plain
    field.refresh()
    return field


def choice_field(
    editor: DraftEditor,
    loc: Loc,
    label: str,
    values: Sequence[Any],
    names: Sequence[str],
    default: Any = None,
    *,
    tooltip: str = "",
) -> Choice:
    """One of a few values; None among them takes the key away. An unknown value shows the default."""

    def take(i: int) -> None:
        editor.set(f"choose {label.lower()}", loc, values[i])
        editor.settle()

    def now_at() -> int:
        now = editor.draft.at(loc, default)
        return list(values).index(now) if now in values else 0

    return LiveChoice(label, names, now_at, take, tooltip=tooltip)


def switch_field(
    editor: DraftEditor, loc: Loc, label: str, default: bool = False, *, tooltip: str = ""
) -> Toggle:
    """On or off."""

    def turn(on: bool) -> None:
        editor.set(f"turn {label.lower()} {'on' if on else 'off'}", loc, on)
        editor.settle()

    return LiveToggle(label, lambda: bool(editor.draft.at(loc, default)), turn, tooltip=tooltip)
