"""Computing beside the picture: one thread, and on each channel the newest request wins."""

import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from queue import SimpleQueue
from typing import Any

from game.library.log import logger

__all__ = ["Answer", "Job", "Then", "Worker"]

Job = Callable[[], Any]


@dataclass(frozen=True)
class Answer:
    """What came of a request. A job in parts answers once for each part; `last` ends it."""

    channel: str
    value: Any = None
    fresh: bool = True  # nothing newer was asked on the channel since
    last: bool = True
    problem: str = ""  # one sentence when it failed
    error: BaseException | None = None


Then = Callable[[Answer], None]


@dataclass(frozen=True)
class _Asked:
    channel: str
    job: Job
    then: Then | None
    number: int


class Worker:
    """One thread. A job that returns an iterator is done in parts, and other channels may come between.

    Newer requests replace waiting ones; a job in parts is dropped at the next part. A single job that
    already runs still answers, with `fresh` False. `threaded=False` does everything inside `poll()`.
    """

    def __init__(self, threaded: bool = True) -> None:
        self._lock = threading.Condition()
        self._waiting: dict[str, _Asked] = {}
        self._parts: dict[str, tuple[_Asked, Iterator[Any]]] = {}
        self._newest: dict[str, int] = {}
        self._answers: SimpleQueue[tuple[_Asked, Answer]] = SimpleQueue()
        self._count, self._busy, self._closed = 0, False, False
        self._thread: threading.Thread | None = None
        if threaded:
            self._thread = threading.Thread(target=self._serve, name="fringework-work", daemon=True)
            self._thread.start()

    def ask(self, channel: str, job: Job, then: Then | None = None) -> None:
        """Have it computed; `then` hears each Answer inside `poll()`, on the thread that polls."""
        with self._lock:
            self._count += 1
            self._newest[channel] = self._count
            self._waiting.pop(channel, None)  # to the end of the row
            self._waiting[channel] = _Asked(channel, job, then, self._count)
            self._lock.notify()

    def forget(self, channel: str) -> None:
        """Nothing on this channel is wanted any more; what still comes is not fresh."""
        with self._lock:
            self._count += 1
            self._newest[channel] = self._count
            self._waiting.pop(channel, None)

    @property
    def busy(self) -> bool:
        """Whether anything waits or runs."""
        with self._lock:
            return bool(self._busy or self._waiting or self._parts)

    @property
    def answered(self) -> bool:
        """Whether `poll` has something to hand out."""
        return not self._answers.empty()

    def poll(self) -> list[Answer]:
        """Hand out what has come since the last call, in order."""
        while self._thread is None and self.step():
            pass
        out = []
        while not self._answers.empty():
            asked, answer = self._answers.get()
            out.append(answer)
            if asked.then:
                asked.then(answer)
        return out

    def close(self) -> None:
        """Start nothing more."""
        with self._lock:
            self._closed = True
            self._waiting.clear()
            self._lock.notify()
        if self._thread and self._thread is not threading.current_thread():
            self._thread.join(timeout=0.5)  # a long job ends with the program: the thread is a daemon

    def step(self) -> bool:
        """Do one job or one part of one; False when there is nothing to do."""
        with self._lock:
            if self._closed:
                return False
            for channel in [c for c, (a, _) in self._parts.items() if a.number != self._newest[c]]:
                del self._parts[channel]
            self._busy = bool(self._waiting or self._parts)
            if self._waiting:
                asked = self._waiting.pop(next(iter(self._waiting)))
                parts = None
            elif self._parts:
                asked, parts = self._parts.pop(next(iter(self._parts)))
            else:
                return False
        self._work(asked, parts)
        with self._lock:
            self._busy = False
        return True

    def _work(self, asked: _Asked, parts: Iterator[Any] | None) -> None:
        try:
            value = asked.job() if parts is None else next(parts)
        except StopIteration:
            self._answer(asked)
        except Exception as error:  # whatever a job does wrong, the window goes on; the log has all of it
            logger.error("The %s could not be worked out.", asked.channel, exc_info=error)
            self._answer(asked, problem=_sentence(asked.channel, error), error=error)
        else:
            if parts is None and not isinstance(value, Iterator):
                self._answer(asked, value=value)
                return
            if parts is not None:
                self._answer(asked, value=value, last=False)
            with self._lock:
                if asked.number == self._newest[asked.channel]:
                    self._parts[asked.channel] = (asked, value if parts is None else parts)

    def _answer(self, asked: _Asked, **told: Any) -> None:
        with self._lock:
            fresh = asked.number == self._newest[asked.channel]
        self._answers.put((asked, Answer(asked.channel, fresh=fresh, **told)))

    def _serve(self) -> None:
        while True:
            with self._lock:
                self._lock.wait_for(lambda: self._closed or self._waiting or self._parts)
                if self._closed:
                    return
            self.step()


def _sentence(channel: str, error: Exception) -> str:
    why = str(error).strip().splitlines()
    return f"The {channel} could not be worked out: {(why[0] if why else type(error).__name__).rstrip('.')}."
