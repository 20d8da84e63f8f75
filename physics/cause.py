"""Why a shot came off as it did: what each component cost, and the chain of cause and effect in words.

Every number in a sentence is read from the Shot. A phrase carries the place in the picture it is
about, so that a screen can light it. Repairs play the cloud again with one component moved to its
best value, the same strokes otherwise: the gain in expected strokes is what that part cost.
"""

from dataclasses import dataclass, replace
from math import degrees, isnan
from typing import Any

import numpy as np

from physics.address import CONTROLS, Motion, Setup
from physics.cloud import cloud
from physics.course import Course
from physics.face import open_face
from physics.results import Contact, Outcome, Shot, TurfAction
from physics.spread import EXACT, Spread

__all__ = ["Phrase", "Repair", "explain", "lean_match", "repairs", "tell", "with_control"]

LONGEST_CHAIN = 4  # phrases one sentence may hold
MATCHED, CLOSE, FIGHTING = 1.0, 3.0, 6.0  # degrees of lean back to address, common practice
YARD = 0.9144


@dataclass(frozen=True)
class Phrase:
    """A piece of a sentence and the place it is about: hands, sole, edge, turf, ball, face, flight,
    landing, roll, hole or nothing ("")."""

    text: str
    place: str = ""


@dataclass(frozen=True)
class Repair:
    """One component moved to its best value. SI; `gain` in expected strokes (or playable share x 1
    where there is no hole), positive when the repair helps."""

    control: str
    label: str
    now: float
    best: float
    gain: float


def lean_match(shot: Shot) -> str:
    """The coach's check: shaft lean back at the ball against address (common practice)."""
    if isnan(shot.strike.lean):
        return "not met"
    off = abs(degrees(shot.strike.lean - shot.setup.shaft_lean))
    if off <= MATCHED:
        return "matched"
    if off <= CLOSE:
        return "close"
    return "fighting itself" if off > FIGHTING else "apart"


# ---- words


def explain(shot: Shot, yards: bool = False, junior: bool = False) -> tuple[str, ...]:
    """The chain of cause and effect as plain sentences."""
    return tuple("".join(p.text for p in sentence) for sentence in tell(shot, yards, junior))


def tell(shot: Shot, yards: bool = False, junior: bool = False) -> tuple[tuple[Phrase, ...], ...]:
    """Two or three sentences (junior: short ones) as phrases with places: strike, then run."""
    if junior:
        return _junior(shot)
    lean = _lean_phrases(shot)
    turf = [*_height_phrases(shot), *_turf_phrases(shot), *_ball_phrases(shot)]
    strike = [lean, turf] if len(lean) + len(turf) > LONGEST_CHAIN else [lean + turf]
    run = _run_phrases(shot, yards)
    return (*(_join(part) for part in strike if part), *((run,) if run else ()))


def _join(phrases: list[Phrase]) -> tuple[Phrase, ...]:
    """Phrases as one sentence: capital first, commas between, 'and' before the last, a stop."""
    out = []
    for i, p in enumerate(phrases):
        text = p.text[0].upper() + p.text[1:] if i == 0 else p.text
        if i and not text.startswith(("so ", "and ")):
            text = ("and " if i == len(phrases) - 1 else "") + text
        end = "." if i == len(phrases) - 1 else ", "
        out.append(Phrase(text + end, p.place))
    return tuple(out)


def _lean_phrases(shot: Shot) -> list[Phrase]:
    k = shot.strike
    if isnan(k.lean):
        return []
    change = degrees(k.lean - shot.setup.shaft_lean)
    if abs(change) < MATCHED + 0.5:
        return [Phrase("the shaft came back where it was set", "hands")]
    way = "forward" if change > 0 else "back"
    set_bounce = degrees(open_face(shot.setup.club, shot.setup.face_open).bounce - shot.setup.shaft_lean)
    verb = "fell" if k.bounce < np.radians(set_bounce) else "rose"
    return [
        Phrase(f"the handle came back {abs(change):.0f} degrees further {way}", "hands"),
        Phrase(f"so bounce {verb} from {_whole(set_bounce)} to {_whole(degrees(k.bounce))} degrees", "sole"),
    ]


LOW, HIGH = 2.5e-3, 4.0e-3  # m off the turf surface at the ball that is worth a word, assumed


def _height_phrases(shot: Shot) -> list[Phrase]:
    low = shot.strike.low
    if low > LOW:
        return [Phrase(f"the head came in {low * 1e3:.0f} mm low", "hands")]
    if low < -HIGH:
        return [Phrase(f"the head came in {-low * 1e3:.0f} mm high", "hands")]
    return []


def _taken(shot: Shot) -> float:
    """Share of the head speed the turf took before the ball; all of it when the ball was not met."""
    k = shot.strike
    return 1.0 if isnan(k.speed_at_ball) else 1.0 - k.speed_at_ball / k.speed_before


def _turf_phrases(shot: Shot) -> list[Phrase]:
    k = shot.strike
    taken = _taken(shot)
    before = k.lead > 0.005 and k.contact is not Contact.MISSED
    where = f" {k.lead * 1e3:.0f} mm before the ball" if before else ""
    words = []
    match k.turf:
        case TurfAction.NONE:
            words.append(Phrase("the club never touched the ground", "turf"))
        case TurfAction.DIG:
            words.append(Phrase(f"the leading edge dug in {k.depth * 1e3:.0f} mm{_after(where)}", "edge"))
        case TurfAction.BRUSH:
            words.append(Phrase(f"the sole brushed the turf{where}", "sole"))
        case TurfAction.SKID:
            words.append(Phrase(f"the sole skidded {k.depth * 1e3:.0f} mm deep{_after(where)}", "sole"))
    if k.contact is not Contact.MISSED and taken >= 0.03:
        words.append(Phrase(f"the turf took {100 * taken:.0f} % of the speed", "turf"))
    return words


def _whole(value: float) -> str:
    return f"{value:.0f}".replace("-0", "0").replace("-", "\u2212")


def _after(where: str) -> str:
    return f",{where}" if where else ""


def _ball_phrases(shot: Shot) -> list[Phrase]:
    k = shot.strike
    height = f"{max(k.edge_height, 0.0) * 1e3:.0f} mm up"
    words = {
        Contact.CLEAN: Phrase("the face met the ball cleanly", "face"),
        Contact.FAT: Phrase("little was left for the ball", "ball"),
        Contact.THIN: Phrase(f"the leading edge caught the ball {height}, below its middle", "ball"),
        Contact.TOPPED: Phrase(f"the leading edge caught the ball {height}, above its middle", "ball"),
        Contact.MISSED: Phrase("the club never reached the ball", "ball"),
    }
    out = [] if k.contact is Contact.FAT and _taken(shot) >= 0.03 else [words[k.contact]]
    if k.double_hit:
        out.append(Phrase("it met the ball twice", "ball"))
    return out


def _run_phrases(shot: Shot, yards: bool) -> tuple[Phrase, ...]:
    if shot.launch is None:
        return ()
    scale, unit = (1.0 / YARD, "yd") if yards else (1.0, "m")
    r = shot.run
    start = Phrase(f"It left at {degrees(shot.launch.angle):.0f} degrees", "flight")
    if isnan(r.carry):
        middle = Phrase(" along the ground", "roll")
    else:
        roll = (r.rest - r.carry) * scale
        way = f"rolled {roll:.1f} {unit}" if roll >= 0.05 else f"spun back {-roll:.1f} {unit}"
        way = "stopped where it fell" if abs(roll) < 0.05 else way
        middle = Phrase(f", landed {r.carry * scale:.1f} {unit} out and {way}", "landing")
    return (start, middle, Phrase(_ending(shot, scale, unit), "hole"))


def _ending(shot: Shot, scale: float, unit: str) -> str:
    hole = shot.course.hole
    match shot.run.outcome:
        case Outcome.HOLED:
            return ", into the hole."
        case Outcome.WATER:
            return ", into the water."
        case Outcome.OUT:
            return ", out of bounds."
        case _ if hole is None:
            return "."
    past = shot.run.rest - hole.x
    if abs(past) < 0.02:
        return ", beside the hole."
    return f", {abs(past) * scale:.1f} {unit} {'past' if past > 0 else 'short of'} the hole."


def _junior(shot: Shot) -> tuple[tuple[Phrase, ...], ...]:
    """At most twelve short words a sentence, no numbers."""
    k = shot.strike
    out: list[Phrase] = []
    if not isnan(k.lean):
        change = degrees(k.lean - shot.setup.shaft_lean)
        if change > CLOSE:
            out.append(Phrase("The handle came back too far forward.", "hands"))
        elif change < -CLOSE:
            out.append(Phrase("The club passed your hands too soon.", "hands"))
    match k.contact, k.turf:
        case (_, TurfAction.DIG):
            out.append(Phrase("The front edge dug into the ground.", "edge"))
        case (Contact.THIN | Contact.TOPPED, _):
            out.append(Phrase("The edge hit the ball, not the face.", "ball"))
        case (Contact.MISSED, _):
            out.append(Phrase("The club went over the ball.", "ball"))
        case (Contact.FAT, _):
            out.append(Phrase("The club met the ground too soon.", "turf"))
        case _ if out:
            out.append(Phrase("The face still met the ball. That was lucky.", "face"))
        case _:
            out.append(Phrase("The club's belly brushed the grass. Good strike.", "sole"))
    if shot.launch and shot.course.hole:
        past = shot.run.rest - shot.course.hole.x
        end = "The ball is in the hole!" if shot.run.outcome is Outcome.HOLED else (
            "The ball rolled past the hole." if past > 0.5 else
            "The ball stopped short." if past < -0.5 else "The ball stopped close to the hole."
        )  # fmt: skip
        out.append(Phrase(end, "hole"))
    return tuple((p,) for p in out)


# ---- repairs

CANDIDATES = 7  # values tried over each control's range, besides the present one
TRIED = (
    "lean_change", "ball_position", "shaft_lean", "release", "follow_through", "lead_weight",
    "face_open", "swing_length", "depth",
)  # fmt: skip


def with_control(setup: Setup, motion: Motion, name: str, value: float) -> tuple[Setup, Motion]:
    """Set-up and motion with one control at another value."""
    change: dict[str, Any] = {name: value}
    if CONTROLS[name].owner == "setup":
        return replace(setup, **change), motion
    return setup, replace(motion, **change)


def repairs(
    course: Course,
    setup: Setup,
    motion: Motion,
    spread: Spread,
    seed: int = 0,
    count: int = 120,
    controls: tuple[str, ...] = TRIED,
) -> tuple[Repair, ...]:
    """What moving one component to its best value would gain, best first.

    Each control is tried at CANDIDATES values over its range (lean change also at none), then once
    more half a step to either side of the best; all with the same `count` strokes.
    """

    if spread == EXACT:
        count = 1

    def cost(name: str, value: float) -> float:
        a, b = with_control(setup, motion, name, value)
        c = cloud(course, a, b, spread, seed, count)
        return c.mean_strokes if course.hole else 1.0 - c.playable_share

    out = []
    for name in controls:
        control = CONTROLS[name]
        owner = setup if control.owner == "setup" else motion
        now = float(getattr(owner, name))
        base = cost(name, now)
        tried = [float(v) for v in np.linspace(control.low, control.high, CANDIDATES)]
        if name == "lean_change":
            tried.append(0.0)
        costs = {v: cost(name, v) for v in tried}
        best = min(costs, key=lambda v: costs[v])
        step = (control.high - control.low) / (CANDIDATES - 1) / 2.0
        for v in (best - step, best + step):
            if control.low <= v <= control.high:
                costs[v] = cost(name, v)
        best = min(costs, key=lambda v: costs[v])
        if costs[best] >= base:
            best = now
        out.append(Repair(name, control.label, now, best, max(0.0, base - costs.get(best, base))))
    return tuple(sorted(out, key=lambda r: -r.gain))
