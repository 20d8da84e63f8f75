"""Sliders over the open controls, each with a tick where it stood before."""

from collections.abc import Callable
from functools import partial

from game.text.junior import plain_value
from game.ui import Slider
from game.ui.slider import for_control
from physics.address import CONTROLS, Intention, Motion, Setup

__all__ = ["OPEN_CONTROLS", "ControlPanel", "value_of"]

OPEN_CONTROLS: dict[str, tuple[str, ...]] = {  # controls open at each level of detail
    "junior": ("shaft_lean", "lean_change"),
    "player": ("ball_position", "shaft_lean", "lean_change", "face_open", "swing_length"),
    "coach": tuple(CONTROLS),
}


def value_of(setup: Setup, motion: Motion, name: str) -> float:
    """Value (SI) of a control."""
    return Intention(setup, motion).value(name)


class ControlPanel:
    """`sliders` in order of the names; `on_change` hears (name, SI value). `numbers` False: in words."""

    def __init__(self, names: tuple[str, ...], on_change: Callable[[str, float], None]) -> None:
        self.names = names
        own = (Setup(), Motion())
        self.sliders: dict[str, Slider] = {}
        for name in names:
            usual = value_of(*own, name)
            self.sliders[name] = for_control(
                CONTROLS[name], usual, partial(on_change, name), default=usual,
                said=partial(plain_value, name),
            )  # fmt: skip

    @property
    def numbers(self) -> bool:
        """Whether values are shown as numbers."""
        return all(slider.numbers for slider in self.sliders.values())

    @numbers.setter
    def numbers(self, shown: bool) -> None:
        for slider in self.sliders.values():
            slider.numbers = shown

    def sync(self, setup: Setup, motion: Motion) -> None:
        """Show these values, without telling of a change."""
        for name, slider in self.sliders.items():
            slider.value = slider.bounds.held(value_of(setup, motion, name) * CONTROLS[name].scale)

    def settle(self) -> None:
        """The values now become the ones before."""
        for slider in self.sliders.values():
            slider.settle()
