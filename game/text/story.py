"""The story of a shot: what hands, sole, face and ball did, in sentences.

Every number in a sentence is read from the Shot. A phrase carries the place in the picture it is
about, so that a screen can light it. What each component cost is found in `physics.repair`.
"""

from dataclasses import dataclass
from math import degrees, exp, isnan, radians

from physics.cause import CLOSE, MATCHED, ground_of, lie_surface
from physics.constants import INCH, YARD
from physics.face import open_face
from physics.results import Contact, Meeting, Outcome, Shot, TurfAction
from physics.surfaces import SAND

__all__ = ["Phrase", "explain", "tell"]

LONGEST_CHAIN = 4  # phrases one sentence may hold


@dataclass(frozen=True)
class Phrase:
    """A piece of a sentence and the place it is about: hands, sole, edge, turf, ball, face, flight,
    landing, roll, hole or nothing ("")."""

    text: str
    place: str = ""
    linked: bool = False  # it begins with its own "so": no "and" before it


def explain(shot: Shot, yards: bool = False, junior: bool = False) -> tuple[str, ...]:
    """The chain of cause and effect as plain sentences.

    >>> from physics.address import Motion, Setup
    >>> from physics.course import level_course
    >>> from physics.shot import play
    >>> explain(play(level_course("fairway", 8.0), Setup(), Motion()), junior=True)[0]
    "The club's belly brushed the grass. Good strike."
    """
    return tuple("".join(p.text for p in sentence) for sentence in tell(shot, yards, junior))


def tell(shot: Shot, yards: bool = False, junior: bool = False) -> tuple[tuple[Phrase, ...], ...]:
    """Two or three sentences (junior: short ones) as phrases with places: strike, then run."""
    if junior:
        return _junior(shot)
    lean = _lean_phrases(shot)
    turf = [*_height_phrases(shot, yards), *_turf_phrases(shot, yards), *_ball_phrases(shot, yards)]
    strike = [lean, turf] if len(lean) + len(turf) > LONGEST_CHAIN else [lean + turf]
    run = _run_phrases(shot, yards)
    return (*(_join(part) for part in strike if part), *((run,) if run else ()))


def _join(phrases: list[Phrase]) -> tuple[Phrase, ...]:
    """Phrases as one sentence: capital first, commas between, 'and' before the last, a stop."""
    out = []
    for i, p in enumerate(phrases):
        text = p.text[0].upper() + p.text[1:] if i == 0 else p.text
        if i and not p.linked:
            text = ("and " if i == len(phrases) - 1 else "") + text
        end = "." if i == len(phrases) - 1 else ", "
        out.append(Phrase(text + end, p.place))
    return tuple(out)


TELLING = 1.5  # degrees of lean that are worth a word, assumed
BY_MOTION = "(release, follow-through or ball position)"


def _lean_phrases(shot: Shot) -> list[Phrase]:
    """What the motion brought by itself, what was added and strayed, and what that left of the bounce."""
    k = shot.strike
    if isnan(k.lean):
        return []
    change = degrees(k.lean - shot.setup.shaft_lean)
    told = _motion_phrases(shot)
    if abs(change) < TELLING:
        back = f"{'so ' if told else ''}the shaft came back where it was set"
        return [*told, Phrase(back, "hands", linked=bool(told))]
    if not told:
        told = [Phrase(f"the handle came back {abs(change):.0f} degrees further {_way(change)}", "hands")]
    set_bounce = degrees(open_face(shot.setup.club, shot.setup.face_open).bounce - shot.setup.shaft_lean)
    verb = "fell" if k.bounce < radians(set_bounce) else "rose"
    bounce = f"so bounce {verb} from {_whole(set_bounce)} to {_whole(degrees(k.bounce))} degrees"
    return [*told, Phrase(bounce, "sole", linked=True)]


def _motion_phrases(shot: Shot) -> list[Phrase]:
    """The lean by the motion alone, apart from what the player added and strayed; nothing where the motion
    brings about the lean that was set."""
    swing, added = shot.swing, shot.motion.lean_change
    brought = degrees(swing.by_motion - swing.promised)
    if abs(brought) <= TELLING:
        return []
    than = f"{abs(brought):.0f} degrees further {_way(brought)} than it was set {BY_MOTION}"
    told = [Phrase(f"the motion brought the handle {than}", "hands")]
    by_chance = degrees(swing.delivered - swing.by_motion - added)
    for who, off in (("habit", degrees(added)), ("chance", by_chance)):
        if abs(off) > MATCHED:
            much = f"{abs(off):.0f} degree{'s' if abs(off) >= 1.5 else ''}"
            told.append(Phrase(f"{who} added {much} {_way(off)}", "hands"))
    return told


def _way(lean: float) -> str:
    return "forward" if lean > 0.0 else "back"


LOW, HIGH = 1.0e-3, 5.5e-3  # m below and above the usual depth that are worth a word, assumed
LOW_SAND = 4.0e-3  # m below the usual depth in sand, assumed


def _height_phrases(shot: Shot, yards: bool) -> list[Phrase]:
    """How high the head came in, where that is off what a plain stroke from here brushes."""
    low, surface = shot.strike.low, lie_surface(shot.course)
    off = low - surface.usual_depth
    if surface.kind == SAND:
        if -HIGH <= off <= LOW_SAND:
            return []
        way = "deeper" if off > 0.0 else "higher"
        return [Phrase(f"the head came in {_small(abs(off), yards)} {way} than usual in sand", "hands")]
    if off > LOW and low > 0.0:
        return [Phrase(f"the head came in {_small(low, yards)} low", "hands")]
    if off < -HIGH and low < 0.0:
        return [Phrase(f"the head came in {_small(-low, yards)} high", "hands")]
    return []


HEARD = 0.03  # share of the head speed that is worth a word, assumed


def _turf_phrases(shot: Shot, yards: bool) -> list[Phrase]:
    """What the sole did, and what that cost the head."""
    k, ground = shot.strike, ground_of(shot.course)
    met = k.contact is not Contact.MISSED
    where = f" {_small(k.lead, yards)} before the ball" if k.lead > 0.005 and met else ""
    deep = _small(k.depth, yards)
    words = []
    match k.turf:
        case TurfAction.NONE:
            never = {"sand": "the sand", "mat": "the mat"}.get(ground, "the ground")
            words.append(Phrase(f"the club never touched {never}", "turf"))
        case TurfAction.DIG if k.contact is Contact.SPLASHED:
            words.append(Phrase(f"the club went {deep} deep through the sand{_after(where)}", "turf"))
        case TurfAction.DIG:
            into = " into the sand" if ground == "sand" else ""
            words.append(Phrase(f"the leading edge dug in {deep}{into}{_after(where)}", "edge"))
        case TurfAction.BRUSH:
            words.append(Phrase(f"the sole brushed the {ground}{where}", "sole"))
        case TurfAction.SKID:
            through = "slid through the sand" if ground == "sand" else "skidded"
            words.append(Phrase(f"the sole {through} {deep} deep{_after(where)}", "sole"))
    if met and k.head_loss >= HEARD:
        taker = "grass" if k.turf is TurfAction.NONE and ground == "turf" else ground
        words.append(Phrase(f"the {taker} took {100 * k.head_loss:.0f} % of the speed", "turf"))
    return words


def _whole(value: float) -> str:
    return _number(value, 0)


def _number(value: float, places: int = 1) -> str:
    """With a true minus; never a negative nought."""
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0.0 else text.replace("-", "\N{MINUS SIGN}")


def _small(metres: float, yards: bool) -> str:
    """A length in the turf, in the unit that goes with the long ones."""
    return f"{metres / INCH:.1f} in" if yards else f"{metres * 1e3:.0f} mm"


def _after(where: str) -> str:
    return f",{where}" if where else ""


def _ball_phrases(shot: Shot, yards: bool) -> list[Phrase]:
    """What the strike was, as the ball had it: never from what the head lost."""
    k = shot.strike
    match k.contact:
        case Contact.MISSED:
            return [Phrase("the club never reached the ball", "ball")]
        case Contact.TWICE:
            return [Phrase("the club met the ball twice", "ball")]
        case Contact.SPLASHED:
            return [Phrase("the sand carried the ball", "ball")]
        case Contact.SOLID:
            clean = k.met is Meeting.FACE and (k.lead <= 0.005 or k.head_loss < HEARD)
            return [
                Phrase("the face met the ball cleanly" if clean else "the ball still came off solid", "face")
            ]
        case Contact.FAT:
            short = f"{100 * exp(k.struck_gap):.0f} % of its distance"
            return [Phrase(f"the ball, hit fat, kept about {short}", "ball")]
        case _:
            out = [Phrase(_thin(shot, yards), "ball")]
    return [*out, Phrase("it met the ball twice", "ball")] if k.double_hit else out


def _thin(shot: Shot, yards: bool) -> str:
    """Thin and topped: which part of the head met the ball, or that too little sand lay between."""
    k = shot.strike
    if k.met in (Meeting.EDGE, Meeting.EDGE_ABOVE):
        part = "above" if k.met is Meeting.EDGE_ABOVE else "below"
        return (
            f"the leading edge caught the ball {_small(max(k.edge_height, 0.0), yards)} up, {part} its middle"
        )
    if ground_of(shot.course) == "sand":
        return "too little sand came between club and ball"
    return "the low face caught the ball thin"


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
    if abs(past) < 0.05:
        return ", beside the hole."
    return f", {abs(past) * scale:.1f} {unit} {'past' if past > 0 else 'short of'} the hole."


def _junior(shot: Shot) -> tuple[tuple[Phrase, ...], ...]:
    """At most twelve short words a sentence, no numbers."""
    k, swing = shot.strike, shot.swing
    out: list[Phrase] = []
    if not isnan(k.lean):
        change = degrees(k.lean - shot.setup.shaft_lean)
        mostly = degrees(swing.by_motion - swing.promised) / change > 0.5 if abs(change) > CLOSE else False
        if change > CLOSE:
            way = "Your swing brings the handle" if mostly else "The handle came back"
            out.append(Phrase(f"{way} too far forward.", "hands"))
        elif change < -CLOSE:
            way = "Your swing lets the club pass your hands" if mostly else "The club passed your hands"
            out.append(Phrase(f"{way} too soon.", "hands"))
    out.append(_junior_strike(shot, bool(out)))
    if shot.launch and shot.course.hole:
        past = shot.run.rest - shot.course.hole.x
        end = "The ball is in the hole!" if shot.run.outcome is Outcome.HOLED else (
            "The ball rolled past the hole." if past > 0.5 else
            "The ball stopped short." if past < -0.5 else "The ball stopped close to the hole."
        )  # fmt: skip
        out.append(Phrase(end, "hole"))
    return tuple((p,) for p in out)


def _junior_strike(shot: Shot, leant: bool) -> Phrase:
    """The strike in few words; `leant`: the handle came back elsewhere than it was set."""
    k, ground = shot.strike, ground_of(shot.course)
    match k.contact, ground:
        case (Contact.MISSED, _):
            if k.turf is TurfAction.DIG:
                return Phrase(f"The front edge dug into the {_soil(ground)}.", "edge")
            return Phrase("The club went over the ball.", "ball")
        case (Contact.TWICE, _):
            return Phrase("The club touched the ball twice.", "ball")
        case (Contact.SPLASHED, _):
            return Phrase("The sand carried the ball. Good splash.", "ball")
        case (Contact.FAT, "sand"):
            return Phrase("The club took too much sand first.", "turf")
        case (Contact.THIN, "sand") if k.met is Meeting.FACE:
            return Phrase("The club took too little sand.", "ball")
        case (Contact.THIN | Contact.TOPPED, _):
            return Phrase("The edge hit the ball, not the face.", "ball")
        case (Contact.FAT, _) if k.turf is not TurfAction.DIG:
            return Phrase("The club met the ground too soon.", "turf")
        case _ if k.turf is TurfAction.DIG:
            return Phrase(f"The front edge dug into the {_soil(ground)}.", "edge")
        case _ if leant:
            return Phrase("The face still met the ball. That was lucky.", "face")
        case (_, "sand"):
            return Phrase("The ball came out well. Good strike.", "ball")
        case _ if k.turf is TurfAction.NONE:
            return Phrase("The face met the ball first. Good strike.", "face")
    return Phrase(
        f"The club's belly brushed the {'mat' if ground == 'mat' else 'grass'}. Good strike.", "sole"
    )


def _soil(ground: str) -> str:
    return "ground" if ground == "turf" else ground
