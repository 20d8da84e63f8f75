"""The command line: which command, which exit code, and every refusal in one sentence."""

import argparse
import io
import re
import sys
from collections.abc import Sequence
from importlib import import_module
from importlib.metadata import PackageNotFoundError, version
from typing import NoReturn

from game import startup
from game.commands.common import CommandError, UsageError, let_go, no_such
from game.library.home import data_home
from game.library.log import LOG_FILE
from game.text.narrow import STAND_IN_ERRORS

__all__ = ["COMMANDS", "EXIT_CODES", "main"]

COMMANDS = {
    "shot": "play one shot and say why it came off",
    "sweep": "vary one or two controls and see what they do",
    "cloud": "play many strokes of one player and count",
    "fit": "find a player's spread from about ten measured balls",
    "choose": "say which shots to choose from in a scenario, and what each is worth to a player",
    "season": "map which shots to seek from a grid of lies and distances",
    "new": "write a scenario or pack to begin from",
    "check": "check scenarios and prove what they ask",
    "pack": "put scenarios and a practice plan into one file to share",
    "take": "import a scenario or pack from somebody else into your library",
    "lesson": "make one small mistake in strokes that differ in one thing, and count",
    "recap": "put two strokes on one printed page to take home",
    "clip": "film two strokes side by side, slow at the strike, to take home",
    "log": "print the attempts in your notebook",
    "review": "read a pupil's answer to an assignment",
    "demo": "draw a lesson and three shots",
}
WORDS = {  # what a command takes besides options
    "sweep": "CONTROL [CONTROL] ", "new": "FILE.toml ", "check": "FILE [FILE ...] ",
    "pack": "OUT.pack.toml FILE [FILE ...] ", "take": "FILE ", "lesson": "LESSON ",
    "review": "FILE ",
    "fit": "BALLS.csv ", "choose": "SCENARIO ",
}  # fmt: skip
EXIT_CODES = {
    0: "done",
    1: "a checked, packed or taken file has problems, or the installation cannot work",
    2: "an option or value is wrong, or there is no display for the window",
    3: "a file cannot be used",
    4: "a result cannot be written",
    130: "stopped by Ctrl-C",
}
NEGATIVE = re.compile(r"-(\d|\.\d|inf|nan)", re.IGNORECASE)


class Parser(argparse.ArgumentParser):
    """argparse whose refusals are one sentence."""

    def error(self, message: str) -> NoReturn:
        """Raise UsageError with argparse's message as a sentence."""
        raise UsageError(_sentence(message))

    @property
    def options(self) -> list[str]:
        """Every option it knows."""
        return list(self._option_string_actions)


# argparse tells its refusals only as English sentences, there is no value behind them to read
_SENTENCES = (
    (r"argument (\S+): (must .*)", r"\1 \2"),
    (r"argument ([^:]+): expected .*", r"\1 needs a value"),
    (r"argument ([^:]+): ignored explicit argument .*", r"\1 takes no value"),
    (r"argument ([^:]+): not allowed with argument (.*)", r"\1 cannot stand beside \2"),
    (r"the following arguments are required: (.*)", r"\1 is missing"),
)


def _sentence(message: str) -> str:
    for pattern, told in _SENTENCES:
        if re.fullmatch(pattern, message, re.DOTALL):
            return re.sub(pattern, told, message, flags=re.DOTALL).rstrip(".") + "."
    return message[:1].upper() + message[1:].rstrip(".") + "."


def _parser(chosen: str | None) -> tuple[Parser, list[str]]:
    """The parser and the options it knows. Only the chosen command's: those of the others cost an import."""
    codes = ", ".join(f"{code} {meaning}" for code, meaning in EXIT_CODES.items())
    epilog = f"Exit codes: {codes}. The window writes what goes wrong in it to {data_home() / LOG_FILE}."
    top = Parser(
        prog="fringework", allow_abbrev=False, epilog=epilog,
        description="A bench for golf's short game: see, predict, rehearse and record why a chip comes off. "
        "Without a command the window opens.",
    )  # fmt: skip
    top.add_argument("--version", action="store_true", help="print the version and leave")
    top.add_argument("--data-dir", metavar="FOLDER", help="where the window keeps your settings and progress")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", title="commands", parser_class=Parser)
    options = top.options
    for name, plain in COMMANDS.items():
        sub = commands.add_parser(
            name, help=plain, description=f"{plain.capitalize()}.", epilog=epilog, allow_abbrev=False,
            usage=f"fringework {name} {WORDS.get(name, '')}[options]",
        )  # fmt: skip
        if name == chosen:
            module = import_module(f"game.commands.{name}")
            module.add_options(sub)
            sub.set_defaults(run=module.run)
            options = sub.options
    return top, options


def _joined(argv: Sequence[str]) -> list[str]:
    """`--wind -1e1` as `--wind=-1e1`: argparse takes some negative numbers for options."""
    out: list[str] = []
    for word in argv:
        if out and out[-1].startswith("--") and "=" not in out[-1] and NEGATIVE.match(word):
            out[-1] = f"{out[-1]}={word}"
        else:
            out.append(word)
    return out


def _version() -> str:
    try:
        return version("fringework")
    except PackageNotFoundError:
        return "from source"


def _run(argv: Sequence[str]) -> int:
    words = [word for i, word in enumerate(argv) if argv[i - 1 : i] != ["--data-dir"]]
    chosen = next((word for word in words if not word.startswith("-")), None)
    if chosen is not None and chosen not in COMMANDS:
        raise UsageError(no_such("command", chosen, list(COMMANDS)))
    parser, options = _parser(chosen)
    args, unknown = parser.parse_known_args(_joined(argv))
    for word in unknown:
        name = word.split("=")[0]
        raise UsageError(
            no_such("option", name, options) if name[:1] == "-" else f"'{word}' is one word too many."
        )
    if args.version:
        print(f"fringework {_version()}")
        return 0
    if args.command is None:
        return _window(args)
    code: int = args.run(args)
    return code


def _window(args: argparse.Namespace) -> int:
    from game.app.start import run

    return run(args)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command line (without the program's name; None: this process's own). Returns the exit code."""
    try:
        for stream in (sys.stdout, sys.stderr):  # a narrow terminal must not cost the result or its signs
            if isinstance(stream, io.TextIOWrapper):
                stream.reconfigure(errors=STAND_IN_ERRORS)
        startup.prepare()
        code = _run(sys.argv[1:] if argv is None else argv)
        sys.stdout.flush()
        return code
    except SystemExit as leave:  # argparse after --help
        return int(leave.code or 0)
    except startup.StartupError as error:
        print(error, file=sys.stderr)
        return 1
    except CommandError as error:
        print(error, file=sys.stderr)
        return error.code
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:  # the reader has seen enough
        let_go(sys.stdout)
        return 4
    except OSError as error:
        let_go(sys.stdout)
        print(f"The output cannot be written: {error.strerror or error}.", file=sys.stderr)
        return 4
