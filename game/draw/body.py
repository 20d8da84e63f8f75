"""A golfer's joints in space, found from hub, hands and stance: two-link arms and legs, hips that turn.

x to the target, y up, z toward the viewer (m); seen face-on the picture is x and y alone, and z says what
hides what. The club's plane is tilted by its lie, so the depth of hands and head follows from their height.
Turns, weight and heel are functions of how far the arms have swung: nothing here knows the time.

Measures of the body are those of an adult 1.75 m tall, assumed; shares of turn are assumed so that a full
swing turns shoulders about 90 degrees and hips about half of that going back, as golfers are taught.
"""

from dataclasses import dataclass, replace
from math import atan2, cos, pi, sin, sqrt, tan

from physics.address import Setup

__all__ = ["ADDRESS", "Arm", "Body", "Foot", "Leg", "Manner", "Place", "arm_swing", "body_of", "reach_of"]

Point = tuple[float, float]
Place = tuple[float, float, float]  # x, y, z (m)

HIP, HIPS_BEHIND, FEET_BEHIND = 0.86, 0.20, 0.12  # m: height of the hips; how far behind the hub they are
SHOULDERS, DROP = 0.180, 0.032  # m, half their width; the trail one hangs lower by
HIPS = 0.085  # m from the middle of the pelvis to a hip joint
UPPER, FORE = 0.315, 0.325  # m of arm above and below the elbow, to the middle of the hand
THIGH, SHIN, ANKLE = 0.425, 0.415, 0.075  # m; height of the ankle over the sole
BALL_OF_FOOT = 0.13  # m before the ankle, where a foot bends
APART = 0.034  # m between grip's middle and the middle of each hand
FLARE = 0.32, -0.14  # rad the toes of lead and trail foot point to the target
SHOULDER_BACK, SHOULDER_ON = 0.72, 0.60  # turn of the shoulders over that of the arms, back and through
HIP_BACK, HIP_ON = 0.30, 0.50
FULL = 2.4  # rad of arm swing after the ball that ends on the lead foot with heel up
HEEL_FROM, HEEL_FULL, HEEL = 0.12, 1.7, 1.05  # rad of arm swing; rad the trail foot is tipped at most
RISE = 0.045  # m the hips come up in a full finish
WRAP = -2.9  # rad: an arm beyond this has come round over the head, no backswing reaches it


@dataclass(frozen=True)
class Manner:
    """What the golfer does that no club asks for. Angles in rad."""

    yaw: float = 0.0  # face turned to the target
    pitch: float = -1.0  # face up
    raised: float = 0.0  # 0 the trail hand holds the club, 1 it is up in the air


ADDRESS = Manner()


@dataclass(frozen=True)
class Arm:
    """Shoulder, elbow, hand."""

    shoulder: Place
    elbow: Place
    hand: Place


@dataclass(frozen=True)
class Foot:
    """Heel, ball of the foot and tip of the shoe, along its sole."""

    heel: Place
    ball: Place
    toe: Place


@dataclass(frozen=True)
class Leg:
    """Hip, knee, ankle, and the foot below."""

    hip: Place
    knee: Place
    ankle: Place
    foot: Foot


@dataclass(frozen=True)
class Body:
    """The whole golfer. `chest` points forward out of the breast, `face` out of the face."""

    neck: Place
    pelvis: Place
    chest: Place
    belly: Place  # forward out of the pelvis
    head: Place
    face: Place
    lead_arm: Arm
    trail_arm: Arm
    lead_leg: Leg
    trail_leg: Leg
    club: float  # m, depth of the middle of the club
    from_behind: bool = False


def _add(a: Place, b: Place, by: float = 1.0) -> Place:
    return a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2]


def _long(a: Place) -> float:
    return sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


def _unit(a: Place) -> Place:
    return _add((0.0, 0.0, 0.0), a, 1.0 / max(_long(a), 1e-9))


def _smooth(share: float) -> float:
    s = min(max(share, 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)


def arm_swing(hub: Point, hands: Point) -> float:
    """Angle of the arms from hanging down, + toward the target and on over the head (rad)."""
    angle = atan2(hands[0] - hub[0], hub[1] - hands[1])
    return angle + 2.0 * pi if angle < WRAP else angle


def _bent(a: Place, b: Place, upper: float, lower: float, toward: Place) -> Place:
    """The joint between a and b, bent toward a direction; limbs that are too short reach all the same."""
    way = _add(b, a, -1.0)
    d = max(_long(way), 1e-6)
    along = _unit(way)
    stretch = max(d / (upper + lower) * 1.0005, 1.0)
    upper, lower = upper * stretch, lower * stretch
    near = (d * d + upper * upper - lower * lower) / (2.0 * d)
    off = sqrt(max(upper * upper - near * near, 0.0))
    lean = along[0] * toward[0] + along[1] * toward[1] + along[2] * toward[2]
    side = _unit(_add(toward, along, -lean))
    return _add(_add(a, along, near), side, off)


def _foot(place: float, flare: float, tipped: float) -> tuple[Foot, Place]:
    """The foot whose ankle stands at x = place when flat, tipped onto its ball; and the ankle."""
    s, c = sin(flare), cos(flare)
    ball = (place + BALL_OF_FOOT * s, 0.0, BALL_OF_FOOT * c - FEET_BEHIND)
    spun = flare + 0.75 * tipped  # on its ball the foot turns to the target
    s, c, up, on = sin(spun), cos(spun), sin(tipped), cos(tipped)

    def at(back: float, high: float) -> Place:
        along = -back * on + high * up
        return ball[0] + along * s, back * up + high * on, ball[2] + along * c

    toe = (ball[0] + 0.07 * s, 0.0, ball[2] + 0.07 * c)
    return Foot(at(BALL_OF_FOOT + 0.05, 0.0), ball, toe), at(BALL_OF_FOOT, ANKLE)


def _turned(up: Place, turn: float) -> tuple[Place, Place]:
    """Unit vectors out of the lead side and out of the front of a body standing along `up`."""
    side = _unit(_add((1.0, 0.0, 0.0), up, -up[0]))
    ahead = (
        side[1] * up[2] - side[2] * up[1], side[2] * up[0] - side[0] * up[2],
        side[0] * up[1] - side[1] * up[0],
    )  # fmt: skip
    c, s = cos(turn), sin(turn)
    return _add(_add((0.0, 0.0, 0.0), side, c), ahead, -s), _add(_add((0.0, 0.0, 0.0), ahead, c), side, s)


def _pelvis(setup: Setup, swing: float) -> Place:
    """Over the weight as set; going through it moves over the lead foot, up and forward."""
    middle = -setup.ball_position
    lead = middle + setup.stance_width / 2
    set_ = middle + (setup.lead_weight - 0.5) * (setup.stance_width + 0.10)
    through = _smooth(swing / FULL)
    over = set_ + (max(lead - 0.02, set_) - set_) * through
    back = 0.02 * _smooth(-swing / FULL)
    return over - back, HIP + RISE * through, -HIPS_BEHIND * (1.0 - 0.75 * through)


def _leg(hip: Place, place: float, flare: float, tipped: float, ahead: Place, out: float) -> Leg:
    foot, ankle = _foot(place, flare, tipped)
    knee = _bent(hip, ankle, THIGH, SHIN, (ahead[0] + out, 0.15, max(ahead[2], 0.35)))
    return Leg(hip, knee, ankle, foot)


def _arm(shoulder: Place, hand: Place, down: Place, side: Place, out: float) -> Arm:
    pole = _add(_add((0.0, 0.0, 0.0), down, 0.9), side, 0.55 * out)
    return Arm(shoulder, _bent(shoulder, hand, UPPER, FORE, pole), hand)


def body_of(
    setup: Setup, hub: Point, hands: Point, edge: Point, manner: Manner, from_behind: bool = False
) -> Body:
    """The golfer whose arms hang from the hub and hold a club from the hands to the edge (m, face-on).

    `from_behind` shows who plays the other way round to a viewer who stays where they are: the places keep
    their x and y, near and far change.
    """
    swing = arm_swing(hub, hands)
    slant = 1.0 / tan(setup.club.lie)  # m of depth for a metre below the hub, on the club's plane
    pelvis = _pelvis(setup, swing)
    shoulders = swing * (SHOULDER_ON if swing > 0.0 else SHOULDER_BACK)
    hips = swing * (HIP_ON if swing > 0.0 else HIP_BACK)
    neck = (hub[0], hub[1], 0.0)
    up = _unit(_add(neck, pelvis, -1.0))
    side, chest = _turned(up, shoulders)
    hip_side, belly = _turned((0.0, 1.0, 0.0), hips)
    lead, trail = _add(neck, side, SHOULDERS), _add(_add(neck, side, -SHOULDERS), up, -DROP)
    lead = _add(lead, (0.0, -0.012, 0.0))

    shaft = (edge[0] - hands[0], edge[1] - hands[1], (hands[1] - edge[1]) * slant)
    grip, down = (hands[0], hands[1], (hub[1] - hands[1]) * slant), _unit(shaft)
    raised = _smooth(manner.raised)
    high = _add(trail, (-0.13 - 0.16 * sin(pi * raised), 0.47, 0.06))
    low = _add(grip, down, APART)
    trail_hand = _add(low, _add(high, low, -1.0), raised)
    hang = _add((0.0, 0.0, 0.0), up, -1.0)
    tipped = HEEL * _smooth((swing - HEEL_FROM) / HEEL_FULL)
    feet = -setup.ball_position
    half = setup.stance_width / 2
    nod = 0.5 * (manner.pitch - ADDRESS.pitch)  # a face that looks up takes the head back over the neck
    head = _add(neck, (0.05 * sin(manner.yaw), 0.165 + 0.012 * nod, 0.085 - 0.05 * nod))
    c = cos(manner.pitch)
    body = Body(
        neck, pelvis, chest, belly, head, (c * sin(manner.yaw), sin(manner.pitch), c * cos(manner.yaw)),
        _arm(lead, _add(grip, down, -APART), hang, side, 1.0),
        _arm(trail, trail_hand, hang, side, -1.0 if raised < 0.5 else 1.0),
        _leg(_add(pelvis, hip_side, HIPS), feet + half, FLARE[0], 0.0, belly, 0.10 - 0.55 * _back(swing)),
        _leg(_add(pelvis, hip_side, -HIPS), feet - half, FLARE[1], tipped, belly, -0.10),
        0.5 * ((hub[1] - hands[1]) + (hub[1] - edge[1])) * slant,
    )  # fmt: skip
    return _seen_from_behind(body) if from_behind else body


def _back(swing: float) -> float:
    """How far the backswing has gone, 0 to 1: the lead knee follows it in."""
    return min(max(-swing / FULL, 0.0), 1.0)


def _far(a: Place) -> Place:
    return a[0], a[1], -a[2]


def _seen_from_behind(body: Body) -> Body:
    def arm(a: Arm) -> Arm:
        return Arm(_far(a.shoulder), _far(a.elbow), _far(a.hand))

    def leg(g: Leg) -> Leg:
        foot = Foot(_far(g.foot.heel), _far(g.foot.ball), _far(g.foot.toe))
        return Leg(_far(g.hip), _far(g.knee), _far(g.ankle), foot)

    return replace(
        body, neck=_far(body.neck), pelvis=_far(body.pelvis), chest=_far(body.chest), belly=_far(body.belly),
        head=_far(body.head), face=_far(body.face), lead_arm=arm(body.lead_arm),
        trail_arm=arm(body.trail_arm), lead_leg=leg(body.lead_leg), trail_leg=leg(body.trail_leg),
        club=-body.club, from_behind=True,
    )  # fmt: skip


def reach_of(body: Body) -> tuple[float, float, float, float]:
    """Least x, least y, most x, most y (m) of joints; clothes reach some 12 cm further."""
    arms = [p for a in (body.lead_arm, body.trail_arm) for p in (a.shoulder, a.elbow, a.hand)]
    legs = [p for g in (body.lead_leg, body.trail_leg) for p in (g.knee, g.ankle, g.foot.heel, g.foot.toe)]
    places = [*arms, *legs, body.head, body.pelvis]
    xs, ys = [p[0] for p in places], [p[1] for p in places]
    return min(xs), min(ys), max(xs), max(ys)
