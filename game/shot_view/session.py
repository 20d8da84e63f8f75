"""A shot on show: the film of it on the time ribbon, its sounds with their words, the turf it throws."""

from dataclasses import dataclass
from math import inf

from game.shot_view.ribbon import TimeRibbon
from game.shot_view.spray import Track, throw
from game.sound.cues import Cue, due, score
from game.sound.loudspeaker import loudspeaker
from game.ui.screen import Host
from physics.results import Shot

__all__ = ["Session", "Shown", "Sounds", "shown_with_spray"]


@dataclass(frozen=True)
class Shown:
    """A shot, and how the turf it loosens flies."""

    shot: Shot
    spray: Track


def shown_with_spray(shot: Shot) -> Shown:
    """The shot with its thrown turf worked out: some milliseconds, so beside the picture."""
    return Shown(shot, throw(shot))


class Sounds:
    """The sounds of one shot: each goes to the loudspeaker and, as words, to the caption line."""

    def __init__(self, host: Host) -> None:
        self._host = host
        self._cues: tuple[Cue, ...] = ()
        self._struck = -inf  # s, when the ball leaves
        self._name = ""

    def take(self, shot: Shot, name: str = "") -> None:
        """Another shot; `name` stands before its words where several are on show."""
        self._cues, self._struck, self._name = score(shot), shot.run.t[0], name

    def pass_time(self, before: float, now: float) -> None:
        """Sound what lies between the two times (s) of the shot; nothing when it goes back."""
        self._sound(due(self._cues, before, now))

    def strike(self) -> None:
        """How it was struck, at once: for a shot that is shown without its film."""
        self._sound(due(self._cues, -inf, self._struck))

    def _sound(self, cues: tuple[Cue, ...]) -> None:
        for cue in cues:
            loudspeaker(self._host.settings).play(cue)
            words = f"{self._name}: {cue.caption}" if self._name else cue.caption
            self._host.say(f"{words[:1].upper()}{words[1:]}.")


class Session:
    """Shows one shot after another. With reduced motion each is there at once, at its end."""

    def __init__(self, host: Host) -> None:
        self._host = host
        self.ribbon, self.sounds = TimeRibbon(), Sounds(host)

    @property
    def still(self) -> bool:
        """Whether nothing flies: reduced motion."""
        return self._host.settings.reduced_motion

    @property
    def moving(self) -> bool:
        """Whether the film runs."""
        return self.ribbon.playing

    def show(self, shot: Shot, *, slow: bool, at_end: bool = False) -> None:
        """This shot from its start, `slow` through swing and strike; or silent and at its end."""
        self.ribbon.load(shot, slow=slow, at_end=at_end or self.still)
        self.sounds.take(shot)
        if self.still and not at_end:
            self.sounds.strike()

    def advance(self, dt: float) -> bool:
        """Let the film run for `dt` seconds; whether it has just come to its end."""
        was_end = self.ribbon.at_end
        before, now = self.ribbon.update(dt)
        if now > before:
            self.sounds.pass_time(before, now)
        return self.ribbon.at_end and not was_end

    def watch(self) -> bool:
        """The shot once more from its start; False without one."""
        if self.ribbon.line is None:
            return False
        self.ribbon.seek(self.ribbon.line.start)
        self.ribbon.toggle()
        return True

    def pause(self) -> None:
        """Stop where the film is."""
        self.ribbon.playing = False

    def pace(self, speed: float) -> None:
        """At that share of real time, or as it was; says which."""
        self.ribbon.pace(speed)
        self._host.say(f"Speed: {self.ribbon.pace_words or 'as it was'}.")

    def jump(self, by: int) -> None:
        """To the next moment of the shot or the one before; says which."""
        if name := self.ribbon.jump(by):
            self._host.say(f"At {name}.")
