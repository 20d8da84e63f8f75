"""How a Shot looks: world to screen, scenery, path, turf window, golfer, words."""

__all__: list[str] = []
