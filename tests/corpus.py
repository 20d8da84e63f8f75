"""The corpus: thousands of seeded strokes as one digest a part, to tell whether a change changed a shot.

Run it before and after a change that should change nothing: `python -m tests.corpus [strokes] [proofs]`.
The digests hold on one machine with one set of libraries, so they are compared, never kept.
"""

import sys
from collections.abc import Iterator
from hashlib import sha256

import numpy as np

from game.startup import prepare

prepare()  # before physics is imported

# ruff: noqa: E402
from levels.files import library, load_library, scenario_text
from levels.prove import proved
from levels.shotfile import shot_to_json
from physics.address import CONTROLS, Motion, Setup
from physics.cloud import cloud, play_many
from physics.course import Course, Ground, Lie
from physics.equipment import BAG
from physics.shot import play, replay
from physics.spread import PLAYERS, draw_strays
from physics.surfaces import SURFACES

STROKES, PROOFS, RECORDED = 6000, 4, 1200
GROUND = Ground((-9.0, 1.0, 60.0), (0.0, 0.0, 0.0), ("fairway", "green"))


def strokes(count: int) -> Iterator[tuple[Course, Setup, Motion, str, int]]:
    """Strokes of every club, control, lie and player, the same for the same count."""
    rng = np.random.default_rng(20261126)
    clubs, lies, players = sorted(BAG), sorted(SURFACES), sorted(PLAYERS)
    for i in range(count):
        value = {c.name: float(rng.uniform(c.low, c.high)) for c in CONTROLS.values()}
        setup, motion = (
            {n: v for n, v in value.items() if CONTROLS[n].owner == owner} for owner in ("setup", "motion")
        )
        lift = float(rng.choice([0.0, rng.uniform(-0.02, 0.04)]))
        course = Course(GROUND, Lie(lies[i % len(lies)], lift))
        club = BAG[clubs[int(rng.integers(len(clubs)))]]
        yield course, Setup(club, **setup), Motion(**motion), players[int(rng.integers(len(players)))], i


def shots(count: int) -> Iterator[bytes]:
    """Every stroke as a row of the cloud; the first of them as whole recorded shots, in JSON."""
    for course, setup, motion, player, seed in strokes(count):
        strays = draw_strays(PLAYERS[player], seed, 1)
        rows, _ = play_many(course, setup, motion, strays, seed)
        yield np.ascontiguousarray(rows).tobytes()
        if seed < RECORDED:
            yield shot_to_json(replay(course, setup, motion, PLAYERS[player], seed, strays[0])).encode()


def scenarios() -> Iterator[bytes]:
    """Every built-in scenario: its text, its start and reference played by three players, its cloud."""
    for name in library():
        scenario = load_library(name)
        yield scenario_text(scenario).encode()
        course = scenario.course()
        both = [(scenario.setup(), scenario.motion()), scenario.reference_shot()]
        for setup, motion in filter(None, both):
            for player in sorted(PLAYERS):
                yield shot_to_json(play(course, setup, motion, PLAYERS[player], 7)).encode()
            many = cloud(course, setup, motion, PLAYERS["club"], 3, 60)
            yield many.rest.tobytes() + many.strokes.tobytes() + many.kind.tobytes() + many.solid.tobytes()


def proofs(count: int) -> Iterator[bytes]:
    """The full proofs of the first built-in scenarios."""
    for name in library()[:count]:
        yield repr(proved(load_library(name))).encode()


def digest(parts: Iterator[bytes]) -> str:
    found = sha256()
    for part in parts:
        found.update(part)
    return found.hexdigest()[:16]


def main() -> None:
    counts = [int(word) for word in sys.argv[1:]]
    print("strokes  ", digest(shots(counts[0] if counts else STROKES)), flush=True)
    print("scenarios", digest(scenarios()), flush=True)
    print("proofs   ", digest(proofs(counts[1] if len(counts) > 1 else PROOFS)), flush=True)


if __name__ == "__main__":
    main()
