"""Gravity, and the foot, yard, inch and mile in metres: one value of each for the whole house."""

__all__ = ["FOOT", "GRAVITY", "INCH", "MILE", "YARD"]

GRAVITY = 9.81  # m/s2, standard gravity (9.80665, third CGPM 1901) rounded
# m, exact by definition (international yard and pound agreement, 1959)
FOOT, YARD, INCH, MILE = 0.3048, 0.9144, 0.0254, 1609.344
