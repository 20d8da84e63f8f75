"""The fit of the balls, beside the picture; what it told stays with the window."""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

from game.library.own_players import keep_own_player
from game.ui.screen import Host
from game.ui.window_keeps import kept_while_open
from game.ui.work import Answer
from levels.fitted import FitProgress, FitReport, fit_balls
from physics.measured_balls import MeasuredBall, PracticeGround

__all__ = ["FITTING", "Fitting", "FittingDone", "reports_of"]

FITTING = "fit"  # channel of the worker


@dataclass
class FittingDone:
    """What the fits of this window told, by the player's name."""

    by_name: dict[str, FitReport] = field(default_factory=dict)


def reports_of(app: Host) -> dict[str, FitReport]:
    """What the fits of this window told."""
    return kept_while_open(app, FittingDone, FittingDone).by_name


class Fitting:
    """Fits one player at a time; `heard` is called with each part, and at the end with what went wrong."""

    def __init__(self, app: Host, heard: Callable[[], None], done: Callable[[], None]) -> None:
        self.app, self.heard, self.done = app, heard, done
        self.share, self.going, self._name = 0.0, False, ""

    def start(self, balls: tuple[MeasuredBall, ...], ground: PracticeGround, putter: str) -> None:
        """Begin; whoever begins again leaves the fit before."""
        self.share, self.going, self._name = 0.0, True, self.app.player
        job = partial(fit_balls, balls, ground, self._name, putter)
        self.app.worker.ask(FITTING, job, self._hear)

    def stop(self) -> None:
        """Leave it; nothing is kept."""
        if self.going:
            self.going = False
            self.app.worker.forget(FITTING)
            self.app.say("The fit was stopped; the player is as before.")

    def _hear(self, answer: Answer) -> None:
        if not answer.fresh or not self.going:
            return
        if answer.problem:
            self.going = False
        elif isinstance(answer.value, FitProgress):
            self.share = answer.value.share
            if answer.value.report:
                self._keep(answer.value.report)
                return
        self.heard()

    def _keep(self, report: FitReport) -> None:
        self.going = False
        reports_of(self.app)[self._name] = report
        problem = keep_own_player(self.app.home, self._name, report.player)
        self.app.say(problem or f"{self._name} is kept, and can be chosen as the player.")
        self.done()
