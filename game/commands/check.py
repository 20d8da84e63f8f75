"""`fringework check`: every problem of a scenario with its line, and what a search finds out about it."""

import os
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import chain
from pathlib import Path
from typing import Any

from game.commands.common import UsageError, WriteError, can_hold, write
from game.commands.options import add_player, player_of
from game.commands.progress import preparing
from game.commands.report import PRESETS, SIDE_VIEW, as_json, print_story, say
from game.commands.values import file_ending, name_of, whole

__all__ = ["Checked", "add_options", "check", "run"]

EFFORTS = ("small", "full")
SEEDS = 2**32 - 1
INVALID = 1
STOPPED = 130


@dataclass(frozen=True)
class Checked:
    """One file or built-in scenario: what is wrong, and the scenarios in it."""

    given: str
    problems: tuple[str, ...]
    scenarios: tuple[tuple[str, Any], ...] = ()  # name, Scenario
    path: Path | None = None  # of a scenario's own file, for --save


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument(
        "files", metavar="FILE", nargs="+", help="scenario or pack file, or the name of a built-in scenario"
    )
    parser.add_argument(
        "--prove", action="store_true", help="search whether it can be done, by what, and how forgiving it is"
    )
    parser.add_argument(
        "--effort", metavar="|".join(EFFORTS), type=name_of(EFFORTS), default="full",
        help="how hard to search; default full",
    )  # fmt: skip
    parser.add_argument(
        "--seed", metavar="NUMBER", type=whole(0, SEEDS), default=0,
        help="same seed, same proof; a whole number, default 0",
    )  # fmt: skip
    add_player(parser, "the scenario's own")
    parser.add_argument("--json", action="store_true", help="print JSON and nothing else")
    parser.add_argument(
        "--picture", metavar="OUT.png", type=file_ending(".png"), help="prove it and draw the proof to a file"
    )
    parser.add_argument("--dark", action="store_true", help="draw it dark")
    parser.add_argument(
        "--save", action="store_true", help="prove it and keep the proof in the scenario's file"
    )


def check(given: str) -> Checked:
    """Read one file or built-in scenario. Never raises for what is in it."""
    from levels.files import ScenarioError, library, load_library, parse_scenario
    from levels.packs import LARGEST_PACK, parse_pack
    from levels.reading import file_name, read_text, tables

    if given in library() and not os.path.exists(given):
        return Checked(given, (), ((given, load_library(given)),))
    try:
        if not (os.sep in given or given.endswith(".toml") or os.path.exists(given)):
            load_library(given)  # says which there are
        name = file_name(given)
        text = read_text(given, LARGEST_PACK)
        if "pack" in tables(text.removeprefix("\ufeff"), name, LARGEST_PACK):
            pack = parse_pack(text, name)
            return Checked(given, pack.problems, tuple((m.name, m.scenario) for m in pack.members))
        return Checked(given, (), ((name, parse_scenario(text, name)),), Path(given))
    except ScenarioError as error:
        return Checked(given, error.problems)


def run(args: Namespace) -> int:
    """Check, prove, tell, keep. Returns the exit code."""
    asked = args.prove or args.save or args.picture
    found = [check(given) for given in args.files]
    _refuse(args, found)
    told: list[dict[str, Any]] = []
    try:
        for i, one in enumerate(found):
            rows = [_row(args, one, name, made, asked) for name, made in one.scenarios]
            told.append({"file": one.given, "problems": list(one.problems), "scenarios": rows})
            if not args.json:
                if i:
                    print()
                _print(one, rows)
    except KeyboardInterrupt:
        print("Stopped: what was not finished is not kept.", file=sys.stderr)
        return STOPPED
    if args.json:
        print(as_json(told))
    elif asked:
        print()
        say(PRESETS)
        say(SIDE_VIEW)
    return INVALID if any(one.problems for one in found) else 0


def _refuse(args: Namespace, found: list[Checked]) -> None:
    """Refuse before long work what cannot end well."""
    if args.picture:
        can_hold(args.picture)
        if sum(len(one.scenarios) for one in found) > 1:
            raise UsageError("--picture draws one scenario; more than one was given.")
    if args.save and args.player:
        raise UsageError("--save keeps the proof of the scenario's own player; --player is another.")
    for one in found if args.save else ():
        if one.scenarios and one.path is None:
            raise UsageError(f"--save writes into a scenario's own file; '{one.given}' is none.")
        if one.path is not None and not os.access(one.path, os.W_OK):
            raise WriteError(f"'{one.path}' cannot be written: it may only be read.")


def _row(args: Namespace, one: Checked, name: str, made: Any, asked: bool) -> dict[str, Any]:
    """One scenario: its name, title and proof; kept and drawn where asked."""
    row: dict[str, Any] = {"name": name, "title": made.title, "proof": None, "stale": False, "open": None}
    if not asked:
        from levels.prove import proof_is_stale

        kept = made.proof.model_dump(mode="json", exclude_none=True) if made.proof else None
        return row | {"proof": kept, "stale": proof_is_stale(made)}
    proof = _proved(made, args)
    if args.save and one.path is not None:
        _keep(one.path, proof)
    if args.picture:
        write(args.picture, _picture(made, proof, args.dark))
    kept = proof.model_dump(mode="json", exclude_none=True)
    return row | {"proof": kept, "open": _controls_to_open(made, proof)}


def _proved(made: Any, args: Namespace) -> Any:
    spread = player_of(args.player).spread if args.player else None
    with preparing("proof"):
        from levels.effort import EFFORTS as KNOWN
        from levels.prove import prove

        parts = iter(prove(made, KNOWN[args.effort], args.seed, spread))
        first = next(parts)
    return _followed(chain([first], parts), lambda part: f"{made.title}: {part.words}").proof


def _controls_to_open(made: Any, proof: Any) -> list[dict[str, Any]] | None:
    """Where nothing passes: the closed controls that would change it, best first. None where one passes."""
    from dataclasses import asdict

    from game.text.proof import unlocking_words
    from levels.unlock import is_solved, unlock

    if is_solved(proof):
        return None
    last = _followed(unlock(made), lambda part: f"{made.title}: {unlocking_words(part.control)}")
    return [asdict(one) for one in last.found]


def _followed(parts: Iterable[Any], words: Callable[[Any], str]) -> Any:
    """The last of the parts, with a bar while they come if stderr is a terminal."""
    if not sys.stderr.isatty():
        *_, last = parts
        return last
    last = None
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("", total=1.0)
        for last in parts:
            bar.update(task, completed=last.share, description=words(last))
    return last


def _keep(path: Path, proof: Any) -> None:
    """Put the proof into the file in one step; everything else a person wrote stays."""
    import tomllib

    from levels.files import parse_scenario
    from levels.reading import file_name, read_text
    from levels.retain import text_with
    from levels.whole_file import replace_file

    text = read_text(path)
    data = tomllib.loads(text.removeprefix("\ufeff"))
    data["proof"] = proof.model_dump(mode="json", exclude_none=True)
    changed = text_with(text, data)
    parse_scenario(changed, file_name(path))
    try:
        replace_file(path, changed)
    except OSError as error:
        raise WriteError(f"'{path}' cannot be written: {error.strerror or error}.") from None


def _picture(made: Any, proof: Any, dark: bool) -> bytes:
    """The drawn proof as PNG bytes."""
    from io import BytesIO

    import pygame

    from game.draw.proof import proof_page, proof_view
    from levels.proof_shots import best_shots

    out = BytesIO()
    pygame.image.save(
        proof_page(proof_view(made, proof, best_shots(made, proof)), dark=dark), out, "proof.png"
    )
    return out.getvalue()


def _print(one: Checked, rows: list[dict[str, Any]]) -> None:
    for problem in one.problems:
        print(problem)
    for i, row in enumerate(rows):
        if row["proof"] is not None:
            if i or one.problems:
                print()
            _tell_proof(row)
            continue
        alone = one.path is not None or row["name"] == one.given
        where = one.given if alone else f"{one.given}, member {row['name']}"
        print_story([f"{where}: a sound scenario, \u201c{row['title']}\u201d."])


def _tell_proof(row: dict[str, Any]) -> None:
    from game.text import proof as words
    from levels.proof import Proof
    from levels.unlock import Unlocked

    proof = Proof.model_validate(row["proof"])
    print_story([f"{row['title']}. {words.lead(proof)}"])
    if row["stale"]:
        print(words.stale_words())
    if row["open"] is not None:
        for sentence in words.unlock_words([Unlocked(**one) for one in row["open"]]):
            say(f"  {sentence}")
    for family in proof.families:
        print(f"  {words.family_words(family)}")
        if told := words.setup_words(family):
            say(f"    {told}")
    for sentence in (*words.forgiveness_words(proof), words.default_words(proof), words.match_words(proof)):
        print(f"  {sentence}")
    for warning in proof.warnings:
        print_story([f"  Look at this: {warning}"])
