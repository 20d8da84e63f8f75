"""How the reader likes it: every choice takes effect at once."""

from dataclasses import replace
from typing import Any

import pygame

from game.draw.camera import Rect
from game.library.settings import DETAILS, LENGTHS, Settings
from game.ui import Button, Choice, Column, Heading, Row, Slider, TextBlock, Theme, Toggle, Widget, layout
from game.ui.screen import Host, Screen

__all__ = ["SettingsScreen"]

SCALES = (1.0, 1.25, 1.5, 1.75, 2.0)
NARROW, WIDE = 100.0, 170.0  # steps of the rhythm from which two columns stand beside each other, and three


class SettingsScreen(Screen):
    """The picture, how to play, and the sound: in one column, two or three, as there is room."""

    title = "Settings"

    def __init__(self, app: Host) -> None:
        super().__init__(app)
        self._columns: tuple[Column, ...] = ()
        self._shown: Settings | None = None
        self._left: list[Widget] = []
        self._right: list[Widget] = []
        self._sound: list[Widget] = []

    @property
    def widgets(self) -> tuple[Widget, ...]:
        return self._columns

    def leave(self) -> None:
        self.app.keep()

    def _change(self, **fields: Any) -> None:
        self._shown = replace(self.app.settings, **fields)  # these widgets show it already
        self.app.change(**fields)

    def _standard(self) -> None:
        kept = self.app.settings
        self.app.settings_to(replace(Settings(), width=kept.width, height=kept.height))
        self.app.say("All settings are back to the standard.")

    def _build(self, s: Settings) -> None:
        """The widgets for these settings, unless they are there."""
        if self._shown == s:
            return
        self._shown = s
        near = min(range(len(SCALES)), key=lambda i: abs(SCALES[i] - s.text_scale))
        sizes = [f"{scale:.0%}".replace("%", " %") for scale in SCALES]
        self._left = [
            Heading("Picture"),
            Choice("Text size", sizes, near, lambda i: self._change(text_scale=SCALES[i]), default=0,
                   tooltip="How large words are; Ctrl and + or - do it anywhere."),
            Choice("Light", ("Paper", "Night"), int(s.dark), lambda i: self._change(dark=bool(i)), default=0,
                   tooltip="Dark words on light paper, or light words on a dark page."),
            Toggle("Reduced motion", s.reduced_motion, lambda v: self._change(reduced_motion=v),
                   tooltip="Pictures change at once, nothing slides."),
        ]  # fmt: skip
        self._right = [
            Heading("Player"),
            Choice("Detail", [d.title() for d in DETAILS], DETAILS.index(s.detail),
                   lambda i: self._change(detail=DETAILS[i]), default=1,
                   tooltip="How much you see: junior is short, coach shows all."),
            Choice("Lengths", ("Metres", "Yards"), LENGTHS.index(s.units),
                   lambda i: self._change(units=LENGTHS[i]), default=0, tooltip="Unit of long distances."),
            Toggle("Left-handed", s.left_handed, lambda v: self._change(left_handed=v),
                   tooltip="The golfer stands the other way round."),
        ]  # fmt: skip
        self._sound = [
            Heading("Sound"),
            Toggle("Sound", s.sound, lambda v: self._change(sound=v),
                   tooltip="Each sound also stands in words at the foot of the window."),
            Slider("Volume", 100 * s.volume, 0, 100, lambda v: self._change(volume=v / 100), unit="%", step=5,
                   finer=1, coarse=20, default=60, tooltip="How loud the sounds are."),
            Row([Button("All back to standard", self._standard)]),
            TextBlock("Settings are kept when you leave.", "small", "muted"),
        ]  # fmt: skip

    def handle(self, event: pygame.event.Event) -> bool:
        """Page keys turn the page where a column is too long to show whole."""
        pages = event.type == pygame.KEYDOWN and event.key in (pygame.K_PAGEUP, pygame.K_PAGEDOWN)
        return pages and any([column.handle(event) for column in self._columns])

    def layout(self, box: Rect, theme: Theme) -> None:
        self._build(self.app.settings)
        inner = box.inset(2 * theme.gap)
        if box.w < NARROW * theme.gap:
            self._arrange([[*self._left, *self._right, *self._sound]])
            self._columns[0].place(inner, theme)
            return
        groups = [self._left, self._right, self._sound]
        if box.w < WIDE * theme.gap:
            groups = [self._left, [*self._right, *self._sound]]
        self._arrange(groups)
        parts = layout.split(inner, [1.0] * len(groups), 6 * theme.gap)
        for column, part in zip(self._columns, parts, strict=True):
            column.place(part, theme)

    def _arrange(self, groups: list[list[Widget]]) -> None:
        """Columns over these widgets; the same ones stay, so that they keep how far they were scrolled."""
        if [c.items for c in self._columns] != [tuple(g) for g in groups]:
            self._columns = tuple(Column(g, 2.0) for g in groups)
