"""A session at the Bench as a player would have it: every step that once cost a long frame."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pygame

from game.app.frame import App
from game.bench.screen import Bench
from tests.ui_events import key

__all__ = ["Step", "session"]

FULL, BACK, ON = (
    key(pygame.K_f, 0, "f"),
    key(pygame.K_LEFTBRACKET, 0, "["),
    key(pygame.K_RIGHTBRACKET, 0, "]"),
)
LARGER, NORMAL = key(pygame.K_PLUS, pygame.KMOD_CTRL), key(pygame.K_0, pygame.KMOD_CTRL)


@dataclass(frozen=True)
class Step:
    """One frame: what it belongs to, its events, and something to be done before it."""

    name: str
    events: tuple[pygame.event.Event, ...] = ()
    act: Callable[[], object] | None = None


def session(app: App) -> Iterator[Step]:
    """Frames of the session, while the Bench is in front. A shot plays until it has come to rest."""
    bench = app.screen
    assert isinstance(bench, Bench)
    yield from (Step("start") for _ in range(10))
    yield from (
        Step("slider", (), lambda i=i: bench.set_control("lean_change", 0.0005 * i)) for i in range(40)
    )
    yield from _shot("first shot", bench)
    for i in range(10):
        yield Step("slider", (), lambda i=i: bench.set_control("release", 1.1 + 0.1 * i))
    yield from _shot("ball out of view", bench)
    line = bench.ribbon.line
    assert line is not None
    yield from (Step("scrub", (), lambda i=i: bench.ribbon.seek(line.time(i / 40))) for i in range(41))
    for event in (*[BACK] * 4, ON, ON):
        yield from (Step("jump", (event,) if i == 0 else ()) for i in range(3))
    yield from _shot("next shot", bench)
    for ground in ("tight", "rough", "sand", "fairway"):
        yield Step("ground", (), lambda g=ground: bench.change(bench.state.on(g)))
        yield from (Step("ground") for _ in range(5))
    for event in (LARGER, NORMAL):
        yield Step("text size", (event,))
        yield from (Step("text size") for _ in range(5))


def _shot(name: str, bench: Bench) -> Iterator[Step]:
    """Ask for a shot, wait for it, and watch it at its own speed."""
    last = bench.state.shot
    yield Step(name, (), bench.play)
    for _ in range(20000):
        if bench.state.shot is not last:
            break
        yield Step(name)
    assert bench.state.shot is not last, f"{name}: no shot came"
    yield Step(name, (FULL,)) if bench.ribbon.first else Step(name)
    while not bench.ribbon.at_end:
        yield Step(f"{name}, playing")
    yield from (Step(name) for _ in range(5))
