"""Turf before the leading edge and the face: the fundamental equation of earth moving.

    P = (rho g d^2 Ng + c d Nc + ca d Na + q d Nq + rho v^2 d Nv) w

Reece 1964 (Proc. IMechE 179, 3F) with plane-wedge factors, the failure plane at the angle beta
that makes P least (McKyes 1985). Rake is the angle of the face from the horizontal, so
90 degrees minus dynamic loft; delta is friction of soil on steel. An upper bound: near the
truth for rakes of 30-60 degrees, too strong for a steep rough face.

The least P without a search in angles (derived): with u = cot rake + cot beta and
psi = rake + delta + phi, the force per area without adhesion and surcharge is

    P/(w d) = (A u^2 + B u + E + H/u) / (sin psi (u - q)),   q = cot rake - cot psi

a convex function over a rising line. Its minimum is the only root beyond q of the rising
function A u^2 - 2 A q u - (B q + E) - 2 H/u + H q/u^2; Newton steps find it in a few sums.
"""

from math import atan2, cos, sin, tan

from physics.compiled import law
from physics.constants import GRAVITY

__all__ = ["cutting_factors", "cutting_force", "easiest_plane", "pull_reversal_rake", "reece_force"]

RIGHT_ANGLE = 1.5707963267948966
STRAIGHT = 3.141592653589793
FLATTEST = 0.03  # rad; a flatter face is a sole, not a blade (assumed)
LEAST_FRICTION = 1e-6  # rad; soil without friction or cohesion would fail on a plane without end
NEARLY = 1e-10  # relative size of the last Newton step
STEPS = 60  # far beyond the 2-6 used; bisection alone would end in 60


@law
def cutting_factors(
    rake: float, beta: float, phi: float, delta: float
) -> tuple[float, float, float, float, float]:
    """Factors (Ng, Nc, Na, Nq, Nv) of a plane wedge failing at beta (rad).

    Reece 1964, McKyes 1985; Nv from the momentum of the chip moving up the plane (derived).
    Valid while rake + delta + beta + phi < pi.
    """
    cot_rake = 1.0 / tan(rake)
    cot_beta = 1.0 / tan(beta)
    cot_sum = 1.0 / tan(beta + phi)
    d = cos(rake + delta) + sin(rake + delta) * cot_sum
    length = cot_rake + cot_beta
    nc = (1.0 + cot_beta * cot_sum) / d
    return 0.5 * length / d, nc, (1.0 - cot_rake * cot_sum) / d, length / d, nc / length


@law
def reece_force(
    depth: float,
    width: float,
    speed: float,
    rake: float,
    beta: float,
    density: float,
    cohesion: float,
    adhesion: float,
    surcharge: float,
    phi: float,
    delta: float,
) -> tuple[float, float, float]:
    """Whole equation at a given failure plane: (P, drag, pull down), N.

    Drag = P sin(rake + delta) + ca d w cot rake; pull down = P cos(rake + delta) - ca d w.
    """
    ng, nc, na, nq, nv = cutting_factors(rake, beta, phi, delta)
    stress = (
        density * GRAVITY * depth * ng
        + cohesion * nc
        + adhesion * na
        + surcharge * nq
        + density * speed**2 * nv
    )
    force = stress * depth * width
    stick = adhesion * depth * width
    drag = force * sin(rake + delta) + stick / tan(rake)
    return force, drag, force * cos(rake + delta) - stick


@law
def pull_reversal_rake(delta: float) -> float:
    """Rake (rad) at which the pull of a clean face turns from down to up: 90 degrees - delta."""
    return RIGHT_ANGLE - delta


@law
def _least(a: float, b: float, e: float, h: float, q: float, start: float) -> float:
    """Root beyond q of the rising function in the module's heading: Newton kept in a bracket."""
    low, high = q, 0.0  # high = 0: not known yet
    u = start if start > q else 2.0 * q + 1.0
    c = -(b * q + e)
    for _ in range(STEPS):
        v = 1.0 / u
        slope = 2.0 * (a + h * v * v * v) * (u - q)
        value = a * u * (u - 2.0 * q) + c + h * v * (q * v - 2.0)
        if value < 0.0:
            low = u
        else:
            high = u
        step = value / slope
        new = u - step
        if new <= low:
            new = 0.5 * (low + u)
        elif high > 0.0 and new > high:
            new = 0.5 * (low + high)
        elif new > 4.0 * u:
            new = 4.0 * u
        if abs(new - u) <= NEARLY * u:
            return new
        u = new
    return u


@law
def easiest_plane(
    depth: float,
    speed: float,
    rake: float,
    density: float,
    cohesion: float,
    phi: float,
    delta: float,
    beta0: float,
) -> tuple[float, float]:
    """Failure plane of least resistance and the force per width and depth there: (beta, Pa).

    beta0 (rad) warms the search; beta0 <= 0 starts it from the plane of cohesion alone.
    Needs 0 < rake and rake + delta + phi < pi, and something that resists.
    """
    phi = max(phi, LEAST_FRICTION)
    cot_rake = 1.0 / tan(rake)
    psi = rake + delta + phi
    sin_psi = sin(psi)
    sin_phi, cos_phi = sin(phi), cos(phi)
    weight = 0.5 * density * GRAVITY * depth
    bond = cohesion * cos_phi
    rush = density * speed**2 * cos_phi
    square = 1.0 + cot_rake * cot_rake
    a = weight * sin_phi + bond
    b = weight * (cos_phi - cot_rake * sin_phi) - 2.0 * cot_rake * bond + rush
    e = bond * square - 2.0 * cot_rake * rush
    h = rush * square
    q = cot_rake - cos(psi) / sin_psi
    start = cot_rake + (1.0 / tan(beta0) if beta0 > 0.0 else tan(0.5 * psi))
    u = _least(a, b, e, h, q, start)
    stress = (u * (a * u + b) + e + h / u) / (sin_psi * (u - q))
    return atan2(1.0, u - cot_rake), stress


@law
def cutting_force(
    depth: float,
    width: float,
    speed: float,
    rake: float,
    density: float,
    cohesion: float,
    phi: float,
    delta: float,
    beta0: float,
) -> tuple[float, float, float]:
    """Force of turf on an edge and face cutting `depth` deep: (drag N, pull down N, beta rad).

    Drag acts against the motion; pull down > 0 draws the head into the ground. No adhesion, no
    surcharge. speed >= 0 (m/s). Hand beta back as beta0 at the next step; beta0 <= 0 starts
    cold. Rake is held between 0.03 rad and where the wedge can still move. Source: see heading.
    """
    if depth <= 0.0 or width <= 0.0 or density + cohesion <= 0.0:
        return 0.0, 0.0, beta0
    held = min(max(rake, FLATTEST), STRAIGHT - phi - delta - FLATTEST)
    beta, stress = easiest_plane(depth, speed, held, density, cohesion, phi, delta, beta0)
    force = stress * depth * width
    return force * sin(held + delta), force * cos(held + delta), beta
