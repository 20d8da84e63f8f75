"""The tab of the proof: can it be done, by what, and how forgiving is it?"""

import pygame

from game.builder.ui.boxes import quiet_line
from game.builder.ui.editing import Editing
from game.builder.ui.proof_picture import ProofPicture
from game.builder.ui.proving import Proving
from game.builder.ui.tab_shot import turn_control
from game.builder.ui.tabs import Columns
from game.draw.camera import Rect
from game.text import proof as proof_words
from game.ui import Button, Heading, Row, TextBlock, Theme, Widget, paint
from levels.effort import FULL, SMALL
from levels.unlock import Unlocked, is_solved
from physics.address import CONTROLS

__all__ = ["prove_tab"]


class _ProgressBar(Widget):
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


def prove_tab(editing: Editing, proving: Proving, left_handed: bool) -> Columns:
    """Buttons and progress over the answer."""
    if proving.progress:
        bar = _ProgressBar(proving.progress.words, proving.progress.share)
        return [[Heading("Can it be done?"), bar, Row([Button("Stop", proving.stop)])]]
    proof, scenario = proving.newest(), editing.scenario
    acts: list[Widget] = [
        Button("Prove", lambda: proving.start(FULL), group="prove",
               tooltip="Search all that is open for set-ups that do the task; takes a while."),
        Button("Quick look", lambda: proving.start(SMALL), group="prove",
               tooltip="The same with fewer strokes: sooner, less sure."),
    ]  # fmt: skip
    if proof is None:
        how = quiet_line("Thousands of strokes of this player are tried with all that is open.")
        return [[Heading("Can it be done?"), Row(acts), how]]
    if scenario and scenario.digest == proof.digest and scenario.proof != proof:
        acts.append(Button("Keep it in the file", proving.keep, group="prove"))
    told: list[Widget] = []
    if scenario and scenario.digest == proof.digest and not is_solved(proof):
        acts.append(
            Button("Which control to open", proving.seek_control, group="prove",
                   tooltip="Try each closed control, half a minute in all: which one makes it solvable?")
        )  # fmt: skip
        told = _to_open(editing, proving.to_open)
    view = proving.picture(proof)
    answer = ProofPicture(view, left_handed) if view else TextBlock(proof_words.lead(proof), "strong")
    return [[Row(acts), *told, answer]]


def _to_open(editing: Editing, found: tuple[Unlocked, ...] | None) -> list[Widget]:
    """What was found about closed controls, and a button that opens the best."""
    if found is None:
        return []
    told: list[Widget] = [TextBlock(words, "strong") for words in proof_words.unlock_words(found)]
    if found:
        label = CONTROLS[found[0].control].label
        told.append(Row([
            Button(f"Open the {label}", lambda: turn_control(editing, found[0].control), group="unlock",
                   tooltip="Then prove it again. Undo closes it."),
        ]))  # fmt: skip
    return told
