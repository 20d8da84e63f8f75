"""`fringework fit`: a player's spread from about ten measured balls."""

from argparse import ArgumentParser, Namespace
from math import isnan
from typing import Any

from game.commands.common import BadFileError, WriteError, can_hold
from game.commands.options import SEEDS
from game.commands.progress import followed, preparing
from game.commands.report import SIDE_VIEW, as_json, print_grid, print_story, say
from game.commands.values import file_ending, length, name_of, number, whole
from physics.course import Course
from physics.putting import PUTTERS

__all__ = ["add_options", "fit_summary", "run"]

HEAD = ("part", "spread", "8 times in 10", "narrowed")


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument(
        "balls", metavar="BALLS.csv",
        help="a line a ball: lie,club,target_m,carry_m,stop_m,felt (solid, fat or thin); carry and felt may "
        "be left empty",
    )  # fmt: skip
    parser.add_argument(
        "--out", metavar="PLAYER.toml", type=file_ending(".toml"),
        help="keep the player in a file, to be given to --player",
    )  # fmt: skip
    parser.add_argument(
        "--name", metavar="WORDS", default="own", help="who it is, up to 40 characters; default own"
    )
    parser.add_argument(
        "--putter", metavar="NAME", type=name_of(PUTTERS),
        help=f"who putts out: {', '.join(PUTTERS)}; without it one who scores 90 is assumed",
    )  # fmt: skip
    parser.add_argument(
        "--green-speed", metavar="M", type=length(1.2, 4.9),
        help="Stimpmeter reading of the green it was on, 1.2 to 4.9 m; without it "
        f"{Course.green_speed:g} is assumed",
    )  # fmt: skip
    parser.add_argument(
        "--firmness", metavar="NUMBER", type=number(0.5, 1.5), default=Course.firmness,
        help="0.5 soft to 1.5 firm; default 1",
    )  # fmt: skip
    parser.add_argument(
        "--seed", metavar="NUMBER", type=whole(0, SEEDS), default=0,
        help="same seed, same answer; a whole number, default 0",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print JSON and nothing else")


def run(args: Namespace) -> int:
    """Fit, keep, tell. Returns the exit code."""
    if args.out:
        can_hold(args.out)
    report, lines = _fitted(args)
    if args.out:
        _keep(args.out, report.player)
    if args.json:
        asked = {"green_speed_m": args.green_speed, "putter": args.putter}
        assumed = [name for name, given in asked.items() if given is None]
        print(as_json({**fit_summary(report, lines), "assumed": assumed}))
        return 0
    _print(report, args)
    return 0


def _fitted(args: Namespace) -> tuple[Any, Any]:
    from levels.ball_log import read_balls
    from levels.fitted import fit_balls
    from levels.player_file import ASSUMED_PUTTER
    from levels.reading import ScenarioError, legible
    from physics.measured_balls import PracticeGround

    try:
        log = read_balls(args.balls)
    except ScenarioError as error:
        raise BadFileError(str(error)) from None
    ground = PracticeGround(args.green_speed or Course.green_speed, args.firmness)
    label = legible(args.name)[:40].strip() or "own"
    try:
        with preparing("cloud"):
            parts = fit_balls(log.balls, ground, label, args.putter or ASSUMED_PUTTER, args.seed)
            next(parts)
            part = next(parts)
        return followed(parts, "Fitting", part).report, log
    except ValueError as error:
        raise BadFileError(f"{legible(args.balls)}: {error}.") from None


def _keep(path: Any, player: Any) -> None:
    from levels.player_file import write_player

    try:
        write_player(path, player)
    except OSError as error:
        raise WriteError(f"'{path}' cannot be written: {error.strerror or error}.") from None


def fit_summary(report: Any, log: Any) -> dict[str, Any]:
    """What the fit says: the player's file, what narrowed, what was told, what five more balls would tell."""
    from physics.bank import PARTS

    return {
        "player": report.player.model_dump(mode="json", exclude_none=True),
        "narrowed": report.narrowed,
        "told": report.told,
        "little": report.little,
        "bound": [{"one": a, "other": b, "correlation": c} for a, b, c in report.bound],
        "draws": report.draws,
        "felt": sum(bool(ball.felt) for ball in log.balls),
        "carries": sum(not isnan(ball.carry) for ball in log.balls),
        "landings_left_out": [
            {
                "lie": one.shot.lie, "club": one.shot.club, "target_m": one.shot.target,
                "landed_share": one.landed, "standard_share": one.meant,
            }
            for one in report.flights
        ],
        "five_more": [
            {
                "lie": test.shot.lie, "club": test.shot.club, "target_m": test.shot.target,
                "together": test.together,
                "narrows": {k: v for k, v in report.would_tell(test).items() if k in PARTS},
            }
            for test in report.more
        ],
        "notes": [SIDE_VIEW],
    }  # fmt: skip


def _print(report: Any, args: Namespace) -> None:
    from game.text.cautions import cautions
    from game.text.fit import assumed_words, fit_lead, habit_words, more_words, spread_rows, told_words

    print_story([fit_lead(report.player), *told_words(report), habit_words(report.player)])
    if assumed := assumed_words(args.green_speed, args.putter):
        print(assumed)
    if more := more_words(report):
        print(more)
    print()
    print_grid(HEAD, spread_rows(report))
    print()
    if args.out:
        say(f"Kept in {args.out}: give it to --player.")
    say("The ranges begin wide, round three illustrative presets: nobody has published spreads for chipping.")
    say(SIDE_VIEW)
    say(cautions())
