"""`fringework clip`: two strokes with the same small mistake side by side as a short film to take home."""

from argparse import ArgumentParser, Namespace
from datetime import date
from pathlib import Path

from game.commands.common import UsageError, WriteError
from game.commands.options import describe
from game.commands.pair import add_pair, pair_of, pair_shots
from game.commands.progress import preparing, shares_done
from game.commands.report import PRESETS, SIDE_VIEW, print_story, say
from game.commands.shot import add_units
from game.text.recap import recap_cause
from game.text.units import UNIT_SYSTEMS

__all__ = ["add_options", "run"]

NAME = Path("fringework-clip.gif")


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    add_pair(parser)
    add_units(parser)
    group = parser.add_argument_group("clip")
    group.add_argument(
        "--out", metavar="FILE", type=Path, default=NAME,
        help=f'.gif, or .mp4 with the extra "video" (pip install "fringework[video]"); default {NAME}',
    )  # fmt: skip
    group.add_argument("--junior", action="store_true", help="captions of few short words")


def run(args: Namespace) -> int:
    """Play, draw, pack, tell. Returns the exit code."""
    from game.handout import HandoutError, can_write_clip, clip_in_parts, recap_of

    if args.out.suffix.lower() not in (".gif", ".mp4"):
        raise UsageError(f"--out must end in .gif or .mp4, not '{args.out}'.")
    pair = pair_of(args)
    try:
        can_write_clip(args.out)
        with preparing("shot"):
            a, b = pair_shots(pair)
        recap = recap_of(a, b, None, date.today(), junior=args.junior, units=UNIT_SYSTEMS[args.units])
        shares_done(clip_in_parts(recap, args.out), "Clip")
    except HandoutError as error:
        raise WriteError(str(error)) from None
    print_story([recap_cause(recap)])
    say(describe(pair.order, UNIT_SYSTEMS[args.units]))
    say(str(args.out))
    say(PRESETS)
    say(SIDE_VIEW)
    return 0
