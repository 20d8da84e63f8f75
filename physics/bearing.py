"""Turf under a plate: sinkage, shear, bearing capacity, and the elastic-plastic plate.

All pressures Pa, lengths m, angles rad. Bearing factors are for a strip (plane strain).
Sinkage and shear laws were fitted to plates of 5-15 cm pressed slowly; under a 20 mm sole they
are an extrapolation, so turf uses the Clegg stiffness and `bearing_pressure` instead.
"""

from math import cos, exp, pi, tan

from physics.compiled import law
from physics.constants import GRAVITY

__all__ = [
    "bearing_pressure",
    "bekker_pressure",
    "bekker_sinkage",
    "bekker_work",
    "clegg_peak_pressure",
    "clegg_stiffness",
    "inclined_cohesion",
    "janosi_shear",
    "meyerhof_ng",
    "plate_pressure",
    "prandtl_nc",
    "prandtl_nq",
    "strip_capacity",
    "terzaghi_nc",
    "terzaghi_nq",
    "vesic_ng",
    "virgin_pressure",
]

FRICTIONLESS = 1e-6  # rad; below it the limits for phi -> 0 hold to rounding
LEAST_REBOUND = 0.02  # assumed: keeps the unloading line finite when a surface gives nothing back


@law
def prandtl_nq(phi: float) -> float:
    """Surcharge factor e^(pi tan phi) tan^2(45 + phi/2). Prandtl 1921, Reissner 1924."""
    return exp(pi * tan(phi)) * tan(pi / 4.0 + 0.5 * phi) ** 2


@law
def prandtl_nc(phi: float) -> float:
    """Cohesion factor (Nq - 1) cot phi, 2 + pi without friction. Prandtl 1921."""
    if phi < FRICTIONLESS:
        return 2.0 + pi
    return (prandtl_nq(phi) - 1.0) / tan(phi)


@law
def meyerhof_ng(phi: float) -> float:
    """Weight factor (Nq - 1) tan(1.4 phi). Meyerhof 1963."""
    return (prandtl_nq(phi) - 1.0) * tan(1.4 * phi)


@law
def vesic_ng(phi: float) -> float:
    """Weight factor 2 (Nq + 1) tan phi. Vesic 1973."""
    return 2.0 * (prandtl_nq(phi) + 1.0) * tan(phi)


@law
def terzaghi_nq(phi: float) -> float:
    """Surcharge factor of a rough strip. Terzaghi 1943."""
    rise = exp(2.0 * (0.75 * pi - 0.5 * phi) * tan(phi))
    return rise / (2.0 * cos(pi / 4.0 + 0.5 * phi) ** 2)


@law
def terzaghi_nc(phi: float) -> float:
    """Cohesion factor of a rough strip, 1 + 3 pi / 2 without friction. Terzaghi 1943."""
    if phi < FRICTIONLESS:
        return 1.0 + 1.5 * pi
    return (terzaghi_nq(phi) - 1.0) / tan(phi)


@law
def strip_capacity(
    cohesion: float, surcharge: float, unit_weight: float, width: float, nc: float, nq: float, ng: float
) -> float:
    """Pressure a strip carries: c Nc + q Nq + 0.5 gamma B Ng (unit weight N/m3). Terzaghi 1943."""
    return cohesion * nc + surcharge * nq + 0.5 * unit_weight * width * ng


@law
def bearing_pressure(cohesion: float, phi: float) -> float:
    """Pressure at which turf yields under a sole: cohesion times Prandtl's Nc.

    The weight term is left out: under a 20 mm sole it is only 3-9 kPa (derived).
    """
    return cohesion * prandtl_nc(phi)


@law
def inclined_cohesion(phi: float, delta: float, aspect: float) -> float:
    """Share of c Nc left where the plate slides, its load inclined by delta (rad). Vesic 1973, from memory.

    i_c = i_q - (1 - i_q) / (Nc tan phi), i_q = (1 - tan delta)^m, m = (2 + B/L) / (1 + B/L); `aspect`
    is B/L, phi > 0. Within 0..1.
    """
    i_q = max(0.0, 1.0 - tan(delta)) ** ((2.0 + aspect) / (1.0 + aspect))
    share: float = i_q - (1.0 - i_q) / (prandtl_nc(phi) * tan(phi))
    return min(1.0, max(0.0, share))


@law
def bekker_pressure(kc: float, kphi: float, n: float, b: float, z: float) -> float:
    """Pressure (kc/b + kphi) z^n on a plate of smaller side b at depth z. Bekker 1969.

    kc in N/m^(n+1), kphi in N/m^(n+2).
    """
    return (kc / b + kphi) * z**n if z > 0.0 else 0.0


@law
def bekker_sinkage(kc: float, kphi: float, n: float, b: float, pressure: float) -> float:
    """Depth at which a plate of smaller side b finds `pressure`: Bekker's law turned round."""
    return (pressure / (kc / b + kphi)) ** (1.0 / n) if pressure > 0.0 else 0.0


@law
def bekker_work(kc: float, kphi: float, n: float, b: float, z: float) -> float:
    """Work per area (J/m2) of pressing a plate to depth z: Bekker's law integrated."""
    return (kc / b + kphi) * z ** (n + 1.0) / (n + 1.0) if z > 0.0 else 0.0


@law
def janosi_shear(c: float, sigma: float, phi: float, slip: float, travel: float) -> float:
    """Shear stress (c + sigma tan phi)(1 - e^(-slip/travel)). Janosi & Hanamoto 1961.

    travel (their K, m) is the slip to 63 % of full shear.
    For soil against steel pass adhesion and the steel friction angle as c and phi.
    """
    return (c + sigma * tan(phi)) * (1.0 - exp(-slip / travel)) if slip > 0.0 else 0.0


@law
def clegg_stiffness(mass: float, gravities: float, drop: float, diameter: float) -> float:
    """Stiffness (Pa/m) that stops a Clegg hammer at G gravities: m (G g)^2 / (2 g h A).

    Derived for a linear spring; hammer masses and drops in ASTM D5874.
    """
    area = 0.25 * pi * diameter**2
    return mass * (gravities * GRAVITY) ** 2 / (2.0 * GRAVITY * drop * area)


@law
def clegg_peak_pressure(mass: float, gravities: float, diameter: float) -> float:
    """Pressure under a Clegg hammer at its peak of G gravities: m G g / A (derived)."""
    return mass * gravities * GRAVITY / (0.25 * pi * diameter**2)


@law
def virgin_pressure(
    depth: float, stiffness: float, yield_pressure: float, cover: float, cover_share: float
) -> float:
    """Pressure of a plate going `depth` into untouched ground: soft cover, firm layer, yield.

    `cover` m thick answers with cover_share * stiffness (Pa/m) until it locks up.
    """
    if depth <= 0.0:
        return 0.0
    soft = cover_share * stiffness
    pressure = soft * depth if depth < cover else soft * cover + stiffness * (depth - cover)
    return min(pressure, yield_pressure)


@law
def plate_pressure(
    depth: float,
    deepest: float,
    stiffness: float,
    yield_pressure: float,
    rebound: float,
    cover: float,
    cover_share: float,
) -> float:
    """Pressure of a plate at `depth` where the ground was already pressed to `deepest` (m).

    Deeper than ever: the virgin curve. Otherwise along the line of slope k / rebound^2 through
    the deepest point, k being the loading stiffness there, and never tension; so on a plain
    linear ground a plate comes back with `rebound` times its speed (derived), and with cover
    or yield with less. Continuous in depth; yield_pressure may be inf, rebound 0..1.
    """
    if depth >= deepest:
        return virgin_pressure(depth, stiffness, yield_pressure, cover, cover_share)
    top = virgin_pressure(deepest, stiffness, yield_pressure, cover, cover_share)
    loading = stiffness if deepest > cover else cover_share * stiffness
    slope = loading / max(rebound, LEAST_REBOUND) ** 2
    return max(0.0, top - slope * (deepest - depth))
