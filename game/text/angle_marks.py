"""The angles drawn on the head: lean, loft and bounce as labels, with numbers or in a child's words."""

from game.text.quantity import angle_words

__all__ = ["EDGE_WORDS", "bounce_label", "lean_label", "loft_label"]

EDGE_WORDS = "leading edge"
UPRIGHT = 0.035  # rad (2 degrees) within which a child is told that a thing is level, assumed


def lean_label(lean: float, numbers: bool) -> str:
    """`lean 9°`; in words `handle forward`."""
    if numbers:
        return f"lean {angle_words(lean)}"
    return "handle forward" if lean > UPRIGHT else "handle back" if lean < -UPRIGHT else "handle upright"


def loft_label(loft: float, numbers: bool) -> str:
    """`loft 47°`; in words `loft`."""
    return f"loft {angle_words(loft)}" if numbers else "loft"


def bounce_label(bounce: float, numbers: bool) -> str:
    """`bounce -4°`; in words what is lowest: `sole low` or `edge low`."""
    if numbers:
        return f"bounce {angle_words(bounce)}"
    return "sole low" if bounce > UPRIGHT else "edge low" if bounce < -UPRIGHT else "sole flat"
