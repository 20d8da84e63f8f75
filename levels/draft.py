"""A scenario being made: its plain TOML data as one unchanging value, right or not yet right.

A draft never changes; `put`, `insert` and `remove` give another one that shares everything off the path
of the change. Undo, comparing and keeping are therefore trivial. Nobody may change `data` in place.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from importlib.resources import files
from typing import Any

from pydantic import ValidationError

from levels.files import library, told
from levels.migrations import migrated
from levels.problems import key_text, problems_of
from levels.reading import ScenarioError, decoded, tables
from levels.retain import same
from levels.rules import Loc
from levels.scenario import Scenario

__all__ = ["Draft", "Problem", "library_text"]


@dataclass(frozen=True)
class Problem:
    """One broken rule: where (path and as people write it), and the sentence about it."""

    loc: Loc
    key_text: str
    sentence: str

    @property
    def told(self) -> str:
        """Place and sentence in one line."""
        return f"{self.key_text}: {self.sentence}" if self.key_text else self.sentence


@dataclass(frozen=True, eq=False)
class Draft:
    """Plain TOML data of a scenario. Two drafts are equal when type, sign and value agree everywhere.

    >>> draft = Draft.parse(library_text("harrow-fen-after-rain"))
    >>> windy = draft.put(("wind_m_per_s",), 99.0)
    >>> [problem.key_text for problem in windy.problems()], draft.problems()
    (['wind_m_per_s'], ())
    """

    data: dict[str, Any]

    __hash__ = None  # type: ignore[assignment]  # equal drafts may differ in the order of their keys

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Draft) and (self is other or same(self.data, other.data))

    @staticmethod
    def of(scenario: Scenario) -> "Draft":
        """The draft of a legal scenario, every key of it written out."""
        return Draft(_plain(scenario.model_dump(exclude_none=True)))

    @staticmethod
    def parse(text: str, name: str = "scenario") -> "Draft":
        """The draft in a TOML text; `name` is the file's, for messages.

        ScenarioError only where the text is no TOML or has a format this program does not read; whatever
        else is wrong is kept, and told by `problems`.
        """
        text = text.removeprefix("\ufeff")
        data = tables(text, name)
        try:
            return Draft(migrated(data))
        except ValueError as error:
            raise ScenarioError(told(name, text, [(("format",), str(error))])) from None

    def at(self, loc: Loc, default: Any = None) -> Any:
        """What stands at the path; `default` where nothing does."""
        value: Any = self.data
        for step in loc:
            if not _has(value, step):
                return default
            value = value[step]
        return value

    def put(self, loc: Loc, value: Any) -> "Draft":
        """With `value` at the path; tables on the way are made. The draft itself when nothing changes.

        LookupError where the path leads past the end of a list or through something that is no table.
        """
        value = _plain(value)
        missing = object()
        if same(self.at(loc, missing), value):
            return self
        return Draft(_changed(self.data, loc, lambda holder, step: _set(holder, step, value)))

    def insert(self, loc: Loc, value: Any) -> "Draft":
        """With `value` put into a list before the entry at the path, or at its end. LookupError beyond."""
        value = _plain(value)
        draft = self if isinstance(self.at(loc[:-1]), list) else self.put(loc[:-1], [])

        def put_in(holder: Any, step: Any) -> Any:
            if not isinstance(holder, list) or not 0 <= step <= len(holder):
                raise LookupError(f"{key_text(loc)} is no place in a list")
            return [*holder[:step], value, *holder[step:]]

        return Draft(_changed(draft.data, loc, put_in))

    def remove(self, loc: Loc) -> "Draft":
        """Without what stands at the path; the draft itself where nothing does."""
        if not loc or not _has(self.at(loc[:-1]), loc[-1]):
            return self
        return Draft(_changed(self.data, loc, _without))

    def problems(self) -> tuple[Problem, ...]:
        """Every rule this draft breaks, in the order of the file's keys; () for a legal scenario."""
        return self._judged[1]

    def scenario(self) -> Scenario | None:
        """The scenario, None while a rule is broken."""
        return self._judged[0]

    @cached_property
    def _judged(self) -> tuple[Scenario | None, tuple[Problem, ...]]:
        try:
            return Scenario.model_validate(self.data), ()
        except ValidationError as error:
            found = problems_of(error)
        except RecursionError:
            found = [((), "is nested too deeply; allowed: lists of tables")]
        return None, tuple(Problem(loc, key_text(loc), what.rstrip(".") + ".") for loc, what in found)


def library_text(name: str) -> str:
    """The text of a built-in scenario. ScenarioError names the allowed ones."""
    if name not in library():
        raise ScenarioError([f"'{name}' is no built-in scenario; allowed: {', '.join(library())}."])
    file = f"{name}.toml"
    return decoded((files("levels") / "library" / file).read_bytes(), file)


def _plain(value: Any) -> Any:
    """Tables and lists made anew as dicts and lists, so that nobody else holds them."""
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    return value


def _has(holder: Any, step: str | int) -> bool:
    if isinstance(holder, dict):
        return step in holder
    return isinstance(holder, list) and isinstance(step, int) and 0 <= step < len(holder)


def _set(holder: Any, step: Any, value: Any) -> Any:
    if isinstance(holder, dict):
        return {**holder, step: value}
    if not _has(holder, step):
        raise LookupError(f"{step} is past the end of a list")
    return [*holder[:step], value, *holder[step + 1 :]]


def _without(holder: Any, step: Any) -> Any:
    if isinstance(holder, dict):
        return {key: value for key, value in holder.items() if key != step}
    return [*holder[:step], *holder[step + 1 :]]


def _changed(holder: Any, loc: Loc, change: Callable[[Any, Any], Any]) -> Any:
    """A copy of the holder along the path, with its last step changed."""
    if not isinstance(holder, dict | list):
        raise LookupError(f"{key_text(loc)} leads through something that is no table")
    step = loc[0]
    if len(loc) == 1:
        return change(holder, step)
    inner = holder[step] if _has(holder, step) else {}  # type: ignore[index]
    return _set(holder, step, _changed(inner, loc[1:], change))
