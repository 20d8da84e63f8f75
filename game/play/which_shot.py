"""From a scenario to the choice of a shot, and the chosen one into its open controls."""

from collections.abc import Callable
from math import isclose

from game.choosing import Choosing, ChoosingQuestion, ChoosingWay, chooser_of
from game.play.round import Round
from game.ui.screen import Host
from levels.choose import ShotOption
from levels.situation import scenario_situation
from physics.address import CONTROLS, Intention

__all__ = ["closed_words", "scenario_choice", "with_option"]

Act = Callable[[ShotOption], None]


def scenario_choice(app: Host, r: Round, take: Act, to_bench: Act) -> Choosing:
    """The screen for this scenario, with both ways on."""
    s = r.scenario
    question = ChoosingQuestion(s.title, scenario_situation(s), chooser_of(app, s.player))
    ways = [
        ChoosingWay("into the set-up", take, lambda option: closed_words(r, option)),
        ChoosingWay("to the Bench", to_bench),
    ]
    return Choosing(app, question, ways)


def with_option(r: Round, option: ShotOption) -> Round:
    """The round set up as the option is, as far as its controls are open and reach."""
    club = option.setup.club.name
    if club in r.scenario.clubs:
        r = r.take(club)
    meant = Intention(option.setup, option.motion)
    for name in r.scenario.open_controls:
        r = r.set(name, meant.value(name))
    return r


def closed_words(r: Round, option: ShotOption) -> str:
    """Why the option cannot be set here, one sentence; "" where it can."""
    made = with_option(r, option)
    if made.setup.club != option.setup.club:
        return f"The {option.setup.club.label} is not offered here; take it to the Bench."
    meant, now = Intention(option.setup, option.motion), Intention(made.setup, made.motion)
    for name, control in CONTROLS.items():
        if not isclose(meant.value(name), now.value(name), rel_tol=1e-6, abs_tol=1e-9):
            return f"It needs another {control.label}, which is not open here; take it to the Bench."
    return ""
