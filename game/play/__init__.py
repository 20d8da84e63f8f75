"""The door of Play: one scenario played; predict, play, see the gap, ask why."""

from game.play.round import Round, begin, next_key
from game.play.screen import Play
from game.play.tally import PipRow
from game.play.words import goal_pips, task_lines

__all__ = ["PipRow", "Play", "Round", "begin", "goal_pips", "next_key", "task_lines"]
