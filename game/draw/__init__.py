"""How a Shot looks: world to screen, scenery, path, turf window, golfer, words."""

from game.draw.picture import draw_shot, save_png

__all__ = ["draw_shot", "save_png"]
