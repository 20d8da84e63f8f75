"""The options that say what is played: every control, the course and the player."""

import os
from argparse import ArgumentParser, Namespace, _ActionsContainer
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from game.commands.common import BadFileError, UsageError
from game.commands.values import CONTROL_UNITS, length, name_of, number, span, whole
from game.text.units import METRIC, UnitSystem
from physics.address import CONTROLS, Intention, Motion, Setup
from physics.course import Course, Ground, level_course
from physics.equipment import BAG, HOLE_RADIUS
from physics.spread import PLAYERS, Spread
from physics.surfaces import SURFACES

if TYPE_CHECKING:  # reading these costs what a command may not need
    from levels.player_file import KnownPlayer
    from levels.scenario import Scenario

__all__ = [
    "Order", "add_order", "add_player", "describe", "option_of", "order_of", "player_of", "scenario_named",
]  # fmt: skip

HOLE = 8.0  # m, hole of the plain course
HOLES = (0.5, 100.0)  # m, as in a scenario file
NEAREST = 3.5  # m, hole well on the plain course's green
SEEDS = 2**32 - 1


@dataclass(frozen=True)
class Order:
    """What is to be played."""

    course: Course
    setup: Setup
    motion: Motion
    spread: Spread
    seed: int


def option_of(name: str) -> str:
    """`--shaft-lean` of `shaft_lean`."""
    return f"--{name.replace('_', '-')}"


def add_order(parser: ArgumentParser, player: str) -> None:
    """Add all options of an Order; `player` is the default without a scenario's own."""
    groups = {
        "setup": parser.add_argument_group("address"),
        "motion": parser.add_argument_group("stroke"),
    }
    groups["setup"].add_argument(
        "--club",
        metavar="NAME",
        type=name_of(BAG),
        help=f"one of {', '.join(BAG)}; default {Setup().club.name}",
    )
    for c in CONTROLS.values():
        shown = f"{c.low * c.scale:.6g} to {c.high * c.scale:.6g} {c.unit}".rstrip()
        usual = Intention().value(c.name) * c.scale
        groups[c.owner].add_argument(
            option_of(c.name), dest=c.name, metavar=CONTROL_UNITS[c.unit],
            type=number(c.low, c.high, c.unit, c.scale),
            help=f"{c.plain} {shown}; default {_usual(c.name, usual)}".replace("%", "%%"),
        )  # fmt: skip
    _add_course(parser)
    _add_player(parser, player)


def _usual(name: str, value: float) -> str:
    """The default of a control as it is told."""
    if name != "depth":
        return f"{value:.4g}"
    depths = (f"{lie} {s.usual_depth * CONTROLS[name].scale:.4g}" for lie, s in SURFACES.items())
    return f"as is usual from the lie ({', '.join(depths)})"


def _add_course(parser: ArgumentParser) -> None:
    plain = Course(Ground((-1.0, 1.0), (0.0, 0.0), ("green",)))
    group = parser.add_argument_group("course", "A level one, unless a scenario is given.")
    group.add_argument(
        "--scenario", metavar="FILE", help="scenario file, or the name of a built-in one; options override it"
    )
    group.add_argument(
        "--surface", metavar="NAME", type=name_of(SURFACES),
        help=f"what the ball lies on: {', '.join(SURFACES)}; default fairway; without --depth the sole is "
        "meant to brush as deep as is usual there",
    )  # fmt: skip
    group.add_argument(
        "--hole", metavar="M", type=length(*HOLES),
        help=f"distance of the hole, {NEAREST:g} to {HOLES[1]:g} m (12, 12m, 13yd or 40ft); default {HOLE:g}",
    )  # fmt: skip
    group.add_argument(
        "--no-flagstick", dest="flagstick", action="store_false", default=None, help="take it out"
    )
    group.add_argument(
        "--green-speed", metavar="M", type=length(1.2, 4.9),
        help=f"Stimpmeter reading, 1.2 to 4.9 m (3.05 or 10ft); default {plain.green_speed:g}",
    )  # fmt: skip
    group.add_argument(
        "--firmness", metavar="NUMBER", type=number(0.5, 1.5),
        help=f"0.5 soft to 1.5 firm; default {plain.firmness:g}",
    )  # fmt: skip
    group.add_argument(
        "--wind", metavar="M/S", type=number(-20.0, 20.0, "m/s"),
        help="at 10 m height, -20 to 20 m/s, + toward the target; default 0",
    )  # fmt: skip


def _add_player(parser: ArgumentParser, player: str) -> None:
    group = parser.add_argument_group("player", "Player presets are illustrative.")
    add_player(group, player)
    group.add_argument(
        "--seed", metavar="NUMBER", type=whole(0, SEEDS), default=0,
        help="same seed, same strokes; a whole number, default 0",
    )  # fmt: skip
    parser.set_defaults(default_player=player)


def add_player(parser: _ActionsContainer, default: str) -> None:
    """The option that says who plays: a preset or a fitted player's file."""
    parser.add_argument(
        "--player", metavar="NAME|FILE", type=_player_word,
        help=f"how far strokes stray: {', '.join(PLAYERS)}, or a fitted player's file; default {default}",
    )  # fmt: skip


def _player_word(text: str) -> str:
    """A preset's name as it is written, or the name of a file."""
    return text if text.lower().endswith(".toml") else name_of(PLAYERS)(text)


def player_of(given: str) -> "KnownPlayer":
    """The player of a preset's name or a file. BadFileError."""
    from levels.player_file import preset, read_player
    from levels.reading import ScenarioError

    if given in PLAYERS:
        return preset(given)
    try:
        return read_player(given).player()
    except ScenarioError as error:
        raise BadFileError(str(error)) from None


def scenario_named(given: str) -> "Scenario":
    """The scenario in a file, or the built-in one of that name. BadFileError."""
    from levels.files import ScenarioError, library, load_library, read_scenario

    try:
        if given in library() and not os.path.exists(given):
            return load_library(given)
        if os.sep in given or given.endswith(".toml") or os.path.exists(given):
            return read_scenario(given)
        return load_library(given)
    except (ScenarioError, ValueError) as error:
        raise BadFileError(str(error)) from None


def order_of(args: Namespace) -> Order:
    """The Order those options give. UsageError or BadFileError."""
    if args.scenario is None:
        if args.hole is not None and args.hole < NEAREST:
            raise UsageError(
                f"--hole must be between {span(NEAREST, HOLES[1], 'm')} on level ground, not {args.hole:g}."
            )
        surface = args.surface or "fairway"
        course = level_course(surface, args.hole or HOLE)
        setup, motion, player = Setup(), Motion(depth=SURFACES[surface].usual_depth), args.default_player
    else:
        scenario = scenario_named(args.scenario)
        course, setup, motion = scenario.course(), scenario.setup(), scenario.motion()
        player = args.default_player if args.default_player == "exact" else _player(scenario.player, args)
        course = _moved(course, args)
        if args.surface is not None:
            motion = replace(motion, depth=SURFACES[args.surface].usual_depth)
    course = replace(course, **{
        name: getattr(args, name)
        for name in ("green_speed", "firmness", "wind") if getattr(args, name) is not None
    })  # fmt: skip
    if args.flagstick is False and course.hole:
        course = replace(course, hole=replace(course.hole, flagstick=False))
    given = {name: getattr(args, name) for name in CONTROLS if getattr(args, name) is not None}
    meant = Intention(setup, motion).with_values(given)
    meant = meant if args.club is None else meant.with_club(args.club)
    return Order(course, meant.setup, meant.motion, player_of(args.player or player).spread, args.seed)


def _player(name: str, args: Namespace) -> str:
    if args.player is None and name not in PLAYERS:
        raise BadFileError(f"{args.scenario}: player '{name}' is unknown; allowed: {', '.join(PLAYERS)}.")
    return name


def _moved(course: Course, args: Namespace) -> Course:
    """The scenario's course with the hole and the lie of the options."""
    if args.surface is not None:
        course = replace(course, lie=replace(course.lie, surface=args.surface))
    if args.hole is None or course.hole is None:
        return course
    g = course.ground
    greens = [(a, b) for a, b, s in zip(g.x[:-1], g.x[1:], g.surfaces, strict=True) if s == "green"]
    if not any(a + HOLE_RADIUS <= args.hole <= b - HOLE_RADIUS for a, b in _merged(greens)):
        places = " or ".join(f"{a:g} to {b:g} m" for a, b in _merged(greens))
        raise UsageError(f"--hole must lie on the scenario's green, {places}, not at {args.hole:g} m.")
    return replace(course, hole=replace(course.hole, x=args.hole))


def _merged(stretches: list[tuple[float, float]]) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    for a, b in stretches:
        if out and out[-1][1] == a:
            out[-1] = out[-1][0], b
        else:
            out.append((a, b))
    return out


def describe(order: Order, units: UnitSystem = METRIC) -> str:
    """`sand wedge 56/10; level, from fairway, hole at 8.0 m; club player`."""
    hole = f", hole at {units.far(order.course.hole.x)}" if order.course.hole else ""
    return f"{order.setup.club.label}; {order.course.name}{hole}; {order.spread.label}"
