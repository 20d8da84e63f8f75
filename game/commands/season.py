"""`fringework season`: which shots to seek from a grid of lies and distances, for one player."""

import sys
from argparse import ArgumentParser, Namespace
from datetime import date
from typing import Any

from game.commands.common import UsageError, can_hold, write
from game.commands.options import SEEDS, add_player, player_of
from game.commands.progress import followed, preparing
from game.commands.report import PRESETS, as_json, print_story, say
from game.commands.shot import add_units
from game.commands.values import file_ending, whole
from game.library.home import data_home
from game.text.units import UNIT_SYSTEMS

__all__ = ["add_options", "made_season", "run", "season_png"]

STOPPED = 130


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    add_player(parser, "club")
    parser.add_argument(
        "--out", metavar="MAP", type=file_ending(".png", ".pdf"),
        help="draw the map to a file: .png a picture, .pdf a page with words that can be selected",
    )  # fmt: skip
    parser.add_argument("--dark", action="store_true", help="draw it dark")
    parser.add_argument(
        "--again", action="store_true", help="make it anew, though one of this player is kept already"
    )
    parser.add_argument(
        "--seed", metavar="NUMBER", type=whole(0, SEEDS // 1000), default=0,
        help="same seed, same map; a whole number, default 0",
    )  # fmt: skip
    add_units(parser)
    parser.add_argument("--json", action="store_true", help="print JSON (m, shares) and nothing else")


def run(args: Namespace) -> int:
    """Make or find the map, draw it, tell it. Returns the exit code."""
    if args.out:
        can_hold(args.out)
    player = player_of(args.player or "club")
    try:
        made = made_season(player, args.seed, args.again)
    except KeyboardInterrupt:
        print("Stopped: what was not finished is not kept.", file=sys.stderr)
        return STOPPED
    if args.out:
        write(args.out, _drawn(made, args))
    if args.json:
        print(as_json({**made.model_dump(mode="json"), "notes": [PRESETS]}))
        return 0
    _print(made, args)
    return 0


def made_season(player: Any, seed: int = 0, again: bool = False) -> Any:
    """The map of a player: the kept one if it is his, else a new one, which is kept."""
    from game.library.season import keep_season, kept_season
    from levels.season import season, season_digest

    home = data_home()
    kept, problem = kept_season(home, season_digest(player, seed=seed))
    if problem:
        print(problem, file=sys.stderr)
    if kept is not None and not again:
        return kept
    with preparing("cloud"):
        parts = season(player, seed=seed)
        next(parts)
        first = next(parts)
    made = followed(parts, "Season", first).whole
    assert made is not None
    if problem := keep_season(home, made):
        print(problem, file=sys.stderr)
    return made


def season_png(made: Any, dark: bool = False, units: str = "m") -> bytes:
    """The drawn map as PNG bytes."""
    from io import BytesIO

    import pygame

    from game.draw.season import season_page

    out = BytesIO()
    pygame.image.save(season_page(made, dark=dark, units=UNIT_SYSTEMS[units]), out, "season.png")
    return out.getvalue()


def _drawn(made: Any, args: Namespace) -> bytes:
    """The file's bytes: a page that is printed is never dark."""
    if args.out.suffix.lower() == ".png":
        return season_png(made, args.dark, args.units)
    from game.handout import LetterError, season_pdf

    try:
        return season_pdf(made, date.today(), UNIT_SYSTEMS[args.units])
    except LetterError as error:
        raise UsageError(str(error)) from None


def _print(made: Any, args: Namespace) -> None:
    from game.text import choice as words

    units = UNIT_SYSTEMS[args.units]
    print_story([f"Which shots to seek, for {made.label}.", *words.season_notes()])
    place = None
    for cell in made.cells:
        if (cell.lie, cell.room) != place:
            place = cell.lie, cell.room
            print(f"\n{words.strip_words(cell)}:")
        print(
            f"  {units.far(cell.distance):>7}  {words.ADVICE_WORDS[cell.advice]:<8}{words.cell_words(cell)}; "
            f"{words.cell_odds(cell)}"
        )
    print()
    for note in (words.HOPEFUL, words.NO_SKILL, PRESETS):
        say(note)
