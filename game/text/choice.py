"""A choice in words: each option, what it is worth, why, which is robust and which is bold."""

from game.text.cautions import PRESET_NOTE
from game.text.junior import plain_value
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
    "ADVICE_WORDS",
    "HOPEFUL",
    "NO_SKILL",
    "WHAT_IF",
    "as_it_is_words",
    "cell_odds",
    "cell_words",
    "changed_lead",
    "changed_verdict",
    "changed_words",
    "chooser_words",
    "how_words",
    "leads_words",
    "odds_lines",
    "odds_plain",
    "odds_words",
    "option_name",
    "pick_words",
    "reason_plain",
    "reason_words",
    "robust_words",
    "scale_words",
    "season_notes",
    "season_place_words",
    "setup_plain",
    "short_strokes",
    "strip_words",
    "strokes_plain",
    "strokes_words",
    "tally_words",
]  # fmt: skip

HOPEFUL = (
    "A side view knows no left and right: of the sideways miss only a straying start line counts here. "
    "The odds are hopeful, for every option by about as much."
)
NO_SKILL = "These are simulated strokes; how you play is for the grass to say."
WHAT_IF = (
    "What if? Strokes to hole out then, each option aimed anew and played out. Dark: in front, and for sure "
    "where it leads."
)
ADVICE_WORDS = {"seek": "seek", "play": "play", "careful": "careful"}
_TOLD = ("swing_length", "ball_position", "shaft_lean", "face_open")


def option_name(option: ShotOption) -> str:
    """`low runner, pitching wedge`."""
    return f"{FAMILY_NAMES[option.family]}, {option.setup.club.label}"


def how_words(option: ShotOption) -> str:
    """`swing length 36°, ball position 3.0 cm, shaft lean 5°, face open 0°`."""
    meant = Intention(option.setup, option.motion)
    return ", ".join(f"{CONTROLS[n].label} {shown_control(n, meant.value(n))}" for n in _TOLD)


def setup_plain(option: ShotOption) -> str:
    """The set-up without a number: `Ball back, shaft a bit forward, short swing.`"""
    meant = Intention(option.setup, option.motion)
    parts = [f"Ball {plain_value('ball_position', meant.value('ball_position'))}"]
    parts.append(f"shaft {plain_value('shaft_lean', meant.value('shaft_lean'))}")
    if (face := plain_value("face_open", meant.value("face_open"))) != "square":
        parts.append(f"face {face}")
    parts.append(f"{plain_value('swing_length', meant.value('swing_length'))} swing")
    return f"{', '.join(parts)}."


def strokes_words(option: ShotOption) -> str:
    """`2.38 strokes to hole out (2.35 to 2.41)`."""
    v = option.value
    return f"{decimal(v.strokes, 2)} strokes to hole out ({decimal(v.low, 2)} to {decimal(v.high, 2)})"


def short_strokes(option: ShotOption) -> str:
    """`2.38 strokes (2.35 to 2.41)`."""
    v = option.value
    return f"{decimal(v.strokes, 2)} strokes ({decimal(v.low, 2)} to {decimal(v.high, 2)})"


def odds_lines(option: ShotOption) -> tuple[str, str]:
    """How often it ends close, and how often badly, a line each."""
    v = option.value
    return (
        f"{chance_words(v.inside)} within a flagstick's length".capitalize(),
        f"{chance_words(v.disaster)} end badly".capitalize(),
    )


def odds_words(option: ShotOption) -> str:
    """How often it ends close, and how often badly."""
    v = option.value
    parts = (("a penalty", v.penalty), ("in sand", v.sand), ("with most of the way still to go", v.little))
    often = [name for name, share in parts if share >= 0.005]
    badly = f", {' or '.join(often)}" if often and v.disaster >= 0.005 else ""
    return (
        f"{chance_words(v.inside)} within a flagstick's length; {chance_words(v.disaster)} end badly{badly}"
    )


def strokes_plain(option: ShotOption) -> str:
    """Strokes to hole out, to the nearest half."""
    half = round(2.0 * option.value.strokes) / 2.0
    whole = int(half)
    count = f"About {whole}" if half == whole else f"{whole} or {whole + 1}"
    return f"{count} strokes to hole out."


def odds_plain(option: ShotOption) -> str:
    """How often it ends close and badly, without a number."""
    v = option.value
    close = _often(v.inside)
    return f"{close} of the balls end close, {_often(v.disaster).lower()} end badly."


def _often(share: float) -> str:
    for least, words in ((0.7, "Most"), (0.4, "About half"), (0.12, "Some"), (0.03, "A few")):
        if share >= least:
            return words
    return "Hardly any"


def reason_plain(reason: Reason) -> str:
    """Why, without a number."""
    return f"{_reason_lead(reason)}."


def _reason_lead(reason: Reason) -> str:
    """In what an option is better or worse."""
    if reason.kind == "alike":
        return "In all that counts it is about like the others"
    better, worse = {
        "disaster": ("It ends badly less often", "It ends badly more often"),
        "inside": ("It ends close more often", "It ends close less often"),
        "solid": ("You strike it solid more often", "You strike it solid less often"),
        "spread": ("Its balls end closer together", "Its balls end further apart"),
    }[reason.kind]
    return better if reason.better else worse


def reason_words(reason: Reason, units: UnitSystem = METRIC) -> str:
    """Why, in one sentence."""
    if reason.kind == "alike":
        return reason_plain(reason)
    if reason.kind == "spread":
        own, others = units.near(reason.value), units.near(reason.others)
    else:
        own, others = (f"{decimal(100.0 * share)} of 100" for share in (reason.value, reason.others))
    return f"{_reason_lead(reason)}: {own} against {others}."


def scale_words() -> str:
    """What the numbers of the options mean."""
    return (
        "Strokes are those to hole out from here; the bar is where they may lie, 8 times in 10, fewest on "
        "the left. Badly: a penalty, a ball in sand, or two thirds of the way still to go. Dots: 50 of the "
        "strokes, a disc solid, a wedge fat, a flat bar thin; shaded: within a flagstick's length."
    )


def robust_words(choice: ShotChoice, index: int) -> tuple[str, ...]:
    """What an option is called among the others: `best`, `robust`, `bold`."""
    names = (("best", index == 0), ("robust", index == choice.robust), ("bold", index == choice.bold))
    return tuple(name for name, holds in names if holds)


def pick_words(choice: ShotChoice, picked: int, numbers: bool = True) -> str:
    """The pick against the best."""
    best, own = choice.options[0], choice.options[picked]
    if len(choice.options) == 1:
        return "Only one kind of shot can be set up here."
    if picked == 0:
        alike = [option_name(o) for o in choice.options[1:] if o.much_the_same]
        also = f" Much the same: {' or '.join(alike)}." if alike else ""
        return f"You picked the best.{also}"
    if own.much_the_same:
        name = option_name(best)
        return f"Your pick is as good as the best, {name}: the strokes played cannot tell them apart."
    more = f"{decimal(own.behind[0], 2)} strokes more" if numbers else "more strokes"
    return f"Your pick costs {more} than the best: {option_name(best)}."


def tally_words(good: int, picks: int) -> str:
    """How the picks stand: `Picked the best, or one as good: 3 of 5 so far.`"""
    return f"Picked the best, or one as good: {good} of {picks} so far."


def chooser_words(label: str, balls: int | None) -> str:
    """Whose strokes these are; `balls` of a fitted player, None for a preset."""
    if balls is None:
        return f"For a player called {label}. {PRESET_NOTE} Your own comes from ten measured balls."
    return f"For {label}, as {balls} measured balls show."


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


def changed_lead(changed: Changed, usual_green: float | None = None) -> str:
    """What is otherwise: `On a green of 3.6 m`; without numbers where the usual green (m) is given."""
    numbers = usual_green is None
    what = changed.what
    if what.kind == "spread":
        times = f" (times {decimal(what.value, 1)})" if numbers else ""
        return f"With {'less' if what.value < 1.0 else 'more'} spread{times}"
    if what.kind == "green_speed" and usual_green is not None:
        return f"On a {'faster' if what.value > usual_green else 'slower'} green"
    if what.kind == "green_speed":
        return f"On a green of {METRIC.near(what.value)}"
    return f"From {SURFACES[what.lie].label}"


def changed_verdict(changed: Changed) -> str:
    """Which option is in front then, by its number, and whether for sure."""
    first, sure = changed.order[0] + 1, changed.sure or changed.other_leads
    return f"{first} leads" if sure else f"{first} in front, not for sure"


def as_it_is_words(choice: ShotChoice) -> tuple[str, str]:
    """How it stands before anything is otherwise, in the words of `changed_lead` and `changed_verdict`."""
    alike = any(option.much_the_same for option in choice.options[1:])
    return "As it is", "1 in front, not for sure" if alike else "1 leads"


def changed_words(changed: Changed, choice: ShotChoice) -> str:
    """What another spread, green or lie does to the ranking."""
    lead = changed_lead(changed)
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


def season_place_words(cell: SeasonCell, units: UnitSystem = METRIC) -> str:
    """All that is known of a place, a line each."""
    strokes = f"{decimal(cell.strokes, 2)} strokes ({decimal(cell.low, 2)} to {decimal(cell.high, 2)})"
    others = {0: "", 1: "One other shot is much the same."}.get(
        cell.alike, f"{cell.alike} other shots are much the same."
    )
    odds = cell_odds(cell)
    lines = (
        f"{strip_words(cell)}, {units.far(cell.distance)} to the hole.",
        f"{ADVICE_WORDS[cell.advice]}: {cell_words(cell)}.".capitalize(),
        f"{strokes}.", f"{odds}.".capitalize(), others,
    )  # fmt: skip
    return "\n".join(line for line in lines if line)


def cell_odds(cell: SeasonCell) -> str:
    """`7 of 10 close, 4 of 100 badly`."""
    return f"{chance_words(cell.inside)} close, {chance_words(cell.disaster)} badly"
