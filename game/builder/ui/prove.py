"""The Prove leaf: can it be done, by what, and how forgiving is it? Worked out beside the picture."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import pygame

from game.builder.ui.boxes import said
from game.builder.ui.proof import ProofPicture
from game.builder.ui.tabs import Lanes
from game.draw.camera import Rect
from game.draw.proof import ProofView, proof_view
from game.text import proof as proof_words
from game.ui import Button, Heading, Row, TextBlock, Theme, Widget, paint
from game.ui.work import Answer
from levels.effort import FULL, SMALL, Effort
from levels.proof import Proof
from levels.prove import ProofProgress, prove
from levels.scenario import Scenario

if TYPE_CHECKING:
    from game.builder.ui.screen import Builder

__all__ = ["Prove"]

CHANNEL, PICTURE = "proof", "picture of the proof"


class _Share(Widget):
    """How far it is: a bar and words."""

    focusable = False

    def __init__(self, words: str, share: float) -> None:
        super().__init__(words)
        self.share = share

    def height(self, theme: Theme, width: float) -> float:
        return theme.type.line("label") + 1.5 * theme.gap

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r, line = self.rect, theme.type.line("label")
        paint.text(surface, theme, self.label, "label", r.x, r.y)
        bar = Rect(r.x, r.y + line + theme.gap / 2, r.w, 0.75 * theme.gap)
        paint.box(surface, bar, theme.hover, theme.edge, bar.h / 2)
        paint.box(
            surface, Rect(bar.x, bar.y, max(bar.w * self.share, bar.h), bar.h), theme.accent, None, bar.h / 2
        )


class Prove:
    """The newest proof and the draft it is of."""

    def __init__(self, builder: Builder) -> None:
        self.builder = builder
        self.proof: Proof | None = None
        self.of: Scenario | None = None
        self._progress: ProofProgress | None = None
        self._view: ProofView | None = None
        self._asked: Proof | None = None  # whose picture is on its way

    def forget(self) -> None:
        """Another file is on the desk."""
        for channel in (CHANNEL, PICTURE):
            self.builder.app.worker.forget(channel)
        self.proof = self.of = self._progress = self._view = self._asked = None

    @property
    def running(self) -> bool:
        return self._progress is not None

    def start(self, effort: Effort) -> None:
        """Prove the scenario as it stands."""
        scenario = self.builder.making.scenario
        if scenario is None:
            self.builder.app.say("It can be proved once it is in order; F8 goes to what is to be mended.")
            return
        self._progress = ProofProgress(0.0, "Beginning.")

        def job() -> Iterator[ProofProgress]:
            return iter(prove(scenario, effort))

        def hear(answer: Answer) -> None:
            if not answer.fresh:
                return
            if answer.value is not None:
                self._progress = answer.value
                if answer.value.proof is not None:
                    self.proof, self.of = answer.value.proof, scenario
            if answer.last:
                self._progress = None
            self.builder.proof_changed()

        self.builder.app.worker.ask(CHANNEL, job, hear)
        self.builder.proof_changed()

    def stop(self) -> None:
        """Give it up."""
        self.builder.app.worker.forget(CHANNEL)
        self._progress = None
        self.builder.proof_changed()

    def keep(self) -> None:
        """Put the proof into the scenario, so that whoever opens its file sees it."""
        if self.proof is not None:
            making, proof = self.builder.making, self.proof
            making.set("keep the proof", ("proof",), proof.model_dump(exclude_none=True))
            self.builder.app.say("The proof goes into the file when it is saved.")
            self.builder.proof_changed()

    # ---- the leaf

    def lanes(self) -> Lanes:
        """Buttons and progress over the answer."""
        proof, scenario = self._newest()
        acts: list[Widget] = [
            Button("Prove", lambda: self.start(FULL), group="prove",
                   tooltip="Search all that is open for set-ups that do the task; takes a while."),
            Button("Quick look", lambda: self.start(SMALL), group="prove",
                   tooltip="The same with fewer strokes: sooner, less sure."),
        ]  # fmt: skip
        if proof and scenario and scenario.digest == proof.digest and scenario.proof != proof:
            acts.append(Button("Keep it in the file", self.keep, group="prove"))
        if self._progress:
            share = _Share(self._progress.words, self._progress.share)
            return [[Heading("Can it be done?"), share, Row([Button("Stop", self.stop)])]]
        if proof is None:
            told = said("Thousands of strokes of this player are tried with all that is open.")
            return [[Heading("Can it be done?"), Row(acts), told]]
        return [[Row(acts), *self._picture(proof, scenario)]]

    def _picture(self, proof: Proof, scenario: Scenario | None) -> list[Widget]:
        """The proof drawn; while its shots are played beside the picture, it is told in a sentence."""
        if self._view is not None and self._view.proof == proof:
            stale = scenario is None or scenario.digest != proof.digest
            return [ProofPicture(replace(self._view, stale=stale), self.builder.app.settings.left_handed)]
        made_of = self.of or scenario
        if made_of is not None and self._asked != proof:
            self._asked = proof

            def hear(answer: Answer) -> None:
                if answer.fresh and answer.value is not None:
                    self._view = answer.value
                    self.builder.proof_changed()

            self.builder.app.worker.ask(PICTURE, lambda: proof_view(made_of, proof), hear)
        return [TextBlock(proof_words.lead(proof), "strong")]

    def _newest(self) -> tuple[Proof | None, Scenario | None]:
        """The proof made here, else that of the file."""
        scenario = self.builder.making.scenario
        if self.proof is not None:
            return self.proof, scenario
        return (scenario.proof if scenario else None), scenario
