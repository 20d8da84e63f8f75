"""Controls in a child's words: where one stands, and what to try. No numbers; sentences of short words."""

from physics.address import CONTROLS

__all__ = ["ADVICE", "PLAIN", "advice", "plain_value"]

# of each control: words from its low end to its high one, and the share of the range where each ends
PLAIN: dict[str, tuple[tuple[float, str], ...]] = {
    "ball_position": ((0.30, "back"), (0.62, "middle"), (1.0, "forward")),
    "shaft_lean": ((0.28, "back"), (0.40, "upright"), (0.64, "a bit forward"), (1.0, "far forward")),
    "stance_width": ((0.18, "narrow"), (0.50, "middle"), (1.0, "wide")),
    "face_open": ((0.06, "square"), (0.45, "a bit open"), (1.0, "wide open")),
    "lead_weight": ((0.35, "even"), (0.65, "lead foot"), (1.0, "all on lead")),
    "swing_length": ((0.25, "short"), (0.55, "middle"), (1.0, "long")),
    "release": ((0.28, "hands lead"), (0.50, "as one"), (1.0, "club passes")),
    "follow_through": ((0.30, "short"), (0.70, "middle"), (1.0, "long")),
    # within a degree of the address (share 0.4) the lean is matched, common practice
    "lean_change": ((0.362, "club passes"), (0.438, "as set"), (0.64, "a bit forward"), (1.0, "far forward")),
    "drop": ((0.30, "stay tall"), (0.80, "dip a bit"), (1.0, "dip")),
    "depth": ((0.28, "high"), (0.45, "brush"), (1.0, "deep")),
}

# of each control: what to try for more of it, and for less
ADVICE: dict[str, tuple[str, str]] = {
    "ball_position": ("Put the ball more to the front.", "Put the ball more to the back."),
    "shaft_lean": ("Lean the handle more to the hole at the start.",
                   "Lean the handle less to the hole at the start."),
    "stance_width": ("Put your feet further apart.", "Put your feet closer together."),
    "face_open": ("Open the face a bit more.", "Open the face less."),
    "lead_weight": ("Stand more on your lead foot.", "Stand less on your lead foot."),
    "swing_length": ("Swing further back.", "Make a shorter swing."),
    "release": ("Let the club pass your hands more.", "Let the club pass your hands less."),
    "follow_through": ("Make a longer finish.", "Make a shorter finish."),
    "lean_change": ("Bring the handle back further forward.", "Bring the handle back less far forward."),
    "drop": ("Dip a bit more to reach the ball.", "Stay taller at the ball."),
    "depth": ("Aim the club a bit deeper.", "Aim the club a bit higher."),
}  # fmt: skip


def plain_value(name: str, value: float) -> str:
    """Where a control stands at a value (SI), in words. KeyError for an unknown control."""
    control = CONTROLS[name]
    share = (value - control.low) / (control.high - control.low)
    return next((word for end, word in PLAIN[name] if share <= end + 1e-9), PLAIN[name][-1][1])


def advice(name: str, now: float, best: float) -> str:
    """What to try so that a control moves from a value to a better one (SI). KeyError when unknown."""
    if name == "lean_change" and best < now and abs(best) < 0.5 * abs(now):
        return "Bring the handle back to where it was at the start."
    return ADVICE[name][0 if best > now else 1]
