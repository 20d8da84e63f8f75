"""The four small courses a new scenario can begin from, each legal and ready to be changed."""

from typing import Any

from levels.draft import Draft

__all__ = ["STARTS", "new_draft"]

_GROUNDS: dict[str, list[tuple[float, float, str | None]]] = {
    "plain green": [
        (-8.0, 0.0, "fairway"), (3.0, 0.0, "fringe"), (4.0, 0.0, "green"), (20.0, 0.0, "fringe"),
        (26.0, 0.0, None),
    ],
    "bunker between": [
        (-8.0, 0.0, "fairway"), (2.5, 0.0, "sand"), (2.9, -0.4, "sand"), (3.7, -0.6, "sand"),
        (4.6, -0.5, "sand"), (5.0, 0.0, "fringe"), (5.6, 0.05, "green"), (18.0, 0.05, "fringe"),
        (24.0, 0.0, None),
    ],
    "slope up": [
        (-8.0, 0.0, "fairway"), (1.0, 0.0, "fairway"), (3.0, 0.4, "fringe"), (4.0, 0.65, "green"),
        (9.0, 1.0, "green"), (18.0, 1.1, "fringe"), (24.0, 1.1, None),
    ],
    "tight behind water": [
        (-8.0, 0.0, "tight"), (2.0, 0.0, "rough"), (2.8, -0.5, "rough"), (4.8, -0.5, "rough"),
        (5.6, 0.05, "fringe"), (6.4, 0.1, "green"), (18.0, 0.1, "fringe"), (24.0, 0.1, None),
    ],
}  # fmt: skip
_HAZARDS: dict[str, list[dict[str, Any]]] = {
    "bunker between": [{"kind": "lip", "x_m": 5.0, "height_m": 0.12, "overhang_m": 0.05}],
    "tight behind water": [{"kind": "water", "left_m": 2.3, "right_m": 5.2, "level_m": -0.2}],
}
STARTS = tuple(_GROUNDS)


def new_draft(kind: str) -> Draft:
    """A legal draft to begin with; `kind` is one of STARTS (KeyError for any other)."""
    ground = [{"x_m": x, "y_m": y} | ({"surface": s} if s else {}) for x, y, s in _GROUNDS[kind]]
    return Draft(
        {
            "format": 1,
            "title": f"New: {kind}",
            "player": "club",
            "clubs": ["GW-high", "SW", "LW"],
            "open_controls": ["ball_position", "shaft_lean", "swing_length"],
            "green_speed_m": 3.0,
            "ground": ground,
            "hazards": _HAZARDS.get(kind, []),
            "hole": {"x_m": 10.0, "flagstick": True},
            "lie": {"lift_mm": 0.0},
            "default_setup": {"club": "SW"},
            "default_motion": {"swing_length_deg": 45.0},
            "goal": {"leave_m": 1.5, "shots": 3, "successes": 2, "in_a_row": False},
        }
    )
