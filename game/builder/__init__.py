"""The Builder's model: the scenario being made, its edits and steps, what can be picked, where it is kept.

What begins with `view_` or `tab_` draws and takes events for the screen in `game.screens.builder`; all
else here knows no pygame.
"""

__all__: list[str] = []
