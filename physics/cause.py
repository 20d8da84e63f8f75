"""Why a shot came off as it did: the chain of cause and effect in words.

Every number in a sentence is read from the Shot. A phrase carries the place in the picture it is
about, so that a screen can light it. What each component cost is found in `physics.repair`.
"""

from dataclasses import dataclass
from math import degrees, isnan, radians

from physics.face import open_face
from physics.results import Contact, Outcome, Shot, TurfAction

__all__ = ["Phrase", "explain", "lean_match", "tell"]

LONGEST_CHAIN = 4  # phrases one sentence may hold
MATCHED, CLOSE, FIGHTING = 1.0, 3.0, 6.0  # degrees of lean back to address, common practice
YARD = 0.9144


@dataclass(frozen=True)
class Phrase:
    """A piece of a sentence and the place it is about: hands, sole, edge, turf, ball, face, flight,
    landing, roll, hole or nothing ("")."""

    text: str
    place: str = ""


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
    verb = "fell" if k.bounce < radians(set_bounce) else "rose"
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
    return _number(value, 0)


def _number(value: float, places: int = 1) -> str:
    """With a true minus; never a negative nought."""
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0.0 else text.replace("-", "\N{MINUS SIGN}")


def _after(where: str) -> str:
    return f",{where}" if where else ""


def _ball_phrases(shot: Shot) -> list[Phrase]:
    k = shot.strike
    height = f"{max(k.edge_height, 0.0) * 1e3:.0f} mm up"
    words = {
        Contact.SOLID: Phrase("the face met the ball cleanly", "face"),
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
    start = Phrase(f"It left at {_whole(degrees(shot.launch.angle))} degrees", "flight")
    if isnan(r.carry):
        middle = Phrase(" along the ground", "roll")
    else:
        roll = (r.rest - r.carry) * scale
        way = f"rolled {roll:.1f} {unit}" if roll >= 0.05 else f"spun back {-roll:.1f} {unit}"
        way = "stopped where it fell" if abs(roll) < 0.05 else way
        middle = Phrase(f", landed {_number(r.carry * scale)} {unit} out and {way}", "landing")
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
