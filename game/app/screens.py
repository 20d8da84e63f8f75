"""The screens of the bar in their order, each with the class that makes it."""

__all__ = ["SCREENS"]

SCREENS: dict[str, str] = {  # title: module and class
    "Bench": "game.bench.screen:Bench",
    "Play": "game.chapters.screen:Chapters",
    "Ladder": "game.ladder.screen:LadderScreen",
    "Builder": "game.builder.ui.screen:Builder",
    "Notebook": "game.notebook.screen:NotebookScreen",
    "Settings": "game.app.settings_screen:SettingsScreen",
}
