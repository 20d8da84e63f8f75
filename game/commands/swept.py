"""What a sweep varies, and what each of its settings gave."""

from dataclasses import dataclass

import numpy as np

from physics.address import Control

__all__ = ["USUAL_STEPS", "Axis", "SweepPoint"]

USUAL_STEPS = {1: 9, 2: 7}  # settings a control gets unasked, by how many controls there are


@dataclass(frozen=True)
class Axis:
    """One control and the settings (SI) it takes."""

    control: Control
    low: float
    high: float
    steps: int | None  # None: as many as usual

    def settings(self, controls: int) -> tuple[float, ...]:
        """Evenly from low to high."""
        return tuple(np.linspace(self.low, self.high, self.steps or USUAL_STEPS[controls]).tolist())


@dataclass(frozen=True)
class SweepPoint:
    """What one setting gave. Lengths in m; nan where nothing was hit or there is no hole."""

    settings: tuple[float, ...]  # as shown, in the controls' units
    carry: float  # median over the strokes that met the ball
    rest: float
    rest_low: float  # 10th and 90th percentile
    rest_high: float
    solid: float
    leave: float  # mean
    strokes: float  # mean expected strokes, this one included; nan for an exact shot
    contact: str = ""  # of an exact shot
    outcome: str = ""
