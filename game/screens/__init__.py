"""One file a screen. The bar shows them in this order."""

__all__ = ["SCREENS"]

SCREENS: dict[str, str] = {  # title: module and class
    "Bench": "game.screens.bench:Bench",
    "Play": "game.screens.chapters:Chapters",
    "Ladder": "game.screens.ladder:LadderScreen",
    "Builder": "game.screens.builder:Builder",
    "Settings": "game.screens.settings:SettingsScreen",
}
