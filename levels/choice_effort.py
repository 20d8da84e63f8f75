"""How hard a choice is worked out: set-ups and strokes of each stage.

Numbers only: a thriftier choice may miss a set-up, it never judges one otherwise.
"""

from dataclasses import dataclass

from levels.effort import CANOPY_COST, SAND_COST, WALL_COST

__all__ = ["CAREFUL", "QUICK", "ChoiceEffort", "thrift"]


@dataclass(frozen=True)
class ChoiceEffort:
    """Set-ups and strokes of each stage."""

    lengths: int  # swing lengths of a way to set up
    look: int  # strokes of each set-up in the first look
    start: int  # set-ups of each kind that go on
    rounds: tuple[int, ...]  # strokes of each set-up, round by round
    children: int  # new set-ups near the best, each round
    finalists: int
    final: int  # strokes of a finalist
    judged: int  # fresh strokes of a winner

    def at_cost(self, cost: float) -> "ChoiceEffort":
        """The same for strokes that cost more: fewer of everything, in about the same time."""
        less = thrift(cost)

        def cut(n: int, least: int) -> int:
            return max(round(n * less), least)

        return ChoiceEffort(
            cut(self.lengths, 5), cut(self.look, 4), cut(self.start, 2),
            tuple(cut(n, 8) for n in self.rounds),
            cut(self.children, 2), self.finalists, cut(self.final, 24), cut(self.judged, 120),
        )  # fmt: skip


def thrift(cost: float) -> float:
    """The share of all strokes that is played where one costs so much (`levels.effort.cost_of`)."""
    return {1.0: 1.0, WALL_COST: 0.75, SAND_COST: 0.6, CANOPY_COST: 0.2}[cost]


CAREFUL = ChoiceEffort(
    lengths=11, look=12, start=4, rounds=(24, 40), children=6, finalists=3, final=120, judged=480
)
QUICK = ChoiceEffort(lengths=8, look=8, start=3, rounds=(24,), children=4, finalists=2, final=72, judged=240)
