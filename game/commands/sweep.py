"""`fringework sweep`: one or two controls over their range, each setting played as a cloud or exactly."""

import csv
import io
import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Iterator
from dataclasses import replace
from importlib.util import find_spec
from itertools import product
from typing import Any

import numpy as np

from game.commands.cloud import clouded
from game.commands.common import UsageError, can_hold, no_such, write
from game.commands.options import Order, add_order, describe, order_of
from game.commands.progress import counted, preparing
from game.commands.report import PRESETS, SIDE_VIEW, as_json, leave_of, print_grid, say
from game.commands.shot import add_units
from game.commands.swept import USUAL_STEPS, Axis, SweepPoint
from game.commands.values import file_ending, number, whole
from game.text.quantity import percent, significant
from game.text.units import UNIT_SYSTEMS, UnitSystem
from physics.address import CONTROLS, Intention
from physics.spread import EXACT

__all__ = ["add_options", "axis", "points", "run"]

MOST = 201
COUNT = 200


def axis(text: str) -> Axis:
    """Type of CONTROL[=LOW:HIGH[:N]], low and high in the control's unit."""
    name, _, limits = text.partition("=")
    control = CONTROLS.get(name.strip().lstrip("-").replace("-", "_").lower())
    if control is None:
        raise UsageError(no_such("control", name, [c.replace("_", "-") for c in CONTROLS]))
    if not limits and "=" not in text:
        return Axis(control, control.low, control.high, None)
    parts = limits.split(":")
    if len(parts) not in (2, 3):
        raise UsageError(f"{name} must be written {name}=LOW:HIGH or {name}=LOW:HIGH:N, not '{text}'.")
    value = number(control.low, control.high, control.unit, control.scale)
    try:
        low, high = value(parts[0]), value(parts[1])
        steps = whole(2, MOST)(parts[2]) if len(parts) == 3 else None
    except ArgumentTypeError as error:
        what = "The number of steps of " if str(error).startswith("must be a whole") else ""
        raise UsageError(f"{what}{name} {error}.") from None
    if low >= high:
        raise UsageError(f"{name} must go from a lower to a higher value, not from {parts[0]} to {parts[1]}.")
    return Axis(control, low, high, steps)


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument(
        "controls", metavar="CONTROL[=LOW:HIGH[:N]]", type=axis, nargs="+",
        help=f"one or two of {', '.join(c.replace('_', '-') for c in CONTROLS)}; without limits the whole "
        f"range; N settings, 2 to {MOST}, "
        f"default {USUAL_STEPS[1]} of one control and {USUAL_STEPS[2]} of each of two",
    )  # fmt: skip
    add_order(parser, player="club")
    add_units(parser)
    parser.add_argument(
        "--count", metavar="NUMBER", type=whole(1, 10_000), default=COUNT,
        help=f"strokes a setting, 1 to 10000; default {COUNT}",
    )  # fmt: skip
    parser.add_argument("--exact", action="store_true", help="one stroke a setting, without any spread")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print JSON (m, shares) and nothing else")
    form.add_argument("--csv", action="store_true", help="print CSV (m, shares) and nothing else")
    parser.add_argument(
        "--plot", metavar="OUT.png", type=file_ending(".png"), help="draw the sweep to a file"
    )
    parser.add_argument("--dark", action="store_true", help="draw it dark")


def points(order: Order, axes: tuple[Axis, ...], count: int, exact: bool) -> Iterator[SweepPoint]:
    """One SweepPoint a setting, the last control changing fastest; every setting meets the same strays."""
    names = [a.control.name for a in axes]
    for settings in product(*(a.settings(len(axes)) for a in axes)):
        meant = Intention(order.setup, order.motion).with_values(dict(zip(names, settings, strict=True)))
        shown = tuple(v * a.control.scale for v, a in zip(settings, axes, strict=True))
        here = replace(order, setup=meant.setup, motion=meant.motion)
        yield _exact(here, shown) if exact else _spread(here, shown, count)


def _exact(order: Order, shown: tuple[float, ...]) -> SweepPoint:
    with preparing("shot"):
        from physics.shot import play

        shot = play(order.course, order.setup, order.motion, EXACT, order.seed)
    nan = float("nan")
    carry, rest = (nan, nan) if shot.launch is None else (shot.run.carry, shot.run.rest)
    solid = float(shot.strike.solid)
    ends = shot.strike.contact.value, shot.run.outcome.value
    return SweepPoint(shown, carry, rest, rest, rest, solid, leave_of(shot), nan, *ends)


def _spread(order: Order, shown: tuple[float, ...], count: int) -> SweepPoint:
    cloud = clouded(order, count)
    met = cloud.met > 0
    nan = float("nan")
    low, middle, high = np.percentile(cloud.rest[met], (10, 50, 90)).tolist() if met.any() else (nan,) * 3
    carry = float(np.median(cloud.carry[met])) if met.any() else nan
    leave = float(np.mean(cloud.leave))
    return SweepPoint(shown, carry, middle, low, high, cloud.solid_share, leave, cloud.mean_strokes)


def run(args: Namespace) -> int:
    """Play every setting, print, draw. Returns the exit code."""
    axes: tuple[Axis, ...] = tuple(args.controls)
    _check(axes)
    order = order_of(args)
    if args.exact:
        order = replace(order, spread=EXACT)
    if args.plot:
        can_hold(args.plot)
        if find_spec("matplotlib") is None:
            raise UsageError("--plot needs the extra 'plot': install fringework[plot].")
    total = int(np.prod([len(a.settings(len(axes))) for a in axes]))
    found = list(counted(points(order, axes, args.count, args.exact), total, "Settings"))
    if args.plot:
        from game.commands.plot import drawn

        write(args.plot, drawn(order, axes, found, UNIT_SYSTEMS[args.units], args.dark))
    if args.json:
        print(as_json([_row(axes, p) for p in found]))
    elif args.csv:
        sys.stdout.write(_csv(axes, found))
    else:
        _print(order, axes, found, UNIT_SYSTEMS[args.units])
    return 0


def _check(axes: tuple[Axis, ...]) -> None:
    if len(axes) > 2:
        raise UsageError(f"A sweep takes one or two controls, not {len(axes)}.")
    if len({a.control.name for a in axes}) < len(axes):
        raise UsageError(
            f"{axes[0].control.label.capitalize()} is named twice: a sweep takes two different controls."
        )


def _row(axes: tuple[Axis, ...], point: SweepPoint) -> dict[str, Any]:
    units = {"%": "_percent", "": ""}
    keys = [a.control.name + units.get(a.control.unit, f"_{a.control.unit}") for a in axes]
    row: dict[str, Any] = {k: round(v, 9) for k, v in zip(keys, point.settings, strict=True)}
    row |= {"carry_m": point.carry, "rest_m": point.rest}
    if point.contact:
        told = {"contact": point.contact, "outcome": point.outcome, "solid": point.solid}
        return row | told | {"leave_m": point.leave}
    ends = {"rest_10_percent_m": point.rest_low, "rest_90_percent_m": point.rest_high}
    return row | ends | {"solid": point.solid, "leave_m": point.leave, "strokes": point.strokes}


def _csv(axes: tuple[Axis, ...], found: list[SweepPoint]) -> str:
    rows = [{k: "" if v != v else v for k, v in _row(axes, p).items()} for p in found]
    out = io.StringIO()
    writer = csv.DictWriter(out, list(rows[0]), lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def _print(order: Order, axes: tuple[Axis, ...], found: list[SweepPoint], units: UnitSystem) -> None:
    say(describe(order, units))
    print()
    head = [f"{a.control.label} {a.control.unit}".rstrip() for a in axes]
    exact = bool(found[0].contact)
    head += (
        ["carry", "stops", "contact", "outcome", "leave"]
        if exact
        else ["carry", "stops", "10 to 90 %", "solid", "strokes"]
    )
    rows = []
    for p in found:
        row = [*(significant(v, 4) for v in p.settings), units.far(p.carry), units.far(p.rest)]
        if exact:
            row += [p.contact, p.outcome, units.near(p.leave)]
        else:
            ends = f"{units.far(p.rest_low)} to {units.far(p.rest_high)}"
            row += [ends, percent(p.solid), f"{p.strokes:.2f}"]
        rows.append(row)
    print_grid(head, rows)
    print()
    if not exact:
        say(PRESETS)
    say(SIDE_VIEW)
