"""The door of the notebook: what was played, where one is strong, what is next, and who plays."""

from game.notebook.screen import NotebookScreen

__all__ = ["NotebookScreen"]
