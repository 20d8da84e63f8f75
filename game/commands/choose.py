"""`fringework choose`: the best few options of a player in a scenario, and what each is worth."""

from argparse import ArgumentParser, Namespace
from math import degrees
from typing import Any

import numpy as np

from game.commands.options import SEEDS, add_player, player_of, scenario_named
from game.commands.progress import followed, preparing
from game.commands.report import PRESETS, as_json, print_story, say
from game.commands.shot import add_units
from game.commands.values import whole
from game.text.units import UNIT_SYSTEMS

__all__ = ["add_options", "choice_summary", "run"]


def add_options(parser: ArgumentParser) -> None:
    """Options of the command."""
    parser.add_argument("scenario", metavar="SCENARIO", help="scenario file, or the name of a built-in one")
    add_player(parser, "the scenario's own")
    parser.add_argument(
        "--what-if", action="store_true", help="also play the options with other spreads, greens and lies"
    )
    parser.add_argument(
        "--seed", metavar="NUMBER", type=whole(0, SEEDS // 1000), default=0,
        help="same seed, same answer; a whole number, default 0",
    )  # fmt: skip
    add_units(parser)
    parser.add_argument("--json", action="store_true", help="print JSON (m, shares) and nothing else")


def run(args: Namespace) -> int:
    """Choose and tell. Returns the exit code."""
    scenario = scenario_named(args.scenario)
    player = player_of(args.player or scenario.player)
    with preparing("cloud"):
        from levels.choose import choose
        from levels.situation import scenario_situation

        situation = scenario_situation(scenario)
        parts = choose(situation, player, seed=args.seed)
        first = next(parts)
    choice = followed(parts, scenario.title, first).choice
    changed = _changed(situation, choice, player, args)
    if args.json:
        print(as_json(choice_summary(scenario.title, player.spread, choice, changed)))
        return 0
    _print(scenario.title, player.spread, choice, changed, args)
    return 0


def _changed(situation: Any, choice: Any, player: Any, args: Namespace) -> list[Any]:
    from game.commands.progress import counted
    from levels.what_if import changes, what_ifs

    if not args.what_if:
        return []
    return list(
        counted(changes(situation, choice, player, args.seed), len(what_ifs(situation.course)), "What if")
    )


# ---- as JSON


def choice_summary(title: str, spread: Any, choice: Any, changed: list[Any]) -> dict[str, Any]:
    """What the choice says, with units in the keys."""
    from game.text.choice import HOPEFUL, NO_SKILL

    return {
        "scenario": title,
        "player": spread.label,
        "strokes_played": choice.strokes,
        "options": [_option(o) for o in choice.options],
        "robust": choice.robust,
        "bold": choice.bold,
        "what_if": [
            {
                "kind": c.what.kind, "value": c.what.lie or c.what.value, "order": c.order,
                "strokes": c.strokes, "other_leads": c.other_leads, "sure": c.sure,
            }
            for c in changed
        ],
        "notes": [HOPEFUL, NO_SKILL, PRESETS],
    }  # fmt: skip


def _option(option: Any) -> dict[str, Any]:
    v, made = option.value, option.made
    return {
        "clubs": option.clubs, "family": option.family, "club": option.setup.club.name,
        "matched": option.matched,
        "swing_length_deg": degrees(option.motion.swing_length),
        "ball_position_cm": 100.0 * option.setup.ball_position,
        "shaft_lean_deg": degrees(option.setup.shaft_lean),
        "face_open_deg": degrees(option.setup.face_open),
        "depth_mm": 1e3 * option.motion.depth,
        "strokes": v.strokes, "strokes_low": v.low, "strokes_high": v.high, "standard_error": v.error,
        "inside_flagstick": v.inside,
        "disaster": v.disaster, "penalty": v.penalty, "in_sand": v.sand, "gained_little": v.little,
        "worst_fifth": v.worst_fifth, "solid": v.solid, "leave_m": v.leave, "stops_apart_m": v.depth,
        "behind": option.behind[0], "behind_standard_error": option.behind[1],
        "much_the_same": option.much_the_same,
        "reason": None if option.reason is None else {
            "kind": option.reason.kind, "value": option.reason.value, "others": option.reason.others,
            "better": option.reason.better,
        },
        "ends_m": np.round(made.rest, 3).tolist(),
    }  # fmt: skip


# ---- as text


def _print(title: str, spread: Any, choice: Any, changed: list[Any], args: Namespace) -> None:
    from game.text import choice as words

    units = UNIT_SYSTEMS[args.units]
    print_story([f"{title}, for {spread.label}.", *words.leads_words(choice)])
    print()
    for option in choice.options:
        print(f"{words.option_name(option).capitalize()}: {words.strokes_words(option)}.")
        print(f"  {words.odds_words(option)}.")
        if option.reason is not None and len(choice.options) > 1:
            print(f"  {words.reason_words(option.reason, units)}")
        say(f"  {words.how_words(option)}")
    if changed:
        print()
        for one in changed:
            print(words.changed_words(one, choice))
    print()
    say(words.HOPEFUL)
    say(words.NO_SKILL)
    say(PRESETS)
