"""A golfer's body as a picture: shoes, trousers, shirt, arms with a glove, head and cap, far parts first."""

from collections.abc import Callable
from math import cos, hypot, pi, sin

import numpy as np

from game.draw.body import Arm, Body, Leg, Place
from game.draw.camera import Camera
from game.draw.palette import Colour, Palette, mix
from game.draw.pen import Pen, shade

__all__ = ["draw_body"]

Point = tuple[float, float]
TURN = [(cos(a), sin(a)) for a in np.linspace(0.0, 2.0 * pi, 25).tolist()]
WIDE, DEEP = 0.178, 0.118  # m, half the breadth and half the depth of the chest
HIP_WIDE, HIP_DEEP = 0.158, 0.125  # of the hips
HEAD_WIDE, HEAD_TALL = 0.081, 0.104  # half of the head


def draw_body(
    pen: Pen, camera: Camera, palette: Palette, body: Body, club: Callable[[], None],
    between: Callable[[], None] | None = None,
) -> None:  # fmt: skip
    """The golfer with the club in hand. `club` draws the club, `between` what stands before the body and
    behind the club."""
    b = body
    arms = sorted(((b.trail_arm, False), (b.lead_arm, True)), key=lambda a: a[0].elbow[2])
    behind = b.club < 0.0
    if behind and not b.from_behind:
        club()
    for arm, lead in arms:
        if _is_far(arm):
            _upper(pen, camera, palette, arm, lead)
            if arm.hand[2] < 0.0:
                _fore(pen, camera, palette, arm, lead)
    _seat(pen, camera, palette, body)
    legs = sorted(((b.trail_leg, False), (b.lead_leg, True)), key=lambda leg: leg[0].knee[2])
    for leg, lead in legs:
        _leg(pen, camera, palette, leg, lead)
    if behind and b.from_behind:
        club()  # behind the shirt, but seen over the legs
    for arm, lead in arms:  # hands high behind the head
        if not _is_far(arm) and arm.hand[2] < 0.0:
            _fore(pen, camera, palette, arm, lead)
    _torso(pen, camera, palette, body)
    _head(pen, camera, palette, body)
    if between:
        between()
    if not behind:
        club()
    for arm, lead in arms:
        if arm.hand[2] >= 0.0:
            if not _is_far(arm):
                _upper(pen, camera, palette, arm, lead)
            _fore(pen, camera, palette, arm, lead)
        elif not _is_far(arm):
            _upper(pen, camera, palette, arm, lead)


def _is_far(arm: Arm) -> bool:
    return arm.shoulder[2] + arm.elbow[2] < -0.06


def _at(camera: Camera, place: Place) -> Point:
    return camera.at(place[0], place[1])


# ---- legs


def _leg(pen: Pen, camera: Camera, palette: Palette, leg: Leg, lead: bool) -> None:
    s, colour = camera.scale, palette.trousers if lead else palette.trousers_shade
    _shoe(pen, camera, palette, leg)
    hip, knee, ankle = (_at(camera, p) for p in (leg.hip, leg.knee, leg.ankle))
    pen.line([hip, knee], 0.172 * s, colour, 255, 0.76)
    pen.line([knee, ankle], 0.131 * s, colour, 255, 0.80)


def _shoe(pen: Pen, camera: Camera, palette: Palette, leg: Leg) -> None:
    """Sole and upper from heel to tip; seen from the front they lie on one another."""
    s, foot = camera.scale, leg.foot
    heel, ball, toe = ((p[0], p[1] + 0.036) for p in (foot.heel, foot.ball, foot.toe))
    ankle = _at(camera, (leg.ankle[0], leg.ankle[1] - 0.01, 0.0))
    pen.line([camera.at(*heel), camera.at(*ball)], 0.078 * s, palette.shoe, 255, 1.12)
    pen.line([camera.at(*ball), camera.at(*toe)], 0.087 * s, palette.shoe, 255, 0.8)
    pen.line([camera.at(*heel), ankle], 0.074 * s, palette.shoe)


def _hips(body: Body) -> float:
    """Half of what is seen of the hips' breadth (m)."""
    return hypot(HIP_WIDE * body.belly[2], HIP_DEEP * body.belly[0])


def _seat(pen: Pen, camera: Camera, palette: Palette, body: Body) -> None:
    """Trousers over the hips."""
    (x, y, _), half = body.pelvis, _hips(body)
    shape = ((-1.0, 0.06), (1.0, 0.06), (1.04, -0.06), (0.5, -0.13), (-0.5, -0.13), (-1.04, -0.06))
    pen.fill([camera.at(x + a * half, y + b) for a, b in shape], palette.trousers_shade)


# ---- shirt


def _torso(pen: Pen, camera: Camera, palette: Palette, body: Body) -> None:
    """Shirt between shoulders and belt, as broad as the body is turned."""
    s, neck, pelvis = camera.scale, body.neck, body.pelvis
    lead, trail = body.lead_arm.shoulder, body.trail_arm.shoulder
    c = body.chest
    chest = hypot(WIDE * c[2], DEEP * c[0])
    hips = _hips(body)
    waist = 0.42 * chest + 0.5 * hips
    left, right = (lead, trail) if lead[0] < trail[0] else (trail, lead)

    def across(share: float, half: float) -> tuple[Point, Point]:
        x, y = (pelvis[k] + share * (neck[k] - pelvis[k]) for k in (0, 1))
        return (x - half, y), (x + half, y)

    belt, middle, breast = across(0.10, hips), across(0.34, waist), across(0.68, 0.97 * chest)
    yoke = min(0.075, 0.62 * chest)
    shape = [
        (neck[0] - yoke, neck[1] + 0.058), (neck[0] + yoke, neck[1] + 0.058),
        (right[0] + 0.012, right[1] + 0.045), (right[0] + 0.03, right[1] - 0.03), breast[1], middle[1],
        belt[1], belt[0], middle[0], breast[0], (left[0] - 0.03, left[1] - 0.03),
        (left[0] - 0.012, left[1] + 0.045),
    ]  # fmt: skip
    pen.fill([camera.at(*p) for p in shape], palette.shirt)
    side = -1.0 if not body.from_behind else 1.0
    a, b, e = (p[0] if side < 0 else p[1] for p in (breast, middle, belt))
    dark = [a, b, e, (e[0] - side * 0.55 * hips, e[1]), (b[0] - side * 0.28 * waist, b[1]),
            (a[0] - side * 0.12 * chest, a[1])]  # fmt: skip
    pen.fill([camera.at(*p) for p in dark], palette.shirt_shade)
    pen.line([camera.at(*belt[0]), camera.at(*belt[1])], 0.030 * s, palette.shoe)
    if c[2] > 0.15:  # the front is seen: collar and buttons show where it points
        top = (neck[0] + 0.10 * c[0], neck[1] + 0.03)
        low = (neck[0] + 0.12 * c[0] + 0.16 * (pelvis[0] - neck[0]), neck[1] - 0.15)
        pen.line([camera.at(*top), camera.at(*low)], max(0.010 * s, 1.0), palette.shirt_shade)


# ---- arms


def _upper(pen: Pen, camera: Camera, palette: Palette, arm: Arm, lead: bool) -> None:
    """The sleeve, a little below the elbow's end of the upper arm left bare."""
    s = camera.scale
    colour = shade(palette.shirt, -0.10) if lead else shade(palette.shirt_shade, -0.06)
    a, b = arm.shoulder, arm.elbow
    cuff = (a[0] + 0.84 * (b[0] - a[0]), a[1] + 0.84 * (b[1] - a[1]))
    pen.line([camera.at(*cuff), _at(camera, b)], 0.080 * s, palette.skin)
    pen.line([_at(camera, a), camera.at(*cuff)], 0.108 * s, colour, 255, 0.86)


def _fore(pen: Pen, camera: Camera, palette: Palette, arm: Arm, lead: bool) -> None:
    """Forearm and hand; the lead hand wears the glove."""
    s = camera.scale
    hand = _at(camera, arm.hand)
    tone = palette.skin if lead else shade(palette.skin, -0.07)
    pen.line([_at(camera, arm.elbow), hand], 0.080 * s, tone, 255, 0.66)
    pen.disc(hand, 0.045 * s, shade(tone, -0.18))
    pen.disc(hand, 0.039 * s, palette.cap if lead else tone)


# ---- head


def _oval(camera: Camera, x: float, y: float, wide: float, tall: float) -> list[Point]:
    return [camera.at(x + wide * a, y + tall * b) for a, b in TURN]


def _head(pen: Pen, camera: Camera, palette: Palette, body: Body) -> None:
    """Neck, head and cap. The face, its nose and the brim are turned where it looks."""
    s, (x, y, _) = camera.scale, body.head
    fx, fy, fz = body.face
    level = max(hypot(fx, fz), 1e-6)
    yaw, front = fx / level, fz / level  # of the face in the plane of the ground
    hair, dark = mix(palette.bark, palette.shoe, 0.35), shade(palette.skin, -0.14)
    nape = camera.at(body.neck[0], body.neck[1] + 0.02)
    pen.line([nape, camera.at(x - 0.012 * yaw, y - 0.05)], 0.098 * s, dark)
    pen.fill(_oval(camera, x - 0.012 * yaw, y, HEAD_WIDE, HEAD_TALL), hair)
    if front > -0.25:
        _face(pen, camera, palette.skin, dark, (x, y), (yaw, front), min(0.05 * (fy + 0.84), 0.03))
    _cap(pen, camera, palette, (x, y), (yaw, front), fy)


def _face(pen: Pen, camera: Camera, skin: Colour, dark: Colour, at: Point, turn: Point, lift: float) -> None:
    (x, y), (yaw, front) = at, turn
    half = HEAD_WIDE * (0.66 + 0.31 * max(front, 0.0))
    middle = x + 0.030 * yaw
    pen.fill(_oval(camera, middle, y - 0.004, half, 0.97 * HEAD_TALL), skin)
    if abs(yaw) > 0.35:  # in profile the nose stands out and an ear is seen
        nose = middle + half * (1.0 if yaw > 0 else -1.0)
        tip = 0.022 * abs(yaw) * (1.0 if yaw > 0 else -1.0)
        low = y - 0.026 + lift
        bridge = ((nose - tip, low + 0.026), (nose + tip, low - 0.008), (nose - tip, low - 0.02))
        pen.fill([camera.at(*p) for p in bridge], skin)
        ear = x - 0.022 * (1.0 if yaw > 0 else -1.0)
        pen.fill(_oval(camera, ear, y - 0.012, 0.014, 0.022), dark)
    else:
        for side in (-1.0, 1.0):
            pen.fill(_oval(camera, x + side * HEAD_WIDE, y - 0.012, 0.011, 0.021), dark)


def _cap(pen: Pen, camera: Camera, palette: Palette, at: Point, turn: Point, up: float) -> None:
    """Crown and brim; the brim covers the eyes of who looks down."""
    (x, y), (yaw, front) = at, turn
    brow = y + 0.034 + 0.040 * up
    top = max(y + 0.116 - brow, 0.06)
    crown = [(x - 0.006 * yaw + 0.091 * a, brow + 0.002 + top * b) for a, b in TURN[:13]]
    pen.fill([camera.at(*p) for p in crown], palette.cap)
    edge = shade(palette.cap, -0.16)
    if front < -0.1:  # from behind: no brim, only the band
        pen.fill(_oval(camera, x, brow, 0.090, 0.012), edge)
        return
    out = 0.060 * yaw
    pen.fill(_oval(camera, x + out, brow, 0.104 - 0.030 * abs(yaw), 0.015 + 0.021 * front), edge)
