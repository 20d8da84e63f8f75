"""The options that say which two strokes stand side by side: one in full, and what the other changes."""

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from dataclasses import dataclass

from game.commands.common import UsageError, no_such
from game.commands.options import Order, add_order, order_of
from game.commands.values import name_of, number
from levels.lessons import lesson_strokes, same_mistake
from physics.address import CONTROLS, Intention, Motion, Setup
from physics.equipment import BAG
from physics.results import Shot

__all__ = ["TwoStrokes", "add_pair", "pair_of", "pair_shots"]

Change = tuple[str, str | float]


@dataclass(frozen=True)
class TwoStrokes:
    """Course and player, and two strokes."""

    order: Order
    first: tuple[Setup, Motion]
    second: tuple[Setup, Motion]


def _change(text: str) -> Change:
    """Type of CONTROL=VALUE, in the control's unit, or club=NAME."""
    name, _, value = text.partition("=")
    key = name.strip().lstrip("-").replace("-", "_").lower()
    names = ["club", *(c.replace("_", "-") for c in CONTROLS)]
    if key != "club" and key not in CONTROLS:
        raise UsageError(no_such("control", name, names))
    if not value:
        raise UsageError(f"--tried must be written {name}=VALUE, not '{text}'.")
    try:
        if key == "club":
            return key, name_of(BAG)(value)
        c = CONTROLS[key]
        return key, number(c.low, c.high, c.unit, c.scale)(value)
    except ArgumentTypeError as error:
        raise UsageError(f"--tried {name} {error}.") from None


def add_pair(parser: ArgumentParser) -> None:
    """The options of an Order for the first stroke, and of what the second has otherwise."""
    parser.add_argument(
        "--tried", metavar="CONTROL=VALUE", type=_change, action="append", default=[],
        help="what the second stroke has otherwise, in the control's unit: lean-change=6 or club=LW; may "
        "be given several times. Without it: the handle nine degrees further forward",
    )  # fmt: skip
    add_order(parser, player="club")


def pair_of(args: Namespace) -> TwoStrokes:
    """The two strokes of those options. UsageError or BadFileError."""
    order = order_of(args)
    if order.spread.up <= 0.0:
        raise UsageError(
            "A small mistake needs a player whose strokes differ: --player steady, club or beginner."
        )
    if not args.tried:
        a, b = lesson_strokes("lean", order.setup, order.motion)
        return TwoStrokes(order, a[1:], b[1:])
    meant = Intention(order.setup, order.motion)
    tried = meant.with_values({name: value for name, value in args.tried if name != "club"})
    for name, value in args.tried:
        if name == "club":
            tried = tried.with_club(value)
    return TwoStrokes(order, (meant.setup, meant.motion), (tried.setup, tried.motion))


def pair_shots(pair: TwoStrokes) -> tuple[Shot, Shot]:
    """Both strokes with the same small mistake, the sole arriving as low as the first one stands."""
    order = pair.order
    return same_mistake(order.course, pair.first, pair.second, order.spread, order.seed)
