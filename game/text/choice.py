"""A choice in words: each option, what it is worth, why, which is robust and which is bold."""

from game.text.proof import FAMILY_NAMES, chance_words
from game.text.quantity import decimal, shown_control
from game.text.units import METRIC, UnitSystem
from levels.choose import ShotChoice, ShotOption
from levels.reasons import Reason
from levels.season import CAREFUL_DISASTER, SEEK_DISASTER, SEEK_INSIDE, SeasonCell
from levels.what_if import Changed
from physics.address import CONTROLS, Intention
from physics.equipment import BAG
from physics.surfaces import SURFACES

__all__ = [
    "ADVICE_WORDS", "HOPEFUL", "NO_SKILL", "cell_odds", "cell_words", "changed_words", "how_words",
    "leads_words", "odds_words", "option_name", "reason_words", "season_notes", "strip_words",
    "strokes_words",
]  # fmt: skip

HOPEFUL = (
    "A side view knows no left and right: of the sideways miss only a straying start line counts here. "
    "The odds are hopeful, for every option by about as much."
)
NO_SKILL = "These are simulated strokes; how you play is for the grass to say."
ADVICE_WORDS = {"seek": "seek", "play": "play", "careful": "careful"}
_TOLD = ("swing_length", "ball_position", "shaft_lean", "face_open")


def option_name(option: ShotOption) -> str:
    """`low runner, pitching wedge`."""
    return f"{FAMILY_NAMES[option.family]}, {option.setup.club.label}"


def how_words(option: ShotOption) -> str:
    """`swing length 36°, ball position 3.0 cm, shaft lean 5°, face open 0°`."""
    meant = Intention(option.setup, option.motion)
    return ", ".join(f"{CONTROLS[n].label} {shown_control(n, meant.value(n))}" for n in _TOLD)


def strokes_words(option: ShotOption) -> str:
    """`2.38 strokes to hole out (2.35 to 2.41)`."""
    v = option.value
    return f"{decimal(v.strokes, 2)} strokes to hole out ({decimal(v.low, 2)} to {decimal(v.high, 2)})"


def odds_words(option: ShotOption) -> str:
    """How often it ends close, and how often badly."""
    v = option.value
    parts = (("a penalty", v.penalty), ("in sand", v.sand), ("with most of the way still to go", v.little))
    often = [name for name, share in parts if share >= 0.005]
    badly = f", {' or '.join(often)}" if often and v.disaster >= 0.005 else ""
    return (
        f"{chance_words(v.inside)} within a flagstick's length; {chance_words(v.disaster)} end badly{badly}"
    )


def reason_words(reason: Reason, units: UnitSystem = METRIC) -> str:
    """Why, in one sentence."""
    if reason.kind == "alike":
        return "In all that counts it is about like the others."
    if reason.kind == "spread":
        more = "closer together" if reason.better else "further apart"
        return f"Its balls end {more}: {units.near(reason.value)} against {units.near(reason.others)}."
    own, others = (f"{decimal(100.0 * share)} of 100" for share in (reason.value, reason.others))
    what = {
        "disaster": ("It ends badly less often", "It ends badly more often"),
        "inside": ("It ends close more often", "It ends close less often"),
        "solid": ("You strike it solid more often", "You strike it solid less often"),
    }[reason.kind]
    return f"{what[0] if reason.better else what[1]}: {own} against {others}."


def leads_words(choice: ShotChoice) -> tuple[str, ...]:
    """Whether one leads, and which are the robust and the bold one."""
    first, rest = choice.options[0], choice.options[1:]
    alike = [option_name(o) for o in rest if o.much_the_same]
    out = []
    if not rest:
        out.append(f"Only one kind of shot can be set up here: {option_name(first)}.")
    elif alike:
        out.append(f"Much the same: {option_name(first)} or {' or '.join(alike)}. Take the one you like.")
    else:
        out.append(f"Best: {option_name(first)}, {decimal(rest[0].behind[0], 2)} strokes before the next.")
    robust = option_name(choice.options[choice.robust])
    if choice.bold is None:
        out.append(f"Robust: {robust}. It gets close most often too, so there is no bold one.")
    else:
        out.append(f"Robust: {robust}. Bold: {option_name(choice.options[choice.bold])}.")
    return tuple(out)


def changed_words(changed: Changed, choice: ShotChoice) -> str:
    """What another spread, green or lie does to the ranking."""
    what = changed.what
    if what.kind == "spread":
        lead = f"With {'less' if what.value < 1.0 else 'more'} spread (times {decimal(what.value, 1)})"
    elif what.kind == "green_speed":
        lead = f"On a green of {METRIC.near(what.value)}"
    else:
        lead = f"From {SURFACES[what.lie].label}"
    best = choice.options[changed.order[0]]
    strokes = decimal(changed.strokes[changed.order[0]], 2)
    if changed.other_leads:
        return f"{lead} another leads: {option_name(best)}, {strokes} strokes."
    own = decimal(changed.strokes[0], 2)
    return f"{lead} nothing else leads for sure: {option_name(choice.options[0])}, {own} strokes."


def cell_words(cell: SeasonCell) -> str:
    """`low runner, 8-iron`."""
    return f"{FAMILY_NAMES[cell.family]}, {BAG[cell.club].label}"


def strip_words(cell: SeasonCell) -> str:
    """`From rough, little green`."""
    room = "three metres off the green" if cell.room == "much" else "little green: the last third of the way"
    return f"From {SURFACES[cell.lie].label}, {room}"


def season_notes() -> tuple[str, ...]:
    """What the signs of a map mean, by the rule that sets them."""
    inside, seldom, often = (chance_words(v) for v in (SEEK_INSIDE, SEEK_DISASTER, CAREFUL_DISASTER))
    return (
        f"Seek (disc): {inside} or more end within a flagstick's length, at most {seldom} badly. "
        f"Careful (triangle): {often} or more end badly. Play (ring): between the two.",
        "Badly: a penalty, a ball in sand, or two thirds of the way still to go.",
    )


def cell_odds(cell: SeasonCell) -> str:
    """`7 of 10 close, 4 of 100 badly`."""
    return f"{chance_words(cell.inside)} close, {chance_words(cell.disaster)} badly"
