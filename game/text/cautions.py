"""What is said wherever a drill may be taken to grass, and what a side view cannot show."""

__all__ = [
    "CAUTIONS",
    "LEFT_NOTE",
    "LIMITS",
    "MODEL_NOTE",
    "NOTE",
    "PRESET_NOTE",
    "READ_CAUTIONS",
    "cautions",
]

NOTE = "This view shows height and distance, not left and right."
LEFT_NOTE = "Left-handed: the course is seen from behind the player, turf and golfer from the front."
PRESET_NOTE = "Player presets are illustrative."
MODEL_NOTE = "A model, not a measurement of your swing."
LIMITS = f"{NOTE} {PRESET_NOTE}"
CAUTIONS = (  # common practice; at most 12 short words each
    "Taking it to grass? Keep two club lengths clear all round.",
    "Nobody stands in the line of flight.",
    "Indoors use soft balls and beware of rebounds.",
    "Hard mats hurt the wrists: use a thick one.",
    "Children need an adult beside them.",
    "Stop when something hurts.",
    "For your own swing, ask a qualified coach.",
)
READ_CAUTIONS = "Before you play this on grass, read “On grass” beside the row."  # fits the caption line


def cautions() -> str:
    """The usual cautions in one paragraph."""
    return " ".join(CAUTIONS)
