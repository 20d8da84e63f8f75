"""A fitted player in words: the spread, what the balls told of it, and what five more would tell."""

from game.text.quantity import decimal, percent
from game.text.units import METRIC
from levels.fitted import FitReport
from levels.other_flight import OtherFlight
from levels.player_file import ASSUMED_PUTTER, PlayerFile
from physics.course import Course
from physics.equipment import BAG
from physics.next_balls import NextBalls
from physics.putting import PUTTERS, make
from physics.surfaces import SURFACES

__all__ = [
    "ASKED_PUTT", "PART_NAMES", "PROTOCOL", "SPREAD_KEYS", "assumed_words", "fit_lead",
    "habit_words", "more_words", "putt_words", "range_words", "spread_rows", "told_words",
]  # fmt: skip

PART_NAMES = {
    "speed": "head speed", "along": "low point along the line", "up": "height of the low point",
    "lean": "shaft lean", "face": "face", "drop": "dip", "aim": "start line",
    "habit_speed": "average speed", "habit_up": "average height",
}  # fmt: skip
PROTOCOL = (
    "Ten balls, one club, one lie, level ground: chip each to the same mark.",
    "Pace or tape where each landed and where it stopped; say solid, fat or thin.",
    "Then the same with five from another lie.",
)
SPREAD_KEYS = {
    "speed": ("speed_percent", "%"), "along": ("along_mm", "mm"), "up": ("up_mm", "mm"),
    "lean": ("lean_deg", "deg"), "face": ("face_deg", "deg"), "drop": ("drop", ""), "aim": ("aim_deg", "deg"),
}  # fmt: skip
ASKED_PUTT = 1.5  # m of the putts a player is asked how many he holes, assumed: where putters differ most
SEEN = 0.05  # narrowing worth naming
METRIC_READING = "{:g} m on the Stimpmeter"
STILL = 0.5  # mm and per cent below which a habit is none


def putt_words(putter: str) -> str:
    """`5 in 10`: putts of ASKED_PUTT holed by a putter of that name."""
    return f"{10.0 * make(ASKED_PUTT, PUTTERS[putter]):.0f} in 10"


def assumed_words(green_speed: float | None, putter: str | None) -> str:
    """What is assumed where nobody says it: the green the balls were hit on, the putting; "" for nothing."""
    assumed = [f"a green of {METRIC_READING.format(Course.green_speed)}"] if green_speed is None else []
    if not putter:
        assumed.append(f"{putt_words(ASSUMED_PUTTER)} putts of {METRIC.near(ASKED_PUTT)} holed")
    return f"Assumed, for nothing was said: {_joined(assumed)}." if assumed else ""


def _joined(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _count(balls: int) -> str:
    return f"{balls} ball" if balls == 1 else f"{balls} balls"


def fit_lead(player: PlayerFile) -> str:
    """What this is."""
    return f"The spread of {player.label}, from {_count(player.balls)}, each range right 8 times in 10."


def _shown(player: PlayerFile, part: str) -> list[str]:
    """Spread, least and most of a part, without its unit."""
    key, unit = SPREAD_KEYS[part]
    tables = (player.spread, player.low or player.spread, player.high or player.spread)
    return [decimal(getattr(table, key), 2 if unit == "" else 1) for table in tables]


def range_words(player: PlayerFile, part: str) -> str:
    """`2.1 %, from 1.5 to 3.0 %`."""
    own, low, high = _shown(player, part)
    unit = SPREAD_KEYS[part][1]
    return f"{own} {unit}".rstrip() + f", from {low} to {high} {unit}".rstrip()


def spread_rows(report: FitReport) -> list[list[str]]:
    """A row for each part: its name, the spread, the range, and by how much the balls narrowed it."""
    out = []
    for part, (_, unit) in SPREAD_KEYS.items():
        own, low, high = _shown(report.player, part)
        out.append([
            PART_NAMES[part], f"{own} {unit}".rstrip(), f"{low} to {high} {unit}".rstrip(),
            percent(report.narrowed[part]),
        ])  # fmt: skip
    return out


def told_words(report: FitReport) -> tuple[str, ...]:
    """What the balls told, what they did not, and what can be traded for what."""
    balls, out = _count(report.player.balls), []
    if report.told:
        out.append(f"The {balls} tell of {_joined([PART_NAMES[p] for p in report.told])}.")
    else:
        out.append(f"The {balls} tell only how steady you are on the whole, no part by itself.")
    out += [_flight_words(one) for one in report.flights]
    if report.little:
        names = _joined([PART_NAMES[p] for p in report.little])
        out.append(f"Of {names} they say little: what stands there only goes with the rest.")
    out += [
        f"They cannot tell {PART_NAMES[a]} from {PART_NAMES[b]}: {_traded(corr)}."
        for a, b, corr in report.bound
    ]
    return tuple(out)


def _flight_words(one: OtherFlight) -> str:
    where = "farther out" if one.landed > one.meant else "nearer"
    return (
        f"With the {BAG[one.shot.club].label} to {METRIC.far(one.shot.target)} your balls land {where} than "
        f"a standard chip does ({percent(one.landed)} of the way, not {percent(one.meant)}): another shot "
        "was played or the green was of another speed, so landings are left out here."
    )


def _traded(corr: float) -> str:
    return "more of one does what less of the other does" if corr < 0.0 else "the two rise and fall together"


def habit_words(player: PlayerFile) -> str:
    """What the balls did on average beside what was meant; it is seen and not played."""
    h, out = player.habit, []
    if abs(h.speed_percent) >= STILL:
        way = "faster" if h.speed_percent > 0.0 else "slower"
        out.append(f"{decimal(abs(h.speed_percent), 1)} % {way} than the stroke that reaches the mark")
    if abs(h.up_mm) >= STILL:
        out.append(f"{decimal(abs(h.up_mm), 1)} mm too {'high' if h.up_mm > 0.0 else 'low'}")
    if not out:
        return "On average you did what you meant."
    return f"On average you were {' and '.join(out)}; that is left out of what is played."


def more_words(report: FitReport) -> str:
    """Which five balls would tell most next; empty where none were tried."""
    if not report.more:
        return ""
    best = max(report.more, key=lambda test: test.together)
    tells = report.would_tell(best)
    parts = [p for p in sorted(SPREAD_KEYS, key=lambda p: -tells[p]) if tells[p] >= SEEN][:3]
    where = f"{_number(best)} more from {SURFACES[best.shot.lie].label}"
    if not parts:
        return f"{where} would tell most next, but of no part by itself: more balls tell more."
    closer = _joined([f"{PART_NAMES[p]} {percent(tells[p])} closer" for p in parts])
    return f"{where} would tell most next: {closer}."


def _number(test: NextBalls) -> str:
    return {5: "Five"}.get(test.balls, str(test.balls))
