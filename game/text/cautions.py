"""What is said wherever a drill may be taken to grass, and what a side view cannot show."""

__all__ = ["CAUTIONS", "LIMITS", "NOTE", "PRESET_NOTE", "cautions"]

NOTE = "This view shows height and distance, not left and right."
PRESET_NOTE = "Player presets are illustrative."
LIMITS = f"{NOTE} {PRESET_NOTE}"
CAUTIONS = (  # common practice; at most 12 short words each
    "Taking it to grass? Keep two club lengths clear all round.",
    "Indoors use soft balls.",
    "Children need an adult beside them.",
    "Stop when something hurts.",
    "For your own swing, a qualified coach decides.",
)


def cautions() -> str:
    """The usual cautions in one paragraph."""
    return " ".join(CAUTIONS)
