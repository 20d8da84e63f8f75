"""The door of Play: one scenario played; predict, play, see the gap, ask why."""

from game.play.round import Practice, Round, begin, next_key
from game.play.screen import Play
from game.play.tally import TallyRow
from game.play.words import goal_tally, task_lines

__all__ = ["Play", "Practice", "Round", "TallyRow", "begin", "goal_tally", "next_key", "task_lines"]
