"""The strike in phrases: what hands, sole and edge did, and what the ball got of it."""

from math import degrees, exp, isnan

from game.text.phrase import Phrase, small_length
from game.text.quantity import decimal, plural
from game.text.strike_facts import (
    HEARD,
    after_ball,
    before_ball,
    lean_change,
    return_of,
    sole_bore,
    struck_cleanly,
)
from physics.cause import CLOSE, MATCHED, ground_of, lie_surface
from physics.explosion import CARRIED
from physics.face import open_face
from physics.results import Contact, Meeting, Outcome, Shot, TurfAction
from physics.surfaces import SAND

__all__ = ["ball_phrases", "height_phrases", "lean_phrases", "turf_phrases"]

BY_MOTION = "(release, follow-through or ball position)"
FACE_SHARE = 2.0  # degrees of bounce by the face that are worth a word, assumed


# ---- hands


def lean_phrases(shot: Shot) -> list[Phrase]:
    """What the motion brought by itself, what was added and strayed, and what that left of the bounce."""
    if isnan(shot.strike.lean):
        return []
    off = lean_change(shot)
    change = degrees(off)
    told = _motion_phrases(shot)
    kind = return_of(off)
    if kind != "off":
        nearly = "" if kind == "matched" else "nearly "
        back = f"{'so ' if told else ''}the shaft came back {nearly}where it was set"
        bounce = [Phrase(p.text.removeprefix("so "), p.place) for p in _bounce_phrases(shot)]
        return [*told, Phrase(back, "hands", linked=bool(told)), *bounce]
    if not told:
        told = _handle_phrases(shot, change)
    return [*told, *_bounce_phrases(shot)]


def _handle_phrases(shot: Shot, change: float) -> list[Phrase]:
    """The handle away from where it was set (degrees), by the stroke or by the ground that turned it."""
    kick = degrees(shot.strike.lean - shot.swing.delivered)
    if abs(change - kick) <= CLOSE < abs(kick):
        way = "forward" if kick > 0.0 else "back"
        return [Phrase(f"the {ground_of(shot.course)} turned the handle {_degrees(kick)} {way}", "hands")]
    if change > 0.0:
        way = "further forward"
    else:
        way = "less forward" if shot.strike.lean >= 0.0 else "further behind"
    return [Phrase(f"the handle came back {_degrees(change)} {way}", "hands")]


def _motion_phrases(shot: Shot) -> list[Phrase]:
    """The lean by the motion alone, apart from what the player added, the stroke strayed and the ground
    turned; nothing where the motion brings about the lean that was set."""
    swing, added = shot.swing, shot.motion.lean_change
    brought = degrees(swing.by_motion - swing.promised)
    if abs(brought) <= CLOSE:
        return []
    way = "forward of" if brought > 0.0 else "behind"
    where = f"{_degrees(brought)} {way} where it was set"
    told = [Phrase(f"the motion brought the handle {where} {BY_MOTION}", "hands")]
    by_chance = degrees(swing.delivered - swing.by_motion - added)
    by_ground = degrees(shot.strike.lean - swing.delivered)
    parts = (("habit", degrees(added)), ("chance", by_chance), (f"the {ground_of(shot.course)}", by_ground))
    for who, off in parts:
        if abs(off) > MATCHED:
            told.append(Phrase(f"{who} added {_degrees(off)} {'forward' if off > 0.0 else 'back'}", "hands"))
    return told


def _bounce_phrases(shot: Shot) -> list[Phrase]:
    """The bounce from set-up to impact, and how much of the change is the face's."""
    k, setup = shot.strike, shot.setup
    opened = degrees(open_face(setup.club, setup.face_open).bounce)
    was, now = opened - degrees(setup.shaft_lean), degrees(k.bounce)
    by_face = degrees(k.bounce + k.lean) - opened
    if abs(now - was) <= CLOSE:
        return []
    verb = "fell" if now < was else "rose"
    told = f"so bounce {verb} from {decimal(was)} to {_degrees(now, signed=True)}"
    shares = []
    by_setup = opened - degrees(setup.club.bounce)
    if by_setup >= FACE_SHARE:
        shares.append(f"opening the face had added {decimal(by_setup)}")
    if abs(by_face) >= FACE_SHARE:
        by_lean = degrees(lean_change(shot))
        lean = f"lean {'took' if by_lean > 0.0 else 'gave'} {decimal(abs(by_lean))}"
        face = f"the face {'gave' if by_face > 0.0 else 'took'} {decimal(abs(by_face))}"
        shares.append(f"{lean}, {face}")
    return [Phrase(f"{told} ({'; '.join(shares)})" if shares else told, "sole", linked=True)]


def _degrees(value: float, signed: bool = False) -> str:
    """`4 degrees`, without its sign unless that is asked for."""
    return plural(decimal(value if signed else abs(value)), "degree")


# ---- height

LOW, HIGH = 1.0e-3, 5.5e-3  # m below and above the usual depth that are worth a word, assumed
LOW_SAND = 4.0e-3  # m below the usual depth in sand, assumed


def height_phrases(shot: Shot, yards: bool) -> list[Phrase]:
    """How high the head came in, where that is off what a plain stroke from here brushes."""
    low, surface = shot.strike.low, lie_surface(shot.course)
    off = low - surface.usual_depth
    if surface.kind == SAND:
        if -HIGH <= off <= LOW_SAND:
            return []
        way = "deeper" if off > 0.0 else "higher"
        return [Phrase(f"the head came in {small_length(abs(off), yards)} {way} than usual in sand", "hands")]
    if off > LOW and low > 0.0:
        return [Phrase(f"the head came in {small_length(low, yards)} low", "hands")]
    if off < -HIGH and low < 0.0:
        return [Phrase(f"the head came in {small_length(-low, yards)} high", "hands")]
    return []


# ---- turf


def turf_phrases(shot: Shot, yards: bool) -> list[Phrase]:
    """What the sole or the edge did in the ground, and what that cost the head before the ball."""
    k, ground = shot.strike, ground_of(shot.course)
    missed = k.contact is Contact.MISSED
    words = [_mark_phrase(shot, yards)]
    if shot.run.outcome is Outcome.STUCK:
        words.append(Phrase(f"the club stuck in the {ground}", "turf"))
    unmarked = k.turf is TurfAction.NONE
    if not missed and k.head_loss >= HEARD and (ground == "turf" or not unmarked):
        taker = "grass" if unmarked else ground
        words.append(Phrase(f"the {taker} took {100 * k.head_loss:.0f} % of the speed", "turf"))
    return words


def _mark_phrase(shot: Shot, yards: bool) -> Phrase:
    k, ground = shot.strike, ground_of(shot.course)
    if before_ball(k):
        where = f" {small_length(k.lead, yards)} before the ball"
    else:
        where = " after the ball" if after_ball(k) else ""
    deep = small_length(k.depth, yards)
    after = f",{where}" if where else ""
    match k.turf:
        case TurfAction.NONE:
            name = ground if ground in ("sand", "mat") else "ground"
            both = " or the ball" if k.contact is Contact.MISSED else ""
            return Phrase(f"the club never touched the {name}{both}", "turf")
        case TurfAction.DIG if k.contact is Contact.SPLASHED:
            return Phrase(f"the club went {deep} deep through the sand{after}", "turf")
        case TurfAction.DIG:
            cut = small_length(k.edge_depth, yards)
            into = " into the sand" if ground == "sand" else ""
            return Phrase(f"the leading edge dug in {cut}{into}{after}", "edge")
        case TurfAction.BRUSH if sole_bore(k):
            return Phrase(f"the sole brushed the {ground}{where}", "sole")
        case TurfAction.SKID if sole_bore(k):
            through = "slid through the sand" if ground == "sand" else f"skidded on the {ground},"
            return Phrase(f"the sole {through} {deep} deep{after}", "sole")
        case TurfAction.BRUSH:
            return Phrase(f"the club scraped the {ground}{where}", "edge")
        case _:
            over = "over" if ground == "mat" else "through"
            return Phrase(f"the club scraped {over} the {ground}, {deep} deep{after}", "edge")


# ---- ball


def ball_phrases(shot: Shot, yards: bool) -> list[Phrase]:
    """What the strike was, as the ball had it: never from what the head lost."""
    k = shot.strike
    match k.contact:
        case Contact.MISSED:
            untouched = k.turf is TurfAction.NONE  # already told with the ground
            return [] if untouched else [Phrase("the club missed the ball", "ball")]
        case Contact.TWICE:
            return [Phrase("the club met the ball twice", "ball")]
        case Contact.SPLASHED:
            return [Phrase("the sand carried the ball", "ball")]
        case Contact.SOLID:
            out = [_solid(shot)]
        case Contact.FAT:
            out = [Phrase(f"the ball, hit fat, kept {_share(k.struck_gap)} of its distance", "ball")]
        case _:
            out = [Phrase(_thin(shot, yards), "ball")]
    return [*out, Phrase("it met the ball twice", "ball")] if k.double_hit else out


def _solid(shot: Shot) -> Phrase:
    k = shot.strike
    if struck_cleanly(k):
        return Phrase("the face met the ball cleanly", "face")
    if k.met is not Meeting.FACE:
        return Phrase("the rounded edge met the ball, which still came off solid", "edge")
    still = "still " if k.head_loss >= HEARD or k.turf is TurfAction.DIG else ""
    return Phrase(f"the ball {still}came off solid", "face")


def _share(gap: float) -> str:
    """How much of its distance the ball kept, from the logarithm."""
    share = 100.0 * exp(gap)
    return f"about {share:.0f} %" if share >= 0.5 else "less than 1 %"


def _thin(shot: Shot, yards: bool) -> str:
    """Thin and topped: which part of the head met the ball, or that too little sand lay between."""
    k = shot.strike
    if k.met in (Meeting.EDGE, Meeting.EDGE_ABOVE):
        if k.edge_height < 1.0e-3:
            return "the rounded edge caught the foot of the ball"
        part = "above" if k.met is Meeting.EDGE_ABOVE else "below"
        return f"the leading edge caught the ball {small_length(k.edge_height, yards)} up, {part} its middle"
    if k.struck_gap < 0.0:
        return f"the ball came off weak, with {_share(k.struck_gap)} of its distance"
    if ground_of(shot.course) == "sand":
        if k.cushion > CARRIED:
            return f"the sand sent the ball too far, {_share(k.struck_gap)} of its distance"
        return "too little sand came between club and ball"
    return f"the ball came off hot, with {_share(k.struck_gap)} of its distance"
