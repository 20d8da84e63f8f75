"""The surfaces that club and ball meet: turf, sand and mat, each one frozen set of numbers.

Stiffness comes from Clegg readings by the linear-spring rule k/A = m (G g)^2 / (v^2 A), derived from
the drops of ASTM D5874. Everything else is assumed inside published ranges: cohesion 8-50 kPa and
root line force 200-500 N/m from sod tension tests (Gopinath 2021, Guillard 2015), friction of soil on
steel tan 0.15-0.6, sand scale 0.9-2.7 N/cm3 (Agarwal 2023). Calibration happens here
and nowhere else; ``FITTED`` says what each changed value was fitted to.
"""

from dataclasses import dataclass, replace
from math import radians

from physics.constants import GRAVITY

__all__ = ["FACE_FRICTION", "FITTED", "MAT", "SAND", "SURFACES", "TURF", "Surface", "as_played", "green"]

TURF, SAND, MAT = 0, 1, 2


@dataclass(frozen=True, kw_only=True)
class Surface:
    """One surface. SI, angles in rad."""

    name: str
    label: str
    kind: int  # TURF, SAND or MAT: which law answers the club
    # under the club
    stiffness: float  # Pa/m, pressure per depth of a plate before it yields
    density: float  # kg/m3
    cohesion: float  # Pa, soil and root mat together
    friction_angle: float  # rad, inner friction
    steel_angle: float  # rad, friction on steel
    root_line: float  # N/m, force to cut the root mat, per metre of edge
    rebound: float  # normal restitution of a sole pressed in and let go
    shear_travel: float  # m, slip to 63 % of full shear (Janosi-Hanamoto K)
    inertia: float  # factor on rho v_n^2, dynamic resistive force theory
    cover: float  # m, thatch, pile or loose grass over the firm layer
    cover_share: float  # stiffness of the cover as a share of `stiffness`
    grain: float  # N/m3, granular resistive scale (zeta); 0 = not granular
    # around the ball
    ball_raise: float  # m, how far grass holds the ball above the firm layer
    face_friction: float  # ball on face through this lie, clean contact; ends in FACE_FRICTION
    usual_depth: float  # m under the surface that a plain stroke from here brushes, assumed
    grass_drag: float  # N, pull of the standing grass on the head
    # under the ball
    crater: float  # scale on the tilt of the ground under a landing ball (1 = reference green)
    bounce: float  # scale on the normal restitution of a landing ball (1 = reference green)
    bounce_friction: float  # friction while the ball bounces
    slide: float  # friction while the ball slides
    roll: float  # rolling deceleration over g


FAIRWAY = Surface(
    name="fairway", label="fairway", kind=TURF,
    stiffness=80e6, density=1600.0, cohesion=20e3,
    friction_angle=radians(30), steel_angle=radians(15), root_line=300.0,
    rebound=0.25, shear_travel=4e-3, inertia=1.0, cover=5e-3, cover_share=0.2, grain=0.0,
    ball_raise=5e-3, face_friction=0.18, usual_depth=1.5e-3, grass_drag=0.0,
    crater=1.1, bounce=0.8, bounce_friction=0.40, slide=0.40, roll=0.20,
)  # fmt: skip

SURFACES: dict[str, Surface] = {
    s.name: s
    for s in (
        replace(
            FAIRWAY, name="green", label="green", stiffness=125e6, cover=2e-3, ball_raise=0.5e-3,
            face_friction=0.40, usual_depth=4e-3, crater=1.0, bounce=1.0, slide=0.30, roll=0.0560,
        ),
        replace(
            FAIRWAY, name="fringe", label="fringe", cover=3e-3, ball_raise=2.5e-3,
            face_friction=0.22, usual_depth=2.5e-3, crater=1.0, bounce=0.9, slide=0.35, roll=0.12,
        ),
        replace(
            FAIRWAY, name="tight", label="tight firm turf", stiffness=180e6, density=1700.0,
            cohesion=40e3, friction_angle=radians(35), root_line=500.0, rebound=0.15,
            shear_travel=2e-3, cover=2e-3, ball_raise=0.5e-3, face_friction=0.40,
            usual_depth=4e-3, crater=0.6, bounce=1.15, bounce_friction=0.32, roll=0.15,
        ),
        FAIRWAY,
        replace(
            FAIRWAY, name="soft", label="soft wet turf", stiffness=20e6, density=1800.0,
            cohesion=8e3, friction_angle=radians(15), steel_angle=radians(12), root_line=200.0,
            rebound=0.10, shear_travel=8e-3, cover=6e-3, ball_raise=2e-3, face_friction=0.14,
            usual_depth=2e-3, crater=1.3, bounce=0.5, bounce_friction=0.45, roll=0.25,
        ),
        replace(
            FAIRWAY, name="rough", label="rough", stiffness=31e6, density=1550.0, cohesion=15e3,
            friction_angle=radians(28), steel_angle=radians(18), rebound=0.15, shear_travel=6e-3,
            cover=8e-3, ball_raise=10e-3, face_friction=0.12, usual_depth=-1e-3, grass_drag=2.5,
            crater=1.2, bounce=0.6, bounce_friction=0.50, slide=0.60, roll=0.55,
        ),
        replace(
            FAIRWAY, name="sand", label="dry sand", kind=SAND, stiffness=0.0, density=1550.0,
            cohesion=0.3e3, friction_angle=radians(33), steel_angle=radians(22), root_line=0.0,
            rebound=0.0, shear_travel=5e-3, cover=0.0, grain=1.2e6, ball_raise=-3e-3,
            face_friction=0.30, usual_depth=18e-3,
            crater=1.4, bounce=0.15, bounce_friction=0.60, slide=0.70, roll=1.2,
        ),
        replace(
            FAIRWAY, name="wet_sand", label="firm wet sand", kind=SAND, stiffness=0.0,
            density=1750.0, cohesion=4e3, friction_angle=radians(36), steel_angle=radians(22),
            root_line=0.0, rebound=0.05, shear_travel=4e-3, cover=0.0, grain=2.0e6,
            ball_raise=-1e-3, face_friction=0.30, usual_depth=12e-3,
            crater=1.2, bounce=0.35, bounce_friction=0.55, slide=0.60, roll=0.8,
        ),
        replace(
            FAIRWAY, name="mat", label="hard mat", kind=MAT, stiffness=281e6, density=0.0,
            cohesion=0.0, friction_angle=0.0, steel_angle=radians(19.3), root_line=0.0, rebound=0.35,
            shear_travel=0.1e-3, inertia=0.0, cover=4e-3, cover_share=0.04, ball_raise=0.0,
            face_friction=0.40, usual_depth=5e-3,
            crater=0.3, bounce=1.3, bounce_friction=0.35, slide=0.35, roll=0.07,
        ),
    )
}  # fmt: skip

# Friction of ball on face by lie, its wet end and its dry end: bare and dry 0.35-0.45 (from memory), light
# grass 0.15-0.25, grass or water between 0.09-0.15 (assumed ranges). A surface plays at one value inside.
FACE_FRICTION: dict[str, tuple[float, float]] = {
    "green": (0.12, 0.45),
    "fringe": (0.12, 0.25),
    "tight": (0.12, 0.45),
    "fairway": (0.10, 0.25),
    "soft": (0.09, 0.15),
    "rough": (0.09, 0.15),
    "sand": (0.20, 0.45),
    "wet_sand": (0.20, 0.45),
    "mat": (0.15, 0.45),
}

FITTED: dict[str, str] = {
    "fairway.steel_angle": "15 degrees, within wet or living grass on steel (tan 0.15-0.3, from memory): "
    "a sole with bounce left skids a 5 mm low chip at little over a tenth of its speed",
    "fairway.ball_raise": "5 mm, half of 10-13 mm of fairway grass: a matched chip of a club player is "
    "thin about 1 time in 10",
    "rough.grass_drag": "2.5 N: clean chips lose about 7 % of their speed wading through",
    "mat.cover_share": "4 %: nylon pile crushes before the firm layer bears",
    "mat.steel_angle": "19.3 degrees, the low end of 0.35-0.5",
}


def green(speed_m: float, firmness: float = 1.0) -> Surface:
    """The green at a Stimpmeter reading (metres) and a firmness (0.5 soft, 1 reference, 1.5 firm).

    Stimpmeter release speed 1.83 m/s: roll over g = v^2 / (2 S g) (USGA Stimpmeter booklet figures).
    """
    base = SURFACES["green"]
    return replace(
        base,
        roll=1.83**2 / (2.0 * speed_m * GRAVITY),
        crater=base.crater * (2.0 - firmness) if firmness >= 1.0 else base.crater * (1.6 - 0.6 * firmness),
        bounce=base.bounce * (0.6 + 0.4 * firmness),
    )


def as_played(surface: Surface, speed_m: float, firmness: float) -> Surface:
    """The surface as it plays today: greens by speed and firmness, other turf half as firm (assumed)."""
    if surface.name == "green":
        return green(speed_m, firmness)
    if surface.kind != TURF:
        return surface
    return replace(
        surface,
        crater=surface.crater * (1.3 - 0.3 * firmness),
        bounce=surface.bounce * (0.8 + 0.2 * firmness),
    )
