"""Proving the scenario beside the screen: the search for a proof, the playing of its picture's shots, and
the search for a control to open."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from game.builder.ui.editing import Editing
from game.draw.proof import ProofView, proof_view
from game.text.proof import unlocking_words
from game.ui.screen import Host
from game.ui.work import Answer
from levels.effort import Effort
from levels.proof import Proof
from levels.proof_shots import best_shots
from levels.prove import ProofProgress, prove
from levels.scenario import Scenario
from levels.unlock import Unlocked, UnlockProgress, unlock

__all__ = ["Proving"]

CHANNEL, PICTURE, OPENING = "proof", "picture of the proof", "control to open"


class Proving:
    """The newest proof, the scenario it is of, and how far a search has come. `on_change` hears of all."""

    def __init__(self, app: Host, editing: Editing, on_change: Callable[[], None]) -> None:
        self.app, self.editing, self.on_change = app, editing, on_change
        self.proof: Proof | None = None
        self.of: Scenario | None = None
        self.progress: ProofProgress | None = None
        self.unlocked: tuple[Unlocked, ...] | None = None
        self._unlocked_of = ""  # digest of the scenario that was tried
        self._view: ProofView | None = None
        self._asked: Proof | None = None  # whose picture is on its way

    def forget(self) -> None:
        """Another document is open: give up what is being worked out."""
        for channel in (CHANNEL, PICTURE, OPENING):
            self.app.worker.forget(channel)
        self.unlocked = None
        self.proof = self.of = self.progress = self._view = self._asked = None

    @property
    def running(self) -> bool:
        return self.progress is not None

    def start(self, effort: Effort) -> None:
        """Prove the scenario as it stands."""
        scenario = self.editing.scenario
        if scenario is None:
            self.app.say("It can be proved once it has no problems; F8 goes to the next one.")
            return
        self.progress = ProofProgress(0.0, "Beginning.")

        def job() -> Iterator[ProofProgress]:
            return iter(prove(scenario, effort))

        def hear(answer: Answer) -> None:
            if not answer.fresh:
                return
            if answer.value is not None:
                self.progress = answer.value
                if answer.value.proof is not None:
                    self.proof, self.of = answer.value.proof, scenario
            if answer.last:
                self.progress = None
            self.on_change()

        self.app.worker.ask(CHANNEL, job, hear)
        self.on_change()

    def seek_control(self) -> None:
        """Try the closed controls, one after the other: which of them, opened, makes it solvable?"""
        scenario = self.editing.scenario
        if scenario is None:
            return
        self.progress, self.unlocked = ProofProgress(0.0, "Beginning."), None

        def hear(answer: Answer) -> None:
            if not answer.fresh:
                return
            if answer.value is not None:
                step: UnlockProgress = answer.value
                self.progress = ProofProgress(step.share, unlocking_words(step.control))
                self.unlocked, self._unlocked_of = step.found, scenario.digest
            if answer.last:
                self.progress = None
            self.on_change()

        self.app.worker.ask(OPENING, lambda: iter(unlock(scenario)), hear)
        self.on_change()

    @property
    def to_open(self) -> tuple[Unlocked, ...] | None:
        """The controls that would make it solvable, best first; None where that was not sought."""
        scenario = self.editing.scenario
        return self.unlocked if scenario and scenario.digest == self._unlocked_of else None

    def stop(self) -> None:
        """Give it up."""
        for channel in (CHANNEL, OPENING):
            self.app.worker.forget(channel)
        self.progress = None
        self.on_change()

    def keep(self) -> None:
        """Put the proof into the scenario, so that whoever opens its file sees it."""
        if self.proof is not None:
            self.editing.set("keep the proof", ("proof",), self.proof.model_dump(exclude_none=True))
            self.app.say("The proof goes into the file when it is saved.")
            self.on_change()

    def newest(self) -> Proof | None:
        """The proof made here, else that of the file."""
        scenario = self.editing.scenario
        return self.proof or (scenario.proof if scenario else None)

    def picture(self, proof: Proof) -> ProofView | None:
        """What the picture of a proof shows; None while its shots are being played beside the screen."""
        scenario = self.editing.scenario
        if self._view is not None and self._view.proof == proof:
            return replace(self._view, stale=scenario is None or scenario.digest != proof.digest)
        made_of = self.of or scenario
        if made_of is not None and self._asked != proof:
            self._asked = proof

            def hear(answer: Answer) -> None:
                if answer.fresh and answer.value is not None:
                    self._view = answer.value
                    self.on_change()

            self.app.worker.ask(PICTURE, lambda: proof_view(made_of, proof, best_shots(made_of, proof)), hear)
        return None
