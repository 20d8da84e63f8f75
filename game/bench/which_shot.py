"""From the Bench to the choice of a shot, and the chosen one back to its sliders; who may play here."""

from dataclasses import replace

from game.bench.acts import BenchActs
from game.bench.model import Setting, State
from game.choosing import Choosing, ChoosingQuestion, ChoosingWay, chooser_of
from game.library.bench_setup import OWN_PLAYER
from levels.choose import ShotOption
from levels.situation import bench_situation
from physics.spread import PLAYERS

__all__ = ["player_labels", "player_names", "which_shot"]


def which_shot(bench: BenchActs) -> None:
    """What to play from where the ball lies, whatever is set now."""
    s = bench.state
    plain = s.standard
    question = ChoosingQuestion(
        s.course.name, bench_situation(s.course, plain.setup, plain.motion), chooser_of(bench.app, s.player)
    )

    def take(option: ShotOption) -> None:
        state = bench.state.take(Setting(option.setup, option.motion, own_depth=True))
        if state.own:  # for whom it was chosen
            state = replace(state, player=OWN_PLAYER)
        bench.change(state)
        bench.app.say("It is set: Space plays it.")

    bench.app.push(Choosing(bench.app, question, [ChoosingWay("to the Bench", take)]))


def player_names(state: State) -> tuple[str, ...]:
    """The presets, and the fitted player where there is one."""
    return (*PLAYERS, *([OWN_PLAYER] if state.own else []))


def player_labels(state: State) -> tuple[str, ...]:
    """What they are called."""
    own = [state.own.spread.label] if state.own else []
    return (*(one.label for one in PLAYERS.values()), *own)
