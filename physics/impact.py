"""Club on ball: one oblique blow, gripping or slipping.

Plane rigid impulse between a moving head and a ball at rest, derived from momentum and angular
momentum; form as in Penner 2003 (Rep. Prog. Phys. 66:131) and Cross 2002 (Am. J. Phys. 70:1093).
The head counts with its own mass: the shaft is too slow to be felt during contact.
"""

from math import copysign

from physics.compiled import law
from physics.equipment import BALL, BALL_MASS, BALL_RADIUS

__all__ = ["TANGENT_RESTITUTION", "face_restitution", "oblique_impact"]

TURNING = 1.0 + BALL.mass * BALL.radius**2 / BALL.inertia  # 7/2 for a solid sphere
# from memory: 0.0-0.2; grip stores some shear and gives it back (Cross 2002). 0 = leaves rolling.
TANGENT_RESTITUTION = 0.10
RESTITUTION_AT_REST = 0.86  # from memory: Penner 2001, fitted at driver speeds; +-0.04 at chips
RESTITUTION_LOSS = 0.0029  # s/m, same fit
RESTITUTION_LIMIT = 0.95  # assumed bound, so that no scale makes a blow gain energy


@law
def face_restitution(v_n: float) -> float:
    """Share of the normal speed given back at approach v_n (m/s): 0.86 - 0.0029 v_n, >= 0."""
    return max(0.0, RESTITUTION_AT_REST - RESTITUTION_LOSS * v_n)


@law
def oblique_impact(
    vx: float,
    vy: float,
    nx: float,
    ny: float,
    head_mass: float,
    mu: float,
    restitution_scale: float,
    tangent_restitution: float = TANGENT_RESTITUTION,
) -> tuple[float, float, float, float, float]:
    """Blow on a ball at rest: (ball vx, ball vy m/s, spin rad/s, normal, tangential impulse N s).

    (vx, vy): velocity of the struck point of the head; (nx, ny): unit contact normal from club to
    ball, any direction. The tangent points down the face, (ny, -nx), so rubbing down an
    upward-looking face gives spin > 0, backspin. Ball velocity is along both impulses; the head
    gets their opposite. Grips when mu allows, else slips throughout. Nothing when v_n <= 0.
    """
    v_n = vx * nx + vy * ny
    if v_n <= 0.0:
        return 0.0, 0.0, 0.0, 0.0, 0.0
    v_t = vx * ny - vy * nx
    e = min(max(restitution_scale * face_restitution(v_n), 0.0), RESTITUTION_LIMIT)
    lightness = BALL_MASS / head_mass
    u_n = (1.0 + e) * v_n / (1.0 + lightness)
    grip = (1.0 + tangent_restitution) * v_t / (lightness + TURNING)
    u_t = copysign(min(abs(grip), mu * u_n), v_t)
    spin = (TURNING - 1.0) * u_t / BALL_RADIUS
    return (
        u_n * nx + u_t * ny,
        u_n * ny - u_t * nx,
        spin,
        BALL_MASS * u_n,
        BALL_MASS * u_t,
    )
