"""`fringework shot`: one shot, why it came off, its numbers, its picture."""

from argparse import ArgumentParser, Namespace

from game.commands.common import can_hold, write
from game.commands.options import Order, add_order, order_of
from game.commands.progress import preparing
from game.commands.report import PRESETS, SIDE_VIEW, print_story, print_table, report_sections, say
from game.commands.values import file_ending, name_of, picture_size
from game.text.units import METRIC, UNIT_SYSTEMS, UnitSystem
from physics.results import Shot
from physics.spread import EXACT

__all__ = ["add_options", "add_units", "picture", "played", "run"]

SIZE = (1600, 1000)


def add_units(parser: ArgumentParser) -> None:
    """The option that chooses the units of a report."""
    parser.add_argument(
        "--units", metavar="m|yd", type=name_of(UNIT_SYSTEMS), default="m",
        help="units of the report; default m. Plain numbers given to options are always metres",
    )  # fmt: skip


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    add_order(parser, player="exact")
    add_units(parser)
    parser.add_argument("--junior", action="store_true", help="tell it in a few short words")
    parser.add_argument("--json", action="store_true", help="print the whole shot as JSON and nothing else")
    parser.add_argument(
        "--picture", metavar="OUT.png", type=file_ending(".png"), help="draw the shot to a file"
    )
    parser.add_argument("--dark", action="store_true", help="draw it dark")
    parser.add_argument(
        "--size", metavar="WxH", type=picture_size, default=SIZE,
        help=f"size of the picture in px, 640x400 to 3840x2400; default {SIZE[0]}x{SIZE[1]}",
    )  # fmt: skip


def run(args: Namespace) -> int:
    """Play, tell, draw. Returns the exit code."""
    order = order_of(args)
    if args.picture:
        can_hold(args.picture)
    shot, sentences = played(order, UNIT_SYSTEMS[args.units], args.junior)
    if args.picture:
        write(args.picture, picture(shot, sentences, args.size, args.dark))
    if args.json:
        from levels.shotfile import shot_to_json

        print(shot_to_json(shot))
        return 0
    print_story(sentences)
    print_table(report_sections(shot, UNIT_SYSTEMS[args.units]))
    print()
    if order.spread != EXACT:
        say(PRESETS)
    say(SIDE_VIEW)
    return 0


def played(order: Order, units: UnitSystem = METRIC, junior: bool = False) -> tuple[Shot, tuple[str, ...]]:
    """The shot of an order, and why it came off."""
    with preparing("shot"):
        from game.text.story import explain
        from physics.shot import play

        shot = play(order.course, order.setup, order.motion, order.spread, order.seed)
        return shot, explain(shot, yards=units.name == "yd", junior=junior)


def picture(
    shot: Shot, sentences: tuple[str, ...], size: tuple[int, int] = SIZE, dark: bool = False
) -> bytes:
    """The page of a shot as PNG bytes."""
    from io import BytesIO

    import pygame

    from game.draw.picture import draw_shot

    out = BytesIO()
    pygame.image.save(draw_shot(shot, sentences, size, dark), out, "shot.png")
    return out.getvalue()
