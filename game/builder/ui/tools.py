"""The tools: short words with a drawing, one in hand at a time, each with its key and its sentence."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pygame

from game.builder.ui.glyphs import GLYPH_HEIGHT, GLYPH_WIDTH, glyph
from game.draw.camera import Rect
from game.ui import Row, Theme, Widget, paint
from game.ui.button import pressed

__all__ = ["TOOLS", "ToolButton", "ToolRow", "tool"]


@dataclass(frozen=True)
class Tool:
    """`takes` is what it wants: nothing, a place, a stretch from one place to another, or a line."""

    name: str
    label: str
    key: str
    takes: str
    usage: str  # what to do with it, a sentence

    @property
    def code(self) -> int:
        return ord(self.key.lower())


TOOLS: tuple[Tool, ...] = (
    Tool("move", "Move", "M", "", "Drag anything. Tab goes from object to object, the arrows move it."),
    Tool("point", "Point", "I", "place", "Press where the ground is to have a new point."),
    Tool("draw", "Draw", "D", "line", "Draw the ground with one stroke; it replaces what lay there."),
    Tool("surface", "Surface", "S", "stretch", "Drag along the ground to change what grows or lies there."),
    Tool("even", "Smooth", "E", "stretch", "Drag along the ground to make it smoother."),
    Tool(
        "bunker",
        "Bunker",
        "B",
        "stretch",
        "Drag from edge to edge of the new bunker; a press alone digs a small one.",
    ),
    Tool("water", "Water", "W", "place", "Press where water is to be."),
    Tool("wall", "Wall", "A", "place", "Press where a wall is to stand."),
    Tool("lip", "Lip", "L", "place", "Press where sand ends: the turf hangs over there."),
    Tool("tree", "Tree", "T", "place", "Press where a tree is to stand."),
    Tool("out_of_bounds", "Out", "X", "place", "Press where out of bounds begins."),
    Tool("hole", "Hole", "H", "place", "Press where the hole is to be; it needs green around it."),
    Tool("ball", "Ball", "O", "place", "Press where the ball is to lie; all distances count from it."),
    Tool("land", "Landing", "N", "stretch", "Drag along the ground: the ball has to land there first."),
    Tool("clear", "Clear", "C", "place", "Press in the air: the ball has to fly over that place."),
)


def tool(name: str) -> Tool:
    """The tool of that name."""
    return next(t for t in TOOLS if t.name == name)


class ToolButton(Widget):
    """A drawing over its word. Enter, Space or a click takes it in hand."""

    def __init__(
        self, name: str, label: str, on_press: Callable[[], None], *, tooltip: str = "", group: str = "",
    ) -> None:  # fmt: skip
        super().__init__(label, tooltip=tooltip, group=group)
        self.name, self.on_press, self.current = name, on_press, False
        self.by_key = False  # how it was pressed last

    def width(self, theme: Theme) -> float:
        return max(theme.type.width(self.label, "small") + theme.gap, GLYPH_WIDTH * theme.scale + theme.gap)

    def height(self, theme: Theme, width: float) -> float:
        return GLYPH_HEIGHT * theme.scale + theme.type.line("small") + 0.75 * theme.gap

    def handle(self, event: pygame.event.Event) -> bool:
        self.by_key = event.type == pygame.KEYDOWN
        return pressed(self, event, self.on_press)

    def draw(self, surface: pygame.Surface, theme: Theme) -> None:
        r = self.rect
        if self.current:
            paint.box(surface, r, theme.field, theme.accent, theme.radius, 2 * theme.line)
        elif self.hovered and self.enabled:
            paint.box(surface, r, theme.hover, None, theme.radius)
        drawn = glyph(self.name, theme.palette, theme.scale, not self.enabled)
        x = round(r.x + (r.w - drawn.get_width()) / 2)
        surface.blit(drawn, (x, round(r.y + 0.4 * theme.gap)))
        y = r.bottom - theme.type.line("small") - 0.3 * theme.gap
        tone = "ink" if self.current else "muted"
        paint.text(surface, theme, self.label, "small", r.x + r.w / 2, y, tone, 0.5)
        self.draw_focus(surface, theme)


class ToolRow(Row):
    """Tool buttons beside each other with a little air between the families, in as many rows as needed."""

    def __init__(self, families: Sequence[Sequence[ToolButton]]) -> None:
        super().__init__([b for f in families for b in f])
        self.families = tuple(tuple(f) for f in families)

    def _boxes(self, theme: Theme, box: Rect) -> tuple[Rect, ...]:
        out: list[Rect] = []
        x, y = box.x, box.y
        air = (0.15 if box.w < 150 * theme.gap else 0.5) * theme.gap
        for family in self.families:
            for b in family:
                wide, tall = b.width(theme), b.height(theme, 0.0)
                if out and x + wide > box.right + 0.5:
                    x, y = box.x, y + tall + theme.gap / 4
                out.append(Rect(x, y, wide, tall))
                x += wide + air
            x += 3 * air
        return tuple(out)
