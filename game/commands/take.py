"""`fringework take`: a scenario or pack from somebody else, checked whole and put into the library."""

import argparse
import sys

from game.commands.pack import RefusedError
from game.commands.report import say

__all__ = ["add_options", "run"]


def add_options(parser: argparse.ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument("file", metavar="FILE", help="scenario or pack; it stays where it is")
    parser.add_argument(
        "--data-dir", metavar="FOLDER", default=argparse.SUPPRESS,
        help="where your library is kept; by default with your settings",
    )  # fmt: skip


def run(args: argparse.Namespace) -> int:
    """Take it in. Returns the exit code."""
    from game.library.home import data_home
    from game.library.shelf import Shelf

    shelf = Shelf(data_home(args.data_dir))
    taken = shelf.take(args.file)
    if taken.problems and not taken.kept:
        raise RefusedError(taken.sentence)
    say(taken.sentence)
    for path in taken.added:
        print(path)
    for problem in taken.problems[1:]:
        print(problem, file=sys.stderr)
    return 0
