"""Where club and ball meet, and the bottom of the arc: pure geometry (derived)."""

from math import asin, sin, sqrt

from physics.compiled import law

__all__ = ["arc_attack", "arc_height", "clean_contact_height", "edge_contact_normal"]


@law
def clean_contact_height(radius: float, loft: float) -> float:
    """Greatest height of the leading edge (m) at which the face still meets the ball first.

    Ball on a rigid surface, dynamic loft in rad: r (1 - sin loft). Where grass holds the ball up,
    measure the edge from the ball's lowest point.
    """
    return radius * (1.0 - sin(loft))


@law
def edge_contact_normal(radius: float, height: float) -> float:
    """Elevation (rad) of the normal, edge to ball, when an edge at `height` strikes the ball.

    asin(1 - h/r): above 0 thin, at or below 0 topped. Height is held between 0 and 2 r.
    """
    return asin(min(max(1.0 - height / radius, -1.0), 1.0))


@law
def arc_height(u: float, radius: float) -> float:
    """Height (m) over the low point at the distance u along the ground; radius = R / sin plane."""
    return radius - sqrt(radius * radius - u * u)


@law
def arc_attack(u: float, radius: float) -> float:
    """Attack angle (rad, down is negative) at the distance u from the low point."""
    return asin(u / radius)
