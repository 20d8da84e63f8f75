"""Dry sand against a plate element: resistive force theory, quasi-static and dynamic.

Stress on a small plate grows with depth and depends only on its tilt B and its direction of
motion G (Li, Zhang & Goldman 2013, Science 339:1408). At speed the grains' momentum adds
lambda rho v_n^2 on the normal (Agarwal et al. 2021). A face counts only while it leads.

Angles: G is the direction of motion below the horizontal (90 degrees = straight down). B is the
tilt of the plate, positive with the leading edge high, given here as the direction of its outward
normal turned from straight down toward +x: n = (sin B, -cos B). So a level sole has B = 0, a
sole with its leading edge raised 10 degrees B = 10, a face of 56 degrees loft B = 146
(the same plate as -34: the fit repeats every 180 degrees).
"""

from math import atan2, cos, hypot, pi, sin

from physics.compiled import law

__all__ = ["resistive_alpha", "sand_push", "sand_stress"]

# Generic coefficients, Li, Zhang & Goldman 2013, table S2: double Fourier series of first order,
# scaled so that alpha_z = 1 for a level plate pushed straight down.
A00, A10, B11, B01, BM11 = 0.206, 0.169, 0.212, 0.358, 0.055
C11, C01, CM11, D10 = -0.124, 0.253, 0.007, 0.088

# assumed: below this normal speed (m/s) resistance fades, so that an element about to part from
# the sand lets go without a jump. Far below strike speeds of 3-15 m/s.
FADE = 0.05


@law
def resistive_alpha(tilt: float, heading: float) -> tuple[float, float]:
    """Stress per depth (alpha_x, alpha_z) for scale 1, B = tilt, G = heading (rad).

    Drag is -alpha_x, lift +alpha_z. Motion backward (|G| > 90) is the mirror picture:
    alpha_z(B, G) = alpha_z(-B, pi - G), alpha_x(B, G) = -alpha_x(-B, pi - G).
    """
    flip = 1.0
    b, g = tilt, heading
    if cos(g) < 0.0:
        flip, b, g = -1.0, -b, pi - g
    twice = 2.0 * b
    z = A00 + A10 * cos(twice) + B11 * sin(twice + g) + B01 * sin(g) + BM11 * sin(g - twice)
    x = C11 * cos(twice + g) + C01 * cos(g) + CM11 * cos(g - twice) + D10 * sin(twice)
    return flip * x, z


@law
def sand_stress(
    tilt: float,
    heading: float,
    depth: float,
    speed: float,
    grain: float,
    density: float,
    inertia: float,
    c_yield: float,
) -> tuple[float, float]:
    """Stress of sand on one element, (along x, up), Pa.

    grain: scale zeta, N/m3 (1 N/cm3 = 1e6); inertia: lambda; c_yield: pressure of damp sand's
    cohesion (c Nc), Pa, added on the normal. Zero above the sand and where the outward normal
    (sin tilt, -cos tilt) does not lead.
    """
    v_n = speed * sin(tilt + heading)
    if depth <= 0.0 or v_n <= 0.0:
        return 0.0, 0.0
    share = min(1.0, v_n / FADE)
    alpha_x, alpha_z = resistive_alpha(tilt, heading)
    normal = share * c_yield + inertia * density * v_n * v_n
    scale = share * grain * depth
    return -scale * alpha_x - normal * sin(tilt), scale * alpha_z + normal * cos(tilt)


@law
def sand_push(
    nx: float,
    ny: float,
    vx: float,
    vy: float,
    depth: float,
    grain: float,
    density: float,
    inertia: float,
    c_yield: float,
) -> tuple[float, float]:
    """`sand_stress` from vectors: outward normal (unit) and velocity of the element (m/s)."""
    speed = hypot(vx, vy)
    if depth <= 0.0 or nx * vx + ny * vy <= 0.0:
        return 0.0, 0.0
    return sand_stress(atan2(nx, -ny), atan2(-vy, vx), depth, speed, grain, density, inertia, c_yield)
