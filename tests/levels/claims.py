"""What the built-in scenarios say, piece by piece, and how each piece is played; and what cannot be."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from math import degrees, radians

import numpy as np
from stand import Stand, changed, on_fairway, on_level_ground, still_air

from physics.address import Intention
from physics.cloud import Cloud
from physics.course import Course
from physics.quality import FAT, MISSED, SPLASHED, TWICE
from physics.results import Contact, Outcome, TurfAction
from physics.run import WATER

__all__ = ["CLAIMS", "NOT_PLAYED"]

Shown = Callable[[Stand], bool]


def _bounce_is_left(s: Stand, stroke: Intention) -> bool:
    """With a square face the bounce at impact is the club's less the lean at impact, to half a degree."""
    return abs(s.bounce(stroke) - (degrees(stroke.setup.club.bounce) - s.lean(stroke))) < 0.5


def _loft_is_left(s: Stand, stroke: Intention) -> bool:
    return abs(s.loft(stroke) - (degrees(stroke.setup.club.loft) - s.lean(stroke))) < 0.5


def _fat(s: Stand, stroke: Intention) -> bool:
    """Ground before the ball: with nothing astray, and in more than half of the player's strokes."""
    usual = float(np.mean(np.isin(s.many(stroke).kind, (FAT, MISSED, TWICE))))
    return s.shot(stroke).strike.contact in (Contact.FAT, Contact.MISSED, Contact.TWICE) and usual > 0.5


def _splashed(s: Stand, stroke: Intention) -> float:
    return float(np.mean(s.many(stroke).kind == SPLASHED))


def _heavier(stroke: Intention, mass: float) -> Intention:
    """The same club with another mass of head (kg)."""
    return replace(stroke, setup=replace(stroke.setup, club=replace(stroke.setup.club, head_mass=mass)))


def _open(s: Stand, degrees_open: float) -> Intention:
    return changed(s.matched, face_open_deg=degrees_open)


def _same_carry(s: Stand, stroke: Intention) -> Intention:
    return s.swing_for(stroke, s.carry(s.matched))


def _dry(course: Course) -> Course:
    return replace(course, lie=replace(course.lie, surface="sand"))


def _no_tree(course: Course) -> Course:
    return replace(course, hazards=())


def _under_leaves(s: Stand) -> float:
    """How much further (m) a lofted ball that would carry 5 m goes without the tree."""
    lofted = s.swing_for(s.start, 5.0, _no_tree(s.course))
    return s.rest(lofted, _no_tree(s.course)) - s.rest(lofted)


def _to_rest(s: Stand, club: str, rest: float) -> Intention:
    """The reference with that club and the swing length that rolls so far (m), by trying."""
    tries = [changed(s.matched, club, swing_length_deg=float(deg)) for deg in range(15, 90, 3)]
    return min(tries, key=lambda stroke: abs(s.rest(stroke) - rest))


def _over(s: Stand) -> tuple[float, float]:
    """Rest (m) of the longest swing that the ridge turns back, and of the next one, two degrees longer."""
    rests = [s.rest(changed(s.matched, swing_length_deg=float(deg))) for deg in range(36, 66, 2)]
    return max(pairwise(rests), key=lambda pair: pair[1] - pair[0])


def _plateau(course: Course) -> Course:
    """The same ground as far as its top within the green, and level from there."""
    ground = course.ground
    top = ground.y.index(max(y for x, y in zip(ground.x, ground.y, strict=True) if 0.0 < x < 12.0))
    heights = tuple(ground.y[min(i, top)] for i in range(len(ground.y)))
    return replace(course, ground=replace(ground, y=heights))


def _takes_twice(s: Stand, stroke: Intention) -> bool:
    """The slope takes metres from the ball, and on level ground the slow grass does."""
    level = on_level_ground(s.course)
    fast = replace(level, green_speed=3.3)
    return s.rest(stroke) + 1.0 < s.rest(stroke, level) and s.rest(stroke, level) + 1.0 < s.rest(stroke, fast)


def _flick(s: Stand) -> bool:
    """What the starting stroke's taken lean alone does: loft and bounce up by it, the ball higher."""
    still = changed(s.start, lean_change_deg=0.0)
    return s.loft(s.start) > s.loft(still) + 5.0 and s.bounce(s.start) > s.bounce(still) + 5.0


def _flown(s: Stand) -> Cloud:
    """Back step: a lob wedge flown nearly to the hole, played many times."""
    high = changed(s.matched, "LW", ball_position_cm=3.0, shaft_lean_deg=5.5, follow_through=0.4)
    return s.many(s.swing_for(high, s.made.hole.x_m - 0.5))


def _cost_of_missing(s: Stand) -> tuple[float, float]:
    """Back step: strokes that a ball short of the step costs beside one on it, and a ball in the water."""
    strokes = [s.many(s.matched), _flown(s)]
    value = np.concatenate([c.strokes for c in strokes])
    rest = np.concatenate([c.rest for c in strokes])
    wet = np.concatenate([c.code == WATER for c in strokes])
    there = value[(rest > 14.0) & (rest < 18.0) & ~wet].mean()
    short = value[(rest > 8.0) & (rest < 11.0) & ~wet].mean()
    return float(short - there), float(value[wet].mean() - there)


CLAIMS: dict[str, dict[str, Shown]] = {
    "first-brush": {
        "likes to lie close to it": lambda s: abs(s.low_point(s.matched)) < abs(s.low_point(s.start)),
        "moves the low point forward": lambda s: (
            s.low_point(changed(s.start, lead_weight_percent=60.0)) > s.low_point(s.start) + 0.02
        ),
        "further back is met before the ground": lambda s: (
            s.fat(changed(s.start, ball_position_cm=-1.0)) < s.fat(s.start) - 0.3
        ),
        "on the trail foot pulls the low point back": lambda s: (
            s.low_point(changed(s.matched, lead_weight_percent=42.0)) < s.low_point(s.matched) - 0.02
        ),
        "low point follows your weight": lambda s: (
            s.low_point(changed(s.start, lead_weight_percent=70.0))
            > s.low_point(changed(s.start, lead_weight_percent=55.0))
            > s.low_point(s.start)
        ),
        "With the weight back it lies behind the ball": lambda s: s.low_point(s.start) < -0.03,
    },
    "two-tees": {
        "scrapes the ground before it gets there": lambda s: _fat(s, s.start),
        "a small slip does little harm": lambda s: s.solid(s.matched) > 0.9 > s.solid(s.start) + 0.5,
        "did not go with the ball": lambda s: (
            abs(s.low_point(changed(s.start, ball_position_cm=-3.0)) - s.low_point(s.start) - 0.12) < 0.03
        ),
        "the ground came first": lambda s: _fat(s, s.start),
    },
    "how-deep": {
        "Too deep costs speed": lambda s: (
            s.ball_speed(changed(s.matched, depth_mm=10.0)) < 0.8 * s.ball_speed(s.matched)
        ),
        "Too high meets the ball with the edge": lambda s: (
            s.thin(changed(s.matched, depth_mm=-6.0)) > s.thin(s.matched) + 0.3
        ),
        "Eight millimetres too deep spoil half the strikes": lambda s: (
            s.solid(s.matched) > 0.8 > 0.5 > s.solid(changed(s.matched, depth_mm=10.0))
        ),
        "leaves room on both sides": lambda s: (
            min(s.solid(changed(s.matched, depth_mm=mm)) for mm in (1.0, 3.0)) > 0.7
        ),
        "A deep sole pushes turf": lambda s: (
            s.shot(s.start).strike.depth > s.shot(s.matched).strike.depth + 3e-3
        ),
        "the ball does not get": lambda s: s.shot(s.start).strike.head_loss > 0.5 and s.carry(s.start) < 1.0,
    },
    "plain-chip": {
        "the sole should brush, not dig": lambda s: s.fat(s.start) > s.fat(s.matched) + 0.2,
        "the sole keeps the bounce you set": lambda s: (
            abs(s.lean_added(s.matched)) < 1.0 and _bounce_is_left(s, s.matched)
        ),
        "Then the bounce stays what it was": lambda s: (
            abs(s.bounce(changed(s.start, lean_change_deg=0.0)) - s.bounce(s.matched)) < 0.5
        ),
        "takes a degree of bounce away": lambda s: (
            abs(s.bounce(changed(s.start, lean_change_deg=0.0)) - s.bounce(s.start) - 9.0) < 0.3
        ),
        "Then a small slip digs": lambda s: (
            s.fat(s.start) > s.fat(changed(s.start, lean_change_deg=0.0)) + 0.2
        ),
    },
    "tight-collar": {
        "Much lean and little bounce let the edge in": lambda s: (
            s.shot(s.start).strike.turf is TurfAction.DIG
            and s.shot(s.matched).strike.turf is not TurfAction.DIG
        ),
        "Bounce minus lean is what the ground meets": lambda s: _bounce_is_left(s, s.matched),
        "Near nothing, a small slip digs": lambda s: (
            abs(s.bounce(changed(s.matched, "SW-low"))) < 2.0
            and s.fat(changed(s.matched, "SW-low")) > s.fat(s.matched) + 0.2
        ),
        "Less lean and more bounce leave room": lambda s: (
            s.solid(s.matched)
            > max(s.solid(changed(s.matched, shaft_lean_deg=13.0)), s.solid(changed(s.matched, "SW-low")))
            + 0.2
        ),
        "took all the bounce away": lambda s: s.bounce(s.start) < 0.0,
        "the edge led and dug": lambda s: s.shot(s.start).strike.turf is TurfAction.DIG,
    },
    "damp-hollow": {
        "a broad sole rides over": lambda s: (
            s.shot(changed(s.matched, "LW-low")).strike.depth > s.shot(s.matched).strike.depth + 1e-3
        ),
        "Soft ground asks for bounce": lambda s: s.solid(s.matched) > s.solid(changed(s.matched, "GW")) + 0.1,
        "little lean keep the edge out": lambda s: (
            s.solid(s.matched) > s.solid(changed(s.matched, shaft_lean_deg=12.0)) + 0.3
        ),
        "more bounce, and lean it less": lambda s: (
            s.solid(changed(s.matched, "LW-low")) < s.solid(s.matched) - 0.2
        ),
        "Bounce carries the head": lambda s: s.bounce(s.matched) > 5.0 and s.solid(s.matched) > 0.85,
        "Without it the edge goes in": lambda s: s.shot(s.start).strike.depth > 0.015,
    },
    "under-the-willow": {
        "Its branches hang over the line": lambda s: _under_leaves(s) > 0.5,
        "Loft and lean decide how it starts": lambda s: (
            s.launch(changed(s.matched, "LW")) > s.launch(s.matched) + 5.0
            and s.launch(changed(s.matched, lean_change_deg=-5.0)) > s.launch(s.matched) + 2.0
        ),
        "Less loft starts the ball lower": lambda s: (
            s.launch(changed(s.matched, "7i")) < s.launch(s.matched) < s.launch(changed(s.matched, "SW"))
        ),
        "flies little and rolls far": lambda s: (
            s.meant(s.matched).roll > s.meant(changed(s.matched, "LW")).roll + 0.3
        ),
        "It is the club's loft minus the lean": lambda s: _loft_is_left(s, s.matched),
    },
    "sheepfold-wall": {
        "More loft at impact starts the ball higher": lambda s: (
            s.launch(changed(s.matched, "LW")) > s.launch(s.matched) > s.launch(changed(s.matched, "PW"))
        ),
        "still starts lower than that loft": lambda s: 3.0 < s.loft(s.matched) - s.launch(s.matched) < 25.0,
        "A steeper landing leaves less roll": lambda s: (
            s.landing(s.matched) > s.landing(changed(s.matched, "PW")) + 5.0
            and s.roll(s.matched) < s.roll(changed(s.matched, "PW")) - 2.0
        ),
        "Loft lifts the ball": lambda s: s.launch(s.matched) > s.launch(changed(s.matched, "PW")) + 5.0,
        "A flick at it meets it thin": lambda s: (
            s.thin(changed(s.matched, lean_change_deg=-8.0)) > s.thin(s.matched) + 0.2
        ),
        "about ten degrees steeper": lambda s: (
            7.0 < degrees(s.meant(s.matched).landing - s.meant(changed(s.matched, "PW")).landing) < 13.0
        ),
    },
    "the-shelf": {
        "flies higher, lands steeper and rolls less": lambda s: (
            s.launch(s.matched) > s.launch(_same_carry(s, changed(s.matched, "GW")))
            and s.landing(s.matched) > s.landing(_same_carry(s, changed(s.matched, "GW"))) + 3.0
            and s.roll(s.matched) < s.roll(_same_carry(s, changed(s.matched, "GW"))) - 0.5
        ),
        "needs a longer swing for the same flight": lambda s: (
            s.matched.value("swing_length")
            > _same_carry(s, changed(s.matched, "GW")).value("swing_length") + radians(3.0)
        ),
        "lands there only with too much run": lambda s: (
            abs(s.rest(_same_carry(s, changed(s.matched, "9i"))) - s.made.hole.x_m)
            > (s.made.goal.leave_m or 0.0)
        ),
        "Swing long enough to carry the bank": lambda s: s.carry(s.matched) > 5.5,
        "did not bring that lean": lambda s: s.lean_added(s.start) < -3.0,
        "head went deeper than set": lambda s: (
            s.deep(s.start) > s.deep(changed(s.start, shaft_lean_deg=-1.0)) + 5e-3
        ),
    },
    "anywhere-green": {
        "A short swing is easy to repeat": lambda s: (
            s.spread(s.matched) < s.spread(changed(s.matched, swing_length_deg=70.0))
        ),
        "A ball that rolls needs a smaller swing": lambda s: (
            _to_rest(s, "GW", 8.0).value("swing_length") < _to_rest(s, "LW", 8.0).value("swing_length")
        ),
        "A smaller swing makes smaller slips": lambda s: (
            s.spread(changed(s.matched, swing_length_deg=25.0)) < s.spread(s.matched)
        ),
        "less loft and swing less": lambda s: (
            _to_rest(s, "PW", 8.0).value("swing_length") < _to_rest(s, "LW", 8.0).value("swing_length")
        ),
        "low point lay far behind the ball": lambda s: s.low_point(s.start) < -0.05,
        "the ground came first": lambda s: _fat(s, s.start),
    },
    "long-green": {
        "has the bigger share of roll": lambda s: (
            s.meant(changed(s.matched, "8i")).roll
            > s.meant(changed(s.matched, "PW")).roll
            > s.meant(changed(s.matched, "LW")).roll
        ),
        "more roll for each metre of flight": lambda s: (
            s.meant(s.matched).roll > s.meant(changed(s.matched, "GW-high")).roll + 0.5
        ),
        "low point was behind the ball": lambda s: s.low_point(s.start) < -0.02,
        "the ground took the speed": lambda s: s.shot(s.start).strike.head_loss > 0.25,
    },
    "over-the-ridge": {
        "Too slow and the ball rolls back": lambda s: s.rest(s.matched) > 9.0 > 5.0 > _over(s)[0],
        "Too fast and it runs away": lambda s: (
            s.rest(changed(s.matched, swing_length_deg=64.0)) > s.made.hole.x_m + (s.made.goal.leave_m or 0.0)
        ),
        "the ridge takes speed": lambda s: (
            s.rest(s.matched, _plateau(s.course)) < s.rest(s.matched, on_level_ground(s.course)) - 1.0
        ),
        "it gives it back": lambda s: s.rest(s.matched) > s.rest(s.matched, _plateau(s.course)) + 1.0,
        "What counts is the speed on top": lambda s: _over(s)[1] - _over(s)[0] > 3.0,
        "The ridge punishes a weak one": lambda s: (
            s.rest(changed(s.matched, depth_mm=7.0)) < s.rest(s.matched) - 4.0
        ),
        "Just short of the top it comes back": lambda s: _over(s)[0] < 5.0,
        "Just past it, it runs on": lambda s: _over(s)[1] - _over(s)[0] > 3.0,
    },
    "over-the-bunker": {
        "shows the ground more of the sole": lambda s: (
            s.bounce(_open(s, 25.0)) > s.bounce(_open(s, 0.0)) + 2.0
        ),
        "grows with the face and shrinks with the lean": lambda s: (
            s.bounce(_open(s, 25.0))
            > s.bounce(s.matched)
            > s.bounce(changed(s.matched, lean_change_deg=4.0)) + 3.0
        ),
        "Open the face for loft and bounce": lambda s: (
            s.loft(_open(s, 25.0)) > s.loft(_open(s, 0.0)) + 4.0
            and s.bounce(_open(s, 25.0)) > s.bounce(_open(s, 0.0)) + 2.0
        ),
        "Then the swing has to be longer": lambda s: s.carry(_open(s, 25.0)) < s.carry(_open(s, 0.0)) - 0.3,
        "bring little lean": lambda s: s.lean_added(s.start) < -3.0,
    },
    "the-hummock": {
        "adds loft without a new club": lambda s: s.loft(s.matched) > s.loft(_open(s, 0.0)) + 2.0,
        "sent the ball higher and shorter": lambda s: (
            s.launch(_open(s, 20.0)) > s.launch(_open(s, 10.0)) + 3.0
            and s.carry(_open(s, 20.0)) < s.carry(_open(s, 10.0)) - 1.0
        ),
        "more bounce for the same lean": lambda s: (
            s.bounce(_open(s, 30.0)) > s.bounce(_open(s, 0.0)) + 2.0
            and abs(s.lean(_open(s, 30.0)) - s.lean(_open(s, 0.0))) < 1.0
        ),
        "Then swing longer": lambda s: s.carry(_open(s, 20.0)) < s.carry(_open(s, 10.0)) - 1.0,
        "does not bring that lean": lambda s: s.lean_added(s.start) < -3.0,
        "head went deeper than set": lambda s: (
            s.deep(s.start) > s.deep(changed(s.start, shaft_lean_deg=-1.6)) + 5e-3
        ),
    },
    "short-sided": {
        "Flat and fast will not stop": lambda s: (
            s.roll(_same_carry(s, changed(s.matched, "GW", face_open_deg=0.0))) > s.roll(s.matched) + 0.5
        ),
        "came down steep and stayed": lambda s: (
            s.landing(s.matched) > 45.0 and s.roll(s.matched) < s.carry(s.matched)
        ),
        "Open the face for more loft": lambda s: s.loft(_open(s, 20.0)) > s.loft(_open(s, 0.0)) + 4.0,
        "head was still going down deep": lambda s: (
            s.shot(s.start).strike.depth > s.shot(changed(s.start, ball_position_cm=3.0)).strike.depth + 3e-3
        ),
        "Ball forward, it skims": lambda s: (
            s.solid(changed(s.start, ball_position_cm=3.0)) > s.solid(s.start) + 0.4
        ),
    },
    "thick-collar": {
        "Grass grabs the club": lambda s: (
            s.shot(s.matched).strike.head_loss > s.shot(s.matched, on_fairway(s.course)).strike.head_loss
            and s.spin(s.matched) < s.spin(s.matched, on_fairway(s.course))
        ),
        "A heavy head keeps more of its speed": lambda s: (
            s.shot(_heavier(s.matched, 0.32)).strike.head_loss
            < s.shot(_heavier(s.matched, 0.26)).strike.head_loss
        ),
        "took some speed and much of the spin": lambda s: (
            s.shot(s.matched).strike.head_loss > 0.03
            and s.spin(s.matched) < 0.8 * s.spin(s.matched, on_fairway(s.course))
        ),
        "With less spin the ball rolls on": lambda s: (
            s.rolled(s.matched, 0.7) > s.rolled(s.matched, 1.0) > 0.0
        ),
        "More loft gets the ball up and out": lambda s: (
            s.launch(s.matched) > s.launch(changed(s.matched, "8i")) + 8.0
        ),
        "Keep the lean small": lambda s: (
            s.solid(s.matched) > s.solid(changed(s.matched, shaft_lean_deg=12.0)) + 0.3
        ),
        "Lean takes bounce away": lambda s: _bounce_is_left(s, s.start) and s.bounce(s.start) < 0.0,
        "Without bounce the edge goes deep": lambda s: s.shot(s.start).strike.depth > 0.01,
    },
    "greenside-sand": {
        "The sand carries the ball out, not the face": lambda s: (
            s.shot(s.matched).strike.contact is Contact.SPLASHED and s.shot(s.matched).strike.cushion > 1e-3
        ),
        "Deeper sand took more speed": lambda s: (
            s.shot(changed(s.matched, depth_mm=20.0)).strike.head_loss
            > s.shot(changed(s.matched, depth_mm=15.0)).strike.head_loss
        ),
        "changed the flight by metres": lambda s: (
            s.carry(changed(s.matched, depth_mm=14.0)) > s.carry(changed(s.matched, depth_mm=19.0)) + 1.0
        ),
        "Open the face and go deep enough": lambda s: (
            _splashed(s, s.matched) > _splashed(s, changed(s.matched, depth_mm=10.0)) + 0.3
        ),
        "Sand takes speed, so swing long": lambda s: s.carry(changed(s.matched, swing_length_deg=80.0)) < 2.5,
        "With the handle forward the edge dives": lambda s: (
            s.shot(s.start).strike.depth > s.shot(changed(s.start, shaft_lean_deg=-1.7)).strike.depth + 5e-3
        ),
        "Bounce would have held it up": lambda s: (
            s.bounce(s.start) < 3.0 < s.bounce(changed(s.start, shaft_lean_deg=-1.7))
        ),
    },
    "fried-egg": {
        "lies deep in its own dent": lambda s: s.course.lie.lift < -5e-3,
        "The edge has to pass under it": lambda s: (
            _splashed(s, s.matched) > 0.8 > _splashed(s, changed(s.matched, depth_mm=6.0)) + 0.5
        ),
        "That moves much sand": lambda s: s.shot(s.matched).strike.head_loss > 0.1,
        "pushed the ball out low": lambda s: s.launch(s.matched) < 30.0 and _splashed(s, s.matched) > 0.8,
        "Low means a long run": lambda s: s.roll(s.matched) > s.carry(s.matched),
        "Square the face, bring the ball back, and go deeper": lambda s: (
            s.done(s.matched)
            > max(
                s.done(_open(s, 25.0)),
                s.done(changed(s.matched, ball_position_cm=6.0)),
                s.done(changed(s.matched, depth_mm=8.0)),
            )
            + 0.2
        ),
        "Sand takes the speed": lambda s: (
            s.ball_speed(s.matched) < 0.7 * s.shot(s.matched).strike.speed_before
        ),
        "lies lower than the sand around it": lambda s: s.course.lie.lift < -5e-3,
        "A shallow edge meets it high": lambda s: s.thin(s.start) > 0.9,
    },
    "old-divot": {
        "has to reach a ball that sits low": lambda s: s.course.lie.lift < -2e-3,
        "some lean let the edge get down": lambda s: (
            s.shot(s.matched).strike.edge_height < s.shot(s.start).strike.edge_height - 3e-3
            and s.solid(s.matched) > s.solid(s.start) + 0.5
        ),
        "a little less bounce is right": lambda s: (
            s.solid(s.matched) > s.solid(changed(s.matched, "GW-high")) + 0.03
        ),
        "head was already rising": lambda s: s.shot(s.start).strike.attack > 0.0,
        "A low ball needs a low edge": lambda s: s.thin(s.start) > 0.9 > s.thin(s.matched) + 0.5,
    },
    "after-rain": {
        "the sand firm": lambda s: s.made.ground[5].surface == "wet_sand",
        "bounces off it and the edge comes up": lambda s: (
            s.shot(s.start).strike.edge_height > s.shot(s.matched).strike.edge_height + 2e-3
        ),
        "The narrow sole went in": lambda s: _splashed(s, s.matched) > 0.8,
        "Here bounce is no friend": lambda s: (
            _splashed(s, changed(s.matched, "SW-high")) < _splashed(s, s.matched) - 0.3
        ),
        "Less bounce and a square face": lambda s: (
            _splashed(s, _open(s, 20.0)) < _splashed(s, s.matched) - 0.3
        ),
        "Firm sand bears more": lambda s: (
            s.shot(s.start).strike.depth < s.shot(s.start, _dry(s.course)).strike.depth
        ),
        "much bounce rides on it": lambda s: (
            s.shot(changed(s.matched, "SW-high")).strike.depth < s.shot(s.matched).strike.depth - 1e-3
        ),
    },
    "quick-and-down": {
        "The green runs fast and away from you": lambda s: (
            s.made.green_speed > 3.5
            and s.roll(s.matched) > s.roll(s.matched, on_level_ground(s.course)) + 1.0
        ),
        "The slope does the rest": lambda s: s.roll(s.matched) > 2.0 * s.carry(s.matched),
        "A thin one runs far past": lambda s: (
            s.rest(changed(s.matched, depth_mm=-4.0)) > s.made.hole.x_m + 3.0
        ),
        "became a long roll": lambda s: (
            s.roll(changed(s.matched, swing_length_deg=29.0))
            - s.roll(changed(s.matched, swing_length_deg=26.0))
            > 2.0
            * (
                s.carry(changed(s.matched, swing_length_deg=29.0))
                - s.carry(changed(s.matched, swing_length_deg=26.0))
            )
        ),
        "So much lean leaves no bounce": lambda s: (
            degrees(s.start.setup.club.bounce) - degrees(s.start.setup.shaft_lean) < 0.0
        ),
        "The edge went in and stopped": lambda s: s.shot(s.start).run.outcome is Outcome.STUCK,
    },
    "up-the-bank": {
        "Uphill takes speed twice": lambda s: _takes_twice(s, changed(s.matched, swing_length_deg=48.0)),
        "The step cost metres of roll": lambda s: (
            s.roll(s.matched) < s.roll(s.matched, on_level_ground(s.course)) - 2.0
        ),
        "more speed than your eye believes": lambda s: (
            s.rest(s.swing_for(s.matched, s.carry(s.matched) * 0.8)) < s.rest(s.matched) - 3.0
        ),
        "met the ground first": lambda s: s.shot(s.start).strike.head_loss > 0.4,
        "gone before the step": lambda s: s.rest(s.start) < 5.0,
    },
    "north-wind": {
        "blows hard in your face": lambda s: s.course.wind < -8.0,
        "High up it blows harder": lambda s: s.lost_to_wind("LW")[0] > s.lost_to_wind("7i")[0] + 0.3,
        "The wind took less from the low one": lambda s: (
            s.lost_to_wind("LW")[1] > s.lost_to_wind("7i")[1] + 1.0
        ),
        "Keep the ball low": lambda s: (
            s.launch(s.matched) < s.launch(changed(s.matched, "LW")) - 10.0
            and s.launch(s.matched) < s.launch(changed(s.matched, lean_change_deg=-5.0)) - 2.0
        ),
        "met the ground first": lambda s: s.shot(s.start).strike.head_loss > 0.4,
        "The wind had hardly begun": lambda s: s.carry(s.start, still_air(s.course)) - s.carry(s.start) < 0.1,
    },
    "downhill-lie": {
        "falls away under the ball": lambda s: s.slope() < -8.0,
        "The slope tips every shot down": lambda s: (
            s.launch(s.start) < s.launch(s.start, on_level_ground(s.course)) - 5.0
            and s.launch(s.matched) < s.launch(s.matched, on_level_ground(s.course)) - 5.0
        ),
        "as many degrees as it falls": lambda s: (
            abs(s.launch(s.matched, on_level_ground(s.course)) - s.launch(s.matched) + s.slope()) < 2.0
        ),
        "turns a wedge into a stronger club": lambda s: (
            s.launch(s.matched) < s.launch(changed(s.matched, "GW"), on_level_ground(s.course)) + 3.0
        ),
        "More loft, less lean": lambda s: s.launch(s.matched) > s.launch(changed(s.matched, "PW")) + 8.0,
        "tips the whole shot down": lambda s: s.launch(s.matched) < s.loft(s.matched) - 10.0,
        "face, path and flight": lambda s: (
            abs(s.launch(s.matched, on_level_ground(s.course)) - s.launch(s.matched) + s.slope()) < 2.0
        ),
    },
    "hold-it-off": {
        "A low runner": lambda s: s.made.reference.family == "low" and s.launch(s.matched) < 28.0,
        "kept the handle in front": lambda s: (
            s.lean(s.matched) > s.lean(changed(s.matched, release=1.7)) + 2.0
            and s.lean(s.matched) > s.lean(changed(s.matched, follow_through=0.2)) + 2.0
        ),
        "the lean that was set came back": lambda s: abs(s.lean_added(s.matched)) < 1.0,
        "Less release and a longer finish": lambda s: (
            s.lean(changed(s.start, release=0.75)) > s.lean(s.start) + 2.0
            and s.lean(changed(s.start, follow_through=0.95)) > s.lean(s.start) + 2.0
        ),
        "Then shorten the swing": lambda s: (
            s.rest(changed(s.matched, swing_length_deg=60.0)) > s.made.hole.x_m + 2.0
        ),
        "Release lets the head catch up": lambda s: (
            s.lean(changed(s.matched, release=1.7)) < s.lean(s.matched) - 2.0
        ),
        "Then the handle falls back": lambda s: s.lean_added(s.start) < -3.0,
    },
    "soft-hands": {
        "A soft, high shot over a rough strip": lambda s: s.made.reference.family == "high",
        "More swing, less distance": lambda s: (
            s.carry(s.matched) < s.carry(changed(s.matched, "PW", face_open_deg=0.0)) - 1.0
        ),
        "belong to ball and face": lambda s: (
            abs(s.lean_added(s.matched)) < 1.0
            and all(
                abs(s.lean_added(other)) > 2.0
                for other in (
                    changed(s.matched, release=0.6),
                    changed(s.matched, follow_through=1.0),
                    changed(s.matched, ball_position_cm=-7.0),
                )
            )
        ),
        "a high start and a soft landing": lambda s: (
            s.launch(s.matched) > 50.0 and s.landing(s.matched) > 48.0
        ),
        "Let the club pass the hands": lambda s: (
            s.launch(changed(s.start, release=1.3)) > s.launch(s.start) + 3.0
        ),
        "More release lets the club pass the hands": lambda s: (
            s.lean(changed(s.start, release=1.3)) < s.lean(s.start) - 2.0
        ),
        "So the loft stays on": lambda s: s.loft(changed(s.start, release=1.3)) > s.loft(s.start) + 2.0,
    },
    "steady-handle": {
        "A flick changes loft, height and bounce at once": lambda s: _flick(s),
        "nothing has to be made up for": lambda s: (
            abs(s.lean_added(s.matched)) < 1.0 and s.solid(s.matched) > 0.9
        ),
        "The release need not hurry": lambda s: s.matched.value("release") < s.start.value("release") - 0.5,
        "falls back adds loft and bounce": lambda s: _flick(s),
        "It also lifts the edge": lambda s: (
            s.shot(s.start).strike.edge_height
            > s.shot(changed(s.start, lean_change_deg=0.0)).strike.edge_height + 1e-3
        ),
    },
    "front-pin": {
        "Enough loft to stop soon past the sand": lambda s: (
            s.cleared(s.matched) > 0.9 and s.roll(s.matched) < s.roll(changed(s.matched, "PW")) - 3.0
        ),
        "Enough bounce for a small slip": lambda s: (
            s.solid(changed(s.matched, depth_mm=8.0)) > s.solid(changed(s.matched, "PW", depth_mm=8.0)) + 0.1
        ),
        "A long swing carries it, and even then it may dig": lambda s: (
            s.cleared(changed(s.start, swing_length_deg=110.0)) > s.cleared(s.start) + 0.3
            and s.fat(changed(s.start, swing_length_deg=110.0)) > 0.5
        ),
    },
    "back-tier": {
        "Short costs a putt": lambda s: 0.0 < _cost_of_missing(s)[0] < 1.0,
        "Long costs a ball": lambda s: _cost_of_missing(s)[1] > 1.0,
        "It needs enough speed for the step": lambda s: (
            s.rest(changed(s.matched, swing_length_deg=56.0)) < 12.8 < s.rest(s.matched)
        ),
        "Keep the ball low": lambda s: s.landing(s.matched) < 40.0,
        "some balls get wet": lambda s: float(np.mean(_flown(s).code == WATER)) > 0.05,
        "Run up, hardly one does": lambda s: float(np.mean(s.many(s.matched).code == WATER)) < 0.03,
    },
    "last-green": {
        "Then slips cost little": lambda s: s.solid(s.matched) > 0.8 > s.solid(s.start) + 0.5,
        "Square the face and lean a little": lambda s: (
            s.solid(changed(s.start, shaft_lean_deg=5.1)) > s.solid(s.start)
        ),
        "the simplest shot that forgives": lambda s: (
            s.many(s.matched).mean_strokes < s.many(s.start).mean_strokes - 0.5
        ),
    },
}

# Sentences that no stroke can show, by the reason.
NOT_PLAYED: dict[str, tuple[str, ...]] = {
    "describes the place as the file draws it": (
        "The ball lies far toward your lead foot.",
        "The fringe is short and the green is almost level.",
        "The grass is shaved and the ground is firm.",
        "The ground is wet and gives way.",
        "You stand under a willow.",
        "The branches begin just ahead of you.",
        "An old stone wall stands between you and the green.",
        "The green sits on a shelf above a grassy bank.",
        "The flagstick is far and nothing is in the way.",
        "A ridge crosses the green like a sleeping cow.",
        "The flagstick is close behind the bunker.",
        "A grassy hummock hides the flagstick.",
        "Little green lies between you and the flagstick.",
        "It falls away.",
        "The ball sits down in long grass.",
        "Dry sand gives way like sugar.",
        "Someone left an old divot, and your ball rolled in.",
        "The grass is tight.",
        "The green climbs a step and the grass is slow.",
        "Sand in front, flagstick behind it.",
        "The flagstick stands on the back step, and water lies behind.",
        "People watch from the clubhouse wall.",
        "A low ridge, a slope beyond: everything is yours to choose.",
    ),
    "says what to do; the reference does so, and is proved": (
        "Put more on the lead foot.",
        "Bring the ball back toward the middle of your feet.",
        "The sole should kiss the grass, not plough it.",
        "Aim the sole just under the grass tops.",
        "Bring the ball back.",
        "Add no lean by impact.",
        "Take a club with less loft, ball further back.",
        "More loft, no lean, ball forward of where it is.",
        "Take more loft.",
        "The ball may fly a little and roll a lot.",
        "Land early and let the green do the work.",
        "Open the face a little and make a long, calm swing.",
        "Set what the motion brings.",
        "Shaft plumb, face open.",
        "Ball forward, and a short finish.",
        "Keep it simple: low and running.",
        "Ball back, some lean, and a club that likes to run.",
        "Take more loft, and land on the green.",
        "The club does not hurry past the hands.",
        "Let the handle travel well away after the strike.",
        "The club passes the hands; the arms fold and stay close.",
        "No lean added.",
        "Match the rest too.",
        "Aim the sole at the grass, then find the length.",
    ),
    "sets the task or says what to look at; foretells nothing": (
        "Find it with your feet and with the ball.",
        "Look where the club touches the ground first.",
        "Move the ball, then find the length of swing.",
        "First make the strike clean.",
        "Then look at the distance.",
        "Find the height between the two.",
        "Watch how deep the sole sinks in the turf window.",
        "Land the ball a step onto the green and let it roll.",
        "Compare the lean at impact with the lean at address.",
        "Subtract the lean from the bounce.",
        "Get up the bank and onto the green.",
        "The ball has to stay low and run.",
        "The ball has to climb early and land soft.",
        "Think of loft first, then of length.",
        "Land on the shelf, not in the bank.",
        "First find a landing on the shelf.",
        "Get it onto the green and near the flagstick.",
        "Predict where it lands and where it stops.",
        "Divide the roll by the flight.",
        "Watch the ball on top of the ridge.",
        "Make a clean strike first.",
        "The ball must land steeply.",
        "Bring the handle back to where you set it.",
        "Over it, and then stop soon.",
        "Look at how it starts.",
        "Find height, and bring the handle back where it was.",
        "Count the steps.",
        "Bring the handle back where it was.",
        "Plan for that.",
        "Land softly near the edge.",
        "Choose the set-up that forgives most.",
        "Compare where the ball landed with where it stopped.",
        "Make the strike safe first, then take speed away.",
        "Compare this roll with one on a level green.",
        "Watch the speed at the foot of the step.",
        "Make the strike clean.",
        "Compare a low and a high ball to the same place.",
        "Watch how fast the club passes the hands.",
        "Set the handle, then bring it home to the same place.",
        "One picture: the club back to where it was.",
        "Compare the handle at impact with the handle at address.",
        "Think of where the misses go.",
        "The band shows where your shots would end.",
        "Choose the shot whose misses you can live with.",
        "Look at both ends of the band.",
        "Set, predict, play, ask why.",
        "The next green asks the same four things.",
        "Start with the strike.",
    ),
    "explains a word, or sums up what its neighbours claim": (
        "Every swing has a low point.",
        "The ball moved back along the swing.",
        "Loft at impact starts the ball.",
        "The first part of the green is the safest place to land.",
        "Ball, face and finish worked as one.",
        "Sand is heavy.",
        "Wet sand is firm.",
        "That is what a matched stroke means.",
        "A choice is good when neither end is wet.",
        "Matched parts want the same shot.",
    ),
}
