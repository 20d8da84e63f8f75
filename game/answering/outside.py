"""A drill outside, as the pupil tells it: day, shots, how many came off."""

from collections.abc import Callable
from datetime import date, timedelta

from game.ui import Button, Row, Widget
from game.ui.textfield import TextField
from levels.answers import OutsideLine, checked_outside

__all__ = ["OutsideForm"]


class OutsideForm:
    """Three fields and what is wrong with each; `on_told` hears a sound line."""

    def __init__(self, today: date, on_told: Callable[[OutsideLine], None]) -> None:
        self.today, self.on_told = today, on_told
        self.values = {"day": today.isoformat(), "shots": "", "came_off": ""}
        self.fields = {
            "day": self._field("day", "Day", self._later, empty="2025-11-30",
                               tip="The day you played it, like 2025-11-30; Up and Down step it."),
            "shots": self._field("shots", "Shots", self._more("shots"), tip="How many shots you played."),
            "came_off": self._field("came_off", "Came off", self._more("came_off"),
                                    tip="How many of them came off, by the pass mark of the drill."),
        }  # fmt: skip

    @property
    def widgets(self) -> list[Widget]:
        return [*self.fields.values(), Row([Button("Add this drill", self.tell)])]

    def _field(
        self, key: str, label: str, step: Callable[[int, int], None], *, tip: str, empty: str = ""
    ) -> TextField:
        def change(text: str) -> None:
            self.values[key] = text

        return TextField(label, self.values[key], change, aside=True, most=12, empty=empty, on_step=step,
                         on_done=self.tell, tooltip=tip)  # fmt: skip

    def _set(self, key: str, text: str) -> None:
        self.values[key] = text
        self.fields[key].show(text)

    def _more(self, key: str) -> Callable[[int, int], None]:
        def step(by: int, size: int) -> None:
            text = self.values[key].strip()
            self._set(key, str(max((int(text) if text.isdecimal() else 0) + by * size, 0)))

        return step

    def _later(self, by: int, size: int) -> None:
        try:
            day = date.fromisoformat(self.values["day"].strip()) + timedelta(by * size)
        except (ValueError, OverflowError):
            day = self.today
        self._set("day", min(day, self.today).isoformat())

    def tell(self) -> None:
        """Check the fields; what is wrong stands under its own."""
        given = {key: text.strip() for key, text in self.values.items()}
        numbers = {
            key: int(given[key]) if given[key].isdecimal() else given[key] for key in ("shots", "came_off")
        }
        line, problems = checked_outside({"day": given["day"], **numbers})
        if line is not None and line.day > self.today:
            problems = {"day": f"{line.day} is not over yet; allowed: up to {self.today}"}
        for key, field in self.fields.items():
            what = problems.get(key, "")
            field.problem = f"{what[:1].upper()}{what[1:].rstrip('.')}." if what else ""
        if line is not None and not problems:
            self._set("shots", "")
            self._set("came_off", "")
            self.on_told(line)
