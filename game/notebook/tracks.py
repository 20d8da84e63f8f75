"""The paths of kept shots, played again beside the picture, for the small pictures of the history."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from game.ui.work import Answer, Worker
from levels.attempts import Attempt, replayed, same_as_kept

__all__ = ["KeptTrack", "Tracks"]

CHANNEL = "tracks of kept shots"
POINTS = 48  # kept of a path, assumed: a small picture shows no more
KEPT = 600  # tracks held, assumed


@dataclass(frozen=True)
class KeptTrack:
    """A ball's path (m) in points; `same` is false where a law has changed since the shot was kept."""

    points: tuple[tuple[float, float], ...]
    same: bool


class Tracks:
    """Asks for what is in sight and not yet known; `find` is None until it is there."""

    def __init__(self, worker: Worker) -> None:
        self._worker = worker
        self._known: dict[str, KeptTrack] = {}
        self._asked: tuple[str, ...] = ()

    def find(self, uid: str) -> KeptTrack | None:
        """The track of an attempt, if it is known."""
        return self._known.get(uid)

    def want(self, attempts: Iterable[Attempt]) -> None:
        """These are in sight now."""
        wanted = tuple(one for one in attempts if one.uid not in self._known)
        names = tuple(one.uid for one in wanted)
        if names and names != self._asked:
            self._asked = names
            self._worker.ask(CHANNEL, lambda: _tracks(wanted), self._hear)

    def stop(self) -> None:
        """Nothing is in sight any more."""
        self._asked = ()
        self._worker.forget(CHANNEL)

    def _hear(self, answer: Answer) -> None:
        if isinstance(answer.value, tuple):
            uid, track = answer.value
            if len(self._known) >= KEPT:
                self._known.clear()
            self._known[uid] = track


def _tracks(wanted: tuple[Attempt, ...]) -> Iterator[tuple[str, KeptTrack]]:
    for one in wanted:
        shot = replayed(one)
        xs, ys = np.asarray(shot.run.x, dtype=float), np.asarray(shot.run.y, dtype=float)
        pick = np.unique(np.linspace(0, max(len(xs) - 1, 0), POINTS).round().astype(int))
        points = tuple((float(xs[i]), float(ys[i])) for i in pick if len(xs))
        yield one.uid, KeptTrack(points, same_as_kept(one, shot))
