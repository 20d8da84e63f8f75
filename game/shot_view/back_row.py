"""Sizes that can be read from the back of a room, as shares of the height of a projected picture.

Letters: capitals a two-hundredth of the viewing distance high (common practice for signs and slides; 17
minutes of arc, inside the 16 to 22 that ergonomic handbooks ask, from memory). At 5 m: 25 mm. Picture: its
height a sixth of the distance to the last row, the smallest that people who fit out rooms accept for plain
text (common practice): 0.83 m at 5 m. Both together: capitals are 3 % of the picture's height, whatever
the projector, and the same share holds on any screen that fills as much of the view.

Lines: 4 mm at 5 m is 2.8 minutes of arc, nearly three times the one minute that a normal eye resolves
(Snellen 1862): 0.5 % of the height. An arrow's head is three lines wide, so its direction can be told.
"""

from game.draw.type import ROLES
from game.ui import Theme

__all__ = ["CAPITALS", "LINES", "back_row_theme", "back_row_unit"]

CAPITALS = (1.0 / 200.0) / (1.0 / 6.0)  # share of the picture's height
LINES = (0.004 / 5.0) / (1.0 / 6.0)
CAPITAL = 0.727  # height of a capital over the size of the letters: Inter's own measure
THIN = 1.6  # px a unit: the thinnest line that carries meaning here, in units


def back_row_theme(theme: Theme, high: float) -> Theme:
    """The theme whose smallest words can be read from the back row of a picture `high` px tall; never
    smaller than what the reader has set."""
    size = CAPITALS * high / CAPITAL
    return Theme(theme.palette, max(size / ROLES["small"][0], theme.scale))


def back_row_unit(high: float) -> float:
    """The unit of line widths (px) in such a picture."""
    return LINES * high / THIN
