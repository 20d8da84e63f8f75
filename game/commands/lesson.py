"""`fringework lesson`: one small mistake in strokes that differ in one thing, counted, told and drawn."""

from argparse import ArgumentParser, Namespace
from io import BytesIO
from math import degrees
from string import ascii_uppercase
from typing import Any

from game.commands.common import UsageError, can_hold, no_such, write
from game.commands.options import Order, add_order, describe, order_of
from game.commands.progress import counted, preparing
from game.commands.report import PRESETS, SIDE_VIEW, as_json, print_grid, print_story, say
from game.commands.shot import add_units
from game.commands.values import file_ending, picture_size
from game.text.units import UNIT_SYSTEMS
from levels.lessons import LESSONS, LIES, LessonCase, PlayedLesson, Share, lesson_in_parts

__all__ = ["add_options", "lesson_png", "lesson_summary", "made_lesson", "run"]

SIZE = (1600, 900)


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument(
        "lesson", metavar="LESSON",
        help="lean (why excess lean digs), release (the head past the hands too early) or bounce (4 against "
        "14 degrees of it)",
    )  # fmt: skip
    add_order(parser, player="club")
    add_units(parser)
    parser.add_argument("--junior", action="store_true", help="tell it in a few short words")
    parser.add_argument(
        "--json", action="store_true", help="print JSON (units stand in its keys) and nothing else"
    )
    parser.add_argument(
        "--picture", metavar="OUT.png", type=file_ending(".png"), help="draw the lesson to a file"
    )
    parser.add_argument("--dark", action="store_true", help="draw it dark")
    parser.add_argument(
        "--size", metavar="WxH", type=picture_size, default=SIZE,
        help=f"size of the picture in px, 640x400 to 3840x2400; default {SIZE[0]}x{SIZE[1]}",
    )  # fmt: skip


def run(args: Namespace) -> int:
    """Compute, draw, tell. Returns the exit code."""
    if args.lesson not in LESSONS:
        raise UsageError(no_such("lesson", args.lesson, LESSONS))
    order = order_of(args)
    if args.picture:
        can_hold(args.picture)
    made = made_lesson(args.lesson, order)
    if args.picture:
        write(args.picture, lesson_png(made, args.size, args.dark))
    if args.json:
        print(as_json(lesson_summary(made)))
        return 0
    _print(made, order, args)
    return 0


def made_lesson(name: str, order: Order) -> PlayedLesson:
    """The whole lesson of an order. UsageError for a player who never strays."""
    if order.spread.up <= 0.0:
        raise UsageError("A lesson needs a player whose strokes differ: --player steady, club or beginner.")
    with preparing("cloud"):
        parts = lesson_in_parts(name, order.course, order.setup, order.motion, order.spread, order.seed)
        *_, made = counted(parts, len(LIES) + 2, "Lies")
    return made


def lesson_png(made: PlayedLesson, size: tuple[int, int] = SIZE, dark: bool = False) -> bytes:
    """The picture of a lesson as PNG bytes."""
    import pygame

    from game.draw.lesson import draw_lesson

    out = BytesIO()
    pygame.image.save(draw_lesson(made, size, dark), out, "lesson.png")
    return out.getvalue()


# ---- as JSON


def lesson_summary(made: PlayedLesson) -> dict[str, Any]:
    """What the lesson says, with units in the keys."""
    hole = made.course.hole
    return {
        "lesson": made.name,
        "lie": made.lie,
        "hole_m": hole.x if hole else None,
        "player": made.spread.name,
        "seed": made.seed,
        "strokes": made.strokes,
        "measured_by": "as_set" if made.by_promise else "solid",
        "mistake_low_mm": 1e3 * made.low,
        "mistake_forgiven_by_first_case": made.forgiven,
        "cases": [_case(case) for case in made.cases],
        "lies": [
            {
                "lie": row.lie,
                "cases": [
                    {"name": case.name, **_shares(solid, as_set)}
                    for case, solid, as_set in zip(made.cases, row.solid, row.as_set, strict=True)
                ],
                "fewer_of_100": 100.0 * row.fall,
                "fewer_standard_error_of_100": 100.0 * row.error,
            }
            for row in made.table
        ],
        "worst_lie": made.worst.lie if made.worst else None,
        "least_lie": made.hidden.lie if made.hidden else None,
        "better_lies": [row.lie for row in made.turned],
        "notes": [PRESETS, SIDE_VIEW],
    }


def _case(case: LessonCase) -> dict[str, Any]:
    strike, run = case.shot.strike, case.shot.run
    assert case.solid is not None
    assert case.as_set is not None
    return {
        "name": case.name,
        "club": case.setup.club.label,
        "ball_position_cm": 100.0 * case.setup.ball_position,
        "lean_at_address_deg": degrees(case.setup.shaft_lean),
        "lean_change_deg": degrees(case.motion.lean_change),
        "release": case.motion.release,
        "contact": strike.contact.value,
        "turf": strike.turf.value,
        "lean_at_impact_deg": degrees(strike.lean),
        "loft_at_impact_deg": degrees(strike.loft),
        "bounce_at_impact_deg": degrees(strike.bounce),
        "depth_mm": 1e3 * strike.depth,
        "head_speed_kept_percent": 100.0 * (1.0 - strike.head_loss),
        "ball_speed_m_per_s": case.shot.launch.speed if case.shot.launch else None,
        "distance_kept_percent": 100.0 * case.kept,
        "rest_m": run.rest,
        "outcome": run.outcome.value,
        **_shares(case.solid, case.as_set),
    }


def _shares(solid: Share, as_set: Share) -> dict[str, float]:
    return {
        "solid_of_100": 100.0 * solid.value,
        "solid_standard_error_of_100": 100.0 * solid.error,
        "as_set_of_100": 100.0 * as_set.value,
        "as_set_standard_error_of_100": 100.0 * as_set.error,
    }


# ---- as text


def _print(made: PlayedLesson, order: Order, args: Namespace) -> None:
    from game.text.lesson import TITLES, case_name, lesson_told

    numbers = not args.junior
    print_story([f"{TITLES[made.name]}.", *lesson_told(made, UNIT_SYSTEMS[args.units], numbers)])
    say(describe(order, UNIT_SYSTEMS[args.units]))
    print()
    letters = ascii_uppercase[: len(made.cases)]
    for letter, case in zip(letters, made.cases, strict=True):
        say(f"{letter}: {case_name(made, case, numbers)}")
    head = ["of 100", *(f"{letter} {what}" for letter in letters for what in ("solid", "as set"))]
    rows = []
    for row in made.table:
        shares = (s for pair in zip(row.solid, row.as_set, strict=True) for s in pair)
        rows.append([row.lie, *(str(share.of_100) for share in shares)])
    print_grid(head, rows)
    print()
    error = max(100.0 * s.error for row in made.table for s in (*row.solid, *row.as_set))
    say(f"{made.strokes} strokes a figure, the same strays in each case; standard error up to {error:.1f}.")
    say(PRESETS)
    say(SIDE_VIEW)
