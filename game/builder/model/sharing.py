"""What a coach is about to share: scenarios in playing order, words to the player, and a plan or none."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from game.library.shelf import Entry, Shelf, Source, plain_name
from levels.chapters import builtin_chapters
from levels.files import read_scenario
from levels.packs import MOST_MEMBERS, Member, Pack
from levels.plan import PracticePlan, checked_plan
from levels.proof_words import before_sharing
from levels.reading import ScenarioError
from levels.scenario import Scenario

__all__ = [
    "WEEK",
    "Offer",
    "PlanForm",
    "Sharing",
    "builtin_offers",
    "file_offer",
    "member_offers",
    "own_offers",
]

WEEK = 7  # days to the retest that is offered first, assumed: lessons are weekly


@dataclass(frozen=True)
class Offer:
    """A scenario that can be shared; `cautions` are what its coach should look at before."""

    source: Source
    title: str
    group: str  # chapter of a built-in one, else ""
    cautions: tuple[str, ...]

    @property
    def key(self) -> str:
        """What it is known by: its path, or its name."""
        return self.source.name if isinstance(self.source, Member) else str(self.source)


def _offer(source: Source, scenario: Scenario, group: str = "") -> Offer:
    return Offer(source, scenario.title, group, before_sharing(scenario))


def file_offer(path: Path) -> Offer:
    """The scenario of a file. ScenarioError tells everything wrong with it."""
    return _offer(path, read_scenario(path))


def own_offers(shelf: Shelf, recent: Iterable[Path]) -> tuple[Offer, ...]:
    """Sound scenarios of the reader's library, then other files opened last."""
    found = [_offer(e.path, e.scenario) for e in shelf.scenarios() if isinstance(e, Entry)]
    there = {o.key for o in found}
    for path in recent:
        if str(path) not in there:
            try:
                found.append(file_offer(path))
            except ScenarioError:
                continue  # it is not sound, or a pack: the Builder says so when it is opened
    return tuple(found)


def member_offers(pack: Pack) -> tuple[Offer, ...]:
    """The scenarios of a pack as they stand in it."""
    return tuple(_offer(member, member.scenario) for member in pack.members)


def builtin_offers() -> tuple[Offer, ...]:
    """The built-in scenarios, chapter by chapter."""
    return tuple(_offer(e.name, e.scenario, c.title) for c in builtin_chapters() for e in c.entries)


@dataclass(frozen=True)
class PlanForm:
    """A practice plan as it is being filled in: text, and numbers once they are some."""

    focus: tuple[str, str] = ("", "")
    drill: str = ""
    shots: Any = None
    successes: Any = None
    retest: str = ""
    caution: str = ""

    @staticmethod
    def of(plan: PracticePlan) -> "PlanForm":
        """A plan as it stands, to be changed."""
        focus = (*plan.focus, "")[:2]
        return PlanForm(
            (focus[0], focus[1]), plan.drill, plan.shots, plan.successes, plan.retest.isoformat(),
            plan.caution or "",
        )  # fmt: skip

    def checked(self, made: date) -> tuple[PracticePlan | None, dict[str, str]]:
        """The plan, or what is wrong by key, in a few words."""
        given = {
            "focus": [f.strip() for f in self.focus if f.strip()], "drill": self.drill.strip(),
            "shots": self.shots, "successes": self.successes, "retest": self.retest.strip(),
            "caution": self.caution.strip(),
        }  # fmt: skip
        return checked_plan({"made": made, **{k: v for k, v in given.items() if v not in (None, "", [])}})

    def stepped(self, days: int, made: date) -> "PlanForm":
        """The retest so many days later, where it is a day at all; else a week after today."""
        try:
            now = date.fromisoformat(self.retest.strip()) + timedelta(days)
        except (ValueError, OverflowError):
            now = made + timedelta(WEEK)
        return replace(self, retest=now.isoformat())


@dataclass(frozen=True)
class Sharing:
    """All of it. `planned`: whether the plan goes with the pack."""

    chosen: tuple[Offer, ...] = ()
    title: str = ""
    words: str = ""
    planned: bool = False
    plan: PlanForm = field(default_factory=PlanForm)
    asks: bool = True  # a pack that may ask the player for an answer does
    follows: bool = False  # it comes after an assignment that was answered

    @staticmethod
    def of(pack: Pack) -> "Sharing":
        """An assignment filled in from another one, to be changed."""
        plan = PlanForm() if pack.plan is None else PlanForm.of(pack.plan)
        return Sharing(
            member_offers(pack), pack.title, pack.words, pack.plan is not None, plan, follows=True
        )  # fmt: skip

    @property
    def may_ask(self) -> bool:
        """Whether it can be asked for at all: with a plan, or after another assignment."""
        return self.planned or self.follows

    @property
    def asked(self) -> bool:
        """Whether the pack becomes an assignment, with an id that answers name."""
        return self.may_ask and self.asks

    def has(self, offer: Offer) -> bool:
        """Whether that scenario is among the chosen."""
        return any(o.key == offer.key for o in self.chosen)

    def turned(self, offer: Offer) -> "Sharing":
        """A scenario in at the end, or out."""
        if self.has(offer):
            return replace(self, chosen=tuple(o for o in self.chosen if o.key != offer.key))
        return replace(self, chosen=(*self.chosen, offer))

    def moved(self, at: int, by: int) -> "Sharing":
        """The scenario at that place earlier (-1) or later (+1), where it can go."""
        to = at + by
        if not 0 <= to < len(self.chosen):
            return self
        order = list(self.chosen)
        order[at], order[to] = order[to], order[at]
        return replace(self, chosen=tuple(order))

    def refreshed(self, offers: Sequence[Offer]) -> "Sharing":
        """The same with what is known of each scenario now."""
        known = {o.key: o for o in offers}
        return replace(self, chosen=tuple(known.get(o.key, o) for o in self.chosen))

    @property
    def name(self) -> str:
        """The title of the pack: as given, else that of its only scenario."""
        return self.title.strip() or (self.chosen[0].title if len(self.chosen) == 1 else "")

    @property
    def file_name(self) -> str:
        """A name for its file."""
        return f"{plain_name(self.name).lower() or 'scenarios'}.pack.toml"

    @property
    def cautions(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Titles of the scenarios that should be looked at before they are given away, each with why."""
        return tuple((o.title, o.cautions) for o in self.chosen if o.cautions)

    def problems(self, made: date) -> dict[str, str]:
        """What is wrong by key: `chosen`, `title`, or one of the plan."""
        found: dict[str, str] = {}
        if not 1 <= len(self.chosen) <= MOST_MEMBERS:
            count = "No scenario is" if not self.chosen else f"{len(self.chosen)} scenarios are"
            found["chosen"] = f"{count} chosen; choose 1 to {MOST_MEMBERS}."
        if not self.name:
            found["title"] = "Give the pack a title: one line that the player sees."
        if self.planned:
            found |= {key: _sentence(what) for key, what in self.plan.checked(made)[1].items()}
        return found

    def with_plan(self, change: Callable[[PlanForm], PlanForm]) -> "Sharing":
        """The same with another plan."""
        return replace(self, plan=change(self.plan))


def _sentence(what: str) -> str:
    return f"{what[:1].upper()}{what[1:].rstrip('.')}."
