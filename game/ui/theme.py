"""What a widget needs to know to look right: colours, type, and measures that grow with the text."""

from dataclasses import dataclass, replace
from functools import cached_property

from game.draw.camera import Rect
from game.draw.palette import DARK, LIGHT, Colour, Palette, mix
from game.draw.type import Type

__all__ = ["LARGEST", "SMALLEST", "Theme", "widget_pairs"]

SMALLEST, LARGEST = 1.0, 2.0  # text scale
USUAL, GROWS = (1280.0, 800.0), 0.8  # px of a usual window, and the power by which text grows beyond it


@dataclass(frozen=True)
class Theme:
    """Paper by day, fen by night, at a text scale of 1 to 2. Measures in px on a rhythm of 8."""

    palette: Palette = LIGHT
    scale: float = 1.0

    @classmethod
    def of(cls, dark: bool, scale: float) -> "Theme":
        """Theme for these settings; the scale is held between 1 and 2."""
        return cls(DARK if dark else LIGHT, min(max(scale, SMALLEST), LARGEST))

    def in_window(self, wide: float, high: float) -> "Theme":
        """The theme for a window (px) this large: words grow with it, a little slower, so that there is never
        less room than in a usual window, where they are as they are set."""
        room = min(wide / USUAL[0], high / USUAL[1])
        most = max(LARGEST, 0.9 * room)
        return replace(self, scale=max(self.scale, min(self.scale * room**GROWS, most)))

    @cached_property
    def type(self) -> Type:
        return Type(self.scale, self.scale)

    @property
    def gap(self) -> float:
        """One step of the rhythm."""
        return 8.0 * self.scale

    @property
    def target(self) -> float:
        """Height of what can be pressed; least target 24 px (WCAG 2.2, 2.5.8)."""
        return 32.0 * self.scale

    @property
    def radius(self) -> float:
        return 4.0 * self.scale

    @property
    def line(self) -> float:
        """A thin line."""
        return max(round(self.scale), 1.0)

    @property
    def ring(self) -> float:
        """Width of the focus ring (at least 2 px: WCAG 2.2, 2.4.13); it stands as far off the widget."""
        return 2.0 * self.scale

    @cached_property
    def accent(self) -> Colour:
        """The one accent: fen teal, drawn toward the ink until it holds its contrast."""
        return mix(self.palette.shirt, self.palette.ink, 0.3)

    @cached_property
    def field(self) -> Colour:
        """Ground of what can be pressed."""
        return mix(self.palette.paper, self.palette.ink, 0.05)

    @cached_property
    def hover(self) -> Colour:
        return mix(self.palette.paper, self.palette.ink, 0.11)

    @cached_property
    def edge(self) -> Colour:
        """Outline of what can be pressed."""
        return mix(self.palette.paper, self.palette.ink, 0.55)

    def around(self, rect: Rect) -> Rect:
        """The box, wider by half a step on both sides: the ring's, where words begin at the edge."""
        return Rect(rect.x - self.gap / 2, rect.y, rect.w + self.gap, rect.h)

    def tone(self, name: str) -> Colour:
        """Colour by name: one of ours (accent, field, hover, edge) or of the palette."""
        own = ("accent", "field", "hover", "edge")
        colour: Colour = getattr(self if name in own else self.palette, name)
        return colour


def widget_pairs(theme: Theme) -> tuple[tuple[str, Colour, Colour, float], ...]:
    """Every pair that widgets must keep apart: (what, front, back, least contrast)."""
    p = theme.palette
    grounds = (("paper", p.paper), ("field", theme.field), ("hover", theme.hover))
    return (
        *((f"ink on {name}", p.ink, back, 4.5) for name, back in grounds),
        *((f"muted on {name}", p.muted, back, 4.5) for name, back in grounds),
        *((f"accent on {name}", theme.accent, back, 4.5) for name, back in grounds),
        ("paper on accent", p.paper, theme.accent, 4.5),
        ("edge on paper", theme.edge, p.paper, 3.0),
        ("edge on field", theme.edge, theme.field, 3.0),
    )
