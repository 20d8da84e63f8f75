"""What the Bench holds: a setting, a course, a player, the shots played, and a setting kept to compare with.

Pure values: every change gives a new Bench state. Nothing here draws or computes physics.
"""

from dataclasses import dataclass, field, replace
from math import hypot, isfinite

from game.library.bench_setup import OWN_PLAYER, Entries
from game.text.quantity import shown_control
from levels.player_file import KnownPlayer
from physics.address import CONTROLS, Intention
from physics.course import Course, level_course
from physics.results import Outcome, Shot
from physics.spread import PLAYERS, Spread
from physics.surfaces import SURFACES

__all__ = [
    "GROUNDS", "HOLE", "NOBODY", "Setting", "State", "differences", "entries_of", "is_poor", "shown_control",
    "state_from",
]  # fmt: skip

HOLE = 8.0  # m
NOBODY = "steady"  # plays where the fitted player cannot be read
GROUNDS = ("fairway", "tight", "soft", "rough", "fringe", "mat", "sand", "wet_sand")
POOR = 0.10  # of the distance of the hole: a miss beyond is worth an explanation (common practice)
POOR_LEAST = 1.0  # m, assumed


@dataclass(frozen=True)
class Setting(Intention):
    """Everything the player sets."""

    own_depth: bool = field(default=False, compare=False)  # the player set the aimed depth

    def with_value(self, name: str, value: float) -> "Setting":
        """With that control at a value, held to its limits."""
        return replace(super().with_value(name, value), own_depth=self.own_depth or name == "depth")

    def lying_on(self, ground: str) -> "Setting":
        """With the depth usual on that ground, unless the player set one."""
        usual = SURFACES[ground].usual_depth
        return self if self.own_depth else replace(self, motion=replace(self.motion, depth=usual))


@dataclass(frozen=True)
class State:
    """The Bench at one moment. `shot` is the last one played, `ghost` the one before it; `settled` is the
    setting of the last shot. With `kept` set, every shot is played with both settings: the kept one is A and
    stays, the one that is changed is B."""

    now: Setting = field(default_factory=Setting)
    settled: Setting = field(default_factory=Setting)
    ground: str = "fairway"
    hole: float = HOLE
    player: str = "steady"
    seed: int = 0
    shot: Shot | None = field(default=None, repr=False)
    ghost: Shot | None = field(default=None, repr=False)
    kept: Setting | None = None
    kept_shot: Shot | None = field(default=None, repr=False)
    scene: Course | None = field(default=None, repr=False)  # of a scenario, in place of the simple green
    usual: Setting | None = None  # what "standard" means there
    own: KnownPlayer | None = field(default=None, repr=False)  # the fitted player, where there is one

    @property
    def course(self) -> Course:
        if self.scene is not None:
            return self.scene
        return level_course(self.ground, self.hole, f"Harrow Fen, from {SURFACES[self.ground].label}")

    @property
    def spread(self) -> Spread:
        if self.player == OWN_PLAYER:
            return self.own.spread if self.own else PLAYERS[NOBODY]
        return PLAYERS[self.player]

    @property
    def comparing(self) -> bool:
        return self.kept is not None

    @property
    def changed(self) -> bool:
        """Whether anything was set since the last shot."""
        return self.now != self.settled

    def set(self, name: str, value: float) -> "State":
        """A control at a value (SI), held to its limits."""
        return replace(self, now=self.now.with_value(name, value))

    def take(self, setting: Setting) -> "State":
        """Another setting whole."""
        return replace(self, now=setting)

    def on(self, ground: str) -> "State":
        """The ball on other ground, brushed as deep as is usual there unless the player set the depth; shots
        from the old one are put away. A scenario's ground stays. KeyError for unknown ground."""
        if ground == self.ground or self.scene is not None:
            return self
        now, settled = self.now.lying_on(ground), self.settled.lying_on(ground)
        kept = self.kept and self.kept.lying_on(ground)
        return replace(
            self, ground=ground, now=now, settled=settled, kept=kept, shot=None, ghost=None, kept_shot=None
        )

    @property
    def standard(self) -> Setting:
        """A plain chip from this ground, or what the scenario starts with."""
        return self.usual or Setting().lying_on(self.ground)

    def played(self, shot: Shot, kept: Shot | None = None) -> "State":
        """After a shot (and the same stroke with the kept setting)."""
        return replace(self, shot=shot, ghost=self.shot, kept_shot=kept, settled=self.now, seed=self.seed + 1)

    def keep(self) -> "State":
        """The setting now becomes A, with its shot if it has one; whatever was A before is gone."""
        return replace(self, kept=self.now, kept_shot=None if self.changed else self.shot)

    def stop_comparing(self) -> "State":
        """A is put away; what was being changed stays."""
        return replace(self, kept=None, kept_shot=None)

    def swap(self) -> "State":
        """A and B change places, their shots too."""
        if self.kept is None:
            return self
        shots = (self.kept_shot, self.shot) if self.kept_shot else (self.shot, None)
        return replace(
            self, now=self.kept, kept=self.now, settled=self.kept, shot=shots[0], kept_shot=shots[1]
        )


def entries_of(state: State) -> Entries:
    """What is kept of it between two starts; a depth that goes with the lie is not."""
    s = state.now
    own = {name: s.value(name) for name in CONTROLS if name != "depth" or s.own_depth}
    return {"club": s.setup.club.name, "ground": state.ground, "player": state.player, **own}


def state_from(entries: Entries) -> State:
    """A Bench with these set; whatever is not among them is standard."""
    state = State().on(str(entries.get("ground", State().ground)))
    now = state.now.with_club(str(entries.get("club", state.now.setup.club.name)))
    for name, value in entries.items():
        if name in CONTROLS:
            now = now.with_value(name, float(value))
    return replace(state, now=now, settled=now, player=str(entries.get("player", state.player)))


def differences(a: Setting, b: Setting) -> str:
    """What B sets otherwise than A, in words."""
    out = []
    if a.setup.club != b.setup.club:
        out.append(f"the {b.setup.club.label}, not the {a.setup.club.label}")
    for name, control in CONTROLS.items():
        first, last = (shown_control(name, s.value(name)) for s in (a, b))
        if first != last:
            out.append(f"{control.label} {last}, not {first}")
    if not out:
        return "Set as A: change one thing and play."
    return f"Here {'; '.join(out)}."


def is_poor(shot: Shot) -> bool:
    """Whether a miss is worth an explanation: a bad strike, or a ball far from the hole."""
    hole = shot.course.hole
    if not shot.strike.solid or shot.run.outcome not in (Outcome.REST, Outcome.HOLED):
        return True
    if hole is None or shot.run.outcome is Outcome.HOLED:
        return False
    leave = hypot(shot.run.rest - hole.x, shot.lateral)
    return isfinite(leave) and leave > max(POOR * hole.x, POOR_LEAST)
