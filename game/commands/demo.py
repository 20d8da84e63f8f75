"""`fringework demo`: why excess lean digs, and three shots that show what the bench is about."""

from argparse import ArgumentParser, Namespace
from dataclasses import replace
from io import BytesIO
from math import radians
from pathlib import Path
from tempfile import TemporaryDirectory

from game.commands.common import WriteError, write
from game.commands.lesson import lesson_png, made_lesson
from game.commands.options import Order
from game.commands.progress import counted
from game.commands.report import SIDE_VIEW, print_story, say
from game.commands.shot import picture, played
from game.text.lesson import TITLES, lesson_told
from physics.address import Motion, Setup
from physics.course import level_course
from physics.equipment import BAG
from physics.spread import EXACT, PLAYERS

__all__ = ["LESSON", "OVER_BUNKER", "add_options", "run", "showcase"]

OVER_BUNKER = "harrow-fen-over-the-bunker"
MORE_LEAN = radians(9)
TITLE_LEANING = "The same chip, the handle coming back 9 degrees further forward"
LESSON = "1-why-lean-digs"
LEARNER = "club"  # whose strokes the lesson counts
STEPS = 4  # of the walk through the Builder
HIGH_SETUP = Setup(
    club=BAG["LW"],
    ball_position=0.0,
    shaft_lean=0.0,
    stance_width=0.25,
    face_open=radians(10),
    lead_weight=0.55,
)
HIGH_MOTION = Motion(swing_length=radians(106), release=1.4, follow_through=0.3, depth=1.0e-3)
SINKING = 1.3  # drop of a player who sinks a little too far; without more lean there is nothing to sink for


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument(
        "--out", metavar="DIR", type=Path, default=Path("fringework-demo"),
        help="folder for the pictures, made if missing; default fringework-demo",
    )  # fmt: skip
    parser.add_argument("--dark", action="store_true", help="draw them dark")
    parser.add_argument(
        "--builder", action="store_true", help="also build a scenario on the Builder's screen, step by step"
    )


def showcase() -> tuple[tuple[str, str, Order], ...]:
    """File name, title and Order of each: a matched chip, the same with more lean, a high soft shot."""
    from levels.files import load_library

    chip = Order(level_course("fairway", 8.0), Setup(), Motion(drop=SINKING), EXACT, 0)
    leaning = replace(chip, motion=replace(chip.motion, lean_change=MORE_LEAN))
    high = Order(load_library(OVER_BUNKER).course(), HIGH_SETUP, HIGH_MOTION, EXACT, 0)
    return (
        ("2-matched-chip", "A matched chip", chip),
        ("3-nine-degrees-more-lean", TITLE_LEANING, leaning),
        ("4-high-soft-shot", "A high soft shot over the bunker", high),
    )


def run(args: Namespace) -> int:
    """Play, draw and tell each. Returns the exit code."""
    try:
        args.out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise WriteError(f"The folder '{args.out}' cannot be made: {error.strerror or error}.") from None
    shots = showcase()
    file = args.out / f"{LESSON}.png"
    lean = made_lesson("lean", replace(shots[0][2], motion=Motion(), spread=PLAYERS[LEARNER]))
    write(file, lesson_png(lean, dark=args.dark))
    print_story([f"{TITLES['lean']}.", *lesson_told(lean)])
    say(str(file))
    print()
    found = []
    for name, title, order in counted(shots, len(shots), "Shots"):
        shot, sentences = played(order)
        file = args.out / f"{name}.png"
        write(file, picture(shot, sentences, dark=args.dark))
        found.append((title, sentences, file))
    for title, sentences, file in found:
        print_story([title])
        for sentence in sentences:
            print(sentence)
        say(str(file))
        print()
    if args.builder:
        _build(args.out, args.dark)
    say(SIDE_VIEW)
    return 0


def _build(out: Path, dark: bool) -> None:
    """Build, prove and open a scenario on the Builder's screen."""
    import pygame

    from game.commands.builder_pictures import walk_through

    with TemporaryDirectory(prefix="fringework-") as home:
        for name, surface in counted(walk_through(Path(home), dark), STEPS, "Steps"):
            drawn = BytesIO()
            pygame.image.save(surface, drawn, f"{name}.png")
            write(out / f"{name}.png", drawn.getvalue())
