"""What is compiled and read before the first screen, in steps that can be counted."""

from collections.abc import Callable

from game import startup

__all__ = ["COMPILE_STEPS"]

SAMPLE = "harrow-fen-plain-chip"
STROKES = 40  # of the small cloud: enough for both of its threads


def _read() -> None:
    from levels.files import load_library

    load_library(SAMPLE)


def _strike() -> None:
    import numpy as np

    from levels.files import load_library
    from physics.compiled import as_record
    from physics.corridor import bench, standard_of, strike_stray, stroke_of
    from physics.shot import lie_of
    from physics.spread import EXACT, draw_strays
    from physics.strike import LOG_COLUMNS

    sample = load_library(SAMPLE)
    course, setup = sample.course(), sample.setup()
    club, surface, stroke = (
        as_record(setup.club),
        as_record(lie_of(course)[0]),
        stroke_of(setup, sample.motion()),
    )
    work, log = bench(), np.zeros((4096, LOG_COLUMNS))
    standard = standard_of(club, surface, course.lie.lift, stroke, work, log[:0])
    strike_stray(
        club, surface, course.lie.lift, stroke, draw_strays(EXACT, 0, 1)[0], work, log, True, standard
    )


def _shot() -> None:
    from levels.files import load_library
    from physics.shot import play

    sample = load_library(SAMPLE)
    play(sample.course(), sample.setup(), sample.motion())
    startup.mark_done("shot")


def _cloud() -> None:
    from levels.files import load_library
    from physics.cloud import cloud
    from physics.spread import PLAYERS

    sample = load_library(SAMPLE)
    cloud(sample.course(), sample.setup(), sample.motion(), PLAYERS["club"], count=STROKES)
    startup.mark_done("cloud")


COMPILE_STEPS: tuple[tuple[str, Callable[[], None]], ...] = (
    ("reading the course", _read),
    ("swing and turf", _strike),
    ("one whole shot, with flight, landing and roll", _shot),
    ("many shots at once", _cloud),
)
