"""What is heard once a shot is over: two notes up for a goal met, three for a task solved, else a low one."""

from game.sound.cues import Cue

__all__ = ["result_cue"]


def result_cue(met: bool, solved: bool) -> Cue:
    """The cue with its words, a whole sentence."""
    if solved and met:
        return Cue(0.0, "solved", 1.0, "Three notes up: the task is solved.")
    if met:
        return Cue(0.0, "met", 1.0, "Two notes up: this one met the goal.")
    return Cue(0.0, "not_yet", 1.0, "One low note: this one missed the goal.")
