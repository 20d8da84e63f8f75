"""The few widgets a bench needs: drawn by us, reached by every key, readable at twice the size."""

from game.ui.boxes import Column, Row
from game.ui.button import Button, Toggle
from game.ui.choice import Choice
from game.ui.focus import Focus
from game.ui.number import NumberEntry
from game.ui.slider import Slider
from game.ui.text import Heading, HeldLine, Pair, TextBlock
from game.ui.theme import Theme
from game.ui.widget import Widget

__all__ = [
    "Button", "Choice", "Column", "Focus", "Heading", "HeldLine", "NumberEntry", "Pair", "Row", "Slider",
    "TextBlock", "Theme", "Toggle", "Widget",
]  # fmt: skip
