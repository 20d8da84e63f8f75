"""`fringework cloud`: many strokes of one player, counted."""

from argparse import ArgumentParser, Namespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from game.commands.options import Order, add_order, describe, order_of
from game.commands.progress import preparing
from game.commands.report import PRESETS, SIDE_VIEW, as_json, print_grid, print_story, say
from game.commands.shot import add_units
from game.commands.values import whole
from game.text.quantity import percent
from game.text.units import UNIT_SYSTEMS, UnitSystem

__all__ = ["add_options", "clouded", "ends", "kinds", "quantiles", "run", "summary"]

COUNTS = (1, 100_000)
COUNT = 500
PERCENTILES = (10, 25, 50, 75, 90)


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    add_order(parser, player="club")
    add_units(parser)
    parser.add_argument(
        "--count", metavar="NUMBER", type=whole(*COUNTS), default=COUNT,
        help=f"strokes to play, {COUNTS[0]} to {COUNTS[1]}; default {COUNT}",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print JSON (m, shares) and nothing else")


def clouded(order: Order, count: int) -> Any:
    """The cloud of an order."""
    with preparing("cloud"):
        from physics.cloud import cloud

        return cloud(order.course, order.setup, order.motion, order.spread, order.seed, count)


def kinds(cloud: Any) -> dict[str, float]:
    """Share of each kind of strike, in all 1."""
    from physics.shot import KINDS

    return {contact.value: float((cloud.kind == code).mean()) for code, contact in KINDS.items()}


def ends(cloud: Any) -> dict[str, float]:
    """Share holed, and share that cost a penalty (water, out of bounds, lost)."""
    from physics.run import HOLED, LOST, OUT, WATER

    lost = np.isin(cloud.code, (WATER, OUT, LOST))
    return {"holed": float((cloud.code == HOLED).mean()), "penalty": float(lost.mean())}


def quantiles(values: NDArray[np.float64]) -> list[float]:
    """PERCENTILES of the values that are numbers; nan where there is none."""
    real = values[~np.isnan(values)]
    return [float(np.percentile(real, p)) if len(real) else float("nan") for p in PERCENTILES]


def summary(order: Order, cloud: Any) -> dict[str, Any]:
    """What the cloud says, in m and shares."""
    named = {"carry": cloud.carry, "rest": cloud.rest, "leave": cloud.leave}
    return {
        "player": order.spread.name,
        "seed": order.seed,
        "count": len(cloud.met),
        "strikes": kinds(cloud),
        "solid": cloud.solid_share,
        "as_set": cloud.as_set_share,
        **ends(cloud),
        "percentiles": {
            f"{name}_m": {str(p): v for p, v in zip(PERCENTILES, quantiles(values), strict=True)}
            for name, values in named.items()
        },
        "mean_strokes": cloud.mean_strokes,
        "notes": [PRESETS, SIDE_VIEW],
    }


def run(args: Namespace) -> int:
    """Play and count. Returns the exit code."""
    order = order_of(args)
    found = summary(order, clouded(order, args.count))
    if args.json:
        print(as_json(found))
        return 0
    _print(order, found, UNIT_SYSTEMS[args.units])
    return 0


def _print(order: Order, found: dict[str, Any], units: UnitSystem) -> None:
    solid, as_set = percent(found["solid"]), percent(found["as_set"])
    lead = f"{solid} of {found['count']} strokes are solid, {as_set} do as the set-up promised"
    print_story([f"{lead}; {found['mean_strokes']:.2f} strokes to hole out from here."])
    say(describe(order, units))
    print()
    shares = {**found["strikes"], "holed": found["holed"], "penalty": found["penalty"]}
    print_grid(list(shares), [[percent(share) for share in shares.values()]])
    print()
    shown = {"carry_m": units.far, "rest_m": units.far, "leave_m": units.near}
    rows = [
        [name.removesuffix("_m"), *(shown[name](v) for v in values.values())]
        for name, values in found["percentiles"].items()
    ]
    print_grid(["percentile", *(str(p) for p in PERCENTILES)], rows)
    print()
    say(PRESETS)
    say(SIDE_VIEW)
