"""`fringework new`: a small scenario or pack to begin from, every key of it explained."""

from argparse import ArgumentParser, Namespace
from datetime import date

from game.commands.common import UsageError, write
from game.commands.report import say
from game.commands.values import file_ending

__all__ = ["add_options", "run"]


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument("file", metavar="FILE.toml", type=file_ending(".toml"), help="the file to write")
    parser.add_argument(
        "--pack", action="store_true", help="a pack with one scenario and a practice plan instead"
    )
    parser.add_argument("--replace", action="store_true", help="write over a file that is there")


def run(args: Namespace) -> int:
    """Write the file. Returns the exit code."""
    from levels.guide import new_pack_text, new_scenario_text
    from levels.reading import file_name

    if args.file.exists() and not args.replace:
        raise UsageError(f"'{args.file}' is there already; give another name, or --replace to write over it.")
    name = file_name(args.file)
    text = new_pack_text(name, date.today()) if args.pack else new_scenario_text(name)
    write(args.file, text.encode())
    what = "a pack" if args.pack else "a scenario"
    say(f"{args.file}: {what} to begin from. When it is changed: fringework check {args.file}")
    return 0
